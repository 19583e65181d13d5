//! Labels to stick on: what stands on one, and the paper that they are printed on, in millimetres.

pub mod facts;

use crate::out::block::Phrase;
use facts::Facts;

/// The most labels that are printed at once.
pub const MOST: usize = 20_000;

/// What stands on a label that is stuck on.
#[derive(Debug, Clone, PartialEq)]
pub struct Sticker {
    /// The name of the food.
    pub title: String,
    /// The net quantity, whose figures the law wants of a height.
    pub net: String,
    /// How high the figures of the net quantity are at least, in millimetres.
    pub net_height: f64,
    /// Whether that is by the side that is looked at, too, which is no smaller than the label: 21 CFR 101.7(i). Its letters are counted
    /// by the small ones then (101.7(h)(2)).
    pub net_by_panel: bool,
    /// Ingredients, dates and the like, each a paragraph.
    pub paragraphs: Vec<Vec<Phrase>>,
    /// The nutrition facts of the United States; without them there is the table that follows.
    pub facts: Option<Facts>,
    /// The table of nutrition: its head, and its rows.
    pub head: Vec<String>,
    /// See `head`.
    pub rows: Vec<Vec<String>>,
    /// How high a small `x` is at least, in millimetres.
    pub x_height: f64,
    /// Whether the type may be as small as on a small pack already.
    pub is_small: bool,
    /// How many of it are printed; without a number as many as the page holds.
    pub copies: Option<usize>,
}

impl Sticker {
    /// The table as running text, where there is no room for columns (Article 34(2)).
    pub fn linear(&self) -> String {
        let rows = self.rows.iter().map(|row| match row.split_first() {
            Some((name, cells)) => [vec![name.trim().to_owned()], cells.to_vec()].concat().join(" "),
            None => String::new(),
        });
        format!("{}: {}.", self.head.join(" ").trim(), rows.collect::<Vec<String>>().join(", "))
    }

    /// How high the figures of the net quantity are at least on a label of that size, in millimetres: of a side of up to 5 square
    /// inches 1/16 inch, of 25 1/8, of 100 3/16, of 400 1/4, above 1/2 (21 CFR 101.7(i)).
    pub fn net_height_on(&self, width: f64, height: f64) -> f64 {
        if !self.net_by_panel {
            return self.net_height;
        }
        let inches = width * height / (25.4 * 25.4);
        let steps = [(5.0, 1.0 / 16.0), (25.0, 1.0 / 8.0), (100.0, 3.0 / 16.0), (400.0, 1.0 / 4.0)];
        let high = steps.iter().find(|(area, _)| inches <= *area).map_or(0.5, |(_, high)| *high);
        self.net_height.max(high * 25.4)
    }
}

/// A sheet of labels: millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LabelPaper {
    /// Of the sheet.
    pub width: f64,
    /// Of the sheet.
    pub height: f64,
    /// Beside each other.
    pub columns: usize,
    /// Below each other.
    pub rows: usize,
    /// From the left edge of the sheet to the first label; as much is left at the right.
    pub left: f64,
    /// From the top of the sheet to the first label; as much is left below.
    pub top: f64,
    /// Between two columns.
    pub across: f64,
    /// Between two rows.
    pub down: f64,
}

/// From the edge of a label to what stands on it, millimetres.
pub const PADDING: f64 = 1.5;

/// The least and the most that an edge of a sheet or a label is, millimetres.
const SHEET: std::ops::RangeInclusive<f64> = 20.0..=1200.0;
const LEAST_LABEL: f64 = 10.0;

