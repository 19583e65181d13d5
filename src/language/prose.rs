//! Prose: CommonMark with amounts set into it, made safe once for every output.

use crate::measure::shown::Shown;
use crate::text::hidden::replaced;
use pulldown_cmark::{CowStr, Event, Options, Parser, Tag, TagEnd};

/// Something that the program sets into prose.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Insert {
    /// An amount of an ingredient: what stands before it, the amount, and the name.
    Amount {
        /// `the remaining`, or nothing.
        before: &'static str,
        /// `160 g`; nothing when there is no figure.
        amount: Shown,
        /// `of the`, or nothing.
        of: &'static str,
        /// `whole milk`
        ingredient: String,
    },
    /// An amount for each piece: `filling (35 g each)`.
    Each {
        /// `35 g`
        amount: Shown,
        /// `filling`
        ingredient: String,
    },
    /// A fixed measure.
    Measure(Shown),
}

impl Insert {
    /// The same without characters that cannot be seen, whatever the author wrote between the braces.
    fn clean(self) -> Insert {
        let seen = |text: String| seen(&text).replace('\n', " ");
        match self {
            Insert::Amount { before, amount, of, ingredient } => {
                Insert::Amount { before, amount, of, ingredient: seen(ingredient) }
            }
            Insert::Each { amount, ingredient } => Insert::Each { amount, ingredient: seen(ingredient) },
            Insert::Measure(shown) => Insert::Measure(shown),
        }
    }

    /// As plain words.
    pub fn plain(&self) -> String {
        match self {
            Insert::Measure(shown) => shown.to_string(),
            Insert::Each { amount, ingredient } => format!("{ingredient} ({amount} each)"),
            Insert::Amount { before, amount, of, ingredient } => {
                let amount = amount.to_string();
                let words = [before, amount.as_str(), of, ingredient.as_str()];
                words.into_iter().filter(|word| !word.is_empty()).collect::<Vec<&str>>().join(" ")
            }
        }
    }
}

/// Marks the place of an insert in the CommonMark text: characters of the private use area, which are taken out of what
/// the author wrote.
const OPEN: char = '\u{E000}';
const CLOSE: char = '\u{E001}';

/// Lists, their items and quotations in each other, no deeper than so: what is deeper belongs to the innermost of these. Nobody reads eight
/// lists in each other, and some outputs take memory for each level.
const DEEPEST: usize = 16;

/// Whether something holds paragraphs and others of its kind.
fn is_container(tag: &TagEnd) -> bool {
    matches!(tag, TagEnd::List(_) | TagEnd::Item | TagEnd::BlockQuote(_))
}

/// A piece of prose ready for any output.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Prose {
    markdown: String,
    inserts: Vec<Insert>,
}

/// A text that CommonMark has read, where `&#27;` may have become a character that cannot be seen.
fn seen(text: &str) -> String {
    replaced(text, |_| None).into_owned()
}

impl Prose {
    /// Words of the program.
    pub fn of(text: &str) -> Prose {
        let mut prose = Prose::default();
        prose.push_text(text);
        prose
    }

    /// Adds words of the author.
    pub fn push_text(&mut self, text: &str) {
        let text = replaced(text, |_| None);
        let kept = text.chars().filter(|c| *c != OPEN && *c != CLOSE);
        self.markdown.extend(kept.map(|c| if c == '\t' { ' ' } else { c }));
    }

    /// Sets something in.
    pub fn push_insert(&mut self, insert: Insert) {
        self.markdown.push(OPEN);
        self.markdown.push_str(&self.inserts.len().to_string());
        self.markdown.push(CLOSE);
        self.inserts.push(insert.clean());
    }

    /// The same with other words set in, in their places.
    pub fn with_inserts(&self, change: impl Fn(&Insert) -> Insert) -> Prose {
        let inserts = self.inserts.iter().map(|insert| change(insert).clean()).collect();
        Prose { markdown: self.markdown.clone(), inserts }
    }

    /// What is set in, in the order of the words.
    pub fn inserts(&self) -> impl Iterator<Item = &Insert> {
        self.inserts.iter()
    }

    /// Whether nothing is said.
    pub fn is_empty(&self) -> bool {
        self.markdown.trim().is_empty()
    }

    /// Whether the next word begins a sentence.
    pub fn at_sentence_start(&self) -> bool {
        self.markdown.trim_end().chars().next_back().is_none_or(|last| matches!(last, '.' | '!' | '?' | ':'))
    }

