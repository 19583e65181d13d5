//! `no-prove`: shaped pieces of a raised dough that go into the oven without having stood.

use super::dough::{inside, mass_of, mille};
use super::odd_ripening::hours_at_25;
use super::{Check, Family, Run, Subject, tell};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Duration;
use crate::model::cooking::heat_words::GRIDDLES;
use crate::model::cooking::rests::{PROVES, RISES};
use crate::model::cooking::{Beginnings, beginnings, called, cooks_by_head, has_word_beginning, says, uses};
use crate::model::kind::Kind;
use crate::model::recipe::{HeadMakes, Ingredient, Part, PartId, Recipe};
use crate::model::step::{Step, StepKind};
use crate::text::clauses::head_of_name;
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "no-prove",
    severity: Severity::Advice,
    family: Family::Steps,
    looks_for: "pieces of a dough raised with yeast or leaven that are shaped and baked with no rest between, such a dough that never stands at all, and one that is shaped straight after it is mixed",
    why: "Hands press the gas out of a dough. A roll that is rounded and baked at once tears and stays small: the step in which it proves was \
          lost. What is flat (pizza, pitta, crackers), and what baking powder raises too, is left alone. It is advice: if it is meant so, \
          `# allow no-prove: reason` above the step that shapes keeps it quiet.",
    bad: "recipe Rolls\nmakes 10 rolls\nflour .... 500 g\nwater .... 320 g\nsalt .... 10 g\ninstant yeast .... 5 g\nmix: hands 10 min\n    \
          Mix {flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 1 h, at 24 C\nround: hands 10 s, each\nbake: tend \
          15 min, using oven at 230 C\n    until gold\n",
    good: "recipe Rolls\nmakes 10 rolls\nflour .... 500 g\nwater .... 320 g\nsalt .... 10 g\ninstant yeast .... 5 g\nmix: hands 10 min\n    \
           Mix {flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 1 h, at 24 C\nround: hands 10 s, each\nprove: wait \
           50 min, at 24 C\nbake: tend 15 min, using oven at 230 C\n    until gold\n",
    sources: &["common practice, no source"],
    run: Run::Parts(run),
};

const SHAPES: &Beginnings =
    &Beginnings::of(&["shape", "shaping", "round", "mould", "mold", "plait", "braid", "knot", "ball"]);

/// What is baked flat, as it is.
const FLAT: &[&str] = &[
    "pizz",
    "pitta",
    "pita",
    "naan",
    "flat",
    "cracker",
    "crisp",
    "griss",
    "stick",
    "lavash",
    "tortilla",
    "fougasse",
    "focaccia",
    "ciabatta",
    "lahmacun",
    "manakish",
    "calzone",
    "flamm",
    "pide",
    "roti",
    "chapati",
    "piadina",
    "matzo",
    "pretzel",
    "stromboli",
    "langos",
    "lángos",
    "pinsa",
    "empanada",
    "sfiha",
    "esfiha",
    "barbari",
    "coca",
    "biscuit",
    "cookie",
    "pastry",
];

/// What is done to pieces that are folded, filled and closed by hand.
const CLOSES: &Beginnings = &Beginnings::of(&["tuck", "form|", "press out", "roll up", "pleat", "fill and", "pipe"]);
/// What is done to pieces that have proved.
const FINISHES: &Beginnings = &Beginnings::of(&[
    "glaz", "brush", "wash", "score", "slash", "snip", "top|", "strew", "dust", "sprinkl", "dip|", "egg", "load",
    "turn", "fill", "decorat", "finish", "ice|", "soak", "syrup", "pack", "weigh", "scale", "divide", "butter", "oil|",
    "sugar", "wrap", "flour", "dimple", "dock", "coat", "paint", "seed", "spread", "stencil", "prick", "boil", "press",
]);
/// Hours at 25 °C after which pieces have begun to rise.
const PROVED: Number = Number::constant(1, 4);

