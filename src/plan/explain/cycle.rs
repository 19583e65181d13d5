//! Statements that contradict each other by themselves, however the work is laid out.

use super::super::network::Cause;
use super::super::problem::{Edge, Lag, Minute, Problem, Rule};
use super::super::solve;
use super::mend::{Mend, Says};
use super::offer::{Length, Limited, Offer, bears_in_the_warm};
use super::{Case, step, time};
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::measure::show;
use crate::model::alive::STAND;
use crate::model::cold::is_cold;
use crate::model::kitchen::Capacity;
use crate::model::step::{Loads, Step, StepKind};
use crate::plan::tasks::Task;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;

/// Statements of which not all can hold.
pub(super) struct Contradiction {
    /// All of them in a sentence, with by how much they miss.
    pub(super) said: String,
    /// Whether loads wait for each other in it, because of what they are made in: another kitchen may then help.
    pub(super) loads_wait: bool,
    /// What could give way, each by itself, if nothing else stands in the way.
    pub(super) ways: Vec<Offer>,
    /// Where each is said, and what it says.
    places: Vec<(Span, String)>,
}

impl Contradiction {
    /// Names all the places in a problem.
    pub(super) fn mark(self, mut problem: Diagnostic) -> Diagnostic {
        let mut marked = vec![problem.span];
        for (span, text) in self.places {
            if !marked.contains(&span) {
                marked.push(span);
                problem = problem.also(span, text);
            }
        }
        problem
    }
}

/// How long what is alive can stand before a rest that may go on in the warm: it goes on there as it stands, so that both together are what that
/// rest bears.
fn stands_on_the_bench(rest: &Task) -> Option<Minute> {
    let is_cold = rest.temperature.is_some_and(is_cold);
    let most = rest.most_minutes.unwrap_or(rest.minutes);
    (rest.kind == StepKind::Wait && !is_cold).then(|| (bears_in_the_warm(most) - rest.minutes).max(STAND))
}

