//! Pages that say their data in the attributes of their elements and have no script of it.

use super::{draft, holds};
use miche::model::notes::{Form, read};

const MARKED: &str = r#"<!doctype html><html><head><title>x</title><meta property="og:title" content="Not this"></head><body>
<article itemscope itemtype="http://schema.org/Recipe"><h1 itemprop="name">Quay
  buns</h1> by <span itemprop="author">Mara Ness</span><meta itemprop="recipeYield" content="12 buns">
<time itemprop="cookTime" datetime="PT20M">20 min</time><ul><li itemprop="recipeIngredient"><b>500 g</b> bread
  flour</li><li itemprop="recipeIngredient">300 g water<li itemprop="recipeIngredient">10 g salt</ul>
<div itemprop="recipeInstructions"><ol><li>Mix for 10 min.</li><li>Bake 20 min at 220 C.</li></ol></div>
<div itemprop="nutrition" itemscope itemtype="http://schema.org/NutritionInformation"><span itemprop="calories">200 kcal</span></div>
</article></body></html>"#;

#[test]
fn attributes_say_a_recipe_as_a_script_does() {
    let buns = draft(MARKED);
    holds(
        &buns,
        &[
            "recipe Quay buns",
            "makes 12 buns",
            "bread flour .. 500 g",
            "water .. 300 g",
            "salt .. 10 g",
            "mix: hands 10 min",
        ],
    );
    holds(&buns, &["bake: tend 20 min, using oven at 220 C", "by Mara Ness"]);
    assert!(buns.text.contains("200 kcal") && buns.text.contains("cookTime"), "{}", buns.text);
    assert!(!buns.text.contains("Not this"), "{}", buns.text);
    // The other way to write attributes, and one that says the name of the vocabulary each time.
    for (of, kind, property) in [("vocab='https://schema.org/'", "Recipe", ""), ("", "schema:Recipe", "schema:")] {
        let other = MARKED
            .replace(r#"itemscope itemtype="http://schema.org/Recipe""#, &format!("{of} typeof='{kind}'"))
            .replace(r#"itemscope itemtype="http://schema.org/"#, "typeof=\"")
            .replace("itemprop=\"", &format!("property=\"{property}"));
        let other = draft(&other);
        assert_eq!(other.text.replace("schema:", ""), buns.text);
    }
}

#[test]
fn a_script_goes_before_attributes_and_a_page_of_neither_says_so() {
    let script = r#"<script type="application/ld+json">{"@type":"Recipe","name":"Rolls","recipeIngredient":["1 kg flour"]}</script>"#;
    let both = draft(&format!("{script}{MARKED}"));
    assert!(both.text.contains("recipe Rolls") && !both.text.contains("Quay buns"), "{}", both.text);
    let broken = draft(&format!("<script type=\"application/ld+json\">{{nothing</script>{MARKED}"));
    assert!(broken.text.contains("recipe Quay buns"), "{}", broken.text);
    let plain = r#"<html><meta property="og:type" content="article"><p itemprop="name">500 g flour</p></html>"#;
    let why = read(plain, Form::Page, None, "x").expect_err("no recipe");
    assert!(why.contains("in attributes"), "{why}");
}
