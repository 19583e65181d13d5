//! A browser that a test drives: the system's Chromium through puppeteer-core, over a pipe.

use serde_json::{Value, json};
use std::io::{BufRead, BufReader, Write};
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::Duration;

/// How long anything is waited for; machines are busy.
const LIMIT: Duration = Duration::from_secs(120);

/// Two browsers at a time: eight of them at once on two cores wait for each other longer than for the preview.
static PLACES: [Mutex<()>; 2] = [Mutex::new(()), Mutex::new(())];
static NEXT: AtomicUsize = AtomicUsize::new(0);

/// What a test sees of the sheet that is shown: the card, plan or text in its frame.
const SHEET: &str = "const frame=document.querySelector('#sheets iframe:not(.coming)');\
     const sheet=frame&&frame.contentDocument;\
     const weigh=(name)=>{const row=[...sheet.querySelectorAll('.strip tbody tr')].find((one)=>one.querySelector('.what b')?.textContent===name);\
     return row?(row.querySelector('[data-head^=\"all\"]')||row.querySelector('.weigh')).textContent.replace(/\\s+/g,' ').trim():null};";

/// One page in one browser.
pub struct Browser {
    child: Child,
    asks: Option<ChildStdin>,
    answers: BufReader<ChildStdout>,
    _profile: tempfile::TempDir,
    _place: MutexGuard<'static, ()>,
}

fn modules() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/tools/node_modules")
}

/// The accessibility engine's script.
pub fn axe() -> String {
    std::fs::read_to_string(modules().join("axe-core/axe.min.js")).expect("it was there a moment ago")
}

/// Starts a browser, or says what is missing for it; under CI that is a failure.
pub fn browser() -> Option<Browser> {
    let mut missing = Vec::new();
    for program in ["chromium", "node"] {
        if Command::new(program).arg("--version").output().is_err() {
            missing.push(program);
        }
    }
    if !["puppeteer-core", "axe-core"].iter().all(|name| modules().join(name).exists()) {
        missing.push("tests/tools/node_modules (npm ci --ignore-scripts --prefix tests/tools)");
    }
    if !missing.is_empty() {
        let missing = missing.join(", ");
        assert!(std::env::var_os("CI").is_none(), "under CI the preview is tried in a browser: there is no {missing}");
        println!("NOT TESTED: the preview in a browser, for want of {missing}");
        return None;
    }
    // A test that failed has let go of its browser all the same.
    let place = &PLACES[NEXT.fetch_add(1, Ordering::Relaxed) % PLACES.len()];
    let place = place.lock().unwrap_or_else(PoisonError::into_inner);
    let profile = tempfile::tempdir().expect("a folder");
    let mut child = Command::new("node")
        .arg(Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/scripts/drive_browser.mjs"))
        .arg(modules())
        .arg(profile.path())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("node starts");
    let asks = child.stdin.take();
    let answers = BufReader::new(child.stdout.take().expect("a pipe"));
    Some(Browser { child, asks, answers, _profile: profile, _place: place })
}

impl Browser {
    fn ask(&mut self, asked: &Value) -> Value {
        let asks = self.asks.as_mut().expect("it runs");
        writeln!(asks, "{asked}").expect("the browser's driver listens");
        let mut line = String::new();
        self.answers.read_line(&mut line).expect("the browser's driver answers");
        let answer: Value = serde_json::from_str(&line).unwrap_or_else(|_| panic!("the driver ended at {asked}"));
        assert!(answer.get("error").is_none(), "{}\nthe page: {}", answer["error"], self.seen());
        answer["ok"].clone()
    }

    /// What stands on the page, for the message of a test that failed.
    fn seen(&mut self) -> String {
        let asks = self.asks.as_mut().expect("it runs");
        let js =
            format!("(()=>{{{SHEET}return document.body.innerText+'\\n--\\n'+(sheet?sheet.body.innerText:'')}})()");
        let mut line = String::new();
        if writeln!(asks, "{}", json!({"do": "eval", "js": js})).is_ok() {
            let _ = self.answers.read_line(&mut line);
        }
        line.replace("\\n", "\n").chars().take(3000).collect()
    }

    pub fn open(&mut self, url: &str) {
        self.ask(&json!({"do": "open", "url": url}));
    }

    /// The value of an expression; `sheet` in it is the document in the frame, `weigh('salt')` what its card says.
    pub fn value(&mut self, expression: &str) -> Value {
        self.ask(&json!({"do": "eval", "js": format!("(()=>{{{SHEET}return {expression}}})()")}))
    }

    /// Waits until an expression is true; the milliseconds that took.
    pub fn wait(&mut self, expression: &str) -> f64 {
        // Between two states of the page what is asked for may be missing.
        let js = format!("(()=>{{try{{{SHEET}return Boolean({expression})}}catch(error){{return false}}}})()");
        let took = self.ask(&json!({"do": "wait", "js": js, "limit": LIMIT.as_millis()}));
        took.as_f64().expect("a time")
    }

    pub fn click(&mut self, at: &str) {
        self.ask(&json!({"do": "click", "at": at}));
    }

    /// Puts a text into a field in place of what is there.
    pub fn fill(&mut self, at: &str, text: &str) {
        self.ask(&json!({"do": "fill", "at": at, "text": text}));
    }

    pub fn press(&mut self, key: &str) {
        self.ask(&json!({"do": "press", "key": key}));
    }

    pub fn select(&mut self, at: &str, value: &str) {
        self.ask(&json!({"do": "select", "at": at, "value": value}));
    }

    pub fn desk(&mut self) {
        self.ask(&json!({"do": "window", "width": 1280, "height": 900, "phone": false}));
    }

    pub fn phone(&mut self) {
        self.ask(&json!({"do": "window", "width": 390, "height": 844, "phone": true}));
    }

    pub fn scheme(&mut self, scheme: &str) {
        self.ask(&json!({"do": "scheme", "value": scheme}));
    }

    /// Puts a script into the page and what is framed in it.
    pub fn inject(&mut self, js: &str) {
        self.ask(&json!({"do": "inject", "js": js}));
    }

    /// The text of what is framed, also of what the page itself may not read.
    pub fn framed(&mut self) -> Value {
        self.ask(&json!({"do": "framed"}))
    }

    /// What went wrong since this was last asked: in the console, against a policy, not caught, not loaded.
    pub fn faults(&mut self) -> Value {
        self.ask(&json!({"do": "faults"}))
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        // The end of what is asked ends the driver, and that the browser.
        self.asks.take();
        let _ = self.child.wait();
    }
}
