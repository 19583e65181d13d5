//! Every check keeps what its file promises: its bad example raises it, its good example raises nothing, it explains
//! itself, and no problem goes by a name that is not registered.

#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "checks/again.rs"]
mod again;
#[path = "checks/by_command.rs"]
mod by_command;
#[path = "checks/by_severity.rs"]
mod by_severity;
#[path = "checks/by_ten.rs"]
mod by_ten;
#[path = "checks/careful_baker.rs"]
mod careful_baker;
#[path = "kept/damage.rs"]
mod damage;
#[path = "checks/elsewhere.rs"]
mod elsewhere;
#[path = "checks/harmless.rs"]
mod harmless;
#[path = "checks/many.rs"]
mod many;
#[path = "checks/quiet.rs"]
mod quiet;
#[path = "checks/safe.rs"]
mod safe;
#[path = "checks/slips.rs"]
mod slips;
#[path = "checks/unsafe_words.rs"]
mod unsafe_words;

use careful_baker::{FILES, LOAF, SLIPS};
use miche::check::{self, ALL, Check, check_file};
use miche::edge::loader::Loader;
use miche::text::diagnostic::Diagnostic;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// Checks an example in a folder of its own, with the files that stand below it.
fn problems_of(example: &str) -> Vec<Diagnostic> {
    let folder = tempfile::tempdir().expect("a folder");
    let files = check::example_files(example);
    for (name, text) in &files {
        fs::write(folder.path().join(name), text).expect("a file");
    }
    let mut loader = Loader::new();
    let source = loader.load(&folder.path().join(&files[0].0)).expect("it was just written");
    check_file(&loader.into_project(), source)
}

/// The checks that `check` runs; what a plan, git or a log shows is tried in `checks/by_command.rs`.
fn checked() -> impl Iterator<Item = &'static check::Check> {
    ALL.iter().copied().filter(|check| !matches!(check.run, check::Run::Command(_)))
}

fn told(problems: &[Diagnostic]) -> String {
    problems.iter().map(|problem| format!("  {}: {}\n", problem.check, problem.message)).collect()
}

#[test]
fn bad_examples_raise_their_check_and_nothing_else() {
    let mut faults = String::new();
    for check in checked() {
        let problems = problems_of(check.bad);
        let own: Vec<&Diagnostic> = problems.iter().filter(|problem| problem.check == check.name).collect();
        if own.is_empty() {
            faults += &format!("{} is not raised by its bad example:\n{}", check.name, told(&problems));
        } else if own.len() != problems.len() {
            faults += &format!("{} brings others with it:\n{}", check.name, told(&problems));
        }
    }
    assert!(faults.is_empty(), "{faults}");
}

#[test]
fn good_examples_raise_nothing() {
    let mut faults = String::new();
    for check in ALL {
        let problems = problems_of(check.good);
        if !problems.is_empty() {
            faults += &format!("the good example of {} is not clean:\n{}", check.name, told(&problems));
        }
    }
    assert!(faults.is_empty(), "{faults}");
}

#[test]
fn severity_of_the_example_is_the_one_that_is_listed() {
    for check in checked() {
        let worst =
            problems_of(check.bad).iter().filter(|problem| problem.check == check.name).map(|p| p.severity).min();
        // Where a home kitchen is only assumed, a warning becomes advice.
        let milder = check.family == check::Family::Kitchen;
        assert!(
            worst == Some(check.severity) || (milder && worst > Some(check.severity)),
            "{}: listed as {:?}, found as {worst:?}",
            check.name,
            check.severity
        );
    }
}

#[test]
fn names_are_plain_words_and_stand_once() {
    let mut seen = BTreeSet::new();
    for check in ALL {
        assert!(seen.insert(check.name), "{} stands twice", check.name);
        assert!(check.name.chars().all(|c| c.is_ascii_lowercase() || c == '-' || c.is_ascii_digit()), "{}", check.name);
        assert!(check::find(check.name).is_some());
    }
}

