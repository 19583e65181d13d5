//! Which lines head a part, though no sign marks them: a name above a list, with a time, or with a list behind it.

use super::gathered::{Gathered, IN_HEADING};
use super::heat::heat;
use super::measure::measure;
use super::part::Part;
use super::{Place, Section, drawn, ingredient, kinds, left_out, method, title, together, words};
use crate::language::syntax::Key;
use crate::measure::noun::singular;

impl Place<'_> {
    /// What brackets behind *Ingredients* or *Method* say: how much it makes, or words that are kept.
    pub(super) fn list_says(&self, bare: &str, line: &str, sheet: &mut Gathered) {
        let (_, aside) = kinds::with_aside(bare.trim_end_matches(':').trim());
        let Some(aside) = aside.filter(|aside| aside.contains(char::is_numeric)) else { return };
        match kinds::says_makes(&aside) {
            Some((makes, look)) => sheet.makes(&makes, look.as_deref(), line),
            None => sheet.keep(line, "said in the heading"),
        }
    }

    /// What the brackets behind the name say that it makes: `Hand pies (makes 8)`.
    pub(super) fn title_makes(&self, aside: Option<&str>, line: &str, sheet: &mut Gathered) {
        if let Some((makes, look)) = aside.and_then(kinds::says_makes) {
            sheet.makes(&makes, look.as_deref(), line);
        }
    }

    /// Whether a line may be the name of the recipe.
    pub(super) fn may_name_the_recipe(&self, bare: &str, sheet: &Gathered) -> bool {
        sheet.title.is_none()
            && !sheet.has_told()
            && !self.began
            && self.section == Section::Open
            && bare.len() < 80
            && !bare.ends_with(['.', ',', '!', ';'])
    }

    /// Takes a line for the name of the recipe, and what stands in brackets behind it for what it makes; whether it can be.
    pub(super) fn title(&self, line: &str, bare: &str, sheet: &mut Gathered) -> bool {
        let (bare, aside) = match kinds::with_aside(bare) {
            (title, Some(aside)) if kinds::says_makes(&aside).is_some() => (title, Some(aside)),
            _ => (bare, None),
        };
        let name = words::name(bare);
        if name.is_empty() || !name.chars().any(char::is_alphabetic) {
            return false;
        }
        // What a name cannot hold is still to be seen, and what it makes, where it was not understood.
        let figure = bare.find(char::is_numeric).and_then(|at| bare.get(at..)).unwrap_or_default();
        let counts =
            measure(figure).is_some_and(|(amount, rest)| amount.unit.is_some() || rest.starts_with([')', '@']));
        if name == bare && !title::is_for_so_many(bare) && !(counts || bare.contains('(') && !figure.is_empty()) {
            sheet.title = Some(name)
        } else {
            sheet.titled(name, line)
        }
        self.title_makes(aside.as_deref(), line, sheet);
        true
    }

    /// Whether a line by itself is the name of a part: the recipe has its name, and an ingredient with its amount stands below.
    pub(super) fn heads_a_part(&self, bare: &str, aside: Option<&str>, sheet: &Gathered) -> bool {
        let (next, _) = words::without_mark(self.next(), 0);
        let titled = self.named || self.began || sheet.title.is_some();
        let is_listed = |line: &str| {
            ingredient::has_amount(line)
                || ingredient::all_of(line).is_some()
                || left_out::read(line).is_some()
                || drawn::read(line, |name| sheet.has_part(name)).is_some()
        };
        // `sour` below `Dough` is the part above, where a list goes on below it.
        let goes_on = || self.below.iter().skip(1).take(3).any(|line| is_listed(words::without_mark(line, 0).0));
        // `Assembly` above nothing but what was made.
        let puts_together = together::is_together(bare)
            && self.below.iter().all(|line| sheet.has_part(words::without_mark(line, 0).0.trim()));
        let listed = is_listed(next) || sheet.has_part(next) && goes_on() || puts_together;
        // `Cherries` above `500 g cherries` is what is made of them.
        let of_itself = self.after_gap && self.below.iter().any(|line| lists(words::without_mark(line, 0).0, bare));
        let is_taken = sheet.has_part(bare) || ingredient::all_of(line_of(bare, aside).as_str()).is_some();
        !next.is_empty()
            && titled
            && !is_taken
            && (kinds::bare_part(bare, aside, self.after_gap) || of_itself && kinds::is_short_name(bare))
            && listed
    }

    /// Takes a line for one that takes a part made above: `all soaker`, `half the sour`; whether it is one.
    pub(super) fn takes_a_part(&mut self, line: &str, bare: &str, sheet: &mut Gathered) -> bool {
        if self.section == Section::Method {
            return false;
        }
        let Some(read) = drawn::read(bare, |name| sheet.has_part_above(name)) else { return false };
        self.began = true;
        self.section = Section::Ingredients;
        sheet.ingredients(vec![read], line);
        true
    }

    /// Takes a line for the name of the recipe where it says what is made as well, `Samosas, makes 16`, or begins with a number that counts
    /// nothing, `5 seed bread`; whether it is one.
    pub(super) fn names_more_than_itself(&mut self, line: &str, bare: &str, sheet: &mut Gathered) -> bool {
        if !self.may_name_the_recipe(bare, sheet) {
            return false;
        }
        match title::with_what_it_makes(bare) {
            Some((name, makes, look)) => {
                sheet.title = Some(words::name(name));
                sheet.makes(&makes, look.as_deref(), line);
                true
            }
            None => title::counts_nothing(bare) && self.title(line, bare, sheet),
        }
    }

    /// Takes a line for the name of a part with the day or the hour at which it is made, `SOUR day 1, 18:00`; whether it is one.
    pub(super) fn heads_a_dated_part(&mut self, line: &str, bare: &str, sheet: &mut Gathered) -> bool {
        let (next, _) = words::without_mark(self.next(), 0);
        let titled = self.named || self.began || sheet.title.is_some();
        let name = kinds::dated_part(bare).filter(|_| titled && self.section != Section::Method);
        let Some(name) = name.filter(|_| ingredient::has_amount(next)) else { return false };
        let shouted = !name.chars().any(char::is_lowercase);
        sheet.part(&if shouted { name.to_lowercase() } else { name.to_owned() });
        sheet.keep(line, "said in the heading");
        self.section = Section::Ingredients;
        true
    }

    /// Takes a line for the name of what goes into a dough with the time that it takes, `Levain build (night before) 12 h at 22 C`, or
    /// with the one thing that goes in, `Topping: 50 g sesame seeds`; whether it is one.
    pub(super) fn heads_a_timed_part(&mut self, line: &str, bare: &str, sheet: &mut Gathered) -> bool {
        let (next, _) = words::without_mark(self.next(), 0);
        if !next.is_empty()
            && self.section != Section::Method
            && !method::is_told(bare)
            && ingredient::has_amount(next)
            && let Some((name, aside, time)) = kinds::timed_part(bare)
        {
            sheet.part(name);
            if let Some(aside) = aside {
                sheet.heading_says(&aside, line);
            }
            sheet.method(&format!("Leave {time}"), line);
            self.section = Section::Ingredients;
            return true;
        }
        // `Filling - 250 g poppy seeds, 250 ml milk` too, but no `Bake - 20 min`.
        let dashed = || [" - ", " \u{2013} ", " \u{2014} "].iter().find_map(|dash| bare.split_once(dash));
        let Some((name, rest)) = bare.split_once(": ").or_else(dashed) else { return false };
        let for_the = ["For the ", "for the ", "For ", "for "].iter().find_map(|word| name.strip_prefix(word));
        let (name, aside) = kinds::with_aside(for_the.unwrap_or(name));
        // `Levain 9pm`.
        let hour = kinds::dated_part(name);
        let name = hour.unwrap_or(name);
        let (list, told) = behind_the_list(rest);
        let listed = || ingredient::read(list, false);
        let heads = self.section != Section::Notes
            && !together::is_together(name)
            && (self.began || self.named || sheet.title.is_some() || kinds::names_a_part(name))
            && (for_the.is_some()
                || kinds::names_a_part(name)
                || kinds::may_name_a_part(name) && ingredient::is_list(list)
                || kinds::may_be_bought_or_made(name) && ingredient::is_long_list(list))
            && (ingredient::begins_a_list(list) || ingredient::is_list(list));
        match heads.then(listed).flatten() {
            Some(mut read) => {
                sheet.part(name);
                if let Some(aside) = aside {
                    sheet.heading_says(&aside, line);
                }
                self.on_heading = Some((sheet.at, read.len()));
                if let Some(first) = read.first_mut() {
                    first.look.push(format!("`{name}` is read as a part"));
                    first.look.extend(hour.map(|_| IN_HEADING.to_owned()));
                }
                sheet.ingredients(read, line);
                if !told.is_empty() {
                    sheet.method(told, line);
                }
                self.began = true;
                self.section = Section::Ingredients;
                true
            }
            None => false,
        }
    }
}

