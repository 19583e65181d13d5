//! Brines, pickles and preserves: how salty, how sour, how sweet, each with its caution.

use crate::check::caution::DEFERS;
use crate::figures::sums::tables::{Section, Sums};
use crate::figures::sums::topic;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show;
use crate::measure::shown::Shown;
use crate::model::cooking::has_word;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, LineAmount, Part, Recipe};
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
    line.facts().and_then(|facts| facts.contents.acid)
}

fn is_sour(line: &Ingredient) -> bool {
    line.kind == Kind::Vinegar || acid(line).is_some_and(|share| share.value() >= Number::constant(3, 100))
}

fn pickle(part: &Part, solved: &SolvedPart, all: &mut Sums) -> Result<(), Overflow> {
    let named = has_word(part.name.key.as_str(), &["pickl", "brine", "ferment", "kraut", "kimchi"]);
    let has_vinegar = part.lines.iter().any(|line| line.kind == Kind::Vinegar);
    if !named && !has_vinegar {
        return Ok(());
    }
    let [mut liquid, mut salt, mut sour] = [Mass::ZERO; 3];
    // What has no weight, and what has no known acid: a share without them would look exact and be wrong.
    let (mut unweighed, mut unknown, mut solid) = (Vec::new(), Vec::new(), Vec::new());
    for (line, amount) in part.lines.iter().zip(&solved.lines).filter(|(line, _)| line.stays_in()) {
        let runs = line.kind.is_liquid() || is_sour(line);
        let Some(mass) = amount.mass else {
            let weighs = !matches!(line.amount, LineAmount::ToTaste | LineAmount::AsNeeded);
            if runs || (line.kind == Kind::Salt && weighs) {
                unweighed.push(line.name.to_string());
            } else if weighs {
                solid.push(line.name.to_string());
            }
            continue;
        };
        if runs {
            liquid = liquid.plus(mass)?;
        }
        if line.kind == Kind::Salt {
            salt = salt.plus(mass)?;
        }
        match acid(line) {
            Some(share) => sour = sour.plus(mass.share(share)?)?,
            None if line.kind == Kind::Vinegar => unknown.push(line.name.to_string()),
            None => {}
        }
    }
    if liquid == Mass::ZERO && salt == Mass::ZERO && unweighed.is_empty() {
        return Ok(());
    }
    let mut section = Section::new(format!("Brine of {}", part.name), &topic::PRESERVES);
    // What boils away takes water and some of the acid with it, and then no liquid is left as it was poured.
    let alike = part.makes.is_some_and(|made| made.alike);
    let boils_down = !alike && solved.comes_out.total < solved.composition.total;
    if !unweighed.is_empty() {
        section.remarks.push(format!(
            "Salt and acid are not known: what {} weighs is not. Give a weight, or write into the larder what a cup of it weighs.",
            show::list(&unweighed)
        ));
    } else {
        if salt > Mass::ZERO && liquid > Mass::ZERO && !boils_down {
            share_row(&mut section, "salt in the brine", salt, liquid.plus(salt)?)?;
        }
        if salt > Mass::ZERO && solid.is_empty() && solved.stays.is_some() {
            share_row(&mut section, "salt on everything in the jar", salt, solved.comes_out.total)?;
        } else if salt > Mass::ZERO && !solid.is_empty() {
            section.remarks.push(format!(
                "Salt on everything in the jar is not known, for want of the weight of {}.",
                show::list(&solid)
            ));
        }
        if sour > Mass::ZERO && unknown.is_empty() && !boils_down {
            share_row(&mut section, "acid in the liquid", sour, liquid)?;
            section.remarks.push(
                "Acid as the larder has it, of vinegar acetic and of lemon and lime citric; what else is in the jar thins it."
                    .to_owned(),
            );
        }
        if sour > Mass::ZERO && boils_down {
            section
                .remarks
                .push("How sour it is after cooking is not known: acid boils away with the water.".to_owned());
        }
    }
    if !unknown.is_empty() {
        section.remarks.push(format!(
            "How sour {} is the larder does not know, so the acid is not known: write `acid 5 %` into its block, from the label.",
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
    let sugary = part.lines.iter().any(|line| line.kind.is_sweet());
    let named = has_word(
        part.name.key.as_str(),
        &["jam", "jelly", "preserve", "marmalade", "compote", "curd", "chutney", "relish", "filling"],
    );
    let cooked = part.steps.iter().any(crate::model::cooking::cooks);
    let (Some(whole), true) = (solved.stays, sugary && named && cooked) else { return Ok(()) };
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
    section.row(what, Shown::new(percent.decimal(1), "%"), percent, "%");
    Ok(())
}

fn warn(all: &mut Sums, name: &str, words: &str) {
    all.cautions.push(format!("{name}: {words}. {DEFERS}"));
}
