//! Settings and the window's layout: kept whole, bounded, never a reason not to start.

use crate::sample_drinks::{SHAKEN, builtin, document, sour};
use equipour::model::{Axis, Reader};
use equipour::session::{Edit, Session};
use equipour::store::{
    Beginning, Folders, LastExport, Settings, Shown, ThemeChoice, WindowLayout, load_layout,
    load_settings, save_layout, save_settings,
};
use equipour::units::Unit;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::PathBuf;
use std::sync::Arc;
use tempfile::{TempDir, tempdir};

fn home() -> (TempDir, Folders) {
    let home = tempdir().expect("a folder");
    let folders = Folders::below(home.path());
    fs::create_dir_all(home.path().join("config")).expect("it can be made");
    (home, folders)
}

/// Settings of which none is the usual one.
fn all_changed() -> Settings {
    let mut beginning = Beginning {
        ounce_ml: 29.5735,
        jiggers_ml: vec![12.5, 40.0],
        country: "Japan".to_owned(),
        currency: "CHF".to_owned(),
        ..Beginning::default()
    };
    beginning.senses.sweet.weber = 0.25;
    beginning.senses.sour.weber = 0.12;
    beginning.senses.strength.weber = 0.08;
    Settings {
        theme: ThemeChoice::Light,
        unit: Unit::FlOz,
        scale_pct: 150,
        less_motion: true,
        beginning,
        ..Settings::default()
    }
}

#[test]
fn every_setting_comes_back_as_it_was_set() {
    let (_home, folders) = home();
    let file = folders.settings_file();
    save_settings(&all_changed(), &file).expect("they can be saved");
    assert_eq!(load_settings(&file), (all_changed(), None));
}

#[test]
fn settings_of_an_earlier_version_load_and_lack_nothing() {
    let (_home, folders) = home();
    let file = folders.settings_file();
    fs::write(&file, "(theme: Dark, unit: Oz, recent: [], last: None)").expect("written");
    let (settings, said) = load_settings(&file);
    assert_eq!(said, None);
    assert_eq!(
        (settings.theme, settings.unit),
        (ThemeChoice::Dark, Unit::Oz)
    );
    assert_eq!((settings.scale_pct, settings.less_motion), (100, false));
    assert_eq!(settings.beginning, Beginning::default());
}

#[test]
fn a_beginning_that_could_not_stand_in_a_document_is_refused_by_the_name_of_its_field() {
    let jiggers = |jiggers_ml| Beginning {
        jiggers_ml,
        ..Beginning::default()
    };
    let mut numb = Beginning::default();
    numb.senses.sour.weber = 0.0;
    for (wrong, field) in [
        (
            Beginning {
                ounce_ml: 0.0,
                ..Beginning::default()
            },
            "measures",
        ),
        (
            Beginning {
                ounce_ml: f64::NAN,
                ..Beginning::default()
            },
            "measures",
        ),
        (jiggers(vec![]), "jiggers_ml"),
        (jiggers(vec![30.0, 20.0]), "jiggers_ml[1]"),
        (numb, "senses.sour.weber"),
        (
            Beginning {
                currency: "x".repeat(100_000),
                ..Beginning::default()
            },
            "currency",
        ),
        (
            Beginning {
                country: String::new(),
                ..Beginning::default()
            },
            "country",
        ),
    ] {
        let error = wrong.check().expect_err(field);
        assert_eq!(error.field, field, "{error}");
    }
    assert_eq!(all_changed().beginning.check(), Ok(()));
}

#[test]
fn settings_out_of_bounds_are_mended_and_the_rest_is_kept() {
    let (_home, folders) = home();
    let file = folders.settings_file();
    let text =
        "(theme: Dark, unit: Gram, scale_pct: 4000, beginning: (ounce_ml: 0.0, currency: \"CHF\"))";
    fs::write(&file, text).expect("written");
    let (settings, said) = load_settings(&file);
    assert_eq!(
        (settings.theme, settings.unit),
        (ThemeChoice::Dark, Unit::Ml)
    );
    assert_eq!(settings.scale_pct, 200);
    assert_eq!(settings.beginning, Beginning::default());
    let said = said.expect("it is said");
    assert!(said.contains("measures: ounce_ml is 0"), "{said}");
}

