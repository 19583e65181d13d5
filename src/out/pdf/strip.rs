//! The weigh-out strip: a line to tick for everything that goes into the bowl, and what the scale shows when it is in.

use super::frame::{BLACK, Flow, SOFT};
use super::paragraph::Words;
use super::table::{Figures, Row, Table, set};
use super::tags::Node;
use super::{Press, plain};
use crate::figures::card::PartCard;
use crate::out::sheet::strip::{Column, Kind, Strip};

/// The strip of a part; nothing for a part without ingredients.
pub(super) fn strip(press: &mut Press<'_>, part: &PartCard, parent: Node) -> Vec<Flow> {
    let Some(strip) = Strip::of(part) else { return Vec::new() };
    let em = press.em;
    let rows = strip.rows.into_iter().map(|row| {
        let mut name = vec![Words::new(row.name, em * 1.25).bold()];
        name.extend(row.how.iter().map(|clause| Words::new(format!(", {clause}"), em * 1.1).ink(SOFT)));
        Row { name, tick: row.tick, stair: row.stair }
    });
    let split = strip.split;
    let table = Table {
        summary: format!("What goes into {}, line by line, and what the scale shows.", plain(&part.name)),
        name_title: "what goes in".to_owned(),
        rows: rows.collect(),
        total: strip.has_total.then(|| "total".to_owned()),
        columns: strip.columns.into_iter().map(|column| figures(column, split)).collect(),
        ruled: false,
    };
    set(press, &table, parent)
}

fn figures(column: Column, split: bool) -> Figures {
    let size = match column.kind {
        Kind::Weigh => {
            if split {
                1.5
            } else {
                1.75
            }
        }
        Kind::Shows if !split => 1.15,
        Kind::Each => 1.15,
        Kind::Share => 0.95,
        _ => 1.0,
    };
    Figures {
        title: column.title,
        cells: column.cells,
        size,
        bold: column.kind == Kind::Weigh,
        ink: if column.kind == Kind::Share { SOFT } else { BLACK },
        shaded: column.kind == Kind::Shows,
    }
}
