//! Vegetables that ferment in salt: how much of it there is on everything in the jar, and how warm they stand.

use super::Subject;
use super::dough::{inside, massed, mille};
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass, Proportion};
use crate::measure::show::{self, Units};
use crate::model::cooking::rests::FERMENTS;
use crate::model::cooking::{beginnings, called, chills, has_word_beginning, says};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, LineAmount, Part, PartId, Recipe, Refers};
use crate::model::step::{Step, StepKind};
use crate::solve::formula::SolvedPart;
use crate::solve::formula::leaves::{Counted, Leaf, leaves};
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

/// The own parts with vegetables in them.
fn jars<'s>(subject: &'s Subject<'_>) -> impl Iterator<Item = (PartId, &'s Part, &'s SolvedPart)> {
    let is_vegetable = |line: &Ingredient| matches!(line.kind, Kind::Vegetable | Kind::Fruit | Kind::Egg);
    subject.whole_parts().filter(move |(_, part, _)| part.lines.iter().any(is_vegetable))
}

/// Too little salt or too much in what ferments, and too little acid in what vinegar is to keep.
pub(super) fn odd_shares(subject: &Subject<'_>, check: &'static str) -> Vec<Diagnostic> {
    let mut problems = Vec::new();
    for (id, part, solved) in jars(subject) {
        problems.extend(too_little_acid(check, subject, id, part, solved));
        if part.steps.iter().any(ferments) && is_jar(subject, id, part, solved) {
            problems.extend(odd_salt(check, subject.recipe, id, part, solved));
        }
    }
    problems
}

/// Vegetables that ferment where it is too warm.
pub(super) fn too_warm<'s>(subject: &'s Subject<'_>, check: &'static str) -> impl Iterator<Item = Diagnostic> + 's {
    jars(subject).filter_map(move |(id, part, solved)| {
        let problem = part.steps.iter().filter(|step| ferments(step)).find_map(|step| warm(check, part, step));
        problem.filter(|_| is_jar(subject, id, part, solved))
    })
}

/// Vegetables that stand for two days out of the cold ferment, whatever the step is called; before that it is said in its words.
const BY_ITSELF: Duration = Duration::days(2);

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
    let recipe = subject.recipe;
    // Nearly nothing is called so, and nothing else is looked at then.
    if !(part.name.has_word_beginning(beginnings!["pickl"]) || recipe.name.has_word_beginning(beginnings!["pickl"])) {
        return None;
    }
    if !is_kept_by_acid(recipe, id, part, solved)? || may_be_sour(subject, id) {
        return None;
    }
    let Liquid { mass, acid, is_most } = Liquid::of(subject, id)?;
    // A little water to rinse the pan is no pickle's liquid.
    if mass <= solved.composition.total.share(mille(100)).ok()? {
        return None;
    }
    let share = acid.as_share_of(mass).ok().filter(|share| *share < mille(SOUR.1))?;
    let sour = part.lines.iter().find(|line| line.kind.is_liquid() || line.part().is_some());
    let span = sour.map_or(part.name.span, |line| line.amount_span);
    let message = format!(
        "the liquid of `{}` holds {}{} acid: published pickles have {} and more",
        part.name,
        if is_most { "at most " } else { "" },
        if acid > Mass::ZERO { show::percent(share).to_string() } else { "no".to_owned() },
        show::percent(mille(SOUR.0))
    );
    Some(Diagnostic::warning(check, span, message).help(
        "look whether a point or a digit has slipped, or the vinegar is missing: with too little acid what makes people ill may grow; follow a \
         tested recipe, and keep it refrigerated",
    ))
}

/// Whether three tenths of a part are vegetables, and nothing keeps them but what is poured over: they neither ferment nor lie in much salt
/// or sugar, and no brine is poured off before the vinegar comes to them.
fn is_kept_by_acid(recipe: &Recipe, id: PartId, part: &Part, solved: &SolvedPart) -> Option<bool> {
    let is_vegetable = |line: &Ingredient| matches!(line.kind, Kind::Vegetable | Kind::Fruit | Kind::Egg);
    let vegetables =
        Mass::sum(massed(part, solved).filter(|(line, _)| is_vegetable(line)).map(|(_, mass)| mass)).ok()?;
    let enough = solved.composition.total.share(mille(300)).ok()?;
    let is_other = parts_in(recipe, id).any(|part| {
        part.broken || part.steps.iter().any(ferments) || part.lines.iter().any(|line| line.is_flour && !line.aside)
    });
    // Salt or sugar keeps what it is heaped on: salted plums, ginger in syrup.
    let of_all =
        |mass: Mass, least: i64| mass.as_share_of(solved.composition.total).is_ok_and(|share| share >= mille(least));
    let is_heaped = of_all(solved.composition.salt, 50) || of_all(solved.composition.sugar, 200);
    Some(!is_other && !is_heaped && !is_drained_first(part) && vegetables > enough)
}

