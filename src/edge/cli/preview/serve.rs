//! The server: which address gives what, and how a page is told that something changed.

use super::guard::{self, DATA_POLICY, HEADERS, PAGE_POLICY, SOURCE_POLICY};
use super::page;
use super::source_page;
use super::state::State;
use super::view::{self, Asked};
use http_body_util::channel::Channel;
use http_body_util::combinators::BoxBody;
use http_body_util::{BodyExt, Full};
use hyper::body::{Bytes, Incoming};
use hyper::header::{CONTENT_SECURITY_POLICY, CONTENT_TYPE, HeaderName, HeaderValue};
use hyper::{Request, Response, StatusCode};
use hyper_util::rt::{TokioIo, TokioTimer};
use std::convert::Infallible;
use std::net::TcpListener;
use std::sync::Arc;
use std::time::Duration;
use tokio::sync::Semaphore;

/// The most connections at once; more wait their turn.
const MOST_CONNECTIONS: usize = 256;
/// How long a request may take to say what it wants.
const SLOWEST_REQUEST: Duration = Duration::from_secs(10);
/// How often a listening page is greeted, so that one that has gone away is noticed.
const GREETING: Duration = Duration::from_secs(15);

type Body = BoxBody<Bytes, Infallible>;

/// Serves until the program is told to end.
///
/// # Errors
/// In plain words, when the server cannot start.
pub(super) fn run(listener: TcpListener, state: Arc<State>) -> Result<(), String> {
    let started = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(2)
        .max_blocking_threads(4)
        .enable_all()
        .build()
        .map_err(|error| error.to_string())?;
    let ended = started.block_on(async {
        listener.set_nonblocking(true).map_err(|error| error.to_string())?;
        let listener = tokio::net::TcpListener::from_std(listener).map_err(|error| error.to_string())?;
        tokio::select! {
            () = accept(listener, state) => {}
            () = told_to_end() => {}
        }
        Ok(())
    });
    // Whoever still listens is let go; a plan being looked for is not waited for.
    started.shutdown_background();
    ended
}

async fn told_to_end() {
    #[cfg(unix)]
    {
        use tokio::signal::unix::{SignalKind, signal};
        if let Ok(mut ended) = signal(SignalKind::terminate()) {
            tokio::select! {
                _ = tokio::signal::ctrl_c() => {}
                _ = ended.recv() => {}
            }
            return;
        }
    }
    // If not even that can be heard, the system's own way of ending a program still works.
    if tokio::signal::ctrl_c().await.is_err() {
        std::future::pending::<()>().await;
    }
}

async fn accept(listener: tokio::net::TcpListener, state: Arc<State>) {
    let places = Arc::new(Semaphore::new(MOST_CONNECTIONS));
    loop {
        let Ok(place) = Arc::clone(&places).acquire_owned().await else { return };
        let Ok((stream, _)) = listener.accept().await else {
            // Out of files to open, mostly: others have to close first.
            tokio::time::sleep(Duration::from_millis(50)).await;
            continue;
        };
        // Small answers are sent at once; when that cannot be set they are only later.
        let _ = stream.set_nodelay(true);
        let state = Arc::clone(&state);
        tokio::spawn(async move {
            let service = hyper::service::service_fn(move |request| answer(Arc::clone(&state), request));
            let mut http = hyper::server::conn::http1::Builder::new();
            http.timer(TokioTimer::new()).header_read_timeout(SLOWEST_REQUEST).max_buf_size(16 * 1024);
            // A reader that goes away in the middle is no mistake of ours.
            let _ = http.serve_connection(TokioIo::new(stream), service).await;
            drop(place);
        });
    }
}

async fn answer(state: Arc<State>, request: Request<Incoming>) -> Result<Response<Body>, Infallible> {
    if let Err(status) = guard::allows(request.method(), request.headers(), state.port) {
        let mut refused = plain(status, "This server answers only its own page, on this machine.\n");
        if status == StatusCode::METHOD_NOT_ALLOWED {
            refused.headers_mut().insert("allow", HeaderValue::from_static("GET, HEAD"));
        }
        return Ok(refused);
    }
    let query = request.uri().query().unwrap_or_default().to_owned();
    Ok(match request.uri().path() {
        "/events" => events(&state),
        path => match page::asset(path) {
            Some(asset) => response(StatusCode::OK, asset.kind, PAGE_POLICY, Bytes::from_static(asset.bytes)),
            None => made(state, path.to_owned(), query).await,
        },
    })
}

