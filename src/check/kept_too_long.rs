//! `kept-too-long`: cooked or ready food kept chilled for longer than the food code allows.

use super::curing::is_curing_salt;
use super::dough::{has_flour, inside, mass_of, mille};
use super::keeping::turns_sour;
use super::kept::{is_culture, is_in_dough, is_kept, is_pickle, is_raw_flesh};
use super::promise::{self, Promise, SaidBy};
use super::raw_pastry::is_pastry;
use super::shelf_storage::{holds_fresh_fruit, is_creamed, shut_off};
use super::statement::{self, LONG_IN_THE_COLD};
use super::{Check, Family, Run, Subject};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Duration, Mass, Proportion};
use crate::measure::show::{self, Units};
use crate::model::animals::is_bird;
use crate::model::cooking::raw_flesh::is_minced;
use crate::model::cooking::{beginnings, called, chills, cooks};
use crate::model::flow::DEEPEST;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Keeps, Part, PartId, Recipe};
use crate::model::spoils::{Body, body};
use crate::model::step::{Step, StepKind};
use crate::solve::formula::{Formula, SolvedPart};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::Span;
use std::collections::HashMap;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "kept-too-long",
    severity: Severity::Advice,
    family: Family::Safety,
    looks_for: "cooked or ready-to-eat parts that are kept chilled for longer than seven days, the day they are made counted; raw minced meat, poultry, fish and offal for more than two, other raw meat for more than five; raw dough with yeast for more than fourteen",
    why: "Listeria grows in the cold. The FDA Food Code lets food that needs refrigeration stand for seven days at 5 °C or \
          below; the day it is made is the first, so six days lie between, and the rests in the cold before it is kept count. What is mixed takes the date of its oldest part; \
          freezing stops the clock. Jam and syrup with 55 % sugar and more (45 % of sour fruit), pastes of nuts, what is salted with 8 %, pickles with 0.6 % acid on everything and no sixth of pulses, grain, potato or seed paste in them, and vegetables and drinks that fermented for a day and \
          more keep by themselves and are left alone. Kept warmer than 5 °C, four days are the most, and so they are for garlic, herbs and cheese in oil. What a label \
          promises, `best before` or `use by`, counts as what a part keeps. A preserve that keeps for longer says why in a `caution` line: a pH of 4.6 or below, a test, its salt; how cold and how long it is kept is no reason. This is general \
          advice: local food law and licensed practice go before it.",
    bad: "recipe Pea spread\npeas .... 500 g\nwater .... 200 ml\nkeeps 9 days, chilled\ncook: tend 30 min, using hob\n    \
          Simmer {peas} in {water}.\n    until soft\n",
    good: "recipe Pea spread\npeas .... 500 g\nwater .... 200 ml\nkeeps 4 days, chilled\ncook: tend 30 min, using hob\n    \
           Simmer {peas} in {water}.\n    until soft\n",
    sources: &[
        "FDA Food Code 3-501.17, date marking: 7 days at 5 °C, the day of preparation is day 1",
        "FDA Food Code 1999 3-501.17: 4 days at up to 7 °C (from memory)",
        "CDC and FDA on garlic in oil: 4 days (from memory)",
        "FSIS, refrigeration and food safety: ground meat, poultry and fish 1 to 2 days, chops and roasts 3 to 5 (from memory)",
    ],
    run: Run::Parts(run),
};

