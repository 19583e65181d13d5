//! What the name of the food means, what runs off with some of what went in, and how raw flesh is cooked.

use super::{label, page};

fn names_told(recipe: &str) -> Vec<String> {
    let told = label(recipe, &[]);
    let all = told["quantities"].as_array().expect("a list").iter();
    all.filter_map(|one| one["ingredient"].as_str().map(str::to_owned)).collect()
}

/// Whey holds most of the milk's sugar (4.8 % in milk, 4 to 5 in what is drained; common practice, no source), so that nobody can reckon what is left:
/// also where the yoghurt was set in a part of its own, and however the loss is said.
#[test]
fn whey_takes_sugar_along_wherever_the_milk_was_soured() {
    let labneh = |says: &str| {
        format!(
            "recipe Fresh cheese\n\npart yoghurt\nwhole milk .... 4000 g\nplain yoghurt .... 120 g\nset: wait 6 h, at 43 C\n    Stir {{plain yoghurt}} into {{whole milk}}.\n    \
             until set\n\npart labneh\nyoghurt .... all\nsalt .... 30 g\n{says}\ndrain: wait 24 h, at 4 C\n    Stir {{salt}} into {{yoghurt}}; hang in a cloth.\n    until firm\n"
        )
    };
    for says in ["makes 1.5 kg, loss 63 %", "divide 10 x 150 g, loss 63.9 %"] {
        let page = page(&labneh(says), &[]);
        let sugars = page.lines().find(|line| line.contains("sugars")).unwrap_or_default().to_owned();
        assert!(sugars.contains("not known"), "{says}: {page}");
    }
    let set = page(
        "recipe Set yoghurt\nwhole milk .... 4000 g\nplain yoghurt .... 120 g\nset: wait 6 h, at 43 C\n    Stir {plain yoghurt} into {whole milk}.\n    until set\n",
        &[],
    );
    assert!(!set.lines().any(|line| line.contains("sugars") && line.contains("not known")), "{set}");
}

/// Regulation (EU) 1169/2011, Article 22(1)(a): the quantity of the ingredient that the name of the food means. A buyer of a beef pie asks for the beef, and
/// not for its dripping; steak is beef; what is salted asks for no salt.
#[test]
fn the_food_itself_is_told_and_not_what_is_made_of_it() {
    let pies = names_told(
        "recipe Chicken pies\nplain flour .... 500 g\nbutter .... 250 g\nwater .... 120 g\nchicken breast .... 600 g\nchicken stock .... 300 g\nchicken fat .... 20 g\n",
    );
    assert_eq!(pies, ["chicken breast"]);
    let potatoes = names_told("recipe Duck fat potatoes\npotato .... 1 kg\nduck fat .... 80 g\n");
    assert!(potatoes.contains(&"duck fat".to_owned()), "{potatoes:?}");
    let steak = names_told(
        "recipe Steak and ale pies\nplain flour .... 500 g\nbutter .... 250 g\nbeef shin .... 800 g\nale .... 330 g\n",
    );
    assert!(steak.contains(&"beef shin".to_owned()) && steak.contains(&"ale".to_owned()), "{steak:?}");
    let salted = names_told("recipe Salt beef\nbeef brisket .... 1 kg\nsalt .... 30 g\n");
    assert_eq!(salted, ["beef brisket"]);
    let turkey = names_told(
        "recipe Roast turkey\n\npart turkey\nturkey crown .... 3500 g\nbutter .... 100 g\nmakes 2.8 kg, loss 22 %\nroast: tend 2 h, using oven at 180 C\n    Rub {turkey crown} with {butter}; roast.\n    \
         until {74 C} inside\n\npart plates\nturkey .... all\npotato .... 800 g\nserve: hands 5 min\n    Serve {turkey} with {potato}.\n",
    );
    assert_eq!(turkey, ["turkey crown"], "a part and what it is made of would be one thing twice");
}

/// FDA Food Code 3-401.11 (from memory): flesh is done when it is hot inside, and gold outside says nothing of that.
#[test]
fn how_raw_flesh_is_cooked_is_told_by_the_heat_inside() {
    let page = |recipe: &str| page(recipe, &[]);
    let sausages = page(
        "recipe Fresh sausages\npork shoulder .... 1 kg\nsalt .... 18 g\nmix: hands 10 min\n    Mince {pork shoulder} with {salt}.\n",
    );
    assert!(sausages.contains("Cook until 74 °C inside.") && !sausages.contains("until golden"), "{sausages}");
    let dough = page(
        "recipe Biscuit dough\nplain flour .... 500 g\nbutter .... 250 g\nmix: hands 10 min\n    Mix {plain flour} with {butter}.\n",
    );
    assert!(dough.contains("Bake at 200 °C until golden."), "{dough}");
}

/// Of the salt that vegetables were salted with a rinse takes most (a third stays; common practice, no source), and no figure is exact any more.
#[test]
fn salt_that_is_rinsed_off_has_no_exact_figure() {
    let pickles = |end: &str| {
        page(
            &format!(
                "recipe Salted cucumber\ncucumber .... 2 kg\nsalt .... 150 g\nsalt: wait 16 h, at 4 C\n    Strew {{cucumber}} with {{salt}}.\ndrain: hands 5 min\n    {end}\n"
            ),
            &[],
        )
    };
    let salt = |page: &str| {
        let row = page.lines().find(|line| line.trim_start_matches(['|', ' ']).starts_with("salt")).map(str::to_owned);
        row.unwrap_or_else(|| panic!("{page}"))
    };
    let rinsed = pickles("Rinse and drain.");
    assert!(salt(&rinsed).contains("not known") || salt(&rinsed).contains("at least"), "{rinsed}");
    let at_once = page(
        "recipe Salted cucumber\ncucumber .... 2 kg\nsalt .... 150 g\nsalt: wait 16 h, at 4 C\n    Strew {cucumber} with {salt}; rinse and drain.\n",
        &[],
    );
    assert!(salt(&at_once).contains("not known") || salt(&at_once).contains("at least"), "{at_once}");
    let kept = pickles("Put into jars.");
    assert!(!salt(&kept).contains("not known"), "{kept}");
}
