//! Each example's label beside the checklists of both laws: everything that is asked for stands there, or the page says that it is not said.
//!
//! European Union: Regulation (EU) 1169/2011, Article 9(1), (a) to (l), and the lot of Directive 2011/91/EU. United States: 21 CFR 101.3,
//! 101.4, 101.5, 101.7 and 101.9 with 21 USC 343(w). Which examples are what by their nature stands in the tables here, and what a
//! label shows is read from the label itself and from the example's own text.

#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "examples/copy.rs"]
mod copy;

use serde_json::Value;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::Command;

const EU: [&str; 14] = [
    "Article 9(1)(a)",
    "Article 9(1)(b)",
    "Article 9(1)(c)",
    "Article 9(1)(d)",
    "Article 9(1)(e)",
    "Article 9(1)(f)",
    "Article 9(1)(g)",
    "Article 9(1)(h)",
    "Article 9(1)(i)",
    "Article 9(1)(j)",
    "Article 9(1)(k)",
    "Article 9(1)(l)",
    "Directive 2011/91/EU",
    "Articles 23(1) and 32(2)",
];

const US: [&str; 11] = [
    "21 CFR 101.3",
    "21 CFR 101.7",
    "21 CFR 101.4",
    "21 USC 343(w)",
    "21 CFR 101.9(b)",
    "21 CFR 101.9(c)",
    "21 CFR 101.5",
    "FDA, 62 FR 8248",
    "19 USC 1304",
    "common practice",
    "21 CFR 101.7(a)",
];

/// What the rows are called that are not asked of every food, and of which examples the law asks them.
const WITHOUT_ALLERGENS: [&str; 1] = ["Breakwater gluten-free loaf"];
/// Celery is one of Annex II and none of 21 USC 321(qq).
const WITHOUT_ALLERGENS_IN_THE_US: [&str; 2] = ["Breakwater gluten-free loaf", "Yellow pea pot"];
const RAW: [&str; 1] = ["Mother dough"];

fn run(folder: &Path, arguments: &[&str]) -> String {
    let output =
        Command::new(env!("CARGO_BIN_EXE_miche")).args(arguments).current_dir(folder).output().expect("it runs");
    assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).expect("UTF-8")
}

fn labels(folder: &Path, file: &str, more: &[&str]) -> Vec<Value> {
    let text = run(folder, &[&["label", file, "--format", "json"], more].concat());
    let all: Value = serde_json::from_str(&text).expect("JSON");
    all["labels"].as_array().expect("labels").clone()
}

/// The examples that have a label, with what their text says of it: recipes and days.
fn examples(folder: &Path) -> Vec<String> {
    let mut files: Vec<String> = fs::read_dir(folder)
        .expect("examples")
        .map(|entry| entry.expect("a file").path())
        .filter(|path| {
            let text = fs::read_to_string(path).unwrap_or_default();
            text.lines().any(|line| line.starts_with("recipe ") || line.starts_with("day "))
        })
        .map(|path| path.file_name().expect("a name").to_string_lossy().into_owned())
        .filter(|name| name.ends_with(".miche"))
        .collect();
    files.sort();
    assert!(files.len() >= 17, "{files:?}");
    files
}

/// Words of HTML without its marks and with its letters.
fn plain(html: &str) -> String {
    let mut text = String::new();
    let mut is_inside = false;
    for c in html.chars() {
        match c {
            '<' => is_inside = true,
            '>' => is_inside = false,
            c if !is_inside => text.push(c),
            _ => {}
        }
    }
    text.replace("&amp;", "&").replace("&lt;", "<").replace("&gt;", ">").replace("&#39;", "'").replace("&quot;", "\"")
}

