//! To which size a dough is rolled out: a thickness or a width, and neither of them of metres.

use super::Subject;
use crate::measure::number::Number;
use crate::measure::quantity::{Length, Mass};
use crate::measure::show::{self, Units};
use crate::measure::value::Value;
use crate::model::cooking::{beginnings, called, says};
use crate::model::recipe::Part;
use crate::model::step::{Step, Words};
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;

/// In millimetres: pasta and thin biscuits from half a millimetre, scones to three centimetres, sheets to a metre and a half. Between the two a
/// rope is as wide. Common practice, no source.
const THINNEST: Number = Number::constant(1, 2);
const WIDEST: Number = Number::whole(1500);

/// Sizes to which nobody rolls a dough.
pub(super) fn problems(subject: &Subject<'_>, check: &'static str) -> Vec<Diagnostic> {
    let steps = subject.own_parts().flat_map(|(_, part, _)| &part.steps);
    // What is pulled over a table has no thickness that anybody measures.
    let is_pulled = |step: &Step| {
        let pulled = beginnings!["strudel", "filo", "phyllo", "fillo", "yufka", "pull"];
        subject.recipe.name.has_word_beginning(pulled) || called(step, pulled)
    };
    let all = steps.flat_map(|step| sizes(step).into_iter().map(move |(span, size)| (step, span, size)));
    let odd = all.filter(|(step, _, size)| (*size < THINNEST || *size > WIDEST) && !is_pulled(step));
    odd.map(|(_, span, size)| {
        let length = Length::new(size);
        let message = format!(
            "nobody rolls a dough to {}: common practice is from 0.5 mm to 30 mm thick, or up to 150 cm wide",
            show::length(length, Units::Metric)
        );
        Diagnostic::advice(check, span, message).help("look whether a digit, a point or the unit is right")
    })
    .collect()
}

/// A gram of dough is as much as a cubic centimetre and somewhat less; leaven and air make it lighter.
const LIGHTEST: Number = Number::constant(4, 5);
/// Higher nobody pats or rolls a dough, in millimetres.
const HIGHEST: Number = Number::whole(80);

/// A sheet that weighs more than all the dough there is, or one so small that the dough would stand high on it: thickness, area and weight belong
/// together.
pub(super) fn weights(subject: &Subject<'_>, check: &'static str) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for (_, part, solved) in subject.whole_parts() {
        for step in part.steps.iter().filter(|step| {
            called(step, beginnings!["roll", "sheet", "pat|", "shape"]) || says(step, beginnings!["roll", "pat|"])
        }) {
            found.extend(sheet(part, step).and_then(|sheet| problem_of(&sheet, part, solved, step, check)));
        }
    }
    found
}

/// A sheet as a step tells it, in millimetres and square millimetres.
struct Sheet {
    span: Span,
    thick: Option<Number>,
    area: Number,
    /// Whether it is that of a piece that is cut out.
    is_piece: bool,
}

fn length(word: &Words) -> Option<(Span, Number)> {
    let Words::Measure(said) = word else { return None };
    let said = said.first()?;
    if let Value::Length(length) = said.value { Some((said.span, length.value())) } else { None }
}

/// The size that a step rolls or cuts to, where it says all of it.
fn sheet(part: &Part, step: &Step) -> Option<Sheet> {
    let behind = |at: usize| match step.words.get(at + 1) {
        Some(Words::Text(text)) => text.trim_start().to_lowercase(),
        _ => String::new(),
    };
    let before = |at: usize| match at.checked_sub(1).and_then(|at| step.words.get(at)) {
        Some(Words::Text(text)) => text.to_lowercase(),
        _ => String::new(),
    };
    let mut thick = None;
    let mut sheet: Option<Sheet> = None;
    for (at, word) in step.words.iter().enumerate() {
        let Some((span, size)) = length(word) else { continue };
        let (behind, before) = (behind(at), before(at));
        let by = ["by", "x", "×"].contains(&behind.trim());
        if let Some((_, other)) = step.words.get(at + 2).and_then(length).filter(|_| by) {
            if sheet.is_none() {
                sheet = Some(Sheet { span, thick: None, area: size.times(other).ok()?, is_piece: false });
            }
        } else if behind.starts_with("thick") || before.ends_with("roll to ") && size <= Number::whole(20) {
            thick = Some((span, size));
        } else if ["square", "round", "disc", "circle"].iter().any(|shape| behind.starts_with(shape))
            || ["squares of ", "rounds of ", "discs of ", "circles of "].iter().any(|shape| before.ends_with(shape))
        {
            let is_square = behind.starts_with("square") || before.ends_with("squares of ");
            let share = if is_square { Number::ONE } else { Number::constant(785, 1000) };
            let cut = before.contains("cut") || part.divide.is_some();
            sheet = Some(Sheet { span, thick: None, area: size.times(size).ok()?.times(share).ok()?, is_piece: cut });
        } else if before.trim_end().ends_with("to")
            && called(step, beginnings!["pat|", "shape"])
            && size > Number::whole(20)
        {
            let area = size.times(size).ok()?.times(Number::constant(785, 1000)).ok()?;
            sheet.get_or_insert(Sheet { span, thick: None, area, is_piece: step.loads.is_by_piece() });
        }
    }
    let mut sheet = sheet?;
    if let Some((span, thick)) = thick {
        (sheet.thick, sheet.span) = (Some(thick), span);
    }
    Some(sheet)
}

