//! The only place that reads and writes files.

use crate::language::parse::parse;
use crate::language::syntax::{Content, FileKind, Key, Tree};
use crate::make::have::There;
use crate::make::stock;
use crate::measure::temperature::TemperatureDifference;
use crate::model::project::{File, Project};
use crate::solve::resolve::{DEEPEST_USE, too_deep};
use crate::text::diagnostic::Diagnostic;
use crate::text::quick::{QuickMap, QuickSet};
use crate::text::source::{SourceId, Span};
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

mod ahead;
mod cache;
mod folder;
mod kept;
mod leftover;
mod links;
mod logs;
mod named_by;
mod near;
mod opened;
mod pictures;
mod walk;
mod write;

pub use cache::Cache;
pub use folder::{Filled, NewFolder};
pub use kept::{Digest, Digesting, Footing, Ground, Kept, Uses, uses};
pub(crate) use leftover::{process_lives, temporary_folder};
pub use links::{folder_of, real_path};
pub use logs::{ReadLog, recipe_of_log};
use named_by::NamedBy;
use near::{near_file, unreadable};
pub use opened::{LARGEST_FILE, read_bytes, was_read};
use opened::{read_file, read_input, read_real};
pub use pictures::read_picture;
pub use walk::{Found, find_files, find_logs, is_log, is_ours, look_through, nothing_in};
pub use write::{reason_to_write, write_new, write_output, write_over, write_whole};

/// Beyond so many files that are not there, no near name is looked for.
const MOST_LOOKED_FOR: usize = 100;

/// Why a file named on the command line cannot be read.
#[derive(Debug)]
pub struct Unreadable {
    /// The path as it was given.
    pub path: String,
    /// In plain words.
    pub why: String,
}

impl std::fmt::Display for Unreadable {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}: {}", self.path, self.why)
    }
}

impl std::error::Error for Unreadable {}

/// Reads files, follows their uses, and remembers what it has read.
#[derive(Debug, Default)]
pub struct Loader {
    project: Project,
    known: QuickMap<PathBuf, SourceId>,
    /// The one path of each path that was asked for, since thousands of recipes may use one larder.
    reals: QuickMap<PathBuf, PathBuf>,
    /// Files that were read ahead and whose uses were not followed yet.
    ahead: QuickMap<PathBuf, ReadAhead>,
    /// Files of which only the text was read ahead: how each is shown, and the number of its text.
    unparsed: QuickMap<PathBuf, (String, SourceId)>,
    /// The files to which others lead.
    led_to: QuickSet<SourceId>,
    /// Files of which the trees are not held any more, and what was wrong in reading them.
    let_go: QuickMap<SourceId, Vec<Diagnostic>>,
    /// The root of each folder that was asked for.
    roots: QuickMap<PathBuf, PathBuf>,
    /// Nothing outside this folder is read, wherever links lead.
    within: Option<PathBuf>,
    /// Whether pictures are left unseen.
    without_pictures: bool,
    /// For how many files that are not there a near name was looked for.
    looked_for: usize,
    /// For an editor: what it has open, and what was read before.
    cache: Option<Cache>,
}

/// A file that was read and parsed, its text already among the sources.
#[derive(Debug)]
struct ReadAhead {
    shown: String,
    tree: Arc<Tree>,
    diagnostics: Vec<Diagnostic>,
}

/// A file whose uses are being followed, innermost last.
struct Following {
    chain: Vec<Open>,
    root: PathBuf,
}

/// A file whose uses are being followed, and which of them just now.
struct Open {
    path: PathBuf,
    using: Option<Span>,
}

impl Loader {
    /// A loader that has read nothing.
    pub fn new() -> Loader {
        Loader::default()
    }

    /// A loader that reads nothing outside a folder, which is named without links.
    pub(crate) fn within(root: &Path) -> Loader {
        Loader { within: Some(root.to_owned()), ..Loader::default() }
    }

    /// A loader that looks at no picture, for versions of a file that are compared: what an older one, or one side of a merge, was
    /// taken out of a repository for is its formula, and its pictures do not come with it.
    pub fn without_pictures() -> Loader {
        Loader { without_pictures: true, ..Loader::default() }
    }

    /// A loader that takes what a cache holds, and reads only the rest.
    pub fn on(cache: Cache) -> Loader {
        let mut project = Project::default();
        project.sources = cache.sources().clone();
        Loader { project, cache: Some(cache), ..Loader::default() }
    }

    /// Notes in all that is read how the equipment of a home warms a dough, as it was measured.
    pub fn put_friction_at_home(&mut self, equipment: &Key, warms: TemperatureDifference) {
        self.project.put_friction_at_home(equipment, warms);
    }

