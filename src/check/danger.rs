//! Work that burns: lye, boiling sugar, deep fat, and bottles that burst; where a part does it, and what is said of it.

use super::statement::Way;
use crate::language::syntax::Name;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show::{self, Units};
use crate::measure::shown::Shown;
use crate::measure::temperature::Temperature;
use crate::measure::value::Value;
use crate::model::cooking::heat_words::{FRYING_FAT, GRIDDLES};
use crate::model::cooking::{
    Beginnings, bakes, beginnings, cooks, frying, hottest, is_hot, saying, says, uses, words_of,
};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, LineAmount, Part};
use crate::model::step::{Frying, Step};
use crate::text::denied::is_denied;
use crate::text::source::Span;
use crate::text::words::words_without_hyphens;

/// Hotter no deep fat is, °C: near it fat smokes, and soon after burns. Common practice, no source; Regulation (EU) 2017/2158 wants less than 175 °C for
/// chips (from memory).
pub(super) const HOTTEST_FAT: i64 = 190;

/// So many degrees Celsius in the reader's units. The Food Code has 135, 70 and 41 °F, which is what they come to.
pub(super) fn degrees(celsius: i64, units: Units) -> Shown {
    show::temperature(Temperature::from_celsius(Number::whole(celsius)), units)
}

/// Work that burns.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Danger {
    /// Sodium hydroxide for glazing.
    Lye,
    /// Sugar boiled to syrup or caramel.
    HotSugar,
    /// Frying in deep fat.
    DeepFat,
    /// What still ferments in closed bottles.
    Bottles,
}

impl Danger {
    pub(crate) const ALL: [Danger; 4] = [Danger::Lye, Danger::HotSugar, Danger::DeepFat, Danger::Bottles];

    /// What it is called.
    pub(crate) fn noun(self) -> &'static str {
        match self {
            Danger::Lye => "lye",
            Danger::HotSugar => "boiling sugar",
            Danger::DeepFat => "deep fat",
            Danger::Bottles => "closed bottles that ferment",
        }
    }

    /// In which ways a caution says it.
    pub(super) fn ways(self) -> &'static [Way] {
        const CARE: &[&str] = &[
            "burn", "hot$", "spit", "splash", "splatter", "stick", "careful", "never$", "fire", "flam", "lid$",
            "water", "half$", "dry$", "away$", "boil", "#",
        ];
        match self {
            Danger::Lye => &[
                Way::Together(&[&["glove", "goggle", "caustic", "corros"]]),
                Way::Together(&[
                    &["lye$", "hydroxide", "soda$"],
                    &[
                        "burn", "never$", "eye", "skin", "wear", "careful", "danger", "locked$", "children", "water",
                        "cold",
                    ],
                ]),
            ],
            Danger::HotSugar => {
                &[Way::Together(&[&["sugar", "caramel", "syrup", "toffee"], CARE]), Way::Together(&[&["burn"]])]
            }
            Danger::DeepFat => {
                &[Way::Together(&[&["fat$", "oil$", "fry", "fryer"], CARE]), Way::Together(&[&["burn", "fire$"]])]
            }
            Danger::Bottles => &[Way::Together(&[
                &["bottle", "glass", "pressure", "cork", "lid"],
                &[
                    "burst", "explode", "loose", "vent", "release", "open", "plastic", "pressure", "gas", "swing",
                    "chill", "cold", "fridge",
                ],
            ])],
        }
    }

    /// A caution that a recipe could carry.
    pub(crate) fn example(self) -> &'static str {
        match self {
            Danger::Lye => "Lye burns: goggles and gloves, lye into cold water and never the other way round.",
            Danger::HotSugar => {
                "Hot sugar sticks and burns: keep others away, add liquid slowly, cool a burn under running water."
            }
            Danger::DeepFat => "Hot fat: dry what goes in, never leave it alone, lid at hand, no water near.",
            Danger::Bottles => "It goes on fermenting: bottles may burst; chill them, and open them a little each day.",
        }
    }

    pub(super) fn text(self, units: Units) -> String {
        let fryer = degrees(HOTTEST_FAT, units);
        match self {
            Danger::Lye => {
                "Lye burns skin and eyes: wear goggles and gloves, add lye to cold water and never water to lye, use no aluminium, \
                 and keep it locked away and labelled. Use food-grade lye at the strength the law allows."
                    .to_owned()
            }
            Danger::HotSugar => {
                "Boiling sugar sticks and burns deeply: keep people away, add liquid slowly, and cool burns with running water."
                    .to_owned()
            }
            Danger::DeepFat => {
                format!(
                    "Hot fat burns and catches fire: fill the fryer half at most, keep it below {fryer}, put in nothing wet, never \
                     leave it alone, and put a fire out with the lid, never with water."
                )
            }
            Danger::Bottles => {
                "What is sweet and alive goes on fermenting, and closed bottles may burst: use bottles made for pressure and leave room, keep them \
                 cold, and let the gas out a little each day."
                    .to_owned()
            }
        }
    }

    pub(super) fn short(self, units: Units) -> (&'static str, String) {
        match self {
            Danger::Lye => {
                let words = "goggles and gloves; lye into cold water, never water into lye; no aluminium; locked away.";
                ("Lye burns", words.to_owned())
            }
            Danger::HotSugar => {
                let words = "keep people away; add liquid slowly; cool a burn with running water.";
                ("Boiling sugar", words.to_owned())
            }
            Danger::DeepFat => {
                let most = degrees(HOTTEST_FAT, units);
                let words = format!(
                    "fryer half full at most, below {most}, nothing wet, never alone; lid on a fire, no water."
                );
                ("Hot fat", words)
            }
            Danger::Bottles => (
                "Bottles that burst",
                "bottles for pressure, not filled to the top; keep them cold; let the gas out each day.".to_owned(),
            ),
        }
    }

    pub(super) fn source(self) -> &'static str {
        "common practice, no source; work-safety law of the place"
    }
}

