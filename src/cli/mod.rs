//! The headless verbs: the same figures and proposals as the window, for scripts and terminals.

mod arguments;
mod json;
mod run;
mod sheet_verb;
mod terminal;

pub use arguments::{Arguments, UsageError, Verb, parse};
pub use run::{CliError, NOTICES, USAGE, run_verb, select};
pub use terminal::for_terminal;
