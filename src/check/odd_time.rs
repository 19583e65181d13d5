//! `odd-time`: a time that does not suit what is done.

use super::keeping::{self, keeps_itself};
use super::usual_times::{DAY, HOUR, MINUTE, SIMMERS, Size, Usual, begins, celsius, place, size, usual};
use super::{Check, Family, Run, Subject, tell, work_by_weight};
use crate::language::evaluate::times;
use crate::language::syntax::{Content, Line, StepClause, StepKind, StepLine, Term, Tree};
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::measure::show;
use crate::measure::unit::Unit;
use crate::model::cold::{self, is_freezer};
use crate::model::cooking::rests::{PROVES, WORKS};
use crate::model::lowered::{Beginnings, beginnings};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::Span;
use of_its_own::{
    FLAT_BAKE, SLOW_RYE, ferments_as_a_drink, goes_on_in_the_cold, has_much_yeast, is_flat_bake, is_quick, is_slow_rye,
    is_sour_batter, of_what_keeps, rolls_flat, sours_by_itself, stretches_much, wakes_yeast,
};
use std::cell::LazyCell;

mod after_the_bake;
mod boils_off;
mod of_its_own;
mod stands_wet;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "odd-time",
    severity: Severity::Advice,
    family: Family::Steps,
    looks_for: "a time far outside common practice for what is done: a bake of 40 hours, a rise of 45 seconds, a mix of 10 seconds",
    why: "`h` for `min` makes a plan that nobody can keep, and so does a slipped point. Common practice: a dough is mixed for two \
          minutes to three quarters of an hour; no step keeps hands busy for more than three hours, or for one piece five \
          minutes; brushing or strewing one piece takes less than forty seconds; an oven bakes for five minutes to four hours, \
          below 150 °C longer, and dries for five minutes or more; nuts and crumbs are toasted for an hour and a half at most; what hot fat fries by the load takes ten seconds to twenty minutes; a fold within a rest takes twenty seconds to half an hour; a batch is rubbed, stirred, folded, cut and seasoned in a minute or two to an hour at most, and rolled out in one and \
          a half; a pot on the hob is hot after two hours; a bench rest takes five minutes to one and a half hours; doughs rise for a good quarter of an hour to three days, in a \
          warm place one day, and in the cold three hours at least; food is chilled for a quarter of \
          an hour or more and cools for five minutes to half a day. Nobody sets a clock to 1.2 min, tells 5 hours as 300 min or a week as 0.9 weeks, nor tells a time as 0.2 h 30 min or 1 h 60 min; `up to` is longer than the step itself. A chill goes on to \
          `up to` five days; another step not to sixty times its time, a prove not to two and a half times, a rise in a warm place \
          not to four times; the longer end of a range is four times the shorter at most, of ten minutes and more by hand or fire two and \
          a half times, of a bake of a quarter of an hour and more five thirds. Water takes its time to boil away: 0.7 kg of 2 kg are not gone after 4 min on any ring. Meat of much sinew stews for 35 minutes at least, beetroot boils for 15, dried peas for 18 and potatoes for 6, a whole bird roasts for a quarter of an hour a kilogram, and half a kilogram of batter in one is not baked in 8 minutes. What is boiled or simmered and is no stock takes four and a half hours at most. By what the file weighs: a pan fries or browns within 40 minutes and 3 or 4 more a kilogram, melts, blanches and thickens within less, jam and candy boil within three quarters of an hour and 6 minutes a kilogram; hands stir, pour, bind and fold in within 11 minutes and 4 a kilogram, and fill, pack, cut and layer within 25 and 7; what is heated is hot after 25 minutes and 12 a kilogram. Less than a minute is told in seconds. What salt, sourness or a mould keeps may stand for three years. What was baked may rest and ripen for a year, bread of rye cools for two days, and a dough of honey without yeast, milk and egg lies for months; grain and seeds soak for a day where it is warm, an oven is hot after 14 hours, the orders of a day lie within ten days, and a dough of yeast stands for a week in the cold. A rest of half an hour and more is \
          told in fives of minutes. Where it is meant so, `# allow odd-time: reason` above the line keeps it quiet.",
    bad: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 h\n    Mix {flour} and {water}.\n    until smooth\n",
    good: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\n",
    sources: &["common practice, no source"],
    run: Run::TreeAndParts(run, in_recipe),
};

