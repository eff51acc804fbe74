//! Gas in a liquid: dissolved under pressure, or as a foam.

use super::process::{Worked, Wrong};
use super::process_field::{TAKES, amount, typical};
use super::process_release::together;
use super::stream::Stream;
use crate::model::{Range, StepFigureKind};
use crate::physics::carbonation::{
    BELIEVED_BAR, BELIEVED_CELSIUS, absolute_bar, dissolved_g_per_l,
};
use crate::units::{celsius as degrees, trimmed};

/// Warmer than this, little gas dissolves and the liquid gushes, °C (common practice, no source).
const WARM_CELSIUS: f64 = 10.0;
/// Above this few vessels of a bar are safe, bar (common practice, no source).
const HIGH_BAR: f64 = 4.0;

/// Carbonates: the gas that is still there in the glass, by the liquid's volume at 20 °C.
///
/// Alcohol and sugar are taken as water, which alcohol exceeds and sugar falls short of.
pub(super) fn carbonate(
    bar: f64,
    kept: &Range,
    celsius: Option<f64>,
    taken: Vec<Stream>,
) -> Result<Worked, Wrong> {
    let bar = amount("pressure", bar)?;
    let kept = typical(StepFigureKind::GasKept, kept)?;
    let celsius =
        celsius.ok_or_else(|| ("temperature", "carbonate needs a temperature".to_owned()))?;
    let co2_g_per_l = taken_up(bar, celsius)?;
    let mut made = together(&taken);
    if made.liquid.mass_g() <= 0.0 {
        return Err((TAKES, "there is no liquid to carbonate".to_owned()));
    }
    let litres = made.liquid.volume_ml() / 1000.0;
    made.liquid.co2_g = kept * co2_g_per_l * litres;
    Ok(Worked {
        taken,
        made: vec![made],
        remarks: remarks(bar, celsius),
        ..Worked::default()
    })
}

/// What to say of this pressure and temperature; cautions say what holds for every vessel.
fn remarks(bar: f64, celsius: f64) -> Vec<String> {
    let mut said = Vec::new();
    if celsius > WARM_CELSIUS {
        let shown = degrees(celsius);
        said.push(format!(
            "At {shown} little gas dissolves: chill it below {}.",
            degrees(WARM_CELSIUS)
        ));
    }
    if bar > HIGH_BAR {
        let shown = trimmed(bar, 1);
        said.push(format!(
            "{shown} bar is a lot: check what vessel, valve and hose are rated for."
        ));
    }
    said
}

/// Carbon dioxide that water takes up at a pressure above the atmosphere, g/L.
fn taken_up(bar: f64, celsius: f64) -> Result<f64, Wrong> {
    let bar = absolute_bar(bar);
    dissolved_g_per_l(bar, celsius).ok_or_else(|| {
        let (low, high) = (BELIEVED_CELSIUS.start(), BELIEVED_CELSIUS.end());
        if BELIEVED_CELSIUS.contains(&celsius) {
            let most = trimmed(BELIEVED_BAR.end() - absolute_bar(0.0), 1);
            let reason = format!("must be at most {most} bar above the atmosphere");
            ("pressure", reason)
        } else {
            let reason = format!(
                "gas is worked out from {} to {}",
                degrees(*low),
                degrees(*high)
            );
            ("temperature", reason)
        }
    })
}

/// Foams: the gas adds volume and no mass.
pub(super) fn aerate(overrun: &Range, taken: Vec<Stream>) -> Result<Worked, Wrong> {
    let overrun = typical(StepFigureKind::Overrun, overrun)?;
    let mut made = together(&taken);
    if made.liquid.mass_g() <= 0.0 {
        return Err((TAKES, "there is no liquid to foam".to_owned()));
    }
    made.liquid.excess_ml += overrun * made.liquid.volume_ml();
    Ok(Worked {
        taken,
        made: vec![made],
        ..Worked::default()
    })
}
