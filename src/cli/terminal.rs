//! Texts as a terminal may show them.

use std::borrow::Cow;
use std::fmt::Write as _;

/// A text whose marks are all shown rather than obeyed: names of a document may hold escape sequences
/// that move the cursor, or marks that turn the order of letters.
///
/// Such a letter becomes `\u` and its four hexadecimal digits, which JSON reads as the same letter
/// where it stands in a string; line ends and tabs stay.
pub fn for_terminal(text: &str) -> Cow<'_, str> {
    if !text.chars().any(is_obeyed) {
        return Cow::Borrowed(text);
    }
    let mut shown = String::with_capacity(text.len() + 32);
    for letter in text.chars() {
        if is_obeyed(letter) {
            // All of them lie in the first plane; writing into a String cannot fail.
            write!(shown, "\\u{:04x}", u32::from(letter)).unwrap_or_default();
        } else {
            shown.push(letter);
        }
    }
    Cow::Owned(shown)
}

/// Controls of ISO/IEC 6429 (C0 without line end and tab, DEL, C1), and those of the bidirectional
/// algorithm (UAX #9, 2) with the separators of lines and paragraphs.
fn is_obeyed(letter: char) -> bool {
    (letter.is_control() && letter != '\n' && letter != '\t')
        || matches!(
            letter,
            '\u{61C}'
                | '\u{200E}'
                | '\u{200F}'
                | '\u{2028}'..='\u{202E}'
                | '\u{2066}'..='\u{2069}'
                | '\u{FEFF}'
        )
}
