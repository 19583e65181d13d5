//! A long recipe file: a market list of doughs, each with its formula and steps, as one file of 2 000 lines.

/// A recipe with so many lines or a few more: doughs of 18 lines each. Nothing is made of them, of which `check` warns.
pub fn long_recipe(lines: usize) -> String {
    let mut text = String::from("recipe Skerrow market list\nuse \"bakehouse.miche\"\nuse \"larder.miche\"\n\n");
    let mut number = 0;
    while text.lines().count() < lines {
        number += 1;
        let flour = 1000 + 10 * (number % 70);
        let water = 60 + number % 10;
        text.push_str(&format!(
            "part dough {number}\n\
             strong white flour ............ {flour} g\n\
             water ......................... {water} %, at 24 C\n\
             butter ........................ 4 %, soft\n\
             caster sugar .................. 3 %\n\
             salt .......................... 2 %\n\
             instant yeast ................. 0.8 %\n\
             desired temperature 25 C\n\n\
             mix: hands 12 min, using mixer\n    \
                 Mix {{strong white flour}}, {{water}}, {{caster sugar}}, {{salt}} and {{instant yeast}} for\n    \
                 {{3 min}} on low. Add {{butter}}; {{7 min}} on medium.\n    \
                 until smooth, and it stretches thin\n\
             rise: wait 50-60 min, at 25 C\n    \
                 until nearly doubled\n\
             bake: tend 15-17 min, using oven at 220 C = 430 F\n    \
                 until gold on top and coloured underneath\n\
             cool: wait 30 min\n\n"
        ));
    }
    text
}
