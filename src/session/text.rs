//! A trial in plain words: for the terminal, for notices, for screen readers.

use super::cost_words::cost_text;
use super::derived::Derived;
use super::limits_text::{conflict_text, held_back_text, limit_text, ruled};
use super::no_proposal_text::no_proposal_text;
use super::open_document::Session;
use super::proposal_text::{change_size_text, proof_text, proposal_title};
use super::remedy_text::remedy_row_text;
use super::rules_asked::{rule_behind, rules_of};
use crate::balance::{Figures, Steps, TWO_SIDED};
use crate::chart::free_words;
use crate::model::{Axis, Document, Trial};
use crate::rebalance::{Change, Limit, Obstacle, Proposal, Verdict};
use crate::service::findings_summary;
use crate::units::{celsius, grams_per_litre, number, percent, percent_vol, signed, steps};
use std::fmt::Write as _;

/// Name of what a pour pours.
pub fn pour_name<'a>(document: &'a Document, trial: &'a Trial, pour: usize) -> &'a str {
    trial
        .pours
        .get(pour)
        .and_then(|pour| document.settle(trial, pour))
        .map_or("?", |settled| settled.name)
}

/// "lime juice 22.5 ml → 20 ml", "agave syrup 7.5 ml → left out".
pub fn change_text(document: &Document, trial: &Trial, change: &Change) -> String {
    let Some(pour) = trial.pours.get(change.pour) else {
        return String::new();
    };
    let said = |value: f64| {
        if pour.amount.with_value(value).is_nothing() {
            "left out".to_owned()
        } else {
            pour.amount_text(value, &document.measures)
        }
    };
    format!(
        "{} {} → {}",
        pour_name(document, trial, change.pour),
        said(change.from),
        said(change.to)
    )
}

/// What is in the way, in a sentence.
pub fn obstacle_text(document: &Document, trial: &Trial, obstacle: &Obstacle) -> String {
    let name = |pour: usize| pour_name(document, trial, pour);
    let away = steps(obstacle.without());
    let limit = match obstacle {
        Obstacle::AtLeast { pour, .. } => Some(Limit::AtLeast(*pour)),
        Obstacle::AtMost { pour, .. } => Some(Limit::AtMost(*pour)),
        Obstacle::Limit { limit, .. } => Some(*limit),
        _ => None,
    };
    let rule = limit.and_then(ruled);
    if let Some(words) = rule.and_then(|rule| rule_behind(document, trial, rule)) {
        return format!("In the way: {words}; without that {away} away.");
    }
    match obstacle {
        Obstacle::AtLeast { pour, .. } => format!(
            "In the way: {} is at its smallest amount; without that limit {away} away.",
            name(*pour)
        ),
        Obstacle::AtMost { pour, .. } => format!(
            "In the way: {} is at its largest amount; without that limit {away} away.",
            name(*pour)
        ),
        Obstacle::Locked { pour, .. } => format!(
            "In the way: {} is locked; unlocked {away} away.",
            name(*pour)
        ),
        Obstacle::Held { .. } => format!(
            "In the way: the size of the drink is held; if it may change, {away} away."
        ),
        Obstacle::Limit { limit, .. } => format!(
            "In the way: {}; without it {away} away.",
            limit_text(document, trial, *limit)
        ),
        Obstacle::Ingredients => {
            "No single limit is to blame: these ingredients cannot make this balance. Swap or add one."
                .to_owned()
        }
    }
}

/// Whether the target can be reached, in a sentence; empty when it can.
pub fn verdict_text(document: &Document, trial: &Trial, verdict: &Verdict) -> String {
    match verdict {
        Verdict::Reachable => String::new(),
        Verdict::OutOfReach { nearest, obstacle } => format!(
            "The target cannot be reached: the nearest drink is {} away. {}",
            steps(*nearest),
            obstacle_text(document, trial, obstacle)
        ),
        Verdict::Contradiction(conflict) => conflict_text(document, trial, *conflict),
    }
}

/// "sweet +0.4, sour −1.2, strength ±0".
pub(crate) fn steps_text(found: &Steps) -> String {
    format!(
        "sweet {}, sour {}, strength {}",
        signed(found.sweet, 1),
        signed(found.sour, 1),
        signed(found.strength, 1)
    )
}

/// The trial on screen with figures, nearest classics and proposals.
pub fn document_as_text(session: &Session) -> String {
    let mut text = String::new();
    // Writing into a String cannot fail.
    write_all(&mut text, session).unwrap_or_default();
    text
}

