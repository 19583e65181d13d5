//! A file and all that it uses, as a key for what is found out of them.

use super::{Digest, Digesting};
use crate::check::reachable;
use crate::language::syntax::Content;
use crate::model::project::Project;
use crate::text::source::SourceId;
use rayon::prelude::*;
use std::collections::{HashMap, HashSet};

/// A file and all that it uses.
#[derive(Debug, Clone)]
pub struct Uses {
    /// The files, the one that was asked for first.
    pub files: Vec<SourceId>,
    /// Of everything that stands in them, of how they were found, and of what was wrong in reading them. Of pictures only whether
    /// they are there and of which kind: their bytes are not read here.
    pub digest: Digest,
}

/// Some files with all that each uses, in their order.
pub fn uses(project: &Project, sources: &[SourceId]) -> Vec<Uses> {
    let reached: Vec<Vec<SourceId>> = sources.par_iter().map(|source| reachable(project, *source)).collect();
    let all: HashSet<SourceId> = reached.iter().flatten().copied().collect();
    let digests: HashMap<SourceId, Digest> =
        all.par_iter().map(|source| (*source, of_file(project, *source))).collect();
    reached.into_iter().map(|files| Uses { digest: of_all(project, &files, &digests), files }).collect()
}

/// A file by itself.
fn of_file(project: &Project, source: SourceId) -> Digest {
    let mut digest = Digesting::of("file");
    if let Some(text) = project.sources.get(source) {
        digest.put(text.name.as_bytes()).put(text.text.as_bytes());
    }
    let Some(file) = project.file(source) else { return digest.digest() };
    digest.put_number(file.diagnostics.len());
    for problem in &file.diagnostics {
        digest.put(problem.check.as_bytes()).put(problem.message.as_bytes()).put_value(&problem.severity);
        digest.put_value(&(problem.span.start, problem.span.end));
    }
    for line in &file.tree.lines {
        match &line.content {
            Content::Picture(picture) => {
                digest.put_value(&project.picture(picture.path.span).map(|file| file.kind));
            }
            Content::Stock(path) => {
                digest.put_value(&project.stock(path.span));
            }
            _ => {}
        }
    }
    digest.digest()
}

/// Files and which path of each leads to which.
fn of_all(project: &Project, files: &[SourceId], digests: &HashMap<SourceId, Digest>) -> Digest {
    let mut digest = Digesting::of("uses");
    digest.put_number(files.len());
    for source in files {
        if let Some(of_file) = digests.get(source) {
            digest.put(of_file.bytes());
        }
        let lines = project.file(*source).map_or(&[][..], |file| &file.tree.lines);
        for path in lines.iter().filter_map(|line| line.content.path()) {
            let target = project.target(path.span);
            digest.put_value(&target.and_then(|target| files.iter().position(|file| *file == target)));
        }
    }
    digest.digest()
}
