//! Exact quantities, one kind a type: a mass is not a number and not a volume.

use crate::measure::number::{Number, Overflow};
use crate::measure::running_sum::RunningSum;

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $unit:literal) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(Number);

        impl $name {
            /// Nothing.
            pub const ZERO: $name = $name(Number::ZERO);

            #[doc = concat!("From ", $unit, ".")]
            pub const fn new(value: Number) -> $name {
                $name(value)
            }

            #[doc = concat!("In ", $unit, ".")]
            pub const fn value(self) -> Number {
                self.0
            }

            /// Sum.
            pub fn plus(self, other: $name) -> Result<$name, Overflow> {
                self.0.plus(other.0).map($name)
            }

            /// Difference.
            pub fn minus(self, other: $name) -> Result<$name, Overflow> {
                self.0.minus(other.0).map($name)
            }

            /// So many times this.
            pub fn times(self, factor: Number) -> Result<$name, Overflow> {
                self.0.times(factor).map($name)
            }

            /// This shared out.
            pub fn over(self, factor: Number) -> Result<$name, Overflow> {
                self.0.over(factor).map($name)
            }

            /// How many times the other goes into this.
            pub fn ratio(self, other: $name) -> Result<Number, Overflow> {
                self.0.over(other.0)
            }

            /// Adds up.
            pub fn sum(list: impl IntoIterator<Item = $name>) -> Result<$name, Overflow> {
                let mut sum = RunningSum::NOTHING;
                list.into_iter().try_for_each(|one| sum.add(one.0))?;
                sum.total().map($name)
            }
        }
    };
}

quantity!(
    /// A mass.
    Mass,
    "grams"
);
quantity!(
    /// A volume.
    Volume,
    "millilitres"
);
quantity!(
    /// A number of pieces.
    Count,
    "pieces"
);
quantity!(
    /// A length.
    Length,
    "millimetres"
);
quantity!(
    /// A stretch of time.
    Duration,
    "seconds"
);
quantity!(
    /// A share of something: 1 is all of it, 0.6 is 60 %.
    Proportion,
    "wholes"
);
quantity!(
    /// How heavy a volume is.
    Density,
    "grams per millilitre"
);

impl Proportion {
    /// All of it.
    pub const WHOLE: Proportion = Proportion(Number::ONE);

    /// In percent.
    pub fn percent(self) -> Result<Number, Overflow> {
        self.0.times(Number::whole(100))
    }

    /// The share that is left.
    pub fn rest(self) -> Result<Proportion, Overflow> {
        Number::ONE.minus(self.0).map(Proportion)
    }
}

impl Mass {
    /// That share of this mass.
    pub fn share(self, proportion: Proportion) -> Result<Mass, Overflow> {
        self.times(proportion.value())
    }

    /// Which share of the other mass this is.
    pub fn as_share_of(self, other: Mass) -> Result<Proportion, Overflow> {
        self.ratio(other).map(Proportion::new)
    }
}

impl Volume {
    /// What this volume weighs.
    pub fn weight(self, density: Density) -> Result<Mass, Overflow> {
        self.0.times(density.value()).map(Mass::new)
    }
}

impl Density {
    /// The density of a volume that weighs so much.
    pub fn of(mass: Mass, volume: Volume) -> Result<Density, Overflow> {
        mass.value().over(volume.value()).map(Density)
    }

    /// The volume of that mass.
    pub fn volume(self, mass: Mass) -> Result<Volume, Overflow> {
        mass.value().over(self.0).map(Volume::new)
    }
}

/// The minutes of a day.
pub const MINUTES_A_DAY: i64 = 24 * 60;

impl Duration {
    /// So many days.
    pub const fn days(days: i64) -> Duration {
        Duration(Number::whole(days.saturating_mul(MINUTES_A_DAY * 60)))
    }

    /// In days, exactly.
    pub fn in_days(self) -> Result<Number, Overflow> {
        self.0.over(Number::whole(MINUTES_A_DAY * 60))
    }

    /// In whole days, a day that has begun not counted.
    pub fn whole_days(self) -> Option<i64> {
        self.in_days().ok()?.floor().to_whole()
    }

    /// So many minutes.
    pub fn minutes(minutes: i64) -> Duration {
        Duration(Number::whole(minutes.saturating_mul(60)))
    }

    /// In minutes, exactly.
    pub fn in_minutes(self) -> Result<Number, Overflow> {
        self.0.over(Number::whole(60))
    }

    /// In whole minutes, a started minute counting as one.
    pub fn whole_minutes(self) -> Option<i64> {
        self.in_minutes().ok()?.ceil().to_whole()
    }

    /// Both ends of a range in days, where both are whole days and not both weeks: `7–9 days`, and not `1 week – 9 days`.
    pub fn in_days_to(self, other: Duration) -> Option<(i64, i64)> {
        let days = |time: Duration| time.in_days().ok().and_then(Number::to_whole);
        let (from, to) = (days(self)?, days(other)?);
        (from >= 1 && (from % 7 != 0 || to % 7 != 0)).then_some((from, to))
    }
}
