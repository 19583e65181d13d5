//! What holds for every recipe, every text and every kitchen, tried on ones made up by chance.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "properties/figures.rs"]
mod figures;
#[path = "properties/recipes.rs"]
mod recipes;
#[path = "properties/texts.rs"]
mod texts;

use miche::figures::card::card;
use miche::figures::{cost, label};
use miche::make::size::{self, Size};
use miche::make::stock;
use miche::make::weigh::{ScaleUsed, Scales, weigh_out};
use miche::measure::number::{Number, sum};
use miche::measure::quantity::{Mass, Proportion};
use miche::measure::show::Units;
use miche::model::allergen::Law;
use miche::model::kitchen::{Kitchen, Scale};
use miche::model::larder::pantry::bare_kitchen;
use miche::model::recipe::{PartId, Recipe};
use miche::solve::formula::Formula;
use proptest::prelude::*;
use recipes::{made_up, solved};
use std::sync::Arc;

fn number(above: u32, below: u32) -> Number {
    Number::fraction(i128::from(above), i128::from(below)).expect("the denominator is not 0")
}

/// The parts of a recipe with their amounts.
fn parts<'a>(
    recipe: &'a Recipe,
    formula: &'a Formula,
) -> impl Iterator<Item = (PartId, &'a miche::model::recipe::Part, &'a miche::solve::formula::SolvedPart)> {
    recipe.parts().map(|(id, part)| (id, part, formula.part(id).expect("every part is solved")))
}

/// A kitchen with some main scale and perhaps a fine one.
fn kitchens() -> impl Strategy<Value = Kitchen> {
    let main =
        prop_oneof![Just((1_u32, 10_u32)), Just((1, 2)), Just((1, 1)), Just((2, 1)), Just((5, 1)), Just((25, 1))];
    let fine = prop::option::of((prop_oneof![Just((1_u32, 100_u32)), Just((1, 10)), Just((1, 1))], 50_u32..2000));
    (main, fine).prop_map(|((above, below), fine)| Kitchen {
        scale: Scale { step: Mass::new(number(above, below)), up_to: None },
        fine_scale: fine.map(|((above, below), most)| Scale {
            step: Mass::new(number(above, below)),
            up_to: Some(Mass::new(number(most, 1))),
        }),
        ..bare_kitchen()
    })
}

