//! Checks: what is looked for in a recipe, one file each.
//!
//! A check is a value that carries its own explanation and examples; the tests run the examples, `miche explain` prints
//! the rest. Some problems are found while a file is read or resolved; their checks have a file here too, for the
//! explanation, and nothing to run.
//!
//! To add a check, write `check/my_check.rs` with its `pub(super) const CHECK`, declare it among the modules, and name it in the list
//! that `miche explain` prints.

use crate::language::syntax::Tree;
use crate::model::project::Project;
use crate::model::recipe::{Part, PartId, Recipe};
use crate::solve::formula::{Formula, SolvedPart};
use crate::text::diagnostic::{Diagnostic, Severity};

macro_rules! checks {
    ($($module:ident),* $(,)?) => {
        /// Every check, in the order in which `miche explain` lists them within a family.
        pub const ALL: &[&Check] = &[$(&$module::CHECK),*];
    };
}

checks! {
    stray_line,
    no_description,
    merge_conflict,
    no_title,
    hidden_character,
    carriage_return,
    unknown_unit,
    no_unit,
    wrong_kind,
    which_cup,
    decimal_comma,
    bare_measure,
    bare_amount,
    impossible_number,
    leading_zero,
    missing_use,
    idle_use,
    missing_picture,
    broken_use,
    use_outside_root,
    use_ring,
    unknown_name,
    unknown_step,
    unknown_option,
    unknown_revision,
    twice_named,
    said_twice,
    too_much,
    part_cycle,
    two_amounts_disagree,
    percent_without_base,
    base_not_100,
    no_scale,
    no_weight,
    part_short,
    part_left_over,
    yield_does_not_add_up,
    pieces_mismatch,
    sort_not_made,
    size_not_made,
    empty_chapter,
    aim_missed,
    aim_unknown,
    odd_aim,
    odd_percent,
    extreme_percent,
    no_salt,
    no_leaven,
    out_of_proportion,
    odd_amount,
    no_amount,
    no_net_quantity,
    odd_preparation,
    near_clause,
    volume_only,
    water_temperature,
    look_alike_name,
    look_mark,
    near_name,
    never_used,
    not_listed,
    used_up,
    no_plan,
    log_out_of_time,
    more_out_than_in,
    bakes_say_otherwise,
    ready_days_early,
    not_all_used,
    not_divided,
    out_of_order,
    step_out_of_place,
    loose_step,
    times_do_not_add_up,
    odd_time,
    odd_bake_time,
    slow_shaping,
    long_rise,
    odd_ripening,
    no_prove,
    no_bake,
    odd_temperature,
    odd_size,
    odd_method,
    no_sign,
    sign_without_heat,
    sign_not_last,
    changed_piece_weight,
    unlike_choices,
    no_such_equipment,
    too_few_cooks,
    no_hours,
    long_shift,
    too_big_a_load,
    too_fine_for_scale,
    late_preheat,
    no_pan_size,
    tin_fill,
    tins_disagree,
    bath_stays_in,
    raw_flour_or_egg,
    raw_meat,
    raw_milk_or_sprouts,
    undercooked,
    poisonous,
    left_warm,
    kept_too_long,
    past_keeps,
    slow_cooling,
    held_too_cool,
    shelf_storage,
    hot_or_caustic,
    hidden_allergen,
    gluten_after_wheat,
    unknown_allergen,
    unclear_allowance,
    idle_allowance,
}

