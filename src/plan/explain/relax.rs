//! Everything together cannot be met: what would have to give way.

use super::super::limit::Limit;
use super::super::problem::{self, Minute, Point, Problem, Rule, Window};
use super::super::solve::{self, Infeasible};
use super::cycle::{Contradiction, begin_sooner};
use super::mend::{Apart, EFFORT, Mend};
use super::offer::{Length, Limited, Offer, one_change_each, one_length_each, within_reason};
use super::standing::Stood;
use super::{Case, place, time, with_kitchen};
use crate::language::syntax;
use crate::model::kitchen::Kitchen;
use crate::model::step::StepKind;
use crate::plan::tasks::Task;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;
use jiff::ToSpan;

/// Minutes in a day.
pub(super) const DAY: Minute = 1440;

/// What helps where all else would let hot food stand.
const LET_NONE_STAND: &str = "make less, or cook no more at a time than is held hot or chilled at once: more to work with would let hot food stand; \
                              food law and licensed practice go first";

/// So many more cooks are tried.
const MORE_COOKS: u32 = 3;

impl Case<'_> {
    /// What stands in the way of a problem of which no single task is impossible. That bread would be of the day before is no way out
    /// as long as there is another.
    pub(super) fn together(&self, why: &Infeasible) -> Diagnostic {
        let (problem, helps) = self.what_stands(why);
        // Where one order alone would stand hot, more of that is no way out; beside others it may have nothing to do with what stands in
        // the way.
        let stands_hot = self.hot && !self.tasks.hot_food.is_empty();
        if helps || !self.fresh || self.rest.is_some() {
            return problem;
        }
        let asks = |hot: bool| (!(self.stop)()).then(|| Case { fresh: false, hot, ..*self }.what_stands(why));
        let of_another_day = if self.clock.is_some() { asks(self.hot) } else { None };
        if let Some((other, true)) = of_another_day {
            return other;
        }
        match if stands_hot { asks(false) } else { None } {
            Some((other, true)) if self.work.orders.len() > 1 => other,
            Some((other, true)) => other.help(LET_NONE_STAND),
            _ => problem,
        }
    }

    /// The same, and whether something was found that helps.
    fn what_stands(&self, why: &Infeasible) -> (Diagnostic, bool) {
        let found = self.looked_for();
        let helps = found.helps();
        (self.as_problem(why, found), helps)
    }

    /// Why everything cannot hold together, and each change with which it can.
    fn looked_for(&self) -> Found {
        let (mut ways, mut because) = (Vec::new(), Vec::new());
        let mut scarce = Scarce::default();
        // What contradicts itself whatever the time goes before what the time is too short for.
        let contradiction = self.contradiction(&self.timeless()).or_else(|| self.contradiction(self.problem));
        let mut stood =
            contradiction.as_ref().map(|contradiction| Stood { said: contradiction.said.clone(), is_by_far: false });
        // Who does less at a time lets nothing stand, and needs nothing more to work with: where that helps, nothing has to wait longer.
        let waits = contradiction.as_ref().is_none_or(|contradiction| contradiction.loads_wait);
        let by_load = if contradiction.is_some() && waits { self.load_by_load() } else { Vec::new() };
        let enough = match &contradiction {
            Some(contradiction) if by_load.is_empty() => self.enough(contradiction),
            _ => Vec::new(),
        };
        match &contradiction {
            // More to work with changes nothing about what the files say themselves.
            Some(contradiction) if !contradiction.loads_wait => because.push(contradiction.said.clone()),
            _ => scarce = self.more_to_work_with(&mut ways, &mut because),
        }
        if enough.is_empty() {
            self.longer_keeping(&mut ways, &mut because);
            if waits {
                let before = ways.len();
                stood = stood.or(self.alive(&mut ways, &mut because, scarce.hours));
                if !because.is_empty() {
                    let by_load = if contradiction.is_some() { by_load } else { self.load_by_load() };
                    ways.splice(before..before, by_load);
                }
            }
            self.later(&mut ways);
        }
        let must_wait = stood.is_some();
        // That an oven is needed for so long says nothing by itself: it is too long for what may not wait so long.
        let stood = stood.filter(|stood| !stood.is_by_far);
        if let (Some(stood), Some(first)) = (stood, because.first_mut().filter(|_| scarce.equipment)) {
            first.push_str(&format!("; {}", stood.said));
        }
        ways.splice(0..0, enough);
        self.rather_in_the_cold(&mut ways);
        // Who divides a large dough lets nothing stand longer than it bears.
        let less = self.leave_out();
        if waits && (must_wait || scarce.equipment) {
            let in_time = |order: usize| less.in_time.filter(|(of, _)| *of == order).map(|(_, pieces)| pieces);
            ways.extend(self.largest().and_then(|order| self.in_several_doughs(order, in_time(order))));
            ways.extend(self.one_of_them_sooner());
        }
        one_length_each(&mut ways);
        within_reason(&mut ways, &less.offers);
        if because.is_empty() {
            self.more_than_a_day(&mut ways, &mut because);
        }
        if because.is_empty() {
            because.extend(contradiction.iter().map(|contradiction| contradiction.said.clone()));
        }
        if because.is_empty() {
            because.extend(self.all_that_gives_way());
        }
        let mut seen = std::collections::HashSet::new();
        ways.retain(|way| seen.insert(way.said(self)));
        one_change_each(&mut ways);
        let because = because.into_iter().next();
        let contradiction = contradiction.filter(|contradiction| because.as_ref() == Some(&contradiction.said));
        Found { because, contradiction, ways, less }
    }

    /// Tries more equipment, more people and longer hours, and says what of it there is too little of.
    fn more_to_work_with(&self, ways: &mut Vec<Offer>, because: &mut Vec<String>) -> Scarce {
        self.longer_days(ways, because);
        self.ripe_at_night(ways, because);
        let before = because.len();
        self.more_equipment(ways, because);
        let equipment = before == 0 && !because.is_empty();
        self.more_cooks(ways, because);
        let hours = self.longer_hours(ways, because);
        let shut = self.longer_shifts(ways, because);
        self.rests_go_on(ways, because);
        if because.is_empty() {
            because.extend(shut);
        }
        Scarce { equipment, hours }
    }

    /// What was found as one problem, with its places and its mends.
    fn as_problem(&self, why: &Infeasible, Found { because, contradiction, mut ways, less }: Found) -> Diagnostic {
        let message = match (why, because) {
            (Infeasible::Unknown, Some(because)) => format!("no plan was found within the limit: {because}"),
            (_, Some(because)) => format!("there is no plan: {because}"),
            (Infeasible::Impossible, None) => "there is no plan that keeps everything that the files say".to_owned(),
            _ => "no plan was found within the limit".to_owned(),
        };
        let mut problem =
            Diagnostic::error("no-plan", less.orders.first().copied().unwrap_or(self.worst_place()), message);
        // Where it is known which orders are too many, the others have nothing to do with it.
        let involved = self.work.orders.iter().filter_map(|order| order.span).filter(|_| less.orders.is_empty());
        for order in involved.take(6).filter(|order| *order != self.worst_place()) {
            problem = problem.also(order, "this order");
        }
        for order in &less.orders {
            problem = problem.also(*order, "without this one there is a plan");
        }
        if let Some(contradiction) = contradiction {
            if ways.is_empty() {
                // More stands in the way than this; what would ruin a rest is no first step to what making less gives.
                let is_less = !less.offers.is_empty();
                let said = match self.first_steps(&contradiction, |way| !(is_less && way.ruins_a_rest())) {
                    Some(ways) => Some(format!("that is not all, but first {ways}")),
                    None if is_less => None,
                    None => Some("these cannot all hold: make less at a time, or change one of them".to_owned()),
                };
                ways.extend(said.map(|said| Offer::said_so(said, Vec::new())));
            }
            ways.extend(less.offers);
            return contradiction.mark(problem).help(self.sentence(&ways));
        }
        ways.extend(less.offers);
        with_kitchen(problem, self.kitchen).help(if ways.is_empty() {
            "make less, make it in two days, or give it more time: no single change of the kitchen is enough".to_owned()
        } else {
            self.sentence(&ways)
        })
    }
}

