//! Figures with which a new step of each kind starts: what is usual, to be changed by the cook.

use crate::model::{
    AcidProfile, Clarifier, DiluteTo, DryTo, Process, Range, ReduceTo, Release, Retained,
};

const fn range(low: f64, typical: f64, high: f64) -> Range {
    Range { low, typical, high }
}

const NOTHING: Release = Release {
    water: 0.0,
    soluble: 0.0,
    fat: 0.0,
    protein: 0.0,
    starch: 0.0,
    other: 0.0,
};

/// Soaking water draws a little of what dissolves; common practice, no source.
const SOAKED: Release = Release {
    soluble: 0.1,
    other: 0.02,
    ..NOTHING
};

/// Steeped until taste no longer changes, fruit and liquid have nearly the same composition; colour
/// and aroma are a part of the other solids. Common practice, no source.
const STEEPED: Release = Release {
    water: 0.9,
    soluble: 0.9,
    fat: 0.05,
    protein: 0.05,
    starch: 0.0,
    other: 0.1,
};

/// Ground nuts or grain: all water mixes, half of fat and protein passes a cloth. With a usual strainer
/// 75 to 95 % of the added water comes back as drink; common practice, no source.
const GROUND: Release = Release {
    water: 1.0,
    soluble: 0.95,
    fat: 0.5,
    protein: 0.5,
    starch: 0.3,
    other: 0.2,
};

/// Juice of fruit: what dissolves has the same concentration in juice and pulp, some cloud comes
/// along. Common practice, no source.
const JUICED: Release = Release {
    water: 1.0,
    soluble: 1.0,
    fat: 0.2,
    protein: 0.3,
    starch: 0.1,
    other: 0.05,
};

/// Ice crystals tear cells open, most juice runs; common practice, no source.
const THAWED: Release = Release {
    water: 0.7,
    soluble: 0.7,
    protein: 0.2,
    starch: 0.05,
    other: 0.05,
    ..NOTHING
};

/// Sugar draws water, oil (counted as fat) and what dissolves from peel; common practice, no source.
const DRAWN: Release = Release {
    water: 0.25,
    soluble: 0.25,
    fat: 0.5,
    ..NOTHING
};

/// An agar raft takes its own gum, pulp and cloud; common practice, no source.
const TAKEN_BY_RAFT: Release = Release {
    water: 0.0,
    soluble: 0.0,
    fat: 0.9,
    protein: 0.8,
    starch: 0.95,
    other: 0.2,
};

/// Liquid that stays with strained solids, g per g of what they weigh dry: with [`GROUND`] 120 to 200 g
/// of wet pulp from 100 g of nuts; common practice, no source.
const STRAINED: Retained = Retained::PerGram(range(1.0, 1.8, 3.0));

/// The process itself with usual figures, in the order of the menu.
pub(super) fn usual_processes() -> Vec<Process> {
    let mut all = gathering();
    all.extend(parting());
    all.extend(cooking());
    all.extend(adding());
    all
}

/// Processes that bring things together or let solids give something off.
fn gathering() -> Vec<Process> {
    vec![
        Process::Combine,
        Process::Dissolve,
        // Almonds take up 0.4 to 0.7 times their weight overnight, rice 0.3 (common practice, no
        // source).
        Process::Soak {
            uptake: range(0.3, 0.5, 0.7),
            release: SOAKED,
        },
        Process::Infuse { release: STEEPED },
        Process::Blend { release: GROUND },
        Process::FreezeThaw { release: THAWED },
        Process::SugarOnPeel {
            release: DRAWN,
            // About 90 % of sugar and drawn water is won (common practice, weak).
            retained: Retained::PerGram(range(0.1, 0.2, 0.5)),
        },
    ]
}

/// Processes that part liquid from what is in it.
fn parting() -> Vec<Process> {
    vec![
        Process::Strain { retained: STRAINED },
        // Squeezed by hand or in a press; common practice, no source.
        Process::Press {
            retained: Retained::PerGram(range(0.5, 1.0, 1.5)),
        },
        // Share of whole fruit by the weight tables of SR27: grapefruit 0.41, lemon 0.44, orange 0.48,
        // lime 0.55.
        Process::Juice {
            yielded: range(0.4, 0.47, 0.56),
            release: JUICED,
            like: None,
        },
        // 2 g of agar per kg in all (published quick method of 2010); 60 to 85 % yield is common
        // practice, no source.
        Process::Clarify {
            with: Clarifier::Agar,
            dose_pct: 0.2,
            takes_out: TAKEN_BY_RAFT,
            held_back: range(0.15, 0.25, 0.4),
        },
        // Fat all but gone after a night in the freezer, spirit clings to the cake; common practice,
        // no source.
        Process::FatWash {
            fat_removed: 0.98,
            held: range(0.1, 0.2, 0.4),
        },
        Process::Divide { part: 0.5 },
    ]
}

/// Processes in which something leaves as vapour or gas comes in.
fn cooking() -> Vec<Process> {
    vec![
        // A simmer of a few minutes with the lid half on; common practice, no source.
        Process::Heat {
            steam: range(0.02, 0.05, 0.1),
        },
        // By half, without the alcohol; common practice, no source.
        Process::Reduce {
            to: ReduceTo::Share(0.5),
            alcohol_left: 0.05,
        },
        // Final moisture of a fruit leather 15 to 22 % (from memory).
        Process::Dehydrate {
            to: DryTo::Moisture(range(0.15, 0.18, 0.22)),
        },
        // 3 bar at 0 to 2 °C (from memory), if that was meant as gauge pressure; half of the gas is
        // lost on opening and pouring (common practice, no source).
        Process::Carbonate {
            bar: 3.0,
            kept: range(0.4, 0.6, 0.8),
        },
        // Two to three times the volume in all from a siphon; common practice, no source.
        Process::Aerate {
            overrun: range(1.0, 1.5, 2.5),
        },
        Process::Rest,
    ]
}

/// Processes that take as much of something as they need.
fn adding() -> Vec<Process> {
    vec![
        // As sour as lime: 4 % citric and 2 % malic (published rule of 2014).
        Process::AdjustAcid {
            to: AcidProfile::Lime,
        },
        // A syrup of equal weights.
        Process::SweetenTo { brix: 50.0 },
        // One part of liquid to one of syrup.
        Process::Dilute {
            to: DiluteTo::Parts(1.0),
        },
        // 20 % saline is common, no source.
        Process::Stock { percent: 20.0 },
    ]
}
