//! Pictures out of files, as they are printed: whole, as large as there is room, each with its words for those who do not see it.

use super::frame::{Block, Drawn, Frame, Item};
use super::tags::{Node, Role};
use super::{NoPdf, Press, plain};
use crate::model::published::{Picture, PictureKind};
use crate::out::reader::shrink::Shrunk;
use crate::text::source::Span;
use krilla::image::Image;

/// A picture that can be printed.
struct Plate {
    of: Span,
    image: Image,
    width: f32,
    height: f32,
}

/// All pictures of a document.
pub(super) struct Plates(Vec<Plate>);

/// The room that a picture has, in points.
#[derive(Debug, Clone, Copy)]
pub(super) struct Room {
    pub(super) width: f32,
    pub(super) height: f32,
}

/// A picture is printed with so many dots to the inch at least, if need be smaller than there is room: below that one sees them.
const LEAST_DOTS: f32 = 100.0;

impl Plates {
    /// Takes in pictures that were made as small as they are printed.
    ///
    /// # Errors
    /// When one of them cannot be put into a PDF.
    pub(super) fn new(pictures: &[(Picture, Shrunk)]) -> Result<Plates, NoPdf> {
        let plate = |(picture, file): &(Picture, Shrunk)| {
            let data = file.bytes.clone().into();
            let image = match file.kind {
                PictureKind::Jpeg => Image::from_jpeg(data, true),
                PictureKind::Png => Image::from_png(data, true),
            };
            let image = image.map_err(|why| NoPdf(format!("{}: {why}", plain(&picture.path))))?;
            Ok(Plate { of: picture.span, image, width: file.width as f32, height: file.height as f32 })
        };
        pictures.iter().map(plate).collect::<Result<Vec<Plate>, NoPdf>>().map(Plates)
    }
}

/// Sets a picture as large as the room is, so many points from the left; nothing for one that cannot be shown.
pub(super) fn set(
    press: &mut Press<'_>,
    plates: &Plates,
    picture: &Picture,
    (room, left): (Room, f32),
    parent: Node,
) -> Option<Block> {
    let plate = plates.0.iter().find(|plate| plate.of == picture.span)?;
    let widest = plate.width * 72.0 / LEAST_DOTS;
    let scale = (room.width.min(widest) / plate.width).min(room.height / plate.height);
    let (width, height) = (plate.width * scale, plate.height * scale);
    let node = press.tags.add(Some(parent), Role::Figure(plain(&picture.words)));
    let mut frame = Frame::of_height(height);
    frame.items.push(Item { drawn: Drawn::Image(left, 0.0, width, height, plate.image.clone()), node: Some(node) });
    Some(Block::new(frame, press.em * 0.7))
}
