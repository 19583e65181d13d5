//! A figure of a part or of the whole: how much there is above the line, how much below it, and what the larder leaves open.

use super::share::{Share, price, share};
use super::{Place, prefermented};
use crate::language::syntax::AimOf;
use crate::make::cost;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Count, Mass, Proportion};
use crate::model::aim::{Aim, AimUnit, Figure};
use crate::model::counted::is_a_few_leaves;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};
use crate::plan::timeline;
use crate::solve::formula::fed::{self, is_fed};
use crate::solve::formula::heated;
use crate::solve::formula::leaves::{Counted, Leaf, leaves};
use crate::solve::formula::{Composition, Formula, SolvedPart};
use crate::solve::resolve::is_known;

/// A figure as it stands, in the unit of its aim.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reading {
    /// What is counted.
    pub above: Number,
    /// What it is counted on; more than nothing.
    pub below: Number,
    /// How much more may stand above the line, of ingredients of which the larder does not know it.
    pub open: Number,
    /// Those ingredients, and leavens that nobody describes where these move it.
    pub missing: Vec<String>,
    /// By how much the figure may be off either way, in its unit, since nobody says how a leaven was fed.
    pub about: Number,
}

impl Reading {
    /// The figure, as far as it is known.
    ///
    /// # Errors
    /// When it leaves the range of exact numbers.
    pub fn value(&self) -> Result<Number, Overflow> {
        self.above.over(self.below)
    }

    /// The most that it may be.
    pub(super) fn most(&self) -> Result<Number, Overflow> {
        self.above.plus(self.open)?.over(self.below)
    }
}

/// Why there is no figure.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoFigure {
    /// A sum left the range of exact numbers.
    Overflow,
    /// Something that a figure needs is not there, and what to do about it.
    Because(String, String),
    /// The amounts are not known, which another problem says.
    ToldElsewhere,
}

impl From<Overflow> for NoFigure {
    fn from(_: Overflow) -> NoFigure {
        NoFigure::Overflow
    }
}

fn because<T>(why: impl Into<String>, help: impl Into<String>) -> Result<T, NoFigure> {
    Err(NoFigure::Because(why.into(), help.into()))
}

fn no_bake_loss<T>() -> Result<T, NoFigure> {
    because(
        "nothing says what the oven takes",
        "write it behind what the recipe makes: `makes 24 buns, bake loss 12 %`",
    )
}

/// What an aim is counted on where its line does not say: flour where there is some, else everything.
pub(super) fn counted_on(aim: &Aim, composition: &Composition) -> Option<AimOf> {
    let is_share = aim.unit == AimUnit::Percent;
    let on_flour = matches!(aim.figure, Figure::Hydration | Figure::Prefermented) || composition.flour > Mass::ZERO;
    aim.of.or(is_share.then_some(if on_flour { AimOf::Flour } else { AimOf::Total }))
}

/// What weighs no more than this share of a part and is not known to the larder is counted as nothing.
const LITTLE: Number = Number::constant(2, 100);

/// What is looked at: a part, worked out.
struct Look<'r> {
    recipe: &'r Recipe,
    formula: &'r Formula,
    part: &'r Part,
    solved: &'r SolvedPart,
    place: Place,
    of: Option<AimOf>,
}

/// Reads a figure off a formula.
///
/// # Errors
/// Why there is none.
pub fn read(recipe: &Recipe, formula: &Formula, place: Place, aim: &Aim) -> Result<Reading, NoFigure> {
    let (Some(part), Some(solved)) = (recipe.part(place.part), formula.part(place.part)) else {
        return Err(NoFigure::ToldElsewhere);
    };
    let needs_size = part.base_or_from() && solved.base.is_none();
    if !aim.figure.is_of_steps() && (!solved.is_settled || needs_size) {
        return Err(NoFigure::ToldElsewhere);
    }
    if let Figure::Ingredient(name) = &aim.figure
        && !is_known(recipe, name)
    {
        return Err(NoFigure::ToldElsewhere);
    }
    let of = counted_on(aim, &solved.composition);
    if of == Some(AimOf::Flour) && solved.composition.is_flour_open {
        return because("a leaven in it has no weight, and it is flour too", "write what the leaven weighs");
    }
    let look = Look { recipe, formula, part, solved, place, of };
    match aim.figure {
        Figure::Time | Figure::Hands => look.minutes(&aim.figure),
        Figure::Weight | Figure::BakedWeight => look.weight(&aim.figure),
        Figure::Cost => look.cost(aim),
        Figure::Prefermented => {
            let share = prefermented::share(recipe, formula, place)?.unwrap_or(Proportion::ZERO).percent()?;
            Ok(Reading {
                above: share,
                below: Number::ONE,
                open: Number::ZERO,
                missing: Vec::new(),
                about: Number::ZERO,
            })
        }
        _ => look.held(aim),
    }
}

