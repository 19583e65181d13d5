//! The log of bakes: what it says beside the formula of each day, from a repository of three versions; what the statistics say
//! beside a general-purpose library; a bake begun; what is made as baked; logs that no parser has seen.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "bakes/at_home.rs"]
mod at_home;
#[path = "bakes/baked_before.rs"]
mod baked_before;
#[path = "bakes/begun.rs"]
mod begun;
#[path = "bakes/brushed_and_filled.rs"]
mod brushed_and_filled;
#[path = "bakes/copied.rs"]
mod copied;
#[path = "bakes/less_than_nothing.rs"]
mod less_than_nothing;
#[path = "bakes/loads.rs"]
mod loads;
#[path = "bakes/slips.rs"]
mod slips;
#[path = "bakes/substituted.rs"]
mod substituted;
#[path = "bakes/went_in.rs"]
mod went_in;
#[path = "bakes/yield_as_baked.rs"]
mod yield_as_baked;

use miche::figures::bakes::statistics::spread;
use miche::measure::number::Number;
use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

fn miche(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_miche")).current_dir(folder).args(arguments).output().expect("it runs")
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}

fn json(folder: &Path, arguments: &[&str]) -> Value {
    let output = miche(folder, arguments);
    assert!(output.status.success(), "{arguments:?}: {}", said(&output));
    serde_json::from_slice(&output.stdout).expect("JSON")
}

/// A recipe of rolls, and where its log would lie.
fn beside_rolls(folder: &Path) -> PathBuf {
    let recipe = "recipe Rolls\nmakes 10 rolls\nflour .... 500 g\nwater .... 300 g\n\nmix: hands 10 min\n    Mix {flour} and {water}.\n";
    fs::write(folder.join("rolls.miche"), recipe).expect("written");
    folder.join("rolls-bakes.miche")
}

fn commit(folder: &Path, moment: &str) {
    let git = |arguments: &[&str]| {
        let done = Command::new("git")
            .current_dir(folder)
            .args(["-c", "user.name=Mara", "-c", "user.email=mara@example.org"])
            .args(arguments)
            .env("GIT_AUTHOR_DATE", moment)
            .env("GIT_COMMITTER_DATE", moment)
            .output()
            .expect("git");
        assert!(done.status.success(), "{}", said(&done));
    };
    if !folder.join(".git").exists() {
        git(&["init", "-q"]);
    }
    git(&["add", "-A"]);
    git(&["commit", "-q", "-m", "a version"]);
}

/// The example's folder as a repository: 62 % of water until September, 64 % with 1.8 % of salt in October, then as it is.
fn repository() -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    let examples = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    for name in ["bakehouse.miche", "larder.miche", "mother-dough.miche", "harbour-rolls-bakes.miche"] {
        fs::copy(examples.join(name), folder.path().join(name)).expect("copied");
    }
    fs::create_dir(folder.path().join("pictures")).expect("made");
    for name in ["pictures/rolls.png", "pictures/mother-dough.png"] {
        fs::copy(examples.join(name), folder.path().join(name)).expect("copied");
    }
    let now = fs::read_to_string(examples.join("harbour-rolls.miche")).expect("the recipe");
    let second = now.replace("salt .......................... 2 %", "salt .......................... 1.8 %");
    let first = second.replace("64 %", "62 %").replace("loss 1.7 %", "loss 0.8 %");
    assert!(first != second && second != now, "the example has changed");
    for (text, moment) in
        [(first, "2026-09-01T18:00:00+0100"), (second, "2026-09-25T18:00:00+0100"), (now, "2026-10-30T18:00:00+0000")]
    {
        fs::write(folder.path().join("harbour-rolls.miche"), text).expect("written");
        commit(folder.path(), moment);
    }
    folder
}

/// Versions out of git come without their pictures, and that is no change of a recipe.
#[test]
fn a_picture_is_no_change_between_versions() {
    let folder = repository();
    fs::remove_dir_all(folder.path().join(".git")).expect("a repository");
    commit(folder.path(), "2026-10-30T18:00:00+0000");
    let told = json(folder.path(), &["bakes", "harbour-rolls.miche", "--format", "json"]);
    let bakes = told["bakes"].as_array().unwrap();
    assert!(
        bakes.iter().any(|bake| bake["revision"].is_null()) && bakes.iter().any(|bake| bake["revision"].is_string())
    );
    assert!(bakes.iter().all(|bake| bake["changed"] == Value::Array(Vec::new())), "{told:#}");
}

