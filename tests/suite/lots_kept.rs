//! Lots, weighings and tasted trials over time: what was kept stays what it was.

use crate::sample_drinks::{builtin, larder};
use equipour::balance::figures;
use equipour::balance::{Drink, Figures, Pantry, WeighedPoint, calibrate};
use equipour::model::{
    Document, IngredientId, Lot, Measurement, Method, Place, Reading, Source, Trial, TrialId,
    TrialState, Weighing,
};
use equipour::session::{
    Edit, LarderEdit, ReportAsk, Session, aim_of, keep_lot, lot_outcome, report_text,
};
use equipour::store::{DEMO, read_text};
use std::sync::Arc;
use std::thread::sleep;
use std::time::Duration;

fn demo() -> Session {
    let document = read_text(DEMO).expect("the demo is sound").document;
    Session::new(Arc::clone(builtin()), document)
}

fn lemon() -> IngredientId {
    IngredientId::from("lemon-juice")
}

fn lot(label: &str, readings: &[Reading]) -> Lot {
    Lot {
        label: label.to_owned(),
        ingredient: lemon(),
        of: Some(lemon()),
        made_on: "2026-05-20".to_owned(),
        best_before: String::new(),
        measurements: readings
            .iter()
            .map(|reading| Measurement {
                reading: *reading,
                on: String::new(),
            })
            .collect(),
        weighed_in: None,
        approved: false,
        note: String::new(),
    }
}

fn kept(session: &mut Session, lot: Lot, pour_in: Option<TrialId>) {
    let found = lot_outcome(session.document(), None, &lemon(), &lot).expect("sound readings");
    let edit = keep_lot(session, None, lot, found.ingredient, pour_in);
    session.edit(&edit).expect("it is kept");
}

fn figures_of(document: &Document, trial: &Trial) -> Figures {
    let drink = Drink::of_trial(document, trial, &mut Pantry::default()).expect("it resolves");
    figures(&drink).expect("it is served")
}

#[test]
fn a_lot_that_was_brought_to_spec_is_kept_again_as_it_is() {
    let mut session = demo();
    let document = Arc::clone(session.document());
    let (id, monday) = document
        .lots
        .iter()
        .find(|(_, lot)| lot.weighed_in.is_some())
        .expect("the demo has one");
    let before = Arc::clone(&document.ingredients[&monday.ingredient]);
    let again = lot_outcome(&document, None, &lemon(), monday).expect("sound readings");
    let edit = keep_lot(&session, Some(id), monday.clone(), again.ingredient, None);
    session.edit(&edit).expect("it is kept");
    let after = &session.document().ingredients[&monday.ingredient];
    let citric =
        |item: &equipour::model::Ingredient| item.acids.citric.expect("it is sour").typical;
    assert!((citric(after) - citric(&before)).abs() < 1.0e-6);
    let sugar = |item: &equipour::model::Ingredient| item.sugar_g.expect("it is sweet").typical;
    assert!((sugar(after) - sugar(&before)).abs() < 1.0e-6);
    assert_eq!(after.name, before.name);
    assert_eq!(after.price, before.price);
}

#[test]
fn a_lot_never_takes_the_name_of_a_built_in_ingredient() {
    let mut session = demo();
    kept(&mut session, lot("Absinthe", &[Reading::Ph(2.4)]), None);
    let absinthe = IngredientId::from("absinthe");
    assert!(larder().contains_key(&absinthe));
    assert!(!session.document().ingredients.contains_key(&absinthe));
}

#[test]
fn a_lot_keeps_the_name_by_which_its_nature_is_known() {
    let mut session = demo();
    kept(&mut session, lot("Batch 12", &[Reading::Ph(2.4)]), None);
    let document = session.document();
    let (_, batch) = document
        .lots
        .iter()
        .find(|(_, lot)| lot.label == "Batch 12")
        .expect("it is kept");
    assert_eq!(document.ingredients[&batch.ingredient].name, "lemon juice");
}

#[test]
fn only_the_last_approved_lot_is_the_approved_one() {
    let mut session = demo();
    let mut newer = lot("a newer approved lemon", &[Reading::Ph(2.4)]);
    newer.approved = true;
    kept(&mut session, newer, None);
    let document = session.document();
    let of = lemon();
    let aim = aim_of(document, &of).expect("there is one");
    assert_eq!(aim.name, "a newer approved lemon");
    assert_eq!(document.lots.values().filter(|lot| lot.approved).count(), 1);
}

