//! Rules on how much there is: of a product, of alcohol, of the drink.

use super::rule_check::{Ask, Outcome};
use super::rule_finding::{Act, Field};
use super::rule_pours::{Counts, PourFact};
use super::rule_product::{Product, no_product};
use crate::model::{AlcoholMeasure, Amount, RuleKind, RuleSet, VolumeOf};
use crate::physics::ethanol::ETHANOL_G_PER_ML;
use crate::units::trimmed;

/// What rounding of a sum may come to, ml or g: nothing that anyone could pour.
pub(super) const ROUNDING: f64 = 1.0e-6;
/// Decimals with which figures are read.
const READ: usize = 1;

/// A figure with as many decimals as it takes to tell it from a limit.
pub(super) fn apart(value: f64, limit: f64) -> String {
    let limit = trimmed(limit, 3);
    let told = (READ..=3).map(|places| trimmed(value, places));
    let mut told = told.skip_while(|text| *text == limit);
    told.next().unwrap_or_else(|| trimmed(value, 3))
}

/// A difference to make up for, never read as nothing.
fn missing(value: f64) -> String {
    trimmed((value * 100.0).ceil() / 100.0, 2)
}

/// The amount on the notch that the rules ask for, above or below; as it is where they ask for none.
fn on_notch_of(set: &RuleSet, ml: f64, up: bool) -> f64 {
    let notch = set.rules.iter().find_map(|rule| match rule.asks {
        RuleKind::Measures { notch_ml, .. } if !rule.off => notch_ml,
        _ => None,
    });
    let Some(notch) = notch.filter(|notch| *notch > 0.0) else {
        return ml;
    };
    let times = ml / notch;
    let times = if up {
        (times - 1.0e-6).ceil()
    } else {
        (times + 1.0e-6).floor()
    };
    times * notch
}

/// How much is poured of a product.
struct Sum<'a> {
    pours: Vec<&'a PourFact<'a>>,
    ml: f64,
    /// A pour without a volume.
    unmeasured: Option<&'a str>,
}

fn sum<'a>(ask: &'a Ask<'a>, product: &'a Product<'a>) -> Sum<'a> {
    let pours: Vec<&PourFact<'_>> = ask.poured.of_row(product.id).collect();
    let unmeasured = pours.iter().find(|fact| fact.ml.is_none());
    Sum {
        ml: pours.iter().filter_map(|fact| fact.ml).sum(),
        unmeasured: unmeasured.map(|fact| fact.name),
        pours,
    }
}

impl Sum<'_> {
    fn places(&self) -> Vec<usize> {
        self.pours.iter().map(|fact| fact.place).collect()
    }

    /// "40 ml of rye", "40 ml of rye in 2 pours".
    fn words(&self, name: &str, limit: f64) -> String {
        let ml = apart(self.ml, limit);
        match self.pours.len() {
            0 => format!("No {name} is poured."),
            1 => format!("{ml} ml of {name} is poured."),
            pours => format!("{ml} ml of {name} is poured, in {pours} pours."),
        }
    }

    /// The largest of its pours in ml with so much more or less, on the notches that the rules ask for.
    fn act(&self, set: &RuleSet, by_ml: f64) -> Option<Act> {
        let in_ml = self.pours.iter().filter_map(|fact| match fact.pour.amount {
            Amount::Ml(ml) => Some((fact.place, ml)),
            _ => None,
        });
        let (place, ml) = in_ml.max_by(|one, other| one.1.total_cmp(&other.1))?;
        let amount = on_notch_of(set, ml + by_ml, by_ml > 0.0);
        (amount >= 0.0).then_some(Act::Pour { place, amount })
    }
}

fn unmeasured(name: &str) -> Outcome {
    Outcome::unknown(
        format!("{name} has no amount that can be measured in ml."),
        format!("Give {name} an amount in ml."),
    )
    .act(Act::Go(Field::Pours))
}

pub(super) fn at_least(ask: &Ask<'_>, word: &str, least_ml: f64) -> Outcome {
    let Some(product) = ask.product(word) else {
        return no_product(word);
    };
    let sum = sum(ask, &product);
    let name = &product.item.name;
    let said = sum.words(name, least_ml) + product.guess_words();
    if sum.ml >= least_ml - ROUNDING {
        return Outcome::kept(said).about(sum.places());
    }
    if let Some(name) = sum.unmeasured {
        return unmeasured(name).about(sum.places());
    }
    let by = least_ml - sum.ml;
    let remedy = if sum.pours.is_empty() {
        format!("Pour {} ml of {name}.", missing(by))
    } else {
        format!("Pour {} ml more of {name}.", missing(by))
    };
    let outcome = Outcome::broken(said, remedy).about(sum.places());
    outcome.act(sum.act(ask.set, by).unwrap_or(Act::Go(Field::Pours)))
}

