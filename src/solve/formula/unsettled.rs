//! What was left without an amount, so that nothing that a file lists can vanish without a word.

use super::Formula;
use crate::model::recipe::{LineAmount, PartId, Recipe, Refers};
use crate::text::source::Span;

/// An amount that could not be found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unsettled {
    /// The line.
    pub span: Span,
    /// What is missing, in a sentence.
    pub why: String,
}

/// Every line of the recipe's own parts that has neither a weight nor a volume nor a number, and is not meant to have none; and
/// every line that takes of a part of another file of which nothing can be made.
pub fn of(recipe: &Recipe, formula: &Formula) -> Vec<Unsettled> {
    let mut all = Vec::new();
    for (id, part) in recipe.parts().filter(|(_, part)| part.foreign.is_none()) {
        let lines = formula.part(id).map_or(&[][..], |solved| &solved.lines);
        for (at, line) in part.lines.iter().enumerate() {
            if matches!(line.amount, LineAmount::ToTaste | LineAmount::AsNeeded) || formula.is_left_out(id, at) {
                continue;
            }
            let has_amount = lines.get(at).is_some_and(|line| line.mass.is_some() || line.natural.is_some());
            let why = match line.refers {
                Refers::Part(other) if !is_made(recipe, formula, other) => {
                    format!("how much `{}` makes is not known, so what goes into it cannot be worked out", line.name)
                }
                _ if !has_amount => format!("how much `{}` goes into `{}` cannot be worked out", line.name, part.name),
                _ => continue,
            };
            all.push(Unsettled { span: line.amount_span, why });
        }
    }
    all
}

