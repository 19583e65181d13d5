//! What comes in pieces and what is weighed: of how many a bare number without a unit is believed.

use crate::language::syntax::Key;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::value::{Said, Value};
use crate::model::kind::Kind;
use crate::model::larder::{Facts, brought};
use crate::model::recipe::{Ingredient, LineAmount, Refers};

/// Words in a name that say that it comes in pieces.
#[rustfmt::skip]
const PIECES: &[&str] = &[
    "chipotle",
    "chipotles",
    "lemongrass",
    "egg", "eggs", "yolk", "yolks", "white", "whites", "pod", "pods", "leaf", "leaves", "stick", "sticks", "sheet", "sheets",
    "clove", "cloves", "sprig", "sprigs", "bulb", "bulbs", "head", "heads", "slice", "slices", "fillet", "fillets", "rasher",
    "rashers", "packet", "packets", "sachet", "sachets", "tin", "tins", "can", "cans", "bag", "bags", "bunch", "bunches",
    "bottle", "bottles", "jar", "jars", "ball", "balls", "star", "stars", "anise", "berry", "berries", "corn", "corns",
    "peppercorn", "peppercorns", "nutmeg", "nutmegs", "bean", "beans", "stalk", "stalks", "quill", "quills", "root", "roots",
    "thread", "threads", "flower", "flowers", "cube", "cubes", "cake", "cakes", "bar", "bars", "pat", "pats", "chilli",
    "chillies", "pepper", "peppers", "blade", "blades", "strip", "strips", "tablet", "tablets", "capsule", "capsules", "drop",
    "drops", "block", "blocks", "half", "halves", "quarter", "quarters", "segment", "segments",
];

/// What is bought and counted by the piece or by the dozen, whether a larder knows what one weighs or not; told by the last word, for mussel meat
/// and oyster sauce are weighed. Large fish is cut and weighed. Common practice, no source.
#[rustfmt::skip]
const BY_THE_DOZEN: &[&str] = &[
    "oyster", "oysters", "mussel", "mussels", "clam", "clams", "cockle", "cockles", "scallop", "scallops", "snail", "snails",
    "whelk", "whelks", "winkle", "winkles", "prawn", "prawns", "shrimp", "shrimps", "langoustine", "langoustines", "crayfish",
    "lobster", "lobsters", "crab", "crabs", "squid", "squids", "cuttlefish", "sardine", "sardines", "sprat", "sprats",
    "herring", "herrings", "anchovy", "anchovies", "mackerel", "mackerels", "trout", "trouts", "quail", "quails", "pigeon",
    "pigeons", "partridge", "partridges", "thigh", "thighs", "breast", "breasts", "wing", "wings", "drumstick", "drumsticks",
    "leg", "legs", "chop", "chops", "cutlet", "cutlets", "steak", "steaks", "sausage", "sausages", "frankfurter",
    "frankfurters", "wiener", "wieners",
];

/// Of berries so many are believed, and of what no larder knows.
pub(crate) const FEW: Number = Number::whole(100);
/// Of fruit, vegetables and the like: onions for a canteen, and what is as light as a grape or a radish.
const FEW_HEAVY: Number = Number::whole(150);
/// The same of what weighs no more than this.
const FEW_LIGHT: Number = Number::whole(300);
const NO_HEAVIER: Mass = Mass::new(Number::whole(50));
/// Of what is bought by the dozen.
const DOZENS: Number = Number::whole(200);
/// Of what is laid on each piece or goes into it, at most so many.
const ON_EACH: i64 = 12;
/// Of what a larder knows and does not know one by one, so many: whole cabbages, legs of lamb; of jam and raisins it is grams.
const VERY_FEW: Number = Number::whole(24);
/// Of eggs, and of what is said to be pieces, so many.
const MANY: Number = Number::whole(2000);

/// Whether the name says that it comes in pieces. English puts the thing last: egg whites are pieces, and white sugar, cake
/// flour, corn syrup and orange flower water are none; leaf gelatine and sheet gelatine are the exception.
pub(crate) fn comes_in_pieces(name: &Key) -> bool {
    let name = name.as_str().split_once(" for ").map_or(name.as_str(), |(what, _)| what);
    // Beans and berries are weighed, but for those with which one seasons.
    const SEASONING: &[(&str, &[&str])] = &[("bean", &["vanilla", "tonka"]), ("berr", &["juniper", "allspice"])];
    let is_food = SEASONING.iter().any(|(word, of)| {
        name.rsplit(' ').next().is_some_and(|last| last.starts_with(word)) && !of.iter().any(|of| name.contains(of))
    });
    if is_food {
        return false;
    }
    let is_piece = |word: Option<&str>| word.is_some_and(|word| PIECES.contains(&word));
    is_piece(name.rsplit(' ').next()) || (name.ends_with("gelatine") && is_piece(name.split(' ').next()))
}

/// How many pieces a bare number on the line of this can mean at most; zero of what is weighed and never counted.
pub(crate) fn most_pieces(name: &Key, kind: Kind, facts: Option<&Facts>) -> Number {
    let one_weighs = facts.is_some_and(|facts| facts.one_weighs.is_some());
    // A block of the baker's own that gives the weight of one has made a piece of it.
    let own_words = one_weighs && !brought(name);
    // Pepper that is ground is a spice, and one to fill is none.
    let is_pieces = comes_in_pieces(name) && !(kind == Kind::Spice && name.as_str().ends_with("pepper"));
    let is_egg = facts.is_some_and(|facts| facts.flags.raw_egg);
    let last = name
        .as_str()
        .split_once(" for ")
        .map_or(name.as_str(), |(what, _)| what)
        .rsplit(' ')
        .next()
        .unwrap_or_default();
    let is_no_heavier = || facts.and_then(|facts| facts.one_weighs).is_some_and(|one| one <= NO_HEAVIER);
    match (is_pieces || own_words, is_weighed(kind), one_weighs) {
        (true, ..) => MANY,
        (false, _, true) if is_egg => MANY,
        (false, false, _) if BY_THE_DOZEN.contains(&last) => DOZENS,
        // A spoon of strawberries is grams sooner than two hundred of them.
        (false, false, true) if last.contains("berr") => FEW,
        (false, false, true) if is_no_heavier() => FEW_LIGHT,
        (false, false, true) => FEW_HEAVY,
        (false, true, _) => Number::ZERO,
        (false, false, false) if facts.is_some() => VERY_FEW,
        (false, false, false) => FEW,
    }
}

