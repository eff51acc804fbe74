//! Menus, the drink and trial on screen, undo and the mark of unsaved changes.

use super::intent::{Intent, Outbox};
use super::naming::named;
use super::page::{self, Page};
use super::panels::{Panels, Side};
use super::pours::why_kept;
use super::theme::Tokens;
use super::view::View;
use crate::chart::Frame;
use crate::model::TrialState;
use crate::session::{COMMANDS, Command, Session, shortcut_words};
use eframe::egui::{
    Button, ComboBox, Context, Label, MenuBar, Rect, RichText, ScrollArea, Shape, Stroke, Ui, pos2,
    vec2,
};

const MENUS: [&str; 5] = ["File", "Edit", "Drink", "Show", "Help"];
/// Widths of the names of drink and trial where there is room, points.
const SPEC: f32 = 170.0;
const TRIAL: f32 = 150.0;
/// Most trials in the menu: the latest ones.
const MOST_LISTED: usize = 100;
/// Both names together, and what stands beside them, points.
const NAMES: f32 = SPEC + TRIAL;
const BESIDE_NAMES: f32 = 270.0;
/// The least that is left of a name's width.
const LEAST_SHARE: f32 = 0.5;
/// From this width on everything stands in one row, points.
const ONE_ROW: f32 = 930.0;
/// Below this height of the window the reason of the trial is left out, points.
const LOW: f32 = 560.0;
/// Space of the window that a menu leaves, points.
const BESIDE_MENU: f32 = 60.0;
/// Room for the tick beside what a menu turns on and off, points.
const TICKED: f32 = 22.0;
/// Below this width of the window controls stand closer, points.
const NARROW: f32 = 1_060.0;

/// Shows the bar; a window too narrow for one row gets two, and more where words still do not fit.
pub(super) fn ui(ui: &mut Ui, session: &Session, view: &View, outbox: &mut Outbox) {
    let width = ui.available_width();
    MenuBar::new().ui(ui, |ui| {
        if width < NARROW {
            let spacing = ui.spacing_mut();
            spacing.item_spacing.x *= 0.5;
            spacing.button_padding.x *= 0.5;
        }
        if width >= ONE_ROW {
            pages_and_menus(ui, session, view, outbox);
            ui.separator();
            trial_and_state(ui, session, outbox);
            return;
        }
        ui.vertical(|ui| {
            ui.horizontal_wrapped(|ui| pages_and_menus(ui, session, view, outbox));
            ui.horizontal(|ui| trial_and_state(ui, session, outbox));
        });
    });
    // A low window keeps its height for the page; the reason stands among the notes, too.
    if ui.ctx().content_rect().height() >= LOW {
        reason(ui, session);
    }
}

fn pages_and_menus(ui: &mut Ui, session: &Session, view: &View, outbox: &mut Outbox) {
    let unkept = view.larder.unkept().next().map(|_| Page::Larder);
    page::switch(ui, view.page, unkept, outbox);
    let info = Command::AboutView.info();
    let about = ui.small_button("?");
    let teach = format!("{} ({})", info.explain, shortcut_words(info.shortcut));
    if named(about, info.name, &teach).clicked() {
        outbox.command(Command::AboutView);
    }
    ui.separator();
    for menu in MENUS {
        // A long menu scrolls on a low window.
        let room = ui.ctx().content_rect().height() - BESIDE_MENU;
        ui.menu_button(menu, |ui| {
            ui.set_min_width(240.0);
            ScrollArea::vertical()
                .max_height(room)
                .show(ui, |ui| commands(ui, session, view, menu, outbox));
        });
    }
}

