//! What a card shows: a batch with every figure decided, before any format is chosen.
//!
//! Exact figures stand beside the text that is printed for them, so that no output rounds by itself.

mod bowls;
mod divided;
mod goes_in;
mod keeps;
mod load;
mod makes;
mod mix_out;
mod packed;
mod part;
mod printed;
mod shares;
mod spoons;
mod stations;
mod steps;
mod traces;
mod weigh_out;

pub use goes_in::{GoesIn, LoadShare, Portion};
pub use keeps::AheadCard;
pub(crate) use keeps::keeps_shown;
pub use makes::Makes;
pub use part::{
    BalanceCard, DivideCard, FromStoreCard, LeavesCard, LineCard, LoadCard, MadeForCard, MakesCard, PartCard,
    PrefermentColumn, SortCard, StepCard, UseCard,
};
pub use shares::in_pieces;
pub(crate) use spoons::spoons_for_one;
pub use stations::{Handover, Station, Stay, stations};

use crate::check::caution;
use crate::language::prose::Prose;
use crate::language::syntax::Moment;
use crate::language::syntax::{Key, TextKind};
use crate::make::batch::Batch;
use crate::make::size::Limit;
use crate::make::store;
use crate::make::weigh::{Reading, Scales, Weighed};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show::{self, Units, WeighedIn};
use crate::measure::shown::Shown;
use crate::model::places::Places;
use crate::model::recipe::{PartId, Recipe, Refers, Text};
use crate::model::step::StepRef;
use crate::model::words::mere_prose;
use crate::plan::timeline;
pub use crate::plan::timeline::{Timeline, TimelineRow};
use crate::solve::formula::Formula;
use std::cell::RefCell;
use std::collections::{BTreeSet, HashMap};
use std::rc::Rc;

/// A recipe's card.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Card {
    /// The recipe's name.
    pub title: String,
    /// What it makes.
    pub makes: Option<Makes>,
    /// How many times the batch as written.
    pub factor: Number,
    /// What runs out first, for a batch made of what there is.
    pub limit: Option<String>,
    /// What it was scaled by, if by a base.
    pub scaled_by: Option<ScaledBy>,
    /// For when it is ordered, as printed: `2027-04-17 09:00`.
    pub ready_shown: Option<String>,
    /// For a batch that others draw on: which recipes take how much.
    pub made_for: Vec<MadeForCard>,
    /// Choice and option.
    pub choices: Vec<(String, String)>,
    /// The kitchen's name; empty for the built-in one.
    pub kitchen: String,
    /// The parts that are made, those of used recipes first.
    pub parts: Vec<PartCard>,
    /// Everything that goes in, over all parts.
    pub total_formula: Vec<TotalLine>,
    /// Allergens, in the words of the law.
    pub allergens: Vec<String>,
    /// Ingredients of which the larder knows nothing, so that their allergens are not known either.
    pub allergens_unknown: Vec<String>,
    /// What can hurt somebody.
    pub cautions: Vec<Prose>,
    /// The same for a printed sheet: one line a hazard, without sources.
    pub short_cautions: Vec<Prose>,
    /// Their sources, for the end of a sheet.
    pub caution_sources: String,
    /// Notes of the head.
    pub notes: Vec<Prose>,
    /// Whom to thank.
    pub credits: Vec<Prose>,
    /// What comes from the store.
    pub from_store: Vec<FromStoreCard>,
    /// What is left over of what is taken.
    pub left_over: Vec<store::Left>,
    /// When each step starts and ends, counted from the first.
    pub timeline: Timeline,
    /// Why there is no timeline, and what would help; empty where there is one.
    pub no_timeline: String,
}

/// What a batch was scaled by.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ScaledBy {
    /// The part.
    pub part: String,
    /// What 100 % is there: `flour`, `total`, or an ingredient.
    pub base: String,
}

