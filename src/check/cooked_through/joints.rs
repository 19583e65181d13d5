//! Joints, legs and whole birds in an oven: ten minutes do not reach the middle of any.

use super::heat;
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::measure::show;
use crate::model::cooking::raw_flesh::is_raw;
use crate::model::cooking::{bakes, beginnings, first_draw, says};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe};
use crate::model::step::Target;
use crate::text::diagnostic::Diagnostic;

/// Pieces of half a finger and more, by the beginnings of words; what is sliced or cut small is asked nowhere here. Common practice, no source.
#[rustfmt::skip]
const JOINTS: &Beginnings = &Beginnings::of(&[
    "leg|", "legs|", "shoulder", "joint", "shank", "brisket", "belly", "roasting", "rack|", "saddle", "haunch", "gammon", "knuckle", "hock", "collar", "silverside",
    "topside", "forerib", "drumstick", "crown", "neck|",
]);
/// So long they lie in an oven of 160 °C and more, and in a milder one, at least.
const HOT: Duration = Duration::new(Number::whole(14 * 60));
const MILD: Duration = Duration::new(Number::whole(40 * 60));

pub(super) fn problem(recipe: &Recipe, (id, part): (PartId, &Part), check: &'static str) -> Option<Diagnostic> {
    let is_joint = |line: &Ingredient| {
        line.kind == Kind::Meat
            && line.stays_in()
            && is_raw(line)
            && line.name.has_word_beginning(JOINTS)
            && !super::is_small(line)
            && !line.name.has_word_beginning(beginnings!["diced", "cubed", "sausage", "steak", "chop", "strip"])
    };
    let (at, line) = part.lines.iter().enumerate().find(|(_, line)| is_joint(line))?;
    let is_cut = line.preparation.as_deref().is_some_and(|said| {
        let said = said.to_lowercase();
        ["cut", "dice", "cube", "chop", "bite", "piece", "strip"].iter().any(|word| said.contains(word))
    });
    let (hot, time) = heat(part, first_draw(part, Target::Line(at))?)?;
    let oven = hot.iter().find(|step| bakes(step))?;
    let at = oven.temperature.map(|(low, high)| high.unwrap_or(low).celsius())?;
    let least = if at >= Number::whole(160) { HOT } else { MILD };
    let pressed = hot.iter().any(|step| says(step, super::PRESSED));
    // What goes on in another part is cooked on there.
    let later = recipe.users(id).filter_map(|(user, _)| heat(recipe.part(user)?, 0)).map(|(_, time)| time).max();
    let all = later.map_or(Ok(time), |later| time.plus(later)).ok()?;
    if is_cut || pressed || all >= least {
        return None;
    }
    let message = format!(
        "{} in the oven do not cook {} through: common practice is {} at least",
        show::duration(time),
        line.name,
        show::duration(least)
    );
    Some(Diagnostic::advice(check, oven.time_span, message).also(line.name.span, "goes in raw").help(super::HELP))
}