#[test]
fn a_new_document_begins_as_the_settings_say() {
    let beginning = all_changed().beginning;
    let document = beginning.document();
    assert_eq!(document.measures.ounce_ml, 29.5735);
    assert_eq!(document.jiggers_ml, [12.5, 40.0]);
    assert_eq!(document.currency, "CHF");
    assert_eq!(document.senses, beginning.senses);
}

#[test]
fn currency_and_country_of_a_document_are_changed_in_one_step_each_and_come_back() {
    let was = document(sour(), SHAKEN, None);
    let mut session = Session::new(Arc::clone(builtin()), was.clone());
    for edit in [
        Edit::SetCurrency {
            currency: "CHF".to_owned(),
        },
        Edit::SetCountry {
            country: "Japan".to_owned(),
        },
    ] {
        session.edit(&edit).expect("it can be done");
    }
    assert_eq!(session.document().currency, "CHF");
    let mut specs = session.document().specs.iter();
    assert!(specs.all(|spec| spec.service.country == "Japan"));
    assert_eq!(session.history().past().count(), 2);
    session.undo();
    session.undo();
    assert_eq!(**session.document(), was);
}

fn layout() -> WindowLayout {
    WindowLayout {
        size: Some([1400.0, 900.0]),
        place: Some([20.0, 0.0]),
        maximized: true,
        page: "Trials".to_owned(),
        tabs: BTreeMap::from([("charts".to_owned(), "Sureness".to_owned())]),
        shows: BTreeMap::from([("classics".to_owned(), false)]),
        axes: Some((Axis::Strength, Axis::Sour)),
        reader: Reader::Bar,
        widths: BTreeMap::from([("pours".to_owned(), 400.0)]),
        hidden: BTreeSet::from(["balance left".to_owned()]),
        sorted_by: "Sugar".to_owned(),
        descending: true,
        shown: Some(Shown {
            path: PathBuf::from("/bar/sour.ron"),
            spec: 1,
            trial: Some(2),
        }),
        folder: Some(PathBuf::from("/bar")),
        export: Some(LastExport {
            path: PathBuf::from("/bar/sour.md"),
            kind: "Markdown".to_owned(),
            chart_px: [800, 600],
            reader: Reader::Home,
            drink: "Sour (Bar)".to_owned(),
            written: vec![(PathBuf::from("/bar/sour.md"), u64::MAX)],
        }),
    }
}

#[test]
fn the_layout_comes_back_as_it_was_left() {
    let (_home, folders) = home();
    let file = folders.layout_file();
    assert_eq!(load_layout(&file), WindowLayout::default());
    save_layout(&layout(), &file).expect("it can be saved");
    assert_eq!(load_layout(&file), layout());
}

#[test]
fn a_damaged_layout_is_the_usual_one() {
    let (_home, folders) = home();
    let file = folders.layout_file();
    for damage in [
        &b""[..],
        b"(page: 3)",
        b"(size",
        b"\xff\xfe(\0",
        b"[[[[[[[[",
    ] {
        fs::write(&file, damage).expect("written");
        assert_eq!(load_layout(&file), WindowLayout::default());
    }
}

#[test]
fn sizes_and_places_beyond_any_screen_are_forgotten_and_unknown_words_do_no_harm() {
    let (_home, folders) = home();
    let file = folders.layout_file();
    let text = "(size: Some((3.0, inf)), place: Some((-5000.0, 0.0)), page: \"Cellar\", later: 7, \
                widths: {\"pours\": 1e9, \"target\": 300.0, \"notes\": NaN})";
    fs::write(&file, text).expect("written");
    let layout = load_layout(&file);
    assert_eq!((layout.size, layout.place), (None, None));
    assert_eq!(layout.page, "Cellar");
    assert_eq!(
        layout.widths,
        BTreeMap::from([("target".to_owned(), 300.0)])
    );
}
