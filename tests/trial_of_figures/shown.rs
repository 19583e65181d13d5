//! What the card says of the whole is what is put on the scale, and an option that changes nothing is told of.

use super::one_file::{alone, json};

/// 17.34 g of yeast in two loads are 8.67 g each, so 8.7 on a scale of tenths, and twice that is 17.4: what the card says of the whole is what is
/// put on the scale. 7 loaves of 900 g, 2 % lost, are 6428.6 g of 185.5 %: 0.5 % of 3465.5 g.
#[test]
fn what_a_fine_scale_shows_of_a_load_is_shown_of_all_loads_as_often() {
    let big = "recipe Big\nmakes 7 loaves\nuse \"k.miche\"\npart dough\nstrong white flour .... 100 %\nwater .... 68 %\nsalt .... 2 %\ninstant yeast .... 0.5 %\n\
               walnut .... 15 %\ndivide 7 x 900 g, loss 2 %\nmix: hands 10 min, using mixer\n    \
               Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nrest: wait 10 min\nfold in: hands 5 min\n    Fold in {walnut}.\n\
               bake: tend 40 min, using oven at 230 C\n    until brown\n";
    let kitchen = "kitchen Small\nmixer x 1, holds 3 kg\noven x 1\ncooks 1\nscale 5 g\nfine scale 0.1 g, up to 60 g\n";
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("a.miche"), big).expect("written");
    std::fs::write(folder.path().join("k.miche"), kitchen).expect("written");
    let output = std::process::Command::new(env!("CARGO_BIN_EXE_miche"))
        .current_dir(folder.path())
        .args(["card", "a.miche", "--format", "markdown"])
        .output()
        .expect("it runs");
    let card = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(card.contains("| instant yeast | 0.5 | 17.4 g | 8.7 g |"), "{card}");
}

/// Who asks for the water of a day of a dough that wants no temperature is told that nothing comes of it.
#[test]
fn a_temperature_that_changes_nothing_is_told_of() {
    let loaf = "recipe Loaf\nflour .... 600 g\nwater .... 400 g\nsalt .... 12 g\nmix: hands 10 min\n    Mix {flour}, {water} and {salt}.\n    until smooth\n";
    for command in ["card", "sums"] {
        let told = alone(loaf, &[command, "a.miche", "--room", "30", "--tap", "12"], true).1;
        assert!(told.contains("--room and --tap change nothing here"), "{command}: {told}");
        let wanted = loaf.replace("mix:", "desired temperature 25 C\nmix:");
        let told = alone(&wanted, &[command, "a.miche", "--room", "30", "--friction", "8"], true).1;
        assert!(!told.contains("nothing here"), "{command}: {told}");
    }
    let told = alone(loaf, &["label", "a.miche", "--made", "2027-01-01"], true).1;
    assert!(told.contains("--made changes nothing here"), "{told}");
    let no_mixer = alone(loaf, &["card", "a.miche", "--room", "20", "--friction", "90"], true).1;
    assert!(no_mixer.contains("no mixer warms a dough by 90 °C"), "{no_mixer}");
}

/// 500 g of sugar, with cream and butter, are boiled to 860 g: what left was water, and all the sugar is in it, 500 / 860 = 58 % without that of
/// the cream. So it is however the step is called and wherever its words say that it boils.
#[test]
fn what_boils_away_is_water_by_whatever_name() {
    let caramels = |cook: &str| {
        format!(
            "recipe Caramels\nmakes 100 caramels\ncaution Boiling sugar burns deeply.\ncaster sugar .... 500 g\nwhipping cream .... 500 g\nbutter .... 100 g\n\
             divide 100 x 8.6 g, loss 21.8 %\nmelt: tend 10 min, using hob\n    Melt {{caster sugar}}.\n    until amber\n{cook}\nset: wait 12 h, at 18 C\n"
        )
    };
    for cook in [
        "boil: tend 12 min, using hob\n    Boil with {whipping cream} and {butter}.\n    until thick",
        "cook: tend 12 min, using hob\n    Add {whipping cream} and {butter}, and boil to {120 C}.\n    until {120 C}",
        "cook: tend 12 min, using hob\n    Add {whipping cream} and {butter}.\n    until {120 C}",
    ] {
        let page = alone(&caramels(cook), &["label", "a.miche", "--format", "markdown"], true).1;
        let sugars = page.lines().find(|line| line.contains("sugars")).unwrap_or_default().to_owned();
        assert!(
            sugars.contains("60 g") || sugars.contains("59 g") || sugars.contains("61 g"),
            "{cook}: {sugars}\n{page}"
        );
    }
}

/// What the recipe does not take is no stock of it, also beside what it takes; in a file of all that there is it stays.
#[test]
fn a_name_that_the_recipe_does_not_take_is_told() {
    let loaf = "recipe Loaf\nmakes 2 loaves\nstrong white flour .... 600 g\nwater .... 400 g\nbutter .... 40 g\nsalt .... 12 g\ndivide 2 x 520 g\n";
    let told = alone(
        loaf,
        &["stock", "a.miche", "--have", "butter=160 g", "--have", "rye flour=1 kg", "--have", "water=9 kg"],
        true,
    );
    assert!(!told.0 && told.1.contains("the recipe takes no weighed `rye flour`"), "{}", told.1);
    // A slip of a name is one, also where what one weighs would have to be known.
    for command in ["card", "stock"] {
        let near = alone(loaf, &[command, "a.miche", "--have", "buter=3"], true);
        assert!(!near.0 && near.1.contains("takes no `buter`"), "{}", near.1);
        assert!(near.1.contains("did you mean `butter`"), "{}", near.1);
    }
    let empty = alone("", &["bakes", "a.miche"], true);
    assert!(!empty.0 && empty.1.contains("nothing stands in it"), "{}", empty.1);
    let same = alone("", &["diff", "a.miche", "a.miche"], true);
    assert!(!same.0 && same.1.contains("no recipe to compare"), "{}", same.1);
}

/// 71 °F are (71 - 32) × 5 / 9 = 21.7 °C, 1.7 from 20: rounded to halves they would be 1.5 apart, which is let pass.
#[test]
fn degrees_that_are_counted_are_told_to_the_tenth() {
    let loaf = "recipe Loaf\nflour .... 1 kg\nwater .... 600 g, at 20 C = 71 F\nsalt .... 20 g\n";
    let told = alone(loaf, &["check", "a.miche"], true).1;
    assert!(told.contains("1.7 °C apart") && told.contains("71 °F (21.7 °C)"), "{told}");
}

/// 200 000 pieces at 5 s are 1 000 000 s, 16 666 min 40 s.
#[test]
fn work_on_each_of_many_pieces_is_as_long_as_that() {
    let squares = "recipe Squares\nmakes 12 squares\nflour .... 600 g\nwater .... 400 g\ndivide 12 x 80 g, loss 4 %\nmix: hands 10 min\n    Mix {flour} and {water}.\ncut: hands 5 s, each\n";
    let card = json(squares, &["card", "a.miche", "--pieces", "200000", "--format", "json"]);
    let cut =
        card["timeline"]["rows"].as_array().expect("rows").iter().find(|row| row["step"] == "cut").expect("a row");
    let minutes = cut["end_minute"].as_f64().zip(cut["start_minute"].as_f64()).map(|(end, start)| end - start);
    assert_eq!(minutes, Some(16667.0), "{}", card["timeline"]);
}
