//! A card as blocks, for plain text and Markdown. Sheets for the bench have a layout of their own: [`super::sheet`].

use super::block::{
    Block, Column, Frame, Heading, Look, Moment, Paint, Phrase, Row, Side, Step, Table, Text, Tone, Voice,
};
use super::plan::besides;
use super::report::seen;
use super::{markdown, text};
use crate::figures::bakes::blank::Blank;
use crate::figures::card::{
    AheadCard, Card, DayHead, LineCard, MadeForCard, PartCard, ScaledBy, StepCard, Timeline, TimelineRow,
};
use crate::language::prose::Prose;
use crate::measure::noun;
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::measure::show;
use crate::measure::shown::Shown;

/// Cards as plain text, below the head of the day if they are a day's.
pub fn text(cards: &[Card], day: Option<&DayHead>, style: text::Style) -> String {
    text::render(&blocks(cards, day), style)
}

/// Sheets of the log to fill in by hand, for plain text and Markdown behind the cards.
pub fn logs(logs: &[Blank], style: Option<text::Style>) -> String {
    let blocks = super::bakes::sheet::blocks(logs);
    match style {
        _ if logs.is_empty() => String::new(),
        Some(style) => text::render(&blocks, style),
        None => format!("\n{}", markdown::render(&blocks)),
    }
}

/// Cards as Markdown, below the head of the day if they are a day's.
pub fn markdown(cards: &[Card], day: Option<&DayHead>) -> String {
    markdown::render(&blocks(cards, day))
}

fn blocks(cards: &[Card], day: Option<&DayHead>) -> Vec<Block> {
    let mut blocks = Vec::new();
    if let Some(day) = day {
        blocks.push(Heading::looking(1, &day.name, Look::Capitals));
        blocks.extend(prose(Voice::Caution, &day.cautions));
        blocks.extend(prose(Voice::Note, &day.notes));
        blocks.extend(prose(Voice::Credit, &day.credits));
    }
    for card in cards {
        if !blocks.is_empty() {
            blocks.extend([Block::Gap, Block::Rule]);
        }
        blocks.extend(whole(card));
    }
    blocks
}

fn prose(voice: Voice, all: &[Prose]) -> impl Iterator<Item = Block> {
    all.iter().map(move |one| Block::Prose(voice, one.clone()))
}

fn whole(card: &Card) -> Vec<Block> {
    let mut blocks = vec![Heading::looking(1, &card.title, Look::Capitals)];
    let facts = head_facts(card);
    if !facts.is_empty() {
        let parted = facts.join(&Phrase::plain(" · "));
        blocks.push(Block::Text(Text::wrapped(parted, "", "")));
    }
    blocks.extend(made_for(card).map(Text::fact));
    blocks.extend(from_store(card).map(Text::fact));
    if !card.allergens.is_empty() {
        let words = Phrase::amount(format!("Contains: {}", card.allergens.join(", ")));
        blocks.push(Block::Text(Text { paint: Paint::Bold, ..Text::wrapped(vec![words], "", "  ") }));
    }
    if !card.allergens_unknown.is_empty() {
        blocks.push(Text::fact(format!("Allergens not known to the larder of: {}", card.allergens_unknown.join(", "))));
    }
    blocks.extend(prose(Voice::Note, &card.notes));
    let is_headed = |part: &PartCard| card.parts.len() > 1 || part.name != card.title;
    for one in &card.parts {
        blocks.push(Block::Gap);
        part(&mut blocks, one, is_headed(one));
    }
    if !card.cautions.is_empty() {
        blocks.push(Block::Gap);
        blocks.extend(prose(Voice::Caution, &card.cautions));
    }
    blocks.extend(timeline(card));
    blocks.extend(besides::ahead(&card.timeline.kept, besides::from_start));
    blocks.extend(prose(Voice::Credit, &card.credits));
    blocks
}

