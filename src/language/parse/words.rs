//! The key words: which words begin a line, in which files, by which rule it is read, how it reads, and what an editor
//! offers. The parser, the problems of lines that cannot be read, completion and tidying all ask this table.

mod log_lines;

use super::Rule;
use crate::language::syntax::FileKind::{self, Day, Kitchen, Recipe};

/// Where an editor offers a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Place {
    /// In a file that does not say yet what it is.
    Title,
    /// Before the first part of a recipe.
    Head,
    /// In a part.
    Part,
    /// In a kitchen or a larder.
    Pantry,
    /// In a day.
    Day,
    /// In a log of bakes.
    Log,
}

/// Lines of one rule.
struct KeyLine {
    rule: Rule,
    /// In which files they may stand, and the words that can begin them there.
    begins: &'static [(FileKind, &'static [&'static str])],
    /// What such a line is called in a problem.
    what: &'static str,
    /// How it reads.
    form: &'static str,
    /// What is offered where, and what it is for.
    offers: &'static [(Place, &'static str, &'static str)],
}

const fn line(
    rule: Rule,
    begins: &'static [(FileKind, &'static [&'static str])],
    what: &'static str,
    form: &'static str,
    offers: &'static [(Place, &'static str, &'static str)],
) -> KeyLine {
    KeyLine { rule, begins, what, form, offers }
}

/// All key words, in the order in which they are told to somebody who asks what can be said.
const LINES: &[KeyLine] = &[
    line(
        Rule::titled_line,
        &[(Recipe, &["recipe"]), (Kitchen, &["kitchen", "ingredient"]), (Day, &["day"])],
        "this line",
        "`recipe NAME`, `kitchen NAME`, `day NAME` or `ingredient NAME`",
        &[
            (Place::Title, "recipe ", "a recipe"),
            (Place::Title, "kitchen ", "a kitchen"),
            (Place::Title, "day ", "a day"),
            (Place::Title, "ingredient ", "a larder block"),
            (Place::Pantry, "kitchen ", "a kitchen"),
            (Place::Pantry, "ingredient ", "a larder block"),
        ],
    ),
    line(
        Rule::part_line,
        &[(Recipe, &["part"])],
        "`part`",
        "`part NAME`, or `part NAME, from OTHER PART` for a preferment",
        &[(Place::Part, "part ", "begins a part")],
    ),
    line(
        Rule::percent_line,
        &[(Recipe, &["percent"])],
        "`percent`",
        "`percent of flour`, `percent of total` or `percent of NAME`",
        &[(Place::Part, "percent of ", "what 100 % is")],
    ),
    line(
        Rule::per_piece_line,
        &[(Recipe, &["per"])],
        "`per`",
        "`per piece`, or `per small` for the pieces of one sort",
        &[(Place::Part, "per piece", "amounts are for one piece")],
    ),
    line(
        Rule::divide_line,
        &[(Recipe, &["divide"])],
        "`divide`",
        "`divide 24 x 78 g` or `divide 24 x 450 g small and 36 x 900 g large`, with `, loss 1.5 %` behind it where some is lost",
        &[(Place::Part, "divide ", "pieces made of this part")],
    ),
    line(
        Rule::makes_line,
        &[(Recipe, &["makes"])],
        "`makes`",
        "`makes 24 buns` or `makes 12 kg`, with `, loss 3 %`, `, tin 23 cm x 13 cm x 7 cm` or `, bake loss 12 %` behind it",
        &[(Place::Head, "makes ", "the batch as written"), (Place::Part, "makes ", "what comes out")],
    ),
    line(
        Rule::keeps_line,
        &[(Recipe, &["keeps"])],
        "`keeps`",
        "`keeps 2 days`, with `, chilled`, `, frozen` or `, at 18 C` behind it",
        &[(Place::Part, "keeps ", "longest time to its use")],
    ),
    line(
        Rule::spare_line,
        &[(Recipe, &["spare"])],
        "`spare`",
        "`spare 60 g`",
        &[(Place::Part, "spare ", "meant to be left over")],
    ),
    line(
        Rule::aim_line,
        &[(Recipe, &["aim"])],
        "`aim`",
        "`aim hydration 66-68 %`, `aim sugar at most 8 % of total`, `aim fat 12 % of total` or `aim cost at most 0.45 each`",
        &[
            (Place::Head, "aim ", "what the whole must hold, under every choice"),
            (Place::Part, "aim ", "what the part must hold"),
        ],
    ),
    line(
        Rule::desired_line,
        &[(Recipe, &["desired"])],
        "`desired`",
        "`desired temperature 25 C`",
        &[(Place::Part, "desired temperature ", "of the dough at the end of the mix")],
    ),
    line(
        Rule::use_line,
        &[(Recipe, &["use"]), (Kitchen, &["use"]), (Day, &["use"])],
        "`use`",
        "`use \"path.miche\"`",
        &[
            (Place::Head, "use \"", "a kitchen, a larder or another recipe"),
            (Place::Pantry, "use \"", "another kitchen or larder"),
            (Place::Day, "use \"", "the kitchen"),
        ],
    ),
    line(
        Rule::choose_line,
        &[(Recipe, &["choose"])],
        "`choose`",
        "`choose NAME: A or B`",
        &[(Place::Head, "choose ", "method alternatives")],
    ),
    line(
        Rule::measures_line,
        &[(Recipe, &["measures"])],
        "`measures`",
        "`measures US`, `measures metric` or `measures imperial`",
        &[(Place::Head, "measures ", "which cup and spoon")],
    ),
    line(
        Rule::ready_line,
        &[(Day, &["ready"])],
        "`ready`",
        "`ready 2026-12-05 15:00`",
        &[(Place::Day, "ready ", "when everything is wanted")],
    ),
    line(
        Rule::make_line,
        &[(Day, &["make"])],
        "`make`",
        "`make 48 of \"buns.miche\"`, with `, choose OPTION` or `, ready DATE TIME` behind it",
        &[(Place::Day, "make ", "an order")],
    ),
    line(
        Rule::store_line,
        &[(Day, &["store"])],
        "`store`",
        "`store 3.2 kg of jam of \"doughnuts.miche\"`, with `, made DATE` behind it",
        &[(Place::Day, "store ", "what there is already of a part")],
    ),
    line(
        Rule::stock_line,
        &[(Day, &["stock"])],
        "`stock`",
        "`stock \"stock.txt\"`",
        &[(Place::Day, "stock \"", "a list of what there is: only what is lacking is bought")],
    ),
    line(
        Rule::text_line,
        &[(Recipe, TEXTS), (Kitchen, TEXTS), (Day, TEXTS)],
        "a text for the cards",
        "`note TEXT`, `caution TEXT` or `credit TEXT`",
        &[
            (Place::Head, "credit ", "where it comes from"),
            (Place::Part, "note ", "printed on the cards"),
            (Place::Part, "caution ", "printed on the cards"),
            (Place::Pantry, "note ", ""),
            (Place::Pantry, "caution ", ""),
            (Place::Pantry, "credit ", "where it comes from"),
            (Place::Day, "note ", ""),
            (Place::Day, "caution ", ""),
            (Place::Day, "credit ", "where it comes from"),
        ],
    ),
    line(
        Rule::cooks_line,
        &[(Kitchen, &["cooks"])],
        "`cooks`",
        "`cooks 2`",
        &[(Place::Pantry, "cooks ", "how many people work")],
    ),
    line(
        Rule::cook_line,
        &[(Kitchen, &["cook"])],
        "`cook`",
        "`cook Mara 22:00-06:00`, with `, on Tue-Sat`, `, rests 30 min` or `, longest 9 h` behind it",
        &[(Place::Pantry, "cook ", "somebody by name, with their hours")],
    ),
    line(
        Rule::longest_line,
        &[(Kitchen, &["longest"])],
        "`longest`",
        "`longest 9 h`",
        &[(Place::Pantry, "longest ", "the longest that anybody works in a day")],
    ),
    line(
        Rule::open_line,
        &[(Kitchen, &["open"])],
        "`open`",
        "`open 07:00-21:00`, or `open 22:00-14:00` through midnight",
        &[(Place::Pantry, "open ", "when work can be done")],
    ),
    line(
        Rule::scale_line,
        &[(Kitchen, &["scale", "fine"])],
        "`scale`",
        "`scale 1 g`, or `fine scale 0.1 g, up to 200 g`",
        &[
            (Place::Pantry, "scale ", "the smallest step of the scale"),
            (Place::Pantry, "fine scale ", "the scale for small amounts"),
        ],
    ),
    line(
        Rule::weighs_line,
        &[(Kitchen, &["weighs"])],
        "`weighs`",
        "`weighs 245 g per cup US` or `weighs 1.03 g per ml`",
        &[(Place::Pantry, "weighs ", "weight of a volume")],
    ),
    line(
        Rule::one_weighs_line,
        &[(Kitchen, &["one"])],
        "`one weighs`",
        "`one weighs 50 g`",
        &[(Place::Pantry, "one weighs ", "weight of a piece")],
    ),
    line(
        Rule::fact_line,
        &[(Kitchen, &["water", "fat", "salt", "sugar", "protein", "carbohydrate", "fibre", "acid", "yield"])],
        "a figure of the larder",
        "`water 88 %`",
        &[
            (Place::Pantry, "water ", "share of water"),
            (Place::Pantry, "fat ", "share of fat"),
            (Place::Pantry, "salt ", "share of salt"),
            (Place::Pantry, "sugar ", "share of sugar"),
            (Place::Pantry, "protein ", "share of protein"),
            (Place::Pantry, "carbohydrate ", "share of carbohydrate"),
            (Place::Pantry, "fibre ", "share of fibre"),
            (Place::Pantry, "acid ", "share of acid"),
            (Place::Pantry, "yield ", "edible part"),
        ],
    ),
    line(
        Rule::energy_line,
        &[(Kitchen, &["energy"])],
        "`energy`",
        "`energy 364 kcal` (in 100 g)",
        &[(Place::Pantry, "energy ", "in 100 g")],
    ),
    line(
        Rule::is_line,
        &[(Kitchen, &["is"])],
        "`is`",
        "`is salt`, `is instant yeast`: what the ingredient is",
        &[(Place::Pantry, "is ", "what it is: `is salt`, `is instant yeast`")],
    ),
    line(
        Rule::flag_line,
        &[(Kitchen, &["counts", "not", "raw", "ready", "bought"])],
        "this line",
        "`counts as flour`, `not flour`, `raw flour`, `raw egg`, `ready to eat`, `not vegan`, `not vegetarian`, or `bought by the litre`, \
         `by the piece` or `by weight`",
        &[
            (Place::Pantry, "counts as flour", ""),
            (Place::Pantry, "not flour", ""),
            (Place::Pantry, "raw flour", ""),
            (Place::Pantry, "raw egg", ""),
            (Place::Pantry, "ready to eat", ""),
            (Place::Pantry, "not vegan", "of an animal"),
            (Place::Pantry, "not vegetarian", "of a killed animal"),
            (Place::Pantry, "bought by the litre", "how it stands on lists"),
            (Place::Pantry, "bought by the piece", "how it stands on lists"),
            (Place::Pantry, "bought by weight", "how it stands on lists"),
        ],
    ),
    line(
        Rule::names_line,
        &[(Kitchen, &["also", "contains"])],
        "this line",
        "`also called NAME, NAME` or `contains ALLERGEN, ALLERGEN`",
        &[(Place::Pantry, "also called ", "other names"), (Place::Pantry, "contains ", "allergens")],
    ),
    line(
        Rule::costs_line,
        &[(Kitchen, &["costs"])],
        "`costs`",
        "`costs 1.20 per kg`, with `, on 2026-11-01` behind it to say of which day the price is",
        &[(Place::Pantry, "costs ", "a price: `costs 1.20 EUR per kg, on 2026-03-01`")],
    ),
    line(
        Rule::free_line,
        &[(Kitchen, &["source", "section"])],
        "this line",
        "`source TEXT` or `section NAME`",
        &[(Place::Pantry, "source ", "where the figures come from"), (Place::Pantry, "section ", "where in a shop")],
    ),
];

/// All key words, those of a log of bakes among them.
fn all() -> impl Iterator<Item = &'static KeyLine> {
    LINES.iter().chain(log_lines::LINES)
}

/// The words that begin a text for the cards.
const TEXTS: &[&str] = &["note", "caution", "credit"];

impl KeyLine {
    /// The words that can begin it in a file of this kind.
    fn words(&self, kind: FileKind) -> impl Iterator<Item = &'static str> {
        self.begins.iter().filter(move |(of, _)| *of == kind).flat_map(|(_, words)| words.iter().copied())
    }

