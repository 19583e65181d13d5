//! What is put together of a dough and a filling, or of a cake and its cream, has no hydration in a diff or a log either: cards and sums
//! give none.

use super::miche;
use std::fs;

/// A bun with a filling, and a cake with its cream, with a part by itself for each; `AMOUNT` of cream or jam. Invented.
const BUNS: &str = "recipe Jam buns\nmakes 10 buns\npart dough\nstrong white flour .. 500 g\nwater .. 300 g\nsalt .. 10 g\ninstant yeast .. 5 g\ndivide 10 x 80 g, \
                    loss 1.9 %\nmix: hands 10 min\n    Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\npart buns\nper piece\n\
                    dough .. 1 piece\nplum jam .. AMOUNT g\nfill: hands 20 s, each\n    Fill {dough} with {plum jam}.\nbake: tend 15 min, using oven at 200 C\n    until gold\n";
const CAKE: &str = "recipe Cream cake\nmakes 12 slices\npart cake\nplain flour .. 300 g\ncaster sugar .. 200 g\nbutter .. 200 g\negg .. 200 g\nmix: hands 8 min\n    Mix \
                    {plain flour}, {caster sugar}, {butter} and {egg}.\n    until smooth\nbake: tend 40 min, using oven at 175 C\n    until a skewer comes out clean\n\
                    part finished cake\ncake .. all\nheavy cream .. AMOUNT g\nice: hands 5 min\n    Spread {heavy cream} on {cake}.\n    until even\n";

#[test]
fn what_is_put_together_has_no_hydration_in_a_diff_or_a_log() {
    for (recipe, own, together, amounts) in
        [(BUNS, "dough", "buns", ["30", "60"]), (CAKE, "cake", "finished cake", ["300", "600"])]
    {
        let folder = tempfile::tempdir().expect("a folder");
        let files = amounts.map(|amount| {
            let path = folder.path().join(format!("{amount}.miche"));
            fs::write(&path, recipe.replace("AMOUNT", amount)).expect("written");
            path.display().to_string()
        });
        let said = |arguments: &[&str]| {
            let output = miche(arguments);
            String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
        };
        let textconv = said(&["diff", "--textconv", "--", &files[0]]);
        assert!(textconv.contains(&format!("= {own}: hydration ")), "{textconv}");
        assert!(textconv.contains(&format!("= {together}: total ")), "{textconv}");
        let diff = said(&["diff", &files[0], &files[1]]);
        assert!(diff.contains(together), "{diff}");
        for word in ["hydration", "on flour"] {
            assert!(!diff.contains(word), "{word}: {diff}");
        }
    }
}
