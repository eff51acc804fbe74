//! Small preparations for tests, and the balance that every one of them must close.

use equipour::kitchen::{Flow, FlowError, Stream, Supplies, contents, flow};
use equipour::model::{
    Acids, Basis, Document, Ingredient, IngredientId, Input, Preparation, Process, PureAcid,
    Quantity, Range, Release, Source, Step, SugarSplit, Wait,
};
use equipour::physics::{Component, Composition};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Nothing passes.
pub(crate) const NONE: Release = Release {
    water: 0.0,
    soluble: 0.0,
    fat: 0.0,
    protein: 0.0,
    starch: 0.0,
    other: 0.0,
};

/// A preparation as it is being written.
#[derive(Clone, Default)]
pub(crate) struct Kit {
    pub(crate) preparation: Preparation,
    /// What its inputs hold.
    pub(crate) supplies: Supplies,
}

impl Kit {
    /// Adds an input whose row is named like its stream.
    pub(crate) fn input(mut self, name: &str, row: Ingredient, quantity: Quantity) -> Self {
        let id = IngredientId::from(name);
        let input = Input {
            name: name.to_owned(),
            source: Source::Ingredient(id.clone()),
            quantity,
        };
        let alone = Preparation {
            inputs: vec![input.clone()],
            ..Preparation::default()
        };
        let document = Document {
            ingredients: BTreeMap::from([(id, Arc::new(row))]).into(),
            ..Document::default()
        };
        let known = Supplies::of(&document, &alone).expect("the row is known");
        self.supplies.inputs.extend(known.inputs);
        self.preparation.inputs.push(input);
        self
    }

    /// The same by weight.
    pub(crate) fn grams(self, name: &str, row: Ingredient, grams: f64) -> Self {
        self.input(name, row, Quantity::Grams(grams))
    }

    /// The same, as much as is needed.
    pub(crate) fn needed(self, name: &str, row: Ingredient) -> Self {
        self.input(name, row, Quantity::AsNeeded)
    }

    /// A row that a juice may be like.
    pub(crate) fn like(mut self, id: &str, row: &Ingredient) -> Self {
        let known = contents(row).expect("it holds something");
        self.supplies.likes.insert(id.into(), Arc::new(known));
        self
    }

    /// Adds a step.
    pub(crate) fn step(mut self, does: Process, from: &[&str], to: &[&str]) -> Self {
        self.preparation.steps.push(step(does, from, to));
        self
    }

    /// Names a stream that leaves to be used.
    pub(crate) fn output(mut self, name: &str) -> Self {
        let row = IngredientId::from(name);
        self.preparation.outputs.insert(name.to_owned(), row);
        self
    }

    pub(crate) fn try_flow(&self) -> Result<Flow, FlowError> {
        flow(&self.preparation, &self.supplies)
    }

    /// Works it through; it must close.
    pub(crate) fn flow(&self) -> Flow {
        let found = self.try_flow().expect("it can be made");
        if let Some(gap) = gap(&found, &self.supplies) {
            panic!("{gap}");
        }
        found
    }
}

/// A step without minutes.
pub(crate) fn step(does: Process, from: &[&str], to: &[&str]) -> Step {
    let words = |words: &[&str]| words.iter().map(|word| (*word).to_owned()).collect();
    Step {
        does,
        from: words(from),
        to: words(to),
        lost: 0.0,
        hands_on_min: 0.0,
        wait: Wait::default(),
        celsius: None,
        equipment: Vec::new(),
        note: String::new(),
    }
}

/// Where a flow does not close: inputs against everything that left; `None` when it does.
///
/// Each component to 1e-12 of what went in of it, the strong cations likewise.
pub(crate) fn gap(found: &Flow, supplies: &Supplies) -> Option<String> {
    let mut went_in = Composition::ZERO;
    for (name, grams) in &found.inputs_g {
        went_in += supplies.inputs[name].contents.per_gram.scaled(*grams);
    }
    let mut came_out = Composition::ZERO;
    for name in found.outputs.iter().chain(&found.waste) {
        came_out += found.streams[name].whole();
    }
    for step in &found.steps {
        came_out += step.vapour + step.lost.whole();
    }
    for component in Component::ALL {
        let (before, after) = (went_in[component], came_out[component]);
        if (before - after).abs() > 1e-12 * before {
            let name = component.name();
            return Some(format!("{name}: {before} g went in, {after} g came out"));
        }
    }
    let (before, after) = (went_in.cation_mmol, came_out.cation_mmol);
    ((before - after).abs() > 1e-11 * before.abs())
        .then(|| format!("cations: {before} mmol went in, {after} came out"))
}

