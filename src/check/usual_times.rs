//! How long a step usually takes: what `odd-time` compares a time with. Common practice, no source.

use crate::language::evaluate::{evaluate, value};
use crate::language::syntax::{Amount, Content, Line, Quantity, StepClause, StepKind, StepLine, Tree};
use crate::measure::number::Number;
use crate::measure::temperature::Temperature;
use crate::measure::value::Value;
use crate::model::cold::is_cold;
use crate::model::cooking::ovens::is_oven;
use crate::model::cooking::rests::{PROVES, WORKS};
use crate::model::lowered::{Beginnings, beginnings};
use crate::text::source::Spanned;

/// In seconds.
pub(super) const MINUTE: i64 = 60;
/// In seconds.
pub(super) const HOUR: i64 = 3600;
/// In seconds.
pub(super) const DAY: i64 = 24 * HOUR;

/// What is usual: what is done, and from how many to how many seconds.
pub(super) type Usual = (&'static str, i64, i64);

/// Steps that wait, by the beginnings of words in their names.
const WAITS: &[(&Beginnings, Usual)] = &[
    (WORKS, ("doughs rise, prove and ripen", 10 * MINUTE, 3 * DAY)),
    (beginnings!["triple", "double", "quadruple"], ("doughs rise", 40 * MINUTE, 2 * DAY)),
    (beginnings!["overnight"], ("a night is", 5 * HOUR, 20 * HOUR)),
    (beginnings!["sweeten", "saccharif"], ("a scald turns sweet", 40 * MINUTE, 12 * HOUR)),
    (beginnings!["brine"], ("what lies in brine stands", 20 * MINUTE, 60 * DAY)),
    (beginnings!["hang"], ("what hangs stands", 30 * MINUTE, 90 * DAY)),
    (beginnings!["autolyse"], ("doughs rest before they are mixed", 10 * MINUTE, 6 * HOUR)),
    (beginnings!["bench"], ("doughs rest on the bench", 5 * MINUTE, 90 * MINUTE)),
    (beginnings!["chill", "freez", "refrigerat"], ("food is chilled", 15 * MINUTE, 30 * DAY)),
    (beginnings!["cool"], ("food cools", 5 * MINUTE, 12 * HOUR)),
    (beginnings!["age", "ageing", "mature"], ("what is to age stands", 2 * HOUR, 90 * DAY)),
    (beginnings!["soak"], ("what is dry soaks", 10 * MINUTE, 2 * DAY)),
    (beginnings!["swell", "hydrate", "bloom"], ("what is to swell stands", 3 * MINUTE, 2 * DAY)),
    (beginnings!["rest"], ("what rests stands", 5 * MINUTE, 7 * DAY)),
    (beginnings!["stand"], ("what rests stands", 3 * MINUTE, 7 * DAY)),
];

/// What is done to one piece.
const EACH: &[(&[&str], Usual)] = &[
    (
        &["brush", "dust", "strew", "sprinkle", "score", "slash", "stamp", "dip", "egg", "wash", "ladle", "turn"],
        ("such a touch on one piece takes hands", 2, 40),
    ),
    // A side of salmon or a ham is sliced thin, and laid out.
    (&["slice", "carve"], ("one piece is sliced", 2, 3 * MINUTE)),
    // Meat, a side and a sauce on a hot plate.
    (&["serve", "plate"], ("one plate takes hands", 2, 3 * MINUTE)),
    (&["line", "fill", "lid", "crimp"], ("a shell is lined and filled", 5, 4 * MINUTE)),
    // Both are done in one go; what is shaped may be plaited of six.
    (
        &["round", "mould", "ball", "preshape", "pre-shape"],
        ("rounding or moulding one piece takes hands", 3, 2 * MINUTE),
    ),
    (&["shape", "roll", "plait", "braid", "fold"], ("shaping one piece takes hands", 5, 5 * MINUTE)),
    (
        &["cut", "set", "lay", "stretch", "pipe", "scale", "weigh", "divide", "portion", "scoop", "drop"],
        ("one piece takes hands", 3, 90),
    ),
];

/// What hands do with all of a batch.
const HANDS: &[(&Beginnings, Usual)] = &[
    (beginnings!["rub"], ("fat is rubbed in", 2 * MINUTE, 45 * MINUTE)),
    (beginnings!["stir", "whisk", "feed", "blend", "dissolve"], ("such a mix takes hands", MINUTE, 25 * MINUTE)),
    (beginnings!["beat out", "flatten"], ("something is beaten flat", MINUTE, HOUR / 2)),
    (beginnings!["beat", "turn"], ("fat is beaten and a dough is turned", 20, 45 * MINUTE)),
    (beginnings!["fold", "enclose", "lock", "laminat"], ("dough is folded", MINUTE, 45 * MINUTE)),
    (beginnings!["roll"], ("dough is rolled", 2 * MINUTE, 90 * MINUTE)),
    (beginnings!["cool"], ("something is stirred until it is cool", 2 * MINUTE, 90 * MINUTE)),
    (beginnings!["cut", "slice"], ("a batch is cut", 2 * MINUTE, HOUR)),
    (beginnings!["season"], ("food is seasoned", 0, 15 * MINUTE)),
    (beginnings!["brown", "sear"], ("food is browned", 3 * MINUTE, HOUR)),
    (beginnings!["put", "store"], ("things are put away", 0, 25 * MINUTE)),
    (beginnings!["rinse", "wash", "drain"], ("food is rinsed and drained", 0, HOUR)),
    (beginnings!["sweat"], ("vegetables sweat", 4 * MINUTE, HOUR)),
    (beginnings!["boil", "scald", "melt"], ("something is stirred while it gets hot", MINUTE, 45 * MINUTE)),
];

/// What is done in minutes, and in an hour where there is a kettle of it.
const QUICK: &[&str] = &["bind", "thicken", "dissolve", "wilt", "blanch", "scramble", "sear", "bloom"];

/// What is brought to a heat on the hob, by the first word of a step's name.
const HEATS: &[&str] = &["heat", "warm", "scald", "melt"];

/// What is boiled or simmered, by the first word of a step's name.
pub(super) const SIMMERS: &[&str] = &["simmer", "boil", "cook", "poach", "fry", "stew", "churn"];

/// What is usual for a step.
pub(super) fn usual(step: &StepLine, slow: &dyn Fn() -> bool, size: &dyn Fn() -> Size) -> Usual {
    let name = step.name.key.as_str();
    let uses = |word: &Beginnings| {
        step.clauses
            .iter()
            .any(|clause| matches!(&clause.value, StepClause::Using(name, ..) if name.has_word_beginning(word)))
    };
    let in_oven = || is_in_oven(step);
    let has = |clause: StepClause| step.clauses.iter().any(|other| other.value == clause);
    match step.kind.value {
        StepKind::Wait => waits(step),
        _ if uses(beginnings!["mixer"]) => (
            "mixers run",
            if step.name.has_word_beginning(beginnings!["mix", "knead"]) { 2 * MINUTE } else { 0 },
            45 * MINUTE,
        ),
        StepKind::Tend if in_oven() => bakes(step),
        // In fat that is not hot, something cooks gently; without loads, the time is of all of them.
        StepKind::Tend
            if uses(beginnings!["fryer"])
                && step.clauses.iter().any(is_load)
                && celsius(step).is_some_and(|at| at >= Number::whole(150)) =>
        {
            ("hot fat fries", 10, 20 * MINUTE)
        }
        StepKind::Tend if begins(name, &["sweat"]) => ("vegetables sweat", 4 * MINUTE, HOUR),
        // A spoon of spice is brown at once, and meat is not.
        StepKind::Tend if begins(name, &["brown"]) => ("food is browned", 3 * MINUTE, HOUR),
        StepKind::Tend if begins(name, QUICK) && !slow() => ("such a step takes", 0, 75 * MINUTE),
        // A pudding steams for an afternoon.
        StepKind::Tend if begins(name, &["steam"]) => ("food steams", 0, 9 * HOUR),
        StepKind::Tend if begins(name, &["griddle"]) => ("a griddle is tended", 0, 2 * HOUR),
        StepKind::Tend if begins(name, HEATS) && !slow() => ("such a pot gets hot", 0, 2 * HOUR),
        // Ice cream in a small machine or a batch freezer, butter in a churn.
        StepKind::Tend if begins(name, &["churn"]) => ("something is churned", 5 * MINUTE, 90 * MINUTE),
        StepKind::Tend if begins(name, SIMMERS) && !slow() => ("what is no stock simmers", 0, 4 * HOUR + 30 * MINUTE),
        StepKind::Tend => ("such a step is tended", 0, DAY),
        // Who stands at the oven all the time has mistaken the word.
        StepKind::Hands if in_oven() && begins(name, &["bake", "roast"]) => {
            ("an oven keeps hands busy, and else it is tended,", 0, 15 * MINUTE)
        }
        StepKind::Hands if has(StepClause::Each) => {
            let known = EACH.iter().find(|(words, _)| begins(name, words));
            let (what, least, most) = known.map_or(("one piece keeps hands busy", 0, 10 * MINUTE), |(_, usual)| *usual);
            // A stollen is brushed all round, and a large ring lined and trimmed.
            let by_size = most <= 40 || begins(name, &["line", "fill", "lid", "crimp"]);
            let Size { is_large, percent } = size();
            // Who shapes or moulds takes no longer for a loaf than for a roll; who lays out and fills does.
            let percent = match () {
                () if by_size && is_large => {
                    if most <= 40 {
                        250
                    } else {
                        percent.max(250)
                    }
                }
                () if begins(name, &["lay", "fill", "line", "lid", "crimp", "set", "stretch", "pipe", "cut"]) => {
                    if is_large {
                        percent.max(250)
                    } else {
                        percent
                    }
                }
                // A cake is built of layers, cream and fruit, and decorated, whatever its layers are divided into.
                () if known.is_none() && (is_large || percent >= LARGE_PIECE) => 600,
                () => 100,
            };
            (what, least, most * percent / 100)
        }
        StepKind::Hands if step.clauses.iter().any(|clause| matches!(clause.value, StepClause::Into(..))) => {
            ("a fold within a rest takes", 20, 30 * MINUTE)
        }
        StepKind::Hands if step.name.has_word_beginning(beginnings!["knead"]) => {
            ("doughs are kneaded", 2 * MINUTE, 45 * MINUTE)
        }
        StepKind::Hands if begins(name, &["mix"]) => ("doughs are mixed", MINUTE, 45 * MINUTE),
        StepKind::Hands if begins(name, &["stretch"]) => ("a dough is stretched", 15, HOUR),
        // Twenty seconds are for one piece: `each` was forgotten.
        StepKind::Hands if begins(name, &["shape", "round", "mould", "plait", "braid"]) => {
            ("shaping takes hands", MINUTE, 3 * HOUR)
        }
        StepKind::Hands => {
            // What stands on the hob while it is stirred may take its time.
            let hob = step.clauses.iter().any(|clause| matches!(clause.value, StepClause::Using(..)));
            let known = HANDS
                .iter()
                .find(|(words, _)| step.name.has_word_beginning(words) && !(hob && begins(name, &["stir", "whisk"])));
            known.map_or(("one step keeps hands busy", 0, 3 * HOUR), |(_, usual)| *usual)
        }
    }
}

/// How large the pieces of a file are: how much longer hands take for one than for one of up to [`A_HAND`], in percent.
#[derive(Clone, Copy)]
pub(super) struct Size {
    pub(super) is_large: bool,
    pub(super) percent: i64,
}

/// So many grams hands do in the time that the table says; for a tart of a kilogram and more they take seven times as long at most.
const A_HAND: i64 = 150;
const AT_MOST: i64 = 670;
/// From half a kilogram on a piece is a cake.
const LARGE_PIECE: i64 = 333;

/// How large the pieces of a file are.
pub(super) fn size(tree: &Tree) -> Size {
    let grams = |said: Option<&Quantity>| {
        let mass = said.and_then(|said| evaluate(said, None, &mut Vec::new())).and_then(|said| said.mass());
        mass.and_then(|mass| mass.value().floor().to_whole()).unwrap_or(0)
    };
    let (mut divided, mut pieced, mut here, mut by_piece) = (0, 0, 0, false);
    for line in &tree.lines {
        match &line.content {
            Content::Part { .. } => (here, by_piece) = (0, false),
            Content::PerPiece(_) => by_piece = true,
            Content::Divide { sizes, .. } => {
                divided = sizes.iter().map(|size| grams(size.each.first())).max().unwrap_or(0).max(divided);
            }
            Content::Ingredient(line) if by_piece => {
                if let Amount::Chain(chain) = &line.amount {
                    here += grams(chain.first());
                    pieced = pieced.max(here);
                }
            }
            _ => {}
        }
    }
    let percent = (divided.saturating_add(pieced)).saturating_mul(100) / A_HAND;
    Size { is_large: is_large(tree), percent: percent.clamp(100, AT_MOST) }
}

/// Whether pieces of the file weigh 250 g and more, or are made in a tin or a ring.
fn is_large(tree: &Tree) -> bool {
    let heavy = |said: &Quantity| {
        evaluate(said, None, &mut Vec::new())
            .and_then(|said| said.mass())
            .is_some_and(|mass| mass.value() >= Number::whole(250))
    };
    let mut divides = tree
        .lines
        .iter()
        .filter_map(|line| if let Content::Divide { sizes, .. } = &line.content { Some(sizes) } else { None })
        .peekable();
    if divides.peek().is_some() {
        return divides.flatten().any(|size| size.each.first().is_some_and(heavy));
    }
    // Of what is neither divided nor listed by the piece it is not known what a piece weighs.
    let in_a_pan = |line: &Line| matches!(&line.content, Content::Makes { pan: Some(_), .. });
    tree.lines.iter().any(in_a_pan) || !tree.lines.iter().any(|line| matches!(line.content, Content::PerPiece(_)))
}

/// What is done a few pieces at a time: its time is that of one load.
fn is_load(clause: &Spanned<StepClause>) -> bool {
    matches!(clause.value, StepClause::AtATime(_))
}

/// Whether the first word of a name is one of these, or begins as they do; none of them has a blank in it.
pub(super) fn begins(name: &str, words: &[&str]) -> bool {
    words.iter().any(|word| name.starts_with(word))
}

/// Whether a step stands in a refrigerator, by its temperature; what is below freezing is told by another check.
fn is_chilled(step: &StepLine) -> bool {
    place(step).is_some_and(|at| is_cold(at) && !at.celsius().is_negative())
}

fn waits(step: &StepLine) -> Usual {
    let cold = is_chilled(step);
    let Some((words, (what, least, most))) = WAITS.iter().find(|(words, _)| step.name.has_word_beginning(words)) else {
        return if cold { ("the cold takes", 10 * MINUTE, 90 * DAY) } else { ("steps wait", 0, 90 * DAY) };
    };
    if words.words() != WORKS.words() {
        return if cold { ("the cold takes", *least.max(&(10 * MINUTE)), *most) } else { (what, *least, *most) };
    }
    // In twenty minutes yeast has hardly begun.
    let least = &if step.name.has_word_beginning(PROVES) || step.name.has_word_beginning(beginnings!["rise", "rising"])
    {
        18 * MINUTE
    } else {
        *least
    };
    // A preferment ripens slowly with a trace of yeast.
    let slow = step.name.has_word_beginning(beginnings!["ripen", "ferment"]);
    match celsius(step) {
        Some(at) if at >= Number::whole(18) && slow => ("preferments ripen in a warm place", 2 * HOUR, DAY),
        Some(at) if at >= Number::whole(18) => ("doughs rise in a warm place", *least, DAY),
        Some(_) if is_chilled(step) => ("doughs rise in the cold", 3 * HOUR, *most),
        _ => (what, *least, *most),
    }
}

/// In an oven that is hot, things burn; in one that is not, they dry.
fn bakes(step: &StepLine) -> Usual {
    if !step.name.has_word_beginning(beginnings!["bak", "roast"]) {
        let (toasts, dries) = (beginnings!["toast"], beginnings!["dry"]);
        return match celsius(step) {
            Some(at) if step.name.has_word_beginning(toasts) && at >= Number::whole(120) => {
                ("nuts, seeds and crumbs are toasted", MINUTE, 90 * MINUTE)
            }
            Some(at) if step.name.has_word_beginning(dries) && at >= Number::whole(60) && at <= Number::whole(130) => {
                ("an oven dries", 5 * MINUTE, DAY)
            }
            _ => ("ovens bake", 0, 12 * HOUR),
        };
    }
    if step.name.has_word_beginning(beginnings!["blind"]) {
        return ("an empty shell bakes", 5 * MINUTE, 75 * MINUTE);
    }
    match celsius(step) {
        Some(at) if at >= Number::whole(290) => ("so hot an oven bakes", 30, HOUR),
        Some(at) if at >= Number::whole(200) => ("so hot an oven bakes", 5 * MINUTE, 2 * HOUR),
        Some(at) if at >= Number::whole(150) => ("so hot an oven bakes", 5 * MINUTE, 4 * HOUR),
        _ => ("ovens bake", 5 * MINUTE, 12 * HOUR),
    }
}

/// Whether a step uses an oven, whatever it is called.
pub(super) fn is_in_oven(step: &StepLine) -> bool {
    step.clauses
        .iter()
        .any(|clause| matches!(&clause.value, StepClause::Using(name, at, _) if is_oven(&step.name, name, degrees(at))))
}

/// At how many degrees a step stands, if it says so.
pub(super) fn celsius(step: &StepLine) -> Option<Number> {
    step.clauses.iter().find_map(|clause| {
        let (StepClause::At(at) | StepClause::Using(_, at, _)) = &clause.value else { return None };
        degrees(at)
    })
}

/// The same as a temperature.
pub(super) fn place(step: &StepLine) -> Option<Temperature> {
    celsius(step).map(Temperature::from_celsius)
}

/// A temperature that was said, in degrees Celsius.
pub(super) fn degrees(said: &[Quantity]) -> Option<Number> {
    if let Value::Temperature(at) = value(said.first()?)? { Some(at.celsius()) } else { None }
}
