//! Proportions that a way of working wants: what `out-of-proportion` looks for beside shares of the whole.

use super::Subject;
use super::dough::{is_dough, mass_of, massed, mille, pours_unweighed};
use super::odd_method::CUSTARDS;
use crate::measure::number::Number;
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show;
use crate::measure::value::Value;
use crate::model::cooking::{beginnings, called, has_word_beginning, may_say, saying, says, some_says};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, LineAmount, Part, Refers};
use crate::model::step::{Step, Target, Words};
use crate::solve::formula::SolvedPart;
use std::cell::LazyCell;

/// A line, and what is unusual about it.
type Odd<'p> = (&'p Ingredient, String);

/// The first line of a part that does not suit what is done with it.
pub(super) fn run<'p>(subject: &Subject<'p>, part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    if part.from.is_some() {
        return super::roles::run(subject, part, solved);
    }
    heavy_topping(subject, part, solved)
        .or_else(|| rubbed_in(part, solved))
        .or_else(|| sour_dough(part, solved))
        .or_else(|| of_fruit(subject, part, solved))
        .or_else(|| swims(part, solved))
        .or_else(|| custard(part, solved))
        .or_else(|| fat_in_the_pot(part, solved))
        .or_else(|| stiff(subject, part, solved))
        .or_else(|| dry_dough(part, solved))
        .or_else(|| counted(subject, part, solved))
        .or_else(|| super::pots::run(subject, part, solved))
        .or_else(|| super::in_a_mix::run(part, solved))
        .or_else(|| super::against_flour::run(part, solved))
        .or_else(|| super::poured_over::run(subject.recipe, part, solved))
        .or_else(|| super::roles::run(subject, part, solved))
}

/// A dough that nothing raises and into which something is poured: fat alone binds a shortbread, but then nothing is poured. So little water
/// binds nothing.
fn dry_dough<'p>(part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    let composition = &solved.composition;
    let known = part.lines.iter().all(|line| line.kind != Kind::Other && line.part().is_none());
    if part.per_piece || !known || !is_dough(part, solved) || composition.unknown.water > Mass::ZERO {
        return None;
    }
    let crumbs = part.name.has_word_beginning(beginnings![
        "crumb", "streusel", "mix", "dust", "dredg", "coat", "breading", "flour", "rub"
    ]);
    let hydration = composition.hydration()?;
    let (line, _) = massed(part, solved).find(|(line, _)| line.kind.is_poured())?;
    let dry = !crumbs && !pours_unweighed(part, solved) && hydration < mille(80) && hydration > Proportion::ZERO;
    let all = || {
        format!(
            "{} of water in all, {} on the flour, bind no dough",
            show::mass_plain(composition.water),
            show::percent(hydration)
        )
    };
    dry.then(|| (line, all()))
}

/// What flavours by the piece: for how many grams of the rest one is plenty.
const BY_THE_PIECE: &[(&Beginnings, i64)] = &[
    (beginnings!["vanilla pod", "vanilla bean"], 100),
    (beginnings!["bay lea"], 20),
    (beginnings!["star anise"], 15),
    (beginnings!["cinnamon stick"], 40),
];

/// The same where it is told by the dozen: from how many on, and for how many grams of all one of them is more than anybody takes.
const BY_THE_DOZEN: &[(&Beginnings, i64, i64)] = &[
    (beginnings!["vanilla pod", "vanilla bean"], 4, 250),
    (beginnings!["bay lea"], 8, 170),
    (beginnings!["star anise"], 8, 200),
    (beginnings!["cinnamon stick"], 6, 250),
];

