//! `no-leaven`: a dough that rises, with nothing in it that raises it.

use super::dough::{Known, Nearest, inside, is_bread, is_dough, mass_of, mille};
use super::keeping::turns_sour;
use super::{Check, Family, Run, Subject};
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::model::cooking::rests::WORKS;
use crate::model::cooking::{bakes, beginnings, called, says, words_of};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{HeadMakes, Ingredient, Part, PartId, Recipe, Refers};
use crate::model::step::{Step, StepKind};
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::{Diagnostic, Severity};
use std::cell::{LazyCell, OnceCell};

mod quick_bread;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "no-leaven",
    severity: Severity::Warning,
    family: Family::Formula,
    looks_for: "a dough that rises, proves or doubles, and a preferment, in which there is neither yeast nor leaven nor another raising \
                agent, or only one that cannot wait; a sheet of loaves, rolls, baguettes or the like without any; a sweet batter, or a wet dough with fat rubbed \
                in, without baking powder, soda or many eggs; a soda bread, or a loaf of flour and sour milk, without soda, with a trace of it, or that stands warm for three hours with it",
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
const SWELLS: &Beginnings =
    &Beginnings::of(&["soak", "scald", "tangzhong", "yudane", "roux", "mash", "porridge", "autolyse", "gel", "boil"]);

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    // Nearly every dough lists its yeast or is none, so that nobody asks.
    let raised = Raised::in_parts(subject.recipe, subject.fermented());
    let has_salt = |_, part: &Part| part.lines.iter().any(|line| line.kind == Kind::Salt);
    let salted = LazyCell::new(|| Nearest::inside(subject.recipe, has_salt));
    for (id, part, solved) in subject.whole_parts() {
        if let Some(problem) =
            flat_cake(subject.recipe, part, solved).or_else(|| quick_bread::problem(subject, (id, part), solved))
        {
            diagnostics.push(problem);
            continue;
        }
        let rising = rises(part);
        if let Some(problem) = rising.and_then(|at| raised_by_powder(subject, id, part, at)) {
            diagnostics.push(problem);
            continue;
        }
        // What lists no salt either is no whole formula yet.
        if solved.composition.flour <= Mass::ZERO || (part.from.is_none() && !has_salt(id, part) && !salted.has(id)) {
            continue;
        }
        // Only where the dough lists a leaven can its preferment have forgotten it.
        let leavened = part.from.and_then(|from| subject.recipe.part(from));
        let leavened = leavened.is_some_and(|dough| dough.lines.iter().any(|line| line.kind.ferments()));
        let preferment = leavened && !part.name.has_word_beginning(SWELLS);
        let (span, what) = match (&rising, preferment) {
            (Some(step), _) => (part.steps.get(*step).map_or(part.name.span, |step| step.name.span), "rises here"),
            (None, true) => (part.name.span, "ferments"),
            (None, false) if is_called_bread(subject.recipe, id) => (part.name.span, "a bread by its name"),
            _ => continue,
        };
        if part.lines.iter().any(may_raise) || raised.has(id, part) {
            continue;
        }
        let is = match (preferment, rising) {
            (true, _) => "is a preferment",
            (false, Some(_)) => "is to rise",
            (false, None) => "is a bread that rises",
        };
        let message = format!("`{}` {is}, and nothing in it raises it", part.name);
        diagnostics.push(
            Diagnostic::warning(CHECK.name, span, message)
                .label(what)
                .help("look whether the yeast or the leaven was forgotten; one that the larder does not know gets a block with `is leaven`"),
        );
    }
}

/// Whether a sheet without steps lists the dough of a bread that is raised, by the noun of its pieces or, of one part alone, by
/// its own name.
fn is_called_bread(recipe: &Recipe, id: PartId) -> bool {
    let noun = matches!(&recipe.makes, Some(HeadMakes::Pieces { noun, .. }) if is_bread(noun.key.as_str()));
    let named = recipe.parts.is_single() && is_bread(recipe.name.key.as_str());
    // Where steps are told, they say whether it rises.
    (noun || named) && recipe.is_final(id) && recipe.parts().all(|(_, part)| part.steps.is_empty())
}

