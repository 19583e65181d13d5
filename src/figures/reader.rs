//! A recipe for those who read it at home: the figures of its card, told in the author's words and without the bench's sums.
//!
//! It asks the card of the same batch; nothing is worked out a second time. A reader's page, and a book of such pages, are
//! laid out in [`crate::out::reader`].

mod days;
mod ingredients;

use crate::check::work_out;
use crate::figures::card::{self, Card, PartCard, Timeline};
use crate::figures::label::table::{self, Gap};
use crate::figures::label::{self, Wanted};
use crate::figures::sums::sections::pans;
use crate::language::prose::Prose;
use crate::language::syntax::{Key, TextKind};
use crate::make::batch::Batch;
use crate::make::order::Order;
use crate::make::size::Size;
use crate::make::work::Work;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Duration;
use crate::measure::show::{self, Units};
use crate::measure::shown::Shown;
use crate::model::allergen::Law;
use crate::model::project::Project;
use crate::model::published::Picture;
use crate::model::recipe::{Recipe, Selection};
use crate::plan::timeline;
use crate::text::source::SourceId;
pub use days::{Day, Step};
pub use ingredients::{Group, Row, StandIn};
use jiff::civil::Time;

/// A recipe as a page for readers.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct ReaderPage {
    /// Its name.
    pub title: String,
    /// Who wrote it.
    pub by: Option<String>,
    /// Where it is looked for.
    pub filed_under: Vec<String>,
    /// What is told first.
    pub story: Vec<Prose>,
    /// Pictures of the whole.
    pub pictures: Vec<Picture>,
    /// What it makes: `24 buns`.
    pub makes: Option<Shown>,
    /// How many pieces, where it makes some.
    pub pieces: Option<Number>,
    /// The way that stands in full.
    pub way: Way,
    /// What is otherwise when another option is taken.
    pub others: Vec<OtherWay>,
    /// What is needed: ovens, mixers, tins.
    pub tools: Vec<String>,
    /// How long each part keeps.
    pub keeps: Vec<Keeping>,
    /// Allergens, in the words of the law.
    pub allergens: Vec<String>,
    /// Ingredients of which nobody knows the allergens.
    pub allergens_unknown: Vec<String>,
    /// Energy, as far as the larder knows it.
    pub energy: Option<Energy>,
    /// What can hurt somebody, a line each.
    pub cautions: Vec<Prose>,
    /// Notes.
    pub notes: Vec<Prose>,
    /// Whom to thank.
    pub credits: Vec<Prose>,
}

/// One way to make it: under one option of each choice.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Way {
    /// The options taken: `hand, cold overnight`; empty where there is no choice.
    pub name: String,
    /// Minutes of work.
    pub active_minutes: i64,
    /// Minutes from the first step to the last.
    pub total_minutes: i64,
    /// When to begin, where it is said for when: words such as `08:20 on the day before`.
    pub begin: Option<String>,
    /// What has to be done in the night, where no rest can go on through it.
    pub night: Option<String>,
    /// What goes in, part by part.
    pub groups: Vec<Group>,
    /// What is done, day by day.
    pub days: Vec<Day>,
}

/// What is otherwise when another option is taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OtherWay {
    /// The option.
    pub name: String,
    /// Minutes of work.
    pub active_minutes: i64,
    /// Minutes from the first step to the last.
    pub total_minutes: i64,
    /// When to begin, where steps that stand above have other hours by this way; those that stand here then have none.
    pub begin: Option<String>,
    /// Ingredients that differ, by part.
    pub groups: Vec<Group>,
    /// Ingredients that are left out: part and ingredient.
    pub without: Vec<String>,
    /// Steps that differ, in their order.
    pub steps: Vec<Step>,
    /// Steps that are left out.
    pub without_steps: Vec<String>,
    /// Allergens that it has and the way in full has not, in the words of the law.
    pub allergens: Vec<String>,
    /// Ingredients of which nobody knows the allergens, and which the way in full has not.
    pub allergens_unknown: Vec<String>,
    /// What can hurt somebody by this way only.
    pub cautions: Vec<Prose>,
    /// Notes that hold for this way only.
    pub notes: Vec<Prose>,
}

/// How long a part keeps.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Keeping {
    /// The part.
    pub part: String,
    /// `2 days, chilled`
    pub how: String,
    /// Whether other parts take it, so that it can be made ahead.
    pub is_taken: bool,
}

/// Energy of what is made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Energy {
    /// In 100 g, as printed: `1180 kJ / 280 kcal`.
    pub per_100_g: String,
    /// In a piece, as printed.
    pub each: Option<String>,
    /// Kilocalories of a piece or else of 100 g, where nothing that matters is unknown.
    pub kilocalories: Option<String>,
}

