//! Theme, size and motion of the whole window.

use super::settings_dialog::SCALE_STEP_PCT;
use super::theme;
use super::window::Window;
use crate::session::Command;
use crate::store::{SCALES_PCT, Settings, ThemeChoice};
use eframe::egui::style::ScrollAnimation;
use eframe::egui::{Context, Style, Theme, ThemePreference};

impl Window {
    /// Puts fonts, themes and the settings' looks in place.
    pub(super) fn dress(&self, ctx: &Context) {
        theme::install(ctx);
        // The setting is changed by commands, so that it is kept.
        ctx.options_mut(|options| options.zoom_with_keyboard = false);
        self.choose_looks(ctx);
    }

    /// Puts the settings' looks in place.
    pub(super) fn choose_looks(&self, ctx: &Context) {
        let settings = &self.around.settings;
        ctx.set_theme(match settings.theme {
            ThemeChoice::System => ThemePreference::System,
            ThemeChoice::Light => ThemePreference::Light,
            ThemeChoice::Dark => ThemePreference::Dark,
        });
        ctx.set_zoom_factor(settings.scale_pct as f32 / 100.0);
        for theme in [Theme::Light, Theme::Dark] {
            ctx.style_mut_of(theme, |style| calm(style, settings.less_motion));
        }
    }

    /// Takes other settings and keeps them at once, so that a program that breaks off keeps them, too.
    pub(super) fn take_settings(&mut self, ctx: &Context, settings: Settings) {
        if settings.unit != self.around.settings.unit {
            self.view.unit = settings.unit;
        }
        self.around.settings = settings;
        self.choose_looks(ctx);
        self.remember();
    }

    /// Another theme or size.
    pub(super) fn look_command(&mut self, ctx: &Context, command: Command) {
        let mut settings = self.around.settings.clone();
        let (least, most) = (*SCALES_PCT.start(), *SCALES_PCT.end());
        match command {
            Command::Larger => settings.scale_pct = (settings.scale_pct + SCALE_STEP_PCT).min(most),
            Command::Smaller => {
                settings.scale_pct = (settings.scale_pct - SCALE_STEP_PCT).max(least);
            }
            Command::UsualSize => settings.scale_pct = least,
            Command::Theme => {
                settings.theme = match settings.theme {
                    ThemeChoice::System => ThemeChoice::Light,
                    ThemeChoice::Light => ThemeChoice::Dark,
                    ThemeChoice::Dark => ThemeChoice::System,
                };
            }
            _ => return,
        }
        if command != Command::Theme {
            self.say_in_passing(&format!("Everything is shown at {} %.", settings.scale_pct));
        }
        self.take_settings(ctx, settings);
    }
}

/// Motion as usual, or none.
fn calm(style: &mut Style, less_motion: bool) {
    let usual = Style::default();
    style.animation_time = if less_motion {
        0.0
    } else {
        usual.animation_time
    };
    style.visuals.text_cursor.blink = !less_motion;
    style.scroll_animation = if less_motion {
        ScrollAnimation::none()
    } else {
        ScrollAnimation::default()
    };
}
