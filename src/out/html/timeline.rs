//! The drawn timeline: a lane for each part, a block for each step.

use super::steps::mark;
use crate::figures::card::{Card, Timeline};
use crate::model::step::StepKind;
use crate::out::picture::strokes;
use crate::out::sheet::timeline::{
    AXIS, Axis, BAR, BAR_TOP, Block, LEFT, Lane, TRACK, TYPE, WIDTH, clock, lanes, name_lines, none, spoken,
};
use crate::out::sheet::{Sheet, doing};
use maud::{Markup, html};

/// The timeline of a card; nothing when it has no steps, or is set small.
pub(super) fn figure(card: &Card, sheet: &Sheet) -> Markup {
    let line = &card.timeline;
    if sheet.compact {
        return html! {};
    }
    if let Some(why) = none(card) {
        return html! { section.line { h2 { "When" } p { (why) } } };
    }
    if line.rows.is_empty() {
        return html! {};
    }
    let lanes = lanes(card);
    let axis = Axis::of(line);
    let tracks: usize = lanes.iter().map(|lane| lane.tracks).sum();
    let height = AXIS + tracks as f64 * TRACK + 6.0;
    html! {
        section.line {
            h2 { "When" }
            figure {
                svg viewBox={ "0 0 " (WIDTH) " " (px(height)) } role="img" font-size=(TYPE) aria-label=(spoken(line, &lanes)) {
                    (draw_axis(&axis, height))
                    (draw_lanes(&lanes, &axis))
                }
                figcaption { (caption(line, &axis)) }
            }
        }
    }
}

fn caption(line: &Timeline, axis: &Axis) -> Markup {
    let minutes = |minutes: i64| crate::measure::show::duration(crate::measure::quantity::Duration::minutes(minutes));
    html! {
        "From first step to last " strong { (minutes(line.span_minutes)) } ". "
        span.kind { (mark(StepKind::Hands)) (doing(StepKind::Hands)) " " (minutes(line.hands_minutes)) }
        " " span.kind { (mark(StepKind::Tend)) (doing(StepKind::Tend)) " " (minutes(line.tend_minutes)) }
        " " span.kind { (mark(StepKind::Wait)) (doing(StepKind::Wait)) }
        " " (axis.note())
    }
}

fn draw_axis(axis: &Axis, height: f64) -> Markup {
    let (labels, breaks) = (axis.labels(), axis.breaks());
    let y = AXIS - 4.0;
    html! {
        @for (_, x) in &labels { line.tl-grid x1=(px(*x)) x2=(px(*x)) y1=(px(y - 6.0)) y2=(px(height)) stroke-width="1.5" {} }
        line.tl-axis x1=(px(LEFT)) x2=(px(axis.end())) y1=(px(y)) y2=(px(y)) stroke-width="3" {}
        @for x in &breaks {
            path.tl-on d=(format!("M{} {}l7 -16h8l-7 16z", px(x - 7.5), px(y + 8.0))) {}
            path.tl-axis d=(format!("M{} {}l7 -16M{} {}l7 -16", px(x - 7.5), px(y + 8.0), px(x + 0.5), px(y + 8.0))) fill="none" stroke-width="2.5" {}
        }
        @for (moment, x) in &labels {
            text x=(px(*x)) y=(px(y - 10.0)) text-anchor="middle" { (clock(*moment)) }
        }
    }
}

fn draw_lanes(lanes: &[Lane<'_>], axis: &Axis) -> Markup {
    let mut top = AXIS;
    let mut drawn = Vec::new();
    for lane in lanes {
        let base = top + BAR_TOP + BAR / 2.0 + 7.0;
        drawn.push(html! {
            @for (at, words) in name_lines(lane.name, lane.tracks).iter().enumerate() {
                text.tl-name x="0" y=(px(base + at as f64 * 20.0)) { (words) }
            }
            @for block in &lane.blocks { (draw_block(block, axis, top + block.track as f64 * TRACK + BAR_TOP)) }
            @for label in &lane.labels(axis) {
                @let base = top + label.track as f64 * TRACK + BAR_TOP - 6.0;
                rect.tl-on x=(px(label.x - 2.0)) y=(px(base - TYPE * 0.84)) width=(px(label.width() + 2.0)) height=(px(TYPE * 1.08)) {}
                text x=(px(label.x)) y=(px(base)) { (label.text) }
            }
        });
        top += lane.tracks as f64 * TRACK;
    }
    html! { @for one in &drawn { (one) } }
}

/// Hands: a full block. Tend: hatched. Wait: a low dotted outline with round ends.
fn draw_block(block: &Block<'_>, axis: &Axis, top: f64) -> Markup {
    let (x, end) = (axis.at(block.row.start), axis.at(block.row.end));
    let width = (end - x).max(4.0);
    html! {
        @match block.row.kind {
            StepKind::Hands => rect.tl-hands x=(px(x + 0.5)) y=(px(top)) width=(px(width - 1.0)) height=(px(BAR)) {},
            StepKind::Tend => {
                rect.tl-tend x=(px(x + 1.5)) y=(px(top + 1.5)) width=(px(width - 3.0)) height=(px(BAR - 3.0)) stroke-width="2.5" {}
                path.tl-hatch d=(hatch(x + 1.5, top + 1.5, width - 3.0, BAR - 3.0)) stroke-width="2" {}
            }
            StepKind::Wait => {
                rect.tl-wait x=(px(x + 2.5)) y=(px(top + 4.0)) width=(px((width - 5.0).max(1.0))) height=(px(BAR - 8.0)) rx="5.5" stroke-width="2.5" {}
            }
        }
        @for x in &axis.breaks_in(block.row) { path.tl-on d=(format!("M{} {}l7 -{h}h8l-7 {h}z", px(x - 7.5), px(top + BAR), h = px(BAR))) {} }
    }
}

fn hatch(x: f64, y: f64, width: f64, height: f64) -> String {
    let lines = strokes(x, y, width, height);
    lines.iter().map(|[a, b, c, d]| format!("M{} {}L{} {}", px(*a), px(*b), px(*c), px(*d))).collect()
}

/// A coordinate with one decimal at most.
fn px(value: f64) -> String {
    let text = format!("{value:.1}");
    text.strip_suffix(".0").map_or_else(|| text.clone(), str::to_owned)
}