/// What is asked of a page.
#[derive(Debug, Clone, Copy)]
pub struct Asked {
    /// In whose units.
    pub units: Units,
    /// At what time of day it is to be served.
    pub serve: Option<Time>,
}

impl ReaderPage {
    /// Every picture on it.
    pub fn all_pictures(&self) -> impl Iterator<Item = &Picture> {
        let groups = self.way.groups.iter().chain(self.others.iter().flat_map(|other| &other.groups));
        let steps =
            self.way.days.iter().flat_map(|day| &day.steps).chain(self.others.iter().flat_map(|other| &other.steps));
        let of_parts = groups.flat_map(|group| &group.pictures);
        self.pictures.iter().chain(of_parts).chain(steps.flat_map(|step| &step.pictures))
    }
}

impl ReaderPage {
    /// Sees every picture, to name its file otherwise.
    pub fn each_picture(&mut self, mut see: impl FnMut(&mut Picture)) {
        self.pictures.iter_mut().for_each(&mut see);
        let groups = self.way.groups.iter_mut().chain(self.others.iter_mut().flat_map(|other| &mut other.groups));
        groups.flat_map(|group| &mut group.pictures).for_each(&mut see);
        let steps = self.way.days.iter_mut().flat_map(|day| &mut day.steps);
        steps.flat_map(|step| &mut step.pictures).for_each(&mut see);
        self.others.iter_mut().flat_map(|other| &mut other.steps).flat_map(|step| &mut step.pictures).for_each(see);
    }
}

/// The page of a batch; `others` are the same batch with another option of a choice each, under the option's name.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn page(batch: &Batch, others: &[(String, Batch)], asked: Asked) -> Result<ReaderPage, Overflow> {
    Planned::of(batch, others)?.page(asked)
}

/// A batch and its other ways with their timelines, which are the same in all units: what pages in several units are made of.
#[derive(Debug)]
pub struct Planned<'b> {
    main: (&'b Batch, Timeline),
    others: Vec<(&'b str, &'b Batch, Timeline)>,
}

impl<'b> Planned<'b> {
    /// Of a batch, and of the same batch with another option of a choice each, under the option's name.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn of(batch: &'b Batch, others: &'b [(String, Batch)]) -> Result<Planned<'b>, Overflow> {
        let timeline = |batch: &Batch| timeline::of(&batch.recipe, &batch.formula);
        let of_others = others.iter().map(|(name, other)| Ok((name.as_str(), other, timeline(other)?)));
        Ok(Planned { main: (batch, timeline(batch)?), others: of_others.collect::<Result<_, Overflow>>()? })
    }

    /// Its page.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn page(&self, asked: Asked) -> Result<ReaderPage, Overflow> {
        let (batch, timeline) = &self.main;
        let card = card::of_batch_by(batch, timeline.clone(), asked.units)?;
        let way = way(batch, &card, asked)?;
        let mut told = Vec::with_capacity(self.others.len());
        for (name, other, timeline) in &self.others {
            let other_card = card::of_batch_by(other, timeline.clone(), asked.units)?;
            told.push(other_way(name, (&card, &way), (&other_card, self::way(other, &other_card, asked)?)));
        }
        laid_out(batch, &card, (way, told), asked)
    }
}

fn laid_out(
    batch: &Batch,
    card: &Card,
    (way, others): (Way, Vec<OtherWay>),
    asked: Asked,
) -> Result<ReaderPage, Overflow> {
    let recipe = &batch.recipe;
    let texts = |kind: TextKind| card::texts(&recipe.texts, kind, asked.units);
    // In a recipe without parts a story may stand below the ingredients too.
    let of_parts = recipe.own_parts().flat_map(|(_, part)| card::texts(&part.texts, TextKind::Story, asked.units));
    Ok(ReaderPage {
        title: card.title.clone(),
        by: recipe.published.by.clone(),
        filed_under: recipe.published.filed_under.iter().map(ToString::to_string).collect(),
        story: texts(TextKind::Story).into_iter().chain(of_parts).collect(),
        pictures: recipe.published.pictures.clone(),
        makes: card.makes.as_ref().map(|makes| makes.shown.clone()),
        pieces: card.makes.as_ref().and_then(|makes| makes.pieces),
        tools: tools(recipe, card, asked.units),
        keeps: keeps(batch, card),
        allergens: card.allergens.clone(),
        allergens_unknown: card.allergens_unknown.clone(),
        energy: energy(batch)?,
        cautions: card.short_cautions.iter().cloned().chain(never_so_long(batch, card)?).collect(),
        notes: card.notes.clone(),
        credits: card.credits.clone(),
        way,
        others,
    })
}

