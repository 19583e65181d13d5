//! `odd-percent`: salt, yeast, water or sugar far outside what such doughs hold.

use super::dough::{all_flour, has_flour, is_batter, mass_of, massed, mille, pours_unweighed};
use super::extreme_percent::most;
use super::{Check, Family, Run, Subject, strong_spice, tell};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show;
use crate::model::cooking::rests::RISES;
use crate::model::cooking::{Beginnings, bakes, beginnings, called, cooks, cooks_by_head};
use crate::model::kind::{Kind, YeastForm};
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};
use crate::model::step::Step;
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::{Diagnostic, Severity};
use std::cell::LazyCell;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "odd-percent",
    severity: Severity::Advice,
    family: Family::Formula,
    looks_for: "salt, yeast, hydration, sugar or baking powder far outside common practice for the kind of dough, acid in pickles, and nitrite on meat",
    why: "A slipped point makes 17 % yeast of 1.7 %, and a finger on the wrong key 4 % salt of 1 %. In doughs raised with yeast or leaven: salt from 0.8 to 3 % of the flour, \
          dried yeast up to 2.7 %, in a lean dough that has an hour and a quarter up to 2.2 %, fresh yeast up to 8 %, at least 0.25 % and 0.67 % in a dough that is baked two hours later (and later, where instant yeast in percent times the hours at 25 °C is less than 0.3), hydration from 40 to 110 % (of half rye and more from 55, what is poured as a batter to 250 %), sugar up to 40 %, oil up to 30 %, fat up to 85 %, egg up \
          to 120 %, spices up to 6 %. In other doughs: salt up to 4 %, fat up to 200 %, spices up to 15 %; nutmeg, mace and cloves up to 2 %, of which little more is poison; psyllium from 1 to 13 %, xanthan and guar gum from 0.1 to 4 %. In any dough: baking \
          powder from 0.2 to 10 %, soda from 0.1 to 3 % (beside yeast 1.5 %). In a lean dough dried yeast weighs no more than one and a quarter times the salt, and fresh \
          yeast that would be usual salt, beside salt that is little, stands in its place; a preferment has flour and from 35 to 250 % water on it, a poolish from 75 to 130 and a biga from 38 to 80; a dough of yeast without gluten has from 65 to 170 % water on its flour and starch, and husk, gum or egg that hold it together. What no dough can hold is `extreme-percent`. It is advice: if the dough is meant so, `# allow odd-percent: reason` above the \
          line keeps it quiet.",
    bad: "recipe Loaf\nflour .... 1 kg\nwater .... 65 %\nsalt .... 4 %\ninstant yeast .... 1 %\nmix: hands 10 min\n    \
          Mix {flour}, {water}, {salt} and {instant yeast}.\n    until smooth\n",
    good: "recipe Loaf\nflour .... 1 kg\nwater .... 65 %\nsalt .... 1.8 %\ninstant yeast .... 1 %\nmix: hands 10 min\n    \
           Mix {flour}, {water}, {salt} and {instant yeast}.\n    until smooth\n",
    sources: &[
        "common practice, no source; the published formulas C1 to C14 of our own checks lie well inside (salt 1.5 to 2.5 %, \
         fresh yeast 1.5 to 5 %, hydration 53 to 78 %)",
    ],
    run: Run::Parts(run),
};

mod by_name;
mod drawn_in;
mod unit_slip;
mod without_gluten;
mod yeast;

use yeast::{more_yeast_than_salt, much_for_lean, too_little_yeast};

/// What is usual of an ingredient, from and to, in per mille of the flour, and what it is called.
struct Usual {
    noun: &'static str,
    from: i64,
    to: i64,
}

