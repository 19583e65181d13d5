//! Where a card or a list goes: to standard output, or into a file, whole or not at all.

use super::Outcome;
use super::output::Output;
use super::printing::Setting;
use super::stop::Ended;
use super::streams::is_stream;
use crate::edge::loader::write_output;
use crate::out::page::Page;
use crate::out::pdf::{NoPdf, Pdf, render_page};
use crate::out::text::Style;
use clap::{Args, ValueEnum};
use std::path::{Path, PathBuf};

/// Where the result goes.
#[derive(Debug, Args)]
pub(super) struct Delivery {
    /// Write into this file, whole or not at all; `-` is standard output
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
}

impl Delivery {
    /// The file; `None` is standard output.
    fn path(&self) -> Option<&Path> {
        self.output.as_deref().filter(|path| !is_stream(path))
    }

    /// The ending of the file, in small letters.
    pub(super) fn ending(&self) -> Option<String> {
        let ending = self.path()?.extension()?.to_str()?;
        Some(ending.to_ascii_lowercase())
    }

    /// How text is laid out where it goes: as wide as the screen, and in colour only on it.
    pub(super) fn style(&self, output: &Output) -> Style {
        let on_screen = self.path().is_none() && output.is_terminal();
        Style { on_screen, colour: self.path().is_none() && output.colours_out(), ..output.style() }
    }

    /// Writes or prints the result.
    pub(super) fn deliver(&self, text: &str, output: &mut Output) -> Ended {
        self.deliver_bytes(text.as_bytes(), output)
    }

    /// Writes a PDF, and says what its type had no sign for. It is not poured over a terminal.
    pub(super) fn deliver_pdf(&self, made: Result<Pdf, NoPdf>, output: &mut Output) -> Ended {
        let pdf = made?;
        if self.path().is_none() && output.is_terminal() {
            return Err("a PDF is not for a terminal; write it into a file with `-o card.pdf`".into());
        }
        tell_missing(&pdf, output);
        self.deliver_bytes(&pdf.bytes, output)
    }

    fn deliver_bytes(&self, bytes: &[u8], output: &mut Output) -> Ended {
        match self.path() {
            Some(path) => return into(path, bytes),
            None => output.print_bytes(bytes),
        }
        Ok(Outcome::Fine)
    }
}

/// Writes a result into a file, whole or not at all.
pub(super) fn into(path: &Path, bytes: &[u8]) -> Ended {
    write_output(path, bytes).map_err(|error| format!("{}: {error}", path.display()))?;
    Ok(Outcome::Fine)
}

/// Says what the type of a PDF had no sign for.
pub(super) fn tell_missing(pdf: &Pdf, output: &Output) {
    if !pdf.missing.is_empty() {
        let signs: Vec<String> = pdf.missing.iter().map(|c| format!("{c} (U+{:04X})", u32::from(*c))).collect();
        output.complain(&format!(
            "the type of the PDF has no sign for {}; there it stands as its number, such as [U+{:04X}]; the HTML has it",
            crate::measure::show::list(&signs),
            pdf.missing.first().map_or(0, |c| u32::from(*c))
        ));
    }
}

/// In which format a page is printed, and where it goes.
#[derive(Debug, Args)]
pub(super) struct Paged {
    /// The format; without it text on a terminal, Markdown elsewhere, or what the ending of `-o` says
    #[arg(long, value_enum)]
    pub(super) format: Option<PageFormat>,
    #[command(flatten)]
    pub(super) delivery: Delivery,
    #[command(flatten)]
    pub(super) setting: Setting,
}

impl Paged {
    /// The format that was asked for, or that is usual where the page goes.
    ///
    /// # Errors
    /// A sentence when the file's ending says no format.
    pub(super) fn format(&self, output: &Output) -> Result<PageFormat, String> {
        let usual = if output.is_terminal() { PageFormat::Text } else { PageFormat::Markdown };
        wanted(self.format, &self.delivery, usual)
    }

    /// Prints a page in that format to where it goes; `of` is the file that it was made of.
    pub(super) fn deliver(
        &self,
        (page, of): (&Page, &Path),
        json: impl FnOnce() -> Result<String, String>,
        output: &mut Output,
    ) -> Ended {
        self.format(output)?.deliver((page, of), json, (&self.delivery, &self.setting), output)
    }
}

/// How a page without pictures of its own is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum PageFormat {
    /// Plain text for a terminal
    Text,
    /// CommonMark with tables
    Markdown,
    /// One file for the browser and the printer
    Html,
    /// The same for the printer, without a browser
    Pdf,
    /// For programs
    Json,
}

impl PageFormat {
    /// Prints a page in this format to where it goes; `of` is the file that it was made of.
    pub(super) fn deliver(
        self,
        (page, of): (&Page, &Path),
        json: impl FnOnce() -> Result<String, String>,
        (delivery, setting): (&Delivery, &Setting),
        output: &mut Output,
    ) -> Ended {
        let text = match self {
            PageFormat::Text => page.text(delivery.style(output)),
            PageFormat::Markdown => page.markdown(),
            PageFormat::Html => page.html(),
            PageFormat::Json => json()?,
            PageFormat::Pdf => return delivery.deliver_pdf(render_page(page, &setting.sheet(of)), output),
        };
        delivery.deliver(&text, output)
    }
}

/// The format that was asked for, that the file's ending says, or that is usual. An ending is the name of a format, or one of
/// the other endings that its files have.
///
/// # Errors
/// A sentence when the ending says no format.
pub(super) fn wanted<F: ValueEnum>(asked: Option<F>, delivery: &Delivery, usual: F) -> Result<F, String> {
    match (asked, delivery.path()) {
        (Some(format), _) => Ok(format),
        (None, None) => Ok(usual),
        (None, Some(path)) => F::from_str(&named_by(path), false)
            .map_err(|_| format!("{}: the ending says no format; give --format", path.display())),
    }
}

/// The format that a file's ending says, by its name or by another of its endings; empty where there is none.
pub(super) fn named_by(path: &Path) -> String {
    let ending = path.extension().and_then(|ending| ending.to_str()).unwrap_or("").to_ascii_lowercase();
    match ending.as_str() {
        "md" => "markdown".to_owned(),
        "txt" => "text".to_owned(),
        "htm" => "html".to_owned(),
        _ => ending,
    }
}
