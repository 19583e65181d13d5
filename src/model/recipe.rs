//! A recipe with its names bound and its choices made.

use crate::language::syntax::{Key, Name, TextKind};
use crate::measure::number::Overflow;
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::temperature::Temperature;
use crate::measure::value::{Said, Value};
use crate::model::aim::Aim;
pub use crate::model::choice::{Choice, Selection};
use crate::model::first_draws::FirstDraws;
pub use crate::model::keeps::{Keeps, KeptAt};
use crate::model::kind::Kind;
use crate::model::kitchen::Kitchen;
use crate::model::larder::{Facts, Larder};
use crate::model::lowered::InAny;
pub use crate::model::made::{BakedIn, Divide, HeadMakes, MakesMass, Sort};
use crate::model::noted::{self, Noted, NotedParts};
use crate::model::places::Places;
use crate::model::published::{Picture, Published, StandIn};
pub use crate::model::reference::PartId;
use crate::model::sale::Sale;
use crate::model::shared_list::SharedList;
use crate::model::step::{Asked, Step, StepRef};
pub use crate::model::text::{Text, WrittenText};
use crate::text::source::{SourceId, Span};
use crate::text::word_begins::has_word_beginning;
use std::sync::{Arc, OnceLock};

/// What 100 % is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Base {
    /// The lines that count as flour.
    Flour,
    /// All lines.
    Total,
    /// One line.
    Named(Name),
}

/// What an ingredient line names.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Refers {
    /// Something from the larder, and what is known of it.
    Pantry(Option<Arc<Facts>>),
    /// Another part.
    Part(PartId),
}

/// How much of an ingredient goes in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LineAmount {
    /// The amount, and other ways it was said.
    Said(Vec<Said>),
    /// All of another part, or of the line in the total formula.
    All,
    /// To taste.
    ToTaste,
    /// As needed.
    AsNeeded,
    /// It was reported.
    Broken,
}

/// An ingredient line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ingredient {
    /// What.
    pub name: Name,
    /// What the name stands for.
    pub refers: Refers,
    /// What it is, by its larder block or else by its name; [`Kind::Other`] for a part.
    pub kind: Kind,
    /// How much.
    pub amount: LineAmount,
    /// In a preferment: the line of the total formula that it is taken out of, by its place there.
    pub in_total: Option<usize>,
    /// Where the amount stands.
    pub amount_span: Span,
    /// How warm it goes in.
    pub temperature: Option<Temperature>,
    /// The same as it was written, possibly in both scales.
    pub temperature_said: Vec<Said>,
    /// Edible share of what is bought, if the line says one.
    pub edible: Option<Proportion>,
    /// Whether it counts as flour.
    pub is_flour: bool,
    /// May be left out.
    pub optional: bool,
    /// Dusting and greasing: not in the mass of the mix.
    pub aside: bool,
    /// It is cooked in it and comes out again: not in what the part makes.
    pub strained_out: bool,
    /// It was made earlier, or is left of something: nothing is made or bought for it.
    pub from_store: bool,
    /// Of a part: the step from which on nothing more is done for this use.
    pub before: Option<StepRef>,
    /// What is left when it is taken, as a share of it: the white when the yolk is taken.
    pub leaves: Option<(Name, Proportion)>,
    /// How it is prepared.
    pub preparation: Option<String>,
    /// What may stand in for it.
    pub stand_ins: Vec<StandIn>,
    /// The whole line.
    pub span: Span,
}

impl Ingredient {
    /// Whether it is all of another part in which pieces are dipped, one after the other.
    pub fn is_a_bath(&self) -> bool {
        !self.stays_in() && self.amount == LineAmount::All
    }

    /// Whether it is taken by the piece and not by weight: so many of what another part is divided into, or all of them.
    pub fn is_in_pieces(&self) -> bool {
        let counts = self.said().first().is_some_and(|said| matches!(said.value, Value::Count(_)));
        counts || self.amount == LineAmount::All
    }

