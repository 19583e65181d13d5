//! What stands behind each bench sum: its formula, its units and its sources, for `miche explain`.

mod figures;

use std::fmt::Write;

/// A sum, explained.
#[derive(Debug, PartialEq, Eq)]
pub struct Topic {
    /// Its name: `miche explain water`.
    pub name: &'static str,
    /// The command that prints it.
    pub command: &'static str,
    /// What it answers.
    pub answers: &'static str,
    /// Formula after formula.
    pub formulas: &'static [&'static str],
    /// The units, and what is counted.
    pub units: &'static str,
    /// Where it holds and where not.
    pub holds: &'static str,
    /// Where it was published, and whether that was seen.
    pub sources: &'static [&'static str],
}

/// Water and ice.
pub const WATER_TEMPERATURE: Topic = Topic {
    name: "water",
    command: "sums",
    answers: "how warm the water must be for the desired dough temperature by two sums, which of them to use, and how much of it is ice",
    formulas: &[
        "water = 3 × desired − (room + flour + friction)",
        "with a preferment: water = 4 × desired − (room + flour + preferment + friction)",
        "friction, from a dough that was measured: 3 × dough − (room + flour + water)",
        "ice, handbook: ice = water × (tap − wanted) / (tap + 80), in place of water",
        "balance of heat: Σ mass × heat × temperature of all that goes in + warming of the mix = mass × heat × desired; \
         specific heat at T °C = 4.18 × water + (1.9842 + 0.0014733 T − 0.0000048008 T²) × fat + (1.5488 + 0.0019625 T − 0.0000059399 T²) × \
         the rest, each at the temperature with which it goes in; the mix warms by friction / 3 (or / 4); ice takes up 334 J/g",
        "use the balance where there is no friction, and where what is poured or the preferment is less than half or more than one and a \
         half of its third (with a preferment, its fourth) of the dough, or the preferment so cold that this moves the water by more than 5 °C, \
         and in rooms where it says 0 to 43 °C and the handbook does not or lies more than 10 °C from it; else the handbook",
    ],
    units: "Temperatures in °C (in °F the same formulas hold, but for ice: tap + 112). Friction is a difference, as the handbook \
            counts it: three or four times what the mixer really warms the dough. Specific heats in J/(g K).",
    holds: "The handbook takes a plain mean and knows no masses; it is right for a dough of some 60 % of water with a friction \
            that was found by it, and a friction factor is good only with the method that it was measured by. Without friction, or with \
            masses far from equal (a dough that is half sour), the two lie 5 to 9 °C apart, and the balance is the one to use. What is \
            poured has one temperature, but for a line with its own `at`. Colder than the tap, what is not water comes from the \
            refrigerator (4 °C at the coldest) before ice is taken. Without a word from the baker, flour \
            is as warm as the room, a preferment as its last place, the tap 15 °C. Yeast dies above 43 °C.",
    sources: &[
        "T. Lehmann, PMQ, spring 2003, and Pizza Today, June 2018, p. 29: the formula and its inverse (seen)",
        "San Francisco Baking Institute, Artisan I hand-out: the factor of four (seen as quoted)",
        "W. Gisslen, Professional Baking: the form of the ice formula (from memory; derivation checked)",
        "Ice temperature table of a trade supplier, and Baking Business 58994: 144 BTU a pound (seen)",
        "Choi and Okos, 1986: specific heats of fat and carbohydrate by the temperature (seen as carried by github.com/mirrorscotty/\
         material-data and by studylib.net 9707268)",
        "FDA Food Code 3-501.16: 5 °C and below in the refrigerator (seen); 4 °C and the limits of far from equal: common practice, no source",
        "TM 10-412 (2003), card D-G-2: yeast dies above 110 °F (seen)",
    ],
};

/// Forms of yeast.
pub const YEAST: Topic = Topic {
    name: "yeast",
    command: "sums",
    answers: "how much of one form of yeast does the work of another",
    formulas: &["active dry = 0.4 × fresh", "instant = 0.33 × fresh"],
    units: "Masses; the factors have no unit.",
    holds: "For ordinary doughs. Sweet doughs want yeast made for them, and every maker's label goes first.",
    sources: &[
        "J. Hamelman, Bread (2004), 'Yeast conversions, fresh to dry' (seen)",
        "USDA SR26 18374 and 18375: dry matter 31.0 and 94.9 %, a ratio of 0.327 (seen)",
    ],
};

