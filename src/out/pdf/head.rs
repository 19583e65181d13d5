//! The head of a card: name, batch, choices, what can hurt somebody, notes; and the tab that a part hangs on.

use super::frame::{BLACK, Block, Drawn, Flow, Frame, HAIR, Pen, SOFT, Stretch, WHITE};
use super::paragraph::{self, Setting, Side, Words};
use super::prose::{self, Look};
use super::tags::{Node, Role};
use super::{Press, by_hand, plain};
use crate::figures::card::{Card, ScaledBy};
use crate::language::prose::Prose;
use crate::measure::noun;
use crate::measure::number::Number;
use crate::out::block::{Phrase, Tone};
use crate::out::report::seen;
use crate::out::sheet::by_hand as blanks;
use crate::out::sheet::{from_store, made_for};

/// Name and batch; `sheet` is what this sheet holds when it is not the whole recipe.
pub(super) fn head(press: &mut Press<'_>, card: &Card, sheet: Option<&str>, parent: Node) -> Vec<Flow> {
    let ticket = ticket_words(press, card);
    let mut frame = title(press, &card.title, sheet, &ticket, parent);
    let boxed = boxed_rows(press, "Made for", &made_for(card), None, parent);
    frame.append(boxed, 0.0, press.em * 0.5);
    if !card.from_store.is_empty() {
        let boxed = boxed_rows(press, "From the store", &from_store(card), None, parent);
        frame.append(boxed, 0.0, press.em * 0.5);
    }
    let mut picks: Vec<(String, String)> =
        card.choices.iter().map(|(choice, option)| (plain(choice), plain(option))).collect();
    if !card.kitchen.is_empty() {
        picks.push(("made in".to_owned(), plain(&card.kitchen)));
    }
    if !picks.is_empty() {
        let em = press.em;
        let mut row = pairs(press, &picks, parent);
        row.height += em * 0.4;
        row.fill(0.0, row.height, press.width(), em * 0.06, HAIR);
        frame.append(row, 0.0, em * 0.35);
    }
    let record = by_hand::across(press, &blanks::of_batch(card), parent);
    frame.append(record, 0.0, press.em * 0.5);
    vec![Flow::One(Block::new(frame, 0.0))]
}

/// The title over a thick rule, with a ticket at its right.
pub(super) fn title(press: &mut Press<'_>, title: &str, sheet: Option<&str>, ticket: &[Words], parent: Node) -> Frame {
    let em = press.em;
    let width = press.width();
    let widest = ticket.iter().map(|one| paragraph::width(press.faces, std::slice::from_ref(one))).fold(0.0, f32::max);
    let beside = if ticket.is_empty() { 0.0 } else { widest.min(width * 0.45) };
    let room = width - beside - if ticket.is_empty() { 0.0 } else { em * 1.2 };
    let name = plain(title);
    let mut frame = press.tagged(
        &[Words::new(name.clone(), em * 2.3).bold()],
        Setting::left(room, 1.08),
        parent,
        Role::Heading(1, name),
    );
    if let Some(sheet) = sheet {
        let words = [Words::new(plain(sheet), em * 1.25).bold()];
        let line = press.paragraph(&words, Setting::left(room, 1.2), parent);
        frame.append(line, 0.0, em * 0.2);
    }
    let mut side = Frame::default();
    for one in ticket {
        let setting = Setting { width: beside, leading: 1.15, side: Side::Right };
        let line = press.paragraph(std::slice::from_ref(one), setting, parent);
        side.append(line, 0.0, 0.0);
    }
    frame.height = frame.height.max(side.height);
    frame.place(side, width - beside, 0.0);
    frame.height += em * 0.4;
    frame.fill(0.0, frame.height, width, em * 0.4, BLACK);
    frame.height += em * 0.4;
    frame
}

fn ticket_words(press: &Press<'_>, card: &Card) -> Vec<Words> {
    let em = press.em;
    let mut words = Vec::new();
    words.extend(card.makes.as_ref().map(|makes| Words::new(seen(&makes.shown), em * 1.9).bold()));
    if card.factor != Number::ONE {
        let times = format!("{} × the recipe", crate::measure::show::number(card.factor));
        words.push(Words::new(times, em * 1.1).bold());
    }
    if !words.is_empty() {
        words.extend(card.ready_shown.as_ref().map(|ready| Words::new(format!("ready {ready}"), em).bold()));
        words.extend(card.limit.as_ref().map(|limit| Words::new(plain(&noun::as_far_as(limit)), em)));
        words.extend(card.scaled_by.as_ref().and_then(ScaledBy::words).map(|by| Words::new(plain(&by), em)));
    }
    words
}

