//! What a careful baker sees: a right loaf with slips in it, files with one slip each, and which check says so.

/// A right recipe, which the slips below change in one place each.
pub const LOAF: &str = "recipe Quay loaf\nmakes 6 loaves\nstrong white flour .... 3 kg\nwater .... 1950 g, at 24 C\nsalt .... 60 g\n\
    fresh yeast .... 45 g\ndivide 6 x 830 g, loss 1.5 %\n\nmix: hands 10 min\n    Mix {strong white flour}, {water}, {salt} and {fresh \
    yeast}.\n    until smooth\nrise: wait 90 min, at 24 C\n    until doubled\nshape: hands 1 min, each\nprove: wait 50 min, at 26 C\n    \
    until a dent stays\nbake: tend 38 min, using oven at 230 C\n    until brown\ncool: wait 1 h\n";

/// Slips in that loaf: what stood there, what stands there now, and which check says so.
pub const SLIPS: &[(&str, &str, &str)] = &[
    ("salt .... 60 g", "salt .... 100 kg", "extreme-percent"),
    ("salt .... 60 g", "salt .... 600 g", "extreme-percent"),
    ("salt .... 60 g", "salt .... 180 g", "odd-percent"),
    ("salt .... 60 g\n", "", "no-salt"),
    ("fresh yeast .... 45 g\n", "", "no-leaven"),
    ("fresh yeast .... 45 g", "fresh yeast .... 450 g", "odd-percent"),
    ("water .... 1950 g", "water .... 195 g", "odd-percent"),
    ("water .... 1950 g, at 24 C", "watr .... 1950 g, at 24 C", "near-name"),
    ("fresh yeast .... 45 g", "fresch yeast .... 45 g", "near-name"),
    ("at 230 C", "at 230 F", "odd-temperature"),
    ("at 230 C", "at 225 F", "odd-temperature"),
    ("at 230 C", "at 180 F", "odd-temperature"),
    ("at 26 C", "at 2 C", "odd-time"),
    ("at 26 C", "at 26 F", "odd-temperature"),
    ("mix: hands 10 min", "mix: hands 10 s", "odd-time"),
    ("mix: hands 10 min", "mix: hands 100 min", "odd-time"),
    ("rise: wait 90 min", "rise: wait 900 min", "long-rise"),
    ("rise: wait 90 min", "rise: wait 9 min", "odd-time"),
    ("shape: hands 1 min", "shape: hands 20 min", "odd-time"),
    ("prove: wait 50 min", "prove: wait 5 min", "odd-time"),
    ("bake: tend 38 min", "bake: tend 380 min", "odd-time"),
    ("bake: tend 38 min", "bake: tend 3.5 min", "odd-time"),
    ("bake: tend 38 min", "bake: tend 8 min", "odd-bake-time"),
    ("bake: tend 38 min, using oven at 230 C\n", "", "said-twice"),
    ("bake: tend 38 min, using oven at 230 C\n", "", "no-bake"),
    (
        "bake: tend 38 min, using oven at 230 C\n    until brown\ncool: wait 1 h\n",
        "cool: wait 1 h\nbake: tend 38 min, using oven at 230 C\n    until brown\n",
        "step-out-of-place",
    ),
    ("until brown", "until brown\n    until hollow", "said-twice"),
    ("makes 6 loaves", "makes 6 loaves, bake loss 1.1 %", "odd-amount"),
    ("until smooth", "Ladle in {350 kg}.\n    until smooth", "out-of-proportion"),
    ("cool: wait 1 h\n", "cool: wait 1 h\nhold: tend 30 min, using oven at 63 F\n", "held-too-cool"),
    ("using oven at 230 C", "using oven at gas 8", "wrong-kind"),
    ("using oven at 230 C", "using oven at very hot", "wrong-kind"),
    ("using oven at 230 C", "using oven at 230", "wrong-kind"),
    ("rise: wait 90 min", "rise: wait 0.2 h 30 min", "odd-time"),
    ("rise: wait 90 min", "rise: wait 1 h 34 min", "odd-time"),
    ("shape: hands 1 min, each", "shape: hands 285 s, each", "slow-shaping"),
    ("shape: hands 1 min, each", "scale: hands 1.5 s, each", "odd-time"),
    ("shape: hands 1 min, each", "bench rest: wait 150 min", "odd-time"),
    ("prove: wait 50 min, at 26 C", "retard: wait 2 h, at 5 C", "odd-time"),
    ("prove: wait 50 min, at 26 C", "firm: wait 4 min, at 4 C", "odd-time"),
    ("cool: wait 1 h", "rest: wait 1 h, at 24 F", "odd-temperature"),
    ("bake: tend 38 min", "bake: tend 85 min", "odd-bake-time"),
    ("bake: tend 38 min", "bake: tend 38-84 min", "odd-time"),
    ("divide 6", "keeps 5 days, at 58 C\ndivide 6", "odd-temperature"),
    ("at 230 C", "at 230 C then 200 F after 10 min", "odd-temperature"),
    ("cool: wait 1 h", "cool: wait 6 min", "odd-bake-time"),
    ("shape: hands 1 min, each", "rest: wait 200 min, at 22 C", "long-rise"),
    (
        "mix: hands 10 min\n    Mix {strong white flour}, {water}, {salt} and {fresh yeast}.\n    until smooth\n",
        "shape: hands 1 min, each\nmix: hands 10 min\n    Mix {strong white flour}, {water}, {salt} and {fresh yeast}.\n    until smooth\n",
        "step-out-of-place",
    ),
    (
        "cool: wait 1 h\n",
        "poppy seeds .... 40 g\ndip: hands 5 s, each\n    Press into {poppy seeds}.\n",
        "step-out-of-place",
    ),
    // Powder raises nothing for an hour and a half.
    ("fresh yeast .... 45 g", "baking powder .... 45 g", "no-leaven"),
    // Soda is salt to a laboratory and not to a baker.
    ("salt .... 60 g", "baking soda .... 30 g", "no-salt"),
    ("salt .... 60 g", "salt .... 60 g\nvinegar .... 60 g", "out-of-proportion"),
    ("salt .... 60 g", "salt .... 60 g\ncaster sugar .... 15 g, flour", "odd-preparation"),
    ("salt .... 60 g", "salt .... 60 g\nbutter .... 15 g, beaten", "odd-preparation"),
    ("\nmix: hands", "aim hydration 60-700 %\nmix: hands", "odd-aim"),
    ("\nmix: hands", "aim hydration 60-70 %\naim hydration 60-70 %\nmix: hands", "odd-aim"),
    ("shape: hands 1 min, each\n", "shape: hands 1 min, each\n    Lay them in tins of {2 cm}.\n", "odd-size"),
];

