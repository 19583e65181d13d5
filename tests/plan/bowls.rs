//! What is mixed in several bowls, one after the other, in a plan.

use super::{Done, Planned, alive, steps};
use miche::make::batch::BatchPart;
use miche::measure::number::Number;
use miche::measure::quantity::Mass;
use miche::model::recipe::{Part, Recipe, Refers};
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

/// The same where other parts take of the dough: by the clock each load takes what the ones before it left, bowl by bowl.
pub fn wait_for_others(
    planned: &Planned<'_>,
    (order, at): (usize, usize),
    made: (&Recipe, &Part, &[Done<'_>]),
    wrong: &mut Vec<String>,
) {
    let (recipe, part, done) = made;
    let [.., mixed, rest] = done else { return };
    let is_rest = rest.step.kind == StepKind::Wait && rest.step.order.is_empty() && rest.loads.len() == 1;
    let is_mixed = mixed.step.kind == StepKind::Hands && mixed.step.shared_by == 1 && !mixed.is_free();
    let bowls = mixed.loads.len();
    if !is_rest || !is_mixed || bowls < 2 || part.keeps.is_some() || !alive(recipe, at, done.len() - 1, 0) {
        return;
    }
    let written = rest.step.time.1.whole_minutes().unwrap();
    let most = rest.step.up_to.and_then(|time| time.whole_minutes()).unwrap_or(written + written / 2);
    let stand = mixed.step.may_stand.and_then(|time| time.whole_minutes()).unwrap_or(10);
    let mut taken: Vec<(i64, Mass)> = Vec::new();
    for user in 0..planned.work.batches.len() {
        let batch = &planned.work.batches[user];
        for (id, taker) in batch.recipe.parts() {
            let is_it = |other| {
                let place = planned.work.made_in(BatchPart { batch: user, part: other });
                place.is_some_and(|place| (place.batch, place.part.0) == (order, at))
            };
            let takes = steps(planned, user, id.0);
            let Some(first) = takes.iter().find(|done| !done.is_free()) else { continue };
            let Some(solved) = batch.formula.part(id) else { continue };
            for (line, amount) in taker.lines.iter().zip(&solved.lines) {
                let Refers::Part(other) = line.refers else { continue };
                if !is_it(other) || line.before.is_some() || line.from_store {
                    continue;
                }
                let Some(mass) = amount.final_mix else { return };
                for ((begins, _), share) in first.loads.iter().zip(&first.shares) {
                    taken.push((*begins, mass.times(share.1.minus(share.0).unwrap()).unwrap()));
                }
            }
        }
    }
    taken.sort_by_key(|load| load.0);
    let all = Mass::sum(taken.iter().map(|load| load.1)).unwrap();
    let mut before = Mass::ZERO;
    for (begins, mass) in taken {
        let share = before.ratio(all).unwrap().times(Number::whole(i64::try_from(bowls).unwrap())).unwrap();
        let bowl = usize::try_from(share.floor().to_whole().unwrap()).unwrap().min(bowls - 1);
        let ended = mixed.loads[bowl].1;
        if begins - ended > most + stand {
            wrong.push(format!(
                "a bowl of `{}` rests {} min until some of it is taken, {} at most",
                part.name,
                begins - ended,
                most + stand
            ));
        }
        before = before.plus(mass).unwrap();
    }
}

/// So little is no piece, or one more or less in a load.
fn some(of: i64) -> Number {
    Number::ONE.over(Number::whole(of)).unwrap()
}

/// Whether each load holds as much as that of the same number of another step.
pub fn are_alike(one: &Done<'_>, other: &Done<'_>) -> bool {
    let alike = |(one, other): (&(Number, Number), &(Number, Number))| {
        one.1.max(other.1).minus(one.1.min(other.1)).unwrap() < some(20)
    };
    one.shares.iter().zip(&other.shares).all(alike)
}

/// No load takes pieces that are not made yet.
pub fn pieces_are_there(part: &Part, steps: &[Done<'_>], wrong: &mut Vec<String>) {
    for pair in steps.windows(2) {
        let [before, then] = pair else { continue };
        if before.is_free() || then.is_free() || !then.step.order.is_empty() {
            continue;
        }
        for turn in then.times() {
            let (before, then) = (before.of(turn), then.of(turn));
            if before.shares.last().map(|share| share.1) != then.shares.last().map(|share| share.1) {
                continue;
            }
            for ((begins, _), share) in then.loads.iter().zip(&then.shares) {
                let share = (share.0.plus(some(20)).unwrap(), share.1.minus(some(20)).unwrap());
                if before.holding(share).any(|load| load.1 > *begins) {
                    let (one, other) = (&before.step.name, &then.step.name);
                    wrong.push(format!(
                        "`{other}` of `{}` takes pieces at {begins} that `{one}` has not made",
                        part.name
                    ));
                }
            }
        }
    }
}
