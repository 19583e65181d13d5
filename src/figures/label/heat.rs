//! What heat does to something that is sold before it is sold, and what it leaves raw.

use super::items::{Item, leaves};
use crate::language::syntax::Key;
use crate::measure::number::Number;
use crate::measure::quantity::Proportion;
use crate::model::cooking::later::is_about_others;
use crate::model::cooking::may_cook::{is_of_empty_vessels, may_cook, may_warm};
use crate::model::cooking::raw_flesh::is_raw_flesh;
use crate::model::cooking::state::is_so;
use crate::model::cooking::state_words::State;
use crate::model::cooking::{
    BOILS, bakes, beginnings, called, chills, does, first_draw, first_draws, has_word_beginning, is_divided_when_done,
    loses_water,
};
use crate::model::kind::Kind;
use crate::model::recipe::{HeadMakes, Ingredient, Part, PartId, Recipe, Refers};
use crate::model::step::{Step, Take, Target, Words};
use crate::text::quick::QuickMap;

/// What is lost between what is mixed and what is sold, as far as anybody says it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Loss {
    /// In the oven.
    Baked(Proportion),
    /// In making it: what a part says behind what it makes.
    Making(Proportion),
    /// It is baked, and nobody says what the oven takes.
    OvenNotSaid,
    /// It is cooked, or may be, and nobody says what that takes.
    CookingNotSaid,
    /// In parts that say what comes out of them; nothing heats it after that.
    InParts,
    /// Nothing bakes or cooks it.
    Unheated,
}

/// Grain that has been steamed or is a trimming of milling, and is eaten as it comes: muesli. Common practice, no source.
const EATEN_DRY: &[&str] = &["bran", "flake", "germ", "muesli", "oat", "popped", "puffed", "sprout"];

/// What is so dry that a mix of it alone waits for water. Common practice, no source.
const DRY: Proportion = Proportion::new(Number::constant(1, 5));

/// The loss of what a part makes.
pub(super) fn loss(recipe: &Recipe, id: PartId, list: &[Item], bake_loss: Option<Proportion>, is_dough: bool) -> Loss {
    if let Some(loss) = bake_loss {
        return Loss::Baked(loss);
    }
    let all = within(recipe, id);
    // What is drawn from another recipe, of whose oven that recipe says the loss, is weighed as it comes out of it.
    let says_there = |id: PartId| {
        let part = recipe.part(id).filter(|part| part.foreign.is_some() && part.steps.iter().any(bakes));
        part.is_some() && recipe.origin(id).is_some_and(|(origin, _)| origin.bake_loss.is_some())
    };
    let within: Vec<&Part> =
        recipe.within(id).into_iter().filter(|id| !says_there(*id)).filter_map(|id| recipe.part(id)).collect();
    let is_said = all.iter().any(|part| !part.steps.is_empty());
    let may_be_cooked = !is_said && is_wet(list);
    let is_baked = |part: &Part| {
        part.steps.iter().any(|step| (bakes(step) || called(step, beginnings!["bak"])) && !is_of_empty_vessels(step))
    };
    // What is bagged after the oven says behind `divide` what the oven takes.
    let says_oven = |part: &Part| part.divide.is_some_and(|divide| divide.loss.is_some()) && is_divided_when_done(part);
    let divides = |part: &Part| part.divide.is_some() && is_baked(part) && !says_oven(part);
    let is_baked_dough = is_dough && (may_be_cooked || within.iter().any(|part| is_baked(part)));
    if is_baked_dough || recipe.part(id).is_some_and(divides) {
        return Loss::OvenNotSaid;
    }
    let is_heated = |part: &&&Part| part.steps.iter().any(may_warm);
    let is_cooked = may_be_cooked || within.iter().filter(is_heated).any(|part| !says_what_comes_out(part));
    match making_loss(recipe, id) {
        // What a dough loses when it is divided stays on the bench: what the fat of a fryer takes is another thing.
        Some(_) if is_dough && is_cooked => Loss::CookingNotSaid,
        Some(loss) => Loss::Making(loss),
        None if is_cooked => Loss::CookingNotSaid,
        None if all.iter().any(|part| part.steps.iter().any(may_warm)) => Loss::InParts,
        None => Loss::Unheated,
    }
}

/// From so long on a pot loses so much that a weight without it is wrong. Common practice, no source.
const LONG: Number = Number::whole(15);

