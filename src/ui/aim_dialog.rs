//! Aim at: between references, at a family's ratio, into a published range; seen before it is taken.

use super::aim_references::AimReferences;
use super::intent::{Intent, Outbox};
use super::naming::named;
use super::theme::Tokens;
use crate::balance::{Steps, steps_between};
use crate::chart::{Hue, free_words};
use crate::model::{Point, Spec, Target, Weights};
use crate::session::{Edit, FamilyAim, RegionAim, Session, family_aims, region_aims};
use crate::units::{grams_per_litre, number, percent_vol, signed, steps};
use eframe::egui::{Button, Label, RichText, ScrollArea, Ui};

/// Height of what stands around the lists, points.
const AROUND: f32 = 330.0;
/// Least and most height of a list, points.
const LISTS: (f32, f32) = (90.0, 330.0);

/// A way to say what is aimed at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Way {
    References,
    Family,
    Region,
}

/// State of the dialog.
#[derive(Clone, Debug)]
pub(super) struct AimDialog {
    way: Way,
    references: AimReferences,
    families: Vec<FamilyAim>,
    family: Option<usize>,
    regions: Vec<RegionAim>,
    region: Option<usize>,
    /// The drink on screen, if it can be served.
    here: Option<Point>,
    refused: Option<String>,
}

impl AimDialog {
    /// Begins with what the present target was made of; `None` without a drink on screen.
    pub(super) fn of(session: &mut Session) -> Option<Self> {
        let target = session.spec()?.target.clone();
        let references = AimReferences::of(session, target.as_ref());
        let (builtin, document) = (session.builtin().clone(), session.document().clone());
        let families = family_aims(&builtin, &document.measures, session.pantry());
        let figures = session
            .derived()
            .and_then(|derived| derived.figures.as_ref().ok());
        let here = figures.map(|figures| figures.point);
        let regions = region_aims(&builtin, here.as_ref());
        let label = target.map_or_else(String::new, |target| target.label);
        let family = families.iter().position(|aim| aim.target.label == label);
        let region = regions.iter().position(|aim| {
            aim.target
                .as_ref()
                .is_some_and(|target| target.label == label)
        });
        let way = match (family, region) {
            _ if references.is_chosen() => Way::References,
            (Some(_), _) => Way::Family,
            (None, Some(_)) => Way::Region,
            (None, None) => Way::References,
        };
        Some(Self {
            way,
            references,
            families,
            family,
            regions,
            region,
            here,
            refused: None,
        })
    }

    /// Shows the ways, what the chosen one comes to, and the buttons.
    pub(super) fn ui(&mut self, ui: &mut Ui, session: &Session, outbox: &mut Outbox) {
        let Some(spec) = session.spec() else {
            outbox.intent(Intent::CloseDialog);
            return;
        };
        self.ways(ui);
        ui.separator();
        let window = ui.ctx().content_rect().height();
        let height = (window - AROUND).clamp(LISTS.0, LISTS.1);
        match self.way {
            Way::References => self.references.ui(ui, height),
            Way::Family => self.families(ui, height),
            Way::Region => self.regions(ui, height),
        }
        ui.separator();
        let found = self.target(session);
        ui.scope(|ui| {
            // Always as high, so that the buttons stay where they are.
            ui.set_min_height(76.0);
            match &found {
                Ok(target) => self.preview(ui, session, spec, target),
                Err(reason) => {
                    ui.label(RichText::new(reason).weak());
                }
            }
        });
        if let Some(why) = &self.refused {
            ui.label(RichText::new(why).color(Tokens::of(ui).warn));
        }
        ui.horizontal(|ui| {
            let aim = ui.add_enabled(found.is_ok(), Button::new("Aim"));
            let teach = "Take this point as the target; undo brings the one before back";
            if let (true, Ok(target)) = (named(aim, "Aim", teach).clicked(), found) {
                self.take(session, spec, target, outbox);
            }
            if ui.button("Cancel").clicked() {
                outbox.intent(Intent::CloseDialog);
            }
        });
    }

    fn ways(&mut self, ui: &mut Ui) {
        ui.horizontal_wrapped(|ui| {
            for (way, words, teach) in [
                (
                    Way::References,
                    "Between references",
                    "The weighted centre of classics and trials, or one of them",
                ),
                (
                    Way::Family,
                    "A family's ratio",
                    "A ratio by volume, poured with stated ingredients and computed like any drink",
                ),
                (
                    Way::Region,
                    "A published range",
                    "The nearest point of a range published per technique; the ranges are recalled from memory",
                ),
            ] {
                let label = ui.selectable_label(self.way == way, words);
                if named(label, words, teach).clicked() {
                    self.way = way;
                    self.references.focus();
                }
            }
        });
    }

