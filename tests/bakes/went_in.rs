//! What went in: of a dough with preferments the final mix, of a pot what stays in it, of sorts as many of each as were made.

use super::*;

fn written(files: &[(&str, &str)]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, text) in files {
        fs::write(folder.path().join(name), text).expect("written");
    }
    folder
}

/// Friction loaves: 5 kg of flour, 3400 g of water of which a poolish takes 1000 g. Invented.
const FRICTION: &str = "recipe Friction loaf\nmakes 10 loaves, bake loss 12 %\npart poolish, from dough\nstrong white flour .... 20 %\nwater .... 20 %\ninstant yeast .... 0.05 %\n\
    stir: hands 3 min\n    Stir {strong white flour}, {water} and {instant yeast}.\n    until even\nripen: wait 12 h, at 18 C\n    until domed\npart dough\n\
    strong white flour .... 5 kg\nwater .... 68 %\nsalt .... 2 %\ninstant yeast .... 0.5 %\ndivide 10 x 838 g, loss 1.7 %\nmix: hands 10 min, using mixer\n    \
    Mix {poolish}, {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 90 min, at 25 C\n    until doubled\n\
    shape: hands 60 s, each\nprove: wait 60 min, at 26 C\n    until a dent stays\nbake: tend 40 min, using oven at 230 C\n    until hollow\n";

/// What went into the oven by hand: 5 kg and 2 % and 0.5 % of it, and the water; less what the bench keeps, by the pieces that are written.
#[test]
fn a_line_of_a_dough_with_preferments_is_of_the_final_mix() {
    let (in_all, shaped) = (5000.0 + 3400.0 + 100.0 + 25.0, 8380.0);
    let lost = |water: f64, out: f64| {
        let went_in = (in_all - 2400.0 + water) * shaped / in_all;
        (went_in - out) / went_in * 100.0
    };
    for (line, usual, more) in [
        ("water .... 2.41 kg", 2400.0, 2410.0),
        ("water of dough .... 2.3 kg", 2400.0, 2300.0),
        // Just all that is in the dough: that is what was added up.
        ("water .... 3.41 kg", 3400.0, 2410.0),
        // What the poolish took more is in the dough too.
        ("water of poolish .... 1.05 kg", 1000.0, 2450.0),
    ] {
        let log = format!("bakes of \"loaf.miche\"\n\nbake 2026-11-02\n{line}\nbake: 40 min, came to 7.38 kg\n");
        let folder = written(&[("loaf.miche", FRICTION), ("loaf.bakes", &log)]);
        let told = json(folder.path(), &["bakes", "loaf.miche", "--format", "json"]);
        let bake = &told["bakes"][0];
        is(&bake["otherwise"][0]["formula_g"], usual);
        let measured = bake["measured"].as_array().expect("a list");
        is(&measured.iter().find(|one| one["figure"] == "loss").expect("a loss")["value"], lost(more, 7380.0));
        let checked = said(&miche(folder.path(), &["check", "loaf.bakes"]));
        assert!(checked.contains("nothing to mend"), "{line}: {checked}");
    }
}

/// 2.9 kg are a fifth more than the final mix has and a sixth less than the dough: nobody can tell which is meant.
#[test]
fn what_may_be_of_the_final_mix_or_of_the_dough_is_asked() {
    let log = "bakes of \"loaf.miche\"\n\nbake 2026-11-02\nwater .... 2.9 kg\n";
    let folder = written(&[("loaf.miche", FRICTION), ("loaf.bakes", log)]);
    let checked = said(&miche(folder.path(), &["check", "loaf.bakes"]));
    assert!(checked.contains("odd-amount") && checked.contains("2400 g") && checked.contains("3400 g"), "{checked}");
}

/// The sheet asks for what the card has weighed: 2400 g for the final mix, 1000 g for the poolish.
#[test]
fn a_sheet_asks_for_what_the_bench_weighs() {
    let folder = written(&[("loaf.miche", FRICTION)]);
    let sheet = said(&miche(folder.path(), &["card", "loaf.miche", "--log", "--format", "text"]));
    let line = |begins: &str| {
        let found = sheet.lines().find(|line| line.contains(begins) && line.contains("____"));
        found.unwrap_or_else(|| panic!("no {begins} in {sheet}")).to_owned()
    };
    assert!(line("water of dough").contains("2400 g"), "{sheet}");
    assert!(line("water of poolish").contains("1000 g"), "{sheet}");
    assert!(!line("water of dough").contains("3400 g"), "{sheet}");
}

