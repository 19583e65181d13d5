//! Files as they stood at a git revision, read through git's own plumbing.
//!
//! The `git` program is used instead of a library: it is there wherever a repository is, it knows every format and setting
//! of it, and nothing is compared that git itself would not show.

use crate::edge::loader::{Loader, real_path, temporary_folder};
use crate::figures::compare::FileVersion;
use std::fs::File;
use std::io::{BufRead, BufReader, Read, Write};
use std::path::{Path, PathBuf};
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
        let top = top_of(near)?;
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
        let files: Vec<(&str, &str)> = listing.split('\0').filter_map(miche_blob).collect();
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

/// `<mode> blob <name>\t<path>` of a regular `.miche` file. Links are left out: they could lead anywhere.
fn miche_blob(entry: &str) -> Option<(&str, &str)> {
    let (head, path) = entry.split_once('\t')?;
    let mut fields = head.split(' ');
    let (mode, kind, name) = (fields.next()?, fields.next()?, fields.next()?);
    let regular = mode.starts_with("100") && kind == "blob";
    (regular && path.ends_with(".miche")).then_some((name, path))
}

/// Copies blobs out of one `git cat-file --batch`, however many there are.
fn copy_blobs(top: &Path, files: &[(&str, &str)], folder: &Path) -> Result<(), String> {
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
    for (name, path) in files {
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
        std::fs::write(target, text).map_err(plain)?;
    }
    drop(wanted);
    child.wait().map_err(plain)?;
    Ok(())
}

/// The top of the repository that a path lies in.
pub(in crate::edge) fn top_of(near: &Path) -> Result<PathBuf, String> {
    let folder = near.ancestors().find(|folder| folder.is_dir() && !folder.as_os_str().is_empty());
    let folder = folder.unwrap_or(Path::new("."));
    let top = git(folder, &["rev-parse", "--show-toplevel"])
        .map_err(|_| format!("{} lies in no git repository", near.display()))?;
    let top = PathBuf::from(top.trim_end_matches('\n'));
    Ok(real_path(&top))
}

/// Runs git and gives what it printed.
///
/// # Errors
/// What git complained of, or that it cannot be run.
pub(in crate::edge) fn git(folder: &Path, arguments: &[&str]) -> Result<String, String> {
    let output = Command::new("git")
        .arg("-C")
        .arg(folder)
        .args(arguments)
        .stdin(Stdio::null())
        .output()
        .map_err(|error| format!("git cannot be run: {error}"))?;
    if !output.status.success() {
        return Err(String::from_utf8_lossy(&output.stderr).trim().to_owned());
    }
    Ok(String::from_utf8_lossy(&output.stdout).into_owned())
}
