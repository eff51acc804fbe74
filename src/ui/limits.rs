//! What proposals must keep: bounds of the whole drink, its glass, limits of single pours.

use super::figure_field::{FigureEntered, FigureField};
use super::intent::Outbox;
use super::naming::named;
use super::theme::Tokens;
use crate::model::{Bound, Bounded, Bounds, Pour, Spec, Trial};
use crate::rebalance::{Binding, Limit};
use crate::session::{
    Derived, Edit, Session, as_most, binding_text, bounded_text, bounded_value, breach,
    breach_text, cost_text, glass_fill, held_text, limits_on, pour_breach_text, pour_limits_text,
};
use crate::units::{Unit, capital, number, show_volume, volume_unit};
use eframe::egui::{Align, CollapsingHeader, Id, Label, Layout, RichText, Ui};
use std::collections::BTreeSet;

/// Width of a field for one limit, points.
const FIELD: f32 = 38.0;

/// Shows the section; closed it says how many limits are on.
pub(super) fn ui(ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
    let (Some(spec), Some(trial)) = (session.spec(), session.trial()) else {
        return;
    };
    let title = match limits_on(spec, trial) {
        0 => "Limits (none on)".to_owned(),
        on => format!("Limits ({on} on)"),
    };
    let section = CollapsingHeader::new(title)
        .id_salt("limits")
        .show_unindented(ui, |ui| {
            ui.spacing_mut().item_spacing = eframe::egui::vec2(5.0, 3.0);
            ui.spacing_mut().interact_size.y = 20.0;
            let shown = Section {
                session,
                spec,
                trial,
                derived: session.derived(),
            };
            shown.drink(ui, outbox);
            shown.pours(ui, outbox);
            shown.rules(ui);
            let within = shown.derived.and_then(|derived| derived.held_within_ml);
            ui.label(
                RichText::new(held_text(spec.balancing.scale_rule, within))
                    .small()
                    .weak(),
            )
            .on_hover_text("Chosen under Hold; proposals keep it beside the limits, to within half of the largest notch of the pours that may move: notches rarely add up to exactly the same size");
            shown.binds(ui, |limit| limit == Limit::Held);
        });
    section.header_response.on_hover_text(
        "Proposals keep every limit that is ticked, and say what a little more room would gain",
    );
}

/// One side of a limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
enum End {
    Least,
    Most,
}

/// Everything that the rows read.
struct Section<'a> {
    session: &'a Session,
    spec: &'a Spec,
    trial: &'a Trial,
    derived: Option<&'a Derived>,
}

