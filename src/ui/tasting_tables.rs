//! Figures of a closed tasting as tables: penalties, choices, rank sums, scores.

use super::theme::Tokens;
use crate::model::{Attribute, Tasting, TastingMethod};
use crate::session::TastingResults;
use crate::tasting::{
    ChoiceResult, ChoiceTest, JustRightResult, Penalty, PenaltySide, RankPair, RankingResult,
    ScoreSheetResult, probability_words,
};
use crate::units::{number, percent, trimmed};
use eframe::egui::{Grid, RichText, Ui};

/// A figure that is not known.
const UNKNOWN: &str = "–";

/// Shows the table of the tasting's method.
pub(super) fn ui(ui: &mut Ui, tasting: &Tasting, results: &TastingResults) {
    let names = &results.names;
    if let Some(scales) = &results.scales {
        liking(ui, names, scales);
        penalties(ui, names, scales);
    }
    if let Some(choice) = &results.choice {
        self::choice(ui, names, choice);
    }
    if let Some(ranking) = &results.ranking {
        self::ranking(ui, names, ranking);
    }
    if let Some(found) = &results.scores {
        scores(ui, tasting, names, found);
    }
}

/// A table with heads that teach.
fn table(ui: &mut Ui, title: &str, heads: &[(&str, &str)], rows: &[Vec<String>]) {
    ui.add_space(4.0);
    ui.label(RichText::new(title).strong());
    let grid = Grid::new(title).striped(true).spacing([16.0, 4.0]);
    grid.show(ui, |ui| {
        for (words, teach) in heads {
            let head = RichText::new(*words).small().color(Tokens::of(ui).weak);
            ui.label(head).on_hover_text(*teach);
        }
        ui.end_row();
        for row in rows {
            for cell in row {
                ui.label(cell);
            }
            ui.end_row();
        }
    });
}

fn figure(value: Option<f64>, decimals: usize) -> String {
    value.map_or_else(|| UNKNOWN.to_owned(), |value| number(value, decimals))
}

fn p_words(p: Option<f64>) -> String {
    p.map_or_else(|| UNKNOWN.to_owned(), probability_words)
}

fn name(names: &[String], place: usize) -> String {
    names.get(place).cloned().unwrap_or_default()
}

fn liking(ui: &mut Ui, names: &[String], scales: &JustRightResult) {
    let heads = [
        ("sample", "The trial as it was tasted"),
        ("answers", "How many said how they like it"),
        ("mean liking", "1 disliked extremely, 9 liked extremely"),
        ("95 %", "The true mean lies in here with 95 % confidence"),
    ];
    let samples = scales.samples.iter().enumerate();
    let rows: Vec<Vec<String>> = samples
        .map(|(place, sample)| {
            let liking = &sample.liking;
            let bounds = liking.interval.map_or_else(
                || UNKNOWN.to_owned(),
                |bounds| format!("{} to {}", number(bounds.low, 1), number(bounds.high, 1)),
            );
            vec![
                name(names, place),
                liking.answers.to_string(),
                figure(liking.mean, 2),
                bounds,
            ]
        })
        .collect();
    table(ui, "Liking", &heads, &rows);
}

fn penalties(ui: &mut Ui, names: &[String], scales: &JustRightResult) {
    let heads = [
        ("sample", "The trial as it was tasted"),
        ("what", "The side of just right"),
        ("tasters", "How many say so and how they like it"),
        (
            "share",
            "Of all who answered both; below 20 % nothing is concluded",
        ),
        ("liking", "Their mean liking"),
        (
            "costs",
            "Mean liking of those who find it just right, less theirs",
        ),
        ("of all", "Cost times share: what the whole panel loses"),
        (
            "p",
            "Probability of groups so far apart if both liked it alike",
        ),
        ("", ""),
    ];
    let mut rows = Vec::new();
    for (place, sample) in scales.samples.iter().enumerate() {
        for scale in &sample.scales {
            let costs = scale.penalties.iter().filter(|one| one.count > 0);
            rows.extend(costs.map(|one| penalty_row(name(names, place), scale.attribute, one)));
        }
    }
    if !rows.is_empty() {
        table(ui, "What it costs in liking", &heads, &rows);
    }
}

fn penalty_row(sample: String, attribute: Attribute, penalty: &Penalty) -> Vec<String> {
    let (little, much) = attribute.ends();
    let side = match penalty.side {
        PenaltySide::TooLittle => little,
        PenaltySide::TooMuch => much,
    };
    let counts = match penalty.drop {
        None => "nobody finds it just right to compare with",
        Some(drop) if drop <= 0.0 => "not liked less: it costs nothing",
        Some(_) if penalty.counts => "",
        Some(_) => "below 20 % of answers: shown only",
    };
    vec![
        sample,
        side.to_owned(),
        penalty.count.to_string(),
        percent(penalty.share, 0),
        figure(penalty.liking, 2),
        figure(penalty.drop, 2),
        figure(penalty.weighted, 2),
        p_words(penalty.p),
        counts.to_owned(),
    ]
}

