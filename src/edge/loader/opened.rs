//! Opening a file to read it: never one that makes the program wait, and none that is not a file.

use super::{reason, reason_at};
use crate::text::line_break;
use std::collections::HashSet;
use std::fs::{self, File, Metadata, OpenOptions};
use std::io::{self, Read};
use std::path::Path;
use std::sync::{Mutex, OnceLock, PoisonError};

/// The largest file that is read. A formula is a few kilobytes; a larger file was named by mistake.
pub const LARGEST_FILE: u64 = 8 * 1024 * 1024;

/// The most lines of a file that is read. The tree has a place for each, and for empty ones too: eight million of them would fill
/// gigabytes.
const MOST_LINES: usize = 300_000;

/// The files that this run has read. One run of the program has one such list, because a file is lost whoever read it.
static READ: Mutex<Option<HashSet<Identity>>> = Mutex::new(None);

/// What a file is known by, whatever it is called.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
struct Identity {
    /// Device and number on it.
    #[cfg(unix)]
    node: (u64, u64),
    /// The one path.
    #[cfg(not(unix))]
    path: std::path::PathBuf,
}

impl Identity {
    #[cfg(unix)]
    fn of(_: &Path, metadata: &Metadata) -> Option<Identity> {
        use std::os::unix::fs::MetadataExt;
        Some(Identity { node: (metadata.dev(), metadata.ino()) })
    }

    #[cfg(not(unix))]
    fn of(path: &Path, _: &Metadata) -> Option<Identity> {
        Some(Identity { path: fs::canonicalize(path).ok()? })
    }
}

/// Whether this run has read the file at a path, under whatever name.
pub fn was_read(path: &Path) -> bool {
    let identity = fs::metadata(path).ok().and_then(|metadata| Identity::of(path, &metadata));
    let read = READ.lock().unwrap_or_else(PoisonError::into_inner);
    identity.is_some_and(|identity| read.as_ref().is_some_and(|read| read.contains(&identity)))
}

fn remember(path: &Path, metadata: &Metadata) {
    if let Some(identity) = Identity::of(path, metadata) {
        READ.lock().unwrap_or_else(PoisonError::into_inner).get_or_insert_default().insert(identity);
    }
}

/// Reads a file.
///
/// # Errors
/// In plain words: it is not there, no file, too large, not UTF-8.
pub(super) fn read_file(path: &Path) -> Result<String, String> {
    text_of_file(path, open_file(path)?)
}

/// Reads the bytes of a file, whatever they are.
///
/// # Errors
/// In plain words: it is not there, no file, too large.
pub fn read_bytes(path: &Path) -> Result<Vec<u8>, String> {
    let (file, metadata) = open_file(path)?;
    remember(path, &metadata);
    bytes_of(file, metadata.len())
}

/// Reads a file by its path without links. One that was swapped for a link since its path was found is not read.
///
/// # Errors
/// As [`read_file`].
pub(super) fn read_real(path: &Path) -> Result<String, String> {
    text_of_file(path, open_real(path)?)
}

/// Reads the bytes of a file by its path without links, so many at most.
///
/// # Errors
/// As [`read_bytes`].
pub(super) fn read_real_bytes(path: &Path, most: u64) -> Result<Vec<u8>, String> {
    let (file, metadata) = open_real(path)?;
    remember(path, &metadata);
    let mut bytes = Vec::new();
    file.take(most + 1).read_to_end(&mut bytes).map_err(|error| reason(&error))?;
    if bytes.len() as u64 > most {
        return Err(format!("it is larger than {} MiB", most / (1024 * 1024)));
    }
    Ok(bytes)
}

pub(super) fn text_of_file(path: &Path, (file, metadata): (File, Metadata)) -> Result<String, String> {
    if metadata.len() > LARGEST_FILE {
        return Err(too_large());
    }
    remember(path, &metadata);
    text_of(file, metadata.len())
}

