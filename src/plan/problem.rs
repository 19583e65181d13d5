//! What is to be planned, in whole minutes and kitchen words.
//!
//! A problem knows nothing of recipes, dates or time zones: whoever makes one numbers the minutes from any moment they
//! like and keeps track, through [`Label`], of which task is which step.

use crate::model::kitchen::REST_AFTER;

/// A moment or a length of time in whole minutes.
pub type Minute = i64;

/// The largest moment or length of time that is planned with: some 19 years.
pub const FURTHEST: Minute = 10_000_000;

/// The largest load, and the most that a unit takes: in grams, ten tonnes.
pub const LARGEST: i64 = 10_000_000;

/// Which load of which step a task is. The planner only compares labels: loads of one step are taken in the order of
/// their numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Label {
    /// The recipe.
    pub recipe: usize,
    /// The part of that recipe.
    pub part: usize,
    /// The step of that part.
    pub step: usize,
    /// The load of that step.
    pub load: usize,
}

impl Label {
    /// Whether both are loads of one step.
    pub fn same_step(self, other: Label) -> bool {
        (self.recipe, self.part, self.step) == (other.recipe, other.part, other.step)
    }
}

/// Who is busy.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Somebody works the whole time; only while the kitchen is open.
    Hands,
    /// It runs by itself while somebody stays in reach; only while the kitchen is open.
    Tend,
    /// Nobody is needed; also through the night.
    Wait,
}

/// The equipment that a task keeps for itself, or a share of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Holding {
    /// Which: a number in [`Problem::equipment`].
    pub equipment: usize,
    /// How hot it must be, in tenths of a degree Celsius; `None` agrees with every heat.
    pub setting: Option<i32>,
    /// How hot it is when the task ends; the same as `setting` unless the oven falls meanwhile.
    pub leaves: Option<i32>,
    /// How much of a unit the load fills, in the measure of [`Equipment::shared`]; without meaning where a unit is
    /// not shared.
    pub size: i64,
    /// What is in it, where what touches each other is one thing: what swims in one fat. `None` shares with all that has none either.
    pub dish: Option<usize>,
}

/// One load of one step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Task {
    /// Which load of which step.
    pub label: Label,
    /// Who is busy.
    pub kind: Kind,
    /// How long it takes; of a range, the longer time.
    pub shortest: Minute,
    /// How long it may be drawn out without harm; equal to `shortest` where it may not be.
    pub longest: Minute,
    /// How many cooks work at it the whole time.
    pub cooks: u32,
    /// The equipment it holds the whole time.
    pub holds: Option<Holding>,
}

/// The start or the end of a task.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Edge {
    /// When it starts.
    Start,
    /// When it ends.
    End,
}

/// A moment that a plan fixes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Point {
    /// The task: a number in [`Problem::tasks`].
    pub task: usize,
    /// Which end of it.
    pub edge: Edge,
}

impl Point {
    /// When the task starts.
    pub fn start(task: usize) -> Point {
        Point { task, edge: Edge::Start }
    }

    /// When the task ends.
    pub fn end(task: usize) -> Point {
        Point { task, edge: Edge::End }
    }
}

/// Why one moment depends on another; only for telling the reader.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Rule {
    /// One step after another.
    After,
    /// Without a pause between them.
    StraightAfter,
    /// With a limited pause between them.
    Within,
    /// While another step runs.
    During,
    /// A part is used before it spoils.
    Keeps,
    /// A rest goes on no longer than it may.
    UpTo,
    /// A rest begins the moment the work before it ends.
    AtOnce,
    /// What is alive does not wait.
    Alive,
    /// Pieces that are shaped one by one are as old as the first.
    FirstPiece,
    /// At a said moment of another step.
    Into,
    /// A unit is held as long as something is in it.
    Held,
    /// Nothing stands through the night unless a file says so.
    Overnight,
    /// Somebody is there when a rest begins or ends.
    Attended,
    /// What must be hot is lit by somebody before.
    Lit,
}

