//! Options that say how much is made and with which choices, shared by the commands that make batches.

use crate::language::evaluate::evaluate;
use crate::language::parse::{nearest, ungrouped};
use crate::language::syntax::{Amount, Content, Key, Name};
use crate::make::have::There;
use crate::make::size::Size;
use crate::make::stock::{by_country, is_amount};
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show::{self, Units};
use crate::measure::shown::Shown;
use crate::measure::unit::Measures;
use crate::measure::value::{Said, Told, Value};
use crate::model::project::Project;
use crate::model::recipe::{Choice, Selection};
use crate::solve::resolve::{choices_of, normal_selection};
use crate::text::source::SourceId;
use clap::{Args, ValueEnum};

/// How much is made, with which choices, in which units.
#[derive(Debug, Args)]
pub(super) struct Scaling {
    /// Make this many pieces
    #[arg(long, value_name = "N", group = "scale")]
    pieces: Option<String>,
    /// Make so many times the recipe
    #[arg(long, value_name = "X", group = "scale")]
    times: Option<String>,
    /// Make this much in all, for example `12 kg`
    #[arg(long, value_name = "MASS", group = "scale")]
    total: Option<String>,
    /// Use this much flour (or whatever 100 % is)
    #[arg(long, value_name = "MASS", group = "scale")]
    base: Option<String>,
    /// Make as much as can be made of this, for example `strong white flour=2 kg` or `egg=17`; may be given several times
    #[arg(long, value_name = "NAME=AMOUNT")]
    have: Vec<String>,
    /// Use all of this, for example `strong white flour=7.3 kg`: in the number of pieces that is nearest, which then weigh something else
    #[arg(long, value_name = "NAME=AMOUNT", group = "scale")]
    use_up: Option<String>,
    /// What there is in all, from `miche stock`; of it counts what the recipe takes
    #[arg(skip)]
    pub(super) stock: Vec<There>,
    /// Take an option: `hand`, or `mixing=hand`; may be given several times
    #[arg(long, value_name = "OPTION")]
    choose: Vec<String>,
    /// Units to print in
    #[arg(long, value_enum, default_value_t = UnitsWanted::Metric)]
    units: UnitsWanted,
}

/// Units to print in.
#[derive(Debug, Clone, Copy, ValueEnum)]
enum UnitsWanted {
    /// Grams, °C, cm
    Metric,
    /// Pounds and ounces, °F, inches
    Us,
    /// Metric with US behind it
    Both,
}

impl Scaling {
    /// Units to print in.
    pub(super) fn units(&self) -> Units {
        match self.units {
            UnitsWanted::Metric => Units::Metric,
            UnitsWanted::Us => Units::Us,
            UnitsWanted::Both => Units::Both,
        }
    }

    /// The size of batch that was asked for.
    ///
    /// # Errors
    /// A sentence that says which option cannot be read.
    pub(super) fn size(&self) -> Result<Size, String> {
        let others = [
            ("--pieces", &self.pieces),
            ("--times", &self.times),
            ("--total", &self.total),
            ("--base", &self.base),
            ("--use-up", &self.use_up),
        ];
        let other = others.iter().find(|(_, value)| value.is_some());
        if let Some((other, _)) = other.filter(|_| !self.have.is_empty()) {
            return Err(format!("--have finds the size of the batch itself; leave {other} away"));
        }
        if !self.stock.is_empty() {
            return Ok(Size::Stock(self.stock.clone()));
        }
        if let Some(text) = &self.pieces {
            return number(text).map(Size::Pieces).ok_or_else(|| unreadable("--pieces", text, "a whole number"));
        }
        if let Some(text) = &self.times {
            return number(text)
                .map(Size::Times)
                .ok_or_else(|| unreadable("--times", text, "a number such as 2 or 1/2"));
        }
        if let Some(text) = &self.total {
            return mass(text).map(Size::Total).ok_or_else(|| unreadable("--total", text, "a weight such as `12 kg`"));
        }
        if let Some(text) = &self.base {
            return mass(text).map(Size::Base).ok_or_else(|| unreadable("--base", text, "a weight such as `5 kg`"));
        }
        if let Some(text) = &self.use_up {
            return there("--use-up", text).map(Size::UseUp);
        }
        if self.have.is_empty() {
            return Ok(Size::AsWritten);
        }
        let all: Result<Vec<There>, String> = self.have.iter().map(|text| there("--have", text)).collect();
        all.map(Size::Have)
    }

