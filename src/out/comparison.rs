//! A comparison of two versions as blocks: for a terminal, for a review comment, and for a page.

pub mod json;

use super::block::{Alarm, BeforeAndNow, Block, Change as Told, ChangedStep, Fate, Heading, Look, Paint, Phrase, Text};
use super::page::Page;
use super::report::clean;
use crate::figures::compare::{AimChange, Change, Comparison, Figure, LineChange, PartChange, StepChange, TextChange};
use crate::measure::number::Number;
use crate::measure::quantity::Proportion;
use crate::measure::show;
use crate::measure::shown::Shown;
use crate::text::capital::capital;
use similar::{ChangeTag, TextDiff};

/// What changed in one file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Changes {
    /// The file, as it was given.
    pub file: String,
    /// What changed, over all choices.
    pub comparison: Comparison,
    /// Whether the text of the file changed at all.
    pub text_changed: bool,
}

impl Changes {
    /// Whether nothing changed that a baker would notice.
    pub fn is_empty(&self) -> bool {
        self.comparison.is_empty()
    }
}

/// Where changes are read, which says what comes first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// On a terminal: what is of the whole stands last, next to the prompt.
    Terminal,
    /// In a review comment: the figures that are asked for first stand at its top.
    Review,
    /// On a page: part by part.
    Page,
}

/// The changes of all files.
pub fn page(all: &[Changes], place: Place) -> Page {
    let title = all.first().map_or("", |first| first.comparison.recipe.as_str());
    let blocks = all.iter().flat_map(|changes| of_file(changes, place)).collect();
    Page { title: format!("Changes: {title}"), below: 1, blocks }
}

fn of_file(changes: &Changes, place: Place) -> Vec<Block> {
    let comparison = &changes.comparison;
    let mut blocks = vec![Heading::block(1, format!("{}{}", comparison.recipe, renamed(comparison.was.as_ref())))];
    if changes.is_empty() {
        let words = if changes.text_changed { "The text changed, the recipe did not." } else { "No change." };
        blocks.push(Block::Text(Text::wrapped(vec![Phrase::plain(words)], "  ", "  ")));
    } else {
        blocks.extend(body(comparison, place));
    }
    blocks.push(Block::Gap);
    blocks
}

fn body(comparison: &Comparison, place: Place) -> Vec<Block> {
    let alarm = |what, can_hurt| move |of: &String| Block::Alarm(Alarm { what, of: of.clone(), can_hurt });
    let gained = comparison.allergens_gained.iter().map(alarm("Allergen gained", true));
    // Where something new is not known, it may hold what the old one held.
    let unknown = comparison.allergens_unknown.iter().map(alarm("Allergens not known of", true));
    let is_known = comparison.allergens_unknown.is_empty();
    let lost_words = if is_known { "Allergen no longer in it" } else { "Allergen no longer known to be in it" };
    let lost = comparison.allergens_lost.iter().map(alarm(lost_words, false));
    let mut first: Vec<Told> = comparison.rescaled.map(|factor| rescaled(factor, place)).into_iter().collect();
    if place == Place::Review {
        first.extend(comparison.parts.iter().filter_map(summary));
    }
    first.extend(figures(&comparison.head));
    let mut last: Vec<Told> = figures(&comparison.plan).collect();
    let problem = |what: &'static str, tone: fn(String) -> Phrase, paint| {
        move |(check, message): &(String, String)| {
            Told::Said(vec![tone(begun(what, place)), Phrase::plain(format!(" ({check}): {message}"))], paint)
        }
    };
    last.extend(comparison.aims.iter().map(|change| aim(change, place)));
    // Of an aim is told what became of it, once.
    let told = |problem: &&(String, String)| problem.0 != "aim-missed";
    last.extend(comparison.problems_raised.iter().filter(told).map(problem("new problem", Phrase::amount, Paint::Red)));
    last.extend(comparison.problems_cleared.iter().filter(told).map(problem(
        "problem gone",
        Phrase::plain,
        Paint::Green,
    )));
    last.extend(comparison.texts.iter().map(text));
    let parts = comparison.parts.iter().flat_map(|one| part(one, place));
    let mut blocks: Vec<Block> = gained.chain(unknown).chain(lost).collect();
    if place == Place::Terminal {
        blocks.push(Block::Changes(first));
        blocks.extend(parts);
        blocks.push(Block::Changes(last));
    } else {
        first.extend(last);
        blocks.push(Block::Changes(first));
        blocks.extend(parts);
    }
    blocks
}

/// Words that begin a line: on a page as a sentence begins.
fn begun(words: &str, place: Place) -> String {
    if place == Place::Page { capital(words) } else { words.to_owned() }
}

fn rescaled(factor: Number, place: Place) -> Told {
    let end = if place == Place::Page { " what it was." } else { " what it was" };
    // As many digits as tell it from no change: 1.001 times, and not 1.
    let fine = || (3..=9).map(|digits| factor.decimal(digits)).find(|shown| shown != "1");
    let shown = Some(show::number(factor)).filter(|shown| shown != "1").or_else(fine);
    let times = Phrase::amount(format!("{} times", shown.unwrap_or_else(|| show::number(factor))));
    Told::Said(vec![Phrase::plain(begun("every amount is ", place)), times, Phrase::plain(end)], Paint::None)
}

