//! One ingredient for others: amounts that keep what the part consists of, as near as can be, and the lines and steps that say so.

mod makeup;
mod raise;
mod rewrite;
mod warm;

use crate::aims::nearest_mix;
use crate::figures::label::went_in::may_be_of_cream;
use crate::language::syntax::{Amount, Content, IngredientLine, Key, Tree};
use crate::language::tidy::leader;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::measure::unit::Unit;
use crate::measure::value::Value;
use crate::model::kind::Kind;
use crate::model::larder::{Facts, is_called};
use crate::model::recipe::{Ingredient, LineAmount, Part, PartId, Recipe, Refers};
use crate::model::yeast;
use crate::solve::formula::{Formula, SolvedPart};
use crate::text::diagnostic::Edit;
use crate::text::source::Span;
use makeup::{KEPT, Makeup, UNKNOWN, makeups, missing};
use std::collections::HashSet;
use std::sync::Arc;

/// What stands in for something in one part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PartSwap {
    /// The part.
    pub part: String,
    /// What went out.
    pub out: Mass,
    /// What comes in: name, and how much more of it there is than before.
    pub comes: Vec<(String, Mass)>,
    /// What the part has more of than before, in points of all that goes in.
    pub rest: Vec<(&'static str, Number)>,
}

/// A swap: what changes in the text, and what it does.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Swap {
    /// The recipe's name.
    pub recipe: String,
    /// What goes out.
    pub old: String,
    /// Part by part.
    pub parts: Vec<PartSwap>,
    /// The changes of the text.
    pub edits: Vec<Edit>,
    /// What else changes, that no sum tells.
    pub remarks: Vec<String>,
}

/// Something that comes in.
struct Comer {
    name: String,
    facts: Arc<Facts>,
    makeup: Makeup,
    /// Grams for each gram that goes out.
    share: Number,
}

/// What came in, how much of it, and how much of it the part had before, where it had a line of it.
struct Came {
    name: String,
    mass: Mass,
    before: Option<Mass>,
}

fn too_large(_: Overflow) -> String {
    "the amounts leave the range of exact numbers".to_owned()
}

/// Works out a swap: of every line of that name, under each of some ways to choose. Without any the recipe has no such line.
///
/// # Errors
/// A sentence that says why it cannot be done.
pub fn of(ways: &[(Recipe, Formula)], tree: &Tree, text: &str, old: &str, new: &[String]) -> Result<Swap, String> {
    let Some((recipe, _)) = ways.first() else { return Err("this is no recipe".to_owned()) };
    let Some((_, _, first)) = ways.iter().find_map(|(recipe, _)| places(recipe, &Key::new(old)).into_iter().next())
    else {
        let known = ways.iter().flat_map(|(recipe, _)| &recipe.parts).flat_map(|part| &part.lines);
        let hint = crate::language::near::hint(old, known.map(|line| line.name.key.as_str()));
        return Err(format!("no line of {} is called `{old}`{hint}", recipe.name));
    };
    let Some(known) = first.facts() else {
        return Err(format!(
            "no larder says what `{old}` consists of; write a block `ingredient {old}` with its figures"
        ));
    };
    let mut remarks = Vec::new();
    let mut comers = Vec::with_capacity(new.len());
    for name in new {
        let Some(facts) = recipe.larder.find(&Key::new(name)) else {
            return Err(format!(
                "no larder says what `{name}` consists of; write a block `ingredient {name}` with its figures"
            ));
        };
        let missing = missing(name, &facts).map_err(too_large)?;
        if !missing.is_empty() {
            remarks.push(format!(
                "The larder does not say the {} of {name}; it is counted as none.",
                show::list(&missing)
            ));
        }
        if may_be_of_cream(&Key::new(name), &facts) {
            remarks.push(format!(
                "`{name}` is counted as skimmed, as the larder has it; write `skim milk powder` or `whole milk powder`."
            ));
        }
        comers.push(Comer { name: name.clone(), facts, makeup: UNKNOWN, share: Number::ZERO });
    }
    let gone = makeups(first, known, &mut comers).map_err(too_large)?;
    let others = brings_besides(ways, &Key::new(old));
    shares(first, (known, &gone, &others), &mut comers, &mut remarks)?;
    let mut swap = Swap {
        recipe: recipe.name.to_string(),
        old: first.name.to_string(),
        parts: Vec::new(),
        edits: Vec::new(),
        remarks,
    };
    // A line that holds under several options is one line.
    let mut done: HashSet<Span> = HashSet::new();
    for (recipe, formula) in ways {
        for (id, at, line) in places(recipe, &Key::new(old)) {
            let place = (id, at, line);
            if done.insert(line.span) {
                one((recipe, formula), (tree, text), place, &gone, &comers, &mut swap)?;
            } else {
                // The line is told and rewritten already; the steps of this way to choose may be others.
                let mut again = Swap { parts: Vec::new(), edits: Vec::new(), remarks: Vec::new(), ..swap.clone() };
                one((recipe, formula), (tree, text), place, &gone, &comers, &mut again)?;
                swap.edits.extend(again.edits);
            }
        }
    }
    swap.edits = together(swap.edits, text)?;
    let mut seen = HashSet::new();
    swap.remarks.retain(|remark| seen.insert(remark.clone()));
    Ok(swap)
}

