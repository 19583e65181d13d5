//! Words that were passed over: claims wherever they stand, names with `free` in them, whom something is for, beans and meat by every name, and
//! curing salt by its strength. Findings of two trials; sources stand with the checks (`miche explain`), what is said here of a food is from memory.

use super::{problems_of, told};

/// The messages of one check that a text is told.
fn messages(text: &str, check: &str) -> Vec<String> {
    problems_of(text).into_iter().filter(|problem| problem.check == check).map(|problem| problem.message).collect()
}

pub(super) fn is_told(text: &str, check: &str, word: &str) {
    let all = messages(text, check);
    assert!(
        all.iter().any(|message| message.contains(word)),
        "{text}\nno {check} with `{word}`:\n{}",
        told(&problems_of(text))
    );
}

pub(super) fn is_quiet(text: &str, check: &str) {
    let all = messages(text, check);
    assert!(all.is_empty(), "{text}\n{all:?}");
}

/// A recipe of one ingredient and water.
fn of(name: &str, amount: &str) -> String {
    format!(
        "recipe Test\nmakes 3 kg\n{name} .... {amount}\nwater .... 2 kg\nboil: tend 10 min, using hob\n    Boil {{{name}}} in {{water}}.\n    until soft\n"
    )
}

/// Each was silent: `free` in a name hid all of it, and so did a word before the food with others behind it.
#[test]
fn a_name_is_silent_only_about_what_it_is_free_of() {
    for (name, allergen) in [
        ("lactose-free milk", "milk"),
        ("sugar-free hazelnut cream", "milk"),
        ("dairy-free hazelnut cream", "nuts"),
        ("guilt-free peanut butter", "peanuts"),
        ("sugar-free peanut butter", "peanuts"),
        ("walnuts from the tree", "nuts"),
        ("milk of the free cow", "milk"),
        ("stoneground flour from the farm", "wheat"),
        ("extra strong flour from X", "wheat"),
        ("high protein flour from X", "wheat"),
        ("vanilla-flavoured milk from X", "milk"),
        ("custard", "milk and eggs"),
        ("amaretti", "nuts"),
        ("satay sauce", "peanuts"),
        ("hummus", "sesame"),
        ("labneh", "milk"),
        ("atta", "wheat"),
        ("bonito flakes", "fish"),
    ] {
        is_told(&of(name, "1 kg"), "hidden-allergen", allergen);
    }
    for name in ["dairy-free butter", "gluten-free bread", "vegan butter", "butter-flavoured oil", "oyster mushrooms"] {
        is_quiet(&of(name, "1 kg"), "hidden-allergen");
    }
}

/// The plainest name in any British recipe was no egg.
#[test]
fn free_range_eggs_are_eggs() {
    for name in ["free range eggs", "free-range eggs", "cage-free eggs", "large free range eggs"] {
        let text = format!(
            "recipe Vegan cake\nmakes 3 kg\n{name} .... 1 kg\nwater .... 2 kg\nboil: tend 10 min, using hob\n    Boil {{{name}}} in {{water}}.\n    until soft\n"
        );
        is_told(&text, "hidden-allergen", "contains egg");
    }
}

/// A bar of wheat, almonds and butter, under a line of the head.
fn bar(line: &str) -> String {
    format!(
        "recipe Bars\nmakes 20 bars\n{line}\nplain flour .... 400 g\nalmonds .... 100 g\nbutter .... 100 g\nbake: tend 20 min, using oven at 180 C\n    Mix {{plain flour}}, {{almonds}} and {{butter}}; bake.\n    until gold\n"
    )
}

