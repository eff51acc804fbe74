//! Pictures made small for the screen.

use image::imageops::FilterType;
use image::{ImageReader, Limits};
use std::io::Cursor;

/// Largest side of a picture that is decoded, pixels (our convention, no source).
const MOST_SIDE: u32 = 20_000;
/// Most memory that decoding may take, bytes (our convention, no source): 50 million pixels of three
/// bytes, and some more.
const MOST_BYTES: u64 = 160 << 20;
/// Most pixels of a JPEG that comes in several passes (our convention, no source): until the last pass
/// two bytes more are held for each colour of each pixel.
const MOST_IN_PASSES: u64 = 20_000_000;

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
    let open = || ImageReader::new(Cursor::new(bytes)).with_guessed_format();
    let (width, height) = open().ok()?.into_dimensions().ok()?;
    if comes_in_passes(bytes) && u64::from(width) * u64::from(height) > MOST_IN_PASSES {
        return None;
    }
    let mut reader = open().ok()?;
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

/// True for a JPEG of which no frame comes in one pass; segments as ITU-T T.81, annex B, says.
fn comes_in_passes(bytes: &[u8]) -> bool {
    /// Start of a frame in one pass: baseline and extended.
    const ONE_PASS: [u8; 2] = [0xC0, 0xC1];
    /// Start of a scan: what follows is no segment.
    const SCAN: u8 = 0xDA;
    let Some(mut rest) = bytes.strip_prefix(&[0xFF, 0xD8]) else {
        return false;
    };
    while let [0xFF, marker, high, low, ..] = *rest {
        if ONE_PASS.contains(&marker) {
            return false;
        }
        let length = usize::from(u16::from_be_bytes([high, low]));
        match rest.get(2 + length..) {
            // Any number of fill bytes may stand before a marker.
            _ if marker == 0xFF => rest = &rest[1..],
            Some(behind) if marker != SCAN => rest = behind,
            _ => return true,
        }
    }
    true
}
