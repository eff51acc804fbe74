//! Juice pressed out of fruit, and the pulp that is left.

use super::contents::Contents;
use super::process::{Worked, Wrong};
use super::process_field::{RELEASED, TAKES, grams, release as checked, typical};
use super::process_release::{class_share, parted, together};
use super::stream::Stream;
use super::supply::Supplies;
use crate::model::{IngredientId, Range, Release, StepFigureKind};
use crate::physics::component::Component;
use crate::physics::composition::Composition;
use crate::units::percent;

/// Juice may hold more of a component than its fruit by this share of the fruit's mass: rounding.
const ROUNDING: f64 = 1e-12;

const FEW_SALTS: &str = "The fruit's figures hold fewer salts than its juice: the pulp's pH is not to \
                         be trusted.";

/// Juices.
pub(super) fn juice(
    yielded: &Range,
    release: &Release,
    like: Option<&IngredientId>,
    taken: Vec<Stream>,
    supplies: &Supplies,
) -> Result<Worked, Wrong> {
    let yielded = typical(StepFigureKind::Juice, yielded)?;
    checked(RELEASED, release)?;
    let fruit = together(&taken).whole();
    if fruit.mass_g() <= 0.0 {
        return Err((TAKES, "there is nothing to juice".to_owned()));
    }
    let juice_g = yielded * fruit.mass_g();
    let (juice, pulp) = match like {
        Some(id) => like_known(&fruit, known(id, supplies)?, juice_g)?,
        None => run(&fruit, release, juice_g)?,
    };
    let lacks_salts = pulp.cation_mmol < 0.0 && fruit.cation_mmol >= 0.0;
    let made = vec![
        Stream {
            liquid: juice,
            ..Stream::default()
        },
        Stream {
            solid: pulp,
            ..Stream::default()
        },
    ];
    Ok(Worked {
        taken,
        made,
        remarks: lacks_salts
            .then(|| FEW_SALTS.to_owned())
            .into_iter()
            .collect(),
        ..Worked::default()
    })
}

fn known<'a>(id: &IngredientId, supplies: &'a Supplies) -> Result<&'a Contents, Wrong> {
    let known = supplies.likes.get(id);
    let known = known.ok_or_else(|| ("like", format!("unknown ingredient \"{id}\"")))?;
    Ok(known)
}

/// Water runs until the juice has its mass; everything else as easily as its class does beside water.
fn run(
    fruit: &Composition,
    release: &Release,
    juice_g: f64,
) -> Result<(Composition, Composition), Wrong> {
    let ease = |component: Component| match component {
        Component::Water | Component::Ethanol => 1.0,
        _ => class_share(release, component),
    };
    let can_run: f64 = Component::ALL.iter().map(|c| fruit[*c] * ease(*c)).sum();
    if juice_g > can_run {
        let share = percent(can_run / fruit.mass_g(), 1);
        let (asked, there) = (grams(juice_g), grams(can_run));
        let reason = format!("{asked} of juice, but only {there} can run out: at most {share}");
        return Err((StepFigureKind::Juice.name(), reason));
    }
    let run = if can_run > 0.0 {
        juice_g / can_run
    } else {
        0.0
    };
    Ok(parted(fruit, |component| run * ease(component)))
}

/// The juice is as known; the pulp is what is left of the fruit.
fn like_known(
    fruit: &Composition,
    known: &Contents,
    juice_g: f64,
) -> Result<(Composition, Composition), Wrong> {
    let mut juice = known.per_gram.scaled(juice_g);
    // A still juice runs out of fruit, even where the known one is bottled with gas.
    juice.co2_g = 0.0;
    let rounding = ROUNDING * fruit.mass_g();
    let missing = |component: &Component| juice[*component] - fruit[*component];
    let worst = Component::ALL
        .into_iter()
        .filter(|component| missing(component) > rounding)
        .max_by(|one, other| missing(one).total_cmp(&missing(other)));
    if let Some(component) = worst {
        let (asked, there) = (grams(juice[component]), grams(fruit[component]));
        let (name, more) = (component.name(), grams(missing(&component)));
        return Err((
            "like",
            format!(
                "the juice would hold {asked} of {name} and the fruit only {there}, {more} less: \
                 choose no known juice, or correct the fruit's figures or the juice's share"
            ),
        ));
    }
    let mut pulp = *fruit;
    for component in Component::ALL {
        juice[component] = juice[component].min(fruit[component]);
        pulp[component] = fruit[component] - juice[component];
    }
    pulp.cation_mmol -= juice.cation_mmol;
    pulp.excess_ml -= juice.excess_ml;
    Ok((juice, pulp))
}
