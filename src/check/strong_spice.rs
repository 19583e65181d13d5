//! Spices that are strong enough to harm: nutmeg and mace, cloves, tonka beans, by how much of them goes in.

use super::Subject;
use super::dough::mille;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::model::kind::Kind;
use crate::model::lowered::beginnings;
use crate::model::recipe::Ingredient;
use crate::text::diagnostic::Diagnostic;
use crate::text::words::words_with_hyphens;

/// A spice by whole words of its name, the most of it on flour and on everything in thousandths, how much is usual, and what more of it does. From memory:
/// 5 g of nutmeg at once have poisoned people; coumarin of tonka beans has limits in Regulation (EC) 1334/2008; the usual amounts are common practice.
const STRONG: &[(&[&str], i64, i64, &str, &str)] = &[
    (&["nutmeg", "mace"], 20, 10, "0.2 to 0.7 % of the flour is usual", "5 g at once are poison for an adult"),
    (
        &["clove", "cloves"],
        20,
        10,
        "0.1 to 0.5 % of the flour is usual",
        "its oil burns and harms the liver of who eats much",
    ),
    (
        &["tonka"],
        3,
        3,
        "one bean, about 1 g, to a kilo is usual",
        "its coumarin harms the liver, and the law limits it",
    ),
];
/// More of it at once than anybody should eat.
const DOSE: Mass = Mass::new(Number::whole(3));

/// Words by which it is another thing.
const OTHERS: &[&str] = &["garlic", "syrup", "liqueur", "essence", "extract", "sugar", "butter"];

/// How much of a spice is the most, if it is one of them.
fn strong(line: &Ingredient) -> Option<&'static (&'static [&'static str], i64, i64, &'static str, &'static str)> {
    if !matches!(line.kind, Kind::Spice | Kind::Other) || line.part().is_some() || !line.stays_in() {
        return None;
    }
    // Each of them begins with one of these, and hardly a name holds one.
    if !line.name.may_have_word_beginning(beginnings!["nutm", "mace", "clov", "tonk"]) {
        return None;
    }
    let name = line.name.key.as_str();
    let found = STRONG.iter().find(|(known, ..)| words_with_hyphens(name).any(|word| known.contains(&word)))?;
    (!words_with_hyphens(name).any(|word| OTHERS.contains(&word))).then_some(found)
}

/// Whether it is asked about here, and not with other spices.
pub(super) fn is_strong(line: &Ingredient) -> bool {
    strong(line).is_some()
}

/// Strong spices of which too much goes in; told under the name of the check of shares.
pub(super) fn problems(subject: &Subject<'_>, check: &'static str, diagnostics: &mut Vec<Diagnostic>) {
    for (_, part, solved) in subject.whole_parts() {
        // A blend of spices is weighed out where it goes in.
        let is_spice = |line: &Ingredient| matches!(line.kind, Kind::Spice | Kind::Salt) || is_strong(line);
        let is_much = |mass: Mass, of: Mass, most: i64| mass.as_share_of(of).is_ok_and(|share| share > mille(most));
        for (line, amount) in part.lines.iter().zip(&solved.lines) {
            let Some((_, on_flour, on_all, usual, harm)) = strong(line) else { continue };
            let Some(mass) = amount.mass else { continue };
            let composition = &solved.composition;
            let flour = super::dough::all_flour(solved);
            let has_flour = flour.as_share_of(composition.total).is_ok_and(|share| share >= mille(150));
            let (of, most, what) =
                if has_flour { (flour, *on_flour, "the flour") } else { (composition.total, *on_all, "everything") };
            // Beside so much of everything what poisons at once is too much, however large the pot.
            let is_dose = !has_flour && *on_all == 10 && mass >= DOSE && is_much(mass, of, 3);
            if !(is_much(mass, of, most) || is_dose)
                || super::dough::mass_of(part, solved, is_spice)
                    .is_some_and(|spices| is_much(spices, composition.total, 300))
            {
                continue;
            }
            let Ok(share) = mass.as_share_of(of) else { continue };
            let message = format!("`{}` is {} of {what}: {usual}, and {harm}", line.name, show::percent(share));
            diagnostics.push(
                Diagnostic::advice(check, line.amount_span, message)
                    .label(format!("{} on {}", show::mass_plain(mass), show::mass_plain(of)))
                    .help("look whether a point or a digit has slipped; health authorities and local food law go before this"),
            );
        }
    }
}
