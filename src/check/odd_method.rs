//! `odd-method`: a step that works with what is not there: rubbing without fat, sweating without fat, a dough that nothing wets.

use super::dough::{is_dough, mass_of, massed, mille};
use super::{Check, Family, Run, Subject, tell};
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::model::cooking::{beginnings, cooks, fries_in_unlisted_fat, frying, has_word_beginning, says};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};
use crate::model::step::{Frying, Step, StepKind, Target, Words};
use crate::solve::formula::SolvedPart;
use crate::text::clauses::last_clause;
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "odd-method",
    severity: Severity::Advice,
    family: Family::Steps,
    looks_for: "fat that is to be rubbed in or fried in and is not listed, or vinegar to sweat in; a dough that is kneaded, rolled or rises without flour, or a batter; a butter block without fat; salt for dusting; flour with \
                oil that nothing wets; fat rubbed into sugar alone; a syrup of sugar and oil; a curd that is rolled, dough that is dusted with; a custard that nothing sets, or one of water; a lean dough with soda and nothing sour; starch alone for a dough; a part with which nothing is done beside parts with steps; baking powder that is boiled, gelatine that nothing sets, kraut that never stands and ice cream or butter that nothing churns; whites that are whipped where yolks are listed, a laminated dough without a fold and a scald that nothing heats; hands that are busy with what rests, dough that is shaped by nobody, a bake without an oven and heat in what makes none",
    why: "What a step does needs something that it is done with. Where one ingredient was put for another (cream cheese for butter, vinegar \
          for oil, cornflour for flour, oil for water), the formula may still add up, but the method no longer fits. Whatever no larder \
          knows may be the thing, and where a tenth of all is such, nothing is said. It is advice: if it is meant so, `# allow odd-method: reason` above the line or \
          the step keeps it quiet.",
    bad: "recipe Leek pot\nvinegar .... 60 g\nleek .... 2 kg\nwater .... 2 l\nsalt .... 20 g\nsweat: tend 12 min, using hob\n    Warm {vinegar}; sweat \
          {leek} in it.\n    until soft\nsimmer: tend 20 min, using hob\n    Add {water} and {salt}.\n    until tender\n",
    good: "recipe Leek pot\nrapeseed oil .... 60 g\nleek .... 2 kg\nwater .... 2 l\nsalt .... 20 g\nsweat: tend 12 min, using hob\n    Warm {rapeseed \
           oil}; sweat {leek} in it.\n    until soft\nsimmer: tend 20 min, using hob\n    Add {water} and {salt}.\n    until tender\n",
    sources: &["common practice, no source"],
    run: Run::Parts(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (id, part, solved) in subject.whole_parts() {
        diagnostics.extend(super::who_is_busy::problems(part, CHECK.name));
        tell(diagnostics, in_vinegar(part));
        tell(diagnostics, fried_in_nothing(subject.recipe, id, part));
        tell(diagnostics, laminated_without_fat(part));
        tell(diagnostics, dusted_with_salt(part));
        tell(diagnostics, rubbed_into_sugar(part));
        tell(diagnostics, syrup_of_oil(part));
        tell(diagnostics, custard_of_water(part));
        tell(diagnostics, exchanged(subject.recipe, part));
        let lost = super::never_set::problem(subject.recipe, (id, part), solved)
            .or_else(|| super::lost_acts::problem(subject.recipe, part));
        tell(diagnostics, lost.map(|(at, message, help)| Diagnostic::advice(CHECK.name, at, message).help(help)));
        let open = is_open(part, solved);
        if open || part.from.is_some() || part.lines.len() < 2 {
            continue;
        }
        let found = rubbed(part)
            .or_else(|| no_acid(part, solved))
            .or_else(|| starch_alone(part, solved))
            .or_else(|| no_flour(part, solved))
            .or_else(|| dry(part, solved))
            .or_else(|| unset(part));
        tell(diagnostics, found);
    }
}

