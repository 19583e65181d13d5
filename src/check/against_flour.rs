//! What cakes, biscuits and batters have of fat, sugar, egg and liquid beside their flour, and fat beside the sugar that it is creamed with:
//! what `out-of-proportion` looks for where no leaven gives percentages of bakers.
//!
//! Each is compared with what is left when it is taken away: ten times the butter makes the flour of a brownie next to nothing, so that shares
//! of the whole tell nothing of it. The bounds lie half as far again as what is printed. Common practice, no source.

use super::dough::{mass_of, massed};
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::model::cooking::raw_flesh::is_flesh;
use crate::model::cooking::{bakes, beginnings, called, cooks, some_says, words_of};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, Part};
use crate::model::step::{Step, StepKind, Words};
use crate::solve::formula::SolvedPart;

/// A line, and what is unusual about it.
type Odd<'p> = (&'p Ingredient, String);
/// Whether a line is of one sort.
type Is = fn(&Ingredient) -> bool;

/// What is bound otherwise than a batter or a short dough, or is none, by the beginnings of words in a part's name.
#[rustfmt::skip]
const OTHERWISE: &Beginnings = &Beginnings::of(&[
    "roux", "sauce", "gravy", "soup", "custard", "cream", "crème", "filling", "dust", "coat", "dredg", "syrup", "caramel", "icing", "glaze",
    "frosting", "souffl", "clafoutis", "flan", "omel", "frittata", "dumpling", "curd", "topping", "wash", "praline", "block", "butter|",
    "slab", "lamination", "lava", "molten",
]);

/// Flour and what stands for it.
fn is_body(line: &Ingredient) -> bool {
    line.is_any_flour()
        || matches!(
            line.kind,
            Kind::Starch | Kind::Nut | Kind::Seed | Kind::Grain | Kind::Chocolate | Kind::Bread | Kind::Pulse
        )
}

/// Of what, and how many times the flour and what stands for it there is at most.
const MOST: &[(Is, &str, Number)] = &[
    (|line| line.kind == Kind::Fat, "fat", Number::constant(8, 5)),
    (|line| line.kind.is_sweet(), "sugar", Number::constant(16, 5)),
    (|line| line.kind == Kind::Egg, "egg", Number::constant(9, 2)),
    (|line| line.kind.is_poured(), "liquid", Number::whole(5)),
];

pub(super) fn run<'p>(part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    // A list of amounts says nothing of what is made of it.
    // Of a dough that yeast raises its percentages tell.
    if part.per_piece
        || part.from.is_some()
        || part.steps.is_empty()
        || part.lines.iter().any(|line| line.kind.ferments())
        || !part.lines.iter().any(|line| line.is_any_flour() || matches!(line.kind, Kind::Fat | Kind::Nut))
    {
        return None;
    }
    beside_flour(part, solved)
        .or_else(|| stiff_batter(part, solved))
        .or_else(|| creamed(part, solved))
        .or_else(|| buried(part, solved))
        .or_else(|| thickened(part, solved))
        .or_else(|| foamed(part, solved))
        .or_else(|| thin_batter(part, solved))
        .or_else(|| macarons(part, solved))
}

/// Flour that is folded into a foam of eggs and sugar is less than they are.
fn foamed<'p>(part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    part.lines.iter().find(|line| line.kind == Kind::Egg)?;
    let (line, _) = massed(part, solved).find(|(line, _)| line.is_any_flour())?;
    let only = |line: &Ingredient| {
        line.is_any_flour()
            || matches!(
                line.kind,
                Kind::Egg | Kind::Sugar | Kind::Salt | Kind::Spice | Kind::RaisingAgent | Kind::Starch | Kind::Spirit
            )
            || line.name.has_word_beginning(beginnings!["vanilla", "zest", "lemon zest"])
    };
    if !part.lines.iter().all(only)
        || !some_says(part, beginnings!["whisk", "whip", "beat"])
        || !some_says(part, beginnings!["fold"])
    {
        return None;
    }
    let flour = mass_of(part, solved, |line| line.is_any_flour() || line.kind == Kind::Starch)?;
    let foam =
        mass_of(part, solved, |line| matches!(line.kind, Kind::Egg | Kind::Sugar)).filter(|foam| *foam > Mass::ZERO)?;
    (flour > foam.times(Number::constant(6, 5)).ok()?).then(|| {
        let message = format!(
            "{} of flour folded into {} of egg and sugar: that is unusual",
            show::mass_plain(flour),
            show::mass_plain(foam)
        );
        (line, message)
    })
}

