//! At the bench: the trial on screen in large type, to tick off with wet hands and to keep as poured.

use super::bench_amount::BenchAmount;
use super::bench_photos::BenchPhotos;
use super::bench_runs;
use super::intent::Outbox;
use super::naming::named;
use super::theme::Tokens;
use crate::balance::{Pantry, amount_in_grams};
use crate::model::{Amount, BenchRun, Document, Pour, Trial, TrialId};
use crate::session::{
    Edit, Session, TrialEdit, planned, pour_name, poured_difference, poured_difference_text, today,
    trial_code,
};
use eframe::egui::{Align, Button, Key, Layout, RichText, ScrollArea, TextEdit, Ui, vec2};
use std::collections::BTreeMap;

/// Height of a line, points: a wet thumb hits it.
pub(super) const LINE: f32 = 52.0;
/// Size of what is read across a bench, points.
pub(super) const LARGE: f32 = 25.0;

/// Most width of the bench, points.
const MOST: f32 = 1_100.0;

/// A making that is going on.
#[derive(Debug)]
struct Going {
    run: BenchRun,
    /// Lines that are in the shaker.
    ticked: Vec<bool>,
    /// How many makings the trial held when this one was handed over to be kept.
    handed: Option<usize>,
}

impl Going {
    fn of(trial: &Trial) -> Self {
        Self {
            run: planned(trial, today()),
            ticked: vec![false; trial.pours.len()],
            handed: None,
        }
    }

    fn fits(&self, trial: &Trial) -> bool {
        let lines = self.run.lines.iter().zip(&trial.pours);
        self.run.lines.len() == trial.pours.len()
            && lines
                .into_iter()
                .all(|(line, pour)| line.source == pour.source && line.planned == pour.amount)
    }
}

/// What is being poured.
#[derive(Debug, Default)]
pub(super) struct BenchTab {
    /// Makings that are going on, of every trial that was at the bench.
    all: BTreeMap<TrialId, Going>,
    /// Show the card to print.
    card: bool,
    photos: BenchPhotos,
    pantry: Pantry,
}

impl BenchTab {
    /// Begins anew once a making is kept; where the recipe changed, its remark stays.
    fn follow(&mut self, trial: &Trial) {
        let going = self.all.entry(trial.id).or_insert_with(|| Going::of(trial));
        if going.handed.is_some_and(|held| trial.runs.len() > held) {
            *going = Going::of(trial);
        } else if !going.fits(trial) {
            let note = std::mem::take(&mut going.run.note);
            *going = Going::of(trial);
            going.run.note = note;
        }
    }

    /// Shows the bench.
    pub(super) fn ui(&mut self, ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
        let Some(trial) = session.trial() else {
            ui.label("No trial is on screen.");
            return;
        };
        self.follow(trial);
        let document = session.document();
        // Names and what goes in stand near each other on a wide window, too.
        ui.set_max_width(ui.available_width().min(MOST));
        self.heading(ui, document, trial);
        ScrollArea::vertical()
            .id_salt("bench")
            .auto_shrink(false)
            .show(ui, |ui| {
                if self.card {
                    bench_runs::card(ui, document, trial, &mut self.pantry);
                }
                for (place, _) in trial.poured() {
                    self.line(ui, document, (trial, place));
                }
                self.keep(ui, document, trial, outbox);
                bench_runs::ui(ui, document, trial, &mut self.pantry, outbox);
                self.photos.ui(ui, session, trial, outbox);
            });
    }

    fn heading(&mut self, ui: &mut Ui, document: &Document, trial: &Trial) {
        ui.horizontal_wrapped(|ui| {
            ui.label(RichText::new(&trial.name).size(LARGE).strong());
            let method = trial.technique.method.name();
            ui.label(RichText::new(method).size(LARGE * 0.7));
            if let Some(code) = trial_code(document, trial.id) {
                let words = RichText::new(format!("cup {code}"))
                    .size(LARGE * 0.7)
                    .monospace();
                ui.label(words)
                    .on_hover_text("The code to write on the cup");
            }
            ui.toggle_value(&mut self.card, "Card to print")
                .on_hover_text("The recipe with boxes to tick and to write in, as plain text");
            let again = ui.button("Start over");
            let teach = "Take all ticks off and pour as planned";
            if named(again, "Start over", teach).clicked() {
                self.all.insert(trial.id, Going::of(trial));
            }
        });
    }

