//! Brines, pickles and preserves: how salty, how sour, how sweet, each with its caution.

use crate::check::caution::DEFERS;
use crate::figures::sums::tables::{Section, Sums};
use crate::figures::sums::topic;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show;
use crate::measure::shown::Shown;
use crate::model::cooking::{has_word_beginning, is_brine, loses_water};
use crate::model::counted::is_a_few_leaves;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, LineAmount, Part, PartId, Recipe};
use crate::solve::formula::leaves::{Counted, leaves};
use crate::solve::formula::{Formula, SolvedPart};

pub(super) fn sections(recipe: &Recipe, formula: &Formula, all: &mut Sums) -> Result<(), Overflow> {
    for (id, _) in formula.made(recipe) {
        let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else { continue };
        if part.lines.iter().any(|line| line.is_flour && !line.aside) {
            continue;
        }
        pickle(recipe, formula, id, all)?;
        preserve(part, solved, all)?;
    }
    Ok(())
}

/// Acid in an ingredient, where the larder knows it.
fn acid(line: &Ingredient) -> Option<Proportion> {
    line.facts().and_then(|facts| facts.contents.acid)
}

/// What holds less salt was not salted: cabbage has 0.05 %. Common practice, no source.
const SALTED: Proportion = Proportion::new(Number::constant(1, 100));

/// Salt in an ingredient: salt is all of it, and of soy sauce, miso and the like the larder's share.
fn salt(line: &Ingredient) -> Proportion {
    if line.kind == Kind::Salt {
        return Proportion::WHOLE;
    }
    line.facts().and_then(|facts| facts.contents.salt).filter(|share| *share >= SALTED).unwrap_or(Proportion::ZERO)
}

fn is_sour(line: &Ingredient) -> bool {
    line.kind == Kind::Vinegar || acid(line).is_some_and(|share| share.value() >= Number::constant(3, 100))
}

/// The lines of a jar; for a brine that is a part of its own, what that is made of, and whether it boils down.
struct Jar<'r> {
    lines: Vec<(&'r Ingredient, Option<Mass>)>,
    boils_down: bool,
}

/// What boils away takes water and some of the acid with it, and then no liquid is left as it was poured.
fn boils_down(part: &Part, solved: &SolvedPart) -> bool {
    loses_water(part) && solved.comes_out.total < solved.composition.total
}

fn jar<'r>(recipe: &'r Recipe, formula: &Formula, part: &'r Part, solved: &SolvedPart) -> Result<Jar<'r>, Overflow> {
    let mut jar = Jar { lines: Vec::new(), boils_down: boils_down(part, solved) };
    for (line, amount) in part.lines.iter().zip(&solved.lines).filter(|(line, _)| line.stays_in()) {
        let brine = line.part().filter(|_| is_brine(line));
        let weighed = brine.and_then(|id| Some((id, recipe.part(id)?, formula.part(id)?, amount.mass?)));
        match weighed.filter(|(_, _, inner, _)| inner.stays.is_some() && inner.comes_out.total > Mass::ZERO) {
            Some((id, inner, solved, mass)) => {
                let taken = mass.ratio(solved.comes_out.total)?;
                for leaf in leaves(recipe, formula, id, Counted::ComesOut)? {
                    jar.lines.push((leaf.line, Some(leaf.mass.times(taken)?)));
                }
                jar.boils_down |= boils_down(inner, solved);
            }
            None => jar.lines.push((line, amount.mass.filter(|_| brine.is_none()))),
        }
    }
    Ok(jar)
}

/// What is brine and nothing else, for other parts to be laid in.
fn is_only_brine(recipe: &Recipe, id: PartId, part: &Part) -> bool {
    let dissolves = |line: &Ingredient| {
        line.kind.is_liquid() || is_sour(line) || line.kind.is_sweet() || matches!(line.kind, Kind::Salt | Kind::Spice)
    };
    recipe.users(id).next().is_some() && part.lines.iter().all(dissolves)
}

