//! The label of a batch: ingredient list, allergens, quantities, net weight and nutrition, by the law of the place.
//!
//! Calculated from the formula and the larder, not analysed. Rules: Regulation (EU) 1169/2011, Articles 18, 21 and 22 with Annexes VII
//! and VIII; 21 CFR 101.4 and FALCPA 2004 with the FASTER Act 2021. Which of them were seen, and where, stands in `miche explain label`.

pub mod additives;
mod allergens;
mod heat;
pub mod items;
pub mod nutrition;
mod place;
mod promise;
mod quantities;
pub mod rounding;
mod runs_off;
pub mod table;
pub(super) mod went_in;

use crate::check::is_creamed;
use crate::measure::number::{Number, Overflow};
use crate::measure::plain_degrees::in_degrees;
use crate::measure::quantity::{Count, Mass, Proportion};
use crate::measure::show::{self, Units};
use crate::model::allergen::Law;
use crate::model::cooking::fries_in_unlisted_fat;
use crate::model::recipe::{HeadMakes, Part, PartId, Recipe};
use crate::model::sale::{Sale, Serving as ServingSaid, both};
use crate::solve::formula::Formula;
use crate::solve::formula::heated;
use crate::text::quick::QuickSet;
pub use heat::Loss;
pub use items::{Item, leaves};
use items::{dried, in_order, is_dough, items, opened, with_water};
use jiff::civil::Date;
use nutrition::Nutrition;
pub use promise::{Promise, Strength};
pub use quantities::Quantity;

/// The label of a batch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Label {
    /// The recipe's name.
    pub name: String,
    /// By whose law.
    pub law: Law,
    /// What is said for it in so many words.
    pub sale: Sale,
    /// The day on which it is made, if said.
    pub made: Option<Date>,
    /// In descending order of weight; what has no weight stands last.
    pub ingredients: Vec<Item>,
    /// The allergens in the law's words, in its order.
    pub contains: Vec<String>,
    /// Ingredients whose allergens the larder does not know.
    pub unknown: Vec<String>,
    /// Ingredients of which the law wants the cereal, the nut or the species named, and the larder does not say it.
    pub without_species: Vec<(String, &'static str)>,
    /// Shares of the ingredients that the name of the food names, or that were asked for.
    pub quantities: Vec<Quantity>,
    /// What its name names and flavours it in so little that no quantity is asked for.
    pub flavours: Vec<String>,
    /// What the batch weighs as sold.
    pub net: Mass,
    /// What was lost in baking; `None` when nobody says, and `net` is then the weight before the oven.
    pub bake_loss: Option<Proportion>,
    /// Which share of it was in the oven: what is filled or glazed afterwards was not, and loses nothing there.
    pub baked: Proportion,
    /// What was lost of its weight, and how, as far as anybody says it.
    pub loss: Loss,
    /// Parts that are boiled for long and do not say what that takes.
    pub boiled_away: Vec<String>,
    /// What is raw in it and has to be cooked by whoever buys it.
    pub to_cook: Vec<String>,
    /// The country that its name speaks of.
    pub place_in_name: Option<&'static str>,
    /// Whether what is made is two fifths flour and more, and baked or cooked.
    pub is_dough: bool,
    /// By what it is counted: weight or volume, with and without its liquid.
    pub promise: Promise,
    /// Whether it ferments and is no dough: sugar is eaten in it.
    pub ferments: bool,
    /// Whether it keeps in the cold.
    pub is_kept_cold: bool,
    /// How many pieces.
    pub pieces: Option<Count>,
    /// What the pieces are called, for several: `rolls`.
    pub noun: Option<String>,
    /// What a serving is by a measure of the household, where somebody says it.
    pub serving_words: Option<String>,
    /// The weight of one.
    pub each: Option<Mass>,
    /// What is sold together.
    pub pack: Option<Pack>,
    /// Energy and nutrients of the batch.
    pub nutrition: Nutrition,
}

/// What one buys, and what one eats of it at once.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pack {
    /// Pieces in it, where it is sold by pieces.
    pub pieces: Option<Count>,
    /// What it weighs.
    pub net: Mass,
    /// What a serving weighs.
    pub serving: Mass,
    /// What a serving is.
    pub by: Serving,
}

