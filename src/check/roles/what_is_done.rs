//! What is done with the matter of a part, where a row of the table of roles asks more than what is there.

use super::here::{EGG, FLOUR, Here, STARCH, SUGAR, SYRUP, WET, on_the_hob};
use crate::check::dough::is_batter;
use crate::measure::number::Number;
use crate::model::cooking::beginnings;
use crate::model::kind::Kind;
use crate::model::recipe::Part;
use crate::model::step::{Step, Words};

/// Milk and egg that starch thickens on the hob: the same step takes both. What is beaten into a paste afterwards is choux.
pub(super) fn is_cooked_custard(here: &Here<'_>) -> bool {
    let takes = |step: &Step| {
        let taken = here.takes(step);
        on_the_hob(step) && taken & EGG != 0 && taken & (STARCH | FLOUR) != 0 && taken & WET != 0
    };
    !here.is_baked() && here.part.steps.iter().any(takes) && !is_batter(here.part)
}

/// Sugar and water that a step boils to candy and past it.
pub(super) fn is_boiled_sugar(here: &Here<'_>) -> bool {
    let boils = |step: &Step| {
        let taken = here.takes(step);
        let hottest = || step.hottest_said();
        let measured = step.words.iter().chain(&step.cue).any(|word| matches!(word, Words::Measure(_)));
        taken & (SUGAR | SYRUP) != 0
            && taken & WET != 0
            && measured
            && hottest().is_some_and(|at| at.celsius() >= Number::whole(106) && at.celsius() <= Number::whole(190))
    };
    here.part.steps.iter().any(boils)
}

/// Whether what is meal of maize, rice, roots or pulses drinks more than flour of wheat.
pub(super) fn is_thirsty(part: &Part) -> bool {
    let thirsty = beginnings![
        "masa", "maize", "corn", "rice", "tapioca", "coconut", "potato", "chickpea", "gram|", "besan", "flax", "teff",
        "oat", "cassava", "gluten", "almond", "quinoa"
    ];
    part.lines.iter().any(|line| line.is_any_flour() && line.name.has_word_beginning(thirsty))
}

/// Whether soda, and no powder, is cooked with pulses or milk on the hob. Falafel and other cakes of pulses are fried.
pub(super) fn is_soda_on(here: &Here<'_>, kind: Kind) -> bool {
    let lists = |kind: Kind| here.part.lines.iter().any(|line| line.kind == kind && line.stays_in());
    let mut raises = here.part.lines.iter().filter(|line| line.kind.is_chemical_raising());
    lists(kind) && raises.all(|line| line.kind == Kind::Soda) && here.part.steps.iter().any(on_the_hob)
}