/// The changes of all ways to choose, each once.
///
/// # Errors
/// Where two of them want something else in one place.
fn together(mut edits: Vec<Edit>, text: &str) -> Result<Vec<Edit>, String> {
    edits.sort_by_key(|edit| (edit.span.start, edit.span.end));
    edits.dedup();
    for pair in edits.windows(2) {
        let [one, other] = pair else { continue };
        if other.span.start < one.span.end {
            let said = text.get(one.span.start as usize..one.span.end as usize).unwrap_or("");
            return Err(format!(
                "under one option `{said}` would become `{}`, under another `{}`: write a line for each option there, or swap \
                 under one of them with --choose",
                one.text, other.text
            ));
        }
    }
    Ok(edits)
}

/// The lines of that name in the recipe's own parts.
fn places<'r>(recipe: &'r Recipe, old: &Key) -> Vec<(PartId, usize, &'r Ingredient)> {
    let lines =
        recipe.own_parts().flat_map(|(id, part)| part.lines.iter().enumerate().map(move |(at, line)| (id, at, line)));
    let of_pantry = lines.filter(|(_, _, line)| matches!(line.refers, Refers::Pantry(_)));
    of_pantry.filter(|(_, _, line)| is_called(&line.name.key, old)).collect()
}

/// What the recipe takes besides the lines of that name, also in parts from other files, under any way to choose.
fn brings_besides(ways: &[(Recipe, Formula)], old: &Key) -> Vec<(String, Arc<Facts>)> {
    let lines = ways.iter().flat_map(|(recipe, _)| recipe.parts()).flat_map(|(_, part)| {
        part.lines.iter().filter(move |line| part.foreign.is_some() || !is_called(&line.name.key, old))
    });
    let mut known: Vec<(String, Arc<Facts>)> = Vec::new();
    for line in lines {
        if let Refers::Pantry(Some(facts)) = &line.refers
            && !known.iter().any(|(name, _)| *name == *line.name.text)
        {
            known.push((line.name.to_string(), Arc::clone(facts)));
        }
    }
    known
}

fn kind_of(name: &str, facts: &Facts) -> Kind {
    facts.kind.unwrap_or_else(|| Kind::of_name(Key::new(name).as_str()))
}

/// How much of each comes in for a gram that goes out.
fn shares(
    old: &Ingredient,
    (known, gone, others): (&Facts, &Makeup, &[(String, Arc<Facts>)]),
    comers: &mut [Comer],
    remarks: &mut Vec<String>,
) -> Result<(), String> {
    if raise::fill(old, comers, remarks)? {
        return Ok(());
    }
    if let [only] = comers {
        let kind = kind_of(&only.name, &only.facts);
        if let (Some(from), Some(to)) = (old.kind.yeast_form(), kind.yeast_form()) {
            only.share = yeast::convert(Mass::new(Number::ONE), from, to).map_err(too_large)?.value();
            remarks.push("Yeast is counted by how much it raises, as `miche sums` does, and not by weight.".to_owned());
            return Ok(());
        }
        if old.kind.ferments() || kind.ferments() {
            remarks.push(
                "By composition only: how it raises is another. `miche sums` converts leavens, and times and tastes change with them.".to_owned(),
            );
        }
        if old.is_any_flour() {
            only.share = Number::ONE;
            remarks.push(format!(
                "Flour for flour by weight{}. Not its baking: how much water it takes and how long it is mixed is found by trying.",
                protein_words(known, &only.facts)
            ));
            return Ok(());
        }
    }
    let given: Vec<Vec<Number>> = comers.iter().map(|comer| comer.makeup.to_vec()).collect();
    for (comer, share) in comers.iter_mut().zip(nearest_mix(gone, &given).map_err(too_large)?) {
        comer.share = share;
    }
    if !keeps_most(gone, comers).map_err(too_large)? {
        return Err(format!("none of these comes near `{}`: most of what it brings would be missing", old.name));
    }
    let allergens = |facts: &Facts| facts.allergens.clone();
    let lost: Vec<String> = allergens(known)
        .into_iter()
        .filter(|one| !comers.iter().any(|comer| comer.facts.allergens.contains(one)))
        .collect();
    if !lost.is_empty() {
        // What another line brings stays in the recipe: nobody may read that it is free of it.
        let still = |one: &String| others.iter().find(|(_, facts)| facts.allergens.contains(one)).map(|(name, _)| name);
        let mut remark = String::new();
        let gone: Vec<String> = lost.iter().filter(|one| still(one).is_none()).cloned().collect();
        if !gone.is_empty() {
            remark.push_str(&format!("It brings no {} any more. ", show::list(&gone)));
        }
        for (allergen, name) in lost.iter().filter_map(|one| Some((one, still(one)?))) {
            remark.push_str(&format!("`{name}` still brings {allergen}. "));
        }
        remark.push_str("Only its composition is kept: how it foams, browns, binds and tastes is another.");
        remarks.push(remark);
    }
    Ok(())
}

