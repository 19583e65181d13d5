//! Sugar that is boiled to fewer degrees than it boils at, and what is filled hot hours after it boiled.

use super::CHECK;
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::measure::show;
use crate::model::cooking::cold_words::COOLED;
use crate::model::cooking::{bakes, beginnings, cooks, may_say, says};
use crate::model::recipe::{Part, Recipe};
use crate::model::step::{Step, Timing, Words, temperatures};
use crate::text::diagnostic::Diagnostic;

/// Syrup boils above water, which boils at 97 °C a thousand metres up. Common practice, no source.
const BOILS: Number = Number::whole(97);
/// Cooler than this it is another heat that is named.
const COOL: Number = Number::whole(40);

/// `boil hard to {94.5 C}`.
pub(super) fn sugar(part: &Part) -> Option<Diagnostic> {
    part.lines.iter().find(|line| line.kind.is_sweet() && line.stays_in())?;
    part.steps.iter().filter(|step| may_say(step, beginnings!["boil"]) && cooks(step) && !bakes(step)).find_map(
        |step| {
            step.words.windows(2).find_map(|two| {
                let [Words::Text(text), measure] = two else { return None };
                let (said, (at, _)) = measure.temperature()?;
                let lower = text.to_lowercase();
                let clause = lower.rsplit(['.', ';', ':']).next().unwrap_or_default().trim_end();
                let boils_to = crate::model::cooking::has_word_beginning(clause, ["boil"])
                    && ["to", "until", "past", "reaches"].iter().any(|word| clause.ends_with(word))
                    && !clause.contains("to the boil")
                    && !clause.contains("to a boil")
                    && !COOLED.begin_in(clause);
                (boils_to && (COOL..BOILS).contains(&at.celsius())).then(|| {
                    let message = format!(
                        "`{}` boils sugar to {}, and what has sugar in it boils above 100 °C",
                        step.name,
                        show::said_plain(said)
                    );
                    Diagnostic::advice(CHECK.name, said.span, message)
                        .help("look whether a digit has slipped, or the unit, C or F: a jam is done at 103 to 106 °C")
                })
            })
        },
    )
}

/// So long after it boiled nothing is hot that nobody keeps hot.
const COLD_BY_THEN: Duration = Duration::new(Number::whole(2 * 3600));
/// From here on what goes into a jar is filled hot.
const HOT: Number = Number::whole(60);

/// `fill: hands 30 s, each, within 24 h after boil`, above {85 C}.
pub(super) fn filled_late(recipe: &Recipe, part: &Part) -> Option<Diagnostic> {
    part.steps.iter().find_map(|step| {
        let late = step.order.iter().find_map(|order| match order {
            Timing::Within(time, other) if *time >= COLD_BY_THEN => Some((*time, *other)),
            _ => None,
        });
        let (time, other) = late?;
        let before: &Step = recipe.part(other.part)?.steps.get(other.step)?;
        let fills = says(step, beginnings!["fill", "pot|", "bottle", "jar"]) && !cooks(step);
        let hot = temperatures(step.words.iter().chain(&step.cue)).find(|(_, (low, _))| low.celsius() >= HOT);
        let (said, _) =
            hot.filter(|_| fills && cooks(before) && !says(step, beginnings!["reheat", "heat", "warm up"]))?;
        let message = format!(
            "`{}` fills at {} up to {} after `{}`: it is cold by then",
            step.name,
            show::said_plain(said),
            show::duration(time),
            before.name
        );
        Some(
            Diagnostic::advice(CHECK.name, said.span, message)
                .help("what is filled hot is filled within minutes: `within 10 min after boil`"),
        )
    })
}
