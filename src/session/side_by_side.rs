//! Trials side by side: pour by pour and figure by figure, with what differs from one of them.

use super::side_figures::{FigureRow, figure_rows};
use crate::balance::{
    Drink, Figures, Pantry, PathPoint, Steps, align_pours, figures, steps_between, strength_path,
};
use crate::model::{Amount, Document, Pour, SpecId, Trial, TrialId, Weights};
use crate::units::{Measures, signed};

/// Most trials beside each other; more cannot be read.
pub const MOST_COLUMNS: usize = 4;
/// Dilution up to which a path is drawn, and its parts.
const PATH: (f64, usize) = (0.9, 45);
/// Amounts nearer than this are the same.
const SAME: f64 = 1.0e-9;

/// One trial of the comparison.
#[derive(Clone, Debug)]
pub struct TrialColumn {
    /// The trial.
    pub id: TrialId,
    /// Its drink.
    pub spec: SpecId,
    /// Its name; with that of its drink where the columns are of several.
    pub name: String,
    /// Its figures, or why there are none.
    pub figures: Result<Figures, String>,
    /// Steps from the column that all are compared with.
    pub steps: Option<Steps>,
    /// The same in one number.
    pub distance: Option<f64>,
    /// Distance from its drink's target.
    pub from_target: Option<f64>,
    /// Strength over dilution.
    pub path: Vec<PathPoint>,
}

/// One pour of one column.
#[derive(Clone, Debug, PartialEq)]
pub struct PourCell {
    /// Place of the pour in its trial.
    pub place: usize,
    /// What is poured.
    pub name: String,
    /// How much, in its unit.
    pub amount: String,
    /// How much more or less than in the column compared with, in its unit; empty where it is the
    /// same or another ingredient.
    pub change: String,
    /// Another ingredient than in the column compared with, or one that it does not pour.
    pub is_other: bool,
}

/// One line of the recipe over all columns.
#[derive(Clone, Debug, PartialEq)]
pub struct PourRow {
    /// The job that the pours do.
    pub job: &'static str,
    /// Column by column; `None` where nothing is poured.
    pub cells: Vec<Option<PourCell>>,
    /// Not all columns pour the same.
    pub differs: bool,
}

/// Trials side by side.
#[derive(Clone, Debug)]
pub struct SideBySide {
    /// The trials.
    pub columns: Vec<TrialColumn>,
    /// Their pours.
    pub pours: Vec<PourRow>,
    /// Their figures.
    pub figures: Vec<FigureRow>,
}

/// Lays trials side by side, each against the one at `baseline`; trials that are gone are left out.
pub fn side_by_side(
    document: &Document,
    ids: &[TrialId],
    baseline: usize,
    pantry: &mut Pantry,
) -> SideBySide {
    let found = ids.iter().filter_map(|id| document.trial(*id));
    let trials: Vec<_> = found.take(MOST_COLUMNS).collect();
    let several = trials.windows(2).any(|pair| pair[0].0.id != pair[1].0.id);
    let mut columns: Vec<TrialColumn> = trials
        .iter()
        .map(|(spec, trial)| {
            let drink = Drink::of_trial(document, trial, pantry);
            let found = drink.as_ref().map_err(Clone::clone).and_then(figures);
            let point = found.as_ref().ok().map(|found| found.point);
            let from_target = point.zip(spec.target.as_ref()).map(|(point, target)| {
                steps_between(&point, &target.point, &document.senses)
                    .distance(&spec.balancing.weights)
            });
            let path = drink.as_ref().ok().and_then(|drink| {
                let (most, parts) = PATH;
                strength_path(drink, most, parts).ok()
            });
            TrialColumn {
                id: trial.id,
                spec: spec.id,
                name: if several {
                    format!("{}, {}", spec.name, trial.name)
                } else {
                    trial.name.clone()
                },
                figures: found.map_err(|error| error.to_string()),
                steps: None,
                distance: None,
                from_target,
                path: path.unwrap_or_default(),
            }
        })
        .collect();
    against(document, &mut columns, baseline);
    let trials: Vec<&Trial> = trials.iter().map(|(_, trial)| trial.as_ref()).collect();
    SideBySide {
        pours: pour_rows(document, &trials, baseline),
        figures: figure_rows(document, &trials, &columns, baseline),
        columns,
    }
}

