//! Takes out problems that only follow from another: one slip of the pen, one problem.

use super::{
    extreme_percent, hidden_allergen, hidden_character, loose_step, near_clause, near_name, never_used, no_bake,
    no_leaven, not_all_used, odd_amount, odd_percent, odd_temperature, out_of_proportion, pieces_mismatch,
    raw_flour_or_egg, raw_meat, step_out_of_place, stray_line, too_fine_for_scale, twice_named, undercooked,
    unknown_name, unknown_option, unknown_step, unlike_choices, used_up, which_cup, yield_does_not_add_up,
};
use crate::language::syntax::{Content, FileKind, Key, Tree};
use crate::text::diagnostic::{Diagnostic, Label};
use crate::text::source::{Source, Span};
use crate::text::words::begins_with_words;
use std::cell::OnceCell;
use std::collections::HashSet;

/// So many lines that cannot be read, and so many names that were meant, are looked at for what follows from them.
const MOST_CAUSES: usize = 200;

/// Drops the consequences among the problems of one file.
pub(super) fn drop_consequences(tree: &Tree, source: &Source, diagnostics: &mut Vec<Diagnostic>) {
    if diagnostics.len() < 2 {
        return;
    }
    drop_followers(tree, source, diagnostics);
    which_cup::tell_once(tree, source, diagnostics);
    let causes = Causes::among(tree, source, diagnostics);
    let mut follow = diagnostics.iter().map(|problem| causes.bring(problem)).collect::<Vec<bool>>().into_iter();
    diagnostics.retain(|_| follow.next() != Some(true));
}

/// Whether a problem follows from what else is wrong in its file.
type Follows = fn(&Causes<'_>, &Diagnostic) -> bool;

/// What follows from what: of a check, where it is no problem of its own.
const CONSEQUENCES: &[(&str, Follows)] = &[
    (pieces_mismatch::CHECK.name, pieces_are_garbled),
    (unknown_name::CHECK.name, its_option_is_unknown),
    (unknown_name::CHECK.name, name_begins_a_stray_line),
    (raw_flour_or_egg::CHECK.name, bake_is_lacking),
    (raw_flour_or_egg::CHECK.name, is_told_as_undercooked),
    (raw_meat::CHECK.name, is_told_as_undercooked),
    (odd_temperature::CHECK.name, is_told_as_undercooked),
    // Which lines hold under which option nobody knows while an option is unknown.
    (twice_named::CHECK.name, an_option_is_unknown),
    (used_up::CHECK.name, an_option_is_unknown),
    (never_used::CHECK.name, an_option_is_unknown),
    (not_all_used::CHECK.name, an_option_is_unknown),
    (unlike_choices::CHECK.name, an_option_is_unknown),
    (not_all_used::CHECK.name, brace_is_unread),
    (never_used::CHECK.name, brace_is_unread),
    (never_used::CHECK.name, name_was_meant),
    (never_used::CHECK.name, name_is_garbled),
    (never_used::CHECK.name, holds_a_hidden_sign),
    (near_name::CHECK.name, holds_a_hidden_sign),
    (unknown_name::CHECK.name, holds_a_hidden_sign),
];

/// What is wrong in a file, as what else follows from it; each is looked for when it is asked first.
struct Causes<'a> {
    tree: &'a Tree,
    source: &'a Source,
    all: &'a [Diagnostic],
    parts: OnceCell<Vec<u32>>,
    strays: OnceCell<Vec<String>>,
    garbled: OnceCell<Vec<String>>,
    for_options: OnceCell<HashSet<u32>>,
    meant: OnceCell<HashSet<Key>>,
    unread: OnceCell<HashSet<usize>>,
    undercooked: OnceCell<HashSet<Span>>,
    option_is_unknown: OnceCell<bool>,
}

