//! pH of a drink: charge balance with Davies activity coefficients.
//!
//! All acids dissociate by their pKa at 25 °C; the strong cation stands for the potassium and
//! sodium salts of a real juice. pH is −log10 of the activity of H⁺. Activity coefficients:
//! log γ = −A z² (√I/(1 + √I) − 0.3 I) with A = 0.509 (Davies), the ionic strength I found with
//! the pH. Concentrations are per litre of the whole drink and the effect of ethanol on the
//! constants is left out. Simple acids agree with published pH within 0.02, citrate–phosphate
//! buffers within 0.25.

use super::component::Component;
use super::composition::Composition;
use super::root::bracketed_root;

/// Ion product of water at 25 °C, mol²/L² (Harned and Owen, from memory; pKw 13.997).
const WATER_PRODUCT: f64 = 1.008e-14;

/// Debye–Hückel constant of water at 25 °C for decimal logarithms, (L/mol)^½ (see the module).
const DEBYE_HUECKEL: f64 = 0.509;

/// Coefficient of the linear term of the Davies equation, L/mol.
const DAVIES: f64 = 0.3;

/// Convergence of the ionic strength, mol/L.
const IONIC_TOLERANCE: f64 = 1e-11;

/// Rounds of the ionic strength before each is averaged with the one before it.
const PLAIN_ROUNDS: usize = 40;

/// Most rounds of the ionic strength.
const MOST_ROUNDS: usize = 400;

/// Range of pH that is searched.
const LOWEST_PH: f64 = -3.0;
const HIGHEST_PH: f64 = 16.0;

/// Largest ratio of total to free acid that is believed.
///
/// Above it nearly all acid would be neutralised, and what holds the pH is something else
/// (protein, carbonate).
const MOST_FACTOR: f64 = 100.0;

/// One dissolved acid.
#[derive(Clone, Copy)]
pub(super) struct Acid {
    mol_per_l: f64,
    /// Dissociation constants, mol/L; zero beyond the last.
    constants: [f64; 3],
    protons: f64,
}

/// Charge of the acids of a drink at one pH.
#[derive(Clone, Copy, Default)]
pub(super) struct Charges {
    /// Σ c·⟨z⟩, mol/L.
    pub(super) charge: f64,
    /// Σ c·⟨z²⟩, mol/L.
    pub(super) square: f64,
    /// Σ c·(⟨z²⟩ − ⟨z⟩²), mol/L: the slope of the charge in ln of the H⁺ activity, negative.
    pub(super) spread: f64,
}

/// H⁺ and OH⁻, mol/L.
#[derive(Clone, Copy)]
pub(super) struct WaterIons {
    pub(super) hydrogen: f64,
    pub(super) hydroxide: f64,
}

/// A drink as a solution of acids.
pub(super) struct Solution {
    pub(super) litres: f64,
    pub(super) acids: [Acid; Component::ACIDS.len()],
    salt_mol_per_l: f64,
}

/// How much of the acid of a liquid is neutralised.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FreeAcid {
    /// Total over free acid, from 1.
    pub factor: f64,
    /// Strong cation that binds the difference, mmol.
    pub cation_mmol: f64,
}

impl Acid {
    /// Charges of one molecule per litre, for the reciprocal of the H⁺ activity.
    pub(super) fn charges(&self, per_activity: f64, gamma: f64) -> Charges {
        // Amount of each form relative to the undissociated one. A coefficient of charge z is
        // gamma^(z²), so step z carries gamma^-(2z − 1).
        let mut form = 1.0;
        let mut step = gamma.recip();
        let (mut whole, mut first, mut second) = (1.0, 0.0, 0.0);
        for (charge, constant) in [1.0, 2.0, 3.0].into_iter().zip(self.constants) {
            form *= constant * per_activity * step;
            step /= gamma * gamma;
            whole += form;
            first += charge * form;
            second += charge * charge * form;
        }
        let (mean, square) = (first / whole, second / whole);
        Charges {
            charge: mean,
            square,
            spread: square - mean * mean,
        }
    }
}

impl Solution {
    /// The solution a composition makes; `None` without water or volume.
    pub(super) fn of(composition: &Composition) -> Option<Self> {
        let litres = composition.volume_ml() / 1000.0;
        if !(composition[Component::Water] > 0.0 && litres > 0.0) {
            return None;
        }
        let mol_per_l = |component: Component| {
            let molar_mass = component.molar_mass_g_per_mol().unwrap_or(f64::INFINITY);
            composition[component] / molar_mass / litres
        };
        let acids = Component::ACIDS.map(|component| Acid {
            mol_per_l: mol_per_l(component),
            constants: dissociation_constants(component),
            protons: component.protons(),
        });
        Some(Self {
            litres,
            acids,
            salt_mol_per_l: mol_per_l(Component::Salt),
        })
    }

    /// Charge of the acids at a pH, for the activity coefficient `gamma` of a single charge.
    pub(super) fn charges(&self, ph: f64, gamma: f64) -> Charges {
        let per_activity = ten_to(ph);
        let mut sum = Charges::default();
        for acid in self.acids.iter().filter(|acid| acid.mol_per_l > 0.0) {
            let one = acid.charges(per_activity, gamma);
            sum.charge += acid.mol_per_l * one.charge;
            sum.square += acid.mol_per_l * one.square;
            sum.spread += acid.mol_per_l * one.spread;
        }
        sum
    }

    /// Ionic strength with this cation, mol/L, for the rest of the solution.
    pub(super) fn ionic_strength(
        &self,
        ions: WaterIons,
        charges: Charges,
        cation_mol_per_l: f64,
    ) -> f64 {
        0.5 * (ions.hydrogen + ions.hydroxide + cation_mol_per_l.abs() + charges.square)
            + self.salt_mol_per_l
    }

