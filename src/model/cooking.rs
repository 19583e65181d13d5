//! What the steps of a part do with heat and cold, read from their equipment, their temperature and their words.
//!
//! The language does not say 'this is baked'; a baker reads it from `using oven at 190 C` and from the verbs. What is
//! found here feeds advice and cautions only, never a sum.

mod act;
mod cold_tools;
pub mod cold_words;
pub mod heat_words;
pub mod later;
pub mod may_cook;
pub mod ovens;
pub mod put_in;
pub mod raw_flesh;
pub mod rests;
pub mod state;
pub mod state_words;
pub mod told;

use self::act::{Behind, says_act, surely_says_act};
use self::cold_words::{COLD, is_cold_said};
use self::heat_words::{COOKING_VERBS, COOKS, COOKS_AS_VERB, DEEP_FAT, FRIES, HOT, MAY_COOK, WARM};
pub use self::later::Later;
use self::rests::WITHOUT_HEAT;
use crate::language::syntax::Name;
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass};
use crate::measure::temperature::Temperature;
use crate::measure::value::Value;
use crate::model::cold;
use crate::model::first_draws::FirstDraws;
use crate::model::kind::Kind;
pub(crate) use crate::model::lowered::beginnings;
use crate::model::lowered::{InAny, Lowered};
use crate::model::recipe::{Ingredient, Part, Refers};
use crate::model::step::{Frying, OfHead, Step, StepKind, Target, Words, hottest_of};
use crate::text::composed::folded;
use crate::text::denied::denies;
pub use crate::text::word_begins::{Beginnings, has_word_beginning};
use crate::text::words::words_without_hyphens;
use std::sync::LazyLock;

/// From this temperature on food is being cooked rather than proved or kept: 63 °C (FDA Food Code 3-401.11, eggs).
pub const COOKING: Number = Number::whole(63);

/// The words of a step in lower case: its name, its prose with the ingredients' names, its cue.
pub fn words_of(step: &Step) -> &str {
    lowered(step).text()
}

fn lowered(step: &Step) -> &Lowered {
    step.asked.lower.get_or_init(|| {
        let name = step.name.key.as_str();
        let words =
            step.words.iter().chain(&step.cue).map(|word| if let Words::Text(words) = word { words.len() } else { 16 });
        let mut text = String::with_capacity(name.len() + 2 + words.sum::<usize>());
        text.push_str(name);
        text.push_str(": ");
        for word in step.words.iter().chain(&step.cue) {
            match word {
                Words::Text(words) if words.is_ascii() => {
                    let from = text.len();
                    text.push_str(words);
                    text.get_mut(from..).into_iter().for_each(str::make_ascii_lowercase);
                }
                Words::Text(words) => text.push_str(&folded(words)),
                Words::Use { name, .. } => text.push_str(name.key.as_str()),
                Words::Measure(_) => text.push('#'),
            }
        }
        Lowered::named(text, name.len())
    })
}

/// The words of a step and of its cue, each beside itself in lower case.
fn in_lower_case(step: &Step) -> impl Iterator<Item = (&Words, &str)> {
    let text = lowered(step).text();
    let mut from = step.name.key.as_str().len() + 2;
    step.words.iter().chain(&step.cue).map(move |word| {
        let length = match word {
            Words::Text(words) if words.is_ascii() => words.len(),
            Words::Text(words) => folded(words).len(),
            Words::Use { name, .. } => name.key.as_str().len(),
            Words::Measure(_) => 1,
        };
        let piece = text.get(from..from + length).unwrap_or_default();
        from += length;
        (word, piece)
    })
}

/// Whether a step's words, as [`words_of`] has them, hold one that begins with one of these.
pub fn says(step: &Step, beginnings: &Beginnings) -> bool {
    lowered(step).says(beginnings)
}

/// Whether a step's words may hold one that begins with one of these; without looking at them.
pub fn may_say(step: &Step, beginnings: &Beginnings) -> bool {
    lowered(step).may_say(beginnings)
}

/// Whether the name of a step has a word that begins with one of these.
pub fn called(step: &Step, beginnings: &Beginnings) -> bool {
    step.name.has_word_beginning(beginnings)
}

