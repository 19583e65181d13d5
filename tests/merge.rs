//! Merging formulas: on recipes and edits made up by chance, held against a plain three-way merge, against git's own, and
//! against a model of what each side did.
//!
//! `MICHE_MERGES=100000 cargo test --test merge` tries so many instead of the few of a normal run, and
//! `MICHE_MERGES_FROM=100000` others; `tests/attack/run.sh` does both.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod dice;
#[path = "merge/ends.rs"]
mod ends;
#[path = "merge/model.rs"]
mod model;

use dice::Dice;
use miche::language::merge::{Merged, merge};
use model::{Kind, Line, edited, owners, recipe, written};
use similar::TextMerge;
use std::collections::BTreeMap;
use std::fs;
use std::process::Command;

/// So many merges, unless the environment says otherwise.
fn wanted(few: usize) -> usize {
    of_environment("MICHE_MERGES").unwrap_or(few)
}

/// Where to begin to count.
fn from() -> usize {
    of_environment("MICHE_MERGES_FROM").unwrap_or(0)
}

fn of_environment(name: &str) -> Option<usize> {
    std::env::var(name).ok().and_then(|count| count.parse().ok())
}

/// The result: what stands outside of markers, and what each side says between them.
#[derive(Debug, Default)]
struct Sorted {
    outside: Vec<String>,
    ours: Vec<String>,
    theirs: Vec<String>,
    /// Whether a head stands between markers, so that owners below it are open.
    open: bool,
}

fn sorted(text: &str) -> Sorted {
    let mut sorted = Sorted::default();
    let mut section = 0;
    for line in text.lines() {
        section = match line {
            "<<<<<<< ours" => 1,
            "||||||| before" => 2,
            "=======" => 3,
            ">>>>>>> theirs" => 0,
            _ => {
                let head = line.starts_with("part ") || line.starts_with("stir ");
                sorted.open |= section != 0 && head;
                match section {
                    0 => sorted.outside.push(line.to_owned()),
                    1 => sorted.ours.push(line.to_owned()),
                    3 => sorted.theirs.push(line.to_owned()),
                    _ => {}
                }
                continue;
            }
        };
    }
    assert_eq!(section, 0, "markers are closed: {text}");
    sorted
}

/// The identity in a line.
fn identity(line: &str) -> Option<usize> {
    let (_, from) = line.split_once(" k")?;
    from.split_once('e')?.0.parse().ok()
}

fn without_layout(line: &str) -> String {
    line.replace(".............", ".....")
}

