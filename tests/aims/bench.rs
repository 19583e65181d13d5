//! Recipes with a larder of their own, and what aims come to in them.

use miche::aims::change::{Line, Outcome, Way, Wish, lines, short, with_amounts, work_out};
use miche::check::{check_file, work_out as worked};
use miche::edge::loader::Loader;
use miche::measure::number::Number;
use miche::solve::resolve::{choices_of, selections};
use std::fs;

/// A recipe under every choice, and its lines.
pub struct Bench {
    pub ways: Vec<Way>,
    pub lines: Vec<Line>,
    /// The checks that find an error.
    pub errors: Vec<String>,
}

/// Reads a recipe; `larder` stands beside it as `larder.miche`.
pub fn bench(recipe: &str, larder: &str) -> Bench {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("larder.miche"), larder).expect("written");
    let file = folder.path().join("recipe.miche");
    fs::write(&file, recipe).expect("written");
    let mut loader = Loader::new();
    let source = loader.load(&file).expect("readable");
    let project = loader.into_project();
    let problems = check_file(&project, source);
    let errors = problems.iter().filter(|problem| problem.severity == miche::text::diagnostic::Severity::Error);
    let errors = errors.map(|problem| format!("{}: {}", problem.check, problem.message)).collect();
    let tree = &project.file(source).expect("read").tree;
    let ways: Vec<Way> = selections(&choices_of(tree))
        .iter()
        .filter_map(|selection| worked(&project, source, selection, &mut Vec::new()))
        .map(|(recipe, formula)| Way { recipe, formula })
        .collect();
    let lines = lines(&ways);
    Bench { ways, lines, errors }
}

impl Bench {
    /// The lines of these names; of none all that may change by themselves.
    pub fn free(&self, names: &[&str]) -> Vec<usize> {
        let may = |line: &Line| if names.is_empty() { line.is_free } else { names.contains(&&*line.name.text) };
        self.lines.iter().enumerate().filter(|(_, line)| may(line)).map(|(number, _)| number).collect()
    }

    pub fn solve(&self, free: &[usize], wish: Wish) -> Outcome {
        work_out(&self.ways, &self.lines, free, wish).expect("in range")
    }

    /// What each line weighs when it is so many times what is written.
    pub fn grams(&self, times: &[Number]) -> Vec<(String, f64)> {
        let now = with_amounts(&self.ways, &self.lines, &short(times).expect("in range")).expect("in range");
        let grams = |line: &Line| line.mass(&now).expect("it has a weight").value().to_f64();
        self.lines.iter().map(|line| (line.name.to_string(), grams(line))).collect()
    }
}
