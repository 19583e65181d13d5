//! What one line of a kitchen, a larder or a day says, in the one layout.

use super::Page;
use super::amount::{is_one, quantity, written};
use super::clause::{in_order, joined, with_clauses};
use crate::language::syntax::{
    Content, CookClause, Drained, EquipmentClause, Flag, MakeClause, Moment, Name, StoreClause, WantedAmount,
    WrittenNumber,
};
use crate::measure::number::Number;
use crate::measure::unit::Unit;
use crate::text::source::Spanned;
use jiff::civil::{Time, Weekday};

/// Writes what a line says; `None` for a line that must stay as it is.
pub(super) fn said(page: Page<'_>, content: &Content) -> Option<String> {
    Some(match content {
        Content::Equipment { name, count, clauses } => {
            let written: Option<Vec<String>> =
                in_order(clauses).iter().map(|clause| equipment_clause(page, &clause.value)).collect();
            with_clauses(format!("{name} x {}", count.value), written?)
        }
        Content::Cooks(count) => format!("cooks {}", count.value),
        Content::Cook { name, shift, clauses } => {
            let hours = shift
                .map_or_else(String::new, |shift| format!(" {}-{}", clock(shift.value.from), clock(shift.value.to)));
            let written: Option<Vec<String>> =
                in_order(clauses).iter().map(|clause| cook_clause(page, &clause.value)).collect();
            with_clauses(format!("cook {name}{hours}"), written?)
        }
        Content::Longest(time) => format!("longest {}", quantity(page, time)),
        Content::Open { from, to } => format!("open {}-{}", clock(*from), clock(*to)),
        Content::Scale { fine, step, up_to } => {
            let word = if *fine { "fine scale" } else { "scale" };
            let up_to = up_to.as_ref().map(|most| format!("up to {}", quantity(page, most)));
            with_clauses(format!("{word} {}", quantity(page, step)), up_to)
        }
        Content::Weighs { weight, number, unit, measures } => {
            let measures = measures.map_or_else(String::new, |measures| format!(" {}", measures.value.word()));
            format!("weighs {} per {}{measures}", quantity(page, weight), per(page, number.as_ref(), *unit))
        }
        Content::OneWeighs(weight) => format!("one weighs {}", quantity(page, weight)),
        Content::Fact(kind, share) => format!("{} {}", kind.word(), quantity(page, share)),
        Content::Energy(number) => format!("energy {} kcal", written(page, number)),
        Content::Trace(kind, number) => format!("{} {} {}", kind.word(), written(page, number), kind.unit()),
        Content::NitrogenFactor(number) => format!("nitrogen factor {}", written(page, number)),
        Content::Is(kind) => format!("is {kind}"),
        Content::Flag(flag) => flag_words(*flag).to_owned(),
        Content::AlsoCalled(names) => format!("also called {}", joined(names, ", ")),
        Content::Contains(names) => format!("contains {}", joined(names, ", ")),
        Content::Costs { price, currency, number, unit, on } => {
            let currency = currency.as_ref().map_or_else(String::new, |currency| format!(" {currency}"));
            let said = format!("costs {}{currency} per {}", written(page, price), per(page, number.as_ref(), (*unit)?));
            with_clauses(said, on.map(|on| format!("on {}", date(on.value))))
        }
        Content::Source(words) => format!("source {words}"),
        Content::Section(words) => format!("section {words}"),
        Content::Listed(words) => format!("listed as {words}"),
        Content::Consists(words) => format!("consists of {words}"),
        Content::Sale(field, words) => format!("{} {words}", field.word()),
        Content::Serving(weight, None) => format!("serving {}", quantity(page, weight)),
        Content::Serving(weight, Some(words)) => format!("serving {}, {words}", quantity(page, weight)),
        Content::Drained(Drained::Weighed(left, of)) => {
            format!("drained {} of {}", quantity(page, left), quantity(page, of))
        }
        Content::Drained(Drained::Share(share)) => format!("drained {}", quantity(page, share)),
        Content::Drained(Drained::AsPacked) => "drained as packed".to_owned(),
        Content::GoodFor { time, use_by: None } => format!("best before {}", quantity(page, time)),
        Content::GoodFor { time, use_by: Some(reason) } => format!("use by {}, {reason}", quantity(page, time)),
        Content::Ready(when) => format!("ready {}", moment(*when)),
        Content::Make { wanted, part, path, clauses } => {
            let clauses: Option<Vec<String>> =
                in_order(clauses).iter().map(|clause| make_clause(&clause.value)).collect();
            let wanted = match wanted {
                WantedAmount::Quantity(amount) => quantity(page, amount),
                WantedAmount::Sorts(sorts) => {
                    let each = sorts.iter().map(|(count, sort)| format!("{} {sort}", written(page, count)));
                    each.collect::<Vec<String>>().join(" and ")
                }
            };
            with_clauses(format!("make {wanted} of {}\"{}\"", part_of(part.as_ref()), path.value), clauses?)
        }
        Content::Store { quantity: there, part, path, clauses } => {
            let clauses: Option<Vec<String>> =
                in_order(clauses).iter().map(|clause| store_clause(&clause.value)).collect();
            let head = format!("store {} of {}\"{}\"", quantity(page, there), part_of(part.as_ref()), path.value);
            with_clauses(head, clauses?)
        }
        Content::Stock(path) => format!("stock \"{}\"", path.value),
        _ => return None,
    })
}