/// What is usual in a dough raised with yeast or leaven, and in one that is not.
fn usual(kind: Kind, raised: bool) -> Option<Usual> {
    let usual = |noun, from, to| Some(Usual { noun, from, to });
    match kind {
        Kind::Salt if raised => usual("salt", 8, 30),
        Kind::Salt => usual("salt", 0, 40),
        Kind::Yeast(Some(YeastForm::ActiveDry | YeastForm::InstantDry)) => usual("dried yeast", 0, 27),
        // Where the form is not said it may be fresh.
        Kind::Yeast(Some(YeastForm::Fresh) | None) => usual("fresh yeast", 0, 80),
        Kind::Sugar if raised => usual("sugar", 0, 400),
        Kind::Fat => usual("fat", 0, if raised { 850 } else { 2000 }),
        Kind::Egg if raised => usual("egg", 0, 1200),
        Kind::Spice => usual("spices and herbs", 0, if raised { 60 } else { 150 }),
        Kind::BakingPowder => usual("baking powder", 2, 100),
        // Beside yeast it only browns.
        Kind::Soda => usual("soda", 1, if raised { 15 } else { 30 }),
        Kind::RaisingAgent => usual("a raising agent", 0, 50),
        _ => None,
    }
}

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    diagnostics.extend(super::pickled::odd_shares(subject, CHECK.name));
    diagnostics.extend(super::curing::problems(subject, CHECK.name));
    strong_spice::problems(subject, CHECK.name, diagnostics);
    for (id, part, solved) in subject.whole_parts() {
        let flour = solved.composition.flour;
        if let Some(problem) = half_a_preferment(part, solved).filter(|_| part.from.is_some()) {
            diagnostics.push(problem);
            continue;
        }
        if flour <= Mass::ZERO || part.per_piece {
            continue;
        }
        // What is taken out of a total formula is judged there, but for how wet it is.
        if part.from.is_some() {
            let wet = odd_preferment(part, solved).filter(|_| !is_paste(part));
            let slip = unit_slip::problem(subject, part);
            tell(diagnostics, slip.or(wet).or_else(|| by_name::problem(subject, part, solved)));
            continue;
        }
        tell(diagnostics, without_gluten::problem(subject, (id, part), solved));
        // In what holds little flour, a soup or a filling, shares of the flour say nothing.
        let is_dough = super::dough::is_dough(part, solved) && !solved.composition.is_flour_open;
        // But what raises it is there for the flour: of a cake that is half fruit as well.
        let is_cake = LazyCell::new(|| is_cake(part, solved));
        let is_raised_at_all = |kind: Kind| kind.is_chemical_raising() && *is_cake;
        // Soda browns biscuits of syrup and oats, and more of it is in them.
        let is_of_biscuits = |line: &Ingredient, mass: Mass| {
            line.kind == Kind::Soda && mass.as_share_of(flour).is_ok_and(|share| share <= mille(50))
        };
        let raised = subject.leavened().has(id);
        // With a preferment, a trace of yeast has had its time.
        let straight = subject.recipe.preferments(id).next().is_none();
        for (line, amount) in part.lines.iter().zip(&solved.lines) {
            if let Some(mass) = amount.mass.filter(|_| {
                (is_dough || is_raised_at_all(line.kind))
                    && line.stays_in()
                    && matches!(line.refers, Refers::Pantry(_))
                    && !strong_spice::is_strong(line)
            }) {
                if !is_dough && is_of_biscuits(line, mass) {
                    continue;
                }
                let little =
                    if straight { too_little_yeast(subject.recipe, (id, part), line, mass, flour) } else { None };
                // So much that no dough comes of it is an error of its own.
                let most = most(subject, (id, part), line.kind, || raised);
                let all = all_flour(solved);
                let extreme =
                    is_dough && most.is_some_and(|(_, most)| mass.as_share_of(all).is_ok_and(|share| share > most));
                if !extreme {
                    // All the yeast of a dough may stand in its sponge. What is in a starter is flour too.
                    let flour = if line.kind.is_yeast() { flour_around(subject, id).max(flour) } else { all };
                    // Where all flour lies in a dough that is taken, sugar is strewn on or rolled in.
                    if line.kind == Kind::Sugar && !part.lines.iter().any(|line| line.is_flour) {
                        continue;
                    }
                    // Coarse salt on a crust is none of the dough's, which came in salted.
                    let is_salted = || solved.composition.salt_on_flour().is_some_and(|all| all >= mille(8));
                    if line.kind == Kind::Salt
                        && mass.as_share_of(flour).is_ok_and(|share| share < mille(8))
                        && is_salted()
                    {
                        continue;
                    }
                    let is_up_to = |most: i64| mass.as_share_of(flour).is_ok_and(|share| share <= mille(most));
                    if line.kind == Kind::Fat && is_butter_block(part) && is_up_to(4000) {
                        continue;
                    }
                    if line.kind == Kind::Salt && is_sweet_and_steamed(subject.recipe, part, solved) && is_up_to(30) {
                        continue;
                    }
                    let much = || {
                        odd_line(line, mass, flour, raised)
                            .or_else(|| much_for_lean(subject.recipe, (id, part, solved), line, mass, flour))
                    };
                    tell(diagnostics, little.or_else(much));
                }
            }
        }
        if is_dough {
            tell(diagnostics, drawn_in::too_much(subject, (id, part, solved), raised));
        }
        // A starter from the jar brings water whose flour is not counted.
        let from_jar = part.lines.iter().any(|line| line.kind == Kind::Leaven);
        if raised && is_build(subject, id, part) {
            tell(diagnostics, odd_preferment(part, solved).or_else(|| by_name::problem(subject, part, solved)));
        } else if raised {
            tell(
                diagnostics,
                odd_hydration(subject, (id, part, solved), from_jar).filter(|_| !pours_unweighed(part, solved)),
            );
            tell(diagnostics, is_dough.then(|| more_yeast_than_salt(part, solved)).flatten());
        } else if is_dough {
            tell(diagnostics, oil_for_water(part, solved));
        }
    }
}

