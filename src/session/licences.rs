//! The licences of the program and of everything built into it.

use std::sync::LazyLock;

/// The licences, as they are printed and shown.
pub const LICENCES: &str = include_str!("../assets/notices.txt");

/// Longest line on screen, characters.
const LONGEST: usize = 92;

static LINES: LazyLock<Vec<String>> = LazyLock::new(|| LICENCES.lines().flat_map(broken).collect());

/// The licences in lines that fit on screen, broken between words.
pub fn licence_lines() -> &'static [String] {
    &LINES
}

/// A line in pieces of at most [`LONGEST`] characters; a longer word stays whole.
fn broken(line: &str) -> Vec<String> {
    if line.chars().count() <= LONGEST {
        return vec![line.to_owned()];
    }
    let mut pieces = vec![String::new()];
    let mut used = 0;
    for word in line.split(' ') {
        let size = word.chars().count();
        if used > 0 && used + 1 + size > LONGEST {
            pieces.push(String::new());
            used = 0;
        }
        if let Some(piece) = pieces.last_mut() {
            if used > 0 {
                piece.push(' ');
                used += 1;
            }
            piece.push_str(word);
            used += size;
        }
    }
    pieces
}

#[cfg(test)]
mod tests {
    use super::{LICENCES, LONGEST, licence_lines};

    #[test]
    fn lines_are_short_and_no_word_is_lost() {
        let shown: Vec<&str> = licence_lines()
            .iter()
            .flat_map(|line| line.split_whitespace())
            .collect();
        let printed: Vec<&str> = LICENCES.split_whitespace().collect();
        assert_eq!(shown, printed);
        let fits = |line: &String| line.chars().count() <= LONGEST || !line.contains(' ');
        assert!(licence_lines().iter().all(fits));
        assert!(LICENCES.lines().any(|line| line.chars().count() > LONGEST));
    }
}