/// What simmers for a day, by words in the names of a recipe and its parts.
const SLOW: &Beginnings = &Beginnings::of(&[
    "stock|", "stocks|", "bone", "broth", "fond|", "ham|", "hams|", "brisket", "pulled", "tripe", "ragu", "ragù",
    "confit", "brais", "jus", "slow",
]);

/// Whether bones go in, which give what they have in a day, or a cooker is used that is made for that.
fn is_slow_by_what_it_takes(lines: &[Line]) -> bool {
    let is_slow = |clause: &StepClause| matches!(clause, StepClause::Using(name, ..) if name.has_word_beginning(beginnings!["slow", "crock"]));
    lines.iter().any(|line| match &line.content {
        Content::Ingredient(line) => {
            line.name.has_word_beginning(beginnings!["bones", "carcas", "trotter", "oxtail", "knuckle"])
        }
        Content::Step(step) => step.clauses.iter().any(|clause| is_slow(&clause.value)),
        _ => false,
    })
}

/// What only the amounts tell: water that takes longer to boil away.
fn in_recipe(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let boiled = subject
        .whole_parts()
        .filter_map(|(_, part, solved)| boils_off::problem(part, solved).or_else(|| boils_off::too_long(part, solved)));
    diagnostics.extend(boiled);
    for (id, part, solved) in subject.whole_parts() {
        tell(diagnostics, super::cooked_through::problem(subject, (id, part), solved, CHECK.name));
        tell(diagnostics, stands_wet::problem(subject, (id, part)));
    }
}

fn run(tree: &Tree, diagnostics: &mut Vec<Diagnostic>) {
    // Asked for few of the steps, and looks at all names.
    let kept = LazyCell::new(|| keeping::is_named(&tree.lines));
    let size = LazyCell::new(|| size(tree));
    let sour = LazyCell::new(|| is_named(&tree.lines, SOUR_BATTERS));
    let starts_part = |line: &Line| matches!(line.content, Content::Part { .. });
    let before = diagnostics.len();
    // A stock in one part makes no sauce of another slow.
    let slow_by_name = LazyCell::new(|| {
        tree.lines.iter().any(|line| matches!(&line.content, Content::Recipe(name) if name.has_word_beginning(SLOW)))
    });
    let mut baked_above = false;
    for part in tree.lines.chunk_by(|_, next| !starts_part(next)) {
        let slow = LazyCell::new(|| *slow_by_name || is_named(part, SLOW) || is_slow_by_what_it_takes(part));
        run_part((part, baked_above), (&|| *slow, &|| *kept, &|| *size, &|| *sour), diagnostics);
        baked_above = baked_above || part.iter().any(after_the_bake::is_bake);
    }
    // What is out of the common range whatever it weighs is told already.
    for problem in work_by_weight::problems(tree, CHECK.name) {
        if !diagnostics.iter().skip(before).any(|told| told.span == problem.span) {
            diagnostics.push(problem);
        }
    }
}

/// What is asked of a file for few of its steps.
type Asked<'f> = &'f dyn Fn() -> bool;

