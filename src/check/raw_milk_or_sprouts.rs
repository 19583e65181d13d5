//! `raw-milk-or-sprouts`: raw milk and sprouted seeds that nothing heats before they are eaten.

use super::from_elsewhere::told_where_it_comes_in;
use super::statement::{self, RAW_FLOUR_OR_EGG};
use super::{Check, Family, Run, Subject};
use crate::measure::number::Number;
use crate::model::cooking::state::is_so;
use crate::model::cooking::state_words::State;
use crate::model::cooking::{Later, called, cooks, first_draws, hottest, says, surely_does};
use crate::model::kind::Kind;
use crate::model::lowered::{Beginnings, beginnings};
use crate::model::recipe::{Ingredient, Part, PartId, Refers};
use crate::model::step::{Step, Target};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::words::words_with_hyphens;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "raw-milk-or-sprouts",
    severity: Severity::Advice,
    family: Family::Safety,
    looks_for: "raw milk that nothing heats and nothing turns into cheese, and sprouted seeds that are never cooked",
    why: "Raw milk may carry Listeria, Salmonella, Campylobacter and E. coli; seeds sprout in the warmth and wet in which germs grow. Boil them, or carry a \
          `caution` line that says that they are served raw; many laws want the words `raw milk` on the label or forbid its sale. Milk that is soured or \
          set with rennet is left alone here. This is general advice: local food law and licensed practice go before it.",
    bad: "recipe Milk shake\nmakes 4 glasses\nraw milk .... 1 kg\nstrawberries .... 300 g\nblend: hands 3 min\n    Blend {raw milk} with {strawberries}.\n    until \
          smooth\n",
    good: "recipe Milk shake\nmakes 4 glasses\nwhole milk .... 1 kg\nstrawberries .... 300 g\nblend: hands 3 min\n    Blend {whole milk} with {strawberries}.\n    until \
           smooth\n",
    sources: &[
        "Regulation (EC) 853/2004, Annex III, and 21 CFR 1240.61 on raw milk (from memory)",
        "FDA Food Code 3-801.11 and Regulation (EU) 208/2013 on sprouts (from memory)",
    ],
    run: Run::Parts(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let mut later = Later::of(subject.recipe);
    let mut look = |(id, part): (PartId, &Part), diagnostics: &mut Vec<Diagnostic>| {
        for (at, line) in part.lines.iter().enumerate() {
            let told: fn(&Ingredient) -> Diagnostic = match line {
                _ if is_raw_milk(line) => of_milk,
                _ if is_of_raw_sprouts(line) => of_sprouts,
                _ => continue,
            };
            let Some(step) = first_draws(part).get(&Target::Line(at)).copied() else { continue };
            let is_said = || statement::states_of((subject.recipe, part), RAW_FLOUR_OR_EGG, Some(line));
            let is_warmed =
                is_raw_milk(line) && only_warms(part, step) && later.is_cooked(id, part.steps.len()) != Some(true);
            let is_raw = is_warmed || later.is_line_cooked(id, step, at) == Some(false);
            if is_raw && !(is_raw_milk(line) && is_soured(part)) && !is_said() {
                diagnostics.push(told(line));
            }
        }
    };
    for (id, part, _) in subject.own_parts() {
        look((id, part), diagnostics);
    }
    told_where_it_comes_in(subject, diagnostics, |(id, part, _), found| look((id, part), found));
}

/// Milk that nobody heated, by its name or what is said of it.
fn is_raw_milk(line: &Ingredient) -> bool {
    let is_milk = line.kind == Kind::Milk || line.name.has_word_beginning(beginnings!["raw milk"]);
    let said = || line.preparation.as_deref().unwrap_or_default().to_lowercase();
    let raw =
        |text: &str| words_with_hyphens(text).any(|word| ["raw", "unpasteurised", "unpasteurized"].contains(&word));
    is_milk && line.part().is_none() && (raw(line.name.key.as_str()) || raw(&said()))
}

/// At this milk is pasteurised after half an hour, °C: 63 °C for 30 minutes or 72 for 15 seconds (Regulation (EC) 853/2004, Annex III, IX; from memory).
const PASTEURISED: Number = Number::whole(63);

/// Whether all that heats something from a step on only warms it: by what its words say, or by its name where they say nothing.
fn only_warms(part: &Part, from: usize) -> bool {
    let mut heats = part.steps.iter().skip(from).filter(|step| cooks(step)).peekable();
    let is_mild = |step: &Step| match hottest(step) {
        Some(hottest) => hottest.celsius() < PASTEURISED,
        None => {
            called(step, beginnings!["warm", "temper"])
                || says(step, beginnings!["lukewarm", "blood-warm", "blood warm", "tepid"])
        }
    };
    heats.peek().is_some() && heats.all(is_mild)
}

/// Whether milk becomes cheese, butter or what is soured in a part.
fn is_soured(part: &Part) -> bool {
    let makes = beginnings!["rennet", "culture", "starter", "kefir", "yoghurt", "yogurt"];
    let turns = beginnings!["cultur", "ferment", "curd", "churn", "pasteuri"];
    part.lines.iter().any(|line| line.name.has_word_beginning(makes))
        || part.steps.iter().any(|step| surely_does(step, turns))
}

fn of_milk(line: &Ingredient) -> Diagnostic {
    let message =
        format!("`{}` is never heated: raw milk may carry Listeria, Salmonella, Campylobacter and E. coli", line.name);
    Diagnostic::advice(CHECK.name, line.name.span, message).help(
        "boil it, or add a `caution` line that says it is served raw; many laws want the words `raw milk` on the label or forbid its sale (Regulation (EC) 853/2004, \
         21 CFR 1240.61; from memory), and local food law goes before this",
    )
}

/// Seeds that are eaten sprouted, by beginnings of words of their names; Brussels sprouts are cabbages.
const SPROUTS: &Beginnings = &Beginnings::of(&[
    "mung bean sprout",
    "bean sprout",
    "beansprout",
    "alfalfa sprout",
    "clover sprout",
    "radish sprout",
    "lentil sprout",
    "fenugreek sprout",
    "sprouted seed",
]);
/// Words of names by which it is another thing made of them.
const MADE: &[&str] = &["flour", "powder", "juice", "extract"];

fn is_of_raw_sprouts(line: &Ingredient) -> bool {
    let is_made =
        || is_so(line, State::Cooked) || words_with_hyphens(line.name.key.as_str()).any(|word| MADE.contains(&word));
    line.name.has_word_beginning(SPROUTS) && matches!(line.refers, Refers::Pantry(_)) && !is_made()
}

fn of_sprouts(line: &Ingredient) -> Diagnostic {
    let message = format!(
        "`{}` is never cooked: raw it holds germs more often than most food, for they grow while seeds sprout",
        line.name
    );
    Diagnostic::advice(CHECK.name, line.name.span, message).help(
        "boil it before it is eaten or pressed; where it is cooked before it comes here, say so behind it, `cooked`; local food law goes before this",
    )
}
