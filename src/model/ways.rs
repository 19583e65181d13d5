//! Ways to choose: which options tell some of them from the others, in the words of the file.

use crate::language::syntax::Key;
use crate::model::recipe::{Choice, Recipe, Selection};

/// So many groups of ways are said one by one; who reads more of them reads none.
const MOST_SAID: usize = 4;

/// The options that tell the ways `under` from the others in `scope`, both by their places in `ways`: `hand`, `hand or machine, cold`,
/// `hand, cold; or machine, warm`. Empty when they are all of it.
pub fn said(choices: &[Choice], ways: &[Selection], under: &[usize], scope: &[usize]) -> String {
    if scope.iter().all(|at| under.contains(at)) {
        return String::new();
    }
    let mut left: Vec<usize> = under.to_vec();
    let mut all: Vec<String> = Vec::new();
    while let Some(first) = left.first().copied() {
        let group = Group::around(choices, ways, first, under, scope);
        left.retain(|at| *at != first && !group.holds(ways, *at));
        all.push(group.to_string());
    }
    if all.len() > MOST_SAID || all.iter().any(String::is_empty) {
        return "some choices".to_owned();
    }
    all.join("; or ")
}

/// The options of a recipe that not all of some others of its file have: `sugar`; empty where there are none.
pub fn told_from(own: &Recipe, others: &[&Recipe]) -> String {
    let told = own.choices.iter().filter_map(|choice| {
        let taken = own.selection.of(&choice.name.key)?;
        let differs = others.iter().any(|other| other.selection.of(&choice.name.key) != Some(taken));
        let option = choice.options.iter().find(|option| option.key == *taken)?;
        differs.then(|| option.to_string())
    });
    told.collect::<Vec<String>>().join(", ")
}

/// For each choice the options that are asked for; a choice of which all will do asks for none.
struct Group<'c> {
    asked: Vec<(&'c Choice, Vec<&'c Key>)>,
}

impl<'c> Group<'c> {
    /// The widest group around a way of which nothing in `scope` lies outside `under`.
    fn around(choices: &'c [Choice], ways: &[Selection], first: usize, under: &[usize], scope: &[usize]) -> Group<'c> {
        let taken = |choice: &Choice| ways.get(first).and_then(|way| way.of(&choice.name.key)).cloned();
        let asked = choices.iter().filter_map(|choice| {
            let taken = taken(choice)?;
            let option = choice.options.iter().find(|option| option.key == taken)?;
            Some((choice, vec![&option.key]))
        });
        let mut group = Group { asked: asked.collect() };
        let fits = |group: &Group<'_>| scope.iter().all(|at| under.contains(at) || !group.holds(ways, *at));
        for choice in choices {
            let mut without = Group { asked: group.asked.clone() };
            without.asked.retain(|(asked, _)| asked.name != choice.name);
            if fits(&without) {
                group = without;
            }
        }
        for choice in choices {
            for option in &choice.options {
                let mut wider = Group { asked: group.asked.clone() };
                let Some((_, options)) = wider.asked.iter_mut().find(|(asked, _)| asked.name == choice.name) else {
                    continue;
                };
                if !options.contains(&&option.key) {
                    options.push(&option.key);
                    if fits(&wider) {
                        group = wider;
                    }
                }
            }
        }
        group
    }

    fn holds(&self, ways: &[Selection], at: usize) -> bool {
        let Some(way) = ways.get(at) else { return false };
        self.asked
            .iter()
            .all(|(choice, options)| way.of(&choice.name.key).is_some_and(|taken| options.contains(&taken)))
    }
}

impl std::fmt::Display for Group<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let words: Vec<String> = self
            .asked
            .iter()
            .map(|(choice, options)| {
                let named = choice.options.iter().filter(|option| options.contains(&&option.key));
                named.map(ToString::to_string).collect::<Vec<String>>().join(" or ")
            })
            .collect();
        f.write_str(&words.join(", "))
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing)]

    use super::*;
    use crate::edge::loader::Loader;
    use crate::solve::resolve::{choices_of, selections};
    use std::path::Path;

    /// What is said of the ways that `holds` picks, by the options that they take.
    fn said_of(choices: &str, holds: impl Fn(&[&str]) -> bool) -> String {
        let mut loader = Loader::new();
        let text = format!("recipe Pier loaf\n{choices}\nstrong white flour .... 1 kg\n");
        let source = loader.take_text("pier.miche", text, Path::new("pier.miche"));
        let project = loader.into_project();
        let choices = choices_of(&project.file(source).expect("a file").tree);
        let ways = selections(&choices);
        let all: Vec<usize> = (0..ways.len()).collect();
        let taken = |at: &usize| {
            let way = ways.get(*at).expect("a way");
            holds(&choices.iter().map(|choice| way.of(&choice.name.key).unwrap().as_str()).collect::<Vec<&str>>())
        };
        said(&choices, &ways, &all.iter().copied().filter(taken).collect::<Vec<usize>>(), &all)
    }

    #[test]
    fn what_tells_some_ways_from_the_others_is_said_and_nothing_else() {
        let one = "choose kneading: hand kneading or machine or no kneading";
        assert_eq!(said_of(one, |_| true), "");
        assert_eq!(said_of(one, |way| way[0] == "machine"), "machine");
        assert_eq!(said_of(one, |way| way[0] != "machine"), "hand kneading or no kneading");
        let two = "choose kneading: hand or machine\nchoose rise: warm or cold";
        assert_eq!(said_of(two, |way| way[1] == "cold"), "cold");
        assert_eq!(said_of(two, |way| way == ["hand", "cold"]), "hand, cold");
        // No product of options says this: one or the other, and both.
        assert_eq!(said_of(two, |way| way[0] == "machine" || way[1] == "cold"), "machine; or cold");
        assert_eq!(said_of(two, |way| (way[0] == "machine") == (way[1] == "cold")), "hand, warm; or machine, cold");
    }

    #[test]
    fn of_more_ways_than_are_tried_each_option_is_told_by_itself() {
        let many: Vec<String> = ('a'..='h').map(|choice| format!("choose {choice}: {choice}1 or {choice}2")).collect();
        let many = many.join("\n");
        assert_eq!(said_of(&many, |way| way[2] == "c2"), "c2");
        assert_eq!(said_of(&many, |way| way[2] != "c2"), "c1");
    }
}
