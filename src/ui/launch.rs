//! Opens the real window, and says in one sentence why it could not.

use super::window::Window;
use crate::store::WindowLayout;
use eframe::egui::ViewportBuilder;
use eframe::icon_data::from_png_bytes;
use eframe::{NativeOptions, Renderer};
use std::panic::{AssertUnwindSafe, catch_unwind, set_hook, take_hook};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

/// Names the program to the desktop: its entry, its icon and its windows carry the same name.
///
/// Such names are domains read backwards. `alt` is kept by RFC 9476 for names outside the domain name
/// system, so that this one claims nobody's domain.
pub const DESKTOP_ID: &str = "alt.equipour.Equipour";

/// The picture of the window, for desktops that do not look it up by name.
const ICON: &[u8] = include_bytes!("../assets/icon/equipour-256.png");

/// System packages that a bare machine lacks.
const PACKAGES: &str = "libxkbcommon-x11-0 libgl1 libegl1 libgl1-mesa-dri";

/// Least width and height of the window, points.
const LEAST: [f32; 2] = [640.0, 400.0];

/// Why there is no window.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum LaunchError {
    /// Neither X11 nor Wayland answers.
    #[error("no display: {0}")]
    NoDisplay(String),
    /// The window was open and the program failed.
    #[error("the program failed: {0}; unsaved work is offered at the next start")]
    Failed(String),
    /// The display is there, drawing is not.
    #[error("the window could not be opened: {0}; a bare machine needs the packages {PACKAGES}")]
    Graphics(String),
}

/// Opens the window and returns when it is closed.
pub fn open_window(window: Window) -> Result<(), LaunchError> {
    if cfg!(target_os = "linux") && !has_display() {
        return Err(LaunchError::NoDisplay(
            "neither DISPLAY nor WAYLAND_DISPLAY is set".to_owned(),
        ));
    }
    let options = NativeOptions {
        viewport: viewport(window.kept_layout()),
        renderer: Renderer::Glow,
        ..NativeOptions::default()
    };
    // A missing keyboard library is a panic in the windowing crate, not an error.
    let hook = take_hook();
    set_hook(Box::new(|_| {}));
    let opened = Arc::new(AtomicBool::new(false));
    let say_opened = Arc::clone(&opened);
    let ran = catch_unwind(AssertUnwindSafe(|| {
        let create: eframe::AppCreator<'_> = Box::new(move |_| {
            say_opened.store(true, Ordering::Relaxed);
            Ok(Box::new(window))
        });
        eframe::run_native("equipour", options, create)
    }));
    set_hook(hook);
    match ran {
        Ok(Ok(())) => Ok(()),
        Ok(Err(eframe::Error::Winit(error))) => {
            Err(LaunchError::NoDisplay(short(&error.to_string())))
        }
        Ok(Err(eframe::Error::WinitEventLoop(error))) => {
            Err(LaunchError::NoDisplay(short(&error.to_string())))
        }
        Ok(Err(error)) => Err(LaunchError::Graphics(short(&error.to_string()))),
        Err(panic) if opened.load(Ordering::Relaxed) => {
            Err(LaunchError::Failed(panic_text(panic.as_ref())))
        }
        Err(panic) => Err(LaunchError::Graphics(panic_text(panic.as_ref()))),
    }
}

/// The window as it was left; where that is unknown, as large as fits most screens.
fn viewport(layout: &WindowLayout) -> ViewportBuilder {
    let builder = ViewportBuilder::default()
        .with_app_id(DESKTOP_ID)
        .with_title("Equipour")
        .with_inner_size(layout.size.unwrap_or([1280.0, 800.0]))
        .with_min_inner_size(LEAST)
        .with_clamp_size_to_monitor_size(true)
        .with_maximized(layout.maximized);
    let builder = match layout.place {
        Some(place) => builder.with_position(place),
        None => builder,
    };
    // A picture that cannot be read is no reason to stay closed.
    match from_png_bytes(ICON) {
        Ok(icon) => builder.with_icon(icon),
        Err(_) => builder,
    }
}

fn has_display() -> bool {
    ["DISPLAY", "WAYLAND_DISPLAY", "WAYLAND_SOCKET"]
        .into_iter()
        .any(|name| std::env::var_os(name).is_some_and(|value| !value.is_empty()))
}

/// The first line, without the place in somebody's source code that it begins with.
fn short(text: &str) -> String {
    let line = text.lines().next().unwrap_or_default();
    let words = match line.rfind(".rs:") {
        Some(place) => line[place..]
            .split_once(": ")
            .map_or(line, |(_, words)| words),
        None => line,
    };
    words.to_owned()
}

fn panic_text(panic: &(dyn std::any::Any + Send)) -> String {
    panic
        .downcast_ref::<String>()
        .cloned()
        .or_else(|| panic.downcast_ref::<&str>().map(|text| (*text).to_owned()))
        .map_or_else(
            || "the windowing system failed".to_owned(),
            |text| short(&text),
        )
}
