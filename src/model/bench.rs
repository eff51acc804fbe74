//! What was really poured at the bench, and pictures of it.

use super::pour::{Amount, Source};
use serde::{Deserialize, Serialize};

/// One making of a trial: every line as it was planned and as it was poured.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BenchRun {
    /// Day it was made, ISO 8601; empty when unknown.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub on: String,
    /// Its lines, in the order of the recipe as it was then.
    pub lines: Vec<PouredLine>,
    /// One remark.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// One line of a making.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PouredLine {
    /// What was poured.
    pub source: Source,
    /// How much was planned.
    pub planned: Amount,
    /// How much went in, of the same measure; `None` where it was left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub poured: Option<Amount>,
}

/// A picture, kept in a folder beside the document.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Photo {
    /// Plain name of the file in that folder.
    pub file: String,
    /// What it shows.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub caption: String,
}
