//! The steps of the preparation on screen, one line each, the chosen one open.

use super::house_draft::{HouseDraft, refused};
use super::house_page::HousePage;
use super::intent::Outbox;
use super::naming::named;
use super::{house_step, theme::Tokens};
use crate::chart::minutes_text;
use crate::model::{Process, Step};
use crate::session::{At, HouseView, add_step, move_step, remove_step, usual_steps};
use eframe::egui::{Align, Button, Frame, Layout, Margin, Rect, RichText, Stroke, Ui, vec2};

/// From so many steps on, those out of sight are not drawn, which a screen reader then does not read.
const MANY: usize = 200;
/// Edge of a closed step above and below its words, its line included, points.
const EDGE: f32 = 4.0;

/// Shows the steps and the menu that adds one.
pub(super) fn ui(
    ui: &mut Ui,
    page: &mut HousePage,
    view: &HouseView,
    draft: &mut HouseDraft<'_>,
    _outbox: &mut Outbox,
) {
    ui.horizontal(|ui| {
        ui.heading("Steps");
        let mut added = None;
        let menu = ui.menu_button("Add a step", |ui| added = process_menu(ui));
        let teach = "What is done next: it takes what was made last and names what it makes. Fermenting is not planned here.";
        named(menu.response, "Add a step", teach);
        if let Some(usual) = added {
            add_step(&mut draft.made, &usual);
            draft.say(format!("Add a step: {}", usual.does.name()));
            page.step = Some(draft.made.steps.len() - 1);
            page.reveal = true;
        }
    });
    if draft.was.steps.is_empty() {
        let words = if draft.was.inputs.is_empty() {
            "Steps come after the first input."
        } else {
            "Nothing is done yet. Add a step, such as blend, strain or dissolve."
        };
        ui.label(RichText::new(words).weak());
    }
    let many = draft.was.steps.len() > MANY;
    for (place, step) in draft.was.steps.iter().enumerate() {
        let is_plain = many && page.step != Some(place) && !is_wrong(draft, place);
        if is_plain && skipped(ui) {
            continue;
        }
        ui.push_id(("step", place), |ui| {
            one(ui, page, (view, place, step), draft);
        });
    }
    if draft.wrong.is_some_and(|wrong| wrong.at == At::Whole) {
        draft.reason(ui, &At::Whole, |_| true);
    }
}

fn is_wrong(draft: &HouseDraft<'_>, place: usize) -> bool {
    draft.wrong.is_some_and(|wrong| wrong.at == At::Step(place))
        || draft.was.steps.get(place).and_then(missing).is_some()
}

/// Leaves the room of a closed step that is out of sight; true when it did.
fn skipped(ui: &mut Ui) -> bool {
    let size = vec2(
        ui.available_width(),
        ui.spacing().interact_size.y + 2.0 * EDGE,
    );
    let seen = ui.is_rect_visible(Rect::from_min_size(ui.cursor().min, size));
    if !seen {
        ui.allocate_space(size);
    }
    !seen
}

/// Every process by what it does; gives the usual step of the one that was chosen.
pub(super) fn process_menu(ui: &mut Ui) -> Option<Step> {
    let mut chosen = None;
    let all = usual_steps();
    for (group, fits) in GROUPS {
        ui.menu_button(group, |ui| {
            for usual in all.iter().filter(|usual| fits(&usual.does)) {
                let button = Button::new(usual.does.name());
                if ui.add(button).on_hover_text(teach(&usual.does)).clicked() {
                    chosen = Some(usual.clone());
                    ui.close();
                }
            }
        });
    }
    chosen
}

type Fits = fn(&Process) -> bool;

/// Processes by what they are for.
const GROUPS: [(&str, Fits); 5] = [
    ("Bring together", |does| {
        matches!(
            does,
            Process::Combine
                | Process::Dissolve
                | Process::Infuse { .. }
                | Process::Soak { .. }
                | Process::Blend { .. }
                | Process::SugarOnPeel { .. }
                | Process::FatWash { .. }
                | Process::Stock { .. }
        )
    }),
    ("Separate", |does| {
        matches!(
            does,
            Process::Strain { .. }
                | Process::Press { .. }
                | Process::Juice { .. }
                | Process::Clarify { .. }
                | Process::Divide { .. }
        )
    }),
    ("Heat and dry", |does| {
        matches!(
            does,
            Process::Heat { .. } | Process::Reduce { .. } | Process::Dehydrate { .. }
        )
    }),
    ("Adjust", |does| {
        matches!(
            does,
            Process::SweetenTo { .. } | Process::AdjustAcid { .. } | Process::Dilute { .. }
        )
    }),
    ("Rest, freeze, gas", |does| {
        matches!(
            does,
            Process::Rest
                | Process::FreezeThaw { .. }
                | Process::Carbonate { .. }
                | Process::Aerate { .. }
        )
    }),
];

