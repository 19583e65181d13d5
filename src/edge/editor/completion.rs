//! What can be said at a place: keywords, ingredients of this part, larder names, steps, options, units, files.
//!
//! Told by the words before the cursor and not by the tree, because a line that is being typed is not read yet.

mod price;

use super::log;
use super::place;
use super::view::View;
use crate::check::allowance::has_judgements;
use crate::language::parse::{Clauses, Place, lines_at};
use crate::language::syntax::{Content, FileKind, Key};
use crate::model::aim::Figure;
use crate::model::allergen;
use crate::model::kind::Kind as IngredientKind;
use crate::model::larder::{Larder, NOTHING};
use crate::solve::resolve::choices_of;
use crate::text::source::Span;
use std::collections::HashSet;

/// What kind of thing is offered; the editor shows a picture for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    Keyword,
    Ingredient,
    Part,
    Step,
    Choice,
    Unit,
    Equipment,
    File,
}

/// Something that can stand at the cursor.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Offer {
    /// As it is shown and typed.
    pub label: String,
    /// What it is.
    pub kind: Kind,
    /// A few words about it.
    pub detail: String,
    /// What is put in place of `span`.
    pub text: String,
    /// What was typed of it already.
    pub span: Span,
}

/// The words on the line before the cursor, and what of them is being typed.
struct Typed<'v> {
    view: &'v View,
    /// From the line's first word to the cursor.
    words: &'v str,
    /// The cursor.
    offset: usize,
    offers: Vec<Offer>,
}

/// Everything that fits at an offset.
pub(super) fn offers(view: &View, offset: usize, files: &[String]) -> Vec<Offer> {
    let text = view.text();
    let before = text.get(..offset).unwrap_or("");
    let start = before.rfind(['\n', '\r']).map_or(0, |at| at + 1);
    let line = before.get(start..).unwrap_or("");
    let indent = line.len() - line.trim_start().len();
    let words = line.trim_start();
    if words.starts_with("# ") {
        return allowances(view, words, offset);
    }
    let index = place::line(view.tree(), offset).map_or(0, |(index, _)| index);
    let mut typed = Typed { view, words, offset, offers: Vec::new() };
    let part = place::part(view.tree(), index);
    if let Some(inside) = after_open(words, '{', '}') {
        typed.braces(inside, part.as_ref());
    } else if let Some(inside) = after_open(words, '[', ']') {
        let typed_of = inside.rsplit(',').next().unwrap_or("").trim_start();
        typed.options(typed_of);
    } else if let Some(inside) = after_quote(words) {
        for file in files {
            typed.offer(inside, file, Kind::File, "");
        }
    } else if let Some(rest) = keyword_rest(words, "costs ") {
        typed.price(rest);
    } else if let Some(figure) = keyword_rest(words, "aim ").filter(|rest| !rest.contains(|c: char| c.is_ascii_digit()))
    {
        typed.aim(figure, part.as_ref());
    } else if let Some(unit) = unit_typed(words) {
        typed.units(unit);
    } else if indent > 0 && place::step_above(view.tree(), index).is_some_and(|step| step.indent < indent) {
        if !words.contains(' ') {
            typed.offer(words, "until ", Kind::Keyword, "the sign by which the step is done");
        }
    } else {
        typed.line(part.as_ref());
    }
    typed.offers
}

/// What stands behind the last opening mark that was not closed.
fn after_open(words: &str, open: char, close: char) -> Option<&str> {
    let at = words.rfind(open)?;
    let inside = words.get(at + open.len_utf8()..)?;
    (!inside.contains(close)).then_some(inside)
}

/// What stands inside a quotation mark that was not closed.
fn after_quote(words: &str) -> Option<&str> {
    let inside = words.split('"').skip(1).step_by(2).last()?;
    (words.matches('"').count() % 2 == 1).then_some(inside)
}