/// Whether a part that others draw on has amounts; one of this recipe is looked at line by line.
fn is_made(recipe: &Recipe, formula: &Formula, id: PartId) -> bool {
    let Some(part) = recipe.part(id).filter(|part| part.foreign.is_some()) else { return true };
    formula
        .part(id)
        .is_some_and(|solved| solved.is_settled && (part.lines.is_empty() || solved.lines.len() == part.lines.len()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::{check_file, work_out};
    use crate::edge::loader::Loader;
    use crate::measure::number::Number;
    use crate::measure::quantity::Mass;
    use crate::model::recipe::Selection;
    use crate::text::diagnostic::Severity;
    use proptest::prelude::*;

    /// The first of some files with its amounts, and the checks whose errors it has.
    fn worked(files: &[(&str, &str)]) -> (Recipe, Formula, Vec<&'static str>) {
        let folder = tempfile::tempdir().expect("a folder");
        for (name, text) in files {
            std::fs::write(folder.path().join(name), text).expect("written");
        }
        let mut loader = Loader::new();
        let source = loader.load(&folder.path().join(files[0].0)).expect("read");
        let project = loader.into_project();
        let problems = check_file(&project, source);
        let errors = problems.iter().filter(|problem| problem.severity == Severity::Error).map(|problem| problem.check);
        let (recipe, formula) = work_out(&project, source, &Selection::new(), &mut Vec::new()).expect("a recipe");
        (recipe, formula, errors.collect())
    }

    const BUNS: &str =
        "recipe Buns\nmakes 10 buns\nuse \"t.miche\"\npart buns\nbread flour .... 500 g\nwater .... 300 g\n";

    fn grams(grams: i64) -> Option<Mass> {
        Some(Mass::new(Number::whole(grams)))
    }

    /// Worked by hand: 120 g of sugar and 80 g of butter are made once as written, 200 g; and 300 g of it where 100 g are taken besides.
    #[test]
    fn all_of_a_used_recipes_part_is_made_once_as_written() {
        let topping = "recipe Topping\npart topping\ncaster sugar .... 120 g\nbutter .... 80 g\n";
        let (recipe, formula, errors) =
            worked(&[("a.miche", &format!("{BUNS}topping .... all\n")), ("t.miche", topping)]);
        assert!(errors.is_empty(), "{errors:?}");
        assert_eq!(formula.parts[0].lines[2].mass, grams(200));
        assert_eq!(formula.parts[0].goes_in, grams(1000));
        let id = PartId(recipe.parts.iter().position(|part| part.foreign.is_some()).expect("the topping"));
        let made = formula.part(id).expect("made");
        assert!(made.is_made && made.lines.iter().map(|line| line.mass).eq([grams(120), grams(80)]), "{made:?}");
        let twice = format!("{BUNS}topping .... all\npart top\ntopping .... 100 g\nbuns .... all\n");
        let (_, formula, errors) = worked(&[("a.miche", &twice), ("t.miche", topping)]);
        assert!(errors.is_empty(), "{errors:?}");
        assert!(formula.parts.iter().any(|part| part.makes == grams(300)), "{formula:?}");
    }

    #[test]
    fn all_of_a_part_of_unknown_size_is_an_error() {
        for topping in [
            "recipe Topping\npart topping\nsea buckthorn cordial .... 2 cup\nmeasures US\n",
            "recipe Topping\npart topping\nquarry jelly .... 3\n",
            "recipe Topping\npart topping\nsalt .... to taste\nquarry jelly .... 1 l\n",
        ] {
            let (_, _, errors) = worked(&[("a.miche", &format!("{BUNS}topping .... all\n")), ("t.miche", topping)]);
            assert!(!errors.is_empty(), "{topping}");
        }
    }

    /// Bread flour and water as in `tests/data/usda-extract.tsv`; rolled oats hold 10.84 % of water (USDA SR26 08120). Worked by hand:
    /// 600 g of porridge lose 240 g of water, so 250 + 500 - 240 + 10.84 g stand on 500 g of flour, 104.2 %.
    #[test]
    fn what_a_part_with_makes_loses_is_water() {
        let loaf = "recipe Loaf\npart porridge\nrolled oats .... 100 g\nwater .... 500 g\nmakes 360 g, loss 40 %\n\
                    part loaf\nbread flour .... 500 g\nwater .... 50 %\nporridge .... TAKEN\nsalt .... 2 %\n";
        for (taken, percent) in [("360 g", "104.2"), ("all", "104.2"), ("180 g", "77.1")] {
            let (_, formula, errors) = worked(&[("a.miche", &loaf.replace("TAKEN", taken))]);
            assert!(errors.iter().all(|check| *check == "part-left-over"), "{errors:?}");
            let hydration = formula.parts[1].composition.hydration().expect("flour").percent().expect("small");
            assert_eq!(hydration.decimal(1), percent, "{taken}");
            assert_eq!(formula.parts[0].comes_out.total, Mass::new(Number::whole(360)));
        }
        // What is divided loses dough, and nothing dries to less than what there is.
        let (_, formula, _) = worked(&[(
            "a.miche",
            "recipe Rolls\nbread flour .... 1 kg\nwater .... 600 g\ndivide 10 x 150 g, loss 6.25 %\n",
        )]);
        assert_eq!(formula.parts[0].comes_out, formula.parts[0].composition);
        let (_, formula, _) = worked(&[("a.miche", "recipe Chips\napple .... 1 kg\nmakes 100 g, loss 90 %\n")]);
        assert_eq!(formula.parts[0].comes_out.total, Mass::new(Number::whole(100)));
        assert_eq!(formula.parts[0].comes_out.water, Mass::ZERO);
    }

    fn amount() -> impl Strategy<Value = String> {
        prop_oneof![
            (1..900_i64).prop_map(|grams| format!("{grams} g")),
            (1..90_i64).prop_map(|share| format!("{share} %")),
            Just("2 cup".to_owned()),
            Just("3".to_owned()),
            Just("to taste".to_owned()),
            Just("all".to_owned()),
        ]
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(128))]
        #[test]
        fn no_error_implies_that_every_line_has_its_amount(
            inner in prop::collection::vec(amount(), 1..4),
            makes in prop::option::of(50..900_i64),
            own in amount(),
            taken in amount(),
        ) {
            let names = ["caster sugar", "quarry jelly", "egg"];
            let mut topping = "recipe Topping\nmeasures US\npart topping\n".to_owned();
            for (name, amount) in names.iter().zip(&inner) {
                topping.push_str(&format!("{name} .... {amount}\n"));
            }
            topping.push_str(&makes.map_or(String::new(), |grams| format!("makes {grams} g\n")));
            let main = format!("{}part filling\nplum .... {own}\ntopping .... {taken}\n", BUNS.replace("makes 10 buns\n", "makes 10 buns\nmeasures US\n"));
            let (recipe, formula, errors) = worked(&[("a.miche", &main), ("t.miche", &topping)]);
            if errors.is_empty() {
                for (id, part) in recipe.parts().filter(|(id, part)| part.foreign.is_none() || recipe.users(*id).next().is_some()) {
                    let lines = &formula.part(id).expect("solved").lines;
                    for (at, line) in part.lines.iter().enumerate() {
                        let meant = matches!(line.amount, LineAmount::ToTaste | LineAmount::AsNeeded);
                        // Of a part that is taken to taste nobody knows how much is made.
                        let unasked = part.foreign.is_some() && taken == "to taste";
                        let found = lines.get(at).is_some_and(|line| line.mass.is_some() || line.natural.is_some());
                        prop_assert!(meant || unasked || found, "{} of {}\n{main}\n{topping}", line.name, part.name);
                    }
                }
            }
        }
    }
}
