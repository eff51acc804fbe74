//! Where liquids and vessels wait before they are used.

use serde::{Deserialize, Serialize};

/// Where something waits, and so how cold it is to begin with.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
pub enum Place {
    /// On the shelf, 20 °C.
    #[default]
    Room,
    /// In the fridge, 4 °C.
    Fridge,
    /// In the freezer, −18 °C.
    Freezer,
}

impl Place {
    /// Every place, warmest first.
    pub const ALL: [Self; 3] = [Self::Room, Self::Fridge, Self::Freezer];

    /// Temperature, °C (common practice, no source).
    pub const fn celsius(self) -> f64 {
        match self {
            Self::Room => 20.0,
            Self::Fridge => 4.0,
            Self::Freezer => -18.0,
        }
    }

    /// The word on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Room => "room",
            Self::Fridge => "fridge",
            Self::Freezer => "freezer",
        }
    }

    /// True for the place that needs no mention in a file.
    #[expect(
        clippy::trivially_copy_pass_by_ref,
        reason = "the serializer hands a reference"
    )]
    pub(super) fn is_room(&self) -> bool {
        *self == Self::Room
    }
}