/// Who stands so long has proved.
const STANDS: Duration = Duration::new(Number::whole(15 * 60));

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let recipe = subject.recipe;
    if !matches!(recipe.makes, Some(HeadMakes::Pieces { .. })) {
        return;
    }
    let raised = |id: PartId| subject.fermented().has(id);
    for (id, part, _) in subject.whole_parts() {
        if let Some(step) = never_stands(subject, id, part).filter(|_| {
            !is_no_loaf(recipe, part) && raised(id) && !is_flat(recipe, part, None) && !raised_at_once(recipe, part)
        }) {
            let message = format!(
                "a dough raised with yeast or leaven goes into `{}` without having stood: it does not rise",
                step.name
            );
            diagnostics.push(Diagnostic::advice(CHECK.name, step.name.span, message).help(
                "write the steps in which it rises, `rise: wait 90 min, at 24 C` and `prove: wait 50 min, at 26 C`, each with its sign, `until puffy`",
            ));
            continue;
        }
        if let Some((shape, prove)) = shaped_at_once(recipe, id, part)
            .filter(|(shape, _)| raised(id) && !is_flat(recipe, part, Some(shape)) && !raised_at_once(recipe, part))
        {
            let message = format!("`{}` comes straight after the dough is mixed: it has not risen", shape.name);
            diagnostics.push(
                Diagnostic::advice(CHECK.name, shape.name.span, message)
                    .also(prove.name.span, "the first time that it stands")
                    .help("write the step in which the whole dough rises, `rise: wait 90 min, at 24 C` with its sign `until doubled`, before it is shaped"),
            );
            continue;
        }
        let Some((shape, bake)) = straight_into_the_heat(recipe, part).or_else(|| shaped_before(subject, part)) else {
            let late = shaped_after_its_rest(part).filter(|(shape, ..)| {
                raised(id) && !is_flat(recipe, part, Some(shape)) && !raised_at_once(recipe, part)
            });
            tell(
                diagnostics,
                late.map(|(shape, rest, bake)| {
                    let message = format!(
                        "`{}` comes after `{}`, and `{}` follows: hands press out what has risen",
                        shape.name, rest.name, bake.name
                    );
                    Diagnostic::advice(CHECK.name, shape.name.span, message).also(rest.name.span, "its last rest").help(
                        "look whether the two steps are in the right order: pieces prove when they have their shape",
                    )
                }),
            );
            continue;
        };
        if is_flat(recipe, part, Some(shape)) || raised_at_once(recipe, part) || !raised(id) {
            continue;
        }
        let message = format!("`{}` is followed by `{}`: the pieces do not prove", shape.name, bake.name);
        diagnostics.push(
            Diagnostic::advice(CHECK.name, shape.name.span, message)
                .also(bake.name.span, "baked here")
                .help("write the step in which they rise again, `prove: wait 50 min, at 26 C` with its sign `until puffy`, between the two"),
        );
    }
}

/// How long a dough stands in some steps: while it rests or is tended, and as long as it may after hands are done with it.
fn stood_in(steps: &[Step]) -> Result<Duration, Overflow> {
    Duration::sum(steps.iter().map(|step| match step.kind {
        StepKind::Hands => step.may_stand.unwrap_or(Duration::ZERO),
        StepKind::Tend | StepKind::Wait => step.time.1,
    }))
}

/// Whether a step cooks what is in it.
fn heats(step: &Step) -> bool {
    step.kind != StepKind::Wait && cooks_by_head(step)
}

/// Shorter nothing rises: the least that `odd-time` has for a rise.
const RISEN: Duration = Duration::new(Number::whole(18 * 60));
/// A machine that kneads, waits and bakes by itself.
const BY_ITSELF: &Beginnings = &Beginnings::of(&["machine"]);

