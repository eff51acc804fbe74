//! Refractive index at the sodium line and 20 °C, and what it says of sugar and alcohol.
//!
//! Relation: (n² − 1)/(n² + 2)·V = Σ mᵢ·rᵢ (Lorentz and Lorenz), with the volume V by
//! [`mixture::volume_ml`] and the specific refractions rᵢ in ml/g. Sucrose in water and ethanol in
//! water follow tables exactly as their densities do: r of the solvent depends on its ethanol,
//! that of sucrose on the sucrose-to-water ratio. Everything else has a constant r.
//!
//! Errors: sucrose in water 0.0001; ethanol in water 0.0001 against a handbook column known from
//! memory up to 80 mass % and about 0.0008 beyond (the plain rule without the correction is
//! 0.0015 too high at 40 mass %); both together about 0.0005 (an estimate: no measured ternary
//! table could be read). What is only suspended, fat and starch, is not seen.

use super::component::Component;
use super::composition::Composition;
use super::dual::Dual;
use super::mixture;
use super::number::Number;
use super::root::bracketed_root;
use super::sucrose;

/// Refractive index of water: what a refractometer shows at 0 °Bx.
///
/// ICUMSA (1974) scale.
pub const WATER_INDEX: f64 = 1.332_99;

/// Highest reading of the scale, °Bx.
pub const HIGHEST_BRIX: f64 = 85.0;

/// Coefficients of q^(k + 1) of n − n(water) for the mass fraction q of sucrose.
///
/// Least squares on the CRC Handbook's sucrose column (0 to 78 mass %, four decimals); worst
/// 0.000_05. The ICUMSA (1974) scale to 85 mass % lies within 0.000_1.
const SUCROSE_INDEX: [f64; 4] = [0.143_065_52, 0.051_892_95, 0.023_032_64, -0.004_462_69];

/// Specific refraction of water, ml/g: that of [`WATER_INDEX`] at 0.998_203_1 g/ml.
const WATER_REFRACTION: f64 = 0.206_060_139;

/// Specific refraction of ethanol, ml/g: n = 1.3611 (CRC Handbook) at 0.789_24 g/ml.
const ETHANOL_REFRACTION: f64 = 0.280_401_356;

/// Coefficients of p(1 − p)·p^k of the specific refraction of ethanol–water, ml/g.
///
/// Least squares on the CRC Handbook's ethanol column (0.5 to 80 mass %, four decimals), which was
/// written down from memory; worst 0.000_07 of index.
const ETHANOL_EXCESS: [f64; 4] = [-0.003_073, -0.000_424, -0.005_195, 0.011_886];

/// Most steps of the two-by-two solve.
const MOST_STEPS: usize = 60;

/// The most sugar and alcohol that are searched, mass fractions.
const MOST_SUGAR: f64 = 0.50;
const MOST_ALCOHOL: f64 = 0.49;

/// The least: readings of a dry spirit or a plain syrup may err to a little less than none.
const LEAST: f64 = -0.005;

/// Specific refraction in water, ml/g; `None` for what is suspended and for the three whose
/// refraction depends on the mixture.
fn specific_refraction(component: Component) -> Option<f64> {
    let refraction = match component {
        // Drops of fat and grains of starch scatter light but do not bend the edge that is read.
        Component::Water
        | Component::Ethanol
        | Component::Sucrose
        | Component::Fat
        | Component::Starch => return None,
        // As sucrose, which is 0.2053 to 0.2065; other solids and gums are mostly such, too.
        Component::Glucose
        | Component::Fructose
        | Component::Lactose
        | Component::Maltose
        | Component::Gum
        | Component::Other => 0.206,
        // Sums of Eisenlohr's atomic refractions (from memory) over the molar mass; about 0.002.
        Component::Glycerol => 0.224,
        Component::Citric => 0.187_6,
        Component::Malic => 0.188_5,
        Component::Tartaric => 0.178_5,
        Component::Acetic => 0.216,
        Component::Lactic => 0.212_2,
        Component::Ascorbic => 0.198_7,
        Component::Succinic => 0.201_1,
        // From 10 mass % rows of the CRC Handbook, from memory: n 1.3423 and 1.3505.
        Component::Phosphoric => 0.147_9,
        Component::Salt => 0.159,
        // From the usual refractive increment of proteins, 0.185 ml/g (textbooks).
        Component::Protein => 0.253,
    };
    Some(refraction)
}