/// Opens a file by its path without links, folder by folder, and follows none.
#[cfg(unix)]
pub(super) fn open_real(path: &Path) -> Result<(File, Metadata), String> {
    use std::path::Component;
    let has_detours = path.components().any(|name| !matches!(name, Component::RootDir | Component::Normal(_)));
    match (path.parent(), path.file_name()) {
        (Some(folder), Some(name)) if path.is_absolute() && !has_detours => open_in(&open_folder(folder)?, name),
        _ => open_file(path),
    }
}

/// Opens a folder by its path without links, folder by folder, to look for files in it.
#[cfg(unix)]
pub(super) fn open_folder(path: &Path) -> Result<std::os::fd::OwnedFd, String> {
    use rustix::fs::{Mode, OFlags, open, openat};
    use std::path::Component;
    // To pass through a folder one need not be allowed to list it.
    #[cfg(target_os = "linux")]
    let folder = OFlags::PATH | OFlags::DIRECTORY | OFlags::NOFOLLOW | OFlags::CLOEXEC;
    #[cfg(not(target_os = "linux"))]
    let folder = OFlags::RDONLY | OFlags::DIRECTORY | OFlags::NOFOLLOW | OFlags::CLOEXEC;
    let mut at = open("/", folder, Mode::empty()).map_err(told)?;
    for name in path.components() {
        if let Component::Normal(name) = name {
            at = openat(&at, name, folder, Mode::empty()).map_err(told)?;
        }
    }
    Ok(at)
}

/// Opens a file of a folder; a link is not followed.
#[cfg(unix)]
pub(super) fn open_in(folder: &impl std::os::fd::AsFd, name: &std::ffi::OsStr) -> Result<(File, Metadata), String> {
    use rustix::fs::{AtFlags, FileType, Mode, OFlags, openat, statat};
    let there = statat(folder, name, AtFlags::SYMLINK_NOFOLLOW).map_err(told)?;
    match FileType::from_raw_mode(there.st_mode) {
        FileType::RegularFile => {}
        FileType::Symlink => return Err(told(rustix::io::Errno::LOOP)),
        kind => kind_of_file(kind == FileType::Directory, false)?,
    }
    let flags = OFlags::RDONLY | OFlags::NOFOLLOW | OFlags::NONBLOCK | OFlags::CLOEXEC;
    let file = File::from(openat(folder, name, flags, Mode::empty()).map_err(told)?);
    let metadata = file.metadata().map_err(|error| reason(&error))?;
    is_file(&metadata)?;
    Ok((file, metadata))
}

#[cfg(unix)]
fn told(error: rustix::io::Errno) -> String {
    match error {
        rustix::io::Errno::LOOP => "it was swapped for a link while it was read".to_owned(),
        error => reason(&error.into()),
    }
}

#[cfg(not(unix))]
pub(super) fn open_real(path: &Path) -> Result<(File, Metadata), String> {
    open_file(path)
}

/// Opens a file for reading. What it is, is asked of what was opened, since another may stand at the path by then.
///
/// # Errors
/// In plain words; also for a folder, a pipe, a device: reading those may wait for ever.
pub(super) fn open_file(path: &Path) -> Result<(File, Metadata), String> {
    // Opening a device can have effects of its own, so it is not even tried.
    is_file(&fs::metadata(path).map_err(|error| reason_at(path, &error))?)?;
    let mut options = OpenOptions::new();
    options.read(true);
    does_not_wait(&mut options);
    let file = options.open(path).map_err(|error| reason(&error))?;
    let metadata = file.metadata().map_err(|error| reason(&error))?;
    is_file(&metadata)?;
    Ok((file, metadata))
}

fn is_file(metadata: &Metadata) -> Result<(), String> {
    kind_of_file(metadata.is_dir(), metadata.is_file())
}

