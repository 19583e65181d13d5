//! What a caution states: whether its author says what a check wants to hear, and not only a word of it.

use crate::language::syntax::TextKind;
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::model::animals::is_of_animal;
use crate::model::cooking::heat_words::COOKING_VERBS;
use crate::model::cooking::state_words::State;
use crate::model::cooking::told::tells_to;
use crate::model::cooking::{cold_words, has_word_beginning};
use crate::model::kind::Kind;
use crate::model::larder::kind_of_word;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe};
use crate::model::step::Words;
use crate::model::text::Text;
use std::cell::LazyCell;

mod figures;

pub(super) use figures::{kills_worms, temperatures};

/// One way to state something.
#[derive(Debug, Clone, Copy)]
pub(super) enum Way {
    /// Of each of these groups a word stands in the same sentence. Words are beginnings in lower case; with a `$` behind it a word is
    /// whole. `#` is an amount that is set into the text, `#time` one of time.
    Together(&'static [&'static [&'static str]]),
    /// It is sour, by measure or by what was added: a pH over 4.6 is none that keeps anything.
    Sour,
    /// It is so dry that nothing grows in it, by its water activity.
    Bound,
    /// It was frozen so that the worms of fish die, or is of a farm that has none.
    FrozenThrough,
    /// It stands in the cold: a word of keeping and one of cold that is neither denied nor chilli.
    KeptCold,
    /// It is served or sold in such a state, or to be cooked by who buys it. Hygiene says nothing of it: `Raw chicken: wash the boards
    /// after it`.
    Served(State),
}
use crate::text::source::Span;
use crate::text::words::words_with_hyphens;
use Way::{Bound, FrozenThrough, KeptCold, Served, Sour, Together};

/// Words by which something is kept at all.
const KEEP: &[&str] = &["keep", "kept", "store$", "stored$"];
/// What says how long.
const LONG: &[&str] = &["hour", "h$", "minute", "min$", "day$", "days$", "week", "month", "#time"];

/// It was tested for it.
const TESTED: Way =
    Together(&[&["test"], &["shel", "stor", "process", "keep", "kept", "recipe", "method", "salt", "water"]]);
/// It stands on a shelf, or does not.
const ON_A_SHELF: Way = Together(&[&["shelf$", "shelf-stable$"]]);
/// Its eggs are.
const PASTEURISED: Way = Together(&[&["pasteuri"]]);

/// Why food may be kept on a shelf, or that it is not.
pub(super) const SHELF: &[Way] = &[
    Sour,
    Bound,
    TESTED,
    ON_A_SHELF,
    Together(&[&["steril"], &["jar", "bottle", "retort", "pressure", "#", "h$", "min$"]]),
    Together(&[&["pressure"], &["can$", "canned$", "canner$", "canning$", "cook", "retort"]]),
    KeptCold,
];

/// That it is sour, so that nothing grows in it while it cools.
pub(super) const SOUR: &[Way] = &[Sour];

/// How food that is canned was made safe.
pub(super) const CANNED: &[Way] = &[Sour, Bound, Together(&[&["pressure", "retort", "autoclave"]]), KeptCold];

/// Why food keeps in the cold for longer than a week, or when it is thrown away. How long and how cold it is kept says nothing of why.
pub(super) const LONG_IN_THE_COLD: &[Way] = &[
    Sour,
    Bound,
    TESTED,
    ON_A_SHELF,
    Together(&[
        KEEP,
        &["under$", "itself$", "safe$", "because$", "long$", "longer$", "for$"],
        &["salt", "sugar", "acid", "vinegar", "brine", "juice$", "fat$", "cure", "ferment"],
    ]),
    Together(&[&["discard", "throw"], &["mould", "mold", "smell", "after$"]]),
];

/// How long food may stand out of the cold, or why it may.
pub(super) const OUT_OF_THE_COLD: &[Way] = &[
    Sour,
    Bound,
    TESTED,
    Together(&[
        LONG,
        &[
            "discard",
            "throw",
            "within$",
            "most$",
            "after$",
            "longer$",
            "than$",
            "sell",
            "sold$",
            "serve",
            "eat",
            "out$",
            "chill",
            "refrigerat",
        ],
    ]),
    Together(&[&["ferment", "soured$"], &["is$", "are$", "it$", "keep", "kept", "by$"]]),
    // Fish that is cured for its taste stands no better for it.
    Together(&[&["cured$"], &["keep", "kept", "by$"]]),
];

/// How food is cooled.
pub(super) const COOLING: &[Way] = &[Together(&[
    &["cool"],
    &[
        "ice", "shallow", "within$", "fast", "quick", "blast", "bath$", "divid", "water$", "hour", "h$", "min$",
        "minute", "#",
    ],
])];

/// That meat or fish is eaten raw on purpose, or cooked by who buys it.
pub(super) const RAW_FLESH: &[Way] = &[Served(State::EatenCured)];

/// That the parasites of raw fish are dead.
pub(super) const FROZEN_FISH: &[Way] = &[FrozenThrough];

/// That raw flour or egg is eaten on purpose, or that the egg is safe.
pub(super) const RAW_FLOUR_OR_EGG: &[Way] = &[Served(State::EatenRaw), PASTEURISED];

/// That something is served undercooked on purpose, or that its egg is safe.
pub(super) const UNDERCOOKED: &[Way] = &[Served(State::EatenPink), PASTEURISED];

/// Whether a `caution` of the part or of the recipe's head states something in one of these ways. What warns of burns states nothing else.
pub(super) fn states(recipe: &Recipe, part: &Part, ways: &[Way]) -> bool {
    states_of((recipe, part), ways, None)
}

/// As [`states`], of what a line of the part is: `Contains raw nuts` says nothing of its chicken.
///
/// `It is raw: cook it through` of a part that goes into another speaks to whoever works on with it, and not to who eats the dish.
pub(super) fn states_of((recipe, part): (&Recipe, &Part), ways: &[Way], of: Option<&Ingredient>) -> bool {
    let goes_on = || {
        let place = recipe.parts().find(|(_, other)| std::ptr::eq(*other, part));
        place.is_some_and(|(id, _)| recipe.users(id).next().is_some())
    };
    let of_part = |text: &Text| {
        let text = plain(&text.words);
        let says = |way: &Way| says_one(&text, std::slice::from_ref(way), of, is_of_work);
        let is_of_eaten = |way: &Way| !matches!(way, Served(_)) || !tells_to_cook(&text) || !goes_on();
        ways.iter().any(|way| says(way) && is_of_eaten(way))
    };
    recipe.cautions().any(|text| says_one(&plain(&text.words), ways, of, is_of_work))
        || cautions(&part.texts).any(of_part)
}

/// Whether it is stated how long food may stand out of the cold, or why it may. How long it was frozen says nothing of that, nor does an hour of what
/// stands for ten, unless it is thrown away then or sold by then.
pub(super) fn states_out_of_the_cold(recipe: &Recipe, part: &Part, stands: Duration) -> bool {
    let is_shorter = |sentence: &str| {
        figures::times(sentence).max().is_some_and(|said| said < stands)
            && !has_all(sentence, &[&["discard", "throw", "sell", "sold"]])
            && ![Sour, Bound, TESTED].iter().any(|way| says_one(sentence, &[*way], None, is_of_work))
    };
    let is_other =
        |sentence: &str| is_of_work(sentence) || has_all(sentence, &[&["frozen$", "freez"]]) || is_shorter(sentence);
    let mut all = recipe.cautions().chain(cautions(&part.texts));
    all.any(|text| says_one(&plain(&text.words), OUT_OF_THE_COLD, None, is_other))
}

/// Whether a caution says that fish was frozen for its worms, and so little that they live.
pub(super) fn states_too_little_freezing(recipe: &Recipe, part: &Part) -> bool {
    let is =
        |text: &Text| sentences(&plain(&text.words)).iter().any(|sentence| figures::is_frozen_too_little(sentence));
    recipe.cautions().chain(cautions(&part.texts)).any(is)
}

/// A pH over 4.6 that a caution of a part states of what it makes, and where; what the head says is said of the last part.
pub(super) fn states_high_ph(recipe: &Recipe, id: PartId, part: &Part) -> Option<(Number, Span)> {
    let of_head = recipe.cautions().filter(|_| recipe.is_final(id));
    let found = |text: &Text| {
        let plain = plain(&text.words);
        sentences(&plain).into_iter().find_map(figures::high_ph).map(|ph| (ph, text.span))
    };
    cautions(&part.texts).chain(of_head).find_map(found)
}

/// Whether a cook's or a buyer's word tells to cook what a part is.
pub(super) fn tells_in_a_caution_to_cook(recipe: &Recipe, part: &Part) -> bool {
    recipe.cautions().chain(cautions(&part.texts)).any(|text| tells_to_cook(&plain(&text.words)))
}

/// Whether a caution speaks of cooking at all: of what was cooked elsewhere, or is by who buys it.
pub(super) fn speaks_of_cooking(recipe: &Recipe, part: &Part) -> bool {
    recipe.cautions().chain(cautions(&part.texts)).any(|text| has_all(&plain(&text.words), &[&["cook"]]))
}

/// Whether what is said of fish, in any words, is that it was frozen so that its worms died.
pub(super) fn is_frozen_through(text: &str) -> bool {
    sentences(&text.to_lowercase()).iter().any(|sentence| figures::is_frozen_through(sentence))
}

/// As [`states`], of work that hurts itself.
pub(super) fn warns(recipe: &Recipe, part: &Part, ways: &[Way]) -> bool {
    let mut all = recipe.cautions().chain(cautions(&part.texts));
    all.any(|text| says_one(&plain(&text.words), ways, None, |_| false))
}

fn cautions(texts: &[Text]) -> impl Iterator<Item = &Text> {
    texts.iter().filter(|text| text.kind == TextKind::Caution)
}

/// The words of a text in lower case.
fn plain(words: &[Words]) -> String {
    let each = words.iter().map(|word| match word {
        Words::Text(text) => text.to_lowercase(),
        Words::Use { name, .. } => name.key.as_str().to_owned(),
        Words::Measure(said) => figures::plain(said),
    });
    each.collect()
}

fn says_one(text: &str, ways: &[Way], of: Option<&Ingredient>, is_other: impl Fn(&str) -> bool) -> bool {
    let sentences = LazyCell::new(|| sentences(text));
    let any = |is: &dyn Fn(&str) -> bool| sentences.iter().any(|sentence| is(sentence) && !is_other(sentence));
    ways.iter().any(|way| match way {
        Together(groups) => any(&|sentence| has_all(sentence, groups)),
        Sour => any(&figures::is_sour),
        Bound => any(&figures::is_bound),
        FrozenThrough => any(&figures::is_frozen_through),
        KeptCold => any(&|sentence| has_all(sentence, &[KEEP]) && cold_words::is_cold_said(sentence, cold_words::COLD)),
        Served(state) => text.split(['.', '!', '?']).any(|sentence| is_served(sentence, *state, of)),
    })
}

/// What is said of work that hurts says nothing of how food keeps and cools: `Hot sugar: keep others away, cool a burn under running water.`
fn is_of_work(sentence: &str) -> bool {
    let hurts = ["burst", "gas$", "knife", "blade", "glove", "eyes$", "lye$"];
    // What is stirred so that it does not burn is food, and what stands away from light is too.
    let burns = has_all(sentence, &[&["burn"]]) && !has_all(sentence, &[&["not$", "never$", "from$"]]);
    let people = ["other", "people", "child", "face", "eyes$", "skin$", "hand", "nobody$", "one$", "locked$"];
    has_all(sentence, &[&hurts]) || burns || has_all(sentence, &[&["away$"], &people])
}

/// The sentences of a text, and what stands between semicolons.
pub(super) fn sentences(text: &str) -> Vec<&str> {
    let (mut all, mut from, mut before) = (Vec::new(), 0, None);
    for (at, byte) in text.bytes().enumerate() {
        // `4.6` ends no sentence, and what ends one stands before a space.
        let stands_behind = before.is_none_or(|before| matches!(before, b'.' | b';' | b'!' | b'?' | b' '));
        before = Some(byte);
        let so_far = Some(byte).filter(|byte| *byte == b' ' && stands_behind).and_then(|_| text.get(from..=at));
        if let Some(sentence) = so_far.filter(|so_far| so_far.trim_end().ends_with(['.', ';', '!', '?'])) {
            all.push(sentence);
            from = at + 1;
        }
    }
    all.push(text.get(from..).unwrap_or_default());
    all
}

fn has_all(sentence: &str, groups: &[&[&str]]) -> bool {
    let is_sign = |c: char| !c.is_alphanumeric() && c != '-' && c != '#';
    let words: Vec<&str> = sentence.split(is_sign).filter(|word| !word.is_empty()).collect();
    let is_met = |word: &str, said: &str| match said.strip_suffix('$') {
        Some(whole) => word == whole,
        None => word.starts_with(said),
    };
    groups.iter().all(|group| words.iter().any(|word| group.iter().any(|said| is_met(word, said))))
}

/// What is done with food that is given to somebody, by the beginnings of words.
const SERVES: &[&str] = &["serve", "sold", "sell", "eat", "contain", "consum", "inside", "middle", "centre", "center"];
/// Who should not eat what is raw.
const AT_RISK: &[&str] =
    &["pregnan", "young", "child", "infant", "babies", "elder", "old", "ill", "immun", "vulnerable", "risk"];

/// Whether who buys it is told to cook it.
pub(super) fn tells_to_cook(text: &str) -> bool {
    tells_to(text, COOKING_VERBS)
}

/// Whether a word behind a state is that of another food than a line is: the `egg` of `raw egg`, where the line is salmon.
fn is_of_another(word: &str, line: &Ingredient) -> bool {
    let kind = kind_of_word(word);
    let is_named = has_word_beginning(line.name.key.as_str(), [word]);
    let is_same = kind == line.kind || is_of_animal(word) && (line.kind.is_flesh() || line.kind == Kind::Other);
    !is_named && !is_same && (kind != Kind::Other || is_of_animal(word))
}

fn is_served(sentence: &str, state: State, of: Option<&Ingredient>) -> bool {
    let is_state = |clause: &str| {
        let words: Vec<&str> = words_with_hyphens(clause).collect();
        let is_ours = |at: usize| words.get(at + 1).is_none_or(|next| of.is_none_or(|line| !is_of_another(next, line)));
        words.iter().enumerate().any(|(at, word)| state.is_told_by(word) && is_ours(at))
    };
    let is_none = |clause: &str| has_word_beginning(clause, ["nothing", "none"]);
    let served = |clause: &str| {
        let words: Vec<&str> = words_with_hyphens(clause).collect();
        let at = words.iter().position(|word| state.is_told_by(word)).unwrap_or(0);
        let is_so = || words.iter().take(at).any(|word| ["is", "are", "stays", "remains", "be"].contains(word));
        is_state(clause) && !is_none(clause) && (has_word_beginning(clause, SERVES) || is_so())
    };
    let not_for_all = is_state(sentence) && !is_none(sentence) && has_word_beginning(sentence, AT_RISK);
    not_for_all || sentence.split([':', ';']).any(served) || tells_to_cook(sentence)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_word_by_itself_states_nothing() {
        for (text, ways, is_stated) in [
            ("Finished pH 4.2 or below.", SHELF, true),
            ("Serve with pheasant.", SHELF, false),
            ("Chill the oil in summer.", SHELF, false),
            ("A refrigerator jam: keep it chilled, it is not tested for shelf storage.", SHELF, true),
            ("Taste it cold. Keep the lid on.", SHELF, false),
            ("Pressure canned at {116 C}.", CANNED, true),
            ("Open the cans away from children.", CANNED, false),
            ("Store bought peas may contain nuts.", LONG_IN_THE_COLD, false),
            ("Keep out of reach of children.", LONG_IN_THE_COLD, false),
            ("Keeps in the fridge.", CANNED, true),
            ("Keep the jars with chilli on the top shelf.", CANNED, false),
            ("It keeps without a fridge.", CANNED, false),
            ("Keep it under its own juice; throw it away when it smells wrong.", LONG_IN_THE_COLD, true),
            ("Keeps for 3 weeks, salted as it is.", LONG_IN_THE_COLD, true),
            ("Discard the skin.", OUT_OF_THE_COLD, false),
            ("Refrigerate leftovers.", OUT_OF_THE_COLD, false),
            ("Discard after four hours.", OUT_OF_THE_COLD, true),
            ("Cool tins burn too.", COOLING, false),
            ("Cool it in ice.", COOLING, true),
            // What `hot-or-caustic` asks for answers nothing else.
            (
                "Hot sugar sticks and burns: keep others away, add liquid slowly, cool a burn under running water.",
                COOLING,
                false,
            ),
            ("Hot sugar: keep others away, add liquid slowly, cool under running water.", LONG_IN_THE_COLD, false),
            // How cold and how long it is kept is no reason why it keeps longer than a week.
            ("Keep at {3 °C} and eat within 3 days, away from light.", LONG_IN_THE_COLD, false),
            ("Keep the salted fish for weeks under its brine, away from light.", LONG_IN_THE_COLD, true),
            ("Raw egg: keep the filling below {5 C} and do not taste it.", LONG_IN_THE_COLD, false),
            ("Keep it cold for your guests: it is raw.", LONG_IN_THE_COLD, false),
            ("Garlic under oil keeps for what makes botulism.", LONG_IN_THE_COLD, false),
            ("pH below 5.2.", SHELF, false),
            ("pH 3.8 to 4.4.", SHELF, true),
            ("pH 4.4-5.2", SHELF, false),
            ("The pH falls from 5.8 to 4.4 in a day.", SHELF, true),
            ("It is not acidified.", SHELF, false),
            ("A food of low acidity.", SHELF, false),
            ("The pH is above 4.6: do not keep it.", SHELF, false),
            ("Throw away what has a pH over 4.6.", SHELF, true),
            ("Water activity 0.82 or below.", SHELF, true),
            ("Water activity of 0.95.", SHELF, false),
            ("Served raw: cured fish is not cooked.", OUT_OF_THE_COLD, false),
            ("Frozen through at {-20 C} for {24 h}.", FROZEN_FISH, true),
            ("Fish frozen at -20 °C for 7 days.", FROZEN_FISH, true),
            ("Frozen at −4 °F for a day.", FROZEN_FISH, true),
            ("Frozen through at -2 C for 24 h.", FROZEN_FISH, false),
            ("Frozen through at -20 C for 2 h.", FROZEN_FISH, false),
            ("Do not freeze it.", FROZEN_FISH, false),
            ("Fish may hold parasites.", FROZEN_FISH, false),
            ("Farmed salmon, free of parasites.", FROZEN_FISH, true),
            ("Only fish that was never frozen.", FROZEN_FISH, false),
            ("Cool it over ice within 2 hours, and stir so that it does not burn.", COOLING, true),
            ("Hot sugar: keep others away, add liquid slowly, cool under running water.", COOLING, false),
        ] {
            assert_eq!(says_one(&text.to_lowercase(), ways, None, is_of_work), is_stated, "{text}");
        }
    }
}
