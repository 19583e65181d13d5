//! `yield-does-not-add-up`: what `divide` or `makes` says against what goes in and is lost.

use super::dough::massed;
use super::{Check, Family, Run, Subject, tell};
use crate::measure::apart::{LOOSE, ROUNDED};
use crate::measure::number::Number;
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show;
use crate::measure::value::Value;
use crate::model::kind::Kind;
use crate::model::recipe::{HeadMakes, Part};
use crate::model::sale::Size;
use crate::solve::formula::SolvedPart;
use crate::solve::formula::serving::{pieces_of, sold_each, weighs_otherwise};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::Span;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "yield-does-not-add-up",
    severity: Severity::Error,
    family: Family::Formula,
    looks_for: "`divide` or `makes` lines that do not agree with what goes in, less the loss they state, and a `serving` that is so many pieces and not of their weight",
    why: "If 1900 g of dough are to give 24 pieces of 82 g, somebody will be short at the end of the bench. The stated and \
          the actual loss may be a point apart; up to three points are a warning, more is an error. Where a line has no known weight, too much is told, and too little where it is a few pods or leaves.",
    bad: "recipe Buns\nmakes 24 buns\nflour .... 1 kg\nwater .... 60 %\ndivide 24 x 78 g, loss 1.5 %\n",
    good: "recipe Buns\nmakes 20 buns\nflour .... 1 kg\nwater .... 60 %\ndivide 20 x 79 g, loss 1.5 %\nmix: hands 10 min\n    \
           Mix {flour} and {water}.\n    until smooth\n",
    sources: &["common practice, no source; losses compound, they do not add: 2 % and then 11 % are 12.78 %, not 13 %"],
    run: Run::Parts(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    if subject.is_of_whole() {
        tell(diagnostics, serving(subject));
    }
    for (id, part, solved) in subject.written_parts().filter(|(_, part, _)| !part.broken) {
        let Some(goes_in) = solved.stays.filter(|mass| *mass > Mass::ZERO) else {
            diagnostics.extend(with_what_is_known(part, solved));
            continue;
        };
        if let Some(divide) = part.divide
            && let Ok(out) = divide.each.times(divide.count.value())
        {
            let what = || format!("{} of {}", show::pieces(divide.count.value()), show::mass_plain(divide.each));
            diagnostics.extend(compare(part, goes_in, out, divide.loss, divide.span, what));
        }
        // The one part of a recipe without `part` lines has the head's `makes` as its own.
        if let Some(makes) = part.makes {
            let what = || show::mass_plain(makes.mass).to_string();
            diagnostics.extend(compare(part, goes_in, makes.mass, makes.loss, makes.span, what));
        }
        let Some(HeadMakes::Mass(head)) = &subject.recipe.makes else { continue };
        if !subject.recipe.is_final(id) || part.makes.is_some_and(|own| own.span == head.span) {
            continue;
        }
        let what = || show::mass_plain(head.mass).to_string();
        // What the part says comes out has its loss behind it already.
        let said = part.divide.is_some() || part.makes.is_some();
        let (from, loss) = if said { (solved.needs.unwrap_or(goes_in), None) } else { (goes_in, head.loss) };
        diagnostics.extend(compare(part, from, head.mass, loss, head.span, what));
    }
}

/// A serving that is said to be so many of the pieces, and weighs something else: no label of the United States is made of it.
fn serving(subject: &Subject<'_>) -> Option<Diagnostic> {
    let (recipe, formula) = (subject.recipe, subject.formula);
    let serving = recipe.sale.serving.as_ref()?;
    let Size::Mass(said) = serving.size else { return None };
    let HeadMakes::Pieces { noun, .. } = recipe.makes.as_ref()? else { return None };
    // Of several sorts each has a weight of its own.
    if recipe.parts.iter().any(|part| !part.sorts.is_empty() || part.sort.is_some()) {
        return None;
    }
    // What a piece weighs is a walk through all that lies in it, which most servings, `serving 55 g`, do not ask for.
    pieces_of(serving, &noun.text)?;
    let each = sold_each(recipe, formula, recipe.final_part()?).ok()??;
    let weighs = weighs_otherwise(serving, said, each, &noun.text).ok()??;
    let words = serving.words.as_deref().unwrap_or_default();
    let message = format!(
        "a serving of {} is said to be {words}, and {words} weighs {}",
        show::mass_plain(said),
        show::mass_plain(weighs)
    );
    Some(
        Diagnostic::warning(CHECK.name, recipe.name.span, message)
            .help("correct the weight or the number behind `serving`, or what a piece weighs"),
    )
}

