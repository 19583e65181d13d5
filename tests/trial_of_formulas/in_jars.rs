//! What is in a jar, by sums of our own.

use super::json;

/// Cabbage of 2 kg with 60 g of salt and 60 g of fish sauce, of which the larder says that a fifth is salt (see there): 72 g of 2120 g are
/// 3.4 %, and 60 g would be 2.8 %. What ferments in its own salt has the sum by any name.
#[test]
fn the_salt_of_fish_sauce_is_in_the_jar_too() {
    let text = "recipe Winter cabbage\nchinese cabbage .... 2 kg\nsalt .... 60 g\nfish sauce .... 60 g\n\
                mix: hands 10 min\n    Toss {chinese cabbage} with {salt} and {fish sauce}.\nferment: wait 3 days, at 18 C\n    until sour\n";
    let larder = json(text, &["label", "a.miche", "--format", "json"]).to_string();
    assert!(larder.contains("fish sauce"), "{larder}");
    let sums = json(text, &["sums", "a.miche", "--format", "json"]).to_string();
    assert!(sums.contains("salt on everything in the jar") && sums.contains("\"3.4 %\""), "{sums}");
}
