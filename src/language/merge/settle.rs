//! A region in which both sides changed something, settled line by line where that can be proven safe.
//!
//! Each side's lines are found again in the base, and each line of the base is then same, changed or gone on each side.
//! What one side did to a line holds when the other left the line alone, and left alone what the line hangs together with.

use super::lines::{Sort, TextLine};
use super::{Clash, Piece, Put, Side, Versions, fields};
use similar::{Algorithm, DiffOp, capture_diff_slices};
use std::collections::HashMap;
use std::ops::Range;

/// A region: its lines in the three versions.
pub(super) struct Sides<'v, 't> {
    pub(super) versions: &'v Versions<'t>,
    pub(super) base: Range<usize>,
    pub(super) ours: Range<usize>,
    pub(super) theirs: Range<usize>,
}

/// What one side made of the lines of the base.
struct Version {
    /// Which line each is now; `None` when it is gone.
    kept: Vec<Option<usize>>,
    /// What stands newly before each line, and at the end.
    new: Vec<Vec<usize>>,
}

/// What a side did to a line of the base.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Fate {
    Same,
    Changed,
    Gone,
}

impl<'t> Sides<'_, 't> {
    fn base_line(&self, at: usize) -> Option<&TextLine<'t>> {
        self.versions.base.lines.get(self.base.start + at)
    }

    fn line(&self, side: Side, place: usize) -> Option<&TextLine<'t>> {
        self.versions.side(side).lines.get(place)
    }

    fn range(&self, side: Side) -> Range<usize> {
        match side {
            Side::Ours => self.ours.clone(),
            Side::Theirs => self.theirs.clone(),
        }
    }

    /// All lines of one side, which the plain merge took, each with what it is in the other versions.
    pub(super) fn taken_from(&self, side: Side) -> Vec<Put> {
        let other = if side == Side::Ours { Side::Theirs } else { Side::Ours };
        let kept = |side: Side| self.found(side).map_or_else(Vec::new, |found| found.kept);
        let (kept, others) = (kept(side), kept(other));
        let befores: HashMap<usize, usize> =
            kept.iter().enumerate().filter_map(|(at, place)| Some(((*place)?, at))).collect();
        let put = |place: usize| {
            let mut put = Put::new(self.line(side, place)?.raw, None);
            *put.slot(side) = Some(place);
            if let Some(before) = befores.get(&place) {
                put.base = Some(self.base.start + before);
                *put.slot(other) = others.get(*before).copied().flatten();
            }
            Some(put)
        };
        self.range(side).filter_map(put).collect()
    }

    /// Finds the lines of the base again; `None` where it is not certain which is which.
    fn found(&self, side: Side) -> Option<Version> {
        let before = self.versions.base.lines.get(self.base.clone())?;
        let start = self.range(side).start;
        let now = self.versions.side(side).lines.get(self.range(side))?;
        let keys = |lines: &[TextLine<'t>]| lines.iter().map(|line| line.key.clone()).collect::<Vec<String>>();
        let mut found = Version { kept: vec![None; before.len()], new: vec![Vec::new(); before.len() + 1] };
        if ends_in_parts_gone(before, now) {
            found.kept.iter_mut().zip(start..start + now.len()).for_each(|(slot, place)| *slot = Some(place));
            return Some(found);
        }
        for op in capture_diff_slices(Algorithm::Myers, &keys(before), &keys(now)) {
            let (old, new) = (op.old_range(), op.new_range());
            let (was, is) = (before.get(old.clone())?, now.get(new.clone())?);
            // As many lines of the same sorts in the same place: each was renamed or reworded.
            let reworded = was.len() == is.len() && was.iter().zip(is).all(|(was, is)| was.sort == is.sort);
            let are_ingredients = was.iter().chain(is).all(|line| line.sort == Sort::Ingredient);
            if reworded || matches!(op, DiffOp::Equal { .. }) {
                for (slot, place) in found.kept.iter_mut().skip(old.start).zip(new) {
                    *slot = Some(start + place);
                }
            } else if matches!(op, DiffOp::Replace { .. }) && !are_ingredients {
                return None;
            } else {
                found.new.get_mut(old.start)?.extend(new.map(|place| start + place));
            }
        }
        Some(found)
    }

    fn fate(&self, side: Side, found: &Version, at: usize) -> Fate {
        let now = found.kept.get(at).copied().flatten().and_then(|place| self.line(side, place));
        match (self.base_line(at), now) {
            (Some(before), Some(now)) if before.said == now.said => Fate::Same,
            (Some(_), Some(_)) => Fate::Changed,
            _ => Fate::Gone,
        }
    }

    /// The region with the changes of both sides; `None` where that is not safe.
    pub(super) fn settled(&self) -> Option<Vec<Piece>> {
        let all = [(Side::Ours, self.found(Side::Ours)?), (Side::Theirs, self.found(Side::Theirs)?)];
        let [(_, ours), (_, theirs)] = &all;
        if !self.is_readable() || !self.is_apart(ours, theirs) || !self.is_apart_from_moves(ours, theirs) {
            return None;
        }
        let mut pieces = Vec::new();
        for at in 0..=self.base.len() {
            self.put_new(at, ours, theirs, &mut pieces)?;
            if at < self.base.len() {
                self.put_kept(at, ours, theirs, &mut pieces)?;
            }
        }
        Some(pieces)
    }

    /// Whether every line can be read: of others nobody knows what they hang together with.
    fn is_readable(&self) -> bool {
        let base = self.versions.base.lines.get(self.base.clone());
        let sides = [Side::Ours, Side::Theirs].map(|side| self.versions.side(side).lines.get(self.range(side)));
        [base, sides[0], sides[1]].into_iter().flatten().flatten().all(|line| line.sort != Sort::Unread)
    }

    /// Whether no two lines that hang together were touched by one side each. About a line that both took out they agree.
    fn is_apart(&self, ours: &Version, theirs: &Version) -> bool {
        let both_took_out = |at: usize| {
            self.fate(Side::Ours, ours, at) == Fate::Gone && self.fate(Side::Theirs, theirs, at) == Fate::Gone
        };
        let is_touched = |side: Side, found: &Version, at: usize| {
            at < self.base.len() && self.fate(side, found, at) != Fate::Same && !both_took_out(at)
        };
        let pairs = [(Side::Ours, ours, Side::Theirs, theirs), (Side::Theirs, theirs, Side::Ours, ours)];
        pairs.into_iter().all(|(side, found, other, others)| {
            (0..self.base.len()).all(|at| {
                let (touched, below_touched) = (is_touched(side, found, at), is_touched(other, others, at + 1));
                let coupled = self.base_line(at).zip(self.base_line(at + 1)).is_some_and(|(a, b)| hang_together(a, b));
                !(touched && below_touched && coupled)
            })
        })
    }

    /// Whether no line that one side moved was touched by the other, here or elsewhere: it would come back, or come twice.
    fn is_apart_from_moves(&self, ours: &Version, theirs: &Version) -> bool {
        let pairs = [(Side::Ours, ours, Side::Theirs, theirs), (Side::Theirs, theirs, Side::Ours, ours)];
        pairs.into_iter().all(|(side, found, other, others)| {
            let touched: Vec<&str> = (0..self.base.len())
                .filter(|at| self.fate(other, others, *at) != Fate::Same)
                .filter_map(|at| Some(self.base_line(at)?.key.as_str()))
                .collect();
            found.new.iter().flatten().filter_map(|place| self.line(side, *place)).all(|line| {
                let elsewhere = self.versions.side(other).times(&line.key) < self.versions.base.times(&line.key);
                line.sort == Sort::Blank || !(elsewhere || touched.contains(&line.key.as_str()))
            })
        })
    }

    fn put_kept(&self, at: usize, ours: &Version, theirs: &Version, pieces: &mut Vec<Piece>) -> Option<()> {
        let before = self.base_line(at)?;
        let place = |found: &Version| found.kept.get(at).copied().flatten();
        let (our_place, their_place) = (place(ours), place(theirs));
        let put = |raw: &str, taken: Option<Side>| {
            let base = Some(self.base.start + at);
            Piece::Line(Put { base, ours: our_place, theirs: their_place, ..Put::new(raw, taken) })
        };
        let our_line = our_place.and_then(|place| self.line(Side::Ours, place));
        let their_line = their_place.and_then(|place| self.line(Side::Theirs, place));
        let (our_fate, their_fate) = (self.fate(Side::Ours, ours, at), self.fate(Side::Theirs, theirs, at));
        match (our_line, their_line, our_fate, their_fate) {
            (Some(our), Some(their), Fate::Same, Fate::Same) => {
                // Whoever laid it out anew did so on purpose.
                pieces.push(put(if our.raw == before.raw { their.raw } else { our.raw }, None));
            }
            (Some(our), _, Fate::Changed, Fate::Same) => pieces.push(put(our.raw, Some(Side::Ours))),
            (_, Some(their), Fate::Same, Fate::Changed) => pieces.push(put(their.raw, Some(Side::Theirs))),
            (None, None, _, _) | (None, Some(_), Fate::Gone, Fate::Same) | (Some(_), None, Fate::Same, Fate::Gone) => {}
            (Some(our), Some(their), _, _) if our.said == their.said => pieces.push(put(our.raw, Some(Side::Ours))),
            (Some(_), Some(_), _, _) => {
                let places = (self.base.start + at, our_place?, their_place?);
                let versions = self.versions;
                match fields::merged(
                    (&versions.base, places.0),
                    (&versions.ours, places.1),
                    (&versions.theirs, places.2),
                ) {
                    Some(raw) => pieces.push(put(&raw, None)),
                    None => pieces.push(self.clash(Some(at), our_place.as_slice(), their_place.as_slice())),
                }
            }
            // With a head its text is gone too, and a text is no text without all of its lines.
            _ if matches!(before.sort, Sort::Ingredient | Sort::Fact) => {
                pieces.push(self.clash(Some(at), our_place.as_slice(), their_place.as_slice()));
            }
            _ => return None,
        }
        Some(())
    }

    fn clash(&self, base: Option<usize>, ours: &[usize], theirs: &[usize]) -> Piece {
        let base = base.map(|at| self.base.start + at).into_iter().collect();
        Piece::Clash(Clash { base, ours: ours.to_vec(), theirs: theirs.to_vec() })
    }

    /// Puts in what stands newly before a line of the base.
    fn put_new(&self, gap: usize, ours: &Version, theirs: &Version, pieces: &mut Vec<Piece>) -> Option<()> {
        let (our_new, their_new) = (ours.new.get(gap)?, theirs.new.get(gap)?);
        let lines = |side: Side, places: &[usize]| -> Vec<&TextLine<'t>> {
            places.iter().filter_map(|place| self.line(side, *place)).collect()
        };
        let (our_lines, their_lines) = (lines(Side::Ours, our_new), lines(Side::Theirs, their_new));
        let put = |side: Side, place: usize| {
            let mut put = Put::new(self.line(side, place)?.raw, Some(side));
            *put.slot(side) = Some(place);
            Some(Piece::Line(put))
        };
        if our_new.is_empty() || their_new.is_empty() {
            let (side, other, found, places) = if their_new.is_empty() {
                (Side::Ours, Side::Theirs, theirs, our_new)
            } else {
                (Side::Theirs, Side::Ours, ours, their_new)
            };
            if !self.has_its_place(gap, &lines(side, places), other, found) {
                return None;
            }
            pieces.extend(places.iter().filter_map(|place| put(side, *place)));
            return Some(());
        }
        if our_lines.iter().map(|line| &line.said).eq(their_lines.iter().map(|line| &line.said)) {
            for (ours, theirs) in our_new.iter().zip(their_new) {
                let put = Put::new(self.line(Side::Ours, *ours)?.raw, None);
                pieces.push(Piece::Line(Put { ours: Some(*ours), theirs: Some(*theirs), ..put }));
            }
            return Some(());
        }
        // Side by side only what is independent: ingredients, each of another name.
        let independent = our_lines.iter().chain(&their_lines).all(|line| line.sort == Sort::Ingredient);
        let clashes = our_lines.iter().any(|our| their_lines.iter().any(|their| name(our) == name(their)));
        if independent && !clashes {
            pieces.extend(our_new.iter().filter_map(|place| put(Side::Ours, *place)));
            pieces.extend(their_new.iter().filter_map(|place| put(Side::Theirs, *place)));
        } else {
            pieces.push(self.clash(None, our_new, their_new));
        }
        Some(())
    }

    /// Whether lines that one side put in still have their place: the lines above and below are there on the other side,
    /// and are not of the same text when the other side changed them. An ingredient has its place anywhere in its part.
    fn has_its_place(&self, gap: usize, lines: &[&TextLine<'_>], other: Side, others: &Version) -> bool {
        if lines.iter().all(|line| line.sort == Sort::Ingredient) {
            return true;
        }
        let neighbours = [gap.checked_sub(1), Some(gap)];
        neighbours.into_iter().flatten().filter(|at| *at < self.base.len()).all(|at| {
            let Some(before) = self.base_line(at) else { return true };
            let coupled = if at < gap {
                lines.first().is_some_and(|first| hang_together(before, first))
            } else {
                lines.last().is_some_and(|last| hang_together(last, before))
            };
            match self.fate(other, others, at) {
                Fate::Same => true,
                Fate::Changed => !coupled,
                // What ends the step or the part above has nothing to do with what is put in above it.
                Fate::Gone => at == gap && !coupled && matches!(before.sort, Sort::Blank | Sort::PartHead),
            }
        })
    }
}

