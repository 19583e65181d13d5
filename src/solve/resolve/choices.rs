//! Choices, their options, and every way to choose.

use super::reading::Reading;
use crate::language::parse::nearest;
use crate::language::syntax::{Content, Line, Name, Tree};
use crate::model::recipe::{Choice, Selection};
use crate::text::diagnostic::Diagnostic;

/// So many ways to choose are all tried; beyond that each option is tried once with the other choices at their defaults.
const MOST_SELECTIONS: usize = 64;

/// More options than this, in all choices together, are refused.
const MOST_OPTIONS: usize = 100;

/// The problem of a recipe that offers too many options.
pub(super) fn too_many(tree: &Tree) -> Option<Diagnostic> {
    let mut count = 0_usize;
    for (line, _, options) in offered(tree) {
        count += options.len();
        if count > MOST_OPTIONS {
            let message =
                format!("with this line the recipe offers over {MOST_OPTIONS} options, more than are looked at");
            let help = "make several recipes of it, and bring in with `use` what they have in common";
            return Some(Diagnostic::error("too-much", line.said, message).help(help));
        }
    }
    None
}

/// The choices of a recipe's tree, without reporting anything.
pub fn choices_of(tree: &Tree) -> Vec<Choice> {
    if too_many(tree).is_some() { Vec::new() } else { read(tree, &mut Reading::default()) }
}

/// What the head of a recipe offers, which stands before its first `part`.
fn offered(tree: &Tree) -> impl Iterator<Item = (&Line, &Name, &[Name])> {
    let head = tree.lines.iter().take_while(|line| !matches!(line.content, Content::Part { .. }));
    head.filter_map(|line| match &line.content {
        Content::Choose { name, options } => Some((line, name, options.as_slice())),
        _ => None,
    })
}

pub(super) fn read(tree: &Tree, reading: &mut Reading) -> Vec<Choice> {
    let mut choices: Vec<Choice> = Vec::new();
    for (line, name, options) in offered(tree) {
        if let Some(twin) = choices.iter().find(|choice| choice.name.same(name)) {
            reading.report(
                Diagnostic::error("twice-named", name.span, format!("`{name}` is chosen twice"))
                    .also(twin.name.span, "first here")
                    .help("name all options on one line, `choose NAME: A or B or C`"),
            );
            continue;
        }
        if options.len() < 2 {
            reading.report(
                Diagnostic::error(
                    "unknown-option",
                    line.said,
                    format!("`{name}` has one option, so there is no choice"),
                )
                .help(format!("name another: `choose {name}: A or B`")),
            );
        }
        let mut kept: Vec<Name> = Vec::with_capacity(options.len());
        for option in options {
            let elsewhere = choices.iter().flat_map(|choice| &choice.options);
            if let Some(twin) = kept.iter().chain(elsewhere).find(|known| known.same(option)) {
                reading.report(
                    Diagnostic::error("twice-named", option.span, format!("the option `{option}` stands here twice"))
                        .also(twin.span, "first here")
                        .help("give every option a name of its own, since lines are marked by it alone"),
                );
                continue;
            }
            kept.push(option.clone());
        }
        choices.push(Choice { name: name.clone(), options: kept });
    }
    choices
}

/// A selection that takes an option for each choice and nothing else.
pub fn normal_selection(choices: &[Choice], wanted: &Selection) -> Selection {
    let mut selection = Selection::new();
    for choice in choices {
        for option in &choice.options {
            selection.offer(&option.key);
        }
        let by_choice = wanted.of(&choice.name.key);
        let taken = choice.options.iter().find(|option| by_choice == Some(&option.key));
        if let Some(option) = taken.or_else(|| choice.options.first()) {
            selection.take(&choice.name.key, &option.key);
        }
    }
    selection
}

/// Every way to choose, the default first.
pub fn selections(choices: &[Choice]) -> Vec<Selection> {
    let default = normal_selection(choices, &Selection::new());
    let combinations =
        choices.iter().try_fold(1_usize, |product, choice| product.checked_mul(choice.options.len().max(1)));
    let mut all = vec![default.clone()];
    if combinations.is_none_or(|count| count > MOST_SELECTIONS) {
        for choice in choices {
            for option in choice.options.iter().skip(1) {
                let mut one = default.clone();
                one.take(&choice.name.key, &option.key);
                all.push(one);
            }
        }
        return all;
    }
    for choice in choices {
        let others: Vec<Selection> = choice
            .options
            .iter()
            .skip(1)
            .flat_map(|option| {
                all.iter().map(|selection| {
                    let mut other = selection.clone();
                    other.take(&choice.name.key, &option.key);
                    other
                })
            })
            .collect();
        all.extend(others);
    }
    all
}

/// Reports conditions that name no option, or two options of one choice.
pub(super) fn check_conditions(tree: &Tree, choices: &[Choice], reading: &mut Reading) {
    for name in tree.lines.iter().flat_map(|line| &line.only) {
        let known = choices.iter().flat_map(|choice| &choice.options);
        if known.clone().any(|option| option.same(name)) {
            continue;
        }
        let problem = Diagnostic::error("unknown-option", name.span, format!("`{name}` is no option of this recipe"));
        let near = nearest(name.key.as_str(), known.clone().map(|option| option.key.as_str()));
        reading.report(match near {
            Some(near) => problem.meant(name.span, near),
            None if choices.is_empty() => {
                problem.help("add a line such as `choose NAME: A or B` to the head of the recipe")
            }
            None => {
                let all: Vec<String> = known.map(|option| format!("`{option}`")).collect();
                problem.help(format!("the options are {}", all.join(", ")))
            }
        });
    }
    for line in tree.lines.iter().filter(|line| line.only.len() > 1) {
        let of_one_choice = choices.iter().find(|choice| {
            line.only.iter().filter(|name| choice.options.iter().any(|option| option.same(name))).count() > 1
        });
        if let (Some(choice), Some(first), Some(last)) = (of_one_choice, line.only.first(), line.only.last()) {
            let message = format!("this line can never hold: only one option of `{}` is chosen at a time", choice.name);
            reading.report(
                Diagnostic::error("unknown-option", first.span.to(last.span), message)
                    .help("keep one of them, or write the line twice"),
            );
        }
    }
}
