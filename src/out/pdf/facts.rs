//! What a baker reads off below the strip: pieces, what comes out, hydration, keeping.

use super::frame::{Block, Flow, Frame, SOFT};
use super::paragraph::{self, Setting, Words};
use super::tags::{Node, Role};
use super::{Press, plain};
use crate::figures::card::PartCard;
use crate::measure::quantity::Proportion;
use crate::measure::show;
use crate::out::text::rounded;

fn lost(loss: Option<Proportion>) -> String {
    let loss = loss.filter(|loss| loss.value().is_positive());
    loss.map_or_else(String::new, |loss| format!(", {} lost", show::percent(rounded(loss))))
}

/// The facts beside each other, each under its name.
pub(super) fn facts(press: &mut Press<'_>, part: &PartCard, parent: Node) -> Vec<Flow> {
    let mut all: Vec<(&str, String, String)> = Vec::new();
    if let Some(divide) = &part.divide {
        let pieces = format!("{} × {}", show::count_of(divide.pieces), divide.each_shown);
        all.push(("divide", pieces, lost(divide.actual_loss)));
    }
    if let Some(makes) = &part.makes {
        all.push(("makes", makes.shown.clone(), lost(makes.actual_loss)));
    }
    all.extend(part.desired_temperature.iter().map(|at| ("dough after mixing", at.clone(), String::new())));
    all.extend(part.water_shown.iter().map(|water| ("pour", water.clone(), String::new())));
    let keeps = part.keeps.as_ref().map(|keeps| keeps.strip_prefix("keeps ").unwrap_or(keeps).to_owned());
    all.extend(keeps.map(|keeps| ("keeps", keeps, String::new())));
    all.extend(part.balance.iter().map(|balance| ("balance", balance.shown.clone(), String::new())));
    let share = |share: Proportion| show::percent(rounded(share));
    let hydration = part.hydration.filter(|share| share.value().is_positive());
    all.extend(hydration.map(|water| ("water on flour", share(water), String::new())));
    all.extend(part.prefermented.map(|flour| ("flour fermented before", share(flour), String::new())));
    let (em, width) = (press.em, press.width());
    let mut frame = Frame::default();
    let (mut x, mut y, mut high) = (0.0_f32, 0.0_f32, 0.0_f32);
    for (term, said, after) in &all {
        let term = [Words::new(*term, em * 0.82).ink(SOFT)];
        let said = [Words::new(plain(said), em * 1.15).bold(), Words::new(plain(after), em * 0.95)];
        let wanted = paragraph::width(press.faces, &said).max(paragraph::width(press.faces, &term)) + 0.5;
        let wide = wanted.min(width);
        if x > 0.0 && x + wide > width {
            (x, y, high) = (0.0, y + high + em * 0.35, 0.0);
        }
        let node = press.tags.add(Some(parent), Role::Paragraph);
        let mut fact = paragraph::set(press.faces, &term, Setting::left(wide, 1.2), Some(node));
        fact.append(paragraph::set(press.faces, &said, Setting::left(wide, 1.2), Some(node)), 0.0, 0.0);
        high = high.max(fact.height);
        frame.place(fact, x, y);
        x += wide + em * 1.6;
    }
    frame.height = y + high;
    if !part.rounding.is_empty() {
        let words =
            [Words::new("on the scale ", em * 0.82).ink(SOFT), Words::new(plain(&part.rounding.join("; ")), em)];
        let line = press.paragraph(&words, Setting::left(width, 1.3), parent);
        frame.append(line, 0.0, if frame.height > 0.0 { em * 0.3 } else { 0.0 });
    }
    if frame.height > 0.0 { vec![Flow::One(Block::new(frame, em * 0.6))] } else { Vec::new() }
}
