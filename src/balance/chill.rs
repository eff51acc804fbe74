//! What ice does to a drink: its water by rule, what cold things spare, the blender's equilibrium.

use super::calibration::rule_with;
use super::drink::Line;
use super::kernel::{Ice, Rule, Spare, serve};
use super::load::Load;
use crate::model::{Added, Chilling, Dilution, IceLeft, Method, OwnDilution, Place, Technique};
use crate::physics::composition::Composition;
use crate::physics::heat::mix_celsius;
use crate::physics::ice::{Warm, ice_heat_kj_per_kg};

/// Temperature of the room that the rules stand for, °C.
pub(crate) const ROOM_CELSIUS: f64 = Place::Room.celsius();
/// Temperature of what is topped up or floated unless told otherwise, °C (common practice, no
/// source).
pub(crate) const AFTER_CELSIUS: f64 = Place::Fridge.celsius();
/// Where the served temperature is looked for first, °C.
const FIRST_GUESS: f64 = -5.0;
/// Most rounds in which melt and served temperature settle: a handful from the fridge, some twenty
/// from the freezer.
const MOST_ROUNDS: usize = 60;
/// Where the served temperature has settled, °C.
const SETTLED: f64 = 1.0e-9;

/// True at the temperature that the rules stand for.
pub(super) fn is_room(celsius: f64) -> bool {
    (celsius - ROOM_CELSIUS).abs() < 1.0e-9
}

/// The usual heat capacity of a method's vessel, kJ/K (common practice, no source).
pub const fn usual_vessel_kj_per_k(method: Method) -> f64 {
    match method {
        Method::Shaken => 0.10,
        _ => 0.20,
    }
}

/// The usual power of a blender's blade, W, and how long it runs, s (common practice, no source).
pub const USUAL_BLADE: (f64, f64) = (300.0, 20.0);

/// Work of the blade, kJ; all of it goes into the drink.
pub(super) fn work_kj(technique: &Technique) -> f64 {
    if technique.method != Method::Blended {
        return 0.0;
    }
    let (watts, seconds) = USUAL_BLADE;
    technique.chilling.blade_watts.unwrap_or(watts)
        * technique.chilling.blade_seconds.unwrap_or(seconds)
        / 1000.0
}

/// What is chilled: the pours poured together, in their vessel.
pub(super) fn warm(lines: &[Line], technique: &Technique) -> Warm {
    let chilling = &technique.chilling;
    let parts: Vec<(Composition, f64)> = lines
        .iter()
        .filter(|line| line.added == Added::With)
        .map(|line| (line.contents.per_gram.scaled(line.grams()), line.celsius))
        .collect();
    let mut liquid = Composition::ZERO;
    for (part, _) in &parts {
        liquid += *part;
    }
    let even = parts.iter().all(|(_, celsius)| is_room(*celsius));
    Warm {
        liquid,
        celsius: if even {
            ROOM_CELSIUS
        } else {
            mix_celsius(&parts)
        },
        vessel_kj_per_k: chilling
            .vessel_kj_per_k
            .unwrap_or_else(|| usual_vessel_kj_per_k(technique.method)),
        vessel_celsius: chilling.vessel.celsius(),
        work_kj: work_kj(technique),
    }
}

/// What ice does to these pours.
pub(super) fn ice(lines: &[Line], technique: &Technique, own: Option<&OwnDilution>) -> Ice {
    let rule = match technique.dilution {
        Dilution::Fraction(fraction) => Rule::fraction(fraction),
        Dilution::IceGrams(grams) => Rule::WaterGrams(match technique.method {
            Method::Blended => blended_water(lines, technique, grams),
            _ => grams,
        }),
        Dilution::Weighed { before_g, after_g } if before_g > 0.0 => {
            Rule::MassFraction((after_g - before_g) / before_g)
        }
        Dilution::ByMethod | Dilution::Weighed { .. } => {
            let rule = rule_with(technique.method, own);
            return Ice {
                rule,
                spare: spare(lines, technique, rule),
            };
        }
    };
    Ice::by(rule)
}

