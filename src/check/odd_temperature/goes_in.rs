//! How warm lines go in, by what is said of them and by the words of the steps: water that is hotter than it boils, raw flesh from a warm room, and
//! yeast that dies in hot milk.

use super::CHECK;
use crate::measure::number::Number;
use crate::measure::show;
use crate::measure::temperature::Temperature;
use crate::measure::value::Said;
use crate::model::cooking::cold_words::COOLED;
use crate::model::cooking::raw_flesh::is_raw;
use crate::model::cooking::{bakes, called, cooks, has_word_beginning, uses};
use crate::model::kind::Kind;
use crate::model::lowered::{Beginnings, beginnings};
use crate::model::recipe::{Ingredient, Part};
use crate::model::step::{Step, Target, Words, temperatures};
use crate::text::diagnostic::Diagnostic;

/// The first line of a part that goes in too warm.
pub(super) fn problem(part: &Part) -> Option<Diagnostic> {
    hotter_than_it_boils(part)
        .or_else(|| warm_flesh(part))
        .or_else(|| killed_in_words(part))
        .or_else(|| burnt_sugar(part))
        .or_else(|| cold_scald(part))
}

/// Hotter than it boils nothing is poured in, °C.
const BOILING: Number = Number::whole(100);

/// Water and milk `at 125 C`.
fn hotter_than_it_boils(part: &Part) -> Option<Diagnostic> {
    let line = part
        .lines
        .iter()
        .find(|line| line.kind.is_poured() && line.temperature.is_some_and(|at| at.celsius() > BOILING))?;
    let message = format!("{} boils at 100 °C: none goes in hotter", line.name);
    Some(
        Diagnostic::advice(CHECK.name, line.span, message)
            .help("look whether a digit has slipped, or the unit, C or F"),
    )
}

/// Raw flesh goes in from the cold; a roast stands until its middle is not cold any more, °C. Common practice, no source.
const FROM_THE_COLD: Number = Number::whole(12);
const TEMPERED: Number = Number::whole(18);

/// Mince `at 21 C` where 1 was meant.
fn warm_flesh(part: &Part) -> Option<Diagnostic> {
    let line = part.lines.iter().find(|line| {
        let most = || {
            let is_cold = line.kind != Kind::Meat
                || line.name.has_word_beginning(beginnings!["mince", "sausage", "chicken", "turkey"]);
            if is_cold { FROM_THE_COLD } else { TEMPERED }
        };
        line.temperature.is_some_and(|at| at.celsius() > most() && at.celsius() < Number::whole(50)) && is_raw(line)
    })?;
    let at = line.temperature.map(|at| show::temperature(at, show::Units::Metric).to_string()).unwrap_or_default();
    let message = format!("raw {} at {at}: it goes in from the cold, at 8 °C at most", line.name);
    Some(
        Diagnostic::advice(CHECK.name, line.span, message)
            .help("look whether a digit has slipped; local food law goes before this"),
    )
}

/// Yeast and leaven die, and so do the cultures of yoghurt somewhat later, °C. Dry yeast that goes into the flour bears more (makers give 49 to 54 °C,
/// from memory).
const KILLS_YEAST: Number = Number::whole(45);
const KILLS_CULTURE: Number = Number::whole(50);
const KILLS_IN_FLOUR: Number = Number::whole(56);

/// What lives and is stirred into what the words before it in the same sentence say is too hot: `Warm {milk} to {62 C}, crumble in {fresh yeast}`.
fn killed_in_words(part: &Part) -> Option<Diagnostic> {
    let lives = |line: &Ingredient| {
        line.kind.ferments() || matches!(line.kind, Kind::Milk | Kind::Dairy) && line.name.has_word_beginning(CULTURES)
    };
    part.lines.iter().find(|line| lives(line))?;
    part.steps.iter().find_map(|step| {
        // Hardly a step of a dough says a heat, and no word is looked at where none does.
        temperatures(&step.words).find(|(_, (low, _))| low.celsius() > KILLS_YEAST)?;
        let (mut hot, mut with_flour) = (None, false);
        step.words.iter().find_map(|word| {
            match word {
                Words::Text(text) => {
                    // A new sentence, what has cooled, and what goes into another bowl begin anew.
                    let lower = text.to_lowercase();
                    if text.contains('.') && !lower.contains(" at ") || COOLED.begin_in(&lower) {
                        (hot, with_flour) = (None, false);
                    }
                }
                Words::Measure(_) => {
                    if let Some((said, (low, _))) = word.temperature() {
                        hot = Some((said, low));
                    }
                }
                Words::Use { target: Some(Target::Line(at)), .. } => {
                    let line = part.lines.get(*at)?;
                    with_flour |= line.is_any_flour();
                    let most = match line.kind {
                        _ if !lives(line) => return None,
                        kind if !kind.ferments() => KILLS_CULTURE,
                        _ if with_flour => KILLS_IN_FLOUR,
                        _ => KILLS_YEAST,
                    };
                    let (said, _) = hot.filter(|(_, at): &(&Said, Temperature)| at.celsius() > most)?;
                    let message = format!(
                        "`{}` takes {} at {}: what lives in it dies above {} °C",
                        step.name,
                        line.name,
                        show::said_plain(said),
                        most.decimal(0)
                    );
                    return Some(
                        Diagnostic::warning(CHECK.name, said.span, message)
                            .also(line.name.span, "goes in alive")
                            .help("look whether digits are swapped; let it cool first, and say to how many degrees"),
                    );
                }
                Words::Use { .. } => {}
            }
            None
        })
    })
}

