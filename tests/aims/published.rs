//! Worked examples as they are printed. Where 'seen' stands, the page was read on 2026-11-26; the figures in the blocks are the
//! example's own, and so is the answer.

use crate::bench::bench;
use miche::aims::change::{Outcome, Wish};

/// A worked example.
struct Example {
    source: &'static str,
    /// Name, what it is, and its facts: lines of a larder block with `;` between.
    larder: &'static [(&'static str, &'static str)],
    /// Aims and lines of the one part.
    recipe: &'static str,
    /// Which lines may change; none: all but the base.
    change: &'static [&'static str],
    /// What they come to, in grams.
    answer: &'static [(&'static str, f64)],
    /// How far the printed answer is rounded, in grams.
    within: f64,
}

const CREAM_40: (&str, &str) = ("cream A", "fat 40 %; water 60 %; is dairy");
const SKIM: (&str, &str) = ("skim A", "fat 0 %; water 91 %; is milk");

const EXAMPLES: &[Example] = &[
    Example {
        source: "dairyscience.info, calculator for ice cream of butter and skim-milk powder, M. Mullan 2009 (seen): 10 % fat, 10.4 % milk \
                 solids not fat, 14.5 % sugar",
        larder: &[
            ("butter A", "fat 84 %; water 16 %; is fat; contains milk"),
            ("powder A", "fat 0 %; water 3 %; is dairy"),
            ("yolk A", "fat 0 %; water 50 %; is egg"),
            ("stabiliser A", "fat 0 %; water 0 %; is thickener"),
        ],
        recipe: "aim weight 100.00 kg\naim fat 10.00 % of total\naim milk solids not fat 10.40 % of total\naim caster sugar 14.50 % of total\n\
                 aim yolk A 3.00 % of total\naim stabiliser A 0.50 % of total\n\
                 butter A .... 10.000 kg\npowder A .... 8.000 kg\ncaster sugar .... 10.000 kg\nyolk A .... 3.000 kg\nstabiliser A .... 0.500 kg\nwater .... 60.000 kg\n",
        change: &[],
        answer: &[("butter A", 11_900.0), ("powder A", 10_720.0), ("caster sugar", 14_500.0), ("water", 59_370.0)],
        within: 10.0,
    },
    Example {
        source: "dairyscience.info, the same calculator, 2010 (seen): 10 % fat, 10.2 % milk solids not fat, 16 % sugar",
        larder: &[
            ("butter A", "fat 84 %; water 16 %; is fat; contains milk"),
            ("powder A", "fat 0 %; water 3 %; is dairy"),
            ("yolk A", "fat 0 %; water 50 %; is egg"),
            ("stabiliser A", "fat 0 %; water 0 %; is thickener"),
        ],
        recipe: "aim weight 100.00 kg\naim fat 10.00 % of total\naim milk solids not fat 10.20 % of total\naim caster sugar 16.00 % of total\n\
                 butter A .... 14.000 kg\npowder A .... 12.000 kg\ncaster sugar .... 14.500 kg\nyolk A .... 3.000 kg\nstabiliser A .... 0.500 kg\nwater .... 50.000 kg\n",
        change: &["butter A", "powder A", "caster sugar", "water"],
        answer: &[("butter A", 11_900.0), ("powder A", 10_500.0), ("caster sugar", 16_000.0), ("water", 58_100.0)],
        within: 50.0,
    },
    Example {
        source: "dairyscience.info, calculator for ice cream of milk, cream and powder (seen): 18 % milk fat, 8.94 % milk solids not fat",
        larder: &[
            ("cream B", "fat 30 %; water 63.7 %; is dairy"),
            ("milk B", "fat 3.5 %; water 87.5 %; is milk"),
            ("powder A", "fat 0 %; water 3 %; is dairy"),
            ("syrup solids A", "fat 0 %; water 20 %; is syrup"),
            ("stabiliser A", "fat 0 %; water 0 %; is thickener"),
            ("vegetable fat A", "fat 0 %; water 0 %; is other"),
        ],
        recipe: "aim weight 100.00 kg\naim fat 18.00 % of total\naim milk solids not fat 8.94 % of total\n\
                 powder A .... 5.00 kg\ncream B .... 50.00 kg\nmilk B .... 20.00 kg\ncaster sugar .... 15.00 kg\nsyrup solids A .... 3.75 kg\n\
                 stabiliser A .... 0.40 kg\nvegetable fat A .... 4.00 kg\n",
        change: &["powder A", "cream B", "milk B"],
        answer: &[("powder A", 4_090.0), ("cream B", 58_320.0), ("milk B", 14_440.0)],
        within: 20.0,
    },
    Example {
        source: "dairytechnologist.com, 'formulate ice cream mix', algebraic equations (equations seen, their solution worked out): 12 % fat, \
                 10 % milk solids not fat of cream 38.5/5.5, milk 3.5/8.5, powder 0/96",
        larder: &[
            ("cream C", "fat 38.5 %; water 56 %; is dairy"),
            ("milk C", "fat 3.5 %; water 88 %; is milk"),
            ("powder C", "fat 0 %; water 4 %; is dairy"),
            ("gelatin C", "fat 0 %; water 0 %; is thickener"),
        ],
        recipe: "aim weight 100.00 kg\naim fat 12.00 % of total\naim milk solids not fat 10.00 % of total\n\
                 cream C .... 20.00 kg\nmilk C .... 60.00 kg\npowder C .... 5.00 kg\ncaster sugar .... 14.00 kg\ngelatin C .... 0.70 kg\n",
        change: &["cream C", "milk C", "powder C"],
        answer: &[("cream C", 26_160.0), ("milk C", 55_100.0), ("powder C", 4_040.0)],
        within: 25.0,
    },
    Example {
        source: "University of Guelph, 'Standardization problems', 1 (seen): 160 kg of cream of 40 % to 32 % fat",
        larder: &[CREAM_40, SKIM],
        recipe: "aim fat 32.00 % of total\ncream A .... 160 kg\nskim A .... 10.000 kg\n",
        change: &["skim A"],
        answer: &[("skim A", 40_000.0)],
        within: 5.0,
    },
    Example {
        source: "University of Guelph, 'Standardization problems', 2, by Pearson's square (seen): cream of 35 % to 500 kg of milk of 4 % for 10 %",
        larder: &[("cream D", "fat 35 %; water 65 %; is dairy"), ("milk D", "fat 4 %; water 87 %; is milk")],
        recipe: "aim fat 10.00 % of total\nmilk D .... 500 kg\ncream D .... 10.000 kg\n",
        change: &["cream D"],
        answer: &[("cream D", 120_000.0)],
        within: 5.0,
    },
    Example {
        source: "zanotowane.pl, 'kwadrat Pearsona' (seen): 10 000 kg of milk of 3.5 % with skimmed milk of 0.05 % to 1.5 % fat",
        larder: &[("milk E", "fat 3.5 %; water 88 %; is milk"), ("skim E", "fat 0.05 %; water 91 %; is milk")],
        recipe: "aim fat 1.5000 % of total\nmilk E .... 10000 kg\nskim E .... 9000 kg\n",
        change: &["skim E"],
        answer: &[("skim E", 13_793_100.0)],
        within: 500.0,
    },
    Example {
        source: "chadhasales.com, 'how to standardise milk', Pearson's square (seen): 2.6 parts of milk of 3.9 % and 1.3 of skimmed milk to 2.6 %",
        larder: &[("milk F", "fat 3.9 %; water 88 %; is milk"), ("skim F", "fat 0 %; water 91 %; is milk")],
        recipe: "aim weight 3.900 kg\naim fat 2.600 % of total\nmilk F .... 3.000 kg\nskim F .... 1.000 kg\n",
        change: &[],
        answer: &[("milk F", 2_600.0), ("skim F", 1_300.0)],
        within: 2.0,
    },
    Example {
        source: "examoo.com, question 5925, Pearson's square (seen): milk of 6 % and skimmed milk of 0.1 % to 3.5 %: 3.4 parts of 5.9",
        larder: &[("milk G", "fat 6 %; water 85 %; is milk"), ("skim G", "fat 0.1 %; water 91 %; is milk")],
        recipe: "aim weight 5.9000 kg\naim fat 3.5000 % of total\nmilk G .... 3.000 kg\nskim G .... 3.000 kg\n",
        change: &[],
        answer: &[("milk G", 3_400.0), ("skim G", 2_500.0)],
        within: 2.0,
    },
    Example {
        source: "theprimecalculator.com, flour protein blend (seen): flours of 10 % and 14 % to 500 g of 12 %",
        larder: &[
            ("weak H", "protein 10 %; counts as flour; is flour"),
            ("strong H", "protein 14 %; counts as flour; is flour"),
        ],
        recipe: "aim weight 500.0 g\naim protein 12.00 %\nweak H .... 400.0 g\nstrong H .... 100.0 g\n",
        change: &["weak H", "strong H"],
        answer: &[("weak H", 250.0), ("strong H", 250.0)],
        within: 0.6,
    },
    Example {
        source: "realbakingwithrose.com, forum, blending flours (seen): 14.2 % to 100 g of 8 % for 9.2 %; printed 25 g, exactly 24",
        larder: &[
            ("cake I", "protein 8 %; counts as flour; is flour"),
            ("hard I", "protein 14.2 %; counts as flour; is flour"),
        ],
        recipe: "aim protein 9.200 %\ncake I .... 100 g\nhard I .... 10.0 g\n",
        change: &["hard I"],
        answer: &[("hard I", 24.0)],
        within: 0.1,
    },
    Example {
        source: "allexperts.com, 'percent mixture' (question seen, answer worked out): gluten of 70 % to 1 kg of wholemeal of 11.9 % for 15 %",
        larder: &[
            ("wholemeal J", "protein 11.9 %; counts as flour; is flour"),
            ("gluten J", "protein 70 %; counts as flour; is flour"),
        ],
        recipe: "aim protein 15.000 %\nwholemeal J .... 1000 g\ngluten J .... 20.0 g\n",
        change: &["gluten J"],
        answer: &[("gluten J", 56.4)],
        within: 0.15,
    },
    Example {
        source: "algebra.com, mixtures, 1161827 (seen): 65 kg of brine of 7 % to 5 %",
        larder: &[("brine K", "salt 7 %; water 93 %; is brine")],
        recipe: "aim salt 5.0000 % of total\nbrine K .... 65 kg\nwater .... 5.000 kg\n",
        change: &["water"],
        answer: &[("water", 26_000.0)],
        within: 5.0,
    },
    Example {
        source: "algebra.com, question 394397 (seen): 20 of brine of 15 % to 10 %",
        larder: &[("brine L", "salt 15 %; water 85 %; is brine")],
        recipe: "aim salt 10.0000 % of total\nbrine L .... 20 kg\nwater .... 1.000 kg\n",
        change: &["water"],
        answer: &[("water", 10_000.0)],
        within: 5.0,
    },
    Example {
        source: "edu.com, question 429964 (seen): brine of 4 % to 16 of brine of 10 % for 8 %",
        larder: &[("brine M", "salt 10 %; water 90 %; is brine"), ("brine N", "salt 4 %; water 96 %; is brine")],
        recipe: "aim salt 8.0000 % of total\nbrine M .... 16 kg\nbrine N .... 1.000 kg\n",
        change: &["brine N"],
        answer: &[("brine N", 8_000.0)],
        within: 5.0,
    },
    Example {
        source: "onstudier.com, 21656728 (seen): salt to 6 kg of water for a solution of 20 %",
        larder: &[],
        recipe: "aim salt 20.0000 % of total\nwater .... 6 kg\nsalt .... 0.500 kg\n",
        change: &["salt"],
        answer: &[("salt", 1_500.0)],
        within: 5.0,
    },
    Example {
        source: "allexperts.com, 'mixture', 2013 (seen): 1 kg of salt makes 194 kg of brine of 2.5 % one of 3 %",
        larder: &[("brine O", "salt 2.5 %; water 97.5 %; is brine")],
        recipe: "aim salt 3.00000 % of total\nbrine O .... 194 kg\nsalt .... 0.500 kg\n",
        change: &["salt"],
        answer: &[("salt", 1_000.0)],
        within: 2.0,
    },
    Example {
        source: "jiskha.com, 922574 (seen): water to 8 oz of syrup of 60 % sugar for 5 %: 88 oz",
        larder: &[("syrup P", "sugar 60 %; water 40 %; is syrup")],
        recipe: "aim sugar 5.0000 % of total\nsyrup P .... 8 oz\nwater .... 10.00 oz\n",
        change: &["water"],
        answer: &[("water", 88.0 * 28.349_523_125)],
        within: 5.0,
    },
    Example {
        source: "montessorimuddle.org, currant jam (seen): 2.0 kg of juice to a jam of 60 % sugar: 3.0 kg",
        larder: &[("currant juice", "sugar 0 %; water 100 %; is juice")],
        recipe: "aim caster sugar 60.0000 % of total\ncurrant juice .... 2 kg\ncaster sugar .... 1.000 kg\n",
        change: &["caster sugar"],
        answer: &[("caster sugar", 3_000.0)],
        within: 5.0,
    },
    Example {
        source: "pdfcoffee.com, 'calculation for jelly' (seen): 50 kg of mango jam of 70 % soluble solids and 0.6 % acid of 20.41 kg of pulp of \
                 12.3 % and 0.8 %; 32.123 kg of sugar, 0.137 kg of acid",
        larder: &[
            ("mango pulp", "sugar 12.3 %; water 86.9 %; acid 0.8 %; is fruit"),
            ("sugar Q", "sugar 100 %; water 0 %; is sugar"),
            ("pectin Q", "sugar 100 %; water 0 %; is thickener"),
            ("acid Q", "sugar 100 %; acid 100 %; water 0 %; is other"),
        ],
        // Pectin and acid are soluble solids there.
        recipe: "makes 50 kg, loss 5.48 %\naim sugar 70.000 % of total\naim acid 0.6000 % of total\n\
                 mango pulp .... 20.410 kg\nsugar Q .... 31.500 kg\npectin Q .... 0.230 kg\nacid Q .... 0.100 kg\n",
        change: &["sugar Q", "acid Q"],
        answer: &[("sugar Q", 32_123.0), ("acid Q", 137.0)],
        within: 12.0,
    },
];

