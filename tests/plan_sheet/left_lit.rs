//! What is left lit between two loads, and turned to another heat.

use super::*;

/// An oven that is empty for an hour and a half is left lit, and turned down behind the last load and not before the next.
#[test]
fn an_oven_that_is_wanted_again_soon_is_turned_down() {
    let file = night_until("turned", "07:00");
    let plan = json(&[&file]);
    let again = &plan["heating"][1];
    assert_eq!((&again["again"], again["start"].as_str()), (&Value::Bool(true), Some("2027-04-17T05:00")), "{again}");
    let said = text(&[&file], "markdown").replace(['\u{a0}', '\u{202f}'], " ");
    assert!(said.contains("| turn down | oven | to 170 °C; there at 05:40 |") && !said.contains("put out"), "{said}");
    let drawn = text(&[&file], "html").replace(['\u{a0}', '\u{202f}'], " ");
    assert!(drawn.contains("<title>turn down to 170 °C</title>"), "{drawn}");
}
