//! `miche setup git`: makes git show and merge formulas as formulas, in one repository.

use crate::edge::cli::Outcome;
use crate::edge::cli::output::Output;
use crate::edge::cli::stop::Ended;
use crate::edge::loader::{read_text, reason, write_over, write_whole};
use crate::edge::past::checkout::{git, top_of};
use crate::out::report::clean;
use crate::text::line_break;
use clap::Args;
use std::path::{Path, PathBuf};

/// The line that says what is done with which files. It stands among the repository's own settings and not in a
/// `.gitattributes` that all who clone it would get: they may not have this program.
const ATTRIBUTES: &str = "*.miche diff=miche merge=miche";

/// Names and values of the settings.
const SETTINGS: &[(&str, &str)] = &[
    ("diff.miche.command", "miche diff --git --"),
    ("diff.miche.textconv", "miche diff --textconv --"),
    ("merge.miche.name", "formulas, line by line"),
    ("merge.miche.driver", "miche merge --path=%P -- %O %A %B"),
];

/// The check before a commit. It looks at what is committed and not at what lies in the folder by then: the formulas of the
/// index are put into a folder of their own, which stands for the repository, with all that they may name: pictures, lists of stock. With a
/// formula that goes away those are looked at that say its name.
const HOOK: &str = r#"#!/bin/sh
# Written by `miche setup git --pre-commit`: no formula with an error is committed.
folder=$(mktemp -d) || exit 1
trap 'rm -rf "$folder"' EXIT
mkdir "$folder/.git" || exit 1
git checkout-index -a -q --prefix="$folder/" || exit 1
against=$(git rev-parse --verify --quiet HEAD || git hash-object -t tree /dev/null)
git diff --cached --name-only --no-renames --diff-filter=ACMT -z "$against" -- '*.miche' '*.bakes' > "$folder/.git/names"
git diff --cached --name-only --no-renames --diff-filter=D -z "$against" |
    xargs -0 -n 1 sh -c 'test -z "$1" || git grep --cached -l -z -F -e "${1##*/}" -- "*.miche" "*.bakes"' sh >> "$folder/.git/names"
cd "$folder" && test ! -s .git/names || xargs -0 miche check -- < .git/names
"#;

/// The hooks in which it stands: git asks the second before it commits a merge that needed nobody.
const HOOKS: &[&str] = &["pre-commit", "pre-merge-commit"];

/// What `setup git` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// Also check the formulas of each commit before it is made, and refuse one with an error
    #[arg(long, conflicts_with = "undo")]
    pre_commit: bool,
    /// Take the settings out again
    #[arg(long)]
    undo: bool,
    /// Show what would be written and write nothing
    #[arg(long)]
    dry_run: bool,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Ended {
    set_up(arguments, output)?;
    Ok(Outcome::Fine)
}

fn set_up(arguments: &Arguments, output: &mut Output) -> Result<(), String> {
    let top = top_of(Path::new(".")).map_err(|none| none.of("this folder"))?;
    let attributes = git(&top, &["rev-parse", "--git-path", "info/attributes"])?;
    let attributes = top.join(attributes.trim_end_matches('\n'));
    let verb = if arguments.undo { "takes out of" } else { "writes into" };
    output.print(&format!("{verb} {}:\n    {ATTRIBUTES}\n", clean(&attributes.display().to_string())));
    output.print(&format!("{verb} the settings of this repository (git config --local):\n"));
    for (name, value) in settings() {
        output.print(&format!("    {name} = {value}\n"));
    }
    let hooks = git(&top, &["rev-parse", "--git-path", "hooks"])?;
    // A value that cannot be read is not there.
    let elsewhere = git(&top, &["config", "--get", "core.hooksPath"]).is_ok_and(|path| !path.trim().is_empty());
    let hooks = Hooks { folder: top.join(hooks.trim_end_matches('\n')), own: !elsewhere };
    if arguments.pre_commit {
        output.print(&format!("{verb} {}: {}\n", hooks.shown(), HOOKS.join(", ")));
        hooks.are_free()?;
    }
    if !arguments.undo {
        settings().try_for_each(|(name, value)| is_free(&top, name, value))?;
        for what in said_before(&top)? {
            output.tell(&what);
        }
        if !is_found() {
            output.tell(
                "git will not find `miche`: the folder in which it lies is not in PATH; put it there before the next `git diff` or \
                 `git merge`, which else end with an error, the merge with our side alone in the file",
            );
        }
    }
    if arguments.dry_run {
        output.print("Nothing was changed.\n");
        return Ok(());
    }
    write_attributes(&attributes, arguments.undo)?;
    for (name, value) in settings() {
        if !arguments.undo {
            git(&top, &["config", "--local", "--replace-all", name, value])?;
        } else if is_free(&top, name, value).is_ok() && git(&top, &["config", "--local", "--get-all", name]).is_ok() {
            git(&top, &["config", "--local", "--unset-all", name])?;
        }
    }
    if arguments.undo {
        return hooks.take_out(output);
    }
    if arguments.pre_commit {
        return hooks.write();
    }
    if !hooks.are_ours() {
        output.print("To have formulas checked before each commit too: miche setup git --pre-commit\n");
    }
    Ok(())
}

/// Whether a command named as this program is found where commands are looked for.
fn is_found() -> bool {
    let name = format!("miche{}", std::env::consts::EXE_SUFFIX);
    std::env::var_os("PATH").is_some_and(|path| std::env::split_paths(&path).any(|folder| folder.join(&name).is_file()))
}

