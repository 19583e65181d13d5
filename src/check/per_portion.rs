//! What one eater gets of one ingredient: what `out-of-proportion` looks for where a recipe says how many portions it makes. A stew has no
//! percentages of bakers, and its onions may be half of it; but nobody eats half a kilogram of them.

use super::Subject;
use super::dough::{mass_of, mille};
use crate::language::syntax::Name;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::measure::value::Value;
use crate::model::cooking::raw_flesh::is_flesh;
use crate::model::cooking::{beginnings, has_word_beginning, some_says};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{HeadMakes, Ingredient, Part, Recipe};
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::Diagnostic;

/// What a recipe makes that one person eats, by the beginnings of words.
const EATEN_BY_ONE: &Beginnings =
    &Beginnings::of(&["portion", "serving", "helping", "plate", "bowl", "person", "people", "cover|", "covers|"]);
/// What is eaten beside others or after them: two thirds of a portion.
#[rustfmt::skip]
const SMALL: &Beginnings = &Beginnings::of(&[
    "slice", "wedge", "square", "finger|", "fingers|", "bar|", "bars|", "pot|", "pots|", "ramekin", "glass", "cup|", "cups|", "mug",
]);
const OF_SMALL: Number = Number::constant(2, 3);

/// Of what, and how many grams of it one eater gets at most. A name that is told goes before a kind, and what is told of a dish by its name is
/// not told: `Onion soup`, `Forty clove chicken`. The bounds are half as much again as the largest helping printed anywhere. Common practice, no
/// source.
struct Row {
    names: Option<&'static Beginnings>,
    kinds: &'static [Kind],
    most: i64,
    /// Whether a dish that is called after it may have any.
    by_name: bool,
}

const fn named(names: &'static Beginnings, most: i64) -> Row {
    Row { names: Some(names), kinds: &[], most, by_name: true }
}

/// Of which no dish has more, whatever it is called.
const fn always(names: &'static Beginnings, most: i64) -> Row {
    Row { names: Some(names), kinds: &[], most, by_name: false }
}

const fn of(kinds: &'static [Kind], most: i64) -> Row {
    Row { names: None, kinds, most, by_name: false }
}

/// Dry pasta, by what it is called: few larders know all its shapes.
const PASTA: &Beginnings = &Beginnings::of(&[
    "lasagne",
    "lasagna",
    "pasta",
    "noodle",
    "spaghetti",
    "macaroni",
    "penne",
    "tagliatelle",
    "fusilli",
    "linguine",
]);

const ROWS: &[Row] = &[
    named(&Beginnings::of(&["garlic"]), 14),
    named(&Beginnings::of(&["ginger"]), 30),
    named(&Beginnings::of(&["onion", "shallot"]), 255),
    named(&Beginnings::of(&["spinach", "kale", "chard", "lettuce", "rocket", "watercress"]), 400),
    named(&Beginnings::of(&["tahini", "peanut butter"]), 120),
    always(&Beginnings::of(&["mayonnaise"]), 120),
    always(&Beginnings::of(&["parmesan", "pecorino", "grana", "gruy"]), 95),
    always(PASTA, 250),
    named(&Beginnings::of(&["carrot", "celery"]), 290),
    always(&Beginnings::of(&["stock", "broth"]), 750),
    always(&Beginnings::of(&["lemon|", "lemons|", "lime|", "limes|"]), 130),
    always(&Beginnings::of(&["red wine", "white wine"]), 450),
    always(&Beginnings::of(&["coconut milk", "coconut cream"]), 500),
    always(&Beginnings::of(&["mince", "minced", "ground beef", "ground pork", "ground lamb", "ground turkey"]), 500),
    named(&Beginnings::of(&["thyme", "rosemary", "oregano", "sage", "marjoram", "bay lea"]), 6),
    always(&Beginnings::of(&["gelatin"]), 8),
    of(&[Kind::Meat, Kind::Fish], 900),
    of(&[Kind::Vegetable], 700),
    of(&[Kind::Fruit], 650),
    of(&[Kind::Pulse], 350),
    of(&[Kind::Grain], 250),
    of(&[Kind::Flour, Kind::Bread], 270),
    of(&[Kind::Milk], 700),
    of(&[Kind::Dairy], 350),
    of(&[Kind::Egg], 300),
    of(&[Kind::Fat], 90),
    of(&[Kind::Sugar, Kind::Syrup], 135),
    of(&[Kind::Nut, Kind::Seed], 150),
    of(&[Kind::Chocolate], 150),
    of(&[Kind::Spice], 15),
    of(&[Kind::Salt], 16),
    of(&[Kind::Vinegar], 150),
];

/// A part with its amounts.
type Of<'s> = (&'s Part, &'s SolvedPart);

/// What the eaters of a recipe get.
struct Eaten<'s> {
    noun: &'s Name,
    portions: Number,
    /// What a share of it is of a portion.
    size: Number,
    parts: Vec<Of<'s>>,
}

