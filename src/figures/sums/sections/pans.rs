//! Pieces against the tin they bake in, another tin, and what they weigh when they are baked.

use crate::figures::sums::tables::{Asked, Section, Sums};
use crate::figures::sums::topic;
use crate::measure::number::{Number, Overflow};
use crate::measure::pan::{Pan, room_for};
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show::{self, Units};
use crate::measure::shown::Shown;
use crate::measure::sizes::{OUNCE, QUART};
use crate::model::flow;
use crate::model::recipe::{HeadMakes, PartId, Recipe};
use crate::solve::formula::Formula;
use crate::solve::formula::heated;

pub(super) fn section(recipe: &Recipe, formula: &Formula, asked: &Asked, all: &mut Sums) -> Result<(), Overflow> {
    let sorts = by_sort(recipe, formula)?;
    if let [_, _, ..] = sorts.as_slice() {
        return of_sorts(&sorts, (recipe, formula), asked, all);
    }
    let each = formula.piece_weight(recipe)?;
    let so_far = all.sections.len();
    of_parts((recipe, formula), each.is_some(), asked, all)?;
    let has_tin = all.sections.len() > so_far;
    let Some(each) = each else {
        let options = [("--tin", asked.tin.is_some() && !has_tin), ("--bake-loss", asked.bake_loss.is_some())];
        for (option, _) in options.into_iter().filter(|(_, is_asked)| *is_asked) {
            all.asked_in_vain.push(format!(
                "{option} is about a piece, and what a piece weighs the recipe does not say: write `makes 2 loaves` and `divide 2 x 800 g`"
            ));
        }
        return Ok(());
    };
    let units = asked.units;
    let all_in = each;
    let baked = recipe.final_part().map_or(Ok(Proportion::WHOLE), |id| heated::share(recipe, formula, id))?;
    let each = all_in.share(baked)?;
    let mut section = Section::new("Pieces and tins", &topic::PANS);
    section.row("a piece before baking", told(each, each, units), each.value(), "g");
    let own = recipe.final_part().and_then(|id| recipe.part(id)).and_then(|part| part.pan);
    let pan = recipe.pan.or(own).map(|baked_in| baked_in.pan);
    if let Some(pan) = pan {
        fill(pan, each, asked.units, &mut section)?;
    }
    match (pan, asked.tin) {
        (Some(from), Some(to)) => match from.factor_to(to)? {
            Some(factor) => {
                let there = each.times(factor)?;
                let whole = there.value().rounded_to(Number::ONE)?;
                section.row(format!("a piece for {}", in_words(to, asked.units)), told(there, Mass::new(whole), units), there.value(), "g");
                section.row("for as many pieces, the batch times", factor.decimal(3), factor, "");
            }
            None => all.asked_in_vain.push(CANNOT_COMPARE.to_owned()),
        },
        (None, Some(_)) if !has_tin => all.asked_in_vain.push(
            "the recipe does not say its own tin, so nothing can be scaled from it: write `makes 2 loaves, tin 23 cm x 13 cm x 7 cm`".to_owned(),
        ),
        _ => {}
    }
    if let Some(loss) = asked.bake_loss.or(recipe.bake_loss) {
        let is_filled = baked < Proportion::WHOLE;
        let baked = each.share(loss.rest()?)?;
        section.row("lost in the oven", show::percent(loss), loss.percent()?, "%");
        section.row("a piece when baked", reckoned(baked, units)?, baked.value(), "g");
        let ready = baked.plus(all_in.minus(each)?)?;
        if is_filled {
            section.row("a piece with what goes in after the oven", reckoned(ready, units)?, ready.value(), "g");
        }
        if let Some(pieces) = formula.pieces {
            let total = ready.times(pieces.value())?;
            section.row(
                if is_filled { "all of them, ready" } else { "all of them, baked" },
                reckoned(total, units)?,
                total.value(),
                "g",
            );
        }
    }
    if section.rows.len() > 1 {
        all.sections.push(section);
    }
    Ok(())
}

/// How many tins a part that makes a weight is baked in, and which: as it is written one, which may be said in the head.
pub fn tins(recipe: &Recipe, formula: &Formula, id: PartId) -> Result<Option<(Number, Pan)>, Overflow> {
    let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else { return Ok(None) };
    let is_last = recipe.final_part() == Some(id);
    let Some(pan) = part.pan.or(recipe.pan.filter(|_| is_last)) else { return Ok(None) };
    let of_head = match &recipe.makes {
        Some(HeadMakes::Mass(makes)) if is_last => Some(makes.mass),
        _ => None,
    };
    let one = part.makes.map(|makes| makes.mass).or(of_head).filter(|mass| *mass > Mass::ZERO);
    match (one, solved.needs) {
        (Some(one), Some(makes)) => Ok(Some((makes.ratio(one)?, pan.pan))),
        _ => Ok(formula.pieces.filter(|_| is_last && recipe.pan.is_some()).map(|pieces| (pieces.value(), pan.pan))),
    }
}

