//! Reading a log of bakes and the recipe that it is of.

use super::walk::log_title;
use super::{Loader, Unreadable};
use crate::language::bakes::Log;
use crate::language::parse::parse;
use crate::language::syntax::FileKind;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{SourceId, Span};
use std::path::{Path, PathBuf};

/// A log that was read.
#[derive(Debug, Clone)]
pub struct ReadLog {
    /// What it says.
    pub log: Log,
    /// The recipe that its bakes are of; `None` where that cannot be read, which is among the problems.
    pub recipe: Option<SourceId>,
    /// What is wrong with it as it was read.
    pub problems: Vec<Diagnostic>,
}

/// The recipe that a log names, by its first line alone: a log of years is not read through for that. `None` for a file that is no
/// log, and for one whose first line cannot be read.
pub fn recipe_of_log(path: &Path) -> Option<PathBuf> {
    let title = log_title(path)?;
    let (tree, _) = parse(SourceId(u32::MAX), &title);
    let of = Log::of(&tree, &title).of?;
    Some(path.parent().unwrap_or(Path::new("")).join(of.value))
}

impl Loader {
    /// Reads a log of bakes that was named on the command line, and the recipe that it names; `-` is standard input.
    ///
    /// # Errors
    /// When it cannot be read at all: not there, a folder, too large, not UTF-8.
    pub fn load_log(&mut self, path: &Path) -> Result<ReadLog, Unreadable> {
        let source = self.load(path)?;
        Ok(self.log_of(source))
    }

    /// The log that a text is which has been read.
    pub fn log_of(&self, source: SourceId) -> ReadLog {
        let mut read = ReadLog { log: Log::default(), recipe: None, problems: Vec::new() };
        let Some(file) = self.project.file(source) else { return read };
        let text = self.project.sources.get(source).map_or("", |source| &source.text);
        if file.tree.kind != FileKind::Bakes {
            let first = Span::new(source, 0, text.find('\n').unwrap_or(text.len()));
            read.problems.push(
                Diagnostic::error("no-title", first, "this is no log: it does not say which recipe its bakes are of")
                    .help("a log begins with `bakes of \"rolls.miche\"`"),
            );
            return read;
        }
        read.log = Log::of(&file.tree, text);
        read.problems.clone_from(&file.diagnostics);
        let target = read.log.of.as_ref().and_then(|path| self.project.target(path.span));
        let is_recipe =
            |target: &SourceId| self.project.file(*target).map(|file| file.tree.kind) == Some(FileKind::Recipe);
        read.recipe = target.filter(is_recipe);
        read
    }
}
