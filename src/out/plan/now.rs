//! How the day stands: what is late, what to leave out first, which limits come next, what runs and what is done.

use super::words;
use crate::figures::run_sheet::{NextLimit, Now, RunSheet, State};
use crate::measure::show;
use crate::out::block::{Block, Heading, Look, Phrase};
use crate::plan::problem::{Minute, Rule};
use crate::plan::schedule::Row;

/// The blocks that tell it.
pub(super) fn blocks(sheet: &RunSheet, now: &Now) -> Vec<Block> {
    let day = sheet.plan.wall(now.minute).map(|at| at.strftime(" on %A").to_string()).unwrap_or_default();
    let at = format!("{}{day}", words::starts(&sheet.plan, now.minute));
    let overtime = (now.overtime > 0)
        .then(|| format!("Somebody stays {} longer, to end what is begun.", words::time(now.overtime)));
    let facts = late(sheet, now).into_iter().chain(overtime).chain(limits(sheet, now));
    let facts = facts.chain(now.otherwise.iter().cloned()).chain(so_far(sheet, now));
    let facts: Vec<Vec<Phrase>> = facts.map(|fact| vec![Phrase::plain(fact)]).collect();
    vec![Block::Gap, Heading::looking(2, format!("Now: {at}"), Look::Underlined), Block::Bullets(facts)]
}

/// What of the day is in time, in sentences.
fn late(sheet: &RunSheet, now: &Now) -> Vec<String> {
    let name = |order: &usize| sheet.plan.made.get(*order).map(words::ordered).unwrap_or_default();
    if now.late.is_empty() {
        let all = if now.cannot.is_empty() { "Everything" } else { "All else" };
        return vec![format!("{all} is in time.")];
    }
    let late = now.late.iter().map(|(order, by)| format!("Late by {}: {}.", words::time(*by), name(order)));
    let mut said: Vec<String> = late.collect();
    // A day late is often only a day of which nobody said what is done.
    let is_begun = |recipe: &String| {
        let mut rows = sheet.plan.rows.iter().zip(&now.states).filter(|(row, _)| row.recipe == *recipe);
        rows.any(|(_, state)| *state != State::Ahead)
    };
    let recipes = now.late.iter().filter_map(|(order, _)| sheet.plan.made.get(*order)).map(|made| &made.recipe);
    let mut untold: Vec<String> = recipes.filter(|recipe| !is_begun(recipe)).cloned().collect();
    untold.dedup();
    if !untold.is_empty() {
        said.push(format!("No log tells of {}: nothing of it counts as begun.", show::list(&untold)));
    }
    said.extend(not_begun(sheet, now, &untold));
    match now.leave_out.as_slice() {
        [] if now.late.len() > 1 => {
            said.push("Leaving out one order is not enough for the rest to be in time.".to_owned())
        }
        [] => {}
        // All of them are such then.
        all if all.iter().filter_map(|order| sheet.plan.made.get(*order)).any(|made| is_begun(&made.recipe)) => {
            let all: Vec<String> = all.iter().map(name).collect();
            said.push(format!(
                "Only without {} would the rest be in time, and that is begun: a little late is less than lost.",
                all.join(", or without ")
            ));
        }
        [first] => said.push(format!("Leave out {} first: then the rest is in time.", name(first))),
        [first, others @ ..] => {
            let others: Vec<String> = others.iter().map(name).collect();
            said.push(format!(
                "Leave out {} first: then the rest is in time; so it would be without {}.",
                name(first),
                others.join(", or without ")
            ));
        }
    }
    said
}

