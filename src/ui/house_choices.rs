//! Ways in which a process can be told how far to go, each with its figure.

use super::house_draft::HouseDraft;
use super::house_fields::Figure;
use super::house_form::{Form, brix_figure, per_gram};
use super::naming::named;
use crate::model::{
    AcidProfile, Clarifier, DiluteTo, DryTo, IngredientId, Range, ReduceTo, Retained,
};
use eframe::egui::{ComboBox, RichText};

impl Form<'_, '_> {
    pub(super) fn retained(&mut self, retained: &mut Retained) {
        let choices = [
            Retained::PerGram(Range {
                low: 0.5,
                typical: 1.0,
                high: 1.5,
            }),
            Retained::Yield(Range {
                low: 0.6,
                typical: 0.7,
                high: 0.8,
            }),
        ];
        let words = |choice: &Retained| match choice {
            Retained::PerGram(_) => "stays per gram of solids",
            Retained::Yield(_) => "yield by weight",
        };
        let about = (
            "Liquid",
            "Said by what stays in the solids, or by what came out when it was weighed",
        );
        self.choice(about, retained, &choices, words);
        match retained {
            Retained::PerGram(range) => {
                let teach = "Grams of liquid that stay in one gram of wrung or swollen solids";
                self.range("Stays", per_gram("Liquid that stays", teach), range);
            }
            Retained::Yield(range) => {
                let teach = "Grams of liquid out of 100 g that go in";
                self.range("Yield", Figure::share("Yield", teach), range);
            }
        }
    }

    pub(super) fn reduce(&mut self, to: &mut ReduceTo) {
        let choices = [
            ReduceTo::Share(0.5),
            ReduceTo::Grams(500.0),
            ReduceTo::Ml(500.0),
            ReduceTo::Brix(65.0),
        ];
        let words = |choice: &ReduceTo| match choice {
            ReduceTo::Share(_) => "share of the mass",
            ReduceTo::Grams(_) => "mass",
            ReduceTo::Ml(_) => "volume",
            ReduceTo::Brix(_) => "°Bx",
        };
        self.choice(
            ("Down to", "How far it is boiled down"),
            to,
            &choices,
            words,
        );
        let left = |unit| Figure {
            unit,
            most: 1.0e6,
            ..Figure::share("Left after boiling", "What is left at the end")
        };
        match to {
            ReduceTo::Share(share) => {
                let figure = Figure::share("Left after boiling", "Share of the mass that is left");
                self.figure("Left", figure, share);
            }
            ReduceTo::Grams(grams) => self.figure("Left", left(" g"), grams),
            ReduceTo::Ml(ml) => self.figure("Left", left(" ml"), ml),
            ReduceTo::Brix(brix) => {
                self.figure("Left", brix_figure("Boiled until it shows these °Bx"), brix);
            }
        }
    }

    pub(super) fn dry(&mut self, to: &mut DryTo) {
        let choices = [
            DryTo::Moisture(Range {
                low: 0.1,
                typical: 0.15,
                high: 0.2,
            }),
            DryTo::Grams(100.0),
        ];
        let words = |choice: &DryTo| match choice {
            DryTo::Moisture(_) => "moisture",
            DryTo::Grams(_) => "mass",
        };
        self.choice(("Down to", "How far it is dried"), to, &choices, words);
        match to {
            DryTo::Moisture(range) => {
                let figure = Figure::share("Moisture", "Water as a share of what is left");
                self.range("Moisture", figure, range);
            }
            DryTo::Grams(grams) => {
                let figure = Figure {
                    unit: " g",
                    most: 1.0e6,
                    ..Figure::share("Left after drying", "Mass that is left at the end")
                };
                self.figure("Left", figure, grams);
            }
        }
    }

