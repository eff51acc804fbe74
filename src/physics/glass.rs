//! The inside of a glass: how deep it is and how high a volume stands in it.
//!
//! Bodies of revolution in closed form but for the bowl, whose depth is a cubic. Lengths in mm, volumes
//! in ml (1 ml = 1000 mm³). Walls are taken as smooth, without the thickness of a foot or a moulded
//! floor.

use super::root::bracketed_root;
use core::f64::consts::PI;

/// mm³ in a ml.
const MM3: f64 = 1000.0;
/// How exactly a depth is solved for, mm.
const EXACT_MM: f64 = 1.0e-10;
/// Radii closer than this share are upright walls.
const UPRIGHT: f64 = 1.0e-6;

/// How the inside runs from the rim down, with the inner radius at the rim, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Inside {
    /// Upright walls on a flat floor.
    Straight {
        /// Radius, mm.
        rim: f64,
    },
    /// Walls that narrow to a flat floor, or widen to it.
    Tapered {
        /// Radius at the rim, mm.
        rim: f64,
        /// Radius of the floor, mm.
        floor: f64,
    },
    /// A point at the bottom.
    Cone {
        /// Radius at the rim, mm.
        rim: f64,
    },
    /// Part of a sphere, more than half of it where it is deeper than the radius at the rim.
    Bowl {
        /// Radius at the rim, mm.
        rim: f64,
    },
}

/// A glass of known shape that holds a known volume to the brim.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Vessel {
    inside: Inside,
    brim_mm3: f64,
    depth_mm: f64,
}

impl Vessel {
    /// The glass that holds `brim_ml` to the brim; `None` where volume or radius is not above 0 or not
    /// finite, and for a floor below 0.
    pub fn new(inside: Inside, brim_ml: f64) -> Option<Self> {
        let brim_mm3 = brim_ml * MM3;
        let is_size = |value: f64| value.is_finite() && value > 0.0;
        let (rim, floor) = match inside {
            Inside::Straight { rim } | Inside::Cone { rim } | Inside::Bowl { rim } => (rim, 0.0),
            Inside::Tapered { rim, floor } => (rim, floor),
        };
        let is_floor = floor.is_finite() && floor >= 0.0;
        if !(is_size(brim_mm3) && is_size(rim) && is_floor) {
            return None;
        }
        let depth_mm = match inside {
            Inside::Straight { rim } => brim_mm3 / (PI * rim * rim),
            Inside::Tapered { rim, floor } => frustum_depth(rim, floor, brim_mm3),
            Inside::Cone { rim } => frustum_depth(rim, 0.0, brim_mm3),
            Inside::Bowl { rim } => cap_depth(rim, brim_mm3)?,
        };
        Some(Self {
            inside,
            brim_mm3,
            depth_mm,
        })
    }

    /// From the rim to the lowest point, mm.
    pub const fn depth_mm(&self) -> f64 {
        self.depth_mm
    }

    /// How high a volume stands above the lowest point, mm; at most to the rim, at least 0.
    pub fn height_mm(&self, ml: f64) -> f64 {
        let volume = (ml * MM3).clamp(0.0, self.brim_mm3);
        let depth = self.depth_mm;
        let height = match self.inside {
            Inside::Straight { .. } => depth * volume / self.brim_mm3,
            Inside::Tapered { rim, floor } => frustum_height((rim, floor), depth, volume),
            Inside::Cone { .. } => depth * (volume / self.brim_mm3).cbrt(),
            Inside::Bowl { rim } => cap_height(rim, depth, volume),
        };
        height.clamp(0.0, depth)
    }

    /// How far below the rim a volume stands, mm; 0 for what runs over.
    pub fn below_rim_mm(&self, ml: f64) -> f64 {
        self.depth_mm - self.height_mm(ml)
    }
}

/// V = πH(r² + rf + f²)/3.
fn frustum_depth(rim: f64, floor: f64, volume: f64) -> f64 {
    3.0 * volume / (PI * (rim * rim + rim * floor + floor * floor))
}

/// With ρ = f + (r − f)h/H: V(h) = πH(ρ³ − f³)/(3(r − f)).
fn frustum_height((rim, floor): (f64, f64), depth: f64, volume: f64) -> f64 {
    let widens = rim - floor;
    if widens.abs() <= UPRIGHT * rim {
        return volume / (PI * rim * floor);
    }
    let radius = (floor.powi(3) + 3.0 * widens * volume / (PI * depth)).cbrt();
    depth * (radius - floor) / widens
}

/// V = πH(3a² + H²)/6, which rises with H.
fn cap_depth(rim: f64, volume: f64) -> Option<f64> {
    let difference = |depth: f64| {
        let value = PI * depth * (3.0 * rim * rim + depth * depth) / 6.0 - volume;
        (value, PI * (rim * rim + depth * depth) / 2.0)
    };
    // Either summand alone makes it too deep.
    let flat = 2.0 * volume / (PI * rim * rim);
    let most = flat.min((6.0 * volume / PI).cbrt());
    bracketed_root(0.0, most * (1.0 + 1.0e-9), most, EXACT_MM, difference)
}

/// With R = (a² + H²)/2H: V(h) = πh²(3R − h)/3, which rises up to 2R.
fn cap_height(rim: f64, depth: f64, volume: f64) -> f64 {
    let sphere = (rim * rim + depth * depth) / (2.0 * depth);
    let difference = |height: f64| {
        let value = PI * height * height * (3.0 * sphere - height) / 3.0 - volume;
        (value, PI * height * (2.0 * sphere - height))
    };
    // None but for rounding at the rim.
    bracketed_root(0.0, depth, 0.5 * depth, EXACT_MM, difference).unwrap_or(depth)
}
