//! `miche new --from` of published recipes: schema.org Recipe data in the ways in which sites write it, our own pages brought back,
//! hostile pages, and that no word and no number of the data is lost.
//!
//! The ways are written by hand after the published vocabulary (`tests/data/schemaorg-recipe.json`); which of them are common is
//! from memory.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "recipe_data/any.rs"]
mod any;
#[path = "recipe_data/attributes.rs"]
mod attributes;
#[path = "recipe_data/hostile.rs"]
mod hostile;

use miche::language::parse::parse;
use miche::language::syntax::Content;
use miche::model::notes::{Draft, Form, read};
use miche::text::diagnostic::Severity;
use miche::text::source::SourceId;
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::{Command, Output, Stdio};

fn draft(text: &str) -> Draft {
    let form = Form::of(text, None);
    assert_ne!(form, Form::Notes, "{text:.80}");
    let draft = read(text, form, None, "x").expect("a recipe");
    no_line_is_stray(&draft);
    draft
}

fn no_line_is_stray(draft: &Draft) {
    let (tree, problems) = parse(SourceId(0), &draft.text);
    let problem = problems.iter().find(|problem| problem.severity != Severity::Advice);
    assert!(problem.is_none(), "{problem:?}\n{}", draft.text);
    assert!(!tree.lines.iter().any(|line| matches!(line.content, Content::Stray)), "{}", draft.text);
}

/// Whether the file has these lines, whatever their layout and remarks.
fn holds(draft: &Draft, wanted: &[&str]) {
    let bare = |line: &str| line.split("  #").next().unwrap_or("").replace(['.', ' '], "");
    let lines: Vec<String> = draft.text.lines().map(bare).collect();
    for line in wanted {
        assert!(lines.contains(&line.replace(['.', ' '], "")), "no line `{line}` in\n{}", draft.text);
    }
}

/// A recipe with these instructions and little else.
fn with_steps(instructions: Value) -> String {
    json!({ "@type": "Recipe", "name": "Quay buns", "recipeIngredient": ["500 g bread flour", "300 g water", "10 g salt"],
        "recipeInstructions": instructions })
    .to_string()
}

#[test]
fn a_page_becomes_a_formula() {
    let page = r#"<!DOCTYPE html><html><head><title>Buns</title>
<script type="application/ld+json">{"@context":"https://schema.org","@type":"Recipe","name":"Caf&#233; buns &amp; butter",
"description":"<p>A bun for a <b>windy</b> morning.</p><p>Keeps a day.</p>","author":{"@type":"Person","name":"Mara Ness","url":"https://skerrow.example/mara"},
"recipeYield":["12","12 buns"],"prepTime":"PT30M","cookTime":"PT18M","totalTime":"PT3H20M",
"recipeCategory":"Bread","keywords":"buns, rhubarb , make ahead,buns",
"image":"https://skerrow.example/buns.jpg","datePublished":"2026-04-16",
"nutrition":{"@type":"NutritionInformation","calories":"270 kcal"},
"recipeIngredient":["500 g strong white flour","1&frac12; tsp salt","60g butter, soft","&#189; cup whole milk"],
"recipeInstructions":[{"@type":"HowToStep","text":"Mix everything for 8&nbsp;minutes until smooth."},
{"@type":"HowToStep","name":"Bake","text":"Into the oven at 200&deg;C for 15-18 min until golden."}]}</script></head><body></body></html>"#;
    let draft = draft(page);
    assert_eq!(draft.name, "Café buns & butter");
    holds(
        &draft,
        &[
            "recipe Café buns & butter",
            "makes 12 buns",
            "story A bun for a windy morning.",
            "Keeps a day.",
            "by Mara Ness",
            "filed under Bread, buns, rhubarb, make ahead",
            "strong white flour .. 500 g",
            "salt .. 1 1/2 tsp",
            "butter .. 60 g, soft",
            "whole milk .. 1/2 cup",
            "mix: hands 8 min",
            "until smooth",
            "bake: tend 15-18 min, using oven at 200 C",
            "until golden",
        ],
    );
    for said in [
        "# Made from the Recipe data of a page.",
        "prepTime 30 min, cookTime 18 min, totalTime 3 h 20 min",
        "# of the page, image: https://skerrow.example/buns.jpg",
        "# of the page, datePublished: 2026-04-16",
        "# of the page, nutrition calories: 270 kcal",
        "# of the page, author url: https://skerrow.example/mara",
        "# of the page, recipeYield: 12",
    ] {
        assert!(draft.text.contains(said), "{said}\n{}", draft.text);
    }
    // Nothing is claimed that the data does not say.
    for made_up in ["contains", "core", "keeps", "caution", "picture", "chilled"] {
        let claims = draft.text.lines().any(|line| line.starts_with(made_up));
        assert!(!claims, "{made_up}\n{}", draft.text);
    }
}

