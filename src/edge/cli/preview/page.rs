//! The page's own files, and small pages that are made.

use crate::out::page::frame;
use crate::out::report::clean;
use maud::{Markup, html};

/// A file that never changes.
pub(super) struct Asset {
    /// Its media type.
    pub(super) kind: &'static str,
    /// What it holds.
    pub(super) bytes: &'static [u8],
}

/// The file at an address.
pub(super) fn asset(path: &str) -> Option<Asset> {
    let (kind, bytes): (_, &'static [u8]) = match path {
        "/" => ("text/html; charset=utf-8", include_bytes!("preview.html")),
        "/preview.css" => ("text/css; charset=utf-8", include_bytes!("preview.css")),
        "/preview.js" => ("text/javascript; charset=utf-8", include_bytes!("preview.js")),
        "/text.css" => ("text/css; charset=utf-8", include_bytes!("text.css")),
        "/type.woff2" => ("font/woff2", include_bytes!("../../../out/html/fonts/latin.woff2")),
        _ => return None,
    };
    Some(Asset { kind, bytes })
}

/// A document with the style of texts.
pub(super) fn document(title: &str, body: &Markup) -> String {
    let head = html! { meta name="color-scheme" content="light dark"; };
    frame(title, &head, &html! { link rel="stylesheet" href="/text.css"; }, body)
}

/// A few words in place of what cannot be shown.
pub(super) fn message(title: &str, text: &str) -> String {
    document(title, &html! { div.message { h1 { (clean(title)) } @for line in text.lines() { p { (clean(line)) } } } })
}
