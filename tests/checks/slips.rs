//! Slips of the pen that were passed over once or told several times, and what is right and was told. The figures of the trade are common
//! practice, no source; the amounts are invented.

use super::problems_of;

const SOUR: &str = "recipe Black rye\nmakes 4 loaves\npart first sour\nwhole rye flour .... 200 g\nwater .... 200 g, at 30 C\nsour: hands 5 min\n    Mix {whole rye flour} and \
                    {water}.\nripen: wait 6 h, at 27 C\n    until cracked on top\npart dough\nwhole rye flour .... 1.2 kg\nrye malt .... 50 g, counts as flour\nfirst sour .... all\nwater .... 900 g\nsalt .... 25 g\nmix: \
                    hands 10 min\n    Mix {first sour}, {whole rye flour}, {rye malt}, {water} and {salt}.\n    until an even paste\nbulk: wait 45 min, at 30 C\nbake: tend 60 min, using oven at \
                    220 C\n    until the middle is at {97 C}\n";

const FOCACCIA: &str = "recipe Slab focaccia\nmakes 4 slabs, sheet 60 cm x 40 cm\nstrong white flour .... 100 %\nwater .... 78 %\nolive oil .... 5 %\nsalt .... 2.2 %\nfresh yeast .... 1 %\n\
                        divide 4 x 2.4 kg, loss 1 %\nmix: hands 12 min\n    Mix {strong white flour}, {water}, {olive oil}, {salt} and {fresh yeast}.\n    until smooth\nrise: wait 3 h, at 24 C\n\
                        bake: tend 24-26 min, using oven at 240 C\n    until brown\n";

const CREAM: &str = "recipe Pastry cream\nmakes 1.44 kg, loss 4 %\nwhole milk .... 1 kg\negg yolk .... 160 g\ncaster sugar .... 200 g\ncornflour .... 80 g\nbutter .... 60 g\nvanilla pod .... 1\n\
                     cook: tend 15 min, using hob\n    Cook {whole milk}, {egg yolk}, {caster sugar}, {cornflour}, {butter} and {vanilla pod}.\n    until it bubbles for {1 min}\n";

const ALL_TAKEN: &str = "recipe Batons\nmakes 10 batons\npart biga, from dough\nstrong white flour .... 40 %\nwater .... 24 %\ninstant yeast .... 0.5 %\nmix: hands 5 min\n    Mix \
                         {strong white flour}, {water} and {instant yeast}.\n    until just together\nferment: wait 14 h, at 18 C\npart dough\nstrong white flour .... 1 kg\nwater .... 68 %\n\
                         salt .... 2 %\ninstant yeast .... 0.5 %\nmix: hands 10 min\n    Mix {biga}, {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 1 h, at \
                         25 C\nbake: tend 20 min, using oven at 240 C\n    until brown\n";

const SEEDED: &str = "recipe Milk rolls\nmakes 12 rolls\nchoose seeds: plain or poppy\npart dough\nstrong white flour .... 500 g\nwhole milk .... 330 g\nsalt .... 9 g\ninstant yeast .... 6 g\ndivide 12 x \
                      70 g, loss 0.6 %\nmix: hands 10 min\n    Mix {strong white flour}, {whole milk}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 1 h, at 25 C\npart rolls\nper piece\ndough .... 1 \
                      piece\npoppy seeds .... 2 g [poppy]\nshape: hands 15 s, each\nprove: wait 45 min, at 27 C\nstrew: hands 5 s, each [poppy]\n    Strew with {poppy seeds}.\nbake: tend 14 min, using \
                      oven at 220 C\n    Bake {dough}.\n    until gold\n";

const ROLLS: &str = "recipe Lean rolls\nmakes 20 rolls\nstrong white flour .... 1 kg\nwater .... 640 g\nsalt .... 20 g\ninstant yeast .... 10 g\ndivide 20 x 82 g, loss 1.8 %\nmix: hands 10 min\n    Mix \
                     {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 50 min, at 26 C\n    until doubled\nround: hands 10 s, each\nprove: wait 45 min, at 28 C\n    until a \
                     dent stays\nbake: tend 16 min, using oven at 230 C\n    until brown\n";

