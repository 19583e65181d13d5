//! What is taken of something: `zest of 1 lemon`, `yolks of 3 eggs`, `seeds of a vanilla pod`.

use super::amount;
use super::item::{Made, Read};
use super::manner::AMONG_WORDS;
use super::measure::measure;
use crate::measure::noun;

/// What is taken of a fruit, and how a name of the larder says it.
const TAKEN: &[(&str, &str)] = &[
    ("zest", "zest"),
    ("rind", "zest"),
    ("peel", "peel"),
    ("juice", "juice"),
    ("juiced", "juice"),
    ("zested", "zest"),
];
/// Fruit of which zest and juice are taken.
const FRUIT: &[&str] =
    &["lemon", "lime", "orange", "grapefruit", "mandarin", "clementine", "tangerine", "bergamot", "yuzu"];
/// How zest is taken.
const MANNERS: &[&str] =
    &["finely grated", "grated", "thinly pared", "pared", "freshly squeezed", "squeezed", "finely"];

/// Reads a line that says of what something is taken.
pub(super) fn read(text: &str) -> Option<Vec<Read>> {
    let text = text.strip_prefix("the ").or_else(|| text.strip_prefix("The ")).unwrap_or(text);
    of_fruit(text).or_else(|| of_egg(text)).or_else(|| seeds(text))
}

fn of_fruit(text: &str) -> Option<Vec<Read>> {
    let lower = text.to_lowercase();
    let manner = MANNERS.iter().find(|manner| lower.strip_prefix(*manner).is_some_and(|rest| rest.starts_with(' ')));
    let behind = text.get(manner.map_or(0, |manner| manner.len() + 1)..)?;
    let (taken, of) = match taken(behind) {
        Some((taken, rest)) => {
            let rest = rest.trim_start();
            (taken, rest.strip_prefix("of ").unwrap_or(rest))
        }
        // `1 lemon, zest only`, `1 lemon (juice and zest)`.
        None => {
            let (of, rest) = text.split_once([',', '('])?;
            let rest = rest.trim().trim_end_matches(')').trim_end_matches(" only");
            let (taken, rest) = taken(rest)?;
            if !rest.is_empty() {
                return None;
            }
            (taken, of)
        }
    };
    let of = of.trim().trim_end_matches('.');
    // `juice of 2 lemons (80 ml)`: how much that is, is said.
    let weighed = of.strip_suffix(')').and_then(|of| of.split_once('(')).or_else(|| of.split_once(", "));
    let weighed = weighed.and_then(|(of, amount)| {
        let (amount, rest) = measure(amount)?;
        (amount.is_quantity() && rest.trim().is_empty()).then_some((of.trim(), amount))
    });
    let (of, amount) = weighed.map_or((of, None), |(of, amount)| (of, Some(amount)));
    // `zest of 1 orange and 2 lemons`.
    let each: Vec<&str> = [" and ", " & ", " + ", ", "]
        .iter()
        .find(|joint| of.contains(**joint))
        .map_or_else(|| vec![of], |joint| of.split(joint).collect());
    let fruits = each.iter().map(|of| Some((fruit_in(of)?, *of))).collect::<Option<Vec<(&str, &str)>>>()?;
    if taken.len() * fruits.len() > 1 && amount.is_some() {
        return None;
    }
    let one = |(what, (fruit, of)): (&str, (&str, &str))| {
        let mut read = match &amount {
            Some(amount) => Made::of(amount.clone()).named(&format!("{fruit} {what}"))?,
            None => Read::open(format!("{fruit} {what}")),
        };
        read.clauses.push(format!("of {of}"));
        read.clauses.extend(manner.map(|manner| (*manner).to_owned()));
        read.look.push(if amount.is_some() { AMONG_WORDS } else { "no weight is said" }.to_owned());
        Some(read)
    };
    fruits.into_iter().flat_map(|fruit| taken.iter().map(move |what| (*what, fruit))).map(one).collect()
}

