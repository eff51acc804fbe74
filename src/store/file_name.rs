//! Names of files made from what a document says.

/// Most words of a name.
const MOST_WORDS: usize = 4;
/// Longest name without its ending, bytes: most file systems hold 255 with everything that is put
/// behind it, such as the number of a page, `.photos` or `.bak` (our convention, no source).
const MOST_BYTES: usize = 120;
/// Names that some systems keep for devices, with any ending (from memory).
const DEVICES: [&str; 6] = ["con", "prn", "aux", "nul", "conin", "conout"];

/// A file name made from a title: at most four words of small letters and digits with hyphens, and
/// `.ron` behind; at most 124 bytes, never a path and never the name of a device.
pub fn file_name_of(title: &str) -> String {
    // A title may be long, and only its beginning counts.
    let begin: String = title.chars().take(MOST_BYTES * MOST_WORDS).collect();
    let letters = begin.to_lowercase();
    let words: Vec<&str> = letters
        .split(|letter: char| !letter.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .take(MOST_WORDS)
        .collect();
    let mut stem = words.join("-");
    let end = (0..=MOST_BYTES.min(stem.len()))
        .rev()
        .find(|at| stem.is_char_boundary(*at));
    stem.truncate(end.unwrap_or(0));
    let stem = stem.trim_end_matches('-');
    if stem.is_empty() {
        "drinks.ron".to_owned()
    } else if is_device(stem) {
        format!("{stem}-drink.ron")
    } else {
        format!("{stem}.ron")
    }
}

/// True for the ports too: `com1`, `lpt9`, also with a raised digit.
fn is_device(stem: &str) -> bool {
    let port = ["com", "lpt"]
        .iter()
        .find_map(|port| stem.strip_prefix(port));
    let numbered = port.is_some_and(|number| {
        let mut digits = number.chars();
        digits.next().is_some_and(char::is_numeric) && digits.next().is_none()
    });
    numbered || DEVICES.contains(&stem)
}