/// Fat at this heat fries: °C.
const FRIES: Number = Number::whole(150);
/// Less fat than this covers a pan's floor: grams or millilitres. Common practice, no source.
const A_FLOOR: Number = Number::whole(150);

/// Whether so little of something is said that nothing swims in it.
fn is_little(line: &Ingredient) -> bool {
    let LineAmount::Said(said) = &line.amount else { return false };
    said.iter().any(|said| match said.value {
        Value::Mass(mass) => mass < Mass::new(A_FLOOR),
        Value::Volume(volume) => volume.value() < A_FLOOR,
        _ => false,
    })
}

/// Whether a step works with hot deep fat.
fn fries(part: &Part, step: &Step) -> bool {
    match frying(step) {
        Frying::Unsaid => return false,
        Frying::Deep => return true,
        Frying::Named => {}
    }
    // On a plate of iron nothing swims.
    if uses(step, GRIDDLES) {
        return false;
    }
    // Who fries by hand over a fire says so by the verb, with a heat in its words or none at all.
    let at_heat = || hottest(step).is_some_and(|hottest| hottest.celsius() >= FRIES);
    let heats = || is_hot(step) || at_heat() || step.name.has_word_beginning(beginnings!["fry", "heat"]);
    // What is fried in, where a step fries or heats it; what only pours it into the pot does neither.
    let listed = || part.lines.iter().any(|line| line.name.has_word_beginning(FRYING_FAT));
    let of_frying = || says(step, FRYING_FAT);
    // Oil set aside, in which something is fried hot: it is in no dough. A spoon of it greases a pan.
    let in_oil = || {
        let is_oil = |line: &Ingredient| {
            // Nobody strains off what only greases a pan, however little comes to a piece.
            (line.strained_out || line.aside && !is_little(line))
                && line.kind == Kind::Fat
                && line.name.has_word_beginning(beginnings!["oil", "lard", "dripping", "shortening"])
        };
        cooks(step) && (step.name.has_word_beginning(beginnings!["fry"]) || at_heat()) && part.lines.iter().any(is_oil)
    };
    // Who fries by the thermometer in a pot has a depth of fat in it.
    let by_degree = || {
        let in_a_pan = |name: &Name| {
            name.has_word_beginning(beginnings!["pan|", "pans|", "frying", "griddle", "plancha", "oven", "air"])
        };
        step.name.has_word_beginning(beginnings!["fry"])
            && step.temperature.is_some_and(|(low, _)| low.celsius() >= FRIES)
            && !step.equipment.as_ref().is_some_and(in_a_pan)
    };
    (of_frying() && heats())
        || in_oil()
        || by_degree()
        || (step.name.has_word_beginning(beginnings!["fry"]) && listed())
}

/// Sugar syrup from here on is caramel or candy, hotter than boiling water by far.
const CANDY: Number = Number::whole(108);

