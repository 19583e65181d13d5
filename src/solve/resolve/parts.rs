//! The parts of a recipe: their key lines and ingredients.

use super::counted;
use super::earlier::{Earlier, Held, Kept};
use super::outline::{Outline, PartOutline};
use super::reading::{Reading, Seen};
use super::texts::{self, Texts};
use super::{adopt, aims, base, pans, part_use, preferments, sorts, steps};
use crate::language::for_each::is_for_each;
use crate::language::syntax::{
    Amount, Content, IngredientClause, IngredientLine, KeptHow, Line, Makes, Name, PercentOf, Quantity, StandInClause,
    TextKind,
};
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::temperature::Temperature;
use crate::measure::value::Said;
use crate::model::cooking::state::weigh_as_whole;
use crate::model::kind::Kind;
use crate::model::larder::Described;
use crate::model::noted::Noted;
use crate::model::places::Places;
use crate::model::published::StandIn;
use crate::model::recipe::{
    Base, HeadMakes, Ingredient, Keeps, KeptAt, LineAmount, MakesMass, Part, PartId, Recipe, Refers,
};
use crate::model::shared_list::SharedList;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{Span, Spanned};
use std::sync::Arc;

/// What is wrong where lines of a part stand above the first `part`, and it has neither ingredients nor steps.
pub(crate) fn nothing_above(span: Span) -> Diagnostic {
    let message = "what stands above the first `part` is of a part of its own, in which nothing is";
    Diagnostic::warning("never-used", span, message)
        .help("move lines such as `keeps`, `divide` and `percent of` below the `part` that they are of")
}

/// Fills in the recipe's parts: its own that hold under its selection, then those of used recipes. Returns which of their lines hold.
pub(super) fn read(recipe: &mut Recipe, outline: &Outline<'_>, earlier: &Earlier, reading: &mut Reading) -> Vec<Held> {
    let own = outline.parts.iter().filter(|part| recipe.selection.holds(part.only)).collect();
    let own = preferments::without_left_out(own, &recipe.selection, reading);
    let mut kept: Vec<&PartOutline<'_>> = Vec::with_capacity(own.len());
    let mut places = Places::default();
    for part in own {
        let twin = places.note(&part.name.key, kept.len());
        if let Some(bare) = twin.and_then(|first| kept.get_mut(first)).filter(|first| first.holds_nothing()) {
            reading.report(nothing_above(bare.name.span));
            *bare = part;
            continue;
        }
        if let Some(twin) = twin.and_then(|first| kept.get(first)) {
            reading.report(
                Diagnostic::error("twice-named", part.name.span, format!("the part `{}` stands here twice", part.name))
                    .also(twin.name.span, "first here")
                    .help("rename one of them, or mark each with the option it holds for"),
            );
            continue;
        }
        kept.push(part);
    }
    let from = |part: &PartOutline<'_>| part.from.and_then(|from| places.get(&from.key));
    let total = |part: &PartOutline<'_>| from(part).and_then(|at| kept.get(at)).copied();
    let held: Vec<Held> = kept.iter().map(|part| Held::of(part, total(part), &recipe.selection)).collect();
    let mut known: Vec<Option<&Kept>> = Vec::with_capacity(kept.len());
    for ((at, part), held) in kept.iter().enumerate().zip(&held) {
        let is_from_same = |kept: &&Kept| kept.part.from == from(part).map(PartId);
        let kept_part = earlier.part(recipe, PartId(at), held, reading).filter(is_from_same);
        let read = match kept_part {
            Some(kept) => Arc::clone(&kept.part),
            None => Arc::new(bare_part(part, recipe, &kept, &places, reading)),
        };
        recipe.parts.push(read);
        known.push(kept_part);
    }
    adopt(recipe);
    recipe.note_parts();
    for ((at, part), known) in kept.iter().enumerate().zip(&mut known) {
        if known.is_some_and(|known| !known.is_same(recipe, PartId(at))) {
            *known = None;
            let bare = bare_part(part, recipe, &kept, &places, reading);
            if let Some(slot) = recipe.parts.get_mut(at) {
                *slot = Arc::new(bare);
            }
        }
    }
    let is_read = |at: usize| known.get(at).is_some_and(Option::is_some);
    let mut new_lines: Vec<PartId> = Vec::new();
    for (at, outline) in kept.iter().enumerate().filter(|(at, _)| !is_read(*at)) {
        let known = held.get(at).and_then(|held| earlier.lines(recipe, PartId(at), held, reading));
        new_lines.extend(known.is_none().then_some(PartId(at)));
        let lines = known.unwrap_or_else(|| ingredients(recipe, PartId(at), outline, reading).into());
        if let Some(part) = recipe.part_mut(PartId(at)) {
            let unsaid = || base::unsaid(&lines).filter(|_| part.from.is_none());
            part.base = part.base.take().or_else(|| Some((unsaid()?, None)));
            part.broken |= lines.iter().any(|line| line.amount == LineAmount::Broken);
            part.lines = lines;
        }
    }
    sorts::bind(recipe, reading);
    for id in new_lines {
        bind_preferment(recipe, id, reading);
    }
    // Steps may point to steps of any part, so that all heads are read before any order is bound.
    for (at, outline) in kept.iter().enumerate().filter(|(at, _)| !is_read(*at)) {
        let steps = steps::read(recipe, PartId(at), outline, earlier, reading);
        if let Some(part) = recipe.part_mut(PartId(at)) {
            part.steps = steps.into();
        }
    }
    steps::bind_orders(recipe, &kept, is_read, reading);
    part_use::bind(recipe, &kept, reading);
    held
}