    /// Everything that was read, and the cache with it.
    pub fn into_parts(self) -> (Project, Cache) {
        (self.project, self.cache.unwrap_or_default())
    }

    /// Everything that was read.
    pub fn into_project(self) -> Project {
        self.project
    }

    /// Everything that was read so far.
    pub fn project(&self) -> &Project {
        &self.project
    }

    /// Reads a file that was named on the command line; `-` is standard input.
    ///
    /// # Errors
    /// When it cannot be read at all: not there, a folder, too large, not UTF-8.
    pub fn load(&mut self, path: &Path) -> Result<SourceId, Unreadable> {
        self.load_as(path, &path.display().to_string())
    }

    /// As [`Loader::load`], under another name in problems.
    ///
    /// # Errors
    /// As [`Loader::load`].
    pub fn load_as(&mut self, path: &Path, shown: &str) -> Result<SourceId, Unreadable> {
        let shown = shown.to_owned();
        if path == Path::new("-") {
            let text = read_input().map_err(|why| Unreadable { path: "standard input".to_owned(), why })?;
            // Uses are relative to where the program was started.
            let here = PathBuf::from("./standard input");
            return Ok(self.take_text("standard input", text, &here));
        }
        let real = self.real(path).map_err(|error| unreadable(path, &shown, &error))?;
        if let Some(known) = self.known.get(&real) {
            return Ok(*known);
        }
        if let Some(read) = self.was_ahead(&real) {
            let mut following = Following { chain: Vec::new(), root: self.root_of(&real) };
            return Ok(self.take(read, &real, &mut following));
        }
        let read = self.fetch(&real, &shown).map_err(|why| Unreadable { path: shown.clone(), why })?;
        let mut following = Following { chain: Vec::new(), root: self.root_of(&real) };
        Ok(self.take(read, &real, &mut following))
    }

    /// The one path of a file. A file that was never saved has its own.
    fn real(&mut self, path: &Path) -> io::Result<PathBuf> {
        if let Some(known) = self.reals.get(path) {
            return Ok(known.clone());
        }
        let found = real_within(path, self.within.as_deref());
        if let Ok(real) = &found {
            self.reals.insert(path.to_owned(), real.clone());
        }
        match &self.cache {
            Some(cache) if found.is_err() => cache.open_path(path).map_or(found, Ok),
            _ => found,
        }
    }

    /// Reads and parses one file, or takes it from the cache.
    fn fetch(&mut self, real: &Path, shown: &str) -> Result<ReadAhead, String> {
        if let Some(cache) = &mut self.cache {
            let (tree, diagnostics) = cache.take(real, shown, &mut self.project.sources)?;
            return Ok(ReadAhead { shown: shown.to_owned(), tree, diagnostics });
        }
        let text = read_real(real)?;
        Ok(self.read_in(shown, text))
    }

    /// Takes a text among the sources and parses it.
    fn read_in(&mut self, shown: &str, text: String) -> ReadAhead {
        let source = self.project.sources.add(shown, text);
        self.parsed(shown, source)
    }

    /// Parses a text that is among the sources.
    fn parsed(&self, shown: &str, source: SourceId) -> ReadAhead {
        let (tree, diagnostics) = parse(source, self.project.sources.get(source).map_or("", |source| &source.text));
        ReadAhead { shown: shown.to_owned(), tree: tree.into(), diagnostics }
    }

    /// Takes in a text as if it stood at `place`, and follows its uses.
    pub fn take_text(&mut self, shown: &str, text: String, place: &Path) -> SourceId {
        let read = self.read_in(shown, text);
        let mut following = Following { chain: Vec::new(), root: self.root_of(place) };
        self.take(read, place, &mut following)
    }

    fn take(&mut self, read: ReadAhead, place: &Path, following: &mut Following) -> SourceId {
        let ReadAhead { shown, tree, diagnostics } = read;
        let source = tree.source;
        self.known.insert(place.to_owned(), source);
        let links: Vec<(Span, String)> = tree
            .lines
            .iter()
            .filter_map(|line| line.content.path())
            .map(|path| (path.span, path.value.clone()))
            .collect();
        let stocks: Vec<(Span, String)> = tree
            .lines
            .iter()
            .filter_map(|line| match &line.content {
                Content::Stock(path) => Some((path.span, path.value.clone())),
                _ => None,
            })
            .collect();
        let kind = tree.kind;
        self.project.add(File { tree, diagnostics });
        for (span, written) in stocks {
            let read = self.read_stock(&written, place, span, &following.root);
            match (read, self.project.file_mut(source)) {
                (Ok(stock), _) => self.project.put_stock(span, stock),
                (Err(problem), Some(file)) => file.diagnostics.push(*problem),
                (Err(_), None) => {}
            }
        }
        self.look_at_pictures(source, place, &following.root);
        following.chain.push(Open { path: place.to_owned(), using: None });
        for (span, written) in links {
            if let Some(open) = following.chain.last_mut() {
                open.using = Some(span);
            }
            match self.follow(&written, place, &shown, span, kind, following) {
                Ok(target) => {
                    self.led(target);
                    self.project.link(span, target);
                }
                Err(problem) => {
                    if let Some(file) = self.project.file_mut(source) {
                        file.diagnostics.push(*problem);
                    }
                }
            }
        }
        following.chain.pop();
        source
    }

