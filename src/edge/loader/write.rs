//! Writing files: whole or not at all, and never over what must stay.

use super::opened::{does_not_wait, was_read};
use super::{leftover, links, reason};
use std::fs::{self, Metadata};
use std::io::{self, Write};
use std::path::Path;

/// Writes what a command has made into the file that was named for it.
///
/// # Errors
/// In plain words: when the file is one that this run has read, a recipe or a log of bakes, whose place what is made would take;
/// else as [`write_whole`].
pub fn write_output(path: &Path, bytes: &[u8]) -> Result<(), String> {
    if was_read(path) {
        return Err("this very file was read for it, so it is not written over; name another file".to_owned());
    }
    let target = links::behind(path);
    let of_the_trade = |path: &Path| {
        let ending = path.extension()?.to_str()?;
        ["miche", "bakes"].into_iter().find(|own| ending.eq_ignore_ascii_case(own))
    };
    if let Some(ending) = of_the_trade(path).or_else(|| of_the_trade(&target))
        && fs::metadata(&target).is_ok_and(|there| there.is_file())
    {
        return Err(format!("a `.{ending}` file is there already, and is not written over; name another file"));
    }
    write_whole(path, bytes).map_err(|error| reason_to_write(path, &error))
}

/// Writes a whole file or nothing: to a temporary file in the same folder, which then takes its place.
///
/// # Errors
/// When the file or its folder may not or cannot be written to; the old file is then still whole.
pub fn write_whole(path: &Path, bytes: &[u8]) -> io::Result<()> {
    put_in_place(path, bytes, None)
}

/// Writes a changed text over the one that was read from a file, whole or not at all.
///
/// # Errors
/// When the file no longer holds what was read, since somebody has saved it meanwhile: what they wrote stays. Else as
/// [`write_whole`].
pub fn write_over(path: &Path, read: impl AsRef<[u8]>, changed: impl AsRef<[u8]>) -> io::Result<()> {
    put_in_place(path, changed.as_ref(), Some(read.as_ref()))
}

/// Writes a whole file or nothing; when a file is said to hold something, only if it still does.
fn put_in_place(path: &Path, bytes: &[u8], held: Option<&[u8]>) -> io::Result<()> {
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
    let file = written(&target, bytes, there.as_ref())?;
    let Some(held) = held else {
        file.persist(&target).map_err(|error| error.error)?;
        return Ok(());
    };
    if fs::read(&target)? != held {
        return Err(saved_meanwhile());
    }
    match swapped(file.path(), &target) {
        Ok(()) => is_what_was_read(file.path(), &target, held, bytes),
        // Not every system and disk can swap two names.
        Err(_) => file.persist(&target).map(drop).map_err(|error| error.error),
    }
}

fn saved_meanwhile() -> io::Error {
    io::Error::other("somebody saved it meanwhile, so it is left as they wrote it; run this again")
}

/// After two files have taken each other's place: whether what was taken away is what was read before. If somebody saved it in
/// the moment between, what they wrote gets its place back.
fn is_what_was_read(taken_away: &Path, target: &Path, held: &[u8], bytes: &[u8]) -> io::Result<()> {
    if fs::read(taken_away)? == held {
        return Ok(());
    }
    swapped(taken_away, target)?;
    // Whoever saved a second time wrote into ours, and that is the newest.
    if fs::read(taken_away)? != bytes {
        swapped(taken_away, target)?;
    }
    Err(saved_meanwhile())
}

/// Two files take each other's name, at one moment.
#[cfg(any(target_os = "linux", target_os = "android", target_vendor = "apple"))]
pub(super) fn swapped(one: &Path, other: &Path) -> io::Result<()> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    Ok(renameat_with(CWD, one, CWD, other, RenameFlags::EXCHANGE)?)
}

#[cfg(not(any(target_os = "linux", target_os = "android", target_vendor = "apple")))]
pub(super) fn swapped(_: &Path, _: &Path) -> io::Result<()> {
    Err(io::ErrorKind::Unsupported.into())
}

