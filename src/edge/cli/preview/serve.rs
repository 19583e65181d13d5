//! The server: which address gives what, and how a page is told that something changed.

use super::doors::{Asking, Guest};
use super::guard::{self, DATA_POLICY, HEADERS, PAGE_POLICY, SOURCE_POLICY};
use super::page;
use super::source_page;
use super::state::{self, State};
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
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

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
        .max_blocking_threads(state::AT_ONCE.iter().sum::<usize>() + 2)
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
    loop {
        let Ok((stream, _)) = listener.accept().await else {
            // Out of files to open, mostly: others have to close first.
            tokio::time::sleep(Duration::from_millis(50)).await;
            continue;
        };
        while !state.doors.has_room() {
            tokio::time::sleep(Duration::from_millis(10)).await;
        }
        // Small answers are sent at once; when that cannot be set they are only later.
        let _ = stream.set_nodelay(true);
        let guest = Guest::new();
        let (here, asks) = (Arc::clone(&state), Arc::clone(&guest));
        let connection = tokio::spawn(async move {
            let service = hyper::service::service_fn(move |request| answer(Arc::clone(&here), asks.asks(), request));
            let mut http = hyper::server::conn::http1::Builder::new();
            http.timer(TokioTimer::new()).header_read_timeout(SLOWEST_REQUEST).max_buf_size(16 * 1024);
            // A reader that goes away in the middle is no mistake of ours.
            let _ = http.serve_connection(TokioIo::new(stream), service).await;
        });
        state.doors.let_in(guest, connection.abort_handle());
    }
}

async fn answer(state: Arc<State>, asking: Asking, request: Request<Incoming>) -> Result<Response<Body>, Infallible> {
    if let Err(status) = guard::allows(request.method(), request.headers(), state.port) {
        let mut refused = plain(status, "This server answers only its own page, on this machine.\n");
        if status == StatusCode::METHOD_NOT_ALLOWED {
            refused.headers_mut().insert("allow", HeaderValue::from_static("GET, HEAD"));
        }
        return Ok(refused);
    }
    let query = request.uri().query().unwrap_or_default();
    Ok(match request.uri().path() {
        "/events" => events(&state, asking),
        "/recipes" => response(StatusCode::OK, "application/json", DATA_POLICY, state.list().await),
        path @ ("/state" | "/card" | "/plan" | "/source") => match Asked::of(&state.place, query) {
            Some(asked) => made(&state, path, asked).await,
            None => plain(StatusCode::NOT_FOUND, "There is no such recipe in this folder.\n"),
        },
        path => match page::asset(path) {
            Some(asset) => response(StatusCode::OK, asset.kind, PAGE_POLICY, Bytes::from_static(asset.bytes)),
            None => plain(StatusCode::NOT_FOUND, "There is nothing here.\n"),
        },
    })
}

/// What has to be made for the request.
async fn made(state: &Arc<State>, path: &str, asked: Asked) -> Response<Body> {
    match path {
        "/plan" => planned(state, asked).await,
        "/source" => {
            let _place = state.working.acquire().await;
            let worker = Arc::clone(state);
            let text = tokio::task::spawn_blocking(move || {
                view::read(&worker.place, &asked).map(|read| source_page::render(&worker.place, &read))
            });
            match text.await {
                Ok(Ok(text)) => html(SOURCE_POLICY, text),
                Ok(Err(why)) => html(SOURCE_POLICY, page::message("Not readable", &why)),
                Err(_) => failed(),
            }
        }
        _ => match state.view(&asked).await {
            Err(why) => plain(StatusCode::NOT_FOUND, &format!("{why}\n")),
            Ok(view) if path == "/state" => json(&view.state),
            Ok(view) => match &view.card {
                Some(card) => sheet(card.clone()),
                None => html(SOURCE_POLICY, page::message("No card", view.state.said.as_deref().unwrap_or_default())),
            },
        },
    }
}

/// A plan, looked for as long as somebody waits for it.
async fn planned(state: &Arc<State>, asked: Asked) -> Response<Body> {
    let _place = state.planning.acquire().await;
    // When whoever asked goes away, this future is dropped, and with it the guard.
    let given_up = GivenUp::default();
    let stop = Arc::clone(&given_up.0);
    let worker = Arc::clone(state);
    let plan = tokio::task::spawn_blocking(move || {
        view::plan_page(&worker.place, &worker.good, &asked, &|| stop.load(Ordering::Relaxed))
    });
    let answer = match plan.await {
        Ok(Ok(html)) => sheet(html),
        Ok(Err(why)) => html(SOURCE_POLICY, page::message("No plan", &why)),
        Err(_) => failed(),
    };
    drop(given_up);
    answer
}

/// Says, once it is dropped, that nobody waits any more.
#[derive(Default)]
struct GivenUp(Arc<AtomicBool>);

impl Drop for GivenUp {
    fn drop(&mut self) {
        self.0.store(true, Ordering::Relaxed);
    }
}

fn failed() -> Response<Body> {
    plain(StatusCode::INTERNAL_SERVER_ERROR, "This could not be shown.\n")
}

/// Tells a page of each new state of the files. A slow reader is told of the last one only.
fn events(state: &Arc<State>, asking: Asking) -> Response<Body> {
    let (mut sender, channel) = Channel::<Bytes, Infallible>::new(1);
    let mut version = state.version.subscribe();
    let run = state.run;
    let listener = tokio::spawn(async move {
        let _asking = asking;
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
    state.doors.listens(listener.abort_handle());
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
