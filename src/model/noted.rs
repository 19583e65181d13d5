//! What of a recipe is read, noted while a check looks at it: where all that it read is the same under another selection, it would find the
//! same there.

use std::cell::Cell;
use std::iter::Enumerate;
use std::ops::{Deref, DerefMut};

thread_local! {
    static NOTED: Cell<Reads> = const { Cell::new(Reads::NOTHING) };
}

/// Parts from this number on are noted as one.
pub const MOST_PARTS: usize = 63;

/// What was read of a recipe and its formula.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Reads {
    /// Which parts, their amounts included: a bit for each, by its number.
    pub parts: u64,
    /// Of which parts it was asked who draws on them.
    pub uses: u64,
    /// Of which parts it was asked what is taken out of them.
    pub taken: u64,
    /// Of which parts it was asked whether anything draws on them, and whether they are the last.
    pub ends: u64,
    /// What else.
    pub marks: u8,
}

impl Reads {
    const NOTHING: Reads = Reads { parts: 0, uses: 0, taken: 0, ends: 0, marks: 0 };

    /// Whether all of it is among what others are.
    pub fn is_in(self, same: Reads) -> bool {
        self.parts & !same.parts == 0
            && self.uses & !same.uses == 0
            && self.taken & !same.taken == 0
            && self.ends & !same.ends == 0
            && self.marks & !same.marks == 0
    }

    /// Notes it, as if all of it were read now.
    pub fn note(self) {
        also(|all| {
            all.parts |= self.parts;
            all.uses |= self.uses;
            all.taken |= self.taken;
            all.ends |= self.ends;
            all.marks |= self.marks;
        });
    }

    /// Notes that a part is among it.
    #[inline]
    pub fn with_part(&mut self, number: usize) {
        self.parts |= bit(number);
    }

    /// Notes that it is among it whether anything draws on a part.
    #[inline]
    pub fn with_end(&mut self, number: usize) {
        self.ends |= bit(number);
    }

    /// Notes that it is among it who draws on a part.
    #[inline]
    pub fn with_uses(&mut self, number: usize) {
        self.uses |= bit(number);
    }

    /// Notes that it is among it what is taken out of a part.
    #[inline]
    pub fn with_taken(&mut self, number: usize) {
        self.taken |= bit(number);
    }
}

#[inline]
fn bit(number: usize) -> u64 {
    1 << number.min(MOST_PARTS)
}

/// What a function gives, and what it reads.
pub fn during<R>(run: impl FnOnce() -> R) -> (R, Reads) {
    let before = NOTED.replace(Reads::NOTHING);
    let given = run();
    (given, NOTED.replace(before))
}

/// Notes something beside what is noted.
#[inline]
fn also(note: impl FnOnce(&mut Reads)) {
    NOTED.with(|noted| {
        let mut all = noted.get();
        note(&mut all);
        noted.set(all);
    });
}

/// Notes that a part is read.
#[inline]
pub(crate) fn part(number: usize) {
    also(|all| all.with_part(number));
}

/// Notes that it is asked who draws on a part.
#[inline]
pub(crate) fn uses(number: usize) {
    also(|all| all.with_uses(number));
}

/// Notes that it is asked what is taken out of a part.
#[inline]
pub(crate) fn taken(number: usize) {
    also(|all| all.with_taken(number));
}

/// Notes that it is asked whether anything draws on a part, or whether it is the last.
#[inline]
pub(crate) fn end(number: usize) {
    also(|all| all.with_end(number));
}

/// Notes that something else is read.
#[inline]
pub(crate) fn mark(mark: u8) {
    also(|all| all.marks |= mark);
}

/// How many parts there are.
pub const COUNT: u8 = 1;
/// Which part is the last.
pub const LAST: u8 = 1 << 1;
/// How the parts are called.
pub const NAMES: u8 = 1 << 2;
/// Notes and the like of the head, cautions apart.
pub const TEXTS: u8 = 1 << 3;
/// What was chosen.
pub const SELECTION: u8 = 1 << 4;
/// Other recipes whose parts it may draw on.
pub const USED: u8 = 1 << 5;
/// The steps of some part.
pub const STEPS: u8 = 1 << 6;
/// Whether there is one part.
pub const SINGLE: u8 = 1 << 7;

/// The parts of a recipe, or their amounts: which of them are read is noted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NotedParts<T>(Vec<T>);

impl<T> NotedParts<T> {
    /// The part of that number.
    #[inline]
    pub fn get(&self, number: usize) -> Option<&T> {
        part(number);
        self.0.get(number)
    }

    /// The part of that number, to be changed.
    pub fn get_mut(&mut self, number: usize) -> Option<&mut T> {
        self.0.get_mut(number)
    }

    /// How many there are.
    #[inline]
    pub fn len(&self) -> usize {
        mark(COUNT);
        self.0.len()
    }