/// What is sweet and wet and baked, and needs no raising.
const FLAT_CAKES: &Beginnings = &Beginnings::of(&[
    "pudding",
    "crepe",
    "crêpe",
    "pancake",
    "tuile",
    "wafer",
    "snap",
    "clafoutis",
    "flan",
    "custard",
    "brownie",
    "parkin",
    "flapjack",
    "puff",
]);

/// A cake, or a wet dough with fat rubbed in, that nothing raises: no powder, no soda, no egg to speak of.
fn flat_cake(recipe: &Recipe, part: &Part, solved: &SolvedPart) -> Option<Diagnostic> {
    let flour = solved.composition.flour;
    let of = |is: &dyn Fn(Kind) -> bool| mass_of(part, solved, |line| is(line.kind))?.as_share_of(flour).ok();
    let open =
        part.from.is_some() || part.lines.iter().any(|line| matches!(line.refers, Refers::Part(_)) || may_raise(line));
    if open || !is_dough(part, solved) || !part.steps.iter().any(bakes) {
        return None;
    }
    let (sweet, egg, poured, fat) =
        (of(&Kind::is_sweet)?, of(&|kind| kind == Kind::Egg)?, of(&Kind::is_poured)?, of(&|kind| kind == Kind::Fat)?);
    let sweet_cake = sweet >= mille(250) && poured.plus(egg).ok()? >= mille(400) && egg < mille(600);
    let rubs = || part.steps.iter().any(|step| says(step, beginnings!["rub"]));
    // Rough puff is cut in too: of more fat, and drier.
    let cut_in = || fat < mille(500) && poured >= mille(550) && part.steps.iter().any(cuts_in);
    let scone = fat >= mille(100) && poured >= mille(450) && egg < mille(400) && (rubs() || cut_in());
    let selfraising = || {
        part.lines
            .iter()
            .any(|line| line.name.has_word_beginning(beginnings!["self-raising", "self-rising", "self", "raising"]))
    };
    let flat = || recipe.name.has_word_beginning(FLAT_CAKES) || part.name.has_word_beginning(FLAT_CAKES);
    if !(sweet_cake || scone) || selfraising() || flat() {
        return None;
    }
    let bake = part.steps.iter().find(|step| bakes(step))?;
    let kind = if sweet_cake { "a sweet batter" } else { "a wet dough with fat rubbed in" };
    Some(unraised((part, kind), bake, "the baking powder or the soda"))
}

/// What is of such a kind and is baked, without what should raise it.
fn unraised((part, kind): (&Part, &str), bake: &Step, forgotten: &str) -> Diagnostic {
    let message = format!("`{}` is {kind}, and nothing in it raises it", part.name);
    Diagnostic::warning(CHECK.name, part.name.span, message)
        .also(bake.name.span, "baked here")
        .help(format!("look whether {forgotten} was forgotten"))
}

/// Whether a step cuts fat into flour, as others rub it.
fn cuts_in(step: &Step) -> bool {
    step.name.has_word_beginning(beginnings!["cut"]) && words_of(step).contains(" into ")
        || ["cut the butter", "cut butter", "cut the fat", "cut the shortening", "cut the lard", "cut in the"]
            .iter()
            .any(|said| words_of(step).contains(said))
        || words_of(step).split_once("cut ").is_some_and(|(_, then)| then.trim_start().starts_with("into"))
}

/// So long no dough waits that a powder raises: it works when it gets wet and in the oven.
const POWDER_WAITS: Duration = Duration::new(Number::whole(40 * 60));

/// A dough that rises for long with nothing living in it.
fn raised_by_powder(subject: &Subject<'_>, id: PartId, part: &Part, at: usize) -> Option<Diagnostic> {
    let powdered = |part: &Part| part.lines.iter().any(|line| line.kind.is_chemical_raising());
    if !subject.recipe.parts().any(|(_, part)| powdered(part)) {
        return None;
    }
    let of_dough = inside(subject.recipe, id).into_iter().filter_map(|inner| subject.recipe.part(inner));
    let powder = of_dough.flat_map(|part| &part.lines).find(|line| line.kind.is_chemical_raising())?;
    let step = part.steps.get(at).filter(|step| step.time.0 >= POWDER_WAITS)?;
    let lives = |_, part: &Part| {
        let may = |line: &Ingredient| !line.kind.is_chemical_raising() && may_raise(line);
        // A culture that is kept is flour and water on paper; with powder in it, it is none.
        part.lines.iter().any(may) || (!powdered(part) && Kind::of_name(part.name.key.as_str()).ferments())
    };
    let lives_around = |id, part: &Part| {
        lives(id, part) && (rises(part).is_some() || part.lines.iter().any(|line| line.kind.ferments()))
    };
    if Nearest::inside(subject.recipe, lives).has(id) || Nearest::around(subject.recipe, lives_around).has(id) {
        return None;
    }
    let message = format!(
        "`{}` waits {} for `{}` to rise, and only {} raises it",
        step.name,
        show::duration(step.time.0),
        part.name,
        powder.name
    );
    Some(
        Diagnostic::warning(CHECK.name, step.name.span, message)
            .also(powder.span, "works at once and in the oven")
            .help("look whether yeast was meant"),
    )
}