/// What is called a batter and is poured, with so little flour that it is milk and eggs.
fn thin_batter<'p>(part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    let is_called = part.name.has_word_beginning(beginnings![
        "batter",
        "pancake",
        "crepe",
        "crêpe",
        "yorkshire",
        "waffle",
        "popover",
        "toad in"
    ]);
    let (line, _) = massed(part, solved)
        .filter(|(line, _)| line.is_any_flour())
        .max_by_key(|(_, mass)| *mass)
        .filter(|_| is_called)?;
    let body = mass_of(part, solved, is_body)?;
    let wet = mass_of(part, solved, |line| line.kind.is_poured() || line.kind == Kind::Egg)?;
    let open = part.lines.iter().any(|line| line.kind == Kind::Other || line.part().is_some());
    (!open && wet > body.times(Number::whole(8)).ok()?).then(|| {
        let message = format!(
            "{} of flour in {} of liquid and egg: that is no batter",
            show::mass_plain(body),
            show::mass_plain(wet)
        );
        (line, message)
    })
}

/// Macarons are of nuts, powdered sugar, egg white and sugar, each about as much as the nuts: none is twice and a half of them, nor a third.
fn macarons<'p>(part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    if !part.name.has_word_beginning(beginnings!["macaron|", "macarons|", "macaron shell"]) {
        return None;
    }
    let is_powder = |line: &Ingredient| {
        line.kind == Kind::Sugar && line.name.has_word_beginning(beginnings!["icing", "powdered", "confectioner"])
    };
    let nuts = mass_of(part, solved, |line| line.kind == Kind::Nut).filter(|nuts| *nuts > Mass::ZERO)?;
    let rows: [&dyn Fn(&Ingredient) -> bool; 3] =
        [&is_powder, &|line| line.kind == Kind::Sugar && !is_powder(line), &|line| line.is_egg_white()];
    rows.iter().find_map(|is| {
        let mass = mass_of(part, solved, is).filter(|mass| *mass > Mass::ZERO)?;
        let (line, _) = massed(part, solved).find(|(line, _)| is(line))?;
        let odd = mass > nuts.times(Number::constant(5, 2)).ok()? || mass.times(Number::whole(3)).ok()? < nuts;
        odd.then(|| {
            (
                line,
                format!(
                    "{} of {} beside {} of nuts: that is unusual in macarons",
                    show::mass_plain(mass),
                    line.name,
                    show::mass_plain(nuts)
                ),
            )
        })
    })
}

/// Whether a line is none that a cake, a biscuit or a batter is of.
fn is_of_a_dish(line: &Ingredient) -> bool {
    is_flesh(line)
        || matches!(
            line.kind,
            Kind::Vegetable | Kind::Vinegar | Kind::Brine | Kind::Lye | Kind::Leaven | Kind::Fruit | Kind::Juice
        )
        || line.kind.is_yeast()
        || line.part().is_some()
        || !line.stays_in()
}