/// Refractive index of a sucrose solution, from °Bx (mass % of sucrose), 0 to 85.
///
/// Error 0.0001. Outside the range the polynomial is continued without warning.
pub fn index_from_brix(brix: f64) -> f64 {
    sucrose_index(0.01 * brix)
}

/// °Bx that a refractometer shows for a refractive index; error 0.06 °Bx.
///
/// `None` below water and above 85 °Bx.
pub fn brix_from_index(index: f64) -> Option<f64> {
    let difference = |q: f64| {
        let index_at = sucrose_index(Dual::<1>::variable(q, 0));
        (index_at.value - index, index_at.slope[0])
    };
    bracketed_root(0.0, 0.01 * HIGHEST_BRIX, 0.2, 1.0e-13, difference).map(|q| 100.0 * q)
}

fn sucrose_index<N: Number>(mass_fraction: N) -> N {
    (N::horner(&SUCROSE_INDEX, mass_fraction) * mass_fraction).offset(WATER_INDEX)
}

/// (n² − 1)/(n² + 2).
fn lorentz_lorenz<N: Number>(index: N) -> N {
    let square = index * index;
    square.offset(-1.0) / square.offset(2.0)
}

/// The refractive index of a value of (n² − 1)/(n² + 2).
fn index_of_refraction<N: Number>(refraction: N) -> N {
    (refraction.scale(2.0).offset(1.0) / (-refraction).offset(1.0)).sqrt()
}

/// Refraction of ethanol, water and sucrose, ml.
fn refraction_ml<N: Number>(ethanol_g: N, water_g: N, sucrose_g: N) -> N {
    let p = ethanol_g.share(water_g);
    let rest = (-p).offset(1.0);
    let solvent = rest.scale(WATER_REFRACTION)
        + p.scale(ETHANOL_REFRACTION)
        + p * rest * N::horner(&ETHANOL_EXCESS, p);
    // The apparent refraction of sucrose: of its solution in the water, less that of the water.
    let q = sucrose_g.share(water_g);
    let solution = lorentz_lorenz(sucrose_index(q)).scale(1000.0) / sucrose::density_20(q);
    (ethanol_g + water_g) * solvent + (sucrose_g + water_g) * solution
        - water_g.scale(WATER_REFRACTION)
}

/// What is dissolved beside ethanol, water and sucrose.
#[derive(Clone, Copy, Default)]
struct Beside {
    mass_g: f64,
    /// Volume of what is dissolved and what is suspended, ml.
    volume_ml: f64,
    /// Volume of what is dissolved alone, ml.
    seen_ml: f64,
    refraction_ml: f64,
}

impl Beside {
    /// Everything but ethanol, water and sucrose; the excess of a measured density is left out.
    fn of(composition: &Composition) -> Self {
        let mut beside = Self::default();
        for component in Component::ALL {
            let Some(volume) = component.specific_volume_ml_per_g() else {
                continue;
            };
            let grams = composition[component];
            beside.mass_g += grams;
            beside.volume_ml += grams * volume;
            if let Some(refraction) = specific_refraction(component) {
                beside.seen_ml += grams * volume;
                beside.refraction_ml += grams * refraction;
            }
        }
        beside
    }
}

/// Refractive index of a liquid at the sodium line and 20 °C.
///
/// Source and error: see the module; with much else dissolved about 0.001. The volume is that of
/// the composition: a measured density is left out, because weighed cups and cartons are good to
/// 0.4 % only, which would be 1 °Bx. 1 for nothing.
pub fn refractive_index(composition: &Composition) -> f64 {
    let [ethanol_g, water_g, sucrose_g] =
        [Component::Ethanol, Component::Water, Component::Sucrose].map(|c| composition[c]);
    let beside = Beside::of(composition);
    let volume = mixture::volume_ml(ethanol_g, water_g, sucrose_g, beside.seen_ml);
    if volume <= 0.0 {
        return 1.0;
    }
    let refraction = refraction_ml(ethanol_g, water_g, sucrose_g) + beside.refraction_ml;
    index_of_refraction(refraction / volume)
}

