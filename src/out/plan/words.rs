//! What the run sheet, the drawing and the calendar of a plan say, each in one place.

use crate::figures::card::Portion;
use crate::figures::run_sheet::{RunSheet, Share, ShortRest};
use crate::measure::noun::several;
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::measure::show;
use crate::measure::shown::Shown;
use crate::model::step::StepKind;
use crate::out::block::Phrase;
use crate::plan::ahead;
use crate::plan::clock::{Twice, day_beside, short_day_beside};
use crate::plan::explain::{Contact, Early};
use crate::plan::problem::Minute;
use crate::plan::schedule::{Light, Made, Row, Schedule, Turned};
use crate::plan::shorter::Otherwise;
use jiff::civil::DateTime;

/// What becomes of an order: that it cannot be finished, or when it is ready.
pub(super) fn of_order(sheet: &RunSheet, number: usize, made: &Made) -> String {
    if sheet.now.as_ref().is_some_and(|now| now.cannot.contains(&number)) {
        return format!("{}: cannot be finished with what there is now", ordered(made));
    }
    promise(&sheet.plan, made)
}

/// What is made and when it is ready, and when it is wanted if that is later.
pub(super) fn promise(schedule: &Schedule, made: &Made) -> String {
    // A plan of weeks has each day of the week several times.
    let first = schedule.wall(0).map(|at| at.date());
    let clock = |minute: Minute| {
        let at = schedule.wall(minute)?;
        let day = short_day_beside(at.date(), first.unwrap_or(at.date()));
        Some(format!("{day} {}{}", at.strftime("%H:%M"), which_of_two(schedule, minute)))
    };
    let when = match (clock(made.ready), made.due.and_then(clock)) {
        (Some(ready), Some(due)) if ready != due => match made.due.filter(|due| *due < made.ready) {
            Some(wanted) => format!("ready at {ready}, {} late: wanted by {due}", time(made.ready - wanted)),
            None => format!("ready at {ready}, wanted by {due}"),
        },
        (Some(ready), _) => format!("ready at {ready}"),
        (None, _) => format!("ready after {}", time(made.ready)),
    };
    format!("{}: {when}", ordered(made))
}

/// What was ordered: `48 rolls of Pier rolls`.
pub(super) fn ordered(made: &Made) -> String {
    let wanted = if made.wanted.is_empty() { String::new() } else { format!("{} of ", made.wanted) };
    which(format!("{wanted}{}", made.recipe), &made.which)
}

/// What another kitchen would change, in a sentence; `None` stands for a kitchen in which there is no plan.
/// What is ready on a day before it is wanted stands with each.
pub fn what_if(
    line: &str,
    (now, early_now): (&Schedule, &[Early]),
    then: Option<(&Schedule, &[Early])>,
) -> Vec<Phrase> {
    let said = |rest: String| vec![Phrase::plain("With "), Phrase::typed(line), Phrase::plain(rest)];
    let Some((then, early)) = then else { return said(" there would be no plan.".to_owned()) };
    let unproven = if now.optimal && then.optimal { "" } else { ", as far as was found" };
    let difference = now.span - then.span;
    let span = match difference {
        0 => format!("it would take {} all the same", time(then.span)),
        shorter if shorter > 0 => format!("it would take {}, {} less", time(then.span), time(shorter)),
        longer => format!("it would take {}, {} more", time(then.span), time(-longer)),
    };
    let start = match then.wall(0) {
        Some(start) if difference != 0 => {
            let beside = now.wall(0).map_or(start.date(), |now| now.date());
            format!(", starting at {} on {}", start.strftime("%H:%M"), day_beside(start.date(), beside))
        }
        _ => String::new(),
    };
    let spells = match then.spells {
        same if same == now.spells => String::new(),
        1 => "; work would come in one spell".to_owned(),
        many => format!("; work would come in {many} spells instead of {}", now.spells),
    };
    let soon = match ready_too_soon(then, early) {
        Some(soon) => format!("; {soon}"),
        None if early_now.is_empty() => String::new(),
        None => "; everything would be ready on its day".to_owned(),
    };
    said(format!(" {span}{start}{unproven}{spells}{soon}."))
}