#[test]
fn data_is_found_wherever_sites_put_it() {
    let recipe = r#"{"@type":"Recipe","name":"Quay buns","recipeIngredient":["500 g flour"]}"#;
    let script = |data: &str| format!("<html><script type=\"application/ld+json\">{data}</script></html>");
    for text in [
        recipe.to_owned(),
        format!("[{recipe}]"),
        format!("\u{FEFF}\n[[{recipe}]]"),
        format!(r#"{{"@context":"https://schema.org","@graph":[{{"@type":"WebSite","name":"Quay"}},{recipe}]}}"#),
        format!(r#"{{"@type":"WebPage","mainEntity":{recipe}}}"#),
        r#"{"@type":"BreadcrumbList"}"#.replace('}', &format!(r#","about":[{{"item":{recipe}}}]}}"#)),
        recipe.replace("\"Recipe\"", "[\"NewsArticle\", \"Recipe\"]"),
        recipe.replace("\"Recipe\"", "\"http://schema.org/Recipe\""),
        recipe
            .replace("\"Recipe\"", "\"schema:Recipe\"")
            .replace("\"name\"", "\"schema:name\"")
            .replace("recipeI", "https://schema.org/recipeI"),
        recipe
            .replace("\"Quay buns\"", r#"{"@value":"Quay buns","@language":"en"}"#)
            .replace("[\"500 g flour\"]", r#"{"@list":["500 g flour"]}"#),
        script(recipe),
        script(&format!("<!--\n{recipe}\n-->")),
        script(&format!("//<![CDATA[\n{recipe};\n//]]>")),
        script(&recipe.replace('"', "&quot;")),
        script(&recipe.replace("500 g flour", "500 g\nflour")),
        format!("{}{}{}", script("{ broken"), script(r#"{"@type":"Organization","name":"x"}"#), script(recipe)),
        format!("<HTML><SCRIPT TYPE='application/ld+json; charset=utf-8'>{recipe}"),
        format!("<!-- a --><script type=application/ld+json>{recipe}</script>"),
    ] {
        let draft = draft(&text);
        assert_eq!(draft.name, "Quay buns", "{text}");
        assert!(draft.text.contains("flour ") && draft.text.contains("500 g"), "{text}\n{}", draft.text);
    }
}

#[test]
fn ingredients_are_texts_values_and_lists() {
    let recipe = |list: Value| json!({ "@type": "Recipe", "name": "Quay buns", "recipeIngredient": list }).to_string();
    for list in [
        json!(["500 g bread flour", "2 eggs", "10 g salt"]),
        json!("500 g bread flour\n2 eggs\n10 g salt"),
        json!("<ul><li>500 g bread flour</li><li>2 eggs</li><li>10 g salt</li></ul>"),
        json!([["500 g bread flour"], ["2 eggs", "10 g salt"]]),
        json!([{ "@type": "PropertyValue", "name": "bread flour", "value": 500, "unitText": "g" }, "2 eggs",
            { "@type": "PropertyValue", "name": "salt", "value": "10", "unitCode": "GRM" }]),
        json!([{ "@type": "HowToSupply", "name": "bread flour", "requiredQuantity": { "@type": "QuantitativeValue", "value": 500, "unitCode": "GRM" } },
            { "@type": "HowToSupply", "name": "eggs", "requiredQuantity": 2 }, { "name": "salt", "amount": "10", "unit": "g" }]),
        json!({ "@type": "ItemList", "itemListElement": ["500 g bread flour", { "@type": "ListItem", "position": 2, "item": "2 eggs" },
            { "@type": "ListItem", "name": "10 g salt" }] }),
        json!(["▢ 500 g bread flour", "- 2 eggs", "• 10 g salt", "", null]),
    ] {
        let draft = draft(&recipe(list.clone()));
        let counted: Vec<&str> = draft.text.lines().filter(|line| line.contains(" ..")).collect();
        assert_eq!(counted.len(), 3, "{list}\n{}", draft.text);
        holds(&draft, &["bread flour .. 500 g", "eggs .. 2", "salt .. 10 g"]);
    }
    let old = json!({ "@type": "Recipe", "name": "Quay buns", "ingredients": ["500 g bread flour"] }).to_string();
    holds(&draft(&old), &["bread flour .. 500 g"]);
    let supply = json!({ "@type": ["Recipe", "HowTo"], "name": "Quay buns", "supply": [{ "@type": "HowToSupply", "name": "500 g bread flour" }] });
    holds(&draft(&supply.to_string()), &["bread flour .. 500 g"]);
}

#[test]
fn headings_among_ingredients_make_parts() {
    for list in [
        json!(["For the dough:", "500 g bread flour", "10 g salt", "For the filling", "300 g plums", "10 g salt"]),
        json!([{ "@type": "ItemList", "name": "Dough", "itemListElement": ["500 g bread flour", "10 g salt"] },
            { "name": "Filling", "ingredients": ["300 g plums", "10 g salt"] }]),
    ] {
        let text = json!({ "@type": "Recipe", "name": "Quay buns", "recipeIngredient": list, "recipeInstructions": [
            { "@type": "HowToSection", "name": "Make the filling", "itemListElement": [{ "@type": "HowToStep", "text": "Simmer it for 20 min." }] },
            { "@type": "HowToSection", "name": "Dough", "itemListElement": { "@type": "HowToStep", "text": "Mix for 8 minutes." } },
            { "@type": "HowToSection", "name": "Day 2", "itemListElement": ["Bake at 200 C for 15 min."] }] });
        let draft = draft(&text.to_string());
        holds(
            &draft,
            &[
                "part dough",
                "part filling",
                "plums .. 300 g",
                "simmer: tend 20 min",
                "mix: hands 8 min",
                "dough .. all",
                "filling .. all",
                "bake: tend 15 min, using oven at 200 C",
            ],
        );
        let order = |line: &str| draft.text.find(line).unwrap_or_else(|| panic!("no {line} in\n{}", draft.text));
        assert!(
            order("mix: hands") < order("part filling") && order("simmer: tend") > order("part filling"),
            "{}",
            draft.text
        );
        assert!(
            order("heading: Day 2") < order("bake: tend") && order("bake: tend") > order("filling .."),
            "{}",
            draft.text
        );
        assert_eq!(draft.text.matches("salt ..").count(), 2, "one in each part\n{}", draft.text);
    }
}

#[test]
fn what_is_listed_twice_is_there_twice() {
    let text = json!({ "@type": "Recipe", "name": "Quay buns", "recipeIngredient": ["500 g bread flour", "60 g butter", "20 g butter", "5 g butter"] });
    let draft = draft(&text.to_string());
    holds(&draft, &["butter .. 60 g", "second butter .. 20 g", "third butter .. 5 g"]);
    let marked = draft.text.lines().find(|line| line.starts_with("second butter")).expect("the line");
    assert!(
        marked.contains("# look (butter is listed already: add this to it, or give it a name of its own): 20 g butter"),
        "{marked}"
    );
}

#[test]
fn instructions_are_told_in_many_ways() {
    let step = |text: &str| json!({ "@type": "HowToStep", "text": text });
    for instructions in [
        json!("Mix for 8 minutes.\nRest for 1 hour.\nBake at 200 C for 15 min."),
        json!("1. Mix for 8 minutes.\n2. Rest for 1 hour.\n3. Bake at 200 C for 15 min."),
        json!("Mix for 8 minutes. Rest for 1 hour. Bake at 200 C for 15 min."),
        json!(["Mix for 8 minutes. Rest for 1 hour. Bake at 200 C for 15 min."]),
        json!("<ol><li>Mix for 8 minutes.</li><li>Rest for 1 hour.</li><li>Bake at 200&deg;C for 15 min.</li></ol>"),
        json!(["Mix for 8 minutes.", "Rest for 1 hour.", "Bake at 200 C for 15 min."]),
        json!([step("Mix for 8 minutes."), step("Rest for 1 hour."), step("Bake at 200 C for 15 min.")]),
        json!([[step("Mix for 8 minutes."), "Rest for 1 hour."], step("Bake at 200 C for 15 min.")]),
        json!({ "@type": "ItemList", "itemListElement": [{ "@type": "ListItem", "position": 1, "item": step("Mix for 8 minutes.") },
            { "@type": "ListItem", "item": "Rest for 1 hour." }, { "@type": "ListItem", "name": "Bake at 200 C for 15 min." }] }),
        json!([{ "@type": "HowToSection", "itemListElement": [step("Mix for 8 minutes."), step("Rest for 1 hour.")] }, step("Bake at 200 C for 15 min.")]),
        json!([{ "@type": "HowToStep", "name": "Step 1", "itemListElement": [{ "@type": "HowToDirection", "text": "Mix for 8 minutes." }] },
            { "@type": "HowToStep", "name": "Rest for 1 hour", "text": "Rest for 1 hour." },
            { "@type": "HowToStep", "itemListElement": { "@type": "HowToDirection", "text": "Bake at 200 C for 15 min." } }]),
        json!([{ "@type": "HowToStep", "text": "Mix.", "timeRequired": "PT8M" }, { "@type": "HowToStep", "name": "Rest for 1 hour." },
            { "@type": "HowToDirection", "text": "Bake at 200 C.", "performTime": "PT15M" }]),
    ] {
        let draft = draft(&with_steps(instructions.clone()));
        holds(&draft, &["mix: hands 8 min", "bake: tend 15 min, using oven at 200 C"]);
        assert!(draft.text.contains("rest: wait 1 h"), "{instructions}\n{}", draft.text);
        let steps = draft
            .text
            .lines()
            .filter(|line| line.starts_with(|c: char| c.is_alphabetic()) && line.contains(": "))
            .count();
        assert_eq!(draft.text.matches("# look (").count(), steps, "every step is a guess\n{}", draft.text);
    }
}

#[test]
fn a_step_keeps_its_name_and_its_time() {
    let draft = draft(&with_steps(json!([
        { "@type": "HowToStep", "name": "First fold", "text": "Fold the dough after 20 min and after 40 min.", "timeRequired": "PT1H" },
        { "@type": "HowToStep", "name": "A long name that is a sentence of its own", "text": "Bake for 15 min." },
        { "@type": "HowToStep", "name": "Serve", "text": "Serve at once.", "itemListElement": [{ "@type": "HowToTip", "text": "Good with 3 figs." }] },
        { "@type": "HowToStep", "name": "First fold", "text": "Fold for 2 min." },
    ])));
    holds(&draft, &["first fold: hands 1 h", "bake: tend 15 min, using oven"]);
    for said in [
        "A long name that is a sentence of its own. Bake for 15 min.",
        "Serve at once. Good with 3 figs.",
        "first fold: Fold for 2 min.",
    ] {
        assert!(draft.text.contains(said), "{said}\n{}", draft.text);
    }
}

#[test]
fn yields_are_read_as_they_are_written() {
    for (said, wanted, marked) in [
        (json!("12 buns"), "makes 12 buns", false),
        (json!("Makes 12 buns"), "makes 12 buns", false),
        (json!("Serves 4"), "makes 4 portions", false),
        (json!("Serves 4-6"), "makes 4 portions", true),
        (json!(12), "makes 12 portions", true),
        (json!("12"), "makes 12 portions", true),
        (json!(["12", "12 buns"]), "makes 12 buns", false),
        (json!(["24 small buns", "24"]), "makes 24 small buns", false),
        (json!({ "@type": "QuantitativeValue", "value": 12, "unitText": "buns" }), "makes 12 buns", false),
        (
            json!({ "@type": "QuantitativeValue", "minValue": 4, "maxValue": 6, "unitText": "servings" }),
            "makes 4 servings",
            true,
        ),
        (json!("Yield: 2 loaves"), "makes 2 loaves", false),
        (json!("2 dozen biscuits"), "makes 24 biscuits", true),
        (json!("1.2 kg"), "makes 1.2 kg", false),
    ] {
        let text =
            json!({ "@type": "Recipe", "name": "Quay buns", "recipeYield": said, "recipeIngredient": ["500 g flour"] });
        let draft = draft(&text.to_string());
        holds(&draft, &[wanted]);
        let line = draft.text.lines().find(|line| line.starts_with("makes ")).expect("makes");
        assert_eq!(line.contains("# look"), marked, "{said}: {line}");
    }
    let odd = json!({ "@type": "Recipe", "name": "Quay buns", "recipeYield": "a trayful", "recipeIngredient": ["500 g flour"] });
    assert!(draft(&odd.to_string()).text.contains("# look (what it makes is not understood): a trayful"));
}

#[test]
fn authors_are_persons_texts_and_names_said_elsewhere() {
    for (author, wanted) in [
        (json!("Mara Ness"), "by Mara Ness"),
        (json!({ "@type": "Person", "name": "Mara Ness" }), "by Mara Ness"),
        (
            json!([{ "@type": "Person", "name": "Mara Ness" }, { "@type": "Organization", "name": "The Skerrow bakehouse" }]),
            "by Mara Ness and The Skerrow bakehouse",
        ),
        (json!({ "@id": "#mara" }), "by Mara Ness"),
        (json!({ "@type": "Person", "name": ["Mara Ness"] }), "by Mara Ness"),
        (json!("Mara Ness [baker] #1 {x}"), "by Mara Ness baker 1 x"),
    ] {
        let text = json!({ "@graph": [{ "@type": "Person", "@id": "#mara", "name": "Mara Ness" },
            { "@type": "Recipe", "name": "Quay buns", "author": author, "recipeIngredient": ["500 g flour"] }] });
        holds(&draft(&text.to_string()), &[wanted]);
    }
}

#[test]
fn of_several_recipes_one_is_taken_and_the_others_are_named() {
    let text = json!([{ "@type": "Recipe", "name": "Only a name" }, { "@type": "Recipe", "name": "Quay buns", "recipeIngredient": ["500 g flour"] },
        { "@type": "Recipe", "name": "Quay rolls", "recipeIngredient": ["400 g rye flour"] }])
    .to_string();
    let first = draft(&text);
    assert_eq!(first.name, "Quay buns");
    assert!(first.text.contains("not taken: give its name to take it): Quay rolls"), "{}", first.text);
    let named = read(&text, Form::Data, Some("quay rolls"), "x").expect("a recipe");
    no_line_is_stray(&named);
    assert!(named.text.contains("rye flour") && named.text.contains("): Quay buns"), "{}", named.text);
    let other = read(&text, Form::Data, Some("Harbour rolls"), "x").expect("a recipe");
    assert!(
        other.text.contains("recipe Harbour rolls") && other.text.contains("# of the page, name: Quay buns"),
        "{}",
        other.text
    );
}

/// A page that gives 250 ml for a cup counts in metric cups, one of 240 ml in those of the United States.
#[test]
fn whose_cups_is_read_off_what_stands_beside_them() {
    for (line, whose) in [
        ("250 ml (1 cup) cream", "metric"),
        ("500 ml (2 cups) cream", "metric"),
        ("240 ml (1 cup) cream", "US"),
        ("1 cup cream", "US"),
    ] {
        let text =
            json!({ "@type": "Recipe", "name": "Quay cream", "recipeIngredient": [line, "20 g sugar"] }).to_string();
        assert!(draft(&text).text.contains(&format!("measures {whose} ")), "{line}\n{}", draft(&text).text);
    }
}

#[test]
fn what_is_no_recipe_is_said() {
    for (text, form, why) in [
        ("<html><body>500 g flour</body></html>", Form::Page, "says nothing as Recipe data"),
        (
            "<html><script type=\"application/ld+json\">{\"a\":</script></html>",
            Form::Page,
            "the data in this page is no JSON: EOF while parsing",
        ),
        ("{\"@type\": \"Cake\"}", Form::Data, "there is no Recipe"),
        ("500 g flour", Form::Data, "this is no JSON: "),
        ("", Form::Page, "says nothing as Recipe data"),
        ("{\"@type\": \"Recipe\"}", Form::Data, "there is no Recipe"),
    ] {
        let said = read(text, form, None, "x").expect_err(text);
        assert!(said.contains(why), "{text}: {said}");
    }
    for (text, ending, form) in [
        ("500 g flour", None, Form::Notes),
        ("[ ] 500 g flour", None, Form::Notes),
        ("[x] 2 \"large\" eggs", None, Form::Notes),
        ("{\"a\": 1}", Some("txt"), Form::Data),
        ("500 g flour", Some("HTML"), Form::Page),
        (" \n<!DOCTYPE html>", None, Form::Page),
        ("<3 buns", None, Form::Notes),
        ("é", None, Form::Notes),
    ] {
        assert_eq!(Form::of(text, ending), form, "{text}");
    }
}

fn miche(folder: &Path, arguments: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_miche"));
    command.args(arguments).current_dir(folder).stdin(Stdio::null()).output().expect("the program starts")
}

fn said(output: &Output) -> String {
    format!("{}{}", String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr))
}

/// Our own pages of all examples brought back: every ingredient, every step, what it makes and the times; and the file is one that
/// `check` finds no error in but on lines that are marked.
#[test]
fn our_own_pages_come_back() {
    let examples = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let folder = tempfile::tempdir().expect("a folder");
    let mut seen = 0;
    for entry in fs::read_dir(&examples).expect("a folder") {
        let path = entry.expect("an entry").path();
        if !fs::read_to_string(&path).unwrap_or_default().lines().any(|line| line.starts_with("recipe ")) {
            continue;
        }
        seen += 1;
        let file = path.file_name().and_then(|name| name.to_str()).expect("a name");
        let page = miche(&examples, &["card", file, "--for", "reader", "--format", "html"]);
        let html = String::from_utf8(page.stdout).expect("UTF-8");
        fs::write(folder.path().join("page.html"), &html).expect("written");
        let made = miche(folder.path(), &["new", "--from", "page.html", "-o", "back.miche"]);
        assert!(made.status.success(), "{file}: {}", said(&made));
        let back = fs::read_to_string(folder.path().join("back.miche")).expect("readable");
        let (_, after) = html.split_once("<script type=\"application/ld+json\">").expect("data");
        let data: Value = serde_json::from_str(after.split_once("</script>").expect("an end").0).expect("JSON");

        let listed = data["recipeIngredient"].as_array().expect("a list").len();
        let lines = back.lines().filter(|line| line.contains(" ..") && !line.starts_with(['#', ' ', 'n'])).count();
        // `dough .... all` of parts is none of them, and pages name no parts.
        assert!(lines >= listed, "{file}: {listed} ingredients, {lines} lines\n{back}");
        let all = data["recipeInstructions"].as_array().expect("a list");
        let steps: Vec<&Value> = all
            .iter()
            .flat_map(|one| one["itemListElement"].as_array().map_or_else(|| vec![one], |inner| inner.iter().collect()))
            .collect();
        let timed = steps.iter().filter(|step| step["timeRequired"].is_string()).count();
        let told = back
            .lines()
            .filter(|line| {
                [": hands ", ": tend ", ": wait "].iter().any(|kind| line.contains(kind))
                    && !line.starts_with([' ', '#'])
            })
            .count();
        assert!(told >= timed, "{file}: {timed} steps, {told} told\n{back}");
        for step in &steps {
            let words = step["text"].as_str().expect("a text");
            let lost: Vec<&str> = tokens(words).into_iter().filter(|word| !tokens(&back).contains(word)).collect();
            assert!(lost.is_empty(), "{file}: {lost:?} of {words}\n{back}");
        }
        if let Some(makes) = data["recipeYield"].as_str() {
            let makes = makes.replace(['\u{202F}', '\u{2009}', '\u{A0}'], " ");
            let number = makes.split(' ').next().expect("a number");
            assert!(
                back.lines().any(|line| line.starts_with("makes ") && line.contains(number)),
                "{file}: {makes}\n{back}"
            );
        }
        for key in ["prepTime", "cookTime", "totalTime"] {
            assert_eq!(back.contains(&format!("{key} ")), data[key].is_string(), "{file}: {key}\n{back}");
        }
        fs::remove_file(folder.path().join("back.miche")).expect("removed");
        no_error_without_a_mark(file, &back);
    }
    assert!(seen > 10, "{seen} recipes");
}

/// `check` over a file: every error stands on a line that is marked, or says what only a person can add.
fn no_error_without_a_mark(file: &str, text: &str) {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("back.miche"), text).expect("written");
    let checked = miche(folder.path(), &["check", "back.miche", "--format", "json"]);
    let report: Value =
        serde_json::from_slice(&checked.stdout).unwrap_or_else(|why| panic!("{why}: {}", said(&checked)));
    let lines: Vec<&str> = text.lines().collect();
    for problem in report.as_array().unwrap_or_else(|| panic!("{report}")) {
        if problem["severity"] != "error" {
            continue;
        }
        let at =
            problem["line"].as_u64().and_then(|line| usize::try_from(line).ok()).unwrap_or_else(|| panic!("{problem}"));
        let near = |at: usize| lines.get(at.wrapping_sub(1)).is_some_and(|line| line.contains("# look"));
        assert!(near(at) || near(at - 1), "{file}: {problem}\n{text}");
    }
}

/// The words and numbers of a text.
fn tokens(text: &str) -> BTreeSet<&str> {
    text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect()
}
