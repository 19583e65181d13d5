//! The type of a card: Atkinson Hyperlegible Next, regular and bold (SIL Open Font License, beside the files).
//!
//! What the type has no sign for is never printed as an empty box: fractions are put together, arrows are written, and
//! anything else stands as its number in Unicode and is reported.

use krilla::text::{Font, GlyphId, KrillaGlyph};
use std::cell::RefCell;
use std::collections::{BTreeSet, HashMap};
use std::rc::Rc;

const REGULAR: &[u8] = include_bytes!("fonts/regular.ttf");
const BOLD: &[u8] = include_bytes!("fonts/bold.ttf");

/// Both weights.
pub(super) struct Faces {
    regular: Face,
    bold: Face,
    /// What the type has no sign for.
    missing: RefCell<BTreeSet<char>>,
}

/// One weight.
struct Face {
    font: Font,
    shaper: rustybuzz::Face<'static>,
    /// How a script is set, for figures by themselves and for words: worked out once each, which takes longer than setting.
    plans: RefCell<HashMap<(rustybuzz::Script, bool), Rc<rustybuzz::ShapePlan>>>,
    /// What was set already: the same words and figures stand on a card many times, and each is measured before it is set.
    known: RefCell<HashMap<String, Shaped>>,
}

/// Texts of so many bytes are kept once they are set; longer ones seldom come again.
const LONGEST_KEPT: usize = 80;

/// A text as signs on a line.
#[derive(Debug, Clone)]
pub(super) struct Shaped {
    /// The words, as they are printed.
    pub(super) text: String,
    /// The signs, their widths in parts of the type size.
    pub(super) glyphs: Vec<KrillaGlyph>,
    /// The width in parts of the type size.
    pub(super) width: f32,
}

impl Face {
    fn new(bytes: &'static [u8]) -> Option<Face> {
        let (font, shaper) = (Font::new(bytes.into(), 0)?, rustybuzz::Face::from_slice(bytes, 0)?);
        Some(Face { font, shaper, plans: RefCell::default(), known: RefCell::default() })
    }

    /// How a text in such a script is set from left to right.
    fn plan(&self, script: rustybuzz::Script, is_figure: bool) -> Rc<rustybuzz::ShapePlan> {
        let mut plans = self.plans.borrow_mut();
        let plan = plans.entry((script, is_figure)).or_insert_with(|| {
            // Figures by themselves stand in columns and are equally wide; among words they are as wide as they are.
            let tag = rustybuzz::ttf_parser::Tag::from_bytes(if is_figure { b"tnum" } else { b"pnum" });
            let feature = rustybuzz::Feature::new(tag, 1, ..);
            let known = Some(script).filter(|script| *script != rustybuzz::script::UNKNOWN);
            let direction = rustybuzz::Direction::LeftToRight;
            Rc::new(rustybuzz::ShapePlan::new(&self.shaper, direction, known, None, &[feature]))
        });
        Rc::clone(plan)
    }

    fn shape(&self, text: &str) -> Shaped {
        if let Some(known) = self.known.borrow().get(text) {
            return known.clone();
        }
        let shaped = self.set(text);
        if text.len() <= LONGEST_KEPT {
            self.known.borrow_mut().insert(text.to_owned(), shaped.clone());
        }
        shaped
    }

    fn set(&self, text: &str) -> Shaped {
        let mut buffer = rustybuzz::UnicodeBuffer::new();
        buffer.push_str(text);
        buffer.guess_segment_properties();
        // The type is written from left to right; what it cannot write stands as numbers.
        buffer.set_direction(rustybuzz::Direction::LeftToRight);
        let is_figure = text.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | '\u{2009}'));
        let plan = self.plan(buffer.script(), is_figure);
        let shaped = rustybuzz::shape_with_plan(&self.shaper, &plan, buffer);
        let em = self.font.units_per_em();
        let infos = shaped.glyph_infos();
        let mut glyphs = Vec::with_capacity(infos.len());
        let mut width = 0.0;
        // Letter by letter, of which one may carry thousands of marks: each of these is looked at once to find where the next letter begins.
        let letters = infos.chunk_by(|one, next| one.cluster == next.cluster);
        let begins: Vec<usize> = letters.clone().filter_map(|letter| Some(letter.first()?.cluster as usize)).collect();
        let ends = begins.iter().skip(1).copied().chain([text.len()]);
        let ranges = letters
            .zip(begins.iter().zip(ends))
            .flat_map(|(letter, (start, end))| letter.iter().map(move |info| (info, *start..end.max(*start))));
        for ((info, range), place) in ranges.zip(shaped.glyph_positions()) {
            let advance = place.x_advance as f32 / em;
            width += advance;
            glyphs.push(KrillaGlyph::new(
                GlyphId::new(info.glyph_id),
                advance,
                place.x_offset as f32 / em,
                place.y_offset as f32 / em,
                0.0,
                range,
                None,
            ));
        }
        Shaped { text: text.to_owned(), glyphs, width }
    }
}

