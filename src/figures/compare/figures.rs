//! Figures of a part before and now.

use super::Version;
use crate::measure::number::Number;
use crate::measure::quantity::{Count, Duration, Mass, Proportion};
use crate::measure::show::{self, Units};
use crate::measure::shown::Shown;
use crate::measure::temperature::Temperature;
use crate::model::recipe::{Base, KeptAt, Part, PartId};
use crate::solve::formula::{OnFlour, SolvedPart};
use crate::text::composed::reads_alike;

/// A figure that changed.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Figure {
    /// What it is.
    pub figure: &'static str,
    /// Before, as printed; empty when there was none.
    pub old: Shown,
    /// Now, as printed; empty when there is none.
    pub new: Shown,
    /// Before, in percent, grams or minutes.
    pub old_value: Option<Number>,
    /// Now.
    pub new_value: Option<Number>,
    /// The options under which alone this holds; empty for all.
    pub only: String,
    /// Whether it was worked out and both round alike: told only where nothing else is, so that no change is silent.
    pub(super) is_fine: bool,
}

impl Figure {
    /// What is printed of something that changed; `None` when that is the same.
    pub(super) fn words(figure: &'static str, old: impl Into<Shown>, new: impl Into<Shown>) -> Option<Figure> {
        let (old, new) = (old.into(), new.into());
        let is_same = old == new
            || Shown { words: new.words.clone(), ..old.clone() } == new && reads_alike(&old.words, &new.words);
        (!is_same).then_some(Figure {
            figure,
            old,
            new,
            old_value: None,
            new_value: None,
            only: String::new(),
            is_fine: false,
        })
    }

    /// Words for something that also has an exact value: where the words are the same and the values are not, the values
    /// are told, so that no change is silent because both round alike.
    pub(super) fn told<T: PartialEq, S: Into<Shown>>(
        figure: &'static str,
        (old, new): (T, T),
        words: impl Fn(&T) -> Shown,
        exact: impl Fn(&T) -> S,
    ) -> Option<Figure> {
        let found = Figure::words(figure, words(&old), words(&new));
        if found.is_none() && old != new { Figure::words(figure, exact(&old), exact(&new)) } else { found }
    }

    /// A temperature or none.
    pub(super) fn heat(figure: &'static str, old: Option<Temperature>, new: Option<Temperature>) -> Option<Figure> {
        let words = |at: &Option<Temperature>| at.map(|at| show::temperature(at, Units::Metric)).unwrap_or_default();
        let exact = |at: &Option<Temperature>| at.map(|at| exact_celsius(at.celsius())).unwrap_or_default();
        let tenth =
            |at: &Option<Temperature>| at.map(|at| format!("{} °C", at.celsius().decimal(1))).unwrap_or_default();
        if words(&old) == words(&new) && tenth(&old) != tenth(&new) {
            return Figure::words(figure, tenth(&old), tenth(&new));
        }
        Figure::told(figure, (old, new), words, exact)
    }

    /// Shares on flour, each with what binds it.
    fn on_flour(figure: &'static str, old: Option<OnFlour>, new: Option<OnFlour>) -> Option<Figure> {
        let share = |one: Option<OnFlour>| one.map(|one| one.share);
        let told = Figure::share(figure, share(old), share(new));
        let bound = |shown: Shown, one: Option<OnFlour>| shown.bound(one.map_or("", OnFlour::bound));
        let is_bound = |one: Option<OnFlour>| one.map(OnFlour::bound).unwrap_or_default();
        // Where both print alike and only one is bound, the bound is told, and not the last of nine decimals.
        if let Some(told) = told.filter(|told| !told.is_fine || is_bound(old) == is_bound(new)) {
            return Some(Figure { old: bound(told.old, old), new: bound(told.new, new), ..told });
        }
        // That it is no longer known for certain is a change, though what is known of it is as much.
        let print = |one: Option<OnFlour>| {
            let value = one.and_then(|one| one.share.percent().ok());
            bound(value.map(percent_shown).unwrap_or_default(), one)
        };
        let value = |one: Option<OnFlour>| one.and_then(|one| one.share.percent().ok());
        Figure::words(figure, print(old), print(new)).map(|told| Figure {
            old_value: value(old),
            new_value: value(new),
            ..told
        })
    }

    fn numbers(
        figure: &'static str,
        (old, new): (Option<Number>, Option<Number>),
        unit: &'static str,
        print: impl Fn(Number) -> Shown,
    ) -> Option<Figure> {
        let exact = |value: &Option<Number>| value.map(|value| Shown::new(finely(value), unit)).unwrap_or_default();
        let words = |value: &Option<Number>| value.map(&print).unwrap_or_default();
        let told = Figure::told(figure, (old, new), words, exact)?;
        Some(Figure { old_value: old, new_value: new, is_fine: words(&old) == words(&new), ..told })
    }

    /// Times in minutes.
    pub(super) fn minutes(figure: &'static str, old: i64, new: i64) -> Option<Figure> {
        let print = |minutes: Number| show::duration(Duration::minutes(minutes.to_whole().unwrap_or(0)));
        Figure::numbers(figure, (Some(Number::whole(old)), Some(Number::whole(new))), "min", print)
    }

    pub(super) fn share(figure: &'static str, old: Option<Proportion>, new: Option<Proportion>) -> Option<Figure> {
        let percent = |share: Option<Proportion>| share.and_then(|share| share.percent().ok());
        Figure::numbers(figure, (percent(old), percent(new)), "%", percent_shown)
    }