/// A box with a label at the left and a list at the right; empty without rows.
pub(super) fn boxed_rows(
    press: &mut Press<'_>,
    label: &str,
    rows: &[Vec<Phrase>],
    heading: Option<u16>,
    parent: Node,
) -> Frame {
    if rows.is_empty() {
        return Frame::default();
    }
    let (em, width) = (press.em, press.width());
    let role = heading.map_or(Role::Paragraph, |level| Role::Heading(level, label.to_owned()));
    let (inset, side) = (em * 0.8, em * 7.2);
    let name = press.tagged(&[Words::new(label, em).bold()], Setting::left(side, 1.5), parent, role);
    let list = press.tags.add(Some(parent), Role::List(false));
    let mut inner = Frame::default();
    for runs in rows {
        let item = press.tags.add(Some(list), Role::ListItem);
        let body = press.tags.add(Some(item), Role::ListBody);
        let words: Vec<Words> = runs.iter().map(|run| in_tone(run, em * 1.12)).collect();
        let row = press.paragraph(&words, Setting::left(width - side - inset * 3.0, 1.35), body);
        inner.append(row, 0.0, if inner.height > 0.0 { em * 0.1 } else { 0.0 });
    }
    let mut frame = Frame::of_height(inner.height.max(name.height) + em * 0.7);
    frame.outline(0.0, 0.0, width, frame.height, em * 0.12);
    let middle = em * 0.35 + em * 0.75;
    let point = paragraph::width(press.faces, &[Words::new(label, em).bold()]) + inset + em * 0.35;
    frame.draw(Drawn::Path(
        vec![
            Stretch::Move(point, middle - em * 0.28),
            Stretch::Line(point + em * 0.5, middle),
            Stretch::Line(point, middle + em * 0.28),
            Stretch::Close,
        ],
        Some(BLACK),
        None,
    ));
    frame.place(name, inset, em * 0.35);
    frame.place(inner, side + inset * 2.0, em * 0.35);
    frame
}

fn in_tone(run: &Phrase, size: f32) -> Words {
    let words = Words::new(run.text.clone(), size);
    match run.tone {
        Tone::Plain | Tone::Quiet | Tone::Typed => words,
        Tone::Strong => words.bold(),
        Tone::Amount => words.bold().unbroken(),
    }
}

/// Terms with their words, as many on a line as fit.
fn pairs(press: &mut Press<'_>, all: &[(String, String)], parent: Node) -> Frame {
    let em = press.em;
    let mut words = Vec::new();
    for (at, (term, said)) in all.iter().enumerate() {
        if at > 0 {
            words.push(Words::new("\u{A0}\u{A0}\u{A0} ", em));
        }
        words.push(Words::new(format!("{term} "), em).ink(SOFT).unbroken());
        words.push(Words::new(said.clone(), em).bold());
    }
    press.paragraph(&words, Setting::left(press.width(), 1.4), parent)
}

/// The box with allergens and cautions. That nothing is known is also said.
pub(super) fn care(press: &mut Press<'_>, card: &Card, cautions: &[Prose], parent: Node) -> Vec<Flow> {
    let em = press.em;
    let mut lines: Vec<Vec<Words>> = Vec::new();
    if !card.allergens.is_empty() {
        let size = em * 1.25;
        lines.push(vec![Words::new("Contains ", size), Words::new(plain(&card.allergens.join(", ")), size).bold()]);
    }
    if !card.allergens_unknown.is_empty() {
        let text = format!("Allergens not known of: {}. Read their labels.", plain(&card.allergens_unknown.join(", ")));
        lines.push(vec![Words::new(text, em * 0.9).ink(SOFT)]);
    }
    care_box(press, &lines, cautions, parent)
}

/// The cautions of a part: the thick side of the box alone.
pub(super) fn part_care(press: &mut Press<'_>, cautions: &[Prose], parent: Node) -> Vec<Flow> {
    if cautions.is_empty() {
        return Vec::new();
    }
    let (em, inner) = (press.em, warnings(press, &[], cautions, parent));
    let mut frame = Frame::of_height(inner.height + em * 0.2);
    frame.fill(0.0, 0.0, THICK * em, frame.height, BLACK);
    frame.place(inner, (THICK + INSET) * em, em * 0.1);
    vec![Flow::One(Block::new(frame, em * 0.6))]
}

/// How thick the side of the box is, and how far from it the words stand, in parts of the card's measure.
const THICK: f32 = 0.9;
const INSET: f32 = 0.85;

/// The box, its left side thick.
pub(super) fn care_box(press: &mut Press<'_>, lines: &[Vec<Words>], cautions: &[Prose], parent: Node) -> Vec<Flow> {
    if lines.is_empty() && cautions.is_empty() {
        return Vec::new();
    }
    let (em, width) = (press.em, press.width());
    let inner = warnings(press, lines, cautions, parent);
    let mut frame = Frame::of_height(inner.height + em * 0.7);
    frame.outline(0.0, 0.0, width, frame.height, em * 0.18);
    frame.fill(0.0, 0.0, THICK * em, frame.height, BLACK);
    frame.place(inner, (THICK + INSET) * em, em * 0.35);
    vec![Flow::One(Block::new(frame, em * 0.7))]
}