/// How the words of any step of a part begin.
fn in_any(part: &Part) -> &InAny {
    part.said.get_or_init(|| InAny::of(part.steps.iter().map(lowered)))
}

/// The steps of a part that say this, as [`says`] has it. All of them are asked at once whether any does, and nearly all answers are no.
pub fn saying<'p>(
    part: &'p Part,
    beginnings: &'static Beginnings,
) -> impl DoubleEndedIterator<Item = (usize, &'p Step)> {
    let may_be = in_any(part).may_say(beginnings);
    debug_assert!(may_be || !part.steps.iter().any(|step| says(step, beginnings)), "{beginnings:?} is said");
    let steps = if may_be { part.steps.as_slice() } else { &[] };
    steps.iter().enumerate().filter(|(_, step)| says(step, beginnings))
}

/// Whether a step of a part says this.
pub fn some_says(part: &Part, beginnings: &'static Beginnings) -> bool {
    saying(part, beginnings).next().is_some()
}

/// The steps of a part that are called this, as [`called`] has it.
pub fn steps_called<'p>(
    part: &'p Part,
    beginnings: &'static Beginnings,
) -> impl DoubleEndedIterator<Item = (usize, &'p Step)> {
    let may_be = in_any(part).may_be_called(beginnings);
    debug_assert!(may_be || !part.steps.iter().any(|step| called(step, beginnings)), "one is called {beginnings:?}");
    let steps = if may_be { part.steps.as_slice() } else { &[] };
    steps.iter().enumerate().filter(|(_, step)| called(step, beginnings))
}

/// Whether the name of a step or a sentence of its own begins with one of these verbs: `warm water` in a sentence warms nothing.
pub fn does(step: &Step, beginnings: &Beginnings) -> bool {
    let begins = |text: &str| {
        // No verb has a full stop or a comma in it, so that each clause may as well go on with the next.
        let ends = memchr::memchr3_iter(b'.', b';', b',', text.as_bytes()).map(|end| end + 1);
        let mut clauses = std::iter::once(0).chain(ends).filter_map(|begin| text.get(begin..)).map(str::trim_start);
        clauses.any(|clause| beginnings.words().iter().any(|verb| clause.starts_with(verb)))
    };
    let lower = lowered(step);
    let said = || lower.text().split_once(": ").map_or("", |(_, said)| said);
    lower.may_say(beginnings) && (called(step, beginnings) || begins(said()))
}

/// Whether this is done in a step beyond doubt: it is called so, or its own words tell of the act and do not deny it. What it takes is no verb.
pub fn surely_does(step: &Step, verbs: &Beginnings) -> bool {
    may_say(step, verbs)
        && (called(step, verbs)
            || in_lower_case(step).any(|(word, text)| matches!(word, Words::Text(_)) && surely_says_act(text, verbs)))
}

/// Words before `dry` and `crisp` with which only what is outside gets so, or another thing is.
const WIPED: &[&str] =
    &["pat", "pats", "wipe", "wipes", "spin", "blot", "drain", "shake", "a", "the", "in", "of", "with", "some"];

/// Words with which it gets dry outside, or less wet.
const OUTSIDE: &[&str] = &[
    "rinse", "rinsed", "wash", "washed", "wipe", "hands", "jars", "jar", "bottles", "squeeze", "squeezed", "wring",
    "wrung", "pat", "blot",
];

/// Whether a step leaves what is in it dry all through, by its name or its words: not what is patted dry, and no dry wine.
pub fn dries_through(step: &Step) -> bool {
    let dry = beginnings!["dry", "dried", "dehydrat", "crisp", "crunch", "smoke", "smoking"];
    // What is rinsed and dried, and jars and hands that are, are dry outside.
    let is_outside = |words: &[&str]| words.iter().any(|word| OUTSIDE.contains(word));
    let ends_dry = |text: &str| {
        text.split(['.', ';', '(', ')', '!']).any(|clause| {
            let words: Vec<&str> = words_without_hyphens(clause).collect();
            !is_outside(&words)
                && words.iter().enumerate().any(|(at, word)| {
                    let before = at.checked_sub(1).and_then(|at| words.get(at)).copied().unwrap_or_default();
                    dry.begin_in(word)
                        && !word.ends_with("ator")
                        && !WIPED.contains(&before)
                        && !words.iter().take(at).any(|word| denies(word))
                })
        })
    };
    may_say(step, dry)
        && (called(step, dry)
            || in_lower_case(step).any(|(word, text)| matches!(word, Words::Text(_)) && ends_dry(text)))
}

