//! The language server and what is no conversation: broken messages are answered or told, nothing is taken for what is only
//! announced, and it does not outlive its editor.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic)]

use serde_json::{Value, json};
use std::io::{BufRead, BufReader, Read, Write};
use std::process::{Child, ChildStdin, Command, ExitStatus, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant};

/// However slow the machine is.
const PATIENCE: Duration = Duration::from_secs(60);

struct Server {
    child: Child,
    input: Option<ChildStdin>,
    said: Receiver<Value>,
}

impl Server {
    fn start(process: Value) -> Server {
        let mut child = Command::new(env!("CARGO_BIN_EXE_miche"))
            .arg("editor")
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("it starts");
        let (sender, said) = channel();
        let mut output = BufReader::new(child.stdout.take().expect("a pipe"));
        std::thread::spawn(move || {
            loop {
                let mut length = 0;
                loop {
                    let mut line = String::new();
                    if output.read_line(&mut line).unwrap_or(0) == 0 {
                        return;
                    }
                    if let Some(number) = line.strip_prefix("Content-Length: ") {
                        length = number.trim().parse().expect("a number");
                    }
                    if line == "\r\n" {
                        break;
                    }
                }
                let mut text = vec![0; length];
                output.read_exact(&mut text).expect("a message");
                if sender.send(serde_json::from_slice(&text).expect("JSON")).is_err() {
                    return;
                }
            }
        });
        let input = child.stdin.take();
        let mut server = Server { child, input, said };
        server.say(&json!({"jsonrpc": "2.0", "id": 1, "method": "initialize", "params": {"processId": process, "capabilities": {}}}).to_string());
        server.answer(&json!(1));
        server.say(r#"{"jsonrpc":"2.0","method":"initialized","params":{}}"#);
        server
    }

    fn raw(&mut self, bytes: &[u8]) {
        self.input.as_mut().expect("it listens").write_all(bytes).expect("it takes it");
    }

    fn say(&mut self, message: &str) {
        self.raw(format!("Content-Length: {}\r\n\r\n{message}", message.len()).as_bytes());
    }

    fn answer(&self, id: &Value) -> Value {
        loop {
            let message = self.said.recv_timeout(PATIENCE).expect("an answer");
            if message.get("id") == Some(id) && message.get("method").is_none() {
                return message;
            }
        }
    }

    fn ended(&mut self) -> ExitStatus {
        let clock = Instant::now();
        loop {
            if let Some(status) = self.child.try_wait().expect("it can be asked") {
                return status;
            }
            assert!(clock.elapsed() < PATIENCE, "it lives on");
            std::thread::sleep(Duration::from_millis(20));
        }
    }

    /// What it said on standard error until its end.
    fn log(&mut self) -> String {
        let mut log = String::new();
        self.child.stderr.take().expect("a pipe").read_to_string(&mut log).expect("text");
        log
    }

    fn ends_as_it_should(mut self) {
        self.say(r#"{"jsonrpc":"2.0","id":900,"method":"shutdown"}"#);
        self.answer(&json!(900));
        self.say(r#"{"jsonrpc":"2.0","method":"exit"}"#);
        assert_eq!(self.ended().code(), Some(0));
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// Half a character in a text, which JavaScript can hold and Unicode cannot: the session goes on, and places stay where they are.
#[test]
fn half_a_character_is_withstood() {
    let mut server = Server::start(Value::Null);
    server.say(
        r#"{"jsonrpc":"2.0","method":"textDocument/didOpen","params":{"textDocument":{"uri":"file:///nowhere/a.miche","languageId":"miche","version":1,"text":"recipe A\ud83e\nfluor .... 500 g\nmix: hands 5 min\n    Mix {flour}.\n"}}}"#,
    );
    server.say(r#"{"jsonrpc":"2.0","id":2,"method":"textDocument/documentSymbol","params":{"textDocument":{"uri":"file:///nowhere/a.miche"}}}"#);
    let symbols = server.answer(&json!(2)).to_string();
    assert!(symbols.contains("fluor") || symbols.contains("mix"), "{symbols}");
    server.ends_as_it_should();
}

#[test]
fn broken_messages_are_answered() {
    let mut server = Server::start(Value::Null);
    server.say("{ this is no JSON");
    assert_eq!(server.answer(&Value::Null)["error"]["code"], -32700);
    server.raw(b"Content-Length: 3\r\n\r\n\xff\xfe\xfd");
    assert_eq!(server.answer(&Value::Null)["error"]["code"], -32700);
    server.say(&"[".repeat(1 << 20));
    assert_eq!(server.answer(&Value::Null)["error"]["code"], -32700);
    server.say(r#"{"jsonrpc":"2.0","id":5000000000,"method":"shutdown"}"#);
    assert_eq!(server.answer(&json!(5_000_000_000_u64))["error"]["code"], -32600);
    server.say(r#"{"jsonrpc":"2.0","id":"a","method":["shutdown"]}"#);
    assert_eq!(server.answer(&json!("a"))["error"]["code"], -32600);
    server.ends_as_it_should();
}

/// A frame that announces more than any text is refused without taking the room for it, and with a line in the log.
#[test]
fn what_is_only_announced_takes_nothing() {
    for length in ["4000000000", "1000000000000000", "18446744073709551616"] {
        let mut server = Server::start(Value::Null);
        server.raw(format!("Content-Length: {length}\r\n\r\n{{\"a\":").as_bytes());
        let status = server.ended();
        assert!(status.code().is_some_and(|code| code > 0), "{status:?}");
        assert!(server.log().contains("longest"), "{length}");
    }
    let mut server = Server::start(Value::Null);
    server.raw(b"no head at all\r\n\r\n");
    assert!(server.ended().code().is_some_and(|code| code > 0));
    assert!(!server.log().is_empty());
}

/// Its editor is gone, but something that the editor has started still holds the pipe.
#[test]
#[cfg(unix)]
fn it_does_not_outlive_its_editor() {
    let mut editor = Command::new("sleep").arg("600").spawn().expect("it starts");
    let mut server = Server::start(json!(editor.id()));
    std::thread::sleep(Duration::from_millis(300));
    assert!(server.child.try_wait().expect("it can be asked").is_none(), "its editor lives");
    editor.kill().expect("it dies");
    editor.wait().expect("it ends");
    let status = server.ended();
    assert_eq!(status.code(), Some(1));
    assert!(server.log().contains("gone"));
    // And the plain way: the pipe is closed.
    let mut server = Server::start(Value::Null);
    drop(server.input.take());
    assert_eq!(server.ended().code(), Some(1));
}
