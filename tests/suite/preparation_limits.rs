//! What a document may say of its preparations: the message names the field and the reason.

use crate::sample_drinks::{SHAKEN, document, sour};
use equipour::model::{
    Document, Garnish, Input, Preparation, PreparationId, Process, Quantity, Range, Release,
    Source, Step, Wait, check, check_since,
};
use equipour::store::{document_text, read_text};
use std::collections::BTreeMap;
use std::sync::Arc;

pub(crate) const NOTHING: Release = Release {
    water: 0.0,
    soluble: 0.0,
    fat: 0.0,
    protein: 0.0,
    starch: 0.0,
    other: 0.0,
};

fn step(does: Process) -> Step {
    Step {
        does,
        from: vec!["juice".to_owned()],
        to: vec!["made".to_owned()],
        lost: 0.0,
        hands_on_min: 5.0,
        wait: Wait::default(),
        celsius: None,
        equipment: vec!["blender".to_owned()],
        note: String::new(),
    }
}

/// Lime juice that rests and leaves as the row of the syrup.
fn rested() -> Preparation {
    Preparation {
        name: "Rested juice".to_owned(),
        outputs: BTreeMap::from([("made".to_owned(), "sugar-syrup-1-1".into())]),
        inputs: vec![Input {
            name: "juice".to_owned(),
            source: Source::Ingredient("lime-juice".into()),
            quantity: Quantity::Grams(500.0),
        }],
        steps: vec![step(Process::Rest)],
        keeps_days: BTreeMap::from([("made".to_owned(), 3.0)]),
        garnishes: BTreeMap::from([("made".to_owned(), Garnish::default())]),
        ..Preparation::default()
    }
}

fn with(made: Preparation) -> Document {
    let mut document = document(sour(), SHAKEN, None);
    let id = PreparationId::from("rested");
    Arc::make_mut(&mut document.preparations).insert(id, Arc::new(made));
    document
}

fn checked(change: impl FnOnce(&mut Preparation)) -> Result<(), String> {
    let mut made = rested();
    change(&mut made);
    check(&with(made)).map_err(|error| error.to_string())
}

pub(crate) fn said(change: impl FnOnce(&mut Preparation)) -> String {
    checked(change).expect_err("it is refused")
}

pub(crate) const fn range(low: f64, typical: f64, high: f64) -> Range {
    Range { low, typical, high }
}

#[test]
fn ten_thousand_steps_may_be_said_and_one_more_may_not() {
    assert_eq!(checked(|_| {}), Ok(()));
    let long = |steps: usize| checked(|made| made.steps = vec![step(Process::Rest); steps]);
    assert_eq!(long(10_000), Ok(()));
    assert_eq!(
        long(10_001),
        Err("preparations[\"rested\"].steps: holds 10001 entries, at most 10000".to_owned())
    );
}

#[test]
fn lists_without_end_are_refused() {
    for (change, end) in [
        (
            (|made| made.inputs = vec![made.inputs[0].clone(); 10_001]) as fn(&mut Preparation),
            "inputs: holds 10001 entries, at most 10000",
        ),
        (
            |made| {
                for place in 0..1_001 {
                    made.outputs.insert(format!("{place}"), "lime-juice".into());
                }
            },
            "outputs: holds 1002 entries, at most 1000",
        ),
        (
            |made| made.steps[0].equipment = vec!["jug".to_owned(); 101],
            "steps[0].equipment: holds 101 entries, at most 100",
        ),
        (
            |made| made.steps[0].from = vec!["juice".to_owned(); 10_001],
            "steps[0].from: holds 10001 entries, at most 10000",
        ),
        (
            |made| made.steps[0].to = vec!["made".to_owned(); 11],
            "steps[0].to: holds 11 entries, at most 10",
        ),
    ] {
        assert_eq!(said(change), format!("preparations[\"rested\"].{end}"));
    }
}