/// The step that bakes a dough in its own part, where it stood nowhere before: of the part in which flour and leaven meet.
fn never_stands<'r>(subject: &Subject<'_>, id: PartId, part: &'r Part) -> Option<&'r Step> {
    let (recipe, formula) = (subject.recipe, subject.formula);
    let at =
        part.steps.iter().position(heats).filter(|_| part.lines.iter().any(|line| line.is_flour && !line.aside))?;
    let (before, bake) = (part.steps.get(..at)?, part.steps.get(at)?);
    // Who writes no more than what is mixed and baked leaves the rest to the reader; who writes how it is shaped or stands does not.
    let is_written_out = |step: &Step| {
        step.kind == StepKind::Wait
            || step.kind == StepKind::Hands && (called(step, SHAPES) || step.loads.is_by_piece())
    };
    let is_all_told = before.iter().any(is_written_out);
    let stood = stood_in(before);
    let takes_flour = |part: &Part| part.lines.iter().any(|line| line.is_flour && !line.aside);
    let rose_elsewhere = part
        .lines
        .iter()
        .filter_map(|line| line.part())
        .chain(recipe.preferments(id).map(|(other, ..)| other))
        .any(|other| {
            let Some((whole, solved)) = recipe.part(other).zip(formula.part(other)) else { return false };
            let is_salted = || whole.lines.iter().any(|line| line.kind == Kind::Salt);
            // A dough without salt that stood, and takes no more here than flour for the board.
            let own = || formula.part(id).and_then(|here| mass_of(part, here, |line| line.is_flour));
            let is_for_the_board = || {
                own().is_some_and(|own| own.as_share_of(solved.composition.flour).is_ok_and(|share| share < mille(100)))
            };
            let stands = || whole.steps.iter().any(|step| step.kind == StepKind::Wait && step.time.1 >= RISEN);
            takes_flour(whole) && (is_salted() || stands() && is_for_the_board())
        });
    // It may rise while the oven heats; and bagels alone are boiled as doughs that rose.
    let is_cold = says(bake, beginnings!["cold oven"]);
    let is_boiled = called(bake, beginnings!["boil", "simmer", "poach"])
        && !has_word_beginning(recipe.name.key.as_str(), ["bagel", "pretzel"]);
    if is_cold || is_boiled {
        return None;
    }
    let by_itself = uses(bake, BY_ITSELF) || part.steps.iter().any(|step| !step.order.is_empty());
    (is_all_told && !rose_elsewhere && !by_itself && stood.is_ok_and(|stood| stood < RISEN)).then_some(bake)
}

/// Shorter a dough that is about to be shaped only relaxes.
const RELAXES: Duration = Duration::new(Number::whole(10 * 60));

/// The first step that shapes a dough of flour and leaven in its own part, and the prove after it, where the dough stood nowhere before. What
/// has husks or gums in place of gluten, or is half rye, rises but once.
fn shaped_at_once<'r>(recipe: &Recipe, id: PartId, part: &'r Part) -> Option<(&'r Step, &'r Step)> {
    let shape = part.steps.iter().position(|step| step.kind == StepKind::Hands && called(step, SHAPES))?;
    let (before, after) = (part.steps.get(..shape)?, part.steps.get(shape + 1..)?);
    let prove = after.iter().find(|step| step.kind == StepKind::Wait && called(step, PROVES))?;
    let mixed = before.iter().any(|step| step.kind == StepKind::Hands && called(step, beginnings!["mix", "knead"]));
    let own = |is: &dyn Fn(&Ingredient) -> bool| part.lines.iter().any(|line| line.stays_in() && is(line));
    let rises_once = own(&|line| line.kind == Kind::Thickener)
        || own(&|line| {
            line.is_flour
                && line.name.has_word_beginning(beginnings!["rye", "gluten", "rice", "buckwheat", "teff", "spelt"])
        });
    let whole = own(&|line| line.is_flour) && own(&|line| line.kind.ferments());
    let from_elsewhere = own(&|line| line.part().is_some()) || recipe.preferments(id).next().is_some();
    let stood = stood_in(before);
    // How long it rises is another question.
    let rises = before.iter().any(|step| step.kind == StepKind::Wait && called(step, RISES));
    let in_order = part.steps.iter().all(|step| step.order.is_empty());
    let told = mixed
        && whole
        && in_order
        && !rises_once
        && !from_elsewhere
        && !rises
        && stood.is_ok_and(|stood| stood < RELAXES);
    told.then_some((part.steps.get(shape)?, prove))
}

/// What starter flavours and does not raise, by names.
const NO_LOAVES: &[&str] =
    &["brownie", "noodle", "pasta", "dumpling", "gnocchi", "soup", "broth", "tart", "quiche", "crust", "shortcrust"];

/// Whether a leaven is used up for its taste in what is no loaf. Common practice, no source.
fn is_no_loaf(recipe: &Recipe, part: &Part) -> bool {
    let has_yeast = part.lines.iter().any(|line| line.kind.is_yeast());
    !has_yeast && [&recipe.name, &part.name].into_iter().any(|name| has_word_beginning(name.key.as_str(), NO_LOAVES))
}

