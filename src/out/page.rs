//! Blocks as one HTML page that stands by itself, for the screen and the printer.

use super::block::{
    BeforeAndNow, Block, Change, ChangedStep, Fate, Frame, Paint, Phrase, Row, Rows, Side, Table, Tone, sentence,
};
use super::report::{clean, seen};
use super::sheet::Paper;
use super::text::Style;
use super::{lettering, markdown, text, typeset};
use maud::{DOCTYPE, Markup, PreEscaped, html};

const PAGE_CSS: &str = include_str!("page/page.css");

/// A page, ready for every format.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Page {
    /// What a browser's window is called.
    pub title: String,
    /// How many headings of something else stand above it in Markdown.
    pub below: usize,
    /// What stands on it.
    pub blocks: Vec<Block>,
}

impl Page {
    /// Several pages as one: on paper each begins a sheet of its own.
    pub fn joined(pages: Vec<Page>) -> Option<Page> {
        pages.into_iter().reduce(|mut all, next| {
            all.blocks.extend([Block::Gap, Block::Rule]);
            all.blocks.extend(next.blocks);
            all
        })
    }

    /// As plain text.
    pub fn text(&self, style: Style) -> String {
        text::render(&self.blocks, style)
    }

    /// As Markdown.
    pub fn markdown(&self) -> String {
        markdown::below(self.below, &self.blocks)
    }

    /// As HTML.
    pub fn html(&self) -> String {
        let style = self.style();
        let (sheets, after) = (&self.blocks, super::report::seen(&self.title));
        let body = html! {
            main {
                article.card.page {
                    @for block in sheets { (one(block)) }
                    footer.foot { span { (after) } }
                }
            }
        };
        typeset::markup(&frame(&self.title, &sealed(), &html! { style { (PreEscaped(style)) } }, &body)) + "\n"
    }

    /// The look of the family, and the margins of a printed sheet, with the page's title and number below it.
    fn style(&self) -> String {
        let (above, beside, below) = Paper::A4.margins();
        let boxes = lettering::margin_boxes(&super::report::seen(&self.title), 7.7);
        format!(
            "{}{PAGE_CSS}@page{{margin:{above}mm {beside}mm {below}mm;{boxes}}}\n{}",
            lettering::FAMILY,
            lettering::faces()
        )
    }
}

/// Any page of ours: a title, what else stands in the head before it, how the page looks, and its body.
pub(crate) fn frame(title: &str, head: &Markup, style: &Markup, body: &Markup) -> String {
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                (head)
                title { (clean(title)) }
                (style)
            }
            body { (body) }
        }
    };
    page.into_string()
}

/// For a head: nothing runs on the page and nothing is fetched.
fn sealed() -> Markup {
    html! {
        meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; font-src data:";
        meta name="color-scheme" content="light dark";
    }
}

/// The same for a page that brings its type with it.
pub(super) fn sealed_with_type() -> Markup {
    html! {
        meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; font-src data:";
    }
}

fn one(block: &Block) -> Markup {
    html! {
        @match block {
            Block::Section(blocks) => section { @for block in blocks { (one(block)) } },
            Block::Heading(heading) => @match heading.level {
                1 => header { div.head { h1 { (heading.text) } } },
                2 => h2 { (heading.text) },
                _ => h3 { (heading.text) },
            },
            Block::Text(text) => p { (runs(&text.runs)) },
            Block::Care(text) => div.care role="note" { p { strong.word { "Caution " } (ticked(text)) } },
            Block::Prose(_, prose) => p { (prose.plain()) },
            Block::Facts(all) | Block::Bullets(all) => ul { @for one in all { li { (runs(one)) } } },
            Block::Alarm(alarm) => p.loud.hurts[alarm.can_hurt] { (alarm.what) ": " (clean(&alarm.of)) },
            Block::Changes(all) => (changes(all)),
            Block::Figures(all) => @if !all.is_empty() {
                table { tbody {
                    @for (what, shown) in all { tr { th scope="row" { (ticked(what)) } td.n { (seen(shown)) } } }
                } }
            },
            Block::Rows(Rows::Buy(groups) | Rows::Weigh(groups)) => @for group in groups {
                h3 { (clean(&group.name)) @if !group.all.is_empty() { ": " (group.all) } }
                ul { @for one in &group.items { li { b { (one.amount) } " " (clean(&one.name)) } } }
            },
            Block::Table(one) => (table(one)),
            Block::Steps(all) => ol { @for step in all { li { b { (clean(&step.name)) } " " (step.prose.plain()) } } },
            Block::Clock(all) => ul { @for one in all { li { (one.from) "–" (one.to) " " (clean(&one.what)) } } },
            Block::Remarks(all) => p { (ticked(&all.iter().map(|one| sentence(one)).collect::<Vec<String>>().join(" "))) },
            Block::Picture(picture) => (super::picture::svg(picture)),
            Block::Source(topic) => p.topic { "Formula and sources: " code { "miche explain " (topic) } },
            Block::Rule => div.next {},
            Block::Gap => {},
        }
    }
}

/// What stands over changed figures.
pub(super) const CHANGES: [&str; 4] = ["what", "before", "now", "change"];

