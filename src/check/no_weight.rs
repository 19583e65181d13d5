//! `no-weight`: a volume or a count where a weight is needed and the larder knows none.

use super::percent_without_base::is_percentage;
use super::{Check, Family, Run, Subject};
use crate::measure::show;
use crate::measure::value::{Said, Value};
use crate::model::counted::is_a_few_leaves;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, LineAmount, Part, PartId, Recipe, Refers};
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "no-weight",
    severity: Severity::Error,
    family: Family::Formula,
    looks_for: "a volume or a number of pieces where a weight is needed, of an ingredient whose density or piece weight \
                is not known",
    why: "Percentages, yields and the balance between parts are sums of weights. A cup or an egg becomes a weight through \
          the larder. If the larder does not know it, give the weight on the line, or add the figure with its source to a \
          larder file of your own.",
    bad: "recipe Loaf\nflour .... 500 g\nwater .... 60 %\ngooseberry cordial .... 20 ml\n",
    good: "recipe Loaf\nflour .... 500 g\nwater .... 60 %\ngooseberry cordial .... 25 g\nmix: hands 10 min\n    \
           Mix {flour}, {water} and {gooseberry cordial}.\n    until smooth\n",
    sources: &[
        "USDA National Nutrient Database for Standard Reference, Release 28: household weights of the built-in larder",
    ],
    run: Run::Recipe(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (id, part, solved) in subject.written_parts() {
        let Some(need) = need(subject.recipe, id, part) else { continue };
        // Where the size follows from what is divided, even a pod is needed: without it no line has an amount.
        let is_found = part.from.is_some() || solved.base.is_some() || !part.lines.iter().any(is_percentage);
        // Where all of it goes into another part, nobody knows how much that is.
        let is_found = is_found && !(solved.makes.is_none() && is_taken_whole(subject.recipe, id));
        let mut leaves = Vec::new();
        let before = diagnostics.len();
        for (line, amount) in part.lines.iter().zip(&solved.lines) {
            let LineAmount::Said(said) = &line.amount else { continue };
            let Some(first) = said.first().filter(|_| amount.mass.is_none() && line.stays_in()) else { continue };
            // Pieces of a part that is not divided are `pieces-mismatch`.
            if is_percentage(line) || !matches!(line.refers, Refers::Pantry(_)) {
                continue;
            }
            let told = if is_a_few_leaves(line) { &mut leaves } else { &mut *diagnostics };
            told.push(problem(line, first, &need));
        }
        // Beside what really weighs a leaf is not what is lacking.
        if !is_found && diagnostics.len() == before {
            diagnostics.append(&mut leaves);
        }
    }
}

/// Why the weights of a part are needed; `None` when they are not.
fn need(recipe: &Recipe, id: PartId, part: &Part) -> Option<String> {
    if part.lines.iter().any(is_percentage) {
        return Some("the other lines are percentages".to_owned());
    }
    if part.divide.is_some() {
        return Some("the part is divided into pieces of a weight".to_owned());
    }
    if part.makes.is_some() {
        return Some("the part says what weight it makes".to_owned());
    }
    let (user, _) = recipe.users(id).next()?;
    Some(format!("`{}` draws on the part", recipe.part(user)?.name))
}

fn is_taken_whole(recipe: &Recipe, id: PartId) -> bool {
    recipe.users(id).any(|(user, at)| {
        let line = recipe.part(user).and_then(|part| part.lines.get(at));
        line.is_some_and(|line| line.amount == LineAmount::All)
    })
}

fn problem(line: &Ingredient, said: &Said, need: &str) -> Diagnostic {
    let amount = show::said_plain(said);
    let (missing, fact) = match said.value {
        // A nutmeg weighs 5 g.
        Value::Count(_) if line.kind == Kind::Spice => ("what one weighs", "one weighs 5 g"),
        Value::Count(_) => ("what one weighs", "one weighs 50 g"),
        _ => ("its density", "weighs 245 g per cup US"),
    };
    let name = &line.name;
    let grams = if line.kind == Kind::Spice { "5 g" } else { "100 g" };
    Diagnostic::error(
        CHECK.name,
        line.amount_span,
        format!("the weight of {amount} {name} is needed, because {need}, but {missing} is not known"),
    )
    .label("no weight known")
    .help(format!(
        "give a weight here, `{name} .... {grams}`, or write in a larder file `ingredient {name}` and below it `{fact}` with its source"
    ))
}