impl Case<'_> {
    /// The statements of a problem that cannot all hold, if that is what stands in the way.
    pub(super) fn contradiction(&self, problem: &Problem) -> Option<Contradiction> {
        let (causes, by) = solve::contradiction(problem)?;
        let mut read = Causes::new(self, problem, by);
        for cause in causes {
            read.cause(cause)?;
        }
        read.edge()?;
        read.told()
    }

    /// Steps with their times, loads of one step together: `bake` (5 loads of 16 min).
    fn in_words(&self, steps: &[(usize, Minute)]) -> Vec<(String, usize)> {
        let of = |at: usize| self.tasks.list.get(at);
        // Of many loads several are one task: told are the loads that somebody does.
        let each = |one: &(usize, Minute)| of(one.0).map_or((1, one.1), |task| self.loads_in(task, one.1));
        let alike = |one: &(usize, Minute), next: &(usize, Minute)| {
            each(one).1 == each(next).1
                && of(one.0).map(|task| (task.batch, task.step)) == of(next.0).map(|task| (task.batch, task.step))
        };
        let said = steps.chunk_by(alike).filter_map(|loads| {
            let first = loads.first()?;
            let task = of(first.0)?;
            let (many, takes) = (loads.iter().map(|one| each(one).0).sum::<i64>(), time(each(first).1));
            let said = match (many, task.loads) {
                (1, 1) => format!("{} ({takes})", self.named(task)),
                (1, _) => format!("{}, load {} ({takes})", self.named(task), task.load),
                (many, _) => format!("{} ({many} loads of {takes})", self.named(task)),
            };
            Some((said, loads.len()))
        });
        said.collect()
    }

    /// A sentence of steps that are all of one part, and said so each time: the part is named once.
    fn in_one_place(&self, said: String, steps: &[(usize, Minute)]) -> String {
        let place = |(at, _): &(usize, Minute)| {
            let task = self.tasks.list.get(*at)?;
            self.named(task).strip_prefix(&format!("`{}`", step(self.work, task))).map(str::to_owned)
        };
        let Some(of) = steps.first().and_then(place).filter(|of| said.matches(of.as_str()).count() > 2) else {
            return said;
        };
        match of.strip_prefix(" of ") {
            Some(part) if steps.iter().all(|one| place(one).as_ref() == Some(&of)) => {
                format!("in {part}, {}", said.replace(&of, ""))
            }
            _ => said,
        }
    }

    /// How many pieces are cooked at once, where the step or what it works in says so.
    pub(super) fn at_a_time(&self, task: &Task) -> Option<Number> {
        let holds = task.equipment.as_ref().and_then(|name| self.kitchen.find(name)).and_then(|one| one.holds);
        match (self.written(task)?.loads, holds) {
            (Loads::Of(size) | Loads::EachOf(size), _) => Some(size),
            (Loads::Once, Some(Capacity::Pieces(most))) => Some(most.value()),
            _ => None,
        }
    }

    /// Of how many loads a task of so many minutes is that follow each other, and how long each of them takes.
    fn loads_in(&self, task: &Task, minutes: Minute) -> (i64, Minute) {
        let loads =
            self.at_a_time(task).zip(task.pieces).and_then(|(size, pieces)| pieces.over(size).ok()?.ceil().to_whole());
        let is_even = |loads: &i64| *loads > 1 && minutes % loads == 0 && task.kind != StepKind::Wait;
        loads.filter(is_even).map_or((1, minutes), |loads| (loads, minutes / loads))
    }

    /// A step as it is written.
    pub(super) fn written(&self, task: &Task) -> Option<&Step> {
        self.work.batches.get(task.batch)?.recipe.part(task.step.part)?.steps.get(task.step.step)
    }

    /// Work on pieces that two could share.
    fn shared(&self, task: &Task, takes: Minute) -> Option<Offer> {
        let step = self.written(task)?;
        if task.kind != StepKind::Hands || step.loads != Loads::Each || step.shared_by > 1 {
            return None;
        }
        let mut mends = vec![Mend::Step(task.span, Says::SharedBy(2))];
        let mut said = format!("let two share {}, which takes one {}: `shared by 2`", self.named(task), time(takes));
        if self.kitchen.cooks < 2 {
            let (kitchen, line) = self.with_cooks(1, None)?;
            let place = if self.kitchen.named.is_empty() { " in the kitchen" } else { "" };
            said.push_str(&format!(", with {line}{place}"));
            mends.push(Mend::Kitchen(Box::new(kitchen)));
        }
        Some(Offer::said_so(said, mends))
    }

    /// That a step lasts longer for what is done meanwhile.
    fn lasts(&self, task: &Task, by: Minute) -> Option<Offer> {
        let once = self.written(task)?.loads == Loads::Once;
        let (limited, name) = (Limited::Lasts(task.span), self.named(task));
        once.then(|| Offer::length(Length { limited, name, step: None, now: 0, minutes: by }))
    }

    /// That what is done at moments is done sooner.
    fn moments_sooner(&self, task: &Task, by: Minute) -> Option<Offer> {
        let first = self.written(task)?.moments.first().and_then(|moment| moment.whole_minutes())?;
        let (limited, name) = (Limited::MomentsSooner(task.span), self.named(task));
        (first >= by).then(|| Offer::length(Length { limited, name, step: None, now: 0, minutes: by }))
    }

    fn ready_later(&self, due: usize, by: Minute) -> Option<Offer> {
        let order = self.order_due(due)?;
        let minute = self.hours.dues.get(order).copied().flatten()?;
        let limited = Limited::Later(Some(order), Some(minute));
        let name = if self.work.orders.len() > 1 {
            format!("`{}`", self.work.orders.get(order)?.recipe.name)
        } else {
            String::new()
        };
        Some(Offer::length(Length { limited, name, step: None, now: 0, minutes: by }))
    }

    /// What to write so that a limit of that number between two steps is longer by so much; `None` for what nothing that is written
    /// limits.
    pub(super) fn longer(
        &self,
        (lag, rule): (usize, Rule),
        (one, then): (&Task, &Task),
        most: Minute,
        by: Minute,
    ) -> Option<Offer> {
        let (first, next) = (self.named(one), self.named(then));
        let is_rest = one.kind == StepKind::Wait;
        let length =
            |limited: Limited, name: String, now: Minute| Length { limited, name, step: None, now, minutes: now + by };
        let length = match rule {
            Rule::UpTo => Length::up_to(one, first, most + by),
            Rule::Alive if is_rest => {
                Length::up_to(one, first, one.minutes.max(one.most_minutes.unwrap_or(0)) + most + by)
            }
            Rule::Keeps => {
                let part = self.work.batches.get(one.batch)?.recipe.part(one.step.part)?;
                let keeps = part.keeps?;
                length(Limited::Keeps(keeps.span), first, keeps.time.whole_minutes()?)
            }
            Rule::Alive => {
                let stands = length(Limited::Stands(one.span), first, most);
                Length { step: stands_on_the_bench(then).map(|bears| (one.batch, one.step, bears)), ..stands }
            }
            Rule::Into => {
                let stands = self.written(then)?.may_stand.and_then(Duration::whole_minutes);
                length(Limited::Moment(then.span), next, stands.unwrap_or(STAND))
            }
            Rule::Within => length(Limited::Within(then.span, one.span, first), next, most),
            Rule::StraightAfter => length(Limited::StraightAfter(then.span, one.span, first), next, most),
            Rule::Overnight => {
                let said = format!("put a rest that may go on over night (`up to`) between {first} and {next}");
                return Some(Offer::said_so(said, vec![Mend::Rest(lag)]));
            }
            _ => return None,
        };
        Some(Offer::length(length))
    }

    /// What could give way where the first piece would stand too long: two share the work, the rest after it goes on, or the next step
    /// takes the first of them while the others are done.
    pub(super) fn first_piece(&self, lag: &Lag, one: &Task, over: Minute) -> Vec<Offer> {
        let rest = self.problem.lags.iter().find(|other| other.rule == Rule::UpTo && other.to == lag.to);
        let rest = rest.and_then(|rest| Some((self.tasks.list.get(rest.from.task)?, rest.most?)));
        let on = rest.map(|(rest, most)| Offer::length(Length::up_to(rest, self.named(rest), most + over)));
        let shared = self.shared(one, one.minutes).filter(|_| over <= one.minutes);
        if lag.from.edge == Edge::End {
            return self.bowl_by_bowl(lag, one).into_iter().chain(on).collect();
        }
        shared.into_iter().chain(on).chain(self.less_at_a_time(one, over)).collect()
    }

    /// Pieces that are worked on one by one, so many of them before the next step takes those: as many as are enough.
    pub(super) fn less_at_a_time(&self, task: &Task, by: Minute) -> Option<Offer> {
        let pieces = task
            .pieces
            .and_then(Number::to_whole)
            .filter(|_| self.written(task).is_some_and(|step| step.loads == Loads::Each))?;
        let mends = |pieces: i64| vec![Mend::Step(task.span, Says::AtATime(Number::whole(pieces)))];
        // Halves, thirds, quarters: who works so divides evenly.
        let few =
            (2..=6).map(|parts| (pieces + parts - 1) / parts).find(|few| *few < pieces && self.holds(&mends(*few)))?;
        // What waits for something else is no longer for what is done with it.
        let too_long = if by > task.minutes {
            String::new()
        } else {
            format!(", which takes {}, {} too long", time(task.minutes), time(by))
        };
        let said = format!("make less at a time: `each, {few} at a time` on {}{too_long}", self.named(task));
        Some(Offer::said_so(said, mends(few)))
    }

    /// The number of the order that a due time is of; the problem numbers only orders that are wanted at a time.
    fn order_due(&self, due: usize) -> Option<usize> {
        let finals = self.tasks.finals.iter().zip(&self.hours.dues).enumerate();
        let mut wanted = finals.filter(|(_, (finals, due))| due.is_some() && !finals.is_empty());
        wanted.nth(due).map(|(order, _)| order)
    }

    /// When an order is wanted.
    fn wanted(&self, due: usize) -> Option<String> {
        let order = self.order_due(due)?;
        let minute = self.hours.dues.get(order).copied().flatten()?;
        let recipe = &self.work.orders.get(order)?.recipe.name;
        Some(format!("`{recipe}` is wanted at {}", self.wall(minute)?))
    }
}

