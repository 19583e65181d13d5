//! How far each choice of a recipe has fermented when it goes into the oven: an estimate to compare by, never a fact.

use super::estimate::{Course, Model, Stretch, course, minutes_to};
use super::tables::{Asked, Section, Sums, Version};
use super::topic;
use super::yeast::convert;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Count, Duration, Mass, Proportion};
use crate::measure::show;
use crate::measure::temperature::Temperature;
use crate::model::cooking::{first_draw, has_word, is_hot};
use crate::model::kind::{Kind, YeastForm};
use crate::model::recipe::{Part, PartId, Recipe};
use crate::model::step::{Loads, Step, Target, Timing};
use crate::solve::formula::Formula;

/// A room when nothing is said (assumed).
const ROOM: Temperature = Temperature::from_celsius(Number::whole(22));
/// A dough after mixing when nothing is desired (assumed).
const DOUGH: Temperature = Temperature::from_celsius(Number::whole(25));

/// The life of a dough, from its mix to the oven.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Life {
    /// What leavens it, as it is called.
    pub leaven: String,
    /// Whether that is a levain.
    pub is_levain: bool,
    /// How much on flour: instant yeast or what does the same; of a levain the share of flour that is prefermented.
    pub amount: Proportion,
    /// How warm it leaves the mix.
    pub starts_at: Temperature,
    /// Step by step: the name and the stretch.
    pub stretches: Vec<(String, Stretch)>,
}

impl Life {
    /// Whether another has the same leaven for the same time, within a fiftieth: no choice to speak of.
    fn is_as_long_as(&self, other: &Life) -> bool {
        let (mine, others) = (self.courses().0.hours_at_25, other.courses().0.hours_at_25);
        let apart = mine.minus(others).and_then(|apart| apart.size().times(Number::whole(50)));
        self.leaven == other.leaven && self.amount == other.amount && apart.is_ok_and(|apart| apart <= mine)
    }

    /// By the growth model, and by the rule of thumb.
    fn courses(&self) -> (Course, Course) {
        let stretches: Vec<Stretch> = self.stretches.iter().map(|(_, stretch)| *stretch).collect();
        let model = if self.is_levain { Model::SourdoughYeast } else { Model::BakersYeast };
        let by = |model| course(model, self.starts_at, &stretches);
        (by(model), by(Model::TenthPerDegree))
    }
}

/// Follows a recipe's dough through its parts; `None` when nothing leavens it or its amount is not known.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn life(recipe: &Recipe, formula: &Formula, asked: &Asked) -> Result<Option<Life>, Overflow> {
    let mut ids: Vec<(bool, PartId)> = recipe.parts().map(|(id, part)| (part.foreign.is_some(), id)).collect();
    ids.sort();
    for (_, id) in ids {
        let Some(part) = recipe.part(id).filter(|part| part.from.is_none()) else { continue };
        if formula.part(id).is_some_and(|part| part.is_made)
            && let Some((leaven, is_levain, amount, from)) = leaven(recipe, formula, id, part)?
        {
            let starts_at = part.desired_temperature.unwrap_or(DOUGH);
            let stretches = stretches(recipe, formula, id, from, asked)?;
            return Ok((!stretches.is_empty()).then_some(Life { leaven, is_levain, amount, starts_at, stretches }));
        }
    }
    Ok(None)
}

