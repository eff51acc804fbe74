//! Every point of a question's grid by the kernel alone: the yardstick of the proofs.
//!
//! Nothing here asks the solver. A point's figures are sums of [`Line::per_unit`] put through
//! [`serve`]; objectives and limits are written out once more.

use crate::proof_questions::asked;
use equipour::balance::{Ice, Line, Load, Served, serve};
use equipour::model::{Added, Amount, Axis, Bounded, Document, Pour, ScaleRule};
use equipour::physics::ethanol::ETHANOL_G_PER_ML;
use equipour::rebalance::{Kind, Question};
use equipour::units::Unit;

/// What filling a jigger once more must gain, squared noticeable steps.
const FILLING: f64 = 0.004;
/// What counts only between otherwise equal answers.
const TIE: f64 = 1.0e-3;
/// Less chilled liquid than this (g) is no drink to the solver.
const LEAST_CHILLED_G: f64 = 0.01;

/// A question with its grid, spread out.
pub(crate) struct Grid<'a> {
    pub(crate) document: &'a Document,
    pub(crate) question: Question,
    /// Amounts of every unlocked pour.
    pub(crate) values: Vec<Vec<f64>>,
    /// Work of measuring each.
    fillings: Vec<Vec<f64>>,
    ice: Ice,
    /// All is served as it is: nothing is chilled.
    unchilled: bool,
    present: Vec<f64>,
    present_ml: f64,
    /// D of the drink as it is.
    pub(crate) squared_now: f64,
}

/// One point of the grid.
#[derive(Clone, Debug)]
pub(crate) struct Spot {
    pub(crate) x: Vec<f64>,
    /// D, squared noticeable steps.
    pub(crate) squared: f64,
    /// Σ|Δ|/step.
    pub(crate) change: f64,
    /// The same, three for each beyond half or double of a pour and six more for one left out.
    pub(crate) strain: f64,
    /// Fillings of jiggers beyond once.
    pub(crate) fillings: f64,
    /// Pours that change.
    pub(crate) changed: usize,
    /// Σ price·x of the pours that may move.
    pub(crate) price: f64,
    pub(crate) legal: bool,
}

fn pour_of<'a>(document: &'a Document, question: &Question, i: usize) -> &'a Pour {
    &document.specs[0].trials[0].pours[question.unknowns[i].pour]
}

/// The multiples of the step between the bounds, and the present amount.
fn amounts(question: &Question, i: usize) -> Vec<f64> {
    let unknown = &question.unknowns[i];
    let mut amounts = vec![unknown.present];
    let mut k = 0.0;
    while k * unknown.step <= unknown.upper + 1e-9 * unknown.step {
        let amount = k * unknown.step;
        let within = amount >= unknown.lower - 1e-9 * unknown.step;
        if within && (amount - unknown.present).abs() > 1e-9 * unknown.step {
            amounts.push(amount.clamp(unknown.lower, unknown.upper));
        }
        k += 1.0;
    }
    amounts.sort_by(f64::total_cmp);
    amounts
}

fn is_jigger(pour: &Pour) -> bool {
    matches!(pour.amount, Amount::Ml(_))
        && matches!(pour.unit, Unit::Ml | Unit::Cl | Unit::Oz | Unit::FlOz)
}

/// How often a jigger is filled beyond once, by trying every one and every two, and a tenth for a
/// size that no pour of the drink takes, less where there are more than nine pours.
fn fillings(document: &Document, pour: &Pour, (present, unlocked): (f64, usize), ml: f64) -> f64 {
    let same = |one: f64, other: f64| (one - other).abs() < 1e-6;
    if !is_jigger(pour) || same(ml, present) {
        return 0.0;
    }
    if same(ml, 0.0) {
        return 2.0;
    }
    let pours = &document.specs[0].trials[0].pours;
    let mut taken = pours.iter().filter(|pour| is_jigger(pour));
    let taken = taken.any(|pour| pour.amount.value().is_some_and(|other| same(other, ml)));
    let own = if taken {
        0.0
    } else {
        0.1_f64.min(0.9 / unlocked as f64)
    };
    let sizes = &document.jiggers_ml;
    if sizes.iter().any(|size| same(*size, ml)) {
        return own;
    }
    let two = sizes
        .iter()
        .any(|one| sizes.iter().any(|other| same(one + other, ml)));
    own + if two { 1.0 } else { 2.0 }
}

impl<'a> Grid<'a> {
    pub(crate) fn of(document: &'a Document) -> Self {
        let question = asked(document);
        let count = question.unknowns.len();
        let values: Vec<Vec<f64>> = (0..count).map(|i| amounts(&question, i)).collect();
        let work = |i: usize| {
            let (pour, now) = (
                pour_of(document, &question, i),
                question.unknowns[i].present,
            );
            values[i]
                .iter()
                .map(|x| fillings(document, pour, (now, count), *x))
                .collect()
        };
        let moves = |place: usize| question.unknowns.iter().any(|u| u.line == place);
        let chills = |(place, line): (usize, &Line)| {
            line.added == Added::With && (line.amount > 0.0 || moves(place))
        };
        let unchilled = !question.drink.lines.iter().enumerate().any(chills);
        let mut grid = Self {
            fillings: (0..count).map(work).collect(),
            ice: if unchilled {
                Ice::NONE
            } else {
                question.drink.ice
            },
            unchilled,
            present: question.present(),
            present_ml: 0.0,
            squared_now: 0.0,
            document,
            values,
            question,
        };
        let now = grid
            .served(&grid.present)
            .expect("the drink as it is can be served");
        (grid.present_ml, grid.squared_now) = (now.volume_ml, grid.squared(&now));
        grid
    }

