//! `hot-or-caustic`: lye, boiling sugar and deep fat without a word of caution.

use super::danger::{self, Danger};
use super::statement;
use super::{Check, Family, Run, Subject, tell};
use crate::measure::number::Number;
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show;
use crate::model::cooking::{Beginnings, beginnings, has_word_beginning, may_say, words_of};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, PartId};
use crate::model::step::{Step, Target, Words};
use crate::solve::formula::SolvedPart;
use crate::text::denied::is_denied;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::words::words_without_hyphens;

mod lye_in_hot_water;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "hot-or-caustic",
    severity: Severity::Advice,
    family: Family::Safety,
    looks_for: "work with lye, boiling sugar or deep fat, or sweet drinks bottled while they ferment, in a recipe that carries no caution for it; a bath of more than 5 % lye, and lye that is strewn into hot water",
    why: "Lye burns skin and blinds; sugar at 150 °C sticks while it burns; hot fat catches fire and boils over with water. \
          Glass in which yeast finds sugar bursts. Who reads the card at the bench may do it for the first time. A `caution` line in the part or the head says what \
          to wear and what to keep away. The program's own general caution prints on the card in any case. This is general \
          advice: the law on work safety and licensed practice go before it.",
    bad: "recipe Ring doughnuts\nflour .... 500 g\nwater .... 300 g\nfrying oil .... as needed, aside\nmix: hands 10 min\n    \
          Mix {flour} and {water}.\n    until smooth\nfry: hands 20 min, using hob at 180 C\n    Deep-fry in {frying oil}.\n    until gold\n",
    good: "recipe Ring doughnuts\nflour .... 500 g\nwater .... 300 g\nfrying oil .... as needed, aside\n\
           caution Hot fat: dry the rings, never leave it alone, keep the lid at hand and no water near.\nmix: hands 10 min\n    \
           Mix {flour} and {water}.\n    until smooth\nfry: hands 20 min, using hob at 180 C\n    Deep-fry in {frying oil}.\n    until gold\n",
    sources: &["common practice, no source; work-safety law of the place"],
    run: Run::Parts(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (id, part, solved) in subject.own_parts() {
        tell(diagnostics, strong_lye(part, solved, || thinned_with(subject, id)));
        for (at, line) in part.lines.iter().enumerate().filter(|(_, line)| line.kind == Kind::Lye) {
            if part.steps.iter().any(|step| pours_onto(part, step, at)) {
                let message = format!("water is poured onto `{}`: it boils up and spits", line.name);
                diagnostics.push(
                    Diagnostic::advice(CHECK.name, line.name.span, message)
                        .help("strew the lye into cold water, never the other way round"),
                );
            }
        }
        tell(diagnostics, lye_in_hot_water::problem(part));
        let of_lye = danger::danger_in(part, Danger::Lye);
        if (of_lye.is_some() || danger::lists_lye(part))
            && let Some(step) = part.steps.iter().find(|step| is_in_aluminium(step))
        {
            let message = format!(
                "`{}` brings lye and aluminium together: they make hydrogen, and the metal goes into the food",
                step.name
            );
            diagnostics.push(Diagnostic::advice(CHECK.name, step.name.span, message).help(
                "use stainless steel, glass or plastic for lye, and trays that are lined or not of aluminium for what was dipped; local food law goes before this",
            ));
        }
        for danger in Danger::ALL {
            let span = if danger == Danger::Lye { of_lye } else { danger::danger_in(part, danger) };
            let Some(span) = span else { continue };
            if statement::warns(subject.recipe, part, danger.ways()) {
                continue;
            }
            let message = format!("`{}` works with {}, and no `caution` says so", part.name, danger.noun());
            diagnostics.push(
                Diagnostic::advice(CHECK.name, span, message)
                    .help(format!("add a line to the part: `caution {}`", danger.example())),
            );
        }
    }
}

/// The most lye that a bath holds: pretzels are dipped into 3 to 4 %, olives and tofu into less. Common practice, no source.
const MOST_LYE: Proportion = Proportion::new(Number::constant(5, 100));