    /// The file behind a path that is written in another file.
    fn locate(
        &mut self,
        (written, span, by): (&str, Span, NamedBy),
        from: &Path,
        root: &Path,
    ) -> Result<PathBuf, Box<Diagnostic>> {
        let folder = folder_of(from);
        let missing =
            |why: &str| Diagnostic::error(by.check(), span, format!("`{written}` cannot be {}: {why}", by.done()));
        if written.trim().is_empty() {
            let (words, ending) = (by.words(), by.endings().first().copied().unwrap_or_default());
            return Err(Box::new(missing("it names no file").help(format!("write `{words} \"path{ending}\"`"))));
        }
        if Path::new(written).is_absolute() {
            return Err(Box::new(
                Diagnostic::error("use-outside-root", span, format!("`{written}` is an absolute path"))
                    .help("write a path relative to this file, so that the folder can be moved and shared"),
            ));
        }
        let real = self.real(&folder.join(written)).map_err(|error| {
            let at = folder.join(written);
            let problem = missing(&reason_at(&at, &error));
            // Each look goes through the folder.
            self.looked_for += 1;
            let is_link = fs::symlink_metadata(&at).is_ok();
            let near = if self.looked_for <= MOST_LOOKED_FOR && !is_link { near_file(from, written, by) } else { None };
            Box::new(match near {
                Some(near) => problem.help(format!("did you mean `{near}`?")).suggest(
                    format!("write `{near}`"),
                    span,
                    format!("\"{near}\""),
                ),
                None => problem.help("paths are relative to the file they stand in"),
            })
        })?;
        if !real.starts_with(root) {
            return Err(Box::new(
                Diagnostic::error("use-outside-root", span, format!("`{written}` lies outside the project"))
                    .help(format!(
                        "files may be used from `{}` downward: the nearest folder above that holds a `.git`, else the file's own folder",
                        root.display()
                    )),
            ));
        }
        Ok(real)
    }

    /// The list of what there is behind a `stock` line.
    fn read_stock(
        &mut self,
        written: &str,
        from: &Path,
        span: Span,
        root: &Path,
    ) -> Result<Vec<There>, Box<Diagnostic>> {
        let real = self.locate((written, span, NamedBy::Stock), from, root)?;
        let text = read_real(&real)
            .map_err(|why| Diagnostic::error("missing-use", span, format!("`{written}` cannot be used: {why}")))?;
        stock::read(&text).map_err(|why| {
            Box::new(
                Diagnostic::error("stray-line", span, format!("`{written}`, {}", why.join("; ")))
                    .help("a list of what there is has lines like `strong white flour .... 2 kg` and comments"),
            )
        })
    }

    /// Finds and reads the file behind a `use` or `make`.
    fn follow(
        &mut self,
        written: &str,
        from: &Path,
        from_shown: &str,
        span: Span,
        from_kind: FileKind,
        following: &mut Following,
    ) -> Result<SourceId, Box<Diagnostic>> {
        let missing = |why: &str| Diagnostic::error("missing-use", span, format!("`{written}` cannot be used: {why}"));
        let real = self.locate((written, span, NamedBy::in_file(from_kind)), from, &following.root)?;
        if let Some(at) = following.chain.iter().position(|open| open.path == real) {
            return Err(Box::new(self.ring(following.chain.get(at..).unwrap_or_default(), span)));
        }
        if following.chain.len() > DEEPEST_USE {
            return Err(Box::new(too_deep(span)));
        }
        if let Some(known) = self.known.get(&real) {
            return Ok(*known);
        }
        if let Some(read) = self.was_ahead(&real) {
            return Ok(self.take(read, &real, following));
        }
        let shown =
            Path::new(from_shown).parent().map_or_else(|| PathBuf::from(written), |folder| folder.join(written));
        let shown = shown.display().to_string();
        let read = self.fetch(&real, &shown).map_err(|why| Box::new(missing(&why)))?;
        Ok(self.take(read, &real, following))
    }
}

