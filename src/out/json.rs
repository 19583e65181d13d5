//! A card for programs. The keys are fixed; the structs here are the wire format and nothing else.

mod busy;
mod figure;
mod given;
mod timeline;

pub(super) use busy::Busy;
pub(super) use figure::Figure;
use given::{WireFromStore, WireLeftOver, WireMadeFor};

use crate::figures::card::{BalanceCard, Card, DivideCard, LineCard, LoadCard, MakesCard, PartCard, StepCard};
use crate::language::prose::Prose;
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::shown::Shown;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// Rises when a key changes its meaning or goes away.
const FORMAT: u32 = 1;

#[derive(Serialize, JsonSchema)]
pub(super) struct Wire<'a> {
    /// Rises when a key changes its meaning or goes away.
    format: u32,
    /// The recipe's title.
    recipe: &'a str,
    /// What the batch makes; null where the recipe does not say.
    makes: Option<WireMakes<'a>>,
    /// How many times the batch as it is written.
    factor: Figure,
    /// The base that `--base` scaled by.
    #[serde(skip_serializing_if = "Option::is_none")]
    scaled_by: Option<WireScaledBy<'a>>,
    /// The option taken of each choice.
    choices: BTreeMap<&'a str, &'a str>,
    /// When it is to be ready, where a day or `--ready` says so.
    #[serde(skip_serializing_if = "Option::is_none")]
    ready: Option<&'a str>,
    /// Other recipes of the day that take parts of this batch.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    made_for: Vec<WireMadeFor<'a>>,
    /// What is taken out of store instead of being made.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    from_store: Vec<WireFromStore<'a>>,
    /// What parts leave over that something else may take.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    left_over: Vec<WireLeftOver<'a>>,
    /// The parts, in the order of the file.
    parts: Vec<WirePart<'a>>,
    /// What is in it altogether, the parts taken apart.
    total_formula: Vec<WireTotal<'a>>,
    /// Allergens that are known to be in it.
    allergens: &'a [String],
    /// Ingredients whose allergens are not known.
    allergens_unknown: &'a [String],
    /// What can hurt somebody.
    cautions: Vec<String>,
    /// The notes of the head.
    notes: Vec<String>,
    /// Whom it is owed to.
    credits: Vec<String>,
    /// When each step starts and ends.
    timeline: timeline::WireTimeline<'a>,
}

/// What `--base` scaled by.
#[derive(Serialize, JsonSchema)]
struct WireScaledBy<'a> {
    /// The name of the part.
    part: &'a str,
    /// What its 100 % is.
    base: &'a str,
}

#[derive(Serialize, JsonSchema)]
struct WireMakes<'a> {
    /// How many pieces.
    pieces: Option<Figure>,
    /// What the pieces are called.
    noun: Option<&'a str>,
    /// In grams.
    grams: Option<Figure>,
}

#[derive(Serialize, JsonSchema)]
struct WirePart<'a> {
    /// What the part is called.
    name: &'a str,
    /// What its percentages are of.
    base: Option<&'a str>,
    /// The base's weight, in grams.
    base_g: Option<Figure>,
    /// All its lines together, in grams.
    total_g: Option<Figure>,
    /// All its percentages together.
    percent_total: Option<Figure>,
    /// Water of the flour, preferments taken apart.
    hydration_percent: Option<Figure>,
    /// Only where the larder does not know all of the water: it is at least so much.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    hydration_is_least: bool,
    /// Only where nobody says how a leaven in it was fed: it is counted as half flour and half water.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    hydration_is_about: bool,
    /// Flour in it, preferments taken apart.
    flour_g: Option<Figure>,
    /// Water in it, preferments taken apart.
    water_g: Option<Figure>,
    /// Flour of the preferments, of all flour.
    prefermented_percent: Option<Figure>,
    /// The water and how warm it is to be.
    #[serde(skip_serializing_if = "Option::is_none")]
    water_shown: Option<&'a str>,
    /// The file that the part comes from.
    from: Option<&'a str>,
    /// In how many loads it is mixed.
    #[serde(skip_serializing_if = "Option::is_none")]
    loads: Option<i64>,
    /// Its ingredients.
    lines: Vec<WireLine<'a>>,
    /// How it is divided.
    divide: Option<WireDivide<'a>>,
    /// What the batch makes; null where the recipe does not say.
    makes: Option<WirePartMakes>,
    /// What it makes beside what the other parts use.
    balance: Option<WireBalance>,
    /// How long it keeps, in words.
    keeps: Option<String>,
    /// How long before it is taken it may be made; only with `--ahead`.
    #[serde(skip_serializing_if = "Option::is_none")]
    ahead: Option<WirePartAhead<'a>>,
    /// What is done, in order.
    steps: Vec<WireStep<'a>>,
    /// The notes of the part.
    notes: Vec<String>,
    /// What can hurt somebody.
    cautions: Vec<String>,
}

