//! What the fuzz targets share: a project without a disk, what must hold of everything that is made, and a way to change
//! texts line by line, since a file of the language is a list of lines.

// A target fails by panicking.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use miche::check::{check_files, work_out};
use miche::figures::card::{Card, DayHead, of_batch};
use miche::figures::list;
use miche::language::parse::parse;
use miche::language::syntax::Tree;
use miche::make::batch::Batch;
use miche::make::order::Order;
use miche::measure::number::Number;
use miche::measure::show::Units;
use miche::model::project::{File, Project};
use miche::out;
use miche::out::report;
use miche::out::sheet::{By, Orientation, Paper, Sheet};
use miche::solve::resolve::{choices_of, selections};
use miche::text::diagnostic::{Diagnostic, Severity};
use miche::text::line_break;
use miche::text::source::{SourceId, Sources, Span};
use std::sync::{Arc, OnceLock};

pub mod targets;

/// Files that inputs may use, by the names under which they use them.
pub const EXAMPLES: &[(&str, &str)] = &[
    ("bakehouse.miche", include_str!("../../../examples/bakehouse.miche")),
    ("larder.miche", include_str!("../../../examples/larder.miche")),
    ("school-kitchen.miche", include_str!("../../../examples/school-kitchen.miche")),
    ("mother-dough.miche", include_str!("../../../examples/mother-dough.miche")),
    ("harbour-levain-loaf.miche", include_str!("../../../examples/harbour-levain-loaf.miche")),
    ("harbour-rolls.miche", include_str!("../../../examples/harbour-rolls.miche")),
    ("quay-baguettes.miche", include_str!("../../../examples/quay-baguettes.miche")),
    ("rhubarb-crumb-buns.miche", include_str!("../../../examples/rhubarb-crumb-buns.miche")),
    ("yellow-pea-pot.miche", include_str!("../../../examples/yellow-pea-pot.miche")),
    ("tide-oatcakes.miche", include_str!("../../../examples/tide-oatcakes.miche")),
];

/// A project of some texts and the examples. The first text may use the others, by name, and the examples; examples use each
/// other; the other texts use nothing, so that nothing goes round in a ring.
pub fn project_of(own: &[(&str, &str)]) -> (Project, Vec<SourceId>) {
    static BASE: OnceLock<(Project, Vec<SourceId>)> = OnceLock::new();
    let (base, base_sources) = BASE.get_or_init(|| {
        let mut project = Project::default();
        let sources = take_in(&mut project, EXAMPLES);
        for source in &sources {
            link(&mut project, *source, EXAMPLES, &sources);
        }
        (project, sources)
    });
    let mut project = base.clone();
    let sources = take_in(&mut project, own);
    if let Some(first) = sources.first() {
        link(&mut project, *first, EXAMPLES, base_sources);
        link(&mut project, *first, own.get(1..).unwrap_or_default(), sources.get(1..).unwrap_or_default());
    }
    (project, sources)
}

fn take_in(project: &mut Project, texts: &[(&str, &str)]) -> Vec<SourceId> {
    let take = |(name, text): &(&str, &str)| {
        let source = project.sources.add(*name, (*text).to_owned());
        let (tree, diagnostics) = parse(source, text);
        project.add(File { tree: tree.into(), diagnostics });
        source
    };
    texts.iter().map(take).collect()
}

/// Binds what a text uses to those files that have the name.
fn link(project: &mut Project, from: SourceId, names: &[(&str, &str)], sources: &[SourceId]) {
    let Some(tree) = project.file(from).map(|file| Arc::clone(&file.tree)) else { return };
    for line in &tree.lines {
        let Some(path) = line.content.path() else { continue };
        if let Some(at) = names.iter().position(|(name, _)| *name == path.value) {
            project.link(path.span, sources[at]);
        }
    }
}

/// Text to tree to text: every byte is in exactly one line, or is that line's break.
pub fn keeps_every_byte(text: &str, tree: &Tree) {
    let mut at = if text.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { 0 };
    for line in &tree.lines {
        assert_eq!(line.span.start as usize, at, "a gap before {line:?}");
        assert!(!text[line.span.range()].contains(['\n', '\r']));
        let comment_start = line.comment.map_or(line.span.end, |comment| comment.start);
        assert!(line.span.start <= line.said.start && line.said.end <= comment_start);
        assert_eq!(text[line.span.start as usize..line.said.start as usize].trim(), "");
        assert_eq!(text[line.said.end as usize..comment_start as usize].trim(), "");
        at = line.span.end as usize;
        at += line_break::next(text, at).filter(|(end, _)| *end == at).map_or(0, |(_, length)| length);
    }
    assert_eq!(at, text.len(), "the end of the text is in no line");
}