fn choice(ui: &mut Ui, names: &[String], found: &ChoiceResult) {
    let heads = [("", ""), ("", "")];
    let answers = found.answers;
    let mut rows = vec![vec!["answers that count".to_owned(), answers.to_string()]];
    if found.test == ChoiceTest::Preference {
        for (place, count) in found.preferred.iter().enumerate() {
            let who = format!("prefer {}", name(names, place));
            rows.push(vec![who, count.to_string()]);
        }
    } else {
        rows.push(vec!["right".to_owned(), found.count.to_string()]);
    }
    let needed = found.needed.map_or_else(
        || "not even all".to_owned(),
        |needed| format!("{needed} of {answers}"),
    );
    rows.push(vec![
        "by chance alone".to_owned(),
        probability_words(found.p),
    ]);
    rows.push(vec!["significant from".to_owned(), needed]);
    let sure = percent(found.test.confidence(), 0);
    if let Some(share) = found.share {
        let words = format!("{} to {}", percent(share.low, 0), percent(share.high, 0));
        rows.push(vec![format!("true share, {sure}"), words]);
    }
    if let Some((share, bounds)) = found.discriminators {
        let (low, high) = (percent(bounds.low, 0), percent(bounds.high, 0));
        let words = format!("{}, {low} to {high}", percent(share, 0));
        rows.push(vec![format!("tell them apart, {sure}"), words]);
    }
    table(ui, "Exact binomial test", &heads, &rows);
}

fn ranking(ui: &mut Ui, names: &[String], found: &RankingResult) {
    let heads = [
        ("sample", "The trial as it was tasted"),
        ("rank sum", "Sum of ranks, the smallest best"),
        ("mean rank", "Rank sum over complete ballots"),
    ];
    let ballots = found.ballots.max(1) as f64;
    let order = found.from_the_best();
    let rows: Vec<Vec<String>> = order
        .iter()
        .filter_map(|place| Some((*place, *found.rank_sums.get(*place)?)))
        .map(|(place, sum)| {
            vec![
                name(names, place),
                trimmed(sum, 1),
                number(sum / ballots, 2),
            ]
        })
        .collect();
    table(ui, "Rank sums", &heads, &rows);
    let how = if found.exact { "exact" } else { "chi-square" };
    let words = format!(
        "Friedman’s F {}, {} ({how}); rank sums differ from {} on.",
        number(found.statistic, 2),
        probability_words(found.p),
        number(found.least_difference, 1)
    );
    ui.label(RichText::new(words).color(Tokens::of(ui).weak));
    pairs(ui, names, found);
}

fn pairs(ui: &mut Ui, names: &[String], found: &RankingResult) {
    let heads = [
        ("better", "Ranked better"),
        ("worse", "Ranked worse"),
        ("difference", "Of their rank sums"),
        ("", ""),
    ];
    let pair = |pair: &RankPair| {
        let verdict = if pair.differs {
            "differ"
        } else {
            "no evidence of a difference"
        };
        vec![
            name(names, pair.better),
            name(names, pair.worse),
            trimmed(pair.difference, 1),
            verdict.to_owned(),
        ]
    };
    let rows: Vec<Vec<String>> = found.pairs.iter().map(pair).collect();
    table(ui, "Pairs", &heads, &rows);
}

fn scores(ui: &mut Ui, tasting: &Tasting, names: &[String], found: &ScoreSheetResult) {
    let TastingMethod::ScoreSheet { criteria, .. } = &tasting.method else {
        return;
    };
    let mut heads = vec![
        ("sample", "The trial as it was tasted"),
        ("of 100", "Mean of the judges' totals"),
        ("spread", "Standard deviation of the totals"),
        ("judges", "Sheets that count"),
    ];
    let share = "Mean share of full marks";
    heads.extend(criteria.iter().map(|line| (line.name.as_str(), share)));
    let rows: Vec<Vec<String>> =
        found
            .from_the_best()
            .into_iter()
            .filter_map(|place| Some((place, found.samples.get(place)?)))
            .map(|(place, score)| {
                let mut row = vec![
                    name(names, place),
                    figure(score.mean, 1),
                    figure(score.spread, 1),
                    score.counted.to_string(),
                ];
                let lines = score.lines.iter();
                row.extend(lines.map(|share| {
                    share.map_or_else(|| UNKNOWN.to_owned(), |share| percent(share, 0))
                }));
                row
            })
            .collect();
    table(ui, "Scores", &heads, &rows);
    judges(ui, tasting, names, found);
}

fn judges(ui: &mut Ui, tasting: &Tasting, names: &[String], found: &ScoreSheetResult) {
    let heads = [
        ("judge", "Who gave the marks"),
        ("sample", "The trial as it was tasted"),
        ("marks", "Weighted shares of full marks, of 100"),
        ("time", "Points of 100 that time cost"),
        ("total", "Marks less what time cost"),
    ];
    let mut rows = Vec::new();
    for (place, sample) in found.samples.iter().enumerate() {
        for judge in &sample.judges {
            let who = tasting.tasters.get(judge.taster);
            rows.push(vec![
                who.map_or_else(String::new, |taster| taster.name.clone()),
                name(names, place),
                figure(judge.marks, 1),
                number(judge.time_points, 1),
                figure(judge.total, 1),
            ]);
        }
    }
    table(ui, "Judges", &heads, &rows);
}