/// That something is ready on a day before it is wanted, and how long before: the most of all.
pub fn ready_too_soon(schedule: &Schedule, early: &[Early]) -> Option<String> {
    let before = |early: &Early| {
        let made = schedule.made.get(early.order)?;
        Some((made.due? - made.ready, made))
    };
    let (before, made) = early.iter().filter_map(before).max_by_key(|(before, _)| *before)?;
    Some(format!("{} would be ready {} before they are wanted", ordered(made), time(before)))
}

/// How long a plan takes.
pub fn lasts(schedule: &Schedule) -> String {
    time(schedule.span).to_string()
}

/// Who is busy: names, or numbers of people; in reach; or nobody.
pub(super) fn who(schedule: &Schedule, row: &Row) -> String {
    match row.kind {
        StepKind::Hands => people(schedule, &row.people),
        StepKind::Tend => "in reach".to_owned(),
        StepKind::Wait => "–".to_owned(),
    }
}

/// Who does which share of a line from when to when, where they do not all begin and end together; else who does it.
pub(super) fn who_of(sheet: &RunSheet, row: &Row) -> String {
    let line = sheet.lines.iter().find(|line| std::ptr::eq(&line.row, row));
    let shares = line.map_or(&[][..], |line| line.shares.as_slice());
    if shares.is_empty() {
        return who(&sheet.plan, row);
    }
    let share = |(who, start, end): &Share| format!("{} {}", people(&sheet.plan, who), when(&sheet.plan, *start, *end));
    shares.iter().map(share).collect::<Vec<String>>().join(", ")
}

/// The names of some people: `Mara+Jon`.
pub(super) fn people(schedule: &Schedule, numbers: &[u32]) -> String {
    numbers.iter().map(|number| schedule.person(*number)).collect::<Vec<String>>().join("+")
}

/// What a row is done for: the recipe and its part, and which of several.
pub(super) fn made(row: &Row) -> String {
    which(crate::out::list::place(&row.recipe, &row.part), &row.which)
}

/// What is made, with what tells it from others of that name.
pub(super) fn which(what: String, which: &str) -> String {
    if which.is_empty() { what } else { format!("{what} ({which})") }
}

/// What is done to bring something to its heat.
pub(super) fn lights(light: &Light) -> &'static str {
    match light.turned {
        Turned::On => "light",
        Turned::Up => "heat",
        Turned::Down => "turn down",
        Turned::Off => "put out",
    }
}

/// What is lit in one go: `oven 1 and 2`.
pub(super) fn lit_together(light: &Light, all: &[&Light]) -> String {
    let units: Vec<String> = all.iter().filter_map(|one| one.unit).map(|unit| unit.to_string()).collect();
    if all.len() < 2 || units.len() < all.len() {
        return light.unit_name();
    }
    format!("{} {}", light.equipment, show::list(&units))
}

/// What is filled in before, to which heat, and when that is reached: lighting it is a moment.
pub(super) fn heats(sheet: &RunSheet, light: &Light) -> String {
    let schedule = &sheet.plan;
    if light.turned == Turned::Off {
        return String::new();
    }
    let filled = goes_in(sheet.filled_into(light));
    let filled = if filled.is_empty() { filled } else { format!("{filled}; ") };
    let there = if light.turned == Turned::Down { "there" } else { "hot" };
    let heat = light.temperature.as_ref().map(|at| format!("to {at}; ")).unwrap_or_default();
    if light.meanwhile {
        return format!("{filled}{heat}the next goes in meanwhile");
    }
    format!("{filled}{heat}{there} at {}", starts_beside(schedule, light.end, light.start))
}

