//! Steps of a part that begin by the clock before the one that stands above them: read as of the next day, which nobody meant.

use crate::language::bakes::{Ran, Took};
use crate::model::recipe::Recipe;
use crate::model::reference::StepRef;
use crate::text::diagnostic::Diagnostic;
use jiff::civil::Time;

/// What lies longer apart, in minutes, is looked at: a night's rest is no longer, and a slip of an hour is.
const LONGEST: i64 = 12 * 60;
const DAY: i64 = 24 * 60;

/// The steps of a bake that have both times of the clock, in the order in which a part is made. Of loads and of what is done piece by piece
/// the next step begins before all is through.
#[derive(Default)]
pub(super) struct Sequence<'b> {
    ran: Vec<(StepRef, &'b Ran, Time)>,
}

impl<'b> Sequence<'b> {
    /// Takes in what was written of a step.
    pub(super) fn note(&mut self, at: StepRef, ran: &'b Ran) {
        if let (Some(Took::Between(begin, _)), None) = (ran.time.map(|time| time.value), &ran.load) {
            self.ran.push((at, ran, begin));
        }
    }

    /// A step that begins before the one above it began, unless what lies between may take until the next day. Overlapping is usual, and
    /// told nowhere.
    pub(super) fn problems(mut self, recipe: &Recipe) -> Vec<Diagnostic> {
        self.ran.sort_by_key(|(at, ..)| (at.part.0, at.step));
        let pairs = self.ran.iter().zip(self.ran.iter().skip(1));
        pairs.filter_map(|(first, then)| too_early(recipe, first, then)).collect()
    }
}

fn too_early(
    recipe: &Recipe,
    (first_at, first, first_begin): &(StepRef, &Ran, Time),
    (at, ran, begin): &(StepRef, &Ran, Time),
) -> Option<Diagnostic> {
    if first_at.part != at.part || begin >= first_begin {
        return None;
    }
    let minute = |time: &Time| i64::from(time.hour()) * 60 + i64::from(time.minute());
    let apart = minute(begin) + DAY - minute(first_begin);
    let between = recipe.part(at.part)?.steps.get(first_at.step..at.step)?;
    let longest = |step: &crate::model::step::Step| {
        let most = step.up_to.unwrap_or(step.time.1).in_minutes().ok()?.ceil().to_whole()?;
        let stands = step.may_stand.map_or(Some(0), |time| time.in_minutes().ok()?.ceil().to_whole())?;
        Some(most.saturating_add(stands))
    };
    // Work on single pieces takes so many times as long.
    let is_by_piece = between.iter().any(|step| step.loads.is_by_piece());
    let all = between.iter().map(longest).sum::<Option<i64>>()?;
    if is_by_piece || apart <= LONGEST || apart <= all.saturating_mul(2) {
        return None;
    }
    let clock = |time: &Time| time.strftime("%H:%M").to_string();
    let message = format!(
        "`{}` begins at {}, before `{}` began at {}: read as the next day it would be {} h later",
        ran.step,
        clock(begin),
        first.step,
        clock(first_begin),
        apart / 60
    );
    Some(
        Diagnostic::warning("log-out-of-time", ran.time?.span, message)
            .help("mend the time that was written down wrongly"),
    )
}
