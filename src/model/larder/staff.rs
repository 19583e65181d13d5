//! Who works in a kitchen and when, from its `open`, `cooks`, `cook` and `longest` lines.

use crate::language::evaluate::longest;
use crate::language::syntax::{Content, CookClause, Name, Quantity, Shift, Tree};
use crate::measure::quantity::{Duration, MINUTES_A_DAY};
use crate::measure::show;
use crate::model::kitchen::{Cook, Kitchen, LONGEST_DAY, lasts};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{Span, Spanned};
use jiff::civil::{Weekday, time};
use std::collections::HashSet;

/// Puts what a tree says of hours and people into a kitchen; what it does not say stays as it was.
pub(super) fn take(tree: &Tree, of_blocks: &HashSet<u32>, kitchen: &mut Kitchen, diagnostics: &mut Vec<Diagnostic>) {
    let mut seen: Vec<(&str, Span)> = Vec::new();
    let mut named: Vec<Cook> = Vec::new();
    for line in &tree.lines {
        let what = match &line.content {
            Content::Cooks(_) => "cooks",
            Content::Open { .. } => "open",
            Content::Longest(_) => "longest",
            // Traces of an ingredient are none of the kitchen's.
            Content::Sale(..) if of_blocks.contains(&line.said.start) => continue,
            Content::Sale(field, _) => field.word(),
            Content::Scale { fine, .. } => {
                if *fine {
                    "fine scale"
                } else {
                    "scale"
                }
            }
            Content::Cook { name, .. } => {
                if let Some(first) = named.iter().find(|cook| cook.name.same(name)) {
                    let problem =
                        Diagnostic::error("twice-named", name.span, format!("`{name}` works in this kitchen twice"));
                    let problem = problem.also(first.name.span, "first here");
                    diagnostics.push(problem.help("keep one line, or tell the two apart by their names"));
                    continue;
                }
                "cook"
            }
            // Another kitchen in the same file says for itself who works there.
            Content::Kitchen(_) => {
                seen.clear();
                continue;
            }
            _ => continue,
        };
        if let Some((_, first)) = seen.iter().find(|(known, _)| *known == what && what != "cook") {
            let problem = Diagnostic::error("twice-named", line.said, format!("`{what}` is said twice"));
            diagnostics.push(problem.also(*first, "first here").help("keep one"));
            continue;
        }
        let other = seen.iter().find(|(known, _)| matches!((*known, what), ("cook", "cooks") | ("cooks", "cook")));
        if let Some((_, first)) = other {
            let problem = Diagnostic::error("twice-named", line.said, "who works is said twice, by number and by name");
            diagnostics.push(problem.also(*first, "first here").help("keep the names, or the number"));
        }
        seen.push((what, line.said));
        match &line.content {
            Content::Cooks(count) => kitchen.cooks = count.value,
            Content::Open { from, to } => (kitchen.opens, kitchen.closes) = (*from, *to),
            Content::Longest(quantity) => kitchen.longest = a_day(quantity, diagnostics),
            Content::Cook { name, shift, clauses } => named.push(cook(name, *shift, clauses, diagnostics)),
            _ => {}
        }
    }
    if named.is_empty() {
        return;
    }
    let says_open = seen.iter().any(|(known, _)| *known == "open");
    if !says_open && named.iter().all(|cook| cook.hours.is_some()) {
        // The kitchen is open when they are there.
        (kitchen.opens, kitchen.closes) = (time(0, 0, 0, 0), time(23, 59, 59, 0));
    }
    kitchen.cooks = u32::try_from(named.len()).unwrap_or(u32::MAX);
    for cook in &named {
        look_at_hours(kitchen, cook, diagnostics);
    }
    kitchen.named = named;
}

fn cook(
    name: &Name,
    shift: Option<Spanned<Shift>>,
    clauses: &[Spanned<CookClause>],
    diagnostics: &mut Vec<Diagnostic>,
) -> Cook {
    let hours = shift.map(|shift| shift.value);
    let mut cook = Cook { name: name.clone(), hours, days: Vec::new(), rests: None, longest: None };
    for clause in clauses {
        match &clause.value {
            CookClause::On(days) => {
                for (first, last) in days {
                    let mut day = *first;
                    loop {
                        if !cook.days.contains(&day) {
                            cook.days.push(day);
                        }
                        if day == *last {
                            break;
                        }
                        day = day.next();
                    }
                }
                cook.days.sort_by_key(|day: &Weekday| day.to_monday_zero_offset());
            }
            CookClause::Rests(quantity) => {
                let rest = longest(quantity, diagnostics).filter(|rest| *rest > Duration::minutes(0));
                let most = hours.map_or(MINUTES_A_DAY, lasts);
                let fits = rest.and_then(Duration::whole_minutes).is_none_or(|rest| rest < most);
                if !fits {
                    let message =
                        format!("that rest is as long as the shift, {}", show::duration(Duration::minutes(most)));
                    let problem = Diagnostic::error("impossible-number", quantity.span, message);
                    diagnostics.push(problem.help("write how long the one rest in a shift is, `rests 30 min`"));
                }
                cook.rests = rest.filter(|_| fits);
            }
            CookClause::Longest(quantity) => cook.longest = a_day(quantity, diagnostics),
            CookClause::Broken => {}
        }
    }
    cook
}

/// How long somebody may work in a day: something, and no more than the day has.
fn a_day(quantity: &Quantity, diagnostics: &mut Vec<Diagnostic>) -> Option<Duration> {
    let time = longest(quantity, diagnostics)?;
    if time.whole_minutes().is_some_and(|minutes| (1..=MINUTES_A_DAY).contains(&minutes)) {
        return Some(time);
    }
    let problem = Diagnostic::error("impossible-number", quantity.span, "a day of work has from 1 min to 24 h");
    diagnostics.push(problem.help("write the longest that somebody works in a day, `longest 9 h`"));
    None
}

/// Hours that are not said, or are longer than anybody works.
fn look_at_hours(kitchen: &Kitchen, cook: &Cook, diagnostics: &mut Vec<Diagnostic>) {
    let said = cook.longest.or(kitchen.longest);
    let most = said.unwrap_or(Duration::minutes(LONGEST_DAY));
    let name = &cook.name;
    let Some(hours) = cook.hours else {
        let message = format!(
            "`{name}` has no hours: a plan may ask for them at any time that the kitchen is open, for {} a day at most",
            show::duration(most)
        );
        let problem = Diagnostic::warning("no-hours", name.span, message);
        diagnostics.push(problem.help(format!("say from when to when: `cook {name} 06:00-14:00`")));
        return;
    };
    let minutes = Duration::minutes(lasts(hours));
    if minutes > most {
        let message = format!(
            "the shift of `{name}` lasts {}, and {} is the longest {}",
            show::duration(minutes),
            show::duration(most),
            if said.is_some() { "that is said" } else { "unless a file says otherwise" },
        );
        let problem = Diagnostic::warning("long-shift", name.span, message);
        diagnostics.push(problem.help(format!(
            "shorten it, or say `longest {}` where law and contracts allow that",
            show::duration(minutes)
        )));
    }
}
