//! The figures that a process needs, each with its unit.

use super::house_draft::HouseDraft;
use super::house_fields::{Figure, release};
use super::naming::named;
use crate::model::{
    AcidProfile, Clarifier, DiluteTo, DryTo, IngredientId, Process, Range, ReduceTo, Retained,
};
use eframe::egui::{ComboBox, Grid, RichText, Ui};

/// Most grams per gram that make sense.
const MOST_PER_GRAM: f64 = 100.0;
/// Most °Bx: pure sugar.
const MOST_BRIX: f64 = 100.0;

/// Shows the figures of a step's process.
pub(super) fn ui(
    ui: &mut Ui,
    (place, does): (usize, &mut Process),
    draft: &HouseDraft<'_>,
) {
    let step = format!("step {}", place + 1);
    Grid::new("process").num_columns(2).show(ui, |ui| {
        let mut form = Form { ui, step: &step };
        match does {
            Process::Combine | Process::Dissolve | Process::Rest => {}
            Process::Soak {
                uptake,
                release: out,
            } => {
                form.range(
                    "Taken up",
                    per_gram("Liquid taken up", "Grams of liquid that one gram of solids takes up"),
                    uptake,
                );
                form.release(out);
            }
            Process::Infuse { release: out }
            | Process::Blend { release: out }
            | Process::FreezeThaw { release: out } => form.release(out),
            Process::Strain { retained } | Process::Press { retained } => form.retained(retained),
            Process::Juice {
                yielded,
                release: out,
                like,
            } => {
                form.range(
                    "Yield",
                    Figure::share("Juice yield", "Grams of juice out of 100 g that go in"),
                    yielded,
                );
                form.like(like, draft);
                form.release(out);
            }
            Process::Reduce { to, alcohol_left } => {
                form.reduce(to);
                let figure = Figure::share(
                    "Alcohol left",
                    "Share of the alcohol that is still there at the end; boiling drives most of it off",
                );
                form.figure("Alcohol left", figure, alcohol_left);
            }
            Process::Heat { steam } => {
                let figure = Figure::share("Steam", "Share of the mass that steams off");
                form.range("Steam", figure, steam);
            }
            Process::Dehydrate { to } => form.dry(to),
            Process::Clarify {
                with,
                dose_pct,
                takes_out,
                held_back,
            } => {
                form.clarifier(with);
                let figure = Figure {
                    unit: " g per 100 g",
                    decimals: 2,
                    ..Figure::share("Dose", "Grams of the agent per 100 g of the rest, for an agent taken as needed")
                };
                form.figure("Dose", figure, dose_pct);
                let figure = Figure::share(
                    "Held back",
                    "Share of the liquid that stays with what was taken out",
                );
                form.range("Held back", figure, held_back);
                form.release(takes_out);
            }
            Process::AdjustAcid { to } => form.acids(to),
            Process::SweetenTo { brix } => {
                let figure = brix_figure("Sugar is added up to these °Bx");
                form.figure("Up to", figure, brix);
            }
            Process::Dilute { to } => form.dilute(to),
            Process::SugarOnPeel {
                release: out,
                retained,
            } => {
                form.release(out);
                form.retained(retained);
            }
            Process::FatWash { fat_removed, held } => {
                let figure = Figure::share("Fat removed", "Share of the fat that comes off again when it is cold");
                form.figure("Fat removed", figure, fat_removed);
                let figure = per_gram("Spirit held", "Grams of spirit that stay in one gram of fat");
                form.range("Held", figure, held);
            }
            Process::Carbonate { bar, kept } => {
                let figure = Figure {
                    unit: " bar",
                    most: 20.0,
                    decimals: 2,
                    ..Figure::share("Pressure", "Pressure above that of the air, at the step's temperature")
                };
                form.figure("Pressure", figure, bar);
                let figure = Figure::share("Gas kept", "Share of the gas that is still there in the glass");
                form.range("Gas kept", figure, kept);
            }
            Process::Aerate { overrun } => {
                let figure = Figure {
                    unit: " ml per ml",
                    most: MOST_PER_GRAM,
                    decimals: 2,
                    ..Figure::share("Overrun", "Volume of gas per volume of liquid")
                };
                form.range("Overrun", figure, overrun);
            }
            Process::Stock { percent } => {
                let figure = Figure {
                    unit: " g in 100 g",
                    decimals: 3,
                    ..Figure::share("Strength of the stock", "Grams of what is worked on in 100 g of the stock")
                };
                form.figure("Strength", figure, percent);
            }
            Process::Divide { part } => {
                let figure = Figure::share("Part", "Share of the mass that goes into the part");
                form.figure("Part", figure, part);
            }
        }
    });
}

