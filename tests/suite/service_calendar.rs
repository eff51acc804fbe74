//! Plans as calendars, read by another parser and by the rules of RFC 5545.

use crate::hostile_names::hostile;
use crate::service_plan_kit::{chains, planned, service, timed};
use equipour::model::{Document, Spec, Trial};
use equipour::service::{PrepPlan, calendar};
use ical::parser::ical::component::IcalEvent;
use std::collections::BTreeSet;
use std::sync::Arc;

const LONG: &str = "Überlang, mit Komma; Strichpunkt \\ und Größe ‒ ein Name, der viel länger ist als eine Zeile es sein darf\nzweite Zeile";

fn found() -> ((Document, Spec, Trial), PrepPlan) {
    let mut found = chains(&[
        vec![
            timed("", "", 20.0, (400.0, 600.0)),
            timed("", "", 0.0, (0.0, 0.0)),
        ],
        vec![timed("", "", 0.0, (60.0, 60.0))],
    ]);
    let all = Arc::make_mut(&mut found.0.preparations);
    let made = all.get_mut(&"a".into()).expect("it is there");
    LONG.clone_into(&mut Arc::make_mut(made).name);
    let plan = planned(&found, &service(1, None), None).expect("it can be planned");
    (found, plan)
}

fn value<'a>(event: &'a IcalEvent, name: &str) -> Option<&'a str> {
    let property = event.properties.iter().find(|own| own.name == name)?;
    property.value.as_deref()
}

#[test]
fn another_parser_reads_every_job_and_the_service() {
    let (found, plan) = found();
    let text = calendar(&found.0, &found.1, &found.2, &plan);
    let mut parser = ical::IcalParser::new(text.as_bytes());
    let read = parser.next().expect("one calendar").expect("it is sound");
    assert!(parser.next().is_none());
    assert_eq!(read.events.len(), plan.jobs.len() + 1);
    let mut names = BTreeSet::new();
    for (event, job) in read.events.iter().zip(&plan.jobs) {
        let start = job.start.strftime("%Y%m%dT%H%M%S").to_string();
        assert_eq!(value(event, "DTSTART"), Some(start.as_str()));
        assert!(names.insert(value(event, "UID").expect("it has a name").to_owned()));
        let is_long = job.hands_on_min + job.wait_min > 0;
        assert_eq!(value(event, "DTEND").is_some(), is_long);
        assert_ne!(value(event, "DTEND"), value(event, "DTSTART"));
    }
    let service = read.events.last().expect("the service");
    assert_eq!(value(service, "DTSTART"), Some("20260520T190000"));
    assert_eq!(value(service, "SUMMARY"), Some("Service: Test drink"));
}

#[test]
fn it_keeps_the_rules_of_the_standard() {
    let (found, plan) = found();
    let text = calendar(&found.0, &found.1, &found.2, &plan);
    assert!(text.ends_with("END:VCALENDAR\r\n"));
    assert_eq!(text.matches('\n').count(), text.matches("\r\n").count());
    assert_eq!(text.matches('\r').count(), text.matches("\r\n").count());
    for line in text.split("\r\n") {
        assert!(line.len() <= 75, "{} octets: {line}", line.len());
        assert!(!line.chars().any(char::is_control), "{line:?}");
    }
    let unfolded = text.replace("\r\n ", "");
    let lines: Vec<&str> = unfolded.split("\r\n").collect();
    assert_eq!(&lines[..2], ["BEGIN:VCALENDAR", "VERSION:2.0"]);
    assert!(lines[2].starts_with("PRODID:") && lines[2].len() > 10);
    let begins = lines.iter().filter(|line| **line == "BEGIN:VEVENT").count();
    for name in ["UID:", "DTSTAMP:", "DTSTART:", "SUMMARY:"] {
        let count = lines.iter().filter(|line| line.starts_with(name)).count();
        assert_eq!(count, begins, "{name}");
    }
    // Local times of no zone, a stamp in UTC.
    let times = lines
        .iter()
        .filter(|line| line.starts_with("DTSTART:") || line.starts_with("DTEND:"));
    assert!(times.clone().all(|line| !line.ends_with('Z')));
    assert!(lines.contains(&"DTSTAMP:20260520T000000Z"));
    // TEXT is escaped (3.3.11): backslash, semicolon, comma, line break.
    let summary = lines
        .iter()
        .find(|line| line.contains("Überlang"))
        .expect("the long one");
    assert!(
        summary.contains(r"Überlang\, mit Komma\; Strichpunkt \\ und"),
        "{summary}"
    );
    assert!(summary.contains(r"darf\nzweite Zeile"), "{summary}");
}

#[test]
fn the_same_plan_is_the_same_text_and_another_drink_has_other_names() {
    let (mut found, plan) = found();
    let one = calendar(&found.0, &found.1, &found.2, &plan);
    assert_eq!(one, calendar(&found.0, &found.1, &found.2, &plan));
    found.1.name = "Another drink".to_owned();
    let other = calendar(&found.0, &found.1, &found.2, &plan);
    let names = |text: &str| -> BTreeSet<String> {
        let lines = text.split("\r\n").filter(|line| line.starts_with("UID:"));
        lines.map(str::to_owned).collect()
    };
    assert!(names(&one).is_disjoint(&names(&other)));
}

#[test]
fn no_name_breaks_out_of_its_line() {
    for text in hostile() {
        let (mut found, _) = found();
        text.clone_into(&mut found.1.name);
        text.clone_into(&mut found.2.name);
        text.clone_into(&mut found.0.title);
        for made in Arc::make_mut(&mut found.0.preparations).values_mut() {
            let made = Arc::make_mut(made);
            text.clone_into(&mut made.name);
            for step in &mut made.steps {
                step.equipment.push(text.to_owned());
                text.clone_into(&mut step.note);
            }
        }
        let plan = planned(&found, &service(1, None), None).expect("it can be planned");
        let calendar = calendar(&found.0, &found.1, &found.2, &plan);
        assert_eq!(
            calendar.matches("\r\nBEGIN:VEVENT\r\n").count(),
            plan.jobs.len() + 1
        );
        assert_calendar(&calendar);
    }
}

/// Every line is a property of ours (RFC 5545 3.1), and nothing of it was in a name.
fn assert_calendar(calendar: &str) {
    let known = [
        "BEGIN:",
        "END:",
        "VERSION:",
        "PRODID:",
        "CALSCALE:",
        "UID:",
        "DTSTAMP:",
        "DTSTART:",
        "DTEND:",
        "SUMMARY:",
        "DESCRIPTION:",
        "TRANSP:",
    ];
    for line in calendar.replace("\r\n ", "").split_terminator("\r\n") {
        let property = known.iter().any(|begin| line.starts_with(begin));
        assert!(property && !line.starts_with("SUMMARY:own"), "{line:?}");
        assert!(!line.contains(char::is_control), "{line:?}");
    }
}
