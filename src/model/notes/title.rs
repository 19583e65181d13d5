//! A title with a number in it: `Naan, for 10`, `Ciabatta x8`, `Stollen 2 x 1 kg`, `Oat bread | yield 2.05 kg | 2 loaves`.

use super::ingredient;
use super::kinds;
use super::measure::measure;
use super::strength::kind;
use super::words;
use crate::language::syntax::Key;
use crate::measure::number::Number;
use crate::model::kind::Kind;
use crate::model::larder::Larder;

/// What is baked and not put into something, by any word of its name.
#[rustfmt::skip]
const BAKED: &[&str] = &[
    "naan", "naans", "ciabatta", "ciabattas", "stollen", "brioche", "brioches", "focaccia", "panettone", "challah", "babka", "pita",
    "pitas", "pitta", "pittas", "kugelhopf", "gugelhupf", "sourdough", "bloomer", "cob", "batch", "fougasse", "lavash", "roti", "chapati",
    "chapatis", "paratha", "parathas", "meringues", "shortbread", "gingerbread", "flapjacks", "brownies", "blondies", "madeleines",
    "macarons", "macaroons", "eclairs", "profiteroles", "danish", "strudel", "quiche", "lasagne", "sandwich", "baps", "pastries",
];
/// What parts a title from what is said of it.
const JOINTS: [char; 8] = ['|', '~', '\u{2013}', '\u{2014}', ',', '(', ')', ':'];
/// Words before a number of pieces.
const BEFORE: [&str; 10] = ["for", "x", "\u{d7}", "makes", "make", "yield", "yields", "batch", "of", "about"];

/// The name in a title, and what it says that is made, as the language says it.
pub(super) struct Titled {
    pub(super) name: String,
    pub(super) makes: Option<String>,
}

/// Whether a name is that of something baked, by any of its words.
pub(super) fn is_of_something_baked(name: &str) -> bool {
    words::all_of(name).any(|word| BAKED.contains(&word.as_str()) || kinds::is_product(&word))
}

/// Reads a first line that holds a number; `None` where it is an ingredient, or no title. `alone`: nothing stands right below it.
pub(super) fn numbered(bare: &str, alone: bool) -> Option<Titled> {
    let figure = first_figure(bare).filter(|at| *at > 0)?;
    let (before, behind) = bare.split_at_checked(figure)?;
    let joint = before.find(JOINTS).or_else(|| before.find(" - "));
    let head = before.get(..joint.unwrap_or(before.len()))?;
    let (name, last_joint) = without_last(head);
    let name = words::name(name);
    if !name.chars().any(char::is_alphabetic) {
        return None;
    }
    let is_baked = is_of_something_baked(&name);
    let (amount, rest) = measure(behind)?;
    // `Marmalade 2024`: nobody takes two thousand of anything.
    if joint.is_none() && is_year(behind) && !may_be_weighed(&name, behind) {
        return Some(Titled { name: words::name(bare), makes: None });
    }
    let is_weight = amount.is_quantity() && rest.trim_matches(['.', ')', ' ']).is_empty();
    // `Rye bread 500 g` above an ingredient is one.
    let is_title = if alone { is_baked || !ingredient::is_known(&name) && !is_weight } else { is_baked && !is_weight };
    if !is_title {
        return None;
    }
    let joined = joint.is_some() || last_joint.is_some_and(|word| word != "for" && word != "of");
    let tail = bare.get(joint.unwrap_or(head.len())..).unwrap_or_default();
    let pieces = joined_thousands(&tail.replace(" - ", "|"));
    let segments = || pieces.split(JOINTS).map(without_first).filter(|said| said.contains(char::is_numeric));
    let makes = segments().find_map(|said| pieces_of(said, joined, is_baked));
    // `Croissant dough - 2,000 g flour`: how much of it all is for.
    let of_the_whole = |word: String| ["flour", "dough", "mix", "batch", "total", "of"].contains(&word.as_str());
    let whole = amount.is_quantity() && rest.contains(char::is_alphabetic) && words::all_of(rest).all(of_the_whole);
    if makes.is_none() && whole && (is_baked || !ingredient::is_known(&name)) {
        return Some(Titled { name, makes: None });
    }
    // Less than a title of pieces is not believed right above a list.
    if makes.is_none() && !alone {
        return None;
    }
    match makes {
        Some(makes) => Some(Titled { name, makes: Some(makes) }),
        None => Some(Titled { name: words::name(bare), makes: None }),
    }
}

