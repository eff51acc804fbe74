//! A program of its own that edits and saves until it is killed: the document it works on, and what
//! it says meanwhile.

use crate::sample_drinks::{SHAKEN, SPEC, TRIAL, builtin, document, sour};
use equipour::model::{Amount, Document, Trial, TrialId};
use equipour::session::{Edit, SaveOutcome, SaveWhere, Session};
use equipour::store::{Autosave, Folders, OpenMarks};
use equipour::units::Unit;
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::sync::{Arc, LazyLock};
use std::time::{Duration, Instant, SystemTime, UNIX_EPOCH};

/// Names the folder in which the victim works.
pub(crate) const FOLDER: &str = "EQUIPOUR_VICTIM_FOLDER";
/// Names the seed of what it does.
pub(crate) const SEED: &str = "EQUIPOUR_VICTIM_SEED";
/// It holds one gesture open all the time and saves nothing.
pub(crate) const HOLDS: &str = "EQUIPOUR_VICTIM_HOLDS";

/// Trials of the document: enough for a save to take a while.
const MANY: u32 = 300;

static BASE: LazyLock<Document> = LazyLock::new(|| {
    let mut doc = document(sour(), SHAKEN, None);
    let trials = (0..MANY).map(|place| {
        let mut pours = sour();
        pours[1].amount = Amount::Ml(15.0 + f64::from(place) * 0.01);
        let id = TrialId(TRIAL.0 + place);
        Arc::new(Trial::new(
            id,
            format!("Trial {}", place + 1),
            SHAKEN,
            pours,
        ))
    });
    doc.specs[0].trials = trials.collect();
    doc.next_number = TRIAL.0 + MANY;
    doc
});

/// The document after so many changes: a title and an amount that belong together.
pub(crate) fn version(number: u64) -> Document {
    let mut doc = BASE.clone();
    doc.title = title(number);
    let trial = Arc::make_mut(&mut doc.specs[0].trials[0]);
    trial.pours[0].amount = amount(number);
    doc
}

fn title(number: u64) -> String {
    format!("version {number}")
}

fn amount(number: u64) -> Amount {
    Amount::Ml(40.0 + (number % 40) as f64 * 0.5)
}

/// Which version a document is, if it is one to the last amount.
pub(crate) fn version_of(document: &Document) -> Option<u64> {
    let number = document.title.strip_prefix("version ")?.parse().ok()?;
    (*document == version(number)).then_some(number)
}

pub(crate) fn file_in(folder: &Path) -> PathBuf {
    folder.join("work.ron")
}

/// A session with everything a running program has.
pub(crate) fn opened(folder: &Path) -> Session {
    let folders = Folders::below(&folder.join("home"));
    let mut session = Session::new(Arc::clone(builtin()), Document::default());
    session.keep_with(Autosave::start(&folders).expect("it starts"));
    session.mark_with(OpenMarks::in_folder(&folders));
    session.open(&file_in(folder)).expect("it opens");
    session
}

/// Makes the document the version of that number.
pub(crate) fn change(session: &mut Session, number: u64) {
    assert!(session.document().spec(SPEC).is_some());
    let title = title(number);
    session.edit(&Edit::SetTitle { title }).expect("it stands");
    let edit = Edit::SetAmount {
        trial: TRIAL,
        pour: 0,
        amount: amount(number),
        unit: Unit::Ml,
    };
    session.edit(&edit).expect("it stands");
}

/// Milliseconds since 1970: one clock for both programs.
pub(crate) fn millis() -> u64 {
    let since = SystemTime::now().duration_since(UNIX_EPOCH);
    since.expect("after 1970").as_millis() as u64
}

/// Numbers that look random and repeat (SplitMix64; constants from memory).
#[derive(Debug)]
pub(crate) struct Dice(pub(crate) u64);

impl Dice {
    /// A whole number below `below`.
    pub(crate) fn below(&mut self, below: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        (mixed ^ (mixed >> 31)) % below
    }
}

fn tell(words: &str) {
    let mut out = std::io::stdout().lock();
    writeln!(out, "\n{words}").expect("somebody listens");
    out.flush().expect("somebody listens");
}

/// Edits and saves until it is killed; ends by itself after a while.
#[test]
#[ignore = "a program of its own that other tests start and kill"]
fn the_victim() {
    let Some(folder) = std::env::var_os(FOLDER).map(PathBuf::from) else {
        return;
    };
    let seed = std::env::var(SEED).expect("a seed").parse();
    let mut dice = Dice(seed.expect("a number"));
    let holds = std::env::var_os(HOLDS).is_some();
    let mut session = opened(&folder);
    let mut number = version_of(session.document()).expect("a version");
    let start = Instant::now();
    let mut sent = None;
    tell("ready");
    while start.elapsed() < Duration::from_secs(20) {
        number += 1;
        change(&mut session, number);
        tell(&format!("edit {number} {}", millis()));
        session.keep_up(start.elapsed().as_secs_f64());
        if !holds {
            if dice.below(3) == 0 {
                session.settle();
            }
            save_sometimes(&mut session, &mut dice, number, &mut sent);
        }
        std::thread::sleep(Duration::from_millis(dice.below(6)));
    }
}

/// Saves at once or on a thread, and says when that begins and ends.
fn save_sometimes(session: &mut Session, dice: &mut Dice, number: u64, sent: &mut Option<u64>) {
    if let Some(outcome) = session.take_save(|| {}) {
        assert!(matches!(outcome, SaveOutcome::Saved(_)), "{outcome:?}");
        tell(&format!("saved {}", sent.take().expect("it began")));
    }
    if session.is_saving() {
        return;
    }
    match dice.below(8) {
        0 => {
            tell(&format!("begins {number}"));
            let outcome = session.save(&SaveWhere::Same);
            assert!(matches!(outcome, SaveOutcome::Saved(_)), "{outcome:?}");
            tell(&format!("saved {number}"));
        }
        1 => {
            tell(&format!("begins {number}"));
            let failed = session.begin_save(&SaveWhere::Same, || {});
            assert!(failed.is_none(), "{failed:?}");
            *sent = Some(number);
        }
        _ => {}
    }
}
