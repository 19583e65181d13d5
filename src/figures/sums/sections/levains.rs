//! The schedule of a levain that is built from a seed.

use crate::figures::sums::levain::{Build, Feed, NoSchedule, schedule};
use crate::figures::sums::tables::{LevainAsked, Section, Sums, Table};
use crate::figures::sums::topic;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::measure::show::{self, Units};
use crate::measure::shown::Shown;
use crate::model::kind::Kind;
use crate::model::recipe::Recipe;
use crate::solve::formula::Formula;
use jiff::ToSpan;

pub(super) fn section(
    recipe: &Recipe,
    formula: &Formula,
    asked: &LevainAsked,
    units: Units,
    all: &mut Sums,
) -> Result<(), Overflow> {
    let needed = match asked.needed {
        Some(needed) => needed,
        None => taken(recipe, formula)?,
    };
    if needed == Mass::ZERO {
        all.asked_in_vain.push(
            "no ingredient of this recipe is a starter or levain: say with `--levain \"500 g\"` how much is to be built".to_owned(),
        );
        return Ok(());
    }
    let build = Build { needed, seed: asked.seed, feeds: asked.feeds, hydration: asked.hydration };
    let schedule = match schedule(&build) {
        Ok(schedule) => schedule,
        Err(NoSchedule::TooLarge) => return Err(Overflow),
        Err(why) => {
            all.asked_in_vain.push(String::from(why));
            return Ok(());
        }
    };
    let mut section = Section::new(
        format!("Levain, {} from {} of seed", show::mass(needed, units), show::mass(asked.seed, units)),
        &topic::LEVAIN,
    );
    section.row("each feed multiplies by", show::number(schedule.factor), schedule.factor, "");
    if let Some(first) = schedule.feeds.first() {
        section.row("seed that is taken", show::mass(tenth(first.ripe)?, units), first.ripe.value(), "g");
    }
    let head = ["feed", "when", "ripe levain", "flour", "water", "makes"].map(str::to_owned).to_vec();
    let count = i64::try_from(schedule.feeds.len()).unwrap_or(0);
    let rows: Result<Vec<Vec<Shown>>, Overflow> =
        (0..).zip(&schedule.feeds).map(|(at, feed)| row(at, count, feed, asked, units)).collect();
    section.table = Some(Table { head, rows: rows? });
    section.remarks.push(format!(
        "Each feed is given {} to ripen. Go by the levain, not the clock: it is ripe when it is domed and just begins to sink.",
        show::duration(crate::measure::quantity::Duration::minutes(asked.every_minutes))
    ));
    all.sections.push(section);
    Ok(())
}

fn tenth(mass: Mass) -> Result<Mass, Overflow> {
    mass.value().rounded_to(Number::constant(1, 10)).map(Mass::new)
}

fn row(at: i64, count: i64, feed: &Feed, asked: &LevainAsked, units: Units) -> Result<Vec<Shown>, Overflow> {
    let before = (count - at).saturating_mul(asked.every_minutes);
    let when = match asked.ready.map(|ready| ready.checked_sub(before.minutes())) {
        Some(Ok(moment)) => moment.strftime("%Y-%m-%d %H:%M").to_string(),
        Some(Err(_)) | None => {
            format!("{} before", show::duration(crate::measure::quantity::Duration::minutes(before)))
        }
    };
    let mass = |mass: Mass| tenth(mass).map(|mass| show::mass(mass, units));
    let number = Shown::new((at + 1).to_string(), "");
    Ok(vec![number, when.into(), mass(feed.ripe)?, mass(feed.flour)?, mass(feed.water)?, mass(feed.makes)?])
}

/// What the recipe takes of starters and levains that it has no formula for.
fn taken(recipe: &Recipe, formula: &Formula) -> Result<Mass, Overflow> {
    let mut total = Mass::ZERO;
    for (id, _) in formula.made(recipe) {
        let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else { continue };
        // Of a preferment of which some is left over more is taken than goes into its dough.
        let mixed = solved.mixed()?;
        for (line, amount) in part.lines.iter().zip(&mixed.lines) {
            if let (Kind::Leaven, Some(mass)) = (line.kind, amount.final_mix) {
                total = total.plus(mass)?;
            }
        }
    }
    Ok(total)
}
