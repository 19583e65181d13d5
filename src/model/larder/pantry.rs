//! Trees of kitchens and larders to what is known of a kitchen and of ingredients.

use crate::language::evaluate::{density, evaluate, mass};
use crate::language::near::with_nearest;
use crate::language::syntax::{
    Content, EquipmentClause, FactKind, Flag, Key, Line, Name, Quantity, SaleField, TraceKind, Tree, WrittenNumber,
};
use crate::measure::number::Number;
use crate::measure::quantity::{Count, Mass, Proportion};
use crate::measure::temperature::TemperatureDifference;
use crate::measure::unit::Unit;
use crate::measure::value::Value;
use crate::model::allergen;
use crate::model::kind::Kind;
use crate::model::kitchen::{Capacity, Equipment, Kitchen, Scale};
use crate::model::larder::{Contents, Facts, Larder, NOTHING, Price, Sold, staff};
use crate::model::places::Places;
use crate::model::sale::unknown_traces;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Spanned;
use jiff::civil::time;
use std::collections::HashSet;

/// One `ingredient` block.
#[derive(Debug)]
pub struct Block {
    /// What it says.
    pub facts: Facts,
    /// All names it goes by, the main name first.
    pub names: Vec<Name>,
    /// The ingredient that it is, so that all that is known of that holds for it too: `is butter`.
    pub like: Option<Name>,
}

/// The `ingredient` blocks of a tree, and what is wrong in them.
pub fn blocks(tree: &Tree) -> (Vec<Block>, Vec<Diagnostic>) {
    let mut blocks: Vec<Block> = Vec::new();
    let mut diagnostics = Vec::new();
    let of_blocks = traces_of_blocks(tree);
    for line in &tree.lines {
        if let (Content::Sale(SaleField::MayContain, text), Some(block), true) =
            (&line.content, blocks.last_mut(), of_blocks.contains(&line.said.start))
        {
            diagnostics.extend(unknown_traces(text, line.said));
            let words = text.trim_end_matches('.').split(',').map(str::trim).filter(|word| !word.is_empty());
            block.facts.traces.extend(words.map(str::to_owned));
            continue;
        }
        if let Content::IngredientBlock(name) = &line.content {
            let facts = Facts { name: name.text.to_string(), ..Facts::default() };
            blocks.push(Block { facts, names: vec![name.clone()], like: None });
            continue;
        }
        if !is_fact(&line.content) {
            continue;
        }
        match blocks.last_mut() {
            Some(block) => take_fact(block, line, &mut diagnostics),
            None => diagnostics.push(
                Diagnostic::error("stray-line", line.said, "this says something of an ingredient, but none was named")
                    .help("write `ingredient NAME` above it"),
            ),
        }
    }
    report_twins(&blocks, &mut diagnostics);
    (blocks, diagnostics)
}

/// Where the `may contain` lines stand that are of the ingredient above them: in a file with a kitchen, without a blank line between.
fn traces_of_blocks(tree: &Tree) -> HashSet<u32> {
    let has_kitchen = tree.says(|content| matches!(content, Content::Kitchen(_)));
    let mut in_block = false;
    let mut found = HashSet::new();
    for line in &tree.lines {
        match &line.content {
            Content::IngredientBlock(_) => in_block = true,
            Content::Sale(SaleField::MayContain, _) if in_block => drop(found.insert(line.said.start)),
            Content::Blank => in_block &= !has_kitchen,
            Content::Comment => {}
            other => in_block &= is_fact(other),
        }
    }
    found
}

fn is_fact(content: &Content) -> bool {
    matches!(
        content,
        Content::Weighs { .. }
            | Content::OneWeighs(_)
            | Content::Fact(..)
            | Content::Energy(_)
            | Content::Trace(..)
            | Content::NitrogenFactor(_)
            | Content::Listed(_)
            | Content::Consists(_)
            | Content::Is(_)
            | Content::Flag(_)
            | Content::AlsoCalled(_)
            | Content::Contains(_)
            | Content::Costs { .. }
            | Content::Source(_)
            | Content::Section(_)
    )
}

