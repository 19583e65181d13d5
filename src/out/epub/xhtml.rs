//! Markup as XML: what HTML leaves open is closed, and what XML forbids stands as the sign for what is not known.

use crate::out::typeset;
use maud::{Markup, PreEscaped, html};

/// Elements that hold nothing and that HTML does not close.
const EMPTY: [&str; 14] =
    ["area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "param", "source", "track", "wbr"];

/// A document; `up` leads from its folder to the one of the style.
pub(super) fn document(title: &str, up: &str, kind: &str, body: &Markup) -> String {
    let page = html! {
        (PreEscaped("<!DOCTYPE html>\n"))
        html xmlns="http://www.w3.org/1999/xhtml" xmlns:epub="http://www.idpf.org/2007/ops" lang="en" xml:lang="en" {
            head {
                title { (title) }
                link rel="stylesheet" type="text/css" href={ (up) "book.css" };
            }
            body epub:type=(kind) { (body) }
        }
    };
    let page = typeset::markup(&page.into_string());
    format!("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n{}\n", closed(&page))
}

/// Markup in which every element is closed. It has `>` in no attribute: what is written there is escaped.
pub(super) fn closed(markup: &str) -> String {
    let mut out = String::with_capacity(markup.len() + markup.len() / 32);
    let mut rest = markup;
    while let Some((text, tagged)) = rest.split_once('<') {
        out.push_str(text);
        let (tag, after) = tagged.split_once('>').unwrap_or((tagged, ""));
        let name = tag.split([' ', '/', '\n']).next().unwrap_or("");
        out.push('<');
        if EMPTY.contains(&name) && !tag.ends_with('/') {
            out.push_str(tag.trim_end());
            out.push_str(" /");
        } else {
            out.push_str(tag);
        }
        out.push('>');
        rest = after;
    }
    out.push_str(rest);
    allowed(&out)
}

/// A text with no sign that XML 1.0 forbids.
pub(super) fn allowed(text: &str) -> String {
    let is_forbidden =
        |c: char| matches!(c, '\0'..='\u{8}' | '\u{B}' | '\u{C}' | '\u{E}'..='\u{1F}' | '\u{FFFE}' | '\u{FFFF}');
    text.chars().map(|c| if is_forbidden(c) { '\u{FFFD}' } else { c }).collect()
}

#[cfg(test)]
mod tests {
    use super::{allowed, closed};

    #[test]
    fn what_html_leaves_open_is_closed() {
        assert_eq!(
            closed("<p>a<br>b</p><hr /><img src=\"a\" alt=\"x &lt; y\">"),
            "<p>a<br />b</p><hr /><img src=\"a\" alt=\"x &lt; y\" />"
        );
        assert_eq!(closed("no tag"), "no tag");
    }

    #[test]
    fn what_xml_forbids_is_replaced() {
        assert_eq!(allowed("a\u{FFFF}b\u{1}c\n"), "a\u{FFFD}b\u{FFFD}c\n");
    }
}