fn figure<'v>(told: &'v Value, figure: &str, step: &str, unit: &str) -> &'v Value {
    let all = told["figures"].as_array().unwrap().iter();
    all.clone()
        .find(|one| one["figure"] == figure && one["step"] == step && one["unit"] == unit)
        .unwrap_or_else(|| panic!("no {figure} of {step} in {told:#}"))
}

fn is(value: &Value, wanted: f64) {
    let got = value.as_f64().unwrap_or_else(|| panic!("{value} is no number"));
    assert!((got - wanted).abs() < 1e-6, "{got}, and not {wanted}");
}

/// Scipy and numpy on 233 rows (tests/scripts/bakes_statistics.py).
#[test]
fn statistics_are_those_of_a_library() {
    let table: Value = serde_json::from_str(include_str!("data/bakes-statistics.json")).unwrap();
    let rows = table["rows"].as_array().unwrap();
    assert!(rows.len() >= 200);
    let ten = Number::whole(10);
    for row in rows {
        let tenths: Vec<i64> = row["tenths"].as_array().unwrap().iter().map(|one| one.as_i64().unwrap()).collect();
        let values: Vec<Number> = tenths.iter().map(|one| Number::whole(*one).over(ten).unwrap()).collect();
        let told = spread(&values);
        let same = |got: Option<Number>, wanted: &Value, what: &str| match (got, wanted.as_f64()) {
            (None, None) => {}
            (Some(got), Some(wanted)) => {
                let apart = (got.to_f64() - wanted).abs();
                assert!(apart < 2e-9 + wanted.abs() * 1e-10, "{what} of {tenths:?}: {} and {wanted}", got.to_f64());
            }
            other => panic!("{what} of {tenths:?}: {other:?}"),
        };
        assert_eq!(told.count, tenths.len());
        same(told.mean, &row["mean"], "mean");
        same(told.sd, &row["sd"], "sd");
        same(told.interval.map(|(low, _)| low), &row["low"], "low");
        same(told.interval.map(|(_, high)| high), &row["high"], "high");
        same(told.median, &row["median"], "median");
        same(told.nine_in_ten, &row["nine_in_ten"], "nine in ten");
    }
}

#[test]
fn each_bake_stands_beside_the_formula_of_its_day() {
    let folder = repository();
    let told = json(folder.path(), &["bakes", "harbour-rolls.miche", "--format", "json"]);
    assert_eq!((&told["format"], &told["recipe"]), (&1.into(), &"Harbour rolls".into()));
    let bakes = told["bakes"].as_array().unwrap();
    assert_eq!(bakes.len(), 8);
    assert_eq!(bakes[0]["date"], "2026-11-13T05:28", "the newest first");
    let revisions: Vec<&str> = bakes.iter().map(|bake| bake["revision"].as_str().unwrap()).collect();
    assert!(revisions[0] == revisions[1] && revisions[2] == revisions[4] && revisions[5] == revisions[7]);
    assert!(revisions[1] != revisions[2] && revisions[4] != revisions[5], "{revisions:?}");
    // What changed is told once, at the first bake after it, in the words of `diff`.
    let changed = |at: usize| bakes[at]["changed"].to_string();
    assert!(changed(4).contains("water 62 %") && changed(4).contains("64 %"), "{}", changed(4));
    assert!(changed(1).contains("salt 1.8 %") && changed(1).contains("2 %"), "{}", changed(1));
    assert_eq!((changed(0), changed(7)), ("[]".to_owned(), "[]".to_owned()));
    // 05:32 to 05:47 beside 12 min; 48 rolls took 12 min: 15 s each.
    let measured = |at: usize, figure: &str, step: &str| {
        let all = bakes[at]["measured"].as_array().unwrap().iter();
        all.clone().find(|one| one["figure"] == figure && one["step"] == step).unwrap().clone()
    };
    is(&measured(0, "time", "mix")["value"], 15.0);
    is(&measured(0, "time", "mix")["expected"], 12.0);
    is(&measured(3, "time", "shape")["value"], 12.0 / 48.0);
    is(&bakes[3]["pieces"], 48.0);
    // 4 × 25.7 − 20 − 18 − 34 − 14, the handbook's sum turned round.
    is(&measured(0, "friction", "mix")["value"], 16.8);
    is(&measured(0, "friction", "mix")["expected"], 11.0);
    // 74.9 of 88.5 g.
    is(&measured(0, "loss", "bake")["value"], 100.0 * (1.0 - 74.9 / 88.5));
    is(&measured(0, "loss", "bake")["expected"], 13.0);
    // 99 × 88.5 of 8952 g.
    is(&measured(0, "loss", "shape")["value"], 100.0 * (1.0 - 99.0 * 88.5 / 8952.0));
    assert_eq!(bakes[0]["judged"][0]["mark"], 5);
    assert_eq!(bakes[0]["verdict"], "keep");
}

