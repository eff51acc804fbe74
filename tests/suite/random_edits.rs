//! Edits drawn at random, sensible ones and some that must be refused.

use crate::sample_drinks::{larder, ml};
use equipour::model::{
    Added, Amount, Balancing, Bound, Bounded, Bounds, Dilution, Document, Glass, IngredientId,
    MadeBy, Method, Point, Role, ScaleRule, Senses, Target, Technique, TrialId, TrialState,
    Weights,
};
use equipour::rebalance::Change;
use equipour::session::{
    Edit, RemedyEdit, SwapEdit, blank_spec, spec_from_classic, spec_from_family,
};
use equipour::units::{Measures, Unit};
use proptest::prelude::*;
use std::sync::Arc;

/// A draw from which an edit of any document is made.
#[derive(Clone, Debug)]
pub(crate) struct Draw {
    pub(crate) kind: u8,
    pub(crate) which: usize,
    pub(crate) other: usize,
    pub(crate) value: f64,
    pub(crate) text: String,
    /// The pointer was released before this edit.
    pub(crate) settles: bool,
}

/// Draws of every kind; amounts include 0, texts any unicode.
pub(crate) fn any_draws(most: usize) -> impl Strategy<Value = Vec<Draw>> {
    let value = prop_oneof![
        6 => 0.0..150.0_f64,
        2 => Just(0.0),
        1 => Just(f64::NAN),
        1 => -5.0..0.0_f64,
        1 => 1.0e-7..1.0e-3_f64,
    ];
    let text = prop_oneof![
        Just(String::new()),
        "\\PC{0,12}",
        any::<String>(),
        Just("Piña \"colada\"\\\n\t\u{0}\u{202e}🍹e\u{301}".to_owned()),
    ];
    let draw = (
        0..72_u8,
        any::<usize>(),
        any::<usize>(),
        value,
        text,
        any::<bool>(),
    );
    prop::collection::vec(draw, 0..most).prop_map(|draws| {
        draws
            .into_iter()
            .map(|(kind, which, other, value, text, settles)| Draw {
                kind,
                which,
                other,
                value,
                text,
                settles,
            })
            .collect()
    })
}

