//! A preview that runs, and requests to it over loopback, a byte at a time if need be.

use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

/// A preview of a folder or file.
pub struct Preview {
    pub child: Child,
    pub port: u16,
    /// The address as it was printed.
    pub address: String,
}

impl Preview {
    pub fn start(path: &Path) -> Preview {
        Preview::start_at(path, 0)
    }

    /// At a port of the caller's own; 0 for a free one.
    pub fn start_at(path: &Path, port: u16) -> Preview {
        let mut child = Command::new(env!("CARGO_BIN_EXE_miche"))
            .arg("preview")
            .arg(path)
            .args(["--port", &port.to_string()])
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("the program starts");
        let mut address = String::new();
        let out = child.stdout.take().expect("a pipe");
        BufReader::new(out).read_line(&mut address).expect("it says where");
        let address = address.trim().to_owned();
        let rest = address.strip_prefix("http://127.0.0.1:").expect("only this machine").to_owned();
        let port = rest.split('/').next().and_then(|port| port.parse().ok()).expect("a port");
        Preview { child, port, address }
    }

    pub fn connect(&self) -> TcpStream {
        let stream = TcpStream::connect(("127.0.0.1", self.port)).expect("it listens");
        stream.set_read_timeout(Some(Duration::from_secs(20))).expect("set");
        stream
    }

    pub fn get(&self, path: &str) -> Answer {
        self.ask("GET", path, &format!("host: 127.0.0.1:{}\r\n", self.port))
    }

    /// Asks with headers of the caller's own.
    pub fn ask(&self, method: &str, path: &str, headers: &str) -> Answer {
        let mut stream = self.connect();
        let request = format!("{method} {path} HTTP/1.1\r\n{headers}connection: close\r\n\r\n");
        stream.write_all(request.as_bytes()).expect("sent");
        let mut bytes = Vec::new();
        stream.read_to_end(&mut bytes).expect("answered");
        Answer::of(&bytes)
    }

    pub fn state(&self, query: &str) -> serde_json::Value {
        let answer = self.get(&format!("/state?{query}"));
        assert_eq!(answer.status, 200, "{}", answer.body);
        serde_json::from_str(&answer.body).expect("JSON")
    }

    /// Asks until something holds; how long that took.
    pub fn wait(&self, query: &str, holds: impl Fn(&serde_json::Value) -> bool) -> Duration {
        let began = Instant::now();
        loop {
            let state = self.state(query);
            if holds(&state) {
                return began.elapsed();
            }
            assert!(began.elapsed() < Duration::from_secs(20), "it never came: {state}");
            std::thread::sleep(Duration::from_millis(3));
        }
    }

    /// Ends it as Ctrl-C does, and says with which code and how soon.
    pub fn interrupt(&mut self) -> (Option<i32>, Duration) {
        let began = Instant::now();
        let sent = Command::new("kill").arg("-INT").arg(self.child.id().to_string()).status().expect("there is kill");
        assert!(sent.success());
        while began.elapsed() < Duration::from_secs(20) {
            if let Some(status) = self.child.try_wait().expect("its own child") {
                return (status.code(), began.elapsed());
            }
            std::thread::sleep(Duration::from_millis(5));
        }
        panic!("it does not end");
    }
}

impl Drop for Preview {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// An answer taken apart.
pub struct Answer {
    pub status: u16,
    pub head: String,
    pub body: String,
}

impl Answer {
    fn of(bytes: &[u8]) -> Answer {
        let text = String::from_utf8_lossy(bytes).into_owned();
        let (head, body) = text.split_once("\r\n\r\n").expect("a head");
        let status = head.split(' ').nth(1).and_then(|code| code.parse().ok()).expect("a status");
        Answer { status, head: head.to_lowercase(), body: body.to_owned() }
    }

    pub fn header(&self, name: &str) -> Option<&str> {
        self.head.lines().find_map(|line| line.strip_prefix(name)?.strip_prefix(": "))
    }
}

/// Reads events until one says a state; which.
pub fn next_event(stream: &mut impl BufRead) -> String {
    loop {
        let mut line = String::new();
        assert!(stream.read_line(&mut line).expect("events come") > 0, "the events ended");
        if let Some(state) = line.strip_prefix("data: ") {
            return state.trim().to_owned();
        }
    }
}

/// Saves as many editors do: a new file takes the old one's name.
pub fn save_by_rename(path: &Path, text: &str) {
    let beside = path.with_extension("miche~new");
    fs::write(&beside, text).expect("written");
    fs::rename(&beside, path).expect("renamed");
}

pub const BUNS: &str = "recipe Jetty buns\nmakes 12 buns\nchoose mixing: machine or hand\n\n\
    strong white flour .. 1 kg\nwater .. 62 %\nsalt .. 2 %\ninstant yeast .. 1 %\ndivide 12 x 135 g, loss 1.8 %\n\n\
    mix: hands 10 min, using mixer [machine]\n    Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\n\
    mix: hands 15 min [hand]\n    Knead {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\n\
    rise: wait 1 h, at 24 C\n    until doubled\n\
    bake: tend 16 min, using oven at 220 C\n    until gold\n";

/// A folder with one recipe.
pub fn folder() -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("jetty-buns.miche"), BUNS).expect("written");
    folder
}
