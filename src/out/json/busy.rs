//! Who is busy during a step, in the words of the language.

use crate::model::step::StepKind;
use schemars::JsonSchema;
use serde::Serialize;

/// Who is busy during a step.
#[derive(Clone, Copy, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub(in crate::out) enum Busy {
    /// Somebody works the whole time.
    Hands,
    /// It runs by itself but somebody stays in reach.
    Tend,
    /// Nobody is needed.
    Wait,
}

impl From<StepKind> for Busy {
    fn from(kind: StepKind) -> Busy {
        match kind {
            StepKind::Hands => Busy::Hands,
            StepKind::Tend => Busy::Tend,
            StepKind::Wait => Busy::Wait,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Busy;
    use crate::model::step::StepKind;

    #[test]
    fn a_program_reads_the_words_that_a_baker_writes() {
        for kind in [StepKind::Hands, StepKind::Tend, StepKind::Wait] {
            let written = serde_json::to_value(Busy::from(kind)).map_err(|error| error.to_string());
            assert_eq!(written, Ok(kind.word().into()));
        }
    }
}