/// Writes a whole new file or nothing. What is there already stays.
///
/// # Errors
/// When there is something at the path, also a link that leads nowhere, or the folder cannot be written to.
pub fn write_new(path: &Path, bytes: &[u8]) -> io::Result<()> {
    written(path, bytes, None)?.persist_noclobber(path).map_err(|error| error.error)?;
    Ok(())
}

/// A temporary file beside the target with everything in it, on the disk, as readable as the file that it replaces.
fn written(target: &Path, bytes: &[u8], there: Option<&Metadata>) -> io::Result<tempfile::NamedTempFile> {
    let folder = super::folder_of(target);
    let mut file = leftover::temporary_in(folder)?;
    file.write_all(bytes)?;
    there.into_iter().for_each(|there| keep_owner(file.as_file(), there));
    if let Some(permissions) = there.map(Metadata::permissions).or_else(usual_permissions) {
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

/// A file stays its owner's and its group's, also when somebody else tidies it.
#[cfg(unix)]
fn keep_owner(file: &fs::File, there: &Metadata) {
    use std::os::unix::fs::{MetadataExt, fchown};
    // Who may not give files away keeps what they write.
    if file.metadata().is_ok_and(|own| (own.uid(), own.gid()) != (there.uid(), there.gid())) {
        let _ = fchown(file, Some(there.uid()), Some(there.gid()));
    }
}

#[cfg(not(unix))]
fn keep_owner(_: &fs::File, _: &Metadata) {}

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

/// What went wrong in writing to a path, in plain words: what is not there is the folder, and what is not allowed is told of the file or
/// its folder.
pub fn reason_to_write(path: &Path, error: &io::Error) -> String {
    let there = fs::metadata(path).ok();
    match (error.kind(), there) {
        (io::ErrorKind::NotFound, _) => "the folder in which it should stand is not there".to_owned(),
        (io::ErrorKind::AlreadyExists, Some(there)) if there.is_dir() => {
            "there is a folder of that name already".to_owned()
        }
        (io::ErrorKind::PermissionDenied, Some(there)) if there.permissions().readonly() => {
            "writing over it is not allowed".to_owned()
        }
        (io::ErrorKind::PermissionDenied, _) => "writing into its folder is not allowed".to_owned(),
        _ => reason(error),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Somebody saves in the moment before the two files take each other's place, and then once more.
    #[test]
    fn what_was_saved_at_the_last_moment_gets_its_place_back() {
        let folder = tempfile::tempdir().expect("a folder");
        let [target, ours] = ["rolls.miche", ".miche-1-abcdef"].map(|name| folder.path().join(name));
        let texts = || [&target, &ours].map(|path| fs::read_to_string(path).expect("there"));
        fs::write(&target, "saved").expect("written");
        fs::write(&ours, "tidied").expect("written");
        if swapped(&ours, &target).is_err() {
            return;
        }
        assert_eq!(texts(), ["tidied", "saved"]);
        assert!(is_what_was_read(&ours, &target, b"read", b"tidied").is_err());
        assert_eq!(texts(), ["saved", "tidied"]);
        swapped(&ours, &target).expect("they are there");
        fs::write(&target, "saved again").expect("written");
        assert!(is_what_was_read(&ours, &target, b"read", b"tidied").is_err());
        assert_eq!(texts()[0], "saved again");
        fs::write(&ours, "read").expect("written");
        assert!(is_what_was_read(&ours, &target, b"read", b"saved again").is_ok());
    }

    #[cfg(unix)]
    #[test]
    fn a_file_stays_its_owners() {
        use std::os::unix::fs::{MetadataExt, chown};
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("rolls.miche");
        fs::write(&path, "recipe Rolls\n").expect("written");
        let given_away = chown(&path, Some(4711), Some(4712)).is_ok();
        write_over(&path, "recipe Rolls\n", "recipe Buns\n").expect("nobody was there");
        let there = fs::metadata(&path).expect("there");
        assert!(!given_away || (there.uid(), there.gid()) == (4711, 4712));
        assert_eq!(fs::read_to_string(&path).expect("there"), "recipe Buns\n");
    }

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
