//! Spirit washed with fat.

use super::process::{Worked, Wrong};
use super::process_field::{TAKES, grams, share, typical};
use super::process_release::{parted, together};
use super::stream::Stream;
use crate::model::{Range, StepFigureKind};
use crate::physics::component::Component;
use crate::physics::composition::Composition;

/// What of the fat's stream mixes with the spirit: water, alcohol and what dissolves. Milk solids of
/// butter and crumbs of nuts are strained off with the cake.
const fn mixes(component: Component) -> f64 {
    use Component as C;
    match component {
        C::Fat | C::Protein | C::Starch | C::Gum | C::Other => 0.0,
        _ => 1.0,
    }
}

/// Washes, chills and strains: the spirit, and the fat with what it holds.
pub(super) fn fat_wash(
    fat_removed: f64,
    held: &Range,
    taken: Vec<Stream>,
) -> Result<Worked, Wrong> {
    let removed = share("fat removed", fat_removed)?;
    let held = typical(StepFigureKind::HeldByFat, held)?;
    let (spirit, fats) = spirit_and_fat(&taken)?;
    let (mixed, cake) = parted(&fats, mixes);
    // The fat as such melts into the spirit and is taken off again by the share typed.
    let only_fat = |share: f64| move |c: Component| if c == Component::Fat { share } else { 0.0 };
    let (fat, solids) = parted(&cake, only_fat(1.0));
    let (off, washed) = parted(&(spirit.liquid + mixed + fat), only_fat(removed));
    let (asked, there) = (held * off.mass_g(), washed.mass_g());
    if asked > there {
        let (asked, there) = (grams(asked), grams(there));
        let reason = format!("the fat would hold {asked}, but there are only {there} of spirit");
        return Err((StepFigureKind::HeldByFat.name(), reason));
    }
    let stays = if there > 0.0 { asked / there } else { 0.0 };
    let made = vec![
        Stream {
            liquid: washed.scaled(1.0 - stays),
            ..Stream::default()
        },
        Stream {
            liquid: washed.scaled(stays),
            solid: spirit.solid + solids + off,
        },
    ];
    Ok(Worked {
        taken,
        made,
        ..Worked::default()
    })
}

/// The first stream, and all that the others hold.
fn spirit_and_fat(taken: &[Stream]) -> Result<(Stream, Composition), Wrong> {
    let Some((spirit, fats)) = taken.split_first().filter(|(_, fats)| !fats.is_empty()) else {
        let reason = "fat-wash also takes fat as its second stream: it is missing".to_owned();
        return Err((TAKES, reason));
    };
    let fats = together(fats).whole();
    let reason = if spirit.liquid.mass_g() <= 0.0 {
        "the first stream holds no liquid to wash"
    } else if fats[Component::Fat] <= 0.0 {
        "the second stream holds no fat"
    } else {
        return Ok((*spirit, fats));
    };
    Err((TAKES, reason.to_owned()))
}