#[test]
fn every_check_explains_itself() {
    for Check { name, looks_for, why, .. } in ALL {
        assert!(looks_for.len() > 20, "{name} does not say what it looks for");
        assert!(why.len() > 60 && why.trim_end().ends_with(['.', ')']), "{name} does not say why");
        assert!(!looks_for.ends_with('.'), "{name}: a full stop is added behind what it looks for");
    }
}

#[test]
fn each_check_has_a_file_that_opens_with_its_name() {
    let folder = source_folder().join("check");
    let mut files: Vec<PathBuf> = rust_files(&folder);
    files.retain(|path| fs::read_to_string(path).is_ok_and(|text| text.contains("const CHECK: Check")));
    assert_eq!(files.len(), ALL.len(), "files and registered checks");
    for path in files {
        let text = fs::read_to_string(&path).expect("readable");
        let name = path.file_stem().expect("a name").to_string_lossy().replace('_', "-");
        assert!(text.starts_with(&format!("//! `{name}`: ")), "{} does not open with its name", path.display());
        assert!(check::find(&name).is_some(), "{name} is not registered");
    }
}

/// The names in `Diagnostic::error("…")` and its like, anywhere in the program.
#[test]
fn every_name_that_is_reported_is_registered() {
    let mut unknown = Vec::new();
    let mut found = 0;
    for path in rust_files(&source_folder()) {
        let text = fs::read_to_string(&path).expect("readable");
        for maker in ["Diagnostic::error(", "Diagnostic::warning(", "Diagnostic::advice("] {
            for (at, _) in text.match_indices(maker) {
                let argument = text[at + maker.len()..].trim_start();
                let Some(name) = argument.strip_prefix('"').and_then(|rest| rest.split('"').next()) else { continue };
                found += 1;
                if check::find(name).is_none() {
                    unknown.push(format!("{}: {name}", path.display()));
                }
            }
        }
    }
    assert!(found > 50, "only {found} found: has the form of the calls changed?");
    assert!(unknown.is_empty(), "{unknown:#?}");
}

/// The page of checks says what the program says. To write it anew: `UPDATE=1 cargo test --test checks`.
#[test]
fn the_page_of_checks_is_current() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("grammar/CHECKS.md");
    let page = check::explain::page();
    if std::env::var_os("UPDATE").is_some() {
        fs::write(&path, &page).expect("the page is written");
    }
    let written = fs::read_to_string(&path).unwrap_or_default();
    assert!(written == page, "grammar/CHECKS.md is not current: run `UPDATE=1 cargo test --test checks`");
    assert!(ALL.iter().all(|check| page.contains(&format!("\n### {}\n", check.name))));
}

fn source_folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src")
}

fn rust_files(folder: &Path) -> Vec<PathBuf> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            files.extend(rust_files(&path));
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            files.push(path);
        }
    }
    files.sort();
    files
}

/// Claims in a title, with what is in it against them.
const CLAIMS: &[(&str, &str)] = &[
    ("Vegan bun", "honey"),
    ("Plant-based bun", "butter"),
    ("No-egg bun", "egg"),
    ("Bun with no milk", "buttermilk"),
    ("Non-dairy bun", "cream"),
    ("Glutenfree bun", "spelt flour"),
    ("GF bun", "barley malt flour"),
    ("Bun free from nuts", "ground almonds"),
    ("Sulphite-free bun", "dried apricots"),
    ("Fish-free stew", "worcestershire sauce"),
    ("Vegetarian stew", "chicken stock"),
    ("Celery-free pot", "vegetable stock"),
];

