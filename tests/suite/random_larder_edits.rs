//! Edits of the larder drawn at random: ingredients, lots, weighings, precision, what pours pin.

use crate::random_edits::Draw;
use crate::sample_drinks::larder;
use equipour::model::{
    Document, Ingredient, IngredientId, Lot, LotId, Measurement, Method, Place, Precision, Reading,
    Source, TrialId, Weighing,
};
use equipour::session::{Edit, LarderEdit};
use std::sync::Arc;

/// Names that draws give to lots; few, so that they meet again.
const LOTS: [&str; 4] = ["monday", "tuesday", "wednesday", "monday-own"];
const DAYS: [&str; 5] = ["", "2026-05-04", "2026-05-12", "2026-06-01", "yesterday"];

impl Draw {
    /// A row of the document, now and then one that it lacks.
    fn held(&self, document: &Document) -> IngredientId {
        let count = document.ingredients.len() + 1;
        let found = document.ingredients.keys().nth(self.which % count);
        found.cloned().unwrap_or_else(|| self.ingredient())
    }

    fn lot_id(&self) -> LotId {
        LotId::from(*self.one_of(&LOTS))
    }

    /// A lot of the document, now and then one that it lacks.
    fn known_lot(&self, document: &Document) -> LotId {
        let known = document.lots.keys().nth(self.which % LOTS.len());
        known.cloned().unwrap_or_else(|| self.lot_id())
    }

    /// What a pour may be poured from, some of which is not there.
    fn source(&self, document: &Document) -> Source {
        if self.settles {
            Source::Lot(self.known_lot(document))
        } else {
            Source::Ingredient(self.held(document))
        }
    }

    fn lot(&self, document: &Document) -> LarderEdit {
        let id = self.lot_id();
        let of = self.held(document);
        let reading = match self.which % 3 {
            0 => Reading::Brix(self.value),
            1 => Reading::Ph(self.value / 20.0),
            _ => Reading::Titration {
                sample_ml: 5.0,
                titrant_ml: self.value,
                normality: 0.1,
            },
        };
        // Now and then on the row of another lot, or on the row that it is a batch of.
        let ingredient = match self.which % 7 {
            0 => of.clone(),
            1 => IngredientId::from(LOTS[3]),
            _ => IngredientId(format!("{}-own", id.0)),
        };
        let figures = document.ingredients.get(&of);
        let mut item = figures.map_or_else(
            || Ingredient::clone(&larder()[&"lime-juice".into()]),
            |item| Ingredient::clone(item),
        );
        item.name.clone_from(&self.text);
        let lot = Lot {
            label: self.text.clone(),
            ingredient,
            of: (!self.which.is_multiple_of(5)).then_some(of),
            made_on: (*self.one_of(&DAYS)).to_owned(),
            best_before: DAYS[(self.which / 3) % DAYS.len()].to_owned(),
            measurements: vec![Measurement {
                reading,
                on: String::new(),
            }],
            weighed_in: None,
            approved: self.settles,
            note: self.text.clone(),
        };
        LarderEdit::SetLot {
            id,
            lot,
            ingredient: Arc::new(item),
            pour_in: None,
        }
    }

    fn added(&self) -> LarderEdit {
        let id = self.ingredient();
        let mut rows = vec![(id.clone(), Arc::clone(&larder()[&id]))];
        if self.settles {
            let mut item = Ingredient::clone(&larder()[&id]);
            item.name.clone_from(&self.text);
            rows.push((IngredientId(format!("{}-2", id.0)), Arc::new(item)));
        }
        LarderEdit::Add(rows)
    }

    fn weighing(&self) -> LarderEdit {
        LarderEdit::AddWeighing(Weighing {
            method: *self.one_of(&Method::ALL),
            before_g: 90.0,
            after_g: 60.0 + self.value,
            strength_pct_vol: self.value / 2.0,
            density_g_per_ml: 0.98,
            spared_g: 0.0,
            ice_g: self.settles.then_some(self.value),
            seconds: None,
            on: DAYS[self.which % DAYS.len()].to_owned(),
            note: self.text.clone(),
        })
    }

    /// The edit of the larder, or of what a pour takes from it, that this draw stands for.
    pub(crate) fn edit_of_the_larder(
        &self,
        document: &Document,
        trial: TrialId,
        pour: usize,
    ) -> Edit {
        let edit = match self.kind {
            26 => {
                return Edit::SetPlace {
                    trial,
                    pour: (!self.other.is_multiple_of(3)).then_some(pour),
                    place: (!self.which.is_multiple_of(4)).then_some(*self.one_of(&Place::ALL)),
                };
            }
            27 | 28 | 33 => {
                let source = self.source(document);
                return Edit::SetSource {
                    trial,
                    pour,
                    source,
                };
            }
            29 => self.added(),
            30 | 31 => LarderEdit::Remove(self.held(document)),
            32 => LarderEdit::RemoveLot(self.known_lot(document)),
            34 => self.weighing(),
            35 => LarderEdit::RemoveWeighing(self.other % (document.weighings.len() + 1)),
            36 => LarderEdit::SetCalibrated {
                method: *self.one_of(&Method::ALL),
                on: self.settles,
            },
            37 => LarderEdit::SetPrecision(Precision {
                jigger_ml: self.value,
                rule_share: self.value / 100.0,
                ..Precision::default()
            }),
            _ => self.lot(document),
        };
        Edit::Larder(edit)
    }
}
