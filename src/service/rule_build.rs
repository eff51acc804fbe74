//! A question being tightened, rule by rule.

use super::rule_bounds::{End, FromRule, RuleClash, Ruled, RuledLimit, blank};
use super::rule_check::{Ask, Handed};
use super::rule_figures::{Asked, figures};
use super::rule_ingredients::{counted, does_count};
use super::rule_notches::{notches, on_notch};
use super::rule_pours::Poured;
use super::rule_shares::Shares;
use super::rule_title::rule_title;
use crate::model::{Amount, Bound, Bounded, Counted, Role, Rule, RuleKind, RuleSet, ScaleRule};
use crate::units::{capital, trimmed};
use std::collections::BTreeMap;

/// Two limits closer than this are the same.
const SAME: f64 = 1.0e-9;

/// A question being tightened.
pub(super) struct Build<'a> {
    pub(super) handed: &'a Handed<'a>,
    pub(super) set: &'a RuleSet,
    /// All pours, those of nothing too.
    pub(super) poured: Poured<'a>,
    pub(super) done: Ruled,
    /// What set each side of each limit so far, in words.
    owners: BTreeMap<RuledLimit, String>,
}

impl<'a> Build<'a> {
    pub(super) fn of(handed: &'a Handed<'a>, set: &'a RuleSet) -> Self {
        let mut spec = blank(handed.spec);
        spec.bounds.firm = true;
        let mut trial = handed.trial.clone();
        for pour in &mut trial.pours {
            // A pour beyond the person's own limits may come back from there but go no further.
            let present = pour.amount.value().unwrap_or(0.0);
            (pour.minimum, pour.maximum) = (
                pour.least().map(|least| least.min(present)),
                pour.most().map(|most| most.max(present)),
            );
            pour.limits_off = false;
        }
        let poured = Poured::with_blank(handed);
        Self {
            handed,
            set,
            poured,
            done: Ruled {
                spec,
                trial,
                methods: None,
                from: Vec::new(),
                clashes: Vec::new(),
            },
            owners: BTreeMap::new(),
        }
    }

    pub(super) fn rule(&mut self, rule: &Rule) {
        match &rule.asks {
            RuleKind::Methods { allowed } if !allowed.is_empty() => {
                self.done.methods = Some(allowed.clone());
            }
            RuleKind::Ingredients { most, counts } => {
                let bound = self.most_pours(*most, *counts);
                self.figure(rule, Bounded::Pours, End::Most, Asked::exactly(bound));
            }
            RuleKind::Measures { notch_ml, .. } => {
                if let Some(notch) = notch_ml {
                    notches(self, rule, *notch);
                }
            }
            asks => {
                for (figure, end, value) in figures(self.handed, asks) {
                    self.figure(rule, figure, end, value);
                }
                for shares in Shares::of(self, asks) {
                    self.shares(rule, &shares);
                }
            }
        }
    }

    /// Most pours that leave as many ingredients as the rule allows, never fewer than there are.
    fn most_pours(&self, most: u32, counts: Counted) -> f64 {
        let present = Poured::of(self.handed);
        let ask = Ask {
            handed: self.handed,
            poured: &present,
            set: self.set,
        };
        let (names, places) = counted(&ask, counts);
        // Pours of one ingredient count once, and some pours do not count at all.
        let beside = names.len() as f64 - places.len() as f64;
        let uncounted = present.pours.iter();
        let uncounted = uncounted.filter(|fact| !does_count(fact.counts, counts));
        let now = present.pours.len() as f64;
        let allowed = f64::from(most) - beside + uncounted.count() as f64;
        allowed.max(now)
    }

    /// Tightens one side of a figure of the drink.
    fn figure(&mut self, rule: &Rule, figure: Bounded, end: End, value: Asked) {
        let bound = *self.done.spec.bounds.of(figure);
        let (least, most) = ends(&bound);
        let limit = RuledLimit::Figure(figure, end);
        let new = match self.tightened(rule, limit, (least, most), value) {
            Some((least, most)) => Bound {
                on: true,
                least,
                most,
            },
            None => return,
        };
        *self.done.spec.bounds.of_mut(figure) = new;
    }

    /// Tightens one side of the amount of a pour.
    fn shares(&mut self, rule: &Rule, shares: &Shares) {
        if let Some(words) = &shares.impossible {
            let said = self.said(rule);
            self.clash(rule, format!("{}, {words}", capital(&said)));
            return;
        }
        for (place, amount) in &shares.amounts {
            let Some(pour) = self.done.trial.pours.get(*place) else {
                continue;
            };
            let amount = &on_notch(self, *place, shares.end, *amount);
            let limit = RuledLimit::Pour(*place, shares.end);
            let now = (pour.minimum, pour.maximum);
            let Some(new) = self.tightened(rule, limit, now, Asked::exactly(*amount)) else {
                continue;
            };
            if let Some(pour) = self.done.trial.pours.get_mut(*place) {
                (pour.minimum, pour.maximum) = new;
            }
        }
    }