/// Parts that keep, of which no log tells, of recipes of which something is late and begun: they may well have been made on a day before.
fn not_begun(sheet: &RunSheet, now: &Now, untold: &[String]) -> Vec<String> {
    let rows = &sheet.plan.rows;
    let is_late = |recipe: &String| {
        let mut orders = now.late.iter().filter_map(|(order, _)| sheet.plan.made.get(*order));
        orders.any(|made| made.recipe == *recipe)
    };
    let is_ordered = |recipe: &String| sheet.plan.made.iter().any(|made| made.recipe == *recipe);
    let keep = sheet.plan.kept.iter().filter(|kept| kept.keeps.is_some() && !untold.contains(&kept.recipe));
    let told = keep.filter(|kept| is_late(&kept.recipe) || !is_ordered(&kept.recipe)).filter_map(|kept| {
        let of = || rows.iter().zip(&now.states).filter(|(row, _)| row.recipe == kept.recipe && row.part == kept.part);
        let (last, _) = of().max_by_key(|(row, _)| row.end).filter(|_| of().all(|(_, state)| *state == State::Ahead))?;
        Some(format!(
            "No log tells of {}, which may have been made before: it counts as not begun. If it is made, a line of the log says so: \
             \"{} of {}: {} min\".",
            words::made(last),
            last.step,
            last.part,
            last.end - last.start
        ))
    });
    let mut told: Vec<String> = told.collect();
    told.dedup();
    told
}

/// Limits that are broken, and those that come next.
fn limits(sheet: &RunSheet, now: &Now) -> Vec<String> {
    let rows = &sheet.plan.rows;
    // Of several limits of one row the first to end binds; the others say nothing more.
    let binds = |limit: &&NextLimit| {
        let mut others = now.limits.iter().filter(|other| other.to == limit.to && !std::ptr::eq(*other, *limit));
        !others.any(|other| other.by < limit.by && why(other, "").is_some())
    };
    // Of loads that one rest waits for the last has least to spare: where that is in time, the others are.
    let step_of = |row: &Row| (row.batch, row.at, row.turn);
    let is_last = |limit: &&NextLimit| {
        let (Some(from), Some(to)) = (rows.get(limit.from), rows.get(limit.to)) else { return true };
        let is_behind = |other: &NextLimit| {
            let of_other = rows.get(other.from).zip(rows.get(other.to));
            of_other.is_some_and(|(other_from, other_to)| {
                let is_alike = step_of(other_from) == step_of(from) && step_of(other_to) == step_of(to);
                is_alike && other.rule == limit.rule && other.by <= limit.by && other_to.start > to.start
            })
        };
        to.start > limit.by || !now.limits.iter().any(is_behind)
    };
    let said = now.limits.iter().filter(binds).filter(is_last).filter_map(|limit| {
        let (from, to) = (rows.get(limit.from)?, rows.get(limit.to)?);
        let at = |minute: Minute| words::starts_beside(&sheet.plan, minute, now.minute);
        let (by, starts) = (at(limit.by), at(to.start));
        let (from_said, to_said) = (words::action(from), format!("{} of {}", words::action(to), words::made(to)));
        let why = why(limit, &from_said)?;
        Some(match to.start - limit.by {
            over if over > 0 && limit.by < now.minute => {
                format!(
                    "Too late by {}: {to_said} was to begin by {by}, since {why}. It begins at {starts}.",
                    words::time(over)
                )
            }
            over if over > 0 => {
                format!(
                    "Cannot be kept, by {}: {to_said} is to begin by {by}, since {why}. It begins at {starts}.",
                    words::time(over)
                )
            }
            0 => format!("No minute to spare: {to_said} begins at {starts}, since {why}."),
            spare => format!(
                "{} to spare: {to_said} begins at {starts} and has to by {by}, since {why}.",
                words::time(-spare)
            ),
        })
    });
    said.collect()
}

fn why(limit: &NextLimit, from: &str) -> Option<String> {
    Some(match limit.rule {
        Rule::Keeps => format!("what {from} finished keeps no longer"),
        Rule::UpTo => format!("{from} may go on no longer"),
        Rule::Alive => format!("what is alive stands no longer after {from}"),
        Rule::FirstPiece => format!("its first piece stands since {from} began"),
        Rule::Within | Rule::StraightAfter | Rule::AtOnce => format!("it comes so soon after {from}"),
        Rule::Into => format!("it comes at that moment into {from}"),
        Rule::Overnight => format!("nothing stands over night after {from} unless it is said"),
        _ => return None,
    })
}

