//! Cards of proposals: full and compact, previewed on all charts, taken in part.

use crate::workbench::{CTRL, CTRL_SHIFT, Workbench};
use eframe::egui::Key;
use eframe::egui::accesskit::Role;
use equipour::balance::Figures;
use equipour::rebalance::Proposal;
use equipour::session::proposal_title;

fn proposals(bench: &Workbench) -> &[Proposal] {
    let derived = bench.session().derived().expect("derived");
    &derived.answer.as_ref().expect("an answer").proposals
}

fn title(bench: &Workbench, place: usize) -> String {
    proposal_title(&proposals(bench)[place].kinds)
}

fn header(bench: &Workbench, place: usize) -> String {
    format!("Proposal: {}", title(bench, place))
}

fn is_open(bench: &Workbench, place: usize) -> bool {
    bench.has(
        Role::Button,
        &format!("Keep as new trial: {}", title(bench, place)),
    )
}

fn figures(bench: &Workbench) -> Figures {
    let derived = bench.session().derived().expect("derived");
    derived.figures.clone().expect("figures")
}

/// Leaves a pour of the first proposal out.
fn untick(bench: &mut Workbench, name: &str) {
    bench.click(Role::CheckBox, &format!("Take {name}"));
}

/// The part of the demo's first proposal without its quince syrup.
fn part(bench: &mut Workbench) -> (String, f64) {
    let first = proposals(bench)[0].clone();
    untick(bench, "quince syrup");
    let taken: Vec<_> = first
        .changes
        .iter()
        .filter(|change| change.pour != 1)
        .copied()
        .collect();
    assert!(taken.len() + 1 == first.changes.len() && !taken.is_empty());
    let title = format!(
        "{}, {} of {} pours",
        first.kinds[0].name(),
        taken.len(),
        first.changes.len()
    );
    let preview = bench
        .session()
        .previewed(&taken)
        .expect("it was worked out");
    (title, preview.distance.expect("a target"))
}

#[test]
fn the_first_card_is_full_and_the_others_are_their_titles() {
    let bench = Workbench::demo();
    assert!(proposals(&bench).len() > 1);
    assert!(is_open(&bench, 0) && !is_open(&bench, 1));
    let first = bench.place(Role::Button, &header(&bench, 0));
    let second = bench.place(Role::Button, &header(&bench, 1));
    assert!(first.bottom() < second.top(), "in the order of the answer");
    let apply = |place: usize| format!("Apply: {}", title(&bench, place));
    assert!(bench.has(Role::Button, &apply(0)) && !bench.has(Role::Button, &apply(1)));
    assert!(second.height() < 72.0, "four lines at most: {second}");
    let said = bench.description(Role::Button, &header(&bench, 1));
    let pours = proposals(&bench)[1].changes.len();
    assert!(said.contains("steps away"), "{said}");
    assert!(said.contains(&format!("changes {pours} pours")), "{said}");
}

#[test]
fn a_card_opens_once_the_pointer_rests_on_it() {
    let mut bench = Workbench::demo();
    let name = header(&bench, 1);
    bench.hover(Role::Button, &name);
    assert!(!is_open(&bench, 1), "crossing it leaves the list in place");
    assert!(bench.previewed().is_some(), "but it is previewed at once");
    bench.wait();
    assert!(is_open(&bench, 1) && is_open(&bench, 0));
    bench.harness.remove_cursor();
    bench.run();
    assert!(is_open(&bench, 1), "it stays open");
    assert!(bench.previewed().is_none());
}

#[test]
fn a_click_opens_a_card() {
    let mut bench = Workbench::demo();
    let name = header(&bench, 1);
    bench.button(&name);
    assert!(is_open(&bench, 1));
    assert_eq!(bench.steps(), 0);
}

#[test]
fn the_key_for_proposals_goes_through_the_cards_and_previews_them() {
    let mut bench = Workbench::demo();
    let kinds: Vec<String> = proposals(&bench)
        .iter()
        .map(|one| one.kinds[0].name().to_owned())
        .collect();
    for kind in kinds.iter().chain(kinds.first()) {
        bench.press(Key::F3);
        assert_eq!(bench.previewed().as_deref(), Some(kind.as_str()));
    }
    bench.press(Key::F3);
    assert!(is_open(&bench, 1));
    // The focus goes on into the card, and the preview stays.
    bench.press(Key::Tab);
    assert_eq!(bench.previewed().as_deref(), Some(kinds[1].as_str()));
    bench.press(Key::Escape);
    assert!(bench.previewed().is_none());
    assert_eq!(bench.steps(), 0);
}

