//! `odd-amount`: a loss, a yield or a topping far from what is usual.

use super::dough::mille;
use super::{Check, Family, Run, Subject, tell};
use crate::measure::noun::agreeing;
use crate::measure::number::Number;
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show;
use crate::measure::value::Said;
use crate::model::cooking::{Beginnings, cooks, loses_water, says, words_of};
use crate::model::fat_and_egg::is_egg_white;
use crate::model::kind::Kind;
use crate::model::lowered::beginnings;
use crate::model::recipe::{HeadMakes, Ingredient, LineAmount, Part, PartId, Recipe, Refers};
use crate::model::step::Step;
use crate::solve::formula::SolvedPart;
use crate::solve::formula::heated;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::Span;

mod bought_case;
mod crisp;
mod sold_drained;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "odd-amount",
    severity: Severity::Advice,
    family: Family::Formula,
    looks_for: "a loss in dividing over 20 % (of a raised dough that is not cut out 10 %) or under 0.5 %, a bake loss under 3 or over 45 % (of pieces of 400 g and more 25 %, of raised ones of 50 g and more 35 %), a loss far beyond all the water there is to leave, one of less than two fifths of the water of what leaves the oven crisp, a piece lighter than 2 g or heavier than 5 kg, a baguette of 39 g or 3.9 kg and a biscuit of 240 g, small ones that weigh more than large ones, an edible yield far from the larder's, more on a piece than three pieces weigh, or in it than five, a portion of 8 kg or a cookie of 400 g where a batch is not divided, a name that promises what no line lists, more left on a sieve than went in solid, fat that weighs as much as the bought pastry that is brushed with it, a dough that is rolled to 0.3 mm or 3 m, and tenths of a spoon or spoons by the dozen",
    why: "A slipped point makes 15 % loss of 1.5 %, and nothing else in the formula need notice: a batch given in percent \
          simply grows. What is cooked before it is divided may lose up to 60 %. A pie that would weigh 100 kg has leeks by the kilogram that were grams: from 50 kg on it is said. What is lost in the oven or in the pot is water, the flour's moisture with it: where a bake loss is over it by more than 5 % of all, or a loss of `makes` by more than 10 %, a digit has slipped, or something else is lost and `of everything` says so. A yield of 41 % for a carrot buys twice the carrots. And 4 kg of egg on a croissant are 4 g. Spoons and cups come by halves, thirds, quarters and eighths: 0.2 tsp were 2, and 20 tsp are told in tablespoons. It is \
          advice: if it is meant so, `# allow odd-amount: reason` above the line keeps it quiet.",
    bad: "recipe Rolls\nmakes 20 rolls\nflour .... 100 %\nwater .... 62 %\ndivide 20 x 80 g, loss 25 %\nmix: hands 10 min\n    \
          Mix {flour} and {water}.\n    until smooth\n",
    good: "recipe Rolls\nmakes 20 rolls\nflour .... 100 %\nwater .... 62 %\ndivide 20 x 80 g, loss 2.5 %\nmix: hands 10 min\n    \
           Mix {flour} and {water}.\n    until smooth\n",
    sources: &[
        "common practice, no source; of what can leave as water, conservation of mass",
        "published yields of one vegetable differ by up to 16 points (TM 10-412 A No. 6 and USDA SR28, celery), so 20 are let pass",
    ],
    run: Run::Parts(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    if subject.is_of_whole() {
        let lost = odd_bake_loss(subject).or_else(|| oven_takes_more_than_water(subject));
        tell(diagnostics, lost.or_else(|| crisp::problem(subject, made_span(subject.recipe))));
        tell(diagnostics, huge_piece(subject));
    }
    diagnostics.extend(
        subject.whole_parts().filter_map(|(id, part, solved)| pot_takes_more_than_water(subject, id, part, solved)),
    );
    diagnostics.extend(
        subject.whole_parts().filter_map(|(_, part, solved)| super::boiled_sugar::problem(part, solved, CHECK.name)),
    );
    diagnostics.extend(super::piece_sizes::problems(subject, CHECK.name));
    diagnostics.extend(super::rolled_out::problems(subject, CHECK.name));
    diagnostics.extend(super::rolled_out::weights(subject, CHECK.name));
    for (id, part, _) in subject.own_parts() {
        diagnostics.extend(super::spoon_sizes::problems(part, CHECK.name));
        odd_loss(subject, id, part, diagnostics);
        odd_piece(part, diagnostics);
        odd_yields(part, diagnostics);
        diagnostics.extend(part.lines.iter().filter_map(odd_rest_of_an_egg));
        odd_topping(subject, part, diagnostics);
    }
    if subject.is_of_whole() {
        tell(diagnostics, sold_drained::problem(subject));
    }
    if let Some(id) = subject.recipe.final_part().filter(|_| subject.is_of_whole()) {
        tell(
            diagnostics,
            super::namesake::promised(subject.recipe, id).map(|message| {
                Diagnostic::advice(CHECK.name, subject.recipe.name.span, message)
                    .help("look whether a line is missing, or stands under another name")
            }),
        );
    }
}

