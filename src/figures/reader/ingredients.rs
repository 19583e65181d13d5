//! What goes in, in the author's own words first: what was said beside a weight, then the weight of the batch.

use crate::figures::card::{Card, DivideCard, LineCard, PartCard};
use crate::make::batch::Batch;
use crate::measure::noun::several;
use crate::measure::number::{Number, Overflow};
use crate::measure::own_words::{self, is_of_elsewhere};
use crate::measure::quantity::Count;
use crate::measure::show::{self, Units};
use crate::measure::shown::Shown;
use crate::measure::spoons::customary;
use crate::measure::unit::Unit;
use crate::measure::value::{Said, Value};
use crate::model::contains::{Allergenic, of_parts};
use crate::model::counted::{as_cut, is_cut};
use crate::model::published::Picture;
use crate::model::recipe::{Ingredient, LineAmount, PartId, Refers};
use crate::text::quick::QuickMap;

/// What goes into a part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Group {
    /// The part.
    pub part: String,
    /// Whether the part is told by its name: not where it is all there is.
    pub is_headed: bool,
    /// What goes in.
    pub rows: Vec<Row>,
    /// How it is divided, and what a piece weighs: `6 × 260 g small and 4 × 573 g large`.
    pub divided: Option<String>,
    /// What may stand in.
    pub stand_ins: Vec<StandIn>,
    /// Notes to the part.
    pub notes: Vec<crate::language::prose::Prose>,
    /// Cautions of the part.
    pub cautions: Vec<crate::language::prose::Prose>,
    /// Pictures of the part.
    pub pictures: Vec<Picture>,
}

/// An ingredient.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// The amount, as it was said: the author's first.
    pub amounts: Vec<Shown>,
    /// What.
    pub name: String,
    /// What, as it stands behind the amount: of a number of pieces several, `vanilla pods`.
    pub shown_name: String,
    /// Whether it is another part.
    pub is_part: bool,
    /// Whether all that there is of another part goes in: `all of the levain (400 g)`.
    pub takes_all: bool,
    /// How it is prepared, how warm it is, whether it may be left out.
    pub remarks: Vec<String>,
    /// Whether the first amount is a number of pieces, behind which the name stands at once: `2 eggs (100 g)`.
    pub is_counted: bool,
}

/// Something that may stand in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StandIn {
    /// For what.
    pub instead_of: String,
    /// How much.
    pub amount: Shown,
    /// What.
    pub name: String,
    /// What then is otherwise.
    pub words: Option<String>,
    /// Allergens that it has and the ingredient has not.
    pub brings: Vec<String>,
    /// What nobody knows the allergens of: itself, or ingredients of the part that it is.
    pub allergens_unknown: Vec<String>,
}

impl Row {
    /// The whole line: `310 g (1 1/4 cup) whole milk, at 30 °C`.
    pub fn words(&self) -> String {
        let first = self.first().map(|first| first.to_string()).unwrap_or_default();
        first + &self.behind(ToString::to_string)
    }

    /// The amount that stands out: the author's first, by one reading.
    pub fn first(&self) -> Option<Shown> {
        if self.takes_all { Some(Shown::words("all of the")) } else { self.amounts.first().map(Shown::first) }
    }

    /// What stands behind the first amount: ` (1 1/4 cup) whole milk, at 30 °C`, or ` eggs (100 g), beaten`.
    pub fn behind(&self, shown: impl Fn(&Shown) -> String) -> String {
        // Ounces of grams stand beside cups in one pair of brackets: brackets in brackets are misread.
        let readings = |amount: &Shown| [Some(amount.first()), amount.also.as_deref().cloned()];
        let all = self.amounts.iter().flat_map(readings).flatten();
        let others: Vec<String> = all.skip(usize::from(!self.takes_all)).map(|one| shown(&one)).collect();
        let others = if others.is_empty() { String::new() } else { format!(" ({})", others.join(", ")) };
        let blank = if self.amounts.is_empty() { "" } else { " " };
        let mut words = match self.is_counted || self.takes_all {
            true => format!("{blank}{}{others}", self.shown_name),
            false => format!("{others}{blank}{}", self.shown_name),
        };
        for remark in &self.remarks {
            words.push_str(&format!(", {remark}"));
        }
        words
    }
}