/// Parts that are boiled for long before they go into what is baked, and do not say what that takes of them: the oven's loss is not theirs.
pub(super) fn boiled_away(recipe: &Recipe, id: PartId, loss: Loss) -> Vec<String> {
    if !matches!(loss, Loss::Baked(_)) {
        return Vec::new();
    }
    let is_long = |step: &Step| step.time.1.in_minutes().is_ok_and(|minutes| minutes >= LONG);
    let boils = |step: &Step| does(step, BOILS) && may_cook(step) && is_long(step);
    let inner = within(recipe, id).into_iter().skip(1).filter(|part| {
        let says = part.makes.is_some() || part.divide.is_some();
        !says && part.steps.iter().any(boils)
    });
    inner.map(|part| part.name.to_string()).collect()
}

/// Whether a part that is cooked says how much of it is left: a brine that boils down before it is poured over cold.
fn says_what_comes_out(part: &Part) -> bool {
    part.makes.is_some_and(|makes| makes.loss.is_some())
        || (part.divide.as_ref().is_some_and(|divide| divide.loss.is_some()) && loses_water(part))
}

/// What is raw in what is sold: meat, fish, egg, flour, dry grain and pulses that no step cooks, where the larder does not say that they are
/// ready to eat. What one part cooks makes nothing done that another one adds. Of a list of ingredients without steps nobody can tell,
/// unless it is dry or something beside it is cooked.
pub(super) fn to_cook(recipe: &Recipe, id: PartId, list: &[Item]) -> Vec<String> {
    let within = within(recipe, id);
    let is_said = within.iter().any(|part| !part.steps.is_empty());
    if !is_said && is_wet(list) {
        return Vec::new();
    }
    let is_any_cooked = within.iter().any(|part| part.steps.iter().any(may_cook));
    let mut left = Vec::new();
    left_raw(recipe, id, (Done::Raw, !is_any_cooked), &mut Vec::new(), &mut left);
    let raw = leaves(list).into_iter().filter(|item| !item.strained_out && is_raw(item));
    raw.filter(|item| left.contains(&item.entry())).map(|item| item.name.clone()).collect()
}

/// How something is when it is sold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Done {
    Cooked,
    Raw,
    /// A part has no steps of its own, and nobody says what is done in it.
    NotSaid,
}

/// Puts to `left` the larder's names of what a part holds that no step cooks, in it or in those that take it up: `above` is what they
/// do with it, and whether what nobody says counts as raw.
fn left_raw(recipe: &Recipe, id: PartId, above: (Done, bool), seen: &mut Vec<(PartId, Done)>, left: &mut Vec<Key>) {
    let (later, counts_as_raw) = above;
    // Parts may lie in parts by the thousand, each by many ways; and of a ring, which was reported, no end is found.
    let Some(part) = recipe.part(id).filter(|_| !seen.contains(&(id, later))) else { return };
    seen.push((id, later));
    // Asked once of each step, and not of each step for each line: there may be thousands of both.
    let cooking: Vec<(usize, &Step)> = part.steps.iter().enumerate().filter(|(_, step)| may_cook(step)).collect();
    let last_shares = last_shares(part);
    for (at, line) in part.lines.iter().enumerate().filter(|(_, line)| !line.strained_out) {
        let target = Target::Line(at);
        // The step with which all of it has gone in.
        let all_in = || last_shares.get(&target).copied().or_else(|| first_draw(part, target)).unwrap_or(0);
        let is_cooked = || {
            let from = all_in();
            let mut later = cooking.iter().filter(|(at, _)| *at >= from);
            later.any(|(_, step)| !is_about_others(part, step, target))
        };
        let here = match later {
            Done::Cooked => Done::Cooked,
            _ if part.steps.is_empty() => Done::NotSaid,
            _ if is_cooked() => Done::Cooked,
            later => later,
        };
        match &line.refers {
            // A preferment's lines stand in the total formula too.
            Refers::Part(inner) if recipe.part(*inner).is_some_and(|inner| inner.from == Some(id)) => {}
            Refers::Part(inner) => left_raw(recipe, *inner, (here, counts_as_raw), seen, left),
            Refers::Pantry(_) if is_done(line) => {}
            Refers::Pantry(facts) if here == Done::Raw || (here == Done::NotSaid && counts_as_raw) => {
                left.push(Item::of_line(line, None, facts.clone()).entry());
            }
            Refers::Pantry(_) => {}
        }
    }
}

/// Whether a line says that it was cooked before it goes in: `chicken breast .... 400 g, cooked`.
fn is_done(line: &Ingredient) -> bool {
    is_so(line, State::Cooked)
}

/// For what is taken by shares the last step that takes some of it; what is taken at once goes in with the first that draws on it. `Carve {chicken}`
/// after roasting takes no chicken that was not there before, `Dust with {rest of flour}` does.
fn last_shares(part: &Part) -> QuickMap<Target, usize> {
    let shares = part.steps.iter().enumerate().flat_map(|(at, step)| step.words.iter().map(move |word| (at, word)));
    let shares = shares.filter_map(|(at, word)| match word {
        Words::Use { target: Some(target), take, .. } if *take != Take::All => Some((*target, at)),
        _ => None,
    });
    shares.collect()
}

