//! `raw-meat`: raw meat, poultry or fish that nothing cooks, or of which nobody can tell when it is cooked.

use super::from_elsewhere::told_where_it_comes_in;
use super::statement::{self, FROZEN_FISH, RAW_FLESH};
use super::{Check, Family, Run, Subject};
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::model::animals::is_bird;
use crate::model::cooking::raw_flesh::{is_minced, is_raw};
use crate::model::cooking::{
    Later, bakes, called, cooks_through, first_draw, first_draws, is_long_bath, is_long_bath_for_birds,
};
use crate::model::kind::Kind;
use crate::model::lowered::{Beginnings, beginnings};
use crate::model::recipe::{Ingredient, Part, PartId};
use crate::model::step::{Step, Target};
use crate::model::text::mere_words;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::quick::QuickMap;
use crate::text::word_begins::has_word_beginning;

mod worms;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "raw-meat",
    severity: Severity::Advice,
    family: Family::Safety,
    looks_for: "raw meat, poultry or fish that nothing cooks, fish that is eaten raw and was not frozen first, or that is baked inside something, and poultry and mince that are fried or grilled, without a temperature by which one \
                knows that it is done",
    why: "Raw meat carries what makes people ill, minced meat and poultry most of all, and in a pie or a roll nobody sees \
          when it is done. Measured in the middle, fish and whole cuts are cooked at 63 °C, minced meat at 68 °C, poultry and \
          what is stuffed at 74 °C. Say it as the sign of the step: `until {74 C} inside`. What is eaten raw on purpose, or sold \
          raw for others to cook, carries a `caution` or `directions` that say so. In raw fish live worms: what is eaten raw, cured or marinated was frozen \
          through before, at -20 °C for 24 hours in the EU and for 7 days in the United States, or is farmed; its line, a step or a `caution` says so. This is general advice: local food law \
          and licensed practice go before it.",
    bad: "recipe Pork pies\nmakes 4 pies\nplain flour .... 400 g\nlard .... 140 g\nwater .... 160 g\nminced pork .... 600 g\nsalt .... 12 g\nmix: hands 20 min\n    \
          Mix {plain flour}, {lard} and {water}; fill with {minced pork} and {salt}.\nbake: tend 60 min, using oven at 180 C\n    until brown\n",
    good: "recipe Pork pies\nmakes 4 pies\nplain flour .... 400 g\nlard .... 140 g\nwater .... 160 g\nminced pork .... 600 g\nsalt .... 12 g\nmix: hands 20 min\n    \
           Mix {plain flour}, {lard} and {water}; fill with {minced pork} and {salt}.\nbake: tend 60 min, using oven at 180 C\n    until {75 C} inside\n",
    sources: &[
        "FDA Food Code 3-401.11, as South Dakota's rule 44:02:07:28 has it",
        "Safe Recipe Style Guide, Partnership for Food Safety Education, 2019",
        "Regulation (EC) 853/2004, Annex III, Section VIII, Chapter III D; FDA Food Code 3-402.11 (both from memory): freezing against parasites",
    ],
    run: Run::Parts(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let mut looks = Looks::of(subject);
    for (id, part, _) in subject.own_parts() {
        looks.at((id, part), diagnostics);
    }
    told_where_it_comes_in(subject, diagnostics, |(id, part, _), found| looks.at((id, part), found));
}

/// What is asked of every raw line of a recipe.
struct Looks<'s, 'r> {
    subject: &'s Subject<'r>,
    later: Later<'r>,
    only_baked: OnlyBrowned,
    only_dry: OnlyBrowned,
}

impl<'s, 'r> Looks<'s, 'r> {
    fn of(subject: &'s Subject<'r>) -> Looks<'s, 'r> {
        Looks {
            subject,
            later: Later::of(subject.recipe),
            only_baked: OnlyBrowned::by(|step| bakes(step).then_some("oven")),
            only_dry: OnlyBrowned::by(browns),
        }
    }

