//! Papers to print on.

/// The paper to print on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    /// 210 × 297 mm, ISO 216
    A4,
    /// 148 × 210 mm, ISO 216
    A5,
    /// 8 1/2 × 11 in
    Letter,
    /// A filing card of 4 × 6 in
    Index,
}

/// Which way round the paper lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Orientation {
    /// Taller than wide
    Portrait,
    /// Wider than tall
    Landscape,
}

impl Paper {
    /// Width and height in millimetres, upright.
    fn size(self) -> (f64, f64) {
        match self {
            Paper::A4 => (210.0, 297.0),
            Paper::A5 => (148.0, 210.0),
            Paper::Letter => (215.9, 279.4),
            Paper::Index => (101.6, 152.4),
        }
    }

    /// How the paper lies when nobody says: a filing card across, a sheet upright.
    pub fn usual_orientation(self) -> Orientation {
        if self == Paper::Index { Orientation::Landscape } else { Orientation::Portrait }
    }

    /// Width and height in millimetres as it lies.
    pub(in crate::out) fn laid(self, orientation: Orientation) -> (f64, f64) {
        let (width, height) = self.size();
        if orientation == Orientation::Landscape { (height, width) } else { (width, height) }
    }

    /// The size that all type is measured in, in points. On A4 the figures of the strip then are 17 pt, which is read
    /// at arm's length and beyond; smaller papers are held in the hand.
    pub(super) fn type_size(self) -> f64 {
        match self {
            Paper::A4 | Paper::Letter => 9.8,
            Paper::A5 => 8.0,
            Paper::Index => 7.4,
        }
    }

    /// Margins in millimetres: above, beside, below. The foot stands in the one below.
    pub(in crate::out) fn margins(self) -> (f64, f64, f64) {
        match self {
            Paper::A4 | Paper::Letter => (12.0, 14.0, 14.0),
            Paper::A5 => (10.0, 10.0, 12.0),
            Paper::Index => (6.0, 7.0, 8.5),
        }
    }
}