/// `to` comes at least `least` and at most `most` minutes after `from`; negative numbers mean before.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Lag {
    /// The moment counted from.
    pub from: Point,
    /// The moment that depends on it.
    pub to: Point,
    /// The least time between them.
    pub least: Minute,
    /// The most time between them, if that is limited.
    pub most: Option<Minute>,
    /// Why.
    pub rule: Rule,
}

impl Lag {
    /// `then` starts when `first` has ended, or later.
    pub fn after(first: usize, then: usize) -> Lag {
        Lag { from: Point::end(first), to: Point::start(then), least: 0, most: None, rule: Rule::After }
    }

    /// `then` starts the moment `first` ends.
    pub fn straight_after(first: usize, then: usize) -> Lag {
        Lag { most: Some(0), rule: Rule::StraightAfter, ..Lag::after(first, then) }
    }

    /// `then` starts when `first` has ended, at most so many minutes later.
    pub fn within(first: usize, then: usize, most: Minute) -> Lag {
        Lag { most: Some(most), rule: Rule::Within, ..Lag::after(first, then) }
    }

    /// `then` starts when `first` has ended, and while what `first` finished is still good.
    pub fn keeps(first: usize, then: usize, most: Minute) -> Lag {
        Lag { most: Some(most), rule: Rule::Keeps, ..Lag::after(first, then) }
    }

    /// `inner` runs while the stretch from the start of `first` to the end of `last` runs. For a step that is one
    /// load, `first` and `last` are the same task.
    pub fn during(inner: usize, first: usize, last: usize) -> [Lag; 2] {
        let lag = |from, to| Lag { from, to, least: 0, most: None, rule: Rule::During };
        [lag(Point::start(first), Point::start(inner)), lag(Point::end(inner), Point::end(last))]
    }
}

/// One kind of equipment.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Equipment {
    /// How many units there are.
    pub count: u32,
    /// How much one unit takes, if loads may share it, in whatever measure [`Holding::size`] uses (pieces, grams).
    /// `None`: one load at a time.
    pub shared: Option<i64>,
    /// How far the settings of two loads may differ and still count as the same, in tenths of a degree Celsius.
    pub tolerance: i32,
    /// How long a unit takes between any two settings that are not the same; 0 where the kitchen does not say.
    pub heating: Minute,
}

impl Equipment {
    /// How far settings may differ unless the kitchen says otherwise: 5 degrees Celsius.
    pub const USUAL_TOLERANCE: i32 = 50;

    /// Whether two loads can be in a unit at once, as far as heat goes, and what they are: at one heat, and one that does not fall, and of one dish
    /// where that counts.
    pub fn alike(&self, one: Holding, other: Holding) -> bool {
        let steady = |holds: Holding| self.agree(holds.setting, holds.leaves);
        one.dish == other.dish && steady(one) && steady(other) && self.agree(one.setting, other.setting)
    }

    /// Whether two loads can follow each other, or share a unit, without the setting being changed.
    pub fn agree(&self, one: Option<i32>, other: Option<i32>) -> bool {
        match (one, other) {
            (Some(one), Some(other)) => one.abs_diff(other) <= self.tolerance.unsigned_abs(),
            _ => true,
        }
    }
}

/// A time in which the kitchen is open.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Window {
    /// The first minute.
    pub opens: Minute,
    /// The minute by which everybody has left.
    pub closes: Minute,
}

impl Window {
    /// Windows in order, those that overlap or touch made one.
    pub fn joined(mut windows: Vec<Window>) -> Vec<Window> {
        windows.sort_by_key(|window| window.opens);
        let mut joined: Vec<Window> = Vec::with_capacity(windows.len());
        for window in windows {
            match joined.last_mut().filter(|last| last.closes >= window.opens) {
                Some(last) => last.closes = last.closes.max(window.closes),
                None => joined.push(window),
            }
        }
        joined
    }
}