    /// Whether a word of how it is prepared begins with one of these.
    pub fn is_prepared<'b>(&self, beginnings: impl AsRef<[&'b str]>) -> bool {
        self.preparation.as_ref().is_some_and(|said| has_word_beginning(&said.to_lowercase(), beginnings))
    }

    /// Whether it stays in what the part makes: it is neither set aside nor strained out.
    pub fn stays_in(&self) -> bool {
        !self.aside && !self.strained_out
    }

    /// The part that it stands for, if it stands for one.
    pub fn part(&self) -> Option<PartId> {
        match self.refers {
            Refers::Part(part) => Some(part),
            Refers::Pantry(_) => None,
        }
    }

    /// What was said of how much, as often as it was said.
    pub fn said(&self) -> &[Said] {
        if let LineAmount::Said(said) = &self.amount { said } else { &[] }
    }

    /// A mass of it as its author weighs it for who reads ounces, or grams, where the line says both: of `450 g = 1 lb` it is so many pounds
    /// as it is times 450 g.
    ///
    /// # Errors
    /// When the mass leaves the range of exact numbers.
    pub fn as_its_author_weighs(&self, mass: Mass, ounces: bool) -> Result<Mass, Overflow> {
        let single = self.said().iter().filter(|said| said.upper.is_none());
        let weights = single.filter_map(|said| Some((said.mass()?, said.unit?.is_us()?)));
        let weights: Vec<(Mass, bool)> = weights.collect();
        let first = weights.first().filter(|(first, is_us)| *is_us != ounces && *first > Mass::ZERO);
        let other = weights.iter().find(|(_, is_us)| *is_us == ounces);
        match (first, other) {
            (Some((first, _)), Some((other, _))) => mass.times(other.ratio(*first)?),
            _ => Ok(mass),
        }
    }

    /// What is known of it, if it is no part.
    pub fn facts(&self) -> Option<&Facts> {
        match &self.refers {
            Refers::Pantry(facts) => facts.as_deref(),
            Refers::Part(_) => None,
        }
    }

    /// The key under which sums put it together with others: its larder entry, by whatever name it was written; else its name.
    pub fn entry(&self) -> Key {
        self.facts().map_or_else(|| self.name.key.clone(), |facts| Key::new(&facts.name))
    }
}

/// Where a part comes from, when not from this recipe's own file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Foreign {
    /// Which of [`Recipe::used`].
    pub recipe: usize,
    /// Its number there.
    pub part: PartId,
}

/// A part of a recipe.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// Its name.
    pub name: Name,
    /// For a part of a used recipe: which.
    pub foreign: Option<Foreign>,
    /// For a preferment: the part whose formula it is taken out of.
    pub from: Option<PartId>,
    /// What 100 % is, and where that was said.
    pub base: Option<(Base, Option<Span>)>,
    /// Amounts are for one piece of the recipe.
    pub per_piece: bool,
    /// Of which sort that piece is, if it is `per SORT`.
    pub sort: Option<Name>,
    /// Pieces made of it.
    pub divide: Option<Divide>,
    /// The sorts of those pieces, where there are several sizes.
    pub sorts: Vec<Sort>,
    /// The mass that comes out.
    pub makes: Option<MakesMass>,
    /// How long it keeps.
    pub keeps: Option<Keeps>,
    /// What is meant to be left over.
    pub spare: Option<(Mass, Span)>,
    /// Desired dough temperature at the end of the mix.
    pub desired_temperature: Option<Temperature>,
    /// The same as it was written, possibly in both scales.
    pub desired_said: Vec<Said>,
    /// What its weight is baked in, if `makes` says.
    pub pan: Option<BakedIn>,
    /// Its ingredients in order.
    pub lines: SharedList<Ingredient>,
    /// Its steps in order.
    pub steps: Noted<Vec<Step>, { noted::STEPS }>,
    /// What it says besides.
    pub texts: Vec<Text>,
    /// Its pictures, for readers.
    pub pictures: Vec<Picture>,
    /// What it is to hold.
    pub aims: Vec<Aim>,
    /// Whether a line of it could not be read, so that its sums would mislead.
    pub broken: bool,
    /// How the words of its steps begin, which most checks ask first.
    pub said: Noted<Asked<OnceLock<InAny>>, { noted::STEPS }>,
    /// With which step each of its lines goes in, which a dozen checks ask.
    pub draws: Noted<Asked<OnceLock<FirstDraws>>, { noted::STEPS }>,
    /// Whether it is divided when all its heat is over.
    pub divided_when_done: Noted<Asked<OnceLock<bool>>, { noted::STEPS }>,
}

impl Part {
    /// The place of the line that lists an ingredient of another part: by its name, else the only one of the same larder entry.
    pub fn listing(&self, of: &Ingredient) -> Option<usize> {
        let by_name = self.lines.iter().position(|line| line.name.same(&of.name));
        by_name.or_else(|| {
            of.facts()?;
            let entry = of.entry();
            let mut same = (0..).zip(&self.lines).filter(|(_, line)| line.facts().is_some() && line.entry() == entry);
            same.next().filter(|_| same.next().is_none()).map(|(at, _)| at)
        })
    }
}

/// A recipe whose parts are drawn on.
#[derive(Debug, Clone)]
pub struct UsedRecipe {
    /// The recipe, with the choices of the one that draws on it where it has the same, else its own defaults.
    pub recipe: Arc<Recipe>,
    /// The `use` line that leads to it.
    pub span: Span,
}