/// What sticks to the bench and is trimmed off when pieces are made; of what cooks, what boils away with it.
fn odd_loss(subject: &Subject<'_>, id: PartId, part: &Part, diagnostics: &mut Vec<Diagnostic>) {
    let losses = (part.divide.and_then(|divide| divide.loss), part.makes.and_then(|makes| makes.loss));
    if losses == (None, None) {
        return;
    }
    let cooked = part.steps.iter().any(cooks);
    let has_flour = part.lines.iter().any(|line| line.is_flour);
    // A loss of nothing is said on purpose.
    let low = mille(5);
    let mut odd = |loss: Proportion, high: Proportion, what: &str, span: Span| {
        if loss > high {
            let message = format!(
                "a loss of {} is unusual {what}: common practice is up to {}",
                show::percent(loss),
                show::percent(high)
            );
            diagnostics.push(
                Diagnostic::advice(CHECK.name, span, message).help("look whether a point or a digit has slipped"),
            );
        } else if loss < low && loss > Proportion::ZERO {
            let message = format!(
                "a loss of {} is less than sticks to a bowl: common practice is {} or more",
                show::percent(loss),
                show::percent(low)
            );
            diagnostics.push(
                Diagnostic::advice(CHECK.name, span, message)
                    .help("look whether a point has slipped; where nothing is lost, leave the loss out"),
            );
        }
    };
    // A dough is cooked after it is divided, a jam before.
    let boiled = cooked && !has_flour;
    if let Some((divide, loss)) = part.divide.and_then(|divide| Some((divide, divide.loss?))) {
        let high = match boiled {
            true => mille(600),
            // Of what is cut to pieces and rounded nearly nothing is trimmed off.
            false if loss > mille(100) && subject.fermented().has(id) && !is_trimmed(part) => mille(100),
            false => mille(200),
        };
        odd(loss, high, "in dividing", divide.span);
    }
    if let Some((makes, loss)) = part.makes.and_then(|makes| Some((makes, makes.loss?)))
        && has_flour
        && !cooked
        && !part.steps.is_empty()
    {
        odd(loss, mille(200), "in a dough that is not baked", makes.span);
    }
}

/// Words in a step by which pieces are cut out of a sheet.
const TRIMS: &Beginnings =
    &Beginnings::of(&["sheet", "trim", "stamp", "punch", "laminat", "lock", "enclose", "strip", "triangle", "cutter"]);

/// Whether pieces are cut out of a sheet, or flesh and fruit are in it that lose something.
fn is_trimmed(part: &Part) -> bool {
    part.steps.is_empty() && part.lines.iter().any(|line| matches!(line.refers, Refers::Part(_)))
        || part.steps.iter().any(|step| says(step, TRIMS) || words_of(step).contains("roll out"))
}

/// From so many grams on a piece keeps its middle moist.
const LOAF: Mass = Mass::new(Number::whole(400));
/// From so many grams on a raised piece is no crispbread.
const ROLL: Mass = Mass::new(Number::whole(50));

fn is_crisp(recipe: &Recipe) -> bool {
    let noun = matches!(&recipe.makes, Some(HeadMakes::Pieces { noun, .. }) if noun.has_word_beginning(CRISP));
    noun || recipe.name.has_word_beginning(CRISP)
}

const CRISP: &Beginnings =
    &Beginnings::of(&["crisp", "cracker", "rusk", "zwieback", "knäck", "grissini", "matzo", "lavash"]);