/// How far every column lies from the one at `baseline`, all axes counting alike.
fn against(document: &Document, columns: &mut [TrialColumn], baseline: usize) {
    let base = columns.get(baseline);
    let Some(base) = base.and_then(|column| Some(column.figures.as_ref().ok()?.point)) else {
        return;
    };
    for column in columns {
        let point = column.figures.as_ref().ok().map(|figures| figures.point);
        let steps = point.map(|point| steps_between(&point, &base, &document.senses));
        column.steps = steps;
        column.distance = steps.map(|steps| steps.distance(&Weights::default()));
    }
}

fn pour_rows(document: &Document, trials: &[&Trial], baseline: usize) -> Vec<PourRow> {
    let aligned = align_pours(document, trials);
    let row = |places: &[Option<usize>]| {
        let pours: Vec<Option<&Pour>> = places
            .iter()
            .zip(trials)
            .map(|(place, trial)| trial.pours.get((*place)?))
            .collect();
        let base = pours.get(baseline).copied().flatten();
        let cells: Vec<Option<PourCell>> = pours
            .iter()
            .zip(trials)
            .zip(places)
            .map(|((pour, trial), place)| Some(cell(document, (trial, (*place)?), (*pour)?, base)))
            .collect();
        let first = pours.first().copied().flatten();
        let alike = |pour: Option<&Pour>| match (pour, first) {
            (Some(pour), Some(first)) => {
                pour.source == first.source
                    && same_amount(&pour.amount, &first.amount)
                    && pour.added == first.added
            }
            _ => false,
        };
        PourRow {
            job: pours
                .iter()
                .flatten()
                .next()
                .map_or("", |pour| pour.role.name()),
            differs: !pours.iter().copied().all(alike),
            cells,
        }
    };
    aligned.iter().map(|aligned| row(&aligned.places)).collect()
}

fn cell(
    document: &Document,
    (trial, place): (&Trial, usize),
    pour: &Pour,
    base: Option<&Pour>,
) -> PourCell {
    let measures = &document.measures;
    let is_other = base.is_none_or(|base| base.source != pour.source);
    PourCell {
        place,
        name: super::text::pour_name(document, trial, place).to_owned(),
        amount: pour.amount.value().map_or_else(
            || words(&pour.amount),
            |value| {
                if pour.is_left_out() {
                    "left out".to_owned()
                } else {
                    pour.amount_text(value, measures)
                }
            },
        ),
        change: base
            .filter(|_| !is_other)
            .map_or_else(String::new, |base| change(base, pour, measures)),
        is_other,
    }
}

fn words(amount: &Amount) -> String {
    match amount {
        Amount::Words(words) => words.clone(),
        Amount::Ml(_) | Amount::Grams(_) | Amount::Pieces(_) => String::new(),
    }
}

/// "+5 ml"; empty for the same amount and for different measures.
fn change(base: &Pour, pour: &Pour, measures: &Measures) -> String {
    if core::mem::discriminant(&base.amount) != core::mem::discriminant(&pour.amount) {
        return String::new();
    }
    let (Some(was), Some(is)) = (base.amount.value(), pour.amount.value()) else {
        return String::new();
    };
    let more = is - was;
    if more.abs() <= SAME {
        return String::new();
    }
    let sign = signed(more.signum(), 0).chars().next().unwrap_or('+');
    format!("{sign}{}", pour.amount_text(more.abs(), measures))
}

fn same_amount(one: &Amount, other: &Amount) -> bool {
    match (one.value(), other.value()) {
        (Some(a), Some(b)) => {
            core::mem::discriminant(one) == core::mem::discriminant(other) && (a - b).abs() <= SAME
        }
        _ => one == other,
    }
}