    pub(super) fn clarifier(&mut self, with: &mut Clarifier) {
        let choices = [
            Clarifier::Agar,
            Clarifier::Gelatin,
            Clarifier::Milk,
            Clarifier::Egg,
            Clarifier::Settling,
        ];
        let words = |choice: &Clarifier| match choice {
            Clarifier::Agar => "agar",
            Clarifier::Gelatin => "gelatin, frozen and thawed",
            Clarifier::Milk => "milk",
            Clarifier::Egg => "egg white",
            Clarifier::Settling => "time, centrifuge or filter",
        };
        let about = (
            "With",
            "What takes the cloud out; milk and egg stay declared as allergens",
        );
        self.choice(about, with, &choices, words);
    }

    pub(super) fn acids(&mut self, to: &mut AcidProfile) {
        let choices = [
            AcidProfile::Lime,
            AcidProfile::Lemon,
            AcidProfile::Own {
                citric: 4.0,
                malic: 2.0,
                tartaric: 0.0,
            },
        ];
        let words = |choice: &AcidProfile| match choice {
            AcidProfile::Lime => "lime: 4 citric, 2 malic",
            AcidProfile::Lemon => "lemon: 6 citric",
            AcidProfile::Own { .. } => "own",
        };
        self.choice(
            ("Acids", "The acids to reach, g per 100 ml"),
            to,
            &choices,
            words,
        );
        self.own_acids(to);
    }

    fn own_acids(&mut self, to: &mut AcidProfile) {
        if let AcidProfile::Own {
            citric,
            malic,
            tartaric,
        } = to
        {
            for (label, name, value) in [
                ("Citric", "Citric acid", citric),
                ("Malic", "Malic acid", malic),
                ("Tartaric", "Tartaric acid", tartaric),
            ] {
                let figure = Figure {
                    unit: " g per 100 ml",
                    decimals: 2,
                    ..Figure::share(name, "What it holds in the end, g per 100 ml")
                };
                self.figure(label, figure, value);
            }
        }
    }

    pub(super) fn dilute(&mut self, to: &mut DiluteTo) {
        let choices = [
            DiluteTo::PercentVol(20.0),
            DiluteTo::Brix(50.0),
            DiluteTo::Parts(1.0),
        ];
        let words = |choice: &DiluteTo| match choice {
            DiluteTo::PercentVol(_) => "% vol",
            DiluteTo::Brix(_) => "°Bx",
            DiluteTo::Parts(_) => "parts by weight",
        };
        self.choice(("Down to", "How far it is diluted"), to, &choices, words);
        match to {
            DiluteTo::PercentVol(strength) => {
                let figure = Figure {
                    unit: " % vol",
                    ..Figure::share("Strength to reach", "Strength at 20 °C in the end")
                };
                self.figure("Until", figure, strength);
            }
            DiluteTo::Brix(brix) => self.figure(
                "Until",
                brix_figure("Diluted until it shows these °Bx"),
                brix,
            ),
            DiluteTo::Parts(parts) => {
                let figure = per_gram("Parts", "Grams of liquid per gram of what is diluted");
                self.figure("Parts", figure, parts);
            }
        }
    }

    /// An ingredient that the juice is known to be like.
    pub(super) fn like(&mut self, like: &mut Option<IngredientId>, draft: &HouseDraft<'_>) {
        let rows = &draft.session.document().ingredients;
        let name = |id: &IngredientId| rows.get(id).map_or("?", |item| item.name.as_str());
        let shown = like.as_ref().map_or("its own figures", name).to_owned();
        self.ui.label("Is like");
        let combo = ComboBox::from_id_salt("like")
            .selected_text(RichText::new(shown))
            .show_ui(self.ui, |ui| {
                ui.selectable_value(like, None, "its own figures");
                for (id, item) in rows.iter().filter(|(_, item)| item.kind == "juice") {
                    ui.selectable_value(like, Some(id.clone()), &item.name);
                }
            });
        let teach = "A juice of this document that says what the juice holds, where the whole fruit is not analysed";
        let name = format!("Juice that {} is like", self.step);
        named(combo.response, &name, teach);
        self.ui.end_row();
    }
}