/// Milk that is sour because something lives in it.
const CULTURES: &Beginnings =
    &Beginnings::of(&["yogurt", "yoghurt", "kefir", "buttermilk", "culture", "starter", "skyr"]);

/// Sugar is black from here on, and what has milk or cream in it long before, °C. Common practice, no source.
const BLACK: Number = Number::whole(198);
const MILK_BURNS: Number = Number::whole(140);

/// A caramel at 275 °C where 175 was meant, and fudge at 168.
fn burnt_sugar(part: &Part) -> Option<Diagnostic> {
    part.lines.iter().find(|line| line.kind.is_sweet())?;
    part.steps.iter().find_map(|step| {
        // Hardly a step says such a heat.
        temperatures(step.words.iter().chain(&step.cue)).find(|(_, (low, _))| low.celsius() >= MILK_BURNS)?;
        let takes = |is: fn(&Ingredient) -> bool| step.lines_taken().any(|at| part.lines.get(at).is_some_and(is));
        if step.temperature.is_some() || !cooks(step) || bakes(step) || !takes(|line| line.kind.is_sweet()) {
            return None;
        }
        let is_milky = |line: &Ingredient| {
            line.kind == Kind::Milk
                || line.kind == Kind::Dairy && line.name.has_word_beginning(beginnings!["cream", "milk"])
        };
        let most = if takes(is_milky) { MILK_BURNS } else { BLACK };
        let hot = temperatures(step.words.iter().chain(&step.cue)).find(|(_, (low, _))| low.celsius() >= most)?;
        let message = format!(
            "`{}` boils sugar to {}: it is black from {} °C on{}",
            step.name,
            show::said_plain(hot.0),
            most.decimal(0),
            if most == MILK_BURNS { ", with milk or cream in it" } else { "" }
        );
        Some(
            Diagnostic::advice(CHECK.name, hot.0.span, message)
                .help("look whether a digit has slipped, or the unit, C or F"),
        )
    })
}

/// Flour thickens from here on, °C: starch of wheat and rye swells at 55 to 65. Common practice, no source.
const SWELLS: Number = Number::whole(55);

/// Whether nothing says how warm a line goes in but that it is cold.
fn is_said_cold(line: &Ingredient) -> bool {
    let says = |said: &String| has_word_beginning(&said.to_lowercase(), ["cold", "iced", "chilled"]);
    line.temperature.is_none() && line.preparation.as_ref().is_some_and(says)
}

/// Water at 35 °C on the flour of a scald, and a roux that is heated to 45: neither thickens.
fn cold_scald(part: &Part) -> Option<Diagnostic> {
    let floury = |step: &Step| step.lines_taken().any(|at| part.lines.get(at).is_some_and(Ingredient::is_any_flour));
    part.lines.iter().find(|line| line.is_any_flour())?;
    if part.lines.iter().any(|line| line.kind.ferments()) {
        return None;
    }
    let scalds = |step: &Step| called(step, beginnings!["scald"]) && floury(step);
    let is_scald = || part.name.has_word_beginning(beginnings!["scald"]) || part.steps.iter().any(scalds);
    let cold = part.lines.iter().find(|line| {
        line.kind.is_poured() && (line.temperature.is_some_and(|at| at.celsius() < SWELLS) || is_said_cold(line))
    });
    let help = "look whether a digit has slipped: a scald takes water at 80 to 100 °C, and a roux of water or milk is done at 65 °C";
    if let Some(line) = cold.filter(|_| is_scald()) {
        let at = line.temperature.map(|at| show::temperature(at, show::Units::Metric).to_string());
        let at = at.map_or_else(|| "that is cold".to_owned(), |at| format!("at {at}"));
        let message = format!("{} {at} scalds no flour: it thickens from 60 °C on", line.name);
        return Some(Diagnostic::advice(CHECK.name, line.span, message).help(help));
    }
    // Milk and flour alone, on the hob.
    if !part.lines.iter().all(|line| line.is_any_flour() || line.kind.is_poured()) {
        return None;
    }
    part.steps.iter().filter(|step| floury(step) && uses(step, beginnings!["hob", "stove", "induction"])).find_map(
        |step| {
            let (said, (at, _)) = temperatures(step.words.iter().chain(&step.cue)).max_by_key(|(_, (low, _))| *low)?;
            let message =
                format!("`{}` heats flour to {}: it thickens from 60 °C on", step.name, show::said_plain(said));
            (at.celsius() < SWELLS).then(|| Diagnostic::advice(CHECK.name, said.span, message).help(help))
        },
    )
}
