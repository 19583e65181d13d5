//! What a plan says besides its rows: what comes from the store, what is left over, and when each part may be made.

use crate::figures::card::{in_pieces, keeps_shown};
use crate::make::store::{Taken, is_one_thing};
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::measure::shown::Shown;
use crate::model::recipe::Keeps;
use crate::out::block::{Block, Column, Frame, Heading, Look, Phrase, Row as Line, Side, Table};
use crate::plan::kept::Kept;
use crate::plan::problem::Minute;
use crate::plan::schedule::Schedule;

use super::words;

/// The tables; nothing where there is nothing to say.
pub(super) fn blocks(schedule: &Schedule) -> Vec<Block> {
    let mut blocks = Vec::new();
    blocks.extend(ahead(&schedule.kept, |minute| moment(schedule, minute)));
    let taken = schedule.from_store.iter().map(|(recipe, one)| {
        let made = one.made.map_or_else(|| left_over_from(schedule, one), |made| format!("made {made}"));
        let into = crate::out::list::place(recipe, &one.into);
        let much = in_pieces(one.pieces, Shown::words(amount(one.mass))).to_string();
        [one.what.clone(), much, into, made].map(Phrase::plain).to_vec()
    });
    blocks.extend(table("From the store", ["What", "How much", "For", ""], taken.collect()));
    let left = schedule.left_over.iter().map(|one| {
        let again = if one.taken.value().is_zero() { String::new() } else { amount(Some(one.taken)) };
        let remains = match one.remains {
            Some(mass) if mass.value().is_zero() => "nothing".to_owned(),
            remains => amount(remains),
        };
        [one.what.clone(), remains, show::list(&one.of), again].map(Phrase::plain).to_vec()
    });
    blocks.extend(table("What remains", ["What", "How much", "Of", "Taken again"], left.collect()));
    blocks
}

/// That what is taken was left over on the same day, and how much of it where that is not all; empty where it was not.
fn left_over_from(schedule: &Schedule, taken: &Taken) -> String {
    let left = schedule.left_over.iter().find(|left| is_one_thing(&left.what, &taken.what));
    let Some(left) = left.filter(|left| !left.taken.value().is_zero()) else { return String::new() };
    let of = show::list(&left.of);
    let takers = || schedule.from_store.iter().filter(|(_, one)| is_one_thing(&one.what, &left.what));
    let all = takers().try_fold(Mass::ZERO, |all, (_, one)| all.plus(one.mass?).ok());
    match all {
        Some(all) if all <= left.taken => format!("left over from {of}"),
        _ if takers().count() == 1 => format!("{} of it left over from {of}", amount(Some(left.taken))),
        _ => String::new(),
    }
}

/// The parts that may be made ahead: at the earliest, at the latest, and how they are kept.
pub(in crate::out) fn ahead(kept: &[Kept], moment: impl Fn(Minute) -> String) -> Vec<Block> {
    let rows = kept.iter().map(|kept| {
        let at = |minute| Phrase::plain(moment(minute));
        let place = words::which(crate::out::list::place(&kept.recipe, &kept.part), &kept.which);
        vec![Phrase::plain(place), at(kept.earliest), at(kept.latest), Phrase::plain(how(kept.keeps, kept.units))]
    });
    table("What may be made ahead", ["Part", "Done at the earliest", "Done at the latest", "Kept"], rows.collect())
}

fn table(title: &str, heads: [&str; 4], rows: Vec<Vec<Phrase>>) -> Vec<Block> {
    if rows.is_empty() {
        return Vec::new();
    }
    let column = |head: &str| Column { head: head.to_owned(), side: Side::Left };
    let table = Table {
        columns: heads.map(column).to_vec(),
        rows: rows.into_iter().map(Line::of).collect(),
        frame: Frame::Log,
    };
    vec![Block::Gap, Heading::looking(2, title, Look::Underlined), Block::Table(table)]
}

fn amount(mass: Option<Mass>) -> String {
    let whole = |mass: Mass| {
        let grams = mass.value().rounded_to(crate::measure::number::Number::ONE).unwrap_or(mass.value());
        Mass::new(grams)
    };
    mass.map_or_else(|| "some".to_owned(), |mass| show::mass_plain(whole(mass)).to_string())
}

/// A moment on the wall, or counted from the plan's start.
fn moment(schedule: &Schedule, minute: Minute) -> String {
    match schedule.wall(minute) {
        Some(at) => at.strftime("%a %-d %b %H:%M").to_string(),
        None => from_start(minute),
    }
}

/// A moment counted from the first start.
pub(in crate::out) fn from_start(minute: Minute) -> String {
    let time = |minute: Minute| show::duration(crate::measure::quantity::Duration::minutes(minute)).to_string();
    match minute {
        0 => "at the start".to_owned(),
        before if before < 0 => format!("{} before the start", time(-before)),
        after => format!("{} after the start", time(after)),
    }
}

/// How a part is kept.
pub(super) fn how(keeps: Option<Keeps>, units: show::Units) -> String {
    keeps.map_or_else(|| "in its last rest".to_owned(), |keeps| keeps_shown(keeps, units))
}
