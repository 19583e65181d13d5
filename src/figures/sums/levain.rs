//! Building a levain from a seed: so many feeds, each multiplying what there is by the same factor.

use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Proportion};

/// What is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Build {
    /// The levain that is needed.
    pub needed: Mass,
    /// The seed that there is.
    pub seed: Mass,
    /// How many feeds.
    pub feeds: u32,
    /// Water on flour, in the levain and in the seed.
    pub hydration: Proportion,
}

/// One feed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Feed {
    /// What of the stage before goes in.
    pub ripe: Mass,
    /// Flour.
    pub flour: Mass,
    /// Water.
    pub water: Mass,
    /// What it makes.
    pub makes: Mass,
}

/// A schedule of feeds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Schedule {
    /// By how much each feed multiplies.
    pub factor: Number,
    /// The feeds in order.
    pub feeds: Vec<Feed>,
}

/// Why there is no schedule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoSchedule {
    /// A mass, the hydration or the number of feeds is nothing or more than anybody would build.
    Impossible,
    /// The seed is as much as is needed: nothing to feed.
    EnoughAlready,
    /// Each feed would have to multiply by more than 20 (1 : 9½ : 9½).
    TooSteep,
    /// A figure left the range of exact numbers.
    TooLarge,
}

impl From<Overflow> for NoSchedule {
    fn from(_: Overflow) -> NoSchedule {
        NoSchedule::TooLarge
    }
}

/// No feed multiplies by more: the flour would turn before the levain takes hold (common practice, no source).
const STEEPEST: Number = Number::whole(20);

/// Works out the feeds, backwards from what is needed. The factor is the smallest multiple of a half by which the seed is
/// enough, so that the parts can be read as 1 : 2 : 2.
///
/// # Errors
/// When no schedule can be: see [`NoSchedule`].
pub fn schedule(build: &Build) -> Result<Schedule, NoSchedule> {
    let positive = build.needed > Mass::ZERO && build.seed > Mass::ZERO && build.hydration.value().is_positive();
    if !positive || build.feeds == 0 || build.feeds > 12 {
        return Err(NoSchedule::Impossible);
    }
    if build.seed >= build.needed {
        return Err(NoSchedule::EnoughAlready);
    }
    let factor = factor(build)?;
    let mut feeds = Vec::new();
    let mut makes = build.needed;
    for _ in 0..build.feeds {
        let ripe = makes.over(factor)?;
        let fed = makes.minus(ripe)?;
        let flour = fed.over(Number::ONE.plus(build.hydration.value())?)?;
        feeds.push(Feed { ripe, flour, water: fed.minus(flour)?, makes });
        makes = ripe;
    }
    feeds.reverse();
    Ok(Schedule { factor, feeds })
}

fn factor(build: &Build) -> Result<Number, NoSchedule> {
    let half = Number::constant(1, 2);
    let mut factor = Number::constant(3, 2);
    while factor <= STEEPEST {
        let mut reached = build.seed;
        for _ in 0..build.feeds {
            reached = reached.times(factor)?;
        }
        if reached >= build.needed {
            return Ok(factor);
        }
        factor = factor.plus(half)?;
    }
    Err(NoSchedule::TooSteep)
}

impl From<NoSchedule> for String {
    fn from(why: NoSchedule) -> String {
        match why {
            NoSchedule::Impossible => "a levain needs some seed, some water and from 1 to 12 feeds".to_owned(),
            NoSchedule::EnoughAlready => {
                "there is as much seed as levain is needed: nothing is to be built, or say less `--seed`".to_owned()
            }
            NoSchedule::TooSteep => {
                "each feed would have to multiply the levain by more than 20: say more `--feeds` or more `--seed`"
                    .to_owned()
            }
            NoSchedule::TooLarge => "a levain of that size leaves the range of exact numbers".to_owned(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn g(grams: i64) -> Mass {
        Mass::new(Number::whole(grams))
    }

    /// A feed of 1 : 2 : 2 multiplies by five (arithmetic): 20 g of seed make 100 g and then 500 g.
    #[test]
    fn two_feeds_of_one_two_two() {
        let schedule = schedule(&Build { needed: g(500), seed: g(20), feeds: 2, hydration: Proportion::WHOLE });
        let schedule = schedule.expect("possible");
        assert_eq!(schedule.factor, Number::whole(5));
        assert_eq!(schedule.feeds[0], Feed { ripe: g(20), flour: g(40), water: g(40), makes: g(100) });
        assert_eq!(schedule.feeds[1], Feed { ripe: g(100), flour: g(200), water: g(200), makes: g(500) });
    }

    /// Formula sheet in the Bread Bakers Guild's layout, 11.345 kg (seen): 0.604 kg of seed, 1.511 flour, 0.906 water make 3.021 kg:
    /// a factor of five in one feed at 60 % of water.
    #[test]
    fn one_feed_as_printed_by_the_guild() {
        let build =
            Build { needed: g(3021), seed: g(605), feeds: 1, hydration: Proportion::new(Number::constant(3, 5)) };
        let schedule = schedule(&build).expect("possible");
        let feed = schedule.feeds[0];
        assert_eq!(feed.ripe.value().decimal(0), "604");
        assert_eq!(feed.flour.value().decimal(0), "1511");
        assert_eq!(feed.water.value().decimal(0), "906");
    }

    #[test]
    fn what_cannot_be_is_said() {
        let build = |needed, seed, feeds| {
            schedule(&Build { needed: g(needed), seed: g(seed), feeds, hydration: Proportion::WHOLE })
        };
        assert_eq!(build(500, 0, 1), Err(NoSchedule::Impossible));
        assert_eq!(build(500, 20, 0), Err(NoSchedule::Impossible));
        assert_eq!(build(500, 500, 1), Err(NoSchedule::EnoughAlready));
        assert_eq!(build(5000, 20, 1), Err(NoSchedule::TooSteep));
    }

    proptest! {
        #[test]
        fn it_adds_up_and_takes_no_more_seed_than_there_is(needed in 100..50_000_i64, seed in 5..90_i64, feeds in 1..5_u32, water in 50..130_i64) {
            let hydration = Proportion::new(Number::fraction(i128::from(water), 100).expect("not nothing"));
            if let Ok(schedule) = schedule(&Build { needed: g(needed), seed: g(seed), feeds, hydration }) {
                let mut before = schedule.feeds[0].ripe;
                prop_assert!(before <= g(seed));
                for feed in &schedule.feeds {
                    prop_assert_eq!(feed.ripe, before);
                    prop_assert_eq!(Mass::sum([feed.ripe, feed.flour, feed.water]), Ok(feed.makes));
                    before = feed.makes;
                }
                prop_assert_eq!(before, g(needed));
            }
        }
    }
}
