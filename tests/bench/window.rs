//! The real window on a virtual screen, drawn by software: first frame, rest, memory.
//!
//! Xvfb keeps its screen in a file (`-fbdir`, the format of xwd), so that its points are read without a
//! client of the display that would disturb what is measured.

use crate::{not_measured, problems, row};
use equipour::store::save_document;
use std::collections::BTreeSet;
use std::fs::{File, read_to_string};
use std::io::{BufRead as _, BufReader, Read as _, Seek as _, SeekFrom};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

/// Starts measured.
const STARTS: usize = 5;
/// Colours on screen from which it counts as a drawn frame: smooth letters bring more, a blank window one.
const COLOURS: usize = 16;
/// Longest wait for a frame.
const PATIENCE: Duration = Duration::from_mins(1);
/// How long the program is left alone before and while its rest is measured.
const SETTLING: Duration = Duration::from_secs(4);
const REST: Duration = Duration::from_secs(10);
/// Nobody set a hold for these.
const NO_HOLD: f64 = f64::INFINITY;
/// Screen, points.
const WIDTH: usize = 1280;
const HEIGHT: usize = 800;

const FIRST: &str = "first frame of the window, software rendering, µs";
const IDLE: &str = "processor at rest, ticks of 10 ms in 10 s";
const MEMORY: &str = "peak memory after the start (VmHWM), MB";
const TOUR: &str = "the same after all pages, 300 trials, 2000 rows, MB";

/// A virtual screen, gone when dropped.
struct Screen {
    server: Child,
    display: String,
    points: File,
    folder: tempfile::TempDir,
}

impl Screen {
    fn start() -> Result<Self, String> {
        let folder = tempfile::tempdir().map_err(|error| error.to_string())?;
        let mut server = Command::new("Xvfb")
            .args(["-displayfd", "1", "-screen", "0"])
            .arg(format!("{WIDTH}x{HEIGHT}x24"))
            .arg("-fbdir")
            .arg(folder.path())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .map_err(|error| format!("Xvfb: {error}"))?;
        let mut number = String::new();
        if let Some(said) = server.stdout.take() {
            drop(BufReader::new(said).read_line(&mut number));
        }
        let points = File::open(folder.path().join("Xvfb_screen0"));
        match points {
            Ok(points) if !number.trim().is_empty() => Ok(Self {
                server,
                display: format!(":{}", number.trim()),
                points,
                folder,
            }),
            _ => {
                end(&mut server);
                Err("Xvfb does not start".to_owned())
            }
        }
    }

    /// How many colours a sixteenth of the rows show; the head of the file is no picture.
    fn colours(&mut self) -> usize {
        let mut found = BTreeSet::new();
        let mut line = vec![0; WIDTH * 4];
        for place in (1..HEIGHT).step_by(16) {
            let from_end = i64::try_from((HEIGHT - place) * WIDTH * 4).unwrap_or_default();
            let there = self.points.seek(SeekFrom::End(-from_end));
            if there.is_ok() && self.points.read_exact(&mut line).is_ok() {
                found.extend(
                    line.chunks_exact(4)
                        .map(|point| [point[0], point[1], point[2]]),
                );
            }
        }
        found.len()
    }

    /// The program on a document, and microseconds from its start to its first frame.
    fn open(&mut self, document: Option<&Path>) -> Result<(Child, f64), String> {
        let home = self.folder.path().join("home");
        if home.exists() {
            std::fs::remove_dir_all(&home).map_err(|error| error.to_string())?;
        }
        let start = Instant::now();
        let mut program = Command::new(env!("CARGO_BIN_EXE_equipour"))
            .args(document)
            .env("DISPLAY", &self.display)
            .env("EQUIPOUR_HOME", home)
            .env("LIBGL_ALWAYS_SOFTWARE", "1")
            .env_remove("WAYLAND_DISPLAY")
            .env_remove("WAYLAND_SOCKET")
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .map_err(|error| error.to_string())?;
        while start.elapsed() < PATIENCE {
            if self.colours() >= COLOURS {
                return Ok((program, start.elapsed().as_secs_f64() * 1.0e6));
            }
            if program.try_wait().is_ok_and(|ended| ended.is_some()) {
                return Err("the window ends by itself".to_owned());
            }
            sleep(Duration::from_millis(2));
        }
        end(&mut program);
        Err("no frame within a minute".to_owned())
    }

