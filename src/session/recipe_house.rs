//! House-made ingredients of a drink as short cards.

use super::derived::Derived;
use crate::kitchen::{card_parts, label, making_order_of, worked};
use crate::model::{Document, PreparationId, Source, Spec, Trial};
use crate::service::garnishes;
use crate::sheet::HouseCard;
use crate::units::{number, trimmed};
use std::collections::BTreeSet;

/// Preparations that a trial pours or is garnished with, and those below them, in the order of
/// making.
pub(super) fn preparations_of(
    document: &Document,
    spec: &Spec,
    trial: &Trial,
) -> Vec<PreparationId> {
    let mut wanted = Vec::new();
    let mut seen = BTreeSet::new();
    let laid = garnishes(document, spec).into_iter().map(|(id, _, _)| id);
    let poured = trial.poured();
    let poured = poured.filter_map(|(_, pour)| preparation_behind(document, &pour.source));
    for id in poured.chain(laid) {
        // A circle is said elsewhere; the preparation itself is told all the same.
        let order = making_order_of(document, id).unwrap_or_else(|_| vec![id.clone()]);
        for below in order {
            if seen.insert(below.clone()) {
                wanted.push(below);
            }
        }
    }
    wanted
}

/// The preparation that makes what is poured: by name, by its row, or as a lot of it.
pub(super) fn preparation_behind<'a>(
    document: &'a Document,
    source: &'a Source,
) -> Option<&'a PreparationId> {
    if let Source::Preparation { preparation, .. } = source {
        return Some(preparation);
    }
    let of = match source {
        Source::Lot(lot) => document.lots.get(lot)?.of.as_ref()?,
        other => document.row_of(other)?,
    };
    let mut made = document.preparations.iter();
    made.find(|(_, made)| made.outputs.values().any(|row| row == of))
        .map(|(id, _)| id)
}

/// Cards of those preparations, and how long all of them take one after the other at most, min.
pub(super) fn house_cards(
    document: &Document,
    spec: &Spec,
    trial: &Trial,
    derived: &Derived,
) -> (Vec<HouseCard>, Option<f64>) {
    let mut cards = Vec::new();
    let mut minutes = None;
    for id in preparations_of(document, spec, trial) {
        match card_parts(document, &id) {
            Ok(parts) => {
                minutes = Some(minutes.unwrap_or(0.0) + parts.minutes);
                let mut inputs = parts.first;
                inputs.extend(parts.inputs);
                cards.push(HouseCard {
                    makes: format!(
                        "{}{}. {}.",
                        parts.makes,
                        enough_for(derived, document, trial, &id),
                        parts.takes
                    ),
                    name: parts.name,
                    inputs,
                    steps: parts.sentences,
                    keeps: [kept(document, &id), warned(&parts.warnings)].concat(),
                });
            }
            Err(error) => cards.push(HouseCard {
                name: named(document, &id),
                makes: format!("Cannot be worked out: {error}."),
                ..HouseCard::default()
            }),
        }
    }
    (cards, minutes)
}

/// ", enough for about 11 drinks": the output that runs out first decides; blank where none is poured.
fn enough_for(derived: &Derived, document: &Document, trial: &Trial, id: &PreparationId) -> String {
    let made = document.preparations.get(id);
    let Some(Ok(flow)) = made.map(|made| worked(document, made)) else {
        return String::new();
    };
    let drinks = trial.poured().filter_map(|(place, pour)| {
        let Source::Preparation {
            preparation,
            output,
        } = &pour.source
        else {
            return None;
        };
        let poured = derived
            .contributions
            .iter()
            .find(|part| part.index == place)?;
        let made = flow.streams.get(output).filter(|_| preparation == id)?;
        Some(made.whole().mass_g() / poured.grams)
    });
    let least = drinks.filter(|drinks| drinks.is_finite()).reduce(f64::min);
    least.map_or_else(String::new, |drinks| {
        format!(", enough for about {} drinks", number(drinks.floor(), 0))
    })
}

fn warned(warnings: &[String]) -> Vec<String> {
    let warnings = warnings.iter();
    warnings
        .map(|words| format!("Mind {}.", words.trim_end_matches('.')))
        .collect()
}

fn named(document: &Document, id: &PreparationId) -> String {
    let made = document.preparations.get(id);
    made.map_or_else(|| id.0.clone(), |made| made.name.clone())
}

/// Life, storage and allergens of what it makes, a line each output.
fn kept(document: &Document, id: &PreparationId) -> Vec<String> {
    let Some(made) = document.preparations.get(id) else {
        return Vec::new();
    };
    let lives = crate::kitchen::keeping(document, id).unwrap_or_default();
    let line = |stream: &String| {
        // The day matters only to lines that are left out here.
        let label = label(document, id, stream, "2000-01-01").ok()?;
        let mut words: Vec<&str> = label.lines().skip(1).collect();
        words.retain(|line| {
            !["Made on", "Use by", "Follow"]
                .iter()
                .any(|left_out| line.starts_with(left_out))
        });
        let days = lives.get(stream).and_then(crate::kitchen::Keeping::days);
        let life = days.map_or_else(
            || "nobody says how long it keeps".to_owned(),
            |days| {
                let unit = if days == 1.0 { "day" } else { "days" };
                format!("keeps {} {unit}", trimmed(days, 1))
            },
        );
        let words: Vec<&str> = words
            .iter()
            .map(|line| line.trim_end_matches('.'))
            .collect();
        Some(format!("{stream}: {life}. {}.", words.join(". ")))
    };
    made.outputs.keys().filter_map(line).collect()
}
