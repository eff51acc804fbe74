//! Small documents with preparations, for tests of what follows from them.

use equipour::kitchen::{Made, made};
use equipour::model::{
    Acids, Amount, Basis, Density, Document, Ingredient, IngredientId, Input, Pour, Preparation,
    PreparationId, Price, Process, Quantity, Range, Role, Source, Spec, SpecId, Step, SugarSplit,
    Technique, Trial, TrialId, Wait,
};
use std::sync::Arc;

/// A range around a value.
#[expect(
    clippy::unnecessary_wraps,
    reason = "the figures of a row may be blank"
)]
pub(crate) fn about(low: f64, typical: f64, high: f64) -> Option<Range> {
    Some(Range { low, typical, high })
}

/// A row with a name and a kind and nothing in it.
pub(crate) fn blank(name: &str, kind: &str) -> Ingredient {
    Ingredient {
        name: name.to_owned(),
        kind: kind.to_owned(),
        basis: Basis::Per100G,
        allergens: "none".to_owned(),
        ..Ingredient::default()
    }
}

/// Invented rows: water, sugar, vinegar, raspberries, almonds, lime juice, gin, citric acid, milk.
#[expect(clippy::too_many_lines, reason = "one row after the other")]
pub(crate) fn larder() -> Document {
    let mut document = Document::default();
    let price = |pack_price| {
        Some(Price {
            pack_price,
            pack_size: 1000.0,
            pack_is_mass: true,
        })
    };
    let rows = [
        ("water", blank("water", "water")),
        (
            "sugar",
            Ingredient {
                sugar_g: Some(Range::exact(100.0)),
                price: price(2.0),
                ..blank("granulated sugar", "sugar")
            },
        ),
        (
            "vinegar",
            Ingredient {
                acids: Acids {
                    acetic: about(4.5, 5.0, 6.0),
                    ..Acids::default()
                },
                ph: about(2.4, 2.6, 2.9),
                price: price(4.0),
                allergens: "possible sulphites".to_owned(),
                notes: vec!["apple".to_owned()],
                ..blank("cider vinegar", "vinegar")
            },
        ),
        (
            "raspberry",
            Ingredient {
                sugar_g: about(3.5, 4.4, 6.0),
                split: SugarSplit {
                    sucrose_g: Some(0.2),
                    glucose_g: Some(1.9),
                    fructose_g: Some(2.3),
                    ..SugarSplit::default()
                },
                acids: Acids {
                    citric: about(1.2, 1.7, 2.2),
                    malic: about(0.05, 0.1, 0.2),
                    ..Acids::default()
                },
                ph: about(3.0, 3.2, 3.5),
                protein_g: Some(1.2),
                fat_g: Some(0.65),
                starch_g: Some(6.5),
                water_g: Some(85.0),
                price: price(12.0),
                notes: vec!["raspberry".to_owned()],
                ..blank("raspberry", "fruit")
            },
        ),
        (
            "almonds",
            Ingredient {
                sugar_g: Some(Range::exact(4.6)),
                fat_g: Some(52.5),
                protein_g: Some(21.4),
                starch_g: Some(14.0),
                water_g: Some(4.5),
                allergens: "tree nuts (almond)".to_owned(),
                price: price(14.0),
                ..blank("almonds (blanched)", "nut")
            },
        ),
        (
            "lime-juice",
            Ingredient {
                sugar_g: about(1.0, 1.7, 2.2),
                acids: Acids {
                    citric: about(4.0, 4.6, 5.6),
                    malic: about(0.1, 0.2, 0.5),
                    ..Acids::default()
                },
                ph: about(2.0, 2.35, 2.6),
                protein_g: Some(0.4),
                water_g: Some(90.8),
                density: Some(Density {
                    g_per_ml: 1.04,
                    measured: true,
                }),
                ..blank("lime juice", "juice")
            },
        ),
        (
            "gin",
            Ingredient {
                strength_pct_vol: about(40.0, 45.0, 47.0),
                basis: Basis::Per100Ml,
                bitter_per_ml: Some(0.2),
                price: price(25.0),
                ..blank("gin", "base spirit")
            },
        ),
        (
            "milk",
            Ingredient {
                sugar_g: Some(Range::exact(5.0)),
                split: SugarSplit {
                    lactose_g: Some(5.0),
                    ..SugarSplit::default()
                },
                fat_g: Some(3.3),
                protein_g: Some(3.2),
                water_g: Some(88.1),
                allergens: "milk".to_owned(),
                ..blank("whole milk", "dairy")
            },
        ),
    ];
    for (id, row) in rows {
        put(&mut document, id, row);
    }
    document
}

