//! What is mixed in several bowls, one after the other, in a plan.

use super::{Done, alive};
use miche::measure::number::Number;
use miche::model::recipe::{Part, Recipe};
use miche::model::step::StepKind;

/// A dough that is mixed in bowls one after the other rests from the first of them on: what is taken of it later is of a later bowl.
pub fn wait(recipe: &Recipe, at: usize, part: &Part, steps: &[Done<'_>], wrong: &mut Vec<String>) {
    for (number, three) in steps.windows(3).enumerate() {
        let [mixed, rest, then] = three else { continue };
        let is_rest = rest.step.kind == StepKind::Wait && rest.step.order.is_empty() && then.step.order.is_empty();
        let is_mixed = mixed.step.kind == StepKind::Hands && mixed.step.shared_by == 1 && !mixed.is_free();
        if !is_rest || !is_mixed || !alive(recipe, at, number, 0) {
            continue;
        }
        let written = rest.step.time.1.whole_minutes().unwrap();
        let most = rest.step.up_to.and_then(|time| time.whole_minutes()).unwrap_or(written + written / 2);
        let stand = mixed.step.may_stand.and_then(|time| time.whole_minutes()).unwrap_or(10);
        for turn in then.times() {
            let (mixed, rest, then) = (mixed.of(turn), rest.of(turn), then.of(turn));
            let bowls = mixed.loads.len();
            if bowls < 2 || rest.loads.len() != 1 {
                continue;
            }
            for ((begins, _), share) in then.loads.iter().zip(&then.shares) {
                let bowl =
                    share.0.times(Number::whole(i64::try_from(bowls).unwrap())).unwrap().floor().to_whole().unwrap();
                let ended = mixed.loads[usize::try_from(bowl).unwrap()].1;
                if begins - ended > most + stand {
                    wrong.push(format!(
                        "a bowl of `{}` rests {} min until `{}`, {} at most",
                        part.name,
                        begins - ended,
                        then.step.name,
                        most + stand
                    ));
                }
            }
        }
    }
}