/// What is wrong with a merge, by what each side did.
fn faults(base: &[Line], ours: &[Line], theirs: &[Line], merged: &Merged) -> Vec<String> {
    let mut faults = Vec::new();
    let found = sorted(&merged.text);
    let by_id =
        |lines: &[Line]| -> BTreeMap<usize, Line> { lines.iter().map(|line| (line.id, line.clone())).collect() };
    let (was, we, they) = (by_id(base), by_id(ours), by_id(theirs));
    let same = |one: &Line, other: &Line| (one.first, one.second) == (other.first, other.second);
    let has = |list: &[String], line: &Line| {
        let said = without_layout(&line.text());
        list.iter().any(|text| without_layout(text) == said)
    };
    let has_id = |list: &[String], id: usize| list.iter().any(|text| identity(text) == Some(id));
    let mut ids: Vec<usize> = was.keys().chain(we.keys()).chain(they.keys()).copied().collect();
    ids.sort_unstable();
    ids.dedup();
    for id in ids {
        let (before, our, their) = (was.get(&id), we.get(&id), they.get(&id));
        if before.or(our).or(their).is_some_and(|line| line.kind == Kind::Blank) {
            continue;
        }
        let times = found.outside.iter().filter(|text| identity(text) == Some(id)).count();
        if times > 1 {
            faults.push(format!("k{id} stands there {times} times"));
        }
        let mut want = |holds: bool, what: &str| {
            if !holds {
                faults.push(format!("k{id}: {what}"));
            }
        };
        match (before, our, their) {
            (Some(before), Some(our), Some(their)) => match (same(before, our), same(before, their)) {
                (true, true) => want(
                    has(&found.outside, before) || has(&found.ours, our) && has(&found.theirs, their),
                    "nobody touched it, and it is gone",
                ),
                (false, true) => want(has(&found.outside, our) || has(&found.ours, our), "our change is lost"),
                (true, false) => want(has(&found.outside, their) || has(&found.theirs, their), "their change is lost"),
                (false, false) if same(our, their) => {
                    want(has(&found.outside, our) || has(&found.ours, our), "the change of both is lost")
                }
                (false, false) => {
                    let apart = (our.first == before.first) != (their.first == before.first)
                        && (our.second == before.second) != (their.second == before.second);
                    let both = Line {
                        first: if our.first == before.first { their.first } else { our.first },
                        second: if our.second == before.second { their.second } else { our.second },
                        ..before.clone()
                    };
                    let between = has(&found.ours, our) && has(&found.theirs, their) && !has_id(&found.outside, id);
                    want(between || apart && has(&found.outside, &both), "of two changes one is lost without a word");
                }
            },
            (Some(_), None, None) => want(!has_id(&found.outside, id), "both took it out, and it is back"),
            (Some(before), Some(our), None) if same(before, our) => {
                want(!has_id(&found.outside, id), "they took it out, and it is back")
            }
            (Some(before), None, Some(their)) if same(before, their) => {
                want(!has_id(&found.outside, id), "we took it out, and it is back")
            }
            (Some(_), Some(our), None) => want(
                has(&found.ours, our) && !has_id(&found.outside, id),
                "we changed what they took out, and no markers say so",
            ),
            (Some(_), None, Some(their)) => want(
                has(&found.theirs, their) && !has_id(&found.outside, id),
                "they changed what we took out, and no markers say so",
            ),
            (None, Some(our), _) => want(has(&found.outside, our) || has(&found.ours, our), "what we put in is lost"),
            (None, None, Some(their)) => {
                want(has(&found.outside, their) || has(&found.theirs, their), "what they put in is lost")
            }
            (None, None, None) => {}
        }
    }
    let (our_owners, their_owners) = (owners(ours), owners(theirs));
    if !found.open {
        let (mut part, mut head) = (None, None);
        for text in &found.outside {
            let goes_on = text.starts_with("    ");
            if !goes_on {
                head = None;
            }
            let Some(id) = identity(text) else { continue };
            let is_part = text.starts_with("part ");
            let here = (if is_part { None } else { part }, head);
            // Who alone put it in or changed it says where it stands.
            let touched = |mine: &BTreeMap<usize, Line>| {
                mine.get(&id).is_some_and(|mine| was.get(&id).is_none_or(|was| !same(was, mine)))
            };
            let holds = match (touched(&we), touched(&they)) {
                (true, false) => our_owners.get(&id) == Some(&here),
                (false, true) => their_owners.get(&id) == Some(&here),
                _ => our_owners.get(&id) == Some(&here) || their_owners.get(&id) == Some(&here),
            };
            if !holds {
                faults.push(format!(
                    "k{id} stands under {here:?}, here {:?}, there {:?}",
                    our_owners.get(&id),
                    their_owners.get(&id)
                ));
            }
            if is_part {
                part = Some(id);
            }
            if text.starts_with("stir ") || text.starts_with("note ") {
                head = Some(id);
            }
        }
    }
    for (side, lines) in [("our", ours), ("their", theirs)] {
        let order: Vec<usize> = lines.iter().map(|line| line.id).collect();
        let places: Vec<usize> =
            found.outside.iter().filter_map(|text| order.iter().position(|id| Some(*id) == identity(text))).collect();
        if !places.is_sorted() {
            faults.push(format!("the order is not {side} order"));
        }
    }
    if merged.conflicts.is_empty() == merged.text.lines().any(|line| line == "<<<<<<< ours") {
        faults.push(format!("markers and {:?}", merged.conflicts));
    }
    faults
}

struct Case {
    base: Vec<Line>,
    ours: Vec<Line>,
    theirs: Vec<Line>,
    told: String,
}

fn case(seed: usize) -> Case {
    let mut dice = Dice(seed as u64);
    let base = recipe(&mut dice);
    let (ours, our_edits) = edited(&base, 1, &mut dice);
    let (theirs, their_edits) = edited(&base, 2, &mut dice);
    Case { base, ours, theirs, told: format!("seed {seed}\nours {our_edits:?}\ntheirs {their_edits:?}") }
}

