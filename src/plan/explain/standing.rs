//! What would have to keep, stand or go on longer: which step, and by how many minutes.

use super::super::problem::{Edge, Lag, Minute, Point, Problem, Rule};
use super::super::solve;
use super::mend::{Mend, Says};
use super::offer::{Length, Limited, Offer};
use super::{Case, time};
use crate::measure::number::Number;
use crate::measure::show;
use crate::model::recipe::Part;
use crate::model::step::{Loads, Step, StepKind};
use crate::plan::tasks::Task;

/// By so many minutes more, one after the other, what is alive is let stand to see what it would have to.
pub(super) const LONGER: [Minute; 7] = [15, 60, 180, 480, 1440, 2 * 1440, 7 * 1440];

/// What is let stand longer, one after the other: what is done at a moment of something else stays there, unless nothing else helps.
const STRETCHES: [&[Rule]; 2] =
    [&[Rule::Alive, Rule::FirstPiece, Rule::UpTo], &[Rule::Alive, Rule::FirstPiece, Rule::UpTo, Rule::Into]];

/// A rest from which on it may go on through a night, in minutes.
const LONG_REST: Minute = 60;
/// So many steps after the mixing are let go on bowl by bowl.
const MOST_AFTER: usize = 4;
/// So many steps that are done in loads are tried.
const MOST_IN_LOADS: usize = 4;
/// Of so many things that stand too long it is asked whether they have to.
const MOST_STANDING: usize = 4;
/// By how many minutes at most it is asked how much less is enough.
const LONGEST_LOOKED_AT: Minute = 60;
/// So many rests are tried.
const MOST_RESTS: usize = 8;

/// What is twice as long as it may be, and so much longer, in minutes, waits for another day: that says nothing of what there is too little of.
const BY_FAR: Minute = 480;

/// What would have to stand too long.
pub(super) struct Stood {
    /// In words, with its figures.
    pub(super) said: String,
    /// Whether it is for so long that it says nothing of what stands in the way.
    pub(super) is_by_far: bool,
}

/// The time between the two moments of a lag in a plan.
pub(super) fn between(plan: &solve::Plan, lag: &Lag) -> Option<Minute> {
    let at = |point: Point| match point.edge {
        Edge::Start => plan.starts.get(point.task).copied(),
        Edge::End => plan.ends.get(point.task).copied(),
    };
    Some(at(lag.to)? - at(lag.from)?)
}

