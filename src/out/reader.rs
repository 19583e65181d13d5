//! A recipe for readers, laid out: as blocks for plain text and Markdown, as a page of its own in HTML, as data; on paper by `out/pdf/reader`.
//!
//! A book asks for the same: [`html::article`] is a recipe without the page around it, [`data::recipe`] what search engines read.

pub mod data;
pub mod html;
pub mod json;

use super::block::{Block, Heading, Look, Phrase, Step, Text, Voice};
use super::page::Page;
use super::report::seen;
use crate::figures::reader::{self, Group, OtherWay, ReaderPage, time_words};
use crate::language::prose::Prose;
use crate::measure::show;

/// Recipes for readers as blocks, one after the other.
pub fn page(pages: &[ReaderPage]) -> Page {
    let mut blocks = Vec::new();
    for one in pages {
        if !blocks.is_empty() {
            blocks.extend([Block::Gap, Block::Rule]);
        }
        blocks.extend(whole(one));
    }
    let titles: Vec<&str> = pages.iter().map(|one| one.title.as_str()).collect();
    Page { title: titles.join(", "), below: 0, blocks }
}

fn whole(page: &ReaderPage) -> Vec<Block> {
    let mut blocks = vec![Heading::looking(1, &page.title, Look::Capitals)];
    blocks.extend(page.by.as_ref().map(|by| Text::fact(format!("By {by}"))));
    if !page.story.is_empty() {
        blocks.push(Block::Gap);
        blocks.extend(prose(Voice::Note, &page.story));
    }
    blocks.extend(page.pictures.iter().map(|picture| Text::fact(format!("Picture: {}", picture.words))));
    blocks.push(Block::Gap);
    blocks.push(Block::Text(Text::wrapped(facts(page).join(&Phrase::plain(" · ")), "", "")));
    blocks.extend(page.way.begin.as_ref().map(|begin| Text::fact(format!("Begin at {begin}."))));
    blocks.extend(page.way.night.as_ref().map(|night| Text::fact(format!("In the night: {night}."))));
    if !page.allergens.is_empty() {
        let words = format!("Contains: {}", page.allergens.join(", "));
        blocks.push(Block::Text(Text::wrapped(vec![Phrase::strong(words)], "", "  ")));
    }
    blocks.extend(unknown(&page.allergens_unknown).map(Text::fact));
    blocks.extend(prose(Voice::Caution, &page.cautions));
    blocks.extend([Block::Gap, Heading::looking(2, "Ingredients", Look::Underlined)]);
    for group in &page.way.groups {
        blocks.extend(group_blocks(group));
    }
    for day in &page.way.days {
        blocks.push(Block::Gap);
        blocks.push(Heading::looking(2, day_name(page, day.number), Look::Underlined));
        blocks.push(Block::Steps(steps(&day.steps)));
    }
    for other in &page.others {
        blocks.push(Block::Gap);
        blocks.extend(other_blocks(other));
    }
    let ends = ends(page);
    if !ends.is_empty() {
        blocks.push(Block::Gap);
        blocks.push(Block::Facts(ends));
    }
    blocks.extend(prose(Voice::Note, &page.notes));
    blocks.extend(prose(Voice::Credit, &page.credits));
    blocks
}

/// What stands over the steps of a day.
pub(in crate::out) fn day_name(page: &ReaderPage, number: usize) -> String {
    if page.way.days.len() > 1 { format!("Day {number}") } else { "Method".to_owned() }
}

/// What it makes, and how long it takes.
fn facts(page: &ReaderPage) -> Vec<Vec<Phrase>> {
    let fact = |what: &str, words: &str| vec![Phrase::plain(format!("{what} ")), Phrase::amount(words)];
    let mut facts = Vec::new();
    facts.extend(page.makes.as_ref().map(|makes| fact("Makes", &makes.to_string())));
    if page.way.active_minutes > 0 {
        facts.push(fact("Active", &time_words(page.way.active_minutes)));
    }
    if page.way.total_minutes > 0 {
        facts.push(fact("In all", &time_words(page.way.total_minutes)));
    }
    if !page.way.name.is_empty() {
        facts.push(fact("This way:", &page.way.name));
    }
    facts
}

/// What it makes, how long it takes and when to begin: what it is, and the words.
pub(in crate::out) fn opening_facts(page: &ReaderPage) -> Vec<(&'static str, String)> {
    let way = &page.way;
    let time = |what, minutes| (minutes > 0).then(|| (what, time_words(minutes)));
    let mut all = Vec::new();
    all.extend(page.makes.as_ref().map(|makes| ("Makes", makes.to_string())));
    all.extend(time("Active", way.active_minutes));
    all.extend(time("In all", way.total_minutes));
    all.extend((!way.name.is_empty()).then(|| ("This way", way.name.clone())));
    all.extend(way.begin.as_ref().map(|begin| ("Begin at", begin.clone())));
    all.extend(way.night.as_ref().map(|night| ("In the night", night.clone())));
    all
}

/// Ingredients of which nobody knows the allergens, in a sentence.
pub(in crate::out) fn unknown(names: &[String]) -> Option<String> {
    (!names.is_empty()).then(|| format!("Allergens are not known of: {}.", names.join(", ")))
}

fn prose(voice: Voice, all: &[Prose]) -> Vec<Block> {
    all.iter().map(|one| Block::Prose(voice, one.clone())).collect()
}

