//! Dishes that the USDA published with their ingredients by weight and with energy, saturates and added sugars: the labels of both laws come
//! to the published figures. The dishes stand in `tests/data/published-nutrition.tsv`, their sources at its head.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::Value;
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs;
use std::path::Path;
use std::process::Command;

/// Fats whose saturates the USDA revised between the release behind the published dishes (FNDDS 2.0 of 2003-2004) and Release 26: SR code,
/// and g in 100 g. Soybean oil and the two cheeses were seen in an earlier release, `ABBREV.txt` as github.com/Leekailklk/mypython has it, which
/// lacks the two shortenings: these are solved from the published dishes themselves, by least squares over all whose saturates are compared,
/// and rounded to 0.1 g. (Solved likewise, the three that were seen came to 14.0, 21.9 and 2.8.) Release 26 has 25.0, 18.1, 15.7, 19.3 and
/// 1.7. Two figures are solved, two dozen are compared: a wrong sum would leave the dishes apart from each other. Energy is of Release 26
/// throughout.
const REVISED: [(&str, f64); 5] = [
    ("4615", 20.0),   // vegetable shortening, in eleven of the dishes
    ("4651", 14.8),   // oil for bakers, in four
    ("4044", 14.4),   // soybean oil, in three, seen
    ("1017", 21.966), // cream cheese, in two, seen
    ("1012", 2.853),  // cottage cheese, in three, seen
];

/// What the energy of a dish may be off by, %, beside half a kcal in 100 g, to which it is published: foods were revised between the releases.
/// The most is 1.1 %, in a blintz, cottage cheese having gone from 103 to 98 kcal (the old figure in that earlier release, seen). Dishes of a food that was revised by more have a tolerance of their own in the file.
const RELEASES: f64 = 1.0;
/// Of saturates, %: what is left of the releases and of figures solved to 0.1 g, beside 0.02 g.
const SATURATES: f64 = 1.5;
/// The EU counts 4 kcal a gram of carbohydrate and protein, 9 of fat and 2 of fibre (Annex XIV), the USDA by each food: of sugar 3.87, of
/// cocoa a third less, of wheat flour some more for fat and less for protein. The most that makes here is 3.8 %, in a chocolate cake.
const ANNEX_XIV: f64 = 4.0;

#[derive(Default)]
struct Dish {
    code: String,
    name: String,
    /// What the oven takes, or boiling adds, in % of what goes in.
    moisture: f64,
    /// SR code and % of what goes in.
    fat: Option<(String, f64)>,
    tolerance: Option<f64>,
    why: String,
    portions: Vec<Portion>,
    added: Option<f64>,
    ingredients: Vec<(String, f64)>,
}

struct Portion {
    grams: f64,
    kcal: f64,
    saturates: f64,
}

impl Dish {
    fn kcal(&self) -> f64 {
        self.portions[0].kcal / self.portions[0].grams * 100.0
    }

    fn saturates(&self) -> f64 {
        self.portions[0].saturates / self.portions[0].grams * 100.0
    }

    /// Of energy, %.
    fn tolerance(&self) -> f64 {
        self.tolerance.unwrap_or(RELEASES)
    }

    /// What the file says against comparing saturates.
    fn has_saturates(&self) -> bool {
        !self.why.contains("saturates are not compared")
    }
}

/// Dishes, blends and foods of the file.
struct Table {
    dishes: Vec<Dish>,
    foods: BTreeMap<String, Vec<String>>,
}

impl Table {
    fn read() -> Self {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/published-nutrition.tsv");
        let text = fs::read_to_string(path).expect("the table");
        let mut table = Self { dishes: Vec::new(), foods: BTreeMap::new() };
        for line in text.lines().filter(|line| !line.starts_with('#')) {
            let fields: Vec<&str> = line.split('\t').collect();
            let number = |at: usize| fields[at].parse::<f64>().unwrap_or_else(|why| panic!("{line}: {why}"));
            if fields[0] == "food" {
                table.foods.insert(fields[1].into(), fields[2..].iter().map(|field| (*field).into()).collect());
                continue;
            }
            if fields[0] == "dish" {
                let fat = fields[4].split_once(' ').map(|(code, share)| (code.into(), share.parse().expect("a share")));
                table.dishes.push(Dish {
                    code: fields[1].into(),
                    name: fields[2].into(),
                    moisture: number(3),
                    fat,
                    tolerance: fields[5].parse().ok(),
                    why: fields[6].into(),
                    ..Dish::default()
                });
                continue;
            }
            let dish = table.dishes.last_mut().expect("a dish");
            assert_eq!(dish.code, fields[1], "{line}");
            match fields[0] {
                "portion" => dish.portions.push(Portion { grams: number(2), kcal: number(3), saturates: number(4) }),
                "added" => dish.added = Some(number(2)),
                "ingredient" => dish.ingredients.push((fields[2].into(), number(3))),
                other => panic!("{other}"),
            }
        }
        table
    }

