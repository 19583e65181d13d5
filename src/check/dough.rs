//! What a part is as a dough: whether it is one, and what raises it.

use crate::measure::number::{Number, sum};
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::value::Value;
use crate::model::cooking::{bakes, beginnings, has_word_beginning, says, some_says};
use crate::model::flow::reached;
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::noted::{self, Reads};
use crate::model::recipe::{Ingredient, Part, PartId, Recipe};
use crate::model::yeast::as_instant;
use crate::solve::formula::{SolvedLine, SolvedPart};
use std::collections::VecDeque;
use std::sync::OnceLock;

/// So many per mille.
#[inline]
pub(super) const fn mille(mille: i64) -> Proportion {
    let (mut common, mut rest) = (1000, mille % 1000);
    while rest != 0 {
        (common, rest) = (rest, common % rest);
    }
    let common = common.abs();
    Proportion::new(Number::constant((mille / common) as i128, (1000 / common) as i128))
}

/// Whether at least a quarter of a part is flour; what is strewn in by mistake, salt and leaven, does not count.
pub(super) fn is_dough(part: &Part, solved: &SolvedPart) -> bool {
    let (flour, total) = (solved.composition.flour, solved.composition.total);
    let quarter = flour.times(Number::whole(4));
    // Of most parts that tells already.
    if flour <= Mass::ZERO || quarter.is_ok_and(|four| four >= total) {
        return flour > Mass::ZERO;
    }
    let slips = massed(part, solved).filter(|(line, _)| line.kind == Kind::Salt || line.kind.raises());
    let rest = Mass::sum(slips.map(|(_, mass)| mass)).and_then(|slips| total.minus(slips));
    quarter.is_ok_and(|four| rest.is_ok_and(|rest| four >= rest))
}

/// What is baked on a griddle or in an iron, by the beginnings of words.
const GRIDDLED: &Beginnings = &Beginnings::of(&[
    "crumpet", "pikelet", "waffle", "blini", "pancake", "injera", "dosa", "appam", "socca", "farinata",
]);

/// Whether a part is a batter, which is poured or ladled: by its name, by what goes in, or by the words of its steps.
pub(super) fn is_batter(part: &Part) -> bool {
    // Teff is poured, whatever it is called.
    let is_teff = part.lines.iter().any(|line| line.name.has_word_beginning(beginnings!["teff", "urad"]));
    is_teff
        || is_griddled(part)
        || is_called_batter(part)
        || part.name.has_word_beginning(beginnings!["pour", "ladle"])
        || part.steps.iter().any(|step| says(step, beginnings!["ladle"]))
}

/// Whether its name or a step calls a part a batter.
pub(super) fn is_called_batter(part: &Part) -> bool {
    part.name.has_word_beginning(beginnings!["batter"]) || some_says(part, beginnings!["batter"])
}

/// Whether a batter goes into no tin, by its name.
pub(super) fn is_griddled(part: &Part) -> bool {
    part.name.has_word_beginning(GRIDDLED)
}

/// Whether a part lists flour that stays in it, however little.
pub(super) fn lists_flour(part: &Part) -> bool {
    part.lines.iter().any(|line| line.is_flour && line.stays_in())
}

/// Whether flour weighs so much of a part, in thousandths.
pub(super) fn has_flour(solved: &SolvedPart, least: i64) -> bool {
    solved.composition.flour.as_share_of(solved.composition.total).is_ok_and(|share| share >= mille(least))
}

/// All flour of a part, that of a leaven that is bought or kept too: what salt, yeast and the like are shares of.
pub(super) fn all_flour(solved: &SolvedPart) -> Mass {
    solved.composition.all_flour().unwrap_or(solved.composition.flour)
}

/// The yeast of a part as instant yeast; `None` without any.
pub(super) fn yeast_as_instant(part: &Part, solved: &SolvedPart) -> Option<Mass> {
    let each = massed(part, solved).filter_map(|(line, mass)| as_instant(mass, line.kind));
    Mass::sum(each).ok().filter(|yeast| *yeast > Mass::ZERO)
}

/// The lines of a part that have a weight and go into the mix.
pub(super) fn massed<'p>(part: &'p Part, solved: &'p SolvedPart) -> impl Iterator<Item = (&'p Ingredient, Mass)> {
    let lines: std::iter::Zip<std::slice::Iter<'p, Ingredient>, std::slice::Iter<'p, SolvedLine>> =
        part.lines.iter().zip(&solved.lines);
    lines.filter(|(line, _)| line.stays_in()).filter_map(|(line, amount)| Some((line, amount.mass?)))
}

