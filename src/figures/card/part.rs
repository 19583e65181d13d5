//! What a card shows of a part: its lines, pieces, balance and steps.

use super::keeps::AheadCard;
use crate::figures::sums::sections::Rooms;
use crate::language::prose::Prose;
use crate::make::store::Taken;
use crate::measure::number::Number;
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show;
use crate::measure::shown::Shown;
use crate::measure::temperature::Temperature;
use crate::measure::value::Value;
use crate::model::larder::Facts;
use crate::model::recipe::PartId;
use crate::model::step::{StepKind, Target};
use crate::solve::formula::OnFlour;
use std::sync::Arc;

/// Who takes how much of a batch that several recipes draw on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MadeForCard {
    /// The recipe that takes it.
    pub recipe: String,
    /// Which part.
    pub part: String,
    /// How much.
    pub mass: Mass,
    /// As printed.
    pub shown: Shown,
    /// For when, where one dough is for several times.
    pub ready_shown: Option<String>,
}

/// A part of a card.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PartCard {
    /// Which part.
    pub id: PartId,
    /// Its name.
    pub name: String,
    /// What 100 % is: `flour`, `total`, or an ingredient.
    pub base_name: Option<String>,
    /// How much that is.
    pub base: Option<Mass>,
    /// As printed.
    pub base_shown: Shown,
    /// All that goes in.
    pub total: Option<Mass>,
    /// As printed; the printed lines add up to it.
    pub total_shown: Shown,
    /// All that goes in, in percent of the base.
    pub percent_total: Option<Proportion>,
    /// As printed, without the cue.
    pub percent_total_shown: Shown,
    /// For a preferment: its total formula.
    pub from: Option<String>,
    /// Whether amounts are also given for one piece.
    pub per_piece: bool,
    /// Flour in it, also that in the parts in it.
    pub flour: Option<Mass>,
    /// Water in it, also that in milk and egg, without the flour's own moisture.
    pub water: Option<Mass>,
    /// Water on flour, and whether it is the least that it can be.
    pub hydration: Option<OnFlour>,
    /// As printed; `at least` so much where the water of some ingredients is not known.
    pub hydration_shown: Shown,
    /// Share of the flour that is fermented before the mix.
    pub prefermented: Option<Proportion>,
    /// As printed.
    pub prefermented_shown: Shown,
    /// Desired dough temperature.
    pub desired_temperature: Option<Shown>,
    /// The water for it: the sum for today, or for rooms from cold to hot.
    pub water_shown: Option<String>,
    /// The water for rooms from cold to hot, to be read off as a table.
    pub water_rooms: Option<Rooms>,
    /// What one load takes, where the batch is mixed in several.
    pub load: Option<LoadCard>,
    /// The lines to weigh.
    pub lines: Vec<LineCard>,
    /// What preferments take out of the lines.
    pub preferments: Vec<PrefermentColumn>,
    /// The mass of the final mix, preferments included, as printed.
    pub final_mix_shown: Shown,
    /// Pieces.
    pub divide: Option<DivideCard>,
    /// What comes out, where it is said as a weight.
    pub makes: Option<MakesCard>,
    /// What it is baked in, and how many of them: `sheet of 40 cm × 30 cm, 2.5 of them`.
    pub tin_shown: Option<String>,
    /// Made, used, left.
    pub balance: Option<BalanceCard>,
    /// How long it keeps, and how: `2 days, chilled`.
    pub keeps: Option<String>,
    /// How long before it is taken it may be made; only where that is asked for.
    pub ahead: Option<AheadCard>,
    /// The steps.
    pub steps: Vec<StepCard>,
    /// Notes.
    pub notes: Vec<Prose>,
    /// Cautions.
    pub cautions: Vec<Prose>,
    /// Where rounding for the scale moved an ingredient noticeably.
    pub rounding: Vec<String>,
}

impl PartCard {
    /// What one load takes of a line; `None` where it is not mixed in loads.
    pub fn of_a_load(&self, line: usize) -> Option<&Shown> {
        self.load.as_ref()?.lines.get(line)
    }

