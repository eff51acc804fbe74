//! Rules on a figure of the whole drink, as bounds of it.

use super::rule_bounds::End;
use super::rule_check::Handed;
use crate::model::{AlcoholMeasure, Bounded, RuleKind, VolumeOf};
use crate::physics::ethanol::ETHANOL_G_PER_ML;

/// Bounds lie so much within a rule, % vol, ml or g (our convention, no source): the solver keeps the
/// heat that ice meets as it is, and the drink that is poured then works it out anew.
const WITHIN: f64 = 0.05;
/// A present value closer to its rule than this keeps it.
const ROUNDING: f64 = 1.0e-6;

/// A value that a rule asks for, and the one that the solver is asked for.
#[derive(Clone, Copy)]
pub(super) struct Asked {
    pub(super) rule: f64,
    pub(super) aim: f64,
}

impl Asked {
    pub(super) const fn exactly(value: f64) -> Self {
        Self {
            rule: value,
            aim: value,
        }
    }
}

/// Bounds of the drink that a rule comes to.
pub(super) fn figures(handed: &Handed<'_>, asks: &RuleKind) -> Vec<(Bounded, End, Asked)> {
    let (figure, least, most) = match asks {
        RuleKind::Strength { least, most } => (Bounded::Strength, *least, *most),
        RuleKind::Volume {
            of: VolumeOf::Served,
            least,
            most,
        } => (Bounded::ServedVolume, *least, *most),
        RuleKind::AlcoholAtMost { measure, most } => match measure {
            AlcoholMeasure::PureGrams => (Bounded::Alcohol, None, Some(*most)),
            AlcoholMeasure::PureMl => (Bounded::Alcohol, None, Some(most * ETHANOL_G_PER_ML)),
            AlcoholMeasure::AlcoholicMl => return Vec::new(),
        },
        _ => return Vec::new(),
    };
    let present = handed.figures.map(|figures| match figure {
        Bounded::Strength => figures.point.strength_pct_vol,
        Bounded::ServedVolume => figures.served_ml,
        _ => figures.alcohol_g,
    });
    let narrow = least
        .zip(most)
        .is_some_and(|(least, most)| most - least < 4.0 * WITHIN);
    let within = if narrow { 0.0 } else { WITHIN };
    // A drink that keeps its rule by less than that may stay where it is.
    let least = least.map(|least| {
        let aim = least + within;
        let near = present.filter(|now| *now >= least - ROUNDING && *now < aim);
        let aim = near.unwrap_or(aim);
        (figure, End::Least, Asked { rule: least, aim })
    });
    let most = most.map(|most| {
        let aim = (most - within).max(0.0);
        let near = present.filter(|now| *now <= most + ROUNDING && *now > aim);
        let aim = near.unwrap_or(aim);
        (figure, End::Most, Asked { rule: most, aim })
    });
    least.into_iter().chain(most).collect()
}
