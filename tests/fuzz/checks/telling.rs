//! What every check needs: inputs as texts, and refusals that say something.

/// Bytes as the text that the program would look at; `None` where it refuses them as no text.
pub(crate) fn text(bytes: &[u8]) -> Option<&str> {
    std::str::from_utf8(bytes).ok()
}

/// A refusal says why in words that fit on a screen.
pub(crate) fn assert_told(error: &str) {
    assert!(!error.trim().is_empty(), "a refusal without a reason");
    let length = error.chars().count();
    assert!(length < 20_000, "a refusal of {length} characters");
}
