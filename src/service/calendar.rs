//! A plan as a calendar that other programs read: RFC 5545.

use super::clash::lasting;
use super::plan::{Job, JobOf, PrepPlan};
use crate::model::{Document, Spec, Trial, is_day};
use crate::units::celsius;
use icalendar::{Calendar, Component, Event};
use jiff::civil::DateTime;

/// Who wrote it, as RFC 5545 asks (3.7.3).
const WRITTEN_BY: &str = "-//Equipour//service plan//EN";
/// Longest line without its end, octets (RFC 5545 3.1).
const MOST_OCTETS: usize = 75;
/// Local time of no zone (RFC 5545 3.3.5, form 1): the plan is for where the drink is served.
const FLOATING: &str = "%Y%m%dT%H%M%S";

/// The plan as text of a calendar: an event for each job, while the hands are at it, and one for the
/// service.
///
/// Nothing comes from a clock or from chance, so that the same plan is the same text: names of events
/// follow from the document, their stamp is the day on which the trial was made, else that of the
/// service.
pub fn calendar(document: &Document, spec: &Spec, trial: &Trial, plan: &PrepPlan) -> String {
    let stamp = stamp(trial, plan);
    let own = Own {
        seed: format!(
            "{}\n{}\n{}\n{}",
            document.title, spec.id, spec.name, trial.id
        ),
        stamp,
    };
    let mut calendar = Calendar::empty();
    calendar.append_property(("VERSION", "2.0"));
    calendar.append_property(("PRODID", WRITTEN_BY));
    calendar.append_property(("CALSCALE", "GREGORIAN"));
    for job in &plan.jobs {
        calendar.push(event(&own, job));
    }
    let mut service = own.event("service", &format!("Service: {}", spec.name), plan.service);
    service.description(&plain(&format!("Trial: {}", trial.name)));
    calendar.push(service.done());
    folded(&calendar.to_string())
}

/// Lines of at most 75 octets (RFC 5545 3.1): the last piece of a line comes one longer from the writer.
fn folded(text: &str) -> String {
    let mut folded = String::with_capacity(text.len());
    for line in text.replace("\r\n ", "").split_terminator("\r\n") {
        let mut octets = 0;
        for letter in line.chars() {
            if octets + letter.len_utf8() > MOST_OCTETS {
                folded.push_str("\r\n ");
                octets = 1;
            }
            folded.push(letter);
            octets += letter.len_utf8();
        }
        folded.push_str("\r\n");
    }
    folded
}

/// What all events of a plan share.
struct Own {
    seed: String,
    stamp: String,
}

impl Own {
    fn event(&self, key: &str, summary: &str, start: DateTime) -> Event {
        let mut event = Event::new();
        event.uid(&self.uid(key));
        event.add_property("DTSTAMP", self.stamp.as_str());
        event.add_property("DTSTART", start.strftime(FLOATING).to_string());
        event.summary(&plain(summary));
        event
    }

    fn uid(&self, key: &str) -> String {
        let sum = sum(&format!("{}\n{key}", self.seed));
        let letters = key.chars().map(|letter| {
            if letter.is_ascii_alphanumeric() {
                letter.to_ascii_lowercase()
            } else {
                '-'
            }
        });
        let letters: String = letters.take(40).collect();
        format!("{letters}-{sum:016x}@equipour.invalid")
    }
}

fn event(own: &Own, job: &Job) -> Event {
    let key = match &job.of {
        JobOf::Step { preparation, step } => format!("{preparation}-{step}"),
        JobOf::Mix => "mix".to_owned(),
        JobOf::Bottle => "bottle".to_owned(),
        JobOf::Chill => "chill".to_owned(),
    };
    let mut event = own.event(&key, &format!("{}: {}", job.group, job.name), job.start);
    // An event must end after it starts; one of no length has no end (RFC 5545 3.8.2.2).
    let end = if job.hands_on_min > 0 {
        job.hands_free
    } else {
        job.end
    };
    if end > job.start {
        event.add_property("DTEND", end.strftime(FLOATING).to_string());
    }
    if job.hands_on_min == 0 {
        event.add_property("TRANSP", "TRANSPARENT");
    }
    event.description(&plain(&said(job)));
    event.done()
}

/// What else there is to say of a job, a line each.
fn said(job: &Job) -> String {
    let mut lines = Vec::new();
    if job.hands_on_min > 0 {
        lines.push(format!("Work: {}", lasting(job.hands_on_min)));
    }
    if job.wait_min > 0 {
        let until = job.end.strftime("%Y-%m-%d %H:%M");
        lines.push(format!(
            "Then wait {}, until {until}",
            lasting(job.wait_min)
        ));
    }
    lines.extend(job.celsius.map(|at| format!("At {}", celsius(at))));
    if !job.equipment.is_empty() {
        lines.push(format!("Needs: {}", job.equipment.join(", ")));
    }
    lines.join("\n")
}

/// Lines end alike, and nothing is in them that no calendar may hold (RFC 5545 3.1: no controls).
fn plain(text: &str) -> String {
    let text = text.replace("\r\n", "\n").replace('\r', "\n");
    text.chars()
        .filter(|letter| !letter.is_control() || *letter == '\n')
        .collect()
}

/// Midnight of a day as UTC, as a stamp has to be (RFC 5545 3.8.7.2).
fn stamp(trial: &Trial, plan: &PrepPlan) -> String {
    let day = if is_day(&trial.made_on) {
        trial.made_on.replace('-', "")
    } else {
        plan.service.strftime("%Y%m%d").to_string()
    };
    format!("{day}T000000Z")
}

/// A sum of the bytes of a text: FNV-1a with 64 bits.
fn sum(text: &str) -> u64 {
    text.bytes().fold(0xcbf2_9ce4_8422_2325, |sum, byte| {
        (sum ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    })
}
