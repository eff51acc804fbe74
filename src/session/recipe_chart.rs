//! The balance of a drink beside its classic, as the sheet prints it.

use super::derived::Derived;
use super::open_document::Session;
use crate::chart::{Chart, Frame, MapAsk, Spot, SpotKind, balance_map, opening_axes};
use crate::model::Spec;
use crate::units::noticeable;

/// The chart, quiet: the drink, its classic or its family, the target, and how far it may be off.
pub(super) fn balance_chart(
    session: &Session,
    spec: &Spec,
    derived: &Derived,
    with_target: bool,
) -> Option<Chart> {
    let point = derived.figures.as_ref().ok()?.point;
    let (across, up) = opening_axes(Some(&point), spec.target.as_ref());
    let mut spots: Vec<Spot> = session
        .references()
        .iter()
        .filter(|known| spec.classic.as_ref() == Some(&known.id) || known.family == spec.family)
        .map(|known| Spot {
            name: known.name.clone(),
            point: known.point,
            kind: SpotKind::Classic {
                family: known.family == spec.family,
                complete: known.unstated.is_empty(),
                own: spec.classic.as_ref() == Some(&known.id),
                wanted: false,
            },
        })
        .collect();
    spots.push(Spot {
        name: spec.name.clone(),
        point,
        kind: SpotKind::Present,
    });
    Some(balance_map(&MapAsk {
        across,
        up,
        in_steps: false,
        frame: Frame::Family,
        spots,
        trail: Vec::new(),
        regions: &[],
        // A target is a working note; the classic says where the drink comes from.
        target: spec.target.as_ref().filter(|_| with_target),
        spread: derived.uncertainty.as_ref(),
        ghost_spread: None,
        senses: &session.document().senses,
        weights: &spec.balancing.weights,
        with_table: true,
    }))
}

/// Where the drink lies against its classic, or the nearest one, in a sentence.
pub(super) fn chart_words(session: &Session, spec: &Spec, derived: &Derived) -> String {
    let own = spec.classic.as_ref().and_then(|id| {
        let mut known = session.references().iter();
        known.find(|known| known.id == *id)
    });
    let senses = &session.document().senses;
    let Ok(found) = &derived.figures else {
        return String::new();
    };
    if let Some(known) = own {
        let steps = crate::balance::steps_between(&found.point, &known.point, senses);
        let far = noticeable(steps.distance(&spec.balancing.weights));
        let away = super::text::steps_text(&steps);
        return format!("Against {}: {far} away ({away}).", known.name);
    }
    derived.nearest.first().map_or_else(String::new, |near| {
        let far = noticeable(near.distance);
        let away = super::text::steps_text(&near.steps);
        format!("Nearest classic: {}, {far} away ({away}).", near.name)
    })
}
