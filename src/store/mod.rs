//! What stays: documents, settings, autosave and the built-in larder.
//!
//! The only place that touches files.

mod autosave;
mod builtin;
mod builtin_rows;
mod folders;
mod format;
mod newer;
mod read;
mod settings;
mod write;

pub use autosave::{Autosave, Recovered, recoverable};
pub use builtin::{Builtin, BuiltinError, DEMO, LARDER_VERSION};
pub use folders::{Folders, HOME_VARIABLE};
pub use format::{FORMAT, WRITER};
pub use read::{Opened, ReadError, Stamp, read_document, read_text};
pub use settings::{Settings, ThemeChoice, load_settings, save_settings};
pub use write::{SaveError, document_text, save_document, save_over, write_text};