#[test]
fn merges_made_up_by_chance_do_what_each_side_did() {
    let (mut clean, mut plainly_clean, mut wrong) = (0, 0, Vec::new());
    let count = wanted(1500);
    for seed in from()..from() + count {
        let case = case(seed);
        let (base, ours, theirs) = (written(&case.base), written(&case.ours), written(&case.theirs));
        let merged = merge(&base, &ours, &theirs);
        let mut found = faults(&case.base, &case.ours, &case.theirs, &merged);
        let plain = TextMerge::from_lines(base.as_str(), ours.as_str(), theirs.as_str());
        if !plain.is_conflicted() {
            plainly_clean += 1;
            if merged.text != plain.to_string() {
                found.push("the plain merge is clean and another".to_owned());
            }
        }
        clean += usize::from(merged.conflicts.is_empty());
        if !found.is_empty() {
            wrong.push(format!(
                "{}\n{found:#?}\n=== base\n{base}\n=== ours\n{ours}\n=== theirs\n{theirs}\n=== merged\n{}",
                case.told, merged.text
            ));
        }
    }
    println!("{count} merges: {plainly_clean} clean by a plain merge, {clean} by this one");
    assert!(wrong.is_empty(), "{} of {count} are wrong; the first:\n{}", wrong.len(), wrong[0]);
    assert!(clean > plainly_clean, "formula merging settles more than the plain one: {clean}, {plainly_clean}");
}

#[test]
fn what_git_merges_cleanly_is_merged_as_git_does() {
    let folder = tempfile::tempdir().expect("a folder");
    let write = |name: &str, lines: &[Line]| {
        let path = folder.path().join(name);
        fs::write(&path, written(lines)).expect("written");
        path
    };
    let (mut clean, mut wrong) = (0, Vec::new());
    for seed in 1_000_000 + from()..1_000_000 + from() + wanted(1500) / 10 {
        let case = case(seed);
        let (base, ours, theirs) =
            (write("base", &case.base), write("ours", &case.ours), write("theirs", &case.theirs));
        let git = Command::new("git").args(["merge-file", "-p"]).args([&ours, &base, &theirs]).output().expect("git");
        if git.status.success() {
            clean += 1;
            let merged = merge(&written(&case.base), &written(&case.ours), &written(&case.theirs));
            let wanted = String::from_utf8(git.stdout).expect("UTF-8");
            if merged.text != wanted {
                wrong.push(format!("{}\n=== git\n{wanted}\n=== merged\n{}", case.told, merged.text));
            }
        }
    }
    println!("{clean} clean by git");
    assert!(
        clean > 20 && wrong.is_empty(),
        "{clean}: {} differ; {}",
        wrong.len(),
        wrong.first().map_or("", String::as_str)
    );
}

#[test]
fn one_side_alone_is_that_side() {
    for seed in 0..120 {
        let case = case(seed);
        let (base, ours) = (written(&case.base), written(&case.ours));
        for merged in [merge(&base, &ours, &base), merge(&base, &base, &ours), merge(&base, &ours, &ours)] {
            assert_eq!(merged, Merged { text: ours.clone(), conflicts: Vec::new() }, "{}", case.told);
        }
    }
}

/// Rolls with a step that may be taken out.
const ROLLS: &str = "recipe Rolls\nstrong white flour ............ 1 kg\nwater ......................... 600 g\n\
salt .......................... 20 g\n\nmix: hands 10 min\n    Mix {strong white flour}, {water} and {salt}.\n    until smooth\n";
const FOLD: &str = "fold: hands 3 min\n    Turn the dough over.\n    Fold from four sides.\n    until tight\n";
const BAKE: &str = "bake: tend 20 min, using oven at 220 C\n    until gold\n";

/// Tarts of two parts.
const TARTS: &str = "recipe Tarts\n\npart filling\nrhubarb ....................... 1 kg\ncaster sugar .................. 350 g\n\
ground ginger ................. 4 g\n\ncook: tend 30 min, using hob\n    Simmer {rhubarb}, {caster sugar} and ground ginger.\n    \
until thick\n\npart tarts\nfilling ....................... all\n";

/// Both ways round: which side is which makes no difference to what is merged.
fn both_ways(base: &str, one: &str, other: &str) -> [Merged; 2] {
    [merge(base, one, other), merge(base, other, one)]
}

#[test]
fn what_one_side_took_out_does_not_come_back() {
    let ours = TARTS.replace("ground ginger ................. 4 g\n", "");
    let theirs = TARTS
        .replace("part filling", "part rhubarb filling")
        .replace("caster", "orange juice .................. 60 g\ncaster")
        .replace("{rhubarb}, {caster", "{rhubarb}, {orange juice}, {caster")
        .replace("filling ....................... all", "rhubarb filling ............... all");
    for merged in both_ways(TARTS, &ours, &theirs) {
        assert_eq!(merged.text, theirs.replace("ground ginger ................. 4 g\n", ""));
        assert_eq!(merged.conflicts, Vec::<String>::new());
    }
}

