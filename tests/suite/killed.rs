//! A program that is killed at any moment loses no save, and no edit older than two seconds.

use crate::killed_kit::{
    Dice, FOLDER, HOLDS, SEED, change, file_in, millis, opened, version, version_of,
};
use equipour::session::{SaveOutcome, SaveWhere};
use equipour::store::{Folders, backup_path, read_document, recoverable, save_document};
use std::fs;
use std::io::{BufRead as _, BufReader};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, SystemTime};

/// No edit older than this may be gone, ms.
const AT_MOST_LOST: u64 = 2_000;

/// What the victim said before it was killed.
#[derive(Debug, Default)]
struct Said {
    /// Edits with their time, ms.
    edits: Vec<(u64, u64)>,
    begun: Option<u64>,
    saved: Option<u64>,
}

impl Said {
    fn take(&mut self, line: &str) {
        let mut words = line.split(' ');
        let verb = words.next().unwrap_or_default();
        let numbers: Vec<u64> = words.filter_map(|word| word.parse().ok()).collect();
        match (verb, &numbers[..]) {
            ("edit", [number, at]) => self.edits.push((*number, *at)),
            ("begins", [number]) => self.begun = Some(*number),
            ("saved", [number]) => self.saved = Some(*number),
            _ => {}
        }
    }
}

/// When the victim is killed.
#[derive(Clone, Copy, Debug)]
enum Kill {
    /// So long after it began working, ms.
    After(u64),
    /// So long after it began to save, ms.
    WithinASave(u64),
    /// So long into one open gesture, ms.
    WhileHolding(u64),
}

fn start(folder: &Path, seed: u64, kill: Kill) -> (Child, Receiver<String>) {
    let mut command = Command::new(std::env::current_exe().expect("this program"));
    command
        .args([
            "--exact",
            "killed_kit::the_victim",
            "--ignored",
            "--nocapture",
        ])
        .env(FOLDER, folder)
        .env(SEED, seed.to_string())
        .stdout(Stdio::piped())
        .stderr(Stdio::null());
    if matches!(kill, Kill::WhileHolding(_)) {
        command.env(HOLDS, "1");
    }
    let mut child = command.spawn().expect("it starts");
    let out = child.stdout.take().expect("a pipe");
    let (say, heard) = channel();
    std::thread::spawn(move || {
        for line in BufReader::new(out).lines().map_while(Result::ok) {
            if say.send(line).is_err() {
                return;
            }
        }
    });
    (child, heard)
}

/// Lets the victim work, kills it and gives all it said, with the moment of its death, ms.
fn killed(folder: &Path, seed: u64, kill: Kill) -> (Said, u64) {
    let (mut child, heard) = start(folder, seed, kill);
    let mut said = Said::default();
    let first = match kill {
        Kill::WithinASave(_) => "begins ",
        _ => "ready",
    };
    for line in &heard {
        said.take(&line);
        if line.starts_with(first) {
            break;
        }
    }
    let (Kill::After(wait) | Kill::WithinASave(wait) | Kill::WhileHolding(wait)) = kill;
    std::thread::sleep(Duration::from_millis(wait));
    let at = millis();
    child.kill().expect("it can be killed");
    let ended = child.wait().expect("it ends");
    assert_eq!(ended.code(), None, "it ended by itself");
    for line in &heard {
        said.take(&line);
    }
    (said, at)
}

