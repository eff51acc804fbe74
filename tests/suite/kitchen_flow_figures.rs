//! Uncertain figures of steps, and the steps that the menu offers.

use crate::kitchen_flow_kit::{Kit, mass, near, raspberries, water};
use equipour::kitchen::usual_steps;
use equipour::model::{DryTo, Process, Range, Release, Retained, StepFigure, StepFigureKind};
use std::collections::BTreeSet;

fn strained() -> Kit {
    let retained = Retained::PerGram(Range {
        low: 0.2,
        typical: 0.5,
        high: 1.0,
    });
    Kit::default()
        .grams("fruit", raspberries(), 100.0)
        .grams("water", water(), 400.0)
        .step(Process::Combine, &["fruit", "water"], &["mix"])
        .step(
            Process::Strain { retained },
            &["mix"],
            &["liquid", "solids"],
        )
}

#[test]
fn an_uncertain_figure_is_found_and_moved() {
    let kit = strained();
    let figures = kit.preparation.uncertain();
    let expected = StepFigure {
        step: 1,
        kind: StepFigureKind::Retained,
    };
    assert_eq!(figures, [expected]);
    assert_eq!(expected.kind.unit(), "g per g");
    for (value, out) in [(0.2, 380.0), (1.0, 300.0), (1.5, 250.0)] {
        let mut moved = kit.clone();
        moved.preparation = kit.preparation.with(expected, value);
        near(mass(&moved.flow(), "liquid"), out, 1e-12);
        let range = expected.of(&moved.preparation).expect("it is there");
        assert!(range.low == 0.2 && range.typical == value && range.high >= value);
    }
}

#[test]
fn a_figure_that_is_not_there_changes_nothing() {
    let kit = strained();
    for figure in [
        StepFigure {
            step: 0,
            kind: StepFigureKind::Retained,
        },
        StepFigure {
            step: 1,
            kind: StepFigureKind::Yield,
        },
        StepFigure {
            step: 7,
            kind: StepFigureKind::Steam,
        },
    ] {
        assert_eq!(figure.of(&kit.preparation), None);
        assert_eq!(kit.preparation.with(figure, 0.3), kit.preparation);
    }
}

#[test]
fn exact_figures_are_listed_but_not_uncertain() {
    let steam = Range::exact(0.1);
    let kit = Kit::default().grams("water", water(), 100.0).step(
        Process::Heat { steam },
        &["water"],
        &["hot"],
    );
    assert_eq!(kit.preparation.step_figures().len(), 1);
    assert!(kit.preparation.uncertain().is_empty());
}

#[test]
fn the_menu_has_every_process_once_with_usable_figures() {
    let steps = usual_steps();
    let names: BTreeSet<&str> = steps.iter().map(|step| step.does.name()).collect();
    assert_eq!((names.len(), steps.len()), (23, 23));
    for step in &steps {
        let name = step.does.name();
        assert_eq!(step.to.len(), step.does.makes(), "{name}");
        assert!(
            step.from.is_empty() && (0.0..0.1).contains(&step.lost),
            "{name}"
        );
        assert!(
            step.wait.least_min <= step.wait.most_min && step.hands_on_min >= 0.0,
            "{name}"
        );
        if let Some((kind, range)) = step.uncertain() {
            let rises = 0.0 <= range.low && range.low < range.typical && range.typical < range.high;
            assert!(rises && range.high <= kind.most(), "{name}: {range:?}");
            assert!(!kind.name().is_empty());
        }
        for release in releases(&step.does) {
            let Release {
                water,
                soluble,
                fat,
                protein,
                starch,
                other,
            } = release;
            for share in [water, soluble, fat, protein, starch, other] {
                assert!((0.0..=1.0).contains(&share), "{name}");
            }
        }
    }
    let carbonate = steps.iter().find(|step| step.does.name() == "carbonate");
    assert!(carbonate.is_some_and(|step| step.celsius.is_some()));
}

fn releases(process: &Process) -> Vec<Release> {
    match process {
        Process::Soak { release, .. }
        | Process::Infuse { release }
        | Process::Blend { release }
        | Process::FreezeThaw { release }
        | Process::Juice { release, .. }
        | Process::SugarOnPeel { release, .. } => vec![*release],
        Process::Clarify { takes_out, .. } => vec![*takes_out],
        _ => Vec::new(),
    }
}

#[test]
fn every_step_with_a_range_has_its_figure() {
    let kinds: Vec<StepFigureKind> = usual_steps()
        .iter()
        .filter_map(|step| Some(step.uncertain()?.0))
        .collect();
    // Strain, press and peel share a kind; a yield in place of it is a kind of its own.
    let different: BTreeSet<StepFigureKind> = kinds.iter().copied().collect();
    assert_eq!((kinds.len(), different.len()), (11, 9));
    let to = DryTo::Grams(1.0);
    let kit = Kit::default().step(Process::Dehydrate { to }, &["a"], &["b"]);
    assert!(kit.preparation.step_figures().is_empty());
}

#[test]
fn the_usual_yield_of_juice_spans_citrus_fruit_by_the_weight_tables() {
    // USDA SR27: weight of the juice of a fruit, g, over the edible weight of a medium one, g
    // (from memory), and its refuse; the shares are 43.9, 55.2, 47.9 and 40.6 % of the whole fruit.
    let fruit: [(&str, f64, f64, f64, f64); 4] = [
        ("lemon", 48.0, 58.0, 0.47, 43.9),
        ("lime", 44.0, 67.0, 0.16, 55.2),
        ("orange", 86.0, 131.0, 0.27, 47.9),
        ("grapefruit", 196.0, 246.0, 0.49, 40.6),
    ];
    let shares = fruit.map(|(name, juice_g, edible_g, refuse, stated)| {
        let share = juice_g / (edible_g / (1.0 - refuse));
        assert!((100.0 * share - stated).abs() < 0.06, "{name}: {share}");
        share
    });
    let usual = usual_steps().into_iter().find_map(|step| match step.does {
        Process::Juice { yielded, .. } => Some(yielded),
        _ => None,
    });
    let usual = usual.expect("juicing is offered");
    for share in shares {
        assert!((usual.low..=usual.high).contains(&share), "{share}");
    }
}
