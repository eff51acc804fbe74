//! The trials of a drink as a table: what came out of what, why, and what it was like.

use super::cost_words::at_least;
use crate::balance::{Drink, Figures, Pantry, figures, steps_between};
use crate::model::{Document, MadeBy, Spec, SpecId, Tasting, Trial, TrialId, TrialState};
use crate::store::PlainTable;
use crate::units::{exact, grams_per_litre, noticeable, number, percent_vol};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Figures of a trial as served.
#[derive(Clone, Debug, PartialEq)]
pub struct TrialFigures {
    /// Sucrose equivalent, g/L.
    pub sweet_g_per_l: f64,
    /// Titratable acid as citric, g/L.
    pub sour_g_per_l: f64,
    /// Strength, % vol at 20 °C.
    pub strength_pct_vol: f64,
    /// Served volume, ml at 20 °C.
    pub served_ml: f64,
    /// Cost of the pours that have a price, in the document's currency.
    pub cost: f64,
    /// Pours without a price.
    pub unpriced: usize,
    /// Pours with one.
    pub priced: usize,
}

/// One trial of the table.
#[derive(Clone, Debug, PartialEq)]
pub struct TrialLine {
    /// Which trial.
    pub id: TrialId,
    /// Its name.
    pub name: String,
    /// Name of the trial it grew from, be it in the bin; empty without one.
    pub parent: String,
    /// What it came out of, in words.
    pub made_by: String,
    /// Day it was made, ISO 8601; empty when unknown.
    pub on: String,
    /// Draft, tasted or submitted.
    pub state: TrialState,
    /// Why it was made.
    pub reason: String,
    /// What tasters said.
    pub verdict: String,
    /// Its figures; `None` where it cannot be served.
    pub figures: Option<TrialFigures>,
    /// Weighted distance to the target, noticeable differences; `None` without a target.
    pub from_target: Option<f64>,
    /// Mean liking on the scale of 1 to 9 over all closed tastings, and how many answers it is the
    /// mean of.
    pub liking: Option<(f64, usize)>,
}

/// The trials of a drink, without those in the bin, in the order they were made.
#[derive(Clone, Debug, PartialEq)]
pub struct TrialHistory {
    /// Name of the drink.
    pub drink: String,
    /// Currency of the cost.
    pub currency: String,
    /// Its trials.
    pub lines: Vec<TrialLine>,
}

/// Works the table of a drink out; `None` when there is no such drink.
pub fn trial_history(
    document: &Document,
    spec: SpecId,
    pantry: &mut Pantry,
) -> Option<TrialHistory> {
    let spec = document.spec(spec)?;
    let likings = likings(document);
    let names: BTreeMap<TrialId, &str> = spec
        .trials_and_bin()
        .map(|trial| (trial.id, trial.name.as_str()))
        .collect();
    let lines = spec.trials.iter();
    let lines = lines.map(|trial| line(document, spec, trial, (&names, &likings), pantry));
    Some(TrialHistory {
        drink: spec.name.clone(),
        currency: document.currency.clone(),
        lines: lines.collect(),
    })
}

type Names<'a> = BTreeMap<TrialId, &'a str>;
type Likings = BTreeMap<TrialId, (f64, usize)>;