/// Whether nobody can say what is in a part: it draws on another, or a good part of it is something that no larder knows.
fn is_open(part: &Part, solved: &SolvedPart) -> bool {
    if part.lines.iter().any(|line| matches!(line.refers, Refers::Part(_))) {
        return true;
    }
    let unknown =
        || part.lines.iter().zip(&solved.lines).filter(|(line, _)| line.kind == Kind::Other && line.stays_in());
    // Without a weight it may be anything.
    let Ok(weight) = Mass::sum(unknown().filter_map(|(_, amount)| amount.mass)) else { return true };
    let weighed = unknown().all(|(_, amount)| amount.mass.is_some());
    let little = solved.goes_in.is_some_and(|all| weight.as_share_of(all).is_ok_and(|share| share < mille(100)));
    !(weighed && little || unknown().next().is_none())
}

/// A block for folding into a dough is of fat.
fn laminated_without_fat(part: &Part) -> Option<Diagnostic> {
    let block = part.name.has_word_beginning(beginnings![
        "butter block",
        "butter sheet",
        "butter slab",
        "roll-in",
        "beurrage",
        "lamination"
    ]);
    let fat = |line: &Ingredient| {
        line.kind == Kind::Fat || line.kind == Kind::Other || matches!(line.refers, Refers::Part(_))
    };
    let first = part.lines.first().filter(|_| block && !part.broken && !part.lines.iter().any(fat))?;
    let message = format!("`{}` is to be folded into a dough, and none of it is fat", part.name);
    Some(Diagnostic::advice(CHECK.name, first.span, message).help(EXCHANGED))
}

/// Sugar, flour and cocoa are dusted over; salt is strewn, and it is set aside.
fn dusted_with_salt(part: &Part) -> Option<Diagnostic> {
    part.lines.iter().find(|line| line.kind == Kind::Salt && line.aside)?;
    part.steps.iter().find_map(|step| {
        let salt =
            step.lines_taken().any(|at| part.lines.get(at).is_some_and(|line| line.kind == Kind::Salt && line.aside));
        let only = step.words.iter().filter(|word| matches!(word, Words::Use { .. })).count() == 1;
        let dusts = || says(step, beginnings!["dust"]);
        (salt && only && dusts()).then(|| {
            problem(step, format!("`{}` dusts with salt", step.name), "look whether sugar was meant; salt is strewn")
        })
    })
}

/// What a step takes of the lines of its part, and whether it takes parts or what nobody knows.
fn taken<'p>(part: &'p Part, step: &'p Step) -> (Vec<&'p Ingredient>, bool) {
    let lines: Vec<&Ingredient> = step.lines_taken().filter_map(|at| part.lines.get(at)).collect();
    let uses = step.words.iter().filter(|word| matches!(word, Words::Use { .. })).count();
    let open = uses != lines.len()
        || lines.iter().any(|line| line.kind == Kind::Other || matches!(line.refers, Refers::Part(_)));
    (lines, open)
}

/// What comes out of a fryer holds of its fat, and so does its label.
fn fried_in_nothing(recipe: &Recipe, id: PartId, part: &Part) -> Option<Diagnostic> {
    part.steps.iter().find(|step| frying(step) == Frying::Deep)?;
    // Oil for what a part does may be listed in what it takes up.
    let within = recipe.within(id);
    let parts = within.iter().filter_map(|id| recipe.part(*id));
    let step = part.steps.iter().find(|step| fries_in_unlisted_fat(parts.clone(), part, step))?;
    let message = format!("`{}` fries in deep fat, and no fat for it is listed", step.name);
    let help = "list it, `sunflower oil .... 5 l, strained out`: some of it stays in what is fried, and it may be soya or peanut";
    Some(problem(step, message, help))
}

/// Fat rubbed into nothing but sugar, whatever else is in the part.
fn rubbed_into_sugar(part: &Part) -> Option<Diagnostic> {
    part.steps.iter().find_map(|step| {
        let begins = |text: &str| text.get(..4).is_some_and(|start| start.eq_ignore_ascii_case("rub "));
        let text = step.words.iter().any(|word| matches!(word, Words::Text(text) if begins(text)));
        if !text || step.kind != StepKind::Hands {
            return None;
        }
        let (lines, open) = taken(part, step);
        let fat = lines.iter().any(|line| line.kind == Kind::Fat);
        let dry = |line: &&Ingredient| matches!(line.kind, Kind::Fat | Kind::Sugar | Kind::Salt | Kind::Spice);
        let sugar = lines.iter().any(|line| line.kind == Kind::Sugar) && lines.iter().all(dry);
        (!open && fat && sugar).then(|| problem(step, format!("`{}` rubs fat into sugar alone", step.name), EXCHANGED))
    })
}