impl LabelPaper {
    /// Reads `3 x 8`, then after commas `sheet 210 x 297`, `margins 7 x 13`, `gaps 2.5 x 0`, all in millimetres.
    ///
    /// # Errors
    /// A sentence that says what cannot be.
    pub fn read(text: &str) -> Result<LabelPaper, String> {
        let form = "write columns and rows, `3 x 8`, and after commas what is not as usual: `sheet 210 x 297`, `margins 7 x 13`, \
                    `gaps 2.5 x 0`, in mm";
        let wrong = |what: &str| format!("--sheet {text}: {what}; {form}");
        let mut clauses = text.split(',').map(str::trim);
        let counts = clauses.next().and_then(pair).ok_or_else(|| wrong("the columns and rows cannot be read"))?;
        let whole = |count: f64| {
            let fits = count.fract() == 0.0 && (1.0..=100.0).contains(&count);
            fits.then_some(count as usize)
        };
        let (Some(columns), Some(rows)) = (whole(counts.0), whole(counts.1)) else {
            return Err(wrong("columns and rows are whole numbers from 1 to 100"));
        };
        let mut paper =
            LabelPaper { width: 210.0, height: 297.0, columns, rows, left: 7.0, top: 13.0, across: 2.5, down: 0.0 };
        let mut seen: Vec<&str> = Vec::new();
        for clause in clauses {
            let (word, rest) = clause.split_once(char::is_whitespace).unwrap_or((clause, ""));
            let Some((one, other)) = pair(rest) else { return Err(wrong(&format!("`{clause}` cannot be read"))) };
            if seen.contains(&word) {
                return Err(wrong(&format!("`{word}` is said twice")));
            }
            seen.push(word);
            match word {
                "sheet" => (paper.width, paper.height) = (one, other),
                "margins" => (paper.left, paper.top) = (one, other),
                "gaps" => (paper.across, paper.down) = (one, other),
                _ => return Err(wrong(&format!("`{word}` is none of sheet, margins and gaps"))),
            }
        }
        if !SHEET.contains(&paper.width) || !SHEET.contains(&paper.height) {
            return Err(wrong("a sheet is from 20 to 1200 mm"));
        }
        let (width, height) = paper.label();
        if width < LEAST_LABEL || height < LEAST_LABEL {
            return Err(wrong(&format!("that leaves {width:.1} x {height:.1} mm for a label")));
        }
        Ok(paper)
    }

    /// Width and height of a label.
    pub fn label(&self) -> (f64, f64) {
        let of = |all: f64, margin: f64, count: usize, gap: f64| {
            (all - 2.0 * margin - gap * (count as f64 - 1.0)) / count as f64
        };
        (of(self.width, self.left, self.columns, self.across), of(self.height, self.top, self.rows, self.down))
    }

    /// How many labels a sheet has.
    pub fn on_a_sheet(&self) -> usize {
        self.columns * self.rows
    }

    /// Left and top of the label of that number on its sheet, row by row.
    pub fn corner(&self, number: usize) -> (f64, f64) {
        let (width, height) = self.label();
        let (row, column) = ((number / self.columns) % self.rows, number % self.columns);
        (self.left + column as f64 * (width + self.across), self.top + row as f64 * (height + self.down))
    }
}

/// `7 x 13`: two numbers, none of them negative.
fn pair(text: &str) -> Option<(f64, f64)> {
    let (one, other) = text.split_once(['x', '×'])?;
    let read = |text: &str| {
        let text = text.trim().trim_end_matches("mm").trim();
        let plain = !text.is_empty() && text.chars().all(|c| c.is_ascii_digit() || c == '.');
        text.parse::<f64>().ok().filter(|number| plain && number.is_finite())
    };
    Some((read(one)?, read(other)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn label_paper_is_read_and_laid_out() {
        let paper = LabelPaper::read("3 x 8, margins 7.25 x 12.9, gaps 2.5 x 0").expect("it can be read");
        let (width, height) = paper.label();
        assert!((width - 63.5).abs() < 0.01 && (height - 33.9).abs() < 0.01, "{width} {height}");
        assert_eq!(paper.on_a_sheet(), 24);
        let (left, top) = paper.corner(4);
        assert!((left - 73.25).abs() < 0.01 && (top - 46.8).abs() < 0.01, "{left} {top}");
        let (last, _) = paper.corner(23);
        assert!((last + width + 7.25 - 210.0).abs() < 0.01);
    }

    #[test]
    fn what_is_no_label_paper_is_said() {
        for text in [
            "",
            "3",
            "3 x",
            "0 x 8",
            "3.5 x 8",
            "3 x 8, sheet 5 x 5",
            "3 x 8, margin 7 x 7",
            "3 x 8, margins 100 x 13",
            "3 x 8, margins -7 x 3",
            "1e3 x 2",
            "3 x 8, gaps 2 x 2, gaps 3 x 3",
            "100 x 100",
            "nan x 2",
            "3 x 8,",
        ] {
            let why = LabelPaper::read(text).expect_err(text);
            assert!(why.contains("--sheet") && why.contains("in mm"), "{why}");
        }
    }
}
