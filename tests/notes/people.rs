//! Notes of different people, British, American and Australian, old and typed on a telephone, each number compared by hand. Invented.

use super::told::gives;
use super::{draft, holds, sound};

fn line_of<'t>(text: &'t str, begins: &str) -> &'t str {
    text.lines().find(|line| line.starts_with(begins)).unwrap_or_else(|| panic!("no line `{begins}` in\n{text}"))
}

#[test]
fn a_blue_book() {
    let made = sound(
        "Gran's parkin\n\n½ lb. medium oatmeal\n6 ozs. plain flour\n4 ozs. Demerara\n1 level teaspoonful bicarb.\n2 teaspoonfuls gd. ginger\n\
         1 egg\n½ gill milk\n2 pts. water\n1 wineglass brandy\n\nBake 1½ hrs, Regulo 2.\n",
    );
    holds(
        &made,
        &[
            "medium oatmeal .. 1/2 lb",
            "plain flour .. 6 oz",
            "demerara sugar .. 4 oz",
            "bicarb .. 1 tsp, level",
            "egg .. 1",
            "milk .. as needed, ½ gill",
            "water .. 2 pt",
            "brandy .. as needed, 1 wineglass",
        ],
    );
    assert!(!line_of(&made.text, "egg ").contains("# look"), "{}", made.text);
}

/// An egg of 59 g is sold in Australia as large (from memory); six of them weigh 354 g and not 59.
#[test]
fn the_weight_of_one_is_not_that_of_all() {
    let made = sound("Lamingtons\n\n6 eggs (59g)\n2 onions (300 g)\n4 egg whites (140 g)\n200 g sugar\n");
    assert!(line_of(&made.text, "eggs ").contains(" 6, 59 g each "), "{}", made.text);
    assert!(line_of(&made.text, "eggs ").contains("# look (what one weighs is said"), "{}", made.text);
    holds(&made, &["onions .. 300 g = 2", "egg whites .. 140 g = 4"]);
}

#[test]
fn a_list_behind_a_name_is_a_part() {
    let rolls = sound(
        "1) Sponge: 3 eggs, 90g sugar, 90g flour. Whisk 8 min.\n2) Filling: 300ml cream 35%, 30g icing sugar, 150 g raspberries\n3) Roll. Chill 1h. Serves 8. Keeps 1 day.\n",
    );
    holds(
        &rolls,
        &[
            "part sponge",
            "eggs .. 3",
            "sugar .. 90 g",
            "flour .. 90 g",
            "whisk: hands 8 min",
            "part filling",
            "cream .. 300 ml, of 35 %",
            "raspberries .. 150 g",
            "makes 8 portions",
        ],
    );
    let pasta = sound("Pasta dough per person: 100g 00 flour, 1 egg (55g)\nrest 30 min\n");
    holds(&pasta, &["part pasta dough per person", "00 flour .. 100 g", "egg .. 55 g = 1"]);
    let rye = sound(
        "Rye from class\n\nStage 1 sour: 30 g starter + 300 g rye + 300 g water\nLeave 16 h.\nDough: all the sour less 30 g, 400 g rye, 18 g salt\nMix 6 min.\n",
    );
    let dough = rye.text.split("\npart dough\n").nth(1).unwrap_or_else(|| panic!("{}", rye.text));
    assert!(dough.contains("rye flour ..") && dough.contains("400 g") && dough.contains("18 g"), "{}", rye.text);
    assert!(dough.contains(" all, less 30 g ") || dough.contains("as needed, less 30 g"), "{}", rye.text);
    let danish = sound(
        "Danish\n\nDough: 1 kg flour; 500 g milk\nRoll-in: 500 g butter (84%)\nRemonce: 200g butter, 200g sugar, 200g marzipan (60%)\n",
    );
    holds(&danish, &["part roll-in", "butter .. 500 g, of 84 %", "part remonce", "marzipan .. 200 g, 60 %"]);
    for line in
        ["Variation: 100 g walnuts, 50 g honey", "Or: 100 g walnuts, 50 g honey", "Total cost: 20 g salt, 50 g honey"]
    {
        let text = sound(&format!("Quay loaf\n\n1 kg flour\n650 g water\n{line}\n")).text;
        assert_eq!(text.matches("\npart ").count(), 0, "{line}\n{text}");
    }
}

