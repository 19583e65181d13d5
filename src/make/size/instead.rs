//! What to ask for instead of a size that cannot be made, in the words of wherever it was asked for.

/// What to do instead.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Instead {
    /// What is said in the same words everywhere.
    Words(String),
    /// A size in times the recipe, or in pieces.
    ByTimesOrPieces,
    /// A size in times the recipe, or by its weight, or pieces that the recipe then has to name.
    ByTimesOrTotal,
    /// The nearest sizes that can be made.
    Nearest(Vec<Near>),
    /// The smallest size that can be made, if one is known.
    Smallest(Option<Near>),
}

/// A size that can be made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Near {
    /// As a person calls it: `24 buns`, `2 times`.
    pub(super) called: String,
    /// In which manner it is asked for.
    pub(super) manner: Manner,
    /// Its figure in that manner.
    pub(super) figure: String,
    /// How much flour that is, or whatever 100 % is.
    pub(super) base: Option<String>,
}

/// In which manner a size is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Manner {
    Pieces,
    Times,
}

/// Where a size was asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AskedBy {
    /// An option of a command: `--pieces 24`.
    Option,
    /// The page of a book: `sizes 24`.
    Page,
    /// A bake in a log: `bake 2027-03-02, 24 buns`.
    Log,
}

impl Instead {
    /// In a sentence, for where the size was asked for.
    pub fn shown(&self, by: AskedBy) -> String {
        match (self, by) {
            (Instead::Words(words), _) => words.clone(),
            (Instead::ByTimesOrPieces, AskedBy::Option) => "scale it by --times or --pieces".to_owned(),
            (Instead::ByTimesOrPieces, AskedBy::Page) => {
                "name it in pieces, `sizes 20`, or in times the recipe, `sizes x 2`".to_owned()
            }
            (Instead::ByTimesOrPieces, AskedBy::Log) => {
                "write it in pieces, `bake 2027-03-02, 20 rolls`, or in times the recipe, `x 2`".to_owned()
            }
            (Instead::ByTimesOrTotal, AskedBy::Log) => {
                "write it in times the recipe, `bake 2027-03-02, x 2`, or by its weight, `2 kg`, or write `makes 24 buns` into the \
                 recipe's head"
                    .to_owned()
            }
            (Instead::ByTimesOrTotal, AskedBy::Option) => {
                "scale it by --times or --total, or write `makes 24 buns` into its head".to_owned()
            }
            (Instead::ByTimesOrTotal, AskedBy::Page) => {
                "name it in times the recipe, `sizes x 2`, or by its weight, `sizes 2 kg`, or write `makes 24 buns` into its head"
                    .to_owned()
            }
            (Instead::Nearest(near), by) => {
                let near: Vec<String> = near.iter().map(|near| near.shown(by)).collect();
                format!("the nearest batches are {}", near.join(" and "))
            }
            (Instead::Smallest(near), by) => {
                format!("the smallest batch is {}", near.as_ref().map(|near| near.shown(by)).unwrap_or_default())
            }
        }
    }
}

impl Near {
    fn shown(&self, by: AskedBy) -> String {
        let base = self.base.as_ref().map_or_else(String::new, |base| format!(", base {base}"));
        let figure = &self.figure;
        let written = match (by, self.manner) {
            (AskedBy::Option, Manner::Pieces) => format!("--pieces {figure}"),
            (AskedBy::Option, Manner::Times) => format!("--times {figure}"),
            (AskedBy::Page, Manner::Pieces) => format!("sizes {figure}"),
            (AskedBy::Page, Manner::Times) => format!("sizes x {figure}"),
            // Behind the date of the bake.
            (AskedBy::Log, Manner::Pieces) => format!("`, {}`", self.called),
            (AskedBy::Log, Manner::Times) => format!("`, x {figure}`"),
        };
        format!("{} ({written}{base})", self.called)
    }
}

impl From<&str> for Instead {
    fn from(words: &str) -> Instead {
        Instead::Words(words.to_owned())
    }
}

impl From<String> for Instead {
    fn from(words: String) -> Instead {
        Instead::Words(words)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_size_is_offered_in_the_words_in_which_it_was_asked_for() {
        let near = |called: &str, manner, figure: &str| Near {
            called: called.to_owned(),
            manner,
            figure: figure.to_owned(),
            base: Some("1 kg".to_owned()),
        };
        let nearest =
            Instead::Nearest(vec![near("12 buns", Manner::Pieces, "12"), near("2 times", Manner::Times, "2")]);
        assert_eq!(
            nearest.shown(AskedBy::Option),
            "the nearest batches are 12 buns (--pieces 12, base 1 kg) and 2 times (--times 2, base 1 kg)"
        );
        assert_eq!(
            nearest.shown(AskedBy::Log),
            "the nearest batches are 12 buns (`, 12 buns`, base 1 kg) and 2 times (`, x 2`, base 1 kg)"
        );
        assert_eq!(
            nearest.shown(AskedBy::Page),
            "the nearest batches are 12 buns (sizes 12, base 1 kg) and 2 times (sizes x 2, base 1 kg)"
        );
        for instead in [Instead::ByTimesOrPieces, Instead::ByTimesOrTotal] {
            assert!(instead.shown(AskedBy::Option).contains("--times"), "{instead:?}");
            for by in [AskedBy::Page, AskedBy::Log] {
                assert!(!instead.shown(by).contains("--"), "{instead:?}");
            }
        }
    }
}