/// Whether what comes in brings half at least of what there was most of: of soy sauce for salt so little would be taken, for all the water in it,
/// that hardly any salt were left.
fn keeps_most(gone: &Makeup, comers: &[Comer]) -> Result<bool, Overflow> {
    let Some((at, most)) = gone.iter().enumerate().max_by_key(|(_, share)| **share) else { return Ok(true) };
    let mut kept = Number::ZERO;
    for comer in comers {
        kept = kept.plus(comer.share.times(comer.makeup.get(at).copied().unwrap_or(Number::ZERO))?)?;
    }
    Ok(kept.times(Number::whole(2))? >= *most)
}

/// What the protein of two flours is.
fn protein_words(old: &Facts, new: &Facts) -> String {
    match (old.contents.protein, new.contents.protein) {
        (Some(old), Some(new)) => format!(" (protein {} → {})", show::percent(old), show::percent(new)),
        _ => String::new(),
    }
}

/// The swap of one line.
fn one(
    (recipe, formula): (&Recipe, &Formula),
    (tree, text): (&Tree, &str),
    (id, at, line): (PartId, usize, &Ingredient),
    gone: &Makeup,
    comers: &[Comer],
    swap: &mut Swap,
) -> Result<(), String> {
    let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else { return Ok(()) };
    let Some(node) = tree.line_at(line.span.start) else { return Ok(()) };
    let Content::Ingredient(written) = &node.content else { return Ok(()) };
    let mass = solved.lines.get(at).and_then(|line| line.mass);
    let Some(out) = mass else {
        return Err(format!("what `{}` weighs is not known, so nothing can stand in for it", line.name));
    };
    let mut rows: Vec<String> = Vec::new();
    // Which of those that came each row is of.
    let mut written_for: Vec<usize> = Vec::new();
    let mut came: Vec<Came> = Vec::new();
    for comer in comers.iter().filter(|comer| comer.share.is_positive()) {
        let more = out.times(comer.share).map_err(too_large)?;
        let is_it = |other: &Ingredient| other.span != line.span && other.name.key == Key::new(&comer.name);
        let there = part.lines.iter().zip(&solved.lines).find(|(other, _)| is_it(other));
        let (mass, before) = match there.and_then(|(other, amount)| Some((other, amount.mass?))) {
            Some((other, mass)) => (add_to(tree, part, other, mass, more, swap)?, Some(mass)),
            None => {
                let (words, mass) = amount_words((recipe, formula), (id, part), line, out, comer.share)?;
                written_for.push(came.len());
                let how = warm::prepared(line, kind_of(&comer.name, &comer.facts), comers.len());
                rows.push(format!("{}{words}{how}", leader(&comer.name)));
                (mass, None)
            }
        };
        came.push(Came { name: comer.name.clone(), mass, before });
    }
    if came.is_empty() {
        return Err(format!("none of these comes near `{}`: nothing of them would be taken", line.name));
    }
    warm::keep((text, written, line), (&came, comers), (&mut rows, &written_for), &mut swap.remarks);
    let salt = keep_salt(tree, (part, solved), line, (gone, comers, out), swap)?;
    rewrite::replace_line(text, node, written, &rows, &mut swap.edits);
    rewrite::rename_uses((tree, text), (&recipe.selection, part), line, out, &came, swap);
    let rest = rest(gone, comers, &came, out, (salt, solved.composition.total)).map_err(too_large)?;
    let part = match node.only.as_slice() {
        [] => part.name.to_string(),
        only => format!("{} [{}]", part.name, only.iter().map(ToString::to_string).collect::<Vec<String>>().join(", ")),
    };
    let comes = came.into_iter().map(|one| (one.name, one.mass)).collect();
    swap.parts.push(PartSwap { part, out, comes, rest });
    Ok(())
}

