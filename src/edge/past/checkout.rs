//! Files as they stood at a git revision, read through git's own plumbing.
//!
//! The `git` program is used instead of a library: it is there wherever a repository is, it knows every format and setting
//! of it, and nothing is compared that git itself would not show.

use crate::edge::loader::{Loader, real_path, temporary_folder};
use crate::figures::compare::FileVersion;
use std::fs::File;
use std::io::{BufRead, BufReader, Read, Write};
use std::path::{Component, Path, PathBuf};
use std::process::{Command, Stdio};
use tempfile::TempDir;

/// All `.miche` files of a revision, in a folder of their own that goes away with this value.
pub(in crate::edge) struct Checkout {
    folder: TempDir,
    /// The top of the repository.
    top: PathBuf,
    /// Says to other runs that the folder is in use.
    _lock: File,
}

impl Checkout {
    /// Takes the files of `revision` out of the repository that `near` lies in.
    ///
    /// # Errors
    /// In plain words, when there is no repository, no such revision, or git cannot be run.
    pub(in crate::edge) fn of(revision: &str, near: &Path) -> Result<Checkout, String> {
        // A name that begins with a dash would be an option to git.
        if revision.starts_with('-') || revision.is_empty() {
            return Err(format!("`{revision}` is not a revision"));
        }
        let top = top_of(near).map_err(|none| none.of(&near.display().to_string()))?;
        let wanted = format!("{revision}^{{commit}}");
        let commit = git(&top, &["rev-parse", "--verify", "--quiet", "--end-of-options", &wanted])
            .map_err(|_| format!("there is no revision `{revision}` in {}", top.display()))?;
        Checkout::of_commit(commit.trim(), &top)
    }

    /// Takes the files of a commit, by its whole name, out of the repository whose top is known: git is asked twice and not four times.
    ///
    /// # Errors
    /// In plain words, when there is no such commit, or git cannot be run.
    pub(in crate::edge) fn of_commit(commit: &str, top: &Path) -> Result<Checkout, String> {
        let (folder, lock) = temporary_folder().map_err(|error| error.to_string())?;
        let listing = git(top, &["ls-tree", "-r", "-z", "--full-tree", commit])?;
        let files: Vec<Blob<'_>> = listing.split('\0').filter_map(Blob::of).collect();
        copy_blobs(top, &files, folder.path())?;
        // The folder stands for the whole repository, so files use each other as they do there.
        std::fs::create_dir(folder.path().join(".git")).map_err(|error| error.to_string())?;
        Ok(Checkout { folder, top: top.to_owned(), _lock: lock })
    }

    /// Where a path of the repository lies in the checkout; relative paths are as seen from the current folder.
    pub(in crate::edge) fn path(&self, path: &Path) -> PathBuf {
        let whole = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        let real = nearest_real(&whole);
        let inside = real.strip_prefix(&self.top).unwrap_or(path);
        self.folder.path().join(inside)
    }

    /// A file as it stood, by its name from the top of the repository; `None` where no such file was taken out. Its pictures stay where
    /// they are.
    ///
    /// # Errors
    /// In a sentence, where it cannot be read.
    pub(in crate::edge) fn version(&self, name: &str) -> Result<Option<FileVersion>, String> {
        let place = self.folder.path().join(name);
        if !place.exists() {
            return Ok(None);
        }
        let mut loader = Loader::without_pictures();
        let source = loader.load_as(&place, name).map_err(|error| error.to_string())?;
        Ok(Some(FileVersion::of(loader.into_project(), source)))
    }
}

/// The path with its existing part resolved: a file that is gone now may still be asked for at a revision.
pub(in crate::edge) fn nearest_real(path: &Path) -> PathBuf {
    let mut rest = Vec::new();
    let mut at = path;
    loop {
        if let Ok(real) = std::fs::canonicalize(at) {
            return rest.iter().rev().fold(real, |path: PathBuf, name| path.join(name));
        }
        match (at.file_name(), at.parent()) {
            (Some(name), Some(parent)) => {
                rest.push(name.to_owned());
                at = parent;
            }
            _ => return path.to_owned(),
        }
    }
}

/// What is taken out of a repository.
struct Blob<'a> {
    /// What git calls it.
    name: &'a str,
    /// From the top of the repository.
    path: &'a str,
    /// Whether it is a link, and what it holds the path that it leads to.
    is_link: bool,
}