const MERINGUE: &str = "recipe Meringues\nmakes 40 meringues\negg white .... 400 g\ncaster sugar .... 800 g\ndivide 40 x 29 g, loss 3.4 %\nwhisk: hands 10 min\n    Whisk {egg white} with {caster sugar}.\n    until stiff\nbake: \
                        tend 100 min, using oven at 100 C\n    until they lift off\n";

const BATTER: &str = "recipe Yorkshire puddings\nmakes 12 puddings\nplain flour .... 150 g\negg .... 250 g\nwhole milk .... 250 g\nsalt .... 3 g\nwhisk: hands 5 min\n    Whisk {plain flour}, {egg}, {whole milk} and {salt}.\n    until like thin \
                      cream\nrest: wait 1 h, up to 12 h, at 4 C\nbake: tend 22 min, using oven at 220 C\n    until tall and brown\n";

const COOKIE_DOUGH: &str = "recipe Biscuit dough\nmakes 1.2 kg\ndirections Bake 12 min at 180 °C.\nplain flour .... 600 g\nbutter .... 400 g\ncaster sugar .... 200 g\nmix: hands 8 min\n    Mix {plain flour}, {butter} and {caster \
                            sugar}.\n    until even\nchill: wait 1 h, at 4 C\n";

const CURD_TART: &str = "recipe Curd tart\nmakes 1 tart\npart pastry\nplain flour .... 250 g\nbutter .... 125 g\nwater .... 60 g\nrub: hands 8 min\n    Rub {butter} into {plain flour}; bind with {water}.\n    until it holds\npart \
                         curd\nlemon juice .... 200 g\negg .... 200 g\ncaster sugar .... 200 g\ncook: tend 12 min, using hob\n    Stir {lemon juice}, {egg} and {caster sugar}.\n    until {82 C}\npart tart\npastry .... all\ncurd .... \
                         all\negg white .... 20 g\nicing sugar .... 20 g\nroll: hands 10 min\n    Roll {pastry} to {3 mm} and line a ring.\nbrush: hands 1 min\n    Brush {pastry} with {egg white}.\nbake: tend 20 min, using oven at \
                         180 C\n    until gold\nfill: hands 3 min\n    Pour in {curd}; dust with {icing sugar}.\n";

const BUTTERCREAM: &str = "recipe Italian meringue buttercream\nmakes 3 kg, loss 7 %\negg white .... 500 g\ncaster sugar .... 1 kg\nwater .... 300 g\nbutter .... 1.4 kg, soft\nsyrup: tend 10 min, using hob\n    Boil {caster sugar} and \
                           {water} to {119 C}.\n    until {119 C}\nwhisk: hands 12 min\n    Whisk {egg white}; pour in the syrup and whisk until cool.\n    until cool\nbutter: hands 8 min\n    Beat in {butter}.\n    until smooth\n";

const GENOISE: &str = "recipe Genoise\nmakes 1 cake, round 23 cm x 8 cm\negg .... 300 g\ncaster sugar .... 180 g\nplain flour .... 180 g\nbutter .... 60 g, melted\ndivide 1 x 712 g, loss 1.1 %\nwhisk: hands 15 min\n    Whisk {egg} and {caster sugar}.\n    until pale and \
                       tripled\nfold: hands 4 min\n    Fold in {plain flour} and {butter}.\n    until even\nbake: tend 30 min, using oven at 175 C\n    until springy\n";

const GLAZED: &str = "recipe Glazed loaf\nmakes 1 loaf\nstrong white flour .... 500 g\nwater .... 320 g\nsalt .... 9 g\ninstant yeast .... 5 g\negg white .... 30 g, aside\nmix: hands 10 min\n    Mix {strong white flour}, {water}, {salt} and \
                      {instant yeast}.\n    until smooth\nrise: wait 1 h, at 25 C\n    until doubled\nshape: hands 1 min\n    Shape; brush with {egg white}.\nprove: wait 50 min, at 26 C\n    until a dent stays\nbake: tend 35 min, \
                      using oven at 240 C then 190 C after 10 min\n    until brown\n";

fn told(text: &str) -> String {
    super::told(&problems_of(text))
}