    /// Waits until the window is gone from the screen.
    fn clear(&mut self) {
        let start = Instant::now();
        while self.colours() >= COLOURS && start.elapsed() < PATIENCE {
            sleep(Duration::from_millis(20));
        }
    }
}

impl Drop for Screen {
    fn drop(&mut self) {
        end(&mut self.server);
    }
}

fn end(child: &mut Child) {
    if child.kill().is_ok() {
        drop(child.wait());
    }
}

/// Time that a program took of a processor, ticks: user and system (proc(5), fields 14 and 15).
fn ticks(program: &Child) -> Option<f64> {
    let stat = read_to_string(format!("/proc/{}/stat", program.id())).ok()?;
    let fields: Vec<&str> = stat.rsplit(") ").next()?.split(' ').collect();
    let field = |place: usize| fields.get(place - 3)?.parse::<f64>().ok();
    Some(field(14)? + field(15)?)
}

/// The most memory that a program held, MB.
fn peak_mb(program: &Child) -> Option<f64> {
    let status = read_to_string(format!("/proc/{}/status", program.id())).ok()?;
    let line = status
        .lines()
        .find_map(|line| line.strip_prefix("VmHWM:"))?;
    let kb: f64 = line.trim().trim_end_matches(" kB").parse().ok()?;
    Some(kb / 1_000.0)
}

fn told(what: &str, value: Option<f64>, hold: f64) {
    match value {
        Some(value) => row(what, value, hold, None),
        None => not_measured(what, "the system does not tell it"),
    }
}

fn starts(screen: &mut Screen) -> Result<(), String> {
    let mut times = Vec::new();
    for place in 0..STARTS {
        let (mut program, time) = screen.open(None)?;
        times.push(time);
        if place + 1 == STARTS {
            sleep(SETTLING);
            let before = ticks(&program);
            sleep(REST);
            let after = ticks(&program);
            let rest = before.zip(after).map(|(before, after)| after - before);
            times.sort_by(f64::total_cmp);
            let worst = times[STARTS - 1];
            row(FIRST, times[STARTS / 2], NO_HOLD, Some((worst, NO_HOLD)));
            told(IDLE, rest, 0.0);
            told(MEMORY, peak_mb(&program), NO_HOLD);
        }
        end(&mut program);
        screen.clear();
    }
    Ok(())
}

/// Shows every page of a crowded document by its key.
fn tour(screen: &mut Screen) -> Result<Option<f64>, String> {
    let path: PathBuf = screen.folder.path().join("crowded.ron");
    let saved = save_document(&problems::crowded(300), &path);
    saved.map_err(|error| error.to_string())?;
    let (mut program, _) = screen.open(Some(&path))?;
    sleep(SETTLING);
    for page in ["ctrl+2", "ctrl+3", "ctrl+4", "ctrl+5", "ctrl+1"] {
        let key = Command::new("xdotool")
            .args(["key", page])
            .env("DISPLAY", &screen.display)
            .stderr(Stdio::null())
            .status();
        if !key.is_ok_and(|status| status.success()) {
            end(&mut program);
            return Err("xdotool does not press keys".to_owned());
        }
        sleep(SETTLING);
    }
    let peak = peak_mb(&program);
    end(&mut program);
    screen.clear();
    Ok(peak)
}

/// Prints the rows of the real window; what cannot be measured here says why.
pub(crate) fn measure() {
    let mut screen = match Screen::start() {
        Ok(screen) => screen,
        Err(reason) => {
            for what in [FIRST, IDLE, MEMORY, TOUR] {
                not_measured(what, &reason);
            }
            return;
        }
    };
    if let Err(reason) = starts(&mut screen) {
        for what in [FIRST, IDLE, MEMORY] {
            not_measured(what, &reason);
        }
    }
    match tour(&mut screen) {
        Ok(peak) => told(TOUR, peak, NO_HOLD),
        Err(reason) => not_measured(TOUR, &reason),
    }
}