pub(super) fn at_most(ask: &Ask<'_>, word: &str, most_ml: f64) -> Outcome {
    let Some(product) = ask.product(word) else {
        return no_product(word);
    };
    let sum = sum(ask, &product);
    let name = &product.item.name;
    let said = sum.words(name, most_ml) + product.guess_words();
    let by = sum.ml - most_ml;
    if by > ROUNDING {
        let remedy = format!("Pour {} ml less of {name}.", missing(by));
        let outcome = Outcome::broken(said, remedy).about(sum.places());
        return outcome.act(sum.act(ask.set, -by).unwrap_or(Act::Go(Field::Pours)));
    }
    match sum.unmeasured {
        Some(name) => unmeasured(name).about(sum.places()),
        None => Outcome::kept(said).about(sum.places()),
    }
}

fn no_figures() -> Outcome {
    Outcome::unknown(
        "The trial has no figures yet.",
        "Pour something, and mend what the notices name.",
    )
    .act(Act::Go(Field::Pours))
}

/// That some pours count for nothing because the recipe gives no amount; what is laid on brings no liquid.
fn uncounted(ask: &Ask<'_>) -> Option<String> {
    let laid_on = |text: &str| {
        let mut garnish = ask.poured.pours.iter();
        garnish.any(|fact| {
            let words = match &fact.pour.amount {
                Amount::Words(words) if fact.counts == Counts::Garnish => words,
                _ => return false,
            };
            text == format!("{}: {words}", fact.name)
        })
    };
    let uncounted = ask.handed.drink?.uncounted.iter();
    let left: Vec<&str> = uncounted
        .map(String::as_str)
        .filter(|text| !laid_on(text))
        .collect();
    (!left.is_empty()).then(|| left.join(", "))
}

/// Kept, unless something that could not be counted might break it.
fn kept_but(ask: &Ask<'_>, said: String) -> Outcome {
    match uncounted(ask) {
        None => Outcome::kept(said),
        Some(what) => Outcome::unknown(
            format!("{said} Not counted: {what}."),
            "Give every pour an amount as a number.",
        )
        .act(Act::Go(Field::Pours)),
    }
}

pub(super) fn alcohol(ask: &Ask<'_>, measure: AlcoholMeasure, most: f64) -> Outcome {
    let places = alcoholic(ask).map(|fact| fact.place).collect();
    let (found, unit) = match measure {
        AlcoholMeasure::AlcoholicMl => {
            if let Some(fact) = alcoholic(ask).find(|fact| fact.ml.is_none()) {
                return unmeasured(fact.name).about(places);
            }
            let ml = alcoholic(ask).filter_map(|fact| fact.ml).sum();
            (ml, "ml of alcoholic ingredients")
        }
        AlcoholMeasure::PureGrams | AlcoholMeasure::PureMl => {
            let Some(figures) = ask.handed.figures else {
                return no_figures();
            };
            match measure {
                AlcoholMeasure::PureGrams => (figures.alcohol_g, "g of pure alcohol"),
                _ => (figures.alcohol_g / ETHANOL_G_PER_ML, "ml of pure alcohol"),
            }
        }
    };
    let said = format!("{} {unit}.", apart(found, most));
    if found <= most + ROUNDING {
        return kept_but(ask, said).about(places);
    }
    let by = found - most;
    let by_ml = match measure {
        AlcoholMeasure::PureGrams => by / ETHANOL_G_PER_ML,
        _ => by,
    };
    let counts_whole = measure == AlcoholMeasure::AlcoholicMl;
    let outcome = Outcome::broken(
        format!("{said} That is {} too much.", missing(by)),
        "Pour less of what holds alcohol.",
    );
    weaker(ask, outcome, |fact| {
        let share = if counts_whole { 1.0 } else { strength_of(fact) };
        by_ml / share
    })
    .about(places)
}

fn alcoholic<'a>(ask: &'a Ask<'a>) -> impl Iterator<Item = &'a PourFact<'a>> {
    let pours = ask.poured.pours.iter();
    pours.filter(|fact| fact.is_alcoholic())
}

