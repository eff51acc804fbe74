//! Fields of a preparation's figures, each with its unit.

use super::house_draft::refused;
use super::naming::named;
use crate::model::Release;
use crate::units::trimmed;
use eframe::egui::style::NumberFormatter;
use eframe::egui::{DragValue, Key, RichText, Ui};

/// Lets every field show just the decimals that its number has, whatever the speed of dragging: 5 min,
/// 2.5 g.
pub(super) fn spare_decimals(ui: &mut Ui) {
    ui.style_mut().number_formatter =
        NumberFormatter::new(|value, decimals| trimmed(value, *decimals.end()));
}

/// A figure of a form: its accessible name, what it teaches, its unit and what it may be.
#[derive(Clone, Copy, Debug)]
pub(super) struct Figure<'a> {
    pub(super) name: &'a str,
    pub(super) teach: &'a str,
    pub(super) unit: &'a str,
    pub(super) most: f64,
    pub(super) decimals: usize,
}

impl<'a> Figure<'a> {
    /// A share, shown as per cent.
    pub(super) const fn share(name: &'a str, teach: &'a str) -> Self {
        Self {
            name,
            teach,
            unit: " %",
            most: 100.0,
            decimals: 1,
        }
    }

    /// A figure in a unit of its own, from nothing up.
    pub(super) const fn of(name: &'a str, teach: &'a str, unit: &'a str, most: f64) -> Self {
        Self {
            name,
            teach,
            unit,
            most,
            decimals: 1,
        }
    }

    /// True when it is kept as a share and shown as per cent.
    pub(super) fn is_share(&self) -> bool {
        self.unit == " %"
    }

    /// Shows it; true when it changed. What was typed beyond its bounds stays in the field with the reason.
    pub(super) fn show(&self, ui: &mut Ui, value: &mut f64) -> bool {
        self.show_as(ui, self.name, value)
    }

    pub(super) fn show_as(&self, ui: &mut Ui, name: &str, value: &mut f64) -> bool {
        let kept = ui.scope_id().with(name);
        let refusal = ui.data(|data| data.get_temp::<Refusal>(kept));
        // Anything else that changes the figure makes what was typed out of date.
        let refusal = refusal.filter(|refusal| refusal.of == *value);
        let times = if self.is_share() { 100.0 } else { 1.0 };
        let mut shown = refusal.map_or(*value * times, |refusal| refusal.typed);
        // A hundredth of what is there, so that large and small figures drag alike.
        let speed = (shown.abs() * 0.01).max(0.1_f64.powf(self.decimals as f64));
        let field = DragValue::new(&mut shown)
            .speed(speed)
            .max_decimals(self.decimals)
            .update_while_editing(false)
            .suffix(self.unit);
        let response = named(ui.add(field), name, self.teach);
        let left = response.lost_focus() && ui.input(|input| input.key_pressed(Key::Escape));
        if !response.changed() && !left {
            self.refuse(ui, refusal);
            return false;
        }
        if response.dragged() {
            shown = shown.clamp(0.0, self.most);
        }
        ui.data_mut(|data| data.remove::<Refusal>(kept));
        if left {
            return false;
        }
        if (0.0..=self.most).contains(&shown) {
            *value = shown / times;
            return true;
        }
        let refusal = Refusal {
            typed: shown,
            of: *value,
        };
        ui.data_mut(|data| data.insert_temp(kept, refusal));
        self.refuse(ui, Some(refusal));
        false
    }

    /// Says beside the field why what was typed is not taken.
    fn refuse(&self, ui: &mut Ui, refusal: Option<Refusal>) {
        if let Some(refusal) = refusal {
            let unit = self.unit;
            let (most, typed) = (trimmed(self.most, 2), trimmed(refusal.typed, 2));
            let words = format!("must be from 0 to {most}{unit}, not {typed}{unit}");
            refused(ui, &words);
        }
    }
}

/// What was typed and cannot stand, kept until it is mended, left by Esc, or out of date.
#[derive(Clone, Copy, Debug)]
struct Refusal {
    /// As it was typed, in the unit of the field.
    typed: f64,
    /// The figure that stays in its place.
    of: f64,
}

/// Shows what passes from solids into liquid; true when it changed.
pub(super) fn release(ui: &mut Ui, of: &str, release: &mut Release) -> bool {
    let mut changed = false;
    ui.horizontal_wrapped(|ui| {
        for (name, teach, share) in [
            (
                "water",
                "Share of the water and alcohol inside the solids that comes out",
                &mut release.water,
            ),
            (
                "soluble",
                "Share of sugars, acids and salt that comes out",
                &mut release.soluble,
            ),
            ("fat", "Share of the fat that comes out", &mut release.fat),
            (
                "protein",
                "Share of the protein that comes out",
                &mut release.protein,
            ),
            (
                "starch",
                "Share of starch, fibre and gums that comes out",
                &mut release.starch,
            ),
            (
                "other",
                "Share of other solids that comes out: colour, tannin, aroma",
                &mut release.other,
            ),
        ] {
            ui.label(RichText::new(name).small());
            let name = format!("{of}, {name}");
            changed |= Figure::share(&name, teach).show(ui, share);
        }
    });
    changed
}
