//! Drinks whose figures and pours are not known exactly, for the tests of uncertainty.

use crate::sample_drinks::{SHAKEN, larder, ml};
use equipour::balance::{Assumed, Drink, MonteCarlo, Pantry, Uncertainty, figures};
use equipour::model::{
    Added, Amount, Chilling, Figure, Ingredient, Place, Point, Pour, Precision, Range, Senses,
    Source, Technique, Weights,
};
use equipour::units::Unit;
use std::collections::BTreeMap;
use std::sync::Arc;

/// Pours without any error, and water that is exactly as the rule has it.
pub(crate) const EXACT: Precision = Precision {
    jigger_ml: 0.0,
    jigger_share: 0.0,
    spoon_share: 0.0,
    dash_share: 0.0,
    scale_g: 0.0,
    piece_share: 0.0,
    rule_share: 0.0,
    custom_share: 0.0,
};

/// Pours with their ingredients and all that their errors are judged by.
#[derive(Clone)]
pub(crate) struct Case {
    pub pours: Vec<Pour>,
    pub items: Vec<Arc<Ingredient>>,
    pub technique: Technique,
    pub precision: Precision,
    pub weights: Weights,
}

impl Case {
    /// Pours of the built-in larder, shaken, with the usual errors.
    pub(crate) fn of(pours: Vec<Pour>) -> Self {
        let item = |pour: &Pour| match &pour.source {
            Source::Ingredient(id) => Arc::clone(&larder()[id]),
            other => panic!("{other:?} is no ingredient"),
        };
        Self {
            items: pours.iter().map(item).collect(),
            pours,
            technique: SHAKEN,
            precision: Precision::default(),
            weights: Weights::default(),
        }
    }

    /// Every figure exact at its typical value.
    pub(crate) fn with_exact_figures(self) -> Self {
        self.with_ranges(|_, range| Range::exact(range.typical))
    }

    /// Nothing uncertain but the model: every figure and every pour exact.
    pub(crate) fn all_exact(self) -> Self {
        Self {
            precision: EXACT,
            ..self.with_exact_figures()
        }
    }

    /// Every figure with another range; pours of one ingredient go on to share it.
    pub(crate) fn with_ranges(mut self, change: impl Fn(Figure, Range) -> Range) -> Self {
        let mut changed: BTreeMap<usize, Arc<Ingredient>> = BTreeMap::new();
        for item in &mut self.items {
            let place = Arc::as_ptr(item).addr();
            let fresh = changed.entry(place).or_insert_with(|| {
                let mut fresh = Ingredient::clone(item);
                for figure in Figure::ALL {
                    if let Some(range) = figure.of_mut(&mut fresh) {
                        *range = change(figure, *range);
                    }
                }
                Arc::new(fresh)
            });
            *item = Arc::clone(fresh);
        }
        self
    }

    /// Another range of one figure of a pour's ingredient, in all of its pours.
    pub(crate) fn with_range(mut self, pour: usize, figure: Figure, range: Range) -> Self {
        let old = Arc::clone(&self.items[pour]);
        let mut fresh = Ingredient::clone(&old);
        *figure.of_mut(&mut fresh) = Some(range);
        let fresh = Arc::new(fresh);
        for item in &mut self.items {
            if Arc::ptr_eq(item, &old) {
                *item = Arc::clone(&fresh);
            }
        }
        self
    }

    pub(crate) fn drink(&self) -> Drink {
        let resolved = self.pours.iter().zip(&self.items);
        let resolved = resolved.map(|(pour, item)| (pour, item, item.name.as_str()));
        Drink::of_pours(resolved, self.technique, &mut Pantry::default()).expect("it resolves")
    }

    pub(crate) fn point(&self) -> Point {
        Point::from(&self.drink().served().expect("it can be served"))
    }

    fn assumed<'a>(&'a self, senses: &'a Senses) -> Assumed<'a> {
        Assumed {
            pours: &self.pours,
            precision: &self.precision,
            weighings: &[],
            senses,
            weights: &self.weights,
        }
    }

    pub(crate) fn uncertainty(&self) -> Uncertainty {
        let drink = self.drink();
        let senses = Senses::default();
        let ph = figures(&drink).expect("it can be served").ph;
        let pantry = &mut Pantry::default();
        Uncertainty::of(&self.assumed(&senses), &drink, ph, pantry).expect("it can be served")
    }

    pub(crate) fn monte_carlo(&self, target: Option<Point>) -> MonteCarlo {
        let senses = Senses::default();
        let pantry = &mut Pantry::default();
        MonteCarlo::prepare(&self.assumed(&senses), &self.drink(), target, pantry)
            .expect("it can be served")
    }
}

/// A range of this share of the typical value to either side.
pub(crate) fn around(range: Range, share: f64) -> Range {
    Range {
        low: range.typical * (1.0 - share),
        high: range.typical * (1.0 + share),
        ..range
    }
}

/// A sour with small even errors everywhere, in which the model is as good as linear.
pub(crate) fn nearly_linear() -> Case {
    let mut case = Case::of(vec![
        ml("gin-london-dry", 60.0),
        ml("lime-juice", 22.5),
        ml("orange-liqueur-triple-sec", 15.0),
        ml("sugar-syrup-1-1", 10.0),
    ]);
    case.precision = Precision {
        jigger_ml: 0.2,
        jigger_share: 0.01,
        rule_share: 0.02,
        ..Precision::default()
    };
    case.with_ranges(|figure, range| match figure {
        // pH has no effect on the point, and its own effect on acids bends.
        Figure::Ph => Range::exact(range.typical),
        _ => around(range, 0.01),
    })
}

/// The same pour by weight.
pub(crate) fn grams(id: &str, grams: f64) -> Pour {
    Pour {
        amount: Amount::Grams(grams),
        unit: Unit::Gram,
        ..ml(id, 0.0)
    }
}

/// A sour without any error, of cold, weighed, floated and rinsed things; the ice spares melt.
pub(crate) fn exactly_varied() -> Case {
    let mut pours = vec![
        ml("gin-london-dry", 50.0),
        ml("lime-juice", 22.5),
        grams("sugar-syrup-1-1", 20.0),
        ml("wine-red", 15.0),
        ml("absinthe", 5.0),
        ml("amaro", 10.0),
    ];
    pours[1].place = Some(Place::Fridge);
    pours[3].added = Added::After;
    pours[4].added = Added::Rinse;
    let mut case = Case::of(pours).all_exact();
    for item in &mut case.items {
        // Where water is stated, more sugar first takes the place of other solids, then of water.
        Arc::make_mut(item).water_g = None;
    }
    case.technique.chilling = Chilling {
        ice_celsius: -10.0,
        ..Chilling::USUAL
    };
    case
}