/// Whether all that a side did was to take whole parts out at the end, and to reword a note or the recipe's name above them.
///
/// The blank line above a part is like any other blank line: a comparison could find the one that stayed in another that went.
fn ends_in_parts_gone(before: &[TextLine<'_>], now: &[TextLine<'_>]) -> bool {
    let gone = before.get(now.len()).is_some_and(|first| first.sort == Sort::PartHead);
    let is_title = |line: &TextLine<'_>| line.said.starts_with("recipe ");
    let is_same = |(before, now): (&TextLine<'_>, &TextLine<'_>)| {
        let reworded = before.sort == Sort::TextHead || (is_title(before) && is_title(now));
        before.key == now.key || (before.sort == now.sort && reworded)
    };
    gone && !now.is_empty() && before.iter().zip(now).all(is_same)
}

/// The name in a key, whatever the options: `Ingredient/salt/hand`.
fn name<'l>(line: &'l TextLine<'_>) -> &'l str {
    line.key.rsplit_once('/').map_or(line.key.as_str(), |(name, _)| name)
}

/// Whether two lines, one below the other, are read as one: lines of one paragraph, of one cue, a comment and what it
/// speaks of.
fn hang_together(above: &TextLine<'_>, below: &TextLine<'_>) -> bool {
    matches!(
        (above.sort, below.sort),
        (Sort::Comment, _)
            | (_, Sort::Comment)
            | (Sort::Prose | Sort::TextHead, Sort::Prose)
            | (Sort::Cue, Sort::Cue)
            | (Sort::PartHead, Sort::PartHead)
    )
}
