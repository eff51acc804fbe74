//! How the window was left: its size, what it shows, how wide its panels are, the last export.

use super::beside::sum_of;
use super::format::{options, pretty};
use super::read::{text_within, within_values};
use super::whole::write_whole;
use crate::model::{Axis, Reader};
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Largest file accepted, bytes (our convention, no source).
const MAX_BYTES: u64 = 256 * 1024;
/// Most entries of a list that are taken back.
const MOST_ENTRIES: usize = 100;
/// Sides of a window that are taken back, points.
const SIDES: std::ops::RangeInclusive<f32> = 300.0..=20_000.0;
/// Places that are taken back, points.
const PLACES: std::ops::RangeInclusive<f32> = 0.0..=20_000.0;
/// Widths of panels and columns that are taken back, points.
const WIDTHS: std::ops::RangeInclusive<f32> = 20.0..=4_000.0;

/// How the window was left. Words stand for what the window knows by them; one that it does not know
/// counts as missing, so that a file of another version is no reason not to start.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct WindowLayout {
    /// Width and height without the frame, points at 100 %.
    pub size: Option<[f32; 2]>,
    /// Upper left corner, points at 100 %.
    pub place: Option<[f32; 2]>,
    /// It filled the screen.
    pub maximized: bool,
    /// The page on screen.
    pub page: String,
    /// The tab of each place that has tabs.
    pub tabs: BTreeMap<String, String>,
    /// What the charts show.
    pub shows: BTreeMap<String, bool>,
    /// Axes of the map, when chosen by hand.
    pub axes: Option<(Axis, Axis)>,
    /// For whom the sheet is shown.
    pub reader: Reader,
    /// Widths of panels and columns that are not the usual ones, points.
    pub widths: BTreeMap<String, f32>,
    /// Panels that are hidden.
    pub hidden: BTreeSet<String>,
    /// Column by which the larder is sorted.
    pub sorted_by: String,
    /// From the largest to the smallest.
    pub descending: bool,
    /// Document, drink and trial on screen.
    pub shown: Option<Shown>,
    /// Folder in which a file dialog was last.
    pub folder: Option<PathBuf>,
    /// The last sheet that was written.
    pub export: Option<LastExport>,
}

/// Document, drink and trial on screen.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Shown {
    /// File of the document.
    pub path: PathBuf,
    /// Number of the drink.
    pub spec: u32,
    /// Number of the trial.
    pub trial: Option<u32>,
}

/// The last sheet that was written, and how.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct LastExport {
    /// Path that was asked for.
    pub path: PathBuf,
    /// Kind of file.
    pub kind: String,
    /// Size of a chart alone, px.
    pub chart_px: [u32; 2],
    /// For whom.
    pub reader: Reader,
    /// Of which document and drink.
    pub drink: String,
    /// What was written, to be known again: path and fingerprint.
    pub written: Vec<(PathBuf, u64)>,
}

impl WindowLayout {
    /// Only what can stand.
    fn mended(mut self) -> Self {
        let holds = |range: &std::ops::RangeInclusive<f32>, pair: &[f32; 2]| {
            pair.iter().all(|side| range.contains(side))
        };
        self.size = self.size.filter(|size| holds(&SIDES, size));
        self.place = self.place.filter(|place| holds(&PLACES, place));
        if self.widths.len() > MOST_ENTRIES || self.hidden.len() > MOST_ENTRIES {
            self.widths.clear();
            self.hidden.clear();
        }
        self.widths.retain(|_, width| WIDTHS.contains(width));
        self
    }

    /// Without paths that are no text, which cannot be written down.
    fn writable(mut self) -> Self {
        let is_text = |path: &Path| path.to_str().is_some();
        self.shown = self.shown.filter(|shown| is_text(&shown.path));
        self.folder = self.folder.filter(|folder| is_text(folder));
        self.export = self.export.filter(|export| {
            is_text(&export.path) && export.written.iter().all(|(path, _)| is_text(path))
        });
        self
    }
}

/// Reads how the window was left; a file that is missing or damaged leaves the usual layout.
pub fn load_layout(path: &Path) -> WindowLayout {
    let text = text_within(path, MAX_BYTES).ok();
    let read = text
        .filter(|text| within_values(text).is_ok())
        .and_then(|text| options().from_str::<WindowLayout>(&text).ok());
    read.unwrap_or_default().mended()
}

/// Writes how the window was left, whole or not at all.
pub fn save_layout(layout: &WindowLayout, path: &Path) -> io::Result<()> {
    if let Some(folder) = path.parent() {
        fs::create_dir_all(folder)?;
    }
    let text = options()
        .to_string_pretty(&layout.clone().writable(), pretty())
        .map_err(io::Error::other)?;
    write_whole(path, (text + "\n").as_bytes())
}

/// A number by which a file's bytes are known again; no proof against forgery. `None` when it is no
/// file or cannot be read.
pub fn fingerprint(path: &Path) -> Option<u64> {
    let bytes = path.is_file().then(|| fs::read(path).ok())??;
    Some(sum_of(&bytes))
}
