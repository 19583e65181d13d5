//! The proof of what was settled: the result is read again, and each line that one side put in or changed must be read as
//! that side reads it, under the part and the step that it has there.

use super::lines::{Text, TextLine};
use super::{Piece, Put, Region, Side, Versions};

/// A line of the result, with the region it came of.
struct Proven {
    put: Put,
    region: usize,
    /// Whether it needs proof.
    settled: bool,
}

/// The first settled region in which a line is read otherwise than on its side.
pub(super) fn first_unproven(versions: &Versions<'_>, regions: &[Region]) -> Option<usize> {
    if !regions.iter().any(|region| region.settled) {
        return None;
    }
    let lines = one_reading(versions, regions);
    let mut text = String::new();
    for line in &lines {
        if !text.is_empty() && !text.ends_with(['\n', '\r']) {
            text.push('\n');
        }
        text.push_str(&line.put.raw);
    }
    let read = Text::of(&text);
    let first = |mut lines: std::slice::Iter<'_, Proven>| lines.find(|line| line.settled).map(|line| line.region);
    if read.lines.len() != lines.len() {
        return first(lines.iter());
    }
    let unproven = |(at, line): (usize, &Proven)| {
        let is_wrong =
            line.settled && !read.lines.get(at).is_some_and(|read| is_read_alike(versions, read, line, &lines));
        is_wrong.then_some(line.region)
    };
    lines.iter().enumerate().find_map(unproven)
}

/// The result with our side, or else theirs, in place of what stands between markers.
fn one_reading(versions: &Versions<'_>, regions: &[Region]) -> Vec<Proven> {
    let mut lines = Vec::new();
    for (region, pieces) in regions.iter().enumerate() {
        for piece in &pieces.pieces {
            match piece {
                Piece::Line(put) => {
                    lines.push(Proven { put: put.clone(), region, settled: pieces.settled });
                }
                Piece::Clash(clash) => {
                    let (side, places) =
                        if clash.ours.is_empty() { (Side::Theirs, &clash.theirs) } else { (Side::Ours, &clash.ours) };
                    for (nth, place) in places.iter().enumerate() {
                        let Some(line) = versions.side(side).lines.get(*place) else { continue };
                        // A head on which both disagree is still the same head.
                        let one_each = clash.base.len() == 1 && clash.ours.len() == 1 && clash.theirs.len() == 1;
                        let same = |list: &[usize]| list.get(nth).copied().filter(|_| one_each);
                        let mut put = Put {
                            raw: line.raw.to_owned(),
                            base: same(&clash.base),
                            ours: same(&clash.ours),
                            theirs: same(&clash.theirs),
                            taken: None,
                        };
                        match side {
                            Side::Ours => put.ours = Some(*place),
                            Side::Theirs => put.theirs = Some(*place),
                        }
                        lines.push(Proven { put, region, settled: false });
                    }
                }
            }
        }
    }
    lines
}

/// Whether a line of the result is read as its side reads it.
fn is_read_alike(versions: &Versions<'_>, read: &TextLine<'_>, line: &Proven, lines: &[Proven]) -> bool {
    let Some(side) = line.put.taken else {
        // Both have it, or its fields came of both: it must still be the same line.
        let ours = line.put.ours.and_then(|place| versions.ours.lines.get(place));
        return ours.is_some_and(|ours| ours.sort == read.sort && ours.key == read.key);
    };
    let Some(there) = line.put.of(side).and_then(|place| versions.side(side).lines.get(place)) else { return false };
    let same_owner = |here: Option<usize>, there: Option<usize>| match (here, there) {
        (None, None) => true,
        (Some(here), Some(there)) => lines.get(here).is_some_and(|head| head.put.of(side) == Some(there)),
        _ => false,
    };
    read.sort == there.sort
        && read.said == there.said
        && same_owner(read.part, there.part)
        && same_owner(read.head, there.head)
}
