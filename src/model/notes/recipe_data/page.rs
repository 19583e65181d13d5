//! Pages: the data in their scripts, and words with markup as plain lines.

use crate::text::hidden::replaced;
use html5gum::emitters::default::DefaultEmitter;
use html5gum::{Token, Tokenizer};

/// What a page's script calls data of this kind.
const DATA: &str = "application/ld+json";
/// Elements behind which a line ends.
pub(super) const LINES: &[&str] = &[
    "p",
    "br",
    "li",
    "ul",
    "ol",
    "div",
    "h1",
    "h2",
    "h3",
    "h4",
    "h5",
    "h6",
    "tr",
    "table",
    "section",
    "article",
    "blockquote",
    "dl",
    "dt",
    "dd",
    "hr",
    "pre",
    "header",
    "footer",
    "figure",
    "figcaption",
];
/// Elements before which a word ends, though no line does.
pub(super) const CELLS: &[&str] = &["td", "th"];
/// Elements within a line. Of any other `<` nobody knows that it is markup, so it stays as it is written.
const WORDS: &[&str] = &[
    "a", "abbr", "b", "bdi", "bdo", "big", "center", "cite", "code", "data", "del", "dfn", "em", "font", "i", "img",
    "ins", "kbd", "mark", "meta", "q", "s", "samp", "small", "span", "strike", "strong", "sub", "sup", "td", "th",
    "thead", "tbody", "time", "tt", "u", "var", "wbr", "noscript", "picture", "source", "svg", "label", "input",
    "button", "link",
];
/// The longest tag that is believed to be one.
const LONGEST_TAG: usize = 4000;
/// So often markup is read: what was written into a page twice over is `&amp;frac12;`.
const ROUNDS: usize = 2;

/// The text of each script of a page that holds data. One that never ends goes to the end of the page.
pub(super) fn data(html: &str) -> Vec<String> {
    let mut found = Vec::new();
    let mut open: Option<Vec<u8>> = None;
    for token in tokens(html, true) {
        match token {
            Token::StartTag(tag) if tag.name.as_slice() == b"script" => {
                let kind = tag.attributes.get(b"type".as_slice());
                let kind = kind.map(|kind| String::from_utf8_lossy(kind).trim().to_ascii_lowercase());
                let is_data = kind.is_some_and(|kind| kind.split(';').next().is_some_and(|kind| kind.trim() == DATA));
                open = is_data.then(Vec::new);
            }
            Token::String(text) => {
                if let Some(script) = &mut open {
                    script.extend_from_slice(&text);
                }
            }
            Token::EndTag(tag) if tag.name.as_slice() == b"script" => found.extend(open.take()),
            _ => {}
        }
    }
    found.extend(open);
    found.iter().map(|script| String::from_utf8_lossy(script).into_owned()).collect()
}

/// The tokens of a text. `in_page`: it is a whole page, with scripts.
pub(super) fn tokens(html: &str, in_page: bool) -> impl Iterator<Item = Token> {
    let mut emitter = DefaultEmitter::default();
    // In a page the words of a script are no markup.
    emitter.naively_switch_states(in_page);
    Tokenizer::new_with_emitter(html, emitter).filter_map(Result::ok)
}

/// Words as plain lines: tags taken out, `&frac12;` as the character, no line empty, nothing that cannot be seen.
pub(super) fn lines(text: &str) -> Vec<String> {
    let mut plain = text.to_owned();
    for _ in 0..ROUNDS {
        if !plain.contains(['<', '&']) {
            break;
        }
        plain = without_markup(&plain);
    }
    let unseen = ['\u{AD}', '\u{200B}', '\u{2060}', '\u{FEFF}'];
    plain.retain(|c| !unseen.contains(&c));
    let ends = ['\n', '\r', '\u{2028}', '\u{2029}', '\u{85}', '\u{0B}', '\u{0C}'];
    let lines = plain.split(ends).map(|line| {
        let line = line.split_whitespace().collect::<Vec<&str>>().join(" ");
        replaced(&line, |_| Some('\u{FFFD}')).into_owned()
    });
    lines.filter(|line| !line.is_empty()).collect()
}