/// The step in which a sweet drink is closed up with what ferments it: yeast, a culture of kefir or kombucha.
fn bottles_alive(part: &Part) -> Option<&Step> {
    let is_alive = |line: &Ingredient| {
        line.kind.ferments()
            || line.name.has_word_beginning(beginnings!["kombucha", "scoby", "water kefir", "ginger bug"])
    };
    if part.lines.iter().any(|line| line.is_flour) {
        return None;
    }
    let is_drink = part.lines.iter().any(|line| matches!(line.kind, Kind::Water | Kind::Juice | Kind::Liquid));
    let is_sweet = part.lines.iter().any(|line| line.kind.is_sweet() || line.kind == Kind::Juice);
    let alive = part.lines.iter().position(is_alive).filter(|_| is_drink && is_sweet)?;
    let first = part.steps.iter().position(|step| step.lines_taken().any(|line| line == alive))?;
    let at = part.steps.iter().skip(first).position(|step| says(step, beginnings!["bottle", "cork"]))? + first;
    // What fermented to its end, or was heated since, is quiet.
    let is_over = part
        .steps
        .iter()
        .take(at + 1)
        .skip(first)
        .any(|step| says(step, beginnings!["no longer", "stops", "finished"]));
    let is_killed = part.steps.iter().skip(first + 1).any(cooks);
    part.steps.get(at).filter(|_| !is_over && !is_killed)
}

const LYE: &Beginnings = &Beginnings::of(&["lye", "caustic", "sodium hydroxide", "naoh"]);

/// Whether a line of a part is lye, or a bath that another part makes of it and warns of.
pub(super) fn lists_lye(part: &Part) -> bool {
    part.lines.iter().any(|line| line.kind == Kind::Lye || line.name.has_word_beginning(LYE))
}

/// Where a part works with lye by the words of a step alone.
fn dips_in_lye(part: &Part) -> Option<Span> {
    saying(part, LYE).find(|(_, step)| takes_lye(step)).map(|(_, step)| step.name.span)
}

/// Whether a step works with lye that no line lists: `Dip in 4 % sodium hydroxide`, and not `soda instead of lye`.
fn takes_lye(step: &Step) -> bool {
    // Said of what is taken in its place.
    const ANOTHER: &[&str] = &["instead", "than", "like", "replace", "replaces"];
    let words: Vec<&str> = words_without_hyphens(words_of(step)).collect();
    words.iter().enumerate().any(|(at, word)| {
        let is_lye = ["lye", "caustic", "naoh"].contains(word)
            || *word == "hydroxide" && words.get(at.wrapping_sub(1)) == Some(&"sodium");
        is_lye && !is_denied(&words, at, 3, ANOTHER)
    })
}

/// Whether a step takes sugar or syrup.
fn takes_sweet(part: &Part, step: &Step) -> bool {
    step.lines_taken().filter_map(|line| part.lines.get(line)).any(|line| line.kind.is_sweet())
}

/// Where a part works with something that burns.
pub(crate) fn danger_in(part: &Part, danger: Danger) -> Option<Span> {
    match danger {
        Danger::Lye => {
            let listed = part.lines.iter().find(|line| line.kind == Kind::Lye).map(|line| line.name.span);
            listed.or_else(|| dips_in_lye(part).filter(|_| !lists_lye(part)))
        }
        Danger::HotSugar => {
            if !part.lines.iter().any(|line| line.kind.is_sweet()) {
                return None;
            }
            // Most parts say none of it.
            let told = beginnings!["carameli", "amber", "caramel", "sugar", "syrup", "honey", "boil"];
            let boils = saying(part, told).map(|(_, step)| step).find(|step| {
                let is_hot = || {
                    hottest(step).is_some_and(|temperature| temperature.celsius() >= CANDY)
                        && !bakes(step)
                        && !fries(part, step)
                };
                // Sugar that is amber is at 170 °C, and cream that comes to it spits.
                let browns = || {
                    says(step, beginnings!["amber", "caramel"])
                        && cooks(step)
                        && !bakes(step)
                        && takes_sweet(part, step)
                };
                says(step, beginnings!["carameli"])
                    || browns()
                    || says(step, beginnings!["sugar", "syrup", "honey", "boil"]) && is_hot()
            });
            boils.map(|step| step.name.span)
        }
        Danger::DeepFat => part.steps.iter().find(|step| fries(part, step)).map(|step| step.name.span),
        Danger::Bottles => bottles_alive(part).map(|step| step.name.span),
    }
}
