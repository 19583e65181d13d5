//! `odd-temperature`: a temperature that does not suit what is done at it.

use super::danger::HOTTEST_FAT;
use super::keeping::{is_of_dough, says_below};
use super::usual_times::{DAY, degrees};
use super::{Check, Family, Run, Subject, pickled, tell};
use crate::language::evaluate::{evaluate, times};
use crate::language::syntax::{
    Content, IngredientClause, IngredientLine, KeptHow, Line, Name, Piece, Quantity, StepClause, StepLine, Tree,
};
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::measure::show;
use crate::measure::temperature::{Dial, Temperature};
use crate::measure::unit::Unit;
use crate::measure::value::Said;
use crate::model::cold::is_freezer;
use crate::model::cooking::has_word_beginning;
use crate::model::cooking::ovens::{is_fierce, is_oven};
use crate::model::cooking::raw_flesh::is_raw_flesh;
use crate::model::cooking::rests::WORKS;
use crate::model::fat_and_egg::is_egg_white;
use crate::model::kind::Kind;
use crate::model::lowered::{Beginnings, beginnings};
use crate::model::step::StepKind;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::Span;
use in_words::{Names, jam_done_at, said_in_step};
use std::cell::LazyCell;

mod boils_below;
mod cools_warm;
mod goes_in;
mod in_the_middle;
mod in_words;
mod layered;
mod never_gets_there;
mod poured_syrup;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "odd-temperature",
    severity: Severity::Advice,
    family: Family::Steps,
    looks_for: "a temperature far outside common practice for what is done at it: a dough at 24 °F, a chill at 40 °C, an oven at 19 °C",
    why: "F for C or a lost digit makes a freezer of a prover. Common practice: a dough comes from the mixer at 15 to 35 °C, \
          rises and proves at 2 to 40 °C (what is no dough ferments at 2 to 80 °C), is retarded at -5 to 16 °C, is chilled at -5 to 12 °C, and is baked at 80 to 330 °C, for less than an hour and a \
          quarter at 130 °C or more (a custard in its bath at less); what is baked is not done below 50 °C in the middle; a freezer has -12 °C at most; nothing that is not to \
          freeze stands or goes in below freezing; no shelf is warmer than 40 °C, and no place in which something waits than 110; what is closed in hot jars is filled at 70 °C at least; a mixer warms a dough by 40 °C at most, and what bakes together in one oven bakes within 40; food is fried at 110 to 240 °C, in a fryer at 190 at most, boiled at 80 to 190, simmered at 60 to 190 and steamed in a steamer at 60 to 120. Ovens are set in fives of degrees, or at \
          what such marks are in the other unit (177 °C, 446 °F). A pizza oven bakes for six minutes at most at up to 500 °C, a terrine in less than 130; a jam is done at \
          103 to 106 °C, sugar is boiled to no less than 97 and what is filled hot is filled soon after it boiled, what boils is not done below 80, nothing gets hotter than the oven, the smoker or the bath in which it is, nor colder than the place in which it cools (what is kept in the cold cools at 36 at most, an ice hardens below -5), pastry with cold butter rests at 27 at most, and between its turns a dough with butter in it rests at 24 °C at most, and it proves at 30 at most; bread is crumb from 82 °C in the middle, and in the \
          middle of nothing moist it is hotter than 100. It is told from the name of the step, or of a rest by what is written below it; where it is meant so, `# allow odd-temperature: reason` above the line keeps it quiet.",
    bad: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\n\
          rise: wait 1 h, at 24 F\n",
    good: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\n\
           rise: wait 1 h, at 24 C\n",
    sources: &["common practice, no source"],
    run: Run::TreeAndParts(run, in_recipe),
};

