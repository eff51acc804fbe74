//! What was really poured at the bench, against what was planned.

use super::text::pour_name;
use crate::balance::{Drink, Pantry, Steps, steps_between};
use crate::model::{Amount, BenchRun, Document, Point, PouredLine, Trial, Weights};
use crate::units::{Unit, number};
use std::mem::discriminant;

/// How far what was poured lies from what was planned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PouredDifference {
    /// Noticeable differences per axis: sweeter, sourer, stronger than planned when positive.
    pub steps: Steps,
    /// Noticeable differences in all, every axis counting alike.
    pub distance: f64,
}

/// A making of a trial with every line poured as it is planned, on a day that may be blank.
pub fn planned(trial: &Trial, on: impl Into<String>) -> BenchRun {
    let lines = trial.pours.iter().map(|pour| PouredLine {
        source: pour.source.clone(),
        planned: pour.amount.clone(),
        poured: Some(pour.amount.clone()),
    });
    BenchRun {
        on: on.into(),
        lines: lines.collect(),
        note: String::new(),
    }
}

/// The trial that a making stands for: what was poured, without what was left out.
///
/// `None` when its lines and the trial's pours are no longer the same; [`no_longer_matches`] says how.
pub fn as_poured(trial: &Trial, run: &BenchRun) -> Option<Trial> {
    with_amounts(trial, run, |line| line.poured.as_ref())
}

/// The trial as it was planned when it was made; `None` likewise.
pub fn as_planned(trial: &Trial, run: &BenchRun) -> Option<Trial> {
    with_amounts(trial, run, |line| Some(&line.planned))
}

fn with_amounts<'a>(
    trial: &Trial,
    run: &'a BenchRun,
    amount: impl Fn(&'a PouredLine) -> Option<&'a Amount>,
) -> Option<Trial> {
    let places: Option<Vec<usize>> = places(trial, run).into_iter().collect();
    let places = places.filter(|places| places.len() == trial.pours.len())?;
    let mut amounts: Vec<Option<&Amount>> = vec![None; trial.pours.len()];
    for (place, line) in places.iter().zip(&run.lines) {
        *amounts.get_mut(*place)? = amount(line);
    }
    let mut made = trial.clone();
    made.pours.clear();
    for (pour, amount) in trial.pours.iter().zip(amounts) {
        let Some(amount) = amount else {
            continue;
        };
        let mut pour = pour.clone();
        if discriminant(&pour.amount) != discriminant(amount) {
            pour.unit = usual_unit(amount);
        }
        pour.amount = amount.quantised();
        made.pours.push(pour);
    }
    Some(made)
}

/// The unit of an amount whose pour is measured otherwise by now.
const fn usual_unit(amount: &Amount) -> Unit {
    match amount {
        Amount::Ml(_) => Unit::Ml,
        Amount::Grams(_) => Unit::Gram,
        Amount::Pieces(_) | Amount::Words(_) => Unit::Piece,
    }
}

/// The pour that each line speaks of: of pours of one source, the first line means the first.
fn places(trial: &Trial, run: &BenchRun) -> Vec<Option<usize>> {
    let mut free: Vec<(usize, _)> = trial.pours.iter().enumerate().collect();
    let place = |line: &PouredLine| {
        let found = free.iter().position(|(_, pour)| pour.source == line.source);
        found.map(|found| free.remove(found).0)
    };
    run.lines.iter().map(place).collect()
}

/// How the pours of a trial differ from those of a making, in a sentence; `None` when they match.
pub fn no_longer_matches(document: &Document, trial: &Trial, run: &BenchRun) -> Option<String> {
    let places = places(trial, run);
    let lost = run.lines.iter().zip(&places);
    let lost = lost.filter(|(_, place)| place.is_none());
    let lost: Vec<&str> = lost.map(|(line, _)| line_name(document, line)).collect();
    let new = (0..trial.pours.len()).filter(|place| !places.contains(&Some(*place)));
    let new: Vec<&str> = new.map(|at| pour_name(document, trial, at)).collect();
    let mut parts = Vec::new();
    if !lost.is_empty() {
        parts.push(format!("no longer pours {}", lost.join(", ")));
    }
    if !new.is_empty() {
        parts.push(format!("now pours {}, too", new.join(", ")));
    }
    let what = parts.join(" and ");
    let name = &trial.name;
    (!parts.is_empty()).then(|| format!("{name} changed since it was made: it {what}"))
}

/// Name of what a line of a making poured; "?" when the document holds it no more.
fn line_name<'a>(document: &'a Document, line: &'a PouredLine) -> &'a str {
    let row = document.row_of(&line.source);
    let item = row.and_then(|row| document.ingredients.get(row));
    item.map_or("?", |item| item.name.as_str())
}

/// How far a making lies from its plan; `None` when it no longer matches or one of the two cannot be
/// served.
pub fn poured_difference(
    document: &Document,
    trial: &Trial,
    run: &BenchRun,
    pantry: &mut Pantry,
) -> Option<PouredDifference> {
    let mut point = |trial: &Trial| {
        let drink = Drink::of_trial(document, trial, pantry).ok()?;
        Some(Point::from(&drink.served().ok()?))
    };
    let planned = point(&as_planned(trial, run)?)?;
    let poured = point(&as_poured(trial, run)?)?;
    let steps = steps_between(&poured, &planned, &document.senses);
    let distance = steps.distance(&Weights::default());
    Some(PouredDifference { steps, distance })
}

/// "0.6 noticeable differences sourer than planned", "1.2 noticeable differences sweeter, 0.3 weaker
/// than planned, 1.2 in all", "as planned".
pub fn poured_difference_text(found: &PouredDifference) -> String {
    let steps = &found.steps;
    let axes = [
        (steps.sweet, "sweeter", "less sweet"),
        (steps.sour, "sourer", "less sour"),
        (steps.strength, "stronger", "weaker"),
    ];
    let shown = |value: f64| number(value.abs(), 1);
    let told = axes
        .into_iter()
        .filter(|(value, _, _)| shown(*value) != "0.0");
    let mut parts = Vec::new();
    for (value, more, less) in told {
        let size = shown(value);
        let unit = match (parts.is_empty(), size.as_str()) {
            (true, "1.0") => " noticeable difference",
            (true, _) => " noticeable differences",
            (false, _) => "",
        };
        let way = if value > 0.0 { more } else { less };
        parts.push(format!("{size}{unit} {way}"));
    }
    match parts.as_slice() {
        [] => "as planned".to_owned(),
        [one] => format!("{one} than planned"),
        all => {
            let in_all = number(found.distance, 1);
            format!("{} than planned, {in_all} in all", all.join(", "))
        }
    }
}
