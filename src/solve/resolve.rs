//! Tree to model: names are bound, choices applied, amounts understood.
//!
//! One call resolves one selection of a recipe's choices; `check` calls it for every selection there is.

mod agree;
mod aims;
mod base;
pub mod book;
mod choices;
mod counted;
pub mod day;
mod earlier;
mod head;
mod meant;
mod outline;
mod pans;
mod part_use;
mod parts;
mod preferments;
mod reading;
mod sorts;
mod steps;
mod texts;

pub use agree::{Agreement, Apart, compare, corrected, disagreement, weigh};
pub(crate) use aims::is_known;
pub use choices::{choices_of, normal_selection, selections};

use crate::language::syntax::{Content, FileKind, Name, Tree, WrittenPan};
use crate::model::kitchen::Kitchen;
use crate::model::project::{File, Pantry, Project, Resolved};
use crate::model::recipe::{BakedIn, Foreign, Head, Part, PartId, Recipe, Selection, UsedRecipe};
use crate::model::sale::Sale;
use crate::model::step::Step;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{SourceId, Span};
pub use earlier::Earlier;
use outline::Outline;
pub(crate) use outline::is_head_line;
pub(crate) use parts::nothing_above;
use reading::Reading;
use std::collections::HashMap;
use std::sync::Arc;

/// Uses may lead this deep; the loader refuses rings, this bounds chains.
pub const DEEPEST_USE: usize = 32;

/// A recipe of more parts is refused.
const MOST_PARTS: usize = 10_000;

fn too_many_parts(outline: &Outline<'_>) -> Option<Diagnostic> {
    let part = outline.parts.get(MOST_PARTS)?;
    let message = format!("this part is one more than the {MOST_PARTS} that a recipe can have");
    let help = "make several recipes of it, and bring in with `use` what they have in common";
    Some(Diagnostic::error("too-much", part.name.span, message).help(help))
}

/// Resolves a recipe. `None` when the file is no recipe, or one that is too large.
pub fn recipe(
    project: &Project,
    source: SourceId,
    selection: &Selection,
    diagnostics: &mut Vec<Diagnostic>,
) -> Option<Recipe> {
    recipe_beside(project, source, selection, &mut Earlier::default(), diagnostics)
}

/// As [`recipe`]; what was read of it under earlier selections is not read again.
pub fn recipe_beside<'p>(
    project: &'p Project,
    source: SourceId,
    selection: &Selection,
    earlier: &mut Earlier<'p>,
    diagnostics: &mut Vec<Diagnostic>,
) -> Option<Recipe> {
    let mut known = Known::default();
    let recipe = Reading::on(diagnostics, |reading| {
        resolve_at_depth(project, source, selection, (0, &mut known), earlier, reading)
    })?;
    let uses = |file: &File| file.tree.lines.iter().find_map(|line| line.content.path().map(|path| path.span));
    // Read in another order, each of them is less deep than all together.
    if let Some(span) = project.file(source).and_then(uses).filter(|_| known.is_too_deep) {
        diagnostics.push(too_deep(span));
    }
    Some(recipe)
}

/// Understands a tin that stands in no file.
pub(crate) fn pan(written: &WrittenPan, diagnostics: &mut Vec<Diagnostic>) -> Option<BakedIn> {
    Reading::on(diagnostics, |reading| pans::pan(written, reading))
}

/// The problem of files that use files too deep.
pub(crate) fn too_deep(span: Span) -> Diagnostic {
    Diagnostic::error("use-ring", span, format!("files use files more than {DEEPEST_USE} deep"))
        .help("use the file that is needed directly")
}

/// What one recipe has used already, and how deep that went.
#[derive(Default)]
struct Known {
    /// By file and by what is chosen of its own choices, so that files too deep are not walked by every way that leads to them.
    recipes: HashMap<(SourceId, Selection), Option<Arc<Recipe>>>,
    /// Whether one was left out because it is used too deep.
    is_too_deep: bool,
    /// How deep the files lie that were reached below the one that is being resolved.
    deepest: usize,
    /// Whether something was taken from further up than where it now stands, so that `deepest` does not hold.
    is_moved: bool,
}