/// What is done, told from the name of a step, and at how many degrees Celsius that is usual.
const USUAL: &[(&Beginnings, &str, i64, i64)] = &[
    (beginnings!["retard"], "doughs are retarded", -5, 16),
    (WORKS, RISE_AND_PROVE, 2, 40),
    (beginnings!["autolyse", "bench"], RISE_AND_PROVE, 2, 40),
    (beginnings!["freez"], "food is frozen", -45, -5),
    // Ice cream hardens in the freezer, chocolate in the cool.
    (beginnings!["harden"], "what hardens stands", -45, 25),
    (beginnings!["chill", "refrigerat"], "food is chilled", -5, 12),
    (beginnings!["fry", "deep-fry"], "food is fried", 110, 240),
    (beginnings!["boil"], "what boils is", 80, 190),
    (beginnings!["simmer", "stew"], "what simmers is", 60, 190),
    (beginnings!["cool", "warm", "dry", "hold", "keep", "temper", "melt"], "what is not to freeze stands", -5, 400),
];

const RISE_AND_PROVE: &str = "doughs rise and prove";

/// What stands in no oven and is called so never gets hotter, °C: hot cupboards and baths keep food at 63 and are named.
const RESTING: i64 = 62;
const RESTS: &Beginnings = &Beginnings::of(&[
    "firm", "rest", "set", "cool", "draw", "press", "mature", "brine", "stand", "soak", "cure", "marinat", "age",
    "bench", "relax", "drain",
]);

/// A rest at 106 °C where 6 was meant.
fn hot_rest(step: &StepLine) -> Option<Diagnostic> {
    let named = |clause: &StepClause| matches!(clause, StepClause::Using(..));
    let is_rest = step.kind.value == StepKind::Wait
        && step.name.has_word_beginning(RESTS)
        && !step.clauses.iter().any(|clause| named(&clause.value));
    step.clauses.iter().filter(|_| is_rest).find_map(|clause| match &clause.value {
        StepClause::At(at) => outside(at, "what rests stands", -45, RESTING, clause.span),
        _ => None,
    })
}

/// What freezes while it stirs, by what it is called.
const ICE_MACHINES: &Beginnings = &Beginnings::of(&["ice cream", "ice-cream", "gelato", "sorbet", "batch freezer"]);

/// Whether it is what freezes food and keeps it frozen: -18 °C, and -12 at most where it is opened (`model/cold.rs`). A fridge-freezer has two places, and a
/// drying cabinet freezes nothing.
fn is_for_freezing(name: &Name) -> bool {
    name.has_word_beginning(beginnings!["freezer"])
        && !name.has_word_beginning(beginnings!["fridge", "refrigerator", "dry"])
}

/// Warmer no shelf is, °C.
const WARM_SHELF: i64 = 40;

fn run(tree: &Tree, diagnostics: &mut Vec<Diagnostic>) {
    super::larder_figures::problems(tree, CHECK.name, diagnostics);
    let recipe = tree
        .lines
        .iter()
        .find_map(|line| if let Content::Recipe(name) = &line.content { Some(name.key.as_str()) } else { None });
    let recipe = recipe.unwrap_or("");
    let starts_part = |line: &Line| matches!(line.content, Content::Part { .. });
    for part in tree.lines.chunk_by(|_, next| !starts_part(next)) {
        run_part(part, recipe, diagnostics);
    }
}

/// What only the amounts and the parts within each other tell.
fn in_recipe(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    diagnostics.extend(layered::problems(subject));
    diagnostics.extend(pickled::too_warm(subject, CHECK.name));
    diagnostics.extend(in_the_middle::problems(subject));
    for (id, part, solved) in subject.own_parts() {
        tell(
            diagnostics,
            poured_syrup::problem(part)
                .or_else(|| poured_syrup::sweet(subject.recipe, part))
                .or_else(|| goes_in::problem(part))
                .or_else(|| never_gets_there::problem(part))
                .or_else(|| layered::soft_block(part))
                .or_else(|| cools_warm::problem(part))
                .or_else(|| layered::melted(part))
                .or_else(|| layered::warm_pastry(subject, (id, part), solved))
                .or_else(|| boils_below::sugar(part))
                .or_else(|| boils_below::filled_late(subject.recipe, part)),
        );
    }
}