#[test]
fn an_amount_that_is_not_understood_is_no_step() {
    let text =
        sound("Granola\n\noats 1.5 kg\n1 c + 2 T warm milk\nhoney 300 g\nBrandy — 1 demijohn or so\n200 g sugar\n")
            .text;
    for line in ["1 c + 2 T warm milk", "1 demijohn"] {
        let mark = text.lines().find(|said| said.contains(line)).unwrap_or_default();
        assert!(mark.contains("# look") && !mark.starts_with("note"), "{line}\n{text}");
    }
    assert!(!text.contains("make this a step"), "{text}");
    holds(&draft("Granola\n\nnuts 450 g / 1 lb mixed\noats 1 kg\n", None, "x"), &["nuts .. 450 g = 1 lb, mixed"]);
}

/// What is told stands among what goes in, without a blank line between.
#[test]
fn a_heat_or_a_verb_is_no_ingredient() {
    for line in [
        "160 fan 12 mins. makes 30ish",
        "350 for 20. pour filling, 25 more",
        "knead 10, rest 30, ball 80g each, rest overnight",
    ] {
        let text = sound(&format!("Quay bikkies\n\n1 kg flour\n125 g butter\n{line}\n")).text;
        assert_eq!(text.matches(" ...").count(), 2, "{line}\n{text}");
        assert!(text.contains(line.split_whitespace().next().unwrap_or_default()) && text.contains("# look"), "{text}");
    }
    // Flour it is, and listed already.
    holds(&draft("Loaf\n\n1 kg flour\nrest of the flour 50 g\n", None, "x"), &["second flour .. 50 g"]);
}

#[test]
fn a_heat_is_read_as_it_is_typed() {
    let told = |line: &str| sound(&format!("Quay loaf\n\n1 kg flour\n650 g water\n\n{line}\n")).text;
    gives(
        told,
        &[
            ("bake 200c 20 min", "bake: tend 20 min, using oven at 200 C"),
            ("Mix 8 min; dip 10 s; 230 deg C 14-15 min", "bake: tend 14-15 min, using oven at 230 C"),
            ("150°C/300°F 35 min, turning every 10", "bake: tend 35 min, using oven at 150 C"),
            ("Bake at 375° for 15 min.", "# look (C or F is not said"),
            // In braces, so that who reads Fahrenheit gets no bare 4C.
            ("Cool to 4C within 90 min.", "note Cool to {4 C} within 90 min."),
            ("Hold hot no more than 2 hours.", "note Hold hot no more than 2 hours."),
            ("Mix 6 min slow, 2 fast", "note Mix 6 min slow, 2 fast"),
        ],
    );
    // Pretzels are dipped in lye for seconds.
    assert!(!told("Dip 10 s; 230 deg C 14-15 min").contains("dip: hands 14"), "dip");
}

#[test]
fn a_table_is_read_however_it_was_pasted() {
    for table in [
        "| ingredient | g | % |\n|---|---|---|\n| flour | 1000 | 100 |\n| water | 780 | 78 |",
        "ingredient   g   %\nflour  1000  100\nwater  780  78",
        "ingredient,g,%\nflour,1000,100\nwater,780,78",
    ] {
        holds(&sound(&format!("Focaccia\n\n{table}\n")), &["flour .. 1000 g = 100 %", "water .. 780 g = 78 %"]);
    }
    let none = sound("Focaccia\n\nflour,1000,100\nwater,780,78\n").text;
    assert!(!none.contains("1000100") && !none.contains("780.78"), "{none}");
    let prices =
        sound("Fish pie\n\n| item | kg | cost |\n|---|---|---|\n| potatoes | 18 | 14 |\n| cod | 9.6 | 86.40 |\n").text;
    assert!(line_of(&prices, "potatoes ").contains(" 18 kg, cost 14 "), "{prices}");
    assert!(line_of(&prices, "cod ").contains(" 9.6 kg, cost 86.40 "), "{prices}");
    let scale = sound("Brioche\n\nFlour 100% 2.000 kg\nSugar 12% 0.240 kg\nButter (82%) 50% 1.000 kg\n");
    holds(&scale, &["flour .. 2.000 kg = 100 %", "sugar .. 0.240 kg = 12 %", "butter .. 1.000 kg = 50 %, of 82 %"]);
    assert!(!scale.text.contains("thousands"), "{}", scale.text);
}

