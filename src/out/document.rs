//! The page around what a command prints as HTML: one file that stands by itself.

use crate::out::report::clean;
use maud::{DOCTYPE, Markup, PreEscaped, html};

/// A page with a title, a style of ours, whatever else stands in its head, and its body.
pub(super) fn document(title: &str, style: &'static str, head: &Markup, body: &Markup) -> String {
    frame(title, head, &html! { style { (PreEscaped(style)) } }, body) + "\n"
}

/// Any page of ours: a title, what else stands in the head before it, how the page looks, and its body.
pub(crate) fn frame(title: &str, head: &Markup, style: &Markup, body: &Markup) -> String {
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                (head)
                title { (clean(title)) }
                (style)
            }
            body { (body) }
        }
    };
    page.into_string()
}

/// For a head: nothing runs on the page and nothing is fetched.
pub(super) fn sealed() -> Markup {
    html! { meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'"; }
}