/// Whether an ingredient is a brine: one that is bought, or a part that is called so.
pub fn is_brine(line: &Ingredient) -> bool {
    match line.refers {
        Refers::Part(_) => line.name.has_word_beginning(beginnings!["brine"]),
        Refers::Pantry(_) => line.kind == Kind::Brine,
    }
}

/// What the head of a step tells of heat and cold, found out when it is first asked for.
fn head(step: &Step) -> OfHead {
    *step.asked.head.get_or_init(|| {
        let high = step.temperature.map(|(low, high)| high.unwrap_or(low));
        let is_hot = match high {
            Some(high) => high.celsius() >= COOKING,
            None => uses(step, HOT) && !is_without_heat(step),
        };
        let is_called_so = || high.is_none() && step.kind != StepKind::Wait && is_called(step, COOKING_VERBS);
        OfHead {
            is_hot,
            cooks: is_hot || is_called_so(),
            bakes: bakes_by_head(step, is_hot, high.map(Temperature::celsius)),
            chills: match high {
                Some(high) => cold::is_cold(high),
                None => is_cold_place(&step.name) || step.equipment.as_ref().is_some_and(is_cold_place),
            },
        }
    })
}

/// Whether a step is in an oven, as [`ovens`] knows one: at its heat, where one is said, and else because it is an oven or something bakes in it.
fn bakes_by_head(step: &Step, is_hot: bool, celsius: Option<Number>) -> bool {
    let is_baked = || step.kind != StepKind::Wait && ovens::is_baking(&step.name);
    match &step.equipment {
        Some(equipment) => {
            (is_hot || celsius.is_none() && is_baked()) && ovens::is_oven(&step.name, equipment, celsius)
        }
        None => is_hot && celsius.is_some() && is_baked(),
    }
}

/// Whether a step works with heat by what its head says: hot equipment, or a temperature that cooks.
pub fn is_hot(step: &Step) -> bool {
    head(step).is_hot
}

/// Whether the name of a step's equipment has a word that begins with one of these.
pub fn uses(step: &Step, beginnings: &Beginnings) -> bool {
    step.equipment.as_ref().is_some_and(|name| name.has_word_beginning(beginnings))
}

/// Whether equipment is used for something else than its heat, by the name of a step: a dough proves in an oven that is off, a batter is
/// mixed in its pan. Where a word of heat or a temperature that cooks stands beside it, it is not.
pub fn is_without_heat(step: &Step) -> bool {
    let words = || words_without_hyphens(step.name.key.as_str());
    let is_heat = || [COOKING_VERBS, MAY_COOK, WARM].into_iter().any(|words| called(step, words));
    words().any(|word| WITHOUT_HEAT.contains(&word))
        && !is_heat()
        && hottest(step).is_none_or(|hottest| hottest.celsius() < COOKING)
}

