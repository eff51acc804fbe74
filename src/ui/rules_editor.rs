//! The rules that a drink is entered under: chosen, changed, switched off, added, removed.

use super::intent::Outbox;
use super::naming::named;
use super::rules_fields::fields;
use super::rules_form::RuleForm;
use super::rules_kinds::{KINDS, kind_of};
use super::rules_view::{RulesView, changed};
use super::theme::Tokens;
use super::word_field::{WordEntered, WordField};
use crate::model::{Rule, RuleSet, RuleSetId, free_name};
use crate::service::rule_title;
use crate::session::Session;
use eframe::egui::{Grid, Id, RichText, Ui, vec2};
use std::sync::Arc;

/// Width of a note, points.
const NOTE: f32 = 320.0;

/// Shows which rules the drink is entered under, and on demand their fields.
pub(super) fn ui(ui: &mut Ui, session: &Session, view: &mut RulesView, outbox: &mut Outbox) {
    let Some(spec) = session.spec() else {
        return;
    };
    let sets = &session.document().rule_sets;
    let entered = spec.entry.rules.as_ref();
    let Some((id, set)) = entered.and_then(|id| sets.get_key_value(id)) else {
        return;
    };
    let button = ui.selectable_label(view.editing, "Change the rules");
    let teach = "Shows every rule of this set with its fields; they are kept in the document";
    if named(button, "Change the rules", teach).clicked() {
        view.editing = !view.editing;
    }
    if view.editing {
        Editor { id, set }.ui(ui, view, outbox);
    }
}

/// A set of rules being changed.
struct Editor<'a> {
    id: &'a RuleSetId,
    set: &'a Arc<RuleSet>,
}

impl Editor<'_> {
    fn ui(&self, ui: &mut Ui, view: &mut RulesView, outbox: &mut Outbox) {
        self.name(ui, outbox);
        let places = 0..self.set.rules.len();
        for place in places {
            self.rule(ui, place, view, outbox);
        }
        self.add(ui, view, outbox);
    }

    fn name(&self, ui: &mut Ui, outbox: &mut Outbox) {
        ui.horizontal_wrapped(|ui| {
            ui.label("Name");
            let field = WordField {
                name: "Name of the rules",
                teach: "The competition, as findings and limits name it",
                value: &self.set.name,
                hint: "competition",
                width: NOTE,
            };
            let id = Id::unique(("rules name", &self.id.0));
            if let WordEntered::Words(name) = field.show(ui, id, |_| Ok(())) {
                let mut set = RuleSet::clone(self.set);
                set.name = name;
                outbox.edit(changed(self.id, set, "Name the rules"));
            }
        });
    }

    /// One rule: whether it is looked at, what it asks, and its fields where it is open.
    fn rule(&self, ui: &mut Ui, place: usize, view: &mut RulesView, outbox: &mut Outbox) {
        let Some(rule) = self.set.rules.get(place) else {
            return;
        };
        let number = place + 1;
        let open = view.open.as_ref() == Some(&rule.key);
        let mut new = rule.clone();
        if line(ui, number, &mut new, view) {
            let mut set = RuleSet::clone(self.set);
            set.rules.remove(place);
            outbox.edit(changed(self.id, set, "Remove a rule"));
            return;
        }
        if open {
            self.fields(ui, number, &mut new);
        }
        if new != *rule {
            let what = if new.off == rule.off {
                "Change a rule"
            } else {
                "Switch a rule"
            };
            let mut set = RuleSet::clone(self.set);
            if let Some(rule) = set.rules.get_mut(place) {
                *rule = new;
            }
            outbox.edit(changed(self.id, set, what));
        }
    }

    fn fields(&self, ui: &mut Ui, number: usize, rule: &mut Rule) {
        let id = Id::unique(("rule", &self.id.0, &rule.key));
        ui.indent(id, |ui| {
            let grid = Grid::new(id.with("fields")).num_columns(2);
            grid.spacing(vec2(8.0, 4.0)).show(ui, |ui| {
                let mut form = RuleForm { ui, id, number };
                fields(&mut form, &mut rule.asks);
                let teach = "The organiser's words, or where they stand";
                form.maybe_word("Note", teach, &mut rule.note);
            });
        });
    }

    /// The menu of kinds for one rule more.
    fn add(&self, ui: &mut Ui, view: &mut RulesView, outbox: &mut Outbox) {
        let menu = ui.menu_button("Add a rule", |ui| {
            for kind in &KINDS {
                let name = format!("Add: {}", kind.name);
                if named(ui.button(kind.name), &name, kind.teach).clicked() {
                    let mut set = RuleSet::clone(self.set);
                    let taken = |key: &str| set.rules.iter().any(|rule| rule.key == key);
                    let key = free_name(kind.name, taken);
                    view.open = Some(key.clone());
                    set.rules.push(Rule {
                        key,
                        asks: (kind.new)(),
                        note: String::new(),
                        off: false,
                    });
                    outbox.edit(changed(self.id, set, "Add a rule"));
                    ui.close();
                }
            }
        });
        named(
            menu.response,
            "Add a rule",
            "One rule more at the end, of any kind",
        );
    }
}

/// The line of one rule: its tick, what it asks, and how to change it; true when it is to be removed.
fn line(ui: &mut Ui, number: usize, rule: &mut Rule, view: &mut RulesView) -> bool {
    let row = ui.horizontal_wrapped(|ui| {
        let mut on = !rule.off;
        let tick = ui.checkbox(&mut on, "");
        let teach = "Unticked, the rule is kept but not looked at";
        named(tick, &format!("Rule {number} on"), teach);
        let tokens = Tokens::of(ui);
        let color = if rule.off { tokens.weak } else { tokens.text };
        rule.off = !on;
        let title = rule_title(&rule.asks);
        ui.label(RichText::new(title).color(color))
            .on_hover_text(&rule.note);
        let open = view.open.as_ref() == Some(&rule.key);
        let change = ui.selectable_label(open, "Change");
        let teach = kind_of(&rule.asks).teach;
        if named(change, &format!("Change rule {number}"), teach).clicked() {
            view.open = (!open).then(|| rule.key.clone());
        }
        let remove = ui.small_button("×");
        let teach = "Takes the rule out of this set; it can be undone";
        named(remove, &format!("Remove rule {number}"), teach).clicked()
    });
    row.inner
}
