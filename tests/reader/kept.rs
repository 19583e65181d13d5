//! What is kept of a preferment for the next dough. Invented.

use super::*;

/// Of a sour of which some is kept for the next dough not all goes in: by hand, 35 + 33 + 5 % of 2000 g are 1460 g, and 55 g besides.
#[test]
fn the_seed_of_the_next_dough_is_kept() {
    let text = "recipe Plain rye\nmakes 4 loaves, bake loss 12 %\npart sour, from dough\nspare 55 g\nrye flour .... 35 %\nwater .... 33 %\n\
                sourdough starter .... all\nstir: hands 5 min\n    Stir {sourdough starter} into {water}; add {rye flour}.\n\
                ripen: wait 12 h, at 22 C, up to 15 h\n    until domed\npart dough\nrye flour .... 2 kg\nwater .... 72 %\nsalt .... 1.9 %\n\
                sourdough starter .... 5 %\nmix: hands 8 min\n    Mix {sour}, {rye flour}, {water} and {salt}.\n    until even\n\
                prove: wait 45 min, at 26 C\n    until cracked\nbake: tend 50 min, using oven at 230 C\n    until brown\n";
    let folder = folder();
    fs::write(folder.path().join("rye.miche"), text).expect("written");
    let page = reader(folder.path(), "rye.miche", &[]);
    assert!(page.contains("1460 g sour, keep 55 g of it") && !page.contains("all of the sour"), "{page}");
    let card = run(folder.path(), &["card", "rye.miche", "--format", "html"]);
    let card = String::from_utf8_lossy(&card.stdout).into_owned();
    assert!(card.contains(", keep 55"), "{card}");
    fs::write(folder.path().join("rye.miche"), text.replace("spare 55 g\n", "")).expect("written");
    let page = reader(folder.path(), "rye.miche", &[]);
    assert!(page.contains("all of the sour (1460 g)"), "{page}");
}

/// One piece of dough is a piece, and twelve are pieces; a reader counts them and need not weigh.
#[test]
fn pieces_of_another_part_are_counted_rightly() {
    for (makes, said) in [("12 buns", "12 pieces of dough (960 g)"), ("1 bun", "1 piece of dough (80 g)")] {
        let number = makes.split_once(' ').expect("a number").0;
        let text = format!(
            "recipe Jam buns\nmakes {makes}\n\npart dough\nflour .... 100 %\nwater .... 64 %\nsalt .... 2 %\ninstant yeast .... 1 %\ndivide {number} x 80 g\nmix: hands 10 min\n    \
             Mix {{flour}}, {{water}}, {{salt}} and {{instant yeast}}.\n\npart buns\nper piece\ndough .... 1 piece\njam .... 20 g\nfill: hands 20 s, each\n    Put {{jam}} into {{dough}}.\n\
             bake: tend 15 min, using oven at 200 C\n"
        );
        let folder = folder();
        fs::write(folder.path().join("buns.miche"), text).expect("written");
        let page = reader(folder.path(), "buns.miche", &[]);
        assert!(page.contains(said), "{page}");
    }
}