    /// The cups, litres or pieces that stand beside a line, and of how much they are where that is not the whole line:
    /// who measures by them is to put as much into the bowl as who weighs.
    pub fn measure_in_words(&self, line: usize) -> Option<String> {
        let of = self.lines.get(line)?;
        if let Some(load) = &self.load
            && self.of_a_load(line).is_some_and(|shown| !shown.is_empty())
        {
            return Some(format!("{} a load", load.measures.get(line)?.as_ref()?));
        }
        if of.final_mix != of.mass {
            return of.final_mix_measure.as_ref().map(|measure| format!("{measure} in the final mix"));
        }
        let measure = of.measure.as_ref().filter(|measure| **measure != of.shown)?;
        let is_by_the_piece = self.per_piece && !of.each_shown.is_empty();
        Some(if is_by_the_piece { format!("{measure} in all") } else { measure.to_string() })
    }

    /// What stands for each line and for each preferment, in the order in which they go into the bowl.
    pub fn in_order<T>(&self, lines: impl IntoIterator<Item = T>, own: impl IntoIterator<Item = T>) -> Vec<T> {
        let mut own: Vec<(usize, T)> = self.preferments.iter().map(|one| one.before).zip(own).collect();
        let mut all = Vec::new();
        for (at, line) in lines.into_iter().enumerate() {
            let (here, later): (Vec<_>, Vec<_>) = own.into_iter().partition(|(before, _)| *before == at);
            all.extend(here.into_iter().map(|(_, one)| one));
            all.push(line);
            own = later;
        }
        all.extend(own.into_iter().map(|(_, one)| one));
        all
    }

    /// Without the lines of which nothing goes in; the others move up, here and wherever they are pointed at.
    pub(super) fn leave_out(&mut self, is_out: impl Fn(usize) -> bool) {
        let stays: Vec<bool> = (0..self.lines.len()).map(|line| !is_out(line)).collect();
        if stays.iter().all(|stays| *stays) {
            return;
        }
        keep(&mut self.lines, &stays);
        for column in &mut self.preferments {
            column.before = stays.iter().take(column.before).filter(|stays| **stays).count();
            keep(&mut column.cells, &stays);
        }
        if let Some(load) = &mut self.load {
            keep(&mut load.lines, &stays);
            keep(&mut load.running, &stays);
            keep(&mut load.measures, &stays);
        }
        for one in self.steps.iter_mut().flat_map(|step| &mut step.uses) {
            if let Target::Line(at) = &mut one.target {
                *at = stays.iter().take(*at).filter(|stays| **stays).count();
            }
        }
    }
}

/// Those of a list, one for each line, of which the line stays.
fn keep<T>(list: &mut Vec<T>, stays: &[bool]) {
    let mut stays = stays.iter();
    list.retain(|_| stays.next() != Some(&false));
}

/// One load of a part that is mixed in several.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LoadCard {
    /// How many loads.
    pub loads: i64,
    /// What one takes of each line, as printed; empty for what goes in at once for all.
    pub lines: Vec<Shown>,
    /// What the scale then shows, line by line.
    pub running: Vec<Shown>,
    /// The same of each preferment: what it takes, and what the scale shows.
    pub preferments: Vec<(PartId, Shown, Shown)>,
    /// All that one takes, as printed.
    pub total: Shown,
    /// The cups, litres or pieces that one takes of each line.
    pub measures: Vec<Option<Shown>>,
}

