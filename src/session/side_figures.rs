//! Figures of trials side by side, in words.

use super::cost_text;
use super::side_by_side::TrialColumn;
use crate::balance::{Figures, Steps};
use crate::model::{Document, Trial};
use crate::units::{
    celsius, grams_per_litre, number, percent, percent_vol, signed, signed_steps, steps,
};

/// A figure over all columns.
#[derive(Clone, Debug, PartialEq)]
pub struct FigureRow {
    /// What it is.
    pub name: &'static str,
    /// Value and difference from the column compared with, column by column; the difference is empty
    /// where there is none to speak of.
    pub cells: Vec<(String, String)>,
    /// Not all columns show the same.
    pub differs: bool,
    /// One sentence that says what it means.
    pub explain: &'static str,
}

/// How one figure is read from a column and shown.
type Read = (
    &'static str,
    fn(&Figures) -> Option<f64>,
    fn(f64) -> String,
    usize,
    &'static str,
);

const NUMBERS: [Read; 9] = [
    (
        "volume as served",
        |figures| Some(figures.served_ml),
        |ml| format!("{} ml", number(ml, 0)),
        0,
        "Volume with the water from ice, at 20 °C",
    ),
    (
        "strength",
        |figures| Some(figures.point.strength_pct_vol),
        percent_vol,
        1,
        "Alcohol by volume as served",
    ),
    (
        "sweetness",
        |figures| Some(figures.point.sweet_g_per_l),
        grams_per_litre,
        0,
        "Sweetness as sucrose, in a litre of the drink as served",
    ),
    (
        "sourness",
        |figures| Some(figures.point.sour_g_per_l),
        grams_per_litre,
        1,
        "Titratable acid as citric acid, in a litre of the drink as served",
    ),
    (
        "sugar to acid",
        Figures::sugar_to_acid,
        |ratio| format!("{}:1", number(ratio, 1)),
        1,
        "How many parts of sweetness stand against one of acid",
    ),
    (
        "dilution",
        |figures| Some(figures.dilution),
        |share| percent(share, 0),
        2,
        "Water from ice over the volume before ice",
    ),
    (
        "temperature",
        |figures| figures.served_celsius,
        celsius,
        1,
        "As served, where it can be predicted",
    ),
    (
        "pH",
        |figures| figures.ph,
        |ph| number(ph, 2),
        2,
        "At 25 °C",
    ),
    (
        "alcohol",
        |figures| Some(figures.alcohol_g),
        |grams| format!("{} g", number(grams, 1)),
        1,
        "Pure alcohol in one drink",
    ),
];

/// Every figure of the comparison.
pub(super) fn figure_rows(
    document: &Document,
    trials: &[&Trial],
    columns: &[TrialColumn],
    baseline: usize,
) -> Vec<FigureRow> {
    let mut rows = distances(columns, baseline);
    rows.extend(NUMBERS.iter().map(|read| numbers(read, columns, baseline)));
    let words = |read: &dyn Fn(&Figures) -> String| {
        let all = columns.iter();
        all.map(|column| {
            column
                .figures
                .as_ref()
                .map_or_else(|_| "–".to_owned(), read)
        })
        .collect::<Vec<String>>()
    };
    let cost = |column: &TrialColumn| Some(column.figures.as_ref().ok()?.cost.amount);
    let base = columns.get(baseline).and_then(cost);
    let costs = columns.iter().map(|column| {
        let text = |figures: &Figures| cost_text(&figures.cost, &document.currency);
        let words = column
            .figures
            .as_ref()
            .map_or_else(|_| "–".to_owned(), text);
        let more = cost(column).zip(base);
        (
            words,
            more.map_or_else(String::new, |(cost, base)| change(cost - base, 2, false)),
        )
    });
    rows.push(row_of(
        "cost",
        costs.collect(),
        "Cost of what is poured, of the pours whose price is known",
    ));
    rows.push(plain(
        "allergens",
        words(&|figures| match figures.allergens.as_slice() {
            [] => "none stated".to_owned(),
            some => some.join(", "),
        }),
        "Of all pours; follow the local code on how they must be declared",
    ));
    rows.push(plain(
        "technique",
        trials
            .iter()
            .map(|trial| trial.technique.method.name().to_owned())
            .collect(),
        "How it is chilled and diluted",
    ));
    rows
}