/// Seven days, the first of which is the day it is made.
const LONGEST: Duration = Duration::days(6);

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let mut known = HashMap::new();
    for (id, part, solved) in subject.own_parts() {
        // What its cautions say is read word by word, and only where something is wrong.
        let is_said = || statement::states(subject.recipe, part, LONG_IN_THE_COLD);
        let is_kept = || is_pickle(subject.recipe, subject.formula, id) || is_said();
        if let Some(problem) =
            sold_too_long(subject, id, (part, solved)).or_else(|| too_long_in_oil(subject, id, (part, solved)))
        {
            diagnostics.extend((!is_said()).then_some(problem));
            continue;
        }
        if let Some(problem) = raw_too_long(part) {
            diagnostics.extend((!is_kept()).then_some(problem));
            continue;
        }
        if let Some(problem) = alive_too_long(part, solved) {
            diagnostics.extend((!is_said()).then_some(problem));
            continue;
        }
        let is_ready = || {
            is_lightly_cured(part, solved) || is_ready(part, solved.composition.flour) && !keeps_by_itself(part, solved)
        };
        let Some(keeps) = part.keeps.filter(|keeps| keeps.how.is_chilled() && is_ready()) else { continue };
        if let Some(problem) = too_warm(part, &keeps) {
            diagnostics.extend((!is_kept()).then_some(problem));
            continue;
        }
        let (oldest, mut spans) = oldest(subject, id, 0, &mut known);
        let rests: Vec<(&Step, Duration)> = cold_rests(part).collect();
        let rested = Duration::sum(rests.iter().map(|(_, time)| *time)).and_then(whole_days);
        let Ok((rested, total)) = rested.and_then(|rested| Ok((rested, oldest.plus(keeps.time)?.plus(rested)?))) else {
            continue;
        };
        if total <= LONGEST || is_kept() {
            continue;
        }
        let rests = rests.iter().filter(|_| rested > Duration::ZERO);
        spans.extend(
            rests.map(|(step, time)| (step.time_span, format!("may stand {} here already", show::duration(*time)))),
        );
        let alone = keeps.time > LONGEST;
        let message = if alone {
            format!(
                "`{}` is kept chilled for {}; food that needs refrigeration is kept 7 days, the day it is made counted",
                part.name,
                show::duration(keeps.time)
            )
        } else {
            format!(
                "`{}` is up to {} old at the end, with its rests in the cold and what is in it; food that needs refrigeration is kept 7 days, the day it is made counted",
                part.name,
                show::duration(total)
            )
        };
        // What is left of the six days by what is in it and by its own rests.
        let left = oldest
            .plus(rested)
            .ok()
            .and_then(|before| LONGEST.value().minus(before.value()).ok())
            .and_then(|left| whole_days(Duration::new(left)).ok());
        let first = match left.filter(|left| *left > Duration::ZERO) {
            Some(left) => format!("keep it for {} at most", show::duration(left)),
            None => "let what is in it stand for fewer days".to_owned(),
        };
        let mut problem = Diagnostic::advice(CHECK.name, keeps.span, message).help(format!(
            "{first}, freeze it, or add a `caution` line that says why it keeps; local food law goes before this"
        ));
        if !alone {
            for (span, text) in spans {
                problem = problem.also(span, text);
            }
        }
        diagnostics.push(problem);
    }
}

/// So long a wet dough with little yeast is kept in the cold by some; most are sour and slack after 3 to 5 days. Common practice, no source.
const ALIVE: Duration = Duration::days(14);

/// A raw dough with yeast in it that is kept in the cold for weeks: it goes on fermenting there. A sour that is fed has no yeast. Pastry without any is told as well.
fn alive_too_long(part: &Part, solved: &SolvedPart) -> Option<Diagnostic> {
    let keeps = part.keeps.filter(|keeps| keeps.how.is_chilled() && keeps.time > ALIVE)?;
    if !has_flour(solved, 300) || part.steps.is_empty() || part.steps.iter().any(cooks) {
        return None;
    }
    let Some(yeast) = part.lines.iter().find(|line| line.kind.is_yeast() && line.stays_in()) else {
        let message = format!(
            "`{}` is kept chilled for {}: raw pastry is grey and sour within days",
            part.name,
            show::duration(keeps.time)
        );
        let help = "look whether a digit has slipped; freeze it, or keep it for some days";
        return is_pastry(part, solved).then(|| Diagnostic::advice(CHECK.name, keeps.span, message).help(help));
    };
    let message = format!(
        "`{}` is kept chilled for {} with live yeast in it: it is sour and slack after 3 to 5 days",
        part.name,
        show::duration(keeps.time)
    );
    Some(
        Diagnostic::advice(CHECK.name, keeps.span, message)
            .also(yeast.name.span, "goes on working in the cold")
            .help("look whether a digit has slipped; freeze it, or keep it for some days"),
    )
}

/// How long raw flesh keeps at 4 °C: minced meat, poultry, fish and offal for two days, whole cuts of other meat for five (FSIS and FDA, cold food storage
/// chart, from memory: 1 to 2 and 3 to 5 days).
const RAW_SOON: Duration = Duration::days(2);
const RAW: Duration = Duration::days(5);

