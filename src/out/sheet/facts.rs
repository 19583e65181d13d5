//! What a baker reads off below the strip: pieces, what comes out, hydration, keeping.

use crate::figures::card::PartCard;
use crate::figures::sums::sections::RoomWater;
use crate::measure::show;
use crate::measure::shown::Shown;
use crate::out::report::{clean, seen};
use crate::out::sheet::by_hand::{self, Blank};

/// A term and what is said of it.
pub(in crate::out) struct Fact {
    pub(in crate::out) term: &'static str,
    pub(in crate::out) said: String,
    /// What is said more quietly behind it.
    pub(in crate::out) after: Option<String>,
    /// Where what was measured is written beside what is aimed at.
    pub(in crate::out) blank: Option<Blank>,
    /// Whether it takes a line of its own.
    pub(in crate::out) is_long: bool,
    /// Whether it is a remark to the facts and less than one of them.
    pub(in crate::out) is_remark: bool,
    /// Whether it is a sum about the formula, which no hand needs at the bench: on a telephone it is behind the fold.
    pub(in crate::out) is_sum: bool,
}

/// How warm the water is poured, room by room.
pub(in crate::out) struct Water {
    /// What it is about, and by which sum.
    pub(in crate::out) caption: String,
    /// The rooms, the water, and the water by the other sum where that is another.
    pub(in crate::out) rows: Vec<WaterRow>,
    /// Which sum to use, and why; empty where both come to the same.
    pub(in crate::out) why: String,
}

/// A row of the table.
pub(in crate::out) struct WaterRow {
    pub(in crate::out) head: String,
    pub(in crate::out) cells: Vec<String>,
    /// The one that is read at the mixer.
    pub(in crate::out) is_large: bool,
}

/// The water of a part; nothing where it is not told by rooms.
pub(in crate::out) fn water(part: &PartCard) -> Option<Water> {
    let rooms = part.water_rooms.as_ref()?;
    let row = |head: String, cells: Vec<String>, is_large| WaterRow { head: seen(&head), cells, is_large };
    let of = |cell: fn(&RoomWater) -> &Shown| {
        rooms.rows.iter().map(|one| seen(&cell(one).to_string())).collect::<Vec<String>>()
    };
    let (water, other) = (of(|one| &one.water), of(|one| &one.other));
    let are_one = water == other;
    let mut rows =
        vec![row("room and flour".to_owned(), of(|one| &one.room), false), row(rooms.names.clone(), water, true)];
    if !are_one {
        rows.push(row(format!("by {}", rooms.other_by), other, false));
    }
    let caption = match are_one {
        true => format!("How warm to pour the {}", rooms.names),
        false => format!("How warm to pour the {}, by {}", rooms.names, rooms.by),
    };
    let why = if are_one { String::new() } else { format!("Use {}: {}.", rooms.by, rooms.why) };
    Some(Water { caption: seen(&caption), rows, why: seen(&why) })
}

/// `100 % = 1350 g flour`, beside the part's name.
pub(in crate::out) fn base_line(part: &PartCard) -> String {
    let from = part.from.as_ref().map(|from| format!("taken out of {from}"));
    let base = match (&part.base_shown, part.base_name.as_deref()) {
        (shown, Some(name)) if !shown.is_empty() => {
            let of = if part.from.is_some() { "all " } else { "" };
            Some(format!("100 % is {of}{}: {}", if name == "total" { "everything" } else { name }, shown.unbroken()))
        }
        _ => None,
    };
    let words: Vec<String> = from.into_iter().chain(base).collect();
    clean(&words.join(" · ")).into_owned()
}

/// The facts of a part, in the order in which they are read.
pub(in crate::out) fn facts(part: &PartCard) -> Vec<Fact> {
    let fact = |term, said: String| {
        let said = seen(&said);
        Fact { term, said, after: None, blank: None, is_long: false, is_remark: false, is_sum: false }
    };
    let long = |term, said: String| Fact { is_long: true, ..fact(term, said) };
    let sum = |term, said: String| Fact { is_sum: true, ..fact(term, said) };
    let lost = |lost: &Option<Shown>| lost.as_ref().map(|lost| format!("{} lost", lost.unbroken()));
    let mut all = Vec::new();
    if let Some(divide) = &part.divide {
        let pieces = match divide.sorts.is_empty() {
            true => format!("{} × {}", show::count_of(divide.pieces), divide.each_shown.unbroken()),
            false => divide.shown(),
        };
        all.push(Fact { after: lost(&divide.lost), ..fact("divide", pieces) });
    }
    if let Some(makes) = &part.makes {
        all.push(Fact { after: lost(&makes.lost), ..sum("makes", makes.shown.unbroken()) });
    }
    all.extend(part.tin_shown.as_ref().map(|tin| fact("tin", tin.clone())));
    all.extend(part.desired_temperature.as_ref().map(|at| {
        let blank = Some(by_hand::of_dough(at));
        Fact { blank, ..fact("dough after mixing", at.unbroken()) }
    }));
    all.extend(
        part.water_shown.as_ref().filter(|_| part.water_rooms.is_none()).map(|water| long("pour", water.clone())),
    );
    all.extend(part.keeps.as_ref().map(|keeps| fact("keeps", keeps.clone())));
    all.extend(part.ahead.as_ref().map(|ahead| fact("made ahead", ahead.shown())));
    all.extend(part.balance.as_ref().map(|balance| sum("balance", balance.shown.clone())));
    if !part.hydration_shown.is_empty() {
        all.push(sum("water on flour", part.hydration_shown.unbroken()));
    }
    if !part.prefermented_shown.is_empty() {
        all.push(sum("flour fermented before", part.prefermented_shown.unbroken()));
    }
    if !part.rounding.is_empty() {
        all.push(Fact { is_remark: true, is_sum: true, ..long("on the scale", part.rounding.join("; ")) });
    }
    all
}
