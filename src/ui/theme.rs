//! Our two themes: the only place where raw colours stand.
//!
//! Sweet, sour, strength and bitter keep one hue each; the hues differ in lightness as well, so that
//! they can be told apart in greyscale, and each goes with one mark shape (disc, triangle, square,
//! diamond).

use crate::chart::Hue;
use eframe::egui::{
    Color32, Context, CornerRadius, FontDefinitions, FontFamily, FontId, Margin, Stroke, Style,
    TextStyle, Theme, Ui, Visuals, vec2,
};

/// Colours of one theme by use.
#[derive(Clone, Copy, Debug)]
pub(super) struct Tokens {
    /// Text.
    pub(super) text: Color32,
    /// Secondary text.
    pub(super) weak: Color32,
    /// Thin lines and frames that only divide.
    pub(super) line: Color32,
    /// Outlines by which a control is known: boxes, fields, rails.
    pub(super) edge: Color32,
    /// Cards and charts.
    pub(super) card: Color32,
    /// The drink on screen, the target, the chosen thing.
    pub(super) accent: Color32,
    /// A soft accent behind something chosen.
    pub(super) accent_soft: Color32,
    /// Warnings.
    pub(super) warn: Color32,
    /// Cautions.
    pub(super) caution: Color32,
    sweet: Color32,
    sour: Color32,
    strength: Color32,
    bitter: Color32,
    water: Color32,
    fat: Color32,
    quiet: Color32,
    sweet_words: Color32,
    sour_words: Color32,
    bitter_words: Color32,
    water_words: Color32,
    page: Color32,
    field: Color32,
    button: Color32,
    button_hover: Color32,
}

/// Room for the scroll bar, points.
const SCROLL_BAR: f32 = 8.0;
/// More than any window is tall, points.
const TALLEST: f32 = 10_000.0;

/// Printed paper, in either theme.
pub(super) const PAPER: Color32 = Color32::WHITE;

const fn rgb(r: u8, g: u8, b: u8) -> Color32 {
    Color32::from_rgb(r, g, b)
}

const LIGHT: Tokens = Tokens {
    text: rgb(34, 38, 46),
    weak: rgb(90, 96, 108),
    line: rgb(214, 212, 205),
    edge: rgb(122, 120, 113),
    card: rgb(255, 254, 251),
    accent: rgb(128, 42, 84),
    accent_soft: rgb(240, 222, 231),
    warn: rgb(170, 36, 30),
    caution: rgb(140, 84, 0),
    sweet: rgb(181, 115, 13),
    sour: rgb(44, 128, 90),
    strength: rgb(18, 61, 138),
    bitter: rgb(116, 86, 138),
    water: rgb(14, 143, 180),
    fat: rgb(100, 84, 0),
    quiet: rgb(124, 128, 136),
    sweet_words: rgb(145, 92, 10),
    sour_words: rgb(40, 117, 82),
    bitter_words: rgb(116, 86, 138),
    water_words: rgb(11, 112, 141),
    page: rgb(246, 244, 239),
    field: rgb(255, 255, 255),
    button: rgb(234, 231, 223),
    button_hover: rgb(229, 225, 215),
};

const DARK: Tokens = Tokens {
    text: rgb(226, 226, 222),
    weak: rgb(166, 170, 178),
    line: rgb(62, 66, 74),
    edge: rgb(132, 137, 147),
    card: rgb(30, 33, 39),
    accent: rgb(226, 130, 166),
    accent_soft: rgb(78, 44, 62),
    warn: rgb(255, 132, 118),
    caution: rgb(240, 184, 96),
    sweet: rgb(252, 183, 35),
    sour: rgb(129, 192, 140),
    strength: rgb(111, 161, 241),
    bitter: rgb(154, 118, 180),
    water: rgb(72, 209, 239),
    fat: rgb(247, 224, 142),
    quiet: rgb(120, 123, 128),
    sweet_words: rgb(252, 183, 35),
    sour_words: rgb(129, 192, 140),
    bitter_words: rgb(164, 132, 188),
    water_words: rgb(72, 209, 239),
    page: rgb(23, 25, 30),
    field: rgb(16, 18, 22),
    button: rgb(48, 52, 60),
    button_hover: rgb(41, 45, 52),
};

impl Tokens {
    /// Colours of the theme in use.
    pub(super) fn of(ui: &Ui) -> &'static Self {
        Self::by_dark(ui.visuals().dark_mode)
    }

    /// Colours of the theme in use, where there is no panel.
    pub(super) fn in_use(ctx: &Context) -> &'static Self {
        Self::by_dark(ctx.theme() == Theme::Dark)
    }

    /// Colours of the dark or the light theme.
    pub(super) const fn by_dark(dark: bool) -> &'static Self {
        if dark { &DARK } else { &LIGHT }
    }

    /// Whatever something can stand on; page, card and field come first.
    pub(super) const fn grounds(&self) -> [(&'static str, Color32); 6] {
        [
            ("page", self.page),
            ("card", self.card),
            ("field", self.field),
            ("button", self.button),
            ("button under the pointer", self.button_hover),
            ("chosen", self.accent_soft),
        ]
    }

    /// The colour of a group of marks.
    pub(super) const fn hue(&self, hue: Hue) -> Color32 {
        match hue {
            Hue::Sweet => self.sweet,
            Hue::Sour => self.sour,
            Hue::Strength => self.strength,
            Hue::Bitter => self.bitter,
            Hue::Water => self.water,
            Hue::Fat => self.fat,
            Hue::Accent => self.accent,
            Hue::Ink => self.text,
            Hue::Quiet => self.quiet,
        }
    }

    /// The colour of words and signs that belong to a group of marks: thin strokes need more contrast
    /// than what is filled.
    pub(super) const fn words(&self, hue: Hue) -> Color32 {
        match hue {
            Hue::Sweet => self.sweet_words,
            Hue::Sour => self.sour_words,
            Hue::Bitter => self.bitter_words,
            Hue::Water => self.water_words,
            Hue::Quiet => self.weak,
            Hue::Strength | Hue::Fat | Hue::Accent | Hue::Ink => self.hue(hue),
        }
    }
}

