//! Of which foods 21 CFR 101.12(b), table 2, names how much is eaten at once, as far as a name tells which food it is. From memory.

use crate::figures::label::{Label, Pack, Serving};
use crate::measure::noun::is_one_or_several;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show;

/// A food by the last words of its name, how many grams of it the table counts with, and that in words.
type Row = (&'static [&'static str], i64, &'static str);

#[rustfmt::skip]
const ROWS: &[Row] = &[
    (&["ice cream", "gelato", "sorbet", "sherbet", "frozen yogurt"], 95, "2/3 cup of ice cream and sorbet (`serving 95 g, 2/3 cup`)"),
    (&["jam", "jelly", "marmalade", "curd", "preserve", "honey", "fruit butter"], 20, "1 tablespoon of jam, curd and honey (`serving 20 g, 1 tbsp`)"),
    (&["ketchup", "catsup", "mayonnaise", "relish", "chutney", "piccalilli"], 17, "1 tablespoon of ketchup, mayonnaise and relish (`serving 17 g, 1 tbsp`)"),
    (&["mustard", "horseradish"], 5, "1 teaspoon of mustard and horseradish (`serving 5 g, 1 tsp`)"),
    (&["hummus", "dip", "pesto", "spread", "dressing", "vinaigrette", "peanut butter", "nut butter"], 30, "2 tablespoons of dips, spreads and dressings (`serving 30 g, 2 tbsp`)"),
    (&["gravy"], 60, "1/4 cup of gravy (`serving 60 g, 1/4 cup`)"),
    (&["pickle", "gherkin"], 30, "30 g of pickles (`serving 30 g`)"),
    (&["soup", "chowder", "broth", "bisque"], 245, "245 g of soup (`serving 245 g, 1 cup`)"),
    (&["stew", "chilli", "chili", "curry", "ragout", "cassoulet", "risotto", "ragu"], 245, "1 cup of what a cup measures (`serving 245 g, 1 cup`)"),
    (&["dumpling", "pierogi", "samosa", "empanada", "pasty", "burrito", "tamale", "pizza", "quiche", "lasagne", "spring roll", "egg roll", "croquette", "calzone"], 140,
     "140 g of dishes that no cup measures, 85 g of what is eaten before a meal (`serving 140 g, 4 dumplings`)"),
    (&["pudding", "custard", "mousse", "panna cotta"], 120, "1/2 cup of puddings and custards (`serving 120 g, 1/2 cup`)"),
    (&["pie", "tart", "turnover", "cobbler", "crumble", "strudel"], 125, "125 g of pies, tarts and turnovers, 140 g where they are a meal (`serving 125 g, 1/8 pie`)"),
    (&["caramel", "fudge", "toffee", "nougat", "marshmallow", "truffle", "turkish delight", "brittle"], 30, "30 g of sweets, 15 g of hard ones (`serving 30 g`)"),
    (&["granola", "muesli"], 60, "60 g of heavy cereals for breakfast (`serving 60 g`)"),
];

/// The row of a food, by how its name ends before what is beside it, or by what its pieces are called.
fn row_of(label: &Label) -> Option<&'static Row> {
    let name = label.name.to_lowercase();
    let head = [" with ", " in ", ", ", " ("]
        .iter()
        .fold(name.as_str(), |name, beside| name.split(beside).next().unwrap_or(name));
    let is_called = |text: &str, food: &str| {
        let words: Vec<&str> = text.split(' ').collect();
        let known: Vec<&str> = food.split(' ').collect();
        let from = words.len().checked_sub(known.len());
        from.and_then(|from| words.get(from..))
            .is_some_and(|end| end.iter().zip(&known).all(|(word, known)| is_one_or_several(word, known)))
    };
    let noun = label.noun.as_deref().unwrap_or_default().to_lowercase();
    ROWS.iter().find(|(foods, ..)| foods.iter().any(|food| is_called(head, food) || is_called(&noun, food)))
}

/// What is to be asked of a piece, or of what is sold by weight, of a food that the table names: `None` where it names none.
pub(super) fn asked(label: &Label, pack: Pack) -> Option<Option<String>> {
    let (_, grams, counts) = row_of(label)?;
    let usual = Mass::new(Number::whole(*grams));
    let two = Number::whole(2);
    let piece = show::mass_plain(pack.serving);
    Some(match pack.by {
        Serving::Hundred => Some(format!("what a serving is: 21 CFR 101.12(b) counts with {counts}")),
        Serving::Piece if usual.times(two).is_ok_and(|twice| pack.serving >= twice) => {
            Some(format!("whether {piece} are one serving: 21 CFR 101.12(b) counts with {counts}"))
        }
        // Of what weighs half of it and less several are one serving, 101.9(b)(2)(i)(A).
        Serving::Piece if pack.serving.times(two).is_ok_and(|twice| twice <= usual) => {
            Some(format!("how many pieces of {piece} are one serving: 21 CFR 101.12(b) counts with {counts}"))
        }
        _ => None,
    })
}
