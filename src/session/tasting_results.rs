//! Everything that a closed tasting says, worked out once.

use super::tasting_kept::{SampleNow, sample_names, sample_now};
use crate::balance::{Drink, Pantry};
use crate::model::{Document, Point, Sample, Tasting};
use crate::tasting::{
    ChoiceResult, JustRightResult, Lesson, RankingResult, SIGNIFICANT, SampleScales, ScaleResult,
    ScoreSheetResult, TastedPoint, choice_result, choice_words, difference_words,
    just_right_result, learn, liking_words, penalty_words, ranking_result, ranking_words,
    scale_words, score_sheet_result, score_words,
};
use std::collections::BTreeMap;

/// What a tasting says; of the results only that of its method is there.
#[derive(Clone, Debug, PartialEq)]
pub struct TastingResults {
    /// Names of the samples.
    pub names: Vec<String>,
    /// What became of their trials since.
    pub now: Vec<SampleNow>,
    /// Just-about-right scales.
    pub scales: Option<JustRightResult>,
    /// Preference, triangle or duo-trio.
    pub choice: Option<ChoiceResult>,
    /// Ranking.
    pub ranking: Option<RankingResult>,
    /// Score sheets.
    pub scores: Option<ScoreSheetResult>,
    /// What the answers suggest for the target of each sample's drink.
    pub lessons: Vec<Option<Lesson>>,
    /// Conclusions in plain words.
    pub said: Vec<String>,
    /// What lies behind them, scale by scale.
    pub details: Vec<String>,
}

/// Works a tasting out, with the other closed tastings of its drinks where lines through several
/// trials can be drawn.
pub fn tasting_results(document: &Document, tasting: &Tasting) -> TastingResults {
    let names = sample_names(document, tasting);
    let now = tasting.samples.iter();
    let mut results = TastingResults {
        now: now.map(|sample| sample_now(document, sample)).collect(),
        scales: just_right_result(tasting),
        choice: choice_result(tasting),
        ranking: ranking_result(tasting),
        scores: score_sheet_result(tasting),
        lessons: lessons(document, tasting),
        said: Vec::new(),
        details: Vec::new(),
        names,
    };
    results.said = conclusions(&results);
    results.details = details(&results);
    results
}

fn conclusions(results: &TastingResults) -> Vec<String> {
    let names = &results.names;
    let mut said = Vec::new();
    if let Some(choice) = &results.choice {
        said.extend(choice_words(choice, names));
    }
    if let Some(ranking) = &results.ranking {
        said.extend(ranking_words(ranking, names));
    }
    if let Some(scores) = &results.scores {
        for place in scores.from_the_best() {
            let words = scores.samples.get(place).map(score_words);
            said.extend(named(names, place, words.unwrap_or_default()));
        }
    }
    if let Some(scales) = &results.scales {
        for (place, sample) in scales.samples.iter().enumerate() {
            said.extend(named(names, place, vec![liking_words(&sample.liking)]));
        }
        let pairs = scales.differences.iter();
        said.extend(pairs.map(|pair| difference_words(pair, names)));
        for (place, sample) in scales.samples.iter().enumerate() {
            let leaning = sample.scales.iter().filter(|scale| leans(scale));
            said.extend(named(names, place, leaning.map(scale_words).collect()));
        }
    }
    said
}

/// The answers lean to one side more than chance does.
fn leans(scale: &ScaleResult) -> bool {
    scale.answers() > 0 && scale.p_leaning_among_all <= SIGNIFICANT
}

/// How the other scales lean, and what that costs in liking where enough tasters say so.
fn details(results: &TastingResults) -> Vec<String> {
    let samples = results.scales.iter().flat_map(|scales| &scales.samples);
    let words = |(place, sample): (usize, &SampleScales)| {
        let others = sample.scales.iter().filter(|scale| !leans(scale));
        let mut words: Vec<String> = others.map(scale_words).collect();
        for scale in &sample.scales {
            let costs = scale.penalties.iter();
            let costs = costs.filter(|one| one.counts && one.drop.is_some_and(|drop| drop > 0.0));
            words.extend(costs.map(|one| penalty_words(scale.attribute, one)));
        }
        named(&results.names, place, words)
    };
    samples.enumerate().flat_map(words).collect()
}

/// The sentences about one sample, each after its name where there are several.
fn named(names: &[String], place: usize, words: Vec<String>) -> Vec<String> {
    match names {
        [_, _, ..] => {
            let name = names.get(place).map_or("?", String::as_str);
            words
                .iter()
                .map(|words| format!("{name}: {words}"))
                .collect()
        }
        _ => words,
    }
}

/// Where a sample lay as it was served; `None` when it cannot be served.
pub fn tasted_point(document: &Document, sample: &Sample, pantry: &mut Pantry) -> Option<Point> {
    let drink = Drink::of_trial(document, &sample.as_tasted, pantry).ok()?;
    Some(Point::from(&drink.served().ok()?))
}

fn lessons(document: &Document, tasting: &Tasting) -> Vec<Option<Lesson>> {
    let mut pantry = Pantry::default();
    let mut tasted: BTreeMap<_, Vec<TastedPoint>> = BTreeMap::new();
    // Where each sample of this tasting stands among those of its drink.
    let mut places: Vec<Option<usize>> = vec![None; tasting.samples.len()];
    for one in document.tastings.values() {
        let is_this = one.id == tasting.id;
        let result = if is_this || one.closed {
            just_right_result(one)
        } else {
            None
        };
        let found = result.map_or_else(Vec::new, |result| result.samples);
        for (place, (sample, scales)) in one.samples.iter().zip(found).enumerate() {
            let Some(point) = tasted_point(document, sample, &mut pantry) else {
                continue;
            };
            let of_drink = tasted.entry(sample.spec).or_default();
            if is_this && let Some(mine) = places.get_mut(place) {
                *mine = Some(of_drink.len());
            }
            of_drink.push(TastedPoint {
                point,
                scales: scales.scales,
            });
        }
    }
    let lesson = |(sample, place): (&Sample, &Option<usize>)| {
        let target = document.spec(sample.spec)?.target.as_ref();
        learn(
            tasted.get(&sample.spec)?,
            (*place)?,
            target.map(|target| &target.point),
            &document.learning,
            &document.senses,
        )
    };
    tasting.samples.iter().zip(&places).map(lesson).collect()
}