/// A colour with another opacity, 0 to 1.
pub(super) fn faint(color: Color32, opacity: f32) -> Color32 {
    color.gamma_multiply(opacity)
}

/// Outlines boxes, dots and fields in a menu, where the toolkit leaves the outlines out.
pub(super) fn outline_ticks(ui: &mut Ui) {
    let edge = Stroke::new(1.0, Tokens::of(ui).edge);
    ui.visuals_mut().widgets.inactive.bg_stroke = edge;
}

/// Puts both themes in place.
pub(super) fn install(ctx: &Context) {
    // The text font lacks arrows and marks: the bundled monospaced one fills in.
    let mut fonts = FontDefinitions::default();
    if let Some(family) = fonts.families.get_mut(&FontFamily::Proportional) {
        family.push("Hack".to_owned());
    }
    ctx.set_fonts(fonts);
    for (theme, tokens) in [(Theme::Light, &LIGHT), (Theme::Dark, &DARK)] {
        ctx.style_mut_of(theme, |style| dress(style, theme, tokens));
    }
}

fn dress(style: &mut Style, theme: Theme, tokens: &Tokens) {
    let text = |size| FontId::new(size, FontFamily::Proportional);
    style.text_styles = [
        (TextStyle::Heading, text(17.0)),
        (TextStyle::Body, text(14.0)),
        (TextStyle::Button, text(14.0)),
        (TextStyle::Small, text(12.0)),
        (
            TextStyle::Monospace,
            FontId::new(13.0, FontFamily::Monospace),
        ),
    ]
    .into();
    style.spacing.item_spacing = vec2(8.0, 5.0);
    style.spacing.button_padding = vec2(8.0, 3.0);
    style.spacing.interact_size.y = 24.0;
    style.spacing.window_margin = Margin::same(14);
    // A bar keeps to a strip of its own, off whatever scrolls, also while it is pointed at.
    style.spacing.scroll.floating_allocated_width = SCROLL_BAR;
    style.spacing.scroll.bar_width = SCROLL_BAR;
    // What opens above the panels may be as tall as the window.
    style.spacing.default_area_size = vec2(600.0, TALLEST);
    style.visuals = visuals(theme, tokens);
}

fn visuals(theme: Theme, tokens: &Tokens) -> Visuals {
    let mut visuals = match theme {
        Theme::Dark => Visuals::dark(),
        Theme::Light => Visuals::light(),
    };
    visuals.panel_fill = tokens.page;
    // As behind the panels, so that fields stand out from what is open above them, too.
    visuals.window_fill = tokens.page;
    visuals.window_stroke = Stroke::new(1.0, tokens.line);
    visuals.extreme_bg_color = tokens.field;
    visuals.faint_bg_color = faint(tokens.line, 0.35);
    visuals.hyperlink_color = tokens.accent;
    visuals.warn_fg_color = tokens.caution;
    visuals.error_fg_color = tokens.warn;
    visuals.selection.bg_fill = tokens.accent_soft;
    visuals.selection.stroke = Stroke::new(1.0, tokens.accent);
    visuals.weak_text_color = Some(tokens.weak);
    let rounded = CornerRadius::same(5);
    visuals.window_corner_radius = CornerRadius::same(8);
    visuals.menu_corner_radius = rounded;
    let widgets = &mut visuals.widgets;
    for state in [
        &mut widgets.noninteractive,
        &mut widgets.inactive,
        &mut widgets.hovered,
        &mut widgets.active,
        &mut widgets.open,
    ] {
        state.corner_radius = rounded;
        state.fg_stroke = Stroke::new(1.2, tokens.text);
        state.expansion = 0.0;
    }
    widgets.noninteractive.bg_stroke = Stroke::new(1.0, tokens.line);
    widgets.noninteractive.bg_fill = tokens.card;
    for (state, fill) in [
        (&mut widgets.inactive, tokens.button),
        (&mut widgets.hovered, tokens.button_hover),
        // What has the focus has a ring; the soft accent is kept for what is chosen.
        (&mut widgets.active, tokens.button_hover),
        (&mut widgets.open, tokens.button_hover),
    ] {
        state.bg_fill = fill;
        state.weak_bg_fill = fill;
        state.bg_stroke = Stroke::new(1.0, tokens.edge);
    }
    widgets.hovered.bg_stroke = Stroke::new(1.0, tokens.weak);
    widgets.active.bg_stroke = Stroke::new(1.0, tokens.accent);
    visuals
}
