//! Drafts of the larder whose row changes in the document meanwhile, and what becomes of origins.

use crate::larder::{enter, field, held, larder, open};
use crate::workbench::{CTRL, CTRL_SHIFT, Workbench};
use eframe::egui::Key;
use eframe::egui::accesskit::Role;
use equipour::model::{Origin, Price};

const LEMON: &str = "lemon-juice";
const OVERTAKEN: &str = "This row changed in the document after you began to edit it";
const MINE: &str = "Keep mine anyway";
const THEIRS: &str = "Take theirs";

fn sugar(bench: &Workbench) -> f64 {
    let sugar = held(bench, LEMON).and_then(|item| item.sugar_g);
    sugar.expect("sugar").typical
}

fn ph(bench: &Workbench) -> f64 {
    let ph = held(bench, LEMON).and_then(|item| item.ph);
    ph.expect("pH").typical
}

/// A draft with 3.5 g of sugar, begun on a pH of 2.4 that was undone after that.
fn overtaken() -> Workbench {
    let mut bench = larder();
    open(&mut bench, "lemon juice");
    enter(&mut bench, "pH, typical", "2.4");
    bench.button("Keep");
    assert_eq!(ph(&bench), 2.4);
    enter(&mut bench, "Sugar, typical", "3.5");
    assert!(!bench.says(OVERTAKEN));
    bench.chord(CTRL, Key::Z);
    assert_ne!(ph(&bench), 2.4);
    bench
}

#[test]
fn a_draft_whose_row_was_undone_is_kept_only_when_told_so() {
    let mut bench = overtaken();
    assert!(bench.says(OVERTAKEN));
    assert!(!bench.has(Role::Button, "Keep") && !bench.has(Role::Button, "Discard"));
    assert_eq!(field(&bench, "Sugar, typical"), "3.5", "nothing is lost");
    let (before, was) = (ph(&bench), sugar(&bench));
    bench.button(MINE);
    assert_eq!((ph(&bench), sugar(&bench)), (2.4, 3.5));
    assert!(!bench.says(OVERTAKEN));
    bench.chord(CTRL, Key::Z);
    assert_eq!(
        (ph(&bench), sugar(&bench)),
        (before, was),
        "undo brings it back"
    );
}

#[test]
fn the_row_as_it_is_now_can_be_taken_in_place_of_the_draft() {
    let mut bench = overtaken();
    let before = bench.session().document().clone();
    bench.button(THEIRS);
    assert!(!bench.says(OVERTAKEN) && !bench.says("not kept yet"));
    assert_ne!(field(&bench, "Sugar, typical"), "3.5");
    assert_ne!(field(&bench, "pH, typical"), "2.4");
    assert_eq!(*bench.session().document(), before);
}

#[test]
fn a_draft_is_good_again_when_its_row_is_back() {
    let mut bench = overtaken();
    bench.chord(CTRL_SHIFT, Key::Z);
    assert_eq!(ph(&bench), 2.4);
    assert!(!bench.says(OVERTAKEN));
    bench.button("Keep");
    assert_eq!((ph(&bench), sugar(&bench)), (2.4, 3.5));
}

#[test]
fn a_price_set_on_the_balance_page_is_not_overwritten_unasked() {
    let mut bench = larder();
    open(&mut bench, "lemon juice");
    enter(&mut bench, "Sugar, typical", "3.5");
    bench.chord(CTRL, Key::Num1);
    bench.button("More for lemon juice");
    bench.button("Price of a pack");
    bench.enter_number("Price", "7");
    bench.press(Key::Escape);
    let price = |bench: &Workbench| held(bench, LEMON).and_then(|item| item.price.clone());
    let set = price(&bench).expect("a price");
    assert_eq!(set.pack_price, 7.0);
    bench.chord(CTRL, Key::Num5);
    assert!(bench.says(OVERTAKEN));
    assert_eq!(price(&bench), Some(set));
}

#[test]
fn retiring_a_row_does_not_overtake_its_own_draft() {
    let mut bench = larder();
    open(&mut bench, "lemon juice");
    enter(&mut bench, "Sugar, typical", "3.5");
    bench.button("Retire");
    assert!(held(&bench, LEMON).expect("it").retired);
    assert!(!bench.says(OVERTAKEN));
    bench.button("Keep");
    assert!(held(&bench, LEMON).expect("it").retired);
    assert_eq!(sugar(&bench), 3.5);
}

#[test]
fn figures_that_a_person_changed_are_their_own_and_names_are_not_enough() {
    let mut bench = larder();
    open(&mut bench, "lemon juice");
    let origin = |bench: &Workbench| held(bench, LEMON).expect("it").origin.clone();
    assert!(matches!(origin(&bench), Origin::BuiltIn { .. }));
    bench.click(Role::TextInput, "Name");
    bench.chord(CTRL, Key::A);
    bench.type_text("lemon, pressed");
    bench.button("Keep");
    assert_eq!(held(&bench, LEMON).expect("it").name, "lemon, pressed");
    assert!(matches!(origin(&bench), Origin::BuiltIn { .. }));
    enter(&mut bench, "Sugar, typical", "3.5");
    bench.button("Keep");
    assert_eq!(origin(&bench), Origin::Own);
    bench.chord(CTRL, Key::Z);
    assert!(matches!(origin(&bench), Origin::BuiltIn { .. }));
}

#[test]
fn the_size_of_a_pack_waits_for_its_price() {
    let mut bench = larder();
    bench.button("New");
    enter(&mut bench, "Sugar, typical", "5");
    enter(&mut bench, "for", "500");
    assert_eq!(field(&bench, "for"), "500");
    assert!(bench.says("what the pack costs is missing"));
    enter(&mut bench, "Price", "12");
    assert!(!bench.says("what the pack costs is missing"));
    bench.button("Keep");
    let price = || Price {
        pack_price: 12.0,
        pack_size: 500.0,
        pack_is_mass: false,
    };
    let kept = held(&bench, "new-ingredient").expect("it is kept");
    assert_eq!(kept.price, Some(price()));
    // A price that is taken away takes its pack with it.
    enter(&mut bench, "Price", "–");
    assert!(!bench.says("what the pack costs is missing"));
    assert_eq!(field(&bench, "for"), "");
    bench.button("Keep");
    assert_eq!(held(&bench, "new-ingredient").expect("it").price, None);
    // And a size alone is let go when it is discarded.
    enter(&mut bench, "for", "500");
    bench.button("Discard");
    assert_eq!(field(&bench, "for"), "");
}