/// Every place that a problem names lies in a text and between its characters.
pub fn places_are_in_the_text(sources: &Sources, problems: &[Diagnostic]) {
    let is_in = |span: Span| sources.get(span.source).is_some_and(|source| source.text.get(span.range()).is_some());
    for problem in problems {
        assert!(is_in(problem.span), "{problem:?}");
        assert!(problem.also.iter().all(|label| is_in(label.span)), "{problem:?}");
        let edits = problem.mend.iter().flat_map(|mend| &mend.edits);
        assert!(edits.into_iter().all(|edit| is_in(edit.span)), "{problem:?}");
    }
}

/// No character that could steer a terminal, and none that turns the direction of a text.
pub fn is_clean(text: &str) {
    let steers = |c: char| c.is_control() && c != '\n' && c != '\t';
    let turns = |c: char| matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{200e}' | '\u{200f}');
    let found = text.chars().find(|c| steers(*c) || turns(*c));
    assert!(found.is_none(), "{found:?} in {text:?}");
}

/// Problems are printed in every format.
pub fn reports(project: &Project, problems: &[Diagnostic]) {
    places_are_in_the_text(&project.sources, problems);
    for problem in problems {
        let shown = report::terminal::render(&project.sources, problem, false, 80);
        assert!(shown.contains(problem.check), "{shown}");
        is_clean(&shown);
        is_clean(&report::short::render(&project.sources, problem));
        is_clean(&report::github::render(&project.sources, problem));
    }
    is_json(&report::json::render(&project.sources, problems).expect("problems are JSON"));
    is_json(&report::sarif::render(&project.sources, problems, true).expect("problems are SARIF"));
}

/// Checks files and prints what is wrong with them in every format. Whether there is no error.
pub fn checks(project: &Project, sources: &[SourceId]) -> bool {
    let problems: Vec<Diagnostic> = check_files(project, sources).into_iter().flatten().collect();
    reports(project, &problems);
    !problems.iter().any(|problem| problem.severity == Severity::Error)
}

/// Makes a batch of a recipe, also where it has errors, and cards and a list of it in every format. Which size, units and
/// sheets is settled by the text's length, so that each input is quick and all of them together try everything.
pub fn makes_cards(project: &Project, source: SourceId) {
    let Some(file) = project.file(source) else { return };
    let length = project.sources.get(source).map_or(0, |source| source.text.len());
    let all = selections(&choices_of(&file.tree));
    let Some(selection) = all.get(length % all.len()) else { return };
    let Some((recipe, formula)) = work_out(project, source, selection, &mut Vec::new()) else { return };
    let factor = match length % 4 {
        0 => Number::fraction(1, 3).unwrap_or(Number::ONE),
        1 => Number::whole(7),
        _ => Number::ONE,
    };
    let Ok(formula) = formula.times(factor) else { return };
    lays_out(&[Batch::of(&Order { factor, ..Order::of(recipe, formula) }, 0)], None, length);
}

/// Batches as cards and as a list, in every format.
pub fn lays_out(batches: &[Batch], day: Option<&DayHead>, which: usize) {
    let units = if which.is_multiple_of(2) { Units::Metric } else { Units::Both };
    let cards: Result<Vec<Card>, _> = batches.iter().map(|batch| of_batch(batch, units)).collect();
    let Ok(cards) = cards else { return };
    let style = out::text::Style::plain(80);
    is_clean(&out::card::text(&cards, day, style));
    is_clean(&out::card::markdown(&cards, day));
    is_json(&out::json::render_all(&cards).expect("cards are JSON"));
    let by = [By::Recipe, By::Part, By::Station][which % 3];
    let printed = "2027-04-17".to_owned();
    let sheet =
        Sheet { paper: Paper::A5, orientation: Orientation::Portrait, by, compact: false, printed, revision: None };
    is_safe_html(&out::html::render(&cards, day, &sheet));
    let Ok(list) = list::of(&cards, units) else { return };
    is_clean(&out::list::text(&list, style));
    is_clean(&out::list::markdown(&list));
    is_safe_csv(&out::list::csv(&list));
    is_json(&out::list::json(&list).expect("a list is JSON"));
    is_safe_html(&out::html::render_list(&list, day, &sheet));
}

