//! Yields that were weighed, and what they say of a step.

use crate::house_flows::document;
use equipour::kitchen::{YieldSaid, made, yield_said};
use equipour::model::{Document, Lot, LotId, Measurement, PreparationId, Reading, StepFigureKind};
use std::sync::Arc;

/// A lot of an output that gave a share of what went in.
fn weigh(document: &mut Document, output: &str, number: usize, in_g: f64, out_g: f64) {
    let id = format!("lot-{number}");
    crate::house_made::put(document, &id, crate::house_made::blank(&id, ""));
    let measurement = Measurement {
        reading: Reading::Yield { in_g, out_g },
        on: String::new(),
    };
    let lot = Lot {
        label: format!("Batch {number}"),
        ingredient: id.as_str().into(),
        of: Some(output.into()),
        made_on: String::new(),
        best_before: String::new(),
        measurements: vec![measurement],
        weighed_in: None,
        approved: false,
        note: String::new(),
    };
    Arc::make_mut(&mut document.lots).insert(LotId(id), lot);
}

fn said(document: &Document, id: &str, output: &str) -> YieldSaid {
    yield_said(document, &id.into(), output).expect("it can be worked through")
}

/// The yield that a preparation predicts with the proposal taken over.
fn with_proposal(document: &Document, id: &str, said: &YieldSaid, value: f64, output: &str) -> f64 {
    let mut there = document.clone();
    let id = PreparationId::from(id);
    let figure = said.proposal.expect("there is one").figure;
    let changed = there.preparations[&id].with(figure, value);
    Arc::make_mut(&mut there.preparations).insert(id.clone(), Arc::new(changed));
    let made = made(&there, &id).expect("it works");
    made.flow.streams[output].mass_g() / made.flow.inputs_g.values().sum::<f64>()
}

#[test]
fn fewer_than_three_lots_say_so() {
    let mut document = document();
    let none = said(&document, "shrub", "shrub");
    assert_eq!((none.mean, none.proposal), (None, None));
    assert_eq!(
        none.words,
        "0 lots with a weighed yield; a figure is worked out from 3 on"
    );
    weigh(&mut document, "shrub", 1, 1500.0, 1150.0);
    weigh(&mut document, "shrub", 2, 1500.0, 1160.0);
    let two = said(&document, "shrub", "shrub");
    assert_eq!(two.lots.len(), 2);
    assert!((two.mean.expect("two are weighed") - 1155.0 / 1500.0).abs() < 1e-12);
    assert_eq!(two.proposal, None);
}

#[test]
fn three_lots_give_the_figure_with_which_the_flow_meets_their_mean() {
    use StepFigureKind as Kind;
    for (id, output, kind, in_g, outs) in [
        (
            "shrub",
            "shrub",
            Kind::Retained,
            1500.0,
            [1150.0, 1180.0, 1210.0],
        ),
        (
            "adjusted",
            "fruit pulp",
            Kind::Juice,
            1000.0,
            [480.0, 500.0, 530.0],
        ),
        (
            "leather",
            "leather",
            Kind::Moisture,
            700.0,
            [228.0, 233.0, 240.0],
        ),
        (
            "punch",
            "punch",
            Kind::HeldBack,
            1150.0,
            [930.0, 910.0, 880.0],
        ),
    ] {
        let mut document = document();
        for (number, out) in outs.into_iter().enumerate() {
            weigh(&mut document, output, number, in_g, out);
        }
        let found = said(&document, id, output);
        let proposal = found
            .proposal
            .unwrap_or_else(|| panic!("{id}: {}", found.words));
        assert_eq!(proposal.figure.kind, kind);
        assert_eq!(proposal.lots, 3);
        let mean = found.mean.expect("three are weighed");
        let met = with_proposal(&document, id, &found, proposal.to.typical, output);
        assert!((met - mean).abs() < 1e-8, "{id}: {met} {mean}");
        // Two standard deviations of the lots lie at the ends, as far as they can be reached.
        let squares: f64 = outs.iter().map(|out| (out / in_g - mean).powi(2)).sum();
        let sigma = (squares / 2.0).sqrt();
        let ends = [proposal.to.low, proposal.to.high]
            .map(|end| (with_proposal(&document, id, &found, end, output) - mean).abs());
        for end in ends {
            assert!(end <= 2.0 * sigma + 1e-8, "{id}: {end} {sigma}");
        }
        assert!(
            ends.iter().any(|end| (end - 2.0 * sigma).abs() < 1e-8),
            "{id}"
        );
        let range = proposal.to;
        assert!(range.low <= range.typical && range.typical <= range.high);
    }
}

#[test]
fn alike_lots_leave_no_scatter() {
    let mut document = document();
    for number in 0..4 {
        weigh(&mut document, "shrub", number, 1000.0, 780.0);
    }
    let range = said(&document, "shrub", "shrub")
        .proposal
        .expect("it is reached")
        .to;
    assert!(range.high - range.low < 1e-8, "{range:?}");
}

#[test]
fn a_yield_above_what_went_in_is_no_yield() {
    let mut document = document();
    for (number, out) in [700.0, 800.0, 1001.0].into_iter().enumerate() {
        weigh(&mut document, "shrub", number, 1000.0, out);
    }
    let found = said(&document, "shrub", "shrub");
    assert_eq!(found.proposal, None);
    assert!(
        found
            .words
            .starts_with("\"Batch 2\" weighs more than went in, 100.1 %"),
        "{}",
        found.words
    );
}

#[test]
fn a_mean_that_no_value_of_the_figure_gives_is_said() {
    let mut document = document();
    // 2 % stays on tools and the solids weigh something: 98 % cannot come out.
    for number in 0..3 {
        weigh(&mut document, "shrub", number, 1000.0, 980.0);
    }
    let found = said(&document, "shrub", "shrub");
    assert_eq!(found.proposal, None);
    assert!(
        found
            .words
            .contains("no value of it gives the mean yield of 98.0 %"),
        "{}",
        found.words
    );
}

#[test]
fn without_a_figure_that_decides_there_is_nothing_to_propose() {
    let mut document = document();
    for number in 0..3 {
        weigh(&mut document, "reduction", number, 700.0, 425.0);
    }
    let found = said(&document, "reduction", "reduction");
    assert_eq!(found.proposal, None);
    assert_eq!(
        found.words,
        "no figure of a step decides how much of it there is"
    );
    let error = yield_said(&document, &"reduction".into(), "foam").expect_err("there is none");
    assert_eq!(
        error.to_string(),
        "output \"foam\", stream: no output of this name leaves"
    );
}