fn checks_of(text: &str) -> Vec<&'static str> {
    problems_of(text).iter().map(|problem| problem.check).collect()
}

/// A recipe, what in it is exchanged for what, and the check that sees the slip and is silent without it.
const SLIPS: &[(&str, &str, &str, &str)] = &[
    // A black rye whose starter line is gone rises of nothing, whatever its stages are called.
    (SOUR, "", "", "no-leaven"),
    (FOCACCIA, "olive oil .... 5 %", "olive oil .... 50 %", "odd-percent"),
    // One pod of 10 g at most does not make good what is short.
    (CREAM, "cornflour .... 80 g", "cornflour .... 8 g", "yield-does-not-add-up"),
    (CREAM, "egg yolk .... 160 g", "egg yolk .... 16 g", "yield-does-not-add-up"),
    (ALL_TAKEN, "", "", "used-up"),
    (ROLLS, "instant yeast .... 10 g", "instant yeast .... 25 g", "odd-percent"),
    (MERINGUE, "tend 100 min", "tend 10 min", "odd-bake-time"),
    (MERINGUE, "at 100 C", "at 200 C", "odd-bake-time"),
    (ROLLS, "makes 20 rolls", "makes 2 l", "wrong-kind"),
    (ROLLS, "makes 20 rolls", "makes 2 kilos", "wrong-kind"),
    (ROLLS, "using oven at 230 C", "using oven 230", "wrong-kind"),
    (ROLLS, "using oven at 230 C", "using oven 230 degrees", "wrong-kind"),
    (ROLLS, "using oven at 230 C", "using oven (230 C)", "wrong-kind"),
    (ROLLS, "using oven at 230 C", "using oven 220-230 C", "wrong-kind"),
    (ROLLS, "using oven at 230 C", "using oven @ 230 C", "wrong-kind"),
    (ROLLS, "using oven at 230 C", "using oven gas 8", "wrong-kind"),
    (ROLLS, "using oven at 230 C", "using oven gas mark 8", "wrong-kind"),
    (FOCACCIA, "makes 4 slabs, sheet 60 cm x 40 cm", "makes 4 loaves", "odd-bake-time"),
    (ROLLS, "prove: wait 45 min, at 28 C\n    until a dent stays\n", "", "no-prove"),
    // A dough in pieces that are topped in a part of their own has its salt or has none.
    (SEEDED, "salt .... 9 g\n", "", "no-salt"),
    (ROLLS, "round: hands 10 s, each", "round: hands 10 s, each\n    Round up at {8.2 g}.", "changed-piece-weight"),
    (FOCACCIA, "olive oil .... 5 %", "olive oil .... 5 %\nrapeseed oil .... 60 kg, aside", "out-of-proportion"),
    (ROLLS, "    until smooth\nrise", "    Knead {8 s}.\n    until smooth\nrise", "times-do-not-add-up"),
    (
        COOKIE_DOUGH,
        "recipe Biscuit dough\nmakes 1.2 kg\ndirections Bake 12 min at 180 °C.",
        "recipe Edible biscuit dough\nmakes 1.2 kg",
        "raw-flour-or-egg",
    ),
    (COOKIE_DOUGH, "directions Bake 12 min at 180 °C.", "directions Eat as it is, with a spoon.", "raw-flour-or-egg"),
    (CURD_TART, "Roll {pastry}", "Roll {curd}", "odd-method"),
    (CURD_TART, "Brush {pastry} with {egg white}", "Brush {pastry} with {icing sugar}", "odd-method"),
    (
        ROLLS,
        "round: hands 10 s, each",
        "round: hands 10 s, each\n    Weigh into pieces of {8.2 g}.",
        "changed-piece-weight",
    ),
    (
        ROLLS,
        "round: hands 10 s, each",
        "round: hands 10 s, each\n    Divide into pieces, {8.2 g} each.",
        "changed-piece-weight",
    ),
    (ROLLS, "round: hands 10 s, each", "round: hands 10 s, each\n    Cut into {8.2 g} pieces.", "changed-piece-weight"),
    // A syrup that stood is cold, what is poured into pots is not poured onto the egg, and a loaf with a glaze of egg white is no foam.
    (BUTTERCREAM, "whisk: hands", "cool: wait 3 h, at 20 C\nwhisk: hands", "raw-flour-or-egg"),
    (BUTTERCREAM, "pour in the syrup", "pour in the cold syrup", "raw-flour-or-egg"),
    (BUTTERCREAM, "pour in the syrup and whisk", "pour into pots and whisk", "raw-flour-or-egg"),
    (GENOISE, "23 cm x 8 cm", "23 cm x 2.3 cm", "tin-fill"),
    (GLAZED, "then 190 C", "then 24 C", "odd-temperature"),
    // Egg and milk in the warmth of a hot place for half a day.
    (BATTER, "at 4 C", "at 40 C", "left-warm"),
];

