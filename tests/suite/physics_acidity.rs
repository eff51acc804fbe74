//! How pH moves, against a textbook closed form and differences of pH itself.

use equipour::physics::acidity::Acidity;
use equipour::physics::acids::ph;
use equipour::physics::{Component, Composition};

/// Acids and cation filled up with water to a litre.
fn litre(acids: &[(Component, f64)], cation_mmol: f64) -> Composition {
    let mut liquid = Composition::ZERO;
    for (acid, grams) in acids {
        liquid[*acid] = *grams;
    }
    liquid.cation_mmol = cation_mmol;
    liquid[Component::Water] = (1000.0 - liquid.volume_ml()) * 0.998_201_23;
    liquid
}

fn acidity(liquid: &Composition) -> Acidity {
    Acidity::at(liquid, ph(liquid).expect("it has one")).expect("it has water")
}

#[test]
fn a_half_neutralised_acid_buffers_by_a_quarter_of_it() {
    // Van Slyke 1922: buffer capacity ln 10·(C·K·h/(K + h)² + h + OH), C/4 at its strongest.
    for mol_per_l in [0.05, 0.1, 0.2] {
        let grams = mol_per_l * Component::Acetic.molar_mass_g_per_mol().expect("a mass");
        let found = acidity(&litre(&[(Component::Acetic, grams)], 500.0 * mol_per_l));
        let expected = core::f64::consts::LN_10 * mol_per_l / 4.0;
        let off = found.buffer_mol_per_l / expected - 1.0;
        assert!(off.abs() < 0.01, "{mol_per_l}: {off}");
    }
}

#[test]
fn slopes_of_ph_agree_with_differences_of_ph() {
    let acids = [(Component::Citric, 6.0), (Component::Malic, 2.0)];
    for cation_mmol in [0.0, 20.0, 60.0] {
        let here = litre(&acids, cation_mmol);
        let found = acidity(&here);
        let volume_ml = here.volume_ml();
        let slope = |change: &dyn Fn(&mut Composition, f64), step: f64| {
            let at = |step: f64| {
                let mut there = here;
                change(&mut there, step);
                ph(&there).expect("it has one")
            };
            (at(step) - at(-step)) / (2.0 * step)
        };
        let check = |name: &str, found: f64, expected: f64| {
            // The activity coefficient is held: worth up to a tenth of a slope.
            let off = found / expected - 1.0;
            assert!(
                off.abs() < 0.1,
                "{name} at {cation_mmol}: {found} {expected}"
            );
        };
        let cation = slope(&|there, step| there.cation_mmol += step, 0.01);
        check("cation", found.per_cation_mmol(volume_ml), cation);
        let per_acid = found.per_acid_g(volume_ml);
        for (place, acid) in Component::ACIDS.into_iter().enumerate().take(3) {
            let at = if here[acid] > 0.0 { 0.001 } else { continue };
            let grams = slope(&|there, step| there[acid] += step, at);
            check(acid.name(), per_acid[place], grams);
        }
        if cation_mmol == 0.0 {
            // Water around unbuffered acid; where salts buffer, pH hardly follows it.
            let water = slope(&|there, step| there[Component::Water] += step, 0.1);
            check("water", found.per_ml(volume_ml), water);
        }
    }
}

#[test]
fn nothing_dissolved_in_nothing_has_no_acidity() {
    assert_eq!(Acidity::at(&Composition::ZERO, 3.0), None);
}
