//! Readings that no batch has.

use equipour::measure::{MeasureError, as_measured};
use equipour::model::{Basis, Ingredient, PureAcid, Reading};

use crate::measure_lot::{item, liqueur, read, titration};

#[test]
fn bad_readings_are_refused_by_name() {
    let lime = item("lime-juice");
    let refused = |parent: &Ingredient, reading: Reading| {
        as_measured(parent, &read(&[reading])).expect_err("it is refused")
    };
    for (reading, word) in [
        (Reading::Brix(-1.0), "°Bx"),
        (Reading::Brix(f64::NAN), "°Bx"),
        (Reading::RefractiveIndex(2.0), "refractive index"),
        (Reading::Ph(0.0), "pH"),
        (
            Reading::Density {
                g_per_ml: 3.0,
                celsius: 20.0,
            },
            "density",
        ),
        (
            Reading::Density {
                g_per_ml: 1.0,
                celsius: 60.0,
            },
            "temperature",
        ),
        (
            Reading::Titration {
                sample_ml: 0.0,
                titrant_ml: 1.0,
                normality: 0.1,
            },
            "sample",
        ),
    ] {
        let error = refused(&lime, reading);
        assert!(matches!(error, MeasureError::Reading(_)), "{error}");
        assert!(error.to_string().contains(word), "{error}");
    }
    assert!(matches!(
        refused(&lime, Reading::Brix(1.0)),
        MeasureError::BelowOtherSolids { .. }
    ));
    assert!(matches!(
        refused(&lime, Reading::RefractiveIndex(1.54)),
        MeasureError::AboveScale { .. }
    ));
    assert!(matches!(
        refused(&lime, Reading::Ph(9.0)),
        MeasureError::AcidsDoNotFit { .. }
    ));
    // 900 g/L: above what dissolves.
    assert!(as_measured(&lime, &read(&[titration(900.0)])).is_err());
    let powder = Ingredient {
        name: "citric acid".to_owned(),
        basis: Basis::Per100G,
        pure_acid: Some(PureAcid::Citric),
        ..Ingredient::default()
    };
    assert!(matches!(
        refused(&powder, Reading::Brix(1.0)),
        MeasureError::Powder { .. }
    ));
    let both = read(&[
        Reading::RefractiveIndex(1.50),
        Reading::Density {
            g_per_ml: 0.95,
            celsius: 20.0,
        },
    ]);
    let error = as_measured(&liqueur(), &both).expect_err("no such liqueur");
    assert!(
        matches!(error, MeasureError::NoSuchLiquid { .. }),
        "{error}"
    );
}
