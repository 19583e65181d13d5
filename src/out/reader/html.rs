//! A recipe for readers as a page that stands by itself: type, style, pictures and data inside, nothing fetched, no script run.

use super::{
    also_contains, data, day_name, end_facts, left_out, opening_facts, other_facts, other_title, step_facts, unknown,
};
use crate::figures::reader::{Group, OtherWay, ReaderPage, Row, Step};
use crate::language::prose::Prose;
use crate::model::published::Picture;
use crate::out::prose;
use crate::out::report::clean;
use crate::out::shrink::Shrunk;
use crate::out::{lettering, page, typeset};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use maud::{Markup, PreEscaped, html};

const CSS: &str = include_str!("reader.css");

/// Where a page has its pictures from.
pub trait Pictures {
    /// The address of a picture as it stands in the page, and how wide and high it is shown; `None` for one that cannot be shown.
    fn shown(&self, picture: &Picture) -> Option<(String, u32, u32)>;
}

/// Pictures inside the page itself, in the order in which they were read.
pub struct Inside<'a>(pub &'a [(Picture, Shrunk)]);

impl Pictures for Inside<'_> {
    fn shown(&self, picture: &Picture) -> Option<(String, u32, u32)> {
        let (_, file) = self.0.iter().find(|(known, _)| known.span == picture.span)?;
        let address = format!("data:{};base64,{}", file.media_type(), STANDARD.encode(&file.bytes));
        Some((address, file.width, file.height))
    }
}

/// How a page is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Setting {
    /// Smaller type and smaller pictures, so that a recipe stands on one sheet.
    pub compact: bool,
    /// The paper to print on.
    pub paper: crate::out::sheet::Paper,
}

/// Recipes as one page.
pub fn render(pages: &[ReaderPage], pictures: &impl Pictures, setting: Setting) -> String {
    let titles: Vec<&str> = pages.iter().map(|one| one.title.as_str()).collect();
    let title = titles.join(", ");
    let (above, beside, below) = setting.paper.margins();
    let style = format!(
        "{}{CSS}@page{{margin:{above}mm {beside}mm {below}mm;{}}}\n{}",
        lettering::FAMILY,
        lettering::margin_boxes(&crate::out::report::seen(&title), 7.7),
        lettering::faces()
    );
    let head = html! {
        meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:";
        meta name="color-scheme" content="light dark";
        @if let Some(words) = pages.iter().find_map(description) { meta name="description" content=(words); }
    };
    let body = html! {
        main.reader.compact[setting.compact] { @for one in pages { (article(one, pictures)) } }
        // What is typeset is left alone in a script, so that the data stays as it was written.
        @for one in pages { script type="application/ld+json" { (PreEscaped(data::in_script(&data::recipe(one, "")))) } }
    };
    let page = page::frame(&title, &head, &html! { style { (PreEscaped(style)) } }, &body);
    typeset::markup(&page) + "\n"
}

/// The first words of the story.
fn description(page: &ReaderPage) -> Option<String> {
    let words = page.story.first()?.plain();
    Some(clean(words.lines().next()?).into_owned())
}

/// A recipe, without the page around it.
pub fn article(page: &ReaderPage, pictures: &impl Pictures) -> Markup {
    html! {
        article.card.recipe {
            header.opening {
                div.words {
                    h1 { (clean(&page.title)) }
                    @if let Some(by) = &page.by { p.by { "By " (clean(by)) } }
                    @for one in &page.story { div.story { (prose::blocks(one)) } }
                    (facts(page))
                }
                @for one in &page.pictures { (figure(one, pictures)) }
            }
            (care(page))
            div.bench {
                section.list {
                    h2 { "Ingredients" }
                    @for one in &page.way.groups { (group(one, pictures)) }
                }
                section.method {
                    @for day in &page.way.days {
                        h2 { (day_name(page, day.number)) }
                        (steps(&day.steps, pictures))
                    }
                }
            }
            @for other in &page.others { (other_way(other, pictures)) }
            (ends(page))
            @for one in &page.notes { div.note { (prose::blocks(one)) } }
            @for one in &page.credits { div.credit { (prose::blocks(one)) } }
        }
    }
}

