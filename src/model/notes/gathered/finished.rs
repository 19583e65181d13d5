//! All that was gathered, written as a file.

use super::Gathered;
use crate::language::syntax::Content;
use crate::language::tidy::tidy;
use crate::model::notes::entry::{Item, LOOK, in_braces, is_read_as, readable};
use crate::model::notes::part::mark_bare_numbers;
use crate::model::notes::separators::as_written;
use crate::model::notes::share;
use crate::model::notes::together::write_parts;
use crate::model::notes::{Draft, words};
use crate::text::hidden::replaced;

impl Gathered {
    /// The file.
    pub(in crate::model::notes) fn finish(mut self, otherwise: &str) -> Draft {
        let title = match self.title.take().map(words::title) {
            // What cannot be the name is still to be seen.
            Some(title) if !is_name(&title) => {
                let why = "this cannot be the name".to_owned();
                let title = replaced(&title, |_| Some('\u{FFFD}')).into_owned();
                self.title_look.get_or_insert(Item { taken: false, ..Item::new("", &title, Some(why)) });
                None
            }
            title => title,
        };
        let from = self.from.as_deref().unwrap_or("notes");
        let mut items: Vec<Item> = vec![Item::new(
            format!("# Made from {from}. Look at each line marked `look`, then take the mark away."),
            "",
            None,
        )];
        let name = title.clone().unwrap_or_else(|| {
            Some(words::name(otherwise)).filter(|name| is_name(name)).unwrap_or_else(|| "From notes".to_owned())
        });
        let whose = if self.from.is_some() { "the data gives" } else { "the notes give" };
        let look = title.is_none().then(|| format!("{whose} no name"));
        items.push(Item::new(format!("recipe {name}"), "give it one", look));
        items.extend(self.title_look.take());
        items.extend(self.makes.take());
        let not_said = if self.from.is_some() { "the data does not say" } else { "the notes do not say" };
        if let Some((measures, line, why)) = self.whose.said(not_said) {
            items.push(Item::new(measures, &line, Some(why)));
        }
        // What cannot be divided is remarked in the head.
        self.chain_stages();
        self.divide_as_titled();
        items.append(&mut self.told);
        items.append(&mut self.head);
        mark_bare_numbers(&mut self.parts);
        share::settle(&mut self.parts);
        write_parts(&mut self.parts, &mut items, &name, whose);
        items.append(&mut self.together.ingredients);
        items.append(&mut self.together.told);
        items.extend(self.heading.take().map(|unused| Item::remark(&unused, Some("a heading over nothing"))));
        if !self.below.is_empty() {
            items.push(Item::new("", "", None));
            items.append(&mut self.below);
        }
        let text = readable(&mut items);
        let text = in_braces(&tidy(&text, None).unwrap_or(text));
        let (text, name) = (as_written(&text).into_owned(), as_written(&name).into_owned());
        let review = (1..).zip(text.lines()).filter_map(|(line, said)| {
            let at = said.find(LOOK)?;
            Some((line, said.get(at + LOOK.len()..)?.trim().to_owned()))
        });
        Draft { review: review.collect(), name, text }
    }
}

/// Whether the language takes it as a recipe's name.
fn is_name(name: &str) -> bool {
    is_read_as(&format!("recipe {name}"), |content| matches!(content, Content::Recipe(_)))
}
