//! Vegetables that ferment in salt: how much of it there is on everything in the jar, and how warm they stand.

use super::Subject;
use super::dough::{inside, massed, mille};
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass};
use crate::measure::show::{self, Units};
use crate::model::cooking::rests::FERMENTS;
use crate::model::cooking::{beginnings, called, chills, has_word_beginning, says};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, LineAmount, Part, PartId, Recipe, Refers};
use crate::model::step::{Step, StepKind};
use crate::solve::formula::SolvedPart;
use crate::solve::formula::leaves::{Counted, leaves};
use crate::text::diagnostic::Diagnostic;

/// What published methods take of everything in the jar: 3 tablespoons on 5 lb of cabbage are 2.25 to 2.5 % (USDA, Complete Guide to Home
/// Canning, Guide 6, as Michigan State University Extension, 01600078, and NDSU, whose number FN433 is from memory, print it), brines of cucumbers about 5 % in the
/// liquid (from memory).
const PUBLISHED: (i64, i64) = (20, 50);
/// Far from it; what lies between is taken on purpose here and there. Common practice, no source.
const FAR: (i64, i64) = (15, 100);
/// The least of what is drunk, where more than half is water. Common practice, no source.
const DRINK: i64 = 5;
/// Above 75 °F kraut may become soft, the same say; so many degrees Celsius more nobody advises.
const WARM: Number = Number::whole(30);

/// What is odd in each jar of vegetables that ferment, or that vinegar is to keep.
///
/// They are told under the names of the checks of amounts and of temperatures.
pub(super) fn problems(subject: &Subject<'_>, of_amounts: &'static str, of_heat: &'static str) -> Vec<Diagnostic> {
    let mut problems = Vec::new();
    let is_vegetable = |line: &Ingredient| matches!(line.kind, Kind::Vegetable | Kind::Fruit | Kind::Egg);
    for (id, part, solved) in subject.whole_parts().filter(|(_, part, _)| part.lines.iter().any(is_vegetable)) {
        problems.extend(too_little_acid(of_amounts, subject, id, part, solved));
        if !is_jar(subject, id, part, solved) || !part.steps.iter().any(ferments) {
            continue;
        }
        problems.extend(odd_salt(of_amounts, subject.recipe, id, part, solved));
        problems.extend(part.steps.iter().filter(|step| ferments(step)).find_map(|step| too_warm(of_heat, part, step)));
    }
    problems
}

/// Vegetables that stand for two days out of the cold ferment, whatever the step is called; before that it is said in its words.
const BY_ITSELF: Duration = Duration::new(Number::whole(2 * 24 * 3600));

fn ferments(step: &Step) -> bool {
    let by_itself =
        || step.time.1 >= BY_ITSELF && !called(step, beginnings!["dry", "store", "keep", "cool", "thaw", "sprout"]);
    step.kind == StepKind::Wait && !chills(step) && (says(step, FERMENTS) || by_itself())
}

/// Whether three tenths of a part are vegetables, and nothing but their salt keeps them: no vinegar, no flour, no milk, not much sugar.
fn is_jar(subject: &Subject<'_>, id: PartId, part: &Part, solved: &SolvedPart) -> bool {
    let of = |is: &dyn Fn(&Ingredient) -> bool, mille_of: i64| {
        let mass = Mass::sum(massed(part, solved).filter(|(line, _)| is(line)).map(|(_, mass)| mass)).ok();
        mass.zip(solved.composition.total.share(mille(mille_of)).ok()).is_some_and(|(mass, share)| mass > share)
    };
    let others = inside(subject.recipe, id).into_iter().filter_map(|inner| subject.recipe.part(inner));
    let sour = others.flat_map(|part| &part.lines).any(|line| {
        matches!(line.kind, Kind::Vinegar | Kind::Leaven | Kind::Milk | Kind::Dairy) || line.is_flour && !line.aside
    });
    !sour && of(&|line| line.kind == Kind::Vegetable, 300) && !of(&|line| line.kind.is_sweet(), 200)
}

/// The least acid in the liquid of published pickles that are poured over fresh: 1 1/2 parts of vinegar of 5 % to 2 of water are 2.1 % (USDA,
/// Complete Guide to Home Canning, Guide 6, quick fresh-pack dill pickles; from memory). Far below it, in thousandths.
const SOUR: (i64, i64) = (20, 15);

/// The strongest vinegar of a shelf, in thousandths, where nobody says how strong it is. Common practice, no source.
const STRONGEST: i64 = 100;

