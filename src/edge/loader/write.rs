//! Writing files: whole or not at all, and never over what must stay.

use super::opened::{does_not_wait, was_read};
use super::{leftover, links, reason};
use std::fs::{self, Metadata};
use std::io::{self, Write};
use std::path::Path;

/// Writes what a command has made into the file that was named for it.
///
/// # Errors
/// In plain words: when the file is one that this run has read, or a recipe, which what is made would take the place of;
/// else as [`write_whole`].
pub fn write_output(path: &Path, bytes: &[u8]) -> Result<(), String> {
    if was_read(path) {
        return Err("this very file was read for it, so it is not written over; name another file".to_owned());
    }
    let target = links::behind(path);
    let is_recipe = |path: &Path| path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("miche"));
    if (is_recipe(path) || is_recipe(&target)) && fs::metadata(&target).is_ok_and(|there| there.is_file()) {
        return Err("a `.miche` file is there already, and is not written over; name another file".to_owned());
    }
    write_whole(path, bytes).map_err(|error| reason(&error))
}

/// Writes a whole file or nothing: to a temporary file in the same folder, which then takes its place.
///
/// # Errors
/// When the file or its folder may not or cannot be written to; the old file is then still whole.
pub fn write_whole(path: &Path, bytes: &[u8]) -> io::Result<()> {
    write_if(path, bytes, |_| Ok(()))
}

/// Writes a changed text over the one that was read from a file, whole or not at all.
///
/// # Errors
/// When the file no longer holds what was read, since somebody has saved it meanwhile: what they wrote stays. Else as
/// [`write_whole`].
pub fn write_over(path: &Path, read: &str, changed: &str) -> io::Result<()> {
    write_if(path, changed.as_bytes(), |target| {
        if fs::read(target)? == read.as_bytes() {
            return Ok(());
        }
        Err(io::Error::other("somebody saved it meanwhile, so it is left as they wrote it; run this again"))
    })
}

/// As [`write_whole`], if the target is found fit at the last moment.
fn write_if(path: &Path, bytes: &[u8], is_fit: impl Fn(&Path) -> io::Result<()>) -> io::Result<()> {
    let target = links::behind(path);
    let there = fs::metadata(&target).ok();
    if there.as_ref().is_some_and(|there| !there.is_file() && !there.is_dir()) {
        return write_stream(&target, bytes);
    }
    if there.as_ref().is_some_and(|there| there.permissions().readonly()) {
        // Renaming over it would work all the same.
        return Err(io::ErrorKind::PermissionDenied.into());
    }
    if let Some(names) = there.as_ref().and_then(other_names) {
        return Err(io::Error::other(format!(
            "it has {names} names on the disk (hard links), which writing it would part from each other; copy it first"
        )));
    }
    let permissions = there.map(|there| there.permissions());
    let file = written(&target, bytes, permissions)?;
    is_fit(&target)?;
    file.persist(&target).map_err(|error| error.error)?;
    Ok(())
}

/// Writes a whole new file or nothing. What is there already stays.
///
/// # Errors
/// When there is something at the path, also a link that leads nowhere, or the folder cannot be written to.
pub fn write_new(path: &Path, bytes: &[u8]) -> io::Result<()> {
    written(path, bytes, None)?.persist_noclobber(path).map_err(|error| error.error)?;
    Ok(())
}

/// A temporary file beside the target with everything in it, on the disk.
fn written(target: &Path, bytes: &[u8], permissions: Option<fs::Permissions>) -> io::Result<tempfile::NamedTempFile> {
    let folder = target.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut file = leftover::temporary_in(folder)?;
    file.write_all(bytes)?;
    if let Some(permissions) = permissions.or_else(usual_permissions) {
        file.as_file().set_permissions(permissions)?;
    }
    file.as_file().sync_all()?;
    Ok(file)
}

/// Writes to a pipe or a terminal, which has no old content to keep, and must not be replaced by a file. A pipe from which
/// nobody reads is not waited for.
fn write_stream(target: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut options = fs::OpenOptions::new();
    options.write(true);
    does_not_wait(&mut options);
    let mut stream = options.open(target)?;
    // Once somebody reads, what is written waits for them.
    #[cfg(unix)]
    {
        let flags = rustix::fs::fcntl_getfl(&stream)?;
        rustix::fs::fcntl_setfl(&stream, flags - rustix::fs::OFlags::NONBLOCK)?;
    }
    stream.write_all(bytes)
}

/// How many names a file has, when it has several.
#[cfg(unix)]
fn other_names(metadata: &Metadata) -> Option<u64> {
    use std::os::unix::fs::MetadataExt;
    Some(metadata.nlink()).filter(|names| metadata.is_file() && *names > 1)
}

#[cfg(not(unix))]
fn other_names(_: &Metadata) -> Option<u64> {
    None
}

/// Temporary files are private; a new card is readable like any new file.
#[cfg(unix)]
fn usual_permissions() -> Option<fs::Permissions> {
    use std::os::unix::fs::PermissionsExt;
    Some(fs::Permissions::from_mode(0o644))
}

/// Elsewhere a new file takes what its folder gives.
#[cfg(not(unix))]
fn usual_permissions() -> Option<fs::Permissions> {
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_somebody_saved_meanwhile_stays() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("rolls.miche");
        fs::write(&path, "recipe Rolls\nsalt .... 8 g\n").expect("written");
        write_over(&path, "recipe Rolls\nsalt .... 8 g\n", "recipe Rolls\nsalt .... 9 g\n").expect("nobody was there");
        let refused =
            write_over(&path, "recipe Rolls\nsalt .... 8 g\n", "recipe Rolls\n").expect_err("it is another text");
        assert!(refused.to_string().contains("somebody saved it meanwhile"), "{refused}");
        assert_eq!(fs::read_to_string(&path).expect("there"), "recipe Rolls\nsalt .... 9 g\n");
        assert_eq!(fs::read_dir(folder.path()).expect("a folder").count(), 1, "nothing is left over");
        fs::remove_file(&path).expect("removed");
        assert!(
            write_over(&path, "recipe Rolls\n", "recipe Buns\n").is_err(),
            "what was taken away does not come back"
        );
        assert!(!path.exists());
    }
}
