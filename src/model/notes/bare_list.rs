//! A list of numbers without units: `flour 250, water 250, yeast 1`, `500 flour`, `flour 1000 water 800 salt 25`.

use super::amount;
use super::ingredient;
use super::kinds;
use super::measure::measure;
use super::method;
use super::pieces::is_in_pieces;
use super::unweighed::{all_of, is_known};
use super::verbs::{BEGUN, is_verb};
use super::words;
use crate::measure::number::Number;

/// More words are a sentence and no name.
const NAME_WORDS: usize = 5;
/// Behind so many sentences no list ends.
const SENTENCES: usize = 3;
/// First words of a line that gives a number and lists nothing.
#[rustfmt::skip]
const NO_NAMES: [&str; 39] = [
    "about", "after", "at", "batch", "batches", "by", "date", "day", "days", "feeds", "for", "from", "gas", "hydration", "in", "makes", "mark",
    "no", "number", "of", "oven", "page", "portions", "recipe", "room", "serves", "stage", "step", "sum", "temp", "temperature", "time", "times",
    "total", "tray", "version", "week", "year", "yield",
];

/// An ingredient with a number and no unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Bare<'t> {
    /// Its name.
    pub(super) name: &'t str,
    /// Its number as it is written.
    pub(super) figure: &'t str,
    pub(super) value: Option<Number>,
    /// Where in the text the number ends.
    pub(super) end: usize,
}

impl Bare<'_> {
    /// Whether the number is of pieces sooner than of grams: `eggs 2`.
    pub(super) fn is_in_pieces(&self) -> bool {
        is_in_pieces(self.name, self.value)
    }
}

/// The pieces of a line that commas or semicolons part, and no commas within brackets or figures.
pub(super) fn pieces(text: &str) -> Vec<&str> {
    words::outside_brackets(text, &[',', ';'])
}

/// A name with a number and no unit, and nothing else: `flour 250`, `Flour: 250`, `500 strong flour`, `water 700 (warm)`.
pub(super) fn bare(piece: &str) -> Option<Bare<'_>> {
    let piece = match piece.strip_suffix(')').and_then(|piece| piece.rsplit_once('(')) {
        Some((outside, inside)) if !inside.contains(char::is_numeric) => outside.trim_end(),
        Some(_) => return None,
        None => piece,
    };
    let is_figure = |c: char| c.is_numeric();
    let (name, figure, value, end) = if piece.starts_with(is_figure) {
        let (figure, name) = amount::figure(piece)?;
        let written = piece.get(..piece.len() - name.len())?;
        if !name.starts_with(' ') || measure(piece).is_none_or(|(amount, _)| amount.unit.is_some()) {
            return None;
        }
        (name.trim(), written.trim_end(), figure.value, written.trim_end().len())
    } else {
        let at = piece.find(|c: char| c.is_numeric()).and_then(|first| {
            // `Flour T65 900`: what is glued to letters is the type of the flour.
            let starts = piece.char_indices().map(|(at, _)| at).filter(|at| *at >= first);
            let mut starts =
                starts.filter(|at| piece.get(..*at).is_some_and(|before| before.ends_with([' ', ':', '=', '-'])));
            starts.find(|at| piece.get(*at..).is_some_and(|rest| rest.starts_with(is_figure)))
        })?;
        let (name, behind) = piece.split_at_checked(at)?;
        let (figure, rest) = amount::figure(behind)?;
        if !rest.trim().is_empty() {
            return None;
        }
        let marks = |c: char| c.is_whitespace() || matches!(c, ':' | '-' | '\u{2013}' | '=' | '.' | '\u{2026}');
        (name.trim_end_matches(marks), behind.trim(), figure.value, piece.trim_end().len())
    };
    is_name(name).then_some(Bare { name, figure, value, end })
}

/// Whether words may name something that goes in.
fn is_name(name: &str) -> bool {
    let all: Vec<String> = words::all_of(name).collect();
    let first = all.first().map(String::as_str).unwrap_or_default();
    let is_work = is_verb(first) || BEGUN.contains(&first);
    let made = all.last().is_some_and(|last| kinds::is_product(last)) && !is_known(name);
    let of_no_name = NO_NAMES.contains(&first) || all.last().is_some_and(|last| NO_NAMES.contains(&last.as_str()));
    !all.is_empty()
        && all.len() <= NAME_WORDS
        && name.starts_with(char::is_alphabetic)
        && !name.split_whitespace().any(|word| word.chars().all(|c| c.is_ascii_digit()))
        && !name.contains([',', ';', '!', '?', '|', '@'])
        && !name.contains(". ")
        && (!is_work || is_known(name))
        && !made
        && !of_no_name
}

/// A list in one line: the heading before it, and its items, each as it may stand on a line of its own.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct List<'t> {
    pub(super) heading: Option<&'t str>,
    pub(super) items: Vec<String>,
}

/// A list of numbers without units in one line; `None` for any other line. `said`: a unit was said for all numbers, so that names that nobody
/// knows are believed, too.
pub(super) fn in_a_line(line: &str, said: bool) -> Option<List<'_>> {
    let (heading, list) = match line.split_once(": ").or_else(|| line.split_once(" - ")) {
        Some((heading, list)) if is_heading(heading) => (Some(heading.trim()), list),
        _ => (None, line),
    };
    let list = list.trim().trim_end_matches(['.', ',', ';']);
    let mut items: Vec<String> = Vec::new();
    let mut numbers = 0_usize;
    let row = in_a_row(list, said);
    for piece in row.as_ref().map_or_else(|| pieces(list), |row| row.iter().map(String::as_str).collect()) {
        if let Some(bare) = bare(piece) {
            if !said && !is_known(bare.name) && !kinds::names_a_part(bare.name) {
                return None;
            }
            numbers += 1;
        } else if !is_other_item(piece) {
            // `strong` behind `flour 250` is said of it.
            let last = items.last_mut().filter(|_| !piece.contains(char::is_numeric) && !is_verb_first(piece))?;
            last.push_str(", ");
            last.push_str(piece);
            continue;
        }
        items.push(piece.to_owned());
    }
    (numbers > 1 && items.len() > 1).then_some(List { heading, items })
}

