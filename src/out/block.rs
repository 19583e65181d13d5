//! What a page is made of, whatever the format: a product says what it shows as a list of blocks, and each format draws
//! every kind of block once ([`text`](super::text), [`markdown`](super::markdown), [`page`](super::page)).

use super::picture::Picture;
use crate::language::prose::Prose;
use crate::measure::shown::Shown;
use crate::model::step::StepKind;
use crate::text::capital::capital;
use std::fmt::Display;

/// How words stand out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// Not at all.
    Plain,
    /// Bold; capitals in plain text.
    Strong,
    /// Bold, as a figure is that the hands need; in plain text like the rest.
    Amount,
    /// Less than the rest.
    Quiet,
    /// As it is typed; in quotation marks in plain text.
    Typed,
}

/// Some words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Phrase {
    /// The words, without characters that hide.
    pub text: String,
    /// How they stand out.
    pub tone: Tone,
}

impl Phrase {
    fn new(text: &impl Display, tone: Tone) -> Phrase {
        Phrase { text: super::report::seen(text), tone }
    }

    /// Words like the rest.
    pub fn plain(text: impl Display) -> Phrase {
        Phrase::new(&text, Tone::Plain)
    }

    /// Words that stand out.
    pub fn strong(text: impl Display) -> Phrase {
        Phrase::new(&text, Tone::Strong)
    }

    /// A figure that the hands need.
    pub fn amount(text: impl Display) -> Phrase {
        Phrase::new(&text, Tone::Amount)
    }

    /// Something as it is typed.
    pub fn typed(text: impl Display) -> Phrase {
        Phrase::new(&text, Tone::Typed)
    }
}

/// How a line is painted on a terminal that has colours.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paint {
    /// As it is.
    None,
    /// Bold.
    Bold,
    /// Less than the rest.
    Dim,
    /// As a warning, or as what was before.
    Red,
    /// As a lesser warning.
    Yellow,
    /// As what is now.
    Green,
}

/// What stands on a page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Block {
    /// A line left free in plain text; the other formats part their blocks themselves.
    Gap,
    /// Blocks that belong together.
    Section(Vec<Block>),
    /// A heading.
    Heading(Heading),
    /// A paragraph.
    Text(Text),
    /// What can hurt somebody, in words of the program.
    Care(String),
    /// The author's prose.
    Prose(Voice, Prose),
    /// Facts in one line of plain text, else one a line.
    Facts(Vec<Vec<Phrase>>),
    /// Facts, one a line.
    Bullets(Vec<Vec<Phrase>>),
    /// What must be seen before all else.
    Alarm(Alarm),
    /// What changed between two versions.
    Changes(Vec<Change>),
    /// Figures and what they are.
    Figures(Vec<(String, Shown)>),
    /// Amounts of things, group by group.
    Rows(Rows),
    /// A table.
    Table(Table),
    /// What is done, step by step.
    Steps(Vec<Step>),
    /// When what is done, counted from the first step.
    Clock(Vec<Moment>),
    /// Remarks to what follows: terse in plain text, sentences elsewhere.
    Remarks(Vec<String>),
    /// A drawing as shapes; only where there are drawings.
    Picture(Picture),
    /// The topic that `miche explain` tells more of.
    Source(&'static str),
    /// What follows is another thing: on paper, a sheet of its own.
    Rule,
}

/// A paragraph of plain words.
pub fn words(text: impl Display) -> Block {
    Block::Text(Text::of(vec![Phrase::plain(text)]))
}

/// A heading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Heading {
    /// 1 for the page's title.
    pub level: usize,
    /// The words.
    pub text: String,
    /// What is said beside them: `taken out of dough`.
    pub remark: Option<String>,
    /// How it stands in plain text.
    pub look: Look,
}

/// How a heading stands in plain text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Look {
    /// Like other words.
    Plain,
    /// In capitals.
    Capitals,
    /// On a rule.
    Ruled,
    /// Behind the beginning of a rule.
    Dashed,
    /// With a line below it: a double one below a title.
    Underlined,
    /// With the topic that `miche explain` tells more of.
    Topic(&'static str),
    /// Not at all.
    Absent,
}

impl Heading {
    /// A heading that plain text has like other words.
    pub fn block(level: usize, text: impl Display) -> Block {
        Heading::looking(level, text, Look::Plain)
    }