/// What leavens a part: its name, whether it is a levain, how much, and in which step it goes in.
#[allow(clippy::type_complexity)] // four facts of one find
fn leaven(
    recipe: &Recipe,
    formula: &Formula,
    id: PartId,
    part: &Part,
) -> Result<Option<(String, bool, Proportion, usize)>, Overflow> {
    let Some(solved) = formula.part(id) else { return Ok(None) };
    for (at, (line, amount)) in part.lines.iter().zip(&solved.lines).enumerate() {
        let (Some(form), Some(mass), Some(base)) = (line.kind.yeast_form(), amount.mass, solved.base) else {
            continue;
        };
        if base > Mass::ZERO && mass > Mass::ZERO {
            let share = convert(mass, form, YeastForm::InstantDry)?.as_share_of(base)?;
            let from = first_draw(part, Target::Line(at)).unwrap_or(0);
            return Ok(Some((form.word().to_owned(), false, share, from)));
        }
    }
    // A part is no ingredient; but a preferment that is called so, or holds a leaven, is one.
    let is_levain = |part: &Part| {
        Kind::of_name(part.name.key.as_str()) == Kind::Leaven || part.lines.iter().any(|line| line.kind == Kind::Leaven)
    };
    let taken = recipe.preferments(id).find(|(_, preferment)| is_levain(preferment));
    if let (Some((preferment, levain)), Some(share)) = (taken, solved.prefermented) {
        let from = first_draw(part, Target::Preferment(preferment)).unwrap_or(0);
        return Ok(Some((levain.name.to_string(), true, share, from)));
    }
    Ok(None)
}

/// From the step where the leaven goes in to the oven, through the parts that take the dough up.
fn stretches(
    recipe: &Recipe,
    formula: &Formula,
    first: PartId,
    from: usize,
    asked: &Asked,
) -> Result<Vec<(String, Stretch)>, Overflow> {
    let mut all = Vec::new();
    let (mut id, mut from) = (first, from);
    let mut piece = formula.part(id).and_then(|part| part.goes_in).unwrap_or(Mass::ZERO);
    let mut in_pieces = false;
    for _ in 0..=recipe.parts.len() {
        let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else { break };
        for step in part.steps.iter().skip(from) {
            if step.order.iter().any(|order| matches!(order, Timing::During(_))) {
                continue;
            }
            if is_hot(step) {
                return Ok(all);
            }
            in_pieces |= step.loads == Loads::Each || has_word(step.name.key.as_str(), &["divide", "shape", "scale"]);
            if let (true, Some(each)) = (in_pieces, solved.each) {
                piece = each;
            }
            let stretch = Stretch { time: time_of(step, formula.pieces, asked)?, place: place_of(step, asked), piece };
            all.push((step.name.to_string(), stretch));
        }
        if let Some(each) = solved.each {
            piece = each;
        }
        let Some((user, line)) =
            recipe.users(id).find(|(user, _)| formula.part(*user).is_some_and(|part| part.is_made))
        else {
            break;
        };
        from = recipe.part(user).and_then(|part| first_draw(part, Target::Line(line))).unwrap_or(0);
        id = user;
    }
    // Without an oven step the end is not known.
    Ok(all)
}

fn time_of(step: &Step, pieces: Option<Count>, asked: &Asked) -> Result<Duration, Overflow> {
    if let Some((_, time)) = asked.rests.iter().find(|(name, _)| *name == step.name.key.as_str()) {
        return Ok(*time);
    }
    let middle = step.time.0.plus(step.time.1)?.over(Number::whole(2))?;
    match (step.loads, pieces) {
        (Loads::Each, Some(pieces)) => middle.times(pieces.value()),
        _ => Ok(middle),
    }
}

fn place_of(step: &Step, asked: &Asked) -> Temperature {
    step.temperature.map_or(asked.today.room.unwrap_or(ROOM), |(low, _)| low)
}

