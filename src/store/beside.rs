//! Names of what stands beside a document.

use std::ffi::{OsStr, OsString};
use std::fs;
use std::path::{Path, PathBuf};

/// Longest name that the usual file systems take, bytes (NAME_MAX of limits.h on Linux).
const LONGEST: usize = 255;
/// Letters of a sum and the mark before it.
const SUM: usize = 17;

/// The previous version beside a file: `twist.ron` keeps `twist.ron.bak`.
pub fn backup_path(path: &Path) -> PathBuf {
    let name = path.file_name().unwrap_or_default();
    path.with_file_name(with_ending(name, ".bak"))
}

/// Paths, each with whether something is there now; a folder that is slow to answer is waited for.
pub fn those_there(paths: &[PathBuf]) -> Vec<(PathBuf, bool)> {
    let asked = paths.iter();
    asked.map(|path| (path.clone(), path.exists())).collect()
}

/// True when two paths lead to the same file or folder.
pub fn is_same_place(one: &Path, other: &Path) -> bool {
    let real = |path: &Path| fs::canonicalize(path).ok();
    one == other || real(one).is_some_and(|one| real(other) == Some(one))
}

/// A name with something behind it; one that would be too long is cut, and a sum of the whole keeps
/// names apart that differ only in what was cut.
pub(super) fn with_ending(name: &OsStr, ending: &str) -> OsString {
    if name.len() + ending.len() <= LONGEST {
        let mut whole = name.to_owned();
        whole.push(ending);
        return whole;
    }
    let room = LONGEST - ending.len() - SUM;
    let mut cut = String::new();
    for letter in name.to_string_lossy().chars() {
        if cut.len() + letter.len_utf8() > room {
            break;
        }
        cut.push(letter);
    }
    format!("{cut}~{:016x}{ending}", sum_of(name.as_encoded_bytes())).into()
}

/// A sum of all bytes that tells pictures, paths and exports apart: FNV-1a of 64 bits (Fowler, Noll,
/// Vo; offset and prime from memory).
pub(super) fn sum_of(bytes: &[u8]) -> u64 {
    const OFFSET: u64 = 0xcbf2_9ce4_8422_2325;
    const PRIME: u64 = 0x0100_0000_01b3;
    let step = |sum: u64, byte: &u8| (sum ^ u64::from(*byte)).wrapping_mul(PRIME);
    bytes.iter().fold(OFFSET, step)
}