impl Draw {
    pub(crate) fn one_of<'a, T>(&self, items: &'a [T]) -> &'a T {
        &items[self.other % items.len()]
    }

    pub(crate) fn ingredient(&self) -> IngredientId {
        let place = self.other % larder().len();
        larder().keys().nth(place).expect("it is within").clone()
    }

    fn trial(&self, document: &Document) -> TrialId {
        let mut all = document.specs.iter().flat_map(|spec| &spec.trials);
        let count = all.clone().count();
        let found = all.nth(self.which % count.max(1));
        found.map_or(TrialId(0), |trial| trial.id)
    }

    /// A place among a trial's pours, now and then one past the end.
    fn pour(&self, document: &Document) -> usize {
        let pours = document
            .trial(self.trial(document))
            .map_or(0, |(_, t)| t.pours.len());
        (self.which / 7) % (pours + 1)
    }

    fn amount(&self) -> (Amount, Unit) {
        match self.other % 9 {
            0 => (Amount::Grams(self.value), Unit::Gram),
            1 => (Amount::Pieces(self.value), Unit::Piece),
            2 => (Amount::Words(self.text.clone()), Unit::Piece),
            3 => (Amount::Ml(self.value), Unit::Oz),
            _ => (Amount::Ml(self.value), Unit::Ml),
        }
    }

    fn technique(&self) -> Technique {
        let dilution = match self.which % 5 {
            0 => Dilution::Fraction(self.value / 30.0),
            1 => Dilution::IceGrams(self.value),
            2 => Dilution::Weighed {
                before_g: self.value,
                after_g: self.value * 1.25,
            },
            _ => Dilution::ByMethod,
        };
        Technique::new(*self.one_of(&Method::ALL), dilution)
    }

    /// The edit that this draw stands for in `document`.
    pub(crate) fn edit(&self, document: &Document) -> Edit {
        let (trial, pour) = (self.trial(document), self.pour(document));
        match self.kind {
            0..=5 => {
                let (amount, unit) = self.amount();
                Edit::SetAmount {
                    trial,
                    pour,
                    amount,
                    unit,
                }
            }
            6 => Edit::SetLocked {
                trial,
                pour,
                locked: self.settles,
            },
            7 => Edit::SetRole {
                trial,
                pour,
                role: *self.one_of(&Role::ALL),
            },
            8 => {
                let added = *self.one_of(&[Added::With, Added::After, Added::Rinse]);
                Edit::SetAdded { trial, pour, added }
            }
            9 => Edit::SetLimits {
                trial,
                pour,
                step: (self.value > 1.0).then_some(self.value),
                minimum: self.other.is_multiple_of(3).then_some(self.value),
                maximum: self.other.is_multiple_of(2).then_some(self.value + 10.0),
                off: self.settles,
            },
            10 => {
                let id = self.ingredient();
                let mut pour = ml(&id.0, 0.0);
                (pour.amount, pour.unit) = self.amount();
                pour.note.clone_from(&self.text);
                let ingredient = Some((id.clone(), Arc::clone(&larder()[&id])));
                Edit::AddPour {
                    trial,
                    pour,
                    ingredient,
                }
            }
            11 => Edit::RemovePour { trial, pour },
            12 => Edit::MovePour {
                trial,
                from: pour,
                to: self.other % 4,
            },
            13 => {
                let id = self.ingredient();
                let ingredient = Arc::clone(&larder()[&id]);
                Edit::Swap {
                    trial,
                    pour,
                    id,
                    ingredient,
                }
            }
            14 => Edit::SetTechnique {
                trial,
                technique: self.technique(),
            },
            15 => {
                let state =
                    *self.one_of(&[TrialState::Draft, TrialState::Tasted, TrialState::Submitted]);
                Edit::SetState { trial, state }
            }
            16 | 17 => {
                let changes = vec![Change {
                    pour,
                    from: 0.0,
                    to: self.value,
                }];
                if self.kind == 16 {
                    Edit::GrowTrial {
                        from: trial,
                        reason: self.text.clone(),
                        changes,
                        made_by: MadeBy::Proposal(self.text.clone()),
                    }
                } else {
                    Edit::ApplyChanges {
                        trial,
                        changes,
                        label: self.text.clone(),
                    }
                }
            }
            19..=25 | 44 | 45 => self.edit_beyond_a_trial(document),
            18 | 46.. => self.taken_over(document, trial, pour),
            _ => self.edit_of_the_larder(document, trial, pour),
        }
    }

    fn taken_over(&self, document: &Document, trial: TrialId, pour: usize) -> Edit {
        match self.kind {
            18 => Edit::DescribeTrial {
                trial,
                name: self.text.clone(),
                reason: self.text.clone(),
                verdict: self.text.clone(),
            },
            46 | 47 => self.swapped(document, trial),
            48 | 49 => self.remedied(document, trial),
            60.. => self.edit_of_trials(document, trial, pour),
            _ => self.edit_of_the_house(document, trial, pour),
        }
    }

    /// One pour becomes two of any ingredient, in this trial or in a new one.
    fn swapped(&self, document: &Document, trial: TrialId) -> Edit {
        let id = self.ingredient();
        let ingredients = vec![(id.clone(), Arc::clone(&larder()[&id]))];
        let mut pours = document
            .trial(trial)
            .map_or_else(Vec::new, |(_, trial)| trial.pours.clone());
        pours.pop();
        for _ in 0..2 {
            let mut pour = ml(&id.0, 0.0);
            (pour.amount, pour.unit) = self.amount();
            pours.push(pour);
        }
        Edit::Swapped(if self.kind == 46 {
            SwapEdit::Take {
                trial,
                pours,
                ingredients,
                label: self.text.clone(),
            }
        } else {
            SwapEdit::Grow {
                from: trial,
                pours,
                ingredients,
                reason: self.text.clone(),
                label: self.text.clone(),
            }
        })
    }

    /// One pour more, another technique and no limits, in this trial or in a new one.
    fn remedied(&self, document: &Document, trial: TrialId) -> Edit {
        let id = self.ingredient();
        let mut pours = document
            .trial(trial)
            .map_or_else(Vec::new, |(_, trial)| trial.pours.clone());
        let mut pour = ml(&id.0, 0.0);
        (pour.amount, pour.unit) = self.amount();
        pours.push(pour);
        Edit::Remedied(RemedyEdit {
            trial,
            grow: (self.kind == 49).then(|| self.text.clone()),
            pours,
            technique: self.technique(),
            bounds: Bounds::default(),
            scale_rule: *self.one_of(&ScaleRule::ALL),
            ingredients: vec![(id.clone(), Arc::clone(&larder()[&id]))],
            label: self.text.clone(),
        })
    }

    fn edit_beyond_a_trial(&self, document: &Document) -> Edit {
        let specs = &document.specs;
        let spec = specs.get(self.which % (specs.len() + 1));
        let spec = spec.map_or(equipour::model::SpecId(0), |spec| spec.id);
        match self.kind {
            19 => {
                let glass = Glass {
                    name: self.text.clone(),
                    capacity_ml: self.value,
                    ice_share: self.value / 200.0,
                    ..Glass::default()
                };
                Edit::SetGlass { spec, glass }
            }
            20 => {
                let point = Point {
                    sweet_g_per_l: self.value,
                    sour_g_per_l: self.value / 10.0,
                    strength_pct_vol: 20.0,
                    bitter_per_ml: 0.0,
                };
                let target = Target {
                    point,
                    label: self.text.clone(),
                    parts: Vec::new(),
                };
                Edit::SetTarget {
                    spec,
                    target: (!self.other.is_multiple_of(4)).then_some(target),
                }
            }
            21 => {
                let balancing = Balancing {
                    weights: Weights {
                        sweet: self.value,
                        ..Weights::default()
                    },
                    scale_rule: *self.one_of(&ScaleRule::ALL),
                    ..Balancing::default()
                };
                Edit::SetBalancing { spec, balancing }
            }
            22 => self.a_drink_more_or_less(spec),
            23 => {
                let id = self.ingredient();
                let mut item = equipour::model::Ingredient::clone(&larder()[&id]);
                item.name.clone_from(&self.text);
                item.bitter_per_ml = Some(self.value);
                Edit::SetIngredient {
                    id,
                    ingredient: Arc::new(item),
                }
            }
            24 => {
                let measures = Measures {
                    dash_ml: self.value,
                    ..Measures::default()
                };
                let mut senses = Senses::default();
                senses.sour.weber = self.value;
                if self.settles {
                    Edit::SetMeasures { measures }
                } else {
                    Edit::SetSenses { senses }
                }
            }
            44 => self.limits(spec),
            45 => Edit::SetJiggers {
                jiggers_ml: (1..=self.other % 27)
                    .map(|size| size as f64 * self.value)
                    .collect(),
            },
            _ => Edit::SetTitle {
                title: self.text.clone(),
            },
        }
    }

    fn limits(&self, spec: equipour::model::SpecId) -> Edit {
        let bound = Bound {
            on: self.settles,
            least: self.which.is_multiple_of(2).then_some(self.value),
            most: self.other.is_multiple_of(2).then_some(self.value + 5.0),
        };
        let mut bounds = Bounds {
            glass: !self.settles,
            ..Bounds::default()
        };
        *bounds.of_mut(*self.one_of(&Bounded::ALL)) = bound;
        Edit::SetBounds { spec, bounds }
    }

    fn a_drink_more_or_less(&self, spec: equipour::model::SpecId) -> Edit {
        let builtin = crate::sample_drinks::builtin();
        let mut pantry = equipour::balance::Pantry::default();
        let (new, ingredients) = match self.other % 5 {
            0 => return Edit::RemoveSpec { spec },
            1 => {
                return Edit::RenameSpec {
                    spec,
                    name: self.text.clone(),
                };
            }
            2 => blank_spec(),
            3 => spec_from_family(builtin, self.one_of(&builtin.families), &mut pantry),
            _ => spec_from_classic(builtin, self.one_of(&builtin.classics), &mut pantry),
        };
        Edit::AddSpec {
            spec: Box::new(new),
            ingredients,
        }
    }
}
