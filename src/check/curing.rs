//! Meat that is cured with nitrite: how much of it there is on the meat, by the strength of the curing salt.

use super::Subject;
use super::dough::mille;
use crate::measure::number::Number;
use crate::measure::quantity::{Mass, Proportion};
use crate::model::cooking::beginnings;
use crate::model::recipe::Ingredient;
use crate::text::diagnostic::Diagnostic;

/// The most nitrite that goes in, on the meat: 200 mg a kilo of dry-cured bacon (9 CFR 424.22, from memory); Regulation (EC) 1333/2008 has 150, for
/// some meats 180 (from memory).
const MOST: Proportion = Proportion::new(Number::constant(200, 1_000_000));
/// What is sold in America as cure number 1, and the nitrite salt of Europe, 0.5 to 0.6 %: in thousandths. From memory.
const STRONG: i64 = 63;
const WEAK: i64 = 6;

/// What is odd in the nitrite of each part; told under the name of the check of amounts.
pub(super) fn problems(subject: &Subject<'_>, of_amounts: &'static str) -> Vec<Diagnostic> {
    let mut problems = Vec::new();
    for (_, part, solved) in subject.whole_parts() {
        let all = || part.lines.iter().zip(&solved.lines);
        let Some(salt) = part.lines.iter().find(|line| is_curing_salt(line)) else { continue };
        let mass = |is: &dyn Fn(&Ingredient) -> bool| {
            Mass::sum(all().filter(|(line, _)| is(line)).filter_map(|(_, amount)| amount.mass)).ok()
        };
        let meat = mass(&|line| line.kind.is_flesh());
        // Of a brine a part goes into the meat, and nobody says how much.
        let is_brine = !salt.stays_in()
            || part.lines.iter().any(|line| line.kind.is_poured() && line.stays_in() && line.kind.is_liquid());
        let share = mass(&is_curing_salt).zip(meat).and_then(|(salt, meat)| salt.as_share_of(meat).ok());
        let Some(share) = share.filter(|_| !is_brine) else { continue };
        let strength = strength(salt);
        let nitrite = share.value().times(mille(strength.unwrap_or(STRONG)).value());
        let Some(nitrite) = nitrite.ok().filter(|nitrite| *nitrite > MOST.value()) else { continue };
        let Ok(milligrams) = nitrite.times(Number::whole(1_000_000)) else { continue };
        let milligrams = milligrams.decimal(0);
        let message = match strength {
            Some(_) => format!(
                "`{}` brings about {milligrams} mg of nitrite to a kilo of meat: 200 mg are the most that laws allow",
                salt.name
            ),
            None => format!(
                "nothing says how strong `{}` is: of 6.25 % nitrite this would be about {milligrams} mg on a kilo of meat, and 200 mg are the most that laws allow",
                salt.name
            ),
        };
        problems.push(Diagnostic::warning(of_amounts, salt.amount_span, message).help(
            "call it by its strength, `nitrite salt` of 0.5 to 0.6 % or `prague powder` of 6.25 %, and weigh it by its maker's words: of the strong one about 2.5 g go on a \
             kilo; local food law goes before this",
        ));
    }
    problems
}

fn is_curing_salt(line: &Ingredient) -> bool {
    line.name.has_word(beginnings!["curing salt", "pink curing", "prague powder", "instacure", "insta cure", "nitrite"])
}

/// How strong it is by its name and what is said of it, in thousandths.
fn strength(line: &Ingredient) -> Option<i64> {
    let text = format!("{} {}", line.name.key.as_str(), line.preparation.as_deref().unwrap_or_default().to_lowercase());
    let has = |words: &[&str]| words.iter().any(|word| text.contains(word));
    if has(&["6.25", "no. 1", "no 1", "prague", "insta"]) {
        return Some(STRONG);
    }
    has(&["0.5", "0.6", "0.4", "0.9", "nitrite salt", "nitrite curing salt"]).then_some(WEAK)
}
