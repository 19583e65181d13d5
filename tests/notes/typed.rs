//! Notes as people type them, in which a trial user found a figure that was wrong and looked sure. Each test is of the kind that was wrong.

use super::told::{ends, gives, line_of};
use super::{draft, holds, sound};

fn listed(lines: &str) -> String {
    sound(&format!("Quay bake\n\n{lines}\n")).text
}

/// What is sold by what it holds; the shares are those of common goods, from memory.
#[test]
fn a_share_that_does_not_fit_the_flour_is_what_the_thing_holds() {
    let text = listed(
        "cream 35%   ........  500 ml\nheavy cream (36%) 400 g\ncider vinegar (5%) 250 ml\n100 g dark chocolate (70%)\n\
         rum 40% 30 ml\nmilk (3.5%) 1 l\n| buttermilk | 1 % | 200 g |\nbeef mince 500 g (5%)",
    );
    ends(
        &text,
        &[
            ("cream ", "500 ml, of 35 %"),
            ("heavy cream ", "400 g, of 36 %"),
            ("cider vinegar ", "250 ml, of 5 %"),
            ("dark chocolate ", "100 g, of 70 %"),
            ("rum ", "30 ml, of 40 %"),
            ("milk ", "1 l, of 3.5 %"),
            ("buttermilk ", "200 g, of 1 %"),
            ("beef mince ", "500 g, of 5 %"),
        ],
    );
    // What holds it or goes in by it nobody knows.
    let text = listed("80 g peanut butter (100%)\n100 g honey");
    assert!(line_of(&text, "peanut butter ").contains("80 g, 100 % "), "{text}");
    assert!(line_of(&text, "peanut butter ").contains("# look (100 % of what?"), "{text}");
}

/// Sums by hand: 10 of 500 g is 2 %, 250 of 500 is 50 %.
#[test]
fn a_share_that_fits_the_flour_is_counted_by_it() {
    let text = listed(
        "flour 500 g (100%)\nwater 250 g (50%)\nmilk 15 g (3%)\nvinegar (5%) 100 ml\ncream (35%) 50 g\nsalt 10 g (2%)",
    );
    ends(
        &text,
        &[
            ("flour ", "500 g = 100 %"),
            ("water ", "250 g = 50 %"),
            ("milk ", "15 g = 3 %"),
            ("vinegar ", "100 ml, of 5 %"),
            ("cream ", "50 g, of 35 %"),
            ("salt ", "10 g = 2 %"),
        ],
    );
    // Of two flours both are the base, and a slip in a table is marked and left for the checks.
    let text = listed("strong flour 800 g (80%)\nrye flour 200 g (20%)\nwater 700 g (70%)\nraisins 300 g (20%)");
    assert!(line_of(&text, "water ").ends_with("700 g = 70 %"), "{text}");
    assert!(line_of(&text, "raisins ").contains("300 g = 20 %") && text.contains("by the flour it is 30 %"), "{text}");
    // A share of 100 % of a levain is how wet it is.
    let text = listed("flour 1 kg\nlevain 200 g (100%)");
    assert!(line_of(&text, "levain ").contains("200 g, of 100 %") && text.contains("how wet it is"), "{text}");
    // The base of a custard is its milk.
    let text = listed("water 1000 g (100%)\nyolk 200 g (20%)\nhoney 250 g (25%)");
    assert!(line_of(&text, "honey ").ends_with("250 g = 25 %"), "{text}");
    // Alone on a line among weights.
    assert!(line_of(&listed("sugar 100 g\ncream 35 %"), "cream ").contains("# look (what it holds"), "alone");
}