#[test]
fn every_example_answers_both_checklists() {
    let folder = tempfile::tempdir().expect("a folder");
    copy::into(folder.path());
    let mut wrong: Vec<String> = Vec::new();
    let mut seen: BTreeMap<(String, String), usize> = BTreeMap::new();
    for file in examples(folder.path()) {
        let is_day = fs::read_to_string(folder.path().join(&file)).expect("text").contains("\nday ");
        for (law, rules) in [("eu", &EU[..]), ("us", &US[..])] {
            let made: &[&str] = if is_day { &[] } else { &["--made", "2027-03-30"] };
            let with = |more: &[&'static str]| [&["--law", law][..], made, more].concat();
            let page = run(folder.path(), &[&["label", &file, "--format", "text"], &with(&[])[..]].concat());
            let page: String = page.split_whitespace().collect::<Vec<_>>().join(" ");
            let sheet = format!("{law}.html");
            // The nutrition facts of the United States take more room: 8 points and more.
            let size = if law == "us" { "2 x 1" } else { "2 x 2" };
            let paper = ["label", &file, "--sheet", size, "--copies", "1", "-o", &sheet];
            run(folder.path(), &[&paper[..], &with(&[])].concat());
            let sheet = plain(&fs::read_to_string(folder.path().join(sheet)).expect("a sheet"));
            let sheet: String = sheet.split_whitespace().collect::<Vec<_>>().join(" ");
            for label in labels(folder.path(), &file, &with(&[])) {
                let name = label["recipe"].as_str().expect("a name").to_owned();
                let asked = label["asked"].as_array().expect("a checklist");
                let found: Vec<&str> = asked.iter().filter_map(|one| one["rule"].as_str()).collect();
                assert_eq!(found, rules, "{file}, {name}");
                for one in asked {
                    let rule = one["rule"].as_str().expect("a rule");
                    let words = one["words"].as_str().expect("words");
                    let standing = one["standing"].as_str().expect("a standing");
                    *seen.entry((rule.to_owned(), standing.to_owned())).or_default() += 1;
                    let mut fault = |what: &str| wrong.push(format!("{file}, {law}, {name}, {rule}: {what}: {words}"));
                    match standing {
                        "on_label" => {
                            // Rows of the table are told by their names, the others stand word for word.
                            let parts: Vec<&str> = match rule {
                                "Article 9(1)(l)" | "21 CFR 101.9(c)" | "Article 9(1)(c)" | "21 USC 343(w)" => {
                                    words.split(", ").collect()
                                }
                                "Article 9(1)(d)" => words.split(", ").collect(),
                                "Directive 2011/91/EU" => Vec::new(),
                                "21 CFR 101.9(b)" => words.trim_end_matches('.').split(". Serving size: ").collect(),
                                _ => vec![words],
                            };
                            for part in parts {
                                // Blanks are where cells end, and tell nothing.
                                let squeezed =
                                    |text: &str| -> String { text.to_lowercase().split_whitespace().collect() };
                                let has = |text: &str| squeezed(text).contains(&squeezed(part));
                                // Added sugars stand in a row that begins with the amount.
                                let is_added = part == "added sugars" && sheet.contains("Added Sugars");
                                if !has(&sheet) && !is_added {
                                    fault(&format!("`{part}` is not on the label to stick on"));
                                }
                                if !has(&page) {
                                    fault(&format!("`{part}` is not on the page"));
                                }
                            }
                        }
                        // The harbour of the examples lies in no state of the Union, and nothing of theirs is imported.
                        "not_said" if rule == "21 CFR 101.5" && words.starts_with("the state and ZIP code") => {}
                        // An example shows what is done: it says all that its law asks of it.
                        "not_said" => fault("the example does not say it"),
                        "not_asked" => {
                            let may_be_silent = match rule {
                                "Article 9(1)(c)" => WITHOUT_ALLERGENS.contains(&name.as_str()),
                                "21 USC 343(w)" => WITHOUT_ALLERGENS_IN_THE_US.contains(&name.as_str()),
                                "Article 9(1)(j)" | "common practice" => !RAW.contains(&name.as_str()),
                                "Article 9(1)(d)" | "Article 9(1)(g)" | "FDA, 62 FR 8248" | "Article 9(1)(i)"
                                | "Article 9(1)(k)" | "19 USC 1304" => true,
                                // No example is a drink; what a drink would want is said of what is poured.
                                "Articles 23(1) and 32(2)" | "21 CFR 101.7(a)" => words.starts_with("taken for a food"),
                                _ => false,
                            };
                            if !may_be_silent {
                                fault("the law asks this of every food");
                            }
                        }
                        other => panic!("{other}"),
                    }
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    // The test looks at labels, and not at nothing.
    assert!(seen[&("Article 9(1)(b)".to_owned(), "on_label".to_owned())] >= 30, "{seen:?}");
}

/// The one label of a recipe: how a rule is answered and in which words, and the page.
fn answers(recipe: &str, rule: &str) -> (String, String, String) {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("a.miche"), recipe).expect("a file");
    let label = labels(folder.path(), "a.miche", &[]).remove(0);
    let asked = label["asked"].as_array().expect("a checklist");
    let one = asked.iter().find(|one| one["rule"] == rule).expect("the rule");
    let page = run(folder.path(), &["label", "a.miche", "--format", "markdown"]);
    let text = |key: &str| one[key].as_str().expect("text").to_owned();
    (text("standing"), text("words"), page)
}

fn mixed(name: &str, lines: &str, steps: &str) -> String {
    format!("recipe {name}\nmakes 1 kg\n{lines}{steps}")
}

const MIX: &str = "mix: hands 5 min\n    Mix all.\n";

/// Article 27: whoever buys raw meat, fish or dry rice has to cook it. Which of these are raw is common practice, no source.
#[test]
fn what_is_raw_is_told() {
    let of =
        |line: &str| answers(&mixed("Thing", &format!("{line} .... 980 g\nsalt .... 20 g\n"), MIX), "Article 9(1)(j)");
    for raw in ["chicken breast", "minced beef", "pork", "cod", "prawns", "risotto rice", "pearl barley", "lentils"] {
        let (standing, words, _) = of(raw);
        assert!(standing == "not_said" && words.contains(&format!("holds raw {raw}")), "{raw}: {words}");
    }
    let (standing, words, _) = of("egg");
    assert!(standing == "not_said" && words.contains("the raw egg in it"), "{words}");
    // Ready by the larder; flaked by heat; and a fruit.
    for ready in ["ham", "smoked salmon", "rolled oats", "apple", "pasteurised whole egg"] {
        let (standing, words, _) = of(ready);
        assert!(standing == "not_asked" && words == "nothing in it is known to be left raw", "{ready}: {words}");
    }
    let fried = mixed("Thing", "chicken breast .... 1 kg\n", "deep-fry: tend 5 min\n    Until brown.\n");
    assert_eq!(answers(&fried, "Article 9(1)(j)").0, "not_asked");
    // A pan that is filled cooks nothing yet.
    let filled = mixed("Thing", "chicken breast .... 1 kg\n", "fill: hands 5 min, using loaf pan\n    Press in.\n");
    assert_eq!(answers(&filled, "Article 9(1)(j)").0, "not_said");
}

/// What a label takes for cooked where it surely is, a check does not call raw; and on a pan in which things are mixed too it does not
/// count. Common practice, no source.
#[test]
fn checks_and_labels_agree_on_what_cooks() {
    let raw = |step: &str| {
        let step = format!("mix: hands 5 min\n    Mix {{egg}} and {{whole milk}}.\n{step}\n    until firm\n");
        let custard = mixed("Custard", "egg .... 500 g\nwhole milk .... 500 g\n", &step);
        let folder = tempfile::tempdir().expect("a folder");
        fs::write(folder.path().join("a.miche"), &custard).expect("a file");
        let checked = run(folder.path(), &["check", "a.miche", "--format", "short"]);
        (checked.contains("raw-flour-or-egg"), answers(&custard, "Article 9(1)(j)").0 == "not_said")
    };
    for step in [
        "press: tend 3 min, using waffle iron",
        "finish: tend 3 min, using plancha",
        "finish: tend 30 min, using rice cooker",
        "deep-fry: tend 3 min",
        "steam: tend 9 min",
        "pasteurise: tend 9 min",
    ] {
        assert_eq!(raw(step), (false, false), "{step}");
    }
    for step in ["stir: hands 3 min, using saucepan", "finish: tend 3 min, using microwave", "sterilise: tend 9 min"] {
        assert_eq!(raw(step), (true, false), "{step}");
    }
    assert_eq!(raw("fill: hands 3 min, using loaf pan"), (true, true));
}

/// What is heated without an oven is not sold as it is mixed. Common practice, no source.
#[test]
fn what_is_heated_is_not_told_to_be_unheated() {
    let of = |step: &str| {
        answers(&mixed("Thing", "whole milk .... 900 g\ncaster sugar .... 100 g\n", step), "Article 9(1)(j)").2
    };
    for step in [
        "boil the jars: tend 30 min, using hob\n    Boil the filled jars.\n",
        "simmer in jars: tend 30 min\n    Keep covered.\n",
        "steam in bowls: tend 1 h\n    Keep covered.\n",
        "seal the jars: tend 20 min, at 100 C\n    Keep covered.\n",
        "steam: tend 1 h\n    Keep covered.\n",
        "melt: hands 8 min\n    Stir.\n",
        "heat: tend 12 min\n    Heat {whole milk} to {84 C}.\n",
        "finish: tend 12 min\n    Bring {whole milk} to {84 C}.\n",
        "deep-fry: tend 4 min\n    Turn once.\n",
        "pasteurise: tend 4 min\n    Stir.\n",
        "sterilise: tend 4 min\n    Stir.\n",
        "torch: tend 1 min\n    Brown the top.\n",
        "barbecue: tend 9 min\n    Turn.\n",
        "iron: tend 4 min, using waffle iron\n    Turn.\n",
        "finish: tend 4 min, using microwave\n    Turn.\n",
        "finish: tend 4 min, using pressure cooker\n    Wait.\n",
        "finish: tend 4 min, using bain-marie\n    Stir.\n",
        "warm: tend 4 min, using pan\n    Stir.\n",
        "finish: wait 4 h, using smoker at 25 C\n    Wait.\n",
        "finish: wait 8 h, using dehydrator at 55 C\n    Wait.\n",
    ] {
        let page = of(step);
        assert!(!page.contains("no step heats it") && page.contains("nobody says what"), "{step}{page}");
    }
    for step in [
        "warm the jars: wait 15 min, using oven at 120 C\n    until dry\n",
        "rest: wait 2 h, at 28 C\n    Leave in a warm place.\n",
        "mix: hands 5 min\n    Mix {whole milk} with {caster sugar} and warm water.\n",
    ] {
        assert!(of(step).contains("no step heats it"), "{step}");
    }
}

/// 21 CFR 101.12(b): bread that is not sliced is eaten by 2 oz, and a bag of dry mix is no bread.
#[test]
fn a_dry_mix_is_no_loaf() {
    let mix = "recipe Rye pancake mix\nmakes 8 bags\nrye flour .... 3 kg\nbaking powder .... 90 g\nsalt .... 110 g\ndivide 8 x 386 g, loss 3.5 %\n";
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("a.miche"), format!("{mix}{MIX}")).expect("a file");
    let page = run(folder.path(), &["label", "a.miche", "--law", "us", "--format", "markdown"]);
    assert!(page.contains("Serving size: 1 bag (386 g)") && !page.contains("thick a slice"), "{page}");
}

/// Annex VII, Part A; 21 CFR 101.4(a)(1): each ingredient once.
#[test]
fn a_bath_and_a_greased_pan_are_one_oil() {
    let lines = "plain flour .... 500 g\nwhole milk .... 500 g\nrapeseed oil .... as needed, aside\nrapeseed oil for the bath .... 1 kg, strained out\n";
    for lines in [
        lines.to_owned(),
        lines
            .replace("as needed, aside", "1 kg, strained out")
            .replace("bath .... 1 kg, strained out", "pan .... as needed, aside"),
    ] {
        let page =
            answers(&mixed("Fritters", &lines, "fry: tend 3 min, using hob\n    until brown\n"), "Article 9(1)(b)").2;
        let list = page.lines().find(|line| line.starts_with("Ingredients")).expect("a list");
        assert_eq!(list.matches("rapeseed").count(), 1, "{list}");
    }
}

/// Regulation (EU) 2018/775: where the main ingredient comes from, by its name of three letters too; and no word is found within another.
#[test]
fn short_names_are_heard_in_an_origin() {
    let of = |origin: &str| {
        let lines = format!("origin {origin}\nrye flour .... 900 g\nsalt .... 100 g\n");
        answers(&mixed("Harbour mix", &lines, MIX), "Article 9(1)(i)").0
    };
    assert_eq!(of("Scotland, of rye from Poland"), "on_label");
    assert_eq!((of("Scotland, of the Bryer valley").as_str(), of("Scotland").as_str()), ("not_said", "not_said"));
    for name in
        ["Waffles of Belgium", "Polish pot", "Rolls from Poland", "Salsa of Mexico", "Holland rusks", "Dutch rusks"]
    {
        let said = answers(&mixed(name, "caster sugar .... 1 kg\n", MIX), "Article 9(1)(i)");
        assert!(said.0 == "not_said" && said.1.contains("for its name says"), "{name}: {}", said.1);
    }
}

/// What is not asked for is not asked for by a reason that is true: Annex VIII, 1(a)(iii), Articles 9(1)(g) and (k), 25 and 28.
#[test]
fn reasons_are_true() {
    let buns = mixed("Cinnamon buns", "plain flour .... 600 g\nwhole milk .... 390 g\ncinnamon .... 10 g\n", MIX);
    let (standing, words, _) = answers(&buns, "Article 9(1)(d)");
    assert!(standing == "not_asked" && words.starts_with("of cinnamon, which its name names, under 2 %"), "{words}");
    let punch = |line: &str| {
        answers(&mixed("Punch", &format!("{line} .... 300 g\nwater .... 700 g\n"), MIX), "Article 9(1)(k)").1
    };
    assert!(punch("rum").contains("nobody says whether this is one"), "{}", punch("rum"));
    assert!(punch("sloe plonk").contains("whether there is any in sloe plonk is not known"), "{}", punch("sloe plonk"));
    assert_eq!(punch("lemon juice"), "there is none in it");
    // Frozen in its last step; and filled with what keeps in the cold, before an oven and behind it.
    let ice = mixed("Ice", "whole milk .... 1 kg\n", "freeze: wait 4 h, at -18 C\n");
    assert_eq!(answers(&ice, "Article 9(1)(g)").0, "not_said");
    let filled = |steps: &str| {
        let recipe = format!(
            "recipe Slices\npart custard\nwhole milk .... 600 g\nkeeps 2 days, chilled\nboil: tend 9 min, using hob\n\n\
             part slices\npuff pastry .... 500 g\ncustard .... all\n{steps}"
        );
        answers(&recipe, "Article 9(1)(g)").0
    };
    let (fill, bake) =
        ("fill: hands 1 min\n    Fill {puff pastry} with {custard}.\n", "bake: tend 20 min, using oven at 190 C\n");
    assert_eq!((filled(fill), filled(&format!("{bake}{fill}"))), ("not_said".to_owned(), "not_said".to_owned()));
    assert_eq!(filled(&format!("{fill}{bake}")), "not_asked");
}