/// What changed, in its order: amounts and figures that follow each other as a table, the rest as paragraphs.
fn changes(all: &[Change]) -> Markup {
    html! {
        @for run in all.chunk_by(|one, next| one.figure().is_some() == next.figure().is_some()) {
            @if run.iter().any(|change| change.figure().is_some()) {
                table.broad {
                    thead { tr { @for (at, head) in CHANGES.iter().enumerate() { th.n[matches!(at, 1 | 2)] scope="col" { (head) } } } }
                    tbody {
                        @for one in run.iter().filter_map(Change::figure) {
                            tr {
                                th scope="row" { (clean(&one.what)) }
                                td.n data-head="before" { (seen(&one.old)) } td.n data-head="now" { (seen(&one.new)) } td { (one.remark) }
                            }
                        }
                    }
                }
            }
            @for change in run {
                @match change {
                    Change::Said(words, _) => p { (runs(words)) },
                    Change::Step(step) => (changed_step(step)),
                    Change::Line(_) | Change::Figure(_) => {},
                }
            }
        }
    }
}

fn changed_step(step: &ChangedStep) -> Markup {
    let figure = |one: &BeforeAndNow| seen(&format!("; {}: {} → {}", one.what, one.old, one.new));
    html! {
        p {
            strong { (clean(&step.name)) } (clean(&step.beside))
            @for what in &step.happened { " (" (what) ")" }
            @for one in &step.figures { (figure(one)) }
        }
        @if !step.words.is_empty() {
            p {
                @for (fate, words) in &step.words {
                    @match fate { Fate::Kept => (words), Fate::Gone => del { (words) }, Fate::New => ins { (words) } }
                }
            }
        }
    }
}

fn runs(runs: &[Phrase]) -> Markup {
    html! {
        @for run in runs {
            @match run.tone {
                Tone::Plain | Tone::Quiet => (ticked(&run.text)),
                Tone::Strong | Tone::Amount => strong { (run.text) },
                Tone::Typed => code { (run.text) },
            }
        }
    }
}

/// Words in which names stand between backticks, as messages have them.
fn ticked(text: &str) -> Markup {
    let text = clean(text);
    // An odd one is no pair: it is what it is.
    let is_paired = text.matches('`').count().is_multiple_of(2);
    html! {
        @if is_paired {
            @for (at, piece) in text.split('`').enumerate() { @if at % 2 == 1 { code { (piece) } } @else { (piece) } }
        } @else {
            (text)
        }
    }
}

/// Tables of more columns become paragraphs on a telephone.
const BROAD: usize = 4;

fn table(table: &Table) -> Markup {
    let is_marked =
        |at: usize| table.frame != Frame::Run && table.columns.get(at).is_some_and(|column| column.side == Side::Right);
    let is_broad = table.frame != Frame::Run && table.columns.len() >= BROAD;
    let look = [("run", table.frame == Frame::Run), ("broad", is_broad)].into_iter().find(|(_, is)| *is);
    html! {
        @let is_drawn = table.rows.iter().any(|row| row.drawn.is_some());
        table class=[look.map(|(name, _)| name)] {
            @if table.has_head() {
                thead { tr {
                    @if is_drawn { th scope="col" { "No." } }
                    @for (at, column) in table.columns.iter().enumerate() {
                        @if column.head.is_empty() {
                            td {}
                        } @else {
                            th class=[is_marked(at).then_some("n")] scope="col" { (column.head) }
                        }
                    }
                } }
            }
            tbody {
                @for row in &table.rows {
                    tr class=[class(table, row)] {
                        @if is_drawn { td { @if let Some(number) = row.drawn { (number) } } }
                        (cells(table, row, is_marked))
                    }
                }
            }
        }
    }
}

/// How a row of a run sheet stands out.
fn class(table: &Table, row: &Row) -> Option<&'static str> {
    match row.paint {
        _ if table.frame != Frame::Run => None,
        Paint::Bold => Some("hands"),
        Paint::Dim => Some("wait"),
        Paint::Red => Some("care"),
        Paint::None | Paint::Yellow | Paint::Green => None,
    }
}

fn cells(table: &Table, row: &Row, is_marked: impl Fn(usize) -> bool) -> Markup {
    let figures = (0..row.cells.len()).filter(|at| is_marked(*at)).count();
    let is_broad = table.columns.len() >= BROAD && table.frame != Frame::Run;
    let head = |at: usize| {
        let column = table.columns.get(at).filter(|column| is_broad && !column.head.is_empty());
        column.map(|column| column.head.as_str())
    };
    html! {
        @for (at, cell) in row.cells.iter().enumerate() {
            @if let (Some(why), true) = (&row.instead, is_marked(at)) {
                @if !is_marked(at.wrapping_sub(1)) { td colspan=(figures) { strong { (ticked(why)) } } }
            } @else if matches!(table.frame, Frame::Read | Frame::Sheet) && at == 0 {
                th scope="row" { (ticked(&cell.text)) }
            } @else {
                td class=[is_marked(at).then_some("n")] data-head=[head(at)] { (ticked(&cell.text)) }
            }
        }
    }
}