/// A step called `ferment` of a day and more in a warm place: injera and dosa, which ferment by themselves.
fn sours_by_itself(step: &Step) -> bool {
    turns_sour(step) && step.temperature.is_none_or(|(low, _)| low.celsius() >= Number::whole(18))
}

/// The first step in which a dough rises.
fn rises(part: &Part) -> Option<usize> {
    part.steps.iter().position(|step| {
        step.kind == StepKind::Wait
            && !sours_by_itself(step)
            && (called(step, WORKS) || says(step, beginnings!["doubled", "risen"]))
    })
}

/// Whether a part is a culture that is kept, flour and water on paper: called so, and, where its steps are told, fed, kept or left over.
/// A first sour that is only stirred and ripens has lost its seed.
fn is_kept(part: &Part) -> bool {
    let said = beginnings!["starter", "culture", "feed", "fed", "refresh", "mother", "keep", "kept"];
    let by_name = Kind::of_name(part.name.key.as_str()).ferments();
    by_name
        && (part.steps.is_empty()
            || part.spare.is_some()
            || part.keeps.is_some()
            || part.steps.iter().any(|step| says(step, said) || called(step, said)))
}

/// Which parts something raises, or something that may. Each is a walk over all parts, made when it is asked for.
struct Raised<'r> {
    recipe: &'r Recipe,
    /// Yeast or leaven lies in them.
    fermented: &'r Known,
    /// It lies in them.
    inside: OnceCell<Nearest>,
    /// It, or a part that is a leaven by its name, lies in them.
    kept_inside: OnceCell<Nearest>,
    /// They go into such a part.
    kept_around: OnceCell<Nearest>,
}

impl<'r> Raised<'r> {
    fn in_parts(recipe: &'r Recipe, fermented: &'r Known) -> Raised<'r> {
        Raised {
            recipe,
            fermented,
            inside: OnceCell::new(),
            kept_inside: OnceCell::new(),
            kept_around: OnceCell::new(),
        }
    }

    /// Whether something raises a part: in it or, for a preferment, of its own; or something that may.
    fn has(&self, id: PartId, part: &Part) -> bool {
        let raises = |_, part: &Part| part.lines.iter().any(may_raise);
        let or_kept = |id, part: &Part| raises(id, part) || is_kept(part);
        // What nobody knows may raise what it is mixed into, and not a dough that it is strewn on when that is baked.
        let surely_or_kept = |_, part: &Part| {
            part.lines.iter().any(|line| line.kind.raises() || may_raise(line) && rises(part).is_some())
                || is_kept(part)
        };
        if part.from.is_some() {
            return part.lines.iter().any(|line| match line.refers {
                // A starter that is kept is flour and water on paper.
                Refers::Part(other) => {
                    Kind::of_name(line.name.key.as_str()).ferments()
                        || self.inside.get_or_init(|| Nearest::inside(self.recipe, raises)).has(other)
                }
                Refers::Pantry(_) => may_raise(line),
            });
        }
        // Of nearly all that rises that tells. A sponge that another part takes may be raised there.
        self.fermented.has(id)
            || self.kept_inside.get_or_init(|| Nearest::inside(self.recipe, or_kept)).has(id)
            || self.kept_around.get_or_init(|| Nearest::around(self.recipe, surely_or_kept)).has(id)
    }
}

fn may_raise(line: &Ingredient) -> bool {
    line.kind.raises()
        || (line.kind == Kind::Other && line.refers == Refers::Pantry(None) && !line.aside && !line.is_flour)
}
