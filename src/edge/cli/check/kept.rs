//! What earlier runs of `check` have found in files, each with all that it stands on.

use crate::check::{self, Found};
use crate::edge::loader::{Digest, Digesting, Footing, Ground, Kept, Loader};
use crate::text::diagnostic::{Diagnostic, Edit, Label, Mend, Severity};
use crate::text::source::{SourceId, Span};
use rayon::prelude::*;
use serde::{Deserialize, Serialize};
use std::collections::HashMap;
use std::path::{Path, PathBuf};

/// The files of a run with what is known of them.
pub(super) struct Shelf {
    kept: Kept,
    ground: Ground,
    /// The files that were read, and the key of each.
    files: Vec<(SourceId, Digest)>,
}

/// What was found in a file, as it is kept.
#[derive(Serialize, Deserialize)]
struct WireFound {
    footing: Footing,
    is_sound: bool,
    problems: Vec<WireProblem>,
}

/// A place: the file by its number among those that are used, since in another run it has another; first byte and one past the last.
type WireSpan = (usize, u32, u32);

#[derive(Serialize, Deserialize)]
struct WireProblem {
    check: String,
    severity: u8,
    message: String,
    span: WireSpan,
    label: String,
    also: Vec<(WireSpan, String)>,
    help: Option<String>,
    mend: Option<WireMend>,
    only: String,
}

#[derive(Serialize, Deserialize)]
struct WireMend {
    title: String,
    edits: Vec<(WireSpan, String)>,
    certain: bool,
}

const SEVERITIES: [Severity; 3] = [Severity::Error, Severity::Warning, Severity::Advice];

impl Shelf {
    /// Of the files that were read ahead.
    pub(super) fn of(kept: Kept, loader: &Loader, ahead: Vec<(SourceId, PathBuf)>) -> Shelf {
        if !kept.is_open() {
            return Shelf { kept, ground: Ground::default(), files: Vec::new() };
        }
        let ground = Ground::new(with_digests(loader, ahead));
        let sources = &loader.project().sources;
        let files = ground.texts().collect::<Vec<_>>().into_par_iter().map(|(source, real, text)| {
            let name = sources.get(source).map_or("", |source| &source.name);
            (source, key(name, real, &ground.root(real), text))
        });
        let files = files.collect();
        Shelf { kept, ground, files }
    }

    /// What is known of files that are as they were, with all that they use.
    pub(super) fn known(&self) -> HashMap<SourceId, Found> {
        let known = self.files.par_iter().filter_map(|(source, key)| {
            let wire: WireFound = serde_json::from_slice(self.kept.look(*key)?).ok()?;
            if !wire.footing.holds(&self.ground) {
                return None;
            }
            let sources = wire.footing.sources(&self.ground);
            let problems = wire.problems.into_iter().map(|problem| problem.read(&sources)).collect::<Option<_>>()?;
            self.kept.find(*key);
            Some((*source, Found { problems, is_sound: wire.is_sound }))
        });
        known.collect()
    }

    /// Keeps what was found in the others.
    pub(super) fn keep(&mut self, loader: &Loader, found: &[(SourceId, Found)]) {
        if !self.kept.is_open() {
            return;
        }
        let since = loader.real_paths().filter(|(source, _)| self.ground.real(*source).is_none());
        let since = since.map(|(source, real)| (source, real.to_owned())).collect();
        self.ground.add(with_digests(loader, since));
        let keys: HashMap<SourceId, Digest> = self.files.iter().copied().collect();
        found.par_iter().for_each(|(source, found)| {
            let Some((footing, files)) = Footing::of(loader.project(), *source, &self.ground) else { return };
            let problems = found.problems.iter().map(|problem| WireProblem::of(problem, &files)).collect::<Option<_>>();
            let (Some(problems), Some(key)) = (problems, keys.get(source)) else { return };
            if let Ok(value) = serde_json::to_vec(&WireFound { footing, is_sound: found.is_sound, problems }) {
                self.kept.put(*key, value);
            }
        });
    }

    /// Writes down what is known now.
    pub(super) fn close(self) {
        self.kept.close();
    }
}

/// The key of what was found in a file: what it is called, where it lies, in which project, and its text.
fn key(name: &str, real: &Path, root: &Path, text: Digest) -> Digest {
    let mut key = Digesting::of("checked file");
    key.put(name.as_bytes()).put(real.as_os_str().as_encoded_bytes()).put(root.as_os_str().as_encoded_bytes());
    key.put(text.bytes());
    key.digest()
}

fn with_digests(loader: &Loader, files: Vec<(SourceId, PathBuf)>) -> Vec<(SourceId, PathBuf, Digest)> {
    let sources = &loader.project().sources;
    let digested = files.into_par_iter().filter_map(|(source, real)| {
        let text = Digest::of(sources.get(source)?.text.as_bytes());
        Some((source, real, text))
    });
    digested.collect()
}

impl WireProblem {
    /// `None` for a problem that cannot be told apart from its run.
    fn of(problem: &Diagnostic, files: &[SourceId]) -> Option<WireProblem> {
        let span = |span: Span| {
            let file = files.iter().position(|file| *file == span.source)?;
            Some((file, span.start, span.end))
        };
        let mend = match &problem.mend {
            Some(mend) => Some(WireMend {
                title: mend.title.clone(),
                edits: mend
                    .edits
                    .iter()
                    .map(|edit| Some((span(edit.span)?, edit.text.clone())))
                    .collect::<Option<_>>()?,
                certain: mend.certain,
            }),
            None => None,
        };
        Some(WireProblem {
            check: problem.check.to_owned(),
            severity: u8::try_from(SEVERITIES.iter().position(|severity| *severity == problem.severity)?).ok()?,
            message: problem.message.clone(),
            span: span(problem.span)?,
            label: problem.label.clone(),
            also: problem
                .also
                .iter()
                .map(|label| Some((span(label.span)?, label.text.clone())))
                .collect::<Option<_>>()?,
            help: problem.help.clone(),
            mend,
            only: problem.only.clone(),
        })
    }

    /// The problem in this run; `None` where it shows a place in a file that is not among those that are checked, since such a file is
    /// called by whoever uses it first.
    fn read(self, sources: &[Option<SourceId>]) -> Option<Diagnostic> {
        let span = |(file, start, end): WireSpan| Some(Span { source: (*sources.get(file)?)?, start, end });
        let label = |(place, text)| Some(Label { span: span(place)?, text });
        let edit = |(place, text)| Some(Edit { span: span(place)?, text });
        let mend = match self.mend {
            Some(mend) => Some(Mend {
                title: mend.title,
                edits: mend.edits.into_iter().map(edit).collect::<Option<_>>()?,
                certain: mend.certain,
            }),
            None => None,
        };
        Some(Diagnostic {
            check: check::find(&self.check)?.name,
            severity: *SEVERITIES.get(usize::from(self.severity))?,
            message: self.message,
            span: span(self.span)?,
            label: self.label,
            also: self.also.into_iter().map(label).collect::<Option<_>>()?,
            help: self.help,
            mend,
            // Only an editor offers it, and an editor keeps nothing.
            other_mend: None,
            only: self.only,
        })
    }
}
