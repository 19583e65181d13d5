//! A figure in a column: as much room behind it as the column's longest needs.

use crate::measure::shown::Shown;
use crate::out::sheet::column::{Column, pointed};
use maud::{Markup, html};

/// Sets a figure.
pub(super) fn set(column: Column, shown: &Shown) -> Markup {
    let Some((figure, also)) = pointed(shown) else {
        let words = shown.to_string();
        return html! { @if !words.is_empty() { span.say.long[words.chars().count() > 22] { (words) } } };
    };
    let missing = column.missing(figure);
    // The room for a missing point is only needed where there is none.
    let kind = if figure.decimals() == 0 { "d" } else { "z" };
    html! {
        (figure.digits)
        @if missing > 0 { span class={ "pad " (kind) (missing) } {} }
        @if !figure.unit.is_empty() { " " span.unit { (figure.unit) } }
        @if let Some(also) = also { " " span.also { (also) } }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn points_stand_under_one_another() {
        let grams = |digits: &str| Shown::new(digits, "g");
        let words = Shown::words("to taste");
        let column = Column::of(&[grams("1350"), grams("24.3"), grams("0.08"), words.clone()]);
        let set = |shown: &Shown| set(column, shown).into_string();
        assert_eq!(set(&grams("1350")), "1350<span class=\"pad d2\"></span> <span class=\"unit\">g</span>");
        assert_eq!(set(&grams("24.3")), "24.3<span class=\"pad z1\"></span> <span class=\"unit\">g</span>");
        assert_eq!(set(&words), "<span class=\"say\">to taste</span>");
        let ounces = crate::measure::show::mass_us(crate::make::weigh::POUND);
        assert_eq!(set(&ounces), "<span class=\"say\">1 lb</span>");
    }
}
