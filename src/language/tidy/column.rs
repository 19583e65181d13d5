//! The fixed columns: where amounts, conditions and comments begin.
//!
//! No column depends on another line, so that a change of one line never moves a second one.

use unicode_width::UnicodeWidthStr;

/// How many columns stand before an amount.
const AMOUNT: usize = 32;
/// How many columns stand before a condition, or before a comment behind a line without one.
const CONDITION: usize = 53;
/// The shortest run of dots that is a leader.
const SHORTEST_LEADER: usize = 2;

/// A name and its leader up to the amount. A name that is too long for the column keeps a leader of two dots.
pub(crate) fn leader(name: &str) -> String {
    let dots = AMOUNT.saturating_sub(name.width() + 2).max(SHORTEST_LEADER);
    format!("{name} {} ", ".".repeat(dots))
}

/// Appends what stands at the line's end: the condition, then the comment.
pub(super) fn append_tail(line: &mut String, condition: &str, comment: &str) {
    if !condition.is_empty() {
        push_at(line, CONDITION, 1, condition);
    }
    if !comment.is_empty() {
        push_at(line, CONDITION, 2, comment);
    }
}

/// Appends at a column, or `least` blanks behind a line that is too long for it.
fn push_at(line: &mut String, column: usize, least: usize, what: &str) {
    let blanks = column.saturating_sub(line.width()).max(least);
    line.extend(std::iter::repeat_n(' ', blanks));
    line.push_str(what);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn amounts_begin_in_one_column_unless_the_name_is_too_long() {
        assert_eq!(leader("salt"), "salt .......................... ");
        assert_eq!(leader("crème fraîche").chars().count(), AMOUNT);
        assert_eq!(leader(&"x".repeat(28)), format!("{} .. ", "x".repeat(28)));
        assert_eq!(leader(&"x".repeat(60)), format!("{} .. ", "x".repeat(60)));
    }

    #[test]
    fn a_tail_never_touches_the_line() {
        let mut line = "x".repeat(70);
        append_tail(&mut line, "[hand]", "# by two");
        assert_eq!(line, format!("{} [hand]  # by two", "x".repeat(70)));
    }
}
