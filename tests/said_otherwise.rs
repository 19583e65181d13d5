//! What people write otherwise in their first hour: each line is answered with what to write in its place, and where that is offered as a
//! change, the line is right with it. Lines as bakers and home cooks write them in notebooks; common practice, no source.

#![allow(clippy::expect_used, clippy::panic)]

#[path = "examples/one_file.rs"]
mod one_file;

use miche::language::parse::parse;
use miche::text::source::SourceId;
use serde_json::Value;

/// A recipe with one line more in its head, its ingredients or its steps.
fn with(head: &str, ingredient: &str, step: &str) -> String {
    let lines = [
        "recipe Test buns",
        "makes 12 buns",
        "measures metric",
        head,
        "part dough",
        "strong white flour .... 600 g",
        "water .... 390 g",
        "salt .... 11 g",
        "instant yeast .... 5 g",
        ingredient,
        "mix: hands 10 min",
        "    Mix {strong white flour}, {water}, {salt} and {instant yeast}.",
        step,
        "bake: tend 15 min, using oven at 220 C",
        "    until gold",
    ];
    lines.into_iter().filter(|line| !line.is_empty()).map(|line| format!("{line}\n")).collect()
}

/// The errors of the line that was added.
fn errors(text: &str, line: &str) -> Vec<Value> {
    let number = text.lines().position(|written| written == line).expect("the line") as u64 + 1;
    let problems = one_file::json(text, &["check", "a.miche", "--format", "json"]);
    let of_line = |problem: &&Value| problem["severity"] == "error" && problem["line"].as_u64() == Some(number);
    problems.as_array().expect("a list").iter().filter(of_line).cloned().collect()
}

/// One error, whose help says this.
#[track_caller]
fn answered(text: &str, line: &str, told: &str) {
    let errors = errors(text, line);
    let helps: Vec<&str> = errors.iter().filter_map(|problem| problem["help"].as_str()).collect();
    assert!(errors.len() == 1 && helps.iter().any(|help| help.contains(told)), "{line}: {errors:?}");
}

#[test]
fn an_ingredient() {
    for (line, told) in [
        ("butter, soft .... 60 g", "`60 g, soft`"),
        ("60 g butter", "`butter .... 60 g`"),
        ("- 60 g butter, soft", "`butter .... 60 g, soft`"),
        ("* 2 eggs", "`eggs .... 2`"),
        ("- butter .... 60 g", "leave the mark out"),
        ("butter .... about 60 g", "write `60 g`"),
        ("butter .... a knob", "to taste"),
        ("nutmeg .... 1 pinch", "to taste"),
        ("nutmeg .... pinch", "to taste"),
        ("egg .... 1 large", "behind a comma"),
        ("honey .... 1 heaped tbsp", "level"),
        ("honey .... 1 T", "`tbsp` or `tsp`"),
        ("milk .... 2 c", "cups"),
        ("dried yeast .... 1 sachet", "the weight that is in it"),
        ("garlic .... 2 cloves", "`cloves` in the name"),
        ("butter .... 60 g (soft)", "write `60 g, soft`"),
        ("butter .... 60 g - soft", "write `60 g, soft`"),
        ("butter .... 60 g; soft", "write `60 g, soft`"),
        ("butter .... 10 % of flour", "write `10 %`"),
        ("butter .... 10 bp", "`2 %`"),
        ("flour for dusting", "aside"),
        ("a pinch of nutmeg", "`nutmeg .... to taste`"),
        ("butter, 60 g", "`NAME .... AMOUNT`"),
    ] {
        answered(&with("", line, ""), line, told);
    }
}

/// A second amount is no word of how it is prepared; these are warnings, for a sum can be done without them.
#[test]
fn an_amount_behind_a_comma() {
    for (line, told) in [
        ("butter .... 60 g, 10 %", "`… = 10 %`"),
        ("eggs .... 2, 110 g", "`… = 110 g`"),
        ("milk .... 30 g, 30 C", "`at 30 C`"),
    ] {
        let said = one_file::alone(&with("", line, ""), &["check", "a.miche"], true).1;
        assert!(said.contains("warning[near-clause]") && said.contains(told), "{line}: {said}");
    }
}

