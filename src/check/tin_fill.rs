//! `tin-fill`: far too much or too little dough for its tin.

use super::dough::inside;
use super::{Check, Family, Run, Subject, piece_sizes};
use crate::measure::number::Number;
use crate::measure::pan::room_for;
use crate::measure::quantity::{Count, Mass};
use crate::measure::show;
use crate::model::cooking::{bakes, called, says};
use crate::model::kind::Kind;
use crate::model::lowered::{Beginnings, beginnings};
use crate::model::recipe::{BakedIn, HeadMakes, Ingredient, Part, PartId, Recipe};
use crate::model::step::StepKind;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::Span;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "tin-fill",
    severity: Severity::Advice,
    family: Family::Kitchen,
    looks_for: "a piece that would run over its tin or hardly cover its bottom",
    why: "A loaf that fills its tin takes 3.2 to 4.4 ml of tin for each gram of dough; a home loaf that stands above the rim takes 2 \
          to 3. Below 1.5 it runs over, above 8 it stays a flat cake. A measure in the wrong unit or the weight of another tin is \
          the usual reason. `miche sums` says what another tin takes. What is said of a tin or sheet is said of each piece: 24 squares cut of \
          one sheet are a gram of dough on a square centimetre, and each on a sheet of its own nothing that could be baked.",
    bad: "recipe Tin loaf\nmakes 1 loaf, tin 23 cm x 13 cm x 7 mm\nflour .... 500 g\nwater .... 65 %\ndivide 1 x 825 g\nmix: hands 10 min\n    \
          Mix {flour} and {water}.\n    until smooth\n",
    good: "recipe Tin loaf\nmakes 1 loaf, tin 23 cm x 13 cm x 7 cm\nflour .... 500 g\nwater .... 65 %\ndivide 1 x 825 g\nmix: hands 10 min\n    \
           Mix {flour} and {water}.\n    until smooth\n",
    sources: &[
        "a retail bakers' manual of the middle of the 20th century: 5.5 to 7.6 cubic inches for each ounce of dough (seen, title not on the page)",
        "2 to 3 ml for a home loaf, and the limits: common practice, no source",
    ],
    run: Run::Recipe(run),
};

/// Egg that is whisked so far raises what it goes into, and a custard has no foam.
const FOAMS: &Beginnings =
    &Beginnings::of(&["pale", "ribbon", "trail", "tripl", "treble", "stiff", "fluffy", "foam", "volume", "frothy"]);

/// The names of steps by which a part has been in the oven.
const BAKED: &Beginnings = &Beginnings::of(&["bake", "baking", "blind"]);

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let recipe = subject.recipe;
    let last = recipe.final_part();
    let own = last.and_then(|id| recipe.part(id)).and_then(|part| part.pan);
    // What leaves the range of exact numbers is reported at its amount.
    let each = subject.formula.piece_weight(recipe).ok().flatten();
    // A cake that is not divided is all that goes in.
    let each = each.or_else(|| piece_sizes::undivided(subject).map(|(_, each, _)| each));
    // What is built up of a cake that was baked in the tin is no dough: only what was in the oven rises.
    let each = last.and_then(|id| baked_before(recipe, id)).or(each);
    if let (Some(baked_in), Some(dough), Some(id)) = (recipe.pan.or(own), each, last) {
        diagnostics.extend(look(subject, baked_in, dough, id));
    }
    // A part that makes a weight is baked in one tin, as it is written.
    for (id, part, solved) in subject.own_parts() {
        let is_last = last == Some(id);
        let pan = part.pan.or(recipe.pan.filter(|_| is_last));
        let makes_weight = part.makes.is_some() || matches!(recipe.makes, Some(HeadMakes::Mass(_)));
        if let (Some(baked_in), Some(dough), true) =
            (pan, solved.as_written().stays, makes_weight && !(is_last && each.is_some()))
        {
            diagnostics.extend(look(subject, baked_in, dough, id));
        }
    }
}

