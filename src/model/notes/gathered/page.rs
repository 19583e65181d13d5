//! What a published recipe tells beside its formula: its story, who wrote it, headings over what is done.

use super::Gathered;
use crate::model::notes::entry::Item;
use crate::model::notes::part::Part;
use crate::model::notes::{method, words};

impl Gathered {
    /// What it is made from, other than notes.
    pub(in crate::model::notes) fn made_from(&mut self, what: &str) {
        self.from = Some(what.to_owned());
    }

    /// A remark that stands below everything.
    pub(in crate::model::notes) fn last_remark(&mut self, text: &str, why: Option<&str>) {
        self.below.push(Item::remark(text, why));
    }

    /// What is told to readers first, paragraph by paragraph.
    pub(in crate::model::notes) fn story(&mut self, paragraphs: &[String]) {
        let mut lines: Vec<String> = Vec::new();
        for paragraph in paragraphs {
            if !lines.is_empty() {
                lines.push(String::new());
            }
            lines.extend(method::prose(paragraph).into_iter().map(|line| format!("    {line}")));
        }
        if let Some(first) = lines.first_mut() {
            *first = format!("story {}", first.trim_start());
        }
        self.told.push(Item { lines, ..Item::new("", &paragraphs.join(" "), None) });
    }

    /// Who wrote it.
    pub(in crate::model::notes) fn by(&mut self, name: &str) {
        let plain = words::name(name);
        let look = (plain != name).then(|| "of this the name is made".to_owned());
        self.told.push(Item::new(format!("by {plain}"), name, look));
    }

    /// Where it is looked for.
    pub(in crate::model::notes) fn filed_under(&mut self, names: &[String]) {
        let names = names.join(", ");
        self.told.push(Item::new(format!("filed under {names}"), &names, None));
    }

    /// A heading over what is told next: of the part that it names, else of all.
    pub(in crate::model::notes) fn section(&mut self, heading: &str) {
        let lower = heading.to_lowercase();
        let names = |part: &Part| {
            let name = part.name.as_ref().map(|name| name.to_lowercase())?;
            (lower.contains(&name) || name.contains(&lower)).then_some(name.len())
        };
        let best = self.parts.iter().enumerate().filter_map(|(at, part)| Some((names(part)?, at))).max();
        match best {
            Some((_, at)) if !lower.is_empty() => {
                self.at = at;
                self.of_all = false;
            }
            _ => self.method_of_all(),
        }
        self.below.extend(
            self.heading
                .replace(heading.to_owned())
                .map(|unused| Item::remark(&unused, Some("a heading over nothing"))),
        );
    }
}