#[test]
fn what_a_title_claims_is_held_against_what_is_in_it() {
    let mut unseen = String::new();
    for (title, food) in CLAIMS {
        let text = format!(
            "recipe {title}\nrice flour .... 500 g\nwater .... 300 g\n{food} .... 50 g\nmix: hands 5 min\n    Mix {{rice flour}}, {{water}} and \
             {{{food}}}.\n    until smooth\n"
        );
        if !problems_of(&text).iter().any(|problem| problem.check == "hidden-allergen") {
            unseen += &format!("{title} with {food}\n");
        }
    }
    assert!(unseen.is_empty(), "{unseen}");
}

#[test]
fn a_custard_does_not_stand_warm() {
    let custard = |keeps: &str| {
        format!(
            "recipe Custard\nwhole milk .... 1 kg\negg yolk .... 200 g\ncaster sugar .... 200 g\n{keeps}\ncook: tend 10 min, using hob at 90 C\n    Boil {{whole \
             milk}}, {{egg yolk}} and {{caster sugar}}.\n    until thick\n"
        )
    };
    for (keeps, wanted) in [
        ("keeps 1 day, at 20 C", "shelf-storage"),
        ("keeps 12 h, at 25 C", "shelf-storage"),
        ("keeps 10 h, at 75 F", "shelf-storage"),
        ("keeps 3 days", "shelf-storage"),
        ("keeps 8 days, at 4 C", "kept-too-long"),
        ("keeps 8 days, at 39 F", "kept-too-long"),
    ] {
        let problems = problems_of(&custard(keeps));
        assert!(problems.iter().any(|problem| problem.check == wanted), "{keeps}:\n{}", told(&problems));
    }
}

#[test]
fn what_a_careful_baker_sees_is_said() {
    let whole = problems_of(LOAF);
    assert!(whole.is_empty(), "{}", told(&whole));
    let mut unseen = String::new();
    for (from, to, wanted) in SLIPS {
        let mut broken = LOAF.replacen(from, to, 1);
        assert_ne!(broken, LOAF, "{from} does not stand there");
        // A line that is gone takes its use with it.
        if to.is_empty() {
            broken = broken.replace(", {salt} and", " and").replace(" and {fresh yeast}", "");
            if from.contains("salt") {
                broken = broken
                    .replace("{water} and.", "{water}.")
                    .replace("{strong white flour}, {water}.", "{strong white flour}, {water} and {fresh yeast}.");
            } else if !from.contains("yeast") {
                broken = LOAF.replacen(from, to, 1);
            }
        }
        let problems = problems_of(&broken);
        if !problems.iter().any(|problem| problem.check == *wanted) {
            unseen += &format!("{from:?} -> {to:?}: no {wanted}\n{}", told(&problems));
        }
    }
    for (text, wanted) in FILES {
        let problems = problems_of(text);
        if !problems.iter().any(|problem| problem.check == *wanted) {
            unseen += &format!("{text}: no {wanted}\n{}", told(&problems));
        }
    }
    assert!(unseen.is_empty(), "{unseen}");
}

/// Pairs that every cookbook prints: nothing is said of them.
const PAIRS: &[&str] = &[
    "butter .... 30 g = 1 oz",
    "butter .... 55 g = 2 oz",
    "butter .... 85 g = 3 oz",
    "butter .... 115 g = 4 oz",
    "butter .... 140 g = 5 oz",
    "butter .... 170 g = 6 oz",
    "butter .... 225 g = 8 oz",
    "butter .... 340 g = 12 oz",
    "butter .... 450 g = 1 lb",
    // The tables of British cookbooks, from memory.
    "butter .... 25 g = 1 oz",
    "butter .... 2 oz = 50 g",
    "butter .... 75 g = 3 oz",
    "butter .... 100 g = 4 oz",
    "butter .... 110 g = 4 oz",
    "butter .... 125 g = 4 1/2 oz",
    "butter .... 150 g = 5 oz",
    "butter .... 175 g = 6 oz",
    "butter .... 200 g = 7 oz",
    "butter .... 250 g = 9 oz",
    "butter .... 275 g = 10 oz",
    "butter .... 350 g = 12 oz",
    "butter .... 500 g = 1 lb 2 oz",
    "butter .... 1 kg = 2 1/4 lb",
    "plain flour .... 900 g = 2 lb",
    "whole milk .... 240 ml = 1 cup",
    "water .... 120 ml = 1/2 cup",
    "water .... 60 ml = 1/4 cup",
    "water .... 475 ml = 2 cup",
    "bread flour .... 500 g = 4 cup",
    "plain flour .... 120 g = 1 cup",
    "plain flour .... 140 g = 1 cup",
    "instant yeast .... 7 g = 2 1/4 tsp",
    "active dry yeast .... 7 g = 2 1/4 tsp",
    "butter .... 113 g = 1/2 cup",
    "butter .... 227 g = 1 cup",
    "caster sugar .... 200 g = 1 cup",
    "honey .... 20 g = 1 tbsp",
    "olive oil .... 15 ml = 1 tbsp",
];

