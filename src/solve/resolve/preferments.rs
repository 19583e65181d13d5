//! Preferments that an option leaves out: what only steps draw that are not done under it is not made.

use super::outline::PartOutline;
use super::reading::Reading;
use crate::language::syntax::{Content, Key, Name, Piece};
use crate::model::places::Places;
use crate::model::recipe::Selection;
use crate::text::diagnostic::Diagnostic;
use crate::text::quick::{QuickMap, QuickSet};

/// The parts without the preferments that no step of their dough draws under a selection, while one does under another: all that the
/// dough lists goes into it directly then. Each is told, since its name may only have been forgotten.
pub(super) fn without_left_out<'o, 't>(
    mut parts: Vec<&'o PartOutline<'t>>,
    selection: &Selection,
    reading: &mut Reading,
) -> Vec<&'o PartOutline<'t>> {
    // Asked first, since it costs least: where every step is done, none leaves anything out.
    let is_done = |part: &&PartOutline<'_>| part.steps.iter().all(|step| selection.holds(&step.head.only));
    if parts.iter().all(|part| part.from.is_none()) || parts.iter().all(is_done) {
        return parts;
    }
    let preferments = parts.iter().filter(|part| part.from.is_some()).map(|part| &part.name.key);
    let preferments: QuickSet<&Key> = preferments.collect();
    let places = Places::of(parts.iter().map(|part| &part.name));
    // What other parts list is counted once a preferment may be left out, which hardly one is.
    let mut wanted: Option<Wanted<'t>> = None;
    let mut drawn: QuickMap<usize, Drawn<'t>> = QuickMap::default();
    let mut is_out = vec![false; parts.len()];
    // What only a part lists that is left out itself is wanted no more, so that it is looked through again where one was.
    loop {
        let mut found = false;
        for (at, part) in parts.iter().enumerate() {
            // Without its dough nothing is known of it, and what others list or take out of it is made for them.
            let Some(dough) = part.from.and_then(|from| places.get(&from.key)) else { continue };
            let (Some(slot), Some(of)) = (is_out.get_mut(at).filter(|is_out| !**is_out), parts.get(dough)) else {
                continue;
            };
            let drawn = drawn.entry(dough).or_insert_with(|| Drawn::by(of, selection, &preferments));
            if !drawn.leaves_out(&part.name) {
                continue;
            }
            let wanted = wanted.get_or_insert_with(|| Wanted::by(&parts));
            if !wanted.has(&part.name) {
                (*slot, found) = (true, true);
                wanted.take_back(part);
                reading.report(left_out(part));
            }
        }
        if !found {
            break;
        }
    }
    let mut is_out = is_out.into_iter();
    parts.retain(|_| is_out.next() != Some(true));
    parts
}

fn left_out(part: &PartOutline<'_>) -> Diagnostic {
    let of = part.from.map(ToString::to_string).unwrap_or_default();
    let message =
        format!("no step takes `{}`, so it is not made: all that `{of}` lists goes into it at once", part.name);
    Diagnostic::warning("never-used", part.name.span, message).help(format!(
        "take it where it goes into the mix, `{{{0}}}`; where it is meant so, write the option behind it, `part {0}, from {of} \
         [OPTION]`",
        part.name
    ))
}

/// How many lines of parts name each thing, and how many parts are taken out of it.
struct Wanted<'t>(QuickMap<&'t Key, usize>);

impl<'t> Wanted<'t> {
    fn by(parts: &[&PartOutline<'t>]) -> Wanted<'t> {
        let mut wanted = QuickMap::default();
        for name in parts.iter().flat_map(|part| named_by(part)) {
            *wanted.entry(&name.key).or_insert(0) += 1;
        }
        Wanted(wanted)
    }

    fn has(&self, name: &Name) -> bool {
        self.0.get(&name.key).is_some_and(|count| *count > 0)
    }

    /// Forgets what a part wants.
    fn take_back(&mut self, part: &PartOutline<'t>) {
        for name in named_by(part) {
            if let Some(count) = self.0.get_mut(&name.key) {
                *count = count.saturating_sub(1);
            }
        }
    }
}

/// What the lines of a part name, and what it is taken out of.
fn named_by<'t>(part: &PartOutline<'t>) -> impl Iterator<Item = &'t Name> {
    let lines = part.lines.iter().filter_map(|line| match &line.content {
        Content::Ingredient(line) => Some(&line.name),
        _ => None,
    });
    lines.chain(part.from)
}

