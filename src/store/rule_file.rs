//! One set of rules as a file of its own, and those that come with the program.

use super::format::{FORMAT, Head, WRITER, options};
use super::read::{ReadError, field, syntax, text_of, within_values};
use super::write::{SaveError, put_text, text_of_file};
use crate::model::{FieldError, RuleSet, check_one_rule_set};
use serde::{Deserialize, Serialize};
use std::path::Path;
use std::sync::{Arc, OnceLock};

/// Sets of invented competitions, in the order of the list.
const BUILT_IN: [&str; 3] = [
    include_str!("../../sample_data/rule_sets/harbour_lights.ron"),
    include_str!("../../sample_data/rule_sets/lantern_street.ron"),
    include_str!("../../sample_data/rule_sets/saltmarsh.ron"),
];

/// A set of rules with its head.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename = "File")]
struct RuleFile<R = RuleSet> {
    format: u32,
    writer: String,
    rules: R,
}

/// Why a set of rules was not written; the file on disk is as it was.
#[derive(Debug, thiserror::Error)]
pub enum RuleSaveError {
    /// There is a file of that name; it is replaced only when that was asked for.
    #[error("there is a file of that name already")]
    Exists,
    /// The set holds something that could not be read back.
    #[error("the rules cannot be saved: {0}")]
    Field(FieldError),
    /// The file system refused, or the file there is no set of rules that can be read.
    #[error(transparent)]
    Save(#[from] SaveError),
}

/// Reads a set of rules from a file.
///
/// Damage is named with its line and column, as in documents; a file of a later format is refused.
pub fn read_rule_set(path: &Path) -> Result<RuleSet, ReadError> {
    read_rule_text(&text_of(path)?)
}

/// Reads a set of rules from text.
pub fn read_rule_text(text: &str) -> Result<RuleSet, ReadError> {
    within_values(text)?;
    let head: Head = options().from_str(text).map_err(|error| syntax(&error))?;
    if head.format > FORMAT {
        return Err(ReadError::Newer {
            format: head.format,
            writer: head.writer,
            reason: "rules of a later version are not read".to_owned(),
        });
    }
    if head.format == 0 {
        let error = FieldError {
            field: "format".to_owned(),
            reason: "must be 1 or more".to_owned(),
        };
        return Err(field(text, error));
    }
    let file: RuleFile = options().from_str(text).map_err(|error| syntax(&error))?;
    check_one_rule_set(&file.rules).map_err(|error| field(text, error))?;
    Ok(file.rules)
}

/// The text of a set of rules as it is saved.
pub fn rule_set_text(set: &RuleSet) -> Result<String, RuleSaveError> {
    check_one_rule_set(set).map_err(RuleSaveError::Field)?;
    Ok(text_of_file(&RuleFile {
        format: FORMAT,
        writer: WRITER.to_owned(),
        rules: set,
    })?)
}

/// Writes a set of rules to a file, whole or not at all.
///
/// A file there is replaced only when `replace` is set, and only if it is a set of rules that can be
/// read; it stays beside the new one as `.bak`.
pub fn save_rule_set(set: &RuleSet, path: &Path, replace: bool) -> Result<(), RuleSaveError> {
    let text = rule_set_text(set)?;
    if path.is_file() {
        if !replace {
            return Err(RuleSaveError::Exists);
        }
        read_rule_set(path).map_err(SaveError::WouldLose)?;
    }
    put_text(path, &text)?;
    Ok(())
}

/// The sets of rules that come with the program: invented competitions with usual rules.
pub fn built_in_rule_sets() -> &'static [Arc<RuleSet>] {
    static READ: OnceLock<Vec<Arc<RuleSet>>> = OnceLock::new();
    // The texts are part of the program and the test below reads them: none is left out.
    READ.get_or_init(|| {
        let read = BUILT_IN.iter().map(|text| read_rule_text(text));
        read.flatten().map(Arc::new).collect()
    })
}

#[cfg(test)]
mod tests {
    use super::{BUILT_IN, read_rule_text};

    #[test]
    fn the_built_in_sets_read_and_their_first_mistake_is_named() {
        for text in BUILT_IN {
            let found = read_rule_text(text).map_err(|error| error.to_string());
            assert_eq!(found.map(|set| set.rules.is_empty()), Ok(false));
        }
    }
}