/// Words and amounts in which nothing is wrong, and of which something was said once.
const RIGHT: &[&str] = &[
    // Without gluten: husks hold more water than flour does.
    "recipe Seed loaf\nmakes 2 loaves\nwater .... 920 g, at 30 C\npsyllium husk .... 45 g\nwhite rice flour .... 400 g, counts as flour\nbuckwheat flour .... 300 g\n\
     potato starch .... 200 g\nsalt .... 18 g\ninstant yeast .... 14 g\ndivide 2 x 930 g, loss 2 %\nsoak: hands 4 min\n    Whisk {psyllium husk} into {water}.\nmix: \
     hands 8 min\n    Mix in {white rice flour}, {buckwheat flour}, {potato starch}, {salt} and {instant yeast}.\n    until smooth\nprove: wait 60 min, at 28 C\nbake: \
     tend 60-65 min, using oven at 200 C\n    until it sounds hollow\n",
    // The weight of one vanilla pod is none that a batch is divided by.
    "recipe Custard\nwhole milk .... 1 kg\nvanilla pod .... 1\ncaster sugar .... 180 g\ncornflour .... 70 g\nmakes 1.2 kg, loss 4 %\nkeeps 2 days, chilled\ncook: tend 8 \
     min, using hob at 95 C\n    Boil {whole milk} with {vanilla pod}, {caster sugar} and {cornflour}.\n    until thick\ncool: wait 90 min, at 12 C\nchill: wait 3 h, at 4 C\n",
    "recipe Tart\nplain flour .... 500 g\nwater .... 120 g\nroll: hands 5 min\n    Mix {plain flour} and {water}. Roll to {20 cm = 8 in}, cut {2 cm = 3/4 in} or {1.5 cm = 1/2 in} or \
     {1/4 in = 0.5 cm} strips, {23 cm = 9 in} long.\n    until smooth\n",
    "recipe Pot\nmakes 8 bowls\npotato .... 2 kg\nonion .... 1 kg\nbay leaf .... 6\nstar anise .... 2\nsalt .... 30 g\ndivide 8 x 370 g, loss 2.3 %\nboil: tend 20 min, \
     using hob\n    Boil {potato}, {onion}, {salt}, {star anise} and {bay leaf}.\n    until soft\n",
    // A bath weighs what it weighs, and sixty rings are boiled a few at a time.
    "recipe Rings\nmakes 60 rings\npart dough\nstrong white flour .... 3.5 kg\nwater .... 1.9 kg\nsalt .... 65 g\ninstant yeast .... 20 g\ndivide 60 x 90 g, loss 1.5 %\nmix: hands \
     12 min\n    Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nshape: hands 30 s, each\nretard: wait 14 h, at 4 C\npart bath\nwater .... 6 \
     kg\nmalt extract .... 60 g\nstir: hands 2 min\n    Stir {malt extract} into {water}.\npart rings\nper piece\ndough .... 1 piece\nbath .... 101 g, aside\nboil: hands 60 \
     min, using hob\n    Boil {dough} in {bath}, {30 s} a side.\n    until puffed\nbake: tend 18 min, using oven at 230 C\n    until brown\n",
    // A scald that was held hot and then cooled goes in as warm as it was cooled to.
    "recipe Net rye\npart scald\nwhole rye flour .... 600 g\nwater .... 1800 g, at 95 C\nmakes 2.35 kg, loss 2 %\nscald: hands 5 min\n    Pour {water} over {whole rye \
     flour}.\nhold: wait 2 h, at 65 C\n    until sweet\ncool: wait 90 min\n    until no warmer than {35 C}\npart dough\nwhole rye flour .... 3 kg\nwater .... 1.1 kg, at 34 C\nripe \
     starter .... 100 g\nsalt .... 60 g\nscald .... all\ndesired temperature 29 C\nmix: hands 8 min\n    Mix {scald}, {water}, {whole rye flour}, {ripe starter} and {salt}.\n    until \
     even\nrise: wait 60 min, at 29 C\nbake: tend 60 min, using oven at 230 C\n    until hollow\n",
    // Fat, not sugar, is what burns.
    "recipe Rings\ncaution Hot fat: lid at hand, no water near.\nplain flour .... 1 kg\nwhole milk .... 560 g\nbutter .... 80 g\nsalt .... 16 g\ninstant yeast .... 12 g\nfrying oil \
     .... as needed, aside\nvanilla sugar .... 40 g, aside\nmix: hands 10 min\n    Mix {plain flour}, {whole milk}, {butter}, {salt} and {instant yeast}.\n    until \
     smooth\nrise: wait 1 h, at 26 C\nfry: hands 45 min, using fryer at 175 C\n    Fry in {frying oil}. Roll in {vanilla sugar}.\n    until gold\n",
    "recipe Plum jam\nplums .... 1 kg\ncaster sugar .... 1 kg\nmakes 1.2 kg, loss 40 %\ncook: tend 35 min, using hob\n    Boil {plums} and {caster sugar}.\n    until \
     thick\n",
    "recipe Curd\nbutter .... 150 g\ncaster sugar .... 200 g\nlemon juice .... 100 g\ncook: tend 10 min, using hob at 82 C\n    Stir {butter}, {caster sugar} and \
     {lemon juice}.\n    until thick\nchill: wait 2 h, up to 5 days\n",
];

