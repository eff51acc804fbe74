//! What deserves a word: each with its reason and, where there is one, a way to act.

use super::command::Command;
use super::derived::Derived;
use super::edit::Edit;
use super::notices_content::contained;
use super::notices_dilution::tested_range;
use super::notices_glass::overflow;
use super::notices_house::not_worked_out;
use super::notices_limits::broken;
use super::notices_rules::of_rules;
use super::open_document::Selection;
use super::recipe_unresolved::waiting;
use crate::balance::{DrinkError, Figures, Pantry};
use crate::model::{Confidence, Document, LotId, Source, Trial, TrialState};
use crate::units::{celsius, number};
use std::collections::BTreeSet;

/// How much a notice matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Something is wrong.
    Warning,
    /// Something to keep in mind, such as an allergen.
    Caution,
    /// A quiet remark.
    Remark,
}

impl Severity {
    /// The word for screen readers.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Warning => "warning",
            Self::Caution => "caution",
            Self::Remark => "remark",
        }
    }
}

/// A way to act on a notice.
#[derive(Clone, Debug, PartialEq)]
pub enum Action {
    /// An undoable change, with the words on its button.
    Edit(String, Box<Edit>),
    /// A command.
    Command(Command),
}

/// Something that deserves a word.
#[derive(Clone, Debug, PartialEq)]
pub struct Notice {
    /// How much it matters.
    pub severity: Severity,
    /// What it is, in a few words.
    pub text: String,
    /// Why.
    pub reason: String,
    /// What can be done.
    pub action: Option<Action>,
}

pub(super) fn notice(
    severity: Severity,
    text: impl Into<String>,
    reason: impl Into<String>,
) -> Notice {
    Notice {
        severity,
        text: text.into(),
        reason: reason.into(),
        action: None,
    }
}

/// Notices of the selected trial, weightiest first; `today` is the day, ISO 8601; `pantry` keeps what
/// ingredients contain.
pub fn notices(
    document: &Document,
    selection: Selection,
    derived: &Derived,
    today: &str,
    pantry: &mut Pantry,
) -> Vec<Notice> {
    let Some((spec, trial)) = selection.trial.and_then(|id| document.trial(id)) else {
        return Vec::new();
    };
    let mut all = Vec::new();
    match &derived.figures {
        Err(DrinkError::Empty) => all.push(notice(
            Severity::Remark,
            "Nothing is poured yet",
            "Figures and charts appear with the first pour that has an amount.",
        )),
        Err(error) => all.push(notice(
            Severity::Warning,
            error.to_string(),
            "Mend the figures of this ingredient, or swap it.",
        )),
        Ok(figures) => {
            all.extend(overflow(document, (spec, trial), figures, pantry));
            all.extend(broken(document, spec, trial, derived));
            all.extend(in_blender(figures));
            all.extend(contained(document, trial, figures, &derived.gentlest));
            all.extend(tested_range(document, trial, figures));
            all.extend(rough(figures));
        }
    }
    // What concerns the figures and the safety of the drink goes before the rules of a competition.
    all.extend(past_their_day(document, trial, today));
    all.extend(not_worked_out(document, trial));
    all.extend(waiting(document, trial));
    all.extend(of_rules(document, spec, trial, &derived.rules));
    all.extend(kept(trial));
    all.extend(unsure(document, trial));
    all.sort_by_key(|notice| notice.severity);
    all
}

/// What is left out of the figures or only roughly in them.
fn rough(figures: &Figures) -> Vec<Notice> {
    let mut all = Vec::new();
    if figures.coldest.is_some_and(|cold| !cold.in_range) {
        all.push(notice(
            Severity::Remark,
            "Coldest possible is outside the tested range",
            "Above half alcohol by weight, as in neat strong spirits, the freezing point is a rough continuation.",
        ));
    }
    all.extend(figures.uncounted.iter().map(|what| {
        notice(
            Severity::Remark,
            format!("Not counted – {what}"),
            "The recipe gives no amount that could be weighed or measured.",
        )
    }));
    all.extend(figures.warnings.iter().map(|what| {
        notice(
            Severity::Remark,
            what.clone(),
            "The figures of an ingredient do not quite add up.",
        )
    }));
    all
}

/// Says that a tasted trial no longer follows the larder.
fn kept(trial: &Trial) -> Option<Notice> {
    if trial.state == TrialState::Draft {
        return None;
    }
    let mut kept = notice(
        Severity::Remark,
        format!(
            "{} was {}: its figures are kept",
            trial.name,
            trial.state.name()
        ),
        "What was tasted stays as it was. A new trial can grow from it.",
    );
    kept.action = Some(Action::Command(Command::NewTrial));
    Some(kept)
}

/// Whether all of a blender's measured ice melts.
fn in_blender(figures: &Figures) -> Option<Notice> {
    let blender = figures.in_blender.as_ref()?;
    let ice = number(blender.ice_g, 0);
    let most = number(blender.just_melts_g, 0);
    let text = if blender.left_g > 0.5 {
        format!(
            "{} of {ice} g of ice are left when the blade stops, at {}",
            number(blender.left_g, 0),
            celsius(blender.celsius)
        )
    } else {
        format!("All {ice} g of ice melt: {}", celsius(blender.celsius))
    };
    Some(notice(
        Severity::Remark,
        text,
        format!(
            "From the heat of drink, vessel and blade, up to {most} g melt completely, to {}. Practice has it that a blender melts all of a measured load (common practice, no source).",
            celsius(blender.just_melts_celsius)
        ),
    ))
}

fn unsure(document: &Document, trial: &Trial) -> Option<Notice> {
    let settled = trial.poured();
    let settled = settled.filter_map(|(_, pour)| document.settle(trial, pour));
    let mut names: Vec<&str> = Vec::new();
    for settled in settled.filter(|settled| settled.ingredient.confidence == Confidence::Low) {
        // One that is poured twice is named once.
        if !names.contains(&settled.name) {
            names.push(settled.name);
        }
    }
    if names.is_empty() {
        return None;
    }
    Some(notice(
        Severity::Remark,
        format!("Figures from memory or disputed: {}", names.join(", ")),
        "Their larder rows are estimates. Measure sugar, acid or strength before relying on the last digit.",
    ))
}

/// Lots that are poured after their best-before day; days as ISO 8601 sort as their texts do.
fn past_their_day(document: &Document, trial: &Trial, today: &str) -> Vec<Notice> {
    let poured: BTreeSet<&LotId> = trial
        .poured()
        .filter_map(|(_, pour)| match &pour.source {
            Source::Lot(id) => Some(id),
            Source::Ingredient(_) | Source::Preparation { .. } => None,
        })
        .collect();
    poured
        .into_iter()
        .filter_map(|id| document.lots.get(id))
        .filter(|lot| !lot.best_before.is_empty() && lot.best_before.as_str() < today)
        .map(|lot| {
            notice(
                Severity::Caution,
                format!("{} is past its best-before day, {}", lot.label, lot.best_before),
                "Smell and taste do not show whether it is safe. Throw it away or have it judged, and follow the local food code.",
            )
        })
        .collect()
}
