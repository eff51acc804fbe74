//! Trials side by side.

use super::empty;
use super::intent::{Intent, Outbox};
use super::naming::named;
use super::theme::Tokens;
use super::trials_pours::PourLine;
use super::{trials_charts, trials_take};
use crate::balance::Pantry;
use crate::model::TrialId;
use crate::session::{
    Command, Edit, FigureRow, MOST_COLUMNS, PourRow, Session, SideBySide, TrialEdit, side_by_side,
};
use crate::store::write_plain_table;
use eframe::egui::{Button, Label, RichText, ScrollArea, Sense, Ui};
use egui_extras::{Column, TableBuilder, TableRow};

/// Width of the heads of rows, points.
const HEAD: f32 = 112.0;
/// Height of a row, points.
const ROW: f32 = 22.0;
/// Most width of a column, points: farther apart, lines are not read across.
const MOST: f32 = 400.0;
/// Least width of a column, points.
const LEAST: f32 = 150.0;

/// View state of the columns.
#[derive(Debug, Default)]
pub(super) struct TrialsCompare {
    /// The trials, in the order they were ticked.
    ids: Vec<TrialId>,
    /// Place of the one that all are compared with.
    baseline: usize,
    /// Show only what differs.
    differing: bool,
    /// The column under the pointer, in the table or on a chart.
    pointed: Option<usize>,
    /// The columns whose pours a new trial takes, row by row; `None` leaves a row out.
    merging: Option<Vec<Option<usize>>>,
    pantry: Pantry,
    shown: Option<(u64, Vec<TrialId>, usize, SideBySide)>,
}

impl TrialsCompare {
    /// The letter of a trial's column.
    pub(super) fn letter(&self, id: TrialId) -> Option<char> {
        let place = self.ids.iter().position(|known| *known == id)?;
        letter(place)
    }

    /// The trials that are ticked, in that order.
    pub(super) fn ticked(&self) -> &[TrialId] {
        &self.ids
    }

    /// Lays two trials side by side, the first as the one compared with.
    pub(super) fn lay(&mut self, one: TrialId, other: TrialId) {
        self.ids = vec![one, other];
        self.baseline = 0;
    }

    /// One more trial can be ticked.
    pub(super) const fn has_room(&self) -> bool {
        self.ids.len() < MOST_COLUMNS
    }

    /// Puts a trial among the columns, or takes it out.
    pub(super) fn set(&mut self, id: TrialId, ticked: bool) {
        let base = self.ids.get(self.baseline).copied();
        self.ids.retain(|known| *known != id);
        if ticked && self.has_room() {
            self.ids.push(id);
        }
        let kept = self.ids.iter().position(|known| Some(*known) == base);
        self.baseline = kept.unwrap_or(0);
    }

    /// The first two columns, to flick between.
    pub(super) fn pair(&self, session: &Session) -> Option<(TrialId, TrialId)> {
        match *self.columns(session) {
            [one, other, ..] => Some((one, other)),
            _ => None,
        }
    }

    /// Ticks two trials where less than two are ticked.
    pub(super) fn keep(&mut self, one: TrialId, other: TrialId) {
        if self.ids.len() < 2 {
            self.ids = vec![one, other];
        }
    }

    /// What is laid side by side: what is ticked; where that is less than two, the trial on screen
    /// beside the ticked one, its parent or the first.
    fn columns(&self, session: &Session) -> Vec<TrialId> {
        let held = |id: &TrialId| session.document().trial(*id).is_some();
        let mut ids: Vec<TrialId> = self.ids.iter().copied().filter(held).collect();
        let Some((spec, trial)) = session.spec().zip(session.trial()) else {
            return ids;
        };
        if ids.len() < 2 {
            let parent = trial.parent.filter(held);
            let first = spec.trials.first().map(|first| first.id);
            let others = [parent, first].into_iter().flatten();
            if ids.is_empty() {
                ids.extend(others.filter(|id| *id != trial.id).take(1));
            }
            if !ids.contains(&trial.id) {
                ids.push(trial.id);
            }
        }
        ids
    }

    fn refresh(&mut self, session: &Session) {
        let ids = self.columns(session);
        self.ids.retain(|id| ids.contains(id));
        self.baseline = self.baseline.min(ids.len().saturating_sub(1));
        let revision = session.revision();
        let fresh = matches!(&self.shown, Some((at, known, base, _))
            if *at == revision && *known == ids && *base == self.baseline);
        if !fresh {
            let document = session.document();
            let found = side_by_side(document, &ids, self.baseline, &mut self.pantry);
            self.shown = Some((revision, ids, self.baseline, found));
            self.merging = None;
        }
    }

