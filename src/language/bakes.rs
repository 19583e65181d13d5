//! A log of bakes as it is understood: which recipe, and for each bake how much of it, what went in and what was measured.

use crate::language::evaluate::evaluate;
use crate::language::parse::begins_bake;
use crate::language::syntax::{
    BakeClause, CameTo as WrittenCameTo, Content, HeatOf, Line, LogLine, Name, Quantity, RanClause, RanTime, Tree,
    Verdict,
};
use crate::measure::noun::dozens;
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass};
use crate::measure::temperature::Temperature;
use crate::measure::value::{Told, Value};
use crate::text::source::{Span, Spanned};
use jiff::civil::{Date, DateTime, Time};
use rayon::prelude::*;

/// A log.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Log {
    /// The path of the recipe; `None` where no line says it, which was reported.
    pub of: Option<Spanned<String>>,
    /// The bakes, as they stand in the file.
    pub bakes: Vec<Bake>,
}

/// One bake.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bake {
    /// The day on which it began.
    pub date: Spanned<Date>,
    /// The time at which it began, where that is said.
    pub time: Option<Time>,
    /// How much was made; as it is written where nothing is said.
    pub size: Spanned<Size>,
    /// The options that were followed: the choice, where that is said, and the option.
    pub options: Vec<(Option<Name>, Name)>,
    /// The revision of the formula, where that is said.
    pub from: Option<Spanned<String>>,
    /// Who.
    pub by: String,
    /// The temperatures of the day.
    pub heat: Vec<(HeatOf, Spanned<Temperature>)>,
    /// What went in otherwise than on the card.
    pub went_in: Vec<WentIn>,
    /// What was measured of its steps, as it stands in the file.
    pub steps: Vec<Ran>,
    /// What was thought of it.
    pub judged: Vec<Judged>,
    /// Its notes.
    pub notes: Vec<String>,
    /// What is to become of the formula, and why.
    pub verdict: Option<(Verdict, String)>,
}

/// How much of a recipe was made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Size {
    /// As it is written.
    AsWritten,
    /// So many pieces, and what was said of them.
    Pieces(Number),
    /// So much.
    Mass(Mass),
    /// So many times.
    Times(Number),
    /// So many pieces of each sort.
    Sorts(Vec<(Name, Number)>),
}

/// What really went in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WentIn {
    /// The ingredient as it is called, possibly with ` of ` and its part.
    pub name: Name,
    /// How much, where that is said.
    pub amount: Option<Told>,
    /// How warm, where that is said.
    pub at: Option<Temperature>,
}

/// A step and what was measured of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ran {
    /// The step as it is called, possibly with ` of ` and its part.
    pub step: Name,
    /// When, where that is said.
    pub time: Option<Spanned<Took>>,
    /// Which load, where that is said.
    pub load: Option<Spanned<i64>>,
    /// How warm what it made was when it ended.
    pub left_at: Option<Spanned<Temperature>>,
    /// How hot it was done.
    pub at: Option<Temperature>,
    /// What it came to.
    pub came_to: Option<Spanned<CameTo>>,
}

/// When a step was done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Took {
    /// From the one time of the day to the other.
    Between(Time, Time),
    /// Since then, and still running.
    Since(Time),
    /// So long; when is not said.
    Lasted(Duration),
}

impl Took {
    /// How many minutes; `None` while it runs. An end before its begin is on the day after.
    pub fn minutes(self) -> Option<Number> {
        match self {
            Took::Between(begin, end) => {
                let minute = |time: Time| i64::from(time.hour()) * 60 + i64::from(time.minute());
                let lasted = minute(end) - minute(begin);
                Some(Number::whole(if lasted < 0 { lasted + 1440 } else { lasted }))
            }
            Took::Since(_) => None,
            Took::Lasted(time) => time.in_minutes().ok(),
        }
    }
}

/// What a step came to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CameTo {
    /// So many pieces, and what one weighs where that is said.
    Pieces(Number, Option<Mass>),
    /// Pieces of that weight.
    Each(Mass),
    /// So much in all.
    All(Mass),
}

/// What was thought of a bake.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Judged {
    /// What of it.
    pub name: Name,
    /// The mark.
    pub mark: Number,
    /// The highest mark there is.
    pub of: Number,
    /// Why.
    pub words: String,
    /// Where the mark stands.
    pub span: Span,
}

/// The ways in which a name can be a thing and its part: all of it is the thing's name, or what stands before one of its
/// ` of `s.
pub fn readings(said: &str) -> Vec<(&str, Option<&str>)> {
    let cuts = said.match_indices(" of ").map(|(at, of)| (at, at + of.len()));
    let cut = cuts.filter_map(|(end, begin)| Some((said.get(..end)?.trim(), Some(said.get(begin..)?.trim()))));
    std::iter::once((said, None)).chain(cut).collect()
}

