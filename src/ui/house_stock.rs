//! What the preparation on screen would have to be for the drink on screen to balance.

use super::house_draft::{HouseDraft, refused};
use super::naming::named;
use crate::session::{HouseView, StockFor, stocks_for, take_stock};
use crate::units::{number, steps};
use eframe::egui::{Button, RichText, Ui};

/// Answers, with the revision and the trial they were worked out at.
#[derive(Debug, Default)]
pub(super) struct HouseStock {
    at: Option<String>,
    found: Vec<StockFor>,
}

impl HouseStock {
    /// Shows one answer for every pour of the drink.
    pub(super) fn ui(&mut self, ui: &mut Ui, view: &HouseView, draft: &mut HouseDraft<'_>) {
        self.refresh(draft);
        let trial = draft.session.trial().map(|trial| trial.name.clone());
        let drink = draft.session.spec().map_or("no drink", |spec| &spec.name);
        let where_from = trial.map_or_else(
            || "No drink is on screen.".to_owned(),
            |trial| format!("For {drink}, {trial}, as it stands on the Balance page."),
        );
        ui.label(RichText::new(where_from).small().weak());
        if self.found.is_empty() {
            ui.label("That drink pours nothing of this preparation. Pour it there first.");
        }
        for stock in &self.found {
            one(ui, view, draft, stock);
        }
    }

    fn refresh(&mut self, draft: &HouseDraft<'_>) {
        let session = draft.session;
        let trial = session.trial().map(|trial| trial.id);
        let at = format!("{} {:?} {}", session.revision(), trial, draft.id);
        if self.at.as_ref() != Some(&at) {
            self.found = stocks_for(session, draft.id);
            self.at = Some(at);
        }
    }
}

fn one(ui: &mut Ui, view: &HouseView, draft: &mut HouseDraft<'_>, stock: &StockFor) {
    ui.add_space(4.0);
    let wanted = match &stock.wanted {
        Ok(wanted) => wanted,
        Err(reason) => {
            refused(ui, &format!("{}: {reason}", stock.output));
            return;
        }
    };
    let words = format!(
        "At {} ml {} would have {} °Bx and {} g/L of acid; it has {} °Bx and {} g/L.",
        number(wanted.poured_ml, 1),
        stock.output,
        number(wanted.wanted.brix, 1),
        number(wanted.wanted.acid_g_per_l, 1),
        number(wanted.now.brix, 1),
        number(wanted.now.acid_g_per_l, 1),
    );
    ui.label(RichText::new(words).strong());
    let (now, then) = (steps(wanted.distance_now), steps(wanted.distance));
    ui.label(format!(
        "The drink then lies {then} from its target; now {now}."
    ));
    let words = format!(
        "To a litre of it as it is: {} g sugar, {} g citric acid, {} g water. Nothing is taken out, so fruit is only thinned.",
        number(wanted.sugar_g, 1),
        number(wanted.acid_g, 2),
        number(wanted.water_g, 1),
    );
    ui.label(RichText::new(words).weak());
    let gains = wanted.distance < wanted.distance_now - 0.05;
    let button = ui.add_enabled(gains, Button::new("Add it to the preparation"));
    let teach = "Puts sugar, acid and water for this batch among the inputs, with a last step that takes them in; undo takes it back";
    let name = format!("Add what {} lacks", stock.output);
    if named(button, &name, teach).clicked()
        && let Some(rows) = take_stock(
            draft.session,
            view,
            &mut draft.made,
            (&stock.output, wanted),
        )
    {
        draft.need(rows);
        draft.say(format!("Bring {} to the drink", draft.was.name));
    }
}
