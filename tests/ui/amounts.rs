//! Amounts typed by hand.

use crate::workbench::Workbench;
use eframe::egui::Key;
use eframe::egui::accesskit::Role;
use equipour::units::Unit;

const LEMON: usize = 2;
const NAME: &str = "lemon juice";
const FIELD: &str = "Amount of lemon juice";

#[test]
fn a_comma_is_a_decimal_mark() {
    let mut bench = Workbench::demo();
    bench.enter_amount(NAME, "22,5");
    assert_eq!(bench.amount(LEMON), 22.5);
    assert_eq!(bench.shown_amount(NAME), "22.5 ml");
    assert_eq!(bench.steps(), 1);
}

#[test]
fn fractions_of_an_ounce_are_taken_and_shown_in_ounces() {
    let mut bench = Workbench::demo();
    bench.enter_amount(NAME, "1 3/4 oz");
    // The demo's ounce is 30 ml.
    assert_eq!(bench.amount(LEMON), 52.5);
    assert_eq!(bench.pour(LEMON).unit, Unit::Oz);
    assert_eq!(bench.shown_amount(NAME), "1¾ oz");
}

#[test]
fn a_calculation_is_worked_out() {
    let mut bench = Workbench::demo();
    bench.enter_amount(NAME, "=30+15");
    assert_eq!(bench.amount(LEMON), 45.0);
    assert_eq!(bench.shown_amount(NAME), "45 ml");
}

#[test]
fn an_amount_by_weight_is_kept_in_grams() {
    let mut bench = Workbench::demo();
    bench.enter_amount(NAME, "10 g");
    assert_eq!(
        bench.pour(LEMON).amount,
        equipour::model::Amount::Grams(10.0)
    );
    assert_eq!(bench.shown_amount(NAME), "10 g");
}

#[test]
fn escape_leaves_the_amount_as_it_was() {
    let mut bench = Workbench::demo();
    bench.click(Role::TextInput, FIELD);
    bench.type_text("99");
    assert_eq!(bench.shown_amount(NAME), "99");
    bench.press(Key::Escape);
    assert_eq!(bench.amount(LEMON), 12.5);
    assert_eq!(bench.shown_amount(NAME), "12.5 ml");
    assert_eq!(bench.steps(), 0);
}

#[test]
fn leaving_the_field_takes_what_was_typed() {
    let mut bench = Workbench::demo();
    bench.click(Role::TextInput, FIELD);
    bench.type_text("30");
    bench.press(Key::Tab);
    assert_eq!(bench.amount(LEMON), 30.0);
    assert_eq!(bench.steps(), 1);
}

#[test]
fn going_in_and_out_of_a_field_changes_nothing() {
    let mut bench = Workbench::demo();
    bench.click(Role::TextInput, FIELD);
    bench.press(Key::Enter);
    assert_eq!(bench.steps(), 0);
    // A rounded display must not replace the stored value.
    bench.enter_amount(NAME, "12.34567");
    bench.click(Role::TextInput, FIELD);
    bench.press(Key::Enter);
    assert_eq!(bench.amount(LEMON), 12.34567);
    assert_eq!(bench.shown_amount(NAME), "12.35 ml");
}

/// Types something that is no amount; it must stay to be mended, with its reason.
#[track_caller]
fn refuses(text: &str, reason: &str) {
    let mut bench = Workbench::demo();
    bench.enter_amount(NAME, text);
    assert_eq!(bench.amount(LEMON), 12.5, "{text} changed the amount");
    assert_eq!(bench.steps(), 0);
    assert_eq!(bench.shown_amount(NAME), text, "the text is kept");
    assert!(bench.says(reason), "{text}: no reason on screen");
    bench.enter_amount(NAME, "20");
    assert_eq!(bench.amount(LEMON), 20.0, "and can be mended");
    assert!(!bench.says(reason), "{text}: the reason stays");
}

#[test]
fn words_are_refused_with_a_reason() {
    refuses("abc", "is not a number");
}

#[test]
fn division_by_zero_is_refused_with_a_reason() {
    refuses("1/0", "divided by zero");
}

#[test]
fn less_than_nothing_is_refused_with_a_reason() {
    refuses("-3", "is below zero");
}

#[test]
fn more_than_any_bar_pours_is_refused_with_a_reason() {
    refuses("1e99", "is too large");
}

#[test]
fn a_number_that_reads_in_two_ways_is_refused_with_both() {
    refuses("1,250", "can be read in two ways; type 1250 or 1.25");
}

#[test]
fn escape_gives_the_old_amount_back_after_a_refusal() {
    let mut bench = Workbench::demo();
    bench.enter_amount(NAME, "abc");
    bench.click(Role::TextInput, FIELD);
    bench.press(Key::Escape);
    assert_eq!(bench.shown_amount(NAME), "12.5 ml");
    assert!(!bench.says("is not a number"));
}

#[test]
fn a_refused_amount_is_forgotten_when_the_pour_moves_by_other_means() {
    let mut bench = Workbench::demo();
    bench.enter_amount(NAME, "abc");
    bench.control(Role::Slider, NAME).increment_accesskit();
    bench.run();
    assert_eq!(bench.amount(LEMON), 15.0);
    assert_eq!(bench.shown_amount(NAME), "15 ml");
}