/// Whether so many are one, or a few, on each of the pieces that are made: a plum in a dumpling, four cherries on a tartlet.
pub(crate) fn is_some_on_each(number: Number, pieces: Number) -> bool {
    let each = number.over(pieces);
    each.is_ok_and(|each| each.is_positive() && each.is_whole() && each <= Number::whole(ON_EACH))
}

/// Last words of the names of spices of which a piece is a gram or two, and mostly less. A nutmeg of 5 g, a stick of 3 and a root are not.
const LIGHT: &[&str] = &[
    "pod",
    "pods",
    "leaf",
    "leaves",
    "sprig",
    "sprigs",
    "blade",
    "blades",
    "thread",
    "threads",
    "anise",
    "berry",
    "berries",
    "clove",
    "cloves",
    "corn",
    "corns",
    "peppercorn",
    "peppercorns",
    "bay",
    "cardamom",
    "juniper",
    "chilli",
    "chillies",
    "garni",
    "bean",
    "beans",
];

/// The same of what no larder knows: a leaf of an herb, where one of a cabbage or of gelatine weighs.
const LIGHT_BY_NAME: &[&str] = &[
    "sprig",
    "sprigs",
    "bouquet garni",
    "bouquets garnis",
    "tea bag",
    "tea bags",
    "mace blade",
    "mace blades",
    "tonka bean",
    "tonka beans",
];
const HERBS: &[&str] = &[
    "bay",
    "basil",
    "curry",
    "kaffir",
    "makrut",
    "lime",
    "lemon",
    "verbena",
    "mint",
    "sage",
    "shiso",
    "perilla",
    "thyme",
    "rosemary",
    "tarragon",
    "parsley",
    "oregano",
    "marjoram",
    "savory",
    "lovage",
    "coriander",
    "dill",
    "chervil",
    "geranium",
    "pandan",
    "fig",
    "tea",
];

/// Whether a piece of what is called so weighs next to nothing, of a spice or of what nobody knows.
fn is_light(name: &Key, kind: Kind) -> bool {
    let name = name.as_str().split_once(" for ").map_or(name.as_str(), |(what, _)| what);
    let last = name.rsplit(' ').next().unwrap_or(name);
    let of_herb = || ["leaf", "leaves"].contains(&last) && name.split(' ').any(|word| HERBS.contains(&word));
    match kind {
        Kind::Spice => LIGHT.contains(&last),
        Kind::Other | Kind::Vegetable | Kind::Liquid => {
            LIGHT_BY_NAME.iter().any(|end| name.ends_with(end)) || of_herb()
        }
        _ => false,
    }
}

/// Six bay leaves, a vanilla pod, two star anise: so few pieces of a spice or an herb weigh less than sticks to the spoon, and where no larder
/// says what one weighs they count as nothing, as what goes in to taste. Common practice, no source.
pub fn is_a_few_leaves(line: &Ingredient) -> bool {
    let few = |said: &Said| matches!(said.value, Value::Count(count) if count.value() <= Number::whole(24));
    let LineAmount::Said(said) = &line.amount else { return false };
    matches!(line.refers, Refers::Pantry(_)) && said.first().is_some_and(few) && is_light(&line.name.key, line.kind)
}

/// How many pieces a baker counts of what comes out as so many when a batch is scaled: whole ones where that is no more than a twentieth off,
/// else halves, else quarters. 5.07 bay leaves are 5, 5.4 leaves of gelatine 5 1/2, 1.69 onions 1 3/4; a third stays one. Common practice, no
/// source.
pub(crate) fn as_cut(count: Number) -> Number {
    if is_cut(count) {
        return count;
    }
    let steps = [(1, 1), (1, 2), (1, 4)].map(|(over, under)| count.rounded_to(Number::constant(over, under)));
    let mut near = steps.into_iter().flatten().filter(|near| near.is_positive());
    let is_near = |near: &Number| {
        let off = near.minus(count).and_then(|off| off.size().over(count));
        off.is_ok_and(|off| off <= Number::constant(1, 20))
    };
    let last = near.clone().next_back();
    near.find(is_near).or(last).unwrap_or(count)
}

/// Whether a number of pieces is one that somebody can cut: whole ones, halves, thirds and quarters.
pub(crate) fn is_cut(count: Number) -> bool {
    [3, 4].into_iter().any(|parts| count.times(Number::whole(parts)).is_ok_and(Number::is_whole))
}

/// What is weighed or poured, whatever somebody may sell in pieces.
fn is_weighed(kind: Kind) -> bool {
    kind.is_liquid()
        || kind.raises()
        || kind.is_sweet()
        || matches!(
            kind,
            Kind::Flour
                | Kind::Starch
                | Kind::Grain
                | Kind::Ice
                | Kind::Salt
                | Kind::Fat
                | Kind::Dairy
                | Kind::Seed
                | Kind::Pulse
                | Kind::Spice
                | Kind::Chocolate
                | Kind::Thickener
                | Kind::Seasoning
                | Kind::Lye
        )
}