#[test]
fn what_no_change_touches_counts_from_every_version() {
    let folder = repository();
    let told = json(folder.path(), &["bakes", "harbour-rolls-bakes.miche", "--format", "json"]);
    // Neither water nor salt touches the time of the mix; the wetter dough loses otherwise in the oven.
    let mix = figure(&told, "time", "mix", "min");
    assert_eq!((&mix["count"], &mix["outdated"], &mix["says"]), (&8.into(), &0.into(), &"differs".into()));
    is(&mix["mean"], 14.0);
    is(&mix["median"], 14.0);
    let loss = figure(&told, "loss", "bake", "%");
    assert_eq!((&loss["count"], &loss["outdated"], &loss["says"]), (&5.into(), &3.into(), &"differs".into()));
    assert_eq!(figure(&told, "friction", "mix", "°C")["says"], "differs");
    // Four loads and two: each counts.
    let bake = figure(&told, "time", "bake", "min");
    assert_eq!((&bake["count"], &bake["bakes"], &bake["says"]), (&30.into(), &8.into(), &"agrees".into()));
    assert_eq!((&bake["formula"], &bake["formula_low"]), (&17.into(), &15.into()));
}

#[test]
fn every_format_is_made_and_csv_has_a_row_a_measurement() {
    let folder = repository();
    let told = json(folder.path(), &["bakes", ".", "--format", "json"]);
    let rows: usize =
        told["bakes"].as_array().unwrap().iter().map(|bake| bake["measured"].as_array().unwrap().len()).sum();
    let csv = said(&miche(folder.path(), &["bakes", ".", "--format", "csv"]));
    assert_eq!(csv.lines().count(), rows + 1);
    for (format, sign) in [("text", "What the bakes say"), ("markdown", "| **differs** |"), ("html", "<svg")] {
        let text = said(&miche(folder.path(), &["bakes", "harbour-rolls.miche", "--format", format]));
        assert!(text.contains(sign) && text.contains("Harbour rolls"), "{format}: {text}");
    }
}

#[test]
fn check_says_what_the_bakes_say_and_what_they_have_wrong() {
    let folder = repository();
    let text = said(&miche(folder.path(), &["check", "harbour-rolls.miche", "--format", "short"]));
    assert!(text.contains("bakes-say-otherwise") && text.contains("in the oven; the formula says 13 %"), "{text}");
    let allowed = said(&miche(folder.path(), &["check", "harbour-rolls.miche", "--allow", "bakes-say-otherwise"]));
    assert!(allowed.contains("nothing to mend"), "{allowed}");
    let log = folder.path().join("harbour-rolls-bakes.miche");
    let text = fs::read_to_string(&log).unwrap();
    fs::write(&log, text.replacen("bake 2026-09-04 05:30", "bake 2126-09-04 05:30", 1)).unwrap();
    assert!(said(&miche(folder.path(), &["check", "."])).contains("is still to come"));
    fs::write(&log, text.replacen("05:30, 100 rolls", "05:30, 100 rolls, from nowhere", 1)).unwrap();
    let output = miche(folder.path(), &["bakes", "harbour-rolls.miche"]);
    assert_eq!(output.status.code(), Some(1));
    assert!(said(&output).contains("unknown-revision") && said(&output).contains("no revision `nowhere`"));
    // A step that has another name now had that name on its day.
    fs::write(&log, &text).unwrap();
    let recipe = folder.path().join("harbour-rolls.miche");
    let now = fs::read_to_string(&recipe).unwrap();
    fs::write(&recipe, now.replace("\nprove:", "\nlast prove:")).unwrap();
    let output = miche(folder.path(), &["check", "."]);
    assert!(!said(&output).contains("unknown-step"), "{}", said(&output));
}

