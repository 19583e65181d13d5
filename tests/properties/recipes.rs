//! Recipes made up by chance, as a baker could have written them: flours by weight, in percent or both; lines in percent,
//! grams, ounces, pieces and millilitres; a preferment; a filling; pieces put together; steps that share the lines out.

use miche::check::work_out;
use miche::edge::loader::Loader;
use miche::model::recipe::{Recipe, Selection};
use miche::solve::formula::Formula;
use miche::text::diagnostic::{Diagnostic, Severity};
use proptest::prelude::*;
use std::path::Path;

/// What the dough's size comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Size {
    /// The flours are given by weight.
    Weights,
    /// The first flour is given by weight, the others in percent.
    Mixed,
    /// The flours are given in percent; the pieces fix the size.
    Pieces,
}

/// How an amount is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Written {
    /// Hundredths of a percent of the base.
    Percent(u32),
    /// Tenths of a gram.
    Grams(u32),
    /// Quarters of an ounce.
    Ounces(u32),
    /// Millilitres, of something whose density is known.
    Millilitres(u32),
    /// Pieces, of something whose piece weight is known.
    Count(u32),
    /// No figure.
    ToTaste,
}

/// How the steps take a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Taken {
    /// All at once.
    All,
    /// So many percent, then the rest.
    ThenRest(u32),
    /// Three shares that add up.
    Thirds,
}

/// A line besides the flours.
#[derive(Debug, Clone)]
pub struct Line {
    pub name: &'static str,
    pub amount: Written,
    pub taken: Taken,
    pub aside: bool,
}

/// A recipe made up by chance.
#[derive(Debug, Clone)]
pub struct MadeUp {
    pub size: Size,
    /// Grams of each flour, or its weight in the percentages.
    pub flours: Vec<u32>,
    pub lines: Vec<Line>,
    /// Percent of all flour, and of all water, that the preferment takes of what there is.
    pub preferment: Option<(u32, u32)>,
    pub pieces: u32,
    /// Tenths of a gram.
    pub piece: u32,
    /// Tenths of a percent.
    pub loss: u32,
    /// Grams of filling for each piece.
    pub filling: Option<u32>,
}

const FLOURS: [&str; 3] = ["strong white flour", "rye flour", "oat flour"];

fn written(percent_only: bool) -> BoxedStrategy<Written> {
    let percent = (1_u32..9000).prop_map(Written::Percent);
    if percent_only {
        return percent.boxed();
    }
    prop_oneof![
        3 => percent,
        2 => (1_u32..20_000).prop_map(Written::Grams),
        1 => (1_u32..60).prop_map(Written::Ounces),
        1 => Just(Written::ToTaste),
    ]
    .boxed()
}

fn taken() -> impl Strategy<Value = Taken> {
    prop_oneof![3 => Just(Taken::All), 2 => (1_u32..99).prop_map(Taken::ThenRest), 1 => Just(Taken::Thirds)]
}

fn line(name: &'static str, amount: BoxedStrategy<Written>) -> impl Strategy<Value = Line> {
    (amount, taken(), prop::bool::weighted(0.1)).prop_map(move |(amount, taken, aside)| Line {
        name,
        amount,
        taken,
        aside,
    })
}

/// Any recipe of this kind.
pub fn made_up() -> impl Strategy<Value = MadeUp> {
    let size = prop_oneof![Just(Size::Weights), Just(Size::Mixed), Just(Size::Pieces)];
    size.prop_flat_map(|size| {
        // Where the pieces fix the size, lines by weight could need more than there is.
        let only = size == Size::Pieces;
        let measured = |other: BoxedStrategy<Written>| if only { written(true) } else { other };
        let lines = (
            line("water", (5000_u32..9000).prop_map(Written::Percent).boxed()),
            line("salt", written(only)),
            line("instant yeast", written(only)),
            line("whole milk", measured((1_u32..900).prop_map(Written::Millilitres).boxed())),
            line("egg", measured((1_u32..12).prop_map(Written::Count).boxed())),
            line("caster sugar", written(only)),
        );
        let lines = (lines, prop::collection::vec(prop::bool::weighted(0.6), 5)).prop_map(|(all, kept)| {
            let (mut water, salt, yeast, milk, egg, sugar) = all;
            water.aside = false;
            let others = [salt, yeast, milk, egg, sugar].into_iter().zip(kept);
            let mut lines = vec![water];
            lines.extend(others.filter(|(_, kept)| *kept).map(|(line, _)| line));
            lines
        });
        (
            Just(size),
            prop::collection::vec(100_u32..5000, 1..=3),
            lines,
            prop::option::of((1_u32..=97, 1_u32..=100)),
            1_u32..200,
            1_u32..20_000,
            0_u32..200,
            prop::option::of(1_u32..90),
        )
            .prop_map(|(size, flours, lines, preferment, pieces, piece, loss, filling)| MadeUp {
                size,
                flours,
                lines,
                preferment,
                pieces,
                piece,
                loss,
                filling,
            })
    })
}

/// A number of hundredths as a decimal.
fn hundredths(value: u64) -> String {
    format!("{}.{:02}", value / 100, value % 100)
}

fn tenths(value: u64) -> String {
    format!("{}.{}", value / 10, value % 10)
}