#[test]
fn a_heading_above_the_name_of_a_part_is_a_heading() {
    for (mark, part, below) in [("", "sour", ""), ("> ", "sour", ""), ("", "Sour", "(all)"), ("", "all the sour", "")] {
        let below = if below.is_empty() { part.to_owned() } else { format!("{part} {below}") };
        let notes = format!(
            "The rye\n\nSour\n400 g wholemeal rye\n320 g water\nleave 14-16 h at 24 C\n\nDough\n{below}\n450 g rye flour\n18 g salt\n\nMix 6 min.\n"
        );
        let notes: String = notes.lines().map(|line| format!("{mark}{line}\n")).collect();
        let text = sound(&notes).text;
        let (sour, dough) = text.split_once("\npart dough\n").unwrap_or_else(|| panic!("no dough in\n{text}"));
        assert!(sour.contains("wholemeal rye ..") && !sour.contains("salt"), "{text}");
        assert!(dough.contains("sour ..") && dough.contains("450 g") && dough.contains("18 g"), "{text}");
        assert!(line_of(dough, "sour ").contains(" all "), "{text}");
    }
    // Nobody says whose the second list is: it is not the sour's.
    let text = sound("The rye\n\nSour\n400 g rye flour\n320 g water\nleave 14-16 h at 24 C\n\n450 g rye flour\n18 g salt\n\nMix 6 min.\n").text;
    let sour = text.split("\npart ").nth(1).unwrap_or_default();
    assert!(!sour.contains("salt") && text.contains("# look (the notes give this part no name"), "{text}");
}

#[test]
fn what_stays_out_of_a_part_is_no_amount_of_it() {
    for line in [
        "all the sour minus 40 g for next time",
        "all the sour except 40 g",
        "all but 40 g of the sour",
        "sour, less 40 g",
        "sour (all but 40 g)",
    ] {
        let text = sound(&format!(
            "The rye\n\nSour\n400 g rye flour\n320 g water\nleave 14-16 h at 24 C\n\nDough\n{line}\n450 g rye flour\n18 g salt\n\nMix 6 min.\n"
        ))
        .text;
        let dough = text.split("\npart dough\n").nth(1).unwrap_or_else(|| panic!("no dough in\n{text}"));
        let sour = line_of(dough, "sour ");
        assert!(sour.contains(". all,") && sour.contains("# look (some of it stays out"), "{line}\n{text}");
    }
    let text =
        sound("The rye\n\nSour\n400 g rye flour\n320 g water\n\nDough\n700 g of the sour\n450 g rye flour\n").text;
    assert!(line_of(&text, "sour .").ends_with(" 700 g"), "{text}");
    // An amount behind `less` is none of what stands before it.
    for line in ["milk less 20 g", "milk plus 20 g", "milk without 20 g"] {
        let text = listed(&format!("1 kg flour\n{line}"));
        let mark = text.lines().find(|said| said.contains(line)).unwrap_or_default();
        assert!(mark.contains("# look"), "{line}\n{text}");
        assert!(!text.contains(".. 20 g\n"), "{line}\n{text}");
    }
}

/// How times are typed at the bench and on a telephone. Common practice, no source.
#[test]
fn no_time_is_cut() {
    let told = |line: &str| sound(&format!("Quay loaf\n\n1 kg flour\n650 g water\n\n{line}\n")).text;
    gives(
        told,
        &[
            ("prove 1h45 26C", "prove: wait 1 h 45 min, at 26 C"),
            ("prove 2h30 27 deg", "prove: wait 2 h 30 min"),
            ("prove 1h45, 75% rh", "prove: wait 1 h 45 min"),
            ("bake 45m at 200C", "bake: tend 45 min, using oven at 200 C"),
            ("bake 40-45m", "bake: tend 40-45 min"),
            ("rest 1h 20m", "rest: wait 1 h 20 min"),
            ("Rest an hour or two.", "rest: wait 1-2 h"),
            ("Bake 20 min or 30.", "bake: tend 20-30 min"),
            ("Rest an hour and a quarter.", "rest: wait 1.25 h"),
            ("Rest 2 hours and a half.", "rest: wait 2 h 30 min"),
            ("Rest three quarters of an hour.", "rest: wait 45 min"),
            ("Rest a quarter of an hour.", "rest: wait 15 min"),
            ("bake 180/15 min", "bake: tend 15 min"),
            ("Let it rise for 1h30. Then shape.", "rise: wait 1 h 30 min"),
            ("Bake at 160 C for 2h15.", "bake: tend 2 h 15 min, using oven at 160 C"),
            ("Bake at 160 C for 1h05, then cool.", "bake: tend 1 h 5 min, using oven at 160 C"),
            ("Bake for 50 mins – 1 hour.", "bake: tend 50-60 min"),
            ("Rise 45 min to 1 h 15 at 25 C.", "rise: wait 45-75 min, at 25 C"),
            ("Rise 1 hour 30 minutes at 25 C.", "rise: wait 1 h 30 min, at 25 C"),
            ("Bake 1 1/2 h - 2 h.", "bake: tend 90-120 min"),
            ("dough rises 1 h", "rise: wait 1 h"),
            ("220C 12 min", "bake: tend 12 min, using oven at 220 C"),
            ("220C 12m", "bake: tend 12 min, using oven at 220 C"),
            ("Rest 1/2 h.", "rest: wait 1/2 h"),
            ("Rest 1 x 20 min.", "rest: wait 20 min"),
        ],
    );
    for line in [
        "mix 3 + 5 mins",
        "Mix 3+3 min.",
        "mix 5/3 min",
        "rest 2 x 20 min",
        "mix 4 min slow + 6 min fast",
        "mix 2+2+4 min",
    ] {
        let text = told(line);
        assert!(
            text.contains("# look (several times are said") && text.contains(&format!("note {line}")),
            "{line}\n{text}"
        );
    }
    let mark = "# look (the time is said for one side or load";
    gives(
        told,
        &[
            ("bake 12-15 mins each side", mark),
            ("griddle 3 min per side", mark),
            ("fry 2 min a side", mark),
            ("bake 20 min per tray", mark),
        ],
    );
}

