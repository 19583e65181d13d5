//! What of a plan each key is taken from.

use super::{
    FORMAT, Wire, WireAmount, WireCaution, WireKept, WireLate, WireLight, WireLimit, WireMade, WireRemains, WireRest,
    WireShorter, WireTaken, WireTask,
};
use crate::figures::card::Portion;
use crate::figures::run_sheet::{NextLimit, RunSheet, ShortRest};
use crate::make::store::{Remains, Taken};
use crate::out::json::Figure;
use crate::out::plan::{besides, words};
use crate::plan::explain::{Contact, Early};
use crate::plan::kept::Kept;
use crate::plan::problem::Rule;
use crate::plan::schedule::{Light, Made, Rest, Row, Schedule, Turned};

/// A plan that is laid out, and whether the clock is put forward or back while it runs.
pub(super) struct Filling<'a> {
    sheet: &'a RunSheet,
    plan: &'a Schedule,
    clock_changes: bool,
}

impl<'a> Filling<'a> {
    pub fn of(sheet: &'a RunSheet) -> Filling<'a> {
        Filling { sheet, plan: &sheet.plan, clock_changes: !sheet.plan.clock_changes().is_empty() }
    }

    /// A minute of the plan by the clock on the wall.
    fn at(&self, minute: i64) -> Option<String> {
        self.plan.wall(minute).map(|at| at.strftime("%Y-%m-%dT%H:%M").to_string())
    }

    /// Where a time of the clock comes twice, or is left out, it says only with this when it is.
    fn offset(&self, minute: i64) -> Option<String> {
        self.clock_changes.then(|| self.plan.offset(minute)).flatten()
    }

    /// What people are called; nothing where they have no names.
    fn names(&self, people: &[u32]) -> Vec<&'a str> {
        let name = |person: &u32| self.plan.names.get(usize::try_from(*person).ok()?.checked_sub(1)?);
        people.iter().filter_map(name).map(String::as_str).collect()
    }

