//! Words of heat: what cooks, what is hot, what only warms, and what takes of the weight, in one table for all who ask. Common practice, no
//! source.
//!
//! Checks and cautions count as cooked only what surely is. A label that says how food is sold asks the other way round: what may be
//! cooked is not called raw, and what may be warmed has lost nobody knows how much.

use crate::model::lowered::Beginnings;

/// What a word of heat says of the step in which it stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Says {
    /// A verb of cooking, for all who ask, wherever it stands in the step.
    Cooks,
    /// A verb of cooking, for all who ask, where the step is called so or a sentence begins with it: who brushes with barbecue sauce or
    /// lets steam into the oven cooks nothing.
    CooksAsVerb,
    /// A verb that cooks for a label; a check does not count on it, since it may be done to jars or to a crust, or only melt butter.
    MayCook,
    /// Equipment that is hot when it is used, for all who ask.
    Hot,
    /// Equipment that is hot for a label; a check does not count on it, since things are mixed, weighed and proved in it too.
    MayBeHot,
    /// A verb that warms, so that a label cannot tell what is lost: nothing raw is taken away.
    Warms,
    /// Equipment that stands on a fire or is only filled, as [`Says::Warms`]: a loaf pan, a pot of paste.
    MayStandOnFire,
    /// A verb or equipment that dries, as [`Says::Warms`], however warm: smoke and dry air take water at any temperature.
    Dries,
    /// What is done in an oven or to it, and cooks nothing by itself.
    Beside,
    /// Nothing by itself: of the words in it other rows say what each of them says.
    Phrase,
}

/// What else a word says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Also {
    /// What is in it loses of its weight what a recipe says that baking takes: dry heat, fat and steam, not a pot of syrup.
    TakesOfWeight,
    /// So little that it is no loss of baking, whatever it is done in: toasting, glazing.
    TakesLittle,
    /// In fat, of which some stays in what is in it.
    Fries,
    /// A plate of iron, on which what is flat is done in minutes.
    Griddle,
    /// Said of something in a step, it is warm.
    Warm,
    /// In deep fat that is hot in this step. What was `deep-fried` is not hot any more when it is filled.
    DeepFat,
    /// Fat to fry in.
    FryingFat,
}

/// Words that say the same.
#[derive(Debug)]
pub struct Row {
    /// What they say of the step.
    pub says: Says,
    /// What else.
    pub also: &'static [Also],
    /// Their beginnings.
    pub words: &'static [&'static str],
}

