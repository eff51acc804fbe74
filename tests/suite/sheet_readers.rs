//! Who may read what: a closed part is in no way out.

use crate::sheet_kit::poppler;
use crate::submission_kit::{
    KITCHEN_GARDEN, close, demo, entry, file_text, files, plan, showing, view, ways_out,
};
use equipour::model::{Document, Openness, Reader, SheetPart};
use equipour::session::{Edit, Session, SheetFile, SubmissionEdit};
use std::sync::Arc;

/// What only that part says, without blanks.
fn marks(part: SheetPart) -> &'static [&'static str] {
    match part {
        SheetPart::Maker => &["Qmaker"],
        SheetPart::Story => &["Qstory"],
        SheetPart::Amounts => &["carawayspirit", "42.5ml", "1122ml"],
        SheetPart::Method => &["Qmethod"],
        SheetPart::Glass => &["Qglass", "washline"],
        SheetPart::Garnish => &["Qgarnish"],
        SheetPart::HouseMade => &["Spread3to6mm", "thendehydrate", "macerated"],
        SheetPart::Chart => &["Nearestclassic:"],
        SheetPart::Figures => &["Sweet,assucrose"],
        SheetPart::Allergens => &["Serveresponsibly"],
        SheetPart::Alcohol => &["Purealcohol:", "kcal"],
        SheetPart::Substitutes => &["Qsubstitute"],
        SheetPart::Batch => &["Mixedbeforehand", "1122ml"],
        SheetPart::Prep => &["ofworkuntiltheservice"],
        SheetPart::Cost => &["adrinkwithspares"],
        SheetPart::Menu => &["Qmenu"],
        SheetPart::Sources => &["Predictionsofamodel"],
    }
}

/// A drink whose parts each say something of their own; all are open to everybody.
fn marked() -> Document {
    let mut document = demo();
    let spec = document.spec_mut(KITCHEN_GARDEN).expect("it is there");
    "Qglass".clone_into(&mut spec.glass.name);
    let own = entry(&mut document, KITCHEN_GARDEN);
    "Qmaker".clone_into(&mut own.maker);
    "Qstory.".clone_into(&mut own.story);
    "Qgarnish".clone_into(&mut own.garnish);
    own.substitutes = vec!["Qsubstitute".to_owned()];
    "Qmenu".clone_into(&mut own.menu_line);
    own.rules = None;
    for part in SheetPart::ALL {
        own.openness.insert(part, Openness::Public);
    }
    document
}

fn opened(session: &mut Session, part: SheetPart, level: Openness, method: &[String]) {
    let mut own = (*session.spec().expect("a drink").entry).clone();
    for one in SheetPart::ALL {
        own.openness.insert(one, Openness::Public);
    }
    own.openness.insert(part, level);
    own.method = method.to_vec();
    let edit = SubmissionEdit::SetEntry {
        spec: KITCHEN_GARDEN,
        entry: Arc::new(own),
        what: "Change who reads what",
    };
    session
        .edit(&Edit::Submission(edit))
        .expect("it can be done");
    session.refresh();
}

fn may_read(level: Openness, reader: Reader) -> bool {
    match (level, reader) {
        (Openness::Private, _) => false,
        (Openness::Bar, reader) => reader == Reader::Bar,
        (Openness::Public, _) => true,
    }
}

#[test]
fn a_closed_part_is_in_no_way_out() {
    let mut session = showing(marked(), KITCHEN_GARDEN);
    // Words of a person, and those that the technique gives where they could tell of the part.
    let own = ["Qmethod it.".to_owned()];
    let told = [SheetPart::Amounts, SheetPart::Glass, SheetPart::Garnish];
    let own = SheetPart::ALL.map(|part| (part, &own[..]));
    let by_technique = told.map(|part| (part, &[][..]));
    for (part, method) in own.into_iter().chain(by_technique) {
        opened(&mut session, part, Openness::Private, method);
        for (way, text) in ways_out(&session, Reader::Bar) {
            for mark in marks(part) {
                assert!(
                    !text.contains(mark),
                    "{part:?} is private, yet {way} says {mark}"
                );
            }
        }
    }
}

