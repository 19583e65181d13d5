//! The paper in points: margins, measure of type, columns.

use crate::out::sheet::{Orientation, Paper, Sheet};

/// Points in a millimetre: 72 to the inch of 25.4 mm.
pub(super) const POINTS: f32 = 72.0 / 25.4;

/// Where what stands on a page.
#[derive(Debug, Clone, Copy)]
pub(super) struct Geometry {
    pub(super) page_width: f32,
    pub(super) page_height: f32,
    pub(super) left: f32,
    pub(super) top: f32,
    /// The room between the margins.
    pub(super) width: f32,
    pub(super) height: f32,
    /// The margin below.
    below: f32,
    /// The measure of type.
    pub(super) em: f32,
    pub(super) foot_size: f32,
    /// Whether steps stand in two columns.
    pub(super) columns: bool,
}

impl Geometry {
    pub(super) fn of(sheet: &Sheet) -> Geometry {
        let (wide, high) = sheet.paper.laid(sheet.orientation);
        let (above, beside, below) = sheet.paper.margins();
        let points = |millimetres: f64| millimetres as f32 * POINTS;
        let em = sheet.type_size() as f32;
        Geometry {
            page_width: points(wide),
            page_height: points(high),
            left: points(beside),
            top: points(above),
            width: points(wide - 2.0 * beside),
            height: points(high - above - below),
            below: points(below),
            em,
            foot_size: (em * 0.68).max(5.5),
            columns: sheet.orientation == Orientation::Landscape,
        }
    }

    /// A page of a book, and how far what stands on a right-hand page is moved out of the middle: the inner margin is wider by
    /// twice that. Margins above and below have room for a running head and for the number.
    pub(super) fn bound(sheet: &Sheet) -> (Geometry, f32) {
        let (wide, high) = sheet.paper.laid(sheet.orientation);
        // Above, inside, outside, below, in millimetres, and the size of type in points.
        let (above, inside, outside, below, em) = match sheet.paper {
            Paper::A4 | Paper::Letter => (24.0, 26.0, 18.0, 22.0, 10.4),
            Paper::A5 => (18.0, 18.0, 12.0, 17.0, 9.2),
            Paper::Index => (11.0, 10.0, 7.0, 10.0, 7.6),
        };
        let points = |millimetres: f64| millimetres as f32 * POINTS;
        let geometry = Geometry {
            page_width: points(wide),
            page_height: points(high),
            left: points((inside + outside) / 2.0),
            top: points(above),
            width: points(wide - inside - outside),
            height: points(high - above - below),
            below: points(below),
            em,
            foot_size: em * 0.95,
            columns: false,
        };
        (geometry, points((inside - outside) / 2.0))
    }

    /// A page without margins, of so many millimetres.
    pub(super) fn bare(width: f64, height: f64) -> Geometry {
        let (page_width, page_height) = (width as f32 * POINTS, height as f32 * POINTS);
        Geometry {
            page_width,
            page_height,
            left: 0.0,
            top: 0.0,
            width: page_width,
            height: page_height,
            below: 0.0,
            em: 10.0,
            foot_size: 5.5,
            columns: false,
        }
    }

    /// Between two columns.
    pub(super) fn gutter(&self) -> f32 {
        self.em * 2.0
    }

    /// The width of one of two columns.
    pub(super) fn half(&self) -> f32 {
        (self.width - self.gutter()) / 2.0
    }

    /// Where the foot begins.
    pub(super) fn foot_top(&self) -> f32 {
        self.page_height - self.below + 1.5 * POINTS
    }

    /// How high the foot can be: printers leave the last 4 mm of a sheet white.
    pub(super) fn foot_room(&self) -> f32 {
        (self.below - 1.5 * POINTS - 3.0 * POINTS).max(self.foot_size * 1.25)
    }
}
