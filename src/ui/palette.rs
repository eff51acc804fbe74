//! All commands, parts of pages, drinks and trials, found by the words that people use.

use super::intent::{Intent, Outbox};
use super::naming::named;
use super::places::Place;
use crate::session::{COMMANDS, Command, Findable, Session, find_rank, shortcut_words};
use eframe::egui::{Button, Key, Modifiers, RichText, ScrollArea, TextEdit, Ui, vec2};
use std::borrow::Cow;

/// Most hits that are listed: further letters find the rest.
const MOST_LISTED: usize = 80;

/// What is typed, and which hit is chosen.
#[derive(Clone, Debug, Default)]
pub(super) struct PaletteDialog {
    search: String,
    chosen: usize,
}

/// What a hit leads to.
#[derive(Clone, Debug)]
enum Leads {
    To(Intent),
    Does(Command),
}

/// Something that can be found.
struct Entry<'a> {
    name: Cow<'a, str>,
    words: &'a str,
    explain: &'a str,
    key: String,
    leads: Leads,
}

impl Entry<'_> {
    fn ask(&self, outbox: &mut Outbox) {
        match &self.leads {
            Leads::Does(command) => outbox.command(*command),
            Leads::To(intent) => {
                outbox.intent(Intent::CloseDialog);
                outbox.intent(intent.clone());
            }
        }
    }
}

impl PaletteDialog {
    /// Shows the field and the hits; Enter takes the chosen one.
    pub(super) fn ui(&mut self, ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
        // Taken before the field sees them, whose cursor they would move.
        let moved = ui.input_mut(|input| {
            let mut presses = |key| input.count_and_consume_key(Modifiers::NONE, key);
            (presses(Key::ArrowDown), presses(Key::ArrowUp))
        });
        let field = TextEdit::singleline(&mut self.search)
            .hint_text("Words for what you look for")
            .desired_width(f32::INFINITY);
        let field = ui.add(field);
        if !field.has_focus() && !field.lost_focus() {
            field.request_focus();
        }
        if field.changed() {
            self.chosen = 0;
        }
        named(
            field,
            "Find a command",
            "Words of a command, of a part of a page, or of a drink or trial; up and down choose, Enter runs",
        );
        let hits = hits(session, self.search.trim());
        self.chosen = (self.chosen + moved.0).saturating_sub(moved.1);
        self.chosen = self.chosen.min(hits.len().saturating_sub(1));
        let enter = ui.input(|input| input.key_pressed(Key::Enter));
        let mut taken = hits.get(self.chosen).filter(|_| enter);
        if hits.is_empty() {
            let words = "Nothing has such a name. Fewer letters, or another word, may find it.";
            ui.label(RichText::new(words).weak());
        }
        let has_moved = moved.0 + moved.1 > 0;
        ScrollArea::vertical().max_height(380.0).show(ui, |ui| {
            for (place, hit) in hits.iter().enumerate() {
                let mut button = Button::selectable(place == self.chosen, hit.name.as_ref())
                    .min_size(vec2(ui.available_width(), 0.0));
                if !hit.key.is_empty() {
                    button = button.shortcut_text(&hit.key);
                }
                let response = ui.add(button).on_hover_text(hit.explain);
                if has_moved && place == self.chosen {
                    response.scroll_to_me(None);
                }
                if response.clicked() {
                    taken = Some(hit);
                }
            }
        });
        if let Some(hit) = hits.get(self.chosen) {
            ui.label(RichText::new(hit.explain).small().weak());
        }
        if let Some(hit) = taken {
            hit.ask(outbox);
        }
    }
}

/// What fits, the best first; everything but drinks and trials where nothing is typed.
fn hits<'a>(session: &'a Session, typed: &str) -> Vec<Entry<'a>> {
    let mut all: Vec<Entry<'a>> = commands().chain(asked(session)).collect();
    if typed.is_empty() {
        return all;
    }
    all.extend(drinks(session));
    let ranked = all.into_iter().filter_map(|entry| {
        let thing = Findable {
            name: &entry.name,
            words: entry.words,
            explain: entry.explain,
        };
        Some((find_rank(typed, thing)?, entry))
    });
    let mut ranked: Vec<(u32, Entry<'a>)> = ranked.collect();
    ranked.sort_by_key(|(rank, _)| *rank);
    ranked.truncate(MOST_LISTED);
    ranked.into_iter().map(|(_, entry)| entry).collect()
}

fn commands<'a>() -> impl Iterator<Item = Entry<'a>> {
    let commands = COMMANDS.iter().map(|info| Entry {
        name: info.name.into(),
        words: info.words,
        explain: info.explain,
        key: shortcut_words(info.shortcut),
        leads: Leads::Does(info.command),
    });
    let places = Place::all().map(|place| Entry {
        name: format!("{}: {}", place.page().name(), place.name()).into(),
        words: place.words(),
        explain: place.teach(),
        key: String::new(),
        leads: Leads::To(Intent::GoTo(place)),
    });
    commands.chain(places)
}

/// Dialogs of the trial on screen that are no commands.
fn asked<'a>(session: &Session) -> impl Iterator<Item = Entry<'a>> {
    let here = session.trial().is_some();
    let rows = [
        (
            "Trial notes…",
            "reason verdict describe tasted submitted state name why",
            "Name, reason, verdict; mark it tasted or submitted",
            Intent::DescribeTrial,
        ),
        (
            "How much ice…",
            "blender cubes melt slush frozen",
            "How much ice a blended drink needs",
            Intent::AskIce,
        ),
        (
            "Own dilution…",
            "weigh weighing scale ice calibrate water",
            "Drinks weighed before and after ice make the dilution yours",
            Intent::Weigh,
        ),
        (
            "Report of how sure this trial is…",
            "uncertainty draws simulation confidence error",
            "Thousands of seeded draws of what the drink may be",
            Intent::AskReport,
        ),
    ];
    let rows = rows.into_iter().filter(move |_| here);
    rows.map(|(name, words, explain, intent)| Entry {
        name: name.into(),
        words,
        explain,
        key: String::new(),
        leads: Leads::To(intent),
    })
}

/// Drinks, and the trials of each.
fn drinks(session: &Session) -> impl Iterator<Item = Entry<'_>> {
    let specs = session.document().specs.iter();
    specs.flat_map(|spec| {
        let drink = Entry {
            name: spec.name.as_str().into(),
            words: "drink",
            explain: "Show this drink",
            key: "drink".to_owned(),
            leads: Leads::To(Intent::ShowSpec(spec.id)),
        };
        let trials = spec.trials.iter().map(|trial| Entry {
            name: format!("{}: {}", spec.name, trial.name).into(),
            words: "trial",
            explain: "Show this trial",
            key: "trial".to_owned(),
            leads: Leads::To(Intent::ShowTrial(trial.id)),
        });
        std::iter::once(drink).chain(trials)
    })
}
