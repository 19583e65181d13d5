//! What is shown beside the place that the pointer rests on: figures, where something is used, facts with their source.

use super::mentions::{self, Mention};
use super::place::{self, PlacedLine, PlacedStep};
use super::problems;
use super::scope::Thing;
use super::view::View;
use crate::language::syntax::{Content, Key};
use crate::measure::number::Number;
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show;
use crate::model::allergen::Law;
use crate::model::kitchen::Capacity;
use crate::model::larder::{Facts, Sold};
use crate::model::nutrient::{Nutrient, held};
use crate::model::recipe::{LineAmount, Part, PartId, Recipe, Refers};
use crate::model::species;
use crate::model::step::{Step, Target};
use crate::out::markdown::escaped;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;

/// What is known of a place, as Markdown, and the place it is about.
pub(super) fn hover(view: &View, problems: &[Diagnostic], offset: usize) -> Option<(String, Span)> {
    let mut said: Vec<String> = Vec::new();
    let mention = mentions::at(view.mentions(), offset);
    let mut span = mention.map(|mention| mention.span);
    if let Some(mention) = mention {
        said.extend(of_mention(view, mention));
    }
    if said.is_empty()
        && let Some((text, place)) = equipment(view, offset)
    {
        said.push(text);
        span = Some(place);
    }
    let mut explained: Vec<&str> = Vec::new();
    for problem in problems::touching(problems, offset, offset) {
        span = span.or(Some(problem.span));
        if !explained.contains(&problem.check) {
            explained.push(problem.check);
            said.extend(problems::meaning(problem.check));
        }
    }
    if let Some(name) = problems::allowed(view, offset) {
        said.extend(problems::meaning(name));
    }
    if said.is_empty() {
        return None;
    }
    let line = place::line(view.tree(), offset).map(|(_, line)| line.said);
    Some((said.join("\n\n---\n\n"), span.or(line)?))
}

fn of_mention(view: &View, mention: &Mention) -> Option<String> {
    match &mention.thing {
        Thing::Step(_, part, key) => step(view, mention.span, part, key),
        Thing::Taken(_, key) => option(view, key),
        Thing::Equipment(_, key) => kitchen_item(view, key),
        Thing::Choice(..) => Some("A choice of methods: each option makes the lines marked with it hold.".to_owned()),
        Thing::File(file) => {
            let name = view.project.sources.get(*file).map(|source| source.name.as_str())?;
            Some(format!("file `{name}`"))
        }
        Thing::Part(_, key) => match line_here(view, mention) {
            Some(found) => Some(ingredient(view, &found)),
            None => part(view, key),
        },
        Thing::Ingredient(..) => line_here(view, mention).map(|found| ingredient(view, &found)),
        Thing::Larder(_, key) => match line_here(view, mention) {
            Some(found) => Some(ingredient(view, &found)),
            None => larder_entry(view, key),
        },
    }
}

/// The ingredient line that a mention is in or draws on.
fn line_here<'v>(view: &'v View, mention: &Mention) -> Option<PlacedLine<'v>> {
    if let Some(found) = place::line_of(view, mention.span) {
        return Some(found);
    }
    let (index, line) = place::line(view.tree(), mention.span.range().start)?;
    if !matches!(line.content, Content::Prose(_) | Content::Until(_) | Content::Percent(_)) {
        return None;
    }
    let part = place::part(view.tree(), index)?;
    let name = whole_name(view, mention.span);
    // Prose holds where its step does.
    let only = place::step_above(view.tree(), index).map_or(&[][..], |head| &head.only);
    place::drawn_line(view, &part, &Key::new(name), only)
}

/// A name in braces up to its end, where only its front part is linked.
fn whole_name(view: &View, span: Span) -> &str {
    let rest = view.text().get(span.range().start..).unwrap_or("");
    rest.split(['}', '\n', '\r']).next().unwrap_or("")
}