#[test]
fn names_are_needed_and_texts_end_somewhere() {
    let long = "x".repeat(4_001);
    let too_long = "is longer than 4000 characters";
    for (name, field) in [
        ("", "needs a name"),
        ("  ", "needs a name"),
        (&long, too_long),
    ] {
        let own = || name.to_owned();
        for (found, at) in [
            (said(|made| made.inputs[0].name = own()), "inputs[0].name"),
            (
                said(|made| made.steps[0].from[0] = own()),
                "steps[0].from[0]",
            ),
            (said(|made| made.steps[0].to[0] = own()), "steps[0].to[0]"),
            (
                said(|made| made.steps[0].equipment[0] = own()),
                "steps[0].equipment[0]",
            ),
            (
                said(|made| {
                    made.outputs.insert(own(), "lime-juice".into());
                }),
                &*format!("outputs[\"{name}\"]"),
            ),
        ] {
            assert_eq!(found, format!("preparations[\"rested\"].{at}: {field}"));
        }
    }
    for (found, at) in [
        (said(|made| made.name.clone_from(&long)), "name"),
        (said(|made| made.main.clone_from(&long)), "main"),
        (said(|made| made.note.clone_from(&long)), "note"),
        (
            said(|made| made.steps[0].note.clone_from(&long)),
            "steps[0].note",
        ),
        (
            said(|made| {
                made.garnishes
                    .get_mut("made")
                    .expect("it is there")
                    .size_mm
                    .clone_from(&long);
            }),
            "garnishes[\"made\"].size_mm",
        ),
    ] {
        assert_eq!(found, format!("preparations[\"rested\"].{at}: {too_long}"));
    }
}

#[test]
fn things_that_are_not_in_the_document_are_named() {
    let other = |preparation: &str, output: &str| Source::Preparation {
        preparation: preparation.into(),
        output: output.to_owned(),
    };
    for (source, reason) in [
        (
            Source::Ingredient("moon-juice".into()),
            "unknown ingredient \"moon-juice\"",
        ),
        (Source::Lot("monday".into()), "unknown lot \"monday\""),
        (
            other("moon", "juice"),
            "unknown output \"juice\" of preparation \"moon\"",
        ),
        (
            other("rested", "foam"),
            "unknown output \"foam\" of preparation \"rested\"",
        ),
    ] {
        let found = said(|made| made.inputs[0].source = source);
        assert_eq!(
            found,
            format!("preparations[\"rested\"].inputs[0].source: {reason}")
        );
    }
    let found = said(|made| {
        made.outputs.insert("made".to_owned(), "moon-juice".into());
    });
    assert_eq!(
        found,
        "preparations[\"rested\"].outputs[\"made\"]: unknown ingredient \"moon-juice\""
    );
    let found = said(|made| {
        made.steps[0].does = Process::Juice {
            yielded: range(0.3, 0.4, 0.5),
            release: NOTHING,
            like: Some("moon-juice".into()),
        };
    });
    assert_eq!(
        found,
        "preparations[\"rested\"].steps[0].does.like: unknown ingredient \"moon-juice\""
    );
}

#[test]
fn two_outputs_that_are_worked_out_cannot_share_a_row() {
    let mut document = with(rested());
    let by_hand = Preparation {
        inputs: Vec::new(),
        steps: Vec::new(),
        ..rested()
    };
    let add = |document: &mut Document, id: &str, made: &Preparation| {
        let id = PreparationId::from(id);
        Arc::make_mut(&mut document.preparations).insert(id, Arc::new(made.clone()));
    };
    add(&mut document, "the other", &by_hand);
    let error = check(&document).expect_err("one of them is worked out");
    assert_eq!(
        error.to_string(),
        "preparations[\"the other\"].outputs[\"made\"]: \"sugar-syrup-1-1\" is the row of output \
         \"made\" of preparation \"rested\""
    );
    // Where people wrote both rows, as in files of earlier formats, nothing is worked out.
    add(&mut document, "rested", &by_hand);
    check(&document).expect("it may be said");
}

