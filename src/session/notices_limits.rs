//! Limits that are on and that the drink on screen breaks.

use super::derived::Derived;
use super::kept_limits::{bounded_value, breach};
use super::limits_text::{breach_notice, pour_breach_text};
use super::notices::{Notice, Severity, notice};
use super::text::pour_name;
use crate::model::{Bounded, Document, Spec, Trial};

/// One notice a limit; that the glass overflows is said whether it is a limit or not.
pub(super) fn broken(
    document: &Document,
    spec: &Spec,
    trial: &Trial,
    derived: &Derived,
) -> Vec<Notice> {
    let of_drink = Bounded::ALL.into_iter().filter_map(|figure| {
        let value = bounded_value(derived, figure)?;
        let found = breach(spec.bounds.of(figure), value)?;
        Some(breach_notice(figure, value, found, &document.currency))
    });
    let pours = trial.pours.iter().enumerate();
    let of_pours = pours.filter_map(|(place, pour)| {
        let said = pour_breach_text(pour, &document.measures)?;
        Some(format!("{} {said}", pour_name(document, trial, place)))
    });
    let reason =
        "Change the pours or take a proposal; or change the limit, or untick it under Limits.";
    of_drink
        .chain(of_pours)
        .map(|text| notice(Severity::Caution, text, reason))
        .collect()
}
