//! One open document: edits, history, commands, derived values and notices.

mod commands;
mod derived;
mod edit;
mod edit_apply;
mod history;
mod job;
mod larder_edit;
mod larder_import;
mod notices;
mod open_document;
mod references;
mod reporting;
mod saving;
mod starting;
mod text;
mod today;

pub use commands::{COMMANDS, Command, CommandInfo, Key, Shortcut};
pub use derived::{Derived, Near, TrialPoint};
pub use edit::{Edit, EditError, MergeKey};
pub use history::{History, Step};
pub use job::{Ended, Job, Reins};
pub use larder_edit::{LarderEdit, users_of};
pub use larder_import::import_edit;
pub use notices::{Action, Notice, Severity, notices};
pub use open_document::{Selection, Session};
pub use references::{Reference, references};
pub use reporting::{MOST_DRAWS, ReportAsk, Reported, input_text, measure_next, report_text};
pub use saving::{SaveOutcome, SaveWhere};
pub use starting::{Start, blank_spec, spec_from_classic, spec_from_family};
pub use text::{change_text, document_as_text, obstacle_text, verdict_text};
pub use today::today;