    /// Whether it is read as such in every file, whatever stands behind the word: titles and texts.
    fn is_anywhere(&self) -> bool {
        matches!(self.rule, Rule::titled_line | Rule::text_line)
    }
}

/// The first word of a line, without a colon or comma behind it.
pub(super) fn first_word(said: &str) -> &str {
    let end = said.find(|c: char| c.is_whitespace() || matches!(c, ':' | ',' | '"' | '.')).unwrap_or(said.len());
    said.get(..end).unwrap_or("")
}

/// The rule of a title or a text, which can stand in any file.
pub(super) fn rule_anywhere(word: &str) -> Option<Rule> {
    let lines = all().filter(|line| line.is_anywhere());
    lines.into_iter().find(|line| line.begins.iter().any(|(_, words)| words.contains(&word))).map(|line| line.rule)
}

/// Whether a word begins a title or a text, whatever the file.
pub(crate) fn is_key_anywhere(word: &str) -> bool {
    rule_anywhere(word).is_some()
}

/// The rule for a line that begins with a word, in a file of this kind.
pub(super) fn rule_for(kind: FileKind, word: &str) -> Option<Rule> {
    all().find(|line| line.words(kind).any(|known| known == word)).map(|line| line.rule)
}

/// Every word that can begin a line of a file of this kind.
pub(super) fn first_words(kind: FileKind) -> impl Iterator<Item = &'static str> {
    all().flat_map(move |line| line.words(kind))
}

