//! What is denser or flatter than its weight tells: bread of rye, and bread that is rolled thin.

use crate::check::Subject;
use crate::check::dough::mille;
use crate::check::gluten_free_dough::is_gluten_free;
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass};
use crate::model::cooking::{bakes, beginnings};
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Part, PartId, Recipe};
use crate::model::step::{Step, StepKind};
use crate::solve::formula::leaves::{Counted, leaves};

/// A loaf of rye that weighs so much bakes for so long at least; common practice, no source: a kilogram takes 50 to 60 minutes.
const HEAVY: Mass = Mass::new(Number::whole(800));
const RYE_BAKES: Duration = Duration::new(Number::whole(35 * 60));

/// A loaf without gluten holds as much water as flour, and is paste inside for as long.
const WET: Mass = Mass::new(Number::whole(600));

/// How long a heavy loaf of half rye and more bakes at least, the flour of its sours counted, and one without gluten.
pub(super) fn dense_rye(subject: &Subject<'_>, id: PartId, piece: Mass) -> Option<Duration> {
    if piece >= WET && subject.recipe.part(id).is_some_and(is_gluten_free) {
        return Some(RYE_BAKES);
    }
    if piece < HEAVY {
        return None;
    }
    let all = leaves(subject.recipe, subject.formula, id, Counted::GoesIn).ok()?;
    let of = |rye: bool| {
        let lines = all
            .iter()
            .filter(|leaf| leaf.line.is_flour && (!rye || leaf.line.name.has_word_beginning(beginnings!["rye|"])));
        Mass::sum(lines.map(|leaf| leaf.mass)).ok()
    };
    let is_rye = of(true)?.as_share_of(of(false)?).is_ok_and(|share| share >= mille(500));
    is_rye.then_some(RYE_BAKES)
}

/// Breads that are rolled or stretched flat, by the beginnings of words; each is done in minutes where it is hot.
#[rustfmt::skip]
const FLAT_BREADS: &Beginnings = &Beginnings::of(&[
    "naan", "pita|", "pitas|", "pitta", "roti", "chapati", "lavash", "kulcha", "tortilla", "piadina", "markook", "saj|",
]);

/// Where it is so hot, °C, what lies on the floor or the wall of an oven is done in a minute or two, and where it is less hot, a flat bread in some
/// minutes more. Common practice, no source.
const ON_THE_WALL: (Number, Duration) = (Number::whole(350), Duration::new(Number::whole(6 * 60)));
const FLAT: (Number, Duration) = (Number::whole(240), Duration::new(Number::whole(12 * 60)));
/// What is only called flat may be as thick as a thumb.
const THICK: (Number, Duration) = (Number::whole(240), Duration::new(Number::whole(25 * 60)));
const CALLED_FLAT: &Beginnings = &Beginnings::of(&["flatbread", "flat bread"]);

/// The bake of a flat bread, or of a piece in a fierce oven, on a stone or in a tandoor, that takes many times as long as it is done in.
pub(super) fn on_its_wall<'p>(recipe: &Recipe, part: &'p Part, piece: Mass) -> Option<&'p Step> {
    let grams = |grams: i64| Mass::new(Number::whole(grams));
    if piece > grams(500) || piece < grams(2) {
        return None;
    }
    let is_long = |step: &&Step| {
        let heat = step.temperature.map(|(low, _)| low.celsius());
        let is = |(hot, long): (Number, Duration)| heat.is_some_and(|heat| heat >= hot) && step.time.0 >= long;
        let one_heat = step.kind != StepKind::Wait && step.later.is_empty() && bakes(step);
        one_heat
            && (is(ON_THE_WALL)
                || is(FLAT) && piece <= grams(200) && is_flat_bread(recipe, part, FLAT_BREADS)
                || is(THICK) && piece <= grams(200) && is_flat_bread(recipe, part, CALLED_FLAT))
    };
    part.steps.iter().filter(|step| step.name.has_word_beginning(beginnings!["bak"])).find(is_long)
}

/// Whether a part or its recipe is called after such a bread, and not after what is crisp.
fn is_flat_bread(recipe: &Recipe, part: &Part, called: &Beginnings) -> bool {
    let names = [&part.name, &recipe.name];
    names.iter().any(|name| name.has_word_beginning(called))
        && !names
            .iter()
            .any(|name| name.has_word_beginning(beginnings!["crisp", "chip", "cracker", "filled", "stuffed"]))
}