/// Whether a setting is not there, or is to the letter what is written here: nobody's own is written over or taken out.
fn is_free(top: &Path, name: &str, own: &str) -> Result<(), String> {
    let there = git(top, &["config", "--local", "--get-all", name]).unwrap_or_default();
    match there.lines().find(|value| *value != own) {
        Some(value) => Err(format!(
            "`{name}` is set already, to `{}`; to have ours, take it out first: git config --local --unset-all {name}",
            clean(value)
        )),
        None => Ok(()),
    }
}

/// What the repository's own attributes say so far of formulas, and that ours now stands before it: nothing of it is written
/// over, and with ours taken out again it holds as before.
fn said_before(top: &Path) -> Result<Vec<String>, String> {
    // In a folder below, attributes may say something else than at the top.
    let known = git(top, &["ls-files", "-z", "--", "*.miche"])?;
    let names = std::iter::once("new.miche").chain(known.split('\0').filter(|name| !name.is_empty()));
    let mut found: Vec<String> = Vec::new();
    for names in names.collect::<Vec<_>>().chunks(200) {
        let asked = [&["check-attr", "-z", "diff", "merge", "--"][..], names].concat();
        let answered = git(top, &asked)?;
        let fields: Vec<&str> = answered.split('\0').collect();
        for field in fields.chunks_exact(3) {
            let [name, attribute, value] = field else { continue };
            if found.len() < SHOWN && !matches!(*value, "unspecified" | "miche") {
                found.push(format!(
                    "an attribute of this repository says `{attribute}: {value}` of {}; in this clone `{attribute}=miche` now \
                     stands before it, until `miche setup git --undo`",
                    clean(name)
                ));
            }
        }
    }
    Ok(found)
}

/// Of so many files it is told what attributes said of them.
const SHOWN: usize = 6;

/// Where git looks for its hooks.
struct Hooks {
    folder: PathBuf,
    /// Whether they are this repository's alone.
    own: bool,
}

impl Hooks {
    fn shown(&self) -> String {
        clean(&self.folder.display().to_string()).into_owned()
    }

    fn paths(&self) -> impl Iterator<Item = PathBuf> + '_ {
        HOOKS.iter().map(|name| self.folder.join(name))
    }

    /// Nobody's hook is written over, and none is written where it would be others' too.
    fn are_free(&self) -> Result<(), String> {
        if !self.own {
            return Err(format!(
                "`core.hooksPath` has git look for hooks in {}, which are not this clone's alone; put `miche check` into \
                 the `pre-commit` there yourself",
                self.shown()
            ));
        }
        match self.paths().find(|path| path.symlink_metadata().is_ok() && !is_ours(path)) {
            Some(taken) => {
                let taken = taken.display().to_string();
                Err(format!("there is a hook already: {}; put `miche check` into it yourself", clean(&taken)))
            }
            None => Ok(()),
        }
    }

    fn are_ours(&self) -> bool {
        self.paths().all(|path| is_ours(&path))
    }

    fn write(&self) -> Result<(), String> {
        std::fs::create_dir_all(&self.folder).map_err(|error| format!("{}: {}", self.shown(), reason(&error)))?;
        for path in self.paths() {
            let trouble = |error: std::io::Error| format!("{}: {}", path.display(), reason(&error));
            write_whole(&path, HOOK.as_bytes()).map_err(trouble)?;
            let_run(&path).map_err(trouble)?;
        }
        Ok(())
    }

    fn take_out(&self, output: &Output) -> Result<(), String> {
        for path in self.paths() {
            let shown = path.display().to_string();
            if self.own && is_ours(&path) {
                std::fs::remove_file(&path).map_err(|error| format!("{shown}: {}", reason(&error)))?;
                output.tell(&format!("{} is taken out", clean(&shown)));
            } else if read_text(&path).is_ok_and(|text| text.contains("miche check")) {
                output.tell(&format!("{} stays: it holds more than was written here", clean(&shown)));
            }
        }
        Ok(())
    }
}

/// Whether a hook is to the byte what is written here: one to which somebody has added a line is theirs. A link is, too,
/// wherever it leads.
fn is_ours(path: &Path) -> bool {
    path.symlink_metadata().is_ok_and(|there| there.is_file())
        && std::fs::read_to_string(path).is_ok_and(|text| text == HOOK)
}

/// Git runs only hooks that may be run.
#[cfg(unix)]
fn let_run(path: &Path) -> std::io::Result<()> {
    use std::os::unix::fs::PermissionsExt;
    std::fs::set_permissions(path, std::fs::Permissions::from_mode(0o755))
}

/// There are no such rights here.
#[cfg(not(unix))]
fn let_run(_: &Path) -> std::io::Result<()> {
    Ok(())
}

fn settings() -> impl Iterator<Item = (&'static str, &'static str)> {
    SETTINGS.iter().copied()
}

/// Puts our line into the attributes or takes it out; all other lines stay.
fn write_attributes(path: &Path, undo: bool) -> Result<(), String> {
    let before = if path.exists() { read_text(path).map_err(|error| error.to_string())? } else { String::new() };
    let mut text: String = line_break::lines(&before).filter(|line| line.trim() != ATTRIBUTES).collect();
    if !undo {
        if !text.is_empty() && !text.ends_with(['\n', '\r']) {
            text.push('\n');
        }
        text.push_str(ATTRIBUTES);
        text.push('\n');
    }
    if text == before {
        return Ok(());
    }
    let trouble = |error: std::io::Error| format!("{}: {}", path.display(), reason(&error));
    if let Some(folder) = path.parent() {
        std::fs::create_dir_all(folder).map_err(trouble)?;
    }
    if path.exists() {
        return write_over(path, &before, &text).map_err(trouble);
    }
    write_whole(path, text.as_bytes()).map_err(trouble)
}
