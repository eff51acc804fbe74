//! A drink with something house-made in it, for tests: oat milk, its pulp, and a syrup made of the milk.

use crate::sample_drinks::{SHAKEN, TRIAL, builtin, document, larder, ml};
use equipour::kitchen::{made, usual_steps};
use equipour::model::{
    Document, IngredientId, Input, Preparation, PreparationId, Quantity, Role, Source, Step,
};
use equipour::session::{Edit, EditError, HouseEdit, Session, add_step};
use std::collections::BTreeMap;
use std::sync::Arc;

pub(crate) const MILK: &str = "oat-milk";
pub(crate) const SYRUP: &str = "oat-syrup";

pub(crate) fn id(name: &str) -> PreparationId {
    PreparationId::from(name)
}

pub(crate) fn input(name: &str, id: &str, grams: f64) -> Input {
    Input {
        name: name.to_owned(),
        source: Source::Ingredient(IngredientId::from(id)),
        quantity: Quantity::Grams(grams),
    }
}

pub(crate) fn output(preparation: &str, output: &str) -> Source {
    Source::Preparation {
        preparation: id(preparation),
        output: output.to_owned(),
    }
}

/// The usual step of that name.
pub(crate) fn usual(name: &str) -> Step {
    let found = usual_steps()
        .into_iter()
        .find(|step| step.does.name() == name);
    found.unwrap_or_else(|| panic!("no process is called {name}"))
}

/// Oats blended in water and strained: milk and pulp.
pub(crate) fn milk() -> Preparation {
    let mut made = Preparation {
        name: "oat milk".to_owned(),
        inputs: vec![input("oats", "oats", 100.0), input("water", "water", 400.0)],
        ..Preparation::default()
    };
    add_step(&mut made, &usual("blend"));
    add_step(&mut made, &usual("strain"));
    made.steps[1].to = vec!["milk".to_owned(), "pulp".to_owned()];
    made.outputs = BTreeMap::from([
        ("milk".to_owned(), IngredientId::from("house-oat-milk")),
        ("pulp".to_owned(), IngredientId::from("house-oat-pulp")),
    ]);
    "milk".clone_into(&mut made.main);
    made
}

/// Sugar dissolved in that milk.
pub(crate) fn syrup() -> Preparation {
    let mut made = Preparation {
        name: "oat syrup".to_owned(),
        inputs: vec![
            Input {
                source: output(MILK, "milk"),
                ..input("milk", "", 250.0)
            },
            input("sugar", "granulated-sugar", 250.0),
        ],
        ..Preparation::default()
    };
    add_step(&mut made, &usual("dissolve"));
    made.steps[0].to = vec!["syrup".to_owned()];
    made.outputs = BTreeMap::from([("syrup".to_owned(), IngredientId::from("house-oat-syrup"))]);
    made
}

/// The edit that writes a preparation.
pub(crate) fn set(name: &str, to: Preparation) -> Edit {
    let rows = to.inputs.iter().filter_map(|input| match &input.source {
        Source::Ingredient(id) => Some((id.clone(), Arc::clone(larder().get(id)?))),
        Source::Preparation { .. } | Source::Lot(_) => None,
    });
    Edit::House(HouseEdit::Set {
        id: id(name),
        rows: rows.collect(),
        label: format!("Write {}", to.name),
        to: Box::new(to),
        gesture: None,
    })
}

/// A gin sour whose syrup is house-made.
pub(crate) fn house() -> Session {
    let pours = vec![ml("gin-london-dry", 60.0), ml("lime-juice", 22.5)];
    let mut session = Session::new(Arc::clone(builtin()), document(pours, SHAKEN, None));
    let mut pour = ml("lime-juice", 22.5);
    pour.role = Role::Sweet;
    pour.source = output(SYRUP, "syrup");
    let edits = [
        set(MILK, milk()),
        set(SYRUP, syrup()),
        Edit::AddPour {
            trial: TRIAL,
            pour,
            ingredient: None,
        },
    ];
    for edit in edits {
        session.edit(&edit).expect("it can be done");
        session.settle();
    }
    session.refresh();
    session
}

/// Changes a preparation as the window does.
pub(crate) fn change(
    session: &mut Session,
    name: &str,
    change: impl FnOnce(&mut Preparation),
) -> Result<(), EditError> {
    let mut made = Preparation::clone(&session.document().preparations[&id(name)]);
    change(&mut made);
    let done = session.edit(&set(name, made));
    session.settle();
    session.refresh();
    done
}

/// Every row of a preparation that can be worked out says what working it out gives.
pub(crate) fn rows_are_as_made(document: &Document) -> Result<(), String> {
    for (id, recipe) in document.preparations.iter() {
        let Ok(found) = made(document, id) else {
            continue;
        };
        for (name, row) in &found.rows {
            let held = &document.ingredients[&recipe.outputs[name]];
            if **held != *row {
                return Err(format!("{id}, {name}: {held:?} is not {row:?}"));
            }
        }
    }
    Ok(())
}
