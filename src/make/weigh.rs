//! From exact masses to what the kitchen's scales show.

use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show::Units;
use crate::model::kitchen::{Kitchen, Scale};

/// A mass as it is weighed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Weighed {
    /// What is put on the scale.
    pub mass: Mass,
    /// Which scale.
    pub scale: ScaleUsed,
    /// How far rounding moved it, as a share of the exact mass.
    pub moved: Proportion,
}

/// Which scale a mass is weighed on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ScaleUsed {
    /// The scale for everything.
    Main,
    /// The fine scale.
    Fine,
    /// None of the kitchen's scales shows it; it is printed as it is.
    None,
}

/// Rounding that moves an ingredient by more than this is worth the fine scale, and worth saying.
pub const NOTICEABLE: Number = Number::constant(5, 1000);
/// Rounding that moves an ingredient by more than this would weigh out something else.
const TOO_FAR: Number = Number::constant(5, 100);

/// The scales that figures are rounded for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Scales {
    /// The scale for everything.
    pub main: Scale,
    /// The fine scale.
    pub fine: Option<Scale>,
    /// The step of a scale that nobody here has, for what the others do not show; a tenth of it for less, and so on.
    finer: Mass,
}

impl Scales {
    /// A kitchen's, read in these units. Read in ounces a scale steps by quarters, so figures are rounded to those and the
    /// printed lines add up.
    pub fn of(kitchen: &Kitchen, units: Units) -> Scales {
        match units {
            Units::Us => Scales {
                main: Scale { step: QUARTER_OUNCE, up_to: kitchen.scale.up_to },
                fine: Some(Scale { step: TWENTIETH_OUNCE, up_to: Some(POUND) }),
                finer: HUNDREDTH_OUNCE,
            },
            Units::Metric | Units::Both => {
                Scales { main: kitchen.scale, fine: kitchen.fine_scale, finer: Mass::new(Number::constant(1, 100)) }
            }
        }
    }
}

/// A step of a scale that is read in ounces.
pub const QUARTER_OUNCE: Mass = Mass::new(Number::constant(45_359_237, 6_400_000));
/// A step of a fine scale that is read in ounces.
pub const TWENTIETH_OUNCE: Mass = Mass::new(Number::constant(45_359_237, 32_000_000));
/// A step of a scale for spices that is read in ounces.
const HUNDREDTH_OUNCE: Mass = Mass::new(Number::constant(45_359_237, 160_000_000));
/// The international pound.
pub const POUND: Mass = Mass::new(Number::constant(45_359_237, 100_000));

/// Rounds masses for the kitchen's scales so that the printed lines add up to the printed total.
///
/// Those on the main scale are rounded together by the largest remainder: their sum is the rounded sum, and each is at
/// most one step from its exact mass. Small ones go on the fine scale, if there is one, where the main scale would move
/// them noticeably.
///
/// # Errors
/// When a mass leaves the range of exact numbers.
pub fn weigh_out(masses: &[Mass], scales: &Scales) -> Result<(Vec<Weighed>, Mass), Overflow> {
    let mut weighed = Vec::with_capacity(masses.len());
    for mass in masses {
        weighed.push(alone(*mass, scales)?);
    }
    share_remainders(masses, &mut weighed, scales.main.step)?;
    let total = Mass::sum(weighed.iter().map(|one| one.mass))?;
    Ok((weighed, total))
}

/// Rounds one mass by itself.
///
/// # Errors
/// When it leaves the range of exact numbers.
pub fn alone(mass: Mass, scales: &Scales) -> Result<Weighed, Overflow> {
    let main = rounded(mass, scales.main.step, ScaleUsed::Main)?;
    if main.moved.value() <= NOTICEABLE {
        return Ok(main);
    }
    let best = match scales.fine.filter(|fine| fine.up_to.is_none_or(|most| mass <= most)) {
        Some(fine) => rounded(mass, fine.step, ScaleUsed::Fine)?,
        None => main,
    };
    if best.moved.value() <= TOO_FAR {
        return Ok(best);
    }
    // No scale here shows it. A wrong figure would be worse than one that needs a finer scale.
    let mut step = scales.finer;
    let mut printed = rounded(mass, step, ScaleUsed::None)?;
    for _ in 0..3 {
        if printed.moved.value() <= TOO_FAR {
            break;
        }
        step = step.over(Number::whole(10))?;
        printed = rounded(mass, step, ScaleUsed::None)?;
    }
    Ok(printed)
}