/// Whether a part holds little flour and is baked all the same: a cake that is a third berries, a muffin of carrots. Common practice, no source: a twelfth
/// of it is flour.
fn is_cake(part: &Part, solved: &SolvedPart) -> bool {
    !solved.composition.is_flour_open && part.steps.iter().any(bakes) && has_flour(solved, 80)
}

/// Fat with flour beaten into it, which encloses a dough or is enclosed by one: two and a half times its flour in the outer butter of an inverted
/// puff pastry. Common practice, no source.
fn is_butter_block(part: &Part) -> bool {
    let mut lines = part.lines.iter().filter(|line| line.stays_in());
    lines.all(|line| line.is_flour || matches!(line.kind, Kind::Flour | Kind::Fat | Kind::Salt))
}

/// A sweet dough that is steamed has next to no salt: its filling brings it. Common practice, no source.
fn is_sweet_and_steamed(recipe: &Recipe, part: &Part, solved: &SolvedPart) -> bool {
    let sweet = mass_of(part, solved, |line| line.kind.is_sweet()).unwrap_or(Mass::ZERO);
    let is_sweet = sweet.as_share_of(all_flour(solved)).is_ok_and(|share| share >= mille(50));
    let steams = |part: &Part| part.steps.iter().any(|step| called(step, beginnings!["steam"]));
    is_sweet && recipe.parts().any(|(_, part)| steams(part))
}

/// The most flour of what a part goes into.
fn flour_around(subject: &Subject<'_>, id: PartId) -> Mass {
    let around = subject.recipe.users(id).filter_map(|(user, _)| subject.formula.part(user));
    around.map(|user| user.composition.flour).max().unwrap_or(Mass::ZERO)
}

/// Whether a part is a build of a leaven: without salt it ripens for another part, which has a flour of its own.
fn is_build(subject: &Subject<'_>, id: PartId, part: &Part) -> bool {
    let recipe = subject.recipe;
    let salted = part.lines.iter().any(|line| line.kind == Kind::Salt);
    let takes_flour =
        |user: PartId| recipe.part(user).is_some_and(|user| user.lines.iter().any(|line| line.is_flour && !line.aside));
    !salted
        && part.divide.is_none()
        && !part.steps.iter().any(cooks)
        && recipe.users(id).any(|(user, _)| takes_flour(user))
}

/// A flour that is cooked to a paste, without a leaven: a roux, a scald. It holds five times its water.
fn is_paste(part: &Part) -> bool {
    part.steps.iter().any(cooks)
        && !part.lines.iter().any(|line| line.kind.ferments() || matches!(line.refers, Refers::Part(_)))
}

/// What binds a dough without gluten, by its name. Common practice, no source: psyllium from 3 to 8 %, xanthan and guar from half to one and a half.
fn gums() -> impl Iterator<Item = (&'static Beginnings, Usual)> {
    let psyllium = Usual { noun: "psyllium", from: 10, to: 130 };
    let gum = Usual { noun: "xanthan and guar gum", from: 1, to: 40 };
    [(beginnings!["psyllium"], psyllium), (beginnings!["xanthan", "guar"], gum)].into_iter()
}