impl ScaledBy {
    /// As printed, where it is not the flour that everybody expects.
    pub fn words(&self) -> Option<String> {
        match self.base.as_str() {
            "flour" => None,
            "total" => Some(format!("scaled by all of {}", self.part)),
            base => Some(format!("scaled by the {base} of {}", self.part)),
        }
    }
}

/// A line of the total formula.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TotalLine {
    /// What.
    pub ingredient: String,
    /// How much, over all parts.
    pub mass: Mass,
    /// On all flour; `None` without flour.
    pub percent: Option<Proportion>,
}

/// Makes the card of a batch. `formula` is the batch's, scaled by `factor`.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn card(
    recipe: &Recipe,
    formula: &Formula,
    factor: Number,
    limit: Option<Limit>,
    units: Units,
) -> Result<Card, Overflow> {
    told_why(card_by((recipe, formula), timeline::of(recipe, formula)?, factor, limit, units)?, recipe, formula)
}

/// Where there is no timeline the card says why.
fn told_why(mut card: Card, recipe: &Recipe, formula: &Formula) -> Result<Card, Overflow> {
    if card.timeline.rows.is_empty() {
        card.no_timeline = timeline::why_none(recipe, formula)?;
    }
    Ok(card)
}

fn card_by(
    (recipe, formula): (&Recipe, &Formula),
    timeline: Timeline,
    factor: Number,
    limit: Option<Limit>,
    units: Units,
) -> Result<Card, Overflow> {
    let maker = Maker::new(recipe, formula, units);
    let made = maker.made_parts();
    let mut parts = Vec::with_capacity(made.len());
    for id in &made {
        parts.extend(maker.part(*id)?);
    }
    note_spares(&mut parts);
    let mut contains = formula.allergens(recipe);
    for list in [&mut contains.known, &mut contains.unknown] {
        list.sort();
        list.dedup();
    }
    for part in &mut parts {
        for step in &mut part.steps {
            let here = StepRef { part: part.id, step: step.at };
            let row = timeline.rows.iter().find(|row| row.at == here);
            step.starts = row.map(|row| row.start);
        }
    }
    let texts = |kind: TextKind| texts(&recipe.texts, kind, units);
    Ok(Card {
        title: recipe.name.to_string(),
        no_timeline: String::new(),
        makes: maker.makes(),
        factor,
        limit: limit.map(|limit| limit.ingredient),
        scaled_by: None,
        ready_shown: None,
        made_for: Vec::new(),
        from_store: store::taken(recipe, formula)
            .into_iter()
            .map(|(_, one)| maker.taken(one))
            .collect::<Result<_, _>>()?,
        left_over: store::left(recipe, formula)?,
        choices: maker.choices(),
        kitchen: recipe.kitchen.span.map_or_else(String::new, |_| recipe.kitchen.name.clone()),
        parts,
        total_formula: maker.total_formula()?,
        allergens: contains.known,
        allergens_unknown: contains.unknown,
        cautions: cautions(recipe, formula, units),
        short_cautions: short_cautions(recipe, formula, units),
        caution_sources: caution_sources(recipe, formula, units),
        notes: texts(TextKind::Note),
        credits: texts(TextKind::Credit),
        timeline: timeline.in_units(units),
    })
}

/// Notes beside each preferment what of it does not go in, as its own card has it.
fn note_spares(parts: &mut [PartCard]) {
    let spare_of = |part: &PartCard| Some((part.id, part.balance.as_ref()?.spare.clone()?));
    let spares: Vec<(PartId, Shown)> = parts.iter().filter_map(spare_of).collect();
    for preferment in parts.iter_mut().flat_map(|part| &mut part.preferments) {
        preferment.spare = spares.iter().find(|(id, _)| *id == preferment.id).map(|(_, spare)| spare.clone());
    }
}

/// Makes the card of a batch, with who draws on it and when it is wanted.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn of_batch(batch: &Batch, units: Units) -> Result<Card, Overflow> {
    let timeline = timeline::of(&batch.recipe, &batch.formula)?;
    told_why(of_batch_by(batch, timeline, units)?, &batch.recipe, &batch.formula)
}

