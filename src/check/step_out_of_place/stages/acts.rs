//! What a step does, as the table of stages asks it.

use super::here::{HOUR, Here, Verbs, verbs};
use crate::check::step_out_of_place::OUT_OF_THE_OVEN;
use crate::model::cooking::rests::{PROVES, WORKS};
use crate::model::cooking::{
    Beginnings, bakes, beginnings, called, chills, cooks_by_head, has_word_beginning, says, uses, words_of,
};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, Refers};
use crate::model::step::{Loads, Step, StepKind, Target, Words};

/// What cooks by its head and is no wait.
pub(super) fn heats(here: Here<'_>) -> bool {
    !here.waits() && cooks_by_head(here.step)
}

/// Hands or a machine that mix.
pub(super) const MIXING: &Verbs =
    verbs!["mix", "beat", "stir", "whisk", "knead", "work", "blend", "rub", "cream", "slacken", "bind"];

pub(super) const SHAPING: &Verbs =
    verbs!["shape", "shaping", "mould", "mold", "round", "ball", "plait", "braid", "preshape"];

/// By which what is not baked yet gets its shape.
pub(super) const SHAPING_RAW: &Verbs =
    verbs!["pipe", "scoop", "drop", "press", "stamp", "ball", "cut", "roll", "pat", "flatten", "line"];

pub(super) const CUTTING: &Verbs =
    verbs!["cut", "divide", "scale", "pipe", "scoop", "drop", "stamp", "portion", "roll", "press"];

pub(super) const BOILING: &Verbs = verbs!["boil", "poach", "blanch"];

pub(super) const TOPPING: &Verbs =
    verbs!["top", "glaze", "ice", "frost", "fill", "sandwich", "decorate", "dust", "cream"];

pub(super) const FILLING: &Verbs = verbs!["fill", "pour", "jar", "bottle", "pot", "ladle"];

pub(super) const DRAINING: &Verbs = verbs!["drain", "strain", "rinse", "wring"];

pub(super) fn bakes_here(here: Here<'_>) -> bool {
    !here.waits() && bakes(here.step)
}

pub(super) fn bakes_pieces(here: Here<'_>) -> bool {
    bakes_here(here) && here.is_or_takes_dough()
}

/// Rings, knots and dumplings that go into a pot of water or lye a few at a time.
pub(super) fn boils_pieces(here: Here<'_>) -> bool {
    let is_ring = || has_word_beginning(here.recipe.name.key.as_str(), ["bagel", "pretzel", "simit"]);
    !here.waits()
        && here.begins(BOILING)
        && (here.step.loads != Loads::Once || is_ring())
        && here.is_or_takes_dough()
        && !here.takes_kind(|kind| matches!(kind, Kind::Flour | Kind::Starch | Kind::Grain))
}

pub(super) fn works(here: Here<'_>) -> bool {
    here.waits() && here.is_raised() && called(here.step, WORKS)
}

/// A heat that what was not made into pieces has not had before: that of an oven, a plate, fat or a pot.
pub(super) fn heats_raw(here: Here<'_>) -> bool {
    let takes_body = here.takes_kind(|kind| matches!(kind, Kind::Flour | Kind::Nut));
    // What is boiled without flour is sugar or cream.
    let is_raw = || bakes(here.step) || here.part.lines.iter().any(|line| line.is_flour && !line.aside);
    heats(here) && here.is_of_dough() && is_raw() && !takes_body && here.before().any(Here::takes)
}

/// Words by which what is rolled, cut or piped is raw.
const RAW_SHAPES: &[&str] = &[
    "# thick",
    "# long",
    "roll to",
    "roll out",
    "roll into",
    "rounds of",
    "drop by",
    "onto",
    "on to",
    "on lined",
    "on a lined",
    "trimmings",
    "pat out",
    "pat #",
    "ovals",
    "each to #",
    "circles",
];

/// With these, beside [`OUT_OF_THE_OVEN`], what is rolled or cut was baked.
const OF_WHAT_IS_BAKED: &Beginnings = &Beginnings::of(&[
    "slice", "icing", "towel", "roulade", "sheet of", "sponge", "whip", "ganache", "curd", "custard", "plate", "wedge",
    "bar|", "bars|",
]);

