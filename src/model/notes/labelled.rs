//! A list in one line in which each name has its colon: `Flour: 1 kg; Milk: 450 g`.

use super::measure::measure;

/// Gives each of them a line of its own.
pub(super) fn part(lines: &mut Vec<String>) {
    let each = |line: &String| {
        items(line).map_or_else(|| vec![line.clone()], |items| items.into_iter().map(str::to_owned).collect())
    };
    *lines = lines.iter().flat_map(each).collect();
}

/// The items of such a line; `None` for any other.
fn items(line: &str) -> Option<Vec<&str>> {
    ["; ", ", "].into_iter().find_map(|mark| {
        let items: Vec<&str> = line.trim_end_matches(['.', ';', ',']).split(mark).map(str::trim).collect();
        (items.len() > 1 && items.iter().all(|item| is_labelled(item))).then_some(items)
    })
}

/// Whether a text is a name with a colon and a weight or a volume, and no more.
fn is_labelled(item: &str) -> bool {
    item.split_once(':').is_some_and(|(name, amount)| {
        let is_name = name.chars().any(char::is_alphabetic) && name.split_whitespace().count() <= 4;
        let said = measure(amount).filter(|(amount, _)| amount.is_quantity() || amount.known() == Some("%"));
        is_name && said.is_some_and(|(_, rest)| rest.trim().is_empty())
    })
}

#[cfg(test)]
mod tests {
    use super::items;

    #[test]
    fn each_name_has_its_colon() {
        assert_eq!(items("Flour: 1kg; Milk: 450g;"), Some(vec!["Flour: 1kg", "Milk: 450g"]));
        assert_eq!(items("Flour: 100 %, Water: 65 %"), Some(vec!["Flour: 100 %", "Water: 65 %"]));
        for line in
            ["Dough: 500 g flour, 300 g water", "Flour: 500 g", "Bake: 20 min, Rest: 10 min", "Poolish: 100 g, stir"]
        {
            assert_eq!(items(line), None, "{line}");
        }
    }
}
