//! Data as it is found in pages, JSON-LD: where its recipes are, and what it says under a name.

use serde_json::{Map, Value};
use std::collections::HashMap;

/// An object of the data.
pub(super) type Object = Map<String, Value>;

/// What a name may stand behind: the vocabulary in full, or a short word for it.
const BEFORE: &[&str] = &["", "schema:", "http://schema.org/", "https://schema.org/"];

/// All data of a page.
#[derive(Debug)]
pub(super) struct Graph<'v> {
    texts: &'v [Value],
    /// What is said elsewhere under a name of its own: `{"@id": "#mara"}` stands for all of it.
    named: HashMap<&'v str, &'v Object>,
}

impl<'v> Graph<'v> {
    pub(super) fn of(texts: &'v [Value]) -> Graph<'v> {
        let mut named: HashMap<&'v str, &'v Object> = HashMap::new();
        for_each_object(texts, &mut |object| {
            if let Some(Value::String(id)) = object.get("@id") {
                let known = named.entry(id).or_insert(object);
                if known.len() < object.len() {
                    *known = object;
                }
            }
        });
        Graph { texts, named }
    }

    /// Every recipe, in the order of the page.
    pub(super) fn recipes(&self) -> Vec<&'v Object> {
        let mut found: Vec<&'v Object> = Vec::new();
        for_each_object(self.texts, &mut |object| {
            // One that is only named here stands elsewhere.
            if is_a(object, "Recipe") && object.keys().any(|key| !key.starts_with('@')) {
                found.push(object);
            }
        });
        found
    }

    /// The object that a value is or names.
    pub(super) fn object(&self, value: &'v Value) -> Option<&'v Object> {
        let object = value.as_object()?;
        let only_named = object.keys().all(|key| key == "@id" || key == "@type");
        let id = object.get("@id").and_then(Value::as_str).filter(|_| only_named);
        Some(id.and_then(|id| self.named.get(id)).copied().unwrap_or(object))
    }
}

/// What an object says under a name.
pub(super) fn get<'v>(object: &'v Object, name: &str) -> Option<&'v Value> {
    BEFORE.iter().find_map(|before| object.get(&format!("{before}{name}"))).filter(|value| !value.is_null())
}

/// A name without what stands before it.
pub(super) fn bare(name: &str) -> &str {
    BEFORE.iter().skip(1).find_map(|before| name.strip_prefix(before)).unwrap_or(name)
}

/// Whether an object is of a type.
pub(super) fn is_a(object: &Object, kind: &str) -> bool {
    let is = |value: &Value| value.as_str().is_some_and(|said| bare(said.trim()) == kind);
    match object.get("@type") {
        Some(Value::Array(all)) => all.iter().any(is),
        Some(value) => is(value),
        None => false,
    }
}

/// Every object, the outer before the inner. Data is nested no deeper than its reader allows, so this comes to an end.
fn for_each_object<'v>(values: &'v [Value], look: &mut impl FnMut(&'v Object)) {
    let mut left: Vec<&'v Value> = values.iter().rev().collect();
    while let Some(value) = left.pop() {
        match value {
            Value::Array(all) => left.extend(all.iter().rev()),
            Value::Object(object) => {
                look(object);
                left.extend(object.values().rev());
            }
            _ => {}
        }
    }
}