    /// One pour: a tap ticks it off, what stands beside it says how much really went in.
    fn line(&mut self, ui: &mut Ui, document: &Document, (trial, place): (&Trial, usize)) {
        let pour = &trial.pours[place];
        let Some(going) = self.all.get_mut(&trial.id) else {
            return;
        };
        let line = &mut going.run.lines[place];
        let name = pour_name(document, trial, place);
        let density = density(document, trial, pour, &mut self.pantry);
        let poured = BenchAmount {
            name,
            pour,
            density,
            document,
        };
        let size = vec2(ui.available_width(), LINE);
        let layout = Layout::right_to_left(Align::Center);
        ui.allocate_ui_with_layout(size, layout, |ui| {
            poured.ui(ui, (trial.id, place), &mut line.poured);
            let ticked = &mut going.ticked[place];
            let amount = line.poured.as_ref();
            let mut text = RichText::new(format!("{}  {name}", poured.said(amount)));
            if *ticked {
                text = text.strikethrough().color(Tokens::of(ui).weak);
            }
            let grams = poured.grams(amount);
            let planned = if amount == Some(&pour.amount) {
                grams
            } else {
                let planned = poured.said(Some(&pour.amount));
                format!("planned {planned}   {grams}")
            };
            let size = vec2(ui.available_width(), LINE - 6.0);
            let beside = RichText::new(planned).size(LARGE * 0.7);
            let button = Button::selectable(*ticked, text.size(LARGE))
                .right_text(beside)
                .truncate()
                .min_size(size);
            let teach = "A tap ticks it off";
            if named(ui.add(button), &format!("Tick {name}"), teach).clicked() {
                *ticked = !*ticked;
            }
        });
    }

    /// The difference, one remark and the button that keeps it all.
    fn keep(&mut self, ui: &mut Ui, document: &Document, trial: &Trial, outbox: &mut Outbox) {
        let Some(going) = self.all.get_mut(&trial.id) else {
            return;
        };
        let run = &mut going.run;
        ui.add_space(6.0);
        if let Some(found) = poured_difference(document, trial, run, &mut self.pantry) {
            let words = poured_difference_text(&found);
            ui.label(RichText::new(words).size(LARGE * 0.7));
        }
        ui.horizontal(|ui| {
            let note = TextEdit::singleline(&mut run.note)
                .hint_text("One remark")
                .font(eframe::egui::FontId::proportional(LARGE * 0.7))
                .desired_width((ui.available_width() - 260.0).max(160.0));
            let teach = "What you noticed while making or tasting it; Enter keeps it all";
            let note = named(ui.add(note), "Remark on this making", teach);
            let entered = note.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
            let words = RichText::new("Keep what was poured").size(LARGE * 0.7);
            let keep = ui.add(Button::new(words).min_size(vec2(0.0, LINE - 10.0)));
            let teach =
                "Record these amounts beside the planned ones; the trial itself stays as it is";
            if named(keep, "Keep what was poured", teach).clicked() || entered {
                outbox.edit(Edit::Trial(TrialEdit::Record {
                    trial: trial.id,
                    run: run.clone(),
                }));
                // It begins anew once it is kept, so that a refusal loses nothing.
                going.handed = Some(trial.runs.len());
            }
        });
    }
}

/// Grams per ml of what is poured, where it is known.
fn density(document: &Document, trial: &Trial, pour: &Pour, pantry: &mut Pantry) -> Option<f64> {
    let settled = document.settle(trial, pour)?;
    let contents = pantry.contents(settled.ingredient).ok()?;
    let whole = Pour {
        amount: Amount::Ml(1.0),
        ..pour.clone()
    };
    amount_in_grams(&whole, settled.ingredient, &contents)
}