/// Vegetables called pickled whose liquid is hardly sour, and that no salt keeps.
fn too_little_acid(
    check: &'static str,
    subject: &Subject<'_>,
    id: PartId,
    part: &Part,
    solved: &SolvedPart,
) -> Option<Diagnostic> {
    let (recipe, formula) = (subject.recipe, subject.formula);
    // Nearly nothing is called so, and nothing else is looked at then.
    if !(part.name.has_word_beginning(beginnings!["pickl"]) || recipe.name.has_word_beginning(beginnings!["pickl"])) {
        return None;
    }
    let others: Vec<&Part> = inside(recipe, id).into_iter().filter_map(|inner| recipe.part(inner)).collect();
    let vegetables = Mass::sum(
        massed(part, solved)
            .filter(|(line, _)| matches!(line.kind, Kind::Vegetable | Kind::Fruit | Kind::Egg))
            .map(|(_, mass)| mass),
    )
    .ok()?;
    let enough = solved.composition.total.share(mille(300)).ok()?;
    let is_other = others.iter().any(|part| {
        part.broken || part.steps.iter().any(ferments) || part.lines.iter().any(|line| line.is_flour && !line.aside)
    });
    // What stands in brine for a night is drained before the vinegar comes to it.
    let brings = |line: usize| {
        part.lines
            .get(line)
            .is_some_and(|line| matches!(line.kind, Kind::Vinegar | Kind::Juice) || line.part().is_some())
    };
    let sour_at = part.steps.iter().position(|step| step.lines_taken().any(brings));
    let drained_at = part.steps.iter().position(|step| has_word_beginning(step.name.key.as_str(), ["drain", "rinse"]));
    let is_drained = drained_at.is_some_and(|drained| sour_at.is_none_or(|sour| drained <= sour));
    // Salt or sugar keeps what it is heaped on: salted plums, ginger in syrup.
    let of_all =
        |mass: Mass, least: i64| mass.as_share_of(solved.composition.total).is_ok_and(|share| share >= mille(least));
    let is_drained = is_drained || of_all(solved.composition.salt, 50) || of_all(solved.composition.sugar, 200);
    if is_other || is_drained || vegetables <= enough {
        return None;
    }
    let leaves = leaves(recipe, formula, id, Counted::GoesIn).ok()?;
    // What no larder knows, bought brine, and what has no weight may be sour.
    let hides = |line: &Ingredient| {
        let acid = line.facts().and_then(|facts| facts.contents.acid);
        let essence = || has_word_beginning(line.name.key.as_str(), ["essence", "concentrate"]);
        (line.refers == Refers::Pantry(None) && line.kind != Kind::Vinegar)
            || line.kind == Kind::Brine
            || (line.kind == Kind::Vinegar && acid.is_none() && essence())
    };
    let is_open = |part: &&Part| {
        part.lines.iter().any(|line| {
            hides(line) || (line.kind.is_liquid() && matches!(line.amount, LineAmount::ToTaste | LineAmount::AsNeeded))
        })
    };
    // Of what has only a volume that no larder weighs nobody knows how sour it makes the rest.
    let is_unweighed = |inner: PartId| {
        let lines =
            recipe.part(inner).zip(formula.part(inner)).map(|(part, solved)| part.lines.iter().zip(&solved.lines));
        let brings =
            |line: &Ingredient| line.kind.is_liquid() || matches!(line.kind, Kind::Vinegar | Kind::Juice | Kind::Fruit);
        lines.into_iter().flatten().any(|(line, amount)| line.stays_in() && brings(line) && amount.mass.is_none())
    };
    let is_open_somewhere = others.iter().any(is_open) || inside(recipe, id).into_iter().any(is_unweighed);
    if is_open_somewhere || leaves.iter().any(|leaf| hides(leaf.line)) {
        return None;
    }
    let mut liquid = Mass::ZERO;
    let mut acid = Mass::ZERO;
    let mut at_most = false;
    for leaf in &leaves {
        let known = leaf.line.facts().and_then(|facts| facts.contents.acid);
        let is_unsaid = known.is_none() && leaf.line.kind == Kind::Vinegar;
        at_most |= is_unsaid;
        let share = known.or_else(|| is_unsaid.then(|| mille(STRONGEST)));
        if leaf.line.kind.is_liquid() {
            liquid = liquid.plus(leaf.mass).ok()?;
        }
        if let Some(share) = share {
            acid = acid.plus(leaf.mass.share(share).ok()?).ok()?;
        }
    }
    // A little water to rinse the pan is no pickle's liquid.
    if liquid <= solved.composition.total.share(mille(100)).ok()? {
        return None;
    }
    let share = acid.as_share_of(liquid).ok()?;
    if share >= mille(SOUR.1) {
        return None;
    }
    let sour = part.lines.iter().find(|line| line.kind.is_liquid() || line.part().is_some());
    let span = sour.map_or(part.name.span, |line| line.amount_span);
    let message = format!(
        "the liquid of `{}` holds {}{} acid: published pickles have {} and more",
        part.name,
        if at_most { "at most " } else { "" },
        if acid > Mass::ZERO { show::percent(share).to_string() } else { "no".to_owned() },
        show::percent(mille(SOUR.0))
    );
    Some(Diagnostic::warning(check, span, message).help(
        "look whether a point or a digit has slipped, or the vinegar is missing: with too little acid what makes people ill may grow; follow a \
         tested recipe, and keep it refrigerated",
    ))
}