/// The letters behind a number, where a unit may stand.
fn unit_typed(words: &str) -> Option<&str> {
    let letters = words
        .rfind(|c: char| !(c.is_alphabetic() || c == '°' || c == '%'))
        .map_or(0, |at| at + words.get(at..).and_then(|rest| rest.chars().next()).map_or(1, char::len_utf8));
    let typed = words.get(letters..)?;
    let before = words.get(..letters)?.trim_end();
    // An amount stands behind a leader, a colon, a comma or a word of its own; a number in a name is none.
    let is_amount = words.contains("..") || words.contains([':', ',']) || first_word(words) != words;
    let number = before.ends_with(|c: char| c.is_ascii_digit() || "½⅓⅔¼¾".contains(c));
    let is_place = words.ends_with(' ') || !typed.is_empty();
    (is_amount && number && is_place && typed.chars().count() < 6).then_some(typed)
}

fn first_word(words: &str) -> &str {
    words.split_whitespace().next().unwrap_or("")
}

impl Typed<'_> {
    /// Offers something in place of what was typed, when that is its beginning.
    fn offer(&mut self, typed: &str, label: &str, kind: Kind, detail: &str) {
        let text = label.to_owned();
        self.offer_as(typed, label.trim_end(), text, kind, detail);
    }

    fn offer_as(&mut self, typed: &str, label: &str, text: String, kind: Kind, detail: &str) {
        let fits = label.to_lowercase().starts_with(&typed.to_lowercase())
            || label.to_lowercase().split(' ').any(|word| word.starts_with(&typed.to_lowercase()));
        if !fits || label.is_empty() {
            return;
        }
        let span = Span::new(self.view.source, self.offset - typed.len(), self.offset);
        let offer = Offer { label: label.to_owned(), kind, detail: detail.to_owned(), text, span };
        if !self.offers.iter().any(|known| known.label == offer.label && known.kind == offer.kind) {
            self.offers.push(offer);
        }
    }

    fn all(&mut self, typed: &str, labels: &[(&str, &str)], kind: Kind) {
        for (label, detail) in labels {
            self.offer(typed, label, kind, detail);
        }
    }

    /// The clauses that can be said here.
    fn clauses(&mut self, typed: &str, of: Clauses) {
        for (words, about) in of.offers() {
            self.offer(typed, words, Kind::Keyword, about);
        }
    }

    /// The key words that can begin a line here.
    fn lines(&mut self, typed: &str, at: Place) {
        for (words, about) in lines_at(at) {
            self.offer(typed, words, Kind::Keyword, about);
        }
    }

    /// `{rest of wh`: ingredients of this part, behind an amount also.
    fn braces(&mut self, inside: &str, part: Option<&Key>) {
        let inside = inside.trim_start();
        let (typed, share) = match inside.rfind(" of ") {
            Some(at) => (inside.get(at + 4..).unwrap_or("").trim_start(), true),
            None => (inside, false),
        };
        let scope = self.view.scope();
        if let Some(part_key) = part
            && let Some(own) = scope.own.by_key.get(part_key)
        {
            for name in &own.ingredients {
                let detail = place::drawn_line(self.view, part_key, &name.key, &[])
                    .and_then(|found| found.amount.mass)
                    .map(crate::measure::show::mass_plain)
                    .unwrap_or_default()
                    .to_string();
                self.offer(typed, &name.text, Kind::Ingredient, &detail);
            }
            for name in &scope.own.names {
                if scope.own.by_key.get(&name.key).is_some_and(|other| other.from.as_ref() == Some(part_key)) {
                    self.offer(typed, &name.text, Kind::Part, "a preferment of this part");
                }
            }
        }
        if !share {
            let shares = [("rest of ", "what the other braces leave"), ("half of ", "half of an ingredient")];
            self.all(typed, &shares, Kind::Keyword);
        }
    }

    /// What can be aimed at: the figures, and the part's ingredients.
    fn aim(&mut self, typed: &str, part: Option<&Key>) {
        let bounds = [("at least ", "the least that it may be"), ("at most ", "the most")];
        if let Some(at) = typed.rfind(" at") {
            return self.all(typed.get(at + 1..).unwrap_or(""), &bounds, Kind::Keyword);
        }
        for word in Figure::words() {
            self.offer(typed, &format!("{word} "), Kind::Keyword, "a figure");
        }
        let scope = self.view.scope();
        let names = match part {
            Some(part) => scope.own.by_key.get(part).map(|part| &part.ingredients[..]).unwrap_or_default().to_vec(),
            None => scope.own.by_key.values().flat_map(|part| part.ingredients.clone()).collect(),
        };
        for name in names {
            self.offer(typed, &name.text, Kind::Ingredient, "");
        }
        if typed.ends_with(' ') {
            self.all("", &bounds, Kind::Keyword);
        }
    }

    fn options(&mut self, typed: &str) {
        let lines = &self.view.tree().lines;
        for line in lines {
            let Content::Choose { name, options } = &line.content else { continue };
            for option in options {
                self.offer(typed, &option.text, Kind::Choice, &format!("option of {name}"));
            }
        }
    }

    fn units(&mut self, typed: &str) {
        let words = self.words;
        let units: &[&str] = if words.contains(':') && words.contains("..") {
            ALL_UNITS
        } else if words.contains(':') || first_word(words) == "keeps" {
            &["min", "h", "s", "day", "days", "week", "weeks", "C", "F", "at a time"]
        } else if words.contains("..") {
            &["g", "kg", "%", "mg", "oz", "lb", "ml", "cl", "dl", "l", "tsp", "tbsp", "cup", "cups", "piece", "C", "F"]
        } else {
            ALL_UNITS
        };
        for unit in units {
            self.offer(typed, unit, Kind::Unit, "");
        }
    }

    /// A line outside prose.
    fn line(&mut self, part: Option<&Key>) {
        let words = self.words;
        let kind = self.view.tree().kind;
        let clause = words.rsplit(',').next().unwrap_or("").trim_start();
        let has_clause = words.contains(',');
        let first = first_word(words).to_lowercase();
        if let Some(at) = leader_end(words).filter(|_| kind == FileKind::Recipe) {
            let amount = words.get(at..).unwrap_or("").trim_start();
            if has_clause {
                self.clauses(clause, Clauses::Ingredient);
            } else {
                let amounts = [("all", "all of another part"), ("to taste", ""), ("as needed", "")];
                self.all(amount, &amounts, Kind::Keyword);
            }
        } else if let Some((name, after)) =
            words.split_once(':').filter(|_| first != "choose" && kind == FileKind::Recipe)
        {
            if has_clause {
                self.step_clause(clause, part, name);
            } else {
                let kinds = [
                    ("hands ", "somebody works all the time"),
                    ("tend ", "somebody stays in reach"),
                    ("wait ", "nobody is needed"),
                ];
                self.all(after.trim_start(), &kinds, Kind::Keyword);
            }
        } else if let Some(rest) = keyword_rest(words, "percent of ") {
            self.all(rest, &[("flour", "all that counts as flour"), ("total", "everything")], Kind::Keyword);
            self.part_ingredients(rest, part);
        } else if let Some(rest) = keyword_rest(words, "measures ") {
            self.all(rest, &[("US", ""), ("metric", ""), ("imperial", "")], Kind::Keyword);
        } else if let Some(rest) = keyword_rest(words, "is ").filter(|_| kind == FileKind::Kitchen) {
            for word in IngredientKind::words() {
                self.offer(rest, word, Kind::Keyword, "what the ingredient is");
            }
        } else if let Some(rest) = keyword_rest(words, "contains ").filter(|_| kind == FileKind::Kitchen) {
            let typed = rest.rsplit(',').next().unwrap_or(rest).trim_start();
            self.offer(typed, NOTHING, Kind::Keyword, "no allergen is in it");
            for word in allergen::plain_words() {
                self.offer(typed, word, Kind::Keyword, "an allergen of the law");
            }
        } else if first == "part" && has_clause {
            let from: Vec<String> = self.view.scope().own.names.iter().map(|name| format!("from {name}")).collect();
            for label in from {
                self.offer(clause, &label, Kind::Part, "a preferment is taken out of it");
            }
        } else if first == "keeps" && has_clause {
            self.clauses(clause, Clauses::Keeps);
        } else if (first == "divide" || first == "makes") && has_clause {
            self.clauses(clause, Clauses::Makes);
        } else if has_clause && kind == FileKind::Kitchen && first == "cook" {
            self.clauses(clause, Clauses::Cook);
        } else if has_clause && kind == FileKind::Kitchen {
            self.clauses(clause, Clauses::Equipment);
            self.clauses(clause, Clauses::Scale);
        } else if has_clause && kind == FileKind::Book {
            self.page_clause(clause);
        } else if has_clause && kind == FileKind::Day {
            self.clauses(clause, if first == "store" { Clauses::Store } else { Clauses::Make });
        } else {
            self.line_start(words, kind, part);
        }
    }

    /// What is said of a page; behind `choose` the options of its recipe.
    fn page_clause(&mut self, clause: &str) {
        let Some(rest) = keyword_rest(clause, "choose ") else { return self.clauses(clause, Clauses::Page) };
        let path = self.words.split('"').nth(1).unwrap_or("");
        let lines = self.view.tree().lines.iter();
        // The line that is being typed may not be read yet, its path may stand on another.
        let target = lines.filter_map(|line| line.content.path()).find(|known| known.value == path);
        let project = &self.view.project;
        let recipe = target.and_then(|path| project.target(path.span)).and_then(|source| project.file(source));
        let choices = recipe.map_or_else(Vec::new, |file| choices_of(&file.tree));
        for choice in choices {
            for option in &choice.options {
                self.offer(rest, &option.text, Kind::Choice, &format!("option of {}", choice.name));
            }
        }
    }

    fn step_clause(&mut self, clause: &str, part: Option<&Key>, own_name: &str) {
        let Some(part_key) = part else { return self.clauses(clause, Clauses::Step) };
        for word in ["straight after ", "after ", "during ", "before "] {
            if let Some(rest) = keyword_rest(clause, word) {
                return self.steps(rest, part_key, own_name);
            }
        }
        if keyword_rest(clause, "within ").is_some()
            && let Some(at) = clause.find(" after ")
        {
            return self.steps(clause.get(at + 7..).unwrap_or(""), part_key, own_name);
        }
        if clause.starts_with(|c: char| c.is_ascii_digit())
            && let Some(at) = clause.find(" into ")
        {
            return self.steps(clause.get(at + 6..).unwrap_or(""), part_key, own_name);
        }
        if let Some(rest) = keyword_rest(clause, "using ").or_else(|| keyword_rest(clause, "station ")) {
            let Some((recipe, _)) = self.view.worked() else { return };
            for item in &recipe.kitchen.equipment {
                self.offer(rest, &item.name.text, Kind::Equipment, &recipe.kitchen.name);
            }
            return;
        }
        self.clauses(clause, Clauses::Step);
    }

    /// Steps of this part by their names, those of other parts with `of PART`.
    fn steps(&mut self, typed: &str, part: &Key, own_name: &str) {
        let scope = self.view.scope();
        let own = Key::new(own_name);
        if let Some(here) = scope.own.by_key.get(part) {
            for step in here.steps.iter().filter(|step| step.key != own) {
                self.offer(typed, &step.text, Kind::Step, "of this part");
            }
        }
        for other in scope.own.names.iter().filter(|name| name.key != *part) {
            let steps = scope.own.by_key.get(&other.key).map(|part| &part.steps[..]).unwrap_or_default();
            for step in steps {
                self.offer(typed, &format!("{step} of {other}"), Kind::Step, "");
            }
        }
    }

    fn part_ingredients(&mut self, typed: &str, part: Option<&Key>) {
        let own = part.and_then(|part| self.view.scope().own.by_key.get(part));
        for name in own.map(|part| &part.ingredients[..]).unwrap_or_default() {
            self.offer(typed, &name.text, Kind::Ingredient, "");
        }
    }

    /// The first words of a line, by where it stands.
    fn line_start(&mut self, typed: &str, kind: FileKind, part: Option<&Key>) {
        match kind {
            FileKind::Kitchen => self.lines(typed, Place::Pantry),
            FileKind::Day => self.lines(typed, Place::Day),
            FileKind::Book => self.lines(typed, Place::Book),
            FileKind::Bakes => {
                self.lines(typed, Place::Log);
                self.log_names(typed);
            }
            FileKind::Recipe => {
                if self.view.tree().lines.iter().all(|line| !matches!(line.content, Content::Recipe(_))) {
                    self.lines(typed, Place::Title);
                }
                if part.is_none() || self.view.scope().own.implicit {
                    self.lines(typed, Place::Head);
                }
                self.lines(typed, Place::Part);
                self.ingredient_lines(typed, part);
            }
        }
    }

    /// What a log can name: steps and judgements with their colon, ingredients with their leader.
    fn log_names(&mut self, typed: &str) {
        let names = log::names(self.view);
        for name in &names.steps {
            self.offer_as(typed, name, format!("{name}: "), Kind::Step, "when it was done");
        }
        for name in &names.judged {
            self.offer_as(typed, name, format!("{name}: "), Kind::Keyword, "a judgement");
        }
        for name in &names.ingredients {
            self.offer_as(typed, name, crate::language::tidy::leader(name), Kind::Ingredient, "what really went in");
        }
    }

    /// Names of other parts and of the larder, with the leader behind them.
    fn ingredient_lines(&mut self, typed: &str, part: Option<&Key>) {
        let scope = self.view.scope();
        let others: Vec<String> =
            scope.own.names.iter().chain(scope.foreign_parts()).map(ToString::to_string).collect();
        for name in others.iter().filter(|name| part != Some(&Key::new(name))) {
            self.offer_as(typed, name, crate::language::tidy::leader(name), Kind::Part, "a part");
        }
        // Some hundreds of names help nobody who has typed nothing.
        if typed.is_empty() {
            return;
        }
        let brought = Larder::new();
        let larder = self.view.worked().map_or(&brought, |(recipe, _)| &*recipe.larder);
        let folded = typed.to_lowercase();
        let fitting = larder
            .names()
            .filter(|name| name.split(' ').any(|word| word.starts_with(&folded)) || name.starts_with(&folded));
        let mut names: Vec<String> = fitting.map(str::to_owned).collect::<HashSet<_>>().into_iter().collect();
        names.sort();
        for name in names {
            self.offer_as(typed, &name, crate::language::tidy::leader(&name), Kind::Ingredient, "from the larder");
        }
    }
}

