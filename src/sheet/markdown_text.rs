//! Texts and tables that stay what they are in Markdown.

use super::one_line::one_line;

/// Marks that mean something within a line of CommonMark or of its tables.
const INLINE: &str = "\\`*_[]<>|~&$#^{}";

/// A text on one line in which nothing is a mark, a link, HTML or an entity.
///
/// After CommonMark 0.31, section 2.4 (from memory): any ASCII mark may follow a backslash.
pub(super) fn escaped(text: &str) -> String {
    let text = one_line(text);
    let mut out = String::with_capacity(text.len() + 8);
    let digits = text.chars().take_while(char::is_ascii_digit).count();
    let mut letters = text.chars().enumerate().peekable();
    while let Some((place, letter)) = letters.next() {
        // At the begin of a line these open lists, rules, quotes and heads.
        let opens = place == 0 && matches!(letter, '+' | '-' | '=' | ':')
            || place == digits && digits > 0 && matches!(letter, '.' | ')');
        // Readers that make links of bare addresses find none.
        let is_address = match letter {
            '@' => true,
            '.' => out.ends_with("www") || out.ends_with("WWW"),
            ':' => letters.peek().is_some_and(|(_, next)| *next == '/'),
            _ => false,
        };
        // A mark before a bracket makes a picture of it.
        if opens || is_address || INLINE.contains(letter) || letter == '!' {
            out.push('\\');
        }
        out.push(letter);
    }
    out
}

/// A table of pipes; columns of which every cell is blank are left out, but never the first two.
///
/// Blank without rows.
pub(super) fn table(heads: &[&str], rows: &[Vec<String>]) -> String {
    if rows.is_empty() {
        return String::new();
    }
    let cell = |row: &Vec<String>, place: usize| row.get(place).map_or("", |cell| cell).to_owned();
    let said: Vec<usize> = (0..heads.len())
        .filter(|place| {
            *place < 2
                || rows
                    .iter()
                    .any(|row| !one_line(&cell(row, *place)).is_empty())
        })
        .collect();
    let line = |cells: Vec<String>| format!("| {} |", cells.join(" | "));
    let mut out = vec![
        line(said.iter().map(|place| heads[*place].to_owned()).collect()),
        line(said.iter().map(|_| "---".to_owned()).collect()),
    ];
    for row in rows {
        let cells = said.iter().map(|place| escaped(&cell(row, *place)));
        out.push(line(cells.collect()));
    }
    out.join("\n")
}