/// The causes of a contradiction, as far as they are read.
struct Causes<'a> {
    case: &'a Case<'a>,
    problem: &'a Problem,
    /// By how many minutes they miss.
    by: Minute,
    /// What limits the time between two steps.
    limits: Vec<String>,
    /// What says only which comes first.
    orders: Vec<String>,
    places: Vec<(Span, String)>,
    /// Which tasks lie between, and how long each takes.
    steps: Vec<(usize, Minute)>,
    loads_wait: bool,
    ways: Vec<Offer>,
    /// Whether the end of the last order is one of them.
    at_edge: bool,
}

impl<'a> Causes<'a> {
    fn new(case: &'a Case<'a>, problem: &'a Problem, by: Minute) -> Self {
        let (limits, orders, places) = (Vec::new(), Vec::new(), Vec::new());
        let (steps, ways) = (Vec::new(), Vec::new());
        Self { case, problem, by, limits, orders, places, steps, loads_wait: false, ways, at_edge: false }
    }

    /// Reads one more of them; `None` for what cannot be said in words.
    fn cause(&mut self, cause: Cause) -> Option<()> {
        match cause {
            Cause::Duration(at) => self.duration(at),
            Cause::Lag(at) => self.lag(at),
            Cause::Loads(..) => self.loads_wait = true,
            Cause::Due(due) => self.due(due)?,
            Cause::Earliest => {
                let minute = self.problem.earliest?;
                self.limits.push(format!("nothing starts before {}", self.case.wall(minute)?));
                self.ways.push(begin_sooner(minute, self.by));
            }
            Cause::Edge => self.at_edge = true,
        }
        Some(())
    }