/// The words that make a title.
pub(super) fn is_title(word: &str) -> bool {
    rule_anywhere(&word.to_ascii_lowercase()) == Some(Rule::titled_line)
}

/// What a rule is for, and how such a line reads. Three kinds of line begin with no key word.
pub(super) fn form_of(rule: Rule) -> (&'static str, &'static str) {
    match rule {
        Rule::ingredient_line => (
            "an ingredient line",
            "`NAME .... AMOUNT`, then clauses after commas, for example `butter .... 15 %, soft`",
        ),
        Rule::step_line => (
            "the head of a step",
            "`NAME: hands|tend|wait TIME`, then clauses after commas, for example `bake: tend 30 min, using oven at 220 C`",
        ),
        Rule::went_in_line => ("what went in", "`water .... 2.6 kg, at 18 C`, or `butter of filling .... 900 g`"),
        Rule::judged_line => ("a judgement", "`crumb: 4 of 5`, with words behind a comma"),
        Rule::ran_line => (
            "a step of a bake",
            "`mix: 05:34-05:47`, `rise: 05:47-` while it runs or `mix: 13 min`, with `, left at 26.5 C`, `, load 2`, \
             `, came to 98 x 88 g` or `, came to 75.5 g each` behind it; a judgement reads `crumb: 4 of 5, even`",
        ),
        Rule::equipment_line => ("equipment", "`oven x 1`, with `, holds 8 kg` or `, friction 12 C` behind it"),
        _ => LINES
            .iter()
            .find(|line| line.rule == rule)
            .map_or(("this line", "as the reference says"), |line| (line.what, line.form)),
    }
}

