//! The files of `picture` lines: looked at when a recipe is read, and read whole only when they are shown.

use super::named_by::NamedBy;
use super::opened::{open_real, read_real_bytes};
use super::{Loader, reason};
use crate::language::syntax::{Content, PictureLine};
use crate::model::published::{PictureFile, PictureKind};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::SourceId;
use imagesize::{ImageType, reader_size, reader_type};
use std::fs::File;
use std::io::{BufReader, Seek};
use std::path::Path;

/// The largest picture that is read, in bytes: a camera's are smaller.
const LARGEST: u64 = 24 * 1024 * 1024;

/// The most dots of a picture: in memory each takes three bytes, or four.
const MOST_DOTS: u64 = 50_000_000;

impl Loader {
    /// Looks at the pictures that a file names, and reports those that cannot be shown.
    pub(super) fn look_at_pictures(&mut self, source: SourceId, place: &Path, root: &Path) {
        if self.without_pictures {
            return;
        }
        let Some(file) = self.project.file(source) else { return };
        let tree = std::sync::Arc::clone(&file.tree);
        for line in &tree.lines {
            let Content::Picture(picture) = &line.content else { continue };
            if picture.words.is_none() {
                continue;
            }
            match self.look_at(picture, place, root) {
                Ok(found) => self.project.put_picture(picture.path.span, found),
                Err(problem) => {
                    if let Some(file) = self.project.file_mut(source) {
                        file.diagnostics.push(*problem);
                    }
                }
            }
        }
    }

    fn look_at(&mut self, picture: &PictureLine, place: &Path, root: &Path) -> Result<PictureFile, Box<Diagnostic>> {
        let (written, span) = (picture.path.value.as_str(), picture.path.span);
        let real = self.locate((written, span, NamedBy::Picture), place, root)?;
        look(&real).map_err(|(why, help)| {
            let message = format!("`{written}` cannot be shown: {why}");
            Box::new(Diagnostic::error("missing-picture", span, message).help(help))
        })
    }
}

/// Of which kind a picture is that can be shown; `None` for what cannot.
pub(super) fn kind_of_picture(path: &Path) -> Option<PictureKind> {
    look(path).ok().map(|file| file.kind)
}

/// Reads a picture's kind and size off its beginning; on failure what is wrong, and what helps.
fn look(path: &Path) -> Result<PictureFile, (String, String)> {
    let right_path = || "paths are relative to the file they stand in".to_owned();
    let (file, metadata) = open_real(path).map_err(|why| (why, right_path()))?;
    let smaller = "save it smaller: 2000 dots wide are enough for a page and for paper".to_owned();
    if metadata.len() > LARGEST {
        let (length, most) = (metadata.len().div_ceil(1024 * 1024), LARGEST / (1024 * 1024));
        return Err((format!("it is {length} MiB long, and {most} MiB are the most"), smaller));
    }
    let (kind, size) = kind_and_size(file)?;
    if u64::from(size.0) * u64::from(size.1) > MOST_DOTS {
        let most = MOST_DOTS / 1_000_000;
        let message = format!("it is {} x {} dots, and {most} million are the most", size.0, size.1);
        return Err((message, smaller));
    }
    Ok(PictureFile { path: path.to_owned(), kind })
}

fn kind_and_size(file: File) -> Result<(PictureKind, (u32, u32)), (String, String)> {
    let other = || "save it as JPEG or PNG".to_owned();
    let damaged = || ("it is damaged: its size cannot be read".to_owned(), other());
    let mut reader = BufReader::new(file);
    let kind = match reader_type(&mut reader) {
        Ok(ImageType::Jpeg) => PictureKind::Jpeg,
        Ok(ImageType::Png) => PictureKind::Png,
        _ => return Err(("it is neither a JPEG nor a PNG picture".to_owned(), other())),
    };
    reader.rewind().map_err(|error| (reason(&error), other()))?;
    let size = reader_size(&mut reader).map_err(|_| damaged())?;
    match (u32::try_from(size.width), u32::try_from(size.height)) {
        (Ok(width), Ok(height)) if width > 0 && height > 0 => Ok((kind, (width, height))),
        _ => Err(damaged()),
    }
}

/// Reads the bytes of a picture that was looked at.
///
/// # Errors
/// In plain words: it is no longer there, or has grown too large meanwhile.
pub fn read_picture(file: &PictureFile) -> Result<Vec<u8>, String> {
    read_real_bytes(&file.path, LARGEST)
}