pub(super) fn shapes_raw(here: Here<'_>) -> bool {
    let words = || words_of(here.step);
    let is_empty = || here.step.words.is_empty() && here.step.loads.is_by_piece();
    let is_piped = || here.begins(verbs!["pipe"]) && words().contains(" of #");
    let says_raw = || {
        let words = words();
        RAW_SHAPES.iter().any(|raw| words.contains(raw))
    };
    let is_raw = || says_raw() || is_empty() || is_piped();
    // What is brushed on or strewn over while it is rolled is no dough.
    let rolls_out = || {
        let words = words();
        ["roll to #", "roll out", "# thick"].iter().any(|raw| words.contains(raw))
            && here
                .taken()
                .all(|line| matches!(line.kind, Kind::Fat | Kind::Salt | Kind::Seed | Kind::Egg | Kind::Sugar))
    };
    let is_baked = || says(here.step, OUT_OF_THE_OVEN) || says(here.step, OF_WHAT_IS_BAKED);
    let since_cooled = || here.before().any(|step| cools(step) && step.before().any(heats));
    here.hands()
        && here.begins(SHAPING_RAW)
        && (!here.takes() || rolls_out())
        && is_raw()
        && !is_baked()
        && !since_cooled()
}

pub(super) fn heats_pieces(here: Here<'_>) -> bool {
    heats(here) && here.is_of_dough() && (bakes(here.step) || here.step.loads != Loads::Once)
}

pub(super) fn takes_raising(here: Here<'_>) -> bool {
    here.hands() && here.begins(MIXING) && here.takes_kind(|kind| kind.raises())
}

pub(super) fn divides(here: Here<'_>) -> bool {
    let made = || here.part.lines.iter().all(|line| line.part().is_none());
    let made_up = here.begins(CUTTING) && !here.begins(verbs!["roll"]) || here.begins(verbs!["roll"]) && !here.takes();
    here.hands()
        && (here.begins(SHAPING) || made_up)
        && !here.takes()
        && here.is_of_dough()
        && made()
        && !says(here.step, beginnings!["line", "tin", "case", "dish"])
}

/// Something that is mixed in, and then nothing is done by hand before the heat.
pub(super) fn mixes_in(here: Here<'_>) -> bool {
    let goes_on = here.after().take_while(|next| !heats(*next)).all(|next| next.waits());
    here.step.kind != StepKind::Wait
        && here.begins(MIXING)
        && here.takes_kind(|kind| kind != Kind::Other)
        && !bakes(here.step)
        && !says(here.step, beginnings!["over", "spread", "brush", "glaz", "fill", "case", "top"])
        && here.after().any(heats)
        && (goes_on || here.takes_kind(|kind| matches!(kind, Kind::Flour)))
}

pub(super) fn rises(here: Here<'_>) -> bool {
    let all = beginnings!["rise", "rising", "bulk", "prove", "proving", "proof", "retard", "ferment"];
    here.waits() && called(here.step, all) && here.lasts(HOUR / 3)
}

/// What brings leaven, itself or in a part.
pub(super) fn takes_leaven(here: Here<'_>) -> bool {
    // A part without flour of its own takes a dough that rose where it was made.
    if !here.part.lines.iter().any(|line| line.is_flour && line.stays_in()) {
        return false;
    }
    let is_leaven = |line: &Ingredient| {
        let of = |part: &Part| part.lines.iter().any(|line| line.kind.ferments());
        line.kind.ferments() || line.part().and_then(|part| here.recipe.part(part)).is_some_and(of)
    };
    let is_preferment = |word: &Words| matches!(word, Words::Use { target: Some(Target::Preferment(_)), .. });
    here.taken().any(is_leaven) || here.step.words.iter().any(is_preferment)
}

pub(super) fn bulk(here: Here<'_>) -> bool {
    here.waits() && called(here.step, beginnings!["bulk"])
}

pub(super) fn takes_salt(here: Here<'_>) -> bool {
    here.begins(MIXING) && here.takes_kind(|kind| kind == Kind::Salt) && !here.takes_kind(|kind| kind == Kind::Flour)
}

