//! Data that a page says in the attributes of its elements, as microdata (`itemprop`) or as RDFa (`property`), made the same values as those of a
//! script: so they are read in one way.

use super::DEEPEST;
use super::graph::Object;
use super::page::{CELLS, LINES, is_one_of, tokens};
use html5gum::{StartTag, Token};
use serde_json::{Map, Value};

/// Elements that hold nothing and have no end.
const EMPTY: &[&str] =
    &["area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "param", "source", "track", "wbr"];
/// Elements whose words nobody reads.
const UNREAD: &[&str] = &["script", "style", "template", "head", "title"];
/// Elements whose end need not be written: which of those that are open the next one ends, and what it does not look beyond.
const ENDED_BY_THE_NEXT: &[(&[&str], &[&str], &[&str])] = &[
    (&["li"], &["li"], &["ul", "ol", "menu"]),
    (&["dt", "dd"], &["dt", "dd"], &["dl"]),
    (&["td", "th"], &["td", "th"], &["tr", "table"]),
    (&["tr"], &["td", "th", "tr"], &["table"]),
    (&["option"], &["option"], &["select"]),
];
/// What is said by where it leads and not by its words.
const LINKS: &[&str] = &["url", "image", "sameAs", "mainEntityOfPage", "thumbnailUrl", "contentUrl", "video", "logo"];
/// A longer text says more than any property.
const LONGEST: usize = 20_000;
/// So many elements within each other are followed.
const MOST_OPEN: usize = 400;

/// An element that is open.
struct Open {
    name: Vec<u8>,
    /// Which thing it begins, among those that are open.
    begins: bool,
    /// Of which properties it is the value, unless it begins a thing.
    properties: Vec<String>,
    /// What says the value: an attribute, else the words from here on.
    said: Option<String>,
    from: usize,
}

/// A thing with properties that is open.
struct Thing {
    object: Object,
    /// Which property of the thing around it this is.
    property: Vec<String>,
}

/// A page while it is read.
struct Reading {
    /// So many more bytes of values are taken: elements within each other say the same words.
    left: usize,
    open: Vec<Open>,
    things: Vec<Thing>,
    words: String,
    found: Vec<Value>,
    unread: usize,
}

/// The things that the elements of a page describe.
pub(super) fn values(html: &str) -> Vec<Value> {
    let left = html.len().saturating_mul(4);
    let mut reading =
        Reading { left, open: Vec::new(), things: Vec::new(), words: String::new(), found: Vec::new(), unread: 0 };
    for token in tokens(html, true) {
        match token {
            Token::StartTag(tag) => reading.begins(&tag),
            Token::EndTag(tag) => reading.ends(&tag.name),
            // Where a line of the source ends, none of the page does.
            Token::String(text) if reading.unread == 0 => {
                reading.words.push_str(&String::from_utf8_lossy(&text).replace(['\n', '\r', '\t'], " "));
            }
            _ => {}
        }
    }
    while !reading.open.is_empty() {
        reading.close();
    }
    reading.found
}

impl Reading {
    fn begins(&mut self, tag: &StartTag<()>) {
        let name = tag.name.as_slice();
        if is_one_of(name, LINES) {
            self.words.push('\n');
        } else if is_one_of(name, CELLS) {
            self.words.push(' ');
        }
        if let Some((_, ended, within)) = ENDED_BY_THE_NEXT.iter().find(|(begins, ..)| is_one_of(name, begins)) {
            let at = self
                .open
                .iter()
                .rposition(|open| is_one_of(&open.name, ended) || is_one_of(&open.name, within))
                .filter(|at| self.open.get(*at).is_some_and(|open| is_one_of(&open.name, ended)));
            self.close_to(at);
        } else if is_one_of(name, LINES) && name != b"br" && self.open.last().is_some_and(|open| open.name == b"p") {
            self.close();
        }
        // Of elements deeper than that nothing is said.
        if self.open.len() >= MOST_OPEN {
            return;
        }
        let open = self.element(tag);
        self.unread += usize::from(is_one_of(name, UNREAD));
        let is_empty = is_one_of(name, EMPTY) || tag.self_closing && open.said.is_some();
        self.open.push(open);
        if is_empty {
            self.close();
        }
    }

    /// An element, and the thing that it begins.
    fn element(&mut self, tag: &StartTag<()>) -> Open {
        let said =
            |name: &str| tag.attributes.get(name.as_bytes()).map(|value| String::from_utf8_lossy(value).into_owned());
        let words = |names: Option<String>| -> Vec<String> {
            names.map(|names| names.split_whitespace().take(8).map(str::to_owned).collect()).unwrap_or_default()
        };
        let properties = words(said("itemprop").or_else(|| said("property")));
        let kinds = words(said("itemtype").or_else(|| said("typeof")));
        let begins = (!kinds.is_empty() || said("itemscope").is_some()) && self.things.len() < DEEPEST;
        let mut value = None;
        if begins {
            let kinds = kinds.into_iter().map(Value::String).collect();
            let object = Map::from_iter([("@type".to_owned(), Value::Array(kinds))]);
            self.things.push(Thing { object, property: properties.clone() });
        } else if !properties.is_empty() {
            let leads = properties.iter().any(|name| LINKS.contains(&super::graph::bare(name)));
            let link = || said("href").or_else(|| said("src")).filter(|_| leads || is_one_of(&tag.name, EMPTY));
            value = said("content")
                .or_else(|| said("datetime"))
                .or_else(|| said("value").filter(|_| is_one_of(&tag.name, &["data", "meter"])))
                .or_else(link);
        }
        let properties = if begins { Vec::new() } else { properties };
        Open { name: tag.name.to_vec(), begins, properties, said: value, from: self.words.len() }
    }

    fn ends(&mut self, name: &[u8]) {
        if is_one_of(name, LINES) {
            self.words.push('\n');
        }
        self.close_to(self.open.iter().rposition(|open| open.name == name));
    }

    /// Closes all that is open from a place on.
    fn close_to(&mut self, at: Option<usize>) {
        while at.is_some_and(|at| self.open.len() > at) {
            self.close();
        }
    }

    /// Closes what was opened last.
    fn close(&mut self) {
        let Some(open) = self.open.pop() else { return };
        self.unread = self.unread.saturating_sub(usize::from(is_one_of(&open.name, UNREAD)));
        if open.begins {
            let Some(Thing { object, property }) = self.things.pop() else { return };
            match self.things.last_mut().filter(|_| !property.is_empty()) {
                Some(around) => property
                    .first()
                    .into_iter()
                    .for_each(|name| add(&mut around.object, name, Value::Object(object.clone()))),
                None => self.found.push(Value::Object(object)),
            }
            return;
        }
        let Some(thing) = self.things.last_mut().filter(|_| !open.properties.is_empty()) else { return };
        let words = self.words.get(open.from..).filter(|words| words.len() <= LONGEST);
        let said = open.said.as_deref().or(words).filter(|said| said.len() <= self.left);
        // A text that begins and ends with its element has nothing around it.
        let Some(said) = said.map(|said| said.trim().to_owned()).filter(|said| !said.is_empty()) else { return };
        self.left -= said.len();
        open.properties.iter().for_each(|name| add(&mut thing.object, name, Value::String(said.clone())));
    }
}

/// Says one more value of a property.
fn add(object: &mut Object, name: &str, value: Value) {
    match object.get_mut(name) {
        None => {
            object.insert(name.to_owned(), value);
        }
        Some(Value::Array(all)) => all.push(value),
        Some(one) => {
            let first = one.take();
            *one = Value::Array(vec![first, value]);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn properties_are_of_the_thing_around_them() {
        let page = r#"<meta property="og:title" content="x"><div itemscope itemtype="https://schema.org/Recipe"><h1 itemprop=name>Quay
            buns</h1><ul><li itemprop="recipeIngredient">500 g <b>flour</b><li itemprop="recipeIngredient">9 g salt</ul>
            <meta itemprop="totalTime" content="PT1H"><time itemprop=prepTime datetime=PT5M>5 min</time><img itemprop=image src="a.jpg">
            <span itemprop="author" itemscope itemtype="https://schema.org/Person"><a itemprop=name href="/m">Mara</a></span>
            <div itemprop="recipeInstructions"><p>Mix.<p>Bake.</div><script>var x = "<p>";</script></div>"#;
        let wanted = json!([{ "@type": ["https://schema.org/Recipe"], "name": "Quay             buns",
            "recipeIngredient": ["500 g flour", "9 g salt"], "totalTime": "PT1H", "prepTime": "PT5M", "image": "a.jpg",
            "author": {"@type": ["https://schema.org/Person"], "name": "Mara"}, "recipeInstructions": "Mix.\nBake." }]);
        assert_eq!(Value::Array(values(page)), wanted);
    }

    #[test]
    fn another_way_to_write_attributes_says_the_same() {
        let page = r#"<div vocab="https://schema.org/" typeof="Recipe"><span property="name">Rolls</span>
            <div property="recipeInstructions" typeof="HowToStep"><span property="text">Mix 5 min.</span></div></div>"#;
        let wanted = json!([{ "@type": ["Recipe"], "name": "Rolls",
            "recipeInstructions": {"@type": ["HowToStep"], "text": "Mix 5 min."} }]);
        assert_eq!(Value::Array(values(page)), wanted);
    }

    #[test]
    fn hostile_pages_come_to_an_end() {
        let deep = "<div itemscope itemprop=a>".repeat(50_000);
        assert!(values(&deep).len() <= 50_000);
        let long = format!("<div itemscope>{}", "<p itemprop=a>x".repeat(50_000));
        assert_eq!(values(&long).len(), 1);
        assert!(values("</div></p><li></ul><span itemprop=x>y").is_empty());
    }
}
