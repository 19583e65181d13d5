//! Figures of a part before and now.

use super::Version;
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass, Proportion};
use crate::measure::show;
use crate::model::recipe::{Base, KeptAt, Part, PartId};
use crate::solve::formula::{Composition, SolvedPart};

/// A figure that changed.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Figure {
    /// What it is.
    pub figure: &'static str,
    /// Before, as printed; empty when there was none.
    pub old: String,
    /// Now, as printed; empty when there is none.
    pub new: String,
    /// Before, in percent, grams or minutes.
    pub old_value: Option<Number>,
    /// Now.
    pub new_value: Option<Number>,
    /// The options under which alone this holds; empty for all.
    pub only: String,
}

impl Figure {
    /// Words that changed; `None` when they are the same.
    pub(super) fn words(figure: &'static str, old: String, new: String) -> Option<Figure> {
        (old != new).then_some(Figure { figure, old, new, old_value: None, new_value: None, only: String::new() })
    }

    fn numbers(
        figure: &'static str,
        old: Option<Number>,
        new: Option<Number>,
        print: impl Fn(Number) -> String,
    ) -> Option<Figure> {
        let shown = |value: Option<Number>| value.map(&print).unwrap_or_default();
        // Figures that print the same are the same to a reader.
        let (old_shown, new_shown) = (shown(old), shown(new));
        (old_shown != new_shown).then_some(Figure {
            figure,
            old: old_shown,
            new: new_shown,
            old_value: old,
            new_value: new,
            only: String::new(),
        })
    }

    /// Times in minutes.
    pub(super) fn minutes(figure: &'static str, old: i64, new: i64) -> Option<Figure> {
        let print = |minutes: Number| show::duration(Duration::minutes(minutes.to_whole().unwrap_or(0))).to_string();
        Figure::numbers(figure, Some(Number::whole(old)), Some(Number::whole(new)), print)
    }

    pub(super) fn share(figure: &'static str, old: Option<Proportion>, new: Option<Proportion>) -> Option<Figure> {
        let percent = |share: Option<Proportion>| share.and_then(|share| share.percent().ok());
        Figure::numbers(figure, percent(old), percent(new), |value| format!("{} %", value.decimal(1)))
    }

    fn mass(figure: &'static str, old: Option<Mass>, new: Option<Mass>) -> Option<Figure> {
        Figure::numbers(figure, old.map(Mass::value), new.map(Mass::value), |grams| {
            show::mass_plain(Mass::new(grams)).to_string()
        })
    }
}

/// The figures of a part that changed. What follows from a rescaling of the whole is left out.
pub(super) fn of_part(
    old: Version<'_>,
    new: Version<'_>,
    pair: (Option<PartId>, Option<PartId>),
    rescaled: Option<Number>,
) -> Vec<Figure> {
    let (Some(old_id), Some(new_id)) = pair else { return Vec::new() };
    let (Some(old_part), Some(new_part)) = (old.recipe.part(old_id), new.recipe.part(new_id)) else {
        return Vec::new();
    };
    let (Some(a), Some(b)) = (old.formula.part(old_id), new.formula.part(new_id)) else { return Vec::new() };
    // With one factor for everything, masses and pieces are compared as if nothing had been rescaled.
    let factor = rescaled.unwrap_or(Number::ONE);
    let scaled = |mass: Option<Mass>| mass.map(|mass| mass.times(factor).unwrap_or(mass));
    let pieces = |pieces: Option<crate::measure::quantity::Count>| pieces.map(crate::measure::quantity::Count::value);
    let scaled_pieces = pieces(a.pieces).map(|count| count.times(factor).unwrap_or(count));
    let base_words = |part: &Part| match &part.base {
        Some((Base::Flour, _)) => "the flour".to_owned(),
        Some((Base::Total, _)) => "everything".to_owned(),
        Some((Base::Named(name), _)) => name.to_string(),
        None => String::new(),
    };
    // What is put together by the piece is no dough: its shares on flour say nothing to anybody.
    let on_flour = |share: fn(&Composition) -> Option<Proportion>, part: &SolvedPart, of: &Part| {
        share(&part.composition).filter(|_| !of.per_piece)
    };
    let share = |name: &'static str, share: fn(&Composition) -> Option<Proportion>| {
        Figure::share(name, on_flour(share, a, old_part), on_flour(share, b, new_part))
    };
    [
        Figure::words("100 % is", base_words(old_part), base_words(new_part)),
        Figure::mass("base", scaled(a.base), b.base),
        share("hydration", Composition::hydration),
        share("salt on flour", Composition::salt_on_flour),
        share("sugar on flour", Composition::sugar_on_flour),
        share("fat on flour", Composition::fat_on_flour),
        Figure::share("prefermented flour", a.prefermented, b.prefermented),
        Figure::mass("total", scaled(a.goes_in), b.goes_in),
        Figure::numbers("pieces", scaled_pieces, pieces(b.pieces), show::count_of),
        Figure::mass("piece weight", a.each, b.each),
        Figure::mass("makes", scaled(a.needs), b.needs),
        Figure::share("loss", a.loss, b.loss),
        Figure::mass("used", scaled(a.balance.used), b.balance.used),
        Figure::mass("left over", scaled(a.balance.left), b.balance.left),
        Figure::words("keeps", keeps(old_part), keeps(new_part)),
        Figure::words("desired temperature", desired(old_part), desired(new_part)),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn keeps(part: &Part) -> String {
    let Some(keeps) = part.keeps else { return String::new() };
    let time = show::duration(keeps.time);
    match keeps.how {
        KeptAt::Chilled => format!("{time}, chilled"),
        KeptAt::Frozen => format!("{time}, frozen"),
        KeptAt::At(at) => format!("{time} at {}", show::temperature(at, show::Units::Metric)),
        KeptAt::Unsaid => time.to_string(),
    }
}

fn desired(part: &Part) -> String {
    part.desired_temperature.map(|at| show::temperature(at, show::Units::Metric)).unwrap_or_default().to_string()
}
