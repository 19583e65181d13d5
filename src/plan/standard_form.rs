//! A problem put into the one form that the planner works on: time runs forward from zero, and the plan should be over
//! as early as it can.
//!
//! Planning backward from due times is the same as planning forward in a mirror: count minutes back from the last due
//! time and swap the start and the end of every task. "Start as late as you can" becomes "be over as early as you
//! can". Nothing after this file knows whether it works on the picture or on its mirror image.

use super::dense::Dense;
use super::network::{Arc, Cause, Cycle, Network};
use super::problem::{
    Edge, Equipment, FRESH, FURTHEST, Holding, Kind, Lag, Minute, NOT_LONG, PAST_ITS_MOMENT, Person, Point, Problem,
    Rule, Shift, Stand, Standing, Task, Unbroken, Window,
};

/// What of a task is work that falls into spells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Work {
    /// Nothing.
    Nothing,
    /// All of it.
    All,
    /// The moment at which it begins, to those who do it.
    Begin,
}

/// A task as the planner sees it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Job {
    /// The least it takes.
    pub shortest: Minute,
    /// The most it may take.
    pub longest: Minute,
    /// Whether it must lie within opening hours.
    pub attended: bool,
    /// For how long the kitchen must have been open before it, and must stay so after it: what is hot was heated meanwhile.
    pub around: (Minute, Minute),
    /// What of it is work.
    pub work: Work,
    /// How many cooks it takes.
    pub cooks: u32,
    /// What it holds.
    pub holds: Option<Holding>,
}

impl Job {
    /// Whether its length is fixed.
    pub fn fixed(&self) -> bool {
        self.shortest == self.longest
    }
}

/// A wait between two events that costs `weight` for every minute beyond `free`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Idle {
    /// The earlier event.
    pub from: usize,
    /// The later event.
    pub to: usize,
    /// The minutes that cost nothing.
    pub free: Minute,
    /// What a minute costs.
    pub weight: i64,
}

/// When every task starts and ends, in model time.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Times {
    /// The starts.
    pub starts: Dense<Minute>,
    /// The ends.
    pub ends: Dense<Minute>,
    /// Which unit of its equipment each task holds, counted from 0; 0 where it holds none.
    pub units: Dense<usize>,
    /// Who works at each task, counted from 0; empty where that is not decided yet.
    pub people: Dense<Vec<usize>>,
}

/// A problem in the planner's form.
#[derive(Debug, Clone)]
pub struct StandardForm {
    /// The tasks.
    pub jobs: Dense<Job>,
    /// The events: start and end of every task, and [`StandardForm::zero`].
    pub network: Network,
    /// The opening hours; empty means always open.
    pub open: Vec<Window>,
    /// How many cooks there are.
    pub cooks: i64,
    /// Who they are; empty: all alike.
    pub people: Dense<Person>,
    /// The equipment.
    pub equipment: Dense<Equipment>,
    /// What should stand about little.
    pub idle: Vec<Idle>,
    /// What should not stand long: `free` is what may stand without weighing.
    pub long: Vec<Idle>,
    /// Work that is not left in its middle.
    pub unbroken: Vec<Unbroken>,
    /// The events at which somebody has to see to something that is tended.
    pub seen_to: Vec<usize>,
    /// Whether heating again counts.
    pub again: bool,
    /// The longest pause within a spell.
    pub pause: Minute,
    /// Loads of one step, in order: the earlier and the later.
    pub loads: Vec<(usize, usize)>,
    /// Whether time runs backward, and the minute that is model time zero.
    pub mirrored: bool,
    origin: Minute,
}

/// The moment a task starts.
pub fn start(task: usize) -> usize {
    2 * task
}

/// The moment a task ends.
pub fn end(task: usize) -> usize {
    2 * task + 1
}

impl StandardForm {
    /// Puts a problem into the planner's form: mirrored if it has due times, else as it is. The problem must have no
    /// [faults](Problem::faults).
    pub fn new(problem: &Problem) -> StandardForm {
        let last_due = problem.dues.iter().map(|due| due.minute).max();
        let origin = last_due.or(problem.earliest).unwrap_or(0);
        StandardForm::seen_from(problem, last_due.is_some(), origin)
    }

