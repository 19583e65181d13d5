//! The expectation files beside the published recipes: what a card must say, and where that was printed.
//!
//! ```text
//! # A comment.
//! source LEHMANN: T. Lehmann, PMQ, "How to convert baker's percent to weight"
//!
//! /parts/0/lines/salt/grams = 317.515 +- 0.001     # LEHMANN: printed 11.2 oz
//! /parts/0/lines/salt/buy_g absent                 # LEHMANN: no yield is given
//! sum /parts/dough/lines/*/grams + /a/b = 756      # LEHMANN: recomputed
//! error base-not-100                               # LEHMANN: …
//!
//! args --base "50 lb"
//! /parts/0/lines/salt/grams = 396.893 +- 0.001     # LEHMANN: printed 14 oz
//! ```
//!
//! `args` begins another run of `miche card`; `error`, `warning` and `advice` say what `miche check` must find, `no CHECK`
//! what it must not, and errors that are not listed are failures. A number without `+-` must agree to nine digits. Every line must end in `# KEY: words`,
//! where KEY is a `source` of the same file. In a pointer a list is entered by number or by name.

use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};

/// One expectation file.
#[derive(Debug, Default)]
pub struct Sheet {
    /// What must be on the cards, run by run.
    pub runs: Vec<Run>,
    /// What the checks must find.
    pub findings: Vec<Finding>,
}

/// One run of `miche card`.
#[derive(Debug, Default)]
pub struct Run {
    /// Scaling and choices.
    pub args: Vec<String>,
    /// What must be on the card.
    pub claims: Vec<Claim>,
}

/// One line about a card.
#[derive(Debug)]
pub struct Claim {
    /// Its line in the expectation file.
    pub line: usize,
    /// The pointers as written; their values are added up.
    pub pointers: Vec<String>,
    /// What must stand there.
    pub wanted: Wanted,
    /// Where that was printed.
    pub source: String,
}

/// What must stand at a pointer.
#[derive(Debug, PartialEq)]
pub enum Wanted {
    /// A number, give or take.
    Number(f64, f64),
    /// A text, a truth value or null.
    Exactly(Value),
    /// Nothing, or null.
    Absent,
}

/// One line about `miche check`.
#[derive(Debug)]
pub struct Finding {
    /// `error`, `warning` or `advice`; `no` when the check must be silent.
    pub severity: String,
    /// The name of the check.
    pub check: String,
    /// Where the reason was printed.
    pub source: String,
}

impl Sheet {
    /// Reads an expectation file.
    ///
    /// # Errors
    /// The line and what is wrong with it; a line without a source is wrong.
    pub fn read(text: &str) -> Result<Sheet, String> {
        let mut sheet = Sheet::default();
        let mut sources = BTreeMap::new();
        let mut cited = BTreeSet::new();
        for (number, line) in (1..).zip(text.lines().map(str::trim)) {
            if line.is_empty() || line == "#" || line.starts_with("# ") {
                continue;
            }
            sheet.read_line(line, number, &mut sources, &mut cited).map_err(|why| format!("line {number}: {why}"))?;
        }
        if let Some(idle) = sources.keys().find(|key| !cited.contains(*key)) {
            return Err(format!("the source {idle} is cited by no line"));
        }
        if sheet.findings.is_empty() && sheet.runs.iter().all(|run| run.claims.is_empty()) {
            return Err("it expects nothing".to_owned());
        }
        if let Some(run) = sheet.runs.iter().find(|run| run.claims.is_empty() && !run.args.is_empty()) {
            return Err(format!("nothing is expected of the run with {:?}", run.args));
        }
        Ok(sheet)
    }

    fn read_line(
        &mut self,
        line: &str,
        number: usize,
        sources: &mut BTreeMap<String, String>,
        cited: &mut BTreeSet<String>,
    ) -> Result<(), String> {
        if let Some(source) = line.strip_prefix("source ") {
            let (key, words) = source.split_once(": ").ok_or("write `source KEY: where it was printed`")?;
            if words.trim().is_empty() || sources.insert(key.to_owned(), words.trim().to_owned()).is_some() {
                return Err(format!("the source {key} is empty or given twice"));
            }
            return Ok(());
        }
        if let Some(args) = line.strip_prefix("args ") {
            self.runs.push(Run { args: words_of(args)?, claims: Vec::new() });
            return Ok(());
        }
        let (said, comment) = line.split_once(" # ").ok_or("it carries no source: end it with `# KEY: …`")?;
        let (key, words) = comment.split_once(": ").ok_or("its comment is not `KEY: …`")?;
        let printed = sources.get(key.trim()).ok_or_else(|| format!("there is no `source {key}:` above it"))?;
        if words.trim().is_empty() {
            return Err("its source says nothing".to_owned());
        }
        cited.insert(key.trim().to_owned());
        let source = format!("{} ({printed})", words.trim());
        let said = said.trim();
        if let Some((severity @ ("error" | "warning" | "advice" | "no"), check)) = said.split_once(' ') {
            let (severity, check) = (severity.to_owned(), check.trim().to_owned());
            self.findings.push(Finding { severity, check, source });
            return Ok(());
        }
        let (pointers, wanted) = claim(said)?;
        if self.runs.is_empty() {
            self.runs.push(Run::default());
        }
        if let Some(run) = self.runs.last_mut() {
            run.claims.push(Claim { line: number, pointers, wanted, source });
        }
        Ok(())
    }
}