fn commands(ui: &mut Ui, session: &Session, view: &View, menu: &str, outbox: &mut Outbox) {
    if menu == "Show" {
        ui.spacing_mut().button_padding.x = TICKED;
    }
    for info in COMMANDS.iter().filter(|info| info.menu == menu) {
        let words = words(session, info.command).unwrap_or_else(|| info.name.to_owned());
        let enabled = possible(session, info.command);
        let on = is_on(ui.ctx(), view, info.command);
        let mut button = Button::new(words);
        if let Some(on) = on {
            button = button.selected(on);
        }
        // An empty one would leave a space at the end of its name.
        if info.shortcut.is_some() {
            button = button.shortcut_text(shortcut_words(info.shortcut));
        }
        let button = ui.add_enabled(enabled, button);
        if on == Some(true) {
            tick(ui, button.rect);
        }
        let kept = session.trial().and_then(|trial| why_kept(trial));
        let button = match kept.filter(|_| info.command == Command::AddPour) {
            Some(why) => button.on_disabled_hover_text(why),
            None => button,
        };
        if button.on_hover_text(info.explain).clicked() {
            outbox.command(info.command);
            ui.close();
        }
    }
}

fn trial_and_state(ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
    // The names give way on a narrow window, so that every button stays in sight.
    let share = ((ui.available_width() - BESIDE_NAMES) / NAMES).clamp(LEAST_SHARE, 1.0);
    spec_combo(ui, session, share, outbox);
    trial_combo(ui, session, share, outbox);
    let new = ui.button("New trial");
    if named(new, "New trial", Command::NewTrial.info().explain).clicked() {
        outbox.command(Command::NewTrial);
    }
    let describe = ui.button("Notes…");
    if named(
        describe,
        "Describe the trial…",
        "Name, reason, verdict; mark it tasted or submitted",
    )
    .clicked()
    {
        outbox.intent(Intent::DescribeTrial);
    }
    for command in [Command::Undo, Command::Redo] {
        let button = Button::new(command.info().name);
        let button = ui.add_enabled(possible(session, command), button);
        let name = words(session, command).unwrap_or_default();
        if named(
            button,
            &name,
            &format!("{name} ({})", shortcut_words(command.info().shortcut)),
        )
        .clicked()
        {
            outbox.command(command);
        }
    }
    state(ui, session);
}

/// Whether what a command of the menu Show turns on and off is on; `None` for what it does once.
fn is_on(ctx: &Context, view: &View, command: Command) -> Option<bool> {
    let shown = |side| Panels::of(ctx).shows(view.page, side);
    Some(match command {
        Command::WholeField => view.frame == Frame::WholeField,
        Command::Scale => view.in_steps,
        Command::References => view.show_references,
        Command::Trail => view.show_trail,
        Command::Starred => view.show_starred,
        Command::Regions => view.show_regions,
        Command::Spread => view.show_spread,
        Command::Tables => view.tables,
        Command::LeftPanel => shown(Side::Left),
        Command::RightPanel => shown(Side::Right),
        Command::BottomPanel => shown(Side::Bottom),
        command => Page::of(command)? == view.page,
    })
}

/// A drawn tick at the left of what is on.
fn tick(ui: &Ui, row: Rect) {
    let at = pos2(row.left() + TICKED / 2.0, row.center().y);
    let points = [vec2(-4.0, 0.0), vec2(-1.0, 3.5), vec2(4.5, -4.0)];
    let points = points.into_iter().map(|step| at + step).collect();
    let stroke = Stroke::new(1.8, Tokens::of(ui).text);
    ui.painter().add(Shape::line(points, stroke));
}

/// Undo and redo say what they would do.
fn words(session: &Session, command: Command) -> Option<String> {
    let with = |verb: &str, label: Option<&str>| match label {
        Some(label) => format!("{verb}: {label}"),
        None => verb.to_owned(),
    };
    match command {
        Command::Undo => Some(with("Undo", session.history().undo_label())),
        Command::Redo => Some(with("Redo", session.history().redo_label())),
        _ => None,
    }
}

fn possible(session: &Session, command: Command) -> bool {
    match command {
        Command::Undo => session.history().undo_label().is_some(),
        Command::Redo => session.history().redo_label().is_some(),
        Command::AddPour => is_open(session),
        Command::NewTrial
        | Command::Swap
        | Command::Substitutions
        | Command::AimAt
        | Command::TargetHere => session.trial().is_some(),
        _ => true,
    }
}