#[test]
fn the_pointer_goes_before_the_focus() {
    let mut bench = Workbench::demo();
    bench.press(Key::F3);
    let first = bench.previewed();
    let name = header(&bench, 1);
    bench.hover(Role::Button, &name);
    assert_ne!(bench.previewed(), first);
    bench.harness.remove_cursor();
    bench.run();
    assert_eq!(bench.previewed(), first);
}

#[test]
fn a_preview_shows_on_every_chart() {
    let mut bench = Workbench::demo();
    let first = proposals(&bench)[0].clone();
    let now = figures(&bench);
    let said = |bench: &Workbench, name: &str| bench.description(Role::Image, name);
    let strip = said(&bench, "Strength");
    let proposed = |bench: &Workbench, pour: &str| {
        let said = bench.description(Role::Slider, pour);
        said.split_once("Square: ")
            .map(|(_, words)| words.to_owned())
    };
    assert_eq!(proposed(&bench, "caraway spirit"), None);
    bench.press(Key::F3);

    let strength = format!("{:.1} % vol", first.point.strength_pct_vol);
    let ghost = said(&bench, "Strength");
    assert!(
        ghost.starts_with(&strip) && ghost.contains(&strength),
        "{ghost}"
    );
    assert!(said(&bench, "Temperature").contains("Best balance: "));
    assert_eq!(bench.painted("Best balance"), 1, "on the map");
    let spirit = proposed(&bench, "caraway spirit");
    assert_eq!(spirit.as_deref(), Some("52.5 ml as proposed"));
    assert_eq!(proposed(&bench, "lemon juice"), None, "it stays");
    let share = said(&bench, "quince syrup: sweet");
    assert!(share.starts_with("92 % → "), "{share}");
    let sweet = format!(
        "{:.1} → {:.1}",
        now.point.sweet_g_per_l, first.point.sweet_g_per_l
    );
    assert!(bench.says(&sweet), "{sweet}");
    let tick = bench.description(Role::CheckBox, "Take caraway spirit");
    assert!(tick.starts_with("caraway spirit 45 ml → 52.5 ml"), "{tick}");

    bench.press(Key::Escape);
    assert_eq!(said(&bench, "Strength"), strip);
    assert!(!bench.says(&sweet));
}

#[test]
fn a_preview_leaves_the_charts_in_their_places() {
    let mut bench = Workbench::demo();
    let places = |bench: &Workbench| {
        ["sweet against sour", "Strength", "Temperature"]
            .map(|chart| bench.place(Role::Image, chart))
    };
    let before = places(&bench);
    bench.press(Key::F3);
    assert!(bench.previewed().is_some());
    assert_eq!(places(&bench), before);
}

#[test]
fn leaving_a_pour_out_says_at_once_where_the_rest_lands() {
    let mut bench = Workbench::demo();
    let whole = proposals(&bench)[0].distance;
    let (title, distance) = part(&mut bench);
    assert!((distance - whole).abs() > 0.1);
    let said = bench.description(Role::Button, &format!("Proposal: {title}"));
    assert!(
        said.starts_with(&format!("lands {distance:.1} steps away")),
        "{said}"
    );
    assert!(bench.says("a part: nothing is proved of it"));
    assert_eq!(bench.steps(), 0, "looking changes nothing");
    untick(&mut bench, "quince syrup");
    assert!(!bench.has(Role::Button, &format!("Proposal: {title}")));
    assert!(bench.says("proved best on your notches"));
}