fn beside_flour<'p>(part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    part.lines.iter().find(|line| line.is_any_flour())?;
    let is_other =
        |line: &Ingredient| is_of_a_dish(line) && !matches!(line.kind, Kind::Fruit | Kind::Juice) && line.stays_in();
    let is_cake = |line: &Ingredient| line.kind == Kind::Egg || line.kind.is_sweet() || line.kind.is_chemical_raising();
    let on_the_hob = || part.steps.iter().any(|step| step.kind != StepKind::Wait && cooks(step) && !bakes(step));
    if part.name.has_word_beginning(OTHERWISE) || part.lines.iter().any(is_other) || !part.lines.iter().any(is_cake) {
        return None;
    }
    let is_creamed = part.steps.iter().any(|step| is_creaming(part, step));
    let all = mass_of(part, solved, |_| true)?;
    let body = mass_of(part, solved, is_body).filter(|body| *body > Mass::ZERO)?;
    // What fruit and cream hold may stand for liquid and for flour.
    let moist = mass_of(part, solved, |line| matches!(line.kind, Kind::Fruit | Kind::Juice | Kind::Dairy))?;
    if moist > body {
        return None;
    }
    let is_poured = part.lines.iter().any(|line| line.kind.is_poured())
        && part.lines.iter().any(|line| line.kind.is_chemical_raising());
    MOST.iter().find_map(|(is, what, most)| {
        // Of what is creamed or raised with powder, eggs are less than what is whisked to a foam.
        let most = match *what {
            "egg" if is_creamed => Number::constant(3, 2),
            "egg" if is_poured => Number::constant(5, 2),
            "liquid" if on_the_hob() => return None,
            _ => *most,
        };
        let mass = mass_of(part, solved, |line| is(line) && !line.is_to_fry_in())?;
        let rest = all.minus(mass).ok()?;
        // Flour that thickens is little beside all else.
        let is_flour_body = body.times(Number::whole(7)).ok()? >= rest;
        if !is_flour_body || mass <= body.times(most).ok()? {
            return None;
        }
        let (line, _) = massed(part, solved).filter(|(line, _)| is(line)).max_by_key(|(_, mass)| *mass)?;
        let message = format!(
            "{} of {what} beside {} of flour and what stands for it: that is unusual",
            show::mass_plain(mass),
            show::mass_plain(body)
        );
        Some((line, message))
    })
}

/// What is poured or dropped from a spoon, by the beginnings of words.
const POURED: &Beginnings = &Beginnings::of(&["batter", "pour", "ladle", "whisk"]);
/// What is worked by hand.
const WORKED: &Beginnings =
    &Beginnings::of(&["knead", "roll", "rub", "shape", "cut", "press", "cream", "pat|", "crumb", "dumpling"]);

/// A batter that is poured has more that wets it than half its flour.
fn stiff_batter<'p>(part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    let (line, _) = massed(part, solved).filter(|(line, _)| line.is_any_flour()).max_by_key(|(_, mass)| *mass)?;
    let wets = |line: &Ingredient| line.kind.is_liquid() || matches!(line.kind, Kind::Egg | Kind::Ice);
    let open = |line: &Ingredient| {
        matches!(line.kind, Kind::Other | Kind::Dairy | Kind::Fruit | Kind::Vegetable) || line.part().is_some()
    };
    if part.lines.iter().any(open)
        || !part.lines.iter().any(|line| line.kind.is_poured())
        || part.lines.iter().any(|line| line.kind.ferments())
    {
        return None;
    }
    if !some_says(part, POURED) || some_says(part, WORKED) || part.name.has_word_beginning(OTHERWISE) {
        return None;
    }
    let flour = mass_of(part, solved, Ingredient::is_any_flour)?;
    let wet = mass_of(part, solved, |line| wets(line) || line.kind == Kind::Fat && !line.is_to_fry_in())?;
    let weighed = part.lines.iter().zip(&solved.lines).all(|(line, amount)| !wets(line) || amount.mass.is_some());
    (weighed && wet.times(Number::whole(2)).ok()? < flour).then(|| {
        let message = format!(
            "{} of flour and {} that wet it make no batter that is poured",
            show::mass_plain(flour),
            show::mass_plain(wet)
        );
        (line, message)
    })
}

/// What is creamed of fat and sugar, with so little flour that it is a sweet butter: not what is of nuts, starch or chocolate that is melted.
fn buried<'p>(part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    let (line, _) = massed(part, solved).filter(|(line, _)| line.is_any_flour()).max_by_key(|(_, mass)| *mass)?;
    let stands_for_it = |line: &Ingredient| {
        let is_cream = || {
            line.name.has_word_beginning(beginnings!["double cream", "whipping cream", "heavy cream", "single cream"])
        };
        matches!(
            line.kind,
            Kind::Nut | Kind::Seed | Kind::Grain | Kind::Bread | Kind::Starch | Kind::Pulse | Kind::Other
        ) || line.kind == Kind::Dairy && !is_cream()
            || line.part().is_some()
    };
    let creams = part.steps.iter().any(|step| step.kind != StepKind::Wait && is_creaming(part, step));
    if !creams || part.lines.iter().any(stands_for_it) || part.name.has_word_beginning(OTHERWISE) {
        return None;
    }
    let flour = mass_of(part, solved, Ingredient::is_any_flour)?;
    let rich = mass_of(part, solved, |line| line.kind == Kind::Fat || line.kind.is_sweet() || line.kind == Kind::Egg)?;
    let eight = flour.times(Number::whole(8)).ok()?;
    let third = rich.times(Number::constant(5, 2)).ok()?;
    if eight >= rich && flour <= third {
        return None;
    }
    let message = format!(
        "{} of flour beside {} of fat, sugar and egg: that is unusual where fat and sugar are beaten",
        show::mass_plain(flour),
        show::mass_plain(rich)
    );
    Some((line, message))
}

