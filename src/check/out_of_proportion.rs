//! `out-of-proportion`: an ingredient that is far too much or far too little beside the others.

use super::dough::{massed, mille, pours_unweighed};
use super::{Check, Family, Run, Subject, tell};
use crate::measure::number::Number;
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show;
use crate::measure::value::Value;
use crate::model::cooking::heat_words::FRIES;
use crate::model::cooking::{beginnings, says, some_says, uses};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};
use crate::model::step::Words;
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::{Diagnostic, Severity};
use seasoned::{Seasoned, is_called_after};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "out-of-proportion",
    severity: Severity::Advice,
    family: Family::Formula,
    looks_for: "an ingredient that is nearly all of a part, or next to nothing of it, or seasons far too much; a weight in the prose that \
                is more than there is",
    why: "3 kg of sesame on a stick of 60 g are 3 g, and 1 g of broccoli beside a kilo of onions is a kilo. Looked at are parts of \
          three lines and more (of two, where both are flour, liquids and the like): one line that is 97 % of all, of five lines and more one that seasons, sweetens or enriches and is 88 %, what is strained out counted; flour, a liquid, fat, egg, meat, fruit or vegetables of less than \
          0.3 %; salt of more than 3 %, lye of more than 6 %, extracts and essences of more than 3 %, spices of more than 15 % and garlic of more than 25 % of what is no brine, rub, spice mix or sauce; what is set aside, if it \
          weighs more than a fifth of the rest, or below `per piece` more than five times all of it; a leaven with no flour; where fat is rubbed in, more fat, sugar or egg than flour; in a pot of pulses and water more fat than pulses; \
          more than 1.5 % of vinegar on the flour of a raised dough (3 % where husks or gums stand for gluten); jam with less than a fifth of sugar on its fruit, or lemon juice of more \
          than a quarter; seeds, sugar or salt by the piece that weigh more than the dough under them (of salt 3 %), seeds strewn on and fat brushed on that weigh more than a third of it; a dough without leaven in which something is poured and that has less than 8 % of water on its flour; a pastry with less than a tenth of fat rubbed in, or more water than three quarters of its flour; three vanilla pods, bay leaves and the like and more, each beside next to nothing; in a custard less than an eighth or more than four fifths of egg, or more than half or, where nothing in it is savoury, less than a fortieth of \
          sugar, on its milk; in what starch thickens more than a fifth of it; fat that is more than \
          a third of what it sweats; in what is mixed of flour, fat, sugar and egg, flour that is more than 72 % of it, egg more than 65 %, sugar more than 60 % or fat more than 55 %, \
          and flour of less than 8 % beside nothing that stands for it; in a meringue sugar of less than 45 % or more than three and a half times the white of egg; water or milk of less than 3 g in a part of 100 g and more; soda that takes up all acid of what is said to be sour, soda of more than 2.5 % on pulses and 0.5 % on milk that is boiled down; more of one ingredient for each portion than anybody eats of it, or a mouthful of the meat or grain that it is of; and in steps, weights such as `{350 kg}`. It is advice: if it is meant so, `# allow \
          out-of-proportion: reason` above the line keeps it quiet.",
    bad: "recipe Leek pot\npotato .... 60 g\nleek .... 80 g\ngarlic .... 4 kg\nboil: tend 20 min, using hob\n    Boil {potato}, {leek} and \
          {garlic}.\n    until soft\n",
    good: "recipe Leek pot\npotato .... 60 kg\nleek .... 80 kg\ngarlic .... 4 kg\nboil: tend 20 min, using hob\n    Boil {potato}, {leek} and \
           {garlic}.\n    until soft\n",
    sources: &["common practice, no source"],
    run: Run::Parts(run),
};

mod seasoned;
mod soda_and_acid;