/// The trial on screen may still change.
fn is_open(session: &Session) -> bool {
    let trial = session.trial();
    trial.is_some_and(|trial| trial.state == TrialState::Draft)
}

fn spec_combo(ui: &mut Ui, session: &Session, share: f32, outbox: &mut Outbox) {
    let name = session.spec().map_or("no drink", |spec| &spec.name);
    // As long as the window, before it scrolls.
    let room = ui.ctx().content_rect().height() - 120.0;
    let combo = ComboBox::from_id_salt("spec")
        .selected_text(name)
        .truncate()
        .width(SPEC * share)
        .height(room)
        .show_ui(ui, |ui| {
            if ui.button("Start a drink…").clicked() {
                outbox.command(Command::Start);
                ui.close();
            }
            ui.separator();
            for spec in &session.document().specs {
                let chosen = session.selection().spec == Some(spec.id);
                if ui.selectable_label(chosen, &spec.name).clicked() {
                    outbox.intent(Intent::ShowSpec(spec.id));
                }
            }
        });
    named(combo.response, "Drink", "The drink on screen");
}

fn trial_combo(ui: &mut Ui, session: &Session, share: f32, outbox: &mut Outbox) {
    let Some(spec) = session.spec() else {
        return;
    };
    let name = session.trial().map_or("no trial", |trial| &trial.name);
    let combo = ComboBox::from_id_salt("trial")
        .selected_text(name)
        .truncate()
        .width(TRIAL * share)
        .show_ui(ui, |ui| {
            // The page of trials has a tree that draws only what is in sight.
            if spec.trials.len() > MOST_LISTED && ui.button("All of them…").clicked() {
                outbox.command(Command::TrialsView);
                ui.close();
            }
            let here = session.selection().trial;
            let shown = spec
                .trials
                .iter()
                .filter(|trial| !trial.archived || here == Some(trial.id));
            let skipped = shown.clone().count().saturating_sub(MOST_LISTED);
            for trial in shown.skip(skipped) {
                let chosen = session.selection().trial == Some(trial.id);
                let text = if trial.reason.is_empty() {
                    format!("{} ({})", trial.name, trial.state.name())
                } else {
                    format!("{} ({}) – {}", trial.name, trial.state.name(), trial.reason)
                };
                if ui.selectable_label(chosen, text).clicked() {
                    outbox.intent(Intent::ShowTrial(trial.id));
                }
            }
        });
    named(
        combo.response,
        "Trial",
        "The trial on screen; Page Up and Page Down go through them",
    );
}

fn state(ui: &mut Ui, session: &Session) {
    let tokens = Tokens::of(ui);
    let name = session
        .path()
        .and_then(|path| path.file_name())
        .map_or_else(
            || session.document().title.clone(),
            |name| name.to_string_lossy().into_owned(),
        );
    // What matters stands first: the name gives way on a narrow window.
    if session.read_only().is_some() {
        ui.label(RichText::new("read-only").small().color(tokens.caution));
    } else if session.is_dirty() {
        ui.label(RichText::new("● not saved").small().color(tokens.accent))
            .on_hover_text("There are changes since the last save; they are also kept safe in case the program ends");
    }
    let name = Label::new(RichText::new(name).small().weak()).truncate();
    ui.add(name);
}

/// Why this trial was made and how it tasted, in one line.
fn reason(ui: &mut Ui, session: &Session) {
    let Some(trial) = session.trial() else {
        return;
    };
    let mut text = String::new();
    if !trial.reason.is_empty() {
        text.push_str("Why: ");
        text.push_str(&trial.reason);
    }
    if !trial.verdict.is_empty() {
        text.push_str("   Tasted: ");
        text.push_str(&trial.verdict);
    }
    if !text.is_empty() {
        ui.add(Label::new(RichText::new(text).small().weak()).truncate());
    }
}