/// Distances in noticeable differences, axis by axis and in all.
fn distances(columns: &[TrialColumn], baseline: usize) -> Vec<FigureRow> {
    let row = |name, explain, read: &dyn Fn(&TrialColumn) -> Option<String>| {
        let cells: Vec<(String, String)> = columns
            .iter()
            .enumerate()
            .map(|(place, column)| {
                let words = if place == baseline {
                    "–".to_owned()
                } else {
                    read(column).unwrap_or_else(|| "–".to_owned())
                };
                (words, String::new())
            })
            .collect();
        FigureRow {
            name,
            cells,
            differs: true,
            explain,
        }
    };
    let axis = |read: fn(&Steps) -> f64| {
        move |column: &TrialColumn| column.steps.as_ref().map(|found| signed_steps(read(found)))
    };
    let mut rows = vec![
        row(
            "differs by",
            "How far it lies from the trial compared with: from 1 on, most people notice",
            &|column| column.distance.map(steps),
        ),
        row(
            "sweeter by",
            "In noticeable differences; less sweet where negative",
            &axis(|found| found.sweet),
        ),
        row(
            "sourer by",
            "In noticeable differences; less sour where negative",
            &axis(|found| found.sour),
        ),
        row(
            "stronger by",
            "In noticeable differences; weaker where negative",
            &axis(|found| found.strength),
        ),
    ];
    if columns.iter().any(|column| column.from_target.is_some()) {
        let base = columns.get(baseline).and_then(|column| column.from_target);
        let cells = columns.iter().map(|column| {
            let words = column.from_target.map_or_else(|| "–".to_owned(), steps);
            let more = column.from_target.zip(base);
            let more = more.map(|(away, base)| change(away - base, 1, false));
            (words, more.unwrap_or_default())
        });
        rows.push(row_of(
            "from the target",
            cells.collect(),
            "Weighted distance from the target of its drink",
        ));
    }
    rows
}

fn numbers(
    (name, read, show, decimals, explain): &Read,
    columns: &[TrialColumn],
    baseline: usize,
) -> FigureRow {
    let values: Vec<Option<f64>> = columns
        .iter()
        .map(|column| column.figures.as_ref().ok().and_then(read))
        .collect();
    let base = values.get(baseline).copied().flatten();
    let cells: Vec<(String, String)> = values
        .iter()
        .enumerate()
        .map(|(place, value)| {
            let words = value.map_or_else(|| "–".to_owned(), show);
            let more = value.zip(base).filter(|_| place != baseline);
            let more = more.map_or_else(String::new, |(value, base)| {
                change(value - base, *decimals, *name == "dilution")
            });
            (words, more)
        })
        .collect();
    row_of(name, cells, explain)
}

/// A signed difference; empty where nothing of it would be seen.
fn change(more: f64, decimals: usize, is_share: bool) -> String {
    let (more, decimals) = if is_share {
        (100.0 * more, 0)
    } else {
        (more, decimals)
    };
    let shown = signed(more, decimals);
    let is_nothing = shown
        .chars()
        .all(|letter| !letter.is_ascii_digit() || letter == '0');
    if is_nothing { String::new() } else { shown }
}

fn plain(name: &'static str, words: Vec<String>, explain: &'static str) -> FigureRow {
    let cells = words.into_iter().map(|words| (words, String::new()));
    row_of(name, cells.collect(), explain)
}

fn row_of(name: &'static str, cells: Vec<(String, String)>, explain: &'static str) -> FigureRow {
    FigureRow {
        name,
        differs: cells.windows(2).any(|pair| pair[0].0 != pair[1].0),
        cells,
        explain,
    }
}
