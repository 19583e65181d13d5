//! Labels against the texts of both laws: figures by hand from the larder's sources, the words of allergens, what is said in the file, and
//! how high the type is on label paper.

#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "label_law/named.rs"]
mod named;
#[path = "examples/one_file.rs"]
mod one_file;

use serde_json::Value;
use std::fs;
use std::path::Path;
use std::process::Command;

fn run(folder: &Path, recipe: &str, arguments: &[&str]) -> (bool, String) {
    // Problems are told on standard output, and what was asked wrongly on the other.
    one_file::run(folder, recipe, arguments, false)
}

fn label(recipe: &str, arguments: &[&str]) -> Value {
    let folder = tempfile::tempdir().expect("a folder");
    let (fine, text) = run(folder.path(), recipe, &[&["label", "a.miche", "--format", "json"], arguments].concat());
    assert!(fine, "{text}");
    let all: Value = serde_json::from_str(&text).expect("JSON");
    all["labels"][0].clone()
}

fn page(recipe: &str, arguments: &[&str]) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    let (fine, text) = run(folder.path(), recipe, &[&["label", "a.miche", "--format", "markdown"], arguments].concat());
    assert!(fine, "{text}");
    text
}

fn amount(label: &Value, nutrient: &str, unit: &str) -> f64 {
    let sums = label["nutrition_batch"].as_array().expect("a list");
    let found = sums.iter().find(|sum| sum["nutrient"] == nutrient && sum["unit"] == unit);
    found.unwrap_or_else(|| panic!("no {nutrient}: {label}"))["amount"].as_f64().expect("a figure")
}

fn is_near(ours: f64, wanted: f64) -> bool {
    (ours - wanted).abs() < 1e-4 * wanted.abs().max(1.0)
}

/// USDA SR26 ABBREV 20083, bread flour: protein 11.98 % by a factor of 5.70 (SR28 FOOD_DES), carbohydrate 72.53 % with 2.4 % of fibre,
/// fat 1.66 %. Regulation (EU) 1169/2011, Annex I: protein is nitrogen x 6.25, 13.136 %; carbohydrate is without fibre, and what is left
/// of 100, so 72.53 - 2.4 - 1.156 = 68.974 %. Annex XIV: 37, 17, 17 and 8 kJ, 9, 4, 4 and 2 kcal a gram.
#[test]
fn protein_is_nitrogen_times_six_and_a_quarter() {
    let flour = label("recipe Flour\nstrong white flour .... 100 g\n", &[]);
    let protein = 11.98 * 6.25 / 5.7;
    let carbohydrate = 72.53 - 2.4 - (protein - 11.98);
    assert!(is_near(amount(&flour, "protein", "g"), protein));
    assert!(is_near(amount(&flour, "carbohydrate", "g"), carbohydrate));
    let kj = 37.0 * 1.66 + 17.0 * (carbohydrate + protein) + 8.0 * 2.4;
    let kcal = 9.0 * 1.66 + 4.0 * (carbohydrate + protein) + 2.0 * 2.4;
    assert!(is_near(amount(&flour, "energy", "kJ"), kj) && is_near(amount(&flour, "energy", "kcal"), kcal), "{flour}");
    let american = label("recipe Flour\nstrong white flour .... 100 g\n", &["--law", "us"]);
    assert!(is_near(amount(&american, "protein", "g"), 11.98), "{american}");
    assert!(is_near(amount(&american, "total carbohydrate", "g"), 72.53));
}

/// USDA SR26 ABBREV 14037, spirits of 80 proof: what water leaves of 100 is alcohol, 33.4 %. 29 kJ and 7 kcal a gram (Annex XIV): a rum
/// syrup of 100 g of rum has 233.8 kcal of it, and a baba soaked in 32 g of it 74.8 (the 74 that were missing).
#[test]
fn alcohol_acids_and_polyols_are_energy() {
    let rum = label("recipe Rum\nrum .... 100 g\n", &[]);
    assert!(
        is_near(amount(&rum, "energy", "kcal"), 33.4 * 7.0) && is_near(amount(&rum, "energy", "kJ"), 33.4 * 29.0),
        "{rum}"
    );
    let acid = label("recipe Acid\ncitric acid .... 100 g\n", &[]);
    assert!(is_near(amount(&acid, "energy", "kcal"), 300.0), "{acid}");
    let polyol = label("recipe Polyol\nxylitol .... 100 g\n", &[]);
    assert!(is_near(amount(&polyol, "energy", "kcal"), 240.0) && is_near(amount(&polyol, "energy", "kJ"), 1000.0));
    assert!(is_near(amount(&polyol, "of which polyols", "g"), 100.0));
    let none = label("recipe Polyol\nerythritol .... 100 g\n", &[]);
    assert!(is_near(amount(&none, "energy", "kcal"), 0.0), "{none}");
}