/// Puts a row into a document.
pub(crate) fn put(document: &mut Document, id: &str, row: Ingredient) {
    Arc::make_mut(&mut document.ingredients).insert(id.into(), Arc::new(row));
}

/// Puts a preparation into a document, with a blank row for every output that has none.
pub(crate) fn put_preparation(document: &mut Document, id: &str, preparation: Preparation) {
    for (name, row) in &preparation.outputs {
        if !document.ingredients.contains_key(row) {
            put(document, &row.0, blank(name, ""));
        }
    }
    Arc::make_mut(&mut document.preparations).insert(id.into(), Arc::new(preparation));
}

/// An input of a row.
pub(crate) fn input(row: &str, quantity: Quantity) -> Input {
    Input {
        name: row.to_owned(),
        source: Source::Ingredient(row.into()),
        quantity,
    }
}

/// An input that another preparation makes.
pub(crate) fn from_preparation(preparation: &str, output: &str, quantity: Quantity) -> Input {
    Input {
        name: output.to_owned(),
        source: Source::Preparation {
            preparation: preparation.into(),
            output: output.to_owned(),
        },
        quantity,
    }
}

/// A step with no minutes.
pub(crate) fn step(does: Process, from: &[&str], to: &[&str]) -> Step {
    let names = |names: &[&str]| names.iter().map(|name| (*name).to_owned()).collect();
    Step {
        does,
        from: names(from),
        to: names(to),
        lost: 0.0,
        hands_on_min: 0.0,
        wait: Wait::default(),
        celsius: None,
        equipment: Vec::new(),
        note: String::new(),
    }
}

/// A preparation whose outputs are described by rows of their names.
pub(crate) fn preparation(
    name: &str,
    inputs: Vec<Input>,
    steps: Vec<Step>,
    outputs: &[&str],
) -> Preparation {
    Preparation {
        name: name.to_owned(),
        outputs: outputs
            .iter()
            .map(|output| ((*output).to_owned(), IngredientId((*output).to_owned())))
            .collect(),
        main: outputs
            .first()
            .map_or(String::new(), |main| (*main).to_owned()),
        inputs,
        steps,
        ..Preparation::default()
    }
}

/// Everything poured together.
pub(crate) fn combined(name: &str, inputs: Vec<Input>, output: &str) -> Preparation {
    let names: Vec<String> = inputs.iter().map(|input| input.name.clone()).collect();
    let from: Vec<&str> = names.iter().map(String::as_str).collect();
    let steps = vec![step(Process::Combine, &from, &[output])];
    preparation(name, inputs, steps, &[output])
}

/// What a preparation makes, with its rows written into the document as the window does.
pub(crate) fn make(document: &mut Document, id: &str) -> Made {
    let id = PreparationId::from(id);
    let made = made(document, &id).expect("it can be worked through");
    let outputs = document.preparations[&id].outputs.clone();
    for (name, row) in &made.rows {
        put(document, &outputs[name].0, row.clone());
    }
    made
}

/// A drink of one trial with these pours; gives the trial.
pub(crate) fn pour_trial(document: &mut Document, pours: &[(Source, Amount)]) -> TrialId {
    let pour = |(source, amount): &(Source, Amount)| Pour {
        source: source.clone(),
        amount: amount.clone(),
        ..Pour::of(&"water".into(), 0.0, Role::Other)
    };
    let id = TrialId(document.take_number());
    let pours = pours.iter().map(pour).collect();
    let trial = Trial::new(id, "Trial", Technique::default(), pours);
    let spec = SpecId(document.take_number());
    document
        .specs
        .push(Spec::new(spec, "Drink", vec![Arc::new(trial)]));
    id
}
