//! The page around the cards: security policy, styles, the foot of every printed sheet, the script.

use crate::figures::card::Card;
use crate::out::lettering;
use crate::out::sheet::{Foot, Orientation, Sheet};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use maud::{Markup, PreEscaped, html};
use sha2::{Digest, Sha256};
use std::fmt::Write;

const CARD_CSS: &str = include_str!("card.css");
const PRINT_CSS: &str = include_str!("print.css");
const SCRIPT: &str = include_str!("card.js");

/// The name that a sheet's `page` property has.
fn page_name(at: usize) -> String {
    format!("sheet{at}")
}

/// A card as an article, its foot noted for the print style.
pub(super) fn article(card: &Card, foot: &Foot, feet: &mut Vec<Foot>, body: &Markup) -> Markup {
    sheet(foot, &foot_key(card), feet, body)
}

/// Anything as a sheet. `key` tells batches apart whose titles are the same: ticks of another batch are other ticks.
pub(super) fn sheet(foot: &Foot, key: &str, feet: &mut Vec<Foot>, body: &Markup) -> Markup {
    let page = page_name(feet.len());
    let key = STANDARD.encode(Sha256::digest(format!("{}\n{key}", foot.title)));
    let markup = html! {
        article class={ "card " (page) } data-key=(key.get(..16).unwrap_or(&key)) {
            (body)
            footer.foot {
                span { (foot.title) }
                @for fact in &foot.facts { span { (fact) } }
            }
        }
    };
    feet.push(foot.clone());
    markup
}

fn foot_key(card: &Card) -> String {
    let (numerator, denominator) = card.factor.parts();
    let choices: Vec<String> = card.choices.iter().map(|(choice, option)| format!("{choice}={option}")).collect();
    format!("{numerator}/{denominator}\n{}", choices.join("\n"))
}

/// The style sheets, each with the hash by which the security policy lets it in.
pub(super) struct Styles {
    sheets: Vec<String>,
}

impl Styles {
    pub(super) fn new(sheet: &Sheet, feet: &[Foot]) -> Styles {
        Styles {
            sheets: vec![
                lettering::FAMILY.to_owned() + CARD_CSS,
                PRINT_CSS.to_owned(),
                paper_style(sheet, feet),
                lettering::faces(),
            ],
        }
    }
}

/// The style for the chosen paper: its size, the size of type, and head and foot in the margins of every sheet.
fn paper_style(sheet: &Sheet, feet: &[Foot]) -> String {
    let (width, height) = sheet.paper.laid(sheet.orientation);
    let (above, beside, below) = sheet.paper.margins();
    let size = sheet.type_size();
    let mut css = format!("@page{{size:{width}mm {height}mm;margin:{above}mm {beside}mm {below}mm}}\n");
    let small = (size * 0.68).max(5.5);
    for (at, foot) in feet.iter().enumerate() {
        let name = page_name(at);
        let words = format!("{} · {}", foot.title, foot.facts.join(" · "));
        let boxes = lettering::margin_boxes(&words, small);
        let _ = writeln!(css, "@media print{{.{name}{{page:{name}}}}}\n@page {name}{{{boxes}}}");
    }
    let _ = writeln!(css, "@media print{{html{{font-size:{size}pt}}}}");
    if sheet.orientation == Orientation::Landscape {
        css.push_str(include_str!("landscape.css"));
    }
    css
}

/// The `head` element. The policy lets in exactly these styles and this script, and nothing from elsewhere.
pub(super) fn head(title: &str, styles: &Styles) -> Markup {
    let hash = |text: &str| format!("'sha256-{}'", STANDARD.encode(Sha256::digest(text)));
    let style_hashes: Vec<String> = styles.sheets.iter().map(|sheet| hash(sheet)).collect();
    let policy = format!(
        "default-src 'none'; style-src {}; script-src {}; font-src data:; base-uri 'none'; form-action 'none'",
        style_hashes.join(" "),
        hash(SCRIPT)
    );
    html! {
        head {
            meta charset="utf-8";
            meta http-equiv="Content-Security-Policy" content=(policy);
            meta name="viewport" content="width=device-width, initial-scale=1";
            meta name="color-scheme" content="light dark";
            meta name="referrer" content="no-referrer";
            meta name="generator" content=(concat!("miche ", env!("CARGO_PKG_VERSION")));
            title { (title) }
            @for sheet in &styles.sheets { style { (PreEscaped(sheet)) } }
        }
    }
}

/// The script, at the end so that the cards are there before it.
pub(super) fn script() -> Markup {
    html! { script { (PreEscaped(SCRIPT)) } }
}
