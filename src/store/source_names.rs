//! What a source key stands for, as `SOURCES.md` explains it.

use std::collections::BTreeMap;
use std::sync::OnceLock;

const SOURCES: &str = include_str!("../../sample_data/SOURCES.md");

/// What a source key such as `SR28` stands for; `None` for a key that nothing explains.
pub fn source_name(key: &str) -> Option<&'static str> {
    static NAMES: OnceLock<BTreeMap<&'static str, &'static str>> = OnceLock::new();
    let names = NAMES.get_or_init(|| SOURCES.lines().filter_map(row).collect());
    names.get(key).copied()
}

/// Key and meaning of a row of a table in `SOURCES.md`.
fn row(line: &'static str) -> Option<(&'static str, &'static str)> {
    let mut cells = line.strip_prefix('|')?.split('|').map(str::trim);
    let key = cells.next()?.strip_prefix('`')?.strip_suffix('`')?;
    Some((key, cells.next()?))
}