/// Three and more of what flavours by the piece, each beside next to nothing.
fn counted<'p>(subject: &Subject<'_>, part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    let is_told = |line: &&'p Ingredient| line.kind == Kind::Spice && !line.aside;
    part.lines.iter().find(is_told)?;
    let names = [&part.name, &subject.recipe.name];
    if part.per_piece
        || names.iter().any(|name| {
            name.has_word_beginning(beginnings![
                "extract", "sugar", "paste", "infus", "essence", "spice", "mix", "vodka", "rum"
            ])
        })
    {
        return None;
    }
    // A sachet of them alone flavours what it goes into.
    let stays = mass_of(part, solved, |_| true).filter(|all| *all > Mass::ZERO)?;
    // What is strained out was in the pot with it.
    let weighed =
        part.lines.iter().zip(&solved.lines).filter(|(line, _)| !line.aside).filter_map(|(_, line)| line.mass);
    let all = Mass::sum(weighed).ok()?;
    part.lines.iter().filter(is_told).find_map(|line| {
        let (_, grams) = BY_THE_PIECE.iter().find(|(words, _)| line.name.has_word_beginning(words))?;
        let LineAmount::Said(said) = &line.amount else { return None };
        let Value::Count(count) = said.first()?.value else { return None };
        let beyond = |grams: i64, all: Mass| {
            Mass::new(Number::whole(grams)).times(count.value()).is_ok_and(|plenty| plenty > all)
        };
        let by_the_dozen = || {
            BY_THE_DOZEN.iter().any(|(words, from, grams)| {
                line.name.has_word_beginning(words) && count.value() >= Number::whole(*from) && beyond(*grams, all)
            })
        };
        let much = count.value() >= Number::whole(3) && beyond(*grams, stays) || by_the_dozen();
        much.then(|| {
            (
                line,
                format!(
                    "{} of {} beside {} in all: that is unusual",
                    count.value().decimal(2),
                    line.name,
                    show::mass_plain(all)
                ),
            )
        })
    })
}

/// Peas and lentils that are boiled take fat to enrich them, never more than they weigh.
fn fat_in_the_pot<'p>(part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    part.lines.iter().find(|line| line.kind == Kind::Pulse)?;
    let pulses = mass_of(part, solved, |line| line.kind == Kind::Pulse).filter(|pulses| *pulses > Mass::ZERO)?;
    let wet = mass_of(part, solved, |line| line.kind == Kind::Water)?;
    let fried = some_says(part, beginnings!["fry", "fried", "confit"]);
    let (line, fat) = massed(part, solved).find(|(line, _)| line.kind == Kind::Fat)?;
    let much = wet > Mass::ZERO && !fried && fat > pulses;
    much.then(|| (line, format!("{}: that is unusual in a pot", beside(line, fat, pulses, "pulses"))))
}

/// What is thickened and no dough: a tenth of starch on what is wet makes a stiff cream, a fifth sets like rubber.
const THICKENED: &Beginnings =
    &Beginnings::of(&["custard", "cream", "crème", "creme", "pudding", "blancmange", "sauce", "gravy", "curd", "soup"]);

fn stiff<'p>(subject: &Subject<'_>, part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    let is_starch = |line: &Ingredient| line.kind == Kind::Starch;
    if !part.name.has_word_beginning(THICKENED) || !part.lines.iter().any(is_starch) {
        return None;
    }
    let wet = mass_of(part, solved, |line| {
        line.kind.is_liquid() || matches!(line.kind, Kind::Milk | Kind::Dairy | Kind::Juice | Kind::Fruit | Kind::Egg)
    });
    // Milk that was infused in a part of its own is wet too.
    let drawn =
        part.lines.iter().zip(&solved.lines).filter(|(line, _)| line.stays_in()).filter_map(|(line, amount)| {
            let Refers::Part(other) = line.refers else { return None };
            let made = subject.formula.part(other)?.comes_out;
            amount.mass.filter(|_| made.water.as_share_of(made.total).is_ok_and(|share| share > mille(400)))
        });
    let wet = wet.and_then(|wet| Mass::sum(drawn.chain([wet])).ok());
    let wet = wet.filter(|wet| *wet > Mass::ZERO)?;
    let (line, starch) = massed(part, solved).find(|(line, _)| is_starch(line))?;
    let much =
        !part.per_piece && !is_dough(part, solved) && starch.as_share_of(wet).is_ok_and(|share| share > mille(200));
    much.then(|| (line, format!("{}: that is unusual in what it thickens", beside(line, starch, wet, "what is wet"))))
}

/// How a line weighs beside something, in words.
fn beside(line: &Ingredient, mass: Mass, other: Mass, what: &str) -> String {
    let share = mass.as_share_of(other).map_or_else(|_| String::new(), |share| format!(" ({})", show::percent(share)));
    format!("{} of {} beside {} of {what}{share}", show::mass_plain(mass), line.name, show::mass_plain(other))
}