/// What a piece loses in the oven.
fn odd_bake_loss(subject: &Subject<'_>) -> Option<Diagnostic> {
    let recipe = subject.recipe;
    let (low, least) = (mille(30), mille(250));
    // Of nearly all that is baked this tells already.
    recipe.bake_loss.filter(|loss| *loss < low || *loss > least)?;
    let piece = recipe.final_part().and_then(|id| piece_of(subject, id));
    let raised = || recipe.final_part().is_some_and(|id| subject.fermented().has(id));
    let high = match piece {
        Some(piece) if piece >= LOAF => least,
        // Crispbread is dried to the last of its water, which is two fifths of its dough.
        // What is baked crisp right through may lose all its water, and that is compared by itself.
        _ if is_crisp(recipe) && !raised() => mille(600),
        Some(piece) if piece >= ROLL && !is_crisp(recipe) && raised() => mille(350),
        _ => mille(450),
    };
    let loss = recipe.bake_loss.filter(|loss| *loss < low || *loss > high)?;
    // What is baked until it is crisp right through has lost all its water, however much that was.
    let is_dried_out = || {
        let solved = recipe.final_part().and_then(|id| subject.formula.part(id))?;
        let water = solved.composition.may_dry().ok()?.as_share_of(solved.composition.total).ok()?;
        Some(water >= loss && is_crisp(recipe))
    };
    if loss > high && is_dried_out().unwrap_or(false) {
        return None;
    }
    let span = made_span(recipe);
    let message = format!(
        "a bake loss of {} is unusual: common practice is {} to {}",
        show::percent(loss),
        show::percent(low),
        show::percent(high)
    );
    Some(Diagnostic::advice(CHECK.name, span, message).help("look whether a point or a digit has slipped"))
}

fn made_span(recipe: &Recipe) -> Span {
    match &recipe.makes {
        Some(HeadMakes::Pieces { span, .. }) => *span,
        Some(HeadMakes::Mass(makes)) => makes.span,
        None => recipe.name.span,
    }
}

/// A bake loss of what goes in that is more than its water, and more than sticks to a sheet and crumbles.
fn oven_takes_more_than_water(subject: &Subject<'_>) -> Option<Diagnostic> {
    let recipe = subject.recipe;
    let id = recipe.final_part()?;
    let part = recipe.part(id).filter(|part| !part.broken)?;
    let solved = subject.formula.part(id).filter(|solved| solved.stays.is_some())?;
    let (loss, all) = (recipe.bake_loss?, solved.composition.total);
    let water = solved.composition.may_dry().ok()?;
    let enough = water.plus(all.share(mille(50)).ok()?).ok()?;
    // The heat takes no more than if all had been in it.
    if part.lines.is_empty() || all.share(loss).is_ok_and(|most| most <= enough) {
        return None;
    }
    let loss = heated::loss_of_all(recipe, subject.formula, id, loss).ok()?;
    let lost = all.share(loss).ok()?;
    if lost <= enough {
        return None;
    }
    let help = "look whether a point or a digit has slipped; what the oven takes is water";
    Some(more_than_water(made_span(recipe), "a bake loss", (loss, lost), (water, all)).help(help))
}

/// A loss of what a part makes that is more than its water, and more than sticks to a pot.
fn pot_takes_more_than_water(
    subject: &Subject<'_>,
    id: PartId,
    part: &Part,
    solved: &SolvedPart,
) -> Option<Diagnostic> {
    let recipe = subject.recipe;
    let of_head = || match &recipe.makes {
        Some(HeadMakes::Mass(makes)) if recipe.is_final(id) => Some(*makes),
        _ => None,
    };
    // What boils down before it is filled into jars loses water as well.
    let (span, is_divided) = match (&part.divide, part.makes.or_else(of_head)) {
        (Some(divide), _) if loses_water(part) => (divide.span, true),
        (None, Some(made)) if !made.alike => (made.span, false),
        _ => return None,
    };
    let (all, makes) = (solved.stays.filter(|_| !part.per_piece)?, solved.makes?);
    let water = solved.composition.may_dry().ok()?;
    // What is not lost cannot be too much.
    let lost = all.minus(makes).ok().filter(|lost| *lost > Mass::ZERO)?;
    let loss = lost.as_share_of(all).ok()?;
    if lost <= water.plus(all.share(mille(100)).ok()?).ok()? {
        return None;
    }
    let help = match is_divided {
        true => "look whether a point or a digit has slipped; what boils away is water",
        false => {
            "look whether a point or a digit has slipped; where something else than water is lost, write `of everything` behind the loss"
        }
    };
    Some(more_than_water(span, "a loss", (loss, lost), (water, all)).help(help))
}