/// USDA SR26 ABBREV 01145 and 20083: saturates 51.368 and 0.244 %.
#[test]
fn saturates_stand_in_the_table() {
    let both = label("recipe Paste\nstrong white flour .... 100 g\nbutter .... 100 g\n", &[]);
    assert!(is_near(amount(&both, "of which saturates", "g"), 51.368 + 0.244), "{both}");
    let shown = page("recipe Paste\nstrong white flour .... 100 g\nbutter .... 100 g\n", &[]);
    assert!(shown.contains("of which saturates") && shown.contains("kJ / "), "{shown}");
}

/// 21 CFR 101.9(c): what the table of the United States holds, in its order, as ESHA's Genesis manual (Linear Full and Simplified) lists it
/// of 2016 (seen); its daily values, (c)(8)(iv) and (c)(9), as UpToDate prints them (seen).
#[test]
fn the_american_table_is_whole() {
    let recipe = "recipe Rolls\nmakes 10 rolls\nstrong white flour .... 1 kg\ncaster sugar .... 100 g\nwhole milk .... 600 g\nsalt .... 20 g\ndivide 10 x 172 g\n";
    let rolls = label(recipe, &["--law", "us"]);
    let names: Vec<&str> = rolls["nutrition_batch"]
        .as_array()
        .expect("a list")
        .iter()
        .filter_map(|sum| sum["nutrient"].as_str())
        .collect();
    let wanted = [
        "calories",
        "total fat",
        "saturated fat",
        "trans fat",
        "cholesterol",
        "sodium",
        "total carbohydrate",
        "dietary fiber",
        "total sugars",
        "added sugars",
        "protein",
        "vitamin D",
        "calcium",
        "iron",
        "potassium",
    ];
    assert_eq!(names, wanted);
    // The sugar of milk is none that was added: 99.8 % of 100 g (SR26 19335).
    assert!(is_near(amount(&rolls, "added sugars", "g"), 99.8));
    // SR26 01077: 10 mg of cholesterol in 100 g of milk.
    assert!(is_near(amount(&rolls, "cholesterol", "mg"), 60.0), "{rolls}");
    let shown = page(recipe, &["--law", "us"]);
    assert!(shown.contains("% daily value") && shown.contains("1 serving per container"), "{shown}");
    // Two and three servings stand in a container of their own column.
    let pack = page(recipe, &["--law", "us", "--pack", "2"]);
    assert!(pack.contains("per container") && pack.contains("2 servings per container"), "{pack}");
    let (fine, why) = run(tempfile::tempdir().expect("a folder").path(), recipe, &["label", "a.miche", "--pack", "11"]);
    assert!(!fine && why.contains("10 pieces"), "{why}");
}

/// Regulation (EU) 1169/2011, Annex II and Article 21(1)(b) as Commission notice 2017/C 428/01 quotes them (seen); 21 USC 343(w), as mass.gov and cirs-group.com tell it
/// (seen).
#[test]
fn allergens_are_said_in_the_words_of_each_law() {
    let recipe = "recipe Tart\nstrong white flour .... 100 g\nground almonds .... 50 g\nmarzipan .... 20 g\npine nuts .... 10 g\n\
                  whole milk .... 10 g\nduck egg .... 20 g\nrye bread .... 10 g\nsmoked salmon .... 10 g\nrefined soybean oil .... 5 g\n\
                  worcestershire sauce .... 2 g\nsun-dried tomatoes .... 5 g\n";
    let shown = page(recipe, &[]);
    for words in [
        "strong white flour (**wheat**)",
        "ground **almonds**",
        "marzipan (**almonds**)",
        "whole **milk**",
        "duck **egg**",
        "**rye** bread (**wheat**)",
        "smoked salmon (**fish**)",
        "sun-dried tomatoes (**sulphur dioxide and sulphites**)",
    ] {
        assert!(shown.contains(words), "{words}: {shown}");
    }
    assert!(shown.contains("pine nuts, ") || shown.contains("pine nuts."), "no nut of Annex II: {shown}");
    assert!(shown.contains("refined soybean oil,"), "{shown}");
    assert!(shown.contains("worcestershire sauce (**barley**, **fish**)"), "{shown}");
    let american = label(recipe, &["--law", "us"]);
    let contains: Vec<&str> =
        american["contains"].as_array().expect("a list").iter().filter_map(Value::as_str).collect();
    assert!(contains.contains(&"tree nuts (almonds, pine nuts)"), "{contains:?}");
    assert!(
        contains.contains(&"duck egg")
            && !contains.contains(&"eggs")
            && contains.iter().any(|one| one.starts_with("fish (")),
        "{contains:?}"
    );
    assert!(!contains.contains(&"soybeans"), "highly refined: {contains:?}");
    let mixed = page("recipe Tart\nmixed nuts .... 50 g\n", &[]);
    assert!(mixed.contains("which nuts"), "{mixed}");
}

