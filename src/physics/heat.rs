//! Heat capacities, and the temperature of liquids poured together.
//!
//! Heat of mixing is left out: a real drink is up to about 1 °C warmer.

use super::component::Component;
use super::composition::Composition;
use core::ops::RangeInclusive;

/// Temperatures between which heat balances are believed, °C.
///
/// The tables run from 0 to 23 °C and are continued as straight lines; where that ends to be an
/// answer is our convention, no source.
pub const BELIEVED_CELSIUS: RangeInclusive<f64> = -40.0..=60.0;

/// Heat of fusion of ice at 0 °C, kJ/kg (IAPWS-06 and IAPWS-95, 0.1 %).
pub const ICE_FUSION_KJ_PER_KG: f64 = 333.43;

/// Heat capacity of ice by temperature, (°C, kJ/(kg K)), from IAPWS-06 (0.1 %).
const ICE_CP: [(f64, f64); 6] = [
    (-30.0, 1.8769),
    (-20.0, 1.9498),
    (-15.0, 1.9864),
    (-10.0, 2.0231),
    (-5.0, 2.0599),
    (0.0, 2.0967),
];

/// Heat capacity of one ethanol–water mixture at two temperatures.
struct CpRow {
    /// Ethanol, mass fraction.
    ethanol: f64,
    /// Temperature °C and heat capacity kJ/(kg K), twice.
    cold: (f64, f64),
    warm: (f64, f64),
}

/// Heat capacities of ethanol–water mixtures (2–4 %).
///
/// Water: IAPWS-95. 10 to 60 mass %: Melinder's correlation of secondary coolants. 80 mass %:
/// Perry's Chemical Engineers' Handbook, table 2-206. Ethanol: the equation of state of
/// Schroeder and others, 2014. Between 5 and 30 mass % the mixture holds more heat than water.
const ETHANOL_WATER_CP: [CpRow; 9] = [
    row(0.0, (0.01, 4.2194), (20.0, 4.1841)),
    row(0.1, (0.0, 4.402), (20.0, 4.303)),
    row(0.2, (0.0, 4.369), (20.0, 4.329)),
    row(0.3, (0.0, 4.163), (20.0, 4.216)),
    row(0.4, (0.0, 3.893), (20.0, 4.029)),
    row(0.5, (0.0, 3.634), (20.0, 3.824)),
    row(0.6, (0.0, 3.33), (20.0, 3.551)),
    row(0.8, (3.0, 2.803), (23.0, 3.042)),
    row(1.0, (0.0, 2.2571), (20.0, 2.396)),
];

/// Most rounds of [`mix_celsius`]; each shrinks the error a hundredfold.
const MOST_ROUNDS: usize = 50;

/// A row of the table.
const fn row(ethanol: f64, cold: (f64, f64), warm: (f64, f64)) -> CpRow {
    CpRow {
        ethanol,
        cold,
        warm,
    }
}

impl CpRow {
    /// Heat capacity at a temperature, linear in t, continued outside.
    fn at(&self, celsius: f64) -> f64 {
        line(self.cold, self.warm, celsius)
    }
}

/// The straight line through two points.
fn line(from: (f64, f64), to: (f64, f64), x: f64) -> f64 {
    from.1 + (to.1 - from.1) * (x - from.0) / (to.0 - from.0)
}

/// Heat capacity of ice, kJ/(kg K).
///
/// Linear between tabulated temperatures from −30 to 0 °C, continued outside; 0.1 %.
pub fn ice_cp(celsius: f64) -> f64 {
    let mut value = f64::NAN;
    for segment in ICE_CP.windows(2) {
        if let [from, to] = segment {
            value = line(*from, *to, celsius);
            if celsius <= to.0 {
                break;
            }
        }
    }
    value
}

/// Heat capacity of water, kJ/(kg K); supercooled water continues the line. 0.2 %.
pub fn water_cp(celsius: f64) -> f64 {
    ethanol_water_cp(0.0, celsius)
}

/// Heat capacity of an ethanol–water mixture, kJ/(kg K).
fn ethanol_water_cp(mass_fraction: f64, celsius: f64) -> f64 {
    let mut value = f64::NAN;
    for pair in ETHANOL_WATER_CP.windows(2) {
        if let [from, to] = pair {
            let ends = (
                (from.ethanol, from.at(celsius)),
                (to.ethanol, to.at(celsius)),
            );
            value = line(ends.0, ends.1, mass_fraction);
            if mass_fraction <= to.ethanol {
                break;
            }
        }
    }
    value
}

/// Heat capacity of all that is neither water nor ethanol, kJ/(kg K): as dissolved sucrose.
///
/// What the sucrose solution formula 4184 − 2511 B + 7.5 B t J/(kg K) (Llano 2005) implies for
/// the sucrose in it.
fn solute_cp(celsius: f64) -> f64 {
    1.67 + 0.0075 * celsius
}

/// Heat capacity of a drink, kJ/(kg K); 0 for nothing.
///
/// Weighted by mass: ethanol–water by table, bilinear in mass fraction and temperature, and
/// everything else as sucrose. About 3 %.
pub fn mixture_cp_kj_per_kg_k(composition: &Composition, celsius: f64) -> f64 {
    let mass_g = composition.mass_g();
    if mass_g <= 0.0 {
        return 0.0;
    }
    heat_capacity_j_per_k(composition, celsius) / mass_g
}

/// Heat capacity of a whole drink, J/K.
fn heat_capacity_j_per_k(composition: &Composition, celsius: f64) -> f64 {
    let ethanol_g = composition[Component::Ethanol];
    let solvent_g = ethanol_g + composition[Component::Water];
    let solvent = if solvent_g > 0.0 {
        solvent_g * ethanol_water_cp(ethanol_g / solvent_g, celsius)
    } else {
        0.0
    };
    solvent + (composition.mass_g() - solvent_g).max(0.0) * solute_cp(celsius)
}

/// Temperature, °C, of liquids poured together at their own temperatures.
///
/// No heat is lost: each liquid takes up its heat with the heat capacity at the mean of its start
/// and the common end temperature. Without any mass, the mean of the temperatures; for an empty
/// list, 20 °C.
pub fn mix_celsius(parts: &[(Composition, f64)]) -> f64 {
    if parts.is_empty() {
        return 20.0;
    }
    let mut end = parts.iter().map(|(_, celsius)| celsius).sum::<f64>() / parts.len() as f64;
    for _ in 0..MOST_ROUNDS {
        let (mut heat, mut capacity) = (0.0, 0.0);
        for (composition, celsius) in parts {
            let own = heat_capacity_j_per_k(composition, 0.5 * (celsius + end));
            heat += own * celsius;
            capacity += own;
        }
        if capacity <= 0.0 {
            return end;
        }
        let previous = end;
        end = heat / capacity;
        if (end - previous).abs() <= 1e-12 {
            break;
        }
    }
    end
}
