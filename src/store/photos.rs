//! Pictures of trials: files in a folder beside the document.
//!
//! A picture that is kept is never written over and never deleted. Its name holds a sum of its
//! bytes, so that folders of several documents can be put together.

use super::beside::{is_same_place, sum_of, with_ending};
use super::whole::{folder_of, shared_in};
use crate::model::is_plain_file;
use std::collections::BTreeSet;
use std::fs;
use std::io::{self, Read as _, Write as _};
use std::path::{Path, PathBuf};

/// Largest picture, bytes (our convention, no source).
pub const MAX_PHOTO_BYTES: u64 = 12 * 1024 * 1024;
/// First bytes of a PNG file (ISO/IEC 15948, 5.2).
const PNG: [u8; 8] = [0x89, b'P', b'N', b'G', b'\r', b'\n', 0x1A, b'\n'];
/// First bytes of a JPEG file: start of image and the first byte of a marker (ITU-T T.81, annex B).
const JPEG: [u8; 3] = [0xFF, 0xD8, 0xFF];
/// Most letters taken over from the name of a picture.
const MOST_LETTERS: usize = 40;
/// Most names that are tried for one picture.
const MOST_TRIES: u32 = 1_000;

/// Why a picture was not kept or cannot be shown; no file was changed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PhotoError {
    /// The document has no file, so there is no folder beside it.
    #[error("save the document first: pictures are kept in a folder beside it")]
    NoDocument,
    /// There is no such file.
    #[error("the picture {file} is missing: {folder} does not hold it", folder = .folder.display())]
    Missing {
        /// Name of the file.
        file: String,
        /// Where it was looked for.
        folder: PathBuf,
    },
    /// Not PNG or JPEG by its first bytes.
    #[error("{file} is no PNG or JPEG picture")]
    NotAPicture {
        /// File.
        file: String,
    },
    /// Above the size limit.
    #[error("{file} is larger than {limit} MB", limit = MAX_PHOTO_BYTES / 1_048_576)]
    TooLarge {
        /// File.
        file: String,
    },
    /// The file system refused to read.
    #[error("cannot read {file}: {reason}")]
    Unreadable {
        /// File.
        file: String,
        /// What the system said.
        reason: String,
    },
    /// The file system refused to write.
    #[error("cannot keep a picture in {folder}: {reason}", folder = .folder.display())]
    Unwritable {
        /// Folder.
        folder: PathBuf,
        /// What the system said.
        reason: String,
    },
    /// Another picture bears the name in the folder that it should go to.
    #[error("{folder} holds another picture called {file} already", folder = .folder.display())]
    Taken {
        /// Name of the file.
        file: String,
        /// Folder.
        folder: PathBuf,
    },
}

/// The folder of a document's pictures: `twist.ron` keeps them in `twist.photos`.
pub fn photo_folder(document: &Path) -> PathBuf {
    let name = document.file_stem().unwrap_or_default();
    document.with_file_name(with_ending(name, ".photos"))
}

/// Copies a picture into the folder of a document and gives its name there.
///
/// The name is new, unless the folder holds the very same picture under it. What a picture is, its
/// first bytes say. On an error nothing is left behind.
pub fn keep_photo(document: &Path, picture: &Path) -> Result<String, PhotoError> {
    let told = picture.display().to_string();
    let bytes = read_bytes(picture, &told)?;
    let Some(kind) = kind_of(&bytes) else {
        return Err(PhotoError::NotAPicture { file: told });
    };
    let folder = photo_folder(document);
    let stem = format!("{}-{:016x}", plain(picture), sum_of(&bytes));
    for number in 1..=MOST_TRIES {
        let name = match number {
            1 => format!("{stem}.{kind}"),
            number => format!("{stem}-{number}.{kind}"),
        };
        match put(&folder, &name, &bytes) {
            Ok(()) => return Ok(name),
            Err(PhotoError::Taken { .. }) => {}
            Err(error) => return Err(error),
        }
    }
    let reason = "too many pictures of that name".to_owned();
    Err(PhotoError::Unwritable { folder, reason })
}

/// The bytes of a kept picture.
pub fn read_photo(document: &Path, file: &str) -> Result<Vec<u8>, PhotoError> {
    let folder = photo_folder(document);
    let path = folder.join(file);
    if !is_plain_file(file) || !path.exists() {
        let file = file.to_owned();
        return Err(PhotoError::Missing { file, folder });
    }
    let bytes = read_bytes(&path, file)?;
    if kind_of(&bytes).is_none() {
        let file = file.to_owned();
        return Err(PhotoError::NotAPicture { file });
    }
    Ok(bytes)
}

