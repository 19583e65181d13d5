//! Any text as a recipe with an aim: what is found meets the aims, is told in every format, and writing it changes figures only.

use super::super::{is_clean, is_json, is_safe_html, project_of};
use miche::aims::change::{Line, Outcome, Way, Wish, lines, with_amounts, work_out};
use miche::aims::written;
use miche::check;
use miche::figures::aimed::{self, Aimed};
use miche::language::mend::apply;
use miche::language::parse::parse;
use miche::out;
use miche::solve::resolve::{choices_of, selections};
use miche::text::diagnostic::Mend;

/// One text.
pub fn run(text: &str) {
    let with_aim = |text: &str| match text.split_once('\n') {
        Some((head, rest)) => format!("{head}\naim hydration 60-70 %\naim salt 1-2.5 %\n{rest}"),
        None => text.to_owned(),
    };
    let text = if text.contains("aim ") { text.to_owned() } else { with_aim(text) };
    let (project, sources) = project_of(&[("fuzzed.miche", &text)]);
    let Some(file) = project.file(sources[0]) else { return };
    let all = selections(&choices_of(&file.tree));
    let worked = all.iter().take(4).filter_map(|one| check::work_out(&project, sources[0], one, &mut Vec::new()));
    let ways: Vec<Way> = worked.map(|(recipe, formula)| Way { recipe, formula }).collect();
    let Some(first) = ways.first() else { return };
    let all = lines(&ways);
    // Many lines are many trials; the seeds have some dozens.
    if all.len() > 40 || ways.iter().all(|way| miche::aims::list(&way.recipe).is_empty()) {
        return;
    }
    let free: Vec<usize> = all.iter().enumerate().filter(|(_, line)| line.is_free).map(|(at, _)| at).collect();
    let wish = if text.len().is_multiple_of(2) { Wish::LeastChange } else { Wish::Cheapest };
    let Ok(outcome) = work_out(&ways, &all, &free, wish) else { return };
    let answer = |now: &[Way], binding: &[(usize, usize)], met: bool| Aimed {
        recipe: first.recipe.name.to_string(),
        met,
        was_met: met,
        aims: aimed::aims(&ways, now, binding),
        lines: aimed::lines(&all, &free, &ways, now, now),
        apart: match &outcome {
            Outcome::Contradiction(contradiction) => aimed::apart(&ways, contradiction),
            _ => Vec::new(),
        },
        remarks: Vec::new(),
    };
    match &outcome {
        Outcome::Found(found) => {
            let Ok(now) = with_amounts(&ways, &all, &found.rounded) else { return };
            shows(&answer(&now, &found.binding, true));
            writes(&text, &project, sources[0], (&all, &found.rounded), (&ways, &now));
        }
        Outcome::Met => shows(&answer(&ways, &[], true)),
        Outcome::OutOfReach(_) | Outcome::Contradiction(_) => shows(&answer(&ways, &[], false)),
    }
}

fn shows(answer: &Aimed) {
    let page = out::aimed::page(answer, None);
    is_clean(&page.text(out::text::Style { width: 80, colour: false, on_screen: false }));
    is_clean(&page.markdown());
    is_safe_html(&page.html());
    is_json(&out::aimed::json(answer).expect("an answer is JSON"));
}

/// But for its figures the text is as it was, and it reads as well.
fn writes(
    text: &str,
    project: &miche::model::project::Project,
    source: miche::text::source::SourceId,
    (all, times): (&[Line], &[miche::measure::number::Number]),
    (before, now): (&[Way], &[Way]),
) {
    let Some(file) = project.file(source) else { return };
    let Ok(edits) = written::edits(&file.tree, all, times, before, now) else { return };
    let after = apply(text, &[&Mend { title: String::new(), edits, certain: true }]);
    let others = |text: &str| text.replace(|c: char| c.is_ascii_digit() || "./, ½¼¾⅓⅔⅛⅜⅝⅞".contains(c), "");
    assert_eq!(others(text), others(&after), "more than figures are changed");
    let problems = |text: &str| parse(source, text).1.len();
    assert!(problems(&after) <= problems(text), "new amounts cannot be read: {after}");
}