fn without_markup(text: &str) -> String {
    let mut out: Vec<u8> = Vec::with_capacity(text.len());
    for token in tokens(&only_tags(text), false) {
        match token {
            Token::String(words) => out.extend_from_slice(&words),
            Token::StartTag(tag) if is_one_of(&tag.name, LINES) => out.push(b'\n'),
            Token::StartTag(tag) if is_one_of(&tag.name, CELLS) => out.push(b' '),
            Token::EndTag(tag) if is_one_of(&tag.name, LINES) => out.push(b'\n'),
            _ => {}
        }
    }
    String::from_utf8_lossy(&out).into_owned()
}

/// Whether the name of an element is one of some.
pub(super) fn is_one_of(name: &[u8], names: &[&str]) -> bool {
    names.iter().any(|one| one.as_bytes() == name)
}

/// The text with each `<` that begins no known tag written so that it reads as itself.
fn only_tags(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some((before, behind)) = rest.split_once('<') {
        out.push_str(before);
        out.push_str(if begins_tag(behind) { "<" } else { "&lt;" });
        rest = behind;
    }
    out.push_str(rest);
    out
}

/// Whether what stands behind a `<` is the rest of a tag, to its end.
fn begins_tag(behind: &str) -> bool {
    let name = behind.strip_prefix('/').unwrap_or(behind);
    let end = name.find(|c: char| !c.is_ascii_alphanumeric()).unwrap_or(name.len());
    let (name, after) = name.split_at(end);
    let known = LINES.iter().chain(WORDS).any(|one| one.eq_ignore_ascii_case(name));
    let parted = after.starts_with(['>', '/']) || after.starts_with(char::is_whitespace);
    if !(known && parted) {
        return false;
    }
    let Some(length) = after.bytes().take(LONGEST_TAG).position(|byte| matches!(byte, b'<' | b'>')) else {
        return false;
    };
    let (attributes, end) = after.split_at(length);
    let attributes = attributes.trim_matches(|c: char| c == '/' || c.is_whitespace());
    // Words that are no attributes are somebody's own: `a<b and b>c`.
    end.starts_with('>') && (attributes.is_empty() || attributes.contains('='))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_with_markup_become_lines() {
        for (text, wanted) in [
            ("500 g flour", &["500 g flour"][..]),
            ("&frac12; cup caf&#233; cr&egrave;me &amp; salt", &["½ cup café crème & salt"]),
            ("1&amp;frac12; cups", &["1½ cups"]),
            ("<p>Mix.</p><p>Knead for <b>8</b>&nbsp;min.</p>", &["Mix.", "Knead for 8 min."]),
            ("&lt;p&gt;Mix.&lt;/p&gt;", &["Mix."]),
            ("one<br>two<br/>three<BR />four", &["one", "two", "three", "four"]),
            ("under <5 g, a<b and b>c", &["under <5 g, a<b and b>c"]),
            ("<a href=\"x?a=1&b=2\" title='>'>rye</a>", &["rye"]),
            ("<tr><td>600 g</td><td>flour</td></tr>", &["600 g flour"]),
            ("<never ends", &["<never ends"]),
            ("salt <b", &["salt <b"]),
            ("but\u{AD}ter\u{200B}\r\n\r\n  milk\u{202E}", &["butter", "milk\u{FFFD}"]),
            ("AT&T &unknown; &#x110000;", &["AT&T &unknown; \u{FFFD}"]),
            ("", &[]),
        ] {
            assert_eq!(lines(text), wanted, "{text}");
        }
    }

    #[test]
    fn only_scripts_of_data_are_read() {
        let page = "<!-- <script type='application/ld+json'>0</script> --><title><script type='application/ld+json'></title>\
            <script>var s = \"<script type='application/ld+json'>1\";</script>\
            <SCRIPT async Type=\" Application/LD+JSON; charset=utf-8\">{\"a\": \"<b>&amp;\"}</script>\
            <script type='application/json'>2</script><script type=application/ld+json>3";
        assert_eq!(data(page), ["{\"a\": \"<b>&amp;\"}", "3"]);
    }
}
