//! Rows of the larder that a search could not try, with the reasons.

use super::theme::Tokens;
use crate::rebalance::Skipped;
use eframe::egui::{RichText, Ui};

/// Says how many there are; nothing when there are none.
pub(super) fn ui(ui: &mut Ui, skipped: &[Skipped]) {
    if skipped.is_empty() {
        return;
    }
    let reasons: Vec<String> = skipped
        .iter()
        .map(|one| format!("{}: {}", one.name, one.why))
        .collect();
    let words = format!("{} could not be tried", skipped.len());
    let caution = Tokens::of(ui).caution;
    ui.label(RichText::new(words).small().color(caution))
        .on_hover_text(reasons.join("\n"));
}
