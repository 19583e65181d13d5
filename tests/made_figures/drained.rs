//! What is taken without the liquid that it lies in: the pieces must suffice.

use super::{Bench, line, part};

/// 250 g of radishes in 230 g of liquid: 480 g, of which 25/48 are pieces.
const PICKLE: &str = "recipe Pickled radishes\npart pickle\nradishes .... 250 g, sliced\nwhite vinegar .... 130 g\nwater .... 80 g\n\
                      caster sugar .... 14 g\nsalt .... 6 g\npour: hands 5 min\n    Pour {white vinegar}, {water}, {caster sugar} and {salt} over \
                      {radishes}.\n";

fn salad(taken: &str) -> String {
    format!(
        "recipe Salad\nmakes 12 portions\nuse \"pickle.miche\"\npart salad\npotato .... 1.5 kg, boiled\npickle .... {taken}\n\
         toss: hands 5 min\n    Toss {{potato}} and {{pickle}}.\n"
    )
}

/// 500 g drained are 500 g of radishes, twice the recipe: 260 g of vinegar, 960 g in all, of which 460 g are liquid. It was 480 g by its
/// whole weight, of which 250 g are pieces.
#[test]
fn what_is_drawn_drained_is_made_until_its_pieces_suffice() {
    let bench = |taken: &str| Bench::of(&[("pickle.miche", PICKLE), ("salad.miche", &salad(taken))]);
    let whole = |card: &serde_json::Value| {
        let pickle = part(card, "pickle");
        let shown = |name: &str| line(pickle, name)["shown"].as_str().unwrap().to_owned();
        (shown("radishes"), shown("white vinegar"))
    };
    for said in
        ["drained", "well drained", "squeezed", "lifted out", "without its liquid", "out of the brine, patted dry"]
    {
        let card = bench(&format!("500 g, {said}")).json(&["card", "salad.miche"]);
        assert_eq!(whole(&card), ("500 g".to_owned(), "260 g".to_owned()), "{said}");
    }
    for said in ["500 g", "500 g, not drained", "500 g, with its brine, undrained"] {
        let card = bench(said).json(&["card", "salad.miche"]);
        assert_eq!(whole(&card).0, "261 g", "{said}");
    }
    // Both in one: 250 g of pieces are 480 g, and 96 g with their liquid are a fifth of that.
    let relish = "part relish\npickle .... 96 g\nchop: hands 2 min\n    Chop {pickle}.\npart salad\nrelish .... all\n";
    let both = salad("250 g, drained").replacen("part salad\n", relish, 1);
    let card = Bench::of(&[("pickle.miche", PICKLE), ("salad.miche", &both)]).json(&["card", "salad.miche"]);
    assert_eq!(line(part(&card, "pickle"), "radishes")["shown"], "300 g");
    // At another size, on the list, on the label and in the cost all follow.
    let bench = bench("500 g, drained");
    let card = bench.json(&["card", "salad.miche", "--pieces", "6"]);
    assert_eq!(whole(&card), ("250 g".to_owned(), "130 g".to_owned()));
    let list = bench.json(&["list", "salad.miche"]);
    let weighed = list["weigh"].as_array().unwrap().iter().find(|one| one["ingredient"] == "radishes").unwrap();
    assert_eq!(weighed["shown"], "500 g");
    let (_, label, _) = bench.run(&["label", "salad.miche"]);
    assert!(label.contains("Net weight: 166.6 g a piece, 2000 g the batch"), "{label}");
}

/// All of a pickle, drained, weighs what its pieces weigh.
#[test]
fn all_of_it_drained_is_its_pieces() {
    let own = PICKLE.to_owned()
        + "part salad\npotato .... 1.5 kg, boiled\npickle .... all, drained\ntoss: hands 5 min\n    Toss {potato} and {pickle}.\n";
    for (name, text) in [("own.miche", own.as_str()), ("salad.miche", &salad("all, drained"))] {
        let bench = Bench::of(&[("pickle.miche", PICKLE), (name, text)]);
        let card = bench.json(&["card", name]);
        assert_eq!(line(part(&card, "salad"), "pickle")["shown"], "250 g", "{name}");
        assert_eq!(line(part(&card, "pickle"), "radishes")["shown"], "250 g", "{name}");
        let (code, text, _) = bench.run(&["check", name]);
        assert!(code == 0 && text.contains("nothing to mend"), "{text}");
    }
}

