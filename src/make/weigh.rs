//! From exact masses to what the kitchen's scales show.

use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show::{TOO_FAR, Units};
use crate::measure::sizes::{self, pounds};
use crate::model::kitchen::{Kitchen, Scale};
use std::cmp::Ordering;
use std::collections::BTreeMap;

/// A mass as it is weighed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Weighed {
    /// What is put on the scale.
    pub mass: Mass,
    /// Which scale.
    pub scale: ScaleUsed,
    /// How far rounding moved it, as a share of the exact mass.
    pub moved: Proportion,
    /// What a scale that is read in ounces shows of it, where both stand on a card.
    pub ounces: Option<Mass>,
}

impl Weighed {
    /// What is printed of it.
    pub fn reading(&self) -> Reading {
        Reading { mass: self.mass, ounces: self.ounces }
    }
}

/// A printed mass; where a card prints it in two systems, what the scale of each shows, so that both columns add up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reading {
    /// On the kitchen's scale.
    pub mass: Mass,
    /// On one that is read in ounces; `None` where only one system is printed.
    pub ounces: Option<Mass>,
}

impl Reading {
    /// Nothing on the scale, read in ounces too.
    pub const ZERO: Reading = Reading { mass: Mass::ZERO, ounces: Some(Mass::ZERO) };

    /// Both together.
    ///
    /// # Errors
    /// When a mass leaves the range of exact numbers.
    pub fn plus(self, other: Reading) -> Result<Reading, Overflow> {
        let ounces = self.ounces.zip(other.ounces).map(|(one, other)| one.plus(other)).transpose()?;
        Ok(Reading { mass: self.mass.plus(other.mass)?, ounces })
    }

    /// What is left when the other is taken off.
    ///
    /// # Errors
    /// When a mass leaves the range of exact numbers.
    pub fn minus(self, other: Reading) -> Result<Reading, Overflow> {
        let ounces = self.ounces.zip(other.ounces).map(|(one, other)| one.minus(other)).transpose()?;
        Ok(Reading { mass: self.mass.minus(other.mass)?, ounces })
    }
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

/// The scales that figures are rounded for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Scales {
    /// The scale for everything.
    pub main: Scale,
    /// The fine scale.
    pub fine: Option<Scale>,
    /// The step of a scale that nobody here has, for what the others do not show; a tenth of it for less, and so on.
    finer: Mass,
    read_in: ReadIn,
}

/// In what the scales of a kitchen are read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum ReadIn {
    Grams,
    /// A kitchen's scale in grams, read in ounces: it shows twentieths as well as quarters, so that it is the fine one too.
    GramsAsOunces,
    /// Scales whose steps are ounces.
    Ounces,
}

impl Scales {
    /// A kitchen's, read in these units. A scale in grams that is read in ounces steps by quarters, one in ounces that is read in
    /// grams by 1, 2, 5, 10 g and so on, so figures are rounded to those and the printed lines add up.
    pub fn of(kitchen: &Kitchen, units: Units) -> Scales {
        match (units, steps_in_grams(kitchen.scale)) {
            (Units::Us, true) => Scales {
                main: Scale { step: QUARTER_OUNCE, up_to: kitchen.scale.up_to },
                fine: Some(Scale { step: TWENTIETH_OUNCE, up_to: Some(POUND) }),
                finer: HUNDREDTH_OUNCE,
                read_in: ReadIn::GramsAsOunces,
            },
            (Units::Us, false) => {
                let fine =
                    |scale: Scale| if steps_in_grams(scale) { Scale { step: TWENTIETH_OUNCE, ..scale } } else { scale };
                let (main, fine) = (kitchen.scale, kitchen.fine_scale.map(fine));
                Scales { main, fine, finer: HUNDREDTH_OUNCE, read_in: ReadIn::Ounces }
            }
            (Units::Metric | Units::Both, _) => Scales {
                main: in_grams(kitchen.scale),
                fine: kitchen.fine_scale.map(in_grams),
                finer: Mass::new(Number::constant(1, 100)),
                read_in: ReadIn::Grams,
            },
        }
    }

    /// The same for sums of what is weighed piece by piece, which no scale shows at once: to the gram, however coarse the scale.
    pub fn by_the_piece(self) -> Scales {
        let least = match self.read_in {
            ReadIn::Grams => Mass::new(Number::ONE),
            ReadIn::GramsAsOunces | ReadIn::Ounces => QUARTER_OUNCE,
        };
        Scales { main: Scale { step: self.main.step.min(least), ..self.main }, ..self }
    }