/// What is done, and which load of how many.
pub(super) fn action(row: &Row) -> String {
    let (load, loads) = row.counted();
    let load = if loads > 1 { format!(" {load} of {loads}") } else { String::new() };
    format!("{}{load}", row.step)
}

/// What it occupies: `deck oven 2 at 230 °C`; empty for nothing.
pub(super) fn place(row: &Row) -> String {
    let unit = row.unit.filter(|_| row.units > 1).map(|unit| format!(" {unit}")).unwrap_or_default();
    match (&row.equipment, &row.temperature) {
        (Some(equipment), Some(at)) => format!("{equipment}{unit} at {at}"),
        (Some(equipment), None) => format!("{equipment}{unit}"),
        (None, Some(at)) => format!("at {at}"),
        (None, None) => String::new(),
    }
}

/// The sign that ends it, with its word; empty for none.
pub(super) fn sign(row: &Row) -> String {
    let sign = row.cue.trim_start_matches("until ");
    if sign.is_empty() { String::new() } else { format!("until {sign}") }
}

/// What goes in: `6.4 kg flour, 4.1 kg water, all the poolish (2677 g)`; empty for nothing.
pub(super) fn goes_in(portions: &[Portion]) -> String {
    let one = |portion: &Portion| match (portion.shown.is_empty(), portion.shown.terms.is_empty()) {
        (true, _) => portion.ingredient.clone(),
        _ if portion.is_the_same => format!("{} {}", portion.shown, portion.ingredient),
        _ if portion.is_all => format!("all the {} ({})", portion.ingredient, portion.shown),
        // `salt to taste`
        (false, true) => format!("{} {}", portion.ingredient, portion.shown),
        (false, false) => {
            let shown = portion.shown.to_string();
            // `6 bay leaves`: a bare number counts pieces.
            let count = shown.parse::<i64>().ok().map(Number::whole);
            let name = count.map_or_else(|| portion.ingredient.clone(), |count| several(count, &portion.ingredient));
            format!("{shown} {name}")
        }
    };
    portions.iter().map(one).collect::<Vec<String>>().join(", ")
}

/// What would bring gluten into what has none, at which minute, and how to keep the two apart.
pub(super) fn contact(schedule: &Schedule, contact: &Contact) -> String {
    let at = starts(schedule, contact.minute);
    format!("At {at}, {}: {}.", contact.said.replace('`', ""), contact.help)
}

/// What is ready on a day before it is wanted, and what would help.
pub(super) fn early(early: &Early) -> String {
    format!("{}; {}.", early.said.replace('`', ""), early.help.replace('`', ""))
}

/// A rest that is planned shorter than it might be.
pub(super) fn shorter(rest: &ShortRest) -> String {
    let else_ = match rest.otherwise {
        Otherwise::NoPlan => "there is no plan".to_owned(),
        Otherwise::DayBefore => "it would be ready a day before".to_owned(),
        Otherwise::Early(by) => format!("it would be ready {} before it is wanted", time(by)),
        Otherwise::Sooner(by) => format!("work would begin {} sooner", time(by)),
        Otherwise::Later(by) => format!("orders would be {} later in all", time(by)),
    };
    let beside = match (rest.beside_others, rest.otherwise) {
        (false, _) => "",
        (true, Otherwise::Later(_)) => ", and so with the others,",
        (true, _) => " and the other rests as they are",
    };
    format!(
        "{} of {} takes {} here, which its range allows: with {}{beside} {else_}",
        rest.step,
        which(crate::out::list::place(&rest.recipe, &rest.part), &rest.which),
        time(rest.minutes),
        time(rest.longest)
    )
}

