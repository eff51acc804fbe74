//! Decides between the window and a verb, prints one error, sets the exit code.
#![expect(clippy::print_stderr, reason = "this is the program's mouth")]

use equipour::cli::{Arguments, NOTICES, USAGE, Verb, for_terminal, parse, run_verb, select};
use equipour::model::Document;
use equipour::session::{FileHands, OpenFailure, Session, document_as_text};
use equipour::store::{
    Autosave, Builtin, DEMO, Folders, OpenMarks, Settings, WRITER, load_settings, read_text,
    recoverable,
};
use equipour::ui::{LaunchError, Window, open_window};
use std::io::Write as _;
use std::process::ExitCode;
use std::sync::Arc;

fn main() -> ExitCode {
    let asked = match parse(std::env::args_os().skip(1)) {
        Ok(asked) => asked,
        Err(error) => {
            let said = error.to_string();
            eprintln!("equipour: {}\n\n{USAGE}", for_terminal(&said));
            return ExitCode::from(2);
        }
    };
    let done = match asked.verb {
        Verb::Help => Ok(USAGE.to_owned()),
        Verb::Version => Ok(format!("{WRITER}\n")),
        Verb::Licences => Ok(NOTICES.to_owned()),
        Verb::Figures | Verb::Rebalance | Verb::Sheet | Verb::Prep => {
            run_verb(&asked).map_err(|error| error.to_string())
        }
        Verb::Window => window(&asked),
    };
    match done {
        // A reader that went away, such as `head`, is no error.
        Ok(text) => match std::io::stdout().write_all(for_terminal(&text).as_bytes()) {
            Err(error) if error.kind() != std::io::ErrorKind::BrokenPipe => {
                eprintln!("equipour: cannot print: {error}");
                ExitCode::FAILURE
            }
            _ => ExitCode::SUCCESS,
        },
        Err(error) => {
            eprintln!("equipour: {}", for_terminal(&error));
            ExitCode::FAILURE
        }
    }
}

/// Opens the window; without a display the same document is given as text.
fn window(asked: &Arguments) -> Result<String, String> {
    let builtin = Arc::new(Builtin::load().map_err(|error| error.to_string())?);
    let folders = Folders::usual();
    let (mut settings, mut said) = match &folders {
        Some(folders) => {
            let (settings, trouble) = load_settings(&folders.settings_file());
            (settings, trouble.into_iter().collect::<Vec<_>>())
        }
        None => (Settings::default(), Vec::new()),
    };
    let mut not_opened = None;
    let session = session(asked, &builtin, &mut settings, (&mut said, &mut not_opened))?;
    let document = document_as_text(&session);
    let choose = asked.spec.is_none() && asked.trial.is_none();
    let mut window = dressed(session, settings, (folders, choose), &mut said);
    if let Some(failure) = not_opened {
        window.say_not_opened(failure);
    }
    match open_window(window) {
        Ok(()) => Ok(String::new()),
        Err(LaunchError::NoDisplay(reason)) => Ok(format!(
            "No display ({reason}): here is the document as text.\n\n{document}"
        )),
        Err(error) => Err(error.to_string()),
    }
}

/// The document asked for, else the one open last, else a copy of the demo.
fn session(
    asked: &Arguments,
    builtin: &Arc<Builtin>,
    settings: &mut Settings,
    (said, not_opened): (&mut Vec<String>, &mut Option<OpenFailure>),
) -> Result<Session, String> {
    let mut session = Session::new(Arc::clone(builtin), Document::default());
    let last = settings.last.clone().filter(|path| path.is_file());
    if let Some(path) = asked.file.clone().or(last) {
        match session.open(&path) {
            Ok(notices) => {
                settings.remember(&path);
                said.extend(notices);
                choose(&mut session, asked)?;
                return Ok(session);
            }
            Err(error) => {
                let failure = OpenFailure::of(&path, &error, &FileHands::default());
                if asked.file.is_some() {
                    return Err(failure.to_string());
                }
                *not_opened = Some(failure);
            }
        }
    }
    let demo = read_text(DEMO).map_err(|error| format!("the demo is damaged: {error}"))?;
    session.take_untitled(demo.document);
    choose(&mut session, asked)?;
    Ok(session)
}

/// Shows what `--spec` and `--trial` ask for.
fn choose(session: &mut Session, asked: &Arguments) -> Result<(), String> {
    if asked.spec.is_some() || asked.trial.is_some() {
        select(session, asked).map_err(|error| error.to_string())?;
        session.refresh();
    }
    Ok(())
}

/// A window with autosave, messages and the offer of unsaved work.
fn dressed(
    mut session: Session,
    settings: Settings,
    (folders, choose): (Option<Folders>, bool),
    said: &mut Vec<String>,
) -> Window {
    let mut offers = Vec::new();
    if let Some(folders) = &folders {
        said.extend(session.mark_with(OpenMarks::in_folder(folders)));
        let (found, damaged) = recoverable(folders);
        offers = found;
        said.extend(damaged);
        match Autosave::start(folders) {
            Ok(autosave) => session.keep_with(autosave),
            Err(error) => said.push(format!("Unsaved work cannot be kept safe: {error}.")),
        }
    }
    let mut window = Window::new(session, settings, folders);
    window.come_back(choose);
    for message in said.drain(..) {
        window.say(message);
    }
    window.offer(offers);
    window
}