    /// Whether what goes on the fine scale is read on the scale for everything, in finer steps.
    pub fn are_one(&self) -> bool {
        self.read_in == ReadIn::GramsAsOunces
    }

    /// The steps in which the scale for everything shows what is in a bowl on it.
    pub fn step_of_a_bowl(&self) -> Mass {
        match self.fine {
            Some(fine) if self.are_one() => fine.step,
            _ => self.main.step,
        }
    }
}

/// Whether a scale steps by grams or decimal parts of them, and not by ounces.
fn steps_in_grams(scale: Scale) -> bool {
    scale.step.value().times(Number::whole(1000)).is_ok_and(Number::is_whole)
}

/// A scale that steps by ounces, read in grams: such a scale then steps by 1, 2 or 5 g, or tens or tenths of these, no coarser than in ounces.
fn in_grams(scale: Scale) -> Scale {
    if steps_in_grams(scale) {
        return scale;
    }
    let tens = (0..6).rev().map(|power| Number::whole(10_i64.pow(power)));
    let tenths = [Number::constant(1, 10), Number::constant(1, 100), Number::constant(1, 1000)];
    let steps = tens.chain(tenths).flat_map(|ten| [5, 2, 1].map(|times| ten.times(Number::whole(times))));
    let finest = Mass::new(Number::constant(1, 1000));
    let step = steps.flatten().map(Mass::new).find(|step| *step <= scale.step).unwrap_or(finest);
    Scale { step, ..scale }
}

/// A step of a scale that is read in ounces.
const QUARTER_OUNCE: Mass = Mass::new(pounds(1, 64));
/// A step of a fine scale that is read in ounces.
pub const TWENTIETH_OUNCE: Mass = Mass::new(pounds(1, 320));
/// A step of a scale for spices that is read in ounces.
const HUNDREDTH_OUNCE: Mass = Mass::new(pounds(1, 1600));
/// The international pound.
pub const POUND: Mass = Mass::new(sizes::POUND);

/// Rounds masses for the kitchen's scales so that the printed lines add up to the printed total.
///
/// Those on the main scale are rounded together by the largest remainder, and each is at most one step from its exact mass. What the
/// scale shows as it is stays as it is, for somebody wrote it, and a small line keeps what is nearest to it; what the others cannot make
/// up for is missing in the printed total too. Small ones go on the fine scale, if there is one, where the main scale would move
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

/// Shares a printed total out among the masses that it is the sum of: those on the main scale by the largest remainder.
///
/// The shares add up to the total, as far as none of them is moved noticeably to make up for the others, and unless some of them go on another
/// scale: then the others add up to what the main scale shows of them, so that nothing is put on one line to make up for another scale's digits.
///
/// # Errors
/// When a mass leaves the range of exact numbers.
pub fn share_out(total: Mass, masses: &[Mass], scales: &Scales) -> Result<Vec<Weighed>, Overflow> {
    let mut weighed = Vec::with_capacity(masses.len());
    let mut on_main = Mass::ZERO;
    for mass in masses {
        let one = alone(*mass, scales)?;
        if one.scale == ScaleUsed::Main {
            on_main = on_main.plus(*mass)?;
        }
        weighed.push(one);
    }
    let all_on_main = weighed.iter().all(|one| one.scale == ScaleUsed::Main);
    let whole = if all_on_main { total } else { on_main };
    let target = whole.value().rounded_to(scales.main.step.value())?;
    meet(target, masses, &mut weighed, scales.main.step)?;
    Ok(weighed)
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
    Ok(Weighed { mass: shown, scale, moved: moved(mass, shown)?, ounces: None })
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
    meet(exact.value().rounded_to(step.value())?, masses, weighed, step)
}

