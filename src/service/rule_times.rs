//! Rules on time, and on how many drinks are made in it.

use super::rule_check::{Ask, Outcome};
use super::rule_finding::{Act, Field};
use super::rule_garnish::garnish_in_words;
use super::rule_title::drinks;
use super::run_sheet::run_sheet;
use crate::kitchen::timing;
use crate::model::{RuleKind, TrialState, is_day};
use crate::units::trimmed;

/// A time closer than this to its limit keeps it, s or min: rounding.
const SAME_TIME: f64 = 1.0e-6;

pub(super) fn serves(ask: &Ask<'_>, count: u32) -> Outcome {
    let found = ask.handed.spec.stage.serves;
    if found == 0 {
        return Outcome::kept(format!("As the rules ask: {}.", drinks(count)));
    }
    let said = format!("The stage is set for {}.", drinks(found));
    if found == count {
        return Outcome::kept(said);
    }
    Outcome::broken(said, format!("Make {}.", drinks(count))).act(Act::Serves(count))
}

/// "5:30 min".
fn clock(seconds: f64) -> String {
    let whole = seconds.round().clamp(0.0, 1.0e9) as u64;
    format!("{}:{:02} min", whole / 60, whole % 60)
}

/// Drinks that have to be made: as the stage says, else as the rules ask.
fn wanted(ask: &Ask<'_>) -> u32 {
    let asked = ask.set.rules.iter().find_map(|rule| match rule.asks {
        RuleKind::Serves { count } if !rule.off => Some(count),
        _ => None,
    });
    match ask.handed.spec.stage.serves {
        0 => asked.unwrap_or(1),
        serves => serves,
    }
}

pub(super) fn stage(ask: &Ask<'_>, minutes: f64, set_up: f64) -> Outcome {
    let stage = &ask.handed.spec.stage;
    let (most, wanted) = (minutes * 60.0, wanted(ask));
    let steps: f64 = stage.steps.iter().map(|step| step.seconds).sum();
    // What was not timed, or made nothing, proves nothing.
    let untimed = stage.steps.iter().filter(|step| step.seconds <= 0.0);
    let untimed = untimed.count();
    let timed = stage.rehearsals.iter().filter(|one| one.seconds > 0.0);
    let full = timed.filter(|one| one.serves >= wanted.max(1));
    let held: Vec<f64> = full.map(|one| one.seconds).collect();
    let best = held.iter().copied().reduce(f64::min);
    let mut said = Vec::new();
    if !stage.steps.is_empty() {
        said.push(format!("The steps take {}.", clock(steps)));
    }
    if untimed > 0 {
        let noun = if untimed == 1 {
            "step has"
        } else {
            "steps have"
        };
        said.push(format!("{untimed} {noun} no time."));
    }
    if let (Some(best), Some(last)) = (best, held.last()) {
        said.push(format!(
            "Last rehearsal {}, best {}.",
            clock(*last),
            clock(best)
        ));
    } else if !stage.rehearsals.is_empty() {
        said.push(format!("No timed rehearsal made {}.", drinks(wanted)));
    }
    let taken = held.last().copied();
    let longest = taken.unwrap_or(0.0).max(steps);
    if longest > most + SAME_TIME {
        let over = clock(longest - most);
        let remedy = format!("Save {over}: pre-pour, or take steps out.");
        return Outcome::broken(said.join(" "), remedy).act(Act::Go(Field::Stage));
    }
    let are_timed = !stage.steps.is_empty() && untimed == 0;
    if taken.is_none() && !are_timed {
        said.insert(0, planned(ask, minutes));
        return Outcome::unknown(said.join(" "), "Time a rehearsal, or every step.")
            .act(Act::Go(Field::Stage));
    }
    if set_up > 0.0 {
        let set_up = trimmed(set_up, 1);
        said.push(format!(
            "Whether {set_up} min are enough to set up, only trying shows."
        ));
        return Outcome::asked(said.join(" "), "Try to set up in that time. Then tick it.");
    }
    Outcome::kept(said.join(" "))
}

/// What the plan of the stage comes to while nobody timed anything: the same figure as beside it.
fn planned(ask: &Ask<'_>, minutes: f64) -> String {
    let handed = ask.handed;
    let run = run_sheet(
        handed.document,
        handed.spec,
        handed.trial,
        Some(wanted(ask)),
        Some(minutes),
    );
    if !run.worked_out {
        return "Not every step is timed, and none of it is rehearsed.".to_owned();
    }
    format!(
        "Planned {} of {} allowed, by usual seconds; not rehearsed.",
        clock(run.total_seconds),
        clock(minutes * 60.0)
    )
}

