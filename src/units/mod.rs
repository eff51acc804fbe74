//! Quantities, and how people write and read them.
//!
//! The stored value of an amount is always in its base unit: ml at 20 °C, grams, or pieces. The unit is only
//! the way the amount is written, so changing the unit never changes what is stored.

mod calculation;
mod entry;
mod entry_error;
mod figure;
mod measures;
mod number;
mod show;
mod sizes;
mod token;
mod unit;

pub use entry::{BASE_LIMIT, Entry, TEXT_LIMIT_CHARS, parse_entry};
pub use entry_error::EntryError;
pub use figure::{FigureError, parse_figure};
pub use measures::{Measures, US_FLUID_OUNCE_ML};
pub use number::{
    celsius, counted_steps, exact, grams_per_litre, money, noticeable, number, percent,
    percent_vol, read_exact, signed, signed_steps, steps, trimmed,
};
pub use show::{capital, fraction, listed, lower_first, show, show_volume, volume_unit};
pub use sizes::{SizesError, parse_sizes, show_sizes};
pub use unit::{Quantity, Unit};
