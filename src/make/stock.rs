//! What remains of what there was, when as much as possible was made of it.

use crate::language::evaluate::evaluate;
use crate::language::parse::parse;
use crate::language::syntax::{Amount, Content, Key, Name};
use crate::measure::number::Overflow;
use crate::measure::quantity::Mass;
use crate::model::larder::is_called;
use crate::model::recipe::{Recipe, Refers};
use crate::solve::formula::Formula;
use crate::text::diagnostic::Severity;
use crate::text::line_break;
use crate::text::source::SourceId;

/// One ingredient of the stock.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Remains {
    /// What.
    pub name: String,
    /// How much there was.
    pub had: Mass,
    /// How much the batch takes, in all its parts.
    pub used: Mass,
    /// How much is left.
    pub left: Mass,
}

/// What remains of each ingredient of `stock`; `formula` is the batch's.
///
/// # Errors
/// When a sum leaves the range of exact numbers.
pub fn remains(recipe: &Recipe, formula: &Formula, stock: &[(Name, Mass)]) -> Result<Vec<Remains>, Overflow> {
    let mut all = Vec::with_capacity(stock.len());
    for (name, had) in stock {
        let used = used(recipe, formula, &name.key)?;
        all.push(Remains { name: name.to_string(), had: *had, used, left: had.minus(used)? });
    }
    Ok(all)
}

fn used(recipe: &Recipe, formula: &Formula, key: &Key) -> Result<Mass, Overflow> {
    let mut used = Mass::ZERO;
    // A preferment's ingredients are those of its total formula.
    for (id, part) in recipe.parts().filter(|(_, part)| part.from.is_none()) {
        let Some(solved) = formula.part(id).filter(|solved| solved.is_made) else { continue };
        for (line, amount) in part.lines.iter().zip(&solved.lines) {
            if matches!(line.refers, Refers::Pantry(_)) && recipe.larder.is_called(&line.name.key, key) {
                used = used.plus(amount.mass.unwrap_or(Mass::ZERO))?;
            }
        }
    }
    Ok(used)
}

/// Reads a list of what there is: lines like `strong white flour .... 2 kg`, comments and blank lines. What stands twice is
/// added up.
///
/// # Errors
/// A sentence that names the line.
pub fn read(text: &str) -> Result<Vec<(Name, Mass)>, String> {
    const HEAD: &str = "recipe what there is\n";
    let text = format!("{HEAD}{}", text.trim_start_matches('\u{feff}'));
    let (tree, diagnostics) = parse(SourceId(u32::MAX), &text);
    // The line of the head is not the baker's.
    if let Some(problem) = diagnostics.iter().find(|problem| problem.severity == Severity::Error) {
        let at = usize::try_from(problem.span.start).unwrap_or(usize::MAX);
        let number = line_break::count_before(&text, at);
        return Err(format!("line {number}: {}", problem.message));
    }
    let mut all: Vec<(Name, Mass)> = Vec::new();
    for (number, line) in tree.lines.iter().enumerate().skip(1) {
        let unread = |why: &str| format!("line {number}: {why}; write what there is as `strong white flour .... 2 kg`");
        let line = match &line.content {
            Content::Blank | Content::Comment => continue,
            Content::Ingredient(line) => line,
            _ => return Err(unread("this is no ingredient with its weight")),
        };
        let said = match &line.amount {
            Amount::Chain(chain) => chain.first().and_then(|quantity| evaluate(quantity, None, &mut Vec::new())),
            _ => None,
        };
        let mass = said.and_then(|said| said.mass()).filter(|mass| *mass > Mass::ZERO);
        let mass = mass.ok_or_else(|| unread(&format!("of {} no weight is said", line.name)))?;
        match all.iter_mut().find(|(name, _)| is_called(&name.key, &line.name.key)) {
            Some((_, known)) => {
                *known = known.plus(mass).map_err(|_| unread("the sum leaves the range of exact numbers"))?;
            }
            None => all.push((line.name.clone(), mass)),
        }
    }
    Ok(all)
}
