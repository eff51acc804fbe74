//! Rules as limits of the solver, beside those that the person set.

use super::rule_build::Build;
use super::rule_check::Handed;
use crate::model::{Bounded, Bounds, Method, Rule, RuleKind, RuleSet, Spec, Trial};

/// One side of a limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum End {
    /// The smallest value.
    Least,
    /// The largest value.
    Most,
}

/// A limit that a rule set.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RuledLimit {
    /// One side of a figure of the drink.
    Figure(Bounded, End),
    /// One side of the amount of the pour at this place.
    Pour(usize, End),
    /// The notch of the pour at this place.
    Notch(usize),
}

/// A limit and the rule that it came from.
#[derive(Clone, Debug, PartialEq)]
pub struct FromRule {
    /// Which limit.
    pub limit: RuledLimit,
    /// Key of the rule.
    pub rule: String,
    /// "the rules of Harbour Cup ask for at least 40 ml of caraway spirit".
    pub words: String,
}

/// A rule that what the person set, or another rule, excludes; it is left out of the question.
#[derive(Clone, Debug, PartialEq)]
pub struct RuleClash {
    /// Key of the rule.
    pub rule: String,
    /// Which two, and by how much.
    pub words: String,
}

/// A drink as the solver is asked about it under rules.
#[derive(Clone, Debug)]
pub struct Ruled {
    /// The spec without its trials, its bounds tightened.
    pub spec: Spec,
    /// The trial, its pours' limits and notches tightened.
    pub trial: Trial,
    /// Techniques that the rules allow; any when `None`.
    pub methods: Option<Vec<Method>>,
    /// Which bound came from which rule, in the order of the rules.
    pub from: Vec<FromRule>,
    /// Rules that were left out because something excludes them.
    pub clashes: Vec<RuleClash>,
}

impl Ruled {
    /// The rule's words behind a limit; `None` where the person set it.
    pub fn words_of(&self, limit: RuledLimit) -> Option<&str> {
        let mut from = self.from.iter();
        let found = from.find(|one| one.limit == limit)?;
        Some(&found.words)
    }
}

/// The trial under rules: every rule that limits amounts tightens the bounds of the drink or of
/// its pours; nothing that the person set is loosened.
///
/// What limits several pours together is shared out in proportion to what they pour now. A limit on
/// the number of pours never lies below the present number: what has to go, a person says. Where a
/// rule and another limit exclude each other the rule is left out and named.
pub fn under_rules(handed: &Handed<'_>, set: &RuleSet) -> Ruled {
    let mut build = Build::of(handed, set);
    // Notches first: the other limits then lie on them.
    let is_notch = |rule: &&Rule| matches!(rule.asks, RuleKind::Measures { .. });
    let on = || set.rules.iter().filter(|rule| !rule.off);
    for rule in on()
        .filter(is_notch)
        .chain(on().filter(|rule| !is_notch(rule)))
    {
        build.rule(rule);
    }
    build.done
}

/// The same, with nothing that the person set: what stays when one of the person's limits goes.
pub fn rules_alone(handed: &Handed<'_>, set: &RuleSet) -> Ruled {
    let (mut spec, mut trial) = (blank(handed.spec), handed.trial.clone());
    spec.bounds = Bounds::default();
    for pour in &mut trial.pours {
        (pour.minimum, pour.maximum, pour.limits_off) = (None, None, false);
    }
    let bare = Handed {
        spec: &spec,
        trial: &trial,
        ..*handed
    };
    under_rules(&bare, set)
}

/// A spec without trials, which no question needs.
pub(super) fn blank(spec: &Spec) -> Spec {
    Spec {
        name: spec.name.clone(),
        family: spec.family.clone(),
        classic: spec.classic.clone(),
        glass: spec.glass.clone(),
        target: spec.target.clone(),
        balancing: spec.balancing,
        bounds: spec.bounds,
        entry: spec.entry.clone(),
        service: spec.service.clone(),
        stage: spec.stage.clone(),
        ..Spec::new(spec.id, "", Vec::new())
    }
}

impl End {
    pub(super) const fn other(self) -> Self {
        match self {
            Self::Least => Self::Most,
            Self::Most => Self::Least,
        }
    }
}
