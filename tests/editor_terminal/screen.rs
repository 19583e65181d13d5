//! A terminal that a test types into and looks at: tmux, with a server of its own.

use std::path::Path;
use std::process::{Command, Output};
use std::time::{Duration, Instant};

/// How long anything is waited for; machines are busy.
const LIMIT: Duration = Duration::from_secs(40);

/// One terminal. Its programs are ended with it.
pub struct Screen {
    /// The name of the tmux server's socket.
    socket: String,
}

impl Screen {
    /// Starts a program (words of a shell) in a folder, in a terminal of this size, with more in the environment.
    pub fn start(folder: &Path, words: &str, columns: usize, lines: usize, environment: &[(&str, &str)]) -> Screen {
        let name = folder.file_name().expect("a name").to_string_lossy().into_owned();
        let screen = Screen { socket: format!("miche-test-{}-{name}", std::process::id()) };
        let mut command = screen.tmux();
        command.args(["new-session", "-d", "-x", &columns.to_string(), "-y", &lines.to_string(), "-c"]).arg(folder);
        // By `env`, since a shell may set its own path when it starts.
        let environment: String = environment.iter().map(|(key, value)| format!("{key}='{value}' ")).collect();
        // The screen of a program that has ended can still be looked at, also after Ctrl-C.
        command.arg(format!("trap : INT; env {environment}{words}; echo \"ended with $?\"; sleep 600"));
        let output = command.output().expect("tmux starts");
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        screen
    }

    fn tmux(&self) -> Command {
        let mut command = Command::new("tmux");
        command.args(["-u", "-L", &self.socket, "-f", "/dev/null"]);
        command.env_remove("TMUX").env("LC_ALL", "C.UTF-8").env("SHELL", "/bin/sh");
        command
    }

    fn run(&self, arguments: &[&str]) -> Output {
        self.tmux().args(arguments).output().expect("tmux starts")
    }

    /// What stands on the screen.
    pub fn text(&self) -> String {
        String::from_utf8_lossy(&self.run(&["capture-pane", "-p"]).stdout).into_owned()
    }

    /// Presses a key by its name: `Escape`, `Enter`, `C-c`.
    pub fn press(&self, key: &str) {
        assert!(self.run(&["send-keys", key]).status.success(), "{key}");
    }

    /// Types a text as it stands.
    pub fn write(&self, text: &str) {
        assert!(self.run(&["send-keys", "-l", "--", text]).status.success(), "{text}");
    }

    /// Types a line and its end.
    pub fn line(&self, text: &str) {
        if !text.is_empty() {
            self.write(text);
        }
        self.press("Enter");
    }

    /// Waits until the screen looks so; what it then shows.
    pub fn wait(&self, what: &str, holds: impl Fn(&str) -> bool) -> String {
        let began = Instant::now();
        loop {
            let text = self.text();
            if holds(&text) {
                return text;
            }
            assert!(began.elapsed() < LIMIT, "never on the screen: {what}\n{text}");
            std::thread::sleep(Duration::from_millis(30));
        }
    }

    /// Waits until a text stands on the screen.
    pub fn shows(&self, text: &str) -> String {
        self.wait(text, |screen| screen.contains(text))
    }
}

impl Drop for Screen {
    fn drop(&mut self) {
        self.run(&["kill-server"]);
    }
}

/// Whether there is tmux; under CI there has to be.
pub fn there_is_tmux() -> bool {
    let there = Command::new("tmux").arg("-V").output().is_ok();
    if !there {
        assert!(std::env::var_os("CI").is_none(), "under CI there has to be tmux");
        println!("NOT TESTED in a terminal, for want of tmux");
    }
    there
}