/// `zest`, `zest and juice` at the start of a text, and what follows.
fn taken(text: &str) -> Option<(Vec<&'static str>, &str)> {
    let lower = text.to_lowercase();
    let word = |text: &str| {
        let end = text.find(|c: char| !c.is_alphabetic()).unwrap_or(text.len());
        let found = TAKEN.iter().find(|(word, _)| text.get(..end) == Some(word))?;
        Some((found.1, end))
    };
    let (first, end) = word(&lower)?;
    let mut all = vec![first];
    let mut at = end;
    let rest = lower.get(at..)?;
    for between in [" and ", " & ", "/", " + "] {
        if let Some((second, length)) = rest.strip_prefix(between).and_then(word) {
            all.push(second);
            at += between.len() + length;
            break;
        }
    }
    Some((all, text.get(at..)?))
}

/// The name of what is taken of a fruit, as a larder says it: `lemon juice` for `juice of lemon`.
pub(super) fn as_named(name: &str) -> Option<String> {
    let (what, of) = name.split_once(" of ")?;
    let (_, what) = TAKEN.iter().find(|(word, _)| what.eq_ignore_ascii_case(word))?;
    let of = of.to_lowercase();
    let of = of.strip_prefix("a ").or_else(|| of.strip_prefix("an ")).unwrap_or(&of);
    let fruit = FRUIT.iter().find(|fruit| noun::is_one_or_several(of, fruit))?;
    Some(format!("{fruit} {what}"))
}

/// The fruit of `1 lemon`, `half an orange`, `2 large limes`; nothing else may be said.
fn fruit_in(text: &str) -> Option<&'static str> {
    let (_, rest) = match amount::figure(text) {
        Some((figure, rest)) => (Some(figure), rest),
        None => (None, text.strip_prefix("a ").or_else(|| text.strip_prefix("an "))?),
    };
    let last = rest.split_whitespace().last()?.to_lowercase();
    let known = FRUIT.iter().find(|fruit| noun::is_one_or_several(&last, fruit))?;
    (rest.split_whitespace().count() <= 3 && !rest.contains([',', '('])).then_some(*known)
}

/// `yolks of 3 eggs`.
fn of_egg(text: &str) -> Option<Vec<Read>> {
    let (what, of) = text.split_once(" of ")?;
    let what = match what.to_lowercase().as_str() {
        "yolk" | "yolks" | "egg yolks" => "yolk",
        "white" | "whites" | "egg whites" => "white",
        _ => return None,
    };
    let of = of
        .strip_prefix("a ")
        .or_else(|| of.strip_prefix("an "))
        .map_or_else(|| of.to_owned(), |rest| format!("1 {rest}"));
    let (amount, rest) = measure(&of).filter(|(amount, _)| amount.unit.is_none())?;
    let rest = rest.trim_start();
    let behind = rest.strip_prefix("eggs").or_else(|| rest.strip_prefix("egg"))?;
    let plural = if amount.shown == "1" { "" } else { "s" };
    Made::of(amount).named(&format!("egg {what}{plural}{behind}")).map(|read| vec![read])
}

/// `seeds of 1 vanilla pod`: it is the pod that is bought and counted.
fn seeds(text: &str) -> Option<Vec<Read>> {
    let of = text
        .strip_prefix("seeds of ")
        .or_else(|| text.strip_prefix("Seeds of "))
        .or_else(|| text.strip_prefix("seeds from "))?;
    let of = of.strip_prefix("a ").map_or_else(|| of.to_owned(), |rest| format!("1 {rest}"));
    let (amount, rest) = measure(&of).filter(|(amount, rest)| amount.unit.is_none() && rest.contains("pod"))?;
    let mut read = Made::of(amount).named(rest)?;
    read.clauses.push("seeds of it".to_owned());
    Some(vec![read])
}