/// Whether a step cooks: by its head, or by its verbs where the head says no lower temperature. What it takes is no verb: baking
/// powder bakes nothing.
pub fn cooks(step: &Step) -> bool {
    let said = || step.words.iter().chain(&step.cue);
    // A word that begins right behind a name or another piece is no word of the whole.
    let is_within = |c: char| c == '-' || c.is_alphanumeric();
    let glued = || {
        let mut goes_on = false;
        said().any(|word| {
            let went_on = goes_on;
            goes_on = match word {
                Words::Text(words) => words.ends_with(is_within),
                Words::Use { .. } => true,
                Words::Measure(_) => false,
            };
            went_on && matches!(word, Words::Text(words) if words.starts_with(is_within))
        })
    };
    let acts = |verbs: &Beginnings| {
        let mut left = step.words.iter().filter(|word| matches!(word, Words::Use { .. })).count();
        in_lower_case(step).any(|(word, text)| match word {
            Words::Text(_) => says_act(text, verbs, if left > 0 { Behind::Takes } else { Behind::Words }),
            Words::Use { .. } => {
                left = left.saturating_sub(1);
                false
            }
            Words::Measure(_) => false,
        })
    };
    let says = || (lowered(step).says(COOKS) || glued()) && acts(COOKS);
    let says_as_verb = || does(step, COOKS_AS_VERB) && (is_called(step, COOKS_AS_VERB) || acts(COOKS_AS_VERB));
    let verbs = || is_called(step, COOKS) || says() || says_as_verb();
    let finds = || is_hot(step) || (step.temperature.is_none() && step.kind != StepKind::Wait && verbs());
    *step.asked.cooks.get_or_init(finds)
}

/// Whether a step cooks by its head alone, its name included: what its words name may be baker's yeast.
pub fn cooks_by_head(step: &Step) -> bool {
    head(step).cooks
}

/// Whether a step is called after an act of cooking: not `line baking trays`, nor `cook` of what only a mixer turns.
fn is_called(step: &Step, verbs: &Beginnings) -> bool {
    called(step, verbs)
        && says_act(step.name.key.as_str(), verbs, Behind::Takes)
        && !(step.equipment.is_some() && cold_tools::heats_nothing(step))
}

/// Whether a step stands in the cold: by its temperature, by its name, or by the equipment that it stands in.
pub fn chills(step: &Step) -> bool {
    head(step).chills
}

/// Whether a step only stands to cool, and not in the cold.
pub fn cools(step: &Step) -> bool {
    step.kind == StepKind::Wait && step.name.has_word_beginning(beginnings!["cool"]) && !chills(step)
}

/// Whether a name is that of a cold place, or of what is done there. A retarder that proves as well is cold by its temperature only.
fn is_cold_place(name: &Name) -> bool {
    let proves = || ["prov", "proof"].iter().any(|word| name.key.as_str().contains(word));
    name.has_word_beginning(COLD) && is_cold_said(name.key.as_str(), COLD)
        || name.has_word_beginning(beginnings!["retard"]) && !proves()
}

/// How many minutes what a part makes may wait once its last rest has ended at the soonest: as long as it keeps. A rest in the cold
/// is keeping already, however long it may go on; a warm one goes on first, by as much as it may be stretched.
pub fn waits_kept(keeps: i64, rest: Option<&Step>, stretch: i64) -> i64 {
    if rest.is_some_and(chills) { keeps } else { keeps.saturating_add(stretch.max(0)) }
}

/// Whether what some steps make is hot when they are over: it is cooked, and neither cooled nor left to cool after that.
pub fn ends_hot(steps: &[Step]) -> bool {
    let cools =
        |step: &Step| chills(step) || step.name.has_word_beginning(beginnings!["cool", "chill", "freez", "set"]);
    steps.iter().rposition(cooks_by_head).is_some_and(|hot| !steps.iter().skip(hot + 1).any(cools))
}

/// Whether a step bakes in an oven.
pub fn bakes(step: &Step) -> bool {
    head(step).bakes
}

/// Beginnings of verbs by which a liquid loses water in a pot.
pub const BOILS: &Beginnings = &Beginnings::of(&["boil", "simmer", "reduc", "stew", "thicken"]);

/// Whether what a part loses has left as water, rather than stayed on the bench or in the bowl as a share of everything: what says `makes`
/// and not `of everything`, and what is boiled down or baked in it and divided after that, jam into jars and granola into bags. A dough that
/// is divided loses dough, and so do shells that are piped before they are baked.
pub fn loses_water(part: &Part) -> bool {
    match (&part.divide, part.makes) {
        (Some(_), _) => *part.divided_when_done.get_or_init(|| is_divided_when_done(part)),
        (None, makes) => makes.is_some_and(|makes| !makes.alike),
    }
}