#[test]
fn of_a_fruit_the_weight_is_said_too() {
    holds(
        &sound("Jam\n\n1 kg plums\njuice of 2 lemons (80 ml)\nzest of 1 orange (5 g)\n60 ml juice of lime\n"),
        &["lemon juice .. 80 ml, of 2 lemons", "orange zest .. 5 g, of 1 orange", "lime juice .. 60 ml"],
    );
}

#[test]
fn what_stands_around_a_recipe_is_no_ingredient() {
    let letter = sound(
        "Subject: Fwd: Re: soda bread\n> > 250g plain flour\n> > 1tsp bicarb\n> >\n> > Hot oven 200c, 40-45mins.\n",
    );
    assert_eq!(letter.name, "soda bread", "{}", letter.text);
    holds(&letter, &["plain flour .. 250 g", "bake: tend 40-45 min, using oven at 200 C"]);
    assert_eq!(sound("Tomato ketchup, old way\n\n6 lb tomatoes\n").name, "Tomato ketchup old way");
    let rye = sound("Rye bread\n\nwater 700 g\nrye flour 1 kg\n2 loaves\n");
    holds(&rye, &["makes 2 loaves"]);
    assert!(!rye.text.contains("cloves"), "{}", rye.text);
}

/// `about` between a name and its amount, amounts in words, what is taken off and what is the rest: read, and marked.
#[test]
fn words_round_an_amount_are_no_name() {
    let list = |line: &str| sound(&format!("Quay cake\n\n1 kg flour\n{line}\n40 g nuts\n"));
    for (line, wanted) in [
        ("water ~ 150 ml", "water .. 150 ml"),
        ("butter approx 50 g", "butter .. 50 g"),
        ("milk about 200 g", "milk .. 200 g"),
        ("Plain flour - a pound", "plain flour .. 1 lb"),
        ("butter - half a pound", "butter .. 1/2 lb"),
        ("sugar - two ounces", "sugar .. 2 oz"),
        ("1/4 pt milk less a tbsp", "milk .. 1/4 pt, less a tbsp"),
        ("rest of the water 30g", "water .. 30 g"),
        ("25 g plain", "plain flour .. 25 g"),
        ("9 oz plain flr", "plain flour .. 9 oz"),
        ("3 yolks", "egg yolk .. 3"),
    ] {
        let made = list(line);
        holds(&made, &[wanted]);
        let name = wanted.split(" ..").next().unwrap_or_default();
        assert!(line_of(&made.text, &format!("{name} ")).contains("# look"), "{line}\n{}", made.text);
    }
    let pepper = list("200 g breadcrumbs, pepper");
    assert!(line_of(&pepper.text, "breadcrumbs ").contains("# look (`pepper` may be an ingredient"), "{}", pepper.text);
    assert!(!line_of(&list("200 g chocolate, dark").text, "chocolate ").contains("# look"));
    let told =
        sound("So this is the flapjack thing, two hundred and fifty grams of oats and a pound of butter, melted.\n")
            .text;
    // The pound is a line, and what is said in words alone is marked there.
    assert!(told.contains("butter") && told.contains("more amounts stand in these words"), "{told}");
}