const fn row(says: Says, also: &'static [Also], words: &'static [&'static str]) -> Row {
    Row { says, also, words }
}

/// By what a word begins, for each of what it may say.
#[rustfmt::skip]
pub const TABLE: &[Row] = &[
    row(Says::Cooks, &[Also::TakesOfWeight], &["bak", "griddl", "grill", "roast"]),
    row(Says::Cooks, &[Also::TakesOfWeight, Also::Fries], &["fry", "fried"]),
    row(Says::Cooks, &[], &["simmer", "poach", "carameli", "cook", "brais", "stew", "blanch", "sweat"]),
    row(Says::Cooks, &[Also::Fries], &["saut", "sear"]),
    row(Says::Cooks, &[Also::Warm], &["boil", "scald"]),
    row(Says::Cooks, &[Also::TakesLittle, Also::Warm], &["toast"]),
    row(Says::CooksAsVerb, &[Also::TakesOfWeight],
        &["barbecu", "braai", "broil", "chargrill"]),
    row(Says::CooksAsVerb, &[Also::TakesOfWeight, Also::Fries], &["deep-fr", "pan-fr", "shallow-fr", "stir-fr"]),
    row(Says::CooksAsVerb, &[Also::TakesOfWeight, Also::Warm], &["steam"]),
    row(Says::CooksAsVerb, &[], &["pasteuri"]),
    row(Says::MayCook, &[], &["microwav", "scorch", "sous"]),
    row(Says::MayCook, &[Also::TakesLittle], &["steril"]),
    row(Says::Hot, &[Also::TakesOfWeight],
        &["airfryer", "barbecue", "bratt", "grill", "oven", "salamander", "steamer", "tandoor", "toaster", "waffle"]),
    row(Says::Hot, &[Also::TakesOfWeight, Also::Fries], &["fryer"]),
    row(Says::Hot, &[Also::TakesOfWeight, Also::Griddle], &["bakestone", "comal", "girdle", "griddle", "hot plate", "hotplate", "mitad", "mogogo", "plancha", "saj|", "tava|", "tawa"]),
    row(Says::Hot, &[], &["boiler", "burner", "cooker", "hob", "kettle", "stove"]),
    row(Says::Hot, &[Also::Fries], &["wok"]),
    row(Says::MayBeHot, &[Also::TakesOfWeight], &["iron"]),
    row(Says::MayBeHot, &[Also::TakesOfWeight, Also::Griddle], &["frying pan", "skillet"]),
    row(Says::MayBeHot, &[], &["microwave", "saucepan"]),
    row(Says::Warms, &[Also::Warm], &["flamb", "heat", "infus", "melt", "reduc", "render", "temper", "torch"]),
    row(Says::Warms, &[Also::TakesLittle, Also::Warm], &["reheat", "warm"]),
    row(Says::MayStandOnFire, &[], &["pan", "pot"]),
    row(Says::Dries, &[], &["bain", "blowtorch", "dehydrat", "dryer", "smok", "torch"]),
    row(Says::Beside, &[Also::TakesLittle], &["glaz", "preheat"]),
    row(Says::Beside, &[Also::TakesLittle, Also::Fries], &["brown"]),
    row(Says::Beside, &[Also::Fries], &["confit", "deep fr"]),
    row(Says::Beside, &[Also::Warm], &["hot"]),
    row(Says::Phrase, &[Also::DeepFat], &["deep fry", "deep-fry", "deep fat", "deep-fat", "deep oil", "deep hot oil", "deep, hot oil"]),
    row(Says::Phrase, &[Also::FryingFat], &["frying oil", "frying fat"]),
];

/// A question to the table.
#[derive(Debug, Clone, Copy)]
enum Column {
    Says(Says),
    Also(Also),
    /// Verbs of cooking for all who ask, however they stand in a step.
    CookingVerbs,
    /// Verbs of cooking that take of the weight.
    TakingVerbs,
    /// Equipment that does.
    TakingEquipment,
}

impl Row {
    const fn says_also(&self, wanted: Also) -> bool {
        let mut rest = self.also;
        while let Some((one, others)) = rest.split_first() {
            if *one as u8 == wanted as u8 {
                return true;
            }
            rest = others;
        }
        false
    }

    const fn is_in(&self, column: Column) -> bool {
        let is_equipment = matches!(self.says, Says::Hot | Says::MayBeHot);
        match column {
            Column::Says(says) => self.says as u8 == says as u8,
            Column::CookingVerbs => matches!(self.says, Says::Cooks | Says::CooksAsVerb),
            Column::Also(also) => self.says_also(also),
            Column::TakingVerbs => !is_equipment && self.says_also(Also::TakesOfWeight),
            Column::TakingEquipment => is_equipment && self.says_also(Also::TakesOfWeight),
        }
    }
}

/// How many words answer a question.
const fn count(column: Column) -> usize {
    let (mut found, mut rows) = (0, TABLE);
    while let Some((row, others)) = rows.split_first() {
        if row.is_in(column) {
            found += row.words.len();
        }
        rows = others;
    }
    found
}

/// The words that answer it; written with patterns, since nothing is indexed here.
const fn words<const COUNT: usize>(column: Column) -> [&'static str; COUNT] {
    let mut all = [""; COUNT];
    let mut left = all.as_mut_slice();
    let mut rows = TABLE;
    while let Some((row, others)) = rows.split_first() {
        let mut words = if row.is_in(column) { row.words } else { &[] };
        while let Some((word, more)) = words.split_first() {
            let Some((first, rest)) = { left }.split_first_mut() else { return [""; COUNT] };
            *first = word;
            (left, words) = (rest, more);
        }
        rows = others;
    }
    all
}

macro_rules! column {
    ($($(#[$doc:meta])* $name:ident = $column:expr;)+) => {
        $(
            $(#[$doc])*
            pub const $name: &Beginnings = {
                const WORDS: [&str; count($column)] = words($column);
                &Beginnings::of(&WORDS)
            };
        )+
    };
}

column! {
    /// [`Says::Cooks`].
    COOKS = Column::Says(Says::Cooks);
    /// [`Says::CooksAsVerb`].
    COOKS_AS_VERB = Column::Says(Says::CooksAsVerb);
    /// [`Says::Cooks`] and [`Says::CooksAsVerb`].
    COOKING_VERBS = Column::CookingVerbs;
    /// [`Says::MayCook`].
    MAY_COOK = Column::Says(Says::MayCook);
    /// [`Says::Hot`].
    HOT = Column::Says(Says::Hot);
    /// [`Says::MayBeHot`].
    MAY_BE_HOT = Column::Says(Says::MayBeHot);
    /// [`Says::Warms`].
    WARMS = Column::Says(Says::Warms);
    /// [`Says::MayStandOnFire`].
    MAY_STAND_ON_FIRE = Column::Says(Says::MayStandOnFire);
    /// [`Says::Dries`].
    DRIES = Column::Says(Says::Dries);
    /// Verbs with [`Also::TakesOfWeight`].
    TAKES_OF_WEIGHT = Column::TakingVerbs;
    /// Equipment with [`Also::TakesOfWeight`].
    TAKES_OF_WEIGHT_IN = Column::TakingEquipment;
    /// [`Also::TakesLittle`].
    TAKES_LITTLE = Column::Also(Also::TakesLittle);
    /// [`Also::Fries`].
    FRIES = Column::Also(Also::Fries);
    /// [`Also::Griddle`].
    GRIDDLES = Column::Also(Also::Griddle);
    /// [`Also::Warm`].
    WARM = Column::Also(Also::Warm);
    /// [`Also::DeepFat`].
    DEEP_FAT = Column::Also(Also::DeepFat);
    /// [`Also::FryingFat`].
    FRYING_FAT = Column::Also(Also::FryingFat);
}