fn run_part(part: &[Line], recipe: &str, diagnostics: &mut Vec<Diagnostic>) {
    let mut above: Option<&StepLine> = None;
    let part_name = part
        .iter()
        .find_map(|line| if let Content::Part { name, .. } = &line.content { Some(name.key.as_str()) } else { None });
    let names = Names { recipe, part: part_name.unwrap_or("") };
    let of_jam = LazyCell::new(|| names.of_jam());
    let has_flesh = || {
        part.iter().any(|line| matches!(&line.content, Content::Ingredient(line) if is_raw_flesh(line.name.key.as_str(), None, Kind::of_name(line.name.key.as_str()), None)))
    };
    for (at, line) in part.iter().enumerate() {
        match &line.content {
            Content::Prose(pieces) | Content::Until(pieces) => {
                let is_cue = matches!(line.content, Content::Until(_));
                if let Some(step) = above {
                    let of_sugar = jam_done_at(step, pieces, is_cue, || *of_jam);
                    tell(diagnostics, of_sugar.or_else(|| said_in_step(step, pieces, is_cue, line.said, &has_flesh)));
                }
            }
            Content::DesiredTemperature(said) => {
                tell(diagnostics, outside(said, "doughs come from the mixer", 15, 35, line.said));
            }
            Content::Keeps { time, how: Some(KeptHow::At(said)) } => {
                // Neither frozen nor chilled: milk freezes and nothing keeps.
                let between =
                    degrees(said).is_some_and(|at| at < Number::ZERO && !is_freezer(Temperature::from_celsius(at)));
                // What is held hot for hours is another thing.
                let days = times(time).is_some_and(|(_, most)| most >= Duration::new(Number::whole(DAY)));
                let warm = days && degrees(said).is_some_and(|at| at > Number::whole(WARM_SHELF));
                if between || warm {
                    tell(diagnostics, outside(said, "food is kept chilled or on a shelf", 0, 40, line.said));
                }
            }
            Content::Step(step) => {
                above = Some(step);
                let below = part.get(at + 1..).unwrap_or_default();
                let told = step_problem(step, part, below, &names);
                // A pâté in the title sets no brioche of another part in a bath.
                let gentle = || names.of_terrine() && !is_of_dough(part) || is_gentle(below);
                tell(
                    diagnostics,
                    told.or_else(|| hot_rest(step))
                        .or_else(|| too_cool_an_oven(step).filter(|_| !gentle()))
                        .or_else(|| no_mark(step))
                        .or_else(|| falls_too_far(step, part)),
                );
            }
            Content::Ingredient(ingredient) => tell(diagnostics, ingredient_problem(ingredient)),
            _ => {}
        }
    }
}