impl Loader {
    /// The root of the project that a file is in. A folder's root is looked for once.
    fn root_of(&mut self, place: &Path) -> PathBuf {
        let folder = place.parent().unwrap_or(Path::new("")).to_owned();
        self.roots.entry(folder).or_insert_with(|| root_of(place)).clone()
    }

    /// Reports a ring in every file of it, at the line that leads on, and gives the problem of the line that closes it.
    ///
    /// Only one of the files may have been named on the command line.
    fn ring(&mut self, open: &[Open], closing: Span) -> Diagnostic {
        let mut names: Vec<String> = open.iter().map(|open| file_name(&open.path)).collect();
        names.extend(names.first().cloned());
        let problem = |span| {
            Diagnostic::error("use-ring", span, format!("these files use each other in a ring: {}", names.join(" → ")))
                .help("take one of the `use` lines out; move what both need into a third file")
        };
        for span in open.iter().filter_map(|open| open.using).filter(|span| *span != closing) {
            if let Some(file) = self.project.file_mut(span.source) {
                file.diagnostics.push(problem(span));
            }
        }
        problem(closing)
    }
}

/// The path without links, if it lies within a folder.
fn real_within(path: &Path, within: Option<&Path>) -> io::Result<PathBuf> {
    let real = fs::canonicalize(path).or_else(|error| match error.kind() {
        io::ErrorKind::NotFound => links::typed_otherwise(path).ok_or(error).and_then(fs::canonicalize),
        _ => Err(error),
    })?;
    let inside = within.is_none_or(|root| real.starts_with(root));
    if inside { Ok(real) } else { Err(io::ErrorKind::NotFound.into()) }
}

/// Reads one file without following its uses; `-` is standard input.
///
/// # Errors
/// When it cannot be read at all: not there, a folder, too large, not UTF-8.
pub fn read_text(path: &Path) -> Result<String, Unreadable> {
    if path == Path::new("-") {
        return read_input().map_err(|why| Unreadable { path: "standard input".to_owned(), why });
    }
    read_file(path).map_err(|why| Unreadable { path: path.display().to_string(), why })
}

/// The nearest folder above that holds a `.git`, else the file's own folder.
pub fn root_of(place: &Path) -> PathBuf {
    let folder = folder_of(place);
    let folder = real_path(folder);
    let root = folder.ancestors().find(|folder| folder.join(".git").exists()).map(Path::to_owned);
    root.unwrap_or(folder)
}

fn file_name(path: &Path) -> String {
    path.file_name().map_or_else(|| path.display().to_string(), |name| name.to_string_lossy().into_owned())
}

/// What went wrong, in plain words.
pub fn reason(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "there is no such file".to_owned(),
        io::ErrorKind::PermissionDenied => "reading it is not allowed".to_owned(),
        io::ErrorKind::IsADirectory => "it is a folder, not a file".to_owned(),
        io::ErrorKind::NotADirectory => "a folder on the way to it is a file".to_owned(),
        io::ErrorKind::AlreadyExists => "there is a file of that name already".to_owned(),
        io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded => "the disk is full".to_owned(),
        io::ErrorKind::ReadOnlyFilesystem => "nothing can be written on that disk".to_owned(),
        io::ErrorKind::InvalidFilename => "its name is too long, or cannot be a file's".to_owned(),
        io::ErrorKind::FileTooLarge => "it is too large for that disk".to_owned(),
        _ => error.to_string(),
    }
}

/// What went wrong at a path, in plain words: a link that leads nowhere is there itself.
pub(super) fn reason_at(path: &Path, error: &io::Error) -> String {
    let target = fs::read_link(path).ok();
    match (error.kind(), target) {
        (io::ErrorKind::NotFound, Some(target)) => {
            format!("it is a link to `{}`, and there is no such file", target.display())
        }
        // Nothing else is wrong with a link that is there and can be read as one.
        (io::ErrorKind::PermissionDenied, _) | (_, None) => reason(error),
        (io::ErrorKind::NotADirectory, _) => reason(error),
        (_, Some(_)) => "it is a link that leads back to itself".to_owned(),
    }
}

/// Whether there is anything at a path that was named on the command line.
///
/// # Errors
/// When there is not; with the nearest name of that folder, for a slip of the pen.
pub fn must_be_there(path: &Path) -> Result<(), Unreadable> {
    fs::metadata(path).map(|_| ()).map_err(|error| unreadable(path, &path.display().to_string(), &error))
}