/// What an editor offers at a place: the words, and what they are for.
pub(crate) fn lines_at(at: Place) -> impl Iterator<Item = (&'static str, &'static str)> {
    let all = all().flat_map(|line| line.offers);
    all.filter(move |(place, ..)| *place == at).map(|(_, words, about)| (*words, *about))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::language::parse::parse;
    use crate::language::syntax::Content;
    use crate::language::syntax::FileKind::Bakes;
    use crate::language::tidy::tidy;
    use crate::text::source::SourceId;

    const KINDS: [(FileKind, &str, &[Place]); 4] = [
        (Recipe, "recipe Loaf\n", &[Place::Title, Place::Head, Place::Part]),
        (Kitchen, "kitchen Quay\n\ningredient milk\n", &[Place::Title, Place::Pantry]),
        (Day, "day Market\n", &[Place::Title, Place::Day]),
        (Bakes, "bakes of \"loaf.miche\"\n", &[Place::Title, Place::Log]),
    ];

    /// A line that begins with a word, made of how its kind of line reads.
    fn example(line: &KeyLine, word: &str) -> String {
        let forms: Vec<&str> = line.form.split('`').skip(1).step_by(2).collect();
        let first = forms.first().expect("a form shows a line");
        let own = forms.iter().find(|form| first_word(form) == word);
        own.map_or_else(|| first.replacen(first_word(first), word, 1), |own| (*own).to_owned())
    }

    /// Every key word is read, offered, kept by tidying, and known to the problems and to the editors' colours.
    #[test]
    fn everybody_knows_every_key_word() {
        let colours = [
            include_str!("../../../grammar/editors/vim/syntax/miche.vim"),
            include_str!("../../../grammar/editors/miche.tmLanguage.json"),
        ];
        for (kind, title, places) in KINDS {
            for line in all() {
                for word in line.words(kind) {
                    let said = example(line, word);
                    let title = if matches!(line.rule, Rule::titled_line | Rule::bakes_of_line) { "" } else { title };
                    let text = format!("{title}{said}\n");
                    let (tree, problems) = parse(SourceId(0), &text);
                    let read = tree.lines.last().expect("a line");
                    assert!(!matches!(read.content, Content::Stray), "`{said}` is not read: {problems:#?}");
                    assert_eq!(tree.kind, kind, "`{said}`");
                    let untidy = format!("{title}{}   \n", said.replacen(word, &word.to_uppercase(), 1));
                    let tidied = tidy(&untidy, None).expect("what was read can be tidied");
                    assert!(tidied.contains(&said), "`{said}` is not tidied:\n{tidied}");
                    let mut offered = places.iter().flat_map(|place| lines_at(*place));
                    assert!(offered.any(|(words, _)| first_word(words) == word), "`{word}` is not offered");
                    assert!(first_words(kind).any(|known| known == word));
                    for colour in colours {
                        assert!(colour.contains(word), "`{word}` has no colour");
                    }
                }
            }
        }
    }

    /// What is offered begins with a key word of a file in which it is offered.
    #[test]
    fn everything_that_is_offered_is_a_key_word() {
        for (place, words, _) in all().flat_map(|line| line.offers) {
            let kinds = KINDS.iter().filter(|(.., places)| places.contains(place));
            let known = kinds.into_iter().any(|(kind, ..)| rule_for(*kind, first_word(words)).is_some());
            assert!(known, "`{words}` is offered and cannot be read");
        }
    }
}