/// By the piece: seeds, sugar and spices that weigh more than the dough under them, and salt of more than three percent of it.
fn heavy_topping<'p>(subject: &Subject<'_>, part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    if !part.per_piece {
        return None;
    }
    let doughs = part.lines.iter().zip(&solved.lines).filter(|(line, _)| match line.refers {
        Refers::Part(of) => subject.formula.part(of).is_some_and(|part| part.composition.flour > Mass::ZERO),
        Refers::Pantry(_) => false,
    });
    let dough = Mass::sum(doughs.filter_map(|(_, amount)| amount.mass)).ok().filter(|dough| *dough > Mass::ZERO)?;
    let washes = || part.steps.iter().any(|step| called(step, beginnings!["wash", "brush", "glaz", "egg"]));
    // Dough that is fried, or stands in fat in its tin, takes more of it.
    let bathes = || {
        some_says(
            part,
            beginnings!["fry", "fried", "pour", "tin", "pan|", "pans|", "soak", "dip", "fold", "lock", "laminat"],
        )
    };
    let strews = || {
        some_says(part, beginnings!["strew", "sprinkl", "scatter", "coat", "press", "dip", "roll", "dust", "top"])
            && !some_says(part, beginnings!["fill", "spread", "grind", "ground"])
    };
    // What is rolled in sugar may be filled in another step.
    let rolls_in = |line: &Ingredient| {
        let at = part.lines.iter().position(|other| std::ptr::eq(other, line));
        let takes = |step: &&Step| at.is_some_and(|at| step.lines_taken().any(|taken| taken == at));
        part.steps.iter().filter(takes).any(|step| {
            says(step, beginnings!["strew", "sprinkl", "roll in", "toss", "dust"])
                && !says(step, beginnings!["fill", "spread"])
        })
    };
    let all = Mass::sum(
        part.lines
            .iter()
            .zip(&solved.lines)
            .filter(|(line, _)| line.part().is_some())
            .filter_map(|(_, amount)| amount.mass),
    );
    let brushed_on = LazyCell::new(|| brushed_on(part));
    massed(part, solved).find_map(|(line, mass)| {
        let share = mass.as_share_of(dough).ok()?;
        let over = |most: i64| share > mille(most);
        // What the steps say is asked last.
        let much = match line.kind {
            Kind::Salt => over(30),
            // Three grams of beaten egg are on a piece of 58 g.
            Kind::Egg => over(200) && washes(),
            // What is brushed on runs off, and what is strewn on falls off.
            Kind::Fat => over(350) && washes() && !bathes(),
            Kind::Seed => over(1000) || over(350) && strews(),
            Kind::Sugar => over(1000) || over(250) && (strews() || rolls_in(line)),
            Kind::Bread => over(600) && line.name.has_word_beginning(beginnings!["breadcrumb", "crumb", "panko"]),
            Kind::Spice | Kind::Syrup | Kind::Flour => over(1000),
            _ => false,
        };
        // Three times the piece and more is `odd-amount`.
        let much = much && share <= mille(3000);
        // A film of it stays on: what is brushed on weighs no quarter of what it is brushed on.
        let all = all.ok();
        let quarter = all.filter(|all| mass.times(Number::whole(4)).is_ok_and(|four| four > *all));
        let much_of_a_film = quarter.filter(|_| mass > Mass::new(Number::whole(10)));
        if !much && much_of_a_film.is_none() {
            return None;
        }
        let message = if brushed_on.iter().any(|other| std::ptr::eq(*other, line)) {
            format!("{}: that is much to brush on", beside(line, mass, much_of_a_film?, "what it is brushed on"))
        } else if much {
            format!("{}: that is unusual by the piece", beside(line, mass, dough, "dough"))
        } else {
            return None;
        };
        Some((line, message))
    })
}

