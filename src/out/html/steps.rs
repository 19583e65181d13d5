//! Steps: when and how hot at the left, what to do at the right, the cue by which it is done in a tag of its own.

use crate::figures::card::{PartCard, StepCard};
use crate::measure::number::Number;
use crate::measure::shown::Shown;
use crate::model::step::StepKind;
use crate::out::prose;
use crate::out::report::clean;
use crate::out::sheet::by_hand::{self, Blank, Room};
use crate::out::sheet::{below_time, beside_name};
use maud::{Markup, html};

/// Beyond this a countdown in a browser is no help: the tablet will have slept.
const LONGEST_TIMER: i64 = 12 * 3600;

/// The steps of a part.
pub(super) fn steps(part: &PartCard) -> Markup {
    html! {
        @if !part.steps.is_empty() {
            ol.steps { @for (at, one) in part.steps.iter().enumerate() { (step(one, at + 1, false)) } }
        }
    }
}

/// One step; `with_start` also says when it begins.
pub(super) fn step(step: &StepCard, number: usize, with_start: bool) -> Markup {
    let name = clean(&step.name);
    html! {
        li class={ "step " (step.kind.word()) } {
            div.when {
                p.time { (time(step)) }
                @if let Some(heat) = &step.temperature_shown { (self::heat(heat)) }
                p.kind { (mark(step.kind)) span { (below_time(step, with_start)) } }
            }
            div.do {
                div.title {
                    h3 { span.num { (number) } (name) @for how in beside_name(step) { span.how { ", " (how) } } }
                    div.marks {
                        @for blank in &by_hand::of_step(step) { (self::blank(blank)) }
                        label.box { input type="checkbox" aria-label={ (name) ", done" }; }
                    }
                }
                (prose::blocks(&step.prose))
                @if !step.cue.is_empty() {
                    div.sign { "until " (prose::blocks(&step.cue)) }
                }
            }
        }
    }
}

/// A place to write in, on paper.
pub(super) fn blank(blank: &Blank) -> Markup {
    let rule = match blank.room {
        Room::Digits => "rule",
        Room::Words => "rule long",
    };
    html! {
        span.blank {
            @if !blank.before.is_empty() { span { (blank.before) } }
            i class=(rule) {}
            @if !blank.after.is_empty() { span { (blank.after) } }
        }
    }
}

/// The time, with its shorter end for the script's timer.
fn time(step: &StepCard) -> Markup {
    let seconds = step.minutes.0.times(Number::whole(60)).ok().and_then(|seconds| seconds.ceil().to_whole());
    let shown = &step.time_shown;
    html! {
        @match seconds {
            Some(seconds) if (1..=LONGEST_TIMER).contains(&seconds) => {
                time datetime={ "PT" (seconds) "S" } data-seconds=(seconds) data-step=(clean(&step.name)) { (shown) }
            }
            _ => (shown),
        }
    }
}

/// A temperature; the other scale, where both are wanted, on a line of its own.
fn heat(shown: &Shown) -> Markup {
    html! { p.heat { (shown.first().to_string()) @if let Some(also) = &shown.also { " " small { (also.to_string()) } } } }
}

/// The same shapes as on the timeline: a full block, a hatched one, a dotted ring.
pub(super) fn mark(kind: StepKind) -> Markup {
    html! {
        svg viewBox="0 0 16 16" aria-hidden="true" focusable="false" {
            @match kind {
                StepKind::Hands => rect.tl-hands x="1" y="1" width="14" height="14" {},
                StepKind::Tend => {
                    rect.tl-tend x="1" y="1" width="14" height="14" stroke-width="2" {}
                    path.tl-hatch d="M1 9 9 1M1 15 15 1M7 15 15 7" stroke-width="2" {}
                }
                StepKind::Wait => circle.tl-wait cx="8" cy="8" r="6.5" stroke-width="2" {},
            }
        }
    }
}