/// What has to be made for the request.
async fn made(state: Arc<State>, path: String, query: String) -> Response<Body> {
    let _place = match path.as_str() {
        "/plan" => state.planning.acquire().await.ok(),
        _ => None,
    };
    let worker = Arc::clone(&state);
    let made = tokio::task::spawn_blocking(move || make(&worker, &path, &query)).await;
    made.unwrap_or_else(|_| plain(StatusCode::INTERNAL_SERVER_ERROR, "This could not be shown.\n"))
}

fn make(state: &State, path: &str, query: &str) -> Response<Body> {
    if path == "/recipes" {
        return json(&view::list(&state.place));
    }
    if !["/state", "/card", "/plan", "/source"].contains(&path) {
        return plain(StatusCode::NOT_FOUND, "There is nothing here.\n");
    }
    let Some(asked) = Asked::of(&state.place, query) else {
        return plain(StatusCode::NOT_FOUND, "There is no such recipe in this folder.\n");
    };
    match path {
        "/plan" => match view::plan_page(&state.good, &asked) {
            Ok(html) => sheet(html),
            Err(why) => html(SOURCE_POLICY, page::message("No plan", &why)),
        },
        "/source" => match view::read(&asked.path, &asked.name) {
            Ok(read) => html(SOURCE_POLICY, source_page::render(&state.place, &read)),
            Err(why) => html(SOURCE_POLICY, page::message("Not readable", &why)),
        },
        _ => match state.view(&asked) {
            Err(why) => plain(StatusCode::NOT_FOUND, &format!("{why}\n")),
            Ok(view) if path == "/state" => json(&view.state),
            Ok(view) => match &view.card {
                Some(card) => sheet(card.clone()),
                None => html(SOURCE_POLICY, page::message("No card", view.state.said.as_deref().unwrap_or_default())),
            },
        },
    }
}

/// Tells a page of each new state of the files. A slow reader is told of the last one only.
fn events(state: &Arc<State>) -> Response<Body> {
    let (mut sender, channel) = Channel::<Bytes, Infallible>::new(1);
    let mut version = state.version.subscribe();
    let run = state.run;
    tokio::spawn(async move {
        loop {
            let now = *version.borrow_and_update();
            // An end of the other side ends this.
            if sender.send_data(Bytes::from(format!("event: state\ndata: {run:x}-{now}\n\n"))).await.is_err() {
                return;
            }
            loop {
                match tokio::time::timeout(GREETING, version.changed()).await {
                    Ok(Ok(())) => break,
                    Ok(Err(_)) => return,
                    Err(_) if sender.send_data(Bytes::from_static(b": still here\n\n")).await.is_err() => return,
                    Err(_) => {}
                }
            }
        }
    });
    answered(StatusCode::OK, "text/event-stream", DATA_POLICY, channel.boxed())
}

fn json(value: &impl serde::Serialize) -> Response<Body> {
    match serde_json::to_vec(value) {
        Ok(text) => response(StatusCode::OK, "application/json", DATA_POLICY, Bytes::from(text)),
        Err(error) => plain(StatusCode::INTERNAL_SERVER_ERROR, &error.to_string()),
    }
}

fn sheet(text: String) -> Response<Body> {
    let policy = guard::sheet_policy(&text);
    response(StatusCode::OK, "text/html; charset=utf-8", &policy, Bytes::from(text))
}

fn html(policy: &str, text: String) -> Response<Body> {
    response(StatusCode::OK, "text/html; charset=utf-8", policy, Bytes::from(text))
}

fn plain(status: StatusCode, text: &str) -> Response<Body> {
    response(status, "text/plain; charset=utf-8", DATA_POLICY, Bytes::from(text.to_owned()))
}

fn response(status: StatusCode, kind: &'static str, policy: &str, bytes: Bytes) -> Response<Body> {
    answered(status, kind, policy, Full::new(bytes).boxed())
}

fn answered(status: StatusCode, kind: &'static str, policy: &str, body: Body) -> Response<Body> {
    let mut response = Response::new(body);
    *response.status_mut() = status;
    let headers = response.headers_mut();
    headers.insert(CONTENT_TYPE, HeaderValue::from_static(kind));
    if let Ok(policy) = HeaderValue::from_str(policy) {
        headers.insert(CONTENT_SECURITY_POLICY, policy);
    }
    for (name, value) in HEADERS {
        headers.insert(HeaderName::from_static(name), HeaderValue::from_static(value));
    }
    response
}
