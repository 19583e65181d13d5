//! `unknown-allergen`: a word in a `contains` line that no law lists as an allergen.

use super::{Check, Family, Run};
use crate::text::diagnostic::Severity;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "unknown-allergen",
    severity: Severity::Error,
    family: Family::Safety,
    looks_for: "a word in a larder's `contains` line that stands for no allergen of United States or European Union law",
    why: "Labels and cards name allergens in the words of the law, so a word that stands for none of them would be on neither, \
          and nobody would be warned. Plain words are known: `dairy`, `cheese` and `whey` are milk, `malt` is barley, `cod` is fish, \
          `groundnuts` are peanuts. What contains none says `contains nothing`; without a `contains` line nobody claims to know.",
    bad: "ingredient lighthouse relish\ncontains mustart\n",
    good: "ingredient lighthouse relish\ncontains mustard\n\ningredient lighthouse cordial\ncontains nothing\n",
    sources: &[
        "Regulation (EU) 1169/2011, Annex II",
        "FALCPA 2004 and FASTER Act 2021 (US)",
        "FDA, Questions and Answers Regarding Food Allergens, and the UK Food Standards Agency's technical guidance (from memory): \
         which plain words stand for which",
    ],
    run: Run::Elsewhere,
};
