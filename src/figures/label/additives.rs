//! Additives by the names that they have on a label of the United States, where nobody knows their European numbers.

/// European numbers (Regulation (EC) 1333/2008, Annex II, Part B) and common or usual names (21 CFR 182 and 184), both from memory: those
/// that bought baking ingredients are made of.
const NAMES: &[(&str, &str)] = &[
    ("170", "calcium carbonate"),
    ("260", "acetic acid"),
    ("270", "lactic acid"),
    ("282", "calcium propionate"),
    ("300", "ascorbic acid"),
    ("322", "lecithin"),
    ("330", "citric acid"),
    ("336", "cream of tartar"),
    ("341", "monocalcium phosphate"),
    ("412", "guar gum"),
    ("415", "xanthan gum"),
    ("440", "pectin"),
    ("450", "sodium acid pyrophosphate"),
    ("471", "mono- and diglycerides"),
    ("500", "sodium bicarbonate"),
    ("501", "potassium carbonate"),
    ("503", "ammonium bicarbonate"),
    ("541", "sodium aluminum phosphate"),
    ("575", "glucono delta-lactone"),
];

/// What a bought ingredient consists of, in words of the United States: `raising agents (E 450, E 500), starch` is `leavening (sodium acid
/// pyrophosphate, sodium bicarbonate), starch`. The collective name is that of 21 CFR 101.4(b)(16), from memory. A number that is not known
/// here stays.
pub fn by_name(consists: &str) -> String {
    let mut text = consists.replace("raising agents", "leavening").replace("raising agent", "leavening");
    for (number, name) in NAMES {
        for written in [format!("E {number}"), format!("E{number}")] {
            text = replaced(&text, &written, name);
        }
    }
    text
}

/// A text with a number replaced wherever no further digit or letter follows it; a part of the number in brackets, `(ii)`, goes too.
fn replaced(text: &str, number: &str, name: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find(number) {
        let (before, found) = rest.split_at(at);
        let after = found.strip_prefix(number).unwrap_or("");
        let is_whole =
            !after.starts_with(|c: char| c.is_alphanumeric()) && !before.ends_with(|c: char| c.is_alphanumeric());
        out.push_str(before);
        out.push_str(if is_whole { name } else { number });
        let roman = after.strip_prefix('(').and_then(|inner| inner.split_once(')'));
        rest = match roman {
            Some((digits, behind)) if is_whole && digits.chars().all(|c| matches!(c, 'i' | 'v')) => behind,
            _ => after,
        };
    }
    out.push_str(rest);
    out
}

#[cfg(test)]
mod tests {
    use super::by_name;

    /// 21 CFR 101.4(b)(16), from memory: 'leavening (baking soda, monocalcium phosphate, and calcium carbonate)'.
    #[test]
    fn numbers_are_names_in_the_united_states() {
        let powder = by_name("raising agents (E 450, E 500), starch");
        assert_eq!(powder, "leavening (sodium acid pyrophosphate, sodium bicarbonate), starch");
        assert_eq!(
            by_name("raising agents (E450(i), E500(ii))"),
            "leavening (sodium acid pyrophosphate, sodium bicarbonate)"
        );
        assert_eq!(by_name("emulsifier (E 4719), THE 450, E 999"), "emulsifier (E 4719), THE 450, E 999");
    }
}
