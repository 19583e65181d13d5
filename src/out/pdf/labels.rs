//! Labels on label paper, set so that a small `x` is as high as the law wants it.

use super::face::Faces;
use super::frame::{BLACK, Frame};
use super::geometry::{Geometry, POINTS};
use super::pages::Page;
use super::paragraph::{self, Setting, Side, Words};
use super::tags::{Node, Role, Tags};
use super::{NoPdf, Pdf, Press, plain, write};
use crate::out::block::Tone;
use crate::out::sticker::facts::{Line, Run};
use crate::out::sticker::{LabelPaper, PADDING, Sticker};
use krilla::outline::Outline;

/// How a label is set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fit {
    /// The size of type, in points.
    pub size: f32,
    /// So many times the least that is lawful.
    pub times: f32,
    /// The size of the net quantity, in points.
    pub net_size: f32,
    /// The table runs on like text.
    pub is_linear: bool,
    /// How large the label is, in square inches.
    pub inches: f64,
}

/// Sizes that are tried, in parts of the smallest that is lawful.
const SIZES: [f32; 5] = [1.5, 1.3, 1.15, 1.05, 1.0];

/// The largest setting in which a label fits.
///
/// # Errors
/// A sentence, when it fits in none.
pub fn fit(sticker: &Sticker, paper: &LabelPaper) -> Result<Fit, String> {
    let faces = Faces::new().ok_or("the type in the program is damaged")?;
    fit_with(&faces, sticker, paper)
}

fn fit_with(faces: &Faces, sticker: &Sticker, paper: &LabelPaper) -> Result<Fit, String> {
    let (wide, high) = paper.label();
    let (width, height) = ((wide - 2.0 * PADDING) as f32 * POINTS, (high - 2.0 * PADDING) as f32 * POINTS);
    let (small, capital) = faces.heights();
    // A hair more than the law wants: printers and rounding take it.
    let least = sticker.x_height as f32 * POINTS * 1.01 / small;
    let net_letter = if sticker.net_by_panel { small } else { capital };
    let net_size = sticker.net_height_on(wide, high) as f32 * POINTS * 1.01 / net_letter;
    let mut needs = f32::INFINITY;
    let mut is_narrow = false;
    let inches = wide * high / (25.4 * 25.4);
    // A table where there is room for it, in whatever size; else the same as running text (Article 34(2)), which in the United States
    // only small packs may have.
    let ways: &[bool] = if sticker.facts.is_some() && !sticker.is_small { &[false] } else { &[false, true] };
    for is_linear in ways.iter().copied() {
        for times in SIZES {
            let size = least * times;
            let net_size = net_on_one_line(faces, &sticker.net, (net_size, size), width);
            let fit = Fit { size, times, net_size, is_linear, inches };
            if !is_linear && breaks_a_word(faces, sticker, times, width) {
                is_narrow = true;
                continue;
            }
            let set = lay(faces, sticker, fit, width, &mut |_, _| None);
            if set.height <= height {
                return Ok(fit);
            }
            needs = needs.min(set.height);
        }
    }
    if is_narrow && needs.is_infinite() {
        return Err(format!(
            "a word or a figure of the nutrition facts of {} is wider than its column at {wide:.1} mm of width, in the smallest type that is lawful; \
             take wider labels",
            sticker.title
        ));
    }
    let needs = f64::from(needs / POINTS) + 2.0 * PADDING;
    let small = match (sticker.is_small, sticker.net_by_panel) {
        (true, _) => "",
        (false, true) => ", or --small-pack where no more than 40 square inches of the pack can bear a label",
        (false, false) => ", or --small-pack where the largest side of the pack is under 80 cm²",
    };
    Err(format!(
        "the label of {} needs {needs:.0} mm of height at {wide:.1} mm of width in the smallest type that is lawful, and a label has \
         {high:.1} mm; take larger labels{small}",
        sticker.title
    ))
}

/// Whether a word or a figure of the nutrition facts is wider than its column, so that it would be broken.
fn breaks_a_word(faces: &Faces, sticker: &Sticker, times: f32, width: f32) -> bool {
    let Some(facts) = &sticker.facts else { return false };
    let inner = width - 2.0 * INSET;
    facts.lines(f64::from(times)).iter().any(|line| {
        line.cells.iter().enumerate().any(|(at, (runs, share))| {
            let indent = if at == 0 { line.indent as f32 } else { 0.0 };
            paragraph::least_width(faces, &words_of(runs)) > inner * *share as f32 - indent
        })
    })
}