fn write_all(out: &mut String, session: &Session) -> std::fmt::Result {
    let document = session.document();
    writeln!(out, "{}", document.title)?;
    let (Some(spec), Some(trial), Some(derived)) =
        (session.spec(), session.trial(), session.derived())
    else {
        return writeln!(out, "The document holds no drink yet.");
    };
    writeln!(out, "\n{} – {}", spec.name, trial.name)?;
    if !trial.reason.is_empty() {
        writeln!(out, "why: {}", trial.reason)?;
    }
    for (index, pour) in trial.poured() {
        let amount = pour.amount_text(pour.amount.value().unwrap_or(0.0), &document.measures);
        let grams = derived
            .contributions
            .iter()
            .find(|part| part.index == index)
            .map_or_else(String::new, |part| format!("{} g", number(part.grams, 1)));
        let name = pour_name(document, trial, index);
        writeln!(out, "  {amount:>12}  {grams:>8}  {name}")?;
    }
    writeln!(out, "  {}", trial.technique.method.name())?;
    match &derived.figures {
        Err(error) => return writeln!(out, "\n{error}"),
        Ok(figures) => write_figures(out, figures, derived, &document.currency)?,
    }
    if let (Some(target), Some(away), Some(distance)) =
        (&spec.target, &derived.from_target, derived.distance)
    {
        let mut away = steps_text(away);
        let (free, far) = (free_words(&spec.balancing.weights), steps(distance));
        if !free.is_empty() {
            away = format!("{away}; {free}");
        }
        let label = match target.label.as_str() {
            "" => "a point of your own",
            label => label,
        };
        writeln!(out, "\nTarget: {label} – {far} away ({away})")?;
    }
    writeln!(out, "\nNearest classics")?;
    for near in &derived.nearest {
        let (far, away) = (steps(near.distance), steps_text(&near.steps));
        writeln!(out, "  {:<24} {far:>12}  {away}", near.name)?;
    }
    writeln!(out, "\nProposals")?;
    match &derived.answer {
        Err(reason) => writeln!(out, "  {reason}")?,
        Ok(answer) => {
            let why = no_proposal_text(derived, spec.balancing.scale_rule);
            if !why.is_empty() {
                writeln!(out, "  {why}")?;
            }
            for proposal in &answer.proposals {
                write_proposal(out, document, trial, proposal)?;
            }
            let said = verdict_text(document, trial, &answer.verdict);
            if !said.is_empty() {
                writeln!(out, "  {said}")?;
            }
            for remedy in derived.remedies.iter().flat_map(|all| &all.found) {
                let words = remedy_row_text(document, trial, remedy);
                writeln!(out, "    {words}")?;
            }
        }
    }
    if let Some(set) = rules_of(document, spec) {
        let said = findings_summary(&derived.rules.findings);
        writeln!(out, "\nRules of {}: {said}", set.name)?;
    }
    writeln!(out, "\nNotices")?;
    for notice in session.notices() {
        writeln!(out, "  {}: {}", notice.severity.name(), notice.text)?;
    }
    writeln!(
        out,
        "\nPredictions, not measurements; no safety approval. Alcohol harms; follow the local law and food code."
    )
}

fn write_figures(
    out: &mut String,
    figures: &Figures,
    derived: &Derived,
    currency: &str,
) -> std::fmt::Result {
    let point = &figures.point;
    let error = |axis: Axis, decimals: usize| {
        derived
            .uncertainty
            .as_ref()
            .map_or_else(String::new, |sure| {
                format!(" ± {}", number(TWO_SIDED * sure.sigma(axis), decimals))
            })
    };
    writeln!(out, "\nAs served (± holds for 19 of 20 such drinks)")?;
    let sweet = grams_per_litre(point.sweet_g_per_l);
    writeln!(out, "  sweet     {sweet}{}", error(Axis::Sweet, 1))?;
    let sour = grams_per_litre(point.sour_g_per_l);
    writeln!(out, "  sour      {sour}{}", error(Axis::Sour, 2))?;
    let strength = percent_vol(point.strength_pct_vol);
    writeln!(out, "  strength  {strength}{}", error(Axis::Strength, 1))?;
    let (ml, grams) = (number(figures.served_ml, 0), number(figures.served_g, 0));
    writeln!(out, "  volume    {ml} ml, {grams} g")?;
    let (ice, share) = (number(figures.melt_g, 0), percent(figures.dilution, 0));
    writeln!(
        out,
        "  from ice  {ice} g ({share} of the volume before ice)"
    )?;
    writeln!(out, "  alcohol   {} g", number(figures.alcohol_g, 1))?;
    let icy = figures
        .in_blender
        .as_ref()
        .filter(|blender| blender.left_g > 0.5);
    if let Some(cold) = &figures.coldest {
        let when = icy.map_or("", |_| " (once all ice has melted)");
        writeln!(out, "  coldest   {}{when}", celsius(cold.celsius))?;
    }
    if let Some(served) = figures.served_celsius {
        let when = icy.map_or_else(String::new, |blender| {
            let (left, ice) = (number(blender.left_g, 0), number(blender.ice_g, 0));
            format!(" ({left} of {ice} g of ice left)")
        });
        writeln!(out, "  served    {}{when}", celsius(served))?;
    }
    if let Some(ph) = figures.ph {
        writeln!(out, "  pH        {}", number(ph, 2))?;
    }
    if figures.cost.amount > 0.0 {
        writeln!(out, "  cost      {}", cost_text(&figures.cost, currency))?;
    }
    Ok(())
}

fn write_proposal(
    out: &mut String,
    document: &Document,
    trial: &Trial,
    proposal: &Proposal,
) -> std::fmt::Result {
    writeln!(
        out,
        "  {} – lands {} away ({}), {}",
        proposal_title(&proposal.kinds),
        steps(proposal.distance),
        steps_text(&proposal.steps),
        change_size_text(proposal.change_steps, proposal.changes.len())
    )?;
    writeln!(out, "    {}", proof_text(proposal, &document.currency))?;
    let held_back = held_back_text(document, trial, &proposal.binding);
    if !held_back.is_empty() {
        writeln!(out, "    {held_back}")?;
    }
    for change in &proposal.changes {
        writeln!(out, "    {}", change_text(document, trial, change))?;
    }
    Ok(())
}
