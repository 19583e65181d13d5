//! `sign-not-last`: prose that goes on behind the cue by which its step is done.

use super::{Check, Family, Run};
use crate::language::syntax::{Content, Tree};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::Span;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "sign-not-last",
    severity: Severity::Warning,
    family: Family::Steps,
    looks_for: "prose below an `until` line that is no longer part of the sign",
    why: "The sign says when a step is done, so nothing is left to do after it. Mostly a step has lost its head there, and its work \
          is hidden in the step above: write the head again, `shape: hands 20 s, each`. What belongs to the step goes above \
          `until`; what goes on with the sign is indented deeper than it.",
    bad: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\n    \
          Scale at {80 g} and round up.\n",
    good: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\n\
           shape: hands 10 min\n    Scale at {80 g} and round up.\n",
    sources: &["common practice, no source"],
    run: Run::Tree(run),
};

fn run(tree: &Tree, diagnostics: &mut Vec<Diagnostic>) {
    // The cue of the step at hand, and whether what stands behind it was told.
    let mut cue: Option<(u32, Span, bool)> = None;
    for line in &tree.lines {
        match &line.content {
            Content::Until(_) => cue = Some((line.said.start.saturating_sub(line.span.start), line.said, false)),
            Content::Prose(_) => {
                let Some((deep, until, told)) = &mut cue else { continue };
                if *told || line.said.start.saturating_sub(line.span.start) > *deep {
                    continue;
                }
                *told = true;
                diagnostics.push(
                    Diagnostic::warning(CHECK.name, line.said, "the step goes on behind the sign by which it is done")
                        .also(*until, "done here")
                        .help("give a step that begins here its head, `NAME: KIND TIME`; or write this above `until`"),
                );
            }
            Content::Blank | Content::Comment => {}
            _ => cue = None,
        }
    }
}
