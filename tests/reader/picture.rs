//! A picture made in memory.

use image::{DynamicImage, ImageFormat, RgbImage};
use std::io::Cursor;

/// A PNG of one colour.
pub fn png(width: u32, height: u32) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    let picture = DynamicImage::ImageRgb8(RgbImage::from_pixel(width, height, image::Rgb([20, 90, 140])));
    picture.write_to(&mut bytes, ImageFormat::Png).expect("a picture in memory");
    bytes.into_inner()
}