/// Building a levain.
pub const LEVAIN: Topic = Topic {
    name: "levain",
    command: "sums",
    answers: "how to build a levain from a seed in so many feeds",
    formulas: &[
        "each feed makes factor × what went into it; factor: the smallest multiple of ½ with seed × factor^feeds ≥ needed",
        "backwards from what is needed: ripe = makes / factor; flour = (makes − ripe) / (1 + hydration); water = the rest",
        "feed k of n begins (n − k + 1) × ripening time before it is to be ripe",
    ],
    units: "Masses; hydration is water on flour. The ripening time is what the baker says with `--every`.",
    holds: "For a seed of the same hydration as the levain. No feed multiplies by more than 20.",
    sources: &[
        "Arithmetic. The Bread Bakers Guild's formula sheet of 11.345 kg (seen) is one feed by a factor of five",
        "the limit of 20: common practice, no source",
    ],
};

/// The estimate of fermentation.
pub const FERMENTATION: Topic = Topic {
    name: "fermentation",
    command: "sums",
    answers: "how far each choice of a recipe has fermented, and by how much the yeast must change when a rest does; an estimate",
    formulas: &[
        "hours at 25 °C = ∫ speed(T(t)) dt / speed(25 °C); two versions are alike when yeast × hours are",
        "speed(T) = (T − Tmax)(T − Tmin)² / ((Topt − Tmin)[(Topt − Tmin)(T − Topt) − (Topt − Tmax)(Topt + Tmin − 2T)])",
        "baker's yeast: Tmin 2.8, Topt 32.3, Tmax 45.4 °C; yeast of a sourdough: 8, 28, 35 °C",
        "in brackets: speed(T) = 1.1^T, a tenth more for each degree",
        "a piece cools as a ball: T = place + (T0 − place) e^(−t/τ), τ = ρ c r/3 × (1/h + r/5k), h = 10 W/(m² K), \
         ρ = 1100 kg/m³, c = 2800 J/(kg K), k = 0.4 W/(m K)",
        "new yeast = yeast × hours before / hours after",
    ],
    units: "Hours as if at 25 °C; yeast as instant on flour. A range of times counts with its middle; a step without a temperature \
            stands in the room (22 °C unless `--room` says).",
    holds: "From 5 to 35 °C (levain 10 to 33 °C), for one flour and one yeast compared with itself. It counts growth, no lag, sugar, salt, \
            acid or wear, and takes gas to follow growth; in the cold yeast still makes some gas when it no longer grows. The \
            published points of sourdough yeast are met within a half; take a third either side as its uncertainty.",
    sources: &[
        "Salvadó et al., Applied and Environmental Microbiology 77 (2011) 2292: optimum 32.3 and maximum 45.4 °C of S. cerevisiae, minima of \
         the genus 1.3 to 4.3 °C (abstract seen; the middle is taken)",
        "M. Gänzle in the rec.food.sourdough FAQ, question 39, on Gänzle, Ehmann and Hammes, AEM 64 (1998) 2616: yeast of a sourdough (seen)",
        "Rosso, Lobry and Flandrois, Journal of Theoretical Biology 162 (1993) 447: the growth model (seen as GroPIN's model 171 has it, \
         github.com/RakipInitiative/ModelRepository; named in Rosso et al., AEM 61 (1995) 610, abstract seen)",
        "bake magazine, 'The science of fermentation': a degree is about a tenth (seen)",
        "Choi and Okos, 1986, as carried by github.com/mirrorscotty/material-data (seen): heat, density and conductivity of a dough of 62 % of \
         water with a tenth of gas; free convection of gases is 2 to 25 W/(m² K) (Y. Çengel's notes on convection, seen), of which h = 10 is \
         common practice, no source",
        "alike from 80 to 125 %: common practice, no source",
    ],
};