fn pickle(recipe: &Recipe, formula: &Formula, id: PartId, all: &mut Sums) -> Result<(), Overflow> {
    let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else { return Ok(()) };
    let named = has_word_beginning(part.name.key.as_str(), ["pickl", "brine", "ferment", "kraut", "kimchi"]);
    let has_vinegar = part.lines.iter().any(|line| line.kind == Kind::Vinegar);
    let in_brine = part.lines.iter().any(|line| line.part().is_some() && is_brine(line));
    // Cabbage in its own salt ferments by any name.
    let salted = ferments(part) && part.lines.iter().any(|line| line.kind == Kind::Salt);
    if !named && !has_vinegar && !in_brine && !salted {
        return Ok(());
    }
    let jar = jar(recipe, formula, part, solved)?;
    let brine = Brine::in_jar(&jar)?;
    if brine.is_none() {
        return Ok(());
    }
    let mut section = Section::new(format!("Brine of {}", part.name), &topic::PRESERVES);
    if !brine.unweighed.is_empty() {
        section.remarks.push(format!(
            "Salt and acid are not known: what {} weighs is not. Give a weight, or write into the larder what a cup of it weighs.",
            show::list(&brine.unweighed)
        ));
    } else {
        // While it ferments there is in it what went in, whatever drips and dries off later; what is boiled down is salted by what is left.
        let went_in = Mass::sum(jar.lines.iter().filter_map(|(_, mass)| *mass))?;
        let on_what = if ferments(part) { went_in } else { solved.comes_out.total };
        brine.tell_salt(&mut section, jar.boils_down, (!is_only_brine(recipe, id, part)).then_some(on_what))?;
        brine.tell_acid(&mut section, jar.boils_down)?;
    }
    if !brine.unknown.is_empty() {
        section.remarks.push(format!(
            "How sour {} is the larder does not know, so the acid is not known: write `acid 5 %` into its block, from the label.",
            show::list(&brine.unknown)
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

fn ferments(part: &Part) -> bool {
    has_word_beginning(part.name.key.as_str(), ["ferment", "kraut", "kimchi"])
        || part.steps.iter().any(|step| has_word_beginning(step.name.key.as_str(), ["ferment"]))
}

/// The salt and the acid of a jar. What has no weight, and what has no known acid, is named: a share without it would look exact and be wrong.
struct Brine {
    liquid: Mass,
    /// The salt of the liquid: what was put in, and what soy sauce brings.
    salt: Mass,
    /// What of it is salt by itself, and none of the liquid.
    dry_salt: Mass,
    /// All salt in the jar, that of fish sauce and miso among it.
    all_salt: Mass,
    sour: Mass,
    /// What runs, or is salt, and has no weight.
    unweighed: Vec<String>,
    /// Vinegar of which nobody knows how sour it is.
    unknown: Vec<String>,
    /// What else has no weight.
    solid: Vec<String>,
    /// Whether something goes in by taste or as it is needed.
    to_taste: bool,
}

impl Brine {
    fn in_jar(jar: &Jar<'_>) -> Result<Brine, Overflow> {
        let mut brine = Brine {
            liquid: Mass::ZERO,
            salt: Mass::ZERO,
            dry_salt: Mass::ZERO,
            all_salt: Mass::ZERO,
            sour: Mass::ZERO,
            unweighed: Vec::new(),
            unknown: Vec::new(),
            solid: Vec::new(),
            to_taste: false,
        };
        for (line, mass) in &jar.lines {
            let runs = line.kind.is_liquid() || is_sour(line) || (line.part().is_some() && is_brine(line));
            let Some(mass) = *mass else {
                brine.take_unweighed(line, runs);
                continue;
            };
            if runs {
                brine.liquid = brine.liquid.plus(mass)?;
            }
            let its_salt = mass.share(salt(line))?;
            brine.all_salt = brine.all_salt.plus(its_salt)?;
            if line.kind == Kind::Salt || runs {
                brine.salt = brine.salt.plus(its_salt)?;
            }
            if line.kind == Kind::Salt {
                brine.dry_salt = brine.dry_salt.plus(mass)?;
            }
            match acid(line) {
                Some(share) => brine.sour = brine.sour.plus(mass.share(share)?)?,
                None if line.kind == Kind::Vinegar => brine.unknown.push(line.name.to_string()),
                None => {}
            }
        }
        Ok(brine)
    }

    fn take_unweighed(&mut self, line: &Ingredient, runs: bool) {
        let weighs = !matches!(line.amount, LineAmount::ToTaste | LineAmount::AsNeeded);
        if runs || (line.kind == Kind::Salt && weighs) {
            self.unweighed.push(line.name.to_string());
        } else if weighs && !is_a_few_leaves(line) {
            self.solid.push(line.name.to_string());
        }
        self.to_taste |= !weighs;
    }

    /// Whether there is neither a liquid nor salt in the jar.
    fn is_none(&self) -> bool {
        self.liquid == Mass::ZERO && self.salt == Mass::ZERO && self.unweighed.is_empty()
    }

    /// Salt in the liquid and on everything, which is `None` for a brine by itself.
    fn tell_salt(&self, section: &mut Section, boils_down: bool, everything: Option<Mass>) -> Result<(), Overflow> {
        if self.salt > Mass::ZERO && self.liquid > Mass::ZERO && !boils_down {
            share_row(section, "salt in the brine", self.salt, self.liquid.plus(self.dry_salt)?)?;
        }
        let Some(everything) = everything else {
            let told = "How salty it is on everything in the jar stands with the part that is laid in it.";
            section.remarks.push(told.to_owned());
            return Ok(());
        };
        if self.all_salt > Mass::ZERO && self.solid.is_empty() && !self.to_taste {
            share_row(section, "salt on everything in the jar", self.all_salt, everything)?;
        } else if self.all_salt > Mass::ZERO && !self.solid.is_empty() {
            section.remarks.push(format!(
                "Salt on everything in the jar is not known, for want of the weight of {}.",
                show::list(&self.solid)
            ));
        }
        Ok(())
    }

    fn tell_acid(&self, section: &mut Section, boils_down: bool) -> Result<(), Overflow> {
        if self.sour == Mass::ZERO {
            return Ok(());
        }
        if boils_down {
            section
                .remarks
                .push("How sour it is after cooking is not known: acid boils away with the water.".to_owned());
        } else if self.unknown.is_empty() {
            share_row(section, "acid in the liquid", self.sour, self.liquid)?;
            section.remarks.push(
                "Acid as the larder has it, of vinegar acetic and of lemon and lime citric; what else is in the jar thins it."
                    .to_owned(),
            );
        }
        Ok(())
    }
}

/// From this share of sugar on nothing that spoils food grows in it.
const KEEPS: Proportion = Proportion::new(Number::constant(3, 5));

fn preserve(part: &Part, solved: &SolvedPart, all: &mut Sums) -> Result<(), Overflow> {
    let sugary = part.lines.iter().any(|line| line.kind.is_sweet());
    let named = has_word_beginning(
        part.name.key.as_str(),
        ["jam", "jelly", "preserve", "marmalade", "compote", "curd", "chutney", "relish", "filling"],
    );
    let cooked = part.steps.iter().any(crate::model::cooking::cooks);
    let (Some(whole), true) = (solved.stays, sugary && named && cooked) else { return Ok(()) };
    let sugar = solved.composition.sugar;
    if sugar == Mass::ZERO {
        return Ok(());
    }
    let mut section = Section::new(format!("Sugar of {}", part.name), &topic::PRESERVES);
    // Fruit of which the larder does not know the sugar has some.
    let open = solved.composition.unknown.sugar;
    let bound = if solved.composition.is_much(open) { "at least" } else { "" };
    bounded_row(&mut section, "sugar on what goes in", (sugar, bound), whole)?;
    if let Some(makes) = solved.makes.filter(|makes| *makes < whole) {
        bounded_row(&mut section, "sugar on what comes out", (sugar, bound), makes)?;
        section.remarks.push("What boils away is water; the sugar stays.".to_owned());
    }
    all.sections.push(section);
    let comes_out = solved.makes.filter(|makes| *makes < whole).unwrap_or(whole);
    let out = sugar.as_share_of(comes_out)?;
    let may_keep = !bound.is_empty() && sugar.plus(open)?.as_share_of(comes_out)? >= KEEPS;
    let words = if out < KEEPS && may_keep {
        "how much sugar is in what comes out is not known, and below about 60 % none keeps by its sugar alone (common practice, no source). Keep it refrigerated; shelf storage needs a tested process"
    } else if out >= KEEPS {
        "a share of sugar is no proof that it keeps, though below about 60 % none keeps by its sugar alone (common practice, no source). Shelf storage needs a tested process"
    } else {
        "less than about 60 % of sugar in what comes out does not keep by its sugar alone (common practice, no source). Keep it refrigerated; shelf storage needs a tested process"
    };
    warn(all, &part.name.to_string(), words);
    Ok(())
}

fn share_row(section: &mut Section, what: &str, of: Mass, on: Mass) -> Result<(), Overflow> {
    bounded_row(section, what, (of, ""), on)
}

fn bounded_row(section: &mut Section, what: &str, (of, bound): (Mass, &'static str), on: Mass) -> Result<(), Overflow> {
    let share = of.as_share_of(on)?;
    let percent = share.percent()?;
    section.row(what, Shown::new(percent.decimal(1), "%").bound(bound), percent, "%");
    Ok(())
}

fn warn(all: &mut Sums, name: &str, words: &str) {
    all.cautions.push(format!("{name}: {words}. {DEFERS}"));
}