#[derive(Serialize, JsonSchema)]
struct WireLine<'a> {
    /// The name of the ingredient.
    ingredient: &'a str,
    /// Of the base.
    percent: Option<Figure>,
    /// The exact weight; null where it has none.
    grams: Option<Figure>,
    /// As it is weighed: rounded to the scale.
    shown: &'a Shown,
    /// The same by count or volume.
    measure: Option<&'a Shown>,
    /// What is done to it before.
    preparation: Option<&'a str>,
    /// Whether it is set aside and no part of the weight.
    aside: bool,
    /// Whether it may be left out.
    optional: bool,
    /// In degrees Celsius.
    temperature_c: Option<Figure>,
    /// What is weighed for this mix: without what the preferments hold.
    final_mix_g: Option<Figure>,
    /// The same, as it is weighed.
    final_mix_shown: &'a Shown,
    /// That by count or volume; only where preferments take some of the line.
    #[serde(skip_serializing_if = "Option::is_none")]
    final_mix_measure: Option<&'a Shown>,
    /// What one load takes, as it is weighed.
    #[serde(skip_serializing_if = "Option::is_none")]
    load_shown: Option<&'a Shown>,
    /// That by count or volume.
    #[serde(skip_serializing_if = "Option::is_none")]
    load_measure: Option<&'a Shown>,
    /// What the scale shows when it is in.
    running_shown: &'a Shown,
    /// For one piece.
    #[serde(skip_serializing_if = "Option::is_none")]
    each_g: Option<Figure>,
    /// Before peeling, boning or draining.
    #[serde(skip_serializing_if = "Option::is_none")]
    buy_g: Option<Figure>,
    /// Whether it is taken out again.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    strained_out: bool,
    /// Whether it comes out of store.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    from_store: bool,
    /// The step before which it is taken.
    #[serde(skip_serializing_if = "Option::is_none")]
    before: Option<&'a str>,
    /// What it leaves over.
    #[serde(skip_serializing_if = "Option::is_none")]
    leaves: Option<WireLeaves<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct WireLeaves<'a> {
    /// The name of the ingredient.
    ingredient: &'a str,
    /// In grams.
    grams: Option<Figure>,
}

#[derive(Serialize, JsonSchema)]
struct WireDivide<'a> {
    /// How many pieces.
    pieces: Figure,
    /// What one weighs, in grams.
    each_g: Figure,
    /// What the pieces weigh together.
    needs_g: Figure,
    /// What the file says is lost.
    loss_percent: Option<Figure>,
    /// What is lost by the figures.
    actual_loss_percent: Option<Figure>,
    /// The sorts of pieces.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    sorts: Vec<WireSort<'a>>,
}

#[derive(Serialize, JsonSchema)]
struct WireSort<'a> {
    /// The sort.
    sort: &'a str,
    /// How many pieces.
    pieces: Figure,
    /// What one weighs, in grams.
    each_g: Figure,
}

/// How long before it is taken a part may be made.
#[derive(Serialize, JsonSchema)]
struct WirePartAhead<'a> {
    /// In minutes.
    minutes: i64,
    /// How it is kept until then; empty where that is not said.
    kept: &'a str,
    /// In a sentence.
    shown: String,
}

#[derive(Serialize, JsonSchema)]
struct WirePartMakes {
    /// In grams.
    grams: Figure,
    /// What the file says is lost.
    loss_percent: Option<Figure>,
    /// What is lost by the figures.
    actual_loss_percent: Option<Figure>,
}