#[test]
fn outside_a_repository_the_formula_is_taken_as_it_is() {
    let folder = repository();
    fs::remove_dir_all(folder.path().join(".git")).unwrap();
    let told = json(folder.path(), &["bakes", "harbour-rolls.miche", "--format", "json"]);
    assert!(told["bakes"].as_array().unwrap().iter().all(|bake| bake["revision"].is_null()));
    assert_eq!(figure(&told, "loss", "bake", "%")["count"], 8);
    let text = said(&miche(folder.path(), &["bakes", "harbour-rolls.miche"]));
    assert!(text.contains("no git repository"), "{text}");
}

/// T. Lehmann, Pizza Today, June 2018, p. 29 (seen): dough 80 °F from flour of 65, a room of 75 and water of 65 means a friction of 35 °F.
#[test]
fn the_friction_of_a_bake_is_that_of_a_published_example() {
    let folder = tempfile::tempdir().expect("a folder");
    let recipe = "recipe Dough\nmakes 10 balls\nuse \"kitchen.miche\"\n\nflour .... 1 kg\nwater .... 60 %\nsalt .... 2 %\ndesired temperature 80 F\n\n\
                  mix: hands 10 min, using mixer\n    Mix {flour}, {water} and {salt}.\n    until smooth\n";
    fs::write(folder.path().join("kitchen.miche"), "kitchen Test\nmixer x 1, friction 30 F\n").expect("written");
    fs::write(folder.path().join("dough.miche"), recipe).expect("written");
    let log = "bakes of \"dough.miche\"\n\nbake 2026-09-04 05:30, 10 balls\nroom 75 F\nflour at 65 F\n\
               water .... 600 g, at 65 F\nmix: 05:30-05:40, left at 80 F\n";
    fs::write(folder.path().join("dough-bakes.miche"), log).expect("written");
    let told = json(folder.path(), &["bakes", "dough.miche", "--format", "json"]);
    let measured = told["bakes"][0]["measured"].as_array().expect("a list").clone();
    let friction = measured.iter().find(|one| one["figure"] == "friction").expect("a friction");
    is(&friction["value"], 35.0 / 1.8);
}

/// `history --choose hand` follows the bakes by hand, and one that says nothing was made the first way.
/// The same day with no temperature desired of the dough: what the mixer does to it hangs on none.
#[test]
fn a_friction_is_told_where_no_temperature_is_desired() {
    let folder = tempfile::tempdir().expect("a folder");
    let recipe = "recipe Loaf\nmakes 2 loaves\nuse \"kitchen.miche\"\nflour .... 1 kg\nwater .... 65 %, at 65 F\nsalt .... 2 %\n\n\
                  mix: hands 10 min, using mixer\n    All.\n";
    let kitchen = "kitchen Test\nmixer x 1, friction 30 F\n";
    let log = "bakes of \"loaf.miche\"\n\nbake 2026-03-02\nroom 75 F\nflour at 65 F\nmix: 05:34-05:44, left at 80 F\n";
    for (name, text) in [("loaf.miche", recipe), ("kitchen.miche", kitchen), ("loaf-bakes.miche", log)] {
        fs::write(folder.path().join(name), text).expect("written");
    }
    let told = json(folder.path(), &["bakes", "loaf.miche", "--format", "json"]);
    let measured = told["bakes"][0]["measured"].as_array().expect("a list");
    let friction = measured.iter().find(|one| one["figure"] == "friction").expect("a friction");
    is(&friction["value"], 35.0 / 1.8);
    is(&friction["expected"], 30.0 / 1.8);
}