/// No entry of the larder leaves a cereal, a nut or a species unsaid, but for those that say themselves that they are of any kind.
#[test]
fn the_larder_says_the_species() {
    use miche::model::allergen::Law;
    let any = [
        "nuts",
        "vegetable stock cube",
        "stock cube",
        "fish",
        "fish stock",
        "fish sauce",
        "worcestershire sauce",
        "shellfish",
        "sourdough starter",
    ];
    let mut faults = Vec::new();
    for facts in miche::model::larder::brought_entries() {
        for law in [Law::Eu, Law::Us] {
            let said = miche::model::species::said(law, facts.allergens.iter().map(String::as_str));
            if said.iter().any(|one| one.lacks_species(law)) && !any.contains(&facts.name.as_str()) {
                faults.push(format!("{}: {:?}", facts.name, facts.allergens));
            }
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
    let folder = tempfile::tempdir().expect("a folder");
    let (fine, table) = run(folder.path(), "", &["explain", "larder"]);
    assert!(fine && table.contains("CEREALS CONTAINING GLUTEN: WHEAT") && table.contains("marzipan"), "{table}");
}

const BUSINESS: &str = "recipe Quay rolls\nmakes 4 rolls\nsold as Wheat rolls\nbest before 3 days\nstore Cool and dry.\nbatch L2311\n\
business Skerrow bakehouse, 1 Quay Street\nstrong white flour .... 400 g\nwater .... 240 g\ndivide 4 x 160 g\n";

/// Regulation (EU) 1169/2011, Articles 9 (its points as a public label program lists them, seen) and 24 with Annex X (as ifsqn.com quotes them, seen): what a file says
/// stands on the label; a `use by` says why.
#[test]
fn what_the_file_says_stands_on_the_label() {
    let shown = page(BUSINESS, &["--made", "2027-03-30"]);
    for words in ["**Wheat rolls**", "2 April 2027", "Cool and dry", "L2311", "1 Quay Street"] {
        assert!(shown.contains(words), "{words}: {shown}");
    }
    let undated = page(BUSINESS, &[]);
    assert!(undated.contains("3 days from the day on which it is made") && undated.contains("--made"), "{undated}");
    let used =
        page(&BUSINESS.replace("best before 3 days", "use by 2 days, raw cream spoils"), &["--made", "2027-02-27"]);
    assert!(used.contains("Use by") && used.contains("1 March 2027"), "{used}");
    let folder = tempfile::tempdir().expect("a folder");
    for (line, check) in [
        ("use by 2 days", "stray-line"),
        ("best before 0 days", "impossible-number"),
        ("best before 36 h", "impossible-number"),
        ("best before 3 days\nbest before 4 days", "twice-named"),
        ("store", "stray-line"),
    ] {
        let (fine, text) = run(folder.path(), &BUSINESS.replace("best before 3 days", line), &["check", "a.miche"]);
        assert!(!fine && text.contains(check), "{line}: {text}");
    }
    let bare = page("recipe Rolls\nstrong white flour .... 400 g\nwater .... 240 g\n", &[]);
    assert!(bare.contains("Not said yet") && bare.contains("business"), "{bare}");
}

/// A day says its lot and business for all that it makes, and for when that is.
#[test]
fn a_day_says_its_lot() {
    let folder = tempfile::tempdir().expect("a folder");
    let day =
        "day Market\nready 2027-04-10 08:00\nbatch L99\nbusiness The night shift, Skerrow\nmake 8 of \"a.miche\"\n";
    fs::write(folder.path().join("day.miche"), day).expect("a file");
    let (fine, text) = run(folder.path(), BUSINESS, &["label", "day.miche", "--format", "markdown"]);
    assert!(fine && text.contains("L99") && !text.contains("L2311") && text.contains("night shift"), "{text}");
    assert!(text.contains("13 April 2027"), "{text}");
}

/// `is butter`: all that is known of butter, its allergens first of all; and a pack's own fat takes the saturates with it.
#[test]
fn an_entry_may_be_another() {
    let folder = tempfile::tempdir().expect("a folder");
    let larder = "ingredient fancy butter\nis harbour butter\n\ningredient harbour butter\nis butter\ncosts 9 per kg\n\ningredient rich cream\nis heavy cream\nfat 48 %\n";
    fs::write(folder.path().join("larder.miche"), larder).expect("a file");
    let recipe = "recipe Paste\nuse \"larder.miche\"\nfancy butter .... 100 g\n";
    let (fine, text) = run(folder.path(), recipe, &["label", "a.miche", "--format", "json"]);
    assert!(fine, "{text}");
    let all: Value = serde_json::from_str(&text).expect("JSON");
    assert!(is_near(amount(&all["labels"][0], "fat", "g"), 81.11), "{text}");
    assert!(text.contains("\"said\": [\n") && text.contains("\"milk\""), "{text}");
    // Heavy cream, SR26 01053: 23.032 of 37.00 g of fat are saturated; of 48 g as many in proportion.
    let (_, cream) = run(
        folder.path(),
        "recipe C\nuse \"larder.miche\"\nrich cream .... 100 g\n",
        &["label", "a.miche", "--format", "json"],
    );
    let all: Value = serde_json::from_str(&cream).expect("JSON");
    assert!((amount(&all["labels"][0], "of which saturates", "g") - 48.0 * 23.032 / 37.0).abs() < 0.001, "{cream}");
    for (block, words) in [
        ("ingredient x\nis y\n\ningredient y\nis x\n", "cannot be what it is itself"),
        ("ingredient x\nis x\n", "cannot be what it is itself"),
        ("ingredient x\nis moon dust\n", "no ingredient that a larder knows"),
    ] {
        fs::write(folder.path().join("larder.miche"), block).expect("a file");
        let (fine, text) = run(folder.path(), "", &["check", "larder.miche"]);
        assert!(!fine && text.contains(words), "{block}: {text}");
    }
}

/// One missing trace does not blank a row that it cannot move by its rounding; what could move it is said with its share.
#[test]
fn a_trace_does_not_blank_a_row() {
    let with = |grams: &str| page(&format!("recipe R\nstrong white flour .... 10 kg\nmoon meal .... {grams}\n"), &[]);
    let row = |page: &str, name: &str| {
        page.lines().find(|line| line.trim_start_matches(['|', ' ']).starts_with(name)).expect("a row").to_owned()
    };
    let trace = with("0.01 g");
    assert!(!row(&trace, "salt").contains("at least"), "{trace}");
    let much = with("3 kg");
    assert!(row(&much, "protein").contains("not known") && much.contains("23.1 %"), "{much}");
}

/// Regulation (EU) 1169/2011, Article 13(2) and (3) (by smartlabel.fr, Minimal size for fonts, seen): an `x` of 1.2 mm at least, 0.9 mm on
/// small packs. Measured: the label is printed with a name of nothing but `x` as an ingredient, drawn at 1200 dots an inch by another
/// program, and the lowest row of signs of that ingredient is counted.
#[test]
fn the_type_on_label_paper_is_as_high_as_the_law_wants() {
    let folder = tempfile::tempdir().expect("a folder");
    let recipe = "recipe xx\nmakes 1 x\nstrong white flour .... 100 g\nxxxxxx .... 50 g\ndivide 1 x 150 g\n";
    for (more, least) in [(&[][..], 1.2), (&["--small-pack"][..], 0.9)] {
        let arguments =
            [&["label", "a.miche", "--sheet", "1 x 1, margins 20 x 20", "--copies", "1", "-o", "l.pdf"], more].concat();
        let (fine, text) = run(folder.path(), recipe, &arguments);
        assert!(fine, "{text}");
        let boxes = Command::new("pdftotext")
            .args(["-bbox", "l.pdf", "-"])
            .current_dir(folder.path())
            .output()
            .expect("poppler");
        let boxes = String::from_utf8(boxes.stdout).expect("UTF-8");
        let line =
            boxes.lines().find(|line| line.contains(">xxxxxx<") || line.contains(">xxxxxx.<")).expect("the ingredient");
        let of = |name: &str| -> f64 {
            let from = line.find(&format!("{name}=\"")).expect("a place") + name.len() + 2;
            line[from..].split('"').next().expect("a number").parse().expect("a number")
        };
        // Points to dots of 1200 to the inch.
        let scale = 1200.0 / 72.0;
        let cut = |points: f64| format!("{}", (points * scale).round());
        let arguments = [
            "-r",
            "1200",
            "-gray",
            "-x",
            &cut(of("xMin")),
            "-y",
            &cut(of("yMin")),
            "-W",
            &cut((of("xMax") - of("xMin")) * 0.8),
            "-H",
            &cut(of("yMax") - of("yMin")),
            "-singlefile",
            "l.pdf",
            "x",
        ];
        let drawn = Command::new("pdftoppm").args(arguments).current_dir(folder.path()).output().expect("poppler");
        assert!(drawn.status.success(), "{drawn:?}");
        let image = fs::read(folder.path().join("x.pgm")).expect("a picture");
        let height = dark_rows(&image) as f64 / 1200.0 * 25.4;
        assert!(height >= least && height < least * 2.0, "{height} mm, {least} wanted");
    }
}

/// How many rows of a grey picture (PGM, binary) hold something dark.
fn dark_rows(image: &[u8]) -> usize {
    let mut fields = Vec::new();
    let mut at = 0;
    while fields.len() < 4 {
        let end = image[at..].iter().position(u8::is_ascii_whitespace).expect("a head") + at;
        fields.push(String::from_utf8_lossy(&image[at..end]).into_owned());
        at = end + 1;
    }
    let width: usize = fields[1].parse().expect("a width");
    image[at..].chunks(width).filter(|row| row.iter().any(|dot| *dot < 100)).count()
}

#[test]
fn label_paper_is_filled_and_what_does_not_fit_is_said() {
    let folder = tempfile::tempdir().expect("a folder");
    let (fine, text) =
        run(folder.path(), BUSINESS, &["label", "a.miche", "--sheet", "2 x 4", "--made", "2027-03-30", "-o", "l.html"]);
    assert!(fine, "{text}");
    let page = fs::read_to_string(folder.path().join("l.html")).expect("written");
    assert_eq!(page.matches("<section class=\"label\"").count(), 4, "one for each roll");
    assert!(page.contains("210mm 297mm") && !page.contains("http-equiv=\"refresh\""));
    for (arguments, words) in [
        (&["--sheet", "6 x 10", "--made", "2027-03-30", "-o", "l.pdf"][..], "smallest type that is lawful"),
        (&["--sheet", "2 x 4", "-o", "l.pdf"], "--made"),
        (&["--sheet", "3 x 8"], "-o labels.pdf"),
        (&["--sheet", "3 by 8", "-o", "l.pdf"], "in mm"),
        (&["--sheet", "3 x 8", "--copies", "0", "-o", "l.pdf"], "nothing would be printed"),
        (&["--small-pack"], "--sheet"),
        (&["--serving", "12 %"], "55 g"),
        (&["--pack", "0"], "one piece"),
    ] {
        let (fine, text) = run(folder.path(), BUSINESS, &[&["label", "a.miche"], arguments].concat());
        assert!(!fine && text.contains(words), "{arguments:?}: {text}");
    }
}

/// Regulation (EU) 1169/2011, Annex VIII, 3, as article R112-17 of the French Code de la consommation has it of the directive before (seen): the quantity is that of the ingredient as it was used, on the weight of what
/// is sold, where water has left: 500 g of plums in 600 g of jam are 83.3 %, and not the 53.8 % of 930 g in the pan.
#[test]
fn jam_says_the_fruit_that_was_used() {
    let jam = "recipe Plum jam\n\npart Jam\nmakes 600 g, loss 35.48 %\nplums .... 500 g\nsugar .... 400 g\nlemon juice .... 30 g\n\ncook: hands 40 min\n    Boil {plums}, {sugar} and {lemon juice}.\n    until it wrinkles on a cold plate\n";
    let label = label(jam, &[]);
    let quantities = label["quantities"].as_array().expect("a list");
    let plums = quantities.iter().find(|one| one["ingredient"] == "plums").expect("plums are in the name");
    assert!(is_near(plums["percent"].as_f64().expect("a figure"), 500.0 / 600.0 * 100.0), "{plums}");
    let page = page(jam, &[]);
    assert!(page.contains("plums 83 %"), "{page}");
    assert!(page.contains("Net weight of the batch: 600 g, after a loss of 35.48 % in the making."), "{page}");
}

/// Regulation (EU) 1169/2011, Annex VII, Part E, 2(b) (from memory): a mixture of spices needs no list of its own below 2 % of what is
/// sold. 21 CFR 101.4(b)(2) (from memory) knows no such thing.
#[test]
fn a_pinch_of_mixed_spice_needs_no_list() {
    let buns = |grams: &str| {
        format!(
            "recipe Buns\nstrong white flour .... 1000 g\nwater .... 600 g\nmixed spice .... {grams} g\nfast yeast .... 10 g\nsalt .... 20 g\n"
        )
    };
    let named = |grams, arguments: &[&str]| {
        label(&buns(grams), arguments)["lists_not_said"]
            .as_array()
            .expect("a list")
            .iter()
            .any(|one| one == "mixed spice")
    };
    assert!(!named("30", &[]), "30 g of 1660 g");
    assert!(named("40", &[]), "40 g of 1670 g");
    assert!(named("30", &["--law", "us"]));
}

/// USDA SR26 19908, turbinado sugar: 99.80 g of carbohydrate, 99.19 g of sugars, no figure of fibre. It can be 0.61 g at most, and the
/// sugars are there whatever it is (Annex XIV: 17 kJ a gram of carbohydrate, 8 of fibre). Of lemonade of which only the sugar is known,
/// that is known to give energy.
#[test]
fn what_is_open_is_no_more_than_what_is_known_leaves() {
    let folder = tempfile::tempdir().expect("a folder");
    let larder = "ingredient cane crystals\nwater 0.03 %\nfat 0 %\nsalt 0.01 %\nsugar 99.19 %\nprotein 0 %\ncarbohydrate 99.8 %\nis sugar\n\
                  contains nothing\nsource USDA SR26 ABBREV 19908\n";
    fs::write(folder.path().join("l.miche"), larder).expect("a file");
    let row = |recipe: &str, nutrient: &str, unit: &str| {
        let (fine, text) = run(folder.path(), recipe, &["label", "a.miche", "--format", "json"]);
        assert!(fine, "{text}");
        let all: Value = serde_json::from_str(&text).expect("JSON");
        let rows = all["labels"][0]["nutrition_batch"].as_array().expect("rows").clone();
        let row = rows.into_iter().find(|row| row["nutrient"] == nutrient && row["unit"] == unit).expect("a row");
        ["amount", "at_most"].map(|key| row[key].as_f64().expect("a number"))
    };
    let sugar = "recipe Sugar\nuse \"l.miche\"\ncane crystals .... 100 g\n";
    for (nutrient, unit, least, most) in [
        ("fibre", "g", 0.0, 0.61),
        ("carbohydrate", "g", 99.19, 99.8),
        ("of which sugars", "g", 99.19, 99.19),
        ("energy", "kJ", 99.19 * 17.0 + 0.61 * 8.0, 99.8 * 17.0),
    ] {
        let [amount, at_most] = row(sugar, nutrient, unit);
        assert!(is_near(amount, least) && is_near(at_most, most), "{nutrient}: {amount} to {at_most}");
    }
    let (_, page) = run(folder.path(), sugar, &["label", "a.miche", "--format", "markdown"]);
    assert!(page.contains("at least 1691 kJ"), "{page}");
}

/// A part of one ingredient is that ingredient: `butter block (butter)` beside `butter` would be one food at two places.
#[test]
fn a_part_of_one_ingredient_is_no_compound() {
    let page = page(
        "recipe Turnovers\npart butter block\nbutter .... 500 g, cold\nbeat out: hands 8 min\n    Beat {butter} flat.\n\n\
         part dough\nstrong white flour .... 1 kg\nwater .... 500 g\nbutter .... 60 g\nbutter block .... all\n",
        &[],
    );
    let list = page.lines().find(|line| line.starts_with("Ingredients")).expect("a list");
    assert!(!list.contains("block") && list.matches("butter").count() == 1, "{list}");
}