/// Mass fractions of sugar (as sucrose) and of ethanol of a liquid without anything else.
///
/// Refractive index and density (g/ml), both at 20 °C. For up to 45 mass % of sugar and 55 % vol;
/// beyond that it still answers, less surely.
/// Errors of 0.0003 in the index and 0.001 g/ml in the density move sugar by up to 0.35 mass %
/// and ethanol by up to 0.8 mass %; the relations themselves by 0.5 and 1.5 mass % (estimate). Either
/// may come out as low as −0.005 through such errors. `None` where no such liquid has both.
pub fn solve_sugar_and_alcohol(index: f64, density_g_per_ml: f64) -> Option<(f64, f64)> {
    let mut sucrose = Composition::ZERO;
    sucrose[Component::Sucrose] = 1.0;
    solve_sugar_and_alcohol_beside(&Composition::ZERO, &sucrose, index, density_g_per_ml)
}

/// The same with other things in it: grams of sugar and of ethanol in one gram of liquid.
///
/// `beside` is what one gram holds beside sugar, ethanol and water (those of it are ignored, as is
/// its excess volume); `sugar` is one gram of the sugars. Newton's method inside the box. Errors as
/// for [`solve_sugar_and_alcohol`]; `None`, too, where what is beside them leaves no room.
pub fn solve_sugar_and_alcohol_beside(
    beside: &Composition,
    sugar: &Composition,
    index: f64,
    density_g_per_ml: f64,
) -> Option<(f64, f64)> {
    let mut unsweetened = *beside;
    for sugar in Component::SUGARS {
        unsweetened[sugar] = 0.0;
    }
    let fixed = Beside::of(&unsweetened);
    let per_sugar = (Beside::of(sugar), sugar[Component::Sucrose]);
    let room = 1.0 - fixed.mass_g;
    if room.is_nan() || room <= 0.0 {
        return None;
    }
    let (most_sugar, most_alcohol) = (MOST_SUGAR.min(0.5 * room), MOST_ALCOHOL.min(0.49 * room));
    let (mut s, mut e) = (0.3 * most_sugar, 0.5 * most_alcohol);
    for _ in 0..MOST_STEPS {
        let [n, d] = index_and_density(&fixed, per_sugar, [s, e]);
        let (n, d) = (n.offset(-index), d.offset(-density_g_per_ml));
        let determinant = n.slope[0] * d.slope[1] - n.slope[1] * d.slope[0];
        let step_s = (n.value * d.slope[1] - d.value * n.slope[1]) / determinant;
        let step_e = (d.value * n.slope[0] - n.value * d.slope[0]) / determinant;
        s = (s - step_s).clamp(LEAST, most_sugar);
        e = (e - step_e).clamp(LEAST, most_alcohol);
        if step_s.abs().max(step_e.abs()) < 1.0e-12 {
            return Some((s, e));
        }
    }
    None
}

/// Index and density (g/ml) of one gram with so much sugar and ethanol, with their slopes.
///
/// `per_sugar` is what a gram of the sugars is beside sucrose, and its sucrose.
fn index_and_density(
    fixed: &Beside,
    (per_sugar, sucrose_share): (Beside, f64),
    [sugar_g, ethanol_g]: [f64; 2],
) -> [Dual<2>; 2] {
    let s = Dual::<2>::variable(sugar_g, 0);
    let e = Dual::<2>::variable(ethanol_g, 1);
    let water = (-(s + e)).offset(1.0 - fixed.mass_g);
    let sucrose = s.scale(sucrose_share);
    let beside = |of_sugar: f64, fixed: f64| s.scale(of_sugar).offset(fixed);
    let seen = beside(per_sugar.seen_ml, fixed.seen_ml);
    let all = beside(per_sugar.volume_ml, fixed.volume_ml);
    let refraction =
        refraction_ml(e, water, sucrose) + beside(per_sugar.refraction_ml, fixed.refraction_ml);
    let index = index_of_refraction(refraction / mixture::volume_ml(e, water, sucrose, seen));
    let density = Dual::<2>::constant(1.0) / mixture::volume_ml(e, water, sucrose, all);
    [index, density]
}
