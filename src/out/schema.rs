//! What the JSON of each command holds, as a published JSON Schema: made from the very structs that are written, so that it
//! cannot say anything else. The files stand in `grammar/schema`.

use super::{aimed, bakes, comparison, cost, history, json, label, list, plan, reader, report, stock, sums, swap};
use crate::measure::shown::Shown;
use schemars::generate::SchemaSettings;
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde_json::{Map, Value};
use std::borrow::Cow;

/// A command that writes JSON.
#[derive(Debug, Clone, Copy)]
pub struct Document {
    /// The command.
    pub command: &'static str,
    /// What it writes.
    about: &'static str,
    /// How often it stands there.
    shape: Shape,
    /// What one holds.
    one: fn(&mut SchemaGenerator) -> Schema,
}

/// How often what a command writes stands in its output.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Shape {
    /// One object.
    One,
    /// An array.
    Many,
    /// One object for one recipe or file, an array for several.
    OneOrMany,
}

/// All of them, in the order of the manual.
pub const ALL: &[Document] = &[
    document("check", "Every problem that was found.", Shape::Many, of::<report::json::Problem<'static>>),
    document("card", "A batch card; several cards as an array.", Shape::OneOrMany, of::<json::Wire<'static>>),
    document(
        "reader",
        "A recipe for readers, by `card --for reader`; those of a day as an array.",
        Shape::OneOrMany,
        of::<reader::json::Wire<'static>>,
    ),
    document("sums", "The sums of the bench; of a day as an array.", Shape::OneOrMany, of::<sums::json::Wire<'static>>),
    document("list", "What to buy and to weigh out.", Shape::One, of::<list::json::Wire<'static>>),
    document("stock", "The largest batches from what there is.", Shape::One, of::<stock::WireAll<'static>>),
    document("plan", "When to do what.", Shape::One, of::<plan::json::Wire<'static>>),
    document(
        "label",
        "The labels of what is made: figures of the whole batch, before any rounding.",
        Shape::One,
        of::<label::json::WireAll<'static>>,
    ),
    document("cost", "What batches, parts and pieces cost.", Shape::One, of::<cost::WireAll<'static>>),
    document("aim", "Amounts that meet every aim.", Shape::One, of::<aimed::Wire<'static>>),
    document("swap", "Others in the place of an ingredient.", Shape::One, of::<swap::Wire<'static>>),
    document(
        "diff",
        "What changed in a formula; in several files as an array.",
        Shape::OneOrMany,
        of::<comparison::json::WireFile<'static>>,
    ),
    document("history", "How a formula changed over its revisions.", Shape::One, of::<history::json::Wire<'static>>),
    document(
        "bakes",
        "What the log of a recipe's bakes says; of several recipes as an array.",
        Shape::OneOrMany,
        of::<bakes::json::Wire<'static>>,
    ),
];

const fn document(
    command: &'static str,
    about: &'static str,
    shape: Shape,
    one: fn(&mut SchemaGenerator) -> Schema,
) -> Document {
    Document { command, about, shape, one }
}

fn of<T: JsonSchema>(generator: &mut SchemaGenerator) -> Schema {
    generator.subschema_for::<T>()
}

/// The one of a command.
pub fn find(command: &str) -> Option<&'static Document> {
    ALL.iter().find(|document| document.command == command)
}

/// The schema of what a command writes, ending in a line break.
///
/// # Errors
/// Only what the serializer reports, which these types never cause.
pub fn render(document: &Document) -> serde_json::Result<String> {
    let mut generator = SchemaSettings::draft2020_12().for_serialize().into_generator();
    let one = (document.one)(&mut generator).to_value();
    let mut root = Map::new();
    let mut say = |key: &str, value: Value| root.insert(key.to_owned(), value);
    say("$schema", "https://json-schema.org/draft/2020-12/schema".into());
    say("title", format!("miche {}", document.command).into());
    say("description", document.about.into());
    let many = |one: Value| -> Value {
        [("type", "array".into()), ("items", one)]
            .map(|(key, value): (&str, Value)| (key.to_owned(), value))
            .into_iter()
            .collect::<Map<_, _>>()
            .into()
    };
    match document.shape {
        Shape::One => say("allOf", vec![one].into()),
        Shape::Many => say("allOf", vec![many(one)].into()),
        Shape::OneOrMany => say("anyOf", vec![one.clone(), many(one)].into()),
    };
    say("$defs", generator.take_definitions(true).into());
    Ok(serde_json::to_string_pretty(&renamed(root.into()))? + "\n")
}

/// The structs are called `WirePart`, so that nobody takes them for parts; who reads the schema need not know.
fn renamed(value: Value) -> Value {
    match value {
        Value::Object(map) => map
            .into_iter()
            .map(|(key, value)| match value {
                Value::String(text) if key == "$ref" => {
                    let name = text.rsplit('/').next().map_or(text.as_str(), without_wire);
                    (key, format!("#/$defs/{name}").into())
                }
                value => (without_wire(&key).to_owned(), renamed(value)),
            })
            .collect::<Map<_, _>>()
            .into(),
        Value::Array(list) => list.into_iter().map(renamed).collect::<Vec<_>>().into(),
        value => value,
    }
}

fn without_wire(name: &str) -> &str {
    match name.strip_prefix("Wire") {
        Some("") => "Whole",
        Some(rest) => rest,
        None => name,
    }
}

impl JsonSchema for Shown {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        "Shown".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": "string", "description": "As it is printed: digits and unit, rounded for the scale." })
    }
}

impl JsonSchema for json::Figure {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        "Figure".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": "number" })
    }
}
