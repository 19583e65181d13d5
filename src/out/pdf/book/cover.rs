//! The cover of a book that is read on a screen: the title page of the booklet as a drawing by itself, its letters as outlines.
//!
//! An SVG (a core media type of EPUB 3.3, 3.2) that needs no type of whoever shows it.

use super::{author, title};
use crate::figures::book::Book;
use crate::out::pdf::face::Faces;
use crate::out::pdf::frame::{Drawn, Frame, Glyphs, Ink};
use crate::out::pdf::pages::MARK;
use crate::out::pdf::paragraph::{self, Setting};
use crate::out::pdf::plain;
use crate::out::report::clean;
use maud::html;
use rustybuzz::ttf_parser::OutlineBuilder;
use std::fmt::Write;

/// How wide and how high it is: five by eight, as covers are shown.
const SIZE: (f32, f32) = (1000.0, 1600.0);

/// The room at each side.
const MARGIN: f32 = 110.0;

/// The size of type from which the others are taken.
const EM: f32 = 32.0;

/// The cover of a book; `None` where the type in the program is damaged.
pub fn cover(book: &Book) -> Option<String> {
    let faces = Faces::new()?;
    let width = SIZE.0 - 2.0 * MARGIN;
    let mut page = Frame::of_height(SIZE.1 * 0.26);
    let words = title(&faces, &plain(&book.title), EM, (width, SIZE.1 * 0.46));
    page.append(paragraph::set(&faces, &[words], Setting::left(width, 1.12), None), 0.0, 0.0);
    let bar = page.height + EM * 1.2;
    page.fill(0.0, bar, EM * 5.0, EM * 0.3, Ink::Mark);
    page.height = bar + EM * 0.3;
    if let Some(by) = &book.by {
        let words = author(&faces, &plain(by), EM, (width, SIZE.1 * 0.12));
        page.append(paragraph::set(&faces, &[words], Setting::left(width, 1.3), None), 0.0, EM * 1.4);
    }
    let mut drawn = String::new();
    for item in &page.items {
        match &item.drawn {
            Drawn::Text(x, baseline, run) => letters(&faces, run, (MARGIN + x, *baseline), &mut drawn),
            Drawn::Rect(x, y, width, height, ink) => {
                let _ = write!(
                    drawn,
                    "<rect x=\"{:.1}\" y=\"{y:.1}\" width=\"{width:.1}\" height=\"{height:.1}\" fill=\"{}\"/>",
                    MARGIN + x,
                    colour(*ink)
                );
            }
            _ => {}
        }
    }
    let called = html! { title { (clean(&book.title)) } }.into_string();
    let (width, height) = SIZE;
    Some(format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\" \
         viewBox=\"0 0 {width} {height}\" role=\"img\">{}<rect width=\"{width}\" height=\"{height}\" fill=\"#fff\"/>{drawn}</svg>\n",
        called
    ))
}

/// As on the pages in light.
fn colour(ink: Ink) -> String {
    let (red, green, blue) = match ink {
        Ink::Shade(shade) => (shade, shade, shade),
        Ink::Mark => MARK,
    };
    format!("#{red:02x}{green:02x}{blue:02x}")
}

/// A run of signs as one path.
fn letters(faces: &Faces, run: &Glyphs, (mut x, baseline): (f32, f32), out: &mut String) {
    let mut path = Path { words: String::new(), from: (0.0, 0.0), scale: 1.0 };
    for glyph in &run.shaped.glyphs {
        path.from = (x + glyph.x_offset * run.size, baseline - glyph.y_offset * run.size);
        path.scale = run.size / faces.units_per_em(run.bold);
        faces.outline(glyph.glyph_id.to_u32(), run.bold, &mut path);
        x += glyph.x_advance * run.size;
    }
    if !path.words.is_empty() {
        let _ = write!(out, "<path fill=\"{}\" d=\"{}\"/>", colour(run.ink), path.words);
    }
}

/// Outlines as a path of SVG: a font counts upwards, a drawing downwards.
struct Path {
    words: String,
    from: (f32, f32),
    scale: f32,
}

impl Path {
    fn put(&mut self, command: char, places: &[(f32, f32)]) {
        self.words.push(command);
        for (at, (x, y)) in places.iter().enumerate() {
            let (x, y) = (self.from.0 + x * self.scale, self.from.1 - y * self.scale);
            let between = if at == 0 { "" } else { " " };
            let _ = write!(self.words, "{between}{x:.1} {y:.1}");
        }
    }
}

impl OutlineBuilder for Path {
    fn move_to(&mut self, x: f32, y: f32) {
        self.put('M', &[(x, y)]);
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.put('L', &[(x, y)]);
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.put('Q', &[(x1, y1), (x, y)]);
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        self.put('C', &[(x1, y1), (x2, y2), (x, y)]);
    }

    fn close(&mut self) {
        self.words.push('Z');
    }
}