/// What is a pinch beside others and is meant so.
const PINCHES: &Beginnings = &Beginnings::of(&[
    "zest",
    "peel",
    "juice",
    "chilli",
    "chili",
    "ginger",
    "garlic",
    "powder",
    "dried",
    "truffle",
    "horseradish",
    "shallot",
    "lemon",
    "lime",
]);

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let before = diagnostics.len();
    in_parts(subject, diagnostics);
    // What is unusual beside the rest of its part needs no second word. All that is eaten lies in the last part.
    let last =
        subject.whole_parts().find(|(id, ..)| subject.recipe.is_final(*id)).filter(|_| diagnostics.len() == before);
    if let Some((_, part, solved)) = last {
        let found = super::per_portion::too_much(subject, CHECK.name);
        let found = found.or_else(|| super::per_portion::next_to_none(subject, CHECK.name));
        let named = || super::namesake::run((subject.recipe, subject.formula), part, solved);
        tell(diagnostics, found.or_else(|| named().map(|(line, message)| advice(line, message))));
    }
}

fn in_parts(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (id, part, solved) in subject.whole_parts() {
        tell(diagnostics, leaven_alone(subject.recipe, id, part));
        tell(diagnostics, heavier_than_all(part, solved));
        tell(diagnostics, much_aside(part, solved));
        tell(diagnostics, one_in_a_crowd(part, solved));
        tell(diagnostics, super::proportions::run(subject, part, solved).map(|(line, message)| advice(line, message)));
        tell(
            diagnostics,
            soda_and_acid::problem(subject.recipe, part, solved).map(|(line, message)| advice(line, message)),
        );
        tell(diagnostics, super::churned::run(subject, id, part).map(|(line, message)| advice(line, message)));
        if part.from.is_some() || pours_unweighed(part, solved) {
            continue;
        }
        let lines: Vec<(&Ingredient, Mass)> = massed(part, solved).filter(|(_, mass)| *mass > Mass::ZERO).collect();
        let Ok(total) = Mass::sum(lines.iter().map(|(_, mass)| *mass)) else { continue };
        let seasoned = Seasoned::of(subject.recipe, part, solved);
        let is_cooked_in_fat = |line: &Ingredient| {
            line.kind.is_flesh() || line.kind == Kind::Vegetable && !line.name.has_word_beginning(PINCHES)
        };
        let beside_fat = lines.iter().any(|(line, _)| is_cooked_in_fat(line));
        let bodies = lines.iter().filter(|(line, _)| is_body(line.kind)).count();
        // Cheese and soured milk are all milk but for some drops.
        let is_set = lines.iter().any(|(line, _)| line.name.has_word_beginning(beginnings!["rennet", "cultur"]));
        let before = diagnostics.len();
        for (line, mass) in &lines {
            let Ok(share) = mass.as_share_of(total) else { continue };
            let much = too_much(line, *mass, share, (lines.len(), total), &seasoned, (bodies > 1, beside_fat))
                .filter(|_| !(is_set && line.kind == Kind::Milk));
            let little = too_little(subject.recipe, id, line, *mass, share, (lines.len(), total));
            if much.is_some() || little.is_some() {
                diagnostics.extend(much.into_iter().chain(little));
            }
        }
        // One line of a thousand times the weight makes all others too little; it is told, and they are not.
        if let Some(heavy) = diagnostics.iter().skip(before).position(|problem| problem.label == NEARLY_ALL) {
            diagnostics.swap(before, before + heavy);
            diagnostics.truncate(before + 1);
        }
    }
}

const NEARLY_ALL: &str = "nearly all of it";

fn advice(line: &Ingredient, message: String) -> Diagnostic {
    Diagnostic::advice(CHECK.name, line.amount_span, message)
        .help("look whether the unit is right, g or kg, whether a point has slipped, and whether two lines are swapped")
}

/// A line that is too large or too small a share of its part.
fn unusual(line: &Ingredient, mass: Mass, share: Proportion, total: Mass, only: &str) -> Diagnostic {
    let (mass, share, total) = (show::mass_plain(mass), show::percent(share), show::mass_plain(total));
    advice(line, format!("{mass} of {} are {only}{share} of all {total}: that is unusual", line.name))
}