#[test]
fn slips_that_were_passed_over_are_told() {
    for (text, right, wrong, check) in SLIPS {
        assert!(checks_of(&text.replace(right, wrong)).contains(check), "{check} of `{wrong}`: {}", told(text));
        if !right.is_empty() {
            assert!(!checks_of(text).contains(check), "{check}: {}", told(text));
        }
    }
}

#[test]
fn what_is_right_was_told_once() {
    // A culture that is kept is flour and water on paper, and so is one that is seeded.
    for kept in ["feed: hands 5 min", "mix: hands 5 min\n    Feed the starter."] {
        let text = SOUR.replace("first sour", "levain").replace("sour: hands 5 min", kept);
        assert!(!checks_of(&text).contains(&"no-leaven"), "{}", told(&text));
    }
    let forgotten = SOUR.replace("first sour", "levain").replace("sour: hands 5 min", "mix: hands 5 min");
    assert!(checks_of(&forgotten).contains(&"no-leaven"), "{}", told(&forgotten));
    let seeded = SOUR.replace("water .... 200 g, at 30 C\n", "water .... 200 g, at 30 C\nrye starter .... 20 g\n");
    assert!(!checks_of(&seeded).contains(&"no-leaven"), "{}", told(&seeded));
    // The piece is there before what is strewn on it, and plain is what has nothing on it.
    for check in ["out-of-order", "unlike-choices"] {
        assert!(!checks_of(SEEDED).contains(&check), "{check}: {}", told(SEEDED));
    }
    let less = ALL_TAKEN.replacen("instant yeast .... 0.5 %", "instant yeast .... 0.1 %", 1);
    assert!(!checks_of(&less).contains(&"used-up"), "{}", told(&less));
}

/// A caution answers for what it names: raw egg is no raw salmon. The fish was frozen before, since worms in it are another question that no such
/// caution answers.
#[test]
fn a_caution_answers_for_no_other_food() {
    let tartare = |caution: &str| {
        format!(
            "recipe Salmon tartare\nmakes 4 portions\nsalmon fillet .... 600 g, diced, frozen before\negg yolk .... 60 g\ncaution {caution}\nmix: hands 5 min\n    Mix {{salmon fillet}} and {{egg yolk}}.\n    until even\nserve: hands 2 min\n    Serve \
             cold.\n"
        )
    };
    for (caution, raw_meat, raw_egg) in [
        ("Raw egg: not for children.", true, false),
        ("Contains raw nuts.", true, true),
        ("Contains raw salmon and raw egg: not for pregnant women.", false, false),
        ("Served raw.", false, false),
        ("The salmon is eaten raw.", false, false),
    ] {
        let checks = checks_of(&tartare(caution));
        assert_eq!(checks.contains(&"raw-meat"), raw_meat, "{caution}: {checks:?}");
        assert_eq!(checks.contains(&"raw-flour-or-egg"), raw_egg, "{caution}: {checks:?}");
    }
}

fn with_water(name: &str, amount: &str) -> String {
    format!(
        "recipe Rolls\nflour .... 500 g\n{name} .... {amount}\nsalt .... 9 g\nmix: hands 10 min\n    Mix {{flour}}, {{{name}}} and {{salt}}.\n    until smooth\n"
    )
}