proptest! {
    /// Scaling by a and then by b is scaling by ab, to the last digit of every figure.
    #[test]
    fn scaling_twice_is_scaling_by_the_product(
        made in made_up(), a in (1_u32..500, 1_u32..500), b in (1_u32..500, 1_u32..500),
    ) {
        let (_, formula, _) = solved(&made.text(1));
        let (a, b) = (number(a.0, a.1), number(b.0, b.1));
        let twice = formula.times(a).and_then(|formula| formula.times(b)).expect("in range");
        let once = formula.times(a.times(b).expect("in range")).expect("in range");
        prop_assert_eq!(&twice, &once);
        let back = once.times(Number::ONE.over(a.times(b).expect("in range")).expect("not 0")).expect("in range");
        prop_assert_eq!(&back, &formula);
    }

    /// A recipe written three times as large is the recipe scaled by three.
    #[test]
    fn writing_larger_is_scaling(made in made_up(), times in 2_u32..9) {
        let (_, formula, _) = solved(&made.text(1));
        let (_, larger, _) = solved(&made.text(u64::from(times)));
        let scaled = formula.times(number(times, 1)).expect("in range");
        for (scaled, larger) in scaled.parts.iter().zip(&larger.parts) {
            prop_assert_eq!(&scaled.lines, &larger.lines);
            prop_assert_eq!(scaled.base, larger.base);
            prop_assert_eq!(scaled.goes_in, larger.goes_in);
            prop_assert_eq!(scaled.makes, larger.makes);
            prop_assert_eq!(scaled.pieces, larger.pieces);
            prop_assert_eq!(scaled.balance, larger.balance);
            prop_assert_eq!(scaled.composition, larger.composition);
        }
        prop_assert_eq!(scaled.pieces, larger.pieces);
    }

    /// The lines add up to the part, every percentage is that share of the base, and the base is its lines.
    #[test]
    fn lines_add_up_to_the_part(made in made_up()) {
        let (recipe, formula, _) = solved(&made.text(1));
        for (_, part, solved) in parts(&recipe, &formula) {
            let lines = || part.lines.iter().zip(&solved.lines).filter(|(line, _)| !line.aside);
            let all = Mass::sum(lines().filter_map(|(_, amount)| amount.mass)).expect("in range");
            prop_assert_eq!(Some(all), solved.goes_in, "{}", part.name);
            let Some(base) = solved.base else { continue };
            for (line, amount) in part.lines.iter().zip(&solved.lines) {
                if let (Some(percent), Some(mass)) = (amount.percent, amount.mass) {
                    prop_assert_eq!(base.share(percent), Ok(mass), "{} in {}", line.name, part.name);
                }
            }
            if part.from.is_none() {
                let is_base = |line: &miche::model::recipe::Ingredient| match &part.base {
                    Some((miche::model::recipe::Base::Flour, _)) => line.is_flour,
                    Some((miche::model::recipe::Base::Total, _)) => true,
                    Some((miche::model::recipe::Base::Named(name), _)) => line.name.same(name),
                    None => false,
                };
                let in_base = lines().filter(|(line, _)| is_base(line)).filter_map(|(_, amount)| amount.mass);
                prop_assert_eq!(Mass::sum(in_base), Ok(base), "{}", part.name);
            }
            if let Some(divide) = part.divide {
                prop_assert_eq!(divide.each.times(divide.count.value()).ok(), solved.makes);
            }
        }
    }

    /// Preferment and final mix are the total formula, line by line and in all.
    #[test]
    fn preferment_and_final_mix_are_the_total_formula(made in made_up()) {
        let (recipe, formula, _) = solved(&made.text(1));
        for (id, part, solved) in parts(&recipe, &formula) {
            let mut taken_in_all = Mass::ZERO;
            for (line, amount) in part.lines.iter().zip(&solved.lines) {
                let (Some(mass), Some(mut together)) = (amount.mass, amount.final_mix) else {
                    prop_assert_eq!(amount.mass, amount.final_mix);
                    continue;
                };
                for (preferment, taking) in recipe.preferments(id) {
                    let amounts = &formula.part(preferment).expect("it is solved").lines;
                    for (other, taken) in taking.lines.iter().zip(amounts).filter(|(other, _)| other.name.same(&line.name)) {
                        let taken = taken.mass.unwrap_or_else(|| panic!("{} has no mass", other.name));
                        together = together.plus(taken).expect("in range");
                        taken_in_all = taken_in_all.plus(taken).expect("in range");
                    }
                }
                prop_assert_eq!(together, mass, "{} in {}", line.name, part.name);
            }
            let preferments = recipe.preferments(id).filter_map(|(other, _)| formula.part(other)?.goes_in);
            prop_assert_eq!(Mass::sum(preferments), Ok(taken_in_all));
        }
    }

    /// What the braces take of a line that they share out is all of it.
    #[test]
    fn shares_of_a_line_are_all_of_it(made in made_up()) {
        let (recipe, formula, _) = solved(&made.text(1));
        for (_, part, solved) in parts(&recipe, &formula) {
            for (at, (line, amount)) in part.lines.iter().zip(&solved.lines).enumerate() {
                let draws = || solved.draws.iter().filter(|draw| draw.target == miche::model::step::Target::Line(at));
                if draws().next().is_none() {
                    continue;
                }
                let shares: Option<Vec<Number>> = draws().map(|draw| draw.drawn.share).collect();
                prop_assert_eq!(shares.map(sum), Some(Ok(Number::ONE)), "{}", line.name);
                if let Some(left) = amount.final_mix {
                    let masses = draws().filter_map(|draw| draw.drawn.mass);
                    prop_assert_eq!(Mass::sum(masses), Ok(left), "{}", line.name);
                }
            }
        }
    }

    /// Printed masses add up to the printed total, and none is further from the truth than its scale allows.
    #[test]
    fn weighed_lines_add_up(
        masses in prop::collection::vec((0_u32..2_000_000, 1_u32..300), 0..14), kitchen in kitchens(),
    ) {
        let masses: Vec<Mass> = masses.iter().map(|(above, below)| Mass::new(number(*above, *below))).collect();
        let (weighed, total) = weigh_out(&masses, &Scales::of(&kitchen, Units::Metric)).expect("in range");
        prop_assert_eq!(weighed.len(), masses.len());
        prop_assert_eq!(Mass::sum(weighed.iter().map(|one| one.mass)), Ok(total));
        let mut on_main = (Mass::ZERO, Mass::ZERO);
        for (mass, one) in masses.iter().zip(&weighed) {
            let apart = one.mass.minus(*mass).expect("in range").value().size();
            let step = match (one.scale, kitchen.fine_scale) {
                (ScaleUsed::Main, _) => kitchen.scale.step,
                (ScaleUsed::Fine, Some(fine)) => fine.step,
                (ScaleUsed::Fine, None) => panic!("{one:?} is on a scale that is not there"),
                // What no scale shows is printed as finely as it must be to be within a twentieth.
                (ScaleUsed::None, _) => Mass::new(number(1, 100_000)),
            };
            prop_assert!(one.mass.ratio(step).is_ok_and(Number::is_whole), "{one:?} is between two steps");
            match one.scale {
                ScaleUsed::Main => {
                    prop_assert!(apart < step.value(), "{mass:?} is weighed as {one:?}");
                    on_main = (on_main.0.plus(*mass).expect("in range"), on_main.1.plus(one.mass).expect("in range"));
                }
                ScaleUsed::Fine => {
                    prop_assert!(apart.times(Number::whole(2)).expect("small") <= step.value(), "{mass:?}: {one:?}");
                    let most = kitchen.fine_scale.and_then(|fine| fine.up_to);
                    prop_assert!(most.is_none_or(|most| *mass <= most));
                }
                ScaleUsed::None => {
                    let hundredth = number(1, 200);
                    prop_assert!(apart <= hundredth, "{mass:?} is weighed as {one:?}");
                }
            }
        }
        let apart = on_main.0.minus(on_main.1).expect("in range").value().size();
        prop_assert!(apart.times(Number::whole(2)).expect("small") <= kitchen.scale.step.value());
    }

    /// A card adds up as it is printed, at any size, on any scale.
    #[test]
    fn printed_cards_add_up(made in made_up(), kitchen in kitchens(), factor in (1_u32..60, 1_u32..60)) {
        let (mut recipe, formula, _) = solved(&made.text(1));
        recipe.kitchen = Arc::new(kitchen);
        let factor = number(factor.0, factor.1);
        let scaled = formula.times(factor).expect("in range");
        let card = card(&recipe, &scaled, factor, None, Units::Metric).expect("in range");
        let faults = figures::faults(&card);
        prop_assert!(faults.is_empty(), "{faults:#?}\n{}", made.text(1));
    }

    /// Costs add up to the last digit, by part and by ingredient, and grow with the batch.
    #[test]
    fn costs_add_up(made in made_up(), factor in (1_u32..500, 1_u32..500)) {
        let text = made.text(1).replacen('\n', "\nuse \"larder.miche\"\n", 1);
        let (recipe, formula, _) = solved(&text);
        let factor = number(factor.0, factor.1);
        let once = cost::of(&recipe, &formula, None).expect("in one money");
        let scaled = cost::of(&recipe, &formula.times(factor).expect("in range"), None).expect("in one money");
        for cost in [&once, &scaled] {
            prop_assert!(cost.total.is_positive(), "the example's flour has a price");
            prop_assert_eq!(sum(cost.parts.iter().map(|part| part.cost)), Ok(cost.total));
            prop_assert_eq!(sum(cost.lines.iter().filter_map(|line| line.cost)), Ok(cost.total));
        }
        prop_assert_eq!(once.total.times(factor), Ok(scaled.total));
    }

    /// A label lists the same in the same order at any size, and its shares and nutrients in 100 g are the same.
    #[test]
    fn a_label_does_not_know_the_size_of_the_batch(
        made in made_up(), factor in (1_u32..500, 1_u32..500), loss in 0_u32..30, is_us in any::<bool>(),
    ) {
        let (recipe, formula, _) = solved(&made.text(1));
        let factor = number(factor.0, factor.1);
        let law = if is_us { Law::Us } else { Law::Eu };
        let bake_loss = Some(Proportion::new(number(loss, 100)));
        let wanted = label::Wanted { bake_loss, ..label::Wanted::by(law) };
        let once = label::of(&recipe, &formula, &wanted).expect("it has a weight");
        let scaled = label::of(&recipe, &formula.times(factor).expect("in range"), &wanted).expect("it has a weight");
        let names = |label: &label::Label| label.ingredients.iter().map(|item| item.name.clone()).collect::<Vec<_>>();
        prop_assert_eq!(names(&once), names(&scaled));
        prop_assert_eq!(&once.quantities, &scaled.quantities);
        prop_assert_eq!(once.net.times(factor), Ok(scaled.net));
        // What is set aside, flour to dust with or a bath, is in it by less than its weight: it stands last.
        let place = |item: &label::Item| (item.aside, std::cmp::Reverse(item.mass));
        let falls = |pair: &[label::Item]| place(&pair[0]) <= place(&pair[1]);
        prop_assert!(once.ingredients.windows(2).all(falls), "{:?}", once.ingredients);
        for (one, other) in once.nutrition.sums.iter().zip(&scaled.nutrition.sums) {
            prop_assert_eq!(one.amount.times(factor), Ok(other.amount));
        }
    }

    /// What there was is what is used and what is left, exactly; nothing is used that was not there.
    #[test]
    fn what_was_had_is_used_or_left(made in made_up(), flour in 1_u32..100_000, water in 1_u32..100_000) {
        let (recipe, formula, _) = solved(&made.text(1));
        let line = |name: &str| {
            let span = miche::text::source::Span::new(miche::text::source::SourceId(0), 0, 0);
            miche::language::syntax::Name::new(name, span)
        };
        let flour_line = recipe.parts[0].lines[0].name.to_string();
        let stock = vec![(line(&flour_line), Mass::new(number(flour, 1))), (line("water"), Mass::new(number(water, 1)))];
        let there_is = stock.iter().map(|(name, mass)| (name.clone(), miche::measure::value::Value::Mass(*mass).into())).collect();
        if let Ok((factor, _)) = size::factor(&recipe, &formula, &Size::Stock(there_is)) {
            let scaled = formula.times(factor).expect("in range");
            for one in stock::used_of(&recipe, &scaled, &stock).expect("in range") {
                prop_assert!(one.left >= Mass::ZERO, "{one:?}");
                prop_assert_eq!(one.used.plus(one.left), Ok(one.had));
            }
        }
    }
}