fn is_raw(item: &Item) -> bool {
    let facts = item.facts.as_ref();
    let flags = facts.map(|facts| facts.flags).unwrap_or_default();
    let is_dry =
        || facts.is_some_and(|facts| facts.contents.water.map_or(facts.kind.is_some_and(is_dry), |water| water < DRY));
    let name = item.name.to_lowercase();
    let by_kind = match item.kind() {
        Kind::Flour => true,
        Kind::Grain => !has_word_beginning(&name, EATEN_DRY) && (facts.is_none() || is_dry()),
        Kind::Pulse => is_dry(),
        kind => is_raw_flesh(&name, None, kind, facts.map(|facts| &**facts)),
    };
    // Sweets are dusted with starch everywhere. Common practice, no source.
    let dusts = item.aside && item.kind() == Kind::Starch;
    !flags.ready_to_eat && !dusts && (by_kind || flags.raw_flour || flags.raw_egg)
}

/// Whether something has to be kept cold: it says so, its last step stands in the cold, or what goes into it and is not cooked then does.
pub(super) fn is_kept_cold(recipe: &Recipe, id: PartId) -> bool {
    stands_cold(recipe, id, &mut Vec::new())
}

/// The same of a part, where those that were looked at do not.
fn stands_cold(recipe: &Recipe, id: PartId, seen: &mut Vec<PartId>) -> bool {
    let Some(part) = recipe.part(id).filter(|_| !seen.contains(&id)) else { return false };
    seen.push(id);
    if let Some(keeps) = &part.keeps {
        return keeps.how.is_cold();
    }
    if part.steps.last().is_some_and(chills) {
        return true;
    }
    let drawn = first_draws(part);
    part.lines.iter().enumerate().any(|(at, line)| {
        let Refers::Part(inner) = line.refers else { return false };
        let from = drawn.get(&Target::Line(at)).copied().unwrap_or(0);
        let is_left = !part.steps.is_empty() && !part.steps.iter().skip(from).any(may_cook);
        is_left && !line.aside && !line.strained_out && stands_cold(recipe, inner, seen)
    })
}

/// Whether anything in it is wet or fat, so that it may be a dough or a dish and not a dry mix.
pub(super) fn is_wet(list: &[Item]) -> bool {
    leaves(list).into_iter().filter(|item| !item.aside).any(|item| match &item.facts {
        Some(facts) => {
            let kind = facts.kind.unwrap_or_default();
            kind == Kind::Fat || facts.contents.water.map_or(!is_dry(kind), |water| water >= DRY)
        }
        None => true,
    })
}

/// Kinds that are dry where no figure says otherwise.
fn is_dry(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Flour
            | Kind::Starch
            | Kind::Grain
            | Kind::Salt
            | Kind::Yeast(_)
            | Kind::BakingPowder
            | Kind::Soda
            | Kind::RaisingAgent
            | Kind::Sugar
            | Kind::Nut
            | Kind::Seed
            | Kind::Pulse
            | Kind::Spice
            | Kind::Thickener
    )
}

/// A part and what is in it, each once.
fn within(recipe: &Recipe, id: PartId) -> Vec<&Part> {
    recipe.within(id).into_iter().filter_map(|id| recipe.part(id)).collect()
}