#[test]
fn a_sentence_without_a_verb_is_told_in_its_own_words() {
    let told = |line: &str| sound(&format!("Quay cookies\n\n200 g flour\n100 g butter\n\n{line}\n")).text;
    for (line, wanted, not) in [
        ("Rest 1 h. 200C 10 mins.", "bake: tend 10 min, using oven at 200 C\n    {200 C} 10 mins.", "Rest {200"),
        ("Prove 1 h. 220 C for 30 min until brown.", "bake: tend 30 min, using oven at 220 C", "second prove"),
        ("Chill 20–30 min. 12 min/180º.", "bake: tend 12 min, using oven\n", "Chill 12"),
        ("rest 1 hr. 450F stone 3 min", "bake: tend 3 min, using oven at 450 F\n", "Rest {450"),
        ("Chill 30 min. 12 min.", "note 12 min.", "Chill 12"),
        ("375° 9 to 11 min.", "bake: tend 9-11 min, using oven\n", "\nnote "),
        ("4C 16h", "# look (not understood): 4C 16h", "c: "),
        (
            "Bake at 230C for 20 min, then at 180C for 60 min.",
            "second bake: tend 60 min, using oven at 180 C",
            "Bake at {180",
        ),
    ] {
        let text = told(line);
        let bare = text.replace("{4 C}", "4C");
        assert!(text.contains(wanted) || bare.contains(wanted), "{line}\n{text}");
        assert!(!text.contains(not), "{line}\n{text}");
        if wanted.starts_with("bake:") {
            assert!(text.contains("what is done is not said and taken for `bake`"), "{line}\n{text}");
        }
    }
    assert!(told("375° 9 to 11 min.").contains("C or F is not said"));
}

/// Short names of the trade, and what is no slip of a pen. Common practice, no source.
#[test]
fn no_other_food_is_proposed_for_a_short_name() {
    for (name, wanted) in [
        ("rye", "rye flour"),
        ("caster", "caster sugar"),
        ("SR flour", "self-raising flour"),
        ("A.P. flour", "all-purpose flour"),
        ("WM flour", "wholemeal flour"),
        ("dark choc", "dark chocolate"),
        ("choc chips", "chocolate chips"),
        ("gran. sugar", "granulated sugar"),
        ("veg oil", "vegetable oil"),
        ("b. powder", "baking powder"),
    ] {
        let text = listed(&format!("400 g {name}"));
        let line = line_of(&text, &format!("{wanted} ."));
        assert!(line.contains(&format!("# look (the notes say `{name}`")), "{text}");
    }
    for name in [
        "malt",
        "total flour",
        "liquid levain",
        "candied orange",
        "paste",
        "thumb ginger",
        "kummel",
        "rusk",
        "bran",
        "sprinkles",
    ] {
        let text = listed(&format!("400 g {name}"));
        assert!(!text.contains("is this"), "{text}");
    }
    assert!(listed("100 g suger").contains("is this sugar?"));
}