/// A recipe with its names bound and its choices made.
#[derive(Debug, Clone)]
pub struct Recipe {
    /// Its name.
    pub name: Name,
    /// Its text.
    pub source: SourceId,
    /// What it makes.
    pub makes: Option<HeadMakes>,
    /// What a piece is baked in or on, if `makes` says.
    pub pan: Option<BakedIn>,
    /// What a piece loses in the oven, if `makes` says.
    pub bake_loss: Option<Proportion>,
    /// What it says for its label.
    pub sale: Sale,
    /// Its choices.
    pub choices: Vec<Choice>,
    /// What was chosen.
    pub selection: Noted<Selection, { noted::SELECTION }>,
    /// Its parts, then the parts of used recipes. Those that are the same under several selections are there once.
    pub parts: NotedParts<Arc<Part>>,
    /// Notes, cautions and credits of the head.
    pub texts: Noted<Vec<Text>, { noted::TEXTS }>,
    /// What it says for its readers.
    pub published: Published,
    /// What the whole is to hold.
    pub aims: Vec<Aim>,
    /// Where it is made.
    pub kitchen: Arc<Kitchen>,
    /// What is known of ingredients.
    pub larder: Arc<Larder>,
    /// The recipes whose parts it may draw on, also those that it reaches through others, each once.
    pub used: Noted<Vec<UsedRecipe>, { noted::USED }>,
    /// For each part, the lines that draw on it.
    users: Vec<Vec<(PartId, usize)>>,
    /// The last of its own parts that no other draws on.
    last: Option<PartId>,
    /// The place of each part's name.
    names: Places,
    /// For each part, those taken out of it.
    taken_out: Vec<Vec<PartId>>,
}

/// The head of a recipe, to which its parts are then added.
#[derive(Debug)]
pub(crate) struct Head {
    pub(crate) name: Name,
    pub(crate) source: SourceId,
    pub(crate) makes: Option<HeadMakes>,
    pub(crate) pan: Option<BakedIn>,
    pub(crate) bake_loss: Option<Proportion>,
    pub(crate) sale: Sale,
    pub(crate) choices: Vec<Choice>,
    pub(crate) selection: Selection,
    pub(crate) kitchen: Arc<Kitchen>,
    pub(crate) larder: Arc<Larder>,
    pub(crate) used: Vec<UsedRecipe>,
}

impl Recipe {
    /// A recipe without parts.
    pub(crate) fn new(head: Head) -> Recipe {
        let Head { name, source, makes, pan, bake_loss, sale, choices, selection, kitchen, larder, used } = head;
        Recipe {
            name,
            source,
            makes,
            pan,
            bake_loss,
            sale,
            choices,
            selection: selection.into(),
            parts: NotedParts::default(),
            texts: Noted::default(),
            published: Published::default(),
            aims: Vec::new(),
            kitchen,
            larder,
            used: used.into(),
            users: Vec::new(),
            last: None,
            names: Places::default(),
            taken_out: Vec::new(),
        }
    }

    /// Notes how the parts are called and what each is taken out of, once all of them are there and before their lines are.
    pub(crate) fn note_parts(&mut self) {
        self.names = Places::of(self.parts.iter().map(|part| &part.name));
        let mut taken_out = vec![Vec::new(); self.parts.len()];
        for (id, part) in self.parts() {
            if let Some(taken) = part.from.and_then(|from| taken_out.get_mut(from.0)) {
                taken.push(id);
            }
        }
        self.taken_out = taken_out;
    }

    /// Notes who draws on whom, once all parts are there: many ask, and each would walk all lines.
    pub(crate) fn note_users(&mut self) {
        let mut users = vec![Vec::new(); self.parts.len()];
        for (id, part) in self.parts() {
            for (at, line) in part.lines.iter().enumerate() {
                if let Refers::Part(of) = line.refers
                    && let Some(users) = users.get_mut(of.0)
                {
                    users.push((id, at));
                }
            }
        }
        self.users = users;
        let own = self.own_parts().filter(|(_, part)| part.from.is_none());
        self.last = own.filter(|(id, _)| self.users(*id).next().is_none()).map(|(id, _)| id).last();
    }

    /// Whether it is the same file under the same choices, so that its parts are the same things to make.
    pub fn is_same(&self, other: &Recipe) -> bool {
        self.source == other.source && self.selection == other.selection
    }

    /// The recipe's own parts with their numbers.
    pub fn own_parts(&self) -> impl Iterator<Item = (PartId, &Part)> {
        // They stand before those of used recipes.
        self.parts().take_while(|(_, part)| part.foreign.is_none())
    }