/// Sugar does not dissolve in oil.
fn syrup_of_oil(part: &Part) -> Option<Diagnostic> {
    let is_boiled = |step: &Step| cooks(step) && says(step, beginnings!["boil", "dissolve", "syrup"]);
    // Whoever boils no oil needs no more.
    part.lines.iter().find(|line| line.is_oil())?;
    let (at, step) = part.steps.iter().enumerate().find(|(_, step)| is_boiled(step))?;
    let so_far: Vec<(Vec<&Ingredient>, bool)> = part.steps.iter().take(at + 1).map(|step| taken(part, step)).collect();
    let all = || so_far.iter().flat_map(|(lines, _)| lines.iter());
    let oil = all().any(|line| line.is_oil());
    let dry = |line: &&Ingredient| {
        matches!(line.kind, Kind::Fat | Kind::Sugar | Kind::Spice | Kind::Salt)
            && !line.name.key.as_str().contains("butter")
    };
    let sugar = taken(part, step).0.iter().any(|line| line.kind == Kind::Sugar);
    let found = oil && sugar && all().all(dry) && !so_far.iter().any(|(_, open)| *open);
    found
        .then(|| problem(step, format!("`{}` boils sugar in oil, in which it does not dissolve", step.name), EXCHANGED))
}

/// Two names of neighbouring steps that changed places: `Roll {curd} to {4 mm}`, `Dust with {dough}`, `Brush with {icing sugar}`.
fn exchanged(recipe: &Recipe, part: &Part) -> Option<Diagnostic> {
    let runs = |part: &Part| {
        part.name.has_word_beginning(beginnings!["curd", "custard", "glaze", "syrup", "sauce", "jam|", "jams|"])
            && !part.lines.iter().any(|line| line.is_flour)
    };
    // The last clause of the words right before a place.
    let clause = |step: &Step, at: Option<usize>| match at.and_then(|at| step.words.get(at)) {
        Some(Words::Text(text)) => last_clause(&text.to_lowercase()).trim().to_owned(),
        _ => String::new(),
    };
    // Of all that is told here the words right before it end so.
    let may_be = |step: &Step, at: usize| match at.checked_sub(1).and_then(|at| step.words.get(at)) {
        Some(Words::Text(text)) => ["roll", "pour", "with"].iter().any(|verb| ends_in(text.trim_end(), verb)),
        _ => false,
    };
    part.steps.iter().find_map(|step| {
        step.words.iter().enumerate().find_map(|(at, word)| {
            let Words::Use { target: Some(Target::Line(number)), name, .. } = word else { return None };
            if !may_be(step, at) {
                return None;
            }
            let line = part.lines.get(*number)?;
            // `Brush {pastry} with {egg}`: the verb stands before what it is done to.
            let before = clause(step, at.checked_sub(1));
            let verb = if before == "with" { clause(step, at.checked_sub(3)) } else { before.clone() };
            let with = |verbs: &[&str]| before.ends_with("with") && verbs.iter().any(|said| verb.starts_with(said));
            let made = line.part().and_then(|id| recipe.part(id));
            let is_dough = made.is_some_and(|made| made.lines.iter().any(|line| line.is_flour))
                && line.name.has_word_beginning(beginnings!["dough", "pastry"]);
            let is_dry = matches!(line.kind, Kind::Sugar | Kind::Flour | Kind::Starch | Kind::Salt)
                && !line.name.has_word_beginning(beginnings!["melted", "dissolved"]);
            let what = match () {
                () if before == "roll" && made.is_some_and(runs) => "rolls",
                () if with(&["dust", "sprinkle"]) && (is_dough || line.kind == Kind::Egg) => "dusts with",
                () if with(&["brush"]) && is_dry => "brushes with",
                () if before == "pour" && is_dough => "pours",
                () => return None,
            };
            Some(problem(
                step,
                format!("`{}` {what} {}", step.name, name.text),
                "look whether two names have changed places in the steps",
            ))
        })
    })
}

