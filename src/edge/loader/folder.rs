//! Folders that are written whole or not at all: everything goes into a new folder beside, which then takes the old one's place.
//!
//! A folder of ours holds a list of the files that were written into it. A folder without one, that holds anything, is somebody
//! else's and is not touched. What somebody has put into ours (a `.git`, a `CNAME`) stays in it.

use super::{folder_of, leftover, reason, reason_to_write};
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;
use std::fs;
use std::io;
use std::path::{Component, Path, PathBuf};
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};
use tempfile::TempDir;

/// The name of the list.
const LIST: &str = "miche-site.json";

/// The list as it is written.
#[derive(Debug, Default, Serialize, Deserialize)]
struct WireList {
    /// Of this form of the list.
    format: u32,
    /// What it is, for whoever opens it.
    about: String,
    /// The files, from the folder on, with slashes.
    files: BTreeSet<String>,
}

/// A folder that is being written.
#[derive(Debug)]
pub struct NewFolder {
    target: PathBuf,
    /// Beside the target, so that both are on one disk; goes away with whatever is left in it.
    beside: TempDir,
    /// Says to other runs that the folder beside is in use.
    _lock: fs::File,
    /// What was written into the old folder; `None` where there is none.
    old: Option<BTreeSet<String>>,
    files: Mutex<BTreeSet<String>>,
    written: AtomicUsize,
}

/// How many files a folder got.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Filled {
    /// Files in all.
    pub files: usize,
    /// Files that are new or other than before.
    pub written: usize,
}