/// As [`of_batch`], by the timeline of this batch, which is the same in all units; where it has none it is not said why.
///
/// # Errors
/// As [`of_batch`].
pub fn of_batch_by(batch: &Batch, timeline: Timeline, units: Units) -> Result<Card, Overflow> {
    let mut made = card_by((&batch.recipe, &batch.formula), timeline, batch.grown, batch.limit.clone(), units)?;
    let maker = Maker::new(&batch.recipe, &batch.formula, units);
    made.scaled_by = batch.by_base_of.and_then(|id| {
        let part = batch.recipe.part(id)?;
        Some(ScaledBy { part: part.name.to_string(), base: maker.base_name(part)? })
    });
    for one in &batch.reweighed {
        let written = show::mass(one.written, units);
        // What is printed as it is written is that.
        if maker.to_a_tenth(one.now)? == written {
            continue;
        }
        let note = format!(
            "A {}piece weighs {} here and not {written} as it is written, in the steps too: so all is used.",
            one.sort.as_ref().map(|sort| format!("{sort} ")).unwrap_or_default(),
            maker.to_a_tenth(one.now)?,
        );
        if let Some(part) = made.parts.iter_mut().find(|part| part.id == one.part) {
            part.notes.push(Prose::of(&note));
        }
    }
    made.ready_shown = batch.ready.map(moment);
    made.from_store = batch.from_store.iter().map(|one| maker.taken(one.clone())).collect::<Result<_, _>>()?;
    for one in batch.made_for.iter().filter(|one| !one.in_pieces) {
        // Who cuts the dough for all of them cuts no pieces of one size, but for what is left when others have taken theirs.
        let card = made.parts.iter_mut().find(|part| part.name == one.part && part.divide.is_some());
        if let Some(card) = card
            && let Some(solved) = batch.formula.part(card.id)
        {
            card.divide = maker.divide_left(card.id)?;
            card.makes = maker.undivided(solved)?;
        }
    }
    for one in &batch.made_for {
        let ready_shown = one.ready.map(moment);
        // Two orders that nothing tells apart take it together.
        let same = |known: &&mut MadeForCard| {
            (&known.recipe, &known.part, &known.ready_shown) == (&one.recipe, &one.part, &ready_shown)
        };
        match made.made_for.iter_mut().find(same) {
            Some(known) => {
                known.mass = known.mass.plus(one.mass)?;
                known.shown = maker.weighed_alone(known.mass)?;
            }
            None => made.made_for.push(MadeForCard {
                recipe: one.recipe.clone(),
                part: one.part.clone(),
                mass: one.mass,
                shown: maker.weighed_alone(one.mass)?,
                ready_shown,
            }),
        }
    }
    for (part, card) in made.parts.iter_mut().map(|part| (part.id, &mut part.steps)) {
        for card in card.iter_mut().filter(|card| batch.apart.as_ref().is_some_and(|apart| apart.is_own(part, card.at)))
        {
            let Some(step) = batch.recipe.part(part).and_then(|part| part.steps.get(card.at)) else { continue };
            maker.in_loads(card, step, batch.loads_of(part, card.at)?)?;
        }
    }
    Ok(made)
}

fn moment(ready: Moment) -> String {
    ready.when.strftime("%Y-%m-%d %H:%M").to_string()
}

/// What the file cautions against, then what the program does: the allergens by themselves, the rest in one paragraph.
fn cautions(recipe: &Recipe, formula: &Formula, units: Units) -> Vec<Prose> {
    let mut all = texts(&recipe.texts, TextKind::Caution, units);
    all.extend(traces::caution(recipe, formula));
    let mut words: Vec<String> = Vec::new();
    for caution in caution::for_recipe(recipe, formula, units) {
        let said = caution.text.trim_end_matches(caution::DEFERS).trim_end().trim_end_matches('.');
        let sourced = format!("{said} ({}).", caution.source);
        if caution.check == "hidden-allergen" {
            all.push(Prose::of(&sourced));
        } else {
            words.push(sourced);
        }
    }
    if !words.is_empty() {
        words.push(caution::DEFERS.to_owned());
        all.push(Prose::of(&words.join(" ")));
    }
    all
}