    /// Whether there is one.
    pub fn is_single(&self) -> bool {
        mark(SINGLE);
        self.0.len() == 1
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// All of them; who stops at one has not read those behind it.
    #[inline]
    pub fn iter(&self) -> PartsRead<'_, T> {
        mark(COUNT);
        PartsRead(self.0.iter().enumerate())
    }

    /// All of them, to be changed.
    pub fn iter_mut(&mut self) -> std::slice::IterMut<'_, T> {
        self.0.iter_mut()
    }

    /// Adds one.
    pub fn push(&mut self, part: T) {
        self.0.push(part);
    }

    /// Takes all of them out.
    pub fn clear(&mut self) {
        self.0.clear();
    }
}

/// Parts one after the other, each noted when it is come to.
#[derive(Debug, Clone)]
pub struct PartsRead<'p, T>(Enumerate<std::slice::Iter<'p, T>>);

fn noted<T>((number, each): (usize, &T)) -> &T {
    part(number);
    each
}

impl<'p, T> Iterator for PartsRead<'p, T> {
    type Item = &'p T;

    #[inline]
    fn next(&mut self) -> Option<&'p T> {
        self.0.next().map(noted)
    }

    fn size_hint(&self) -> (usize, Option<usize>) {
        self.0.size_hint()
    }
}

impl<'p, T> DoubleEndedIterator for PartsRead<'p, T> {
    fn next_back(&mut self) -> Option<&'p T> {
        self.0.next_back().map(noted)
    }
}

impl<T> ExactSizeIterator for PartsRead<'_, T> {}

impl<'p, T> IntoIterator for &'p NotedParts<T> {
    type Item = &'p T;
    type IntoIter = PartsRead<'p, T>;

    fn into_iter(self) -> PartsRead<'p, T> {
        self.iter()
    }
}

impl<'p, T> IntoIterator for &'p mut NotedParts<T> {
    type Item = &'p mut T;
    type IntoIter = std::slice::IterMut<'p, T>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter_mut()
    }
}

impl<T> IntoIterator for NotedParts<T> {
    type Item = T;
    type IntoIter = std::vec::IntoIter<T>;

    fn into_iter(self) -> Self::IntoIter {
        self.0.into_iter()
    }
}

impl<T> Default for NotedParts<T> {
    fn default() -> NotedParts<T> {
        NotedParts(Vec::new())
    }
}

impl<T> From<Vec<T>> for NotedParts<T> {
    fn from(parts: Vec<T>) -> NotedParts<T> {
        NotedParts(parts)
    }
}

impl<T> Extend<T> for NotedParts<T> {
    fn extend<I: IntoIterator<Item = T>>(&mut self, more: I) {
        self.0.extend(more);
    }
}

impl<T> FromIterator<T> for NotedParts<T> {
    fn from_iter<I: IntoIterator<Item = T>>(parts: I) -> NotedParts<T> {
        NotedParts(parts.into_iter().collect())
    }
}

/// For tests: as a list has it.
impl<T> std::ops::Index<usize> for NotedParts<T> {
    type Output = T;

    fn index(&self, number: usize) -> &T {
        part(number);
        std::ops::Index::index(&self.0, number)
    }
}

/// Something of which it is noted that it is read.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Noted<T, const MARK: u8>(T);

impl<T, const MARK: u8> Noted<T, MARK> {
    /// It, for who sees to it that what is read of it is known.
    pub(crate) fn unnoted(&self) -> &T {
        &self.0
    }
}

impl<T, const MARK: u8> From<T> for Noted<T, MARK> {
    fn from(what: T) -> Noted<T, MARK> {
        Noted(what)
    }
}

impl<T, const MARK: u8> FromIterator<T> for Noted<Vec<T>, MARK> {
    fn from_iter<I: IntoIterator<Item = T>>(all: I) -> Noted<Vec<T>, MARK> {
        Noted(all.into_iter().collect())
    }
}

impl<T, const MARK: u8> Deref for Noted<T, MARK> {
    type Target = T;

    #[inline]
    fn deref(&self) -> &T {
        mark(MARK);
        &self.0
    }
}

impl<T, const MARK: u8> DerefMut for Noted<T, MARK> {
    fn deref_mut(&mut self) -> &mut T {
        mark(MARK);
        &mut self.0
    }
}

impl<'n, T, const MARK: u8> IntoIterator for &'n Noted<Vec<T>, MARK> {
    type Item = &'n T;
    type IntoIter = std::slice::Iter<'n, T>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

impl<'n, T, const MARK: u8> IntoIterator for &'n mut Noted<Vec<T>, MARK> {
    type Item = &'n mut T;
    type IntoIter = std::slice::IterMut<'n, T>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter_mut()
    }
}