/// Salt far from what is published, on everything in the jar.
fn odd_salt(check: &'static str, recipe: &Recipe, id: PartId, part: &Part, solved: &SolvedPart) -> Option<Diagnostic> {
    let composition = &solved.composition;
    let share = composition.salt.as_share_of(composition.total).ok()?;
    let all: Vec<&Ingredient> =
        inside(recipe, id).into_iter().filter_map(|inner| recipe.part(inner)).flat_map(|part| &part.lines).collect();
    // A drink of vegetables is mostly water, and takes less.
    let poured =
        Mass::sum(massed(part, solved).filter(|(line, _)| line.kind.is_poured()).map(|(_, mass)| mass)).ok()?;
    let is_drink = poured.as_share_of(composition.total).is_ok_and(|share| share > mille(500));
    let (low, high) = (share < mille(if is_drink { DRINK } else { FAR.0 }), share > mille(FAR.1));
    // Salt that is rinsed off again, to taste, or in what no larder knows.
    let open = part.broken || all.iter().any(|line| hidden_salt(line));
    let weighed = part
        .lines
        .iter()
        .zip(&solved.lines)
        .all(|(line, amount)| amount.mass.is_some() || !line.stays_in() || line.kind == Kind::Spice);
    if !((low && !open) || (high && weighed)) {
        return None;
    }
    let salted = all.iter().find(|line| line.kind == Kind::Salt);
    let span = salted.map_or(part.name.span, |line| line.amount_span);
    let message = format!(
        "`{}` ferments with {} on everything in it: published ways of fermenting vegetables take {} to {}",
        part.name,
        if salted.is_some() && composition.salt > Mass::ZERO {
            format!("{} salt", show::percent(share))
        } else {
            "no salt".to_owned()
        },
        show::percent(mille(PUBLISHED.0)),
        show::percent(mille(PUBLISHED.1))
    );
    let help = if low {
        "look whether a point or a digit has slipped, or the salt is missing: with too little what spoils food grows before it is sour"
    } else {
        "look whether a point or a digit has slipped: with so much salt it hardly turns sour"
    };
    Some(Diagnostic::warning(check, span, message).help(format!("{help}; follow a tested recipe")))
}

/// Whether an ingredient may bring salt that nobody can count.
fn hidden_salt(line: &Ingredient) -> bool {
    let unknown = || line.facts().is_none_or(|facts| facts.contents.salt.is_none());
    match line.kind {
        Kind::Salt => !line.stays_in() || matches!(line.amount, LineAmount::ToTaste | LineAmount::AsNeeded),
        Kind::Brine | Kind::Seasoning => matches!(line.refers, Refers::Pantry(_)) && unknown(),
        Kind::Other => line.refers == Refers::Pantry(None),
        _ => false,
    }
}

fn too_warm(check: &'static str, part: &Part, step: &Step) -> Option<Diagnostic> {
    let (low, high) = step.temperature?;
    let at = high.unwrap_or(low);
    if at.celsius() <= WARM {
        return None;
    }
    let message = format!(
        "{} is warm for `{}` to ferment: vegetables turn sour at 18 to 24 °C, and warmer they grow soft and spoil",
        show::temperature(at, Units::Metric),
        part.name
    );
    Some(
        Diagnostic::advice(check, step.name.span, message)
            .help("look whether a digit has slipped, and whether the unit is right, C or F"),
    )
}