    /// How long a step takes. Behind the steps stand moments of attention, which take no time.
    fn duration(&mut self, at: usize) {
        let (Some(task), Some(planned)) = (self.case.tasks.list.get(at), self.problem.tasks.get(at)) else { return };
        self.steps.push((at, planned.shortest));
        self.ways.extend(self.case.shared(task, planned.shortest));
        self.places.push((task.span, format!("takes {}", time(planned.shortest))));
    }

    /// How soon or how late one step comes after another.
    fn lag(&mut self, at: usize) {
        let (case, by) = (self.case, self.by);
        let Some(lag) = self.problem.lags.get(at) else { return };
        let (Some(first), Some(then)) = (case.tasks.list.get(lag.from.task), case.tasks.list.get(lag.to.task)) else {
            return;
        };
        let (one, other) = (case.named(first), case.named(then));
        let stands = case.written(first).and_then(|step| step.may_stand).is_some();
        match (limit(lag, (&one, stands), &other), lag.rule) {
            // A rest that begins at once says no more than that it comes next.
            (Some(said), Rule::AtOnce) => self.orders.push(said),
            (Some(said), _) => {
                self.places.push((then.span, said.clone()));
                self.limits.push(said);
            }
            (None, Rule::During) => {
                self.limits.push(format!("{one} and {other} run together"));
                // The inner one ends before the outer one does.
                if lag.to.edge == Edge::End {
                    self.ways.extend(case.lasts(then, by));
                    self.ways.extend(case.moments_sooner(first, by));
                }
            }
            (None, _) => self.orders.push(format!("{other} comes after {one}")),
        }
        if lag.rule == Rule::FirstPiece {
            self.ways.extend(case.first_piece(lag, first, by));
        }
        // Who does less at a time lets nothing wait.
        if lag.rule == Rule::Alive {
            self.ways.extend(case.less_at_a_time(first, by));
        }
        self.ways.extend(lag.most.and_then(|most| case.longer((at, lag.rule), (first, then), most, by)));
    }