    fn at(&mut self, (id, part): (PartId, &Part), diagnostics: &mut Vec<Diagnostic>) {
        let recipe = self.subject.recipe;
        let draws = first_draws(part);
        for (at, line) in part.lines.iter().enumerate().filter(|(_, line)| is_raw(line)) {
            let Some(step) = draws.get(&Target::Line(at)).copied() else { continue };
            let sold_to_cook = || recipe.sale.directions.as_ref().is_some_and(|said| statement::tells_to_cook(said));
            let is_said = sold_to_cook() || statement::states_of((recipe, part), RAW_FLESH, Some(line));
            let cooked = self.later.is_line_cooked(id, step, at);
            // Parasites die in the cold; what is cured is then eaten as it is.
            let is_frozen = line.kind == Kind::Fish && statement::states(recipe, part, FROZEN_FISH);
            let in_bath = part.steps.iter().skip(step).any(if is_bird(line.name.key.as_str()) {
                is_long_bath_for_birds
            } else {
                is_long_bath
            });
            if cooked == Some(false) && !is_said && !is_frozen && !in_bath {
                let name = part.steps.get(step).map_or("", |step| &step.name.text);
                let message = format!("`{}` is raw, and nothing cooks it after `{name}`", line.name);
                diagnostics.push(Diagnostic::advice(CHECK.name, line.name.span, message).help(
                    "cook it, or add a `caution` line that says it is raw; where who buys it cooks it, say how with `directions`; local \
                     food law goes before this",
                ));
            } else if cooked == Some(false)
                && !in_bath
                && worms::may_live_in(line)
                && (!is_frozen && !worms::is_frozen(part, line) || statement::states_too_little_freezing(recipe, part))
                && !sold_to_cook()
                && !statement::tells_in_a_caution_to_cook(recipe, part)
            {
                diagnostics.push(worms::problem(CHECK.name, line));
            } else if cooked == Some(true)
                && !lies_open_and_thin(part, step, line)
                && let only = if wants_most(line) { &mut self.only_dry } else { &mut self.only_baked }
                && let Cooked::Browned(heat) = only.of(&self.later, id, step, 0)
            {
                let message = format!(
                    "`{}` goes raw into the {heat}, and nothing says how hot it is inside when it is done",
                    line.name
                );
                // A loaf is crumb at 95 °C, and what is in it is cooked long before.
                let help = match self.subject.fermented().has(id) {
                    true => {
                        "say it as the sign of the step: `until {95 C} inside`; the dough is done then, and what is in it has more than the 74 °C that \
                             poultry wants (minced meat 68 °C, fish and whole cuts 63 °C)"
                    }
                    false => {
                        "say it as the sign of the step: `until {74 C} inside` (poultry; minced meat 68 °C, fish and whole cuts 63 °C)"
                    }
                };
                diagnostics.push(Diagnostic::advice(CHECK.name, line.name.span, message).help(help));
            }
        }
    }
}

/// Whether what a line is wants more than whole cuts do: poultry, and what is minced.
fn wants_most(line: &Ingredient) -> bool {
    let name = line.name.key.as_str();
    let said = line.preparation.as_ref().map(|said| said.to_lowercase());
    is_bird(name) || is_minced(name, said.as_deref())
}

/// Words for how small a topping is cut, and for what closes over a filling.
const THIN: &Beginnings = &Beginnings::of(&["diced", "sliced", "in strips", "lardons", "shaved", "shredded"]);
const CLOSES: &Beginnings = &Beginnings::of(&[
    "fill",
    "fold",
    "enclose",
    "wrap",
    "seal",
    "roll up",
    "shut",
    "lid",
    "stuff",
    "pinch",
    "press shut",
    "close",
    "tuck",
    "knead",
    "mix",
]);
/// So hot an oven is for what is open on a thin dough. Common practice, no source.
const HOT: Number = Number::whole(220);

/// Whether meat in small pieces is strewn open on a dough and baked hot: it fries in the heat from above, and is in nothing. Poultry and mince
/// want a thermometer all the same.
fn lies_open_and_thin(part: &Part, step: usize, line: &Ingredient) -> bool {
    let is_thin = line.is_prepared(THIN);
    let closes = |step: &Step| called(step, CLOSES) || has_word_beginning(&mere_words(&step.words), CLOSES);
    let hot = |step: &Step| {
        bakes(step)
            && step.temperature.is_some_and(|(at, _)| at.celsius() >= HOT)
            && step.time.1.in_minutes().is_ok_and(|minutes| minutes >= Number::whole(8))
    };
    let mut from_here = part.steps.iter().skip(step);
    is_thin && !wants_most(line) && line.kind != Kind::Fish && !from_here.clone().any(closes) && from_here.any(hot)
}

