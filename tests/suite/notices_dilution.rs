//! Whether a drink is told that its dilution is an extrapolation.

use crate::sample_drinks::{SHAKEN, TRIAL, builtin, document, ml, weighing};
use equipour::model::Method;
use equipour::session::Session;
use std::sync::Arc;

/// Shaken far above the published rule's range, with own weighings at these strengths, % vol.
///
/// What is said of its dilution, text and reason; and its strength before ice.
fn said(strengths: &[f64], set_aside: bool) -> (Option<(String, String)>, f64) {
    let strong = vec![ml("gin-london-dry", 60.0), ml("lime-juice", 5.0)];
    let mut document = document(strong, SHAKEN, None);
    document.weighings = std::sync::Arc::new(
        strengths
            .iter()
            .map(|strength| weighing(Method::Shaken, *strength, 160.0))
            .collect(),
    );
    if set_aside {
        document.uncalibrated.insert(Method::Shaken);
    }
    let mut session = Session::new(Arc::clone(builtin()), document);
    session.select_trial(TRIAL);
    session.refresh();
    let derived = session.derived().expect("a trial is on screen");
    let figures = derived.figures.as_ref().expect("it is served");
    let mut notices = session.notices().iter();
    let about = notices.find(|notice| notice.text.starts_with("Dilution is outside"));
    let words = about.map(|notice| (notice.text.clone(), notice.reason.clone()));
    (words, figures.chilled_pct_vol)
}

#[test]
fn without_own_weighings_the_published_rule_is_an_extrapolation() {
    let (words, strength) = said(&[], false);
    assert!(strength > 36.0, "{strength}");
    let (text, reason) = words.expect("it is said");
    assert!(
        text.starts_with("Dilution is outside the tested range"),
        "{text}"
    );
    assert!(
        reason.contains("Weigh a drink before and after"),
        "{reason}"
    );
    // Weighings that are set aside do not stand behind it.
    assert_eq!(said(&[20.0, 50.0], true).0, Some((text, reason)));
}

#[test]
fn between_own_weighings_nothing_is_an_extrapolation() {
    let (_, strength) = said(&[], false);
    assert_eq!(said(&[20.0, strength + 5.0], false).0, None);
    // One of this very drink is enough, give or take the rounding of its strength.
    assert_eq!(said(&[(strength * 10.0).round() / 10.0], false).0, None);
}

#[test]
fn beyond_own_weighings_it_is_said_what_stands_behind_the_water() {
    let (text, reason) = said(&[15.0, 25.0, 20.0], false).0.expect("it is said");
    assert!(
        text.starts_with("Dilution is outside your own weighings"),
        "{text}"
    );
    assert!(
        reason.starts_with("3 own weighings between 15.0 and 25.0 % vol stand behind it"),
        "{reason}"
    );
    assert!(reason.contains("this drink is stronger"), "{reason}");
    let (_, reason) = said(&[60.0], false).0.expect("it is said");
    assert!(
        reason.starts_with("One own weighing at 60.0 % vol stands"),
        "{reason}"
    );
    assert!(reason.contains("this drink is weaker"), "{reason}");
}
