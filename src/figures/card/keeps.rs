//! How long the parts of a card keep, and how long before they are taken they may be made.

use super::Card;
use crate::measure::own_words::in_own_words;
use crate::measure::quantity::Duration;
use crate::measure::show::{self, Units};
use crate::measure::value::Said;
use crate::model::recipe::{Keeps, KeptAt};
use crate::plan::problem::Minute;

/// How long before it is taken a part may be made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AheadCard {
    /// By how many minutes.
    pub minutes: Minute,
    /// How it is kept: `chilled`; in its last rest where it says nothing of its own.
    pub how: String,
}

impl AheadCard {
    /// In a sentence: `can be made up to 4 days ahead, kept chilled`.
    pub fn shown(&self) -> String {
        let time = show::duration(Duration::minutes(self.minutes));
        format!("can be made up to {time} ahead{}{}", if self.how.is_empty() { "" } else { ", kept " }, self.how)
    }
}

impl Card {
    /// Says of each part that may wait how long before it is taken it may be made.
    pub fn mark_ahead(&mut self, units: Units) {
        for kept in &self.timeline.kept {
            let minutes = kept.latest - kept.earliest;
            let how = kept.keeps.map_or_else(|| "in its last rest".to_owned(), |keeps| how_kept(keeps, units));
            for part in self.parts.iter_mut().filter(|part| part.id == kept.id && minutes > 0) {
                part.ahead = Some(AheadCard { minutes, how: how.clone() });
            }
        }
    }
}

/// How long a part keeps, and how: `2 days, chilled`.
pub(crate) fn keeps_shown(keeps: Keeps, units: Units) -> String {
    let time = show::duration(keeps.time);
    match (how_kept(keeps, units), keeps.how) {
        (how, KeptAt::Chilled | KeptAt::Frozen) => format!("{time}, {how}"),
        (how, KeptAt::At(_)) => format!("{time} {how}"),
        (_, KeptAt::Unsaid) => time.to_string(),
    }
}

/// How a part is kept: `chilled`, `at 18 °C`; nothing where that is not said.
fn how_kept(keeps: Keeps, units: Units) -> String {
    match keeps.how {
        KeptAt::Chilled => "chilled".to_owned(),
        KeptAt::Frozen => "frozen".to_owned(),
        KeptAt::At(_) => {
            let said: Vec<Said> = keeps.said.into_iter().flatten().collect();
            format!("at {}", in_own_words(&said, units))
        }
        KeptAt::Unsaid => String::new(),
    }
}
