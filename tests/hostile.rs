//! Texts that mean harm: they cost no more than a plain text of the same size, within a generous ratio, and what they hold
//! reaches no output.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::unwrap_used, clippy::indexing_slicing)]

#[path = "hostile/texts.rs"]
mod texts;

use miche::check::{check_file, work_out};
use miche::edge::loader::Loader;
use miche::figures::card::of_batch;
use miche::language::tidy::tidy;
use miche::make::batch::Batch;
use miche::make::order::Order;
use miche::measure::show::Units;
use miche::model::notes;
use miche::out;
use miche::out::report;
use miche::solve::resolve::{choices_of, selections};
use std::path::Path;
use std::process::Command;
use std::time::{Duration, Instant};
use texts::TRAPS;

/// Everything that is done to a text, each by itself.
fn stages(text: &str) -> [(&'static str, Duration); 5] {
    let clock = Instant::now();
    let mut loader = Loader::new();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/made up.miche");
    let source = loader.take_text("made up", text.to_owned(), &folder);
    let project = loader.into_project();
    let read = clock.elapsed();
    let clock = Instant::now();
    let problems = check_file(&project, source);
    let checked = clock.elapsed();
    let clock = Instant::now();
    for problem in problems.iter().take(100) {
        report::terminal::render(&project.sources, problem, false, 80);
    }
    for problem in &problems {
        report::short::render(&project.sources, problem);
    }
    let tree = &project.file(source).expect("it was read").tree;
    let default = selections(&choices_of(tree)).into_iter().next().expect("there is a default");
    if let Some((recipe, formula)) = work_out(&project, source, &default, &mut Vec::new()) {
        let batch = Batch::of(&Order::of(recipe, formula), 0);
        if let Ok(card) = of_batch(&batch, Units::Metric) {
            out::card::text(std::slice::from_ref(&card), None, out::text::Style::plain(80));
            out::card::markdown(std::slice::from_ref(&card), None);
            out::json::render(&card).expect("a card is JSON");
        }
    }
    let shown = clock.elapsed();
    let clock = Instant::now();
    tidy(text, None).expect("tidying changes nothing that is said");
    let tidied = clock.elapsed();
    let clock = Instant::now();
    notes::draft(text, None, "made up");
    [("read", read), ("check", checked), ("show", shown), ("tidy", tidied), ("notes", clock.elapsed())]
}

/// Bytes of a trap. In a plain text of that size everything takes some tenths of a second, even when nothing is optimised.
const SIZE: usize = 6_000;

/// So many times what the same stage takes for a plain text of the same size is still no trap: a text of nothing but
/// braces, or of nothing but steps, has more to work on than one with prose in it.
const RATIO: u32 = 60;

/// A stage that is done so quickly is not compared: what else runs on the machine would decide.
const AT_ONCE: Duration = Duration::from_millis(1500);

/// A text that is right, of about so many bytes.
fn plain(bytes: usize) -> String {
    let mut text = "recipe Plain\n".to_owned();
    let mut number = 0;
    while text.len() < bytes {
        text.push_str(&format!(
            "part dough {number}\nplain flour .... 1 kg\nwater .... 62 %\nsalt .... 1.8 %\ninstant yeast .... 1 %\n\n\
             mix: hands 10 min\n    Mix {{plain flour}}, {{water}}, {{salt}} and {{instant yeast}}; keep the bowl covered.\n    \
             until smooth\n"
        ));
        number += 1;
    }
    text
}

/// The quickest of several goes counts: what else runs on the machine only makes them slower.
fn quickest(text: &str, goes: usize) -> [(&'static str, Duration); 5] {
    let mut best = stages(text);
    for _ in 1..goes {
        for (best, again) in best.iter_mut().zip(stages(text)) {
            best.1 = best.1.min(again.1);
        }
    }
    best
}

/// No stage takes much longer for a hostile text than for a plain one of the same size.
#[test]
fn no_text_is_a_trap() {
    let usual = quickest(&plain(SIZE), 3);
    let mut slow = Vec::new();
    for trap in TRAPS {
        let text = (trap.make)(SIZE);
        assert!(text.len() > SIZE / 2, "{} is {} bytes long", trap.name, text.len());
        let mut took = stages(&text);
        let is_slow = |took: &[(&str, Duration); 5]| {
            took.iter().zip(&usual).any(|((_, took), (_, usual))| *took > AT_ONCE && *took > *usual * RATIO)
        };
        if is_slow(&took) {
            took = quickest(&text, 3);
        }
        if is_slow(&took) {
            slow.push(format!("{}: {took:?} instead of {usual:?}", trap.name));
        }
    }
    assert!(slow.is_empty(), "{slow:#?}");
}

/// In which order parts are made is found as quickly when they are written the other way round, and cards of hundreds of parts
/// do not take the cube of it.
#[test]
fn a_chain_that_is_written_last_first_takes_no_longer() {
    let show = |name: &str| {
        let trap = TRAPS.iter().find(|trap| trap.name == name).expect("it is there");
        quickest(&(trap.make)(16_000), 2)[2].1
    };
    let (forward, backward) = (show("parts in a chain"), show("parts in a chain, last first"));
    assert!(backward < forward * 5 + Duration::from_secs(1), "{backward:?} instead of {forward:?}");
}

/// What is put together by name, on a label, in a cost and on a list, takes no square of the lines: eight times as many are far from sixty-four
/// times the work. (A trial's finding: 84 s for the label of 20 000 lines.)
#[test]
fn what_is_put_together_by_name_grows_with_the_lines() {
    let took = |command: &str, lines: usize| {
        let file = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("names-{command}-{lines}.miche"));
        let lines: String =
            (0..lines).map(|number| format!("ingredient{number} .... {} g\n", number % 90 + 10)).collect();
        std::fs::write(&file, format!("recipe Big\n{lines}")).expect("there is room");
        let clock = Instant::now();
        let done = Command::new(env!("CARGO_BIN_EXE_miche")).arg(command).arg(&file).output().expect("it runs");
        assert!(done.status.success(), "{command}: {}", String::from_utf8_lossy(&done.stderr));
        clock.elapsed()
    };
    for command in ["label", "cost", "list"] {
        let few = took(command, 500).min(took(command, 500));
        let many = took(command, 4000);
        assert!(many < few * 24 + Duration::from_secs(1), "{command}: {many:?} for eight times what took {few:?}");
    }
}

/// Parts that share parts: there are 2^24 ways down, and each part is worked out once.
#[test]
fn parts_that_share_parts_are_gone_through_once() {
    let rung = |number: usize| {
        let (mine, below) = (number, number + 1);
        format!(
            "part a{mine}\ncream .. 20 g\na{below} .. 10 g\nb{below} .. 10 g\n\npart b{mine}\nmilk .. 20 g\na{below} .. 10 g\nb{below} .. 10 g\n\n"
        )
    };
    let rungs: String = (0..24).map(rung).collect();
    let text = format!(
        "recipe Ladder\n{rungs}part a24\nflour .. 10 g\nwater .. 10 g\n\npart b24\nflour .. 10 g\nwater .. 10 g\n\n\
         part end\na0 .. 10 g\nb0 .. 10 g\nbake: tend 20 min, using oven at 200 C\n    until gold\n"
    );
    let file = Path::new(env!("CARGO_TARGET_TMPDIR")).join("shared-parts.miche");
    std::fs::write(&file, text).expect("there is room");
    for options in [&["label"][..], &["label", "--law", "us"], &["card", "--for", "reader"], &["sums"], &["cost"]] {
        let clock = Instant::now();
        let done = Command::new(env!("CARGO_BIN_EXE_miche")).args(options).arg(&file).output().expect("it runs");
        assert!(clock.elapsed() < Duration::from_secs(20), "{options:?}: {:?}", clock.elapsed());
        assert!(
            done.status.code().is_some_and(|code| code < 2),
            "{options:?}: {}",
            String::from_utf8_lossy(&done.stderr)
        );
    }
}

/// A problem with thousands of places shows some of them and says how many more there are: each would take a line as wide as
/// all of them.
#[test]
fn a_problem_with_thousands_of_places_is_shown_short() {
    let trap = TRAPS.iter().find(|trap| trap.name == "braces of flour").expect("it is there");
    let text = (trap.make)(24_000);
    let mut loader = Loader::new();
    let source = loader.take_text("made up", text.clone(), Path::new("./made up"));
    let project = loader.into_project();
    let problems = check_file(&project, source);
    let problem = problems.iter().find(|problem| problem.also.len() > 2_000).expect("every brace is a place");
    let shown = report::terminal::render(&project.sources, problem, false, 80);
    assert!(shown.len() < 60 * text.len(), "{} bytes for a text of {}", shown.len(), text.len());
    assert!(
        shown.contains(&format!("{} more such places are not shown", problem.also.len() - 20)),
        "{}",
        &shown[shown.len() - 400..]
    );
}

/// Eight times the text takes each stage about eight times as long: nothing grows with the square of a plain text, which would
/// take 64 times as long.
#[test]
fn time_grows_with_the_text() {
    let (few, many) = (quickest(&plain(SIZE), 3), quickest(&plain(8 * SIZE), 3));
    for ((stage, few), (_, many)) in few.into_iter().zip(many) {
        // What is done in no time at all is measured by what else the machine does.
        let few = few.max(Duration::from_millis(2));
        assert!(many < few * 32, "{stage}: 8 times the text takes {many:?} instead of {few:?}");
    }
}

/// What the fuzzers found once stays found.
#[test]
fn what_was_found_is_withstood() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/hostile/found");
    let mut count = 0;
    for entry in std::fs::read_dir(&folder).expect("there are findings") {
        let path = entry.expect("readable").path();
        let text = String::from_utf8(std::fs::read(&path).expect("readable")).expect("UTF-8");
        for (what, output) in outputs(&text) {
            let hidden = output.chars().find(|c| is_unseen(*c));
            assert!(hidden.is_none(), "{hidden:?} in {what} of {}", path.display());
        }
        tidy(&text, None).expect("tidying changes nothing that is said");
        count += 1;
    }
    assert!(count >= 2);
}

