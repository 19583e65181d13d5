//! `miche sums`: the sums of the bench.

use super::Outcome;
use super::day_figures::{DayFigures, bench_temperature};
use super::deliver::{PageFormat, Paged};
use super::output::Output;
use super::read::count;
use super::scaling;
use super::stop::Ended;
use super::to_make::ToMake;
use crate::check::work_out;
use crate::figures::sums::tables::{LevainAsked, Version};
use crate::figures::sums::{self, Asked, Sums};
use crate::make::batch::Batch;
use crate::make::mix::Today;
use crate::measure::temperature::Temperature;
use crate::model::project::Project;
use crate::model::recipe::{Recipe, Selection};
use crate::out;
use crate::out::page::Page;
use crate::solve::formula::Formula;
use crate::solve::resolve::{choices_of, selections};
use crate::text::source::SourceId;
use clap::Args;

/// What `sums` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    #[command(flatten)]
    to_make: ToMake,
    #[command(flatten)]
    day: DayFigures,
    /// The seed that a levain is built from, for example `20 g`
    #[arg(long, value_name = "MASS")]
    seed: Option<String>,
    /// How much levain; what the recipe takes if nothing is said
    #[arg(long, value_name = "MASS", requires = "seed")]
    levain: Option<String>,
    /// In how many feeds
    #[arg(long, value_name = "N", default_value_t = 1, requires = "seed", value_parser = count)]
    feeds: u32,
    /// Water on flour in the levain
    #[arg(long, value_name = "PERCENT", default_value = "100 %", requires = "seed")]
    hydration: String,
    /// How long a feed takes to ripen
    #[arg(long, value_name = "TIME", default_value = "8 h", requires = "seed")]
    every: String,
    /// When the levain is to be ripe
    #[arg(long, value_name = "MOMENT", requires = "seed")]
    ripe: Option<String>,
    /// Another tin: `tin 23 cm x 13 cm x 7 cm`, `tin 2 l`, `round 24 cm`, `sheet 60 cm x 40 cm`
    #[arg(long, value_name = "TIN")]
    tin: Option<String>,
    /// What a piece loses in the oven, instead of what the recipe says
    #[arg(long, value_name = "PERCENT")]
    bake_loss: Option<String>,
    /// Another time for a step, for example `rise=90 min`; says the yeast that goes with it; may be given several times
    #[arg(long, value_name = "STEP=TIME")]
    rest: Vec<String>,
    /// Another temperature for a step, for example `rise=28 C`; says the time and the yeast for the same ferment; may be given several times
    #[arg(long, value_name = "STEP=TEMP")]
    at: Vec<String>,
    #[command(flatten)]
    paged: Paged,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Ended {
    let format = arguments.paged.format(output)?;
    let asked = arguments.asked()?;
    let (project, source, made) = arguments.to_make.make(output)?;
    let mut pages = Vec::new();
    let mut objects = Vec::new();
    let (mut impossible, mut in_vain, mut refuse) = (Vec::new(), Vec::new(), 0);
    let on_any_day = Asked { today: Today::default(), ..asked.clone() };
    let mut is_of_the_day = arguments.day.given().is_empty();
    for batch in &made.work.batches {
        let of_batch = |asked: &Asked| {
            of_batch(&project, source, batch, asked, made.day.is_some())
                .map_err(|_| "amounts of that size leave the range of exact numbers")
        };
        let sums = of_batch(&asked)?;
        is_of_the_day = is_of_the_day || of_batch(&on_any_day)? != sums;
        // A sentence about the part that is called as the recipe says it already.
        let said = format!("{}: ", sums.recipe);
        let of = |why: &String| if why.starts_with(&said) { why.clone() } else { format!("{said}{why}") };
        let of_recipe = |all: &[String]| -> Vec<String> { all.iter().map(of).collect() };
        impossible.extend(of_recipe(&sums.impossible));
        in_vain.extend(of_recipe(&sums.asked_in_vain));
        refuse += usize::from(!sums.asked_in_vain.is_empty());
        if format == PageFormat::Json {
            objects.push(out::sums::json(&sums).map_err(|error| error.to_string())?);
        } else {
            pages.push(out::sums::page(&sums));
        }
    }
    if let Some(doubt) = arguments.day.doubt() {
        output.complain(&doubt);
    }
    if !is_of_the_day {
        output.complain(&arguments.day.in_vain());
    }
    // Of a day an option may be about one of its recipes.
    if refuse > 0 && refuse == made.work.batches.len() {
        let last = in_vain.pop().unwrap_or_default();
        for why in &in_vain {
            output.complain(why);
        }
        return Err(last.into());
    }
    let json = || match objects.as_slice() {
        [one] => Ok(one.clone()),
        all => Ok(format!("[{}]\n", all.iter().map(|text| text.trim_end()).collect::<Vec<_>>().join(","))),
    };
    let page = Page::joined(pages).unwrap_or(Page { title: String::new(), below: 0, blocks: Vec::new() });
    let delivered = arguments.paged.deliver((&page, &arguments.to_make.file), json, output)?;
    for why in impossible.iter().chain(&in_vain) {
        output.complain(why);
    }
    Ok(if impossible.is_empty() { delivered } else { Outcome::Errors })
}

