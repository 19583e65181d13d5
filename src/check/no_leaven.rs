//! `no-leaven`: a dough that rises, with nothing in it that raises it.

use super::dough::Nearest;
use super::{Check, Family, Run, Subject};
use crate::measure::quantity::Mass;
use crate::model::cooking::{has_word, words_of};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};
use crate::model::step::StepKind;
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "no-leaven",
    severity: Severity::Warning,
    family: Family::Formula,
    looks_for: "a dough that rises, proves or doubles, and a preferment, in which there is neither yeast nor leaven nor another raising \
                agent",
    why: "The yeast was forgotten, or another white powder stands in its place. What raises is known by its larder entry or by its \
          name (yeast, starter, levain, leaven, sourdough, culture, barm); an ingredient that no larder knows is given the \
          benefit of the doubt. A leaven of your own is known when a larder file says `is leaven`.",
    bad: "recipe Loaf\nflour .... 1 kg\nwater .... 650 g\nsalt .... 20 g\nmix: hands 10 min\n    Mix {flour}, {water} and {salt}.\n    \
          until smooth\nrise: wait 1 h, at 24 C\n    until doubled\n",
    good: "recipe Loaf\nflour .... 1 kg\nwater .... 650 g\nsalt .... 20 g\ninstant yeast .... 10 g\nmix: hands 10 min\n    Mix \
           {flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 1 h, at 24 C\n    until doubled\n",
    sources: &["common practice, no source"],
    run: Run::Recipe(run),
};

/// Parts that are taken out of a dough to swell and not to ferment.
const SWELLS: &[&str] = &["soak", "scald", "tangzhong", "yudane", "roux", "mash", "porridge", "autolyse", "gel", "boil"];

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let raised = Raised::in_parts(subject.recipe);
    for (id, part, solved) in subject.whole_parts() {
        // What lists no salt either is no whole formula yet.
        if solved.composition.flour <= Mass::ZERO || (part.from.is_none() && !part.lines.iter().any(|line| line.kind == Kind::Salt)) {
            continue;
        }
        // Only where the dough lists a leaven can its preferment have forgotten it.
        let leavened = part.from.and_then(|from| subject.recipe.part(from));
        let leavened = leavened.is_some_and(|dough| dough.lines.iter().any(|line| line.kind.ferments()));
        let preferment = leavened && !has_word(part.name.key.as_str(), SWELLS);
        let rising = rises(part);
        let (span, what) = match (&rising, preferment) {
            (Some(step), _) => (part.steps.get(*step).map_or(part.name.span, |step| step.name.span), "rises here"),
            (None, true) => (part.name.span, "ferments"),
            _ => continue,
        };
        if raised.has(id, part) {
            continue;
        }
        let message = format!("`{}` {}, and nothing in it raises it", part.name, if preferment { "is a preferment" } else { "is to rise" });
        diagnostics.push(
            Diagnostic::warning(CHECK.name, span, message)
                .label(what)
                .help("look whether the yeast or the leaven was forgotten; one that the larder does not know gets a block with `is leaven`"),
        );
    }
}

/// The first step in which a dough rises.
fn rises(part: &Part) -> Option<usize> {
    part.steps.iter().position(|step| {
        step.kind == StepKind::Wait
            && (has_word(step.name.key.as_str(), &["rise", "rising", "prove", "proof", "ferment", "ripen", "bulk"])
                || has_word(&words_of(step), &["doubled", "risen"]))
    })
}

/// Which parts something raises, or something that may.
struct Raised {
    /// It lies in them.
    inside: Nearest,
    /// It, or a part that is a leaven by its name, lies in them.
    kept_inside: Nearest,
    /// They go into such a part.
    kept_around: Nearest,
}

impl Raised {
    fn in_parts(recipe: &Recipe) -> Raised {
        let raises = |_, part: &Part| part.lines.iter().any(may_raise);
        let or_kept = |id, part: &Part| raises(id, part) || Kind::of_name(part.name.key.as_str()).ferments();
        Raised {
            inside: Nearest::inside(recipe, raises),
            kept_inside: Nearest::inside(recipe, or_kept),
            kept_around: Nearest::around(recipe, or_kept),
        }
    }

    /// Whether something raises a part: in it or, for a preferment, of its own; or something that may.
    fn has(&self, id: PartId, part: &Part) -> bool {
        if part.from.is_some() {
            return part.lines.iter().any(|line| match line.refers {
                // A starter that is kept is flour and water on paper.
                Refers::Part(other) => Kind::of_name(line.name.key.as_str()).ferments() || self.inside.has(other),
                Refers::Pantry(_) => may_raise(line),
            });
        }
        // A sponge that another part takes may be raised there.
        self.kept_inside.has(id) || self.kept_around.has(id)
    }
}

fn may_raise(line: &Ingredient) -> bool {
    line.kind.raises() || (line.kind == Kind::Other && line.refers == Refers::Pantry(None) && !line.aside)
}
