//! What stands behind the label, the cost and the stock.

use super::Topic;

/// The label.
pub const LABEL: Topic = Topic {
    name: "label",
    command: "label",
    answers: "what stands on a label: the order of the ingredients, allergens, quantities, net weight and nutrition",
    formulas: &[
        "order: by weight as used at mixing, heaviest first; lines of one name are added up over all parts",
        "net weight = what is made × (1 − bake loss); of a piece: net weight / pieces",
        "drained = net weight × what is left on a sieve / what it weighed with its liquid, as `drained` says; as packed: Σ what went in solid",
        "volume = weight / what a volume weighs, as `weighs` in the head says; the table is of 100 ml then; alcohol by volume = Σ alcohol / \
         0.78924 g per ml / volume",
        "water in the EU = net weight − Σ the other ingredients; at most 5 % of the net weight need not be listed",
        "quantity of an ingredient = its weight as used / net weight; over 100 %: grams in 100 g",
        "a nutrient in 100 g = Σ weight × the larder's share / net weight × 100 g",
        "EU: protein = nitrogen × 6.25 = the larder's protein × 6.25 / its nitrogen factor; carbohydrate = the larder's carbohydrate − fibre \
         − what the protein has more by that, and − acid where it is in the carbohydrate",
        "EU: kJ = 37 fat + 17 carbohydrate + 17 protein + 8 fibre + 29 alcohol + 13 acids, polyols 10 and not 17; kcal = 9, 4, 4, 2, 7, 3 and \
         2.4",
        "US: % daily value = a serving's amount / daily value: fat 78 g, saturated fat 20 g, cholesterol 300 mg, sodium 2300 mg, carbohydrate \
         275 g, fiber 28 g, added sugars 50 g, vitamin D 20 mcg, calcium 1300 mg, iron 18 mg, potassium 4700 mg",
        "what is not known: its least is 0 and its most what the known figures leave of a gram; where both round to the same the row says it, \
         else `at least`, or `not known` where what lacks it weighs over 5 % and could be a third of the figure and more",
        "EU rounding: energy to 1; grams from 10 to 1, above 0.5 to 0.1, else <0.5; saturates above 0.1 to 0.1, else <0.1; salt from 1 g to 0.1, above 0.0125 to 0.01, else <0.01",
        "US rounding: calories below 5 none, to 50 by 5, above by 10; fat below 0.5 g none, below 5 g by 0.5, above by 1; sodium below \
         5 mg none, to 140 by 5, above by 10; carbohydrate, fibre, sugars and protein below 0.5 g none, below 1 g said so, above by 1",
        "salt = 2.5 × sodium",
    ],
    units: "Masses; nutrients in grams (sodium in milligrams) in 100 g and in a piece. A half rounds up.",
    holds: "Calculated, not analysed: as good as the larder, and for what leaves the oven as water only. What is put in to taste or used \
            for dusting is listed and not counted. Bought ingredients have ingredients and allergens of their own: they are on the pack. \
            Added sugar is all sugar of sugars, syrups and what says so, and none of fruit, milk and grain. Alcohol counts as put in. Have \
            a label checked under the law of the place where you sell.",
    sources: &[
        "Regulation (EU) 1169/2011: Annexes I and XIV (nutrients, energy) and Annex II (allergens) (seen); Annex VII Part A (water) by the \
         Dutch authority's page on added water (seen); Article 22 and Annex VIII, 1 (quantities) by the University of Reading's Food \
         Labelling in the UK (seen); Annex X (dates) as ifsqn.com quotes it (seen); Article 21 as Commission notice \
         2017/C 428/01 quotes it, Article 26(3) with Regulation (EU) 2018/775 (seen); Article 18 (from memory)",
        "Regulation (EU) 1169/2011: Annex IX, 5 (liquid media, drained weight), Articles 9(1)(k) and 32(2), as prenku.de prints it (seen); \
         Annex VII Part A, 8 by bfff.co.uk (seen), Part E, 2(b) by SSI 2004/472, regulation 7 (seen); FDA, A Food Labeling Guide, on net \
         contents (seen); 21 CFR 101.9(b)(9) (from memory); OIML R 22, density of alcohol (from memory)",
        "IFIC Foundation 2008: energy of sugar alcohols in the United States, 21 CFR 101.9(c)(1)(i)(F) (seen)",
        "European Commission, guidance on tolerances for nutrient values, December 2012, table 4: rounding, as nutricalc.co.uk and the wiki \
         of a public label program print it (seen)",
        "21 CFR 101.9(c) as FDA's A Food Labeling Guide, Appendix H, October 2009, prints it: rounding (seen)",
        "21 CFR 101.4(a)(1), edition of April 2006: descending order (seen); 101.9(c)(8)(iv) and (c)(9): daily values as UpToDate prints \
         them (seen); 101.9(b)(5) and (7), measures of the household: FDA's Guidelines for Determining Metric Equivalents (seen)",
        "FALCPA 2004 and FDA's page on the FASTER Act: nine allergens (seen)",
        "USDA National Nutrient Database, SR26 composition: the larder's figures (seen)",
    ],
};

/// The cost.
pub const COST: Topic = Topic {
    name: "cost",
    command: "cost",
    answers: "what a batch, a part and a piece cost, and which ingredient makes it dear",
    formulas: &[
        "bought = weight used / edible share; without an edible share all of it is eaten",
        "cost of an ingredient = bought × price; of a part = Σ its own ingredients; of the batch = Σ parts; of a piece = batch / pieces",
        "share of an ingredient = its cost / cost of the batch",
        "a price is old when today − its day > the time given with --older-than, 180 days if nothing is said",
    ],
    units: "Money has the name that the larder gives it and no exchange; prices for each kilogram, litre or piece as the larder says.",
    holds: "Ingredients only. Wages, heat and rent are not in it; the minutes of hands stand beside it. Without a price or a weight the \
            total is the least it costs. Water without a price costs nothing.",
    sources: &["Arithmetic", "that a price is asked again after half a year: common practice, no source"],
};

/// The stock.
pub const STOCK: Topic = Topic {
    name: "stock",
    command: "stock",
    answers: "the largest batch of whole pieces from what there is, what runs out first, and what is left",
    formulas: &[
        "times the recipe = the least of (there is / the recipe takes), over all that was named; then down to whole pieces",
        "the recipe takes = weight used / edible share; a piece that there is weighs what one weighs / edible share",
        "left = there is − used",
    ],
    units: "Masses as they are bought, peel and stones with them.",
    holds: "For what was named: of everything else there is taken to be enough.",
    sources: &["Arithmetic"],
};