fn more_than_water(span: Span, what: &str, (loss, lost): (Proportion, Mass), (water, all): (Mass, Mass)) -> Diagnostic {
    let message = format!(
        "{what} of {} is {} of {}, and all the water in it is {}, the flour's moisture counted",
        show::percent(loss),
        show::mass_plain(lost),
        show::mass_plain(all),
        show::mass_plain(water)
    );
    Diagnostic::advice(CHECK.name, span, message)
}

/// The most that a loaf, a pie or a pot of something weighs: more than a person lifts.
const LIFTED: Mass = Mass::new(Number::whole(50_000));

/// So many pieces of all that goes in that nobody could lift one.
fn huge_piece(subject: &Subject<'_>) -> Option<Diagnostic> {
    let (recipe, formula) = (subject.recipe, subject.formula);
    let Some(HeadMakes::Pieces { noun, span, .. }) = &recipe.makes else { return None };
    let id = recipe.final_part()?;
    let (part, solved) = (recipe.part(id)?, formula.part(id)?);
    let pieces = formula.pieces?.value();
    let each = solved.goes_in?.over(pieces).ok()?;
    if part.divide.is_some()
        || part.broken
        || each <= LIFTED
        || noun.has_word_beginning(beginnings!["batch", "mix", "load", "vat", "kettle", "tub"])
    {
        return None;
    }
    let which = if pieces == Number::ONE {
        format!("the {}", agreeing(pieces, &noun.text))
    } else {
        format!("one of the {} {}", pieces.decimal(0), noun.text)
    };
    let message = format!("{which} would weigh {}", show::mass_plain(each));
    // What weighs most is likely what is wrong.
    let heaviest = part.lines.iter().zip(&solved.lines).max_by_key(|(_, amount)| amount.mass);
    let problem = Diagnostic::advice(CHECK.name, *span, message);
    let problem = match heaviest {
        Some((line, _)) => problem.also(line.amount_span, "weighs most"),
        None => problem,
    };
    Some(problem.help("look whether a unit is right, g or kg, and whether a point has slipped"))
}

/// What a piece weighs: as it is divided, else all that is put together by the number of pieces.
fn piece_of(subject: &Subject<'_>, id: PartId) -> Option<Mass> {
    let (part, solved) = (subject.recipe.part(id)?, subject.formula.part(id)?);
    solved.each.or_else(|| {
        let pieces = subject.formula.pieces_for(part, id).filter(|_| part.per_piece)?.value();
        solved.goes_in?.over(pieces).ok()
    })
}

/// A piece that nobody would shape by hand.
fn odd_piece(part: &Part, diagnostics: &mut Vec<Diagnostic>) {
    let Some(divide) = part.divide else { return };
    let (least, most) = (Mass::new(Number::whole(2)), Mass::new(Number::whole(5000)));
    if divide.each < least || divide.each > most {
        let message = format!(
            "pieces of {} are unusual: common practice is {} to {}",
            show::mass_plain(divide.each),
            show::mass_plain(least),
            show::mass_plain(most)
        );
        diagnostics
            .push(Diagnostic::advice(CHECK.name, divide.span, message).help("look whether the unit is right, g or kg"));
    }
}

/// A yield far from what the larder knows of that fruit or vegetable.
fn odd_yields(part: &Part, diagnostics: &mut Vec<Diagnostic>) {
    for line in &part.lines {
        if let Some(said) = line.edible.filter(|said| *said < mille(200)) {
            let message = format!(
                "a yield of {} is unusual: four fifths of {} would be thrown away",
                show::percent(said),
                line.name
            );
            diagnostics
                .push(Diagnostic::advice(CHECK.name, line.span, message).help("look whether a point has slipped"));
            continue;
        }
        let (Some(said), Some(known)) = (line.edible, line.facts().and_then(|facts| facts.edible)) else { continue };
        // Who buys trimmed leeks, or takes lemons with their peel, throws nothing away.
        let apart = known.value().minus(said.value()).unwrap_or(Number::ZERO);
        if apart > Number::constant(1, 5) {
            let message = format!(
                "a yield of {} is unusual for {}: the larder has {}",
                show::percent(said),
                line.name,
                show::percent(known)
            );
            diagnostics.push(
                Diagnostic::advice(CHECK.name, line.span, message)
                    .help("look whether a digit has slipped, or trim less"),
            );
        }
    }
}