/// By which dry heat a step browns the outside before the middle is done, if it does: an oven, a fryer, a grill.
fn browns(step: &Step) -> Option<&'static str> {
    let by = |words: &'static Beginnings| step.equipment.as_ref().is_some_and(|name| name.has_word_beginning(words));
    if by(beginnings!["fryer"]) {
        Some("fryer")
    } else if by(beginnings!["grill", "griddle", "barbecue", "bbq", "plancha", "broiler"]) {
        Some("heat of the grill")
    } else {
        bakes(step).then_some("oven")
    }
}

/// Of what goes in at a step of a part, whether all that cooks it is a dry heat whose step says no temperature of what is in it, and by what. What was
/// found out once is kept, since many ways may lead through the same part.
struct OnlyBrowned {
    by: fn(&Step) -> Option<&'static str>,
    known: QuickMap<(PartId, usize), Cooked>,
}

/// How something raw is cooked, in its part or in one that takes it up.
#[derive(Clone, Copy)]
enum Cooked {
    /// By nothing that can be told.
    Untold,
    /// By such a dry heat alone, of which nobody says how hot it makes the middle.
    Browned(&'static str),
    /// By something else.
    Otherwise,
}

impl OnlyBrowned {
    fn by(by: fn(&Step) -> Option<&'static str>) -> OnlyBrowned {
        OnlyBrowned { by, known: QuickMap::default() }
    }

    fn of(&mut self, later: &Later<'_>, id: PartId, from: usize, depth: usize) -> Cooked {
        if let Some(known) = self.known.get(&(id, from)) {
            return *known;
        }
        let found = self.find(later, id, from, depth);
        self.known.insert((id, from), found);
        found
    }

    fn find(&mut self, later: &Later<'_>, id: PartId, from: usize, depth: usize) -> Cooked {
        let recipe = later.recipe();
        let Some(part) = recipe.part(id).filter(|_| depth <= recipe.parts.len()) else { return Cooked::Untold };
        let mut cooking = part.steps.iter().skip(from).filter(|step| cooks_through(step)).peekable();
        // What another file cooks is that file's to say.
        if cooking.peek().is_some() && part.foreign.is_some() {
            return Cooked::Otherwise;
        }
        if let Some(first) = cooking.peek().and_then(|step| (self.by)(step)) {
            let browns = |step: &Step| (self.by)(step).is_some() && !says_how_hot_inside(step);
            return if cooking.all(browns) { Cooked::Browned(first) } else { Cooked::Otherwise };
        }
        if cooking.peek().is_some() {
            return Cooked::Otherwise;
        }
        let mut found = Cooked::Untold;
        for (user, line) in later.users(id) {
            let from = recipe.part(user).and_then(|part| first_draw(part, Target::Line(line))).unwrap_or(0);
            match (self.of(later, user, from, depth + 1), found) {
                (Cooked::Otherwise, _) => return Cooked::Otherwise,
                (known, Cooked::Untold) => found = known,
                _ => {}
            }
        }
        found
    }
}

/// From here on a temperature is that of the middle of something cooked; whether it is enough is `undercooked`.
const SAID: Number = Number::whole(48);

/// Whether the sentences or the sign of a step say a temperature at which something is cooked: its head says that of the oven.
fn says_how_hot_inside(step: &Step) -> bool {
    // What falls from the bone after hours is hotter than 85 °C: collagen melts from 70 on. Common practice, no source.
    let falls_apart = || {
        let cue = mere_words(&step.cue);
        step.time.0 >= Duration::minutes(90)
            && ["falls apart", "fall apart", "off the bone", "from the bone", "shreds", "pulls apart"]
                .iter()
                .any(|sign| cue.contains(sign))
    };
    falls_apart() || step.hottest_said().is_some_and(|hottest| hottest.celsius() >= SAID)
}
