//! Meat that is cured with nitrite: how much of it there is on the meat, by the strength of the curing salt.

use super::Subject;
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass, Proportion};
use crate::measure::show;
use crate::model::cooking::raw_flesh::is_flesh;
use crate::model::cooking::{called, first_draws};
use crate::model::kind::Kind;
use crate::model::lowered::{Beginnings, beginnings};
use crate::model::recipe::{Ingredient, Part, PartId, Refers};
use crate::model::step::{Step, StepKind, Target};
use crate::solve::formula::SolvedPart;
use crate::text::denied::is_denied;
use crate::text::diagnostic::Diagnostic;
use crate::text::words::words_without_hyphens;

/// The most nitrite that goes in, on the meat: 156 mg a kilo of what is minced (9 CFR 424.21, from memory), 157 where it is weighed by the spoon of the trade,
/// 2.5 g of 6.25 % to a kilo. Regulation (EC) 1333/2008 has 150, and about 120 since October 2025 (Regulation (EU) 2023/2108; both from memory).
const MOST: Proportion = Proportion::new(Number::constant(157, 1_000_000));
/// What is said of it.
const LAWS: &str =
    "laws allow 156 mg at most in minced meat (United States), 150 and since October 2025 about 120 (European Union)";
/// Of meat that lies in a brine or is pumped with it 200 mg a kilo are allowed (9 CFR 424.21(c) and 21 CFR 172.175, from memory). Reckoned on meat and brine
/// together there is room for what the meat has not taken up when it comes out; common practice, no source.
const MOST_OF_A_BRINE: Proportion = Proportion::new(Number::constant(250, 1_000_000));
/// What is said of that.
const LAWS_OF_BRINES: &str = "laws allow 200 mg at most in what is brined or pumped (United States), 150 and since October 2025 about 120 (European Union)";
/// What is sold in America as cure number 1, and the nitrite salt of Europe, 0.5 to 0.6 %: the share of nitrite. From memory.
const STRONG: Proportion = Proportion::new(Number::constant(625, 10_000));
const WEAK: Proportion = Proportion::new(Number::constant(6, 1_000));
/// No curing salt that is sold has more; what is said above is something else.
const STRONGEST: Number = Number::constant(1, 10);

/// What is odd in the nitrite of each part; told under the name of the check of amounts.
pub(super) fn problems(subject: &Subject<'_>, of_amounts: &'static str) -> Vec<Diagnostic> {
    let mut problems = Vec::new();
    for (id, part, solved) in subject.whole_parts() {
        problems.extend(weak(part, solved, of_amounts).or_else(|| weak_brine(subject, (part, solved), of_amounts)));
        let all = || part.lines.iter().zip(&solved.lines);
        let Some(salt) = part.lines.iter().find(|line| is_nitrite_salt(line)) else { continue };
        let mass = |is: &dyn Fn(&Ingredient) -> bool| {
            Mass::sum(all().filter(|(line, _)| is(line)).filter_map(|(_, amount)| amount.mass)).ok()
        };
        let is_liquid = |line: &Ingredient| line.kind.is_poured() && line.kind.is_liquid();
        // In a brine it comes to the same everywhere at last, in the meat and in the water.
        let is_brine = part.lines.iter().any(is_liquid);
        let in_it = if is_brine { mass(&|line| is_flesh(line) || is_liquid(line)) } else { mass(&is_flesh) };
        let in_it = in_it.and_then(|own| own.plus(beside(subject, id, is_brine)).ok());
        let share = mass(&is_nitrite_salt).zip(in_it).and_then(|(salt, all)| salt.as_share_of(all).ok());
        let Some(share) = share else { continue };
        let most = if is_brine { MOST_OF_A_BRINE } else { MOST };
        let strength = strength(salt);
        let nitrite = share.value().times(strength.unwrap_or(STRONG).value());
        let Some(nitrite) = nitrite.ok().filter(|nitrite| *nitrite > most.value()) else { continue };
        let Ok(milligrams) = nitrite.times(Number::whole(1_000_000)) else { continue };
        let milligrams = milligrams.decimal(0);
        let of_what = if is_brine { "meat and brine" } else { "meat" };
        let laws = if is_brine { LAWS_OF_BRINES } else { LAWS };
        let message = match strength {
            Some(_) => {
                format!("`{}` brings about {milligrams} mg of nitrite to a kilo of {of_what}: {laws}", salt.name)
            }
            None => format!(
                "nothing says how strong `{}` is: of 6.25 % nitrite this would be about {milligrams} mg on a kilo of {of_what}; {laws}",
                salt.name
            ),
        };
        problems.push(Diagnostic::warning(of_amounts, salt.amount_span, message).help(
            "call it by its strength, `nitrite salt` of 0.5 to 0.6 % or `prague powder` of 6.25 %, and weigh it by its maker's words: of the strong one about 2.5 g go on a \
             kilo; local food law goes before this",
        ));
    }
    problems
}

