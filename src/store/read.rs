//! Opening a document: limits first, then syntax, then what it says.

use super::format::{FORMAT, File, Head, options};
use super::newer::read_newer;
use crate::model::{Document, FieldError, check};
use ron::error::SpannedError;
use std::fs;
use std::io::{self, Read as _};
use std::path::{Path, PathBuf};
use std::time::SystemTime;

/// Largest file accepted, bytes.
pub(super) const MAX_BYTES: u64 = 32 * 1024 * 1024;
/// Most values of one text (our convention, no source): a document of this program as large as a file
/// may be holds fewer, and what they take while they are read stays below 300 MB.
pub(super) const MAX_VALUES: usize = 1_500_000;
/// What a map counts as, in values.
const VALUES_OF_A_MAP: usize = 8;

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
    #[error("is {megabytes:.1} MB; files above {limit} MB are refused")]
    TooLarge {
        /// Size, MB.
        megabytes: f64,
        /// Most that is read, MB.
        limit: u64,
    },
    /// Within the size limit, but with more values than a computer should have to hold.
    #[error("holds about {values} values; files with more than {MAX_VALUES} are refused")]
    TooMany {
        /// How many, about.
        values: usize,
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
    text_within(path, MAX_BYTES)
}

/// The same for a file of at most so many bytes; a larger one is refused before it is read.
pub(super) fn text_within(path: &Path, most: u64) -> Result<String, ReadError> {
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
    if facts.len() > most {
        return Err(too_large(facts.len(), most));
    }
    let file = fs::File::open(path).map_err(|error| unreadable(&error))?;
    let mut bytes = Vec::with_capacity(usize::try_from(facts.len()).unwrap_or(0));
    // It may grow while it is read.
    let mut limited = file.take(most + 1);
    limited
        .read_to_end(&mut bytes)
        .map_err(|error| unreadable(&error))?;
    if bytes.len() as u64 > most {
        return Err(too_large(bytes.len() as u64, most));
    }
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

/// How many values a text of RON or JSON holds at most, so that it can be refused before any of them
/// takes memory. Marks within texts count, too: nothing can hide in them. A map counts as several, for
/// it takes room for as many even when it holds one.
pub(super) fn values_in(text: &str) -> usize {
    let weight = |byte: &u8| match byte {
        b',' | b'(' | b'[' => 1,
        b'{' => VALUES_OF_A_MAP,
        _ => 0,
    };
    text.as_bytes().iter().map(weight).sum()
}

/// Refuses a text that would be refused as a file.
pub(super) fn within_limits(text: &str) -> Result<(), ReadError> {
    if text.len() as u64 > MAX_BYTES {
        return Err(too_large(text.len() as u64, MAX_BYTES));
    }
    within_values(text)
}

fn too_large(length: u64, most: u64) -> ReadError {
    ReadError::TooLarge {
        megabytes: length as f64 / 1_048_576.0,
        limit: most / 1_048_576,
    }
}

/// Refuses a text with more values than are held.
pub(super) fn within_values(text: &str) -> Result<(), ReadError> {
    match values_in(text) {
        values if values > MAX_VALUES => Err(ReadError::TooMany { values }),
        _ => Ok(()),
    }
}

/// Reads a document from text.
pub fn read_text(text: &str) -> Result<Opened, ReadError> {
    within_values(text)?;
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
        let head = format!("{name}:");
        let found = lines[at..]
            .iter()
            .position(|line| line.trim_start().starts_with(&head));
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