/// What a serving is, and who says so.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Serving {
    /// One piece, since nobody says otherwise.
    Piece,
    /// What the file or whoever asks says.
    Said,
    /// All that is sold together: less than two of what the file says is one serving in the United States (21 CFR 101.9(b)(6)).
    Whole,
    /// 2 oz of a loaf that is not sliced, since nobody says otherwise: 21 CFR 101.12(b).
    OfLoaf,
    /// 100 g or 100 ml, since nobody says otherwise and there are no pieces.
    Hundred,
}

/// Two ounces, which 21 CFR 101.12(b) gives as 56 g.
const OF_LOAF: Mass = Mass::new(Number::whole(56));

/// A piece of dough from which on it is a loaf, and nobody's serving: four times the 50 g that 21 CFR 101.12(b) gives for bread and rolls.
const LOAF: Mass = Mass::new(Number::whole(200));

impl Label {
    /// What the ingredients of these names weigh together, as far as they are in it and not set aside, with what is strained out again.
    ///
    /// # Errors
    /// When the sum leaves the range of exact numbers.
    pub fn weight_of(&self, names: &[String]) -> Result<Mass, Overflow> {
        let names: QuickSet<&str> = names.iter().map(String::as_str).collect();
        let of_them = |item: &&Item| !item.aside && names.contains(item.name.as_str());
        let named = leaves(&self.ingredients).into_iter().filter(of_them);
        Mass::sum(named.flat_map(|item| [item.mass, item.went_in]).flatten())
    }
}

/// What is asked of a label.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wanted {
    /// By whose law.
    pub law: Law,
    /// What the oven takes of the weight; without it the recipe's own figure counts.
    pub bake_loss: Option<Proportion>,
    /// Ingredients whose quantity is to be said besides those in the name.
    pub quantities: Vec<String>,
    /// What a serving is, if it is not a piece.
    pub serving: Option<ServingSaid>,
    /// How many pieces are sold in one pack, if not one.
    pub pack: Option<Count>,
    /// The day on which it is made.
    pub made: Option<Date>,
    /// What goes before what the recipe says for its label: the lot of a day, the business.
    pub sale: Sale,
}

impl Wanted {
    /// A label by that law, with nothing else said.
    pub fn by(law: Law) -> Wanted {
        Wanted {
            law,
            bake_loss: None,
            quantities: Vec::new(),
            serving: None,
            pack: None,
            made: None,
            sale: Sale::default(),
        }
    }
}

/// Why a label cannot be made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoLabel(pub String);

impl From<Overflow> for NoLabel {
    fn from(_: Overflow) -> NoLabel {
        NoLabel("a batch of that size leaves the range of exact numbers".to_owned())
    }
}

/// Makes the label of a batch; `formula` is the batch's.
///
/// # Errors
/// When what the batch makes has no known weight, or a quantity is asked of something that is not in it.
pub fn of(recipe: &Recipe, formula: &Formula, wanted: &Wanted) -> Result<Label, NoLabel> {
    let id = recipe.final_part().ok_or_else(|| unweighed(recipe, formula, None))?;
    let solved = formula.part(id).ok_or_else(|| unweighed(recipe, formula, Some(id)))?;
    let made = solved.makes.or(solved.stays);
    one((recipe, formula), wanted, Sold { id, name: recipe.name.to_string(), made, pieces: formula.pieces })
}

/// The labels of a batch: one, or one for each sort of its pieces.
///
/// # Errors
/// As [`of`].
pub fn all(recipe: &Recipe, formula: &Formula, wanted: &Wanted) -> Result<Vec<Label>, NoLabel> {
    let mut sold: Vec<Sold> = Vec::new();
    for (id, part) in recipe.own_parts().filter(|(id, _)| recipe.users(*id).next().is_none()) {
        let Some(solved) = formula.part(id).filter(|solved| solved.is_made) else { continue };
        if let Some(sort) = &part.sort {
            let name = format!("{}, {sort}", recipe.name);
            sold.push(Sold { id, name, made: solved.makes.or(solved.stays), pieces: solved.pieces });
        }
        for (sort, count) in part.sorts.iter().zip(&solved.sorts).filter(|(_, count)| count.value().is_positive()) {
            let made = Some(solved.each_of(sort)?.times(count.value())?);
            sold.push(Sold { id, name: format!("{}, {}", recipe.name, sort.name), made, pieces: Some(*count) });
        }
    }
    if sold.is_empty() {
        return of(recipe, formula, wanted).map(|label| vec![label]);
    }
    sold.into_iter().map(|sold| one((recipe, formula), wanted, sold)).collect()
}