fn odd_line(line: &Ingredient, mass: Mass, flour: Mass, raised: bool) -> Option<Diagnostic> {
    let by_name = || gums().find(|(words, _)| line.name.has_word_beginning(words)).map(|(_, usual)| usual);
    let known = if let Some(known) = by_name() {
        known
    } else if raised && line.is_oil() {
        Usual { noun: "oil", from: 0, to: 300 }
    } else {
        usual(line.kind, raised)?
    };
    let share = mass.as_share_of(flour).ok()?;
    let (low, high) = (mille(known.from), mille(known.to));
    if share >= low && share <= high {
        return None;
    }
    let usual = if known.from > 0 {
        format!("from {} to {}", show::percent(low), show::percent(high))
    } else {
        format!("up to {}", show::percent(high))
    };
    let message =
        format!("{} of the flour is unusual for {}: common practice is {usual}", show::percent(share), known.noun);
    // Salt and yeast of which nobody would eat are no matter of taste.
    let is_grave = raised
        && share > mille(50)
        && matches!(line.kind, Kind::Salt | Kind::Yeast(Some(YeastForm::ActiveDry | YeastForm::InstantDry)));
    let told = if is_grave { Diagnostic::warning } else { Diagnostic::advice };
    Some(
        told(CHECK.name, line.amount_span, message)
            .label(format!("{} on {} of flour", show::mass_plain(mass), show::mass_plain(flour)))
            .help("look whether a point or a digit has slipped"),
    )
}

/// What brings no water, whether the larder says so or not.
fn has_no_water(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Fat | Kind::Sugar | Kind::Salt | Kind::Yeast(_) | Kind::BakingPowder | Kind::Soda | Kind::Spice
    )
}

/// A preferment that is dust or soup: what is taken out of a dough is judged by its own flour.
fn odd_preferment(part: &Part, solved: &SolvedPart) -> Option<Diagnostic> {
    let (low, high) = (mille(350), mille(2500));
    let composition = &solved.composition;
    let share = composition.hydration()?;
    let unknown = composition.unknown.water;
    // What is known is the least, and of what is not the flour is not counted either.
    let flour = composition.all_flour().ok()?;
    let too_little = share < low && composition.water.plus(unknown).ok()?.as_share_of(flour).ok()? < low;
    let too_much = composition.water.as_share_of(flour.plus(unknown).ok()?).ok()? > high;
    if share == Proportion::ZERO || !(too_little || too_much) {
        return None;
    }
    let message = format!(
        "`{}` has {} water on its flour; preferments commonly have from {} to {}",
        part.name,
        show::percent(share),
        show::percent(low),
        show::percent(high)
    );
    let liquid = part.lines.iter().find(|line| line.kind.is_poured());
    Some(
        Diagnostic::advice(CHECK.name, liquid.map_or(part.name.span, |line| line.amount_span), message)
            .label(format!("{} on {} of flour", show::mass_plain(composition.water), show::mass_plain(flour)))
            .help("look whether a point or a digit has slipped"),
    )
}

/// Yeast in milk without flour, or in flour without anything that wets it: a line is gone.
fn half_a_preferment(part: &Part, solved: &SolvedPart) -> Option<Diagnostic> {
    let known = |line: &Ingredient| line.kind != Kind::Other && matches!(line.refers, Refers::Pantry(_));
    let yeast = part.lines.iter().find(|line| line.kind.is_yeast())?;
    let rest = || part.lines.iter().filter(|line| !line.kind.is_yeast());
    if part.broken || !part.lines.iter().all(known) || rest().next().is_none() {
        return None;
    }
    let flour = solved.composition.flour > Mass::ZERO
        || rest().any(|line| matches!(line.kind, Kind::Flour | Kind::Grain | Kind::Starch));
    let wet = rest().any(|line| !has_no_water(line.kind) && line.kind != Kind::Flour);
    let missing = match (flour, wet) {
        (false, true) => "flour",
        (true, false) => "water",
        _ => return None,
    };
    let message = format!("`{}` has {} and no {missing}", part.name, yeast.name);
    Some(
        Diagnostic::advice(CHECK.name, part.name.span, message)
            .help(format!("look whether the line of the {missing} is missing")),
    )
}

