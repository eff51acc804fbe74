//! A part of a test as a process of its own, under limits or as another person.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// Names the folder in which the part works; without it the part does nothing.
pub(crate) const FOLDER: &str = "EQUIPOUR_CHILD_FOLDER";

/// The folder, where this is the process that was started for it.
pub(crate) fn folder() -> Option<PathBuf> {
    std::env::var_os(FOLDER).map(PathBuf::from)
}

/// Runs an ignored test of this program behind `wrap`, which ends in what runs its arguments.
pub(crate) fn run(wrap: &[&str], test: &str, folder: &Path) -> Output {
    let program = std::env::current_exe().expect("this program");
    let mut command = Command::new(wrap[0]);
    command.args(&wrap[1..]).arg(program);
    command.args(["--exact", test, "--ignored", "--nocapture"]);
    command.env(FOLDER, folder);
    command.output().expect("it starts")
}

/// Runs it and fails with what it said unless it passed, too.
#[track_caller]
pub(crate) fn passes(wrap: &[&str], test: &str, folder: &Path) {
    let ran = run(wrap, test, folder);
    let said = String::from_utf8_lossy(&ran.stdout).into_owned();
    let errors = String::from_utf8_lossy(&ran.stderr).into_owned();
    assert!(
        ran.status.success() && said.contains("1 passed"),
        "{said}\n{errors}"
    );
}
