//! `water-temperature`: water that would have to be below freezing, or hotter than yeast stands.

use super::{Check, Family, Run, Subject};
use crate::language::syntax::Name;
use crate::make::mix::handbook::{Verdict, verdict};
use crate::make::mix::pour::{Advice, Found, Method, advice, pour_by};
use crate::make::mix::{Friction, Mix, Today, mix};
use crate::measure::number::{Number, Overflow};
use crate::measure::show::{self, Units};
use crate::measure::temperature::{Temperature, TemperatureDifference};
use crate::model::alive::Alive;
use crate::model::cooking::first_draws;
use crate::model::first_draws::FirstDraws;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};
use crate::model::step::Target;
use crate::text::diagnostic::{Diagnostic, Severity};

use crate::text::source::Span;
use std::cell::LazyCell;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "water-temperature",
    severity: Severity::Warning,
    family: Family::Formula,
    looks_for: "a desired dough temperature that water between freezing and 43 °C cannot give, liquids that would kill the yeast, a \
                temperature written for the water that gives another dough in any room, and water that is `cold` or `warm` in words where \
                the sum asks for the other",
    why: "Water = 3 × desired temperature − (room + flour + friction); with a preferment 4 ×, and the preferment taken off as \
          well; and by the balance of heat, mass by mass. What neither of them gives is reported. Room and flour are taken as 20 °C. \
          Friction is that of the mixer in the kitchen file; where none is said, \
          anything from 0 to 20 °C is possible, and only what is out of reach for all of it is reported. Yeast dies above \
          43 °C (110 °F). A temperature written for what is poured is held against what is desired by the sum that `miche explain water` \
          says is to be used, in rooms from 16 to 30 °C: one that is too warm in the coldest or too cold in the warmest is remarked.",
    bad: "recipe Loaf\nflour .... 1 kg\nwater .... 65 %\ninstant yeast .... 1 %\ndesired temperature 35 C\nmix: hands 10 min\n    \
          Mix {flour}, {water} and {instant yeast}.\n    until smooth\n",
    good: "recipe Loaf\nflour .... 1 kg\nwater .... 65 %\ninstant yeast .... 1 %\ndesired temperature 24 C\nmix: hands 10 min\n    \
           Mix {flour}, {water} and {instant yeast}.\n    until smooth\n",
    sources: &[
        "T. Lehmann, PMQ, spring 2003, and Pizza Today, June 2018: the water temperature formula",
        "TM 10-412 (2003), card D-G-2: above 110 °F the yeast will be killed",
        "room and flour at 20 °C, rooms from 16 to 30 °C: assumed",
    ],
    run: Run::Parts(run),
};

/// 110 °F.
const YEAST_DIES: Number = Number::constant(130, 3);
const ROOM: Temperature = Temperature::from_celsius(Number::whole(20));
/// The coldest room that is thought of.
const COLD_ROOM: Temperature = Temperature::from_celsius(Number::whole(16));
/// The warmest.
const WARM_ROOM: Temperature = Temperature::from_celsius(Number::whole(30));
/// More friction, by the handbook's sum, than any mixer gives, °C.
const MUCH_FRICTION: Number = Number::whole(20);
/// Words for water from the cold tap or the refrigerator, and for what a hand feels as warm.
const COLD_WORDS: &[&str] = &["cold", "very cold", "chilled", "iced", "ice-cold", "ice cold"];
const WARM_WORDS: &[&str] = &["warm", "lukewarm", "tepid", "hot", "blood-warm", "blood warm", "hand-warm", "hand warm"];
/// From here on nobody calls water cold (common practice, no source).
const LUKEWARM: Number = Number::whole(25);
/// Up to here nobody calls it warm.
const COOL: Number = Number::whole(20);
/// So far a dough may be from what is desired (common practice, no source).
const NEAR: Number = Number::ONE;

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let alive = LazyCell::new(|| Alive::of(subject.recipe));
    for (id, part, _) in subject.own_parts() {
        // An overflow here means a temperature that is reported elsewhere.
        let of_mix = of_mix(subject, id, part).ok().flatten();
        // What lives in a part is a walk through all that lies in it, which next to none needs.
        if of_mix.is_none() && !part.lines.iter().any(|line| is_too_hot(line).is_some()) {
            continue;
        }
        let leavens = leavens(subject.recipe, &alive, id, part);
        if leavens.is_empty() {
            continue;
        }
        let draws = first_draws(part);
        for (at, line) in part.lines.iter().enumerate() {
            diagnostics.extend(leavens.iter().find_map(|leaven| kills(draws, leaven, (at, line))));
        }
        diagnostics.extend(of_mix);
    }
}

/// What lives in a part before it is mixed: yeast or a leaven, a leaven that is a part, and what was taken out of it to ripen.
struct Leaven<'r> {
    target: Target,
    name: &'r Name,
    span: Span,
}

