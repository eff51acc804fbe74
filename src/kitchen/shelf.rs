//! How a liquid keeps: a shelf-life class from water activity, pH and strength.
//!
//! Limits are those of 21 CFR 114.3 and of the interaction tables in the definition of food that
//! needs time and temperature control, FDA Food Code 1-201.10(B): table B for what is neither
//! heat-treated nor packaged, table A for what is both. A class is about germs that make ill;
//! yeasts, moulds, light and air spoil a drink long before. For wines predicted water
//! activity runs about 0.012 high, which errs on the careful side; for syrups it may be 0.01 low.

use crate::physics::water_activity::{WaterActivity, water_activity};
use crate::physics::{Component, Composition};
use crate::units::{number, percent_vol};

/// Words that end every statement about keeping.
pub const CAUTION: &str = "A guide, not a safety approval: follow the local food code, and have a \
                           competent person validate a process before anything is sold on it.";

/// Strength from which spirits and liqueurs keep outside the fridge, % vol (common practice, no
/// source).
pub(super) const STRONG_PCT_VOL: f64 = 20.0;
/// Water activity up to which 21 CFR 114.3 counts nothing as of low acidity.
pub(super) const DRY: f64 = 0.85;
/// Water activity below which table B asks for no pH.
const DRY_UNHEATED: f64 = 0.88;
/// pH below which table B asks for no water activity.
const SOUR_UNHEATED: f64 = 4.2;
/// Highest water activity and pH, both together, of the rest of table B.
const UNHEATED: [(f64, f64); 2] = [(0.90, 5.0), (0.92, 4.6)];
/// Highest water activity and pH, both together, of table A.
const HEATED: [(f64, f64); 3] = [(0.92, f64::INFINITY), (0.95, 5.6), (f64::INFINITY, 4.6)];
/// Protein from which a drink is taken to hold juice, milk, egg or nuts, g per 100 g (our
/// convention).
const FRESH_PROTEIN: f64 = 0.1;

const ACIDIFIED: &str = "21 CFR 114.3";
const TABLE_A: &str = "Food Code 1-201.10(B) table A";
const TABLE_B: &str = "Food Code 1-201.10(B) table B";
const COLD_HOLDING: &str = "Food Code 3-501.16 and 3-501.17";
const PRACTICE: &str = "common practice, no source";

/// How a liquid keeps.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum ShelfClass {
    /// Strong enough, and without protein.
    Strong,
    /// Too little free water for any germ that makes ill.
    Dry,
    /// Acid, or acid and sugar together, are enough against such germs without heat treatment.
    Acid,
    /// Enough only for what is heat-treated and packaged; else as [`Self::Cold`].
    IfHeated,
    /// Neither: keep it cold and use it soon.
    Cold,
}

impl ShelfClass {
    /// Every class, the longest-keeping first.
    pub const ALL: [Self; 5] = [
        Self::Strong,
        Self::Dry,
        Self::Acid,
        Self::IfHeated,
        Self::Cold,
    ];

    /// Kept by strength, or by sugar and dryness, so that the life of what is in it does not bind it.
    pub const fn is_lasting(self) -> bool {
        matches!(self, Self::Strong | Self::Dry)
    }

    /// The words on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Strong => "kept by its strength",
            Self::Dry => "kept by sugar or dryness",
            Self::Acid => {
                "acid holds back germs that make ill; yeast and mould still spoil it, so keep it cold"
            }
            Self::IfHeated => "keeps only if heat-treated and packaged; else keep cold",
            Self::Cold => "keep cold and use soon",
        }
    }
}

/// How a liquid keeps, and why.
#[derive(Clone, Debug, PartialEq)]
pub struct Shelf {
    /// The class.
    pub class: ShelfClass,
    /// Water activity at 25 °C; `None` without water.
    pub water_activity: Option<WaterActivity>,
    /// pH, as it was given.
    pub ph: Option<f64>,
    /// Strength, % vol.
    pub strength_pct_vol: f64,
    /// Each limit that decided, with its figure and its source, in words.
    pub reasons: Vec<String>,
}

