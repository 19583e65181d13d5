//! Blocks as one HTML page that stands by itself, for the screen and the printer.

use super::block::{
    BeforeAndNow, Block, Change, ChangedStep, Fate, Frame, Paint, Phrase, Row, Rows, Side, Table, Tone, sentence,
};
use super::report::{clean, seen};
use super::text::Style;
use super::{markdown, text};
use maud::{DOCTYPE, Markup, PreEscaped, html};

/// How a page looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Look {
    /// Its style.
    pub style: &'static str,
    /// Whether the page itself says that nothing runs on it and nothing is fetched.
    pub is_sealed: bool,
}

/// A page, ready for every format.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Page {
    /// What a browser's window is called.
    pub title: String,
    /// How it looks in a browser.
    pub look: Look,
    /// How many headings of something else stand above it in Markdown.
    pub below: usize,
    /// What stands on it.
    pub blocks: Vec<Block>,
}

impl Page {
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
        let head = if self.look.is_sealed {
            sealed()
        } else {
            html! {}
        };
        let body = html! { main { @for block in &self.blocks { (one(block)) } } };
        document(&self.title, self.look.style, &head, &body)
    }
}

/// Labels, costs and stocks.
pub const FIGURES: Look = Look {
    style: "body{font:16px/1.45 Georgia,serif;max-width:44rem;margin:2rem auto;padding:0 1rem;color:#1d1a16}\
table{border-collapse:collapse;margin:0 0 1.2rem}th,td{padding:.2rem .8rem .2rem 0;border-bottom:1px solid #bbb;text-align:left}\
th+th,td+td{text-align:right;font-variant-numeric:tabular-nums}h2{font-size:1.1rem;margin:1.4rem 0 .4rem}",
    is_sealed: false,
};

/// A page with a title, a style of ours, whatever else stands in its head, and its body.
pub(super) fn document(title: &str, style: &'static str, head: &Markup, body: &Markup) -> String {
    frame(title, head, &html! { style { (PreEscaped(style)) } }, body) + "\n"
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
pub(super) fn sealed() -> Markup {
    html! { meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'"; }
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
                1 => h1 { (heading.text) },
                2 => h2 { (heading.text) },
                _ => h3 { (heading.text) },
            },
            Block::Text(text) => p { (runs(&text.runs)) },
            Block::Care(text) => p.care { b { "Caution. " } (clean(text)) },
            Block::Prose(_, prose) => p { (prose.plain()) },
            Block::Facts(all) | Block::Bullets(all) => ul { @for one in all { li { (runs(one)) } } },
            Block::Alarm(alarm) => p.loud { (alarm.what) ": " (clean(&alarm.of)) },
            Block::Changes(all) => (changes(all)),
            Block::Figures(all) => @if !all.is_empty() {
                table { tbody {
                    @for (what, shown) in all { tr { th scope="row" { (clean(what)) } td { (seen(shown)) } } }
                } }
            },
            Block::Rows(Rows::Buy(groups) | Rows::Weigh(groups)) => @for group in groups {
                h3 { (clean(&group.name)) @if !group.all.is_empty() { ": " (group.all) } }
                ul { @for one in &group.items { li { b { (one.amount) } " " (clean(&one.name)) } } }
            },
            Block::Table(one) => (table(one)),
            Block::Steps(all) => ol { @for step in all { li { b { (clean(&step.name)) } " " (step.prose.plain()) } } },
            Block::Clock(all) => ul { @for one in all { li { (one.from) "–" (one.to) " " (clean(&one.what)) } } },
            Block::Remarks(all) => p { (clean(&all.iter().map(|one| sentence(one)).collect::<Vec<String>>().join(" "))) },
            Block::Drawing(svg) => (PreEscaped(svg)),
            Block::Source(topic) => p { small { "Formula and sources: " code { "miche explain " (topic) } } },
            Block::Gap | Block::Rule => {},
        }
    }
}

/// What changed, in its order: amounts and figures that follow each other as a table, the rest as paragraphs.
fn changes(all: &[Change]) -> Markup {
    html! {
        @for run in all.chunk_by(|one, next| one.figure().is_some() == next.figure().is_some()) {
            @if run.iter().any(|change| change.figure().is_some()) {
                table {
                    thead { tr { @for head in ["what", "before", "now", "change"] { th scope="col" { (head) } } } }
                    tbody {
                        @for one in run.iter().filter_map(Change::figure) {
                            tr {
                                th scope="row" { (clean(&one.what)) }
                                td.n { (seen(&one.old)) } td.n { (seen(&one.new)) } td { (one.remark) }
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
                Tone::Plain | Tone::Quiet => (run.text),
                Tone::Strong | Tone::Amount => strong { (run.text) },
                Tone::Typed => code { (run.text) },
            }
        }
    }
}

fn table(table: &Table) -> Markup {
    let is_marked =
        |at: usize| table.frame == Frame::Log && table.columns.get(at).is_some_and(|column| column.side == Side::Right);
    html! {
        @let is_drawn = table.rows.iter().any(|row| row.drawn.is_some());
        table class=[(table.frame == Frame::Run).then_some("run")] {
            @if table.has_head() {
                thead { tr {
                    @if is_drawn { th scope="col" { "No." } }
                    @for (at, column) in table.columns.iter().enumerate() {
                        th class=[is_marked(at).then_some("n")] scope="col" { (column.head) }
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
    html! {
        @for (at, cell) in row.cells.iter().enumerate() {
            @if let (Some(why), true) = (&row.instead, is_marked(at)) {
                @if !is_marked(at.wrapping_sub(1)) { td colspan=(figures) { strong { (clean(why)) } } }
            } @else if table.frame == Frame::Read && at == 0 {
                th scope="row" { (cell.text) }
            } @else {
                td class=[is_marked(at).then_some("n")] { (cell.text) }
            }
        }
    }
}