/// A recipe as its user sees it. It is resolved once a run and choice, however many ways and files lead to it; only what is left
/// out because it lies too deep depends on the way.
fn used_recipe(
    project: &Project,
    file: &File,
    selection: &Selection,
    (depth, known): (usize, &mut Known),
) -> Option<Arc<Recipe>> {
    let target = file.tree.source;
    let asked = (target, choices::normal_selection(&choices_of(&file.tree), selection));
    let here = depth + 1;
    if let Some(there) = project.resolved(&asked).filter(|there| here + there.deep <= DEEPEST_USE) {
        known.deepest = known.deepest.max(here + there.deep);
        return there.recipe;
    }
    if let Some(there) = known.recipes.get(&asked) {
        known.is_moved = true;
        return there.clone();
    }
    let beside = std::mem::replace(&mut known.deepest, here);
    // What is wrong inside the used recipe is reported when that file is checked.
    let (earlier, reading) = (&mut Earlier::default(), &mut Reading::default());
    let recipe = resolve_at_depth(project, target, selection, (here, known), earlier, reading).map(Arc::new);
    if !known.is_too_deep && !known.is_moved {
        let resolved = Resolved { recipe: recipe.clone(), deep: known.deepest - here };
        project.keep_resolved(asked.clone(), resolved);
    }
    known.deepest = known.deepest.max(beside);
    known.recipes.insert(asked, recipe.clone());
    recipe
}

fn resolve_at_depth<'p>(
    project: &'p Project,
    source: SourceId,
    selection: &Selection,
    (depth, known): (usize, &mut Known),
    earlier: &mut Earlier<'p>,
    reading: &mut Reading,
) -> Option<Recipe> {
    let problems = reading.problems.len();
    let tree = &project.file(source)?.tree;
    known.is_too_deep |= depth > DEEPEST_USE;
    if tree.kind != FileKind::Recipe || depth > DEEPEST_USE {
        return None;
    }
    let outline = earlier.outline(tree);
    let offered = earlier.offered(tree, &outline);
    reading.problems.extend(offered.problems.iter().cloned());
    let choices = offered.choices.clone()?;
    let selection = choices::normal_selection(&choices, selection);
    let surroundings = surroundings(project, tree, &selection, (depth, known), reading);
    let head = earlier.head(&outline, &selection, reading);
    let name = head.name.clone().unwrap_or_else(|| Name::new("untitled", Span::new(source, 0, 0)));
    let mut recipe = Recipe::new(Head {
        name,
        source,
        makes: head.makes,
        pan: head.pan,
        bake_loss: head.bake_loss,
        sale: head.sale.over(&kitchen_sale(&surroundings.pantry.kitchen)),
        choices,
        selection,
        kitchen: surroundings.pantry.kitchen,
        larder: surroundings.pantry.larder,
        used: surroundings.used,
    });
    let held = parts::read(&mut recipe, &outline, earlier, reading);
    earlier.keep(&mut recipe, held, reading, reading.problems.len() == problems);
    recipe.note_users();
    head::give_what_the_head_makes(&mut recipe);
    let steps = recipe.parts().flat_map(|(_, part)| &part.steps);
    recipe.kitchen = recipe.kitchen.with_assumed(steps.filter_map(Step::held));
    recipe.aims = aims::of_head(&outline, &recipe.selection, reading);
    aims::bind(&recipe, reading);
    recipe.texts = head::texts(&outline, &recipe.selection, reading).into();
    earlier.keep_texts(&mut recipe);
    recipe.published = head::published(&outline, &recipe.selection, reading);
    Some(recipe)
}

struct Surroundings {
    pantry: Pantry,
    used: Vec<UsedRecipe>,
}

