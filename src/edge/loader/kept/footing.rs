//! What was found out of a file stands on that file and on all that it uses. Whether they are as they were is asked without reading a
//! tree of any of them: their bytes, where each path that is written in them leads, and which pictures are there.

use super::super::opened::read_real;
use super::super::pictures::kind_of_picture;
use super::super::{folder_of, root_of};
use super::Digest;
use crate::check::reachable;
use crate::language::syntax::{Content, FileKind};
use crate::model::project::{File, Project};
use crate::model::published::PictureKind;
use crate::solve::resolve::DEEPEST_USE;
use crate::text::source::SourceId;
use serde::{Deserialize, Serialize};
use std::collections::HashMap;
use std::fs;
use std::hash::Hash;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

/// A file and all that it uses, as they were: itself first. Each of their paths led to a file.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Footing {
    files: Vec<Foot>,
}

#[derive(Debug, Clone, Serialize, Deserialize)]
struct Foot {
    /// Its path without links.
    real: String,
    /// The digest of its text.
    text: String,
    /// The paths that are written in it, and the number of the file that each leads to.
    uses: Vec<(String, usize)>,
    pictures: Vec<Picture>,
}

#[derive(Debug, Clone, Serialize, Deserialize)]
struct Picture {
    written: String,
    real: String,
    is_png: bool,
}

impl Footing {
    /// What a file of a project stands on; `None` where that cannot be told, as of a path that leads nowhere, since a file may
    /// come to lie there, or of a log, to which git has a say.
    pub fn of(project: &Project, source: SourceId, ground: &Ground) -> Option<(Footing, Vec<SourceId>)> {
        let reached = reachable(project, source);
        // How deep files lie depends on the way on which they were reached.
        if reached.len() > DEEPEST_USE {
            return None;
        }
        let root = ground.root(ground.real(reached.first().copied()?)?);
        let mut files = Vec::with_capacity(reached.len());
        for source in &reached {
            let (file, real) = (project.file(*source)?, ground.real(*source)?);
            let foot = Foot::of(project, file, &reached, (real, ground.of_text(real)?))?;
            // Outside the own project it was found only because another file led there first.
            if !real.starts_with(&root)
                || !foot.pictures.iter().all(|picture| Path::new(&picture.real).starts_with(&root))
            {
                return None;
            }
            // What a path may lead to hangs on the project of the file by which it was reached.
            if !foot.leads_nowhere() && ground.root(real) != root {
                return None;
            }
            files.push(foot);
        }
        Some((Footing { files }, reached))
    }

    /// Whether all that a file stands on is as it was. Its own text is not asked for.
    pub fn holds(&self, ground: &Ground) -> bool {
        let Some(root) = self.files.first().map(|own| ground.root(Path::new(&own.real))) else { return false };
        self.files.iter().enumerate().all(|(number, foot)| {
            let real = Path::new(&foot.real);
            let is_same = || ground.of_text(real).is_some_and(|text| text.hex() == foot.text);
            let leads = |(written, target): &(String, usize)| {
                let target = self.files.get(*target).map(|target| target.real.as_str());
                ground.leads_to(real, written).is_some_and(|led| led.to_str() == target)
            };
            let is_shown = |picture: &Picture| {
                let found = ground.leads_to(real, &picture.written);
                let found = found.filter(|found| found.to_str() == Some(picture.real.as_str()));
                found.and_then(|found| ground.picture(&found)) == Some(kind_of(picture))
            };
            (number == 0 || is_same())
                && (number == 0 || foot.leads_nowhere() || ground.root(real) == root)
                && foot.uses.iter().all(leads)
                && foot.pictures.iter().all(is_shown)
        })
    }

    /// The numbers that its files have in this run; those that were not asked for have none.
    pub fn sources(&self, ground: &Ground) -> Vec<Option<SourceId>> {
        self.files.iter().map(|foot| ground.texts.get(Path::new(&foot.real)).map(|(source, _)| *source)).collect()
    }
}

