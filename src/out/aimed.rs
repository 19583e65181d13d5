//! What meets the aims of a recipe, laid out.

use super::block::{Block, Frame, Heading, Table, words};
use super::comparison::{self, Changes, Place};
use super::json::Figure;
use super::page::Page;
use crate::aims::shown;
use crate::figures::aimed::{Aimed, FigureAimed, LineAimed};
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show::mass_plain;
use schemars::JsonSchema;
use serde::Serialize;

/// The page of an answer, and below it what changes with it.
pub fn page(aimed: &Aimed, changes: Option<&Changes>) -> Page {
    let title = format!("{}: aims", aimed.recipe);
    let mut blocks = vec![Heading::block(1, &title)];
    blocks.push(words(match (aimed.met, aimed.was_met, aimed.apart.is_empty()) {
        (true, true, _) if aimed.lines.iter().all(|line| line.old == line.new) => "Every aim is met as it stands.",
        (true, ..) => "With these amounts every aim is met.",
        (false, _, false) => "No amounts meet these aims together:",
        (false, ..) if aimed.lines.iter().any(|line| line.old != line.new) => {
            "These amounts come as near as anybody knows; whether every aim is met is not known."
        }
        (false, ..) => "The aims are not met.",
    }));
    if !aimed.apart.is_empty() {
        blocks.push(Block::Bullets(
            aimed.apart.iter().map(|apart| vec![super::block::Phrase::plain(apart.words())]).collect(),
        ));
    }
    if aimed.lines.iter().any(|line| line.old != line.new) {
        let many = aimed.lines.iter().any(|line| aimed.lines.first().is_some_and(|first| first.part != line.part));
        let changed = aimed.lines.iter().filter(|line| line.old != line.new);
        let rows = changed.map(|line| {
            let name = if many { format!("{} of {}", line.ingredient, line.part) } else { line.ingredient.clone() };
            vec![name, mass(line.old), mass(line.new), by(line)]
        });
        blocks.push(Block::Gap);
        let head = ["ingredient", "was", "is", "change"].map(str::to_owned).to_vec();
        blocks.push(Table::figures(head, rows.collect(), Frame::Sheet));
    }
    if !aimed.aims.is_empty() {
        let rows = aimed.aims.iter().map(|aim| {
            let part = aim.part.as_ref().map_or_else(String::new, |part| format!(" of {part}"));
            let only = if aim.only.is_empty() { String::new() } else { format!(" [{}]", aim.only) };
            let figure =
                |value: Option<Number>| value.map_or_else(|| "not known".to_owned(), |value| shown(&aim.unit, value));
            vec![
                format!("{}{part}{only}", aim.figure),
                aim.aim.clone(),
                figure(aim.was),
                figure(aim.is),
                if aim.binds { "binds".to_owned() } else { String::new() },
            ]
        });
        blocks.push(Block::Gap);
        let head = ["aim", "wanted", "was", "is", ""].map(str::to_owned).to_vec();
        blocks.push(Table::figures(head, rows.collect(), Frame::Sheet));
    }
    for remark in &aimed.remarks {
        blocks.push(words(remark));
    }
    if let Some(changes) = changes {
        blocks.push(Block::Gap);
        blocks.extend(comparison::page(std::slice::from_ref(changes), Place::Terminal).blocks);
    }
    Page { title, below: 0, blocks }
}

fn mass(mass: Option<Mass>) -> String {
    mass.map_or_else(String::new, |mass| mass_plain(mass).to_string())
}

/// By how much a line changed.
fn by(line: &LineAimed) -> String {
    let ratio = match (line.old, line.new) {
        (Some(old), Some(new)) => new.ratio(old).and_then(|ratio| ratio.minus(Number::ONE)),
        _ => return String::new(),
    };
    let Ok(percent) = ratio.and_then(|by| by.times(Number::whole(100))) else { return String::new() };
    let sign = if percent.is_negative() { "−" } else { "+" };
    format!("{sign} {} %", percent.size().decimal(1))
}

