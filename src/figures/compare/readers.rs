//! What two versions say for readers: who wrote it, where it is filed, pictures, stand-ins. None of it touches the formula.

use super::figures::Figure;
use crate::measure::show;
use crate::model::published::Picture;
use crate::model::recipe::{Ingredient, Part, Recipe};

/// What the head says for readers that changed.
pub(super) fn of_whole(old: &Recipe, new: &Recipe) -> impl Iterator<Item = Figure> {
    let by = |recipe: &Recipe| recipe.published.by.clone().unwrap_or_default();
    let filed = |recipe: &Recipe| {
        recipe.published.filed_under.iter().map(ToString::to_string).collect::<Vec<String>>().join(", ")
    };
    let shown = |recipe: &Recipe| pictures(recipe.published.pictures.iter());
    [
        Figure::words("by", by(old), by(new)),
        Figure::words("filed under", filed(old), filed(new)),
        Figure::words("pictures", shown(old), shown(new)),
    ]
    .into_iter()
    .flatten()
}

/// The pictures of a part and of its steps, where they changed.
pub(super) fn of_part(old: Option<&Part>, new: Option<&Part>) -> Option<Figure> {
    let shown = |part: Option<&Part>| {
        let of_steps =
            |part: &Part| pictures(part.pictures.iter().chain(part.steps.iter().flat_map(|step| &step.pictures)));
        part.map(of_steps).unwrap_or_default()
    };
    Figure::words("pictures", shown(old), shown(new))
}

fn pictures<'p>(all: impl Iterator<Item = &'p Picture>) -> String {
    all.map(|picture| format!("{} ({})", picture.path, picture.words)).collect::<Vec<String>>().join("; ")
}

/// What may stand in for an ingredient, as it is written.
pub(super) fn stand_ins(line: &Ingredient) -> String {
    let one = |stand_in: &crate::model::published::StandIn| {
        let amount = stand_in.amount.first().map(show::said_plain).unwrap_or_default();
        let words = stand_in.words.as_ref().map_or_else(String::new, |words| format!(", {words}"));
        format!("{} {amount}{words}", stand_in.name)
    };
    line.stand_ins.iter().map(one).collect::<Vec<String>>().join("; ")
}
