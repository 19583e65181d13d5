//! The published vocabulary of schema.org, as far as recipes need it.

use serde_json::Value;
use std::fs;
use std::path::Path;

/// The types that are used, their properties and ranges.
pub fn vocabulary() -> Value {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/schemaorg-recipe.json");
    serde_json::from_str(&fs::read_to_string(path).expect("a file")).expect("JSON")
}

/// Holds a value against the published vocabulary: its type, each property of that type, and that each value is in its range.
pub fn hold(value: &Value, vocabulary: &Value, told: &mut Vec<String>) {
    let kind = value["@type"].as_str().expect("a type");
    let known = vocabulary["properties"][kind].as_array().unwrap_or_else(|| panic!("{kind} is no type"));
    for (key, value) in value.as_object().expect("an object").iter().filter(|(key, _)| !key.starts_with('@')) {
        assert!(known.contains(&Value::from(key.as_str())), "{kind} has no {key}");
        told.push(key.clone());
        let ranges: Vec<&str> =
            vocabulary["ranges"][key].as_array().expect("a range").iter().filter_map(Value::as_str).collect();
        let values = value.as_array().cloned().unwrap_or_else(|| vec![value.clone()]);
        for value in &values {
            match value {
                Value::String(text) if ranges.contains(&"Duration") => {
                    let rest = text.strip_prefix("PT").unwrap_or_else(|| panic!("{key}: {text} is no duration"));
                    assert!(
                        rest.ends_with(['H', 'M'])
                            && rest.chars().all(|c| c.is_ascii_digit() || matches!(c, 'H' | 'M')),
                        "{text}"
                    );
                }
                Value::String(text) if ranges.contains(&"Energy") => {
                    assert!(text.ends_with(" kcal") && text.starts_with(|c: char| c.is_ascii_digit()), "{text}");
                }
                Value::String(text) if ranges.contains(&"Date") => {
                    text.parse::<jiff::civil::Date>().unwrap_or_else(|_| panic!("{key}: {text} is no date"));
                }
                Value::String(_) => {
                    assert!(ranges.iter().any(|range| ["Text", "URL"].contains(range)), "{key} is no text")
                }
                Value::Object(_) => {
                    let kind = value["@type"].as_str().expect("a type");
                    let ancestors =
                        vocabulary["ancestors"][kind].as_array().unwrap_or_else(|| panic!("{kind} is no type"));
                    let fits = ranges.iter().any(|range| ancestors.contains(&Value::from(*range)));
                    assert!(fits, "{kind} is out of the range of {key}: {ranges:?}");
                    hold(value, vocabulary, told);
                }
                other => panic!("{key}: {other}"),
            }
        }
    }
}