impl Group {
    /// How it is divided, in a sentence: the piece is weighed at home too.
    pub fn divided_words(&self) -> Option<String> {
        self.divided.as_ref().map(|divided| format!("Divide into {divided}."))
    }
}

impl StandIn {
    /// `Instead of butter: 60 g margarine, less rich; contains milk.`, and of what nobody knows: `; allergens not known.`
    pub fn words(&self) -> String {
        let said = self.words.as_ref().map_or_else(String::new, |words| format!(", {words}"));
        let brings =
            if self.brings.is_empty() { String::new() } else { format!("; contains {}", self.brings.join(", ")) };
        let of_itself = self.allergens_unknown.iter().all(|name| *name == self.name);
        let unknown = match self.allergens_unknown.is_empty() {
            true => String::new(),
            false if of_itself => "; allergens not known".to_owned(),
            false => format!("; allergens not known of {}", self.allergens_unknown.join(", ")),
        };
        format!("Instead of {}: {} {}{said}{brings}{unknown}.", self.instead_of, self.amount, self.name)
    }
}

/// The ingredients of a card, part by part.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub(super) fn groups(batch: &Batch, card: &Card, units: Units) -> Result<Vec<Group>, Overflow> {
    let mut groups = Vec::with_capacity(card.parts.len());
    for part in &card.parts {
        let Some(written) = batch.recipe.part(part.id) else { continue };
        let solved = batch.formula.part(part.id);
        // Amounts of a part `per piece` are for one of its pieces.
        let pieces = solved.and_then(|solved| solved.pieces).or(batch.formula.pieces).map(|pieces| pieces.value());
        let factor = if written.per_piece { pieces.unwrap_or(batch.factor) } else { batch.factor };
        let mut rows = Vec::with_capacity(part.lines.len() + part.preferments.len());
        let mut stand_ins = Vec::new();
        // Of two of one name the first counts.
        let named: QuickMap<&str, &Ingredient> = written.lines.iter().rev().map(|one| (&*one.name.text, one)).collect();
        for line in &part.lines {
            let said = named.get(line.ingredient.as_str()).copied();
            let factor = said.and_then(|said| times_said(line, said)).unwrap_or(factor);
            rows.extend(row(line, said.filter(|_| written.from.is_none()), factor, units)?);
            for one in said.iter().flat_map(|said| &said.stand_ins) {
                stand_ins.push(stand_in(batch, one, (line, said), (part, factor), units)?);
            }
        }
        for preferment in &part.preferments {
            let takes_all = preferment.spare.is_none();
            let name = &preferment.name;
            rows.push(Row {
                amounts: vec![preferment.total_shown.clone()],
                name: if takes_all { format!("all of the {name}") } else { name.clone() },
                shown_name: name.clone(),
                is_part: true,
                takes_all,
                remarks: preferment.kept().into_iter().collect(),
                is_counted: false,
            });
        }
        groups.push(Group {
            is_headed: card.parts.len() > 1,
            part: part.name.clone(),
            rows,
            divided: part.divide.as_ref().map(DivideCard::shown),
            stand_ins,
            notes: part.notes.clone(),
            cautions: part.cautions.clone(),
            pictures: written.pictures.clone(),
        });
    }
    Ok(groups)
}

/// How many times what was said goes in: of a part that is drawn from another file so much as is drawn of it, whatever the size of the batch.
/// `None` where only a share was said.
fn times_said(line: &LineCard, said: &Ingredient) -> Option<Number> {
    let scaled = line.said_in.or(line.natural);
    said.said().iter().find_map(|one| {
        let (all, one) = match (one.value, scaled) {
            (Value::Mass(one), _) => (line.mass?.value(), one.value()),
            (Value::Volume(one), Some(Value::Volume(all))) => (all.value(), one.value()),
            (Value::Count(one), Some(Value::Count(all))) => (all.value(), one.value()),
            _ => return None,
        };
        all.over(one).ok()
    })
}

