//! Figures and proposals as JSON; keys are documented in the README, units stand in their names,
//! and their order never changes.

use crate::balance::{Contribution, Figures, InBlender, Steps, Uncertainty};
use crate::model::{Axis, Document, Point, Spec, Trial};
use crate::rebalance::{Answer, Evidence, Obstacle, Proposal, Remedy, Verdict};
use crate::session::{
    Derived, Session, input_text, limit_text, obstacle_text, remedy_text, verdict_text,
};
use serde_json::{Value, json};

/// A number with no more digits than it deserves.
fn rounded(value: f64, digits: i32) -> Value {
    let scale = 10_f64.powi(digits);
    let value = (value * scale).round() / scale;
    // A negative zero would be printed as such.
    json!(value + 0.0)
}

fn maybe(value: Option<f64>, digits: i32) -> Value {
    value.map_or(Value::Null, |value| rounded(value, digits))
}

fn point(point: &Point) -> Value {
    json!({
        "sweet_g_per_l": rounded(point.sweet_g_per_l, 4),
        "sour_g_per_l": rounded(point.sour_g_per_l, 4),
        "strength_pct_vol": rounded(point.strength_pct_vol, 4),
        "bitter_per_ml": rounded(point.bitter_per_ml, 4),
    })
}

fn steps(steps: &Steps) -> Value {
    json!({
        "sweet_steps": rounded(steps.sweet, 4),
        "sour_steps": rounded(steps.sour, 4),
        "strength_steps": rounded(steps.strength, 4),
    })
}

fn head(verb: &str, document: &Document, spec: &Spec, trial: &Trial) -> Value {
    json!({
        "verb": verb,
        "document": document.title,
        "spec": { "id": spec.id.0, "name": spec.name },
        "trial": {
            "id": trial.id.0,
            "name": trial.name,
            "state": trial.state.name(),
            "technique": trial.technique.method.name(),
        },
    })
}

/// Joins two objects, the second one's keys last.
fn joined(first: Value, second: Value) -> Value {
    match (first, second) {
        (Value::Object(mut all), Value::Object(more)) => {
            all.extend(more);
            Value::Object(all)
        }
        (first, _) => first,
    }
}

/// Everything that `figures` says.
pub(super) fn figures(
    session: &Session,
    spec: &Spec,
    trial: &Trial,
    derived: &Derived,
    found: &Figures,
) -> Value {
    let document = session.document();
    let body = json!({
        "pours": derived.contributions.iter().map(|part| pour(document, trial, part)).collect::<Vec<_>>(),
        "uncounted": found.uncounted,
        "point": point(&found.point),
        "sugar_g_per_l": rounded(found.sugar_g_per_l, 4),
        "acid_g_per_l": rounded(found.acid_g_per_l, 4),
        "sugar_to_acid": maybe(found.sugar_to_acid(), 4),
        "body_g_per_l": rounded(found.body_g_per_l, 4),
        "gum_g_per_l": rounded(found.gum_g_per_l, 4),
        "salt_g_per_l": rounded(found.salt_g_per_l, 4),
        "co2_g_per_l": rounded(found.co2_g_per_l, 4),
        "chilled_ml": rounded(found.chilled_ml, 4),
        "chilled_pct_vol": rounded(found.chilled_pct_vol, 4),
        "dilution_fraction": rounded(found.dilution, 6),
        "dilution_outside_tested_range": found.outside_tested.is_some(),
        "melt_g": rounded(found.melt_g, 4),
        "served_ml": rounded(found.served_ml, 4),
        "served_g": rounded(found.served_g, 4),
        "alcohol_g": rounded(found.alcohol_g, 4),
        "coldest_c": maybe(found.coldest.as_ref().map(|cold| cold.celsius), 4),
        "served_c": maybe(found.served_celsius, 4),
        "spared_g": rounded(found.spared_g, 4),
        "in_blender": found.in_blender.as_ref().map(in_blender),
        "ph": maybe(found.ph, 3),
        "uncertainty": derived.uncertainty.as_ref().map(|sure| uncertainty(document, trial, sure)),
        "cost": rounded(found.cost.amount, 4),
        "cost_currency": document.currency,
        "pours_without_price": found.cost.unpriced,
        "allergens": found.allergens,
        "target": spec.target.as_ref().map(|target| point(&target.point)),
        "distance_steps": maybe(derived.distance, 4),
        "nearest_classics": derived.nearest.iter().map(|near| json!({
            "name": near.name,
            "distance_steps": rounded(near.distance, 4),
            "from_it": steps(&near.steps),
        })).collect::<Vec<_>>(),
        "notices": session.notices().iter().map(|notice| json!({
            "severity": notice.severity.name(),
            "text": notice.text,
            "reason": notice.reason,
        })).collect::<Vec<_>>(),
    });
    joined(head("figures", document, spec, trial), body)
}

/// The blender with its measured ice.
fn in_blender(found: &InBlender) -> Value {
    json!({
        "ice_g": rounded(found.ice_g, 4),
        "melted_g": rounded(found.melted_g, 4),
        "left_g": rounded(found.left_g, 4),
        "c": rounded(found.celsius, 4),
        "as_drunk": point(&found.now),
        "all_melted": point(&found.melted),
        "just_melts_g": rounded(found.just_melts_g, 4),
        "just_melts_c": rounded(found.just_melts_celsius, 4),
    })
}

