//! Where the figures of pours come from.

use equipour::model::{Document, FigureGroup, Trial, TrialState};
use equipour::session::{Provenance, drawn_from, provenance};
use equipour::store::{DEMO, read_text, source_name};
use std::collections::BTreeSet;
use std::sync::Arc;

fn demo() -> Document {
    read_text(DEMO).expect("the demo is sound").document
}

/// The sour of the demo.
fn sour(document: &Document) -> &Arc<Trial> {
    let mut trials = document.specs.iter().flat_map(|spec| &spec.trials);
    let found = trials.find(|trial| trial.name == "Second round");
    found.expect("it is in the demo")
}

/// The sour, and the place of its pour of that name.
fn pour_of(document: &Document, name: &str) -> (Arc<Trial>, usize) {
    let trial = sour(document);
    let place = (0..trial.pours.len()).find(|place| {
        let settled = document.settle(trial, &trial.pours[*place]);
        settled.is_some_and(|settled| settled.name == name)
    });
    (Arc::clone(trial), place.expect("it is poured"))
}

fn of(document: &Document, name: &str) -> Provenance {
    let (trial, place) = pour_of(document, name);
    provenance(document, &trial, place).expect("it has a row")
}

#[test]
fn a_figure_tells_its_value_its_range_and_its_sources() {
    let document = demo();
    let found = of(&document, "lemon juice");
    let citric = found
        .figures
        .iter()
        .find(|one| one.name.starts_with("citric acid"));
    let citric = citric.expect("lemon juice is sour");
    assert_eq!(
        (citric.value.as_str(), citric.range.as_str()),
        ("4.8", "4.4 to 7.4")
    );
    let keys: Vec<&str> = citric.sources.iter().map(|(key, _)| key.as_str()).collect();
    assert!(
        keys.contains(&"PEN08") && keys.contains(&"KAR04"),
        "{keys:?}"
    );
    assert_eq!(citric.how, "read in a source and from memory");
    let density = found
        .figures
        .iter()
        .find(|one| one.name.starts_with("density"));
    assert!(density.expect("a density").how.starts_with("measured"));
    assert!(found.trust.starts_with("high") && found.row.contains("built-in larder"));
}

#[test]
fn every_source_of_every_pour_of_the_demo_is_explained() {
    let document = demo();
    let mut looked_at = 0;
    for spec in &document.specs {
        for trial in &spec.trials {
            for place in 0..trial.pours.len() {
                let Some(found) = provenance(&document, trial, place) else {
                    continue;
                };
                for (key, meaning) in found.figures.iter().flat_map(|one| &one.sources) {
                    assert_eq!(source_name(key), Some(meaning.as_str()), "{}", found.name);
                    looked_at += 1;
                }
            }
        }
    }
    assert!(looked_at > 100, "{looked_at}");
}

#[test]
fn figures_nobody_sourced_are_called_assumed() {
    let mut document = demo();
    let (_, place) = pour_of(&document, "lemon juice");
    let trial = Arc::clone(sour(&document));
    let id = document.row_of(&trial.pours[place].source);
    let id = id.expect("a row").clone();
    let rows = Arc::make_mut(&mut document.ingredients);
    let row = Arc::make_mut(rows.get_mut(&id).expect("it is held"));
    row.sources.acid = "as I tasted it".to_owned();
    let found = of(&document, "lemon juice");
    let citric = found
        .figures
        .iter()
        .find(|one| one.name.starts_with("citric acid"));
    assert_eq!(citric.expect("stated").how, "assumed: no source is given");
    let said = drawn_from(&document, &trial, FigureGroup::Acid);
    assert!(
        said.contains("No source is given for lemon juice"),
        "{said}"
    );
}

#[test]
fn the_sources_of_the_sweetness_name_the_pours_that_are_sweet() {
    let document = demo();
    let (trial, _) = pour_of(&document, "lemon juice");
    let said = drawn_from(&document, &trial, FigureGroup::Sugar);
    assert!(
        said.starts_with("Sources: ")
            && said.contains("USDA National Nutrient Database for Standard Reference (lemon juice"),
        "{said}"
    );
    assert!(
        said.contains("lemon juice") && !said.contains("caraway spirit"),
        "{said}"
    );
}

#[test]
fn the_rest_is_stated_by_fat_or_glycerol_as_well_as_by_water() {
    let mut document = demo();
    let (trial, place) = pour_of(&document, "lemon juice");
    let id = document.row_of(&trial.pours[place].source);
    let id = id.expect("a row").clone();
    let mut said = |fat_g, glycerol_g, water_g| {
        let rows = Arc::make_mut(&mut document.ingredients);
        for row in rows.values_mut() {
            let row = Arc::make_mut(row);
            (row.fat_g, row.protein_g, row.salt_g) = (None, None, None);
            (row.gum_g, row.starch_g, row.glycerol_g) = (None, None, None);
            row.water_g = None;
        }
        let row = Arc::make_mut(rows.get_mut(&id).expect("it is held"));
        (row.fat_g, row.glycerol_g, row.water_g) = (fat_g, glycerol_g, water_g);
        row.sources.other = "a:SR28 09152".to_owned();
        drawn_from(&document, &trial, FigureGroup::Other)
    };
    let named = "Sources: USDA National Nutrient Database for Standard Reference (lemon juice).";
    assert_eq!(said(Some(0.3), None, None), named);
    assert_eq!(said(None, Some(0.3), None), named);
    assert_eq!(said(None, None, Some(90.0)), named);
    assert_eq!(said(Some(0.0), None, None), "", "nothing is no figure");
    assert_eq!(said(None, None, None), "");
}

#[test]
fn a_tasted_trial_says_that_its_figures_are_kept() {
    let document = demo();
    let tasted = document.specs.iter().flat_map(|spec| &spec.trials);
    let tasted = tasted.filter(|trial| trial.state != TrialState::Draft);
    let mut checked = 0;
    for trial in tasted {
        let found = provenance(&document, trial, 0).expect("it has a row");
        assert!(
            found
                .remarks
                .iter()
                .any(|said| said.contains("when the trial was tasted"))
        );
        checked += 1;
    }
    assert!(checked > 0);
}

#[test]
fn sources_behind_a_figure_are_named_and_no_code_or_open_bracket_is_left() {
    let document = demo();
    let groups = [
        FigureGroup::Strength,
        FigureGroup::Sugar,
        FigureGroup::Acid,
        FigureGroup::Ph,
        FigureGroup::Density,
    ];
    let (mut keys, mut named) = (BTreeSet::new(), 0);
    for trial in document.specs.iter().flat_map(|spec| &spec.trials) {
        for place in 0..trial.pours.len() {
            let found = provenance(&document, trial, place).expect("a row");
            let sources = found.figures.into_iter().flat_map(|figure| figure.sources);
            keys.extend(sources.map(|(key, _)| key));
        }
        for said in groups.map(|group| drawn_from(&document, trial, group)) {
            named += usize::from(!said.is_empty());
            let code = keys.iter().find(|key| said.contains(key.as_str()));
            assert!(code.is_none(), "{code:?} in {said}");
            let brackets = ['(', ')'].map(|bracket| said.matches(bracket).count());
            assert_eq!(brackets[0], brackets[1], "{said}");
        }
    }
    assert!(keys.len() > 5 && named > 10, "{keys:?} {named}");
}
