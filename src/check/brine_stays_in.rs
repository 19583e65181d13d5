//! A brine in which meat, fish, cheese or vegetables lie and out of which they come: what `bath-stays-in` looks for beside the baths of doughs.

use super::dough::mille;
use crate::measure::quantity::Mass;
use crate::model::cooking::raw_flesh::{is_flesh, is_raw};
use crate::model::cooking::{Beginnings, bakes, beginnings, called, is_brine, loses_water, says};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part};
use crate::model::step::Step;
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::{Diagnostic, Edit, Mend};

/// Less of a liquid than this on what lies in it is a rub or a marinade that clings, in thousandths. Common practice, no source.
const LEAST: i64 = 500;

/// What of it is lost at least where a part's own loss tells that it was drained off, in thousandths.
const DRAINED: i64 = 800;

/// By these something comes to lie in a liquid, as the name of a step or in its words.
const SINKS: &Beginnings = &Beginnings::of(&[
    "brine|", "brines|", "brined|", "brining", "steep", "soak", "sink", "submerge", "immers", "cure|", "cures|",
    "curing", "salt|",
]);

/// By these it comes out again.
const COMES_OUT: &Beginnings = &Beginnings::of(&[
    "lift out",
    "lift it out",
    "lift them out",
    "take out",
    "take it out",
    "take them out",
    "remove from",
    "drain",
    "rinse",
    "pat dry",
    "fresh water",
    "discard the brine",
    "throw the brine",
    "out of the brine",
    "from the brine",
    "wipe dry",
    "hang",
]);

/// By these the liquid goes into the pot with what lay in it, or is kept for it.
const GOES_ON: &Beginnings = &Beginnings::of(&[
    "reduce",
    "keep the brine",
    "keep its",
    "pour the brine over",
    "cover with the brine",
    "back into the brine",
    "back into its brine",
    "in its brine",
    "in their brine",
    "reserve",
    "deglaze",
    "strain the brine",
    "boil the brine",
    "jar",
    "bottle",
]);

/// The liquid of a brine that is counted as eaten, with what is dissolved in it.
pub(super) fn problem(part: &Part, solved: &SolvedPart, check: &'static str) -> Option<Diagnostic> {
    let is_liquid = |line: &Ingredient| line.stays_in() && (line.kind == Kind::Water || is_brine(line));
    let lies_in = |line: &Ingredient| {
        line.stays_in() && (is_flesh(line) || matches!(line.kind, Kind::Vegetable | Kind::Fruit) || is_cheese(line))
    };
    let all = || part.lines.iter().zip(&solved.lines);
    let mass = |is: &dyn Fn(&Ingredient) -> bool| {
        Mass::sum(all().filter(|(line, _)| is(line)).filter_map(|(_, amount)| amount.mass)).ok()
    };
    let (liquid, food) = (mass(&is_liquid)?, mass(&lies_in)?);
    if food <= Mass::ZERO
        || liquid.as_share_of(food).ok()? < mille(LEAST)
        || part.lines.iter().any(|line| line.is_flour)
    {
        return None;
    }
    let sunk = part.steps.iter().position(|step| called(step, SINKS) || says(step, SINKS))?;
    let after = || part.steps.iter().skip(sunk + 1);
    let has_raw = part.lines.iter().any(|line| is_raw(line) && line.stays_in());
    let browns = |step: &Step| {
        bakes(step) || called(step, beginnings!["roast", "fry", "sear", "grill", "smoke", "dry|", "hang", "barbecue"])
    };
    let comes_out = after().any(|step| says(step, COMES_OUT)) || has_raw && after().any(browns);
    if !comes_out || part.steps.iter().any(|step| says(step, GOES_ON)) {
        return None;
    }
    // Where the part says that as much water is lost, it is drained off already.
    let is_lost = || {
        let lost = solved.stays?.minus(solved.makes?).ok()?;
        lost.as_share_of(liquid).ok().filter(|share| *share >= mille(DRAINED))
    };
    if loses_water(part) && is_lost().is_some() {
        return None;
    }
    // What is dissolved goes out with it: what the steps up to there take and that is no food by itself.
    let taken = |number: usize| part.steps.iter().take(sunk + 1).any(|step| step.lines_taken().any(|at| at == number));
    let is_dissolved = |line: &Ingredient| {
        line.stays_in()
            && line.part().is_none()
            && (matches!(line.kind, Kind::Salt | Kind::Sugar | Kind::Syrup) || super::curing::is_curing_salt(line))
    };
    let goes_out: Vec<&Ingredient> = part
        .lines
        .iter()
        .enumerate()
        .filter(|(number, line)| is_liquid(line) || is_dissolved(line) && taken(*number))
        .map(|(_, line)| line)
        .collect();
    let first = goes_out.iter().find(|line| is_liquid(line))?;
    let names: Vec<String> = goes_out.iter().map(|line| format!("`{}`", line.name)).collect();
    let message = format!(
        "`{}` counts as eaten, and what lay in it comes out again: all of it stands in the weight, the figures and the list of ingredients",
        first.name
    );
    let edits = goes_out
        .iter()
        .map(|line| Edit { span: line.amount_span.after(), text: ", strained out".to_owned() })
        .collect();
    let mend = Mend { title: format!("write `, strained out` behind {}", names.join(", ")), edits, certain: false };
    let help = format!(
        "write `, strained out` behind {}; what of the salt stays in is a line of its own, by weight before and after",
        names.join(", ")
    );
    let problem = Diagnostic::warning(check, first.name.span, message).help(help);
    Some(Diagnostic { mend: Some(mend), ..problem })
}

fn is_cheese(line: &Ingredient) -> bool {
    line.kind == Kind::Dairy && line.name.has_word_beginning(beginnings!["cheese", "curd", "feta", "halloumi"])
}
