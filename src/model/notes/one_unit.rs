//! A unit that notes say once for all their numbers: `All in grams`, `Country loaf (weights in g)`, `Biga (g): flour 300, water 150`.

use super::amount::{self, Unit};
use super::bare_list::{self, Bare, bare, in_a_line};
use super::kinds;
use super::unweighed::is_known;
use super::words;

/// Words that say with a unit that it is that of all numbers.
#[rustfmt::skip]
const OF_ALL: [&str; 23] = [
    "all", "amounts", "amount", "weights", "weight", "quantities", "figures", "numbers", "ingredients", "measurements", "measures",
    "everything", "alles", "alle", "angaben", "mengen", "gewichte", "quantit\u{e9}s", "poids", "tout", "pesi", "cantidades", "units",
];
/// Words that stand among them and say no more.
#[rustfmt::skip]
const BESIDE: [&str; 22] = [
    "in", "is", "are", "the", "given", "by", "unless", "otherwise", "stated", "said", "noted", "specified", "marked", "here", "below",
    "en", "dans", "sind", "sont", "les", "of", "and",
];

/// A longer line says more than a unit.
const LONGEST: usize = 200;

/// A unit, and the words that say it.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Said {
    unit: &'static str,
    words: String,
}

/// Writes the unit that was said once behind each number below it that has none; gives what is to be told of that: the words, and why to look
/// at them, if anything is in doubt.
pub(super) fn written_out(lines: &mut Vec<String>) -> Vec<(String, Option<String>)> {
    let is_said = |line: &String| said_in(line).is_some() || said_behind_a_list(line).is_some();
    if !lines.iter().any(is_said) {
        return Vec::new();
    }
    let before = lines.clone();
    bare_list::told_apart(lines, true);
    let mut told: Vec<(Said, Vec<String>)> = Vec::new();
    let mut whole: Option<usize> = None;
    let mut unit: Option<usize> = None;
    let mut kept = Vec::with_capacity(lines.len());
    for line in lines.iter() {
        // `Sugar 450, cream 300 (g). Boil to 116 C.`
        if let Some((list, said, behind)) = said_behind_a_list(line) {
            told.push((said, Vec::new()));
            kept.push((list, Some(told.len() - 1)));
            kept.extend(behind.map(|behind| (behind, unit)));
            continue;
        }
        let Some((said, rest)) = said_in(line) else {
            kept.push((of_its_own(line).unwrap_or_else(|| line.clone()), unit));
            continue;
        };
        told.push((said, Vec::new()));
        let at = told.len() - 1;
        unit = Some(at);
        // What stands by itself, below the list as well, is said of all.
        if rest.is_empty() {
            whole = whole.or(Some(at));
        } else {
            kept.push((rest, unit));
        }
    }
    let mut numbers = false;
    let written: Vec<String> = kept
        .into_iter()
        .map(|(line, unit)| {
            let said = unit.or(whole).and_then(|at| told.get_mut(at));
            let with_its_unit = said.and_then(|(said, pieces)| with_unit(&line, said.unit, pieces));
            numbers |= with_its_unit.is_some();
            with_its_unit.unwrap_or(line)
        })
        .collect();
    // Where each number has its own unit, the words stay where they are.
    if !numbers {
        *lines = before;
        return Vec::new();
    }
    *lines = written;
    let mut known: Vec<String> = Vec::new();
    told.into_iter()
        .filter(|(said, pieces)| {
            let is_new = !pieces.is_empty() || !known.contains(&said.words);
            known.push(said.words.clone());
            is_new
        })
        .map(|(said, pieces)| {
            let doubt = (!pieces.is_empty())
                .then(|| format!("numbers without a unit are read so, and as pieces: {}", pieces.join(", ")));
            (said.words, doubt)
        })
        .collect()
}

/// A list with a unit in brackets behind it that is that of its numbers, and what is told then.
fn said_behind_a_list(line: &str) -> Option<(String, Said, Option<String>)> {
    let (list, rest) = line.split_once(" (").filter(|_| line.len() <= LONGEST)?;
    let (inside, behind) = rest.split_once(')')?;
    let unit = unit_of_all(inside, true)?;
    let (bare_list, _) = words::without_mark(list, 0);
    in_a_line(bare_list, true)?;
    let behind = behind.trim_start_matches(['.', ',', ';', ' ']);
    let said = Said { unit, words: inside.trim().to_owned() };
    Some((bare_list.to_owned(), said, (!behind.is_empty()).then(|| behind.to_owned())))
}

