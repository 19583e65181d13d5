//! A good plan at once: the builder tried with several orders of preference, forward and backward by turns.

use super::bounds::lower_bound;
use super::builder::{Builder, Effort};
use super::dense::Dense;
use super::moves;
use super::noise::Noise;
use super::problem::{Due, Minute, Problem};
use super::score::Score;
use super::standard_form::{StandardForm, Times};

/// Work that one first plan may cost, in tasks put; it decides how many orders are tried.
const EFFORT: usize = 60_000;

/// Events that one first plan may look at, and those that the question whether there is a plan may: a second or two, and
/// some tenths of one. Only days of many recipes that cannot all be done come near.
const EVENTS: usize = 150_000_000;
const EVENTS_OF_QUESTION: usize = 15_000_000;

/// Events that the first plan of a card may look at: nobody waits for a card.
const EVENTS_OF_CARD: usize = 10_000_000;

/// Whether any of the plain orders leads to a plan, or one of so many that are shaken; that none does proves nothing.
pub fn any(model: &StandardForm, shaken: usize, stop: &dyn Fn() -> bool) -> bool {
    let Some(builder) = Builder::new(model) else { return false };
    let mut effort = Effort { events: EVENTS_OF_QUESTION, stop };
    let rules = rules(model, &builder);
    let mut noise = Noise::new();
    let far = model.horizon() / 8;
    rules.iter().any(|keys| builder.build(keys, &mut effort).is_some())
        || rules.iter().cycle().take(shaken).any(|keys| builder.build(&noise.shaken(keys, far), &mut effort).is_some())
}

/// The best plan found quickly, with its score; `None` if none of the orders led to one, which does not prove that
/// there is none. It is looked at longer where the search after it may take more steps.
pub fn plan(problem: &Problem, model: &StandardForm, steps: u64, stop: &dyn Fn() -> bool) -> Option<(Score, Times)> {
    let mut effort = Effort { events: EVENTS, stop };
    let found = within(problem, model, &mut effort)?;
    Some(moves::improve(problem, model, found, steps, &mut effort))
}

/// As [`plan`], for a card.
pub fn for_card(problem: &Problem, model: &StandardForm) -> Option<(Score, Times)> {
    within(problem, model, &mut Effort { events: EVENTS_OF_CARD, stop: &|| false })
}

fn within(problem: &Problem, model: &StandardForm, effort: &mut Effort) -> Option<(Score, Times)> {
    let builder = Builder::new(model)?;
    let rounds = (EFFORT / model.jobs.len().max(1)).clamp(3, 60);
    let mut best = Best { model, found: None, changes: 0, is_least: false };
    let rules = rules(model, &builder);
    for (at, keys) in rules.iter().enumerate() {
        // An order that leads nowhere leaves the others their share.
        let mut share = Effort { events: effort.events / (rules.len() - at + 1), ..*effort };
        let before = share.events;
        best.consider(builder.build(keys, &mut share));
        effort.events -= before - share.events;
    }
    let mut known: Option<Turned> = None;
    let mut noise = Noise::new();
    for round in 0..rounds {
        if (effort.stop)() || best.is_least {
            break;
        }
        let Some((score, times)) = &best.found else {
            // Nothing yet: shake the rules until one leads to a plan.
            let Some(keys) = rules.get(round % rules.len().max(1)) else { break };
            best.consider(builder.build(&noise.shaken(keys, model.horizon() / 8), effort));
            continue;
        };
        // There and back: the other way round, then this way in the order that came of it, shaken two times of three.
        let (span, changes) = (score.span, best.changes);
        if known.as_ref().is_none_or(|known| known.changes != changes || !spend(known.there_took, effort)) {
            let before = effort.events;
            let there = turned(problem, model, span, times, effort);
            let order = there.as_ref().map_or(times, |times| times).starts.clone();
            let there_took = there.is_some().then(|| before - effort.events);
            known = Some(Turned { changes, order, there_took, back_took: None });
            best.consider(there);
        }
        let Some(turn) = &mut known else { break };
        if round % 3 != 0 {
            best.consider(builder.build(&noise.shaken(&turn.order, 1 + span / 10), effort));
        } else if !spend(turn.back_took, effort) {
            let before = effort.events;
            let back = builder.build(&turn.order, effort);
            turn.back_took = back.is_some().then(|| before - effort.events);
            best.consider(back);
        }
    }
    best.found
}

