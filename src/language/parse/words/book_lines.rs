//! The key words of a book.

use super::{KeyLine, Place, line};
use crate::language::parse::Rule;
use crate::language::syntax::FileKind::Book;

/// All of them, in the order in which they are told.
pub(super) const LINES: &[KeyLine] = &[
    line(
        Rule::book_line,
        &[(Book, &["book"])],
        "this line",
        "`book From the harbour ovens`",
        &[(Place::Title, "book ", "a book of recipes for readers")],
    ),
    line(
        Rule::book_by_line,
        &[(Book, &["by"])],
        "`by`",
        "`by The Skerrow bakehouse`",
        &[(Place::Book, "by ", "whose book it is")],
    ),
    line(
        Rule::address_line,
        &[(Book, &["address"])],
        "`address`",
        "`address https://skerrow.example/bakes/`, without `?` and `#`",
        &[(Place::Book, "address https://", "where the book will stand")],
    ),
    line(
        Rule::chapter_line,
        &[(Book, &["chapter"])],
        "`chapter`",
        "`chapter Bread`",
        &[(Place::Book, "chapter ", "begins a chapter")],
    ),
    line(
        Rule::page_line,
        &[(Book, &["page"])],
        "`page`",
        "`page \"buns.miche\"`, with `, sizes 10 and 20` or `, choose OPTION` behind it",
        &[(Place::Book, "page \"", "a recipe")],
    ),
];
