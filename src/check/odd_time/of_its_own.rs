//! Steps that take a time of their own, as their part tells: a sponge, a flat bread, black rye, what turns sour.

use super::{is_cold, seconds};
use crate::check::keeping::{says_below, tells_below};
use crate::check::usual_times::{DAY, HOUR, MINUTE, Usual, begins, celsius, is_in_oven};
use crate::language::evaluate::{evaluate, times};
use crate::language::syntax::{Amount, Content, IngredientLine, Line, Piece, Quantity, StepClause, StepKind, StepLine};
use crate::measure::number::Number;
use crate::measure::value::Value;
use crate::model::cooking::has_word_beginning;
use crate::model::lowered::beginnings;
use crate::text::word_begins::has_letters;

/// Whether a rest is that of yeast in water, before there is a dough: until it foams.
pub(super) fn wakes_yeast(step: &StepLine, below: &[Line]) -> bool {
    step.kind.value == StepKind::Wait
        // Hardly any rest has the letters below it.
        && tells_below(below, |text| has_letters(text, b"diss"))
        && says_below(below, beginnings!["dissolv"])
        && says_below(below, beginnings!["foam", "froth", "bubbl"])
}

/// Whether a part lists flour, or what is made of it.
fn is_of_flour(part: &[Line]) -> bool {
    let is_it = beginnings!["flour", "dough", "rye", "wheat", "meal|", "levain"];
    part.iter().any(|line| matches!(&line.content, Content::Ingredient(line) if line.name.has_word_beginning(is_it)))
}

/// Whether sugar and water ferment with yeast, and no dough: ginger beer stands for days.
pub(super) fn ferments_as_a_drink(step: &StepLine, part: &[Line]) -> bool {
    let lists = |words| {
        part.iter()
            .any(|line| matches!(&line.content, Content::Ingredient(line) if line.name.has_word_beginning(words)))
    };
    step.kind.value == StepKind::Wait
        && step.name.has_word_beginning(beginnings!["ferment"])
        && lists(beginnings!["yeast"])
        && lists(beginnings!["water", "juice", "cider"])
        && lists(beginnings!["sugar", "honey", "syrup", "juice"])
        && !is_of_flour(part)
}

/// Whether a preferment, having begun in a warm place, goes on in the cold: its rests are taken together. A drink has its own time.
pub(super) fn goes_on_in_the_cold(step: &StepLine, part: &[Line], below: &[Line]) -> bool {
    // What is in the part is asked of few steps.
    let is_meant = step.kind.value == StepKind::Wait && step.name.has_word_beginning(beginnings!["ferment", "ripen"]);
    if !is_meant || !is_of_flour(part) {
        return false;
    }
    let next = below.iter().find_map(|line| if let Content::Step(next) = &line.content { Some(next) } else { None });
    next.is_some_and(|next| next.kind.value == StepKind::Wait && is_cold(next))
}

/// Pita, lavash, flat cakes: a thin dough is done in two to five minutes. Common practice, no source.
pub(super) const FLAT_BAKE: Usual = ("so hot an oven bakes what is flat", 2 * MINUTE, HOUR);

/// Whether a step is the bake of a hot oven that is not hot enough for a bread in seconds.
pub(super) fn is_flat_bake(step: &StepLine) -> bool {
    let hot = || celsius(step).is_some_and(|at| at >= Number::whole(230) && at < Number::whole(290));
    is_in_oven(step) && hot() && step.name.has_word_beginning(beginnings!["bak"])
}

/// Whether pieces are rolled or pressed flat here.
pub(super) fn rolls_flat(line: &Line) -> bool {
    match &line.content {
        Content::Step(step) => {
            step.kind.value == StepKind::Hands && step.name.has_word_beginning(beginnings!["roll", "flatten"])
        }
        Content::Prose(pieces) => pieces.iter().any(|piece| {
            let Piece::Text(text) = piece else { return false };
            let says = |text: String| {
                ["roll out", "roll to", "roll them out", "flatten"].iter().any(|said| text.contains(said))
            };
            (has_letters(text, b"roll") || has_letters(text, b"flat")) && says(text.to_lowercase())
        }),
        _ => false,
    }
}

/// A ferment that is taken after half an hour, of which `odd-ripening` says whether its yeast is for that.
pub(super) fn is_quick(step: &StepLine) -> bool {
    step.name.has_word_beginning(beginnings!["ripen", "ferment"])
        && times(&step.duration).is_some_and(|(low, high)| low >= seconds(20 * MINUTE) && high < seconds(2 * HOUR))
}

/// All the yeast of a dough, or a thirty-third of the flour where the yeast is fresh and a hundredth where it is dry: with so much a sponge is
/// up in an hour, as a straight dough is.
pub(super) fn has_much_yeast(part: &[Line]) -> bool {
    let lines =
        || part.iter().filter_map(|line| if let Content::Ingredient(line) = &line.content { Some(line) } else { None });
    let number = |line: &IngredientLine| match &line.amount {
        Amount::Chain(chain) => {
            chain.first().and_then(|first| evaluate(first, None, &mut Vec::new())).map(|said| said.value)
        }
        _ => None,
    };
    let Some(yeast) = lines().find(|line| line.name.has_word_beginning(beginnings!["yeast"])) else { return false };
    if matches!(yeast.amount, Amount::All(_)) {
        return true;
    }
    let flour = lines().filter(|line| line.name.key.as_str().ends_with("flour")).filter_map(number).next();
    let least = if yeast.name.has_word_beginning(beginnings!["instant", "dry", "dried", "active"]) { 100 } else { 34 };
    match (number(yeast), flour) {
        (Some(Value::Mass(yeast)), Some(Value::Mass(flour))) => {
            yeast.times(Number::whole(least)).is_ok_and(|yeast| yeast >= flour)
        }
        (Some(Value::Proportion(yeast)), Some(Value::Proportion(flour))) => {
            yeast.value().times(Number::whole(least)).is_ok_and(|yeast| yeast >= flour.value())
        }
        _ => false,
    }
}