/// Copies pictures along to the folder of another document; those that cannot be read stay behind and
/// are missing there.
///
/// Pictures there are left alone: another one under the same name is an error.
pub fn copy_photos<'a>(
    from: &Path,
    to: &Path,
    files: impl IntoIterator<Item = &'a str>,
) -> Result<(), PhotoError> {
    let (source, target) = (photo_folder(from), photo_folder(to));
    if is_same_place(&source, &target) {
        return Ok(());
    }
    for file in files.into_iter().collect::<BTreeSet<_>>() {
        if let Ok(bytes) = read_photo(from, file) {
            put(&target, file, &bytes)?;
        }
    }
    Ok(())
}

/// Puts a picture under a name, whole or not at all; the same picture there is as good.
fn put(folder: &Path, name: &str, bytes: &[u8]) -> Result<(), PhotoError> {
    let there = folder.join(name);
    if fs::symlink_metadata(&there).is_ok() {
        let same = read_bytes(&there, name).is_ok_and(|known| known == bytes);
        let taken = || PhotoError::Taken {
            file: name.to_owned(),
            folder: folder.to_owned(),
        };
        return if same { Ok(()) } else { Err(taken()) };
    }
    let is_new = !folder.exists();
    let done = write_new(folder, &there, bytes);
    if done.is_err() && is_new {
        // Only an empty folder goes; one that is filled meanwhile stays.
        fs::remove_dir(folder).unwrap_or_default();
    }
    done.map_err(|error| PhotoError::Unwritable {
        folder: folder.to_owned(),
        reason: error.to_string(),
    })
}

fn write_new(folder: &Path, to: &Path, bytes: &[u8]) -> io::Result<()> {
    if !folder_of(folder).is_dir() {
        let reason = "the folder of the document does not exist";
        return Err(io::Error::new(io::ErrorKind::NotFound, reason));
    }
    if !folder.is_dir() {
        fs::create_dir(folder)?;
    }
    let mut file = shared_in(folder)?;
    file.write_all(bytes)?;
    file.as_file().sync_all()?;
    file.persist_noclobber(to).map_err(|error| error.error)?;
    Ok(())
}

/// All bytes of a file that is a file and not too large.
fn read_bytes(path: &Path, told: &str) -> Result<Vec<u8>, PhotoError> {
    let failed = |error: io::Error| PhotoError::Unreadable {
        file: told.to_owned(),
        reason: error.to_string(),
    };
    let facts = fs::metadata(path).map_err(failed)?;
    if !facts.is_file() {
        let reason = "it is not a file".to_owned();
        let file = told.to_owned();
        return Err(PhotoError::Unreadable { file, reason });
    }
    let too_large = || PhotoError::TooLarge {
        file: told.to_owned(),
    };
    if facts.len() > MAX_PHOTO_BYTES {
        return Err(too_large());
    }
    let mut bytes = Vec::new();
    let file = fs::File::open(path).map_err(failed)?;
    // It may grow while it is read.
    let mut limited = file.take(MAX_PHOTO_BYTES + 1);
    limited.read_to_end(&mut bytes).map_err(failed)?;
    if bytes.len() as u64 > MAX_PHOTO_BYTES {
        return Err(too_large());
    }
    Ok(bytes)
}

/// The usual ending of a picture, by its first bytes.
fn kind_of(bytes: &[u8]) -> Option<&'static str> {
    if bytes.starts_with(&PNG) {
        Some("png")
    } else {
        bytes.starts_with(&JPEG).then_some("jpg")
    }
}

/// The ASCII letters and digits of a file's name, the rest as hyphens.
fn plain(picture: &Path) -> String {
    let stem = picture.file_stem().unwrap_or_default().to_string_lossy();
    let mut name = String::new();
    for letter in stem.chars().take(MOST_LETTERS) {
        if letter.is_ascii_alphanumeric() {
            name.push(letter.to_ascii_lowercase());
        } else if !name.is_empty() && !name.ends_with('-') {
            name.push('-');
        }
    }
    let name = name.trim_end_matches('-');
    if name.is_empty() {
        "picture".to_owned()
    } else {
        name.to_owned()
    }
}
