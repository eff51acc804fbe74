//! Vessel, ice, blender and one's own dilution.

use crate::workbench::Workbench;
use eframe::egui::accesskit::Role;
use equipour::balance::Figures;
use equipour::model::{Dilution, Place, Source};

fn figures(bench: &Workbench) -> Figures {
    let derived = bench.session().derived().expect("derived");
    derived.figures.as_ref().expect("figures").clone()
}

#[test]
fn one_click_puts_all_liquids_in_the_fridge_and_spares_melt() {
    let mut bench = Workbench::demo();
    let warm = figures(&bench);
    bench.pick("Where all liquids wait", "fridge, 4 °C");
    let trial = bench.session().trial().expect("a trial");
    assert!(
        trial
            .pours
            .iter()
            .all(|pour| pour.place == Some(Place::Fridge))
    );
    let cold = figures(&bench);
    let saved = 1.0 - cold.melt_g / warm.melt_g;
    assert!((0.2..0.45).contains(&saved), "about a third: {saved}");
    assert!(cold.point.strength_pct_vol > warm.point.strength_pct_vol);
    assert!(bench.says("Cold spares"));
    assert!(bench.says("from the fridge"));
    assert_eq!(bench.steps(), 1, "one step to undo");
}

#[test]
fn a_chilled_heavy_vessel_changes_what_a_stirred_drink_comes_to() {
    let mut bench = Workbench::demo();
    bench.pick("Technique", "stirred");
    let usual = figures(&bench).served_celsius.expect("a temperature");
    bench.enter_number("Heat of the vessel, kJ per K", "0.4");
    let heavy = figures(&bench).served_celsius.expect("a temperature");
    assert!(heavy > usual + 1.0, "a heavy warm vessel warms the drink");
    bench.pick("Where the vessel waits", "freezer, −18 °C");
    let cold = figures(&bench);
    assert!(cold.served_celsius.expect("a temperature") < heavy);
    assert!(cold.spared_g > 0.0);
}

#[test]
fn ice_from_the_freezer_melts_less() {
    let mut bench = Workbench::demo();
    let wet = figures(&bench).melt_g;
    bench.button("Ice: freezer");
    assert!(figures(&bench).melt_g < wet);
    assert!(bench.is_on("Ice: freezer") && !bench.is_on("Ice: wet"));
}

#[test]
fn a_blender_says_whether_its_measured_ice_melts() {
    let mut bench = Workbench::demo();
    bench.pick("Technique", "blended");
    bench.pick("Dilution", "measured ice");
    bench.enter_number("Ice, grams", "100");
    let blender = figures(&bench).in_blender.expect("it is blended");
    assert_eq!(blender.ice_g, 100.0);
    assert!(
        blender.left_g > 0.0,
        "98.6 ml at room temperature do not melt 100 g"
    );
    assert!(bench.says("of 100 g of ice are left"));
    // Two drinks while ice is left; the melted one counts until told otherwise.
    assert_eq!(figures(&bench).point, blender.melted);
    let meant = "Which drink is meant";
    bench.control(Role::ComboBox, meant).scroll_to_me();
    bench.run();
    bench.pick(meant, "as drunk at once");
    assert_eq!(figures(&bench).point, blender.now);
    assert!(blender.now.strength_pct_vol > blender.melted.strength_pct_vol);
}

#[test]
fn the_ice_for_a_temperature_is_asked_and_used() {
    let mut bench = Workbench::demo();
    bench.pick("Technique", "blended");
    bench.far_button("How much ice…");
    bench.enter_number("Wanted temperature, °C", "2");
    bench.button("Use the ice: For this temperature");
    bench.button("Done");
    let blender = figures(&bench).in_blender.expect("measured ice");
    assert!(blender.left_g == 0.0 && (blender.celsius - 2.0).abs() < 0.3);
}

