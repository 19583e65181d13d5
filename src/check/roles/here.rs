//! What a part is asked by the table of roles: which matter is there, how much of it, and what is done.

use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass};
use crate::model::cooking::{bakes, beginnings, cooks, does, first_draw, has_word_beginning, says, some_says, uses};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, Part, Recipe, Refers};
use crate::model::step::{Step, StepKind, Target};
use crate::solve::formula::SolvedPart;

/// What a line is there for, a bit each.
pub(super) const FLOUR: u32 = 1;
pub(super) const STARCH: u32 = 1 << 1;
/// What stands for flour or lies in it: grain, crumbs, nuts, seeds, pulses.
pub(super) const BODY: u32 = 1 << 2;
/// Water, milk and other drinks.
pub(super) const WET: u32 = 1 << 3;
/// Juice, spirits, vinegar.
pub(super) const SOUR: u32 = 1 << 4;
pub(super) const CREAM: u32 = 1 << 5;
/// Cheese, yoghurt, milk powder.
pub(super) const CURD: u32 = 1 << 6;
pub(super) const EGG: u32 = 1 << 7;
pub(super) const FAT: u32 = 1 << 8;
pub(super) const SUGAR: u32 = 1 << 9;
pub(super) const ICING: u32 = 1 << 10;
pub(super) const SYRUP: u32 = 1 << 11;
pub(super) const SALT: u32 = 1 << 12;
/// Yeast and leaven.
pub(super) const LIVES: u32 = 1 << 13;
pub(super) const FRUIT: u32 = 1 << 14;
pub(super) const VEGETABLE: u32 = 1 << 15;
pub(super) const FLESH: u32 = 1 << 16;
pub(super) const SEASONING: u32 = 1 << 17;
pub(super) const GEL: u32 = 1 << 18;
pub(super) const CHOCOLATE: u32 = 1 << 19;
/// Another part, or what nobody knows.
pub(super) const OPEN: u32 = 1 << 20;
pub(super) const RAISES: u32 = 1 << 21;
/// Spices, essences, colours: they are asked elsewhere.
pub(super) const SCENT: u32 = 1 << 22;

pub(super) const SWEET: u32 = SUGAR | ICING | SYRUP;
pub(super) const PLANTS: u32 = FRUIT | VEGETABLE;

pub(super) fn role(line: &Ingredient) -> u32 {
    if line.is_any_flour() {
        return FLOUR;
    }
    match line.kind {
        _ if matches!(line.refers, Refers::Part(_)) => OPEN,
        Kind::Flour => FLOUR,
        Kind::Starch => STARCH,
        Kind::Grain | Kind::Bread | Kind::Nut | Kind::Seed | Kind::Pulse => BODY,
        Kind::Water | Kind::Milk | Kind::Liquid | Kind::Ice => WET,
        Kind::Juice | Kind::Spirit | Kind::Vinegar | Kind::Brine => SOUR,
        Kind::Dairy if line.name.has_word_beginning(beginnings!["cream|"]) => {
            if line.name.has_word_beginning(beginnings!["cheese", "sour", "ice"]) { CURD } else { CREAM }
        }
        Kind::Dairy => CURD,
        Kind::Egg => EGG,
        Kind::Fat => FAT,
        Kind::Sugar if line.name.has_word_beginning(beginnings!["icing", "powdered", "confectioner"]) => ICING,
        Kind::Sugar => SUGAR,
        Kind::Syrup => SYRUP,
        Kind::Salt => SALT,
        Kind::Yeast(_) | Kind::Leaven => LIVES,
        Kind::BakingPowder | Kind::Soda | Kind::RaisingAgent => RAISES,
        Kind::Fruit => FRUIT,
        Kind::Vegetable => VEGETABLE,
        Kind::Meat | Kind::Fish | Kind::Shellfish => FLESH,
        Kind::Seasoning => SEASONING,
        Kind::Thickener => GEL,
        Kind::Chocolate => CHOCOLATE,
        Kind::Spice => SCENT,
        Kind::Lye | Kind::Other => OPEN,
    }
}

/// What is asked of a part, found when it is asked for.
pub(super) struct Here<'p> {
    pub(super) recipe: &'p Recipe,
    pub(super) part: &'p Part,
    pub(super) solved: &'p SolvedPart,
    /// The part that takes it, and the line there, where that is asked.
    pub(super) taken_by: Option<(&'p Part, usize)>,
}

impl<'p> Here<'p> {
    /// What all matter of these sorts weighs; `None` where some of it has no weight.
    pub(super) fn mass(&self, roles: u32) -> Option<Mass> {
        let lines = self.part.lines.iter().zip(&self.solved.lines);
        let own = lines.filter(|(line, _)| role(line) & roles != 0 && line.stays_in() && !line.is_to_fry_in());
        let mut all_weighed = true;
        let masses = own.map_while(|(_, amount)| {
            all_weighed = amount.mass.is_some();
            amount.mass
        });
        Mass::sum(masses).ok().filter(|_| all_weighed)
    }

