//! What to buy and what to weigh out, added up over all batches.

mod amounts;
mod besides;

pub use besides::{FromStore, LeftOver, Stocked};

use amounts::{added, counted, natural_to_buy, pieces_of, with_waste};

use crate::figures::card::{Card, LineCard};
use crate::language::syntax::Key;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Volume};
use crate::measure::show::{self, Units, WeighedIn};
use crate::measure::shown::Shown;
use crate::measure::to_buy::{mass_to_buy, volume_to_buy};
use crate::measure::value::Value;
use crate::model::kind::Kind;
use crate::model::larder::{Facts, Sold, is_called};
use crate::text::quick::QuickMap;
use std::sync::Arc;

/// The list.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct List {
    /// What it is for.
    pub batches: Vec<ListedBatch>,
    /// What to buy, by the section of the shop.
    pub buy: Vec<Section>,
    /// What to weigh out, by ingredient: one walk to the bin for all batches.
    pub weigh: Vec<Portions>,
    /// What to take from the store.
    pub store: Vec<FromStore>,
    /// What there is of what is needed, and so is not bought.
    pub stocked: Vec<Stocked>,
    /// What is left over of what is taken.
    pub left: Vec<LeftOver>,
}

/// A batch that the list is for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ListedBatch {
    /// The recipe.
    pub recipe: String,
    /// What it makes, as printed.
    pub makes: Shown,
}

/// A section of the shop.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Section {
    /// Its name; `None` for what the larder puts nowhere.
    pub name: Option<String>,
    /// What to buy there, by name.
    pub items: Vec<Bought>,
}

/// Something to buy.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bought {
    /// What, as the first recipe calls it.
    pub name: String,
    /// What other recipes call it.
    pub also: Vec<String>,
    /// What goes in, exactly; `None` when no line has a weight.
    pub needed: Option<Mass>,
    /// What is bought, exactly: with what is peeled, stoned or shelled off.
    pub bought: Option<Mass>,
    /// As printed, rounded up: as a shop sells it.
    pub shown: Shown,
    /// How many go in, where every recipe counts it.
    pub counted: Option<Number>,
    /// As pieces, rounded up, where the recipes count it or the larder knows that it is sold so and what one weighs.
    pub pieces: Option<i64>,
    /// As a volume, exactly, of what is bought by the litre.
    pub volume: Option<Volume>,
    /// Amounts without a weight, as printed: `to taste`, `2 pieces`.
    pub besides: Vec<Shown>,
    /// Whether every recipe can do without.
    pub optional: bool,
    /// What the larder knows of it.
    pub facts: Option<Arc<Facts>>,
    /// Other names that the larder has for it.
    pub entries: Vec<Key>,
}

/// An ingredient and where it goes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Portions {
    /// What, as the first recipe calls it.
    pub name: String,
    /// All of it, exactly.
    pub mass: Option<Mass>,
    /// As printed; empty without a weight.
    pub shown: Shown,
    /// Where it goes.
    pub portions: Vec<Portion>,
}

/// One weighing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Portion {
    /// For which recipe.
    pub recipe: String,
    /// For which part.
    pub part: String,
    /// How much, exactly.
    pub mass: Option<Mass>,
    /// As printed on the card.
    pub shown: Shown,
    /// How many, where the recipe counts it.
    pub pieces: Option<Number>,
    /// What its card calls it, where that is another name than the bin has.
    pub called: Option<String>,
    /// How it is prepared.
    pub preparation: Option<String>,
}

/// A line of some card that is bought and weighed, not made.
struct Line<'a> {
    /// The recipe, with the options and the time that tell it from another of its name.
    recipe: &'a str,
    part: &'a str,
    line: &'a LineCard,
}

/// Lines that are one thing in a shop, together; each is found by what its lines are called, since there may be thousands.
#[derive(Default)]
struct Groups<'a> {
    all: Vec<Vec<Line<'a>>>,
    /// The places of what is called so.
    names: QuickMap<Key, usize>,
    /// The same of what the larders of their recipes have them as: one recipe may have a block of its own on what another knows by the larder below.
    entries: QuickMap<Key, usize>,
}