#[test]
fn what_every_cookbook_prints_is_no_problem() {
    let mut alarms = String::new();
    let pairs = PAIRS.iter().map(|pair| format!("recipe Pair\nmeasures US\n{pair}\n"));
    for text in pairs.chain(RIGHT.iter().map(|text| (*text).to_owned())) {
        let problems = problems_of(&text);
        if !problems.is_empty() {
            alarms += &format!("{text}{}", told(&problems));
        }
    }
    let fold = LOAF.replacen(
        "shape: hands",
        "fold: hands 3 min\n    Fold after {45 min}.\nsecond rise: wait 45 min, at 24 C\nshape: hands",
        1,
    );
    alarms += &told(&problems_of(&fold));
    assert!(alarms.is_empty(), "{alarms}");
}

/// A problem that is there with some options of a choice only says with which, in every output; one that is there with all says
/// nothing of them. Of two choices the first is of no account here.
#[test]
fn a_problem_says_with_which_options_it_is_one() {
    use miche::out::report;
    let text = "recipe Mole rolls\nmakes 30 rolls\nchoose kneading: hand kneading or machine\nchoose rise: warm or cold\n\
                strong white flour .... 1.5 kg\nwater .... 63 %\nsalt .... 2 %\ninstant yeast .... 1 %\n\
                divide 30 x 84 g, loss 0.4 % [warm]\ndivide 30 x 60 g, loss 0.5 % [cold]\nlard .... 40 g\n\
                mix: hands 12 min [hand kneading]\n    Knead {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\n\
                mix: hands 9 min, using mixer [machine]\n    Mix {strong white flour}, {water}, {salt}, {lard} and {instant yeast}.\n    until smooth\n\
                rise: wait 90 min, at 25 C\n    until doubled\n\
                bake: tend 16 min, using oven at 220 C\n    until gold\n";
    let mut loader = Loader::new();
    let source = loader.take_text("rolls.miche", text.to_owned(), Path::new("rolls.miche"));
    let project = loader.into_project();
    let problems = check_file(&project, source);
    let said: Vec<(&str, &str)> = problems.iter().map(|problem| (problem.check, problem.only.as_str())).collect();
    assert!(said.contains(&("never-used", "hand kneading")), "{said:?}");
    assert!(said.contains(&("yield-does-not-add-up", "cold")), "{said:?}");
    let short: String = problems.iter().map(|problem| report::short::render(&project.sources, problem)).collect();
    let terminal: String =
        problems.iter().map(|problem| report::terminal::render(&project.sources, problem, false, 200)).collect();
    let github: String = problems.iter().map(|problem| report::github::render(&project.sources, problem)).collect();
    let sarif = report::sarif::render(&project.sources, &problems, true).expect("a log");
    for (format, told) in [("short", &short), ("human", &terminal), ("github", &github), ("sarif", &sarif)] {
        for with in ["(with hand kneading)", "(with cold)"] {
            assert!(told.contains(with), "{format} lacks {with}:\n{told}");
        }
    }
    let json = report::json::render(&project.sources, &problems).expect("an array");
    let json: serde_json::Value = serde_json::from_str(&json).expect("JSON");
    let only = |check: &str| {
        json.as_array().expect("an array").iter().find(|one| one["check"] == check).expect(check)["only"].clone()
    };
    assert_eq!(only("never-used"), "hand kneading");
    assert_eq!(only("yield-does-not-add-up"), "cold");

    let always = text.replace(", {lard}", "");
    let problems = problems_of(&always);
    let unused = problems.iter().find(|problem| problem.check == "never-used").expect("in neither way is it used");
    assert_eq!((unused.only.as_str(), unused.said().as_ref()), ("", unused.message.as_str()));
}

