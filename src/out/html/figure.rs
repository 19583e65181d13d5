//! Figures set so that their points stand under one another.

use maud::{Markup, html};

/// A printed figure taken apart: `24.3 g (0.85 oz)`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(in crate::out) struct Figure<'a> {
    pub(in crate::out) digits: &'a str,
    pub(in crate::out) decimals: usize,
    pub(in crate::out) unit: &'a str,
    pub(in crate::out) also: Option<&'a str>,
}

/// Takes a printed figure apart; `None` for words such as `to taste` and for pounds and ounces, which have no point.
pub(in crate::out) fn take_apart(shown: &str) -> Option<Figure<'_>> {
    let (first, also) = match shown.split_once(" (") {
        Some((first, also)) => (first, also.strip_suffix(')')),
        None => (shown, None),
    };
    let (digits, unit) = match first.rsplit_once(' ') {
        Some((digits, unit)) if matches!(unit, "g" | "kg") => (digits, unit),
        Some(_) => return None,
        None => (first, ""),
    };
    let is_figure = digits.starts_with(|c: char| c.is_ascii_digit())
        && digits.chars().all(|c| c.is_ascii_digit() || c == '.' || c == '\u{2009}');
    let decimals = digits.split_once('.').map_or(0, |(_, fraction)| fraction.len());
    is_figure.then_some(Figure { digits, decimals, unit, also })
}

/// A column of figures: how many decimals its longest has, in grams (and percent) and in kilograms.
#[derive(Debug, Clone, Copy)]
pub(in crate::out) struct Column {
    decimals: usize,
    of_kilograms: usize,
}

impl Column {
    /// For these printed figures.
    pub(in crate::out) fn of<'a>(all: impl IntoIterator<Item = &'a str>) -> Column {
        let mut column = Column { decimals: 0, of_kilograms: 0 };
        for figure in all.into_iter().filter_map(take_apart) {
            let most = if figure.unit == "kg" { &mut column.of_kilograms } else { &mut column.decimals };
            *most = figure.decimals.min(4).max(*most);
        }
        column
    }

    /// How many decimals less than the column's longest a figure has.
    pub(in crate::out) fn missing(self, figure: &Figure<'_>) -> usize {
        let most = if figure.unit == "kg" { self.of_kilograms } else { self.decimals };
        most.saturating_sub(figure.decimals)
    }

    /// A figure with as much room behind it as the column's longest needs.
    pub(super) fn set(self, shown: &str) -> Markup {
        let Some(figure) = take_apart(shown) else {
            return html! { @if !shown.is_empty() { span.say.long[shown.chars().count() > 22] { (shown) } } };
        };
        let missing = self.missing(&figure);
        // The room for a missing point is only needed where there is none.
        let kind = if figure.decimals == 0 { "d" } else { "z" };
        html! {
            (figure.digits)
            @if missing > 0 { span class={ "pad " (kind) (missing) } {} }
            @if !figure.unit.is_empty() { " " span.unit { (figure.unit) } }
            @if let Some(also) = figure.also { " " span.also { (also) } }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn points_stand_under_one_another() {
        let column = Column::of(["1350 g", "24.3 g", "0.08 g", "to taste"]);
        assert_eq!(
            column.set("1350 g").into_string(),
            "1350<span class=\"pad d2\"></span> <span class=\"unit\">g</span>"
        );
        assert_eq!(
            column.set("24.3 g").into_string(),
            "24.3<span class=\"pad z1\"></span> <span class=\"unit\">g</span>"
        );
        assert_eq!(column.set("to taste").into_string(), "<span class=\"say\">to taste</span>");
        assert_eq!(column.set("2 lb 3 1/4 oz").into_string(), "<span class=\"say\">2 lb 3 1/4 oz</span>");
    }
}