/// Flesh that is cured with hardly more salt than it is eaten with: nothing keeps it. Common practice, no source: from 2 % on the flesh.
const LEAST_SALT: Proportion = Proportion::new(Number::constant(15, 1000));

/// Fish and meat in a step that cures them, with less salt on them than that.
fn weak(part: &Part, solved: &SolvedPart, check: &'static str) -> Option<Diagnostic> {
    let cures = |step: &Step| step.kind == StepKind::Wait && called(step, beginnings!["cure", "curing"]);
    part.steps.iter().find(|step| cures(step))?;
    let all = || part.lines.iter().zip(&solved.lines);
    let mass = |is: &dyn Fn(&Ingredient) -> bool| {
        Mass::sum(all().filter(|(line, _)| is(line)).filter_map(|(_, amount)| amount.mass)).ok()
    };
    let other = |line: &Ingredient| {
        line.part().is_some() || matches!(line.kind, Kind::Vinegar | Kind::Juice | Kind::Brine | Kind::Seasoning)
    };
    let flesh = mass(&is_flesh).filter(|flesh| *flesh > Mass::ZERO)?;
    let line = part.lines.iter().find(|line| is_salt(line)).filter(|_| !part.lines.iter().any(other))?;
    let share = mass(&is_salt)?.as_share_of(flesh).ok().filter(|share| *share < LEAST_SALT)?;
    let message = format!("{} of salt on what is cured keep nothing: from 2 % on", show::percent(share));
    Some(
        Diagnostic::advice(check, line.amount_span, message)
            .help("look whether a point or a digit has slipped; local food law goes before this"),
    )
}

/// The least salt on flesh and brine together of what is to lie in it for days. Common practice, no source: brines of 5 to 10 % salt, about as much as the
/// meat, leave 2 to 4 % on both.
const LEAST_IN_BRINE: Proportion = Proportion::new(Number::constant(1, 100));
/// From so long on it is a cure and no seasoning.
const CURES: Duration = Duration::days(1);

/// Raw flesh that lies for days in a brine of hardly any salt.
fn weak_brine(subject: &Subject<'_>, (part, solved): (&Part, &SolvedPart), check: &'static str) -> Option<Diagnostic> {
    let lies = |step: &Step| {
        step.kind == StepKind::Wait
            && step.time.0 >= CURES
            && called(step, beginnings!["brin", "cure", "curing", "corn|"])
    };
    let at = part.steps.iter().position(lies)?;
    let draws = first_draws(part);
    let is_in = |number: usize| draws.get(&Target::Line(number)).is_some_and(|first| *first <= at);
    let (mut salt, mut all, mut flesh, mut liquid) = (Mass::ZERO, Mass::ZERO, None, None);
    for (_, (line, amount)) in part.lines.iter().zip(&solved.lines).enumerate().filter(|(number, _)| is_in(*number)) {
        let keeps = matches!(line.kind, Kind::Vinegar | Kind::Juice | Kind::Brine | Kind::Seasoning | Kind::Spirit);
        // Of what no larder knows nobody knows how salt it is; salt is salt, of whatever rock or sea.
        if keeps || !is_salt(line) && line.part().is_none() && line.refers == Refers::Pantry(None) {
            return None;
        }
        let mass = amount.mass?;
        all = all.plus(mass).ok()?;
        if let Some(inner) = line.part() {
            let (made, inner) = (subject.recipe.part(inner)?, subject.formula.part(inner)?);
            let is_brine = |line: &Ingredient| line.kind.is_poured() || line.kind == Kind::Salt;
            let hides = |line: &Ingredient| matches!(line.kind, Kind::Vinegar | Kind::Brine | Kind::Seasoning);
            if !made.lines.iter().any(is_brine) || made.lines.iter().any(hides) {
                return None;
            }
            salt =
                salt.plus(mass.share(inner.composition.salt.as_share_of(inner.composition.total).ok()?).ok()?).ok()?;
            liquid = liquid.or(Some(line));
        } else if is_salt(line) {
            salt = salt.plus(mass).ok()?;
        } else if line.kind.is_poured() {
            liquid = liquid.or(Some(line));
        } else if is_flesh(line) {
            flesh = flesh.or(Some(line));
        }
    }
    let (step, liquid, flesh) = (part.steps.get(at)?, liquid?, flesh?);
    let share = salt.as_share_of(all).ok().filter(|share| *share < LEAST_IN_BRINE && !part.broken)?;
    let message = format!(
        "`{}` lies in `{}` for {} with {} salt on both: that keeps nothing",
        flesh.name,
        liquid.name,
        show::duration_range(step.time.0, step.time.1),
        show::percent(share)
    );
    Some(
        Diagnostic::advice(check, liquid.name.span, message)
            .help("look whether a digit has slipped: brines that cure have 5 % salt and more in their water; local food law goes before this"),
    )
}

