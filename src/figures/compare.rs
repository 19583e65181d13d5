//! Two versions of a recipe: what changed in the formula, not in the text.
//!
//! Meaning is compared: lines by ingredient, steps by name, figures by value. A file that was only laid out anew has no
//! change, and a batch that was rescaled throughout is one fact.

mod aims;
mod drawn;
mod figures;
mod files;
mod lines;
mod matching;
mod prices;
mod readers;
mod sale;
mod steps;
mod under_choices;

use crate::language::syntax::TextKind;
use crate::plan::timeline;

use crate::measure::number::Number;
use crate::measure::pan::Pan;
use crate::measure::quantity::{Duration, Length, Mass, Proportion};
use crate::measure::shown::Shown;
use crate::model::recipe::{HeadMakes, PartId, Recipe, Text};
use crate::model::step::Words;
use crate::solve::formula::{Formula, SolvedPart};
use crate::text::composed::reads_alike;
use crate::text::diagnostic::{Diagnostic, without_figures};
use std::borrow::Cow;

pub use aims::AimChange;
pub use figures::Figure;
pub use files::{FileVersion, two_ways, versions};
pub use steps::{StepChange, StepField};
pub use under_choices::merge;

/// What happened to something.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Change {
    /// It is new.
    Added,
    /// It is gone.
    Removed,
    /// It is another than before.
    Changed,
}

impl Change {
    /// The word used in every output.
    pub fn word(self) -> &'static str {
        match self {
            Change::Added => "added",
            Change::Removed => "removed",
            Change::Changed => "changed",
        }
    }
}

/// One version of a recipe under one selection of its choices.
#[derive(Clone, Copy)]
pub struct Version<'a> {
    /// The recipe.
    pub recipe: &'a Recipe,
    /// Its amounts.
    pub formula: &'a Formula,
    /// What `check` finds in its file.
    pub problems: &'a [Diagnostic],
}

impl<'a> Version<'a> {
    /// A part as it is mixed, which is what its card has: a preferment with what is made of it besides.
    fn mixed(self, id: PartId) -> Option<Cow<'a, SolvedPart>> {
        let solved = self.formula.part(id)?;
        Some(solved.mixed().unwrap_or(Cow::Borrowed(solved)))
    }
}

/// What changed between two versions of a recipe, under one selection.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Comparison {
    /// The new name.
    pub recipe: String,
    /// The old name, when it is another.
    pub was: Option<String>,
    /// How many times larger every amount is, when that is all that happened to the amounts.
    pub rescaled: Option<Number>,
    /// Facts of the head and of the whole: what it makes, choices.
    pub head: Vec<Figure>,
    /// The parts in which something changed.
    pub parts: Vec<PartChange>,
    /// Allergens that the new version has and the old had not.
    pub allergens_gained: Vec<String>,
    /// Allergens that the old version had and the new has not.
    pub allergens_lost: Vec<String>,
    /// Ingredients of the new version whose allergens nobody knows, and that the old one did not have.
    pub allergens_unknown: Vec<String>,
    /// Aims that are newly missed or met.
    pub aims: Vec<AimChange>,
    /// Problems that the new version has and the old had not: check and message.
    pub problems_raised: Vec<(String, String)>,
    /// Problems that the old version had and the new has not.
    pub problems_cleared: Vec<(String, String)>,
    /// Notes, cautions and credits that came or went.
    pub texts: Vec<TextChange>,
    /// Times from the first step to the last, and hands-on.
    pub plan: Vec<Figure>,
}

/// A part in which something changed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PartChange {
    /// Its new name, or the old one of a part that is gone.
    pub name: String,
    /// Its old name, when it was renamed.
    pub was: Option<String>,
    /// What happened to it.
    pub change: Change,
    /// Its lines that changed.
    pub lines: Vec<LineChange>,
    /// Its figures that changed.
    pub figures: Vec<Figure>,
    /// Its steps that changed.
    pub steps: Vec<StepChange>,
    /// Notes, cautions and credits that came or went.
    pub texts: Vec<TextChange>,
    /// The options under which alone this holds; empty for all.
    pub only: String,
}

/// A note, caution or credit that came or went; one that was reworded did both.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TextChange {
    /// What happened to it.
    pub change: Change,
    /// Which of the three it is.
    pub kind: TextKind,
    /// What it says.
    pub text: String,
}

/// An ingredient line that changed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LineChange {
    /// The ingredient; of a line that is gone, the old one.
    pub ingredient: String,
    /// What it was called, when it was renamed.
    pub was: Option<String>,
    /// What happened.
    pub change: Change,
    /// Share of the base before.
    pub old_percent: Option<Proportion>,
    /// Share of the base now.
    pub new_percent: Option<Proportion>,
    /// Mass before.
    pub old_mass: Option<Mass>,
    /// Mass now.
    pub new_mass: Option<Mass>,
    /// As written before: to taste, two pieces.
    pub old_shown: Shown,
    /// As written now.
    pub new_shown: Shown,
    /// Preparation, temperature and the like: what it is, before, now.
    pub clauses: Vec<Figure>,
    /// The options under which alone this holds; empty for all.
    pub only: String,
}

