//! Shows whatever dialog is open above the panels.

use super::dialogs::Wanted;
use super::filing;
use super::intent::{Intent, Outbox};
use super::settings_dialog;
use super::theme::Tokens;
use super::view::{Dialog, View};
use super::window::Around;
use super::{asking, history_dialog, keys_sheet, licences, notices};
use crate::session::Session;
use eframe::egui::{Align2, Context, Event, Id, Key, Modal, RichText, ScrollArea, Ui, vec2};

/// Space beside the widest dialog, points.
const BESIDE: f32 = 64.0;

/// Below this height of the window a dialog scrolls, points.
const LOW: f32 = 560.0;
/// Height of a window that a dialog's title and frame take, points.
const AROUND: f32 = 84.0;

/// Shows the open dialog, if there is one; Esc closes it.
pub(super) fn ui(
    ctx: &Context,
    session: &Session,
    view: &mut View,
    around: &mut Around,
    outbox: &mut Outbox,
) {
    let Some(mut dialog) = view.dialog.take() else {
        view.throwing_away = false;
        return;
    };
    let title = title(&dialog);
    let tables = view.tables;
    let unkept: Vec<String> = view.larder.unkept().map(str::to_owned).collect();
    let id = Id::unique("dialog");
    // Held at the top: what grows below does not move what is pressed above.
    let window = ctx.content_rect().size();
    let is_low = window.y < LOW;
    let above = if is_low { 6.0 } else { 44.0 };
    let area = Modal::default_area(id).anchor(Align2::CENTER_TOP, vec2(0.0, above));
    let shown = Modal::new(id).area(area).show(ctx, |ui| {
        ui.set_width(width(&dialog).min(window.x - BESIDE));
        ui.heading(title);
        ui.add_space(4.0);
        let around = (around, unkept.as_slice(), tables);
        if is_low {
            // What has no list of its own scrolls as a whole.
            ScrollArea::both()
                .id_salt("dialog")
                .max_height(window.y - AROUND)
                .auto_shrink([false, true])
                .show(ui, |ui| body(ui, session, around, &mut dialog, outbox));
        } else {
            body(ui, session, around, &mut dialog, outbox);
        }
    });
    // A press beside it closes nothing: what was typed would be lost. Esc closes an open list first.
    let escaped = ctx.input(|input| input.key_pressed(Key::Escape));
    let closes = escaped && !closes_list(ctx, shown.any_popup_open);
    if view.throwing_away {
        let answer = asking::throw_away(ctx, closes);
        view.throwing_away = answer.is_none();
        if answer == Some(true) {
            outbox.intent(Intent::CloseDialog);
        }
    } else if closes && is_begun(&dialog, session) {
        view.throwing_away = true;
        ctx.request_repaint();
    } else if closes {
        outbox.intent(Intent::CloseDialog);
    }
    view.dialog = Some(dialog);
}

/// Height of a list in a dialog: what the window leaves beside `around` points of the dialog's own.
///
/// A low window scrolls the dialog as a whole, so that the list keeps a useful height.
pub(super) fn list_height(ui: &Ui, around: f32) -> f32 {
    (ui.ctx().content_rect().height() - around).max(240.0)
}

/// Whether something was written in a dialog that keeps it to itself until it is done.
fn is_begun(dialog: &Dialog, session: &Session) -> bool {
    match dialog {
        Dialog::Lot(lot) => lot.is_begun(),
        Dialog::Weighing(weighing) => weighing.is_begun(),
        Dialog::Document(dialog) => dialog.is_begun(session.document()),
        _ => false,
    }
}

/// Whether this press of Esc belongs to an open list; it does until the key is let go, however often
/// it repeats.
fn closes_list(ctx: &Context, open: bool) -> bool {
    let kept = Id::unique("list closed by Esc");
    // The list closes in the frame of the press, which may be worked out twice.
    let press = ctx.input(|input| input.time);
    let first = ctx.data(|data| data.get_temp::<f64>(kept));
    let repeats = ctx.input(|input| {
        let mut events = input.events.iter();
        events.any(|event| {
            matches!(
                event,
                Event::Key {
                    key: Key::Escape,
                    repeat: true,
                    ..
                }
            )
        })
    });
    let closes = open || first.is_some_and(|first| repeats || first >= press);
    ctx.data_mut(|data| {
        if closes {
            data.insert_temp(kept, first.filter(|_| repeats).unwrap_or(press));
        } else {
            data.remove::<f64>(kept);
        }
    });
    closes
}