impl Faces {
    /// The embedded type; `None` if its files were damaged.
    pub(super) fn new() -> Option<Faces> {
        Some(Faces { regular: Face::new(REGULAR)?, bold: Face::new(BOLD)?, missing: RefCell::default() })
    }

    fn face(&self, bold: bool) -> &Face {
        if bold { &self.bold } else { &self.regular }
    }

    /// The font of a weight.
    pub(super) fn font(&self, bold: bool) -> Font {
        self.face(bold).font.clone()
    }

    /// Sets a text on a line. It is expected to be [fitted](Faces::fit).
    pub(super) fn shape(&self, text: &str, bold: bool) -> Shaped {
        self.face(bold).shape(text)
    }

    /// Height above and depth below the line, in parts of the type size.
    pub(super) fn rise(&self) -> (f32, f32) {
        let face = &self.regular.shaper;
        let em = self.regular.font.units_per_em();
        (f32::from(face.ascender()) / em, -f32::from(face.descender()) / em)
    }

    /// How high a small `x` and a capital are, in parts of the type size.
    pub(super) fn heights(&self) -> (f32, f32) {
        let face = &self.regular.shaper;
        let em = self.regular.font.units_per_em();
        // Without a word of the type, half and seven tenths: common for type of this kind.
        let part = |height: Option<i16>, usual: f32| height.map_or(usual, |height| f32::from(height) / em);
        (part(face.x_height(), 0.5), part(face.capital_height(), 0.7))
    }

    /// In how many parts of the type size a weight is drawn.
    pub(super) fn units_per_em(&self, bold: bool) -> f32 {
        self.face(bold).font.units_per_em()
    }

    /// The outline of a sign, in those parts.
    pub(super) fn outline(&self, glyph: u32, bold: bool, builder: &mut impl rustybuzz::ttf_parser::OutlineBuilder) {
        if let Ok(glyph) = u16::try_from(glyph) {
            self.face(bold).shaper.outline_glyph(rustybuzz::ttf_parser::GlyphId(glyph), builder);
        }
    }

    /// A text in which everything can be printed: what the type has no sign for is written in another way.
    pub(super) fn fit(&self, text: &str) -> String {
        let plain: String = text.chars().map(|c| if matches!(c, '\n' | '\t' | '\r') { ' ' } else { c }).collect();
        let shaped = self.regular.shape(&plain);
        // They stand in the order of the text.
        let lost = shaped.glyphs.iter().filter(|glyph| glyph.glyph_id.to_u32() == 0).map(|glyph| &glyph.text_range);
        let mut lost = lost.peekable();
        if lost.peek().is_none() {
            return plain;
        }
        let mut out = String::with_capacity(plain.len());
        for (at, c) in plain.char_indices() {
            while lost.next_if(|range| range.end <= at).is_some() {}
            let is_lost = lost.peek().is_some_and(|range| range.contains(&at));
            if is_lost { self.write_otherwise(c, &mut out) } else { out.push(c) }
        }
        out
    }

    fn write_otherwise(&self, c: char, out: &mut String) {
        let fraction = match c {
            '⅓' => "1⁄3",
            '⅔' => "2⁄3",
            '⅕' => "1⁄5",
            '⅖' => "2⁄5",
            '⅗' => "3⁄5",
            '⅘' => "4⁄5",
            '⅙' => "1⁄6",
            '⅚' => "5⁄6",
            '⅛' => "1⁄8",
            '⅜' => "3⁄8",
            '⅝' => "5⁄8",
            '⅞' => "7⁄8",
            _ => "",
        };
        if !fraction.is_empty() {
            // 1⅓ would be read as eleven thirds.
            if out.ends_with(|last: char| last.is_ascii_digit()) {
                out.push('\u{A0}');
            }
            out.push_str(fraction);
            return;
        }
        match c {
            '→' => out.push_str("->"),
            '←' => out.push_str("<-"),
            '↑' => out.push_str("(up)"),
            '↓' => out.push_str("(down)"),
            '✓' | '✔' => out.push_str("(yes)"),
            '\u{202F}' | '\u{2007}' | '\u{2060}' => out.push('\u{A0}'),
            '●' | '▪' | '■' | '◦' | '○' => out.push('•'),
            '\u{2010}' | '\u{2011}' => out.push('-'),
            // Already a stand-in: the card's other forms show it as a mark in the same place.
            '\u{FFFD}' => out.push('?'),
            // Says only how its neighbour is drawn.
            '\u{FE0E}' | '\u{FE0F}' => {}
            other => {
                self.missing.borrow_mut().insert(other);
                out.push_str(&format!("[U+{:04X}]", u32::from(other)));
            }
        }
    }

    /// What the type had no sign for.
    pub(super) fn missing(&self) -> Vec<char> {
        self.missing.borrow().iter().copied().collect()
    }
}