impl<'a> Groups<'a> {
    /// Puts a line to those of its name, else to those of its entry.
    fn take(&mut self, line: Line<'a>) {
        let (name, entry) = (Key::new(shop_name(line.line)), bought_as(line.line));
        let at = self.names.get(&name).or_else(|| self.entries.get(&entry)).copied().unwrap_or(self.all.len());
        self.names.entry(name).or_insert(at);
        // Of several that have it the first is asked.
        self.entries.entry(entry).and_modify(|known| *known = at.min(*known)).or_insert(at);
        match self.all.get_mut(at) {
            Some(group) => group.push(line),
            None => self.all.push(vec![line]),
        }
    }
}

/// Makes the list of these cards.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn of(cards: &[Card], units: Units) -> Result<List, Overflow> {
    let mut groups = Groups::default();
    let called: Vec<String> = cards.iter().map(|card| called(card, cards)).collect();
    for (card, recipe) in cards.iter().zip(&called) {
        for part in &card.parts {
            // A dough's lines less what its preferments take; those stand on the preferments' own cards.
            let is_weighed = |line: &&LineCard| line.part.is_none() && !line.final_mix_shown.is_empty();
            let lines = part.lines.iter().filter(is_weighed);
            for line in lines {
                groups.take(Line { recipe, part: &part.name, line });
            }
        }
    }
    let mut list = List { batches: cards.iter().zip(&called).map(listed).collect(), ..List::default() };
    for group in &groups.all {
        list.weigh.push(portions(group, units)?);
        // Water comes from the tap.
        if group.iter().any(|line| larder(line).is_some_and(|facts| facts.name == "water")) {
            continue;
        }
        // What is in the store is not bought.
        let group: Vec<&Line<'_>> = group.iter().filter(|line| !line.line.from_store).collect();
        if group.is_empty() {
            continue;
        }
        let bought = bought(&group, units)?;
        let section = group.iter().find_map(|line| larder(line)?.section.clone());
        match list.buy.iter_mut().find(|known| known.name == section) {
            Some(known) => known.items.push(bought),
            None => list.buy.push(Section { name: section, items: vec![bought] }),
        }
    }
    // What the larder puts nowhere comes last.
    list.buy.sort_by(|a, b| a.name.is_none().cmp(&b.name.is_none()).then_with(|| a.name.cmp(&b.name)));
    for section in &mut list.buy {
        section.items.sort_by_cached_key(|item| Key::new(&item.name));
    }
    list.store = besides::from_store(cards, &called, units)?;
    list.left = besides::left_over(cards, units)?;
    Ok(list)
}

impl Bought {
    fn is_called(&self, key: &Key) -> bool {
        let names = std::iter::once(&self.name).chain(&self.also);
        let by_name = |name: &String| is_called(&Key::new(name), key);
        let by_entry = self.facts.as_ref().is_some_and(|facts| is_called(&Key::new(&facts.name), key));
        by_entry || names.into_iter().any(by_name) || self.entries.iter().any(|name| is_called(name, key))
    }

    /// Says what is bought as a shop sells it; `needed` is what goes in of it.
    fn as_sold(&mut self, needed: Option<Mass>, units: Units) -> Result<(), Overflow> {
        let facts = self.facts.as_deref();
        let sold = facts.map_or(Sold::ByWeight, Facts::sold);
        let one = facts.filter(|_| sold == Sold::ByThePiece).and_then(Facts::one_as_bought);
        self.pieces = match (self.counted, self.bought.or(needed), one) {
            (Some(count), _, _) => count.ceil().to_whole(),
            (None, Some(shelf), Some(one)) if one > Mass::ZERO => shelf.ratio(one)?.ceil().to_whole(),
            _ => None,
        };
        let density = facts.filter(|_| sold == Sold::ByTheLitre).and_then(|facts| facts.density);
        self.volume = density.zip(self.bought).map(|(density, mass)| density.volume(mass)).transpose()?;
        self.shown = match (self.counted, self.volume, self.bought) {
            // What every recipe counts is bought by number, whatever it weighs.
            (Some(count), _, _) => show::pieces(count.ceil()),
            (None, Some(volume), _) => volume_to_buy(volume, units),
            (None, None, Some(mass)) => mass_to_buy(mass, units),
            (None, None, None) => Shown::default(),
        };
        Ok(())
    }
}

