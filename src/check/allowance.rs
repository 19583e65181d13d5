//! Allowances: a comment that keeps one check quiet on the next line, with a reason.
//!
//! ```text
//! # allow odd-percent: a salt crust, not a dough
//! salt ............. 45 %
//! ```
//!
//! The comment stands on a line of its own; blank lines and other comments may lie between it and its line. What no longer
//! suppresses anything is reported, so that it cannot hide the next real problem.
//!
//! A judgement can be allowed, and nothing else: of a line that is not read, or of an amount that nobody can work out, a card, a label and a
//! list would be made in which it is missing.

use crate::check::{self, Check};
use crate::language::parse::nearest;
use crate::language::syntax::{Content, Tree};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::{Source, Span};
use std::cell::LazyCell;
use std::collections::HashMap;

/// The checks that cannot be allowed: they are about allowances.
const NEVER: &[&str] = &["idle-allowance", "unclear-allowance"];

/// The errors that can be allowed: all that the file says was read and worked out, and two of the figures do not agree, or one is not what
/// it should be. Warnings and advice are judgements, all of them.
const JUDGED: &[&str] = &[
    check::aim_missed::CHECK.name,
    check::aim_unknown::CHECK.name,
    check::extreme_percent::CHECK.name,
    check::log_out_of_time::CHECK.name,
    check::more_out_than_in::CHECK.name,
    check::no_description::CHECK.name,
    check::no_plan::CHECK.name,
    check::part_short::CHECK.name,
    check::pieces_mismatch::CHECK.name,
    check::two_amounts_disagree::CHECK.name,
    check::used_up::CHECK.name,
    check::yield_does_not_add_up::CHECK.name,
];

/// Whether a comment can keep that problem quiet.
pub fn may_be_allowed(problem: &Diagnostic) -> bool {
    check::find(problem.check).is_some() && is_judgement(problem.check, problem.severity)
}

/// Whether a comment can keep the usual problems of that check quiet.
pub fn has_judgements(check: &Check) -> bool {
    is_judgement(check.name, check.severity)
}

fn is_judgement(check: &str, severity: Severity) -> bool {
    (severity != Severity::Error || JUDGED.contains(&check)) && !NEVER.contains(&check)
}

/// One allowance that is in order.
struct Allowance {
    check: &'static Check,
    /// The comment.
    span: Span,
    /// The comment's line with its line break.
    whole: Span,
    /// The line it speaks of; `None` at the end of a file.
    target: Option<Span>,
}

/// What an allowance met on its line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Met {
    /// Nothing of its check.
    Nothing,
    /// What it keeps quiet.
    Judgement,
    /// What cannot be allowed.
    Error,
}

/// Takes out what the file allows, and reports allowances that are unclear or idle.
pub fn apply(tree: &Tree, source: &Source, diagnostics: &mut Vec<Diagnostic>) {
    let mut problems = Vec::new();
    let allowances = read(tree, source, &mut problems);
    let mut by_line: HashMap<(Span, &str), usize> = HashMap::new();
    for (at, allowance) in allowances.iter().enumerate() {
        if let Some(line) = allowance.target {
            // Where two say the same, the second is idle.
            by_line.entry((line, allowance.check.name)).or_insert(at);
        }
    }
    let mut met = vec![Met::Nothing; allowances.len()];
    if !by_line.is_empty() {
        diagnostics.retain(|problem| {
            let line = tree.line_at(problem.span.start).filter(|line| line.span.source == problem.span.source);
            let Some(at) = line.and_then(|line| by_line.get(&(line.span, problem.check))) else { return true };
            let found = if may_be_allowed(problem) { Met::Judgement } else { Met::Error };
            if let Some(met) = met.get_mut(*at) {
                *met = found.max(*met);
            }
            found == Met::Error
        });
    }
    let refused = allowances.iter().zip(&met).filter(|(_, met)| **met == Met::Error);
    problems.extend(refused.map(|(allowance, _)| allowance.refused()));
    // Where a line could not be read, checks were left out; what they would have found is not known.
    if !tree.has_strays() {
        // What only a plan, git or another file shows is not known here.
        let is_known = |allowance: &Allowance| !matches!(allowance.check.run, check::Run::Command(_));
        let idle = allowances.iter().zip(&met).filter(|(allowance, met)| **met == Met::Nothing && is_known(allowance));
        problems.extend(idle.map(|(allowance, _)| allowance.idle()));
    }
    diagnostics.append(&mut problems);
}

