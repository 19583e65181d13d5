//! The long report behind a label: what the law asks for and how the label answers, and every ingredient with its entry, weight, allergens and where its figures come from.

use super::checklist;
use crate::figures::label::{Item, Label, leaves};
use crate::measure::number::Overflow;
use crate::measure::show::{self, Units};
use crate::out::block::{Block, Frame, Heading, Phrase, Table};

/// The label's page, and behind it what it rests on.
///
/// # Errors
/// When a figure leaves the range of exact numbers.
pub fn report(label: &Label, units: Units) -> Result<Vec<Block>, Overflow> {
    let mut blocks = super::page(label, units)?;
    blocks.push(Heading::block(2, "What the law asks for"));
    let asked = checklist::of(label, units)?.into_iter().map(|one| {
        vec![
            Phrase::strong(one.what),
            Phrase::plain(format!(" ({}), {}: {}", one.rule, one.standing.words(), one.words)),
        ]
    });
    blocks.push(Block::Bullets(asked.collect()));
    blocks.push(Heading::block(2, "What it rests on"));
    let head = ["ingredient", "larder entry", "weight in the batch", "share", "allergens as the law says them"];
    let mut rows = Vec::new();
    let mut sources = Vec::new();
    for item in leaves(&label.ingredients) {
        rows.push(row(item, label)?);
        if let Some(facts) = &item.facts {
            let text = facts.sources.join("; ");
            let text = if text.is_empty() { "no source".to_owned() } else { text };
            sources.push(vec![Phrase::strong(&item.name), Phrase::plain(format!(": {text}"))]);
        }
    }
    blocks.push(Table::figures(head.map(str::to_owned).to_vec(), rows, Frame::Sheet));
    blocks.push(Block::Bullets(sources));
    Ok(blocks)
}

fn row(item: &Item, label: &Label) -> Result<Vec<String>, Overflow> {
    let share = match item.mass {
        Some(mass) => format!("{} %", mass.as_share_of(label.net)?.percent()?.decimal(2)),
        None => String::new(),
    };
    let said: Vec<String> = item.said(label.law).iter().map(|said| said.shown().to_owned()).collect();
    let allergens = match &item.facts {
        Some(facts) if facts.knows_allergens && said.is_empty() => "none".to_owned(),
        Some(facts) if facts.knows_allergens => said.join(", "),
        _ => format!("not known{}", if said.is_empty() { String::new() } else { format!("; {}", said.join(", ")) }),
    };
    Ok(vec![
        item.name.clone(),
        item.facts.as_ref().map_or("none".to_owned(), |facts| facts.name.clone()),
        item.mass.map_or("not known".to_owned(), |mass| show::mass(mass, Units::Metric).to_string()),
        share,
        allergens,
    ])
}
