//! What is found out of a thing when it is first asked for.

use std::ops::Deref;

/// What is found out of a thing when it is first asked for. It follows from the rest, so it tells no two things apart.
#[derive(Debug, Default)]
pub struct Asked<T>(T);

/// A copy may become another thing, so that it is asked by itself.
impl<T: Default> Clone for Asked<T> {
    fn clone(&self) -> Asked<T> {
        Asked::default()
    }
}

impl<T> Deref for Asked<T> {
    type Target = T;

    fn deref(&self) -> &T {
        &self.0
    }
}

impl<T> PartialEq for Asked<T> {
    fn eq(&self, _: &Asked<T>) -> bool {
        true
    }
}

impl<T> Eq for Asked<T> {}
