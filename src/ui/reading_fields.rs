//! Fields for what an instrument read.

use super::number_field::NumberField;
use crate::model::Reading;
use eframe::egui::Ui;

/// A reading to begin with, of every instrument.
pub(super) const KINDS: [(&str, Reading); 7] = [
    ("refractometer, °Bx", Reading::Brix(10.0)),
    ("refractometer, index", Reading::RefractiveIndex(1.348)),
    (
        "hydrometer",
        Reading::Density {
            g_per_ml: 1.04,
            celsius: 20.0,
        },
    ),
    (
        "alcoholmeter",
        Reading::Alcoholmeter {
            pct_vol: 40.0,
            celsius: 20.0,
        },
    ),
    (
        "titration",
        Reading::Titration {
            sample_ml: 5.0,
            titrant_ml: 30.0,
            normality: 0.1,
        },
    ),
    ("pH meter", Reading::Ph(3.0)),
    (
        "yield by weight",
        Reading::Yield {
            in_g: 1000.0,
            out_g: 500.0,
        },
    ),
];

/// Shows the fields of a reading; true when one changed.
pub(super) fn ui(ui: &mut Ui, reading: &mut Reading) -> bool {
    let before = *reading;
    match reading {
        Reading::Brix(brix) => one(
            ui,
            brix,
            (0.0, 95.0, 1),
            " °Bx",
            "Refractometer, °Bx",
            "Temperature-compensated reading; it counts everything dissolved, acids too",
        ),
        Reading::RefractiveIndex(index) => one(
            ui,
            index,
            (1.3, 1.55, 4),
            " nD",
            "Refractive index",
            "At the sodium line and 20 °C",
        ),
        Reading::Density { g_per_ml, celsius } => {
            let teach = "Hydrometer, or the weight of a measured volume";
            one(ui, g_per_ml, (0.7, 1.6, 4), " g/ml", "Density, g/ml", teach);
            temperature(ui, celsius);
        }
        Reading::Alcoholmeter { pct_vol, celsius } => {
            let teach = "As read; it is corrected to 20 °C by OIML R 22. Right only without sugar";
            one(
                ui,
                pct_vol,
                (0.0, 100.0, 1),
                " % vol",
                "Alcoholmeter, % vol",
                teach,
            );
            temperature(ui, celsius);
        }
        Reading::Titration {
            sample_ml,
            titrant_ml,
            normality,
        } => titration(ui, sample_ml, titrant_ml, normality),
        Reading::Ph(ph) => one(
            ui,
            ph,
            (0.5, 13.0, 2),
            " pH",
            "pH",
            "At 25 °C, or compensated to it",
        ),
        Reading::Yield { in_g, out_g } => {
            one(
                ui,
                in_g,
                (0.0, 1.0e6, 1),
                " g in",
                "Weight in, g",
                "What went in",
            );
            one(
                ui,
                out_g,
                (0.0, 1.0e6, 1),
                " g out",
                "Weight out, g",
                "What came out",
            );
        }
    }
    *reading != before
}

fn titration(ui: &mut Ui, sample_ml: &mut f64, titrant_ml: &mut f64, normality: &mut f64) {
    let teach = "Juice taken for the titration";
    one(ui, sample_ml, (0.01, 1000.0, 1), " ml", "Sample, ml", teach);
    let teach =
        "Sodium hydroxide until pH 8.2: where phenolphthalein stays pink. Wear goggles and gloves";
    one(
        ui,
        titrant_ml,
        (0.0, 1000.0, 2),
        " ml NaOH",
        "Sodium hydroxide, ml",
        teach,
    );
    let teach = "Its normality, as the bottle says";
    one(
        ui,
        normality,
        (0.0001, 10.0, 4),
        " mol/L",
        "Normality, mol/L",
        teach,
    );
}

fn temperature(ui: &mut Ui, celsius: &mut f64) {
    let teach = "Temperature of the sample when it was read";
    one(
        ui,
        celsius,
        (0.0, 40.0, 1),
        " °C",
        "Temperature of the sample, °C",
        teach,
    );
}

fn one(
    ui: &mut Ui,
    value: &mut f64,
    (low, high, decimals): (f64, f64, usize),
    unit: &str,
    name: &str,
    teach: &str,
) {
    let field = NumberField::new(name, teach, low..=high);
    let field = field.step(0.1_f64.powf(decimals as f64)).decimals(decimals);
    field.unit(unit).show(ui, value);
}