/// What a title says of the pieces is read, or the line is there to be looked at.
#[test]
fn no_figure_of_a_title_counts_for_nothing() {
    for (title, wanted) in [
        ("Pizza dough (8 balls @ 270)", "makes 8 balls"),
        ("White tin 800g x 6", "makes 6 pieces"),
        ("White tin 800g x 6", "divide 6 x 800 g"),
        ("Rolls for the fete - 60 at 70 g", "divide 60 x 70 g"),
        ("Naan 10pc", "makes 10 pc"),
        ("LEMON CURD — fills 4 jars", "makes 4 jars"),
    ] {
        let made = sound(&format!("{title}\n\n500 g flour\n300 g water\n"));
        holds(&made, &[wanted]);
        assert!(made.text.contains("# look"), "{title}\n{}", made.text);
    }
    holds(&sound("Bagels (makes a baker's dozen)\n\n500 g flour\n300 g water\n"), &["makes 13 bagels"]);
    for title in ["Croissant dough - 2,000 g flour", "CIABATTA 10 KG FLOUR", "Nussecken (für 1 Blech)"] {
        let made = sound(&format!("{title}\n\n500 g flour\n300 g water\n"));
        assert!(!made.text.contains("\nmakes "), "{}", made.text);
        assert!(made.text.contains(&format!("this became the name): {title}")), "{title}\n{}", made.text);
    }
    holds(
        &sound("Quay bread\n\n500 g flour\n300 g water\n\nKnead 10 min. Bake 30 min.\n\n2 loaves\n"),
        &["makes 2 loaves"],
    );
    holds(
        &sound("Quay bread\n\n500 g flour\n300 g water\n10 pieces of 80 g\n"),
        &["makes 10 pieces", "divide 10 x 80 g"],
    );
    let sums = sound("Quay buns\n\nFlour 1 kg\nWater 600 g\nFlour weight 1 kg\nScaling wt 80 g\n").text;
    assert!(!sums.contains("\nflour weight") && !sums.contains("\nscaling wt"), "{sums}");
}

/// Half of something and the rest of it are said as the language says them.
#[test]
fn half_the_sugar_is_not_all_of_it() {
    let made = sound(
        "Cream\n\n1 l milk\n200 g caster sugar\n160 g egg yolk\n\nBoil the milk with half the sugar 5 min. Whisk the egg yolk with the rest of the sugar 3 min.\n",
    );
    assert!(
        made.text.contains("with {half of caster sugar} 5 min")
            && made.text.contains("with {rest of caster sugar} 3 min"),
        "{}",
        made.text
    );
    assert!(!made.text.contains("half the {"), "{}", made.text);
}

#[test]
fn months_and_o_n_are_read() {
    let made = sound("Cake\n\n500 g flour\n300 g water\n\nBake 60 min at 160 C. Keeps 3 months.\n");
    holds(&made, &["keeps 90 days"]);
    let night = sound("Buns\n\n500 g flour\n300 g water\n\nMix 10 min.\nFridge o/n 4C.\n");
    assert!(night.text.contains("wait 8-12 h, at 4 C"), "{}", night.text);
}

/// Parts whose heading says when they are made, whose one ingredient stands first, or which a list names without an amount.
#[test]
fn parts_are_known_by_their_names() {
    let levain = sound(
        "Walnut rye (makes 3 loaves)\n\nLevain (night before): 60g starter, 180 g rye flour, 180g water\n\nDough\n700 g bread flour\n540g water\nall the levain\n22g salt\n",
    );
    holds(&levain, &["part levain", "levain .. all"]);
    assert!(!levain.text.contains("all of what") && levain.text.contains("night before"), "{}", levain.text);
    // What is told below the last list is of the dough that takes the levain, however it is called there.
    for method in [
        "Add levain; mix 5 min. Bulk 4 h at 25 C. Bake 20 min at 250 C.",
        "Autolyse flour and water 1 h.\nAdd levain and salt; mix 5 min.\nBake 20 min at 250 C.",
    ] {
        let list = "Sourdough\n\nLevain\n50 g starter\n100 g flour\n100 g water\n\nDough\n900 g flour\n600 g water\n20 g salt\nlevain\n";
        let told = sound(&format!("{list}\n{method}\n"));
        let (levain, dough) = told.text.split_once("part dough").expect("two parts");
        assert!(
            !levain.contains(": hands") && dough.contains("mix: hands 5 min") && dough.contains("bake: tend"),
            "{}",
            told.text
        );
    }
    let scald = sound("Milk bread\nTZ: 25 g bread flour, 125 g milk\nDough: 475 g bread flour, TZ, 150 g milk\n");
    holds(&scald, &["bread flour .. 475 g", "TZ .. all"]);
    let seeds = sound("Bagels\n1kg flour\n550g water\ntopping: seeds, about 100g\n");
    holds(&seeds, &["part topping", "seeds .. 100 g"]);
}