/// A page holds one script, its own, and nothing that fetches or runs.
fn is_safe_html(page: &str) {
    is_clean(page);
    let low = page.to_ascii_lowercase();
    assert!(low.matches("<script").count() <= 1, "{page}");
    for tag in ["<img", "<iframe", "<object", "<embed", "<link", "<base", "<form", "javascript:\""] {
        assert!(!low.contains(tag), "{tag} in {page}");
    }
}

/// No cell that a spreadsheet would take for a sum. A number below zero is a number.
fn is_safe_csv(table: &str) {
    is_clean(&table.replace('\r', ""));
    let mut quoted = false;
    let mut starts = true;
    for (at, c) in table.char_indices() {
        match c {
            '"' => {
                // A doubled quote opens and closes again; a cell's first character stands behind its opening quote.
                quoted = !quoted;
                continue;
            }
            ',' | '\n' if !quoted => starts = true,
            '\r' => {}
            c => {
                let cell = || table[at..].split([',', '\n', '\r', '"']).next().unwrap_or_default();
                let is_sum = matches!(c, '=' | '+' | '@' | '\t') || c == '-' && cell().parse::<f64>().is_err();
                assert!(!starts || !is_sum, "{c} begins a cell of {table}");
                starts = false;
            }
        }
    }
}

fn is_json(text: &str) {
    assert!(serde_json::from_str::<serde_json::Value>(text).is_ok(), "{text}");
    is_clean(text);
}

/// Changes a text by lines: the fuzzer's own changes are by bytes. Gives the new length within `data`.
pub fn mutate_lines(data: &mut [u8], size: usize, max_size: usize, seed: u32) -> usize {
    let mut random = Random(u64::from(seed) << 1 | 1);
    let text = String::from_utf8_lossy(&data[..size]).into_owned();
    let mut lines: Vec<String> = text.split_inclusive('\n').map(str::to_owned).collect();
    for _ in 0..=random.below(3) {
        let count = lines.len();
        let at = random.below(count + 1);
        match random.below(7) {
            0 if count > 0 => {
                lines.remove(at.min(count - 1));
            }
            1 if count > 0 => lines.insert(at, lines[random.below(count)].clone()),
            2 if count > 1 => lines.swap(at.min(count - 1), random.below(count)),
            3 if count > 0 => {
                // A line's end behind another's beginning.
                let (one, other) = (lines[at.min(count - 1)].clone(), lines[random.below(count)].clone());
                let (left, right) = (cut(&one, &mut random), cut(&other, &mut random));
                lines[at.min(count - 1)] = format!("{}{}", &one[..left], &other[right..]);
            }
            4 if count > 0 => {
                let line = &mut lines[at.min(count - 1)];
                *line = format!("{}{}", " ".repeat(random.below(6)), line.trim_start_matches(' '));
            }
            _ => {
                let (_, example) = EXAMPLES[random.below(EXAMPLES.len())];
                let there: Vec<&str> = example.split_inclusive('\n').collect();
                lines.insert(at, there[random.below(there.len())].to_owned());
            }
        }
    }
    let changed = lines.concat();
    let mut end = changed.len().min(max_size).min(data.len());
    while !changed.is_char_boundary(end) {
        end -= 1;
    }
    data[..end].copy_from_slice(&changed.as_bytes()[..end]);
    end
}

fn cut(line: &str, random: &mut Random) -> usize {
    let mut at = random.below(line.len() + 1);
    while !line.is_char_boundary(at) {
        at -= 1;
    }
    at
}

/// A small generator (xorshift) that gives the same changes for the same seed.
struct Random(u64);

impl Random {
    fn below(&mut self, end: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 % end.max(1) as u64) as usize
    }
}

/// A target: changes by lines as often as by bytes, and texts that are UTF-8.
#[macro_export]
macro_rules! target {
    ($run:expr) => {
        libfuzzer_sys::fuzz_mutator!(|data: &mut [u8], size: usize, max_size: usize, seed: u32| {
            if seed % 2 == 0 {
                $crate::mutate_lines(data, size, max_size, seed >> 1)
            } else {
                libfuzzer_sys::fuzzer_mutate(data, size, max_size)
            }
        });
        libfuzzer_sys::fuzz_target!(|data: &[u8]| {
            if let Ok(text) = std::str::from_utf8(data) {
                let run: fn(&str) = $run;
                run(text);
            }
        });
    };
}
