//! What goes on or into pieces after they were on a scale: egg wash, seeds, a filling. All invented; the sums are by hand.

use super::*;

const DOUGH: &str = "part dough\nstrong white flour .... 1 kg\nwhole milk .... 60 %\nsalt .... 2 %\nbutter .... 8 %\ninstant yeast .... 1.2 %\n\
    divide 20 x 84 g, loss 1.9 %\nmix: hands 10 min\n    Mix {strong white flour}, {whole milk}, {salt}, {butter} and {instant yeast}.\n    until smooth\n\
    rise: wait 60 min, at 25 C\n    until doubled\nround: hands 10 s, each\n";

fn loss(recipe: &str, log: &str, step: &str) -> Value {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("it.miche"), recipe).expect("written");
    fs::write(folder.path().join("it.bakes"), log).expect("written");
    figure(&json(folder.path(), &["bakes", "it.miche", "--format", "json"]), "loss", step, "%").clone()
}

fn three_times(bake: &str) -> String {
    let one = |day: usize| format!("\nbake 2026-11-0{day} 05:00\n{bake}");
    format!("bakes of \"it.miche\"\n{}", [1, 2, 3].map(one).concat())
}

/// 84 g were on the scale, 6 g of egg are brushed on in the oven: (84 + 6 - 79.2) / 90 = 12 %.
#[test]
fn what_is_brushed_on_in_the_oven_was_on_no_scale_before() {
    let recipe = format!(
        "recipe Glazed buns\nmakes 20 buns, bake loss 12 %\n{DOUGH}part buns\nper piece\ndough .... 1 piece\negg .... 6 g, beaten\n\
         shape: hands 20 s, each\n    Shape {{dough}}.\nprove: wait 60 min, at 27 C, up to 80 min\n    until puffy\n\
         bake: tend 14 min, using oven at 210 C\n    Brush with {{egg}}.\n    until gold\n"
    );
    let of_buns = three_times("shape: 8 min, came to 20 x 84 g\nbake: 14 min, came to 79.2 g each\n");
    let told = loss(&recipe, &of_buns, "bake");
    is(&told["mean"], 12.0);
    assert_eq!(told["says"], "agrees");
    // All of them on the scale at once.
    let of_all = three_times("shape: 8 min, came to 1.68 kg\nbake: 14 min, came to 1.6 kg\n");
    is(&loss(&recipe, &of_all, "bake")["mean"], (1680.0 + 120.0 - 1600.0) / 1800.0 * 100.0);
    // Weighed when they were rounded, in the part before: 83 g and 6 g went in.
    let rounded = three_times("round: 4 min, came to 20 x 83 g\nbake: 14 min, came to 78.5 g each\n");
    is(&loss(&recipe, &rounded, "bake")["mean"], (83.0 + 6.0 - 78.5) / 89.0 * 100.0);
}

/// 75.7 g came out of the oven, 40 g of cream were filled in, 115.5 g were weighed: 0.2 g of 115.7 g stayed in the bag.
#[test]
fn what_is_filled_in_is_no_loss_below_nothing() {
    let recipe = format!(
        "recipe Filled buns\nmakes 20 buns, bake loss 12 %\n{DOUGH}part buns\nper piece\ndough .... 1 piece\nsesame seeds .... 2 g\n\
         whipping cream .... 40 g, whipped\nshape: hands 20 s, each\n    Shape {{dough}}; roll in {{sesame seeds}}.\n\
         prove: wait 60 min, at 27 C, up to 80 min\n    until puffy\nbake: tend 14 min, using oven at 210 C\n    until gold\n\
         cool: wait 40 min\nfill: hands 20 s, each\n    Fill with {{whipping cream}}.\n"
    );
    let log = three_times(
        "shape: 8 min, came to 20 x 86 g\nbake: 14 min, came to 75.7 g each\nfill: 7 min, came to 115.5 g each\n",
    );
    is(&loss(&recipe, &log, "fill")["mean"], 0.2 / 115.7 * 100.0);
    is(&loss(&recipe, &log, "bake")["mean"], (86.0 - 75.7) / 86.0 * 100.0);
}

/// 86 g less 12 % are 75.68 g, and a log is written in tenths.
#[test]
fn what_is_the_same_in_tenths_does_not_differ() {
    let recipe = format!(
        "recipe Plain buns\nmakes 20 buns, bake loss 12 %\n{}bake: tend 14 min, using oven at 210 C\n    until gold\n",
        DOUGH.replace("84 g, loss 1.9 %", "86 g, loss 1.9 %").replace("1 kg", "1.0238 kg")
    );
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("it.miche"), recipe).expect("written");
    fs::write(folder.path().join("it.bakes"), three_times("bake: 14 min, came to 75.7 g each\n")).expect("written");
    let told = json(folder.path(), &["bakes", "it.miche", "--format", "json"]);
    assert_eq!(figure(&told, "came-to", "bake", "g")["says"], "agrees");
}

/// Of two sorts the head says one loss: the larger, so that no label promises what the smaller sort does not weigh. 100 g lose 10 g,
/// 68 g lose 10.2 g.
#[test]
fn of_sorts_the_larger_loss_is_taken() {
    let buns = |sort: &str, minutes: &str| {
        format!(
            "part {sort} buns\nper {sort}\ndough .... 1 piece\nprove: wait 60 min, at 27 C, up to 80 min\n    until puffy\n\
             bake: tend {minutes} min, using oven at 210 C\n    until gold\n"
        )
    };
    let dough = DOUGH.replace("divide 20 x 84 g", "divide 10 x 100 g large and 10 x 68 g small");
    let recipe = format!(
        "recipe Two sizes\nmakes 20 buns, bake loss 12 %\n{dough}{}{}",
        buns("large", "14"),
        buns("small", "12")
    );
    let log =
        three_times("bake of large buns: 14 min, came to 90 g each\nbake of small buns: 12 min, came to 57.8 g each\n")
            .replace(" 05:00", " 05:00, of 10 large and 10 small");
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("it.miche"), recipe).expect("written");
    fs::write(folder.path().join("it.bakes"), log).expect("written");
    let output = miche(folder.path(), &["label", "it.miche", "--as-baked"]);
    let label = String::from_utf8_lossy(&output.stdout).into_owned();
    // (68 - 57.8) / 68 = 15 %: 85 g of each large one, 57.8 g of each small one, and nobody is promised more than was weighed.
    assert!(label.contains("Net weight: 85 g a piece"), "{label}{}", said(&output));
    assert!(label.contains("Net weight: 57.8 g a piece"), "{label}");
}