/// The water into which a part goes: a stock of lye is thinned there, and food is dipped into no other.
fn thinned_with(subject: &Subject<'_>, id: PartId) -> Mass {
    let users =
        subject.recipe.users(id).filter_map(|(user, _)| subject.recipe.part(user).zip(subject.formula.part(user)));
    let waters = users
        .flat_map(|(part, solved)| part.lines.iter().zip(&solved.lines))
        .filter(|(line, _)| line.kind == Kind::Water);
    Mass::sum(waters.filter_map(|(_, amount)| amount.mass)).unwrap_or(Mass::ZERO)
}

/// A bath of lye that is stronger than any food is dipped into; lye in a dough is none.
fn strong_lye(part: &Part, solved: &SolvedPart, more: impl Fn() -> Mass) -> Option<Diagnostic> {
    let lines = || part.lines.iter().zip(&solved.lines);
    let (lye, amount) = lines().find(|(line, _)| line.kind == Kind::Lye && line.part().is_none())?;
    // A solution that is bought holds its water already.
    let is_dough = |line: &Ingredient| {
        let is_body = line.is_flour || matches!(line.kind, Kind::Flour | Kind::Starch | Kind::Grain);
        is_body && line.stays_in() == lye.stays_in()
    };
    if part.lines.iter().any(is_dough) {
        return None;
    }
    if lye.name.key.as_str() == "lye water"
        || lye.name.has_word_beginning(beginnings!["bath", "solution", "dip"])
        || lye.name.key.as_str().contains('%')
    {
        return None;
    }
    let waters = lines().filter(|(line, _)| line.kind == Kind::Water && line.stays_in() == lye.stays_in());
    let water = Mass::sum(waters.filter_map(|(_, amount)| amount.mass))
        .and_then(|water| water.plus(more()))
        .ok()
        .filter(|water| *water > Mass::ZERO)?;
    let share = amount.mass?.as_share_of(amount.mass?.plus(water).ok()?).ok().filter(|share| *share > MOST_LYE)?;
    let message = format!(
        "`{}` is {} of its bath, {} in {} of water: food is dipped into 3 to 4 %, and never into more than 5 %",
        lye.name,
        show::percent(share),
        show::mass_plain(amount.mass?),
        show::mass_plain(water)
    );
    Some(Diagnostic::warning(CHECK.name, lye.amount_span, message).help(
        "look whether a point or a digit has slipped: at 10 % it burns through skin in moments; local food law goes before this",
    ))
}

/// Whether a step uses what is of aluminium, in its words or as its equipment.
fn is_in_aluminium(step: &Step) -> bool {
    const METAL: &Beginnings = &Beginnings::of(&["alumini", "aluminum"]);
    if step.equipment.as_ref().is_some_and(|name| name.has_word_beginning(METAL)) {
        return true;
    }
    if !may_say(step, METAL) {
        return false;
    }
    let words: Vec<&str> = words_without_hyphens(words_of(step)).collect();
    words.iter().enumerate().any(|(at, word)| {
        let is_metal = word.starts_with("alumini") || word.starts_with("aluminum");
        is_metal && !is_denied(&words, at, 4, &["instead", "than"])
    })
}

/// Whether a step pours water onto a line.
fn pours_onto(part: &Part, step: &Step, at: usize) -> bool {
    let mut water = false;
    let mut between = "";
    for word in &step.words {
        match word {
            Words::Text(text) => between = text,
            Words::Use { target: Some(Target::Line(found)), .. } => {
                let onto = || {
                    between
                        .split_whitespace()
                        .next_back()
                        .is_some_and(|word| ["onto", "into", "over", "on", "to"].contains(&word))
                };
                if *found == at
                    && water
                    && onto()
                    && !has_word_beginning(&between.to_lowercase(), ["strew", "add", "stir"])
                {
                    return true;
                }
                water = part.lines.get(*found).is_some_and(|line| line.kind == Kind::Water);
                between = "";
            }
            Words::Use { .. } | Words::Measure(_) => between = "",
        }
    }
    false
}