/// `whole milk`: grams, baker's percentage, share of the total, where it is used, what the larder knows.
fn ingredient(view: &View, found: &PlacedLine<'_>) -> String {
    let mut figures = Vec::new();
    match (found.amount.mass, found.amount.natural) {
        (Some(mass), _) => figures.push(show::mass_plain(mass).to_string()),
        (None, Some(natural)) => figures.push(show::value_plain(natural).to_string()),
        (None, None) => figures.extend(in_words(&found.line.amount).map(str::to_owned)),
    }
    if let Some(percent) = found.amount.percent {
        figures.push(format!("{} of the base", show::percent(percent)));
    }
    if let (Some(mass), Some(total), false) = (found.amount.mass, found.solved.goes_in, found.line.aside)
        && let Ok(share) = mass.as_share_of(total)
    {
        figures.push(format!("{} of all that goes in", show::percent(share)));
    }
    if let Some(each) = found.amount.each {
        figures.push(format!("{} a piece", show::mass_plain(each)));
    }
    let mut text = format!("**{}**", escaped(&found.line.name.text));
    if !figures.is_empty() {
        text.push_str(&format!(" {}", figures.join(" · ")));
    }
    text.push_str(&with(view, found.recipe));
    if let (Some(mass), Some(left)) = (found.amount.mass, found.amount.final_mix)
        && mass != left
    {
        text.push_str(&format!("  \nafter the preferments {} are left for the final mix", show::mass_plain(left)));
    }
    let uses = uses(found);
    if !uses.is_empty() {
        text.push_str(&format!("\n\nUsed in {}", uses.join(", ")));
    }
    if let Some(left) = left(found) {
        text.push_str(&format!("  \nLeft over by the steps: {left}"));
    }
    match &found.line.refers {
        Refers::Part(id) => {
            if let Some(balance) = balance(found, *id) {
                text.push_str(&format!("\n\n{balance}"));
            }
        }
        Refers::Pantry(Some(known)) => text.push_str(&format!("\n\n{}", facts(known))),
        Refers::Pantry(None) => text.push_str("\n\nThe larder knows nothing of it."),
    }
    text
}

/// `  \nwith cold overnight`: the options that figures are of, where they are not the default.
fn with(view: &View, recipe: &Recipe) -> String {
    let taken = view.taken(recipe);
    if taken.is_empty() { taken } else { format!("  \nwith {}", escaped(&taken)) }
}

fn in_words(amount: &LineAmount) -> Option<&'static str> {
    match amount {
        LineAmount::ToTaste => Some("to taste"),
        LineAmount::AsNeeded => Some("as needed"),
        LineAmount::All => Some("all of it"),
        LineAmount::Said(_) | LineAmount::Broken => None,
    }
}

/// `mix (920 g)`, for each step that takes some.
fn uses(found: &PlacedLine<'_>) -> Vec<String> {
    let draws = found.solved.draws.iter().filter(|draw| draw.target == Target::Line(found.at));
    draws
        .filter_map(|draw| {
            let step = found.part.steps.get(draw.step)?;
            let name = escaped(&step.name.text);
            Some(match (draw.drawn.mass, draw.drawn.natural) {
                (Some(mass), _) => format!("{name} ({})", show::mass_plain(mass)),
                (None, Some(natural)) => format!("{name} ({})", show::value_plain(natural)),
                (None, None) => name,
            })
        })
        .collect()
}

/// What the steps leave of a line that some step uses.
fn left(found: &PlacedLine<'_>) -> Option<String> {
    let mut left = found.amount.final_mix?;
    let mut used = false;
    for draw in found.solved.draws.iter().filter(|draw| draw.target == Target::Line(found.at)) {
        left = left.minus(draw.drawn.mass?).ok()?;
        used = true;
    }
    (used && left.value().is_positive()).then(|| show::mass_plain(left).to_string())
}