    /// Shows the columns.
    pub(super) fn ui(&mut self, ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
        self.refresh(session);
        let Some((at, ids, base, found)) = self.shown.take() else {
            return;
        };
        if ids.len() < 2 {
            self.shown = Some((at, ids, base, found));
            ui.label("There is one trial only. Grow another with “New trial”, change it, and see here what that does.");
            empty::way(ui, Command::NewTrial, outbox);
            return;
        }
        ui.horizontal_wrapped(|ui| {
            let differing = ui.checkbox(&mut self.differing, "only what differs");
            let teach = "Leave out rows in which all columns are alike";
            named(differing, "Only what differs", teach);
            if self.ids.is_empty() {
                let hint = "Tick two to four trials in the tree to lay others side by side.";
                ui.label(RichText::new(hint).color(Tokens::of(ui).weak));
            } else {
                let clear = ui.button("Clear");
                let teach = "Tick none: the trial on screen then stands beside its parent";
                if named(clear, "Clear the comparison", teach).clicked() {
                    self.ids.clear();
                    self.baseline = 0;
                }
            }
            trials_take::ui(ui, session, &found, outbox);
            self.merge_tools(ui, &found, outbox);
            copies(ui, &found, base);
        });
        let mut pointed = None;
        let charts = trials_charts::height(ui);
        let room = (ui.available_height() - charts).max(160.0);
        ScrollArea::horizontal()
            .id_salt("side by side")
            .max_height(room)
            .auto_shrink([false, true])
            .show(ui, |ui| {
                pointed = self.table(ui, session, (&found, room), outbox);
            });
        let on_chart = trials_charts::ui(ui, session, &found, (self.baseline, self.pointed));
        let pointed = pointed.or(on_chart);
        if self.pointed != pointed {
            // What was drawn before the pointer was known is drawn again.
            self.pointed = pointed;
            ui.ctx().request_repaint();
        }
        self.shown = Some((at, ids, base, found));
    }

    /// Begins a new trial from pours of several, or makes it.
    fn merge_tools(&mut self, ui: &mut Ui, found: &SideBySide, outbox: &mut Outbox) {
        let Some(chosen) = &self.merging else {
            let merge = ui.button("Merge…");
            let teach = "Choose pours from these columns for a new trial";
            if named(merge, "Merge into a new trial…", teach).clicked() {
                let base = self.baseline;
                let first = |row: &PourRow| row.cells.get(base)?.as_ref().map(|_| base);
                self.merging = Some(found.pours.iter().map(first).collect());
            }
            return;
        };
        let base = letter(self.baseline).unwrap_or(' ');
        ui.label(format!(
            "The new trial takes the marked pours, those of {base} at first: click others, of one more column, to change that."
        ));
        let edit = merged(found, self.baseline, chosen);
        let make = ui.add_enabled(edit.is_some(), Button::new("Make the trial"));
        let teach =
            "Grow a trial with the chosen pours; its technique is that of the column compared with";
        if named(make, "Make the merged trial", teach).clicked()
            && let Some(edit) = edit
        {
            outbox.edit(Edit::Trial(edit));
            self.merging = None;
        } else if named(ui.button("Cancel"), "Cancel merging", "Take nothing over").clicked() {
            self.merging = None;
        }
    }

    /// Shows pours and figures; the column under the pointer.
    fn table(
        &mut self,
        ui: &mut Ui,
        session: &Session,
        (found, room): (&SideBySide, f32),
        outbox: &mut Outbox,
    ) -> Option<usize> {
        let keeps = |differs: bool| differs || !self.differing;
        let pours = found.pours.iter().enumerate();
        let pours: Vec<(usize, &PourRow)> = pours.filter(|(_, row)| keeps(row.differs)).collect();
        let figures = found.figures.iter().filter(|row| keeps(row.differs));
        let figures: Vec<&FigureRow> = figures.collect();
        let mut pointed = None;
        TableBuilder::new(ui)
            .id_salt("side by side")
            .striped(true)
            // Heads stay in sight; the rows scroll.
            .max_scroll_height(room - 2.0 * ROW)
            .min_scrolled_height(3.0 * ROW)
            .sense(Sense::hover())
            .column(Column::exact(HEAD))
            .columns(
                Column::remainder().at_least(LEAST).at_most(MOST).clip(true),
                found.columns.len(),
            )
            .header(ROW, |mut row| {
                row.col(|_| {});
                for place in 0..found.columns.len() {
                    row.col(|ui| {
                        ui.horizontal(|ui| self.head(ui, session, (found, place), outbox));
                    });
                }
            })
            .body(|body| {
                body.rows(ROW, pours.len() + figures.len(), |mut row| {
                    let place = row.index();
                    let column = if let Some((at, line)) = pours.get(place) {
                        let merging = self.merging.as_mut().and_then(|all| all.get_mut(*at));
                        let say = PourLine {
                            line,
                            found,
                            session,
                            baseline: self.baseline,
                        };
                        say.ui(&mut row, merging, outbox)
                    } else {
                        figure_line(&mut row, figures[place - pours.len()])
                    };
                    pointed = pointed.or(column);
                });
            });
        pointed
    }