/// What a process does, in a sentence.
pub(super) const fn teach(does: &Process) -> &'static str {
    match does {
        Process::Combine => "Poured together; nothing is lost",
        Process::Soak { .. } => "Solids swell in liquid and give something off",
        Process::Infuse { .. } => "Solids steep in liquid and stay in it until they are strained",
        Process::Blend { .. } => "Cut small, so that solids give off what they hold",
        Process::Strain { .. } => "Liquid is parted from solids, which keep some of it",
        Process::Press { .. } => "Strained with force, so that less liquid stays behind",
        Process::Juice { .. } => "Juice is parted from pulp by a yield",
        Process::Dissolve => "Solids dissolve wholly, as sugar does in water",
        Process::Reduce { .. } => "Boiled down to a mass, a volume or °Bx; water leaves",
        Process::Heat { .. } => "Kept hot; some water steams off",
        Process::Dehydrate { .. } => "Dried to a mass or a moisture",
        Process::Clarify { .. } => "Made clear with agar, gelatin, milk, egg white or time",
        Process::AdjustAcid { .. } => {
            "Acids are added as needed up to those of lime, lemon or your own"
        }
        Process::SweetenTo { .. } => "Sugar is added as needed up to °Bx",
        Process::Dilute { .. } => "Liquid is added as needed down to °Bx, % vol or in parts",
        Process::SugarOnPeel { .. } => "Sugar draws oil and water from peel",
        Process::FatWash { .. } => "Spirit is washed with fat, chilled and strained",
        Process::FreezeThaw { .. } => "Frozen and thawed, which breaks cells open",
        Process::Carbonate { .. } => "Carbonated under pressure",
        Process::Aerate { .. } => "Foamed by a siphon",
        Process::Stock { .. } => "A dose too small for the scale is dissolved in liquid as needed",
        Process::Rest => "Left to stand",
        Process::Divide { .. } => "Divided into a part and the rest",
    }
}

fn one(
    ui: &mut Ui,
    page: &mut HousePage,
    (view, place, step): (&HouseView, usize, &Step),
    draft: &mut HouseDraft<'_>,
) {
    let open = page.step == Some(place);
    let tokens = Tokens::of(ui);
    let edge = if open { tokens.accent } else { tokens.line };
    let frame = Frame::new()
        .stroke(Stroke::new(1.0, edge))
        .corner_radius(5)
        .inner_margin(Margin::symmetric(6, EDGE as i8 - 1));
    let shown = frame.show(ui, |ui| {
        ui.set_min_width(ui.available_width());
        head(ui, page, (place, step), draft);
        if open {
            house_step::ui(ui, (view, place, step), draft);
        } else {
            draft.reason(ui, &At::Step(place), |_| true);
        }
    });
    if open && std::mem::take(&mut page.reveal) {
        shown.response.scroll_to_me(None);
    }
    if let Some(words) = missing(step).filter(|_| !open && draft.wrong.is_none()) {
        refused(ui, words);
    }
}

/// What a step says of itself when it takes nothing.
fn missing(step: &Step) -> Option<&'static str> {
    step.from.is_empty().then_some("takes nothing")
}

fn head(
    ui: &mut Ui,
    page: &mut HousePage,
    (place, step): (usize, &Step),
    draft: &mut HouseDraft<'_>,
) {
    ui.horizontal(|ui| {
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            moves(ui, page, place, draft);
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                let open = page.step == Some(place);
                let words = RichText::new(summary(place, step)).strong();
                let button = ui.add(Button::selectable(open, words).truncate());
                let name = format!("Step {}: {}", place + 1, step.does.name());
                if named(button, &name, teach(&step.does)).clicked() {
                    page.step = (!open).then_some(place);
                }
            });
        });
    });
}

/// Takes a step out or moves it, from the right.
fn moves(ui: &mut Ui, page: &mut HousePage, place: usize, draft: &mut HouseDraft<'_>) {
    let number = place + 1;
    let last = number >= draft.was.steps.len();
    let remove = named(
        ui.small_button("×"),
        &format!("Remove step {number}"),
        "Take this step out; what took the first thing it made takes what it took",
    );
    if remove.clicked() {
        remove_step(&mut draft.made, place);
        draft.say(format!("Remove step {number}"));
        page.step = None;
    }
    for (mark, to, enabled, words) in [
        ("↓", number, !last, "later"),
        ("↑", place.wrapping_sub(1), place > 0, "earlier"),
    ] {
        let button = ui.add_enabled(enabled, Button::new(mark).small());
        let name = format!("Move step {number} {words}");
        if named(button, &name, "Change the order of the steps").clicked() {
            move_step(&mut draft.made, place, to);
            draft.say("Reorder the steps");
            page.step = Some(to);
        }
    }
}

/// "2 strain: soaked → strained + solids (1 h 30 min)".
fn summary(place: usize, step: &Step) -> String {
    let mut words = format!(
        "{} {}: {} → {}",
        place + 1,
        step.does.name(),
        step.from.join(" + "),
        step.to.join(" + ")
    );
    let minutes = step.hands_on_min + step.wait.least_min;
    if minutes > 0.0 {
        words = format!("{words} ({})", minutes_text(minutes));
    }
    words
}
