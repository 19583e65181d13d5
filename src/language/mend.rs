//! Mends: changes of a text that make problems go away. Nothing here reads or writes a file.

use crate::language::parse::parse;
use crate::text::diagnostic::{Diagnostic, Edit, Mend, Severity};
use crate::text::line_break;
use crate::text::source::{SourceId, Span};
use std::collections::{BTreeMap, HashMap};

/// A mend can uncover the next problem, which has a mend of its own; a recipe needs two or three rounds.
const MOST_ROUNDS: usize = 24;

/// So many mends are tried one by one where all of them together do harm: each try reads the whole text.
const MOST_ALONE: usize = 100;

/// A text never grows beyond so many times its length and so many bytes: mends that make ever more to mend have no end.
const MOST_GROWTH: (usize, usize) = (2, 10_000);

/// A text after its certain mends.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mended {
    /// The text.
    pub text: String,
    /// How many mends were made.
    pub count: usize,
}

/// Makes all certain mends of a text, again and again until there is none left. `None` when there was none.
///
/// `check` finds the problems of a text. A mend after which the text reads worse than before, or a number of it is another one,
/// is left out.
pub fn mend(text: &str, check: impl Fn(&str) -> (SourceId, Vec<Diagnostic>)) -> Option<Mended> {
    let mut mended = Mended { text: text.to_owned(), count: 0 };
    for _ in 0..MOST_ROUNDS {
        let (source, problems) = check(&mended.text);
        let Some((changed, count)) = one_round(source, &mended.text, &problems) else { break };
        if changed.len() > text.len() * MOST_GROWTH.0 + MOST_GROWTH.1 {
            return None;
        }
        mended.text = changed;
        mended.count += count;
    }
    (mended.count > 0).then_some(mended)
}

/// The text after one round of mends, and how many there were; `None` when no mend helps.
fn one_round(source: SourceId, text: &str, problems: &[Diagnostic]) -> Option<(String, usize)> {
    let mends = certain(source, text, problems);
    let together = without_overlaps(&mends);
    let before = Said::by(text);
    let helps = |changed: &String| changed != text && Said::by(changed).is_no_worse_than(&before);
    let changed = apply(text, &together);
    if helps(&changed) {
        return Some((changed, together.len()));
    }
    // One of them does harm: the first that does none is made alone, and the rest have their turn in the next round.
    together.iter().take(MOST_ALONE).map(|mend| apply(text, &[*mend])).find(helps).map(|changed| (changed, 1))
}

/// The certain mends of one text, in the order of their problems.
///
/// A line in which a character that cannot be seen has to stay may say something else than it seems to: it is left alone.
fn certain<'p>(source: SourceId, text: &str, problems: &'p [Diagnostic]) -> Vec<&'p Mend> {
    let is_certain = |problem: &Diagnostic| problem.mend.as_ref().is_some_and(|mend| mend.certain);
    let unclear = problems.iter().filter(|problem| problem.check == "hidden-character" && !is_certain(problem));
    let unclear: Vec<(usize, usize)> = unclear.map(|problem| line_around(text, problem.span.range().start)).collect();
    let is_clear = |edit: &Edit| {
        let span = edit.span.range();
        let before = unclear.partition_point(|(_, end)| *end < span.start);
        unclear.get(before).is_none_or(|(start, _)| *start > span.end)
    };
    let mends = problems.iter().filter_map(|problem| problem.mend.as_ref()).filter(|mend| mend.certain);
    mends.filter(|mend| mend.edits.iter().all(|edit| edit.span.source == source && is_clear(edit))).collect()
}

/// Where the line of a byte begins and ends.
fn line_around(text: &str, at: usize) -> (usize, usize) {
    let start = text.get(..at).and_then(|before| before.rfind(['\n', '\r'])).map_or(0, |before| before + 1);
    (start, line_break::next(text, at).map_or(text.len(), |(end, _)| end))
}

/// Those mends that can be made at once: of two that touch the same place the earlier one.
fn without_overlaps<'m>(mends: &[&'m Mend]) -> Vec<&'m Mend> {
    let mut kept: Vec<&Mend> = Vec::new();
    // Where each edit that is kept ends, by where it starts; none of them touch.
    let mut taken: BTreeMap<u32, u32> = BTreeMap::new();
    // Edits that only meet share a place too: which comes first would not be clear.
    let touches = |taken: &BTreeMap<u32, u32>, edit: &Edit| {
        taken.range(..=edit.span.end).next_back().is_some_and(|(_, end)| *end >= edit.span.start)
    };
    for mend in mends {
        if !mend.edits.iter().any(|edit| touches(&taken, edit)) {
            for edit in &mend.edits {
                let end = taken.entry(edit.span.start).or_default();
                *end = edit.span.end.max(*end);
            }
            kept.push(mend);
        }
    }
    kept
}