/// What a piece weighs of the part that a last part takes by the piece and that was baked there, where the last part itself bakes nothing.
fn baked_before(recipe: &Recipe, last: PartId) -> Option<Mass> {
    let part = recipe.part(last).filter(|part| part.per_piece && !part.steps.iter().any(bakes))?;
    let mut made = part.lines.iter().filter_map(|line| recipe.part(line.part()?));
    made.find(|made| made.steps.iter().any(bakes)).and_then(|made| made.divide).map(|divide| divide.each)
}

fn look(subject: &Subject<'_>, baked_in: BakedIn, dough: Mass, of: PartId) -> Option<Diagnostic> {
    let Some(volume) = baked_in.pan.volume().ok()? else {
        let area = baked_in.pan.area().ok().flatten();
        return area.and_then(|area| on_a_sheet(subject, baked_in.span, dough, area));
    };
    let room = room_for(dough, volume).ok()?;
    // Only what rises runs over: a custard in its shell comes up to the rim.
    let rises = || {
        let mut inside = inside(subject.recipe, of).into_iter();
        // A sponge that was baked by itself has risen, and a crust that is `pale gold` is no foam.
        let is_baked = |id: PartId, part: &Part| id != of && part.steps.iter().any(|step| called(step, BAKED));
        let foams = |part: &Part| part.steps.iter().any(|step| step.kind == StepKind::Hands && says(step, FOAMS));
        let lifts = |part: &Part, line: &Ingredient| {
            line.kind.raises() || line.is_egg_white() || line.kind == Kind::Egg && foams(part)
        };
        inside.any(|id| {
            subject
                .recipe
                .part(id)
                .is_some_and(|part| !is_baked(id, part) && part.lines.iter().any(|line| lifts(part, line)))
        })
    };
    // A dough of wheat that yeast raises wants twice its room; rye hardly rises in its tin.
    let is_bread = || {
        let parts = || inside(subject.recipe, of).into_iter().filter_map(|id| subject.recipe.part(id));
        let lines = || parts().flat_map(|part| &part.lines);
        let is_lean = subject.formula.part(of).is_some_and(|solved| {
            let fat = solved.composition.fat.times(Number::whole(5));
            fat.is_ok_and(|fat| fat <= solved.composition.flour)
        });
        is_lean
            && lines().any(|line| line.kind.is_yeast())
            && !lines().any(|line| line.name.has_word_beginning(beginnings!["rye", "spelt", "gluten"]))
    };
    let tight =
        if room < Number::constant(19, 10) && is_bread() { Number::constant(19, 10) } else { Number::constant(3, 2) };
    let words = if room < tight && (room < Number::constant(9, 10) || rises()) {
        "it would run over"
    } else if room > Number::whole(8) {
        "it would stay flat"
    } else {
        return None;
    };
    let message =
        format!("{} of dough in a tin with {} ml for each gram: {words}", show::mass_plain(dough), room.decimal(2));
    Some(
        Diagnostic::advice(CHECK.name, baked_in.span, message)
            .help("look at the measures and their units; from 2 to 4.4 ml for each gram is usual"),
    )
}

/// A piece that would lie on its sheet thinner than a millimetre, at a gram to the cubic centimetre; `area` is in square millimetres.
fn on_a_sheet(subject: &Subject<'_>, span: Span, dough: Mass, area: Number) -> Option<Diagnostic> {
    let square = area.over(Number::whole(100)).ok()?;
    let load = dough.value().over(square).ok()?;
    if load >= Number::constant(1, 10) {
        return None;
    }
    let message = format!(
        "{} on a sheet of its own, {} g on a square centimetre: thinner than a millimetre",
        show::mass_plain(dough),
        load.decimal(2)
    );
    let problem = Diagnostic::advice(CHECK.name, span, message);
    let pieces = subject.formula.pieces.map(Count::value).filter(|pieces| *pieces > Number::ONE);
    let together = pieces.and_then(|pieces| Some((pieces, load.times(pieces).ok()?)));
    Some(match together {
        Some((pieces, all)) => problem.help(format!(
            "all {} on one sheet are {} g: there make the sheet the piece, `makes 1 cake, sheet …`, and cut it in a step",
            pieces.decimal(0),
            all.decimal(2)
        )),
        None => problem.help("look at the measures and their units"),
    })
}