/// Raw flesh that nothing in its part cooks, cures or sours, and that is kept in the cold for too long.
fn raw_too_long(part: &Part) -> Option<Diagnostic> {
    let keeps = part.keeps.filter(|keeps| keeps.how.is_chilled() && keeps.time > RAW_SOON)?;
    let turns = |step: &Step| {
        cooks(step)
            || called(
                step,
                beginnings![
                    "cure", "curing", "brine", "salt", "dry", "age|", "ageing", "hang", "ferment", "matur", "smoke"
                ],
            )
    };
    let most = |line: &Ingredient| {
        let name = line.name.key.as_str();
        let said = line.preparation.as_ref().map(|said| said.to_lowercase());
        let soon = line.kind != Kind::Meat
            || is_bird(name)
            || is_minced(name, said.as_deref())
            || line.name.has_word_beginning(beginnings!["liver", "kidney", "heart", "sausage"]);
        if soon { RAW_SOON } else { RAW }
    };
    let is_kept = |line: &Ingredient| is_curing_salt(line) || is_culture(line) || line.kind == Kind::Vinegar;
    if part.steps.is_empty() || part.steps.iter().any(turns) || part.lines.iter().any(is_kept) {
        return None;
    }
    let line = part.lines.iter().filter(|line| line.stays_in() && is_raw_flesh(line)).min_by_key(|line| most(line))?;
    let most = most(line);
    let message = format!(
        "`{}` is kept chilled for {} with raw {} in it, which keeps {}",
        part.name,
        show::duration(keeps.time),
        line.name,
        show::duration(most)
    );
    (keeps.time > most).then(|| {
        Diagnostic::advice(CHECK.name, keeps.span, message).also(line.name.span, "raw").help(format!(
            "keep it for {} at most, freeze it, or add a `caution` line that says why it keeps; local food law goes before this",
            show::duration(most)
        ))
    })
}

/// What the label promises of food that needs refrigeration, where its part does not promise it too.
fn sold_too_long(subject: &Subject<'_>, id: PartId, (part, solved): (&Part, &SolvedPart)) -> Option<Diagnostic> {
    let (recipe, formula) = (subject.recipe, subject.formula);
    // How cold it is to be kept is read from words, and only where the time is long.
    recipe.sale.good_for.as_ref().filter(|good| good.time > LONGEST)?;
    let sold = promise::on_label(recipe, id, part).filter(|sold| sold.is_chilled() && sold.time > LONGEST)?;
    let is_told = part.keeps.is_some_and(|keeps| keeps.how.is_chilled() && keeps.time > LONGEST);
    // Cream that goes on when all is baked is no crumb, whatever dough it lies on.
    let spoils = is_creamed(recipe, formula, id)
        || inside(recipe, id)
            .into_iter()
            .any(|inner| is_perishable(recipe, formula, inner) && !is_in_dough(recipe, inner))
        || holds_fresh_fruit(recipe, formula, id);
    let is_raw = is_lightly_cured(part, solved);
    // The flour of a cake that is put together was baked in what lies in it.
    let takes_flour = |part: &Part| part.lines.iter().any(|line| line.is_flour && !line.aside);
    let is_put_together = || {
        !part.steps.is_empty()
            && inside(recipe, id)
                .into_iter()
                .filter_map(|inner| recipe.part(inner))
                .all(|inner| !takes_flour(inner) || inner.steps.iter().any(cooks))
    };
    let is_food = || {
        (is_ready(part, solved.composition.flour) || is_put_together())
            && !keeps_by_itself(part, solved)
            && spoils
            && !is_pickle(recipe, formula, id)
    };
    if is_told || !(is_raw || is_food()) {
        return None;
    }
    let message = format!(
        "`{}` is sold for {}, chilled; food that needs refrigeration is kept 7 days, the day it is made counted",
        part.name,
        show::duration(sold.time)
    );
    let law = if sold.by == SaidBy::BestBefore {
        " and says `use by` (Regulation (EU) 1169/2011, Article 24; from memory)"
    } else {
        ""
    };
    Some(Diagnostic::advice(CHECK.name, sold.span, message).help(format!(
        "what is ready to eat is sold for 6 days at most{law}; freeze it, or add a `caution` line that says why it keeps; local food law goes before this"
    )))
}

