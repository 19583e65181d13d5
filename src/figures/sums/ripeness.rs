//! How far each choice of a recipe has fermented when it goes into the oven: an estimate to compare by, never a fact.

use super::estimate::{Course, minutes_to};
use super::life::{self, Life};
use super::same_ferment;
use super::tables::{Asked, Section, Sums, Version};
use super::topic;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Duration, Mass};
use crate::measure::show::{self, Units};
use crate::measure::shown::Shown;
use crate::measure::temperature::Temperature;
use crate::model::cold::is_cold;

pub(super) fn section(versions: &[Version<'_>], asked: &Asked, all: &mut Sums) -> Result<(), Overflow> {
    let as_written = Asked { rests: Vec::new(), places: Vec::new(), ..asked.clone() };
    let mut lives: Vec<(String, Life, &Version<'_>)> = Vec::new();
    same_ferment::unknown_steps(versions, asked, all);
    for version in versions {
        let Some(life) = life::life(version.recipe, version.formula, &as_written)? else { continue };
        match lives.iter().find(|(_, known, _)| known.is_as_long_as(&life)) {
            Some(_) => {}
            None => lives.push((version.name.clone(), life, version)),
        }
    }
    let Some((first_name, first, _)) = lives.first() else { return Ok(()) };
    let mut section = Section::new("How far it ferments (an estimate)", &topic::FERMENTATION);
    let (first_model, first_rule) = first.courses();
    let has_sponge = lives.iter().any(|(_, life, version)| !life.is_levain && has_sponge(version));
    for (name, life, version) in &lives {
        let (model, rule) = life.courses();
        let called = if name.is_empty() { String::new() } else { format!("{name}: ") };
        section.row(format!("{called}{}", amount_words(life)), show::percent(life.amount), life.amount.percent()?, "%");
        let hours = format!("{} h{}", model.hours_at_25.decimal(1), range(model.hours_at_25, rule.hours_at_25, " h"));
        section.row(format!("{called}as long as at {}", degrees(25, asked.units)), hours, model.hours_at_25, "h");
        if life.is_levain != first.is_levain {
            let remark = "Yeast and levain are not compared: flour that is fermented and yeast that is added are not the same amount of anything.";
            if !section.remarks.iter().any(|known| known == remark) {
                section.remarks.push(remark.to_owned());
            }
        } else if !std::ptr::eq(life, first) {
            compare(
                called.trim_end_matches(": "),
                first_name,
                (life, model, rule),
                (first, first_model, first_rule),
                (has_sponge, &mut section),
            )?;
        }
        same_ferment::rows(&called, life, version, asked, &mut section, all)?;
    }
    chilled(first, asked.units, &mut section);
    if has_sponge && lives.len() > 1 {
        section.remarks.push(
            "What a sponge or another yeasted preferment has fermented before the mix is not counted: its yeast has grown since it was \
             weighed, and a dough with it takes about half the yeast of one without (common practice)."
                .to_owned(),
        );
    }
    let [low, high, levain_low, levain_high] = [5, 35, 10, 33].map(|celsius| bare(celsius, asked.units));
    let unit = if asked.units == Units::Us { "°F" } else { "°C" };
    section.remarks.push(format!(
        "An estimate: it counts how fast yeast grows at each temperature, with the dough warming and cooling as a ball of its \
         weight, and no lag, sugar, salt or wear of the yeast. In brackets by the rule of a tenth more for each degree; the \
         truth may lie a third either side. Valid from {low} to {high} {unit} (levain {levain_low} to {levain_high} {unit}); read the \
         dough, not the figure."
    ));
    all.sections.push(section);
    Ok(())
}

/// Whether some of a dough's yeast has fermented in a preferment before the mix.
fn has_sponge(version: &Version<'_>) -> bool {
    let mut made = version.formula.made(version.recipe);
    made.any(|(_, part)| part.from.is_some() && part.lines.iter().any(|line| line.kind.is_yeast()))
}

/// So many degrees Celsius as the reader has them.
fn degrees(celsius: i64, units: Units) -> Shown {
    let units = if units == Units::Us { Units::Us } else { Units::Metric };
    show::temperature(Temperature::from_celsius(Number::whole(celsius)), units)
}

/// The same without its unit.
fn bare(celsius: i64, units: Units) -> String {
    let shown = degrees(celsius, units).to_string();
    shown.split_whitespace().next().unwrap_or_default().to_owned()
}

fn amount_words(life: &Life) -> String {
    if life.is_levain {
        format!("flour fermented in {}", life.leaven)
    } else {
        "instant yeast on flour, or what does the same".to_owned()
    }
}

fn range(model: Number, rule: Number, unit: &str) -> String {
    let (a, b) = (model.decimal(1), rule.decimal(1));
    if a == b { String::new() } else { format!(" ({b}{unit})") }
}

/// How far one version has come against another, and the leaven that would make them alike.
fn compare(
    name: &str,
    first_name: &str,
    (life, model, rule): (&Life, Course, Course),
    (first, first_model, first_rule): (&Life, Course, Course),
    (has_sponge, section): (bool, &mut Section),
) -> Result<(), Overflow> {
    let work = |life: &Life, course: Course| life.amount.value().times(course.hours_at_25);
    let against = |model: Course, first_model: Course| -> Result<Option<Number>, Overflow> {
        let reference = work(first, first_model)?;
        if reference.is_positive() { work(life, model)?.over(reference).map(Some) } else { Ok(None) }
    };
    let (Some(by_model), Some(by_rule)) = (against(model, first_model)?, against(rule, first_rule)?) else {
        return Ok(());
    };
    let percent = Number::whole(100);
    let (low, high) = (by_model.min(by_rule).times(percent)?, by_model.max(by_rule).times(percent)?);
    let shown = if low.decimal(0) == high.decimal(0) {
        format!("{} %", low.decimal(0))
    } else {
        format!("{}–{} %", low.decimal(0), high.decimal(0))
    };
    let verdict = if low >= Number::whole(80) && high <= Number::whole(125) {
        "alike, as far as this can tell"
    } else if high < Number::whole(80) {
        "less far"
    } else if low > Number::whole(125) {
        "further"
    } else {
        "this cannot tell whether they are alike"
    };
    section.row(
        format!("{name} has come, {first_name} being 100 %"),
        format!("{shown}: {verdict}"),
        by_model.times(percent)?,
        "%",
    );
    // Of yeast that grew in a sponge nobody says how much there is by now.
    if by_model.is_positive() && !life.is_levain && !has_sponge {
        let alike = life.amount.value().over(by_model)?.times(percent)?;
        section.row(
            format!("{name} would be as far as {first_name} with instant yeast of"),
            format!("{} % instead of {}", alike.decimal(2), show::percent(life.amount)),
            alike,
            "%",
        );
    }
    Ok(())
}

/// How long the pieces take to become cold.
fn chilled(life: &Life, units: Units, section: &mut Section) {
    let Some((name, stretch)) =
        life.stretches.iter().find(|(_, stretch)| is_cold(stretch.place) && stretch.piece > Mass::ZERO)
    else {
        return;
    };
    let to = Temperature::from_celsius(Number::whole(10));
    if let Some(minutes) = minutes_to(life.starts_at, stretch.place, stretch.piece, to) {
        let piece = if units == Units::Us { show::mass_us(stretch.piece) } else { show::mass_plain(stretch.piece) };
        let five = minutes.rounded_to(Number::whole(5)).ok().and_then(Number::to_whole).unwrap_or(0);
        section.row(
            format!("{name}: {piece} of dough falls to {} in about", degrees(10, units)),
            show::duration(Duration::minutes(five)),
            minutes,
            "min",
        );
        section.remarks.push(
            "The cooling is that of a ball with air around it; a batch in a closed tub or a full rack takes longer. It is no \
             proof that food is cooled in time: for that measure, and follow the local food law."
                .to_owned(),
        );
    }
}