fn take_fact(block: &mut Block, line: &Line, diagnostics: &mut Vec<Diagnostic>) {
    let facts = &mut block.facts;
    match &line.content {
        Content::Weighs { weight, number, unit, measures } => {
            facts.density = density(weight, *number, *unit, *measures, diagnostics);
        }
        Content::OneWeighs(weight) => facts.one_weighs = mass(weight, diagnostics),
        Content::Fact(kind, quantity) => {
            let share = evaluate(quantity, None, diagnostics).and_then(|said| said.proportion());
            *slot(facts, *kind) = share;
        }
        Content::Energy(number) => facts.contents.energy = Some(number.value),
        Content::Trace(kind, number) => {
            if let Some(number) = at_least_nothing(*number, diagnostics) {
                *trace_slot(&mut facts.contents, *kind) = Some(number);
            }
        }
        Content::NitrogenFactor(number) => {
            facts.contents.nitrogen_factor = Some(number.value).filter(|factor| {
                let fits = Number::constant(4, 1) <= *factor && *factor <= Number::constant(8, 1);
                if !fits {
                    let message = "no protein is known that is so many times its nitrogen";
                    let problem = Diagnostic::error("impossible-number", number.span, message);
                    diagnostics.push(problem.help("of most foods it is 6.25, of wheat 5.7, of milk 6.38"));
                }
                fits
            });
        }
        Content::Listed(text) => facts.listed = Some(text.clone()),
        Content::Consists(text) => facts.consists = Some(text.clone()),
        Content::Is(name) => match Kind::from_word(name.key.as_str()) {
            Some(kind) => facts.kind = Some(kind),
            None => block.like = Some(name.clone()),
        },
        Content::Flag(flag) => match flag {
            Flag::CountsAsFlour => facts.flour = Some(true),
            Flag::NotFlour => facts.flour = Some(false),
            Flag::RawFlour => facts.flags.raw_flour = true,
            Flag::RawEgg => facts.flags.raw_egg = true,
            Flag::ReadyToEat => facts.flags.ready_to_eat = true,
            Flag::NotVegan => facts.flags.not_vegan = true,
            Flag::NotVegetarian => facts.flags.not_vegetarian = true,
            Flag::BoughtByTheLitre => facts.sold = Some(Sold::ByTheLitre),
            Flag::BoughtByThePiece => facts.sold = Some(Sold::ByThePiece),
            Flag::BoughtByWeight => facts.sold = Some(Sold::ByWeight),
            Flag::Compound => facts.flags.compound = true,
        },
        Content::AlsoCalled(names) => block.names.extend(names.iter().cloned()),
        Content::Contains(names) => contains(facts, names, diagnostics),
        Content::Costs { price, currency, number, unit, on } => {
            facts.price = Some(Price {
                amount: price.value,
                number: number.map_or(Number::ONE, |number| number.value),
                unit: unit.map_or(Unit::Piece, |unit| unit.value),
                currency: currency.as_ref().map(|name| name.text.to_string()),
                on: on.map(|on| on.value),
                span: line.said,
            });
        }
        Content::Source(text) => facts.sources.push(text.clone()),
        Content::Section(text) => facts.section = Some(text.clone()),
        _ => {}
    }
}

/// Takes blocks into a larder, each after the one that it says it is: `is butter` may stand above butter.
pub fn bring(blocks: Vec<Block>, larder: &mut Larder) {
    let mut left = blocks;
    while !left.is_empty() {
        let names_left: Vec<Key> =
            left.iter().flat_map(|block| block.names.iter().map(|name| name.key.clone())).collect();
        let waits = |block: &Block| {
            let own = |key: &Key| block.names.iter().any(|name| name.key == *key);
            block.like.as_ref().is_some_and(|like| !own(&like.key) && names_left.contains(&like.key))
        };
        let (waiting, ready): (Vec<Block>, Vec<Block>) = left.into_iter().partition(waits);
        // Blocks that are each other wait for ever: they are taken as they stand, and reported.
        let (ready, waiting) = if ready.is_empty() { (waiting, ready) } else { (ready, waiting) };
        for block in ready {
            let names: Vec<Key> = block.names.iter().map(|name| name.key.clone()).collect();
            let facts = match block.like.and_then(|like| larder.find(&like.key)) {
                Some(like) => block.facts.over(&like),
                None => block.facts,
            };
            larder.add(facts, &names);
        }
        left = waiting;
    }
}

/// The prices by the piece or by volume of which no larder says what it weighs.
pub fn unknown_prices(blocks: &[Block], larder: &Larder) -> Vec<Diagnostic> {
    let priced = blocks.iter().filter_map(|block| {
        let price = block.facts.price.as_ref()?;
        let known = block.names.first().and_then(|name| larder.find(&name.key));
        let is_known = known.is_some_and(|facts| facts.price_of_a_gram().is_some());
        (!is_known).then(|| {
            let message = format!("the weight that {} costs so much for is not known", block.facts.name);
            Diagnostic::error("no-weight", price.span, message)
                .help("give the price per g, kg, oz or lb, or say in the block what one or a volume of it weighs")
        })
    });
    priced.collect()
}

