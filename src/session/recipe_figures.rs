//! Figures of a drink as lines of its sheet.

use super::derived::Derived;
use super::open_document::Session;
use crate::balance::{Figures, TWO_SIDED, Uncertainty};
use crate::model::{Axis, Spec};
use crate::sheet::FigureLine;
use crate::units::{Unit, celsius, grams_per_litre, number, percent, percent_vol, show_volume};

/// Strength, sweet, sour and what else a judge asks about.
pub(super) fn figure_lines(derived: &Derived) -> Vec<FigureLine> {
    let Ok(found) = &derived.figures else {
        return Vec::new();
    };
    let sure = derived.uncertainty.as_ref();
    let mut lines = vec![
        line(
            "Strength",
            percent_vol(found.point.strength_pct_vol),
            off(sure, Axis::Strength, 1),
        ),
        line(
            "Sweet, as sucrose",
            grams_per_litre(found.point.sweet_g_per_l),
            off(sure, Axis::Sweet, 0),
        ),
        line(
            "Sour, as citric acid",
            grams_per_litre(found.point.sour_g_per_l),
            off(sure, Axis::Sour, 1),
        ),
    ];
    if let Some(ratio) = found.sugar_to_acid() {
        lines.push(line(
            "Sweet to sour",
            format!("{} to 1", number(ratio, 1)),
            String::new(),
        ));
    }
    lines.extend(cold(found));
    if let Some(ph) = found.ph {
        lines.push(line("pH", number(ph, 2), String::new()));
    }
    lines
}

fn line(name: &str, value: String, note: String) -> FigureLine {
    FigureLine {
        name: name.to_owned(),
        value,
        note,
    }
}

/// "± 4": 19 of 20 such drinks lie within.
fn off(sure: Option<&Uncertainty>, axis: Axis, decimals: usize) -> String {
    sure.map_or_else(String::new, |sure| {
        format!("± {}", number(TWO_SIDED * sure.sigma(axis), decimals))
    })
}

fn cold(found: &Figures) -> Vec<FigureLine> {
    let mut lines = Vec::new();
    if found.melt_g > 0.0 {
        let water = format!("{} g", number(found.melt_g, 0));
        lines.push(line("Water from ice", water, String::new()));
    }
    if let Some(served) = found.served_celsius {
        lines.push(line("Served at", celsius(served), String::new()));
    }
    lines
}

/// Capacity, ice, fill and wash line.
pub(super) fn glass_lines(session: &Session, spec: &Spec, derived: &Derived) -> Vec<String> {
    let glass = &spec.glass;
    let measures = &session.document().measures;
    let size = show_volume(glass.capacity_ml, 0, Unit::Ml, measures);
    let mut lines = vec![format!("{size} to the brim")];
    if glass.ice_share > 0.0 {
        lines.push(format!("ice takes {} of it", percent(glass.ice_share, 0)));
    }
    if let Ok(found) = &derived.figures {
        let served = show_volume(found.served_ml, 0, Unit::Ml, measures);
        lines.push(format!("holds {served} of drink"));
    }
    lines.extend(Some(session.wash_line_text()).filter(|words| !words.is_empty()));
    lines
}
