//! What is made once for all who ask, and kept until something is saved.

use std::collections::HashMap;
use std::hash::Hash;
use std::sync::{Arc, Mutex, PoisonError};
use tokio::sync::OnceCell;

/// The most answers that are kept for one state of the files.
const MOST: usize = 32;

/// Answers to what was asked, each made for one state of the files.
pub(super) struct Once<Q, A> {
    kept: Mutex<HashMap<Q, (u64, Slot<A>)>>,
}

/// Those who ask while an answer is made wait for it.
type Slot<A> = Arc<OnceCell<A>>;

impl<Q, A> Default for Once<Q, A> {
    fn default() -> Self {
        Once { kept: Mutex::default() }
    }
}

impl<Q: Eq + Hash + Clone, A: Clone> Once<Q, A> {
    /// The answer for a state of the files: the one that is there or is being made, else a new one. A save while it is made
    /// is another state, for which it will be made again.
    pub(super) async fn answer(&self, asked: &Q, version: u64, make: impl Future<Output = A>) -> A {
        let slot = self.slot(asked, version);
        slot.get_or_init(|| make).await.clone()
    }

    fn slot(&self, asked: &Q, version: u64) -> Slot<A> {
        let mut kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((of, slot)) = kept.get(asked)
            && *of == version
        {
            return Arc::clone(slot);
        }
        if kept.len() >= MOST {
            kept.retain(|_, (of, _)| *of == version);
        }
        if kept.len() >= MOST {
            kept.clear();
        }
        let slot = Slot::default();
        kept.insert(asked.clone(), (version, Arc::clone(&slot)));
        slot
    }
}
