//! Figures read back from a card as a person reads them.

use miche::figures::card::{Card, LineCard, PartCard};
use miche::language::prose::{Insert, Prose};
use miche::measure::number::{Number, sum};
use miche::measure::shown::Shown;
use pulldown_cmark::Event;

/// The grams that a card prints: `160 g`, `12.345 kg`, `1 234 g`; `None` for what is no mass.
pub fn grams(shown: &Shown) -> Option<Number> {
    let shown = shown.to_string();
    let (digits, factor) = match (shown.strip_suffix(" kg"), shown.strip_suffix(" g")) {
        (Some(digits), _) => (digits, 1000),
        (None, Some(digits)) => (digits, 1),
        (None, None) => return None,
    };
    let plain: String = digits.chars().filter(|c| *c != '\u{2009}').collect();
    let (whole, fraction) = plain.split_once('.').unwrap_or((&plain, ""));
    let all: i128 = format!("{whole}{fraction}").parse().ok()?;
    let scale = 10_i128.checked_pow(u32::try_from(fraction.len()).ok()?)?;
    Number::fraction(all, scale)?.times(Number::whole(factor)).ok()
}

/// Everything that does not add up on a card as it is printed.
pub fn faults(card: &Card) -> Vec<String> {
    card.parts.iter().flat_map(faults_of_part).collect()
}

fn faults_of_part(part: &PartCard) -> Vec<String> {
    let mut faults = Vec::new();
    let in_bowl = |line: &&LineCard| !line.aside && line.final_mix.is_some();
    let lines: Vec<&LineCard> = part.lines.iter().filter(in_bowl).collect();
    let printed = |line: &LineCard| {
        // What preferments leave nothing of is printed as nothing.
        if line.final_mix_shown.is_empty() { Some(Number::ZERO) } else { grams(&line.final_mix_shown) }
    };
    let columns = part.preferments.iter().map(|column| grams(&column.total_shown));
    let all: Option<Vec<Number>> = lines.iter().map(|line| printed(line)).chain(columns).collect();
    match (all.map(sum), grams(&part.final_mix_shown)) {
        (Some(Ok(all)), Some(total)) if all == total => {}
        (all, total) => faults.push(format!("{}: lines {all:?}, total {total:?}", part.name)),
    }
    if part.preferments.is_empty() && !part.total_shown.is_empty() && part.total_shown != part.final_mix_shown {
        faults.push(format!("{}: total {} and {}", part.name, part.total_shown, part.final_mix_shown));
    }
    for column in &part.preferments {
        let cells = column.cells.iter().filter(|cell| !cell.is_empty()).map(grams);
        let cells: Option<Vec<Number>> = cells.collect();
        if cells.map(sum) != grams(&column.total_shown).map(Ok) {
            faults.push(format!("{}: the column {} is {:?}", part.name, column.name, column));
        }
    }
    let last = part.preferments.last().map(|column| &column.running);
    let last = last
        .filter(|last| !last.is_empty())
        .or_else(|| lines.iter().rev().map(|line| &line.running).find(|running| !running.is_empty()));
    // What goes on a finer scale, or beyond what the bowl holds, has no figure of its own; then the last may be another.
    let one_scale = lines.iter().all(|line| line.final_mix_shown.is_empty() || !line.running.is_empty())
        && part.preferments.iter().all(|column| !column.running.is_empty());
    if let Some(last) = last
        && !part.per_piece
        && one_scale
        && !is_within_a_step(last, part, &lines)
    {
        faults.push(format!("{}: the scale shows {last} at the end of {}", part.name, part.final_mix_shown));
    }
    if !part.per_piece && !part.steps.is_empty() {
        faults.extend(lines.iter().filter_map(|line| fault_of_draws(part, line)));
    }
    faults
}

/// Whether the scale's last figure is the total to half of its step, which is at most 50 g in the kitchens of the tests. All that it shows is
/// whole steps, so what divides all of it is no less than a step.
fn is_within_a_step(last: &Shown, part: &PartCard, lines: &[&LineCard]) -> bool {
    let running = lines.iter().map(|line| &line.running).chain(part.preferments.iter().map(|column| &column.running));
    let hundredths = |shown: &Shown| grams(shown)?.times(Number::whole(100)).ok()?.to_whole();
    let step = running.filter_map(hundredths).fold(0, greatest_common_divisor).clamp(1, 5000);
    let apart = grams(last).zip(grams(&part.final_mix_shown)).and_then(|(shows, total)| shows.minus(total).ok());
    let half = Number::fraction(i128::from(step), 200).unwrap_or(Number::ZERO);
    apart.is_some_and(|apart| apart.size() <= half)
}

fn greatest_common_divisor(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { greatest_common_divisor(b, a % b) }
}

/// What the steps take of a line adds up to the line, or to one load of it, where they take any of it.
fn fault_of_draws(part: &PartCard, line: &LineCard) -> Option<String> {
    let of_a_load = part.lines.iter().position(|one| std::ptr::eq(one, line)).and_then(|at| part.of_a_load(at));
    let of_a_load = of_a_load.filter(|load| !load.is_empty());
    let (mut taken, mut loads) = (Vec::new(), 0);
    for step in &part.steps {
        // A line that only some steps take by the load is printed whole: each load counts.
        let times = if step.is_by_load && of_a_load.is_none() { step.loads } else { 1 };
        for amount in amounts(&step.prose, &line.ingredient) {
            taken.push(amount?.times(Number::whole(times)).ok()?);
            loads += if times > 1 { times } else { 0 };
        }
    }
    if taken.is_empty() {
        return None;
    }
    let all = sum(taken).ok()?;
    let printed = of_a_load.unwrap_or(&line.final_mix_shown);
    let shown = if printed.is_empty() { Number::ZERO } else { grams(printed)? };
    // What is printed of one load may miss by half a step of the scale, and no scale here shows less than 10 g.
    let miss = Number::whole(5 * loads);
    let apart = all.minus(shown).ok()?.size();
    (apart > miss).then(|| format!("{}: the steps take {all:?} g of {}, printed {shown:?}", part.name, line.ingredient))
}

/// The amounts of an ingredient in some prose; `None` for one without a figure in grams.
fn amounts(prose: &Prose, wanted: &str) -> Vec<Option<Number>> {
    let mut found = Vec::new();
    prose.events(|insert| {
        if let Insert::Amount { amount, ingredient, .. } = insert
            && ingredient.eq_ignore_ascii_case(wanted)
        {
            found.push(grams(amount));
        }
        Vec::<Event<'_>>::new()
    });
    found
}