/// The sums of a batch, with all its choices beside each other; in a day, where the choice is made, with that alone.
fn of_batch(
    project: &Project,
    source: SourceId,
    batch: &Batch,
    asked: &Asked,
    in_a_day: bool,
) -> Result<Sums, crate::measure::number::Overflow> {
    let mut worked: Vec<(String, Recipe, Formula)> = Vec::new();
    if !in_a_day && let Some(file) = project.file(source) {
        for selection in selections(&choices_of(&file.tree)) {
            // The chosen one stands first, as what those with one choice changed are held against.
            let other = differs(&batch.recipe.selection, &selection);
            let [option] = other.as_slice() else { continue };
            if let Some((recipe, formula)) = work_out(project, source, &selection, &mut Vec::new()) {
                worked.push((option.clone(), recipe, formula.times(batch.factor)?));
            }
        }
    }
    let mut versions = vec![Version { name: options(&batch.recipe), recipe: &batch.recipe, formula: &batch.formula }];
    versions.extend(worked.iter().map(|(name, recipe, formula)| Version { name: name.clone(), recipe, formula }));
    sums::sums(&batch.recipe, &batch.formula, &versions, asked)
}

/// The options of the other selection that this one does not have.
fn differs(chosen: &Selection, other: &Selection) -> Vec<String> {
    let changed = other.iter().filter(|(choice, option)| chosen.of(choice) != Some(*option));
    changed.map(|(_, option)| option.as_str().to_owned()).collect()
}

/// `machine, crumb`
fn options(recipe: &Recipe) -> String {
    let taken: Vec<&str> = recipe
        .choices
        .iter()
        .filter_map(|choice| recipe.selection.of(&choice.name.key))
        .map(crate::language::syntax::Key::as_str)
        .collect();
    taken.join(", ")
}

impl Arguments {
    fn asked(&self) -> Result<Asked, String> {
        Ok(Asked {
            today: self.day.today()?,
            levain: self.levain_asked()?,
            tin: self.tin.as_deref().map(scaling::pan).transpose()?,
            bake_loss: self.bake_loss.as_deref().map(|text| scaling::loss("--bake-loss", text)).transpose()?,
            rests: once_each("--rest", self.rest.iter().map(|text| rest(text)).collect::<Result<_, _>>()?)?,
            places: once_each("--at", self.at.iter().map(|text| place(text)).collect::<Result<_, _>>()?)?,
            units: self.to_make.scaling.units(),
        })
    }

    fn levain_asked(&self) -> Result<Option<LevainAsked>, String> {
        let Some(seed) = &self.seed else { return Ok(None) };
        let mass = |option: &str, text: &str| {
            scaling::mass(text).ok_or_else(|| format!("{option} {text}: this is not a weight such as `20 g`"))
        };
        let hydration = scaling::proportion(&self.hydration)
            .filter(|share| share.value().is_positive())
            .ok_or_else(|| format!("--hydration {}: this is not a share such as `100 %`", self.hydration))?;
        let every = scaling::duration(&self.every)
            .and_then(crate::measure::quantity::Duration::whole_minutes)
            .filter(|minutes| (1..=100_000).contains(minutes))
            .ok_or_else(|| format!("--every {}: this is not a time such as `8 h`", self.every))?;
        let ready = match &self.ripe {
            Some(text) => Some(
                moment(text)
                    .ok_or_else(|| format!("--ripe {text}: this is not a moment such as `2026-12-05 06:00`"))?,
            ),
            None => None,
        };
        Ok(Some(LevainAsked {
            needed: self.levain.as_deref().map(|text| mass("--levain", text)).transpose()?,
            seed: mass("--seed", seed)?,
            feeds: self.feeds,
            hydration,
            ready,
            every_minutes: every,
        }))
    }
}

fn moment(text: &str) -> Option<jiff::civil::DateTime> {
    jiff::civil::DateTime::strptime("%Y-%m-%d %H:%M", text.trim()).ok()
}

/// `rise=90 min`
fn rest(text: &str) -> Result<(String, crate::measure::quantity::Duration), String> {
    let read = || {
        let (name, time) = text.split_once('=')?;
        Some((step(name)?, scaling::duration(time.trim())?))
    };
    read().ok_or_else(|| format!("--rest {text}: this is not a step and a time such as `rise=90 min`"))
}

/// `rise=28 C`
fn place(text: &str) -> Result<(String, Temperature), String> {
    let unreadable = || format!("--at {text}: this is not a step and a temperature such as `rise=28 C`");
    let (name, at) = text.split_once('=').ok_or_else(unreadable)?;
    let name = step(name).ok_or_else(unreadable)?;
    let at = at.trim();
    if scaling::degrees(at).is_none() {
        return Err(unreadable());
    }
    Ok((name, bench_temperature("--at", at)?))
}

/// The name of a step, as names are compared.
fn step(name: &str) -> Option<String> {
    let name = crate::language::syntax::Key::new(name).as_str().to_owned();
    (!name.is_empty()).then_some(name)
}

/// Nothing is said twice of one step.
fn once_each<T>(option: &str, said: Vec<(String, T)>) -> Result<Vec<(String, T)>, String> {
    for (at, (name, _)) in said.iter().enumerate() {
        if said.iter().take(at).any(|(before, _)| before == name) {
            return Err(format!("{option}: `{name}` is said twice"));
        }
    }
    Ok(said)
}