fn leavens<'r>(
    recipe: &'r Recipe,
    alive: &LazyCell<Alive, impl FnOnce() -> Alive>,
    id: PartId,
    part: &'r Part,
) -> Vec<Leaven<'r>> {
    let lives = |line: &Ingredient| match line.refers {
        Refers::Pantry(_) => line.kind.ferments(),
        Refers::Part(other) => alive.at_end(other),
    };
    let lines = part.lines.iter().enumerate().filter(|(_, line)| lives(line));
    let lines = lines.map(|(at, line)| Leaven { target: Target::Line(at), name: &line.name, span: line.span });
    let ripened = recipe.preferments(id).filter(|(other, _)| alive.at_end(*other));
    lines
        .chain(ripened.map(|(other, part)| Leaven {
            target: Target::Preferment(other),
            name: &part.name,
            span: part.name.span,
        }))
        .collect()
}

/// How warm a line goes in, if yeast would die in it.
fn is_too_hot(line: &Ingredient) -> Option<Temperature> {
    line.temperature.filter(|temperature| temperature.celsius() > YEAST_DIES)
}

/// A liquid that goes in together with the yeast and is too hot for it.
fn kills(draws: &FirstDraws, leaven: &Leaven<'_>, other: (usize, &Ingredient)) -> Option<Diagnostic> {
    let temperature = is_too_hot(other.1)?;
    let together = draws.get(&leaven.target)? == draws.get(&Target::Line(other.0))?;
    let message = format!(
        "`{}` at {} goes in together with `{}`, which dies above 43 °C",
        other.1.name,
        show::temperature(temperature, Units::Metric),
        leaven.name
    );
    together.then(|| {
        Diagnostic::warning(CHECK.name, other.1.span, message)
            .also(leaven.span, "the yeast")
            .help("let it cool to 38 °C or below first, or add the yeast in a later step")
    })
}

fn of_mix(subject: &Subject<'_>, id: PartId, part: &Part) -> Result<Option<Diagnostic>, Overflow> {
    let Some(mix) = mix(subject.recipe, subject.formula, id, &Today::default())? else { return Ok(None) };
    if mix.is_written() {
        return as_written(subject, part, &mix);
    }
    // Where a temperature is said for one of them, the baker has decided how.
    if mix.liquids.iter().any(|liquid| liquid.at.is_some()) {
        return Ok(None);
    }
    Ok(out_of_reach(subject, part, &mix)?.or(in_words(subject, part, &mix)?))
}

/// Water that is `cold` or `warm` in words, where the temperature that is desired asks for the other: the card would say both.
fn in_words(subject: &Subject<'_>, part: &Part, mix: &Mix) -> Result<Option<Diagnostic>, Overflow> {
    // `not too cold`, `cold in summer`, `from the cold tap` say something else.
    let says = |line: &Ingredient, words: &[&str]| {
        let mut clauses = line.preparation.as_deref().into_iter().flat_map(|said| said.split(','));
        clauses.any(|clause| words.iter().any(|word| clause.trim().eq_ignore_ascii_case(word)))
    };
    let is_meant = |line: &&Ingredient| {
        line.kind == Kind::Water && !line.aside && (says(line, COLD_WORDS) || says(line, WARM_WORDS))
    };
    let Some(line) = part.lines.iter().find(is_meant) else { return Ok(None) };
    let Some(found) = in_room(subject, mix, ROOM, advice(mix)?.method)? else { return Ok(None) };
    let (needed, cold) = (found.at.celsius(), says(line, COLD_WORDS));
    if if cold { needed < LUKEWARM } else { needed > COOL } {
        return Ok(None);
    }
    let message = format!(
        "`{}` is said to be {}, and for a dough of {} it is {} in a room of 20 °C",
        line.name,
        if cold { "cold" } else { "warm" },
        show::temperature(mix.desired, Units::Metric),
        show::temperature(half_degree(found.at), Units::Metric)
    );
    Ok(Some(Diagnostic::advice(CHECK.name, line.span, message).help(
        "leave the word away: the card says how warm; or write `at` and the degrees, and no `desired temperature`",
    )))
}

/// What one of the sums says in a room that is as warm as the flour.
fn in_room(subject: &Subject<'_>, mix: &Mix, room: Temperature, by: Method) -> Result<Option<Found>, Overflow> {
    pour_by(by, subject.recipe, subject.formula, mix, (room, room), &Today::default())
}

