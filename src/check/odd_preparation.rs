//! `odd-preparation`: something is done to an ingredient that cannot be done to it.

use super::{Check, Family, Run, Subject, tell};
use crate::measure::number::Number;
use crate::measure::show;
use crate::measure::temperature::Temperature;
use crate::model::cooking::has_word_beginning;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Refers};
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "odd-preparation",
    severity: Severity::Advice,
    family: Family::Formula,
    looks_for: "a preparation, a yield or a temperature on the line of something of which nobody has it: beaten flour, stoned juice, oil \
                with a yield of 90 %, salt at 24 °C, flour at 80 °C; and `flour` where `counts as flour` was meant",
    why: "What stands behind an amount belongs to the thing. Where two names were swapped, or a line was put for another, it stays \
          behind and tells. Looked at are flours, starches, sugars, salt, leavens, liquids, oils and spices, and of eggs whether they are \
          melted or sifted. It is advice: if it is meant so, `# allow odd-preparation: reason` above the line keeps it quiet.",
    bad: "recipe Tart\nicing sugar .... 200 g, cold\nbutter .... 90 g\nflour .... 350 g\nrub: hands 10 min\n    Rub {butter} into {flour} and \
          {icing sugar}.\n",
    good: "recipe Tart\nbutter .... 200 g, cold\nicing sugar .... 90 g\nflour .... 350 g\nrub: hands 10 min\n    Rub {butter} into {flour} and \
           {icing sugar}.\n",
    sources: &["common practice, no source"],
    run: Run::Parts(run),
};

const CUT: &[&str] = &[
    "diced",
    "sliced",
    "stoned",
    "pitted",
    "cored",
    "trimmed",
    "shredded",
    "julienned",
    "quartered",
    "halved",
    "peeled",
    "deseeded",
    "shelled",
];

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (_, part, _) in subject.own_parts() {
        for line in part.lines.iter().filter(|line| matches!(line.refers, Refers::Pantry(_))) {
            tell(diagnostics, odd(line));
        }
    }
}

/// `tapioca starch .... 20 %, flour` is no way to prepare it.
fn meant_as_flour(line: &Ingredient) -> Option<Diagnostic> {
    let said = line.preparation.as_deref()?.trim();
    let clause = match said.to_lowercase().as_str() {
        "flour" | "is flour" | "as flour" | "counts flour" => "counts as flour",
        "no flour" | "not a flour" | "non-flour" => "not flour",
        _ => return None,
    };
    Some(
        Diagnostic::warning(CHECK.name, line.span, format!("`{said}` is read as how {} is prepared", line.name))
            .help(format!("where it is to count in the percentages or not, write `{clause}`")),
    )
}

fn odd(line: &Ingredient) -> Option<Diagnostic> {
    if let Some(problem) = meant_as_flour(line) {
        return Some(problem);
    }
    let what = if let Some(word) = line.preparation.as_deref().and_then(|text| impossible(line, text)) {
        format!("`{word}`")
    } else if let Some(edible) = line.edible.filter(|_| is_whole(line)) {
        format!("a yield of {}", show::percent(edible))
    } else if let Some(at) =
        line.temperature.filter(|at| has_no_warmth(line.kind) || (line.kind == Kind::Flour && *at > HOT_FLOUR))
    {
        show::temperature(at, show::Units::Metric).to_string()
    } else {
        return None;
    };
    Some(
        Diagnostic::advice(CHECK.name, line.span, format!("{what} is unusual for {}", line.name))
            .help("look whether two names are swapped, or it belongs to another line"),
    )
}

/// Weighed out of a sack and used as it is.
fn is_powder(kind: Kind) -> bool {
    matches!(kind, Kind::Flour | Kind::Starch | Kind::Salt | Kind::BakingPowder | Kind::Soda | Kind::RaisingAgent)
}

/// Poured out of a bottle and used as it is.
fn is_poured(line: &Ingredient) -> bool {
    line.kind.is_liquid() || line.is_oil()
}

/// Nothing of it is thrown away. Of a juice the fruit may be meant.
fn is_whole(line: &Ingredient) -> bool {
    is_powder(line.kind)
        || line.kind.is_yeast()
        || matches!(line.kind, Kind::Sugar | Kind::Syrup | Kind::Chocolate | Kind::Fat)
        || (is_poured(line) && line.kind != Kind::Juice)
}

/// Flour goes in cold from the store or a little warmed; what is scalded is scalded by the water.
const HOT_FLOUR: Temperature = Temperature::from_celsius(Number::constant(60, 1));

/// Nobody measures how warm it goes in.
fn has_no_warmth(kind: Kind) -> bool {
    matches!(kind, Kind::Salt | Kind::BakingPowder | Kind::Soda | Kind::RaisingAgent | Kind::Spice | Kind::Seed)
}

/// The word of a preparation that cannot be done to it.
fn impossible(line: &Ingredient, text: &str) -> Option<&'static str> {
    let text = text.to_lowercase();
    let kind = line.kind;
    let not_for: [(&[&str], bool); 6] = [
        (
            &["beaten", "separated"],
            is_powder(kind)
                || is_poured(line)
                || matches!(kind, Kind::Sugar | Kind::Yeast(_) | Kind::Seed | Kind::Spice),
        ),
        (
            &["softened", "soft", "melted"],
            is_powder(kind)
                || kind.is_liquid()
                || matches!(kind, Kind::Yeast(_) | Kind::Egg | Kind::Spice | Kind::Seed),
        ),
        // Butter is beaten soft, and flat; only egg is beaten and no more is said.
        (&["beaten"], kind == Kind::Fat && text.trim() == "beaten"),
        (&["sifted"], is_poured(line) || matches!(kind, Kind::Egg | Kind::Fat)),
        (CUT, is_powder(kind) || is_poured(line) || matches!(kind, Kind::Sugar | Kind::Syrup | Kind::Yeast(_))),
        (
            &["cold", "chilled"],
            matches!(kind, Kind::Sugar | Kind::Salt | Kind::BakingPowder | Kind::Soda | Kind::Spice | Kind::Seed),
        ),
    ];
    let mut odd = not_for.iter().filter(|(_, odd)| *odd).flat_map(|(words, _)| words.iter());
    odd.find(|word| has_word_beginning(&text, [**word])).copied()
}