    /// Puts a problem into the planner's form, mirrored or not, with the minute that is to be zero.
    pub fn seen_from(problem: &Problem, mirrored: bool, origin: Minute) -> StandardForm {
        // In the mirror what a unit is left at is what it was found at.
        let turned = |holds: Holding| match mirrored {
            true => Holding { setting: holds.leaves, leaves: holds.setting, ..holds },
            false => holds,
        };
        let mut jobs: Dense<Job> = problem
            .tasks
            .iter()
            .map(|task| Job {
                // A rest that holds equipment and may be drawn out takes a minute at least, so that whether it is in
                // the way of another never depends on its being nothing.
                shortest: task.shortest.max(Minute::from(task.longest > 0 && task.holds.is_some())),
                longest: task.longest,
                attended: task.kind != Kind::Wait,
                around: (0, 0),
                work: match task.kind {
                    Kind::Hands => Work::All,
                    Kind::Tend if problem.begun && task.longest > 0 => Work::Begin,
                    Kind::Tend | Kind::Wait => Work::Nothing,
                },
                cooks: task.cooks,
                holds: task.holds.map(turned),
            })
            .collect();
        for (task, heating) in problem.heated.iter().filter(|(task, _)| *task < problem.tasks.len()) {
            if jobs[*task].attended {
                jobs[*task].around = if mirrored { (0, *heating) } else { (*heating, 0) };
            }
        }
        let is_of_hands =
            |one: &Unbroken| problem.tasks.get(one.task).is_some_and(|task| task.kind == Kind::Hands && task.cooks > 0);
        let mut model = StandardForm {
            network: Network::new(0, Vec::new()),
            open: Vec::new(),
            cooks: i64::from(problem.cooks),
            people: Dense::default(),
            equipment: problem.equipment.clone().into(),
            idle: Vec::new(),
            long: Vec::new(),
            unbroken: problem.unbroken.iter().copied().filter(is_of_hands).collect(),
            seen_to: seen_to(problem),
            again: problem.again,
            pause: problem.pause,
            loads: Vec::new(),
            jobs,
            mirrored,
            origin,
        };
        model.open = model.hours(&problem.open);
        model.people = problem.people.iter().map(|person| model.person(person)).collect();
        let idle = |standing: &Standing| {
            let idle = model.idle_of(problem, standing.stand, i64::from(standing.weight));
            Idle { free: idle.free + standing.free, ..idle }
        };
        model.idle = problem.standing.iter().map(idle).collect();
        model.idle.extend(model.moments(problem));
        let beyond = |stand: &Stand, free: Minute| {
            let idle = model.idle_of(problem, *stand, 1);
            Idle { free: idle.free + free, ..idle }
        };
        let long = problem.long.iter().map(|stand| beyond(stand, NOT_LONG));
        let long: Vec<Idle> = long.chain(problem.stale.iter().map(|stand| beyond(stand, FRESH))).collect();
        model.long = long;
        model.loads = loads(problem);
        let arcs = model.arcs(problem);
        model.network = Network::new(2 * model.jobs.len() + 1, arcs);
        model
    }

    /// The moments from which and until which each task is work, of those that are.
    pub fn work(&self) -> impl Iterator<Item = (usize, usize)> {
        self.jobs.iter().enumerate().filter_map(|(task, job)| match job.work {
            Work::All => Some((start(task), end(task))),
            Work::Begin => Some(if self.mirrored { (end(task), end(task)) } else { (start(task), start(task)) }),
            Work::Nothing => None,
        })
    }

    /// Whether anything may weigh against the span.
    pub fn weighs(&self) -> bool {
        !self.long.is_empty() || self.caught_weights().next().is_some()
    }