/// Bones and bay come out again, and 8.04 kg of water and salt boil down to 6.03 kg: a quarter is lost. Weighed with the bones in, before the
/// step that strains them, 11.04 kg are 8.04 kg less what is lost and 5 kg of bones. Invented.
#[test]
fn what_is_strained_out_is_not_lost() {
    let stock = "recipe Pier stock\nmakes 6.03 kg, loss 25 %\nshin bone .... 5 kg, strained out\nwater .... 8 kg\nsalt .... 40 g\n\n";
    let at_once =
        "boil: tend 3 h, using hob\n    Boil {shin bone}, {water} and {salt}; strain.\n    until it tastes of it\n";
    let later = "boil: tend 3 h, using hob\n    Boil {shin bone}, {water} and {salt}.\n    until it tastes of it\nstrain: hands 5 min\n    Strain.\n";
    for (steps, out, lost) in
        [(at_once, "6.03 kg", (8.04 - 6.03) / 8.04 * 100.0), (later, "11.04 kg", (13.04 - 11.04) / 13.04 * 100.0)]
    {
        let bake = |day: usize| format!("\nbake 2026-11-0{day}\nboil: 3 h, came to {out}\n");
        let log = format!("bakes of \"stock.miche\"\n{}{}{}", bake(2), bake(4), bake(6));
        let folder = written(&[("stock.miche", &format!("{stock}{steps}")), ("stock.bakes", &log)]);
        let told = json(folder.path(), &["bakes", "stock.miche", "--format", "json"]);
        is(&figure(&told, "loss", "boil", "%")["mean"], lost);
        if out == "6.03 kg" {
            let checked = said(&miche(folder.path(), &["check", "stock.miche"]));
            assert!(!checked.contains("bakes-say-otherwise"), "{checked}");
            let label = said(&miche(folder.path(), &["label", "stock.miche", "--as-baked"]));
            assert!(label.contains("6030 g"), "{label}");
        }
    }
}

/// 24 loaves of 480 g and 36 of 960 g as written; another day 36 and 30, of which 17.28 kg and 28.8 kg went in. Invented.
#[test]
fn sorts_are_as_many_as_were_made_of_each() {
    let sort = |name: &str, minutes: i64| {
        format!(
            "part {name} loaves\nper {name}\ndough .... 1 piece\nbake: tend {minutes} min, using oven at 230 C\n    Bake {{dough}}.\n    until brown\n"
        )
    };
    let recipe = format!(
        "recipe Tin bread\nmakes 60 loaves, bake loss 11 %\npart dough\nstrong white flour .... 100 %\nwater .... 64 %\nsalt .... 2 %\nfresh yeast .... 2 %\n\
         divide 24 x 480 g small and 36 x 960 g large, loss 2 %\nmix: hands 10 min\n    Mix {{strong white flour}}, {{water}}, {{salt}} and {{fresh yeast}}.\n    \
         until smooth\n{}{}",
        sort("small", 30),
        sort("large", 45)
    );
    let log = "bakes of \"tin.miche\"\n\nbake 2026-11-06, of 36 small and 30 large\nbake of small loaves: 30 min, came to 15.3 kg\n\
               bake of large loaves: 45 min, came to 25.5 kg\n\nbake 2026-11-07, of 12 small\nbake of small loaves: 30 min, came to 5.1 kg\n";
    let folder = written(&[("tin.miche", &recipe), ("tin.bakes", log)]);
    let told = json(folder.path(), &["bakes", "tin.miche", "--format", "json"]);
    let lost = |bake: usize, part: &str| {
        let measured = told["bakes"][bake]["measured"].as_array().expect("a list").iter();
        let of_part = measured.clone().find(|one| one["figure"] == "loss" && one["part"] == part);
        of_part.unwrap_or_else(|| panic!("no loss of {part} in {told:#}"))["value"].clone()
    };
    is(&lost(1, "small loaves"), (17.28 - 15.3) / 17.28 * 100.0);
    is(&lost(1, "large loaves"), (28.8 - 25.5) / 28.8 * 100.0);
    is(&lost(0, "small loaves"), (5.76 - 5.1) / 5.76 * 100.0);
    // For the loaves as they are written: 15.3 kg of 36 are 10.2 kg of 24, and so are 5.1 kg of 12.
    is(&figure(&told, "came-to", "bake", "g")["mean"], 10_200.0);
    is(&told["bakes"][1]["pieces"], 66.0);
    // Both sorts lose what the head says.
    for (part, raw) in [("small loaves", 11_520.0), ("large loaves", 34_560.0)] {
        let mut all = told["figures"].as_array().expect("a list").iter();
        let of_part = all.find(|one| one["figure"] == "came-to" && one["part"] == part && one["unit"] == "g");
        is(&of_part.unwrap_or_else(|| panic!("nothing of {part} in {told:#}"))["formula"], raw * 0.89);
    }
    // Of a sort of which none was made nothing comes out.
    let other = "bakes of \"tin.miche\"\n\nbake 2026-11-06, of 36 small\nbake of large loaves: 45 min, came to 25 kg\n";
    fs::write(folder.path().join("tin.bakes"), other).expect("written");
    let checked = said(&miche(folder.path(), &["check", "tin.bakes"]));
    assert!(checked.contains("more-out-than-in") && checked.contains("of large loaves nothing was made"), "{checked}");
}
