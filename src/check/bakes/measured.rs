//! What cannot be, or can hardly be, of what a bake says beside the amounts and times of its recipe.

use crate::language::bakes::{Bake, CameTo, Ran, Took};
use crate::language::syntax::HeatOf;
use crate::make::loads;
use crate::make::mix::left_at;
use crate::make::went_in::{self, OfLine, Usual};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::measure::show::{self, Units};
use crate::measure::temperature::Temperature;
use crate::measure::value::Value;
use crate::model::baked::{ADDED, Names};
use crate::model::recipe::{Part, Recipe};
use crate::model::reference::StepRef;
use crate::model::step::{Step, StepKind};
use crate::solve::formula::Formula;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Spanned;

/// So many times more or less than the formula says is a slip before it is a bake. Common practice, no source.
const SLIP: Number = Number::whole(4);
/// So many days are asked for that a rest between two times of the clock may have taken beside what they show.
const DAYS: i64 = 7;
/// More pieces than these times what there are by the formula are no smaller pieces. Common practice, no source.
const MANY_PIECES: Number = Number::constant(3, 2);

/// A step of a worked-out recipe, and how many times the recipe a bake was.
pub(super) struct Place<'a> {
    pub recipe: &'a Recipe,
    /// The formula at the size of the bake.
    pub scaled: &'a Formula,
    pub at: StepRef,
    pub part: &'a Part,
    pub step: &'a Step,
    pub factor: Number,
    /// Whether the bake was of other sorts, and none of this part was made.
    pub is_not_made: bool,
}

/// The temperatures of a day that nobody bakes in.
pub(super) fn day(bake: &Bake) -> impl Iterator<Item = Diagnostic> {
    bake.heat.iter().filter_map(|(of, at)| {
        // Common practice, no source: a bakehouse at 45 °C is one in which the oven has been on all day in August.
        let (what, low, high) = match of {
            HeatOf::Room => ("a room", -10, 50),
            HeatOf::Flour => ("flour", -30, 60),
            HeatOf::Tap => ("water from the tap", 0, 70),
            HeatOf::Preferment => ("a preferment", -5, 50),
        };
        let (message, help) = odd_heat(what, at.value, (low, high))?;
        Some(Diagnostic::warning("odd-temperature", at.span, message).help(help))
    })
}

/// What is wrong with a temperature outside of these.
fn odd_heat(what: &str, at: Temperature, (low, high): (i64, i64)) -> Option<(String, String)> {
    if left_at::fits(at, (low, high)) {
        return None;
    }
    let message = format!("{what} of {}: bakers measure {low} to {high} °C", show::temperature(at, Units::Metric));
    let tenth = at.celsius().over(Number::whole(10)).ok();
    let tenth = tenth.filter(|tenth| left_at::fits(Temperature::from_celsius(*tenth), (low, high)));
    let help = tenth.map_or_else(
        || "mend the figure, or its unit".to_owned(),
        |tenth| format!("was a point forgotten: `{} C`?", tenth.decimal(1)),
    );
    Some((message, help))
}

/// What is wrong with what went in of a line, beside a formula of the size of the bake.
pub(super) fn went_in(recipe: &Recipe, scaled: &Formula, of: OfLine<'_>) -> Option<Diagnostic> {
    let (went_in, (part, at)) = of;
    let told = went_in.amount?;
    let usual = Usual::of(scaled, (part, at)).ok()?;
    if usual.is_none() && at != ADDED {
        return None;
    }
    if let Some((really, meant)) = went_in::weighed(recipe, scaled, of).ok()? {
        let usual = usual?;
        if is_slip(really.value(), (meant.usual.value(), meant.usual.value())) {
            let (really, usual) = (show::mass_plain(really), show::mass_plain(meant.usual));
            let message = format!("{really} of {} went in, and the formula says {usual}", went_in.name);
            return Some(
                Diagnostic::warning("odd-amount", went_in.name.span, message)
                    .help("mend the figure or its unit, or say how much was made: `bake 2027-03-02, 100 rolls`"),
            );
        }
        return meant.is_unclear.then(|| unclear(recipe, of, (really, meant.usual), usual));
    }
    let Value::Count(count) = told.value else { return None };
    let number = count.value().decimal(3);
    let message = format!("`{}` has a number without a unit, and it is weighed, not counted", went_in.name);
    let pieces = if number == "1" { "piece" } else { "pieces" };
    told.is_bare.then(|| {
        Diagnostic::error("no-unit", went_in.name.span, message)
            .help(format!("did you mean `{number} g`? Where pieces are meant, write `{number} {pieces}`"))
    })
}

