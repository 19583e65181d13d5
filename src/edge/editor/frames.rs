//! Messages in their frames over standard input and output: what is broken is answered or told, and takes no room first.
//!
//! The crate that knows the protocol would end at the first text it cannot read, and takes as much memory as a header names.

use lsp_server::{Connection, ErrorCode, Message, Notification, Request, Response};
use serde::Deserialize;
use serde_json::{Value, json};
use std::io::{self, BufRead, Read, Write};
use std::sync::mpsc::{Receiver, channel};
use std::thread;
use std::time::Duration;

/// The longest message: the largest file, each of its characters written as an escape, and something around it.
const LONGEST_MESSAGE: u64 = 64 * 1024 * 1024;

/// The longest line of a frame's head, and the most lines.
const LONGEST_HEAD_LINE: u64 = 4096;
const MOST_HEAD_LINES: usize = 32;

/// How long an editor that has asked for the end may take to hear the last words.
const LAST_WORDS: Duration = Duration::from_secs(2);

/// The conversation, and what tells that everything was written.
pub(super) struct Conversation {
    /// Our end.
    pub(super) connection: Connection,
    written: Receiver<()>,
}

impl Conversation {
    /// Speaks over standard input and output. Whoever ends it says why on standard error.
    pub(super) fn start() -> Conversation {
        let (connection, theirs) = Connection::memory();
        let (done, written) = channel();
        let Connection { sender, receiver } = theirs;
        thread::spawn(move || {
            for message in receiver {
                if message.write(&mut io::stdout().lock()).is_err() {
                    break;
                }
            }
            // Nobody may be waiting any more.
            let _ = done.send(());
        });
        thread::spawn(move || {
            let mut input = io::stdin().lock();
            loop {
                match next(&mut input) {
                    Ok(Some(Heard::Message(message))) => {
                        let is_exit = matches!(&message, Message::Notification(note) if note.method == "exit");
                        if sender.send(message).is_err() || is_exit {
                            break;
                        }
                    }
                    Ok(Some(Heard::Unclear { id, code, why })) => {
                        tell(&why);
                        if refuse(&id, code, &why).is_err() {
                            break;
                        }
                    }
                    Ok(None) => break,
                    Err(why) => {
                        tell(&why);
                        break;
                    }
                }
            }
        });
        Conversation { connection, written }
    }

    /// Ends it; with `politely` the last words are written first, as far as somebody listens.
    pub(super) fn end(self, politely: bool) {
        drop(self.connection);
        if politely {
            // Whether all was written or not, the program ends.
            let _ = self.written.recv_timeout(LAST_WORDS);
        }
    }
}

/// One frame.
#[derive(Debug)]
enum Heard {
    /// What it says.
    Message(Message),
    /// It is no message; the frame itself was whole, so that the next one can be heard.
    Unclear {
        /// Of the request, as far as it is known.
        id: Value,
        code: ErrorCode,
        why: String,
    },
}

/// Reads one frame; `None` when nothing comes any more.
///
/// # Errors
/// When it cannot be told where the next frame begins, in plain words.
fn next(input: &mut impl BufRead) -> Result<Option<Heard>, String> {
    let Some(length) = head(input)? else { return Ok(None) };
    if length > LONGEST_MESSAGE {
        return Err(format!("a message of {length} bytes is announced; the longest is {LONGEST_MESSAGE}"));
    }
    let mut bytes = Vec::new();
    input.take(length).read_to_end(&mut bytes).map_err(|error| error.to_string())?;
    if (bytes.len() as u64) < length {
        // The editor went away in the middle of a word.
        return Ok(None);
    }
    Ok(Some(heard(bytes)))
}