#[test]
fn a_part_is_applied_as_one_step_and_undo_restores() {
    let mut bench = Workbench::demo();
    let (title, distance) = part(&mut bench);
    bench.button(&format!("Apply: {title}"));
    assert_eq!((bench.amount(0), bench.amount(1)), (52.5, 17.5));
    assert_eq!(bench.steps(), 1);
    let landed = bench.session().derived().expect("derived").distance;
    assert_eq!(landed, Some(distance));
    bench.button(&format!("Undo: Apply: {title}"));
    assert_eq!(bench.amount(0), 45.0);
    assert!(!bench.session().is_dirty());
}

#[test]
fn a_part_kept_as_a_trial_writes_the_part_into_its_reason() {
    let mut bench = Workbench::demo();
    let (title, distance) = part(&mut bench);
    bench.button(&format!("Keep as new trial: {title}"));
    let trial = bench.session().trial().expect("a trial");
    let begins = format!(
        "{}, {distance:.1} steps from the target",
        title.to_lowercase()
    );
    assert!(trial.reason.starts_with(&begins), "{}", trial.reason);
    assert!(trial.reason.ends_with("caraway spirit 45 ml → 52.5 ml"));
    assert_eq!(bench.steps(), 1);
}

#[test]
fn the_keys_of_the_first_proposal_take_what_is_ticked() {
    let mut bench = Workbench::demo();
    part(&mut bench);
    bench.chord(CTRL, Key::Enter);
    assert_eq!((bench.amount(0), bench.amount(1)), (52.5, 17.5));
    bench.chord(CTRL, Key::Z);
    let mut bench = Workbench::demo();
    part(&mut bench);
    bench.chord(CTRL_SHIFT, Key::Enter);
    let trial = bench.session().trial().expect("a trial");
    assert!(trial.reason.contains(" of "), "{}", trial.reason);
}

#[test]
fn with_nothing_ticked_there_is_nothing_to_take() {
    let mut bench = Workbench::demo();
    let first = proposals(&bench)[0].clone();
    assert_eq!(first.changes.len(), 2);
    untick(&mut bench, "quince syrup");
    untick(&mut bench, "caraway spirit");
    let title = format!("{}, 0 of 2 pours", first.kinds[0].name());
    for button in ["Apply", "Keep as new trial"] {
        assert!(bench.is_disabled(Role::Button, &format!("{button}: {title}")));
    }
    assert!(bench.says("Nothing is ticked"));
}

#[test]
fn what_was_left_out_is_forgotten_when_the_drink_changes() {
    let mut bench = Workbench::demo();
    part(&mut bench);
    bench.enter_amount("lemon juice", "15");
    for proposal in 0..proposals(&bench).len() {
        assert!(bench.has(Role::Button, &header(&bench, proposal)));
    }
}

#[test]
fn the_reasons_open_by_key_and_tell_the_proof() {
    let mut bench = Workbench::demo();
    assert!(!bench.says("compared"));
    let name = format!("Why: {}", title(&bench, 0));
    bench.control(Role::Button, &name).focus();
    bench.run();
    assert!(bench.previewed().is_some(), "the focus is in the card");
    bench.press(Key::Enter);
    for kind in proposals(&bench)[0].kinds.clone() {
        assert!(bench.says(&format!("{}: proved", kind.name())));
        assert!(bench.says(kind.meaning()));
    }
    assert!(bench.says("compared"));
    bench.press(Key::Escape);
    assert!(!bench.says("compared"));
}

#[test]
fn the_cost_stands_beside_its_difference_from_now() {
    let bench = Workbench::demo();
    let first = &proposals(&bench)[0];
    let more = first.cost - figures(&bench).cost.amount;
    assert!(more > 0.0);
    assert!(bench.says(&format!("{:.2} EUR (+{more:.2})", first.cost)));
    assert!(bench.says("2 pours changed"));
}

#[test]
fn a_tasted_trial_keeps_its_amounts_but_a_proposal_grows_a_new_one() {
    let mut bench = Workbench::demo();
    bench.press(Key::PageUp);
    let tasted = bench.session().trial().expect("a trial").clone();
    let title = title(&bench, 0);
    assert!(bench.is_disabled(Role::Button, &format!("Apply: {title}")));
    bench.button(&format!("Keep as new trial: {title}"));
    let grown = bench.session().trial().expect("a trial");
    assert_eq!(grown.parent, Some(tasted.id));
    assert_ne!(grown.pours, tasted.pours);
}