/// The tins of parts that make a weight; `has_pieces` says whether what the recipe makes comes in pieces, which are told elsewhere.
fn of_parts(
    (recipe, formula): (&Recipe, &Formula),
    has_pieces: bool,
    asked: &Asked,
    all: &mut Sums,
) -> Result<(), Overflow> {
    let units = asked.units;
    for (id, part) in formula.made(recipe).filter(|(id, _)| !(has_pieces && recipe.final_part() == Some(*id))) {
        let Some((tins, pan)) = tins(recipe, formula, id)? else { continue };
        let weighs = |mass: Option<Mass>| mass.filter(|_| tins.is_positive()).map(|mass| mass.over(tins)).transpose();
        let solved = formula.part(id);
        let (Some(raw), Some(out)) =
            (weighs(solved.and_then(|part| part.stays))?, weighs(solved.and_then(|part| part.makes))?)
        else {
            continue;
        };
        let mut section = Section::new("Pieces and tins", &topic::PANS);
        section.row(format!("{} into one {}", part.name, named(pan, units)), told(raw, raw, units), raw.value(), "g");
        fill(pan, raw, units, &mut section)?;
        if tins != Number::ONE {
            section.row(format!("of it, the {} of the recipe", named(pan, units)), tins.decimal(2), tins, "");
        }
        section.row(format!("what {} makes in one", part.name), told(out, out, units), out.value(), "g");
        if let Some(to) = asked.tin {
            match pan.factor_to(to)? {
                Some(factor) => {
                    let there = out.times(factor)?;
                    let what = format!("what {} makes in a {}", part.name, named(to, units));
                    section.row(what, reckoned(there, units)?, there.value(), "g");
                    section.row("for as many tins, the part times", factor.decimal(3), factor, "");
                }
                None => all.asked_in_vain.push(CANNOT_COMPARE.to_owned()),
            }
        }
        all.sections.push(section);
    }
    Ok(())
}

/// Why two tins cannot be compared.
const CANNOT_COMPARE: &str = "the two tins cannot be compared: one has only an area and the other only a volume; give `--tin` with all its measures";

/// Rounding no further than this is not seen, as in a sum of lines on a card.
const NOT_SEEN: Number = Number::constant(5, 1000);

/// A weight that is told and that nobody weighs out, in ounces as finely as a card has it.
fn told(mass: Mass, grams: Mass, units: Units) -> Shown {
    in_reader_units(units, show::mass_plain(grams), show::mass_us_within(mass, NOT_SEEN))
}

/// A weight of what comes out of the oven, to a gram.
fn reckoned(mass: Mass, units: Units) -> Result<Shown, Overflow> {
    Ok(told(mass, Mass::new(mass.value().rounded_to(Number::ONE)?), units))
}

/// A sort of pieces: what it is called, how many there are, what goes into one, and the part that makes it.
struct OfSort {
    name: String,
    pieces: Number,
    each: Mass,
    part: PartId,
}

/// The sorts that are handed over, by themselves or each in a part of its own.
fn by_sort(recipe: &Recipe, formula: &Formula) -> Result<Vec<OfSort>, Overflow> {
    let mut all = Vec::new();
    for id in flow::ends(recipe) {
        let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else { continue };
        if let (Some(sort), Some(each), Some(pieces)) = (&part.sort, formula.per_piece(recipe, id)?, solved.pieces) {
            all.push(OfSort { name: sort.to_string(), pieces: pieces.value(), each, part: id });
        }
        for (sort, count) in part.sorts.iter().zip(&solved.sorts).filter(|(_, count)| count.value().is_positive()) {
            let each = solved.each_of(sort)?;
            all.push(OfSort { name: sort.name.to_string(), pieces: count.value(), each, part: id });
        }
    }
    Ok(all)
}