    /// A heading with its look in plain text.
    pub fn looking(level: usize, text: impl Display, look: Look) -> Block {
        Block::Heading(Heading { level, text: super::report::seen(&text), remark: None, look })
    }
}

/// A paragraph.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Text {
    /// Its words.
    pub runs: Vec<Phrase>,
    /// What stands before its first line and before the others, where plain text breaks it into lines.
    pub indent: Option<(&'static str, &'static str)>,
    /// How it is painted on a terminal.
    pub paint: Paint,
}

impl Text {
    /// Words that are not broken into lines.
    pub fn of(runs: Vec<Phrase>) -> Text {
        Text { runs, indent: None, paint: Paint::None }
    }

    /// Words that are broken into lines.
    pub fn wrapped(runs: Vec<Phrase>, first: &'static str, others: &'static str) -> Text {
        Text { indent: Some((first, others)), ..Text::of(runs) }
    }

    /// A fact like any other, broken into lines.
    pub fn fact(text: impl Display) -> Block {
        Block::Text(Text::wrapped(vec![Phrase::plain(text)], "", "  "))
    }
}

/// Who speaks in the author's prose.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Voice {
    /// A warning.
    Caution,
    /// A note to the whole.
    Note,
    /// A note to a part.
    PartNote,
    /// Thanks.
    Credit,
}

/// Where a column's words stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Words.
    Left,
    /// Figures.
    Right,
}

/// A column.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Column {
    /// What stands above it.
    pub head: String,
    /// Where its words stand.
    pub side: Side,
}

/// A row of a table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// Its cells, one a column.
    pub cells: Vec<Phrase>,
    /// What is said in place of figures.
    pub instead: Option<String>,
    /// How it is painted on a terminal, and in a run sheet on a page.
    pub paint: Paint,
    /// Which number it has in the page's drawing; printed where there are drawings.
    pub drawn: Option<usize>,
}

impl Row {
    /// A row like the others.
    pub fn of(cells: impl IntoIterator<Item = Phrase>) -> Row {
        Row { cells: cells.into_iter().collect(), instead: None, paint: Paint::None, drawn: None }
    }
}

/// A table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Table {
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows.
    pub rows: Vec<Row>,
    /// How plain text and pages draw it.
    pub frame: Frame,
}

/// How a table is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Frame {
    /// Figures to read off: the first column is the rows' heads.
    Read,
    /// Figures of a batch.
    Sheet,
    /// A log: columns of words keep a width, and what stands instead of figures gets a line of its own.
    Log,
    /// What is weighed out: long names are broken, columns without a figure left out.
    Weigh,
    /// What is done when: no head in plain text, and the last column is broken into lines.
    Run,
}

impl Table {
    /// A table of which all columns but the first hold figures.
    pub fn figures(head: Vec<String>, rows: Vec<Vec<String>>, frame: Frame) -> Block {
        let side = |at: usize| if at == 0 { Side::Left } else { Side::Right };
        let columns = head.into_iter().enumerate().map(|(at, head)| Column { head, side: side(at) });
        let rows = rows.into_iter().map(|cells| Row::of(cells.into_iter().map(Phrase::plain)));
        Block::Table(Table { columns: columns.collect(), rows: rows.collect(), frame })
    }

    /// Whether its head says anything; one that does not is not printed, except where the format asks for one.
    pub fn has_head(&self) -> bool {
        self.columns.iter().any(|column| !column.head.is_empty())
    }
}

/// A step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// Its place in its part.
    pub number: usize,
    /// Who is busy.
    pub kind: StepKind,
    /// Its name.
    pub name: String,
    /// Time, place, heat.
    pub facts: String,
    /// What is done.
    pub prose: Prose,
    /// The cue by which it is done.
    pub cue: Prose,
}

/// Amounts of things, group by group.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Rows {
    /// What to buy, shelf by shelf.
    Buy(Vec<Group>),
    /// What to weigh out, bin by bin.
    Weigh(Vec<Group>),
}

/// Amounts that belong together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Group {
    /// What they are of.
    pub name: String,
    /// How much of it in all.
    pub all: Shown,
    /// The amounts.
    pub items: Vec<Item>,
}

/// An amount.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Item {
    /// How much.
    pub amount: Shown,
    /// Of what, or for what.
    pub name: String,
    /// What is said behind it.
    pub remarks: Vec<String>,
}

