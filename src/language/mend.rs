//! Mends: changes of a text that make problems go away. Nothing here reads or writes a file.

use crate::language::parse::parse;
use crate::text::diagnostic::{Diagnostic, Edit, Mend, Severity};
use crate::text::source::{SourceId, Span};

/// A mend can uncover the next problem, which has a mend of its own; a recipe needs two or three rounds.
const MOST_ROUNDS: usize = 24;

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
/// `check` finds the problems of a text. A mend after which the text reads worse than before is left out.
pub fn mend(text: &str, check: impl Fn(&str) -> (SourceId, Vec<Diagnostic>)) -> Option<Mended> {
    let mut mended = Mended { text: text.to_owned(), count: 0 };
    for _ in 0..MOST_ROUNDS {
        let (source, problems) = check(&mended.text);
        let Some((text, count)) = one_round(source, &mended.text, &problems) else { break };
        mended.text = text;
        mended.count += count;
    }
    (mended.count > 0).then_some(mended)
}

/// The text after one round of mends, and how many there were; `None` when no mend helps.
fn one_round(source: SourceId, text: &str, problems: &[Diagnostic]) -> Option<(String, usize)> {
    let mends = certain(source, problems);
    let together = without_overlaps(&mends);
    let before = misread(text);
    let changed = apply(text, &together);
    if changed != text && misread(&changed) <= before {
        return Some((changed, together.len()));
    }
    // One of them does harm: the first that does none is made alone, and the rest have their turn in the next round.
    let alone = together.iter().map(|mend| apply(text, &[*mend]));
    alone.into_iter().find(|changed| changed != text && misread(changed) <= before).map(|changed| (changed, 1))
}

/// The certain mends of one text, in the order of their problems.
fn certain(source: SourceId, problems: &[Diagnostic]) -> Vec<&Mend> {
    let mends = problems.iter().filter_map(|problem| problem.mend.as_ref());
    mends.filter(|mend| mend.certain && mend.edits.iter().all(|edit| edit.span.source == source)).collect()
}

/// Those mends that can be made at once: of two that touch the same place the earlier one.
fn without_overlaps<'m>(mends: &[&'m Mend]) -> Vec<&'m Mend> {
    let mut kept: Vec<&Mend> = Vec::new();
    for mend in mends {
        let clashes =
            kept.iter().flat_map(|other| &other.edits).any(|other| mend.edits.iter().any(|edit| touch(edit, other)));
        if !clashes {
            kept.push(mend);
        }
    }
    kept
}

/// Whether two edits share a place. Edits that only meet do too: which comes first would not be clear.
fn touch(one: &Edit, other: &Edit) -> bool {
    one.span.start <= other.span.end && other.span.start <= one.span.end
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

/// How many errors reading alone finds in a text.
fn misread(text: &str) -> usize {
    let (_, problems) = parse(SourceId(0), text);
    problems.iter().filter(|problem| problem.severity == Severity::Error).count()
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
