//! Which rules a drink is entered under, which ingredients their products are, and rules as files.

use super::dialogs::Wanted;
use super::intent::{Intent, Outbox};
use super::naming::named;
use super::rules_view::{FileOutcome, RulesIntent, RulesView, added};
use super::theme::Tokens;
use crate::model::{Document, IngredientId, RuleKind, RuleSet, Spec, batch_rows};
use crate::session::{Edit, Session, SubmissionEdit, choose_product, enter_under, rules_of};
use crate::store::lands_at;
use eframe::egui::{Button, ComboBox, RichText, TextEdit, Ui};
use std::collections::BTreeSet;
use std::path::Path;

/// Shows the choice of rules, of products, and the file.
pub(super) fn choose(
    ui: &mut Ui,
    session: &Session,
    spec: &Spec,
    view: &mut RulesView,
    outbox: &mut Outbox,
) {
    ui.horizontal_wrapped(|ui| {
        ui.label("Entered under");
        which(ui, session, spec, outbox);
        if let Some(id) = &spec.entry.rules {
            let button = ui.small_button("Remove these rules");
            let teach =
                "Takes the set out of the document; every drink under it then stands without rules";
            if named(button, "Remove these rules", teach).clicked() {
                let remove = SubmissionEdit::RemoveRules { id: id.clone() };
                outbox.edit(Edit::Submission(remove));
            }
        }
    });
    let document = session.document();
    if let Some(set) = rules_of(document, spec) {
        for product in products(set) {
            which_product(ui, document, spec, product, outbox);
        }
    }
    file(ui, rules_of(document, spec).is_some(), view, outbox);
}

/// The set: none, one of the document, or one that comes with the program.
fn which(ui: &mut Ui, session: &Session, spec: &Spec, outbox: &mut Outbox) {
    let document = session.document();
    let shown = rules_of(document, spec).map_or("no rules", |set| set.name.as_str());
    let combo = ComboBox::from_id_salt("which rules")
        .selected_text(shown.to_owned())
        .width(220.0)
        .show_ui(ui, |ui| {
            let now = spec.entry.rules.as_ref();
            if ui.selectable_label(now.is_none(), "no rules").clicked() && now.is_some() {
                outbox.edit(enter_under(spec, None));
            }
            for (id, set) in document.rule_sets.iter() {
                if ui.selectable_label(now == Some(id), &set.name).clicked() && now != Some(id) {
                    outbox.edit(enter_under(spec, Some(id.clone())));
                }
            }
            let held = |name: &str| document.rule_sets.values().any(|own| own.name == name);
            let brought = session.builtin().rule_sets.iter();
            for set in brought.filter(|set| !held(&set.name)) {
                let words = format!("{} (example)", set.name);
                let teach = "An invented competition with usual rules; a copy of it comes into the document";
                if ui.selectable_label(false, words).on_hover_text(teach).clicked() {
                    outbox.edit(added(set.clone(), spec.id));
                }
            }
        });
    let teach = "Every rule of the set is looked at while you work, and proposals keep those that limit amounts";
    named(combo.response, "Rules of the competition", teach);
}

/// Products that the rules name, each once.
fn products(set: &RuleSet) -> BTreeSet<&str> {
    let rules = set.rules.iter();
    rules
        .filter_map(|rule| match &rule.asks {
            RuleKind::ProductAtLeast { product, .. }
            | RuleKind::ProductAtMost { product, .. }
            | RuleKind::OnlyOfItsKind { product } => Some(product.as_str()),
            _ => None,
        })
        .collect()
}

fn which_product(
    ui: &mut Ui,
    document: &Document,
    spec: &Spec,
    product: &str,
    outbox: &mut Outbox,
) {
    let chosen = spec.entry.products.get(product);
    let batches = batch_rows(document);
    let rows = document.ingredients.iter();
    let rows = rows.filter(|(id, _)| !batches.contains(id));
    let name = |id: &IngredientId| {
        let item = document.ingredients.get(id);
        item.map_or("?", |item| item.name.as_str())
    };
    ui.horizontal_wrapped(|ui| {
        ui.label(format!("\"{product}\" is"));
        let combo = ComboBox::from_id_salt(("product", product))
            .selected_text(chosen.map_or("the one of that name", name).to_owned())
            .width(220.0)
            .show_ui(ui, |ui| {
                let by_name = ui.selectable_label(chosen.is_none(), "the one of that name");
                if by_name.clicked() && chosen.is_some() {
                    outbox.edit(choose_product(spec, product, None));
                }
                for (id, item) in rows {
                    let label = ui.selectable_label(chosen == Some(id), &item.name);
                    if label.clicked() && chosen != Some(id) {
                        outbox.edit(choose_product(spec, product, Some(id.clone())));
                    }
                }
            });
        let teach = "The ingredient that the rules mean; its lots count as well";
        named(combo.response, &format!("Ingredient for {product}"), teach);
    });
}

/// Rules from a file and to a file.
fn file(ui: &mut Ui, entered: bool, view: &mut RulesView, outbox: &mut Outbox) {
    if let Some(path) = view.browser.answer() {
        view.path = path.display().to_string();
        view.outcome = None;
    }
    ui.horizontal_wrapped(|ui| {
        ui.label("File");
        let mut teach = "Path of a file that holds one set of rules; type or paste it".to_owned();
        if !view.path.trim().is_empty() {
            let whole = lands_at(Path::new(view.path.trim()));
            teach.push_str(&format!(". Now {whole}"));
        }
        let field = TextEdit::singleline(&mut view.path)
            .hint_text("…/rules.ron")
            .desired_width(260.0);
        if named(ui.add(field), "Path of the rules", &teach).changed() {
            view.outcome = None;
        }
        let typed = !view.path.trim().is_empty();
        let read = ui.add_enabled(typed, Button::new("Read"));
        let teach =
            "Takes the rules of that file into the document and enters the drink under them";
        if named(read, "Read the rules", teach).clicked() {
            outbox.intent(Intent::Rules(RulesIntent::Read));
        }
        let write = ui.add_enabled(typed && entered, Button::new("Write"));
        let teach = "Writes the rules of this drink to that file; a file there is asked about";
        if named(write, "Write the rules", teach).clicked() {
            outbox.intent(Intent::Rules(RulesIntent::Write { replace: false }));
        }
        let browse = ui.button("Browse…");
        let teach = "Choose the file in the desktop's dialog, where it has one";
        if named(browse, "Browse for rules", teach).clicked() {
            view.browser.ask(Wanted::Document, ui.ctx());
        }
    });
    outcome(ui, view, outbox);
}

fn outcome(ui: &mut Ui, view: &RulesView, outbox: &mut Outbox) {
    let warn = Tokens::of(ui).warn;
    if let Some(trouble) = view.browser.trouble() {
        ui.label(RichText::new(trouble).color(warn));
    }
    match &view.outcome {
        None => {}
        Some(FileOutcome::Done(words)) => {
            ui.label(words);
        }
        Some(FileOutcome::Failed(words)) => {
            ui.label(RichText::new(words).color(warn));
        }
        Some(FileOutcome::Exists) => {
            ui.horizontal_wrapped(|ui| {
                ui.label("There is a file of that name. If it holds rules, these can take its place; the old ones stay beside it as .bak.");
                let button = ui.button("Replace it");
                let teach = "Writes over the file; it is left alone if it holds no rules that can be read";
                if named(button, "Replace the rules there", teach).clicked() {
                    outbox.intent(Intent::Rules(RulesIntent::Write { replace: true }));
                }
            });
        }
    }
}
