//! Any data at all: every word and number of it is in the file.

use super::{no_line_is_stray, tokens};
use miche::model::notes::{Form, read};
use proptest::prelude::*;
use serde_json::{Value, json};
use std::collections::BTreeSet;

/// All texts and numbers of data, but for what says how it is to be read.
fn texts(value: &Value, found: &mut Vec<String>) {
    match value {
        Value::Array(all) => all.iter().for_each(|value| texts(value, found)),
        Value::Object(object) => {
            object.iter().filter(|(key, _)| !key.starts_with('@')).for_each(|(_, value)| texts(value, found))
        }
        Value::String(text) => found.push(text.clone()),
        Value::Number(number) => found.push(number.to_string()),
        _ => {}
    }
}

fn words() -> impl Strategy<Value = String> {
    prop_oneof![
        4 => "[a-z]{2,9}",
        2 => "[1-9][0-9]{0,3}",
        2 => prop::sample::select(vec!["g", "flour", "salt", "cup", "min", "for 8 min", "at 200 C", "until", "of", ",", "(", ")", ".", ":", "- ", "For the",
            "1/2", "½", "&", "#", "{", "}", "[", "]", "=", "\"", "..", "|", "\n", "<", ">", "*", "Makes", "Serves", "# look", "keeps", "each", "plus", "to taste"])
            .prop_map(str::to_owned),
    ]
}

fn text() -> impl Strategy<Value = String> {
    prop::collection::vec(words(), 0..9).prop_map(|words| words.join(" "))
}

fn value() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![6 => text().prop_map(Value::from), 1 => (1_u32..5000).prop_map(Value::from), 1 => Just(Value::Null)];
    leaf.prop_recursive(3, 24, 4, |inner| {
        let keys = prop::sample::select(vec![
            "name",
            "text",
            "value",
            "unitText",
            "itemListElement",
            "item",
            "description",
            "url",
            "steps",
            "amount",
        ]);
        let kinds = prop::sample::select(vec![
            "HowToStep",
            "HowToSection",
            "ItemList",
            "ListItem",
            "Person",
            "PropertyValue",
            "QuantitativeValue",
            "HowToTip",
        ]);
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..4).prop_map(Value::from),
            (kinds, prop::collection::btree_map(keys, inner, 0..4)).prop_map(|(kind, map)| {
                let mut object: serde_json::Map<String, Value> =
                    map.into_iter().map(|(key, value)| (key.to_owned(), value)).collect();
                object.insert("@type".to_owned(), kind.into());
                object.into()
            }),
        ]
    })
}

fn recipe() -> impl Strategy<Value = Value> {
    let keys = prop::sample::select(vec![
        "name",
        "description",
        "author",
        "recipeYield",
        "recipeIngredient",
        "ingredients",
        "recipeInstructions",
        "keywords",
        "recipeCategory",
        "tool",
        "video",
        "prepTime",
        "cookTime",
        "totalTime",
        "recipeCuisine",
        "step",
        "supply",
        "yield",
        "headline",
    ]);
    prop::collection::btree_map(keys, value(), 1..8).prop_map(|map| {
        let mut object: serde_json::Map<String, Value> =
            map.into_iter().map(|(key, value)| (key.to_owned(), value)).collect();
        object.insert("@type".to_owned(), "Recipe".into());
        object.into()
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 256, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_word_and_number_of_the_data_is_in_the_file(recipe in recipe()) {
        let draft = read(&recipe.to_string(), Form::Data, None, "x").expect("a recipe");
        no_line_is_stray(&draft);
        let mut all = Vec::new();
        texts(&recipe, &mut all);
        let plain = |text: &str| text.replace('½', " 1/2 ").to_lowercase();
        let file = plain(&draft.text);
        let there: BTreeSet<&str> = tokens(&file);
        for text in &all {
            for word in tokens(&plain(text)) {
                // These go where the line itself says as much.
                let goes = ["for", "the", "makes", "serves", "of", "cup", "min"].contains(&word);
                prop_assert!(goes || there.contains(word), "{word} of {text:?} is lost: {recipe}\n{}", draft.text);
            }
        }
    }

}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_bytes_of_a_page_do_no_harm(before in "(?s).{0,80}", inside in "(?s).{0,200}") {
        let page = format!("<html>{before}<script type='application/ld+json'>{inside}</script>");
        let _ = read(&page, Form::Page, None, "x");
        let data = json!({ "@type": "Recipe", "name": before, "recipeIngredient": [inside], "recipeInstructions": inside, "description": inside });
        let draft = read(&data.to_string(), Form::Data, None, &before).expect("a recipe");
        no_line_is_stray(&draft);
    }
}