fn listed((card, recipe): (&Card, &String)) -> ListedBatch {
    ListedBatch {
        recipe: recipe.clone(),
        makes: card.makes.as_ref().map(|makes| makes.shown.clone()).unwrap_or_default(),
    }
}

/// A card's title, with the options that others of that title do not have, and for when it is where those are for other times.
fn called(card: &Card, cards: &[Card]) -> String {
    let others: Vec<&Card> = cards.iter().filter(|other| other.title == card.title).collect();
    let taken = |of: &Card, choice: &String| {
        of.choices.iter().find(|(name, _)| name == choice).map(|(_, option)| option.clone())
    };
    // A batch that is made for several ways says nothing of what tells them apart.
    let differs = |(choice, option): &&(String, String)| {
        others.iter().filter_map(|other| taken(other, choice)).any(|theirs| theirs != *option)
    };
    let mut told: Vec<String> = card.choices.iter().filter(differs).map(|(_, option)| option.clone()).collect();
    let alike = others.iter().filter(|other| other.choices == card.choices);
    let times: Vec<Option<&str>> = alike.map(|other| other.ready_shown.as_deref()).collect();
    let is_apart = |time: &str| times.iter().any(|other| *other != Some(time));
    // What is made once for several times is not for the first of them.
    let own = card.ready_shown.as_deref().filter(|time| card.made_for.len() < 2 && is_apart(time));
    told.extend(own.map(|time| for_when(time, &times)));
    if told.is_empty() { card.title.clone() } else { format!("{} ({})", card.title, told.join(", ")) }
}

/// For when something is, of several times: the time of the day where all are on one day.
fn for_when(time: &str, times: &[Option<&str>]) -> String {
    let day = |time: &str| time.split_once(' ').map(|(day, _)| day.to_owned());
    let one_day = times.iter().flatten().all(|other| day(other) == day(time));
    let shown = time.split_once(' ').filter(|_| one_day).map_or(time, |(_, time)| time);
    format!("for {shown}")
}

fn larder<'a>(line: &Line<'a>) -> Option<&'a Arc<Facts>> {
    line.line.larder.as_ref()
}

/// Lines are the same thing in a shop when the larder knows them as the same; `butter for the tins` is butter.
///
/// A ground spice is another jar than its seeds: nobody crackles what is ground.
fn bought_as(line: &LineCard) -> Key {
    let is_ground = |name: &str| Key::new(name).as_str().starts_with("ground ");
    match &line.larder {
        Some(facts) if facts.kind == Some(Kind::Spice) && is_ground(&line.ingredient) && !is_ground(&facts.name) => {
            Key::new(&line.ingredient)
        }
        Some(facts) => Key::new(&facts.name),
        None => Key::new(&line.ingredient),
    }
}

/// What a line is called in a shop: without what it is for, where the larder knows it without.
fn shop_name(line: &LineCard) -> &str {
    match line.ingredient.split_once(" for ") {
        Some((what, _)) if line.larder.is_some() => what,
        _ => &line.ingredient,
    }
}