/// What stands in the way of a plan, and what would help.
struct Found {
    /// The first reason, in words.
    because: Option<String>,
    /// Statements of the files that cannot all hold, if they are that reason.
    contradiction: Option<Contradiction>,
    /// What could give way, each by itself.
    ways: Vec<Offer>,
    /// Which orders could be left out instead.
    less: Less,
}

impl Found {
    /// Whether anything of it helps. That dough rests twice as long is not what anybody looks for as long as something else may.
    fn helps(&self) -> bool {
        self.ways.iter().any(|way| !way.overdoes_a_rest()) || !self.less.offers.is_empty()
    }
}

/// How less could be made.
#[derive(Debug, Default)]
pub(super) struct Less {
    /// What could be left out or made smaller.
    pub(super) offers: Vec<Offer>,
    /// How many pieces of which order can be made.
    pub(super) in_time: Option<(usize, i64)>,
    /// Where the orders stand without any one of which there is a plan.
    pub(super) orders: Vec<Span>,
}

/// Of what there is too little: with more of it there would be a plan.
#[derive(Default)]
struct Scarce {
    /// Equipment, and nothing was found before it.
    equipment: bool,
    /// Hours in which the kitchen is open.
    hours: bool,
}

/// A minute of the day as a time; a day's end is its last second.
fn on_the_clock(minute: Minute) -> jiff::civil::Time {
    if minute == DAY {
        return jiff::civil::Time::new(23, 59, 59, 0).unwrap_or(jiff::civil::Time::MAX);
    }
    jiff::civil::Time::midnight().wrapping_add(minute.rem_euclid(DAY).minutes())
}