    pub(crate) fn points(&self) -> usize {
        self.values.iter().map(Vec::len).product()
    }

    /// Amounts of every line.
    fn amounts(&self, x: &[f64]) -> Vec<f64> {
        let lines = self.question.drink.lines.iter();
        let mut amounts: Vec<f64> = lines.map(|line| line.amount).collect();
        for (unknown, amount) in self.question.unknowns.iter().zip(x) {
            amounts[unknown.line] = *amount;
        }
        amounts
    }

    /// The drink at a point, by the kernel.
    pub(crate) fn served(&self, x: &[f64]) -> Option<Served<f64>> {
        let (mut chilled, mut after) = (Load::ZERO, Load::ZERO);
        for (line, amount) in self.question.drink.lines.iter().zip(self.amounts(x)) {
            let with = self.unchilled || line.added == Added::With;
            let part = if with { &mut chilled } else { &mut after };
            *part = part.plus_units(amount, &line.per_unit);
        }
        (chilled.mass_g > LEAST_CHILLED_G).then(|| serve(&chilled, &after, &self.ice))
    }

    /// D of a drink.
    pub(crate) fn squared(&self, served: &Served<f64>) -> f64 {
        let (question, senses) = (&self.question, &self.question.senses);
        let weights = &question.balancing.weights;
        let axes = [
            (Axis::Sweet, served.sweet_g_per_l, senses.sweet),
            (Axis::Sour, served.sour_g_per_l, senses.sour),
            (Axis::Strength, served.strength_pct_vol, senses.strength),
        ];
        let square = |(axis, value, threshold): (Axis, f64, equipour::model::Threshold)| {
            // Sourness counts from 1.5 g/L on.
            let value = if axis == Axis::Sour {
                value.max(1.5)
            } else {
                value
            };
            let c0 = threshold.detection;
            let ratio = (value.max(0.0) + c0) / (question.target.on(axis).max(0.0) + c0);
            weights.on(axis) * (ratio.ln() / (1.0 + threshold.weber).ln()).powi(2)
        };
        axes.into_iter().map(square).sum()
    }

    /// Cost of the drink as it is, of what is priced.
    pub(crate) fn cost_now(&self) -> f64 {
        let lines = self.question.drink.lines.iter().enumerate();
        lines
            .map(|(place, line)| self.price(place) * line.amount)
            .sum()
    }

    fn price(&self, line: usize) -> f64 {
        self.question.drink.lines[line]
            .price_per_unit()
            .unwrap_or(0.0)
    }

    fn is_legal(&self, x: &[f64], served: &Served<f64>) -> bool {
        let question = &self.question;
        let unknowns = &question.unknowns;
        let largest = unknowns
            .iter()
            .map(|u| u.step * u.ml_per_unit)
            .fold(0.0, f64::max);
        let grown = match question.balancing.scale_rule {
            ScaleRule::PouredTotal => {
                let parts = unknowns.iter().zip(x);
                parts.map(|(u, x)| u.ml_per_unit * (x - u.present)).sum()
            }
            ScaleRule::ServedVolume => served.volume_ml - self.present_ml,
            ScaleRule::None | ScaleRule::BasePour => 0.0_f64,
        };
        if grown.abs() > 0.5 * largest + 1.1e-9 {
            return false;
        }
        let spec = &self.document.specs[0];
        let room = spec.glass.capacity_ml * (1.0 - spec.glass.ice_share);
        if spec.bounds.glass && served.volume_ml > room + 1e-9 {
            return false;
        }
        let amounts = self.amounts(x);
        let sum = |of: &dyn Fn(usize) -> f64| -> f64 {
            amounts
                .iter()
                .enumerate()
                .map(|(line, amount)| amount * of(line))
                .sum()
        };
        let lines = &question.drink.lines;
        let ethanol = sum(&|line| lines[line].per_unit.ethanol_g);
        let keeps = |figure: Bounded| {
            let bound = spec.bounds.of(figure);
            let value = match figure {
                Bounded::ServedVolume => served.volume_ml,
                Bounded::Strength => 100.0 * ethanol / ETHANOL_G_PER_ML / served.volume_ml,
                Bounded::Alcohol => ethanol,
                Bounded::Cost => sum(&|line| self.price(line)),
                Bounded::Pours => {
                    let poured = amounts.iter().filter(|amount| **amount > 0.0).count();
                    (poured + question.drink.uncounted.len()) as f64
                }
            };
            let low = bound.least.is_none_or(|least| value >= least - 1e-9);
            let high = bound.most.is_none_or(|most| value <= most + 1e-9);
            !bound.on || low && high
        };
        Bounded::ALL.into_iter().all(keeps)
    }