/// Water that is written with a temperature which in no room gives the dough that is desired.
fn as_written(subject: &Subject<'_>, part: &Part, mix: &Mix) -> Result<Option<Diagnostic>, Overflow> {
    // What kills the yeast is told by itself.
    let Some(written) = mix.written()?.filter(|written| written.celsius() <= YEAST_DIES) else { return Ok(None) };
    let Advice { method, why } = advice(mix)?;
    for (room, even, sign) in [(COLD_ROOM, "even in a room of", 1), (WARM_ROOM, "even in a room of", -1)] {
        let Some(found) = in_room(subject, mix, room, method)? else { return Ok(None) };
        let Some(dough) = found.as_written else { return Ok(None) };
        let off = dough.celsius().minus(mix.desired.celsius())?.times(Number::whole(sign))?;
        let line =
            mix.liquids.first().and_then(|liquid| part.lines.iter().find(|line| line.name.to_string() == liquid.name));
        // What is not too cold in the coldest room is not too cold in a warmer one.
        if sign > 0 && off <= NEAR && off >= Number::whole(-1) {
            return Ok(None);
        }
        let Some(line) = line.filter(|_| off > NEAR) else { continue };
        let usual = in_room(subject, mix, ROOM, method)?.map_or(found.at, |found| found.at);
        let message = format!(
            "{} at {} gives a dough of {} {even} {}, and {} is desired",
            mix.names(),
            show::temperature(written, Units::Metric),
            show::temperature(half_degree(dough), Units::Metric),
            show::temperature(room, Units::Metric),
            show::temperature(mix.desired, Units::Metric)
        );
        return Ok(Some(
            Diagnostic::advice(CHECK.name, line.span, message)
                .label(format!("reckoned by {}: {why}", method.name()))
                .help(instead(usual)),
        ));
    }
    Ok(None)
}

/// What to write instead, where water can be that warm.
fn instead(usual: Temperature) -> String {
    if usual.celsius().is_negative() {
        "no water is cold enough in a room of 20 °C: let what goes in with it cool first, take ice, or desire a warmer dough".to_owned()
    } else if usual.celsius() > YEAST_DIES {
        "water that the yeast stands is not warm enough in a room of 20 °C: desire a cooler dough, or warm what goes in with it".to_owned()
    } else {
        let at = half_degree(usual).celsius().decimal(1);
        format!("write `at {at} C` for a room of 20 °C, or leave it away: `miche card --room` says it for the day")
    }
}

fn half_degree(at: Temperature) -> Temperature {
    at.celsius().rounded_to(Number::constant(1, 2)).map_or(at, Temperature::from_celsius)
}

/// Water that would have to be below freezing or too hot for yeast, by both sums and for any friction that a mixer may have.
fn out_of_reach(subject: &Subject<'_>, part: &Part, mix: &Mix) -> Result<Option<Diagnostic>, Overflow> {
    let liquid = mix.liquids.iter().find(|liquid| liquid.is_water).or(mix.liquids.first());
    let line = liquid.and_then(|liquid| part.lines.iter().find(|line| line.name.to_string() == liquid.name));
    let Some(line) = line else { return Ok(None) };
    let frictions = match &mix.friction {
        Some((friction, _)) => vec![friction.celsius()],
        None => vec![Number::ZERO, MUCH_FRICTION],
    };
    let mut verdicts = Vec::new();
    let mut coldest_and_warmest = Vec::new();
    for friction in frictions {
        let known = Some((TemperatureDifference::from_celsius(friction), Friction::Said));
        let mixed = Mix { friction: mix.friction.clone().or(known), ..mix.clone() };
        for method in [Method::Handbook, Method::Balance] {
            let Some(found) = in_room(subject, &mixed, ROOM, method)? else { return Ok(None) };
            let verdict = verdict(found.at);
            // Water that one of them finds is in reach, and nearly always the first does.
            if verdict == Verdict::Fine {
                return Ok(None);
            }
            verdicts.push(verdict);
            if advice(&mixed)?.method == method {
                coldest_and_warmest.push(found.at);
            }
        }
    }
    let is_frozen = verdicts.iter().all(|verdict| *verdict == Verdict::Frozen);
    let is_hot = verdicts.iter().all(|verdict| matches!(verdict, Verdict::KillsYeast | Verdict::Boils));
    // The one that is nearest to what can be.
    let nearest = if is_frozen { coldest_and_warmest.iter().max() } else { coldest_and_warmest.iter().min() };
    let Some(needed) = nearest.filter(|_| is_frozen || is_hot) else { return Ok(None) };
    let (limit, how) = if is_frozen {
        ("below freezing", "use ice, cold flour or a gentler mix, or desire a warmer dough")
    } else {
        ("hotter than yeast stands, 43 °C", "desire a cooler dough, or let it warm up in the rise")
    };
    let friction = match &mix.friction {
        Some((friction, _)) => format!("{} °C friction", friction.celsius().decimal(1)),
        None if is_frozen => "no friction at all".to_owned(),
        None => "20 °C friction, more than any mixer gives".to_owned(),
    };
    let ferment = mix.preferment.as_ref().map_or_else(String::new, |found| {
        let place = show::temperature(found.at(ROOM).unwrap_or(ROOM), Units::Metric);
        format!(", `{}` at {place}", found.name)
    });
    let message = format!(
        "for a dough of {} the water would have to be {}, {limit}",
        show::temperature(mix.desired, Units::Metric),
        show::temperature(half_degree(*needed), Units::Metric)
    );
    Ok(Some(
        Diagnostic::warning(CHECK.name, line.span, message)
            .label(format!("reckoned with room and flour at 20 °C, {friction}{ferment}"))
            .help(how),
    ))
}
