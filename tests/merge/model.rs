//! A recipe as a list of lines with identity, what somebody did to it as a list of edits, and both as text.
//!
//! Every line that means something carries its identity in its words (`k17`) and no two versions of it are alike, so that it
//! is found again in whatever came of a merge.

use crate::dice::Dice;
use std::collections::BTreeMap;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    Title,
    Part,
    Ingredient,
    Fact,
    Step,
    Prose,
    Sign,
    Note,
    Blank,
}

/// A line with an identity. Its fields change one by one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    pub id: usize,
    pub kind: Kind,
    /// An amount, a time, a wording.
    pub first: usize,
    /// What stands behind an ingredient's amount.
    pub second: usize,
    /// A wider leader, which means nothing.
    pub layout: bool,
}

impl Line {
    fn new(id: usize, kind: Kind, dice: &mut Dice) -> Line {
        Line { id, kind, first: dice.below(9) + 1, second: 0, layout: false }
    }

    pub fn text(&self) -> String {
        let Line { id, first, second, .. } = self;
        let leader = if self.layout { "............." } else { "....." };
        match self.kind {
            Kind::Title => format!("recipe Loaf k{id}e v{first}e"),
            Kind::Part => format!("part bowl k{id}e v{first}e"),
            Kind::Ingredient if *second == 0 => format!("meal k{id}e {leader} {first} kg"),
            Kind::Ingredient => format!("meal k{id}e {leader} {first} kg, at {second} C"),
            Kind::Fact => format!("keeps {first} days, at {id} C # k{id}e"),
            Kind::Step => format!("stir k{id}e: hands {first} min"),
            Kind::Prose => format!("    Turn it k{id}e v{first}e."),
            Kind::Sign => format!("    until it looks k{id}e v{first}e"),
            Kind::Note => format!("note Take k{id}e v{first}e."),
            Kind::Blank => String::new(),
        }
    }

    /// A text, and in ingredients a heat, that no other version has.
    fn change(&mut self, by: usize, dice: &mut Dice) {
        if self.kind == Kind::Ingredient && dice.below(3) == 0 {
            self.second = by + dice.below(50);
        } else {
            self.first = by + dice.below(50);
        }
    }
}

pub fn written(lines: &[Line]) -> String {
    lines.iter().map(|line| line.text() + "\n").collect()
}

/// A recipe of one to three parts.
pub fn recipe(dice: &mut Dice) -> Vec<Line> {
    let mut lines = Vec::new();
    let mut add = |kind: Kind, dice: &mut Dice| {
        let id = lines.len() + 10;
        lines.push(Line::new(id, kind, dice));
    };
    add(Kind::Title, dice);
    if dice.below(3) == 0 {
        add(Kind::Note, dice);
    }
    for _ in 0..=dice.below(3) {
        add(Kind::Blank, dice);
        add(Kind::Part, dice);
        for _ in 0..=dice.below(4) {
            add(Kind::Ingredient, dice);
        }
        if dice.below(2) == 0 {
            add(Kind::Fact, dice);
        }
        if dice.below(3) > 0 {
            add(Kind::Blank, dice);
        }
        for _ in 0..dice.below(4) {
            add(Kind::Step, dice);
            for _ in 0..dice.below(4) {
                add(Kind::Prose, dice);
            }
            if dice.below(2) == 0 {
                add(Kind::Sign, dice);
            }
        }
    }
    lines
}

/// Whether a line goes on with the text of the head above it.
fn goes_on(kind: Kind) -> bool {
    matches!(kind, Kind::Prose | Kind::Sign)
}

/// The lines from one head up to the next of its rank.
fn block(lines: &[Line], at: usize) -> std::ops::Range<usize> {
    let ends = |line: &Line| match lines[at].kind {
        Kind::Part => line.kind == Kind::Part,
        _ => !goes_on(line.kind),
    };
    let end = lines.iter().skip(at + 1).position(ends).map_or(lines.len(), |past| at + 1 + past);
    at..end
}

fn any(lines: &[Line], dice: &mut Dice, fits: impl Fn(&Line) -> bool) -> Option<usize> {
    let fitting: Vec<usize> = (0..lines.len()).filter(|at| fits(&lines[*at])).collect();
    if fitting.is_empty() { None } else { Some(fitting[dice.below(fitting.len())]) }
}

/// What one side did: some edits, told apart from the other side's by its number (1 or 2).
pub fn edited(base: &[Line], side: usize, dice: &mut Dice) -> (Vec<Line>, Vec<String>) {
    let mut lines = base.to_vec();
    let mut told = Vec::new();
    let mut fresh = side * 1000;
    let mut new = |kind: Kind, dice: &mut Dice| {
        fresh += 1;
        Line { first: side * 100 + dice.below(50), ..Line::new(fresh, kind, dice) }
    };
    for _ in 0..=dice.below(3) {
        let edit = dice.below(11);
        let place = match edit {
            0..=2 => any(&lines, dice, |line| line.kind != Kind::Blank),
            3 => any(&lines, dice, |line| {
                matches!(line.kind, Kind::Ingredient | Kind::Fact | Kind::Prose | Kind::Sign | Kind::Note)
            }),
            4 => any(&lines, dice, |line| line.kind == Kind::Step),
            5 => any(&lines, dice, |line| line.kind == Kind::Part),
            6 | 7 => any(&lines, dice, |line| matches!(line.kind, Kind::Ingredient | Kind::Part)),
            8 => any(&lines, dice, |line| matches!(line.kind, Kind::Step | Kind::Prose)),
            9 => any(&lines, dice, |line| line.kind == Kind::Step),
            _ => any(&lines, dice, |line| line.kind == Kind::Ingredient),
        };
        let Some(at) = place else { continue };
        told.push(format!("{edit} at k{}", lines[at].id));
        match edit {
            0..=2 => lines[at].change(side * 100, dice),
            3 => drop(lines.remove(at)),
            4 | 5 => drop(lines.drain(block(&lines, at))),
            6 | 7 => {
                let line = new(Kind::Ingredient, dice);
                lines.insert(at + 1, line);
            }
            8 => {
                let line = new(Kind::Prose, dice);
                lines.insert(at + 1, line);
            }
            9 => {
                let end = block(&lines, at).end;
                let (head, text) = (new(Kind::Step, dice), new(Kind::Prose, dice));
                lines.splice(end..end, [head, text]);
            }
            _ => lines[at].layout = true,
        }
    }
    (lines, told)
}

/// The identities of the part and the step that each line stands under.
pub fn owners(lines: &[Line]) -> BTreeMap<usize, (Option<usize>, Option<usize>)> {
    let (mut part, mut step) = (None, None);
    let mut owners = BTreeMap::new();
    for line in lines {
        if !goes_on(line.kind) {
            step = None;
        }
        let is_part = line.kind == Kind::Part;
        if line.kind != Kind::Blank {
            owners.insert(line.id, (if is_part { None } else { part }, step));
        }
        match line.kind {
            Kind::Part => part = Some(line.id),
            Kind::Step | Kind::Note => step = Some(line.id),
            _ => {}
        }
    }
    owners
}
