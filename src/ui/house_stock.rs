//! What the preparation on screen would have to be for the drink on screen to balance.

use super::house_draft::{HouseDraft, refused};
use super::house_outputs::main_first;
use super::intent::{Intent, Outbox};
use super::naming::named;
use super::new_pour::new_pour;
use crate::model::{MadeBy, Source, Trial, TrialId, TrialState};
use crate::session::{Command, Edit, HouseView, StockFor, stocks_for, take_stock};
use crate::units::{Unit, number, steps, trimmed};
use eframe::egui::{Button, RichText, Ui};

/// Answers, with the revision and the trial they were worked out at.
#[derive(Debug, Default)]
pub(super) struct HouseStock {
    at: Option<String>,
    found: Vec<StockFor>,
}

impl HouseStock {
    /// Shows one answer for every pour of the drink.
    pub(super) fn ui(
        &mut self,
        ui: &mut Ui,
        view: &HouseView,
        draft: &mut HouseDraft<'_>,
        outbox: &mut Outbox,
    ) {
        self.refresh(draft);
        let trial = draft.session.trial().map(|trial| trial.name.clone());
        let drink = draft.session.spec().map_or("no drink", |spec| &spec.name);
        let trial_is_missing = trial.is_none();
        let where_from = trial.map_or_else(
            || "No drink is on screen.".to_owned(),
            |trial| format!("For {drink}, {trial}, as it stands on the Balance page."),
        );
        if trial_is_missing || !self.found.is_empty() {
            ui.label(RichText::new(where_from).small().weak());
        }
        if self.found.is_empty() {
            drinks(ui, draft, outbox);
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

/// Pours an output in the drink on screen; a tasted trial keeps its pours, so a new one grows from it.
fn pour_it(ui: &mut Ui, draft: &HouseDraft<'_>, outbox: &mut Outbox) {
    let (session, document) = (draft.session, draft.session.document());
    let Some((spec, trial)) = session.spec().zip(session.trial()) else {
        return;
    };
    let is_open = trial.state == TrialState::Draft;
    let main = draft.was.main_output().map(|(name, _)| name);
    let mut outputs: Vec<_> = draft.was.outputs.iter().collect();
    main_first(main, &mut outputs, |(stream, _)| stream);
    let unit = trial.unit().unwrap_or(Unit::Ml);
    for (stream, row) in outputs {
        let Some(item) = document.ingredients.get(row) else {
            continue;
        };
        let words = if is_open {
            format!("Pour {} in {}, {}", item.name, spec.name, trial.name)
        } else {
            format!("Pour {} in a new trial of {}", item.name, spec.name)
        };
        let teach = "Adds it as a pour at its usual amount; undo takes it back";
        if !named(ui.button(&words), &words, teach).clicked() {
            continue;
        }
        let mut id = trial.id;
        if !is_open {
            outbox.edit(Edit::GrowTrial {
                from: trial.id,
                reason: format!("with {}", item.name),
                changes: Vec::new(),
                made_by: MadeBy::Hand,
            });
            // The number that the document gives to the trial just asked for.
            id = TrialId(document.next_number);
        }
        let source = Source::Preparation {
            preparation: draft.id.clone(),
            output: stream.clone(),
        };
        outbox.edit(Edit::AddPour {
            trial: id,
            pour: new_pour(source, item, (unit, &document.measures)),
            ingredient: None,
        });
    }
}

/// The drinks that pour it, each with the last of its trials that does; what to do where none does.
fn drinks(ui: &mut Ui, draft: &HouseDraft<'_>, outbox: &mut Outbox) {
    let document = draft.session.document();
    let pours_it = |trial: &Trial| {
        let mut pours = trial.pours.iter();
        pours.any(|pour| {
            matches!(&pour.source, Source::Preparation { preparation, .. } if preparation == draft.id)
        })
    };
    let found = document.specs.iter().filter_map(|spec| {
        let mut trials = spec.trials.iter().rev();
        Some((spec, trials.find(|trial| pours_it(trial))?))
    });
    let found: Vec<_> = found.collect();
    if found.is_empty() {
        ui.label(format!(
            "No drink of this document pours {} yet.",
            draft.was.name
        ));
        let words = if draft.was.outputs.is_empty() {
            "First tick an output at the right: it becomes an ingredient. Then show the drink that it is for and add it as a pour."
        } else {
            "Pour it in the drink on screen, or show another one on the Balance page and add it there: what it would have to be is then worked out here."
        };
        ui.label(RichText::new(words).weak());
        pour_it(ui, draft, outbox);
        let go = ui.button("Go to the Balance page");
        let teach = "Shows the drink on screen, where it can be poured";
        if named(go, "Go to the Balance page", teach).clicked() {
            outbox.command(Command::BalanceView);
        }
        return;
    }
    pour_it(ui, draft, outbox);
    ui.label("The drink on screen does not pour it. Choose one that does:");
    for (spec, trial) in found {
        let button = ui.button(format!("{}, {}", spec.name, trial.name));
        let name = format!("Work it out for {}", spec.name);
        let teach = "Makes it the drink on screen and works out here what it wants";
        if named(button, &name, teach).clicked() {
            outbox.intent(Intent::ShowTrial(trial.id));
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
        trimmed(wanted.poured_ml, 1),
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