    /// The heaviest line of these sorts.
    pub(super) fn heaviest(&self, roles: u32) -> Option<&'p Ingredient> {
        let lines = self.part.lines.iter().zip(&self.solved.lines);
        let own = lines.filter(|(line, _)| line.stays_in() && role(line) & roles != 0);
        own.max_by_key(|(_, amount)| amount.mass).map(|(line, _)| line)
    }

    pub(super) fn is_named(&self, words: &'static Beginnings) -> bool {
        self.part.name.has_word_beginning(words)
    }

    /// Whether a step on the hob takes all of these sorts, or any.
    pub(super) fn hob_takes(&self, roles: u32) -> bool {
        self.part.steps.iter().any(|step| on_the_hob(step) && self.takes(step) & roles == roles)
    }

    /// What a step takes.
    pub(super) fn takes(&self, step: &Step) -> u32 {
        step.lines_taken().filter_map(|at| self.part.lines.get(at)).fold(0, |roles, line| roles | role(line))
    }

    pub(super) fn is_cooked(&self) -> bool {
        self.part.steps.iter().any(cooks)
    }

    pub(super) fn is_baked(&self) -> bool {
        self.part.steps.iter().any(bakes)
    }

    /// Whether what is made is drunk: it is called so, or filled into bottles, and stands for hours.
    pub(super) fn is_drink(&self) -> bool {
        const DRINKS: &Beginnings = beginnings![
            "beer", "ale|", "cider", "kvass", "mead|", "wine", "kefir", "tepache", "kombucha", "soda|", "pop|"
        ];
        let stands = |step: &Step| step.kind == StepKind::Wait && step.time.0 >= Duration::minutes(8 * 60);
        self.part.steps.iter().any(stands)
            && ([&self.part.name, &self.recipe.name].iter().any(|name| name.has_word_beginning(DRINKS))
                || some_says(self.part, beginnings!["bottle"]))
    }

    /// Whether dried pulses, and nothing else that counts as a body, boil in what is listed with them.
    pub(super) fn boils_dry_pulses(&self) -> bool {
        let dry = |line: &Ingredient| {
            line.kind == Kind::Pulse
                && line
                    .facts()
                    .and_then(|facts| facts.contents.water)
                    .is_some_and(|water| water.value() < Number::constant(1, 5))
        };
        let others = |line: &Ingredient| role(line) == BODY && !dry(line);
        self.all_stays() && self.part.lines.iter().any(dry) && !self.part.lines.iter().any(others) && self.boils_in_it()
    }

    /// Whether raw rice, and nothing else that counts as a body, boils in what is listed with it.
    pub(super) fn is_rice_that_boils(&self) -> bool {
        let rice = |line: &Ingredient| {
            line.kind == Kind::Grain
                && line.name.has_word_beginning(beginnings!["rice|", "arborio", "carnaroli", "basmati", "jasmine"])
                && !line.name.has_word_beginning(beginnings![
                    "cooked", "puffed", "flake", "noodle", "paper", "wine", "bran", "boiled"
                ])
                && line.preparation.as_ref().is_none_or(|said| {
                    !has_word_beginning(&said.to_lowercase(), ["cooked", "boiled", "steamed", "soaked", "ground"])
                })
        };
        let others = |line: &Ingredient| role(line) == BODY && !rice(line);
        self.all_stays()
            && self.part.lines.iter().any(rice)
            && !self.part.lines.iter().any(others)
            && self.boils_in_it()
    }

    fn all_stays(&self) -> bool {
        self.part.lines.iter().all(Ingredient::stays_in)
    }

    /// Whether the hob boils it, and no step pours more on, drains, steams or grinds it.
    fn boils_in_it(&self) -> bool {
        let boils = |step: &Step| on_the_hob(step) && says(step, beginnings!["boil", "simmer", "cook", "absorb"]);
        self.part.steps.iter().any(boils)
            && !self.is_baked()
            && !some_says(
                self.part,
                beginnings![
                    "drain",
                    "steam",
                    "grind",
                    "blend",
                    "strain",
                    "rins",
                    "stock",
                    "fry",
                    "boiling water",
                    "salted water"
                ],
            )
    }

    /// Whether a part that takes it bakes it.
    pub(super) fn is_baked_elsewhere(&self) -> bool {
        let own = self.recipe.parts().find(|(_, part)| std::ptr::eq(*part, self.part)).map(|(id, _)| id);
        let users = own.into_iter().flat_map(|id| self.recipe.users(id));
        let mut taken = users.filter_map(|(user, line)| {
            let part = self.recipe.part(user)?;
            Some((part, first_draw(part, Target::Line(line)).unwrap_or(0)))
        });
        taken.any(|(part, from)| part.steps.iter().skip(from).any(bakes))
    }

    /// Whether it is worked by hand before any heat, here or in the part that takes it.
    pub(super) fn is_worked(&self) -> bool {
        if let Some((around, at)) = self.taken_by {
            let is_of_it = |step: &Step| step.lines_taken().any(|taken| taken == at);
            return !self.is_cooked() && works(around, is_of_it);
        }
        works(self.part, |_| true)
    }
}

/// What is rolled, shaped, kneaded or patted, and what is dropped or spread instead.
const WORKED: &Beginnings = &Beginnings::of(&["knead", "roll", "shape", "mould", "pat|", "stamp", "round|"]);
const LOOSE: &Beginnings = &Beginnings::of(&["pour", "drop", "scoop", "spoon", "pipe", "ladle", "batter", "spread"]);

/// Whether hands work a dough in a step of a part before any heat.
pub(super) fn works(part: &Part, is: impl Fn(&Step) -> bool) -> bool {
    let before = || part.steps.iter().take_while(|step| !bakes(step));
    some_says(part, WORKED)
        && before().any(|step| step.kind == StepKind::Hands && does(step, WORKED) && is(step))
        && !some_says(part, LOOSE)
        && !before().any(cooks)
}

pub(super) fn on_the_hob(step: &Step) -> bool {
    step.kind != StepKind::Wait
        && cooks(step)
        && !bakes(step)
        && !uses(step, beginnings!["fryer", "griddle", "steamer", "iron", "oven"])
}