fn line(
    document: &Document,
    spec: &Spec,
    trial: &Trial,
    (names, likings): (&Names<'_>, &Likings),
    pantry: &mut Pantry,
) -> TrialLine {
    let drink = Drink::of_trial(document, trial, pantry).ok();
    let found = drink.and_then(|drink| figures(&drink).ok());
    let target = spec.target.as_ref();
    let from_target = found.as_ref().zip(target).map(|(found, target)| {
        let steps = steps_between(&found.point, &target.point, &document.senses);
        steps.distance(&spec.balancing.weights)
    });
    let name = |id: &TrialId| names.get(id).copied();
    let made_by = match &trial.made_by {
        MadeBy::Merge(other) => name(other).map(|other| format!("merged with {other}")),
        _ => None,
    };
    let liking = likings.get(&trial.id);
    TrialLine {
        id: trial.id,
        name: trial.name.clone(),
        parent: trial
            .parent
            .as_ref()
            .and_then(name)
            .unwrap_or("")
            .to_owned(),
        made_by: made_by.unwrap_or_else(|| trial.made_by.words()),
        on: trial.made_on.clone(),
        state: trial.state,
        reason: trial.reason.clone(),
        verdict: trial.verdict.clone(),
        figures: found.as_ref().map(served),
        from_target,
        liking: liking.map(|(sum, count)| (sum / *count as f64, *count)),
    }
}

fn served(found: &Figures) -> TrialFigures {
    TrialFigures {
        sweet_g_per_l: found.point.sweet_g_per_l,
        sour_g_per_l: found.point.sour_g_per_l,
        strength_pct_vol: found.point.strength_pct_vol,
        served_ml: found.served_ml,
        cost: found.cost.amount,
        unpriced: found.cost.unpriced,
        priced: found.cost.of - found.cost.unpriced,
    }
}

/// Sum and count of the likings of every trial; those of a tasting that still runs stay hidden.
fn likings(document: &Document) -> Likings {
    let mut found = Likings::new();
    let closed = document.tastings.values().filter(|tasting| tasting.closed);
    let cups = closed.flat_map(|tasting: &Arc<Tasting>| {
        let cups = tasting.tasters.iter().flat_map(|taster| &taster.cups);
        cups.filter_map(|cup| Some((tasting.samples.get(cup.sample)?.trial, cup.liking?)))
    });
    for (trial, liking) in cups {
        let (sum, count) = found.entry(trial).or_default();
        *sum += f64::from(liking);
        *count += 1;
    }
    found
}

impl TrialHistory {
    /// Heads of the columns, with their units.
    pub const HEADS: [&'static str; 17] = [
        "Trial",
        "Grown from",
        "Made by",
        "On",
        "State",
        "Reason",
        "Verdict",
        "Sweet, g/L",
        "Sour, g/L",
        "Strength, % vol",
        "Served, ml",
        "Cost",
        "Currency",
        "Pours without a price",
        "To the target, noticeable differences",
        "Liking, mean of 1 to 9",
        "Answers",
    ];

    /// The table for a spreadsheet: numbers as exactly as they are known, blank where there is none.
    pub fn table(&self) -> PlainTable {
        let rows = self.lines.iter().map(|line| {
            let figure = |of: fn(&TrialFigures) -> f64| {
                let found = line.figures.as_ref();
                found.map_or_else(String::new, |found| exact(of(found)))
            };
            let number = |value: Option<f64>| value.map_or_else(String::new, exact);
            let unpriced = line
                .figures
                .as_ref()
                .map(|found| found.unpriced.to_string());
            // What nobody knows is blank and no 0.
            let priced = line.figures.as_ref().filter(|found| found.priced > 0);
            let cost = priced.map(|found| exact(found.cost));
            let answers = line.liking.map(|(_, count)| count.to_string());
            let mut cells = words(line);
            cells.extend([
                figure(|found| found.sweet_g_per_l),
                figure(|found| found.sour_g_per_l),
                figure(|found| found.strength_pct_vol),
                figure(|found| found.served_ml),
                cost.unwrap_or_default(),
                self.currency.clone(),
                unpriced.unwrap_or_default(),
                number(line.from_target),
                number(line.liking.map(|(mean, _)| mean)),
                answers.unwrap_or_default(),
            ]);
            cells
        });
        PlainTable {
            heads: Self::HEADS.map(str::to_owned).to_vec(),
            rows: rows.collect(),
        }
    }

    /// Heads of the table in Markdown, by which such a text is known.
    pub const MARK: &'static str = "| Trial | Grown from | Made by | On | State | Reason | Verdict \
         | Sweet | Sour | Strength | Served | Cost | To the target | Liking |";

    /// The table in Markdown under the name of the drink, with units and rounded as on screen.
    pub fn markdown(&self) -> String {
        let mut lines = vec![format!("# {}", plain_cell(&self.drink)), String::new()];
        lines.push(Self::MARK.to_owned());
        lines.push(format!("|{}", " --- |".repeat(14)));
        lines.extend(self.lines.iter().map(|line| self.markdown_row(line)));
        lines.join("\n") + "\n"
    }

    fn markdown_row(&self, line: &TrialLine) -> String {
        let figure = |of: &dyn Fn(&TrialFigures) -> String| {
            line.figures.as_ref().map_or_else(String::new, of)
        };
        let cost = |found: &TrialFigures| {
            let of = found.priced + found.unpriced;
            let known = (found.cost, found.priced, of);
            at_least(known, &self.currency).unwrap_or_else(|| "no prices".to_owned())
        };
        let liking = |(mean, count): (f64, usize)| format!("{} of 9 ({count})", number(mean, 1));
        let mut cells = words(line);
        cells.extend([
            figure(&|found| grams_per_litre(found.sweet_g_per_l)),
            figure(&|found| grams_per_litre(found.sour_g_per_l)),
            figure(&|found| percent_vol(found.strength_pct_vol)),
            figure(&|found| format!("{} ml", number(found.served_ml, 0))),
            figure(&cost),
            line.from_target.map_or_else(String::new, noticeable),
            line.liking.map_or_else(String::new, liking),
        ]);
        let cells: Vec<String> = cells.iter().map(|cell| plain_cell(cell)).collect();
        format!("| {} |", cells.join(" | "))
    }
}

/// The cells of words, in the order of the heads.
fn words(line: &TrialLine) -> Vec<String> {
    let state = line.state.name().to_owned();
    let (name, parent, made_by) = (&line.name, &line.parent, &line.made_by);
    let mut cells = [name, parent, made_by, &line.on]
        .map(String::clone)
        .to_vec();
    cells.extend([state, line.reason.clone(), line.verdict.clone()]);
    cells
}

/// A text in one line that Markdown takes for nothing but words.
pub(super) fn plain_cell(text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    let mut plain = String::new();
    for letter in words
        .join(" ")
        .chars()
        .filter(|letter| !letter.is_control())
    {
        if "\\`*_[]<>|#&!~$".contains(letter) {
            plain.push('\\');
        }
        plain.push(letter);
    }
    plain
}