fn too_much(
    line: &Ingredient,
    mass: Mass,
    share: Proportion,
    (count, total): (usize, Mass),
    seasoned: &Seasoned<'_>,
    (beside_body, beside_fat): (bool, bool),
) -> Option<Diagnostic> {
    // No bound is lower, but for what is pungent.
    if share <= mille(30) && (share <= mille(5) || pungent(line).is_none()) {
        return None;
    }
    let high = match line.kind {
        _ if count < 2 => return None,
        Kind::Salt if !seasoned.is_seasoned() => mille(30),
        // A sauce, a herb butter and a buttercream are eaten by the spoon.
        Kind::Salt if !seasoned.is_salty() => mille(80),
        // A bath for pretzels has 3 to 4 %; ten burn through gloves.
        Kind::Lye => mille(60),
        _ if count > 2 && is_essence(line) => mille(30),
        kind if count < 3 && is_body(kind) && beside_body => mille(985),
        _ if count < 3 => return None,
        // A coat of pepper, a rub and a pickle have more of it.
        _ if count > 3
            && total >= A_DISH
            && pungent(line).is_some()
            && !(seasoned.is_seasoned() && seasoned.is_blend()) =>
        {
            let most = pungent(line).unwrap_or(1000);
            mille(if seasoned.is_seasoned() { most * 2 } else { most })
        }
        Kind::Spice | Kind::Thickener | Kind::Yeast(_) | Kind::BakingPowder | Kind::Soda if !seasoned.is_seasoned() => {
            mille(150)
        }
        // Brine, kraut and curry take more of it, and no kilogram.
        Kind::Spice if !seasoned.is_blend() => mille(400),
        _ if line.name.has_word_beginning(beginnings!["garlic"]) && !seasoned.is_seasoned() => mille(250),
        // Cheese is milk, a little salt and next to no rennet.
        Kind::Milk => mille(998),
        Kind::Dairy => mille(980),
        kind if kind.is_liquid() || matches!(line.refers, Refers::Part(_)) => mille(990),
        // Fat that is nearly all of what is cooked in it is a slip; with herbs and spices alone it is scented.
        Kind::Fat if !seasoned.is_seasoned() && beside_fat => mille(930),
        // What ferments in its own juice is all but 2 % of salt and some spice.
        Kind::Vegetable | Kind::Fruit if seasoned.is_seasoned() => mille(990),
        // A roast is all meat but for salt and butter, and a patty but for salt and pepper.
        kind if kind.is_flesh() => mille(992),
        Kind::Vegetable => mille(985),
        _ => mille(970),
    };
    if share <= high || seasoned.is_of(line) && share <= mille(990) {
        return None;
    }
    Some(unusual(line, mass, share, total, "").label(if high >= mille(900) { NEARLY_ALL } else { "" }))
}

/// What is pungent, and how many thousandths of what is eaten it is at most, with room of three. Common practice, no source.
const PUNGENT: &[(&Beginnings, i64)] = &[
    (&Beginnings::of(&["cayenne"]), 5),
    (&Beginnings::of(&["black pepper", "white pepper", "ground pepper"]), 12),
    (&Beginnings::of(&["turmeric"]), 12),
    (&Beginnings::of(&["citric acid"]), 15),
    (&Beginnings::of(&["paprika"]), 45),
    (&Beginnings::of(&["mustard powder"]), 45),
    (&Beginnings::of(&["curry powder", "garam masala"]), 55),
    (&Beginnings::of(&["instant coffee"]), 80),
    (&Beginnings::of(&["lemon zest", "orange zest", "lime zest"]), 45),
];

fn pungent(line: &Ingredient) -> Option<i64> {
    if !matches!(line.kind, Kind::Spice | Kind::Other | Kind::Seasoning | Kind::Fruit) || line.part().is_some() {
        return None;
    }
    PUNGENT.iter().find(|(words, _)| line.name.has_word_beginning(words)).map(|(_, most)| *most)
}

/// What flavours by drops. Malt extract and yeast extract are eaten by the spoon.
fn is_essence(line: &Ingredient) -> bool {
    let ends_in = |ends: &[&str]| ends.iter().any(|end| line.name.key.as_str().ends_with(end));
    let essences = [
        "vanilla extract",
        "almond extract",
        "lemon extract",
        "orange extract",
        "peppermint extract",
        "essence",
        "orange blossom water",
        "rose water",
    ];
    ends_in(&["extract", "essence", "water"]) && ends_in(&essences)
}

