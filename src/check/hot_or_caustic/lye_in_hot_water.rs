//! Lye that goes into water which is hot already.

use super::CHECK;
use crate::measure::number::Number;
use crate::model::cooking::{beginnings, called, chills, cooks, has_word_beginning};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, Part};
use crate::model::step::{Step, Target, Words};
use crate::text::denied::denies;
use crate::text::diagnostic::Diagnostic;
use crate::text::words::words_without_hyphens;

/// Dissolving lye heats its water: 44 kJ a mole, so 3 % of it by some 8 °C and 10 % by 28 °C (enthalpy of solution of sodium hydroxide, from memory). In water
/// as hot as this it spits. Common practice, no source.
const HOT: Number = Number::whole(45);

/// Beginnings of words by which water is hot.
const HOT_WORDS: &Beginnings = &Beginnings::of(&["boil", "hot|", "simmer", "scald"]);

/// Lye that is strewn into hot water; what was dissolved before it was bought heats nothing.
pub(super) fn problem(part: &Part) -> Option<Diagnostic> {
    let is_lye = |line: &Ingredient| {
        line.kind == Kind::Lye
            && line.part().is_none()
            && !has_word_beginning(line.name.key.as_str(), ["water", "solution", "bath", "dip", "baked"])
            && !line.name.key.as_str().contains('%')
    };
    let lye = part.lines.iter().position(is_lye)?;
    let (at, step) = part.steps.iter().enumerate().find(|(_, step)| takes(step, lye))?;
    let is_water = |line: usize| part.lines.get(line).is_some_and(|line| line.kind == Kind::Water);
    // Water that went in hot, or that the steps before this one heated and none cooled.
    let poured_hot = |step: &Step| {
        step.lines_taken().filter(|line| is_water(*line)).any(|line| {
            let said = part.lines.get(line).and_then(|line| line.temperature);
            said.is_some_and(|said| said.celsius() >= HOT)
        })
    };
    let mut is_hot = false;
    for before in part.steps.iter().take(at) {
        let takes_water = before.lines_taken().any(is_water);
        if chills(before) || called(before, beginnings!["cool", "dip"]) {
            is_hot = false;
        } else if takes_water && (cooks(before) || poured_hot(before)) {
            is_hot = true;
        }
    }
    if !(is_hot || poured_hot(step) || says_hot(step, lye, is_water)) {
        return None;
    }
    let name = &part.lines.get(lye)?.name;
    let message = format!(
        "`{name}` goes into hot water by `{}`: it heats the water by itself, which boils up and spits",
        step.name
    );
    Some(
        Diagnostic::advice(CHECK.name, step.name.span, message)
            .also(name.span, "lye")
            .help("strew the lye into cold water, and warm the bath when it is dissolved"),
    )
}

fn takes(step: &Step, line: usize) -> bool {
    step.lines_taken().any(|taken| taken == line)
}

/// Whether the words of a step heat the water before the lye goes in, or call the water hot into which it goes.
fn says_hot(step: &Step, lye: usize, is_water: impl Fn(usize) -> bool) -> bool {
    let mut strewn = false;
    let mut hot = false;
    let mut poured = false;
    for word in &step.words {
        match word {
            Words::Text(text) => {
                let lower = text.to_lowercase();
                // What is denied, or cooled again, is not hot.
                let words: Vec<&str> = words_without_hyphens(&lower).collect();
                if words.iter().any(|word| denies(word) || ["cold", "cool", "cooled", "lukewarm"].contains(word)) {
                    hot = false;
                } else if strewn {
                    // Behind the lye only the word right before the water tells how hot it goes in.
                    hot = words.last().is_some_and(|last| HOT_WORDS.begin_in(last)) && !text.contains(['.', ';']);
                } else {
                    // Lye gets hot by itself, and says so: of the water it is told behind it, or right before it.
                    let is_hot_water =
                        |two: &[&str]| matches!(two, [how, what] if HOT_WORDS.begin_in(how) && *what == "water");
                    hot = hot
                        || poured && words.iter().any(|word| HOT_WORDS.begin_in(word))
                        || words.windows(2).any(is_hot_water);
                }
            }
            Words::Measure(_) => {
                let heat = word.temperature().map(|(_, (low, _))| low.celsius());
                hot = hot || poured && !strewn && heat.is_some_and(|heat| heat >= HOT);
            }
            Words::Use { target: Some(Target::Line(line)), .. } if *line == lye => {
                if hot {
                    return true;
                }
                strewn = true;
            }
            Words::Use { target: Some(Target::Line(line)), .. } if strewn && hot && is_water(*line) => return true,
            Words::Use { target: Some(Target::Line(line)), .. } => poured = poured || is_water(*line),
            Words::Use { .. } => {}
        }
    }
    false
}