impl NewFolder {
    /// Begins a folder that takes the place of `target`.
    ///
    /// # Errors
    /// In plain words: something that is not ours stands there, or nothing can be written beside it.
    pub fn in_place_of(target: &Path) -> Result<NewFolder, String> {
        let target = fs::canonicalize(target).unwrap_or_else(|_| target.to_owned());
        let old = match fs::metadata(&target) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => None,
            Err(error) => return Err(reason(&error)),
            Ok(there) if !there.is_dir() => return Err("it is a file, and a site is a folder".to_owned()),
            Ok(_) => Some(listed(&target)?),
        };
        let parent = folder_of(&target);
        let (beside, lock) = leftover::temporary_folder_in(parent)
            .map_err(|error| format!("no folder can be made beside it: {}", reason_to_write(&target, &error)))?;
        fs::create_dir(beside.path().join("new")).map_err(|error| reason_to_write(&target, &error))?;
        Ok(NewFolder { target, beside, _lock: lock, old, files: Mutex::default(), written: AtomicUsize::new(0) })
    }

    fn new_path(&self, name: &str) -> PathBuf {
        self.beside.path().join("new").join(name)
    }

    /// Puts a file into it. One that the old folder has with the same bytes is taken over and not written again.
    ///
    /// # Errors
    /// In plain words, with the file's name.
    pub fn put(&self, name: &str, bytes: &[u8]) -> Result<(), String> {
        if !self.is_noted(name) && self.has_same(name, |there| there == bytes) && self.take_over(name) {
            return Ok(());
        }
        let path = self.new_path(name);
        if self.is_noted(name) {
            // It may have been taken over, and the old folder stays as it is.
            fs::remove_file(&path).map_err(|error| format!("{name}: {}", reason(&error)))?;
        }
        let written = fs::create_dir_all(folder_of(&path)).and_then(|()| fs::write(&path, bytes));
        written.map_err(|error| format!("{name}: {}", reason(&error)))?;
        self.written.fetch_add(1, Ordering::Relaxed);
        self.note(name);
        Ok(())
    }

    /// Takes files of the old folder over, if all of them hold what they should; says whether they did and could be.
    pub fn keep_all(&self, files: &[(String, impl Fn(&[u8]) -> bool)]) -> bool {
        files.iter().all(|(name, is_so)| self.has_same(name, is_so))
            && files.iter().all(|(name, _)| self.take_over(name))
    }

    /// Whether the old folder has a file of ours that holds what it should.
    fn has_same(&self, name: &str, is_so: impl Fn(&[u8]) -> bool) -> bool {
        self.was_there(name) && fs::read(self.target.join(name)).is_ok_and(|there| is_so(&there))
    }

    /// Takes a file of the old folder over as it is, for names that say what the file holds: its first bytes, up to `most`. `None`
    /// where the old folder has none.
    pub fn keep(&self, name: &str, most: u64) -> Option<Vec<u8>> {
        if !self.was_there(name) {
            return None;
        }
        let mut begin = Vec::new();
        let file = fs::File::open(self.target.join(name)).ok()?;
        io::Read::read_to_end(&mut io::Read::take(file, most), &mut begin).ok()?;
        self.take_over(name).then_some(begin)
    }

    fn was_there(&self, name: &str) -> bool {
        let is_plain = || fs::symlink_metadata(self.target.join(name)).is_ok_and(|there| there.is_file());
        self.old.as_ref().is_some_and(|old| old.contains(name)) && is_plain()
    }

    /// Both folders have the file then, until the old one goes away.
    fn take_over(&self, name: &str) -> bool {
        if self.is_noted(name) {
            return true;
        }
        let path = self.new_path(name);
        let linked = fs::create_dir_all(folder_of(&path)).and_then(|()| fs::hard_link(self.target.join(name), &path));
        let is_done = linked.is_ok();
        if is_done {
            self.note(name);
        }
        is_done
    }

    fn is_noted(&self, name: &str) -> bool {
        self.files.lock().is_ok_and(|files| files.contains(name))
    }

    fn note(&self, name: &str) {
        if let Ok(mut files) = self.files.lock() {
            files.insert(name.to_owned());
        }
    }

    /// Puts the new folder in its place, and takes the old one away. Files of the old one that are not ours move over.
    ///
    /// # Errors
    /// In plain words; the old folder then stands as it was, or else it is said where its files are.
    pub fn finish(self) -> Result<Filled, String> {
        let files = self.files.lock().map(|files| files.clone()).unwrap_or_default();
        let about = "the files of this folder that miche has written; it takes away those that it no longer writes";
        let list = WireList { format: 1, about: about.to_owned(), files: files.clone() };
        let text = serde_json::to_string_pretty(&list).map_err(|error| error.to_string())? + "\n";
        let is_same = fs::read(self.target.join(LIST)).is_ok_and(|there| there == text.as_bytes());
        if !(is_same && self.old.is_some() && fs::hard_link(self.target.join(LIST), self.new_path(LIST)).is_ok()) {
            fs::write(self.new_path(LIST), text).map_err(|error| format!("{LIST}: {}", reason(&error)))?;
        }
        let filled = Filled { files: files.len(), written: self.written.load(Ordering::Relaxed) };
        let new = self.beside.path().join("new");
        let Some(old) = &self.old else {
            fs::rename(&new, &self.target).map_err(|error| match error.kind() {
                // It was not there when this run began.
                io::ErrorKind::DirectoryNotEmpty | io::ErrorKind::AlreadyExists => {
                    "somebody made this folder meanwhile, perhaps another run; run this again".to_owned()
                }
                _ => reason_to_write(&self.target, &error),
            })?;
            return Ok(filled);
        };
        let mut foreign = Vec::new();
        others(&self.target, &self.target, old, &mut foreign).map_err(|error| reason(&error))?;
        if let Ok(there) = fs::metadata(&self.target) {
            // Who may read the old one may read the new one.
            fs::set_permissions(&new, there.permissions()).map_err(|error| reason(&error))?;
        }
        // What stands beside from here on is the old site, with what somebody has put into it.
        leftover::keep_from_now_on(self.beside.path()).map_err(|error| reason(&error))?;
        let gone = match swap(&new, &self.target, &self.beside.path().join("old")) {
            Ok(gone) => gone,
            Err(error) if fs::symlink_metadata(&self.target).is_ok() => return Err(reason(&error)),
            Err(error) => {
                let kept = self.beside.keep();
                return Err(format!("{}; the old site lies in {}", reason(&error), kept.display()));
            }
        };
        for path in foreign {
            let place = self.target.join(&path);
            let is_free = fs::symlink_metadata(&place).is_err();
            let moved = fs::create_dir_all(folder_of(&place));
            let moved = if is_free { moved.and_then(|()| fs::rename(gone.join(&path), &place)) } else { moved };
            if let Err(error) = moved {
                let kept = self.beside.keep();
                let why = reason(&error);
                return Err(format!(
                    "{} cannot be moved into the new site: {why}; it lies in {}",
                    path.display(),
                    kept.display()
                ));
            }
        }
        Ok(filled)
    }
}

/// Puts one folder in the place of another, and says where the other then is.
fn swap(new: &Path, target: &Path, aside: &Path) -> io::Result<PathBuf> {
    if super::write::swapped(new, target).is_ok() {
        return Ok(new.to_owned());
    }
    // Not every system and disk can swap two names.
    fs::rename(target, aside)?;
    match fs::rename(new, target) {
        Ok(()) => Ok(aside.to_owned()),
        Err(error) => {
            fs::rename(aside, target)?;
            Err(error)
        }
    }
}