/// The bake is the time behind an oven that is set, and no rolling; a prove in the fridge is one of its own.
#[test]
fn a_time_by_itself_is_the_ovens() {
    let biscuits = sound(
        "Biscuits\n\n75g wholemeal flour\n40g margarine\n\nOven 180 (160 fan). Rub in, bind, roll 4mm, cut 6cm, 12-15 mins.\n",
    );
    assert!(
        biscuits.text.contains("bake: tend 12-15 min, using oven") && biscuits.text.contains("C or F is not said"),
        "{}",
        biscuits.text
    );
    let bread = sound("Bread\n\n1 kg flour\n600 g water\n\nProve 1h, fridge o/n 4C.\n");
    assert!(
        bread.text.contains("prove: wait 1 h\n") && bread.text.contains("chill: wait 8-12 h, at 4 C"),
        "{}",
        bread.text
    );
    let pie = sound("Pie\n\nCRUST\n5 c. flour\n1 lb. lard\nFILLING\n4 lb apples\n1 1/2 c. sugar\n\n425 degrees 20 minutes, then 350, 40 minutes longer\n").text;
    let last = pie.find("part pie").unwrap_or(usize::MAX);
    assert!(pie.find("425 degrees").is_some_and(|bake| bake > last), "{pie}");
    let oven = sound("Cake\n\n300 g flour\n200 g butter\n\nHeat oven to 425. Mix 5 min. Bake 20-25 min.\n").text;
    assert!(oven.contains("C or F is not said"), "{oven}");
}

/// Two batches are no amount said twice, and pints leave open whose spoons stand beside them.
#[test]
fn another_batch_and_old_spoons_are_marked() {
    let made = sound("Buns\n\nflour 500g (1kg)\nwater 300 g (300 ml)\n");
    assert!(
        line_of(&made.text, "flour ").contains(" 500 g, 1kg ") && line_of(&made.text, "flour ").contains("# look"),
        "{}",
        made.text
    );
    holds(&made, &["water .. 300 g = 300 ml"]);
    let parkin = sound("Parkin\n\n8 oz treacle\n150ml / 5fl oz milk\n1 tsp bicarb\n");
    assert!(line_of(&parkin.text, "measures imperial").contains("15 and 5"), "{}", parkin.text);
}

#[test]
fn what_everyday_notes_say_besides() {
    let made = sound("Teacakes\n\n1 lb strong white flour\n2 oz lard\n\nMakes 8. Bake at 200C for 20 mins.\n");
    holds(&made, &["makes 8 pieces", "bake: tend 20 min, using oven at 200 C"]);
    let list = sound(
        "Quay cake\n\n1 kg flour\n1 kilo and a half of sugar\n250 grs butter\n1 tblsp oil\n(optional) 100 g walnuts\nwater as needed\n",
    );
    holds(
        &list,
        &["sugar .. 1.5 kg", "butter .. 250 g", "oil .. 1 tbsp", "walnuts .. 100 g, optional", "water .. as needed"],
    );
}

#[test]
fn a_table_over_the_numbers_alone_is_one() {
    let batches = sound(
        "Cookies, 48 x 65g\n\n                 1x        2x\nbutter          600 g     1200 g\nflour           920 g     1840 g\n",
    );
    holds(&batches, &["butter .. 600 g", "flour .. 920 g", "divide 48 x 65 g"]);
    let sheet = sound(
        "Ciabatta\n\n                 %        kg\nBiga\nbread flour     30       3.000\nwater           16.5     1.650\n\nDough\nbiga            all\nbread flour     70       7.000\nyeast           .2       0.020\n",
    );
    holds(
        &sheet,
        &["part biga", "part dough", "biga .. all", "bread flour .. 3.000 kg = 30 %", "bread flour .. 7.000 kg = 70 %"],
    );
    let goods = sound("Brownie\n\nIngredient,Weight (g),Supplier\nbutter,350,Metro\neggs,300,\n");
    holds(&goods, &["butter .. 350 g, Metro", "eggs .. 300 g"]);
    holds(&sound("Bread\n\n1 kg flour\nyeast .2%\n"), &["yeast .. 0.2 %"]);
}