mod against_flour;
mod aim_missed;
mod aim_unknown;
pub mod allowance;
mod baked_shelf;
pub mod bakes;
mod bakes_say_otherwise;
mod bare_amount;
mod bare_measure;
mod base_not_100;
mod bath_stays_in;
mod boiled_sugar;
pub mod book;
mod brine_stays_in;
mod broken_use;
mod carriage_return;
pub mod caution;
mod changed_piece_weight;
mod churned;
mod claims;
mod consequence;
mod cooked_through;
mod curing;
mod danger;
mod day;
mod decimal_comma;
mod done;
mod dough;
mod drinks_its_bath;
mod empty_chapter;
pub mod explain;
mod extreme_percent;
mod from_elsewhere;
mod gluten_after_wheat;
mod gluten_free_dough;
mod heated_empty;
mod held_too_cool;
mod hidden_allergen;
mod hidden_character;
mod hot_or_caustic;
mod idle_allowance;
mod idle_use;
mod impossible_number;
mod in_a_mix;
mod keeping;
mod kept;
mod kept_too_long;
mod larder_figures;
mod late_preheat;
mod leading_zero;
mod left_warm;
mod log_out_of_time;
mod long_rise;
mod long_shift;
mod look_alike_name;
mod look_mark;
mod loose_step;
mod lost_acts;
mod merge_conflict;
mod missing_picture;
mod missing_use;
mod more_out_than_in;
mod named_food;
mod namesake;
mod near_clause;
mod near_name;
mod never_cooked;
mod never_set;
mod never_used;
mod no_amount;
mod no_bake;
mod no_description;
mod no_hours;
mod no_leaven;
mod no_net_quantity;
mod no_pan_size;
mod no_plan;
mod no_prove;
mod no_salt;
mod no_scale;
mod no_sign;
mod no_such_equipment;
mod no_title;
mod no_unit;
mod no_weight;
mod not_all_used;
mod not_divided;
mod not_listed;
mod odd_aim;
mod odd_amount;
mod odd_bake_time;
mod odd_method;
mod odd_percent;
mod odd_preparation;
mod odd_ripening;
mod odd_size;
mod odd_temperature;
mod odd_time;
mod off_a_piece;
mod out_of_order;
mod out_of_proportion;
mod part_cycle;
mod part_left_over;
mod part_short;
mod past_keeps;
mod per_portion;
mod percent_without_base;
mod pickled;
mod piece_sizes;
mod pieces_mismatch;
mod pinch_of_sugar;
mod poisonous;
mod pots;
mod poured_over;
mod promise;
mod proportions;
mod raw_flour_or_egg;
mod raw_meat;
mod raw_milk_or_sprouts;
mod raw_pastry;
mod ready_days_early;
mod roles;
mod rolled_out;
mod runner;
mod said_twice;
mod salty;
mod shared;
mod shelf_storage;
mod sign_not_last;
mod sign_without_heat;
mod size_not_made;
mod slow_cooling;
mod slow_shaping;
mod sort_not_made;
mod spoon_sizes;
mod statement;
mod step_out_of_place;
mod stray_line;
mod strong_spice;
mod times_do_not_add_up;
mod tin_fill;
mod tins_disagree;
mod too_big_a_load;
mod too_few_cooks;
mod too_fine_for_scale;
mod too_much;
mod twice_named;
mod two_amounts_disagree;
mod unclear_allowance;
mod undercooked;
mod unknown_allergen;
mod unknown_name;
mod unknown_option;
mod unknown_revision;
mod unknown_step;
mod unknown_unit;
mod unlike_choices;
mod use_outside_root;
mod use_ring;
mod used_up;
mod usual_times;
mod volume_only;
mod water_temperature;
mod which_cup;
mod who_is_busy;
mod work_by_weight;
mod wrong_kind;
mod yield_does_not_add_up;

pub(crate) use kept_too_long::keeps_by_itself;
pub(crate) use raw_flour_or_egg::{is_eaten_as_said, raw as raw_in};
pub use runner::{
    Checked, Checking, Found, Memory, check_again, check_but, check_file, check_files, reachable, told_once, work_out,
};
pub(crate) use shelf_storage::{is_creamed, is_full_jam, stands_on_shelf};

/// What a check is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Family {
    /// How the file is written.
    Writing,
    /// Names and files.
    Names,
    /// Amounts and the formula.
    Formula,
    /// What the steps do with the ingredients.
    Steps,
    /// What the kitchen has and can do.
    Kitchen,
    /// What can hurt.
    Safety,
    /// What a file allows.
    Allowances,
}

impl Family {
    /// Its heading.
    pub fn title(self) -> &'static str {
        match self {
            Family::Writing => "How the file is written",
            Family::Names => "Names and files",
            Family::Formula => "Amounts and the formula",
            Family::Steps => "Steps and what they use",
            Family::Kitchen => "The kitchen and its equipment",
            Family::Safety => "Cautions: what can hurt",
            Family::Allowances => "Allowances",
        }
    }
}

/// A recipe under one selection of its choices, worked out.
pub struct Subject<'a> {
    /// The recipe.
    pub recipe: &'a Recipe,
    /// Its amounts.
    pub formula: &'a Formula,
    /// The one part that is looked at; `None` for all.
    pub only: Option<PartId>,
    /// What several checks ask of it.
    asked: &'a dough::AskedOfAll,
}

impl<'a> Subject<'a> {
    /// The parts that are raised with yeast or leaven, as [`dough::fermented`] has it.
    fn fermented(&self) -> &'a dough::Known {
        self.asked.fermented.get_or_init(|| dough::Known::inside(self.recipe, self.asked, dough::fermented))
    }

    /// The parts in which yeast or leaven works, as [`dough::leavened`] has it.
    fn leavened(&self) -> &'a dough::Known {
        self.asked.leavened.get_or_init(|| dough::Known::inside(self.recipe, self.asked, dough::leavened))
    }

    /// Whether what concerns the recipe as a whole is asked too: of all of it, and where it is asked part by part, with the part that it is about.
    fn is_of_whole(&self) -> bool {
        self.only.is_none_or(|only| self.recipe.is_final(only) || only == PartId(0) && !self.recipe.has_final())
    }

    /// The whole of it, where one part is looked at.
    fn of_all(&self) -> Subject<'a> {
        Subject { only: None, ..*self }
    }

    /// The recipe's own parts with their amounts; parts of used recipes are checked in their own files.
    pub fn own_parts(&self) -> impl Iterator<Item = (PartId, &'a Part, &'a SolvedPart)> {
        // Who asks of one does not ask how many there are.
        let places = self.only.map_or_else(|| 0..self.recipe.parts.len(), |only| only.0..only.0 + 1);
        let all = places.map_while(|at| {
            let id = PartId(at);
            Some((id, self.recipe.part(id)?, self.formula.part(id)?))
        });
        // They stand before those of used recipes.
        all.take_while(|(_, part, _)| part.foreign.is_none())
    }

    /// As [`Subject::own_parts`], with the amounts as they are written, also of what only steps that are left out would draw.
    pub fn written_parts(&self) -> impl Iterator<Item = (PartId, &'a Part, &'a SolvedPart)> {
        self.own_parts().map(|(id, part, solved)| (id, part, solved.as_written()))
    }

    /// As [`Subject::own_parts`], without parts in which some line could not be read: their sums would mislead.
    pub fn whole_parts(&self) -> impl Iterator<Item = (PartId, &'a Part, &'a SolvedPart)> {
        self.own_parts().filter(|(_, part, _)| !part.broken)
    }
}

