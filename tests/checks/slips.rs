//! Slips of the pen that were passed over once or told several times, and what is right and was told. The figures of the trade are common
//! practice, no source; the amounts are invented.

use super::problems_of;

const ROLLS: &str = "recipe Lean rolls\nmakes 20 rolls\nstrong white flour .... 1 kg\nwater .... 640 g\nsalt .... 20 g\ninstant yeast .... 10 g\ndivide 20 x 82 g, loss 1.8 %\nmix: hands 10 min\n    Mix \
                     {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 50 min, at 26 C\n    until doubled\nround: hands 10 s, each\nprove: wait 45 min, at 28 C\n    until a \
                     dent stays\nbake: tend 16 min, using oven at 230 C\n    until brown\n";

fn told(text: &str) -> String {
    super::told(&problems_of(text))
}

fn checks_of(text: &str) -> Vec<&'static str> {
    problems_of(text).iter().map(|problem| problem.check).collect()
}

/// A recipe, what in it is exchanged for what, and the check that sees the slip and is silent without it.
const SLIPS: &[(&str, &str, &str, &str)] = &[
    (ROLLS, "makes 20 rolls", "makes 2 l", "wrong-kind"),
    (ROLLS, "makes 20 rolls", "makes 2 kilos", "wrong-kind"),
    (ROLLS, "using oven at 230 C", "using oven 230", "wrong-kind"),
    (ROLLS, "using oven at 230 C", "using oven 230 degrees", "wrong-kind"),
    (ROLLS, "using oven at 230 C", "using oven (230 C)", "wrong-kind"),
    (ROLLS, "using oven at 230 C", "using oven 220-230 C", "wrong-kind"),
    (ROLLS, "using oven at 230 C", "using oven @ 230 C", "wrong-kind"),
    (ROLLS, "using oven at 230 C", "using oven gas 8", "wrong-kind"),
    (ROLLS, "using oven at 230 C", "using oven gas mark 8", "wrong-kind"),
];

#[test]
fn slips_that_were_passed_over_are_told() {
    for (text, right, wrong, check) in SLIPS {
        assert!(checks_of(&text.replace(right, wrong)).contains(check), "{check} of `{wrong}`: {}", told(text));
        if !right.is_empty() {
            assert!(!checks_of(text).contains(check), "{check}: {}", told(text));
        }
    }
}

fn with_water(name: &str, amount: &str) -> String {
    format!(
        "recipe Rolls\nflour .... 500 g\n{name} .... {amount}\nsalt .... 9 g\nmix: hands 10 min\n    Mix {{flour}}, {{{name}}} and {{salt}}.\n    until smooth\n"
    )
}

/// However a temperature or an amount is typed, it is one, and counts in no sum where it stands.
#[test]
fn what_counts_in_no_sum_is_told_however_it_is_typed() {
    for name in [
        "water 30 C",
        "water at 30C",
        "water (30 C)",
        "water at 30 °C",
        "50g apple",
        "1/2 cup apple",
        "50-60 g apple",
        "apple 50 g",
    ] {
        let text = with_water(name, "300 g");
        assert!(checks_of(&text).contains(&"near-clause"), "{name}: {}", told(&text));
    }
    for (clause, mend) in [
        ("30 degrees C", Some("at 30 C")),
        ("30 celsius", Some("at 30 C")),
        ("30 C warm", Some("at 30 C")),
        ("about 30 C", Some("at 30 C")),
        ("86F", Some("at 86 F")),
        // Sums are done with one temperature, and nobody but the writer knows which.
        ("28–30 C", None),
        ("28-30 C", None),
        ("kept aside", Some("aside")),
        ("left aside", Some("aside")),
        ("asied", Some("aside")),
        ("optionally", Some("optional")),
        ("loss 20 %", Some("yield 80 %")),
        ("yield of 80 %", Some("yield 80 %")),
        ("yeild 80 %", Some("yield 80 %")),
        ("counts as flower", Some("counts as flour")),
    ] {
        let text = with_water("water", &format!("300 g, {clause}"));
        let problems = problems_of(&text);
        let problem = problems.iter().find(|problem| problem.check == "near-clause");
        let problem = problem.unwrap_or_else(|| panic!("{clause}: {}", told(&text)));
        let written = problem.mend.as_ref().and_then(|mend| mend.edits.first()).map(|edit| edit.text.as_ref());
        assert_eq!(written, mend, "{clause}");
        // What is offered is understood.
        if let Some(mend) = mend {
            let mended = with_water("water", &format!("300 g, {mend}"));
            let told = problems_of(&mended);
            assert!(
                !told.iter().any(|problem| ["near-clause", "wrong-kind", "stray-line"].contains(&problem.check)),
                "{mend}: {told:?}"
            );
        }
    }
    for right in [
        "side",
        "from stock",
        "a side, skinned",
        "warm",
        "cut in 2 cm cubes",
        "at 30 C",
        "in 3 l of stock",
        "baked at 180 C",
    ] {
        let text = with_water("water", &format!("300 g, {right}"));
        assert!(!checks_of(&text).contains(&"near-clause"), "{right}: {}", told(&text));
    }
    for right in ["type 55 flour", "00 flour", "cream 35 %", "5 spice", "chocolate 70 %"] {
        let text = with_water(right, "300 g");
        assert!(!checks_of(&text).contains(&"near-clause"), "{right}: {}", told(&text));
    }
}

