//! Raw meat and fish that is laid into a brine which boiled and did not cool: it stands in the warm for hours.

use crate::check::kept::is_raw_flesh;
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::measure::temperature::Temperature;
use crate::model::cooking::{called, cooks, first_draws, says, words_of};
use crate::model::lowered::beginnings;
use crate::model::recipe::{Part, Recipe};
use crate::model::step::{Step, StepKind, Target, Words, temperatures};
use crate::text::diagnostic::Diagnostic;
use crate::text::words::words_without_hyphens;

/// So long it lies in it, and longer: what is scalded comes out at once.
const LIES: Duration = Duration::new(Number::whole(3600));

/// The first part in a part that is poured on raw flesh as hot as it boiled.
pub(super) fn problem(check: &'static str, recipe: &Recipe, part: &Part) -> Option<Diagnostic> {
    let draws = first_draws(part);
    let taken = |number: usize| draws.get(&Target::Line(number)).copied();
    part.lines.iter().enumerate().find_map(|(number, line)| {
        let made = recipe.part(line.part()?)?;
        let at = taken(number)?;
        let step = part.steps.get(at)?;
        let is_hot = made.foreign.is_none()
            && !made.keeps.is_some_and(|keeps| keeps.how.is_cold())
            && !made.lines.iter().any(|line| line.is_any_flour())
            && stays_hot(made)
            && !goes_in_cold(step, number)
            && !is_cooled_in_words(step)
            && !part.steps.iter().take(at).any(cools);
        if !is_hot || step.kind != StepKind::Wait || step.time.0 < LIES {
            return None;
        }
        let raw = part.lines.iter().enumerate().find(|(other, line)| {
            let first = taken(*other).filter(|first| *first <= at);
            is_raw_flesh(line) && first.is_some_and(|first| !part.steps.iter().take(at).skip(first).any(cooks))
        });
        let (_, flesh) = raw?;
        let message = format!("`{}` boils, and nothing cools it before `{}` lies in it for hours", made.name, flesh.name);
        Some(
            Diagnostic::advice(check, line.name.span, message)
                .also(flesh.name.span, "raw, and in the warm")
                .help("cool it to 4 °C before meat or fish goes in, and say so in a step: `chill: wait 4 h, at 4 C`; local food law goes before this"),
        )
    })
}

/// Whether the last that is done to a part is to boil it.
fn stays_hot(made: &Part) -> bool {
    let is_boiled =
        |step: &Step| !is_cooled_in_words(step) && says(step, beginnings!["boil", "simmer", "heat", "scald"]);
    let Some(last) = made.steps.iter().rposition(cooks) else { return false };
    made.steps.get(last).is_some_and(is_boiled) && !made.steps.iter().skip(last + 1).any(cools)
}

/// Whether something cools in a step: by its name, by standing, or by its words.
fn cools(step: &Step) -> bool {
    step.kind == StepKind::Wait || called(step, beginnings!["cool", "chill", "ice"]) || is_cooled_in_words(step)
}

/// `Boil it and let it cool.` To cool the tins first cools no brine.
fn is_cooled_in_words(step: &Step) -> bool {
    const SAID: [&str; 10] = [
        "let cool",
        "let it cool",
        "leave to cool",
        "leave it to cool",
        "cool it",
        "then cool",
        "and cool",
        "until cold",
        "until it is cold",
        "cool to ",
    ];
    let words = words_of(step);
    let is_cold = |(_, (low, _)): (_, (Temperature, Temperature))| low.celsius() <= COLD;
    SAID.iter().any(|said| words.contains(said)) || temperatures(step.words.iter().chain(&step.cue)).any(is_cold)
}

/// Whether what a step takes of a line goes in cold, as the words beside it say: `in the cold {brine}`.
fn goes_in_cold(step: &Step, number: usize) -> bool {
    let is_it = |word: &Words| matches!(word, Words::Use { target: Some(Target::Line(at)), .. } if *at == number);
    let Some(at) = step.words.iter().position(is_it) else { return false };
    let text = |at: Option<usize>| match at.and_then(|at| step.words.get(at)) {
        Some(Words::Text(text)) => text.to_lowercase(),
        _ => String::new(),
    };
    let (before, behind) = (text(at.checked_sub(1)), text(at.checked_add(1)));
    let is_cold = |word: &str| ["cold", "cooled", "chilled", "cool"].contains(&word);
    let behind = behind.split(['.', ';']).next().unwrap_or_default();
    words_without_hyphens(&before).last().is_some_and(is_cold) || words_without_hyphens(behind).take(5).any(is_cold)
}

/// Cooler than this it is hot no longer.
const COLD: Number = Number::whole(30);