impl Allowance {
    fn refused(&self) -> Diagnostic {
        let name = self.check.name;
        let message = format!("an error of `{name}` cannot be allowed: what it is about would be in no figure");
        Diagnostic::error("unclear-allowance", self.span, message)
            .help("mend what it says, and take the comment out; what is a matter of judgement can be allowed")
    }

    fn idle(&self) -> Diagnostic {
        let name = self.check.name;
        Diagnostic::warning("idle-allowance", self.span, format!("`{name}` finds nothing on the next line"))
            .help("take the comment out")
            // Never unasked: in the line stands a reason, and with a line break lost a step may stand there too.
            .suggest("take the comment out", self.whole, "")
    }
}

fn read(tree: &Tree, source: &Source, problems: &mut Vec<Diagnostic>) -> Vec<Allowance> {
    let mut list = Vec::new();
    // The next line that says something, for each line. Most files allow nothing.
    let next = LazyCell::new(|| {
        let mut next: Vec<Option<Span>> = vec![None; tree.lines.len()];
        let mut below = None;
        for (line, next) in tree.lines.iter().zip(&mut next).rev() {
            *next = below;
            if !matches!(line.content, Content::Blank | Content::Comment) {
                below = Some(line.span);
            }
        }
        next
    });
    for (at, line) in tree.lines.iter().enumerate() {
        let (Content::Comment, Some(span)) = (&line.content, line.comment) else { continue };
        let words = source.slice(span).trim_start_matches('#').trim();
        match meant(words) {
            None => {}
            Some(Err((message, help))) => {
                problems.push(Diagnostic::error("unclear-allowance", span, message).help(help))
            }
            Some(Ok(check)) => {
                let behind = tree.lines.get(at + 1);
                let whole = behind.map_or(line.span, |next| Span { end: next.span.start, ..line.span });
                list.push(Allowance { check, span, whole, target: next.get(at).copied().flatten() });
            }
        }
    }
    list
}

/// What a comment allows; `None` when it is no allowance, such as `# allow an hour more in winter`.
fn meant(comment: &str) -> Option<Result<&'static Check, (String, String)>> {
    let said = comment.strip_prefix("allow")?.strip_prefix([' ', '\t'])?.trim();
    let (name, reason) = said.split_once(':').map_or((said, None), |(name, reason)| (name.trim(), Some(reason.trim())));
    let form = || "write `# allow CHECK: reason`".to_owned();
    if let Some(check) = check::find(name) {
        if NEVER.contains(&name) {
            return Some(Err((
                format!("`{name}` cannot be allowed"),
                "mend the allowance that it is about".to_owned(),
            )));
        }
        return Some(match reason {
            Some(reason) if !reason.is_empty() => Ok(check),
            _ => Err((
                format!("the allowance of `{name}` gives no reason"),
                format!("write why behind it, `# allow {name}: reason`"),
            )),
        });
    }
    // One word before a colon, or a word with a hyphen, was meant as the name of a check.
    let one_word = !name.contains(char::is_whitespace);
    if !one_word || (reason.is_none() && !name.contains('-')) {
        return None;
    }
    let help = match nearest(name, check::ALL.iter().map(|check| check.name)) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!("`miche explain` lists the checks; {}", form()),
    };
    Some(Err((format!("there is no check `{name}`"), help)))
}