    /// The point at these places; `None` where there is no drink.
    fn spot(&self, places: &[usize]) -> Option<Spot> {
        let pairs = self.values.iter().zip(places);
        let x: Vec<f64> = pairs.map(|(values, &place)| values[place]).collect();
        let served = self.served(&x)?;
        let mut spot = Spot {
            squared: self.squared(&served),
            change: 0.0,
            strain: 0.0,
            fillings: 0.0,
            changed: 0,
            price: 0.0,
            legal: self.is_legal(&x, &served),
            x,
        };
        for (i, unknown) in self.question.unknowns.iter().enumerate() {
            let moved = (spot.x[i] - unknown.present).abs();
            spot.change += moved / unknown.step;
            spot.strain += moved / unknown.step;
            if unknown.present > 0.0 {
                let (half, double) = (unknown.present / 2.0, unknown.present * 2.0);
                let beyond = spot.x[i] - spot.x[i].clamp(half, double);
                spot.strain += 2.0 * beyond.abs() / unknown.step;
                spot.strain += if spot.x[i] == 0.0 { 6.0 } else { 0.0 };
            }
            spot.changed += usize::from(moved > 1e-9);
            spot.fillings += self.fillings[i][places[i]];
            spot.price += self.price(unknown.line) * spot.x[i];
        }
        Some(spot)
    }

    /// The point with these amounts, which must lie on the grid.
    pub(crate) fn spot_at(&self, x: &[f64]) -> Spot {
        let place = |(values, x): (&Vec<f64>, &f64)| {
            let on = values.iter().position(|value| (value - x).abs() < 1e-9);
            on.unwrap_or_else(|| panic!("{x} is not on {values:?}"))
        };
        let places: Vec<usize> = self.values.iter().zip(x).map(place).collect();
        self.spot(&places).expect("a drink")
    }

    /// Visits every point of the grid where there is a drink that keeps all limits.
    pub(crate) fn each_legal(&self, mut visit: impl FnMut(&Spot)) {
        let mut places = vec![0; self.values.len()];
        loop {
            if let Some(spot) = self.spot(&places).filter(|spot| spot.legal) {
                visit(&spot);
            }
            let next = (0..places.len()).find(|&i| places[i] + 1 < self.values[i].len());
            let Some(i) = next else {
                return;
            };
            places[i] += 1;
            places[..i].fill(0);
        }
    }

    /// A hundredth of what the drink costs, if cheapest can be asked for.
    fn cost_scale(&self) -> Option<f64> {
        let spec = &self.document.specs[0];
        let served = spec.bounds.of(Bounded::ServedVolume);
        let sized = spec.balancing.scale_rule != ScaleRule::None
            || served.on && served.least.is_some_and(|least| least > 0.0);
        let unknowns = &self.question.unknowns;
        let lines = &self.question.drink.lines;
        let mut costs = unknowns.iter().map(|u| lines[u.line].price_per_unit());
        let priced = costs.all(|price| price.is_some());
        let whole = self.cost_now();
        (sized && priced && unknowns.len() > 1 && whole > 0.0).then_some(0.01 * whole)
    }

    /// Whether a pour is left out, or less than a third or more than three times of it.
    fn is_another_drink(&self, spot: &Spot) -> bool {
        let pairs = self.question.unknowns.iter().zip(&spot.x);
        let mut moved = pairs.filter(|(u, x)| u.present > 0.0 && (*x - u.present).abs() > 1e-9);
        moved.any(|(u, x)| !(1.0 / 3.0 - 1e-9..=3.0 + 1e-9).contains(&(x / u.present)))
    }

    /// What a kind makes small at a point; `None` if the kind is not asked for or the point does
    /// not count.
    pub(crate) fn objective(&self, kind: Kind, spot: &Spot) -> Option<f64> {
        if kind == Kind::Nearest {
            let pull = self.question.balancing.reluctance * spot.strain;
            return Some(spot.squared + pull + FILLING * spot.fillings);
        }
        if spot.squared > 1.0 || self.is_another_drink(spot) {
            return None;
        }
        let jigger = |i: usize| {
            let pour = pour_of(self.document, &self.question, i);
            matches!(pour.unit, Unit::Ml | Unit::Cl | Unit::Oz | Unit::FlOz)
                && matches!(pour.amount, Amount::Ml(_))
        };
        match kind {
            Kind::SmallestChange | Kind::FewestPours => (self.squared_now > 1.0)
                .then_some(spot.strain + TIE * (spot.fillings + spot.squared)),
            Kind::EasiestToMeasure => (0..self.values.len())
                .any(jigger)
                .then_some(spot.fillings + TIE * (spot.strain + spot.squared)),
            Kind::Cheapest => {
                let scale = self.cost_scale()?;
                Some(spot.price + TIE * scale * (spot.strain + spot.squared))
            }
            _ => None,
        }
    }
}