/// What a line says of the unit of all numbers, and the line without that.
fn said_in(line: &str) -> Option<(Said, String)> {
    let of = |words: &str, in_brackets: bool| {
        unit_of_all(words, in_brackets).map(|unit| Said { unit, words: words.trim().to_owned() })
    };
    if line.len() > LONGEST || line.contains('|') {
        return None;
    }
    // `Country loaf (all weights in g)`, `Biga (g): flour 300, water 150`.
    if let Some((before, rest)) = line.split_once('(')
        && let Some((inside, behind)) = rest.split_once(')')
        && !before.contains(char::is_numeric)
        && (behind.trim_matches([':', '*', '#', ' ', '_']).is_empty() || behind.starts_with(':'))
        && of_its_own(line).is_none()
        && !is_known(before.trim())
        && let Some(said) = of(inside, true)
    {
        return Some((said, format!("{}{behind}", before.trim_end())));
    }
    let bare = line.trim().trim_start_matches(['#', '*', '-', '(', ' ']).trim_end_matches(['.', ')', '*', ':', ' ']);
    if let Some(said) = of(bare, false) {
        return Some((said, String::new()));
    }
    // `Brioche. Quantities are in grams unless stated.`
    if let Some((before, last)) = line.trim().trim_end_matches('.').rsplit_once([',', '.', ';', '\u{2013}', '\u{2014}'])
        && !before.contains(char::is_numeric)
        && !before.trim().is_empty()
        && let Some(said) = of(last, false)
    {
        return Some((said, before.trim().to_owned()));
    }
    // `Baguette in kg`.
    let (before, last) = line.trim().trim_end_matches(':').rsplit_once(" in ")?;
    let unit = weight(last)?;
    let is_name =
        !before.contains(char::is_numeric) && before.split_whitespace().count() <= 6 && !before.contains(['.', ',']);
    is_name.then(|| (Said { unit, words: format!("in {}", last.trim()) }, before.to_owned()))
}

/// `Flour (g): 500`: a unit of this number alone, behind it.
fn of_its_own(line: &str) -> Option<String> {
    let (name, rest) = line.split_once('(')?;
    let (inside, behind) = rest.split_once(')')?;
    let figure = behind.trim_start_matches([':', ' ']);
    let (_, after) = amount::figure(figure).filter(|_| figure.starts_with(char::is_numeric))?;
    let unit = weight(inside)?;
    after.trim().is_empty().then(|| format!("{}: {} {unit}", name.trim_end(), figure.trim()))
}

/// The unit of which words say that all numbers are in it, and nothing else.
fn unit_of_all(text: &str, in_brackets: bool) -> Option<&'static str> {
    let all: Vec<String> = words::all_of(text).collect();
    let mut units = all.iter().filter_map(|word| weight(word));
    let unit = units.next().filter(|unit| units.all(|other| other == *unit))?;
    let plain = all
        .iter()
        .all(|word| weight(word).is_some() || OF_ALL.contains(&word.as_str()) || BESIDE.contains(&word.as_str()));
    let of_all = all.iter().any(|word| OF_ALL.contains(&word.as_str()));
    (plain && !text.contains(char::is_numeric) && all.len() <= 9 && (of_all || in_brackets)).then_some(unit)
}

/// The unit of weight that a word is.
fn weight(word: &str) -> Option<&'static str> {
    let word = word.trim().trim_end_matches(['.', ')']).to_lowercase();
    let word = match word.as_str() {
        "gramms" | "grammen" | "grams." => "g",
        // A litre's letter, or a spoon's, is no word of its own.
        other if other.len() == 1 && other != "g" => return None,
        other => other,
    };
    match amount::unit(word) {
        Some((Unit::Known(unit @ ("g" | "kg" | "oz" | "lb")), _, "")) => Some(unit),
        _ => None,
    }
}

/// A line of a list with the unit behind each of its numbers that has none; `None` for any other line. What is of pieces goes into `pieces`.
fn with_unit(line: &str, unit: &'static str, pieces: &mut Vec<String>) -> Option<String> {
    let (indented, _) = words::without_mark(line, 0);
    let in_cells = cells(indented);
    let bare_line = in_cells.as_deref().unwrap_or(indented).trim_end_matches(['.', ',', ';']);
    if let Some(list) = in_a_line(bare_line, true) {
        let items =
            list.items.iter().map(|item| item_with_unit(item, unit, pieces)).collect::<Vec<String>>().join(", ");
        return Some(list.heading.map_or_else(|| items.clone(), |heading| format!("{heading}: {items}")));
    }
    let (heading, item) = match bare_line.split_once(": ") {
        // `Topping: seeds 20`.
        Some((heading, item)) if kinds::names_a_part(heading) && bare_item(item).is_some() => (Some(heading), item),
        _ => (None, bare_line),
    };
    bare_item(item)?;
    let item = item_with_unit(item, unit, pieces);
    Some(heading.map_or_else(|| item.clone(), |heading| format!("{heading}: {item}")))
}

