//! What the preview's server knows: the files' state, the views that were made of it, and whom to tell of folders.

use super::doors::Doors;
use super::last_good::Good;
use super::once::Once;
use super::place::Place;
use super::view::{self, Asked, View};
use hyper::body::Bytes;
use notify::Event;
use std::path::PathBuf;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::mpsc::Sender;
use std::sync::{Arc, Mutex, PoisonError};
use tokio::sync::{Semaphore, watch};

/// How many things of one kind are worked on at once, so that none keeps the others waiting: lists, plans, and all else.
pub(super) const AT_ONCE: [usize; 3] = [1, 1, 2];

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
    /// Counts the questions of a run that is not told of saves.
    unwatched: AtomicU64,
    /// Tells this run from another one at the same port.
    pub(super) run: u128,
    views: Once<Asked, Result<Arc<View>, String>>,
    lists: Once<(), Bytes>,
    pub(super) good: Good,
    /// Each list or plan takes a whole processor.
    listing: Semaphore,
    pub(super) planning: Semaphore,
    pub(super) working: Semaphore,
    pub(super) doors: Doors,
    watcher: Mutex<Option<Sender<Message>>>,
}

impl State {
    pub(super) fn new(place: Place, port: u16) -> State {
        let [lists, plans, others] = AT_ONCE;
        let since = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH);
        State {
            place,
            port,
            version: watch::Sender::new(1),
            unwatched: AtomicU64::new(0),
            run: since.map_or(0, |time| time.as_millis()),
            views: Once::default(),
            lists: Once::default(),
            good: Good::default(),
            listing: Semaphore::new(lists),
            planning: Semaphore::new(plans),
            working: Semaphore::new(others),
            doors: Doors::default(),
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

    /// Which state of the files it is now. Where nobody tells of a save, every question is one of its own.
    fn version(&self) -> u64 {
        if self.watcher.lock().unwrap_or_else(PoisonError::into_inner).is_none() {
            return u64::MAX - self.unwatched.fetch_add(1, Ordering::Relaxed);
        }
        *self.version.borrow()
    }

    /// The view as the files are now; made once for each state of them.
    pub(super) async fn view(self: &Arc<State>, asked: &Asked) -> Result<Arc<View>, String> {
        let state = Arc::clone(self);
        let wanted = asked.clone();
        let make = async move {
            let _place = state.working.acquire().await;
            let worker = Arc::clone(&state);
            let made = tokio::task::spawn_blocking(move || {
                view::view(&worker.place, &worker.good, &wanted, &|folders| worker.follow(folders)).map(Arc::new)
            });
            made.await.unwrap_or_else(|_| Err("this could not be shown".to_owned()))
        };
        self.views.answer(asked, self.version(), make).await
    }

    /// The list of the files, made once for each state of them and for all who ask.
    pub(super) async fn list(self: &Arc<State>) -> Bytes {
        let state = Arc::clone(self);
        let make = async move {
            let _place = state.listing.acquire().await;
            let worker = Arc::clone(&state);
            let made = tokio::task::spawn_blocking(move || {
                let list = view::list(&worker.place, &|folders| worker.follow(folders));
                serde_json::to_vec(&list).map(Bytes::from)
            });
            made.await.ok().and_then(Result::ok).unwrap_or_default()
        };
        self.lists.answer(&(), self.version(), make).await
    }
}