impl Comparison {
    /// Whether anything that a baker or a reader would notice changed.
    pub fn is_empty(&self) -> bool {
        let silent = Comparison { recipe: self.recipe.clone(), ..Comparison::default() };
        *self == silent
    }
}

impl Comparison {
    /// Without the figures that round alike, unless they are all there is.
    fn without_noise(self) -> Comparison {
        let mut coarse = self.clone();
        coarse.head.retain(|figure| !figure.is_fine);
        coarse.plan.retain(|figure| !figure.is_fine);
        for part in &mut coarse.parts {
            part.figures.retain(|figure| !figure.is_fine);
        }
        coarse.parts.retain(|part| !part.is_silent());
        if coarse.is_empty() { self } else { coarse }
    }
}

impl PartChange {
    /// Whether nothing is told of it.
    fn is_silent(&self) -> bool {
        self.lines.is_empty()
            && self.figures.is_empty()
            && self.steps.is_empty()
            && self.texts.is_empty()
            && self.was.is_none()
            && self.change == Change::Changed
    }
}

/// Compares two versions.
pub fn compare(old: Version<'_>, new: Version<'_>) -> Comparison {
    let rescaled = lines::common_factor(old, new);
    let mut parts = Vec::new();
    for pair in matching::parts(old.recipe, new.recipe) {
        parts.extend(part(old, new, pair, rescaled));
    }
    parts.extend(drawn::changes(old, new));
    let (old_allergens, new_allergens) = (allergens(old), allergens(new));
    let missing_in = |list: &[String], from: &[String]| -> Vec<String> {
        list.iter().filter(|one| !from.contains(one)).cloned().collect()
    };
    let (old_name, new_name) = (old.recipe.name.to_string(), new.recipe.name.to_string());
    let comparison = Comparison {
        was: (!reads_alike(&old_name, &new_name)).then_some(old_name),
        recipe: new_name,
        rescaled: rescaled.filter(|factor| *factor != Number::ONE),
        head: head(old, new),
        parts,
        allergens_gained: missing_in(&new_allergens, &old_allergens),
        allergens_lost: missing_in(&old_allergens, &new_allergens),
        allergens_unknown: missing_in(&unknown_allergens(new), &unknown_allergens(old)),
        aims: aims::changes(old, new),
        problems_raised: problems_only_in(new, old),
        problems_cleared: problems_only_in(old, new),
        texts: texts(&old.recipe.texts, &new.recipe.texts),
        plan: plan(old, new),
    };
    comparison.without_noise()
}

fn part(
    old: Version<'_>,
    new: Version<'_>,
    pair: (Option<PartId>, Option<PartId>),
    rescaled: Option<Number>,
) -> Option<PartChange> {
    let (old_part, new_part) = (pair.0.and_then(|id| old.recipe.part(id)), pair.1.and_then(|id| new.recipe.part(id)));
    let name = new_part.or(old_part)?.name.to_string();
    let change = match (old_part, new_part) {
        (None, _) => Change::Added,
        (_, None) => Change::Removed,
        _ => Change::Changed,
    };
    let was =
        old_part.map(|part| part.name.to_string()).filter(|was| change == Change::Changed && !reads_alike(was, &name));
    let no_texts: &[Text] = &[];
    let found = PartChange {
        lines: lines::changes(old, new, pair, rescaled),
        figures: figures::of_part(old, new, pair, rescaled)
            .into_iter()
            .chain(readers::of_part(old_part, new_part))
            .collect(),
        steps: steps::changes((old_part, old.recipe), (new_part, new.recipe), rescaled.unwrap_or(Number::ONE)),
        texts: texts(old_part.map_or(no_texts, |part| &part.texts), new_part.map_or(no_texts, |part| &part.texts)),
        name,
        was,
        change,
        only: String::new(),
    };
    (!found.is_silent()).then_some(found)
}

fn allergens(version: Version<'_>) -> Vec<String> {
    let mut all = version.formula.allergens(version.recipe).known;
    all.sort();
    all
}

fn unknown_allergens(version: Version<'_>) -> Vec<String> {
    let mut all = version.formula.allergens(version.recipe).unknown;
    all.sort();
    all.dedup();
    all
}

/// Problems of one version that the other has not, by check, how grave they are, message and options: their places move with every edit. The
/// figures in a message move with the amounts, which are told themselves: a problem that stands is neither new nor gone by them.
fn problems_only_in(this: Version<'_>, other: Version<'_>) -> Vec<(String, String)> {
    // How lines end is nothing that the formula says.
    let of_the_formula = this.problems.iter().filter(|problem| problem.check != "carriage-return");
    let only = of_the_formula.filter(|problem| !stands(problem, other.problems));
    only.map(|problem| (problem.check.to_owned(), problem.said().into_owned())).collect()
}

