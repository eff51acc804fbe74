//! Which limits hold a proposal back, and what a little more room would gain.

use super::field::Field;
use super::question::Unknown;
use crate::model::Bounded;
use crate::solver::Row;

/// One limit of a question.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Limit {
    /// The smallest value of a figure of the drink.
    Least(Bounded),
    /// The largest value of a figure of the drink.
    Most(Bounded),
    /// The drink has to fit its glass.
    Glass,
    /// The size of the drink is held.
    Held,
    /// The smallest amount of the pour at this place in the trial.
    AtLeast(usize),
    /// The largest amount of the pour at this place in the trial.
    AtMost(usize),
    /// The pour at this place in the trial is locked.
    Locked(usize),
}

/// A limit that binds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Binding {
    /// Which limit.
    pub limit: Limit,
    /// Noticeable differences nearer to the target for one unit more room (ml, % vol, g, one unit
    /// of the currency, one pour, or one unit of the pour's own measure), to first order on the
    /// continuum. Not negative.
    pub gain_per_unit: f64,
}

/// The target counts as reached within this distance, noticeable steps: nothing holds back then (our
/// convention, no source).
pub(super) const REACHED: f64 = 0.02;
/// A limit that gains less than this, noticeable steps per unit, is not worth naming (our convention,
/// no source).
const LEAST_GAIN: f64 = 1.0e-4;

/// Limits that hold the nearest answer on the continuum back, the strongest first.
///
/// The multipliers are those of the distance alone, without the cost of change.
pub(super) fn bindings(field: &Field, smooth: &[f64]) -> Vec<Binding> {
    let Some((problem, prices)) = field.prices(smooth) else {
        return Vec::new();
    };
    let distance = prices.distance.sqrt();
    if distance < REACHED {
        return Vec::new();
    }
    let Some(volume) = problem.mixture.volume(&prices.x) else {
        return Vec::new();
    };
    // d(d²) = 2·d·dd.
    let per_unit = |price: f64| price.abs() / (2.0 * distance);
    let rows = field
        .limits
        .iter()
        .zip(&prices.rows)
        .map(|((limit, row), price)| (*limit, per_unit(*price) * unit_in(row, *limit, volume)));
    let unknowns = field.question.unknowns.iter().zip(&prices.ends);
    // That nothing can be poured less than nothing is no limit of anybody's.
    let ends = unknowns.filter(|(unknown, slope)| **slope <= 0.0 || unknown.lower > 0.0);
    let ends = ends.map(|(unknown, slope)| {
        let limit = if *slope > 0.0 {
            Limit::AtLeast(unknown.pour)
        } else {
            Limit::AtMost(unknown.pour)
        };
        (limit, per_unit(*slope))
    });
    let mut all: Vec<Binding> = rows
        .chain(ends)
        .filter(|(_, gain)| *gain > LEAST_GAIN)
        .map(|(limit, gain_per_unit)| Binding {
            limit,
            gain_per_unit,
        })
        .collect();
    all.sort_by(|one, other| other.gain_per_unit.total_cmp(&one.gain_per_unit));
    all
}

/// By how much one unit more of a limit moves the value of its row.
fn unit_in(row: &Row, limit: Limit, volume: f64) -> f64 {
    match limit {
        // The strength's row is in ethanol: one % vol more is one V more of it.
        Limit::Least(Bounded::Strength) | Limit::Most(Bounded::Strength) => volume,
        _ => row.volume.abs().max(1.0).recip(),
    }
}

/// Whether a limit binds at a point of the grid: hardly a step of a pour fits in what is left.
pub(super) fn binds_at(field: &Field, limit: Limit, x: &[f64], volume: f64) -> bool {
    let unknowns = &field.question.unknowns;
    let near = |pour: usize, end: fn(&Unknown) -> f64| {
        let found = unknowns.iter().position(|unknown| unknown.pour == pour);
        found.is_some_and(|i| (x[i] - end(&unknowns[i])).abs() < unknowns[i].step)
    };
    let tight = |row: &Row| {
        let value = row.value(x, volume);
        (value - row.low).min(row.high - value) < 2.0 * field.step_in(row)
    };
    match limit {
        Limit::AtLeast(pour) => near(pour, |unknown| unknown.lower),
        Limit::AtMost(pour) => near(pour, |unknown| unknown.upper),
        Limit::Locked(_) => true,
        _ => field
            .limits
            .iter()
            .any(|(known, row)| *known == limit && tight(row)),
    }
}
