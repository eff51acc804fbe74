//! How sure the figures are, and where their error comes from.

use super::chart_table;
use super::intent::{Intent, Outbox};
use super::naming::{described, named, overview};
use super::theme::Tokens;
use crate::balance::Share;
use crate::chart::{Hue, error_words};
use crate::session::{Session, input_text, measure_next};
use crate::units::percent;
use eframe::egui::{Grid, Rect, RichText, ScrollArea, Sense, Ui, vec2};

/// Sources that are named; the rest is summed up.
const NAMED: usize = 12;

/// Shows the table of sources in `height` points.
pub(super) fn ui(ui: &mut Ui, session: &Session, height: f32, outbox: &mut Outbox) {
    let (Some(trial), Some(derived)) = (session.trial(), session.derived()) else {
        return;
    };
    let document = session.document();
    let Some(sure) = &derived.uncertainty else {
        ui.label("Pour something first: then the error of every figure shows here.");
        return;
    };
    let known = sure.shares.iter();
    let known = known.map(|each| (input_text(document, trial, &each.input), each.share));
    let said = error_words(&known.collect::<Vec<_>>());
    let words_only = chart_table::is_chosen(ui);
    if words_only {
        ui.label(RichText::new(&said).italics());
    } else {
        overview(ui, "Sources of error", &said, height);
    }
    ScrollArea::both()
        .id_salt("sureness")
        .max_height(height)
        .auto_shrink(false)
        .show(ui, |ui| {
            ui.horizontal_wrapped(|ui| {
                if let Some(first) = sure.shares.first() {
                    ui.label(RichText::new(measure_next(document, trial, first)).strong());
                }
                let report = ui.small_button("Full report…");
                let teach = "Draw thousands of such drinks with every error at once";
                if named(report, "Full report…", teach).clicked() {
                    outbox.intent(Intent::AskReport);
                }
            });
            Grid::new("sureness grid")
                .striped(true)
                .spacing(vec2(10.0, 1.0))
                .show(ui, |ui| {
                    ui.spacing_mut().interact_size.y = 17.0;
                    head(ui);
                    for share in sure.shares.iter().take(NAMED) {
                        let name = input_text(document, trial, &share.input);
                        row(ui, &name, share, words_only);
                    }
                });
            let rest: f64 = sure.shares.iter().skip(NAMED).map(|each| each.share).sum();
            if rest > 0.0 {
                let words = format!("and {} from smaller ones", percent(rest, 0));
                ui.label(RichText::new(words).small().weak());
            }
        });
}

fn head(ui: &mut Ui) {
    let tokens = Tokens::of(ui);
    ui.label(RichText::new("Where the error comes from").strong());
    ui.label(RichText::new("of all").small())
        .on_hover_text("Share of the whole variance, counted in noticeable differences");
    for (name, glyph, hue) in [
        ("sweet", "●", Hue::Sweet),
        ("sour", "▲", Hue::Sour),
        ("strength", "■", Hue::Strength),
    ] {
        let text = RichText::new(format!("{glyph} {name}"))
            .small()
            .color(tokens.words(hue));
        ui.label(text)
            .on_hover_text(format!("Share of the variance of {name}"));
    }
    ui.end_row();
}

fn row(ui: &mut Ui, name: &str, share: &Share, words_only: bool) {
    ui.label(name);
    if words_only {
        ui.label(RichText::new(percent(share.share, 0)).small());
    } else {
        bar(ui, name, share.share);
    }
    for part in [share.sweet, share.sour, share.strength] {
        ui.label(RichText::new(percent(part, 0)).small());
    }
    ui.end_row();
}

fn bar(ui: &mut Ui, name: &str, share: f64) {
    let tokens = Tokens::of(ui);
    ui.horizontal(|ui| {
        let (rect, response) = ui.allocate_exact_size(vec2(70.0, 14.0), Sense::hover());
        let full = Rect::from_min_size(rect.min + vec2(0.0, 3.0), vec2(70.0, 8.0));
        let filled = Rect::from_min_size(full.min, vec2(70.0 * share as f32, 8.0));
        let painter = ui.painter();
        painter.rect_filled(full, 2.0, super::theme::faint(tokens.accent, 0.15));
        painter.rect_filled(filled, 2.0, tokens.accent);
        described(&response, name, &percent(share, 0));
        ui.label(RichText::new(percent(share, 0)).small());
    });
}