/// A white sauce: a twentieth to a sixth of flour on what is poured in; three tenths make a paste to be fried.
const SAUCES: &Beginnings = &Beginnings::of(&["sauce", "béchamel", "bechamel", "velout", "gravy"]);

fn thickened<'p>(part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    if !part.name.has_word_beginning(SAUCES) || !part.steps.iter().any(cooks) {
        return None;
    }
    let (line, _) = massed(part, solved).find(|(line, _)| line.is_any_flour())?;
    let open = |line: &Ingredient| {
        matches!(line.kind, Kind::Other | Kind::Dairy | Kind::Vegetable | Kind::Fruit) || line.part().is_some()
    };
    let flour = mass_of(part, solved, Ingredient::is_any_flour)?;
    let poured = mass_of(part, solved, |line| line.kind.is_liquid()).filter(|poured| *poured > Mass::ZERO)?;
    if part.lines.iter().any(open) || flour.times(Number::whole(10)).ok()? <= poured.times(Number::whole(3)).ok()? {
        return None;
    }
    let message = format!(
        "{} of flour in {} that it thickens: that is unusual in a sauce",
        show::mass_plain(flour),
        show::mass_plain(poured)
    );
    Some((line, message))
}

/// Fat that is beaten with sugar: of one there is an eighth of the other at least.
fn creamed<'p>(part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    let step = part.steps.iter().find(|step| step.kind != StepKind::Wait && is_creaming(part, step))?;
    let of = |is: Is| {
        let taken = step.lines_taken().filter_map(|at| Some((part.lines.get(at)?, solved.lines.get(at)?.mass)));
        let own: Option<Vec<Mass>> = taken.filter(|(line, _)| is(line)).map(|(_, mass)| mass).collect();
        Mass::sum(own?).ok().filter(|mass| *mass > Mass::ZERO)
    };
    let (fat, sugar) = (of(|line| line.kind == Kind::Fat)?, of(|line| line.kind.is_sweet())?);
    let eight = |mass: Mass| mass.times(Number::whole(8));
    let little_fat = eight(fat).ok()? < sugar;
    if !little_fat && eight(sugar).ok()? >= fat {
        return None;
    }
    let is = |line: &Ingredient| if little_fat { line.kind == Kind::Fat } else { line.kind.is_sweet() };
    let line = step.lines_taken().filter_map(|at| part.lines.get(at)).find(|line| is(line))?;
    let message = format!(
        "{} of fat are beaten with {} of sugar: that is unusual",
        show::mass_plain(fat),
        show::mass_plain(sugar)
    );
    Some((line, message))
}

/// Whether a step begins with fat that is beaten with sugar: `Beat {butter} and {caster sugar}`.
fn is_creaming(part: &Part, step: &Step) -> bool {
    let words = words_of(step);
    if !called(step, beginnings!["cream", "beat"]) && !words.contains("cream ") && !words.contains("beat ") {
        return false;
    }
    let mut uses = step.words.iter().filter_map(|word| match word {
        Words::Use { target: Some(crate::model::step::Target::Line(at)), .. } => part.lines.get(*at),
        _ => None,
    });
    matches!((uses.next(), uses.next()), (Some(fat), Some(sugar)) if fat.kind == Kind::Fat && !fat.is_oil() && sugar.kind == Kind::Sugar)
        && matches!(step.words.first(), Some(Words::Text(text)) if ["beat ", "cream "].iter().any(|verb| text.to_lowercase().trim_start().starts_with(verb)))
}
