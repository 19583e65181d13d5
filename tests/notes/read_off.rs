//! Notes that were read off a photo, pasted from a screen or a spreadsheet, or written with footnotes: our own.

use super::told::gives;
use super::{holds, sound};

fn made(notes: &str) -> String {
    sound(notes).text
}

/// A letter that stands where a figure is makes another figure, or none: `l5 min` is no `5 min`.
#[test]
fn letters_for_figures_are_read_and_marked() {
    let notes =
        "Milk rolls\nl kg strong flour\n6O0 ml milk\n2O g salt\n15 g yeast\nO,5 l water\n\nBake l5 min at 22O C\n";
    holds(&sound(notes), &["strong flour ..... 1 kg", "milk ..... 600 ml", "salt ..... 20 g", "water ..... 0.5 l"]);
    let text = made(notes);
    assert!(
        text.contains("tend 15 min, using oven at 220 C") && text.contains("letters stand where figures are"),
        "{text}"
    );
}

/// What stands behind the mark of a footnote is said of a line, and lists nothing.
#[test]
fn footnotes_list_nothing() {
    let text = made(
        "Spice cake\n250 g flour*\n150 g sugar**\n3 eggs\n\n* or 200 g flour and 50 g almonds\n** 120 g if the apples are sweet\n",
    );
    assert!(!text.contains("sweet ..") && text.contains("a footnote of `150 g sugar`"), "{text}");
    assert!(text.contains("a footnote of `250 g flour`"), "{text}");
}

#[test]
fn pictures_before_the_words_are_bullets() {
    let notes = "\u{1F35E} Saturday loaf\n\u{2705} 500 g flour\n\u{1F95A} 2 eggs\n1\u{FE0F}\u{20E3} Mix 10 min\n2\u{FE0F}\u{20E3} Rest 1 h\n";
    holds(
        &sound(notes),
        &["recipe Saturday loaf", "flour ..... 500 g", "eggs ..... 2", "mix: hands 10 min", "rest: wait 1 h"],
    );
}

/// Each stage of a table is a part; the column of the whole counts for nothing beside them.
#[test]
fn a_table_of_stages_gives_its_parts() {
    let table = "Farm rye\toverall formula\t\tsour\tfinal dough\n\t%\tkg\tkg\tkg\nrye flour\t60\t6.00\t2.40\t3.60\n\
                 wheat flour\t40\t4.00\t\t4.00\nwater\t75\t7.50\t2.40\t5.10\nsour\t\t\t\t4.80\n";
    let text = made(table);
    gives(
        made,
        &[(table, "part sour"), (table, "part final dough"), (table, "the column of the whole"), (table, "6.00")],
    );
    let dough = text.split("part final dough").nth(1).unwrap_or_default();
    assert!(dough.contains("rye flour ..................... 3.60 kg") && dough.contains("sour .."), "{text}");
    assert!(!text.contains("stands beside it"), "{text}");
}

/// What a kilogram costs is no weight, and what stands in quotes is one cell.
#[test]
fn prices_and_quotes_of_a_sheet() {
    let priced = "Brownies\tqty\tprice/kg\tcost\nbutter\t500 g\t7.20\t3.60\nsugar\t700 g\t1.10\t0.77\neggs\t10 pcs\t0.25\t2.50\n";
    let text = made(priced);
    holds(&sound(priced), &["butter ..... 500 g, price/kg 7.20, cost 3.60"]);
    assert!(!text.contains("0.25 kg") && !text.contains("7.20 kg"), "{text}");
    let quoted = "item,qty,unit,notes\nbread flour,10,kg,strong\nwater,6.5,kg,\"cold, 8 C\"\nsalt,200,g,\n";
    holds(&sound(quoted), &["water ..... 6.5 kg, at 8 C, cold", "salt ..... 200 g"]);
}

/// What is done behind a sign is no part of it.
#[test]
fn a_sign_ends_before_what_is_done_next() {
    let notes = "Tart\n500 ml milk\n6 yolks\n\nSimmer 20 min until thick and strain.\n";
    assert!(!made(notes).contains("    until"), "{}", made(notes));
    let set = "Tart\n500 ml milk\n6 yolks\n\nBake 20 min at 150 C until golden and set.\n";
    assert!(made(set).contains("    until golden and set"), "{}", made(set));
}

#[test]
fn a_weekday_before_a_part_is_no_name() {
    let notes = "Panettone\n\nFRIDAY EVENING - starter\nflour 100 g\nwater 50 g\n\nSATURDAY MORNING first dough\nflour 500 g\nbutter 150 g\n";
    gives(made, &[(notes, "part starter"), (notes, "part first dough")]);
}