/// Whether a problem is among some others, but for the figures in it: a warning that has become an error is another one.
pub fn stands(problem: &Diagnostic, among: &[Diagnostic]) -> bool {
    let is_alike = |other: &&Diagnostic| other.check == problem.check && other.severity == problem.severity;
    let mut alike = among.iter().filter(is_alike).peekable();
    alike.peek().is_some() && {
        let words = without_figures(&problem.said());
        alike.any(|other| reads_alike(&without_figures(&other.said()), &words))
    }
}

fn head(old: Version<'_>, new: Version<'_>) -> Vec<Figure> {
    let makes = |version: Version<'_>| match &version.recipe.makes {
        Some(HeadMakes::Pieces { count, noun, .. }) => {
            Shown::words(crate::measure::noun::counted(count.value(), &noun.text))
        }
        Some(HeadMakes::Mass(makes)) => crate::measure::show::mass_plain(makes.mass),
        None => Shown::default(),
    };
    let choices = |version: Version<'_>| {
        let choice = |choice: &crate::model::recipe::Choice| {
            let options: Vec<String> = choice.options.iter().map(ToString::to_string).collect();
            format!("{}: {}", choice.name, options.join(" or "))
        };
        version.recipe.choices.iter().map(choice).collect::<Vec<String>>().join("; ")
    };
    let kitchen = |version: Version<'_>| version.recipe.kitchen.name.clone();
    [
        Figure::words("makes", makes(old), makes(new)),
        Figure::words("tin", baked_in(old), baked_in(new)),
        Figure::written_share("bake loss", old.recipe.bake_loss, new.recipe.bake_loss),
        Figure::words("choices", choices(old), choices(new)),
        Figure::words("kitchen", kitchen(old), kitchen(new)),
        prices::of_whole(old, new),
    ]
    .into_iter()
    .flatten()
    .chain(sale::of_whole(old.recipe, new.recipe))
    .chain(readers::of_whole(old.recipe, new.recipe))
    .collect()
}

/// What a piece is baked in or on, as a file says it.
fn baked_in(version: Version<'_>) -> String {
    let length = |length: Length| crate::measure::show::length(length, crate::measure::show::Units::Metric);
    match version.recipe.pan.map(|baked_in| baked_in.pan) {
        None => String::new(),
        Some(Pan::Tin(long, wide, high)) => format!("tin {} × {} × {}", length(long), length(wide), length(high)),
        Some(Pan::Holds(volume)) => format!("tin {} ml", volume.value().decimal(1)),
        Some(Pan::Round(across, None)) => format!("round {}", length(across)),
        Some(Pan::Round(across, Some(high))) => format!("round {} × {}", length(across), length(high)),
        Some(Pan::Sheet(long, wide)) => format!("sheet {} × {}", length(long), length(wide)),
    }
}

fn plan(old: Version<'_>, new: Version<'_>) -> Vec<Figure> {
    let times = |version: Version<'_>| timeline::of(version.recipe, version.formula).unwrap_or_default();
    let (old, new) = (times(old), times(new));
    // A version of which there is no plan takes no time that could be compared: that there is none is what changed.
    let is_planned = |line: &timeline::Timeline| !line.rows.is_empty() || line.hands_minutes + line.tend_minutes == 0;
    let whole = "from the first step to the last";
    let length = |line: &timeline::Timeline| match is_planned(line) {
        true => crate::measure::show::duration(Duration::minutes(line.span_minutes)),
        false => Shown::words("no plan"),
    };
    [
        match is_planned(&old) && is_planned(&new) {
            true => Figure::minutes(whole, old.span_minutes, new.span_minutes),
            false => Figure::words(whole, length(&old), length(&new)),
        },
        Figure::minutes("hands-on", old.hands_minutes, new.hands_minutes),
        Figure::minutes("tended", old.tend_minutes, new.tend_minutes),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn texts(old: &[Text], new: &[Text]) -> Vec<TextChange> {
    let words = |text: &Text| plain_words(&text.words, Number::ONE);
    let said = |list: &[Text], text: &Text| {
        list.iter().any(|one| one.kind == text.kind && reads_alike(&words(one), &words(text)))
    };
    let told = |change: Change, text: &Text| TextChange { change, kind: text.kind, text: words(text) };
    let gone = old.iter().filter(|text| !said(new, text)).map(|text| told(Change::Removed, text));
    let come = new.iter().filter(|text| !said(old, text)).map(|text| told(Change::Added, text));
    gone.chain(come).collect()
}

/// Prose as it was meant, without the amounts that scaling changes: `{rest of butter}` stays that.
///
/// `factor` is what the weights in it are multiplied with, so that a rescaled file reads the same.
pub(crate) fn plain_words(words: &[Words], factor: Number) -> String {
    let mut text = String::new();
    for word in words {
        match word {
            Words::Text(said) => text.push_str(said),
            Words::Measure(said) => {
                text.push_str(&said.first().map(crate::measure::show::said_plain).unwrap_or_default().to_string());
            }
            Words::Use { take, name, .. } => text.push_str(&steps::take_words(take, &name.text, factor)),
        }
    }
    text.split_whitespace().collect::<Vec<&str>>().join(" ")
}
