//! Volume of a drink at 20 °C from the masses of what is in it.

use super::ethanol;
use super::number::{Increasing, Number};
use super::sucrose;

/// The volume of ethanol, water and sucrose, which rises with each of the three masses.
struct LiquidVolume;

impl Increasing<3> for LiquidVolume {
    // The density of the solvent has 2e-11, the rounding of its argument (Σ k|A_k| = 2.3e7)
    // included; everything else is far below.
    const RELATIVE_ERROR: f64 = 1e-10;

    #[inline]
    fn at<N: Number>(&self, [ethanol_g, water_g, sucrose_g]: [N; 3]) -> N {
        let mass_fraction = ethanol_g.share(water_g);
        let solvent = (ethanol_g + water_g).scale(1000.0) / ethanol::density_20(mass_fraction);
        solvent + sucrose::volume_ml(sucrose_g, water_g)
    }
}

/// Volume of a drink, ml at 20 °C, from grams of ethanol, water and sucrose.
///
/// V = (m_e + m_w)/ρ_R22(p) + m_s·v_s + `rest_ml`, p = m_e/(m_e + m_w), with v_s the apparent
/// specific volume of sucrose in water at the same sucrose-to-water ratio, so that both binary
/// systems are exact; `rest_ml` is the volume of everything else. Masses are not negative;
/// without ethanol and water only sucrose and the rest count. Error (an estimate, no measured
/// ternary table could be read): 0.3 kg/m³ of density up to 15 % ethanol and 15 % sugar,
/// 1 kg/m³ up to 30 % and 20 %, 2–3 kg/m³ beyond.
#[inline]
pub fn volume_ml<N: Number>(ethanol_g: N, water_g: N, sucrose_g: N, rest_ml: N) -> N {
    N::increasing(&LiquidVolume, [ethanol_g, water_g, sucrose_g]) + rest_ml
}

/// How much larger a drink is at a temperature than at 20 °C: V(t)/V(20 °C).
///
/// Grams of ethanol, of water and of what is dissolved, which expands as if it were sucrose.
/// R 22 and SPS-4 in t, added as in [`volume_ml`]: exact for a spirit and for a syrup, within
/// 0.000_1 per 10 K in between (estimate). 0 to 40 °C; 1 for nothing.
pub fn expansion_from_20(ethanol_g: f64, water_g: f64, dissolved_g: f64, celsius: f64) -> f64 {
    let volume = |celsius: f64| {
        let solvent_g = ethanol_g + water_g;
        let solution_g = dissolved_g + water_g;
        solvent_g / ethanol::density_kg_m3(ethanol_g.share(water_g), celsius)
            + solution_g / sucrose::density_kg_m3(dissolved_g.share(water_g), celsius)
            - water_g / sucrose::water_density_kg_m3(celsius)
    };
    let at_20 = volume(20.0);
    if at_20 > 0.0 {
        volume(celsius) / at_20
    } else {
        1.0
    }
}
