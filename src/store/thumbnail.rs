//! Pictures made small for the screen.

use image::imageops::FilterType;
use image::{ImageReader, Limits};
use std::io::Cursor;

/// Largest side of a picture that is decoded, pixels (our convention, no source).
const MOST_SIDE: u32 = 20_000;
/// Most memory that decoding may take, bytes (our convention, no source).
const MOST_BYTES: u64 = 256 << 20;

/// A small picture: pixels row by row, red, green, blue and opacity in bytes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Thumbnail {
    /// Width and height, pixels.
    pub size: [usize; 2],
    /// Four bytes for each pixel.
    pub rgba: Vec<u8>,
}

/// Decodes a PNG or JPEG so that no side is longer than `most` pixels; `None` for what is none, is
/// damaged or too large to be decoded.
pub fn thumbnail(bytes: &[u8], most: u32) -> Option<Thumbnail> {
    let mut reader = ImageReader::new(Cursor::new(bytes))
        .with_guessed_format()
        .ok()?;
    let mut limits = Limits::default();
    limits.max_image_width = Some(MOST_SIDE);
    limits.max_image_height = Some(MOST_SIDE);
    limits.max_alloc = Some(MOST_BYTES);
    reader.limits(limits);
    let whole = reader.decode().ok()?;
    let small = whole.resize(most, most, FilterType::Triangle).into_rgba8();
    let size = [small.width(), small.height()].map(|side| side as usize);
    Some(Thumbnail {
        size,
        rgba: small.into_raw(),
    })
}
