//! What samples and servings of a tasting must hold.

use crate::tasting_documents::refused;
use equipour::model::{TrialId, TrialState};
use std::sync::Arc;

#[test]
fn a_sample_holds_all_that_it_pours_and_is_no_draft() {
    let draft = refused(|one| {
        Arc::make_mut(&mut one.samples[0].as_tasted).state = TrialState::Draft;
    });
    assert!(draft.contains("is a draft, not what was tasted"), "{draft}");
    let missing = refused(|one| {
        Arc::make_mut(&mut one.samples[0].as_tasted).frozen.clear();
    });
    assert!(
        missing.contains("pours[0].source: is no copy that the sample holds itself"),
        "{missing}"
    );
    let unknown = refused(|one| one.samples[0].trial = TrialId(4_000));
    assert!(
        unknown.contains("4000 was never given to anything"),
        "{unknown}"
    );
}

#[test]
fn every_taster_gets_every_sample_and_only_a_duo_trio_test_names_a_reference() {
    let twice = refused(|one| {
        let first = one.tasters[0].cups[0].sample;
        one.tasters[0].cups[1].sample = first;
    });
    assert!(twice.contains("do not hold every sample"), "{twice}");
    let named = refused(|one| one.tasters[0].reference = Some(0));
    assert!(named.contains("belongs to a duo-trio test only"), "{named}");
}