#[test]
fn why_no_ice_gives_a_temperature_is_said_for_each_reason() {
    let mut bench = Workbench::demo();
    bench.pick("Technique", "blended");
    bench.pick("Where all liquids wait", "fridge, 4 °C");
    bench.pick("Where the vessel waits", "fridge, 4 °C");
    bench.far_button("How much ice…");
    bench.enter_number("Wanted temperature, °C", "20");
    assert!(bench.says("without any ice it comes to"));
    assert!(!bench.says("it gets no colder than"));
    bench.enter_number("Wanted temperature, °C", "-25");
    assert!(bench.says("it gets no colder than"));
    bench.button("Done");
    bench.enter_number("Heat of the vessel, kJ per K", "5");
    bench.pick("Where the vessel waits", "freezer, −18 °C");
    bench.far_button("How much ice…");
    assert!(bench.says("so cold that some of it freezes without any ice"));
    assert!(!bench.says("no freezing point that is known"));
}

#[test]
fn the_fields_of_the_blade_refuse_what_no_blade_does() {
    let mut bench = Workbench::demo();
    bench.pick("Technique", "blended");
    bench.enter_number("Power of the blade, W", "2000");
    bench.enter_number("Time of the blade, s", "600");
    let chilling = bench.session().trial().expect("a trial").technique.chilling;
    assert_eq!(chilling.blade_watts, None);
    assert_eq!(chilling.blade_seconds, None);
    assert!(bench.says("must be from 0 to 1500 W, not 2000 W"));
    assert!(bench.says("must be from 0 to 120 s, not 600 s"));
    bench.enter_number("Power of the blade, W", "1500");
    bench.enter_number("Time of the blade, s", "120");
    let chilling = bench.session().trial().expect("a trial").technique.chilling;
    assert_eq!(chilling.blade_watts, Some(1_500.0));
    assert_eq!(chilling.blade_seconds, Some(120.0));
    assert!(bench.messages().is_empty(), "{:?}", bench.messages());
}

#[test]
fn weighings_teach_the_program_ones_own_dilution() {
    let mut bench = Workbench::demo();
    // Nothing stirred is weighed in the demo.
    bench.pick("Technique", "stirred");
    let usual = figures(&bench);
    bench.button("Weighings…");
    bench.enter_number("Before, g", "100");
    bench.enter_number("After, g", "115");
    bench.button("Add this weighing");
    let own = figures(&bench);
    assert!(own.dilution < usual.dilution, "own water is less here");
    assert!(bench.says("from one weighing"));
    bench.click(Role::CheckBox, "Use my weighings");
    assert!((figures(&bench).dilution - usual.dilution).abs() < 1.0e-12);
    bench.click(Role::CheckBox, "Use my weighings");
    bench.button("Remove weighing 6");
    assert!((figures(&bench).dilution - usual.dilution).abs() < 1.0e-12);
    bench.button("Done");
    assert_eq!(bench.steps(), 5);
}

#[test]
fn a_measured_dilution_leaves_weighings_and_places_aside() {
    let mut bench = Workbench::demo();
    bench.pick("Dilution", "fraction of volume");
    assert!(matches!(
        bench.session().trial().expect("a trial").technique.dilution,
        Dilution::Fraction(_)
    ));
    let before = figures(&bench).dilution;
    bench.pick("Where all liquids wait", "fridge, 4 °C");
    assert!((figures(&bench).dilution - before).abs() < 1.0e-12);
}

#[test]
fn a_single_pour_can_wait_in_the_fridge() {
    let mut bench = Workbench::demo();
    let before = figures(&bench).melt_g;
    assert!(matches!(bench.pour(2).source, Source::Ingredient(_)));
    bench.button("More for lemon juice");
    bench.button("Where it waits");
    bench.click(Role::RadioButton, "fridge, 4 °C");
    assert_eq!(bench.pour(2).place, Some(Place::Fridge));
    assert!(figures(&bench).melt_g < before);
}