/// What is a body of what it goes into: less than three in a thousand of it is a slip.
fn is_body(kind: Kind) -> bool {
    kind.is_poured()
        || kind.is_flesh()
        || matches!(
            kind,
            Kind::Flour
                | Kind::Bread
                | Kind::Egg
                | Kind::Dairy
                | Kind::Fruit
                | Kind::Vegetable
                | Kind::Pulse
                | Kind::Grain
        )
}

/// Less is a spoonful of something that goes into a dish.
const A_DISH: Mass = Mass::new(Number::whole(300));

/// So much water or milk clings to the spoon.
const A_DROP: Mass = Mass::new(Number::whole(3));

fn too_little(
    recipe: &Recipe,
    id: PartId,
    line: &Ingredient,
    mass: Mass,
    share: Proportion,
    (count, total): (usize, Mass),
) -> Option<Diagnostic> {
    let low = match line.kind {
        Kind::Water | Kind::Milk if mass < A_DROP && total >= Mass::new(Number::whole(100)) => Proportion::WHOLE,
        kind if is_body(kind) => mille(3),
        Kind::Fat | Kind::Sugar | Kind::Nut => mille(1),
        _ => return None,
    };
    let pinch = || line.name.has_word_beginning(PINCHES) || matches!(line.refers, Refers::Part(_)) || line.optional;
    // A preferment may take the rest of it, and a seed is small.
    let shared = || recipe.preferments(id).next().is_some() || line.kind == Kind::Leaven;
    if count < 3 || share >= low || shared() || pinch() {
        return None;
    }
    Some(unusual(line, mass, share, total, "only "))
}

/// A weight in a step that is more than all there is.
fn heavier_than_all(part: &Part, solved: &SolvedPart) -> Option<Diagnostic> {
    let all = solved.goes_in?;
    let all = solved.makes.map_or(all, |makes| makes.max(all));
    for step in &part.steps {
        // What is laid on to press is none of it.
        let is_laid_on =
            || says(step, beginnings!["weight", "weigh down", "weighted", "weighed down", "press", "board"]);
        for word in &step.words {
            let Words::Measure(said) = word else { continue };
            let Some(first) = said.first() else { continue };
            let Value::Mass(mass) = first.value else { continue };
            if all > Mass::ZERO && all.times(Number::constant(6, 5)).is_ok_and(|most| mass > most) && !is_laid_on() {
                let message = format!(
                    "`{}` speaks of {}, and `{}` has {} in all",
                    step.name,
                    show::mass_plain(mass),
                    part.name,
                    show::mass_plain(all)
                );
                return Some(
                    Diagnostic::advice(CHECK.name, first.span, message).help("look whether the unit is right, g or kg"),
                );
            }
        }
    }
    None
}

/// What seasons, sweetens or enriches and is nearly all of a part of many lines, what is strained out and drawn counted too: kilograms for grams.
fn one_in_a_crowd(part: &Part, solved: &SolvedPart) -> Option<Diagnostic> {
    let weighed = || {
        let own = part.lines.iter().zip(&solved.lines).filter_map(|(line, amount)| Some((line, amount.mass?)));
        own.filter(|(line, mass)| *mass > Mass::ZERO && !(line.aside && line.kind == Kind::Fat))
    };
    if part.per_piece || weighed().count() < 5 {
        return None;
    }
    let total = Mass::sum(weighed().map(|(_, mass)| mass)).ok()?;
    let (line, mass) = weighed().max_by_key(|(_, mass)| *mass)?;
    let share = mass.as_share_of(total).ok()?;
    let is_little = match line.kind {
        Kind::Fat => line.stays_in(),
        Kind::Spice
        | Kind::Salt
        | Kind::Sugar
        | Kind::Syrup
        | Kind::Dairy
        | Kind::Nut
        | Kind::Seed
        | Kind::Thickener => true,
        Kind::Chocolate | Kind::Egg | Kind::Vinegar | Kind::Juice | Kind::Soda | Kind::BakingPowder => true,
        Kind::Yeast(_) | Kind::Seasoning | Kind::Spirit => true,
        _ => false,
    };
    // What is nearly all of what stays in is told already.
    let told = massed(part, solved).count() > 2 && line.stays_in() && share > mille(970);
    let most = match line.kind {
        Kind::Spice => mille(800),
        _ if is_called_after(part, line) => mille(980),
        _ => mille(880),
    };
    (is_little && share > most && !told).then(|| unusual(line, mass, share, total, "").label(NEARLY_ALL))
}