/// What is poured or ladled holds twice as much water as flour: crumpets, raised waffles, blini.
const BATTER: Proportion = Proportion::new(Number::constant(5, 2));

/// An unraised dough of flour and oil that next to no water binds: the two are poured from like jugs, and written one below the other.
fn oil_for_water(part: &Part, solved: &SolvedPart) -> Option<Diagnostic> {
    let flour = solved.composition.flour;
    let (oil, sweet) =
        (mass_of(part, solved, Ingredient::is_oil)?, mass_of(part, solved, |line| line.kind.is_sweet())?);
    let water = solved.composition.hydration()?;
    let known = massed(part, solved).all(|(line, _)| line.kind != Kind::Other);
    let bound = massed(part, solved).any(|(line, _)| matches!(line.kind, Kind::Egg | Kind::Fruit | Kind::Nut));
    let (line, _) = massed(part, solved).find(|(line, _)| line.kind == Kind::Water)?;
    let oily = oil.as_share_of(flour).ok()? >= mille(300) && sweet.as_share_of(flour).ok()? < mille(50);
    if !known || bound || !oily || water >= mille(100) {
        return None;
    }
    let message = format!(
        "`{}` has {} water on its flour beside {} of oil: that binds no dough",
        part.name,
        show::percent(water),
        show::percent(oil.as_share_of(flour).ok()?)
    );
    Some(Diagnostic::advice(CHECK.name, line.amount_span, message).help("look whether the two amounts are swapped"))
}

/// How much of what goes in of a line is poured as water is. Three quarters of an egg are water (USDA FoodData Central, whole raw egg: 76 %), and
/// dairy that is mostly water is stirred in as such.
fn poured_of(line: &Ingredient, mass: Mass) -> Result<Mass, Overflow> {
    match line.kind {
        Kind::Ice => Ok(mass),
        kind if kind.is_poured() => Ok(mass),
        Kind::Egg => mass.times(Number::constant(3, 4)),
        Kind::Dairy => {
            let water = line.facts().and_then(|facts| facts.contents.water).filter(|water| *water >= POURED);
            water.map_or(Ok(Mass::ZERO), |water| mass.share(water))
        }
        _ => Ok(Mass::ZERO),
    }
}

/// From this share of water on dairy is poured (USDA SR28: yogurt 85 to 88 %, sour cream 74 %, fresh cheese 80 % and less).
const POURED: Proportion = Proportion::new(Number::constant(82, 100));