    /// A percentage that stands in the file: told however little it changed.
    pub(super) fn written_share(
        figure: &'static str,
        old: Option<Proportion>,
        new: Option<Proportion>,
    ) -> Option<Figure> {
        Figure::share(figure, old, new).map(|told| Figure { is_fine: false, ..told })
    }

    pub(super) fn mass(figure: &'static str, old: Option<Mass>, new: Option<Mass>) -> Option<Figure> {
        let print = |grams| show::mass_plain(Mass::new(grams));
        Figure::numbers(figure, (old.map(Mass::value), new.map(Mass::value)), "g", print)
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
    let (Some(a), Some(b)) = (old.mixed(old_id), new.mixed(new_id)) else { return Vec::new() };
    // With one factor for everything, what grew with it is told once, for the whole. What did not is told as it is in both.
    let factor = rescaled.unwrap_or(Number::ONE);
    let grew = |old: Option<Number>, new: Option<Number>| {
        factor != Number::ONE && old.is_some_and(|old| old.times(factor).ok() == new)
    };
    let mass = |figure: &'static str, old: Option<Mass>, new: Option<Mass>| {
        Figure::mass(figure, old, new).filter(|_| !grew(old.map(Mass::value), new.map(Mass::value)))
    };
    let pieces = |part: &SolvedPart| part.pieces.map(Count::value);
    let base_words = |part: &Part| match &part.base {
        Some((Base::Flour, _)) => "the flour".to_owned(),
        Some((Base::Total, _)) => "everything".to_owned(),
        Some((Base::Named(name), _)) => name.to_string(),
        None => String::new(),
    };
    // What is put together is no dough: its shares on flour say nothing to anybody.
    let on_flour = |name: &'static str, share: fn(&SolvedPart) -> Option<OnFlour>| {
        let of = |version: Version<'_>, id: PartId, solved: &SolvedPart| {
            share(solved).filter(|_| version.formula.is_mix(version.recipe, id))
        };
        Figure::on_flour(name, of(old, old_id, &a), of(new, new_id, &b))
    };
    [
        Figure::words("taken out of", taken_out_of(old, old_part), taken_out_of(new, new_part)),
        Figure::words("amounts are", amounts_are(old_part), amounts_are(new_part)),
        Figure::words("100 % is", base_words(old_part), base_words(new_part)),
        mass("base", a.base, b.base),
        on_flour("hydration", SolvedPart::hydration),
        on_flour("salt on flour", SolvedPart::salt_on_flour),
        on_flour("sugar on flour", SolvedPart::sugar_on_flour),
        on_flour("fat on flour", SolvedPart::fat_on_flour),
        Figure::share("prefermented flour", a.prefermented, b.prefermented),
        mass("total", a.goes_in, b.goes_in),
        Figure::numbers("pieces", (pieces(&a), pieces(&b)), "", |count| Shown::new(show::count_of(count), ""))
            .filter(|_| !grew(pieces(&a), pieces(&b))),
        Figure::mass("piece weight", a.each, b.each),
        mass("makes", a.needs, b.needs),
        Figure::share("loss", a.loss, b.loss),
        Figure::written_share("stated loss", stated_loss(old_part), stated_loss(new_part)),
        Figure::words("what is lost", what_is_lost(old_part), what_is_lost(new_part)),
        mass("used", a.balance.used, b.balance.used),
        mass("left over", a.balance.left, b.balance.left),
        mass("spare", spare(old_part), spare(new_part)),
        Figure::told("keeps", (keeps(old_part), keeps(new_part)), kept, |keeps| {
            keeps.map(|(time, how)| format!("{} s, {how:?}", finely(time.value()))).unwrap_or_default()
        }),
        Figure::heat("desired temperature", old_part.desired_temperature, new_part.desired_temperature),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn percent_shown(percent: Number) -> Shown {
    Shown::new(percent.decimal(1), "%")
}

/// What leaves a part that makes less than goes in.
fn what_is_lost(part: &Part) -> String {
    if part.makes.is_some_and(|makes| makes.alike) { "everything alike" } else { "water" }.to_owned()
}

/// The loss that the file says, whatever the amounts come to.
fn stated_loss(part: &Part) -> Option<Proportion> {
    part.divide.as_ref().map_or_else(|| part.makes.as_ref().and_then(|makes| makes.loss), |divide| divide.loss)
}

fn spare(part: &Part) -> Option<Mass> {
    part.spare.map(|(mass, _)| mass)
}

/// The dough that a preferment is taken out of.
fn taken_out_of(version: Version<'_>, part: &Part) -> String {
    part.from.and_then(|from| version.recipe.part(from)).map(|from| from.name.to_string()).unwrap_or_default()
}

fn amounts_are(part: &Part) -> String {
    if part.per_piece { "for one piece".to_owned() } else { String::new() }
}

fn keeps(part: &Part) -> Option<(Duration, KeptAt)> {
    part.keeps.map(|keeps| (keeps.time, keeps.how))
}

fn kept(keeps: &Option<(Duration, KeptAt)>) -> Shown {
    let Some((time, how)) = *keeps else { return Shown::default() };
    let time = show::duration(time);
    Shown::words(match how {
        KeptAt::Chilled => format!("{time}, chilled"),
        KeptAt::Frozen => format!("{time}, frozen"),
        KeptAt::At(at) => format!("{time} at {}", show::temperature(at, Units::Metric)),
        KeptAt::Unsaid => return time,
    })
}

/// As many digits as a figure can be written with.
pub(super) fn finely(value: Number) -> String {
    value.decimal(9)
}

pub(super) fn exact_celsius(degrees: Number) -> String {
    format!("{} °C", finely(degrees))
}
