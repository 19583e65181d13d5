//! The table of clauses: what can stand behind a comma of which line, how it reads, and what an editor says of it. The problem of
//! a clause that cannot be read and completion ask it.

/// What a clause is said of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Clauses {
    /// An ingredient; behind its comma any other words say how it is prepared.
    Ingredient,
    /// A step.
    Step,
    /// How long a part keeps.
    Keeps,
    /// What a recipe makes, or a part is divided into.
    Makes,
    /// A piece of equipment.
    Equipment,
    /// A scale.
    Scale,
    /// Somebody who works in the kitchen.
    Cook,
    /// What a day makes.
    Make,
    /// What there is on a day already.
    Store,
    /// A page of a book.
    Page,
}

impl Clauses {
    /// How each reads, words to be put in written in capitals; and what it is for.
    fn table(self) -> &'static [(&'static str, &'static str)] {
        match self {
            Clauses::Ingredient => &[
                ("at TEMPERATURE", "how warm it goes in"),
                ("yield PERCENT", "the edible part of what is bought"),
                ("counts as flour", "belongs to the 100 %"),
                ("not flour", "does not belong to the 100 %"),
                ("optional", "may be left out"),
                ("aside", "dusting and greasing: not in the mass of the mix"),
                ("strained out", "goes in and comes out again: not in what the part makes"),
                ("from store", "made earlier: taken and not made"),
                ("leaves NAME PERCENT", "what is left of it: `leaves egg white 190 %`"),
                ("before STEP", "of a part: that step and what comes after it are not done"),
                ("instead: NAME AMOUNT, WORDS", "for readers: what may stand in for it"),
            ],
            Clauses::Step => &[
                ("using EQUIPMENT at TEMPERATURE", "equipment that it holds"),
                ("at TEMPERATURE", "where it stands"),
                ("up to TIME", "how long it may go on"),
                ("each", "the time is for one piece"),
                ("NUMBER at a time", "so many pieces are a load"),
                ("during STEP", "while another step runs"),
                ("TIME into STEP", "so long after another step began"),
                ("before STEP", "any time before another step, whatever the part takes"),
                ("after STEP", "any time after another step"),
                ("straight after STEP", "as soon as another step ends"),
                ("within TIME after STEP", "not longer than a time after another step"),
                ("station NAME", "whose card it prints on"),
                ("people NUMBER", "hands needed at once"),
                ("shared by NUMBER", "how many may divide the work"),
                ("may stand TIME", "how long what it made may stand before the next step"),
            ],
            Clauses::Keeps => &[("chilled", ""), ("frozen", ""), ("at TEMPERATURE", "at a temperature")],
            Clauses::Makes => &[
                ("loss PERCENT", "what sticks, trims and evaporates"),
                ("tin SIZE", "what a piece is baked in: `tin 23 cm x 13 cm x 7 cm`, `tin 2 l`"),
                ("round SIZE", "what a piece is baked in: `round 24 cm x 5 cm`"),
                ("sheet SIZE", "what a piece is baked on: `sheet 60 cm x 40 cm`"),
                ("bake loss PERCENT", "what a piece loses in the oven"),
            ],
            Clauses::Equipment => {
                &[("holds AMOUNT", ""), ("friction DEGREES", ""), ("heating TIME", ""), ("agrees within DEGREES", "")]
            }
            Clauses::Scale => &[("up to WEIGHT", "")],
            Clauses::Cook => &[
                ("on DAYS, for example `on Tue-Sat` or `on Mon and Thu-Sat`", "the days: `on Tue-Sat`"),
                ("rests TIME", "one rest in a shift of over 6 hours"),
                ("longest TIME", ""),
            ],
            Clauses::Make => &[("choose OPTION", "an option"), ("ready DATE TIME", "when")],
            Clauses::Store => &[("made DATE", "the day on which it was made"), ("choose OPTION", "an option")],
            Clauses::Page => &[
                (
                    "sizes NUMBER and NUMBER",
                    "at which sizes it stands: pieces, `x 2` or `2 kg`; the first is the main one",
                ),
                ("choose OPTION", "only this way"),
            ],
        }
    }

    /// How each of them reads.
    pub(in crate::language::parse) fn forms(self) -> Vec<&'static str> {
        self.table().iter().map(|(form, _)| *form).collect()
    }

    /// What an editor offers: the words up to what is to be put in, and what they are for.
    pub(crate) fn offers(self) -> impl Iterator<Item = (&'static str, &'static str)> {
        let words = self.table().iter().map(|(form, about)| (words_of(form), *about));
        words.filter(|(words, _)| !words.is_empty())
    }
}