    fn families(&mut self, ui: &mut Ui, height: f32) {
        let words = "A ratio says nothing about strength and acid of what is poured: the ingredients stated with it decide where it lands.";
        ui.label(RichText::new(words).small().weak());
        let rows = self.families.iter().map(|aim| (&aim.name, &aim.poured));
        let teach = "Aim at the balance of this ratio, poured as stated";
        choices(ui, height, teach, &mut self.family, rows);
    }

    fn regions(&mut self, ui: &mut Ui, height: f32) {
        let words = "All these ranges are recalled from memory, not read again: a direction, no standard. All sugar is taken for sweet and all acid for sour. The target keeps what lies in the range and moves the rest to its nearer end.";
        ui.label(RichText::new(words).small().weak());
        let rows = self.regions.iter().map(|aim| (&aim.technique, &aim.ranges));
        let teach = "Aim at the point of this range that lies nearest to the drink on screen; recalled from memory";
        choices(ui, height, teach, &mut self.region, rows);
    }

    fn target(&self, session: &Session) -> Result<Target, String> {
        match self.way {
            Way::References => {
                let found = self.references.target(&session.document().senses);
                found.map_err(|error| sentence(&error.to_string()))
            }
            Way::Family => {
                let aim = self.family.and_then(|chosen| self.families.get(chosen));
                aim.map(|aim| aim.target.clone())
                    .ok_or_else(|| "Choose a family's ratio.".to_owned())
            }
            Way::Region => {
                let aim = self.region.and_then(|chosen| self.regions.get(chosen));
                let aim = aim.ok_or("Choose a published range.")?;
                let nothing = "There is no drink on screen yet from which the nearest point could be looked for: add a pour.";
                Ok(aim.target.clone().ok_or(nothing)?)
            }
        }
    }

    /// The point, and how far the drink on screen lies from it.
    fn preview(&self, ui: &mut Ui, session: &Session, spec: &Spec, target: &Target) {
        let tokens = Tokens::of(ui);
        let label = Label::new(RichText::new(&target.label).strong()).truncate();
        ui.add(label).on_hover_text(&target.label);
        let point = &target.point;
        ui.horizontal_wrapped(|ui| {
            let sour = format!("{} g/L", number(point.sour_g_per_l, 2));
            for (hue, glyph, words) in [
                (
                    Hue::Sweet,
                    "●",
                    format!("sweet {}", grams_per_litre(point.sweet_g_per_l)),
                ),
                (Hue::Sour, "▲", format!("sour {sour}")),
                (Hue::Strength, "■", percent_vol(point.strength_pct_vol)),
            ] {
                ui.label(RichText::new(glyph).color(tokens.words(hue)));
                ui.label(words);
            }
        });
        let region = self.region.and_then(|chosen| self.regions.get(chosen));
        if self.way == Way::Region && region.is_some_and(|aim| aim.is_inside) {
            ui.label("The drink lies in this range already: it is aimed at as it is.");
            return;
        }
        let Some(here) = &self.here else {
            ui.label(RichText::new("No drink on screen to compare it with yet.").weak());
            return;
        };
        let away = steps_between(here, point, &session.document().senses);
        distance(ui, &away, &spec.balancing.weights);
    }

    fn take(&mut self, session: &Session, spec: &Spec, target: Target, outbox: &mut Outbox) {
        let edit = Edit::SetTarget {
            spec: spec.id,
            target: Some(target),
        };
        if let Some(error) = session.refusal(&edit) {
            self.refused = Some(sentence(&error.to_string()));
            return;
        }
        outbox.edit(edit);
        outbox.intent(Intent::CloseDialog);
    }
}

/// How far the drink on screen lies away.
fn distance(ui: &mut Ui, away: &Steps, weights: &Weights) {
    let mut words = format!(
        "The drink on screen lies {} from it: sweet {}, sour {}, strength {}",
        steps(away.distance(weights)),
        signed(away.sweet, 1),
        signed(away.sour, 1),
        signed(away.strength, 1)
    );
    let free = free_words(weights);
    if !free.is_empty() {
        words = format!("{words}; {free}");
    }
    ui.label(words).on_hover_text(
        "In noticeable differences, by the weights of the target: root of the weighted sum of squares",
    );
}

/// A list of which one row is chosen.
fn choices<'a>(
    ui: &mut Ui,
    height: f32,
    teach: &str,
    chosen: &mut Option<usize>,
    rows: impl Iterator<Item = (&'a String, &'a String)>,
) {
    ScrollArea::vertical()
        .id_salt("aim choices")
        .max_height(height)
        .auto_shrink(false)
        .show(ui, |ui| {
            for (place, (name, facts)) in rows.enumerate() {
                named(ui.radio_value(chosen, Some(place), name), name, teach);
                ui.indent(("aim facts", place), |ui| {
                    ui.label(RichText::new(facts).small().weak());
                });
            }
        });
}

/// The first letter large, a full stop at the end.
fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| {
        format!("{}{}.", first.to_uppercase(), letters.as_str())
    })
}