/// What is surely done to a piece of dough before it proves, by words of the step.
const LAST_SHAPES: &Beginnings = &Beginnings::of(&["knot", "plait", "braid", "twist", "round up", "mould|", "shape|"]);
/// So long at most pieces stand after it, washed: less than half a prove.
const WASHED: Duration = Duration::new(Number::whole(25 * 60));

/// The last step that shapes pieces, the prove that stands above it and the heat below, where none stands between.
fn shaped_after_its_rest(part: &Part) -> Option<(&Step, &Step, &Step)> {
    let proves = |step: &Step| {
        step.kind == StepKind::Wait
            && called(step, PROVES)
            && !step.name.has_word_beginning(beginnings!["bulk", "first", "bench", "intermediate"])
    };
    let rest = part.steps.iter().rposition(proves)?;
    let after = part.steps.get(rest + 1..)?;
    let heat = after.iter().position(heats)?;
    let between = after.get(..heat)?;
    let shapes = |step: &&Step| step.kind == StepKind::Hands && (called(step, LAST_SHAPES) || says(step, LAST_SHAPES));
    let shape = between.iter().rfind(shapes)?;
    let stood = stood_in(between);
    let in_order = part.steps.iter().all(|step| step.order.is_empty());
    (in_order && stood.is_ok_and(|stood| stood <= WASHED)).then_some((shape, part.steps.get(rest)?, after.get(heat)?))
}

/// The last step of a dough that is shaped in its part, and the heat of the part that takes it, where the pieces stand in neither.
fn shaped_before<'r>(subject: &Subject<'r>, part: &'r Part) -> Option<(&'r Step, &'r Step)> {
    let recipe = subject.recipe;
    let at = part.steps.iter().position(heats)?;
    let stands = |step: &Step| step.kind != StepKind::Hands && step.time.1 >= STANDS || step.may_stand.is_some();
    if part.steps.iter().take(at).any(stands) || part.lines.iter().any(|line| line.is_flour && line.stays_in()) {
        return None;
    }
    // Rings and rounds that are cut out of a sheet and fried.
    let fries = part.steps.get(at).is_some_and(|step| called(step, beginnings!["fry", "deep-fry"]));
    let is_ring =
        || recipe.name.has_word_beginning(beginnings!["doughnut", "donut", "berliner", "krapfen", "bombolon"]);
    let cuts = fries && is_ring();
    let shapes = |step: &Step| {
        step.kind == StepKind::Hands
            && (called(step, SHAPES) || cuts && called(step, beginnings!["roll", "cut", "stamp"]))
    };
    part.lines.iter().filter_map(|line| Some((line.part()?, recipe.part(line.part()?)?))).find_map(|(id, dough)| {
        // A sour that is a part of its own raises it as a starter from the jar does.
        let is_dough = dough.from.is_none()
            && dough.lines.iter().any(|line| line.is_flour && line.stays_in())
            && subject.fermented().has(id);
        let shape = dough.steps.iter().rposition(shapes).filter(|_| is_dough)?;
        let rose = dough.steps.iter().take(shape).any(|step| step.kind == StepKind::Wait && called(step, RISES));
        // Without any rest at all it has lost both.
        let never_stood = !dough.steps.iter().any(|step| step.kind == StepKind::Wait || step.may_stand.is_some());
        let proves = |step: &Step| step.kind != StepKind::Hands || called(step, PROVES) || step.may_stand.is_some();
        let in_order = dough.steps.iter().chain(&part.steps).all(|step| step.order.is_empty());
        let is_last = !dough.steps.iter().skip(shape).any(proves) && !dough.steps.iter().any(heats);
        ((rose || never_stood) && is_last && in_order).then_some((dough.steps.get(shape)?, part.steps.get(at)?))
    })
}