/// Lines, and below them a line for each caution.
fn warnings(press: &mut Press<'_>, lines: &[Vec<Words>], cautions: &[Prose], parent: Node) -> Frame {
    let em = press.em;
    let group = press.tags.add(Some(parent), Role::Group);
    let room = press.width() - (THICK + INSET * 2.0) * em;
    let mut inner = Frame::default();
    for words in lines {
        let line = press.paragraph(words, Setting::left(room, 1.3), group);
        inner.append(line, 0.0, 0.0);
    }
    for caution in cautions {
        let gap = if inner.height > 0.0 { em * 0.2 } else { 0.0 };
        let top = inner.height + gap;
        triangle(&mut inner, em, top + em * 0.12);
        // The triangle stands in the room before the first word.
        let lead = [Words::new("\u{A0}\u{A0}\u{A0}\u{A0}\u{A0}\u{A0}", em)];
        let look = Look { size: em, width: room, bold: false };
        let set = prose::set(press, caution, &lead, look, group);
        inner.append(set, 0.0, gap);
    }
    inner
}

fn triangle(frame: &mut Frame, em: f32, top: f32) {
    let (wide, high) = (em * 1.2, em * 1.05);
    let pen = Pen { ink: BLACK, width: em * 0.12, dash: None };
    frame.draw(Drawn::Path(
        vec![
            Stretch::Move(wide / 2.0, top + em * 0.08),
            Stretch::Line(wide - em * 0.06, top + high - em * 0.06),
            Stretch::Line(em * 0.06, top + high - em * 0.06),
            Stretch::Close,
        ],
        None,
        Some(pen),
    ));
    frame.fill(wide / 2.0 - em * 0.06, top + em * 0.38, em * 0.12, em * 0.32, BLACK);
    frame.fill(wide / 2.0 - em * 0.06, top + em * 0.78, em * 0.12, em * 0.11, BLACK);
}

/// Notes.
pub(super) fn notes(press: &mut Press<'_>, notes: &[Prose], parent: Node) -> Vec<Flow> {
    texts(press, notes, 1.05, 0.6, parent)
}

/// Where the cautions were published.
pub(super) fn sources(press: &mut Press<'_>, card: &Card, parent: Node) -> Vec<Flow> {
    if card.caution_sources.is_empty() {
        return Vec::new();
    }
    let words = [Words::new(plain(&card.caution_sources), press.em * 0.9).ink(SOFT)];
    let frame = press.paragraph(&words, Setting::left(press.width(), 1.25), parent);
    vec![Flow::One(Block::new(frame, press.em * 0.8))]
}

/// Whom to thank.
pub(super) fn credits(press: &mut Press<'_>, credits: &[Prose], parent: Node) -> Vec<Flow> {
    texts(press, credits, 0.9, 1.0, parent)
}

fn texts(press: &mut Press<'_>, all: &[Prose], size: f32, above: f32, parent: Node) -> Vec<Flow> {
    let em = press.em;
    let mut flows = Vec::new();
    for (at, one) in all.iter().enumerate() {
        let look = Look { size: em * size, width: press.width(), bold: false };
        let frame = prose::set(press, one, &[], look, parent);
        if frame.height > 0.0 {
            flows.push(Flow::One(Block::new(frame, if at == 0 { em * above } else { em * 0.3 })));
        }
    }
    flows
}

/// A name on a tab that hangs on a rule, and what 100 % is beside it.
pub(super) fn tab(press: &mut Press<'_>, name: &str, beside: &str, strong: bool, parent: Node) -> Flow {
    let (em, width) = (press.em, press.width());
    let size = em * 1.35;
    let (quiet, ink) = if strong { (em * 1.3, BLACK) } else { (em * 0.95, SOFT) };
    let mut right = Words::new(beside, quiet).ink(ink);
    right.bold = strong;
    let wanted = paragraph::width(press.faces, std::slice::from_ref(&right));
    let name_words = [Words::new(name, size).bold().ink(WHITE)];
    let name_wide = paragraph::width(press.faces, &name_words);
    let right_room = wanted.min((width - name_wide - em * 3.0).max(width * 0.35));
    let left_room = (width - right_room - em * 3.0).max(width * 0.3);
    let label = press.tagged(&name_words, Setting::left(left_room, 1.15), parent, Role::Heading(2, name.to_owned()));
    let setting = Setting { width: right_room, leading: 1.25, side: Side::Right };
    let side = if beside.is_empty() { Frame::default() } else { press.paragraph(&[right], setting, parent) };
    let high = (label.height + em * 0.6).max(side.height + em * 0.2);
    let mut frame = Frame::of_height(high + em * 0.18);
    let label_high = label.height + em * 0.6;
    let label_wide = name_wide.min(left_room) + em * 1.75;
    frame.fill(0.0, high - label_high, label_wide, label_high, BLACK);
    frame.fill(0.0, high, width, em * 0.18, BLACK);
    frame.place(label, em * 0.75, high - label_high + em * 0.28);
    let top = high - side.height - em * 0.2;
    frame.place(side, width - right_room, top);
    Flow::One(Block::new(frame, em * 1.1).kept())
}