pub(super) fn shapes(here: Here<'_>) -> bool {
    here.hands() && here.begins(SHAPING) && !here.takes() && here.is_raised()
}

/// A rise of the whole dough by its name, or one after which the pieces go into the cold as they are.
pub(super) fn rises_in_bulk(here: Here<'_>) -> bool {
    let by_name = called(here.step, beginnings!["bulk"]) || has_word_beginning(here.step.name.key.as_str(), ["first"]);
    let then_proves = || {
        let again = |below: Here<'_>| below.waits() && called(below.step, WORKS);
        called(here.step, beginnings!["rise"]) && here.below().is_some_and(again)
    };
    rises(here) && (by_name || then_proves())
}

pub(super) fn proves(here: Here<'_>) -> bool {
    here.waits() && called(here.step, PROVES) && here.is_raised_deep()
}

/// The only step that makes the pieces.
pub(super) fn rolls_up(here: Here<'_>) -> bool {
    let up = || {
        let words = words_of(here.step);
        here.begins(verbs!["roll"]) && (words.contains("roll up") || words.contains("rolled up"))
    };
    let scores = || says(here.step, beginnings!["slash", "top", "cross", "score", "scissor"]);
    let only = || {
        !here.before().chain(here.after()).any(|other| {
            other.hands() && (other.begins(CUTTING) || other.begins(SHAPING))
                || says(other.step, beginnings!["cut", "shap"])
        })
    };
    let cuts = || here.begins(verbs!["cut", "divide"]) && here.part.divide.is_some() && !scores() && only();
    here.hands() && (up() || cuts())
}

pub(super) fn strews_pieces(here: Here<'_>) -> bool {
    here.hands()
        && here.step.loads.is_by_piece()
        && here.begins(verbs!["dip", "strew", "brush", "score", "slash", "stamp", "egg", "wash", "coat"])
        && !here.part.per_piece
        && !here.before().any(makes_pieces)
}

pub(super) fn makes_pieces(here: Here<'_>) -> bool {
    here.hands()
        && here.step.loads.is_by_piece()
        && (here.begins(SHAPING) || here.begins(verbs!["scale", "cut", "divide", "pipe", "scoop"]))
}

pub(super) fn works_by_hand(here: Here<'_>) -> bool {
    here.at == 0
        && here.hands()
        && !here.takes()
        && here.begins(verbs!["cut", "roll", "ball", "fold", "knead", "score", "drain", "strain", "braid", "turn"])
        && !says(here.step, beginnings!["tin", "tray", "paper", "oven", "pan|", "pans|", "board"])
}

pub(super) fn takes_dough(here: Here<'_>) -> bool {
    let has_parts = here.part.lines.iter().any(|line| line.part().is_some());
    here.hands()
        && here.taken().count() > 1
        && (!has_parts || here.taken().any(|line| matches!(line.refers, Refers::Part(_))))
}

/// Butter, sugar and egg that stand in the cold before the flour goes in.
pub(super) fn chills_between(here: Here<'_>) -> bool {
    let rich = |kind: Kind| {
        matches!(kind, Kind::Fat | Kind::Sugar | Kind::Egg | Kind::Spice | Kind::Other | Kind::Salt | Kind::Spirit)
    };
    here.waits()
        && chills(here.step)
        && here.before().any(|step| step.takes_kind(|kind| kind == Kind::Fat))
        && here.before().all(|step| step.hands() && step.taken().all(|line| rich(line.kind)))
}

pub(super) fn takes_first_flour(here: Here<'_>) -> bool {
    here.hands() && here.takes_kind(|kind| kind == Kind::Flour)
}

pub(super) fn folds_flour(here: Here<'_>) -> bool {
    here.hands() && here.takes_kind(|kind| kind == Kind::Flour) && here.begins(verbs!["fold", "sift"])
}

pub(super) fn whisks_white(here: Here<'_>) -> bool {
    let white = |line: &Ingredient| line.kind == Kind::Egg && line.name.has_word_beginning(beginnings!["white"]);
    here.begins(verbs!["whisk", "whip", "beat"])
        && here.taken().any(white)
        && !here.after().take_while(|next| !heats(*next)).any(Here::hands)
}