fn problem_of(sheet: &Sheet, part: &Part, solved: &SolvedPart, step: &Step, check: &'static str) -> Option<Diagnostic> {
    let all = solved.goes_in?;
    let weight = match part.divide {
        Some(divide) if sheet.is_piece => divide.each,
        _ if sheet.is_piece => return None,
        _ => all,
    };
    let cubic = |thick: Number| sheet.area.times(thick).ok()?.over(Number::whole(1000)).ok();
    if let Some(thick) = sheet.thick {
        let least = Mass::new(cubic(thick)?.times(LIGHTEST).ok()?);
        let room = if sheet.is_piece { Number::whole(2) } else { Number::constant(3, 2) };
        if least <= weight.times(room).ok()? {
            return None;
        }
        let message = format!(
            "a dough so large and {} thick weighs {} at least, and there are {}",
            show::length(Length::new(thick), Units::Metric),
            show::mass_plain(least_rounded(least)),
            show::mass_plain(weight)
        );
        return Some(
            Diagnostic::advice(check, sheet.span, message)
                .also(step.name.span, "rolled here")
                .help("look whether the unit is right, mm or cm, and whether a digit has slipped"),
        );
    }
    // How high it stands where all of it is patted to that size.
    let is_patted = called(step, beginnings!["pat|", "shape"]) && says(step, beginnings!["pat|"]);
    let high =
        weight.value().times(Number::whole(1000)).ok()?.over(sheet.area).ok()?.over(Number::constant(11, 10)).ok()?;
    (is_patted && high > HIGHEST).then(|| {
        let message = format!(
            "{} of dough patted to {} would stand {} high",
            show::mass_plain(weight),
            show::length(Length::new(sheet_width(sheet)), Units::Metric),
            show::length(Length::new(high.rounded_to(Number::whole(10)).unwrap_or(high)), Units::Metric)
        );
        Diagnostic::advice(check, sheet.span, message)
            .help("look whether the unit is right, cm or in, and whether a digit has slipped")
    })
}

/// To ten grams.
fn least_rounded(mass: Mass) -> Mass {
    mass.value().rounded_to(Number::whole(10)).map_or(mass, Mass::new)
}

/// How wide a round of that area is.
fn sheet_width(sheet: &Sheet) -> Number {
    // To the millimetre is enough for what is printed.
    let mut width = Number::ONE;
    while width
        .times(width)
        .is_ok_and(|square| square.times(Number::constant(785, 1000)).is_ok_and(|area| area < sheet.area))
    {
        width = width.plus(Number::ONE).unwrap_or(width);
        if width > Number::whole(3000) {
            break;
        }
    }
    width
}

/// What stands right behind `to` in words that roll something: where it stands, and how many millimetres it is.
fn sizes(step: &Step) -> Vec<(Span, Number)> {
    let is_length = |word: &Words| match word {
        Words::Measure(said) => matches!(said.first().map(|said| said.value), Some(Value::Length(_))),
        _ => false,
    };
    if !step.words.iter().any(is_length) {
        return Vec::new();
    }
    let mut rolls = called(step, beginnings!["roll", "sheet"]);
    let mut found = Vec::new();
    for two in step.words.windows(2) {
        let [before, here] = two else { continue };
        let Words::Text(text) = before else { continue };
        // The last sentence before it.
        let told = text.rsplit(['.', ';']).next().unwrap_or_default();
        let says_so = beginnings!["roll"].may_begin_in(told) && beginnings!["roll"].begin_in(&told.to_lowercase());
        rolls = says_so || rolls && !text.contains(['.', ';']);
        let Words::Measure(said) = here else { continue };
        if let Some(said) = said.first().filter(|_| rolls)
            && let Value::Length(length) = said.value
            && is_to(told)
        {
            found.push((said.span, length.value()));
        }
    }
    found
}

/// Whether words end so that a size stands behind them.
fn is_to(told: &str) -> bool {
    let told = told.trim_end().to_lowercase();
    ["to", "to about", "to a thickness of", "out to"].iter().any(|end| told.ends_with(end))
}
