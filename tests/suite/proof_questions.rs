//! Seeded questions for the proofs: small grids of every kind of pour, technique and limit.

use crate::sample_drinks::{document, larder};
use equipour::balance::{Drink, Pantry};
use equipour::model::{
    Added, Amount, Bound, Bounded, Chilling, Dilution, Document, IceLeft, Ingredient, IngredientId,
    Method, Place, Point, Pour, Price, Role, ScaleRule, Technique, Weights, check,
};
use equipour::rebalance::Question;
use equipour::units::Unit;
use std::sync::Arc;

/// A small deterministic generator (splitmix64, Steele, Lea and Flood 2014, from memory).
#[derive(Clone, Debug)]
pub(crate) struct Dice(pub u64);

impl Dice {
    pub(crate) fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// From 0 to below 1.
    pub(crate) fn unit(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    pub(crate) fn below(&mut self, count: usize) -> usize {
        (self.next() % count as u64) as usize
    }

    pub(crate) fn pick<T: Clone>(&mut self, all: &[T]) -> T {
        all[self.below(all.len())].clone()
    }

    pub(crate) fn chance(&mut self, share: f64) -> bool {
        self.unit() < share
    }
}

/// What a pour is measured with.
#[derive(Clone, Copy, Debug)]
enum Measured {
    /// 2.5 ml.
    Usual,
    /// 5 ml.
    Coarse,
    QuarterOunce,
    Spoon,
    Dash,
    Powder,
    Piece,
    /// 15 ml, poured on top.
    Top,
}

/// Ingredients of one job, how they are measured, and the least and most at present.
type Shelf = (&'static [&'static str], &'static [Measured], (f64, f64));

const BASES: Shelf = (
    &[
        "gin-london-dry",
        "rum-white",
        "whiskey-bourbon",
        "tequila",
        "rum-overproof",
        "vermouth-dry",
    ],
    &[Measured::Usual, Measured::Coarse, Measured::QuarterOunce],
    (30.0, 60.0),
);
const SOURS: Shelf = (
    &[
        "lime-juice",
        "lemon-juice",
        "grapefruit-juice",
        "passion-fruit-juice-purple",
    ],
    &[Measured::Usual, Measured::Coarse, Measured::QuarterOunce],
    (10.0, 35.0),
);
const SWEETS: Shelf = (
    &[
        "sugar-syrup-1-1",
        "sugar-syrup-2-1",
        "honey-syrup-1-1",
        "agave-syrup",
        "grenadine",
    ],
    &[Measured::Usual, Measured::Coarse, Measured::Spoon],
    (5.0, 30.0),
);
const OTHERS: [Shelf; 6] = [
    (
        &[
            "orange-liqueur-triple-sec",
            "maraschino-liqueur",
            "cream-liqueur",
            "amaro",
        ],
        &[Measured::Usual, Measured::Spoon, Measured::QuarterOunce],
        (0.0, 25.0),
    ),
    (
        &["soda-water", "sparkling-wine-brut"],
        &[Measured::Top],
        (30.0, 90.0),
    ),
    (
        &["aromatic-bitters", "orange-bitters"],
        &[Measured::Dash],
        (0.0, 2.0),
    ),
    (
        &["citric-acid", "malic-acid", "tartaric-acid"],
        &[Measured::Powder],
        (0.0, 1.0),
    ),
    (&["egg-white", "egg-yolk"], &[Measured::Piece], (0.0, 1.0)),
    (
        &["pineapple-juice", "water", "whole-milk"],
        &[Measured::Coarse],
        (5.0, 40.0),
    ),
];

/// A pour of a shelf with a grid of about `values` amounts.
fn pour(dice: &mut Dice, (ids, measures, (least, most)): &Shelf, values: usize) -> Pour {
    let id = IngredientId::from(dice.pick(ids));
    let measured = dice.pick(measures);
    let mut pour = Pour::of(&id, 0.0, larder()[&id].role);
    let (unit, step) = match measured {
        Measured::Usual => (dice.pick(&[Unit::Ml, Unit::Cl]), 2.5),
        Measured::Coarse => (Unit::Ml, 5.0),
        Measured::QuarterOunce => (Unit::Oz, 7.5),
        Measured::Spoon => (Unit::BarSpoon, 2.5),
        Measured::Dash => (Unit::Dash, 0.92),
        Measured::Powder => (Unit::Gram, 0.1),
        Measured::Piece => (Unit::Piece, 1.0),
        Measured::Top => (Unit::Ml, 15.0),
    };
    if matches!(measured, Measured::Coarse | Measured::Top) {
        pour.step = Some(step);
    }
    if matches!(measured, Measured::Top) {
        pour.added = Added::After;
    }
    pour.unit = unit;
    let on_step = (dice.between(*least, *most) / step).round() * step;
    // Now and then an amount that no measure has.
    let amount = if dice.chance(0.15) {
        on_step + 0.3 * step
    } else {
        on_step
    };
    pour.amount = match measured {
        Measured::Powder => Amount::Grams(amount),
        Measured::Piece => Amount::Pieces(on_step),
        _ => Amount::Ml(amount),
    };
    let first = (amount / step).floor() - dice.below(values) as f64;
    // Bounds need not lie on a step, and the present amount need not lie within.
    pour.minimum = (first > 0.0).then_some(first * step - 0.2 * step * dice.unit());
    let last = first.max(0.0) + values as f64 - 1.0;
    pour.maximum = Some(last * step + 0.2 * step * dice.unit());
    if matches!(measured, Measured::Dash | Measured::Piece) && dice.chance(0.5) {
        (pour.minimum, pour.maximum) = (None, None);
    }
    pour
}

/// The pours: a base, something sour, something sweet and up to two more; `unlocked` may move.
fn pours(dice: &mut Dice, unlocked: usize) -> Vec<Pour> {
    // At most some thousand points: 60², 16³, 9⁴ or 6⁵.
    let values = [60, 16, 9, 6][unlocked - 2];
    let count = (unlocked + dice.below(2)).max(3);
    let mut pours: Vec<Pour> = [BASES, SOURS, SWEETS]
        .iter()
        .map(|shelf| pour(dice, shelf, values))
        .collect();
    while pours.len() < count {
        let shelf = dice.pick(&OTHERS);
        pours.push(pour(dice, &shelf, values));
    }
    while pours.iter().filter(|pour| !pour.locked).count() > unlocked {
        let place = dice.below(count);
        pours[place].locked = true;
    }
    pours[0].role = Role::Base;
    pours
}

/// A technique, cold or not; what stays cold in it spares melt.
fn technique(dice: &mut Dice, pours: &mut [Pour]) -> Technique {
    let (method, dilution) = dice.pick(&[
        (Method::Shaken, Dilution::ByMethod),
        (Method::Shaken, Dilution::ByMethod),
        (Method::Stirred, Dilution::ByMethod),
        (Method::Built, Dilution::ByMethod),
        (Method::Built, Dilution::Fraction(0.35)),
        (
            Method::Thrown,
            Dilution::Weighed {
                before_g: 100.0,
                after_g: 138.0,
            },
        ),
        (Method::Blended, Dilution::IceGrams(120.0)),
        (Method::NoIce, Dilution::ByMethod),
        (Method::Bottled, Dilution::ByMethod),
    ]);
    let mut technique = Technique::new(method, dilution);
    if dice.chance(0.35) {
        for pour in pours.iter_mut() {
            pour.place = Some(dice.pick(&Place::ALL));
        }
        technique.chilling = Chilling {
            vessel: dice.pick(&Place::ALL),
            ice_celsius: dice.pick(&[0.0, -10.0, -18.0]),
            ice_left: dice.pick(&[IceLeft::AllMelted, IceLeft::AsDrunk]),
            ..Chilling::USUAL
        };
    }
    technique
}

/// What the trial of a document is, resolved as the program does it.
pub(crate) fn resolved(document: &Document) -> Drink {
    let spec = &document.specs[0];
    Drink::of_trial(document, &spec.trials[0], &mut Pantry::default()).expect("it resolves")
}

/// The question that a document asks.
pub(crate) fn asked(document: &Document) -> Question {
    let spec = &document.specs[0];
    Question::of_trial(document, spec, &spec.trials[0], resolved(document)).expect("it is sound")
}

/// Where a drink of these pours lands; `None` when nothing is in it.
fn lands(pours: Vec<Pour>, technique: Technique) -> Option<Point> {
    let served = resolved(&document(pours, technique, None)).served().ok()?;
    Some(Point::from(&served))
}

/// A target: another drink of the same things, one far from it, or none that can be.
fn target(dice: &mut Dice, pours: &[Pour], technique: Technique) -> Point {
    let spread = dice.pick(&[0.15, 0.3, 0.6, 2.0]);
    let mut other = pours.to_vec();
    for pour in &mut other {
        let now = pour.amount.value().unwrap_or(0.0);
        let factor = dice.between(-spread, spread).exp();
        pour.amount = pour.amount.with_value(now * factor);
    }
    if dice.chance(0.1) {
        return Point {
            sweet_g_per_l: dice.between(0.0, 300.0),
            sour_g_per_l: dice.between(0.0, 25.0),
            strength_pct_vol: dice.between(0.0, 60.0),
            bitter_per_ml: 0.0,
        };
    }
    lands(other, technique).expect("something is poured")
}

/// A bound around the present value, seldom one that it breaks.
fn bound(dice: &mut Dice, now: f64, share: f64) -> Bound {
    let side = dice.below(3);
    let (below, above) = (dice.between(-0.2, 1.0), dice.between(-0.2, 1.0));
    let least = (now * (1.0 - share * below)).max(0.0);
    let most = (now * (1.0 + share * above)).max(0.0);
    Bound {
        on: !dice.chance(0.1),
        least: (side != 0 && least <= most).then_some(least),
        most: (side != 1).then_some(most),
    }
}

fn set_bounds(dice: &mut Dice, document: &mut Document) {
    let drink = resolved(document);
    let served = drink.served().expect("something is poured");
    let alcohol: f64 = drink
        .lines
        .iter()
        .map(|l| l.amount * l.per_unit.ethanol_g)
        .sum();
    let cost: f64 = drink
        .lines
        .iter()
        .filter_map(|line| Some(line.price_per_unit()? * line.amount))
        .sum();
    let poured = drink.lines.iter().filter(|line| line.amount > 0.0).count() as f64;
    let spec = &mut document.specs[0];
    for figure in Bounded::ALL {
        if !dice.chance(0.3) {
            continue;
        }
        *spec.bounds.of_mut(figure) = match figure {
            Bounded::ServedVolume => bound(dice, served.volume_ml, 0.15),
            Bounded::Strength => bound(dice, served.strength_pct_vol, 0.2),
            Bounded::Alcohol => bound(dice, alcohol, 0.2),
            Bounded::Cost => bound(dice, cost, 0.3),
            Bounded::Pours => Bound {
                on: true,
                least: dice.chance(0.3).then_some((poured - 1.0).max(0.0)),
                most: Some(poured - dice.below(2) as f64),
            },
        };
    }
    if dice.chance(0.2) {
        spec.bounds.glass = true;
        spec.glass.ice_share = 0.3;
        spec.glass.capacity_ml = served.volume_ml * dice.between(0.95, 1.2) / 0.7;
    }
}

/// Gives some ingredients a price.
fn price(dice: &mut Dice, document: &mut Document) {
    let ids: Vec<IngredientId> = document.ingredients.keys().cloned().collect();
    let mut priced = (*document.ingredients).clone();
    for id in ids {
        if dice.chance(0.7) {
            let item = Ingredient {
                price: Some(Price {
                    pack_price: dice.between(2.0, 30.0),
                    pack_size: 700.0,
                    pack_is_mass: dice.chance(0.2),
                }),
                ..(*priced[&id]).clone()
            };
            priced.insert(id, Arc::new(item));
        }
    }
    document.ingredients = Arc::new(priced);
}

/// The document of a seed: one drink that asks a question on a grid of some thousand points.
pub(crate) fn seeded(seed: u64) -> Document {
    let mut dice = Dice(seed.wrapping_mul(0x5851_F42D_4C95_7F2D).wrapping_add(seed));
    let unlocked = 2 + dice.below(4);
    let mut pours = pours(&mut dice, unlocked);
    let technique = technique(&mut dice, &mut pours);
    let aim = target(&mut dice, &pours, technique);
    let mut document = document(pours, technique, Some(aim));
    price(&mut dice, &mut document);
    if dice.chance(0.5) {
        set_bounds(&mut dice, &mut document);
    }
    if dice.chance(0.3) {
        document.jiggers_ml = vec![dice.pick(&[5.0, 7.5]), 15.0, 22.5, 30.0];
    }
    let balancing = &mut document.specs[0].balancing;
    balancing.scale_rule = dice.pick(&ScaleRule::ALL);
    balancing.reluctance = dice.pick(&[0.0, 0.01, 0.05, 0.05, 0.3]);
    let mut weights = [1.0; 3];
    if dice.chance(0.4) {
        weights = [0.0, 0.5, 1.0].map(|weight| weight + dice.pick(&[0.0, 1.0, 2.5]));
        let turn = dice.below(3);
        weights.rotate_left(turn);
    }
    balancing.weights = Weights {
        sweet: weights[0],
        sour: weights[1],
        strength: weights[2],
    };
    let spec = &document.specs[0];
    let moves = |(place, pour): (usize, &Pour)| {
        let held = place == 0 && spec.balancing.scale_rule == ScaleRule::BasePour;
        !pour.locked && !held
    };
    if !spec.trials[0].pours.iter().enumerate().any(moves) {
        document.specs[0].balancing.scale_rule = ScaleRule::PouredTotal;
    }
    check(&document).expect("the document may say that");
    document
}