impl Gathered {
    /// Goes on with the part that has no name, which the others go into; what is to be looked at.
    pub(super) fn list_of_the_dough(&mut self) -> Option<String> {
        let before = self.parts.get(self.at).and_then(|part| part.name.clone());
        self.at = self.parts.iter().position(|part| part.name.is_none()).unwrap_or_else(|| {
            self.parts.push(Part::default());
            self.parts.len() - 1
        });
        before.map(|name| format!("read as of the dough, and not of `{name}`"))
    }
}

/// Whether a line lists, with an amount, what is called so.
fn lists(line: &str, name: &str) -> bool {
    let key = |name: &str| Key::new(&singular(name));
    let read = || ingredient::read(line, true).unwrap_or_default();
    ingredient::has_amount(line) && read().iter().any(|read| key(&read.name) == key(name))
}

/// A list, and what is told behind it: `3 eggs, 90 g flour. Whisk 8 min.`, `250 ml milk -> cook 8 min`, `10 g salt; rises 1 h`.
fn behind_the_list(rest: &str) -> (&str, &str) {
    let marks = [". ", "; ", " -> ", " => ", "\u{2192}"];
    let parted = marks.iter().filter_map(|mark| rest.find(mark).map(|at| (at, mark.len())));
    let told = parted.filter_map(|(at, length)| Some((rest.get(..at)?, rest.get(at + length..)?.trim())));
    let is_told = |told: &str| method::tells(told) || heat(told).is_some();
    let told = told.filter(|(_, told)| is_told(told) && !ingredient::begins_a_list(told));
    told.min_by_key(|(list, _)| list.len()).unwrap_or((rest, ""))
}

/// A heading as it was written, with its brackets.
fn line_of(bare: &str, aside: Option<&str>) -> String {
    aside.map_or_else(|| bare.to_owned(), |aside| format!("{bare} ({aside})"))
}