    /// What `--have` says there is, taken out of what says the size: a list takes it off what is to be bought.
    ///
    /// # Errors
    /// A sentence that says which cannot be read.
    pub(super) fn take_have(&mut self) -> Result<Vec<There>, String> {
        std::mem::take(&mut self.have).iter().map(|text| there("--have", text)).collect()
    }

    /// Whether a choice was asked for.
    pub(super) fn chooses(&self) -> bool {
        !self.choose.is_empty()
    }

    /// Whether something was asked for that is about one recipe only.
    pub(super) fn is_of_one_recipe(&self) -> bool {
        let one = [&self.pieces, &self.total, &self.base, &self.use_up].iter().any(|option| option.is_some());
        one || !self.have.is_empty() || self.chooses()
    }

    /// The choices that were asked for.
    ///
    /// # Errors
    /// A sentence that names the options there are.
    pub(super) fn selection(&self, project: &Project, source: SourceId) -> Result<Selection, String> {
        let choices = project.file(source).map_or_else(Vec::new, |file| choices_of(&file.tree));
        selection(&choices, &self.choose, "--choose")
    }
}

/// The selection that takes the options that were asked for.
///
/// # Errors
/// A sentence that names the options there are.
pub(super) fn selection(choices: &[Choice], asked: &[String], option: &str) -> Result<Selection, String> {
    let mut selection = Selection::new();
    for text in asked {
        let before = selection.clone();
        choose(choices, text, &mut selection).map_err(|why| format!("{option} {text}: {why}"))?;
        let taken = |choice: &&Choice| {
            before.of(&choice.name.key).is_some_and(|other| selection.of(&choice.name.key) != Some(other))
        };
        if let Some(choice) = choices.iter().find(taken) {
            let name = &choice.name;
            return Err(format!(
                "{option} {text}: of `{name}` another option was taken before; there is one for each choice"
            ));
        }
    }
    Ok(normal_selection(choices, &selection))
}

pub(super) fn choose(choices: &[Choice], text: &str, selection: &mut Selection) -> Result<(), String> {
    let (of, option) = match text.split_once('=') {
        Some((choice, option)) => (Some(Key::new(choice)), Key::new(option)),
        None => (None, Key::new(text)),
    };
    if let Some(key) =
        of.as_ref().filter(|key| !choices.is_empty() && choices.iter().all(|choice| choice.name.key != **key))
    {
        // The choice that has the option is the one that is meant.
        let meant = choices.iter().find(|choice| choice.options.iter().any(|known| known.key == option));
        let names: Vec<&str> = choices.iter().map(|choice| choice.name.key.as_str()).collect();
        let meant =
            meant.map(|choice| choice.name.key.as_str()).or_else(|| nearest(key.as_str(), names.iter().copied()));
        return Err(match meant {
            Some(meant) => format!("there is no such choice; did you mean `{meant}={}`?", option.as_str()),
            None => format!("there is no such choice; there is {}", show::list(&names)),
        });
    }
    let mut fitting = choices.iter().filter(|choice| of.as_ref().is_none_or(|key| choice.name.key == *key));
    let found = fitting.find(|choice| choice.options.iter().any(|known| known.key == option));
    if let Some(choice) = found {
        selection.take(&choice.name.key, &option);
        return Ok(());
    }
    let known: Vec<&str> =
        choices.iter().flat_map(|choice| &choice.options).map(|option| option.key.as_str()).collect();
    Err(match nearest(option.as_str(), known.iter().copied()) {
        _ if known.is_empty() => "the recipe offers no choice".to_owned(),
        Some(near) => format!("there is no such option; did you mean `{near}`?"),
        None => format!("there is no such option; there are {}", known.join(", ")),
    })
}

