//! What earlier runs have found out, kept in the user's cache folder. It saves time, and nothing else depends on it.
//!
//! An entry goes by a digest of everything that it was found out of (`kept/digest`, `kept/uses`), so that it can be missing but not
//! out of date. Entries that a run asks for together lie in one file, a pack, which has the build of the program in its name and at
//! its beginning. Each has a checksum; what does not hold, and what cannot be read or written, counts as missing and is not told.

mod build;
mod digest;
mod footing;
mod uses;

use super::leftover;
use super::opened::open_real;
pub use digest::{Digest, Digesting};
pub use footing::{Footing, Ground};
use std::collections::{BTreeMap, HashMap};
use std::fs;
use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};
use std::time::SystemTime;
pub use uses::{Uses, uses};

/// How a pack begins; behind it stands the build.
const BEGINS: &[u8] = b"miche kept 1\n";

/// How the names of packs end.
const ENDING: &str = "kept";

/// A pack that is longer, in bytes, is not read, and none is written.
const LONGEST: u64 = 64 * 1024 * 1024;

/// An entry that so many runs have not asked for is thrown away.
const UNUSED_RUNS: u8 = 8;

/// All packs together, in bytes and in number: beyond that those go that were used the longest time ago.
const MOST_IN_ALL: (u64, usize) = (256 * 1024 * 1024, 500);

/// What earlier runs have found out, and what this one adds.
#[derive(Debug, Default)]
pub struct Kept {
    /// Where it lies, and under which build; `None` where nothing is kept.
    pack: Option<(PathBuf, Digest)>,
    old: HashMap<Digest, Entry>,
    new: Mutex<BTreeMap<Digest, Vec<u8>>>,
}

/// What was found out by an earlier run.
#[derive(Debug)]
struct Entry {
    /// How many runs have not asked for it since it was asked for last.
    unused: u8,
    value: Vec<u8>,
}

impl Kept {
    /// What runs of this build have found out about what lies at a place. Nothing where there is no cache folder.
    pub fn about(what: &str, place: &Path) -> Kept {
        let Some((folder, build)) = folder().zip(build::of_this_program()) else { return Kept::default() };
        let place = super::real_path(place);
        let mut name = Digesting::of("pack");
        name.put(what.as_bytes()).put(place.as_os_str().as_encoded_bytes()).put(build.bytes());
        let path = folder.join(format!("{}.{ENDING}", name.digest().hex()));
        let old = read(&path).map(|bytes| entries(&bytes, build)).unwrap_or_default();
        Kept { pack: Some((path, build)), old, new: Mutex::default() }
    }

    /// Whether there is a place for it.
    pub fn is_open(&self) -> bool {
        self.pack.is_some()
    }

    /// What goes by a digest, for who has yet to see whether it holds; [`Kept::find`] says that it was of use.
    pub fn look(&self, key: Digest) -> Option<&[u8]> {
        self.old.get(&key).map(|entry| entry.value.as_slice())
    }

    /// What goes by a digest.
    pub fn find(&self, key: Digest) -> Option<&[u8]> {
        let found = &self.old.get(&key)?.value;
        self.put(key, found.clone());
        Some(found)
    }

    /// Keeps something for later runs.
    pub fn put(&self, key: Digest, value: Vec<u8>) {
        if self.pack.is_some() {
            self.new.lock().unwrap_or_else(PoisonError::into_inner).insert(key, value);
        }
    }

    /// Writes it down for later runs, whole or not at all. Of two runs at once the one that ends last is remembered.
    pub fn close(self) {
        let Some((path, build)) = self.pack else { return };
        let new = self.new.into_inner().unwrap_or_else(PoisonError::into_inner);
        let is_same = new.iter().all(|(key, value)| self.old.get(key).is_some_and(|old| old.value == *value));
        // With a third of it in use, what is not may wait.
        if is_same && new.len() * 3 >= self.old.len() {
            if let Ok((file, _)) = open_real(&path) {
                let _ = file.set_modified(SystemTime::now());
            }
            return;
        }
        let mut bytes = [BEGINS, build.bytes()].concat();
        for (key, value) in &new {
            append(&mut bytes, *key, 0, value);
        }
        let mut unused: Vec<(&Digest, &Entry)> =
            self.old.iter().filter(|(key, old)| !new.contains_key(key) && old.unused < UNUSED_RUNS).collect();
        unused.sort_by_key(|(key, entry)| (entry.unused, **key));
        for (key, entry) in unused {
            if (bytes.len() + entry.value.len()) as u64 <= LONGEST / 2 {
                append(&mut bytes, *key, entry.unused + 1, &entry.value);
            }
        }
        if bytes.len() as u64 <= LONGEST && write(&path, &bytes).is_some() {
            make_room(&path);
        }
    }
}