/// Each of these lines claimed what is not so, and nothing was said. 'Suitable for coeliacs' is a wording of Regulation (EU) 828/2014 (from memory).
#[test]
fn a_claim_is_a_claim_wherever_it_stands() {
    for line in [
        "filed under gluten free",
        "filed under vegan",
        "note Contains no nuts.",
        "note No nuts in it.",
        "note Suitable for vegans.",
        "note Do not freeze. Safe for coeliacs.",
        "story Our nut-free bar.",
        "sold as Coeliac-safe bar",
        "directions Suitable for coeliacs.",
        "note Free from nuts.",
        "sold as Bar, no dairy, no nuts",
    ] {
        is_told(&bar(line), "hidden-allergen", "but the recipe says");
    }
    for line in [
        "note There is no butter without cows.",
        "note Not suitable for coeliacs.",
        "note Serve with vegan ice cream.",
        "story My vegan neighbour taught me to bake.",
        "note For a vegan version take another fat.",
        "filed under tea time",
        "note With free range eggs it would be a cake.",
    ] {
        is_quiet(&bar(line), "hidden-allergen");
    }
}

/// What is sweet in what is sugar-free (Regulation (EC) 1924/2006, Annex), alcohol and pork by what is said of them; from memory.
#[test]
fn sugar_alcohol_and_pork_are_claimed_too() {
    let of = |name: &str, line: &str| {
        format!(
            "recipe {name}\nmakes 3 kg\n{line} .... 1 kg\nwater .... 2 kg\nboil: tend 10 min, using hob\n    Boil {{{line}}} in {{water}}.\n    until {{90 C}}\n"
        )
    };
    for (name, line) in [
        ("Sugar-free drops", "caster sugar"),
        ("Alcohol-free punch", "rum"),
        ("Kosher stew", "pork shoulder"),
        ("Halal stew", "lard"),
        ("Halal punch", "rum"),
    ] {
        is_told(&of(name, line), "hidden-allergen", "but the recipe says");
    }
    for (name, line) in [
        ("Sugar-free water", "erythritol"),
        ("Kosher stew", "beef shoulder"),
        ("Kosher salt broth", "pork shoulder"),
        ("Sweet drops", "caster sugar"),
    ] {
        is_quiet(&of(name, line), "hidden-allergen");
    }
}

/// A claim over what nobody knows passed.
#[test]
fn what_no_larder_knows_is_told_where_something_is_claimed() {
    let of = |name: &str, line: &str| {
        format!(
            "recipe {name}\nmakes 3 kg\n{line} .... 1 kg\nwater .... 2 kg\nboil: tend 10 min, using hob\n    Boil {{{line}}} in {{water}}.\n    until soft\n"
        )
    };
    is_told(
        &of("Gluten-free gruel", "quixing powder"),
        "hidden-allergen",
        "no larder says what `quixing powder` contains",
    );
    is_quiet(&of("Gluten-free gruel", "gluten-free quixing powder"), "hidden-allergen");
    is_quiet(&of("Gruel", "quixing powder"), "hidden-allergen");
}

fn rusks(name: &str, line: &str, sweet: &str) -> String {
    format!(
        "recipe {name}\nmakes 20 rusks\n{line}\nplain flour .... 500 g\n{sweet} .... 60 g\nwhole milk .... 200 g\nbake: tend 30 min, using oven at 170 C\n    Mix {{plain flour}}, {{{sweet}}} and {{whole milk}}, roll, cut and bake.\n    until gold\n"
    )
}

/// CDC and NHS: no honey under twelve months (from memory). Only the name was read, and of it a word was enough.
#[test]
fn honey_for_babies_is_told_wherever_it_is_said_whom_it_is_for() {
    for line in [
        "note For babies from six months.",
        "note For infants.",
        "note Weaning food.",
        "filed under weaning",
        "story For little ones from eight months.",
        "note For children under 12 months.",
    ] {
        is_told(&rusks("Oat rusks", line, "honey"), "poisonous", "what is for babies");
    }
    is_told(&rusks("Baby rusks", "note Hard.", "honeycomb"), "poisonous", "what is for babies");
    is_told(&rusks("Infant porridge", "note Soft.", "honey"), "poisonous", "what is for babies");
    for (name, line) in [
        ("Rum babas for baby showers", "note Soft."),
        ("Infant Jesus of Prague biscuits", "note Hard."),
        ("Rusks", "note Not for babies under 12 months."),
        ("Rusks", "note Keeps for six months."),
    ] {
        is_quiet(&rusks(name, line, "honey"), "poisonous");
    }
}