/// Where the amount behind a dotted leader begins.
fn leader_end(words: &str) -> Option<usize> {
    let at = words.find("..")?;
    if at == 0 {
        return None;
    }
    let dots = words.get(at..)?.bytes().take_while(|byte| *byte == b'.').count();
    Some(at + dots)
}

fn keyword_rest<'w>(words: &'w str, keyword: &str) -> Option<&'w str> {
    let start = words.get(..keyword.len())?;
    start.eq_ignore_ascii_case(keyword).then(|| words.get(keyword.len()..)).flatten()
}

/// `# allow CHECK: reason`.
fn allowances(view: &View, words: &str, offset: usize) -> Vec<Offer> {
    let mut typed = Typed { view, words, offset, offers: Vec::new() };
    let comment = words.get(2..).unwrap_or("").trim_start();
    match keyword_rest(comment, "allow ") {
        Some(name) if !name.contains(':') => {
            for check in crate::check::ALL.iter().filter(|check| has_judgements(check)) {
                typed.offer_as(name, check.name, format!("{}: ", check.name), Kind::Keyword, check.looks_for);
            }
        }
        _ if comment.len() < 6 => typed.offer(comment, "allow ", Kind::Keyword, "keeps a check quiet on the next line"),
        _ => {}
    }
    typed.offers
}

const ALL_UNITS: &[&str] = &[
    "g", "kg", "%", "mg", "oz", "lb", "ml", "cl", "dl", "l", "tsp", "tbsp", "cup", "cups", "fl oz", "pt", "qt", "gal",
    "piece", "pieces", "mm", "cm", "m", "in", "s", "min", "h", "day", "days", "week", "weeks", "C", "F",
];