/// A row of two cells, `| flour | 900 |`, as a line of a list.
fn cells(line: &str) -> Option<String> {
    let (name, number) = line.trim_matches(['|', ' ']).split_once('|').filter(|(_, number)| !number.contains('|'))?;
    Some(format!("{} {}", name.trim(), number.trim()))
}

/// The item at the start of a text, behind which words without figures may stand.
fn bare_item(text: &str) -> Option<Bare<'_>> {
    let pieces = bare_list::pieces(text);
    let (first, others) = pieces.split_first()?;
    let plain = others.iter().all(|other| !other.contains(char::is_numeric));
    plain.then(|| bare(first)).flatten()
}

fn item_with_unit(item: &str, unit: &'static str, pieces: &mut Vec<String>) -> String {
    // `poolish all` has no number.
    if let Some(name) = item.strip_suffix(" all") {
        return format!("all the {name}");
    }
    let Some(found) = bare_item(item) else { return item.to_owned() };
    if found.is_in_pieces() && unit != "kg" && unit != "lb" {
        pieces.push(format!("{} {}", found.name, found.figure));
        return item.to_owned();
    }
    match item.split_at_checked(found.end) {
        Some((before, behind)) => format!("{before} {unit}{behind}"),
        None => item.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn written(notes: &str) -> (Vec<String>, Vec<(String, Option<String>)>) {
        let mut lines: Vec<String> = notes.lines().map(str::to_owned).collect();
        let told = written_out(&mut lines);
        (lines, told)
    }

    #[test]
    fn a_unit_said_once_is_that_of_every_bare_number() {
        for (notes, wanted) in [
            (
                "All in grams\nflour 900\nwater 600, warm\n5 g salt",
                vec!["flour 900 g", "water 600 g, warm", "5 g salt"],
            ),
            ("Loaf (all weights in g)\n- Flour: 900\nLeaven 200", vec!["Loaf", "Flour: 900 g", "Leaven 200 g"]),
            ("Baguette in kg\nflour 10\nwater 6.8", vec!["Baguette", "flour 10 kg", "water 6.8 kg"]),
            (
                "Biga (g): flour 300; water 150\nDough (g): biga all; flour 700; water 600",
                vec!["Biga: flour 300 g, water 150 g", "Dough: all the biga, flour 700 g, water 600 g"],
            ),
            (
                "Brioche. Quantities are in grams unless stated.\n500 strong flour\n6 eggs",
                vec!["Brioche", "500 g strong flour", "6 eggs"],
            ),
            (
                "Sugar 450, cream 300 (g). Boil to 116C, beat 5 min.",
                vec!["Sugar 450 g, cream 300 g", "Boil to 116C, beat 5 min."],
            ),
            (
                "All in g\nPoolish: flour 250, water 250. Mix 5 min.",
                vec!["Poolish: flour 250 g, water 250 g", "Mix 5 min."],
            ),
            ("Ingredients (g)\nflour 900\nwater 600", vec!["Ingredients", "flour 900 g", "water 600 g"]),
            ("flour 900\nwater 600\n* weights in g", vec!["flour 900 g", "water 600 g"]),
            (
                "amounts g\nflour 1000 water 800 salt 25\nMix 10\nOven 220",
                vec!["flour 1000 g, water 800 g, salt 25 g", "Mix 10", "Oven 220"],
            ),
        ] {
            assert_eq!(written(notes).0, wanted, "{notes}");
        }
        let (_, told) = written("All in grams\nflour 900\neggs 2\nmilk 2 tbsp");
        assert_eq!(told.len(), 1);
        assert!(told.iter().all(
            |(words, doubt)| words == "All in grams" && doubt.as_deref().is_some_and(|why| why.ends_with("eggs 2"))
        ));
    }

    #[test]
    fn other_words_say_no_unit_of_all() {
        for notes in [
            "Loaf\nflour 900 g\nwater 600",
            "Butter (oz)",
            "Weigh all in grams and mix 10 min",
            "Flour in kg bags 900",
            "Bread in 500 g tins\nflour 900",
            "Loaf\nwater (kg)\nflour 900",
        ] {
            let said = written(notes).1;
            assert!(said.is_empty(), "{notes}: {said:?}");
        }
    }
}