/// The last step that shapes, and the heat that comes after it, where nothing stands between them.
fn straight_into_the_heat<'r>(recipe: &Recipe, part: &'r Part) -> Option<(&'r Step, &'r Step)> {
    // Whatever is done to each piece shapes it, but what only finishes it.
    let is_closed =
        |step: &Step| called(step, beginnings!["fill"]) && says(step, beginnings!["close", "pleat", "seal", "pinch"]);
    let is_piecework = |step: &Step| step.loads.is_by_piece() && (!called(step, FINISHES) || is_closed(step));
    let shapes = |step: &Step| {
        step.kind == StepKind::Hands && (called(step, SHAPES) || called(step, CLOSES) || is_piecework(step))
    };
    let first = part.steps.iter().position(shapes)?;
    // Where the dough rises elsewhere, it may prove there too.
    // A rest of a dough that is raised is a rise, whatever it is called, where it is long and warm enough; and so is a night in the cold.
    let works = |step: &Step| hours_at_25(step, step.time.1).is_ok_and(|hours| hours >= PROVED);
    let is_rise = |step: &Step| step.kind == StepKind::Wait && (called(step, RISES) || works(step));
    // Pieces that are shaped and baked in a part of their own are of a dough that rose in its part.
    let proves_there =
        |dough: &Part| dough.steps.iter().any(|step| step.kind == StepKind::Wait && called(step, PROVES));
    let rose = |line: &Ingredient| {
        // Butter may be folded in between, in a part of its own.
        let inner = line.part().map(|of| inside(recipe, of)).unwrap_or_default();
        let doughs = || inner.iter().filter_map(|id| recipe.part(*id)).filter(|part| part.from.is_none());
        let is_baked = |part: &Part| part.steps.iter().any(cooks_by_head);
        doughs().any(|dough| dough.steps.iter().any(is_rise))
            && !doughs().any(|dough| proves_there(dough) || is_baked(dough))
    };
    let own_flour = || part.lines.iter().any(|line| line.is_flour && line.stays_in());
    let rises =
        part.steps.iter().take(first).any(is_rise) || (part.per_piece || !own_flour()) && part.lines.iter().any(rose);
    let bake = part.steps.iter().skip(first).position(heats)? + first;
    let last = part.steps.iter().take(bake).rposition(shapes)?;
    // Where a step is done out of the order of the lines, nobody here says what lies between.
    let in_order = part.steps.iter().skip(first).take(bake - first + 1).all(|step| step.order.is_empty());
    // Half an hour in the cold is no prove, and a night there is.
    let stands = |step: &Step| match step.kind {
        StepKind::Wait => works(step) || !called(step, beginnings!["chill", "firm", "dry", "set"]),
        StepKind::Tend => step.time.1 >= STANDS,
        StepKind::Hands => false,
    };
    let between = part.steps.iter().take(bake).skip(last + 1).any(stands);
    let proves = part
        .steps
        .iter()
        .any(|step| called(step, PROVES) && !step.name.has_word_beginning(beginnings!["bulk", "first"]));
    let (shape, bake) = (part.steps.get(last)?, part.steps.get(bake)?);
    let may_stand = shape.may_stand.is_some_and(|time| time >= STANDS);
    (rises && in_order && !between && !proves && !may_stand).then_some((shape, bake))
}

/// Whether what is made is flat: by its names, by what is done to it, or because it is baked on an iron plate.
pub(super) fn is_flat(recipe: &Recipe, part: &Part, shape: Option<&Step>) -> bool {
    let noun = match &recipe.makes {
        Some(HeadMakes::Pieces { noun, .. }) => noun.key.as_str(),
        _ => "",
    };
    // `Buns with a biscuit crust` are buns.
    let names = [recipe.name.key.as_str(), part.name.key.as_str(), noun];
    names.into_iter().any(|name| has_word_beginning(head_of_name(name), FLAT))
        || shape.is_some_and(|shape| says(shape, beginnings!["flat", "thin", "roll out", "stretch"]))
        || part.steps.iter().any(|step| uses(step, GRIDDLES) || says(step, beginnings!["crimp"]) || is_fierce(step))
}

/// Whether a step bakes what is flat: in minutes, in an oven that blackens all else.
fn is_fierce(step: &Step) -> bool {
    let hot = step.temperature.is_some_and(|(low, _)| low.celsius() >= Number::whole(280));
    hot && step.time.1 <= Duration::minutes(10)
}

/// Whether something raises it in the oven alone.
fn raised_at_once(recipe: &Recipe, part: &Part) -> bool {
    let of = |part: &Part| part.lines.iter().any(|line| line.kind.is_chemical_raising());
    // Powder in a crust that is laid on raises no dough of yeast.
    let is_of_yeast = |part: &&Part| part.lines.iter().any(|line| line.kind.ferments());
    let inner = || part.lines.iter().filter_map(|line| recipe.part(line.part()?));
    of(part)
        || if inner().any(|part| is_of_yeast(&part)) { inner().filter(is_of_yeast).all(of) } else { inner().any(of) }
}
