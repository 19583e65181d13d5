//! Two changed versions of one file merged line by line: where a plain three-way merge is clean, its result; where it is
//! not, what is known of formulas settles what can be proven safe, and the rest stays in the text between markers.
//!
//! The plain merge is that of the crate `similar`, whose regions are git's. A region in which both sides changed something
//! is opened ([`settle`]): two people who change different ingredients do not disturb each other, even on neighbouring
//! lines. What came of it is read again ([`proof`]): each line must stand under the part and the step that its side gave it,
//! or the whole region goes between markers as it was. Nothing is lost and nothing that was taken out comes back.

mod fields;
mod lines;
mod proof;
mod settle;

use crate::text::line_break;
use lines::Text;
use similar::{MergeRegion, MergeResolution, TextMerge};

/// What came of a merge.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Merged {
    /// The merged text, with markers where there are conflicts.
    pub text: String,
    /// What both sides changed otherwise, a sentence each; each stands between markers in the text.
    pub conflicts: Vec<String>,
}

/// So many regions may fail their proof one by one; then all that were settled stay between markers.
const MOST_ROUNDS: usize = 16;

/// Whether a line is one of the marks that a merge leaves around two versions, this one's or git's.
pub fn is_merge_mark(line: &str) -> bool {
    ["<<<<<<<", "|||||||", "=======", ">>>>>>>"].iter().any(|mark| line.starts_with(mark))
}

/// One of the two versions that are merged.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Side {
    /// The version that the result is written into.
    Ours,
    /// The other one.
    Theirs,
}

/// The three texts.
struct Versions<'t> {
    base: Text<'t>,
    ours: Text<'t>,
    theirs: Text<'t>,
}

impl<'t> Versions<'t> {
    fn side(&self, side: Side) -> &Text<'t> {
        match side {
            Side::Ours => &self.ours,
            Side::Theirs => &self.theirs,
        }
    }
}

/// A line of the result, and which line it is in each version.
#[derive(Debug, Clone)]
struct Put {
    raw: String,
    base: Option<usize>,
    ours: Option<usize>,
    theirs: Option<usize>,
    /// The side that put it in or changed it, when only one did.
    taken: Option<Side>,
}

impl Put {
    fn new(raw: &str, taken: Option<Side>) -> Put {
        Put { raw: raw.to_owned(), base: None, ours: None, theirs: None, taken }
    }

    fn slot(&mut self, side: Side) -> &mut Option<usize> {
        match side {
            Side::Ours => &mut self.ours,
            Side::Theirs => &mut self.theirs,
        }
    }

    /// Which line of a side it is.
    fn of(&self, side: Side) -> Option<usize> {
        match side {
            Side::Ours => self.ours,
            Side::Theirs => self.theirs,
        }
    }
}

/// Lines that both sides changed otherwise: places in the three versions.
#[derive(Debug, Clone, Default)]
struct Clash {
    base: Vec<usize>,
    ours: Vec<usize>,
    theirs: Vec<usize>,
}

/// A piece of the result.
#[derive(Debug, Clone)]
enum Piece {
    Line(Put),
    Clash(Clash),
}

/// A region of the result.
struct Region {
    pieces: Vec<Piece>,
    /// Whether what is known of formulas settled it, so that it needs proof.
    settled: bool,
}

/// Merges `ours` and `theirs`, which both came out of `base`. How lines end, and whether the last one does, makes no conflict: lines are
/// compared without it, and each keeps the end that it has in `ours`.
pub fn merge(base: &str, ours: &str, theirs: &str) -> Merged {
    let begins = [base, ours, theirs].map(|text| text.starts_with(BYTE_ORDER_MARK));
    let texts = [base, ours, theirs].map(|text| text.strip_prefix(BYTE_ORDER_MARK).unwrap_or(text));
    let [base, ours, theirs] = texts;
    let bare = texts.map(line_break::with_plain_ends);
    let plain = TextMerge::from_lines(bare[0].as_ref(), bare[1].as_ref(), bare[2].as_ref());
    let versions = Versions { base: Text::of(base), ours: Text::of(ours), theirs: Text::of(theirs) };
    let mut regions: Vec<Region> = plain.regions().iter().map(|region| of_region(&versions, region)).collect();
    // A region that fails its proof may have been what another leaned on.
    for round in 0.. {
        let Some(unproven) = proof::first_unproven(&versions, &regions) else { break };
        for (at, (region, plain)) in regions.iter_mut().zip(plain.regions()).enumerate() {
            if at == unproven || (round >= MOST_ROUNDS && region.settled) {
                *region = Region { pieces: vec![Piece::Clash(whole(plain))], settled: false };
            }
        }
    }
    let mut merged = written(&versions, &regions, Ends::of(texts));
    if of_the_side_that_changed_it(begins) {
        merged.text.insert(0, BYTE_ORDER_MARK);
    }
    merged
}