fn rounded(mass: Mass, step: Mass, scale: ScaleUsed) -> Result<Weighed, Overflow> {
    let shown = Mass::new(mass.value().rounded_to(step.value())?);
    Ok(Weighed { mass: shown, scale, moved: moved(mass, shown)? })
}

fn moved(exact: Mass, shown: Mass) -> Result<Proportion, Overflow> {
    if exact.value().is_zero() {
        return Ok(Proportion::ZERO);
    }
    shown.minus(exact)?.ratio(exact).map(|share| Proportion::new(share.size()))
}

/// Moves single steps between the lines on the main scale until they add up to their rounded sum.
fn share_remainders(masses: &[Mass], weighed: &mut [Weighed], step: Mass) -> Result<(), Overflow> {
    let on_main = |one: &Weighed| one.scale == ScaleUsed::Main;
    let exact = Mass::sum(masses.iter().zip(weighed.iter()).filter(|(_, one)| on_main(one)).map(|(mass, _)| *mass))?;
    let target = exact.value().rounded_to(step.value())?;
    let mut lines: Vec<(usize, Number)> = Vec::new();
    let mut floor_sum = Number::ZERO;
    for (at, (mass, one)) in masses.iter().zip(weighed.iter_mut()).enumerate() {
        if one.scale != ScaleUsed::Main {
            continue;
        }
        let floor = mass.value().over(step.value())?.floor().times(step.value())?;
        lines.push((at, mass.value().minus(floor)?));
        one.mass = Mass::new(floor);
        floor_sum = floor_sum.plus(floor)?;
    }
    let missing = target.minus(floor_sum)?.over(step.value())?.to_whole().unwrap_or(0);
    // Largest remainder first; of equal ones the earlier line, so that the same batch always prints the same.
    lines.sort_by(|a, b| b.1.cmp(&a.1).then(a.0.cmp(&b.0)));
    for (at, _) in lines.iter().take(usize::try_from(missing).unwrap_or(0)) {
        if let Some(one) = weighed.get_mut(*at) {
            one.mass = one.mass.plus(step)?;
        }
    }
    for (mass, one) in masses.iter().zip(weighed.iter_mut()) {
        one.moved = moved(*mass, one.mass)?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::larder::pantry::bare_kitchen;

    fn grams(numerator: i128, denominator: i128) -> Mass {
        Mass::new(Number::fraction(numerator, denominator).expect("not zero"))
    }

    fn home(units: Units) -> Scales {
        Scales::of(&bare_kitchen(), units)
    }

    #[test]
    fn in_ounces_too_nothing_is_rounded_to_something_else() {
        for numerator in 1..4000 {
            let mass = grams(numerator, 100);
            let weighed = alone(mass, &home(Units::Us)).expect("in range");
            assert!(weighed.moved.value() <= TOO_FAR, "{mass:?}: {weighed:?}");
        }
    }

    #[test]
    fn printed_lines_add_up_to_the_printed_total() {
        let masses = [grams(1003, 3), grams(1003, 3), grams(1003, 3)];
        let (weighed, total) = weigh_out(&masses, &home(Units::Metric)).expect("in range");
        assert_eq!(total, grams(1003, 1));
        let shown: Vec<String> = weighed.iter().map(|one| one.mass.value().decimal(0)).collect();
        assert_eq!(shown, ["335", "334", "334"]);
    }

    #[test]
    fn what_no_scale_shows_is_not_rounded_away() {
        let (weighed, _) = weigh_out(&[grams(4, 10)], &home(Units::Metric)).expect("in range");
        assert_eq!(weighed[0].scale, ScaleUsed::None);
        assert_eq!(weighed[0].mass, grams(4, 10));
    }
}
