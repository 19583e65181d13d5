//! Meat beside milk in what is called kosher: each by itself is, and not both in one dish.

use super::CHECK;
use crate::check::claims::{Claim, Rules};
use crate::model::animals::is_of_animal;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Recipe};
use crate::text::diagnostic::Diagnostic;

pub(super) fn problem(recipe: &Recipe, claims: &[Claim]) -> Option<Diagnostic> {
    let claim = claims.iter().find(|claim| matches!(claim.rules, Rules::NotKosher | Rules::NotForPassover))?;
    let own = || recipe.parts().filter(|(_, part)| part.foreign.is_none()).flat_map(|(_, part)| &part.lines);
    let is_of_milk = |line: &&Ingredient| {
        line.facts().is_some_and(|facts| facts.allergens.iter().any(|allergen| Rules::MeatAndMilk.out(allergen)))
    };
    // Beef by that name alone no larder knows.
    let is_meat = |line: &&Ingredient| {
        line.kind == Kind::Meat
            || line.kind == Kind::Other && line.part().is_none() && is_of_animal(line.name.key.as_str())
    };
    let meat = own().find(is_meat)?;
    let milk = own().find(is_of_milk)?;
    let message = format!("`{}` and `{}` are in one dish, but the recipe says `{}`", meat.name, milk.name, claim.said);
    Some(
        Diagnostic::warning(CHECK.name, milk.name.span, message)
            .also(meat.name.span, "meat")
            .also(claim.span, "said here")
            .help("use something else, or take the claim back"),
    )
}