/// What was written into a folder by an earlier run.
fn listed(folder: &Path) -> Result<BTreeSet<String>, String> {
    let mut entries = fs::read_dir(folder).map_err(|error| reason(&error))?;
    if entries.next().is_none() {
        return Ok(BTreeSet::new());
    }
    let not_ours =
        || "the folder holds other files and no site of miche, so it is not written over; name a new folder".to_owned();
    let list = super::read_bytes(&folder.join(LIST)).map_err(|_| not_ours())?;
    let list: WireList = serde_json::from_slice(&list).map_err(|_| not_ours())?;
    // Only plain names inside the folder count, whatever somebody wrote into the list.
    let is_inside = |name: &String| Path::new(name).components().all(|part| matches!(part, Component::Normal(_)));
    Ok(list.files.into_iter().filter(is_inside).collect())
}

/// The files, links and whole folders in a folder that are not among ours, from `top` on.
fn others(top: &Path, folder: &Path, ours: &BTreeSet<String>, found: &mut Vec<PathBuf>) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let path = entry.path();
        let inside = path.strip_prefix(top).unwrap_or(&path).to_owned();
        let name = inside.to_string_lossy().replace('\\', "/");
        let holds_ours =
            || ours.range(format!("{name}/")..).next().is_some_and(|file| file.starts_with(&format!("{name}/")));
        if entry.file_type()?.is_dir() {
            if holds_ours() {
                others(top, &path, ours, found)?;
            } else if fs::read_dir(&path)?.next().is_some() {
                found.push(inside);
            }
        } else if name != LIST && !ours.contains(&name) {
            found.push(inside);
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(folder: &Path) -> Vec<String> {
        let all = fs::read_dir(folder).expect("a folder").map(|entry| entry.expect("an entry").file_name());
        let mut all: Vec<String> = all.map(|name| name.to_string_lossy().into_owned()).collect();
        all.sort();
        all
    }

    #[test]
    fn a_folder_is_written_whole_and_what_is_not_ours_stays() {
        let top = tempfile::tempdir().expect("a folder");
        let site = top.path().join("site");
        let new = NewFolder::in_place_of(&site).expect("nothing is there");
        new.put("index.html", b"one").expect("written");
        new.put("recipes/a.html", b"a").expect("written");
        assert!(!site.exists(), "nothing is there before it is whole");
        assert_eq!(new.finish().expect("written"), Filled { files: 2, written: 2 });

        fs::write(site.join("CNAME"), "skerrow.example").expect("written");
        fs::create_dir_all(site.join(".git/objects")).expect("made");
        fs::write(site.join(".git/objects/x"), "x").expect("written");
        fs::write(site.join("recipes/mine.html"), "mine").expect("written");
        let new = NewFolder::in_place_of(&site).expect("ours");
        new.put("index.html", b"one").expect("written");
        new.put("recipes/b.html", b"b").expect("written");
        assert_eq!(new.finish().expect("written"), Filled { files: 2, written: 1 });
        assert_eq!(names(&site), [".git", "CNAME", "index.html", LIST, "recipes"]);
        assert_eq!(names(&site.join("recipes")), ["b.html", "mine.html"]);
        assert!(site.join(".git/objects/x").exists());
        assert_eq!(names(top.path()), ["site"], "nothing is left over");
    }

    #[test]
    fn a_run_that_fails_leaves_the_old_folder_as_it_was() {
        let top = tempfile::tempdir().expect("a folder");
        let site = top.path().join("site");
        let new = NewFolder::in_place_of(&site).expect("nothing is there");
        new.put("index.html", b"one").expect("written");
        new.finish().expect("written");
        let new = NewFolder::in_place_of(&site).expect("ours");
        new.put("index.html", b"two").expect("written");
        assert!(new.put("index.html/x", b"not in a file").is_err());
        drop(new);
        assert_eq!(fs::read(site.join("index.html")).expect("there"), b"one");
        assert_eq!(names(top.path()), ["site"]);
    }

    #[test]
    fn somebody_elses_folder_is_not_touched() {
        let top = tempfile::tempdir().expect("a folder");
        fs::write(top.path().join("thesis.txt"), "mine").expect("written");
        assert!(NewFolder::in_place_of(top.path()).expect_err("mine").contains("other files"));
        fs::write(top.path().join(LIST), "{\"format\":1,\"about\":\"\",\"files\":[\"../x\",\"/etc/passwd\"]}")
            .expect("written");
        let new = NewFolder::in_place_of(top.path()).expect("it says that it is ours");
        new.finish().expect("written");
        assert_eq!(fs::read(top.path().join("thesis.txt")).expect("there"), b"mine");
        assert!(NewFolder::in_place_of(&top.path().join("thesis.txt")).expect_err("a file").contains("file"));
    }
}