/// FDA Bad Bug Book (from memory): what boils away the poison is boiling, whoever tends it.
#[test]
fn beans_in_a_pot_that_nobody_tends_and_raw_beans_are_told() {
    let beans = |name: &str, said: &str, step: &str| {
        format!(
            "recipe Beans\nmakes 10 portions\n{name} .... 500 g{said}\nwater .... 1.5 kg\n{step}\n    Put {{{name}}} and {{water}} together.\n    until soft\n"
        )
    };
    for step in [
        "cook: wait 8 h, using slow cooker at 80 C",
        "cook: wait 8 h, using oven at 80 C",
        "cook: wait 3 h, using bain-marie at 80 C",
        "cook: wait 8 h, at 80 C",
    ] {
        is_told(&beans("kidney beans", ", dried", step), "poisonous", "never boils");
    }
    is_told(&beans("raw red kidney beans", "", "toss: hands 5 min"), "poisonous", "never cooked");
    is_told(&beans("sprouted kidney beans", "", "toss: hands 5 min"), "poisonous", "never cooked");
    is_quiet(&beans("kidney beans", ", tinned", "toss: hands 5 min"), "poisonous");
    is_quiet(&beans("kidney beans", ", dried", "soak: wait 8 h, at 20 C\nboil: tend 60 min, using hob"), "poisonous");
}

/// FDA Food Code 3-401.11, FSIS Appendix A for poultry in a bath, from 57.8 °C (both from memory).
#[test]
fn pink_mince_stuffed_meat_and_a_tepid_bath_are_told() {
    let of = |name: &str, step: &str, sign: &str| {
        format!(
            "recipe Plate\nmakes 20 plates\n{name} .... 3 kg\nsalt .... 36 g\n{step}\n    Take {{{name}}} and {{salt}}.\n    {sign}\n"
        )
    };
    for (name, sign) in [
        ("minced beef", "until pink in the middle"),
        ("minced beef", "until rare inside"),
        ("chicken breast", "until still pink"),
        ("pork loin", "until rare"),
    ] {
        is_told(&of(name, "grill: tend 5 min, using grill", sign), "undercooked", "in the middle at least");
    }
    for (name, sign) in [
        ("minced beef", "until no longer pink"),
        ("pork loin", "until pink"),
        ("beef sirloin", "until pink"),
        ("minced beef", "until {75 C} inside, not pink"),
    ] {
        is_quiet(&of(name, "grill: tend 5 min, using grill", sign), "undercooked");
    }
    let stuffed = "recipe Stuffed pork\nmakes 10 slices\npork loin .... 2 kg\nbread crumbs .... 200 g\nsalt .... 20 g\nroast: tend 90 min, using oven at 170 C\n    Stuff {pork loin} with {bread crumbs}, rub with {salt}; roast.\n    until {63 C} in the middle\n";
    is_told(stuffed, "undercooked", "what is stuffed has 74 °C");
    is_quiet(&stuffed.replace("{63 C}", "{75 C}"), "undercooked");
    is_told(
        &of("chicken breast", "cook: wait 2 h, using water bath at 55 C", "until firm"),
        "raw-meat",
        "nothing cooks it",
    );
    is_quiet(&of("chicken breast", "cook: wait 2 h, using water bath at 60 C", "until firm"), "raw-meat");
    is_quiet(&of("beef sirloin", "cook: wait 2 h, using water bath at 55 C", "until firm"), "raw-meat");
}

fn cured(meat: &str, salt: &str, grams: &str) -> String {
    format!(
        "recipe Cured meat\nmakes 4 kg\n{meat} .... 4 kg\n{salt} .... {grams}\nrub: hands 20 min\n    Rub {{{meat}}} with {{{salt}}}.\nboil: tend 4 h, using pot at 80 C\n    until {{75 C}} in the middle\n"
    )
}