impl Foot {
    fn of(project: &Project, file: &File, reached: &[SourceId], (real, text): (&Path, Digest)) -> Option<Foot> {
        if file.tree.kind == FileKind::Bakes {
            return None;
        }
        let (mut uses, mut pictures) = (Vec::new(), Vec::new());
        for line in &file.tree.lines {
            match &line.content {
                Content::Stock(_) => return None,
                Content::Picture(picture) if picture.words.is_some() => {
                    let found = project.picture(picture.path.span)?;
                    pictures.push(Picture {
                        written: picture.path.value.clone(),
                        real: found.path.to_str()?.to_owned(),
                        is_png: found.kind == PictureKind::Png,
                    });
                }
                content => {
                    if let Some(path) = content.path() {
                        let target = project.target(path.span)?;
                        uses.push((path.value.clone(), reached.iter().position(|reached| *reached == target)?));
                    }
                }
            }
        }
        Some(Foot { real: real.to_str()?.to_owned(), text: text.hex(), uses, pictures })
    }

    fn leads_nowhere(&self) -> bool {
        self.uses.is_empty() && self.pictures.is_empty()
    }
}

fn kind_of(picture: &Picture) -> PictureKind {
    if picture.is_png { PictureKind::Png } else { PictureKind::Jpeg }
}

/// What lies on the disk in this run, each thing asked for once.
#[derive(Debug, Default)]
pub struct Ground {
    /// The texts that were read, by their paths without links.
    texts: HashMap<PathBuf, (SourceId, Digest)>,
    reals: HashMap<SourceId, PathBuf>,
    others: Asked<PathBuf, Option<Digest>>,
    led: Asked<PathBuf, Option<PathBuf>>,
    roots: Asked<PathBuf, PathBuf>,
    pictures: Asked<PathBuf, Option<PictureKind>>,
}

impl Ground {
    /// With the texts that were read.
    pub fn new(texts: impl IntoIterator<Item = (SourceId, PathBuf, Digest)>) -> Ground {
        let mut ground = Ground::default();
        ground.add(texts);
        ground
    }

    /// Takes in texts that were read since.
    pub fn add(&mut self, texts: impl IntoIterator<Item = (SourceId, PathBuf, Digest)>) {
        for (source, real, text) in texts {
            self.reals.insert(source, real.clone());
            self.texts.insert(real, (source, text));
        }
    }

    /// The texts that were read, each with its path without links and its digest.
    pub fn texts(&self) -> impl Iterator<Item = (SourceId, &Path, Digest)> {
        self.texts.iter().map(|(real, (source, text))| (*source, real.as_path(), *text))
    }

    /// The path without links of a text that was read.
    pub fn real(&self, source: SourceId) -> Option<&Path> {
        self.reals.get(&source).map(PathBuf::as_path)
    }

    /// The root of the project in which a file lies.
    pub fn root(&self, real: &Path) -> PathBuf {
        self.roots.or_ask(folder_of(real).to_owned(), |_| root_of(real))
    }

    /// The digest of a text.
    fn of_text(&self, real: &Path) -> Option<Digest> {
        if let Some((_, text)) = self.texts.get(real) {
            return Some(*text);
        }
        self.others.or_ask(real.to_owned(), |real| read_real(real).ok().map(|text| Digest::of(text.as_bytes())))
    }

    /// Where a path leads that is written in a file.
    fn leads_to(&self, from: &Path, written: &str) -> Option<PathBuf> {
        self.led.or_ask(folder_of(from).join(written), |path| fs::canonicalize(path).ok())
    }

    fn picture(&self, real: &Path) -> Option<PictureKind> {
        self.pictures.or_ask(real.to_owned(), |real| kind_of_picture(real))
    }
}

/// Answers that were given in this run.
#[derive(Debug)]
struct Asked<Q, A>(Mutex<HashMap<Q, A>>);

impl<Q, A> Default for Asked<Q, A> {
    fn default() -> Asked<Q, A> {
        Asked(Mutex::default())
    }
}

impl<Q: Eq + Hash, A: Clone> Asked<Q, A> {
    fn or_ask(&self, question: Q, ask: impl FnOnce(&Q) -> A) -> A {
        let known = |answers: &HashMap<Q, A>| answers.get(&question).cloned();
        if let Some(answer) = known(&self.0.lock().unwrap_or_else(PoisonError::into_inner)) {
            return answer;
        }
        let answer = ask(&question);
        self.0.lock().unwrap_or_else(PoisonError::into_inner).insert(question, answer.clone());
        answer
    }
}