/// Words of a clause whose figure or name was forgotten: how the clause of an ingredient reads, or that of another line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Begun {
    /// What may stand behind an ingredient's comma.
    OfIngredient(&'static str),
    /// What stands somewhere else.
    OfOther(&'static str),
}

/// Clauses of other lines, and the lines themselves, whose first words nobody writes for how something is prepared: a tin, a sheet and
/// leaves are what is bought.
const OF_OTHERS: [(&str, &str); 8] = [
    ("loss", "loss PERCENT"),
    ("bake loss", "bake loss PERCENT"),
    ("spare", "spare AMOUNT"),
    ("keeps", "keeps TIME"),
    ("makes", "makes AMOUNT"),
    ("divide", "divide NUMBER x WEIGHT"),
    ("up to", "up to TIME"),
    ("using", "using EQUIPMENT at TEMPERATURE"),
];

/// The clause that words behind an ingredient begin and do not end: `yield`, `at`, `loss`.
pub(crate) fn begun_behind_ingredient(words: &str) -> Option<Begun> {
    let words = words.trim();
    let same = |begin: &str| words.eq_ignore_ascii_case(begin.trim_end_matches([' ', ':']));
    // Nearly always the first letter tells already.
    let first = words.as_bytes().first().map(u8::to_ascii_lowercase);
    let may_be = |form: &str| first.is_none() || form.as_bytes().first().map(u8::to_ascii_lowercase) == first;
    // `mint .... 10 g, leaves` is mint without its stalks.
    let takes_more = |form: &str| words_of(form).len() < form.len() && !form.starts_with("leaves");
    let mut own = Clauses::Ingredient.table().iter().map(|(form, _)| *form);
    let own = own.find(|form| may_be(form) && takes_more(form) && same(words_of(form))).map(Begun::OfIngredient);
    own.or_else(|| {
        OF_OTHERS.iter().find(|(begin, _)| may_be(begin) && same(begin)).map(|(_, form)| Begun::OfOther(form))
    })
}

/// `using ` of `using EQUIPMENT at TEMPERATURE`; all of it where nothing is to be put in.
pub(in crate::language::parse) fn words_of(form: &str) -> &str {
    let end = form.find(|c: char| c.is_uppercase()).unwrap_or(form.len());
    form.get(..end).unwrap_or(form)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::language::parse::parse;
    use crate::language::tidy::tidy;
    use crate::text::source::SourceId;

    /// A file with a line on which each clause can stand.
    const LINES: [(Clauses, &str); 10] = [
        (Clauses::Ingredient, "recipe Loaf\nbutter .... 15 %"),
        (Clauses::Step, "recipe Loaf\nbake: tend 30 min"),
        (Clauses::Keeps, "recipe Loaf\nkeeps 3 days"),
        (Clauses::Makes, "recipe Loaf\nmakes 4 loaves"),
        (Clauses::Equipment, "kitchen Quay\noven x 1"),
        (Clauses::Scale, "kitchen Quay\nscale 1 g"),
        (Clauses::Cook, "kitchen Quay\ncook Ida 06:00-14:00"),
        (Clauses::Make, "day Market\nmake 4 of \"loaf.miche\""),
        (Clauses::Store, "day Market\nstore 4 of \"loaf.miche\""),
        (Clauses::Page, "book Quay\npage \"loaf.miche\""),
    ];

    /// What may be put in for the words in capitals.
    fn filled(form: &str, of: Clauses) -> String {
        let form = form.split_once(',').map_or(form, |(form, _)| form);
        let amount = if of == Clauses::Equipment { "8 kg" } else { "8 %" };
        let size = if form.starts_with("sheet") { "60 cm x 40 cm" } else { "20 cm" };
        let words = [
            ("DATE TIME", "2027-03-01 05:00"),
            ("DATE", "2027-03-01"),
            ("TEMPERATURE", "20 C"),
            ("DEGREES", "12 C"),
            ("PERCENT", "8 %"),
            ("AMOUNT", amount),
            ("WEIGHT", "2 kg"),
            ("SIZE", if form.starts_with("tin") { "2 l" } else { size }),
            ("TIME", "10 min"),
            ("NUMBER", "2"),
            ("DAYS", "Tue-Sat"),
            ("EQUIPMENT", "oven"),
            ("STEP", "mix"),
            ("OPTION", "hand"),
            ("NAME", "peel"),
        ];
        words.iter().fold(form.to_owned(), |text, (word, said)| text.replace(word, said))
    }

    /// Every clause that is named or offered is read as it is said and kept by tidying.
    #[test]
    fn every_clause_is_read_and_tidied() {
        for (of, line) in LINES {
            for form in of.forms() {
                let text = format!("{line}, {}\n", filled(form, of));
                let (tree, problems) = parse(SourceId(0), &text);
                assert!(problems.is_empty() && !tree.has_strays(), "`{text}` is not read: {problems:#?}");
                let tidied = tidy(&text, None).unwrap_or_default();
                assert!(tidied.contains(words_of(form)), "`{form}` is lost:\n{tidied}");
            }
        }
    }

    #[test]
    fn an_editor_offers_the_words_up_to_what_is_put_in() {
        assert_eq!(words_of("within TIME after STEP"), "within ");
        assert_eq!(words_of("counts as flour"), "counts as flour");
        assert!(Clauses::Step.offers().all(|(words, _)| words != "NUMBER" && !words.is_empty()));
    }
}