/// A line to weigh.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LineCard {
    /// What.
    pub ingredient: String,
    /// Share of the base.
    pub percent: Option<Proportion>,
    /// As printed, without the cue.
    pub percent_shown: Shown,
    /// Its exact mass in the whole batch.
    pub mass: Option<Mass>,
    /// As printed: the whole line.
    pub shown: Shown,
    /// What the final mix takes, exactly.
    pub final_mix: Option<Mass>,
    /// As printed.
    pub final_mix_shown: Shown,
    /// What the scale shows when this line is in the bowl, as printed; empty for what is set aside.
    pub running: Shown,
    /// Its exact mass for one piece.
    pub each: Option<Mass>,
    /// As printed.
    pub each_shown: Shown,
    /// What is bought for it, when it has waste.
    pub buy: Option<Mass>,
    /// That, rounded to what is bought, as printed: `1.3 kg as bought`.
    pub buy_shown: Option<String>,
    /// What is put on the scale for the final mix: its exact mass, rounded for the kitchen's scales.
    pub weighed: Option<Mass>,
    /// The same in ounces, where both are printed.
    pub weighed_ounces: Option<Mass>,
    /// What was written when it has no mass: two eggs, a cup.
    pub natural: Option<Value>,
    /// The litres, cups or pieces that it was said in, for the batch; `None` for weights and percentages.
    pub said_in: Option<Value>,
    /// What the larder knows of it.
    pub larder: Option<Arc<Facts>>,
    /// The cups, litres or pieces of the whole line.
    pub measure: Option<Shown>,
    /// The cups, litres or pieces of what the final mix takes.
    pub final_mix_measure: Option<Shown>,
    /// How it is prepared.
    pub preparation: Option<String>,
    /// How warm it goes in, as printed.
    pub temperature_shown: Option<Shown>,
    /// How warm it goes in.
    pub temperature: Option<Temperature>,
    /// For dusting and greasing.
    pub aside: bool,
    /// May be left out.
    pub optional: bool,
    /// Whether it is strained out again.
    pub strained_out: bool,
    /// Whether it is taken from the store and not made or bought.
    pub from_store: bool,
    /// Of a part: the step from which on nothing more is done for this use.
    pub before: Option<String>,
    /// What is left when it is taken.
    pub leaves: Option<LeavesCard>,
    /// Which part it is, if it is one.
    pub part: Option<PartId>,
    /// Whether it was in the oven since it was weighed, so that it weighs less by now.
    pub is_baked: bool,
}

/// What is left of something that is taken: the white of an egg.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LeavesCard {
    /// What.
    pub name: String,
    /// How much; `None` where what is taken has no weight.
    pub mass: Option<Mass>,
    /// As printed: `leaves 570 g egg white`.
    pub shown: String,
}

/// Something that comes from the store.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FromStoreCard {
    /// What, how much, and where it goes.
    pub taken: Taken,
    /// The amount as printed.
    pub shown: Shown,
}

impl LineCard {
    /// What stands quietly behind the name, but for measure, temperature and preparation.
    pub fn remarks(&self) -> Vec<String> {
        let remarks = [
            self.buy_shown.clone(),
            self.before.as_ref().map(|step| format!("before {step}")),
            self.is_baked.then(|| "by its weight before baking".to_owned()),
            self.from_store.then(|| "from store".to_owned()),
            self.strained_out.then(|| "strained out".to_owned()),
            self.leaves.as_ref().map(|leaves| leaves.shown.clone()),
            self.optional.then(|| "optional".to_owned()),
            self.aside.then(|| "set aside".to_owned()),
        ];
        remarks.into_iter().flatten().collect()
    }
}

/// What one preferment takes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PrefermentColumn {
    /// Which part.
    pub id: PartId,
    /// Its name.
    pub name: String,
    /// What it takes of each line, as printed; empty for nothing.
    pub cells: Vec<Shown>,
    /// All it takes.
    pub total: Option<Mass>,
    /// As printed.
    pub total_shown: Shown,
    /// What of it does not go in, since it is kept for the next dough, as printed.
    pub spare: Option<Shown>,
    /// What the scale shows when it is in the bowl of the final mix.
    pub running: Shown,
    /// Before which line it goes in; as many as there are lines where it goes in behind them.
    pub before: usize,
}

impl PrefermentColumn {
    /// That some of it does not go in: `keep 55 g of it`.
    pub fn kept(&self) -> Option<String> {
        self.spare.as_ref().map(|spare| format!("keep {spare} of it"))
    }
}

