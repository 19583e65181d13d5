//! Any text as a log of bakes of recipes that are right: it is checked, told beside its recipe in every format, and what it says is
//! put into the recipe.

use super::super::{checks, is_clean, is_json, is_safe_csv, is_safe_html, project_of};
use miche::figures::bakes::as_baked::{rewritten, said, taken};
use miche::figures::bakes::{OfVersion, Version, otherwise, told};
use miche::figures::compare::FileVersion;
use miche::language::bakes::Log;
use miche::language::parse::parse;
use miche::out;

/// One text.
pub fn run(text: &str) {
    let begins = text.trim_start_matches('\u{feff}').trim_start().to_lowercase().starts_with("bakes of");
    let text = if begins { text.to_owned() } else { format!("bakes of \"harbour-rolls.miche\"\n\n{text}") };
    let (project, sources) = project_of(&[("fuzzed-bakes.miche", &text)]);
    checks(&project, &sources);
    let Some(file) = project.file(sources[0]) else { return };
    let log = Log::of(&file.tree, &text);
    let Some(recipe) = log.of.as_ref().and_then(|path| project.target(path.span)) else { return };
    let versions = [Version { revision: None, file: FileVersion::of(project.clone(), recipe) }];
    let file = &versions[0].file;
    if !file.is_recipe() {
        return;
    }
    let bakes: Vec<OfVersion> = log.bakes.into_iter().map(|bake| OfVersion { bake, version: 0 }).collect();
    let told = told(&versions, 0, &bakes);
    for problem in otherwise::problems(&told, file) {
        is_clean(&problem.message);
    }
    let page = out::bakes::page(&told, &[], &[]);
    is_clean(&page.text(out::text::Style { width: 80, colour: false, on_screen: false }));
    is_clean(&page.markdown());
    is_safe_html(&page.html());
    is_json(&out::bakes::json::render_all(std::slice::from_ref(&told)).expect("bakes are JSON"));
    is_safe_csv(&out::bakes::csv::render(std::slice::from_ref(&told)));
    // What was measured can be read where it is written.
    let all = taken(&told, file);
    said(&all).iter().for_each(|sentence| is_clean(sentence));
    for (id, source) in project.sources.iter().filter(|(id, _)| all.iter().any(|one| one.span.source == *id)) {
        let before = parse(id, &source.text).1.len();
        let after = rewritten(source, id, &all);
        assert!(parse(id, &after).1.len() <= before, "what was measured cannot be read: {after}");
    }
}