    /// Where a part is written: the recipe, and its number there.
    pub fn origin(&self, id: PartId) -> Option<(&Recipe, PartId)> {
        match self.part(id)?.foreign {
            Some(foreign) => Some((self.used.get(foreign.recipe)?.recipe.as_ref(), foreign.part)),
            None => Some((self, id)),
        }
    }

    /// The part of that number.
    pub fn part(&self, id: PartId) -> Option<&Part> {
        self.parts.get(id.0).map(Arc::as_ref)
    }

    /// The part of that number, to be changed; what shares it with this recipe keeps it as it is.
    pub(crate) fn part_mut(&mut self, id: PartId) -> Option<&mut Part> {
        self.parts.get_mut(id.0).map(Arc::make_mut)
    }

    /// All parts with their numbers.
    pub fn parts(&self) -> impl Iterator<Item = (PartId, &Part)> {
        (0..).map(PartId).zip(self.parts.iter().map(Arc::as_ref))
    }

    /// The sort of that name, in the part that is divided into it.
    pub fn sort(&self, name: &Name) -> Option<&Sort> {
        self.parts.iter().flat_map(|part| &part.sorts).find(|sort| sort.name.same(name))
    }

    /// The part of that name.
    pub fn find(&self, name: &Name) -> Option<PartId> {
        self.called(&name.key)
    }

    /// The part of that name.
    pub(crate) fn called(&self, name: &Key) -> Option<PartId> {
        noted::mark(noted::NAMES);
        self.names.get(name).map(PartId)
    }

    /// Whose card a step prints on: what it says, else its equipment, else its part.
    pub fn station_of(&self, id: PartId, step: &Step) -> String {
        let said = step.station.as_ref().or(step.equipment.as_ref());
        said.map(ToString::to_string).or_else(|| self.part(id).map(|part| part.name.to_string())).unwrap_or_default()
    }

    /// The preferments taken out of a part.
    pub fn preferments(&self, of: PartId) -> impl Iterator<Item = (PartId, &Part)> {
        noted::taken(of.0);
        let taken = self.taken_out.get(of.0).into_iter().flatten();
        taken.filter_map(|id| Some((*id, self.part(*id)?)))
    }

    /// The lines of other parts that draw on a part: the part, and the line's place in it.
    pub fn users(&self, of: PartId) -> impl Iterator<Item = (PartId, usize)> + '_ {
        noted::uses(of.0);
        self.users.get(of.0).into_iter().flatten().copied()
    }

    /// A part and what is in it, each once.
    pub fn within(&self, id: PartId) -> Vec<PartId> {
        let mut seen = vec![id];
        let mut next = 0;
        while let Some(at) = seen.get(next).copied() {
            next += 1;
            for inner in self.part(at).map_or(&[][..], |part| &part.lines).iter().filter_map(Ingredient::part) {
                if !seen.contains(&inner) {
                    seen.push(inner);
                }
            }
        }
        seen
    }

    /// Whether the same draw on a part as in another recipe.
    pub(crate) fn has_uses_of(&self, other: &Recipe, id: PartId) -> bool {
        self.users.get(id.0) == other.users.get(id.0)
    }

    /// Whether the same are taken out of a part as in another recipe.
    pub(crate) fn has_taken_of(&self, other: &Recipe, id: PartId) -> bool {
        self.taken_out.get(id.0) == other.taken_out.get(id.0)
    }

    /// Whether its parts are called as those of another recipe are.
    pub(crate) fn has_names_of(&self, other: &Recipe) -> bool {
        self.parts.iter().map(|part| &part.name.key).eq(other.parts.iter().map(|part| &part.name.key))
    }

    /// The cautions of its head.
    pub fn cautions(&self) -> impl Iterator<Item = &Text> {
        self.texts.unnoted().iter().filter(|text| text.kind == TextKind::Caution)
    }

    /// Whether any line draws on a part.
    pub fn is_drawn_on(&self, of: PartId) -> bool {
        noted::end(of.0);
        self.users.get(of.0).is_some_and(|users| !users.is_empty())
    }

    /// Whether a part is the one that the recipe is about.
    pub fn is_final(&self, id: PartId) -> bool {
        noted::end(id.0);
        self.last == Some(id)
    }

    /// Whether it is about one of its own parts.
    pub fn has_final(&self) -> bool {
        self.last.is_some()
    }

    /// The part that the recipe is about: the last of its own that no other part draws on.
    pub fn final_part(&self) -> Option<PartId> {
        noted::mark(noted::LAST);
        self.last
    }
}