/// The blocks that say they are something that is no kind of ingredient and that no larder knows, or that is each other.
pub fn unknown_likes(blocks: &[Block], larder: &Larder) -> Vec<Diagnostic> {
    let mut diagnostics = Vec::new();
    for block in blocks {
        let Some(like) = &block.like else { continue };
        if is_itself(block, blocks) {
            let message = format!("`{}` cannot be what it is itself", block.facts.name);
            let problem = Diagnostic::error("unknown-name", like.span, message);
            diagnostics.push(problem.help("name an ingredient that is described without it"));
        } else if larder.find(&like.key).is_none() {
            let message =
                format!("`{like}` is no kind of ingredient that is known, and no ingredient that a larder knows");
            let words = Kind::words().collect::<Vec<_>>().join(", ");
            let problem = Diagnostic::error("unknown-name", like.span, message);
            let problem =
                problem.help(format!("write the name of an ingredient of the larder, or one of these: {words}"));
            diagnostics.push(with_nearest(problem, like, Kind::words()));
        }
    }
    diagnostics
}

/// Whether following what a block says it is leads back to it.
fn is_itself(block: &Block, blocks: &[Block]) -> bool {
    let own = |key: &Key| block.names.iter().any(|name| name.key == *key);
    let mut at = block;
    for _ in 0..=blocks.len() {
        let Some(like) = &at.like else { return false };
        if own(&like.key) {
            return true;
        }
        let next = blocks.iter().find(|other| other.names.iter().any(|name| name.key == like.key));
        let Some(next) = next else { return false };
        at = next;
    }
    false
}

/// `contains milk, wheat`, `contains nothing`: from here on it is known what is in it.
fn contains(facts: &mut Facts, names: &[Name], diagnostics: &mut Vec<Diagnostic>) {
    facts.knows_allergens = true;
    for name in names {
        let word = name.key.as_str();
        if word == NOTHING {
            if names.len() > 1 || !facts.allergens.is_empty() {
                diagnostics.push(
                    Diagnostic::error("unknown-allergen", name.span, "it contains nothing, and something as well")
                        .help("leave `nothing` out, or the allergens"),
                );
            }
            continue;
        }
        if !allergen::is_known(word) {
            diagnostics.push(unknown_allergen(name));
        }
        for one in allergen::listed_in(word) {
            if !facts.allergens.contains(&one) {
                facts.allergens.push(one);
            }
        }
    }
}

fn unknown_allergen(name: &Name) -> Diagnostic {
    let message = format!("`{name}` is no allergen that the law of the United States or of the European Union lists");
    let problem = Diagnostic::error("unknown-allergen", name.span, message).help(
        "write the allergen in it by the word of the law, such as `milk`, `wheat`, `fish` or `sulphites`; where there is none, \
         `contains nothing`; what it is free of is not said",
    );
    with_nearest(problem, name, allergen::names())
}

fn trace_slot(contents: &mut Contents, kind: TraceKind) -> &mut Option<Number> {
    match kind {
        TraceKind::Cholesterol => &mut contents.cholesterol,
        TraceKind::VitaminD => &mut contents.vitamin_d,
        TraceKind::Calcium => &mut contents.calcium,
        TraceKind::Iron => &mut contents.iron,
        TraceKind::Potassium => &mut contents.potassium,
    }
}

/// A figure in 100 g, which cannot be less than nothing, nor more than all of it.
fn at_least_nothing(number: WrittenNumber, diagnostics: &mut Vec<Diagnostic>) -> Option<Number> {
    let fits = !number.value.is_negative() && number.value <= Number::whole(100_000);
    if !fits {
        let message = "that is no figure of what 100 g hold";
        diagnostics.push(Diagnostic::error("impossible-number", number.span, message));
    }
    fits.then_some(number.value)
}

fn slot(facts: &mut Facts, kind: FactKind) -> &mut Option<Proportion> {
    match kind {
        FactKind::Water => &mut facts.contents.water,
        FactKind::Fat => &mut facts.contents.fat,
        FactKind::Salt => &mut facts.contents.salt,
        FactKind::Sugar => &mut facts.contents.sugar,
        FactKind::Protein => &mut facts.contents.protein,
        FactKind::Carbohydrate => &mut facts.contents.carbohydrate,
        FactKind::Fibre => &mut facts.contents.fibre,
        FactKind::Acid => &mut facts.contents.acid,
        FactKind::Yield => &mut facts.edible,
        FactKind::Saturates => &mut facts.contents.saturates,
        FactKind::TransFat => &mut facts.contents.trans_fat,
        FactKind::AddedSugar => &mut facts.contents.added_sugar,
        FactKind::Polyols => &mut facts.contents.polyols,
        FactKind::Alcohol => &mut facts.contents.alcohol,
    }
}

fn report_twins(blocks: &[Block], diagnostics: &mut Vec<Diagnostic>) {
    let mut seen: std::collections::HashMap<&Key, &Name> = std::collections::HashMap::new();
    for name in blocks.iter().flat_map(|block| &block.names) {
        if let Some(first) = seen.insert(&name.key, name) {
            diagnostics.push(
                Diagnostic::error("twice-named", name.span, format!("`{name}` is described twice"))
                    .also(first.span, "first here")
                    .help("put both into one block"),
            );
        }
    }
}