    fn published(&self) -> impl Iterator<Item = &Dish> {
        self.dishes.iter().filter(|dish| !dish.portions.is_empty())
    }

    fn dish(&self, code: &str) -> Option<&Dish> {
        self.dishes.iter().find(|dish| dish.code == code)
    }

    fn name(&self, code: &str) -> &str {
        &self.foods[code][0]
    }

    /// Blocks for the foods that the larder of the program lacks, and over it for the fats that were revised.
    fn larder(&self) -> String {
        let mut text = String::new();
        for (code, fields) in &self.foods {
            let revised = REVISED.iter().find(|(fat, _)| fat == code).map(|(_, saturates)| saturates.to_string());
            if fields[1] == "larder" {
                if let Some(saturates) = revised {
                    let _ = write!(
                        text,
                        "ingredient {}\nsaturates {saturates} %\nsource An earlier release of the USDA, or solved\n\n",
                        fields[0]
                    );
                }
                continue;
            }
            let _ = writeln!(text, "ingredient {}\nenergy {} kcal", fields[0], fields[2]);
            let shares = ["water", "", "protein", "fat", "saturates", "carbohydrate", "sugar", "fibre"];
            for (share, figure) in shares.iter().zip(&fields[1..]).filter(|(share, _)| !share.is_empty()) {
                let figure = if *share == "saturates" { revised.as_ref().unwrap_or(figure) } else { figure };
                let _ = writeln!(text, "{share} {figure} %");
            }
            let sodium: f64 = fields[9].parse().expect("sodium");
            // The tables have sodium; salt is 2.5 times as much (Annex I of the EU's regulation).
            let _ = write!(text, "salt {:.4} %\ncontains nothing\nsource USDA SR26 {code}\n\n", sodium * 2.5 / 1000.0);
        }
        text
    }

    /// The lines of a part and what they weigh together; what is a blend, such as milk of an average fat, is opened.
    fn lines(&self, dish: &Dish) -> BTreeMap<String, f64> {
        let mut lines: BTreeMap<String, f64> = BTreeMap::new();
        for (code, grams) in &dish.ingredients {
            match self.dish(code) {
                Some(blend) if blend.portions.is_empty() => {
                    for (name, share) in self.lines(blend) {
                        *lines.entry(name).or_default() += share * grams / 100.0;
                    }
                }
                Some(_) => {}
                None => *lines.entry(self.name(code).into()).or_default() += grams,
            }
        }
        lines
    }

    /// A part of the dish's own name, and what comes out of it.
    fn part(&self, dish: &Dish) -> (String, f64) {
        let mut lines = self.lines(dish);
        let raw: f64 = lines.values().sum();
        if let Some((code, share)) = &dish.fat {
            *lines.entry(self.name(code).into()).or_default() += raw * share / 100.0;
        }
        if dish.moisture > 0.0 {
            *lines.entry("water".into()).or_default() += raw * dish.moisture / 100.0;
        }
        let goes_in: f64 = lines.values().sum();
        let lost = (-dish.moisture).max(0.0) * raw / 100.0;
        let mut text = format!("part {}\n", plain(&dish.name));
        for (name, grams) in &lines {
            let _ = writeln!(text, "{name} .... {grams:.4} g");
        }
        let _ = write!(text, "makes {:.4} g", goes_in - lost);
        if lost > 0.0 {
            let _ = write!(text, ", loss {:.4} %", lost / goes_in * 100.0);
        }
        (text + "\n", goes_in - lost)
    }

    /// The formula of a dish; another dish that it is made of is a part, at the size at which all of it is used.
    fn formula(&self, dish: &Dish) -> String {
        let of_dish = |(code, grams): &(String, f64)| {
            self.dish(code).filter(|dish| !dish.portions.is_empty()).map(|dish| (dish, *grams))
        };
        let (parts, makes) = match dish.ingredients.iter().find_map(of_dish) {
            None => self.part(dish),
            Some((inner, grams)) => {
                assert!(dish.moisture == 0.0 && dish.fat.is_none(), "{}", dish.name);
                let (part, out) = self.part(inner);
                let mut text = format!("{part}\npart put together\n{} .... {out:.4} g\n", plain(&inner.name));
                let mut makes = out;
                for (name, of) in self.lines(dish) {
                    makes += of * out / grams;
                    let _ = writeln!(text, "{name} .... {:.4} g", of * out / grams);
                }
                let _ = writeln!(text, "makes {makes:.4} g");
                (text, makes)
            }
        };
        format!("recipe Published {}\nuse \"larder.miche\"\nmakes {makes:.4} g\n\n{parts}", plain(&dish.name))
    }
}