/// No pod, leaf or stick of a spice weighs more. Common practice, no source.
const A_PIECE_OF_SPICE: Mass = Mass::new(Number::whole(10));

/// What the lines without a known weight add at most, where all of them are so many pods or leaves.
fn open_at_most(part: &Part, solved: &SolvedPart) -> Option<Mass> {
    let unknown = part
        .lines
        .iter()
        .zip(&solved.lines)
        .filter(|(line, amount)| line.stays_in() && amount.mass.is_none() && !amount.left_out);
    let each = unknown.map(|(line, _)| match line.said().first().map(|said| said.value) {
        Some(Value::Count(count)) if line.kind == Kind::Spice => A_PIECE_OF_SPICE.times(count.value()).ok(),
        _ => None,
    });
    Mass::sum(each.collect::<Option<Vec<Mass>>>()?).ok()
}

/// Where one line has no known weight, a vanilla pod, the others may be too much already, or too little with any pod.
fn with_what_is_known(part: &Part, solved: &SolvedPart) -> Option<Diagnostic> {
    let known = Mass::sum(massed(part, solved).map(|(_, mass)| mass)).ok()?;
    let (out, loss, span, what) = match (part.divide, part.makes) {
        (Some(divide), _) => {
            let what = format!("{} pieces of {}", show::count_of(divide.count.value()), show::mass_plain(divide.each));
            (divide.each.times(divide.count.value()).ok()?, divide.loss, divide.span, what)
        }
        (None, Some(makes)) => (makes.mass, makes.loss, makes.span, show::mass_plain(makes.mass).to_string()),
        (None, None) => return None,
    };
    let needed = out.over(loss.unwrap_or(Proportion::ZERO).rest().ok()?.value()).ok()?;
    let (goes_in, bound) = if known > needed {
        (known, "at least")
    } else {
        let most = known.plus(open_at_most(part, solved)?).ok()?;
        if most >= needed {
            return None;
        }
        (most, "at most")
    };
    let mut problem = compare(part, goes_in, out, loss, span, || what.clone())?;
    problem.message = problem.message.replacen(" comes to ", &format!(" comes to {bound} "), 1);
    Some(problem)
}

fn compare(
    part: &Part,
    goes_in: Mass,
    out: Mass,
    stated: Option<Proportion>,
    span: Span,
    what: impl Fn() -> String,
) -> Option<Diagnostic> {
    let stated_loss = stated.unwrap_or(Proportion::ZERO);
    let actual = Number::ONE.minus(out.ratio(goes_in).ok()?).ok()?;
    let apart = actual.minus(stated_loss.value()).ok()?.size();
    let severity = if apart <= ROUNDED {
        return None;
    } else if apart <= LOOSE {
        Severity::Warning
    } else {
        Severity::Error
    };
    let what = what();
    let needed = out.over(stated_loss.rest().ok()?.value()).ok()?;
    let difference = needed.minus(goes_in).ok()?;
    let short = difference.value().is_positive();
    let loss = match stated {
        Some(loss) => format!(" with {} loss", show::percent(loss)),
        None => String::new(),
    };
    let needs = match show::mass_plain(needed).to_string() {
        // A mass that says of no loss needs what it is.
        same if same == what => "are made".to_owned(),
        needed => format!("need {needed}{loss}"),
    };
    let message = format!(
        "`{}` comes to {}, but {what} {needs}: {} {}",
        part.name,
        show::mass_plain(goes_in),
        show::mass_plain(Mass::new(difference.value().size())),
        if short { "short" } else { "too much" }
    );
    let really = show::percent(Proportion::new(actual));
    let help = if actual.is_negative() {
        "make more of it, fewer pieces or lighter ones".to_owned()
    } else if stated.is_some() {
        format!("the loss would really be {really}: correct the amounts, or the loss")
    } else {
        format!("write `loss {really}` behind it if that is lost, or correct the amounts")
    };
    let mut problem = Diagnostic::error(CHECK.name, span, message).label(format!("{what} come out")).help(help);
    problem.severity = severity;
    Some(problem.also(part.name.span, format!("{} go in", show::mass_plain(goes_in))))
}