/// A second amount is never mended with a comma, behind which it is in no sum.
#[test]
fn a_second_amount_on_a_line_is_told_and_not_made_a_preparation() {
    let helps = |amount: &str| {
        let problems = problems_of(&with_water("water", amount));
        let problem = problems.into_iter().find(|problem| problem.check == "stray-line");
        let problem = problem.unwrap_or_else(|| panic!("{amount} is passed over"));
        assert!(problem.mend.is_none(), "{amount}: {problem:?}");
        problem.help.unwrap_or_default()
    };
    for added in ["600 g + 50 g", "600 g plus 50 g for the tins", "600 g and 50 g"] {
        assert!(helps(added).contains("add the two up"), "{added}: {}", helps(added));
    }
    for again in ["600 g .... 60 %", "600 g / 60 %", "600 g (60 %)"] {
        assert!(helps(again).contains("`600 g = 60 %`"), "{again}: {}", helps(again));
    }
}

/// What British cookbooks print in their first pages passes, and a slip of a digit or a mark beside it does not.
#[test]
fn pairs_of_british_cookbooks_pass_and_slips_in_them_do_not() {
    let apart = |amount: &str| {
        let text = format!("recipe Pair\nmeasures imperial\nwhole milk .... {amount}\n");
        problems_of(&text).iter().any(|problem| problem.check == "two-amounts-disagree")
    };
    for right in [
        "150 ml = 1/4 pt",
        "300 ml = 1/2 pt",
        "600 ml = 1 pt",
        "1/2 pt = 300 ml",
        "25 ml = 1 fl oz",
        "1.2 l = 2 pt",
        "25 g = 1 oz",
        "900 g = 2 lb",
    ] {
        assert!(!apart(right), "{right}");
    }
    for wrong in [
        "300 ml = 1/4 pt",
        "200 ml = 1/2 pt",
        "250 g = 1 oz",
        "75 g = 2 oz",
        "175 g = 7 oz",
        "450 g = 2 lb",
        "2.5 g = 1 oz",
        "26 g = 1 oz",
    ] {
        assert!(apart(wrong), "{wrong}");
    }
}

/// What a mend of heat in a name offers is understood.
#[test]
fn heat_in_the_name_of_an_oven_is_mended_once() {
    for (written, meant) in [
        ("oven gas 8", "oven at 450 F"),
        ("oven gas mark 8", "oven at 450 F"),
        ("oven @ 230 C", "oven at 230 C"),
        ("oven (230C)", "oven at 230 C"),
        ("deck oven 220-230 C", "deck oven at 220-230 C"),
    ] {
        let text = ROLLS.replace("oven at 230 C", written);
        let problems = problems_of(&text);
        let mends =
            || problems.iter().filter_map(|problem| problem.mend.as_ref()).filter_map(|mend| mend.edits.first());
        assert!(mends().any(|edit| edit.text == meant), "{written}: {problems:?}");
        assert!(!checks_of(&ROLLS.replace("oven at 230 C", meant)).contains(&"wrong-kind"), "{meant}");
    }
}

/// What a block of one's own leaves open comes from the larder below: milk by the litre (USDA SR28: 244 g a cup) and eggs by the piece.
#[test]
fn a_price_by_the_litre_or_the_piece_takes_the_weight_from_the_larder_below() {
    let priced = |block: &str| problems_of(&format!("{block}\n")).iter().any(|problem| problem.check == "no-weight");
    assert!(!priced("ingredient whole milk\ncosts 1.05 EUR per l"));
    assert!(!priced("ingredient egg\ncosts 0.22 EUR per piece"));
    assert!(!priced("ingredient gull's sorrel\ncosts 2 per piece\none weighs 20 g"), "below the price is as good");
    assert!(priced("ingredient gull's sorrel\ncosts 2 per piece"));
}

/// Marks that are none of an amount are told as what they are.
#[test]
fn a_point_behind_a_unit_and_a_mark_in_a_thousand_are_told() {
    let mend = |amount: &str| {
        let problems = problems_of(&with_water("water", amount));
        let problem = problems.into_iter().find(|problem| problem.check == "stray-line");
        let problem = problem.unwrap_or_else(|| panic!("{amount} is passed over"));
        (problem.help.unwrap_or_default(), problem.mend.map(|mend| mend.edits[0].text.to_string()))
    };
    assert_eq!(mend("12 oz."), ("leave the point out".to_owned(), Some(String::new())));
    assert_eq!(mend("1'000 g").1.as_deref(), Some("1000 g"));
    assert!(mend("1 lb + 2 oz").0.contains("`1 lb 2 oz`"), "{}", mend("1 lb + 2 oz").0);
}
