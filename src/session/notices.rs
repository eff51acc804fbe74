//! What deserves a word: each with its reason and, where there is one, a way to act.

use super::commands::Command;
use super::derived::Derived;
use super::edit::Edit;
use super::notices_content::contained;
use super::notices_dilution::tested_range;
use super::open_document::Selection;
use crate::balance::{DrinkError, Figures};
use crate::model::{
    Amount, Confidence, Document, Ingredient, IngredientId, Origin, Spec, Trial, TrialState,
};
use crate::rebalance::Change;
use crate::store::{Builtin, LARDER_VERSION};
use crate::units::{celsius, number};
use std::sync::Arc;

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

/// Notices of the selected trial, weightiest first.
pub fn notices(
    document: &Document,
    selection: Selection,
    derived: &Derived,
    builtin: &Builtin,
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
            all.extend(overflow(spec, trial, figures));
            all.extend(in_blender(figures));
            all.extend(contained(document, trial, figures, &derived.gentlest));
            all.extend(tested_range(document, trial, figures));
            all.extend(rough(figures));
        }
    }
    all.extend(kept(trial));
    all.extend(unsure(document, trial));
    all.extend(larder_updates(document, builtin));
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

fn overflow(spec: &Spec, trial: &Trial, figures: &Figures) -> Option<Notice> {
    let room = spec.glass.capacity_ml * (1.0 - spec.glass.ice_share);
    if figures.served_ml <= room || room <= 0.0 {
        return None;
    }
    let mut found = notice(
        Severity::Warning,
        format!(
            "Overflows the glass: {} ml served, room for {} ml",
            number(figures.served_ml, 0),
            number(room, 0)
        ),
        format!(
            "{} of {} ml; ice takes {} %.",
            spec.glass.name,
            number(spec.glass.capacity_ml, 0),
            number(spec.glass.ice_share * 100.0, 0)
        ),
    );
    found.action = Some(Action::Edit(
        "Scale the whole drink down".to_owned(),
        Box::new(Edit::ApplyChanges {
            trial: trial.id,
            changes: scaled_down(trial, room / figures.served_ml),
            label: "scale down to fit the glass".to_owned(),
        }),
    ));
    Some(found)
}

/// Every measured pour times `shrink`.
fn scaled_down(trial: &Trial, shrink: f64) -> Vec<Change> {
    trial
        .pours
        .iter()
        .enumerate()
        .filter_map(|(pour, line)| match line.amount {
            Amount::Ml(from) | Amount::Grams(from) => Some(Change {
                pour,
                from,
                // A tenth is as fine as anyone pours; drops and dashes keep their share.
                to: if from > 5.0 {
                    (from * shrink * 10.0).floor() / 10.0
                } else {
                    from * shrink
                },
            }),
            Amount::Pieces(_) | Amount::Words(_) => None,
        })
        .collect()
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
            "By enthalpy and freezing point together, up to {most} g melt completely, to {}. Practice has it that a blender melts all of a measured load (common practice, no source).",
            celsius(blender.just_melts_celsius)
        ),
    ))
}

fn unsure(document: &Document, trial: &Trial) -> Option<Notice> {
    let mut names: Vec<&str> = trial
        .pours
        .iter()
        .filter_map(|pour| document.settle(trial, pour))
        .filter(|settled| settled.ingredient.confidence == Confidence::Low)
        .map(|settled| settled.name)
        .collect();
    names.dedup();
    if names.is_empty() {
        return None;
    }
    Some(notice(
        Severity::Remark,
        format!("Figures from memory or disputed: {}", names.join(", ")),
        "Their larder rows are estimates. Measure sugar, acid or strength before relying on the last digit.",
    ))
}

/// A newer built-in larder never changes a document by itself; the change is offered.
fn larder_updates(document: &Document, builtin: &Builtin) -> Vec<Notice> {
    document
        .ingredients
        .iter()
        .filter(|(_, item)| {
            matches!(item.origin, Origin::BuiltIn { larder_version } if larder_version < LARDER_VERSION)
        })
        .filter_map(|(id, item)| update_of(id, item, builtin))
        .collect()
}

fn update_of(id: &IngredientId, item: &Ingredient, builtin: &Builtin) -> Option<Notice> {
    let mut fresh = Ingredient::clone(builtin.larder.get(id)?);
    fresh.price.clone_from(&item.price);
    fresh.piece_g = item.piece_g.or(fresh.piece_g);
    fresh.place = item.place;
    let same = Ingredient {
        origin: fresh.origin.clone(),
        ..item.clone()
    };
    if same == fresh {
        return None;
    }
    let mut found = notice(
        Severity::Remark,
        format!("The larder has newer figures for {}", item.name),
        "The document keeps its own copy until you take the new one.",
    );
    found.action = Some(Action::Edit(
        "Take the new figures".to_owned(),
        Box::new(Edit::SetIngredient {
            id: id.clone(),
            ingredient: Arc::new(fresh),
        }),
    ));
    Some(found)
}