/// Whether a text ends in a word of ASCII, in capitals or not.
fn ends_in(text: &str, word: &str) -> bool {
    let end = text.len().checked_sub(word.len()).and_then(|from| text.get(from..));
    end.is_some_and(|end| end.eq_ignore_ascii_case(word))
}

/// A custard of eggs in water.
fn custard_of_water(part: &Part) -> Option<Diagnostic> {
    let named = part.name.has_word_beginning(CUSTARDS);
    let water = part.lines.iter().find(|line| line.kind == Kind::Water && !line.aside)?;
    let rich = |kind| !matches!(kind, Kind::Water | Kind::Egg | Kind::Sugar | Kind::Salt | Kind::Spice | Kind::Starch);
    (named && lists(part, |kind| kind == Kind::Egg) && !lists(part, rich)).then(|| {
        let message = format!("`{}` is a custard of water, without milk or cream", part.name);
        Diagnostic::advice(CHECK.name, water.span, message).help(EXCHANGED)
    })
}

/// What eggs set in milk or cream, by the name of a part.
pub(super) const CUSTARDS: &Beginnings =
    &Beginnings::of(&["custard", "crème brûlée", "creme brulee", "crème caramel", "creme caramel"]);

fn lists(part: &Part, kinds: impl Fn(Kind) -> bool) -> bool {
    part.lines.iter().any(|line| kinds(line.kind))
}

fn problem(step: &Step, message: String, help: &str) -> Diagnostic {
    Diagnostic::advice(CHECK.name, step.name.span, message).help(help)
}

const EXCHANGED: &str = "look whether an ingredient is missing, or another was put in its place";

/// Fat is rubbed into flour; spices into meat are another thing.
fn rubbed(part: &Part) -> Option<Diagnostic> {
    if lists(part, |kind| kind.is_flesh()) {
        return None;
    }
    let rub = part.steps.iter().find(|step| {
        step.kind == StepKind::Hands
            && says(step, beginnings!["rub"])
            && !says(step, beginnings!["zest", "peel", "skin", "over with", "through a sieve", "sugar with"])
    })?;
    // Salt is rubbed into lemons, a paste into cabbage, spores into rice: fat is what is rubbed into flour, or named where it is rubbed.
    let ground = |kind| matches!(kind, Kind::Flour | Kind::Grain | Kind::Bread | Kind::Nut | Kind::Pulse | Kind::Seed);
    let mut words = rub
        .words
        .iter()
        .skip_while(|word| !matches!(word, Words::Text(text) if has_word_beginning(&text.to_lowercase(), ["rub"])));
    let first = words.find_map(|word| match word {
        Words::Use { target: Some(Target::Line(at)), .. } => part.lines.get(*at),
        _ => None,
    });
    // A cabbage is rubbed with its paste, and a roast with its marinade.
    let is_with = says(rub, beginnings!["paste|", "pastes|", "marinade", "cabbage", "skin"]);
    if is_with || first.is_some_and(|line| matches!(line.kind, Kind::Salt | Kind::Spice)) {
        return None;
    }
    let rubs = |is: &dyn Fn(Kind) -> bool| {
        rub.lines_taken().next().is_none()
            || rub.lines_taken().any(|at| part.lines.get(at).is_some_and(|line| is(line.kind)))
    };
    if !lists(part, |kind| matches!(kind, Kind::Fat | Kind::Nut)) {
        // Cabbage and meat are rubbed with a paste.
        let is_solid = |kind: Kind| kind.is_flesh() || kind == Kind::Vegetable;
        if rub.lines_taken().next().is_none() && lists(part, is_solid) {
            return None;
        }
        let into_flour = lists(part, |kind| kind == Kind::Flour || kind == Kind::Starch)
            && rubs(&|kind| matches!(kind, Kind::Flour | Kind::Starch));
        return into_flour
            .then(|| problem(rub, format!("`{}` rubs fat in, and `{}` has none", rub.name, part.name), EXCHANGED));
    }
    if !rubs(&|kind| kind == Kind::Fat) {
        return None;
    }
    let message =
        || format!("`{}` rubs fat in, and `{}` has no flour that it could be rubbed into", rub.name, part.name);
    (!lists(part, ground)).then(|| problem(rub, message(), EXCHANGED))
}

