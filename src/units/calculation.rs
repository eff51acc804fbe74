//! Reading a number or working out a calculation.

use super::entry_error::EntryError;
use super::token::{Token, tokens};

/// How deep parentheses and repeated signs may be nested.
const DEEPEST: usize = 8;

/// A plain number: `22.5`, `3/4`, `1 3/4`, `1¾`, with or without a sign.
///
/// The text is already plain; `whole_text` is quoted in the reason.
pub(super) fn plain_number(text: &str, whole_text: &str) -> Result<f64, EntryError> {
    let mut reader = Reader::new(text, whole_text)?;
    if !reader.tokens.iter().any(|token| token.is_number()) {
        return Err(reader.not_a_number());
    }
    let sign = reader.leading_sign();
    let value = match reader.rest() {
        [
            Token::Whole(over),
            Token::Operator('/'),
            Token::Whole(under),
            ..,
        ] => {
            let value = divided(*over, *under)?;
            reader.position += 3;
            value
        }
        [first, ..] if first.is_number() => reader.mixed()?,
        _ => return Err(reader.calculation()),
    };
    match reader.peek() {
        None => Ok(sign * value),
        Some(token) if token.is_number() => Err(reader.two_numbers()),
        Some(_) => Err(reader.calculation()),
    }
}

/// A calculation with `+ - * /` and parentheses, without the `=` before it.
///
/// The text is already plain; `whole_text` is quoted in the reason.
pub(super) fn calculation(text: &str, whole_text: &str) -> Result<f64, EntryError> {
    let mut reader = Reader::new(text, whole_text)?;
    if !reader.tokens.iter().any(|token| token.is_number()) {
        return Err(reader.not_a_number());
    }
    let value = reader.sum(0)?;
    match reader.peek() {
        None => Ok(value),
        Some(token) if token.is_number() => Err(reader.two_numbers()),
        Some(Token::Close) => Err(reader.parentheses()),
        Some(_) => Err(reader.not_a_number()),
    }
}

fn divided(over: f64, under: f64) -> Result<f64, EntryError> {
    if under.abs() < f64::MIN_POSITIVE {
        Err(EntryError::DivisionByZero)
    } else {
        Ok(over / under)
    }
}

/// Walks over the tokens from left to right.
struct Reader<'a> {
    tokens: Vec<Token>,
    position: usize,
    whole_text: &'a str,
}

impl<'a> Reader<'a> {
    fn new(text: &str, whole_text: &'a str) -> Result<Self, EntryError> {
        Ok(Self {
            tokens: tokens(text, whole_text)?,
            position: 0,
            whole_text,
        })
    }

    fn rest(&self) -> &[Token] {
        self.tokens.get(self.position..).unwrap_or_default()
    }

    fn peek(&self) -> Option<Token> {
        self.rest().first().copied()
    }

    /// The operator that comes next, if it is one of these two; steps over it.
    fn operator(&mut self, wanted: [char; 2]) -> Option<char> {
        match self.peek() {
            Some(Token::Operator(found)) if wanted.contains(&found) => {
                self.position += 1;
                Some(found)
            }
            _ => None,
        }
    }

    fn leading_sign(&mut self) -> f64 {
        match self.operator(['+', '-']) {
            Some('-') => -1.0,
            _ => 1.0,
        }
    }

    fn sum(&mut self, depth: usize) -> Result<f64, EntryError> {
        let mut value = self.product(depth)?;
        while let Some(operator) = self.operator(['+', '-']) {
            let next = self.product(depth)?;
            value += if operator == '-' { -next } else { next };
        }
        Ok(value)
    }

    fn product(&mut self, depth: usize) -> Result<f64, EntryError> {
        let mut value = self.factor(depth)?;
        while let Some(operator) = self.operator(['*', '/']) {
            let next = self.factor(depth)?;
            value = if operator == '/' {
                divided(value, next)?
            } else {
                value * next
            };
        }
        Ok(value)
    }

    /// A number, a parenthesis, or either with a sign before it.
    fn factor(&mut self, depth: usize) -> Result<f64, EntryError> {
        if depth > DEEPEST {
            return Err(EntryError::TooDeep { limit: DEEPEST });
        }
        match self.peek() {
            Some(Token::Operator('-')) => {
                self.position += 1;
                self.factor(depth + 1).map(|value| -value)
            }
            Some(Token::Operator('+')) => {
                self.position += 1;
                self.factor(depth + 1)
            }
            Some(Token::Open) => {
                self.position += 1;
                let value = self.sum(depth + 1)?;
                self.close()?;
                Ok(value)
            }
            Some(token) if token.is_number() => self.mixed(),
            Some(_) | None => Err(self.unfinished()),
        }
    }

    fn close(&mut self) -> Result<(), EntryError> {
        match self.peek() {
            Some(Token::Close) => {
                self.position += 1;
                Ok(())
            }
            Some(token) if token.is_number() => Err(self.two_numbers()),
            _ => Err(self.parentheses()),
        }
    }

    /// A number; a whole number may be followed by a fraction, as in `1 3/4` and `1¾`.
    fn mixed(&mut self) -> Result<f64, EntryError> {
        let (value, length) = match self.rest() {
            [Token::Whole(whole), Token::Vulgar(part), ..] => (whole + part, 2),
            [
                Token::Whole(whole),
                Token::Whole(over),
                Token::Operator('/'),
                Token::Whole(under),
                ..,
            ] => (whole + divided(*over, *under)?, 4),
            [
                Token::Whole(value) | Token::Decimal(value) | Token::Vulgar(value),
                ..,
            ] => (*value, 1),
            _ => return Err(self.unfinished()),
        };
        self.position += length;
        Ok(value)
    }

    fn not_a_number(&self) -> EntryError {
        EntryError::NotANumber {
            text: self.whole_text.to_owned(),
        }
    }

    fn two_numbers(&self) -> EntryError {
        EntryError::TwoNumbers {
            text: self.whole_text.to_owned(),
        }
    }

    fn calculation(&self) -> EntryError {
        EntryError::Calculation {
            text: self.whole_text.to_owned(),
        }
    }

    fn unfinished(&self) -> EntryError {
        EntryError::Unfinished {
            text: self.whole_text.to_owned(),
        }
    }

    fn parentheses(&self) -> EntryError {
        EntryError::Parentheses {
            text: self.whole_text.to_owned(),
        }
    }
}