/// Black rye is baked, or rather steamed, for most of a day, and stands for another before it is cut. Common practice, no source.
pub(super) const SLOW_RYE: Usual = ("such a bread bakes, and cools,", 5 * MINUTE, 30 * HOUR);

/// Whether a step is the bake of many hours at 90 to 160 °C, or the cooling of a part that has one.
pub(super) fn is_slow_rye(step: &StepLine, part: &[Line]) -> bool {
    let bakes_slowly = |step: &StepLine| {
        let gentle = || celsius(step).is_some_and(|at| at >= Number::whole(90) && at <= Number::whole(160));
        step.name.has_word_beginning(beginnings!["bak"])
            && gentle()
            && times(&step.duration).is_some_and(|(low, _)| low >= seconds(5 * HOUR))
    };
    let is_cooling = step.kind.value == StepKind::Wait && step.name.has_word_beginning(beginnings!["cool"]);
    let of_rye = |line: &Line| matches!(&line.content, Content::Ingredient(line) if line.name.has_word_beginning(beginnings!["rye"]));
    (bakes_slowly(step) && part.iter().any(of_rye))
        || is_cooling && part.iter().any(|line| matches!(&line.content, Content::Step(step) if bakes_slowly(step)))
}

/// A sheet of strudel or a tray of focaccia of half a kilo and more is stretched for minutes.
pub(super) fn stretches_much(step: &StepLine, part: &[Line]) -> bool {
    if step.kind.value != StepKind::Hands || !begins(step.name.key.as_str(), &["stretch"]) {
        return false;
    }
    let by_piece = part.iter().any(|line| matches!(line.content, Content::PerPiece(_)));
    let weighs = |said: Option<&Quantity>, least: i64| {
        let mass = said.and_then(|said| evaluate(said, None, &mut Vec::new())).and_then(|said| said.mass());
        mass.is_some_and(|mass| mass.value() >= Number::whole(least))
    };
    let large = |line: &Line| match &line.content {
        Content::Divide { sizes, .. } => sizes.iter().any(|size| weighs(size.each.first(), 500)),
        // What a piece is put together of may weigh most of it.
        Content::Ingredient(IngredientLine { amount: Amount::Chain(chain), .. }) => {
            by_piece && weighs(chain.first(), 300)
        }
        _ => false,
    };
    part.iter().any(large) && step.clauses.iter().any(|clause| clause.value == StepClause::Each)
}

/// Whether a part is a batter of rice, pulses or teff without yeast, which stands half a day where it is hot and days where it is not: by its
/// name, or because what soaked is ground in it.
pub(super) fn is_sour_batter(part: &[Line]) -> bool {
    let is_called = part.iter().any(|line| match &line.content {
        Content::Part { name, .. } => name.has_word_beginning(beginnings!["batter"]),
        Content::Step(step) => step.name.has_word_beginning(beginnings!["grind"]),
        _ => false,
    });
    let lists = |words| {
        part.iter()
            .any(|line| matches!(&line.content, Content::Ingredient(line) if line.name.has_word_beginning(words)))
    };
    is_called
        && lists(beginnings![
            "rice",
            "lentil",
            "split pea",
            "urad",
            "teff",
            "mung",
            "chickpea",
            "sorghum",
            "millet",
            "idli"
        ])
        && !lists(beginnings!["yeast"])
}

/// Whether flour and water turn sour without any leaven: injera and dosa stand for days.
pub(super) fn sours_by_itself(step: &StepLine, part: &[Line]) -> bool {
    let mut names = part.iter().filter_map(|line| match &line.content {
        Content::Ingredient(line) => Some(line.name.key.as_str()),
        _ => None,
    });
    let long = || times(&step.duration).is_some_and(|(low, _)| low >= seconds(DAY));
    let waits = step.kind.value == StepKind::Wait && step.name.has_word_beginning(beginnings!["ferment", "sour"]);
    // The culture of a drink is called a starter too.
    let of_drink = |name: &str| has_word_beginning(name, ["kombucha", "kefir", "vinegar", "ginger|", "scoby"]);
    waits
        && long()
        && !names.any(|name| {
            !of_drink(name)
                && has_word_beginning(
                    name,
                    ["yeast", "leaven", "levain", "starter", "dough", "poolish", "sponge", "biga"],
                )
        })
}

/// What keeps itself: a ferment takes half a day at least, in the warmth of yoghurt a few hours; miso and cheese take years.
pub(super) fn of_what_keeps(step: &StepLine) -> Usual {
    let warm = celsius(step).is_some_and(|at| at >= Number::whole(30));
    let least = match step.name.has_word_beginning(beginnings!["ferment"]) {
        true if warm => 2 * HOUR,
        true => DAY / 2,
        false if step.name.has_word_beginning(beginnings!["age", "ageing", "mature"]) => 2 * HOUR,
        false => 3 * MINUTE,
    };
    ("what keeps itself stands", least, 1100 * DAY)
}