/// What must be seen before all else.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Alarm {
    /// What happened: `Allergen gained`.
    pub what: &'static str,
    /// To what: `sesame`.
    pub of: String,
    /// Whether it can hurt somebody; else it is good to know.
    pub can_hurt: bool,
}

/// Something that changed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Change {
    /// The amount of an ingredient, or what is said behind it.
    Line(BeforeAndNow),
    /// Another figure.
    Figure(BeforeAndNow),
    /// What is said of it in words.
    Said(Vec<Phrase>, Paint),
    /// A step.
    Step(ChangedStep),
}

impl Change {
    /// What changed, where it is a figure.
    pub fn figure(&self) -> Option<&BeforeAndNow> {
        match self {
            Change::Line(figure) | Change::Figure(figure) => Some(figure),
            Change::Said(..) | Change::Step(_) => None,
        }
    }
}

/// A figure before and now.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BeforeAndNow {
    /// What it is a figure of, where it stands in a row of its own below that.
    pub of: Option<String>,
    /// What it is.
    pub what: String,
    /// Before; empty when there was none.
    pub old: Shown,
    /// Now; empty when there is none.
    pub new: Shown,
    /// How it changed: `halved`.
    pub remark: String,
}

impl BeforeAndNow {
    /// What it is, also where nothing stands above it.
    pub fn whole_name(&self) -> String {
        self.of.as_ref().map_or_else(|| self.what.clone(), |of| format!("{of}, {}", self.what))
    }

    /// Both sides in a sentence: `time 5 min → 7 min`; `time: now 5 min` where there was none before.
    pub fn sentence(&self, what: &str) -> String {
        match (self.old.is_empty(), self.new.is_empty()) {
            (true, false) => format!("{what}: now {}", self.new),
            (false, true) => format!("{what}: no longer {}", self.old),
            _ => format!("{what} {} → {}", BeforeAndNow::side(&self.old), BeforeAndNow::side(&self.new)),
        }
    }

    /// One of its sides in a sentence.
    pub fn side(shown: &Shown) -> String {
        if shown.is_empty() { "nothing".to_owned() } else { shown.to_string() }
    }
}

/// A step that changed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ChangedStep {
    /// Its name.
    pub name: String,
    /// What is said right behind the name: what it was called, under which choice.
    pub beside: String,
    /// What happened to it as a whole: `new`, `gone`, `moved`.
    pub happened: Vec<&'static str>,
    /// Its figures that changed.
    pub figures: Vec<BeforeAndNow>,
    /// Its prose word by word, where that changed.
    pub words: Vec<(Fate, String)>,
}

impl ChangedStep {
    /// What is said of one of which no figure changed.
    pub(super) fn of_words(&self) -> &'static str {
        if self.words.is_empty() { "renamed" } else { "reworded" }
    }
}

/// What became of some words.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fate {
    /// They stayed.
    Kept,
    /// They went.
    Gone,
    /// They came.
    New,
}

impl ChangedStep {
    /// Its words in one line, as `mark` writes them.
    pub fn marked(&self, mark: impl Fn(Fate, &str) -> String) -> String {
        let mut text = String::new();
        for (fate, words) in &self.words {
            let core = words.trim_end();
            if !core.is_empty() {
                text.push_str(&mark(*fate, core));
            }
            if core.len() < words.len() {
                text.push(' ');
            }
        }
        text
    }
}

/// A step on the clock.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Moment {
    /// Its start: `0:45`.
    pub from: String,
    /// Its end.
    pub to: String,
    /// Who is busy.
    pub kind: StepKind,
    /// What is done.
    pub what: String,
}

/// Leaves a line free in plain text before every block but the first and those right below a heading.
pub fn spaced(blocks: Vec<Block>) -> Vec<Block> {
    let mut out: Vec<Block> = Vec::new();
    for block in blocks {
        if out.last().is_some_and(|last| !matches!(last, Block::Heading(Heading { level: 2.., .. }))) {
            out.push(Block::Gap);
        }
        out.push(block);
    }
    out
}

/// A remark as a sentence.
pub fn sentence(remark: &str) -> String {
    if remark.is_empty() { String::new() } else { format!("{}.", capital(remark)) }
}

/// Who is busy, as a shape of plain text.
pub fn mark(kind: StepKind) -> &'static str {
    match kind {
        StepKind::Hands => "●",
        StepKind::Tend => "◐",
        StepKind::Wait => "○",
    }
}