/// Batch, factor, choices, kitchen.
fn head_facts(card: &Card) -> Vec<Vec<Phrase>> {
    let mut facts = Vec::new();
    facts.extend(card.makes.as_ref().map(|makes| vec![Phrase::amount(&makes.shown)]));
    if card.factor != Number::ONE {
        facts.push(vec![Phrase::plain(format!("{} × the recipe", show::number(card.factor)))]);
    }
    facts.extend(card.ready_shown.as_ref().map(|ready| vec![Phrase::plain("ready "), Phrase::amount(ready)]));
    facts.extend(card.limit.as_ref().map(|limit| vec![Phrase::plain(noun::as_far_as(limit))]));
    facts.extend(card.scaled_by.as_ref().and_then(ScaledBy::words).map(|words| vec![Phrase::plain(words)]));
    let chosen =
        |(choice, option): &(String, String)| vec![Phrase::plain(format!("{choice}: ")), Phrase::amount(option)];
    facts.extend(card.choices.iter().map(chosen));
    if !card.kitchen.is_empty() {
        facts.push(vec![Phrase::plain(&card.kitchen)]);
    }
    facts
}

/// Who draws on the batch.
fn made_for(card: &Card) -> Option<String> {
    let takes = |one: &MadeForCard| {
        let of = if card.parts.len() > 1 { format!(" of {}", one.part) } else { String::new() };
        let when = one.ready_shown.as_ref().map(|ready| format!(" at {ready}")).unwrap_or_default();
        format!("{}{of} for {}{when}", one.shown, one.recipe)
    };
    let all: Vec<String> = card.made_for.iter().map(takes).collect();
    (!all.is_empty()).then(|| format!("Made once: {}", show::list(&all)))
}

/// What the batch takes from the store.
fn from_store(card: &Card) -> Option<String> {
    let words = |row: Vec<Phrase>| row.iter().map(|phrase| phrase.text.as_str()).collect::<String>();
    let all: Vec<String> = super::sheet::from_store(card).into_iter().map(words).collect();
    (!all.is_empty()).then(|| format!("From the store: {}", all.join("; ")))
}

fn part(blocks: &mut Vec<Block>, part: &PartCard, is_headed: bool) {
    if is_headed {
        let remark = part.from.as_ref().map(|from| format!("taken out of {from}"));
        blocks.push(Block::Heading(Heading { level: 2, text: seen(&part.name), remark, look: Look::Ruled }));
    }
    if !part.lines.is_empty() {
        blocks.push(Block::Table(weigh_out(part)));
    }
    let facts = part_facts(part);
    if !facts.is_empty() {
        blocks.push(Block::Bullets(facts.into_iter().map(|fact| vec![Phrase::plain(fact)]).collect()));
    }
    blocks.extend(prose(Voice::Caution, &part.cautions));
    blocks.extend(prose(Voice::PartNote, &part.notes));
    let step = |(at, step): (usize, &StepCard)| Step {
        number: at + 1,
        kind: step.kind,
        name: step.name.clone(),
        facts: step_facts(step),
        prose: step.prose.clone(),
        cue: step.cue.clone(),
    };
    blocks.push(Block::Steps(part.steps.iter().enumerate().map(step).collect()));
}