fn step_problem(step: &StepLine, part: &[Line], below: &[Line], names: &Names<'_>) -> Option<Diagnostic> {
    step.clauses.iter().find_map(|clause| {
        let (at, oven) = match &clause.value {
            StepClause::Using(equipment, at, _) => (at, is_oven(&step.name, equipment, degrees(at))),
            StepClause::At(at) => (at, false),
            _ => return None,
        };
        // Steam that may go where it likes is as hot as boiling water; a steam oven is an oven.
        let is_steamer = |name: &Name| {
            name.has_word_beginning(beginnings!["steamer"])
                && !name.has_word_beginning(beginnings!["oven", "combi", "pressure"])
        };
        if matches!(&clause.value, StepClause::Using(name, ..) if is_steamer(name)) {
            return outside(at, "a steamer steams", 60, 120, step.name.span);
        }
        if matches!(&clause.value, StepClause::Using(name, ..) if name.has_word_beginning(ICE_MACHINES)) {
            return outside(at, "what churns ice cream is", -45, -2, step.name.span);
        }
        if matches!(&clause.value, StepClause::Using(name, ..) if is_for_freezing(name)) {
            return outside(at, "a freezer is", -45, -12, step.name.span);
        }
        let longest = || times(&step.duration).map(|(_, longest)| longest);
        if oven
            && step.name.has_word_beginning(beginnings!["dry|", "drying|", "dehydrat"])
            && longest().is_some_and(|longest| longest >= Duration::minutes(2 * 60))
        {
            return outside(at, "what dries for hours dries", 25, DRIES, step.name.span);
        }
        let known = USUAL.iter().find(|(words, ..)| step.name.has_word_beginning(words));
        // What is no dough ferments as warm as yoghurt and black garlic do.
        if step.name.has_word_beginning(beginnings!["ferment", "ripen"]) && !is_of_dough(part) {
            // In the cold it takes days.
            let is_short = step.name.has_word_beginning(beginnings!["ferment"])
                && longest().is_some_and(|longest| longest <= Duration::minutes(24 * 60));
            // Warmer than a bath for koji only garlic turns black.
            let most = if names.is_of_garlic() { 90 } else { 62 };
            return outside(at, "what ferments stands", if is_short { 8 } else { 2 }, most, step.name.span);
        }
        // A name that says nothing: what is written below it says what is done.
        if known.is_none()
            && step.kind.value == StepKind::Wait
            && (says_below(below, WORKS) || says_below(below, beginnings!["doubl"]))
            && is_of_dough(part)
        {
            return outside(at, "doughs rise and prove", 2, 40, step.name.span);
        }
        // Nobody writes the minus of a freezer by a slip: `set: wait 6 h, at -18 C`.
        // In °F there is none to write: 4 F is a refrigerator's 4 C.
        let is_deep = || {
            degrees(at).is_some_and(|at| is_freezer(Temperature::from_celsius(at)) && at >= Number::whole(-45))
                && !is_above_nothing_in_fahrenheit(at)
        };
        if step.kind.value == StepKind::Wait
            && !step.name.has_word_beginning(beginnings!["retard"])
            && known.is_none_or(|(.., least, _)| *least == -5)
            && is_deep()
        {
            return None;
        }
        // What nobody heats stands in no place that is hotter.
        let stands = step.kind.value == StepKind::Wait && matches!(clause.value, StepClause::At(_));
        match known {
            // What swims in fat is hot enough below the heat at which fat smokes; a griddle is hotter. 375 °F are 190.6 °C.
            Some((_, what, low, _)) if is_deep_fryer(step) => {
                let is_mark = degrees(at)
                    .is_some_and(|at| at > Number::whole(HOTTEST_FAT) && at < Number::whole(HOTTEST_FAT + 1));
                // Chips and meat are done gently first; dough only soaks up fat that is not hot.
                let low = if is_of_dough(part) { *low.max(&150) } else { *low };
                if is_mark { None } else { outside(at, what, low, HOTTEST_FAT, step.name.span) }
            }
            Some((_, what, low, high)) => {
                outside(at, what, *low, if stands { *high.min(&PLACE) } else { *high }, step.name.span)
            }
            // A pizza oven bakes in a minute and a half.
            None if oven => {
                let hot = is_flash(step) || matches!(&clause.value, StepClause::Using(name, ..) if is_fierce(name));
                outside(at, "ovens bake", 80, if hot { 500 } else { 330 }, step.name.span)
            }
            None if step.kind.value == StepKind::Wait => {
                outside(at, "what is not to freeze stands", 0, if stands { PLACE } else { 400 }, step.name.span)
            }
            None => None,
        }
    })
}

/// Whether a step fries in a fryer, and not one that blows hot air.
fn is_deep_fryer(step: &StepLine) -> bool {
    let is_fryer =
        |name: &Name| name.has_word_beginning(beginnings!["fryer"]) && !name.has_word_beginning(beginnings!["air"]);
    step.name.has_word_beginning(beginnings!["fry", "deep-fry"])
        && step.clauses.iter().any(|clause| matches!(&clause.value, StepClause::Using(name, ..) if is_fryer(name)))
}

/// Whether a temperature is said in °F, and above its nought, at which freezers stand.
fn is_above_nothing_in_fahrenheit(said: &[Quantity]) -> bool {
    let said = said.first().and_then(|said| evaluate(said, None, &mut Vec::new()));
    said.filter(|said| said.unit == Some(Unit::Fahrenheit))
        .and_then(|said| said.temperature()?.fahrenheit().ok())
        .is_some_and(|at| at > Number::ZERO)
}

/// Hotter than boiling water no place is in which something waits.
const PLACE: i64 = 110;

/// So long at most a wood or gas fire bakes at 400 °C and more.
const FLASH: Duration = Duration::new(Number::whole(6 * 60));