impl Ran {
    /// The ways in which the name can be a step and its part.
    pub fn readings(&self) -> Vec<(&str, Option<&str>)> {
        readings(&self.step.text)
    }

    /// The line, from its name to its time.
    pub fn span(&self) -> Span {
        self.time.map_or(self.step.span, |time| self.step.span.to(time.span))
    }
}

impl Bake {
    fn new(date: Spanned<Date>, time: Option<Time>) -> Bake {
        Bake {
            date,
            time,
            size: Spanned::new(Size::AsWritten, date.span),
            options: Vec::new(),
            from: None,
            by: String::new(),
            heat: Vec::new(),
            went_in: Vec::new(),
            steps: Vec::new(),
            judged: Vec::new(),
            notes: Vec::new(),
            verdict: None,
        }
    }

    /// When it began; the end of the day where no time is said, so that what was committed on its day counts for it.
    pub fn moment(&self) -> DateTime {
        self.date.value.to_datetime(self.time.unwrap_or(Time::MAX))
    }

    /// `2027-03-02 05:30`, with `between` in between.
    pub fn said(&self, between: &str) -> String {
        match self.time {
            Some(time) => format!("{}{between}{}", self.date.value, time.strftime("%H:%M")),
            None => self.date.value.to_string(),
        }
    }

    /// A temperature of the day.
    pub fn heat_of(&self, of: HeatOf) -> Option<Temperature> {
        self.heat.iter().rev().find(|(known, _)| *known == of).map(|(_, at)| at.value)
    }

    /// Takes the lines below the one that begins it.
    fn take_all(&mut self, lines: &[Line], text: &str) {
        for line in lines {
            match &line.content {
                Content::Logged(line) => self.take(line),
                // A longer note goes on below it.
                Content::Prose(pieces) => {
                    let Some(note) = self.notes.last_mut() else { continue };
                    for piece in pieces {
                        if let crate::language::syntax::Piece::Text(words) = piece {
                            note.push(' ');
                            note.push_str(words);
                        }
                    }
                }
                // What stands below a bake that cannot be read belongs to no other.
                Content::Stray if begins_bake(text.get(line.said.range()).unwrap_or("")) => break,
                _ => {}
            }
        }
    }

    fn take(&mut self, line: &LogLine) {
        match line {
            LogLine::Of(_) | LogLine::Bake { .. } => {}
            // A line that nobody filled in takes nothing away.
            LogLine::By(name) if name.is_empty() => {}
            LogLine::By(name) => self.by.clone_from(name),
            LogLine::Heat(of, quantity) => {
                let said = quantity.as_ref().and_then(|quantity| evaluate(quantity, None, &mut Vec::new()));
                let at = said.and_then(|said| Some(Spanned::new(said.temperature()?, said.span)));
                self.heat.extend(at.map(|at| (*of, at)));
            }
            LogLine::WentIn { name, amount, at } => {
                // Of two lines the last counts, as of everything that a bake says twice.
                if amount.is_some() || !at.is_empty() {
                    self.went_in.retain(|known| !known.name.same(name));
                }
                let (amount, at) = (amount.as_ref().and_then(told), first_temperature(at));
                self.went_in.push(WentIn { name: name.clone(), amount, at });
            }
            LogLine::Ran { step, time, clauses } => self.steps.push(ran(step, time.as_ref(), clauses)),
            LogLine::Judged { name, mark, of, words } => self.judged.push(Judged {
                name: name.clone(),
                mark: mark.value,
                of: of.value,
                words: words.clone(),
                span: mark.span.to(of.span),
            }),
            LogLine::Note(words) if !words.is_empty() => self.notes.push(words.clone()),
            LogLine::Note(_) => {}
            LogLine::Verdict(verdict, words) => {
                self.verdict = verdict.map(|verdict| (verdict, words.clone())).or(self.verdict.take());
            }
        }
    }
}

/// So many bakes are worth a thread of their own.
const STRETCH: usize = 100;

impl Log {
    /// The log that a tree of its kind holds, which was read from `text`; lines that could not be read are left out. The bakes of a
    /// long log are read side by side: none has anything of another.
    pub fn of(tree: &Tree, text: &str) -> Log {
        let of = tree.lines.iter().find_map(|line| match &line.content {
            Content::Logged(line) => match &**line {
                LogLine::Of(path) => Some(path.clone()),
                _ => None,
            },
            _ => None,
        });
        let is_begin =
            |line: &Line| matches!(&line.content, Content::Logged(line) if matches!(&**line, LogLine::Bake { .. }));
        let begins = tree.lines.iter().enumerate().filter(|(_, line)| is_begin(line));
        let begins: Vec<usize> = begins.map(|(at, _)| at).collect();
        let bake = |(number, begin): (usize, &usize)| {
            let end = begins.get(number + 1).copied().unwrap_or(tree.lines.len());
            let (first, below) = tree.lines.get(*begin..end)?.split_first()?;
            let mut bake = bake_of(first)?;
            bake.take_all(below, text);
            Some(bake)
        };
        Log { of, bakes: begins.par_iter().with_min_len(STRETCH).enumerate().filter_map(bake).collect() }
    }
}

