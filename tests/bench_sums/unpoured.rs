//! A dough into which nothing is poured: sums and card say how warm it becomes, since nobody can pour it right.

use super::{figure, near, printed, sums};

const BRIOCHE: &str = "recipe Brioche\nuse \"kitchen.miche\"\nstrong white flour .... 1 kg\negg .... 500 g\nsalt .... 20 g\ninstant \
                       yeast .... 10 g\ndesired temperature 26 C\nmix: hands 12 min, using mixer\n    Mix {strong white flour}, {egg}, \
                       {salt} and {instant yeast}.\n    until smooth\n";

/// Worked by hand: everything is as warm as the room, and a mixer of 12 °C friction warms its dough by a third of that.
#[test]
fn what_the_room_gives_is_said_where_nothing_is_poured() {
    let kitchen = ("kitchen.miche", "kitchen Test\nmixer x 1, friction 12 C\noven x 1\n".to_owned());
    let files = [("brioche.miche", BRIOCHE), (kitchen.0, &*kitchen.1)];
    let found = sums(&files, &["--room", "20 C"]);
    near(figure(&found, "dough, by the balance of heat"), 24.0, 0.0001);
    let text = printed(&files, &["sums", "brioche.miche", "--room", "20 C", "--format", "text"]);
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("The dough comes to 24 °C today and not to 26 °C: warm the flour"), "{text}");
    let card = printed(&files, &["card", "brioche.miche", "--format", "text"]);
    let card = card.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(card.contains("nothing is poured") && card.contains("24 °C → 28 °C"), "{card}");
    // Where something is poured, it is the water that makes it right.
    let poured = BRIOCHE.replace("egg .... 500 g", "water .... 500 g").replace("{egg}", "{water}");
    let files = [("brioche.miche", &*poured), (kitchen.0, &*kitchen.1)];
    assert!(!printed(&files, &["card", "brioche.miche", "--format", "text"]).contains("nothing is poured"));
}