/// The figures that are asked for first.
const FIRST: [&str; 5] = ["hydration", "salt on flour", "prefermented flour", "piece weight", "total"];

/// What a baker asks first, in one line: `dough: hydration 65 % → 70 %, piece weight 842 g → 870 g`.
fn summary(part: &PartChange) -> Option<Told> {
    let named =
        |name: &&str| part.figures.iter().filter(move |figure| figure.figure == *name).collect::<Vec<&Figure>>();
    let fact = |figure: &Figure| {
        let (old, new) = (BeforeAndNow::side(&figure.old), BeforeAndNow::side(&figure.new));
        format!("{}{} {old} → {new}", figure.figure, bracketed(&figure.only))
    };
    let facts: Vec<String> = FIRST.iter().flat_map(named).map(fact).collect();
    let words = format!("{}: {}", bracketed(&part.only), facts.join(", "));
    (part.change == Change::Changed && !facts.is_empty())
        .then(|| Told::Said(vec![Phrase::amount(&part.name), Phrase::plain(words)], Paint::None))
}

fn part(part: &PartChange, place: Place) -> Option<Block> {
    let stays = part.change == Change::Changed;
    // In a review the first figures stand at the top, and there only.
    let is_here = |figure: &&Figure| place != Place::Review || !stays || !FIRST.contains(&figure.figure);
    let mut told: Vec<Told> = part.lines.iter().flat_map(line).collect();
    told.extend(part.figures.iter().filter(is_here).map(figure).map(Told::Figure));
    told.extend(part.texts.iter().map(text));
    told.extend(part.steps.iter().map(step));
    if place == Place::Review && stays && part.was.is_none() && told.is_empty() {
        return None;
    }
    let what = happened(part.change).map_or_else(String::new, |what| format!(" ({what})"));
    let title = format!("{}{}{what}{}", part.name, renamed(part.was.as_ref()), bracketed(&part.only));
    Some(Block::Section(vec![Heading::looking(2, title, Look::Dashed), Block::Changes(told)]))
}

/// What changed as short sentences, for a page that tells of much else: `dough: water 62 % → 64 %`.
pub fn sentences(comparison: &Comparison) -> Vec<String> {
    let mut all = Vec::new();
    for block in body(comparison, Place::Terminal) {
        match block {
            Block::Alarm(alarm) => all.push(format!("{}: {}", alarm.what, alarm.of)),
            Block::Changes(changes) => all.extend(changes.iter().map(|change| sentence("", change))),
            Block::Section(blocks) => {
                let mut of = String::new();
                for block in blocks {
                    match block {
                        Block::Heading(heading) => of = format!("{}: ", heading.text),
                        Block::Changes(changes) if changes.is_empty() => all.push(of.trim_end_matches(": ").to_owned()),
                        Block::Changes(changes) => all.extend(changes.iter().map(|change| sentence(&of, change))),
                        _ => {}
                    }
                }
            }
            _ => {}
        }
    }
    all
}

fn sentence(of: &str, change: &Told) -> String {
    let figure = |one: &BeforeAndNow| {
        let remark = if one.remark.is_empty() { String::new() } else { format!(" ({})", one.remark) };
        one.sentence(&one.whole_name()) + &remark
    };
    match change {
        Told::Line(one) | Told::Figure(one) => format!("{of}{}", figure(one)),
        Told::Said(words, _) => {
            let words: String = words.iter().map(|phrase| phrase.text.as_str()).collect();
            format!("{of}{words}")
        }
        Told::Step(step) => {
            let mut facts: Vec<String> = step.happened.iter().map(|what| (*what).to_owned()).collect();
            facts.extend(step.figures.iter().map(figure));
            if !step.words.is_empty() {
                facts.push("its words".to_owned());
            }
            format!("{of}{}{}: {}", step.name, step.beside, facts.join(", "))
        }
    }
}

/// What happened to a thing as a whole.
fn happened(change: Change) -> Option<&'static str> {
    match change {
        Change::Added => Some("new"),
        Change::Removed => Some("gone"),
        Change::Changed => None,
    }
}

/// The old name of a thing, behind its new one.
fn renamed(was: Option<&String>) -> String {
    was.map_or_else(String::new, |was| format!(" (was {was})"))
}

/// The options under which alone something holds, in brackets as in the file.
fn bracketed(only: &str) -> String {
    if only.is_empty() { String::new() } else { format!(" [{only}]") }
}

fn figures(all: &[Figure]) -> impl Iterator<Item = Told> {
    all.iter().map(figure).map(Told::Figure)
}

fn figure(figure: &Figure) -> BeforeAndNow {
    BeforeAndNow {
        of: None,
        what: format!("{}{}", figure.figure, bracketed(&figure.only)),
        old: figure.old.clone(),
        new: figure.new.clone(),
        remark: String::new(),
    }
}

