//! A drink that overflows its glass, and how it is scaled down.

use super::edit::Edit;
use super::edit_apply::take_changes;
use super::kept_limits::glass_fill;
use super::notices::{Action, Notice, Severity, notice};
use crate::balance::{Drink, Figures, Pantry, figures};
use crate::model::{Amount, Document, Pour, Spec, Trial};
use crate::rebalance::Change;
use crate::units::{Unit, listed, number, show_volume};

/// Rounds until it fits; each takes most of what is too much away.
const MOST_ROUNDS: usize = 12;
/// What remains of a pour at least when a drink is scaled down; less is another drink (our convention).
const LEAST_LEFT: f64 = 0.1;

pub(super) fn overflow(
    document: &Document,
    (spec, trial): (&Spec, &Trial),
    figures: &Figures,
    pantry: &mut Pantry,
) -> Option<Notice> {
    let (full_ml, room) = glass_fill(&spec.glass, figures);
    if full_ml <= room || room <= 0.0 {
        return None;
    }
    let unit = trial.unit().unwrap_or(Unit::Ml);
    let volume = |ml: f64| show_volume(ml, 0, unit, &document.measures);
    let mut found = notice(
        Severity::Warning,
        format!(
            "Overflows the glass: {} served, room for {}",
            volume(full_ml),
            volume(room)
        ),
        format!(
            "{} of {} ml; ice takes {} %.",
            spec.glass.name,
            number(spec.glass.capacity_ml, 0),
            number(spec.glass.ice_share * 100.0, 0)
        ),
    );
    let held = held(trial);
    if let Some(changes) = fitting(document, (spec, trial), room / full_ml, pantry) {
        found.action = Some(scale_down(trial, changes, held.is_empty()));
    } else {
        found.reason = format!(
            "{} It cannot be scaled down while {}: unlock a pour, lower its limit or take a larger glass.",
            found.reason,
            in_the_way(document, trial, &held)
        );
    }
    Some(found)
}

fn scale_down(trial: &Trial, changes: Vec<Change>, whole: bool) -> Action {
    let words = if whole {
        "Scale the whole drink down"
    } else {
        "Scale down what is not locked"
    };
    Action::Edit(
        words.to_owned(),
        Box::new(Edit::ApplyChanges {
            trial: trial.id,
            changes,
            label: "scale down to fit the glass".to_owned(),
        }),
    )
}

/// Changes after which the drink fits; water from ice follows no single factor once a pour is locked, so
/// that a drink still too large is scaled on by what it is too large.
fn fitting(
    document: &Document,
    (spec, trial): (&Spec, &Trial),
    shrink: f64,
    pantry: &mut Pantry,
) -> Option<Vec<Change>> {
    let mut shrink = shrink;
    for _ in 0..MOST_ROUNDS {
        let changes = scaled_down(trial, shrink)?;
        let mut smaller = trial.clone();
        take_changes(&mut smaller, &changes).ok()?;
        let drink = Drink::of_trial(document, &smaller, pantry).ok()?;
        let (full_ml, room) = glass_fill(&spec.glass, &figures(&drink).ok()?);
        if full_ml <= room {
            return Some(changes);
        }
        shrink *= room / full_ml;
    }
    None
}

/// "gin and syrup are locked" or "the smallest amounts are kept".
fn in_the_way(document: &Document, trial: &Trial, held: &[&Pour]) -> String {
    let name = |pour: &&Pour| {
        let settled = document.settle(trial, pour);
        settled.map_or_else(|| "?".to_owned(), |settled| settled.name.to_owned())
    };
    let names: Vec<String> = held.iter().map(name).collect();
    match names.as_slice() {
        [] => "the smallest amounts of its pours are kept".to_owned(),
        [one] => format!("{one} is locked"),
        names => format!("{} are locked", listed(names)),
    }
}

/// Locked pours with an amount.
fn held(trial: &Trial) -> Vec<&Pour> {
    let pours = trial.pours.iter();
    pours
        .filter(|pour| pour.locked && size(pour).is_some())
        .collect()
}

/// ml or g; both count alike here, a gram being about a millilitre.
fn size(pour: &Pour) -> Option<f64> {
    match pour.amount {
        Amount::Ml(size) | Amount::Grams(size) => Some(size),
        Amount::Pieces(_) | Amount::Words(_) => None,
    }
}

/// The least that a pour may become: all of a locked one, else its limit.
fn floor(pour: &Pour, size: f64) -> f64 {
    let limit = pour.least().unwrap_or(0.0);
    if pour.locked { size } else { limit.min(size) }
}

/// Every pour that may move times one factor, so that the whole shrinks as asked; pours at their limit stay
/// there and the others give more. `None` when too little would be left of them.
fn scaled_down(trial: &Trial, shrink: f64) -> Option<Vec<Change>> {
    let sized = trial.pours.iter().enumerate();
    let sized: Vec<(usize, f64, f64)> = sized
        .filter_map(|(place, pour)| {
            let size = size(pour)?;
            Some((place, size, floor(pour, size)))
        })
        .collect();
    let wanted = shrink * sized.iter().map(|(_, size, _)| size).sum::<f64>();
    let factor = factor(&sized, wanted).filter(|factor| *factor >= LEAST_LEFT)?;
    let changes = sized.into_iter().filter_map(|(pour, from, least)| {
        // A tenth is as fine as anyone pours; drops and dashes keep their share.
        let fine = if from > 5.0 {
            (from * factor * 10.0).floor() / 10.0
        } else {
            from * factor
        };
        let to = fine.max(least);
        (to < from).then_some(Change { pour, from, to })
    });
    Some(changes.collect())
}

/// The factor at which sizes that cannot fall below their floors add up to what is wanted.
fn factor(sized: &[(usize, f64, f64)], wanted: f64) -> Option<f64> {
    let mut factor = 1.0_f64;
    // Each round holds at least one pour more, or ends.
    for _ in 0..=sized.len() {
        let is_held = |size: f64, least: f64| least >= size * factor;
        let (mut held, mut free) = (0.0, 0.0);
        for &(_, size, least) in sized {
            if is_held(size, least) {
                held += least;
            } else {
                free += size;
            }
        }
        if free <= 0.0 {
            return None;
        }
        let next = (wanted - held) / free;
        if (next - factor).abs() < 1.0e-12 {
            return Some(next);
        }
        factor = next;
    }
    Some(factor)
}
