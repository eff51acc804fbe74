//! Whether a pour that is moved by hand takes the others along, and what could not follow.

use super::intent::Outbox;
use super::naming::named;
use super::theme::Tokens;
use crate::balance::Contribution;
use crate::model::{Amount, Document, Trial, TrialId};
use crate::rebalance::Change;
use crate::session::{Edit, LinkedMove, LinkedPour, Linking, linked_pours, move_linked, pour_name};
use crate::units::Unit;
use crate::units::{listed, signed};
use eframe::egui::{RichText, Ui};
use std::mem::discriminant;

/// Amounts are kept to a millionth.
const SAME: f64 = 2.0e-6;
/// A total that is this near its place needs no word, ml.
const UNSAID_ML: f64 = 0.05;

/// The mode, and what it holds on to.
#[derive(Debug, Default)]
pub(super) struct PourLinks {
    /// What moving one pour does to the others.
    linking: Linking,
    base: Option<Base>,
}

/// The trial as it was when the pours began to move together.
#[derive(Debug)]
struct Base {
    trial: TrialId,
    /// The pour that is moved; another one takes its shares from what it finds.
    lead: usize,
    pours: Vec<LinkedPour>,
    /// Where the last move left it: whatever else changes an amount begins anew.
    left: Vec<Option<f64>>,
    /// What could not follow.
    said: String,
}

impl PourLinks {
    /// Shows the modes, and plainly what is on.
    pub(super) fn ui(&mut self, ui: &mut Ui, is_open: bool) {
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing.x = 4.0;
            ui.label(RichText::new("Moving one").small().weak());
            for linking in Linking::ALL {
                let on = self.linking == linking;
                let words = RichText::new(linking.name()).small();
                let choice = ui.selectable_label(on, words);
                let name = format!("Moving one pour: {}", linking.name());
                if named(choice, &name, teach(linking)).clicked() {
                    self.linking = linking;
                    self.base = None;
                }
            }
        });
        if self.linking == Linking::Alone || !is_open {
            return;
        }
        let tokens = Tokens::of(ui);
        ui.label(
            RichText::new(plainly(self.linking))
                .small()
                .color(tokens.accent),
        );
        let said = self.base.as_ref().map_or("", |base| &base.said);
        if !said.is_empty() {
            ui.label(RichText::new(said).small().color(tokens.caution));
        }
    }

    /// Forgets where the pours began; the mode stays.
    pub(super) fn begin_anew(&mut self) {
        self.base = None;
    }

    /// Lets the others follow what was asked of one pour in this frame.
    pub(super) fn follow(
        &mut self,
        (document, trial): (&Document, &Trial),
        parts: &[Contribution],
        outbox: &mut Outbox,
    ) {
        let fresh = linked_pours(document, trial, parts);
        self.keep_while_unchanged(trial.id, &fresh);
        if self.linking == Linking::Alone {
            return;
        }
        for edit in &mut outbox.edits {
            let Edit::SetAmount {
                trial: of,
                pour,
                amount,
                unit,
            } = edit
            else {
                continue;
            };
            let asked = (*pour, amount.clone(), *unit);
            if *of == trial.id
                && let Some(together) = self.together((document, trial), &fresh, asked)
            {
                *edit = together;
            }
        }
    }

    /// Forgets where the pours began once something else changed them.
    fn keep_while_unchanged(&mut self, trial: TrialId, fresh: &[LinkedPour]) {
        let holds = self.base.as_ref().is_some_and(|base| {
            base.trial == trial
                && base.pours.len() == fresh.len()
                && fresh
                    .iter()
                    .zip(&base.pours)
                    .all(|(now, was)| now.moves_like(was))
                && fresh
                    .iter()
                    .zip(&base.left)
                    .all(|(now, left)| is_same(now.amount, *left))
        });
        if !holds {
            self.base = None;
        }
    }

    /// The edit that moves all; `None` where the pour moves alone.
    fn together(
        &mut self,
        (document, trial): (&Document, &Trial),
        fresh: &[LinkedPour],
        (lead, amount, unit): (usize, Amount, Unit),
    ) -> Option<Edit> {
        let now = &trial.pours.get(lead)?.amount;
        let to = amount.value()?;
        if discriminant(now) != discriminant(&amount) || is_same(now.value(), Some(to)) {
            return None;
        }
        if self.base.as_ref().is_some_and(|base| base.lead != lead) {
            self.base = None;
        }
        let base = self.base.get_or_insert_with(|| Base {
            trial: trial.id,
            lead,
            pours: fresh.to_vec(),
            left: fresh.iter().map(|pour| pour.amount).collect(),
            said: String::new(),
        });
        let moved = move_linked(&base.pours, lead, to, self.linking);
        let others = fresh.iter().zip(&moved.amounts).enumerate();
        let others = others.filter_map(|(pour, (now, to))| {
            let (from, to) = (now.amount?, (*to)?);
            (pour != lead && (from - to).abs() > SAME).then_some(Change { pour, from, to })
        });
        let others: Vec<Change> = others.collect();
        base.said = said(document, trial, (self.linking, lead), &moved);
        base.left.clone_from(&moved.amounts);
        Some(Edit::MoveTogether {
            trial: trial.id,
            pour: lead,
            amount,
            unit,
            others,
        })
    }
}

fn is_same(one: Option<f64>, other: Option<f64>) -> bool {
    match (one, other) {
        (Some(one), Some(other)) => (one - other).abs() <= SAME,
        (None, None) => true,
        _ => false,
    }
}

const fn teach(linking: Linking) -> &'static str {
    match linking {
        Linking::Alone => "Moving a pour leaves all others as they are",
        Linking::Total => {
            "Moving a pour takes as much out of the free pours, in proportion and on their notches, so that the poured total stays; what is weighed, counted or dashed stays"
        }
        Linking::Ratio => {
            "Moving a pour moves all free pours in proportion, on their notches: the drink gets larger or smaller"
        }
    }
}

const fn plainly(linking: Linking) -> &'static str {
    match linking {
        Linking::Alone => "",
        Linking::Total => "Linked: the free pours make room, so that the poured total stays.",
        Linking::Ratio => "Linked: the free pours move along in ratio.",
    }
}

/// What could not follow, in words; empty when all did.
fn said(
    document: &Document,
    trial: &Trial,
    (linking, lead): (Linking, usize),
    moved: &LinkedMove,
) -> String {
    let places = moved.held_back.iter();
    let names: Vec<&str> = places
        .map(|place| pour_name(document, trial, *place))
        .collect();
    if moved.held_back == [lead] {
        let name = listed(&names);
        return match linking {
            Linking::Ratio => format!("{name} was nothing, so it has no ratio: it moves alone."),
            _ => format!("No free pour makes room for {name}: it moves alone."),
        };
    }
    let off = if moved.off_ml.abs() > UNSAID_ML {
        format!("The total is {} ml.", signed(moved.off_ml, 1))
    } else {
        String::new()
    };
    if names.is_empty() {
        return off;
    }
    let verb = if names.len() == 1 { "is" } else { "are" };
    format!("{} {verb} held by a limit. {off}", listed(&names))
        .trim_end()
        .to_owned()
}
