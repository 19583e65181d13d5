//! What comes in pieces and what is weighed: of how many a bare number without a unit is believed.

use crate::language::syntax::Key;
use crate::measure::number::Number;
use crate::model::kind::Kind;
use crate::model::larder::{Facts, brought};

/// Words in a name that say that it comes in pieces.
#[rustfmt::skip]
const PIECES: &[&str] = &[
    "egg", "eggs", "yolk", "yolks", "white", "whites", "pod", "pods", "leaf", "leaves", "stick", "sticks", "sheet", "sheets",
    "clove", "cloves", "sprig", "sprigs", "bulb", "bulbs", "head", "heads", "slice", "slices", "fillet", "fillets", "rasher",
    "rashers", "packet", "packets", "sachet", "sachets", "tin", "tins", "can", "cans", "bag", "bags", "bunch", "bunches",
    "bottle", "bottles", "jar", "jars", "ball", "balls", "star", "stars", "anise", "berry", "berries", "corn", "corns",
    "peppercorn", "peppercorns", "nutmeg", "nutmegs", "bean", "beans", "stalk", "stalks", "quill", "quills", "root", "roots",
    "thread", "threads", "flower", "flowers", "cube", "cubes", "cake", "cakes", "bar", "bars", "pat", "pats", "chilli",
    "chillies", "pepper", "peppers", "blade", "blades", "strip", "strips", "tablet", "tablets", "capsule", "capsules", "drop",
    "drops", "block", "blocks",
];

/// Of what no larder gives the weight of one, so many are believed.
pub(crate) const FEW: Number = Number::whole(100);
/// Of what has a weight, so many.
const MANY: Number = Number::whole(2000);

/// Whether the name says that it comes in pieces. English puts the thing last: egg whites are pieces, and white sugar, cake
/// flour, corn syrup and orange flower water are none; leaf gelatine and sheet gelatine are the exception.
pub(crate) fn comes_in_pieces(name: &Key) -> bool {
    let name = name.as_str().split_once(" for ").map_or(name.as_str(), |(what, _)| what);
    let is_piece = |word: Option<&str>| word.is_some_and(|word| PIECES.contains(&word));
    is_piece(name.rsplit(' ').next()) || (name.ends_with("gelatine") && is_piece(name.split(' ').next()))
}

/// How many pieces a bare number on the line of this can mean at most; zero of what is weighed and never counted.
pub(crate) fn most_pieces(name: &Key, kind: Kind, facts: Option<&Facts>) -> Number {
    let one_weighs = facts.is_some_and(|facts| facts.one_weighs.is_some());
    // A block of the baker's own that gives the weight of one has made a piece of it.
    let own_words = one_weighs && !brought(name);
    match (comes_in_pieces(name) || own_words, is_weighed(kind), one_weighs) {
        (true, ..) | (false, false, true) => MANY,
        (false, true, _) => Number::ZERO,
        (false, false, false) => FEW,
    }
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
