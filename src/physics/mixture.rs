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
        solvent + sucrose::volume_from(sucrose_g, water_g)
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