/// The lines that a step brushes or glazes with: `Brush with {egg}`.
fn brushed_on(part: &Part) -> Vec<&Ingredient> {
    let is_with = |text: &str| {
        let text = text.trim_end().as_bytes();
        text.len().checked_sub(4).and_then(|at| text.get(at..)).is_some_and(|end| end.eq_ignore_ascii_case(b"with"))
    };
    let brushes = |text: &str| {
        // Few words before a name end so, and only those are cut and copied.
        if !is_with(text) {
            return false;
        }
        let last = text.rsplit(['.', ';', ',']).next().unwrap_or_default().trim().to_lowercase();
        last.ends_with("with") && (last.starts_with("brush") || last.starts_with("glaze"))
    };
    let steps = part.steps.iter().filter(|step| may_say(step, beginnings!["brush", "glaz"]));
    let brushed = steps.flat_map(|step| step.words.windows(2)).filter_map(|two| match two {
        [Words::Text(text), Words::Use { target: Some(Target::Line(at)), .. }] if brushes(text) => part.lines.get(*at),
        _ => None,
    });
    brushed.collect()
}

/// Where fat is rubbed in, flour is the most.
fn rubbed_in<'p>(part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    if !some_says(part, beginnings!["rub"]) {
        return None;
    }
    // Fat that is worked with less flour and nothing else is a block that is folded into a dough, or that a dough is folded into.
    let is_block = part.lines.iter().all(|line| line.kind == Kind::Fat || line.is_any_flour());
    if is_block && !some_says(part, beginnings!["crumb"]) {
        return None;
    }
    let ground = |line: &Ingredient| {
        matches!(
            line.kind,
            Kind::Flour | Kind::Starch | Kind::Grain | Kind::Nut | Kind::Bread | Kind::Seed | Kind::Other
        )
    };
    let flour = mass_of(part, solved, ground).filter(|flour| *flour > Mass::ZERO)?;
    let flours = mass_of(part, solved, |line| line.kind == Kind::Flour).filter(|flour| *flour > Mass::ZERO);
    flours.filter(|_| !part.lines.iter().any(|line| matches!(line.refers, Refers::Part(_))))?;
    let pastry = part.name.has_word_beginning(beginnings!["pastry", "shortcrust", "crust"]);
    // A tenth of fat makes no crust short.
    if pastry && !part.lines.iter().any(|line| line.kind.raises()) {
        let fat = mass_of(part, solved, |line| line.kind == Kind::Fat)?;
        let little = flour.times(Number::constant(1, 10)).is_ok_and(|least| fat < least);
        let line = massed(part, solved).find(|(line, _)| line.kind == Kind::Fat).filter(|_| little);
        if let Some((line, mass)) = line {
            return Some((
                line,
                format!("{}: that is unusual in a pastry into which it is rubbed", beside(line, mass, flour, "flour")),
            ));
        }
    }
    massed(part, solved).find_map(|(line, mass)| {
        let most = match line.kind {
            Kind::Fat | Kind::Sugar => Number::ONE,
            Kind::Egg => Number::constant(1, 2),
            // Water binds a pastry, and milk a scone or a cobbler that is spooned on.
            Kind::Water if pastry => Number::constant(3, 4),
            _ => return None,
        };
        let much = flour.times(most).is_ok_and(|most| mass > most);
        much.then(|| {
            (line, format!("{}: where fat is rubbed in, flour is the most", beside(line, mass, flour, "flour")))
        })
    })
}

/// Vinegar keeps a raised dough and shortens another, it does not moisten it. With soda and powder it raises.
fn sour_dough<'p>(part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    part.lines.iter().find(|line| line.kind == Kind::Vinegar)?;
    let flour = super::dough::all_flour(solved);
    let raised = part.lines.iter().any(|line| line.kind.ferments());
    let powder = part.lines.iter().any(|line| line.kind.is_chemical_raising());
    // With husks and gums in place of gluten twice as much is wont to be taken.
    let gelled = part.lines.iter().any(|line| line.kind == Kind::Thickener);
    let most = match (raised, gelled) {
        (true, false) => Number::constant(15, 1000),
        (true, true) => Number::constant(3, 100),
        (false, _) => Number::constant(5, 100),
    };
    let most = flour.times(most).ok()?;
    let (line, mass) = massed(part, solved).find(|(line, mass)| line.kind == Kind::Vinegar && *mass > most)?;
    ((raised || !powder) && is_dough(part, solved))
        .then(|| (line, format!("{}: that is unusual in a dough", beside(line, mass, flour, "flour"))))
}