/// The sums: 150 g of 6.25 % on 4 kg are 2344 mg a kilo; of 0.5 % 188, of 0.9 % (130 g) 293. 9 CFR 424.21 and Regulation (EC) 1333/2008, from memory.
#[test]
fn curing_salt_is_counted_on_any_meat_and_by_the_strength_that_is_written() {
    for meat in [
        "pork",
        "pork leg",
        "leg of pork",
        "pork belly",
        "beef",
        "brisket",
        "beef brisket",
        "turkey",
        "venison",
        "lamb",
        "duck breast",
        "goose",
    ] {
        is_told(&cured(meat, "prague powder", "150 g"), "odd-percent", "2344 mg");
        is_quiet(&cured(meat, "prague powder", "10 g"), "odd-percent");
    }
    is_told(&cured("pork belly", "nitrite salt of 0.5 %", "150 g"), "odd-percent", "188 mg");
    is_told(&cured("pork belly", "nitrite salt of 0.9 %", "130 g"), "odd-percent", "293 mg");
    is_told(&cured("pork belly", "prague powder of 6.25 %", "12 g"), "odd-percent", "188 mg");
    is_quiet(&cured("pork belly", "nitrite salt of 0.5 %", "100 g"), "odd-percent");
}

/// FDA Food Code 3-401.11 (from memory): what is fried or grilled browns outside before poultry and mince are done.
#[test]
fn fried_and_grilled_poultry_and_mince_are_asked_how_hot_they_are_inside() {
    let of = |name: &str, step: &str, sign: &str| {
        format!(
            "recipe Plate\nmakes 20 plates\ncaution Hot fat burns: never leave it alone.\n{name} .... 1.2 kg\nbread crumbs .... 200 g\n{step}\n    Take {{{name}}} and {{bread crumbs}}.\n    until {sign}\n"
        )
    };
    for (name, step) in [
        ("sausage meat", "fry: tend 4 min, using fryer at 180 C"),
        ("chicken breast", "fry: tend 1 min, using fryer at 180 C"),
        ("minced beef", "grill: tend 6 min, using grill"),
    ] {
        is_told(&of(name, step, "brown"), "raw-meat", "how hot it is inside");
        is_quiet(&of(name, step, "{75 C} inside"), "raw-meat");
    }
    is_quiet(&of("beef sirloin", "grill: tend 6 min, using grill", "brown"), "raw-meat");
    is_quiet(&of("minced beef", "stew: tend 60 min, using hob", "thick"), "raw-meat");
}

/// What nobody eats, raw or cooked: EFSA and Regulation (EU) 2017/1237 on apricot kernels, poison centres on the rest (from memory).
#[test]
fn what_nobody_eats_is_told_though_it_is_cooked() {
    let of = |line: &str| {
        let name = line.split(" .").next().unwrap_or_default();
        format!(
            "recipe Pot\nmakes 3 kg\n{line}\nwater .... 2 kg\nboil: tend 40 min, using hob\n    Boil {{{name}}} in {{water}}.\n    until soft\n"
        )
    };
    for line in [
        "rhubarb leaves .... 1 kg",
        "apricot kernels .... 1 kg, bitter",
        "bitter almonds .... 1 kg",
        "potato .... 1 kg, green ones too, with sprouts",
        "green potatoes .... 1 kg",
        "foxglove flowers .... 1 kg",
        "lily of the valley leaves .... 1 kg",
        "yew berries .... 1 kg",
        "castor beans .... 1 kg",
        "potato sprouts .... 1 kg",
        "tomato leaves .... 1 kg",
        "rhubarb leaf .... 1 kg",
    ] {
        is_told(&of(line), "poisonous", "nothing to eat");
        // Who allows meat served rare does not allow this.
        is_quiet(&of(line), "undercooked");
    }
    for line in [
        "rhubarb .... 1 kg",
        "almonds .... 1 kg",
        "bitter almond extract .... 1 kg",
        "potato .... 1 kg, green parts cut away",
        "sweet potato .... 1 kg",
        "sweet apricot kernels .... 1 kg",
        "green beans .... 1 kg",
        // Fruit boiled down and dried, and a leaven of potatoes.
        "rhubarb leather .... 1 kg",
        "tomato leather .... 1 kg",
        "potato leaven .... 1 kg",
    ] {
        is_quiet(&of(line), "poisonous");
    }
}

