//! A new step of each kind as it is usually done, for the menu that adds steps.

use super::usual_figures::usual_processes;
use crate::model::{Process, Step, Wait};

/// What a usual step looks like beside its figures.
struct Usual {
    /// Names of what it makes.
    to: &'static [&'static str],
    hands_on_min: f64,
    wait_min: (f64, f64),
    celsius: Option<f64>,
    equipment: &'static [&'static str],
    /// Share that stays in vessels and on tools.
    lost: f64,
}

/// One step for every process, in the order of the menu, without streams to take.
///
/// Figures, minutes and temperatures are usual ones, to be changed: times in ranges have their source
/// beside them, the rest is common practice, no source. The names of what it makes may be taken
/// already in a preparation.
pub fn usual_steps() -> Vec<Step> {
    usual_processes().into_iter().map(step).collect()
}

fn step(does: Process) -> Step {
    let usual = usual(&does);
    let words = |words: &[&str]| words.iter().map(|word| (*word).to_owned()).collect();
    let (least_min, most_min) = usual.wait_min;
    Step {
        does,
        from: Vec::new(),
        to: words(usual.to),
        lost: usual.lost,
        hands_on_min: usual.hands_on_min,
        wait: Wait {
            least_min,
            most_min,
        },
        celsius: usual.celsius,
        equipment: words(usual.equipment),
        note: String::new(),
    }
}

const HOUR: f64 = 60.0;
const DAY: f64 = 24.0 * HOUR;
/// A household fridge; cold food is held at 5 °C at most (Food Code 3-501.16).
const FRIDGE: Option<f64> = Some(4.0);
const FREEZER: Option<f64> = Some(-18.0);

const fn usual_of(
    to: &'static [&'static str],
    hands_on_min: f64,
    wait_min: (f64, f64),
    celsius: Option<f64>,
    equipment: &'static [&'static str],
) -> Usual {
    Usual {
        to,
        hands_on_min,
        wait_min,
        celsius,
        equipment,
        lost: 0.0,
    }
}

const NO_WAIT: (f64, f64) = (0.0, 0.0);

#[rustfmt::skip] // one line a process reads as the table it is
fn usual(process: &Process) -> Usual {
    use Process as P;
    match process {
        P::Combine => usual_of(&["mix"], 2.0, NO_WAIT, None, &["scale"]),
        P::Dissolve => usual_of(&["syrup"], 5.0, NO_WAIT, None, &["scale", "whisk"]),
        // Nuts 8 to 24 h, rice 3 to 12 h (six kitchen pages each, read).
        P::Soak { .. } => usual_of(&["soaked", "soaking liquid"], 5.0, (8.0 * HOUR, 24.0 * HOUR), FRIDGE, &["bowl"]),
        // Fresh fruit in spirit 1 to 14 days, dried herbs far less (common practice, no source).
        P::Infuse { .. } => usual_of(&["infusion"], 10.0, (DAY, 14.0 * DAY), Some(20.0), &["jar"]),
        P::Blend { .. } => Usual { lost: 0.02, ..usual_of(&["purée"], 5.0, NO_WAIT, None, &["blender"]) },
        P::FreezeThaw { .. } => usual_of(&["thawed"], 5.0, (DAY, 3.0 * DAY), FREEZER, &["freezer"]),
        // 1 to 24 h (common practice, no source).
        P::SugarOnPeel { .. } => usual_of(&["oil sugar", "spent peel"], 15.0, (HOUR, 24.0 * HOUR), Some(20.0), &["peeler", "muddler"]),
        P::Strain { .. } => usual_of(&["liquid", "solids"], 10.0, (0.0, HOUR), None, &["sieve", "cloth"]),
        P::Press { .. } => usual_of(&["liquid", "press cake"], 10.0, NO_WAIT, None, &["cloth", "press"]),
        P::Juice { .. } => usual_of(&["juice", "pulp"], 10.0, NO_WAIT, None, &["juicer"]),
        // About half an hour to an hour for the quick method (published method of 2010).
        P::Clarify { .. } => usual_of(&["clear", "raft"], 20.0, (0.5 * HOUR, HOUR), None, &["scale", "pan", "sieve", "cloth"]),
        // Contact 3 to 24 h and freezing 6 to 24 h (five recipe pages, read).
        P::FatWash { .. } => usual_of(&["washed spirit", "fat"], 15.0, (9.0 * HOUR, 48.0 * HOUR), FREEZER, &["pan", "freezer", "sieve", "paper filter"]),
        P::Divide { .. } => usual_of(&["part", "rest"], 2.0, NO_WAIT, None, &["scale"]),
        P::Heat { .. } => usual_of(&["heated"], 10.0, (0.0, 10.0), Some(90.0), &["pan", "thermometer"]),
        P::Reduce { .. } => usual_of(&["reduction"], 5.0, (20.0, HOUR), Some(100.0), &["pan", "scale"]),
        // Fruit leather 4 to 10 h at 57 to 63 °C (an extension service's recipe and two appliance
        // manuals, read).
        P::Dehydrate { .. } => usual_of(&["dried"], 15.0, (4.0 * HOUR, 10.0 * HOUR), Some(60.0), &["dehydrator", "tray"]),
        P::Carbonate { .. } => usual_of(&["sparkling"], 5.0, (10.0, 2.0 * HOUR), Some(2.0), &["carbonation rig", "pressure-rated bottle"]),
        P::Aerate { .. } => usual_of(&["foam"], 5.0, (0.0, HOUR), FRIDGE, &["siphon", "charger"]),
        P::Rest => usual_of(&["rested"], 0.0, (HOUR, DAY), FRIDGE, &[]),
        P::AdjustAcid { .. } => usual_of(&["adjusted"], 5.0, NO_WAIT, None, &["scale", "whisk"]),
        P::SweetenTo { .. } => usual_of(&["sweetened"], 5.0, NO_WAIT, None, &["scale", "whisk"]),
        P::Dilute { .. } => usual_of(&["diluted"], 2.0, NO_WAIT, None, &["scale"]),
        P::Stock { .. } => usual_of(&["stock"], 5.0, NO_WAIT, None, &["scale", "dropper bottle"]),
    }
}