#[test]
fn every_kind_of_dash_parts_a_name_from_its_amount() {
    for dash in ['-', '\u{2010}', '\u{2011}', '\u{2012}', '\u{2013}', '\u{2014}', '\u{2015}', '\u{2212}'] {
        let text = listed(&format!("Butter {dash} 115 g\n\u{a0}Sugar\u{202f}{dash} 100\u{2009}g"));
        assert!(
            line_of(&text, "butter .").ends_with(" 115 g") && line_of(&text, "sugar .").ends_with(" 100 g"),
            "{text}"
        );
    }
}

#[test]
fn a_year_behind_a_name_is_no_amount() {
    let text = sound("Marmalade 2024\n\n1 kg oranges\n1 kg sugar\n").text;
    assert!(text.contains("recipe Marmalade 2024") && !text.contains("marmalade .."), "{text}");
    let listed = sound("Bread\nflour 1 kg\nsalt 20 g\nwater 1900 g\n").text;
    assert!(listed.contains(" 1900 g"), "{listed}");
}

/// Two things that are sold by what they hold are no table of percentages; a table with its heads in words is one.
#[test]
fn shares_of_strong_and_pure_things_are_none_of_each_other() {
    let text = sound("Dough\n1 kg flour\n600 g water\nrum 40% 30 ml\n80 g peanut butter (100%)\n20 g salt\n").text;
    assert!(text.contains(" 30 ml, of 40 %") && !text.contains("= 100 %") && !text.contains("= 40 %"), "{text}");
    let table = sound("Bread\nIngredient,Percent,Grams\nflour,100,1000\nwater,65,650\nsalt,2,20\n").text;
    assert!(table.contains(" 650 g = 65 %"), "{table}");
}

#[test]
fn a_title_with_a_number_is_no_ingredient() {
    for (title, name, makes) in [
        ("Naan, for 10", "Naan", "makes 10 pieces"),
        ("Ciabatta x8", "Ciabatta", "makes 8 pieces"),
        ("Pizza dough for 6 balls @ 270g", "Pizza dough", "makes 6 balls"),
        ("Stollen 2 x 1kg", "Stollen", "makes 2 pieces"),
        ("brioche nanterre 3 tins", "brioche nanterre", "makes 3 tins"),
        ("Overnight oats bread   |   yield 2.05 kg   |  2 loaves", "Overnight oats bread", "makes 2 loaves"),
    ] {
        let text = sound(&format!("{title}\n\n600 g flour\n400 g water\n")).text;
        assert!(text.contains(&format!("recipe {name}")), "{text}");
        // `Buns x 8` says no more than that.
        assert!(line_of(&text, makes).contains("# look") || title == "Ciabatta x8", "{text}");
        assert_eq!(text.matches(" ..").count(), 2, "{text}");
    }
    // Above a list without a title stands an ingredient.
    holds(&draft("Rye bread 500 g\nmilk 200 g\n", None, "x"), &["rye bread .. 500 g"]);
}

/// A quarter of a pint is 142 ml in Britain and 118 ml in America (sizes as in `measure::unit`).
#[test]
fn the_country_is_the_one_whose_measure_fits() {
    for (lines, wanted) in [
        ("150ml (¼ pint) milk\n225 g self-raising flour", "measures imperial"),
        ("300 ml / 1/2 pint water\n2 cups flour", "measures imperial"),
        ("475 ml (1 pint) milk", "measures US"),
        ("250 ml (1 cup) milk", "measures metric"),
        ("1 cup (240 ml) milk", "measures US"),
        ("225g caster sugar\n1 pint milk", "measures imperial"),
        ("225g caster sugar\n1 tsp salt", "measures metric"),
        ("1 cup flour\n1 pint milk", "measures US"),
    ] {
        let text = sound(&format!("Scones\n\n{lines}\n")).text;
        assert!(line_of(&text, "measures ").starts_with(wanted), "{lines}\n{text}");
        assert!(line_of(&text, "measures ").contains("# look"), "{text}");
    }
    assert!(listed("150ml (¼ pint) milk").contains("150 ml = ¼ pt fits these"));
}