pub(super) fn section(versions: &[Version<'_>], asked: &Asked, all: &mut Sums) -> Result<(), Overflow> {
    let as_written = Asked { rests: Vec::new(), ..asked.clone() };
    let mut lives: Vec<(String, Life, &Version<'_>)> = Vec::new();
    for version in versions {
        let Some(life) = life(version.recipe, version.formula, &as_written)? else { continue };
        match lives.iter().find(|(_, known, _)| known.is_as_long_as(&life)) {
            Some(_) => {}
            None => lives.push((version.name.clone(), life, version)),
        }
    }
    let Some((first_name, first, _)) = lives.first() else { return Ok(()) };
    let mut section = Section::new("How far it ferments (an estimate)", &topic::FERMENTATION);
    let (first_model, first_rule) = first.courses();
    for (name, life, version) in &lives {
        let (model, rule) = life.courses();
        let called = if name.is_empty() { String::new() } else { format!("{name}: ") };
        section.row(format!("{called}{}", amount_words(life)), show::percent(life.amount), life.amount.percent()?, "%");
        let hours = format!("{} h{}", model.hours_at_25.decimal(1), range(model.hours_at_25, rule.hours_at_25, " h"));
        section.row(format!("{called}as long as at 25 °C"), hours, model.hours_at_25, "h");
        if !std::ptr::eq(life, first) {
            compare(
                called.trim_end_matches(": "),
                first_name,
                (life, model, rule),
                (first, first_model, first_rule),
                &mut section,
            )?;
        }
        changed(&called, life, version, asked, &mut section, all)?;
    }
    chilled(first, &mut section);
    section.remarks.push(
        "An estimate: it counts how fast yeast grows at each temperature, with the dough warming and cooling as a ball of its \
         weight, and no lag, sugar, salt or wear of the yeast. In brackets by the rule of a tenth more for each degree; the \
         truth may lie a third either side. Valid from 5 to 35 °C (levain 10 to 33 °C); read the dough, not the figure."
            .to_owned(),
    );
    all.sections.push(section);
    unknown_rests(versions, asked, all);
    Ok(())
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
    section: &mut Section,
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
    if by_model.is_positive() && !life.is_levain {
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

/// The leaven for other times of rest.
fn changed(
    called: &str,
    life: &Life,
    version: &Version<'_>,
    asked: &Asked,
    section: &mut Section,
    all: &mut Sums,
) -> Result<(), Overflow> {
    let knows = |name: &str| life.stretches.iter().any(|(step, _)| step.to_lowercase() == name);
    let known: Vec<&(String, Duration)> = asked.rests.iter().filter(|(name, _)| knows(name)).collect();
    if known.is_empty() {
        return Ok(());
    }
    let Some(other) = self::life(version.recipe, version.formula, asked)? else { return Ok(()) };
    let (before, before_rule) = life.courses();
    let (after, after_rule) = other.courses();
    let words: Vec<String> = known.iter().map(|(name, time)| format!("{name} {}", show::duration(*time))).collect();
    let words = show::list(&words);
    if !after.hours_at_25.is_positive() || !after_rule.hours_at_25.is_positive() {
        all.impossible
            .push(format!("{called}with {words} nothing ferments, so that no amount of yeast makes up for it"));
        return Ok(());
    }
    let percent = |factor: Number| life.amount.value().times(factor)?.times(Number::whole(100));
    let by_model = percent(before.hours_at_25.over(after.hours_at_25)?)?;
    let by_rule = percent(before_rule.hours_at_25.over(after_rule.hours_at_25)?)?;
    let what = if life.is_levain { "flour to ferment before" } else { "instant yeast" };
    section.row(
        format!("{called}with {words}, {what} for as much"),
        format!("{} % ({} %) instead of {}", by_model.decimal(2), by_rule.decimal(2), show::percent(life.amount)),
        by_model,
        "%",
    );
    Ok(())
}

/// How long the pieces take to become cold.
fn chilled(life: &Life, section: &mut Section) {
    let cold = Temperature::from_celsius(Number::whole(8));
    let Some((name, stretch)) =
        life.stretches.iter().find(|(_, stretch)| stretch.place < cold && stretch.piece > Mass::ZERO)
    else {
        return;
    };
    let to = Temperature::from_celsius(Number::whole(10));
    if let Some(minutes) = minutes_to(life.starts_at, stretch.place, stretch.piece, to) {
        let five = minutes.rounded_to(Number::whole(5)).ok().and_then(Number::to_whole).unwrap_or(0);
        section.row(
            format!("{name}: {} of dough falls to 10 °C in about", show::mass_plain(stretch.piece)),
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

fn unknown_rests(versions: &[Version<'_>], asked: &Asked, all: &mut Sums) {
    for (name, _) in &asked.rests {
        let has = |recipe: &Recipe| {
            let mut steps = recipe.parts.iter().flat_map(|part| &part.steps);
            steps.any(|step| step.name.key.as_str() == name)
        };
        if !versions.iter().any(|version| has(version.recipe)) {
            all.impossible.push(format!("--rest: there is no step `{name}`"));
        }
    }
}
