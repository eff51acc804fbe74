//! Small bounded least-squares problems with a pull towards a reference point.
//!
//! The layer sees vectors only. [`Problem`] states the question, [`Settings`]
//! when to stop, [`Status`] how it stopped, [`Solution`] the answer with its
//! report. [`minimise`] answers on the continuum, [`search_grid`] finds the best
//! point of a grid with its proof. [`round_to_grid`] is what the proof is measured
//! against: the program does not use it.
//!
//! The continuous method is Levenberg–Marquardt whose step solves, exactly and
//! within the bounds, the problem "linearised residuals plus the pull as it is".
//! The pull is nearly an absolute value, so that step is found in two parts: an
//! active-set walk on the exact absolute value says which unknowns stay where
//! they are, and a few Newton steps on the smoothed one make it precise.

mod bound;
mod branch;
mod chord;
mod continuous;
mod exchange;
mod face;
mod fewest;
mod grid;
mod grid_problem;
mod grid_solution;
mod grid_tables;
mod identify;
mod local_model;
mod mixture;
mod places;
mod polish;
mod prepared;
mod presolve;
mod prices;
mod problem;
mod pull;
mod relax;
mod rounding;
mod run;
mod settings;
mod solution;
mod span;
mod stationarity;
mod status;
mod waiting;
mod walk;

pub use branch::search_grid;
pub use continuous::{minimise, minimise_multistart};
pub use exchange::{ExchangeSettings, Rounded, round_to_grid};
pub use fewest::search_fewest;
pub use grid::{Grid, GridError};
pub use grid_problem::{GridProblem, GridProblemError, Row};
pub use grid_solution::{GridPoint, GridSettings, GridSolution, Proof};
pub use mixture::{Enclosure, Known, Mixture, Ranged, RatioAxis};
pub use prices::{Prices, price_limits};
pub use problem::{Held, Problem, ProblemError, Residuals};
pub use settings::{Settings, SettingsError};
pub use solution::{Active, Report, Solution};
pub use status::{Criterion, Status};
