//! What hurts and was passed over once, and what is right and was told once. Sources: FDA Food Code 3-401.11 (poultry 74 °C, minced meat 68 °C, fish
//! and egg 63 °C), 3-501.13 (thawing), 3-501.16 and 3-501.19 (5 °C, four hours), FDA Bad Bug Book (kidney beans), CDC on garlic in oil, all from memory;
//! the figures of the trade (bakes, jams, ferments) are common practice, no source.

use super::{problems_of, told};

/// A recipe, and the check that says what is wrong with it.
const WRONG: &[(&str, &str)] = &[
    // Done too cool in the middle, by kind.
    (
        "recipe Roast chicken\nchicken breast .... 800 g\nsalt .... 8 g\nroast: tend 25 min, using oven at 180 C\n    Roast {chicken breast} with {salt}.\n    until {58 C} in \
         the middle\n",
        "undercooked",
    ),
    (
        "recipe Burgers\nminced beef .... 1 kg\nsalt .... 10 g\nshape: hands 10 min\n    Season {minced beef} with {salt}; shape.\nfry: tend 12 min, using hob\n    Fry them.\n    until \
         {131 F} inside\n",
        "undercooked",
    ),
    (
        "recipe Liver terrine\nchicken liver .... 700 g\negg .... 150 g\ndouble cream .... 350 g\nsalt .... 18 g\nblend: hands 8 min\n    Blend {chicken liver}, {egg}, \
         {double cream} and {salt}.\n    until smooth\nbake: tend 40 min, using oven at 110 C\n    until {52 C} inside\ncool: wait 1 h\n",
        "undercooked",
    ),
    (
        "recipe Cod\ncod fillet .... 800 g\nsalt .... 8 g\nbake: tend 15 min, using oven at 180 C\n    Bake {cod fillet} with {salt}, to {50 C} in the middle.\n",
        "undercooked",
    ),
    // In a pie the filling is another part.
    (
        "recipe Pies\npart filling\nchicken thigh .... 600 g, diced\nsalt .... 8 g\nmix: hands 5 min\n    Mix {chicken thigh} with {salt}.\npart pies\nplain flour .... 500 g\nbutter .... 250 g\n\
         water .... 150 g\nfilling .... all\nmix: hands 20 min\n    Rub {butter} into {plain flour}; bind with {water}; wrap {filling}.\nbake: tend 45 min, using oven at 190 C\n    until {65 C} inside\n",
        "undercooked",
    ),
    (
        "recipe Beans\nred kidney beans .... 500 g\nwater .... 1.5 kg\ncook: tend 8 h, using oven at 80 C\n    Cook {red kidney beans} in {water}.\n    until soft\n",
        "poisonous",
    ),
    // Out of the cold for hours.
    (
        "recipe Cream slices\nmakes 10 slices\npuff pastry .... 500 g\nwhipping cream .... 600 g, whipped\nbake: tend 25 min, using oven at 200 C\n    Bake {puff pastry} in sheets.\n    until \
         gold\ncool: wait 1 h\nfill: hands 8 min\n    Fill with {whipping cream}.\nstand: wait 6 h, at 22 C\n",
        "left-warm",
    ),
    (
        "recipe Burgers\nminced beef .... 1 kg, frozen\nsalt .... 10 g\nthaw: wait 10 h, at 22 C\n    Leave {minced beef} to thaw.\nfry: tend 12 min, using hob\n    Fry with {salt}.\n    until {72 C} \
         inside\n",
        "left-warm",
    ),
    (
        "recipe Chicken\nchicken thigh .... 1 kg\nyoghurt .... 200 g\nmarinate: wait 12 h, at 20 C\n    Mix {chicken thigh} and {yoghurt}.\ngrill: tend 20 min, using hob\n    Grill it.\n    until {75 C} \
         inside\n",
        "left-warm",
    ),
    (
        "recipe Rice salad\nrice .... 500 g\nwater .... 1 kg\nboil: tend 15 min, using hob\n    Boil {rice} in {water}.\n    until soft\ncool: wait 8 h, at 22 C\nserve: hands 5 min\n",
        "left-warm",
    ),
    (
        "recipe Buns with cream\nmakes 20 buns\npart cream\nwhipping cream .... 500 g\ncaster sugar .... 40 g\nwhip: hands 5 min\n    Whip {whipping cream} with {caster sugar}.\npart buns\nper piece\nwhite \
         bread .... 60 g\ncream .... 25 g\nfill: hands 30 s, each\n    Fill {white bread} with {cream}.\nstand: wait 5 h, at 20 C\n",
        "left-warm",
    ),
    // Moist, and kept where it is warm, whatever it was cooked in.
    (
        "recipe Garlic in oil\ngarlic .... 200 g, peeled\nolive oil .... 400 g\ncook: tend 45 min, using oven at 120 C\n    Cook {garlic} in {olive oil}.\n    until soft\nkeeps 2 weeks, at 18 C\n",
        "shelf-storage",
    ),
    (
        "recipe Leek quiche\nmakes 1 quiche\npart filling\negg .... 200 g\nheavy cream .... 300 g\nleek .... 200 g, cooked\nsalt .... 4 g\nstir: hands 3 min\n    Stir {egg}, {heavy cream}, {leek} and \
         {salt}.\n    until even\npart quiche\nshortcrust pastry .... 350 g\nfilling .... all\nkeeps 2 weeks, at 20 C\nbake: tend 35 min, using oven at 180 C\n    Pour {filling} into {shortcrust \
         pastry}.\n    until just set\n",
        "shelf-storage",
    ),
    (
        "recipe Beans\nwhite beans .... 500 g\nwater .... 1.5 kg\nsalt .... 20 g\nkeeps 3 days\nbake: tend 3 h, using oven at 150 C\n    Cover {white beans} with {water} and {salt}; they boil gently.\n    \
         until soft\n",
        "shelf-storage",
    ),
    // Temperatures that cannot be.
    (
        "recipe Plum jam\nplum .... 1 kg\ncaster sugar .... 900 g\nboil: tend 15 min, using hob\n    Boil {plum} with {caster sugar}.\n    until {104.5 F}\n",
        "odd-temperature",
    ),
    (
        "recipe Plum jam\nplum .... 1 kg\ncaster sugar .... 900 g\nboil: tend 15 min, using hob\n    Boil {plum} with {caster sugar}.\n    until {140 C}\n",
        "odd-temperature",
    ),
    (
        "recipe Folds\npart sheet\nplain flour .... 500 g\nwater .... 270 g\nbutter .... 250 g, cold\nmix: hands 5 min\n    Mix {plain flour} and {water}.\nlock in: hands 8 min\n    Lay in {butter}.\nrest one: \
         wait 45 min, at 40 C\nturn two: hands 6 min\n    Fold in three.\nrest two: wait 1 h, at 4 C\n",
        "odd-temperature",
    ),
    // Too much already, whatever the pod weighs.
    (
        "recipe Custard\nwhole milk .... 1 kg\negg yolk .... 8 kg\ncaster sugar .... 200 g\nvanilla pod .... 1\nmakes 1.38 kg, loss 4.5 %\ncook: tend 8 min, using hob\n    Boil {whole milk} with {vanilla pod}, {egg \
         yolk} and {caster sugar}.\n    until it boils\n",
        "yield-does-not-add-up",
    ),
    (
        "recipe Loaf\nplain flour .... 1 kg\nwater .... 650 g\nsalt .... 18 %\ninstant yeast .... 8 g\nmix: hands 10 min\n    Mix {plain flour}, {water}, {salt} and {instant yeast}.\n    until smooth\n",
        "extreme-percent",
    ),
    // Times by the size of the piece.
    (
        "recipe Flatbreads\nmakes 12 flatbreads\nplain flour .... 660 g\nwater .... 400 g\nsalt .... 12 g\ndivide 12 x 88 g, loss 1.5 %\nmix: hands 8 min\n    Mix {plain flour}, {water} and {salt}.\n    until \
         soft\ngriddle: tend 30 min, using griddle at 220 C, 2 at a time\n    until blistered\n",
        "odd-bake-time",
    ),
    (
        "recipe Loaves\nmakes 30 loaves\nstrong white flour .... 6 kg\nwater .... 3.8 kg\nsalt .... 110 g\ninstant yeast .... 40 g\ndivide 18 x 480 g small and 12 x 92 g large, loss 2.2 %\nmix: hands 10 min\n    Mix \
         {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 1 h, at 24 C\nshape: hands 30 s, each\nprove: wait 50 min, at 26 C\nbake: tend 47 min, using oven at 220 \
         C\n    until brown\n",
        "odd-bake-time",
    ),
    // Heat before anything is in, and sugar before the fat.
    (
        "recipe Tarts\nmakes 8 tarts\npart pastry\nplain flour .... 240 g\nbutter .... 120 g\nwater .... 20 g\ndivide 8 x 45 g, loss 5 %\nrub: hands 10 min\n    Rub {butter} into {plain flour}; bind with {water}.\nblind \
         bake: tend 18 min, using oven at 180 C\n    until gold\npart custard\ndouble cream .... 400 g\negg yolk .... 100 g\nmix: hands 3 min\n    Mix {double cream} and {egg yolk}.\npart tarts\nper piece\npastry .... 1 \
         piece\ncustard .... 60 g\nbake: tend 25 min, using oven at 140 C\n    until it trembles\nfill: hands 15 s, each\n    Fill {pastry} with {custard}.\n",
        "step-out-of-place",
    ),
    (
        "recipe Bagels\nmakes 10 bagels\npart dough\nstrong white flour .... 650 g\nwater .... 370 g\nsalt .... 13 g\ninstant yeast .... 4 g\ndivide 10 x 102 g, loss 1.6 %\nmix: hands 10 min\n    Mix {strong white \
         flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nform: hands 30 s, each\nprove: wait 40 min, at 26 C\npart bagels\nper piece\ndough .... 1 piece\nbake: tend 18 min, using oven at 230 C\n    until \
         brown\nboil: tend 2 min, using hob at 100 C\n    Boil {dough}.\n    until plump\n",
        "step-out-of-place",
    ),
    (
        "recipe Doughnuts\nmakes 10 doughnuts\ncaution Hot fat: lid at hand.\npart dough\nstrong white flour .... 300 g\nwhole milk .... 170 g\nbutter .... 30 g\nsalt .... 5 g\ninstant yeast .... 5 g\ndivide 10 x 50 g, loss 2 \
         %\nmix: hands 10 min\n    Mix {strong white flour}, {whole milk}, {butter}, {salt} and {instant yeast}.\n    until smooth\nball: hands 15 s, each\nprove: wait 45 min, at 28 C\npart doughnuts\nper piece\ndough .... 1 \
         piece\ncaster sugar .... 4 g\nfrying oil .... as needed, aside\nsugar: hands 6 s, each\n    Roll in {caster sugar}.\nfry: tend 4 min, using fryer at 175 C, 6 at a time\n    Fry {dough} in {frying \
         oil}.\n    until brown\n",
        "step-out-of-place",
    ),
];