/// Whether meat, milk, cream, egg or vegetables are a good deal of a part, and nothing in it keeps them.
fn is_perishable(recipe: &Recipe, formula: &Formula, id: PartId) -> bool {
    let Some((part, solved)) = recipe.part(id).zip(formula.part(id)) else { return false };
    let is_it = |line: &Ingredient| body(line).is_some_and(|body| !matches!(body, Body::Rice | Body::Grain));
    let share =
        |mass: Mass, least: i64| mass.as_share_of(solved.composition.total).is_ok_and(|share| share >= mille(least));
    mass_of(part, solved, is_it).is_some_and(|mass| share(mass, 120)) && !is_kept(recipe, formula, id, part.steps.len())
}

/// So long garlic, herbs and cheese are kept in oil: CDC and FDA (from memory).
const IN_OIL: Duration = Duration::days(4);

/// What is kept chilled in oil or honey for longer than that.
fn too_long_in_oil(subject: &Subject<'_>, id: PartId, (part, solved): (&Part, &SolvedPart)) -> Option<Diagnostic> {
    let is_long = |kept: &Promise| kept.time > IN_OIL && kept.is_chilled();
    // How cold it is to be kept is read from words, and only where the time is long.
    let sold = || {
        subject.recipe.sale.good_for.as_ref().filter(|good| good.time > IN_OIL)?;
        promise::on_label(subject.recipe, id, part).filter(is_long)
    };
    let kept = promise::kept(part).filter(is_long).or_else(sold)?;
    let line = shut_off(subject.recipe, subject.formula, id, (part, solved), None)?;
    let message = format!(
        "`{}` is kept chilled for {}; shut off from air by oil or honey, what is moist and not sour is kept 4 days",
        part.name,
        show::duration(kept.time)
    );
    Some(Diagnostic::advice(CHECK.name, kept.span, message).also(line.name.span, "moist, and not sour").help(
        "keep it for 4 days at most, freeze it, or make it sour by a tested recipe and say so in a `caution` line; local food law goes before this",
    ))
}

/// Date marks count by the day: what chills for some hours is still of the day on which it was made.
fn whole_days(time: Duration) -> Result<Duration, Overflow> {
    Duration::days(1).times(time.in_days()?.floor())
}

/// How long ready food may stand in the cold before it is kept: the longest of each cold rest after the last heat, for the days are
/// counted from when it was made.
fn cold_rests(part: &Part) -> impl Iterator<Item = (&Step, Duration)> {
    let made = part.steps.iter().rposition(cooks).map_or(0, |last| last + 1);
    let rests = part.steps.iter().skip(made).filter(|step| step.kind == StepKind::Wait && chills(step));
    rests.map(|step| (step, step.up_to.unwrap_or(step.time.1)))
}

/// The warmest at which the seven days hold.
const COLD_ENOUGH: Number = Number::whole(5);
/// Longest at up to 7 or 8 °C.
const LESS_COLD: Duration = Duration::days(4);

/// Food that is kept in a place that is cold, but not cold enough for its time.
fn too_warm(part: &Part, keeps: &Keeps) -> Option<Diagnostic> {
    let at = keeps.temperature().filter(|at| at.celsius() > COLD_ENOUGH)?;
    if keeps.time <= LESS_COLD {
        return None;
    }
    let message = format!(
        "`{}` is kept for {} at {}; seven days hold at 5 °C or below, and above it four are the most",
        part.name,
        show::duration(keeps.time),
        show::temperature(at, Units::Metric)
    );
    Some(
        Diagnostic::advice(CHECK.name, keeps.span, message)
            .help("keep it at 4 °C or for a shorter time, freeze it, or add a `caution` line that says why it keeps; local food law goes before this"),
    )
}

