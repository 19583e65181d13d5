//! A blend of flours, and leavens that are formulas of their own.

use super::command::{miche, text, with};

/// 500 g at 11.97 % and 500 g at 10.34 % of protein are not 11.5 %: nothing is there but flour, so flour changes.
#[test]
fn of_a_blend_all_may_change() {
    let (folder, _) = with(
        "recipe Blend\n\npart flour blend\naim protein 11.5 % of total\nstrong white flour ............ 500 g\nplain flour ................... 500 g\n",
    );
    let aimed = miche(folder.path(), &["aim", "recipe.miche"]);
    assert!(aimed.status.success() && text(&aimed).contains("every aim is met"), "{}", text(&aimed));
    // Beside a line that may change the base stays.
    let (folder, _) = with(
        "recipe Dough\n\naim protein at least 12 % of flour\naim hydration 70 %\nstrong white flour ............ 500 g\nplain flour ................... 500 g\n\
         water ......................... 600 g\n",
    );
    let aimed = text(&miche(folder.path(), &["aim", "recipe.miche"]));
    assert!(!aimed.contains("| strong white flour |"), "{aimed}");
}

/// A levain of its own formula: 100 g of its flour beside 900 g, and half as much where half of it goes in.
#[test]
fn a_leaven_of_its_own_formula_is_fermented_before() {
    let dough = |taken: &str, aim: &str| {
        format!(
            "recipe Loaf\n\npart levain\nstrong white flour ............ 100 g\nwater ......................... 98 g\ninstant yeast ................. 2 g\n\n\
             part dough\naim prefermented {aim}\nlevain ........................ {taken}\nstrong white flour ............ 900 g\nwater ......................... 600 g\n\
             salt .......................... 20 g\n"
        )
    };
    for (taken, aim, is_met) in [("all", "10 %", true), ("100 g", "5.2-5.3 %", true), ("all", "12 %", false)] {
        let (folder, _) = with(&dough(taken, aim));
        let checked = text(&miche(folder.path(), &["check", "recipe.miche"]));
        assert_eq!(checked.contains("aim-missed"), !is_met, "{checked}");
        assert!(is_met || checked.contains("is 10 % of flour"), "{checked}");
    }
}
