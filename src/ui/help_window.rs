//! The help window: what a page shows and by which model; it lies beside the page and blocks nothing.

use super::naming::named;
use super::theme::Tokens;
use crate::session::{HELP_PAGES, HelpBlock, HelpPage, help_page};
use eframe::egui::{Align2, Context, Id, Key, Popup, RichText, ScrollArea, Ui, Window, vec2};

/// Size at first, points.
const SIZE: [f32; 2] = [640.0, 460.0];
/// Width of the list of pages, points.
const LIST: f32 = 150.0;
/// Where the whole account of a key stands.
const SOURCES_FILE: &str = "sample_data/SOURCES.md";

/// Shows the page of help that is open, if one is; Esc closes it.
pub(super) fn ui(ctx: &Context, open: &mut Option<&'static str>, dialog_open: bool) {
    let Some(page) = open.and_then(help_page) else {
        return;
    };
    let mut next = Some(page.key);
    Window::new("About this view")
        .id(Id::unique("help window"))
        .collapsible(false)
        .default_size(SIZE)
        .pivot(Align2::CENTER_TOP)
        .default_pos(ctx.content_rect().center_top() + vec2(0.0, 60.0))
        .show(ctx, |ui| {
            ui.horizontal_top(|ui| {
                ui.vertical(|ui| {
                    ui.set_width(LIST);
                    list(ui, page, &mut next);
                    ui.add_space(8.0);
                    let close = ui.button("Close");
                    if named(close, "Close the help", "Esc does the same").clicked() {
                        next = None;
                    }
                });
                ui.separator();
                ScrollArea::vertical()
                    .id_salt(page.key)
                    .auto_shrink(false)
                    .show(ui, |ui| show(ui, page));
            });
        });
    let is_free = !dialog_open && !ctx.text_edit_focused() && !Popup::is_any_open(ctx);
    if is_free && ctx.input(|input| input.key_pressed(Key::Escape)) {
        next = None;
    }
    if *open != next {
        *open = next;
        ctx.request_repaint();
    }
}

fn list(ui: &mut Ui, shown: &HelpPage, next: &mut Option<&'static str>) {
    for page in HELP_PAGES {
        let label = ui.selectable_label(page.key == shown.key, page.title());
        let name = format!("Help: {}", page.title());
        if named(label, &name, "Read this page of the help").clicked() {
            *next = Some(page.key);
        }
    }
}

fn show(ui: &mut Ui, page: &HelpPage) {
    ui.vertical(|ui| {
        ui.heading(page.title());
        for block in page.blocks() {
            match block {
                HelpBlock::Heading(words) => {
                    ui.add_space(4.0);
                    ui.label(RichText::new(words).strong().color(Tokens::of(ui).accent));
                }
                HelpBlock::Paragraph(words) => {
                    ui.label(words);
                }
                HelpBlock::Point(words) => {
                    ui.horizontal_top(|ui| {
                        ui.label("·");
                        ui.vertical(|ui| ui.label(words));
                    });
                }
                HelpBlock::Sources(keys) => {
                    ui.add_space(4.0);
                    let words = format!("Sources: {keys}. Each is explained in {SOURCES_FILE}.");
                    ui.label(RichText::new(words).small().weak());
                }
            }
        }
    });
}
