//! Alcoholometry at 60 °F: strengths of a pharmacopoeia and a government gauging manual.
//!
//! US proof is twice the % vol at 60 °F (27 CFR 5.1), and % vol at 60 °F is volume of ethanol over
//! volume of spirit, both at 60 °F.

use equipour::physics::ethanol;

use crate::reference::{Row, Worst, rows};

/// 60 °F.
const SIXTY_F: f64 = 140.0 / 9.0;

/// Density of air at 60 °F and 101.325 kPa, kg/m³ (ideal gas, dry).
const AIR_KG_M3: f64 = 1.223;

/// US gallons of water at 60 °F that weigh a pound in air: 27 CFR 30.41.
const WATER_GALLONS_PER_POUND: f64 = 0.120_074;

/// Strength at 60 °F, % vol, of a mass fraction.
fn percent_at_60_f(mass_fraction: f64) -> f64 {
    100.0 * mass_fraction * ethanol::density_kg_m3(mass_fraction, SIXTY_F)
        / ethanol::density_kg_m3(1.0, SIXTY_F)
}

/// Mass fraction of a strength at 60 °F, by halving.
fn mass_fraction_at_60_f(percent: f64) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if percent_at_60_f(middle) < percent {
            low = middle;
        } else {
            high = middle;
        }
    }
    low
}

/// Volumes of water, at 60 °F, in 100 volumes of a spirit of this US proof.
fn volumes_of_water(proof: f64) -> f64 {
    let p = mass_fraction_at_60_f(proof / 2.0);
    let density = ethanol::density_kg_m3(p, SIXTY_F);
    100.0 * density * (1.0 - p) / ethanol::density_kg_m3(0.0, SIXTY_F)
}

/// Gallons of a spirit of this US proof that weigh a pound in air at 60 °F.
fn gallons_per_pound(proof: f64) -> f64 {
    let p = mass_fraction_at_60_f(proof / 2.0);
    // Weighed in air both liquids lose the weight of the air they displace.
    let water = ethanol::density_kg_m3(0.0, SIXTY_F) - AIR_KG_M3;
    let spirit = ethanol::density_kg_m3(p, SIXTY_F) - AIR_KG_M3;
    WATER_GALLONS_PER_POUND * water / spirit
}

/// The first number in a text that follows a word, commas dropped.
fn number_before(text: &str, word: &str) -> f64 {
    let words: Vec<&str> = text.split_whitespace().collect();
    words
        .windows(2)
        .find(|pair| pair[1].starts_with(word))
        .and_then(|pair| pair[0].replace(',', "").parse().ok())
        .unwrap_or_else(|| panic!("no number before {word} in: {text}"))
}

/// What the row's sentence asks for.
fn gauged(row: &Row) -> f64 {
    let question = row.text("published_quantity");
    if question.starts_with("Table 6") {
        volumes_of_water(number_before(question, "US"))
    } else if question.starts_with("reduce 100 wine gal of 112 proof to 100 proof") {
        // Proof gallons stay: 100 gallons at 112 become 112 gallons at 100.
        1.12 * volumes_of_water(100.0) - volumes_of_water(112.0)
    } else if question.starts_with("wine gallons per pound") {
        gallons_per_pound(number_before(question, "proof"))
    } else if question.starts_with("proof gallons in") {
        let proof = number_before(question, "proof");
        number_before(question, "lb") * gallons_per_pound(proof) * proof / 100.0
    } else if question.starts_with("pounds of water to reduce 1000 lb of 200 proof") {
        // The ethanol stays; 200 proof is pure. Buoyancy, which the example leaves to its tables,
        // would add 0.03 lb.
        1000.0 / mass_fraction_at_60_f(95.0) - 1000.0
    } else {
        panic!("a gauging row that nobody can read: {question}")
    }
}

#[test]
fn the_gauging_manual_examples_come_out() {
    let mut share = Worst::default();
    let mut formula = Worst::default();
    for row in rows("oiml_r22_checks.csv") {
        if row.text("row_type") == "gauging" {
            let (found, tolerance) = (gauged(&row), row.number("tolerance"));
            // As a share of the allowed difference: gallons, pounds and volumes are no one unit.
            let published = row.number("published_value");
            share.check(
                row.text("id"),
                found / tolerance,
                published / tolerance,
                1.0,
            );
            // The same question answered independently with the same density formula, with a
            // slightly different air and printed to fewer digits.
            let computed = row.number("oiml_value");
            formula.check(row.text("id"), found / tolerance, computed / tolerance, 0.2);
        }
    }
    share.finish("gauging, share of tolerance", 9);
    formula.finish("gauging, formula, share of tolerance", 9);
}

#[test]
fn the_pharmacopoeia_strengths_at_60_f_come_out() {
    let mut worst = Worst::default();
    for row in rows("oiml_r22_checks.csv") {
        if row.text("row_type") == "published_strength" {
            let question = row.text("published_quantity");
            let found = if question.starts_with("mass %") {
                let percent = question
                    .split_whitespace()
                    .nth(3)
                    .and_then(|word| word.parse().ok())
                    .expect("a strength in the sentence");
                100.0 * mass_fraction_at_60_f(percent)
            } else {
                percent_at_60_f(row.number("mass_fraction"))
            };
            let tolerance = row.number("tolerance");
            worst.check(
                row.text("id"),
                found,
                row.number("published_value"),
                tolerance,
            );
        }
    }
    worst.finish("pharmacopoeia strengths, %", 10);
}