/// Gives what is told behind such a list a line of its own: `flour 250, water 250. Mix 5 min.`
pub(super) fn told_apart(lines: &mut Vec<String>, said: bool) {
    let parted = |line: String| {
        let (bare_line, _) = words::without_mark(&line, 0);
        let told = bare_line.match_indices(". ").take(SENTENCES).find_map(|(at, _)| {
            let (list, told) = (bare_line.get(..at)?, bare_line.get(at + 2..)?);
            (method::tells(told) && in_a_line(list, said).is_some()).then(|| vec![list.to_owned(), told.to_owned()])
        });
        told.unwrap_or_else(|| vec![line])
    };
    *lines = std::mem::take(lines).into_iter().flat_map(parted).collect();
}

/// Gives each item of such a list a line of its own, below its heading. What is listed below without a heading would be read as more of it.
pub(super) fn below_each_other(lines: &mut Vec<String>) {
    told_apart(lines, false);
    let mut parted = Vec::with_capacity(lines.len());
    for (at, line) in lines.iter().enumerate() {
        let (bare_line, _) = words::without_mark(line, 0);
        let goes_on = lines.get(at + 1).is_some_and(|next| {
            let (next, _) = words::without_mark(next, 0);
            bare(next).is_some() || !next.contains(':') && ingredient::has_amount(next)
        });
        match in_a_line(bare_line, false).filter(|list| list.heading.is_none() || !goes_on) {
            Some(list) => {
                parted.extend(list.heading.map(|heading| format!("{heading}:")));
                parted.extend(list.items);
            }
            None => parted.push(line.clone()),
        }
    }
    *lines = parted;
}

/// Whether words may stand over a list in its own line.
fn is_heading(text: &str) -> bool {
    let (name, _) = kinds::with_aside(text.trim());
    let name = kinds::dated_part(name).unwrap_or(name);
    !name.contains(char::is_numeric) && !is_known(name) && (kinds::names_a_part(name) || kinds::may_name_a_part(name))
        || kinds::names_a_part(name)
}

fn is_verb_first(text: &str) -> bool {
    words::all_of(text).next().is_some_and(|first| is_verb(&first) || BEGUN.contains(&first.as_str()))
}

/// Whether a piece is an ingredient that has a unit, or all of a part.
fn is_other_item(piece: &str) -> bool {
    let weighed = |text: &str| measure(text).is_some_and(|(amount, _)| amount.is_quantity());
    let figure = piece.find(char::is_numeric).and_then(|at| piece.get(at..));
    let last = figure.and_then(measure).filter(|(amount, rest)| amount.is_quantity() && rest.trim().is_empty());
    let all = piece.strip_suffix(" all").filter(|name| is_name(name));
    weighed(piece) || last.is_some() || all.is_some() || all_of(piece).is_some()
}

/// `flour 1000 water 800 salt 25`: names and numbers by turns, with nothing between.
fn in_a_row(list: &str, said: bool) -> Option<Vec<String>> {
    if list.contains([',', ';', '(']) {
        return None;
    }
    let mut items: Vec<String> = Vec::new();
    let mut open: Vec<&str> = Vec::new();
    for word in list.split_whitespace() {
        open.push(word);
        if open.len() > 1 && word.starts_with(char::is_numeric) {
            let item = open.join(" ");
            bare(&item).filter(|bare| said || is_known(bare.name))?;
            items.push(item);
            open.clear();
        }
    }
    (open.is_empty() && items.len() > 1).then_some(items)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_of_numbers_is_one_only_where_all_of_it_is() {
        let items = |line: &str, said: bool| in_a_line(line, said).map(|list| list.items.join(" | "));
        for (line, wanted) in [
            ("Poolish: flour 250, water 250, yeast 1", Some("flour 250 | water 250 | yeast 1")),
            (
                "flour 1000 water 800 salt 25 butter 50 yeast 5",
                Some("flour 1000 | water 800 | salt 25 | butter 50 | yeast 5"),
            ),
            (
                "Dough: poolish all; flour 700; water 600; salt 22 g",
                Some("poolish all | flour 700 | water 600 | salt 22 g"),
            ),
            ("flour 250, strong, water 200", Some("flour 250, strong | water 200")),
            ("250 flour, 150 water, 5 salt", Some("250 flour | 150 water | 5 salt")),
            ("Mix 10, rest 30, bake 20", None),
            ("Rolls 12, loaves 4", None),
            ("Bake at 220, turn after 10", None),
            ("flour 250", None),
            ("Oven 220, time 20", None),
            ("flour 250 g, water 200 g", None),
        ] {
            assert_eq!(items(line, false).as_deref(), wanted, "{line}");
        }
        assert_eq!(items("samphire 20, dulse 30", false), None);
        assert_eq!(items("samphire 20, dulse 30", true).as_deref(), Some("samphire 20 | dulse 30"));
    }

    #[test]
    fn a_few_of_what_comes_in_pieces_are_pieces() {
        for (piece, wanted) in [
            ("eggs 2", true),
            ("eggs 110", false),
            ("flour 2", false),
            ("lemon 1", true),
            ("yeast 7", false),
            ("egg 1.5", false),
        ] {
            assert_eq!(bare(piece).map(|bare| bare.is_in_pieces()), Some(wanted), "{piece}");
        }
    }
}