    fn head(
        &mut self,
        ui: &mut Ui,
        session: &Session,
        (found, place): (&SideBySide, usize),
        outbox: &mut Outbox,
    ) {
        let column = &found.columns[place];
        let letter = letter(place).unwrap_or(' ');
        let base = ui.radio(self.baseline == place, "");
        let teach = "Compare the others with this one";
        if named(base, &format!("Compare with {}", column.name), teach).clicked() {
            self.baseline = place;
        }
        let chosen = session.selection().trial == Some(column.id);
        let words = RichText::new(format!("{letter}  {}", column.name)).strong();
        let head = ui.add(Button::selectable(chosen, words).truncate());
        let teach = "Show this trial here and on the Balance page";
        let head = named(head, &format!("Column {letter}: {}", column.name), teach);
        if head.clicked() {
            outbox.intent(Intent::ShowTrial(column.id));
        }
    }
}

/// Puts the table on the clipboard.
fn copies(ui: &mut Ui, found: &SideBySide, baseline: usize) {
    let copy = ui.button("Copy as Markdown");
    let teach = "Put this table on the clipboard, to paste into a report";
    if named(copy, "Copy the comparison as Markdown", teach).clicked() {
        ui.ctx().copy_text(found.markdown(baseline));
    }
    let copy = ui.button("Copy as CSV");
    let teach = "Put this table on the clipboard, to paste into a spreadsheet";
    if named(copy, "Copy the comparison as CSV", teach).clicked()
        && let Ok(text) = write_plain_table(&found.table(baseline))
    {
        ui.ctx().copy_text(text);
    }
}

/// The new trial with the chosen pours; `None` while they are all of the column compared with, or of
/// more than one other.
fn merged(found: &SideBySide, baseline: usize, chosen: &[Option<usize>]) -> Option<TrialEdit> {
    let from = found.columns.get(baseline)?;
    let mut others = chosen
        .iter()
        .flatten()
        .filter(|column| **column != baseline);
    let other = *others.next()?;
    // A trial has one parent and one that it was merged with.
    if others.any(|column| *column != other) {
        return None;
    }
    let other = found.columns.get(other)?;
    let pours = found.pours.iter().zip(chosen).filter_map(|(row, column)| {
        let column = (*column)?;
        let cell = row.cells.get(column)?.as_ref()?;
        Some((found.columns.get(column)?.id, cell.place))
    });
    Some(TrialEdit::Merge {
        from: from.id,
        other: other.id,
        pours: pours.collect(),
        reason: format!("{} with pours of {}", from.name, other.name),
    })
}

/// One figure over all columns; the column under the pointer.
fn figure_line(row: &mut TableRow<'_, '_>, line: &FigureRow) -> Option<usize> {
    let mut pointed = None;
    let (_, head) = row.col(|ui| weak(ui, line.name));
    head.on_hover_text(line.explain);
    for (place, (value, more)) in line.cells.iter().enumerate() {
        let (_, shown) = row.col(|ui| {
            let words = if more.is_empty() {
                RichText::new(value)
            } else {
                RichText::new(format!("{value}  ({more})")).color(Tokens::of(ui).accent)
            };
            ui.add(Label::new(words).truncate());
        });
        if shown.contains_pointer() {
            pointed = Some(place);
        }
    }
    pointed
}

pub(super) fn weak(ui: &mut Ui, words: &str) {
    ui.label(RichText::new(words).color(Tokens::of(ui).weak));
}

/// A, B, C, D.
pub(super) fn letter(place: usize) -> Option<char> {
    ['A', 'B', 'C', 'D'].get(place).copied()
}
