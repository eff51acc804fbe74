//! The references that a target lies between, with a weight each.

use super::naming::named;
use super::number_field::NumberField;
use super::theme::Tokens;
use crate::model::{Senses, Target};
use crate::rebalance::{AimError, HEAVIEST, MOST_PARTS, Pull, between};
use crate::session::{AimGroup, AimReference, Session, aim_references};
use eframe::egui::{Key, Label, RichText, ScrollArea, TextEdit, Ui};

/// Most rows that are shown at once; letters find the others.
const MOST_ROWS: usize = 200;
/// A target this near to a reference of its name is that reference, in the axes' own units.
const SAME: f64 = 1.0e-3;

/// A reference and how much it counts.
#[derive(Clone, Debug)]
struct Row {
    known: AimReference,
    weight: f64,
}

/// The list of references and what is chosen of it.
#[derive(Clone, Debug)]
pub(super) struct AimReferences {
    rows: Vec<Row>,
    /// Parts of the present target that are no longer there.
    lost: Vec<String>,
    search: String,
    fresh: bool,
}

impl AimReferences {
    /// Begins with the choice that the present target was made of.
    pub(super) fn of(session: &mut Session, target: Option<&Target>) -> Self {
        let parts = target.map_or(&[][..], |target| &target.parts);
        let weight = |known: &AimReference| {
            let part = parts.iter().find(|part| part.name == known.name);
            match (part, target) {
                (Some(part), _) => part.weight.clamp(0.0, HEAVIEST),
                (None, Some(target)) if parts.is_empty() && is_at(target, known) => 1.0,
                _ => 0.0,
            }
        };
        let rows: Vec<Row> = aim_references(session)
            .into_iter()
            .map(|known| Row {
                weight: weight(&known),
                known,
            })
            .collect();
        let there = |name: &str| rows.iter().any(|row| row.known.name == name);
        let lost = parts.iter().filter(|part| !there(&part.name));
        Self {
            lost: lost.map(|part| part.name.clone()).collect(),
            rows,
            search: String::new(),
            fresh: true,
        }
    }

    /// True when something counts.
    pub(super) fn is_chosen(&self) -> bool {
        self.rows.iter().any(|row| row.weight > 0.0)
    }

    /// The target between what is chosen.
    pub(super) fn target(&self, senses: &Senses) -> Result<Target, AimError> {
        let pulls: Vec<Pull<'_>> = self
            .rows
            .iter()
            .map(|row| Pull {
                name: &row.known.name,
                point: row.known.point,
                weight: row.weight,
            })
            .collect();
        between(&pulls, senses)
    }

    /// The search takes the focus when it is shown next.
    pub(super) fn focus(&mut self) {
        self.fresh = true;
    }

    /// Shows search and list in `height` points.
    pub(super) fn ui(&mut self, ui: &mut Ui, height: f32) {
        ui.label(
            RichText::new(
                "The target lies between what is ticked: the larger a weight, the nearer to it.",
            )
            .small()
            .weak(),
        );
        self.search(ui);
        if !self.lost.is_empty() {
            let lost = format!("No longer there: {}.", self.lost.join(", "));
            ui.label(RichText::new(lost).small().color(Tokens::of(ui).caution));
        }
        ScrollArea::vertical()
            .id_salt("aim references")
            .max_height(height)
            .auto_shrink(false)
            .show(ui, |ui| self.list(ui));
    }