#[test]
fn a_history_of_one_way_has_the_bakes_of_that_way() {
    let folder = tempfile::tempdir().expect("a folder");
    let recipe = "recipe Pier rolls\nmakes 10 rolls\nchoose mixing: machine or hand\n\nflour .... 1 kg\nwater .... 62 %\nsalt .... 2 %\n\n\
                  mix: hands 12 min [machine]\n    Mix {flour}, {water} and {salt}.\nknead: hands 20 min [hand]\n    Knead {flour}, {water} and {salt}.\n";
    let log = "bakes of \"rolls.miche\"\n\nbake 2026-09-04 05:30, 10 rolls\ntaste: 3 of 5\n\n\
               bake 2026-09-05 05:30, 10 rolls, choose hand\ntaste: 5 of 5\n";
    fs::write(folder.path().join("rolls.miche"), recipe).expect("written");
    fs::write(folder.path().join("rolls-bakes.miche"), log).expect("written");
    commit(folder.path(), "2026-09-01T18:00:00+0100");
    let marks = |choose: &[&str]| {
        let told = json(folder.path(), &[&["history", "rolls.miche", "--format", "json"], choose].concat());
        let bakes = told["changes"][0]["bakes"].as_array().cloned().unwrap_or_default();
        bakes.iter().map(|bake| bake["date"].as_str().expect("a date").to_owned()).collect::<Vec<String>>()
    };
    assert_eq!(marks(&[]), ["2026-09-04", "2026-09-05"]);
    assert_eq!(marks(&["--choose", "hand"]), ["2026-09-05"]);
    assert_eq!(marks(&["--choose", "mixing=machine"]), ["2026-09-04"]);
}

/// A sheet to fill in by hand is no JSON: that is said, and nothing is left out in silence.
#[test]
fn a_sheet_to_fill_in_is_for_paper() {
    let folder = repository();
    let refused = miche(folder.path(), &["card", "harbour-rolls.miche", "--log", "--format", "json"]);
    assert_eq!(refused.status.code(), Some(2), "{}", said(&refused));
    assert!(String::from_utf8_lossy(&refused.stderr).contains("--log"), "{refused:?}");
    assert!(
        said(&miche(folder.path(), &["card", "harbour-rolls.miche", "--log", "--format", "text"])).contains("verdict")
    );
}

/// A log of another recipe is not read through, whatever stands in it, nor is one file read twice that has two names.
#[test]
fn the_logs_of_others_do_not_matter() {
    let folder = repository();
    let before = json(folder.path(), &["bakes", "harbour-rolls.miche", "--format", "json"]);
    let other = "# Another's.\n\nBakes  OF \"mother-dough.miche\"\n\nbake yesterday\n";
    fs::write(folder.path().join("a.bakes"), other).expect("written");
    #[cfg(unix)]
    std::os::unix::fs::symlink("harbour-rolls-bakes.miche", folder.path().join("again.bakes")).expect("a link");
    assert_eq!(json(folder.path(), &["bakes", "harbour-rolls.miche", "--format", "json"]), before);
    let both = miche(folder.path(), &["bakes", "."]);
    assert_eq!(both.status.code(), Some(1), "the other log has an error: {}", said(&both));
}

#[test]
fn what_is_made_as_baked_counts_with_what_was_measured() {
    let folder = repository();
    let plan = |more: &[&str]| {
        let arguments = [&["plan", "harbour-rolls.miche", "--limit", "2000 steps", "--format", "json"], more].concat();
        let plan = json(folder.path(), &arguments);
        let tasks = plan["tasks"].as_array().unwrap().clone();
        let mix = tasks.iter().find(|task| task["step"] == "mix" && task["part"] == "Harbour rolls").unwrap().clone();
        mix["end_minute"].as_i64().unwrap() - mix["start_minute"].as_i64().unwrap()
    };
    assert_eq!((plan(&[]), plan(&["--as-baked"])), (12, 15));
    let taken = |more: &[&str]| {
        let arguments = [&["plan", "harbour-rolls.miche", "--limit", "0 steps", "--format", "json"], more].concat();
        json(folder.path(), &arguments)["as_baked"].clone()
    };
    assert!(taken(&[]).is_null());
    let sentences = taken(&["--as-baked"]).to_string();
    assert!(
        sentences.contains("mix of Harbour rolls: 15 min") && sentences.contains("[harbour-rolls.miche]"),
        "{sentences}"
    );
    let sheet = miche(folder.path(), &["plan", "harbour-rolls.miche", "--limit", "0 steps", "--as-baked"]);
    let sheet = String::from_utf8(sheet.stdout).unwrap();
    assert!(sheet.contains("As baked: mix of Harbour rolls: 15 min"), "{sheet}");
    for command in ["card", "sums", "cost", "label"] {
        let output = miche(folder.path(), &[command, "harbour-rolls.miche", "--as-baked"]);
        assert!(output.status.success(), "{command}: {}", said(&output));
        assert!(said(&output).contains("as baked: "), "{command}: {}", said(&output));
    }
    let card = said(&miche(folder.path(), &["card", "harbour-rolls.miche", "--as-baked", "--format", "html"]));
    assert!(card.contains("As baked:") && card.contains("15 min"), "{card}");
}