/// However a temperature or an amount is typed, it is one, and counts in no sum where it stands.
#[test]
fn what_counts_in_no_sum_is_told_however_it_is_typed() {
    for name in [
        "water 30 C",
        "water at 30C",
        "water (30 C)",
        "water at 30 °C",
        "50g apple",
        "1/2 cup apple",
        "50-60 g apple",
        "apple 50 g",
    ] {
        let text = with_water(name, "300 g");
        assert!(checks_of(&text).contains(&"near-clause"), "{name}: {}", told(&text));
    }
    for (clause, mend) in [
        ("30 degrees C", Some("at 30 C")),
        ("30 celsius", Some("at 30 C")),
        ("30 C warm", Some("at 30 C")),
        ("about 30 C", Some("at 30 C")),
        ("86F", Some("at 86 F")),
        // Sums are done with one temperature, and nobody but the writer knows which.
        ("28–30 C", None),
        ("28-30 C", None),
        ("kept aside", Some("aside")),
        ("left aside", Some("aside")),
        ("asied", Some("aside")),
        ("optionally", Some("optional")),
        ("loss 20 %", Some("yield 80 %")),
        ("yield of 80 %", Some("yield 80 %")),
        ("yeild 80 %", Some("yield 80 %")),
        ("counts as flower", Some("counts as flour")),
    ] {
        let text = with_water("water", &format!("300 g, {clause}"));
        let problems = problems_of(&text);
        let problem = problems.iter().find(|problem| problem.check == "near-clause");
        let problem = problem.unwrap_or_else(|| panic!("{clause}: {}", told(&text)));
        let written = problem.mend.as_ref().and_then(|mend| mend.edits.first()).map(|edit| edit.text.as_ref());
        assert_eq!(written, mend, "{clause}");
        // What is offered is understood.
        if let Some(mend) = mend {
            let mended = with_water("water", &format!("300 g, {mend}"));
            let told = problems_of(&mended);
            assert!(
                !told.iter().any(|problem| ["near-clause", "wrong-kind", "stray-line"].contains(&problem.check)),
                "{mend}: {told:?}"
            );
        }
    }
    for right in [
        "side",
        "from stock",
        "a side, skinned",
        "warm",
        "cut in 2 cm cubes",
        "at 30 C",
        "in 3 l of stock",
        "baked at 180 C",
    ] {
        let text = with_water("water", &format!("300 g, {right}"));
        assert!(!checks_of(&text).contains(&"near-clause"), "{right}: {}", told(&text));
    }
    for right in ["type 55 flour", "00 flour", "cream 35 %", "5 spice", "chocolate 70 %"] {
        let text = with_water(right, "300 g");
        assert!(!checks_of(&text).contains(&"near-clause"), "{right}: {}", told(&text));
    }
}

/// A second amount is never mended with a comma, behind which it is in no sum.
#[test]
fn a_second_amount_on_a_line_is_told_and_not_made_a_preparation() {
    let helps = |amount: &str| {
        let problems = problems_of(&with_water("water", amount));
        let problem = problems.into_iter().find(|problem| problem.check == "stray-line");
        let problem = problem.unwrap_or_else(|| panic!("{amount} is passed over"));
        assert!(problem.mend.is_none(), "{amount}: {problem:?}");
        problem.help.unwrap_or_default()
    };
    for added in ["600 g + 50 g", "600 g plus 50 g for the tins", "600 g and 50 g"] {
        assert!(helps(added).contains("add the two up"), "{added}: {}", helps(added));
    }
    for again in ["600 g .... 60 %", "600 g / 60 %", "600 g (60 %)"] {
        assert!(helps(again).contains("`600 g = 60 %`"), "{again}: {}", helps(again));
    }
}

/// One letter is an error where a step asks for what is not listed, and its mend is of the word that is wrong.
#[test]
fn a_misspelt_name_is_mended_where_it_stands() {
    let text = with_water("water", "300 g").replacen("\nwater ....", "\nwatr ....", 1);
    let problems = problems_of(&text);
    let told_of = |check: &str| problems.iter().find(|problem| problem.check == check);
    let listed = text.find("watr").expect("it is there");
    for check in ["unknown-name", "near-name"] {
        let edit = &told_of(check).and_then(|problem| problem.mend.as_ref()).expect("a mend").edits[0];
        assert_eq!((edit.text.as_ref(), edit.span.start as usize), ("water", listed), "{check} mends the list");
    }
    assert_eq!(problems.len(), 2, "{}", told(&text));
}