/// FDA Food Code 3-801.11 on sprouts, Regulation (EC) 853/2004 on raw milk, Health Canada on fiddleheads (all from memory).
#[test]
fn raw_sprouts_raw_milk_and_raw_ferns_are_told() {
    let of = |line: &str, step: &str| {
        let name = line.split(" .").next().unwrap_or_default();
        format!(
            "recipe Bowl\nmakes 3 kg\n{line}\nwater .... 2 kg\n{step}\n    Take {{{name}}} and {{water}}.\n    until ready\n"
        )
    };
    let raw = "raw-milk-or-sprouts";
    for (check, line) in [
        (raw, "mung bean sprouts .... 1 kg, raw"),
        (raw, "alfalfa sprouts .... 1 kg"),
        ("poisonous", "fiddleheads .... 1 kg"),
        (raw, "raw milk .... 1 kg, unpasteurised"),
        (raw, "whole milk .... 1 kg, unpasteurised"),
    ] {
        is_told(&of(line, "toss: hands 5 min"), check, "never");
        is_quiet(&of(line, "boil: tend 10 min, using hob"), check);
    }
    is_quiet(&of("Brussels sprouts .... 1 kg", "toss: hands 5 min"), raw);
    is_quiet(&of("whole milk .... 1 kg", "toss: hands 5 min"), raw);
    let cheese = "recipe Cheese\nmakes 200 g\nraw milk .... 2 kg\nrennet .... 1 g\nset: wait 1 h, at 32 C\n    Stir {rennet} into {raw milk}.\n    until set\ndrain: wait 12 h, at 15 C\n";
    is_quiet(cheese, raw);
}

/// 5 g of nutmeg at once have poisoned people (from memory); what is usual is common practice. The spices had one bound, 15 % of the flour.
#[test]
fn strong_spices_by_ten_are_told() {
    let of = |name: &str, grams: &str| {
        format!(
            "recipe Spiced cake\nmakes 1 cake, round 24 cm x 7 cm\nplain flour .... 300 g\nbutter .... 200 g\ncaster sugar .... 200 g\negg .... 200 g\nbaking powder .... 9 g\nsalt .... 2 g\n{name} .... {grams}\nmix: hands 10 min\n    Mix {{plain flour}}, {{butter}}, {{caster sugar}}, {{egg}}, {{baking powder}}, {{salt}} and {{{name}}}.\nbake: tend 45 min, using oven at 170 C\n    until a skewer comes out clean\n"
        )
    };
    for name in ["ground nutmeg", "nutmeg", "mace", "ground cloves"] {
        is_told(&of(name, "30 g"), "odd-percent", "% of the flour");
        is_quiet(&of(name, "3 g"), "odd-percent");
    }
    is_quiet(&of("ground cinnamon", "30 g"), "odd-percent");
    is_quiet(&of("garlic cloves", "30 g"), "odd-percent");
}

