//! Temporary files and folders: their names say which run they belong to, and what a run that was killed has left is taken
//! away by the next one that writes there.

use std::collections::HashSet;
use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};
use tempfile::{NamedTempFile, TempDir};

/// How the names of temporary files begin; behind it stands the number of the process.
const FILE: &str = ".miche-";

/// The same for folders among those of the whole system.
const FOLDER: &str = "miche-";

/// The folders that this run has looked through: once each is enough.
static SWEPT: Mutex<Option<HashSet<PathBuf>>> = Mutex::new(None);

/// A new temporary file in a folder. It is locked as long as its run lives.
///
/// # Errors
/// When the folder cannot be written to.
pub(super) fn temporary_in(folder: &Path) -> io::Result<NamedTempFile> {
    sweep(folder, FILE);
    let file = tempfile::Builder::new().prefix(&own(FILE)).tempfile_in(folder)?;
    // Where a file system knows no locks, the number of the process has to do.
    let _ = file.as_file().try_lock();
    Ok(file)
}

/// A new temporary folder among those of the system, and the lock that says that its run lives.
///
/// # Errors
/// When there is no place for it.
pub(crate) fn temporary_folder() -> io::Result<(TempDir, File)> {
    sweep(&std::env::temp_dir(), FOLDER);
    let folder = tempfile::Builder::new().prefix(&own(FOLDER)).tempdir()?;
    let lock = File::create(folder.path().join(LOCK))?;
    let _ = lock.try_lock();
    Ok((folder, lock))
}

/// A new temporary folder in another, and the lock that says that its run lives.
///
/// # Errors
/// When the folder cannot be written to.
pub(super) fn temporary_folder_in(parent: &Path) -> io::Result<(TempDir, File)> {
    sweep(parent, FILE);
    let folder = tempfile::Builder::new().prefix(&own(FILE)).tempdir_in(parent)?;
    let lock = File::create(folder.path().join(LOCK))?;
    let _ = lock.try_lock();
    Ok((folder, lock))
}

/// From now on a temporary folder holds what must not be lost: no other run takes it away.
///
/// # Errors
/// When the folder cannot be written to.
pub(super) fn keep_from_now_on(folder: &Path) -> io::Result<()> {
    fs::remove_file(folder.join(LOCK))
}

/// The file in a temporary folder that its run holds locked.
const LOCK: &str = ".lock";

fn own(prefix: &str) -> String {
    format!("{prefix}{}-", std::process::id())
}

/// Takes away what runs have left that live no longer. Nothing depends on it, so that what cannot be taken away stays.
fn sweep(folder: &Path, prefix: &str) {
    let mut swept = SWEPT.lock().unwrap_or_else(PoisonError::into_inner);
    if !swept.get_or_insert_default().insert(folder.join(prefix)) {
        return;
    }
    drop(swept);
    for entry in fs::read_dir(folder).into_iter().flatten().filter_map(Result::ok) {
        let name = entry.file_name();
        let Some(process) = name.to_str().and_then(|name| process_of(name, prefix)) else { continue };
        let Ok(kind) = entry.file_type() else { continue };
        if process == std::process::id() || cfg!(unix) && process_lives(process) {
            continue;
        }
        let path = entry.path();
        if kind.is_file() && is_free(&path) {
            let _ = fs::remove_file(path);
        } else if kind.is_dir() && is_free(&path.join(LOCK)) {
            let _ = fs::remove_dir_all(path);
        }
    }
}

/// The process that a name tells of: `.miche-4711-x3Tf9a`.
fn process_of(name: &str, prefix: &str) -> Option<u32> {
    let (process, rest) = name.strip_prefix(prefix)?.split_once('-')?;
    (rest.len() == 6 && rest.bytes().all(|byte| byte.is_ascii_alphanumeric())).then_some(())?;
    process.parse().ok()
}

/// Whether nobody holds the file locked: a process in another container has a number that says nothing here.
fn is_free(path: &Path) -> bool {
    fs::symlink_metadata(path).is_ok_and(|there| there.is_file())
        && File::open(path).is_ok_and(|file| file.try_lock().is_ok())
}

/// Whether there is a process of that number.
#[cfg(unix)]
pub(crate) fn process_lives(process: u32) -> bool {
    let process = i32::try_from(process).ok().and_then(rustix::process::Pid::from_raw);
    // Not allowed to ask means that it is there.
    process.is_some_and(|process| !matches!(rustix::process::test_kill_process(process), Err(rustix::io::Errno::SRCH)))
}

/// Elsewhere only the lock tells that of a run, and an end of its input that of an editor.
#[cfg(not(unix))]
pub(crate) fn process_lives(_: u32) -> bool {
    true
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_tells_its_process() {
        assert_eq!(process_of(".miche-4711-x3Tf9a", FILE), Some(4711));
        for name in [".miche-x3Tf9a", ".miche-4711", ".miche-4711-notes.md", "miche-4711-x3Tf9a", ".miche--x3Tf9a"] {
            assert_eq!(process_of(name, FILE), None, "{name}");
        }
    }

    #[test]
    fn only_what_dead_runs_have_left_goes() {
        let folder = tempfile::tempdir().expect("a folder");
        let mut child = std::process::Command::new("true").spawn().expect("it starts");
        let dead = child.id();
        child.wait().expect("it ends");
        let living = std::process::id();
        let parent =
            std::fs::read_to_string("/proc/self/stat").ok().and_then(|stat| stat.split(' ').nth(3).map(str::to_owned));
        let names = [
            (format!("{FILE}{dead}-abcdef"), false),
            (format!("{FILE}{living}-abcdef"), true),
            (format!("{FILE}{}-abcdef", parent.unwrap_or_else(|| living.to_string())), true),
            (format!("{FILE}{dead}-locked"), true),
            (format!("{FILE}{dead}-notes.md"), true),
            ("rolls.miche".to_owned(), true),
        ];
        for (name, _) in &names {
            std::fs::write(folder.path().join(name), "half a card").expect("written");
        }
        let held = File::open(folder.path().join(&names[3].0)).expect("opened");
        held.lock().expect("locked");
        drop(temporary_in(folder.path()).expect("a file"));
        for (name, stays) in &names {
            assert_eq!(folder.path().join(name).exists(), *stays, "{name}");
        }
    }
}
