//! The temperature at which ice and a drink are in equilibrium.
//!
//! ln a_ice(T) = Σ over solutes of [ln(1 − x) + terms], x = n/(n + n_water) taken solute by solute
//! (product rule). The terms are fits to the CRC Handbook's freezing points of each solute alone:
//! within 0.05 °C for sugars (to 42 mass %), 0.1 °C for citric acid and glycerol, 0.21 °C for
//! ethanol to 50 mass %. For ethanol with sugar no measured table could be read; another combining
//! rule moves the result 0.05 °C (10 + 10 mass %) to 0.7 °C (25 + 25 %), so the error is put at
//! 0.3, 0.7, 1 and 2 °C for 10 + 10, 20 + 10, 20 + 20 and 25 + 25 mass %.

use super::component::Component;
use super::composition::Composition;
use super::number::Number;
use super::root::bracketed_root;

/// Lowest temperature that is solved for, °C.
pub const LOWEST_CELSIUS: f64 = -60.0;

/// Highest ethanol mass fraction of ethanol and water that the ethanol terms were fitted to.
pub const MOST_ETHANOL: f64 = 0.5;

/// Melting point of ice, K.
const MELTING_KELVIN: f64 = 273.15;

/// Gas constant, J/(mol K) (CODATA).
const GAS_J_PER_MOL_K: f64 = 8.314_463;

/// Molar heat of fusion of ice at 0 °C, J/mol (from IAPWS-06 and IAPWS-95).
const FUSION_J_PER_MOL: f64 = 6006.87;

/// Molar heat capacity of water less that of ice, J/(mol K) (from IAPWS-06 and IAPWS-95).
const CP_STEP_J_PER_MOL_K: f64 = 38.24;

/// Fitted terms of ethanol, powers of x from 0 to 6 (0–50 mass %).
const ETHANOL: [f64; 7] = [
    0.0,
    0.0,
    4.003_387_89,
    -125.662_310_81,
    856.323_475_66,
    -2_212.077_346_53,
    1_966.011_171_83,
];

/// Mole fraction of ethanol at 50 mass %, the end of the fit.
const ETHANOL_END: f64 = 0.281_122_9;

/// Slope of ln a in x beyond the end of the fit.
///
/// There the polynomial turns round and would be up to 14 °C out at 64 mass %; the straight line
/// from its end to the CRC freezing point of 68 mass % (−49.52 °C) stays within 1.3 °C of the CRC
/// rows between, and adding ethanol never warms the drink.
const ETHANOL_SLOPE: f64 = -0.674_36;

/// Solutes other than ethanol: how often each is counted and its x² coefficient.
const SOLUTES: [(Component, f64, f64); 15] = [
    (Component::Sucrose, 1.0, -7.405),
    (Component::Fructose, 1.0, -1.99),
    (Component::Glucose, 1.0, -2.70),
    (Component::Lactose, 1.0, -9.4),
    (Component::Maltose, 1.0, -7.07),
    (Component::Glycerol, 1.0, -2.22),
    (Component::Citric, 1.0, -1.89),
    // The other acids are taken as ideal and undissociated.
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

/// The freezing point of a drink: the coldest that ice can make it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Liquidus {
    /// Temperature, °C, at or below 0.
    pub celsius: f64,
    /// Whether ethanol is at most 50 mass % of ethanol and water, as the fit asks for.
    pub in_range: bool,
    /// How far it may be off, °C; see the module.
    pub error_celsius: f64,
}

/// Logarithm of the activity of water in equilibrium with ice.
///
/// `celsius` from −60 to 0. From IAPWS-06 and IAPWS-95 by integrating the heat of fusion; error of
/// the activity below 0.0004 to −20 °C, 0.0017 at −30 °C.
pub fn ln_ice_activity(celsius: f64) -> f64 {
    ln_ice_activity_and_slope(celsius).0
}

/// The logarithm and its slope per °C.
fn ln_ice_activity_and_slope(celsius: f64) -> (f64, f64) {
    let kelvin = celsius + MELTING_KELVIN;
    let ratio = MELTING_KELVIN / kelvin;
    let fusion = FUSION_J_PER_MOL / GAS_J_PER_MOL_K;
    let step = CP_STEP_J_PER_MOL_K / GAS_J_PER_MOL_K;
    let value =
        -fusion * (kelvin.recip() - MELTING_KELVIN.recip()) + step * (ratio - 1.0 - ratio.ln());
    let slope = (fusion + step * (kelvin - MELTING_KELVIN)) / (kelvin * kelvin);
    (value, slope)
}

/// The temperature at which a drink starts to freeze.
///
/// `None` without water, and when it would lie below −60 °C. Error: see the module. Protein, fat,
/// starch, gum, other solids and cations are taken to have no effect.
pub fn liquidus(composition: &Composition) -> Option<Liquidus> {
    let water_g = composition[Component::Water];
    let ethanol_g = composition[Component::Ethanol];
    let wanted = ln_water_activity(composition)?;
    let error_celsius = stated_error(composition);
    let in_range = ethanol_g <= MOST_ETHANOL * (ethanol_g + water_g) * (1.0 + 1e-12);
    if wanted > -1e-15 {
        return Some(Liquidus {
            celsius: 0.0,
            in_range,
            error_celsius,
        });
    }
    let difference = |celsius: f64| {
        let (value, slope) = ln_ice_activity_and_slope(celsius);
        (value - wanted, slope)
    };
    // About 103 °C per unit of ln a close to 0 °C.
    let guess = 103.0 * wanted;
    let celsius = bracketed_root(LOWEST_CELSIUS, 0.0, guess, 1e-10, difference)?;
    Some(Liquidus {
        celsius,
        in_range,
        error_celsius,
    })
}

/// The error put down in the module, °C, by mass % of ethanol and of everything dissolved.
fn stated_error(composition: &Composition) -> f64 {
    let mass_g = composition.mass_g();
    let ethanol = composition[Component::Ethanol] / mass_g;
    let solids = 1.0 - ethanol - composition[Component::Water] / mass_g;
    let (less, more) = (ethanol.min(solids), ethanol.max(solids));
    if more <= 0.10 {
        0.3
    } else if more <= 0.20 && less <= 0.10 {
        0.7
    } else if more <= 0.20 {
        1.0
    } else {
        2.0
    }
}

/// Logarithm of the activity of water along the liquidus, from the solutes alone.
///
/// `None` without water. Temperature does not enter: the terms are those at the freezing point.
fn ln_water_activity(composition: &Composition) -> Option<f64> {
    let water_g = composition[Component::Water];
    if water_g <= 0.0 {
        return None;
    }
    let water_mol = moles(Component::Water, water_g);
    let mole_fraction = |component: Component| {
        let solute_mol = moles(component, composition[component]);
        solute_mol / (solute_mol + water_mol)
    };
    let mut sum = ethanol_term(mole_fraction(Component::Ethanol));
    for (component, count, square) in SOLUTES {
        if composition[component] > 0.0 {
            let x = mole_fraction(component);
            sum += count * ((-x).ln_1p() + square * x * x);
        }
    }
    Some(sum)
}

/// Share of ethanol in the logarithm of the activity of water.
fn ethanol_term(x: f64) -> f64 {
    let within = x.min(ETHANOL_END);
    let fitted = (-within).ln_1p() + f64::horner(&ETHANOL, within);
    fitted + ETHANOL_SLOPE * (x - within)
}

/// Moles of a component; 0 for what has no molar mass.
pub(super) fn moles(component: Component, grams: f64) -> f64 {
    component
        .molar_mass_g_per_mol()
        .map_or(0.0, |molar_mass| grams / molar_mass)
}