/// What stands in brine for a night is drained before the vinegar comes to it.
fn is_drained_first(part: &Part) -> bool {
    let brings = |line: &Ingredient| matches!(line.kind, Kind::Vinegar | Kind::Juice) || line.part().is_some();
    let takes_sour = |step: &Step| step.lines_taken().any(|line| part.lines.get(line).is_some_and(brings));
    let sour_at = part.steps.iter().position(takes_sour);
    let drained_at = part.steps.iter().position(|step| has_word_beginning(step.name.key.as_str(), ["drain", "rinse"]));
    drained_at.is_some_and(|drained| sour_at.is_none_or(|sour| drained <= sour))
}

/// A part and all that lies in it.
fn parts_in(recipe: &Recipe, id: PartId) -> impl Iterator<Item = &Part> {
    inside(recipe, id).into_iter().filter_map(|inner| recipe.part(inner))
}

/// Acid in an ingredient, where the larder knows it.
fn acid_of(line: &Ingredient) -> Option<Proportion> {
    line.facts().and_then(|facts| facts.contents.acid)
}

/// Whether something in a part may be sour, and nobody knows how much: what no larder knows, bought brine, and what has no weight.
fn may_be_sour(subject: &Subject<'_>, id: PartId) -> bool {
    let (recipe, formula) = (subject.recipe, subject.formula);
    let Ok(leaves) = leaves(recipe, formula, id, Counted::Paid) else { return true };
    let seasons = |line: &Ingredient| is_seasoning(&leaves, line);
    let is_open = |line: &Ingredient| {
        hides_acid(line) && !seasons(line)
            || (line.kind.is_liquid() && matches!(line.amount, LineAmount::ToTaste | LineAmount::AsNeeded))
    };
    // Of what has only a volume that no larder weighs nobody knows how sour it makes the rest.
    let brings =
        |line: &Ingredient| line.kind.is_liquid() || matches!(line.kind, Kind::Vinegar | Kind::Juice | Kind::Fruit);
    let is_unweighed = |inner: PartId| {
        let both = recipe.part(inner).zip(formula.part(inner));
        let lines = both.into_iter().flat_map(|(part, solved)| part.lines.iter().zip(&solved.lines));
        lines.into_iter().any(|(line, amount)| line.stays_in() && brings(line) && amount.mass.is_none())
    };
    parts_in(recipe, id).flat_map(|part| &part.lines).any(is_open) || inside(recipe, id).into_iter().any(is_unweighed)
}

/// So little of what no larder knows brings no acid that counts, in thousandths of everything. Common practice, no source.
const SEASONS: i64 = 20;

/// Whether a line is a spice or another trifle among all that goes in, and is not called after an acid.
fn is_seasoning(leaves: &[Leaf<'_>], line: &Ingredient) -> bool {
    let acids = [
        "acid",
        "vinegar",
        "essence",
        "concentrate",
        "citr",
        "lemon",
        "lime",
        "juice",
        "verjus",
        "sour",
        "sumac",
        "tamarind",
    ];
    let total = || Mass::sum(leaves.iter().map(|leaf| leaf.mass));
    let own = || leaves.iter().find(|leaf| std::ptr::eq(leaf.line, line)).map(|leaf| leaf.mass);
    let is_little = || own()?.as_share_of(total().ok()?).ok().map(|share| share < mille(SEASONS));
    !line.kind.is_liquid() && !has_word_beginning(line.name.key.as_str(), acids) && is_little() == Some(true)
}

fn hides_acid(line: &Ingredient) -> bool {
    let essence = || has_word_beginning(line.name.key.as_str(), ["essence", "concentrate"]);
    (line.refers == Refers::Pantry(None) && line.kind != Kind::Vinegar)
        || line.kind == Kind::Brine
        || (line.kind == Kind::Vinegar && acid_of(line).is_none() && essence())
}

/// What is poured over the vegetables of a jar, and the acid of all that goes in.
struct Liquid {
    mass: Mass,
    acid: Mass,
    /// Whether there is as much acid at most, since nobody says how strong a vinegar is.
    is_most: bool,
}

impl Liquid {
    /// `None` where something in it may be sour and nobody knows how much.
    fn of(subject: &Subject<'_>, id: PartId) -> Option<Liquid> {
        let leaves = leaves(subject.recipe, subject.formula, id, Counted::GoesIn).ok()?;
        let mut liquid = Liquid { mass: Mass::ZERO, acid: Mass::ZERO, is_most: false };
        for leaf in &leaves {
            if hides_acid(leaf.line) && !is_seasoning(&leaves, leaf.line) {
                return None;
            }
            let known = acid_of(leaf.line);
            let is_unsaid = known.is_none() && leaf.line.kind == Kind::Vinegar;
            liquid.is_most |= is_unsaid;
            if leaf.line.kind.is_liquid() {
                liquid.mass = liquid.mass.plus(leaf.mass).ok()?;
            }
            if let Some(share) = known.or_else(|| is_unsaid.then(|| mille(STRONGEST))) {
                liquid.acid = liquid.acid.plus(leaf.mass.share(share).ok()?).ok()?;
            }
        }
        Some(liquid)
    }
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

fn warm(check: &'static str, part: &Part, step: &Step) -> Option<Diagnostic> {
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
