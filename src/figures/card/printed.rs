//! One mass as it is printed: for the scale, as its author wrote it, or as a sum of what is printed.

use super::Maker;
use crate::make::weigh::{self, NOTICEABLE, Reading, Scales, TWENTIETH_OUNCE};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show::{self, Units, WeighedIn};
use crate::measure::shown::Shown;

impl Maker<'_> {
    /// The unit of sums that stand below the column: its own, where that is kilograms.
    pub(super) fn unit_of_sums(&self) -> WeighedIn {
        if self.unit == WeighedIn::Kilograms { self.unit } else { WeighedIn::Alone }
    }

    /// A mass that stands below the column, in its unit.
    pub(super) fn as_in_the_column(&self, mass: Mass) -> Result<Shown, Overflow> {
        Ok(self.printed_in(self.reading_of(mass)?, self.unit_of_sums()))
    }

    /// A printed mass, or one put together from printed ones.
    pub(super) fn printed(&self, reading: Reading) -> Shown {
        self.printed_in(reading, self.unit)
    }

    /// The same in another unit than the column's.
    pub(super) fn printed_in(&self, Reading { mass, ounces }: Reading, unit: WeighedIn) -> Shown {
        match (self.units, ounces) {
            (Units::Both, Some(ounces)) => show::mass_weighed_twice(mass, ounces, unit),
            (units, _) => show::mass_weighed(mass, units, unit),
        }
    }

    /// What the scales show of a mass by itself, in both systems where both are printed.
    pub(super) fn reading_of(&self, mass: Mass) -> Result<Reading, Overflow> {
        self.reading_by(mass, |scales| scales)
    }

    /// As [`Maker::reading_of`], on scales made of those of the kitchen.
    pub(super) fn reading_by(&self, mass: Mass, on: impl Fn(Scales) -> Scales) -> Result<Reading, Overflow> {
        let in_ounces = || on(Scales::of(&self.recipe.kitchen, Units::Us));
        let ounces = (self.units == Units::Both).then(|| weigh::alone(mass, &in_ounces()).map(|weighed| weighed.mass));
        Ok(Reading { mass: weigh::alone(mass, &on(self.scales))?.mass, ounces: ounces.transpose()? })
    }

    /// A mass that stands outside the columns, rounded for the kitchen's scales.
    pub(super) fn by_itself(&self, mass: Mass) -> Result<Shown, Overflow> {
        Ok(self.printed_in(self.reading_of(mass)?, WeighedIn::Alone))
    }

    /// A mass that somebody wrote: never another figure because of a scale. In ounces it is rounded as on a scale where that hardly
    /// moves it, else to a tenth of an ounce.
    pub(super) fn as_said(&self, mass: Mass) -> Result<Shown, Overflow> {
        let in_ounces = || weigh::alone(mass, &Scales::of(&self.recipe.kitchen, Units::Us));
        match self.units {
            Units::Us if in_ounces()?.moved.value() > NOTICEABLE => {
                Ok(show::mass_weighed(self.in_ounces_as_said(mass)?, Units::Us, WeighedIn::Alone))
            }
            Units::Us => self.by_itself(mass),
            Units::Metric => Ok(show::mass(mass, Units::Metric)),
            Units::Both => Ok(show::mass_and_ounces(mass, in_ounces()?.mass)),
        }
    }

    /// What [`Maker::as_said`] prints.
    pub(super) fn reading_as_said(&self, mass: Mass) -> Result<Reading, Overflow> {
        let in_ounces = || weigh::alone(mass, &Scales::of(&self.recipe.kitchen, Units::Us));
        Ok(match self.units {
            Units::Us if in_ounces()?.moved.value() > NOTICEABLE => {
                Reading { mass: self.in_ounces_as_said(mass)?, ounces: None }
            }
            Units::Us => self.reading_of(mass)?,
            Units::Metric => Reading { mass, ounces: None },
            Units::Both => Reading { mass, ounces: Some(in_ounces()?.mass) },
        })
    }

    /// What is left of what is printed when so much that is printed is taken, as the figures stand there; what it is by itself where that
    /// is nothing.
    pub(super) fn rest_in_the_column(
        &self,
        all: Reading,
        taken: [Option<Reading>; 2],
        itself: Mass,
    ) -> Result<Shown, Overflow> {
        let mut rest = all;
        for one in taken.into_iter().flatten() {
            rest.mass = rest.mass.minus(one.mass)?;
            rest.ounces = rest.ounces.zip(one.ounces).map(|(rest, one)| rest.minus(one)).transpose()?;
        }
        let is_something = rest.mass > Mass::ZERO && rest.ounces.is_none_or(|ounces| ounces > Mass::ZERO);
        if !is_something {
            return self.as_in_the_column(itself);
        }
        // Grams that somebody wrote with more digits than the scale has are rounded as it does; ounces are all of the scale.
        if self.units != Units::Us {
            rest.mass = weigh::alone(rest.mass, &self.scales)?.mass;
        }
        Ok(self.printed_in(rest, self.unit_of_sums()))
    }

    /// What is printed in ounces of a mass that somebody wrote and a scale in ounces moves noticeably.
    fn in_ounces_as_said(&self, mass: Mass) -> Result<Mass, Overflow> {
        let tenth = TWENTIETH_OUNCE.times(Number::whole(2))?;
        let tenths = tenth.times(mass.ratio(tenth)?.rounded_to(Number::ONE)?)?;
        // On a scale that shows it no worse it is what that shows: 100 g are 3.55 oz and not 3 1/2.
        let off = |shown: Mass| shown.minus(mass).map(|off| off.value().size());
        let shown = weigh::alone(mass, &Scales::of(&self.recipe.kitchen, Units::Us))?.mass;
        Ok(if off(shown)? <= off(tenths)? { shown } else { tenths })
    }

    /// What a card says of a piece that the scale does not show as it is written; nothing where it does.
    pub(super) fn piece_on_the_scale(&self, each: Mass) -> Result<Option<String>, Overflow> {
        if weigh::alone(each, &self.scales)?.moved.value() <= NOTICEABLE {
            return Ok(None);
        }
        if self.units == Units::Us {
            let printed = self.in_ounces_as_said(each)?;
            // The scale shows 2 oz, which are not quite the 57 g that were written.
            if printed.ratio(self.scales.step_of_a_bowl())?.is_whole() {
                let moved = Proportion::new(printed.minus(each)?.ratio(each)?.size());
                let is_noticed = moved.value() > NOTICEABLE;
                return Ok(is_noticed.then(|| format!("a piece: rounded by {}", show::percent(moved))));
            }
        }
        let step = show::mass(self.scales.main.step, self.units);
        Ok(Some(format!("a piece of {} is not shown in steps of {step}", self.as_said(each)?)))
    }

    /// What a piece weighs that somebody worked out, to a tenth of a gram: over all pieces a gram would add up.
    pub(super) fn to_a_tenth(&self, mass: Mass) -> Result<Shown, Overflow> {
        if self.units == Units::Us {
            return self.as_said(mass);
        }
        Ok(show::mass(Mass::new(mass.value().rounded_to(Number::constant(1, 10))?), self.units))
    }

    /// A mass that stands for itself, rounded for the kitchen's scales.
    pub(super) fn weighed_alone(&self, mass: Mass) -> Result<Shown, Overflow> {
        Ok(self.printed(self.reading_of(mass)?))
    }
}