/// What brings most of a figure: names and how much, the most first.
pub(super) fn brings(recipe: &Recipe, formula: &Formula, place: Place, aim: &Aim) -> Vec<(String, Number)> {
    if aim.figure.is_of_steps() {
        return longest(recipe, formula, place, &aim.figure).unwrap_or_default();
    }
    let counted = if aim.figure == Figure::Cost { Counted::Paid } else { Counted::GoesIn };
    let mut all: Vec<(String, Number)> = Vec::new();
    let of = |id| leaves(recipe, formula, id, counted).unwrap_or_default();
    for leaf in place.parts(recipe, formula).into_iter().flat_map(of) {
        let Some(amount) = share(recipe, aim, leaf.line).known().and_then(|one| leaf.mass.value().times(one).ok())
        else {
            continue;
        };
        let name = leaf.line.name.to_string();
        match all.iter_mut().find(|(known, _)| *known == name) {
            Some((_, known)) => *known = known.plus(amount).unwrap_or(*known),
            None => all.push((name, amount)),
        }
    }
    all.retain(|(_, amount)| amount.is_positive());
    all.sort_by_key(|(_, amount)| std::cmp::Reverse(*amount));
    all
}

fn longest(
    recipe: &Recipe,
    formula: &Formula,
    place: Place,
    figure: &Figure,
) -> Result<Vec<(String, Number)>, Overflow> {
    let rows = timeline::of(recipe, formula)?.rows;
    let here = rows.into_iter().filter(|row| place.whole || row.at.part == place.part);
    let minutes = |row: &timeline::TimelineRow| if *figure == Figure::Hands { row.hands } else { row.end - row.start };
    let mut steps: Vec<(String, Number)> =
        here.map(|row| (format!("{} of {}", row.step, row.part), Number::whole(minutes(&row)))).collect();
    steps.retain(|(_, minutes)| minutes.is_positive());
    steps.sort_by_key(|(_, minutes)| std::cmp::Reverse(*minutes));
    Ok(steps)
}

