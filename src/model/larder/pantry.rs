//! Trees of kitchens and larders to what is known of a kitchen and of ingredients.

use crate::language::evaluate::{evaluate, too_large};
use crate::language::near::with_nearest;
use crate::language::syntax::{
    Content, EquipmentClause, FactKind, Flag, Key, Line, Name, Quantity, Tree, WrittenNumber,
};
use crate::measure::number::Number;
use crate::measure::quantity::{Count, Density, Mass, Proportion, Volume};
use crate::measure::temperature::TemperatureDifference;
use crate::measure::unit::{Measures, Unit};
use crate::measure::value::Value;
use crate::model::allergen;
use crate::model::kind::Kind;
use crate::model::kitchen::{Capacity, Equipment, Kitchen, Scale};
use crate::model::larder::{Facts, NOTHING, Price, Sold, staff};
use crate::model::places::Places;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{Span, Spanned};
use jiff::civil::time;

/// One `ingredient` block.
#[derive(Debug)]
pub struct Block {
    /// What it says.
    pub facts: Facts,
    /// All names it goes by, the main name first.
    pub names: Vec<Name>,
}

/// The `ingredient` blocks of a tree, and what is wrong in them.
pub fn blocks(tree: &Tree) -> (Vec<Block>, Vec<Diagnostic>) {
    let mut blocks: Vec<Block> = Vec::new();
    let mut diagnostics = Vec::new();
    for line in &tree.lines {
        if let Content::IngredientBlock(name) = &line.content {
            let facts = Facts { name: name.text.to_string(), ..Facts::default() };
            blocks.push(Block { facts, names: vec![name.clone()] });
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

fn is_fact(content: &Content) -> bool {
    matches!(
        content,
        Content::Weighs { .. }
            | Content::OneWeighs(_)
            | Content::Fact(..)
            | Content::Energy(_)
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
        Content::Is(kind) => facts.kind = kind_said(kind, diagnostics).or(facts.kind),
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
        },
        Content::AlsoCalled(names) => block.names.extend(names.iter().cloned()),
        Content::Contains(names) => contains(facts, names, diagnostics),
        Content::Costs { price, currency, number, unit, on } => {
            let per_gram = price_per_gram(facts, *price, *number, *unit, line.said, diagnostics);
            facts.price = per_gram.map(|per_gram| Price {
                per_gram,
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

/// `is salt`: what the ingredient is.
fn kind_said(said: &Name, diagnostics: &mut Vec<Diagnostic>) -> Option<Kind> {
    let kind = Kind::from_word(said.key.as_str());
    if kind.is_none() {
        let problem =
            Diagnostic::error("unknown-name", said.span, format!("`{said}` is no kind of ingredient that is known"))
                .help(format!("write one of these: {}", Kind::words().collect::<Vec<_>>().join(", ")));
        diagnostics.push(with_nearest(problem, said, Kind::words()));
    }
    kind
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
        facts.allergens.push(word.to_owned());
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
    }
}

fn mass(quantity: &Quantity, diagnostics: &mut Vec<Diagnostic>) -> Option<Mass> {
    let mass = evaluate(quantity, None, diagnostics)?.mass()?;
    if mass > Mass::ZERO {
        return Some(mass);
    }
    diagnostics.push(Diagnostic::error("impossible-number", quantity.span, "it cannot weigh nothing"));
    None
}

fn density(
    weight: &Quantity,
    number: Option<WrittenNumber>,
    unit: Spanned<Unit>,
    measures: Option<Spanned<Measures>>,
    diagnostics: &mut Vec<Diagnostic>,
) -> Option<Density> {
    let mass = mass(weight, diagnostics)?;
    let size = unit.value.size(measures.map(|measures| measures.value))?;
    let count = number.map_or(Number::ONE, |number| number.value);
    match size.times(count).and_then(|volume| Density::of(mass, Volume::new(volume))) {
        Ok(density) => Some(density),
        Err(_) => {
            diagnostics.push(too_large(weight.span.to(unit.span)));
            None
        }
    }
}

fn price_per_gram(
    facts: &Facts,
    price: WrittenNumber,
    number: Option<WrittenNumber>,
    unit: Option<Spanned<Unit>>,
    span: Span,
    diagnostics: &mut Vec<Diagnostic>,
) -> Option<Number> {
    let count = number.map_or(Number::ONE, |number| number.value);
    let grams = match unit.map_or(Unit::Piece, |unit| unit.value) {
        Unit::Piece => facts.one_weighs.map(Mass::value),
        unit if unit.dimension() == crate::measure::unit::Dimension::Mass => unit.size(None),
        unit => unit.size(None).and_then(|size| size.times(facts.density?.value()).ok()),
    };
    let Some(grams) = grams else {
        diagnostics.push(
            Diagnostic::error(
                "no-weight",
                span,
                format!("the weight that {} costs so much for is not known", facts.name),
            )
            .help("give the price per g, kg, oz or lb, or say above it what one or a volume of it weighs"),
        );
        return None;
    };
    let per_gram = grams.times(count).and_then(|grams| price.value.over(grams));
    match per_gram {
        Ok(per_gram) => Some(per_gram),
        Err(_) => {
            diagnostics.push(too_large(span));
            None
        }
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
            Content::Scale { fine, step, up_to } => {
                let Some(step) = mass(step, diagnostics) else { continue };
                let up_to = up_to.as_ref().and_then(|quantity| mass(quantity, diagnostics));
                let scale = Scale { step, up_to };
                if *fine { kitchen.fine_scale = Some(scale) } else { kitchen.scale = scale }
            }
            _ => {}
        }
    }
    staff::take(tree, &mut kitchen, diagnostics);
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