/// A line of ingredients, and below it what is said behind its amount.
fn line(line: &LineChange) -> Vec<Told> {
    let name = format!("{}{}{}", line.ingredient, renamed(line.was.as_ref()), bracketed(&line.only));
    let remark = happened(line.change).map_or_else(|| by_how_much(line), ToOwned::to_owned);
    let clauses = line.clauses.iter().map(figure).map(|clause| BeforeAndNow { of: Some(name.clone()), ..clause });
    let amount = BeforeAndNow {
        of: None,
        what: name.clone(),
        old: amount(line.old_percent, &line.old_shown),
        new: amount(line.new_percent, &line.new_shown),
        remark,
    };
    std::iter::once(amount).chain(clauses).map(Told::Line).collect()
}

/// An amount before or now: `1.2 % (12 g)`.
fn amount(share: Option<Proportion>, shown: &Shown) -> Shown {
    match share.and_then(|share| share.percent().ok()) {
        Some(percent) if shown.is_empty() => Shown::new(show::percent_digits(percent), "%"),
        Some(percent) => Shown::new(show::percent_digits(percent), "%").also(shown.clone()),
        None => shown.clone(),
    }
}

/// By how much an amount changed, in words that say more than two figures: `halved`, `+ 3.5 points` between percentages, else
/// `+ 12.5 %`.
fn by_how_much(line: &LineChange) -> String {
    let (shares, ratio) = match (line.old_percent, line.new_percent, line.old_mass, line.new_mass) {
        (Some(old), Some(new), _, _) if old.value().is_positive() => {
            (Some((old, new)), new.value().over(old.value()).ok())
        }
        (_, _, Some(old), Some(new)) if old.value().is_positive() => (None, new.ratio(old).ok()),
        _ => (None, None),
    };
    let Some(ratio) = ratio.filter(|ratio| *ratio != Number::ONE) else { return String::new() };
    let by = match (ratio.parts(), shares) {
        ((2, 1), _) => return "doubled".to_owned(),
        ((3, 1), _) => return "tripled".to_owned(),
        ((1, 2), _) => return "halved".to_owned(),
        (_, Some((old, new))) => points(old, new),
        (_, None) => ratio.minus(Number::ONE).and_then(|by| by.times(Number::whole(100))).ok().map(|by| (by, "%")),
    };
    by.map_or_else(String::new, |(by, unit)| {
        let sign = if by.is_negative() { "−" } else { "+" };
        let digits = if unit == "%" { by.size().decimal(1) } else { show::percent_digits(by.size()) };
        format!("{sign} {digits} {unit}")
    })
}

/// The difference of two percentages, which is counted in points and not in percent of one of them.
fn points(old: Proportion, new: Proportion) -> Option<(Number, &'static str)> {
    let by = new.percent().ok()?.minus(old.percent().ok()?).ok()?;
    Some((by, if by.size() == Number::ONE { "point" } else { "points" }))
}

/// An aim that is newly missed or met: `aim now missed: hydration of dough, wanted 66-68 % of flour: 67 % → 62 %`.
fn aim(change: &AimChange, place: Place) -> Told {
    let of = change.part.as_ref().map_or_else(String::new, |part| format!(" of {part}"));
    let (old, new) = (BeforeAndNow::side(&change.old), BeforeAndNow::side(&change.new));
    let words = format!(": {}{of}{}, wanted {}: {old} → {new}", change.figure, bracketed(&change.only), change.aim);
    let (begins, tone, paint): (_, fn(String) -> Phrase, _) = if change.is_met {
        ("aim now met", Phrase::plain, Paint::Green)
    } else {
        ("aim now missed", Phrase::amount, Paint::Red)
    };
    Told::Said(vec![tone(begun(begins, place)), Phrase::plain(words)], paint)
}

/// A note, caution or credit that came or went.
fn text(text: &TextChange) -> Told {
    let words = format!("{} {}: {}", text.kind.word(), text.change.word(), text.text);
    Told::Said(vec![Phrase::plain(words)], Paint::None)
}

fn step(step: &StepChange) -> Told {
    Told::Step(ChangedStep {
        name: step.step.clone(),
        beside: renamed(step.was.as_ref()) + &bracketed(&step.only),
        happened: happened(step.change).into_iter().chain(step.moved.then_some("moved")).collect(),
        figures: step.fields.iter().map(figure).collect(),
        words: step.prose.as_ref().map(|(old, new)| words(&clean(old), &clean(new))).unwrap_or_default(),
    })
}

/// Prose word by word.
fn words(old: &str, new: &str) -> Vec<(Fate, String)> {
    let diff = TextDiff::from_words(old, new);
    let mut all: Vec<(Fate, String)> = Vec::new();
    for change in diff.iter_all_changes() {
        let fate = match change.tag() {
            ChangeTag::Equal => Fate::Kept,
            ChangeTag::Delete => Fate::Gone,
            ChangeTag::Insert => Fate::New,
        };
        match all.last_mut() {
            Some((last, so_far)) if *last == fate => so_far.push_str(change.value()),
            _ => all.push((fate, change.value().to_owned())),
        }
    }
    all
}