/// As [`share_remainders`], to a sum that is given, as near as that can be: whole steps, within one of each mass.
fn meet(target: Number, masses: &[Mass], weighed: &mut [Weighed], step: Mass) -> Result<(), Overflow> {
    let mut lines: Vec<(usize, Ease, Number)> = Vec::new();
    let mut floor_sum = Number::ZERO;
    for (at, (mass, one)) in masses.iter().zip(weighed.iter_mut()).enumerate() {
        if one.scale != ScaleUsed::Main {
            continue;
        }
        let floor = mass.value().over(step.value())?.floor().times(step.value())?;
        let remainder = mass.value().minus(floor)?;
        lines.push((at, ease(*mass, remainder, step)?, remainder));
        one.mass = Mass::new(floor);
        floor_sum = floor_sum.plus(floor)?;
    }
    let missing = target.minus(floor_sum)?.over(step.value())?.to_whole().unwrap_or(0);
    // A small line keeps what is nearest to it, so that flour makes up for the sum and not yeast. Then the largest remainder first; of
    // equal ones the earlier line, so that the same batch always prints the same.
    let missing = usize::try_from(missing).unwrap_or(0);
    // Lines of one weight are printed alike, as long as others can make up for the sum: of three times 12 oz none is a gram more.
    let mut alike: BTreeMap<Number, usize> = BTreeMap::new();
    for (at, ..) in lines.iter().filter(|(_, ease, _)| *ease == Ease::Free) {
        *alike.entry(masses.get(*at).map_or(Number::ZERO, |mass| mass.value())).or_default() += 1;
    }
    let is_split = |(at, ease, _): &(usize, Ease, Number)| {
        let as_many = masses.get(*at).and_then(|mass| alike.get(&mass.value())).copied().unwrap_or(0);
        *ease == Ease::Free && as_many > 1 && as_many > missing
    };
    lines.sort_by(|a, b| a.1.cmp(&b.1).then(is_split(a).cmp(&is_split(b))).then(b.2.cmp(&a.2)).then(a.0.cmp(&b.0)));
    let up_to = |most: Ease| lines.iter().filter(|(_, ease, _)| *ease <= most).count();
    let steps = missing.clamp(up_to(Ease::Wanted), up_to(Ease::Free));
    for (at, _, _) in lines.iter().take(steps) {
        if let Some(one) = weighed.get_mut(*at) {
            one.mass = one.mass.plus(step)?;
        }
    }
    for (mass, one) in masses.iter().zip(weighed.iter_mut()) {
        one.moved = moved(*mass, one.mass)?;
    }
    Ok(())
}

/// Whether a line may be rounded up to meet a sum.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Ease {
    /// It is nearer so, and rounded down it would be noticeably less.
    Wanted,
    /// It is as near either way, and either way noticeably off: a half goes up before lines on which nobody sees it go down.
    Half,
    /// Either way nobody notices.
    Free,
    /// The scale shows it as it is.
    Exact,
    /// It would be noticeably more, and is nearer rounded down.
    Unwanted,
}