/// Water on flour. Too little is told by all the water there is; too much only by what is poured, since the water in a
/// filling or in fruit does not make a dough slack.
fn odd_hydration(
    subject: &Subject<'_>,
    (id, part, solved): (PartId, &Part, &SolvedPart),
    from_jar: bool,
) -> Option<Diagnostic> {
    let composition = &solved.composition;
    // A little of a batter that is boiled to a porridge and stirred back is no dough any more.
    let is_boiled = |step: &Step| called(step, beginnings!["boil", "cook", "scald"]) && cooks_by_head(step);
    if part.steps.iter().any(is_boiled) && !part.steps.iter().any(bakes) && part.divide.is_none() {
        return None;
    }
    let liquid = massed(part, solved).map(|(line, mass)| poured_of(line, mass));
    let liquid = Mass::sum(liquid.collect::<Result<Vec<Mass>, Overflow>>().ok()?).ok()?;
    let (low, slack) = (if is_of_rye(part, solved) { RYE } else { mille(400) }, mille(1100));
    // So most doughs are: neither starch nor a batter's name makes that more, nor does what a part brings where all water is no more.
    let all = composition.hydration()?;
    if all >= low && (all <= slack && liquid.as_share_of(composition.flour).ok()? <= slack) {
        return None;
    }
    let (drawn, drinks) = drawn_in::liquid(subject, id, part).unwrap_or((Mass::ZERO, Mass::ZERO));
    if all >= low && liquid.plus(drawn).ok()?.as_share_of(composition.flour).ok()? <= slack {
        return None;
    }
    let batter = is_batter(part);
    let high = if batter { BATTER } else { slack };
    // Where the water of much of a dough is not known, its hydration is not either; a starter brings water whose flour is
    // not counted.
    let waterless = mass_of(part, solved, |line| {
        line.facts().is_none_or(|facts| facts.contents.water.is_none()) && has_no_water(line.kind)
    })?;
    // What is known is the least: it is too little only where all that may be water does not make it enough.
    let most = composition.water.plus(composition.unknown.water.minus(waterless).ok()?).ok()?;
    let unweighed = || {
        part.lines
            .iter()
            .zip(&solved.lines)
            .any(|(line, amount)| line.stays_in() && amount.mass.is_none() && !has_no_water(line.kind))
    };
    let may_be_enough = most.as_share_of(composition.flour).ok()? >= low || unweighed();
    // Starch drinks as flour does; husks and gums hold what no flour would.
    let starch = mass_of(part, solved, |line| line.kind == Kind::Starch)?;
    let share = liquid.as_share_of(composition.flour.plus(starch).ok()?).ok()?;
    let from_jar = from_jar || part.lines.iter().any(|line| line.kind == Kind::Thickener);
    // Half of a starter at least is water.
    let jar = mass_of(part, solved, |line| line.kind == Kind::Leaven)?;
    let with_jar = liquid.as_share_of(composition.flour.plus(starch).ok()?.plus(jar).ok()?).ok()?;
    // With what its parts bring it is as wet as its card says.
    let with_parts = liquid.plus(drawn).ok()?;
    let drinking = composition.flour.plus(starch).ok()?.plus(jar).ok()?.plus(drinks).ok()?;
    let is_wet_by_parts = drawn > Mass::ZERO && with_parts.as_share_of(drinking).is_ok_and(|share| share > high);
    let (share, mass) = if is_wet_by_parts && all > high {
        (all, composition.water)
    } else if share > high && (!from_jar || (jar > Mass::ZERO && with_jar > high)) {
        (share, liquid)
    } else if all < low && all > Proportion::ZERO && !may_be_enough && !is_short(part, solved) {
        (all, composition.water)
    } else {
        return None;
    };
    let message = format!(
        "`{}` has {} water on its flour; {} raised with yeast commonly have from {} to {}",
        part.name,
        show::percent(share),
        if batter { "batters" } else { "doughs" },
        show::percent(low),
        show::percent(high)
    );
    let poured = massed(part, solved).filter(|(line, _)| line.kind.is_poured() || line.kind == Kind::Ice);
    let span = poured.max_by_key(|(_, mass)| *mass).map_or(part.name.span, |(line, _)| line.amount_span);
    Some(
        Diagnostic::advice(CHECK.name, span, message)
            .label(format!("{} on {} of flour", show::mass_plain(mass), show::mass_plain(composition.flour)))
            .help("look whether a point or a digit has slipped, or a flour is missing"),
    )
}

/// Whole rye drinks more: a dough of which it is half and more does not hang together below. Common practice, no source: they have 70 to 100 %.
const RYE: Proportion = Proportion::new(Number::constant(11, 20));

/// Whether half of a dough and more is rye, and not the white of it.
fn is_of_rye(part: &Part, solved: &SolvedPart) -> bool {
    let is_rye = |line: &Ingredient| {
        line.is_flour
            && line.name.has_word_beginning(beginnings!["rye"])
            && !line.name.has_word_beginning(beginnings!["white", "light"])
    };
    // Of crackers it is rolled thin.
    part.lines.iter().any(is_rye)
        && !part.steps.iter().any(|step| called(step, beginnings!["roll"]))
        && mass_of(part, solved, is_rye)
            .and_then(|rye| rye.as_share_of(all_flour(solved)).ok())
            .is_some_and(|share| share >= mille(500))
}

/// Whether a starter is used up in a pastry: fat of a third of the flour and more makes it short, and nothing else raises it.
fn is_short(part: &Part, solved: &SolvedPart) -> bool {
    let fat = mass_of(part, solved, |line| line.kind == Kind::Fat).unwrap_or(Mass::ZERO);
    let much = || fat.as_share_of(solved.composition.flour).is_ok_and(|share| share >= mille(330));
    !part.lines.iter().any(|line| line.kind.is_yeast()) && much() && !part.steps.iter().any(|step| called(step, RISES))
}
