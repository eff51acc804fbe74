//! Fields of a preparation's figures, each with its unit.

use super::number_field::{NumberField, step_near};
use crate::model::Release;
use eframe::egui::{RichText, Ui};

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
        let times = if self.is_share() { 100.0 } else { 1.0 };
        let mut shown = *value * times;
        let field = NumberField::new(name, self.teach, 0.0..=self.most);
        let field = field.step(step_near(shown)).decimals(self.decimals);
        let changed = field.unit(self.unit).show(ui, &mut shown);
        if changed {
            *value = shown / times;
        }
        changed
    }
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