/// The folder for what can be found out again, by the custom of the system.
fn folder() -> Option<PathBuf> {
    let named = |name: &str| std::env::var_os(name).map(PathBuf::from).filter(|path| path.is_absolute());
    let base = if cfg!(windows) {
        named("LOCALAPPDATA")?
    } else if let Some(base) = named("XDG_CACHE_HOME") {
        base
    } else {
        // Who has no home gets none made.
        let home = named("HOME").filter(|home| home.is_dir())?;
        home.join(if cfg!(target_vendor = "apple") { "Library/Caches" } else { ".cache" })
    };
    let folder = base.join("miche");
    let mut builder = fs::DirBuilder::new();
    builder.recursive(true);
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
    builder.create(&folder).ok()?;
    fs::canonicalize(folder).ok()
}

/// The bytes of a pack of ours: no link, and nobody else's file.
fn read(path: &Path) -> Option<Vec<u8>> {
    let (file, there) = open_real(path).ok()?;
    #[cfg(unix)]
    if std::os::unix::fs::MetadataExt::uid(&there) != rustix::process::geteuid().as_raw() {
        return None;
    }
    if there.len() > LONGEST {
        return None;
    }
    let mut bytes = Vec::new();
    file.take(LONGEST).read_to_end(&mut bytes).ok()?;
    Some(bytes)
}

/// The entries of a pack, up to the first that does not hold.
fn entries(bytes: &[u8], build: Digest) -> HashMap<Digest, Entry> {
    let mut all = HashMap::new();
    let Some(mut rest) = bytes.strip_prefix(BEGINS).and_then(|rest| rest.strip_prefix(build.bytes())) else {
        return all;
    };
    while let Some((key, entry, behind)) = entry(rest) {
        all.insert(key, entry);
        rest = behind;
    }
    all
}

/// An entry is: how long it was not asked for, its key, the length of its value, its value, the digest of all that.
fn entry(bytes: &[u8]) -> Option<(Digest, Entry, &[u8])> {
    let (unused, rest) = bytes.split_first()?;
    let (key, rest) = rest.split_first_chunk::<32>()?;
    let (length, rest) = rest.split_first_chunk::<4>()?;
    let (value, rest) = rest.split_at_checked(usize::try_from(u32::from_le_bytes(*length)).ok()?)?;
    let (checksum, rest) = rest.split_first_chunk::<32>()?;
    let key = Digest::from_bytes(*key);
    (sum(*unused, key, value).bytes() == checksum)
        .then(|| (key, Entry { unused: *unused, value: value.to_vec() }, rest))
}

fn append(bytes: &mut Vec<u8>, key: Digest, unused: u8, value: &[u8]) {
    let Ok(length) = u32::try_from(value.len()) else { return };
    bytes.push(unused);
    bytes.extend_from_slice(key.bytes());
    bytes.extend_from_slice(&length.to_le_bytes());
    bytes.extend_from_slice(value);
    bytes.extend_from_slice(sum(unused, key, value).bytes());
}

fn sum(unused: u8, key: Digest, value: &[u8]) -> Digest {
    let mut sum = Digesting::of("entry");
    sum.put(&[unused]).put(key.bytes()).put(value);
    sum.digest()
}

/// Puts a whole new file in the place of whatever has that name.
fn write(path: &Path, bytes: &[u8]) -> Option<()> {
    let mut file = leftover::temporary_in(super::folder_of(path)).ok()?;
    file.write_all(bytes).ok()?;
    file.persist(path).ok()?;
    Some(())
}