fn claim(said: &str) -> Result<(Vec<String>, Wanted), String> {
    if let Some(pointer) = said.strip_suffix(" absent") {
        return Ok((vec![pointer_of(pointer)?], Wanted::Absent));
    }
    let (left, right) = said.split_once(" = ").ok_or("write `POINTER = VALUE` or `POINTER absent`")?;
    let wanted = wanted(right.trim())?;
    let Some(terms) = left.strip_prefix("sum ") else { return Ok((vec![pointer_of(left)?], wanted)) };
    if !matches!(wanted, Wanted::Number(..)) {
        return Err("a sum is a number".to_owned());
    }
    let pointers: Result<Vec<String>, String> = terms.split(" + ").map(pointer_of).collect();
    Ok((pointers?, wanted))
}

fn pointer_of(text: &str) -> Result<String, String> {
    let text = text.trim();
    if text.starts_with('/') { Ok(text.to_owned()) } else { Err(format!("`{text}` is no pointer: it begins with `/`")) }
}

fn wanted(text: &str) -> Result<Wanted, String> {
    let number = |text: &str| text.trim().parse::<f64>().map_err(|why| format!("`{text}`: {why}"));
    if let Some((value, tolerance)) = text.split_once("+-") {
        let (value, tolerance) = (number(value)?, number(tolerance)?);
        return if tolerance > 0.0 { Ok(Wanted::Number(value, tolerance)) } else { Err("no tolerance".to_owned()) };
    }
    match serde_json::from_str(text).map_err(|why| format!("`{text}`: {why}"))? {
        Value::Number(_) => number(text).map(|value| Wanted::Number(value, value.abs().max(1.0) * 1e-9)),
        value @ (Value::String(_) | Value::Bool(_)) => Ok(Wanted::Exactly(value)),
        _ => Err(format!("`{text}` is neither a number, a text nor a truth value")),
    }
}

/// Splits at spaces outside double quotation marks.
fn words_of(text: &str) -> Result<Vec<String>, String> {
    let mut words = Vec::new();
    let mut open = None;
    let mut quoted = false;
    for character in text.trim().chars() {
        match character {
            '"' => {
                quoted = !quoted;
                open.get_or_insert_with(String::new);
            }
            ' ' if !quoted => words.extend(open.take()),
            other => open.get_or_insert_with(String::new).push(other),
        }
    }
    words.extend(open);
    if quoted || words.is_empty() { Err("args: nothing, or a quotation mark left open".to_owned()) } else { Ok(words) }
}

impl Claim {
    /// Whether the card says what was printed; otherwise what it says instead.
    pub fn fault_in(&self, card: &Value) -> Option<String> {
        let mut found = Vec::new();
        for pointer in &self.pointers {
            match self.look_up(card, pointer) {
                Ok(values) => found.extend(values),
                Err(why) => return Some(why),
            }
        }
        match &self.wanted {
            Wanted::Absent => found.iter().find(|value| !value.is_null()).map(|value| value.to_string()),
            Wanted::Exactly(value) => found.iter().find(|other| *other != value).map(|other| other.to_string()),
            Wanted::Number(value, tolerance) => {
                let Some(numbers) = found.iter().map(Value::as_f64).collect::<Option<Vec<f64>>>() else {
                    let shown: Vec<String> = found.iter().map(Value::to_string).collect();
                    return Some(format!("not a number: {}", shown.join(", ")));
                };
                let sum: f64 = numbers.iter().sum();
                let near = (sum - value).abs() <= tolerance + value.abs() * 1e-12;
                if near { None } else { Some(sum.to_string()) }
            }
        }
    }

    /// What must stand there, to be read.
    pub fn expected(&self) -> String {
        match &self.wanted {
            Wanted::Number(value, tolerance) => format!("{value} give or take {tolerance}"),
            Wanted::Exactly(value) => value.to_string(),
            Wanted::Absent => "nothing there".to_owned(),
        }
    }

    fn look_up(&self, card: &Value, pointer: &str) -> Result<Vec<Value>, String> {
        let mut here = vec![card];
        let steps: Vec<&str> = pointer.split('/').skip(1).collect();
        for (at, step) in steps.iter().enumerate() {
            let last = at + 1 == steps.len();
            let mut next = Vec::new();
            for value in here {
                match (value, *step) {
                    (Value::Array(items), "*") => next.extend(items),
                    (Value::Array(items), step) => next.push(item(items, step)?),
                    (Value::Object(keys), step) => match keys.get(step) {
                        Some(value) => next.push(value),
                        // Only the last step may be missing, so that a misspelt path never passes for absence.
                        None if last && self.wanted == Wanted::Absent => {}
                        None => return Err(format!("there is no `{step}`")),
                    },
                    (other, step) => return Err(format!("`{step}` is looked for in {other}")),
                }
            }
            here = next;
        }
        if here.is_empty() && self.wanted != Wanted::Absent {
            return Err("nothing is there".to_owned());
        }
        Ok(here.into_iter().cloned().collect())
    }
}

/// An item by its number, or the only one of that name.
fn item<'v>(items: &'v [Value], step: &str) -> Result<&'v Value, String> {
    if let Ok(number) = step.parse::<usize>() {
        return items.get(number).ok_or_else(|| format!("there is no item {number}"));
    }
    let named = |item: &&Value| ["name", "ingredient"].iter().any(|key| item.get(key).is_some_and(|name| name == step));
    let mut found = items.iter().filter(named);
    match (found.next(), found.next()) {
        (Some(one), None) => Ok(one),
        (None, _) => Err(format!("there is no `{step}`")),
        (Some(_), Some(_)) => Err(format!("`{step}` is there more than once: give its number")),
    }
}