    fn search(&mut self, ui: &mut Ui) {
        ui.horizontal(|ui| {
            let field = ui.add(
                TextEdit::singleline(&mut self.search)
                    .hint_text("Name, family or drink, Enter ticks the first")
                    .desired_width(300.0),
            );
            let taken = field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
            if taken && !self.search.trim().is_empty() {
                let words = self.words();
                let first = self.rows.iter_mut().find(|row| fits(row, &words));
                if let Some(row) = first.filter(|row| row.weight <= 0.0) {
                    row.weight = 1.0;
                }
                self.search.clear();
            }
            if taken || self.fresh {
                field.request_focus();
                self.fresh = false;
            }
            named(
                field,
                "Find a reference",
                "Letters of a classic, a family, a trial or a drink; what is ticked stays in sight",
            );
            let clear = ui.add_enabled(self.is_chosen(), eframe::egui::Button::new("Untick all"));
            if named(clear, "Untick all", "Take the weight from every reference").clicked() {
                for row in &mut self.rows {
                    row.weight = 0.0;
                }
                self.focus();
            }
        });
    }

    fn words(&self) -> String {
        self.search.trim().to_lowercase()
    }

    /// What is aimed at stands first, so that it is in sight however long the list is.
    fn ticked(&mut self, ui: &mut Ui) {
        let words = match self.rows.iter().filter(|row| row.weight > 0.0).count() {
            0 => return,
            1 => "Aim at".to_owned(),
            more => format!("Aim between {more}"),
        };
        ui.label(RichText::new(words).strong());
        let ticked = self.rows.iter_mut().filter(|row| row.weight > 0.0);
        for row in ticked {
            reference(ui, row);
        }
    }

    fn list(&mut self, ui: &mut Ui) {
        let words = self.words();
        self.ticked(ui);
        let mut group = None;
        let mut found = 0;
        for row in &mut self.rows {
            let fits = fits(row, &words);
            found += usize::from(fits);
            if row.weight > 0.0 || !fits || found > MOST_ROWS {
                continue;
            }
            if group != Some(row.known.group) {
                group = Some(row.known.group);
                ui.label(RichText::new(heading(row.known.group)).strong());
            }
            reference(ui, row);
        }
        if found == 0 {
            ui.label("Nothing by that name. Try fewer letters.");
        } else if found > MOST_ROWS {
            let others = format!("{} more: letters find them.", found - MOST_ROWS);
            ui.label(RichText::new(others).weak());
        }
    }
}

fn heading(group: AimGroup) -> &'static str {
    match group {
        AimGroup::ThisDrink => "Trials of this drink",
        AimGroup::Classic => "Classics, computed from their published pours",
        AimGroup::OtherDrink => "Trials of other drinks",
    }
}

/// The target was taken from this reference alone.
fn is_at(target: &Target, known: &AimReference) -> bool {
    let near = crate::model::Axis::ALL
        .iter()
        .all(|axis| (target.point.on(*axis) - known.point.on(*axis)).abs() < SAME);
    near && target.label == known.name
}

fn fits(row: &Row, words: &str) -> bool {
    row.known.name.to_lowercase().contains(words) || row.known.facts.to_lowercase().contains(words)
}

/// One row, the same to the focus and to a drag wherever it stands.
fn reference(ui: &mut Ui, row: &mut Row) {
    let id = (row.known.group, row.known.name.clone());
    ui.push_id(id, |ui| line(ui, row));
}

fn line(ui: &mut Ui, row: &mut Row) {
    let name = &row.known.name;
    ui.horizontal(|ui| {
        let teach = format!(
            "Drag or type: 0 leaves it out, 2 counts twice as much as 1; at most {MOST_PARTS} may count"
        );
        let weight = format!("Weight of {name}");
        let field = NumberField::new(&weight, &teach, 0.0..=HEAVIEST);
        if field.step(0.1).decimals(2).wide(52.0).show(ui, &mut row.weight) {
            // What is not seen does not count.
            row.weight = (row.weight * 100.0).round() / 100.0;
        }
        let mut counts = row.weight > 0.0;
        let tick = ui.checkbox(&mut counts, name);
        if named(tick, name, "Ticked, the target is pulled towards it").changed() {
            row.weight = f64::from(u8::from(counts));
        }
        let facts = Label::new(RichText::new(&row.known.facts).small().weak()).truncate();
        ui.add(facts);
    });
}