/// Whether something is poured in that no larder can weigh, a twentieth of the flour and more, or of all that is weighed where there is none:
/// how wet the part is, and what each line is of all, is then not known.
pub(super) fn pours_unweighed(part: &Part, solved: &SolvedPart) -> bool {
    let volumes =
        part.lines.iter().zip(&solved.lines).filter(|(line, amount)| !line.aside && amount.mass.is_none()).filter_map(
            |(_, amount)| match amount.natural {
                Some(Value::Volume(volume)) => Some(volume.value()),
                _ => None,
            },
        );
    let flour = solved.composition.flour;
    let weighed = if flour > Mass::ZERO { Some(flour) } else { mass_of(part, solved, |_| true) };
    let weighed = weighed.unwrap_or(Mass::ZERO);
    sum(volumes)
        .and_then(|poured| poured.times(Number::whole(20)))
        .is_ok_and(|poured| poured.is_positive() && poured > weighed.value())
}

/// What all lines of a part that are so weigh together; `None` where that leaves the range of exact numbers.
pub(super) fn mass_of(part: &Part, solved: &SolvedPart, is: impl Fn(&Ingredient) -> bool) -> Option<Mass> {
    Mass::sum(massed(part, solved).filter(|(line, _)| is(line)).map(|(_, mass)| mass)).ok()
}

/// A part, the parts that lie in it, those taken out of it, and the one that it was taken out of, with all in these.
pub(super) fn inside(recipe: &Recipe, id: PartId) -> Vec<PartId> {
    reached(id, |here| {
        let from = recipe.part(here).and_then(|part| part.from);
        drawn(recipe, here).chain(taken_out(recipe, here)).chain(from)
    })
}

/// The parts that the lines of a part draw on.
fn drawn(recipe: &Recipe, id: PartId) -> impl Iterator<Item = PartId> {
    let lines = recipe.part(id).map(|part| &part.lines).into_iter().flatten();
    lines.filter_map(Ingredient::part)
}

fn taken_out(recipe: &Recipe, id: PartId) -> impl Iterator<Item = PartId> {
    recipe.preferments(id).map(|(other, _)| other)
}

/// For each part of a recipe, the nearest that has something: itself, or one that lies in it. All parts are asked in one walk,
/// since parts may lie in parts by the thousand.
pub(super) struct Nearest(Vec<Option<PartId>>);

impl Nearest {
    /// Looks into each part, and what lies in it as [`inside`] has it.
    pub(super) fn inside(recipe: &Recipe, has: impl Fn(PartId, &Part) -> bool) -> Nearest {
        Nearest::by(recipe, has, |here, open| {
            let from = recipe.part(here).and_then(|part| part.from);
            open.extend(recipe.users(here).map(|(user, _)| user).chain(taken_out(recipe, here)).chain(from));
        })
    }

    /// Looks into each part, and those that it goes into, however many times over.
    pub(super) fn around(recipe: &Recipe, has: impl Fn(PartId, &Part) -> bool) -> Nearest {
        Nearest::by(recipe, has, |here, open| open.extend(drawn(recipe, here).chain(taken_out(recipe, here))))
    }

    /// Walks from those that have it to those that reach them.
    fn by(
        recipe: &Recipe,
        has: impl Fn(PartId, &Part) -> bool,
        reached_from: impl Fn(PartId, &mut Vec<PartId>),
    ) -> Nearest {
        let mut nearest = vec![None; recipe.parts.len()];
        let mut found: VecDeque<PartId> =
            recipe.parts().filter(|(id, part)| has(*id, part)).map(|(id, _)| id).collect();
        for id in &found {
            if let Some(nearest) = nearest.get_mut(id.0) {
                *nearest = Some(*id);
            }
        }
        let mut others = Vec::new();
        while let Some(here) = found.pop_front() {
            let of = nearest.get(here.0).copied().flatten();
            reached_from(here, &mut others);
            for other in others.drain(..) {
                if let Some(unknown) = nearest.get_mut(other.0).filter(|known| known.is_none()) {
                    *unknown = of;
                    found.push_back(other);
                }
            }
        }
        Nearest(nearest)
    }

    /// The nearest of a part.
    pub(super) fn of(&self, id: PartId) -> Option<PartId> {
        self.0.get(id.0).copied().flatten()
    }

