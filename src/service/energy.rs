//! Energy of a drink by the conversion factors of EU food law.

use super::error::ServiceError;
use crate::balance::{Drink, Pantry};
use crate::model::{Document, Trial};
use crate::physics::{Component, Composition};

/// Energy of a gram, kJ and kcal: Regulation (EU) No 1169/2011, Annex XIV.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EnergyFactor {
    /// What it is stated for, in the words of the annex.
    pub of: &'static str,
    /// kJ per g.
    pub kj_per_g: f64,
    /// kcal per g.
    pub kcal_per_g: f64,
}

const fn factor(of: &'static str, kj_per_g: f64, kcal_per_g: f64) -> EnergyFactor {
    EnergyFactor {
        of,
        kj_per_g,
        kcal_per_g,
    }
}

/// Carbohydrate except polyols.
const CARBOHYDRATE: EnergyFactor = factor("carbohydrate", 17.0, 4.0);
/// Polyols; glycerol is one.
const POLYOLS: EnergyFactor = factor("polyols", 10.0, 2.4);
/// Protein.
const PROTEIN: EnergyFactor = factor("protein", 17.0, 4.0);
/// Fat.
const FAT: EnergyFactor = factor("fat", 37.0, 9.0);
/// Alcohol (ethanol).
const ALCOHOL: EnergyFactor = factor("alcohol (ethanol)", 29.0, 7.0);
/// Organic acid.
const ORGANIC_ACID: EnergyFactor = factor("organic acid", 13.0, 3.0);
/// Fibre.
const FIBRE: EnergyFactor = factor("fibre", 8.0, 2.0);

/// What is taken how, where the figures of a row do not part what the annex does.
const TAKEN: [(Component, &str); 4] = [
    (
        Component::Starch,
        "starch and fibre stand in one figure and count as carbohydrate: too much where it is fibre",
    ),
    (
        Component::Gum,
        "gums count as fibre; gelatin among them is protein and has more",
    ),
    (
        Component::Other,
        "other dissolved solids count nothing: nobody says what they are",
    ),
    (
        Component::Phosphoric,
        "phosphoric acid is no organic acid and counts nothing",
    ),
];

/// The factor of a component; `None` for what brings no energy.
pub const fn energy_factor(component: Component) -> Option<EnergyFactor> {
    match component {
        Component::Sucrose
        | Component::Glucose
        | Component::Fructose
        | Component::Lactose
        | Component::Maltose
        | Component::Starch => Some(CARBOHYDRATE),
        Component::Glycerol => Some(POLYOLS),
        Component::Protein => Some(PROTEIN),
        Component::Fat => Some(FAT),
        Component::Ethanol => Some(ALCOHOL),
        Component::Citric
        | Component::Malic
        | Component::Tartaric
        | Component::Acetic
        | Component::Lactic
        | Component::Ascorbic
        | Component::Succinic => Some(ORGANIC_ACID),
        Component::Gum => Some(FIBRE),
        Component::Water | Component::Phosphoric | Component::Salt | Component::Other => None,
    }
}

/// What one group of components brings to a drink.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EnergyPart {
    /// The factor.
    pub factor: EnergyFactor,
    /// Grams in one drink.
    pub grams: f64,
}

/// Energy of a drink.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Energy {
    /// kJ in one drink.
    pub kj: f64,
    /// kcal in one drink; by its own factors, as the annex has it.
    pub kcal: f64,
    /// kJ in 100 ml as served.
    pub kj_per_100_ml: f64,
    /// kcal in 100 ml as served.
    pub kcal_per_100_ml: f64,
    /// What brings it, the most first.
    pub parts: Vec<EnergyPart>,
    /// What is taken how, in words.
    pub taken: Vec<&'static str>,
    /// Pours that are not counted, in words.
    pub uncounted: Vec<String>,
}

/// Energy of a composition, kJ and kcal.
pub fn energy_of(composition: &Composition) -> (f64, f64) {
    Component::ALL
        .into_iter()
        .fold((0.0, 0.0), |sum, component| {
            let grams = composition[component];
            energy_factor(component).map_or(sum, |factor| {
                (
                    sum.0 + grams * factor.kj_per_g,
                    sum.1 + grams * factor.kcal_per_g,
                )
            })
        })
}

/// Works out the energy of one drink as served. Fails where the trial cannot be resolved.
pub fn energy(document: &Document, trial: &Trial) -> Result<Energy, ServiceError> {
    let drink = Drink::of_trial(document, trial, &mut Pantry::default())?;
    let served = drink.served()?;
    let whole = in_the_drink(&drink);
    let (kj, kcal) = energy_of(&whole);
    let mut parts: Vec<EnergyPart> = Vec::new();
    for component in Component::ALL {
        let grams = whole[component];
        let Some(factor) = energy_factor(component).filter(|_| grams > 0.0) else {
            continue;
        };
        match parts.iter_mut().find(|part| part.factor.of == factor.of) {
            Some(part) => part.grams += grams,
            None => parts.push(EnergyPart { factor, grams }),
        }
    }
    parts.sort_by(|a, b| {
        let kj = |part: &EnergyPart| part.grams * part.factor.kj_per_g;
        kj(b).total_cmp(&kj(a))
    });
    let per_100_ml = 100.0 / served.volume_ml;
    let taken = TAKEN
        .iter()
        .filter(|(component, _)| whole[*component] > 0.0);
    Ok(Energy {
        kj,
        kcal,
        kj_per_100_ml: kj * per_100_ml,
        kcal_per_100_ml: kcal * per_100_ml,
        parts,
        taken: taken.map(|(_, words)| *words).collect(),
        uncounted: drink.uncounted,
    })
}

/// Everything that is in one drink but the water from ice.
pub(super) fn in_the_drink(drink: &Drink) -> Composition {
    let poured = drink.lines.iter();
    poured.fold(Composition::ZERO, |sum, line| {
        sum + line.contents.per_gram.scaled(line.grams())
    })
}
