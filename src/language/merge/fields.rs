//! One ingredient line of which both sides changed another field: the amount, what stands behind it, or the comment.
//!
//! A name, a condition, and a clause that says what the amount means (`aside`, `yield`, `counts as flour`) are no fields
//! of their own: with another one of these the other side's amount would say something that nobody wrote.

use super::lines::Text;
use crate::language::syntax::{Amount, Content, IngredientClause};
use crate::text::source::Spanned;

/// The fields of a line as they stand, one after the other; together they are the line.
struct Fields<'t> {
    /// Name and leader.
    name: &'t str,
    amount: &'t str,
    /// With the commas before them.
    clauses: &'t str,
    /// Between the clauses and the comment: the condition.
    condition: &'t str,
    /// With the blanks before it and the line break.
    comment: &'t str,
    /// The clauses that say what the amount means.
    meaning: Vec<&'t str>,
}

/// The line that has the changes of both sides; `None` where they may hang together.
pub(super) fn merged(
    (base_text, base): (&Text<'_>, usize),
    (our_text, ours): (&Text<'_>, usize),
    (their_text, theirs): (&Text<'_>, usize),
) -> Option<String> {
    let (base, ours, theirs) = (fields(base_text, base)?, fields(our_text, ours)?, fields(their_text, theirs)?);
    let same = |one: &str, other: &str| one.split_whitespace().eq(other.split_whitespace());
    let name_stays = same_name(base.name, ours.name) && same_name(base.name, theirs.name);
    let condition_stays = same(base.condition, ours.condition) && same(base.condition, theirs.condition);
    let meaning_stays = base.meaning == ours.meaning && base.meaning == theirs.meaning;
    if !name_stays || !condition_stays || !meaning_stays {
        return None;
    }
    let one_of = |before: &str, ours: &str, theirs: &str| -> Option<String> {
        if same(before, theirs) || same(ours, theirs) {
            Some(ours.to_owned())
        } else if same(before, ours) {
            Some(theirs.to_owned())
        } else {
            None
        }
    };
    let amount = one_of(base.amount, ours.amount, theirs.amount)?;
    let clauses = one_of(base.clauses, ours.clauses, theirs.clauses)?;
    let comment = one_of(base.comment, ours.comment, theirs.comment)?;
    Some(format!("{}{amount}{clauses}{}{comment}", ours.name, ours.condition))
}

/// Whether two names with their leaders are the same, however long the leader.
fn same_name(one: &str, other: &str) -> bool {
    let name =
        |text: &str| text.trim().trim_end_matches(['.', '…']).split_whitespace().collect::<Vec<&str>>().join(" ");
    name(one) == name(other)
}

fn fields<'t>(text: &Text<'t>, at: usize) -> Option<Fields<'t>> {
    let raw = text.lines.get(at)?.raw;
    let node = text.node(at)?;
    let Content::Ingredient(ingredient) = &node.content else { return None };
    if matches!(ingredient.amount, Amount::Broken(_)) {
        return None;
    }
    let amount = ingredient.amount.span();
    let from_start = |place: u32| (place as usize).checked_sub(node.span.start as usize);
    let (amount_start, amount_end) = (from_start(amount.start)?, from_start(amount.end)?);
    let clauses_end = match ingredient.clauses.iter().map(|clause| clause.span.end).max() {
        Some(end) => from_start(end)?,
        None => amount_end,
    };
    let comment_start = match node.comment {
        Some(comment) => from_start(comment.start)?,
        None => raw.trim_end_matches(['\n', '\r']).len(),
    };
    let said =
        |clause: &Spanned<IngredientClause>| raw.get(from_start(clause.span.start)?..from_start(clause.span.end)?);
    // The blanks before a comment come and go with it.
    let comment_start = raw.get(..comment_start)?.trim_end().len().max(clauses_end);
    Some(Fields {
        name: raw.get(..amount_start)?,
        amount: raw.get(amount_start..amount_end)?,
        clauses: raw.get(amount_end..clauses_end)?,
        condition: raw.get(clauses_end..comment_start)?,
        comment: raw.get(comment_start..)?,
        meaning: ingredient.clauses.iter().filter(|clause| says_more(&clause.value)).map_while(said).collect(),
    })
}

fn says_more(clause: &IngredientClause) -> bool {
    !matches!(clause, IngredientClause::At(_) | IngredientClause::Preparation(_) | IngredientClause::Instead(_))
}
