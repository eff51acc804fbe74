//! The list of preparations: begin one, copy one, take one out.

use super::amount_field::select_all;
use super::house_draft::{HouseDraft, refused};
use super::house_outputs::main_first;
use super::house_page::HousePage;
use super::intent::Outbox;
use super::naming::named;
use super::theme::Tokens;
use super::word_field::{WordEntered, WordField};
use crate::model::{Preparation, PreparationId, free_name};
use crate::session::{Edit, HouseEdit, Session, copy_of, is_taken, users_of_output};
use crate::store::starter_preparations;
use eframe::egui::{Button, Id, RichText, ScrollArea, Ui};

/// Name of a new preparation.
const NEW: &str = "new preparation";
/// Height of what stands below the list, points.
const TOOLS: f32 = 62.0;
/// Lines of an empty note.
const NOTE_LINES: usize = 2;
/// Most users that are named before the rest is counted.
const NAMED: usize = 4;

/// Shows the list.
pub(super) fn ui(ui: &mut Ui, session: &Session, page: &mut HousePage, outbox: &mut Outbox) {
    ui.add_space(2.0);
    let mut naming = false;
    ui.horizontal_wrapped(|ui| {
        let new = ui.button("New");
        let teach = "Write down a new preparation: what goes in, what is done, what comes out";
        if named(new, "New preparation", teach).clicked() {
            let made = Preparation {
                name: NEW.to_owned(),
                ..Preparation::default()
            };
            begin(session, page, (made, Vec::new()), outbox);
            naming = true;
        }
        starters(ui, session, page, outbox);
    });
    page.naming |= naming;
    ui.separator();
    ScrollArea::vertical()
        .id_salt("preparations")
        .max_height((ui.available_height() - TOOLS).max(80.0))
        .auto_shrink([false, true])
        .show(ui, |ui| {
            for (id, made) in session.document().preparations.iter() {
                row(ui, page, id, made);
            }
        });
    let Some(id) = page.selected.clone() else {
        return;
    };
    ui.separator();
    tools(ui, session, page, &id, outbox);
    if page.asked.as_ref() == Some(&id) {
        in_use(ui, session, page, &id, outbox);
    }
}

/// What can be done with the chosen one.
fn tools(
    ui: &mut Ui,
    session: &Session,
    page: &mut HousePage,
    id: &PreparationId,
    outbox: &mut Outbox,
) {
    ui.horizontal_wrapped(|ui| {
        let copy = ui.button("Duplicate");
        let teach = "A copy with outputs of its own, to try something else with";
        if named(copy, "Duplicate the preparation", teach).clicked()
            && let Some(made) = session.document().preparations.get(id)
        {
            begin(session, page, copy_of(session, made), outbox);
        }
        let away = ui.button("Remove");
        let teach = "Take it out of the document; undo brings it back";
        if named(away, "Remove the preparation", teach).clicked() {
            if users_of_output(session.document(), id, None).is_empty() {
                outbox.edit(remove(id, false));
            } else {
                page.asked = Some(id.clone());
            }
        }
    });
}

fn row(ui: &mut Ui, page: &mut HousePage, id: &PreparationId, made: &Preparation) {
    let chosen = page.selected.as_ref() == Some(id);
    let failed = page.failures.get(id);
    let mark = if failed.is_some() { "! " } else { "" };
    let mut words = RichText::new(format!("{mark}{}", made.name));
    if failed.is_some() {
        words = words.color(Tokens::of(ui).warn);
    }
    let button = ui.add(Button::selectable(chosen, words).truncate());
    let mut outputs: Vec<&str> = made.outputs.keys().map(String::as_str).collect();
    let main = made.main_output().map(|(name, _)| name);
    main_first(main, &mut outputs, |name| name);
    let teach = match failed {
        Some(error) => format!("Cannot be worked out – {error}"),
        None if outputs.is_empty() => "No output yet".to_owned(),
        None => format!("Makes {}", outputs.join(", ")),
    };
    if named(button, &made.name, &teach).clicked() {
        page.choose(id.clone());
    }
}

