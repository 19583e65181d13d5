//! Rooms in which the handbook's sum runs away, and water that is said to be cold where it must be warm.

use super::{KITCHEN, dough, figure, near, printed, run, sums};

/// Room and flour 34 °C, desired 24, friction 35 °F = 19.44 °C: by the handbook 72 − 34 − 34 − 19.44 = −15.4 °C, which no water is. By the
/// balance, worked by hand: 10 kg of flour at 1.90 J/(g K) bring 34 °C, 200 g of salt at 0.9 as well, 50 g of yeast at 1.6; the mix warms by
/// 6.48; the water has 6 kg at 4.18: 24 − 6.48 = 17.52 °C over 44.34 kJ/K, less 19.26 × 34, over 25.08: 4.9 °C.
#[test]
fn in_a_hot_room_the_balance_is_the_one_to_use() {
    let files = [("dough.miche", &*dough("24 C")), KITCHEN];
    let hot = ["--room", "34", "--tap", "26"];
    let found = sums(&files, &hot);
    near(figure(&found, "water, by the handbook"), -15.444, 0.001);
    near(figure(&found, "water, by the balance of heat"), 4.9, 0.7);
    assert!(found.to_string().contains("Use the balance of heat: room and flour are far from"), "{found:#}");
    let card = printed(&files, &[&["card", "dough.miche"], &hot[..]].concat());
    assert!(card.contains("use the balance of heat: room and flour are far from"), "{card}");
    // In the row of rooms it is said where.
    for command in ["card", "sums"] {
        let rooms = printed(&files, &[command, "dough.miche"]);
        let rooms = rooms.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(rooms.contains("where the two lie more than 10 °C apart"), "{command}: {rooms}");
    }
    // A room as one measures a friction in has the handbook.
    let usual = sums(&files, &["--room", "22"]);
    assert!(usual.to_string().contains("Use the handbook"), "{usual:#}");
}

/// Common practice, no source: nobody calls water of 25 °C cold, or of 20 °C warm.
#[test]
fn water_that_is_cold_in_words_and_warm_by_the_sum_is_told() {
    let told = |desired: &str, word: &str| {
        let text = dough(desired).replace("water .... 60 %", &format!("water .... 60 %, {word}"));
        let output = run(&[("dough.miche", &text), KITCHEN], &["check", "dough.miche"]);
        String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
    };
    assert!(told("30 C", "cold").contains("`water` is said to be cold"), "{}", told("30 C", "cold"));
    assert!(told("22 C", "warm").contains("`water` is said to be warm"), "{}", told("22 C", "warm"));
    let others =
        [("30 C", "not too cold"), ("30 C", "from the cold tap"), ("22 C", "cold in summer and warm in winter")];
    for (desired, word) in [("22 C", "cold"), ("30 C", "warm"), ("30 C", "filtered")].into_iter().chain(others) {
        assert!(!told(desired, word).contains("is said to be"), "{}", told(desired, word));
    }
}