/// A name without what the language has a meaning for.
fn plain(name: &str) -> String {
    name.to_lowercase().replace(|letter: char| !letter.is_alphabetic() && letter != ' ' && letter != '-', "")
}

fn label(folder: &Path, arguments: &[&str]) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_miche"))
        .args(["label", "a.miche"])
        .args(arguments)
        .current_dir(folder)
        .output()
        .expect("it runs");
    let said = String::from_utf8([output.stdout.clone(), output.stderr].concat()).expect("UTF-8");
    assert!(output.status.success(), "{said}");
    String::from_utf8(output.stdout).expect("UTF-8")
}

/// A row of the label, in 100 g of what comes out; what is not known whole is a fault.
fn in_100_g(label: &Value, nutrient: &str, unit: &str) -> f64 {
    let rows = label["nutrition_batch"].as_array().expect("rows");
    let row = rows.iter().find(|row| row["nutrient"] == nutrient && row["unit"] == unit);
    let row = row.unwrap_or_else(|| panic!("no {nutrient}: {label}"));
    assert_eq!(row["is_lower_bound"], false, "{nutrient}: {row}");
    row["amount"].as_f64().expect("an amount") / label["net_g"].as_f64().expect("a weight") * 100.0
}

/// A figure of the printed table of a serving: `| calories | 340 | …`.
fn printed(page: &str, row: &str) -> f64 {
    let line = page.lines().find(|line| line.starts_with(&format!("| {row} |")));
    let cell = line.and_then(|line| line.split('|').nth(2)).unwrap_or_else(|| panic!("no {row}: {page}"));
    cell.trim().trim_end_matches(" g").parse().unwrap_or_else(|why| panic!("{row}: {cell}: {why}"))
}

/// How far apart figures of one dish may be, with `percent` for the tables and `more` for how they are printed.
fn faults(what: &str, ours: f64, published: f64, percent: f64, more: f64, into: &mut Vec<String>) {
    if (ours - published).abs() > published * percent / 100.0 + more {
        into.push(format!("{what}: published {published:.3}, ours {ours:.3}"));
    }
}

#[test]
fn labels_come_to_what_was_published() {
    let table = Table::read();
    let folder = tempfile::tempdir().expect("a folder");
    let folder = folder.path();
    fs::write(folder.join("larder.miche"), table.larder()).expect("a larder");
    let mut wrong = Vec::new();
    let (mut dishes, mut near, mut saturates, mut added) = (0, 0, 0, 0);
    for dish in table.published() {
        let name = &dish.name;
        fs::write(folder.join("a.miche"), table.formula(dish)).expect("a formula");
        let read = |law| -> Value {
            let all: Value = serde_json::from_str(&label(folder, &["--law", law, "--format", "json"])).expect("JSON");
            all["labels"][0].clone()
        };
        let american = read("us");
        let european = read("eu");
        // Published energy is a whole number in 100 g.
        let kcal = in_100_g(&american, "calories", "kcal");
        faults(&format!("{name}, calories"), kcal, dish.kcal(), dish.tolerance(), 0.5, &mut wrong);
        let of_eu = in_100_g(&european, "energy", "kcal");
        faults(&format!("{name}, EU energy"), of_eu, dish.kcal(), dish.tolerance() + ANNEX_XIV, 0.5, &mut wrong);
        dishes += 1;
        near += usize::from((kcal - dish.kcal()).abs() <= 0.5 + dish.kcal() * 0.0025);
        let percent = dish.tolerance.unwrap_or(SATURATES);
        if dish.has_saturates() {
            for (label, row) in [(&american, "saturated fat"), (&european, "of which saturates")] {
                faults(
                    &format!("{name}, {row}"),
                    in_100_g(label, row, "g"),
                    dish.saturates(),
                    percent,
                    0.02,
                    &mut wrong,
                );
            }
            saturates += 1;
        }
        if let Some(sugars) = dish.added {
            let ours = in_100_g(&american, "added sugars", "g") * dish.portions[0].grams / 100.0;
            // Published as energy, of which 3.87 kcal are taken for a gram.
            faults(&format!("{name}, added sugars"), ours, sugars, 1.0, 0.0, &mut wrong);
            added += 1;
        }
        // 21 CFR 101.9(c)(1) and (2): energy to 5 kcal up to 50 and to 10 above; saturates to 0.5 g below 5 g and to 1 g above, and nothing
        // below 0.5 g.
        let portion = &dish.portions[0];
        let serving = format!("{} g", portion.grams);
        // Of less than two portions a label is that of the whole, 101.9(b)(6).
        let page = label(folder, &["--law", "us", "--format", "markdown", "--serving", &serving, "--times", "4"]);
        let step = if portion.kcal <= 50.0 { 2.5 } else { 5.0 };
        let what = format!("{name}, {serving}, printed calories");
        faults(&what, printed(&page, "calories"), portion.kcal, dish.tolerance(), step, &mut wrong);
        if dish.has_saturates() {
            let step = match portion.saturates {
                ..0.5 => 0.5,
                ..5.0 => 0.25,
                _ => 0.5,
            };
            let what = format!("{name}, {serving}, printed saturates");
            faults(&what, printed(&page, "saturated fat"), portion.saturates, percent, step + 0.02, &mut wrong);
        }
    }
    assert!(wrong.is_empty(), "{} figures are missed:\n{}", wrong.len(), wrong.join("\n"));
    // A shift that all dishes share would hide in the tolerance of each: most have no revised food and agree to a quarter of a percent.
    assert_eq!((dishes, saturates, added), (26, 24, 5));
    assert!(near >= 18, "{near} of {dishes} dishes are within 0.25 %");
}