/// Reads the head of a frame for the length of its message.
fn head(input: &mut impl BufRead) -> Result<Option<u64>, String> {
    let mut length = None;
    for _ in 0..MOST_HEAD_LINES {
        let mut line = Vec::new();
        input.take(LONGEST_HEAD_LINE).read_until(b'\n', &mut line).map_err(|error| error.to_string())?;
        if line.is_empty() {
            return Ok(None);
        }
        if !line.ends_with(b"\n") {
            return Err("the head of a message has no end".to_owned());
        }
        let line = String::from_utf8_lossy(&line);
        let line = line.trim_end_matches(['\r', '\n']);
        if line.is_empty() {
            return length.map(Some).ok_or_else(|| "the head of a message does not say its length".to_owned());
        }
        if let Some((name, value)) = line.split_once(':')
            && name.trim().eq_ignore_ascii_case("Content-Length")
        {
            let value = value.trim();
            // A length with so many digits is too large in any case.
            let digits = !value.is_empty() && value.bytes().all(|byte| byte.is_ascii_digit());
            let read = if digits { Some(value.parse().unwrap_or(u64::MAX)) } else { None };
            length = Some(read.ok_or_else(|| "the length of a message is no number".to_owned())?);
        }
    }
    Err("the head of a message has too many lines".to_owned())
}

/// What the bytes of a message say.
fn heard(bytes: Vec<u8>) -> Heard {
    let unclear = |id: Value, code: ErrorCode, why: String| Heard::Unclear { id, code, why };
    let text = match String::from_utf8(bytes) {
        Ok(text) => whole_characters(text),
        Err(error) => {
            let why = format!("a message is not UTF-8 (byte {})", error.utf8_error().valid_up_to() + 1);
            return unclear(Value::Null, ErrorCode::ParseError, why);
        }
    };
    let value: Value = match serde_json::from_str(&text) {
        Ok(value) => value,
        Err(error) => return unclear(Value::Null, ErrorCode::ParseError, format!("a message is not JSON: {error}")),
    };
    let id = value.get("id").filter(|id| id.is_number() || id.is_string()).cloned().unwrap_or(Value::Null);
    // By what it has, so that a request with an odd number is none without one.
    let has = |key: &str| value.get(key).is_some();
    let message = match (has("method"), has("id")) {
        (true, true) => Request::deserialize(&value).map(Message::Request),
        (true, false) => Notification::deserialize(&value).map(Message::Notification),
        (false, _) => Response::deserialize(&value).map(Message::Response),
    };
    match message {
        Ok(message) => Heard::Message(message),
        Err(error) => unclear(id, ErrorCode::InvalidRequest, format!("a message is none of the protocol: {error}")),
    }
}

/// A text in which each half of a character written as an escape (`\ud83e` without its other half) is the sign for a character
/// that is not known. It is one unit of UTF-16, as the half was, so that places stay.
fn whole_characters(text: String) -> String {
    if !text.contains("\\u") && !text.contains("\\U") {
        return text;
    }
    let bytes = text.as_bytes();
    let unit = |at: usize| -> Option<u16> {
        let digits = bytes.get(at..at + 6)?.strip_prefix(b"\\u")?;
        u16::from_str_radix(str::from_utf8(digits).ok().filter(|digits| !digits.contains('+'))?, 16).ok()
    };
    let mut changed = Vec::with_capacity(bytes.len());
    let mut at = 0;
    while let Some(byte) = bytes.get(at) {
        let width = match (byte, unit(at), unit(at + 6)) {
            (b'\\', Some(0xD800..=0xDBFF), Some(0xDC00..=0xDFFF)) => 12,
            (b'\\', Some(0xD800..=0xDFFF), _) => {
                changed.extend_from_slice(b"\\ufffd");
                at += 6;
                continue;
            }
            // A backslash that is written as two is none.
            (b'\\', None, _) => 2,
            _ => 1,
        };
        changed.extend_from_slice(bytes.get(at..(at + width).min(bytes.len())).unwrap_or_default());
        at += width;
    }
    String::from_utf8(changed).unwrap_or(text)
}

