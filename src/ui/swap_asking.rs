//! Opens swaps and hands their questions to the session.

use super::swap_dialog::SwapDialog;
use super::view::Dialog;
use super::window::Window;
use crate::session::SwapAsk;
use eframe::egui::Context;

impl Window {
    /// Opens the swap of a pour; of the first one that can be swapped when none is named.
    pub(super) fn open_swap(&mut self, pour: Option<usize>) {
        match SwapDialog::of(&self.session, pour) {
            Some(dialog) => self.view.dialog = Some(Dialog::Swap(Box::new(dialog))),
            None => self.say_in_passing("There is no pour with an amount to swap."),
        }
    }

    /// Opens the substitution table of the trial.
    pub(super) fn open_substitutions(&mut self) {
        self.open_swap(None);
        if let Some(Dialog::Swap(dialog)) = &mut self.view.dialog {
            dialog.show_table(&self.session);
        }
    }

    /// Begins a search; what cannot begin is said in the dialog.
    pub(super) fn ask_swap(&mut self, ctx: &Context, ask: SwapAsk) {
        let waker = ctx.clone();
        let wake = move || waker.request_repaint();
        let begun = self.session.ask_swap(ask.clone(), wake);
        if let (Err(error), Some(Dialog::Swap(dialog))) = (begun, &mut self.view.dialog) {
            dialog.give_up(ask, error);
        }
    }
}
