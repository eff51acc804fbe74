//! Limits of the drink as a whole, linear in its amounts and its served volume.

use super::binding::Limit;
use super::blend::Blend;
use super::question::Question;
use crate::model::{Bounded, ScaleRule};
use crate::physics::ethanol::ETHANOL_G_PER_ML;
use crate::solver::Row;

/// Every limit of a question that counts: what is held first.
pub(super) fn limits(question: &Question, blend: &Blend) -> Vec<(Limit, Row)> {
    let mut all: Vec<(Limit, Row)> = held(question, blend)
        .map(|row| (Limit::Held, row))
        .into_iter()
        .collect();
    for figure in Bounded::ALL {
        let bound = question.bounds.of(figure);
        let (low, high) = (bound.low(), bound.high());
        if low.is_finite() && (figure != Bounded::Pours) {
            all.push((
                Limit::Least(figure),
                row(question, figure, low, f64::INFINITY),
            ));
        }
        if high.is_finite() && (figure != Bounded::Pours) {
            all.push((
                Limit::Most(figure),
                row(question, figure, f64::NEG_INFINITY, high),
            ));
        }
    }
    if let Some(capacity) = question.glass_ml {
        let row = row(question, Bounded::ServedVolume, f64::NEG_INFINITY, capacity);
        all.push((Limit::Glass, row));
    }
    all
}

/// Within how many ml of what is held a proposal may land; `None` where no size is held, and for a base
/// pour, which does not move at all.
pub fn held_within_ml(question: &Question) -> Option<f64> {
    match question.balancing.scale_rule {
        ScaleRule::None | ScaleRule::BasePour => None,
        ScaleRule::PouredTotal | ScaleRule::ServedVolume => Some(held_slack(question)),
    }
}

/// Half the largest unlocked step, ml: on a grid "held" means within it.
pub(super) fn held_slack(question: &Question) -> f64 {
    let steps = question.unknowns.iter().map(|u| u.step * u.ml_per_unit);
    steps.fold(0.0_f64, f64::max) / 2.0 + 1.0e-9
}

/// The size that is held.
fn held(question: &Question, blend: &Blend) -> Option<Row> {
    let slack = held_slack(question);
    let present = question.present();
    let around = |volume: f64, per_unit: Vec<f64>, value: f64| Row {
        volume,
        constant: 0.0,
        per_unit,
        low: value - slack,
        high: value + slack,
    };
    match question.balancing.scale_rule {
        ScaleRule::None | ScaleRule::BasePour => None,
        ScaleRule::PouredTotal => {
            let per_unit: Vec<f64> = question.unknowns.iter().map(|u| u.ml_per_unit).collect();
            let total = per_unit.iter().zip(&present).map(|(ml, x)| ml * x).sum();
            Some(around(0.0, per_unit, total))
        }
        ScaleRule::ServedVolume => {
            let volume = blend.served(&present)?.volume_ml;
            Some(around(1.0, vec![0.0; present.len()], volume))
        }
    }
}

/// One figure of the drink between two values.
fn row(question: &Question, figure: Bounded, low: f64, high: f64) -> Row {
    let of_line = |line: usize| {
        let line = &question.drink.lines[line];
        match figure {
            Bounded::ServedVolume | Bounded::Pours => 0.0,
            Bounded::Strength => 100.0 / ETHANOL_G_PER_ML * line.per_unit.ethanol_g,
            Bounded::Alcohol => line.per_unit.ethanol_g,
            Bounded::Cost => line.price_per_unit().unwrap_or(0.0),
        }
    };
    let moves = |line: usize| question.unknowns.iter().any(|u| u.line == line);
    let still = question.drink.lines.iter().enumerate();
    let constant = still
        .filter(|(place, _)| !moves(*place))
        .map(|(place, line)| of_line(place) * line.amount)
        .sum();
    let per_unit = question.unknowns.iter().map(|u| of_line(u.line)).collect();
    match figure {
        Bounded::ServedVolume | Bounded::Pours => Row {
            volume: 1.0,
            constant,
            per_unit,
            low,
            high,
        },
        // Ethanol over volume: "at most s" is ethanol − s·V ≤ 0.
        Bounded::Strength => Row {
            volume: -if low.is_finite() { low } else { high },
            constant,
            per_unit,
            low: if low.is_finite() { 0.0 } else { low },
            high: if high.is_finite() { 0.0 } else { high },
        },
        Bounded::Alcohol | Bounded::Cost => Row {
            volume: 0.0,
            constant,
            per_unit,
            low,
            high,
        },
    }
}