/// Jam with next to no sugar, and fruit with a heap of lemon juice.
fn of_fruit<'p>(subject: &Subject<'_>, part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    let is_told = |line: &Ingredient| matches!(line.kind, Kind::Juice | Kind::Sugar);
    part.lines.iter().find(|line| is_told(line))?;
    let fruit = mass_of(part, solved, |line| line.kind == Kind::Fruit).filter(|fruit| *fruit > Mass::ZERO)?;
    let jam = [part.name.key.as_str(), subject.recipe.name.key.as_str()]
        .iter()
        .any(|name| has_word_beginning(name, ["jam|", "jams|", "marmalade", "jelly", "preserve"]));
    massed(part, solved).filter(|(line, _)| is_told(line)).find_map(|(line, mass)| {
        let share = mass.as_share_of(fruit).ok()?;
        let sour = line.kind == Kind::Juice && line.name.has_word_beginning(beginnings!["lemon", "lime"]);
        if sour
            && share > mille(250)
            && !part.name.has_word_beginning(beginnings!["curd", "cordial", "lemon", "lime", "sorbet", "drink"])
        {
            return Some((line, format!("{}: that is unusual", beside(line, mass, fruit, "fruit"))));
        }
        let sugars = mass_of(part, solved, |line| line.kind.is_sweet())?;
        let little = sugars.as_share_of(fruit).is_ok_and(|share| share < mille(200));
        (jam && line.kind == Kind::Sugar && little)
            .then(|| (line, format!("{}: that is unusual for jam", beside(line, mass, fruit, "fruit"))))
    })
}

/// Fat that is more than a third of all that a step sweats in it.
fn swims<'p>(part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    let (_, step) = saying(part, beginnings!["sweat"]).next()?;
    let taken: Vec<(&Ingredient, Mass)> =
        step.lines_taken().filter_map(|at| Some((part.lines.get(at)?, solved.lines.get(at)?.mass?))).collect();
    let rest = Mass::sum(taken.iter().filter(|(line, _)| line.kind != Kind::Fat).map(|(_, mass)| *mass)).ok()?;
    let (line, mass) = taken.iter().find(|(line, _)| line.kind == Kind::Fat)?;
    let much = rest > Mass::ZERO && mass.times(Number::whole(2)).is_ok_and(|twice| twice > rest);
    much.then(|| (*line, format!("{}: that is much to sweat in", beside(line, *mass, rest, "what sweats in it"))))
}

/// A custard that eggs set has from an eighth to four fifths of egg on its milk, and sugar from a fortieth to half of it.
fn custard<'p>(part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    let thick = |line: &Ingredient| {
        let body = matches!(line.kind, Kind::Flour | Kind::Starch | Kind::Thickener | Kind::Other | Kind::Chocolate);
        body || matches!(line.refers, Refers::Part(_))
    };
    if !part.name.has_word_beginning(CUSTARDS) || part.lines.iter().any(thick) {
        return None;
    }
    let milk = mass_of(part, solved, |line| matches!(line.kind, Kind::Milk | Kind::Dairy | Kind::Liquid))
        .filter(|milk| *milk > Mass::ZERO)?;
    let eggs = mass_of(part, solved, |line| line.kind == Kind::Egg)?.as_share_of(milk).ok()?;
    let is_yolk = |line: &Ingredient| line.kind != Kind::Egg || line.name.has_word_beginning(beginnings!["yolk"]);
    let least = mille(if part.lines.iter().all(is_yolk) { 70 } else { 125 });
    // A pinch of it may season one that is savoury.
    let sweet = !part.lines.iter().any(|line| {
        line.kind.is_flesh()
            || matches!(line.kind, Kind::Salt | Kind::Vegetable | Kind::Seasoning | Kind::Syrup)
            || line.name.has_word_beginning(beginnings!["cheese", "parmesan", "gruyère", "cheddar", "honey"])
    });
    massed(part, solved).find_map(|(line, mass)| {
        let odd = match line.kind {
            // Yolks alone bind twice as well: an ice cream has 80 of them to a litre and more.
            Kind::Egg => eggs < least || eggs > mille(800),
            Kind::Sugar => mass.as_share_of(milk).is_ok_and(|share| share > mille(500) || (sweet && share < mille(25))),
            _ => false,
        };
        odd.then(|| (line, format!("{}: that is unusual in a custard", beside(line, mass, milk, "milk and cream"))))
    })
}