const FORMAT: u32 = 1;

#[derive(Serialize, JsonSchema)]
pub(super) struct Wire<'a> {
    /// Rises when a key changes its meaning or goes away.
    format: u32,
    /// The name of the recipe.
    recipe: &'a str,
    /// Whether all aims are met as the formula stands now.
    met: bool,
    /// Whether all were met before.
    was_met: bool,
    /// The aims.
    aims: Vec<WireAim<'a>>,
    /// The ingredient lines.
    lines: Vec<WireLine<'a>>,
    /// Aims that no formula meets together.
    contradiction: Vec<WireApart<'a>>,
    /// What there is to say of it, a sentence each.
    remarks: &'a [String],
}

#[derive(Serialize, JsonSchema)]
struct WireAim<'a> {
    /// The name of the part.
    part: Option<&'a str>,
    /// Which figure.
    figure: &'a str,
    /// Of what the figure is a share.
    of: Option<&'a str>,
    /// The least that it may be; null where nothing is the least.
    low: Option<Figure>,
    /// The most that it may be; null where nothing is the most.
    high: Option<Figure>,
    /// What the figure was.
    was: Option<Figure>,
    /// What the figure is.
    is: Option<Figure>,
    /// Whether the change goes no further than this aim.
    binds: bool,
    /// The one ingredient that it is of, if it is of one.
    #[serde(skip_serializing_if = "str::is_empty")]
    only: &'a str,
}

#[derive(Serialize, JsonSchema)]
struct WireLine<'a> {
    /// The name of the part.
    part: &'a str,
    /// The name of the ingredient.
    ingredient: &'a str,
    /// What it was, in grams.
    old_g: Option<Figure>,
    /// What it is, in grams.
    new_g: Option<Figure>,
    /// What it would be exactly, in grams.
    exact_g: Option<Figure>,
    /// Whether its amount may be changed.
    may_change: bool,
}

#[derive(Serialize, JsonSchema)]
struct WireApart<'a> {
    /// The aim, with all its keys.
    #[serde(flatten)]
    aim: WireAim<'a>,
    /// How near the figure can come.
    nearest: Option<Figure>,
    /// How far that is from the aim.
    distance: Option<Figure>,
}

fn wire_aim(aim: &FigureAimed) -> WireAim<'_> {
    WireAim {
        part: aim.part.as_deref(),
        figure: &aim.figure,
        of: aim.of,
        low: aim.low.map(Figure),
        high: aim.high.map(Figure),
        was: aim.was.map(Figure),
        is: aim.is.map(Figure),
        binds: aim.binds,
        only: &aim.only,
    }
}

/// The answer as JSON, ending in a line break.
///
/// # Errors
/// Only what the serializer reports, which these types never cause.
pub fn json(aimed: &Aimed) -> serde_json::Result<String> {
    let grams = |mass: Option<Mass>| mass.map(|mass| Figure(mass.value()));
    let wire = Wire {
        format: FORMAT,
        recipe: &aimed.recipe,
        met: aimed.met,
        was_met: aimed.was_met,
        aims: aimed.aims.iter().map(wire_aim).collect(),
        lines: aimed
            .lines
            .iter()
            .map(|line| WireLine {
                part: &line.part,
                ingredient: &line.ingredient,
                old_g: grams(line.old),
                new_g: grams(line.new),
                exact_g: grams(line.exact),
                may_change: line.may_change,
            })
            .collect(),
        contradiction: aimed
            .apart
            .iter()
            .map(|apart| WireApart {
                aim: wire_aim(&apart.aim),
                nearest: apart.nearest.map(Figure),
                distance: apart.distance().map(Figure),
            })
            .collect(),
        remarks: &aimed.remarks,
    };
    super::report::to_json(&wire).map(|text| text + "\n")
}