/// Common practice; BfR on pretzels in aluminium (from memory).
#[test]
fn lye_in_a_step_alone_and_lye_in_aluminium_are_told() {
    let of = |dip: &str| {
        format!(
            "recipe Laugen rolls\nmakes 20 rolls\nstrong white flour .... 1 kg\nwater .... 520 g\nsalt .... 20 g\ninstant yeast .... 9 g\nmix: hands 10 min\n    Mix {{strong white flour}}, {{water}}, {{salt}} and {{instant yeast}}.\n    until smooth\nprove: wait 40 min, at 26 C\n    until puffy\ndip: hands 10 min\n    {dip}\nbake: tend 15 min, using oven at 220 C\n    until brown\n"
        )
    };
    for dip in
        ["Dip in 4 % sodium hydroxide.", "Dip in lye.", "Dip in a lye bath.", "Dip in caustic soda.", "Dip in NaOH."]
    {
        is_told(&of(dip), "hot-or-caustic", "works with lye");
    }
    is_quiet(&of("Dip in a bath of baking soda instead of lye."), "hot-or-caustic");
    is_told(&of("Dip in lye in an aluminium pot."), "hot-or-caustic", "aluminium");
    is_told(&of("Dip in lye; lay them on bare aluminum trays."), "hot-or-caustic", "aluminium");
    assert!(
        !messages(&of("Dip in lye; use no aluminium trays."), "hot-or-caustic")
            .iter()
            .any(|message| message.contains("aluminium"))
    );
}

/// Deep fat above 190 °C was usual to a check and too hot to the card of the same file.
#[test]
fn deep_fat_is_as_hot_at_most_as_its_caution_says() {
    let of = |step: &str| {
        format!(
            "recipe Fritters\nmakes 20 fritters\ncaution Hot fat burns: never leave it alone.\npotato .... 1 kg\nfrying oil .... as needed, aside\n{step}\n    Fry {{potato}} in {{frying oil}}.\n    until gold\n"
        )
    };
    for heat in ["215 C", "235 C", "195 C", "400 F"] {
        is_told(&of(&format!("fry: tend 4 min, using fryer at {heat}")), "odd-temperature", "food is fried");
    }
    for step in [
        "fry: tend 4 min, using fryer at 190 C",
        "fry: tend 4 min, using fryer at 375 F",
        "fry: tend 12 min, using air fryer at 200 C",
        "fry: tend 4 min, using griddle at 220 C",
    ] {
        is_quiet(&of(step), "odd-temperature");
    }
}

/// False alarms of a trial: the heat in the middle of a chicken that boils, and a mix of dry things called after a soup.
#[test]
fn the_heart_of_a_boiled_chicken_and_a_dry_soup_mix_are_left_alone() {
    is_quiet(
        "recipe Chicken soup\nmakes 6 kg, loss 26 %\nwater .... 6 kg\nchicken breast .... 2 kg\nsalt .... 60 g\nboil: tend 60 min, using hob\n    Boil {chicken breast} in {water} with {salt}.\n    until {75 C} in the chicken\n",
        "odd-temperature",
    );
    is_told(
        "recipe Syrup\nmakes 1 kg\nwater .... 600 g\ncaster sugar .... 400 g\nboil: tend 10 min, using hob\n    Boil {water} with {caster sugar}.\n    until {60 C}\n",
        "odd-temperature",
        "60 °C",
    );
    let mix = "recipe Dry soup mix\nmakes 1 kg\nbest before 365 days\ndirections Boil for 40 min in a litre of water.\nred lentils .... 720 g\npearl barley .... 200 g\nsalt .... 80 g\nmix: hands 5 min\n    Mix {red lentils}, {pearl barley} and {salt}.\n";
    is_quiet(mix, "shelf-storage");
}

/// A quiche in one part was a bread for its pastry, and in three it was not.
#[test]
fn a_quiche_in_one_part_is_no_bread() {
    let of = |keeps: &str| {
        format!(
            "recipe Quiche\nmakes 8 slices\n{keeps}\nplain flour .... 250 g\nbutter .... 125 g\nsalt .... 3 g\negg .... 200 g\nheavy cream .... 500 g\ncooked ham .... 150 g\nbake: tend 40 min, using oven at 180 C\n    Rub {{butter}} into {{plain flour}} with {{salt}}; line a tin; fill with {{egg}}, {{heavy cream}} and {{cooked ham}}.\n    until set\n"
        )
    };
    is_told(&of("keeps 3 days, at 20 C"), "shelf-storage", "kept for 3 days");
    is_told(&of("best before 3 days\nstore At room temperature."), "shelf-storage", "sold for 3 days");
    is_quiet(&of("keeps 3 days, chilled"), "shelf-storage");
    let genoise = "recipe Genoise\nmakes 1 cake, round 23 cm x 8 cm\nkeeps 3 days, at 20 C\negg .... 300 g\ncaster sugar .... 180 g\nplain flour .... 180 g\nwhole milk .... 60 g\nbake: tend 30 min, using oven at 175 C\n    Whisk {egg}, {caster sugar}, {plain flour} and {whole milk}.\n    until springy\n";
    is_quiet(genoise, "shelf-storage");
}