    /// Whether there is one.
    pub(super) fn has(&self, id: PartId) -> bool {
        self.of(id).is_some()
    }
}

/// What several checks ask of a recipe, found when it is first asked for; each is a walk over all parts.
#[derive(Default)]
pub(super) struct AskedOfAll {
    /// The parts that are raised.
    pub(super) fermented: OnceLock<Known>,
    /// The parts in which yeast or leaven works.
    pub(super) leavened: OnceLock<Known>,
    /// What is read of each part, and of what lies in it, to find what that has; where there is a choice.
    inside: OnceLock<Vec<Reads>>,
}

impl AskedOfAll {
    fn inside(&self, recipe: &Recipe) -> &[Reads] {
        self.inside.get_or_init(|| {
            let of_each = recipe.parts().map(|(id, _)| noted::during(|| inside(recipe, id)).1);
            if recipe.choices.is_empty() { Vec::new() } else { noted::during(|| of_each.collect()).0 }
        })
    }
}

/// What was found of all parts at once, for who asks of one of them: what it hangs on is noted as if it were found then.
pub(super) struct Known {
    nearest: Nearest,
    /// What was read for all of them, and for each of them, where one recipe is looked at under several ways to choose.
    all: Reads,
    of_each: Vec<Reads>,
}

impl Known {
    /// Of parts and what lies in them: [`Nearest::inside`] of a recipe.
    pub(super) fn inside(recipe: &Recipe, asked: &AskedOfAll, find: impl Fn(&Recipe) -> Nearest) -> Known {
        let (nearest, all) = noted::during(|| find(recipe));
        // Whoever looks at steps looks at those of what lies in it as well.
        let steps = all.marks & noted::STEPS;
        let of_each = asked.inside(recipe).iter().map(|reads| Reads { marks: reads.marks | steps, ..*reads });
        Known { nearest, all, of_each: of_each.collect() }
    }

    /// The nearest of a part.
    pub(super) fn of(&self, id: PartId) -> Option<PartId> {
        self.of_each.get(id.0).copied().unwrap_or(self.all).note();
        self.nearest.of(id)
    }

    /// Whether there is one.
    pub(super) fn has(&self, id: PartId) -> bool {
        self.of(id).is_some()
    }
}

/// The parts of a recipe that are raised with yeast or leaven, their own or that of a part in them.
pub(super) fn fermented(recipe: &Recipe) -> Nearest {
    Nearest::inside(recipe, |_, part| part.lines.iter().any(|line| line.kind.ferments()))
}

/// The parts in which yeast or leaven works: their own, or that of a part in them, however deep. What was baked before it goes in
/// raises nothing.
pub(super) fn leavened(recipe: &Recipe) -> Nearest {
    let has = |_, part: &Part| part.lines.iter().any(|line| line.kind.ferments());
    Nearest::by(recipe, has, |here, open| {
        let part = recipe.part(here);
        if !part.is_some_and(|part| part.steps.iter().any(bakes)) {
            open.extend(recipe.users(here).map(|(user, _)| user));
        }
        open.extend(taken_out(recipe, here).chain(part.and_then(|part| part.from)));
    })
}

/// Breads that are raised, by a word in their name.
const BREADS: &[&str] = &[
    "loaf",
    "loaves",
    "baguette",
    "brioche",
    "roll",
    "bun",
    "bagel",
    "ciabatta",
    "focaccia",
    "pizza",
    "croissant",
    "doughnut",
    "pretzel",
    "bread",
];
/// Breads and cakes of those names that are raised otherwise or not at all.
const NOT_RAISED: &[&str] = &[
    "flat",
    "unleavened",
    "soda",
    "crisp",
    "hard",
    "short",
    "ginger",
    "banana",
    "meat",
    "nut",
    "egg",
    "crumb",
    "spring",
    "matz",
    "batter",
];

/// Whether a name is that of a bread that yeast or leaven raises.
pub(super) fn is_bread(name: &str) -> bool {
    has_word_beginning(name, BREADS) && !has_word_beginning(name, NOT_RAISED)
}

/// Whether pieces of this name have been baked, fried or boiled when they are eaten.
pub(super) fn is_baked_good(noun: &str) -> bool {
    has_word_beginning(noun, BREADS)
        || has_word_beginning(
            noun,
            [
                "biscuit",
                "cookie",
                "cake",
                "scone",
                "tart",
                "pie",
                "cracker",
                "oatcake",
                "flatbread",
                "muffin",
                "pasty",
                "pasties",
            ],
        )
}