/// The text after some mends, none of which overlap. An edit outside the text or inside a character is left out.
pub fn apply(text: &str, mends: &[&Mend]) -> String {
    let mut edits: Vec<&Edit> = mends.iter().flat_map(|mend| &mend.edits).collect();
    edits.sort_by_key(|edit| (edit.span.start, edit.span.end));
    let mut changed = String::with_capacity(text.len());
    let mut at = 0;
    for edit in edits {
        let Span { start, end, .. } = edit.span;
        let (start, end) = (start as usize, end as usize);
        let (Some(before), Some(_)) = (text.get(at..start), text.get(start..end)) else { continue };
        changed.push_str(before);
        changed.push_str(&edit.text);
        at = end;
    }
    changed.push_str(text.get(at..).unwrap_or(""));
    changed
}

/// What a mend may not make worse.
struct Said {
    /// How many errors reading alone finds.
    errors: usize,
    /// How often each row of figures stands in what the lines say, comments left out.
    figures: HashMap<String, usize>,
}

impl Said {
    fn by(text: &str) -> Said {
        let (tree, problems) = parse(SourceId(0), text);
        let mut figures: HashMap<String, usize> = HashMap::new();
        for line in &tree.lines {
            for row in rows_of_figures(text.get(line.said.range()).unwrap_or("")) {
                *figures.entry(row).or_default() += 1;
            }
        }
        let errors = problems.iter().filter(|problem| problem.severity == Severity::Error).count();
        Said { errors, figures }
    }

    /// Whether no more is wrong than before, and every number of before is still there.
    fn is_no_worse_than(&self, before: &Said) -> bool {
        let stands = |row: &String, times: usize| self.figures.get(row).is_some_and(|now| *now >= times);
        self.errors <= before.errors && before.figures.iter().all(|(row, times)| stands(row, *times))
    }
}

/// The numbers of a line as rows of figures, without the points and commas in them: those may be written otherwise.
fn rows_of_figures(said: &str) -> Vec<String> {
    let numbers = said.split(|c: char| !(c.is_numeric() || matches!(c, '.' | ',')));
    numbers.map(|number| number.replace(['.', ','], "")).filter(|row| !row.is_empty()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    const SOURCE: SourceId = SourceId(0);

    fn edit(start: usize, end: usize, text: &str) -> Mend {
        let edits = vec![Edit { span: Span::new(SOURCE, start, end), text: text.to_owned() }];
        Mend { title: String::new(), edits, certain: true }
    }

    #[test]
    fn edits_are_made_from_any_order() {
        let (late, early) = (edit(4, 5, "E"), edit(0, 1, "A"));
        assert_eq!(apply("abcdef", &[&late, &early]), "AbcdEf");
    }

    #[test]
    fn an_edit_inside_a_character_is_left_out() {
        assert_eq!(apply("½ kg", &[&edit(1, 2, "x")]), "½ kg");
        assert_eq!(apply("ab", &[&edit(5, 9, "x")]), "ab");
    }

    #[test]
    fn of_two_mends_of_one_place_the_first_is_made() {
        let (one, two) = (edit(0, 3, "x"), edit(3, 4, "y"));
        assert_eq!(without_overlaps(&[&one, &two]).len(), 1);
    }

    #[test]
    fn rounds_go_on_until_nothing_is_left() {
        let text = "recipe Rolls\nflour .... 500 grams\nwater .... 0,3 kg\nmix: hands 12-10 mins\n    Mix {flour} and {water}.\n";
        let mended = mend(text, |text| (SOURCE, parse(SOURCE, text).1)).expect("there is something to mend");
        assert_eq!(
            mended.text,
            "recipe Rolls\nflour .... 500 g\nwater .... 0.3 kg\nmix: hands 10-12 min\n    Mix {flour} and {water}.\n"
        );
        assert_eq!(mended.count, 4);
    }

    #[test]
    fn a_mend_that_makes_the_text_read_worse_is_not_made() {
        let text = "recipe Rolls\nflour .... 500 g\n";
        let harm = Diagnostic::warning("idle-allowance", Span::new(SOURCE, 13, 18), "").mend(
            "",
            Span::new(SOURCE, 13, 23),
            "",
        );
        assert_eq!(mend(text, |_| (SOURCE, vec![harm.clone()])), None);
    }
}