/// Which preferments the steps of a dough draw under a selection, and which those draw that are not done under it.
#[derive(Default)]
struct Drawn<'t> {
    by_done: QuickSet<&'t Key>,
    by_left_out: QuickSet<&'t Key>,
    is_any_done: bool,
}

impl<'t> Drawn<'t> {
    fn by(dough: &PartOutline<'t>, selection: &Selection, preferments: &QuickSet<&Key>) -> Drawn<'t> {
        let mut drawn = Drawn::default();
        for step in &dough.steps {
            let is_done = selection.holds(&step.head.only);
            drawn.is_any_done |= is_done;
            let by = if is_done { &mut drawn.by_done } else { &mut drawn.by_left_out };
            let names = step.below.iter().flat_map(|line| names_drawn(&line.content));
            by.extend(names.filter(|name| preferments.contains(name)));
        }
        drawn
    }

    fn leaves_out(&self, name: &Name) -> bool {
        self.is_any_done && self.by_left_out.contains(&name.key) && !self.by_done.contains(&name.key)
    }
}

fn names_drawn(content: &Content) -> impl Iterator<Item = &Key> {
    let pieces: &[Piece] = if let Content::Prose(pieces) = content { pieces } else { &[] };
    pieces.iter().filter_map(|piece| match piece {
        Piece::Use(_, name) => Some(&name.key),
        _ => None,
    })
}

#[cfg(test)]
mod tests {
    use super::super::{choices_of, recipe, selections};
    use crate::language::parse::parse;
    use crate::model::project::{File, Project};
    use crate::text::source::SourceId;
    use std::sync::Arc;

    /// For each selection, the parts that are made, and how many are told to be left out.
    fn made(text: &str) -> Vec<(Vec<String>, usize)> {
        let source = SourceId(0);
        let (tree, diagnostics) = parse(source, text);
        let all = selections(&choices_of(&tree));
        let mut project = Project::default();
        project.add(File { tree: Arc::new(tree), diagnostics });
        let of = |selection| {
            let mut problems = Vec::new();
            let recipe = recipe(&project, source, selection, &mut problems).expect("it is a recipe");
            let told = problems.iter().filter(|problem| problem.check == "never-used").count();
            (recipe.parts().map(|(_, part)| part.name.to_string()).collect(), told)
        };
        all.iter().map(of).collect()
    }

    /// A preferment that only a step of the other option takes is left out, and with it one above it that only it lists.
    #[test]
    fn what_only_a_step_takes_that_is_not_done_is_left_out() {
        let head = "recipe Buns\nmakes 10 buns\nchoose way: slow or quick\n";
        let dough = "part dough\nflour .... 500 g\nwater .... 60 %\nyeast .... 1 %\n";
        let steps = |taken: &str| {
            format!(
                "mix: hands 10 min [slow]\n    Mix {taken} and {{flour}}.\nmix: hands 20 min [quick]\n    Mix {{flour}}.\n"
            )
        };
        let sponge = "part sponge, from dough\nflour .... 20 %\nseed .... 1 %\n\n";
        let seed = "part seed, from dough\nflour .... 1 %\n\n";
        let all = vec!["seed".to_owned(), "sponge".to_owned(), "dough".to_owned()];
        let both = format!("{head}{seed}{sponge}{dough}{}", steps("{sponge}, {seed}"));
        assert_eq!(made(&both), [(all.clone(), 0), (vec!["dough".to_owned()], 2)]);
        // What a part lists that stays is made for it, and what no step takes at all was forgotten.
        let listed = format!("{head}{seed}{sponge}{dough}{}", steps("{seed}"));
        assert_eq!(made(&listed), [(all.clone(), 0), (all, 0)]);
    }
}
