//! Targets worked out from something known: between several references, inside a published range.

use crate::model::{Axis, Point, Region, Senses, Target, TargetPart};
use crate::units::trimmed;

/// Most references that one target lies between (our convention, no source).
pub const MOST_PARTS: usize = 12;
/// Largest weight of a reference (our convention, no source).
pub const HEAVIEST: f64 = 100.0;
/// Longest name of a reference that a target remembers, in characters (our convention, no source).
pub const LONGEST_NAME: usize = 60;
/// Most references that the label of a target names.
const MOST_NAMED: usize = 4;

/// A reference that pulls a target towards itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pull<'a> {
    /// Name of the reference.
    pub name: &'a str,
    /// Its balance point.
    pub point: Point,
    /// How much it counts, 0 to [`HEAVIEST`]; 0 leaves it out. Only ratios of weights matter.
    pub weight: f64,
}

/// References between which there is no target.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum AimError {
    /// Nothing counts.
    #[error("no reference is chosen: give at least one a weight above 0")]
    NothingChosen,
    /// More count than a target remembers.
    #[error("{count} references are chosen: at most {MOST_PARTS} can be weighed at once")]
    TooMany {
        /// How many were chosen.
        count: usize,
    },
    /// A weight that is no number between 0 and the largest.
    #[error("{name}: its weight must lie in 0 to {HEAVIEST}")]
    Weight {
        /// Name of the reference.
        name: String,
    },
    /// A balance point that is not finite.
    #[error("{name}: its balance is not known")]
    Place {
        /// Name of the reference.
        name: String,
    },
}

/// The point that minimises the weighted sum of squared noticeable steps to the references.
///
/// On one axis the steps from the reference r to the point c are
/// `ln((c + c0) / (r + c0)) / ln(1 + w)`, with the detection threshold c0 and the Weber fraction w
/// of [`Senses`]. With u = ln(c + c0) and u_i = ln(r_i + c0) the sum is Σ g_i (u − u_i)² / ln²(1 + w),
/// a parabola in u. Its slope vanishes at u = Σ g_i u_i / Σ g_i, so c is the exponential of the
/// weighted mean of ln(r_i + c0), less c0; w and the weight of the axis drop out, and the axes do
/// not touch each other. u lies among the u_i, so c lies among the r_i and is never negative.
/// Bitterness has no threshold and no steps: it takes the weighted mean.
///
/// # Errors
///
/// When nothing counts, too much counts, or a weight or a point is not a number in its range.
pub fn weighted_centre(pulls: &[Pull<'_>], senses: &Senses) -> Result<Point, AimError> {
    let counted = counted(pulls)?;
    let whole: f64 = counted.iter().map(|pull| pull.weight).sum();
    let mean = |read: &dyn Fn(&Point) -> f64| {
        let pulled = counted
            .iter()
            .map(|pull| pull.weight / whole * read(&pull.point));
        pulled.sum::<f64>()
    };
    let mut centre = Point::default();
    for axis in Axis::ALL {
        let value = match senses.of(axis) {
            Some(threshold) => {
                let c0 = threshold.detection;
                mean(&|point| (point.on(axis).max(0.0) + c0).ln()).exp() - c0
            }
            None => mean(&|point| point.on(axis)),
        };
        centre.set(axis, value);
    }
    Ok(centre)
}

/// The target at the weighted centre, with a label that names the references and with its parts.
///
/// # Errors
///
/// As [`weighted_centre`].
pub fn between(pulls: &[Pull<'_>], senses: &Senses) -> Result<Target, AimError> {
    let counted = counted(pulls)?;
    let parts = counted.iter().map(|pull| TargetPart {
        name: part_name(pull.name),
        weight: pull.weight,
    });
    Ok(Target {
        point: weighted_centre(pulls, senses)?,
        label: label(&counted),
        parts: parts.collect(),
    })
}

/// A name as a target remembers it: cut where it is too long.
pub fn part_name(name: &str) -> String {
    if name.chars().count() <= LONGEST_NAME {
        return name.to_owned();
    }
    let kept: String = name.chars().take(LONGEST_NAME - 1).collect();
    format!("{}…", kept.trim_end())
}

/// The references with a weight above 0, if they can be weighed at all.
fn counted<'a>(pulls: &[Pull<'a>]) -> Result<Vec<Pull<'a>>, AimError> {
    let wrong = |pull: &&Pull<'_>| !(0.0..=HEAVIEST).contains(&pull.weight);
    if let Some(pull) = pulls.iter().find(wrong) {
        let name = part_name(pull.name);
        return Err(AimError::Weight { name });
    }
    let counted: Vec<Pull<'_>> = pulls
        .iter()
        .copied()
        .filter(|pull| pull.weight > 0.0)
        .collect();
    let lost = |pull: &&Pull<'_>| {
        Axis::ALL
            .iter()
            .any(|axis| !pull.point.on(*axis).is_finite())
    };
    if let Some(pull) = counted.iter().find(lost) {
        let name = part_name(pull.name);
        return Err(AimError::Place { name });
    }
    match counted.len() {
        0 => Err(AimError::NothingChosen),
        count if count > MOST_PARTS => Err(AimError::TooMany { count }),
        _ => Ok(counted),
    }
}

/// "between daiquiri (2) and whiskey sour": weights stand only where they differ and are not 1.
fn label(counted: &[Pull<'_>]) -> String {
    let first = counted.first().map_or(1.0, |pull| pull.weight);
    let alike = counted
        .iter()
        .all(|pull| (pull.weight - first).abs() < 1.0e-9);
    let mut heaviest: Vec<&Pull<'_>> = counted.iter().collect();
    heaviest.sort_by(|a, b| b.weight.total_cmp(&a.weight));
    let others = heaviest.len().saturating_sub(MOST_NAMED);
    let mut names: Vec<String> = heaviest
        .into_iter()
        .take(MOST_NAMED)
        .map(|pull| {
            let name = part_name(pull.name);
            if alike || (pull.weight - 1.0).abs() < 1.0e-9 {
                name
            } else {
                format!("{name} ({})", trimmed(pull.weight, 2))
            }
        })
        .collect();
    if others > 0 {
        names.push(format!("{others} more"));
    }
    match names.pop() {
        Some(last) if names.is_empty() => last,
        Some(last) => format!("between {} and {last}", names.join(", ")),
        None => String::new(),
    }
}

/// Where a drink would enter a published range.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InRegion {
    /// The point of the range nearest to the drink.
    pub point: Point,
    /// The drink lies in the range already, so that the point is its own.
    pub is_inside: bool,
}

/// The point of a region that lies nearest to a drink in noticeable steps.
///
/// The steps of each axis grow with the way on that axis alone and a region is a box, so that the
/// nearest point keeps every value that lies in its range and takes the nearer end where one does
/// not; thresholds and weights do not matter. An axis without a range stays as the drink has it.
pub fn nearest_in_region(region: &Region, drink: &Point) -> InRegion {
    let mut point = *drink;
    for axis in Axis::ALL {
        if let Some((from, to)) = region.on(axis) {
            point.set(axis, drink.on(axis).min(to).max(from));
        }
    }
    InRegion {
        point,
        is_inside: point == *drink,
    }
}