fn equipment_clause(page: Page<'_>, clause: &EquipmentClause) -> Option<String> {
    Some(match clause {
        EquipmentClause::Holds(most) => format!("holds {}", quantity(page, most)),
        EquipmentClause::Friction(degrees) => format!("friction {}", quantity(page, degrees)),
        EquipmentClause::Heating(time) => format!("heating {}", quantity(page, time)),
        EquipmentClause::Agrees(degrees) => format!("agrees within {}", quantity(page, degrees)),
        EquipmentClause::Broken => return None,
    })
}

fn cook_clause(page: Page<'_>, clause: &CookClause) -> Option<String> {
    Some(match clause {
        CookClause::On(days) => {
            let days: Vec<String> = days.iter().map(|days| stretch_of_days(*days)).collect();
            format!("on {}", days.join(" and "))
        }
        CookClause::Rests(time) => format!("rests {}", quantity(page, time)),
        CookClause::Longest(time) => format!("longest {}", quantity(page, time)),
        CookClause::Broken => return None,
    })
}

fn stretch_of_days((first, last): (Weekday, Weekday)) -> String {
    let word = |day: Weekday| match day {
        Weekday::Monday => "Mon",
        Weekday::Tuesday => "Tue",
        Weekday::Wednesday => "Wed",
        Weekday::Thursday => "Thu",
        Weekday::Friday => "Fri",
        Weekday::Saturday => "Sat",
        Weekday::Sunday => "Sun",
    };
    if first == last { word(first).to_owned() } else { format!("{}-{}", word(first), word(last)) }
}

fn make_clause(clause: &MakeClause) -> Option<String> {
    Some(match clause {
        MakeClause::Choose(option, None) => format!("choose {option}"),
        MakeClause::Choose(choice, Some(option)) => format!("choose {choice} = {option}"),
        MakeClause::Ready(when) => format!("ready {}", moment(*when)),
        MakeClause::Broken => return None,
    })
}

fn part_of(part: Option<&Name>) -> String {
    part.map_or_else(String::new, |part| format!("{part} of "))
}

fn store_clause(clause: &StoreClause) -> Option<String> {
    Some(match clause {
        StoreClause::Choose(option, None) => format!("choose {option}"),
        StoreClause::Choose(choice, Some(option)) => format!("choose {choice} = {option}"),
        StoreClause::Made(on) => format!("made {}", date(on.value)),
        StoreClause::Broken => return None,
    })
}

/// `cup`, `100 ml`, `2 cups`: what a weight or a price is for.
fn per(page: Page<'_>, number: Option<&WrittenNumber>, unit: Spanned<Unit>) -> String {
    match number {
        Some(number) => format!("{} {}", written(page, number), unit.value.word(is_one(number.value))),
        None => unit.value.word(is_one(Number::ONE)).to_owned(),
    }
}

fn flag_words(flag: Flag) -> &'static str {
    match flag {
        Flag::CountsAsFlour => "counts as flour",
        Flag::NotFlour => "not flour",
        Flag::RawFlour => "raw flour",
        Flag::RawEgg => "raw egg",
        Flag::ReadyToEat => "ready to eat",
        Flag::NotVegan => "not vegan",
        Flag::NotVegetarian => "not vegetarian",
        Flag::BoughtByTheLitre => "bought by the litre",
        Flag::BoughtByThePiece => "bought by the piece",
        Flag::BoughtByWeight => "bought by weight",
        Flag::Compound => "compound",
    }
}

/// Hours and minutes. The last second of a day stands for its end, which was written 24:00.
pub(super) fn clock(time: Time) -> String {
    if time.second() == 59 { "24:00".to_owned() } else { format!("{:02}:{:02}", time.hour(), time.minute()) }
}

fn moment(moment: Moment) -> String {
    format!("{} {}", date(moment.when.date()), clock(moment.when.time()))
}

pub(super) fn date(date: jiff::civil::Date) -> String {
    format!("{:04}-{:02}-{:02}", date.year(), date.month(), date.day())
}
