//! Nutrition facts as the United States want them printed: what stands under what, and in how many points.
//!
//! 21 CFR 101.9(d)(1)(iii), (2), (3), (4), (6) and (9), and (j)(13)(ii)(A)(2), whose sizes of type a public label program quotes of the eCFR (seen):
//! `Calories` 16 points and its figure 22, on small packs 10 and 14; the servings 10, on small packs 9; the rows 8; what stands above and
//! below them 6. The weights of the rules are those of the FDA's own picture of a label (from memory: 7, 3 and a quarter of a point).

/// The words and figures of the table.
#[derive(Debug, Clone, PartialEq)]
pub struct Facts {
    /// `8 servings per container`.
    pub servings: String,
    /// `2/3 cup (55 g)`.
    pub serving_size: String,
    /// What the columns are of: a serving, and where the law wants it the container or the piece.
    pub columns: Vec<String>,
    /// Its rows, calories first.
    pub rows: Vec<FactsRow>,
}

/// A row of the table.
#[derive(Debug, Clone, PartialEq)]
pub struct FactsRow {
    /// `Total Fat`, or with its amount within it `Includes 10 g Added Sugars`.
    pub name: String,
    /// How deep it stands below another.
    pub depth: usize,
    /// For each column the amount, and the share of the daily value; either may be empty.
    pub cells: Vec<(String, String)>,
}

impl FactsRow {
    /// A vitamin or a mineral, which stand below a rule of their own and are not bold.
    fn is_trace(&self) -> bool {
        matches!(self.name.as_str(), "Vitamin D" | "Calcium" | "Iron" | "Potassium")
    }
}

/// Words of one size.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// What it says.
    pub text: String,
    /// In points.
    pub points: f64,
    /// Whether it is bold.
    pub is_bold: bool,
}

impl Run {
    fn new(text: impl Into<String>, points: f64) -> Run {
        Run { text: text.into(), points, is_bold: false }
    }

    fn bold(text: impl Into<String>, points: f64) -> Run {
        Run { text: text.into(), points, is_bold: true }
    }
}

/// A line of the table: what stands at its left, and what stands at the right of it in columns.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// The rule above it, in points; none where there is nothing.
    pub rule: f64,
    /// How far it is set in, in points.
    pub indent: f64,
    /// Left, then the others, each with its share of the width.
    pub cells: Vec<(Vec<Run>, f64)>,
}

impl Line {
    fn of(rule: f64, runs: Vec<Run>) -> Line {
        Line { rule, indent: 0.0, cells: vec![(runs, 1.0)] }
    }

    fn with(self, runs: Vec<Run>, share: f64) -> Line {
        let mut cells = self.cells;
        cells.push((runs, share));
        let taken: f64 = cells.iter().skip(1).map(|(_, share)| share).sum();
        if let Some(first) = cells.first_mut() {
            first.1 = 1.0 - taken;
        }
        Line { cells, ..self }
    }
}

const THICK: f64 = 7.0;
const MIDDLE: f64 = 3.0;
const HAIR: f64 = 0.25;

/// 21 CFR 101.9(d)(9).
const DAILY_VALUE: &str = "* The % Daily Value (DV) tells you how much a nutrient in a serving of food contributes to a daily diet. 2,000 \
calories a day is used for general nutrition advice.";

/// 21 CFR 101.9(j)(13)(i), as that program quotes it.
const SHORT_DAILY_VALUE: &str = "% DV = % Daily Value";

/// Below this size of a label, in square inches, the rows may be in 6 points: 21 CFR 101.9(j)(13)(i)(B), from memory, of packs on which no more
/// can bear a label.
const SMALLEST: f64 = 12.0;

