//! Kinds of fields that a row of the larder is written in.

use super::figure_field::{FigureEntered, FigureField};
use super::naming::named;
use crate::model::{IngredientId, Range};
use eframe::egui::{ComboBox, Id, RichText, TextEdit, Ui};

/// Width of a field for a figure, points.
pub(super) const FIGURE: f32 = 54.0;
/// Least width of the column of labels, points.
pub(super) const LABEL: f32 = 98.0;

/// The fields of one row: what belongs to which ingredient, and what was typed wrongly.
pub(super) struct Form<'a> {
    /// The ingredient.
    pub(super) id: &'a IngredientId,
    /// Raised to let go of whatever was typed and not entered.
    pub(super) generation: u32,
    /// Fields whose text makes no sense, and why.
    pub(super) errors: Vec<String>,
}

/// One of the three figures of a range.
#[derive(Clone, Copy, PartialEq, Eq)]
enum End {
    Low,
    Typical,
    High,
}

impl Form<'_> {
    /// A label, one figure and its unit: two cells of a grid.
    pub(super) fn figure(
        &mut self,
        ui: &mut Ui,
        (name, unit): (&str, &str),
        teach: &str,
        value: &mut Option<f64>,
    ) {
        ui.label(name).on_hover_text(teach);
        ui.horizontal(|ui| {
            if let FigureEntered::Figure(entered) = self.field(ui, name, teach, *value) {
                *value = entered;
            }
            ui.label(RichText::new(unit).small().weak());
        });
    }

    /// A label, low, typical and high, and the unit: a row of a grid.
    pub(super) fn range(
        &mut self,
        ui: &mut Ui,
        (name, unit): (&str, &str),
        teach: &str,
        range: &mut Option<Range>,
    ) {
        ui.label(name).on_hover_text(teach);
        for (end, words) in [
            (End::Low, "low"),
            (End::Typical, "typical"),
            (End::High, "high"),
        ] {
            let shown = range.map(|range| match end {
                End::Low => range.low,
                End::Typical => range.typical,
                End::High => range.high,
            });
            let name = format!("{name}, {words}");
            if let FigureEntered::Figure(entered) = self.field(ui, &name, teach, shown) {
                *range = with_end(*range, end, entered);
            }
        }
        ui.label(RichText::new(unit).small().weak());
        ui.end_row();
    }

    /// One field; what makes no sense is noted down.
    fn field(&mut self, ui: &mut Ui, name: &str, teach: &str, value: Option<f64>) -> FigureEntered {
        let field = FigureField {
            name,
            teach,
            value,
            width: FIGURE,
        };
        let id = Id::unique(("figure", &self.id.0, self.generation, name));
        let entered = field.show(ui, id);
        if let FigureEntered::Wrong(error) = &entered {
            self.errors.push(format!("{name}: {error}"));
        }
        entered
    }

    /// A label and a line of text: a row of a grid.
    pub(super) fn text(ui: &mut Ui, name: &str, teach: &str, width: f32, text: &mut String) {
        ui.label(name).on_hover_text(teach);
        let field = TextEdit::singleline(text).desired_width(width);
        named(ui.add(field), name, teach);
        ui.end_row();
    }

    /// A label and a choice: a row of a grid.
    pub(super) fn choice<T: Copy + PartialEq>(
        ui: &mut Ui,
        (name, teach): (&str, &str),
        options: &[(T, &str)],
        chosen: &mut T,
    ) {
        ui.label(name).on_hover_text(teach);
        let shown = options.iter().find(|(value, _)| value == chosen);
        let combo = ComboBox::from_id_salt(name)
            .selected_text(shown.map_or("", |(_, words)| words))
            .width(190.0)
            .show_ui(ui, |ui| {
                for (value, words) in options {
                    ui.selectable_value(chosen, *value, *words);
                }
            });
        named(combo.response, name, teach);
        ui.end_row();
    }
}

/// A range with one end changed. Ends that were never set apart follow the typical figure.
fn with_end(range: Option<Range>, end: End, entered: Option<f64>) -> Option<Range> {
    let Some(Range { low, typical, high }) = range else {
        return entered.map(Range::exact);
    };
    match (end, entered) {
        (End::Typical, None) => None,
        (End::Typical, Some(value)) => Some(Range {
            low: if low == typical { value } else { low },
            typical: value,
            high: if high == typical { value } else { high },
        }),
        (End::Low, entered) => Some(Range {
            low: entered.unwrap_or(typical),
            typical,
            high,
        }),
        (End::High, entered) => Some(Range {
            low,
            typical,
            high: entered.unwrap_or(typical),
        }),
    }
}

#[cfg(test)]
mod tests {
    use super::{End, with_end};
    use crate::model::Range;

    #[test]
    fn a_typical_figure_alone_stands_for_the_whole_range() {
        let range = with_end(None, End::Typical, Some(5.0));
        assert_eq!(range, Some(Range::exact(5.0)));
        assert_eq!(
            with_end(range, End::Typical, Some(6.0)),
            Some(Range::exact(6.0))
        );
    }

    #[test]
    fn an_end_that_was_set_stays_where_it_is() {
        let range = with_end(Some(Range::exact(5.0)), End::Low, Some(4.0));
        let range = with_end(range, End::Typical, Some(6.0));
        let expected = Range {
            low: 4.0,
            typical: 6.0,
            high: 6.0,
        };
        assert_eq!(range, Some(expected));
        let range = with_end(range, End::Low, None);
        assert_eq!(range, Some(Range::exact(6.0)));
        assert_eq!(with_end(range, End::Typical, None), None);
    }
}
