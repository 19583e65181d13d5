//! `miche book`: a book of recipes for readers, as a static site, a booklet or an electronic book.

mod bound;
mod changed;
mod dates;
mod kept;
mod read;
mod site;

use super::output::Output;
use super::stop::{Ended, Stop};
use crate::edge::loader::Kept;
use clap::Args;
use read::ReadBook;
use std::path::{Path, PathBuf};

/// What `book` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// A book; or a folder: the book in it, else all its recipes in the order of the alphabet
    #[arg(value_name = "BOOK")]
    file: PathBuf,
    /// Where to: a folder for a site, or a file that ends in `.pdf` or `.epub`
    #[arg(short, long, value_name = "PATH")]
    output: PathBuf,
    /// For a site of more than 200 recipes: write the batch card of each as a PDF too, which takes most of the time
    #[arg(long)]
    cards: bool,
    /// For a site: work out every recipe anew, and read and write nothing in the cache folder
    #[arg(long)]
    no_cache: bool,
    #[command(flatten)]
    binding: bound::Binding,
}

/// What is made of a book.
enum As {
    /// A static site, in a folder.
    Site,
    /// A booklet to print.
    Booklet,
    /// An electronic book.
    Epub,
}

/// Endings that are those of files, and of none that a book is made into.
const OTHER_FILES: &[&str] =
    &["azw3", "csv", "docx", "htm", "html", "ics", "json", "md", "miche", "mobi", "odt", "txt", "zip"];

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Ended {
    let made_as = kind_of(&arguments.output)?;
    arguments.binding.fits(matches!(made_as, As::Booklet), matches!(made_as, As::Site))?;
    if arguments.cards && !matches!(made_as, As::Site) {
        return Err("--cards is for a site: name a folder".into());
    }
    let read = ReadBook::of(&arguments.file)?;
    match made_as {
        As::Site => {
            let kept = if !arguments.no_cache { Kept::about("book", &arguments.file) } else { Kept::default() };
            site::write(&read, kept, &arguments.output, arguments.cards, output)
        }
        As::Booklet => bound::booklet(&read, &arguments.binding, &arguments.output, output),
        As::Epub => bound::epub(&read, &arguments.binding, &arguments.output, output),
    }
}

/// What is to be made, by the path's ending.
fn kind_of(path: &Path) -> Result<As, Stop> {
    let ending = path.extension().and_then(|ending| ending.to_str()).map(str::to_ascii_lowercase).unwrap_or_default();
    match ending.as_str() {
        "pdf" => Ok(As::Booklet),
        "epub" => Ok(As::Epub),
        other if OTHER_FILES.contains(&other) => Err(format!(
            "{}: a book is made into a folder for a site, or into a file that ends in .pdf or .epub",
            path.display()
        )
        .into()),
        _ => Ok(As::Site),
    }
}
