//! Messages that wait for their turn, so that what is no longer wanted is never worked on.

use lsp_server::{ErrorCode, Message, Request, RequestId};
use serde_json::Value;
use std::collections::{HashSet, VecDeque};

/// Why a request is not answered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Dropped {
    /// The editor took it back.
    Cancelled,
    /// The text that it asks about has changed since.
    Old,
}

impl Dropped {
    /// As the protocol says it.
    pub(super) fn code(self) -> (i32, &'static str) {
        match self {
            Dropped::Cancelled => (ErrorCode::RequestCanceled as i32, "taken back"),
            Dropped::Old => (ErrorCode::ContentModified as i32, "the text has changed since"),
        }
    }
}

/// Waiting messages.
#[derive(Debug, Default)]
pub(super) struct Queue {
    waiting: VecDeque<Message>,
    cancelled: HashSet<RequestId>,
}

impl Queue {
    /// Takes a message in.
    pub(super) fn push(&mut self, message: Message) {
        match &message {
            Message::Notification(note) if note.method == "$/cancelRequest" => {
                let id = note.params.get("id");
                let number = id.and_then(Value::as_i64).and_then(|id| i32::try_from(id).ok()).map(RequestId::from);
                let text = id.and_then(Value::as_str).map(|id| RequestId::from(id.to_owned()));
                self.cancelled.extend(number.or(text));
            }
            _ => self.waiting.push_back(message),
        }
    }

    /// The next message.
    pub(super) fn pop(&mut self) -> Option<Message> {
        let next = self.waiting.pop_front();
        if self.waiting.is_empty() && next.is_none() {
            // What was taken back too late was answered already.
            self.cancelled.clear();
        }
        next
    }

    /// Whether nothing waits.
    pub(super) fn is_empty(&self) -> bool {
        self.waiting.is_empty()
    }

    /// Why a request need not be answered any more, if so.
    pub(super) fn dropped(&self, request: &Request) -> Option<Dropped> {
        if self.cancelled.contains(&request.id) {
            return Some(Dropped::Cancelled);
        }
        let uri = request.params.get("textDocument")?.get("uri")?;
        self.changes(uri.as_str()?).then_some(Dropped::Old)
    }

    /// Whether a change of a text waits.
    pub(super) fn changes(&self, uri: &str) -> bool {
        self.waiting.iter().any(|message| match message {
            Message::Notification(note) => {
                let changes = matches!(note.method.as_str(), "textDocument/didChange" | "textDocument/didClose");
                let about = note.params.get("textDocument").and_then(|text| text.get("uri"));
                changes && about.and_then(Value::as_str) == Some(uri)
            }
            _ => false,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use lsp_server::Notification;
    use serde_json::json;

    fn hover(id: i32) -> Request {
        Request::new(
            RequestId::from(id),
            "textDocument/hover".to_owned(),
            json!({"textDocument": {"uri": "file:///a"}}),
        )
    }

    fn note(method: &str, params: Value) -> Message {
        Message::Notification(Notification::new(method.to_owned(), params))
    }

    #[test]
    fn a_request_that_was_taken_back_is_dropped() {
        let mut queue = Queue::default();
        queue.push(Message::Request(hover(1)));
        queue.push(note("$/cancelRequest", json!({"id": 1})));
        assert_eq!(queue.dropped(&hover(1)), Some(Dropped::Cancelled));
        assert_eq!(queue.dropped(&hover(2)), None);
    }

    #[test]
    fn a_request_before_a_change_of_its_text_is_old() {
        let mut queue = Queue::default();
        queue.push(note("textDocument/didChange", json!({"textDocument": {"uri": "file:///b"}})));
        assert_eq!(queue.dropped(&hover(1)), None);
        queue.push(note("textDocument/didChange", json!({"textDocument": {"uri": "file:///a"}})));
        assert_eq!(queue.dropped(&hover(1)), Some(Dropped::Old));
    }
}
