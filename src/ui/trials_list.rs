//! The tree of trials: look one up, tick some to compare.

use super::empty;
use super::finding;
use super::intent::{Intent, Outbox};
use super::naming::named;
use super::theme::Tokens;
use super::trials_compare::TrialsCompare;
use super::trials_page::TrialsPage;
use super::trials_tools;
use crate::model::{Document, Spec, SpecId, Trial, TrialId, TrialState};
use crate::session::{Session, TreeRow, change_words, trial_tree};
use crate::units::steps;
use eframe::egui::{
    Align, Button, Checkbox, Label, Layout, RichText, ScrollArea, TextEdit, Ui, vec2,
};
use std::collections::BTreeSet;

/// Height of a row, points.
const ROW: f32 = 38.0;
/// How far a branch stands in, points.
const INDENT: f32 = 12.0;
/// Deepest branch that still stands in.
const DEEPEST: usize = 8;

/// View state of the tree.
#[derive(Debug, Default)]
pub(super) struct TrialsList {
    /// Show those that were put aside, too.
    archived: bool,
    /// Show marked ones only.
    starred: bool,
    /// Letters of a name, a reason or a verdict.
    search: String,
    /// Names that are chosen together, for what is done with several.
    chosen: BTreeSet<TrialId>,
    /// The trial that was on screen when they were chosen.
    shown: Option<TrialId>,
    /// The rows, and what they were laid out from.
    rows: Vec<TreeRow>,
    from: Option<(u64, SpecId, bool, bool, String)>,
}

impl TrialsList {
    /// Shows every trial.
    fn show_all(&mut self) {
        self.archived = true;
        self.starred = false;
        self.search.clear();
    }

    /// Trials that are chosen together; none while only the one on screen is meant.
    pub(super) const fn chosen(&self) -> &BTreeSet<TrialId> {
        &self.chosen
    }

    /// Lets the chosen ones go once another trial is on screen than one of them.
    fn follow(&mut self, shown: Option<TrialId>) {
        if self.shown != shown {
            self.shown = shown;
            if shown.is_some_and(|shown| !self.chosen.contains(&shown)) {
                self.chosen.clear();
            }
        }
    }

    /// Lays the rows out anew when something changed.
    fn refresh(&mut self, session: &Session, spec: &Spec) {
        let search = self.search.trim().to_lowercase();
        let from = (
            session.revision(),
            spec.id,
            self.archived,
            self.starred,
            search,
        );
        if self.from.as_ref() == Some(&from) {
            return;
        }
        let search = &from.4;
        let holds = |text: &str| text.to_lowercase().contains(search.as_str());
        let is_shown = |trial: &Trial| {
            (self.archived || !trial.archived)
                && (!self.starred || trial.starred)
                && (search.is_empty()
                    || [&trial.name, &trial.reason, &trial.verdict]
                        .iter()
                        .any(|text| holds(text)))
        };
        self.rows = trial_tree(spec, is_shown);
        // Nothing is done with what is out of sight.
        let places = self.rows.iter().map(|row| row.place);
        let seen: BTreeSet<TrialId> = places
            .filter_map(|place| Some(spec.trials.get(place)?.id))
            .collect();
        self.chosen.retain(|id| seen.contains(id));
        self.from = Some(from);
    }
}

/// Shows the tree.
pub(super) fn ui(ui: &mut Ui, session: &Session, page: &mut TrialsPage, outbox: &mut Outbox) {
    let Some(spec) = session.spec() else {
        empty::say(ui, "The tree of a drink's trials stands here.");
        return;
    };
    ui.add_space(2.0);
    tools(ui, &mut page.list);
    ui.separator();
    page.list.follow(session.selection().trial);
    page.list.refresh(session, spec);
    let rows = &page.list.rows;
    if rows.is_empty() {
        ui.label("No trial fits. Try fewer letters, or show those put aside.");
        let all = ui.button("Show all trials");
        let teach = "Clear the search, and show those put aside, too";
        if named(all, "Show all trials", teach).clicked() {
            page.list.show_all();
        }
        return;
    }
    let height = (ui.available_height() - trials_tools::HEIGHT).max(3.0 * ROW);
    ui.scope(|ui| list_rows(ui, session, (spec, height), page, outbox));
    ui.separator();
    trials_tools::ui(ui, session, page, outbox);
}

fn list_rows(
    ui: &mut Ui,
    session: &Session,
    (spec, height): (&Spec, f32),
    page: &mut TrialsPage,
    outbox: &mut Outbox,
) {
    let TrialsList { rows, chosen, .. } = &mut page.list;
    ui.spacing_mut().item_spacing.y = 0.0;
    ScrollArea::vertical()
        .id_salt("trials")
        .max_height(height)
        .auto_shrink(false)
        .show_rows(ui, ROW, rows.len(), |ui, shown| {
            for row in &rows[shown] {
                if let Some(trial) = spec.trials.get(row.place) {
                    line(
                        ui,
                        session,
                        (spec, trial, row.depth),
                        (&mut page.compare, chosen),
                        outbox,
                    );
                }
            }
        });
}

