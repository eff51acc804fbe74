//! Fields of a preparation's figures, each with its unit.

use super::naming::named;
use crate::model::{Range, Release};
use eframe::egui::{DragValue, RichText, Ui};

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
    fn is_share(&self) -> bool {
        self.unit == " %"
    }

    /// Shows it; true when it changed.
    pub(super) fn show(&self, ui: &mut Ui, value: &mut f64) -> bool {
        self.show_as(ui, self.name, value)
    }

    fn show_as(&self, ui: &mut Ui, name: &str, value: &mut f64) -> bool {
        let times = if self.is_share() { 100.0 } else { 1.0 };
        let mut shown = *value * times;
        // A hundredth of what is there, so that large and small figures drag alike.
        let speed = (shown.abs() * 0.01).max(0.1_f64.powf(self.decimals as f64));
        let field = DragValue::new(&mut shown)
            .range(0.0..=self.most)
            .speed(speed)
            .max_decimals(self.decimals)
            .update_while_editing(false)
            .suffix(self.unit);
        let changed = named(ui.add(field), name, self.teach).changed();
        if changed {
            *value = shown / times;
        }
        changed
    }

    /// Shows a range: the working value, then how low and how high it may lie; true when it changed.
    ///
    /// The ends give way to the working value, so that no order of typing is refused.
    pub(super) fn range(&self, ui: &mut Ui, range: &mut Range) -> bool {
        ui.horizontal(|ui| {
            let mut changed = self.show(ui, &mut range.typical);
            if changed {
                range.low = range.low.min(range.typical);
                range.high = range.high.max(range.typical);
            }
            ui.label(RichText::new("from").small().weak());
            if self.show_as(ui, &format!("{}, low", self.name), &mut range.low) {
                range.typical = range.typical.max(range.low);
                range.high = range.high.max(range.low);
                changed = true;
            }
            ui.label(RichText::new("to").small().weak());
            if self.show_as(ui, &format!("{}, high", self.name), &mut range.high) {
                range.typical = range.typical.min(range.high);
                range.low = range.low.min(range.high);
                changed = true;
            }
            changed
        })
        .inner
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