#[derive(Serialize, JsonSchema)]
struct WireBalance {
    /// What the part makes.
    makes_g: Figure,
    /// What the others use of it.
    used_g: Figure,
    /// What is left.
    left_g: Figure,
}

#[derive(Serialize, JsonSchema)]
struct WireStep<'a> {
    /// The name of the step.
    name: &'a str,
    /// Who is busy.
    kind: Busy,
    /// At least so long.
    minutes_min: Figure,
    /// At most so long.
    minutes_max: Figure,
    /// In how many loads.
    loads: i64,
    /// When it is done beside other steps, and how long what it made may stand, in the words of the file.
    order: &'a [String],
    /// What goes in.
    uses: Vec<WireUse<'a>>,
    /// With what it is done.
    equipment: Option<&'a str>,
    /// In degrees Celsius.
    temperature_c: Option<Figure>,
    /// Where it is done.
    station: &'a str,
    /// How many hands it needs.
    people: u32,
    /// When it is done, as seen, felt or heard.
    sign: Option<String>,
    /// What is done, without the marks of the language.
    text: String,
}

#[derive(Serialize, JsonSchema)]
struct WireUse<'a> {
    /// The name of the ingredient.
    ingredient: &'a str,
    /// In grams.
    grams: Option<Figure>,
}

#[derive(Serialize, JsonSchema)]
struct WireTotal<'a> {
    /// The name of the ingredient.
    ingredient: &'a str,
    /// In grams.
    grams: Figure,
    /// Of the base.
    percent: Option<Figure>,
}

/// The card as JSON, ending in a line break.
///
/// # Errors
/// Only what the serializer reports, which these types never cause.
pub fn render(card: &Card) -> serde_json::Result<String> {
    crate::out::report::to_json(&wire(card)).map(|text| text + "\n")
}

/// Several cards as a JSON array, ending in a line break.
///
/// # Errors
/// Only what the serializer reports, which these types never cause.
pub fn render_all(cards: &[Card]) -> serde_json::Result<String> {
    let wires: Vec<Wire<'_>> = cards.iter().map(wire).collect();
    crate::out::report::to_json(&wires).map(|text| text + "\n")
}

fn wire(card: &Card) -> Wire<'_> {
    Wire {
        format: FORMAT,
        recipe: &card.title,
        makes: card.makes.as_ref().map(|makes| WireMakes {
            pieces: makes.pieces.map(Figure),
            noun: makes.noun.as_deref(),
            grams: makes.mass.map(grams),
        }),
        factor: Figure(card.factor),
        scaled_by: card.scaled_by.as_ref().map(|by| WireScaledBy { part: &by.part, base: &by.base }),
        choices: card.choices.iter().map(|(choice, option)| (choice.as_str(), option.as_str())).collect(),
        ready: card.ready_shown.as_deref(),
        made_for: card.made_for.iter().map(given::made_for).collect(),
        from_store: card.from_store.iter().map(given::from_store).collect(),
        left_over: card.left_over.iter().map(given::left_over).collect(),
        parts: card.parts.iter().map(part).collect(),
        total_formula: card
            .total_formula
            .iter()
            .map(|line| WireTotal {
                ingredient: &line.ingredient,
                grams: grams(line.mass),
                percent: line.percent.and_then(percent),
            })
            .collect(),
        allergens: &card.allergens,
        allergens_unknown: &card.allergens_unknown,
        cautions: card.cautions.iter().map(Prose::plain).collect(),
        notes: card.notes.iter().map(Prose::plain).collect(),
        credits: card.credits.iter().map(Prose::plain).collect(),
        timeline: timeline::wire(card),
    }
}

fn grams(mass: Mass) -> Figure {
    Figure(mass.value())
}

fn percent(share: Proportion) -> Option<Figure> {
    share.percent().ok().map(Figure)
}