/// A title with what it makes said behind it, `Samosas, makes 16`: the name, what it makes, and what was guessed.
pub(super) fn with_what_it_makes(bare: &str) -> Option<(&str, String, Option<String>)> {
    let joints = [", ", " - ", " \u{2013} ", " \u{2014} ", " | ", "; "];
    let places = joints.iter().flat_map(|joint| bare.match_indices(joint).map(|(at, joint)| (at, joint.len())));
    places.into_iter().find_map(|(at, length)| {
        let (name, said) = (bare.get(..at)?, bare.get(at + length..)?);
        let first = words::all_of(said).next()?;
        let says = ["makes", "yields", "yield", "serves", "gives", "fills", "feeds"].contains(&first.as_str());
        let named = name.chars().any(char::is_alphabetic) && !name.contains(char::is_numeric);
        let (makes, look) = kinds::says_makes(said).filter(|_| says && named)?;
        Some((name, makes, Some(read_from_the_title(look))))
    })
}

/// Whether a title says for how many it is: `Chicken pie for 6`, `Ferry cake for 6 people`. A figure in a name is none of pieces, but it is to
/// be looked at.
pub(super) fn is_for_so_many(bare: &str) -> bool {
    let behind = bare.rsplit_once(" for ").map(|(_, behind)| behind);
    behind.is_some_and(|behind| kinds::says_makes(&format!("for {behind}")).is_some())
}

fn read_from_the_title(look: Option<String>) -> String {
    let read = "read from the title".to_owned();
    look.map_or(read.clone(), |look| format!("{read}; {look}"))
}

/// Whether a number at the start of a title counts nothing: `5 seed bread` is one bread.
pub(super) fn counts_nothing(bare: &str) -> bool {
    let many =
        measure(bare).filter(|(count, _)| count.unit.is_none() && count.value.is_some_and(|many| many > Number::ONE));
    let words: Vec<String> = words::all_of(bare).collect();
    let single = words.last().is_some_and(|last| {
        kinds::is_product(last) && !last.ends_with('s') && !["people", "pc"].contains(&last.as_str())
    });
    many.is_some() && words.len() > 1 && single && bare.starts_with(|c: char| c.is_ascii_digit())
}

/// Whether the words behind the comma of a title say of which kind it is, and not how something that goes in is prepared: `Apple butter,
/// US style`.
pub(super) fn says_what_kind(bare: &str) -> bool {
    let Some((name, behind)) = bare.split_once(", ") else { return false };
    let manner = |word: String| {
        super::manner::MANNERS.contains(&word.as_str())
            || super::manner::DONE.contains(&word.as_str())
            || word.ends_with("ed")
    };
    let first = words::all_of(behind).next().unwrap_or_default();
    bare.starts_with(char::is_uppercase)
        && !bare.contains(char::is_numeric)
        && name.split_whitespace().count() > 1
        && !["to", "for", "as", "or", "and", "optional"].contains(&first.as_str())
        && !words::all_of(behind).any(manner)
}

/// Whether a number may be grams of a list whose units nobody wrote: `Flour 2000`, `Sugar 1950`. What is bought as well as made, marmalade, is not
/// weighed to the gram in kilos.
fn may_be_weighed(name: &str, number: &str) -> bool {
    let facts = Larder::new().find(&Key::new(name));
    let is_staple = matches!(
        kind(name, facts.as_deref()),
        Kind::Flour | Kind::Water | Kind::Milk | Kind::Sugar | Kind::Salt | Kind::Fat | Kind::Egg | Kind::Liquid
    );
    is_staple || facts.is_some() && number.ends_with('0')
}

/// Whether a text is the number of a year and nothing else.
fn is_year(text: &str) -> bool {
    text.len() == 4 && text.parse::<u16>().is_ok_and(|year| (1900..2100).contains(&year))
}

/// Where the first word stands that is a figure, alone or behind `x`.
fn first_figure(bare: &str) -> Option<usize> {
    let mut before = ' ';
    let mut earlier = ' ';
    for (at, character) in bare.char_indices() {
        let behind_times = matches!(before, 'x' | '\u{d7}') && earlier == ' ';
        if character.is_ascii_digit() && (matches!(before, ' ' | '(' | '~' | '@') || behind_times) {
            return Some(at);
        }
        (earlier, before) = (before, character);
    }
    None
}

/// A text in which no comma stands between thousands.
fn joined_thousands(text: &str) -> String {
    let characters: Vec<char> = text.chars().collect();
    let digit = |at: usize| characters.get(at).is_some_and(char::is_ascii_digit);
    let between = |at: usize| at > 0 && digit(at - 1) && (1..=3).all(|next| digit(at + next)) && !digit(at + 4);
    characters.iter().enumerate().filter(|(at, c)| **c != ',' || !between(*at)).map(|(_, c)| *c).collect()
}

