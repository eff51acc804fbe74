//! Notices of what is in the drink: allergens, raw egg, curdling, thickeners.

use super::notices::{Notice, Severity, notice};
use super::text::pour_name;
use crate::balance::{Curdling, Dose, Figures};
use crate::kitchen::{ROUGH, holds_egg, is_egg};
use crate::model::{Document, Ingredient, Trial};
use crate::units::number;
use std::cmp::Ordering;
use std::sync::Arc;

/// Allergens, raw egg, curdling and thickeners.
pub(super) fn contained(
    document: &Document,
    trial: &Trial,
    figures: &Figures,
    gentlest: &[usize],
) -> Vec<Notice> {
    let mut all = Vec::new();
    if !figures.allergens.is_empty() {
        all.push(notice(
            Severity::Caution,
            format!("Allergens: {}", figures.allergens.join(", ")),
            "As worded for EU 1169/2011 Annex II, from the larder. Check every label and follow the local food code.",
        ));
    }
    if !figures.allergens_unstated.is_empty() {
        all.push(notice(
            Severity::Caution,
            format!("Allergens not stated: {}", figures.allergens_unstated.join(", ")),
            "The larder says neither that there are any nor that there are none. Read the label, then tick them or write \"none\".",
        ));
    }
    if !figures.frozen.is_empty() {
        all.push(notice(
            Severity::Caution,
            format!("Frozen solid where it waits: {}", figures.frozen.join(", ")),
            "It would have to thaw before it is poured; the figures take it as liquid and that cold.",
        ));
    }
    let poured: Vec<&Arc<Ingredient>> = trial
        .poured()
        .filter_map(|(_, pour)| document.settle(trial, pour))
        .map(|settled| settled.ingredient)
        .collect();
    if poured.iter().any(|item| holds_egg(item)) {
        let certain = poured.iter().any(|item| is_egg(item));
        all.push(notice(
            Severity::Caution,
            if certain { "Raw egg" } else { "Egg, perhaps raw" },
            "Acid and spirit do not reliably kill germs. Use pasteurised egg where guests may be vulnerable, keep it cold, and follow the local food code.",
        ));
    }
    if let Some(ph) = figures.ph {
        let said = figures.curdling.iter();
        let order: Vec<&str> = gentlest
            .iter()
            .map(|pour| pour_name(document, trial, *pour))
            .collect();
        let order = order.join(" → ");
        all.extend(said.map(|found| curdles(found, ph, &order)));
    }
    all.extend(figures.doses.iter().map(thickens));
    all
}

fn curdles(found: &Curdling, ph: f64, order: &str) -> Notice {
    let band = &found.band;
    let range = format!("{} to {}", number(band.low, 1), number(band.high, 1));
    let shown = number(ph, 1);
    if !band.curdles_cold {
        return notice(
            Severity::Remark,
            format!(
                "{} at pH about {shown} thickens, it does not curdle cold",
                found.name
            ),
            format!(
                "{}: pH {range}, {} ({}). The pH is {ROUGH}.",
                band.name, band.note, band.source
            ),
        );
    }
    let verb = if ph < band.low {
        "curdles"
    } else {
        "may curdle"
    };
    notice(
        Severity::Caution,
        format!("{} {verb}: pH about {shown}", found.name),
        format!(
            "Gentlest order, cold and slowly: {order}. As {} it curdles at pH {range}; the pH is {ROUGH}.",
            band.name
        ),
    )
}

fn thickens(dose: &Dose) -> Notice {
    let usual = &dose.usual;
    let range = format!(
        "{} to {} %",
        number(usual.low_pct, 2),
        number(usual.high_pct, 2)
    );
    let here = number(dose.of_drink_pct, 2);
    let (severity, verdict) = match dose.verdict() {
        Some(Ordering::Less) => (Severity::Remark, "hardly felt"),
        Some(Ordering::Greater) => (Severity::Caution, "thick to slimy"),
        Some(Ordering::Equal) => (Severity::Remark, "within the usual dose"),
        None => (Severity::Remark, "its dose is stated for the syrup"),
    };
    notice(
        severity,
        format!("{}: {here} % of the served drink, {verdict}", dose.name),
        format!(
            "Usual for {}: {range} {} ({}). Weigh small doses as a stock solution.",
            usual.name,
            usual.of.name(),
            usual.source
        ),
    )
}
