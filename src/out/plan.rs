//! A plan as a run sheet: one line an action, by the clock, by who works, or by what is used.

use crate::measure::quantity::Duration;
use crate::measure::show;
use crate::measure::shown::Shown;
use crate::model::step::StepKind;
use crate::out::report::clean;
use crate::plan::problem::Minute;
use crate::plan::schedule::{Made, Row, Schedule};
use jiff::civil::Date;
use unicode_width::UnicodeWidthStr;

/// How the sheet is ordered.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum By {
    /// By the clock.
    Clock,
    /// A sheet for each person.
    Person,
    /// A sheet for each piece of equipment.
    Equipment,
}

/// The run sheet, as plain text or as Markdown.
pub fn render(schedule: &Schedule, by: By, markdown: bool, changes: &[String]) -> String {
    let mut sheet = Sheet { schedule, markdown, out: String::new() };
    sheet.head();
    match by {
        By::Clock => {
            let rows: Vec<&Row> = schedule.rows.iter().collect();
            sheet.rows(&rows);
        }
        By::Person => {
            for person in 1..=schedule.cooks {
                let rows: Vec<&Row> = schedule.rows.iter().filter(|row| row.people.contains(&person)).collect();
                sheet.section(&format!("Person {person}"));
                sheet.rows(&rows);
            }
            let rows: Vec<&Row> = schedule.rows.iter().filter(|row| row.kind == StepKind::Tend).collect();
            if !rows.is_empty() {
                sheet.section("Whoever is in reach");
                sheet.rows(&rows);
            }
        }
        By::Equipment => {
            let mut lanes: Vec<(String, u32)> =
                schedule.rows.iter().filter_map(|row| Some((row.equipment.clone()?, row.unit?))).collect();
            lanes.sort();
            lanes.dedup();
            for (equipment, unit) in lanes {
                let of_lane = |row: &&Row| row.equipment.as_ref() == Some(&equipment) && row.unit == Some(unit);
                let rows: Vec<&Row> = schedule.rows.iter().filter(of_lane).collect();
                let many = rows.first().is_some_and(|row| row.units > 1);
                sheet.section(&if many { format!("{equipment} {unit}") } else { equipment.clone() });
                sheet.rows(&rows);
            }
        }
    }
    sheet.foot(changes);
    sheet.out
}

/// What is made and when it is ready, and when it is wanted if that is later.
pub(super) fn promise(schedule: &Schedule, made: &Made) -> String {
    let clock = |minute: Minute| schedule.wall(minute).map(|at| at.strftime("%a %H:%M").to_string());
    let when = match (clock(made.ready), made.due.and_then(clock)) {
        (Some(ready), Some(due)) if ready != due => format!("ready at {ready}, wanted by {due}"),
        (Some(ready), _) => format!("ready at {ready}"),
        (None, _) => format!("ready after {}", show::duration(Duration::minutes(made.ready))),
    };
    let wanted = if made.wanted.is_empty() { String::new() } else { format!("{} of ", made.wanted) };
    format!("{wanted}{}: {when}", made.recipe)
}

/// What another kitchen would change, in a sentence; `None` stands for a kitchen in which there is no plan.
pub fn what_if(line: &str, now: &Schedule, then: Option<&Schedule>) -> String {
    let Some(then) = then else { return format!("With `{line}` there would be no plan.") };
    let time = |minutes: Minute| show::duration(Duration::minutes(minutes));
    let unproven = if now.optimal && then.optimal { "" } else { ", as far as was found" };
    let difference = now.span - then.span;
    let span = match difference {
        0 => format!("it would take {} all the same", time(then.span)),
        shorter if shorter > 0 => format!("it would take {}, {} less", time(then.span), time(shorter)),
        longer => format!("it would take {}, {} more", time(then.span), time(-longer)),
    };
    let start = match then.wall(0) {
        Some(start) if difference != 0 => format!(", starting at {}", start.strftime("%H:%M on %A")),
        _ => String::new(),
    };
    let spells = match then.spells {
        same if same == now.spells => String::new(),
        1 => "; hands-on work would come in one spell".to_owned(),
        many => format!("; hands-on work would come in {many} spells instead of {}", now.spells),
    };
    format!("With `{line}` {span}{start}{unproven}{spells}.")
}

struct Sheet<'a> {
    schedule: &'a Schedule,
    markdown: bool,
    out: String,
}

