//! When the target is out of reach: what one change would bring the drink nearer.

use super::continuous::NOTICEABLE;
use super::question::Question;
use super::remedy_round::{on_the_continuum, on_the_steps};
use super::remedy_tries::{Try, tries};
use super::swap::{LarderItem, Swap, described, take};
use super::swap_original::{Original, SwapError};
use crate::balance::{Figures, Pantry, figures};
use crate::model::{Bounded, Bounds, Method, ScaleRule};
use std::cmp::Ordering;

/// Noticeable differences that a remedy must gain to be worth a word (our convention, no source).
pub(super) const WORTH: f64 = 0.05;
/// Another technique changes the whole drink: it must gain a noticeable difference, and this share
/// of the distance (our convention, no source).
const SHARE_FOR_A_TECHNIQUE: f64 = 1.0 / 3.0;
/// A glass holds so much more than is asked of the solver, ml: the ice of the drink is worked out
/// anew once the amounts are known (our convention, no source).
const OVER_ML: f64 = 0.5;
/// Remedies that are rounded to the pour steps, so that a slider is followed.
const ROUNDED: usize = 5;

/// The one thing that a remedy changes besides amounts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RemedyKind {
    /// The pour at this place may move.
    Unlock(usize),
    /// Smallest and largest amount of the pour at this place are switched off.
    PourLimits(usize),
    /// The bounds of a figure of the drink are switched off.
    Bound(Bounded),
    /// The drink need not fit its glass.
    Glass,
    /// What was held, as this rule said, is not held any more.
    Hold(ScaleRule),
    /// Made another way, with its usual dilution; it was made this way.
    Technique(Method),
    /// A new pour, at this place.
    Add(usize),
}

impl RemedyKind {
    /// A word for tables and files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Unlock(_) => "unlock",
            Self::PourLimits(_) => "pour limits",
            Self::Bound(_) => "limit",
            Self::Glass => "glass",
            Self::Hold(_) => "held",
            Self::Technique(_) => "technique",
            Self::Add(_) => "add",
        }
    }

    /// Among equals what changes least of the drink stands first: locks, then limits, then
    /// technique, then ingredients.
    const fn rank(self) -> u8 {
        match self {
            Self::Unlock(_) => 0,
            Self::PourLimits(_) | Self::Bound(_) | Self::Glass | Self::Hold(_) => 1,
            Self::Technique(_) => 2,
            Self::Add(_) => 3,
        }
    }

    /// Noticeable differences that it must gain where the drink lies so far from the target.
    const fn worth(self, present: f64) -> f64 {
        match self {
            Self::Technique(_) => NOTICEABLE.max(SHARE_FOR_A_TECHNIQUE * present),
            _ => WORTH,
        }
    }
}

/// How a drink meets its ice.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chilled {
    /// Water from ice over the volume of the chilled part.
    pub dilution: f64,
    /// Served temperature, °C; `None` where nothing says it.
    pub celsius: Option<f64>,
}

impl Chilled {
    pub(super) const fn of(figures: &Figures) -> Self {
        Self {
            dilution: figures.dilution,
            celsius: figures.served_celsius,
        }
    }
}

/// One change that brings a drink nearer to its target, with the amounts that belong to it.
#[derive(Clone, Debug, PartialEq)]
pub struct Remedy {
    /// What is changed.
    pub kind: RemedyKind,
    /// Bounds of the drink with it.
    pub bounds: Bounds,
    /// What is held with it.
    pub scale_rule: ScaleRule,
    /// How the drink meets its ice before and after.
    pub chilled: (Chilled, Chilled),
    /// The drink with it: all pours and the technique, where it lands, what it brings and costs.
    pub swap: Swap,
}

impl Remedy {
    /// Distance from the target with it, noticeable steps.
    pub const fn distance(&self) -> f64 {
        self.swap.distance
    }

    /// Whether the drink with it fits so much room; what lets the limit to the glass go needs none.
    pub(super) fn fits(&self, room_ml: f64) -> bool {
        self.kind == RemedyKind::Glass || self.swap.figures.served_ml <= room_ml + OVER_ML
    }

    /// Which of two stands first: the nearer one to a tenth of a noticeable difference, which
    /// nobody could tell apart; then what changes less of the drink, then the nearer one.
    pub fn compare(&self, other: &Self) -> Ordering {
        let tenths = |one: &Self| (one.distance() * 10.0).round();
        tenths(self)
            .total_cmp(&tenths(other))
            .then_with(|| self.kind.rank().cmp(&other.kind.rank()))
            .then_with(|| self.distance().total_cmp(&other.distance()))
    }
}

/// What would bring a drink nearer to a target that it cannot reach.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Remedies {
    /// Distance of the nearest drink on the pour steps as things are; `None` when nothing keeps the
    /// limits.
    pub present: Option<f64>,
    /// Single remedies, the nearest first; empty when the target can be reached.
    pub found: Vec<Remedy>,
}