/// As [`cautions`], for a printed sheet: one line a hazard, the hazard first.
fn short_cautions(recipe: &Recipe, formula: &Formula, units: Units) -> Vec<Prose> {
    let mut all = texts(&recipe.texts, TextKind::Caution, units);
    all.extend(traces::caution(recipe, formula));
    let said = caution::for_recipe(recipe, formula, units);
    all.extend(said.into_iter().map(|one| Prose::of(&format!("**{}:** {}", one.hazard, one.short))));
    all
}

/// Where the program's cautions were published, and what goes before them; empty where it has none.
fn caution_sources(recipe: &Recipe, formula: &Formula, units: Units) -> String {
    let all = caution::for_recipe(recipe, formula, units);
    if all.is_empty() {
        return String::new();
    }
    let sources: Vec<String> = all.iter().map(|one| format!("{}: {}", one.hazard, one.source)).collect();
    format!("{} Sources: {}.", caution::DEFERS, sources.join("; "))
}

/// Notes, cautions or credits as prose.
pub(crate) fn texts(all: &[Text], kind: TextKind, units: Units) -> Vec<Prose> {
    all.iter().filter(|text| text.kind == kind).map(|text| mere_prose(&text.words, units)).collect()
}

#[derive(Clone)]
struct Maker<'a> {
    recipe: &'a Recipe,
    formula: &'a Formula,
    units: Units,
    /// The scales that figures are rounded for.
    scales: Scales,
    /// In what is weighed out is printed: one unit a column.
    unit: WeighedIn,
    /// A preferment that is looked at by itself and not as a share of its total formula.
    top: Option<PartId>,
    /// What the card of the dough weighs of that preferment, where nothing else takes of it.
    goes_on: Option<Reading>,
    /// What is weighed for each line of the parts that were looked at.
    weighed: Rc<RefCell<HashMap<PartId, Vec<Option<Weighed>>>>>,
}

impl<'a> Maker<'a> {
    fn new(recipe: &'a Recipe, formula: &'a Formula, units: Units) -> Maker<'a> {
        let scales = Scales::of(&recipe.kitchen, units);
        let (unit, weighed) = (WeighedIn::Alone, Rc::default());
        Maker { recipe, formula, units, scales, unit, top: None, goes_on: None, weighed }
    }

    /// The same, with a preferment by itself in a formula in which it has another size.
    fn of_its_own<'b>(&'b self, formula: &'b Formula, id: PartId) -> Maker<'b> {
        Maker { top: Some(id), ..Maker::new(self.recipe, formula, self.units) }
    }
}

