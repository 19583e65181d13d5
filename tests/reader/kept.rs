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