impl<'a> Causes<'a> {
    fn among(tree: &'a Tree, source: &'a Source, all: &'a [Diagnostic]) -> Causes<'a> {
        Causes {
            tree,
            source,
            all,
            parts: OnceCell::new(),
            strays: OnceCell::new(),
            garbled: OnceCell::new(),
            for_options: OnceCell::new(),
            meant: OnceCell::new(),
            unread: OnceCell::new(),
            undercooked: OnceCell::new(),
            option_is_unknown: OnceCell::new(),
        }
    }

    fn bring(&self, problem: &Diagnostic) -> bool {
        CONSEQUENCES.iter().any(|(check, follows)| *check == problem.check && follows(self, problem))
    }

    fn told(&self, check: &'static str) -> impl Iterator<Item = &'a Diagnostic> {
        self.all.iter().filter(move |problem| problem.check == check)
    }

    /// The part in which a place lies, by its number; 0 is what stands above the first.
    fn part_of(&self, span: Span) -> usize {
        let parts = self.parts.get_or_init(|| {
            let parts = self.tree.lines.iter().filter(|line| matches!(line.content, Content::Part { .. }));
            parts.map(|line| line.span.start).collect()
        });
        parts.partition_point(|start| *start <= span.start)
    }

    /// Lines of the file that cannot be read, in lower case.
    fn garbled(&self) -> &[String] {
        self.garbled.get_or_init(|| {
            let strays = self.told(stray_line::CHECK.name).take(MOST_CAUSES);
            strays.map(|problem| line_at(self.tree, self.source, problem.span).to_lowercase()).collect()
        })
    }

    /// The name of an ingredient that nothing uses.
    fn name(&self, problem: &Diagnostic) -> Key {
        name_in(self.tree, problem.span).unwrap_or_else(|| Key::new(self.source.slice(problem.span)))
    }
}

/// The step that takes it cannot be read.
fn name_is_garbled(causes: &Causes<'_>, problem: &Diagnostic) -> bool {
    let garbled = causes.garbled();
    !garbled.is_empty() && {
        let name = causes.name(problem);
        garbled.iter().any(|line| line.contains(name.as_str()))
    }
}

/// The name has a sign in it that cannot be seen, and without it is another.
fn holds_a_hidden_sign(causes: &Causes<'_>, problem: &Diagnostic) -> bool {
    let is_within =
        |hidden: &Diagnostic| problem.span.start <= hidden.span.start && hidden.span.end <= problem.span.end;
    causes.told(hidden_character::CHECK.name).any(is_within)
}

/// How many pieces there are stands on the line that cannot be read.
fn pieces_are_garbled(causes: &Causes<'_>, _: &Diagnostic) -> bool {
    causes.garbled().iter().any(|line| begins_with_words(line, "makes") || begins_with_words(line, "divide"))
}

/// The name begins a line that cannot be read.
fn name_begins_a_stray_line(causes: &Causes<'_>, problem: &Diagnostic) -> bool {
    let strays = causes.strays.get_or_init(|| {
        let strays = causes.tree.lines.iter().filter(|line| line.content == Content::Stray).take(MOST_CAUSES);
        strays.map(|line| causes.source.slice(line.said).to_lowercase()).collect()
    });
    let named = Key::new(causes.source.slice(problem.span));
    strays.iter().any(|line| begins_with_words(line, named.as_str()))
}

/// What is to be baked and was forgotten to be is raw; that is one slip.
fn bake_is_lacking(causes: &Causes<'_>, _: &Diagnostic) -> bool {
    causes.told(no_bake::CHECK.name).next().is_some()
}

/// While nobody knows what a brace means, nobody knows what no step of its part takes.
fn brace_is_unread(causes: &Causes<'_>, problem: &Diagnostic) -> bool {
    let unread = causes.unread.get_or_init(|| {
        let braces = causes.all.iter().filter(|told| is_unread_brace(causes.tree, told));
        braces.map(|told| causes.part_of(told.span)).collect()
    });
    !unread.is_empty() && unread.contains(&causes.part_of(problem.span))
}

/// A page of a book says nothing of the others.
fn an_option_is_unknown(causes: &Causes<'_>, _: &Diagnostic) -> bool {
    *causes
        .option_is_unknown
        .get_or_init(|| causes.tree.kind != FileKind::Book && causes.told(unknown_option::CHECK.name).next().is_some())
}

/// Of two lines of prose for two options each names what the other does not have.
fn its_option_is_unknown(causes: &Causes<'_>, problem: &Diagnostic) -> bool {
    let for_options = causes.for_options.get_or_init(|| {
        let lines = causes.told(unknown_option::CHECK.name).filter_map(|told| causes.tree.line_at(told.span.start));
        let of_steps = lines.filter(|line| matches!(line.content, Content::Prose(_) | Content::Until(_)));
        of_steps.map(|line| line.span.start).collect()
    });
    causes.tree.line_at(problem.span.start).is_some_and(|line| for_options.contains(&line.span.start))
}

/// `{watr}` is unknown because `water` was meant, and `water` is never used for the same reason.
fn name_was_meant(causes: &Causes<'_>, problem: &Diagnostic) -> bool {
    let meant = causes.meant.get_or_init(|| {
        let edits = causes.told(unknown_name::CHECK.name).filter_map(|told| told.mend.as_ref()?.edits.first());
        edits.map(|edit| Key::new(edit.text.rsplit(" of ").next().unwrap_or(&edit.text))).collect()
    });
    !meant.is_empty() && meant.contains(&causes.name(problem))
}

/// What is done too cool is told once: not as an odd figure too, nor as raw where it goes in.
fn is_told_as_undercooked(causes: &Causes<'_>, problem: &Diagnostic) -> bool {
    let undercooked = causes.undercooked.get_or_init(|| {
        let told = causes.told(undercooked::CHECK.name);
        told.flat_map(|told| told.also.iter().map(|label| label.span).chain([told.span])).collect()
    });
    undercooked.contains(&problem.span)
}

/// Which problems of one line say once more what another of that line says: one digit that has slipped is one problem.
const FOLLOWS: &[(&str, &[&str])] = &[
    (hidden_allergen::CHECK.name, &[near_name::CHECK.name, unknown_name::CHECK.name]),
    (loose_step::CHECK.name, &[unknown_step::CHECK.name]),
    (near_clause::CHECK.name, &[stray_line::CHECK.name]),
    (near_name::CHECK.name, &[unknown_name::CHECK.name]),
    (never_used::CHECK.name, &[near_name::CHECK.name, unknown_name::CHECK.name]),
    (odd_amount::CHECK.name, &[yield_does_not_add_up::CHECK.name]),
    (odd_percent::CHECK.name, &[extreme_percent::CHECK.name]),
    (out_of_proportion::CHECK.name, &[extreme_percent::CHECK.name, odd_percent::CHECK.name, odd_amount::CHECK.name]),
    (step_out_of_place::CHECK.name, &[twice_named::CHECK.name]),
    (
        too_fine_for_scale::CHECK.name,
        &[extreme_percent::CHECK.name, odd_amount::CHECK.name, out_of_proportion::CHECK.name],
    ),
];

/// What an unknown name speaks of where a leaven was meant.
const LEAVENS: &[&str] = &["yeast", "leaven", "levain", "starter", "sour", "poolish", "biga", "sponge"];

fn drop_followers(tree: &Tree, source: &Source, diagnostics: &mut Vec<Diagnostic>) {
    if diagnostics.len() < 2 {
        return;
    }
    let line = |span: Span| tree.line_at(span.start).map(|line| line.span.start);
    let on_lines: HashSet<(&str, Option<u32>)> =
        diagnostics.iter().map(|problem| (problem.check, line(problem.span))).collect();
    // `yeast` that a step takes and no line lists is why nothing raises the dough, nor the pieces of it.
    let leaven_is_unknown = diagnostics.iter().any(|problem| {
        let named = || source.slice(problem.span).to_lowercase();
        problem.check == unknown_name::CHECK.name && LEAVENS.iter().any(|leaven| named().contains(leaven))
    });
    one_of_two_spellings(tree, source, diagnostics);
    let mut told_leavens = 0;
    diagnostics.retain(|problem| {
        let here = line(problem.span);
        if problem.check == no_leaven::CHECK.name {
            told_leavens += 1;
            return !leaven_is_unknown || told_leavens == 1;
        }
        !FOLLOWS.iter().any(|(other, causes)| {
            *other == problem.check && causes.iter().any(|cause| on_lines.contains(&(*cause, here)))
        })
    });
}

/// Of `whole weat flour` on a line and `whole wheat flour` in a step one is misspelt: the first that is told stays. Where the list has
/// what no larder knows, `watr`, the step that asks for water is right, and its error offers to mend the list.
fn one_of_two_spellings(tree: &Tree, source: &Source, diagnostics: &mut Vec<Diagnostic>) {
    let pair = |problem: &Diagnostic| {
        let meant = Key::new(&problem.mend.as_ref()?.edits.first()?.text);
        Some((written(tree, source, problem.span), meant))
    };
    let of = |check: &'static str| {
        let told = diagnostics.iter().filter(move |problem| problem.check == check);
        told.filter_map(|problem| Some((pair(problem)?, problem.clone()))).collect::<Vec<_>>()
    };
    let unknown = of(unknown_name::CHECK.name);
    if unknown.is_empty() {
        return;
    }
    let near = of(near_name::CHECK.name);
    let turned = |(wrong, meant): &(Key, Key), all: &[((Key, Key), Diagnostic)]| {
        all.iter().find(|(other, _)| other.0 == *meant && other.1 == *wrong).map(|(_, problem)| problem.clone())
    };
    diagnostics.retain_mut(|problem| match pair(problem).filter(|_| problem.check == unknown_name::CHECK.name) {
        Some(pair) => {
            if let Some(listed) = turned(&pair, &near) {
                problem.also.push(Label { span: listed.span, text: format!("listed as `{}`", pair.1.as_str()) });
                problem.help =
                    Some(format!("no larder knows `{}`: write `{}` there", pair.1.as_str(), pair.0.as_str()));
                problem.mend = listed.mend;
                return true;
            }
            turned(&pair, &unknown).is_none_or(|other| problem.span.start <= other.span.start)
        }
        None => true,
    });
}

/// The name that a problem underlines, of an ingredient line without its amount.
fn written(tree: &Tree, source: &Source, span: Span) -> Key {
    name_in(tree, span).unwrap_or_else(|| Key::new(source.slice(span)))
}

/// Whether a problem is that of a brace of which nobody can tell what it takes: it is not closed, or names what is not there and is near
/// to nothing.
fn is_unread_brace(tree: &Tree, problem: &Diagnostic) -> bool {
    let is_cause = problem.check == stray_line::CHECK.name
        || (problem.check == unknown_name::CHECK.name && problem.mend.is_none());
    let in_step = |span: Span| {
        tree.line_at(span.start).is_some_and(|line| matches!(line.content, Content::Prose(_) | Content::Until(_)))
    };
    is_cause && in_step(problem.span)
}

/// The line in which a place lies.
fn line_at<'s>(tree: &Tree, source: &'s Source, span: Span) -> &'s str {
    tree.line_at(span.start).map_or("", |line| source.slice(line.span))
}

/// The name of the ingredient line that a problem underlines.
fn name_in(tree: &Tree, span: Span) -> Option<Key> {
    tree.line_at(span.start).filter(|line| line.said == span).and_then(|line| match &line.content {
        Content::Ingredient(ingredient) => Some(ingredient.name.key.clone()),
        _ => None,
    })
}