/// One standard deviation of every figure, and where it comes from.
fn uncertainty(document: &Document, trial: &Trial, sure: &Uncertainty) -> Value {
    json!({
        "sweet_sigma_g_per_l": rounded(sure.sigma(Axis::Sweet), 4),
        "sour_sigma_g_per_l": rounded(sure.sigma(Axis::Sour), 4),
        "strength_sigma_pct_vol": rounded(sure.sigma(Axis::Strength), 4),
        "served_sigma_ml": rounded(sure.volume_ml, 4),
        "dilution_sigma_fraction": rounded(sure.dilution, 6),
        "ph_sigma": maybe(sure.ph, 4),
        "shares": sure.shares.iter().map(|share| json!({
            "from": input_text(document, trial, &share.input),
            "share": rounded(share.share, 4),
        })).collect::<Vec<_>>(),
    })
}

fn pour(document: &Document, trial: &Trial, part: &Contribution) -> Value {
    let line = &trial.pours[part.index];
    json!({
        "name": part.name,
        "role": line.role.name(),
        "added": line.added.name(),
        "locked": line.locked,
        "volume_ml": rounded(part.volume_ml, 4),
        "mass_g": rounded(part.grams, 4),
        "step": rounded(crate::balance::step_of(line, &document.measures), 6),
        "sweet_share": rounded(part.sweet, 6),
        "sour_share": rounded(part.sour, 6),
        "strength_share": rounded(part.strength, 6),
        "bitter_share": rounded(part.bitter, 6),
        "cost_share": maybe(part.cost, 6),
        "one_step_more": steps(&part.one_step_more),
    })
}

/// Everything that `rebalance` says.
pub(super) fn rebalance(session: &Session, spec: &Spec, trial: &Trial, answer: &Answer) -> Value {
    let document = session.document();
    let verdict = match &answer.verdict {
        Verdict::Reachable => json!({
            "reachable": true,
            "nearest_steps": null,
            "obstacle": null,
            "remedies": [],
        }),
        Verdict::OutOfReach { nearest, obstacle } => json!({
            "reachable": false,
            "nearest_steps": rounded(*nearest, 4),
            "obstacle": obstacle_json(document, trial, obstacle),
            "remedies": remedies_json(document, trial, session.derived()),
        }),
        Verdict::Contradiction(_) => json!({
            "reachable": false,
            "nearest_steps": null,
            "obstacle": { "text": verdict_text(document, trial, &answer.verdict), "without_steps": null },
            "remedies": [],
        }),
    };
    let body = json!({
        "held": spec.balancing.scale_rule.name(),
        "target": spec.target.as_ref().map(|target| point(&target.point)),
        "distance_now_steps": rounded(answer.distance_now, 4),
        "verdict": verdict,
        "proposals": answer.proposals.iter().map(|found| proposal(document, trial, found)).collect::<Vec<_>>(),
    });
    joined(head("rebalance", document, spec, trial), body)
}

fn obstacle_json(document: &Document, trial: &Trial, obstacle: &Obstacle) -> Value {
    let without = obstacle.without();
    json!({
        "text": obstacle_text(document, trial, obstacle),
        "without_steps": maybe(without.is_finite().then_some(without), 4),
    })
}

/// What needs no other ingredient, the nearest first.
fn remedies_json(document: &Document, trial: &Trial, derived: Option<&Derived>) -> Vec<Value> {
    let found = derived.and_then(|derived| derived.remedies.as_ref());
    let found: &[Remedy] = found.map_or(&[], |remedies| &remedies.found);
    let each = found.iter().map(|remedy| {
        json!({
            "kind": remedy.kind.name(),
            "text": remedy_text(document, trial, remedy),
            "distance_steps": rounded(remedy.distance(), 4),
        })
    });
    each.collect()
}

fn proposal(document: &Document, trial: &Trial, found: &Proposal) -> Value {
    let changes = found.changes.iter().map(|change| {
        let line = &trial.pours[change.pour];
        let unit = match line.amount {
            crate::model::Amount::Grams(_) => "g",
            crate::model::Amount::Pieces(_) => "pieces",
            _ => "ml",
        };
        let name = document
            .settle(trial, line)
            .map_or("?", |settled| settled.name);
        json!({
            "pour": change.pour,
            "name": name,
            "unit": unit,
            "from": rounded(change.from, 6),
            "to": rounded(change.to, 6),
        })
    });
    json!({
        "kinds": found.kinds.iter().map(|kind| kind.name()).collect::<Vec<_>>(),
        "changes": changes.collect::<Vec<_>>(),
        "point": point(&found.point),
        "from_target": steps(&found.steps),
        "distance_steps": rounded(found.distance, 4),
        "distance_unrounded_steps": rounded(found.distance_unrounded, 4),
        "change_pour_steps": rounded(found.change_steps, 4),
        "served_ml": rounded(found.served_ml, 4),
        "cost": rounded(found.cost, 4),
        "pours_changed": found.changes.len(),
        "evidence": found.evidence.iter().map(evidence).collect::<Vec<_>>(),
        "limits": found.binding.iter().map(|binding| json!({
            "limit": limit_text(document, trial, binding.limit),
            "gain_per_unit_steps": rounded(binding.gain_per_unit, 4),
        })).collect::<Vec<_>>(),
    })
}

/// How far the proof of one kind came.
fn evidence(found: &Evidence) -> Value {
    json!({
        "kind": found.kind.name(),
        "proof": found.proof.text(),
        "gap": maybe(found.gap.is_finite().then_some(found.gap), 6),
        "nodes": found.nodes,
    })
}