/// Pieces of a part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DivideCard {
    /// How many.
    pub pieces: Number,
    /// What one weighs.
    pub each: Mass,
    /// As printed.
    pub each_shown: Shown,
    /// The sorts, where there are several sizes; `each` is then what one weighs on average.
    pub sorts: Vec<SortCard>,
    /// Pieces times their weight.
    pub needs: Mass,
    /// The loss that was stated.
    pub stated_loss: Option<Proportion>,
    /// The loss that there is.
    pub actual_loss: Option<Proportion>,
    /// As printed; nothing where nothing is lost.
    pub lost: Option<Shown>,
}

/// Pieces of one size.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SortCard {
    /// What they are called.
    pub name: String,
    /// How many.
    pub pieces: Number,
    /// What one weighs.
    pub each: Mass,
    /// As printed.
    pub each_shown: Shown,
}

impl DivideCard {
    /// As printed: `60 × 720 g`, or every sort by itself.
    pub fn shown(&self) -> String {
        if self.sorts.is_empty() {
            return format!("{} × {}", show::count_of(self.pieces), self.each_shown);
        }
        let sorts = self
            .sorts
            .iter()
            .map(|sort| format!("{} × {} {}", show::count_of(sort.pieces), sort.each_shown, sort.name));
        show::list(&sorts.collect::<Vec<String>>())
    }
}

/// What comes out of a part.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MakesCard {
    /// How much.
    pub mass: Mass,
    /// As printed.
    pub shown: Shown,
    /// The loss that was stated.
    pub stated_loss: Option<Proportion>,
    /// The loss that there is.
    pub actual_loss: Option<Proportion>,
    /// As printed; nothing where nothing is lost.
    pub lost: Option<Shown>,
}

/// Made, used, left.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BalanceCard {
    /// What comes out.
    pub makes: Mass,
    /// What the other parts use.
    pub used: Mass,
    /// What is left.
    pub left: Mass,
    /// What of that is meant to be: the seed of the next dough, as printed.
    pub spare: Option<Shown>,
    /// As printed: `makes 1.1 kg, 960 g used, 140 g left`.
    pub shown: String,
}

/// A step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StepCard {
    /// Its place among the steps of its part.
    pub at: usize,
    /// Its name.
    pub name: String,
    /// Who is busy.
    pub kind: StepKind,
    /// Shortest and longest minutes of one load.
    pub minutes: (Number, Number),
    /// As printed: `14–16 min`.
    pub time_shown: Shown,
    /// All loads one after another, as printed; empty where there is one load.
    pub whole_time_shown: Shown,
    /// How many loads.
    pub loads: i64,
    /// Whether the amounts in its prose are those of one load.
    pub is_by_load: bool,
    /// As printed: `12 at a time, 2 loads`; empty for one load.
    pub loads_shown: String,
    /// How long it may go on, as printed.
    pub up_to_shown: Option<Shown>,
    /// When it is done beside other steps, and how long what it made may stand, as printed: `45 min and 90 min into bulk`.
    pub order_shown: Vec<String>,
    /// What it holds.
    pub equipment: Option<String>,
    /// How hot.
    pub temperature: Option<Temperature>,
    /// As printed.
    pub temperature_shown: Option<Shown>,
    /// Minutes from the recipe's first step to the start of this one; `None` when no plan holds it.
    pub starts: Option<i64>,
    /// Whose card it prints on.
    pub station: String,
    /// Hands needed at once.
    pub people: u32,
    /// What it takes.
    pub uses: Vec<UseCard>,
    /// What is done.
    pub prose: Prose,
    /// The cue by which it is done.
    pub cue: Prose,
}

/// What a step takes of an ingredient.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UseCard {
    /// Which line of the part, or which preferment.
    pub target: Target,
    /// What.
    pub ingredient: String,
    /// How much in the whole batch.
    pub mass: Option<Mass>,
    /// As printed; empty where there is no figure.
    pub shown: Shown,
    /// Which part it is, if it is one.
    pub part: Option<PartId>,
}
