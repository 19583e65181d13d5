//! What is to follow within some time does so with each of its loads, in a plan.

use super::{Done, Planned, bowls, steps};
use miche::make::batch::BatchPart;
use miche::model::step::{StepKind, Timing};

/// Each load of a step `within 20 min after` another begins no later than that after it.
pub fn each_load(planned: &Planned<'_>, order: usize, here: &[Done<'_>], wrong: &mut Vec<String>) {
    for done in here {
        let within = done.step.order.iter().find_map(|order| match order {
            Timing::Within(time, other) => Some((time.whole_minutes().unwrap(), *other)),
            _ => None,
        });
        let Some((most, other)) = within else { continue };
        let Some(place) = planned.work.made_in(BatchPart { batch: order, part: other.part }) else { continue };
        let made = steps(planned, place.batch, place.part.0);
        let Some(before) = made.get(other.step) else { continue };
        for turn in done.times() {
            let (before, then) = (before.of(turn), done.of(turn));
            if before.loads.is_empty() {
                continue;
            }
            let same = before.loads.len() == then.loads.len() && bowls::are_alike(&before, &then);
            for (load, (begins, _)) in then.loads.iter().enumerate() {
                // What comes to each load is ready with the last that goes into it; without loads of its own, with the last of all.
                let ended = match same {
                    true => before.loads[load].1,
                    false if before.parts_before(&then) => {
                        before.holding(then.shares[load]).map(|load| load.1).max().unwrap_or(*begins)
                    }
                    false => before.ends(),
                };
                // Work that several may share goes on when the share before is done, if one alone does it all.
                let is_share = then.step.shared_by > 1 && then.step.kind == StepKind::Hands && load > 0;
                let is_next = is_share && *begins <= then.loads[load - 1].1 + 10;
                if begins - ended > most && !is_next {
                    wrong.push(format!(
                        "load {load} of `{}` comes {} min after `{}`, {most} at most",
                        then.step.name,
                        begins - ended,
                        before.step.name
                    ));
                }
            }
        }
    }
}

/// What is done during a rest begins when that has begun, and ends before that is over: before it is taken up, where it may go on.
pub fn beside(planned: &Planned<'_>, order: usize, here: &[Done<'_>], wrong: &mut Vec<String>) {
    let recipe = &planned.work.batches[order].recipe;
    for done in here {
        let during = done.step.order.iter().find_map(|order| match order {
            Timing::During(other) => Some(*other),
            _ => None,
        });
        let Some(other) = during else { continue };
        let Some(place) = planned.work.made_in(BatchPart { batch: order, part: other.part }) else { continue };
        let all = steps(planned, place.batch, place.part.0);
        let Some(rest) = all.get(other.step).filter(|rest| rest.step.kind == StepKind::Wait) else { continue };
        let most = rest.step.up_to.and_then(|time| time.whole_minutes());
        let next = all.iter().skip(other.step + 1).find(|next| !next.is_free()).map(Done::begins);
        let users = recipe.users(other.part).filter_map(|(user, _)| {
            let user = planned.work.made_in(BatchPart { batch: order, part: user })?;
            steps(planned, user.batch, user.part.0).iter().find(|first| !first.is_free()).map(Done::begins)
        });
        let taken = next.or_else(|| users.max()).unwrap_or_else(|| rest.ends());
        // What is kept on in the cold is kept where it rests.
        let kept = recipe.parts[other.part.0].keeps.filter(|keeps| keeps.how.is_cold() && most.is_some());
        let kept = kept.and_then(|keeps| keeps.time.whole_minutes()).map(|keeps| rest.ends() + keeps);
        let most = most.map(|most| rest.begins() + most).max(kept);
        let until = most.map_or(rest.ends(), |most| taken.min(most).max(rest.ends()));
        if done.begins() < rest.begins() || done.ends() > until {
            wrong.push(format!(
                "`{}` from {} to {} does not lie in `{}`, from {} to {until}",
                done.step.name,
                done.begins(),
                done.ends(),
                rest.step.name,
                rest.begins()
            ));
        }
    }
}
