//! The words and figures of a flow: what a stream holds, as hovering reads it and as a table.

use super::{Hue, Table};
use crate::kitchen::{Flow, Stream, dissolved_brix};
use crate::model::Preparation;
use crate::physics::component::Component;
use crate::physics::composition::Composition;
use crate::units::{number, percent, trimmed};
use std::collections::BTreeMap;

/// Strength below which nobody speaks of alcohol, % vol.
const SOBER_PCT_VOL: f64 = 0.05;

/// What the colour of a stream stands for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum FlowShare {
    /// Nothing but the mass.
    #[default]
    Mass,
    /// Water.
    Water,
    /// All sugars.
    Sugar,
    /// All acids.
    Acid,
    /// Ethanol.
    Alcohol,
    /// Fat.
    Fat,
    /// Protein, starch, fibre, gums and other solids.
    Solids,
}

impl FlowShare {
    /// Every choice.
    pub const ALL: [Self; 7] = [
        Self::Mass,
        Self::Water,
        Self::Sugar,
        Self::Acid,
        Self::Alcohol,
        Self::Fat,
        Self::Solids,
    ];

    /// The word on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Mass => "mass",
            Self::Water => "water",
            Self::Sugar => "sugar",
            Self::Acid => "acid",
            Self::Alcohol => "alcohol",
            Self::Fat => "fat",
            Self::Solids => "solids",
        }
    }

    /// Its colour group.
    pub const fn hue(self) -> Hue {
        match self {
            Self::Mass => Hue::Accent,
            Self::Water => Hue::Water,
            Self::Sugar => Hue::Sweet,
            Self::Acid => Hue::Sour,
            Self::Alcohol => Hue::Strength,
            Self::Fat => Hue::Fat,
            Self::Solids => Hue::Bitter,
        }
    }

    /// Grams of it in a composition.
    pub fn grams(self, whole: &Composition) -> f64 {
        match self {
            Self::Mass => whole.mass_g(),
            Self::Water => whole[Component::Water],
            Self::Sugar => whole.sugar_g(),
            Self::Acid => whole.acid_g(),
            Self::Alcohol => whole[Component::Ethanol],
            Self::Fat => whole[Component::Fat],
            Self::Solids => {
                let solids = [
                    Component::Protein,
                    Component::Starch,
                    Component::Gum,
                    Component::Other,
                ];
                solids.into_iter().map(|component| whole[component]).sum()
            }
        }
    }

    /// Its share of the mass, from 0 to 1; 0 for nothing.
    pub fn of(self, whole: &Composition) -> f64 {
        let mass = whole.mass_g();
        if mass > 0.0 {
            self.grams(whole) / mass
        } else {
            0.0
        }
    }
}

/// Dissolved solids of the liquid in a stream, °Bx; `None` without liquid.
fn liquid_brix(stream: &Stream) -> Option<f64> {
    (stream.liquid.mass_g() > 0.0).then(|| dissolved_brix(&stream.liquid))
}

/// What a stream holds, in lines; `whole` is what its share is taken of, g.
pub(super) fn words(name: &str, stream: &Stream, whole: f64) -> String {
    let grams = stream.mass_g();
    let mut lines = vec![format!("{name}: {} g", trimmed(grams, 1))];
    if whole > grams * 1.000_001 {
        lines.push(format!("{} of what goes in", percent(grams / whole, 0)));
    }
    if stream.solid.mass_g() > 0.0 && stream.liquid.mass_g() > 0.0 {
        lines.push(format!(
            "{} g liquid, {} g solids",
            trimmed(stream.liquid.mass_g(), 1),
            trimmed(stream.solid.mass_g(), 1)
        ));
    }
    let mut reads = Vec::new();
    if let Some(brix) = liquid_brix(stream) {
        reads.push(format!("{} °Bx", number(brix, 1)));
    }
    let strength = stream.liquid.percent_vol();
    if strength > SOBER_PCT_VOL {
        reads.push(format!("{} % vol", number(strength, 1)));
    }
    if !reads.is_empty() {
        lines.push(format!("liquid: {}", reads.join(", ")));
    }
    let held: Vec<String> = FlowShare::ALL
        .into_iter()
        .skip(1)
        .map(|part| (part.name(), part.grams(&stream.whole())))
        .filter(|(_, grams)| *grams >= 0.005)
        .map(|(name, grams)| format!("{name} {} g", trimmed(grams, 2)))
        .collect();
    lines.push(held.join(" · "));
    lines.retain(|line| !line.is_empty());
    lines.join("\n")
}

