//! Notices that a file was saved.
//!
//! Folders are watched, not files: many editors write a new file and give it the old one's name, and a watched file would be
//! gone after that. Where the system cannot say what changed, the folders are looked through twice a second.

use super::state::{Message, State};
use crate::edge::cli::output::Output;
use crate::edge::loader::is_ours;
use notify::event::{EventKind, ModifyKind};
use notify::{Config, PollWatcher, RecommendedWatcher, RecursiveMode, Watcher};
use std::collections::HashSet;
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::time::{Duration, Instant};

/// A save is several events; they are taken together while they come this close.
const QUIET: Duration = Duration::from_millis(12);
/// However long events keep coming, a page waits no longer.
const LONGEST: Duration = Duration::from_millis(50);
/// How often folders are looked through where the system does not say what changed.
const LOOK: Duration = Duration::from_millis(500);

/// Starts to watch.
pub(super) fn start(state: &Arc<State>, output: &Output) {
    let (sender, receiver) = channel();
    let Some(watcher) = watcher(&sender) else {
        output.complain("the system does not say when files are saved: load the page again to see a change");
        return;
    };
    state.tell_watcher(sender.clone());
    let mut watch = Watch { state: Arc::clone(state), watcher, sender, folders: HashSet::new(), polls: false };
    // Before the page can ask for anything, so that no save in between is missed.
    watch.follow_list();
    std::thread::spawn(move || watch.run(&receiver));
}

fn watcher(sender: &Sender<Message>) -> Option<Box<dyn Watcher + Send>> {
    let told = sender.clone();
    let native = RecommendedWatcher::new(move |event| drop(told.send(Message::Event(event))), Config::default());
    match native {
        Ok(watcher) => Some(Box::new(watcher)),
        Err(_) => polling(sender),
    }
}

fn polling(sender: &Sender<Message>) -> Option<Box<dyn Watcher + Send>> {
    let told = sender.clone();
    let config = Config::default().with_poll_interval(LOOK).with_compare_contents(true);
    let watcher = PollWatcher::new(move |event| drop(told.send(Message::Event(event))), config).ok()?;
    Some(Box::new(watcher))
}

/// The watching thread.
struct Watch {
    state: Arc<State>,
    watcher: Box<dyn Watcher + Send>,
    sender: Sender<Message>,
    folders: HashSet<PathBuf>,
    polls: bool,
}

impl Watch {
    fn run(mut self, receiver: &Receiver<Message>) {
        while let Ok(first) = receiver.recv() {
            let began = Instant::now();
            let mut seen = self.take(first);
            while seen.recipes {
                match receiver.recv_timeout(QUIET.min(LONGEST.saturating_sub(began.elapsed()))) {
                    Ok(message) => seen = seen.and(self.take(message)),
                    Err(RecvTimeoutError::Timeout | RecvTimeoutError::Disconnected) => break,
                }
            }
            if seen.folders {
                self.follow_list();
            }
            if seen.recipes || seen.folders {
                self.state.changed();
            }
        }
    }

    fn take(&mut self, message: Message) -> Seen {
        match message {
            Message::Folders(folders) => {
                self.follow(folders);
                Seen::default()
            }
            // When the system lost count, anything may have changed.
            Message::Event(Err(_)) => Seen { recipes: true, folders: true },
            Message::Event(Ok(event)) => {
                let matters = match event.kind {
                    EventKind::Access(_) | EventKind::Other => event.need_rescan(),
                    EventKind::Modify(ModifyKind::Metadata(_)) => self.polls,
                    _ => true,
                };
                if !matters {
                    return Seen::default();
                }
                if event.need_rescan() {
                    return Seen { recipes: true, folders: true };
                }
                // The log of the day changes its plan.
                let recipe = |path: &PathBuf| is_ours(path);
                let folder = |path: &PathBuf| self.folders.contains(path) || path.is_dir();
                Seen { recipes: event.paths.iter().any(recipe), folders: event.paths.iter().any(folder) }
            }
        }
    }

    /// Watches the folders of the list as they are now.
    fn follow_list(&mut self) {
        let (_, folders) = self.state.place().listed();
        // A folder that went away and came back is another one.
        self.folders.retain(|folder| folders.contains(folder) || folder.is_dir());
        for folder in &folders {
            self.folders.remove(folder);
        }
        self.follow(folders);
    }

    fn follow(&mut self, folders: Vec<PathBuf>) {
        for folder in folders {
            if self.folders.contains(&folder) {
                continue;
            }
            if self.watcher.watch(&folder, RecursiveMode::NonRecursive).is_err() && !self.polls {
                // Too many folders for the system's own way, or none of it on this disk: from here on by looking.
                if let Some(polling) = polling(&self.sender) {
                    self.watcher = polling;
                    self.polls = true;
                    for known in &self.folders {
                        // What cannot be watched now is gone; the list is looked through again when that is told.
                        let _ = self.watcher.watch(known, RecursiveMode::NonRecursive);
                    }
                    let _ = self.watcher.watch(&folder, RecursiveMode::NonRecursive);
                }
            }
            self.folders.insert(folder);
        }
    }
}

/// What was seen to change.
#[derive(Debug, Clone, Copy, Default)]
struct Seen {
    recipes: bool,
    folders: bool,
}

impl Seen {
    fn and(self, other: Seen) -> Seen {
        Seen { recipes: self.recipes || other.recipes, folders: self.folders || other.folders }
    }
}