/// A line of a dough of which nobody can tell whether the final mix is meant, or all of the dough with its preferments.
fn unclear(
    recipe: &Recipe,
    (went_in, (part, _)): OfLine<'_>,
    (really, taken): (Mass, Mass),
    usual: Usual,
) -> Diagnostic {
    let name = &went_in.name;
    let (really, bench, all) = (show::mass_plain(really), show::mass_plain(usual.bench), show::mass_plain(usual.all));
    let dough = recipe.part(part).map_or_else(String::new, |part| part.name.to_string());
    let counted = if taken == usual.all { "all of the dough, with its preferments" } else { "the final mix" };
    let message = format!(
        "{really} of {name} went in: {bench} are weighed for the final mix of {dough}, and {all} are in it in all"
    );
    Diagnostic::advice("odd-amount", name.span, message)
        .help(format!("it counts as of {counted}; write what went into the final mix, and what a preferment took on a line `… of PART`"))
}

/// Whether something is so far from both ends of what is said that it is a slip.
fn is_slip(really: Number, (low, high): (Number, Number)) -> bool {
    let much = || high.times(SLIP).is_ok_and(|most| really > most);
    let little = || low.over(SLIP).is_ok_and(|least| really < least);
    low.is_positive() && (much() || little())
}

/// What is wrong with what was measured of a step.
pub(super) fn check(bake: &Bake, ran: &Ran, place: &Place<'_>, names: &mut Names, diagnostics: &mut Vec<Diagnostic>) {
    let share = place.share(ran, diagnostics);
    diagnostics.extend(place.odd_time(ran, share));
    if let Some(left_at) = ran.left_at.filter(|_| left_at::is_raw_dough(place.part, place.at.step))
        && let Some((message, help)) = odd_heat("a dough", left_at.value, left_at::RAW_DOUGH)
    {
        diagnostics.push(Diagnostic::warning("odd-temperature", left_at.span, message).help(help));
    }
    diagnostics.extend(place.odd_heat(ran));
    let more = place.more_out_than_in(bake, names, (ran, share));
    diagnostics.extend(more.or_else(|| place.hardly_anything_out(ran, share)));
}