/// Whether it is raw meat or fish that is salted for some hours or days and eaten so: cured salmon. It has less salt than what keeps by it, no
/// nitrite and no culture, and neither dries, ages nor ferments.
fn is_lightly_cured(part: &Part, solved: &SolvedPart) -> bool {
    let is_cured = part.steps.iter().any(|step| called(step, beginnings!["cure", "curing", "salt", "brine"]));
    let is_turned = || {
        part.steps.iter().any(|step| {
            called(step, beginnings!["dry", "age", "ageing", "hang", "ferment", "matur", "smoke"]) || cooks(step)
        })
    };
    let keeps = |line: &Ingredient| is_culture(line) || is_curing_salt(line);
    let is_salted = || solved.comes_out.salt.as_share_of(solved.comes_out.total).is_ok_and(|share| share >= SALTED);
    is_cured && part.lines.iter().any(is_raw_flesh) && !is_turned() && !part.lines.iter().any(keeps) && !is_salted()
}

/// Raw dough is not ready to eat; it is baked before it is.
fn is_ready(part: &Part, flour: Mass) -> bool {
    !part.steps.is_empty() && (flour == Mass::ZERO || part.steps.iter().any(cooks))
}

/// So much sugar or salt in what comes out binds the water in which germs would grow: 65 % is a full jam, and 55 % what keeps in the cold for weeks. Common
/// practice, no source.
const SWEET: Proportion = Proportion::new(Number::constant(55, 100));
const SALTED: Proportion = Proportion::new(Number::constant(8, 100));
const A_DAY: Duration = Duration::days(1);

/// Whether sugar, salt or a ferment keeps a part, and not the cold alone: jam, salted lemons, kimchi.
pub(crate) fn keeps_by_itself(part: &Part, solved: &SolvedPart) -> bool {
    let composition = &solved.comes_out;
    let share = |mass: Mass, least: Proportion| mass.as_share_of(composition.total).is_ok_and(|share| share >= least);
    let keeps = |step: &Step| {
        turns_sour(step) || (step.kind == StepKind::Wait && called(step, beginnings!["cure"]) && step.time.0 >= A_DAY)
    };
    // Meat and milk are no jar, whatever they are called.
    let spoils = || {
        part.lines.iter().any(|line| line.kind.is_flesh() || matches!(line.kind, Kind::Milk | Kind::Dairy | Kind::Egg))
    };
    let sour = || part.steps.iter().any(keeps) && composition.flour == Mass::ZERO && !spoils();
    // What is cooked after it fermented is another food.
    let is_cooked = || part.steps.iter().rposition(keeps).is_some_and(|at| part.steps.iter().skip(at + 1).any(cooks));
    // No sugar keeps meat, and none the yolks of a cream that is not sour.
    let sweet = || {
        let sour = || part.lines.iter().any(|line| matches!(line.kind, Kind::Juice | Kind::Vinegar | Kind::Fruit));
        let egg = |line: &Ingredient| line.kind == Kind::Egg && !line.is_egg_white();
        !part.lines.iter().any(|line| line.stays_in() && (line.kind.is_flesh() || egg(line) && !sour()))
    };
    // Sugar and spirit keep what neither keeps alone: mincemeat.
    let with_spirit = || {
        share(composition.sugar, Proportion::new(Number::constant(2, 5)))
            && part.lines.iter().any(|line| line.kind == Kind::Spirit)
            && !spoils()
    };
    // Jam of sour fruit has a pH of 3 to 3.8, whatever of its sugar is spared: mould comes to it, and nothing worse.
    let is_jam = || share(composition.sugar, JAM) && is_of_sour_fruit(part, solved) && part.steps.iter().any(cooks);
    share(composition.sugar, SWEET) && sweet()
        || is_jam()
        || is_dry(part, solved)
        || is_churned_butter(part)
        || with_spirit()
        || share(composition.salt, SALTED)
        || (sour() && !is_cooked())
}

/// So much sugar makes a jam of less sugar keep in the cold for weeks. Common practice, no source.
const JAM: Proportion = Proportion::new(Number::constant(45, 100));

