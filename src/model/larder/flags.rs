//! What a block of the larder says of an ingredient in so many words.

/// What a block says of an ingredient in so many words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Flags {
    /// Uncooked flour.
    pub raw_flour: bool,
    /// Uncooked egg.
    pub raw_egg: bool,
    /// Safe to eat as it is.
    pub ready_to_eat: bool,
    /// Of an animal, killed or not, where neither its kind nor its allergens tell: honey.
    pub not_vegan: bool,
    /// Of a killed animal, where its kind does not tell: lard, gelatine.
    pub not_vegetarian: bool,
    /// Made of several things, which its pack lists.
    pub compound: bool,
}

impl Flags {
    /// What either says.
    pub(super) fn and(self, other: Flags) -> Flags {
        Flags {
            raw_flour: self.raw_flour || other.raw_flour,
            raw_egg: self.raw_egg || other.raw_egg,
            ready_to_eat: self.ready_to_eat || other.ready_to_eat,
            not_vegan: self.not_vegan || other.not_vegan,
            not_vegetarian: self.not_vegetarian || other.not_vegetarian,
            compound: self.compound || other.compound,
        }
    }
}
