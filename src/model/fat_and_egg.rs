//! What a fat, an egg or a flour is, where its kind alone does not tell: oil is poured, and white of egg foams.

use crate::model::kind::Kind;
use crate::model::lowered::beginnings;
use crate::model::recipe::Ingredient;
use crate::text::words::words_without_hyphens;

impl Ingredient {
    /// Whether it is oil, which is poured: `olive oil extra virgin`, `oil for frying`.
    pub fn is_oil(&self) -> bool {
        self.kind == Kind::Fat
            && words_without_hyphens(self.name.key.as_str()).any(|word| word == "oil" || word == "oils")
    }

    /// Whether it is fat that something is fried in, by its name or by what is said of it.
    pub fn is_to_fry_in(&self) -> bool {
        let said = || self.preparation.as_deref().is_some_and(|said| said.to_lowercase().contains("fry"));
        self.kind == Kind::Fat && (self.name.has_word_beginning(beginnings!["fry", "deep"]) || said())
    }

    /// Whether it is flour of any kind, whether percentages are counted on it or not.
    pub fn is_any_flour(&self) -> bool {
        self.is_flour || self.kind == Kind::Flour
    }

    /// Whether it is the white of eggs, and not eggs with a white shell.
    pub fn is_egg_white(&self) -> bool {
        self.kind == Kind::Egg && says_white(self.name.key.as_str())
    }
}

/// Whether by its name something is the white of eggs.
pub fn is_egg_white(name: &str) -> bool {
    says_white(name) && Kind::of_name(name) == Kind::Egg
}

fn says_white(name: &str) -> bool {
    let mut words = words_without_hyphens(name).peekable();
    while let Some(word) = words.next() {
        let mut is_shell = || words.peek().is_some_and(|next| next.starts_with("egg"));
        if word == "whites" || word == "white" && !is_shell() {
            return true;
        }
    }
    false
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn white_of_egg_is_no_egg_with_a_white_shell() {
        for (name, is_white) in [
            ("egg white", true),
            ("egg whites", true),
            ("beaten egg white", true),
            ("egg", false),
            ("white eggs", false),
            ("egg yolk", false),
            ("white chocolate", false),
        ] {
            assert_eq!(is_egg_white(name), is_white, "{name}");
        }
    }
}