/// Tins.
pub const PANS: Topic = Topic {
    name: "tins",
    command: "sums",
    answers: "how much dough a tin, a round or a sheet takes, how it scales to another, and what a piece weighs when baked",
    formulas: &[
        "area of a round = π/4 × across²; of a sheet or tin = length × width; volume = area × height",
        "dough for another tin = dough × its volume / this volume, by area where a height is missing",
        "baked = before × (1 − bake loss)",
    ],
    units: "Tin in ml for each gram of dough; dough in grams for each litre or square centimetre.",
    holds: "A loaf that fills its tin takes 3.2 to 4.4 ml of it for each gram of dough; a home loaf that stands above the rim 2 to 3 \
            (common practice, no source). Other depths bake for other times.",
    sources: &[
        "NIST, Household Weights and Measures (SP 430): areas and volumes (seen)",
        "T. Lehmann, Pizza Today, Oct 2019, p. 20-22; Sept 2012; Oct 2013: dough by area (seen)",
        "A retail bakers' manual of the middle of the 20th century (seen, title not on the page): 7.6 cubic inches for each ounce \
         of dough in pan bread, 5.5 for rich formulas",
    ],
};

/// What things consist of.
pub const COMPOSITION: Topic = Topic {
    name: "composition",
    command: "sums",
    answers: "how much flour, water, fat, salt and sugar is in every part and in the whole, and the hydration and salt that really are",
    formulas: &[
        "water = Σ mass × share of water in the larder, over all ingredients but flour; fat, salt and sugar likewise, over all",
        "salt = salt as it is weighed + Σ mass × salt of salted butter, cheese and the like; not the sodium of flour, baking soda and \
         baking powder, which a label counts as salt",
        "hydration = water / flour; by the lines: (water, milk and their like as a whole) / flour",
    ],
    units: "Masses; shares on flour as it comes, its own moisture counted as flour.",
    holds: "As far as the larder knows the ingredients; what it does not know counts as nothing and is said.",
    sources: &[
        "USDA National Nutrient Database, SR26 composition and SR28 weights: the larder (seen)",
        "W. Gisslen's sponge brioche: 71.7 % of water by this sum, 59.2 % without that of the butter (formula seen, sum recomputed)",
    ],
};

/// Brines and preserves.
pub const PRESERVES: Topic = Topic {
    name: "preserves",
    command: "sums",
    answers: "how salty a brine is, how sour a pickle, how sweet a preserve",
    formulas: &[
        "salt in the brine = salt / (salt + liquids); on everything = salt / all that goes in",
        "acid in the liquid = Σ mass × acidity / liquids",
        "sugar on what comes out = sugar / makes",
    ],
    units: "Shares by weight, in percent; acidity as acetic acid, from the label of the vinegar.",
    holds: "Sums of what goes in. None of them says that a jar is safe: that needs a tested process, measured pH and the local food law.",
    sources: &[
        "University of Wisconsin-Madison Extension, 7 Aug 2023: vinegar of 5 % (seen)",
        "21 CFR 114.3: acidified foods, finished equilibrium pH 4.6 or below (seen)",
        "sugar of 60 % and more for keeping: common practice, no source",
    ],
};

/// All topics.
pub const ALL: &[&Topic] = &[
    &WATER_TEMPERATURE,
    &YEAST,
    &LEVAIN,
    &FERMENTATION,
    &PANS,
    &COMPOSITION,
    &PRESERVES,
    &figures::LABEL,
    &figures::COST,
    &figures::STOCK,
];

/// The topic of that name.
pub fn find(name: &str) -> Option<&'static Topic> {
    ALL.iter().copied().find(|topic| topic.name == name)
}

/// A topic as plain text.
pub fn explain(topic: &Topic) -> String {
    let mut text = String::new();
    let _ = writeln!(text, "{} (sum, `miche {}`)\n", topic.name, topic.command);
    let _ = writeln!(text, "Answers {}.\n", topic.answers);
    for formula in topic.formulas {
        let _ = writeln!(text, "    {formula}");
    }
    let _ = writeln!(text, "\nUnits. {}\n\nWhere it holds. {}", topic.units, topic.holds);
    for source in topic.sources {
        let _ = write!(text, "\nSource: {source}");
    }
    text.push('\n');
    text
}

/// All topics, a line each.
pub fn list() -> String {
    let width = ALL.iter().map(|topic| topic.name.len()).max().unwrap_or(0);
    let mut text = String::from("Bench sums\n");
    for topic in ALL {
        let _ = writeln!(text, "  {:width$}  {}", topic.name, topic.answers);
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_source_says_how_it_is_known() {
        for topic in ALL {
            for source in topic.sources {
                let known = ["seen", "from memory", "common practice, no source", "Arithmetic"]
                    .iter()
                    .any(|mark| source.contains(mark));
                assert!(known, "{}: {source}", topic.name);
            }
            assert_eq!(find(topic.name), Some(*topic));
        }
    }
}
