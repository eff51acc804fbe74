//! Seeded questions and documents to measure.

use equipour::balance::{Assumed, Drink, Pantry};
use equipour::model::{
    Document, Ingredient, IngredientId, Point, Pour, Price, Role, ScaleRule, Spec, Target, Trial,
    TrialId,
};
use equipour::rebalance::Question;
use equipour::session::{Edit, Session, blank_spec};
use equipour::store::{Builtin, DEMO, read_text};
use std::sync::Arc;

/// A small generator of numbers, always the same for the same seed (Lehmer, Park and Miller 1988).
pub(crate) struct Seeds(u64);

impl Seeds {
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed % 2_147_483_647)
    }

    /// The next number in 0 to 1.
    pub(crate) fn next(&mut self) -> f64 {
        self.0 = self.0 * 48_271 % 2_147_483_647;
        self.0 as f64 / 2_147_483_647.0
    }
}

/// The demo document.
pub(crate) fn demo() -> Document {
    read_text(DEMO).expect("the demo is sound").document
}

const POURED: [(&str, f64, Role); 12] = [
    ("gin-london-dry", 40.0, Role::Base),
    ("lemon-juice", 20.0, Role::Sour),
    ("sugar-syrup-1-1", 12.5, Role::Sweet),
    ("orange-liqueur-triple-sec", 10.0, Role::Modifier),
    ("vermouth-dry", 10.0, Role::Modifier),
    ("pineapple-juice", 15.0, Role::Length),
    ("raspberry-syrup", 5.0, Role::Sweet),
    ("lime-juice", 5.0, Role::Sour),
    ("amaro", 5.0, Role::Modifier),
    ("orange-juice", 10.0, Role::Length),
    ("egg-white", 15.0, Role::Body),
    ("aromatic-bitters", 0.92, Role::Aroma),
];

fn document_of(pours: usize, amounts: impl FnMut(f64) -> f64) -> (Document, Spec, Trial) {
    let builtin = Builtin::load().expect("the tables are sound");
    let mut amounts = amounts;
    let (mut spec, _) = blank_spec();
    let mut trial = Trial::clone(&spec.trials[0]);
    let mut document = Document::default();
    for (name, ml, role) in POURED.iter().take(pours) {
        let id = IngredientId::from(*name);
        Arc::make_mut(&mut document.ingredients)
            .insert(id.clone(), Arc::clone(&builtin.larder[&id]));
        trial.pours.push(Pour::of(&id, amounts(*ml), *role));
    }
    spec.id = equipour::model::SpecId(1);
    trial.id = TrialId(2);
    document.next_number = 3;
    spec.trials = vec![Arc::new(trial.clone())];
    document.specs.push(spec.clone());
    (document, spec, trial)
}

/// A trial of twelve pours.
pub(crate) fn twelve_pours() -> (Document, Spec, Trial) {
    document_of(12, |ml| ml)
}

/// A seeded question: amounts off by up to 40 %, a target off by up to e^±0.4 on each axis.
pub(crate) fn question(seeds: &mut Seeds, unlocked: usize) -> Question {
    stepped(seeds, unlocked, None)
}

/// The same as the window asks it: with prices, and with the errors of figures and of pouring.
pub(crate) fn as_on_screen(seeds: &mut Seeds, unlocked: usize) -> Question {
    asked(seeds, unlocked, None, true)
}

/// The same in steps of so many ml.
pub(crate) fn stepped(seeds: &mut Seeds, unlocked: usize, step: Option<f64>) -> Question {
    asked(seeds, unlocked, step, false)
}

fn asked(seeds: &mut Seeds, unlocked: usize, step: Option<f64>, whole: bool) -> Question {
    let (mut document, mut spec, mut trial) = document_of(unlocked, |ml| {
        (ml * (0.6 + 0.8 * seeds.next()) / 2.5).round().max(1.0) * 2.5
    });
    for pour in &mut trial.pours {
        pour.step = step;
    }
    if whole {
        for (place, (id, _, _)) in POURED.iter().enumerate() {
            let items = Arc::make_mut(&mut document.ingredients);
            if let Some(item) = items.get_mut(&IngredientId::from(*id)) {
                Arc::make_mut(item).price = Some(Price {
                    pack_price: 4.0 + 7.0 * ((5 * place) % 4) as f64,
                    pack_size: 700.0,
                    pack_is_mass: false,
                });
            }
        }
    }
    let mut pantry = Pantry::default();
    let drink = Drink::of_trial(&document, &trial, &mut pantry).expect("it resolves");
    let here = Point::from(&drink.served().expect("it is served"));
    let mut off = |value: f64| value * (0.8 * seeds.next() - 0.4).exp();
    spec.target = Some(Target {
        point: Point {
            sweet_g_per_l: off(here.sweet_g_per_l),
            sour_g_per_l: off(here.sour_g_per_l),
            strength_pct_vol: off(here.strength_pct_vol),
            bitter_per_ml: 0.0,
        },
        label: String::new(),
        parts: Vec::new(),
    });
    spec.balancing.scale_rule = ScaleRule::PouredTotal;
    let question = Question::of_trial(&document, &spec, &trial, drink);
    let question = question.expect("it is a sound question");
    if !whole {
        return question;
    }
    let assumed = Assumed {
        pours: &trial.pours,
        precision: &document.precision,
        weighings: &document.weighings,
        senses: &document.senses,
        weights: &spec.balancing.weights,
    };
    question.with_errors(&assumed, &mut pantry)
}

/// The demo with 300 trials and 2000 ingredients.
pub(crate) fn crowded(trials: usize) -> Document {
    let mut document = demo();
    let builtin = Builtin::load().expect("the tables are sound");
    let generic: Vec<&Arc<Ingredient>> = builtin.larder.values().collect();
    for number in 0..2000 {
        let item = generic[number % generic.len()];
        Arc::make_mut(&mut document.ingredients)
            .insert(IngredientId(format!("more-{number}")), Arc::clone(item));
    }
    // The drink that the document opens with.
    let spec = document.specs.last_mut().expect("the demo has drinks");
    let mut seeds = Seeds::new(7);
    while spec.trials.len() < trials {
        let last = spec.trials.last().expect("the demo has trials");
        let mut trial = Trial::clone(last);
        trial.parent = Some(last.id);
        trial.id = TrialId(document.next_number);
        trial.name = format!("Trial {}", spec.trials.len() + 1);
        document.next_number += 1;
        for pour in &mut trial.pours {
            let value = pour.amount.value().unwrap_or(0.0);
            pour.amount = pour.amount.with_value(value * (0.9 + 0.2 * seeds.next()));
        }
        spec.trials.push(Arc::new(trial));
    }
    document
}

/// A session on a document.
pub(crate) fn session(document: Document) -> Session {
    let builtin = Builtin::load().expect("the tables are sound");
    Session::new(Arc::new(builtin), document)
}

/// Moves the first pour of the trial on screen and brings everything up to date.
pub(crate) fn move_first_pour(session: &mut Session, number: usize) {
    let trial = Arc::clone(session.trial().expect("a trial is on screen"));
    let amount = trial.pours[0]
        .amount
        .with_value(40.0 + (number % 9) as f64 * 2.5);
    let edit = Edit::SetAmount {
        trial: trial.id,
        pour: 0,
        amount,
        unit: trial.pours[0].unit,
    };
    session.edit(&edit).expect("a draft may change");
    session.refresh();
}
