//! How what comes out keeps, and what to mind about the preparation on screen.

use super::house_outputs::{called, main_first, main_of};
use super::theme::Tokens;
use crate::session::{HouseView, Keeping, SHELF_CAUTION as CAUTION};
use crate::units::{number, trimmed};
use eframe::egui::{RichText, Ui};

/// Shows every output's class and days, then the cautions with their sources.
pub(super) fn ui(ui: &mut Ui, view: &HouseView) {
    let safety = view.safety();
    if safety.keeping.is_empty() && safety.cautions.is_empty() {
        ui.label(RichText::new("Nothing is worked out yet.").weak());
    }
    let mut keeping: Vec<_> = safety.keeping.iter().collect();
    main_first(main_of(view), &mut keeping, |(stream, _)| stream);
    for (stream, found) in keeping {
        keeps(ui, called(view, stream), found);
    }
    let tokens = Tokens::of(ui);
    for caution in &safety.cautions {
        ui.add_space(3.0);
        let words = format!("{}: {}", caution.subject, caution.text);
        let color = if caution.is_remark {
            tokens.text
        } else {
            tokens.caution
        };
        ui.label(RichText::new(words).color(color));
        ui.label(RichText::new(caution.source).small().weak());
    }
    ui.add_space(4.0);
    ui.label(RichText::new(CAUTION).small().italics());
}

fn keeps(ui: &mut Ui, output: &str, found: &Keeping) {
    let days = found.days().map_or_else(
        || "nobody says how long it keeps".to_owned(),
        |days| format!("keeps {} days", trimmed(days, 1)),
    );
    ui.label(RichText::new(format!("{output}: {days}")).strong());
    let shelf = &found.shelf;
    let activity = shelf
        .water_activity
        .map_or_else(|| "–".to_owned(), |found| number(found.activity, 3));
    let words = format!("{}; water activity {activity}", shelf.class.name());
    ui.label(RichText::new(words).small());
    for because in &found.because {
        let mut words = format!("{} ({})", because.words, because.source);
        let why_not = found.why_not(because);
        if !why_not.is_empty() {
            words = format!("{words}: {why_not}");
        }
        ui.label(RichText::new(words).small().weak());
    }
    if let Some((day, label)) = &found.until {
        let words = format!("not beyond {day}, the last day of {label}");
        ui.label(RichText::new(words).small().weak());
    }
}