fn ease(mass: Mass, remainder: Number, step: Mass) -> Result<Ease, Overflow> {
    if mass.value().is_zero() {
        return Ok(Ease::Unwanted);
    }
    if remainder.is_zero() {
        return Ok(Ease::Exact);
    }
    let up = step.value().minus(remainder)?;
    let further = remainder.max(up).over(mass.value())?;
    // A half is as near down as up: then the sum says which.
    Ok(match (further > NOTICEABLE, remainder.cmp(&up)) {
        (false, _) => Ease::Free,
        (true, Ordering::Equal) => Ease::Half,
        (true, Ordering::Greater) => Ease::Wanted,
        (true, Ordering::Less) => Ease::Unwanted,
    })
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

    /// On a scale of 5 g, worked by hand: 3831.3 + 2202.9 + 31.1 g come to 6065.3, so 6065 is printed. Rounded down they are 6055: two
    /// steps are missing, and 30 g of yeast must not become 35 because its remainder is small.
    #[test]
    fn a_small_line_does_not_make_up_for_the_sum() {
        let mut scales = home(Units::Metric);
        scales.main.step = grams(5, 1);
        let masses = [grams(38_313, 10), grams(22_029, 10), grams(311, 10)];
        let (weighed, total) = weigh_out(&masses, &scales).expect("in range");
        let shown: Vec<String> = weighed.iter().map(|one| one.mass.value().decimal(0)).collect();
        assert_eq!((shown, total), (vec!["3830".into(), "2205".into(), "30".into()], grams(6065, 1)));
        // Yeast of which a preferment takes 2.4 g: what is left for the main scale is 31.1 g, shown as 30 and not as 35.
        let shared = share_out(grams(35, 1), &[grams(311, 10), grams(24, 10)], &scales).expect("in range");
        assert_eq!(shared[0].mass, grams(30, 1));
    }

    /// 1 oz is 28.349523125 g, so a quarter 7.087 g and a hundredth 0.283 g: read in grams they are steps of 5 g and 0.2 g.
    #[test]
    fn a_scale_in_ounces_read_in_grams_has_whole_steps() {
        let ounce = POUND.over(Number::whole(16)).expect("in range");
        let part_of_an_ounce = |part| Scale { step: ounce.over(Number::whole(part)).expect("in range"), up_to: None };
        let mut kitchen = bare_kitchen();
        (kitchen.scale, kitchen.fine_scale) = (part_of_an_ounce(4), Some(part_of_an_ounce(100)));
        for units in [Units::Metric, Units::Both] {
            let scales = Scales::of(&kitchen, units);
            assert_eq!((scales.main.step, scales.fine.map(|fine| fine.step)), (grams(5, 1), Some(grams(1, 5))));
        }
        let own = Scales::of(&kitchen, Units::Us);
        assert_eq!((own.main, own.fine), (kitchen.scale, kitchen.fine_scale));
        assert!(!own.are_one());
        kitchen.scale = part_of_an_ounce(1);
        assert_eq!(Scales::of(&kitchen, Units::Metric).main.step, grams(20, 1));
        assert_eq!(Scales::of(&kitchen, Units::Us).main.step, ounce);
    }

    /// 270 + 300 + 9.2 + 8.4 g are 587.6, and 588 on the scale. The flour was written, and 9 g of baking powder are nearer than 10: 587 are
    /// printed, which is what is weighed out.
    #[test]
    fn what_was_written_is_printed_as_it_was() {
        let masses = [grams(270, 1), grams(300, 1), grams(92, 10), grams(84, 10)];
        let (weighed, total) = weigh_out(&masses, &home(Units::Metric)).expect("in range");
        let shown: Vec<String> = weighed.iter().map(|one| one.mass.value().decimal(0)).collect();
        assert_eq!((shown, total), (["270", "300", "9", "8"].map(str::to_owned).to_vec(), grams(587, 1)));
    }

    /// 87.5 + 17.5 g are 105, and halves are as near down as up.
    #[test]
    fn halves_go_the_way_the_sum_goes() {
        let (weighed, total) = weigh_out(&[grams(175, 2), grams(35, 2)], &home(Units::Metric)).expect("in range");
        let shown: Vec<String> = weighed.iter().map(|one| one.mass.value().decimal(0)).collect();
        assert_eq!((shown, total), (vec!["88".to_owned(), "17".to_owned()], grams(105, 1)));
    }

    /// 410.04 and 201.96 g on a scale of 5 g are 410 and 200: 205 would be 1.5 % more, whatever the total formula's 612 is rounded to.
    #[test]
    fn a_share_stays_at_what_is_nearest() {
        let scales = Scales { main: Scale { step: grams(5, 1), up_to: None }, ..home(Units::Metric) };
        let shared = share_out(grams(615, 1), &[grams(41004, 100), grams(20196, 100)], &scales).expect("in range");
        let shown: Vec<String> = shared.iter().map(|one| one.mass.value().decimal(0)).collect();
        assert_eq!(shown, ["410", "200"]);
    }

    /// 1000 + 250 + 812.5 + 25 + 12.5 g are 2100: the half gram is seen in the yeast (4 %) and not in the water (0.06 %).
    #[test]
    fn a_half_is_rounded_up_where_it_is_seen() {
        let masses = [grams(1000, 1), grams(250, 1), grams(1625, 2), grams(25, 1), grams(25, 2)];
        let (weighed, total) = weigh_out(&masses, &home(Units::Metric)).expect("in range");
        let shown: Vec<String> = weighed.iter().map(|one| one.mass.value().decimal(0)).collect();
        assert_eq!((shown.join(" "), total), ("1000 250 812 25 13".to_owned(), grams(2100, 1)));
    }

    #[test]
    fn what_no_scale_shows_is_not_rounded_away() {
        let (weighed, _) = weigh_out(&[grams(4, 10)], &home(Units::Metric)).expect("in range");
        assert_eq!(weighed[0].scale, ScaleUsed::None);
        assert_eq!(weighed[0].mass, grams(4, 10));
    }
}
