//! The window: panels read the session and push edits, commands and intents; one place applies them.

mod amount_field;
mod amount_slider;
mod asking;
mod chart_view;
mod contributions;
mod dialogs;
mod document_dialog;
mod figures;
mod intent;
mod keys;
mod larder_picker;
mod launch;
mod lock_button;
mod map;
mod naming;
mod nearest;
mod notices;
mod overlays;
mod perform;
mod pour_price;
mod pour_row;
mod pours;
mod proposals;
mod start_dialog;
mod strips;
mod target;
mod technique;
mod theme;
mod top_bar;
mod trial_dialog;
mod view;
mod window;

pub use intent::{Intent, Outbox};
pub use launch::{LaunchError, open_window};
pub use view::View;
pub use window::Window;