#[test]
fn figures_of_inputs_and_steps_are_bounded() {
    for (change, end) in [
        (
            (|made| made.inputs[0].quantity = Quantity::Grams(-1.0)) as fn(&mut Preparation),
            "inputs[0].quantity: -1 is negative",
        ),
        (
            |made| made.inputs[0].quantity = Quantity::Ml(f64::NAN),
            "inputs[0].quantity: is not a finite number",
        ),
        (
            |made| made.inputs[0].quantity = Quantity::Pieces(2.0e6),
            "inputs[0].quantity: 2000000 is above 1000000",
        ),
        (
            |made| made.steps[0].lost = 1.1,
            "steps[0].lost: 1.1 is outside 0 to 1",
        ),
        (
            |made| made.steps[0].hands_on_min = -5.0,
            "steps[0].hands_on_min: -5 is negative",
        ),
        (
            |made| made.steps[0].wait.least_min = 10.0,
            "steps[0].wait: shortest 10 is above longest 0",
        ),
        (
            |made| made.steps[0].wait.most_min = f64::INFINITY,
            "steps[0].wait.most_min: is not a finite number",
        ),
        (
            |made| made.steps[0].celsius = Some(-274.0),
            "steps[0].celsius: -274 is outside -200 to 400 °C",
        ),
        (
            |made| made.steps[0].celsius = Some(f64::NAN),
            "steps[0].celsius: NaN is outside -200 to 400 °C",
        ),
        (
            |made| *made.keeps_days.entry("made".to_owned()).or_default() = 4_000.0,
            "keeps_days[\"made\"]: 4000 is outside 0 to 3660 days",
        ),
        (
            |made| made.garnishes.entry("made".to_owned()).or_default().pieces = -1.0,
            "garnishes[\"made\"].pieces: -1 is negative",
        ),
        (
            |made| made.garnishes.entry("made".to_owned()).or_default().oil_ml = Some(f64::NAN),
            "garnishes[\"made\"].oil_ml: is not a finite number",
        ),
    ] {
        assert_eq!(said(change), format!("preparations[\"rested\"].{end}"));
    }
    // Nitrogen and an oven are both of a kitchen.
    for celsius in [-196.0, 0.0, 250.0] {
        assert_eq!(
            checked(|made| made.steps[0].celsius = Some(celsius)),
            Ok(())
        );
    }
}

#[test]
fn what_does_not_flow_may_still_be_said_and_read_again() {
    let own = Source::Preparation {
        preparation: "rested".into(),
        output: "made".to_owned(),
    };
    for change in [
        // It is made of itself.
        (|made, own| made.inputs[0].source = own) as fn(&mut Preparation, Source),
        // A stream that is not there, one made twice, one stream too few, an output of nothing.
        |made, _| made.steps[0].from[0] = "moon".to_owned(),
        |made, _| made.steps.push(made.steps[0].clone()),
        |made, _| made.steps[0].to.clear(),
        |made, _| made.steps[0].to[0] = "elsewhere".to_owned(),
        |made, _| made.inputs.push(made.inputs[0].clone()),
        |made, _| made.inputs[0].quantity = Quantity::AsNeeded,
        |made, _| made.main = "foam".to_owned(),
    ] {
        let mut made = rested();
        change(&mut made, own.clone());
        let document = with(made);
        let text = document_text(&document).expect("it can be written");
        let read = read_text(&text).expect("it opens").document;
        assert_eq!(read, document);
    }
}

#[test]
fn a_preparation_alone_is_looked_at_when_it_changes() {
    let sound = with(rested());
    check(&sound).expect("it is sound");
    let mut changed = sound.clone();
    let made = Arc::make_mut(&mut changed.preparations);
    Arc::make_mut(made.get_mut(&"rested".into()).expect("it is there")).steps[0].lost = 3.0;
    let said = check_since(&changed, &sound).expect_err("nothing else changed");
    assert_eq!(said.field, "preparations[\"rested\"].steps[0].lost");
}