/// Whether what a part without flour makes is cut or filled into pieces when all heat is over, as far as its steps tell.
pub fn is_divided_when_done(part: &Part) -> bool {
    let Some(divide) = &part.divide else { return false };
    if part.lines.iter().any(|line| line.is_flour && !line.aside) {
        return false;
    }
    let loses = |step: &Step| does(step, BOILS) || surely_does(step, BOILS) || is_at_a_boil(step);
    let boils = |step: &Step| !bakes(step) && step.kind != StepKind::Wait && cooks(step) && loses(step);
    let weighs_off = |step: &Step| step.words.iter().any(|word| is_mass(word, divide.each));
    let divides = |step: &Step| step.loads.is_by_piece() || weighs_off(step);
    // What is piped or filled before the last bake is not divided when it is packed.
    let last_bake = part.steps.iter().rposition(bakes).unwrap_or(0);
    if part.steps.iter().take(last_bake).any(divides) {
        return false;
    }
    let heats_before = |at: usize| part.steps.iter().take(at).any(|step| boils(step) || bakes(step));
    match part.steps.iter().rposition(divides).filter(|at| heats_before(*at)) {
        Some(at) => !part.steps.iter().skip(at).any(bakes),
        None => part.steps.iter().any(boils) && !part.steps.iter().any(bakes),
    }
}

/// Whether what is in a pot is brought to more than water boils at, whatever the step is called: caramel that is cooked to 120 °C lost its water
/// on the way. What is fried is hotter and boils nothing.
fn is_at_a_boil(step: &Step) -> bool {
    let is_hot = || hottest(step).is_some_and(|hottest| hottest.celsius() >= Number::whole(100));
    frying(step) == Frying::Unsaid && is_hot()
}

/// Whether a measure in prose is that mass: `bag at {350 g}`.
fn is_mass(word: &Words, mass: Mass) -> bool {
    matches!(word, Words::Measure(said) if said.iter().any(|said| said.value == Value::Mass(mass)))
}

/// Whether a line of a part is fat that something is fried in and of which some stays in what is fried: it is set aside or comes out again,
/// and a step fries with it. How much stays nobody reads off a recipe.
pub fn is_fried_in(part: &Part, at: usize) -> bool {
    let Some(line) = part.lines.get(at).filter(|line| !line.stays_in() && line.kind == Kind::Fat) else { return false };
    let is_for_it = line.name.has_word_beginning(beginnings!["fry", "fryer"]);
    let draws = |step: &Step| step.lines_taken().any(|taken| taken == at);
    part.steps.iter().any(|step| (is_for_it || draws(step)) && (uses(step, FRIES) || says(step, FRIES)))
}

/// Whether a step works in a fryer that holds fat: one that blows hot air holds none.
pub fn is_fryer(step: &Step) -> bool {
    step.equipment.as_ref().is_some_and(|name| {
        name.has_word_beginning(beginnings!["fryer"]) && !name.has_word_beginning(beginnings!["air"])
    })
}

/// Finds `fry` anywhere in a text.
static FRY: LazyLock<memchr::memmem::Finder<'static>> = LazyLock::new(|| memchr::memmem::Finder::new("fry"));

/// What a step says of frying.
pub fn frying(step: &Step) -> Frying {
    *step.asked.frying.get_or_init(|| match () {
        () if is_fryer(step) || says(step, DEEP_FAT) => Frying::Deep,
        () if FRY.find(words_of(step).as_bytes()).is_some() => Frying::Named,
        () => Frying::Unsaid,
    })
}

/// Whether a step fries in deep fat that none of these parts lists: neither does it draw on a fat nor is one set aside or strained out again.
pub fn fries_in_unlisted_fat<'p>(parts: impl Iterator<Item = &'p Part> + Clone, part: &Part, step: &Step) -> bool {
    let is_deep = frying(step) == Frying::Deep;
    let is_fat = |line: &Ingredient| {
        line.kind == Kind::Fat || line.name.has_word_beginning(beginnings!["oil", "lard", "dripping", "fat"])
    };
    let draws = || step.lines_taken().filter_map(|at| part.lines.get(at)).any(is_fat);
    let lists = || parts.clone().flat_map(|part| &part.lines).any(|line| is_fat(line) && !line.stays_in());
    is_deep && step.kind != StepKind::Wait && !draws() && !lists()
}

