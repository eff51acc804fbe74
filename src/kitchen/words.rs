//! Recognising an ingredient by the words of its name.

/// Whether a name holds a word, whatever its case; "nutmeg" does not hold "nut".
pub(super) fn has_word(name: &str, word: &str) -> bool {
    name.split(|letter: char| !letter.is_alphanumeric())
        .any(|own| own.to_lowercase() == word)
}