/// The size of the net quantity: as large as the type around it where that fits on one line, and never below what the law wants.
fn net_on_one_line(faces: &Faces, net: &str, (lawful, around): (f32, f32), width: f32) -> f32 {
    let of_a_point = paragraph::width(faces, &[Words::new(plain(net), 1.0).bold()]);
    let fits = if of_a_point > 0.0 { width / of_a_point } else { around };
    around.min(fits).max(lawful)
}

/// A net quantity as the pieces between which a line may end: grams, and behind them ounces.
pub fn net_pieces(net: &str) -> Vec<&str> {
    match net.find(" (") {
        Some(at) => [net.get(..at), net.get(at + 1..)].into_iter().flatten().collect(),
        None => vec![net],
    }
}

/// The words of a net quantity: no figure parts from its unit, unless a piece is wider than the label.
fn net_words(faces: &Faces, net: &str, size: f32, width: f32) -> Vec<Words> {
    let pieces: Vec<Words> =
        net_pieces(net).into_iter().map(|piece| Words::new(plain(piece), size).bold().unbroken()).collect();
    if pieces.iter().any(|piece| paragraph::width(faces, std::slice::from_ref(piece)) > width) {
        return vec![Words::new(plain(net), size).bold()];
    }
    let mut words = Vec::new();
    for piece in pieces {
        if !words.is_empty() {
            words.push(Words::new(" ", size).bold());
        }
        words.push(piece);
    }
    words
}

/// Gives a paragraph or a cell its place in the structure.
type Tagger<'a> = dyn FnMut(Role, bool) -> Option<Node> + 'a;

/// Sets a label.
fn lay(faces: &Faces, sticker: &Sticker, fit: Fit, width: f32, tag: &mut Tagger<'_>) -> Frame {
    let size = fit.size;
    let setting = Setting::left(width, 1.16);
    let mut frame = Frame::default();
    let title = [Words::new(plain(&sticker.title), size * 1.3).bold()];
    frame.append(paragraph::set(faces, &title, setting, tag(Role::Paragraph, true)), 0.0, 0.0);
    for one in &sticker.paragraphs {
        let words: Vec<Words> = one
            .iter()
            .map(|phrase| {
                let words = Words::new(phrase.text.clone(), size);
                if matches!(phrase.tone, Tone::Strong | Tone::Amount) { words.bold() } else { words }
            })
            .collect();
        frame.append(paragraph::set(faces, &words, setting, tag(Role::Paragraph, true)), 0.0, size * 0.25);
    }
    let net = net_words(faces, &sticker.net, fit.net_size, width);
    frame.append(paragraph::set(faces, &net, setting, tag(Role::Paragraph, true)), 0.0, size * 0.15);
    match (&sticker.facts, fit.is_linear) {
        (Some(facts), false) => {
            let lines = facts.lines(f64::from(fit.times));
            frame.append(boxed(lines_of(faces, &lines, width, tag), width), 0.0, size * 0.25);
        }
        (Some(facts), true) => {
            let runs = facts.linear(f64::from(fit.times), fit.inches);
            let room = Setting::left(width - 2.0 * INSET, 1.16);
            let mut inner = Frame::default();
            inner.append(paragraph::set(faces, &words_of(&runs), room, tag(Role::Paragraph, true)), INSET, 0.0);
            frame.append(boxed(inner, width), 0.0, size * 0.25);
        }
        (None, true) => {
            let words = [Words::new(plain(&sticker.linear()), size)];
            frame.append(paragraph::set(faces, &words, setting, tag(Role::Paragraph, true)), 0.0, size * 0.25);
        }
        (None, false) => frame.append(table(faces, sticker, size, width, tag), 0.0, size * 0.25),
    }
    frame
}

/// From the box of the nutrition facts to what stands in it, and how strong it is, in points: a hairline, 21 CFR 101.9(d)(1)(i).
const INSET: f32 = 3.0;
const BOX: f32 = 0.5;

/// In a box.
fn boxed(inner: Frame, width: f32) -> Frame {
    let mut all = Frame::default();
    all.append(inner, 0.0, INSET * 0.5);
    all.height += INSET;
    let height = all.height;
    for (x, y, wide, high) in [
        (0.0, 0.0, width, BOX),
        (0.0, height - BOX, width, BOX),
        (0.0, 0.0, BOX, height),
        (width - BOX, 0.0, BOX, height),
    ] {
        all.fill(x, y, wide, high, BLACK);
    }
    all
}

