//! The house-made ingredients of the demo document: their rows are what the preparations give.

use crate::demo_submission::add_submission;
use crate::demo_tasting::add_tasting;
use crate::sample_drinks::builtin;
use equipour::kitchen::{made, making_order};
use equipour::model::{
    Added, Amount, Dilution, Document, Glass, Ingredient, IngredientId, Method, Pour,
    PreparationId, Price, Role, Source, Spec, SpecId, Technique, Trial, TrialId, check,
};
use equipour::session::blank_spec;
use equipour::store::{DEMO, document_text, read_text, starter_preparations};
use equipour::units::Unit;
use std::collections::BTreeSet;
use std::sync::Arc;

const PATH: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/sample_data/demo.ron");
/// The starters that the demo makes.
const MADE: [&str; 3] = [
    "berry-shrub",
    "carrot-juice-and-crisp",
    "sunflower-seed-drink",
];
/// The drink that they go into.
const DRINK: SpecId = SpecId(12);
/// Invented prices in EUR: pack, its size in ml or g, and whether that is a weight.
const PRICES: [(&str, f64, f64, bool); 6] = [
    ("carrot", 1.6, 1000.0, true),
    ("cider-vinegar", 3.4, 750.0, false),
    ("granulated-sugar", 1.3, 1000.0, true),
    ("raspberry", 11.0, 1000.0, true),
    ("sunflower-seeds", 4.8, 1000.0, true),
    ("water", 0.0, 1000.0, false),
];

fn demo() -> Document {
    read_text(DEMO).expect("the demo is sound").document
}

/// The document with every row of an output worked out anew.
fn worked_out(document: &Document) -> Document {
    let mut document = document.clone();
    for id in making_order(&document).expect("nothing is made of itself") {
        let found = made(&document, &id).unwrap_or_else(|error| panic!("{id}: {error}"));
        let outputs = document.preparations[&id].outputs.clone();
        let held = Arc::make_mut(&mut document.ingredients);
        for (output, row) in found.rows {
            held.insert(outputs[&output].clone(), Arc::new(row));
        }
    }
    document
}

/// Whether two lines of a document say the same; numbers may differ in the last digits, which depend
/// on the machine.
fn is_same(one: &str, other: &str) -> bool {
    let number = |line: &str| -> Option<f64> {
        let value = line.trim_end_matches(',').rsplit(' ').next()?;
        value.parse().ok()
    };
    match (number(one), number(other)) {
        (Some(a), Some(b)) => {
            let named = |line: &str| line.rsplit_once(' ').map(|(name, _)| name.to_owned());
            named(one) == named(other) && (a - b).abs() <= 1.0e-9 * a.abs().max(b.abs())
        }
        _ => one == other,
    }
}

#[test]
fn rows_of_the_demo_are_what_its_preparations_give() {
    let document = demo();
    assert_eq!(document.preparations.len(), 3);
    assert!(
        document
            .preparations
            .values()
            .all(|made| made.is_worked_out())
    );
    let text = |document: &Document| document_text(document).expect("it can be written");
    let (stored, fresh) = (text(&document), text(&worked_out(&document)));
    assert_eq!(stored.lines().count(), fresh.lines().count());
    for (place, (one, other)) in stored.lines().zip(fresh.lines()).enumerate() {
        assert!(is_same(one, other), "line {}: {one} {other}", place + 1);
    }
    // The comparison can tell.
    assert!(!is_same("  fat_g: 1.0,", "  fat_g: 1.001,"));
    assert!(!is_same("  fat_g: 1.0,", "  salt_g: 1.0,"));
}

#[test]
fn the_demo_is_written_in_todays_format_and_pours_what_it_makes() {
    assert!(DEMO.contains("format: 6,"));
    let document = demo();
    check(&document).expect("it is sound");
    let spec = document.spec(DRINK).expect("the drink is there");
    let pours = spec.trials.iter().flat_map(|trial| &trial.pours);
    let poured: BTreeSet<&PreparationId> = pours
        .filter_map(|pour| match &pour.source {
            Source::Preparation { preparation, .. } => Some(preparation),
            _ => None,
        })
        .collect();
    assert_eq!(poured, document.preparations.keys().collect());
    // What it opens with stays the drink that is handed in.
    let last = document.specs.last().expect("a drink");
    assert_eq!(last.name, "Salt Meadow");
    // Every input has a price, so that the main outputs have one.
    for made in document.preparations.values() {
        let (_, row) = made.main_output().expect("it makes something");
        let price = document.ingredients[row].price.as_ref();
        assert!(price.is_some_and(|price| price.pack_price > 0.0), "{row}");
    }
}

fn pour(source: Source, amount: Amount, role: Role) -> Pour {
    let mut pour = Pour::of(&IngredientId::from("water"), 0.0, role);
    pour.unit = match amount {
        Amount::Grams(_) => Unit::Gram,
        _ => Unit::Ml,
    };
    pour.source = source;
    pour.amount = amount;
    pour
}

fn of_house(preparation: &str, output: &str) -> Source {
    Source::Preparation {
        preparation: preparation.into(),
        output: output.to_owned(),
    }
}