/// Answers what could not be read.
fn refuse(id: &Value, code: ErrorCode, why: &str) -> io::Result<()> {
    let answer = json!({ "jsonrpc": "2.0", "id": id, "error": { "code": code as i32, "message": why } }).to_string();
    let mut out = io::stdout().lock();
    write!(out, "Content-Length: {}\r\n\r\n{answer}", answer.len())?;
    out.flush()
}

/// A line of the log.
pub(super) fn tell(why: &str) {
    // Nobody may be listening; there is nothing else to tell them with.
    let _ = writeln!(io::stderr().lock(), "miche: {}", crate::out::report::clean(why));
}

#[cfg(test)]
mod tests {
    use super::*;

    fn all(text: &[u8]) -> Vec<String> {
        let mut input = text;
        let mut said = Vec::new();
        loop {
            match next(&mut input) {
                Ok(Some(Heard::Message(Message::Request(request)))) => said.push(format!("request {}", request.params)),
                Ok(Some(Heard::Message(Message::Notification(note)))) => said.push(note.params.to_string()),
                Ok(Some(Heard::Message(Message::Response(_)))) => said.push("answer".to_owned()),
                Ok(Some(Heard::Unclear { id, code, .. })) => said.push(format!("{id} {}", code as i32)),
                Ok(None) => return said,
                Err(why) => {
                    said.push(why);
                    return said;
                }
            }
        }
    }

    fn frame(text: &str) -> Vec<u8> {
        format!("Content-Length: {}\r\n\r\n{text}", text.len()).into_bytes()
    }

    #[test]
    fn a_broken_message_costs_only_itself() {
        let fine = r#"{"jsonrpc":"2.0","method":"m","params":"fine"}"#;
        for (broken, told) in [
            ("{", "null -32700"),
            ("[1]", "null -32600"),
            (r#"{"id":4000000000,"method":"m"}"#, "4000000000 -32600"),
            (r#"{"id":1,"method":7}"#, "1 -32600"),
            (&"[".repeat(100_000), "null -32700"),
        ] {
            let text: Vec<u8> = [frame(broken), frame(fine)].concat();
            assert_eq!(all(&text), [told, "\"fine\""], "{broken:.40}");
        }
        let text: Vec<u8> = [b"Content-Length: 2\r\n\r\n\xff\xfe".to_vec(), frame(fine)].concat();
        assert_eq!(all(&text), ["null -32700", "\"fine\""]);
    }

    #[test]
    fn half_a_character_is_one_that_is_not_known() {
        for (written, read) in [
            (r"a\ud800b", "a\u{FFFD}b"),
            (r"\udc00\ud800", "\u{FFFD}\u{FFFD}"),
            (r"\ud83e\udd50", "🥐"),
            (r"\uD83E\uDD50\ud83e", "🥐\u{FFFD}"),
            (r"\\ud800", "\\ud800"),
            (r"\\\ud800 \n", "\\\u{FFFD} \n"),
        ] {
            let note = format!(r#"{{"jsonrpc":"2.0","method":"m","params":"{written}"}}"#);
            assert_eq!(all(&frame(&note)), [Value::from(read).to_string()], "{written}");
        }
    }

    #[test]
    fn no_room_is_taken_for_what_is_only_announced() {
        for length in ["4000000000", "1000000000000000", "99999999999999999999999999"] {
            let said = all(format!("Content-Length: {length}\r\n\r\n{{}}").as_bytes());
            assert!(said.len() == 1 && said[0].contains("the longest is"), "{said:?}");
        }
        for head in [
            "Content-Length: -1\r\n\r\n",
            "Content-Length: x\r\n\r\n",
            "Nothing: 1\r\n\r\n",
            &"a".repeat(10_000),
            &"a: b\r\n".repeat(100),
        ] {
            assert_eq!(all(head.as_bytes()).len(), 1, "{head:.40}");
        }
        assert_eq!(all(b"Content-Length: 100\r\n\r\n{}"), Vec::<String>::new());
    }
}
