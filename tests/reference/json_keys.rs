//! What the reference says of the JSON that each command writes, held against the published schemas, both ways.

use serde_json::{Map, Value};
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// What stands between back quotes in these sections and is no key: options, and values that a key may have.
const NO_KEYS: &[&str] = &[
    "null",
    "flour",
    "total",
    "per piece",
    "45 min and 90 min into bulk",
    "on_label",
    "not_said",
    "not_asked",
    "ahead",
    "done",
    "running",
    "span",
    "standing",
    "tend",
    "(with hand kneading)",
    "PART of RECIPE",
    "hand kneading",
    "hand or machine, cold",
    "hand, cold; or machine, warm",
    "added",
    "removed",
    "changed",
    "came-to",
    "friction",
    "left-at",
    "loss",
    "time",
    "gone",
    "known",
    "unclear",
];

/// The sections of the reference, by the name of their schema.
fn sections(reference: &str) -> Vec<(&str, &str)> {
    let all = reference.split("\n### JSON of `miche ").skip(1);
    all.filter_map(|text| {
        let (name, text) = text.split_once("`\n")?;
        let text = text.split("\n## ").next()?;
        Some((if name == "card --for reader" { "reader" } else { name }, text))
    })
    .collect()
}

fn schema(name: &str) -> Value {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("grammar/schema/{name}.json"));
    let text = fs::read_to_string(&path).unwrap_or_else(|why| panic!("{}: {why}", path.display()));
    serde_json::from_str(&text).expect("JSON")
}

/// Every struct of a schema: its keys, and what each holds.
fn structs(schema: &Value) -> Vec<&Map<String, Value>> {
    let all = schema["$defs"].as_object().expect("definitions").values();
    all.filter_map(|one| one["properties"].as_object()).collect()
}

/// The keys of each object that a key holds, in whichever struct it stands: none where it holds no object.
fn within<'s>(schema: &'s Value, key: &str) -> Vec<BTreeSet<&'s str>> {
    let held = structs(schema).into_iter().filter_map(|one| one.get(key));
    let called: BTreeSet<String> = held.flat_map(references).collect();
    let keys = |name: &String| schema["$defs"][name.as_str()]["properties"].as_object();
    called.iter().filter_map(keys).map(|keys| keys.keys().map(String::as_str).collect()).collect()
}

fn references(value: &Value) -> Vec<String> {
    match value {
        Value::Object(map) => {
            let own = map.get("$ref").and_then(Value::as_str).and_then(|name| name.rsplit('/').next());
            own.map(str::to_owned).into_iter().chain(map.values().flat_map(references)).collect()
        }
        Value::Array(list) => list.iter().flat_map(references).collect(),
        _ => Vec::new(),
    }
}

/// Who writes a program against the JSON reads in its schema what each key holds.
#[test]
fn every_key_of_the_schemas_is_described() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("grammar/schema");
    let files = fs::read_dir(&folder).expect("the schemas").map(|file| file.expect("a file").path());
    let mut keys = 0;
    for path in files {
        let name = path.file_stem().expect("a name").to_string_lossy().into_owned();
        let schema = schema(&name);
        for properties in structs(&schema).into_iter().chain(schema["properties"].as_object()) {
            for (key, holds) in properties {
                assert!(holds["description"].is_string(), "{name}: nothing says what `{key}` holds");
                keys += 1;
            }
        }
    }
    assert!(keys > 500, "{keys} keys");
}

/// What stands between back quotes, and for each behind which other it stands: `` `a` (`b`, `c`) ``, or a row of a table `` | `a` | `b`, `c` | ``.
fn quoted(text: &str) -> Vec<(&str, Option<&str>)> {
    let mut all: Vec<(&str, Option<&str>)> = Vec::new();
    let mut behind: Vec<Option<&str>> = Vec::new();
    // The row's own key, and the word that the next bracket stands right behind.
    let (mut of_row, mut before) = (None, None);
    let mut rest = text;
    while let Some(c) = rest.chars().next() {
        rest = &rest[c.len_utf8()..];
        match c {
            '`' => {
                let (word, after) = rest.split_once('`').expect("a closing quote");
                all.push((word, behind.last().copied().unwrap_or(of_row)));
                before = Some(word);
                rest = after;
            }
            '(' => behind.push(before.take()),
            ')' => {
                behind.pop();
                before = None;
            }
            '|' => of_row = before.take(),
            '\n' => of_row = None,
            c if c.is_whitespace() => {}
            _ => before = None,
        }
    }
    all
}