/// What goes in, how much there is of it, where, and the sign that ends it.
pub(super) fn detail(sheet: &RunSheet, first: usize, row: &Row, portions: &[Portion]) -> String {
    let mut words = vec![goes_in(portions)];
    words.extend(sheet.pieces_in(first, row));
    words.push(place(row));
    if row.soonest_end < row.end {
        words.push(format!("done after {} at the soonest", time(row.soonest_end - row.start)));
    }
    if let Some(last) = row.last_taken {
        words.push(format!("the last of it until {}", starts_beside(&sheet.plan, last, row.end)));
    }
    words.push(sign(row));
    if row.into_cold {
        words.push("then into the cold".to_owned());
    }
    if let Some(minutes) = row.stands_hot {
        words.push(format!("then stands {} without heat", time(minutes)));
    }
    words.retain(|words| !words.is_empty());
    words.join("; ")
}

pub(super) fn time(minutes: Minute) -> Shown {
    show::duration(Duration::minutes(minutes))
}

/// What is known of how good the plan is.
pub(super) fn verdict(schedule: &Schedule) -> String {
    let mut said = by_its_measures(schedule);
    if schedule.cut_by_clock && !schedule.quietest {
        said.push_str(
            " The clock ended the search before its steps were over: with a longer --limit, or where less else runs, the plan may be another, and better.",
        );
    }
    if schedule.given_up.contains(&ahead::MEASURE) {
        return format!(
            "{said} Less work on the last day may be possible: not everything that keeps was tried to the end."
        );
    }
    said
}

fn by_its_measures(schedule: &Schedule) -> String {
    let shorter = "A shorter one would let something stand half done, or grow cold, for longer than that is worth, or need somebody in the \
                   middle of other work.";
    if schedule.quietest && schedule.shortest {
        "Proven best: no plan takes less time, lets less stand about, or needs fewer spells of work.".to_owned()
    } else if schedule.quietest {
        format!("Proven best. {shorter} None lets less stand about, or needs fewer spells of work.")
    } else if schedule.optimal {
        let given_up = |measure: &str| schedule.given_up.contains(&measure);
        let rest = if schedule.rests_for_an_oven {
            "Where less stands about, what is lit burns empty for longer."
        } else if given_up("standing") {
            "One in which less stands about may exist; looking for it was given up when it no longer got better."
        } else if schedule.proven.contains(&"standing") && given_up("spells") {
            "None lets less stand about. One with fewer spells of work may exist; looking for it was given up when it no longer \
             got better."
        } else if schedule.proven.contains(&"standing") {
            "None lets less stand about. One with fewer spells of work may exist; a longer --limit may find it."
        } else {
            "One in which less stands about may exist; a longer --limit may find it."
        };
        let time = if schedule.shortest { "no plan takes less time." } else { "none takes less time and is better." };
        let shorter = if schedule.shortest { String::new() } else { format!("{shorter} ") };
        format!("Proven: {time} {shorter}{rest}")
    } else {
        let how = match schedule.given_up.contains(&"span") {
            true => "nobody's day is long enough for the best that was found, and what fits was not looked for further",
            false => "a longer --limit may find it",
        };
        format!("Not proven best: a plan that takes up to {} less may exist; {how}.", time(schedule.gap))
    }
}

/// Which of two times it is, where the clocks show one twice; mostly empty.
fn which_of_two(schedule: &Schedule, minute: Minute) -> &'static str {
    let clock = schedule.clock.as_ref();
    match clock.and_then(|clock| clock.twice(schedule.start + minute)) {
        Some(Twice::Before) => " (before the clocks go back)",
        Some(Twice::After) => " (after the clocks go back)",
        None => "",
    }
}

/// `04:30`, or the time since the plan's start.
pub(super) fn starts(schedule: &Schedule, minute: Minute) -> String {
    let clock = |at: DateTime| format!("{}{}", at.strftime("%H:%M"), which_of_two(schedule, minute));
    schedule.wall(minute).map_or_else(|| show::offset(minute).to_string(), clock)
}

