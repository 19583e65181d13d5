//! Reading a log of bakes and the recipe that it is of.

use super::{Loader, Unreadable, read_input, read_real, unreadable};
use crate::language::bakes::Log;
use crate::language::parse;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::SourceId;
use std::path::Path;

/// A log that was read.
#[derive(Debug, Clone)]
pub struct ReadLog {
    /// What it says.
    pub log: Log,
    /// The recipe that its bakes are of; `None` where that cannot be read, which is among the problems.
    pub recipe: Option<SourceId>,
    /// What is wrong with it.
    pub problems: Vec<Diagnostic>,
}

impl Loader {
    /// Reads a log of bakes that was named on the command line, and the recipe that it names; `-` is standard input.
    ///
    /// # Errors
    /// When it cannot be read at all: not there, a folder, too large, not UTF-8.
    pub fn load_log(&mut self, path: &Path) -> Result<ReadLog, Unreadable> {
        let (shown, text) = if path == Path::new("-") {
            let shown = "standard input".to_owned();
            let text = read_input().map_err(|why| Unreadable { path: shown.clone(), why })?;
            (shown, text)
        } else {
            let shown = path.display().to_string();
            let real = self.real(path).map_err(|error| unreadable(path, &shown, &error))?;
            let text = read_real(&real).map_err(|why| Unreadable { path: shown.clone(), why })?;
            (shown, text)
        };
        let source = self.project.sources.add(shown, text);
        let text = self.project.sources.get(source).map(|source| source.text.clone()).unwrap_or_default();
        let (log, mut problems) = parse::log_of_bakes(source, &text);
        let mut recipe = None;
        if let Some(of) = &log.of {
            let target = path.parent().unwrap_or(Path::new("")).join(&of.value);
            match self.load(&target) {
                Ok(source) => recipe = Some(source),
                Err(error) => problems.push(
                    Diagnostic::error(
                        "missing-use",
                        of.span,
                        format!("the recipe of this log cannot be read: {error}"),
                    )
                    .help("name it as it is seen from the log's folder: `bakes of \"rolls.miche\"`"),
                ),
            }
        }
        Ok(ReadLog { log, recipe, problems })
    }
}