impl Sheet<'_> {
    fn line(&mut self, text: &str) {
        self.out.push_str(text);
        self.out.push('\n');
    }

    fn escaped(&self, text: &str) -> String {
        if self.markdown { super::markdown::escaped(text) } else { clean(text).into_owned() }
    }

    fn section(&mut self, title: &str) {
        let title = self.escaped(title);
        self.out.push('\n');
        if self.markdown {
            self.line(&format!("## {title}"));
        } else {
            self.line(&title.to_uppercase());
        }
    }

    fn head(&mut self) {
        let title = format!("Plan: {}", self.schedule.title);
        let title = self.escaped(&title);
        if self.markdown {
            self.line(&format!("# {title}\n"));
        } else {
            self.line(&title);
            self.line(&"=".repeat(title.width()));
        }
        let bullet = if self.markdown { "- " } else { "" };
        for made in &self.schedule.made {
            let line = self.escaped(&promise(self.schedule, made));
            self.line(&format!("{bullet}{line}"));
        }
        let line = summary(self.schedule);
        let line = self.escaped(&line);
        self.line(&format!("{bullet}{line}"));
    }

    fn foot(&mut self, changes: &[String]) {
        self.out.push('\n');
        self.line(&verdict(self.schedule));
        for change in changes {
            let change = if self.markdown { clean(change).into_owned() } else { clean(change).replace('`', "\"") };
            self.out.push('\n');
            self.line(&change);
        }
    }

    /// One line an action; a new day has a heading of its own.
    fn rows(&mut self, rows: &[&Row]) {
        let mut day: Option<Date> = None;
        let mut table: Vec<[String; 5]> = Vec::new();
        let mut heading: Option<String> = None;
        for row in rows {
            let starts = self.schedule.wall(row.start).map(|at| at.date());
            if starts != day {
                self.table(heading.take(), &mut table);
                heading = starts.map(|date| date.strftime("%A %-d %B %Y").to_string());
                day = starts;
            }
            table.push(cells(self.schedule, row).map(|cell| self.escaped(&cell)));
        }
        self.table(heading.take(), &mut table);
    }

    fn table(&mut self, heading: Option<String>, table: &mut Vec<[String; 5]>) {
        if table.is_empty() {
            return;
        }
        self.out.push('\n');
        if let Some(heading) = heading {
            if self.markdown {
                self.line(&format!("### {heading}\n"));
            } else {
                self.line(&heading);
                self.line(&"-".repeat(heading.width()));
            }
        }
        let names = ["When", "Who", "What", "For", "How"];
        if self.markdown {
            self.line(&format!("| {} |", names.join(" | ")));
            self.line("|---|---|---|---|---|");
            for cells in table.drain(..) {
                self.line(&format!("| {} |", cells.join(" | ")));
            }
            return;
        }
        let widths: Vec<usize> = (0..4)
            .map(|at| table.iter().filter_map(|cells| cells.get(at)).map(|cell| cell.width()).max().unwrap_or(0))
            .collect();
        for cells in table.drain(..) {
            let mut line = String::new();
            for (at, cell) in cells.iter().enumerate() {
                line.push_str(cell);
                let width = widths.get(at).copied().unwrap_or(0);
                line.push_str(&" ".repeat(width.saturating_sub(cell.width()) + 2));
            }
            self.line(line.trim_end());
        }
    }
}

/// Who is busy: numbers of people, in reach, or nobody.
pub fn who(row: &Row) -> String {
    match row.kind {
        StepKind::Hands => {
            let people: Vec<String> = row.people.iter().map(|person| format!("P{person}")).collect();
            people.join("+")
        }
        StepKind::Tend => "in reach".to_owned(),
        StepKind::Wait => "–".to_owned(),
    }
}

/// What it occupies, how much, and the cue that ends it.
fn detail(row: &Row) -> String {
    let mut words = Vec::new();
    if let Some(equipment) = &row.equipment {
        let unit = row.unit.filter(|_| row.units > 1).map(|unit| format!(" {unit}")).unwrap_or_default();
        words.push(match &row.temperature {
            Some(at) => format!("{equipment}{unit} at {at}"),
            None => format!("{equipment}{unit}"),
        });
    } else if let Some(at) = &row.temperature {
        words.push(format!("at {at}"));
    }
    if let Some(pieces) = &row.pieces {
        words.push(format!("{pieces} pieces"));
    }
    if row.soonest_end < row.end {
        words.push(format!("done after {} at the soonest", time(row.soonest_end - row.start)));
    }
    if !row.cue.is_empty() {
        words.push(format!("until {}", row.cue.trim_start_matches("until ")));
    }
    words.join("; ")
}

fn time(minutes: Minute) -> Shown {
    show::duration(Duration::minutes(minutes))
}

/// What is known of how good the plan is.
pub fn verdict(schedule: &Schedule) -> String {
    if schedule.quietest {
        "Proven best: no plan takes less time, lets less stand about, or needs fewer spells of work.".to_owned()
    } else if schedule.optimal {
        "Proven: no plan takes less time. One in which less stands about may exist; a longer --limit may find it."
            .to_owned()
    } else {
        format!(
            "Not proven best: a plan that takes up to {} less may exist; a longer --limit may find it.",
            time(schedule.gap)
        )
    }
}

/// When, who, what, for what, and how.
pub fn cells(schedule: &Schedule, row: &Row) -> [String; 5] {
    let load = if row.loads > 1 { format!(" {}/{}", row.load, row.loads) } else { String::new() };
    let action = format!("{}{load}", row.step);
    let what = if row.part == row.recipe { row.recipe.clone() } else { format!("{}, {}", row.recipe, row.part) };
    [when(schedule, row), who(row), action, what, detail(row)]
}

/// `04:30–04:42`; an end on another day says which.
fn when(schedule: &Schedule, row: &Row) -> String {
    match (schedule.wall(row.start), schedule.wall(row.end)) {
        (Some(start), Some(end)) => {
            let until = if start.date() == end.date() { end.strftime("%H:%M") } else { end.strftime("%a %H:%M") };
            format!("{}–{until}", start.strftime("%H:%M"))
        }
        _ => format!("{}–{}", show::offset(row.start), show::offset(row.end)),
    }
}

/// Where, with how many people, how long, and how much of it is work.
pub fn summary(schedule: &Schedule) -> String {
    let kitchen = if schedule.kitchen.is_empty() { "Home kitchen" } else { &schedule.kitchen };
    let people = if schedule.cooks == 1 { "1 person".to_owned() } else { format!("{} people", schedule.cooks) };
    let work = if schedule.hands_minutes == 0 {
        "without hands-on work".to_owned()
    } else {
        let spells = if schedule.spells == 1 { "one spell".to_owned() } else { format!("{} spells", schedule.spells) };
        format!("{} of them hands-on work in {spells}", time(schedule.hands_minutes))
    };
    format!("{}, {people}: {} from the first start, {work}", clean(kitchen), time(schedule.span))
}