/// `04:30`; on another day than a minute of the plan `04:30 on Wednesday`.
pub(super) fn starts_beside(schedule: &Schedule, minute: Minute, other: Minute) -> String {
    let date = |minute: Minute| schedule.wall(minute).map(|at| at.date());
    match date(minute) {
        Some(day) if Some(day) != date(other) => {
            format!("{} on {}", starts(schedule, minute), day_beside(day, date(other).unwrap_or(day)))
        }
        _ => starts(schedule, minute),
    }
}

/// `04:30–04:42`; an end on another day says which.
pub(super) fn when(schedule: &Schedule, start_at: Minute, end_at: Minute) -> String {
    match (schedule.wall(start_at), schedule.wall(end_at)) {
        (Some(start), Some(end)) => {
            let until = if start.date() == end.date() {
                end.strftime("%H:%M").to_string()
            } else {
                format!("{} {}", short_day_beside(end.date(), start.date()), end.strftime("%H:%M"))
            };
            // Where the clocks are put forward or back meanwhile, they do not tell how long it is.
            let lasts = if schedule.is_by_the_clock(start_at, end_at) {
                String::new()
            } else {
                format!(" ({})", time(end_at - start_at))
            };
            // Of a time that comes twice which it is; once, where both are the same.
            let (from, to) = (which_of_two(schedule, start_at), which_of_two(schedule, end_at));
            let from = if from == to { "" } else { from };
            format!("{}{from}–{until}{to}{lasts}", start.strftime("%H:%M"))
        }
        _ => format!("{}–{}", show::offset(start_at), show::offset(end_at)),
    }
}

/// Where, with how many people, how long, and how much of it is work.
pub(super) fn summary(schedule: &Schedule) -> String {
    let kitchen = if schedule.kitchen.is_empty() { "Home kitchen" } else { &schedule.kitchen };
    let people = if schedule.cooks == 1 { "1 person".to_owned() } else { format!("{} people", schedule.cooks) };
    let work = if schedule.hands_minutes == 0 {
        "without hands-on work".to_owned()
    } else {
        let spells = if schedule.spells == 1 { "one spell".to_owned() } else { format!("{} spells", schedule.spells) };
        format!("{} of them hands-on work, in {spells} of work", time(schedule.hands_minutes))
    };
    // What is lit before anything else is done has somebody come so much sooner.
    let lit = schedule.lights.iter().filter(|light| light.start < 0).min_by_key(|light| light.start);
    let lit = lit.map(|light| format!(", and {} before that the {} is lit", time(-light.start), light.unit_name()));
    format!("{kitchen}, {people}: {} from the first start{}, {work}", time(schedule.span), lit.unwrap_or_default())
}

/// One piece of equipment that a plan uses.
pub(super) struct Unit {
    /// What it is called: with its number where there are several.
    pub(super) name: String,
    equipment: String,
    number: u32,
}

impl Unit {
    /// Whether a row holds it.
    pub(super) fn holds(&self, row: &Row) -> bool {
        row.equipment.as_ref() == Some(&self.equipment) && row.unit == Some(self.number)
    }

    /// Whether it is what is lit.
    pub(super) fn is_lit(&self, light: &Light) -> bool {
        light.equipment == self.equipment && light.unit.unwrap_or(1) == self.number
    }
}

/// The equipment that a plan uses, piece by piece, by name and number.
pub(super) fn units(schedule: &Schedule) -> Vec<Unit> {
    let used = schedule.rows.iter().filter_map(|row| Some((row.equipment.clone()?, row.unit?, row.units > 1)));
    let lit = schedule.lights.iter().map(|light| (light.equipment.clone(), light.unit.unwrap_or(1), light.units > 1));
    let mut used: Vec<(String, u32, bool)> = used.chain(lit).collect();
    used.sort();
    used.dedup_by(|one, other| (&one.0, one.1) == (&other.0, other.1));
    let unit = |(equipment, number, is_one_of_many): (String, u32, bool)| Unit {
        name: if is_one_of_many { format!("{equipment} {number}") } else { equipment.clone() },
        equipment,
        number,
    };
    used.into_iter().map(unit).collect()
}