/// The meat that lies in a brine which is a part of its own.
fn beside(subject: &Subject<'_>, brine: PartId, is_brine: bool) -> Mass {
    let users = subject.recipe.users(brine).filter(|_| is_brine);
    let flesh = users.filter_map(|(user, _)| {
        let (part, solved) = (subject.recipe.part(user)?, subject.formula.part(user)?);
        let all = part.lines.iter().zip(&solved.lines).filter(|(line, _)| is_flesh(line));
        Mass::sum(all.filter_map(|(_, amount)| amount.mass)).ok()
    });
    Mass::sum(flesh).unwrap_or(Mass::ZERO)
}

/// Whether a line is salt, with nitrite in it or without: that of a cure is salt for the most, and what keeps is how much of both there is.
pub(super) fn is_salt(line: &Ingredient) -> bool {
    line.kind == Kind::Salt || is_nitrite_salt(line)
}

/// What curing salt is called, by the beginnings of words. `Pink salt` alone is none: it is what one shop calls curing salt and another salt of
/// the Himalaya, and who has the wrong one trusts in what is not there. Common practice, no source.
const CURING: &Beginnings = &Beginnings::of(&[
    "curing salt",
    "curing-salt",
    "curing mix",
    "curing powder",
    "curing agent",
    "curing blend",
    "cure no",
    "cure #",
    "cure number",
    "pink curing",
    "prague powder",
    "instacure",
    "insta-cure",
    "insta cure",
    "nitrite",
    "nitrate",
    "saltpet",
]);

/// Whether a line is a salt with nitrite or nitrate in it, by which meat is cured: `nitrite-free salt` is none.
pub(super) fn is_curing_salt(line: &Ingredient) -> bool {
    let is_none = || {
        let words: Vec<&str> = words_without_hyphens(line.name.key.as_str()).collect();
        let is_free = |at: usize| words.get(at + 1) == Some(&"free") || is_denied(&words, at, 2, &[]);
        words
            .iter()
            .enumerate()
            .any(|(at, word)| ["nitrite", "nitrites", "nitrate", "nitrates"].contains(word) && is_free(at))
    };
    line.name.has_word_beginning(CURING) && !is_none()
}

/// Whether its nitrite is what counts: of saltpetre alone germs make it in weeks.
fn is_nitrite_salt(line: &Ingredient) -> bool {
    let is_nitrate = || {
        line.name.has_word_beginning(beginnings!["nitrate", "saltpet"])
            && !line.name.has_word_beginning(beginnings!["nitrite"])
    };
    is_curing_salt(line) && !is_nitrate()
}

/// How strong it is: by the figure that its name or what is said of it has, else by what it is called.
fn strength(line: &Ingredient) -> Option<Proportion> {
    let text = format!("{} {}", line.name.key.as_str(), line.preparation.as_deref().unwrap_or_default().to_lowercase());
    let has = |words: &[&str]| words.iter().any(|word| text.contains(word));
    if let Some(said) = percent_in(&text).filter(|said| said.value() <= STRONGEST) {
        return Some(said);
    }
    if has(&["6.25", "no. 1", "no 1", "prague", "insta"]) {
        return Some(STRONG);
    }
    has(&["nitrite salt", "nitrite curing salt"]).then_some(WEAK)
}

/// The first figure of a text that has a percent sign behind it; of a range the high end.
fn percent_in(text: &str) -> Option<Proportion> {
    let figure = text.split('%').next().filter(|before| before.len() < text.len())?.trim_end();
    let from = figure
        .rfind(|c: char| !(c.is_ascii_digit() || c == '.'))
        .map_or(0, |at| at + figure.get(at..).and_then(|rest| rest.chars().next()).map_or(1, char::len_utf8));
    let (whole, part) = figure.get(from..)?.split_once('.').unwrap_or((figure.get(from..)?, ""));
    let digits: i128 = format!("{whole}{part}").parse().ok()?;
    let scale = 10i128.checked_pow(u32::try_from(part.len()).ok()?)?.checked_mul(100)?;
    Number::fraction(digits, scale).map(Proportion::new)
}
