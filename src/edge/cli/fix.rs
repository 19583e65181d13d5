//! `miche check --fix`: makes the certain mends of files, or shows what they would change.

use super::output::Output;
use crate::check::check_file;
use crate::edge::loader::{Loader, reason_to_write, write_over};
use crate::language::mend::{Mended, mend};
use crate::model::project::Project;
use crate::out::report::clean;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{Source, SourceId};
use rayon::prelude::*;
use similar::TextDiff;
use std::collections::{HashMap, HashSet};
use std::fs;
use std::path::{Path, PathBuf};

/// Mends the files that have certain mends; gives how many mends were made. An error was told.
pub(super) fn run(
    files: &[PathBuf],
    project: &Project,
    problems: &[Diagnostic],
    dry_run: bool,
    output: &mut Output,
) -> Result<usize, ()> {
    if files.iter().any(|path| path == Path::new("-")) {
        output.complain("--fix changes files; standard input has no file to change");
        return Err(());
    }
    // A name that is no text is shown otherwise than it is.
    let named: HashMap<String, &PathBuf> = files.iter().map(|path| (path.display().to_string(), path)).collect();
    let with_mends = problems.iter().filter(|problem| problem.mend.as_ref().is_some_and(|mend| mend.certain));
    let with_mends: HashSet<SourceId> = with_mends.map(|problem| problem.span.source).collect();
    let sources = project.sources.iter().filter(|(id, _)| with_mends.contains(id));
    let work: Vec<(&Source, &Path)> =
        sources.filter_map(|(_, source)| Some((source, named.get(&source.name)?.as_path()))).collect();
    let mended: Vec<Option<Mended>> = work.par_iter().map(|(source, path)| mend_source(source, path)).collect();
    let (mut made, mut changed, mut failed) = (0, 0, false);
    for ((source, path), mended) in work.iter().zip(mended) {
        let Some(mended) = mended else { continue };
        if dry_run {
            let diff = TextDiff::from_lines(&*source.text, mended.text.as_str());
            let diff = diff.unified_diff().context_radius(3).header(&source.name, &source.name).to_string();
            output.print(&clean(&diff));
        } else if let Err(error) = write_over(path, &*source.text, &mended.text) {
            output.complain(&format!("{}: {}", source.name, reason_to_write(path, &error)));
            failed = true;
            continue;
        }
        made += mended.count;
        changed += 1;
    }
    let several = |count: usize, one: &str, many: &str| format!("{count} {}", if count == 1 { one } else { many });
    let verb = if dry_run { "would mend" } else { "mended" };
    // To standard error, so that a diff or a report on standard output stays one.
    output.tell(&format!("{verb} {} in {}", several(made, "problem", "problems"), several(changed, "file", "files")));
    if failed { Err(()) } else { Ok(made) }
}

/// Mends one file where it stands.
fn mend_source(source: &Source, path: &Path) -> Option<Mended> {
    let place = fs::canonicalize(path).ok()?;
    mend(&source.text, |text| {
        let mut loader = Loader::new();
        let id = loader.take_text(&source.name, text.to_owned(), &place);
        (id, check_file(&loader.into_project(), id))
    })
}
