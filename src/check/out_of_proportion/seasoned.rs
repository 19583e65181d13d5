//! What the names above a line say of its salt and spices: that they are the matter itself, as in a rub, or much of it, as in a brine. Each
//! word stands in one list; what is asked is which lists count.

use crate::check::dough::is_dough;
use crate::measure::number::Number;
use crate::measure::quantity::MINUTES_A_DAY;
use crate::model::cooking::{beginnings, called, some_says};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, Part, Recipe};
use crate::model::step::{Step, StepKind};
use crate::solve::formula::SolvedPart;
use std::cell::OnceCell;

/// Salt or spices are the matter itself.
const OF_BOTH: &Beginnings = beginnings![
    "cure",
    "rub",
    "crust",
    "salt",
    "spice",
    "mix",
    "seasoning",
    "masala",
    "paste|",
    "pastes|",
    "dukkah",
    "za'atar",
    "tea|",
    "teas|",
    "blend"
];

/// Salt is much of the matter, draws out of it, or comes with what is salted already.
#[rustfmt::skip]
const OF_SALT: &Beginnings = beginnings![
    "brine", "pickl", "curing", "ferment", "kraut", "kimchi", "marinad", "stock|", "stocks|", "miso", "koji", "olive", "preserve", "caper", "anchov",
    "lox", "gravlax", "ham|", "hams|", "bacon", "oil|", "oils|"
];

/// Spices and herbs are the matter itself, and it is salted as what is eaten by the spoon.
const OF_HERBS: &Beginnings = beginnings!["pesto", "sauce", "herb", "topping", "sugar"];

/// It is seasoned more than most.
const STRONG: &Beginnings =
    beginnings!["curry", "chutney", "relish", "garlic", "dressing", "butter|", "candied", "peel", "marmalade", "zest"];

/// Spices and herbs are the matter itself, and its salt is that of any food.
#[rustfmt::skip]
const OF_SPICES: &Beginnings = beginnings![
    "infus", "extract", "gremolata", "chimichurri", "persillade", "harissa", "mustard", "salsa", "chermoula", "filling"
];

/// Words before what something is by which all of it was made so.
const MADE_SO: &Beginnings =
    beginnings!["pickl", "cured", "curing", "preserve", "ferment", "candied", "brined", "marinad", "infus"];

/// A title up to what lies beside or on it. What lies in salt, brine or oil is called after that as well.
fn before_what_is_beside(title: &str) -> &str {
    [" with ", " and ", " of ", " on "].into_iter().fold(title, |title, word| title.split(word).next().unwrap_or(title))
}

/// Lemons, plums or herrings that stand in their salt for so long are what it makes of them.
fn stands_for_days(step: &Step) -> bool {
    let days = || step.time.0.in_minutes().is_ok_and(|minutes| minutes >= Number::whole(3 * MINUTES_A_DAY));
    step.kind == StepKind::Wait && days()
}

/// How a part is seasoned, by its name, that of its recipe, and what is done in it.
pub(super) struct Seasoned<'r> {
    recipe: &'r Recipe,
    part: &'r Part,
    solved: &'r SolvedPart,
    /// Asked of many lines.
    is_strong: OnceCell<bool>,
}

impl<'r> Seasoned<'r> {
    pub fn of(recipe: &'r Recipe, part: &'r Part, solved: &'r SolvedPart) -> Seasoned<'r> {
        Seasoned { recipe, part, solved, is_strong: OnceCell::new() }
    }

    /// Whether the part, or what the recipe itself is, is called so: `Salted butter caramels` are caramels, and `Carrot soup with herb oil` is soup.
    fn is_named(&self, lists: &[&Beginnings]) -> bool {
        let title = &self.recipe.name;
        let of_title = |list: &&Beginnings| {
            title.has_word_beginning(list) && {
                let head = before_what_is_beside(title.key.as_str());
                let is_done = |word: &str| MADE_SO.begin_in(word) && list.begin_in(word);
                head.rsplit(' ').next().is_some_and(|last| list.begin_in(last)) || head.split(' ').any(is_done)
            }
        };
        let is_single = self.part.name.key == title.key;
        lists.iter().any(|list| !is_single && self.part.name.has_word_beginning(list) || of_title(list))
    }

    /// A dough has an answer of its own, on its flour; what lies in a brine takes what it takes.
    fn is_dough_or_brined(&self) -> bool {
        is_dough(self.part, self.solved)
            || self.part.steps.iter().any(|step| called(step, beginnings!["brine", "cure", "pickle"]) || stands_for_days(step))
            // What is salted to draw and rinsed holds a third of it.
            || self.part.lines.iter().any(|line| line.kind == Kind::Vegetable) && some_says(self.part, beginnings!["rins"])
    }

    /// Whether the part is called after a line: mustard is made of mustard seeds.
    pub fn is_of(&self, line: &Ingredient) -> bool {
        let is_spice_of_it = || {
            let last = self.part.name.key.as_str().rsplit(' ').next();
            let name = line.name.key.as_str();
            ["seed", "seeds"].iter().any(|seed| name.ends_with(seed)) && name.split(' ').any(|word| Some(word) == last)
        };
        is_called_after(self.part, line) || matches!(line.kind, Kind::Spice | Kind::Seed) && is_spice_of_it()
    }

    /// Whether it takes more salt or spices than what is eaten by the plate.
    pub fn is_seasoned(&self) -> bool {
        *self
            .is_strong
            .get_or_init(|| self.is_dough_or_brined() || self.is_named(&[OF_BOTH, OF_SALT, OF_HERBS, STRONG]))
    }

    /// Whether salt is most of the matter, or draws out of it.
    pub fn is_salty(&self) -> bool {
        self.is_named(&[OF_BOTH, OF_SALT]) || self.is_dough_or_brined()
    }

    /// Whether spices and herbs are the matter itself.
    pub fn is_blend(&self) -> bool {
        self.is_named(&[OF_BOTH, OF_HERBS, OF_SPICES])
    }
}

/// Whether a part is called after a line, and so all but a trifle of it: `spiced vinegar` of malt vinegar, `vanilla sugar`, `chilli oil`.
pub(super) fn is_called_after(part: &Part, line: &Ingredient) -> bool {
    let last = |name: &str| name.rsplit(' ').next().map(str::to_owned);
    let scented =
        matches!(line.kind, Kind::Vinegar | Kind::Sugar | Kind::Fat | Kind::Salt | Kind::Spirit | Kind::Syrup);
    scented && last(part.name.key.as_str()) == last(line.name.key.as_str())
}