impl Look<'_> {
    /// What is counted by weight, or in kilocalories.
    fn held(&self, aim: &Aim) -> Result<Reading, NoFigure> {
        // On flour and on water bakers count what goes in; of everything, what comes out.
        let counted = match self.of {
            Some(AimOf::Flour | AimOf::Water) => Counted::GoesIn,
            _ => Counted::ComesOut,
        };
        let (mut makeup, mut there) = (Composition::default(), Vec::new());
        for id in self.place.parts(self.recipe, self.formula) {
            let Some(solved) = self.formula.part(id) else { continue };
            makeup = makeup.plus(if counted == Counted::GoesIn { solved.composition } else { solved.comes_out })?;
            there.extend(leaves(self.recipe, self.formula, id, counted)?);
        }
        self.unweighed(&aim.figure)?;
        let (mut above, mut open, mut missing) = (Number::ZERO, Number::ZERO, Vec::new());
        let mut unknown = Mass::ZERO;
        for Leaf { line, mass, .. } in &there {
            match share(self.recipe, aim, line) {
                Share::Known(share) if share.is_zero() => {}
                Share::Known(share) => above = above.plus(mass.value().times(share)?)?,
                Share::UpTo(most) => {
                    open = open.plus(mass.value().times(most)?)?;
                    unknown = unknown.plus(*mass)?;
                    let name = line.name.to_string();
                    if mass.value().is_positive() && !missing.contains(&name) {
                        missing.push(name);
                    }
                }
            }
        }
        for (line, mass) in self.strained_out() {
            let (Share::Known(share) | Share::UpTo(share)) = share(self.recipe, aim, line);
            if share.is_positive() {
                open = open.plus(mass.value().times(share)?)?;
                unknown = unknown.plus(mass)?;
                missing.push(line.name.to_string());
            }
        }
        // So little of it is counted as nothing, as the hydration on cards counts it.
        let is_little = unknown.value() <= makeup.total.value().times(LITTLE)?;
        // The sums of the bench have these; what has left as water is off them already.
        match aim.figure {
            Figure::Hydration | Figure::Water => (above, open) = (makeup.water.value(), makeup.unknown.water.value()),
            Figure::Solids => {
                open = makeup.unknown.water.value();
                above = makeup.total.minus(makeup.water)?.value();
                // What nobody knows may be all water.
                above = if is_little { above } else { above.minus(open)? };
            }
            Figure::Fat => above = makeup.fat.value(),
            Figure::Sugar => above = makeup.sugar.value(),
            Figure::Salt => above = makeup.salt.value(),
            Figure::Ingredient(_) => above = above.plus(self.as_part(&aim.figure)?)?,
            _ => {}
        }
        if is_little {
            open = Number::ZERO;
        }
        let (below, times) = self.below(aim, &makeup)?;
        let (above, open) = (above.times(times)?, open.times(times)?);
        let mut reading = Reading { above, below, open, missing, about: Number::ZERO };
        if aim.figure == Figure::Hydration && makeup.is_much(makeup.unknown.fed) {
            // A leaven that is counted half and half may be two thirds flour, fed with half as much water, or one third.
            let swing = makeup.unknown.fed.value().over(Number::whole(6))?;
            let (wet, flour) = (above.plus(swing.times(times)?)?, below.minus(swing)?);
            reading.about =
                if flour.is_positive() { wet.over(flour)?.minus(reading.value()?)? } else { reading.value()? };
            let fed = there.iter().filter(|leaf| is_fed(leaf.line) && !fed::is_known(leaf.line));
            // What else is not known hangs on no food, and is a trifle beside a leaven that may be half as wet again.
            reading.missing = fed.map(|leaf| leaf.line.name.to_string()).collect();
            reading.missing.sort();
            reading.missing.dedup();
        }
        Ok(reading)
    }

    /// What leaves some of itself behind when it is strained out again, a brine's salt and sugar and the fat of a fryer: nobody can reckon how
    /// much, and it is as much as there is at most.
    fn strained_out(&self) -> Vec<(&Ingredient, Mass)> {
        let stays = |kind: Kind| matches!(kind, Kind::Salt | Kind::Sugar | Kind::Syrup | Kind::Fat);
        let sold = self.place.parts(self.recipe, self.formula);
        let mut within: Vec<PartId> = sold.into_iter().flat_map(|id| self.recipe.within(id)).collect();
        within.sort_unstable();
        within.dedup();
        let parts = within.into_iter().filter_map(|id| Some((self.recipe.part(id)?, self.formula.part(id)?)));
        let lines = parts.flat_map(|(part, solved)| part.lines.iter().zip(&solved.lines));
        lines
            .filter(|(line, _)| line.strained_out && stays(line.kind))
            .filter_map(|(line, amount)| Some((line, amount.mass?)))
            .collect()
    }

    /// What of a part that is called so stands among the lines.
    fn as_part(&self, figure: &Figure) -> Result<Number, Overflow> {
        let Figure::Ingredient(name) = figure else { return Ok(Number::ZERO) };
        let Some(named) = self.recipe.find(name) else { return Ok(Number::ZERO) };
        let lines = self.part.lines.iter().zip(&self.solved.lines).filter(|(line, _)| line.stays_in());
        let here = lines.filter(|(line, _)| line.refers == Refers::Part(named)).filter_map(|(_, amount)| amount.mass);
        let taken_out = self.recipe.part(named).is_some_and(|part| part.from == Some(self.place.part));
        let preferment = self.formula.part(named).and_then(|part| part.goes_in).filter(|_| taken_out);
        Mass::sum(here.chain(preferment)).map(Mass::value)
    }

    /// What the figure is counted on, and by what the amount is multiplied to come to the unit of the aim.
    fn below(&self, aim: &Aim, makeup: &Composition) -> Result<(Number, Number), NoFigure> {
        let hundred = Number::whole(100);
        // What a divided dough loses is dough: a piece has its share of what is left.
        let made = self.solved.makes.or(self.solved.stays).unwrap_or(makeup.total);
        let left = if makeup.total > Mass::ZERO { made.ratio(makeup.total)? } else { Number::ONE };
        let left = left.min(Number::ONE);
        let (on, times) = match self.of {
            Some(AimOf::Flour) => (makeup.all_flour()?.value(), hundred),
            Some(AimOf::Water) => (makeup.water.value(), hundred),
            Some(AimOf::Total) => (makeup.total.value(), hundred),
            Some(AimOf::Each) => (self.pieces()?.value(), left),
            Some(AimOf::Per100g) => (self.sold(made)?.value().over(hundred)?, left),
            None => (Number::ONE, left),
        };
        if !on.is_positive() {
            let of = self.of.map_or("", AimOf::words);
            return because(
                format!(
                    "there is nothing to count it on: `{}` has no {}",
                    self.part.name,
                    of.trim_start_matches("of ")
                ),
                format!("count `{}` on something that is there, `of total`", aim.figure.word()),
            );
        }
        Ok((on, times))
    }

    /// What is sold of so much: of the whole, less what the oven takes.
    fn sold(&self, made: Mass) -> Result<Mass, Overflow> {
        let loss = self.recipe.bake_loss.filter(|_| self.place.whole).unwrap_or(Proportion::ZERO);
        made.share(heated::loss_of_all(self.recipe, self.formula, self.place.part, loss)?.rest()?)
    }

    /// The pieces that the part, or the whole, is made in.
    fn pieces(&self) -> Result<Count, NoFigure> {
        let own = self.solved.pieces.or_else(|| self.formula.pieces_for(self.part, self.place.part));
        let pieces = if self.place.whole { self.formula.pieces } else { own.or(self.formula.pieces) };
        match pieces.filter(|pieces| pieces.value().is_positive()) {
            Some(pieces) => Ok(pieces),
            None => because(
                "nothing says into how many pieces it is made",
                "write `divide 24 x 80 g` into the part or `makes 24 buns` into the head, or leave `each` out",
            ),
        }
    }

    /// A line whose weight is not known keeps every figure from being known.
    fn unweighed(&self, figure: &Figure) -> Result<(), NoFigure> {
        use crate::model::recipe::LineAmount::{All, Said};
        let lines = self.part.lines.iter().zip(&self.solved.lines);
        let mut without = lines
            .filter(|(line, amount)| line.stays_in() && amount.mass.is_none() && matches!(line.amount, Said(_) | All))
            .filter(|(line, _)| !is_a_few_leaves(line));
        match without.next() {
            None => Ok(()),
            Some((line, _)) => because(
                format!("nobody knows what `{}` weighs", line.name),
                format!(
                    "say it in a larder (`weighs 240 g per cup US`, `one weighs 50 g`), or give its weight, for `{}` to be known",
                    figure.word()
                ),
            ),
        }
    }

    /// What all sorts weigh that the recipe makes, raw or from the oven.
    fn weight_of_sorts(&self, figure: &Figure, sorts: &[PartId]) -> Result<Reading, NoFigure> {
        let mut all = Mass::ZERO;
        for id in sorts {
            let Some(made) = self.formula.part(*id).and_then(|part| part.makes) else {
                return Err(NoFigure::ToldElsewhere);
            };
            let left = match (figure, self.recipe.bake_loss) {
                (Figure::Weight, _) => Proportion::WHOLE,
                (_, Some(loss)) => heated::loss_of_all(self.recipe, self.formula, *id, loss)?.rest()?,
                (_, None) => return no_bake_loss(),
            };
            all = all.plus(made.share(left)?)?;
        }
        let below = if self.of == Some(AimOf::Each) { self.pieces()?.value() } else { Number::ONE };
        Ok(Reading { above: all.value(), below, open: Number::ZERO, missing: Vec::new(), about: Number::ZERO })
    }

    fn weight(&self, figure: &Figure) -> Result<Reading, NoFigure> {
        self.unweighed(figure)?;
        let sold = self.place.parts(self.recipe, self.formula);
        if sold.len() > 1 {
            return self.weight_of_sorts(figure, &sold);
        }
        let made = self.solved.makes.or(self.solved.stays).filter(|mass| *mass > Mass::ZERO);
        let Some(made) = made else { return Err(NoFigure::ToldElsewhere) };
        let each = if self.of == Some(AimOf::Each) { Some(self.pieces()?) } else { None };
        let mass = match each {
            Some(_) if self.place.whole => self.formula.piece_weight(self.recipe)?.unwrap_or(made),
            _ => made,
        };
        // The weight of a piece of the whole is by the piece already.
        let by_piece = self.place.whole && self.formula.piece_weight(self.recipe)?.is_some();
        let below = each.filter(|_| !by_piece).map_or(Number::ONE, Count::value);
        let left = match (figure, self.recipe.bake_loss) {
            (Figure::Weight, _) => Number::ONE,
            (_, Some(loss)) => heated::loss_of_all(self.recipe, self.formula, self.place.part, loss)?.rest()?.value(),
            (_, None) => return no_bake_loss(),
        };
        Ok(Reading {
            above: mass.value().times(left)?,
            below,
            open: Number::ZERO,
            missing: Vec::new(),
            about: Number::ZERO,
        })
    }

    fn cost(&self, aim: &Aim) -> Result<Reading, NoFigure> {
        let no_money = |why: cost::NoCost| NoFigure::Because(why.0, "give all prices in one money".to_owned());
        let whole = cost::of(self.recipe, self.formula, 0, None).map_err(no_money)?;
        if let (AimUnit::Money(Some(said)), Some(known)) = (&aim.unit, &whole.currency)
            && !said.eq_ignore_ascii_case(known)
        {
            return because(
                format!("it is aimed at in {said} and priced in {known}"),
                format!("write the aim in {known}"),
            );
        }
        let (mut above, mut missing) = (Number::ZERO, Vec::new());
        if self.place.whole {
            (above, missing) = (whole.total, whole.missing);
        } else {
            for Leaf { line, mass, .. } in leaves(self.recipe, self.formula, self.place.part, Counted::Paid)? {
                match price(line) {
                    Share::Known(price) => above = above.plus(mass.value().times(price)?)?,
                    Share::UpTo(_) => missing.push(line.name.to_string()),
                }
            }
        }
        let made = self.solved.makes.or(self.solved.stays).unwrap_or(Mass::ZERO);
        let below = match self.of {
            Some(AimOf::Each) => self.pieces()?.value(),
            Some(AimOf::Per100g) => self.sold(made)?.value().over(Number::whole(100))?,
            _ => Number::ONE,
        };
        if !below.is_positive() {
            return Err(NoFigure::ToldElsewhere);
        }
        missing.dedup();
        // What something costs has no end.
        let open = if missing.is_empty() { Number::ZERO } else { Number::constant(1_000_000_000_000, 1) };
        Ok(Reading { above, below, open, missing, about: Number::ZERO })
    }

    fn minutes(&self, figure: &Figure) -> Result<Reading, NoFigure> {
        let line = timeline::of(self.recipe, self.formula)?;
        let rows: Vec<_> = line.rows.iter().filter(|row| self.place.whole || row.at.part == self.place.part).collect();
        let is_timed = self.recipe.own_parts().any(|(_, part)| !part.steps.is_empty());
        if rows.is_empty() && is_timed {
            return because("no plan holds its steps", "`miche plan` says why");
        }
        if rows.is_empty() {
            return because("no step says how long anything takes", "write the steps: `mix: hands 12 min`");
        }
        let minutes = match figure {
            Figure::Hands => rows.iter().map(|row| row.hands).sum(),
            _ => {
                let (start, end) = (rows.iter().map(|row| row.start).min(), rows.iter().map(|row| row.end).max());
                end.unwrap_or(0) - start.unwrap_or(0)
            }
        };
        let below = if self.of == Some(AimOf::Each) { self.pieces()?.value() } else { Number::ONE };
        Ok(Reading {
            above: Number::whole(minutes),
            below,
            open: Number::ZERO,
            missing: Vec::new(),
            about: Number::ZERO,
        })
    }
}