    /// The whole plan.
    pub fn wire(&self) -> Wire<'a> {
        let (sheet, plan) = (self.sheet, self.plan);
        let now = sheet.now.as_ref();
        let recipe_of = |order: &usize| Some(plan.made.get(*order)?.recipe.as_str());
        Wire {
            format: FORMAT,
            span_minutes: plan.span,
            optimal: plan.optimal,
            proven: plan.proven.clone(),
            quietest: plan.quietest,
            shortest: plan.shortest,
            gap_minutes: plan.gap,
            start: self.at(0),
            ready: self.at(plan.span),
            hands_minutes: plan.hands_minutes,
            spells: plan.spells,
            makes: plan.made.iter().map(|made| self.made(made)).collect(),
            tasks: self.tasks(),
            names: &plan.names,
            heating: plan
                .lights
                .iter()
                .filter(|light| light.turned != Turned::Off)
                .map(|light| self.light(light))
                .collect(),
            rests: plan.rests.iter().map(|rest| self.rest(rest)).collect(),
            given_up: &plan.given_up,
            cut_by_clock: plan.cut_by_clock && !plan.quietest,
            cautions: self.cautions(),
            shorter: sheet.shorter.iter().map(shorter).collect(),
            kept: plan.kept.iter().map(|kept| self.kept(kept)).collect(),
            from_store: plan.from_store.iter().map(|(recipe, one)| taken(recipe, one)).collect(),
            left_over: plan.left_over.iter().map(remains).collect(),
            as_baked: &sheet.as_baked,
            now: now.and_then(|now| self.at(now.minute)),
            late: now.map(|now| now.late.iter().filter_map(|late| self.late(*late)).collect()),
            leave_out: now.map(|now| now.leave_out.iter().filter_map(recipe_of).collect()),
            cannot: now.iter().flat_map(|now| now.cannot.iter().filter_map(recipe_of)).collect(),
            limits: now.map(|now| now.limits.iter().filter_map(|limit| self.limit(*limit)).collect()),
        }
    }

    fn made(&self, made: &'a Made) -> WireMade<'a> {
        WireMade {
            recipe: &made.recipe,
            wanted: &made.wanted,
            ready_minute: made.ready,
            ready: self.at(made.ready),
            due: made.due.and_then(|due| self.at(due)),
        }
    }

    /// Each load of each step, with what goes in.
    fn tasks(&self) -> Vec<WireTask<'a>> {
        let all = self.plan.rows.iter().zip(&self.sheet.portions).enumerate();
        all.map(|(number, (row, portions))| self.task(number, row, portions)).collect()
    }

    fn task(&self, number: usize, row: &'a Row, portions: &'a [Portion]) -> WireTask<'a> {
        let now = self.sheet.now.as_ref();
        WireTask {
            recipe: &row.recipe,
            part: &row.part,
            which: &row.which,
            step: &row.step,
            load: row.load,
            kind: row.kind.into(),
            start_minute: row.start,
            end_minute: row.end,
            start: self.at(row.start),
            end: self.at(row.end),
            start_offset: self.offset(row.start),
            end_offset: self.offset(row.end),
            last_taken_minute: row.last_taken,
            stands_hot_minutes: row.stands_hot,
            equipment: row.equipment.as_deref(),
            unit: row.unit,
            cooks: row.cooks,
            people: &row.people,
            names: self.names(&row.people),
            loads: row.loads,
            pieces: row.pieces.map(Figure),
            amounts: portions.iter().map(amount).collect(),
            state: now.and_then(|now| now.states.get(number)).map(|state| state.word()),
            assumed: now
                .is_some_and(|now| [&now.assumed, &now.rests, &now.overdue].iter().any(|some| some.contains(&number))),
        }
    }

    fn light(&self, light: &'a Light) -> WireLight<'a> {
        WireLight {
            equipment: &light.equipment,
            unit: light.unit,
            temperature: light.temperature.as_ref(),
            start_minute: light.start,
            hot_minute: light.end,
            start: self.at(light.start),
            hot: self.at(light.end),
            start_offset: self.offset(light.start),
            hot_offset: self.offset(light.end),
            again: matches!(light.turned, Turned::Up | Turned::Down),
            amounts: self.sheet.filled_into(light).iter().map(amount).collect(),
            people: &light.people,
            names: self.names(&light.people),
        }
    }

    fn rest(&self, rest: &Rest) -> WireRest<'a> {
        WireRest {
            person: rest.person,
            name: self.names(&[rest.person]).first().copied(),
            start_minute: rest.start,
            end_minute: rest.end,
            start: self.at(rest.start),
            end: self.at(rest.end),
            start_offset: self.offset(rest.start),
            end_offset: self.offset(rest.end),
        }
    }

    fn kept(&self, kept: &'a Kept) -> WireKept<'a> {
        WireKept {
            recipe: &kept.recipe,
            part: &kept.part,
            made_minute: kept.made,
            earliest_minute: kept.earliest,
            latest_minute: kept.latest,
            earliest: self.at(kept.earliest),
            latest: self.at(kept.latest),
            keeps: kept.keeps.map(|keeps| besides::how(Some(keeps), crate::measure::show::Units::Metric)),
        }
    }

    /// What can hurt where things touch each other, and what is ready days before it is wanted.
    fn cautions(&self) -> Vec<WireCaution<'a>> {
        let early = self.sheet.early.iter().filter_map(|one| self.ready_days_early(one));
        self.sheet.contacts.iter().filter_map(|contact| self.contact(contact)).chain(early).collect()
    }

    fn contact(&self, contact: &Contact) -> Option<WireCaution<'a>> {
        self.caution(contact.check, contact.row, words::contact(self.plan, contact))
    }

    fn ready_days_early(&self, early: &Early) -> Option<WireCaution<'a>> {
        self.caution("ready-days-early", early.row, words::early(early))
    }

    fn caution(&self, check: &'static str, row: usize, text: String) -> Option<WireCaution<'a>> {
        let row = self.plan.rows.get(row)?;
        Some(WireCaution { check, recipe: &row.recipe, part: &row.part, step: &row.step, load: row.load, text })
    }

    fn late(&self, (order, minutes): (usize, i64)) -> Option<WireLate<'a>> {
        Some(WireLate { recipe: &self.plan.made.get(order)?.recipe, minutes })
    }

    fn limit(&self, limit: NextLimit) -> Option<WireLimit<'a>> {
        let (from, to) = (self.plan.rows.get(limit.from)?, self.plan.rows.get(limit.to)?);
        Some(WireLimit {
            rule: match limit.rule {
                Rule::Keeps => "keeps",
                Rule::UpTo => "up to",
                Rule::Alive => "alive",
                Rule::FirstPiece => "first piece",
                Rule::Into => "into",
                Rule::Overnight => "over night",
                _ => "within",
            },
            recipe: &to.recipe,
            part: &to.part,
            step: &to.step,
            after: &from.step,
            by: self.at(limit.by),
            planned: self.at(to.start),
            broken: to.start > limit.by,
        })
    }
}

fn amount(portion: &Portion) -> WireAmount<'_> {
    WireAmount {
        ingredient: &portion.ingredient,
        grams: portion.mass.map(|mass| Figure(mass.value())),
        shown: &portion.shown,
    }
}

fn shorter(rest: &ShortRest) -> WireShorter<'_> {
    WireShorter {
        recipe: &rest.recipe,
        part: &rest.part,
        step: &rest.step,
        minutes: rest.minutes,
        longest_minutes: rest.longest,
    }
}

fn taken<'a>(recipe: &'a str, one: &'a Taken) -> WireTaken<'a> {
    WireTaken {
        what: &one.what,
        grams: one.mass.map(|mass| Figure(mass.value())),
        pieces: one.pieces.map(Figure),
        made: one.made.map(|made| made.to_string()),
        recipe,
        into: &one.into,
    }
}

fn remains(one: &Remains) -> WireRemains<'_> {
    WireRemains {
        what: &one.what,
        of: &one.of,
        taken_g: Figure(one.taken.value()),
        remains_g: one.remains.map(|mass| Figure(mass.value())),
    }
}