impl Facts {
    /// The lines of the table, in type so many times as large as the law wants at the least.
    pub fn lines(&self, times: f64) -> Vec<Line> {
        let at = |points: f64| points * times;
        let (amount, daily) = if self.columns.len() > 1 { (0.18, 0.13) } else { (0.0, 0.2) };
        let mut lines = vec![
            Line::of(0.0, vec![Run::bold("Nutrition Facts", at(18.0))]),
            Line::of(HAIR, vec![Run::new(&self.servings, at(10.0))]),
            Line::of(0.0, vec![Run::bold("Serving size", at(10.0))])
                .with(vec![Run::bold(&self.serving_size, at(10.0))], 0.66),
        ];
        let is_one = self.columns.len() == 1;
        let mut above = Line::of(THICK, vec![Run::bold(if is_one { "Amount per serving" } else { "Amount" }, at(7.0))]);
        let mut calories = Line::of(0.0, vec![Run::bold("Calories", at(16.0))]);
        let mut heads = Line::of(MIDDLE, vec![Run::bold("", at(7.0))]);
        let first = self.rows.first();
        for (column, name) in self.columns.iter().enumerate() {
            let figure = first.and_then(|row| row.cells.get(column)).map_or("", |(amount, _)| amount.as_str());
            calories = calories.with(vec![Run::bold(figure, at(22.0))], if is_one { 0.4 } else { amount + daily });
            if is_one {
                heads = heads.with(vec![Run::bold("% Daily Value*", at(7.0))], 0.5);
            } else {
                above = above.with(vec![Run::bold(name, at(7.0))], amount + daily);
                heads = heads.with(vec![Run::bold("", at(7.0))], amount);
                heads = heads.with(vec![Run::bold("%\u{A0}DV*", at(7.0))], daily);
            }
        }
        lines.extend([above, calories, heads]);
        let mut was_trace = false;
        for row in self.rows.iter().skip(1) {
            let is_main = row.depth == 0 && !row.is_trace();
            let name = if is_main { Run::bold(&row.name, at(8.0)) } else { Run::new(&row.name, at(8.0)) };
            let rule = if row.is_trace() && !was_trace { THICK } else { HAIR };
            was_trace = row.is_trace();
            let mut left = vec![name];
            let mut cells = row.cells.iter();
            // 21 CFR 101.9(d)(7)(i): the amount follows the name at once, where there is one column.
            let one = if is_one { cells.next() } else { None };
            if let Some((amount, _)) = one
                && !amount.is_empty()
            {
                left.push(Run::new(format!(" {amount}"), at(8.0)));
            }
            let mut line = Line { indent: at(8.0) * row.depth as f64, ..Line::of(rule, left) };
            if let Some((_, share)) = one {
                line = line.with(vec![of_the_day(share, row, at(8.0))], daily);
            }
            for (much, share) in cells {
                line = line.with(vec![Run::new(much, at(8.0))], amount);
                line = line.with(vec![of_the_day(share, row, at(8.0))], daily);
            }
            lines.push(line);
        }
        lines.push(Line::of(MIDDLE, vec![Run::new(DAILY_VALUE, at(6.0))]));
        lines
    }

    /// As running text, which packs may have of which no more than 40 square inches can bear a label: (j)(13)(ii)(A)(2). A serving alone, for
    /// there is no column beside it on them, (b)(12)(i)(A). `inches`: how large the label is, in square inches.
    pub fn linear(&self, times: f64, inches: f64) -> Vec<Run> {
        let at = |points: f64| points * times;
        let rows_at = at(if inches < SMALLEST { 6.0 } else { 8.0 });
        let mut runs = vec![
            Run::bold("Nutrition Facts ", at(11.0)),
            Run::new(format!("{}, Serving size: {}, ", self.servings, self.serving_size), at(9.0)),
            Run::new("Amount per serving: ", rows_at),
        ];
        let figure = self.rows.first().and_then(|row| row.cells.first()).map_or("", |(amount, _)| amount.as_str());
        runs.extend([Run::bold("Calories ", at(10.0)), Run::bold(figure, at(14.0))]);
        let mut text = String::new();
        for row in self.rows.iter().skip(1) {
            text.push_str(", ");
            text.push_str(&row.name);
            if let Some((amount, share)) = row.cells.first() {
                for (part, before, behind) in [(amount.as_str(), " ", ""), (share.as_str(), " (", " DV)")] {
                    if !part.is_empty() {
                        text.extend([before, part, behind]);
                    }
                }
            }
        }
        runs.push(Run::new(format!("{text}. "), rows_at));
        runs.push(Run::new(SHORT_DAILY_VALUE, at(6.0)));
        runs
    }
}

/// A share of the daily value: bold, but of the vitamins and minerals.
fn of_the_day(share: &str, row: &FactsRow, points: f64) -> Run {
    if row.is_trace() { Run::new(share, points) } else { Run::bold(share, points) }
}
