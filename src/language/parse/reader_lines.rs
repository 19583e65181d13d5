//! Pairs to nodes: what is said for the readers of a recipe.

use super::Rule;
use super::numbers::{AMOUNT_KINDS, chain_of};
use super::pairs::Pair;
use super::reader::{Reader, string};
use crate::language::syntax::{Content, PictureLine, StandInClause};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{Span, Spanned};

/// The form of a picture line.
const PICTURE: &str = "picture \"FILE\", WHAT IS SEEN ON IT";

/// Builds a picture, an author or what a recipe is filed under.
pub(super) fn build<'t>(
    reader: &mut Reader<'_>,
    rule: Rule,
    said: Span,
    mut pairs: impl Iterator<Item = Pair<'t>>,
) -> Option<Content> {
    match rule {
        Rule::picture_line => picture(reader, said, pairs).map(Content::Picture),
        Rule::author_line => Some(Content::By(pairs.next()?.as_str().trim().to_owned())),
        _ => Some(Content::FiledUnder(pairs.map(|pair| reader.name(&pair)).collect())),
    }
}

/// A picture; one without words is reported and stands all the same.
pub(super) fn picture<'t>(
    reader: &mut Reader<'_>,
    said: Span,
    mut pairs: impl Iterator<Item = Pair<'t>>,
) -> Option<PictureLine> {
    let path = string(reader, pairs.next()?);
    let words = pairs.next().map(|pair| Spanned::new(pair.as_str().trim().to_owned(), reader.span(&pair)));
    let words = words.filter(|words| words.value.chars().any(char::is_alphanumeric));
    if words.is_none() {
        let message = "nothing says what is seen on this picture";
        let problem = Diagnostic::error("no-description", said, message);
        reader.report(problem.help(format!("whoever does not see it is told in words: write `{PICTURE}`")));
    }
    Some(PictureLine { path, words })
}

/// Whether a line that stands deeper than another is a picture.
pub(super) fn is_picture(text: &str) -> bool {
    let Some(after) = text.get(..7).filter(|word| word.eq_ignore_ascii_case("picture")).and(text.get(7..)) else {
        return false;
    };
    let rest = after.trim_start();
    rest.len() < after.len() && rest.strip_prefix('"').is_some_and(|rest| rest.contains('"'))
}

/// What may stand in for an ingredient; `None` when a figure in it was reported.
pub(super) fn stand_in(reader: &mut Reader<'_>, pair: Pair<'_>) -> Option<StandInClause> {
    let mut inner = pair.into_inner();
    let name = reader.name(&inner.next()?);
    let amount = chain_of(reader, inner.next()?, AMOUNT_KINDS)?;
    let words = inner.next().map(|pair| pair.as_str().split_whitespace().collect::<Vec<&str>>().join(" "));
    Some(StandInClause { name, amount, words: words.filter(|words| !words.is_empty()) })
}

/// Reports `instead: margarine`, without an amount, and `instead margarine 100 g`, without the colon.
pub(super) fn no_stand_in(reader: &mut Reader<'_>, pair: &Pair<'_>) {
    let span = reader.span(pair);
    let after = pair.as_str().get(7..).unwrap_or("").trim_start();
    let message = if after.starts_with(':') {
        "what stands in wants a name and an amount that is read"
    } else {
        "what stands in wants a colon behind `instead`"
    };
    let help = "write `instead: NAME AMOUNT`, with words behind a comma: `instead: margarine 100 g, less rich`; how an \
                ingredient is prepared does not begin with `instead`";
    reader.report(Diagnostic::error("stray-line", span, message).help(help));
}
