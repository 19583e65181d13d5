//! What is listed: into which part an ingredient goes, and under which name.

use super::Gathered;
use crate::language::syntax::Key;
use crate::model::notes::each::FOR_EACH_ONE;
use crate::model::notes::entry::Item;
use crate::model::notes::item::{NO_AMOUNT, Read};
use crate::model::notes::method;
use crate::model::notes::part::Part;
use crate::model::notes::together::is_called;

impl Gathered {
    /// The ingredients of a line.
    pub(in crate::model::notes) fn ingredients(&mut self, all: Vec<Read>, line: &str) {
        for mut read in all {
            // `475 g bread flour, TZ`: what is a part above is none of the flour's words.
            let is_part = |words: &String| {
                self.parts.iter().any(|part| {
                    !part.ingredients.is_empty()
                        && part.name.as_deref().is_some_and(|own| Key::new(own) == Key::new(words))
                })
            };
            let (parts, clauses): (Vec<String>, Vec<String>) =
                std::mem::take(&mut read.clauses).into_iter().partition(is_part);
            read.clauses = clauses;
            self.ingredient(read, line);
            for name in parts {
                self.ingredient(Read { name, amount: "all".to_owned(), ..Read::default() }, line);
            }
        }
    }

    /// Whether nothing that goes in was listed anywhere.
    pub(in crate::model::notes) fn lists_nothing(&self) -> bool {
        self.together.names.is_empty() && self.parts.iter().all(|part| part.names.is_empty())
    }

    /// Whether flour is listed.
    pub(in crate::model::notes) fn has_flour(&self) -> bool {
        self.parts.iter().any(Part::has_flour)
    }

    /// Whether a part of this name was headed.
    pub(in crate::model::notes) fn has_part(&self, name: &str) -> bool {
        self.parts.iter().any(|part| part.name.as_deref().is_some_and(|own| is_called(own, name)))
    }

    /// Whether something goes into a part of this name that stands above the one that is read.
    pub(in crate::model::notes) fn has_part_above(&self, name: &str) -> bool {
        let others = self.parts.iter().enumerate().filter(|(at, part)| *at != self.at && !part.ingredients.is_empty());
        others.filter_map(|(_, part)| part.name.as_deref()).any(|own| is_called(own, name))
    }

    /// A list begins below a blank line: behind what was told of a preferment it is another part's, whose name is not said.
    pub(in crate::model::notes) fn list_begins(&mut self) {
        let is_done = |part: &Part| part.goes_into_a_dough() && !part.told.is_empty() && !part.ingredients.is_empty();
        if self.parts.get(self.at).is_some_and(is_done) {
            self.parts.push(Part::default());
            self.at = self.parts.len() - 1;
        }
    }

    pub(in crate::model::notes) fn ingredient(&mut self, mut read: Read, line: &str) {
        // `all the levain`, and `levain` without an amount, is the part of that name.
        if read.amount == "all" || read.look.iter().any(|why| why == NO_AMOUNT) {
            let names =
                self.parts.iter().filter(|part| !part.ingredients.is_empty()).filter_map(|part| part.name.as_deref());
            match names.into_iter().find(|part| is_called(part, &read.name)) {
                Some(part) => {
                    part.clone_into(&mut read.name);
                    read.amount = "all".to_owned();
                    read.look.retain(|why| why != NO_AMOUNT);
                    let some = if read.stays_out { "some of it stays out, but this takes all of " } else { "" };
                    read.look.push(format!("{some}the part above"));
                }
                None if read.amount == "all" => {
                    read.amount = "as needed".to_owned();
                    read.look.push("all of what?".to_owned());
                }
                None => {}
            }
        }
        if read.is_done_with_each() {
            self.keep(line, FOR_EACH_ONE);
            return;
        }
        self.whose.see(&read, line);
        read.for_all(self.pieces);
        read.drop_each();
        let part = self.here();
        if !part.keys.insert(Key::new(&read.name)) {
            let why = format!("{} is listed already: add this to it, or give it a name of its own", read.name);
            let mut own = method::AGAIN.iter().map(|word| format!("{word} {}", read.name));
            let Some(own) = own.find(|name| part.keys.insert(Key::new(name))) else {
                part.ingredients.push(Item { taken: false, ..Item::new("", line, Some(why)) });
                return;
            };
            read.look.push(why);
            read.name = own;
        }
        let mut said = format!("{} .. {}", read.name, read.amount);
        for clause in &read.clauses {
            said.push_str(", ");
            said.push_str(clause);
        }
        let look = (!read.look.is_empty()).then(|| read.look.join("; "));
        part.ingredients.push(Item::new(said, line, look));
        part.weigh(&read.amount);
        part.untaken.push(read.name.clone());
        part.names.push(read.name);
        part.amounts.push(read.amount);
    }
}