/// A part of percentages is as large as its pieces want: 300 g of a cucumber that is 60 % of it are 500 g.
#[test]
fn a_part_of_percentages_is_as_large_as_its_pieces_want() {
    let text = "recipe Salad\nmakes 4 portions\npart pickle\npercent of total\ncucumber .... 60 %, sliced\nwhite vinegar .... 38 %\nsalt .... 2 %\n\
                pour: hands 5 min\n    Pour {white vinegar} and {salt} over {cucumber}.\npart salad\npotato .... 1 kg, boiled\npickle .... 300 g, drained\n\
                toss: hands 5 min\n    Toss {potato} and {pickle}.\n";
    let card = Bench::of(&[("salad.miche", text)]).json(&["card", "salad.miche"]);
    assert_eq!(line(part(&card, "pickle"), "cucumber")["shown"], "300 g");
    assert_eq!(line(part(&card, "pickle"), "white vinegar")["shown"], "190 g");
}

/// In one file the amounts stand: what lacks is told, with how much would do. 480 g of pieces are 480 x 480 / 250 = 921.6 g.
#[test]
fn too_little_that_is_drained_is_told_with_figures() {
    let own = PICKLE.to_owned()
        + "part salad\npotato .... 1.5 kg, boiled\npickle .... 480 g, drained\ntoss: hands 5 min\n    Toss {potato} and {pickle}.\n";
    let (_, text, problems) = Bench::of(&[("own.miche", &own)]).run(&["check", "own.miche"]);
    let said = text + &problems;
    assert!(said.contains("480 g of `pickle` are taken without their liquid, and 250 g went in solid"), "{said}");
    assert!(said.contains("make 922 g of it instead of 480 g, or take no more than 250 g"), "{said}");
    // Of beans that take up nobody knows how much it is said that nobody knows.
    let beans = "recipe Beans\npart pickle\nbrown lentils .... 300 g\nwater .... 600 g\nsoak: wait 4 h, at 5 C\n    Soak {brown lentils} in {water}.\n";
    let bench = Bench::of(&[("pickle.miche", beans), ("salad.miche", &salad("480 g, drained"))]);
    let (_, text, problems) = bench.run(&["check", "salad.miche"]);
    assert!((text + &problems).contains("some of it takes up nobody knows how much"));
}

/// Two salads of a day take 500 g and 250 g of pieces, 1440 g with their liquid, and 480 g are sold as they are: 1920 g are made once. Of the
/// 480 g that are in the store 250 g are pieces.
#[test]
fn a_day_makes_enough_for_all_and_counts_the_store_with_its_liquid() {
    let day = "day Saturday\nmake 12 of \"salad.miche\"\nmake 6 of \"salad.miche\"\nmake 480 g of \"pickle.miche\"\n";
    let stored = "day Sunday\nstore 480 g of pickle of \"pickle.miche\"\nmake 12 of \"salad.miche\"\n";
    let bench = Bench::of(&[
        ("pickle.miche", PICKLE),
        ("salad.miche", &salad("500 g, drained")),
        ("day.miche", day),
        ("stored.miche", stored),
    ]);
    let (_, card, problems) = bench.run(&["card", "day.miche"]);
    assert!(card.contains("Made once: 1440 g for Salad and 480 g for Pickled radishes"), "{card}{problems}");
    assert!(card.contains("| radishes, sliced") && card.contains("| 1000 g | 1000 g |"), "{card}");
    let (_, card, _) = bench.run(&["card", "stored.miche"]);
    let row = card.lines().find(|row| row.contains("radishes, sliced")).unwrap();
    assert!(row.contains("| 250 g | 250 g |"), "{card}");
}
