//! Writing a sheet to files on a thread of its own.

use super::job::{Ended, Job};
use super::service_papers::ServicePapers;
use super::sheet_file::SheetFile;
use super::sheet_view::SheetView;
use crate::store::{ExportError, fingerprint, write_export};
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::Ordering;

/// Why nothing, or not everything, was written.
#[derive(Debug)]
pub enum SheetExportError {
    /// The files could not be made.
    Made(String),
    /// A file could not be written.
    Written(ExportError),
}

/// A sheet on its way to a file.
pub type SheetExport = Job<Result<Vec<PathBuf>, SheetExportError>>;

/// Parts of the work: making the bytes, writing them.
const PARTS: usize = 2;

/// What a file may be written over.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Over {
    /// Nothing: every file that is there is in the way.
    Nothing,
    /// Any file.
    Anything,
    /// Files that are still as they were written from here: path and fingerprint.
    Own(Vec<(PathBuf, u64)>),
}

impl Over {
    fn allows(&self, path: &Path) -> bool {
        match self {
            Self::Nothing => false,
            Self::Anything => true,
            Self::Own(known) => known
                .iter()
                .any(|(own, print)| own == path && fingerprint(path) == Some(*print)),
        }
    }
}

/// Begins to write a sheet, or its chart in a size in px; a file that is there is replaced only if that was asked for.
pub fn export_sheet(
    (view, papers): (&Arc<SheetView>, &Arc<ServicePapers>),
    kind: SheetFile,
    chart_px: [u32; 2],
    (path, over): (PathBuf, Over),
    wake: impl FnOnce() + Send + 'static,
) -> io::Result<SheetExport> {
    let (view, papers) = (Arc::clone(view), Arc::clone(papers));
    Job::start("sheet", PARTS, 0, wake, move |reins| {
        let made = kind.bytes(&view, &papers, chart_px);
        reins.done.fetch_add(1, Ordering::Relaxed);
        if reins.cancelled.load(Ordering::Relaxed) {
            return None;
        }
        Some(
            made.map_err(|error| SheetExportError::Made(error.to_string()))
                .and_then(|files| {
                    write_over(&files, &path, &over).map_err(SheetExportError::Written)
                }),
        )
    })
}

/// Writes files under names that follow a path; nothing is written where one of them is in the way.
pub fn write_sheet(
    files: &[(String, Vec<u8>)],
    path: &Path,
    replace: bool,
) -> Result<Vec<PathBuf>, ExportError> {
    let over = if replace {
        Over::Anything
    } else {
        Over::Nothing
    };
    write_over(files, path, &over)
}

fn write_over(
    files: &[(String, Vec<u8>)],
    path: &Path,
    over: &Over,
) -> Result<Vec<PathBuf>, ExportError> {
    let paths: Vec<PathBuf> = files
        .iter()
        .map(|(behind, _)| beside(path, behind))
        .collect();
    if paths.iter().any(|path| path.exists() && !over.allows(path)) {
        return Err(ExportError::Exists);
    }
    for ((_, bytes), path) in files.iter().zip(&paths) {
        write_export(path, bytes, !matches!(over, Over::Nothing))?;
    }
    Ok(paths)
}

/// The path with something behind the name, before its extension.
fn beside(path: &Path, behind: &str) -> PathBuf {
    if behind.is_empty() {
        return path.to_owned();
    }
    let mut name = path.file_stem().unwrap_or_default().to_owned();
    name.push(behind);
    if let Some(kind) = path.extension() {
        name.push(".");
        name.push(kind);
    }
    path.with_file_name(name)
}

/// What came of an export: where it was written, or why not; `None` while it runs.
pub fn exported_sheet(job: &mut SheetExport) -> Option<Result<Vec<PathBuf>, SheetExportError>> {
    Some(match job.take()? {
        Ended::Done(done) => done,
        Ended::Cancelled => Err(SheetExportError::Made("it was stopped".to_owned())),
        Ended::Failed => Err(SheetExportError::Made(
            "the work broke down; nothing was written".to_owned(),
        )),
    })
}
