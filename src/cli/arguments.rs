//! What was asked on the command line.

use crate::model::{Reader, ScaleRule};
use crate::session::CHART_SIDES_PX;
use lexopt::prelude::{Long, Short, Value};
use std::ffi::OsString;
use std::path::PathBuf;

/// What to do.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Verb {
    /// Open the window.
    #[default]
    Window,
    /// Print composition, balance and temperatures of a trial.
    Figures,
    /// Print proposals for a trial.
    Rebalance,
    /// Write the sheet of a trial.
    Sheet,
    /// Print what is prepared when.
    Prep,
    /// Print how to use the program.
    Help,
    /// Print the version.
    Version,
    /// Print the licences of the program and of what is built into it.
    Licences,
}

impl Verb {
    /// The word on the command line; blank where there is none.
    const fn name(self) -> &'static str {
        match self {
            Self::Figures => "figures",
            Self::Rebalance => "rebalance",
            Self::Sheet => "sheet",
            Self::Prep => "prep",
            Self::Window | Self::Help | Self::Version | Self::Licences => "",
        }
    }
}

/// Everything asked on the command line.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Arguments {
    /// What to do.
    pub verb: Verb,
    /// The document; without one the document open last, else the demo.
    pub file: Option<PathBuf>,
    /// Number or name of the drink.
    pub spec: Option<String>,
    /// Number or name of the trial.
    pub trial: Option<String>,
    /// Print JSON.
    pub json: bool,
    /// What stays fixed while rebalancing.
    pub hold: Option<ScaleRule>,
    /// For whom the sheet is.
    pub reader: Reader,
    /// Size of a chart alone, px.
    pub size: Option<[u32; 2]>,
    /// Write the output to this file instead of printing it.
    pub out: Option<PathBuf>,
}

/// A command line that makes no sense.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub struct UsageError(String);

impl From<lexopt::Error> for UsageError {
    fn from(error: lexopt::Error) -> Self {
        Self(error.to_string())
    }
}

/// Reads the command line, without the program's name.
pub fn parse(words: impl IntoIterator<Item = OsString>) -> Result<Arguments, UsageError> {
    let mut asked = Arguments::default();
    let (mut verb_said, mut reader_said) = (false, false);
    let mut parser = lexopt::Parser::from_args(words);
    while let Some(word) = parser.next()? {
        match word {
            Long("json") => asked.json = true,
            Long("spec") => asked.spec = Some(text(parser.value()?)?),
            Long("trial") => asked.trial = Some(text(parser.value()?)?),
            Long("hold") => asked.hold = Some(hold(&text(parser.value()?)?)?),
            Long("size") => asked.size = Some(size(&text(parser.value()?)?)?),
            Long("for") => {
                asked.reader = reader(&text(parser.value()?)?)?;
                reader_said = true;
            }
            Long("out") => asked.out = Some(parser.value()?.into()),
            Short('h') | Long("help") => asked.verb = Verb::Help,
            Short('V') | Long("version") => asked.verb = Verb::Version,
            Long("licences") => asked.verb = Verb::Licences,
            Value(value) if !verb_said && asked.file.is_none() && verb_of(&value).is_some() => {
                asked.verb = verb_of(&value).unwrap_or_default();
                verb_said = true;
            }
            Value(value) if asked.file.is_none() => asked.file = Some(value.into()),
            Value(value) => {
                let said = value.to_string_lossy().into_owned();
                return Err(UsageError(format!(
                    "one document at a time; what is \"{said}\"?"
                )));
            }
            other => return Err(other.unexpected().into()),
        }
    }
    let headless = matches!(
        asked.verb,
        Verb::Figures | Verb::Rebalance | Verb::Sheet | Verb::Prep
    );
    if headless && asked.file.is_none() {
        let verb = asked.verb.name();
        return Err(UsageError(format!(
            "name the document: equipour {verb} FILE"
        )));
    }
    let needs_verb = asked.json || asked.out.is_some() || asked.hold.is_some();
    if asked.verb == Verb::Window && needs_verb {
        return Err(UsageError(
            "--json, --out and --hold go with a verb: figures, rebalance, sheet or prep".to_owned(),
        ));
    }
    if asked.verb != Verb::Rebalance && asked.hold.is_some() {
        return Err(UsageError("--hold goes with rebalance".to_owned()));
    }
    if reader_said && asked.verb != Verb::Sheet {
        return Err(UsageError("--for goes with sheet".to_owned()));
    }
    if asked.verb == Verb::Prep && asked.json {
        let words = "--json goes with figures, rebalance or sheet; prep writes .csv and .ics";
        return Err(UsageError(words.to_owned()));
    }
    Ok(asked)
}

fn verb_of(word: &OsString) -> Option<Verb> {
    let word = word.to_str()?;
    let verbs = [Verb::Figures, Verb::Rebalance, Verb::Sheet, Verb::Prep];
    verbs.into_iter().find(|verb| verb.name() == word)
}

fn reader(word: &str) -> Result<Reader, UsageError> {
    let found = Reader::ALL.into_iter().find(|reader| reader.name() == word);
    found.ok_or_else(|| UsageError(format!("--for takes judges, bar or home, not \"{word}\"")))
}

/// "1600x900", px.
fn size(word: &str) -> Result<[u32; 2], UsageError> {
    let parts = word.split_once('x');
    let sides = parts.and_then(|(width, height)| Some([width.parse().ok()?, height.parse().ok()?]));
    let fits = |sides: &[u32; 2]| sides.iter().all(|side| CHART_SIDES_PX.contains(side));
    sides.filter(fits).ok_or_else(|| {
        UsageError(format!(
            "--size takes px such as 1600x900, each {} to {}, not \"{word}\"",
            CHART_SIDES_PX.start(),
            CHART_SIDES_PX.end()
        ))
    })
}

fn text(value: OsString) -> Result<String, UsageError> {
    value
        .into_string()
        .map_err(|odd| UsageError(format!("{} is not UTF-8 text", odd.to_string_lossy())))
}

fn hold(word: &str) -> Result<ScaleRule, UsageError> {
    match word {
        "nothing" => Ok(ScaleRule::None),
        "poured" => Ok(ScaleRule::PouredTotal),
        "served" => Ok(ScaleRule::ServedVolume),
        "base" => Ok(ScaleRule::BasePour),
        other => Err(UsageError(format!(
            "--hold takes nothing, poured, served or base, not \"{other}\""
        ))),
    }
}
