//! Any text in the place of the larder, and then of the kitchen, of recipes that are right.

use super::super::{checks, makes_cards, project_of};

/// One text.
pub fn run(text: &str) {
    for place in ["larder.miche", "bakehouse.miche"] {
        let user = "recipe Rolls\nmakes 20 rolls\nuse \"bakehouse.miche\"\nuse \"larder.miche\"\nmeasures US\n\n\
                    strong white flour .... 1 kg\nwhole milk .... 1 cup\negg .... 2, beaten\nbutter .... 10 %\n\
                    salt .... 1.8 %\ninstant yeast .... 1 %\ndivide 20 x 80 g\ndesired temperature 25 C\n\n\
                    mix: hands 10 min, using mixer\n    Mix {strong white flour}, {whole milk}, {egg}, {butter}, {salt} \
                    and {instant yeast}.\n    until smooth\nbake: tend 20 min, using oven at 210 C, 10 at a time\n    \
                    Bake.\n    until golden\n";
        let (project, sources) = project_of(&[("rolls.miche", user), (place, text)]);
        checks(&project, &sources);
        makes_cards(&project, sources[0]);
    }
}