fn group_blocks(group: &Group) -> Vec<Block> {
    let mut blocks = Vec::new();
    if group.is_headed {
        blocks.push(Heading::looking(3, &group.part, Look::Plain));
    }
    blocks.push(Block::Bullets(group.rows.iter().map(|row| vec![Phrase::plain(row.words())]).collect()));
    blocks.extend(group.divided_words().map(Text::fact));
    blocks.extend(group.stand_ins.iter().map(|one| Text::fact(one.words())));
    blocks.extend(group.cautions.iter().map(|one| Block::Prose(Voice::Caution, one.clone())));
    blocks.extend(group.notes.iter().map(|one| Block::Prose(Voice::PartNote, one.clone())));
    blocks
}

fn steps(all: &[reader::Step]) -> Vec<Step> {
    (1..)
        .zip(all)
        .map(|(number, step)| Step {
            number,
            kind: step.kind,
            name: step.name.clone(),
            facts: step_facts(step),
            prose: step.prose.clone(),
            cue: step.cue.clone(),
        })
        .collect()
}

/// When, how long, where and for what: `08:20, 10 min, oven at 220 °C`.
pub(in crate::out) fn step_facts(step: &reader::Step) -> String {
    let mut facts: Vec<String> = Vec::new();
    facts.extend(step.part.clone());
    facts.extend(step.begins.as_ref().map(|begins| format!("at {begins}")));
    facts.push(step.time_shown.to_string());
    facts.extend(step.place.clone());
    facts.extend(Some(step.loads_shown.clone()).filter(|loads| !loads.is_empty()));
    facts.extend(step.up_to_shown.as_ref().map(|most| format!("up to {most} if it suits")));
    facts.extend(step.order_shown.iter().cloned());
    facts.join(", ")
}

fn other_blocks(other: &OtherWay) -> Vec<Block> {
    let mut blocks = vec![Heading::looking(2, other_title(other), Look::Underlined)];
    blocks.extend(other_facts(other).map(Text::fact));
    if let Some(words) = also_contains(other) {
        blocks.push(Block::Text(Text::wrapped(vec![Phrase::strong(words)], "", "  ")));
    }
    blocks.extend(unknown(&other.allergens_unknown).map(Text::fact));
    blocks.extend(prose(Voice::Caution, &other.cautions));
    for group in &other.groups {
        blocks.extend(group_blocks(group));
    }
    blocks.extend(left_out(other).map(Text::fact));
    if !other.steps.is_empty() {
        blocks.push(Block::Steps(steps(&other.steps)));
    }
    blocks.extend(prose(Voice::Note, &other.notes));
    blocks
}

/// Allergens that another way brings, in a sentence.
pub(in crate::out) fn also_contains(other: &OtherWay) -> Option<String> {
    (!other.allergens.is_empty()).then(|| format!("This way contains too: {}", other.allergens.join(", ")))
}

pub(in crate::out) fn other_title(other: &OtherWay) -> String {
    format!("Otherwise: {}", other.name)
}

pub(in crate::out) fn other_facts(other: &OtherWay) -> Option<String> {
    let (active, total) = (other.active_minutes, other.total_minutes);
    (total > 0).then(|| {
        format!(
            "Active {}, in all {}.{} Only what differs stands here.",
            time_words(active),
            time_words(total),
            other_hours(other)
        )
    })
}

/// That steps which stand above have other hours by this way, where they have.
fn other_hours(other: &OtherWay) -> String {
    let begin = other.begin.as_ref();
    begin.map_or_else(String::new, |begin| format!(" Begin at {begin}; the hours above are not those of this way."))
}

pub(in crate::out) fn left_out(other: &OtherWay) -> Option<String> {
    let all: Vec<&str> = other.without.iter().chain(&other.without_steps).map(String::as_str).collect();
    (!all.is_empty()).then(|| format!("Left out: {}.", show::list(&all)))
}

/// What stands at the end: tools, keeping, energy, shelf.
fn ends(page: &ReaderPage) -> Vec<Vec<Phrase>> {
    end_facts(page)
        .into_iter()
        .map(|(what, words)| vec![Phrase::strong(format!("{what}: ")), Phrase::plain(words)])
        .collect()
}

pub(in crate::out) fn end_facts(page: &ReaderPage) -> Vec<(&'static str, String)> {
    let mut all = Vec::new();
    if !page.tools.is_empty() {
        all.push(("You need", show::list(&page.tools)));
    }
    let ahead: Vec<String> =
        page.keeps.iter().filter(|one| one.is_taken).map(|one| format!("{} ({})", one.part, one.how)).collect();
    if !ahead.is_empty() {
        all.push(("Can be made ahead", show::list(&ahead)));
    }
    let keeps: Vec<String> =
        page.keeps.iter().filter(|one| !one.is_taken).map(|one| format!("{}: {}", one.part, one.how)).collect();
    if !keeps.is_empty() {
        all.push(("Keeps", keeps.join("; ")));
    }
    if let Some(energy) = &page.energy {
        let each = energy.each.as_ref().map_or_else(String::new, |each| format!("; each {each}"));
        all.push(("Energy", format!("{} in 100 g{each}, worked out and not analysed", energy.per_100_g)));
    }
    if !page.filed_under.is_empty() {
        all.push(("Filed under", page.filed_under.join(", ")));
    }
    all.into_iter().map(|(what, words)| (what, seen(&words))).collect()
}