fn trial(id: u32, parent: Option<u32>, words: (&str, &str), pours: Vec<Pour>) -> Trial {
    let (name, reason) = words;
    let technique = Technique::new(Method::Shaken, Dilution::ByMethod);
    Trial {
        parent: parent.map(TrialId),
        reason: reason.to_owned(),
        ..Trial::new(TrialId(id), name, technique, pours)
    }
}

/// An invented drink of the demo's coast, with what is made in the house.
fn house_drink() -> Spec {
    let spirit = || {
        pour(
            Source::Ingredient("caraway-spirit".into()),
            Amount::Ml(45.0),
            Role::Base,
        )
    };
    let juice = of_house("carrot-juice-and-crisp", "carrot juice");
    let crisp = of_house("carrot-juice-and-crisp", "carrot crisp");
    let shrub = of_house("berry-shrub", "shrub");
    let seeds = of_house("sunflower-seed-drink", "seed drink");
    let sour = vec![
        spirit(),
        pour(juice, Amount::Ml(40.0), Role::Length),
        pour(shrub, Amount::Ml(25.0), Role::Sour),
    ];
    let on_the_rim = || {
        let words = Amount::Words("1 crisp, on the rim".to_owned());
        let mut pour = pour(crisp.clone(), words, Role::Other);
        pour.added = Added::After;
        pour.locked = true;
        pour
    };
    let mut rimmed = sour.clone();
    rimmed.push(on_the_rim());
    let mut saline = pour(
        Source::Ingredient("saline-solution-20-percent".into()),
        Amount::Ml(0.2),
        Role::Seasoning,
    );
    (saline.unit, saline.locked) = (Unit::Drop, true);
    let round = vec![
        spirit(),
        pour(seeds, Amount::Ml(60.0), Role::Body),
        pour(
            Source::Ingredient("honey-syrup-1-1".into()),
            Amount::Ml(15.0),
            Role::Sweet,
        ),
        saline,
        on_the_rim(),
    ];
    let trials = [
        trial(
            13,
            None,
            (
                "Root and berry",
                "a sour without citrus: the shrub is the acid, the root the length",
            ),
            sour,
        ),
        trial(
            14,
            Some(13),
            (
                "Crisp on the rim",
                "the pulp is not thrown away: dried to a crisp beside the glass",
            ),
            rimmed,
        ),
        trial(
            15,
            Some(14),
            (
                "Seeds instead",
                "round and soft; no shrub, for the seed drink would curdle in it",
            ),
            round,
        ),
    ];
    Spec {
        id: DRINK,
        name: "Kitchen Garden".to_owned(),
        family: "sour".to_owned(),
        glass: Glass {
            name: "small tumbler".to_owned(),
            capacity_ml: 220.0,
            ..Glass::default()
        },
        trials: trials.into_iter().map(Arc::new).collect(),
        ..blank_spec().0
    }
}

/// Puts the starters and the drink into the demo, whether or not they are there, and writes it.
#[test]
#[ignore = "writes sample_data/demo.ron anew; run it by name after a change of the figures"]
fn write_the_demo() {
    let text = std::fs::read_to_string(PATH).expect("the demo is there");
    let mut document = read_text(&text).expect("it reads").document;
    document.specs.retain(|spec| spec.id != DRINK);
    Arc::make_mut(&mut document.tastings).clear();
    Arc::make_mut(&mut document.preparations).clear();
    for starter in starter_preparations() {
        if !MADE.contains(&starter.id.0.as_str()) {
            continue;
        }
        let (preparation, rows) = starter.rows_and_preparation(builtin(), |_| false);
        let held = Arc::make_mut(&mut document.ingredients);
        for (id, row) in rows {
            let own = starter.rows.contains_key(&id) || !held.contains_key(&id);
            if own {
                held.insert(id, row);
            }
        }
        Arc::make_mut(&mut document.preparations).insert(starter.id.clone(), Arc::new(preparation));
    }
    let held = Arc::make_mut(&mut document.ingredients);
    for (id, pack_price, pack_size, pack_is_mass) in PRICES {
        let row = held.get_mut(&IngredientId::from(id)).expect("it is needed");
        Arc::make_mut(row).price = Some(Price {
            pack_price,
            pack_size,
            pack_is_mass,
        });
    }
    let last = document.specs.len().saturating_sub(1);
    document.specs.insert(last, house_drink());
    document.next_number = 16;
    let document = add_submission(add_tasting(worked_out(&document)));
    check(&document).expect("it is sound");
    let text = document_text(&document).expect("it can be written");
    std::fs::write(PATH, text).expect("it can be written");
}

#[test]
fn the_demo_holds_the_newest_figures_of_the_larder() {
    let document = demo();
    let held = |id: &IngredientId| builtin().larder.get(id);
    for (id, item) in document.ingredients.iter() {
        let Some(newest) = held(id) else {
            continue;
        };
        let own = Ingredient {
            price: newest.price.clone(),
            origin: newest.origin.clone(),
            place: newest.place,
            ..item.as_ref().clone()
        };
        assert_eq!(&own, newest.as_ref(), "{id}");
    }
}
