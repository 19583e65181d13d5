//! A table with one row for each task, moment or piece of equipment of one problem.

use std::ops::{Index, IndexMut};

/// Rows that are looked up by number.
///
/// The planner numbers everything itself, and [`Problem::faults`](super::problem::Problem::faults) refuses a problem
/// in which a number points at nothing. A number therefore always belongs to the table it is looked up in, which is
/// why this is the one place of the planner that indexes. It does not pass for a slice, so that nothing else can.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Dense<T>(Vec<T>);

impl<T> Default for Dense<T> {
    fn default() -> Self {
        Dense(Vec::new())
    }
}

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

    /// How many rows there are.
    pub fn len(&self) -> usize {
        self.0.len()
    }

    /// Whether there are no rows.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The rows in order.
    pub fn iter(&self) -> std::slice::Iter<'_, T> {
        self.0.iter()
    }

    /// The rows in order, to be changed.
    pub fn iter_mut(&mut self) -> std::slice::IterMut<'_, T> {
        self.0.iter_mut()
    }

    /// The rows as a plain slice.
    pub fn as_slice(&self) -> &[T] {
        &self.0
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