/// Whether a quarter and more of what goes in is fruit that is sour by itself, and nothing but sugar, water, juice, spice and what sets it lies beside. A pH
/// of 4.6 and below needs no cold (21 CFR 114.3); melon, banana, fig, papaya, mango, persimmon, coconut and others are less sour (from memory).
fn is_of_sour_fruit(part: &Part, solved: &SolvedPart) -> bool {
    let is_mild = |line: &Ingredient| {
        line.name.has_word_beginning(beginnings![
            "melon",
            "watermelon",
            "banana",
            "plantain",
            "fig|",
            "figs|",
            "papaya",
            "mango",
            "persimmon",
            "coconut",
            "date|",
            "dates|",
            "avocado",
            "lychee",
            "jackfruit",
            "durian",
            "pumpkin",
            "pear|",
            "pears|",
            "chestnut"
        ])
    };
    let is_fruit = |line: &Ingredient| line.kind == Kind::Fruit && !is_mild(line);
    let beside = |line: &Ingredient| {
        is_fruit(line)
            || line.kind.is_sweet()
            || line.kind.is_liquid() && line.kind != Kind::Milk
            || matches!(line.kind, Kind::Spice | Kind::Salt | Kind::Thickener)
            || line.name.has_word_beginning(beginnings!["pectin", "vanilla", "citric acid"])
    };
    let fruit = mass_of(part, solved, is_fruit).and_then(|fruit| fruit.as_share_of(solved.composition.total).ok());
    part.lines.iter().filter(|line| line.stays_in()).all(beside) && fruit.is_some_and(|share| share >= mille(250))
}

/// Whether it is butter, of which the buttermilk ran off: it keeps for weeks in the cold (from memory).
fn is_churned_butter(part: &Part) -> bool {
    part.name.has_word_beginning(beginnings!["butter|"])
        && part.steps.iter().any(|step| called(step, beginnings!["churn"]))
        && part.lines.iter().filter(|line| line.stays_in()).all(|line| {
            matches!(line.kind, Kind::Dairy | Kind::Milk | Kind::Salt | Kind::Water | Kind::Ice) || is_culture(line)
        })
}

/// Nothing grows in what holds so little water, in thousandths: nut butter has 2 % (from memory).
const DRY: i64 = 80;

/// Whether a part is of nuts, seeds, fat, sugar and the like for good, so that hardly any water is in it: a paste of roasted nuts.
fn is_dry(part: &Part, solved: &SolvedPart) -> bool {
    let is_dry = |line: &Ingredient| {
        let known = line.facts().and_then(|facts| facts.contents.water);
        match line.kind {
            Kind::Nut | Kind::Seed | Kind::Fat | Kind::Sugar | Kind::Salt | Kind::Chocolate => {
                known.is_none_or(|water| water <= mille(200))
            }
            Kind::Spice => known.is_some_and(|water| water <= mille(200)),
            _ => false,
        }
    };
    let water = solved.composition.water.as_share_of(solved.composition.total);
    part.lines.iter().filter(|line| line.stays_in()).all(is_dry) && water.is_ok_and(|share| share <= mille(DRY))
}

/// How old a part may be, and where that is said.
type Age = (Duration, Vec<(Span, String)>);

/// The longest time that the chilled, ready parts in a part may have been kept already. What was found out once is kept in
/// `known`, since many ways may lead through the same part.
fn oldest(subject: &Subject<'_>, id: PartId, depth: usize, known: &mut HashMap<PartId, Age>) -> Age {
    if let Some(age) = known.get(&id) {
        return age.clone();
    }
    let mut longest = (Duration::ZERO, Vec::new());
    let Some(part) = subject.recipe.part(id).filter(|_| depth <= DEEPEST) else { return longest };
    for line in &part.lines {
        let crate::model::recipe::Refers::Part(other) = line.refers else { continue };
        let (Some(inner), Some(solved)) = (subject.recipe.part(other), subject.formula.part(other)) else { continue };
        let (below, mut spans) = oldest(subject, other, depth + 1, known);
        let own = inner.keeps.filter(|keeps| {
            keeps.how.is_chilled() && is_ready(inner, solved.composition.flour) && !keeps_by_itself(inner, solved)
        });
        let time = own.map_or(Duration::ZERO, |keeps| keeps.time);
        let Ok(total) = below.plus(time) else { continue };
        if total > longest.0 {
            if let Some(keeps) = own.filter(|_| inner.foreign.is_none()) {
                spans.push((keeps.span, format!("`{}` may be {} old", inner.name, show::duration(keeps.time))));
            }
            longest = (total, spans);
        }
    }
    known.insert(id, longest.clone());
    longest
}
