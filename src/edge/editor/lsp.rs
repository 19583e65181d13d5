//! The conversation over standard input and output: what comes in waits in a queue, and the newest text comes first.

use super::frames::{Conversation, tell};
use super::queue::Queue;
use super::server::Server;
use crate::edge::loader::process_lives;
use lsp_server::{Connection, Message, Request, RequestId, Response};
use serde_json::{Value, json};
use std::time::Duration;

/// How long the typing has to pause before the other files of the folder are looked at.
const PAUSE: Duration = Duration::from_millis(250);

/// How often it is asked whether the editor still lives, when it says nothing.
const LOOK: Duration = Duration::from_secs(2);

/// Serves an editor over standard input and output until it ends. `true` when it ended as the protocol asks.
///
/// # Errors
/// When the conversation breaks off, in plain words.
pub fn serve() -> Result<bool, String> {
    let conversation = Conversation::start();
    let ended = converse(&conversation.connection);
    conversation.end(ended == Ok(true));
    ended
}

fn converse(connection: &Connection) -> Result<bool, String> {
    let began = connection.initialize_start();
    let (id, params) =
        began.map_err(|_| "the editor did not begin with `initialize`, as the protocol asks".to_owned())?;
    let (mut server, result) = Server::start(&params);
    connection.initialize_finish(id, result).map_err(|error| error.to_string())?;
    let watches = "/capabilities/workspace/didChangeWatchedFiles/dynamicRegistration";
    if params.pointer(watches) == Some(&json!(true)) {
        send(connection, Message::Request(watch_files()))?;
    }
    let editor = params.get("processId").and_then(Value::as_u64).and_then(|process| u32::try_from(process).ok());
    let mut queue = Queue::default();
    loop {
        if queue.is_empty() && server.has_changed().is_none() {
            let wait = if server.has_more() { PAUSE } else { LOOK };
            match connection.receiver.recv_timeout(wait) {
                Ok(message) => queue.push(message),
                // Its end of the pipe may live on in a process that it has started.
                Err(error) if error.is_timeout() && !editor.is_none_or(process_lives) => {
                    tell(&format!("the editor (process {}) is gone", editor.unwrap_or_default()));
                    return Ok(false);
                }
                Err(error) if error.is_timeout() => look_at_others(connection, &mut server)?,
                // The editor is gone without a word.
                Err(_) => return Ok(false),
            }
        }
        drain(connection, &mut queue);
        match queue.pop() {
            Some(Message::Request(request)) => {
                let response = answer(connection, &mut server, &mut queue, request);
                send(connection, Message::Response(response))?;
            }
            Some(Message::Notification(note)) if note.method == "exit" => return Ok(server.ending),
            Some(Message::Notification(note)) => server.tell(note),
            // Answers to the one request that the server makes say nothing.
            Some(Message::Response(_)) => {}
            None => tell_problems(connection, &mut server, &mut queue)?,
        }
    }
}

/// Answers a request, unless it is not wanted any more when its turn comes or when the answer is ready.
fn answer(connection: &Connection, server: &mut Server, queue: &mut Queue, request: Request) -> Response {
    let refused = |queue: &Queue| {
        queue.dropped(&request).map(|dropped| {
            let (code, why) = dropped.code();
            Response::new_err(request.id.clone(), code, why.to_owned())
        })
    };
    if let Some(response) = refused(queue) {
        return response;
    }
    let response = server.answer(request.clone());
    drain(connection, queue);
    refused(queue).unwrap_or(response)
}

/// Tells the problems of one changed text, unless a newer text came in meanwhile.
fn tell_problems(connection: &Connection, server: &mut Server, queue: &mut Queue) -> Result<(), String> {
    let Some(uri) = server.has_changed() else { return Ok(()) };
    let note = server.tell_problems();
    drain(connection, queue);
    match note {
        Some(note) if !queue.changes(&uri) => send(connection, Message::Notification(note)),
        _ => Ok(()),
    }
}

/// Looks at the other files one by one, as long as nothing comes in.
fn look_at_others(connection: &Connection, server: &mut Server) -> Result<(), String> {
    while server.has_more() && connection.receiver.is_empty() {
        if let Some(note) = server.tell_more() {
            send(connection, Message::Notification(note))?;
        }
    }
    Ok(())
}

fn drain(connection: &Connection, queue: &mut Queue) {
    while let Ok(message) = connection.receiver.try_recv() {
        queue.push(message);
    }
}

fn send(connection: &Connection, message: Message) -> Result<(), String> {
    connection.sender.send(message).map_err(|_| "the editor does not listen any more".to_owned())
}

/// Asks the editor to tell when files change on disk.
fn watch_files() -> Request {
    let options = json!({ "watchers": [{ "globPattern": "**/*.miche" }] });
    let registration =
        json!({ "id": "files", "method": "workspace/didChangeWatchedFiles", "registerOptions": options });
    Request::new(
        RequestId::from("watch-files".to_owned()),
        "client/registerCapability".to_owned(),
        json!({ "registrations": [registration] }),
    )
}