/// What a page says whose times cannot keep what the recipe says of them: they are those of its rests, and one of them is too long.
fn never_so_long(batch: &Batch, card: &Card) -> Result<Option<Prose>, Overflow> {
    if !card.timeline.rows.is_empty() || card.parts.iter().all(|part| part.steps.is_empty()) {
        return Ok(None);
    }
    let why = timeline::why_never(&batch.recipe, &batch.formula)?;
    Ok(why.map(|why| Prose::of(&format!("**Times:** no times keep all that is said of them here: {why}"))))
}

/// The same size with another option of each choice that is not `decided`; one that cannot be made so is left out.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn others(
    project: &Project,
    source: SourceId,
    recipe: &Recipe,
    size: &Size,
    decided: &[Key],
) -> Result<Vec<(String, Batch)>, Overflow> {
    let mut all = Vec::new();
    for (choice, name, selection) in other_selections(recipe) {
        if decided.contains(&choice) {
            continue;
        }
        let Some((recipe, written)) = work_out(project, source, &selection, &mut Vec::new()) else { continue };
        let Ok(order) = Order::sized(recipe, &written, size) else { continue };
        let work = Work::of(vec![order])?;
        all.extend(work.batches.into_iter().next().map(|batch| (name, batch)));
    }
    Ok(all)
}

/// For each choice the selections that take another option of it, with the option's name: all others stay as they are.
fn other_selections(recipe: &Recipe) -> Vec<(Key, String, Selection)> {
    let mut all = Vec::new();
    for choice in &recipe.choices {
        let taken: Option<&Key> = recipe.selection.of(&choice.name.key);
        for option in choice.options.iter().filter(|option| Some(&option.key) != taken) {
            let mut selection = Selection::clone(&recipe.selection);
            selection.take(&choice.name.key, &option.key);
            all.push((choice.name.key.clone(), option.to_string(), selection));
        }
    }
    all
}

fn way(batch: &Batch, card: &Card, asked: Asked) -> Result<Way, Overflow> {
    let options: Vec<&str> = card.choices.iter().map(|(_, option)| option.as_str()).collect();
    // What the oven does not take at once waits at home; a page without times would not say when to begin.
    let has_steps = card.parts.iter().any(|part| !part.steps.is_empty());
    let timeline = match has_steps && card.timeline.rows.is_empty() {
        true => timeline::with_waiting(&batch.recipe, &batch.formula)?,
        false => card.timeline.clone(),
    };
    let (timeline, night) = match asked.serve {
        Some(serve) => days::served(batch, (card, timeline), serve)?,
        None => (timeline, None),
    };
    let groups = ingredients::groups(batch, card, asked.units)?;
    Ok(Way {
        name: options.join(", "),
        active_minutes: timeline.hands_minutes,
        total_minutes: timeline.span_minutes,
        begin: asked.serve.map(|serve| days::begin(timeline.span_minutes, serve)),
        night,
        days: days::of(batch, card, &timeline, (asked.serve, &groups)),
        groups,
    })
}

/// Those of a list that are not in another.
fn new_in<T: PartialEq + Clone>(list: &[T], known: &[T]) -> Vec<T> {
    list.iter().filter(|one| !known.contains(one)).cloned().collect()
}