/// Looks for the single remedies that need no other ingredient: unlock a pour, let one limit go,
/// make it another way.
///
/// Each is tried alone and lands on the pour steps. Only what gains a twentieth of a noticeable
/// difference over the nearest drink as things are is kept; another technique must gain a noticeable
/// difference and a third of the distance. None grows the drink beyond its glass, but the one that
/// lets the limit to the glass go. Each is screened on the continuum first, and the leading ones are
/// rounded.
///
/// Fails when the question itself cannot be asked, as with every pour locked.
pub fn remedies(original: &Original<'_>, pantry: &mut Pantry) -> Result<Remedies, SwapError> {
    let now = Present::of(original)?;
    let present = now.distance;
    let mut all = Remedies {
        present: now.stated(),
        found: Vec::new(),
    };
    if present <= NOTICEABLE {
        return Ok(all);
    }
    let before = Chilled::of(&figures(&original.drink)?);
    let room = room_ml(original);
    let mut screened: Vec<(f64, Asked)> = tries(original, pantry)
        .into_iter()
        .filter_map(|one| {
            let question = question(original, &one).ok()?;
            let (away, smooth) = on_the_continuum(&question, None)?;
            helps(one.kind, away, present).then_some((away, (one, question, smooth)))
        })
        .collect();
    screened.sort_by(|one, other| one.0.total_cmp(&other.0));
    for (_, (one, question, smooth)) in screened.into_iter().take(ROUNDED) {
        // What makes no drink is no remedy.
        let brings = (before, Vec::new());
        let Ok(found) = rounded(original, (one, &question, smooth), brings, pantry) else {
            continue;
        };
        if helps(found.kind, found.distance(), present) && found.fits(room) {
            all.found.push(found);
        }
    }
    all.found.sort_by(Remedy::compare);
    Ok(all)
}

/// Whether a remedy is worth a word.
pub(super) fn helps(kind: RemedyKind, distance: f64, present: f64) -> bool {
    present - distance >= kind.worth(present)
}

/// The drink as it is.
pub(super) struct Present {
    /// What it is asked.
    pub(super) question: Question,
    /// The nearest amounts before anything is rounded.
    pub(super) smooth: Vec<f64>,
    /// Distance of the nearest drink on the pour steps; infinite when nothing keeps the limits.
    pub(super) distance: f64,
}

impl Present {
    pub(super) fn of(original: &Original<'_>) -> Result<Self, SwapError> {
        let question = Question::of_trial(
            original.document,
            &original.spec,
            &original.trial,
            original.drink.clone(),
        )?;
        let (_, smooth) = on_the_continuum(&question, None).ok_or(SwapError::Nothing)?;
        let found = on_the_steps(&question, smooth.clone())?;
        Ok(Self {
            distance: found.map_or(f64::INFINITY, |(distance, _)| distance),
            question,
            smooth,
        })
    }

    /// The distance where there is one.
    pub(super) fn stated(&self) -> Option<f64> {
        self.distance.is_finite().then_some(self.distance)
    }
}

/// A try with its question and its amounts before anything is rounded.
type Asked = (Try, Question, Vec<f64>);

/// The question that a try asks.
fn question(original: &Original<'_>, one: &Try) -> Result<Question, SwapError> {
    let (document, drink) = (original.document, one.drink.clone());
    let mut question = Question::of_trial(document, &one.spec, &one.trial, drink)?;
    if one.kind != RemedyKind::Glass {
        question.glass_ml.get_or_insert(room_ml(original));
    }
    Ok(question)
}

/// What a remedy may fill, ml: the glass beside its ice, or as much as the drink fills already.
pub(super) fn room_ml(original: &Original<'_>) -> f64 {
    let glass = &original.spec.glass;
    let room = glass.capacity_ml * (1.0 - glass.ice_share);
    let now = original.drink.served();
    now.map_or(room, |now| room.max(now.volume_ml))
}

/// A remedy on the pour steps, worked out again as a drink of its own.
pub(super) fn rounded(
    original: &Original<'_>,
    (one, question, smooth): (Try, &Question, Vec<f64>),
    (before, ingredients): (Chilled, Vec<LarderItem>),
    pantry: &mut Pantry,
) -> Result<Remedy, SwapError> {
    let (_, changes) = on_the_steps(question, smooth)?.ok_or(SwapError::Nothing)?;
    let Try {
        kind,
        spec,
        mut trial,
        ..
    } = one;
    take(&mut trial, &changes);
    let pours = original.trial.pours.len();
    let places = 0..trial.pours.len();
    let was = places.map(|place| (place < pours).then_some(place));
    let swap = described(original, (trial, ingredients, was.collect()), pantry)?;
    Ok(Remedy {
        kind,
        bounds: spec.bounds,
        scale_rule: spec.balancing.scale_rule,
        chilled: (before, Chilled::of(&swap.figures)),
        swap,
    })
}