/// What the used files bring: a kitchen, a larder, other recipes.
fn surroundings(
    project: &Project,
    tree: &Tree,
    selection: &Selection,
    (depth, known): (usize, &mut Known),
    reading: &mut Reading,
) -> Surroundings {
    let mut pantries = Vec::new();
    let mut used = Vec::new();
    for line in &tree.lines {
        let Content::Use(path) = &line.content else { continue };
        if !selection.holds(&line.only) {
            continue;
        }
        let Some(target) = project.target(path.span) else { continue };
        let Some(file) = project.file(target) else { continue };
        match file.tree.kind {
            FileKind::Kitchen => pantries.push(target),
            FileKind::Recipe => {
                let inner = used_recipe(project, file, selection, (depth, known));
                if let Some(inner) = inner {
                    bring_recipe(inner, path.span, &mut used);
                }
            }
            FileKind::Day => reading.report(
                Diagnostic::error("missing-use", path.span, "a day cannot be used by a recipe")
                    .help("use kitchens, larders and recipes; a day names what is made"),
            ),
            FileKind::Bakes => reading.report(
                Diagnostic::error("missing-use", path.span, "a log of bakes cannot be used by a recipe")
                    .help("use kitchens, larders and recipes; a log names its recipe"),
            ),
            FileKind::Book => reading.report(
                Diagnostic::error("missing-use", path.span, "a book cannot be used by a recipe")
                    .help("use kitchens, larders and recipes; a book names its pages"),
            ),
        }
    }
    Surroundings { pantry: project.pantry(&pantries), used }
}

/// What the kitchen says for the labels of all that is made in it.
fn kitchen_sale(kitchen: &Kitchen) -> Sale {
    Sale { business: kitchen.business.clone(), may_contain: kitchen.may_contain.clone(), ..Sale::default() }
}

impl Selection {
    /// Whether a line with these conditions holds. A misspelt option, which is reported, does not take its line away.
    pub fn holds(&self, only: &[Name]) -> bool {
        only.iter().all(|option| self.has(&option.key) || !self.offers(&option.key))
    }
}

/// Takes in a used recipe and those that it uses itself, each once: what is drawn on in two ways is one thing.
fn bring_recipe(recipe: Arc<Recipe>, span: Span, used: &mut Vec<UsedRecipe>) {
    let inner = Vec::clone(&recipe.used);
    for one in std::iter::once(UsedRecipe { recipe, span }).chain(inner) {
        if !used.iter().any(|known| known.recipe.is_same(&one.recipe)) {
            used.push(UsedRecipe { span, ..one });
        }
    }
}

/// Adds the parts of all used recipes, each once and marked as foreign, with what they point at numbered anew.
fn adopt(recipe: &mut Recipe) {
    // Where the own parts of each used recipe begin; those that it has from others are the others' own.
    let mut begins = Vec::with_capacity(recipe.used.len());
    let mut next = recipe.parts.len();
    for used in &recipe.used {
        begins.push(next);
        next += used.recipe.own_parts().count();
    }
    let mut adopted = Vec::with_capacity(next - recipe.parts.len());
    for (number, used) in recipe.used.iter().enumerate() {
        // A number in the used recipe is one of its own parts, or of a recipe that it uses, which stands in the list too.
        let here = |id: PartId| -> PartId {
            let foreign = used.recipe.part(id).and_then(|part| part.foreign);
            let (of, there) = match foreign.and_then(|at| Some((&used.recipe.used.get(at.recipe)?.recipe, at.part))) {
                Some((origin, there)) => (recipe.used.iter().position(|known| known.recipe.is_same(origin)), there),
                None => (Some(number), id),
            };
            PartId(of.and_then(|of| begins.get(of)).map_or(usize::MAX, |first| first + there.0))
        };
        for (id, part) in used.recipe.own_parts() {
            let part = part.clone().numbered(here);
            adopted.push(Arc::new(Part { foreign: Some(Foreign { recipe: number, part: id }), ..part }));
        }
    }
    recipe.parts.extend(adopted);
}