fn part(part: &PartCard) -> WirePart<'_> {
    WirePart {
        name: &part.name,
        base: part.base_name.as_deref(),
        base_g: part.base.map(grams),
        total_g: part.total.map(grams),
        percent_total: part.percent_total.and_then(percent),
        hydration_percent: part.hydration.and_then(|one| percent(one.share)),
        hydration_is_least: part.hydration.is_some_and(|one| one.is_least),
        hydration_is_about: part.hydration.is_some_and(|one| one.is_about),
        flour_g: part.flour.map(grams),
        water_g: part.water.map(grams),
        prefermented_percent: part.prefermented.and_then(percent),
        water_shown: part.water_shown.as_deref(),
        from: part.from.as_deref(),
        loads: part.load.as_ref().map(|load| load.loads),
        lines: part.lines.iter().enumerate().map(|(at, one)| line(one, at, part.load.as_ref())).collect(),
        divide: part.divide.as_ref().map(divide),
        makes: part.makes.as_ref().map(part_makes),
        balance: part.balance.as_ref().map(balance),
        keeps: part.keeps.as_ref().map(|keeps| format!("keeps {keeps}")),
        ahead: part.ahead.as_ref().map(|ahead| WirePartAhead {
            minutes: ahead.minutes,
            kept: &ahead.how,
            shown: ahead.shown(),
        }),
        steps: part.steps.iter().map(step).collect(),
        notes: part.notes.iter().map(Prose::plain).collect(),
        cautions: part.cautions.iter().map(Prose::plain).collect(),
    }
}

fn line<'a>(line: &'a LineCard, at: usize, load: Option<&'a LoadCard>) -> WireLine<'a> {
    WireLine {
        ingredient: &line.ingredient,
        percent: line.percent.and_then(percent),
        grams: line.mass.map(grams),
        shown: &line.shown,
        measure: line.measure.as_ref(),
        preparation: line.preparation.as_deref(),
        aside: line.aside,
        optional: line.optional,
        temperature_c: line.temperature.map(|at| Figure(at.celsius())),
        final_mix_g: line.final_mix.map(grams),
        final_mix_shown: &line.final_mix_shown,
        final_mix_measure: line.final_mix_measure.as_ref().filter(|_| line.final_mix != line.mass),
        load_shown: load.and_then(|load| load.lines.get(at)).filter(|shown| !shown.is_empty()),
        load_measure: load.and_then(|load| load.measures.get(at)?.as_ref()),
        running_shown: load.and_then(|load| load.running.get(at)).unwrap_or(&line.running),
        each_g: line.each.map(grams),
        buy_g: line.buy.map(grams),
        strained_out: line.strained_out,
        from_store: line.from_store,
        before: line.before.as_deref(),
        leaves: line
            .leaves
            .as_ref()
            .map(|leaves| WireLeaves { ingredient: &leaves.name, grams: leaves.mass.map(grams) }),
    }
}

fn divide(divide: &DivideCard) -> WireDivide<'_> {
    WireDivide {
        pieces: Figure(divide.pieces),
        each_g: grams(divide.each),
        needs_g: grams(divide.needs),
        loss_percent: divide.stated_loss.and_then(percent),
        actual_loss_percent: divide.actual_loss.and_then(percent),
        sorts: divide
            .sorts
            .iter()
            .map(|sort| WireSort { sort: &sort.name, pieces: Figure(sort.pieces), each_g: grams(sort.each) })
            .collect(),
    }
}

fn part_makes(makes: &MakesCard) -> WirePartMakes {
    WirePartMakes {
        grams: grams(makes.mass),
        loss_percent: makes.stated_loss.and_then(percent),
        actual_loss_percent: makes.actual_loss.and_then(percent),
    }
}

fn balance(balance: &BalanceCard) -> WireBalance {
    WireBalance { makes_g: grams(balance.makes), used_g: grams(balance.used), left_g: grams(balance.left) }
}

fn step(step: &StepCard) -> WireStep<'_> {
    WireStep {
        name: &step.name,
        kind: step.kind.into(),
        minutes_min: Figure(step.minutes.0),
        minutes_max: Figure(step.minutes.1),
        loads: step.loads,
        order: &step.order_shown,
        uses: step.uses.iter().map(|one| WireUse { ingredient: &one.ingredient, grams: one.mass.map(grams) }).collect(),
        equipment: step.equipment.as_deref(),
        temperature_c: step.temperature.map(|at| Figure(at.celsius())),
        station: &step.station,
        people: step.people,
        sign: (!step.cue.is_empty()).then(|| step.cue.plain()),
        text: step.prose.plain(),
    }
}