#[test]
fn worked_examples_come_out_as_printed() {
    for example in EXAMPLES {
        let mut larder = String::from("ingredient sand\nwater 0 %\n");
        for (name, facts) in example.larder {
            larder.push_str(&format!("\ningredient {name}\n{}\n", facts.replace("; ", "\n")));
            if !facts.contains("contains") {
                larder.push_str("contains nothing\n");
            }
        }
        let recipe = format!("recipe Worked\nuse \"larder.miche\"\npart mix\n{}", example.recipe);
        let bench = bench(&recipe, &larder);
        let others: Vec<&String> = bench.errors.iter().filter(|error| !error.starts_with("aim-missed")).collect();
        assert!(others.is_empty(), "{}: {others:?}", example.source);
        assert!(!bench.errors.is_empty(), "{}: the aims are met from the start", example.source);
        let free = bench.free(example.change);
        let Outcome::Found(answer) = bench.solve(&free, Wish::LeastChange) else {
            panic!("{}: {:?}", example.source, bench.solve(&free, Wish::LeastChange));
        };
        assert!(!answer.within_digits, "{}: met exactly", example.source);
        for (which, times) in [("exact", &answer.exact), ("rounded", &answer.rounded)] {
            let grams = bench.grams(times);
            for (name, wanted) in example.answer {
                let (_, found) = grams.iter().find(|(known, _)| known == name).expect("a line of that name");
                let off = (found - wanted).abs();
                // What is rounded may be off by what the digits of the aims leave open.
                let room = if which == "exact" { example.within } else { example.within + wanted * 0.005 };
                assert!(off <= room, "{}, {which}: {name} is {found} g and not {wanted} g", example.source);
            }
        }
    }
    assert!(EXAMPLES.len() >= 15, "{} examples", EXAMPLES.len());
}