/// What is done in much fat, by the beginnings of words.
const IN_FAT: &Beginnings =
    &Beginnings::of(&["fry", "fried", "deep", "confit", "clarif", "poach", "cover", "seal", "submerge", "pour"]);

/// More for the board and the tins than a fifth of all that is made; what is fried or boiled in something takes much of it.
fn much_aside(part: &Part, solved: &SolvedPart) -> Option<Diagnostic> {
    let all = solved.goes_in.filter(|all| *all > Mass::ZERO)?;
    if part.per_piece {
        // A fryer holds more than a piece, and none is filled for each.
        return part.lines.iter().zip(&solved.lines).find_map(|(line, amount)| {
            let own = matches!(line.refers, Refers::Pantry(_));
            let mass = amount.mass.filter(|_| line.aside && own && !matches!(line.kind, Kind::Water | Kind::Ice | Kind::Lye | Kind::Brine))?;
            if mass.over(Number::whole(5)).ok()? <= all {
                return None;
            }
            let message = format!(
                "{} of {} are set aside for pieces that weigh {} together: below `per piece` every amount is that of one",
                show::mass_plain(mass), line.name, show::mass_plain(all)
            );
            Some(advice(line, message).help("write it in a part that is not `per piece`, or what one piece takes of it"))
        });
    }
    part.lines.iter().zip(&solved.lines).find_map(|(line, amount)| {
        // A bath of lye or brine, or a glaze, is made to be dipped in, and fat to be fried or kept in.
        let own = matches!(line.refers, Refers::Pantry(_));
        let mass = amount.mass.filter(|_| {
            line.aside && own && !matches!(line.kind, Kind::Water | Kind::Ice | Kind::Salt | Kind::Lye | Kind::Brine)
        })?;
        let is_bath =
            || line.is_to_fry_in() || some_says(part, IN_FAT) || part.steps.iter().any(|step| uses(step, FRIES));
        if line.kind == Kind::Fat && is_bath() {
            return None;
        }
        if line.name.has_word_beginning(beginnings!["bath", "brine", "lye"]) {
            return None;
        }
        if mass.times(Number::whole(5)).ok()? <= all {
            return None;
        }
        let message = format!(
            "{} of {} are set aside beside {} that go in",
            show::mass_plain(mass),
            line.name,
            show::mass_plain(all)
        );
        Some(advice(line, message))
    })
}

/// Yeast in a part of several lines without anything that it could raise.
fn leaven_alone(recipe: &Recipe, id: PartId, part: &Part) -> Option<Diagnostic> {
    let yeast = part.lines.iter().find(|line| line.kind.is_yeast())?;
    let feeds = |line: &Ingredient| {
        line.is_flour
            || matches!(line.refers, Refers::Part(_))
            || (matches!(line.refers, Refers::Pantry(None)) && line.kind == Kind::Other)
            || matches!(
                line.kind,
                Kind::Flour | Kind::Grain | Kind::Bread | Kind::Fruit | Kind::Juice | Kind::Pulse | Kind::Other
            )
    };
    let alone = recipe.parts.is_single() || (part.from.is_none() && recipe.preferments(id).next().is_none());
    if part.lines.len() < 3 || part.lines.iter().any(feeds) || !alone {
        return None;
    }
    let message = format!("`{}` has {} and no flour", part.name, yeast.name);
    Some(Diagnostic::advice(CHECK.name, yeast.span, message).help(
        "look whether the flour is missing, or another powder stands in its place; what else counts as flour says so",
    ))
}