/// Throws away the packs that were used the longest time ago, until the others are few enough; never the one that was just written.
fn make_room(written: &Path) {
    let mut packs: Vec<(SystemTime, u64, PathBuf)> = Vec::new();
    for entry in fs::read_dir(super::folder_of(written)).into_iter().flatten().filter_map(Result::ok) {
        let path = entry.path();
        let there = fs::symlink_metadata(&path).ok().filter(fs::Metadata::is_file);
        if let Some(there) = there.filter(|_| path.extension().is_some_and(|ending| ending == ENDING))
            && let Ok(modified) = there.modified()
            && path != written
        {
            packs.push((modified, there.len(), path));
        }
    }
    packs.sort();
    let mut bytes: u64 = packs.iter().map(|(_, length, _)| length).sum();
    let mut count = packs.len();
    for (_, length, path) in packs {
        if bytes <= MOST_IN_ALL.0 && count < MOST_IN_ALL.1 {
            break;
        }
        let _ = fs::remove_file(path);
        bytes -= length;
        count -= 1;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn key(of: &str) -> Digest {
        Digesting::of(of).digest()
    }

    fn kept(path: &Path, build: Digest) -> Kept {
        let old = read(path).map(|bytes| entries(&bytes, build)).unwrap_or_default();
        Kept { pack: Some((path.to_owned(), build)), old, new: Mutex::default() }
    }

    fn holds(path: &Path, build: Digest, name: &str) -> bool {
        kept(path, build).find(key(name)).is_some_and(|value| value == name.as_bytes())
    }

    fn three(path: &Path, build: Digest) {
        let first = kept(path, build);
        for name in ["rolls", "buns", "rye"] {
            first.put(key(name), name.as_bytes().to_vec());
        }
        first.close();
    }

    #[test]
    fn what_was_put_is_found_by_the_same_build_alone() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = super::super::real_path(folder.path()).join("a.kept");
        three(&path, key("build"));
        assert!(["rolls", "buns", "rye"].iter().all(|name| holds(&path, key("build"), name)));
        assert!(!holds(&path, key("build"), "baps"));
        assert!(!holds(&path, key("another build"), "rolls"), "another build has its own");
    }

    /// Every byte of a pack changed in turn, and every length cut off: an entry is as it was or is not there.
    #[test]
    fn a_damaged_entry_is_missing_and_never_another() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = super::super::real_path(folder.path()).join("a.kept");
        three(&path, key("build"));
        let whole = fs::read(&path).expect("there");
        let names: HashMap<Digest, &str> = ["rolls", "buns", "rye"].map(|name| (key(name), name)).into();
        let as_it_was = |bytes: &[u8]| {
            let found = entries(bytes, key("build"));
            assert!(found.iter().all(|(key, entry)| {
                names.get(key).is_some_and(|name| entry.value == name.as_bytes() && entry.unused == 0)
            }));
            found.len()
        };
        assert_eq!(as_it_was(&whole), 3);
        for at in 0..whole.len() {
            for flipped in [1_u8, 0x80, 0xff] {
                let mut damaged = whole.clone();
                damaged[at] ^= flipped;
                assert!(as_it_was(&damaged) < 3, "byte {at}");
            }
            assert!(as_it_was(&whole[..at]) < 3, "cut at {at}");
        }
        assert_eq!(as_it_was(b"a note of somebody"), 0);
        assert_eq!(as_it_was(&[whole.clone(), b"more".to_vec()].concat()), 3);
    }

    #[test]
    fn what_nobody_asks_for_goes_after_some_runs() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = super::super::real_path(folder.path()).join("a.kept");
        three(&path, key("build"));
        for run in 0..=UNUSED_RUNS {
            assert!(holds(&path, key("build"), "rye"), "after {run} runs");
            let next = kept(&path, key("build"));
            assert!(next.find(key("rolls")).is_some());
            next.put(key(&format!("new {run}")), vec![1]);
            next.close();
        }
        assert!(holds(&path, key("build"), "rolls"));
        assert!(!holds(&path, key("build"), "rye"));
    }

    /// What lies under the name of a pack is not written through, and what cannot be written is let be.
    #[cfg(unix)]
    #[test]
    fn a_link_in_the_way_is_neither_read_nor_followed() {
        let folder = tempfile::tempdir().expect("a folder");
        let top = super::super::real_path(folder.path());
        let (path, elsewhere) = (top.join("a.kept"), top.join("elsewhere"));
        three(&elsewhere, key("build"));
        let before = fs::read(&elsewhere).expect("there");
        std::os::unix::fs::symlink(&elsewhere, &path).expect("linked");
        assert!(!holds(&path, key("build"), "rolls"));
        let next = kept(&path, key("build"));
        next.put(key("buns"), b"buns".to_vec());
        next.close();
        assert_eq!(fs::read(&elsewhere).expect("there"), before);
        assert!(holds(&path, key("build"), "buns"), "the link has made place");
        three(&top.join("no folder/a.kept"), key("build"));
        assert!(!top.join("no folder").exists());
    }

    #[test]
    fn the_oldest_packs_make_room() {
        let folder = tempfile::tempdir().expect("a folder");
        let top = super::super::real_path(folder.path());
        let old = |number: u64| SystemTime::UNIX_EPOCH + std::time::Duration::from_secs(1000 + number);
        for number in 0..MOST_IN_ALL.1 as u64 + 5 {
            let file = fs::File::create(top.join(format!("{number}.kept"))).expect("made");
            file.set_modified(old(number)).expect("set");
        }
        fs::write(top.join("mine.txt"), "mine").expect("written");
        three(&top.join("new.kept"), key("build"));
        let left = fs::read_dir(&top).expect("a folder").count();
        assert_eq!(left, MOST_IN_ALL.1 + 1);
        assert!(!top.join("0.kept").exists() && top.join("504.kept").exists() && top.join("mine.txt").exists());
    }
}
