//! What an ingredient is, and whether it is sold by a share that it holds: butter by its fat, vinegar by its acid.

use crate::language::syntax::Key;
use crate::measure::number::Number;
use crate::model::kind::Kind;
use crate::model::larder::Facts;

/// Whether a thing is sold by what it holds, butter by its fat and vinegar by its acid, and such a share of it is usual. Common practice,
/// no source.
pub(super) fn holds(name: &str, kind: Kind, share: Number) -> bool {
    let last = name.to_lowercase().split_whitespace().last().unwrap_or_default().to_owned();
    let (least, most) = match (last.as_str(), kind) {
        ("butter", Kind::Fat) => (78, 86),
        ("cocoa", _) => (10, 30),
        ("cream", _) => (10, 60),
        ("chocolate" | "couverture", _) | (_, Kind::Chocolate) => (28, 100),
        ("cheese", _) => (5, 75),
        (_, Kind::Vinegar) => (3, 30),
        ("rum" | "vodka" | "brandy" | "whisky" | "whiskey" | "gin" | "kirsch", _) | (_, Kind::Spirit) => (10, 96),
        (_, Kind::Milk) => (0, 6),
        (_, Kind::Dairy) => (0, 75),
        (_, Kind::Brine) => (1, 30),
        (_, Kind::Liquid) => (0, 20),
        (_, Kind::Juice) => (5, 100),
        (_, Kind::Lye) => (1, 50),
        (_, Kind::Meat) => (1, 50),
        _ => return false,
    };
    (Number::whole(least)..=Number::whole(most)).contains(&share)
}

/// What an ingredient is, by the larder that the program brings or by its name.
pub(super) fn kind(name: &str, facts: Option<&Facts>) -> Kind {
    facts.and_then(|facts| facts.kind).unwrap_or_else(|| Kind::of_name(Key::new(name).as_str()))
}
