//! Water activity of a drink at 25 °C: how much of its water microbes could use.
//!
//! Product of binary terms, exp[ln(1 − x) + K x²] with x = n/(n + n_water) taken solute by solute
//! (Norrish's equation and the product rule). Constants: glycerol read in a published table, sucrose,
//! glucose and fructose from memory of Chirife and others; lactose and maltose are taken as
//! sucrose, acids and salt as ideal. Ethanol: ln(1 − x) + 2.483 x² − 2.291 x³, a fit to modified
//! UNIFAC (Dortmund) at 25 °C for x below 0.33. Error 0.003 for sugars alone, 0.01 for ethanol.
//!
//! Allan and others (Food Anal. Methods 12:2753, 2019) measured 678 wines and found predictions of
//! this kind 0.012 ± 0.007 too high: a real drink has a little less than what is said here.
//! These terms do not serve for freezing, since ethanol's change sign with temperature.

use super::component::Component;
use super::composition::Composition;
use super::freezing::moles;

/// Largest mole fraction of ethanol, in ethanol and water, of the fit: about 56 mass %.
const MOST_ETHANOL: f64 = 0.33;

/// Terms of ethanol in x² and x³.
const ETHANOL: (f64, f64) = (2.483, -2.291);

/// Solutes other than ethanol: how often each is counted and its x² coefficient.
const SOLUTES: [(Component, f64, f64); 15] = [
    (Component::Sucrose, 1.0, -6.47),
    (Component::Glucose, 1.0, -2.25),
    (Component::Fructose, 1.0, -2.25),
    // Taken as sucrose, whose molar mass they share.
    (Component::Lactose, 1.0, -6.47),
    (Component::Maltose, 1.0, -6.47),
    (Component::Glycerol, 1.0, -1.16),
    // Acids are taken as ideal and undissociated.
    (Component::Citric, 1.0, 0.0),
    (Component::Malic, 1.0, 0.0),
    (Component::Tartaric, 1.0, 0.0),
    (Component::Acetic, 1.0, 0.0),
    (Component::Lactic, 1.0, 0.0),
    (Component::Phosphoric, 1.0, 0.0),
    (Component::Ascorbic, 1.0, 0.0),
    (Component::Succinic, 1.0, 0.0),
    // Two ions.
    (Component::Salt, 2.0, 0.0),
];

/// The water activity of a drink.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WaterActivity {
    /// Vapour pressure over that of pure water at 25 °C, from 0 to 1.
    pub activity: f64,
    /// Whether ethanol lies in the range of its fit.
    pub in_range: bool,
}

/// Water activity at 25 °C; `None` without water.
///
/// Source and error: see the module. Protein, fat, starch, gum, other solids and cations are
/// taken to have no effect. Beyond the range of ethanol the fit is continued: spirit of 95 % vol
/// comes out 0.1 below the 0.365 that was measured.
pub fn water_activity(composition: &Composition) -> Option<WaterActivity> {
    let water_mol = moles(Component::Water, composition[Component::Water]);
    if water_mol <= 0.0 {
        return None;
    }
    let mole_fraction = |component: Component| {
        let solute_mol = moles(component, composition[component]);
        solute_mol / (solute_mol + water_mol)
    };
    let x = mole_fraction(Component::Ethanol);
    let mut logarithm = (-x).ln_1p() + x * x * (ETHANOL.0 + ETHANOL.1 * x);
    for (component, count, square) in SOLUTES {
        let x = mole_fraction(component);
        logarithm += count * ((-x).ln_1p() + square * x * x);
    }
    Some(WaterActivity {
        activity: logarithm.exp(),
        in_range: x <= MOST_ETHANOL,
    })
}