/// Head, lines, preferments, total.
fn weigh_out(part: &PartCard) -> Table {
    let split = !part.preferments.is_empty();
    let percent = match part.base_name.as_deref() {
        None | Some("flour") => "%".to_owned(),
        Some(base) => format!("% of {base}"),
    };
    let mut columns = vec![Column { head: "ingredient".to_owned(), side: Side::Left }];
    let own = part.preferments.iter().map(|column| vec![Phrase { tone: Tone::Quiet, ..Phrase::plain(&column.name) }]);
    let mut rows: Vec<Vec<Phrase>> =
        part.in_order((0..part.lines.len()).map(|at| vec![Phrase::plain(name_of(part, at))]), own);
    rows.push(vec![Phrase::amount("total")]);
    let mut column = |head: &str, lines: &dyn Fn(usize, &LineCard) -> Shown, own: Vec<Shown>, total: Phrase| {
        columns.push(Column { head: seen(&head), side: Side::Right });
        let lines = part.lines.iter().enumerate().map(|(at, line)| lines(at, line));
        let cells = part.in_order(lines, own).into_iter().map(Phrase::plain).chain([total]);
        rows.iter_mut().zip(cells).for_each(|(row, cell)| row.push(cell));
    };
    let none = || vec![Shown::default(); part.preferments.len()];
    let nothing = || Phrase::plain("");
    if part.base.is_some() {
        column(&percent, &|_, line| line.percent_shown.clone(), none(), Phrase::plain(&part.percent_total_shown));
    }
    if part.per_piece && !split {
        column("each", &|_, line| line.each_shown.clone(), none(), nothing());
    }
    let all = if split || part.per_piece { "in all" } else { "weigh" };
    column(all, &|_, line| line.shown.clone(), none(), Phrase::amount(&part.total_shown));
    if let Some(load) = &part.load {
        let own = part.preferments.iter().map(|one| load.of_preferment(one.id).0).collect();
        let cell = |line: usize, _: &LineCard| load.lines.get(line).cloned().unwrap_or_default();
        column(&load.title(), &cell, own, Phrase::amount(&load.total));
        if load.running.iter().any(|shows| !shows.is_empty()) {
            let shows = |line: usize, _: &LineCard| load.running.get(line).cloned().unwrap_or_default();
            let own = part.preferments.iter().map(|one| load.of_preferment(one.id).1).collect();
            column("scale shows", &shows, own, nothing());
        }
    }
    for (at, one) in part.preferments.iter().enumerate() {
        let cell = |line: usize, _: &LineCard| one.cells.get(line).cloned().unwrap_or_default();
        let mut own = none();
        if let Some(own) = own.get_mut(at) {
            own.clone_from(&one.total_shown);
        }
        column(&one.name, &cell, own, nothing());
    }
    if split {
        let own = part.preferments.iter().map(|one| one.total_shown.clone()).collect();
        column("final mix", &|_, line| line.final_mix_shown.clone(), own, Phrase::amount(&part.final_mix_shown));
    }
    if part.load.is_none() && part.lines.iter().any(|line| !line.running.is_empty()) {
        let own = part.preferments.iter().map(|one| one.running.clone()).collect();
        column("scale shows", &|_, line| line.running.clone(), own, nothing());
    }
    if part.total_shown.is_empty() {
        rows.pop();
    }
    let mut rows: Vec<Row> = rows.into_iter().map(Row::of).collect();
    if let Some(total) = rows.last_mut().filter(|_| !part.total_shown.is_empty()) {
        total.paint = Paint::Bold;
    }
    Table { columns, rows, frame: Frame::Weigh }
}

fn name_of(part: &PartCard, at: usize) -> String {
    let Some(line) = part.lines.get(at) else { return String::new() };
    let mut text = line.ingredient.clone();
    if let Some(measure) = part.measure_in_words(at) {
        text.push_str(&format!(" ({measure})"));
    }
    let temperature = line.temperature_shown.as_ref().map(|at| format!("at {at}"));
    for clause in [temperature, line.preparation.clone()].into_iter().flatten().chain(line.remarks()) {
        text.push_str(&format!(", {clause}"));
    }
    text
}

