//! What a document may say of the processes of a preparation's steps.

use crate::preparation_limits::{NOTHING, range, said};
use equipour::model::{AcidProfile, DiluteTo, DryTo, Process, Range, ReduceTo, Release, Retained};

#[test]
fn figures_that_a_process_reaches_are_bounded() {
    for (does, end) in [
        (
            Process::SweetenTo { brix: 96.0 },
            "brix: 96 is outside 0 to 95 °Bx",
        ),
        (
            Process::Dilute {
                to: DiluteTo::Brix(f64::NAN),
            },
            "to: NaN is outside 0 to 95 °Bx",
        ),
        (
            Process::Dilute {
                to: DiluteTo::PercentVol(101.0),
            },
            "to: 101 is outside 0 to 100 % vol",
        ),
        (
            Process::Dilute {
                to: DiluteTo::Parts(-1.0),
            },
            "to: -1 is negative",
        ),
        (
            Process::Reduce {
                to: ReduceTo::Share(1.2),
                alcohol_left: 0.0,
            },
            "to: 1.2 is outside 0 to 1",
        ),
        (
            Process::Reduce {
                to: ReduceTo::Grams(f64::INFINITY),
                alcohol_left: 0.0,
            },
            "to: is not a finite number",
        ),
        (
            Process::Reduce {
                to: ReduceTo::Brix(65.0),
                alcohol_left: -0.1,
            },
            "alcohol_left: -0.1 is outside 0 to 1",
        ),
    ] {
        let found = said(|made| made.steps[0].does = does);
        assert_eq!(
            found,
            format!("preparations[\"rested\"].steps[0].does.{end}")
        );
    }
}

#[test]
fn ranges_and_shares_of_processes_are_bounded() {
    let whole = Range::exact(1.0);
    let leaky = Release {
        protein: 1.5,
        ..NOTHING
    };
    for (does, end) in [
        (
            Process::Heat {
                steam: range(0.2, 0.1, 0.3),
            },
            "steam: low 0.2 is above typical 0.1",
        ),
        (
            Process::Dehydrate {
                to: DryTo::Moisture(range(0.1, 0.18, 1.2)),
            },
            "to.high: 1.2 is above 1, the whole",
        ),
        (
            Process::Strain {
                retained: Retained::Yield(range(0.5, 0.9, 0.8)),
            },
            "retained: typical 0.9 is above high 0.8",
        ),
        (
            Process::Press {
                retained: Retained::PerGram(range(-1.0, 1.0, 2.0)),
            },
            "retained.low: -1 is negative",
        ),
        (
            Process::Soak {
                uptake: whole,
                release: leaky,
            },
            "release.protein: 1.5 is outside 0 to 1",
        ),
        (
            Process::Blend {
                release: Release {
                    water: f64::NAN,
                    ..NOTHING
                },
            },
            "release.water: NaN is outside 0 to 1",
        ),
        (
            Process::AdjustAcid {
                to: AcidProfile::Own {
                    citric: 4.0,
                    malic: 90.0,
                    tartaric: 0.0,
                },
            },
            "to.malic: 90 is outside 0 to 80 g per 100 ml",
        ),
        (
            Process::FatWash {
                fat_removed: 2.0,
                held: whole,
            },
            "fat_removed: 2 is outside 0 to 1",
        ),
        (
            Process::Carbonate {
                bar: 11.0,
                kept: whole,
            },
            "bar: 11 is outside 0 to 10 bar",
        ),
        (
            Process::Carbonate {
                bar: 3.0,
                kept: range(0.0, 1.0, 1.5),
            },
            "kept.high: 1.5 is above 1, the whole",
        ),
        (
            Process::Aerate {
                overrun: range(0.0, 1.0, 2_000.0),
            },
            "overrun.high: 2000 is above 1000, more than is believed",
        ),
        (
            Process::Stock { percent: 101.0 },
            "percent: 101 is outside 0 to 100 %",
        ),
        (
            Process::Divide { part: -0.5 },
            "part: -0.5 is outside 0 to 1",
        ),
    ] {
        let found = said(|made| made.steps[0].does = does);
        assert_eq!(
            found,
            format!("preparations[\"rested\"].steps[0].does.{end}")
        );
    }
}
