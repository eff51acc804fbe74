//! Drinks poured for tests from the built-in larder.

use equipour::balance::{Drink, Pantry};
use equipour::model::{
    Added, Amount, Basis, Dilution, Document, Ingredient, IngredientId, Lot, Method, Point, Pour,
    Role, Source, Spec, SpecId, Target, Technique, Trial, TrialId, Weighing,
};
use equipour::session::blank_spec;
use equipour::store::Builtin;
use equipour::units::Unit;
use proptest::prelude::*;
use std::collections::BTreeMap;
use std::sync::{Arc, OnceLock};

/// The spec and the trial that [`document`] makes.
pub(crate) const SPEC: SpecId = SpecId(1);
pub(crate) const TRIAL: TrialId = TrialId(2);

/// Everything that comes with the program.
pub(crate) fn builtin() -> &'static Arc<Builtin> {
    static BUILTIN: OnceLock<Arc<Builtin>> = OnceLock::new();
    BUILTIN.get_or_init(|| Arc::new(Builtin::load().expect("the built-in tables are sound")))
}

/// The built-in larder and plain water.
pub(crate) fn larder() -> &'static BTreeMap<IngredientId, Arc<Ingredient>> {
    static LARDER: OnceLock<BTreeMap<IngredientId, Arc<Ingredient>>> = OnceLock::new();
    LARDER.get_or_init(|| {
        let mut larder = builtin().larder.clone();
        let water = Ingredient {
            name: "water".to_owned(),
            kind: "water".to_owned(),
            basis: Basis::Per100G,
            water_g: Some(100.0),
            ..Ingredient::default()
        };
        larder.insert("water".into(), Arc::new(water));
        larder
    })
}

/// So many ml of an ingredient of the larder.
pub(crate) fn ml(id: &str, ml: f64) -> Pour {
    let id = IngredientId::from(id);
    Pour::of(&id, ml, larder()[&id].role)
}

/// The same pour, which the solver must leave alone.
pub(crate) fn locked(pour: Pour) -> Pour {
    Pour {
        locked: true,
        ..pour
    }
}

/// Shaken, diluted by the published rule.
pub(crate) const SHAKEN: Technique = Technique::new(Method::Shaken, Dilution::ByMethod);

/// Ingredients that pours of the larder need.
pub(crate) fn needed(pours: &[Pour]) -> BTreeMap<IngredientId, Arc<Ingredient>> {
    let ids = pours.iter().map(|pour| match &pour.source {
        Source::Ingredient(id) => id.clone(),
        other => panic!("{other:?} is no ingredient"),
    });
    ids.map(|id| (id.clone(), Arc::clone(&larder()[&id])))
        .collect()
}

/// Pours resolved to sums.
pub(crate) fn drink(pours: &[Pour], technique: Technique) -> Drink {
    let items = needed(pours);
    let resolved = pours.iter().map(|pour| match &pour.source {
        Source::Ingredient(id) => (pour, &items[id], items[id].name.as_str()),
        other => panic!("{other:?} is no ingredient"),
    });
    Drink::of_pours(resolved, technique, &mut Pantry::default()).expect("it resolves")
}

/// Where pours land.
pub(crate) fn point(pours: &[Pour], technique: Technique) -> Point {
    Point::from(&drink(pours, technique).served().expect("it can be served"))
}

/// A document with one drink of one trial.
pub(crate) fn document(pours: Vec<Pour>, technique: Technique, target: Option<Point>) -> Document {
    let trial = Trial::new(TRIAL, "Trial 1", technique, pours);
    Document {
        title: "Sample".to_owned(),
        next_number: 3,
        ingredients: needed(&trial.pours).into(),
        specs: vec![Spec {
            id: SPEC,
            name: "Sour".to_owned(),
            target: target.map(|point| Target {
                point,
                label: "aim".to_owned(),
                parts: Vec::new(),
            }),
            trials: vec![Arc::new(trial)],
            ..blank_spec().0
        }],
        ..Document::default()
    }
}

/// Gin, lime and syrup in the ratio 8:3:3 (common practice, no source).
pub(crate) fn sour() -> Vec<Pour> {
    vec![
        ml("gin-london-dry", 60.0),
        ml("lime-juice", 22.5),
        ml("sugar-syrup-1-1", 22.5),
    ]
}

/// Any way to chill and dilute.
pub(crate) fn any_technique() -> impl Strategy<Value = Technique> {
    let dilution = prop_oneof![
        3 => Just(Dilution::ByMethod),
        1 => (0.0..2.0_f64).prop_map(Dilution::Fraction),
        1 => (0.0..300.0_f64).prop_map(Dilution::IceGrams),
        1 => (50.0..200.0_f64, 0.0..200.0_f64).prop_map(|(before_g, water_g)| {
            Dilution::Weighed { before_g, after_g: before_g + water_g }
        }),
    ];
    let method = prop::sample::select(Method::ALL.to_vec());
    (method, dilution).prop_map(|(method, dilution)| Technique::new(method, dilution))
}

/// Any few things of the larder, by volume or by weight, on top of a spirit that is chilled.
pub(crate) fn any_pours() -> impl Strategy<Value = Vec<Pour>> {
    let ids = |wanted: &dyn Fn(&Ingredient) -> bool| -> Vec<IngredientId> {
        let items = larder().iter().filter(|(_, item)| wanted(item));
        items.map(|(id, _)| id.clone()).collect()
    };
    let spirit = prop::sample::select(ids(&|item| item.kind == "base spirit"));
    let others = prop::sample::select(ids(&|_| true));
    let added =
        prop_oneof![4 => Just(Added::With), 1 => Just(Added::After), 1 => Just(Added::Rinse)];
    let amount = prop_oneof![1 => Just(0.0), 9 => 0.01..120.0_f64];
    let other = (others, amount, any::<bool>(), added).prop_map(|(id, amount, weighed, added)| {
        let mut pour = Pour::of(&id, amount, Role::Other);
        if weighed {
            (pour.amount, pour.unit) = (Amount::Grams(amount), Unit::Gram);
        }
        pour.added = added;
        pour
    });
    (spirit, 1.0..90.0_f64, prop::collection::vec(other, 0..6)).prop_map(|(id, ml, mut pours)| {
        pours.insert(0, Pour::of(&id, ml, Role::Base));
        pours
    })
}

/// A drink of 100 g at 1 g/ml that weighs `after_g` once it has met ice at room temperature.
pub(crate) fn weighing(method: Method, strength_pct_vol: f64, after_g: f64) -> Weighing {
    Weighing {
        method,
        before_g: 100.0,
        after_g,
        strength_pct_vol,
        density_g_per_ml: 1.0,
        spared_g: 0.0,
        ice_g: None,
        seconds: None,
        on: String::new(),
        note: String::new(),
    }
}

/// A lot of an ingredient with figures of its own and without a reading.
pub(crate) fn lot(label: &str, ingredient: &str, of: &str) -> Lot {
    Lot {
        label: label.to_owned(),
        ingredient: ingredient.into(),
        of: Some(of.into()),
        made_on: String::new(),
        best_before: String::new(),
        measurements: Vec::new(),
        weighed_in: None,
        approved: false,
        note: String::new(),
    }
}