/// A comment keeps a judgement quiet and nothing else: of a line that is not read, or an amount that nobody can work out, a card and a label
/// would be made in which it is missing.
#[test]
fn no_allowance_makes_up_for_what_is_not_read() {
    let of = |line: &str, allowed: &str| {
        let steps = "mix: hands 9 min\n    Mix {flour}.\n    until smooth\n";
        let text = format!("recipe Crust\nflour .... 500 g\n# allow {allowed}: because I say so\n{line}\n{steps}");
        problems_of(&text)
    };
    for (check, line) in [
        ("stray-line", "60 g butter"),
        ("decimal-comma", "salt .... 20,5 g"),
        ("no-unit", "instant yeast .... 10"),
        ("unknown-unit", "salt .... 20 pinchfuls"),
        ("which-cup", "water .... 1 cup"),
        ("twice-named", "flour .... 20 g"),
    ] {
        let told: Vec<&str> = of(line, check).iter().map(|problem| problem.check).collect();
        assert!(told.contains(&check) && told.contains(&"unclear-allowance"), "{check}: {told:?}");
        let problems = of(line, check);
        let problem = problems.iter().find(|problem| problem.check == check).expect("it stays");
        assert!(!miche::check::allowance::may_be_allowed(problem), "the editor offers no allowance of {check}");
    }
    let told: Vec<&str> =
        of("salt .... 225 g = 10 oz", "two-amounts-disagree").iter().map(|problem| problem.check).collect();
    assert!(!told.contains(&"two-amounts-disagree") && !told.contains(&"unclear-allowance"), "{told:?}");
}