/// A text without the words behind it that lead to a number, and the last of them.
fn without_last(text: &str) -> (&str, Option<&'static str>) {
    let mut bare = text.trim_end();
    let mut last = None;
    while let Some((name, word)) =
        BEFORE.iter().find_map(|word| Some((bare.strip_suffix(word).filter(|name| name.ends_with(' '))?, *word)))
    {
        last = last.or(Some(word));
        bare = name.trim_end();
    }
    (bare, last)
}

/// What is said of a title without the words that lead to its number.
fn without_first(text: &str) -> &str {
    let mut bare = text.trim();
    while let Some(rest) = BEFORE.iter().find_map(|word| {
        bare.strip_prefix(word)
            .filter(|rest| rest.starts_with(' ') || *word == "x" && rest.starts_with(char::is_numeric))
    }) {
        bare = rest.trim_start();
    }
    bare
}

/// `6 balls @ 270 g`, `2 x 1 kg`, `2 loaves`, and, where a sign parts it from the name, `10`.
fn pieces_of(said: &str, joined: bool, is_baked: bool) -> Option<String> {
    let (count, rest) = measure(said)?;
    // A year, a share of flours, a date.
    let plain = said
        .split([' ', 'x', '@'])
        .next()
        .is_some_and(|word| word.trim_end_matches('s').trim_end_matches("pc").chars().all(|c| c.is_ascii_digit()));
    let few = count.value.is_some_and(|many| many.is_whole() && many.is_positive() && many < Number::whole(1900));
    if !plain || !few || count.is_quantity() || count.known().is_some() {
        return None;
    }
    let rest = format!("{}{rest}", count.word);
    let rest = rest.trim().trim_end_matches('.');
    let each = ["@", " at ", " of ", "x ", "\u{d7}", " x "].iter().find_map(|mark| {
        let (noun, each) = rest.split_once(mark)?;
        let (each, behind) = measure(each)?;
        (each.is_mass() && behind.trim_end_matches([')', ' ', '.']).is_empty()).then_some(noun.trim())
    });
    let noun = each.unwrap_or(rest).trim_end_matches(" each").trim();
    let last = words::all_of(noun).last().unwrap_or_default();
    let is_noun = kinds::is_product(&last) && noun.split_whitespace().count() <= 3 && !noun.contains(char::is_numeric);
    let many = count.value?.to_whole()?;
    match (noun.is_empty(), each.is_some()) {
        (true, true) => Some(format!("makes {many} pieces")),
        (true, false) => joined.then(|| format!("makes {many} pieces")),
        (false, _) => (is_noun && (joined || each.is_some() || is_baked && last != "people"))
            .then(|| format!("makes {many} {}", words::name(noun))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_in_a_title_is_one_of_pieces_or_stays_in_the_name() {
        for (line, alone, wanted) in [
            ("Naan, for 10", false, Some(("Naan", Some("makes 10 pieces")))),
            ("Ciabatta x8", false, Some(("Ciabatta", Some("makes 8 pieces")))),
            ("Pizza dough for 6 balls @ 270g", true, Some(("Pizza dough", Some("makes 6 balls")))),
            ("Stollen 2 x 1kg", true, Some(("Stollen", Some("makes 2 pieces")))),
            ("brioche nanterre 3 tins", true, Some(("brioche nanterre", Some("makes 3 tins")))),
            (
                "Overnight oats bread | yield 2.05 kg | 2 loaves",
                true,
                Some(("Overnight oats bread", Some("makes 2 loaves"))),
            ),
            (
                "Wholemeal sandwich  (batch 14 loaves × 880g)",
                true,
                Some(("Wholemeal sandwich", Some("makes 14 loaves"))),
            ),
            ("Ferry cake for 6 people", true, Some(("Ferry cake for 6 people", None))),
            ("Christmas 2025 biscuits", true, Some(("Christmas 2025 biscuits", None))),
            ("Seal loaf 80/20 bread", true, Some(("Seal loaf 80/20 bread", None))),
            ("Flour 500 g", true, None),
            ("Croissant dough - 2,000 g flour", false, Some(("Croissant dough", None))),
            ("CIABATTA 10 KG FLOUR", false, Some(("CIABATTA", None))),
            ("Naan 10pc", false, Some(("Naan", Some("makes 10 pc")))),
            ("Rye bread 500 g", false, None),
            ("mystery powder 7 g", true, None),
            ("Marmalade 2024", false, Some(("Marmalade 2024", None))),
            ("Flour 1900 g", false, None),
            ("Flour 2000", false, None),
            ("Milk 1950", false, None),
            ("T65 baguettes", true, None),
            ("500 g bread flour", true, None),
        ] {
            let titled = numbered(line, alone);
            let got = titled.as_ref().map(|titled| (titled.name.as_str(), titled.makes.as_deref()));
            assert_eq!(got, wanted, "{line}");
        }
    }
}
