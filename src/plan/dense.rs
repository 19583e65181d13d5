//! A table with one row for each task, moment or piece of equipment of one problem.

use std::ops::{Deref, DerefMut, Index, IndexMut};

/// Rows that are looked up by number.
///
/// The planner numbers everything itself, and [`Problem::faults`](super::problem::Problem::faults) refuses a problem
/// in which a number points at nothing. A number therefore always belongs to the table it is looked up in, which is
/// why this is the one place of the planner that indexes.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Dense<T>(Vec<T>);

impl<T: Clone> Dense<T> {
    /// So many rows, all alike.
    pub fn filled(rows: usize, value: T) -> Dense<T> {
        Dense(vec![value; rows])
    }
}

impl<T> Dense<T> {
    /// Adds a row and gives its number.
    pub fn add(&mut self, value: T) -> usize {
        self.0.push(value);
        self.0.len() - 1
    }

    /// The rows as a plain vector.
    pub fn into_vec(self) -> Vec<T> {
        self.0
    }
}

impl<T> From<Vec<T>> for Dense<T> {
    fn from(rows: Vec<T>) -> Dense<T> {
        Dense(rows)
    }
}

impl<T> FromIterator<T> for Dense<T> {
    fn from_iter<I: IntoIterator<Item = T>>(rows: I) -> Dense<T> {
        Dense(rows.into_iter().collect())
    }
}

impl<T> Index<usize> for Dense<T> {
    type Output = T;

    #[expect(clippy::indexing_slicing, reason = "see the type: numbers come only from the table itself")]
    fn index(&self, row: usize) -> &T {
        &self.0[row]
    }
}

impl<T> IndexMut<usize> for Dense<T> {
    #[expect(clippy::indexing_slicing, reason = "see the type: numbers come only from the table itself")]
    fn index_mut(&mut self, row: usize) -> &mut T {
        &mut self.0[row]
    }
}

impl<T> Deref for Dense<T> {
    type Target = [T];

    fn deref(&self) -> &[T] {
        &self.0
    }
}

impl<T> DerefMut for Dense<T> {
    fn deref_mut(&mut self) -> &mut [T] {
        &mut self.0
    }
}