/// Merges bytes of which some are no text: a plain three-way merge, with markers, and how many conflicts there are.
pub fn merge_bytes(base: &[u8], ours: &[u8], theirs: &[u8]) -> (Vec<u8>, usize) {
    // Each byte as the character of its number, and back: nothing is lost.
    let text = |bytes: &[u8]| bytes.iter().map(|byte| char::from(*byte)).collect::<String>();
    let (base, ours, theirs) = (text(base), text(ours), text(theirs));
    let versions = Versions { base: Text::of(&base), ours: Text::of(&ours), theirs: Text::of(&theirs) };
    let bare = [base.as_str(), &ours, &theirs].map(line_break::with_plain_ends);
    let plain = TextMerge::from_lines(bare[0].as_ref(), bare[1].as_ref(), bare[2].as_ref());
    let regions: Vec<Region> = plain.regions().iter().map(|region| as_it_stands(&versions, region)).collect();
    let merged = written(&versions, &regions, Ends::of([&base, &ours, &theirs]));
    (merged.text.chars().filter_map(|c| u8::try_from(u32::from(c)).ok()).collect(), merged.conflicts.len())
}

/// The mark with which some editors begin a file.
const BYTE_ORDER_MARK: char = '\u{FEFF}';

/// What base, ours and theirs say of something of which there is no more than one: as the side has it that changed it, ours where both did.
fn of_the_side_that_changed_it<T: PartialEq>([base, ours, theirs]: [T; 3]) -> T {
    if ours == base { theirs } else { ours }
}

/// How the lines of a merge end.
#[derive(Debug, Clone, Copy)]
struct Ends {
    /// Behind each line that ours does not have, each marker, and a last line that now stands in the middle: as most lines of ours.
    usual: &'static str,
    /// In which all lines end where every version ends its lines in one way.
    only: Option<&'static str>,
    /// Whether the last line is ended.
    last: bool,
}

impl Ends {
    fn of(texts: [&str; 3]) -> Ends {
        let [base, ours, theirs] = texts;
        let first = [ours, base, theirs].into_iter().find(|text| text.contains(['\n', '\r']));
        let only = texts.map(line_break::only);
        let is_theirs = only[0].is_some() && only[1] == only[0] && only[2].is_some();
        let only = if is_theirs { only[2] } else { only[1] };
        Ends {
            usual: first.map_or("\n", line_break::most),
            only,
            last: of_the_side_that_changed_it(texts.map(|text| text.is_empty() || text.ends_with(['\n', '\r']))),
        }
    }
}

/// A region of which nothing is opened: what one side changed, or a conflict.
fn as_it_stands(versions: &Versions<'_>, region: &MergeRegion) -> Region {
    let (side, places) = match region.resolution() {
        MergeResolution::Unchanged | MergeResolution::Ours | MergeResolution::Both => (Side::Ours, region.ours_range()),
        MergeResolution::Theirs => (Side::Theirs, region.theirs_range()),
        _ => return Region { pieces: vec![Piece::Clash(whole(region))], settled: false },
    };
    let put = |at: usize| {
        let mut put = Put::new(versions.side(side).lines.get(at)?.raw, None);
        *put.slot(side) = Some(at);
        Some(Piece::Line(put))
    };
    Region { pieces: places.filter_map(put).collect(), settled: false }
}

