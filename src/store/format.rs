//! The file around a document: a format number and who wrote it.

use crate::model::Document;
use ron::Options;
use ron::extensions::Extensions;
use ron::ser::PrettyConfig;
use serde::{Deserialize, Serialize};

/// Format number that this program writes.
pub const FORMAT: u32 = 6;
/// Name and version put into every file.
pub const WRITER: &str = concat!("equipour ", env!("CARGO_PKG_VERSION"));

/// The first lines of any file, whatever its format.
#[derive(Clone, Debug, Deserialize)]
#[serde(rename = "File")]
pub(crate) struct Head {
    pub(crate) format: u32,
    #[serde(default)]
    pub(crate) writer: String,
}

/// A document with its head.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct File<D = Document> {
    pub(crate) format: u32,
    pub(crate) writer: String,
    pub(crate) document: D,
}

/// Reading and writing rules: optional fields need no `Some(…)`.
pub(crate) fn options() -> Options {
    Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

/// Line breaks and indents; fixed, so that differences between versions stay small.
pub(crate) fn pretty() -> PrettyConfig {
    PrettyConfig::new()
        .new_line("\n")
        .indentor("  ")
        .struct_names(false)
        .compact_arrays(false)
        .depth_limit(12)
}
