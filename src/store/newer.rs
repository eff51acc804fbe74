//! Files of a later format: opened to look at, never to write.

use super::format::{File, Head, options};
use super::read::{Opened, ReadError, field};
use crate::model::check;
use ron::Error as Code;

/// Most places with an unknown field that are skipped before giving up; each costs a reading.
const MAX_SKIPPED: usize = 500;
/// Most bytes that all those readings may go through (our convention, no source): some seconds.
const MAX_READ: usize = 128 * 1024 * 1024;

/// Reads what is known of a later format; unknown fields are skipped and named.
pub(super) fn read_newer(text: &str, head: &Head) -> Result<Opened, ReadError> {
    let newer = |reason: String| ReadError::Newer {
        format: head.format,
        writer: head.writer.clone(),
        reason,
    };
    let mut text = text.to_owned();
    let mut skipped: Vec<String> = Vec::new();
    let mut places = 0;
    let most = MAX_SKIPPED.min(MAX_READ / text.len().max(1));
    let file: File = loop {
        match options().from_str(&text) {
            Ok(file) => break file,
            Err(error) => {
                let name = match &error.code {
                    Code::NoSuchStructField { found, .. } if places < most => {
                        places += 1;
                        found.clone()
                    }
                    other => return Err(newer(other.to_string())),
                };
                let place = byte_at(&text, error.span.start.line, error.span.start.col);
                text = without_field(&text, place, &name)
                    .ok_or_else(|| newer(format!("cannot skip the field {name}")))?;
                if !skipped.contains(&name) {
                    skipped.push(name);
                }
            }
        }
    };
    check(&file.document).map_err(|error| field(&text, error))?;
    let why = format!(
        "written by \"{}\" in format {}, newer than this program",
        head.writer, head.format
    );
    let mut notices = vec![format!("Opened read-only: {why}.")];
    if !skipped.is_empty() {
        notices.push(format!("Fields not known here: {}.", skipped.join(", ")));
    }
    Ok(Opened {
        document: file.document,
        read_only: Some(why),
        notices,
        stamp: None,
    })
}

/// Byte offset of a line and column counted from 1.
fn byte_at(text: &str, line: usize, column: usize) -> usize {
    let mut start = 0;
    for _ in 1..line {
        match text[start..].find('\n') {
            Some(end) => start += end + 1,
            None => return text.len(),
        }
    }
    text[start..]
        .char_indices()
        .nth(column.saturating_sub(1))
        .map_or(text.len(), |(offset, _)| start + offset)
}

/// The text without the field `name` that stands at or shortly before `place`.
fn without_field(text: &str, place: usize, name: &str) -> Option<String> {
    let reach = text.len().min(place + name.len());
    let reach = (reach..=text.len()).find(|at| text.is_char_boundary(*at))?;
    let start = text[..reach].rfind(name)?;
    let value = start + name.len();
    let end = value + end_of_value(&text[value..])?;
    Some(format!("{}{}", &text[..start], &text[end..]))
}

/// Length of `: value` up to and with the comma that ends it, or up to the closing bracket.
fn end_of_value(text: &str) -> Option<usize> {
    let mut depth = 0_usize;
    let mut quoted = false;
    let mut escaped = false;
    for (offset, letter) in text.char_indices() {
        if quoted {
            match letter {
                _ if escaped => escaped = false,
                '\\' => escaped = true,
                '"' => quoted = false,
                _ => {}
            }
            continue;
        }
        match letter {
            '"' => quoted = true,
            '(' | '[' | '{' => depth += 1,
            ')' | ']' | '}' if depth == 0 => return Some(offset),
            ')' | ']' | '}' => depth -= 1,
            ',' if depth == 0 => return Some(offset + 1),
            _ => {}
        }
    }
    None
}
