//! Looks, display units, and what new documents begin with; nothing here changes a number of an open one.

use super::beginning::Beginning;
use super::format::{options, pretty};
use super::read::{ReadError, syntax, text_within, within_values};
use super::whole::write_whole;
use crate::units::Unit;
use serde::{Deserialize, Serialize};
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// Largest file of settings accepted, bytes (our convention, no source).
const MAX_BYTES: u64 = 1024 * 1024;
/// Most recent documents remembered.
const MAX_RECENT: usize = 12;

/// Sizes of everything on screen, %.
pub const SCALES_PCT: std::ops::RangeInclusive<u32> = 100..=200;
/// The usual size, %.
const USUAL_SCALE_PCT: u32 = 100;

/// Light, dark, or as the desktop says.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum ThemeChoice {
    /// As the desktop says.
    #[default]
    System,
    /// Light.
    Light,
    /// Dark.
    Dark,
}

/// Looks and display units of one person.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Settings {
    /// Theme.
    pub theme: ThemeChoice,
    /// Unit for new pours and for volumes.
    pub unit: Unit,
    /// Size of everything on screen, %; [`SCALES_PCT`].
    pub scale_pct: u32,
    /// Nothing glides or blinks.
    pub less_motion: bool,
    /// What new documents and drinks begin with.
    pub beginning: Beginning,
    /// Documents opened lately, newest first.
    pub recent: Vec<PathBuf>,
    /// Document that was open last, to open again.
    pub last: Option<PathBuf>,
    /// The guided start was shown, so that it does not come by itself; true of every file that does
    /// not say otherwise, since whoever has one has been here before.
    pub guided: bool,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            theme: ThemeChoice::default(),
            unit: Unit::Ml,
            scale_pct: USUAL_SCALE_PCT,
            less_motion: false,
            beginning: Beginning::default(),
            recent: Vec::new(),
            last: None,
            guided: true,
        }
    }
}

impl Settings {
    /// Puts a document at the head of the recent ones; a path that is no text cannot be written
    /// down and is passed over.
    pub fn remember(&mut self, path: &Path) {
        if path.to_str().is_none() {
            return;
        }
        self.recent.retain(|known| known != path);
        self.recent.insert(0, path.to_owned());
        self.recent.truncate(MAX_RECENT);
        self.last = Some(path.to_owned());
    }

    /// Puts what cannot stand back to what is usual, and says so.
    fn mend(&mut self) -> Option<String> {
        self.scale_pct = self.scale_pct.clamp(*SCALES_PCT.start(), *SCALES_PCT.end());
        if !Unit::JIGGERED.contains(&self.unit) {
            self.unit = Unit::Ml;
        }
        self.recent.truncate(MAX_RECENT);
        let error = self.beginning.check().err()?;
        self.beginning = Beginning::default();
        Some(format!(
            "Settings: {error}; new documents begin with the usual values."
        ))
    }
}

/// Reads settings from text; every field that is not there has its usual value.
pub fn read_settings_text(text: &str) -> Result<Settings, ReadError> {
    within_values(text)?;
    options().from_str(text).map_err(|error| syntax(&error))
}

/// Most damaged settings that are kept beside each other.
const MOST_ASIDE: u32 = 100;

/// A name for damaged settings that nothing bears yet; `None` where there are too many.
fn aside_of(path: &Path) -> Option<PathBuf> {
    let mut names = (1..=MOST_ASIDE).map(|number| match number {
        1 => path.with_extension("ron.damaged"),
        number => path.with_extension(format!("ron.damaged-{number}")),
    });
    names.find(|name| fs::symlink_metadata(name).is_err())
}

/// Reads settings; damaged ones are set aside as `settings.ron.damaged`, or with a number behind it,
/// and reported.
pub fn load_settings(path: &Path) -> (Settings, Option<String>) {
    let read = match text_within(path, MAX_BYTES) {
        Ok(text) => read_settings_text(&text),
        Err(ReadError::Unreadable { .. }) if !path.exists() => {
            let first = Settings {
                guided: false,
                ..Settings::default()
            };
            return (first, None);
        }
        Err(error) => Err(error),
    };
    match read {
        Ok(mut settings) => {
            let said = settings.mend();
            (settings, said)
        }
        Err(error) => {
            let kept = match aside_of(path).map(|aside| (fs::rename(path, &aside), aside)) {
                Some((Ok(()), aside)) => format!("kept as {}", aside.display()),
                Some((Err(error), _)) => format!("could not be set aside: {error}"),
                None => "left where they are: too many are set aside already".to_owned(),
            };
            let said = format!("Settings could not be read ({error}); {kept}.");
            (Settings::default(), Some(said))
        }
    }
}

/// Writes settings whole or not at all; a file there that cannot be read is left alone.
pub fn save_settings(settings: &Settings, path: &Path) -> io::Result<()> {
    if path.exists() {
        let there = text_within(path, MAX_BYTES).and_then(|text| read_settings_text(&text));
        there.map_err(|error| {
            io::Error::other(format!(
                "those in {} cannot be read, so they are left alone ({error})",
                path.display()
            ))
        })?;
    }
    if let Some(folder) = path.parent() {
        fs::create_dir_all(folder)?;
    }
    let text = options()
        .to_string_pretty(settings, pretty())
        .map_err(io::Error::other)?;
    write_whole(path, (text + "\n").as_bytes())
}