/// CommonMark turns `&#27;` into the character itself, behind the back of everything that looks at the text.
#[test]
fn entities_smuggle_nothing_in() {
    let text = "recipe Rolls\nmakes 4 rolls\nnote Ring &#27;[31m twice &#x202E; and [there](https://example.org \"&#7;\") \
                &#xE000;0&#xE001; `&#0;`.\nflour .... 400 g\nwater .... 60 %\n\
                mix: hands 5 min\n    Mix {flour} and {water} &#x1b;[2J well &#8203;.\n    until smooth &#x9b;31m\n";
    let mut cards = 0;
    for (what, output) in outputs(text) {
        let hidden = output.chars().find(|c| is_unseen(*c));
        assert!(hidden.is_none(), "{hidden:?} in {what}: {output}");
        cards += usize::from(output.contains("twice"));
    }
    assert!(cards >= 4, "the note stands on {cards} cards");
}

/// Characters that steer a terminal or hide in a text.
fn is_unseen(c: char) -> bool {
    (c.is_control() && !matches!(c, '\n' | '\t'))
        || matches!(c, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{2069}' | '\u{feff}')
}

/// All reports and cards of a text, also of one with errors.
fn outputs(text: &str) -> Vec<(&'static str, String)> {
    let mut loader = Loader::new();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/made up.miche");
    let source = loader.take_text("made up", text.to_owned(), &folder);
    let project = loader.into_project();
    let problems = check_file(&project, source);
    let mut outputs = vec![
        ("the JSON report", report::json::render(&project.sources, &problems).expect("JSON")),
        ("the SARIF report", report::sarif::render(&project.sources, &problems, true).expect("SARIF")),
    ];
    for problem in &problems {
        outputs.push(("a problem", report::terminal::render(&project.sources, problem, false, 80)));
        outputs.push(("a short problem", report::short::render(&project.sources, problem)));
        outputs.push(("an annotation", report::github::render(&project.sources, problem)));
    }
    let tree = &project.file(source).expect("it was read").tree;
    for selection in selections(&choices_of(tree)) {
        let Some((recipe, formula)) = work_out(&project, source, &selection, &mut Vec::new()) else { continue };
        let batch = Batch::of(&Order::of(recipe, formula), 0);
        let card = of_batch(&batch, Units::Both).expect("a card");
        let sheet = out::sheet::Sheet {
            paper: out::sheet::Paper::A4,
            orientation: out::sheet::Orientation::Portrait,
            by: out::sheet::By::Recipe,
            printed: "2027-04-17".to_owned(),
            compact: false,
            revision: None,
        };
        outputs
            .push(("the text card", out::card::text(std::slice::from_ref(&card), None, out::text::Style::plain(80))));
        outputs.push(("the Markdown card", out::card::markdown(std::slice::from_ref(&card), None)));
        outputs.push(("the JSON card", out::json::render(&card).expect("JSON")));
        outputs.push(("the HTML card", out::html::render(std::slice::from_ref(&card), None, &sheet)));
    }
    outputs
}

/// A recipe at its limits is taken, one beyond them is refused with one plain problem.
#[test]
fn limits_hold() {
    let checks = |text: &str| {
        let mut loader = Loader::new();
        let source = loader.take_text("made up", text.to_owned(), Path::new("./made up"));
        let problems = check_file(&loader.into_project(), source);
        problems
            .iter()
            .filter(|one| one.severity == miche::text::diagnostic::Severity::Error)
            .map(|one| one.check)
            .collect()
    };
    let options = |count: usize| {
        let all: Vec<String> = (0..count).map(|number| format!("o{number}")).collect();
        let lines: String = all.iter().map(|option| format!("salt .... 9 g [{option}]\n")).collect();
        format!(
            "recipe R\nchoose c: {}\nflour .... 1 kg\n{lines}weigh: hands 1 min\n    Weigh {{flour}} and {{salt}}.\n",
            all.join(" or ")
        )
    };
    let none: Vec<&str> = Vec::new();
    let found: Vec<&str> = checks(&options(100));
    assert_eq!(found, none);
    let found: Vec<&str> = checks(&options(101));
    assert_eq!(found, ["too-much"]);
    let parts = |count: usize| -> String {
        let parts: String = (0..count).map(|number| format!("part p{number}\n")).collect();
        format!("recipe R\n{parts}")
    };
    let found: Vec<&str> = checks(&parts(10_001));
    assert_eq!(found, ["too-much"]);
    let found: Vec<&str> = checks(&parts(12));
    assert!(!found.contains(&"too-much"));
}

/// A file that uses the two before it, which use the two before them, is worked out as often as there are files, and not as often
/// as there are ways.
#[test]
fn many_ways_to_one_file_are_one() {
    let took = |deep: usize| {
        let folder = tempfile::tempdir().expect("a folder");
        for number in 0..deep {
            let before: Vec<usize> = (number.saturating_sub(2)..number).collect();
            let uses: String = before.iter().map(|other| format!("use \"r{other}.miche\"\n")).collect();
            let lines: String = before.iter().map(|other| format!("Dough {other} .... 10 g\n")).collect();
            let taken: String = before.iter().map(|other| format!(", {{Dough {other}}}")).collect();
            let text = format!(
                "recipe Dough {number}\n{uses}flour .... 100 g\nwater .... 60 %\n{lines}\nmix: hands 5 min\n    Mix {{flour}}, {{water}}{taken}.\n    until smooth\n"
            );
            std::fs::write(folder.path().join(format!("r{number}.miche")), text).expect("written");
        }
        let clock = Instant::now();
        let mut loader = Loader::new();
        let source = loader.load(&folder.path().join(format!("r{}.miche", deep - 1))).expect("it is there");
        let problems = check_file(&loader.into_project(), source);
        let wrong: Vec<&str> =
            problems.iter().map(|problem| problem.check).filter(|check| *check == "stray-line").collect();
        assert!(wrong.is_empty(), "{wrong:?}");
        clock.elapsed()
    };
    let (few, many) = (took(8), took(24));
    // Each file is checked by itself and with all that it uses: three times as many take up to 27 times as long.
    assert!(many < few.max(Duration::from_millis(20)) * 60, "8 deep {few:?}, 24 deep {many:?}");
}

/// Files that use each other too deep are an error in whatever order they are read: what lies too deep would be taken for
/// something that is bought.
#[test]
fn files_too_deep_are_told_in_any_order() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = |number: usize| folder.path().join(format!("r{number}.miche"));
    for number in 0..36_usize {
        let (use_it, list, take) = match number.checked_sub(1) {
            Some(before) => (
                format!("use \"r{before}.miche\"\n"),
                format!("Dough {before} .... 10 g\n"),
                format!("{{Dough {before}}}"),
            ),
            None => (String::new(), "flour .... 10 g\n".to_owned(), "{flour}".to_owned()),
        };
        let text = format!(
            "recipe Dough {number}\n{use_it}{list}salt .... 1 g\n\nmix: hands 5 min\n    Mix {take} and {{salt}}.\n    until smooth\n"
        );
        std::fs::write(path(number), text).expect("written");
    }
    let mut loader = Loader::new();
    let sources: Vec<_> = (0..36).map(|number| loader.load(&path(number)).expect("it is there")).collect();
    let project = loader.into_project();
    let told = |number: usize| {
        let problems = check_file(&project, sources[number]);
        problems.iter().any(|problem| problem.message.contains("more than 32 deep"))
    };
    assert!(!told(32) && told(33) && told(35));
}