/// What goes in and what comes of it, in a sentence.
pub(super) fn summary(made: &Preparation, flow: &Flow) -> String {
    let grams = |name: &String| flow.streams.get(name).map_or(0.0, Stream::mass_g);
    let listed = |names: &[String]| {
        let named = names
            .iter()
            .map(|name| format!("{} g {name}", number(grams(name), 0)));
        named.collect::<Vec<_>>().join(", ")
    };
    let inputs: f64 = flow.inputs_g.values().sum();
    let vapour: f64 = flow.steps.iter().map(|step| step.vapour.mass_g()).sum();
    let lost: f64 = flow.steps.iter().map(|step| step.lost.mass_g()).sum();
    let mut parts = vec![format!("{} g go into {}", number(inputs, 0), made.name)];
    if !flow.outputs.is_empty() {
        parts.push(format!("{} come out", listed(&flow.outputs)));
    }
    if !flow.waste.is_empty() {
        parts.push(format!("{} are waste", listed(&flow.waste)));
    }
    for (grams, words) in [(vapour, "leave as vapour"), (lost, "stay in vessels")] {
        if grams > 0.05 {
            parts.push(format!("{} g {words}", number(grams, 0)));
        }
    }
    format!("{}.", parts.join("; "))
}

/// Every stream with where it comes from and goes to, and what it holds.
pub(super) fn table(made: &Preparation, flow: &Flow) -> Table {
    let mut columns: Vec<String> = [
        "stream",
        "from",
        "to",
        "mass, g",
        "liquid, g",
        "°Bx",
        "% vol",
    ]
    .map(str::to_owned)
    .to_vec();
    let parts = FlowShare::ALL.into_iter().skip(1);
    columns.extend(parts.map(|part| format!("{}, g", part.name())));
    let mut rows = Vec::new();
    let inputs = made
        .inputs
        .iter()
        .map(|input| (&input.name, "input".to_owned()));
    let steps = made.steps.iter().enumerate().flat_map(|(place, step)| {
        let from = format!("step {}, {}", place + 1, step.does.name());
        step.to.iter().map(move |name| (name, from.clone()))
    });
    let mut takers: BTreeMap<&str, usize> = BTreeMap::new();
    for (place, step) in made.steps.iter().enumerate() {
        for name in &step.from {
            takers.entry(name).or_insert(place);
        }
    }
    for (name, from) in inputs.chain(steps) {
        if let Some(stream) = flow.streams.get(name) {
            let taker = takers.get(name.as_str()).copied();
            rows.push(row(name, from, goes_to(taker, flow, name), stream));
        }
    }
    rows.extend(stubs(made, flow));
    Table { columns, rows }
}

/// What leaves each step as vapour or stays in its vessels.
fn stubs(made: &Preparation, flow: &Flow) -> Vec<Vec<String>> {
    let mut rows = Vec::new();
    for (place, (step, result)) in made.steps.iter().zip(&flow.steps).enumerate() {
        let from = format!("step {}, {}", place + 1, step.does.name());
        let vapour = Stream {
            liquid: result.vapour,
            solid: Composition::ZERO,
        };
        for (name, stream) in [("vapour", vapour), ("loss", result.lost)] {
            if stream.mass_g() > 0.0 {
                rows.push(row(name, from.clone(), name.to_owned(), &stream));
            }
        }
    }
    rows
}

fn goes_to(taker: Option<usize>, flow: &Flow, name: &String) -> String {
    match taker {
        Some(place) => format!("step {}", place + 1),
        None if flow.outputs.contains(name) => "output".to_owned(),
        None => "waste".to_owned(),
    }
}

fn row(name: &str, from: String, to: String, stream: &Stream) -> Vec<String> {
    let whole = stream.whole();
    let brix = liquid_brix(stream).map_or_else(|| "–".to_owned(), |brix| number(brix, 1));
    let mut cells = vec![
        name.to_owned(),
        from,
        to,
        number(stream.mass_g(), 1),
        number(stream.liquid.mass_g(), 1),
        brix,
        number(stream.liquid.percent_vol(), 1),
    ];
    let parts = FlowShare::ALL.into_iter().skip(1);
    cells.extend(parts.map(|part| number(part.grams(&whole), 2)));
    cells
}
