//! Flavour words of the pours on screen: a dot where a pour carries a word.

use super::chart_table;
use super::intent::Outbox;
use super::naming::{described, overview};
use super::theme::Tokens;
use crate::balance::{FlavourNote, flavours};
use crate::chart::flavour_words;
use crate::session::{Command, Session};
use eframe::egui::{Grid, Label, RichText, ScrollArea, Ui, vec2};

/// Width of the words, points.
const WORDS: f32 = 130.0;

/// Shows the matrix.
pub(super) fn ui(ui: &mut Ui, session: &Session, height: f32, outbox: &mut Outbox) {
    let Some(trial) = session.trial() else {
        return;
    };
    let document = session.document();
    let notes = flavours(document, trial);
    if notes.is_empty() {
        ui.horizontal_wrapped(|ui| {
            ui.label(
                RichText::new(
                    "No pour has flavour words yet. Write them in its row of the larder.",
                )
                .weak(),
            );
            let info = Command::LarderView.info();
            let button = ui.small_button("Go to the larder");
            if button.on_hover_text(info.explain).clicked() {
                outbox.command(info.command);
            }
        });
        return;
    }
    let names: Vec<&str> = trial
        .pours
        .iter()
        .map(|pour| {
            document
                .settle(trial, pour)
                .map_or("?", |settled| settled.name)
        })
        .collect();
    let said = flavour_words(&names, &notes);
    let words_only = chart_table::is_chosen(ui);
    if words_only {
        ui.label(RichText::new(&said).italics());
    } else {
        overview(ui, "Shared flavours", &said, height);
    }
    let left = ui.available_width() - WORDS - 30.0;
    let width = (left / names.len().max(1) as f32 - 8.0).clamp(56.0, 120.0);
    ScrollArea::both()
        .id_salt("flavours")
        .max_height(height)
        .auto_shrink(false)
        .show(ui, |ui| {
            Grid::new("flavours grid")
                .striped(true)
                .spacing(vec2(8.0, 1.0))
                .show(ui, |ui| {
                    ui.spacing_mut().interact_size.y = 17.0;
                    heads(ui, &names, width);
                    for note in &notes {
                        row(ui, note, (&names, width), words_only);
                    }
                });
        });
}

fn heads(ui: &mut Ui, names: &[&str], width: f32) {
    cell(ui, WORDS, RichText::new("shared first").small().weak());
    for name in names {
        cell(ui, width, RichText::new(*name).small());
    }
    ui.end_row();
}

fn row(ui: &mut Ui, note: &FlavourNote, (names, width): (&[&str], f32), words_only: bool) {
    let tokens = Tokens::of(ui);
    let shared = note.count() > 1;
    let word = RichText::new(&note.word);
    cell(ui, WORDS, if shared { word.strong() } else { word.weak() });
    let color = if shared { tokens.accent } else { tokens.weak };
    for (name, carried) in names.iter().zip(&note.carried) {
        if !carried {
            ui.label("");
            continue;
        }
        if words_only {
            cell(ui, width, RichText::new("carries it").small());
            continue;
        }
        let dot = ui
            .scope(|ui| {
                ui.set_width(width);
                ui.label(RichText::new("●").color(color))
            })
            .inner;
        let said = format!("{name}: {}", note.word);
        described(&dot, &said, &said);
        dot.on_hover_text(said);
    }
    ui.end_row();
}

fn cell(ui: &mut Ui, width: f32, text: RichText) {
    ui.scope(|ui| {
        ui.set_width(width);
        ui.add(Label::new(text).truncate());
    });
}
