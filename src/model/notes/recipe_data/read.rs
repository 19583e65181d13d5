//! Data as text: JSON by itself or from a page, and what can be done with JSON that is nearly right.

use super::super::Form;
use super::page;
use serde_json::Value;

/// The values of a text of JSON, or of all scripts of a page that can be read.
///
/// # Errors
/// In plain words, where nothing of it can be read.
pub(super) fn values(text: &str, form: Form) -> Result<Vec<Value>, String> {
    if form != Form::Page {
        return value(text).map(|value| vec![value]).map_err(|why| format!("this is no JSON: {why}"));
    }
    let (mut good, mut bad) = (Vec::new(), Vec::new());
    for script in page::data(text) {
        match value(&script) {
            Ok(value) => good.push(value),
            Err(why) => bad.push(why),
        }
    }
    match bad.first() {
        Some(why) if good.is_empty() => Err(format!("the data in this page is no JSON: {why}")),
        _ => Ok(good),
    }
}

/// Reads JSON; where that fails, as it is often found in pages.
fn value(text: &str) -> Result<Value, String> {
    let bare = without_shell(text);
    serde_json::from_str(bare)
        .or_else(|error| serde_json::from_str(&escaped(bare)).map_err(|_| error))
        .or_else(|error| serde_json::from_str(&without_last_commas(&escaped(bare))).map_err(|_| error))
        .or_else(|error| {
            let coded = !bare.contains('"') && bare.contains("&quot;");
            coded.then(|| serde_json::from_str(&page::lines(bare).join(" ")).ok()).flatten().ok_or(error)
        })
        .map_err(|error| error.to_string())
}

/// Without the comment or the section that scripts were once wrapped in.
fn without_shell(text: &str) -> &str {
    let mut bare = text.trim_matches(|c: char| c.is_whitespace() || c == '\u{FEFF}');
    for (open, close) in [("<!--", "-->"), ("//<![CDATA[", "//]]>"), ("/*<![CDATA[*/", "/*]]>*/"), ("<![CDATA[", "]]>")]
    {
        if let Some(inside) = bare.strip_prefix(open) {
            let inside = inside.trim_end();
            bare = inside.strip_suffix(close).unwrap_or(inside).trim();
        }
    }
    bare.strip_suffix(';').unwrap_or(bare)
}

/// JSON with line breaks and control characters in its texts written as JSON wants them.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let (mut inside, mut behind_backslash) = (false, false);
    for character in text.chars() {
        match character {
            '"' if !behind_backslash => inside = !inside,
            '\n' if inside => {
                out.push_str("\\n");
                behind_backslash = false;
                continue;
            }
            other if inside && other < ' ' => {
                out.push_str(&format!("\\u{:04x}", u32::from(other)));
                behind_backslash = false;
                continue;
            }
            _ => {}
        }
        behind_backslash = inside && character == '\\' && !behind_backslash;
        out.push(character);
    }
    out
}

/// JSON without the commas behind the last of a list or of an object.
fn without_last_commas(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let (mut inside, mut behind_backslash) = (false, false);
    for character in text.chars() {
        if !inside && matches!(character, ']' | '}') {
            let kept = out.trim_end();
            if let Some(bare) = kept.strip_suffix(',') {
                out.truncate(bare.len());
            }
        }
        if character == '"' && !behind_backslash {
            inside = !inside;
        }
        behind_backslash = inside && character == '\\' && !behind_backslash;
        out.push(character);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::value;

    #[test]
    fn what_is_nearly_json_is_read() {
        for text in [
            "{\"a\": \"x\"}",
            "\u{FEFF} {\"a\": \"x\"};\n",
            "<!--\n{\"a\": \"x\"}\n-->",
            "//<![CDATA[\n{\"a\": \"x\"}\n//]]>",
            "{&quot;a&quot;: &quot;x&quot;}",
            "{\"b\": [\"y,]\", 2, ],\n\"a\": \"x\" , }",
        ] {
            assert_eq!(value(text).expect(text)["a"], "x");
        }
        assert_eq!(value("{\"a\":\n \"x\\\"\ty\nz\"}").expect("escaped")["a"], "x\"\ty\nz");
    }

    #[test]
    fn what_is_no_json_says_where() {
        for (text, why) in [
            ("{\"a\":", "line 1 column 5"),
            ("{'a': 1}", "line 1 column 2"),
            ("", "line 1 column 0"),
            (&"[".repeat(100_000), "recursion limit"),
        ] {
            let said = value(text).expect_err("no JSON");
            assert!(said.contains(why), "{said}");
        }
    }
}
