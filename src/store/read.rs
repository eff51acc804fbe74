//! Opening a document: limits first, then syntax, then what it says.

use super::format::{FORMAT, File, Head, options};
use super::newer::read_newer;
use crate::model::{Document, FieldError, check};
use ron::error::SpannedError;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

/// Largest file accepted, bytes.
const MAX_BYTES: u64 = 32 * 1024 * 1024;

/// Recognises a file that changed since it was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stamp {
    length: u64,
    modified: Option<SystemTime>,
}

impl Stamp {
    /// The stamp of a file as it is now; `None` when there is none.
    pub fn of(path: &Path) -> Option<Self> {
        let facts = fs::metadata(path).ok()?;
        Some(Self {
            length: facts.len(),
            modified: facts.modified().ok(),
        })
    }
}

/// A document read from a file.
#[derive(Clone, Debug)]
pub struct Opened {
    /// The document.
    pub document: Document,
    /// Why it must not be written back, if so.
    pub read_only: Option<String>,
    /// What the reader should know.
    pub notices: Vec<String>,
    /// The file as it was read.
    pub stamp: Option<Stamp>,
}

/// Why a file could not be opened; nothing was changed.
#[derive(Debug, thiserror::Error)]
pub enum ReadError {
    /// The file system refused.
    #[error("cannot read: {reason} ({path})", path = .path.display())]
    Unreadable {
        /// File.
        path: PathBuf,
        /// What the system said.
        reason: String,
    },
    /// A folder, a socket or something else that is no file.
    #[error("is not a file ({path})", path = .path.display())]
    NotAFile {
        /// Path.
        path: PathBuf,
    },
    /// Above the size limit.
    #[error("is {megabytes:.1} MB; files above {limit} MB are refused", limit = MAX_BYTES / 1_048_576)]
    TooLarge {
        /// Size, MB.
        megabytes: f64,
    },
    /// Not UTF-8 text.
    #[error("line {line}: is not UTF-8 text; save it as UTF-8")]
    NotText {
        /// Line of the first bad byte, from 1.
        line: usize,
    },
    /// Damaged or not a document of this program.
    #[error("line {line}, column {column}: {reason}")]
    Syntax {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
        /// What was expected.
        reason: String,
    },
    /// A field says something that cannot stand.
    #[error("line {line}: {error}")]
    Field {
        /// Line near which the field stands, from 1.
        line: usize,
        /// Field and reason.
        error: FieldError,
    },
    /// Written by a later version in a way that cannot be read here.
    #[error(
        "has format {format}, written by \"{writer}\"; this program reads up to {FORMAT}: {reason}"
    )]
    Newer {
        /// Format number of the file.
        format: u32,
        /// Who wrote it.
        writer: String,
        /// Why even a reading without changes failed.
        reason: String,
    },
}

/// Opens a document.
pub fn read_document(path: &Path) -> Result<Opened, ReadError> {
    // The stamp comes first: a change made while reading is then noticed on saving.
    let stamp = Stamp::of(path);
    let mut opened = read_text(&text_of(path)?)?;
    opened.stamp = stamp;
    Ok(opened)
}

/// The text of a file within the limits, without a byte-order mark.
pub(crate) fn text_of(path: &Path) -> Result<String, ReadError> {
    let unreadable = |error: &io::Error| ReadError::Unreadable {
        path: path.to_owned(),
        reason: error.to_string(),
    };
    let facts = fs::metadata(path).map_err(|error| unreadable(&error))?;
    if !facts.is_file() {
        return Err(ReadError::NotAFile {
            path: path.to_owned(),
        });
    }
    if facts.len() > MAX_BYTES {
        return Err(ReadError::TooLarge {
            megabytes: facts.len() as f64 / 1_048_576.0,
        });
    }
    let mut bytes = fs::read(path).map_err(|error| unreadable(&error))?;
    if bytes.starts_with(b"\xEF\xBB\xBF") {
        bytes.drain(..3);
    }
    String::from_utf8(bytes).map_err(|error| {
        let good = error.utf8_error().valid_up_to();
        let before = &error.as_bytes()[..good];
        ReadError::NotText {
            line: before.split(|byte| *byte == b'\n').count(),
        }
    })
}

/// Reads a document from text.
pub fn read_text(text: &str) -> Result<Opened, ReadError> {
    let head: Head = options().from_str(text).map_err(|error| syntax(&error))?;
    if head.format > FORMAT {
        return read_newer(text, &head);
    }
    if head.format == 0 {
        return Err(ReadError::Field {
            line: line_of(text, "format"),
            error: FieldError {
                field: "format".to_owned(),
                reason: "must be 1 or more".to_owned(),
            },
        });
    }
    let file: File = options().from_str(text).map_err(|error| syntax(&error))?;
    check(&file.document).map_err(|error| field(text, error))?;
    Ok(Opened {
        document: file.document,
        read_only: None,
        notices: Vec::new(),
        stamp: None,
    })
}

pub(crate) fn syntax(error: &SpannedError) -> ReadError {
    let reason = match &error.code {
        ron::Error::ExpectedDifferentStructName { .. } | ron::Error::ExpectedNamedStructLike(_) => {
            format!("this is no document of this program; one begins with (format: {FORMAT},")
        }
        // The reader's own words are meant for programmers.
        ron::Error::ExceededRecursionLimit => "brackets are nested too deeply".to_owned(),
        other => other.to_string(),
    };
    ReadError::Syntax {
        line: error.span.start.line,
        column: error.span.start.col,
        reason,
    }
}

pub(crate) fn field(text: &str, error: FieldError) -> ReadError {
    ReadError::Field {
        line: line_of_path(text, &error.field),
        error,
    }
}

fn line_of(text: &str, word: &str) -> usize {
    text.lines()
        .position(|line| line.trim_start().starts_with(word))
        .map_or(1, |place| place + 1)
}

/// The line near which a field path such as `specs[0].trials[1].name` stands: walks down the text
/// name by name, and for an index passes that many siblings of equal indent.
fn line_of_path(text: &str, path: &str) -> usize {
    let lines: Vec<&str> = text.lines().collect();
    let indent = |line: &str| line.len() - line.trim_start().len();
    let mut at = 0;
    for part in path.split('.') {
        let (name, index) = match part.split_once('[') {
            Some((name, rest)) => (name, Some(rest.trim_end_matches(']'))),
            None => (part, None),
        };
        let found = lines[at..]
            .iter()
            .position(|line| line.trim_start().starts_with(&format!("{name}:")));
        let Some(found) = found else { break };
        at += found;
        let Some(index) = index else { continue };
        let inner = indent(lines[at]);
        let siblings = lines[at + 1..]
            .iter()
            .enumerate()
            .take_while(|(_, line)| line.trim().is_empty() || indent(line) > inner);
        let depth = lines.get(at + 1).map_or(0, |line| indent(line));
        let mut children = siblings
            .filter(|(_, line)| indent(line) == depth && !line.trim_start().starts_with(')'));
        let child = match index.parse::<usize>() {
            Ok(number) => children.nth(number),
            Err(_) => children.find(|(_, line)| line.trim_start().starts_with(index)),
        };
        if let Some((offset, _)) = child {
            at += offset + 1;
        }
    }
    at + 1
}