fn bought(group: &[&Line<'_>], units: Units) -> Result<Bought, Overflow> {
    let mut names: Vec<String> = Vec::new();
    let mut needed: Option<Mass> = None;
    let mut bought: Option<Mass> = None;
    let mut besides: Vec<Shown> = Vec::new();
    let mut natural: Vec<Value> = Vec::new();
    for Line { line, .. } in group {
        let name = shop_name(line);
        if !names.iter().any(|known| Key::new(known) == Key::new(name)) {
            names.push(name.to_owned());
        }
        match (line.final_mix, line.natural) {
            (Some(mass), _) => {
                needed = Some(needed.unwrap_or(Mass::ZERO).plus(mass)?);
                bought = Some(bought.unwrap_or(Mass::ZERO).plus(with_waste(line, mass)?)?);
            }
            (None, Some(value)) => match natural.iter_mut().find(|known| known.dimension() == value.dimension()) {
                Some(known) => *known = known.times(added(*known, value)?)?,
                None => natural.push(value),
            },
            (None, None) if !besides.contains(&line.shown) => besides.push(line.shown.clone()),
            (None, None) => {}
        }
    }
    // What one line says in cups stays in cups; what several say is added up, and a cup of one may be none of the other.
    let own = match group {
        [one] if matches!(one.line.natural, Some(Value::Volume(_))) => Some(&one.line.shown),
        _ => None,
    };
    let own = own.filter(|own| !own.terms.iter().any(|term| ["ml", "l"].contains(&term.unit)));
    besides.splice(0..0, natural.into_iter().map(|value| own.cloned().unwrap_or_else(|| natural_to_buy(value, units))));
    let mut names = names.into_iter();
    let mut bought = Bought {
        name: names.next().unwrap_or_default(),
        also: names.collect(),
        needed,
        bought,
        shown: Shown::default(),
        counted: counted(group)?,
        pieces: None,
        volume: None,
        besides,
        optional: group.iter().all(|line| line.line.optional),
        facts: group.iter().find_map(|line| larder(line)).cloned(),
        entries: group.iter().map(|line| Key::new(&line.line.ingredient)).collect(),
    };
    // What its block says is bought by weight is, however the recipes count it.
    if bought.facts.as_ref().is_some_and(|facts| facts.sold == Some(Sold::ByWeight)) {
        bought.counted = None;
    }
    bought.as_sold(needed, units)?;
    Ok(bought)
}

/// A mass that is no printed portion, to the gram where that is fine enough.
fn shown(mass: Mass, units: Units) -> Shown {
    let whole = mass.value().rounded_to(Number::ONE).map(Mass::new).unwrap_or(mass);
    show::mass(if mass.value() >= Number::whole(10) { whole } else { mass }, units)
}

fn portions(group: &[Line<'_>], units: Units) -> Result<Portions, Overflow> {
    let (mut total, mut weighed, mut ounces) = (None::<Mass>, None::<Mass>, Some(Mass::ZERO));
    let mut portions = Vec::with_capacity(group.len());
    // One unit for all that goes out of one bin.
    let all = Mass::sum(group.iter().filter_map(|line| line.line.weighed))?;
    let mut weights = group.iter().filter_map(|line| line.line.weighed);
    let in_kilograms = all >= show::KILOGRAMS && weights.all(show::is_in_whole_grams);
    let unit = if in_kilograms { WeighedIn::Kilograms } else { WeighedIn::Grams };
    let said = |mass: Mass, ounces: Option<Mass>| match (units, ounces) {
        (Units::Both, Some(ounces)) => show::mass_weighed_twice(mass, ounces, unit),
        (units, _) => show::mass_weighed(mass, units, unit),
    };
    for Line { recipe, part, line } in group {
        if let Some(mass) = line.final_mix {
            total = Some(total.unwrap_or(Mass::ZERO).plus(mass)?);
        }
        if let Some(mass) = line.weighed {
            weighed = Some(weighed.unwrap_or(Mass::ZERO).plus(mass)?);
            ounces = ounces.zip(line.weighed_ounces).map(|(all, one)| all.plus(one)).transpose()?;
        }
        portions.push(Portion {
            recipe: (*recipe).to_owned(),
            part: (*part).to_owned(),
            mass: line.final_mix,
            shown: match line.weighed {
                Some(mass) if !line.final_mix_shown.is_empty() => said(mass, line.weighed_ounces),
                _ => line.final_mix_shown.clone(),
            },
            pieces: pieces_of(line),
            called: besides::other_name(shop_name(line), group.first().map(|head| shop_name(head.line))),
            preparation: line.preparation.clone(),
        });
    }
    // The printed total is what the printed portions add up to.
    let shown = weighed.map(|mass| said(mass, ounces)).unwrap_or_default();
    let name = group.first().map(|line| shop_name(line.line).to_owned()).unwrap_or_default();
    Ok(Portions { name, mass: total, shown, portions })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::work_out;
    use crate::edge::loader::Loader;
    use crate::figures::card::card;
    use crate::model::recipe::Selection;

    fn list_of(text: &str) -> List {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("recipe.miche");
        std::fs::write(&path, text).expect("written");
        std::fs::write(folder.path().join("larder.miche"), "ingredient vanilla pod\none weighs 3 g\n")
            .expect("written");
        let mut loader = Loader::new();
        let source = loader.load(&path).expect("read");
        let project = loader.into_project();
        let (recipe, formula) = work_out(&project, source, &Selection::new(), &mut Vec::new()).expect("a recipe");
        let card = card(&recipe, &formula, Number::ONE, None, Units::Metric).expect("in range");
        of(&[card], Units::Metric).expect("in range")
    }

    fn find<'a>(list: &'a List, name: &str) -> &'a Bought {
        let items = list.buy.iter().flat_map(|section| &section.items);
        items.clone().find(|item| item.name == name).unwrap_or_else(|| panic!("{name} is not on the list"))
    }

    /// Worked by hand: 1400 g of what is left of 75 % are 1866.67 g, which a shop sells as 1.9 kg.
    #[test]
    fn what_is_cut_away_is_bought_too() {
        let list = list_of("recipe compote\nrhubarb .... 1.4 kg, yield 75 %\n");
        let rhubarb = find(&list, "rhubarb");
        assert_eq!(rhubarb.bought, Some(Mass::new(Number::constant(5600, 3))));
        assert_eq!(rhubarb.shown.to_string(), "1.9 kg");
    }

    /// Worked by hand: 450 g at 50 g an egg are nine eggs, 451 g are ten.
    #[test]
    fn eggs_are_counted_up() {
        assert_eq!(find(&list_of("recipe x\negg .... 450 g\n"), "egg").pieces, Some(9));
        assert_eq!(find(&list_of("recipe x\negg .... 451 g\n"), "egg").pieces, Some(10));
        // One weighs 1.9 g, and nobody counts 790 of them.
        assert_eq!(find(&list_of("recipe x\nraspberries .... 1.5 kg\n"), "raspberries").pieces, None);
    }

    /// People buy four pods as four, cream and soy sauce in bottles (USDA SR28 16123: a cup of 236.59 ml of soy sauce weighs 255 g).
    #[test]
    fn things_are_listed_as_people_buy_them() {
        let list = list_of(
            "recipe x\nvanilla pod .... 4 = 12 g\nsoy sauce .... 255 g\nheavy cream .... 2 kg\negg .... 3\nrum .... 30 g\n",
        );
        assert_eq!(find(&list, "vanilla pod").shown.to_string(), "4 pieces");
        assert_eq!(find(&list, "soy sauce").shown.to_string(), "240 ml");
        assert_eq!(find(&list, "heavy cream").shown.to_string(), "2 l");
        assert_eq!(find(&list, "egg").shown.to_string(), "3 pieces");
        assert_eq!(find(&list, "rum").shown.to_string(), "35 ml");
        // By weight and by number: the weight, and how many that is.
        let list = list_of("recipe x\npart a\negg .... 2\npart b\negg .... 100 g\na .... all\n");
        assert_eq!(find(&list, "egg").shown.to_string(), "200 g");
        assert_eq!(find(&list, "egg").pieces, Some(4));
    }

    #[test]
    fn butter_for_the_tins_is_butter_and_water_comes_from_the_tap() {
        let list = list_of(
            "recipe x\nplain flour .. 1 kg\nwater .. 600 g\nbutter .. 50 g\nbutter for the tins .. 20 g, aside\n",
        );
        assert_eq!(find(&list, "butter").shown.to_string(), "70 g");
        assert!(list.buy.iter().flat_map(|section| &section.items).all(|item| item.name != "water"));
        assert!(list.weigh.iter().any(|one| one.name == "water" && one.shown.to_string() == "600 g"));
    }

    /// What a preferment takes is weighed with the preferment and counted once.
    #[test]
    fn a_preferment_counts_once() {
        let list = list_of(
            "recipe x\npart poolish, from dough\nplain flour .. 20 %\nwater .. 20 %\npart dough\nplain flour .. 1 kg\nwater .. 60 %\n",
        );
        let flour = list.weigh.iter().find(|one| one.name == "plain flour").expect("weighed");
        assert_eq!(flour.mass, Some(Mass::new(Number::whole(1000))));
        let shown: Vec<String> = flour.portions.iter().map(|portion| portion.shown.to_string()).collect();
        assert_eq!(shown, ["200 g", "800 g"]);
    }
}
