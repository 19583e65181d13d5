//! What the matter of a part is there for, and how much of it that takes: salt draws out of vegetables, gelatine sets a liquid, starch thickens milk, fat
//! shortens flour. One table, of what is in a part and what is done with it: what `out-of-proportion` looks for beside shares of the whole.
//!
//! Which matter is there is a set of bits, so that of nearly all parts no amount is added up. The bounds lie well beyond what is printed. Common
//! practice, no source.

use super::Subject;
use super::dough::is_batter;
use crate::language::syntax::Name;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::model::cooking::{beginnings, some_says};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, Part};
use crate::solve::formula::SolvedPart;

mod here;
mod what_is_done;

use here::{
    BODY, CHOCOLATE, CREAM, CURD, EGG, FAT, FLESH, FLOUR, FRUIT, GEL, Here, ICING, LIVES, OPEN, PLANTS, RAISES, SALT,
    SEASONING, SOUR, STARCH, SUGAR, SWEET, SYRUP, VEGETABLE, WET, role,
};
use what_is_done::{is_boiled_sugar, is_cooked_custard, is_soda_on, is_thirsty};

/// A line, and what is unusual about it.
type Odd<'p> = (&'p Ingredient, String);

/// A row: which matter is there and which is not, what is done, and how much of one on how much of another.
struct Row {
    /// All of these are there.
    with: u32,
    /// One of these is.
    any: u32,
    /// None of these is.
    without: u32,
    is: fn(&Here<'_>) -> bool,
    of: u32,
    on: u32,
    least: Number,
    most: Number,
    what: (&'static str, &'static str),
    why: &'static str,
    /// Whether a part that is taken out of another formula is asked as well.
    taken_out: bool,
    /// Whether hands work it, here or in the part that takes it.
    is_of_hands: bool,
}

/// A row that asks nothing yet.
const ROW: Row = Row {
    with: 0,
    any: !0,
    without: 0,
    is: |_| true,
    of: 0,
    on: 0,
    least: Number::ZERO,
    most: Number::whole(1_000_000),
    what: ("", ""),
    why: "",
    taken_out: false,
    is_of_hands: false,
};

/// Milk and egg that starch thickens, of which a row asks how much of what there is.
const CUSTARD: Row = Row {
    with: WET | EGG,
    any: STARCH | FLOUR,
    without: LIVES | RAISES | PLANTS | FLESH | BODY | OPEN | CURD,
    is: is_cooked_custard,
    why: "a custard that starch thickens has a fifth",
    ..ROW
};

/// What is called after something else than what is mixed, by the beginnings of words.
#[rustfmt::skip]
const SAUCES: &Beginnings = &Beginnings::of(&[
    "sauce", "roux", "gravy", "soup", "béchamel", "bechamel", "velout", "custard", "cream", "filling", "glaze", "dip|", "dredg", "coat", "block", "crumb",
    "streusel", "topping", "dust",
]);

const ROWS: &[Row] = &[
    Row {
        with: SALT,
        any: PLANTS,
        without: FLOUR | FLESH | EGG | OPEN,
        is: |here| {
            let (plants, all) = (here.mass(PLANTS).unwrap_or(Mass::ZERO), here.mass(!0).unwrap_or(Mass::ZERO));
            // Garlic and herbs in something else are a spice of it.
            let is_of_plants = here
                .mass(SALT)
                .and_then(|salt| salt.plus(plants).ok())
                .is_some_and(|both| both.times(Number::whole(2)).is_ok_and(|twice| twice >= all));
            let other = beginnings![
                "salt", "crust", "season", "spice", "stock", "bouillon", "base", "paste", "preserve", "rub"
            ];
            is_of_plants && !here.is_named(other)
        },
        of: SALT,
        on: PLANTS,
        most: Number::constant(1, 2),
        what: ("salt", "vegetables and fruit"),
        why: "salt that draws water out of them or keeps them is a quarter at most",
        ..ROW
    },
    Row {
        with: GEL,
        any: WET | SOUR | CREAM,
        without: FLOUR | OPEN,
        of: GEL,
        on: WET | SOUR | CREAM | CURD | FRUIT | SWEET | EGG | CHOCOLATE,
        most: Number::constant(7, 20),
        what: ("what gels", "what it sets"),
        why: "a fifth of it is powder that swells, and less sets like rubber",
        ..ROW
    },
    Row {
        with: FAT | FLOUR | WET,
        without: LIVES | CHOCOLATE | BODY | OPEN | PLANTS | FLESH | SWEET | CREAM | CURD | SEASONING,
        is: |here| {
            let flour = here.mass(FLOUR).unwrap_or(Mass::ZERO);
            let all = here.mass(!0).unwrap_or(Mass::ZERO);
            !here.is_named(SAUCES) && flour.times(Number::whole(10)).is_ok_and(|ten| ten >= all)
        },
        of: FAT,
        on: FLOUR,
        most: Number::constant(5, 4),
        what: ("fat", "flour"),
        why: "no paste or pastry of fat, flour and water holds more of it than flour",
        ..ROW
    },
    Row {
        with: FLOUR,
        any: WET | FAT | EGG,
        without: BODY | STARCH | OPEN | PLANTS | FLESH | CURD,
        is: |here| {
            here.is_named(beginnings!["choux", "pastry", "shortcrust", "crust", "dough"])
                && !here.is_named(beginnings![
                    "cream", "custard", "filling", "glaze", "wash", "topping", "butter", "coat", "flavour"
                ])
        },
        of: FLOUR,
        on: WET | FAT | EGG | SWEET | CREAM,
        least: Number::constant(3, 25),
        what: ("flour", "all else"),
        why: "so little makes no dough or paste",
        ..ROW
    },
    Row {
        with: CREAM,
        any: SWEET,
        without: FLOUR | STARCH | BODY | EGG | FAT | WET | PLANTS | FLESH | CHOCOLATE | OPEN | CURD,
        is: |here| some_says(here.part, beginnings!["whip", "whisk"]) && !here.is_cooked(),
        of: SWEET,
        on: CREAM,
        most: Number::constant(7, 10),
        what: ("sugar", "cream"),
        why: "cream that is whipped is sweetened with a tenth, and with more than half of it does not hold air",
        ..ROW
    },
    Row {
        with: FRUIT,
        any: SWEET,
        without: WET | EGG | FAT | FLOUR | CREAM | CURD | CHOCOLATE | FLESH | OPEN | BODY,
        is: |here| {
            here.is_cooked()
                && !here.is_named(beginnings!["candied", "glac", "confit", "syrup", "cordial", "zest", "peel"])
        },
        of: SWEET,
        on: PLANTS | SOUR,
        most: Number::constant(9, 5),
        what: ("sugar", "fruit"),
        why: "fruit is cooked with its own weight of sugar at most, and pastes with somewhat more",
        ..ROW
    },
    Row {
        with: FLOUR | WET,
        without: LIVES | BODY | OPEN | PLANTS | FLESH | CURD,
        is: |here| here.hob_takes(FLOUR),
        of: WET | EGG | FAT | CREAM | SOUR | SYRUP,
        on: FLOUR,
        least: Number::constant(7, 10),
        what: ("what wets it", "flour"),
        why: "flour that is stirred into it on the hob takes its own weight and more",
        taken_out: true,
        ..ROW
    },
    Row {
        with: SEASONING,
        any: FLESH | VEGETABLE,
        without: OPEN,
        is: |here| {
            !here.is_named(beginnings![
                "marinad", "sauce", "glaze", "dressing", "dip", "brine", "stock", "broth", "soup", "relish", "paste",
                "cure", "pickl", "rub"
            ])
        },
        of: SEASONING,
        on: FLESH | PLANTS | BODY | FLOUR,
        most: Number::constant(3, 5),
        what: ("sauces and pastes that season", "what they season"),
        why: "a tenth is much",
        ..ROW
    },
    Row {
        with: ICING,
        any: WET | SOUR,
        without: FAT | EGG | CREAM | CURD | PLANTS | FLOUR | OPEN | GEL | CHOCOLATE | STARCH | BODY | SUGAR,
        is: |here| {
            !here.is_cooked()
                && !here.is_named(beginnings!["drizzle", "syrup", "soak", "drench", "wash", "drink", "sauce"])
                // Milk with sugar in it is brushed on before the bake, to brown.
                && !here.is_baked_elsewhere()
        },
        of: WET | SOUR | SYRUP,
        on: ICING,
        least: Number::constant(1, 25),
        most: Number::constant(4, 5),
        what: ("liquid", "icing sugar"),
        why: "an icing takes from an eighth to a third",
        ..ROW
    },
    Row { of: EGG, on: WET | CREAM, most: Number::constant(4, 5), what: ("egg", "milk and cream"), ..CUSTARD },
    Row {
        with: WET | EGG | SUGAR,
        of: SWEET,
        on: WET | CREAM | EGG,
        most: Number::constant(4, 5),
        what: ("sugar", "milk and egg"),
        ..CUSTARD
    },
    Row {
        of: STARCH | FLOUR,
        on: WET | CREAM | EGG,
        most: Number::constant(3, 20),
        what: ("starch and flour", "milk and egg"),
        why: "eight to ten in a hundred make a stiff cream",
        ..CUSTARD
    },
    Row {
        with: WET,
        any: SUGAR | SYRUP,
        without: PLANTS | FLESH | FLOUR | OPEN | CREAM | STARCH,
        is: is_boiled_sugar,
        of: WET,
        on: SUGAR | SYRUP,
        most: Number::ONE,
        what: ("water", "sugar that is boiled past 106 °C"),
        why: "a third of its weight dissolves it, and the rest boils away for nothing",
        ..ROW
    },
    Row {
        with: FLOUR,
        any: WET | CREAM | EGG,
        without: LIVES | GEL | OPEN,
        is: |here| here.is_worked() && !is_thirsty(here.part) && !is_batter(here.part),
        of: WET | CREAM | EGG,
        on: FLOUR | STARCH | BODY,
        most: Number::constant(21, 20),
        what: ("milk, water, cream and egg", "flour"),
        why: "what is rolled, shaped or patted has half to nine tenths",
        is_of_hands: true,
        ..ROW
    },
    Row {
        with: FLOUR | WET,
        without: LIVES | OPEN,
        is: |here| {
            here.is_worked()
                && !here.is_named(beginnings!["crumb", "streusel", "mix", "dredg", "coat", "muesli", "granola", "dust"])
        },
        of: WET | CREAM | CURD | EGG | FAT | SYRUP | PLANTS | SOUR | GEL,
        on: FLOUR | STARCH,
        least: Number::constant(11, 50),
        what: ("what wets and shortens it", "flour"),
        why: "so little binds no dough that is rolled or shaped",
        is_of_hands: true,
        ..ROW
    },
    Row {
        with: FLOUR | FAT,
        without: LIVES | OPEN,
        is: |here| {
            some_says(here.part, beginnings!["rub|"]) && some_says(here.part, beginnings!["crumb", "sand|", "meal|"])
        },
        of: FAT,
        on: FLOUR,
        least: Number::constant(1, 30),
        what: ("fat", "flour"),
        why: "so little rubs into no crumbs",
        ..ROW
    },
    Row {
        with: GEL,
        without: OPEN | FLOUR,
        is: |here| {
            let is_gelatine = |line: &Ingredient| line.name.has_word_beginning(beginnings!["gelatin", "leaf gelatin"]);
            here.part.lines.iter().filter(|line| role(line) == GEL).all(is_gelatine)
        },
        of: GEL,
        on: !0,
        least: Number::constant(1, 250),
        what: ("gelatine", "all that it sets"),
        why: "from eight in a thousand on it sets",
        ..ROW
    },
    Row {
        with: GEL,
        without: OPEN | FLOUR,
        is: |here| {
            let is_agar = |line: &Ingredient| line.name.has_word_beginning(beginnings!["agar"]);
            here.part.lines.iter().filter(|line| role(line) == GEL).all(is_agar)
        },
        of: GEL,
        on: !0,
        least: Number::constant(1, 700),
        what: ("agar", "all that it sets"),
        why: "from two in a thousand on it sets",
        ..ROW
    },
    Row {
        with: RAISES,
        without: OPEN,
        is: |here| {
            let own = beginnings![
                "honeycomb",
                "cinder",
                "seafoam",
                "bath",
                "boil",
                "lye",
                "dip",
                "mix",
                "powder",
                "wash",
                "soak",
                "blanch"
            ];
            // Soda in what is poured away again softens pulses; powder is no such thing.
            let drains = here.part.lines.iter().any(|line| !line.stays_in());
            !(here.is_named(own) || drains && here.part.lines.iter().any(|line| line.kind == Kind::Soda))
        },
        of: RAISES,
        on: !0,
        most: Number::constant(1, 25),
        what: ("soda and baking powder", "all"),
        why: "so much tastes of soap",
        ..ROW
    },
    Row {
        with: RAISES | BODY | WET,
        without: OPEN | FLOUR | STARCH | LIVES | CHOCOLATE,
        is: |here| is_soda_on(here, Kind::Pulse),
        of: RAISES,
        on: BODY,
        most: Number::constant(1, 40),
        what: ("soda", "pulses"),
        why: "2 to 10 g to the kilo soften them, and more tastes of soap",
        ..ROW
    },
    Row {
        with: RAISES | WET,
        without: OPEN | FLOUR | STARCH | BODY | EGG | LIVES | PLANTS | FLESH | SOUR,
        is: |here| is_soda_on(here, Kind::Milk),
        of: RAISES,
        on: WET | CREAM,
        most: Number::constant(1, 200),
        what: ("soda", "milk"),
        why: "a gram to the litre keeps milk that is boiled down from curdling, and more tastes of soap",
        ..ROW
    },
    Row {
        with: LIVES | WET,
        without: FLOUR | STARCH | BODY | OPEN | EGG | CREAM | FAT | FLESH,
        is: |here| here.is_drink() && !here.part.lines.iter().any(|line| line.kind == Kind::Leaven),
        of: LIVES,
        on: WET | SOUR,
        most: Number::constant(1, 100),
        what: ("yeast", "what it is to ferment"),
        why: "a gram to the litre makes it fizz, and closed bottles of more burst",
        ..ROW
    },
    Row {
        with: LIVES | WET,
        any: SWEET,
        without: FLOUR | STARCH | BODY | OPEN | EGG | CREAM | FAT | FLESH,
        is: |here| here.is_drink(),
        of: SWEET,
        on: WET | SOUR,
        most: Number::constant(2, 5),
        what: ("sugar", "water"),
        why: "a drink that ferments has a fifth at most, and in more no yeast works",
        ..ROW
    },
    Row {
        with: WET,
        any: SUGAR,
        without: FLOUR | STARCH | BODY | OPEN | EGG | CREAM | CURD | FAT | FLESH | LIVES,
        is: |here| {
            let names = [&here.part.name, &here.recipe.name];
            let is_cordial = |name: &&Name| name.has_word_beginning(beginnings!["cordial", "squash|"]);
            here.recipe.parts.is_single() && names.iter().any(is_cordial)
        },
        of: SWEET,
        on: WET | SOUR,
        least: Number::constant(1, 4),
        what: ("sugar", "water"),
        why: "a cordial that is let down with water has its own weight",
        ..ROW
    },
    Row {
        with: BODY | WET,
        without: OPEN | FLOUR | CREAM,
        is: |here| here.boils_dry_pulses(),
        of: WET | SOUR | PLANTS,
        on: BODY,
        least: Number::constant(9, 10),
        what: ("water and vegetables", "dried pulses"),
        why: "they take up their own weight, and boil in twice to four times",
        ..ROW
    },
    Row {
        with: BODY | WET,
        without: OPEN | FLOUR | CREAM | FLESH | CURD | STARCH,
        is: |here| here.is_rice_that_boils(),
        of: WET | SOUR | PLANTS,
        on: BODY,
        least: Number::constant(3, 4),
        what: ("what it boils in", "rice"),
        why: "it takes up its own weight at least",
        ..ROW
    },
];

/// The first row that a part does not keep, or that a dough does not keep which it takes and works by hand.
pub(super) fn run<'p>(subject: &Subject<'p>, part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    // A list of amounts says nothing of what is made of it, and a piece is put together of what was made.
    if part.steps.is_empty() {
        return None;
    }
    let own =
        if part.per_piece { None } else { in_rows(&Here { recipe: subject.recipe, part, solved, taken_by: None }) };
    own.or_else(|| {
        part.lines.iter().enumerate().find_map(|(at, line)| {
            let inner = line.part()?;
            let (made, solved) = (subject.recipe.part(inner)?, subject.formula.part(inner)?);
            let here = Here { recipe: subject.recipe, part: made, solved, taken_by: Some((part, at)) };
            (made.from.is_none() && !made.steps.is_empty()).then(|| in_rows(&here)).flatten()
        })
    })
}

fn in_rows<'p>(here: &Here<'p>) -> Option<Odd<'p>> {
    let part = here.part;
    let has = part.lines.iter().filter(|line| line.stays_in()).fold(0, |roles, line| roles | role(line));
    ROWS.iter().find_map(|row| {
        let fits = has & row.with == row.with && has & row.any != 0 && has & row.without == 0;
        let is_asked = if here.taken_by.is_some() { row.is_of_hands } else { part.from.is_none() || row.taken_out };
        if !fits || !is_asked {
            return None;
        }
        let (of, on) = (here.mass(row.of)?, here.mass(row.on).filter(|on| *on > Mass::ZERO)?);
        let much = of > on.times(row.most).ok()?;
        let little = of < on.times(row.least).ok()?;
        if !(much || little) || !(row.is)(here) {
            return None;
        }
        let line = here.heaviest(row.of)?;
        let share = of.as_share_of(on).ok()?;
        let message = format!(
            "{} of {} on {} of {} ({}): {}",
            show::mass_plain(of),
            row.what.0,
            show::mass_plain(on),
            row.what.1,
            show::percent(share),
            row.why
        );
        Some((line, message))
    })
}
