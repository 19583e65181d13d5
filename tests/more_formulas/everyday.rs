//! What labels and cards say of everyday things: lemon cakes, puddings by the slice, litres of stock, plain meat.

use super::run;

/// 90 g of juice in 984 g are 9.1 %; the zest beside it only flavours, and took the juice's figure away.
#[test]
fn a_lemon_cake_tells_its_juice_beside_the_zest() {
    let cake = "recipe Lemon loaf cakes\nmakes 2 cakes\nplain flour .... 300 g\ncaster sugar .... 250 g\nbutter .... 238 g\negg .... 100 g\nlemon juice .... 90 g\n\
                lemon zest .... 6 g\nbeat: hands 10 min\n    Beat all.\n    until light\nbake: tend 45 min, using oven at 170 C\n    until gold\n";
    let label = run(cake, &["label", "a.miche"]);
    assert!(label.contains("Quantity: lemon juice 9.1 %"), "{label}");
    // Of more zest than flavours the fruit is told, and of ginger the syrup where the powder is a spice.
    let ginger = cake
        .replace("Lemon loaf", "Ginger loaf")
        .replace("lemon juice", "ginger syrup")
        .replace("lemon zest", "ground ginger");
    assert!(run(&ginger, &["label", "a.miche"]).contains("ginger syrup 9.1 %"));
}

/// A twelfth of 1600 g is 133 g, and no 150; a tenth is 160, which is 6 % off, and 1/11 is near enough.
#[test]
fn a_serving_is_no_other_share_than_its_grams() {
    let pudding = |share: &str| {
        format!(
            "recipe Bread pudding\nmakes 2 puddings\nserving 150 g, {share}\nwhite bread .... 1.2 kg\nwhole milk .... 1.6 kg\negg .... 400 g\ndivide 2 x 1600 g\n\
             stir: hands 5 min\n    Stir all.\nbake: tend 75 min, using oven at 165 C\n    until {{85 C}} inside\n"
        )
    };
    let label = |share: &str| run(&pudding(share), &["label", "a.miche", "--law", "us"]);
    let of =
        |label: &str| label.lines().find(|line| line.contains("Serving size")).map(str::to_owned).expect("a serving");
    for wrong in ["1/12 pudding", "1/10 pudding"] {
        let said = label(wrong);
        assert!(!of(&said).contains(wrong) && said.contains("by a measure of the household"), "{said}");
    }
    assert!(of(&label("1/11 pudding")).contains("1/11 pudding"));
    // What is no share of a piece stays as it is said.
    assert!(of(&label("1 slice")).contains("1 slice"));
}

/// 10 l of stock by a cup of 240 g, 236.588 ml: 10 144 g; of oat milk, cider and brandy as of their neighbours.
#[test]
fn a_litre_of_stock_weighs_something() {
    for (name, grams) in [
        ("vegetable stock", "10.144 kg"),
        ("oat milk", "10.271 kg"),
        ("tomato juice", "10.271 kg"),
        ("cider", "10.060 kg"),
        ("brandy", "9383 g"),
    ] {
        let text = format!("recipe It\npart it\n{name} .... 10 l\nwarm: tend 5 min, using hob\n    Warm {{{name}}}.\n");
        let card = run(&text, &["card", "a.miche"]);
        assert!(card.contains(grams), "{name}: {card}");
    }
}

/// No kind of meat has an allergen by either law; what its figures are, only the cut tells.
#[test]
fn plain_meat_is_known_and_its_figures_are_not() {
    for name in ["beef", "lamb", "pork", "veal", "turkey", "venison", "liver", "mince"] {
        let text = format!(
            "recipe It\npart it\n{name} .... 1 kg\nsalt .... 10 g\nroast: tend 2 h, using oven at 160 C\n    until {{75 C}} inside\n"
        );
        let label = run(&text, &["label", "a.miche"]);
        assert!(!label.contains("does not know"), "{name}: {label}");
        assert!(label.contains("| fat | not known |"), "{name}: {label}");
    }
}

/// Of what is at least nothing, nothing is known.
#[test]
fn nothing_is_at_least_nothing() {
    let text = "recipe It\nmakes 2 loaves\nbread flour .... 1 kg\nwater .... 600 g\nstrange seed .... 20 g\nsalt .... 1 g\nbake: tend 45 min, using oven at 220 C\n    until brown\n";
    for arguments in
        [&["label", "a.miche"][..], &["label", "a.miche", "--law", "us"], &["sums", "a.miche"], &["card", "a.miche"]]
    {
        let said = run(text, arguments);
        for nothing in ["at least 0 g", "at least 0 mg", "at least 0 mcg", "at least 0 %", "at least 0 |"] {
            assert!(!said.contains(nothing), "{arguments:?}: {said}");
        }
    }
}