pub(super) fn preparation(ask: &Ask<'_>, minutes: f64) -> Outcome {
    let document = ask.handed.document;
    let all = ask.poured.all_preparations(document);
    let (mut sum, mut untimed, mut names) = (0.0, Vec::new(), Vec::new());
    for id in all {
        let Some(made) = document.preparations.get(id) else {
            continue;
        };
        names.push(made.name.as_str());
        match timing(document, id) {
            Ok(timing) if !timing.bars.is_empty() => sum += timing.hands_on_min,
            _ => untimed.push(made.name.as_str()),
        }
    }
    let told = trimmed(sum, 1);
    let mut said = match names.len() {
        0 => "Nothing poured is made in house.".to_owned(),
        _ => format!("{told} min of work: {}.", names.join(", ")),
    };
    if sum > minutes + SAME_TIME {
        let over = trimmed(sum - minutes, 1);
        return Outcome::broken(
            said,
            format!("Save {over} min of work, or make less in house."),
        )
        .act(Act::Go(Field::HouseMade));
    }
    if !untimed.is_empty() {
        let untimed = untimed.join(", ");
        return Outcome::unknown(
            format!("{said} No steps with times: {untimed}."),
            format!("Write down how long it takes: {untimed}."),
        )
        .act(Act::Go(Field::HouseMade));
    }
    if garnish_in_words(ask) {
        said.push_str(" How long the garnish takes is not known.");
        return Outcome::asked(said, "Try whether all of it fits. Then tick it.");
    }
    Outcome::kept(said)
}

/// Days since 1 March of year 0 in the Gregorian calendar; `None` for what is no day.
///
/// The usual count with the year beginning in March, so that a leap day ends it.
fn day_number(day: &str) -> Option<i64> {
    if !is_day(day) {
        return None;
    }
    let mut parts = day.split('-').filter_map(|part| part.parse::<i64>().ok());
    let (year, month, day) = (parts.next()?, parts.next()?, parts.next()?);
    let (year, month) = if month > 2 {
        (year, month - 3)
    } else {
        (year - 1, month + 9)
    };
    let leaps = year.div_euclid(4) - year.div_euclid(100) + year.div_euclid(400);
    Some(365 * year + leaps + (153 * month + 2) / 5 + day - 1)
}

/// Days from one day to another; negative when the other lies before it.
pub(super) fn days_between(from: &str, to: &str) -> Option<i64> {
    Some(day_number(to)? - day_number(from)?)
}

fn days(count: i64) -> String {
    if count == 1 {
        "1 day".to_owned()
    } else {
        format!("{count} days")
    }
}

pub(super) fn deadline(ask: &Ask<'_>, on: &str, locked_days: u32) -> Outcome {
    let trial = ask.handed.trial;
    // A trial made once it is locked, that day included, is another recipe than the one that was locked.
    let made_before = days_between(&trial.made_on, on);
    if locked_days > 0
        && let Some(before) = made_before
        && before <= i64::from(locked_days)
    {
        return Outcome::broken(
            format!(
                "This trial was made on {}, {} before the last day: the recipe was locked then.",
                trial.made_on,
                days(before.max(0))
            ),
            "Hand in a trial that was made before the lock.",
        );
    }
    let left = ask.handed.today.and_then(|today| days_between(today, on));
    // While nothing is locked yet, a trial that is there was made in time.
    let is_open = left.is_some_and(|left| left > i64::from(locked_days));
    if locked_days > 0 && made_before.is_none() && !is_open {
        return Outcome::unknown(
            "The day on which this trial was made is not known, and the recipe is locked.",
            "Enter the day on which the trial was made.",
        );
    }
    if trial.state == TrialState::Submitted {
        return Outcome::kept("It is handed in.");
    }
    let Some(left) = left else {
        return Outcome::unknown("The day of today is not known.", "Look at the calendar.");
    };
    if left < 0 {
        return Outcome::broken(
            format!("Over by {}.", days(-left)),
            "Ask the organiser for more time.",
        );
    }
    let until_lock = left - i64::from(locked_days);
    let said = match (left, locked_days) {
        (0, _) => "Today is the last day.".to_owned(),
        (_, 0) => format!("{} left.", days(left)),
        _ if until_lock > 0 => format!(
            "{} left, {} until the recipe is locked.",
            days(left),
            days(until_lock)
        ),
        _ if until_lock == 0 => format!("{} left; the recipe is locked from today on.", days(left)),
        _ => format!(
            "{} left; the recipe has been locked for {}.",
            days(left),
            days(-until_lock)
        ),
    };
    Outcome::kept(said)
}
