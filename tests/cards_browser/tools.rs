//! The programs that these tests ask: a browser, a PDF reader, an accessibility engine, a standards validator.

#[path = "../examples/copy.rs"]
mod copy;

use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// Where everything is, or `None` when something is missing; then it is printed what, and under CI it is a failure.
pub struct Tools {
    pub axe: String,
    pub validator: PathBuf,
}

pub fn tools() -> Option<Tools> {
    let modules = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/tools/node_modules");
    let axe = fs::read_to_string(modules.join("axe-core/axe.min.js"));
    let validator = modules.join("vnu-jar/build/dist/vnu.jar");
    let mut missing = Vec::new();
    for (program, argument) in [("chromium", "--version"), ("pdftotext", "-v"), ("java", "-version")] {
        if Command::new(program).arg(argument).output().is_err() {
            missing.push(program);
        }
    }
    if axe.is_err() || !validator.exists() {
        missing.push("tests/tools/node_modules (npm ci --ignore-scripts --prefix tests/tools)");
    }
    if missing.is_empty() {
        return axe.ok().map(|axe| Tools { axe, validator });
    }
    let missing = missing.join(", ");
    assert!(std::env::var_os("CI").is_none(), "under CI the cards are tested in a browser, but there is no {missing}");
    println!("NOT TESTED: the cards in a browser, for want of {missing}");
    None
}

/// Runs the program on the copy of an example and gives what it printed.
pub fn miche<S: AsRef<OsStr>>(folder: &Path, arguments: &[S]) -> String {
    let mut command = Command::new(env!("CARGO_BIN_EXE_miche"));
    let output = command.args(arguments).current_dir(folder).output().expect("the program starts");
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{:?}: {said}", arguments.iter().map(AsRef::as_ref).collect::<Vec<_>>());
    String::from_utf8(output.stdout).expect("the output is UTF-8")
}

/// A copy of the examples in a folder without git, so that no revision stands in the foot.
pub fn examples() -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    copy::into(folder.path());
    // Two preferments in one dough: the widest strip there is.
    let two = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/published/c15-two-preferments.miche");
    fs::copy(two, folder.path().join("two-preferments.miche")).expect("copied");
    folder
}

/// The examples of which cards are made: recipes and days.
pub fn recipes(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .expect("readable")
        .map(|entry| entry.expect("readable").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "miche"))
        .filter(|path| {
            let text = fs::read_to_string(path).expect("readable");
            text.lines().any(|line| line.starts_with("recipe ") || line.starts_with("day "))
        })
        .map(|path| path.file_name().expect("a name").to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

fn chromium(profile: &Path) -> Command {
    let mut command = Command::new("chromium");
    command.args([
        "--headless",
        "--no-sandbox",
        "--disable-gpu",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        "--disable-dev-shm-usage",
    ]);
    command.arg(format!("--user-data-dir={}", profile.display()));
    command
}

/// Prints a page as the browser would on paper.
pub fn print_to_pdf(html: &Path, pdf: &Path) {
    let profile = tempfile::tempdir().expect("a folder");
    let output = chromium(profile.path())
        .arg("--no-pdf-header-footer")
        .arg(format!("--print-to-pdf={}", pdf.display()))
        .arg(format!("file://{}", html.display()))
        .output()
        .expect("the browser starts");
    assert!(pdf.exists(), "{}: {}", html.display(), String::from_utf8_lossy(&output.stderr));
}

/// Opens a page, lets its scripts run, and gives the text of its element `result`.
pub fn ask_page(html: &str, dark: bool) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("page.html");
    fs::write(&path, html).expect("written");
    let mut command = chromium(&folder.path().join("profile"));
    if dark {
        command.arg("--force-dark-mode");
    }
    let output = command
        .args(["--window-size=1000,1400", "--virtual-time-budget=30000", "--dump-dom"])
        .arg(format!("file://{}", path.display()))
        .output()
        .expect("the browser starts");
    let page = String::from_utf8_lossy(&output.stdout);
    let result = page.split_once("<pre id=\"result\">").and_then(|(_, rest)| rest.split_once("</pre>"));
    let text = result.unwrap_or_else(|| panic!("the page gave no result: {}", String::from_utf8_lossy(&output.stderr)));
    text.0.replace("&lt;", "<").replace("&gt;", ">").replace("&nbsp;", "\u{a0}").replace("&amp;", "&")
}

/// The page as it is after its own scripts have run.
pub fn dump(html: &Path) -> String {
    let profile = tempfile::tempdir().expect("a folder");
    let output = chromium(profile.path())
        .args(["--virtual-time-budget=10000", "--dump-dom"])
        .arg(format!("file://{}", html.display()))
        .output()
        .expect("the browser starts");
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// A page with a script of the test's own, which the page's policy would not let in.
pub fn with_script(html: &str, script: &str) -> String {
    let start = html.find("<meta http-equiv=\"Content-Security-Policy\"").expect("there is a policy");
    let end = start + html[start..].find('>').expect("it ends") + 1;
    let open = format!("{}{}", &html[..start], &html[end..]);
    let report = "function report(value){var out=document.createElement('pre');out.id='result';\
                  out.textContent=JSON.stringify(value);document.body.appendChild(out)}";
    open.replace("</body>", &format!("<script>{report}\n{script}</script></body>"))
}
