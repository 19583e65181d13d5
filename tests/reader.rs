//! `card --for reader`: what a reader is told, in every format, and the data for search engines against the published vocabulary.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "reader/kept.rs"]
mod kept;
#[path = "reader/picture.rs"]
mod picture;
#[path = "reader/vocabulary.rs"]
mod vocabulary;

use picture::png;
use serde_json::Value;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};
use tempfile::TempDir;
use vocabulary::{hold, vocabulary};

const BUNS: &str = "\
recipe Breakwater </script><b>buns & co
makes 12 buns
measures metric
story A bun for a *windy* morning.
picture \"blue tray.png\", Twelve buns on a \"blue\" tray
by Mara Ness
filed under buns, make ahead
choose mixing: machine or hand

part dough
strong white flour ............ 500 g
whole milk .................... 1 1/4 cup = 320 g, at 30 C
butter ........................ 10 %, soft, instead: margarine 60 g, less rich
egg ........................... 1
salt .......................... 9 g
instant yeast ................. 5 g                  [machine]
instant yeast ................. 3 g                  [hand]
keeps 1 day, chilled

mix: hands 10 min, using mixer                       [machine]
    Mix {strong white flour}, {whole milk}, {egg}, {salt} and {instant yeast}, then {butter}.
    until smooth
mix: hands 20 min                                    [hand]
    Stir {strong white flour}, {whole milk}, {egg}, {salt} and {instant yeast}; knead in {butter}.
    until smooth
rest: wait 11 h, at 5 C, up to 16 h

part buns
dough ......................... all
shape: hands 30 s, each
    Shape {dough} into rounds.
    picture \"blue tray.png\", Rounds in a row
bake: tend 15 min, using oven at 210 C
    until gold
";

fn folder() -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("buns.miche"), BUNS).expect("a file");
    fs::write(folder.path().join("blue tray.png"), png(2400, 1200)).expect("a file");
    folder
}

fn run(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_miche")).current_dir(folder).args(arguments).output().expect("the program starts")
}