/// Reads `strong white flour=2 kg`, `egg=17` or `olive oil=1 l`.
fn there(option: &str, text: &str) -> Result<There, String> {
    let wrong = || unreadable(option, text, "a name and how much there is, `strong white flour=2 kg` or `egg=17`");
    let (name, value) = text.split_once('=').ok_or_else(wrong)?;
    let told = said_by(value, None).map(Told::from).filter(|told| is_amount(told.value));
    let told = told.filter(|_| !name.trim().is_empty()).ok_or_else(|| whose_cup(option, text).unwrap_or_else(wrong))?;
    Ok((Name::new(name, crate::text::source::Span::new(SourceId(u32::MAX), 0, 0)), told))
}

/// What is wrong with `salt=1 cup`: it could be read if it said whose cup. Its millilitres, by each country that has such a measure.
fn whose_cup(option: &str, text: &str) -> Option<String> {
    let (name, value) = text.split_once('=')?;
    let written = |volume: &Shown| format!("`{}={volume}`", name.trim());
    let known = by_country(|whose| amount_by(value, Some(whose)), written)?;
    Some(format!("{option} {text}: {} is not the same everywhere: write {known}", value.trim()))
}

fn unreadable(option: &str, text: &str, wanted: &str) -> String {
    let value = text.rsplit_once('=').map_or(text, |(_, value)| value).trim();
    let is_digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
    let by_comma = |(before, behind): (&str, &str)| {
        is_digit(before.chars().last()) && is_digit(behind.chars().next()) && !behind.contains(',')
    };
    let number = value.trim_end_matches(char::is_alphabetic).trim();
    let in_groups = number.split(|c: char| !c.is_ascii_digit()).nth(1).is_some_and(|group| group.len() == 3);
    let plain = number.chars().all(|c| c.is_ascii_digit() || matches!(c, ' ' | '\'' | '’' | '_' | '.' | ','));
    if let Some(whole) = ungrouped(number).filter(|_| in_groups && plain) {
        return format!("{option} {text}: digits are not grouped: write `{whole}`");
    }
    if let Some((before, behind)) = value.split_once(',').filter(|parts| by_comma(*parts)) {
        // Three digits behind a comma are a thousand to one reader and a decimal to another; of pieces there are no decimals.
        let digits = behind.chars().take_while(char::is_ascii_digit).count();
        return match (digits, option) {
            (3, "--pieces") => format!("{option} {text}: a thousand has no comma: `{before}{behind}`"),
            (3, _) => format!("{option} {text}: write `{before}{behind}` or, of a decimal, `{before}.{behind}`"),
            _ => format!("{option} {text}: a decimal has a point: `{before}.{behind}`"),
        };
    }
    if value.starts_with(['-', '−']) {
        return format!("{option} {text}: nothing is less than nothing; write {wanted}");
    }
    let is_nothing = amount(value).is_some_and(|value| value.number().is_zero());
    match option {
        "--have" | "--use-up" if is_nothing => {
            return format!("{option} {text}: of nothing nothing is made; leave it away");
        }
        _ if is_nothing => return format!("{option} {text}: a batch is more than nothing; write {wanted}"),
        _ => {}
    }
    if value.len() > MOST_DIGITS && value.chars().all(|c| c.is_ascii_digit()) {
        return format!("{option} {text}: this is more than anybody makes");
    }
    format!("{option} {text}: this is not {wanted}")
}

/// Numbers with more digits leave the range in which everything is exact.
const MOST_DIGITS: usize = 15;

/// Reads an amount as the language does, by the language's own parser.
pub(super) fn amount(text: &str) -> Option<Value> {
    amount_by(text, None)
}

/// The same, with cups and spoons of that country.
fn amount_by(text: &str, measures: Option<Measures>) -> Option<Value> {
    said_by(text, measures).map(|said| said.value)
}

/// The same as it was said.
fn said_by(text: &str, measures: Option<Measures>) -> Option<Said> {
    let line = format!("recipe x\nx .. {}", text.trim());
    let (tree, diagnostics) = crate::language::parse::parse(SourceId(u32::MAX), &line);
    let [_, line] = tree.lines.as_slice() else { return None };
    let Content::Ingredient(ingredient) = &line.content else { return None };
    let Amount::Chain(chain) = &ingredient.amount else { return None };
    match chain.as_slice() {
        [one] if diagnostics.is_empty() && ingredient.clauses.is_empty() => evaluate(one, measures, &mut Vec::new()),
        _ => None,
    }
}

