//! An independent check of a printed plan: reads the JSON of `miche plan` and looks at every minute of it. It knows the
//! kitchen only by what the test says of it.

#![allow(dead_code, reason = "each test binary uses a part of it")]

use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// What a test knows of the kitchen.
pub struct Kitchen {
    /// Equipment and how many there are of it, none of which takes two loads.
    pub equipment: Vec<(&'static str, u64)>,
    /// People.
    pub cooks: u64,
    /// Opening hours in minutes of the day, for a plan with a time.
    pub open: Option<(u32, u32)>,
}

/// The folder of this package.
pub fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// Runs `miche plan` with a time zone of its own, so that no machine's zone matters.
pub fn miche(arguments: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_miche"));
    command.arg("plan").arg("--color").arg("never").args(arguments).current_dir(root());
    if !arguments.contains(&"--zone") {
        command.args(["--zone", "UTC"]);
    }
    command.output().unwrap()
}

/// The plan of some files as JSON.
pub fn json(arguments: &[&str]) -> Value {
    let mut all = vec!["--format", "json"];
    all.extend(arguments);
    let output = miche(&all);
    assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(&output.stdout).unwrap()
}

/// What is said on standard error when there is no plan; fails when there is one.
pub fn refused(arguments: &[&str], code: i32) -> String {
    let output = miche(arguments);
    let text = String::from_utf8_lossy(&output.stderr).into_owned();
    assert_eq!(output.status.code(), Some(code), "{arguments:?}: {text}{}", String::from_utf8_lossy(&output.stdout));
    text
}

fn clock(text: &str) -> (String, u32) {
    let (day, time) = text.split_once('T').unwrap();
    let (hour, minute) = time.split_once(':').unwrap();
    (day.to_owned(), hour.parse::<u32>().unwrap() * 60 + minute.parse::<u32>().unwrap())
}

/// Everything that is wrong with a plan; empty when it keeps every rule.
pub fn broken(plan: &Value, kitchen: &Kitchen) -> Vec<String> {
    let mut wrong = Vec::new();
    let tasks = plan["tasks"].as_array().unwrap();
    let name = |task: &Value| format!("{}, {} {}", task["part"], task["step"], task["load"]);
    let from = |task: &Value| task["start_minute"].as_i64().unwrap();
    let until = |task: &Value| task["end_minute"].as_i64().unwrap();
    let overlap = |a: &Value, b: &Value| from(a) < until(b) && from(b) < until(a);
    for (at, one) in tasks.iter().enumerate() {
        let cooks = one["cooks"].as_u64().unwrap();
        if one["people"].as_array().unwrap().len() as u64 != cooks || (one["kind"] == "hands") != (cooks > 0) {
            wrong.push(format!("{} is done by {} of {cooks}", name(one), one["people"]));
        }
        if from(one) < 0 || until(one) < from(one) || until(one) > plan["span_minutes"].as_i64().unwrap() {
            wrong.push(format!("{} is outside the plan", name(one)));
        }
        let working = tasks.iter().filter(|other| from(other) <= from(one) && from(one) < until(other));
        let busy: u64 = working.map(|other| other["cooks"].as_u64().unwrap()).sum();
        if busy > kitchen.cooks {
            wrong.push(format!("{busy} people at work when {} starts", name(one)));
        }
        if let Some(equipment) = one["equipment"].as_str() {
            let known = kitchen.equipment.iter().find(|(known, _)| *known == equipment);
            let unit = one["unit"].as_u64().unwrap_or(0);
            if known.is_none_or(|(_, count)| unit == 0 || unit > *count) {
                wrong.push(format!("{} holds {equipment} {unit}, which is not there", name(one)));
            }
        }
        for other in tasks.iter().skip(at + 1).filter(|other| overlap(one, other)) {
            let same = one["equipment"].is_string() && one["equipment"] == other["equipment"];
            if same && one["unit"] == other["unit"] {
                wrong.push(format!("{} and {} are in {} at once", name(one), name(other), one["equipment"]));
            }
            let people = one["people"].as_array().unwrap();
            if people.iter().any(|person| other["people"].as_array().unwrap().contains(person)) {
                wrong.push(format!("one person is at {} and {} at once", name(one), name(other)));
            }
        }
        if let (Some((opens, closes)), true) = (kitchen.open, one["kind"] != "wait") {
            let (begin, end) = (clock(one["start"].as_str().unwrap()), clock(one["end"].as_str().unwrap()));
            if begin.0 != end.0 || begin.1 < opens || end.1 > closes {
                wrong.push(format!("{} needs somebody from {} to {}", name(one), one["start"], one["end"]));
            }
        }
    }
    wrong
}

/// Whether one step of a part has ended, all its loads, when another starts; both must be there.
pub fn follows(plan: &Value, first: (&str, &str), then: (&str, &str)) -> bool {
    let of = |(part, step): (&str, &str)| -> Vec<&Value> {
        let tasks = plan["tasks"].as_array().unwrap();
        tasks.iter().filter(|task| task["part"] == part && task["step"] == step).collect()
    };
    let end = of(first).iter().map(|task| task["end_minute"].as_i64().unwrap()).max();
    let start = of(then).iter().map(|task| task["start_minute"].as_i64().unwrap()).min();
    end.is_some() && start.is_some() && end <= start
}

/// A folder for the files of one test.
pub fn folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("plan").join(name);
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).unwrap();
    folder
}

/// Writes the files of one test and gives the path of the first.
pub fn files(name: &str, files: &[(&str, &str)]) -> String {
    let folder = folder(name);
    for (file, text) in files {
        std::fs::write(folder.join(file), text).unwrap();
    }
    folder.join(files[0].0).display().to_string()
}