/// Pieces of several sizes, each by itself, and all of them together.
fn of_sorts(
    sorts: &[OfSort],
    (recipe, formula): (&Recipe, &Formula),
    asked: &Asked,
    all: &mut Sums,
) -> Result<(), Overflow> {
    let units = asked.units;
    let mut section = Section::new("Pieces and tins", &topic::PANS);
    for sort in sorts {
        let baked = sort.each.share(heated::share(recipe, formula, sort.part)?)?;
        let what = format!("a piece before baking, {}", sort.name);
        section.row(what, told(sort.each, sort.each, units), sort.each.value(), "g");
        let pan = recipe.part(sort.part).and_then(|part| part.pan).or(recipe.pan);
        if let Some(pan) = pan {
            fill(pan.pan, baked, units, &mut section)?;
        }
    }
    if asked.tin.is_some() {
        all.asked_in_vain
            .push("the recipe makes pieces of several sizes, so nobody knows which of them `--tin` is for".to_owned());
    }
    if let Some(loss) = asked.bake_loss.or(recipe.bake_loss) {
        section.row("lost in the oven", show::percent(loss), loss.percent()?, "%");
        let (mut total, mut is_filled) = (Mass::ZERO, false);
        for sort in sorts {
            let in_oven = sort.each.share(heated::share(recipe, formula, sort.part)?)?;
            is_filled |= in_oven < sort.each;
            let ready = in_oven.share(loss.rest()?)?.plus(sort.each.minus(in_oven)?)?;
            section.row(format!("a piece when baked, {}", sort.name), reckoned(ready, units)?, ready.value(), "g");
            total = total.plus(ready.times(sort.pieces)?)?;
        }
        let what = if is_filled { "all of them, ready" } else { "all of them, baked" };
        section.row(what, reckoned(total, units)?, total.value(), "g");
    }
    all.sections.push(section);
    Ok(())
}

fn fill(pan: Pan, each: Mass, units: Units, section: &mut Section) -> Result<(), Overflow> {
    let of = in_words(pan, units);
    let shown = |digits: String, unit: &'static str| Shown::new(digits, unit);
    if let Some(volume) = pan.volume()? {
        let litres = volume.over(Number::whole(1_000_000))?;
        let inches = volume.over(CUBIC_INCH)?;
        let both = in_reader_units(units, shown(litres.decimal(2), "l"), shown(inches.decimal(0), "cu in"));
        section.row(format!("{of} holds"), both, litres, "l");
        let per_litre = each.value().over(litres)?;
        // Whoever thinks in inches has the next figure for it.
        if units != Units::Us {
            section.row("dough for each litre of tin", format!("{} g", per_litre.decimal(0)), per_litre, "g/l");
        }
        let room = room_for(each, volume)?;
        let per_ounce = room.times(OUNCE)?.times(Number::whole(1000))?.over(CUBIC_INCH)?;
        let what = match units {
            Units::Us => "tin for each ounce of dough",
            Units::Metric => "tin for each gram of dough",
            Units::Both => "tin for each gram of dough (for each ounce)",
        };
        let both = in_reader_units(units, shown(room.decimal(2), "ml"), shown(per_ounce.decimal(1), "cu in"));
        section.row(what, both, room, "ml/g");
    } else if let Some(area) = pan.area()? {
        let square = area.over(Number::whole(100))?;
        let inches = area.over(SQUARE_INCH)?;
        let both = in_reader_units(units, shown(square.decimal(0), "cm²"), shown(inches.decimal(0), "sq in"));
        section.row(format!("area of {of}"), both, square, "cm²");
        let load = each.value().over(square)?;
        let ounces = each.value().over(OUNCE)?.over(inches)?;
        let what = match units {
            Units::Us => "dough for each square inch",
            Units::Metric => "dough for each square centimetre",
            Units::Both => "dough for each square centimetre (square inch)",
        };
        let both = in_reader_units(units, shown(load.decimal(2), "g"), shown(ounces.decimal(2), "oz"));
        section.row(what, both, load, "g/cm²");
    }
    Ok(())
}

/// A cubic inch, in cubic millimetres (1959: an inch is 25.4 mm).
const CUBIC_INCH: Number = Number::constant(2_048_383, 125);
/// A square inch, in square millimetres.
const SQUARE_INCH: Number = Number::constant(16_129, 25);

fn in_reader_units(units: Units, metric: Shown, us: Shown) -> Shown {
    match units {
        Units::Metric => metric,
        Units::Us => us,
        Units::Both => metric.also(us),
    }
}

/// `a tin of 23 cm × 13 cm × 7 cm`.
fn in_words(pan: Pan, units: Units) -> String {
    format!("a {}", named(pan, units))
}

/// `tin of 23 cm × 13 cm × 7 cm`.
pub fn named(pan: Pan, units: Units) -> String {
    let length = |value| show::length(value, units);
    match pan {
        Pan::Tin(long, wide, high) => format!("tin of {} × {} × {}", length(long), length(wide), length(high)),
        Pan::Holds(volume) => {
            let quarts = volume.value().over(QUART).map_or_else(|_| "?".to_owned(), |quarts| quarts.decimal(2));
            format!("tin of {}", in_reader_units(units, show::volume(volume), Shown::new(quarts, "qt")))
        }
        Pan::Round(across, None) => format!("round of {}", length(across)),
        Pan::Round(across, Some(high)) => format!("round of {} × {}", length(across), length(high)),
        Pan::Sheet(long, wide) => format!("sheet of {} × {}", length(long), length(wide)),
    }
}