/// Why there is no label of something: what in it has no weight, and how to say it.
fn unweighed(recipe: &Recipe, formula: &Formula, id: Option<PartId>) -> NoLabel {
    let within = id.map(|id| recipe.within(id)).unwrap_or_default();
    let mut names: Vec<String> = Vec::new();
    for id in within {
        let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else { continue };
        let open = part.lines.iter().zip(&solved.lines).filter(|(line, amount)| {
            line.stays_in() && line.part().is_none() && amount.mass.is_none() && !amount.left_out
        });
        for (line, _) in open {
            let name = format!("`{}`", line.name);
            if !names.contains(&name) {
                names.push(name);
            }
        }
    }
    let why = match names.as_slice() {
        [] => String::new(),
        _ => format!(
            ": nobody knows what {} weighs. Write its weight, or behind it `one weighs 0.2 g`; what is taken out again is `strained out`",
            show::list(&names)
        ),
    };
    NoLabel(format!("what {} makes has no known weight, so it has no label{why}", recipe.name))
}

/// What is sold under one label.
struct Sold {
    id: PartId,
    name: String,
    made: Option<Mass>,
    pieces: Option<Count>,
}

fn one((recipe, formula): (&Recipe, &Formula), wanted: &Wanted, sold: Sold) -> Result<Label, NoLabel> {
    let Sold { id, name, made, pieces } = sold;
    let made = made.filter(|mass| *mass > Mass::ZERO).ok_or_else(|| unweighed(recipe, formula, Some(id)))?;
    let bake_loss = wanted.bake_loss.or(recipe.bake_loss);
    let baked = heated::share(recipe, formula, id)?;
    let net = made.share(heated::loss_of_all(recipe, formula, id, bake_loss.unwrap_or(Proportion::ZERO))?.rest()?)?;
    if net <= Mass::ZERO {
        return Err(NoLabel("a bake loss of 100 % leaves nothing to label".to_owned()));
    }
    let list = opened(dried(items(recipe, formula, id, made)?, net)?);
    let unknown = allergens::of_unknown_allergens(&list);
    let without_species = allergens::without_species(&list, wanted.law);
    let sale = for_sale(recipe, wanted, &list);
    // A sort is named by its own name, too.
    let title = format!("{name}\n{}", sale.sold_as.as_deref().unwrap_or_default());
    let opened = items::opened_doughs(recipe, formula, id)?;
    let named = quantities::Named {
        opened: &opened,
        title: &title,
        seeds: &quantities::fed_seeds(recipe),
        is_in_liquid: promise::is_in_liquid(recipe, id),
    };
    let quantities = quantities::quantities(&named, &list, net, &wanted.quantities)?;
    let flavours = quantities::flavours(&named, &list, net)?;
    let nutrition = Nutrition::of(&list, is_fried_in_unlisted_fat(recipe, id))?;
    let is_dough = is_dough(recipe, formula, id)?;
    let loss = heat::loss(recipe, id, &list, bake_loss, is_dough);
    // A mix is no loaf, whatever is lost when it is filled into bags.
    let is_dough = is_dough && !matches!(loss, Loss::Unheated | Loss::Making(_)) && heat::is_wet(&list);
    let to_cook = heat::to_cook(recipe, id, &list);
    let contains = allergens::contains(&list, wanted.law);
    let promise = promise::of((recipe, id), &sale, (&list, net, loss))?;
    let ingredients = in_order(with_water(list, net, wanted.law)?);
    let pieces = pieces.filter(|pieces| pieces.value().is_positive());
    let each = pieces.map(|pieces| net.over(pieces.value())).transpose()?;
    let law = wanted.law;
    let serving = wanted.serving.as_ref().or(sale.serving.as_ref());
    let said = serving.map(|serving| promise::weight_of(serving, promise.density)).transpose()?;
    let noun = match &recipe.makes {
        Some(HeadMakes::Pieces { noun, .. }) => Some(noun),
        _ => None,
    };
    // In the European Union no serving stands on it.
    if let (Law::Us, Some(serving), Some(said), Some(each), Some(noun)) = (law, serving, said, each, noun) {
        promise::agrees(serving, said, each, &noun.text)?;
    }
    let hundred = promise::hundred(promise.density)?;
    let pack = pack((wanted, hundred), (net, said), pieces.zip(each), is_dough)?;
    let serving_words = serving.and_then(|serving| serving.words.clone());
    Ok(Label {
        name,
        law,
        sale,
        made: wanted.made,
        ingredients,
        contains,
        unknown,
        without_species,
        quantities,
        flavours,
        net,
        bake_loss,
        baked,
        loss,
        boiled_away: heat::boiled_away(recipe, id, loss),
        to_cook,
        place_in_name: place::named(&title),
        is_dough,
        promise,
        ferments: promise::ferments(recipe, id),
        is_kept_cold: heat::is_kept_cold(recipe, id) || is_creamed(recipe, formula, id),
        pieces,
        noun: noun.map(ToString::to_string),
        serving_words,
        each,
        pack,
        nutrition,
    })
}