/// Recipes in which nothing is wrong.
const RIGHT: &[&str] = &[
    // A part that has the name of its meat is cooked where it is made.
    "recipe Plate of roast\nmakes 6 plates\npart chicken\nchicken .... 1.8 kg\nsalt .... 12 g\nbrine: wait 8 h, at 4 C\n    Rub {chicken} with {salt}.\n\
     roast: tend 80 min, using oven at 200 C\n    Roast.\n    until {75 C} at the thigh\npart plates\nper piece\nchicken .... 302 g\n\
     serve: hands 1 min, each\n    Plate {chicken}.\n",
    // A terrine sets slowly; what rests gains three degrees; beef may be pink.
    "recipe Liver terrine\nchicken liver .... 700 g\negg .... 150 g\ndouble cream .... 350 g\nsalt .... 18 g\nblend: hands 8 min\n    Blend {chicken liver}, {egg}, {double cream} and {salt}.\n    until \
     smooth\nbake: tend 60 min, using oven at 110 C\n    until {75 C} inside\ncool: wait 1 h\n",
    "recipe Roast\nbeef .... 1.5 kg\nsalt .... 15 g\nroast: tend 80 min, using oven at 180 C\n    Roast {beef} with {salt}.\n    until {54 C} inside\nrest: wait 20 min\n",
    "recipe Roast\nturkey .... 4 kg\nsalt .... 40 g\nroast: tend 3 h, using oven at 170 C\n    Roast {turkey} with {salt}.\n    until {72 C} at the thigh\nrest: wait 30 min\n",
    "recipe Pork in a bath\npork loin .... 1 kg\nsalt .... 12 g\ncook: tend 3 h, at 56 C\n    Cook {pork loin} with {salt} in a bath.\n    until {56 C} in the middle\n",
    "recipe Sunday plates\nmakes 6 plates\npart roast\nchicken .... 1.8 kg\nbutter .... 40 g\nsalt .... 12 g\nroast: tend 80 min, using oven at 200 C\n    Rub {chicken} with {butter} and {salt}.\n    until {75 C} at the \
     thigh\nrest: wait 20 min, up to 40 min\npart plates\nper piece\nroast .... 308 g\nserve: hands 1 min, each\n    Plate {roast}.\n",
    // What ferments, sours or is full of sugar and salt keeps by itself, and rubbing salt in wants no fat.
    "recipe Kimchi\nmakes 1.96 kg, loss 5 % of everything\nchinese cabbage .... 2 kg\nsalt .... 50 g\nginger .... 20 g\nkeeps 30 days, chilled\nrub: hands 10 min\n    Rub {salt} and {ginger} into {chinese cabbage}.\nferment: \
     wait 2 days, at 18 C\n    until sour\n",
    "recipe Lemons in salt\nlemon .... 1 kg\nsalt .... 200 g\nkeeps 60 days, chilled\nrub: hands 10 min\n    Rub {salt} into {lemon}.\n    until it runs\n",
    "recipe Raspberry jam\nraspberry .... 600 g\ncaster sugar .... 550 g\nmakes 900 g, loss 21.7 %\nkeeps 3 weeks, chilled\nboil: tend 15 min, using hob\n    Boil {raspberry} and {caster sugar}.\n    until {104.5 \
     C}\ncool: wait 90 min\n",
    "recipe Kombucha\nwater .... 2 kg\ncaster sugar .... 140 g\nblack tea .... 12 g, strained out\nkombucha starter .... 200 g\nkeeps 4 weeks, chilled\nsteep: wait 15 min\n    Pour {water}, boiling, on {black tea} and {caster \
     sugar}; strain.\nstir: hands 2 min\n    When under {30 C} stir in {kombucha starter}.\nferment: wait 7-10 days, at 24 C\n    until sour\n",
    "recipe Yoghurt\nmakes 1 kg, loss 4.7 % of everything\nwhole milk .... 1 kg\nyoghurt .... 50 g\nkeeps 6 days, chilled\nheat: tend 20 min, using hob\n    Heat {whole milk} to {85 C}; cool to {43 C}.\nstir: hands 2 \
     min\n    Stir in {yoghurt}.\nset: wait 6-8 h, at 43 C\n    until it holds a spoon upright\nchill: wait 4 h, at 4 C\n",
    "recipe Injera\nmakes 10 pieces\nteff flour .... 500 g\nwater .... 900 g\nsalt .... 5 g\nmix: hands 5 min\n    Mix {teff flour} and {water}.\n    until smooth\nferment: wait 2-3 days, at 22 C\n    until it smells \
     sour\nseason: hands 1 min\n    Stir in {salt}.\nfry: tend 3 min, using hob, 1 at a time\n    until it lifts at the rim\n",
    // A sponge holds the yeast of all the dough.
    "recipe Fruit loaf\npart sponge\nstrong white flour .... 400 g\nwhole milk .... 300 g\nfresh yeast .... 100 g\nmix: hands 5 min\n    Mix {strong white flour}, {whole milk} and {fresh yeast}.\n    until smooth\nripen: wait 30 min, at \
     26 C\n    until it falls\npart dough\nsponge .... all\nstrong white flour .... 1.1 kg\nbutter .... 600 g\nwhole milk .... 300 g\nsalt .... 20 g\nmix: hands 12 min\n    Mix {sponge}, {strong white flour}, {butter}, {whole milk} and {salt}.\n    until \
     smooth\nrise: wait 1 h, at 25 C\nbake: tend 55 min, using oven at 180 C\n    until brown\n",
    // Ovens of their own.
    "recipe Black rye\nmakes 3 loaves\nrye flour .... 1 kg\ncracked rye .... 1.2 kg, counts as flour\nwater .... 1.6 kg\nsalt .... 36 g\nrye starter .... 400 g\ndivide 3 x 1400 g, loss 0.85 %\nmix: hands 10 min\n    Mix {rye \
     flour}, {cracked rye}, {water}, {salt} and {rye starter}.\n    until even\nprove: wait 90 min, at 28 C\n    until small holes show\nbake: tend 16 h, using oven at 110 C\n    until dark brown through\ncool: wait 24 h\n",
    "recipe Flat pizza\nmakes 4 pizzas\nstrong white flour .... 600 g\nwater .... 380 g\nsalt .... 15 g\ninstant yeast .... 2 g\ndivide 4 x 245 g, loss 1.7 %\nmix: hands 10 min\n    Mix {strong white flour}, {water}, {salt} and \
     {instant yeast}.\n    until smooth\nrise: wait 8 h, at 20 C\n    until doubled\nbake: tend 90 s, using pizza oven at 450 C, 1 at a time\n    until spotted\n",
    // Milk that comes as a part is wet as well.
    "recipe Cream\npart infused milk\nwhole milk .... 500 g\nlemon zest .... 10 g, strained out\nmakes 480 g, loss 4 %\nheat: tend 8 min, using hob\n    Heat {whole milk} with {lemon zest}; strain.\n    until steaming\npart \
     cream\ninfused milk .... all\negg yolk .... 90 g\ncaster sugar .... 100 g\ncornflour .... 36 g\nboil: tend 6 min, using hob\n    Boil {infused milk} with {caster sugar}, {egg yolk} and {cornflour}.\n    until it boils\n",
    // Pieces that were shaped elsewhere prove before something is piped on them.
    "recipe Crossed buns\nmakes 12 buns\npart dough\nstrong white flour .... 600 g\nwhole milk .... 340 g\nbutter .... 60 g\nsalt .... 10 g\ninstant yeast .... 8 g\ndivide 12 x 83 g, loss 2.2 %\nmix: hands 12 min\n    Mix {strong \
     white flour}, {whole milk}, {butter}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 1 h, at 25 C\nshape: hands 20 s, each\npart crosses\nplain flour .... 75 g\nwater .... 75 g\nmix: hands 3 min\n    Mix {plain flour} \
     and {water}.\n    until smooth\npart buns\nper piece\ndough .... 1 piece\ncrosses .... 12 g\nprove: wait 60 min, at 27 C\n    until a dent stays\npipe: hands 10 s, each\n    Pipe {crosses} on {dough}.\nbake: tend 18 min, \
     using oven at 200 C\n    until brown\n",
    "recipe Apple strudel\nmakes 4 strudels\npart dough\nplain flour .... 400 g\nwater .... 192 g\nsunflower oil .... 48 g\nsalt .... 5 g\ndivide 4 x 158 g, loss 2 %\nknead: hands 12 min\n    Knead {plain flour}, {water}, {sunflower \
     oil} and {salt}.\n    until like silk\nrest: wait 1 h, at 25 C\npart strudels\nper piece\ndough .... 1 piece\napple .... 600 g, sliced\nstretch: hands 4 min, each\n    Stretch {dough} over a cloth; strew {apple}, roll.\nbake: \
     tend 40 min, using oven at 190 C\n    until brown\n",
    "recipe Saltless Tuscan bread\nstrong white flour .... 1 kg\nwater .... 650 g\ninstant yeast .... 4 g\nmix: hands 10 min\n    Mix {strong white flour}, {water} and {instant yeast}.\n    until smooth\nrise: wait 3 h, at 22 C\n    until \
     doubled\nbake: tend 45 min, using oven at 220 C\n    until brown\n",
    // A dough with milk and egg rises, and a soaker stands overnight before it is baked.
    "recipe Milk loaf\nstrong white flour .... 1 kg\nwhole milk .... 600 g\negg .... 100 g\nsalt .... 18 g\ninstant yeast .... 2 g\nmix: hands 10 min\n    Mix {strong white flour}, {whole milk}, {egg}, {salt} and {instant yeast}.\n    until \
     smooth\nrise: wait 8 h, at 18 C\n    until doubled\nbake: tend 45 min, using oven at 200 C\n    until brown\n",
    "recipe Ganache\ndark chocolate .... 500 g\ndouble cream .... 500 g\nheat: tend 5 min, using hob\n    Boil {double cream}; pour over {dark chocolate}.\n    until smooth\nset: wait 10 h, at 17 C\n",
];

#[test]
fn what_hurts_is_told() {
    let mut unseen = String::new();
    for (text, wanted) in WRONG {
        let problems = problems_of(text);
        if !problems.iter().any(|problem| problem.check == *wanted) {
            unseen += &format!("{text}: no {wanted}\n{}", told(&problems));
        }
    }
    assert!(unseen.is_empty(), "{unseen}");
}

#[test]
fn what_is_right_is_left_alone() {
    let mut alarms = String::new();
    for text in RIGHT {
        let problems = problems_of(text);
        if !problems.is_empty() {
            alarms += &format!("{text}{}", told(&problems));
        }
    }
    assert!(alarms.is_empty(), "{alarms}");
}