/// A rest until a skin has formed, or one of piped pieces to dry. What lies for half a day to dry through is baked already.
pub(super) fn skins(here: Here<'_>) -> bool {
    let is_piped = || here.before().chain(here.after()).any(pipes);
    let dries = || here.begins(verbs!["dry"]) && !here.lasts(2 * HOUR) && is_piped();
    here.waits() && !chills(here.step) && (says(here.step, beginnings!["skin"]) || dries())
}

pub(super) fn pipes(here: Here<'_>) -> bool {
    here.hands() && here.begins(verbs!["pipe"])
}

pub(super) fn rests_cold(here: Here<'_>) -> bool {
    here.waits() && here.begins(verbs!["rest"]) && chills(here.step) && here.is_of_dough() && !here.is_raised()
}

/// A rest to cool of half an hour and more, since whose mixing nothing was hot.
pub(super) fn cools_batter(here: Here<'_>) -> bool {
    let mut since = here.before().rev().take_while(|step| !heats(*step));
    here.waits() && cools(here) && here.lasts(HOUR / 2) && since.any(|step| step.hands()) && here.is_batter()
}

pub(super) fn bakes_last(here: Here<'_>) -> bool {
    bakes_here(here) && !here.takes() && !here.after().any(|later| heats(later) || cools(later))
}

pub(super) fn cools(here: Here<'_>) -> bool {
    called(here.step, beginnings!["cool"]) && !cooks_by_head(here.step) && !chills(here.step)
}

/// Cream, icing sugar, jam between layers: what is not put on hot.
pub(super) fn tops_cold(here: Here<'_>) -> bool {
    let is_cold = |line: &Ingredient| {
        let whipped =
            line.preparation.as_deref().is_some_and(|said| has_word_beginning(&said.to_lowercase(), ["whip"]));
        whipped
            || matches!(line.kind, Kind::Dairy | Kind::Fruit) && !line.name.has_word_beginning(beginnings!["cheese"])
            || line.kind == Kind::Sugar
                && line.name.has_word_beginning(beginnings!["icing", "powdered", "confectioner"])
    };
    // A glaze of jam, and what is warm itself, goes on as it comes out of the oven.
    let is_glaze = |line: &Ingredient| {
        line.name.has_word_beginning(beginnings!["jam|", "jelly", "marmalade", "nappage", "glaze"])
            && (here.begins(verbs!["glaze", "brush"])
                || line.is_prepared(beginnings!["warm", "hot", "melted", "boil", "heated"]))
    };
    here.hands()
        && here.begins(TOPPING)
        && here.taken().any(|line| is_cold(line) && !is_glaze(line))
        && here.above().is_some_and(|above| bakes_here(above) || heats(above) && above.begins(verbs!["fry", "bake"]))
        && !says(here.step, beginnings!["hot", "warm", "while", "melt", "drizzl", "soak", "butter", "boil"])
}

pub(super) fn cools_to_pour(here: Here<'_>) -> bool {
    cools(here) && here.waits() && here.before().any(heats)
}

/// What is poured over hot, by its words.
pub(super) fn pours_hot(here: Here<'_>) -> bool {
    let hot = ["the hot brine", "the hot syrup", "the hot vinegar", "the hot milk", "the hot cream", "the hot liquid"];
    let says_hot = || {
        let words = words_of(here.step);
        hot.iter().any(|hot| words.contains(hot))
    };
    here.hands() && says(here.step, beginnings!["hot"]) && says_hot()
}

/// Jars and moulds that are filled, where nothing was cooked before.
pub(super) fn fills(here: Here<'_>) -> bool {
    let into = || says(here.step, beginnings!["jar", "bottle", "glass", "mould", "ramekin", "close"]);
    here.hands()
        && !here.takes()
        && here.begins(FILLING)
        && (here.step.words.is_empty() || into())
        && !here.before().any(heats)
        && !here.part.lines.iter().any(|line| line.is_flour && !line.aside)
}