#[test]
fn every_level_lets_just_its_readers_read() {
    let mut session = showing(marked(), KITCHEN_GARDEN);
    let method = ["Qmethod it.".to_owned()];
    for part in SheetPart::ALL {
        for level in Openness::ALL {
            opened(&mut session, part, level, &method);
            for reader in Reader::ALL {
                let recipe = equipour::session::recipe(&session, reader).expect("a drink");
                let text = close(&equipour::sheet::plain_text(&recipe));
                let said = text.contains(marks(part)[0]);
                assert_eq!(
                    said,
                    may_read(level, reader),
                    "{part:?} {level:?} {reader:?}"
                );
            }
        }
    }
}

#[test]
fn usually_guests_see_neither_cost_nor_batch_nor_preparation() {
    let session = showing(demo(), KITCHEN_GARDEN);
    for reader in Reader::ALL {
        let recipe = view(&session, reader).recipe;
        assert!(recipe.cost.is_empty(), "{reader:?}");
        let is_bar = reader == Reader::Bar;
        assert_eq!(recipe.batch.is_empty(), !is_bar, "{reader:?}");
        assert_eq!(recipe.prep.is_empty(), !is_bar, "{reader:?}");
    }
}

#[test]
fn a_hidden_maker_is_named_nowhere() {
    let mut document = marked();
    let own = entry(&mut document, KITCHEN_GARDEN);
    own.hide_maker = true;
    own.openness.clear();
    own.openness.insert(SheetPart::Sources, Openness::Private);
    let service = plan(&mut document, KITCHEN_GARDEN);
    service.on = "2999-12-05".to_owned();
    service.bottling.on = true;
    let session = showing(document, KITCHEN_GARDEN);
    let folder = tempfile::tempdir().expect("a folder");
    for reader in Reader::ALL {
        let shown = view(&session, reader);
        assert_eq!((&shown.recipe.maker, &shown.about.author), (&None, &None));
        for (way, text) in ways_out(&session, reader) {
            assert!(!text.contains("Qmaker"), "{way} for {reader:?}");
        }
        for kind in SheetFile::ALL {
            match kind.extension() {
                "md" | "txt" | "json" | "csv" | "svg" | "ics" => {
                    let text = file_text(&session, reader, kind);
                    assert!(!text.contains("Qmaker"), "{kind:?} for {reader:?}");
                }
                "pdf" => {
                    let made = files(&session, reader, kind).expect("it can be made");
                    std::fs::write(folder.path().join("a.pdf"), &made[0].1).expect("written");
                    for (tool, words) in [
                        ("pdftotext", &["a.pdf", "-"][..]),
                        ("pdfinfo", &["-struct-text", "a.pdf"][..]),
                        ("pdfinfo", &["a.pdf"][..]),
                    ] {
                        let Some(text) = poppler(tool, words, folder.path()) else {
                            continue;
                        };
                        assert!(!text.contains("Qmaker"), "{kind:?}, {tool}");
                    }
                }
                _ => {}
            }
        }
    }
}

#[test]
fn the_method_of_the_technique_says_no_amount_once_ingredients_are_closed() {
    let mut document = demo();
    let id = KITCHEN_GARDEN;
    let trial = document.spec(id).and_then(|spec| spec.latest());
    let trial = trial.expect("a trial").id;
    let pours = &mut document.trial_mut(trial).expect("it is there").pours;
    pours[0].added = equipour::model::Added::After;
    let own = entry(&mut document, id);
    own.openness.insert(SheetPart::Amounts, Openness::Private);
    let session = showing(document, id);
    let recipe = view(&session, Reader::Judges).recipe;
    assert!(recipe.lines.is_empty());
    let steps = recipe.method.join(" ");
    assert!(
        !steps.contains("ml of") && !steps.contains("caraway"),
        "{steps}"
    );
    assert!(steps.contains("Top with"), "{steps}");
}