#[test]
fn what_has_lost_its_place_is_a_conflict_with_markers() {
    let base = format!("{ROLLS}{FOLD}{BAKE}");
    let wetter = base.replace("Turn the dough over.\n", "Turn the dough over.\n    Wet your hands first.\n");
    let lemon = TARTS.replace("ground ginger", "lemon zest .................... 6 g\nground ginger");
    let last = TARTS.replace("4 g\n", "4 g\nlemon zest .................... 6 g\n");
    let (_, tarts) = TARTS.split_once("\n\npart tarts\n").expect("the second part");
    let without = format!("recipe Tarts\n\npart tarts\n{tarts}");
    let cases = [
        (base.as_str(), wetter.as_str(), format!("{ROLLS}{BAKE}"), "Wet your hands first."),
        (TARTS, lemon.as_str(), without.clone(), "lemon zest"),
        (TARTS, last.as_str(), without, "lemon zest"),
    ];
    for (base, one, other, added) in cases {
        for merged in both_ways(base, one, &other) {
            assert_eq!(merged.conflicts.len(), 1, "{}", merged.text);
            let found = sorted(&merged.text);
            assert!(!found.outside.iter().any(|line| line.contains(added)), "{}", merged.text);
            assert!(found.ours.iter().chain(&found.theirs).any(|line| line.contains(added)), "{}", merged.text);
        }
    }
}

/// A part that is taken out at the end disturbs nobody who changes what stands above it, though blank lines are all alike.
#[test]
fn a_last_part_goes_beside_what_stands_above_it() {
    let part = "\npart glaze\nicing sugar ................... 200 g\n\nstir: hands 2 min\n    Stir {icing sugar} with a little water.\n    \
                Let it run.\n\n";
    let base = format!("{ROLLS}{BAKE}{part}");
    let without = format!("{ROLLS}{BAKE}\n");
    let more = format!("{ROLLS}{BAKE}{FOLD}");
    for merged in both_ways(&base, &without, &format!("{more}{part}")) {
        assert_eq!((merged.text, merged.conflicts), (format!("{more}\n"), Vec::new()));
    }
    let short = format!("recipe Rolls\nnote For the morning.\n{part}");
    let evening = "recipe Rolls\nnote For the evening.\n\n";
    for merged in both_ways(&short, "recipe Rolls\nnote For the morning.\n\n", evening) {
        assert_eq!((merged.text.as_str(), merged.conflicts), (evening, Vec::new()));
    }
    // What is put into the part that the other side takes out has lost its place, as before.
    let thicker = base.replace("Let it run.\n", "Let it run.\n    Wait for a skin.\n");
    for merged in both_ways(&base, &without, &thicker) {
        assert_eq!(merged.conflicts.len(), 1, "{}", merged.text);
    }
}

#[test]
fn different_fields_of_a_line_are_merged_and_what_hangs_together_is_not() {
    let base = "recipe Rolls\nflour ..... 1 kg # ours\nwater ..... 600 g, at 20 C   [warm]\n";
    let with = |from: &str, to: &str| base.replacen(from, to, 1);
    for (from, to, from_theirs, to_theirs) in [
        ("600 g", "650 g", "20 C", "24 C"),
        ("600 g", "650 g = 65 %", ", at 20 C", ""),
        ("1 kg", "2 kg", "# ours", "# of the mill"),
        ("1 kg", "2 kg", " # ours", ""),
        (" # ours", ", sieved # ours", "# ours", "# old"),
        (" # ours", ", sieved # ours", "1 kg", "2 kg"),
    ] {
        for merged in both_ways(base, &with(from, to), &with(from_theirs, to_theirs)) {
            let wanted = with(from, to).replacen(from_theirs, to_theirs, 1);
            assert_eq!((merged.text.as_str(), merged.conflicts.len()), (wanted.as_str(), 0), "{from} {from_theirs}");
        }
    }
    for (from, to, from_theirs, to_theirs) in [
        ("water", "milk", "600 g", "650 g"),
        ("[warm]", "[cold]", "600 g", "650 g"),
        ("600 g", "650 g", "at 20 C", "aside"),
        ("600 g", "650 g", "at 20 C", "at 20 C, yield 90 %"),
        ("600 g", "650 g", "600 g", "550 g"),
    ] {
        for merged in both_ways(base, &with(from, to), &with(from_theirs, to_theirs)) {
            assert_eq!(merged.conflicts.len(), 1, "{from} {from_theirs}: {}", merged.text);
            assert!(merged.text.contains("<<<<<<< ours\n"), "{}", merged.text);
        }
    }
}