/// A component of a whole stream, g.
pub(crate) fn of(found: &Flow, stream: &str, component: Component) -> f64 {
    found.streams[stream].whole()[component]
}

/// Mass of a stream, g.
pub(crate) fn mass(found: &Flow, stream: &str) -> f64 {
    found.streams.get(stream).map_or(f64::NAN, Stream::mass_g)
}

/// Asserts that two figures agree to a share of the first.
pub(crate) fn near(found: f64, expected: f64, share: f64) {
    assert!(
        (found - expected).abs() <= share * expected.abs(),
        "{found} is not {expected}"
    );
}

fn row(name: &str, kind: &str) -> Ingredient {
    Ingredient {
        name: name.to_owned(),
        kind: kind.to_owned(),
        basis: Basis::Per100G,
        ..Ingredient::default()
    }
}

/// A whole thing by its grams in 100 g: sugar, fat, protein and water; the rest is other solids.
pub(crate) fn whole(name: &str, kind: &str, [sugar, fat, protein, water]: [f64; 4]) -> Ingredient {
    Ingredient {
        sugar_g: Some(Range::exact(sugar)),
        fat_g: Some(fat),
        protein_g: Some(protein),
        water_g: Some(water),
        ..row(name, kind)
    }
}

/// SR28 12062, per 100 g.
pub(crate) fn almonds() -> Ingredient {
    whole("almonds", "nut", [4.63, 52.52, 21.4, 4.51])
}

/// SR28 09302, per 100 g.
pub(crate) fn raspberries() -> Ingredient {
    whole("raspberries", "fruit", [4.42, 0.65, 1.2, 85.75])
}

/// SR28 09316, per 100 g.
pub(crate) fn strawberries() -> Ingredient {
    whole("strawberries", "fruit", [4.89, 0.3, 0.67, 90.95])
}

/// SR28 01145, per 100 g; its sugar is lactose.
pub(crate) fn butter() -> Ingredient {
    whole("butter", "dairy solid", [0.06, 81.11, 0.85, 17.94])
}

/// SR28 01077, per 100 g, with its density (SR27 cup of 244 g).
pub(crate) fn milk() -> Ingredient {
    Ingredient {
        split: SugarSplit {
            lactose_g: Some(5.05),
            ..SugarSplit::default()
        },
        ..whole("milk", "dairy", [5.05, 3.25, 3.15, 88.13])
    }
}

/// Nothing but water.
pub(crate) fn water() -> Ingredient {
    whole("water", "water", [0.0, 0.0, 0.0, 100.0])
}

/// Nothing but sucrose.
pub(crate) fn sugar() -> Ingredient {
    whole("sugar", "sugar", [100.0, 0.0, 0.0, 0.0])
}

/// Nothing but gum.
pub(crate) fn agar() -> Ingredient {
    Ingredient {
        gum_g: Some(100.0),
        ..row("agar", "hydrocolloid")
    }
}

/// Ethanol and water of this strength, % vol.
pub(crate) fn spirit(percent_vol: f64) -> Ingredient {
    Ingredient {
        strength_pct_vol: Some(Range::exact(percent_vol)),
        basis: Basis::Per100Ml,
        ..row("spirit", "base spirit")
    }
}

/// The powder of one acid.
pub(crate) fn acid(acid: PureAcid) -> Ingredient {
    Ingredient {
        pure_acid: Some(acid),
        ..row("acid", "acid powder")
    }
}

/// A juice with so much sugar, citric and malic acid, g per 100 ml.
pub(crate) fn sour_juice(sugar: f64, citric: f64, malic: f64) -> Ingredient {
    let exact = |figure: f64| (figure > 0.0).then(|| Range::exact(figure));
    Ingredient {
        basis: Basis::Per100Ml,
        sugar_g: exact(sugar),
        acids: Acids {
            citric: exact(citric),
            malic: exact(malic),
            ..Acids::default()
        },
        ..row("juice", "juice")
    }
}

/// Acetic acid in water, 5 g per 100 ml: what a vinegar must hold at least (a handbook of vinegars).
pub(crate) fn vinegar() -> Ingredient {
    Ingredient {
        basis: Basis::Per100Ml,
        acids: Acids {
            acetic: Some(Range::exact(5.0)),
            ..Acids::default()
        },
        ..row("vinegar", "vinegar")
    }
}
