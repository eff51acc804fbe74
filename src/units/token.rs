//! The pieces a typed number or calculation is made of.

use super::entry_error::EntryError;

/// One piece of a number or calculation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Token {
    /// A number without a decimal mark; only such a number takes part in a fraction.
    Whole(f64),
    /// A number with a decimal mark.
    Decimal(f64),
    /// A fraction in one character, such as ¾.
    Vulgar(f64),
    /// `+`, `-`, `*` or `/`.
    Operator(char),
    /// `(`.
    Open,
    /// `)`.
    Close,
}

impl Token {
    pub(super) fn is_number(self) -> bool {
        matches!(self, Self::Whole(_) | Self::Decimal(_) | Self::Vulgar(_))
    }
}

/// The text with every typographic variant replaced by the plain character, and invisible characters removed.
pub(super) fn plain(text: &str) -> String {
    text.chars()
        .filter(|letter| !is_invisible(*letter))
        .map(|letter| match letter {
            // Minus sign, and the hyphens and the dash that text from elsewhere carries in its place.
            '\u{2212}' | '\u{2010}' | '\u{2011}' | '\u{2013}' => '-',
            // Fraction slash, division slash, division sign.
            '\u{2044}' | '\u{2215}' | '÷' => '/',
            '×' => '*',
            // Non-breaking, thin and all other spaces.
            space if space.is_whitespace() => ' ',
            other => other,
        })
        .collect()
}

/// Whether a character can be part of a number or calculation, so that no unit begins with it.
pub(super) fn is_numeric(letter: char) -> bool {
    letter.is_ascii_digit() || " .,+-*/()".contains(letter) || vulgar(letter).is_some()
}

/// Splits a number or calculation (already made plain) into tokens; `whole_text` is quoted in the reason.
pub(super) fn tokens(text: &str, whole_text: &str) -> Result<Vec<Token>, EntryError> {
    let mut found = Vec::new();
    let mut rest = text.trim_start();
    while let Some(first) = rest.chars().next() {
        let mut length = first.len_utf8();
        if is_digit_or_mark(first) {
            length = rest
                .find(|letter| !is_digit_or_mark(letter))
                .unwrap_or(rest.len());
            found.push(decimal(&rest[..length], whole_text)?);
        } else {
            found.push(sign(first).ok_or_else(|| not_a_number(whole_text))?);
        }
        rest = rest[length..].trim_start();
    }
    Ok(found)
}

fn sign(letter: char) -> Option<Token> {
    match letter {
        '+' | '-' | '*' | '/' => Some(Token::Operator(letter)),
        '(' => Some(Token::Open),
        ')' => Some(Token::Close),
        other => vulgar(other).map(Token::Vulgar),
    }
}

/// Reads a run of digits with at most one decimal mark, which may be a point or a comma.
fn decimal(run: &str, whole_text: &str) -> Result<Token, EntryError> {
    let read = |digits: &str| digits.parse::<f64>().map_err(|_| not_a_number(whole_text));
    let Some((whole, decimals)) = run.split_once(['.', ',']) else {
        return read(run).map(Token::Whole);
    };
    if decimals.contains(['.', ',']) {
        return Err(not_a_number(whole_text));
    }
    let value = read(&format!("{whole}.{decimals}"))?;
    if run.contains(',') && could_be_thousands(whole, decimals) {
        return Err(EntryError::Ambiguous {
            text: run.to_owned(),
            as_thousand: read(&format!("{whole}{decimals}"))?,
            as_decimal: value,
        });
    }
    Ok(Token::Decimal(value))
}

/// One to three digits that do not begin with 0, a comma and three digits: nobody groups "0,250" or "1234,567".
fn could_be_thousands(whole: &str, decimals: &str) -> bool {
    decimals.len() == 3 && (1..=3).contains(&whole.len()) && !whole.starts_with('0')
}

fn vulgar(letter: char) -> Option<f64> {
    let (over, under) = match letter {
        '½' => (1.0, 2.0),
        '⅓' => (1.0, 3.0),
        '⅔' => (2.0, 3.0),
        '¼' => (1.0, 4.0),
        '¾' => (3.0, 4.0),
        '⅕' => (1.0, 5.0),
        '⅖' => (2.0, 5.0),
        '⅗' => (3.0, 5.0),
        '⅘' => (4.0, 5.0),
        '⅙' => (1.0, 6.0),
        '⅚' => (5.0, 6.0),
        '⅛' => (1.0, 8.0),
        '⅜' => (3.0, 8.0),
        '⅝' => (5.0, 8.0),
        '⅞' => (7.0, 8.0),
        '⅒' => (1.0, 10.0),
        _ => return None,
    };
    Some(over / under)
}

fn is_digit_or_mark(letter: char) -> bool {
    letter.is_ascii_digit() || letter == '.' || letter == ','
}

/// Zero-width and direction marks, which come along with pasted text.
fn is_invisible(letter: char) -> bool {
    matches!(
        letter,
        '\u{200B}'..='\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2060}' | '\u{FEFF}'
    )
}

fn not_a_number(text: &str) -> EntryError {
    EntryError::NotANumber {
        text: text.to_owned(),
    }
}