/// What a section says wrong, and what it does not say.
fn faults(name: &str, text: &str, schema: &Value) -> Vec<String> {
    let blocks = text.split("```");
    // The odd ones are fenced.
    let (prose, fenced): (Vec<(usize, &str)>, Vec<_>) = blocks.enumerate().partition(|(at, _)| at % 2 == 0);
    let prose: String = prose.into_iter().map(|(_, text)| text).collect();
    let shown = fenced
        .into_iter()
        .flat_map(|(_, text)| text.split('"').skip(1).step_by(2).zip(text.split('"').skip(2).step_by(2)));
    let shown: Vec<&str> = shown.filter(|(_, after)| after.starts_with(':')).map(|(key, _)| key).collect();
    let told = quoted(&prose);
    let keys: BTreeSet<&str> = structs(schema).into_iter().flat_map(|one| one.keys().map(String::as_str)).collect();
    let mut faults = Vec::new();
    for (word, parent) in &told {
        let is_no_key = NO_KEYS.contains(word) || word.starts_with("--") || word.starts_with("miche ");
        if !keys.contains(word) && !is_no_key {
            faults.push(format!("{name}: there is no key `{word}`"));
        }
        let inside = parent.map(|parent| within(schema, parent)).unwrap_or_default();
        if keys.contains(word) && !inside.is_empty() && !inside.iter().any(|keys| keys.contains(word)) {
            faults.push(format!("{name}: `{}` has no key `{word}`", parent.unwrap_or_default()));
        }
    }
    faults
        .extend(shown.iter().filter(|key| !keys.contains(*key)).map(|key| format!("{name}: there is no key `{key}`")));
    let is_told = |key: &&str| shown.contains(key) || told.iter().any(|(word, _)| word == key);
    faults.extend(keys.iter().filter(|key| !is_told(key)).map(|key| format!("{name}: the key `{key}` is not told")));
    // Where a list in brackets names some keys of what stands before it, it names them all.
    let parents: BTreeSet<&str> = told.iter().filter_map(|(_, parent)| *parent).collect();
    for parent in parents {
        let said: BTreeSet<&str> = told.iter().filter(|(_, of)| *of == Some(parent)).map(|(word, _)| *word).collect();
        // Who says that it has all keys of another need not say them again.
        let has_all = prose.contains(&format!("`{parent}` (an aim with all its keys,"));
        let lacks =
            |inside: BTreeSet<&str>| -> Vec<String> { inside.difference(&said).map(|key| (*key).to_owned()).collect() };
        let all = within(schema, parent).into_iter().filter(|inside| inside.intersection(&said).count() > 1);
        let fewest = all.map(lacks).min_by_key(Vec::len).filter(|lacks| !has_all && !lacks.is_empty());
        faults.extend(fewest.map(|lacks| format!("{name}: `{parent}` is told without {lacks:?}")));
    }
    faults
}

/// A key that the reference tells and nothing writes is looked for in vain, and one that it does not tell is not found.
#[test]
fn the_reference_tells_every_key_of_every_json() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let reference = fs::read_to_string(root.join("grammar/LANGUAGE.md")).expect("the reference");
    let sections = sections(&reference);
    let told: BTreeSet<String> = sections.iter().map(|(name, _)| (*name).to_owned()).collect();
    let published = fs::read_dir(root.join("grammar/schema")).expect("schemas");
    let published: BTreeSet<String> = published
        .map(|one| one.expect("an entry").path().file_stem().expect("a name").to_string_lossy().into_owned())
        .collect();
    assert_eq!(told, published, "each JSON has its section");
    let faults: Vec<String> = sections.iter().flat_map(|(name, text)| faults(name, text, &schema(name))).collect();
    assert!(faults.is_empty(), "\n{}\n", faults.join("\n"));
}

/// The test would see either fault.
#[test]
fn a_key_too_many_and_one_too_few_are_seen() {
    let schema: Value = serde_json::json!({"$defs": {
        "Whole": {"properties": {"lines": {"items": {"$ref": "#/$defs/Line"}}, "name": {}}},
        "Line": {"properties": {"grams": {}, "shown": {}}}
    }});
    let said = |text: &str| faults("x", text, &schema);
    assert!(said("`name`, `lines` (`grams`, `shown`)").is_empty());
    assert_eq!(said("`name`, `lines` (`grams`, `shown`), `weight`"), ["x: there is no key `weight`"]);
    assert_eq!(said("`name`, `lines` of `grams`"), ["x: the key `shown` is not told"]);
    assert_eq!(said("`shown`, `lines` (`grams`, `name`)"), ["x: `lines` has no key `name`"]);
    assert_eq!(said("| `name` | its name |\n| `lines` | `grams`, `shown`, `name` |"), ["x: `lines` has no key `name`"]);
    assert_eq!(said("```json\n{\"nam\": 1, \"name\": 2}\n``` `lines`, `grams`, `shown`"), ["x: there is no key `nam`"]);
}