/// Where dough is the case of something, by the beginnings of words.
const FILLS: &Beginnings = &Beginnings::of(&[
    "wrap", "stretch", "line", "parcel", "plate", "ladle", "soup", "broth", "bowl", "stuff", "lid", "crimp",
]);

/// What an egg leaves: of two parts of white there is one of yolk and somewhat less (USDA SR28 WEIGHT 01124 and 01125: 33 g and 17 g), whatever its
/// size to a third.
fn odd_rest_of_an_egg(line: &Ingredient) -> Option<Diagnostic> {
    let (left, share) = line.leaves.as_ref().filter(|_| line.kind == Kind::Egg)?;
    let (is_white, leaves_white) = (line.is_egg_white(), is_egg_white(left.key.as_str()));
    let (low, high) = match (is_white, leaves_white) {
        (false, true) => (mille(1300), mille(2600)),
        (true, false) => (mille(380), mille(770)),
        _ => return None,
    };
    if *share >= low && *share <= high {
        return None;
    }
    let message = format!(
        "{} leaves {} of {}: an egg has from {} to {}",
        line.name,
        show::percent(*share),
        left,
        show::percent(low),
        show::percent(high)
    );
    Some(Diagnostic::advice(CHECK.name, line.span, message).help("look whether a digit has slipped"))
}

/// In a part by the piece: something that is put on the piece and weighs many times as much.
fn odd_topping(subject: &Subject<'_>, part: &Part, diagnostics: &mut Vec<Diagnostic>) {
    if !part.per_piece {
        return;
    }
    let pieces = part.lines.iter().filter_map(|line| match line.refers {
        // Of what is not divided the line says how much of it a piece takes.
        Refers::Part(other) => {
            let made = subject.recipe.part(other)?;
            let is_dough = || made.lines.iter().any(|line| line.is_flour && line.stays_in());
            let said = || line.said().first().and_then(Said::mass).filter(|_| is_dough());
            made.divide.map(|divide| divide.each).or_else(said)
        }
        Refers::Pantry(_) => None,
    });
    let Some(piece) = pieces.max() else {
        tell(diagnostics, bought_case::problem(part));
        return;
    };
    // Less is never much, and nearly everything is less.
    let least = Number::whole(3);
    // What is wrapped, lined or laid on a plate may be most of it; what fills a roll is less.
    let most_of = |at: usize| {
        let takes = |step: &&Step| step.lines_taken().any(|taken| taken == at);
        let mut steps = part.steps.iter().filter(takes).peekable();
        let all = steps.peek().is_none();
        let says_so = |words: &Beginnings| match all {
            true => part.steps.iter().any(|step| says(step, words)),
            false => part.steps.iter().filter(takes).any(|step| says(step, words)),
        };
        if says_so(FILLS) {
            Number::whole(8)
        } else if says_so(beginnings!["fill", "roll", "enclose", "lay in", "put in"]) {
            Number::constant(7, 2)
        } else {
            least
        }
    };
    for (at, line) in part.lines.iter().enumerate().filter(|(_, line)| matches!(line.refers, Refers::Pantry(_))) {
        let LineAmount::Said(said) = &line.amount else { continue };
        let Some(mass) = said.first().and_then(Said::mass) else { continue };
        let is_over = |times: Number| piece.times(times).is_ok_and(|most| mass > most);
        if is_over(least) && is_over(most_of(at)) {
            let message =
                format!("{} of {} on a piece of {}", show::mass_plain(mass), line.name, show::mass_plain(piece));
            diagnostics.push(
                Diagnostic::advice(CHECK.name, line.amount_span, message)
                    .help("in a part by the piece, amounts are for one piece; look whether the unit is right"),
            );
        }
    }
}