/// More of a line that is there already; gives how much more it is as it is written.
fn add_to(
    tree: &Tree,
    part: &Part,
    other: &Ingredient,
    mass: Mass,
    more: Mass,
    swap: &mut Swap,
) -> Result<Mass, String> {
    let times = mass.plus(more).and_then(|all| all.ratio(mass)).map_err(too_large)?;
    let refused = || {
        format!(
            "`{}` stands in {} already, with an amount that cannot be added to; write a weight or a share there",
            other.name, part.name
        )
    };
    let Some(node) = tree.line_at(other.span.start) else { return Err(refused()) };
    let Content::Ingredient(IngredientLine { amount: Amount::Chain(chain), .. }) = &node.content else {
        return Err(refused());
    };
    let LineAmount::Said(said) = &other.amount else { return Err(refused()) };
    let (Some(quantity), Some(said)) = (chain.first(), said.first()) else { return Err(refused()) };
    let [term] = quantity.terms.as_slice() else { return Err(refused()) };
    let size = said.size.unwrap_or(Number::ONE);
    let number = said.value.number().times(times).and_then(|value| value.over(size)).map_err(too_large)?;
    let number = number.rounded_to(step_of(term.unit.map(|unit| unit.value), number)).map_err(too_large)?;
    let real = number
        .times(size)
        .and_then(|value| value.over(said.value.number()))
        .and_then(|times| mass.times(times)?.minus(mass))
        .map_err(too_large)?;
    // What else the amount is said in would be wrong then.
    let end = chain.last().map_or(quantity.span.end, |last| last.span.end);
    let unit = term.unit.map_or_else(String::new, |unit| format!(" {}", unit.value.word(false)));
    swap.edits.push(Edit { span: Span { end, ..quantity.span }, text: format!("{}{unit}", number.decimal(6)) });
    Ok(real)
}

/// The step to which an amount in a unit is written.
fn step_of(unit: Option<Unit>, number: Number) -> Number {
    let small = number < Number::whole(10);
    match unit {
        Some(Unit::Kilogram) => Number::constant(1, 1000),
        // To a thirtieth at least: 1.155 % of yeast is no 1.2 %.
        Some(Unit::Percent) if number < Number::constant(1, 5) => Number::constant(1, 1000),
        Some(Unit::Percent) if number < Number::constant(3, 2) => Number::constant(1, 100),
        Some(Unit::Percent) => Number::constant(1, 10),
        Some(Unit::Ounce | Unit::Pound) => Number::constant(1, 100),
        Some(Unit::Teaspoon | Unit::Tablespoon) if number >= Number::constant(1, 4) => Number::constant(1, 4),
        Some(Unit::Gram | Unit::Millilitre) if small => Number::constant(1, 10),
        Some(Unit::Gram | Unit::Millilitre | Unit::Milligram) => Number::ONE,
        _ => Number::constant(1, 100),
    }
}

