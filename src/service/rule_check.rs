//! A trial against the rules of a competition.

use super::rule_finding::{Act, Field, Finding, RuleVerdict, reason_kept};
use super::rule_pours::Poured;
use super::rule_title::rule_title;
use super::{
    rule_amounts, rule_ingredients, rule_measures, rule_practices, rule_times, rule_words,
};
use crate::balance::{Drink, Figures};
use crate::model::{Document, Rule, RuleKind, RuleSet, Spec, Tick, Trial};

/// A trial as it would be handed in.
#[derive(Clone, Copy, Debug)]
pub struct Handed<'a> {
    /// The document.
    pub document: &'a Document,
    /// The drink.
    pub spec: &'a Spec,
    /// The trial.
    pub trial: &'a Trial,
    /// The trial resolved; `None` where it cannot be.
    pub drink: Option<&'a Drink>,
    /// Its figures; `None` where there are none.
    pub figures: Option<&'a Figures>,
    /// The day, ISO 8601; `None` when it is not known.
    pub today: Option<&'a str>,
}

/// Everything that is asked of one rule.
pub(super) struct Ask<'a> {
    pub(super) handed: &'a Handed<'a>,
    pub(super) poured: &'a Poured<'a>,
    pub(super) set: &'a RuleSet,
}

/// What a rule came to, before ticks are looked at.
#[derive(Clone, Debug)]
pub(super) struct Outcome {
    verdict: RuleVerdict,
    reason: String,
    remedy: String,
    pours: Vec<usize>,
    act: Option<Act>,
}

impl Outcome {
    fn of(verdict: RuleVerdict, reason: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self {
            verdict,
            reason: reason.into(),
            remedy: remedy.into(),
            pours: Vec::new(),
            act: None,
        }
    }

    pub(super) fn kept(reason: impl Into<String>) -> Self {
        Self::of(RuleVerdict::Kept, reason, "")
    }

    pub(super) fn broken(reason: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self::of(RuleVerdict::Broken, reason, remedy)
    }

    pub(super) fn asked(reason: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self::of(RuleVerdict::Asked, reason, remedy)
    }

    pub(super) fn unknown(reason: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self::of(RuleVerdict::Unknown, reason, remedy)
    }

    pub(super) fn about(mut self, pours: Vec<usize>) -> Self {
        self.pours = pours;
        self
    }

    /// The same with another remedy.
    pub(super) fn instead(mut self, remedy: String) -> Self {
        self.remedy = remedy;
        self
    }

    pub(super) fn act(mut self, act: Act) -> Self {
        self.act = Some(act);
        self
    }
}

/// Looks at every rule of a set that is not switched off, in the order of the set.
///
/// A rule that nothing in the document can show is never passed in silence: a person is asked, and
/// the answer counts while the rule and what was found read as they did ([`rule_title`],
/// [`reason_kept`]).
pub fn check_rules(handed: &Handed<'_>, set: &RuleSet) -> Vec<Finding> {
    let poured = Poured::of(handed);
    let ask = Ask {
        handed,
        poured: &poured,
        set,
    };
    let looked_at = set.rules.iter().filter(|rule| !rule.off);
    looked_at.map(|rule| finding(&ask, rule)).collect()
}

fn finding(ask: &Ask<'_>, rule: &Rule) -> Finding {
    let title = rule_title(&rule.asks);
    let found = without_lost(ask, rule, outcome(ask, &rule.asks));
    let tick = ask.handed.spec.entry.ticked.get(&rule.key);
    let reads_the_same = |tick: &&Tick| {
        let reason = tick.reason.as_deref();
        tick.rule == title && reason.is_none_or(|own| own == reason_kept(&found.reason))
    };
    let ticked = tick.filter(reads_the_same);
    let asks_a_person = found.verdict == RuleVerdict::Asked;
    let mut finding = Finding {
        rule: rule.key.clone(),
        title,
        verdict: found.verdict,
        reason: found.reason,
        remedy: found.remedy,
        pours: found.pours,
        act: found.act,
        asks_a_person,
        ticked: ticked.filter(|_| asks_a_person).cloned(),
    };
    if finding.ticked.is_some() {
        finding.verdict = RuleVerdict::Kept;
        finding.remedy.clear();
        finding.act = None;
    } else if asks_a_person && tick.is_some() {
        // The reason stays as it is: a new tick keeps it.
        finding.remedy.insert_str(
            0,
            "It was ticked when the rule or the drink read otherwise. ",
        );
    }
    finding
}

/// Pours of something that is gone: what reads the pours cannot say that all is well.
fn without_lost(ask: &Ask<'_>, rule: &Rule, found: Outcome) -> Outcome {
    let lost = &ask.poured.lost;
    let is_settled = matches!(found.verdict, RuleVerdict::Broken | RuleVerdict::Unknown);
    if lost.is_empty() || is_settled || !reads_pours(&rule.asks) {
        return found;
    }
    let places: Vec<String> = lost.iter().map(|place| (place + 1).to_string()).collect();
    let places = places.join(", ");
    Outcome::unknown(
        format!("What is poured at place {places} is no longer in the document."),
        format!("Pour something else at place {places}, or take it out."),
    )
    .about(lost.clone())
    .act(Act::Go(Field::Pours))
}

const fn reads_pours(asks: &RuleKind) -> bool {
    !matches!(
        asks,
        RuleKind::Methods { .. }
            | RuleKind::StoryWords { .. }
            | RuleKind::NameWords { .. }
            | RuleKind::Asked { .. }
            | RuleKind::Serves { .. }
            | RuleKind::StageTime { .. }
            | RuleKind::Deadline { .. }
    )
}

fn outcome(ask: &Ask<'_>, asks: &RuleKind) -> Outcome {
    match asks {
        RuleKind::Ingredients { most, counts } => {
            rule_ingredients::ingredients(ask, *most, *counts)
        }
        RuleKind::OnlyOfItsKind { product } => rule_ingredients::only_of_its_kind(ask, product),
        RuleKind::HouseMade { .. } => rule_ingredients::house_made(ask, asks),
        RuleKind::ProductAtLeast { product, ml } => rule_amounts::at_least(ask, product, *ml),
        RuleKind::ProductAtMost { product, ml } => rule_amounts::at_most(ask, product, *ml),
        RuleKind::AlcoholAtMost { measure, most } => rule_amounts::alcohol(ask, *measure, *most),
        RuleKind::Strength { least, most } => rule_amounts::strength(ask, *least, *most),
        RuleKind::Volume { of, least, most } => rule_amounts::volume(ask, *of, *least, *most),
        RuleKind::Measures { .. } => rule_measures::measures(ask, asks),
        RuleKind::Methods { allowed } => rule_measures::methods(ask, allowed),
        RuleKind::Banned { practice } => rule_practices::banned(ask, *practice),
        RuleKind::NoAllergen { allergen } => rule_practices::no_allergen(ask, allergen),
        RuleKind::StoryWords { least, most } => rule_words::story(ask, *least, *most),
        RuleKind::NameWords { banned } => rule_words::name(ask, banned),
        RuleKind::Stated { required } => rule_words::stated(ask, required),
        RuleKind::Asked { .. } => {
            Outcome::asked("Only a person can judge this.", "Look at it, then tick it.")
        }
        RuleKind::Serves { count } => rule_times::serves(ask, *count),
        RuleKind::StageTime { minutes, set_up } => rule_times::stage(ask, *minutes, *set_up),
        RuleKind::PreparationTime { minutes } => rule_times::preparation(ask, *minutes),
        RuleKind::Deadline { on, locked_days } => rule_times::deadline(ask, on, *locked_days),
    }
}