    /// pH at which the charges balance, for a given activity coefficient.
    fn balanced_ph(&self, gamma: f64, cation_mol_per_l: f64, guess: f64) -> Option<f64> {
        let balance = |ph: f64| {
            let ions = WaterIons::at(ph, gamma);
            let charges = self.charges(ph, gamma);
            let value = ions.hydrogen + cation_mol_per_l - ions.hydroxide - charges.charge;
            let slope =
                -core::f64::consts::LN_10 * (ions.hydrogen + ions.hydroxide + charges.spread);
            (value, slope)
        };
        bracketed_root(LOWEST_PH, HIGHEST_PH, guess, 1e-12, balance)
    }

    /// Protons the acids can give up, mol/L.
    fn protons_mol_per_l(&self) -> f64 {
        self.acids
            .iter()
            .map(|acid| acid.mol_per_l * acid.protons)
            .sum()
    }
}

impl WaterIons {
    /// The ions of water at a pH.
    pub(super) fn at(ph: f64, gamma: f64) -> Self {
        let activity = ten_to(-ph);
        Self {
            hydrogen: activity / gamma,
            hydroxide: WATER_PRODUCT / (activity * gamma),
        }
    }
}

/// Dissociation constants of an acid at 25 °C, mol/L; zero beyond the last.
fn dissociation_constants(component: Component) -> [f64; 3] {
    let pka = component.pka();
    core::array::from_fn(|step| pka.get(step).map_or(0.0, |pka| ten_to(-pka)))
}

/// Ten to a power.
pub(super) fn ten_to(power: f64) -> f64 {
    (power * core::f64::consts::LN_10).exp()
}

/// Activity coefficient of a single charge by the Davies equation.
fn single_charge_activity(ionic_strength: f64) -> f64 {
    let root = ionic_strength.sqrt();
    ten_to(-DEBYE_HUECKEL * (root / (1.0 + root) - DAVIES * ionic_strength))
}

/// The ionic strength that reproduces itself; `None` when it does not settle.
///
/// `round` takes an activity coefficient and returns the ionic strength that follows.
pub(super) fn settle(mut round: impl FnMut(f64) -> Option<f64>) -> Option<f64> {
    let mut ionic_strength: f64 = 0.0;
    for count in 0..MOST_ROUNDS {
        let next = round(single_charge_activity(ionic_strength))?;
        let change = (next - ionic_strength).abs();
        ionic_strength = if count < PLAIN_ROUNDS {
            next
        } else {
            0.5 * (ionic_strength + next)
        };
        if change <= IONIC_TOLERANCE {
            return Some(ionic_strength);
        }
    }
    None
}

/// pH of a drink at 25 °C.
///
/// `None` without water, and for a solution so concentrated that the ionic strength does not
/// settle. Source and error: see the module.
pub fn ph(composition: &Composition) -> Option<f64> {
    let solution = Solution::of(composition)?;
    let cation = composition.cation_mmol / 1000.0 / solution.litres;
    let mut ph = 3.0;
    settle(|gamma| {
        ph = solution.balanced_ph(gamma, cation, ph)?;
        let ions = WaterIons::at(ph, gamma);
        Some(solution.ionic_strength(ions, solution.charges(ph, gamma), cation))
    })?;
    Some(ph)
}

/// Strong cation that gives a drink this pH, mmol, for acids that are stated in total.
///
/// The composition's own cation is ignored. Never negative: a pH below that of the acids alone
/// gives 0. `None` as for [`ph`].
pub fn strong_cation_mmol(composition: &Composition, ph: f64) -> Option<f64> {
    let solution = Solution::of(composition)?;
    let mut cation = 0.0;
    settle(|gamma| {
        let ions = WaterIons::at(ph, gamma);
        let charges = solution.charges(ph, gamma);
        cation = (charges.charge + ions.hydroxide - ions.hydrogen).max(0.0);
        Some(solution.ionic_strength(ions, charges, cation))
    })?;
    Some(cation * solution.litres * 1000.0)
}

/// Total acid and strong cation of a liquid whose acids are stated as titrated, that is free.
///
/// The acids of the composition are the figures; with the factor k the liquid holds k times them
/// and S = (k − 1)·Σ z·n of cation, so that a titration still finds the figures, and k is the one
/// that gives `ph`. Volume is that of the composition. k = 1 and S = 0 when the pH is not above
/// that of the figures alone, without water or acid, and where k would have to exceed 100.
pub fn resolve_titrated(composition: &Composition, ph: f64) -> FreeAcid {
    let unbound = FreeAcid {
        factor: 1.0,
        cation_mmol: 0.0,
    };
    let Some(solution) = Solution::of(composition) else {
        return unbound;
    };
    let protons = solution.protons_mol_per_l();
    let mut factor = 1.0;
    let settled = settle(|gamma| {
        let ions = WaterIons::at(ph, gamma);
        let charges = solution.charges(ph, gamma);
        // (k − 1) Σ z n = k·charge + OH − h, linear in k at a given ionic strength.
        let free = protons - charges.charge;
        if free <= 0.0 {
            return None;
        }
        factor = ((protons + ions.hydroxide - ions.hydrogen) / free).clamp(1.0, 2.0 * MOST_FACTOR);
        let scaled = Charges {
            square: factor * charges.square,
            ..charges
        };
        Some(solution.ionic_strength(ions, scaled, (factor - 1.0) * protons))
    });
    if settled.is_none() || factor > MOST_FACTOR {
        return unbound;
    }
    FreeAcid {
        factor,
        cation_mmol: (factor - 1.0) * protons * solution.litres * 1000.0,
    }
}
