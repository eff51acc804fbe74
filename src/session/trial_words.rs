//! What a trial changed, in a few words.

use super::text::pour_name;
use crate::balance::align_pours;
use crate::model::{Document, Spec, Trial};

/// What a trial changed against the one it grew from: "lime juice 22.5 ml → 20 ml, stirred"; empty where
/// it grew from none or changed nothing.
pub fn change_words(document: &Document, spec: &Spec, trial: &Trial) -> String {
    let parent = trial.parent.and_then(|id| {
        let mut all = spec.trials_and_bin();
        all.find(|trial| trial.id == id)
    });
    parent.map_or_else(String::new, |parent| {
        between(document, parent, trial).join(", ")
    })
}

/// Every difference between two trials, in words.
fn between(document: &Document, was: &Trial, is: &Trial) -> Vec<String> {
    let measures = &document.measures;
    let mut words = Vec::new();
    for row in align_pours(document, &[was, is]) {
        let [before, after] = [(was, 0), (is, 1)].map(|(trial, column)| {
            let place = row.places.get(column).copied().flatten()?;
            let pour = trial.pours.get(place)?;
            let amount = pour.amount_text(pour.amount.value().unwrap_or(0.0), measures);
            let name = pour_name(document, trial, place);
            Some((name, amount, pour))
        });
        match (before, after) {
            (Some((name, from, was)), Some((now, to, is))) => {
                if name != now {
                    words.push(format!("{now} {to} for {name} {from}"));
                } else if from != to {
                    words.push(format!("{name} {from} → {to}"));
                } else if was.added != is.added {
                    words.push(format!("{name} {}", is.added.name()));
                }
            }
            (Some((name, ..)), None) => words.push(format!("no {name}")),
            (None, Some((name, to, _))) => words.push(format!("{name} {to} more")),
            (None, None) => {}
        }
    }
    if was.technique.method != is.technique.method {
        words.push(is.technique.method.name().to_owned());
    } else if was.technique != is.technique {
        words.push("other dilution".to_owned());
    }
    words
}