/// Water that measured ice brings to the drink that is meant.
fn blended_water(lines: &[Line], technique: &Technique, ice_g: f64) -> f64 {
    match technique.chilling.ice_left {
        IceLeft::AllMelted => ice_g,
        IceLeft::AsDrunk => warm(lines, technique)
            .blended(ice_g, technique.chilling.ice_celsius)
            .map_or(ice_g, |with| with.melted_g.max(0.0)),
    }
}

/// What cold liquids, a cold vessel and cold ice spare; `None` when all is as the rule has it.
///
/// The heat they lack, over the heat that a gram of ice takes up until it is water at the served
/// temperature, is taken off the melt. That temperature is the present drink's and is held while
/// the solver moves pours: a degree of it changes that heat by that of the melt water, 4.2 of
/// 333 kJ/kg ([`ice_heat_kj_per_kg`]), and so the spared melt by 1.3 %.
fn spare(lines: &[Line], technique: &Technique, rule: Rule) -> Option<Spare> {
    let Chilling {
        vessel,
        ice_celsius,
        ..
    } = technique.chilling;
    let cold = |line: &Line| line.added == Added::With && !is_room(line.celsius);
    let nothing = ice_celsius >= 0.0 && vessel == Place::Room && !lines.iter().any(cold);
    if nothing || technique.method == Method::Blended || rule == Rule::None {
        return None;
    }
    let warm = warm(lines, technique);
    if warm.liquid.mass_g() <= 0.0 {
        return None;
    }
    let mut chilled = Load::ZERO;
    for line in lines.iter().filter(|line| line.added == Added::With) {
        chilled = chilled.plus_units(line.amount, &line.per_unit);
    }
    let vessel_kj = warm.vessel_kj_per_k * (ROOM_CELSIUS - warm.vessel_celsius);
    let mut end = FIRST_GUESS;
    let mut spare = None;
    for _ in 0..MOST_ROUNDS {
        let wet = ice_heat_kj_per_kg(0.0, end);
        let each = ice_heat_kj_per_kg(ice_celsius, end);
        let found = Spare {
            kept: wet / each,
            g_per_kj: 1000.0 / each,
            vessel_g: 1000.0 * vessel_kj / each,
        };
        spare = Some(found);
        let ice = Ice { rule, spare };
        let melt_g = serve(&chilled, &Load::ZERO, &ice).melt_g;
        let Some(next) = celsius_after(&warm, technique, melt_g) else {
            break;
        };
        let change = (next - end).abs();
        end = next;
        if change <= SETTLED {
            break;
        }
    }
    spare
}

/// Temperature of the chilled part once `melt_g` of ice has become water, °C.
///
/// A shaken drink reaches its own freezing point within 12 to 15 s (kitchen experiments published
/// 2009–2010), unless that takes more heat than so little melt takes up; elsewhere the heat balance
/// decides. `None` where nothing says how cold it is kept.
pub(super) fn celsius_after(warm: &Warm, technique: &Technique, melt_g: f64) -> Option<f64> {
    let ice_celsius = technique.chilling.ice_celsius;
    match technique.method {
        Method::Shaken if melt_g > 0.0 => {
            let mut diluted = warm.liquid;
            diluted += Composition::water(melt_g);
            let coldest = crate::physics::freezing::liquidus(&diluted)?.celsius;
            let balance = warm.stirred(melt_g, ice_celsius);
            Some(balance.map_or(coldest, |balance| balance.max(coldest)))
        }
        Method::Blended => warm
            .blended(ice_in_blender(technique, melt_g), ice_celsius)
            .map(|with| with.celsius),
        Method::Bottled => None,
        // Without ice it is as warm as what is poured, hot coffee included: nothing is said of it
        // unless something comes from the fridge.
        Method::NoIce => (!is_room(warm.celsius)).then_some(warm.celsius),
        _ => warm.stirred(melt_g, ice_celsius),
    }
}

/// Ice that goes into a blender, g: what was measured, else what its water is.
pub(super) const fn ice_in_blender(technique: &Technique, melt_g: f64) -> f64 {
    match technique.dilution {
        Dilution::IceGrams(grams) => grams,
        _ => melt_g,
    }
}