/// What sweats or fries does so in fat, or in its own juice, but not in vinegar.
fn in_vinegar(part: &Part) -> Option<Diagnostic> {
    let taken =
        |step: &Step, is: &dyn Fn(&Ingredient) -> bool| step.lines_taken().any(|at| part.lines.get(at).is_some_and(is));
    let sour = |line: &Ingredient| line.kind == Kind::Vinegar;
    let fat = |line: &Ingredient| {
        matches!(line.kind, Kind::Fat | Kind::Dairy | Kind::Other)
            || line.kind.is_flesh()
            || matches!(line.refers, Refers::Part(_))
    };
    let hot = |step: &Step| says(step, beginnings!["sweat", "saut", "fry", "deep-fry"]);
    // Water is let down a pan with, but nothing fries in it.
    let water = |line: &Ingredient| line.kind == Kind::Water;
    let fries = |step: &Step| {
        let hotter = step.temperature.is_some_and(|(low, _)| low.celsius() >= Number::whole(130));
        hotter && step.name.has_word_beginning(beginnings!["fry", "deep-fry"])
    };
    let in_what = |step: &Step| (taken(step, &sour) && hot(step)) || (fries(step) && taken(step, &water));
    let at = part.steps.iter().position(in_what)?;
    if part.steps.iter().take(at + 1).any(|step| taken(step, &fat)) {
        return None;
    }
    let step = part.steps.get(at)?;
    let what = if taken(step, &sour) { "vinegar" } else { "water" };
    Some(problem(step, format!("`{}` takes fat, and takes {what}", step.name), EXCHANGED))
}

/// What works with soda in a dough, being sour itself.
const SOUR: &Beginnings = &Beginnings::of(&[
    "buttermilk",
    "whey",
    "kefir",
    "yogurt",
    "yoghurt",
    "sour",
    "soured",
    "quark",
    "skyr",
    "treacle",
    "molasses",
    "honey",
    "muscovado",
    "brown",
    "demerara",
    "cocoa",
    "chocolate",
    "ripe",
    "banana",
    "apple",
    "pumpkin",
    "carrot",
    "date",
    "golden",
    "malt",
    "beer",
    "stout",
    "coffee",
]);

/// A lean bread dough with soda and nothing sour: yeast was meant. Biscuits and cakes brown with it.
fn no_acid(part: &Part, solved: &SolvedPart) -> Option<Diagnostic> {
    let soda = part.lines.iter().find(|line| line.kind == Kind::Soda)?;
    let acid = |line: &Ingredient| {
        line.name.has_word_beginning(SOUR)
            || matches!(
                line.kind,
                Kind::Vinegar
                    | Kind::Juice
                    | Kind::Fruit
                    | Kind::Dairy
                    | Kind::Leaven
                    | Kind::BakingPowder
                    | Kind::RaisingAgent
                    | Kind::Yeast(_)
            )
    };
    let flour = solved.composition.flour;
    let of = |is: &dyn Fn(Kind) -> bool| mass_of(part, solved, |line| is(line.kind))?.as_share_of(flour).ok();
    // A spoon of malt is no acid to speak of.
    if of(&|kind| kind == Kind::Syrup)? >= mille(50) {
        return None;
    }
    let (poured, fat, sweet) = (of(&Kind::is_poured)?, of(&|kind| kind == Kind::Fat)?, of(&Kind::is_sweet)?);
    let lean = poured >= mille(450) && poured <= mille(1000) && fat <= mille(200) && sweet <= mille(120);
    if part.lines.iter().any(acid) || !lean || !is_dough(part, solved) {
        return None;
    }
    let message = format!("`{}` has {} and nothing sour for it to work with", part.name, soda.name);
    Some(
        Diagnostic::advice(CHECK.name, soda.span, message)
            .help("look whether yeast was meant; soda raises with buttermilk, yoghurt, vinegar or treacle, else write baking powder"),
    )
}

