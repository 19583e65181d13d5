//! `changed-piece-weight`: a piece weight in the prose that is not the one of the formula.

use super::{Check, Family, Run, Subject};
use crate::measure::number::Number;
use crate::measure::show;
use crate::model::cooking::has_word_beginning;
use crate::model::piece_weight::{Spoken, divided, spoken};
use crate::model::recipe::Divide;
use crate::model::step::{Step, Words};
use crate::text::clauses::first_clause;
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "changed-piece-weight",
    severity: Severity::Warning,
    family: Family::Steps,
    looks_for: "a piece weight in the prose that differs from what `divide` says, by a little, a tenth, or another unit",
    why: "The batch is worked out for pieces of 78 g. If the bench is told to scale at 82 g, the dough ends two pieces early. \
          Both have to change together.",
    bad: "recipe Rolls\nmakes 10 rolls\nflour .... 500 g\nwater .... 300 g\ndivide 10 x 79 g, loss 1 %\nmix: hands 10 min\n    \
          Mix {flour} and {water}.\n    until smooth\nshape: hands 1 min, each\n    Round into pieces of {82 g}.\n",
    good: "recipe Rolls\nmakes 10 rolls\nflour .... 500 g\nwater .... 300 g\ndivide 10 x 79 g, loss 1 %\nmix: hands 10 min\n    \
           Mix {flour} and {water}.\n    until smooth\nshape: hands 1 min, each\n    Round into pieces of {79 g}.\n",
    sources: &["common practice, no source"],
    run: Run::Parts(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (id, part, _) in subject.own_parts() {
        let Some((_, divide)) = divided(subject.recipe, id) else { continue };
        for step in &part.steps {
            diagnostics.extend(spoken(&step.words).into_iter().filter_map(|one| differs(step, one, divide)));
        }
    }
}

/// Whether the sentence in which a weight stands cuts the dough to it, and puts nothing on the pieces.
fn is_cut_so(step: &Step, word: usize) -> bool {
    let text = |at: Option<usize>| match at.and_then(|at| step.words.get(at)) {
        Some(Words::Text(text)) => text.to_lowercase(),
        _ => String::new(),
    };
    let (before, behind) = (text(word.checked_sub(1)), text(word.checked_add(1)));
    let before = before.rsplit(['.', ';']).next().unwrap_or_default();
    let behind = first_clause(&behind);
    let has = |words: &[&str]| has_word_beginning(before, words) || has_word_beginning(behind, words);
    has(&["divid", "cut", "weigh", "scale", "piece"])
        && !has(&["fill", "spread", "brush", "strew", "sprinkle", "top", "spoon", "pipe", "jam", "with"])
}

fn differs(step: &Step, one: Spoken, divide: Divide) -> Option<Diagnostic> {
    let (said, each) = (one.mass, divide.each);
    let ratio = said.ratio(each).ok()?;
    let apart = ratio.minus(Number::ONE).ok()?.size();
    let far = Number::whole(if one.surely { 5 } else { 2 });
    let near = ratio <= far && Number::ONE.over(far).is_ok_and(|least| ratio >= least);
    // Two whole grams are not the rounding of each other, but for what no hand at the scale heeds; ounces may be.
    let is_whole = said.value().is_whole() && each.value().is_whole();
    let rounded = apart <= if is_whole { Number::constant(1, 200) } else { Number::constant(1, 100) };
    // Somewhat far from it, something else is weighed: a first rough cut, or a portion of filling. A hundred times it is
    // another unit.
    let wrong_unit = ratio >= Number::whole(100) || ratio <= Number::constant(1, 100);
    // The same digits with the point elsewhere: 87 g in the formula, and the bench is told 870. `{8 g} each` may be jam on 80 g.
    let slipped =
        ratio == Number::whole(10) || (ratio == Number::constant(1, 10) && (one.surely || is_cut_so(step, one.word)));
    if said == each || rounded || !(near || wrong_unit || slipped) {
        return None;
    }
    let message = format!(
        "`{}` says pieces of {}, but the formula is divided into pieces of {}",
        step.name,
        show::mass_plain(said),
        show::mass_plain(each)
    );
    Some(
        Diagnostic::warning(CHECK.name, one.span, message)
            .also(divide.span, format!("{} each", show::mass_plain(each)))
            .help("make the two weights the same"),
    )
}
