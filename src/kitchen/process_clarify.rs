//! Cloud taken out of a liquid with agar, gelatin, milk, egg white or by settling.

use super::process::{Taken, Worked, Wrong};
use super::process_field::{TAKES, amount, release as checked, typical};
use super::process_release::{class_share, parted, together};
use super::stream::Stream;
use crate::model::{Clarifier, Range, Release, StepFigureKind};
use crate::physics::composition::Composition;
use crate::units::percent;

/// Usual doses of agar, share of the mass in all: 0.002 is the published dose of the quick method
/// (2010), acid liquids take up to 0.013 (published); the lower end is a tenth less, our convention.
const AGAR: (f64, f64) = (0.0018, 0.013);
/// Usual doses of gelatin that is frozen and thawed, share of the mass in all: about 0.005 (from
/// memory, half to one and a half times that our convention).
const GELATIN: (f64, f64) = (0.0025, 0.0075);
/// Usual shares of milk, by volume of the batch: two published recipes; the ends a hair wider, so that
/// rounded amounts do not count.
const MILK: (f64, f64) = (0.155, 0.205);

/// Clears a liquid; everything that is taken out goes to the second stream with all solids.
///
/// The second stream is the agent; its part that is not taken out stays in the liquid, as whey does.
pub(super) fn clarify(
    with: Clarifier,
    dose_pct: f64,
    takes_out: &Release,
    held_back: &Range,
    taken: &[Taken],
) -> Result<Worked, Wrong> {
    let held_back = typical(StepFigureKind::HeldBack, held_back)?;
    checked("taken out", takes_out)?;
    let dose = amount("dose", dose_pct)? / 100.0;
    let taken = with_agent(with, dose, taken)?;
    let whole = together(&taken);
    if whole.liquid.mass_g() <= 0.0 {
        return Err((TAKES, "there is no liquid to clear".to_owned()));
    }
    let (out, clear) = parted(&whole.liquid, |c| class_share(takes_out, c));
    let made = vec![
        Stream {
            liquid: clear.scaled(1.0 - held_back),
            solid: Composition::ZERO,
        },
        Stream {
            liquid: clear.scaled(held_back),
            solid: whole.solid + out,
        },
    ];
    let remarks = taken.get(1).and_then(|agent| unusual(with, agent, &whole));
    Ok(Worked {
        taken,
        made,
        remarks: remarks.into_iter().collect(),
        ..Worked::default()
    })
}

/// All streams, the agent weighed by its dose where it is taken as needed.
fn with_agent(with: Clarifier, dose: f64, taken: &[Taken]) -> Result<Vec<Stream>, Wrong> {
    if with != Clarifier::Settling && taken.len() < 2 {
        let agent = name(with);
        let reason = format!("clarify also takes {agent} as its second stream: it is missing");
        return Err((TAKES, reason));
    }
    let mut rest_g = 0.0;
    for (place, one) in taken.iter().enumerate() {
        match one {
            Taken::Stream(stream) if place != 1 => rest_g += stream.mass_g(),
            Taken::AsNeeded(_) if place != 1 => {
                let reason = "only the second stream of clarify can be as needed".to_owned();
                return Err((TAKES, reason));
            }
            _ => {}
        }
    }
    let weighed = taken.iter().map(|one| match one {
        Taken::Stream(stream) => *stream,
        Taken::AsNeeded(supply) => supply.poured(dose * rest_g),
    });
    Ok(weighed.collect())
}

const fn name(with: Clarifier) -> &'static str {
    match with {
        Clarifier::Agar => "agar",
        Clarifier::Gelatin => "gelatin",
        Clarifier::Milk => "milk",
        Clarifier::Egg => "egg white",
        Clarifier::Settling => "what settles",
    }
}

/// What to say of a dose outside of what is usual.
fn unusual(with: Clarifier, agent: &Stream, whole: &Stream) -> Option<String> {
    let (share, (low, high), words) = match with {
        Clarifier::Agar => (
            agent.mass_g() / whole.mass_g(),
            AGAR,
            "0.2 % of the whole mass is usual, up to 1.3 % in acid liquids (published recipes)",
        ),
        Clarifier::Gelatin => (
            agent.mass_g() / whole.mass_g(),
            GELATIN,
            "about 0.5 % of the whole mass is usual (from memory)",
        ),
        Clarifier::Milk => (
            agent.whole().volume_ml() / whole.whole().volume_ml(),
            MILK,
            "16 to 20 % of the whole volume are usual (published recipes)",
        ),
        Clarifier::Egg | Clarifier::Settling => return None,
    };
    let is_usual = (low..=high).contains(&share);
    let (shown, agent) = (percent(share, 2), name(with));
    (!is_usual).then(|| format!("The dose of {agent} is {shown}; {words}."))
}