fn run_part(
    (part, baked_above): (&[Line], bool),
    (slow, kept, size, sour): (Asked<'_>, Asked<'_>, &dyn Fn() -> Size, Asked<'_>),
    diagnostics: &mut Vec<Diagnostic>,
) {
    let mut by_piece = false;
    for (at, line) in part.iter().enumerate() {
        match &line.content {
            Content::PerPiece(_) => by_piece = true,
            // Pieces are boiled and fried a few at a time, all of a batch one after the other.
            Content::Step(step)
                if by_piece && step.kind.value == StepKind::Hands && begins(step.name.key.as_str(), SIMMERS) => {}
            Content::Step(step) if is_quick(step) && has_much_yeast(part) => {}
            Content::Step(step) if wakes_yeast(step, part.get(at + 1..).unwrap_or_default()) => {
                diagnostics.extend(odd(step, ("yeast wakes in water", 3 * MINUTE, HOUR)));
            }
            Content::Step(step)
                if step.kind.value == StepKind::Wait
                    && step.name.has_word_beginning(beginnings!["ferment", "sour"])
                    && (sour() || is_sour_batter(part)) =>
            {
                diagnostics.extend(odd(step, ("such a batter turns sour", 4 * HOUR, 5 * DAY)));
            }
            Content::Step(step) if keeps_itself(step, part, part.get(at + 1..).unwrap_or_default(), kept) => {
                diagnostics.extend(odd(step, of_what_keeps(step)));
            }
            Content::Step(step) if ferments_as_a_drink(step, part) => {
                diagnostics.extend(odd(step, ("a drink ferments", 6 * HOUR, 60 * DAY)));
            }
            Content::Step(step) if goes_on_in_the_cold(step, part, part.get(at + 1..).unwrap_or_default()) => {
                diagnostics
                    .extend(odd(step, ("what then stands in the cold ferments in a warm place", 15 * MINUTE, DAY)));
            }
            Content::Step(step) if sours_by_itself(step, part) => {
                diagnostics.extend(odd(step, ("what turns sour by itself stands", DAY / 2, 30 * DAY)))
            }
            Content::Step(step) if is_slow_rye(step, part) => diagnostics.extend(odd(step, SLOW_RYE)),
            Content::Step(step) if stretches_much(step, part) => {
                diagnostics.extend(odd(step, ("a large sheet is stretched", 10, 12 * MINUTE)))
            }
            Content::Step(step) => {
                let apart = after_the_bake::usual(step, (part, at), baked_above);
                let is_flat = is_flat_bake(step) && part.iter().take(at + 1).any(rolls_flat);
                let common = || if is_flat { FLAT_BAKE } else { usual(step, slow, size) };
                if let Some(problem) = odd(step, apart.unwrap_or_else(common)) {
                    diagnostics.push(problem);
                }
            }
            _ => {}
        }
    }
}

/// Batters that stand for days, with a starter and without. Common practice, no source.
const SOUR_BATTERS: &Beginnings = &Beginnings::of(&["injera", "dosa", "idli", "appam", "hopper", "kisra"]);

/// Whether a name of the file, that of the recipe, a part or a step, has such a word.
fn is_named(lines: &[Line], words: &Beginnings) -> bool {
    lines.iter().any(|line| match &line.content {
        Content::Recipe(name) => name.has_word_beginning(words),
        Content::Part { name, .. } => name.has_word_beginning(words),
        Content::Step(step) => step.name.has_word_beginning(words),
        _ => false,
    })
}

fn odd(step: &StepLine, (what, least, most): Usual) -> Option<Diagnostic> {
    let (low, high) = times(&step.duration)?;
    // A step of no time is a mark in the plan.
    if high <= Duration::ZERO {
        return None;
    }
    outside(step, (low, high), what, (least, most))
        .or_else(|| no_clock(step, low, high))
        .or_else(|| in_small_change(step, low, high))
        .or_else(|| uneven(step, low, high))
        .or_else(|| wide(step, low, high))
        .or_else(|| stretched(step, high))
}

const fn seconds(seconds: i64) -> Duration {
    Duration::new(Number::whole(seconds))
}

fn advice(step: &StepLine, message: String) -> Diagnostic {
    Diagnostic::advice(CHECK.name, step.duration.span, message)
}

fn outside(
    step: &StepLine,
    (low, high): (Duration, Duration),
    what: &str,
    (least, most): (i64, i64),
) -> Option<Diagnostic> {
    if low >= seconds(least) && high <= seconds(most) {
        return None;
    }
    let time = show::duration_range(low, high);
    let message = if least > 0 {
        format!(
            "{time} is unusual here: {what} from {} to {}",
            show::duration(seconds(least)),
            show::duration(seconds(most))
        )
    } else {
        format!("{time} is unusual here: {what} for {} at most", show::duration(seconds(most)))
    };
    Some(advice(step, message).help("look whether the unit is right, s, min or h, and whether a digit has slipped"))
}

/// Whether a time is told in several units, each a whole number: `1 h 35 min`.
fn in_whole_terms(step: &StepLine) -> bool {
    let terms = &step.duration.terms;
    terms.len() > 1 && terms.iter().all(|term| term.number.value.is_whole())
}

/// A time that no clock is set to: 1.2 min, 0.8 s, 1.4 h. Halves and quarters are read off, but not beside a smaller unit.
fn no_clock(step: &StepLine, low: Duration, high: Duration) -> Option<Diagnostic> {
    let ends = |terms: &[Term]| terms.len() > 1 && terms.iter().any(|term| !term.number.value.is_whole());
    if ends(&step.duration.terms) || step.duration.upper.as_deref().is_some_and(ends) {
        let message = format!("a part of a unit beside a smaller unit: {}", show::duration_range(low, high));
        return Some(
            advice(step, message)
                .help("look whether the point has slipped; `1 h 30 min` or `1.5 h` is how a time is told"),
        );
    }
    // `1 h 60 min` is two hours to a clock, and a slip of the key to whoever reads it.
    let over = step.duration.terms.windows(2).any(|two| match two {
        [larger, smaller] => overflows(larger, smaller),
        _ => false,
    });
    if over {
        let message = format!("nobody tells a time so: it is {}", show::duration_range(low, high));
        return Some(advice(step, message).help("look whether a digit has slipped"));
    }
    let [Term { number, unit: Some(unit) }] = step.duration.terms.as_slice() else { return None };
    let unit = Some(unit.value).filter(|_| !number.value.is_whole())?;
    let in_decimals = number.decimals.is_some_and(|digits| digits > 0);
    if unit == Unit::Minute && in_decimals && high < seconds(MINUTE) {
        let message = format!("nobody tells a time so: it is {}", show::duration_range(low, high));
        return Some(
            advice(step, message).help("look whether the point has slipped; less than a minute is told in seconds"),
        );
    }
    let grain = match unit {
        Unit::Second | Unit::Minute => 2,
        Unit::Hour => 12,
        _ => return None,
    };
    let in_unit = |time: Duration| time.value().over(unit.size(None)?).ok();
    let on_the_clock = |time: Duration| {
        in_unit(time).and_then(|number| number.times(Number::whole(grain)).ok()).is_some_and(Number::is_whole)
    };
    // Written as a fraction, it was meant: `1/3 h`.
    if (on_the_clock(low) && on_the_clock(high)) || in_unit(low)?.decimal(6) != short(in_unit(low)?) {
        return None;
    }
    let message = format!("nobody sets a clock to {} {}", short(in_unit(low)?), unit.word(true));
    Some(advice(step, message).help("look whether the point has slipped; else write it in the next smaller unit"))
}

/// From how many of its unit on a time is told in the next larger one, and in which parts of a large unit none is told: whoever waits for 300
/// min writes `5 h`, and `0.3 weeks` were three. Common practice, no source.
const IN_THE_NEXT: &[(Unit, i64)] = &[(Unit::Second, 300), (Unit::Minute, 240), (Unit::Hour, 120)];

/// A time of hundreds of minutes or hours, or of tenths of a day: a digit more than was meant, or less.
fn in_small_change(step: &StepLine, low: Duration, high: Duration) -> Option<Diagnostic> {
    let [Term { number, unit: Some(unit) }] = step.duration.terms.as_slice() else { return None };
    let unit = unit.value;
    let many = |(of, most): &(Unit, i64)| *of == unit && number.value >= Number::whole(*most);
    let halves = || number.value.times(Number::whole(2)).is_ok_and(Number::is_whole);
    let help = if IN_THE_NEXT.iter().any(many) {
        "look whether a digit is one too many; so long a time is told in the next larger unit"
    } else if matches!(unit, Unit::Day | Unit::Week) && !halves() {
        "look whether a point has slipped; so short a time is told in the next smaller unit"
    } else {
        return None;
    };
    let time = show::duration_range(low, high);
    let message = format!("nobody tells a time as {} {}: it is {time}", short(number.value), unit.word(false));
    Some(advice(step, message).help(help))
}

/// Whether the smaller term of a time makes one of the larger.
fn overflows(larger: &Term, smaller: &Term) -> bool {
    let unit = |term: &Term| term.unit.as_ref().and_then(|unit| unit.value.size(None));
    let (Some(one), Some(of)) = (unit(larger), unit(smaller)) else { return false };
    smaller.number.value.times(of).is_ok_and(|smaller| smaller >= one)
}

/// A number with two decimals at most.
fn short(number: Number) -> String {
    number.decimal(2)
}

fn wide(step: &StepLine, low: Duration, high: Duration) -> Option<Diagnostic> {
    if low <= Duration::ZERO || high <= low {
        return None;
    }
    // What somebody stands beside is known better than what rests.
    let known = step.kind.value != StepKind::Wait && low >= seconds(10 * MINUTE);
    let most = match known {
        // Who bakes has baked it before.
        true if low >= seconds(15 * MINUTE) && step.name.has_word_beginning(beginnings!["bak"]) => {
            Number::constant(5, 3)
        }
        true => Number::constant(5, 2),
        false => Number::whole(4),
    };
    if !high.ratio(low).is_ok_and(|times| times > most) {
        return None;
    }
    let message = format!("{} is a wide range: nobody can plan with it", show::duration_range(low, high));
    Some(
        advice(step, message)
            .help("look whether digits are swapped; how long it may go on without harm is said with `up to`"),
    )
}

/// A step that may go on for many times its time. What is cold keeps: `chill 2 h, up to 5 days` is ordinary.
fn stretched(step: &StepLine, high: Duration) -> Option<Diagnostic> {
    let (longest, span) = up_to(step)?;
    if longest == high {
        let message = format!("`up to` {} is no longer than the step itself", show::duration(longest));
        return Some(advice(step, message).also(span, "says nothing").help("look whether a digit has slipped"));
    }
    if step.name.has_word_beginning(WORKS) && is_cold(step) && longest > seconds(7 * DAY) {
        let message = format!("a dough that stands up to {} is over, in the cold too", show::duration(longest));
        return Some(advice(step, message).also(span, "may go on so long").help("look whether a digit has slipped"));
    }
    let frozen = || step.name.has_word_beginning(beginnings!["freez", "harden"]) || place(step).is_some_and(is_freezer);
    let most = if frozen() { 180 * DAY } else { 7 * DAY };
    if is_cold(step) && longest <= seconds(most) && high >= seconds(HOUR / 4) {
        return None;
    }
    let times = longest.ratio(high).ok().filter(|times| *times >= most_stretched(step, high))?;
    let message = format!(
        "`up to` {} is {} times the step's own {}",
        show::duration(longest),
        times.decimal(0),
        show::duration(high)
    );
    Some(
        advice(step, message)
            .also(span, "may go on so long")
            .help("look whether the unit of the time is right, s, min or h"),
    )
}

/// From how many times its time on a step does not go on. A dough that proves is over soon; in the cold it waits.
fn most_stretched(step: &StepLine, high: Duration) -> Number {
    let warm = step.kind.value == StepKind::Wait
        && high >= seconds(20 * MINUTE)
        && celsius(step).is_some_and(|at| at >= Number::whole(18));
    // What soaks turns sour after two days.
    if step.name.has_word_beginning(beginnings!["soak"])
        && celsius(step).is_some_and(|at| at >= Number::whole(10))
        && high >= seconds(HOUR)
    {
        return Number::whole(12);
    }
    // A short rest has more room: what takes half an hour may stand for two.
    let is_long = high >= seconds(HOUR);
    if warm && step.name.has_word_beginning(PROVES) {
        if is_long { Number::constant(5, 2) } else { Number::constant(7, 2) }
    } else if warm && step.name.has_word_beginning(WORKS) {
        if is_long { Number::whole(4) } else { Number::whole(6) }
    } else {
        Number::whole(60)
    }
}

/// A rest of 61 min, or of 54 to 60: half an hour and more is told in fives of minutes.
fn uneven(step: &StepLine, low: Duration, high: Duration) -> Option<Diagnostic> {
    let fives = |time: Duration| time.value().over(Number::whole(5 * MINUTE)).is_ok_and(Number::is_whole);
    let of_one =
        matches!(step.duration.terms.as_slice(), [Term { unit: Some(unit), .. }] if unit.value == Unit::Minute);
    let minutes = of_one || in_whole_terms(step);
    if step.kind.value != StepKind::Wait || !minutes || high < seconds(30 * MINUTE) || (fives(low) && fives(high)) {
        return None;
    }
    let message = format!(
        "a rest of {} is unusual: rests of half an hour and more are told in fives of minutes",
        show::duration_range(low, high)
    );
    Some(advice(step, message).help("look whether a digit has slipped"))
}

fn up_to(step: &StepLine) -> Option<(Duration, Span)> {
    step.clauses.iter().find_map(|clause| match &clause.value {
        StepClause::UpTo(quantity) => times(quantity).map(|(_, most)| (most, clause.span)),
        _ => None,
    })
}

fn is_cold(step: &StepLine) -> bool {
    let is_called_so = || step.name.has_word_beginning(beginnings!["chill", "freez", "refrigerat", "cold"]);
    place(step).map_or_else(is_called_so, cold::is_cold)
}