/// A dough that is more than half starch and has no flour.
fn starch_alone(part: &Part, solved: &SolvedPart) -> Option<Diagnostic> {
    let (line, mass) = massed(part, solved).find(|(line, _)| line.kind == Kind::Starch)?;
    let all = solved.goes_in?;
    let half = mass.as_share_of(all).is_ok_and(|share| share > mille(500));
    if !half
        || solved.composition.flour > Mass::ZERO
        || part.lines.len() < 3
        || !part.steps.iter().any(|step| step.kind == StepKind::Hands)
    {
        return None;
    }
    let message = format!("`{}` is {} of {} and has no flour", part.name, show::mass_plain(mass), line.name);
    Some(Diagnostic::advice(CHECK.name, line.span, message).help(EXCHANGED))
}

/// What is worked as a dough has flour in it, or meal, crumbs or nuts.
fn no_flour(part: &Part, solved: &SolvedPart) -> Option<Diagnostic> {
    if solved.composition.flour > Mass::ZERO {
        return None;
    }
    let body = |kind| {
        matches!(
            kind,
            Kind::Flour
                | Kind::Grain
                | Kind::Bread
                | Kind::Nut
                | Kind::Seed
                | Kind::Pulse
                | Kind::Chocolate
                | Kind::Vegetable
                | Kind::Dairy
        ) || kind.is_flesh()
    };
    let worked = part.steps.iter().find(|step| {
        step.kind != StepKind::Tend && says(step, beginnings!["knead", "prove", "proof", "dough", "batter"])
    })?;
    if lists(part, body) || part.name.has_word_beginning(beginnings!["sugar", "fondant", "marzipan", "ici"]) {
        return None;
    }
    Some(problem(worked, format!("`{}` is worked as a dough, and has no flour", part.name), EXCHANGED))
}

/// Parts in which fat alone holds the flour together.
const SHORT: &Beginnings = &Beginnings::of(&[
    "roux",
    "crumb",
    "streusel",
    "crumble",
    "butter|",
    "paste|",
    "pastes|",
    "topping",
    "sand|",
    "manié",
    "short|",
    "shortbread",
    "shortcrust",
    "sable",
    "sablé",
    "polvor",
]);

/// Flour and oil, and nothing that wets them.
fn dry(part: &Part, solved: &SolvedPart) -> Option<Diagnostic> {
    let (flour, water) = (solved.composition.flour, solved.composition.water);
    let oil: Vec<&Ingredient> = part.lines.iter().filter(|line| line.is_oil() && line.stays_in()).collect();
    let wets = |kind: Kind| {
        kind.is_liquid()
            || matches!(
                kind,
                Kind::Ice
                    | Kind::Egg
                    | Kind::Dairy
                    | Kind::Syrup
                    | Kind::Fruit
                    | Kind::Vegetable
                    | Kind::Leaven
                    | Kind::Brine
            )
    };
    let works = part.steps.iter().find(|step| step.kind == StepKind::Hands && !cooks(step))?;
    let dry = water.as_share_of(flour).is_ok_and(|share| share < mille(50));
    if oil.is_empty() || !is_dough(part, solved) || !dry || lists(part, wets) || part.name.has_word_beginning(SHORT) {
        return None;
    }
    Some(problem(works, format!("nothing wets the flour of `{}`: it has oil and no water", part.name), EXCHANGED))
}

/// A custard is set by egg, starch or a thickener.
fn unset(part: &Part) -> Option<Diagnostic> {
    let custard =
        part.name.has_word_beginning(CUSTARDS) || part.name.has_word_beginning(beginnings!["flan", "curd filling"]);
    let sets = |kind| matches!(kind, Kind::Egg | Kind::Starch | Kind::Thickener | Kind::Flour);
    let cooked = part
        .steps
        .iter()
        .find(|step| cooks(step))
        .filter(|_| custard && lists(part, |kind| matches!(kind, Kind::Milk | Kind::Dairy)))?;
    (!lists(part, sets))
        .then(|| problem(cooked, format!("nothing sets `{}`: it has neither egg nor starch", part.name), EXCHANGED))
}