/// The best plan turned round. As long as no better one is found, it is turned to the same again and leads back to the same, and costs
/// the same, so that it does not matter how often that is really done.
struct Turned {
    /// Which best plan was turned, by how many there were before it.
    changes: usize,
    /// The order that came of it.
    order: Dense<i64>,
    /// What turning it took, in events; `None` where nothing came of it.
    there_took: Option<usize>,
    /// What building a plan in its order took; `None` where that was not done, or nothing came of it.
    back_took: Option<usize>,
}

/// Takes from the effort what something took that comes to the same again; `false` where it has to be done.
fn spend(took: Option<usize>, effort: &mut Effort) -> bool {
    let left = took.and_then(|took| effort.events.checked_sub(took));
    effort.events = left.unwrap_or(effort.events);
    left.is_some()
}

/// The best plan so far.
struct Best<'a> {
    model: &'a StandardForm,
    found: Option<(Score, Times)>,
    /// How often a better one was found.
    changes: usize,
    /// Whether none can be better.
    is_least: bool,
}

impl Best<'_> {
    fn consider(&mut self, times: Option<Times>) {
        let Some(times) = times else { return };
        let score = Score::of(self.model, &times);
        if self.found.as_ref().is_none_or(|(least, _)| score < *least) {
            self.found = Some((score, times));
            self.changes += 1;
            self.is_least = score.standing == 0 && score.spells <= 1 && score == lower_bound(self.model, score);
        }
    }
}

/// Orders of preference.
fn rules(model: &StandardForm, builder: &Builder) -> Vec<Dense<i64>> {
    let tails = builder.tails();
    let heads = builder.heads();
    let tasks = 0..model.jobs.len();
    let by = |key: &dyn Fn(usize) -> i64| tasks.clone().map(key).collect::<Dense<i64>>();
    let mut longest_of_group: Dense<Minute> = Dense::filled(model.jobs.len(), 0);
    for task in tasks.clone() {
        let group = builder.group_of(task);
        longest_of_group[group] = longest_of_group[group].max(tails[task]);
    }
    let wide = model.horizon() + 1;
    // Groups of one length, such as one recipe many times, still come one after the other.
    let mut by_length: Vec<usize> = tasks.clone().map(|task| builder.group_of(task)).collect();
    by_length.sort_by_key(|group| (-longest_of_group[*group], *group));
    by_length.dedup();
    let mut rank: Dense<i64> = Dense::filled(model.jobs.len(), 0);
    for (at, group) in (0..).zip(&by_length) {
        rank[*group] = at;
    }
    vec![
        // What most hangs on goes first.
        by(&|task| -tails[task]),
        // What can start first goes first.
        by(&|task| heads[task]),
        // What must be over first, as seen from its group's end.
        by(&|task| heads[task] + model.jobs[task].shortest - tails[task]),
        // One group after the other, the longest first.
        by(&|task| rank[builder.group_of(task)] * wide - tails[task]),
        // One group after the other, the one that can start first goes first.
        by(&|task| i64::try_from(builder.group_of(task)).unwrap_or(0) * wide + heads[task]),
    ]
}

/// The plan built the other way round: from the other end, in the order in which the tasks end in this one, and within
/// its span. What floats is pressed against what needs it, and sometimes the whole becomes shorter.
fn turned(problem: &Problem, model: &StandardForm, span: Minute, times: &Times, effort: &mut Effort) -> Option<Times> {
    let mut other = problem.clone();
    let far_end = model.outward(span);
    if model.mirrored {
        other.earliest = Some(far_end);
    } else {
        other.earliest = Some(model.outward(0));
        other.dues.push(Due { tasks: (0..problem.tasks.len()).collect(), minute: far_end });
    }
    let back = StandardForm::seen_from(&other, !model.mirrored, far_end);
    let builder = Builder::new(&back)?;
    let keys: Dense<i64> = times.ends.iter().map(|end| -end).collect();
    let turned = builder.build(&keys, effort)?;
    let across = |minute: &Minute| model.inward(back.outward(*minute));
    Some(Times {
        starts: turned.ends.iter().map(across).collect(),
        ends: turned.starts.iter().map(across).collect(),
        units: turned.units,
        people: turned.people,
    })
}