/// Strength as a share of the volume.
fn strength_of(fact: &PourFact<'_>) -> f64 {
    let strength = fact.item.strength_pct_vol;
    strength.map_or(0.0, |strength| strength.typical / 100.0)
}

/// The pour that brings the most alcohol and is measured in ml.
fn strongest<'a>(ask: &'a Ask<'a>) -> Option<(&'a PourFact<'a>, f64)> {
    let in_ml = alcoholic(ask).filter_map(|fact| match fact.pour.amount {
        Amount::Ml(ml) => Some((fact, ml)),
        _ => None,
    });
    in_ml.max_by(|one, other| {
        (one.1 * strength_of(one.0)).total_cmp(&(other.1 * strength_of(other.0)))
    })
}

/// Names how much less of the pour with most alcohol would do, where it is enough.
fn weaker(ask: &Ask<'_>, outcome: Outcome, less_ml: impl Fn(&PourFact<'_>) -> f64) -> Outcome {
    let Some((fact, ml)) = strongest(ask) else {
        return outcome.act(Act::Go(Field::Pours));
    };
    let less = less_ml(fact);
    if !(less.is_finite() && less > 0.0 && less <= ml) {
        return outcome.act(Act::Go(Field::Pours));
    }
    let remedy = format!("Pour {} ml less of {}.", missing(less), fact.name);
    outcome.instead(remedy).act(Act::Pour {
        place: fact.place,
        // A hair less, so that rounding does not leave it above.
        amount: on_notch_of(ask.set, ((ml - less) * 100.0).floor() / 100.0, false),
    })
}

pub(super) fn strength(ask: &Ask<'_>, least: Option<f64>, most: Option<f64>) -> Outcome {
    let Some(figures) = ask.handed.figures else {
        return no_figures();
    };
    let found = figures.point.strength_pct_vol;
    let below = least.filter(|least| found < least - ROUNDING);
    let above = most.filter(|most| found > most + ROUNDING);
    let Some(limit) = below.or(above) else {
        return kept_but(ask, format!("{} % vol as served.", trimmed(found, READ)));
    };
    let off = missing((found - limit).abs());
    let (side, by) = if below.is_some() {
        ("weak", "more")
    } else {
        ("strong", "less")
    };
    let said = format!(
        "{} % vol as served: {off} % vol too {side}.",
        apart(found, limit)
    );
    // With the water from ice as it is; proposals work it out anew.
    let remedy = strongest(ask).and_then(|(fact, ml)| {
        let share = 100.0 * strength_of(fact);
        let change = figures.served_ml * (limit - found) / (share - limit);
        let fits = share > limit && ml + change > 0.0;
        fits.then(|| {
            let change = trimmed(change.abs().max(0.1), 1);
            format!(
                "Pour about {change} ml {by} of {}, or take a proposal.",
                fact.name
            )
        })
    });
    let remedy = remedy.unwrap_or_else(|| "Take a proposal: it keeps the rules.".to_owned());
    Outcome::broken(said, remedy).act(Act::Go(Field::Pours))
}

pub(super) fn volume(
    ask: &Ask<'_>,
    of: VolumeOf,
    least: Option<f64>,
    most: Option<f64>,
) -> Outcome {
    let (Some(figures), Some(drink)) = (ask.handed.figures, ask.handed.drink) else {
        return no_figures();
    };
    let (found, words) = match of {
        VolumeOf::Served => (figures.served_ml, "served"),
        VolumeOf::Poured => {
            let lines = drink.lines.iter();
            let ml: f64 = lines.map(crate::balance::Line::volume_ml).sum();
            (ml, "poured")
        }
    };
    let below = least.filter(|least| found < least - ROUNDING);
    let above = most.filter(|most| found > most + ROUNDING);
    let Some(limit) = below.or(above) else {
        return kept_but(ask, format!("{} ml {words}.", trimmed(found, READ)));
    };
    let off = missing((found - limit).abs());
    let (side, verb) = if below.is_some() {
        ("too little", "more")
    } else {
        ("too much", "less")
    };
    let times = trimmed(limit / found, 2);
    Outcome::broken(
        format!("{} ml {words}: {off} ml {side}.", apart(found, limit)),
        format!("Pour {verb} of everything: about {times} times each amount keeps the balance."),
    )
    .act(Act::Go(Field::Pours))
}