impl<'s> Eaten<'s> {
    /// `None` where a recipe does not say for how many it is, or a line of it could not be read.
    fn of(subject: &Subject<'s>) -> Option<Eaten<'s>> {
        let recipe = subject.recipe;
        let Some(HeadMakes::Pieces { noun, .. }) = &recipe.makes else { return None };
        let size = match () {
            () if noun.has_word_beginning(EATEN_BY_ONE) => Number::ONE,
            () if noun.has_word_beginning(SMALL) => OF_SMALL,
            () => return None,
        };
        let portions = subject.formula.pieces?.value();
        // One pot or bowl is that of all.
        if portions < (if size == Number::ONE { Number::whole(2) } else { Number::whole(4) }) {
            return None;
        }
        let within = recipe.within(recipe.final_part()?);
        let parts: Option<Vec<_>> =
            within.into_iter().map(|id| Some((recipe.part(id)?, subject.formula.part(id)?))).collect();
        let parts: Vec<_> = parts?.into_iter().filter(|(part, _)| part.foreign.is_none()).collect();
        (!parts.iter().any(|(part, _)| part.broken)).then_some(Eaten { noun, portions, size, parts })
    }

    /// The lines that stay in what is eaten, each with its part and its weight.
    fn lines(&self) -> impl Iterator<Item = (Of<'s>, &'s Ingredient, Mass)> {
        self.parts.iter().flat_map(|(part, solved)| {
            let own = part.lines.iter().zip(&solved.lines).filter(|(line, _)| line.stays_in() && line.part().is_none());
            // A litre that no larder weighs is as heavy as water.
            let as_water = |natural: Option<Value>| match natural {
                Some(Value::Volume(volume)) => Some(Mass::new(volume.value())),
                _ => None,
            };
            own.filter_map(move |(line, amount)| {
                Some(((*part, *solved), line, amount.mass.or_else(|| as_water(amount.natural))?))
            })
        })
    }

    /// What one gets of some lines.
    fn each(&self, lines: impl Iterator<Item = (Of<'s>, &'s Ingredient, Mass)>) -> Option<Mass> {
        Mass::sum(lines.map(|(.., mass)| mass)).ok()?.over(self.portions).ok()
    }
}

/// The first ingredient of which an eater gets more than anybody eats.
pub(super) fn too_much(subject: &Subject<'_>, check: &'static str) -> Option<Diagnostic> {
    let recipe = subject.recipe;
    let eaten = Eaten::of(subject)?;
    ROWS.iter().enumerate().find_map(|(at, row)| {
        let own = || eaten.lines().filter(|(_, line, _)| row_of(line) == Some(at));
        let ((part, solved), line, _) = own().max_by_key(|(.., mass)| *mass)?;
        let each = eaten.each(own())?;
        let most = eaten.size.times(Number::whole(row.most)).ok()?;
        if each.value() <= most || is_meant(recipe, (part, solved), (line, each), row) {
            return None;
        }
        let message = format!(
            "{} of {} for each of the {} {}: that is more than anybody eats of it",
            show::mass_plain(each),
            line.name,
            eaten.portions.decimal(0),
            eaten.noun.text
        );
        Some(Diagnostic::advice(check, line.amount_span, message).help(SLIPPED))
    })
}

/// The first row that an ingredient fits.
fn row_of(line: &Ingredient) -> Option<usize> {
    ROWS.iter().position(|row| match row.names {
        // Oil with garlic is oil, and a spice may be called after what it is for.
        Some(names) => {
            line.name.has_word_beginning(names)
                && !matches!(line.kind, Kind::Fat | Kind::Bread | Kind::Vinegar)
                && (line.kind != Kind::Liquid
                    || names.words().contains(&"stock")
                    || !line.name.has_word_beginning(beginnings!["stock", "broth"]))
                && !line.name.has_word_beginning(beginnings![
                    "powder",
                    "fresh pasta",
                    "sole",
                    "cube",
                    "bouillon",
                    "juice",
                    "zest",
                    "curd"
                ])
        }
        None => row.kinds.contains(&line.kind) || row.kinds.contains(&Kind::Meat) && is_flesh(line),
    })
}

/// Whether so much of it is what the dish is about, or does not stay in it.
fn is_meant(
    recipe: &Recipe,
    (part, solved): (&Part, &SolvedPart),
    (line, each): (&Ingredient, Mass),
    row: &Row,
) -> bool {
    let is_dish_of = |names: &Beginnings| [&recipe.name, &part.name].iter().any(|name| name.has_word_beginning(names));
    match line.kind {
        Kind::Fat => line.is_to_fry_in() || some_says(part, BATHES) || is_dish_of(BATHES) || covers(part, solved, line),
        // What lies in salt does not take up all of it.
        Kind::Salt => some_says(part, DRAWS) && each <= IN_SALT,
        _ => row.by_name && row.names.is_some_and(is_dish_of),
    }
}

/// Whether fat is two fifths of the flesh in its part and more: it covers it, and most of it stays in the pot.
fn covers(part: &Part, solved: &SolvedPart, line: &Ingredient) -> bool {
    let fat = mass_of(part, solved, |other| std::ptr::eq(other, line));
    let flesh = mass_of(part, solved, is_flesh).filter(|flesh| *flesh > Mass::ZERO);
    fat.zip(flesh).is_some_and(|(fat, flesh)| fat.as_share_of(flesh).is_ok_and(|share| share >= mille(400)))
}

/// What is done in much fat.
const BATHES: &Beginnings =
    &Beginnings::of(&["fry", "fried", "deep", "confit", "cover", "submerge", "poach", "swim", "shallow"]);
/// What is done with much salt.
const DRAWS: &Beginnings = &Beginnings::of(&["brine", "cure", "curing", "purge", "salt crust", "salted water"]);
/// So much salt for one draws the water out of a pound of fish. Common practice, no source.
const IN_SALT: Mass = Mass::new(Number::whole(50));

/// What is raw and the body of a dish, and of how many grams of it for each eater nobody would call it one: not of what is cured, dried or
/// potted, which is eaten by the slice. Common practice, no source.
const LEAST: &[(&[Kind], &str, i64)] =
    &[(&[Kind::Meat, Kind::Fish], "meat or fish", 39), (&[Kind::Grain], "grain", 10), (&[Kind::Pulse], "pulses", 8)];

/// What is eaten by the slice or seasons a dish, by the beginnings of words.
#[rustfmt::skip]
const BY_THE_SLICE: &Beginnings = &Beginnings::of(&[
    "bacon", "ham", "pancetta", "lardon", "chorizo", "salami", "sausage", "prosciutto", "nduja", "smoked", "dried", "cured", "anchov", "sauce",
    "roe", "caviar", "bottarga", "stock", "broth", "bone", "fat", "skin", "crackling", "liver", "jerky", "paste", "tinned", "canned", "cooked",
    "speck", "guanciale", "lard", "suet", "bresaola", "marrow", "pate", "pâté", "tuna", "flake",
]);

/// Grain and pulses that thicken, crunch or season.
const NO_BODY: &Beginnings = &Beginnings::of(&[
    "miso",
    "tofu",
    "soy",
    "bran",
    "germ",
    "pearl",
    "puffed",
    "popped",
    "crumb",
    "paste",
    "sauce",
    "semolina",
    "polenta",
    "cornmeal",
    "flour",
    "ground",
    "sprout",
    "peanut",
    "pea|",
    "peas|",
    "green",
    "vermicelli",
]);

/// Meat, grain or pulses of which an eater gets a mouthful, in a dish of which they are the body.
pub(super) fn next_to_none(subject: &Subject<'_>, check: &'static str) -> Option<Diagnostic> {
    let eaten = Eaten::of(subject).filter(|eaten| eaten.size == Number::ONE)?;
    let is_runny = has_word_beginning(subject.recipe.name.key.as_str(), RUNNY);
    LEAST.iter().find_map(|(kinds, what, least)| {
        let is_flesh_row = kinds.contains(&Kind::Meat);
        let otherwise = if is_flesh_row { BY_THE_SLICE } else { NO_BODY };
        let is_of = |line: &Ingredient| match is_flesh_row {
            // Prawns are told by the piece, and a few are a dish.
            true => {
                is_flesh(line)
                    && line.kind != Kind::Shellfish
                    && !line.is_in_pieces()
                    && !line.name.has_word_beginning(beginnings!["prawn", "shrimp"])
            }
            false => {
                kinds.contains(&line.kind)
                    || kinds.contains(&Kind::Grain) && line.kind == Kind::Other && line.name.has_word_beginning(PASTA)
            }
        };
        let is_told = |line: &Ingredient| is_of(line) && !line.name.has_word_beginning(otherwise);
        let own = || eaten.lines().filter(|(_, line, _)| is_told(line));
        let (_, line, _) = own().max_by_key(|(.., mass)| *mass)?;
        let each = eaten.each(own())?;
        let is_little = each < Mass::new(Number::whole(*least)) && (is_flesh_row || !is_runny);
        // Beside other meat a little of one flavours.
        let is_beside = || {
            eaten
                .lines()
                .any(|(_, other, _)| is_flesh_row && is_of(other) && !is_told(other) && other.kind == Kind::Meat)
        };
        // Oats on a crumble are its crust.
        let is_crust = || !is_flesh_row && eaten.lines().any(|(_, other, _)| other.is_any_flour());
        (is_little && !line.optional && !is_beside() && !is_crust()).then(|| {
            let message = format!(
                "{} of {what} for each of the {} {}: that is a mouthful",
                show::mass_plain(each),
                eaten.portions.decimal(0),
                eaten.noun.text
            );
            Diagnostic::advice(check, line.amount_span, message).help(SLIPPED)
        })
    })
}

/// What is drunk or spooned, with a handful of grain in it.
const RUNNY: [&str; 8] = ["soup", "broth", "drink", "smoothie", "shake", "stew", "chowder", "consomm"];

const SLIPPED: &str =
    "look whether the unit is right, g or kg, and whether a point has slipped, here or in the number of those who eat";
