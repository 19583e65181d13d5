//! A swap in the text: the lines that stand in the place of one, and the braces that take what came.

use super::{Came, Swap};
use crate::language::evaluate::evaluate;
use crate::language::syntax::{Content, IngredientLine, Key, Line, Name, Piece, Share, Tree};
use crate::measure::number::{self, Number};
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::measure::value::Value;
use crate::model::recipe::{Ingredient, Part, Selection};
use crate::text::diagnostic::Edit;
use crate::text::source::Span;

/// Puts the new lines in the place of the old one, each with its condition; the comment stays on the first.
pub(super) fn replace_line(text: &str, node: &Line, written: &IngredientLine, rows: &[String], edits: &mut Vec<Edit>) {
    let slice = |start: u32, end: u32| text.get(start as usize..end as usize).unwrap_or("");
    let indent = slice(node.span.start, written.name.span.start);
    let end = written.clauses.iter().map(|clause| clause.span.end).max().unwrap_or(written.amount.span().end);
    let behind = slice(end, node.comment.map_or(node.span.end, |comment| comment.start));
    let condition = behind.trim();
    // It stays in its column, where the new line leaves room for that.
    let before = slice(node.span.start, end).chars().count() + behind.chars().take_while(|c| *c == ' ').count();
    let comment = node.comment.map_or("", |comment| slice(comment.start, comment.end));
    let line = |row: &String| match condition {
        "" => format!("{indent}{row}"),
        condition => {
            let width = indent.chars().count() + row.chars().count();
            let room = before.checked_sub(width).filter(|room| *room > 0).unwrap_or(4);
            format!("{indent}{row}{}{condition}", " ".repeat(room))
        }
    };
    let mut lines: Vec<String> = rows.iter().map(line).collect();
    match lines.first_mut() {
        Some(first) if !comment.is_empty() => first.push_str(&format!("  {comment}")),
        None if !comment.is_empty() => lines.push(comment.to_owned()),
        _ => {}
    }
    // A line that nothing takes the place of goes with its line break; the breaks of the file are kept.
    let after = text.get(node.span.end as usize..).unwrap_or("");
    let line_break = match after {
        after if after.starts_with("\r\n") => "\r\n",
        after if after.starts_with('\r') => "\r",
        _ => "\n",
    };
    let gone = if lines.is_empty() && !after.is_empty() { u32::try_from(line_break.len()).unwrap_or(0) } else { 0 };
    edits.push(Edit { span: Span { end: node.span.end + gone, ..node.span }, text: lines.join(line_break) });
}

/// Lets the steps of the part take what came in place of what went out. Steps of options that are not taken stay: what they
/// take is another line.
pub(super) fn rename_uses(
    (tree, text): (&Tree, &str),
    (selection, part): (&Selection, &Part),
    old: &Ingredient,
    out: Mass,
    came: &[Came],
    swap: &mut Swap,
) {
    let uses = uses(tree, selection, part, &swap.recipe);
    // What `rest of` takes: of something that was there already it would take what is taken elsewhere, too.
    let fixed = uses.iter().filter(|(share, name)| name.same(&old.name) && **share != Share::Rest);
    let fixed: Option<Vec<Number>> = fixed.map(|(share, _)| part_of(share, out)).collect();
    let rest = fixed.and_then(|fixed| Number::ONE.minus(number::sum(fixed).ok()?).ok());
    for (share, name) in uses {
        let Some(brace) = brace(text, name) else { continue };
        if name.same(&old.name) {
            // `{half of butter}` is said of what comes in its place as it was said of it.
            let said = text.get(brace.start as usize..name.span.start as usize).unwrap_or("{");
            let words: Vec<String> = came.iter().map(|one| taken((share, said), one, (out, rest))).collect();
            swap.edits.push(Edit { span: brace, text: show::list(&words) });
            continue;
        }
        let Some(before) = came.iter().find(|one| Key::new(&one.name) == name.key).and_then(|one| one.before) else {
            continue;
        };
        // There is more of it now: a share of it is as much as it was, and all of it is what the others leave.
        let as_before = match share {
            Share::All => Some(format!("{{rest of {}}}", name.text)),
            Share::Fraction(_) | Share::Quantity(_) => part_of_share(share)
                .and_then(|part| before.times(part).ok())
                .map(|mass| format!("{{{} g of {}}}", mass.value().decimal(1), name.text)),
            Share::Rest => None,
        };
        swap.edits.extend(as_before.map(|text| Edit { span: brace, text }));
    }
}

/// The braces in the steps of a part that are done under a selection.
fn uses<'t>(tree: &'t Tree, selection: &Selection, part: &Part, recipe: &str) -> Vec<(&'t Share, &'t Name)> {
    let mut here = part.name.key == Key::new(recipe);
    let mut is_done = true;
    let mut found = Vec::new();
    for line in &tree.lines {
        match &line.content {
            Content::Part { name, .. } => here = name.same(&part.name),
            Content::Step(_) => is_done = selection.holds(&line.only),
            Content::Prose(pieces) | Content::Until(pieces) if here && is_done && selection.holds(&line.only) => {
                found.extend(pieces.iter().filter_map(|piece| match piece {
                    Piece::Use(share, name) => Some((share, name)),
                    _ => None,
                }));
            }
            _ => {}
        }
    }
    found
}

/// Which part braces take that say a share.
fn part_of_share(share: &Share) -> Option<Number> {
    match share {
        Share::Fraction(part) => Some(*part),
        Share::Quantity(quantity) => evaluate(quantity, None, &mut Vec::new()).and_then(|said| match said.value {
            Value::Proportion(part) => Some(part.value()),
            _ => None,
        }),
        Share::All | Share::Rest => None,
    }
}

/// Which part of what went out braces take; none for the rest of it, and where it cannot be compared.
fn part_of(share: &Share, out: Mass) -> Option<Number> {
    match share {
        Share::All => Some(Number::ONE),
        Share::Fraction(part) => Some(*part),
        Share::Rest => None,
        Share::Quantity(quantity) => evaluate(quantity, None, &mut Vec::new()).and_then(|said| match said.value {
            Value::Mass(mass) => mass.ratio(out).ok(),
            Value::Proportion(part) => Some(part.value()),
            _ => None,
        }),
    }
}

/// The braces that take what came: of something that was there already, so much as came.
fn taken((share, said): (&Share, &str), came: &Came, (out, rest): (Mass, Option<Number>)) -> String {
    let name = &came.name;
    let part = match share {
        Share::Rest => rest.filter(|_| came.before.is_some()),
        share => part_of(share, out),
    };
    let of = |number: Number, unit: &str, places: u32| format!("{{{} {unit} of {name}}}", number.decimal(places));
    match part {
        None => format!("{{rest of {name}}}"),
        Some(part) if came.before.is_some() => {
            came.mass.times(part).map_or_else(|_| format!("{{{name}}}"), |mass| of(mass.value(), "g", 1))
        }
        Some(part) if part == Number::ONE => format!("{{{name}}}"),
        Some(_) if matches!(share, Share::Fraction(_)) => format!("{said}{name}}}"),
        Some(part) => {
            part.times(Number::whole(100)).map_or_else(|_| format!("{{{name}}}"), |percent| of(percent, "%", 4))
        }
    }
}

/// The braces around a name.
fn brace(text: &str, name: &Name) -> Option<Span> {
    let start = text.get(..name.span.start as usize)?.rfind('{')?;
    let end = text.get(name.span.end as usize..)?.find('}')? + name.span.end as usize + 1;
    Some(Span { start: u32::try_from(start).ok()?, end: u32::try_from(end).ok()?, ..name.span })
}
