//! Dialogs that grow: they stand in the middle by the height they had in the last frame.

use eframe::egui::Ui;

/// Asks for one more frame when a dialog's height has changed, before anybody can press a button that
/// is about to move.
pub(super) fn recentre(ui: &Ui, kept: &mut f32) {
    let height = ui.min_rect().height();
    if (height - *kept).abs() > 0.5 {
        *kept = height;
        ui.ctx().request_repaint();
    }
}