/// How much comes in, as the line that goes out was written: a share, or a weight in its unit; and what that weighs.
fn amount_words(
    (recipe, formula): (&Recipe, &Formula),
    (id, part): (PartId, &Part),
    line: &Ingredient,
    out: Mass,
    share: Number,
) -> Result<(String, Mass), String> {
    let said = match &line.amount {
        LineAmount::Said(said) => said.first(),
        LineAmount::All => return Ok(("all".to_owned(), out.times(share).map_err(too_large)?)),
        _ => None,
    };
    let Some(said) = said else {
        return Err(format!("`{}` has no amount that something could stand in for", line.name));
    };
    let per = formula.pieces_for(part, id).filter(|_| part.per_piece).map_or(Number::ONE, |pieces| pieces.value());
    let written = |value: Number, unit: Unit, size: Number| -> Result<(String, Number), Overflow> {
        let number = value.times(share)?.over(size)?;
        let step = step_of(Some(unit), number);
        let step = if unit == Unit::Gram && number < Number::whole(200) && recipe.kitchen.fine_scale.is_some() {
            step.min(Number::constant(1, 10))
        } else {
            step
        };
        let number = number.rounded_to(step)?.max(step);
        Ok((format!("{} {}", number.decimal(6), unit.word(false)), number.times(size)?))
    };
    let hundredth = Number::constant(1, 100);
    let found = match (said.value, said.unit) {
        (Value::Proportion(part), _) => written(part.value(), Unit::Percent, hundredth)
            .and_then(|(words, real)| Ok((words, out.times(real.over(part.value())?)?))),
        (Value::Mass(mass), Some(unit)) => written(mass.value(), unit, said.size.unwrap_or(Number::ONE))
            .and_then(|(words, real)| Ok((words, out.times(real.over(mass.value())?)?))),
        _ => out
            .value()
            .over(per)
            .and_then(|one| written(one, Unit::Gram, Number::ONE))
            .and_then(|(words, real)| Ok((words, Mass::new(real.times(per)?)))),
    };
    found.map_err(too_large)
}

/// Where salt comes in or goes out with it, the part's own line of salt makes up for that; gives by how much it grew.
fn keep_salt(
    tree: &Tree,
    (part, solved): (&Part, &SolvedPart),
    old: &Ingredient,
    (gone, comers, out): (&Makeup, &[Comer], Mass),
    swap: &mut Swap,
) -> Result<Mass, String> {
    let salty = |makeup: &Makeup| makeup.last().copied().unwrap_or(Number::ZERO);
    let more = || -> Result<Number, Overflow> {
        let mut more = Number::ZERO.minus(salty(gone))?;
        for comer in comers {
            more = more.plus(comer.share.times(salty(&comer.makeup))?)?;
        }
        more.times(out.value())
    };
    let more = more().map_err(too_large)?;
    // Less than half a gram in a kilogram of the part is not tasted.
    let least = solved.composition.total.value().times(Number::constant(1, 2000)).map_err(too_large)?;
    // The line that goes out is not there to make up for itself.
    let is_salt = |other: &Ingredient| other.kind == Kind::Salt && !other.aside && other.span != old.span;
    let at = part.lines.iter().position(is_salt);
    let there = at.and_then(|at| Some((part.lines.get(at)?, solved.lines.get(at)?.mass?)));
    let Some((salt, mass)) = there.filter(|_| more.size() > least) else { return Ok(Mass::ZERO) };
    let change = Number::ZERO.minus(more).map_err(too_large)?;
    if mass.value().plus(change).map_err(too_large)? <= Number::ZERO {
        swap.remarks.push(format!("There is more salt in it than the line `{}` could be less.", salt.name));
        return Ok(Mass::ZERO);
    }
    let grown = add_to(tree, part, salt, mass, Mass::new(change), swap)?;
    swap.remarks.push(format!(
        "`{}` is {} {} for the salt that it {}.",
        salt.name,
        show::mass_plain(Mass::new(grown.value().size())),
        if grown.value().is_negative() { "less" } else { "more" },
        if more.is_positive() { "brings" } else { "no longer brings" },
    ));
    Ok(grown)
}

/// What the part has more of than before, in points of what goes in.
fn rest(
    gone: &Makeup,
    comers: &[Comer],
    came: &[Came],
    out: Mass,
    (salt, total): (Mass, Mass),
) -> Result<Vec<(&'static str, Number)>, Overflow> {
    let mut rest = Vec::with_capacity(KEPT.len() + 1);
    let points = |grams: Number| {
        if total > Mass::ZERO { grams.times(Number::whole(100))?.over(total.value()) } else { Ok(Number::ZERO) }
    };
    for (number, name) in KEPT.iter().enumerate() {
        let at = |makeup: &Makeup| makeup.get(number).copied().unwrap_or(Number::ZERO);
        let mut more = Number::ZERO.minus(out.value().times(at(gone))?)?;
        for Came { name: comer, mass, .. } in came {
            let Some(comer) = comers.iter().find(|known| known.name == *comer) else { continue };
            more = more.plus(mass.value().times(at(&comer.makeup))?)?;
        }
        if *name == "salt" {
            more = more.plus(salt.value())?;
        }
        rest.push((*name, points(more)?));
    }
    let mut weight = Number::ZERO.minus(out.value())?;
    for Came { mass, .. } in came {
        weight = weight.plus(mass.value())?;
    }
    rest.push(("weight", points(weight)?));
    Ok(rest)
}
