//! The drawn timeline: a lane for each part, a block for each step.

use super::steps::mark;
use crate::figures::card::{Card, Timeline};
use crate::model::step::StepKind;
use crate::out::sheet::doing;
use crate::out::sheet::timeline::{
    AXIS, Axis, Block, LEFT, Lane, TRACK, WIDTH, clock, lanes, name_lines, spoken, strokes,
};
use maud::{Markup, html};

/// The timeline of a card; nothing when it has no steps.
pub(super) fn figure(card: &Card) -> Markup {
    let line = &card.timeline;
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
                svg viewBox={ "0 0 " (WIDTH) " " (px(height)) } role="img" aria-label=(spoken(line, &lanes)) {
                    (draw_axis(&axis, height))
                    (draw_lanes(&lanes, &axis))
                }
                figcaption { (caption(line)) }
            }
        }
    }
}

fn caption(line: &Timeline) -> Markup {
    let minutes = |minutes: i64| crate::measure::show::duration(crate::measure::quantity::Duration::minutes(minutes));
    html! {
        "From first step to last " strong { (minutes(line.span_minutes)) } ". "
        span.kind { (mark(StepKind::Hands)) (doing(StepKind::Hands)) " " (minutes(line.hands_minutes)) }
        " " span.kind { (mark(StepKind::Tend)) (doing(StepKind::Tend)) " " (minutes(line.tend_minutes)) }
        " " span.kind { (mark(StepKind::Wait)) (doing(StepKind::Wait)) }
        " Times are hours:minutes from the start; long rests are drawn shorter."
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
            text x=(px(*x)) y=(px(y - 10.0)) font-size="20" text-anchor="middle" { (clock(*moment)) }
        }
    }
}

fn draw_lanes(lanes: &[Lane<'_>], axis: &Axis) -> Markup {
    let mut top = AXIS;
    let mut drawn = Vec::new();
    for lane in lanes {
        let middle = top + TRACK / 2.0;
        drawn.push(html! {
            @for (at, words) in name_lines(lane.name, lane.tracks).iter().enumerate() {
                text.tl-name x="0" y=(px(middle + 7.0 + at as f64 * 20.0)) font-size="20" { (words) }
            }
            @for block in &lane.blocks { (draw_block(block, axis, top + block.track as f64 * TRACK)) }
        });
        top += lane.tracks as f64 * TRACK;
    }
    html! { @for one in &drawn { (one) } }
}

/// Hands: a full block. Tend: a lower one, hatched. Wait: a low dotted outline with round ends.
fn draw_block(block: &Block<'_>, axis: &Axis, top: f64) -> Markup {
    let (x, end) = (axis.at(block.row.start), axis.at(block.row.end));
    let width = (end - x).max(4.0);
    let label = block.number.to_string();
    let center = x + width / 2.0;
    let middle = top + TRACK / 2.0;
    html! {
        @match block.row.kind {
            StepKind::Hands => {
                rect.tl-hands x=(px(x + 1.0)) y=(px(top + 4.0)) width=(px(width - 2.0)) height=(px(TRACK - 8.0)) {}
                text.tl-num x=(px(center)) y=(px(middle + 7.0)) font-size="20" text-anchor="middle" { (label) }
            }
            StepKind::Tend => {
                rect.tl-tend x=(px(x + 2.0)) y=(px(top + 9.0)) width=(px(width - 4.0)) height=(px(TRACK - 18.0)) stroke-width="2.5" {}
                path.tl-hatch d=(hatch(x + 2.0, top + 9.0, width - 4.0, TRACK - 18.0)) stroke-width="2" {}
                rect.tl-on x=(px(center - 13.0)) y=(px(top + 10.5)) width="26" height=(px(TRACK - 21.0)) {}
                text x=(px(center)) y=(px(middle + 7.0)) font-size="20" font-weight="700" text-anchor="middle" { (label) }
            }
            StepKind::Wait => {
                rect.tl-wait x=(px(x + 2.5)) y=(px(top + 12.0)) width=(px((width - 5.0).max(1.0))) height=(px(TRACK - 24.0)) rx="8" stroke-width="2.5" {}
                rect.tl-on x=(px(center - 11.0)) y=(px(top + 10.0)) width="22" height=(px(TRACK - 20.0)) {}
                text x=(px(center)) y=(px(middle + 7.0)) font-size="20" text-anchor="middle" { (label) }
            }
        }
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