/// One line; `None` for what preferments take whole.
fn row(line: &LineCard, said: Option<&Ingredient>, factor: Number, units: Units) -> Result<Option<Row>, Overflow> {
    let taken_whole = line.final_mix_shown.is_empty() && !line.shown.is_empty();
    if taken_whole {
        return Ok(None);
    }
    // What preferments leave is no longer the amount that was said.
    let is_whole = line.final_mix == line.mass;
    let is_part = line.part.is_some();
    let by_piece = said.and_then(|said| said.said().first()).is_some_and(|one| matches!(one.value, Value::Count(_)));
    let mut amounts = match said.map(|said| &said.amount) {
        Some(LineAmount::Said(said)) if is_whole && !is_part => said_words(line, said, factor, units)?,
        // `sponge .. 2 pieces`: nobody weighs what was baked.
        Some(LineAmount::Said(said)) if is_whole && by_piece => pieces_of_a_part(line, said, factor)?,
        _ => vec![line.final_mix_shown.clone()],
    };
    let in_cups = said.is_some_and(|said| said.said().iter().any(|one| matches!(one.value, Value::Volume(_))));
    let beside = if is_whole { line.measure.as_ref().filter(|_| !in_cups) } else { line.final_mix_measure.as_ref() };
    amounts.extend(beside.filter(|_| line.said_in.is_none()).cloned());
    let mut seen: Vec<String> = Vec::new();
    amounts.retain(|amount| {
        let text = amount.to_string();
        let is_new = !amount.is_empty() && !seen.contains(&text);
        seen.push(text);
        is_new
    });
    let heat = line.temperature_shown.as_ref().map(|heat| format!("at {heat}"));
    let first = said.and_then(|said| said.said().first().copied()).filter(|_| is_whole && (!is_part || by_piece));
    let count = match first.map(|said| said.value) {
        Some(Value::Count(count)) => Some(count.value().times(factor)?),
        _ => None,
    };
    // Nobody counts 1.88 eggs: where there is a weight beside it, it is weighed.
    let is_weighed = amounts.len() > 1 && count.is_some_and(|count| !is_cut(count));
    if is_weighed {
        amounts.remove(0);
    }
    let count = count.filter(|_| !is_weighed).map(as_cut);
    let is_counted = count.is_some();
    // `black pepper, to taste`: words are no amount that could stand before a name.
    let words = said.map(|said| &said.amount).filter(|_| !is_part).and_then(|amount| match amount {
        LineAmount::ToTaste => Some("to taste".to_owned()),
        LineAmount::AsNeeded => Some("as needed".to_owned()),
        _ => None,
    });
    if words.is_some() {
        amounts.clear();
    }
    let takes_all = is_part && is_whole && said.is_some_and(|said| said.amount == LineAmount::All);
    let name = line.ingredient.clone();
    let shown_name = match count {
        Some(_) if is_part => format!("of {name}"),
        Some(count) => several(count, &name),
        None => name.clone(),
    };
    let remarks = line.preparation.iter().cloned().chain(heat).chain(words).chain(line.remarks()).collect();
    Ok(Some(Row { amounts, name, shown_name, is_part, takes_all, remarks, is_counted }))
}

/// So many pieces of another part, and what they weigh.
fn pieces_of_a_part(line: &LineCard, said: &[Said], factor: Number) -> Result<Vec<Shown>, Overflow> {
    let Some(Value::Count(count)) = said.first().map(|one| one.value) else { return Ok(vec![line.shown.clone()]) };
    let count = as_cut(count.value().times(factor)?);
    Ok(vec![show::pieces(count), line.shown.clone()])
}