#[test]
fn a_step() {
    for (line, told) in [
        ("rest: wait 30 min, chilled", "using fridge"),
        ("rest: wait 30 min, in the fridge", "using fridge"),
        ("rest: wait 30 min in the fridge", "using fridge"),
        ("rest: wait overnight", "8-12 h"),
        ("rest: wait 8 h overnight", "8-12 h"),
        ("rest: wait about 1 h", "write `1 h`"),
        ("rest: wait until doubled", "wants a time"),
        ("rest: wait 1 h, until doubled", "below the step"),
        ("rest: wait 1 h or until doubled", "below the step"),
        ("rest: wait 1 h, at room temperature", "at 21 C"),
        ("rest: wait 1 h at room temperature", "at 21 C"),
        ("rest: wait 1 h, 26 C", "write `at 26 C`"),
        ("rest: wait 1 h @ 26 C", "write `at 26 C`"),
        ("cool: wait 30 min, to 5 C", "is a sign"),
        ("rest: wait 1:30", "write `1 h 30 min`"),
        ("rest: wait 30'", "write `30 min`"),
        ("rest: wait 30 m", "min"),
        ("fold: hands 3 min, twice", "into rise"),
        ("fold: hands 3 min, every 30 min", "into rise"),
        ("rest: wait 30 min, covered", "below the step"),
        ("toast: tend 20 min, oven at 220 C", "write `using oven at 220 C`"),
        ("rest: 30 min", "`rest: wait …`"),
        ("rest: chill 2 h", "`rest: wait …`"),
        ("rest 30 min", "a step has a head"),
        ("toast 20 min at 220 C", "a step has a head"),
    ] {
        answered(&with("", "", line), line, told);
    }
}

#[test]
fn a_line_of_the_head() {
    for (line, told) in [
        ("serves 4", "`makes 12 buns`"),
        ("yield 12 buns", "`makes 12 buns`"),
        ("makes: 12 buns", "colon"),
        ("Ingredients:", "no heading"),
        ("method", "no heading"),
        ("prep time 20 min", "added up from the steps"),
        ("oven 220 C", "belongs to the step"),
        ("version 2", "git"),
        ("source my aunt", "`credit TEXT`"),
        ("scale 5 g", "a kitchen"),
        ("allergens gluten", "in a larder"),
        ("serve 2026-12-04 19:00", "--ready"),
    ] {
        answered(&with(line, "", ""), line, told);
    }
}

/// What is offered is right: with it the line draws no error any more.
#[test]
fn what_is_offered_can_be_read() {
    for (head, ingredient, step, offered) in [
        ("", "butter, soft .... 60 g", "", "butter .... 60 g, soft"),
        ("", "60 g butter", "", "butter .... 60 g"),
        ("", "- butter .... 60 g", "", "butter .... 60 g"),
        ("", "butter .... about 60 g", "", "butter .... 60 g"),
        ("", "egg .... 1 large", "", "egg .... 1, large"),
        ("", "butter .... 60 g (soft)", "", "butter .... 60 g, soft"),
        ("", "butter .... 10 % of flour", "", "butter .... 10 %"),
        ("", "milk .... 2 c", "", "milk .... 2 cups"),
        ("", "", "rest: wait 30 min in the fridge", "rest: wait 30 min, using fridge"),
        ("", "", "rest: wait 1 h, 26 C", "rest: wait 1 h, at 26 C"),
        ("", "", "rest: wait 1:30", "rest: wait 1 h 30 min"),
        ("", "", "rest: wait 30 m", "rest: wait 30 min"),
        ("", "", "toast: tend 20 min, oven at 220 C", "toast: tend 20 min, using oven at 220 C"),
        ("makes: 12 buns", "", "", "makes 12 buns"),
    ] {
        let text = with(head, ingredient, step);
        let (_, problems) = parse(SourceId(0), &text);
        let [problem] = problems.as_slice() else { panic!("{offered}: {problems:?}") };
        let mut mended = text.clone();
        for edit in &problem.mend.as_ref().unwrap_or_else(|| panic!("{offered}: {problem:?}")).edits {
            mended.replace_range(edit.span.range(), &edit.text);
        }
        assert!(mended.lines().any(|line| line == offered), "{offered}: {mended}");
        assert_eq!(parse(SourceId(0), &mended).1, [], "{offered}");
    }
}