/// The menu of preparations that come with the program.
fn starters(ui: &mut Ui, session: &Session, page: &mut HousePage, outbox: &mut Outbox) {
    let mut chosen = None;
    let menu = ui.menu_button("From a starter", |ui| {
        ui.set_max_width(320.0);
        for starter in starter_preparations() {
            let button = ui.add(Button::new(&starter.preparation.name).truncate());
            if button.on_hover_text(&starter.about).clicked() {
                chosen = Some(starter);
                ui.close();
            }
        }
    });
    let teach = "Begin with one that comes along: usual proportions, to be changed";
    named(menu.response, "From a starter", teach);
    if let Some(starter) = chosen {
        let taken = |name: &str| is_taken(session, name);
        let start = starter.rows_and_preparation(session.builtin(), taken);
        begin(session, page, start, outbox);
    }
}

/// Adds a preparation with the rows it needs and shows it.
fn begin(
    session: &Session,
    page: &mut HousePage,
    (mut made, rows): crate::session::HouseStart,
    outbox: &mut Outbox,
) {
    let known = &session.document().preparations;
    let named = |name: &str| known.values().any(|made| made.name == name);
    if named(&made.name) {
        let stem = made.name.clone();
        let free = (2..=known.len() + 2)
            .map(|number| format!("{stem} {number}"))
            .find(|name| !named(name));
        made.name = free.unwrap_or(stem);
    }
    let taken = |name: &str| known.contains_key(&PreparationId::from(name));
    let id = PreparationId(free_name(&made.name, taken));
    page.wanted = Some(id.clone());
    outbox.edit(Edit::House(HouseEdit::Set {
        id,
        label: format!("Add {}", made.name),
        to: Box::new(made),
        rows,
        gesture: None,
    }));
}

fn remove(id: &PreparationId, keep: bool) -> Edit {
    Edit::House(HouseEdit::Remove {
        id: id.clone(),
        keep,
    })
}

/// Says what uses a preparation, and asks how it is to go.
fn in_use(
    ui: &mut Ui,
    session: &Session,
    page: &mut HousePage,
    id: &PreparationId,
    outbox: &mut Outbox,
) {
    let users = users_of_output(session.document(), id, None);
    let mut names: Vec<String> = users.iter().map(|user| user.name.clone()).collect();
    let more = names.len().saturating_sub(NAMED);
    names.truncate(NAMED);
    if more > 0 {
        names.push(format!("{more} more"));
    }
    let words = format!("Used by {}.", names.join("; "));
    ui.label(RichText::new(words).small().color(Tokens::of(ui).caution));
    let keep = ui.add(Button::new("Remove, keep its rows").wrap());
    let teach = "What uses it goes on with the figures as they are now, as ordinary ingredients that nothing works out any more";
    if named(keep, "Remove and keep its rows", teach).clicked() {
        outbox.edit(remove(id, true));
        page.asked = None;
    }
    let stay = ui.button("Leave it");
    if named(stay, "Leave the preparation", "Nothing is taken out").clicked() {
        page.asked = None;
    }
}

/// Name and remark of the preparation on screen; a new one is named first.
pub(super) fn name_and_note(ui: &mut Ui, naming: bool, draft: &mut HouseDraft<'_>) {
    ui.add_space(2.0);
    let field = WordField {
        name: "Name of the preparation",
        teach: "What it is called in lists and on its card",
        value: &draft.was.name,
        hint: "name",
        width: 250.0,
    };
    let id = Id::unique(("house name", &draft.id.0));
    if naming {
        ui.memory_mut(|memory| memory.request_focus(id));
        select_all(ui, id, &draft.was.name);
    }
    let rule = |text: &str| match text {
        "" => Err("a preparation needs a name".to_owned()),
        _ => Ok(()),
    };
    match field.show(ui, id, rule) {
        WordEntered::Words(words) => {
            draft.say(format!("Rename to {words}"));
            draft.made.name = words;
        }
        WordEntered::Wrong(reason) => refused(ui, &reason),
        WordEntered::Nothing => {}
    }
    let field = WordField {
        name: "Note of the preparation",
        teach: "Whatever matters: where it comes from, how it should taste. Enter begins a new line, leaving takes it, Esc gives the old words back",
        value: &draft.was.note,
        hint: "note",
        width: f32::INFINITY,
    };
    let id = Id::unique(("house note", &draft.id.0));
    if let WordEntered::Words(words) = field.show_lines(ui, id, NOTE_LINES) {
        draft.say("Change the note");
        draft.made.note = words;
    }
}
