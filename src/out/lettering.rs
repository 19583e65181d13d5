//! The look that all pages share: their type, their colours and what every page has, set inside each so that nothing is fetched.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use std::fmt::Write;

/// Colours, type, the sheet on the desk, head, box of cautions and foot.
pub(super) const FAMILY: &str = include_str!("lettering/family.css");

/// Atkinson Hyperlegible Next, drawn so that no two figures or letters are taken for each other; SIL Open Font License,
/// whose text lies beside the files.
const LATIN: &[u8] = include_bytes!("html/fonts/latin.woff2");
const LATIN_EXTENDED: &[u8] = include_bytes!("html/fonts/latin-ext.woff2");
const LATIN_RANGE: &str = "U+0000-00FF,U+0131,U+0152-0153,U+02BB-02BC,U+02C6,U+02DA,U+02DC,U+0304,U+0308,U+0329,U+2000-206F,U+20AC,U+2122,U+2191,U+2193,U+2212,U+2215,U+FEFF,U+FFFD";
const LATIN_EXTENDED_RANGE: &str = "U+0100-02BA,U+02BD-02C5,U+02C7-02CC,U+02CE-02D7,U+02DD-02FF,U+0304,U+0308,U+0329,U+1D00-1DBF,U+1E00-1E9F,U+1EF2-1EFF,U+2020,U+20A0-20AB,U+20AD-20C0,U+2113,U+2C60-2C7F,U+A720-A7FF";

/// The type itself, as style.
pub(super) fn faces() -> String {
    let face = |bytes: &[u8], range: &str| {
        format!(
            "@font-face{{font-family:\"Miche Card\";font-style:normal;font-weight:200 800;src:url(data:font/woff2;base64,{}) format(\"woff2\");unicode-range:{range}}}\n",
            STANDARD.encode(bytes)
        )
    };
    face(LATIN, LATIN_RANGE) + &face(LATIN_EXTENDED, LATIN_EXTENDED_RANGE)
}

/// The files of the type in a folder of a site, and what they hold.
pub(super) fn files() -> [(&'static str, &'static [u8]); 2] {
    [("assets/latin.woff2", LATIN), ("assets/latin-ext.woff2", LATIN_EXTENDED)]
}

/// The type as style that lies beside its files.
pub(super) fn linked_faces() -> String {
    let face = |file: &str, range: &str| {
        format!(
            "@font-face{{font-family:\"Miche Card\";font-style:normal;font-weight:200 800;font-display:swap;src:url({file}) format(\"woff2\");unicode-range:{range}}}\n"
        )
    };
    face("latin.woff2", LATIN_RANGE) + &face("latin-ext.woff2", LATIN_EXTENDED_RANGE)
}

/// What stands in the margin below every printed page of a sheet: its words at the left, which page of how many at the right.
pub(super) fn margin_boxes(words: &str, size: f64) -> String {
    let font = format!("font:{size:.3}pt \"Miche Card\",Verdana,sans-serif;color:#333");
    format!(
        "@bottom-left{{content:{};{font};width:84%;text-align:left;vertical-align:top;padding-top:1.5mm}}\
         @bottom-right{{content:\"page \" counter(page) \" of \" counter(pages);{font};font-weight:700;width:16%;text-align:right;vertical-align:top;padding-top:1.5mm}}",
        css_string(words)
    )
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_leaves_a_css_string() {
        assert_eq!(css_string("a\"}</style>"), "\"a\\22 \\7D \\3C \\2F style\\3E \"");
    }
}