impl Case<'_> {
    /// Rests that end when nobody is there and could go on until somebody is.
    pub(super) fn rests_go_on(&self, ways: &mut Vec<Offer>, because: &mut Vec<String>) {
        let is_rest = |task: &&Task| task.load == 1 && task.kind == StepKind::Wait && task.most_minutes.is_none();
        let rests = self.tasks.list.iter().filter(is_rest).filter(|task| task.minutes >= LONG_REST);
        for rest in rests.take(MOST_RESTS) {
            let is_load = |at: usize| {
                self.tasks.list.get(at).is_some_and(|task| (task.batch, task.step) == (rest.batch, rest.step))
            };
            let from_its_end = |lag: &Lag| lag.from.edge == Edge::End && is_load(lag.from.task);
            let mut other = self.problem.clone();
            for lag in other.lags.iter_mut().filter(|lag| lag.rule != Rule::Attended && from_its_end(lag)) {
                lag.most = None;
            }
            // Where it is enough that what was made stands, it does not matter who is there.
            let stands = self.possible(&other);
            other.lags.retain(|lag| !(lag.rule == Rule::Attended && from_its_end(lag)));
            if stands || !self.possible(&other) {
                continue;
            }
            let Some(plan) = self.quickly(&other) else { continue };
            let stands = other.lags.iter().filter(|lag| from_its_end(lag) && lag.least >= 0);
            let longest = stands.filter_map(|lag| between(&plan, lag)).max().unwrap_or(0);
            let name = self.named(rest);
            if because.is_empty() {
                because.push(format!("{name} takes {}, and nobody is there when it is over", time(rest.minutes)));
            }
            let length = Length::up_to(rest, name, rest.minutes + longest);
            let offer = Offer::length(Length { limited: Limited::UntilSomebody(rest.span), ..length });
            ways.extend(self.proven(offer));
        }
    }

    /// What is alive and would have to wait: which step, how long, and what would give way. Where longer hours would help, the
    /// hours are the reason. Gives back what would have to wait too long.
    pub(super) fn alive(&self, ways: &mut Vec<Offer>, because: &mut Vec<String>, is_closed: bool) -> Option<Stood> {
        let plan = self.stands_longer()?;
        let stretched = |lag: &&Lag| STRETCHES.iter().any(|rules| rules.contains(&lag.rule));
        let over = self.problem.lags.iter().filter(stretched).filter_map(|lag| {
            let between = between(&plan, lag)?;
            let over = between - lag.most?;
            (over > 0).then_some((over, between, lag))
        });
        let (over, between, lag) = over.max_by_key(|(over, _, _)| *over)?;
        let (one, then) = (self.tasks.list.get(lag.from.task)?, self.tasks.list.get(lag.to.task)?);
        let name = |task: &Task| match task.loads {
            1 => self.named(task),
            loads => format!("{} {} of {loads}", self.named(task), task.load),
        };
        // What there is too little of, or when nobody is there, goes before what then has to stand.
        let is_told = is_closed || !because.is_empty();
        let at = self.problem.lags.iter().position(|other| std::ptr::eq(other, lag)).unwrap_or(0);
        let mut asked: Vec<Offer> = Vec::new();
        if lag.rule == Rule::FirstPiece {
            asked.extend(self.first_piece(lag, one, over));
        }
        if lag.rule == Rule::Alive {
            asked.extend(self.less_at_a_time(one, over));
        }
        asked.extend(self.longer((at, lag.rule), (one, then), lag.most.unwrap_or(0), over));
        let both = asked.into_iter().filter_map(|offer| Some((offer.one_length(), self.proven(offer)?)));
        let both: Vec<(Option<Minute>, Offer)> = both.collect();
        // That plan is one of many: by how much it is too long at least is known where the least that is enough is.
        let less = both.iter().filter_map(|(asked, proven)| Some((*asked)? - proven.one_length()?)).max().unwrap_or(0);
        let (over, between) = if (0..over).contains(&less) { (over - less, between - less) } else { (over, between) };
        let (first, next, most) = (name(one), name(then), time(lag.most.unwrap_or(0)));
        let may_stand = self.written(one).is_some_and(|step| step.may_stand.is_some());
        let said = match lag.rule {
            Rule::FirstPiece if lag.from.edge == Edge::End => format!(
                "{next} would begin {} after {first} ended, and what was mixed first rests no longer than {most}",
                time(between)
            ),
            Rule::Alive if may_stand => {
                format!("{next} would begin {} after {first} ended, which says `may stand {most}`", time(between))
            }
            Rule::Alive => format!(
                "{next} would begin {} after {first} ended, and what is alive stands {most} at most",
                time(between)
            ),
            Rule::FirstPiece => {
                format!(
                    "{next} would begin {} after the first piece was through {first}, {} too late",
                    time(between),
                    time(over)
                )
            }
            _ => format!("{next} would begin {} after {first} began, and that may be {most}", time(between)),
        };
        because.push(said.clone());
        let mut offers: Vec<Offer> = both.into_iter().map(|(_, offer)| offer).collect();
        offers.retain(|offer| !ways.contains(offer));
        let before = if is_told { ways.len() } else { 0 };
        ways.splice(before..before, offers);
        if one.loads < then.loads && !matches!(lag.rule, Rule::FirstPiece | Rule::Into) {
            ways.extend(self.as_much_at_a_time(one, then));
        }
        Some(Stood { said, is_by_far: over > lag.most.unwrap_or(0).max(BY_FAR) })
    }

    /// A plan in which what must stand stands as little as it can: nothing longer than a week, and through a night if it has to.
    fn stands_longer(&self) -> Option<solve::Plan> {
        let standing = |(rules, longer): (&[Rule], Minute)| {
            let mut other = self.problem.clone();
            let stands = |rule: Rule| rules.contains(&rule) || rule == Rule::Overnight;
            for lag in other.lags.iter_mut().filter(|lag| stands(lag.rule)) {
                lag.most = lag.most.map(|most| most + longer);
            }
            self.quickly(&other).map(|plan| (other, plan))
        };
        let has_moments = self.problem.lags.iter().any(|lag| lag.rule == Rule::Into);
        let tries = STRETCHES.into_iter().skip(usize::from(!has_moments));
        let (mut relaxed, mut plan) =
            tries.flat_map(|rules| LONGER.map(|longer| (rules, longer))).find_map(standing)?;
        // Of what stands longer in it some only does because it may: that is no reason.
        let step = |lag: &Lag| {
            let of = |at: usize| self.tasks.list.get(at).map(|task| (task.batch, task.step));
            (of(lag.from.task), of(lag.to.task), lag.rule)
        };
        let is_over = |lag: &Lag, plan: &solve::Plan| lag.most.is_some_and(|most| between(plan, lag) > Some(most));
        let mut over: Vec<&Lag> = Vec::new();
        for lag in self.problem.lags.iter().filter(|lag| is_over(lag, &plan)) {
            if !over.iter().any(|other| step(other) == step(lag)) {
                over.push(lag);
            }
        }
        let is_one = over.len() < 2;
        for of in over.into_iter().take(if is_one { 0 } else { MOST_STANDING }) {
            let mut other = relaxed.clone();
            let pairs = other.lags.iter_mut().zip(&self.problem.lags);
            pairs.filter(|(_, said)| step(said) == step(of)).for_each(|(lag, said)| lag.most = said.most);
            if let Some(better) = self.quickly(&other) {
                (relaxed, plan) = (other, better);
            }
        }
        Some(self.stands_least(&relaxed).unwrap_or(plan))
    }

    /// The same with the least by which what stands longer in a problem has to, where that is no more than an hour.
    fn stands_least(&self, relaxed: &Problem) -> Option<solve::Plan> {
        let longer = |lag: &Lag, said: &Lag| Some(lag.most? - said.most?).filter(|longer| *longer > 0);
        let pairs = relaxed.lags.iter().zip(&self.problem.lags);
        let by = pairs.filter_map(|(lag, said)| longer(lag, said)).max().filter(|by| *by <= LONGEST_LOOKED_AT)?;
        let with = |by: Minute| {
            let mut other = relaxed.clone();
            for (lag, said) in other.lags.iter_mut().zip(&self.problem.lags) {
                if longer(lag, said).is_some() {
                    lag.most = said.most.map(|most| most + by);
                }
            }
            self.quickly(&other)
        };
        let (mut low, mut high, mut least) = (0, by, None);
        while high - low > 1 {
            let middle = low + (high - low) / 2;
            match with(middle) {
                Some(plan) => (high, least) = (middle, Some(plan)),
                None => low = middle,
            }
        }
        least
    }

    /// Each of several bowls goes on by itself: as many of the steps after the mixing as are enough take as much at a time as one bowl gives.
    pub(super) fn bowl_by_bowl(&self, lag: &Lag, one: &Task) -> Option<Offer> {
        let then = self.tasks.list.get(lag.to.task)?;
        let all = then.pieces.filter(|_| then.share.is_positive())?.over(then.share).ok()?;
        let at_once = all.over(Number::whole(one.loads.max(1))).ok()?.ceil();
        let steps = &self.work.batches.get(one.batch)?.recipe.part(one.step.part)?.steps;
        let after: Vec<&Step> = steps.iter().skip(one.step.step + 1).take(MOST_AFTER).collect();
        let offer = |count: usize| {
            let some = after.get(..count)?;
            let names: Vec<String> = some.iter().map(|step| format!("`{}`", step.name)).collect();
            let said = format!(
                "let each load go on by itself: `, {} at a time` behind {}",
                show::count_of(at_once),
                show::list(&names)
            );
            let mends = some.iter().map(|step| Mend::Step(step.span, Says::AtATime(at_once))).collect();
            self.proven(Offer::said_so(said, mends))
        };
        (1..=after.len()).find_map(offer)
    }

    /// As much at a time as the next step takes at once: of the step before, or of what is done with the single pieces before it, too.
    fn as_much_at_a_time(&self, one: &Task, then: &Task) -> Option<Offer> {
        let pieces = then.pieces.filter(|pieces| pieces.is_positive())?;
        let steps = &self.work.batches.get(one.batch)?.recipe.part(one.step.part)?.steps;
        let before = one.step.step.checked_sub(1).and_then(|at| steps.get(at)).filter(|step| step.loads == Loads::Each);
        let last = steps.get(one.step.step)?;
        let offer = |said: String, steps: &[&Step]| {
            let write = format!("`, {} at a time` behind", show::count_of(pieces));
            let said = format!("make as much at a time as {} takes at once: {write} {said}", self.named(then));
            Offer::said_so(said, steps.iter().map(|step| Mend::Step(step.span, Says::AtATime(pieces))).collect())
        };
        let both = before.map(|before| offer(format!("`{}` and {}", before.name, self.named(one)), &[before, last]));
        [Some(offer(self.named(one), &[last])), both].into_iter().flatten().find_map(|offer| self.proven(offer))
    }

    /// As much at a time as what is done in loads takes at once: of as few of the steps before it as are enough.
    pub(super) fn load_by_load(&self) -> Vec<Offer> {
        let mut found: Vec<Offer> = Vec::new();
        let in_loads = self.tasks.list.iter().filter(|task| task.load == 1 && task.loads > 1 && task.bundle.is_none());
        for then in in_loads.filter(|task| task.equipment.is_some()).take(MOST_IN_LOADS) {
            let part = self.work.batches.get(then.batch).and_then(|batch| batch.recipe.part(then.step.part));
            let (Some(part), Some(pieces)) = (part, then.pieces.filter(|pieces| pieces.is_positive())) else {
                continue;
            };
            // What is not in pieces yet, a dough that rises, has no loads of them.
            let before = part.steps.iter().take(then.step.step).rev();
            let before = before.take_while(|step| {
                step.loads.size().is_none() && (step.equipment.is_none() || step.kind == StepKind::Wait)
            });
            let before: Vec<&Step> = before.take(MOST_AFTER).collect();
            let offer = |count: usize| {
                let mut some: Vec<&Step> = before.get(..count)?.to_vec();
                some.reverse();
                // It begins with what is done piece by piece, or with what rests right after that: else it is no matter of loads.
                let first = then.step.step - count;
                let by_piece = |at: Option<usize>| {
                    at.and_then(|at| part.steps.get(at)).is_some_and(|step| step.loads == Loads::Each)
                };
                if !by_piece(Some(first)) && !by_piece(first.checked_sub(1)) {
                    return None;
                }
                let names: Vec<String> = some.iter().map(|step| format!("`{}`", step.name)).collect();
                let write = format!("`, {} at a time` behind", show::count_of(pieces));
                let (name, steps) = (self.named(then), show::list(&names));
                let said = format!("make as much at a time as {name} takes at once: {write} {steps}");
                let mends = some.iter().map(|step| Mend::Step(step.span, Says::AtATime(pieces))).collect();
                self.proven(Offer::said_so(said, mends))
            };
            let offered = (1..=before.len()).find_map(offer);
            found.extend(offered.or_else(|| self.goes_on_by_load(then, part, pieces)));
        }
        found
    }

    /// What is done together after loads, done for each of them by itself: none of them waits for the last, over night or in the way.
    fn goes_on_by_load(&self, then: &Task, part: &Part, pieces: Number) -> Option<Offer> {
        let after = part.steps.iter().skip(then.step.step + 1).take_while(|step| step.loads.size().is_none());
        let after: Vec<&Step> = after.take(MOST_AFTER).filter(|step| step.order.is_empty()).collect();
        let offer = |count: usize| {
            let some = after.get(..count)?;
            let names: Vec<String> = some.iter().map(|step| format!("`{}`", step.name)).collect();
            let write = format!("`, {} at a time` behind", show::count_of(pieces));
            let said = format!("let each load go on by itself: {write} {}", show::list(&names));
            let mends = some.iter().map(|step| Mend::Step(step.span, Says::AtATime(pieces))).collect();
            self.proven(Offer::said_so(said, mends))
        };
        (1..=after.len()).find_map(offer)
    }
}