/// Below this nothing counts as cooked that was heated in a pot or an oven: 54 °C, the lowest of the FDA Food Code's times and temperatures for
/// whole roasts (3-401.11(B)(2), 54.4 °C for 112 min; from memory).
const NOT_COOKED: Number = Number::whole(54);

/// At this and above anything is cooked that is measured in its middle: fish, eggs and whole meat (FDA Food Code 3-401.11(A)(1), 63 °C; from
/// memory). What wants more, poultry and mince, is asked by `undercooked`.
const COOKED: Number = Number::whole(63);

/// Words by which something was hotter than the sign at which it is done says: milk is scalded and left until it is lukewarm.
const WAS_HOT: &Beginnings =
    &Beginnings::of(&["boil", "simmer", "scald", "blanch", "fry", "fried", "sear", "roast", "cool", "toast"]);

/// Whether a step cooks what is in it, as far as it can be told: not one whose sign is met at a temperature at which everything is raw.
pub fn cooks_through(step: &Step) -> bool {
    let sign = hottest_of(&step.cue);
    let is_too_cool = || {
        sign.is_some_and(|hottest| hottest.celsius() < NOT_COOKED)
            && !surely_does(step, WAS_HOT)
            && hottest_of(&step.words).is_none_or(|said| said.celsius() < NOT_COOKED)
    };
    // What is measured so hot when it is done was cooked, whatever the step is called: `brown`, `char`, `until {75 C} inside`.
    let is_done_hot = || {
        sign.is_some_and(|hottest| hottest.celsius() >= COOKED)
            && step.kind != StepKind::Wait
            && !step.name.has_word_beginning(beginnings!["cool"])
            && !is_cold_place(&step.name)
    };
    (cooks(step) && !is_too_cool()) || is_done_hot()
}

/// As [`is_long_bath`], of poultry: the tables for it begin at 57.8 °C (FSIS Appendix A, from memory).
pub fn is_long_bath_for_birds(step: &Step) -> bool {
    is_long_bath(step) && step.temperature.is_some_and(|(low, _)| low.celsius() >= Number::constant(577, 10))
}

/// Whether a step keeps what is in it so warm for so long that it is safe: 54.4 °C for 112 min (FDA Food Code 3-401.11(B)(2), from memory).
pub fn is_long_bath(step: &Step) -> bool {
    step.time.0 >= Duration::minutes(112)
        && step.temperature.is_some_and(|(low, _)| low.celsius() >= Number::constant(544, 10))
}

/// The first step that draws on something.
pub fn first_draw(part: &Part, target: Target) -> Option<usize> {
    first_draws(part).get(&target).copied()
}

/// For each thing that the steps of a part draw on, the first that does.
pub fn first_draws(part: &Part) -> &FirstDraws {
    part.draws.get_or_init(|| FirstDraws::of(&part.steps))
}

/// The hottest that a step says, in its head or in its words.
pub fn hottest(step: &Step) -> Option<Temperature> {
    let head = step.temperature.map(|(low, high)| high.unwrap_or(low));
    head.into_iter().chain(step.hottest_said()).max()
}

/// How long cooked food of a part may stand before a step in the cold, by the long ends of what is said; `None` when nothing is
/// cooked and then chilled.
pub fn time_before_cold(part: &Part) -> Option<(Duration, usize)> {
    time_before_cold_or(part, part.keeps.is_some_and(|keeps| keeps.how.is_cold()))
}

/// The same of what is kept in the cold when all its steps are done, whoever says so.
pub fn time_before_cold_or(part: &Part, is_kept_cold: bool) -> Option<(Duration, usize)> {
    let last_hot = part.steps.iter().rposition(cooks)?;
    let after: Vec<&Step> = part.steps.iter().skip(last_hot + 1).collect();
    let cold = after.iter().position(|step| chills(step)).or(is_kept_cold.then_some(after.len()))?;
    let waiting = after.iter().take(cold);
    let total = Duration::sum(waiting.map(|step| step.up_to.unwrap_or(step.time.1).max(step.time.1))).ok()?;
    Some((total, last_hot + 1))
}