/// What a baker reads off below the table.
fn part_facts(part: &PartCard) -> Vec<String> {
    let lost = |lost: &Option<Shown>| lost.as_ref().map_or_else(String::new, |lost| format!(", {lost} lost"));
    let mut facts = Vec::new();
    if let Some(divide) = &part.divide {
        facts.push(format!("divide {}{}", divide.shown(), lost(&divide.lost)));
    }
    facts.extend(part.makes.as_ref().map(|makes| format!("makes {}{}", makes.shown, lost(&makes.lost))));
    facts.extend(part.tin_shown.iter().map(|tin| format!("in a {tin}")));
    if !part.hydration_shown.is_empty() {
        let hydration = &part.hydration_shown;
        let of_leaven = "a leaven counted as half flour, half water";
        facts.push(match hydration.bound {
            "" => format!("hydration {hydration}, counting the water in all ingredients but flour"),
            "about" => format!("hydration {hydration}, {of_leaven}"),
            "at least" => format!("hydration {hydration}: the water of some ingredients is not known"),
            _ => format!("hydration {hydration}, {of_leaven}: the water of some ingredients is not known"),
        });
    }
    if !part.prefermented_shown.is_empty() {
        facts.push(format!("{} of the flour is prefermented", part.prefermented_shown));
    }
    facts.extend(part.desired_temperature.as_ref().map(|at| format!("desired dough temperature {at}")));
    facts.extend(part.water_shown.clone());
    facts.extend(part.balance.as_ref().map(|balance| balance.shown.clone()));
    facts.extend(part.keeps.as_ref().map(|keeps| format!("keeps {keeps}")));
    facts.extend(part.ahead.as_ref().map(AheadCard::shown));
    if !part.rounding.is_empty() {
        facts.push(format!("on the scale: {}", part.rounding.join("; ")));
    }
    facts
}

/// Who is busy how long, with what, and how hot.
fn step_facts(step: &StepCard) -> String {
    let mut facts = vec![format!("{} {}", step.kind.word(), step.time_shown)];
    if !step.loads_shown.is_empty() {
        facts.push(step.loads_shown.clone());
    }
    if !step.whole_time_shown.is_empty() {
        facts.push(format!("{} together", step.whole_time_shown));
    }
    match (&step.equipment, &step.temperature_shown) {
        (Some(equipment), Some(at)) => facts.push(format!("{equipment} at {at}")),
        (Some(equipment), None) => facts.push(equipment.clone()),
        (None, Some(at)) => facts.push(format!("at {at}")),
        (None, None) => {}
    }
    facts.extend(step.up_to_shown.as_ref().map(|time| format!("up to {time}")));
    facts.extend(step.order_shown.iter().cloned());
    if step.people > 1 {
        facts.push(format!("{} people", step.people));
    }
    facts.join(", ")
}

/// When each step starts and ends, counted from the first.
fn timeline(card: &Card) -> Vec<Block> {
    let timeline = &card.timeline;
    if timeline.rows.is_empty() {
        let why = super::sheet::timeline::none(card).map(|why| [Block::Gap, Text::fact(why)]);
        return why.into_iter().flatten().collect();
    }
    let row = |row: &TimelineRow| Moment {
        from: show::offset(row.start),
        to: show::offset(row.end),
        kind: row.kind,
        what: timeline_what(card, row),
    };
    vec![
        Block::Gap,
        Heading::looking(2, "Timeline", Look::Absent),
        Block::Text(Text {
            paint: Paint::Bold,
            ..Text::wrapped(vec![Phrase::plain(timeline_head(timeline))], "── ", "   ")
        }),
        Block::Clock(timeline.rows.iter().map(row).collect()),
    ]
}

/// The whole time, and how much of it somebody is busy.
fn timeline_head(timeline: &Timeline) -> String {
    let minutes = |minutes: i64| show::duration(Duration::minutes(minutes));
    format!(
        "From the first step to the last: {} ({} of work, {} to tend)",
        minutes(timeline.span_minutes),
        minutes(timeline.hands_minutes),
        minutes(timeline.tend_minutes)
    )
}

/// What a row of the timeline is about.
fn timeline_what(card: &Card, row: &TimelineRow) -> String {
    let mut text = if card.parts.len() > 1 { format!("{}: {}", row.part, row.step) } else { row.step.clone() };
    if let Some(equipment) = &row.equipment {
        text.push_str(&format!(", {equipment}"));
    }
    if row.loads > 1 {
        text.push_str(&format!(", {} loads", row.loads));
    }
    text
}