/// What is said for the label, in the words and degrees of its law.
fn for_sale(recipe: &Recipe, wanted: &Wanted, list: &[Item]) -> Sale {
    let mut sale = wanted.sale.clone().over(&recipe.sale);
    // What is said on the pack of an ingredient holds for what it goes into.
    sale.may_contain = both(sale.may_contain, allergens::said_of_ingredients(list).as_deref());
    sale.may_contain = sale.may_contain.and_then(|traces| allergens::traces(&traces, list, wanted.law));
    let units = if wanted.law == Law::Us { Units::Us } else { Units::Metric };
    sale.store = sale.store.map(|words| in_degrees(&words, units));
    sale.directions = sale.directions.map(|words| in_degrees(&words, units));
    sale
}

/// Whether something of a part takes up fat in which it is fried, and that no line lists.
fn is_fried_in_unlisted_fat(recipe: &Recipe, id: PartId) -> bool {
    let within = recipe.within(id);
    let parts = within.iter().filter_map(|id| recipe.part(*id));
    let fries = |part: &Part| part.steps.iter().any(|step| fries_in_unlisted_fat(parts.clone(), part, step));
    parts.clone().any(fries)
}

/// What is sold together: so many pieces, one if nothing is said; without pieces the whole batch, of which 100 g are a serving.
fn pack(
    (wanted, hundred): (&Wanted, Mass),
    (net, said): (Mass, Option<Mass>),
    pieces: Option<(Count, Mass)>,
    is_dough: bool,
) -> Result<Option<Pack>, NoLabel> {
    let by = |by: Serving| if said.is_some() { Serving::Said } else { by };
    let Some((all, each)) = pieces else {
        if wanted.pack.is_some() {
            return Err(NoLabel(
                "--pack counts pieces, and this has none; say in `makes` how many there are".to_owned(),
            ));
        }
        let serving = said.unwrap_or(hundred);
        if said.is_some() && is_one_serving(wanted.law, net, serving)? {
            return Ok(Some(Pack { pieces: None, net, serving: net, by: Serving::Whole }));
        }
        return Ok(Some(Pack { pieces: None, net, serving, by: by(Serving::Hundred) }));
    };
    let in_it = wanted.pack.unwrap_or(Count::new(Number::ONE));
    // Of less than a piece a label is that of the piece.
    if in_it > all && wanted.pack.is_some() {
        let in_it = in_it.value().decimal(0);
        return Err(NoLabel(format!("--pack {in_it}: the batch has {}", show::pieces(all.value()))));
    }
    let net = each.times(in_it.value())?;
    let (usually, usual) = if is_dough && each >= LOAF { (Serving::OfLoaf, OF_LOAF) } else { (Serving::Piece, each) };
    // The table of the European Union is of 100 g and of a piece, whatever is eaten at once.
    let said = said.filter(|said| wanted.law == Law::Us || *said <= net);
    let serving = said.unwrap_or(usual);
    if said.is_some() && is_one_serving(wanted.law, net, serving)? {
        return Ok(Some(Pack { pieces: Some(in_it), net, serving: net, by: Serving::Whole }));
    }
    if serving > net {
        let pieces = serving.ratio(each)?.floor().plus(Number::ONE)?.decimal(0);
        let (serving, net) = (show::mass_plain(serving), show::mass_plain(net));
        return Err(NoLabel(format!(
            "a serving of {serving} is more than the {net} that are sold together: say how many pieces are, `--pack {pieces}`"
        )));
    }
    Ok(Some(Pack { pieces: Some(in_it), net, serving, by: by(usually) }))
}

/// Whether what is sold together is more than one serving and less than two: 21 CFR 101.9(b)(6), where what is said for a serving stands
/// for the reference amount.
fn is_one_serving(law: Law, net: Mass, serving: Mass) -> Result<bool, Overflow> {
    Ok(law == Law::Us && net > serving && net < serving.times(Number::whole(2))?)
}
