//! Ugly texts, each with what it shows. Seen together with the result in the snapshots.

/// Name and text.
pub const UGLY: &[(&str, &str)] = &[
    (
        "leaders_and_long_names",
        "recipe Pier rolls\nmakes 4 rolls\nstrong white flour..400 g\nwater … 62 %\nsalt ................................................. 2 %\n\
         slow-dried sour cherries from the north shore ..... 40 g\ncrème fraîche .. 20 g\nnote....5 g\nday ... 3 g\n70 % chocolate .. 30 g\n",
    ),
    (
        "clauses_in_order",
        "recipe Kelp loaf\n\
         oat flour .. as needed ,aside,  not flour\n\
         plums .. 900 g, stoned,YIELD 92%, optional , at 20°C,   cut   small\n\
         meal .... 1kg,  washed, COUNTS  AS flour,at 4 C\n\
         bake: tend 14 min, station deck, people 2, after mix, up to 20min, 12 AT A TIME, using oven at 190C\n\
         rest: wait 1 h, at 24 C, using proving cupboard at 26 C\n\
         cool: wait 1 h, straight  after bake, within 10 min after rest, at 4 C\n",
    ),
    (
        "numbers_keep_their_digits",
        "recipe Exact loaf\nflour .. 1½ kg = 1.50 KG\nwater .. .750 Kg\nsalt .. 0.50 %\nbutter .. ½LB = 8 OZ\nmilk .. 2   1/2 Cup\n\
         cream .. 1 CUP\nhoney .. 7.0 g\nstock .. 2/4 L\nmix: hands 1h30min\nchill: wait 1h – 1 h 30min, at −18 °C\nprove: wait 90—120MIN, at −2–4 C\nkeeps 1 Days\n",
    ),
    (
        "conditions_and_comments",
        "recipe Two ways\nchoose  mixing :hand OR machine\nyeast .... 1.2 %[machine]\nyeast .... 0.7 %      [ hand ]   # less of it   \n\
         salt .... 2 % # from the pans\nflour of the very old and very slow windmill .... 1 kg, sieved twice [hand]\n\
         note A line that is longer than the column of conditions by far [hand ,  machine] # kept\n\
         part crumb   [hand]\n",
    ),
    (
        "blank_lines_and_parts",
        "\n\n\nrecipe Layers\n\n\n\n# A head comment.\n\n\nnote Fine.\npart base\nflour .. 100 g\n# About the top,\n# in two lines.\npart top\n\n\
         # Not about the part.\n\npart last\n\n\n\n",
    ),
    (
        "prose_keeps_its_lines",
        "recipe Prose\nflour .. 1 kg\nmix: HANDS 5 min\n  Mix { flour } with\n  {500G of  flour}:\n     - first {½ of flour}\n     - then {Rest  Of flour};\n\
         \n\n\n  Until  it is\n      smooth {at all}\n  # a comment among the prose\n  Bake at {190°C=375°F}  for {4–5min}.  \n# at the margin\n  A \\{plain\\} brace.\n",
    ),
    (
        "indented_heads",
        "  recipe Askew\n   makes 2 rolls\n flour .. 1 kg\n    mix: hands 5 min\n      Mix {flour}.\n       until smooth\n        and even\n   NOTE said\n      and said\n",
    ),
    (
        "tabs",
        "recipe Tabs\nflour\t....\t1 kg,\tsieved\nmix:\thands\t5 min\n\tMix {flour}:\n\t\t- one\n\t\t\t- two\n\tuntil smooth\n",
    ),
    (
        "strays_stay_to_the_byte",
        "recipe Strays\nflour .. 1 kg\n   what is  this \t \nsalt .. 5 parsecs  # kept\nbutter .. 0,5 kg\n  mix: hands\n     Mix {flour.\n    {flour} is prose of a broken step\n\
         knead: hands 4 min\n  Knead  {flour}.\n     sugar ......... 4 g\n  Go on.\nmakes 4 rolls, loss 2 %, loss 3 %\n",
    ),
    (
        "a_stray_that_would_continue_a_step",
        "recipe Deep\n    mix: hands 4 min\n        Mix.\n    oven hot\n  fold: hands 4 min\n      Fold.\nshape: hands 1 min\n  Shape.\n",
    ),
    (
        "a_kitchen_and_its_larder",
        "KITCHEN Skerrow  school\nOven X 2,friction 3 °C,HOLDS 8kg\nmixer × 1\nCooks 02\nopen 7:00–24:00\nfine  Scale 0.10g ,up  to 200G\n\
         ingredient  whole milk\nWeighs 245 g PER cup us\nweighs 1.030 KG per 1 L\none WEIGHS 50g\nwater 88%\nENERGY 64 kcal\nCounts as  flour\nalso CALLED full milk ,  milk\n\
         contains MILK\ncosts 1.20 EUR per KG\nSOURCE  As on  the can\n",
    ),
    (
        "a_day",
        "day  Market\nuse   \"kitchen.miche\"\nready 2027-4-7T9:05\nmake 48 OF \"buns.miche\",ready 2027-04-07 08:00,choose mixing=hand\nmake 2½kg of \"dough.miche\"\n",
    ),
    (
        "lists_and_free_words_of_the_label",
        "recipe Rolls\nmay contain nuts ,sesame,  pine   nut\nbusiness The Bakehouse ,3  Harbour Street\nstore Cool ,dry.\nfiled under rolls ,soft\n\
         flour .. 1 kg\n",
    ),
    (
        "carriage_returns_throughout",
        "recipe Windows\r\nflour..1 kg\r\n\r\n\r\nmix: hands 4 min\r\n  Mix {flour}.  \r\n\r\n",
    ),
    ("carriage_returns_here_and_there", "\u{FEFF}recipe Mixed\r\nflour..1 kg\nwhat is this\r\nsalt..1 g"),
];