fn words_of(runs: &[Run]) -> Vec<Words> {
    let of = |run: &Run| {
        let words = Words::new(plain(&run.text), run.points as f32);
        if run.is_bold { words.bold() } else { words }
    };
    runs.iter().map(of).collect()
}

/// The lines of the nutrition facts under each other.
fn lines_of(faces: &Faces, lines: &[Line], width: f32, tag: &mut Tagger<'_>) -> Frame {
    let inner = width - 2.0 * INSET;
    let mut all = Frame::default();
    for line in lines {
        let indent = line.indent as f32;
        let mut set = Vec::with_capacity(line.cells.len());
        let mut x = INSET;
        for (at, (runs, share)) in line.cells.iter().enumerate() {
            let room = inner * *share as f32;
            let (side, into) = if at == 0 { (Side::Left, indent) } else { (Side::Right, 0.0) };
            if runs.iter().any(|run| !run.text.is_empty()) {
                let setting = Setting { width: room - into, leading: 1.14, side };
                set.push((x + into, paragraph::set(faces, &words_of(runs), setting, tag(Role::Paragraph, true))));
            }
            x += room;
        }
        let rule = line.rule as f32;
        let mut row = Frame::default();
        let height = set.iter().fold(0.0_f32, |most, (_, one)| most.max(one.height));
        for (x, one) in set {
            // What is smaller stands on the same line below.
            let down = height - one.height;
            row.place(one, x, rule + down);
        }
        row.height = rule + height;
        row.fill(INSET, 0.0, inner, rule, BLACK);
        all.append(row, 0.0, 0.0);
    }
    all
}

fn table(faces: &Faces, sticker: &Sticker, size: f32, width: f32, tag: &mut Tagger<'_>) -> Frame {
    let columns = sticker.head.len().saturating_sub(1).max(1);
    // The names take what the figures leave.
    let figure = (width * 0.58 / columns as f32).min(size * 11.0);
    let names = width - figure * columns as f32;
    let mut all = Frame::default();
    for (at, row) in std::iter::once(&sticker.head).chain(&sticker.rows).enumerate() {
        let mut line = Frame::default();
        let mut x = 0.0;
        for (column, cell) in row.iter().enumerate() {
            let room = if column == 0 { names } else { figure };
            let side = if column == 0 { Side::Left } else { Side::Right };
            let words = Words::new(plain(cell), size);
            let words = if at == 0 { words.bold() } else { words };
            let set = paragraph::set(
                faces,
                &[words],
                Setting { width: room, leading: 1.12, side },
                tag(Role::Paragraph, true),
            );
            line.height = line.height.max(set.height);
            line.place(set, x, 0.0);
            x += room;
        }
        line.fill(0.0, 0.0, width, 0.3, BLACK);
        all.append(line, 0.0, 0.0);
    }
    all
}

/// Labels as PDF.
///
/// # Errors
/// When a label does not fit, or the document cannot be written by the rules of PDF/UA-1.
pub fn render(stickers: &[Sticker], paper: &LabelPaper, title: &str) -> Result<Pdf, NoPdf> {
    let faces = Faces::new().ok_or_else(|| NoPdf("the type in the program is damaged".to_owned()))?;
    let geometry = Geometry::bare(paper.width, paper.height);
    let mut press = Press { faces: &faces, tags: Tags::default(), geometry, em: geometry.em, label_node: None };
    let (wide, _) = paper.label();
    let width = (wide - 2.0 * PADDING) as f32 * POINTS;
    let mut pages: Vec<Vec<(f32, f32, Frame)>> = Vec::new();
    let mut number = 0;
    for sticker in stickers {
        let fit = fit_with(&faces, sticker, paper).map_err(NoPdf)?;
        let left_on_sheet = paper.on_a_sheet() - number % paper.on_a_sheet();
        for _ in 0..sticker.copies.unwrap_or(left_on_sheet) {
            let section = press.tags.add(None, Role::Section);
            let tags = &mut press.tags;
            let frame = lay(&faces, sticker, fit, width, &mut |role, _| Some(tags.add(Some(section), role)));
            if number % paper.on_a_sheet() == 0 {
                pages.push(Vec::new());
            }
            let (left, top) = paper.corner(number);
            let place = |millimetres: f64| (millimetres + PADDING) as f32 * POINTS;
            if let Some(page) = pages.last_mut() {
                page.push((place(left), place(top), frame));
            }
            number += 1;
        }
    }
    let pages: Vec<Page> = pages.into_iter().map(Page::of).collect();
    write(press, &pages, Outline::new(), title, "")
}