/// What runs and what is done.
fn so_far(sheet: &RunSheet, now: &Now) -> Vec<String> {
    // Shares of one piece of work are told as one: it runs until all of them are done.
    let state_of = |rows: &[usize]| {
        let is = |state: State| move |at: &usize| now.states.get(*at) == Some(&state);
        match () {
            () if rows.iter().all(is(State::Done)) => State::Done,
            () if rows.iter().all(is(State::Ahead)) => State::Ahead,
            () => State::Running,
        }
    };
    let of = |state: State| {
        let lines = sheet.lines.iter().filter(move |line| state_of(&line.rows) == state);
        lines.filter_map(|line| Some((*line.rows.first()?, &line.row)))
    };
    let name = |row: &Row| format!("{} of {}", words::action(row), words::made(row));
    let at = |minute: Minute| words::starts_beside(&sheet.plan, minute, now.minute);
    let runs = of(State::Running).map(|(number, row)| {
        let since = at(row.start);
        let passed = now.minute - row.start;
        let least = row.soonest_end - row.start;
        let over =
            if row.end <= now.minute { format!(", {} of it: is it done?", words::time(passed)) } else { String::new() };
        let soonest = if row.end > now.minute && least > passed {
            format!(", done at {} at the soonest", at(row.soonest_end))
        } else {
            String::new()
        };
        let untold =
            if now.rests.contains(&number) { " (no log tells of it: it counts from what it comes after)" } else { "" };
        format!("Runs: {} since {since}{soonest}{over}{untold}", name(row))
    });
    // What was to be hot by now was lit by somebody, of which no log tells.
    let lit = sheet.plan.lights.iter().filter(|light| light.start < now.minute && now.minute <= light.end);
    let lit = lit.map(|light| {
        format!("{} counts as lit since {}: is it hot?", light.unit_name(), words::starts(&sheet.plan, light.start))
    });
    let mut said: Vec<String> = runs.chain(lit).collect();
    let is_told = |number: usize| ![&now.assumed, &now.rests, &now.overdue].iter().any(|some| some.contains(&number));
    let when = |row: &Row| words::when(&sheet.plan, row.start, row.end);
    // How much a load held is what is left to do of it.
    let pieces = |number: usize, row: &Row| {
        let shown = sheet.pieces_in(number, row).filter(|_| row.loads > 1);
        shown.map(|shown| format!(", {shown}")).unwrap_or_default()
    };
    let told = |(number, row): (usize, &Row)| format!("{} ({}{})", name(row), when(row), pieces(number, row));
    let done: Vec<String> = of(State::Done).filter(|(number, _)| is_told(*number)).map(told).collect();
    if !done.is_empty() {
        said.push(format!("Done: {}", done.join("; ")));
    }
    said.extend(now.taken_out.iter().filter_map(|(out, other)| {
        let (out, other) = (sheet.plan.rows.get(*out)?, sheet.plan.rows.get(*other)?);
        let place = other.equipment.as_ref().or(out.equipment.as_ref())?;
        Some(format!(
            "{} is still open in the log, but counts as over since {}, when the {place} took {}: is there more of it?",
            name(out),
            at(other.start),
            name(other)
        ))
    }));
    said.extend(now.overdue.iter().filter_map(|at| sheet.plan.rows.get(*at)).map(|row| {
        format!(
            "{} is still open in the log, but counts as over since {}, when its time was up: if it is still in, take it out",
            name(row),
            words::starts_beside(&sheet.plan, row.end, now.minute)
        )
    }));
    let rested: Vec<String> = of(State::Done)
        .filter(|(number, _)| now.rests.contains(number))
        .map(|(_, row)| format!("{} ({})", name(row), when(row)))
        .collect();
    if !rested.is_empty() {
        said.push(format!("Not in the log, but over, counted from what they come after: {}", rested.join("; ")));
    }
    let assumed: Vec<String> = now.assumed.iter().filter_map(|at| sheet.plan.rows.get(*at)).map(name).collect();
    if !assumed.is_empty() {
        said.push(format!("Not in the log, but over, since what comes after has begun: {}", assumed.join("; ")));
    }
    said
}
