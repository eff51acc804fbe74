//! How much of a thickener, gelling or foaming agent is usual.

use super::kinds::is_kind;
use super::words::has_word;
use crate::model::Ingredient;

/// What a dose is a share of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DoseOf {
    /// The mass of the whole drink as served.
    Drink,
    /// The mass of the syrup it is dissolved in.
    Syrup,
}

impl DoseOf {
    /// The words on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Drink => "of the served drink",
            Self::Syrup => "of the syrup",
        }
    }
}

/// The usual dose of a hydrocolloid or foaming agent; a working range, not a limit of safety.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DoseRange {
    /// What it is, and what the dose is for.
    pub name: &'static str,
    /// Below it hardly anything happens, % by weight.
    pub low_pct: f64,
    /// Above it the drink turns thick, slimy or stiff, % by weight.
    pub high_pct: f64,
    /// What the per cent are a share of.
    pub of: DoseOf,
    /// Where the figures were found.
    pub source: &'static str,
}

/// A usage guide sheet and a page of a cook, read in copies; key `DOSE` of the sources.
const GUIDE: &str = "usage guide sheet for hydrocolloids, read in a copy";
const MEMORY: &str = "from memory, no source";
const PRACTICE: &str = "common practice, no source";

/// A dose in % by weight of the drink.
const fn dose(
    name: &'static str,
    (low_pct, high_pct): (f64, f64),
    source: &'static str,
) -> DoseRange {
    DoseRange {
        name,
        low_pct,
        high_pct,
        of: DoseOf::Drink,
        source,
    }
}

/// Words of a name that tell what it is, any of which will do, with its dose.
const DOSES: [(&[&str], DoseRange); 14] = [
    (&["xanthan"], dose("xanthan gum", (0.05, 0.5), GUIDE)),
    (&["guar"], dose("guar gum", (0.2, 1.0), GUIDE)),
    (
        &["locust", "carob"],
        dose("locust bean gum", (0.1, 0.5), GUIDE),
    ),
    (&["agar"], dose("agar, for a gel", (0.2, 2.0), GUIDE)),
    (&["carrageenan"], dose("carrageenan", (0.2, 1.5), GUIDE)),
    (&["alginate"], dose("sodium alginate", (0.5, 1.0), GUIDE)),
    (
        &["pectin"],
        dose("pectin, in much sugar", (0.5, 1.5), GUIDE),
    ),
    (
        &["gelatin", "gelatine"],
        dose("gelatin", (0.6, 1.7), MEMORY),
    ),
    (
        &["arabic", "acacia"],
        DoseRange {
            of: DoseOf::Syrup,
            ..dose("gum arabic", (2.0, 8.0), PRACTICE)
        },
    ),
    (
        &["lecithin"],
        dose("lecithin, for a foam", (0.3, 0.8), MEMORY),
    ),
    (
        &["methylcellulose"],
        dose("methylcellulose, for a foam", (0.5, 2.0), MEMORY),
    ),
    (
        &["sucroester", "sucrose"],
        dose("sucrose ester, for a foam", (0.3, 1.0), MEMORY),
    ),
    (
        &["gellan"],
        dose("gellan, to clear a drink", (0.1, 0.2), MEMORY),
    ),
    (
        &["chitosan"],
        dose("chitosan, to clear a drink", (0.1, 0.2), MEMORY),
    ),
];

/// Words of a name that is no thickener as it stands, though it may name one.
const NOT_ALONE: [&str; 4] = ["syrup", "sugar", "sucrose", "free"];

/// The usual dose of a hydrocolloid, recognised by the words of its name.
///
/// An ingredient without a kind may be one too. `None` for any other kind of ingredient, and where no
/// range is known.
pub fn dose_range(item: &Ingredient) -> Option<DoseRange> {
    let unsaid = is_kind(item, "") && !NOT_ALONE.iter().any(|word| has_word(&item.name, word));
    if !is_kind(item, "hydrocolloid") && !unsaid {
        return None;
    }
    DOSES
        .iter()
        .find(|(words, _)| words.iter().any(|word| has_word(&item.name, word)))
        .map(|(_, range)| *range)
}