fn facts(page: &ReaderPage) -> Markup {
    html! {
        dl.facts { @for (what, words) in opening_facts(page) { div { dt { (what) } dd { (clean(&words)) } } } }
    }
}

/// Allergens, and what can hurt, a line each.
fn care(page: &ReaderPage) -> Markup {
    let unknown = unknown(&page.allergens_unknown);
    html! {
        @if !(page.allergens.is_empty() && unknown.is_none() && page.cautions.is_empty()) {
            div.mind role="note" aria-label="Allergens and cautions" {
                @if !page.allergens.is_empty() { p { strong { "Contains " } (clean(&page.allergens.join(", "))) } }
                @if let Some(words) = &unknown { p { (clean(words)) } }
                @for one in &page.cautions { (prose::blocks(one)) }
            }
        }
    }
}

/// The same of another way: what it brings besides.
fn care_of_other(other: &OtherWay) -> Markup {
    let (contains, unknown) = (also_contains(other), unknown(&other.allergens_unknown));
    html! {
        @if !(contains.is_none() && unknown.is_none() && other.cautions.is_empty()) {
            div.mind role="note" aria-label="Allergens and cautions of this way" {
                @if let Some(words) = &contains { p { strong { (clean(words)) } } }
                @if let Some(words) = &unknown { p { (clean(words)) } }
                @for one in &other.cautions { (prose::blocks(one)) }
            }
        }
    }
}

fn figure(picture: &Picture, pictures: &impl Pictures) -> Markup {
    html! {
        @if let Some((address, width, height)) = pictures.shown(picture) {
            figure.seen { img src=(address) width=(width) height=(height) alt=(clean(&picture.words)); }
        }
    }
}

fn group(group: &Group, pictures: &impl Pictures) -> Markup {
    html! {
        @if group.is_headed { h3 { (clean(&group.part)) } }
        ul { @for row in &group.rows { li { (line(row)) } } }
        @if let Some(divided) = group.divided_words() { p.instead { (clean(&divided)) } }
        @for one in &group.stand_ins { p.instead { (clean(&one.words())) } }
        @for one in &group.cautions { div.mind { (prose::blocks(one)) } }
        @for one in &group.notes { div.note { (prose::blocks(one)) } }
        @for one in &group.pictures { (figure(one, pictures)) }
    }
}

/// The amounts stand out, the author's first.
fn line(row: &Row) -> Markup {
    html! {
        @if let Some(first) = row.first() { b.amount { (first) } }
        (clean(&row.behind(ToString::to_string)))
    }
}

fn steps(all: &[Step], pictures: &impl Pictures) -> Markup {
    html! {
        ol {
            @for step in all {
                li {
                    p.what { strong { (clean(&step.name)) } " " span.facts { (clean(&step_facts(step))) } }
                    (words(&step.prose))
                    @if !step.cue.is_empty() { p.cue { "Until " (clean(&step.cue.plain())) } }
                    @for one in &step.pictures { (figure(one, pictures)) }
                }
            }
        }
    }
}

fn words(prose: &Prose) -> Markup {
    html! { @if !prose.is_empty() { (prose::blocks(prose)) } }
}

fn other_way(other: &OtherWay, pictures: &impl Pictures) -> Markup {
    html! {
        section.other {
            h2 { (clean(&other_title(other))) }
            @if let Some(words) = other_facts(other) { p { (words) } }
            (care_of_other(other))
            div.bench {
                @if !other.groups.is_empty() || !other.without.is_empty() || !other.without_steps.is_empty() {
                    div.list {
                        @for one in &other.groups { (group(one, pictures)) }
                        @if let Some(words) = left_out(other) { p { (clean(&words)) } }
                    }
                }
                @if !other.steps.is_empty() { div.method { (steps(&other.steps, pictures)) } }
            }
            @for one in &other.notes { (words(one)) }
        }
    }
}

fn ends(page: &ReaderPage) -> Markup {
    let all = end_facts(page);
    html! {
        @if !all.is_empty() {
            dl.ends { @for (what, words) in &all { div { dt { (what) } dd { (clean(words)) } } } }
        }
    }
}