/// The pieces of a region of the plain merge.
fn of_region(versions: &Versions<'_>, region: &MergeRegion) -> Region {
    let sides =
        settle::Sides { versions, base: region.base_range(), ours: region.ours_range(), theirs: region.theirs_range() };
    let lines = |side: Side| sides.taken_from(side).into_iter().map(Piece::Line).collect();
    match region.resolution() {
        MergeResolution::Unchanged | MergeResolution::Ours | MergeResolution::Both => {
            Region { pieces: lines(Side::Ours), settled: false }
        }
        MergeResolution::Theirs => Region { pieces: lines(Side::Theirs), settled: false },
        _ => match sides.settled() {
            Some(pieces) => Region { pieces, settled: true },
            None => Region { pieces: vec![Piece::Clash(whole(region))], settled: false },
        },
    }
}

fn whole(region: &MergeRegion) -> Clash {
    Clash {
        base: region.base_range().collect(),
        ours: region.ours_range().collect(),
        theirs: region.theirs_range().collect(),
    }
}

fn written(versions: &Versions<'_>, regions: &[Region], ends: Ends) -> Merged {
    let mut result = Written { text: String::new(), ends };
    let mut conflicts = Vec::new();
    for piece in regions.iter().flat_map(|region| &region.pieces) {
        match piece {
            Piece::Line(put) => {
                let own = put.ours.and_then(|at| versions.ours.lines.get(at)).map(|line| line.raw);
                result.put(&put.raw, own.map(|raw| line_break::before(raw, raw.len())));
            }
            Piece::Clash(clash) => {
                conflicts.push(sentence(versions, clash));
                result.mark("<<<<<<< ours");
                result.put_all(&versions.ours, &clash.ours);
                result.mark("||||||| before");
                result.put_all(&versions.base, &clash.base);
                result.mark("=======");
                result.put_all(&versions.theirs, &clash.theirs);
                result.mark(">>>>>>> theirs");
            }
        }
    }
    let is_marked = matches!(regions.iter().flat_map(|region| &region.pieces).last(), Some(Piece::Clash(_)));
    if !is_marked && !ends.last {
        let said = result.text.len() - line_break::before(&result.text, result.text.len()).len();
        result.text.truncate(said);
    }
    Merged { text: result.text, conflicts }
}

/// The text that comes of a merge, as far as it is written.
struct Written {
    text: String,
    ends: Ends,
}

impl Written {
    /// A line with an end: its own in ours, if it has one there.
    fn put(&mut self, raw: &str, own: Option<&str>) {
        self.text.push_str(raw.trim_end_matches(['\n', '\r']));
        self.text.push_str(self.ends.only.or(own.filter(|own| !own.is_empty())).unwrap_or(self.ends.usual));
    }

    fn put_all(&mut self, text: &Text<'_>, places: &[usize]) {
        for line in places.iter().filter_map(|at| text.lines.get(*at)) {
            self.put(line.raw, None);
        }
    }

    fn mark(&mut self, marker: &str) {
        self.put(marker, None);
    }
}

/// What both sides did to some lines, in words.
fn sentence(versions: &Versions<'_>, clash: &Clash) -> String {
    let words = |text: &Text<'_>, places: &[usize]| -> Option<String> {
        let said = |at: &usize| text.lines.get(*at).map(|line| line.said.trim()).filter(|said| !said.is_empty());
        let mut lines = places.iter().filter_map(said);
        let first = lines.next()?;
        Some(match lines.count() {
            0 => format!("`{first}`"),
            1 => format!("`{first}` and a line more"),
            more => format!("`{first}` and {more} lines more"),
        })
    };
    let (base, ours, theirs) = (
        words(&versions.base, &clash.base),
        words(&versions.ours, &clash.ours),
        words(&versions.theirs, &clash.theirs),
    );
    let nothing = || "nothing".to_owned();
    match (base, ours, theirs) {
        (Some(base), ours, theirs) => {
            let (ours, theirs) = (ours.unwrap_or_else(nothing), theirs.unwrap_or_else(nothing));
            format!("{base} became {ours} here and {theirs} there")
        }
        (None, ours, theirs) => {
            let (ours, theirs) = (ours.unwrap_or_else(nothing), theirs.unwrap_or_else(nothing));
            format!("at one place came {ours} here and {theirs} there")
        }
    }
}
