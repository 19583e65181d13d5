//! What remains of what there was, when as much as possible was made of it.

use crate::language::evaluate::evaluate;
use crate::language::parse::parse;
use crate::language::syntax::{Amount, Content, Key, Name};
use crate::make::have::{There, bought};
use crate::measure::number::Overflow;
use crate::measure::quantity::{Mass, Volume};
use crate::measure::show;
use crate::measure::shown::Shown;
use crate::measure::unit::Measures;
use crate::measure::value::{Told, Value};
use crate::model::larder::is_called;
use crate::model::recipe::{Recipe, Refers};
use crate::solve::formula::Formula;
use crate::text::diagnostic::Severity;
use crate::text::line_break;
use crate::text::source::SourceId;
use std::collections::BTreeMap;

/// One ingredient of the stock, after what was made of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UsedStock {
    /// What.
    pub name: String,
    /// How much there was, as it was bought.
    pub had: Mass,
    /// How much of that the batch takes, in all its parts, with what is peeled off.
    pub used: Mass,
    /// How much is left.
    pub left: Mass,
}

/// What remains of each ingredient of `stock`; `formula` is the batch's.
///
/// # Errors
/// When a sum leaves the range of exact numbers.
pub fn used_of(recipe: &Recipe, formula: &Formula, stock: &[(Name, Mass)]) -> Result<Vec<UsedStock>, Overflow> {
    let mut all = Vec::with_capacity(stock.len());
    for (name, had) in stock {
        let used = used(recipe, formula, &name.key)?;
        all.push(UsedStock { name: name.to_string(), had: *had, used, left: had.minus(used)? });
    }
    Ok(all)
}

/// What there is by two tellers: what the one above says goes before what the one below says of the same thing.
pub fn over(below: &[There], above: &[There]) -> Vec<There> {
    let is_said = |name: &Name| above.iter().any(|(other, _)| is_called(&name.key, &other.key));
    below.iter().filter(|(name, _)| !is_said(name)).chain(above).cloned().collect()
}

fn used(recipe: &Recipe, formula: &Formula, key: &Key) -> Result<Mass, Overflow> {
    let mut used = Mass::ZERO;
    for (id, part) in recipe.parts() {
        let Some(solved) = formula.part(id).filter(|solved| solved.is_made) else { continue };
        for (line, amount) in part.lines.iter().zip(solved.bought(part)?.unwrap_or_default()) {
            if matches!(line.refers, Refers::Pantry(_)) && recipe.larder.is_called(&line.name.key, key) {
                used = used.plus(bought(line, amount.unwrap_or(Mass::ZERO))?)?;
            }
        }
    }
    Ok(used)
}

/// What is said of a line that is of no kind.
const NO_LINE: &str = "fits nothing that a";

/// Reads a list of what there is: lines like `strong white flour .... 2 kg` or `egg .... 30`, comments and blank lines.
///
/// # Errors
/// For each line that cannot be read a sentence that names it, in their order.
pub fn read(text: &str) -> Result<Vec<There>, Vec<String>> {
    const HEAD: &str = "recipe what there is\n";
    let text = format!("{HEAD}{}", text.trim_start_matches('\u{feff}'));
    let (tree, diagnostics) = parse(SourceId(u32::MAX), &text);
    let mut wrong: BTreeMap<usize, String> = BTreeMap::new();
    for problem in diagnostics.iter().filter(|problem| problem.severity == Severity::Error) {
        let at = usize::try_from(problem.span.start).unwrap_or(usize::MAX);
        // The line of the head is not the baker's.
        wrong.entry(line_break::count_before(&text, at)).or_insert_with(|| problem.message.clone());
    }
    let mut all: Vec<There> = Vec::new();
    for (number, line) in tree.lines.iter().enumerate().skip(1) {
        // It is no recipe that such a line does not fit.
        if line.content == Content::Stray && wrong.get(&number).is_none_or(|why| why.contains(NO_LINE)) {
            wrong.remove(&number);
        }
        let mut unread = |why: String| {
            let said = format!("{why}; write what there is as `strong white flour .... 2 kg`");
            wrong.entry(number).or_insert(said);
        };
        let line = match &line.content {
            Content::Blank | Content::Comment => continue,
            Content::Ingredient(line) => line,
            _ => {
                unread("this is no ingredient with its weight".to_owned());
                continue;
            }
        };
        let said: Option<Told> = match &line.amount {
            Amount::Chain(chain) => {
                chain.first().and_then(|quantity| evaluate(quantity, None, &mut Vec::new())).map(Told::from)
            }
            _ => None,
        };
        match said.filter(|said| is_amount(said.value)) {
            Some(value) => all.push((line.name.clone(), value)),
            None => {
                let whose = match &line.amount {
                    Amount::Chain(chain) => chain.first().and_then(|quantity| {
                        by_country(
                            |whose| evaluate(quantity, Some(whose), &mut Vec::new()).map(|said| said.value),
                            |volume| format!("`{} .... {volume}`", line.name),
                        )
                    }),
                    _ => None,
                };
                match whose {
                    Some(whose) => unread(format!("so much {} is not the same everywhere: write {whose}", line.name)),
                    None => unread(format!("of {} no amount is said", line.name)),
                }
            }
        }
    }
    if wrong.is_empty() {
        return Ok(all);
    }
    Err(wrong.into_iter().map(|(number, why)| format!("line {number}: {why}")).collect())
}

/// What spoons, cups and pints hold, by each country that has such a measure, as it would be written; `None` where nobody has one.
pub fn by_country(amount: impl Fn(Measures) -> Option<Value>, written: impl Fn(&Shown) -> String) -> Option<String> {
    let countries = [Measures::Us, Measures::Metric, Measures::Imperial];
    let by_country = countries.into_iter().filter_map(|whose| match amount(whose)? {
        Value::Volume(volume) if volume > Volume::ZERO => {
            Some(format!("{} ({})", written(&show::volume(volume)), whose.word()))
        }
        _ => None,
    });
    let known: Vec<String> = by_country.collect();
    (!known.is_empty()).then(|| known.join(" or "))
}

/// Whether there can be so much of an ingredient: something, by weight, by volume or by number.
pub fn is_amount(value: Value) -> bool {
    matches!(value, Value::Mass(_) | Value::Volume(_) | Value::Count(_)) && value.number().is_positive()
}