impl<'a> Blob<'a> {
    /// `<mode> blob <name>\t<path>` of a regular `.miche` file, or of a link: a kitchen or a whole folder may be shared by one.
    fn of(entry: &'a str) -> Option<Blob<'a>> {
        let (head, path) = entry.split_once('\t')?;
        let mut fields = head.split(' ');
        let (mode, kind, name) = (fields.next()?, fields.next()?, fields.next()?);
        let is_link = mode == "120000";
        let is_taken = is_link || mode.starts_with("100") && path.ends_with(".miche");
        (kind == "blob" && is_taken).then_some(Blob { name, path, is_link })
    }
}

/// Whether a link at a path of the repository leads to a place in it: up no further than to its top, and then down. Behind a name that may
/// be a link itself nobody knows where `..` leads.
fn leads_inside(path: &str, target: &Path) -> bool {
    let above = Path::new(path).components().count().saturating_sub(1);
    let is_up = |component: &Component<'_>| matches!(component, Component::ParentDir | Component::CurDir);
    let up = target.components().take_while(is_up).filter(|component| *component == Component::ParentDir).count();
    let mut down = target.components().skip_while(is_up).peekable();
    up <= above && down.peek().is_some() && down.all(|component| matches!(component, Component::Normal(_)))
}

/// Makes a link of a repository anew; one that leads out of it is left out.
#[cfg(unix)]
fn link(path: &str, target: &Path, place: &Path) -> std::io::Result<()> {
    if leads_inside(path, target) { std::os::unix::fs::symlink(target, place) } else { Ok(()) }
}

#[cfg(not(unix))]
fn link(_: &str, _: &Path, _: &Path) -> std::io::Result<()> {
    Ok(())
}

/// Copies blobs out of one `git cat-file --batch`, however many there are.
fn copy_blobs(top: &Path, files: &[Blob<'_>], folder: &Path) -> Result<(), String> {
    let plain = |error: std::io::Error| error.to_string();
    let mut child = Command::new("git")
        .arg("-C")
        .arg(top)
        .args(["cat-file", "--batch"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .map_err(|error| format!("git cannot be run: {error}"))?;
    let (Some(mut wanted), Some(given)) = (child.stdin.take(), child.stdout.take()) else {
        return Err("git cannot be spoken to".to_owned());
    };
    let mut given = BufReader::new(given);
    for Blob { name, path, is_link } in files {
        writeln!(wanted, "{name}").and_then(|()| wanted.flush()).map_err(plain)?;
        let mut head = String::new();
        given.read_line(&mut head).map_err(plain)?;
        let size = head.trim().rsplit(' ').next().and_then(|size| size.parse::<usize>().ok());
        let Some(size) = size else { return Err(format!("git does not have {path}")) };
        // The text, and the line break that git puts behind it.
        let mut text = vec![0; size + 1];
        given.read_exact(&mut text).map_err(plain)?;
        text.truncate(size);
        let target = folder.join(path);
        if let Some(parent) = target.parent() {
            std::fs::create_dir_all(parent).map_err(plain)?;
        }
        let written = match String::from_utf8(text) {
            Ok(to) if *is_link => link(path, Path::new(&to), &target),
            Ok(text) => std::fs::write(target, text),
            Err(bytes) => std::fs::write(target, bytes.as_bytes()),
        };
        written.map_err(plain)?;
    }
    drop(wanted);
    child.wait().map_err(plain)?;
    Ok(())
}

/// Why nothing of a path's past is known.
pub(in crate::edge) enum NoTop {
    /// No repository is there.
    Nowhere,
    /// There is one, in this folder, and git refuses it: that of another owner, or a broken one.
    Refused(PathBuf),
    /// There is no git, and why.
    NoGit(String),
}

impl NoTop {
    /// Said of what is asked about, in words that a sentence can go on from.
    pub(in crate::edge) fn of(&self, what: &str) -> String {
        match self {
            NoTop::Nowhere => format!("{what} lies in no git repository"),
            NoTop::Refused(folder) => {
                format!(
                    "git refuses the repository that {what} lies in (`git -C {} status` says why)",
                    folder.display()
                )
            }
            NoTop::NoGit(why) => format!("{what} may lie in a git repository, but {why}"),
        }
    }
}

/// The top of the repository that a path lies in.
///
/// # Errors
/// Why there is none.
pub(in crate::edge) fn top_of(near: &Path) -> Result<PathBuf, NoTop> {
    let folder = near.ancestors().find(|folder| folder.is_dir() && !folder.as_os_str().is_empty());
    let folder = folder.unwrap_or(Path::new("."));
    match git_ran(folder, &["rev-parse", "--show-toplevel"]).map_err(NoTop::NoGit)? {
        Ok(top) => Ok(real_path(Path::new(top.trim_end_matches('\n')))),
        Err(_) => {
            let whole = real_path(folder);
            let refused = whole.ancestors().find(|folder| folder.join(".git").exists());
            Err(refused.map_or(NoTop::Nowhere, |folder| NoTop::Refused(folder.to_owned())))
        }
    }
}

/// Runs git and gives what it printed.
///
/// # Errors
/// What git complained of, or that it cannot be run.
pub(in crate::edge) fn git(folder: &Path, arguments: &[&str]) -> Result<String, String> {
    git_ran(folder, arguments)?
}

/// What git printed, or what it complained of.
///
/// # Errors
/// That it cannot be run.
fn git_ran(folder: &Path, arguments: &[&str]) -> Result<Result<String, String>, String> {
    let output = Command::new("git")
        .arg("-C")
        .arg(folder)
        .args(arguments)
        .stdin(Stdio::null())
        .output()
        .map_err(|error| format!("git cannot be run: {error}"))?;
    Ok(if output.status.success() {
        Ok(String::from_utf8_lossy(&output.stdout).into_owned())
    } else {
        Err(String::from_utf8_lossy(&output.stderr).trim().to_owned())
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn links_lead_up_no_further_than_to_the_top_and_then_down() {
        for (path, target) in [
            ("kitchen.miche", "shared/kitchen.miche"),
            ("a/kitchen.miche", "../shared/kitchen.miche"),
            ("common", "./shared"),
        ] {
            assert!(leads_inside(path, Path::new(target)), "{path} -> {target}");
        }
        for (path, target) in [
            ("kitchen.miche", "../kitchen.miche"),
            ("a/kitchen.miche", "../../kitchen.miche"),
            ("kitchen.miche", "/etc/passwd"),
            ("kitchen.miche", "a/b/../../../passwd"),
            ("kitchen.miche", ""),
            ("a/common", ".."),
        ] {
            assert!(!leads_inside(path, Path::new(target)), "{path} -> {target}");
        }
    }
}