impl Section<'_> {
    /// Everything of the drink as a whole, as one edit: a field may be left for the tick of another row.
    fn drink(&self, ui: &mut Ui, outbox: &mut Outbox) {
        let mut bounds = self.spec.bounds;
        for figure in Bounded::ALL {
            let mut bound = *bounds.of(figure);
            self.figure(ui, figure, &mut bound);
            *bounds.of_mut(figure) = bound;
        }
        self.glass(ui, &mut bounds.glass);
        if bounds != self.spec.bounds {
            outbox.edit(self.edit(bounds));
        }
    }

    const fn edit(&self, bounds: Bounds) -> Edit {
        Edit::SetBounds {
            spec: self.spec.id,
            bounds,
        }
    }

    /// One figure of the drink: tick, present value, smallest and largest.
    fn figure(&self, ui: &mut Ui, figure: Bounded, bound: &mut Bound) {
        let currency = &self.session.document().currency;
        let derived = self.derived;
        let now = derived.and_then(|derived| bounded_value(derived, figure));
        let found = now.zip(now.and_then(|now| breach(bound, now)));
        ui.horizontal(|ui| {
            let check = ui.checkbox(&mut bound.on, figure.name());
            let teach = "Ticked, proposals keep it; unticked, the numbers stay and bind nothing. Without numbers the drink on screen gives the most";
            let ticked = named(check, &format!("Limit {}", figure.name()), teach).changed();
            if ticked && bound.on && bound.least.is_none() && bound.most.is_none() {
                // Without any price there is no cost to keep.
                let known = now.filter(|now| figure != Bounded::Cost || *now > 0.0);
                bound.most = known.map(|now| as_most(figure, now));
            }
            if let Some(now) = now {
                let cost = self.cost(currency).filter(|_| figure == Bounded::Cost);
                let volume = (figure == Bounded::ServedVolume).then(|| self.volume(now));
                let text = cost.or(volume);
                let text = text.unwrap_or_else(|| bounded_text(figure, now, currency));
                present(ui, &text, found.is_some());
            }
        });
        self.ends(ui, figure, bound);
        if let Some((now, found)) = found {
            let said = if figure == Bounded::ServedVolume && self.unit() != Unit::Ml {
                let (now, limit) = (self.volume(now), self.volume(found.limit()));
                format!("{now}, {} your limit of {limit}", found.side())
            } else {
                breach_text(figure, now, found, currency)
            };
            broken(ui, &said);
        }
        self.binds(ui, |limit| {
            limit == Limit::Least(figure) || limit == Limit::Most(figure)
        });
    }

    /// The unit that the drink's volumes are told in.
    fn unit(&self) -> Unit {
        let unit = self.trial.unit().unwrap_or(Unit::Ml);
        let (_, more) = volume_unit(unit, &self.session.document().measures);
        if more == 0 { Unit::Ml } else { unit }
    }

    fn volume(&self, ml: f64) -> String {
        show_volume(ml, 0, self.unit(), &self.session.document().measures)
    }

    /// What one unit of a limit's field is of the figure's own.
    fn one(&self, figure: Bounded) -> f64 {
        match figure {
            Bounded::ServedVolume => volume_unit(self.unit(), &self.session.document().measures).0,
            _ => 1.0,
        }
    }

    /// What the drink costs as far as prices are known.
    fn cost(&self, currency: &str) -> Option<String> {
        let derived = self.derived?;
        let figures = derived.figures.as_ref().ok()?;
        Some(cost_text(&figures.cost, currency))
    }

    /// Smallest and largest value with their unit, and below them what cannot stand.
    fn ends(&self, ui: &mut Ui, figure: Bounded, bound: &mut Bound) {
        let row = ui.horizontal(|ui| {
            let wrong = [End::Least, End::Most].map(|end| {
                match self.field(ui, figure, bound, end) {
                    FigureEntered::Figure(value) => *bound = entered(*bound, end, value),
                    FigureEntered::Wrong(reason) => return Some(reason),
                    FigureEntered::Nothing => {}
                }
                None
            });
            let unit = match figure {
                Bounded::Cost => self.session.document().currency.as_str(),
                Bounded::Pours => "pours",
                Bounded::ServedVolume => self.unit().label(),
                _ => figure.unit(),
            };
            ui.add(Label::new(RichText::new(unit).small().weak()).truncate());
            wrong
        });
        for reason in row.inner.into_iter().flatten() {
            ui.label(RichText::new(reason).small().color(Tokens::of(ui).warn));
        }
    }

    fn field(&self, ui: &mut Ui, figure: Bounded, bound: &Bound, end: End) -> FigureEntered {
        let (words, value) = match end {
            End::Least => ("at least", bound.least),
            End::Most => ("at most", bound.most),
        };
        ui.label(RichText::new(words).small());
        let one = self.one(figure);
        let field = FigureField {
            name: &format!("{} {words}", capital(figure.name())),
            teach: "Empty it to set no limit on this side",
            value: value.map(|value| value / one),
            width: FIELD,
        };
        let id = Id::unique(("limit", self.spec.id, figure, end));
        let typed = field.show_where(ui, id, |value| {
            let mut bounds = self.spec.bounds;
            *bounds.of_mut(figure) = entered(*bound, end, value.map(|value| value * one));
            self.session
                .refusal(&self.edit(bounds))
                .map_or(Ok(()), |error| Err(error.reason()))
        });
        match typed {
            FigureEntered::Figure(value) => FigureEntered::Figure(value.map(|value| value * one)),
            other => other,
        }
    }

    /// The drink beside its ice in the glass.
    fn glass(&self, ui: &mut Ui, on: &mut bool) {
        let figures = self
            .derived
            .and_then(|derived| derived.figures.as_ref().ok());
        let fill = figures.map(|figures| glass_fill(&self.spec.glass, figures));
        let too_large = fill.filter(|(full, room)| *on && full > room);
        ui.horizontal(|ui| {
            let check = ui.checkbox(on, "fits its glass");
            let teach = format!(
                "Ticked, proposals fill the {} no higher than its brim: its capacity less the share of the ice",
                self.spec.glass.name
            );
            named(check, "Limit to the glass", &teach);
            if let Some((full, room)) = fill {
                let full = self.volume(full);
                let full = full.split(' ').next().unwrap_or_default();
                let text = format!("{full} of {}", self.volume(room));
                present(ui, &text, too_large.is_some());
            }
        });
        if let Some((full, room)) = too_large {
            let over = number((full - room).max(0.1), 1);
            broken(ui, &format!("{over} ml too large for its glass"));
        }
        self.binds(ui, |limit| limit == Limit::Glass);
    }

    /// Pours that have a smallest or a largest amount.
    fn pours(&self, ui: &mut Ui, outbox: &mut Outbox) {
        let pours = self.trial.pours.iter().enumerate();
        let mut limited = pours
            .filter(|(_, pour)| pour.minimum.is_some() || pour.maximum.is_some())
            .peekable();
        if limited.peek().is_none() {
            return;
        }
        ui.separator();
        for (place, pour) in limited {
            self.pour(ui, (place, pour), outbox);
        }
    }

    fn pour(&self, ui: &mut Ui, (place, pour): (usize, &Pour), outbox: &mut Outbox) {
        let document = self.session.document();
        let settled = document.settle(self.trial, pour);
        let name = settled.map_or("?", |settled| settled.name);
        let mut on = !pour.limits_off;
        let check = ui.checkbox(&mut on, name);
        let teach = "Ticked, proposals keep the amount within its limits; the numbers are set in the pour's own menu";
        if named(check, &format!("Limits of {name}"), teach).changed() {
            outbox.edit(Edit::SetLimits {
                trial: self.trial.id,
                pour: place,
                step: pour.step,
                minimum: pour.minimum,
                maximum: pour.maximum,
                off: !on,
            });
        }
        let limits = pour_limits_text(pour, &document.measures);
        ui.label(RichText::new(limits).small().weak());
        if let Some(said) = pour_breach_text(pour, &document.measures) {
            broken(ui, &said);
        }
        self.binds(ui, |limit| {
            limit == Limit::AtLeast(place) || limit == Limit::AtMost(place)
        });
    }

    /// Limits that come from the rules that the drink is entered under, each rule once.
    fn rules(&self, ui: &mut Ui) {
        let limits = self
            .derived
            .map_or(&[][..], |derived| &derived.rules.limits);
        let mut told = BTreeSet::new();
        for limit in limits.iter().filter(|limit| told.insert(&limit.rule)) {
            ui.label(RichText::new(capital(&limit.words)).small().weak())
                .on_hover_text(
                    "Proposals keep it beside your own limits; change it among the rules",
                );
        }
    }

    /// What the first proposal says of limits that bind.
    fn binds(&self, ui: &mut Ui, of_row: impl Fn(Limit) -> bool) {
        for binding in self.bindings().iter().filter(|found| of_row(found.limit)) {
            let said = binding_text(self.session.document(), self.trial, binding);
            let Some(said) = said else {
                continue;
            };
            ui.label(RichText::new(format!("Holds it back: {said}")).small())
                .on_hover_text("Of the first proposal, before its amounts are rounded to notches");
        }
    }

    fn bindings(&self) -> &[Binding] {
        let answer = self
            .derived
            .and_then(|derived| derived.answer.as_ref().ok());
        let first = answer.and_then(|answer| answer.proposals.first());
        first.map_or(&[], |proposal| &proposal.binding)
    }
}

/// A bound with one end entered; its first number switches it on, and without any it is off.
const fn entered(bound: Bound, end: End, value: Option<f64>) -> Bound {
    let mut new = bound;
    match end {
        End::Least => new.least = value,
        End::Most => new.most = value,
    }
    let was_blank = bound.least.is_none() && bound.most.is_none();
    let is_blank = new.least.is_none() && new.most.is_none();
    new.on = (bound.on || was_blank) && !is_blank;
    new
}

fn now_text(text: &str) -> String {
    if text == "no prices" {
        return text.to_owned();
    }
    format!("now {text}")
}

/// The present value at the end of a row.
fn present(ui: &mut Ui, text: &str, caution: bool) {
    let tokens = Tokens::of(ui);
    let color = if caution { tokens.caution } else { tokens.weak };
    ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
        ui.label(RichText::new(now_text(text)).small().color(color));
    });
}

/// That the drink on screen breaks a limit.
fn broken(ui: &mut Ui, text: &str) {
    let caution = Tokens::of(ui).caution;
    ui.label(RichText::new(format!("◆ {text}")).small().color(caution));
}
