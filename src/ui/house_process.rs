//! The figures that a process needs, each with its unit.

use super::house_draft::HouseDraft;
use super::house_fields::Figure;
use super::house_form::{Form, brix_figure, per_gram};
use crate::model::Process;
use eframe::egui::{Grid, Ui};

/// Most ml of gas per ml of liquid that make sense.
const MOST_OVERRUN: f64 = 100.0;

/// Shows the figures of a step's process.
pub(super) fn ui(ui: &mut Ui, (place, does): (usize, &mut Process), draft: &HouseDraft<'_>) {
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
                    most: MOST_OVERRUN,
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
