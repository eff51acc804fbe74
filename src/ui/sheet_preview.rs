//! The sheet as it prints, drawn away from the window.

use super::empty;
use super::intent::Outbox;
use super::naming::described;
use super::theme::{PAPER, Tokens};
use crate::model::Reader;
use crate::session::{Selection, Session, SheetView, sheet_view};
use crate::sheet::{Laid, Painted, paint, plain_text};
use eframe::egui::{
    ColorImage, Context, RichText, ScrollArea, Sense, Stroke, StrokeKind, TextureHandle,
    TextureOptions, Ui, vec2,
};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, TryRecvError, channel};

/// Space between two pages, points.
const GAP: f32 = 14.0;
/// Widest page, points: beyond it nothing is read more easily.
const WIDEST: f32 = 900.0;

/// What pages were laid out of.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Laying {
    revision: u64,
    selection: Selection,
    reader: Reader,
}

/// What pictures are of: the sheet, whether its card, and how wide, px.
type Drawing = (Laying, bool, u32);

/// The sheet on screen and its pictures.
#[derive(Default)]
pub(super) struct SheetPreview {
    /// Show the card for a phone in place of the pages.
    pub(super) card: bool,
    kept: Option<(Laying, Arc<SheetView>)>,
    /// The same sheet as text, for a screen reader.
    words: String,
    /// Pictures of the pages, with the width they were drawn for.
    shown: Vec<TextureHandle>,
    shown_of: Option<Drawing>,
    coming: Option<(Drawing, Receiver<Vec<Painted>>)>,
}

impl std::fmt::Debug for SheetPreview {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("SheetPreview")
            .field("card", &self.card)
            .finish_non_exhaustive()
    }
}

impl SheetPreview {
    /// The sheet for a reader; laid out anew only after a change.
    pub(super) fn view(&mut self, session: &Session, reader: Reader) -> Option<Arc<SheetView>> {
        let laying = Laying {
            revision: session.revision(),
            selection: session.selection(),
            reader,
        };
        if self.kept.as_ref().is_none_or(|(of, _)| *of != laying) {
            let view = sheet_view(session, reader)?;
            self.words = plain_text(&view.recipe);
            self.kept = Some((laying, Arc::new(view)));
        }
        self.kept.as_ref().map(|(_, view)| Arc::clone(view))
    }

    /// Shows the pages, or why there are none.
    pub(super) fn ui(
        &mut self,
        ui: &mut Ui,
        session: &Session,
        reader: Reader,
        outbox: &mut Outbox,
    ) {
        let Some(view) = self.view(session, reader) else {
            empty::no_drink(
                ui,
                session,
                "The sheet of a drink stands here as it prints.",
                outbox,
            );
            return;
        };
        let laid = if self.card { &view.card } else { &view.laid };
        match laid {
            Err(error) => {
                let words = format!("No sheet: it is {error}.");
                ui.label(RichText::new(words).color(Tokens::of(ui).warn));
                ui.label("Shorten the story or the method, or let fewer parts be read.");
            }
            Ok(laid) => {
                if let Some(lacks) = laid.lacks_said() {
                    let words = format!("{lacks}: marked on the page.");
                    ui.label(RichText::new(words).color(Tokens::of(ui).caution));
                }
                self.pages(ui, laid);
            }
        }
    }

    fn pages(&mut self, ui: &mut Ui, laid: &Laid) {
        let scale = ui.ctx().pixels_per_point();
        let width = (ui.available_width() - 16.0).clamp(120.0, WIDEST);
        let width = if self.card { width.min(360.0) } else { width };
        let pixels = (width * scale).round() as u32;
        self.draw(ui.ctx(), laid, pixels);
        let words = &self.words;
        // A fade at the edge would look like a stain on the paper.
        ui.spacing_mut().scroll.fade.strength = 0.0;
        ScrollArea::vertical()
            .auto_shrink(false)
            .id_salt(("sheet", self.card))
            .show(ui, |ui| {
                ui.vertical_centered(|ui| {
                    for (place, page) in laid.pages.iter().enumerate() {
                        let height = width * (page.height_mm / page.width_mm) as f32;
                        let (rect, response) =
                            ui.allocate_exact_size(vec2(width, height), Sense::hover());
                        let name = format!("Page {} of {}", place + 1, laid.pages.len());
                        described(&response, &name, words);
                        let tokens = Tokens::of(ui);
                        match self.shown.get(place) {
                            Some(texture) => {
                                let whole = eframe::egui::Rect::from_min_max(
                                    eframe::egui::pos2(0.0, 0.0),
                                    eframe::egui::pos2(1.0, 1.0),
                                );
                                ui.painter().image(texture.id(), rect, whole, PAPER);
                            }
                            None => {
                                ui.painter().rect_filled(rect, 0.0, PAPER);
                            }
                        }
                        ui.painter().rect_stroke(
                            rect,
                            0.0,
                            Stroke::new(1.0, tokens.line),
                            StrokeKind::Outside,
                        );
                        ui.add_space(GAP);
                    }
                });
            });
    }

    /// Has the pages drawn for a width, on a thread of its own; the last ones stay until then.
    fn draw(&mut self, ctx: &Context, laid: &Laid, pixels: u32) {
        let Some((laying, _)) = self.kept.as_ref() else {
            return;
        };
        let wanted = (*laying, self.card, pixels);
        match self
            .coming
            .as_ref()
            .map(|(of, hear)| (*of, hear.try_recv()))
        {
            Some((of, Ok(painted))) => {
                self.shown = painted
                    .iter()
                    .enumerate()
                    .map(|(place, page)| texture(ctx, place, page))
                    .collect();
                self.shown_of = Some(of);
                self.coming = None;
            }
            // The thread broke down: the pages stay white rather than being asked for in every frame.
            Some((of, Err(TryRecvError::Disconnected))) => {
                self.shown.clear();
                self.shown_of = Some(of);
                self.coming = None;
            }
            Some((_, Err(TryRecvError::Empty))) | None => {}
        }
        if self.shown_of == Some(wanted) || self.coming.is_some() {
            return;
        }
        let (say, hear) = channel();
        let (pages, wake) = (laid.pages.clone(), ctx.clone());
        let spawned = std::thread::Builder::new()
            .name("sheet preview".to_owned())
            .spawn(move || {
                let painted = pages
                    .iter()
                    .filter_map(|page| paint(page, f64::from(pixels) / page.width_mm).ok())
                    .collect();
                if say.send(painted).is_ok() {
                    wake.request_repaint();
                }
            });
        if spawned.is_ok() {
            self.coming = Some((wanted, hear));
        }
    }
}

fn texture(ctx: &Context, place: usize, page: &Painted) -> TextureHandle {
    let size = [page.width as usize, page.height as usize];
    let image = ColorImage::from_rgba_unmultiplied(size, &page.rgba);
    ctx.load_texture(format!("sheet page {place}"), image, TextureOptions::LINEAR)
}
