//! A canteen and what it cooks, made up.

pub const KITCHEN: &str = "kitchen Canteen\nkettle x 1, holds 60 kg\nhot cupboard x 1\nblast chiller x 1, holds 15 kg\nfryer x 2, holds 6 pieces\n\
    hob x 4\noven x 1\ncooks 3\nopen 07:30-14:30\nscale 5 g\n";

pub const STEW: &str = "recipe Bean stew\nmakes 120 portions\nuse \"kitchen.miche\"\npart stew\nchicken thigh .... 12 kg, diced\nonion .... 3 kg\n\
    potato .... 12 kg\nchicken stock .... 10 kg\nrapeseed oil .... 200 g\nsalt .... 120 g\nmakes 34 kg, loss 9 %\n\
    fry: tend 25 min, using kettle\n    Fry {onion} and {chicken thigh} in {rapeseed oil}.\n\
    simmer: tend 50-60 min, using kettle, straight after fry\n    Add {potato}, {chicken stock} and {salt}; simmer.\n    until 75 C or above in the middle\n\
    hold: wait 10 min, using hot cupboard at 70 C, up to 90 min\nportion: hands 12 min, shared by 3\n";

pub const CHILLI: &str = "recipe Cook-chill chilli\nmakes 34 kg, loss 7 %\nuse \"kitchen.miche\"\nminced beef .... 12 kg\nonion .... 4 kg\n\
    tinned tomatoes .... 12 kg\ntinned kidney beans .... 8.4 kg\nsalt .... 150 g\nkeeps 3 days, chilled\n\
    brown: tend 20 min, using kettle\n    Brown {minced beef} and {onion}.\n    until no longer pink\n\
    simmer: tend 60 min, using kettle, straight after brown\n    Add {tinned tomatoes}, {tinned kidney beans} and {salt}.\n    until {75 C} in the middle\n\
    blast: wait 90 min, using blast chiller at 3 C\n    until {5 C} in the middle\n";

pub const FISH: &str = "recipe Friday fish\nmakes 60 portions\nuse \"kitchen.miche\"\npart fish\nwhite fish .... 9 kg\nbatter mix .... 2 kg\nwater .... 2.4 kg\n\
    divide 60 x 220 g, loss 1.5 %\nbatter: hands 10 min\n    Whisk {batter mix} and {water}.\ncoat: hands 10 s, each\n    Coat {white fish}.\n\
    fry: tend 7 min, using fryer at 180 C, 6 at a time\n    until gold and {70 C} in the middle\n\
    hold: wait 5 min, using hot cupboard at 75 C, up to 40 min\n";

pub const BAGELS: &str = "recipe Boiled bagels\nmakes 24 bagels, bake loss 10 %\nuse \"kitchen.miche\"\npart dough\nstrong white flour .... 1.5 kg\nwater .... 56 %\n\
    salt .... 2 %\ninstant yeast .... 0.4 %\ndivide 24 x 97 g, loss 1.8 %\nmix: hands 12 min\n    until stiff and smooth\nrest: wait 20 min, at 22 C\n\
    shape: hands 40 s, each, may stand 20 min\nretard: wait 1 h, at 4 C, up to 4 h\npart kettle\nwater .... 6 kg\nmalt syrup .... 120 g\n\
    heat: tend 20 min, using hob\n    Bring {water} and {malt syrup} to the boil.\n    until it boils\n\
    part bagels\nkettle .... all, strained out\ndough .... all\nsesame seeds .... 120 g\ndivide 24 x 102 g\nboil: tend 1 min, using hob, 6 at a time\n\
    \x20   Boil {dough} in {kettle}, {30 s} on each side.\n    until the skin is tight\nstrew: hands 5 s, each\n    Press into {sesame seeds}.\n\
    bake: tend 18 min, using oven at 230 C, 12 at a time\n    until brown\ncool: wait 30 min\n";