/// What of another way is not as in the first.
fn other_way(name: &str, (first_card, first): (&Card, &Way), (card, other): (&Card, Way)) -> OtherWay {
    let mut groups = Vec::new();
    let mut without = Vec::new();
    for group in &other.groups {
        let known = first.groups.iter().find(|known| known.part == group.part);
        let rows = new_in(&group.rows, known.map_or(&[], |known| &known.rows));
        let cautions = new_in(&group.cautions, known.map_or(&[], |known| &known.cautions));
        let notes = new_in(&group.notes, known.map_or(&[], |known| &known.notes));
        let divided = group.divided.clone().filter(|_| known.is_none_or(|known| known.divided != group.divided));
        if !(rows.is_empty() && cautions.is_empty() && notes.is_empty() && divided.is_none()) {
            groups.push(Group { rows, cautions, notes, divided, stand_ins: Vec::new(), ..group.clone() });
        }
    }
    let is_gone = |part: &str| !other.groups.iter().any(|there| there.part == part);
    for group in &first.groups {
        // Of a part that goes whole its name says all.
        let Some(there) = other.groups.iter().find(|there| there.part == group.part) else {
            without.push(format!("the {}", group.part));
            continue;
        };
        let is_there = |row: &&Row| there.rows.iter().any(|one| one.name == row.name);
        let is_told = |row: &&Row| row.is_part && is_gone(&row.shown_name);
        let elsewhere = |row: &Row| other.groups.iter().flat_map(|group| &group.rows).any(|one| one.name == row.name);
        let gone = group.rows.iter().filter(|row| !is_there(row) && !is_told(row));
        without.extend(gone.map(|row| match group.is_headed && elsewhere(row) {
            true => format!("{} of the {}", row.name, group.part),
            false => row.name.clone(),
        }));
    }
    let of_gone = |step: &Step| step.part.as_deref().is_some_and(is_gone);
    let of_first: Vec<&Step> = first.days.iter().flat_map(|day| &day.steps).collect();
    let of_other: Vec<Step> = other.days.into_iter().flat_map(|day| day.steps).collect();
    let gone = of_first
        .iter()
        .filter(|step| !of_gone(step) && !of_other.iter().any(|one| one.part == step.part && one.name == step.name));
    let without_steps = gone
        .map(|step| match step.part.as_ref().filter(|_| of_other.iter().any(|one| one.name == step.name)) {
            Some(part) => format!("{} of the {part}", step.name),
            None => step.name.clone(),
        })
        .collect();
    // A picture that stands above already is not shown again.
    let unseen = |step: Step| {
        let shown = |picture: &Picture| of_first.iter().any(|known| known.pictures.contains(picture));
        Step { pictures: step.pictures.iter().filter(|picture| !shown(picture)).cloned().collect(), ..step }
    };
    let differs = |step: &Step| !of_first.iter().any(|known| known.says_the_same(step));
    // Hours of some steps beside those of the others by another way fit nothing.
    let is_moved = |step: &Step| {
        let same: Vec<&&Step> = of_first.iter().filter(|known| known.says_the_same(step)).collect();
        !same.is_empty() && same.iter().all(|known| known.begins != step.begins)
    };
    let are_moved = of_other.iter().any(is_moved);
    let with_hours = |step: Step| Step { begins: step.begins.filter(|_| !are_moved), ..step };
    OtherWay {
        name: name.to_owned(),
        active_minutes: other.active_minutes,
        total_minutes: other.total_minutes,
        groups,
        without,
        without_steps,
        begin: other.begin.filter(|_| are_moved),
        steps: of_other.iter().filter(|step| differs(step)).cloned().map(unseen).map(with_hours).collect(),
        allergens: new_in(&card.allergens, &first_card.allergens),
        allergens_unknown: new_in(&card.allergens_unknown, &first_card.allergens_unknown),
        cautions: new_in(&card.short_cautions, &first_card.short_cautions),
        notes: new_in(&card.notes, &first_card.notes),
    }
}

/// What stands about in the steps, and what it is baked in, each once.
fn tools(recipe: &Recipe, card: &Card, units: Units) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    let used = card.parts.iter().flat_map(|part| &part.steps).filter_map(|step| step.equipment.clone());
    let tin = recipe.pan.map(|baked_in| pans::named(baked_in.pan, units));
    for tool in used.chain(tin) {
        if !all.contains(&tool) {
            all.push(tool);
        }
    }
    all
}

fn keeps(batch: &Batch, card: &Card) -> Vec<Keeping> {
    let keeping = |part: &PartCard| {
        let how = part.keeps.clone()?;
        let is_taken = part.from.is_some() || batch.recipe.users(part.id).next().is_some();
        Some(Keeping { part: part.name.clone(), how, is_taken })
    };
    card.parts.iter().filter_map(keeping).collect()
}

/// Energy by the rules of the European Union's labels, which count all that the larder knows.
fn energy(batch: &Batch) -> Result<Option<Energy>, Overflow> {
    let Ok(labels) = label::all(&batch.recipe, &batch.formula, &Wanted::by(Law::Eu)) else { return Ok(None) };
    let [label] = labels.as_slice() else { return Ok(None) };
    if !label.net.value().is_positive() {
        return Ok(None);
    }
    let rows = table::rows(label)?;
    let Some(row) = rows.first() else { return Ok(None) };
    let shown = |factor: Number| -> Result<String, Overflow> {
        let figures: Result<Vec<String>, Overflow> = row.figures.iter().map(|one| one.shown(label, factor)).collect();
        Ok(figures?.join(" / "))
    };
    let of_100_g = Number::whole(100).over(label.net.value())?;
    let of_one = label.pieces.filter(|pieces| pieces.value().is_positive());
    let of_one = of_one.map(|pieces| Number::ONE.over(pieces.value())).transpose()?;
    let Some(kilocalories) = row.figures.last() else { return Ok(None) };
    let serving = of_one.unwrap_or(of_100_g);
    let is_known = matches!(kilocalories.gap(label, serving)?, Gap::None | Gap::Trace);
    if kilocalories.gap(label, of_100_g)? == Gap::Large {
        return Ok(None);
    }
    Ok(Some(Energy {
        per_100_g: shown(of_100_g)?,
        each: of_one.map(shown).transpose()?,
        kilocalories: if is_known { Some(kilocalories.shown(label, serving)?) } else { None },
    }))
}

/// Minutes as they are said: `3 h 20 min`.
pub fn time_words(minutes: i64) -> String {
    show::duration(Duration::minutes(minutes)).to_string()
}
