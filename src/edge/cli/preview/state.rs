//! What the preview's server knows: the files' state, the views that were made of it, and whom to tell of folders.

use super::good::Good;
use super::place::Place;
use super::view::{self, Asked, View};
use notify::Event;
use std::collections::HashMap;
use std::path::PathBuf;
use std::sync::mpsc::Sender;
use std::sync::{Arc, Mutex, PoisonError};
use tokio::sync::{Semaphore, watch};

/// The most views that are kept for one state of the files.
const MOST_VIEWS: usize = 32;

/// What the watching thread is told.
pub(super) enum Message {
    /// By the system.
    Event(notify::Result<Event>),
    /// By a page that shows a file: its folders matter too.
    Folders(Vec<PathBuf>),
}

/// Everything the server knows.
pub(super) struct State {
    pub(super) place: Place,
    pub(super) port: u16,
    /// Counts the states of the files.
    pub(super) version: watch::Sender<u64>,
    /// Tells this run from another one at the same port.
    pub(super) run: u128,
    views: Mutex<HashMap<Asked, (u64, Arc<View>)>>,
    pub(super) good: Good,
    /// One plan at a time: each takes a whole processor.
    pub(super) planning: Semaphore,
    watcher: Mutex<Option<Sender<Message>>>,
}

impl State {
    pub(super) fn new(place: Place, port: u16) -> State {
        let since = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH);
        State {
            place,
            port,
            version: watch::Sender::new(1),
            run: since.map_or(0, |time| time.as_millis()),
            views: Mutex::default(),
            good: Good::default(),
            planning: Semaphore::new(1),
            watcher: Mutex::default(),
        }
    }

    pub(super) fn place(&self) -> &Place {
        &self.place
    }

    /// A file was saved, came or went.
    pub(super) fn changed(&self) {
        self.version.send_modify(|version| *version += 1);
    }

    /// Where folders that matter are told.
    pub(super) fn tell_watcher(&self, watcher: Sender<Message>) {
        *self.watcher.lock().unwrap_or_else(PoisonError::into_inner) = Some(watcher);
    }

    pub(super) fn follow(&self, folders: Vec<PathBuf>) {
        if let Some(watcher) = &*self.watcher.lock().unwrap_or_else(PoisonError::into_inner) {
            // Without the thread nothing is followed; the page then shows what it is asked for.
            let _ = watcher.send(Message::Folders(folders));
        }
    }

    /// The view as the files are now; made once for each state of them.
    pub(super) fn view(&self, asked: &Asked) -> Result<Arc<View>, String> {
        let version = *self.version.borrow();
        let known = |views: &HashMap<Asked, (u64, Arc<View>)>| {
            views.get(asked).filter(|(of, _)| *of == version).map(|(_, view)| Arc::clone(view))
        };
        if let Some(view) = known(&self.views.lock().unwrap_or_else(PoisonError::into_inner)) {
            return Ok(view);
        }
        let view = Arc::new(view::view(&self.place, &self.good, asked, &|folders| self.follow(folders))?);
        let mut views = self.views.lock().unwrap_or_else(PoisonError::into_inner);
        if views.len() >= MOST_VIEWS {
            views.clear();
        }
        // A save while it was made has raised the version, and the view will be made again.
        views.insert(asked.clone(), (version, Arc::clone(&view)));
        Ok(view)
    }
}