const fn per_gram<'a>(name: &'a str, teach: &'a str) -> Figure<'a> {
    Figure {
        name,
        teach,
        unit: " g/g",
        most: MOST_PER_GRAM,
        decimals: 2,
    }
}

const fn brix_figure(teach: &str) -> Figure<'_> {
    Figure {
        name: "°Bx to reach",
        teach,
        unit: " °Bx",
        most: MOST_BRIX,
        decimals: 1,
    }
}

/// Rows of a step's form, whose fields are named after the step.
struct Form<'a, 'u> {
    ui: &'u mut Ui,
    step: &'a str,
}

impl Form<'_, '_> {
    fn figure(&mut self, label: &str, figure: Figure<'_>, value: &mut f64) {
        let name = format!("{} of {}", figure.name, self.step);
        self.ui.label(label);
        Figure {
            name: &name,
            ..figure
        }
        .show(self.ui, value);
        self.ui.end_row();
    }

    fn range(&mut self, label: &str, figure: Figure<'_>, range: &mut Range) {
        let name = format!("{} of {}", figure.name, self.step);
        self.ui.label(label);
        Figure {
            name: &name,
            ..figure
        }
        .range(self.ui, range);
        self.ui.end_row();
    }

    fn release(&mut self, out: &mut crate::model::Release) {
        self.ui.label("Passes over");
        let of = format!("Passes over in {}", self.step);
        release(self.ui, &of, out);
        self.ui.end_row();
    }

    /// A list of choices, told apart by their words.
    fn choice<T: Copy>(
        &mut self,
        (label, teach): (&str, &str),
        value: &mut T,
        choices: &[T],
        words: impl Fn(&T) -> &'static str,
    ) {
        self.ui.label(label);
        let name = format!("{label} of {}", self.step);
        let combo = ComboBox::from_id_salt(label)
            .selected_text(words(value))
            .show_ui(self.ui, |ui| {
                for choice in choices {
                    let chosen = words(choice) == words(value);
                    if ui.selectable_label(chosen, words(choice)).clicked() && !chosen {
                        *value = *choice;
                    }
                }
            });
        named(combo.response, &name, teach);
        self.ui.end_row();
    }

    fn retained(&mut self, retained: &mut Retained) {
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
        let about = ("Liquid", "Said by what stays in the solids, or by what came out when it was weighed");
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

    fn reduce(&mut self, to: &mut ReduceTo) {
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
        self.choice(("Down to", "How far it is boiled down"), to, &choices, words);
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
            ReduceTo::Brix(brix) => self.figure("Left", brix_figure("Boiled until it shows these °Bx"), brix),
        }
    }

    fn dry(&mut self, to: &mut DryTo) {
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

    fn clarifier(&mut self, with: &mut Clarifier) {
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
        let about = ("With", "What takes the cloud out; milk and egg stay declared as allergens");
        self.choice(about, with, &choices, words);
    }

    fn acids(&mut self, to: &mut AcidProfile) {
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
        self.choice(("Acids", "The acids to reach, g per 100 ml"), to, &choices, words);
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

    fn dilute(&mut self, to: &mut DiluteTo) {
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
            DiluteTo::Brix(brix) => self.figure("Until", brix_figure("Diluted until it shows these °Bx"), brix),
            DiluteTo::Parts(parts) => {
                let figure = per_gram("Parts", "Grams of liquid per gram of what is diluted");
                self.figure("Parts", figure, parts);
            }
        }
    }

    /// An ingredient that the juice is known to be like.
    fn like(&mut self, like: &mut Option<IngredientId>, draft: &HouseDraft<'_>) {
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
