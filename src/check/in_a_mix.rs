//! How much of what is stirred, creamed or whisked together one of flour, fat, sugar and egg can be: what `out-of-proportion` looks for in
//! cakes, biscuits, batters and foams, which have no percentages of bakers.

use super::dough::{mass_of, massed, mille};
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show;
use crate::model::cooking::{beginnings, called, some_says};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, Part};
use crate::solve::formula::SolvedPart;

/// A line, and what is unusual about it.
type Odd<'p> = (&'p Ingredient, String);

/// What is meant to be flour, fat, sugar or egg before all.
const OF_ONE_THING: &Beginnings = &Beginnings::of(&[
    "omel", "frittata", "tortilla", "scrambl", "egg|", "eggs|", "eggnog", "tamago", "block", "manié", "manie", "roux",
    "dust", "dredg", "coat", "mix", "crumb", "fry", "wash", "icing", "glaze", "caramel", "syrup", "praline", "brittle",
    "nougat", "fudge", "toffee", "oil",
]);

/// What stands in for flour, or thickens where flour does not.
fn is_another_body(line: &Ingredient) -> bool {
    let solid = matches!(
        line.kind,
        Kind::Nut
            | Kind::Chocolate
            | Kind::Starch
            | Kind::Dairy
            | Kind::Bread
            | Kind::Grain
            | Kind::Seed
            | Kind::Pulse
            | Kind::Fruit
            | Kind::Vegetable
            | Kind::Juice
            | Kind::Thickener
            | Kind::Other
    );
    solid || line.part().is_some()
}

/// The first line of a mix that cannot be so large a share of it.
///
/// The bounds lie beyond what is printed: flour is three fifths of a shortbread and two thirds of a pasta, egg half of a sponge, sugar two
/// fifths and fat a third of a cake. Common practice, no source.
pub(super) fn run<'p>(part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    // All that is told here is told of what has egg in it.
    if !part.lines.iter().any(|line| line.kind == Kind::Egg)
        || part.per_piece
        || part.name.has_word_beginning(OF_ONE_THING)
        || part.steps.iter().any(|step| called(step, beginnings!["fry"]))
    {
        return None;
    }
    // What is fried in is no part of what is mixed.
    let mixed: Vec<(&Ingredient, Mass)> = massed(part, solved).filter(|(line, _)| !line.is_to_fry_in()).collect();
    let of = |is: Is| Mass::sum(mixed.iter().filter(|(line, _)| is(line)).map(|(_, mass)| *mass)).ok();
    let all = of(|_| true).filter(|all| *all > Mass::ZERO)?;
    let flour = of(Ingredient::is_any_flour)?;
    let egg = of(|line| line.kind == Kind::Egg)?;
    let fat = of(|line| line.kind == Kind::Fat)?;
    let sugar = of(|line| line.kind == Kind::Sugar)?;
    let share = |mass: Mass| mass.as_share_of(all).unwrap_or(Proportion::ZERO);
    let is_rich = sugar.plus(fat).is_ok_and(|both| share(both) >= mille(100));
    let is_mix = share(flour) >= mille(50);
    // White or yolk that is whisked with sugar alone, to be folded in, is all egg but a little.
    let enriched = of(|line| matches!(line.kind, Kind::Fat | Kind::Dairy | Kind::Milk))?;
    let is_sweet = share(sugar) >= mille(50) && share(enriched) >= mille(100);
    let is_cake = is_mix && egg > Mass::ZERO;
    let bounds: [(Is, &str, Mass, Option<Proportion>); 4] = [
        (Ingredient::is_any_flour, "flour", flour, (is_rich && egg > Mass::ZERO).then(|| mille(720))),
        (|line| line.kind == Kind::Egg, "egg", egg, (is_mix || is_sweet).then(|| mille(650))),
        (|line| line.kind == Kind::Sugar, "sugar", sugar, is_cake.then(|| mille(600))),
        (|line| line.kind == Kind::Fat, "fat", fat, is_cake.then(|| mille(550))),
    ];
    let much = bounds.iter().find(|(_, _, mass, most)| most.is_some_and(|most| share(*mass) > most));
    if let Some((is, name, mass, _)) = much {
        let heaviest = mixed.iter().filter(|(line, _)| is(line)).max_by_key(|(_, mass)| *mass);
        let message = format!(
            "{} of {name} are {} of all {} that is mixed: that is unusual",
            show::mass_plain(*mass),
            show::percent(share(*mass)),
            show::mass_plain(all),
        );
        return heaviest.map(|(line, _)| (*line, message));
    }
    foam(part, solved, egg, sugar).or_else(|| floury(part, solved, flour, (egg, fat, sugar), all))
}

/// Whether a line is of one sort.
type Is = fn(&Ingredient) -> bool;

/// White of egg that is whisked with sugar to a meringue: two spoons of sugar to a white make a soft one, and more than three and a half times
/// the white does not dissolve. A snow that is folded in has any sugar, and powdered sugar makes pastes. Common practice, no source.
fn foam<'p>(part: &'p Part, solved: &'p SolvedPart, egg: Mass, sugar: Mass) -> Option<Odd<'p>> {
    let is_paste = |line: &Ingredient| {
        line.kind == Kind::Nut || line.name.has_word_beginning(beginnings!["icing", "powdered", "confectioner"])
    };
    let is_meringue =
        part.name.has_word_beginning(beginnings!["pavlova", "meringue"]) && !part.lines.iter().any(is_paste);
    let whites =
        mass_of(part, solved, Ingredient::is_egg_white).filter(|whites| *whites == egg && *whites > Mass::ZERO)?;
    if !is_meringue || sugar <= Mass::ZERO || !some_says(part, beginnings!["whisk", "whip", "beat"]) {
        return None;
    }
    let on_whites = sugar.as_share_of(whites).ok()?;
    if (mille(450)..=mille(3500)).contains(&on_whites) {
        return None;
    }
    let (line, _) = massed(part, solved).find(|(line, _)| line.kind == Kind::Sugar)?;
    let message = format!(
        "{} of {} on {} of egg white ({}): that is unusual where they are whisked together",
        show::mass_plain(sugar),
        line.name,
        show::mass_plain(whites),
        show::percent(on_whites)
    );
    Some((line, message))
}

/// Fat, sugar and egg that are nearly all of a mix in which flour stands for next to nothing, and nothing else for it.
fn floury<'p>(
    part: &'p Part,
    solved: &'p SolvedPart,
    flour: Mass,
    (egg, fat, sugar): (Mass, Mass, Mass),
    all: Mass,
) -> Option<Odd<'p>> {
    let rich = Mass::sum([egg, fat, sugar]).ok()?.as_share_of(all).ok()?;
    // A few spoons of flour thicken the filling of a pie.
    if part.name.has_word_beginning(beginnings!["filling", "pie|", "pies|", "tart", "curd"]) {
        return None;
    }
    let little = flour > Mass::ZERO && flour.as_share_of(all).ok()? < mille(80);
    let has_all = egg > Mass::ZERO && fat > Mass::ZERO && sugar > Mass::ZERO;
    if !little || !has_all || rich < mille(700) || part.lines.iter().any(is_another_body) {
        return None;
    }
    let (line, mass) = massed(part, solved).find(|(line, _)| Ingredient::is_any_flour(line))?;
    let message = format!(
        "only {} of {} in {} that are {} fat, sugar and egg: that is unusual",
        show::mass_plain(mass),
        line.name,
        show::mass_plain(all),
        show::percent(rich)
    );
    Some((line, message))
}