/// What is lost in making it: what the part says, or the one part that it is filled with, such as jam into jars, or the head. What is
/// ladled out of a kettle is lost in the kettle.
fn making_loss(recipe: &Recipe, id: PartId) -> Option<Proportion> {
    let part = recipe.part(id)?;
    let inner = match &*part.lines {
        [Ingredient { refers: Refers::Part(inner), .. }] => recipe.part(*inner),
        _ => None,
    };
    let of_part = |part: &Part| part.makes.and_then(|makes| makes.loss).or_else(|| part.divide.as_ref()?.loss);
    let of_head = || match recipe.makes.as_ref()? {
        HeadMakes::Mass(makes) => makes.loss,
        HeadMakes::Pieces { .. } => None,
    };
    [Some(part), inner].into_iter().flatten().find_map(of_part).or_else(of_head)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::language::parse::parse;
    use crate::model::cooking::cooks;
    use crate::model::cooking::heat_words::{Also, Says, TABLE};
    use crate::model::cooking::may_cook::{Takes, takes_of_the_weight};
    use crate::model::project::{File, Project};
    use crate::solve::resolve;
    use crate::text::source::SourceId;
    use std::sync::Arc;

    /// What a check finds of a step (it cooks), what a label does (it cooks; it warms or dries, or cooks), and what it takes of the weight.
    fn told(step: &str) -> ((bool, bool, bool), Takes) {
        let text = format!("recipe Thing\nmakes 1 kg\nwhole milk .... 1 kg\n{step}");
        let (tree, diagnostics) = parse(SourceId(0), &text);
        assert!(diagnostics.is_empty(), "{diagnostics:?}");
        let mut project = Project::default();
        project.add(File { tree: Arc::new(tree), diagnostics });
        let recipe = resolve::recipe(&project, SourceId(0), &Default::default(), &mut Vec::new()).expect("a recipe");
        let part = recipe.own_parts().next().expect("a part").1;
        let step = part.steps.first().expect("a step");
        ((cooks(step), may_cook(step), may_warm(step)), takes_of_the_weight(step))
    }

    /// Checks, labels and weights read one table: what surely cooks does for all, what may cook only for a label, and nothing that warms
    /// cooks; what a label takes for cooked also takes of the weight, and nothing is hot in which a dough proves.
    #[test]
    fn every_word_of_heat_is_heard_by_checks_and_labels() {
        const COOKED: (bool, bool, bool) = (true, true, true);
        const MAY_BE_COOKED: (bool, bool, bool) = (false, true, true);
        const WARMED: (bool, bool, bool) = (false, false, true);
        const LEFT_AS_IT_IS: (bool, bool, bool) = (false, false, false);
        let mut heard = 0;
        for row in TABLE {
            for word in row.words {
                let says = row.says;
                let called = format!("{word}: hands 5 min\n    Turn once.\n");
                let sentence = format!("finish: hands 5 min\n    Turn once. {word} it.\n");
                let within = format!("finish: hands 5 min\n    Turn in the {word} sauce.\n");
                let using = format!("finish: hands 5 min, using {word}\n    Turn once.\n");
                let proves = format!("prove: wait 30 min, using {word}\n    Turn once.\n");
                let mixes = format!("mix: hands 5 min, using {word}\n    Turn once.\n");
                let at_rest = format!("{word}: wait 5 min\n    Turn once.\n");
                let wanted = match says {
                    Says::Cooks => {
                        // `in the fried sauce` fries nothing, it was fried before; and `the cook` is who cooks.
                        let is_none = word.ends_with("ed") || *word == "cook";
                        let within = (within, if is_none { LEFT_AS_IT_IS } else { COOKED });
                        vec![(called, COOKED), (sentence, COOKED), within, (at_rest, LEFT_AS_IT_IS)]
                    }
                    Says::CooksAsVerb => {
                        vec![(called, COOKED), (sentence, COOKED), (within, LEFT_AS_IT_IS), (at_rest, LEFT_AS_IT_IS)]
                    }
                    Says::MayCook => vec![
                        (called, MAY_BE_COOKED),
                        (sentence, MAY_BE_COOKED),
                        (within, LEFT_AS_IT_IS),
                        (at_rest, LEFT_AS_IT_IS),
                    ],
                    Says::Hot => vec![
                        (using.replace("hands", "wait"), COOKED),
                        (using, COOKED),
                        (proves, LEFT_AS_IT_IS),
                        (mixes, LEFT_AS_IT_IS),
                    ],
                    Says::MayBeHot => vec![
                        (using.replace("hands", "wait"), MAY_BE_COOKED),
                        (using, MAY_BE_COOKED),
                        (proves, LEFT_AS_IT_IS),
                        (mixes, LEFT_AS_IT_IS),
                    ],
                    Says::Warms => vec![(called, WARMED), (sentence, WARMED), (within, LEFT_AS_IT_IS)],
                    Says::MayStandOnFire => vec![(using, WARMED), (proves, LEFT_AS_IT_IS), (mixes, LEFT_AS_IT_IS)],
                    Says::Dries => vec![(called, WARMED), (using, WARMED), (within, LEFT_AS_IT_IS)],
                    Says::Beside => vec![(called, LEFT_AS_IT_IS), (sentence, LEFT_AS_IT_IS)],
                    Says::Phrase => Vec::new(),
                };
                for (step, wanted) in wanted {
                    let (told, takes) = told(&step);
                    assert_eq!(told, wanted, "{says:?}: {step}");
                    let is_called = step.starts_with(word);
                    let takes_little = is_called && row.also.contains(&Also::TakesLittle);
                    assert_eq!(takes == Takes::Nothing, !told.1 || takes_little, "{says:?} {takes:?}: {step}");
                    if row.also.contains(&Also::TakesOfWeight) && told.1 && (is_called || step.contains(", using")) {
                        assert_eq!(takes, Takes::AsBaking, "{says:?}: {step}");
                    }
                    heard += 1;
                }
            }
        }
        assert!(heard > 150, "only {heard}");
    }
}