fn is_flash(step: &StepLine) -> bool {
    step.kind.value != StepKind::Wait && times(&step.duration).is_some_and(|(_, longest)| longest <= FLASH)
}

/// Ovens bake what is quickly done at 130 °C and more. Below it they dry, and take hours.
const DRIES: i64 = 130;
const QUICKLY: Duration = Duration::new(Number::whole(75 * 60));

/// An oven at 230 F where 230 C was meant: bread of a quarter of an hour at 110 °C.
fn too_cool_an_oven(step: &StepLine) -> Option<Diagnostic> {
    if !step.name.has_word_beginning(beginnings!["bake", "baking", "roast"]) || step.kind.value == StepKind::Wait {
        return None;
    }
    let (_, longest) = times(&step.duration)?;
    step.clauses.iter().find_map(|clause| match &clause.value {
        StepClause::Using(_, at, _) if longest <= QUICKLY => {
            outside(at, "what bakes for so short a time bakes", DRIES, 500, step.name.span)
        }
        _ => None,
    })
}

/// Whether the words below a step say that it sets a custard, in a bath or until it trembles: at 95 to 120 °C and in less than an hour.
fn is_gentle(lines: &[Line]) -> bool {
    let below =
        lines.iter().take_while(|line| matches!(line.content, Content::Prose(_) | Content::Until(_) | Content::Blank));
    let says = |piece: &Piece| {
        let Piece::Text(text) = piece else { return false };
        has_word_beginning(
            &text.to_lowercase(),
            ["bath", "bain", "steam", "trembl", "wobbl", "quiver", "custard", "just set", "barely set"],
        )
    };
    below.into_iter().any(|line| match &line.content {
        Content::Prose(pieces) | Content::Until(pieces) => pieces.iter().any(says),
        _ => false,
    })
}

/// Black rye is baked for most of a day, in an oven that falls to the boil.
fn is_slow(step: &StepLine) -> bool {
    times(&step.duration).is_some_and(|(low, _)| low >= Duration::minutes(5 * 60))
}

/// An oven that rises so far while something bakes is a slip, but where it browns at the end, °C. Common practice, no source.
const RISES_BY: Number = Number::whole(50);

/// An oven that falls from 220 C to 200 F, or rises from 190 to 290.
fn falls_too_far(step: &StepLine, part: &[Line]) -> Option<Diagnostic> {
    step.clauses.iter().find_map(|clause| match &clause.value {
        StepClause::Using(equipment, at, later)
            if is_oven(&step.name, equipment, degrees(at))
                && step.name.has_word_beginning(beginnings!["bake"])
                && !is_slow(step) =>
        {
            let mut before = degrees(at);
            later.iter().find_map(|heat| {
                let least = if is_foam(part) { FOAM_DRIES } else { DRIES };
                let here = degrees(&heat.at);
                let rises = before.zip(here).is_some_and(|(before, here)| {
                    here.minus(before).is_ok_and(|by| by >= RISES_BY && here >= Number::whole(230))
                });
                before = here;
                let risen = || {
                    let said: Said = evaluate(heat.at.first()?, None, &mut Vec::new())?;
                    let message = format!(
                        "the oven of `{}` rises to {}: what bakes goes in hot and is finished at less",
                        step.name,
                        show::said_plain(&said)
                    );
                    Some(
                        Diagnostic::advice(CHECK.name, said.span, message)
                            .help("look whether a digit has slipped, or the two temperatures are swapped"),
                    )
                };
                let falls = outside(&heat.at, "an oven that falls still bakes", least, 330, step.name.span);
                falls.or_else(|| if rises { risen() } else { None })
            })
        }
        _ => None,
    })
}

/// A foam of egg white dries at 90 to 110 °C after a hot start. °C.
const FOAM_DRIES: i64 = 80;

/// Whether a part is one: it has egg white and no flour. A bread that is glazed with it is none.
fn is_foam(part: &[Line]) -> bool {
    let lists = |is: fn(&str) -> bool| {
        part.iter().any(|line| matches!(&line.content, Content::Ingredient(line) if is(line.name.key.as_str())))
    };
    !lists(|name| name.ends_with("flour")) && lists(is_egg_white)
}