/// Adds a problem where there is one. Nearly always there is none, and `extend` would first move the room that one takes.
#[inline]
fn tell(diagnostics: &mut Vec<Diagnostic>, found: Option<Diagnostic>) {
    if let Some(problem) = found {
        diagnostics.push(problem);
    }
}

/// How a check is run.
#[derive(Clone, Copy)]
pub enum Run {
    /// Its problems are found while the file is read, bound or solved.
    Elsewhere,
    /// Its problems are found when a plan is made, which `check` does not, or with what git and the files around say: by that command, with
    /// which its examples are tried.
    Command(&'static str),
    /// Once for every selection of choices.
    Recipe(fn(&Subject<'_>, &mut Vec<Diagnostic>)),
    /// The same, on one own part after the other, and what is found in one hangs on nothing that is found in others. What it reads is noted
    /// ([`crate::model::noted`]): where that is the same under several selections, it is run once for them.
    Parts(fn(&Subject<'_>, &mut Vec<Diagnostic>)),
    /// Once for a file of any kind, on what is written.
    Tree(fn(&Tree, &mut Vec<Diagnostic>)),
    /// Both: what is written tells some of it, and what comes of it, part by part, the rest.
    TreeAndParts(fn(&Tree, &mut Vec<Diagnostic>), fn(&Subject<'_>, &mut Vec<Diagnostic>)),
    /// The same, beside what is written in the files that it uses.
    Uses(fn(&Project, &Tree, &mut Vec<Diagnostic>)),
}

/// A check with its explanation.
pub struct Check {
    /// Its name, fixed once released.
    pub name: &'static str,
    /// How much it usually matters.
    pub severity: Severity,
    /// What it is about.
    pub family: Family,
    /// What it looks for, in a sentence.
    pub looks_for: &'static str,
    /// Why that matters to a baker, and how to mend it.
    pub why: &'static str,
    /// A file in which it finds something. Files beside it follow after a line `=== name.miche ===`.
    pub bad: &'static str,
    /// A file in which it finds nothing.
    pub good: &'static str,
    /// Where the rule comes from.
    pub sources: &'static [&'static str],
    /// How it is run.
    pub run: Run,
}

/// Whether nothing is made of a file with such a problem: its amounts could be anything. What misses an aim is an error, and its
/// amounts are what they are.
pub fn stops(problem: &Diagnostic) -> bool {
    let is_of_aims = [aim_missed::CHECK.name, aim_unknown::CHECK.name].contains(&problem.check);
    problem.severity == Severity::Error && !is_of_aims
}

/// Whether a problem asks a recipe's own kitchen what, once the recipe is made in a day, the plan asks of the kitchen of that day.
pub fn is_asked_of_the_day(problem: &Diagnostic) -> bool {
    problem.check == too_few_cooks::CHECK.name
}

/// The check of that name.
pub fn find(name: &str) -> Option<&'static Check> {
    ALL.iter().copied().find(|check| check.name == name)
}

/// The files of an example: the first is the one that is checked, the others stand beside it.
pub fn example_files(example: &str) -> Vec<(String, String)> {
    let mut files = vec![("example.miche".to_owned(), String::new())];
    for line in example.split_inclusive('\n') {
        let name = line.trim_end().strip_prefix("=== ").and_then(|rest| rest.strip_suffix(" ==="));
        match (name, files.last_mut()) {
            (Some(name), _) => files.push((name.to_owned(), String::new())),
            (None, Some((_, text))) => text.push_str(line),
            (None, None) => {}
        }
    }
    files
}

/// The parts of the recipe itself, and those of other recipes that are made for it.
pub(crate) fn made_parts<'r>(recipe: &'r Recipe, formula: &Formula) -> impl Iterator<Item = (PartId, &'r Part)> {
    recipe.parts().filter(|(id, part)| part.foreign.is_none() || formula.is_made(*id))
}