/// What is boiled to be poured on hot.
pub(super) fn boils_what_is_poured(here: Here<'_>) -> bool {
    heats(here) && here.takes_kind(|kind| matches!(kind, Kind::Vinegar | Kind::Brine))
}

/// An oven or a pan before anything is in it.
pub(super) fn heats_nothing(here: Here<'_>) -> bool {
    let has_parts = || here.part.lines.iter().any(|line| line.part().is_some());
    heats(here)
        && here.begins(verbs!["bake", "roast", "fry", "boil", "simmer"])
        && !here.before().any(Here::takes)
        && !here.takes()
        && !has_parts()
}

pub(super) fn takes_several(here: Here<'_>) -> bool {
    here.hands() && here.taken().count() > 1
}

pub(super) fn cooks_first(here: Here<'_>) -> bool {
    heats(here) && !bakes(here.step) && here.takes()
}

pub(super) fn finishes(here: Here<'_>) -> bool {
    here.begins(verbs!["finish", "garnish"]) && here.takes() && here.before().any(heats)
}

pub(super) fn heats_on(here: Here<'_>) -> bool {
    heats(here) && !bakes(here.step) && here.begins(verbs!["simmer", "boil", "cook", "stew", "braise"])
}

/// A pot on the hob after which what is in it stands in the cold, with nothing that cools it between.
pub(super) fn cooks_then_chills(here: Here<'_>) -> bool {
    let cold = |below: Here<'_>| below.waits() && chills(below.step);
    heats(here) && !bakes(here.step) && here.below().is_some_and(cold) && !here.after().any(cools)
}

pub(super) fn chills_hot(here: Here<'_>) -> bool {
    here.waits() && chills(here.step) && here.above().is_some_and(heats)
}

pub(super) fn cools_down(here: Here<'_>) -> bool {
    let by_hand = says(here.step, beginnings!["ice", "cold water", "cool"]);
    cools(here) && (here.waits() || by_hand)
}

pub(super) fn churns(here: Here<'_>) -> bool {
    here.step.kind != StepKind::Wait && here.begins(verbs!["churn"]) || uses(here.step, beginnings!["ice cream"])
}

pub(super) fn ripens(here: Here<'_>) -> bool {
    here.waits() && chills(here.step) && !hardens(here)
}

pub(super) fn hardens(here: Here<'_>) -> bool {
    let is_ice =
        |step: &Step| step.name.has_word_beginning(beginnings!["churn"]) || uses(step, beginnings!["ice cream"]);
    let ices = || here.part.steps.iter().any(is_ice);
    here.waits() && (here.warm_at_most(-8) || here.begins(verbs!["harden", "freeze"])) && ices()
}

pub(super) fn sets(here: Here<'_>) -> bool {
    here.waits() && here.begins(verbs!["set"]) && here.above().is_some_and(heats)
}

pub(super) fn beats(here: Here<'_>) -> bool {
    here.hands() && here.begins(verbs!["beat", "stir", "pour", "spread"])
}

/// Hours at the warmth of a room.
pub(super) fn stood_cool(here: Here<'_>) -> bool {
    // A sour that ripened at 35 °C goes on in a cooler place.
    let is_sour = || called(here.step, WORKS) && here.is_raised() && here.is_of_dough();
    !is_sour() && here.waits() && here.warm_at_most(40) && !chills(here.step) && here.lasts(2 * HOUR)
}

pub(super) fn chills_raw(here: Here<'_>) -> bool {
    here.waits() && chills(here.step) && !here.part.lines.iter().any(|line| line.is_flour)
}

pub(super) fn ferments_on(here: Here<'_>) -> bool {
    here.waits() && !chills(here.step) && here.begins(verbs!["ferment"]) && here.lasts(12 * HOUR)
}

pub(super) fn drains(here: Here<'_>) -> bool {
    here.hands() && !here.takes() && here.begins(DRAINING) && here.before().any(Here::takes)
}

pub(super) fn stands_on(here: Here<'_>) -> bool {
    here.waits() && here.begins(verbs!["stand", "soak", "brine", "steep", "salt", "cure"])
}
