//! How the served drink follows everything that adds up to it.

use super::kernel::{Ice, Served, serve_scattered};
use super::load::Load;
use super::moves::{Acidic, Delta};
use crate::physics::acidity::Acidity;
use crate::physics::number::Dual;

/// How many figures of the served drink are followed, one place for each below.
pub(super) const OUTPUTS: usize = 8;
/// Sucrose equivalent, g/L.
pub(super) const SWEET: usize = 0;
/// Citric equivalent, g/L.
pub(super) const SOUR: usize = 1;
/// Strength, % vol.
pub(super) const STRENGTH: usize = 2;
/// Bitterness per ml.
pub(super) const BITTER: usize = 3;
/// Served volume, ml.
pub(super) const VOLUME: usize = 4;
/// Water from ice over the volume before.
pub(super) const DILUTION: usize = 5;
/// pH.
pub(super) const PH: usize = 6;

/// A change of every followed figure; the last place is empty.
pub(super) type Response = [f64; OUTPUTS];

/// Amounts that the kernel treats nonlinearly, each a variable of the dual number.
const VARIABLES: usize = 11;
type Along = Dual<VARIABLES>;

/// Slopes of the served drink along the linear amounts and the water from ice.
#[derive(Clone, Debug)]
pub(super) struct Gradient {
    /// The drink as served.
    pub served: Served<f64>,
    /// Along each amount of the chilled part.
    chilled: Load<Response>,
    /// Along each amount of what is added afterwards.
    after: Load<Response>,
    /// Along the factor of the water from ice.
    pub scatter: Response,
    /// pH along the grams of each acid and the mmol of cation.
    acidic: Option<Acidic>,
}

impl Gradient {
    /// The gradient at these loads; the chilled part must hold some liquid.
    pub(super) fn at(chilled: &Load<f64>, after: &Load<f64>, ice: &Ice) -> Self {
        let served = serve_scattered(
            &varied(chilled, [0, 1, 2, 3, 4, 5]),
            // Mass and cold of what comes after have no effect: no variables, but constants.
            &varied(after, [VARIABLES, 6, 7, 8, 9, VARIABLES]),
            ice,
            Some(Along::variable(1.0, 10)),
        );
        let per_ml = 1.0 / served.volume_ml.value;
        let along = |index: usize| response(&served, index);
        let chilled = Load {
            mass_g: along(0),
            water_g: along(1),
            ethanol_g: along(2),
            sucrose_g: along(3),
            rest_ml: along(4),
            cold_kj: along(5),
            sweet_g: only(SWEET, 1000.0 * per_ml),
            sour_g: only(SOUR, 1000.0 * per_ml),
            bitter: only(BITTER, per_ml),
        };
        let after = Load {
            mass_g: [0.0; OUTPUTS],
            water_g: along(6),
            ethanol_g: along(7),
            sucrose_g: along(8),
            rest_ml: along(9),
            cold_kj: [0.0; OUTPUTS],
            ..chilled
        };
        Self {
            chilled,
            after,
            scatter: along(10),
            acidic: None,
            served: plain(&served),
        }
    }

    /// Follows pH too: it moves with acids, cation and, by dilution, with volume.
    pub(super) fn with_ph(mut self, acidity: &Acidity) -> Self {
        let per_ml = acidity.per_ml(self.served.volume_ml);
        let dilute = |response: Response| {
            let mut response = response;
            response[PH] = per_ml * response[VOLUME];
            response
        };
        self.chilled = self.chilled.map(dilute);
        self.after = self.after.map(dilute);
        self.scatter = dilute(self.scatter);
        self.acidic = Some(Acidic {
            acid_g: acidity.per_acid_g(self.served.volume_ml),
            cation_mmol: acidity.per_cation_mmol(self.served.volume_ml),
        });
        self
    }

    /// Whether pH is followed.
    pub(super) const fn follows_ph(&self) -> bool {
        self.acidic.is_some()
    }

    /// What a change brings about, in the chilled part or after it.
    #[inline]
    pub(super) fn of(&self, delta: &Delta, chilled: bool) -> Response {
        let mut sum = self.of_load(&delta.load, chilled);
        if let Some(ph) = &self.acidic {
            let acids = ph.acid_g.iter().zip(&delta.acidic.acid_g);
            sum[PH] += acids.map(|(slope, grams)| slope * grams).sum::<f64>();
            sum[PH] += ph.cation_mmol * delta.acidic.cation_mmol;
        }
        sum
    }

    fn of_load(&self, load: &Load<f64>, chilled: bool) -> Response {
        let along = if chilled { &self.chilled } else { &self.after };
        let mut sum = [0.0; OUTPUTS];
        let mut add = |slopes: &Response, amount: f64| {
            for (sum, slope) in sum.iter_mut().zip(slopes) {
                *sum += slope * amount;
            }
        };
        add(&along.mass_g, load.mass_g);
        add(&along.water_g, load.water_g);
        add(&along.ethanol_g, load.ethanol_g);
        add(&along.sucrose_g, load.sucrose_g);
        add(&along.rest_ml, load.rest_ml);
        add(&along.sweet_g, load.sweet_g);
        add(&along.sour_g, load.sour_g);
        add(&along.bitter, load.bitter);
        add(&along.cold_kj, load.cold_kj);
        sum
    }
}

/// A load whose mass, water, ethanol, sucrose, rest and cold are the variables of these numbers.
///
/// Sweet, sour and bitter only ever count in proportion: their slopes need no dual number.
fn varied(load: &Load<f64>, variables: [usize; 6]) -> Load<Along> {
    let [mass, water, ethanol, sucrose, rest, cold] = variables;
    Load {
        mass_g: Along::variable(load.mass_g, mass),
        water_g: Along::variable(load.water_g, water),
        ethanol_g: Along::variable(load.ethanol_g, ethanol),
        sucrose_g: Along::variable(load.sucrose_g, sucrose),
        rest_ml: Along::variable(load.rest_ml, rest),
        cold_kj: Along::variable(load.cold_kj, cold),
        ..Load::lift(load)
    }
}

/// The response that moves one figure alone.
fn only(place: usize, slope: f64) -> Response {
    core::array::from_fn(|each| if each == place { slope } else { 0.0 })
}

/// The slopes of the served figures along one variable.
fn response(served: &Served<Along>, index: usize) -> Response {
    let slope = |figure: &Along| figure.slope.get(index).copied().unwrap_or(0.0);
    let mut response = [0.0; OUTPUTS];
    response[SWEET] = slope(&served.sweet_g_per_l);
    response[SOUR] = slope(&served.sour_g_per_l);
    response[STRENGTH] = slope(&served.strength_pct_vol);
    response[BITTER] = slope(&served.bitter_per_ml);
    response[VOLUME] = slope(&served.volume_ml);
    response[DILUTION] = slope(&served.dilution);
    response
}

fn plain(served: &Served<Along>) -> Served<f64> {
    Served {
        chilled_ml: served.chilled_ml.value,
        chilled_strength: served.chilled_strength.value,
        dilution: served.dilution.value,
        melt_g: served.melt_g.value,
        volume_ml: served.volume_ml.value,
        sweet_g_per_l: served.sweet_g_per_l.value,
        sour_g_per_l: served.sour_g_per_l.value,
        strength_pct_vol: served.strength_pct_vol.value,
        bitter_per_ml: served.bitter_per_ml.value,
    }
}
