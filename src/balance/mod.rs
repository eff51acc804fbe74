//! From a trial to the drink as served: its balance point, what brings it, what it costs, and how
//! far it lies from others.
//!
//! One kernel ([`serve`]) turns linear amounts into the served point. It is generic over its
//! number, so evaluation, gradients and interval bounds are the same model, written once.

mod alignment;
mod bends;
mod calibration;
mod chill;
mod compare;
mod contributions;
mod curdling;
mod drink;
mod ellipse;
mod enclosure;
mod figures;
mod flavours;
mod gradient;
mod hints;
mod inputs;
mod kernel;
mod load;
mod monte_carlo;
mod moves;
mod pantry;
mod path;
mod pour_errors;
mod pouring;
mod report;
mod scatter;
mod span;
mod split_normal;
mod tangent_melt;
mod texture;
mod uncertainty;

pub use crate::physics::ice::Warm;
pub use alignment::{AlignedPour, align_pours};
pub use calibration::{Calibration, WeighedPoint, calibrate, own_dilution, usual_curve};
pub use chill::{USUAL_BLADE, usual_vessel_kj_per_k};
pub use compare::{Nearest, Steps, nearest, steps_between};
pub use contributions::{Contribution, contributions};
pub use curdling::{Curdling, gentlest_pours};
pub use drink::{Drink, DrinkError, Line};
pub use ellipse::{Ellipse, RADIUS};
pub use enclosure::{Encloser, Enclosure};
pub use figures::{Cost, Figures, InBlender, figures};
pub use flavours::{FlavourNote, flavours};
pub use hints::{Hint, Hints};
pub use inputs::{Assumed, Input};
pub use kernel::{Ice, Rule, Served, Spare, serve, serve_scattered};
pub use load::Load;
pub use monte_carlo::MonteCarlo;
pub use pantry::Pantry;
pub use path::{PathPoint, strength_path};
pub use pour_errors::{PourError, pour_errors};
pub use pouring::{amount_in_grams, step_of};
pub use report::{Closeness, Outcome, Report, Statistic};
pub use scatter::{dilution_sigma, pour_sigma};
pub use span::Span;
pub use split_normal::SplitNormal;
pub use texture::Dose;
pub use uncertainty::{Share, TWO_SIDED, Uncertainty};
