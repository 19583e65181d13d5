//! Who is let in, and who has to go when it gets full: nobody who says nothing keeps out somebody who asks.

use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Instant;
use tokio::task::AbortHandle;

/// The most connections at once.
const MOST_CONNECTIONS: usize = 256;
/// The most pages that are told of changes at once. Each is a connection that stays.
const MOST_LISTENERS: usize = 64;

/// What one connection is doing.
#[derive(Debug)]
pub(super) struct Guest {
    state: Mutex<Doing>,
}

#[derive(Debug)]
struct Doing {
    /// Requests that are being answered.
    asking: usize,
    /// Since when nothing is asked.
    quiet: Instant,
}

/// A request that is being answered. As long as there is one, its connection is not closed.
#[derive(Debug)]
pub(super) struct Asking(Arc<Guest>);

impl Guest {
    pub(super) fn new() -> Arc<Guest> {
        Arc::new(Guest { state: Mutex::new(Doing { asking: 0, quiet: Instant::now() }) })
    }

    fn doing(&self) -> std::sync::MutexGuard<'_, Doing> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Something was asked.
    pub(super) fn asks(self: &Arc<Guest>) -> Asking {
        self.doing().asking += 1;
        Asking(Arc::clone(self))
    }

    /// Since when it says nothing, unless it waits for an answer.
    fn quiet_since(&self) -> Option<Instant> {
        let doing = self.doing();
        (doing.asking == 0).then_some(doing.quiet)
    }
}

impl Drop for Asking {
    fn drop(&mut self) {
        let mut doing = self.0.doing();
        doing.asking = doing.asking.saturating_sub(1);
        doing.quiet = Instant::now();
    }
}

/// Everybody who is in.
#[derive(Debug, Default)]
pub(super) struct Doors {
    guests: Mutex<Vec<(Arc<Guest>, AbortHandle)>>,
    listeners: Mutex<VecDeque<AbortHandle>>,
}

impl Doors {
    /// Makes room for one more: closes the connection that has been quiet for longest. `false` when all of them wait for an
    /// answer.
    pub(super) fn has_room(&self) -> bool {
        let mut guests = self.guests.lock().unwrap_or_else(PoisonError::into_inner);
        guests.retain(|(_, handle)| !handle.is_finished());
        if guests.len() < MOST_CONNECTIONS {
            return true;
        }
        let quiet = guests.iter().enumerate().filter_map(|(at, (guest, _))| Some((guest.quiet_since()?, at)));
        let Some((_, at)) = quiet.min() else { return false };
        let (_, handle) = guests.swap_remove(at);
        handle.abort();
        true
    }

    /// Takes one in.
    pub(super) fn let_in(&self, guest: Arc<Guest>, handle: AbortHandle) {
        self.guests.lock().unwrap_or_else(PoisonError::into_inner).push((guest, handle));
    }

    /// Takes in one more page that is told of changes; of too many the one that has listened for longest ends, and its page
    /// asks again.
    pub(super) fn listens(&self, handle: AbortHandle) {
        let mut listeners = self.listeners.lock().unwrap_or_else(PoisonError::into_inner);
        listeners.retain(|handle| !handle.is_finished());
        if listeners.len() >= MOST_LISTENERS
            && let Some(oldest) = listeners.pop_front()
        {
            oldest.abort();
        }
        listeners.push_back(handle);
    }
}