fn title(dialog: &Dialog) -> &'static str {
    match dialog {
        Dialog::Start(_) => "Start a drink",
        Dialog::Larder(larder) => larder.title(),
        Dialog::Trial(_) => "This trial",
        Dialog::Aim(_) => "Aim at",
        Dialog::Path(path) if path.saving => "Save as",
        Dialog::Path(_) => "Open",
        Dialog::Import(_) => "Import ingredients",
        Dialog::Export(_) => "Export ingredients",
        Dialog::Document(_) => "Document and assumptions",
        Dialog::Ice(_) => "How much ice",
        Dialog::Report(_) => "How sure this trial is",
        Dialog::Swap(swap) => swap.title(),
        Dialog::Sources(_) => "Where its figures come from",
        Dialog::Lot(_) => "Measured lot",
        Dialog::Bring(_) => "Bring to spec",
        Dialog::Weighing(_) => "Own dilution",
        Dialog::Recipe(_) => "Import a recipe",
        Dialog::Sheet(_) => "Save the sheet",
        Dialog::Unsaved => "Unsaved changes",
        Dialog::Changed {
            elsewhere: true, ..
        } => "Open in another window",
        Dialog::Changed { .. } => "The file has changed",
        Dialog::Waiting => "Saving…",
        Dialog::Replace(_) => "There is a file of that name",
        Dialog::Recover => "Unsaved work was found",
        Dialog::Settings => "Settings",
        Dialog::Palette(_) => "All commands",
        Dialog::Help(_) => "Keys",
        Dialog::History => "History",
        Dialog::Messages => "Messages of this run",
        Dialog::Licences => "Licences",
        Dialog::Notices => "What there is to note",
    }
}

const fn width(dialog: &Dialog) -> f32 {
    match dialog {
        Dialog::Swap(_) => 1500.0,
        Dialog::Start(_)
        | Dialog::Import(_)
        | Dialog::Sources(_)
        | Dialog::Settings
        | Dialog::Licences
        | Dialog::Notices => 760.0,
        Dialog::Recipe(_)
        | Dialog::Larder(_)
        | Dialog::Help(_)
        | Dialog::Messages
        | Dialog::Lot(_)
        | Dialog::Bring(_)
        | Dialog::Aim(_) => 620.0,
        Dialog::Ice(_) | Dialog::Weighing(_) | Dialog::Document(_) | Dialog::Report(_) => 560.0,
        _ => 440.0,
    }
}

fn body(
    ui: &mut Ui,
    session: &Session,
    (around, unkept, tables): (&mut Around, &[String], bool),
    dialog: &mut Dialog,
    outbox: &mut Outbox,
) {
    match dialog {
        Dialog::Start(start) => start.ui(ui, session, outbox),
        Dialog::Larder(larder) => larder.ui(ui, session, outbox),
        Dialog::Trial(trial) => trial.ui(ui, session, outbox),
        Dialog::Aim(aim) => aim.ui(ui, session, outbox),
        Dialog::Sources(sources) => sources.ui(ui, outbox),
        Dialog::Lot(lot) => lot.ui(ui, session, outbox),
        Dialog::Bring(bring) => bring.ui(ui, session, outbox),
        Dialog::Report(report) => report.ui(ui, session, outbox),
        Dialog::Swap(swap) => swap.ui(ui, session, &mut around.browser, outbox),
        Dialog::Ice(ice) => ice.ui(ui, session, outbox),
        Dialog::Weighing(weighing) => weighing.ui(ui, session.document(), tables, outbox),
        Dialog::Document(dialog) => dialog.ui(ui, session, outbox),
        Dialog::Path(path) => {
            let mut browse = false;
            asking::path(ui, path, &mut browse, outbox);
            if browse {
                let wanted = if path.saving {
                    Wanted::DocumentName
                } else {
                    Wanted::Document
                };
                around.browser.ask(wanted, ui.ctx());
            }
            if let Some(chosen) = around.browser.answer() {
                path.text = chosen.display().to_string();
            }
            for said in around
                .browser
                .trouble()
                .into_iter()
                .chain(around.file_trouble.as_deref())
            {
                ui.label(RichText::new(said).color(Tokens::of(ui).warn));
            }
        }
        Dialog::Unsaved => asking::unsaved(ui, session, unkept, outbox),
        Dialog::Import(import) => import.ui(ui, session, &mut around.browser, outbox),
        Dialog::Export(export) => export.ui(ui, session, &mut around.browser, outbox),
        Dialog::Recipe(recipe) => recipe.ui(ui, &mut around.browser, outbox),
        Dialog::Sheet(sheet) => sheet.ui(ui, &mut around.browser, outbox),
        Dialog::Changed { path, elsewhere } => {
            asking::changed(ui, session, (path, *elsewhere), outbox);
        }
        Dialog::Waiting => filing::waiting(ui, outbox),
        Dialog::Replace(path) => asking::replace(ui, path, outbox),
        Dialog::Recover => asking::recover(ui, &around.recovered, outbox),
        Dialog::Settings => settings_dialog::ui(ui, session, &around.settings, outbox),
        Dialog::Palette(palette) => palette.ui(ui, session, outbox),
        Dialog::Help(search) => keys_sheet::ui(ui, search, outbox),
        Dialog::History => history_dialog::ui(ui, session, outbox),
        Dialog::Messages => around.log.ui(ui, outbox),
        Dialog::Licences => licences::ui(ui, outbox),
        Dialog::Notices => notices::all(ui, session, outbox),
    }
}
