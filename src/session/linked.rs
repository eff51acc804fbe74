//! Moving one pour so that others follow: the poured total stays, or every ratio does.

use crate::balance::{Contribution, step_of};
use crate::model::{Added, Amount, Document, Pour, Trial};
use crate::units::Unit;

/// Nearer than this two amounts are one.
const SAME: f64 = 1.0e-9;

/// What moving one pour by hand does to the others.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Linking {
    /// Nothing.
    #[default]
    Alone,
    /// Free pours measured by volume take up what it gains or loses, so that the poured total stays.
    Total,
    /// All free pours move in proportion.
    Ratio,
}

impl Linking {
    /// Every mode, in the order on screen.
    pub const ALL: [Self; 3] = [Self::Alone, Self::Total, Self::Ratio];

    /// The words on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Alone => "each alone",
            Self::Total => "total kept",
            Self::Ratio => "in ratio",
        }
    }
}

/// What linking has to know of one pour; amounts are in its own measure (ml, g or pieces).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LinkedPour {
    /// Amount before the move; `None` where the recipe gives words.
    pub amount: Option<f64>,
    /// Volume of one unit of it, ml; `None` where that is not known.
    pub ml_per_unit: Option<f64>,
    /// Notch, above 0.
    pub notch: f64,
    /// Smallest amount.
    pub least: f64,
    /// Largest amount, infinite where there is no limit.
    pub most: f64,
    /// It stays as it is.
    pub locked: bool,
    /// It takes part in keeping the total: measured by volume, neither dashed nor a rinse.
    pub fills: bool,
}

/// Where all pours stand after a move.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LinkedMove {
    /// Amounts, pour by pour.
    pub amounts: Vec<Option<f64>>,
    /// How much the poured total is off what was to be kept, ml; 0 unless the total is kept.
    pub off_ml: f64,
    /// Places of pours whose limits, or whose notch at nothing, kept them from following.
    pub held_back: Vec<usize>,
}

/// What linking has to know of the pours of a trial; `parts` are its contributions.
pub fn linked_pours(document: &Document, trial: &Trial, parts: &[Contribution]) -> Vec<LinkedPour> {
    let one = |(index, pour): (usize, &Pour)| {
        let amount = pour.amount.value();
        let part = parts.iter().find(|part| part.index == index);
        let by_volume = matches!(pour.amount, Amount::Ml(_));
        let is_rinse = pour.added == Added::Rinse;
        let measured = part.zip(amount.filter(|amount| *amount > 0.0));
        let measured = measured.map(|(part, amount)| part.volume_ml / amount);
        LinkedPour {
            amount,
            ml_per_unit: if by_volume && !is_rinse {
                Some(1.0)
            } else {
                measured
            },
            notch: step_of(pour, &document.measures).max(1.0e-6),
            least: pour.least().unwrap_or(0.0).max(0.0),
            most: pour.most().unwrap_or(f64::INFINITY),
            locked: pour.locked,
            fills: by_volume && !is_rinse && !matches!(pour.unit, Unit::Dash | Unit::Drop),
        }
    };
    trial.pours.iter().enumerate().map(one).collect()
}

/// Moves the pour at `lead` to an amount, and the free ones with it; the lead itself is not held.
pub fn move_linked(pours: &[LinkedPour], lead: usize, to: f64, linking: Linking) -> LinkedMove {
    let mut moved = LinkedMove {
        amounts: pours.iter().map(|pour| pour.amount).collect(),
        ..LinkedMove::default()
    };
    let Some(from) = pours.get(lead).and_then(|pour| pour.amount) else {
        return moved;
    };
    if let Some(amount) = moved.amounts.get_mut(lead) {
        *amount = Some(to);
    }
    match linking {
        Linking::Alone => {}
        Linking::Ratio if from > SAME => in_ratio(pours, lead, to / from, &mut moved),
        Linking::Ratio => moved.held_back = vec![lead],
        Linking::Total => match pours.get(lead).and_then(|pour| pour.ml_per_unit) {
            Some(ml_per_unit) => keep_total(pours, lead, (to - from) * ml_per_unit, &mut moved),
            None => moved.held_back = vec![lead],
        },
    }
    moved
}

/// The free pours that follow, with their amounts.
fn followers(
    pours: &[LinkedPour],
    lead: usize,
    fills_only: bool,
) -> impl Iterator<Item = (usize, &LinkedPour, f64)> {
    let free = pours
        .iter()
        .enumerate()
        .filter(move |(place, pour)| *place != lead && !pour.locked && (pour.fills || !fills_only));
    free.filter_map(|(place, pour)| {
        let amount = pour.amount.filter(|amount| *amount > SAME)?;
        Some((place, pour, amount))
    })
}

fn in_ratio(pours: &[LinkedPour], lead: usize, factor: f64, moved: &mut LinkedMove) {
    for (place, pour, base) in followers(pours, lead, false) {
        let ideal = base * factor;
        let amount = pour.held(pour.on_notch(ideal, base));
        if (amount - ideal).abs() > pour.notch / 2.0 + SAME {
            moved.held_back.push(place);
        }
        moved.amounts[place] = Some(amount);
    }
}