/// Logs changed by chance: no command falls, and tidying changes nothing twice.
#[test]
fn no_log_makes_it_fall() {
    let folder = repository();
    let log = folder.path().join("harbour-rolls-bakes.miche");
    let text = fs::read_to_string(&log).unwrap();
    let lines: Vec<&str> = text.lines().collect();
    let mut seed: u64 = 7;
    let mut chance = |most: usize| {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(seed >> 33).unwrap() % most.max(1)
    };
    let junk = [
        "99999999999999999",
        "-",
        ":",
        "..",
        "of",
        "0",
        "1/0",
        "\u{202e}",
        "{",
        "24:00-00:00",
        "x",
        "came to",
        "%",
        "\"",
        "e9",
        "1e9",
    ];
    for _ in 0..60 {
        let mut changed: Vec<String> = lines.iter().map(|line| (*line).to_owned()).collect();
        for _ in 0..1 + chance(8) {
            let at = chance(changed.len());
            match chance(4) {
                0 => drop(changed.remove(at)),
                1 => changed.swap(at, 0),
                2 => changed[at] = format!("{} {}", changed[at], junk[chance(junk.len())]),
                _ => changed[at] = changed[at].replacen(' ', junk[chance(junk.len())], 1),
            }
        }
        fs::write(&log, changed.join("\n")).unwrap();
        for arguments in [
            &["check", "harbour-rolls-bakes.miche"][..],
            &["bakes", "harbour-rolls-bakes.miche"],
            &["tidy", "harbour-rolls-bakes.miche"],
            &["tidy", "--check", "harbour-rolls-bakes.miche"],
        ] {
            let output = miche(folder.path(), arguments);
            let code = output.status.code().expect("it ends by itself");
            assert!(code <= 2, "{arguments:?}: {}", said(&output));
            assert!(
                !said(&output).contains("fault of miche"),
                "{arguments:?}: {}\n{}",
                said(&output),
                changed.join("\n")
            );
            if arguments[0] == "tidy" && arguments.len() == 3 {
                assert_eq!(code, 0, "{}", said(&output));
            }
        }
    }
}

/// Two marks of one name in one bake are told: both would count, as if there had been a bake more.
#[test]
fn what_a_bake_marks_twice_is_told() {
    let folder = tempfile::tempdir().expect("a folder");
    let log = beside_rolls(folder.path());
    let bake = |date: &str| {
        format!("bake {date} 05:30\ncrumb: 4 of 5, even\nwater .... 310 g\nroom 21 C\nby Mara\nverdict keep\n")
    };
    let text = format!("bakes of \"rolls.miche\"\n\n{}\n{}", bake("2026-11-02"), bake("2026-11-03"));
    fs::write(&log, &text).expect("written");
    let output = miche(folder.path(), &["check", "rolls-bakes.miche"]);
    assert!(!said(&output).contains("twice"), "once in each of two bakes: {}", said(&output));
    for line in ["crumb: 2 of 5, holes", "Crumb: 3 of 6"] {
        fs::write(&log, format!("{text}{line}\n")).expect("written");
        let told = said(&miche(folder.path(), &["check", "rolls-bakes.miche", "--format", "short"]));
        assert!(told.contains("error[twice-named]") && told.contains("is marked twice in this bake"), "{line}: {told}");
    }
    fs::write(&log, format!("{text}crust: 2 of 5\n")).expect("written");
    let told = said(&miche(folder.path(), &["check", "rolls-bakes.miche", "--format", "short"]));
    assert!(told.contains("nothing to mend"), "{told}");
}
