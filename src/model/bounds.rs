//! What proposals must keep: bounds of the drink as a whole, each on or off.

use serde::{Deserialize, Serialize};

/// One figure of the drink and how low and high proposals may take it.
///
/// Switched off it keeps its numbers and binds nothing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Bound {
    /// Proposals keep it.
    pub on: bool,
    /// Smallest value; none when blank.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub least: Option<f64>,
    /// Largest value; none when blank.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub most: Option<f64>,
}

impl Bound {
    /// The smallest value that counts: −∞ when off or blank.
    pub const fn low(&self) -> f64 {
        match self.least {
            Some(least) if self.on => least,
            _ => f64::NEG_INFINITY,
        }
    }

    /// The largest value that counts: +∞ when off or blank.
    pub const fn high(&self) -> f64 {
        match self.most {
            Some(most) if self.on => most,
            _ => f64::INFINITY,
        }
    }

    /// Whether it keeps anything from happening.
    pub const fn binds(&self) -> bool {
        self.on && (self.least.is_some() || self.most.is_some())
    }
}

/// Figures of a drink that can be bounded.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Bounded {
    /// Served volume, ml.
    ServedVolume,
    /// Strength as served, % vol.
    Strength,
    /// Pure alcohol, g.
    Alcohol,
    /// Cost of the pours whose price is known, in the document's currency.
    Cost,
    /// Number of pours that bring something.
    Pours,
}

impl Bounded {
    /// Every figure, in the order of the screen.
    pub const ALL: [Self; 5] = [
        Self::ServedVolume,
        Self::Strength,
        Self::Alcohol,
        Self::Cost,
        Self::Pours,
    ];

    /// The words on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::ServedVolume => "served volume",
            Self::Strength => "strength",
            Self::Alcohol => "pure alcohol",
            Self::Cost => "cost",
            Self::Pours => "number of pours",
        }
    }

    /// Unit of the figures; blank for the document's currency and for counts.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::ServedVolume => "ml",
            Self::Strength => "% vol",
            Self::Alcohol => "g",
            Self::Cost | Self::Pours => "",
        }
    }
}

/// What proposals of a spec must keep.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Bounds {
    /// Served volume, ml.
    #[serde(skip_serializing_if = "is_blank")]
    pub served_ml: Bound,
    /// Strength as served, % vol.
    #[serde(skip_serializing_if = "is_blank")]
    pub strength_pct_vol: Bound,
    /// Pure alcohol, g.
    #[serde(skip_serializing_if = "is_blank")]
    pub alcohol_g: Bound,
    /// Cost of the pours whose price is known, in the document's currency.
    #[serde(skip_serializing_if = "is_blank")]
    pub cost: Bound,
    /// Number of pours that bring something.
    #[serde(skip_serializing_if = "is_blank")]
    pub pours: Bound,
    /// The drink fits its glass beside the ice in it.
    #[serde(skip_serializing_if = "core::ops::Not::not")]
    pub glass: bool,
    /// Proposals bring pours that lie beyond their limits now within them. Said of rules while a
    /// question is asked; never a part of a document.
    #[serde(skip)]
    pub firm: bool,
    /// Proposals bring jiggered pours that lie between two notches onto one; likewise.
    #[serde(skip)]
    pub on_notch: bool,
}

fn is_blank(bound: &Bound) -> bool {
    *bound == Bound::default()
}

impl Bounds {
    /// No bounds at all.
    pub fn is_blank(&self) -> bool {
        *self == Self::default()
    }

    /// The bound of a figure.
    pub const fn of(&self, figure: Bounded) -> &Bound {
        match figure {
            Bounded::ServedVolume => &self.served_ml,
            Bounded::Strength => &self.strength_pct_vol,
            Bounded::Alcohol => &self.alcohol_g,
            Bounded::Cost => &self.cost,
            Bounded::Pours => &self.pours,
        }
    }

    /// The bound of a figure, to change.
    pub const fn of_mut(&mut self, figure: Bounded) -> &mut Bound {
        match figure {
            Bounded::ServedVolume => &mut self.served_ml,
            Bounded::Strength => &mut self.strength_pct_vol,
            Bounded::Alcohol => &mut self.alcohol_g,
            Bounded::Cost => &mut self.cost,
            Bounded::Pours => &mut self.pours,
        }
    }
}
