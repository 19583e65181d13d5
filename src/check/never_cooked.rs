//! What nobody can eat raw and no step heats: dried pulses, rice, pasta, hulled grain, potatoes. What `raw-flour-or-egg` looks for beside flour and egg.

use super::Subject;
use crate::measure::number::Number;
use crate::model::cooking::state::is_so;
use crate::model::cooking::state_words::State;
use crate::model::cooking::{Later, beginnings, first_draws, says};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{HeadMakes, Ingredient, Part, Recipe};
use crate::model::step::Target;
use crate::text::diagnostic::Diagnostic;

/// Hulled grain and pasta, by the beginnings of words of a name. Common practice, no source.
#[rustfmt::skip]
const GRAINS: &Beginnings = beginnings![
    "rice|", "pasta", "spaghetti", "macaroni", "penne", "tagliatelle", "lasagne", "orzo", "pearl barley", "barley", "quinoa", "polenta", "wheat berr", "rye berr",
    "spelt", "farro", "millet", "buckwheat", "noodle", "semolina", "grits",
];
/// What of them is eaten as it is, or was made so that water alone is enough.
#[rustfmt::skip]
const READY: &Beginnings = beginnings![
    "oat", "couscous", "bulgur", "flake", "puffed", "popped", "muesli", "granola", "rice noodle", "glass noodle", "rice paper", "rice cake", "krisp", "crisp",
    "bran", "cooked", "tinned", "canned", "jarred", "instant", "ready", "roasted", "toasted", "sprout", "boiled", "steamed", "parched", "fried", "leftover",
    "drained", "paste|", "flour", "milk", "protein", "tofu", "tempeh", "miso", "hummus", "green", "fresh", "frozen", "edamame", "peanut", "snap", "mangetout",
    "vinegar", "wine", "syrup", "malt", "starch", "koji", "tea|",
];
/// Names of what is sold to be cooked, or is no dish yet.
#[rustfmt::skip]
const NOT_YET: &Beginnings = beginnings![
    "dough", "mix", "pasta", "noodle", "gnocchi", "ravioli", "dumpling", "batter", "raw|", "dry|", "dried", "soaker", "soak", "sprout", "starter", "koji", "feed",
];

/// Hotter than this something is poured on it that swells it.
const HOT: Number = Number::whole(80);

/// The first such line of each part.
pub(super) fn problems(
    subject: &Subject<'_>,
    later: &mut Later<'_>,
    is_sold_to_be_cooked: bool,
    check: &'static str,
) -> Vec<Diagnostic> {
    let recipe = subject.recipe;
    let mut found = Vec::new();
    // Of nearly all recipes this tells already.
    let may_be =
        |line: &Ingredient| matches!(line.kind, Kind::Pulse | Kind::Grain | Kind::Vegetable) && line.stays_in();
    if !subject.own_parts().any(|(_, part, _)| part.lines.iter().any(may_be))
        || is_sold_to_be_cooked
        || !is_eaten(recipe)
    {
        return found;
    }
    for (id, part, _) in subject.own_parts() {
        let draws = first_draws(part);
        let raw = part.lines.iter().enumerate().find(|(at, line)| {
            let first = draws.get(&Target::Line(*at)).copied();
            may_be(line)
                && is_raw(line)
                && first.is_some_and(|first| later.is_line_cooked(id, first, *at) == Some(false))
                && !is_scalded(part)
        });
        let Some((_, line)) = raw else { continue };
        let message = format!("`{}` goes in raw, and nothing cooks it: nobody can eat it so", line.name);
        found.push(Diagnostic::advice(check, line.name.span, message).help(
            "write the step that cooks it; what is cooked or tinned when it goes in says so, `cooked`, and what is sold to be cooked has `directions`",
        ));
    }
    found
}

/// Whether what is made is eaten, and neither a dough nor a mix that somebody cooks at home.
fn is_eaten(recipe: &Recipe) -> bool {
    let noun = match &recipe.makes {
        Some(HeadMakes::Pieces { noun, .. }) => Some(noun),
        // A dip by weight is eaten as well where it is sold with the date of what is soon unsafe.
        _ if recipe.sale.good_for.as_ref().is_some_and(|good| good.use_by.is_some()) => None,
        _ => return false,
    };
    let last = recipe.final_part().and_then(|id| recipe.part(id));
    let names = [Some(&recipe.name), noun, last.map(|part| &part.name)];
    !names.into_iter().flatten().any(|name| name.has_word_beginning(NOT_YET))
}

fn is_raw(line: &Ingredient) -> bool {
    let said = line.preparation.as_deref().map(str::to_lowercase);
    let is_ready = line.name.has_word_beginning(READY) || said.is_some_and(|said| READY.begin_in(&said));
    if is_ready || is_so(line, State::Cooked) || line.facts().is_some_and(|facts| facts.flags.ready_to_eat) {
        return false;
    }
    match line.kind {
        Kind::Pulse => line.name.has_word_beginning(beginnings![
            "lentil",
            "bean",
            "pea|",
            "peas|",
            "chickpea",
            "split pea",
            "mung",
            "adzuki",
            "dal|",
            "dhal"
        ]),
        Kind::Grain => line.name.has_word_beginning(GRAINS),
        Kind::Vegetable => {
            line.name.has_word_beginning(beginnings!["potato", "aubergine", "eggplant", "cassava", "taro", "yam|"])
                && !line.name.has_word_beginning(beginnings!["sweet", "potato starch"])
        }
        _ => false,
    }
}

/// Whether something boiling is poured over what is in a part.
fn is_scalded(part: &Part) -> bool {
    part.lines.iter().any(|line| line.temperature.is_some_and(|at| at.celsius() >= HOT))
        || part.steps.iter().any(|step| {
            says(
                step,
                beginnings!["boiling water", "boiling stock", "hot water", "hot stock", "from the kettle", "sprout"],
            )
        })
}