#[test]
fn keeping_and_pouring_a_lot_is_one_step() {
    let mut session = demo();
    let before = Arc::clone(session.document());
    let trial = session.trial().expect("a trial").id;
    kept(
        &mut session,
        lot("fresh", &[Reading::Brix(8.0)]),
        Some(trial),
    );
    let poured = session.trial().expect("a trial").pours.iter();
    assert_eq!(
        poured
            .filter(|pour| matches!(pour.source, Source::Lot(_)))
            .count(),
        1
    );
    session.undo();
    assert_eq!(**session.document(), *before);
}

#[test]
fn a_lot_that_is_poured_stays_and_so_does_what_it_is_a_batch_of() {
    let mut session = demo();
    let trial = session.trial().expect("a trial").id;
    kept(
        &mut session,
        lot("fresh", &[Reading::Brix(8.0)]),
        Some(trial),
    );
    let id = session
        .document()
        .lots
        .iter()
        .find(|(_, lot)| lot.label == "fresh")
        .map(|(id, _)| id.clone())
        .expect("it is kept");
    for edit in [LarderEdit::RemoveLot(id), LarderEdit::Remove(lemon())] {
        let before = Arc::clone(session.document());
        assert!(session.edit(&Edit::Larder(edit)).is_err());
        assert_eq!(**session.document(), *before);
    }
    let nobody = LarderEdit::Remove(IngredientId::from("nobody"));
    assert!(session.edit(&Edit::Larder(nobody)).is_err());
}

#[test]
fn what_was_tasted_is_not_moved_by_weighings_made_later() {
    let mut session = demo();
    let tasted: Vec<(TrialId, Figures)> = session
        .document()
        .specs
        .iter()
        .flat_map(|spec| &spec.trials)
        .filter(|trial| trial.state != TrialState::Draft)
        .map(|trial| (trial.id, figures_of(session.document(), trial)))
        .collect();
    assert!(tasted.len() > 3);
    for method in [Method::Shaken, Method::Swizzled, Method::Stirred] {
        let weighing = Weighing {
            method,
            before_g: 100.0,
            after_g: 120.0,
            strength_pct_vol: 20.0,
            density_g_per_ml: 1.02,
            spared_g: 0.0,
            ice_g: None,
            seconds: None,
            on: String::new(),
            note: String::new(),
        };
        for edit in [
            LarderEdit::AddWeighing(weighing),
            LarderEdit::SetCalibrated { method, on: true },
        ] {
            session.edit(&Edit::Larder(edit)).expect("it is kept");
        }
    }
    for (id, before) in tasted {
        let (_, trial) = session.document().trial(id).expect("it is there");
        assert_eq!(figures_of(session.document(), trial).point, before.point);
    }
}

#[test]
fn weighing_a_cold_drink_counts_the_cold_once() {
    let mut session = demo();
    let trial = session.trial().expect("a trial").id;
    let cold = Edit::SetPlace {
        trial,
        pour: None,
        place: Some(Place::Fridge),
    };
    session.edit(&cold).expect("it is a draft");
    session.refresh();
    let before = figures_of(session.document(), session.trial().expect("a trial"));
    assert!(before.spared_g > 5.0);
    // The scale says exactly what was predicted.
    let weighing = Weighing {
        method: Method::Shaken,
        before_g: before.chilled_g,
        after_g: before.chilled_g + before.melt_g,
        strength_pct_vol: before.chilled_pct_vol,
        density_g_per_ml: before.chilled_g / before.chilled_ml,
        spared_g: before.spared_g,
        ice_g: None,
        seconds: None,
        on: String::new(),
        note: String::new(),
    };
    let point = WeighedPoint::of(&weighing);
    assert!(point.fraction > before.dilution, "as if all had been warm");
    let own = calibrate(std::slice::from_ref(&weighing), Method::Shaken).expect("one weighing");
    assert!((own.scale - 1.0).abs() < 1.0e-6, "{}", own.scale);
}

#[test]
fn a_report_is_of_its_document_and_says_when_it_is_old() {
    let mut session = demo();
    let ask = ReportAsk {
        draws: 1_000,
        seed: 7,
    };
    session.ask_report(ask, || ()).expect("there is a drink");
    while session.report_progress().is_some() {
        sleep(Duration::from_millis(5));
        assert_eq!(session.take_report(), None);
    }
    let fresh = report_text(&session);
    assert!(fresh.contains("1000 drinks drawn, seed 7") && !fresh.contains("draw again"));
    let trial = session.trial().expect("a trial").id;
    let colder = Edit::SetPlace {
        trial,
        pour: None,
        place: Some(Place::Fridge),
    };
    session.edit(&colder).expect("it is a draft");
    session.refresh();
    assert!(report_text(&session).contains("draw again"));
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/sample_data/demo.ron");
    session.open(path.as_ref()).expect("the demo opens");
    assert!(session.report().is_none());
}
