//! A book as an EPUB 3 (W3C Recommendation EPUB 3.3): its container, its package, and a document for each recipe.
//!
//! The same input gives the same bytes: the archive holds no time of its own, and its date is the one that was asked for.

mod documents;
mod package;
mod xhtml;

use super::reader::html::Pictures;
use super::shrink::Shrunk;
use crate::figures::book::Book;
use crate::figures::reader::ReaderPage;
use crate::model::published::{Picture, PictureKind};
use std::io::{Cursor, Write};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipWriter};

/// The folder of everything but the container's own files.
const FOLDER: &str = "EPUB";

const CONTAINER: &str = r#"<?xml version="1.0" encoding="UTF-8"?>
<container version="1.0" xmlns="urn:oasis:names:tc:opendocument:xmlns:container">
  <rootfiles>
    <rootfile full-path="EPUB/package.opf" media-type="application/oebps-package+xml"/>
  </rootfiles>
</container>
"#;

const CSS: &str = include_str!("epub/book.css");

/// What a picture is that stands for the book where it lies among others.
const COVER: &str = "cover-image";

/// A file of the book, as the package lists it.
struct Item {
    /// Its name in the package.
    id: String,
    /// Its path below the folder.
    path: String,
    media_type: &'static str,
    /// What it is beside that: `nav`, `cover-image`.
    properties: Option<&'static str>,
    /// Whether it is read in its turn.
    is_read: bool,
    bytes: Vec<u8>,
}

impl Item {
    /// A document that is read in its turn.
    fn document(id: impl Into<String>, path: impl Into<String>, text: String) -> Item {
        Item {
            id: id.into(),
            path: path.into(),
            media_type: "application/xhtml+xml",
            properties: None,
            is_read: true,
            bytes: text.into_bytes(),
        }
    }
}

/// Pictures in files of their own.
struct Files<'a>(&'a [(Picture, Shrunk)]);

impl Files<'_> {
    /// The file's path below the folder.
    fn path(at: usize, file: &Shrunk) -> String {
        let ending = match file.kind {
            PictureKind::Jpeg => "jpg",
            PictureKind::Png => "png",
        };
        format!("pictures/{}.{ending}", at + 1)
    }

    fn items(&self) -> impl Iterator<Item = Item> {
        self.0.iter().enumerate().map(|(at, (_, file))| Item {
            id: format!("picture-{}", at + 1),
            path: Files::path(at, file),
            media_type: file.media_type(),
            properties: None,
            is_read: false,
            bytes: file.bytes.clone(),
        })
    }
}

impl Pictures for Files<'_> {
    fn shown(&self, picture: &Picture) -> Option<(String, u32, u32)> {
        let (at, (_, file)) = self.0.iter().enumerate().find(|(_, (known, _))| known.span == picture.span)?;
        Some((format!("../{}", Files::path(at, file)), file.width, file.height))
    }
}

/// Writes a book; `main_pages` are those of its recipes in their order, and `date` is the day that it says it was made, as
/// `2027-04-17`.
///
/// # Errors
/// When it is larger than an archive can be.
pub fn render(
    book: &Book,
    main_pages: &[ReaderPage],
    pictures: &[(Picture, Shrunk)],
    date: &str,
) -> Result<Vec<u8>, String> {
    let files = Files(pictures);
    let mut items = documents::all(book, main_pages, &files);
    items.push(Item {
        id: "style".to_owned(),
        path: "book.css".to_owned(),
        media_type: "text/css",
        properties: None,
        is_read: false,
        bytes: CSS.as_bytes().to_vec(),
    });
    items.extend(files.items());
    items.extend(super::pdf::cover(book).map(|drawing| Item {
        id: "cover".to_owned(),
        path: "cover.svg".to_owned(),
        media_type: "image/svg+xml",
        properties: Some(COVER),
        is_read: false,
        bytes: xhtml::allowed(&drawing).into_bytes(),
    }));
    let package = package::render(book, &items, date);
    archive(&items, &package).map_err(|error| format!("no EPUB could be made of this: {error}"))
}

/// The archive: the media type first and as it is, so that the file is known by its first bytes.
fn archive(items: &[Item], package: &str) -> Result<Vec<u8>, zip::result::ZipError> {
    let stored = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Stored)
        .last_modified_time(DateTime::default())
        .unix_permissions(0o644);
    let packed = stored.compression_method(CompressionMethod::Deflated);
    let mut writer = ZipWriter::new(Cursor::new(Vec::new()));
    let mut put = |path: &str, bytes: &[u8], how: SimpleFileOptions| {
        writer.start_file(path, how)?;
        writer.write_all(bytes)?;
        Ok::<(), zip::result::ZipError>(())
    };
    put("mimetype", b"application/epub+zip", stored)?;
    put("META-INF/container.xml", CONTAINER.as_bytes(), packed)?;
    put(&format!("{FOLDER}/package.opf"), package.as_bytes(), packed)?;
    for item in items {
        let is_packed_already = item.media_type.starts_with("image/") && item.properties != Some(COVER);
        put(&format!("{FOLDER}/{}", item.path), &item.bytes, if is_packed_already { stored } else { packed })?;
    }
    Ok(writer.finish()?.into_inner())
}