    /// The CommonMark events, safe: raw HTML as text, links only to http, https and mailto, pictures as their words.
    ///
    /// `set` says what an insert becomes.
    pub fn events<'p>(&'p self, mut set: impl FnMut(&'p Insert) -> Vec<Event<'p>>) -> Vec<Event<'p>> {
        let mut out = Vec::new();
        let mut links: Vec<bool> = Vec::new();
        let mut depth = 0_usize;
        for event in Parser::new_ext(self.markdown.trim(), Options::empty()) {
            match event {
                Event::Text(text) => self.push_split(&text, &mut out, &mut set, |text| Event::Text(text.into())),
                Event::Code(text) => self.push_split(&text, &mut out, &mut set, |text| Event::Code(text.into())),
                Event::Html(html) | Event::InlineHtml(html) => {
                    self.push_split(html.trim_end_matches('\n'), &mut out, &mut set, |text| Event::Text(text.into()));
                }
                // A block of raw HTML becomes a paragraph of its text.
                Event::Start(Tag::HtmlBlock) => out.push(Event::Start(Tag::Paragraph)),
                Event::End(TagEnd::HtmlBlock) => out.push(Event::End(TagEnd::Paragraph)),
                Event::Start(Tag::Link { link_type, dest_url, title, id }) => {
                    let safe = is_safe_link(&dest_url);
                    links.push(safe);
                    if safe {
                        let dest_url = CowStr::from(seen(&self.without_marks(&dest_url)));
                        let title = CowStr::from(seen(&title));
                        out.push(Event::Start(Tag::Link { link_type, dest_url, title, id }));
                    }
                }
                Event::End(TagEnd::Link) => {
                    if links.pop() == Some(true) {
                        out.push(Event::End(TagEnd::Link));
                    }
                }
                Event::Start(Tag::Image { .. }) | Event::End(TagEnd::Image) => {}
                Event::Start(tag) if is_container(&tag.to_end()) => {
                    // What stands deeper is told all the same, each on its line.
                    out.push(if depth < DEEPEST { Event::Start(tag) } else { Event::HardBreak });
                    depth += 1;
                }
                Event::End(tag) if is_container(&tag) => {
                    depth = depth.saturating_sub(1);
                    if depth < DEEPEST {
                        out.push(Event::End(tag));
                    }
                }
                other => out.push(other),
            }
        }
        out
    }

    /// Cuts a text at its marks and puts what they stand for between.
    fn push_split<'p>(
        &'p self,
        text: &str,
        out: &mut Vec<Event<'p>>,
        set: &mut impl FnMut(&'p Insert) -> Vec<Event<'p>>,
        wrap: impl Fn(String) -> Event<'p>,
    ) {
        let mut rest = text;
        while let Some((before, after)) = rest.split_once(OPEN) {
            if !before.is_empty() {
                out.push(wrap(seen(before)));
            }
            let (number, after) = after.split_once(CLOSE).unwrap_or((after, ""));
            if let Some(insert) = number.parse::<usize>().ok().and_then(|number| self.inserts.get(number)) {
                out.extend(set(insert));
            }
            rest = after;
        }
        if !rest.is_empty() {
            out.push(wrap(seen(rest)));
        }
    }

    fn without_marks(&self, text: &str) -> String {
        let mut out = String::new();
        let mut rest = text;
        while let Some((before, after)) = rest.split_once(OPEN) {
            out.push_str(before);
            let (number, after) = after.split_once(CLOSE).unwrap_or((after, ""));
            let insert = number.parse::<usize>().ok().and_then(|number| self.inserts.get(number));
            out.push_str(&insert.map(Insert::plain).unwrap_or_default());
            rest = after;
        }
        out.push_str(rest);
        out
    }

    /// Plain words, one paragraph a line.
    pub fn plain(&self) -> String {
        let mut text = String::new();
        for event in self.events(|insert| vec![Event::Text(insert.plain().into())]) {
            match event {
                Event::Text(words) | Event::Code(words) => text.push_str(&words),
                Event::SoftBreak => text.push(' '),
                Event::Start(Tag::Item) => {
                    if !text.is_empty() && !text.ends_with('\n') {
                        text.push('\n');
                    }
                    text.push_str("- ");
                }
                Event::HardBreak | Event::Rule => text.push('\n'),
                Event::End(TagEnd::Paragraph | TagEnd::Item | TagEnd::Heading(_) | TagEnd::CodeBlock)
                    if !text.ends_with('\n') =>
                {
                    text.push('\n');
                }
                _ => {}
            }
        }
        text.trim_end().to_owned()
    }
}

fn is_safe_link(destination: &str) -> bool {
    let scheme = destination.split(':').next().unwrap_or("").to_ascii_lowercase();
    destination.contains(':') && matches!(scheme.as_str(), "http" | "https" | "mailto")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plain(text: &str) -> String {
        let mut prose = Prose::default();
        prose.push_text(text);
        prose.plain()
    }

    #[test]
    fn raw_html_is_text_and_odd_links_are_only_words() {
        assert_eq!(plain("a <b>bold</b> word"), "a <b>bold</b> word");
        assert_eq!(plain("<script>alert(1)</script>"), "<script>alert(1)</script>");
        assert_eq!(plain("[press](javascript:alert(1))"), "press");
        assert_eq!(plain("\\{plain\\}"), "{plain}");
    }
}
