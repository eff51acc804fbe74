//! The figures that a process needs, each with its unit.

use super::house_draft::HouseDraft;
use super::house_fields::Figure;
use super::house_form::{Form, brix_figure, per_gram};
use crate::model::Process;
use eframe::egui::{Grid, Ui};

/// Most ml of gas per ml of liquid that make sense.
const MOST_OVERRUN: f64 = 100.0;
/// Most pressure that a vessel of a bar holds, bar above the air; a document takes no more.
const MOST_BAR: f64 = 10.0;

/// Shows the figures of a step's process.
pub(super) fn ui(
    ui: &mut Ui,
    (place, does): (usize, &mut Process),
    (draft, ranged): (&HouseDraft<'_>, Option<&'static str>),
) {
    // An empty grid would leave a hole.
    if matches!(does, Process::Combine | Process::Dissolve | Process::Rest) {
        return;
    }
    let step = format!("step {}", place + 1);
    Grid::new("process").num_columns(2).show(ui, |ui| {
        let mut form = Form {
            ui,
            step: &step,
            place,
            draft,
            ranged,
        };
        match does {
            Process::Infuse { release }
            | Process::Blend { release }
            | Process::FreezeThaw { release } => form.release(release),
            Process::Strain { retained } | Process::Press { retained } => form.retained(retained),
            Process::Dehydrate { to } => form.dry(to),
            Process::AdjustAcid { to } => form.acids(to),
            Process::Dilute { to } => form.dilute(to),
            Process::Juice {
                yielded,
                release,
                like,
            } => {
                let figure = Figure::share("Juice yield", "Grams of juice out of 100 g that go in");
                form.range("Yield", figure, yielded);
                form.like(like, draft);
                form.release(release);
            }
            Process::Soak { .. }
            | Process::SugarOnPeel { .. }
            | Process::FatWash { .. }
            | Process::Clarify { .. } => gathered(&mut form, does),
            Process::Carbonate { .. } | Process::Aerate { .. } => gas(&mut form, does),
            _ => plain(&mut form, does),
        }
    });
}

/// Processes that bring solids, fat or an agent together with liquid.
fn gathered(form: &mut Form<'_, '_>, does: &mut Process) {
    match does {
        Process::Soak { uptake, release } => {
            let teach = "Grams of liquid that one gram of solids takes up";
            form.range("Taken up", per_gram("Liquid taken up", teach), uptake);
            form.release(release);
        }
        Process::SugarOnPeel { release, retained } => {
            form.release(release);
            form.retained(retained);
        }
        Process::FatWash { fat_removed, held } => {
            let teach = "Share of the fat that comes off again when it is cold";
            form.figure(
                "Fat removed",
                Figure::share("Fat removed", teach),
                fat_removed,
            );
            let teach = "Grams of spirit that stay in one gram of fat";
            form.range("Held", per_gram("Spirit held", teach), held);
        }
        Process::Clarify {
            with,
            dose_pct,
            takes_out,
            held_back,
        } => {
            form.clarifier(with);
            let teach = "Grams of the clarifier per 100 g of the rest, for one taken as needed";
            let figure = Figure {
                decimals: 2,
                ..Figure::of("Dose", teach, " g per 100 g", 100.0)
            };
            form.figure("Dose", figure, dose_pct);
            let teach = "Share of the liquid that stays with what was taken out";
            form.range("Held back", Figure::share("Held back", teach), held_back);
            form.release(takes_out);
        }
        _ => {}
    }
}

fn gas(form: &mut Form<'_, '_>, does: &mut Process) {
    match does {
        Process::Carbonate { bar, kept } => {
            let teach = "Pressure above that of the air, at the step's temperature";
            let figure = Figure {
                decimals: 2,
                ..Figure::of("Pressure", teach, " bar", MOST_BAR)
            };
            form.figure("Pressure", figure, bar);
            let teach = "Share of the gas that is still there in the glass";
            form.range("Gas kept", Figure::share("Gas kept", teach), kept);
        }
        Process::Aerate { overrun } => {
            let teach = "Volume of gas per volume of liquid";
            let figure = Figure {
                decimals: 2,
                ..Figure::of("Overrun", teach, " ml per ml", MOST_OVERRUN)
            };
            form.range("Overrun", figure, overrun);
        }
        _ => {}
    }
}

/// Processes with a figure or two.
fn plain(form: &mut Form<'_, '_>, does: &mut Process) {
    match does {
        Process::Reduce { to, alcohol_left } => {
            form.reduce(to);
            let teach = "Share of the alcohol that is still there at the end; boiling drives most of it off";
            form.figure(
                "Alcohol left",
                Figure::share("Alcohol left", teach),
                alcohol_left,
            );
        }
        Process::Heat { steam } => {
            let figure = Figure::share("Steam", "Share of the mass that steams off");
            form.range("Steam", figure, steam);
        }
        Process::SweetenTo { brix } => {
            let figure = brix_figure("Sugar is added up to these °Bx");
            form.figure("Up to", figure, brix);
        }
        Process::Stock { percent } => {
            let teach = "Grams of what is worked on in 100 g of the stock";
            let figure = Figure {
                decimals: 3,
                ..Figure::of("Strength of the stock", teach, " g in 100 g", 100.0)
            };
            form.figure("Strength", figure, percent);
        }
        Process::Divide { part } => {
            let figure = Figure::share("Part", "Share of the mass that goes into the part");
            form.figure("Part", figure, part);
        }
        _ => {}
    }
}
