//! The balance map in words: what hovering reads, its sentence, its table.

use super::data::{Mark, Table};
use super::map::{MapAsk, SpotKind};
use crate::balance::steps_between;
use crate::model::{Axis, Point, Weights};
use crate::units::{number, percent_vol, steps as steps_text};

/// What hovering over a mark of the map reads; worked out only when it is asked.
pub fn read_mark(ask: &MapAsk<'_>, mark: &Mark) -> String {
    let Some(spot) = ask.spots.iter().rev().find(|spot| spot.name == mark.name) else {
        return mark.detail.clone();
    };
    let mut detail = format!("{}\n{}", spot.name, point_text(&spot.point));
    if let Some(target) = ask.target {
        let far = steps_between(&spot.point, &target.point, ask.senses);
        detail = format!(
            "{detail}\n{}",
            far_words(far.distance(ask.weights), ask.weights)
        );
    }
    if matches!(
        spot.kind,
        SpotKind::Classic {
            complete: false,
            ..
        }
    ) {
        detail.push_str("\nthe source leaves an amount open, so this is a part of it");
    }
    detail
}

/// What does not count, in words: "sweet is free", "sweet and sour are free"; empty when all count.
pub fn free_words(weights: &Weights) -> String {
    let axes = [Axis::Sweet, Axis::Sour, Axis::Strength];
    let free = axes.into_iter().filter(|axis| weights.is_free(*axis));
    let free: Vec<&str> = free.map(Axis::name).collect();
    match free[..] {
        [] => String::new(),
        [one] => format!("{one} is free"),
        [one, other] => format!("{one} and {other} are free"),
        _ => "no axis counts".to_owned(),
    }
}

/// "1.2 steps from the target, sweet is free".
fn far_words(distance: f64, weights: &Weights) -> String {
    let free = free_words(weights);
    if axes_count(weights) == 0 {
        return free;
    }
    let far = format!("{} from the target", steps_text(distance));
    if free.is_empty() {
        far
    } else {
        format!("{far}, {free}")
    }
}

/// How many axes count.
fn axes_count(weights: &Weights) -> usize {
    let counts = |axis: &&Axis| !weights.is_free(**axis);
    Axis::ALL.iter().filter(counts).count()
}

pub(super) fn point_text(point: &Point) -> String {
    format!(
        "sweet {} g/L, sour {} g/L, {}",
        number(point.sweet_g_per_l, 1),
        number(point.sour_g_per_l, 2),
        percent_vol(point.strength_pct_vol)
    )
}

pub(super) fn summary(ask: &MapAsk<'_>) -> String {
    let Some(present) = ask.spots.iter().find(|spot| spot.kind == SpotKind::Present) else {
        return beside(ask).unwrap_or_else(|| "The map has no drink yet: add a pour.".to_owned());
    };
    let here = point_text(&present.point);
    match ask.target {
        Some(target) => {
            let far = steps_between(&present.point, &target.point, ask.senses);
            format!(
                "{} lies at {here}; {}.",
                present.name,
                far_words(far.distance(ask.weights), ask.weights)
            )
        }
        None => format!("{} lies at {here}; no target is set.", present.name),
    }
}

/// Where trials lie that stand beside each other.
fn beside(ask: &MapAsk<'_>) -> Option<String> {
    let trials = ask.spots.iter().filter(|spot| {
        matches!(
            spot.kind,
            SpotKind::Parent | SpotKind::Earlier | SpotKind::Starred
        )
    });
    let said: Vec<String> = trials
        .map(|spot| format!("{}: {}", spot.name, point_text(&spot.point)))
        .collect();
    (!said.is_empty()).then(|| format!("{}.", said.join("; ")))
}

pub(super) fn table(ask: &MapAsk<'_>) -> Table {
    let columns = [
        "drink",
        "sweet, g/L",
        "sour, g/L",
        "strength, % vol",
        "bitter, per ml",
    ];
    let row = |name: &str, point: &Point| {
        vec![
            name.to_owned(),
            number(point.sweet_g_per_l, 1),
            number(point.sour_g_per_l, 2),
            number(point.strength_pct_vol, 1),
            number(point.bitter_per_ml, 2),
        ]
    };
    let mut rows: Vec<Vec<String>> = Vec::new();
    let aim = match free_words(ask.weights).as_str() {
        "" => "target".to_owned(),
        free => format!("target, {free}"),
    };
    rows.extend(ask.target.map(|target| row(&aim, &target.point)));
    rows.extend(
        ask.spots
            .iter()
            .rev()
            .map(|spot| row(&spot.name, &spot.point)),
    );
    Table {
        columns: columns.map(str::to_owned).to_vec(),
        rows,
    }
}
