//! The readings of a batch that count.

use crate::model::{Measurement, Reading};
use crate::units::{celsius, number, percent_vol, trimmed};

/// The last reading of every kind.
#[derive(Clone, Debug, Default)]
pub(super) struct Latest {
    /// °Bx or refractive index.
    pub(super) refractometer: Option<Reading>,
    /// g/ml and °C.
    pub(super) density: Option<(f64, f64)>,
    /// % vol as read, and °C.
    pub(super) alcoholmeter: Option<(f64, f64)>,
    /// Sample in ml, titrant in ml, normality in mol/L.
    pub(super) titration: Option<(f64, f64, f64)>,
    /// pH.
    pub(super) ph: Option<f64>,
    /// In and out, g.
    pub(super) yield_g: Option<(f64, f64)>,
    /// Every reading that counts with its day, one after another.
    words: [String; 6],
}

impl Latest {
    /// Of readings of one kind, the last in the list.
    pub(super) fn of(readings: &[Measurement]) -> Self {
        let mut latest = Self::default();
        for Measurement { reading, on } in readings {
            let place = match *reading {
                Reading::Brix(_) | Reading::RefractiveIndex(_) => {
                    latest.refractometer = Some(*reading);
                    0
                }
                Reading::Density { g_per_ml, celsius } => {
                    latest.density = Some((g_per_ml, celsius));
                    1
                }
                Reading::Alcoholmeter { pct_vol, celsius } => {
                    latest.alcoholmeter = Some((pct_vol, celsius));
                    2
                }
                Reading::Titration {
                    sample_ml,
                    titrant_ml,
                    normality,
                } => {
                    latest.titration = Some((sample_ml, titrant_ml, normality));
                    3
                }
                Reading::Ph(ph) => {
                    latest.ph = Some(ph);
                    4
                }
                Reading::Yield { in_g, out_g } => {
                    latest.yield_g = Some((in_g, out_g));
                    5
                }
            };
            if let Some(words) = latest.words.get_mut(place) {
                *words = dated(reading, on);
            }
        }
        latest
    }

    /// "Measured: refractometer 8.2 °Bx, 2026-03-01; pH meter 2.30".
    pub(super) fn in_words(&self) -> String {
        let said: Vec<&str> = self
            .words
            .iter()
            .map(String::as_str)
            .filter(|words| !words.is_empty())
            .collect();
        if said.is_empty() {
            "Nothing measured yet".to_owned()
        } else {
            format!("Measured: {}", said.join("; "))
        }
    }
}

/// An instrument and what it read, with the day if that was noted.
fn dated(reading: &Reading, on: &str) -> String {
    let words = format!("{} {}", reading.instrument(), shown(reading));
    if on.is_empty() {
        words
    } else {
        format!("{words}, {on}")
    }
}

/// A reading as text, with its unit.
fn shown(reading: &Reading) -> String {
    match *reading {
        Reading::Brix(brix) => format!("{} °Bx", number(brix, 1)),
        Reading::RefractiveIndex(index) => number(index, 4),
        Reading::Density {
            g_per_ml,
            celsius: t,
        } => format!("{} g/ml at {}", number(g_per_ml, 4), celsius(t)),
        Reading::Alcoholmeter {
            pct_vol,
            celsius: t,
        } => format!("{} at {}", percent_vol(pct_vol), celsius(t)),
        Reading::Titration {
            sample_ml,
            titrant_ml,
            normality,
        } => format!(
            "{} ml of {} mol/L for {} ml",
            trimmed(titrant_ml, 2),
            trimmed(normality, 4),
            trimmed(sample_ml, 2)
        ),
        Reading::Ph(ph) => number(ph, 2),
        Reading::Yield { in_g, out_g } => {
            format!("{} g of {} g", trimmed(out_g, 1), trimmed(in_g, 1))
        }
    }
}