    /// Both sides with one tightened; `None` where nothing changes or the other side excludes it.
    fn tightened(
        &mut self,
        rule: &Rule,
        limit: RuledLimit,
        (least, most): (Option<f64>, Option<f64>),
        asked: Asked,
    ) -> Option<(Option<f64>, Option<f64>)> {
        let end = match limit {
            RuledLimit::Figure(_, end) | RuledLimit::Pour(_, end) => end,
            RuledLimit::Notch(_) => return None,
        };
        let (own, other) = match end {
            End::Least => (least, most),
            End::Most => (most, least),
        };
        let apart_from = |value: f64, limit: f64| match end {
            End::Least => value - limit,
            End::Most => limit - value,
        };
        let beyond = |limit: f64| apart_from(asked.rule, limit);
        // A hair within the rule is no contradiction.
        let value = match other {
            Some(other) if apart_from(asked.aim, other) > 0.0 => other,
            _ => asked.aim,
        };
        if let Some(apart) = other.map(beyond).filter(|apart| *apart > SAME) {
            let words = self.clash_words(rule, limit, other.unwrap_or_default(), apart);
            self.clash(rule, words);
            return None;
        }
        if own.is_some_and(|own| apart_from(value, own) <= 0.0) {
            return None;
        }
        self.own(rule, limit);
        Some(match end {
            End::Least => (Some(value), most),
            End::Most => (least, Some(value)),
        })
    }

    /// Writes down that a limit comes from a rule from now on.
    fn own(&mut self, rule: &Rule, limit: RuledLimit) {
        self.done.from.retain(|one| one.limit != limit);
        self.note(rule, limit);
        self.owners.insert(limit, self.said(rule));
    }

    /// "the rules of Harbour Cup ask for at least 40 ml of caraway spirit".
    pub(super) fn said(&self, rule: &Rule) -> String {
        said_by(self.set, rule)
    }

    fn clash(&mut self, rule: &Rule, words: String) {
        self.done.clashes.push(RuleClash {
            rule: rule.key.clone(),
            words,
        });
    }

    fn clash_words(&self, rule: &Rule, limit: RuledLimit, other: f64, apart: f64) -> String {
        let (what, unit, opposite) = match limit {
            RuledLimit::Figure(figure, end) => {
                let opposite = RuledLimit::Figure(figure, end.other());
                (figure.name().to_owned(), figure.unit(), opposite)
            }
            RuledLimit::Pour(place, end) => {
                let name = self.name_of(place);
                (
                    name,
                    self.unit_of(place),
                    RuledLimit::Pour(place, end.other()),
                )
            }
            RuledLimit::Notch(place) => (self.name_of(place), "ml", limit),
        };
        let side = match opposite {
            RuledLimit::Figure(_, End::Least) | RuledLimit::Pour(_, End::Least) => "at least",
            _ => "at most",
        };
        let text = |value: f64| {
            let text = trimmed(value, 1);
            format!("{text} {unit}").trim_end().to_owned()
        };
        let first = capital(&self.said(rule));
        let second = self.owners.get(&opposite).map_or_else(
            || format!("your own limit holds {what} {side} {}", text(other)),
            |said| format!("{said}, which holds {what} {side} {}", text(other)),
        );
        format!("{first}, but {second}: {} apart.", text(apart))
    }

    pub(super) fn name_of(&self, place: usize) -> String {
        let mut pours = self.poured.pours.iter();
        let fact = pours.find(|fact| fact.place == place);
        fact.map_or_else(|| "a pour".to_owned(), |fact| fact.name.to_owned())
    }

    fn unit_of(&self, place: usize) -> &'static str {
        match self.done.trial.pours.get(place).map(|pour| &pour.amount) {
            Some(Amount::Grams(_)) => "g",
            Some(Amount::Pieces(_)) => "pieces",
            _ => "ml",
        }
    }

    /// A pour that no proposal moves: locked, held, or without a number.
    pub(super) fn is_still(&self, place: usize) -> bool {
        let pours = &self.handed.trial.pours;
        let base = || pours.iter().position(|pour| pour.role == Role::Base);
        let holds_base = self.handed.spec.balancing.scale_rule == ScaleRule::BasePour;
        pours.get(place).is_none_or(|pour| {
            pour.locked || pour.amount.value().is_none() || holds_base && base() == Some(place)
        })
    }

    pub(super) fn note(&mut self, rule: &Rule, limit: RuledLimit) {
        let words = self.said(rule);
        self.done.from.push(FromRule {
            limit,
            rule: rule.key.clone(),
            words,
        });
    }
}

/// Both sides of a bound that is on.
fn ends(bound: &Bound) -> (Option<f64>, Option<f64>) {
    if bound.on {
        (bound.least, bound.most)
    } else {
        (None, None)
    }
}

/// "the rules of Harbour Cup ask for at least 40 ml of caraway spirit".
pub(super) fn said_by(set: &RuleSet, rule: &Rule) -> String {
    let name = match set.name.trim() {
        "" => "the rules".to_owned(),
        name => format!("the rules of {name}"),
    };
    let title = rule_title(&rule.asks);
    let mut letters = title.chars();
    let first = letters.next().into_iter().flat_map(char::to_lowercase);
    let title: String = first.chain(letters).collect();
    format!("{name} ask for {title}")
}
