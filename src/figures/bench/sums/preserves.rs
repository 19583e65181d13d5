//! Brines, pickles and preserves: how salty, how sour, how sweet, each with its caution.

use crate::check::caution::DEFERS;
use crate::figures::bench::mixing::is_liquid;
use crate::figures::bench::tables::{Section, Sums};
use crate::figures::bench::topic;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show;
use crate::model::cooking::has_word;
use crate::model::recipe::{Ingredient, Part, Recipe, Refers};
use crate::solve::formula::{Formula, SolvedPart};

pub(super) fn sections(recipe: &Recipe, formula: &Formula, all: &mut Sums) -> Result<(), Overflow> {
    for (id, _) in formula.made(recipe) {
        let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else { continue };
        if part.lines.iter().any(|line| line.is_flour && !line.aside) {
            continue;
        }
        pickle(part, solved, all)?;
        preserve(part, solved, all)?;
    }
    Ok(())
}

/// Acid in an ingredient, where the larder knows it.
fn acid(line: &Ingredient) -> Option<Proportion> {
    line.facts().and_then(|facts| facts.acid)
}

fn is_sour(line: &Ingredient) -> bool {
    has_word(line.name.key.as_str(), &["vinegar"])
        || acid(line).is_some_and(|share| share.value() >= Number::constant(3, 100))
}

fn is_brine_salt(line: &Ingredient) -> bool {
    matches!(line.refers, Refers::Pantry(_)) && line.name.key.as_str().split(' ').any(|word| word == "salt")
}

fn pickle(part: &Part, solved: &SolvedPart, all: &mut Sums) -> Result<(), Overflow> {
    let named = has_word(part.name.key.as_str(), &["pickl", "brine", "ferment", "kraut"]);
    let has_vinegar = part.lines.iter().any(|line| has_word(line.name.key.as_str(), &["vinegar"]));
    if !named && !has_vinegar {
        return Ok(());
    }
    let [mut liquid, mut salt, mut sour] = [Mass::ZERO; 3];
    let mut unknown = Vec::new();
    for (line, amount) in part.lines.iter().zip(&solved.lines) {
        let Some(mass) = amount.mass.filter(|_| !line.aside) else { continue };
        if is_liquid(line) || is_sour(line) {
            liquid = liquid.plus(mass)?;
        }
        if is_brine_salt(line) {
            salt = salt.plus(mass)?;
        }
        match acid(line) {
            Some(share) => sour = sour.plus(mass.share(share)?)?,
            None if has_word(line.name.key.as_str(), &["vinegar"]) => unknown.push(line.name.to_string()),
            None => {}
        }
    }
    if liquid == Mass::ZERO {
        return Ok(());
    }
    let mut section = Section::new(format!("Brine of {}", part.name), &topic::PRESERVES);
    if salt > Mass::ZERO {
        share_row(&mut section, "salt in the brine", salt, liquid.plus(salt)?)?;
    }
    if let (true, Some(whole)) = (salt > Mass::ZERO, solved.goes_in) {
        share_row(&mut section, "salt on everything in the jar", salt, whole)?;
    }
    if sour > Mass::ZERO {
        share_row(&mut section, "acid in the liquid", sour, liquid)?;
        section.remarks.push(
            "Reckoned as acetic acid from what the larder says of the vinegar; the vegetables thin it.".to_owned(),
        );
    }
    if !unknown.is_empty() {
        section.remarks.push(format!(
            "How sour {} is the larder does not know: write `acid 5 %` into its block, from the label.",
            show::list(&unknown)
        ));
    }
    all.sections.push(section);
    warn(
        all,
        &part.name.to_string(),
        "a share of salt or acid is no proof of safety. Use vinegar of 5 % or more whose label says so, keep it refrigerated, and store on a shelf only what follows a tested process (finished equilibrium pH 4.6 or below, 21 CFR 114.3)",
    );
    Ok(())
}

fn preserve(part: &Part, solved: &SolvedPart, all: &mut Sums) -> Result<(), Overflow> {
    let sugary = part.lines.iter().any(|line| has_word(line.name.key.as_str(), &["sugar", "honey"]));
    let named = has_word(
        part.name.key.as_str(),
        &["jam", "jelly", "preserve", "marmalade", "compote", "curd", "chutney", "relish", "filling"],
    );
    let cooked = part.steps.iter().any(crate::model::cooking::cooks);
    let (Some(whole), true) = (solved.goes_in, sugary && named && cooked) else { return Ok(()) };
    let sugar = solved.composition.sugar;
    if sugar == Mass::ZERO {
        return Ok(());
    }
    let mut section = Section::new(format!("Sugar of {}", part.name), &topic::PRESERVES);
    share_row(&mut section, "sugar on what goes in", sugar, whole)?;
    if let Some(makes) = solved.makes.filter(|makes| *makes < whole) {
        share_row(&mut section, "sugar on what comes out", sugar, makes)?;
        section.remarks.push("What boils away is water; the sugar stays.".to_owned());
    }
    all.sections.push(section);
    warn(
        all,
        &part.name.to_string(),
        "less than about 60 % of sugar in what comes out does not keep by its sugar alone (common practice, no source). Keep it refrigerated; shelf storage needs a tested process",
    );
    Ok(())
}

fn share_row(section: &mut Section, what: &str, of: Mass, on: Mass) -> Result<(), Overflow> {
    let share = of.as_share_of(on)?;
    let percent = share.percent()?;
    section.row(what, format!("{} %", percent.decimal(1)), percent, "%");
    Ok(())
}

fn warn(all: &mut Sums, name: &str, words: &str) {
    all.cautions.push(format!("{name}: {words}. {DEFERS}"));
}