/// Reads a weight as the language does.
pub(super) fn mass(text: &str) -> Option<Mass> {
    match amount(text)? {
        Value::Mass(mass) if mass > Mass::ZERO => Some(mass),
        _ => None,
    }
}

/// Reads a share as the language does: `12 %`.
pub(super) fn proportion(text: &str) -> Option<crate::measure::quantity::Proportion> {
    match amount(text)? {
        Value::Proportion(share) => Some(share),
        _ => None,
    }
}

/// Reads what is lost: a share from nothing to less than all.
///
/// # Errors
/// A sentence that names the option.
pub(super) fn loss(option: &str, text: &str) -> Result<crate::measure::quantity::Proportion, String> {
    proportion(text)
        .filter(|share| !share.value().is_negative() && *share < crate::measure::quantity::Proportion::WHOLE)
        .ok_or_else(|| format!("{option} {text}: this is not a share below 100 %, such as `12 %`"))
}

/// Reads a bare number as the language does.
pub(super) fn number(text: &str) -> Option<Number> {
    match amount(text)? {
        Value::Count(count) => Some(count.value()),
        _ => None,
    }
}

/// Reads a time as the language does: `10s`, `2 min`.
pub(super) fn duration(text: &str) -> Option<crate::measure::quantity::Duration> {
    // Behind a bare number the unit may stand without a space.
    let at = text.find(|c: char| c.is_ascii_alphabetic())?;
    let (number, unit) = text.split_at(at);
    let line = format!("recipe x\nx: wait {} {}", number.trim(), unit.trim());
    let (tree, diagnostics) = crate::language::parse::parse(SourceId(u32::MAX), &line);
    let [_, line] = tree.lines.as_slice() else { return None };
    let Content::Step(step) = &line.content else { return None };
    if !diagnostics.is_empty() || !step.clauses.is_empty() {
        return None;
    }
    evaluate(&step.duration, None, &mut Vec::new()).and_then(|said| said.times()).map(|(_, most)| most)
}

/// Reads degrees as the language does, `22`, `22 C`, `-4 C`, `72 F`: the number, and whether it is in °F.
pub(super) fn degrees(text: &str) -> Option<(Number, bool)> {
    let text = text.trim();
    let at = text.find(|c: char| c.is_alphabetic() || c == '°').unwrap_or(text.len());
    let (digits, unit) = text.split_at(at);
    let fahrenheit = match unit.trim().trim_start_matches('°') {
        "" | "C" | "c" => false,
        "F" | "f" => true,
        _ => return None,
    };
    let (negative, digits) = match digits.trim().strip_prefix(['-', '−']) {
        Some(rest) => (true, rest),
        None => (false, digits.trim()),
    };
    let number = number(digits)?;
    let number = if negative { Number::ZERO.minus(number).ok()? } else { number };
    Some((number, fahrenheit))
}

/// Reads a tin as the language does: `tin 23 cm x 13 cm x 7 cm`, `round 24 cm`.
///
/// # Errors
/// A sentence that says how a tin is written.
pub(super) fn pan(text: &str) -> Result<crate::measure::pan::Pan, String> {
    let unreadable = || {
        format!(
            "--tin {text}: this is not a tin; write `tin 23 cm x 13 cm x 7 cm`, `tin 2 l`, `round 24 cm` or `sheet 60 cm x 40 cm`"
        )
    };
    let line = format!("recipe x\nmakes 1 piece, {}", text.trim());
    let (tree, diagnostics) = crate::language::parse::parse(SourceId(u32::MAX), &line);
    let [_, line] = tree.lines.as_slice() else { return Err(unreadable()) };
    let Content::Makes { pan: Some(written), loss: None, bake_loss: None, .. } = &line.content else {
        return Err(unreadable());
    };
    let mut problems = diagnostics;
    match crate::solve::resolve::pan(written, &mut problems) {
        Some(found) if problems.is_empty() => Ok(found.pan),
        _ => Err(problems.first().map_or_else(unreadable, |problem| format!("--tin {text}: {}", problem.message))),
    }
}