/// What British cookbooks print in their first pages passes, and a slip of a digit or a mark beside it does not.
#[test]
fn pairs_of_british_cookbooks_pass_and_slips_in_them_do_not() {
    let apart = |amount: &str| {
        let text = format!("recipe Pair\nmeasures imperial\nwhole milk .... {amount}\n");
        problems_of(&text).iter().any(|problem| problem.check == "two-amounts-disagree")
    };
    for right in [
        "150 ml = 1/4 pt",
        "300 ml = 1/2 pt",
        "600 ml = 1 pt",
        "1/2 pt = 300 ml",
        "25 ml = 1 fl oz",
        "1.2 l = 2 pt",
        "25 g = 1 oz",
        "900 g = 2 lb",
    ] {
        assert!(!apart(right), "{right}");
    }
    for wrong in [
        "300 ml = 1/4 pt",
        "200 ml = 1/2 pt",
        "250 g = 1 oz",
        "75 g = 2 oz",
        "175 g = 7 oz",
        "450 g = 2 lb",
        "2.5 g = 1 oz",
        "26 g = 1 oz",
    ] {
        assert!(apart(wrong), "{wrong}");
    }
}

/// What a mend of heat in a name offers is understood.
#[test]
fn heat_in_the_name_of_an_oven_is_mended_once() {
    for (written, meant) in [
        ("oven gas 8", "oven at 450 F"),
        ("oven gas mark 8", "oven at 450 F"),
        ("oven @ 230 C", "oven at 230 C"),
        ("oven (230C)", "oven at 230 C"),
        ("deck oven 220-230 C", "deck oven at 220-230 C"),
    ] {
        let text = ROLLS.replace("oven at 230 C", written);
        let problems = problems_of(&text);
        let mends =
            || problems.iter().filter_map(|problem| problem.mend.as_ref()).filter_map(|mend| mend.edits.first());
        assert!(mends().any(|edit| edit.text == meant), "{written}: {problems:?}");
        assert!(!checks_of(&ROLLS.replace("oven at 230 C", meant)).contains(&"wrong-kind"), "{meant}");
    }
}

/// The milk and the wheat of a dough from another file surprise nobody; the sesame in it does.
#[test]
fn only_what_is_hidden_in_a_dough_of_another_file_is_told() {
    let day = |seeds: &str| {
        format!(
            "recipe Rolls\nmakes 10 rolls\nuse \"dough.miche\"\nper piece\nmilk dough .... 80 g\nshape: hands 10 s, each\n    Shape {{milk dough}}.\n=== dough.miche ===\nrecipe Milk dough\nmakes 1.6 kg\n\
             plain flour .... 1 kg\nwhole milk .... 500 g\negg .... 50 g\n{seeds} .... 50 g\nmix: hands 10 min\n    Mix {{plain flour}}, {{whole milk}}, {{egg}} and {{{seeds}}}.\n    until smooth\n"
        )
    };
    assert!(!checks_of(&day("butter")).contains(&"hidden-allergen"), "{}", told(&day("butter")));
    let problems = told(&day("sesame seeds"));
    assert!(problems.matches("hidden-allergen").count() == 1 && problems.contains("sesame"), "{problems}");
}

/// What a block of one's own leaves open comes from the larder below: milk by the litre (USDA SR28: 244 g a cup) and eggs by the piece.
#[test]
fn a_price_by_the_litre_or_the_piece_takes_the_weight_from_the_larder_below() {
    let priced = |block: &str| problems_of(&format!("{block}\n")).iter().any(|problem| problem.check == "no-weight");
    assert!(!priced("ingredient whole milk\ncosts 1.05 EUR per l"));
    assert!(!priced("ingredient egg\ncosts 0.22 EUR per piece"));
    assert!(!priced("ingredient gull's sorrel\ncosts 2 per piece\none weighs 20 g"), "below the price is as good");
    assert!(priced("ingredient gull's sorrel\ncosts 2 per piece"));
}

