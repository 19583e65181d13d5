//! The page around the cards: security policy, styles, the foot of every printed sheet, the script.

use crate::figures::card::Card;
use crate::out::sheet::{Foot, Orientation, Sheet};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use maud::{Markup, PreEscaped, html};
use sha2::{Digest, Sha256};
use std::fmt::Write;

const CARD_CSS: &str = include_str!("card.css");
const PRINT_CSS: &str = include_str!("print.css");
const SCRIPT: &str = include_str!("card.js");

/// Atkinson Hyperlegible Next, drawn so that no two figures or letters are taken for each other; SIL Open Font License,
/// whose text lies beside the files.
const LATIN: &[u8] = include_bytes!("fonts/latin.woff2");
const LATIN_EXTENDED: &[u8] = include_bytes!("fonts/latin-ext.woff2");
const LATIN_RANGE: &str = "U+0000-00FF,U+0131,U+0152-0153,U+02BB-02BC,U+02C6,U+02DA,U+02DC,U+0304,U+0308,U+0329,U+2000-206F,U+20AC,U+2122,U+2191,U+2193,U+2212,U+2215,U+FEFF,U+FFFD";
const LATIN_EXTENDED_RANGE: &str = "U+0100-02BA,U+02BD-02C5,U+02C7-02CC,U+02CE-02D7,U+02DD-02FF,U+0304,U+0308,U+0329,U+1D00-1DBF,U+1E00-1E9F,U+1EF2-1EFF,U+2020,U+20A0-20AB,U+20AD-20C0,U+2113,U+2C60-2C7F,U+A720-A7FF";

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

/// The type, inside the page.
pub(super) fn faces() -> String {
    let face = |bytes: &[u8], range: &str| {
        format!(
            "@font-face{{font-family:\"Miche Card\";font-style:normal;font-weight:200 800;src:url(data:font/woff2;base64,{}) format(\"woff2\");unicode-range:{range}}}\n",
            STANDARD.encode(bytes)
        )
    };
    face(LATIN, LATIN_RANGE) + &face(LATIN_EXTENDED, LATIN_EXTENDED_RANGE)
}

/// The style sheets, each with the hash by which the security policy lets it in.
pub(super) struct Styles {
    sheets: Vec<String>,
}

impl Styles {
    pub(super) fn new(sheet: &Sheet, feet: &[Foot]) -> Styles {
        Styles { sheets: vec![CARD_CSS.to_owned(), PRINT_CSS.to_owned(), paper_style(sheet, feet), faces()] }
    }
}

/// The style for the chosen paper: its size, the size of type, and head and foot in the margins of every sheet.
fn paper_style(sheet: &Sheet, feet: &[Foot]) -> String {
    let (width, height) = sheet.paper.laid(sheet.orientation);
    let (above, beside, below) = sheet.paper.margins();
    let size = sheet.paper.type_size();
    let mut css = format!("@page{{size:{width}mm {height}mm;margin:{above}mm {beside}mm {below}mm}}\n");
    let small = (size * 0.68).max(5.5);
    for (at, foot) in feet.iter().enumerate() {
        let name = page_name(at);
        let font = format!("font:{small:.3}pt \"Miche Card\",Verdana,sans-serif;color:#333");
        let _ = writeln!(
            css,
            "@media print{{.{name}{{page:{name}}}}}\n@page {name}{{\
             @bottom-left{{content:{};{font};width:84%;text-align:left;vertical-align:top;padding-top:1.5mm}}\
             @bottom-right{{content:\"page \" counter(page) \" of \" counter(pages);{font};font-weight:700;width:16%;text-align:right;vertical-align:top;padding-top:1.5mm}}}}",
            css_string(&format!("{} · {}", foot.title, foot.facts.join(" · ")))
        );
    }
    let _ = writeln!(css, "@media print{{html{{font-size:{size}pt}}}}");
    if sheet.orientation == Orientation::Landscape {
        css.push_str(include_str!("landscape.css"));
    }
    css
}

/// Text as a CSS string in which nothing but letters, digits and spaces stands as itself.
fn css_string(text: &str) -> String {
    let mut out = String::from("\"");
    for character in text.chars() {
        if character.is_ascii_alphanumeric() || character == ' ' {
            out.push(character);
        } else {
            let _ = write!(out, "\\{:X} ", u32::from(character));
        }
    }
    out.push('"');
    out
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_leaves_a_css_string() {
        assert_eq!(css_string("a\"}</style>"), "\"a\\22 \\7D \\3C \\2F style\\3E \"");
    }
}
