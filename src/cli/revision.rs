//! The git revision of a file, so that an old card can be recognised.

use std::path::Path;
use std::process::{Command, Stdio};

/// The short name of the last commit that changed the file, and whether it was changed since.
///
/// `None` without git, outside a repository, and for standard input. Only commands are used that run nothing that a
/// repository's own settings name: a recipe folder from elsewhere is not trusted.
pub(super) fn of(path: &Path) -> Option<String> {
    if path == Path::new("-") {
        return None;
    }
    let real = std::fs::canonicalize(path).ok()?;
    let folder = real.parent()?;
    let name = real.file_name()?.to_str()?;
    let commit = git(folder, &["rev-list", "-1", "--abbrev-commit", "HEAD", "--", name])?;
    if commit.is_empty() {
        return Some("not yet committed".to_owned());
    }
    let kept = git(folder, &["rev-parse", &format!("HEAD:./{name}")]);
    let now = git(folder, &["hash-object", "--no-filters", "--", name]);
    Some(if kept.is_some() && kept == now { commit } else { format!("{commit}, changed since") })
}

fn git(folder: &Path, arguments: &[&str]) -> Option<String> {
    let text = String::from_utf8(quiet_git(folder, arguments)?).ok()?;
    Some(text.trim().to_owned())
}

/// What git prints, run so that it runs nothing that a repository names, waits for nobody and changes nothing; `None` when
/// it fails.
pub(super) fn quiet_git(folder: &Path, arguments: &[&str]) -> Option<Vec<u8>> {
    let output = Command::new("git")
        .arg("-C")
        .arg(folder)
        .args(["-c", "core.fsmonitor=false", "-c", "core.hooksPath=", "--no-pager", "--literal-pathspecs"])
        .args(arguments)
        .env("GIT_OPTIONAL_LOCKS", "0")
        .env("GIT_NO_LAZY_FETCH", "1")
        .env("GIT_TERMINAL_PROMPT", "0")
        .stdin(Stdio::null())
        .stderr(Stdio::null())
        .output()
        .ok()?;
    output.status.success().then_some(output.stdout)
}