/// Works out how a liquid keeps; without a pH it is taken to be of low acidity.
///
/// Show [`CAUTION`] beside it.
pub fn shelf_class(composition: &Composition, ph: Option<f64>) -> Shelf {
    let water_activity = water_activity(composition);
    let strength_pct_vol = composition.percent_vol();
    let protein_pct = 100.0 * composition[Component::Protein] / composition.mass_g().max(1.0e-9);
    let fresh = protein_pct >= FRESH_PROTEIN;
    let (class, reason) = if strength_pct_vol >= STRONG_PCT_VOL && !fresh {
        let limit = percent_vol(STRONG_PCT_VOL);
        let reason = format!("{limit} or more keeps without a fridge ({PRACTICE})");
        (ShelfClass::Strong, reason)
    } else {
        by_water_and_acid(water_activity.map(|found| found.activity), ph)
    };
    let mut reasons = vec![reason];
    if ph.is_none() && class != ShelfClass::Strong {
        reasons.push("the pH is not known, so it is taken to be of low acidity".to_owned());
    }
    if water_activity.is_some_and(|found| !found.in_range) {
        reasons.push("water activity lies outside the range of its formula".to_owned());
    }
    if matches!(class, ShelfClass::IfHeated | ShelfClass::Cold) {
        reasons.push(format!(
            "hold at 5 °C or below and use within 7 days, the day it is made included \
             ({COLD_HOLDING})"
        ));
    }
    // What is dry holds its protein without being fresh.
    if fresh && class != ShelfClass::Dry {
        reasons.push(fresh_words(protein_pct));
    }
    Shelf {
        class,
        water_activity,
        ph,
        strength_pct_vol,
        reasons,
    }
}

/// What to say of a drink that holds fresh juice, milk, egg or nuts.
fn fresh_words(protein_pct: f64) -> String {
    format!(
        "holds {} % protein, as fresh juice, milk, cream, egg and nut or grain drinks do: strength \
         is not counted on; chill at once, name the allergens, and use pasteurised egg for people \
         at risk (Food Code 3-801.11, number from memory)",
        number(protein_pct, 1)
    )
}

/// The class that water activity and pH give, with the limit that decided.
fn by_water_and_acid(activity: Option<f64>, ph: Option<f64>) -> (ShelfClass, String) {
    let Some(activity) = activity else {
        let reason = "holds no water; what is steeped in it may bring some";
        return (ShelfClass::Dry, reason.to_owned());
    };
    let shown = number(activity, 3);
    if activity <= DRY {
        let limit = number(DRY, 2);
        let reason = format!("water activity {shown} is at or below {limit} ({ACIDIFIED})");
        return (ShelfClass::Dry, reason);
    }
    if let Some(ph) = ph.filter(|ph| *ph < SOUR_UNHEATED) {
        let (ph, limit) = (number(ph, 2), number(SOUR_UNHEATED, 1));
        let reason = format!("pH {ph} is below {limit} ({TABLE_B})");
        return (ShelfClass::Acid, reason);
    }
    if activity < DRY_UNHEATED {
        let (limit, sealed) = (number(DRY_UNHEATED, 2), number(DRY, 2));
        let reason = format!(
            "water activity {shown} is below {limit} ({TABLE_B}); in a sealed container {ACIDIFIED} \
             asks for {sealed} or a pH of 4.6"
        );
        return (ShelfClass::Dry, reason);
    }
    let sour = ph.unwrap_or(f64::INFINITY);
    for (class, limits, table) in [
        (ShelfClass::Acid, UNHEATED.as_slice(), TABLE_B),
        (ShelfClass::IfHeated, HEATED.as_slice(), TABLE_A),
    ] {
        let mut rows = limits.iter();
        if let Some(row) = rows.find(|(most, most_ph)| activity <= *most && sour <= *most_ph) {
            return (class, table_words(&shown, ph, *row, table));
        }
    }
    let acid = ph.map_or_else(String::new, |ph| format!(" with pH {}", number(ph, 2)));
    let reason = format!("water activity {shown}{acid} meets no row of {TABLE_A}");
    (ShelfClass::Cold, reason)
}

/// The row of a table that a drink meets, in words.
fn table_words(activity: &str, ph: Option<f64>, row: (f64, f64), table: &str) -> String {
    let (most, most_ph) = row;
    let mut parts = Vec::new();
    if most.is_finite() {
        let limit = number(most, 2);
        parts.push(format!("water activity {activity} is within {limit}"));
    }
    if let Some(ph) = ph.filter(|_| most_ph.is_finite()) {
        parts.push(format!(
            "pH {} is within {}",
            number(ph, 2),
            number(most_ph, 1)
        ));
    }
    format!("{} ({table})", parts.join(" and "))
}
