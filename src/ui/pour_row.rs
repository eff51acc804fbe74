//! One pour: lock, name, slider with the parent's ghost, typed amount, grams and share of cost.

use super::amount_field::AmountField;
use super::amount_slider::AmountSlider;
use super::intent::{Intent, Outbox, PickFor};
use super::lock_button::lock_button;
use super::naming::{named, says_why};
use super::pours::why_kept;
use super::theme::{Tokens, outline_ticks};
use super::{pour_limits, pour_origin, pour_price};
use crate::balance::{Contribution, step_of};
use crate::model::{Added, Amount, Document, Pour, Role, Trial, TrialState};
use crate::session::{Edit, amount_said};
use crate::units::{Quantity, Unit, number, percent, show};
use eframe::egui::containers::menu::{MenuConfig, SubMenuButton};
use eframe::egui::{
    Button, Id, Key, Label, Layout, Modifiers, PopupCloseBehavior, RichText, Sense, Ui,
};

/// Everything that a row reads.
pub(super) struct PourRow<'a> {
    pub(super) document: &'a Document,
    pub(super) trial: &'a Trial,
    pub(super) index: usize,
    pub(super) pour: &'a Pour,
    /// Amount in the parent trial.
    pub(super) ghost: Option<f64>,
    /// Amount in the proposal that is previewed.
    pub(super) proposed: Option<f64>,
    pub(super) part: Option<&'a Contribution>,
}

