//! With which step of a part each thing that its steps draw on goes in.

use crate::model::reference::PartId;
use crate::model::step::{Step, Target, Words};

/// For each thing that the steps of a part draw on, the first step that does.
#[derive(Debug, Clone, Default)]
pub struct FirstDraws {
    /// By the number of the line; shorter than the part where its last lines are drawn by no step.
    lines: Vec<Option<usize>>,
    preferments: Vec<(PartId, usize)>,
}

impl FirstDraws {
    /// Of some steps.
    pub(crate) fn of(steps: &[Step]) -> FirstDraws {
        let mut draws = FirstDraws::default();
        for (at, step) in steps.iter().enumerate() {
            for word in &step.words {
                if let Words::Use { target: Some(target), .. } = word {
                    draws.note(*target, at);
                }
            }
        }
        draws
    }

    fn note(&mut self, target: Target, at: usize) {
        match target {
            Target::Line(line) => {
                if self.lines.len() <= line {
                    self.lines.resize(line + 1, None);
                }
                if let Some(first) = self.lines.get_mut(line) {
                    first.get_or_insert(at);
                }
            }
            Target::Preferment(id) => {
                if self.preferments.iter().all(|(known, _)| *known != id) {
                    self.preferments.push((id, at));
                }
            }
        }
    }

    /// The first step that draws on it.
    pub fn get(&self, target: &Target) -> Option<&usize> {
        match target {
            Target::Line(line) => self.lines.get(*line)?.as_ref(),
            Target::Preferment(id) => self.preferments.iter().find(|(known, _)| known == id).map(|(_, at)| at),
        }
    }

    /// Whether no step draws on anything.
    pub fn is_empty(&self) -> bool {
        self.lines.is_empty() && self.preferments.is_empty()
    }
}