/// What was said, at the size of the batch: percentages are the bench's, a weight is what the scale shows.
fn said_words(line: &LineCard, said: &[Said], factor: Number, units: Units) -> Result<Vec<Shown>, Overflow> {
    let mut amounts: Vec<Shown> = Vec::new();
    let mut is_weighed = false;
    let is_own_cup = |one: &Said| one.unit.is_some_and(Unit::is_kitchen_measure) && !is_of_elsewhere(one);
    let has_own_cup = said.iter().any(is_own_cup);
    let mut is_poured = false;
    for one in said {
        let shown = match one.value {
            Value::Proportion(_) => continue,
            Value::Mass(_) if !is_weighed && line.mass.is_some() => {
                is_weighed = true;
                line.shown.clone()
            }
            // As ounces, in another unit than the scale's.
            Value::Mass(mass) if units == Units::Metric => {
                let said_in_ounces = one.unit.is_some_and(|unit| matches!(unit.word(false), "oz" | "lb"));
                if !said_in_ounces {
                    continue;
                }
                show::mass_us(mass.times(factor)?)
            }
            Value::Mass(_) => continue,
            // Whoever has cups has no litre, and no cup of elsewhere; the author's own say it once.
            Value::Volume(_) if units == Units::Us && has_own_cup && !is_own_cup(one) => continue,
            // The same twice in millilitres and in ounces of elsewhere would come out as two measures that differ.
            Value::Volume(_) if units == Units::Us && !is_own_cup(one) && is_poured => continue,
            Value::Volume(volume) if units == Units::Us && !is_own_cup(one) => {
                is_poured = true;
                let poured = volume.times(factor)?;
                customary(poured).unwrap_or_else(|| show::volume(poured))
            }
            _ if factor == Number::ONE => show::said_plain(one),
            Value::Count(count) => show::value_plain(Value::Count(Count::new(as_cut(count.value().times(factor)?)))),
            value => own_words::at_size(Some(one), value.times(factor)?, units),
        };
        amounts.push(shown);
    }
    if !is_weighed && (line.mass.is_some() || amounts.is_empty()) {
        amounts.push(line.shown.clone());
    }
    Ok(amounts)
}

fn stand_in(
    batch: &Batch,
    one: &crate::model::published::StandIn,
    (line, said): (&LineCard, Option<&Ingredient>),
    (part, factor): (&PartCard, Number),
    units: Units,
) -> Result<StandIn, Overflow> {
    let amount = match one.amount.first() {
        Some(first) => match (first.value, part.base) {
            (Value::Proportion(share), Some(base)) => show::mass(base.share(share)?, units),
            (Value::Mass(mass), _) => show::mass(mass.times(factor)?, units),
            (value, _) => own_words::at_size(Some(first), value.times(factor)?, units),
        },
        None => Shown::default(),
    };
    // What stands in may be a part of this recipe, or of another file; and so may what it stands in for.
    let of_part = |id: PartId| of_parts(&batch.recipe, [id], |id, line| batch.formula.is_left_out(id, line));
    let known = match said.map(|said| &said.refers) {
        Some(Refers::Part(id)) => of_part(*id).known,
        Some(Refers::Pantry(facts)) => facts.as_ref().map(|facts| facts.allergens.clone()).unwrap_or_default(),
        None => Vec::new(),
    };
    let found = match (batch.recipe.called(&one.name.key), &one.facts) {
        (Some(id), _) => of_part(id),
        (None, Some(facts)) if facts.knows_allergens => {
            Allergenic { known: facts.allergens.clone(), ..Allergenic::default() }
        }
        (None, facts) => Allergenic {
            known: facts.as_ref().map(|facts| facts.allergens.clone()).unwrap_or_default(),
            unknown: vec![one.name.to_string()],
            ..Allergenic::default()
        },
    };
    let brings = found.known.into_iter().filter(|allergen| !known.contains(allergen)).collect();
    let mut allergens_unknown = found.unknown;
    allergens_unknown.sort();
    allergens_unknown.dedup();
    Ok(StandIn {
        instead_of: line.ingredient.clone(),
        amount,
        name: one.name.to_string(),
        words: one.words.clone(),
        brings,
        allergens_unknown,
    })
}
