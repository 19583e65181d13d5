//! A list that is there once where several have the same: the ingredients of a part under selections that change none of them.

use std::ops::{Deref, DerefMut};
use std::sync::Arc;

/// A list that is there once where several have the same.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SharedList<T>(Arc<Vec<T>>);

impl<T> SharedList<T> {
    /// Whether both are one list, kept once, which is quick to tell. Two lists may be the same and yet not one.
    pub fn is_one_with(&self, other: &SharedList<T>) -> bool {
        Arc::ptr_eq(&self.0, &other.0)
    }
}

impl<T> Default for SharedList<T> {
    fn default() -> SharedList<T> {
        Vec::new().into()
    }
}

impl<T> From<Vec<T>> for SharedList<T> {
    fn from(list: Vec<T>) -> SharedList<T> {
        SharedList(Arc::new(list))
    }
}

impl<T> Deref for SharedList<T> {
    type Target = [T];

    fn deref(&self) -> &[T] {
        &self.0
    }
}

/// Who else has it keeps it as it is.
impl<T: Clone> DerefMut for SharedList<T> {
    fn deref_mut(&mut self) -> &mut [T] {
        Arc::make_mut(&mut self.0).as_mut_slice()
    }
}

impl<'l, T> IntoIterator for &'l SharedList<T> {
    type Item = &'l T;
    type IntoIter = std::slice::Iter<'l, T>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn who_changes_a_list_has_one_of_its_own() {
        let one = SharedList::from(vec![1, 2]);
        let mut other = one.clone();
        assert!(one.is_one_with(&other));
        other.iter_mut().for_each(|number| *number += 1);
        assert_eq!((&*one, &*other), (&[1, 2][..], &[2, 3][..]));
        assert!(!one.is_one_with(&other) && !one.is_one_with(&SharedList::from(vec![1, 2])));
    }
}
