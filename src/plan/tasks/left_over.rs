//! What is left over of one part and taken by another on the same day is taken after it was left.

use super::super::problem::{Lag, Point, Rule};
use super::Making;
use crate::make::batch::BatchPart;
use crate::make::store;
use crate::measure::quantity::Mass;
use crate::model::flow;
use crate::model::recipe::Refers;
use crate::model::step::Target;
use std::collections::HashMap;

/// A line at the step that takes it.
struct AtStep {
    /// What is left, or what is taken from the store.
    what: String,
    mass: Mass,
    /// The tasks of the step.
    tasks: Vec<usize>,
}

impl Making<'_> {
    /// Puts whoever takes what is left over after those who leave as much as is taken, in the order of the work. What would have
    /// to be there before it is left comes from elsewhere.
    pub(super) fn link_left_over(&mut self) {
        let (left, taken) = self.left_and_taken();
        let follows = self.followers();
        for taker in taken {
            let mut lacking = taker.mass;
            for one in left.iter().filter(|one| store::is_one_thing(&one.what, &taker.what)) {
                let (Some(end), Some(begin)) = (one.tasks.last(), taker.tasks.first()) else { continue };
                let comes_before = flow::reached(*begin, |task| follows.get(&task).cloned().unwrap_or_default());
                if lacking <= Mass::ZERO || comes_before.contains(end) {
                    continue;
                }
                self.tasks.lags.push(Lag { rule: Rule::After, ..Lag::after(*end, *begin) });
                lacking = lacking.minus(one.mass).unwrap_or(Mass::ZERO);
            }
        }
    }

    /// What lines leave and what ingredients lines take from the store.
    fn left_and_taken(&self) -> (Vec<AtStep>, Vec<AtStep>) {
        let (mut left, mut taken) = (Vec::new(), Vec::new());
        for (at, BatchPart { batch, part: id }) in self.made.iter().copied().enumerate() {
            let Some(batch) = self.work.batches.get(batch) else { continue };
            let (Some(part), Some(solved)) = (batch.recipe.part(id), batch.formula.part(id)) else { continue };
            for (number, (line, amount)) in part.lines.iter().zip(&solved.lines).enumerate() {
                let draws =
                    |step: &usize| part.steps.get(*step).is_some_and(|step| flow::draws(step, Target::Line(number)));
                let step = (0..part.steps.len()).find(draws).unwrap_or_else(|| flow::first_taker(part));
                let here = |what: String, mass: Mass| AtStep { what, mass, tasks: self.tasks_of(at, step) };
                let mass = amount.final_mix.unwrap_or(Mass::ZERO);
                match (&line.leaves, &line.refers) {
                    _ if line.from_store => {
                        if matches!(line.refers, Refers::Pantry(_)) {
                            taken.push(here(line.name.to_string(), mass));
                        }
                    }
                    (Some((name, share)), _) => {
                        left.push(here(name.to_string(), mass.share(*share).unwrap_or(Mass::ZERO)));
                    }
                    (None, _) => {}
                }
            }
        }
        (left, taken)
    }

    /// For each task, those that cannot begin before it has.
    fn followers(&self) -> HashMap<usize, Vec<usize>> {
        let mut follows: HashMap<usize, Vec<usize>> = HashMap::new();
        for lag in self.tasks.lags.iter().filter(|lag| lag.least >= 0) {
            let (Point { task: from, .. }, Point { task: to, .. }) = (lag.from, lag.to);
            follows.entry(from).or_default().push(to);
        }
        follows
    }
}
