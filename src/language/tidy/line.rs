//! What one line of a recipe says, in the one layout.

use super::Page;
use super::amount::{chain, quantity, written};
use super::clause::{in_order, joined, with_clauses};
use super::{bakes, block, book, column, prose};
use crate::language::parse::is_key_anywhere;
use crate::language::syntax::{
    AimAmount, AimBound, AimLine, Amount, Content, IngredientClause, IngredientLine, KeptHow, LaterHeat, Line, Makes,
    PercentOf, PictureLine, Quantity, StandInClause, StepClause, StepLine, WrittenPan,
};

/// Writes what a line says, without indentation, condition and comment; `None` for a line that must stay as it is.
pub(super) fn said(page: Page<'_>, line: &Line) -> Option<String> {
    Some(match &line.content {
        Content::Blank | Content::Comment => String::new(),
        Content::Stray => return None,
        Content::Recipe(name) => format!("recipe {name}"),
        Content::Kitchen(name) => format!("kitchen {name}"),
        Content::Day(name) => format!("day {name}"),
        Content::IngredientBlock(name) => format!("ingredient {name}"),
        Content::Use(path) => format!("use \"{}\"", path.value),
        Content::Choose { name, options } => format!("choose {name}: {}", joined(options, " or ")),
        Content::Measures(measures) => format!("measures {}", measures.value.word()),
        Content::Text { kind, pieces } => {
            let word = kind.word();
            let start = page.words_after(line.said, word.len());
            with_words(word, &prose::pieces(page, pieces, start)?)
        }
        Content::Picture(picture) => picture_line(picture)?,
        Content::By(words) => format!("by {words}"),
        Content::FiledUnder(names) => format!("filed under {}", joined(names, ", ")),
        Content::Prose(pieces) => prose::pieces(page, pieces, line.said.start as usize)?,
        Content::Until(pieces) => cue(page, line, pieces)?,
        Content::Makes { makes, loss, of_everything, bake_loss, pan } => {
            let what = match makes {
                Makes::Pieces(count, noun) => format!("{} {noun}", written(page, count)),
                Makes::Mass(mass) => chain(page, mass),
            };
            let tin = pan.as_ref().map_or_else(String::new, |pan| pan_clause(page, pan));
            let baked =
                bake_loss.as_ref().map_or_else(String::new, |loss| format!(", bake loss {}", quantity(page, loss)));
            let everything = if *of_everything { " of everything" } else { "" };
            format!("makes {what}{}{everything}{tin}{baked}", loss_clause(page, loss.as_ref()))
        }
        Content::Part { name, from: Some(from) } => format!("part {name}, from {from}"),
        Content::Part { name, from: None } => format!("part {name}"),
        Content::Percent(of) => match &of.value {
            PercentOf::Flour => "percent of flour".to_owned(),
            PercentOf::Total => "percent of total".to_owned(),
            PercentOf::Named(name) => format!("percent of {name}"),
        },
        Content::PerPiece(sort) => format!("per {}", sort.as_ref().map_or("piece", |sort| &sort.text)),
        Content::Divide { sizes, loss } => {
            let sized = sizes.iter().map(|size| {
                let sort = size.sort.as_ref().map_or_else(String::new, |sort| format!(" {sort}"));
                format!("{} x {}{sort}", written(page, &size.count), chain(page, &size.each))
            });
            let sizes = sized.collect::<Vec<String>>().join(" and ");
            format!("divide {sizes}{}", loss_clause(page, loss.as_ref()))
        }
        Content::Keeps { time, how } => {
            let how = match how {
                Some(KeptHow::Chilled) => ", chilled".to_owned(),
                Some(KeptHow::Frozen) => ", frozen".to_owned(),
                Some(KeptHow::At(temperature)) => format!(", at {}", chain(page, temperature)),
                None => String::new(),
            };
            format!("keeps {}{how}", quantity(page, time))
        }
        Content::Aim(aim) => aim_line(page, aim),
        Content::Spare(amount) => format!("spare {}", chain(page, amount)),
        Content::DesiredTemperature(temperature) => format!("desired temperature {}", chain(page, temperature)),
        Content::Ingredient(ingredient) => ingredient_line(page, ingredient)?,
        Content::Step(step) => step_line(page, step)?,
        Content::Logged(logged) => bakes::said(page, logged)?,
        Content::OfBook(line) => book::said(page, line)?,
        _ => return block::said(page, &line.content),
    })
}

/// One without words was reported and stays as it is.
fn picture_line(picture: &PictureLine) -> Option<String> {
    let words = picture.words.as_ref()?;
    Some(format!("picture \"{}\", {}", picture.path.value, words.value))
}

fn aim_line(page: Page<'_>, aim: &AimLine) -> String {
    let bound = match aim.bound {
        AimBound::Is => "",
        AimBound::AtLeast => "at least ",
        AimBound::AtMost => "at most ",
    };
    let ends = |low, high: &Option<_>| {
        let high = high.as_ref().map_or_else(String::new, |high| format!("-{}", written(page, high)));
        format!("{}{high}", written(page, low))
    };
    let amount = match &aim.amount {
        AimAmount::Measured(measured) => quantity(page, measured),
        AimAmount::Energy(low, high, kilojoules) => {
            format!("{} {}", ends(low, high), if *kilojoules { "kJ" } else { "kcal" })
        }
        AimAmount::Plain(low, high, money) => {
            let money = money.as_ref().map_or_else(String::new, |money| format!(" {money}"));
            format!("{}{money}", ends(low, high))
        }
    };
    let of = aim.of.map_or_else(String::new, |of| format!(" {}", of.value.words()));
    format!("aim {} {bound}{amount}{of}", aim.figure)
}