fn tools(ui: &mut Ui, list: &mut TrialsList) {
    ui.horizontal_wrapped(|ui| {
        let field = TextEdit::singleline(&mut list.search)
            .hint_text("Find a trial")
            .desired_width(104.0);
        let teach = "Trials whose name, reason or verdict holds these letters";
        named(finding::follow(ui.add(field)), "Search the trials", teach);
        let starred = ui.checkbox(&mut list.starred, "starred");
        named(starred, "Starred trials only", "Show marked trials only");
        let archived = ui.checkbox(&mut list.archived, "put aside");
        let teach = "Show trials that were put aside, too";
        named(archived, "Show trials put aside", teach);
    });
}

fn line(
    ui: &mut Ui,
    session: &Session,
    (spec, trial, depth): (&Spec, &Trial, usize),
    (compare, chosen): (&mut TrialsCompare, &mut BTreeSet<TrialId>),
    outbox: &mut Outbox,
) {
    let document = session.document();
    let tokens = Tokens::of(ui);
    let width = ui.available_width();
    ui.allocate_ui_with_layout(
        vec2(width, ROW),
        Layout::left_to_right(Align::Center),
        |ui| {
            ui.set_min_size(vec2(width, ROW));
            ui.add_space(INDENT * depth.min(DEEPEST) as f32);
            let mut ticked = compare.letter(trial.id).is_some();
            let letter = compare.letter(trial.id).unwrap_or(' ');
            let tick = ui.add_enabled(
                ticked || compare.has_room(),
                Checkbox::new(&mut ticked, RichText::new(letter.to_string()).monospace()),
            );
            let teach = "Put this trial beside the others that are ticked, up to four";
            if named(tick, &format!("Compare {}", trial.name), teach).changed() {
                compare.set(trial.id, ticked);
            }
            ui.vertical(|ui| {
                ui.spacing_mut().interact_size.y = 18.0;
                ui.horizontal(|ui| {
                    name(ui, trial, (session.selection().trial, chosen), outbox);
                    let small =
                        |words: &str| RichText::new(words.to_owned()).small().color(tokens.weak);
                    if trial.state != TrialState::Draft {
                        ui.label(small(trial.state.name()));
                    }
                    if trial.archived {
                        ui.label(small("put aside"));
                    }
                    if let Some(away) = from_target(session, trial) {
                        let teach = "Noticeable differences from the target";
                        ui.label(small(&away)).on_hover_text(teach);
                    }
                });
                let mut said = second(document, spec, trial);
                if trial.starred {
                    said = format!("starred · {said}");
                }
                ui.add(Label::new(RichText::new(said).small().color(tokens.weak)).truncate());
            });
        },
    );
}

/// The name of a trial: shows it, or with Ctrl chooses it beside others.
fn name(
    ui: &mut Ui,
    trial: &Trial,
    (shown, chosen): (Option<TrialId>, &mut BTreeSet<TrialId>),
    outbox: &mut Outbox,
) {
    let is_on = if chosen.is_empty() {
        shown == Some(trial.id)
    } else {
        chosen.contains(&trial.id)
    };
    let words = RichText::new(&trial.name).strong();
    let button = ui.add(Button::selectable(is_on, words).truncate());
    if !named(button, &trial.name, &about(trial)).clicked() {
        return;
    }
    if !ui.input(|input| input.modifiers.command) {
        chosen.clear();
        outbox.intent(Intent::ShowTrial(trial.id));
        return;
    }
    if chosen.is_empty() {
        // The one on screen looks chosen already.
        chosen.extend(shown);
        chosen.insert(trial.id);
    } else if !chosen.remove(&trial.id) {
        chosen.insert(trial.id);
    }
}

/// What changed, or why it was made where nothing did.
fn second(document: &Document, spec: &Spec, trial: &Trial) -> String {
    let changed = change_words(document, spec, trial);
    match (changed.is_empty(), trial.reason.is_empty()) {
        (false, true) => changed,
        (false, false) => format!("{changed} – {}", trial.reason),
        (true, false) => trial.reason.clone(),
        (true, true) if trial.parent.is_none() => "the first one".to_owned(),
        (true, true) => "as the trial before".to_owned(),
    }
}

/// How far a trial lies from its target.
fn from_target(session: &Session, trial: &Trial) -> Option<String> {
    let spec = session.spec()?;
    let target = spec.target.as_ref()?;
    let mut trail = session.derived()?.trail.iter();
    let point = trail.find(|seen| seen.id == trial.id)?.point;
    let senses = &session.document().senses;
    let found = crate::balance::steps_between(&point, &target.point, senses);
    Some(steps(found.distance(&spec.balancing.weights)))
}

fn about(trial: &Trial) -> String {
    let mut lines =
        vec!["Show this trial; Ctrl and click, or Ctrl+Space, choose several".to_owned()];
    if !trial.made_on.is_empty() {
        lines.push(format!(
            "Made on {}, {}",
            trial.made_on,
            trial.made_by.words()
        ));
    }
    for (head, text) in [("Why", &trial.reason), ("How it tasted", &trial.verdict)] {
        if !text.is_empty() {
            lines.push(format!("{head}: {text}"));
        }
    }
    lines.join("\n")
}