#[test]
fn a_new_layout_and_line_ends_of_one_side_disturb_nobody() {
    let base = format!("{ROLLS}{FOLD}{BAKE}");
    let laid_out = base.replace(" ............", " ..");
    let wetter = base.replace("600 g", "650 g");
    for merged in both_ways(&base, &laid_out, &wetter) {
        assert_eq!(merged.conflicts, Vec::<String>::new());
        assert!(merged.text.contains("650 g") && merged.text.contains("salt ................ 20 g"), "{}", merged.text);
    }
    let windows = base.replace('\n', "\r\n");
    for merged in both_ways(&base, &windows, &wetter) {
        assert_eq!(merged.conflicts, Vec::<String>::new());
        assert_eq!(merged.text.replace("\r\n", "\n"), wetter);
        // All lines end in one way.
        assert!(
            merged.text.matches("\r\n").count() > 10
                && merged.text.matches("\r\n").count() == merged.text.matches('\n').count()
        );
    }
}

#[test]
fn a_line_that_one_side_moved_and_the_other_took_out_is_a_conflict_where_git_sees_one() {
    let base = "recipe Rolls\nflour ..... 1 kg\nwater ..... 600 g\nsalt ..... 20 g\n";
    let moved = "recipe Rolls\nsalt ..... 20 g\nflour ..... 1 kg\nwater ..... 600 g\n";
    for merged in
        both_ways(base, moved, &base.replace("flour ..... 1 kg\n", "rye ..... 1 kg\n").replace("salt ..... 20 g\n", ""))
    {
        let found = sorted(&merged.text);
        assert!(!found.outside.iter().any(|line| line.contains("salt")), "{}", merged.text);
    }
}

#[test]
fn comments_stay_with_the_line_they_speak_of() {
    let base = "recipe Rolls\nflour ..... 1 kg\n# allow never-used: strewn\nsemolina ..... 20 g\nwater ..... 600 g\n";
    let other_line = base.replace("semolina ..... 20 g", "rice flour ..... 20 g");
    let other_comment = base.replace("strewn", "for the board");
    for merged in both_ways(base, &other_line, &other_comment) {
        assert_eq!(merged.conflicts.len(), 1, "{}", merged.text);
    }
}

#[test]
fn markers_end_as_the_lines_about_them_do() {
    let base = format!("{ROLLS}{FOLD}{BAKE}");
    let (drier, wetter) = (base.replace("600 g", "580 g"), base.replace("600 g", "650 g"));
    let wanted = merge(&base, &drier, &wetter);
    assert_eq!(wanted.conflicts.len(), 1);
    for line_break in ["\r\n", "\r"] {
        let ended = |text: &str| text.replace('\n', line_break);
        let merged = merge(&ended(&base), &ended(&drier), &ended(&wetter));
        assert_eq!(merged, Merged { text: ended(&wanted.text), ..wanted.clone() });
        let bytes = |text: &str| [ended(text).as_bytes(), b"# \xe9"].concat();
        let (text, conflicts) = miche::language::merge::merge_bytes(&bytes(&base), &bytes(&drier), &bytes(&wetter));
        assert_eq!((text, conflicts), (bytes(&wanted.text), 1));
    }
    // A last line without a line break that now stands in the middle.
    let [one, other] = ["water ... 1 g", "salt ... 1 g"].map(|line| format!("recipe R\rflour ... 1 kg\r{line}"));
    let merged = merge("recipe R\rflour ... 1 kg", &one, &other);
    assert!(!merged.text.contains('\n') && merged.text.contains("water ... 1 g\r"), "{:?}", merged.text);
}

#[test]
fn what_is_no_text_is_merged_as_plain_lines() {
    let base = b"a\xe9\nb\nc\nd\n".as_slice();
    let (bytes, conflicts) = miche::language::merge::merge_bytes(base, b"A\xe9\nb\nc\nd\n", b"a\xe9\nb\nc\nD\xff\n");
    assert_eq!((bytes.as_slice(), conflicts), (b"A\xe9\nb\nc\nD\xff\n".as_slice(), 0));
    let (bytes, conflicts) = miche::language::merge::merge_bytes(base, b"\xe8\nb\nc\nd\n", b"\xea\nb\nc\nd\n");
    let wanted = b"<<<<<<< ours\n\xe8\n||||||| before\na\xe9\n=======\n\xea\n>>>>>>> theirs\nb\nc\nd\n".as_slice();
    assert_eq!((bytes.as_slice(), conflicts), (wanted, 1));
}
