//! Pictures made as small as a page shows them.
//!
//! What comes out is written anew: it holds none of the camera's notes, such as where it was, and is turned as the camera was held.

use crate::model::published::PictureKind;
use image::codecs::jpeg::{JpegDecoder, JpegEncoder};
use image::codecs::png::{CompressionType, FilterType as Filter, PngDecoder, PngEncoder};
use image::imageops::FilterType;
use image::{DynamicImage, ImageDecoder, Limits};
use std::io::Cursor;

/// The most that reading a picture may take, in bytes: 50 million dots with four bytes each, and some room.
const MOST_MEMORY: u64 = 256 * 1024 * 1024;

/// Of 100: beyond it a file grows and nobody sees why.
const QUALITY: u8 = 82;

/// A picture as it is shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shrunk {
    /// The file.
    pub bytes: Vec<u8>,
    /// What it is.
    pub kind: PictureKind,
    /// How many dots wide.
    pub width: u32,
    /// How many dots high.
    pub height: u32,
}

impl Shrunk {
    /// The media type of its file.
    pub fn media_type(&self) -> &'static str {
        match self.kind {
            PictureKind::Jpeg => "image/jpeg",
            PictureKind::Png => "image/png",
        }
    }
}

/// A picture so wide at most, and as high as it then is. A drawing stays a PNG, a photograph a JPEG.
///
/// # Errors
/// In plain words: it is damaged, or takes more memory than is allowed.
pub fn shrink(bytes: &[u8], kind: PictureKind, most_wide: u32) -> Result<Shrunk, String> {
    let picture = read(bytes, kind).map_err(|error| format!("it cannot be read: {error}"))?;
    let picture = if picture.width() > most_wide {
        // The height follows; twice as high as wide is all that a page has room for.
        picture.resize(most_wide, most_wide.saturating_mul(2), FilterType::Triangle)
    } else {
        picture
    };
    let (width, height) = (picture.width(), picture.height());
    let mut out = Vec::new();
    let written = match kind {
        PictureKind::Jpeg => picture.to_rgb8().write_with_encoder(JpegEncoder::new_with_quality(&mut out, QUALITY)),
        PictureKind::Png => picture.write_with_encoder(PngEncoder::new_with_quality(
            &mut out,
            CompressionType::Default,
            Filter::Adaptive,
        )),
    };
    written.map_err(|error| format!("it cannot be written anew: {error}"))?;
    Ok(Shrunk { bytes: out, kind, width, height })
}

fn read(bytes: &[u8], kind: PictureKind) -> Result<DynamicImage, image::ImageError> {
    match kind {
        PictureKind::Jpeg => decode(JpegDecoder::new(Cursor::new(bytes))?),
        PictureKind::Png => decode(PngDecoder::with_limits(Cursor::new(bytes), limits())?),
    }
}

fn limits() -> Limits {
    let mut limits = Limits::no_limits();
    limits.max_alloc = Some(MOST_MEMORY);
    limits
}

fn decode(mut decoder: impl ImageDecoder) -> Result<DynamicImage, image::ImageError> {
    // The bytes may say another size than the file's beginning did when it was looked at.
    limits().reserve(decoder.total_bytes())?;
    let held = decoder.orientation()?;
    let mut picture = DynamicImage::from_decoder(decoder)?;
    picture.apply_orientation(held);
    Ok(picture)
}

#[cfg(test)]
mod tests {
    use super::*;
    use image::RgbImage;

    fn png(width: u32, height: u32) -> Vec<u8> {
        let mut bytes = Vec::new();
        let picture = DynamicImage::ImageRgb8(RgbImage::from_pixel(width, height, image::Rgb([20, 90, 140])));
        picture.write_with_encoder(PngEncoder::new(&mut bytes)).expect("a picture in memory");
        bytes
    }

    #[test]
    fn a_wide_picture_becomes_as_wide_as_is_shown() {
        let shrunk = shrink(&png(400, 100), PictureKind::Png, 200).expect("a picture");
        assert_eq!((shrunk.width, shrunk.height), (200, 50));
        assert_eq!(shrink(&png(40, 10), PictureKind::Png, 200).map(|small| small.width), Ok(40));
    }

    #[test]
    fn what_is_damaged_or_of_another_kind_is_refused() {
        let whole = png(40, 10);
        assert!(shrink(whole.get(..40).expect("bytes"), PictureKind::Png, 200).is_err());
        assert!(shrink(&whole, PictureKind::Jpeg, 200).is_err());
        assert!(shrink(&[], PictureKind::Jpeg, 200).is_err());
    }

    /// 50 000 x 50 000 dots said in a file of a kilobyte.
    #[test]
    fn a_picture_that_says_more_than_fits_is_refused() {
        let mut bytes = png(8, 8);
        bytes.splice(16..24, [0, 0, 0xC3, 0x50, 0, 0, 0xC3, 0x50]);
        assert!(shrink(&bytes, PictureKind::Png, 200).is_err());
    }
}