/// Whole files in which a careful baker sees the slip, and which check says so.
pub const FILES: &[(&str, &str)] = &[
    // Ten times the stock, and a tenth of it; ten times the water on a stew; spoons of salt and of sugar exchanged.
    (
        "recipe Pea risotto\nrisotto rice .... 320 g\nvegetable stock .... 12 l\npeas .... 200 g\nbutter .... 60 g\nsimmer: tend 18 min, using hob\n    Simmer {risotto rice} in \
         {vegetable stock}; stir in {peas} and {butter}.\n    until creamy\n",
        "out-of-proportion",
    ),
    (
        "recipe Pea risotto\nrisotto rice .... 320 g\nvegetable stock .... 120 g\npeas .... 40 g\nbutter .... 60 g\nsimmer: tend 18 min, using hob\n    Simmer {risotto rice} in \
         {vegetable stock}; stir in {peas} and {butter}.\n    until creamy\n",
        "out-of-proportion",
    ),
    (
        "recipe Beef stew\nstewing beef .... 1 kg\ncarrot .... 300 g\nonion .... 250 g\nwater .... 8 l\nsalt .... 15 g\nstew: tend 2 h, using hob\n    Stew {stewing beef}, {carrot} and \
         {onion} in {water} with {salt}.\n    until soft\n",
        "out-of-proportion",
    ),
    (
        "recipe Vanilla custard\nwhole milk .... 500 g\negg yolk .... 80 g\ncaster sugar .... 1/2 tsp\nsalt .... 2 tbsp\nvanilla extract .... 1 tsp\nmeasures metric\ncook: tend 10 min, using hob\n    Cook \
         {whole milk}, {egg yolk}, {caster sugar}, {salt} and {vanilla extract} to {83 C}.\n    until thick\n",
        "out-of-proportion",
    ),
    // 3 m of pastry, 0.3 mm of it, and a tin of 20 in that is one of 20 cm.
    (
        "recipe Tart\nplain flour .... 500 g\nbutter .... 250 g\nwater .... 120 g\nrub: hands 10 min\n    Rub {butter} into {plain flour}; add {water}.\n    until even\nroll: hands 5 \
         min\n    Roll to {3 m}.\n",
        "odd-amount",
    ),
    (
        "recipe Tart\nplain flour .... 500 g\nbutter .... 250 g\nwater .... 120 g\nrub: hands 10 min\n    Rub {butter} into {plain flour}; add {water}.\n    until even\nroll: hands 5 \
         min\n    Roll it out to {0.3 mm}.\n",
        "odd-amount",
    ),
    (
        "recipe Cake\nmakes 1 cake, round 20 in x 12 cm\nplain flour .... 400 g\nbutter .... 300 g\nbake: tend 40 min, using oven at 175 C\n    Bake in a tin of {20 cm}.\n    until firm\n",
        "tins-disagree",
    ),
    // A jar of 500 g of cucumber holds no kilogram of it.
    (
        "recipe Pickle rolls\nmakes 10 rolls\npart pickled cucumber\ncucumber .... 500 g\nwhite wine vinegar .... 300 g\nwater .... 200 g\nsalt .... 15 g\nmakes 1010 g\npour: hands 3 min\n    Pour \
         {white wine vinegar}, {water} and {salt} over {cucumber}.\npart rolls\nper piece\nwhite bread .... 60 g\npickled cucumber .... 100 g, drained\nfill: hands 30 s, each\n    Fill \
         {white bread} with {pickled cucumber}.\n",
        "part-short",
    ),
    // 3 kg of seeds on a stick of 60 g.
    (
        "recipe Sticks\nmakes 20 sticks\npart dough\nplain flour .... 700 g\nwater .... 420 g\nsalt .... 14 g\ninstant yeast .... 7 g\ndivide 19 x 60 \
         g\npart sticks\nper piece\ndough .... 1 piece\nsesame seeds .... 3 kg\n",
        "odd-amount",
    ),
    // A poolish that is ripe in 1.2 h.
    (
        "recipe Sticks\npart poolish, from dough\nplain flour .... 30 %\nwater .... 30 %\ninstant yeast .... 0.03 %\nstir: hands 4 min\n    Stir {plain \
         flour}, {water} and {instant yeast}.\nripen: wait 1.2 h, at 21 C\npart dough\nplain flour .... 1 kg = 100 %\nwater .... 65 %\nsalt .... 2 \
         %\ninstant yeast .... 0.4 %\nmix: hands 10 min\n    Mix {poolish}, {plain flour}, {water}, {salt} and {instant yeast}.\n    until smooth\n",
        "odd-time",
    ),
    (
        "recipe Leek pot\npotato .... 60 g\nleek .... 80 g\ngarlic .... 4 kg\nboil: tend 20 min, using hob\n    Boil {potato}, {leek} and {garlic}.\n    until soft\n",
        "out-of-proportion",
    ),
    // What the first step makes is taken by the step above it.
    (
        "recipe Tart\nplain flour .... 500 g\nwater .... 120 g\nbutter .... 250 g\nfold: hands 20 min\n    Fold the {rest of butter} in.\nmix: hands 5 \
         min\n    Mix {plain flour}, {water} and {50 g of butter}.\n    until smooth\n",
        "step-out-of-place",
    ),
    // 500 g of egg to 500 g of flour, and 300 g of milk.
    (
        "recipe Sponge buns\npart sponge\nstrong white flour .... 400 g\nwhole milk .... 300 g\ninstant yeast .... 6 g\nstir: hands 4 min\n    Stir \
         {strong white flour}, {whole milk} and {instant yeast}.\nrise: wait 1 h, at 26 C\n    until it begins to sink\npart dough\nsponge .... all\negg \
         .... 500 g\nwhole milk .... 200 g\nstrong white flour .... 100 g\nsalt .... 9 g\nmix: hands 14 min\n    Mix {sponge}, {egg}, {whole milk}, \
         {strong white flour} and {salt}.\n    until smooth\nbake: tend 15 min, using oven at 190 C\n    until gold\n",
        "odd-percent",
    ),
    // Nobody knows what 190 % of some yolk is.
    (
        "recipe Curd biscuits\nplain flour .... 600 g\nbutter .... 200 g\negg yolk .... as needed, leaves egg white 190 %\nrub: hands 5 min\n    Rub \
         {butter} into {plain flour}; bind with {egg yolk}.\n    until it holds\n",
        "no-amount",
    ),
    // Five minutes for a bun that is set on a lined tray.
    (
        "recipe Quay buns\nmakes 40 buns\nstrong white flour .... 2 kg\nwhole milk .... 1240 g\nsalt .... 36 g\ninstant yeast .... 20 g\ndivide 40 x \
         81 g, loss 1.7 %\nmix: hands 10 min\n    Mix {strong white flour}, {whole milk}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 1 h, \
         at 24 C\n    until doubled\nshape: hands 300 s, each\n    Round up tightly and set on lined trays.\nprove: wait 50 min, at 26 C\n    until a dent \
         stays\nbake: tend 15 min, using oven at 210 C\n    until gold\n",
        "slow-shaping",
    ),
    // 800 kg of leeks in eight pies, 80 kg of dough in a roll.
    (
        "recipe Pies\nmakes 8 pies\npart crust\nplain flour .... 500 g\nbutter .... 250 g\nwater .... 120 g\npart leeks\nleeks .... 800 kg\nbutter .... \
         40 g\npart pies\ncrust .... all\nleeks .... all\n",
        "odd-amount",
    ),
    (
        "recipe Rolls\nmakes 20 rolls\npart dough\nplain flour .... 1000 kg\nwater .... 600 kg\npart rolls\nper piece\ndough .... 80 kg\negg .... 2 g\n",
        "odd-amount",
    ),
    // A third of a loaf is not lost in the oven, also where there are two sizes.
    (
        "recipe Tins\nmakes 18 loaves, bake loss 33 %\npart dough\nplain flour .... 6.6 kg\nwater .... 4.2 kg\nsalt .... 130 g\ninstant yeast .... 60 g\n\
         divide 12 x 450 g small and 6 x 900 g large, loss 1.7 %\npart small loaves\nper small\ndough .... 1 piece\npart large loaves\nper \
         large\ndough .... 1 piece\n",
        "odd-amount",
    ),
    ("recipe Cakes\noat flour .... 400 g, at 80 C\nwater .... 300 g\nbutter .... 100 g\n", "odd-preparation"),
    (
        "recipe Pease pot\nmakes 90 portions\nsplit peas .... 600 g\nbutter .... 14 kg\nwater .... 22 kg\n",
        "out-of-proportion",
    ),
    ("kitchen Quay\noven x 1\ncooks 2\ncooks 3\n", "twice-named"),
    ("kitchen Quay\noven x 1\nopen 06:00-20:00\nopen 05:00-18:00\n", "twice-named"),
    ("kitchen Quay\noven x 1\nscale 1 g\nscale 5 g\n", "twice-named"),
    ("kitchen Quay\noven x 1\nbusiness Quay bakehouse\nbusiness Harbour bakehouse\n", "twice-named"),
    ("day Sunday\nbatch L1\nbatch L2\nmake 10 of \"rolls.miche\"\n", "twice-named"),
    ("bakes of \"rolls.miche\"\n\nbake 2026-09-04\nby Mara\nby Jon\n", "said-twice"),
    ("bakes of \"rolls.miche\"\n\nbake 2026-09-04\nroom 21 C\nroom 22 C\n", "said-twice"),
    ("bakes of \"rolls.miche\"\n\nbake 2026-09-04\nwater .... 2 kg\nwater .... 3 kg\n", "said-twice"),
    ("bakes of \"rolls.miche\"\n\nbake 2026-09-04\nverdict keep\nverdict drop\n", "said-twice"),
    ("ingredient island milk\nwater 88 %\nwater 80 %\n", "said-twice"),
    ("ingredient island milk\ncosts 1.20 EUR per l\ncosts 1.30 EUR per l\n", "said-twice"),
    ("kitchen Quay\noven x 1, heating 20 min, heating 30 min\nscale 1 g\n", "said-twice"),
    ("recipe Rolls\nwheat flour .... 500 g\nwater .... 300 g, at 20 C, at 30 C\nsalt .... 10 g\n", "said-twice"),
    ("bakes of \"rolls.miche\"\n\nbake 2026-09-04, 10 rolls, 1 kg\nmix: 12 min\n", "said-twice"),
    ("bakes of \"rolls.miche\"\n\nbake 2026-09-04\nmix: 12 min, left at 25 C, left at 26 C\n", "said-twice"),
    // Salt for sugar, and soda for yeast.
    (
        "recipe Rolls\nplain flour .... 1 kg\nwater .... 620 g\nsalt .... 18 g\nbaking soda .... 10 g\nmix: hands 10 min\n    Mix {plain flour}, {water}, \
         {salt} and {baking soda}.\n    until smooth\nrise: wait 90 min, at 24 C\n    until doubled\n",
        "no-leaven",
    ),
    (
        "recipe Baguettes\nmakes 20 baguettes\nplain flour .... 100 %\nwater .... 68 %\nsalt .... 2 %\ndivide 20 x 340 g, loss 1 %\n",
        "no-leaven",
    ),
    // Kilograms for grams, of two lines.
    (
        "recipe Paste\nplain flour .... 500 g\nwater .... 320 kg\nmix: hands 10 min\n    Mix {plain flour} and {water}.\n    until smooth\n",
        "out-of-proportion",
    ),
    // Sugar for flour, beside a little of something that no larder knows.
    (
        "recipe Rings\nicing sugar .... 500 g\nwater .... 300 g\nsea campion tops .... 20 g\nsalt .... 9 g\ninstant yeast .... 4 g\nmix: hands 10 min\n    Knead \
         {icing sugar}, {water}, {sea campion tops}, {salt} and {instant yeast}.\n    until smooth\n",
        "odd-method",
    ),
    (
        "recipe Folds\npart butter block\ncream cheese .... 500 g, cold\nbeat out: hands 8 min\n    Beat {cream cheese} flat.\n",
        "odd-method",
    ),
    (
        "recipe Buns\nplain flour .... 500 g\nwhole milk .... 300 g\nsalt .... 40 g, aside\nmix: hands 10 min\n    Mix {plain flour} and {whole milk}.\n    until \
         smooth\nbake: tend 15 min, using oven at 200 C\n    until gold\ndust: hands 5 s, each\n    Dust with {salt}.\n",
        "odd-method",
    ),
    // A slipped digit of the oven.
    (
        "recipe Treacle slab\ntreacle .... 300 g\nbutter .... 200 g\nplain flour .... 450 g\nwhole milk .... 300 g\negg .... 100 g\nbaking powder .... 15 g\nbeat: hands 10 \
         min\n    Beat all of {treacle}, {butter}, {plain flour}, {whole milk}, {egg} and {baking powder}.\n    until smooth\nbake: tend 40-45 min, using oven at 265 \
         C\n    until a skewer comes out clean\n",
        "odd-bake-time",
    ),
    // Cut before it is rolled out, and baked by the piece before it is piped.
    (
        "recipe Oatcakes\nmakes 20 oatcakes\nplain flour .... 500 g\nwater .... 300 g\nsalt .... 9 g\ndivide 20 x 40 g, loss 1 %\nmix: hands 10 min\n    Mix {plain flour}, {water} \
         and {salt}.\n    until smooth\ncut: hands 10 s, each\n    Cut rounds of {8 cm}.\nroll: hands 10 min\n    Roll out {5 mm} thick.\nbake: tend 15 min, using oven at \
         180 C, 10 at a time\n    until dry\n",
        "step-out-of-place",
    ),
    (
        "recipe Kisses\nmakes 20 kisses\nground almonds .... 300 g\nicing sugar .... 240 g\negg white .... 120 g\ndivide 20 x 32 g, loss 3 %\nbeat: hands 10 min\n    Beat {ground \
         almonds}, {icing sugar} and {egg white}.\nbake: tend 15 min, using oven at 170 C, 10 at a time\n    until gold\npipe: hands 8 s, each\n    Pipe onto lined trays.\n",
        "step-out-of-place",
    ),
    // What aged in the cold is not cooled after it.
    (
        "recipe Ice\nwhole milk .... 1 kg\ncaster sugar .... 200 g\negg yolk .... 100 g\nheat: tend 20 min, using hob at 84 C\n    Heat {whole milk}, {caster sugar} and {egg \
         yolk}.\n    until it coats a spoon\nage: wait 10 h, at 4 C\ncool: hands 10 min\n    Stir over ice.\n    until no warmer than {5 C}\n",
        "step-out-of-place",
    ),
    // Powder in the dough, and the prove in the part that takes it.
    (
        "recipe Crescents\nmakes 10 crescents\npart dough\nplain flour .... 500 g\nwhole milk .... 260 g\nsalt .... 10 g\nbaking powder .... 19 g\ndivide 10 x 78 g, loss 1 %\nmix: hands 10 \
         min\n    Mix {plain flour}, {whole milk}, {salt} and {baking powder}.\n    until smooth\npart crescents\nper piece\ndough .... 1 piece\nshape: hands 20 s, each\n    Roll {dough} \
         up.\nprove: wait 2 h, at 26 C\nbake: tend 16 min, using oven at 200 C\n    until gold\n",
        "no-leaven",
    ),
    // Water does not fry.
    (
        "recipe Rings\ncaution Hot fat: lid at hand.\nplain flour .... 500 g\nwhole milk .... 280 g\nsalt .... 8 g\ninstant yeast .... 6 g\nwater .... 2 kg, aside\nmix: hands 10 min\n    Mix \
         {plain flour}, {whole milk}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 1 h, at 26 C\nfry: hands 30 min, using fryer at 175 C\n    Fry in {water}.\n    until gold\n",
        "odd-method",
    ),
    // A preferment that nothing lets ripen.
    (
        "recipe Sticks\npart poolish, from dough\nplain flour .... 30 %\nwater .... 30 %\ninstant yeast .... 0.03 %\nstir: hands 4 min\n    Stir {plain \
         flour}, {water} and {instant yeast}.\npart dough\nplain flour .... 1 kg = 100 %\nwater .... 65 %\nsalt .... 2 %\ninstant yeast .... 0.4 %\nmix: hands 10 min\n    \
         Mix {poolish}, {plain flour}, {water}, {salt} and {instant yeast}.\n    until smooth\n",
        "odd-ripening",
    ),
    (
        "recipe Jam\nplums .... 1 kg\ncaster sugar .... 1 kg\nboil: tend 25 min, using hob at 104 F\n    Boil {plums} and {caster sugar}.\n    until thick\n",
        "odd-temperature",
    ),
    (
        "recipe Pies\nbeef shin .... 2 kg\nrapeseed oil .... 40 g\nbrown: hands 150 min, using hob\n    Brown {beef shin} in {rapeseed oil}.\n    until brown\n",
        "odd-time",
    ),
    (
        "recipe Bath\ncaution Lye burns: goggles and gloves.\nwater .... 200 g, cold\nlye .... 5 kg\nstir: hands 5 min\n    Stir {lye} into {water}.\n",
        "out-of-proportion",
    ),
    (
        "recipe Sponge\nbutter .... 400 g\nvanilla extract .... 400 g\negg .... 400 g\nself-raising flour .... 400 g\nbeat: hands 5 min\n    Beat {butter}, {vanilla extract}, {egg} and \
         {self-raising flour}.\n    until light\n",
        "out-of-proportion",
    ),
    // An option behind prose would be printed, and both lines done.
    (
        "recipe Rolls\nchoose leaven: fresh or dry\nplain flour .... 500 g\nwater .... 300 g\nfresh yeast .... 15 g [fresh]\ninstant yeast .... 5 g [dry]\nmix: hands 10 \
         min\n    Mix {plain flour}, {water} and {fresh yeast}. [fresh]\n    Mix {plain flour}, {water} and {instant yeast}. [dry]\n    until smooth\n",
        "unknown-option",
    ),
    // Slips that got through a mutator: names of four letters, lost signs, salt without a weight, one thing in another's place.
    (
        "recipe Sheet loaf\nmakes 10 loaves\nflour .... 10 kg\nwater .... 6.2 kg\nsalt .... 200 g\nyeat .... 200 g\n",
        "near-name",
    ),
    (
        "recipe Sheet loaf\nmakes 10 loaves\nflour .... 10 kg\nwater .... 6.2 kg\nslt .... 200 g\nyeast .... 200 g\n",
        "near-name",
    ),
    (
        "recipe Loaf\nmakes 10 loaves\nflour .... 5 kg\nwater .... 3.2 kg\nsalt .... 100 g\ninstant yeast .... 50 g\nmix: hands 10 min\n    Mix {flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 1 h, at 24 C\n    until doubled\nshape: hands 40 s, each\nprove: wait 50 min, at 26 C\nbake: tend 40 min, using oven at 230 C\n    until brown\n",
        "no-sign",
    ),
    (
        "recipe Rings\nplain flour .... 1 kg\nwater .... 560 g\nsalt .... as needed\ninstant yeast .... 10 g\ndivide 20 x 77 g, loss 1.9 %\nmix: hands 10 min\n    Mix {plain flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 1 h, at 26 C\nbake: tend 15 min, using oven at 230 C\n    until brown\n",
        "no-amount",
    ),
    (
        "recipe Flats\nplain flour .... 1 kg\nwater .... 560 g\nsalt .... 20 g\nbaking soda .... to taste, aside\nmix: hands 10 min\n    Mix {plain flour}, {water} and {salt}; strew with {baking soda}.\n    until smooth\nbake: tend 15 min, using oven at 230 C\n    until brown\n",
        "no-amount",
    ),
    (
        "recipe Oat rounds\nmedium oatmeal .... 1 kg, counts as flour\nwater .... 420 g\nbutter .... 180 g, melted\ncaster sugar .... 16 g\nmix: hands 5 min\n    Stir {medium oatmeal}, {caster sugar}, {butter} and {water}.\nbake: tend 30 min, using oven at 170 C\n    until dry\n",
        "no-salt",
    ),
    (
        "recipe Sheet loaf\nmakes 10 loaves\nflour .... 10 kg\nwater .... 6.2 kg\nsalt .... 1 %\nyeast .... 2 %\n",
        "odd-percent",
    ),
    (
        "recipe Bay syrup\ncaster sugar .... 150 g\nsunflower oil .... 75 g\nbay leaf .... 2 g\nboil: tend 5 min, using hob\n    Boil {caster sugar}, {sunflower oil} and {bay leaf}.\n    until clear\n",
        "odd-method",
    ),
    (
        "recipe Baked custard\nwater .... 800 g\negg .... 200 g\ncaster sugar .... 90 g\nwhisk: hands 3 min\n    Whisk {water}, {egg} and {caster sugar}.\nbake: tend 40 min, using oven at 140 C\n    until set\n",
        "odd-method",
    ),
    (
        "recipe Baked custard\nwhole milk .... 800 g\negg .... 90 g\ncaster sugar .... 200 g\nwhisk: hands 3 min\n    Whisk {whole milk}, {egg} and {caster sugar}.\nbake: tend 40 min, using oven at 140 C\n    until set\n",
        "out-of-proportion",
    ),
    (
        "recipe Loaf\nflour .... 1 kg\nwater .... 600 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\nbake: tend 40 min, using oven at 230 C\n    until brown\ncool: wait 1 h 60 min\n",
        "odd-time",
    ),
    (
        "recipe Loaf\nflour .... 1 kg\nwater .... 600 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\nchill: wait 10 h, at 4 C, up to 10 h\nbake: tend 40 min, using oven at 230 C\n    until brown\n",
        "odd-time",
    ),
    (
        "recipe Skerry sticks\nmakes 20 sticks\n\npart sponge, from dough\nwater .... 50 %\nfresh yeast .... all\n\npart dough\nflour .... 10 kg\nwater .... 62 %\nsalt .... 2 %\nfresh yeast .... 1 %\n",
        "odd-percent",
    ),
    (
        "recipe Pear tart\nbutter .... 150 g\ncaster sugar .... 300 g\npears .... 20\nsea holly .... 20\nrub: hands 10 min\n    Rub {butter} into {caster sugar}.\nfill: hands 10 min\n    Lay in {pears} and {sea holly}.\nbake: tend 30 min, using oven at 180 C\n    until set\n",
        "odd-method",
    ),
    (
        "recipe Sponge buns\n\npart sponge\nstrong white flour .... 400 g\nwhole milk .... 300 g\nbaking powder .... 6 g\nstir: hands 4 min\n    Stir {strong white flour}, {whole milk} and {baking powder}.\nrise: wait 1 h, at 26 C\n    until it begins to sink\n\npart dough\nsponge .... all\nstrong white flour .... 500 g\nwater .... 200 g\nsalt .... 15 g\nmix: hands 14 min\n    Mix {sponge}, {strong white flour}, {water} and {salt}.\n    until smooth\nbake: tend 15 min, using oven at 190 C\n    until gold\n",
        "no-leaven",
    ),
    // Bones that are strained out boil nothing away in a minute.
    (
        "recipe Hock stock\npart stock\npork bones .... 1.5 kg, strained out\nwater .... 2.4 kg\nsalt .... 12 g\nmakes 1.2 kg, loss 50 %\nboil: tend 1 min, \
         using hob\n    Simmer {pork bones}, {water} and {salt}; strain.\n    until it sets on a cold plate\n",
        "odd-time",
    ),
    // Small rolls bake no longer because the oven falls a little.
    (
        "recipe Small rounds\nmakes 24 rolls\nstrong white flour .... 100 %\nwater .... 66 %\nsalt .... 2 %\ninstant yeast .... 1 %\ndivide 24 x 60 g, loss 1.5 \
         %\nmix: hands 10 min, using mixer\n    Mix {strong white flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 60 min, at 25 C\n    \
         until doubled\nshape: hands 20 s, each\nprove: wait 45 min, at 27 C\n    until puffy\nbake: tend 45 min, using oven at 250 C then 215 C after 15 \
         min, 24 at a time\n    until dark\n",
        "odd-bake-time",
    ),
    // The turns are in the words of the step, and butter is oil at 38 °C.
    (
        "recipe Butter leaves\nmakes 20 leaves\npart dough\nstrong white flour .... 550 g\nwhole milk .... 300 g, cold\nsalt .... 11 g\ninstant yeast .... 8 \
         g\nmix: hands 9 min, using mixer\n    Mix {strong white flour}, {whole milk}, {salt} and {instant yeast}.\n    until even\nchill: wait 10 h, at 4 \
         C\npart sheet\ndough .... all\nbutter .... 280 g, cold\ndivide 20 x 54 g, loss 6 %\nfold: hands 20 min\n    Lay {butter} on {dough}, lock in, give \
         three single folds.\nchill: wait 1 h, at 4 C\ncut: hands 12 min\nprove: wait 110 min, at 38 C\n    until puffy\nbake: tend 17 min, using oven at 195 C\n",
        "odd-temperature",
    ),
    (
        "recipe Cold levain loaf\nmakes 4 loaves\npart levain, from dough\nstrong white flour .... 15 %\nwater .... 15 %\nsourdough starter .... all\nfeed: hands 4 \
         min\n    Stir {sourdough starter}, {water} and {strong white flour}.\n    until even\nripen: wait 8 h, at 4 C\n    until domed\npart dough\nstrong white \
         flour .... 100 %\nwater .... 70 %\nsourdough starter .... 2 %\nsalt .... 2 %\ndivide 4 x 850 g, loss 1 %\nmix: hands 12 min, using mixer\n    Mix \
         {levain}, {strong white flour} and {water}; add {salt}.\n    until smooth\nbulk: wait 3 h, at 24 C\n    until risen by half\n",
        "odd-ripening",
    ),
    // A steamed pudding that nobody steams.
    (
        "recipe Syrup sponge\nmakes 4 puddings\nbutter .... 400 g, soft\ncaster sugar .... 400 g\negg .... 400 g\nself-raising flour .... 400 g\ndivide 4 x 390 g, \
         loss 2.5 %\ncream: hands 6 min\n    Cream {butter} with {caster sugar}.\nbeat: hands 5 min\n    Beat in {egg}.\nfold: hands 3 min\n    Fold in \
         {self-raising flour}.\nfill: hands 1 min, each\nturn out: hands 30 s, each\n",
        "no-bake",
    ),
];
