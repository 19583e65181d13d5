//! Commands that write into somebody's file: what they do not have to touch stays to the byte, what they refuse changes
//! nothing, and what they write can be read as well as what was there.

use super::mutate::{another_number, changed, other_words};
use super::{Dice, Field};

/// Errors that other amounts may bring or mend: `aim` and `swap` tell them beside the change.
const OF_AMOUNTS: &[&str] = &["aim-missed", "yield-does-not-add-up", "part-short"];

/// The text without its figures.
fn without_figures(text: &[u8]) -> Vec<u8> {
    text.iter().copied().filter(|byte| !byte.is_ascii_digit() && !b"./ ".contains(byte)).collect()
}

/// The lines of a text that name none of some ingredients, without the comments that may move from one line to another.
fn lines_without(text: &str, names: &[&str]) -> Vec<String> {
    let named = |line: &&str| !names.iter().any(|name| line.to_lowercase().contains(name));
    text.lines().filter(named).map(str::to_owned).collect()
}

impl Field {
    /// The checks of the errors in a file.
    fn errors(&mut self, name: &str) -> Vec<String> {
        let ran = self.run(&["check", name, "--format", "json"]);
        let found: serde_json::Value = serde_json::from_slice(&ran.out).unwrap_or_default();
        let problems = found.as_array().cloned().unwrap_or_default();
        let errors = problems.iter().filter(|problem| problem["severity"] == "error");
        errors.filter_map(|problem| problem["check"].as_str().map(str::to_owned)).collect()
    }

    /// `aim --write` changes figures only, `swap --write` the lines that name what is swapped, `bakes new` only adds.
    pub(super) fn written(&mut self, dice: &mut Dice) {
        match dice.below(3) {
            0 => self.aim_written(dice),
            1 => self.swap_written(dice),
            _ => self.bake_begun(dice),
        }
    }

    /// Runs a command that writes over `a.miche`; gives what was there and what is, when it says that it wrote.
    fn over(&mut self, arguments: &[&str]) -> Option<(Vec<u8>, Vec<u8>)> {
        let (before, errors) = (self.read("a.miche"), self.errors("a.miche"));
        let ran = self.run(arguments);
        let after = self.read("a.miche");
        let refused = !ran.is_fine();
        self.hold(!refused || before == after, || format!("{}: refused, and the file is another", ran.line));
        if refused {
            return None;
        }
        let more: Vec<String> = self.errors("a.miche");
        let news = more.iter().find(|check| !errors.contains(check) && !OF_AMOUNTS.contains(&check.as_str()));
        self.hold(news.is_none(), || format!("{}: an error that was not there: {news:?}", ran.line));
        Some((before, after))
    }

    fn aim_written(&mut self, dice: &mut Dice) {
        let seed = dice.one(&self.seeds).clone();
        let (least, more) = (dice.below(90), dice.below(20));
        let aim = *dice.one(&["hydration", "salt", "fat", "water", "sugar"]);
        let head = seed.find('\n').map_or(seed.len(), |at| at + 1);
        let text = format!("{}aim {aim} {least}-{} %\n{}", &seed[..head], least + more, &seed[head..]);
        self.write("a.miche", another_number(&text, dice).as_bytes());
        let Some((before, after)) = self.over(&["aim", "a.miche", "--write"]) else { return };
        self.hold(without_figures(&before) == without_figures(&after), || "aim wrote more than figures".to_owned());
    }

    fn swap_written(&mut self, dice: &mut Dice) {
        let seed = dice.one(&self.seeds).clone();
        let text = if dice.below(2) == 0 { other_words(&seed, dice) } else { another_number(&seed, dice) };
        self.write("a.miche", text.as_bytes());
        let (old, new) = *dice.one(&[
            ("whole milk", "skim milk powder, water, butter"),
            ("butter", "lard"),
            ("water", "whole milk"),
            ("instant yeast", "fresh yeast"),
            ("egg", "egg yolk, water"),
        ]);
        let Some((before, after)) = self.over(&["swap", "a.miche", old, "for", new, "--write"]) else { return };
        // Salt gives way to the salt in what came.
        let touched: Vec<&str> = [old].into_iter().chain(new.split(", ")).chain(["salt"]).collect();
        let [before, after] = [before, after].map(|text| lines_without(&String::from_utf8_lossy(&text), &touched));
        self.hold(before == after, || "swap changed a line that names nothing of it".to_owned());
    }

    fn bake_begun(&mut self, dice: &mut Dice) {
        let logs: Vec<String> = self.seeds.iter().filter(|seed| seed.contains("bakes of \"")).cloned().collect();
        let (log, other) = (dice.one(&logs).clone(), dice.one(&self.seeds).clone());
        let bytes = changed(&log, &other, dice);
        self.write("a.miche", &bytes);
        let at = ["--at", "2026-12-01 05:30", "--pieces", "40"];
        let Some((before, after)) = self.over(&[&["bakes", "new", "a.miche"][..], &at].concat()) else {
            return self.write("a-bakes.miche", b"");
        };
        self.hold(after.len() > before.len() && after.starts_with(&before), || {
            "beginning a bake changed what was there".to_owned()
        });
    }
}

#[test]
fn what_is_not_touched_is_seen() {
    assert_eq!(without_figures(b"water .... 65 %\n"), without_figures(b"water .... 62.5 %\n"));
    assert_ne!(without_figures(b"water .... 65 %\n"), without_figures(b"wate .... 65 %\n"));
    assert_eq!(lines_without("Butter .. 1 g\nsalt\n", &["butter"]), ["salt"]);
}
