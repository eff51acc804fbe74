//! Where the program keeps its own files.

use std::path::{Path, PathBuf};

/// Names the environment variable that moves all folders.
pub const HOME_VARIABLE: &str = "EQUIPOUR_HOME";

/// Folders for settings and for unsaved work.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Folders {
    config: PathBuf,
    data: PathBuf,
}

impl Folders {
    /// The desktop's usual folders, or those below [`HOME_VARIABLE`]; `None` without a home.
    pub fn usual() -> Option<Self> {
        if let Some(home) = std::env::var_os(HOME_VARIABLE).filter(|home| !home.is_empty()) {
            return Some(Self::below(Path::new(&home)));
        }
        let dirs = directories::ProjectDirs::from("", "", "equipour")?;
        Some(Self {
            config: dirs.config_dir().to_owned(),
            data: dirs.data_dir().to_owned(),
        })
    }

    /// Folders below one place.
    pub fn below(home: &Path) -> Self {
        Self {
            config: home.join("config"),
            data: home.join("data"),
        }
    }

    /// The settings file.
    pub fn settings_file(&self) -> PathBuf {
        self.config.join("settings.ron")
    }

    /// File of how the window was left.
    pub fn layout_file(&self) -> PathBuf {
        self.config.join("window.ron")
    }

    /// Folder of unsaved work.
    pub fn unsaved(&self) -> PathBuf {
        self.data.join("unsaved")
    }

    /// Folder of marks of open documents.
    pub fn open_marks(&self) -> PathBuf {
        self.data.join("open")
    }
}
