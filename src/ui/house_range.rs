//! A figure of a step that is known within a range: its ends go with the working value.

use super::house_fields::Figure;
use crate::model::Range;
use eframe::egui::{Id, RichText, Ui};

/// How far the ends lie from the working value, as shares of it.
#[derive(Clone, Copy, Debug)]
struct Spread {
    low: f64,
    high: f64,
    /// The range that was made with it: another one has a spread of its own.
    made: Range,
}

impl Spread {
    /// What a range shows; none where the working value is nothing.
    fn of(range: Range) -> Self {
        let share = |end: f64| {
            if range.typical > 0.0 {
                end / range.typical
            } else {
                1.0
            }
        };
        Self {
            low: share(range.low),
            high: share(range.high),
            made: range,
        }
    }

    /// The range about another working value, no end beyond the largest that can be meant.
    fn about(self, typical: f64, most: f64) -> Range {
        Range {
            low: (self.low * typical).clamp(0.0, typical),
            typical,
            high: (self.high * typical).min(most).max(typical),
        }
    }
}

impl Figure<'_> {
    /// Shows a range: the working value, then how low and how high it may lie; true when it changed.
    ///
    /// The ends keep their distances from the working value, as shares of it; an end that is typed
    /// beyond the working value takes it along.
    pub(super) fn range(&self, ui: &mut Ui, range: &mut Range) -> bool {
        let kept = ui.scope_id().with(("spread", self.name));
        ui.horizontal_wrapped(|ui| {
            let mut typical = range.typical;
            let mut changed = false;
            if self.show(ui, &mut typical) && typical != range.typical {
                *range = self.moved(ui, kept, *range, typical);
                changed = true;
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

    /// The range about another working value. A spread that a bound or nothing at all squeezed comes
    /// back with the next value that has room for it.
    fn moved(&self, ui: &Ui, kept: Id, range: Range, typical: f64) -> Range {
        let known = ui.data(|data| data.get_temp::<Spread>(kept));
        let known = known.filter(|known| known.made == range);
        let spread = known.unwrap_or_else(|| Spread::of(range));
        let times = if self.is_share() { 100.0 } else { 1.0 };
        let made = spread.about(typical, self.most / times);
        ui.data_mut(|data| data.insert_temp(kept, Spread { made, ..spread }));
        made
    }
}