    /// What it weighs to be needed in two places, in each way in which somebody can be.
    pub fn caught_weights(&self) -> impl Iterator<Item = i64> + '_ {
        let can = !self.seen_to.is_empty();
        self.unbroken.iter().map(|one| one.weight).filter(move |weight| can && *weight > 0)
    }

    /// The event that is time zero.
    pub fn zero(&self) -> usize {
        2 * self.jobs.len()
    }

    /// A minute of the problem in model time.
    pub fn inward(&self, minute: Minute) -> Minute {
        if self.mirrored { self.origin - minute } else { minute - self.origin }
    }

    /// A minute of model time in the problem.
    pub fn outward(&self, minute: Minute) -> Minute {
        if self.mirrored { self.origin - minute } else { minute + self.origin }
    }

    /// An event of the problem in the model.
    pub fn event(&self, point: Point) -> usize {
        if (point.edge == Edge::Start) == self.mirrored { end(point.task) } else { start(point.task) }
    }

    /// The earliest each event can come by arcs alone.
    ///
    /// # Errors
    /// When the arcs contradict each other.
    pub fn earliest(&self) -> Result<Dense<Minute>, Cycle> {
        self.network.least_from(self.zero())
    }

    /// A time within which every plan worth having is over: everything one after the other, through every closed time
    /// that the opening hours name.
    pub fn horizon(&self) -> Minute {
        let busy: Minute = self.jobs.iter().map(|job| job.longest).sum();
        let waits: Minute = self.network.arcs().iter().map(|arc| arc.by.max(0)).sum();
        let heats: Minute = self.equipment.iter().map(|equipment| equipment.heating).max().unwrap_or(0);
        let hours = self.open.last().map_or(0, |window| window.closes.max(0));
        busy + waits + hours + heats * Minute::try_from(self.jobs.len()).unwrap_or(0)
    }

    /// The rule that binds event `from` and `to` of the problem, in the model.
    fn arc(&self, from: Point, to: Point, by: Minute, cause: Cause) -> Arc {
        let (from, to) = (self.event(from), self.event(to));
        if self.mirrored { Arc { from: to, to: from, by, cause } } else { Arc { from, to, by, cause } }
    }

    fn arcs(&self, problem: &Problem) -> Vec<Arc> {
        let mut arcs = Vec::new();
        for (task, job) in self.jobs.iter().enumerate() {
            let cause = Cause::Duration(task);
            arcs.push(Arc { from: start(task), to: end(task), by: job.shortest, cause });
            arcs.push(Arc { from: end(task), to: start(task), by: -job.longest, cause });
            arcs.push(Arc { from: self.zero(), to: start(task), by: 0, cause: Cause::Edge });
        }
        for (at, lag) in problem.lags.iter().enumerate() {
            if lag.least > -FURTHEST {
                arcs.push(self.arc(lag.from, lag.to, lag.least, Cause::Lag(at)));
            }
            if let Some(most) = lag.most {
                arcs.push(self.arc(lag.to, lag.from, -most, Cause::Lag(at)));
            }
        }
        for (first, then) in &self.loads {
            let from = if self.exclude(*first, *then) { Point::end(*first) } else { Point::start(*first) };
            arcs.push(self.arc(from, Point::start(*then), 0, Cause::Loads(*first, *then)));
        }
        for (at, due) in problem.dues.iter().enumerate() {
            for task in &due.tasks {
                let by = self.inward(due.minute);
                let (from, to) = (self.zero(), self.event(Point::end(*task)));
                let cause = Cause::Due(at);
                if self.mirrored {
                    arcs.push(Arc { from, to, by, cause });
                } else {
                    arcs.push(Arc { from: to, to: from, by: -by, cause });
                }
            }
        }
        if let (Some(earliest), true) = (problem.earliest, self.mirrored) {
            let by = -self.inward(earliest);
            for task in 0..self.jobs.len() {
                arcs.push(Arc { from: end(task), to: self.zero(), by, cause: Cause::Earliest });
            }
        }
        arcs
    }

    /// For each task, the number of the group that it is in: tasks that are bound to each other by times between them, usually
    /// those of one recipe.
    pub fn groups(&self) -> Dense<usize> {
        let count = self.jobs.len();
        let mut root: Dense<usize> = (0..count).collect();
        fn find(root: &mut Dense<usize>, mut at: usize) -> usize {
            while root[at] != at {
                root[at] = root[root[at]];
                at = root[at];
            }
            at
        }
        for arc in self.network.arcs() {
            let (from, to) = (arc.from / 2, arc.to / 2);
            if from < count && to < count {
                let (one, other) = (find(&mut root, from), find(&mut root, to));
                root[one.max(other)] = one.min(other);
            }
        }
        let mut number: Dense<Option<usize>> = Dense::filled(count, None);
        let mut groups = 0;
        (0..count)
            .map(|task| {
                let top = find(&mut root, task);
                let group = number[top].unwrap_or(groups);
                groups = groups.max(group + 1);
                number[top] = Some(group);
                group
            })
            .collect()
    }

    /// Whether two tasks can never run at the same time, whatever else happens.
    pub fn exclude(&self, one: usize, other: usize) -> bool {
        let (a, b) = (&self.jobs[one], &self.jobs[other]);
        if a.shortest == 0 || b.shortest == 0 {
            return false;
        }
        if i64::from(a.cooks) + i64::from(b.cooks) > self.cooks && a.cooks > 0 && b.cooks > 0 {
            return true;
        }
        let (Some(a), Some(b)) = (a.holds, b.holds) else { return false };
        if a.equipment != b.equipment {
            return false;
        }
        self.equipment[a.equipment].count == 1 && !self.share(a, b)
    }

    /// Whether two loads can be in one unit of their equipment at the same time.
    pub fn share(&self, one: Holding, other: Holding) -> bool {
        let equipment = &self.equipment[one.equipment];
        equipment.shared.is_some_and(|takes| one.size + other.size <= takes) && equipment.alike(one, other)
    }

    /// Whether two loads can be in one unit at once, as far as heat goes.
    pub fn alike(&self, one: Holding, other: Holding) -> bool {
        self.equipment[one.equipment].alike(one, other)
    }

    /// The time a unit needs between two loads of which one comes after the other.
    pub fn heating(&self, first: Holding, then: Holding) -> Minute {
        let equipment = &self.equipment[first.equipment];
        if equipment.agree(first.leaves, then.setting) { 0 } else { equipment.heating }
    }

    fn hours(&self, open: &[Window]) -> Vec<Window> {
        let mut hours: Vec<Window> = open
            .iter()
            .map(|window| {
                let (one, other) = (self.inward(window.opens), self.inward(window.closes));
                Window { opens: one.min(other), closes: one.max(other) }
            })
            .collect();
        hours.sort_by_key(|window| window.opens);
        let mut joined: Vec<Window> = Vec::new();
        for window in hours {
            match joined.last_mut() {
                Some(last) if last.closes >= window.opens => last.closes = last.closes.max(window.closes),
                _ => joined.push(window),
            }
        }
        joined
    }

    fn person(&self, person: &Person) -> Person {
        let window = |window: Window| {
            let (one, other) = (self.inward(window.opens), self.inward(window.closes));
            Window { opens: one.min(other), closes: one.max(other) }
        };
        let shift = |shift: &Shift| Shift { window: window(shift.window), ..*shift };
        let mut shifts: Vec<Shift> = person.shifts.iter().map(shift).collect();
        let mut nights: Vec<Window> = person.nights.iter().copied().map(window).collect();
        nights.sort_by_key(|night| night.opens);
        shifts.sort_by_key(|shift| shift.window.opens);
        Person { shifts, nights, ..*person }
    }

    /// From when on each thing that is done at a moment of something else could be done, and what a minute counts in which it is not.
    pub fn moments(&self, problem: &Problem) -> Vec<Idle> {
        let into = problem.lags.iter().filter(|lag| lag.rule == Rule::Into && lag.to.edge == Edge::Start);
        let idle = into.map(|lag| {
            let (outer, inner) = (self.event(lag.from), self.event(lag.to));
            let (from, to) = if self.mirrored { (inner, outer) } else { (outer, inner) };
            Idle { from, to, free: lag.least, weight: PAST_ITS_MOMENT }
        });
        idle.collect()
    }

    /// What stands in the warm until somebody puts it into the cold.
    pub fn until_in_the_cold(&self, problem: &Problem) -> Vec<Idle> {
        let is_put_away = |lag: &&Lag| lag.rule == Rule::Attended && lag.most.is_some_and(|most| most > 0);
        let idle = problem.lags.iter().filter(is_put_away).map(|lag| {
            let (rest, moment) = (self.event(lag.from), self.event(lag.to));
            let (from, to) = if self.mirrored { (moment, rest) } else { (rest, moment) };
            Idle { from, to, free: lag.least, weight: 1 }
        });
        idle.collect()
    }

    fn idle_of(&self, problem: &Problem, stand: Stand, weight: i64) -> Idle {
        let between = |from: Point, to: Point, free| {
            let (from, to) = (self.event(from), self.event(to));
            let (from, to) = if self.mirrored { (to, from) } else { (from, to) };
            Idle { from, to, free, weight }
        };
        match stand {
            Stand::Between { made, used } => between(Point::end(made), Point::start(used), 0),
            Stand::DrawnOut { rest } => {
                let shortest = self.jobs[rest].shortest;
                between(Point::start(rest), Point::end(rest), shortest)
            }
            Stand::Ready { made, due } => {
                let minute = problem.dues.get(due).map_or(self.origin, |due| due.minute);
                let event = self.event(Point::end(made));
                let at = self.inward(minute);
                if self.mirrored {
                    Idle { from: self.zero(), to: event, free: at, weight }
                } else {
                    Idle { from: event, to: self.zero(), free: -at, weight }
                }
            }
        }
    }
}

/// The events at which something that is tended begins or ends.
fn seen_to(problem: &Problem) -> Vec<usize> {
    let is_tended = |task: &Task| task.kind == Kind::Tend && task.longest > 0;
    let tended = problem.tasks.iter().enumerate().filter(|(_, task)| is_tended(task));
    tended.flat_map(|(task, _)| [start(task), end(task)]).collect()
}

/// Neighbouring loads of one step, by their numbers.
fn loads(problem: &Problem) -> Vec<(usize, usize)> {
    let mut order: Vec<usize> = (0..problem.tasks.len()).collect();
    let label = |at: &usize| problem.tasks.get(*at).map(|task| task.label).unwrap_or_default();
    order.sort_by_key(|at| (label(at), *at));
    order
        .windows(2)
        .filter_map(|pair| match pair {
            [first, then] if label(first).same_step(label(then)) => Some((*first, *then)),
            _ => None,
        })
        .collect()
}