impl MadeUp {
    /// The shares of the flours in hundredths of a percent; they add up to 100 %.
    fn shares(&self) -> Vec<u64> {
        let total: u64 = self.flours.iter().map(|grams| u64::from(*grams)).sum();
        let mut shares: Vec<u64> = self.flours.iter().map(|grams| u64::from(*grams) * 10_000 / total).collect();
        let rest = 10_000 - shares.iter().sum::<u64>();
        shares[0] += rest;
        shares
    }

    /// The recipe's text, every weight, volume and count in it so many times as large.
    pub fn text(&self, times: u64) -> String {
        let pieces = u64::from(self.pieces) * times;
        let mut text = format!("recipe Made up\nmakes {pieces} pieces of it\n");
        if self.preferment.is_some() {
            text.push_str(&self.preferment_text());
        }
        text.push_str("\npart dough\n");
        let shares = self.shares();
        let mut braces = String::new();
        for ((name, grams), share) in FLOURS.iter().zip(&self.flours).zip(&shares) {
            let by_weight = match self.size {
                Size::Weights => true,
                Size::Mixed => *name == FLOURS[0],
                Size::Pieces => false,
            };
            let amount = if by_weight {
                format!("{} g", u64::from(*grams) * times)
            } else {
                format!("{} %", hundredths(*share))
            };
            text.push_str(&format!("{name} .... {amount}\n"));
            braces.push_str(&format!("    Put in {{{name}}}.\n"));
        }
        for line in &self.lines {
            let amount = match line.amount {
                Written::Percent(value) => format!("{} %", hundredths(u64::from(value))),
                Written::Grams(value) => format!("{} g", tenths(u64::from(value) * times)),
                Written::Ounces(value) => {
                    format!("{} {}/4 oz", u64::from(value) * times / 4, u64::from(value) * times % 4)
                }
                Written::Millilitres(value) => format!("{} ml", u64::from(value) * times),
                Written::Count(value) => format!("{}", u64::from(value) * times),
                Written::ToTaste => "to taste".to_owned(),
            };
            let aside = if line.aside { ", aside" } else { "" };
            text.push_str(&format!("{} .... {amount}{aside}\n", line.name));
            let name = line.name;
            braces.push_str(&match line.taken {
                Taken::All => format!("    Add {{{name}}}.\n"),
                Taken::ThenRest(share) => format!("    Add {{{share} % of {name}}}, then {{rest of {name}}}.\n"),
                Taken::Thirds => {
                    format!("    Add {{1/3 of {name}}}, {{rest of {name}}} and {{half of {name}}}.\n")
                }
            });
        }
        if self.preferment.is_some() {
            braces.push_str("    Add {sponge}.\n");
        }
        if self.size == Size::Pieces || self.filling.is_some() {
            let loss = tenths(u64::from(self.loss));
            text.push_str(&format!("divide {pieces} x {} g, loss {loss} %\n", tenths(u64::from(self.piece))));
        }
        text.push_str(&format!("mix: hands 10 min\n{braces}    until smooth\n"));
        if let Some(grams) = self.filling {
            text.push_str(&format!(
                "\npart filling\npercent of rhubarb\nrhubarb .... {} g\ncaster sugar .... 40 %\ncook: tend 20 min\n    Simmer \
                 {{rhubarb}} and {{caster sugar}}.\n    until thick\n\npart filled\nper piece\ndough .... 1 piece\nfilling .... \
                 {grams} g\nfill: hands 10 s, each\n    Fill {{dough}} with {{filling}}.\n",
                u64::from(grams) * pieces
            ));
        }
        text
    }

    /// A preferment of a share of every flour and of the water.
    fn preferment_text(&self) -> String {
        let (flour, water) = self.preferment.unwrap_or((1, 1));
        let mut text = String::from("\npart sponge, from dough\n");
        for (name, share) in FLOURS.iter().zip(self.shares()) {
            // Down to thousandths, so that it never takes more than there is where the flours are percentages.
            let taken = share * u64::from(flour);
            text.push_str(&format!("{name} .... {}.{:04} %\n", taken / 10_000, taken % 10_000));
        }
        let in_dough = self.lines.iter().find(|line| line.name == "water").map(|line| line.amount);
        if let Some(Written::Percent(percent)) = in_dough {
            let taken = u64::from(percent) * u64::from(water);
            text.push_str(&format!("water .... {}.{:04} %\n", taken / 10_000, taken % 10_000));
        }
        text.push_str("stir: hands 5 min\n");
        for name in FLOURS.iter().take(self.flours.len()).chain(&["water"]) {
            text.push_str(&format!("    Stir in {{{name}}}.\n"));
        }
        text.push_str("    until smooth\n");
        text
    }
}

/// Reads, resolves and solves a text as it stands.
pub fn solved(text: &str) -> (Recipe, Formula, Vec<Diagnostic>) {
    let mut loader = Loader::new();
    let place = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/made up.miche");
    let source = loader.take_text("made up", text.to_owned(), &place);
    let project = loader.into_project();
    let mut problems = project.file(source).expect("it was taken in").diagnostics.clone();
    let worked = work_out(&project, source, &Selection::new(), &mut problems);
    let (recipe, formula) = worked.unwrap_or_else(|| panic!("no recipe:\n{text}"));
    let broken: Vec<&Diagnostic> = problems.iter().filter(|problem| problem.severity == Severity::Error).collect();
    assert!(broken.is_empty(), "{broken:#?}\n{text}");
    (recipe, formula, problems)
}
