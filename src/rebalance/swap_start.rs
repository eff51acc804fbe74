//! What a replaced pour begins with: the amount that brings the same of what the pour is there for.

use super::question::most;
use crate::balance::step_of;
use crate::kitchen::{Contents, DoseOf, is_weighed};
use crate::model::{Amount, Ingredient, IngredientId, Place, Pour, Role, Source, Trial};
use crate::physics::component::Component;
use crate::physics::freezing::liquidus;
use crate::units::{Measures, Unit};

/// Less than this share of its mass does not count as what a pour is there for.
const TRACE: f64 = 1.0e-4;
/// Most that a replaced pour grows, in volumes (our convention, no source): the solver's own limit.
const MOST_GROWTH: f64 = 4.0;

/// Less than this is weighed on a fine scale, g (common practice, no source).
const PINCH_G: f64 = 0.5;
/// Step of a fine scale, g (common practice, no source).
const FINE_G: f64 = 0.01;

/// Something to pour: an ingredient with what it is made of.
#[derive(Clone, Copy, Debug)]
pub(super) struct Poured<'a> {
    pub(super) item: &'a Ingredient,
    pub(super) contents: &'a Contents,
}

impl Poured<'_> {
    /// What a pour of that job is there for, per gram; 0 when only the volume says how much.
    fn purpose(&self, role: Role) -> f64 {
        let parts = &self.contents.per_gram;
        match role {
            Role::Base => parts[Component::Ethanol],
            Role::Sweet => parts.sweet_g(),
            Role::Sour => parts.sour_g(),
            Role::Seasoning => parts[Component::Salt],
            _ => 0.0,
        }
    }

    /// Middle of the usual dose of a thickener for the whole drink, %.
    fn dose(&self) -> Option<f64> {
        let dose = self.contents.nature.dose?;
        (dose.of == DoseOf::Drink).then(|| (dose.low_pct * dose.high_pct).sqrt())
    }

    /// Mass of so many ml, g.
    fn grams(&self, ml: f64) -> f64 {
        ml * self.contents.density_g_per_ml
    }

    fn is_weighed(&self) -> bool {
        is_weighed(self.item, self.contents)
    }
}

/// Volume of the new ingredient that does what `ml` of the old one does.
///
/// The same alcohol for a base, the same sucrose equivalent for a sweetener, the same acid for a
/// sour, the same salt for a seasoning, the same share of the usual dose for a thickener; for any
/// other job, and where either holds none of it, the same volume.
fn equivalent_ml(role: Role, ml: f64, old: Poured<'_>, new: Poured<'_>) -> f64 {
    if let (Some(was), Some(is)) = (old.dose(), new.dose()) {
        return old.grams(ml) * is / was / new.contents.density_g_per_ml;
    }
    let (was, is) = (old.purpose(role), new.purpose(role));
    if was < TRACE || is < TRACE {
        return ml;
    }
    let grams = old.grams(ml) * was / is;
    (grams / new.contents.density_g_per_ml).min(ml * MOST_GROWTH)
}

/// The pour with another ingredient in the amount it begins with, on its step.
///
/// `ml` is what the old amount comes to. A locked pour keeps its amount as long as its measure
/// stays. Job, order, lock, remark and moment stay. Notch and limits stay with the measure; less than
/// half a gram in a new measure is weighed to a hundredth. The place stays unless the new ingredient
/// would freeze there.
pub(super) fn replaced(
    pour: &Pour,
    id: &IngredientId,
    (old, ml): (Poured<'_>, f64),
    new: Poured<'_>,
    (trial, measures): (&Trial, &Measures),
) -> Pour {
    let mut next = pour.clone();
    next.source = Source::Ingredient(id.clone());
    let (amount, unit) = measure(pour, old, new, trial);
    let kept = core::mem::discriminant(&amount) == core::mem::discriminant(&pour.amount);
    if !kept {
        next.step = None;
        next.minimum = None;
        next.maximum = None;
        next.limits_off = false;
    }
    next.unit = unit;
    if next.place == Some(Place::Freezer) && freezes(new, Place::Freezer) {
        next.place = None;
    }
    // Nobody locks the weight of one thickener and means that of another.
    let thickens = old.dose().is_some() && new.dose().is_some();
    if pour.locked && kept && !thickens {
        return next;
    }
    let ml = equivalent_ml(pour.role, ml, old, new);
    let value = match amount {
        Amount::Grams(_) => new.grams(ml),
        Amount::Pieces(_) => new.grams(ml) / new.item.piece_g.unwrap_or(1.0).max(TRACE),
        _ => ml,
    };
    if !kept && matches!(amount, Amount::Grams(_)) && value < PINCH_G {
        next.step = Some(FINE_G);
    }
    next.amount = amount;
    let value = on_step(&next, value, measures);
    next.amount = next.amount.with_value(value).quantised();
    next
}

/// An amount on the pour's step and within its limits, at least one step.
pub(super) fn on_step(pour: &Pour, value: f64, measures: &Measures) -> f64 {
    let step = step_of(pour, measures).max(1.0e-6);
    let least = pour.least().unwrap_or(0.0).max(step);
    let most = most(pour, value, measures);
    let count = (value / step).round();
    let low = (least / step - 1.0e-9).ceil();
    let high = (most / step + 1.0e-9).floor().max(low);
    count.clamp(low, high) * step
}

/// The measure in which the new ingredient is poured: by weight what does not pour, by the piece
/// what is counted, else as before.
fn measure(pour: &Pour, old: Poured<'_>, new: Poured<'_>, trial: &Trial) -> (Amount, Unit) {
    match (&pour.amount, new.is_weighed()) {
        (Amount::Pieces(_), _) if new.item.piece_g.is_some() => (Amount::Pieces(0.0), Unit::Piece),
        (_, true) => (Amount::Grams(0.0), Unit::Gram),
        // A recipe that is weighed as a whole stays weighed.
        (Amount::Grams(_), false) if !old.is_weighed() => (Amount::Grams(0.0), Unit::Gram),
        (Amount::Ml(_), false) => (Amount::Ml(0.0), pour.unit),
        (_, false) => (Amount::Ml(0.0), jigger_unit(trial)),
    }
}

/// The unit that the trial's jiggered pours are written in.
pub(super) fn jigger_unit(trial: &Trial) -> Unit {
    trial.unit().unwrap_or(Unit::Ml)
}

fn freezes(new: Poured<'_>, place: Place) -> bool {
    liquidus(&new.contents.per_gram).is_some_and(|found| found.celsius > place.celsius())
}