/// An oven at 166 C or 446 F where no dial has a mark. What is a mark in the other unit was converted.
fn no_mark(step: &StepLine) -> Option<Diagnostic> {
    step.clauses.iter().find_map(|clause| {
        let StepClause::Using(equipment, at, _) = &clause.value else { return None };
        // What is said in both units is compared.
        let [only] = at.as_slice() else { return None };
        if !is_oven(&step.name, equipment, degrees(at)) {
            return None;
        }
        let said = evaluate(only, None, &mut Vec::new())?;
        let temperature = said.temperature()?;
        let (celsius, fahrenheit) = (temperature.celsius(), temperature.fahrenheit().ok()?);
        // A mark of the other unit, as it is rounded in this one.
        let (own, converted) = if said.unit? == Unit::Fahrenheit {
            let mark = Temperature::from_celsius(celsius.rounded_to(Number::whole(10)).ok()?);
            (fahrenheit, mark.fahrenheit().ok()?)
        } else {
            let mark = Temperature::from_fahrenheit(fahrenheit.rounded_to(Number::whole(25)).ok()?).ok()?;
            (celsius, mark.celsius())
        };
        let marked =
            own.over(Number::whole(5)).is_ok_and(Number::is_whole) || converted.rounded_to(Number::ONE).ok()? == own;
        if marked || celsius < Number::whole(100) {
            return None;
        }
        let message = format!("no oven has a mark at {}", show::said_plain(&said));
        Some(
            Diagnostic::advice(CHECK.name, said.span, message)
                .also(step.name.span, "at this temperature")
                .help("look whether a digit has slipped; ovens are set in fives of degrees"),
        )
    })
}

/// Cold water for a pastry is written in the other unit too, but hardly anybody measures it to the degree.
const FRIDGE: i64 = 3;

/// What goes in below freezing, unless it is said to be frozen; sugar and fat may go in very hot.
fn ingredient_problem(line: &IngredientLine) -> Option<Diagnostic> {
    line.clauses.iter().find(|clause| matches!(clause.value, IngredientClause::At(_)))?;
    let frozen = |text: &str| has_word_beginning(text, ["frozen", "ice", "iced", "freezer"]);
    let said_frozen = line.clauses.iter().any(|clause| match &clause.value {
        IngredientClause::Preparation(text) => frozen(text),
        _ => false,
    });
    if frozen(line.name.key.as_str()) || said_frozen {
        return None;
    }
    let said_cold = line.clauses.iter().any(|clause| match &clause.value {
        IngredientClause::Preparation(text) => has_word_beginning(text, ["cold", "chill"]),
        _ => false,
    });
    line.clauses.iter().find_map(|clause| match &clause.value {
        IngredientClause::At(at) => {
            let fahrenheit = evaluate(at.first()?, None, &mut Vec::new())?.unit == Some(Unit::Fahrenheit);
            let low = if fahrenheit && !said_cold { FRIDGE } else { 0 };
            outside(at, "ingredients that are not frozen go in", low, 200, line.name.span)
        }
        _ => None,
    })
}

/// The problem of a temperature outside what is usual.
fn outside(said: &[Quantity], what: &str, low: i64, high: i64, span: Span) -> Option<Diagnostic> {
    let celsius = degrees(said)?;
    if celsius >= Number::whole(low) && celsius <= Number::whole(high) {
        return None;
    }
    let first: Said = evaluate(said.first()?, None, &mut Vec::new())?;
    let written = show::said_plain(&first).to_string();
    let plain = show::temperature_on(Temperature::from_celsius(celsius), show::Units::Metric, Dial::Thermometer);
    let both = if first.unit == Some(Unit::Fahrenheit) { format!("{written} ({plain})") } else { written };
    let message = format!("{both} is unusual here: {what} from {low} to {high} °C");
    Some(
        Diagnostic::advice(CHECK.name, first.span, message)
            .also(span, "at this temperature")
            .help("look whether the unit is right, C or F, and whether a digit is missing"),
    )
}