/// What another part makes and what is taken of it.
fn balance(found: &PlacedLine<'_>, id: PartId) -> Option<String> {
    let solved = found.formula.part(id)?;
    let mut words = vec![format!("a part that makes {}", show::mass_plain(solved.makes?))];
    if let Some(used) = solved.balance.used {
        words.push(format!("{} of it used", show::mass_plain(used)));
    }
    // What is meant to be kept of it is made as well.
    let besides = solved.balance.left.unwrap_or(Mass::ZERO).max(Mass::ZERO);
    let spare = |used: Mass| solved.makes?.minus(used).and_then(|left| left.minus(besides)).ok();
    let spare = found.recipe.part(id)?.spare.and(solved.balance.used).and_then(spare);
    if let Some(spare) = spare.filter(|spare| spare.value().is_positive()) {
        words.push(format!("{} spare", show::mass_plain(spare)));
    }
    if besides.value().is_positive() {
        words.push(format!("{} left", show::mass_plain(besides)));
    }
    Some(words.join(", "))
}

/// What the larder knows, with its sources.
fn facts(known: &Facts) -> String {
    let mut list = Vec::new();
    let shares: [(&str, Option<Proportion>); 9] = [
        ("water", known.contents.water),
        ("fat", known.contents.fat),
        ("sugar", known.contents.sugar),
        ("salt", known.contents.salt),
        ("protein", known.contents.protein),
        ("carbohydrate", known.contents.carbohydrate),
        ("fibre", known.contents.fibre),
        ("acid", known.contents.acid),
        ("edible part", known.edible),
    ];
    list.extend(shares.iter().filter_map(|(name, share)| Some(format!("{name} {}", show::percent((*share)?)))));
    list.extend(known.kind.map(|kind| format!("is {kind}")));
    if let Some(one) = known.one_weighs {
        list.push(format!("one weighs {}", show::mass_plain(one)));
    }
    if let Some(density) = known.density {
        list.push(format!("{} g per ml", show::number(density.value())));
    }
    if !known.allergens.is_empty() {
        list.push(format!("contains {}", escaped(&known.allergens.join(", "))));
    }
    let flags = [
        (known.flags.raw_flour, "raw flour"),
        (known.flags.raw_egg, "raw egg"),
        (known.flags.ready_to_eat, "ready to eat"),
        (known.flags.not_vegan, "not vegan"),
        (known.flags.not_vegetarian, "not vegetarian"),
        (known.sold == Some(Sold::ByTheLitre), "bought by the litre"),
        (known.sold == Some(Sold::ByThePiece), "bought by the piece"),
        (known.sold == Some(Sold::ByWeight), "bought by weight"),
    ];
    list.extend(flags.iter().filter(|(holds, _)| *holds).map(|(_, word)| (*word).to_owned()));
    let mut text = format!("Larder, *{}*: {}", escaped(&known.name), list.join(" · "));
    if let Some(label) = on_labels(known) {
        text.push_str(&format!("  \nOn labels: {label}"));
    }
    for source in &known.sources {
        text.push_str(&format!("  \nSource: {}", escaped(source)));
    }
    text
}

/// What a label counts and says of it: energy in 100 g, and allergens in the words of each law.
fn on_labels(known: &Facts) -> Option<String> {
    let mut words = Vec::new();
    let of = |nutrient| {
        held(Some(known), nutrient)
            .ok()
            .filter(|held| held.is_known)
            .and_then(|held| held.least.times(Number::whole(100)).ok())
    };
    if let (Some(kj), Some(kcal)) = (of(Nutrient::Kilojoules), of(Nutrient::Kilocalories)) {
        words.push(format!("{} kJ / {} kcal in 100 g", kj.decimal(0), kcal.decimal(0)));
    }
    for (law, name) in [(Law::Eu, "EU"), (Law::Us, "US")] {
        let said: Vec<String> = species::said(law, known.allergens.iter().map(String::as_str))
            .iter()
            .map(|said| said.shown_with_question(law))
            .collect();
        if !said.is_empty() {
            words.push(format!("{name}: {}", escaped(&said.join(", "))));
        }
    }
    if !known.knows_allergens {
        words.push("its allergens are not known".to_owned());
    }
    (!words.is_empty()).then(|| words.join(" · "))
}

