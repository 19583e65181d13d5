//! Sugar as little as salt is wont to be, where nothing is salt: what `no-salt` looks for where the two white powders were taken for each other
//! in what is no dough. Common practice, no source.

use super::Subject;
use super::dough::{mass_of, massed, mille};
use super::salty::is_salty;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::model::cooking::raw_flesh::is_flesh;
use crate::model::cooking::{beginnings, says};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, LineAmount, Part, PartId};
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::Diagnostic;

/// Of other sugar it is so little at most: nobody weighs 4 g of one sugar beside 300 g of another.
const BESIDE_SUGAR: i64 = 42;
/// Of what is eaten with salt it is so little at most.
const ON_FOOD: i64 = 25;
/// So much of it is flesh, pulses or rice.
const BODY: i64 = 250;

pub(super) fn problem(
    subject: &Subject<'_>,
    id: PartId,
    part: &Part,
    solved: &SolvedPart,
    check: &'static str,
) -> Option<Diagnostic> {
    let sugar = |line: &&Ingredient| line.kind == Kind::Sugar && !line.aside && !line.optional;
    let first = part.lines.iter().find(sugar)?;
    let inner = || part.lines.iter().filter_map(|line| subject.recipe.part(line.part()?)).flat_map(|part| &part.lines);
    if part.per_piece || part.lines.len() < 3 || part.lines.iter().chain(inner()).any(is_salty) {
        return None;
    }
    let told = |line: &Ingredient, message: String| {
        Diagnostic::advice(check, line.amount_span, message).help("look whether salt was meant")
    };
    let is_peppered = || {
        part.lines
            .iter()
            .any(|line| line.name.has_word_beginning(beginnings!["black pepper", "white pepper", "pepper|"]))
    };
    if let Some(line) =
        part.lines.iter().filter(sugar).find(|line| line.amount == LineAmount::ToTaste).filter(|_| is_peppered())
    {
        return Some(told(
            line,
            format!("{} to taste, with pepper, and nothing in `{}` is salt", line.name, part.name),
        ));
    }
    let all = mass_of(part, solved, |_| true).filter(|all| *all > Mass::ZERO)?;
    let sweet = mass_of(part, solved, |line| line.kind.is_sweet())?;
    if let Some((line, mass)) = massed(part, solved).find(|(line, mass)| {
        let others = sweet.minus(*mass).unwrap_or(Mass::ZERO);
        sugar(line) && others > Mass::ZERO && mass.as_share_of(others).is_ok_and(|share| share <= mille(BESIDE_SUGAR))
    }) {
        return (!is_for_something(part, line)).then(|| {
            let message = format!(
                "{} of {} beside {} that sweeten, and nothing in `{}` is salt",
                show::mass_plain(mass),
                line.name,
                show::mass_plain(sweet),
                part.name
            );
            told(line, message)
        });
    }
    // What is salted elsewhere, or by whoever takes it, is not known here.
    let is_drawn = subject.recipe.is_drawn_on(id) && !part.lines.iter().any(is_flesh);
    let body = mass_of(part, solved, |line| {
        is_flesh(line)
            || line.kind == Kind::Pulse
            || line.kind == Kind::Grain
                && line.name.has_word_beginning(beginnings!["rice", "basmati", "bulgur", "couscous", "quinoa"])
    })?;
    let is_body = body.as_share_of(all).is_ok_and(|share| share >= mille(BODY));
    let is_pinch = sweet.as_share_of(all).is_ok_and(|share| share <= mille(ON_FOOD));
    // A roast with a lemon is none.
    let flesh = mass_of(part, solved, is_flesh)?;
    let is_roast = flesh.as_share_of(all).is_ok_and(|share| share >= mille(500));
    let is_sweet_dish = !is_roast
        && part.lines.iter().any(|line| matches!(line.kind, Kind::Milk | Kind::Fruit | Kind::Chocolate | Kind::Dairy));
    let is_cured = || {
        part.lines.iter().any(|line| {
            matches!(line.kind, Kind::Seasoning)
                || line.name.has_word_beginning(beginnings!["stock", "broth", "bouillon", "soy", "miso"])
        })
    };
    (is_body && is_pinch && !is_drawn && !is_sweet_dish && !is_cured()).then(|| {
        let message =
            format!("{} in {} of `{}`, and nothing in it is salt", first.name, show::mass_plain(all), part.name);
        told(first, message)
    })
}

/// Whether so little sugar has a use of its own: it feeds yeast, is strewn or dusted over, or flavours.
fn is_for_something(part: &Part, line: &Ingredient) -> bool {
    let name = line.name.key.as_str();
    let flavours = line.name.has_word_beginning(beginnings![
        "vanilla",
        "icing",
        "powdered",
        "pearl",
        "sanding",
        "confectioner",
        "palm",
        "cinnamon"
    ]);
    let at = part.lines.iter().position(|other| std::ptr::eq(other, line));
    let mut taking = part.steps.iter().filter(|step| step.lines_taken().any(|taken| Some(taken) == at));
    flavours
        || name.contains(" for ")
        || taking.any(|step| {
            says(
                step,
                beginnings![
                    "foam", "froth", "dissolv", "dust", "sprinkl", "strew", "whip", "peak", "zest", "top|", "over",
                    "coat", "pectin"
                ],
            )
        })
}