impl PourRow<'_> {
    fn name(&self) -> &str {
        self.document
            .settle(self.trial, self.pour)
            .map_or("?", |settled| settled.name)
    }

    fn open(&self) -> bool {
        self.trial.state == TrialState::Draft
    }

    fn shown(&self, value: f64) -> String {
        let measures = &self.document.measures;
        match self.pour.amount {
            Amount::Ml(_) => show(value, self.pour.unit, measures),
            Amount::Grams(_) => show(value, Unit::Gram, measures),
            Amount::Pieces(_) => show(value, Unit::Piece, measures),
            Amount::Words(ref words) => words.clone(),
        }
    }

    /// Shows the row.
    pub(super) fn ui(&self, ui: &mut Ui, outbox: &mut Outbox) {
        let name = self.name().to_owned();
        ui.spacing_mut().item_spacing.y = 1.0;
        let mut error = None;
        ui.horizontal(|ui| {
            self.grip(ui, &name, outbox);
            self.lock(ui, &name, outbox);
            ui.with_layout(Layout::right_to_left(eframe::egui::Align::Center), |ui| {
                self.more(ui, &name, outbox);
                error = self.field(ui, &name, outbox);
                ui.with_layout(Layout::left_to_right(eframe::egui::Align::Center), |ui| {
                    let label = Label::new(RichText::new(&name).strong())
                        .wrap()
                        .sense(Sense::click());
                    let can = "click to replace it at this amount; Swap… in the menu gives the balance back";
                    let teach = why_kept(self.trial).map_or_else(|| format!("{name} – {can}"), |why| format!("{name} – {why}"));
                    if ui.add(label).on_hover_text(teach).clicked() && self.open() {
                        outbox.intent(Intent::Pick(PickFor::Swap(self.index)));
                    }
                });
            });
        });
        if let Some(value) = self.pour.amount.value() {
            self.slider(ui, &name, value, outbox);
        }
        match error {
            Some(error) => ui.label(RichText::new(error).small().color(Tokens::of(ui).warn)),
            None => ui.label(RichText::new(self.facts()).small().weak()),
        };
    }

    /// Drag it onto another row to reorder.
    fn grip(&self, ui: &mut Ui, name: &str, outbox: &mut Outbox) {
        let id = Id::unique(("grip", self.trial.id, self.index));
        let drawn = ui.dnd_drag_source(id, self.index, |ui| {
            ui.label(RichText::new("::").weak());
        });
        let why = why_kept(self.trial);
        let teach = why.as_deref();
        let teach = teach.unwrap_or("Drag onto another pour to change the order");
        let response = named(drawn.response, &format!("Move {name}"), teach);
        if let Some(from) = response.dnd_release_payload::<usize>()
            && *from != self.index
            && self.open()
        {
            self.push_move(*from, self.index, outbox);
        }
    }

    fn push_move(&self, from: usize, to: usize, outbox: &mut Outbox) {
        outbox.edit(Edit::MovePour {
            trial: self.trial.id,
            from,
            to,
        });
    }

    fn lock(&self, ui: &mut Ui, name: &str, outbox: &mut Outbox) {
        let locked = self.pour.locked;
        let teach = if locked {
            "Locked: proposals and pours that move together leave this amount alone; by hand it still moves. Click to unlock"
        } else {
            "Free: proposals and pours that move together may change this amount. Click to lock; by hand it moves all the same"
        };
        if lock_button(ui, locked, &format!("Lock {name}"), teach).clicked() {
            outbox.edit(Edit::SetLocked {
                trial: self.trial.id,
                pour: self.index,
                locked: !locked,
            });
        }
    }

    /// Gives the reason when what was typed makes no sense.
    fn field(&self, ui: &mut Ui, name: &str, outbox: &mut Outbox) -> Option<String> {
        let Some(value) = self.pour.amount.value() else {
            ui.label(RichText::new(self.shown(0.0)).italics())
                .on_hover_text("The recipe gives no amount. Use the menu to give it one");
            return None;
        };
        let unit = match self.pour.amount {
            Amount::Grams(_) => Unit::Gram,
            Amount::Pieces(_) => Unit::Piece,
            _ => self.pour.unit,
        };
        let field = AmountField {
            name: &format!("Amount of {name}"),
            shown: self.shown(value),
            unit,
            measures: &self.document.measures,
            width: 84.0,
            enabled: self.open(),
        };
        let id = Id::unique(("amount", self.trial.id, self.index));
        let entered = field.show(ui, id);
        if let Some(entry) = entered.entry {
            let amount = match entry.quantity {
                Quantity::Ml(ml) => Amount::Ml(ml),
                Quantity::Grams(grams) => Amount::Grams(grams),
                Quantity::Pieces(pieces) => Amount::Pieces(pieces),
            };
            self.set(amount, entry.unit, outbox);
        }
        entered.error
    }

    fn set(&self, amount: Amount, unit: Unit, outbox: &mut Outbox) {
        outbox.edit(Edit::SetAmount {
            trial: self.trial.id,
            pour: self.index,
            amount,
            unit,
        });
    }

    fn slider(&self, ui: &mut Ui, name: &str, value: f64, outbox: &mut Outbox) {
        let step = step_of(self.pour, &self.document.measures);
        let most = track_end(self.pour, value, step);
        let proposed = self.proposed.map_or_else(String::new, |amount| {
            format!("\nSquare: {} as proposed", self.shown(amount))
        });
        let moves = why_kept(self.trial)
            .unwrap_or_else(|| "Shift drags finely, arrow keys step".to_owned());
        let back = if self.open() {
            "; double click goes back"
        } else {
            ""
        };
        let was = self.ghost.map_or_else(String::new, |ghost| {
            let shown = self.shown(ghost);
            format!("\nMark: {shown} in the trial before{back}")
        });
        let slider = AmountSlider {
            id: self.slider_id(self.index),
            name,
            value,
            most,
            step,
            ghost: self.ghost,
            proposed: self.proposed,
            enabled: self.open(),
            teach: &format!(
                "0 to {}, in notches of {}; {moves}{was}{proposed}",
                self.shown(most),
                self.shown(step)
            ),
        };
        let (response, moved) = slider.show(ui);
        if let Some(moved) = moved {
            self.set(self.pour.amount.with_value(moved), self.pour.unit, outbox);
        }
        if response.has_focus() {
            self.reorder_by_key(ui, outbox);
        }
    }

    fn slider_id(&self, index: usize) -> Id {
        Id::unique(("slider", self.trial.id, index))
    }

    /// Alt and an arrow carry the pour along; the focus goes with it.
    fn reorder_by_key(&self, ui: &Ui, outbox: &mut Outbox) {
        let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::ALT, key));
        let (up, down) = (pressed(Key::ArrowUp), pressed(Key::ArrowDown));
        let to = match (up, down) {
            (true, false) => self.index.checked_sub(1),
            (false, true) => Some(self.index + 1),
            _ => None,
        };
        if let Some(to) = to.filter(|to| *to < self.trial.pours.len()) {
            self.push_move(self.index, to, outbox);
            ui.memory_mut(|memory| memory.request_focus(self.slider_id(to)));
        }
    }

    fn facts(&self) -> String {
        let mut facts = vec![self.pour.role.name().to_owned()];
        if self.pour.is_left_out() {
            facts.push("left out".to_owned());
        }
        if self.pour.added != Added::With {
            facts.push(self.pour.added.name().to_owned());
        }
        let settled = self.document.settle(self.trial, self.pour);
        let item = settled.map(|settled| settled.ingredient.as_ref());
        facts.extend(pour_origin::facts(self.document, self.pour, item));
        if let Some(part) = self.part {
            facts.push(format!("{} g", number(part.grams, 1)));
            if !matches!(self.pour.amount, Amount::Ml(_)) {
                facts.push(format!("{} ml", number(part.volume_ml, 1)));
            }
            if let Some(cost) = part.cost {
                facts.push(format!("{} of the cost", percent(cost, 0)));
            }
        }
        if !self.pour.note.is_empty() {
            facts.push(self.pour.note.clone());
        }
        facts.join(" · ")
    }

    fn more(&self, ui: &mut Ui, name: &str, outbox: &mut Outbox) {
        let menu = ui.menu_button("…", |ui| {
            ui.set_min_width(190.0);
            let swaps = self.pour.amount.value().is_some_and(|value| value > 0.0);
            let swap = ui.add_enabled(swaps, Button::new("Swap…"));
            let teach = "What can take its place, with the balance given back";
            if swap.on_hover_text(teach).clicked() {
                outbox.intent(Intent::OpenSwap(self.index));
                ui.close();
            }
            ui.add_enabled_ui(self.open(), |ui| self.open_items(ui, outbox));
            pour_origin::sources(ui, self.index, outbox);
            ui.menu_button("Job in the drink", |ui| {
                outline_ticks(ui);
                for role in Role::ALL {
                    if ui.radio(self.pour.role == role, role.name()).clicked() {
                        outbox.edit(Edit::SetRole {
                            trial: self.trial.id,
                            pour: self.index,
                            role,
                        });
                    }
                }
            });
            // Fields are clicked into, which must not close these.
            let stays = MenuConfig::new().close_behavior(PopupCloseBehavior::CloseOnClickOutside);
            SubMenuButton::new("Notch and limits")
                .config(stays.clone())
                .ui(ui, |ui| {
                    outline_ticks(ui);
                    pour_limits::ui(ui, self.document, (self.trial, self.index), outbox);
                });
            SubMenuButton::new("Price of a pack")
                .config(stays)
                .ui(ui, |ui| {
                    outline_ticks(ui);
                    pour_price::ui(ui, self.document, self.trial, self.pour, outbox);
                });
            ui.separator();
            let remove = ui.add_enabled(self.open(), Button::new("Remove"));
            if says_why(remove).clicked() {
                outbox.edit(Edit::RemovePour {
                    trial: self.trial.id,
                    pour: self.index,
                });
                ui.close();
            }
        });
        let teach = "Swap, reorder, job, unit, when it is added, notch and limits, remove";
        named(menu.response, &format!("More for {name}"), teach);
    }

    fn open_items(&self, ui: &mut Ui, outbox: &mut Outbox) {
        let teach = "Any other ingredient at this amount; the balance goes where it goes";
        let replace = ui.button("Replace at this amount…");
        if says_why(replace.on_hover_text(teach)).clicked() {
            outbox.intent(Intent::Pick(PickFor::Swap(self.index)));
            ui.close();
        }
        let up = ui.add_enabled(self.index > 0, Button::new("Move up    Alt+↑"));
        if says_why(up).clicked() {
            self.push_move(self.index, self.index - 1, outbox);
            ui.close();
        }
        let last = self.index + 1 >= self.trial.pours.len();
        let down = ui.add_enabled(!last, Button::new("Move down    Alt+↓"));
        if says_why(down).clicked() {
            self.push_move(self.index, self.index + 1, outbox);
            ui.close();
        }
        let added = ui.menu_button("When it is added", |ui| {
            outline_ticks(ui);
            for added in [Added::With, Added::After, Added::Rinse] {
                if ui.radio(self.pour.added == added, added.name()).clicked() {
                    outbox.edit(Edit::SetAdded {
                        trial: self.trial.id,
                        pour: self.index,
                        added,
                    });
                }
            }
        });
        says_why(added.response);
        pour_origin::ui(ui, self.document, (self.trial, self.index), outbox);
        match self.pour.amount {
            Amount::Ml(ml) => {
                let units = ui.menu_button("Unit", |ui| {
                    outline_ticks(ui);
                    let measures = &self.document.measures;
                    for unit in Unit::ALL
                        .into_iter()
                        .filter(|unit| unit.ml(measures).is_some())
                    {
                        let words = unit.describe(measures);
                        if ui.radio(self.pour.unit == unit, words).clicked() {
                            self.set(Amount::Ml(ml), unit, outbox);
                        }
                    }
                });
                says_why(units.response);
            }
            Amount::Words(ref words) if ui.button("Give it an amount").clicked() => {
                let said = amount_said(words, &self.document.measures);
                let (amount, unit) = said.unwrap_or((Amount::Ml(0.0), Unit::Ml));
                self.set(amount, unit, outbox);
                ui.close();
            }
            _ => {}
        }
    }
}

/// Upper end of a track: room to double, on a step, and steady while dragging below it.
fn track_end(pour: &Pour, value: f64, step: f64) -> f64 {
    if let Some(maximum) = pour.most() {
        return maximum.max(value).max(step);
    }
    let least = match pour.amount {
        Amount::Grams(_) => 20.0,
        Amount::Pieces(_) => 4.0,
        _ if pour.unit == Unit::Dash || pour.unit == Unit::Drop => step * 12.0,
        _ => 60.0,
    };
    let mut end = least;
    // Doubling keeps the track where it is while the value moves inside it.
    while end < value * 1.0001 {
        end *= 2.0;
    }
    end
}