impl Maker<'_> {
    /// The parts that are made: a part before those that draw on it, a preferment before its dough. Where nothing forbids it
    /// in the author's order, parts of other files first.
    fn made_parts(&self) -> Vec<PartId> {
        let is_made = |id: PartId| self.formula.is_made(id);
        let foreign_first = self.recipe.parts().map(|(id, part)| (part.foreign.is_none(), id));
        let mut all: Vec<(bool, PartId)> = foreign_first.filter(|(_, id)| is_made(*id)).collect();
        all.sort();
        let place: HashMap<PartId, usize> = all.iter().enumerate().map(|(at, (_, id))| (*id, at)).collect();
        // For each, which of them wait for it, and for how many it waits.
        let mut waiting = vec![Vec::new(); all.len()];
        let mut waits_for = vec![0_usize; all.len()];
        let mut comes_before = |first: PartId, then: PartId| {
            if let (Some(first), Some(then)) = (place.get(&first), place.get(&then))
                && first != then
                && let (Some(waiting), Some(count)) = (waiting.get_mut(*first), waits_for.get_mut(*then))
            {
                waiting.push(*then);
                *count += 1;
            }
        };
        for (_, id) in &all {
            let Some(part) = self.recipe.part(*id) else { continue };
            // What the dough lists of a preferment's seed is taken by the preferment.
            part.from.iter().for_each(|dough| comes_before(*id, *dough));
            for line in &part.lines {
                if let Refers::Part(drawn_on) = line.refers {
                    comes_before(drawn_on, *id);
                }
            }
        }
        let mut left: BTreeSet<usize> = (0..all.len()).collect();
        let mut free: BTreeSet<usize> =
            (0..).zip(&waits_for).filter(|(_, count)| **count == 0).map(|(at, _)| at).collect();
        let mut order = Vec::with_capacity(all.len());
        while let Some(next) = free.pop_first().or_else(|| left.first().copied()) {
            left.remove(&next);
            order.extend(all.get(next).map(|(_, id)| *id));
            for then in waiting.get(next).into_iter().flatten() {
                let Some(count) = waits_for.get_mut(*then) else { continue };
                *count -= 1;
                if *count == 0 && left.contains(then) {
                    free.insert(*then);
                }
            }
        }
        order
    }

    fn choices(&self) -> Vec<(String, String)> {
        let taken = |choice: &crate::model::recipe::Choice| {
            let key = self.recipe.selection.of(&choice.name.key)?;
            let option = choice.options.iter().find(|option| option.key == *key)?;
            Some((choice.name.to_string(), option.to_string()))
        };
        self.recipe.choices.iter().filter_map(taken).collect()
    }

    /// Everything that goes in, over all parts, in order of first appearance; a preferment's lines are its dough's.
    fn total_formula(&self) -> Result<Vec<TotalLine>, Overflow> {
        let mut lines: Vec<(Key, &crate::language::syntax::Name, Mass)> = Vec::new();
        let mut places = Places::default();
        let mut flour = Mass::ZERO;
        for id in self.made_parts() {
            let (Some(part), Some(solved)) = (self.recipe.part(id), self.formula.part(id)) else { continue };
            if part.from.is_some() {
                continue;
            }
            for (line, amount) in part.lines.iter().zip(&solved.lines) {
                let Some(mass) = amount.mass.filter(|_| matches!(line.refers, Refers::Pantry(_))) else { continue };
                if line.is_flour && !line.aside {
                    flour = flour.plus(mass)?;
                }
                let entry = line.entry();
                match places.note(&entry, lines.len()).and_then(|at| lines.get_mut(at)) {
                    Some((_, name, total)) => {
                        *total = total.plus(mass)?;
                        // Of several names for one thing the larder's own is kept.
                        if line.name.key == entry {
                            *name = &line.name;
                        }
                    }
                    None => lines.push((entry, &line.name, mass)),
                }
            }
        }
        lines
            .into_iter()
            .map(|(_, name, mass)| {
                let percent = if flour > Mass::ZERO { Some(mass.as_share_of(flour)?) } else { None };
                Ok(TotalLine { ingredient: name.to_string(), mass, percent })
            })
            .collect()
    }
}

/// What stands above the cards of a day.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct DayHead {
    /// The day's name.
    pub name: String,
    /// Notes.
    pub notes: Vec<Prose>,
    /// Cautions.
    pub cautions: Vec<Prose>,
    /// Whom to thank.
    pub credits: Vec<Prose>,
}

impl DayHead {
    /// The head of a day.
    pub fn of(day: &crate::solve::resolve::day::Day, units: Units) -> DayHead {
        let texts = |kind: TextKind| texts(&day.texts, kind, units);
        DayHead {
            name: day.name.to_string(),
            notes: texts(TextKind::Note),
            cautions: texts(TextKind::Caution),
            credits: texts(TextKind::Credit),
        }
    }
}