fn with_words(keyword: &str, words: &str) -> String {
    if words.is_empty() { keyword.to_owned() } else { format!("{keyword} {words}") }
}

/// `until …`, or a deeper line that continues it.
fn cue(page: Page<'_>, line: &Line, pieces: &[crate::language::syntax::Piece]) -> Option<String> {
    let begins = page.slice(line.said).get(..6).is_some_and(|start| start.eq_ignore_ascii_case("until "));
    if !begins {
        return prose::pieces(page, pieces, line.said.start as usize);
    }
    let start = page.words_after(line.said, 5);
    Some(format!("until {}", prose::pieces(page, pieces, start)?))
}

fn loss_clause(page: Page<'_>, loss: Option<&Quantity>) -> String {
    loss.map_or_else(String::new, |loss| format!(", loss {}", quantity(page, loss)))
}

fn pan_clause(page: Page<'_>, pan: &WrittenPan) -> String {
    let measures: Vec<String> = pan.measures.iter().map(|measure| quantity(page, measure)).collect();
    format!(", {} {}", pan.kind.word(), measures.join(" x "))
}

fn ingredient_line(page: Page<'_>, ingredient: &IngredientLine) -> Option<String> {
    // `note....5 g` is an ingredient and `note .... 5 g` a note: no layout is certain to be read as it was.
    if is_key_anywhere(ingredient.name.key.as_str()) {
        return None;
    }
    let amount = match &ingredient.amount {
        Amount::Chain(amounts) => chain(page, amounts),
        Amount::All(_) => "all".to_owned(),
        Amount::ToTaste(_) => "to taste".to_owned(),
        Amount::AsNeeded(_) => "as needed".to_owned(),
        Amount::Broken(_) => return None,
    };
    let head = format!("{}{amount}", column::leader(&ingredient.name.text));
    let clauses = in_order(&ingredient.clauses);
    Some(with_clauses(head, clauses.iter().map(|clause| ingredient_clause(page, &clause.value))))
}

fn ingredient_clause(page: Page<'_>, clause: &IngredientClause) -> String {
    match clause {
        IngredientClause::At(temperature) => format!("at {}", chain(page, temperature)),
        IngredientClause::Yield(share) => format!("yield {}", quantity(page, share)),
        IngredientClause::CountsAsFlour => "counts as flour".to_owned(),
        IngredientClause::NotFlour => "not flour".to_owned(),
        IngredientClause::Optional => "optional".to_owned(),
        IngredientClause::Aside => "aside".to_owned(),
        IngredientClause::StrainedOut => "strained out".to_owned(),
        IngredientClause::FromStore => "from store".to_owned(),
        IngredientClause::Leaves(name, share) => format!("leaves {name} {}", quantity(page, share)),
        IngredientClause::Before(step) => format!("before {step}"),
        IngredientClause::Instead(StandInClause { name, amount, words }) => {
            let words = words.as_ref().map_or_else(String::new, |words| format!(", {words}"));
            format!("instead: {name} {}{words}", chain(page, amount))
        }
        IngredientClause::Preparation(words) => single_spaced(words),
    }
}

/// Words with one blank between them.
pub(super) fn single_spaced(words: &str) -> String {
    words.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn step_line(page: Page<'_>, step: &StepLine) -> Option<String> {
    if step.duration.terms.is_empty() {
        return None;
    }
    let head = format!("{}: {} {}", step.name, step.kind.value.word(), quantity(page, &step.duration));
    let clauses: Option<Vec<String>> =
        in_order(&step.clauses).iter().map(|clause| step_clause(page, &clause.value)).collect();
    Some(with_clauses(head, clauses?))
}

fn step_clause(page: Page<'_>, clause: &StepClause) -> Option<String> {
    Some(match clause {
        StepClause::Each => "each".to_owned(),
        StepClause::AtATime(count) => format!("{} at a time", written(page, count)),
        StepClause::Using(equipment, at, _) if at.is_empty() => format!("using {equipment}"),
        StepClause::Using(equipment, at, later) => {
            let mut words = format!("using {equipment} at {}", chain(page, at));
            for LaterHeat { at, after } in later {
                words.push_str(&format!(" then {} after {}", chain(page, at), quantity(page, after)));
            }
            words
        }
        StepClause::Into(times, step) => {
            let times: Vec<String> = times.iter().map(|time| quantity(page, time)).collect();
            let said = match times.split_last() {
                Some((last, before)) if before.len() > 1 => format!("{} and {last}", before.join(", ")),
                _ => times.join(" and "),
            };
            format!("{said} into {step}")
        }
        StepClause::Before(step) => format!("before {step}"),
        StepClause::MayStand(time) => format!("may stand {}", quantity(page, time)),
        StepClause::SharedBy(count) => format!("shared by {}", written(page, count)),
        StepClause::At(temperature) => format!("at {}", chain(page, temperature)),
        StepClause::UpTo(time) => format!("up to {}", quantity(page, time)),
        StepClause::During(step) => format!("during {step}"),
        StepClause::After(step) => format!("after {step}"),
        StepClause::StraightAfter(step) => format!("straight after {step}"),
        StepClause::Within(time, step) => format!("within {} after {step}", quantity(page, time)),
        StepClause::Station(name) => format!("station {name}"),
        StepClause::People(count) => format!("people {}", written(page, count)),
        StepClause::Broken => return None,
    })
}
