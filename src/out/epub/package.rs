//! The package document: what the book is, what lies in it, in which order it is read.

use super::xhtml::allowed;
use super::{COVER, Item};
use crate::figures::book::Book;
use crate::out::report::clean;
use maud::html;
use sha2::{Digest, Sha256};

/// Writes the package document.
pub(super) fn render(book: &Book, items: &[Item], date: &str) -> String {
    let is_shown = |item: &Item| item.media_type.starts_with("image/") && item.properties != Some(COVER);
    let has_pictures = items.iter().any(is_shown);
    let modified = format!("{date}T00:00:00Z");
    let meta = |property: &str, words: &str| html! { meta property=(property) { (words) } };
    let metadata = html! {
        dc:identifier id="book-id" { (identifier(book)) }
        dc:title { (clean(&book.title)) }
        dc:language { "en" }
        @if let Some(by) = &book.by { dc:creator { (clean(by)) } }
        @if let Some(address) = &book.address { dc:source { (clean(address)) } }
        dc:date { (date) }
        (meta("dcterms:modified", &modified))
        (meta("schema:accessMode", "textual"))
        @if has_pictures { (meta("schema:accessMode", "visual")) }
        (meta("schema:accessModeSufficient", "textual"))
        (meta("schema:accessibilityFeature", "displayTransformability"))
        (meta("schema:accessibilityFeature", "readingOrder"))
        (meta("schema:accessibilityFeature", "structuralNavigation"))
        (meta("schema:accessibilityFeature", "tableOfContents"))
        @if has_pictures { (meta("schema:accessibilityFeature", "alternativeText")) }
        (meta("schema:accessibilityHazard", "none"))
        (meta("schema:accessibilitySummary",
            "Text that flows as wide as it is read, with headings, lists and contents; every picture is described."))
    };
    let package = html! {
        package xmlns="http://www.idpf.org/2007/opf" version="3.0" unique-identifier="book-id" xml:lang="en" {
            metadata xmlns:dc="http://purl.org/dc/elements/1.1/" { (metadata) }
            manifest {
                @for item in items {
                    item id=(item.id) href=(item.path) media-type=(item.media_type) properties=[item.properties] {}
                }
            }
            spine { @for item in items.iter().filter(|item| item.is_read) { itemref idref=(item.id) {} } }
        }
    };
    format!("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n{}\n", allowed(&package.into_string()))
}

/// The same for every issue of a book: a name made of its title, its author and its address (RFC 9562, version 8).
fn identifier(book: &Book) -> String {
    let mut hash = Sha256::new();
    let (by, address) = (book.by.as_deref().unwrap_or(""), book.address.as_deref().unwrap_or(""));
    for part in [book.title.as_str(), by, address] {
        hash.update(part.as_bytes());
        hash.update([0]);
    }
    let mut digits: Vec<char> =
        hash.finalize().iter().flat_map(|byte| format!("{byte:02x}").chars().collect::<Vec<char>>()).take(32).collect();
    if let Some(version) = digits.get_mut(12) {
        *version = '8';
    }
    if let Some(variant) = digits.get_mut(16) {
        *variant = 'a';
    }
    let part = |from: usize, to: usize| digits.iter().skip(from).take(to - from).collect::<String>();
    format!("urn:uuid:{}-{}-{}-{}-{}", part(0, 8), part(8, 12), part(12, 16), part(16, 20), part(20, 32))
}