/// The larder of the program stands behind the dishes wherever it has the food: this is a test of its figures too.
#[test]
fn most_foods_are_of_the_larder() {
    let table = Table::read();
    let own = table.foods.values().filter(|fields| fields[1] == "larder").count();
    assert!(own * 3 >= table.foods.len() * 2, "{own} of {}", table.foods.len());
    for (code, _) in REVISED {
        assert!(table.foods.contains_key(code), "{code}");
    }
}

/// A card of TM 10-412, Armed Forces Recipe Service, 2003 (US Government work; Wikisource, pages 123 and 136 of the file, seen): for 100 portions,
/// and in one of them kcal, g of carbohydrate, protein and fat, mg of cholesterol, sodium and calcium, all whole numbers. The cooking spray
/// of the biscuits is taken for oil, which it mostly is.
struct Card {
    formula: &'static str,
    portion: [Option<f64>; 7],
    /// What the figures may be off by, %.
    percent: f64,
}

const CARDS: [Card; 2] = [
    Card {
        formula: "recipe Baking powder biscuits of card D 001 00\nmakes 100 biscuits\nplain flour .... 6 5/8 lb\nskimmed milk powder .... 3 5/8 oz\n\
                  baking powder .... 5 7/8 oz\nsalt .... 1 1/2 oz\nvegetable shortening .... 12 oz\nwater .... 3 7/8 lb\nsunflower oil .... 2 oz\n",
        portion: [Some(148.0), Some(24.0), Some(4.0), Some(4.0), Some(0.0), Some(345.0), Some(115.0)],
        percent: 3.0,
    },
    Card {
        formula: "recipe White bread of card D 009 00 (short time)\nmakes 100 portions\nactive dry yeast .... 3 oz\nwater .... 5 1/8 lb\n\
                  granulated sugar .... 4 1/4 oz\nskimmed milk powder .... 3 5/8 oz\nbread flour .... 9 5/8 lb\nvegetable shortening .... 5 7/8 oz\n\
                  salt .... 1 7/8 oz\n",
        portion: [Some(184.0), Some(34.0), Some(6.0), Some(2.0), Some(0.0), Some(217.0), Some(20.0)],
        percent: 3.0,
    },
];

/// Half of the last digit is how the cards round; 3 % is what the tables of 2003 may differ by from Release 26, and an eighth of an ounce of
/// salt from the weight that was reckoned with.
#[test]
fn portions_come_to_the_cards_of_the_armed_forces() {
    let rows = ["calories", "total carbohydrate", "protein", "total fat", "cholesterol", "sodium", "calcium"];
    let folder = tempfile::tempdir().expect("a folder");
    let mut wrong = Vec::new();
    for card in &CARDS {
        fs::write(folder.path().join("a.miche"), card.formula).expect("a formula");
        let all: Value =
            serde_json::from_str(&label(folder.path(), &["--law", "us", "--format", "json"])).expect("JSON");
        let sums = all["labels"][0]["nutrition_batch"].as_array().expect("rows");
        for (row, published) in rows.iter().zip(card.portion) {
            let Some(published) = published else { continue };
            let found = sums.iter().find(|sum| sum["nutrient"] == *row).unwrap_or_else(|| panic!("no {row}: {all}"));
            let ours = found["amount"].as_f64().expect("an amount") / 100.0;
            let what = format!("{}, {row}", card.formula.lines().next().unwrap_or_default());
            faults(&what, ours, published, card.percent, 0.5, &mut wrong);
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