/// A kitchen with nothing in it but a person and a scale.
pub fn bare_kitchen() -> Kitchen {
    Kitchen {
        name: String::new(),
        span: None,
        business: None,
        may_contain: None,
        equipment: Vec::new(),
        cooks: 1,
        named: Vec::new(),
        longest: None,
        opens: time(7, 0, 0, 0),
        closes: time(22, 0, 0, 0),
        scale: Scale { step: Mass::new(Number::ONE), up_to: None },
        fine_scale: None,
    }
}

/// The kitchen of a tree. What it does not say (who works, hours, scale) is as in `otherwise`; its equipment is only its own.
pub fn kitchen(tree: &Tree, otherwise: &Kitchen, diagnostics: &mut Vec<Diagnostic>) -> Kitchen {
    let mut kitchen = Kitchen { equipment: Vec::new(), fine_scale: None, ..otherwise.clone() };
    let mut places = Places::default();
    let of_blocks = traces_of_blocks(tree);
    for line in &tree.lines {
        match &line.content {
            Content::Kitchen(name) => {
                kitchen.name = name.text.to_string();
                kitchen.span = Some(line.said);
            }
            Content::Equipment { name, count, clauses } => {
                let twin = places.note(&name.key, kitchen.equipment.len());
                if let Some(first) = twin.and_then(|first| kitchen.equipment.get(first)) {
                    diagnostics.push(
                        Diagnostic::error("twice-named", name.span, format!("`{name}` stands in the kitchen twice"))
                            .also(first.name.span, "first here")
                            .help("add the numbers up on one line, or give them different names"),
                    );
                    continue;
                }
                let equipment = equipment(name, count.value, clauses, diagnostics);
                kitchen.equipment.push(equipment);
            }
            Content::Sale(SaleField::Business, text) => kitchen.business = Some(text.clone()),
            Content::Sale(SaleField::MayContain, _) if of_blocks.contains(&line.said.start) => {}
            Content::Sale(SaleField::MayContain, text) => {
                diagnostics.extend(unknown_traces(text, line.said));
                kitchen.may_contain = Some(text.clone());
            }
            Content::Scale { fine, step, up_to } => {
                let Some(step) = mass(step, diagnostics) else { continue };
                let up_to = up_to.as_ref().and_then(|quantity| mass(quantity, diagnostics));
                let scale = Scale { step, up_to };
                if *fine { kitchen.fine_scale = Some(scale) } else { kitchen.scale = scale }
            }
            _ => {}
        }
    }
    staff::take(tree, &of_blocks, &mut kitchen, diagnostics);
    kitchen
}

fn equipment(
    name: &Name,
    count: u32,
    clauses: &[Spanned<EquipmentClause>],
    diagnostics: &mut Vec<Diagnostic>,
) -> Equipment {
    let mut equipment =
        Equipment { name: name.clone(), count, holds: None, friction: None, heating: None, agrees: None };
    for clause in clauses {
        match &clause.value {
            EquipmentClause::Holds(quantity) => {
                equipment.holds = match evaluate(quantity, None, diagnostics).map(|said| said.value) {
                    Some(Value::Mass(mass)) if mass > Mass::ZERO => Some(Capacity::Mass(mass)),
                    Some(Value::Count(count)) if count > Count::ZERO => Some(Capacity::Pieces(count)),
                    Some(_) => {
                        let message = "it cannot hold nothing";
                        diagnostics.push(Diagnostic::error("impossible-number", quantity.span, message));
                        None
                    }
                    None => None,
                };
            }
            EquipmentClause::Friction(quantity) => {
                equipment.friction = difference(quantity).filter(|friction| {
                    let warms = !friction.celsius().is_negative();
                    if !warms {
                        let message = "no mixer cools a dough: its friction cannot be less than nothing";
                        diagnostics.push(
                            Diagnostic::error("impossible-number", quantity.span, message)
                                .help("write by how much it warms a dough, `friction 12 C`"),
                        );
                    }
                    warms
                });
            }
            EquipmentClause::Agrees(quantity) => equipment.agrees = difference(quantity),
            EquipmentClause::Heating(quantity) => {
                equipment.heating =
                    evaluate(quantity, None, diagnostics).and_then(|said| said.times()).map(|(_, most)| most);
            }
            EquipmentClause::Broken => {}
        }
    }
    equipment
}

/// Degrees as a difference: without the offset of a reading.
fn difference(quantity: &Quantity) -> Option<TemperatureDifference> {
    let [term] = quantity.terms.as_slice() else { return None };
    match term.unit.map(|unit| unit.value) {
        Some(Unit::Fahrenheit) => TemperatureDifference::from_fahrenheit(term.number.value).ok(),
        _ => Some(TemperatureDifference::from_celsius(term.number.value)),
    }
}