/// When somebody is there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Shift {
    /// From when to when.
    pub window: Window,
    /// How long they rest once in it; 0: not at all.
    pub rest: Minute,
}

/// Somebody who rests in a shift does so neither in its first nor in its last hour, if there is a choice. Common practice, no
/// source.
const SETTLED: Minute = 60;

impl Shift {
    /// The first and the last moment at which the rest may begin: nobody works longer than six hours before it or after it.
    pub fn rests_between(&self) -> (Minute, Minute) {
        let Window { opens, closes } = self.window;
        let first = (closes - REST_AFTER - self.rest).max(opens + SETTLED);
        let last = (opens + REST_AFTER).min(closes - SETTLED - self.rest);
        let middle = opens + (closes - opens - self.rest) / 2;
        if first <= last { (first, last) } else { (middle, middle) }
    }
}

/// Somebody who works.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Person {
    /// When they are there, in order and apart; empty: whenever the kitchen is open.
    pub shifts: Vec<Shift>,
    /// The longest from the start of their first work to the end of their last, in one shift; of somebody without shifts,
    /// between two times away.
    pub longest: Minute,
    /// How long somebody without shifts is away between two days of work at least, unless the kitchen is closed between them.
    pub away: Minute,
    /// When the kitchen is closed between two days, in order, where that is shorter than that.
    pub nights: Vec<Window>,
}

impl Person {
    /// Whether work that begins at a moment is of another day than work that ended at one, of somebody without shifts.
    pub fn is_another_day(&self, ended: Minute, begins: Minute) -> bool {
        let is_between = |night: &Window| ended <= night.opens && night.closes <= begins;
        begins - ended >= self.away || self.nights.iter().any(is_between)
    }
}

/// When something has to be ready.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Due {
    /// The tasks that must have ended by then; what must come before them follows from the lags.
    pub tasks: Vec<usize>,
    /// When.
    pub minute: Minute,
}

/// Something that stands about, of which there should be little.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stand {
    /// From the end of one task to the start of another, which a lag must put after it.
    Between {
        /// The task that finishes it.
        made: usize,
        /// The task that uses it.
        used: usize,
    },
    /// What a rest is drawn out beyond its shortest time.
    DrawnOut {
        /// The rest.
        rest: usize,
    },
    /// From the end of a task to when it has to be ready.
    Ready {
        /// The task.
        made: usize,
        /// A number in [`Problem::dues`].
        due: usize,
    },
}

/// A stand and how much a minute of it counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Standing {
    /// What stands.
    pub stand: Stand,
    /// How much a minute counts: 1 unless some standing is worse than other.
    pub weight: u32,
    /// The minutes that do not count.
    pub free: Minute,
}

/// How many minutes that something stands long weigh as much as a minute of the span. Common practice, no source.
pub const SPAN_WEIGHS: i64 = 2;

/// How long something may stand beside the work without weighing against the span. Common practice, no source.
pub const NOT_LONG: Minute = 60;

/// How long what does not keep may be ready before it is wanted without weighing against the span: bread of the night is sold in the
/// morning, and no day is worth beginning later that yesterday's bread is sold. Common practice, no source.
pub const FRESH: Minute = 240;

/// What a minute counts in which an order is ready and not yet wanted, shared among its last loads; see the weights in `tasks`.
pub const GROWS_STALE: u32 = 6;

/// What a minute of heating again counts among what stands about: half as much as one in which an order grows stale, so that bread
/// is not baked hours too soon to spare an oven a change. Common practice, no source.
pub const HEATED_AGAIN: i64 = 3;

/// What a minute counts among what stands about by which something is done past the moment of another at which it belongs: a dough is
/// folded at its time, and later only where no hands are free. Common practice, no source.
pub const PAST_ITS_MOMENT: i64 = 20;

