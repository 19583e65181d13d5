//! Labels on label paper, for a browser that prints: the paper in millimetres, the type as high as the law wants it.

use crate::out::block::Tone;
use crate::out::lettering::faces;
use crate::out::page::{frame, sealed_with_type};
use crate::out::pdf::labels::{self, Fit};
use crate::out::report::clean;
use crate::out::sticker::facts::{Line, Run};
use crate::out::sticker::{LabelPaper, PADDING, Sticker};
use maud::{Markup, PreEscaped, html};

/// Labels as HTML.
///
/// # Errors
/// A sentence, when a label does not fit.
pub fn render(stickers: &[Sticker], paper: &LabelPaper, title: &str) -> Result<String, String> {
    let mut all: Vec<(&Sticker, Fit)> = Vec::new();
    for sticker in stickers {
        let fit = labels::fit(sticker, paper)?;
        let left_on_sheet = paper.on_a_sheet() - all.len() % paper.on_a_sheet();
        let copies = sticker.copies.unwrap_or(left_on_sheet);
        all.extend(std::iter::repeat_n((sticker, fit), copies));
    }
    let (wide, high) = paper.label();
    let style = format!(
        "@page{{size:{}mm {}mm;margin:0}}*{{margin:0;padding:0;box-sizing:border-box}}body{{font-family:\"Miche Card\",Verdana,sans-serif;color:#000;background:#fff}}\
         .sheet{{position:relative;width:{}mm;height:{}mm;break-after:page;overflow:hidden}}.label{{position:absolute;width:{wide}mm;height:{high}mm;padding:{PADDING}mm;line-height:1.16}}\
         h2{{font-size:1.3em;line-height:1.16}}p{{margin-top:.2em}}table{{width:100%;border-collapse:collapse;margin-top:.25em;line-height:1.12}}td,th{{text-align:right;border-top:.3pt solid #000;font-weight:400;vertical-align:top}}\
         thead th{{font-weight:700}}td:first-child,th:first-child{{text-align:left;white-space:pre-wrap}}.net b{{display:inline-block}}.facts{{border:.5pt solid #000;padding:1pt 2.5pt;line-height:1.14;margin:0}}.line{{display:flex;align-items:flex-end}}\
         .line>div{{text-align:right;white-space:pre-wrap}}.line>div:first-child{{text-align:left}}@media screen{{.label{{outline:1px dashed #999}}.sheet{{margin:1rem auto;box-shadow:0 0 4px #999}}}}",
        paper.width, paper.height, paper.width, paper.height
    );
    let style = html! { style { (PreEscaped(faces())) } style { (PreEscaped(style)) } };
    let body = html! {
        main {
            @for (page, sheet) in all.chunks(paper.on_a_sheet()).enumerate() {
                div.sheet {
                    @for (at, (sticker, fit)) in sheet.iter().enumerate() {
                        @let (left, top) = paper.corner(page * paper.on_a_sheet() + at);
                        section.label style={ "left:" (left) "mm;top:" (top) "mm;font-size:" (fit.size) "pt" } { (one(sticker, *fit)) }
                    }
                }
            }
        }
    };
    Ok(frame(title, &sealed_with_type(), &style, &body) + "\n")
}

fn one(sticker: &Sticker, fit: Fit) -> Markup {
    html! {
        h2 { (clean(&sticker.title)) }
        @for paragraph in &sticker.paragraphs {
            p {
                @for phrase in paragraph {
                    @if matches!(phrase.tone, Tone::Strong | Tone::Amount) { b { (phrase.text) } } @else { (phrase.text) }
                }
            }
        }
        // As far below the words as on the paper of a PDF, by which it was seen that all of it fits.
        p.net style={ "font-size:" (fit.net_size) "pt;line-height:1.16;margin-top:" (fit.size * 0.15) "pt" } {
            @for (at, piece) in labels::net_pieces(&sticker.net).into_iter().enumerate() {
                @if at > 0 { " " }
                b { (clean(piece)) }
            }
        }
        div style="margin-top:.25em" {
            @match (&sticker.facts, fit.is_linear) {
                (Some(facts), false) => { (boxed(&facts.lines(f64::from(fit.times)))) }
                (Some(facts), true) => {
                    p.facts { @for run in facts.linear(f64::from(fit.times), fit.inches) { (one_run(&run)) } }
                }
                (None, true) => { p { (clean(&sticker.linear())) } }
                (None, false) => { (table(sticker)) }
            }
        }
    }
}

/// Words of their own size.
fn one_run(run: &Run) -> Markup {
    let style = format!("font-size:{:.2}pt;font-weight:{}", run.points, if run.is_bold { 700 } else { 400 });
    html! { span style=(style) { (clean(&run.text)) } }
}

/// How a cell is set: its line is as high as its own type wants, and not as that of the label around it.
fn cell(runs: &[Run], share: f64, indent: f64) -> String {
    let points = runs.iter().fold(0.0_f64, |most, run| most.max(run.points));
    format!("width:{:.1}%;font-size:{points:.2}pt;padding-left:{indent:.1}pt", share * 100.0)
}

/// The nutrition facts of the United States, in their box.
fn boxed(lines: &[Line]) -> Markup {
    html! {
        div.facts {
            @for line in lines {
                div.line style={ "border-top:" (line.rule) "pt solid #000" } {
                    @for (at, (runs, share)) in line.cells.iter().enumerate() {
                        div style=(cell(runs, *share, if at == 0 { line.indent } else { 0.0 })) { @for run in runs { (one_run(run)) } }
                    }
                }
            }
        }
    }
}

/// The table of nutrition.
fn table(sticker: &Sticker) -> Markup {
    html! {
        table {
            thead { tr {
                @for head in &sticker.head { th scope="col" { (clean(head)) } }
            } }
            tbody {
                @for row in &sticker.rows {
                    tr {
                        @for (at, cell) in row.iter().enumerate() {
                            @if at == 0 { th scope="row" { (clean(cell)) } } @else { td { (clean(cell)) } }
                        }
                    }
                }
            }
        }
    }
}
