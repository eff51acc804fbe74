//! Carries a headless verb out.

use super::arguments::{Arguments, Verb};
use super::terminal::for_terminal;
use super::{json, sheet_verb};
use crate::model::{Spec, Trial};
use crate::session::{Edit, EditError, Session, document_as_text};
use crate::store::{Builtin, BuiltinError, ReadError, is_same_place, write_export};
use std::path::PathBuf;
use std::sync::Arc;

/// How to use the program.
pub const USAGE: &str = "\
equipour [FILE]              open the window on a document, on the one open last, or on the demo
equipour figures FILE        composition, balance and temperatures of a trial
equipour rebalance FILE      proposals that bring a trial to its target
equipour sheet FILE          the sheet: --out .pdf, .png, .md, .txt, .json, .csv or .svg; else as text
equipour prep FILE           what is bought and prepared when: --out .ics, .pdf or .csv; else as text

  --spec NUMBER|NAME         the drink; the last one without it
  --trial NUMBER|NAME        the trial; the latest one without it
  --json                     as JSON
  --for judges|bar|home      whose sheet it is (judges)
  --size WIDTHxHEIGHT        size of a chart alone (.svg), px (1280x800)
  --out PATH                 write to a file instead of printing
  --hold nothing|poured|served|base
                             what stays fixed while rebalancing (nothing)
  --licences                 the licences of the program and of everything built into it
  -h, --help                 this page
  -V, --version              the version

Exit codes: 0 done, 1 the input is wrong, 2 the command line is wrong.
EQUIPOUR_HOME moves the folders of settings and unsaved work.
";

/// Licences of the program, of the crates and of the fonts built into it, as text.
pub const NOTICES: &str = crate::session::LICENCES;

/// Why a verb failed; exit code 1.
#[derive(Debug, thiserror::Error)]
pub enum CliError {
    /// The document could not be opened.
    #[error("{path}: {error}", path = .path.display())]
    Read {
        /// The document.
        path: PathBuf,
        /// Why.
        error: ReadError,
    },
    /// There is no such drink or trial.
    #[error("the document has no {what} \"{name}\"; it has {known}")]
    NoSuch {
        /// "drink" or "trial".
        what: &'static str,
        /// What was asked for.
        name: String,
        /// What there is.
        known: String,
    },
    /// The document holds no drink.
    #[error("the document holds no drink")]
    NoDrink,
    /// The trial cannot be worked out.
    #[error("{0}")]
    Model(String),
    /// The rule to hold could not be set.
    #[error(transparent)]
    Edit(#[from] EditError),
    /// The embedded tables are defective.
    #[error(transparent)]
    Builtin(#[from] BuiltinError),
    /// The output could not be written.
    #[error("cannot write: {reason} ({path})", path = .path.display())]
    Write {
        /// Where.
        path: PathBuf,
        /// What the system said.
        reason: String,
    },
}

/// Carries a verb out; gives the text to print, which is empty when it went to a file.
pub fn run_verb(asked: &Arguments) -> Result<String, CliError> {
    let path = asked.file.clone().unwrap_or_default();
    if let Some(out) = asked.out.as_ref().filter(|out| is_same_place(out, &path)) {
        return Err(CliError::Write {
            path: out.clone(),
            reason: "it is the document itself".to_owned(),
        });
    }
    let mut session = Session::new(
        Arc::new(Builtin::load()?),
        crate::model::Document::default(),
    );
    session
        .open(&path)
        .map_err(|error| CliError::Read { path, error })?;
    select(&mut session, asked)?;
    if asked.verb == Verb::Rebalance {
        hold(&mut session, asked)?;
    }
    session.refresh();
    match asked.verb {
        Verb::Sheet => return sheet_verb::sheet(&session, asked),
        Verb::Prep => return sheet_verb::prep(&session, asked),
        _ => {}
    }
    let text = if asked.json {
        json_text(&session, asked.verb)?
    } else {
        plain_text(&session)?
    };
    let text = for_terminal(&text).into_owned();
    match &asked.out {
        None => Ok(text),
        Some(path) => match write_export(path, text.as_bytes(), true) {
            Ok(()) => Ok(String::new()),
            Err(error) => Err(CliError::Write {
                path: path.clone(),
                reason: error.to_string(),
            }),
        },
    }
}

/// Shows the drink and the trial that were asked for.
pub fn select(session: &mut Session, asked: &Arguments) -> Result<(), CliError> {
    let document = Arc::clone(session.document());
    let spec = match &asked.spec {
        None => document.specs.last().ok_or(CliError::NoDrink)?,
        Some(name) => find(&document.specs, name, |spec: &Spec| (spec.id.0, &spec.name))
            .ok_or_else(|| no_such("drink", name, document.specs.iter().map(|spec| &spec.name)))?,
    };
    let trial = match &asked.trial {
        None => spec.latest().ok_or(CliError::NoDrink)?,
        Some(name) => find(&spec.trials, name, |trial: &Arc<Trial>| {
            (trial.id.0, &trial.name)
        })
        .ok_or_else(|| no_such("trial", name, spec.trials.iter().map(|trial| &trial.name)))?,
    };
    session.select_trial(trial.id);
    Ok(())
}

fn find<'a, T>(all: &'a [T], name: &str, key: impl Fn(&T) -> (u32, &String)) -> Option<&'a T> {
    let number: Option<u32> = name.parse().ok();
    all.iter().find(|one| {
        let (id, known) = key(one);
        Some(id) == number || known.eq_ignore_ascii_case(name)
    })
}

fn no_such<'a>(
    what: &'static str,
    name: &str,
    known: impl Iterator<Item = &'a String>,
) -> CliError {
    let known: Vec<&str> = known.map(String::as_str).collect();
    CliError::NoSuch {
        what,
        name: name.to_owned(),
        known: known.join(", "),
    }
}

/// The drink's own rule stays unless another one is asked for.
fn hold(session: &mut Session, asked: &Arguments) -> Result<(), CliError> {
    let Some(spec) = session.spec() else {
        return Err(CliError::NoDrink);
    };
    let Some(rule) = asked.hold else {
        return Ok(());
    };
    let mut balancing = spec.balancing;
    balancing.scale_rule = rule;
    let edit = Edit::SetBalancing {
        spec: spec.id,
        balancing,
    };
    session.ask_only();
    session.edit(&edit)?;
    Ok(())
}

fn json_text(session: &Session, verb: Verb) -> Result<String, CliError> {
    let (Some(spec), Some(trial), Some(derived)) =
        (session.spec(), session.trial(), session.derived())
    else {
        return Err(CliError::NoDrink);
    };
    let model = |error: &dyn std::fmt::Display| CliError::Model(error.to_string());
    let value = if verb == Verb::Rebalance {
        let answer = derived.answer.as_ref().map_err(|error| model(error))?;
        json::rebalance(session, spec, trial, answer)
    } else {
        let found = derived.figures.as_ref().map_err(|error| model(error))?;
        json::figures(session, spec, trial, derived, found)
    };
    Ok(format!("{value:#}\n"))
}

fn plain_text(session: &Session) -> Result<String, CliError> {
    let Some(derived) = session.derived() else {
        return Err(CliError::NoDrink);
    };
    if let Err(error) = &derived.figures {
        return Err(CliError::Model(error.to_string()));
    }
    Ok(document_as_text(session))
}