fn larder_entry(view: &View, key: &Key) -> Option<String> {
    let blocks = crate::model::larder::pantry::blocks(view.tree()).0;
    let block = blocks.into_iter().find(|block| block.names.iter().any(|name| name.key == *key))?;
    Some(format!("**{}**\n\n{}", escaped(&block.facts.name), facts(&block.facts)))
}

/// A part's totals.
fn part(view: &View, key: &Key) -> Option<String> {
    let (recipe, formula) = view.weighed()?;
    let (id, part) = recipe.parts().find(|(_, part)| part.name.key == *key)?;
    let totals = super::lens::totals(part, formula.part(id)?, formula.is_mix(recipe, id));
    Some(format!("**{}** {}", escaped(&part.name.text), totals.join(" · ")))
}

/// A step: when it begins, how long it takes, what goes in.
fn step(view: &View, span: Span, part: &Key, key: &Key) -> Option<String> {
    let (_, line) = place::line(view.tree(), span.range().start)?;
    let here = place::step_of(view, line.said).filter(|found| found.step.name.key == *key);
    let named = |owner: &Part, step: &Step| owner.name.key == *part && step.name.key == *key;
    let found = here.or_else(|| view.every().find_map(|worked| place::find_step(worked, named)))?;
    let (recipe, formula) = (&found.worked.made.0, found.worked.mixed());
    let PlacedStep { id, at, step, part: owner, .. } = found;
    let mut text = format!(
        "**{}** of {} · {} {}",
        escaped(&step.name.text),
        escaped(&owner.name.text),
        step.kind.word(),
        show::duration_range(step.time.0, step.time.1)
    );
    if let Some((start, end)) = place::clock_of(view, &found) {
        text.push_str(&format!("  \nfrom {} to {} after the start", show::offset(start), show::offset(end)));
    }
    text.push_str(&with(view, recipe));
    let draws = formula.part(id)?.draws.iter().filter(|draw| draw.step == at);
    let taken: Vec<String> = draws
        .map(|draw| match draw.drawn.mass {
            Some(mass) => format!("{} {}", show::mass_plain(mass), escaped(&draw.name.text)),
            None => escaped(&draw.name.text),
        })
        .collect();
    if !taken.is_empty() {
        text.push_str(&format!("\n\nTakes {}", taken.join(", ")));
    }
    Some(text)
}

fn option(view: &View, key: &Key) -> Option<String> {
    let lines = view.tree().lines.iter().filter(|line| line.only.iter().any(|name| name.key == *key)).count();
    let noun = if lines == 1 { "line holds" } else { "lines hold" };
    (lines > 0).then(|| format!("option **{}**: {lines} {noun} only where it is chosen", escaped(key.as_str())))
}

/// `using oven`, where the kitchen is the one that the program brings.
fn equipment(view: &View, offset: usize) -> Option<(String, Span)> {
    let (_, line) = place::line(view.tree(), offset)?;
    let Content::Step(step) = &line.content else { return None };
    let using = step.clauses.iter().find_map(|clause| match &clause.value {
        crate::language::syntax::StepClause::Using(name, ..) => Some(name),
        _ => None,
    })?;
    let range = using.span.range();
    let inside = range.start <= offset && offset <= range.end;
    inside.then(|| kitchen_item(view, &using.key)).flatten().map(|text| (text, using.span))
}

fn kitchen_item(view: &View, key: &Key) -> Option<String> {
    let (recipe, _) = view.worked()?;
    let item = recipe.kitchen.equipment.iter().find(|item| item.name.key == *key)?;
    let mut words = vec![format!("**{}** × {}", escaped(&item.name.text), item.count)];
    match item.holds {
        Some(Capacity::Mass(mass)) => words.push(format!("holds {}", show::mass_plain(mass))),
        Some(Capacity::Pieces(count)) => words.push(format!("holds {}", show::pieces(count.value()))),
        None => {}
    }
    words.push(format!("in {}", escaped(&recipe.kitchen.name)));
    Some(words.join(" · "))
}