/// Of a line with thousands of problems some are told, and the rest is counted.
#[test]
fn the_problems_of_a_line_are_counted() {
    for line in ["    {flur}".repeat(5_000), "    flour".to_owned() + &", foo".repeat(5_000)] {
        let text =
            format!("recipe R\nflour .... 1 kg\nmix: hands 5 min\n{line}\n    Mix {{flour}}.\n    until smooth\n");
        let mut loader = Loader::new();
        let source = loader.take_text("made up", text, Path::new("./made up"));
        let project = loader.into_project();
        let problems = check_file(&project, source);
        let shown: usize =
            problems.iter().map(|problem| report::terminal::render(&project.sources, problem, false, 80).len()).sum();
        assert!(problems.len() < 40, "{}", problems.len());
        assert!(shown < 4_000_000, "{shown}");
        if line.contains('{') {
            assert!(
                problems.iter().any(|problem| problem.message.contains("more problems in this line")),
                "{problems:?}"
            );
        }
    }
}

/// A used recipe is resolved once a run, however many files and ways lead to it, and once for each of its own choices.
#[test]
fn what_many_use_is_resolved_once() {
    let folder = tempfile::tempdir().expect("a folder");
    let write = |name: &str, text: String| {
        std::fs::write(folder.path().join(name), text).expect("written");
        folder.path().join(name)
    };
    let step = "mix: hands 5 min\n    Mix {flour}.\n";
    write("base.miche", format!("recipe Base\nchoose way: hand or machine\nflour .... 100 g\n{step}"));
    write("middle.miche", format!("recipe Middle\nuse \"base.miche\"\nflour .... 100 g\nBase .... 10 g\n{step}"));
    let tops: Vec<_> = (0..3)
        .map(|at| {
            let text = format!(
                "recipe Top {at}\nuse \"middle.miche\"\nuse \"base.miche\"\nchoose salt: a or b or c\nflour .... 100 g\nBase .... {at} g\n{step}"
            );
            write(&format!("top {at}.miche"), text)
        })
        .collect();
    let mut loader = Loader::new();
    let sources: Vec<_> = tops.iter().map(|path| loader.load(path).expect("it is there")).collect();
    let project = loader.into_project();
    let mut bases = Vec::new();
    for source in sources {
        for selection in selections(&choices_of(&project.file(source).expect("it was read").tree)) {
            let (recipe, _) = work_out(&project, source, &selection, &mut Vec::new()).expect("a recipe");
            let base = recipe.used.iter().find(|used| &*used.recipe.name.text == "Base").expect("it is used");
            bases.push(std::sync::Arc::clone(&base.recipe));
        }
    }
    assert_eq!(bases.len(), 9);
    assert!(bases.iter().all(|base| std::sync::Arc::ptr_eq(base, &bases[0])), "resolved more than once");
}