/// Work that is not left in its middle, and what it weighs if it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Unbroken {
    /// The task: a number in [`Problem::tasks`].
    pub task: usize,
    /// What it weighs.
    pub weight: i64,
}

/// What each moment weighs against the span at which something that is tended goes in, changes or comes out while all who are there are in
/// the middle of other work: half an hour of it where what is on the heat has to be left. Common practice, no source.
pub const FROM_THE_HEAT: i64 = 60;

/// The same where other work is put down for a moment: nothing that is measured. Of plans that are as good, the one in which that comes up less
/// often.
pub const FROM_THE_BENCH: i64 = 0;

/// Everything that a plan must respect, and what makes one plan better than another.
///
/// A plan is better when, in this order,
/// 1. its span is shorter: with due times, from the first start to the last due time (so work starts as late as it
///    can); without, from `earliest` (or minute 0) to the last end. Against that is weighed, [`SPAN_WEIGHS`] minutes for one of the
///    span, what [`Problem::long`] stands beyond [`NOT_LONG`] minutes, what [`Problem::stale`] does beyond [`FRESH`], and each minute
///    at which a task of kind [`Kind::Tend`] that takes some time begins or ends while as many people as are there are in the
///    middle of tasks of [`Problem::unbroken`], by what the least of these weighs;
/// 2. its standing is less: the weighted sum of [`Problem::standing`] beyond what is free of it, [`PAST_ITS_MOMENT`] for each minute by
///    which something starts later than a lag of the rule [`Rule::Into`] asks for at least, and, if [`Problem::again`] says so, [`HEATED_AGAIN`] for
///    each minute of the heating time of a unit as often as a load finds it at the heat of another: two loads with a setting
///    that start one after the other in one unit of which the first leaves it at a heat that does not agree with the second,
///    and between which the kitchen is never closed;
/// 3. its work falls into fewer spells: tasks of kind [`Kind::Hands`], and, if [`Problem::begun`] says so, the moments at which
///    those of kind [`Kind::Tend`] that take some time begin, are in one spell when they overlap, touch, or leave a pause of at
///    most [`Problem::pause`] minutes between them, whoever does them; a spell is a largest set of work that hangs together so.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Problem {
    /// What is to be done.
    pub tasks: Vec<Task>,
    /// What depends on what.
    pub lags: Vec<Lag>,
    /// What there is to work with.
    pub equipment: Vec<Equipment>,
    /// How many people work.
    pub cooks: u32,
    /// Who they are, one after the other; empty: they are alike and there whenever the kitchen is open.
    pub people: Vec<Person>,
    /// When the kitchen is open, in order and apart from each other; empty means always. Outside these times it is
    /// closed, however early or late: give all the days that a plan could need.
    pub open: Vec<Window>,
    /// Nothing starts before, if there is such a time.
    pub earliest: Option<Minute>,
    /// What has to be ready when; empty means to plan from zero.
    pub dues: Vec<Due>,
    /// What should stand about little.
    pub standing: Vec<Standing>,
    /// What should not stand long, although the span were shorter.
    pub long: Vec<Stand>,
    /// What does not keep, and should not be ready for hours, although the span were shorter.
    pub stale: Vec<Stand>,
    /// Whether heating again counts.
    pub again: bool,
    /// Whether to set something going that is only tended is work: a pickle is put on by somebody.
    pub begun: bool,
    /// The longest pause that does not break a spell of work.
    pub pause: Minute,
    /// Work that is not left in its middle so that something goes in, changes or comes out that is tended; in order, and only of hands.
    pub unbroken: Vec<Unbroken>,
    /// Loads that find their unit hot: each with for how long somebody must have been there when it begins, since what is hot is put out when
    /// everybody goes.
    pub heated: Vec<(usize, Minute)>,
    /// Rests that go on where it is warm: of two plans that are as good they go on less in the better one.
    pub warm: Vec<usize>,
}