fn reader(folder: &Path, file: &str, more: &[&str]) -> String {
    let output = run(folder, &[&["card", file, "--for", "reader"], more].concat());
    assert!(output.status.success(), "{file} {more:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).expect("UTF-8")
}

fn json(folder: &Path, more: &[&str]) -> Value {
    serde_json::from_str(&reader(folder, "buns.miche", &[&["--format", "json"], more].concat())).expect("JSON")
}

/// The lines of the ingredients: the amounts as they are said, then the name.
fn lines(page: &Value) -> Vec<String> {
    let groups = page["ingredients"].as_array().expect("groups").iter();
    let lines = groups.flat_map(|group| group["lines"].as_array().expect("lines"));
    let amounts = |line: &Value| {
        let amounts = line["amounts"].as_array().expect("amounts").iter();
        amounts.map(|one| one.as_str().unwrap_or_default().to_owned()).collect::<Vec<String>>().join(" | ")
    };
    lines.map(|line| format!("{} {}", amounts(line), line["ingredient"].as_str().unwrap_or_default())).collect()
}

#[test]
fn ingredients_stand_in_the_authors_words_and_always_in_grams() {
    let folder = folder();
    let written = lines(&json(folder.path(), &[]));
    assert!(written.contains(&"500 g strong white flour".to_owned()), "{written:#?}");
    // Where a weight stands beside a cup, it is the one that is computed with.
    assert!(written.iter().any(|line| line.starts_with("1¼ cup") && line.contains("320 g")), "{written:#?}");
    // A percentage is the bench's: readers get its weight.
    assert!(written.contains(&"50 g butter".to_owned()), "{written:#?}");
    assert!(
        written.iter().any(|line| line.starts_with("1 ") && line.ends_with("egg") && line.contains(" g ")),
        "{written:#?}"
    );
    let twice = lines(&json(folder.path(), &["--times", "2"]));
    assert!(twice.contains(&"1000 g strong white flour".to_owned()), "{twice:#?}");
    assert!(twice.iter().any(|line| line.starts_with("2½ cups")), "{twice:#?}");
    assert!(written.iter().chain(&twice).all(|line| !line.contains('%')));
}

/// The figures are the bench card's own.
#[test]
fn grams_are_those_of_the_batch_card() {
    let folder = folder();
    let card: Value = serde_json::from_str(&String::from_utf8_lossy(
        &run(folder.path(), &["card", "buns.miche", "--format", "json", "--times", "1/3"]).stdout,
    ))
    .expect("JSON");
    let told = lines(&json(folder.path(), &["--times", "1/3"])).join("\n");
    for line in card["parts"][0]["lines"].as_array().expect("lines") {
        let shown = line["shown"].as_str().expect("words");
        assert!(told.contains(shown), "{shown} is not told:\n{told}");
    }
}

#[test]
fn what_stands_in_is_told_at_the_size_of_the_batch_with_what_it_brings() {
    let folder = folder();
    let one = |more: &[&str]| json(folder.path(), more)["ingredients"][0]["stand_ins"][0].clone();
    assert_eq!(one(&[])["amount"], "60 g");
    assert_eq!(one(&["--times", "1/3"])["amount"], "20 g");
    assert_eq!(one(&[])["words"], "less rich");
    let text = reader(folder.path(), "buns.miche", &["--format", "text"]);
    assert!(text.contains("Instead of butter: 60 g margarine, less rich"), "{text}");
}

/// Seven days and ten minutes after it was begun it is the eighth day, and not the second. A litre is 4.2 cups of 236.6 ml.
#[test]
fn a_week_is_seven_days_and_a_litre_is_cups() {
    let folder = folder();
    let jar = "recipe Jar\nmakes 4 jars\nwhite cabbage .... 3 kg\nwater .... 1 l\nsalt .... 75 g\njuniper berry .... 12\n\ncut: hands 10 min\n    \
               Cut {white cabbage}; add {water}, {salt} and {juniper berry}.\n    until wet\nferment: wait 7 days, at 19 C\n    until sour\n\
               fill: hands 10 min\n    Fill.\nstand: wait 10 h, at 4 C\nlabel: hands 5 min\n    Label.\n";
    fs::write(folder.path().join("jar.miche"), jar).expect("written");
    let text = reader(folder.path(), "jar.miche", &["--format", "text", "--units", "us"]);
    let days: Vec<&str> = text.lines().filter(|line| line.starts_with("Day ")).collect();
    assert_eq!(days, ["Day 1", "Day 8", "Day 9"], "{text}");
    assert!(text.contains("4¼ cups (2 lb 3 1/4 oz) water"), "{text}");
    assert!(text.contains("12 juniper berries"), "{text}");
}

#[test]
fn steps_stand_under_their_days_and_say_when_to_begin() {
    let folder = folder();
    let page = json(folder.path(), &[]);
    let days = page["days"].as_array().expect("days");
    assert_eq!(days.len(), 2, "{days:#?}");
    assert_eq!(days[0]["steps"][0]["step"], "mix");
    assert_eq!(days[1]["steps"][0]["step"], "shape");
    let served = json(folder.path(), &["--serve", "10:00"]);
    assert!(served["begin"].as_str().expect("words").ends_with("on the day before"), "{served:#}");
    let hours_of = served["days"].as_array().map(Vec::len);
    assert_eq!(hours_of, Some(2), "the rest begins before midnight, the shaping after it: {served:#}");
    // Every step begins so long before the end as on the card.
    let minutes = served["total_minutes"].as_i64().expect("minutes");
    let begins = served["days"][0]["steps"][0]["begins"].as_str().expect("a time");
    let (hours, rest) = begins.split_once(':').expect("a time");
    let at = hours.parse::<i64>().expect("hours") * 60 + rest.parse::<i64>().expect("minutes");
    assert_eq!((at + minutes) % 1440, 600);
    let wrong = run(folder.path(), &["card", "buns.miche", "--for", "reader", "--serve", "25:00"]);
    assert_eq!(wrong.status.code(), Some(2), "{wrong:?}");
    for wrong in ["noon", "12", "12:60", "-1:00", "012:00", ""] {
        let ended = run(folder.path(), &["card", "buns.miche", "--for", "reader", "--serve", wrong]);
        assert_eq!(ended.status.code(), Some(2), "{wrong}");
    }
    assert_eq!(run(folder.path(), &["card", "buns.miche", "--serve", "12:00"]).status.code(), Some(2));
    assert_eq!(run(folder.path(), &["card", "buns.miche", "--for", "reader", "--log"]).status.code(), Some(2));
}

#[test]
fn of_another_way_stands_what_differs() {
    let folder = folder();
    let other = json(folder.path(), &[])["other_ways"][0].clone();
    assert_eq!(other["option"], "hand");
    assert_eq!(other["ingredients"][0]["lines"].as_array().map(Vec::len), Some(1), "{other:#}");
    assert_eq!(other["ingredients"][0]["lines"][0]["ingredient"], "instant yeast");
    let steps: Vec<&Value> = other["steps"].as_array().expect("steps").iter().map(|step| &step["step"]).collect();
    // The shaping names the dough, which is two grams lighter; nothing else differs.
    assert_eq!(steps.first(), Some(&&Value::from("mix")), "{steps:?}");
    assert!(!steps.contains(&&Value::from("bake")), "{steps:?}");
    let chosen = json(folder.path(), &["--choose", "hand"]);
    assert_eq!(chosen["other_ways"].as_array().map(Vec::len), Some(0));
    assert_eq!(chosen["way"], "hand");
}

/// The data in a page's script.
fn data(html: &str) -> Value {
    let (_, after) = html.split_once("<script type=\"application/ld+json\">").expect("data");
    let (text, rest) = after.split_once("</script>").expect("an end");
    assert!(!rest.contains("<script"), "one script");
    serde_json::from_str(text).expect("JSON")
}

/// The search engines' published rules for Recipe, from memory: `image` and `name` are required, the others recommended, as far
/// as a file can know them (no rating, no video, no cuisine).
#[test]
fn the_data_holds_against_the_published_vocabulary() {
    let folder = folder();
    let data = data(&reader(folder.path(), "buns.miche", &["--format", "html"]));
    assert_eq!(data["@context"], "https://schema.org");
    assert_eq!(data["@type"], "Recipe");
    let mut told = Vec::new();
    hold(&data, &vocabulary(), &mut told);
    let wanted = [
        "image",
        "name",
        "author",
        "cookTime",
        "description",
        "keywords",
        "prepTime",
        "recipeCategory",
        "recipeIngredient",
        "recipeInstructions",
        "recipeYield",
        "totalTime",
        "itemListElement",
        "text",
    ];
    for key in wanted {
        assert!(told.iter().any(|one| one == key), "{key} is not told: {told:?}");
    }
    for claimed in ["aggregateRating", "review", "suitableForDiet", "recipeCuisine", "video"] {
        assert!(data[claimed].is_null(), "{claimed} is known to nobody");
    }
    // Nothing is escaped twice, and nothing ends the script.
    assert_eq!(data["name"], "Breakwater </script><b>buns & co");
    assert_eq!(data["image"][0], "blue%20tray.png");
    assert_eq!(data["recipeInstructions"][0]["@type"], "HowToSection");
    assert_eq!(data["recipeInstructions"][0]["itemListElement"][0]["@type"], "HowToStep");
}

#[test]
fn a_page_stands_by_itself_and_its_pictures_do_not_move_the_text() {
    let folder = folder();
    let html = reader(folder.path(), "buns.miche", &["--format", "html"]);
    assert_eq!(html.matches("<img").count(), 2);
    for image in html.split("<img").skip(1) {
        let tag = image.split('>').next().expect("a tag");
        assert!(
            tag.contains("width=\"1600\"") && tag.contains("height=\"800\"") && tag.contains("alt=\""),
            "{tag:.80}"
        );
        assert!(tag.contains("src=\"data:image/png;base64,"), "{tag:.80}");
    }
    assert!(html.contains("alt=\"Twelve buns on a &quot;blue&quot; tray\""), "a description is escaped");
    assert!(!html.contains("<b>buns") && !html.contains("http://") && !html.contains("<link"), "nothing is fetched");
    assert!(html.contains("A bun for a <em>windy</em> morning."));
    assert!(html.contains("default-src 'none'"));
    let compact = reader(folder.path(), "buns.miche", &["--format", "html", "--compact"]);
    assert!(compact.contains("width=\"800\"") && compact.contains("compact"));
}

/// Cups written beside a weight are the author's, not the larder's: a reader never sees two figures for one line, and the bench card
/// tells the same. A flour by the larder's cup would be 6½ here.
#[test]
fn cups_beside_a_weight_are_the_authors() {
    let folder = tempfile::tempdir().expect("a folder");
    let text = "recipe Cup loaf\nmakes 4 loaves\nmeasures US\nstrong white flour .... 2 lb = 7 1/4 cup\nwater .... 1 lb 4 oz\n\
        vanilla pod .... 3\nmix: hands 10 min\n    Mix {strong white flour}, {water} and {vanilla pod}.\n    until smooth\n";
    fs::write(folder.path().join("loaf.miche"), text).expect("a file");
    let card = |more: &[&str]| {
        let output = run(folder.path(), &[&["card", "loaf.miche", "--format", "text"], more].concat());
        String::from_utf8(output.stdout).expect("UTF-8")
    };
    assert!(card(&["--units", "us"]).contains("strong white flour (7¼ cups)"), "{}", card(&["--units", "us"]));
    assert!(
        card(&["--units", "us", "--times", "2"]).contains("strong white flour (14½ cups)")
            || !card(&["--units", "us", "--times", "2"]).contains("13 cups")
    );
    assert!(!card(&["--units", "metric"]).contains("cups"), "{}", card(&["--units", "metric"]));
    let page = reader(folder.path(), "loaf.miche", &["--units", "us", "--format", "text"]);
    assert!(page.contains("2 lb (7¼ cups) strong white flour") && !page.contains("6½ cups"), "{page}");
    // 3 pods for 4 loaves are 2¼ for 3.
    assert!(card(&["--times", "3/4"]).contains("2¼ vanilla pods"), "{}", card(&["--times", "3/4"]));
    assert!(card(&["--times", "1/4"]).contains("¾ vanilla pod."), "{}", card(&["--times", "1/4"]));
    let html = reader(folder.path(), "loaf.miche", &["--format", "html"]);
    assert_eq!(data(&html)["recipeIngredient"][2], "3 vanilla pods");
}

/// What is bought untrimmed is rounded up to what a shop sells, on the page as on the list to buy, and never said to half a gram.
#[test]
fn what_is_bought_is_the_lists() {
    let folder = tempfile::tempdir().expect("a folder");
    let text = "recipe Beetroot\nmakes 4 jars\nbeetroot .... 600 g, cooked\nmix: hands 10 min\n    Slice {beetroot}.\n    until thin\n";
    fs::write(folder.path().join("jar.miche"), text).expect("a file");
    for units in ["metric", "us"] {
        let page = reader(folder.path(), "jar.miche", &["--format", "text", "--units", units]);
        let bought = page.lines().find_map(|line| line.split_once(", cooked, ")?.1.strip_suffix(" as bought"));
        let bought = bought.unwrap_or_else(|| panic!("{page}"));
        let list = run(folder.path(), &["list", "jar.miche", "--format", "markdown", "--units", units]);
        let list = String::from_utf8(list.stdout).expect("UTF-8");
        assert!(list.contains(&format!("| beetroot | {bought} |")), "{bought}\n{list}");
    }
}

/// What is made on the way would count twice among the ingredients of the data, and each step says how long it takes.
#[test]
fn the_data_lists_what_is_bought_and_times_each_step() {
    let folder = folder();
    let data = data(&reader(folder.path(), "buns.miche", &["--format", "html"]));
    let listed: Vec<&str> =
        data["recipeIngredient"].as_array().expect("a list").iter().filter_map(Value::as_str).collect();
    assert!(listed.iter().any(|line| line.contains("strong white flour")), "{listed:?}");
    assert!(!listed.iter().any(|line| line.contains("dough")), "{listed:?}");
    let day = data["recipeInstructions"][0]["itemListElement"].as_array().expect("steps");
    assert_eq!(day[0]["timeRequired"], "PT10M", "{day:?}");
}

#[test]
fn every_example_has_a_page_in_every_format() {
    let examples = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let vocabulary = vocabulary();
    let mut seen = 0;
    for entry in fs::read_dir(&examples).expect("a folder") {
        let path = entry.expect("an entry").path();
        let text = fs::read_to_string(&path).unwrap_or_default();
        if !text.lines().any(|line| line.starts_with("recipe ")) {
            continue;
        }
        seen += 1;
        let file = path.file_name().and_then(|name| name.to_str()).expect("a name");
        let page: Value = serde_json::from_str(&reader(&examples, file, &["--format", "json"])).expect("JSON");
        let markdown = reader(&examples, file, &["--format", "markdown"]);
        let plain = reader(&examples, file, &["--format", "text"]);
        let html = reader(&examples, file, &["--format", "html"]);
        for words in ["Ingredients", page["recipe"].as_str().expect("a name")] {
            assert!(markdown.contains(words) && html.contains(words), "{file}: {words}");
        }
        assert!(plain.contains("INGREDIENTS") || plain.contains("Ingredients"), "{file}");
        let percent =
            lines(&page).into_iter().find(|line| line.split(' ').next().is_some_and(|word| word.contains('%')));
        assert_eq!(percent, None, "{file}: percentages are the bench's");
        hold(&data(&html), &vocabulary, &mut Vec::new());
        let pdf = run(&examples, &["card", file, "--for", "reader", "--format", "pdf"]);
        assert!(pdf.stdout.starts_with(b"%PDF"), "{file}: {}", String::from_utf8_lossy(&pdf.stderr));
    }
    assert!(seen > 10, "{seen} recipes");
}

/// A dough that rises an hour, up to 14 in the cold: for 16:00 nobody gets up at 01:14, and for 09:00 it rests overnight. Where no
/// rest can go on, the card says what is to be done in the night.
#[test]
fn nobody_gets_up_in_the_night_for_what_can_rest() {
    let folder = tempfile::tempdir().expect("a folder");
    let write = |up_to: &str| {
        let text = format!(
            "recipe Night rolls\nmakes 12 rolls\nplain flour .... 600 g\nwater .... 390 g\nsalt .... 12 g\n\
             dried yeast .... 4 g\ndivide 12 x 82 g, loss 2 %\nmix: hands 12 min\n    Mix {{plain flour}}, {{water}}, {{salt}} \
             and {{dried yeast}}.\nrest: wait 8 h, at 5 C{up_to}\nshape: hands 20 s, each\nprove: wait 45 min, at 26 C\n\
             bake: tend 20 min, using oven at 220 C\n    until gold\n"
        );
        std::fs::write(folder.path().join("buns.miche"), text).expect("written");
    };
    let hours = |page: &Value| -> Vec<(String, String)> {
        let days = page["days"].as_array().expect("days").iter();
        let steps = days.flat_map(|day| day["steps"].as_array().cloned().unwrap_or_default());
        let told = |step: &Value, key: &str| step[key].as_str().unwrap_or_default().to_owned();
        steps.map(|step| (told(&step, "kind"), told(&step, "begins"))).collect()
    };
    for serve in ["09:00", "12:00", "16:00"] {
        write(", up to 14 h");
        let page = json(folder.path(), &["--serve", serve]);
        let at_night = |at: &str| !("07:00"..="22:00").contains(&at);
        let hours = hours(&page);
        assert!(!hours.iter().any(|(kind, at)| kind != "wait" && at_night(at)), "{serve}: {hours:?}");
        assert_eq!(page["night"], Value::Null);
    }
    write("");
    let page = json(folder.path(), &["--serve", "12:00"]);
    // By hand: mixed by 22:00, out of the cold at 06:00, shaped for 4 min, proved for 45: nobody mixes at two, and somebody gets up at six.
    let night = page["night"].as_str().unwrap_or_default();
    assert!(
        night.starts_with("shape at 06:00, bake at 06:49: ") && night.contains("no rest in this recipe"),
        "{page:#}"
    );
    let text = reader(folder.path(), "buns.miche", &["--serve", "12:00", "--format", "text"]);
    assert!(text.contains("In the night: shape at 06:00"), "{text}");
    // By day nothing is said, whatever can rest.
    let page = json(folder.path(), &["--serve", "18:00"]);
    assert_eq!(page["night"], Value::Null, "{page:#}");
}

/// Folds 45 and 90 min into a bulk have a place each when it is said at what time it is served, and what is made in more loads than the
/// oven takes at once has times all the same.
#[test]
fn every_fold_has_its_time_and_two_loads_have_one() {
    let folder = tempfile::tempdir().expect("a folder");
    let text = "recipe Fold loaf\nmakes 9 loaves\nplain flour .... 4 kg\nwater .... 72 %\nsalt .... 2 %\ninstant yeast .... 0.4 %\n\
        divide 9 x 760 g, loss 1.7 %\nmix: hands 10 min, using mixer\n    Mix {plain flour}, {water}, {salt} and {instant yeast}.\n\
        bulk: wait 3 h 30 min, at 25 C\nfold: hands 4 min, 45 and 90 min into bulk\ncut: hands 20 s, each, after bulk\n\
        prove: wait 50 min, at 25 C\nbake: tend 44 min, using oven at 245 C\n    until dark\n";
    std::fs::write(folder.path().join("buns.miche"), text).expect("written");
    let steps = |page: &Value| -> Vec<Value> {
        let days = page["days"].as_array().expect("days").iter();
        days.flat_map(|day| day["steps"].as_array().cloned().unwrap_or_default()).collect()
    };
    let folds = |page: &Value| -> Vec<String> {
        let folds = steps(page).into_iter().filter(|step| step["step"] == "fold");
        folds.map(|step| step["begins"].as_str().unwrap_or_default().to_owned()).collect()
    };
    let page = json(folder.path(), &["--serve", "19:00"]);
    let bulk = steps(&page).iter().find(|step| step["step"] == "bulk").expect("bulk")["begins"].clone();
    assert_eq!((bulk, folds(&page)), ("13:53".into(), vec!["14:38".to_owned(), "15:23".to_owned()]), "{page:#}");
    assert_eq!(folds(&json(folder.path(), &[])).len(), 1, "without a time they are one step, with its moments");
    std::fs::write(folder.path().join("buns.miche"), text.replace("245 C\n", "245 C, 5 at a time\n")).expect("written");
    let page = json(folder.path(), &[]);
    assert!(page["total_minutes"].as_i64() > Some(317), "two loads take longer than one: {page:#}");
}

/// What a piece weighs is weighed at home too: of two sizes both are told, in every format, at every size of the batch.
#[test]
fn what_a_piece_weighs_is_told() {
    let folder = tempfile::tempdir().expect("a folder");
    let loaves = "recipe Loaves\nmakes 10 loaves\n\npart dough\nstrong white flour .... 2340 g\nwater .... 1550 g\nsalt .... 40 g\ndivide 6 x 260 g small and 4 x 573 g \
                  large, loss 2 %\nmix: hands 10 min\n    Mix {strong white flour}, {water} and {salt}.\n\npart small loaves\nper small\ndough .... 1 piece\negg .... 5 g\nbake: tend 25 min, \
                  using oven at 220 C\n    Brush {dough} with {egg}.\n    until brown\n\npart large loaves\nper large\ndough .... 1 piece\nbake: tend 40 min, using oven at 220 C\n    Bake \
                  {dough}.\n    until brown\n";
    fs::write(folder.path().join("a.miche"), loaves).expect("a file");
    let told = |arguments: &[&str]| {
        let all = ["card", "a.miche", "--for", "reader"].iter().chain(arguments);
        let run = Command::new(env!("CARGO_BIN_EXE_miche")).args(all).current_dir(folder.path()).output();
        String::from_utf8(run.expect("it runs").stdout).expect("UTF-8").replace('\u{a0}', " ")
    };
    for format in ["text", "markdown", "html", "json"] {
        let page = told(&["--format", format]);
        assert!(page.contains("6 × 260 g small and 4 × 573 g large"), "{format}: {page}");
    }
    let half = told(&["--times", "1/2"]);
    assert!(half.contains("Divide into 3 × 260 g small and 2 × 573 g large."), "{half}");
    assert!(told(&["--units", "us"]).contains("1 lb 4"), "{}", told(&["--units", "us"]));
}

/// Who makes tea slices has other hours than who makes rum slices, whose raisins take up to two days: hours of both side by side fit
/// neither. And raisins are put into the rum by somebody who is up: 15:05 less 12 h is 03:05, who sleeps from 22:00 does it at 21:45.
#[test]
fn hours_of_two_ways_are_not_mixed_and_nobody_begins_at_night() {
    let folder = tempfile::tempdir().expect("a folder");
    let slices = "recipe Raisin slices\nmakes 15 slices\nchoose soak: rum or tea\n\npart soaked raisins\nraisins .... 220 g\ndark rum .... 90 g [rum]\nblack tea .... 90 g [tea]\nsoak: \
                  wait 12 h, at 20 C, up to 2 days [rum]\n    Soak {raisins} in {dark rum}.\nsoak: wait 30 min [tea]\n    Soak {raisins} in {black tea}.\nwring: hands 60 min [tea]\n    Wring \
                  them out.\n\npart slices\npuff pastry .... 840 g\nsoaked raisins .... all\nroll: hands 10 min\n    Roll {puff pastry} with {soaked raisins}.\nbake: tend 30 min, using oven at 200 C\n    until brown\ncool: \
                  wait 2 h\n";
    fs::write(folder.path().join("a.miche"), slices).expect("a file");
    let page = |arguments: &[&str]| -> Value {
        let all = ["card", "a.miche", "--for", "reader", "--format", "json"].iter().chain(arguments);
        let run =
            Command::new(env!("CARGO_BIN_EXE_miche")).args(all).current_dir(folder.path()).output().expect("it runs");
        serde_json::from_slice(&run.stdout).expect("JSON")
    };
    let served = page(&["--serve", "18:00"]);
    let soak = &served["days"][0]["steps"][0];
    assert_eq!((soak["step"].as_str(), soak["begins"].as_str()), (Some("soak"), Some("21:45")), "{served:#}");
    assert_eq!(served["begin"], "21:45 on the day before");
    assert!(served["night"].is_null(), "{served:#}");
    // Where it may not go on so long, the night is told.
    fs::write(folder.path().join("a.miche"), slices.replace(", up to 2 days", "")).expect("a file");
    let night = page(&["--serve", "18:00"]);
    assert!(night["night"].as_str().is_some_and(|words| words.contains("soak")), "{night:#}");
    let other = &served["other_ways"][0];
    assert_eq!(other["option"], "tea");
    for step in other["steps"].as_array().expect("steps") {
        assert!(step["begins"].is_null() || other["begin"].is_null(), "{other:#}");
    }
}

/// What stands a night in the cold and proves in the morning is baked on that morning: one night is one night.
#[test]
fn a_night_is_counted_once() {
    let rolls = "recipe Night rolls\nmakes 12 rolls\nbread flour .... 500 g\nwater .... 325 g\nsalt .... 10 g\ninstant yeast .... 5 g\n\
                 mix: hands 12 min\n    Knead {bread flour}, {water}, {salt} and {instant yeast}.\nrise: wait 60 min, at 24 C\nshape: hands 30 s, each\n\
                 overnight: wait 10 h, at 4 C, up to 16 h\nprove: wait 60-90 min, at 25 C, up to 2 h\nbake: tend 18-20 min, using oven at 220 C\n";
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("a.miche"), rolls).expect("written");
    let card: Value = serde_json::from_str(&reader(folder.path(), "a.miche", &["--format", "json"])).expect("JSON");
    let days = card["days"].as_array().expect("days");
    let names = |day: &Value| {
        day["steps"]
            .as_array()
            .expect("steps")
            .iter()
            .map(|step| step["step"].as_str().expect("a name").to_owned())
            .collect::<Vec<_>>()
    };
    let told: Vec<Vec<String>> = days.iter().map(names).collect();
    assert_eq!(told, [vec!["mix", "rise", "shape", "overnight"], vec!["prove", "bake"]], "{card:#}");
}