fn kind_of_file(is_folder: bool, is_file: bool) -> Result<(), String> {
    if is_folder {
        return Err("it is a folder, not a file".to_owned());
    }
    if !is_file {
        return Err("it is a pipe or a device, not a file; `-` reads standard input".to_owned());
    }
    Ok(())
}

/// A pipe that came to the path meanwhile is opened without waiting for its other end.
#[cfg(unix)]
pub(super) fn does_not_wait(options: &mut OpenOptions) {
    use std::os::unix::fs::OpenOptionsExt;
    options.custom_flags(i32::try_from(rustix::fs::OFlags::NONBLOCK.bits()).unwrap_or(0));
}

#[cfg(not(unix))]
pub(super) fn does_not_wait(_: &mut OpenOptions) {}

/// What standard input held. It can be read once, and is asked for again where a log from there names its recipe.
static INPUT: OnceLock<Result<String, String>> = OnceLock::new();

/// Reads standard input; whoever asks again gets what it held.
///
/// # Errors
/// As [`read_file`].
pub(super) fn read_input() -> Result<String, String> {
    INPUT.get_or_init(read_input_once).clone()
}

fn read_input_once() -> Result<String, String> {
    let input = io::stdin().lock();
    #[cfg(unix)]
    {
        use std::os::fd::AsFd;
        // `card - < rolls.miche` reads a file, too.
        let file = input.as_fd().try_clone_to_owned().map(File::from);
        if let Ok(metadata) = file.and_then(|file| file.metadata()) {
            remember(Path::new("-"), &metadata);
        }
    }
    text_of(input, 0)
}

fn too_large() -> String {
    format!("it is larger than {} MiB; a formula is a few kilobytes", LARGEST_FILE / (1024 * 1024))
}

/// Reads at most one byte more than is allowed, so that an endless stream ends. It is thought to be so long, in bytes.
fn bytes_of(stream: impl Read, length: u64) -> Result<Vec<u8>, String> {
    let room = usize::try_from(length.min(LARGEST_FILE) + 1).unwrap_or(0);
    let mut bytes = Vec::with_capacity(room);
    stream.take(LARGEST_FILE + 1).read_to_end(&mut bytes).map_err(|error| reason(&error))?;
    if bytes.len() as u64 > LARGEST_FILE {
        return Err(too_large());
    }
    Ok(bytes)
}

/// Whether the bytes are text in UTF-16 without a mark that says so: of its first letters every other byte is nothing, and is valid
/// UTF-8 all the same.
fn is_wide(bytes: &[u8]) -> bool {
    let first = bytes.get(..bytes.len().min(64)).unwrap_or_default();
    let nothing_at = |odd: usize| first.iter().skip(odd).step_by(2).filter(|byte| **byte == 0).count();
    let pairs = first.len() / 2;
    let is_half = |odd: usize| nothing_at(odd) * 4 >= pairs * 3 && nothing_at(1 - odd) == 0;
    pairs >= 4 && (is_half(0) || is_half(1))
}

fn text_of(stream: impl Read, length: u64) -> Result<String, String> {
    let bytes = bytes_of(stream, length)?;
    if is_wide(&bytes) {
        return Err("it is UTF-16 text, with two bytes a letter; save it as UTF-8".to_owned());
    }
    let text = String::from_utf8(bytes).map_err(|error| {
        let good = error.utf8_error().valid_up_to();
        let before = error.as_bytes().get(..good).and_then(|before| str::from_utf8(before).ok()).unwrap_or("");
        let line = line_break::count_before(before, good) + 1;
        format!("it is not UTF-8 text (line {line}, byte {}); save it as UTF-8", good + 1)
    })?;
    // A text of fewer bytes has fewer lines; behind the last line break there begins one more, which is empty.
    if text.len() > MOST_LINES && line_break::starts(&text).nth(MOST_LINES + 1).is_some() {
        return Err(format!("it has more than {MOST_LINES} lines; a formula has some tens"));
    }
    Ok(text)
}