/// A part without its lines and steps.
fn bare_part(
    outline: &PartOutline<'_>,
    recipe: &Recipe,
    all: &[&PartOutline<'_>],
    places: &Places,
    reading: &mut Reading,
) -> Part {
    let mut part = Part {
        name: outline.name.clone(),
        foreign: None,
        from: None,
        base: None,
        per_piece: false,
        sort: None,
        divide: None,
        sorts: Vec::new(),
        makes: None,
        keeps: None,
        spare: None,
        desired_temperature: None,
        desired_said: Vec::new(),
        pan: None,
        lines: SharedList::default(),
        steps: Noted::default(),
        texts: Vec::new(),
        pictures: Vec::new(),
        aims: Vec::new(),
        broken: outline.broken,
        said: Noted::default(),
        draws: Noted::default(),
        divided_when_done: Noted::default(),
    };
    if let Some(from) = outline.from {
        part.from = bind_from(from, outline, all, places, reading);
        part.broken |= part.from.is_none();
    }
    let mut seen = Seen::default();
    let mut texts = Texts::default();
    for line in outline.lines.iter().filter(|line| recipe.selection.holds(&line.only)) {
        texts.take(line, &recipe.selection, reading);
        if matches!(line.content, Content::Text { kind: TextKind::Story, .. }) && !outline.implicit {
            reading.report(belongs_into_head(line));
        }
        key_line(&mut part, line, &mut seen, reading);
    }
    part.texts = texts.all();
    if outline.implicit
        && let Some(HeadMakes::Mass(makes)) = &recipe.makes
    {
        part.makes.get_or_insert(*makes);
    }
    part
}

fn bind_from(
    from: &Name,
    outline: &PartOutline<'_>,
    all: &[&PartOutline<'_>],
    places: &Places,
    reading: &mut Reading,
) -> Option<PartId> {
    match places.get(&from.key) {
        Some(at) if !from.same(&outline.name) => Some(PartId(at)),
        _ => {
            let names = all.iter().map(|part| part.name.key.as_str()).filter(|name| *name != outline.name.key.as_str());
            let problem = Diagnostic::error("unknown-name", from.span, format!("there is no other part `{from}`"));
            reading.unknown(problem, from, names);
            None
        }
    }
}

fn key_line(part: &mut Part, line: &Line, seen: &mut Seen, reading: &mut Reading) {
    match &line.content {
        Content::Percent(of) => {
            seen.once("percent of", line, reading);
            let base = match &of.value {
                PercentOf::Flour => Base::Flour,
                PercentOf::Total => Base::Total,
                PercentOf::Named(name) => Base::Named(name.clone()),
            };
            part.base = Some((base, Some(of.span)));
        }
        Content::PerPiece(sort) => {
            seen.once("per piece", line, reading);
            part.per_piece = true;
            part.sort.clone_from(sort);
        }
        Content::Divide { sizes, loss } => {
            seen.once("divide", line, reading);
            let divided = sorts::divide(sizes, loss.as_ref(), line.said, reading);
            part.broken |= divided.is_none();
            (part.divide, part.sorts) = divided.map_or((None, Vec::new()), |(divide, sorts)| (Some(divide), sorts));
        }
        Content::Makes { makes, loss, of_everything, bake_loss, pan } => {
            seen.once("makes", line, reading);
            part.pan = pan.as_ref().and_then(|pan| pans::pan(pan, reading));
            reading.problems.extend(bake_loss.as_deref().map(pans::misplaced_bake_loss));
            part.makes = part_makes(makes, loss.as_ref(), line.said, reading)
                .map(|made| MakesMass { alike: *of_everything, ..made });
            part.broken |= part.makes.is_none();
        }
        Content::Keeps { time, how } => {
            seen.once("keeps", line, reading);
            part.keeps = keeps(time, how.as_ref(), line.said, reading);
        }
        Content::Spare(amounts) => {
            seen.once("spare", line, reading);
            part.spare = spare(amounts, line.said, reading);
        }
        Content::Picture(picture) => part.pictures.extend(texts::picture(picture)),
        Content::Aim(aim) => part.aims.extend(aims::read(aim, line.said, reading)),
        Content::DesiredTemperature(amounts) => {
            seen.once("desired temperature", line, reading);
            let (at, said) = one_temperature(amounts, reading).unzip();
            (part.desired_temperature, part.desired_said) = (at, said.unwrap_or_default());
        }
        Content::Use(_)
        | Content::Choose { .. }
        | Content::Measures(_)
        | Content::Recipe(_)
        | Content::Sale(..)
        | Content::By(_)
        | Content::FiledUnder(_)
        | Content::Serving(..)
        | Content::Drained(_)
        | Content::Weighs { .. }
        | Content::GoodFor { .. } => reading.report(belongs_into_head(line)),
        _ => {}
    }
}

fn belongs_into_head(line: &Line) -> Diagnostic {
    Diagnostic::error("stray-line", line.said, "this line belongs into the head of the recipe")
        .help("move it above the first `part` line")
}

fn part_makes(makes: &Makes, loss: Option<&Quantity>, span: Span, reading: &mut Reading) -> Option<MakesMass> {
    match makes {
        Makes::Mass(chain) => reading.makes_mass(chain, loss, span),
        Makes::Pieces(count, noun) => {
            reading.report(
                Diagnostic::error("stray-line", span, format!("a part makes a weight, not {} {noun}", count.value.decimal(3)))
                    .help("write `makes 1.1 kg`, or `divide 24 x 78 g` for pieces; `makes 24 buns` stands in the head of the recipe"),
            );
            None
        }
    }
}

fn keeps(time: &Quantity, how: Option<&KeptHow>, span: Span, reading: &mut Reading) -> Option<Keeps> {
    let time = reading.longest(time)?;
    if !time.value().is_positive() {
        let none = Diagnostic::error("impossible-number", span, "what keeps no time at all does not keep");
        reading.report(none.help("leave the line out"));
        return None;
    }
    let (how, said) = match how {
        None => (KeptAt::Unsaid, [None; 2]),
        Some(KeptHow::Chilled) => (KeptAt::Chilled, [None; 2]),
        Some(KeptHow::Frozen) => (KeptAt::Frozen, [None; 2]),
        Some(KeptHow::At(amounts)) => {
            let (at, words) = one_temperature(amounts, reading)?;
            (KeptAt::At(at), [words.first().copied(), words.get(1).copied()])
        }
    };
    Some(Keeps { time, how, said, span })
}

fn spare(amounts: &[Quantity], span: Span, reading: &mut Reading) -> Option<(Mass, Span)> {
    let said = reading.chain(amounts, None)?;
    match said.first()?.mass() {
        Some(mass) => Some((mass, span)),
        None => {
            reading.report(
                Diagnostic::error("wrong-kind", span, "what is left over is said as a weight")
                    .help("write `spare 60 g`"),
            );
            None
        }
    }
}

fn ingredients(recipe: &Recipe, id: PartId, outline: &PartOutline<'_>, reading: &mut Reading) -> Vec<Ingredient> {
    // They are large, and a vector that grows by itself would move them again and again.
    let count = outline.lines.iter().filter(|line| matches!(line.content, Content::Ingredient(_))).count();
    let mut lines: Vec<Ingredient> = Vec::with_capacity(count);
    let mut places = Places::default();
    for line in outline.lines.iter().filter(|line| recipe.selection.holds(&line.only)) {
        let Content::Ingredient(written) = &line.content else { continue };
        let mut ingredient = ingredient(recipe, id, written, line, reading);
        if let Some(problem) = counted::no_unit(&ingredient, recipe.makes.as_ref(), outline) {
            reading.report(problem);
            ingredient.amount = LineAmount::Broken;
        }
        let twin = places.note(&written.name.key, lines.len());
        if let Some(twin) = twin.and_then(|first| lines.get(first)) {
            reading.report(
                Diagnostic::error("twice-named", written.name.span, format!("`{}` is listed twice in this part", written.name))
                    .also(twin.name.span, "first here")
                    .help(format!(
                        "add them up on one line and share it out in the steps with `{{half of {0}}}` and `{{rest of {0}}}`; \
                         what is for the tin or the board gets a name of its own, `{0} for the tins`",
                        written.name
                    )),
            );
            continue;
        }
        lines.push(ingredient);
    }
    lines
}

fn ingredient(recipe: &Recipe, id: PartId, written: &IngredientLine, line: &Line, reading: &mut Reading) -> Ingredient {
    let other_part = recipe.find(&written.name).filter(|found| *found != id);
    let Described { facts, kind } = match other_part {
        Some(_) => Described::default(),
        None => recipe.larder.describe(&written.name.key),
    };
    let amount = match &written.amount {
        Amount::All(_) => LineAmount::All,
        Amount::ToTaste(_) => LineAmount::ToTaste,
        Amount::AsNeeded(_) => LineAmount::AsNeeded,
        Amount::Broken(_) => LineAmount::Broken,
        Amount::Chain(quantities) => {
            let of = Some((&*written.name.text, facts.as_deref()));
            reading.chain(quantities, of).map_or(LineAmount::Broken, LineAmount::Said)
        }
    };
    let counts_as_flour = facts.as_ref().and_then(|facts| facts.flour).unwrap_or(kind == Kind::Flour);
    let mut read = Ingredient {
        name: written.name.clone(),
        kind,
        is_flour: other_part.is_none() && counts_as_flour,
        edible: facts.as_ref().and_then(|facts| facts.edible),
        refers: other_part.map_or(Refers::Pantry(facts), Refers::Part),
        amount,
        in_total: None,
        amount_span: written.amount.span(),
        temperature: None,
        temperature_said: Vec::new(),
        optional: false,
        aside: false,
        strained_out: false,
        from_store: false,
        before: None,
        leaves: None,
        preparation: None,
        stand_ins: Vec::new(),
        span: line.said,
    };
    for clause in &written.clauses {
        take_clause(&mut read, clause, reading);
        if let IngredientClause::Instead(written) = &clause.value {
            read.stand_ins.push(stand_in(recipe, written, reading));
        }
    }
    if !written.clauses.iter().any(|clause| matches!(clause.value, IngredientClause::Yield(_))) {
        weigh_as_whole(&mut read);
    }
    let draws_on_all = read.amount == LineAmount::All;
    let in_preferment = recipe.part(id).is_some_and(|part| part.from.is_some());
    if draws_on_all && other_part.is_none() && !in_preferment {
        let parts = recipe.parts().filter(|(other, _)| *other != id).map(|(_, part)| part.name.key.as_str());
        let problem = Diagnostic::error(
            "unknown-name",
            written.name.span,
            format!("`all` takes all of another part, but there is no part `{}`", written.name),
        );
        reading.unknown(problem, &written.name, parts);
        read.amount = LineAmount::Broken;
    }
    read
}

/// A temperature with which sums are done, so that a range of them will not do.
fn one_temperature(amounts: &[Quantity], reading: &mut Reading) -> Option<(Temperature, Vec<Said>)> {
    let said = reading.chain(amounts, None)?;
    let first = said.first()?;
    if first.upper.is_some() {
        let message = "a range of temperatures, where sums are done with one";
        reading.report(
            Diagnostic::error("wrong-kind", first.span, message)
                .help("write the one that is aimed at, such as the middle"),
        );
    }
    Some((first.temperature()?, said))
}

fn take_clause(read: &mut Ingredient, clause: &Spanned<IngredientClause>, reading: &mut Reading) {
    match &clause.value {
        IngredientClause::At(amounts) => {
            let (at, said) = one_temperature(amounts, reading).unzip();
            (read.temperature, read.temperature_said) = (at, said.unwrap_or_default());
        }
        IngredientClause::Yield(quantity) => {
            let share = reading.said(quantity).and_then(|said| said.proportion());
            let possible = share.filter(|share| share.value().is_positive() && *share <= Proportion::WHOLE);
            if share.is_some() && possible.is_none() {
                reading.report(
                    Diagnostic::error(
                        "impossible-number",
                        quantity.span,
                        "the edible part is more than 0 % and at most 100 %",
                    )
                    .help("write how much of what is bought is left after trimming"),
                );
            }
            read.edible = possible;
        }
        IngredientClause::CountsAsFlour => read.is_flour = true,
        IngredientClause::NotFlour => read.is_flour = false,
        IngredientClause::Optional => read.optional = true,
        IngredientClause::Aside => read.aside = true,
        IngredientClause::StrainedOut => read.strained_out = true,
        IngredientClause::FromStore => read.from_store = true,
        IngredientClause::Leaves(name, quantity) => {
            let share = reading.said(quantity).and_then(|said| said.proportion());
            read.leaves = share.filter(|share| share.value().is_positive()).map(|share| (name.clone(), share));
            if share.is_some() && read.leaves.is_none() {
                reading.report(
                    Diagnostic::error("impossible-number", quantity.span, "what leaves nothing needs no word")
                        .help("write how much is left of 100 % of what is taken, `leaves egg white 190 %`"),
                );
            }
        }
        // Of what is no part it says how it is prepared; of a part it is bound when all steps are known.
        IngredientClause::Before(step) if matches!(read.refers, Refers::Pantry(_)) => {
            prepared(read, &format!("before {step}"))
        }
        IngredientClause::Before(_) | IngredientClause::Instead(_) => {}
        IngredientClause::Preparation(text) if is_for_each(text) => reading.report(of_one_piece(clause.span, text)),
        IngredientClause::Preparation(text) => prepared(read, text),
    }
}

fn of_one_piece(span: Span, text: &str) -> Diagnostic {
    Diagnostic::error("stray-line", span, format!("`{text}` is no preparation: an amount is for the whole part"))
        .label("not counted")
        .help("write `per piece` below the `part` line, and all amounts of the part are for one piece; or write what all pieces take together")
}

fn stand_in(recipe: &Recipe, written: &StandInClause, reading: &mut Reading) -> StandIn {
    let facts = recipe.larder.find(&written.name.key);
    let amount = reading.chain(&written.amount, Some((&*written.name.text, facts.as_deref()))).unwrap_or_default();
    StandIn { name: written.name.clone(), amount, words: written.words.clone(), facts }
}

fn prepared(read: &mut Ingredient, text: &str) {
    match &mut read.preparation {
        Some(so_far) => {
            so_far.push_str(", ");
            so_far.push_str(text);
        }
        None => read.preparation = Some(text.to_owned()),
    }
}

/// A preferment takes lines out of a total formula that must list them.
fn bind_preferment(recipe: &mut Recipe, id: PartId, reading: &mut Reading) {
    let Some(part) = recipe.part(id) else { return };
    let Some(total) = part.from.and_then(|from| recipe.part(from)) else { return };
    let mut bound = Vec::with_capacity(part.lines.len());
    for line in &part.lines {
        let at = total.listing(line);
        if at.is_none() {
            not_in_total(part, total, line, reading);
        }
        bound.push(at);
    }
    if let Some(part) = recipe.part_mut(id) {
        for (line, at) in part.lines.iter_mut().zip(bound) {
            line.in_total = at;
        }
    }
}

fn not_in_total(part: &Part, total: &Part, line: &Ingredient, reading: &mut Reading) {
    let message = format!("`{}` takes `{}` out of `{}`, which does not list it", part.name, line.name, total.name);
    let names = total.lines.iter().map(|other| other.name.key.as_str());
    let problem = Diagnostic::error("unknown-name", line.name.span, message).also(total.name.span, "the total formula");
    reading.unknown(problem, &line.name, names);
}
