//! Any text as a page or as data that somebody published: what comes out can be read, is tidy, and no line of it is stray.

use super::super::is_clean;
use miche::language::parse::parse;
use miche::language::tidy::tidy;
use miche::model::notes::{Draft, Form, read};
use miche::text::diagnostic::Severity;
use miche::text::source::SourceId;

/// One text, in each form: as it is, and as what stands where a recipe's data has words.
pub fn run(text: &str) {
    for form in [Form::Notes, Form::Data, Form::Page] {
        if let Ok(draft) = read(text, form, None, "Fuzzed") {
            holds(text, &draft);
        }
    }
    let lines: Vec<&str> = text.lines().take(40).collect();
    let (ingredients, steps) = lines.split_at(lines.len() / 2);
    let data = serde_json::json!({
        "@context": "https://schema.org",
        "@type": "Recipe",
        "name": lines.first(),
        "recipeYield": lines.get(1),
        "recipeIngredient": ingredients,
        "recipeInstructions": steps,
    });
    let page = format!("<!doctype html><title>x</title><script type=application/ld+json>{data}</script>");
    for (text, form) in [(data.to_string(), Form::Data), (page, Form::Page)] {
        // What closes the script ends the data in a page.
        if let Ok(draft) = read(&text, form, None, "Fuzzed") {
            holds(&text, &draft);
        } else {
            assert!(form == Form::Page, "data that is a recipe is none: {text}");
        }
    }
}

fn holds(text: &str, draft: &Draft) {
    is_clean(&draft.text);
    let lines: Vec<&str> = draft.text.lines().collect();
    for (line, why) in &draft.review {
        is_clean(why);
        let marked = line.checked_sub(1).and_then(|at| lines.get(at));
        assert!(
            marked.is_some_and(|line| line.contains("# look")),
            "line {line} of {} has no mark\n{text}",
            draft.text
        );
    }
    let (tree, problems) = parse(SourceId(0), &draft.text);
    super::super::keeps_every_byte(&draft.text, &tree);
    let stray = problems.iter().find(|problem| problem.severity != Severity::Advice);
    assert!(stray.is_none(), "{stray:?}\n{}\n{text}", draft.text);
    assert_eq!(tidy(&draft.text, None).as_deref(), Ok(draft.text.as_str()), "not tidy: {text:?}");
}