/// NCHFP, Canning breads and cakes (from memory); a loaf keeps for days by common practice.
#[test]
fn cake_in_closed_jars_and_bread_that_keeps_for_a_year_are_told() {
    let cake = |end: &str, days: &str| {
        format!(
            "recipe Cake\nmakes 6 cakes\nbest before {days} days\nplain flour .... 300 g\negg .... 200 g\nbutter .... 200 g\ncaster sugar .... 200 g\nbaking powder .... 9 g\nbake: tend 30 min, using oven at 175 C\n    Mix {{plain flour}}, {{egg}}, {{butter}}, {{caster sugar}} and {{baking powder}}; bake in {end}.\n    until risen\n"
        )
    };
    is_told(&cake("jars, close hot", "365"), "shelf-storage", "closed jars");
    is_quiet(&cake("jars, close hot", "3"), "shelf-storage");
    is_quiet(&cake("tins, and turn out", "20"), "shelf-storage");
    let loaf = |days: &str| {
        format!(
            "recipe Loaf\nmakes 2 loaves\nbest before {days} days\nstrong white flour .... 1 kg\nwater .... 650 g\nsalt .... 20 g\ninstant yeast .... 8 g\nmix: hands 10 min\n    Mix {{strong white flour}}, {{water}}, {{salt}} and {{instant yeast}}.\n    until smooth\nrise: wait 60 min, at 25 C\n    until doubled\nbake: tend 40 min, using oven at 230 C\n    until hollow\n"
        )
    };
    is_told(&loaf("365"), "shelf-storage", "stale after");
    is_quiet(&loaf("3"), "shelf-storage");
}

/// Nitrite in a brine, by what there is of meat and liquid together (9 CFR 424.21(c): 200 mg a kilo; from memory): cure of 6.25 % is weighed by the gram, and the
/// nitrite salt of Europe by the hundred.
#[test]
fn a_brine_with_too_much_nitrite_is_told() {
    let one = |salt: &str, grams: &str| {
        format!(
            "recipe Salt beef\nwater .... 3000 g, strained out\n{salt} .... {grams}, strained out\nbeef brisket .... 2600 g\nsteep: wait 6 days, at 4 C\n    Stir {{{salt}}} into {{water}}; sink \
             {{beef brisket}}.\nsimmer: tend 3 h 30 min, using hob\n    Simmer {{beef brisket}} in fresh water.\n    until a fork turns in it\n"
        )
    };
    is_told(&one("prague powder", "60 g"), "odd-percent", "670 mg");
    is_told(&one("curing salt", "60 g"), "odd-percent", "nothing says how strong");
    is_told(&one("nitrite salt", "600 g"), "odd-percent", "mg of nitrite");
    is_quiet(&one("prague powder", "14 g"), "odd-percent");
    is_quiet(&one("nitrite salt", "200 g"), "odd-percent");
    let apart = "recipe Salt beef\n\npart brine\nwater .... 3000 g\nprague powder .... 60 g\nstir: hands 2 min\n    Stir {prague powder} into {water}.\n\npart beef\nbrine .... all, strained out\n\
                 beef brisket .... 2600 g\nsteep: wait 6 days, at 4 C\n    Sink {beef brisket} in {brine}.\nsimmer: tend 3 h 30 min, using hob\n    Simmer {beef brisket} in fresh water.\n    until a fork turns in \
                 it\n";
    is_told(apart, "odd-percent", "670 mg");
}
