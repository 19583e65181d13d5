//! The git revisions of a file: the one it is at, so that an old card can be recognised, and all that touched it.

use std::path::Path;
use std::process::{Child, Command, Stdio};

/// The short name of the last commit that changed the file, and whether it was changed since.
///
/// `None` without git, outside a repository, and for standard input. Only commands are used that run nothing that a
/// repository's own settings name: a recipe folder from elsewhere is not trusted.
pub(in crate::edge) fn of(path: &Path) -> Option<String> {
    if path == Path::new("-") {
        return None;
    }
    let real = std::fs::canonicalize(path).ok()?;
    let folder = real.parent()?;
    let name = real.file_name()?.to_str()?;
    // All three are asked at once: each takes longer to start than to answer.
    let commit = started(folder, &["rev-list", "-1", "--abbrev-commit", "HEAD", "--", name]);
    let kept = started(folder, &["rev-parse", &format!("HEAD:./{name}")]);
    let now = started(folder, &["hash-object", "--no-filters", "--", name]);
    let (commit, kept, now) = (answer(commit), answer(kept), answer(now));
    let commit = commit?;
    if commit.is_empty() {
        return Some("not yet committed".to_owned());
    }
    Some(if kept.is_some() && kept == now { commit } else { format!("{commit}, changed since") })
}

/// What git prints, run so that it runs nothing that a repository names, waits for nobody and changes nothing; `None` when
/// it fails.
pub(in crate::edge) fn quiet_git(folder: &Path, arguments: &[&str]) -> Option<Vec<u8>> {
    printed(started(folder, arguments)?)
}

fn answer(git: Option<Child>) -> Option<String> {
    let text = String::from_utf8(printed(git?)?).ok()?;
    Some(text.trim().to_owned())
}

fn printed(git: Child) -> Option<Vec<u8>> {
    let output = git.wait_with_output().ok()?;
    output.status.success().then_some(output.stdout)
}

fn started(folder: &Path, arguments: &[&str]) -> Option<Child> {
    Command::new("git")
        .arg("-C")
        .arg(folder)
        .args(["-c", "core.fsmonitor=false", "-c", "core.hooksPath=", "--no-pager", "--literal-pathspecs"])
        .args(arguments)
        .env("GIT_OPTIONAL_LOCKS", "0")
        .env("GIT_NO_LAZY_FETCH", "1")
        .env("GIT_TERMINAL_PROMPT", "0")
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .ok()
}

/// What is said of a history that is cut off.
pub(in crate::edge) const CUT_OFF: &str =
    "this clone is shallow, and its history is cut off; `git fetch --unshallow` brings what was before";

/// The commits with which the history of a shallow clone begins: what they seem to add may have been there before. None where the history is
/// whole.
pub(in crate::edge) fn cut_off(top: &Path) -> Vec<String> {
    let git = top.join(".git");
    // Only in a second working tree it lies elsewhere, and git has to be asked.
    let file = if git.is_dir() {
        Some(git.join("shallow"))
    } else {
        let printed = quiet_git(top, &["rev-parse", "--git-path", "shallow"]);
        printed.and_then(|path| Some(top.join(String::from_utf8(path).ok()?.trim_end_matches('\n'))))
    };
    let text = file.and_then(|file| std::fs::read_to_string(file).ok());
    text.map_or_else(Vec::new, |text| text.lines().map(str::to_owned).collect())
}

/// A commit that touched the file.
pub(in crate::edge) struct Revision {
    pub(in crate::edge) commit: String,
    pub(in crate::edge) short: String,
    /// The author's, in the form that was asked for.
    pub(in crate::edge) date: String,
    pub(in crate::edge) subject: String,
    /// The file's name in it, from the top of the repository.
    pub(in crate::edge) name: String,
    /// Whether it took the file away.
    pub(in crate::edge) removed: bool,
}

/// How git is asked for the commits of the branch's own line with the files that each touched, whatever somebody has configured.
pub(in crate::edge) const LOG: [&str; 10] = [
    "log",
    "--first-parent",
    "-z",
    "--name-status",
    "--no-ext-diff",
    "--no-textconv",
    "--no-relative",
    "--no-show-signature",
    "--no-color",
    "--encoding=UTF-8",
];

/// The commits that touched the file on the branch's own line, newest first.
pub(in crate::edge) fn revisions(top: &Path, name: &str, last: Option<u32>, date: &str) -> Vec<Revision> {
    let date = format!("--date=format:{date}");
    let count = last.map(|last| format!("--max-count={last}"));
    let mut arguments = LOG.to_vec();
    arguments.extend(["--follow", &date, "--format=%H%x00%h%x00%ad%x00%s"]);
    arguments.extend(count.as_deref());
    arguments.extend(["--", name]);
    let Some(printed) = quiet_git(top, &arguments) else { return Vec::new() };
    let mut fields = printed.split(|byte| *byte == 0).map(|field| String::from_utf8_lossy(field).into_owned());
    let mut all = Vec::new();
    while let (Some(commit), Some(short), Some(date), Some(subject), Some(status), Some(mut name)) =
        (fields.next(), fields.next(), fields.next(), fields.next(), fields.next(), fields.next())
    {
        let status = status.trim().to_owned();
        // A renamed or copied file comes with both names.
        if status.starts_with(['R', 'C']) {
            name = fields.next().unwrap_or(name);
        }
        all.push(Revision { commit, short, date, subject, name, removed: status == "D" });
    }
    all
}
