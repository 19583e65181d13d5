//! A recipe as data for search engines: schema.org `Recipe` as JSON-LD.
//!
//! Every type and property stands in the published vocabulary with that range (`tests/reader.rs` holds it). Nothing is claimed that
//! the file does not know: no rating, no diet, no cuisine. Required and recommended properties by the search engines' published
//! rules for `Recipe` are written where the file says them: `image`, `name`; `author`, `cookTime`, `description`, `keywords`,
//! `nutrition.calories`, `prepTime`, `recipeCategory`, `recipeIngredient`, `recipeInstructions`, `recipeYield`, `totalTime` (from memory).

use crate::figures::reader::{ReaderPage, Step};
use crate::out::report;
use crate::text::capital::capital;
use serde_json::{Map, Value, json};

/// How hot it is where something is cooked and no longer kept warm, in degrees Celsius.
const COOKS: i64 = 90;

/// The data of a recipe; `address` is that of the folder in which its pictures lie, with a slash at its end, or nothing for a page that
/// lies beside them.
pub fn recipe(page: &ReaderPage, address: &str) -> Value {
    let mut all = Map::new();
    let mut put = |key: &str, value: Value| {
        all.insert(key.to_owned(), value);
    };
    put("@context", "https://schema.org".into());
    put("@type", "Recipe".into());
    put("name", page.title.clone().into());
    let pictures: Vec<Value> = page.pictures.iter().map(|one| picture(&one.path, address)).collect();
    if !pictures.is_empty() {
        put("image", pictures.into());
    }
    if let Some(by) = &page.by {
        put("author", json!({ "@type": "Person", "name": by }));
    }
    let story: Vec<String> = page.story.iter().map(|one| one.plain().replace('\n', " ")).collect();
    if !story.is_empty() {
        put("description", story.join(" ").into());
    }
    if let Some(makes) = &page.makes {
        put("recipeYield", makes.to_string().into());
    }
    times(page, &mut put);
    if let (Some(first), keywords) = (page.filed_under.first(), page.filed_under.join(", ")) {
        put("recipeCategory", first.clone().into());
        put("keywords", keywords.into());
    }
    // What is made on the way is no ingredient of its own: it would count twice.
    let rows = page.way.groups.iter().flat_map(|group| &group.rows).filter(|row| !row.is_part);
    put("recipeIngredient", rows.map(|row| Value::from(row.words())).collect::<Vec<Value>>().into());
    put("recipeInstructions", instructions(page, address).into());
    if !page.tools.is_empty() {
        put("tool", page.tools.clone().into());
    }
    if let Some(energy) = &page.energy
        && let Some(calories) = &energy.kilocalories
    {
        let serving = if energy.each.is_some() { "1 piece" } else { "100 g" };
        put("nutrition", json!({ "@type": "NutritionInformation", "calories": calories, "servingSize": serving }));
    }
    all.into()
}

/// The whole from the first step to the last; of it what cooks, and the rest.
fn times(page: &ReaderPage, put: &mut impl FnMut(&str, Value)) {
    let total = page.way.total_minutes;
    if total <= 0 {
        return;
    }
    put("totalTime", duration(total).into());
    let cooks: i64 = page
        .way
        .days
        .iter()
        .flat_map(|day| &day.steps)
        .filter(|step| is_cooked(step))
        .map(|step| step.span_minutes)
        .sum();
    if cooks > 0 && cooks < total {
        put("cookTime", duration(cooks).into());
        put("prepTime", duration(total - cooks).into());
    }
}

fn is_cooked(step: &Step) -> bool {
    // A ragù that simmers on a hob says no degrees.
    step.celsius.map_or(step.cooks, |heat| heat >= COOKS)
}

/// `PT3H20M`, ISO 8601.
fn duration(minutes: i64) -> String {
    match (minutes / 60, minutes % 60) {
        (0, minutes) => format!("PT{minutes}M"),
        (hours, 0) => format!("PT{hours}H"),
        (hours, minutes) => format!("PT{hours}H{minutes}M"),
    }
}

/// Days as sections; of one day its steps.
fn instructions(page: &ReaderPage, address: &str) -> Vec<Value> {
    let steps = |all: &[Step]| all.iter().map(|one| step(one, address)).collect::<Vec<Value>>();
    match page.way.days.as_slice() {
        [day] => steps(&day.steps),
        days => {
            let section = |day: &crate::figures::reader::Day| json!({ "@type": "HowToSection", "name": format!("Day {}", day.number), "itemListElement": steps(&day.steps) });
            days.iter().map(section).collect()
        }
    }
}

fn step(step: &Step, address: &str) -> Value {
    let name = step.part.as_ref().map_or_else(|| step.name.clone(), |part| format!("{part}: {}", step.name));
    let mut words = vec![format!("{}.", capital(&super::step_facts(step)))];
    words.extend(Some(step.prose.plain().replace('\n', " ")).filter(|prose| !prose.trim().is_empty()));
    words.extend(Some(step.cue.plain()).filter(|cue| !cue.is_empty()).map(|cue| format!("Until {cue}.")));
    let mut value = json!({ "@type": "HowToStep", "name": name, "text": words.join(" ") });
    if let Some(map) = value.as_object_mut().filter(|_| step.span_minutes > 0) {
        map.insert("timeRequired".to_owned(), duration(step.span_minutes).into());
    }
    if let (Some(map), Some(first)) = (value.as_object_mut(), step.pictures.first()) {
        map.insert("image".to_owned(), picture(&first.path, address));
    }
    value
}

/// The address of a picture.
fn picture(path: &str, address: &str) -> Value {
    format!("{address}{}", report::path_in_address(path)).into()
}

/// The data as it stands in a page's script: nothing in it can end the script or begin a comment.
pub fn in_script(value: &Value) -> String {
    let text = value.to_string();
    let mut out = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '<' | '>' | '&' | '\u{2028}' | '\u{2029}' => out.push_str(&format!("\\u{:04x}", u32::from(character))),
            other => out.push(other),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn durations_are_those_of_iso_8601() {
        assert_eq!(duration(5), "PT5M");
        assert_eq!(duration(60), "PT1H");
        assert_eq!(duration(26 * 60 + 5), "PT26H5M");
    }

    #[test]
    fn nothing_ends_the_script() {
        let text = in_script(&json!({ "name": "</script><!-- & \u{2028}" }));
        assert!(!text.contains(['<', '>', '&', '\u{2028}']), "{text}");
        assert_eq!(serde_json::from_str::<Value>(&text).expect("JSON")["name"], "</script><!-- & \u{2028}");
    }

    #[test]
    fn a_path_becomes_an_address() {
        assert_eq!(
            picture("pictures/blue tray é.jpg", "https://skerrow.example/"),
            "https://skerrow.example/pictures/blue%20tray%20%C3%A9.jpg"
        );
    }
}