/// The bake that a line begins.
fn bake_of(line: &Line) -> Option<Bake> {
    let Content::Logged(line) = &line.content else { return None };
    let LogLine::Bake { date, time, clauses } = &**line else { return None };
    let mut bake = Bake::new(*date, time.map(of_the_day));
    clauses.iter().for_each(|clause| bake_clause(&mut bake, clause));
    Some(bake)
}

/// 24:00 is kept as the last second of a day; on a clock it is midnight.
fn of_the_day(time: Time) -> Time {
    if time.second() == 59 { Time::midnight() } else { time }
}

fn bake_clause(bake: &mut Bake, clause: &Spanned<BakeClause>) {
    let size = match &clause.value {
        BakeClause::Pieces(count, noun) => Some(Size::Pieces(pieces(count.value, noun.as_ref()))),
        BakeClause::Mass(quantity) => value(quantity).and_then(mass).map(Size::Mass),
        BakeClause::Times(times) => Some(Size::Times(times.value)),
        BakeClause::Sorts(sorts) => {
            Some(Size::Sorts(sorts.iter().map(|(count, sort)| (sort.clone(), count.value)).collect()))
        }
        BakeClause::Choose(first, second) => {
            bake.options.push(match second {
                Some(option) => (Some(first.clone()), option.clone()),
                None => (None, first.clone()),
            });
            None
        }
        BakeClause::From(revision) => {
            bake.from = Some(revision.clone());
            None
        }
        BakeClause::Broken => None,
    };
    if let Some(size) = size {
        bake.size = Spanned::new(size, clause.span);
    }
}

fn ran(step: &Name, time: Option<&Spanned<RanTime>>, clauses: &[Spanned<RanClause>]) -> Ran {
    let took = time.and_then(|time| {
        let took = match &time.value {
            RanTime::Between(begin, end) => Took::Between(of_the_day(*begin), of_the_day(*end)),
            RanTime::Since(begin) => Took::Since(of_the_day(*begin)),
            RanTime::Lasted(quantity) => match value(quantity)? {
                Value::Time(lasted) => Took::Lasted(lasted),
                _ => return None,
            },
        };
        Some(Spanned::new(took, time.span))
    });
    let mut ran = Ran { step: step.clone(), time: took, load: None, left_at: None, at: None, came_to: None };
    for clause in clauses {
        let span = clause.span;
        match &clause.value {
            RanClause::LeftAt(chain) => ran.left_at = first_temperature(chain).map(|at| Spanned::new(at, span)),
            RanClause::At(chain) => ran.at = first_temperature(chain),
            RanClause::Load(load) => ran.load = Some(Spanned::new(*load, span)),
            RanClause::CameTo(came_to) => ran.came_to = self::came_to(came_to).map(|came| Spanned::new(came, span)),
            RanClause::Broken => {}
        }
    }
    ran
}

/// How many pieces that are: of `2 dozen buns` twenty-four.
fn pieces(count: Number, noun: Option<&Name>) -> Number {
    noun.and_then(|noun| dozens(count, &noun.text)).map_or(count, |(many, _)| many)
}

fn came_to(written: &WrittenCameTo) -> Option<CameTo> {
    let weight = |quantity: &Quantity| value(quantity).and_then(mass);
    Some(match written {
        WrittenCameTo::Sized(count, each) => CameTo::Pieces(count.value, Some(weight(each)?)),
        WrittenCameTo::Each(each) => CameTo::Each(weight(each)?),
        WrittenCameTo::All(all) => CameTo::All(weight(all)?),
        WrittenCameTo::Pieces(count, noun) => CameTo::Pieces(pieces(count.value, noun.as_ref()), None),
    })
}

/// What a quantity stands for; spoons and cups differ between countries and are not weighed at a bench.
fn value(quantity: &Quantity) -> Option<Value> {
    told(quantity).map(|told| told.value)
}

/// The same, and whether it is a bare number.
fn told(quantity: &Quantity) -> Option<Told> {
    evaluate(quantity, None, &mut Vec::new()).map(Told::from)
}

fn mass(value: Value) -> Option<Mass> {
    match value {
        Value::Mass(mass) => Some(mass),
        _ => None,
    }
}

fn temperature(value: Value) -> Option<Temperature> {
    match value {
        Value::Temperature(temperature) => Some(temperature),
        _ => None,
    }
}

fn first_temperature(chain: &[Quantity]) -> Option<Temperature> {
    chain.first().and_then(value).and_then(temperature)
}