/// The least number from 1 to `most` of which something holds that then holds for all larger ones.
pub(super) fn least(most: i64, holds: impl Fn(i64) -> bool) -> Option<i64> {
    if most < 1 || !holds(most) {
        return None;
    }
    let (mut low, mut high) = (0, most);
    while high - low > 1 {
        let middle = low + (high - low) / 2;
        if holds(middle) { high = middle } else { low = middle }
    }
    Some(high)
}

impl Case<'_> {
    /// Whether a problem has a plan at all, as far as a little search shows.
    pub(super) fn possible(&self, problem: &Problem) -> bool {
        self.possible_within(problem, EFFORT)
    }

    /// The same, with so many steps of a search.
    pub(super) fn possible_within(&self, problem: &Problem, steps: u64) -> bool {
        let limit = Limit { stop: self.stop, ..Limit::steps(steps) };
        !(self.stop)() && solve::possible(problem, &limit) == Some(true)
    }

    /// Ways that each mend a contradiction although more stands in the way, in a sentence.
    fn first_steps(&self, contradiction: &Contradiction, is_a_step: impl Fn(&Offer) -> bool) -> Option<String> {
        let mut told: Vec<String> = Vec::new();
        for way in contradiction.ways.iter().filter(|way| is_a_step(way)) {
            let is_mended = |apart: Apart| {
                let case = Case {
                    work: &apart.work,
                    tasks: &apart.tasks,
                    hours: &apart.hours,
                    problem: &apart.problem,
                    ..*self
                };
                let next = case.contradiction(&case.timeless()).or_else(|| case.contradiction(case.problem));
                next.is_none_or(|next| next.said != contradiction.said)
            };
            if told.len() < 3 && !(self.stop)() && self.mended(&way.mends()).is_some_and(is_mended) {
                let said = way.said(self);
                if !told.contains(&said) {
                    told.push(said);
                }
            }
        }
        (!told.is_empty()).then(|| told.join("; or "))
    }

    /// A plan found at once, as long as there is time for one.
    pub(super) fn quickly(&self, problem: &Problem) -> Option<solve::Plan> {
        if (self.stop)() { None } else { solve::quickly(problem).ok() }
    }

    /// The problem without due times and without a moment before which nothing starts: what is left contradicts itself.
    fn timeless(&self) -> Problem {
        let mut other = self.problem.clone();
        other.dues.clear();
        other.earliest = None;
        other.standing.retain(|standing| !matches!(standing.stand, problem::Stand::Ready { .. }));
        other.long.retain(|stand| !matches!(stand, problem::Stand::Ready { .. }));
        other.stale.clear();
        other
    }

    /// Those ways out of a contradiction that are enough by themselves.
    fn enough(&self, contradiction: &Contradiction) -> Vec<Offer> {
        let mut enough: Vec<Offer> = Vec::new();
        for way in contradiction.ways.iter().take(6) {
            // Where loads wait for each other it comes up once for each.
            if enough.iter().any(|known| known.is_of_one_kind_with(way)) {
                continue;
            }
            // Its figure closes the contradiction exactly: less cannot be enough, and more is another matter.
            enough.extend(Some(way.clone()).filter(|way| self.holds(&way.mends())));
        }
        enough
    }

    pub(super) fn wall(&self, minute: Minute) -> Option<String> {
        // Of weeks a weekday is no day.
        let dues = || self.hours.dues.iter().flatten();
        let weeks = dues().max().zip(dues().min()).is_some_and(|(last, first)| last - first >= 6 * DAY);
        let how = if weeks { "%H:%M on %A %-d %B" } else { "%H:%M on %A" };
        self.clock.and_then(|clock| clock.at(minute)).map(|at| at.strftime(how).to_string())
    }

    fn more_cooks(&self, ways: &mut Vec<Offer>, because: &mut Vec<String>) {
        let mut hours: Vec<Option<usize>> = (0..self.kitchen.named.len()).map(Some).collect();
        let hours_of = |at: &Option<usize>| {
            at.and_then(|at| self.kitchen.named.get(at)).map(|cook| (cook.hours, cook.days.clone()))
        };
        let mut seen: Vec<Option<(Option<syntax::Shift>, Vec<jiff::civil::Weekday>)>> = Vec::new();
        hours.retain(|at| {
            let of = hours_of(at);
            let is_new = !seen.contains(&of);
            seen.push(of);
            is_new
        });
        if hours.is_empty() {
            hours.push(None);
        }
        let offers = (1..=MORE_COOKS).flat_map(|more| hours.iter().map(move |at| (more, *at)));
        let offer = |(more, at): (u32, Option<usize>)| {
            let (kitchen, said) = self.with_cooks(more, at)?;
            let said = if self.kitchen.named.is_empty() {
                format!("work with {} people: {said}", kitchen.cooks)
            } else {
                format!("have {said}")
            };
            self.proven(Offer::said_so(said, vec![Mend::Kitchen(Box::new(kitchen))]))
        };
        let is_no_help = |at: &Option<usize>| {
            let most = self.with_cooks(MORE_COOKS, *at);
            !most.is_some_and(|(kitchen, _)| self.holds(&[Mend::Kitchen(Box::new(kitchen))]))
        };
        if hours.iter().all(is_no_help) {
            return;
        }
        let Some(offer) = offers.filter_map(offer).next() else { return };
        let work: Minute = self.problem.tasks.iter().map(|task| (task.longest) * Minute::from(task.cooks)).sum();
        let have = match self.kitchen.cooks {
            1 => "one person".to_owned(),
            many => format!("{many} people"),
        };
        let longest =
            self.tasks.list.iter().filter(|task| task.kind == StepKind::Hands).max_by_key(|task| task.minutes);
        let longest = longest.map(|task| format!(", {} of it for {}", time(task.minutes), self.named(task)));
        because.push(format!(
            "there are {} of hands-on work for {have} in the time there is{}",
            time(work),
            longest.unwrap_or_default()
        ));
        ways.push(offer);
    }

    /// The kitchen with so many more people, who have the hours of the cook of that number, and what to write there.
    pub(super) fn with_cooks(&self, more: u32, like: Option<usize>) -> Option<(Kitchen, String)> {
        let mut kitchen = self.kitchen.clone();
        kitchen.cooks = kitchen.cooks.checked_add(more)?;
        if kitchen.named.is_empty() {
            let said = format!("`cooks {}`", kitchen.cooks);
            return Some((kitchen, said));
        }
        let like = self.kitchen.named.get(like.unwrap_or(0))?;
        kitchen.named.extend((0..more).map(|_| like.clone()));
        let number = if more == 1 { "one more".to_owned() } else { format!("{more} more") };
        Some((kitchen, format!("{number} `cook` there with the hours of {}", like.name)))
    }

    /// Which step a plan with longer hours has outside of the hours that there are, and when.
    pub(super) fn outside(&self, longer: &Problem) -> Option<String> {
        let plan = self.quickly(longer)?;
        let shifts = || self.problem.people.iter().flat_map(|person| person.shifts.iter().map(|shift| shift.window));
        let windows: Vec<Window> =
            if shifts().next().is_some() { shifts().collect() } else { self.problem.open.clone() };
        let times = self.tasks.list.iter().zip(plan.starts.iter().zip(&plan.ends));
        let work = times.filter(|(task, (start, end))| task.kind != StepKind::Wait && start < end);
        let is_in =
            |start: Minute, end: Minute| windows.iter().any(|window| window.opens <= start && end <= window.closes);
        let outside = work.filter(|(_, (start, end))| !is_in(**start, **end));
        let (task, (start, end)) = outside.min_by_key(|(_, (start, _))| **start)?;
        let name = self.named(task);
        let begins_in = is_in(*start, *start);
        Some(match begins_in {
            true => format!(": {name} would go on until {}", self.wall(*end)?),
            false => {
                let opens = windows.iter().map(|window| window.opens).filter(|opens| opens > start).min();
                let why = opens.and_then(|opens| self.not_until(longer, &plan, task, opens)).unwrap_or_default();
                format!(": {name} would begin at {}{why}", self.wall(*start)?)
            }
        })
    }

    /// Why a step that a plan has outside of the hours cannot begin as late as somebody who comes at a minute has its oven hot: the rest before it
    /// is over by then.
    fn not_until(&self, problem: &Problem, plan: &solve::Plan, task: &Task, comes: Minute) -> Option<String> {
        let at = self.tasks.list.iter().position(|other| std::ptr::eq(other, task))?;
        let heating = problem.heated.iter().find(|(load, _)| *load == at).map_or(0, |(_, minutes)| *minutes);
        let soonest = comes + heating;
        let (rest, most) = problem.lags.iter().find_map(|lag| {
            let most = lag.most.filter(|_| lag.rule == Rule::UpTo && lag.to == Point::start(at))?;
            let started = plan.starts.get(lag.from.task)?;
            (started + most < soonest).then_some((lag.from.task, most))
        })?;
        let rest = self.named(self.tasks.list.get(rest)?);
        let clock = |minute: Minute| Some(self.clock?.at(minute)?.strftime("%H:%M").to_string());
        let (comes, soonest, most) = (clock(comes)?, clock(soonest)?, time(most));
        Some(match heating {
            0 => format!(", since by {comes}, when somebody comes, {rest} has gone on for longer than its {most}"),
            _ => format!(
                ", since somebody comes at {comes}, and when it can be hot, at {soonest}, {rest} has gone on for longer than its {most}"
            ),
        })
    }

    /// Longer opening hours; whether they would help.
    fn longer_hours(&self, ways: &mut Vec<Offer>, because: &mut Vec<String>) -> bool {
        // Where people have hours of their own, they decide.
        if self.hours.open.is_empty() || self.kitchen.named.iter().any(|cook| cook.hours.is_some()) {
            return false;
        }
        let minutes = |time: jiff::civil::Time| {
            Minute::from(time.hour()) * 60 + Minute::from(time.minute()) + Minute::from(time.second() > 0)
        };
        let (opens, closes) = (minutes(self.kitchen.opens), minutes(self.kitchen.closes));
        let clock = |minute: Minute| format!("{:02}:{:02}", minute.div_euclid(60), minute.rem_euclid(60));
        // Through midnight there is only what is left of the day.
        let shut = if closes <= opens { opens - closes } else { 1440 - closes };
        let with = |sooner: Minute, later: Minute| {
            let kitchen = Kitchen {
                opens: on_the_clock(opens - sooner),
                closes: on_the_clock(closes + later),
                ..self.kitchen.clone()
            };
            vec![Mend::Kitchen(Box::new(kitchen))]
        };
        let most = if closes <= opens { shut } else { opens } / 30;
        let sooner = least(most, |half| self.holds(&with(half * 30, 0))).map(|half| half * 30);
        let later = least(shut / 30, |half| self.holds(&with(0, half * 30))).map(|half| half * 30);
        let helps = sooner.is_some() || later.is_some();
        if helps && because.is_empty() {
            let (sooner, later) = (sooner.unwrap_or(0), if sooner.is_some() { 0 } else { later.unwrap_or(0) });
            let outside = self.mended(&with(sooner, later)).and_then(|longer| self.outside(&longer.problem));
            because.push(format!(
                "the work does not fit into the opening hours, {}-{}{}",
                clock(opens),
                clock(closes),
                outside.unwrap_or_default()
            ));
        }
        ways.extend(sooner.map(|by| Offer::said_so(format!("open at {}", clock(opens - by)), with(by, 0))));
        ways.extend(later.map(|by| Offer::said_so(format!("close at {}", clock(closes + by)), with(0, by))));
        helps
    }

    /// Ready later, or begun sooner.
    fn later(&self, ways: &mut Vec<Offer>) {
        if let (Some(earliest), Some(_)) = (self.hours.earliest, self.clock) {
            let enough = |sooner: &Minute| self.holds(&begin_sooner(earliest, *sooner).mends());
            let days = [DAY, 2 * DAY, 3 * DAY].into_iter().find(enough);
            // Where a day is enough, less may be.
            let less = [15, 60, 240].into_iter();
            let sooner = if days == Some(DAY) { less.chain(days).find(enough) } else { days };
            ways.extend(sooner.and_then(|sooner| self.proven(begin_sooner(earliest, sooner))));
        }
        let dues: Vec<Minute> = self.hours.dues.iter().flatten().copied().collect();
        let due = dues.first().copied().filter(|_| dues.len() == 1);
        let later = |minutes: Minute| {
            let limited = Limited::Later(None, due);
            Offer::length(Length { limited, name: String::new(), step: None, now: 0, minutes })
        };
        let is_enough = |shift: &Minute| self.holds(&later(*shift).mends());
        // What has to be ready on its day may be so some hours later, and not on the next day at the same hour.
        if dues.is_empty() || !self.fresh && !is_enough(&DAY) {
            return;
        }
        let enough = [15, 60, 180, 480, DAY].into_iter().find(is_enough);
        ways.extend(enough.and_then(|enough| self.proven(later(enough))));
    }

    fn worst_place(&self) -> crate::text::source::Span {
        place(self.work)
    }
}
