//! The substitution table of a trial: to read, to copy, to save.

use super::dialogs::{FileBrowser, Wanted};
use super::file_target::FileTarget;
use super::intent::Outbox;
use super::naming::named;
use super::number_field::NumberField;
use super::theme::Tokens;
use crate::model::{ScaleRule, TrialId};
use crate::rebalance::{SubstitutionAsk, Substitutions, SwapAim};
use crate::session::{Session, SwapAsk, SwapFound, SwapWhat};
use crate::store::{file_name_of, save_substitutions};
use eframe::egui::{Grid, Label, RichText, ScrollArea, Ui};
use std::path::PathBuf;

/// Widths of the columns, points.
const WIDTHS: [f32; 9] = [118.0, 62.0, 128.0, 62.0, 200.0, 56.0, 210.0, 96.0, 70.0];
/// Height of all but the table, points.
const AROUND: f32 = 210.0;
/// Height of what asks for a path, points.
const PATH: f32 = 120.0;

/// The trial, the aim and what is held.
pub(super) type Common = (TrialId, SwapAim, ScaleRule);

/// State of the table.
#[derive(Clone, Debug)]
pub(super) struct SubstitutionView {
    each: usize,
    /// Open while the table is to be saved.
    to: Option<FileTarget>,
    name: PathBuf,
}

impl SubstitutionView {
    pub(super) fn of(session: &Session) -> Self {
        let drink = session.spec().map_or("", |spec| &spec.name);
        let name = file_name_of(&format!("substitutes {drink}"));
        Self {
            each: 2,
            to: None,
            name: PathBuf::from(name).with_extension("csv"),
        }
    }

    /// What is asked.
    pub(super) fn ask(&self, common: Common, without: &[&'static str]) -> SwapAsk {
        let (trial, aim, hold) = common;
        SwapAsk {
            trial,
            aim,
            hold,
            what: SwapWhat::Table(SubstitutionAsk {
                each: self.each,
                without: without.to_vec(),
            }),
        }
    }

    /// Writes the table that is shown.
    pub(super) fn write(
        &mut self,
        session: &Session,
        (common, without): (Common, &[&'static str]),
        replace: bool,
    ) {
        let ask = self.ask(common, without);
        if let (Some(to), Some(Ok(SwapFound::Table(table)))) =
            (&mut self.to, session.swap_answer(&ask))
        {
            to.write(|path| save_substitutions(table, path, replace));
        }
    }

    /// Shows it; false when the candidates are wanted again.
    pub(super) fn ui(
        &mut self,
        ui: &mut Ui,
        session: &Session,
        (common, without): (Common, &[&'static str]),
        browser: &mut FileBrowser,
        outbox: &mut Outbox,
    ) -> bool {
        let mut stays = true;
        let ask = self.ask(common, without);
        let table = match session.swap_answer(&ask) {
            Some(Ok(SwapFound::Table(table))) => Some(table),
            Some(Err(why)) => {
                let warn = Tokens::of(ui).warn;
                ui.label(RichText::new(format!("Nothing to show: {why}.")).color(warn));
                None
            }
            _ => {
                ui.label(RichText::new("Looking through the larder for every pour…").weak());
                None
            }
        };
        if let Some(table) = table {
            let path = if self.to.is_some() { PATH } else { 0.0 };
            let room = ui.ctx().content_rect().height() - AROUND - path;
            ScrollArea::both()
                .id_salt("substitutions")
                .max_height(room.max(120.0))
                .min_scrolled_height(room.max(120.0))
                .show(ui, |ui| grid(ui, table));
        }
        ui.add_space(4.0);
        ui.horizontal(|ui| {
            let teach = "How many are listed for every pour, the best first";
            let field = NumberField::new("Substitutes for each pour", teach, 1.0..=6.0);
            field.unit(" each").show(ui, &mut self.each);
            if let Some(table) = table {
                self.take_along(ui, session, table);
            }
            let back = ui.button("Back to the swap");
            if named(back, "Back to the swap", "Choose what is poured instead").clicked() {
                stays = false;
            }
        });
        if let (Some(to), Some(_)) = (&mut self.to, table) {
            let what = ("Save the table", Wanted::SubstitutionsName);
            to.ui(ui, what, browser, outbox);
        }
        stays
    }

    fn take_along(&mut self, ui: &mut Ui, session: &Session, table: &Substitutions) {
        let copy = ui.button("Copy as Markdown");
        if named(
            copy,
            "Copy as Markdown",
            "The table as text for a recipe sheet",
        )
        .clicked()
        {
            ui.copy_text(table.markdown(&title(session)));
        }
        let save = ui.button("Save as CSV…");
        if named(save, "Save as CSV…", "A table for a spreadsheet").clicked() {
            self.to = Some(FileTarget::of(&self.name));
        }
    }
}

fn title(session: &Session) -> String {
    let spec = session.spec().map_or("", |spec| &spec.name);
    let trial = session.trial().map_or("", |trial| &trial.name);
    format!("Substitutes for {spec}, {trial}")
}

fn grid(ui: &mut Ui, table: &Substitutions) {
    if table.rows.is_empty() {
        ui.label("Nothing in the larder can take the place of these pours.");
    } else {
        Grid::new("substitutions")
            .num_columns(WIDTHS.len())
            .striped(true)
            .spacing([10.0, 4.0])
            .show(ui, |ui| {
                for (head, width) in Substitutions::HEADS.into_iter().zip(WIDTHS) {
                    cell(ui, width, RichText::new(head).small().strong());
                }
                ui.end_row();
                for cells in table.cells() {
                    for (text, width) in cells.into_iter().zip(WIDTHS) {
                        cell(ui, width, RichText::new(text).small());
                    }
                    ui.end_row();
                }
            });
    }
    for one in &table.without {
        let words = format!("No substitute for {}: {}.", one.name, one.why);
        ui.label(RichText::new(words).small().weak());
    }
}

fn cell(ui: &mut Ui, width: f32, text: RichText) {
    ui.vertical(|ui| {
        ui.set_width(width);
        ui.add(Label::new(text).wrap());
    });
}