/// Takes `more_ml` out of the free pours in proportion, then evens notches out.
fn keep_total(pours: &[LinkedPour], lead: usize, more_ml: f64, moved: &mut LinkedMove) {
    let free: Vec<(usize, &LinkedPour, f64)> = followers(pours, lead, true).collect();
    let ideals = shared_out(&free, -more_ml);
    let mut amounts: Vec<f64> = free
        .iter()
        .zip(&ideals)
        .map(|((_, pour, base), ideal)| pour.held(pour.on_notch(*ideal, *base)))
        .collect();
    let off = |amounts: &[f64]| {
        let gained = amounts
            .iter()
            .zip(&free)
            .map(|(now, (_, _, was))| now - was);
        more_ml + gained.sum::<f64>()
    };
    // Each round brings the total nearer, so that it ends; the bound is for sizes no bar pours.
    for _ in 0..10_000 {
        let Some((place, next)) = next_notch(&free, &ideals, &amounts, off(&amounts)) else {
            break;
        };
        amounts[place] = next;
    }
    moved.off_ml = off(&amounts);
    let finest = free.iter().map(|(_, pour, _)| pour.notch);
    let finest = finest.fold(f64::INFINITY, f64::min);
    let missed = free.is_empty() || moved.off_ml.abs() > finest / 2.0 + SAME;
    for ((place, pour, _), amount) in free.iter().zip(&amounts) {
        moved.amounts[*place] = Some(*amount);
        let at_limit = if moved.off_ml > 0.0 {
            *amount <= pour.least + SAME
        } else {
            *amount >= pour.most - SAME
        };
        if missed && at_limit {
            moved.held_back.push(*place);
        }
    }
    if free.is_empty() && more_ml.abs() > SAME {
        moved.held_back = vec![lead];
    }
}

/// Amounts after `change_ml` is shared out in proportion within the limits.
fn shared_out(free: &[(usize, &LinkedPour, f64)], change_ml: f64) -> Vec<f64> {
    let mut ideals: Vec<f64> = free.iter().map(|(_, _, base)| *base).collect();
    let mut open = vec![true; free.len()];
    // A pour that meets its limit leaves its share to the others: one round for each at most.
    for _ in 0..=free.len() {
        let gained: f64 = ideals
            .iter()
            .zip(free)
            .map(|(now, (_, _, was))| now - was)
            .sum();
        let left = change_ml - gained;
        let weight = |place: usize| if open[place] { free[place].2 } else { 0.0 };
        let whole: f64 = (0..free.len()).map(weight).sum();
        if left.abs() <= SAME || whole <= SAME {
            break;
        }
        let shares: Vec<f64> = (0..free.len())
            .map(|place| left * weight(place) / whole)
            .collect();
        for (place, share) in shares.into_iter().enumerate() {
            let wanted = ideals[place] + share;
            ideals[place] = free[place].1.held(wanted);
            open[place] = open[place] && (ideals[place] - wanted).abs() <= SAME;
        }
    }
    ideals
}

/// The notch of one pour that brings the total nearer and leaves that pour nearest to its share.
fn next_notch(
    free: &[(usize, &LinkedPour, f64)],
    ideals: &[f64],
    amounts: &[f64],
    off_ml: f64,
) -> Option<(usize, f64)> {
    let steps = free.iter().enumerate().filter_map(|(place, (_, pour, _))| {
        let now = *amounts.get(place)?;
        let next = pour.held(pour.next(now, off_ml < 0.0));
        let nearer = (off_ml + next - now).abs() < off_ml.abs() - SAME;
        let strain = (next - ideals.get(place)?).abs() / pour.notch;
        nearer.then_some((place, next, strain))
    });
    let best = steps.min_by(|one, other| one.2.total_cmp(&other.2))?;
    Some((best.0, best.1))
}

impl LinkedPour {
    /// Whether two moments of one pour leave it the same freedom; amounts aside.
    pub fn moves_like(&self, other: &Self) -> bool {
        let freedom = |pour: &Self| (pour.notch, pour.least, pour.most, pour.locked, pour.fills);
        freedom(self) == freedom(other)
    }

    fn held(&self, amount: f64) -> f64 {
        amount.max(self.least).min(self.most.max(self.least))
    }

    /// The multiple of the notch nearest to an amount, or the amount before where that is nearer.
    fn on_notch(&self, ideal: f64, base: f64) -> f64 {
        let multiple = (ideal / self.notch).round() * self.notch;
        if (base - ideal).abs() <= (multiple - ideal).abs() {
            base
        } else {
            multiple
        }
    }

    /// The next multiple of the notch.
    fn next(&self, amount: f64, up: bool) -> f64 {
        let place = amount / self.notch;
        if up {
            ((place + 1.0e-9).floor() + 1.0) * self.notch
        } else {
            ((place - 1.0e-9).ceil() - 1.0) * self.notch
        }
    }
}