impl Place<'_> {
    /// How much of the batch a line is of, of 1, `None` where nobody can tell; tells a load that there is not.
    fn share(&self, ran: &Ran, diagnostics: &mut Vec<Diagnostic>) -> Option<Number> {
        let scaled = self.scaled;
        let of = (self.recipe, self.at.part);
        let solved = scaled.part(self.at.part)?;
        let found = loads::share(of, solved, scaled, self.at.step, ran.load.map(|load| load.value)).ok()?;
        if let Some(load) = ran.load.filter(|_| found.is_none()) {
            let count = loads::count(of, solved, scaled, self.at.step, &self.recipe.kitchen).ok()?;
            diagnostics.extend(self.no_such_load(ran, load, count));
        }
        found
    }

    /// A load that the formula does not have. Where it has one alone the oven of that day was filled twice, and only what would
    /// want to know how much of the batch a load was counts for nothing.
    fn no_such_load(&self, ran: &Ran, load: Spanned<i64>, count: i64) -> Option<Diagnostic> {
        let step = &ran.step;
        if count != 1 {
            let help = format!("write a load from 1 to {count}, or how much was made: `bake 2027-03-02, 100 rolls`");
            let problem = Diagnostic::warning("impossible-number", load.span, format!("`{step}` has {count} loads"));
            return Some(problem.help(help));
        }
        let came_to = ran.came_to.filter(|came_to| !matches!(came_to.value, CameTo::Each(_)))?;
        let message = format!(
            "`{step}` is one load by the formula, and how much of the batch load {} was, nobody says: what it came to counts for no \
             figure",
            load.value
        );
        let help = "write what all loads came to in one line without `load`, what a piece weighed (`came to 88 g each`), or in the \
                    formula how many go in at a time";
        Some(Diagnostic::advice("impossible-number", came_to.span, message).help(help))
    }

    /// A time that is that of one load, though it is said of all of them; and one that nobody takes for it.
    fn odd_time(&self, ran: &Ran, share: Option<Number>) -> Option<Diagnostic> {
        let scaled = self.scaled;
        let time = ran.time?;
        let minutes = time.value.minutes()?;
        let of = (self.recipe, self.at.part);
        let solved = scaled.part(self.at.part)?;
        let step = self.step;
        let (low, high) = (step.time.0.in_minutes().ok()?, step.time.1.in_minutes().ok()?);
        let said = |minutes: Number| format!("{} min", minutes.decimal(1));
        let by_piece = step.loads.is_by_piece();
        let turns = match ran.load {
            None if !by_piece => loads::turns(of, solved, scaled, self.at.step).ok()?,
            _ => Number::ONE,
        };
        if loads::is_of_one_load(step, minutes, turns) {
            let message = format!(
                "`{}` takes {} turns: {} for all of them is {} each, and the formula says {}",
                ran.step,
                turns.decimal(0),
                said(minutes),
                said(minutes.over(turns).ok()?),
                said(high)
            );
            let help = "if it is the time of one load, write which, `, load 1`; as it is it counts for no time";
            return Some(Diagnostic::warning("log-out-of-time", time.span, message).help(help));
        }
        let pieces = match ran.came_to.map(|came_to| came_to.value) {
            _ if !by_piece => None,
            Some(CameTo::Pieces(count, _)) => Some(count),
            _ => Some(loads::pieces_at(of, solved, scaled, self.at.step).ok()??.times(share?).ok()?),
        };
        let one = minutes.over(pieces.filter(|pieces| pieces.is_positive()).unwrap_or(turns)).ok()?;
        // Where several may share it, the clock may show so many times less.
        let low = low.over(Number::whole(i64::from(step.shared_by.max(1)))).ok()?;
        // What hands do of a larger batch takes longer, of a smaller one less.
        let by_size = if step.kind == StepKind::Hands && pieces.is_none() { self.factor } else { Number::ONE };
        let stands = step.up_to.and_then(|most| most.in_minutes().ok()).unwrap_or(high).max(high);
        let (least, most) = (low.times(by_size.min(Number::ONE)).ok()?, stands.times(by_size.max(Number::ONE)).ok()?);
        // Of what seems to end before it began that is told, and nothing more.
        let is_turned = matches!(time.value, Took::Between(begin, end) if end < begin);
        // Two times of the clock tell no days: what rests from 16:20 to 16:40 of the next day rested for as long as it may.
        let is_rest = step.kind == StepKind::Wait && matches!(time.value, Took::Between(..));
        let with_days = |days: i64| one.plus(Number::whole(days * 1440)).is_ok_and(|one| least <= one && one <= most);
        let fits_by_days = || is_rest && (1..=DAYS).any(with_days);
        (!is_turned && is_slip(one, (least, most)) && !fits_by_days()).then(|| {
            let of_one = if pieces.is_some() { " a piece" } else { "" };
            let message = format!("`{}` took {}{of_one}, and the formula says {}", ran.step, said(one), said(high));
            Diagnostic::warning("log-out-of-time", time.span, message).help("mend the time, or its unit")
        })
    }

    /// Of no step comes more than went into its part; a scale's worth over, a hundredth, is let pass.
    fn more_out_than_in(
        &self,
        bake: &Bake,
        names: &mut Names,
        (ran, share): (&Ran, Option<Number>),
    ) -> Option<Diagnostic> {
        // Of a load of which nobody knows how much of the batch it is, no more comes than went into all of it.
        let share = share.unwrap_or(Number::ONE);
        let scaled = self.scaled;
        let came_to = ran.came_to?;
        let solved = scaled.part(self.at.part)?;
        let pieces = loads::pieces_of(self.part, solved, scaled).and_then(|pieces| pieces.times(share).ok());
        let name = &self.part.name;
        let problem = |message: String| Diagnostic::error("more-out-than-in", came_to.span, message);
        if let (CameTo::Pieces(count, None), Some(pieces)) = (came_to.value, pieces)
            && pieces.times(MANY_PIECES).is_ok_and(|most| count > most)
        {
            let (count, pieces) = (show::count_of(count), show::count_of(pieces));
            let said = "say how much was made (`bake 2027-03-02, 100 rolls`)";
            let (of_load, help) = match ran.load {
                Some(load) => (format!(" in load {}", load.value), format!("mend the number, or {said}")),
                None => (String::new(), format!("did you mean `came to {count} g each`? Else {said}")),
            };
            let message = format!("{count} pieces came out, and there are {pieces} of {name}{of_load}");
            return Some(problem(message).help(help));
        }
        if self.is_not_made {
            let help = "say how many of each sort were made, `of 24 small and 12 large`, or mend the name of the step";
            return Some(problem(format!("of {name} nothing was made, by the sorts that the bake says")).help(help));
        }
        let went_in = self.went_in(bake, names).ok().flatten()?.times(share).ok()?;
        let out = match came_to.value {
            CameTo::Pieces(count, Some(each)) => each.times(count).ok()?,
            CameTo::All(all) => all,
            CameTo::Each(each) => each.times(pieces?).ok()?,
            CameTo::Pieces(_, None) => return None,
        };
        let most = went_in.times(Number::constant(101, 100)).ok()?;
        if out <= most || !went_in.value().is_positive() {
            return None;
        }
        let of_load = if share == Number::ONE { "" } else { "this load of " };
        let (out, went_in) = (show::mass_plain(out), show::mass_plain(went_in));
        let help = "say how much was made (`bake 2027-03-02, 100 rolls`) and what went in otherwise (`water .... 2.6 kg`), or mend \
                    the weight";
        Some(problem(format!("{out} came out, and only {went_in} went into {of_load}{name}")).help(help))
    }

    /// An oven or a room four times as hot as the formula says, or a quarter as hot. What stands in the cold is measured to a degree, and
    /// a few of them are many times as much.
    fn odd_heat(&self, ran: &Ran) -> Option<Diagnostic> {
        let (low, high) = self.step.temperature?;
        let (low, high, at) = (low.celsius(), high.unwrap_or(low).celsius(), ran.at?);
        let is_odd = low >= Number::whole(15) && is_slip(at.celsius().max(Number::ONE), (low, high));
        is_odd.then(|| {
            let shown = |at: Temperature| show::temperature(at, Units::Metric);
            let said = shown(Temperature::from_celsius(high));
            let message = format!("`{}` was done at {}, and the formula says {said}", ran.step, shown(at));
            Diagnostic::warning("odd-temperature", ran.step.span, message).help("mend the figure, or its unit")
        })
    }

    /// A weight of which hardly a quarter is what the formula says that comes out.
    fn hardly_anything_out(&self, ran: &Ran, share: Option<Number>) -> Option<Diagnostic> {
        let (came_to, share) = (ran.came_to?, share?);
        let solved = self.scaled.part(self.at.part)?;
        let pieces = || loads::pieces_of(self.part, solved, self.scaled)?.times(share).ok();
        let out = match came_to.value {
            CameTo::Pieces(count, Some(each)) => each.times(count).ok()?,
            CameTo::All(all) => all,
            CameTo::Each(each) => each.times(pieces()?).ok()?,
            CameTo::Pieces(_, None) => return None,
        };
        let usual = [solved.makes, solved.goes_in].into_iter().flatten().min()?.times(share).ok()?;
        let is_little = usual > Mass::ZERO && out.times(SLIP).is_ok_and(|four| four < usual);
        is_little.then(|| {
            let (out, usual) = (show::mass_plain(out), show::mass_plain(usual));
            let message = format!("{out} came out, and the formula says {usual}");
            Diagnostic::warning("odd-amount", came_to.span, message)
                .help("mend the figure or its unit, or say how much was made: `bake 2027-03-02, 100 rolls`")
        })
    }

    /// All that went into the part, what was weighed otherwise counted.
    fn went_in(&self, bake: &Bake, names: &mut Names) -> Result<Option<Mass>, Overflow> {
        // What a name that nobody knows stands for is told there, and nobody knows how much went in.
        if bake.went_in.iter().any(|one| names.line(self.recipe, &one.name).one().is_none()) {
            return Ok(None);
        }
        let usual = self.scaled.part(self.at.part).and_then(|solved| solved.goes_in);
        let lines: Vec<OfLine<'_>> =
            bake.went_in.iter().filter_map(|one| Some((one, names.line(self.recipe, &one.name).one()?))).collect();
        let more = went_in::more((self.recipe, self.at.part), self.scaled, &lines, |line| !line.aside)?;
        usual.map(|usual| usual.plus(more)).transpose()
    }
}
