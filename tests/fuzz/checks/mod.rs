//! What must hold for any input whatever: shared by the fuzz targets and by the tests of the suite.
//!
//! Each check panics where something is wrong; an input that is refused as it should be is no fault.

pub mod amounts;
pub mod documents;
pub mod recipes;
pub mod tables;

/// Bytes as the text that the program would look at; `None` where it refuses them as no text.
pub fn text(bytes: &[u8]) -> Option<&str> {
    std::str::from_utf8(bytes).ok()
}

/// A refusal says where and why in words that fit on a screen.
pub fn assert_told(error: &str) {
    assert!(!error.trim().is_empty(), "a refusal without a reason");
    let length = error.chars().count();
    assert!(length < 20_000, "a refusal of {length} characters");
}