    /// When an order is wanted.
    fn due(&mut self, due: usize) -> Option<()> {
        self.limits.push(self.case.wanted(due)?);
        self.ways.extend(self.case.ready_later(due, self.by));
        Some(())
    }

    /// With due times the planner counts backward from the last of them; of several that of the steps is told.
    fn edge(&mut self) -> Option<()> {
        let dues = &self.problem.dues;
        let Some(last) = dues.iter().map(|due| due.minute).max().filter(|_| self.at_edge) else { return Some(()) };
        let batch_of = |at: usize| self.case.tasks.list.get(at).map(|task| task.batch);
        let batch = self.steps.last().and_then(|(at, _)| batch_of(*at));
        let at_last = || dues.iter().enumerate().filter(|(_, due)| due.minute == last);
        let of_steps = at_last().find(|(_, due)| due.tasks.iter().any(|at| batch_of(*at) == batch));
        match of_steps.or_else(|| at_last().next_back()) {
            Some((due, _)) => self.due(due),
            None => Some(()),
        }
    }

    /// All of them in a sentence; `None` when none of them limits anything.
    fn told(mut self) -> Option<Contradiction> {
        // What only comes after each other contradicts itself alone when it goes round in a cycle.
        let mut statements = if self.limits.is_empty() { self.orders } else { self.limits };
        let mut said = std::collections::HashSet::new();
        statements.retain(|statement| said.insert(statement.clone()));
        if statements.is_empty() {
            return None;
        }
        // The planner may have gone round the other way.
        self.steps.sort();
        let minutes = self.steps.iter().map(|(_, takes)| takes).sum();
        let work = match self.case.in_words(&self.steps).as_slice() {
            [] => String::new(),
            [(one, 1)] => format!(", but {one} lies between"),
            all if all.len() <= 6 => {
                let all: Vec<&String> = all.iter().map(|(said, _)| said).collect();
                format!(", but {} come to {}", show::list(&all), time(minutes))
            }
            all => {
                let count: usize = all.iter().map(|(_, loads)| loads).sum();
                format!(", but the {count} steps between come to {}", time(minutes))
            }
        };
        let said = format!("{}{work}: {} too much", show::list(&statements), time(self.by));
        let said = self.case.in_one_place(said, &self.steps);
        Some(Contradiction { said, loads_wait: self.loads_wait, ways: self.ways, places: self.places })
    }
}

/// That work begins so much sooner than at that minute.
pub(super) fn begin_sooner(earliest: Minute, by: Minute) -> Offer {
    let limited = Limited::Sooner(earliest);
    Offer::length(Length { limited, name: String::new(), step: None, now: 0, minutes: by })
}

/// What limits the time between two steps, which are named in quotation marks, and of which the first may say itself how long what it made
/// stands; `None` for what only says which comes first.
fn limit(lag: &Lag, (one, stands): (&str, bool), other: &str) -> Option<String> {
    let most = lag.most?;
    let within = time(most);
    Some(match lag.rule {
        Rule::Keeps => format!("{other} uses what {one} finishes, which keeps {within}"),
        Rule::UpTo => format!("{other} comes at most {within} after {one} begins"),
        Rule::Overnight => {
            format!("{other} comes on the day of {one}, since nothing stands over night unless it is said")
        }
        Rule::Alive if stands => format!("{other} comes after {one}, which says `may stand {within}`"),
        Rule::Alive => format!("{other} comes at most {within} after {one}, since what is alive does not wait"),
        // Of what is mixed in several bowls it is the first of them.
        Rule::FirstPiece if lag.from.edge == Edge::End => {
            format!("{other} comes at most {within} after the first load of {one}, which rests meanwhile")
        }
        Rule::FirstPiece => {
            format!("{other} comes at most {within} after {one} begins, for the first piece's sake")
        }
        Rule::Into => format!("{other} comes at most {within} into {one}"),
        Rule::Held => return None,
        _ if most == 0 => format!("{other} comes straight after {one}"),
        _ => format!("{other} comes at most {within} after {one}"),
    })
}