/// What is left, held against what was said.
fn check(folder: &Path, before: u64, said: &Said, at: u64, round: &str) -> u64 {
    let file = file_in(folder);
    let opened = read_document(&file).unwrap_or_else(|error| panic!("{round}: {error}"));
    let on_disk = version_of(&opened.document).unwrap_or_else(|| panic!("{round}: mixed"));
    let last = said.saved.unwrap_or(before);
    assert!(
        on_disk == last || Some(on_disk) == said.begun,
        "{round}: the file is {on_disk}, saved was {last}, begun {:?}",
        said.begun
    );
    let backup = backup_path(&file);
    if backup.exists() {
        let kept = read_document(&backup).unwrap_or_else(|error| panic!("{round}: {error}"));
        let kept = version_of(&kept.document).unwrap_or_else(|| panic!("{round}: mixed"));
        assert!(kept <= on_disk, "{round}: {kept} is kept beside {on_disk}");
    }
    let (found, damaged) = recoverable(&Folders::below(&folder.join("home")));
    assert!(damaged.is_empty(), "{round}: {damaged:?}");
    let kept = found
        .iter()
        .map(|one| version_of(&one.document).unwrap_or_else(|| panic!("{round}: mixed")));
    let newest = kept.fold(on_disk, u64::max);
    for (number, made) in &said.edits {
        let age = at.saturating_sub(*made);
        assert!(
            *number <= newest || age <= AT_MOST_LOST,
            "{round}: edit {number} of {age} ms before is gone, {newest} is left"
        );
    }
    newest
}

/// The next run: takes the work over, goes on and saves.
fn restart(folder: &Path, newest: u64, round: &str) -> u64 {
    let folders = Folders::below(&folder.join("home"));
    let mut session = opened(folder);
    let (found, _) = recoverable(&folders);
    for one in &found {
        if version_of(&one.document) == Some(newest) {
            session.restore(one);
            assert_eq!(session.path(), Some(&file_in(folder)), "{round}");
        }
    }
    assert_eq!(version_of(session.document()), Some(newest), "{round}");
    change(&mut session, newest + 1);
    let outcome = session.save(&SaveWhere::Same);
    assert!(
        matches!(outcome, SaveOutcome::Saved(_)),
        "{round}: {outcome:?}"
    );
    assert!(!session.is_dirty(), "{round}");
    for one in &found {
        one.discard().expect("it was taken over");
    }
    newest + 1
}

/// Half written files of the runs before, made old, go with the next save.
fn sweeps(folder: &Path, round: &str) {
    let old = SystemTime::now() - Duration::from_hours(2);
    let temporary = || {
        let entries = fs::read_dir(folder).expect("it can be listed").flatten();
        let paths = entries.map(|entry| entry.path());
        let mut left = paths.filter(|path| path.to_string_lossy().contains("/.equipour-"));
        left.by_ref().collect::<Vec<_>>()
    };
    for file in temporary() {
        let file = fs::File::options().append(true).open(file);
        file.and_then(|file| file.set_modified(old))
            .expect("it can be aged");
    }
    let number = version_of(&read_document(&file_in(folder)).expect("it opens").document);
    let next = number.expect("a version") + 1;
    save_document(&version(next), &file_in(folder)).expect("it can be saved");
    assert!(temporary().is_empty(), "{round}: {:?}", temporary());
}

fn rounds(lane: u64, count: u64) {
    let folder = tempfile::tempdir().expect("a folder");
    let folder = folder.path();
    save_document(&version(0), &file_in(folder)).expect("it can be saved");
    let mut before = 0;
    for number in 0..count {
        let seed = lane * 10_000 + number;
        let mut dice = Dice(seed);
        let kill = match number % 12 {
            5 => Kill::WhileHolding(2_300 + dice.below(900)),
            place if place % 3 == 1 => Kill::WithinASave(dice.below(60)),
            _ => Kill::After(dice.below(401)),
        };
        let round = format!("seed {seed}, {kill:?}");
        let (said, at) = killed(folder, seed, kill);
        let newest = check(folder, before, &said, at, &round);
        before = restart(folder, newest, &round);
        if number % 10 == 9 {
            sweeps(folder, &round);
            before += 1;
        }
    }
}

fn both_lanes(count: u64) {
    std::thread::scope(|scope| {
        for lane in 1..=2 {
            scope.spawn(move || rounds(lane, count / 2));
        }
    });
}

#[test]
fn killed_fifty_times_it_loses_no_save_and_no_edit_older_than_two_seconds() {
    both_lanes(50);
}

#[test]
#[ignore = "takes some minutes; run it by name after a change of how files are kept"]
fn kill_five_hundred_times() {
    both_lanes(500);
}