/// Marks that are none of an amount are told as what they are.
#[test]
fn a_point_behind_a_unit_is_told() {
    let mend = |amount: &str| {
        let problems = problems_of(&with_water("water", amount));
        let problem = problems.into_iter().find(|problem| problem.check == "stray-line");
        let problem = problem.unwrap_or_else(|| panic!("{amount} is passed over"));
        (problem.help.unwrap_or_default(), problem.mend.map(|mend| mend.edits[0].text.to_string()))
    };
    assert_eq!(mend("12 oz."), ("leave the point out".to_owned(), Some(String::new())));
    assert!(mend("1 lb + 2 oz").0.contains("`1 lb 2 oz`"), "{}", mend("1 lb + 2 oz").0);
}

/// Digits in groups are one number that nobody can compute with, however they are parted (BIPM, SI Brochure 9, 5.4.4, from memory: a thin space
/// parts groups of three); the mend keeps the unit. One problem is told and not two.
#[test]
fn digits_in_groups_and_points_without_digits_are_told_with_their_number() {
    let told = |amount: &str| {
        let mut problems = problems_of(&with_water("water", amount));
        problems.retain(|problem| problem.severity != miche::text::diagnostic::Severity::Advice);
        let all: Vec<(&str, String)> = problems
            .into_iter()
            .map(|problem| {
                (problem.check, problem.mend.map_or_else(String::new, |mend| mend.edits[0].text.to_string()))
            })
            .collect();
        all
    };
    for (amount, check, number) in [
        ("1 000 g", "decimal-comma", "1000"),
        ("1 500 g", "decimal-comma", "1500"),
        ("10 000 g", "decimal-comma", "10000"),
        ("1 000 000 mg", "decimal-comma", "1000000"),
        ("1\u{a0}500 g", "decimal-comma", "1500"),
        ("1'000 g", "decimal-comma", "1000"),
        ("1’000 g", "decimal-comma", "1000"),
        ("1_000 g", "decimal-comma", "1000"),
        ("1.000,5 g", "decimal-comma", "1000.5"),
        ("1 000,5 g", "decimal-comma", "1000.5"),
        ("1. kg", "impossible-number", "1"),
        ("1.kg", "impossible-number", "1"),
        ("5. %", "impossible-number", "5"),
    ] {
        assert_eq!(told(amount), [(check, number.to_owned())], "{amount}");
    }
    for amount in ["1 1/2 kg", "1.5 kg", "1000 g", "1 lb 2 oz", "2 ½ l"] {
        assert!(
            !told(amount).iter().any(|(check, _)| ["decimal-comma", "impossible-number"].contains(check)),
            "{amount}"
        );
    }
}

/// What was told of `slipped` and is right: the words of a step, a pack, a baker's own mark.
#[test]
fn what_only_looks_like_a_slip_is_not_told() {
    let sachet =
        ROLLS.replace("1 kg", "300 g").replace("640 g", "190 g").replace("20 g\n", "6 g\n").replace("10 g\n", "7 g\n");
    assert!(!checks_of(&sachet).contains(&"odd-percent"), "{}", told(&sachet));
    let own = ROLLS.replace("rise:", "# look at the crumb of the first one\nrise:");
    assert!(!checks_of(&own).contains(&"look-mark"), "{}", told(&own));
    let jam = ROLLS.replace("round: hands 10 s, each", "round: hands 20 s, each\n    Fill with {8.2 g} each of jam.");
    assert!(!checks_of(&jam).contains(&"changed-piece-weight"), "{}", told(&jam));
    let ten = ROLLS.replace("round: hands 10 s, each", "round: hands 20 s, each\n    Scale at {820 g}.");
    assert!(checks_of(&ten).contains(&"changed-piece-weight"), "{}", told(&ten));
    let larder = |fact: &str| format!("kitchen House\ningredient seed cake\n{fact}\n");
    for (fact, is_told) in [
        ("fat 10 %\nsaturates 10.1 %", false),
        ("fat 1 %\nsaturates 10 %", true),
        ("costs 4.50 EUR per 25 g", false),
        ("costs 1.20 EUR per g", true),
    ] {
        assert_eq!(
            checks_of(&larder(fact)).iter().any(|check| ["impossible-number", "odd-amount"].contains(check)),
            is_told,
            "{fact}"
        );
    }
}
