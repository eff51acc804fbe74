//! Tastings to evaluate, built from answers.

use equipour::model::{
    Attribute, Choice, Cup, Dilution, Method, Sample, SpecId, Taster, Tasting, TastingId,
    TastingMethod, Technique, Trial, TrialId, TrialState,
};
use equipour::tasting::plan;
use std::sync::Arc;

/// A tasting without tasters; what is in the samples does not matter to their answers.
pub(crate) fn tasting(method: TastingMethod, samples: usize) -> Tasting {
    let technique = Technique::new(Method::Stirred, Dilution::ByMethod);
    let sample = |place: usize| {
        let id = TrialId(u32::try_from(place).expect("few") + 10);
        Sample {
            spec: SpecId(1),
            trial: id,
            as_tasted: Arc::new(Trial {
                state: TrialState::Tasted,
                ..Trial::new(id, format!("v{place}"), technique, Vec::new())
            }),
        }
    };
    Tasting {
        id: TastingId(1),
        title: "Bench".to_owned(),
        on: String::new(),
        method,
        samples: (0..samples).map(sample).collect(),
        tasters: Vec::new(),
        seed: 7,
        closed: false,
        notes: String::new(),
    }
}

/// So many names.
pub(crate) fn names(count: usize) -> Vec<String> {
    (1..=count)
        .map(|number| format!("Taster {number}"))
        .collect()
}

/// A tasting whose plan is drawn for so many tasters.
pub(crate) fn planned(method: TastingMethod, samples: usize, tasters: usize) -> Tasting {
    let mut made = tasting(method, samples);
    if tasters > 0 {
        made.tasters = plan(&made.method, samples, &names(tasters), made.seed).expect("a plan");
    }
    made
}

/// The cup of a taster that holds a sample.
pub(crate) fn cup(taster: &mut Taster, sample: usize) -> &mut Cup {
    let mut cups = taster.cups.iter_mut();
    cups.find(|cup| cup.sample == sample).expect("a cup of it")
}

/// A taster's cup whose sample is the odd one of three.
fn odd(taster: &Taster) -> usize {
    let times = |sample: usize| {
        taster
            .cups
            .iter()
            .filter(|cup| cup.sample == sample)
            .count()
    };
    let mut cups = taster.cups.iter();
    cups.position(|cup| times(cup.sample) == 1)
        .expect("an odd one")
}

/// The place of the right cup in a triangle or a duo-trio test.
pub(crate) fn right(taster: &Taster) -> usize {
    match taster.reference {
        None => odd(taster),
        Some(reference) => {
            let mut cups = taster.cups.iter();
            cups.position(|cup| cup.sample == reference)
                .expect("the same")
        }
    }
}

/// Lets the first `right_ones` tasters find the right cup and the next `wrong_ones` another.
pub(crate) fn answered(
    method: TastingMethod,
    tasters: usize,
    right_ones: usize,
    wrong_ones: usize,
) -> Tasting {
    let mut made = planned(method, 2, tasters);
    for (place, taster) in made.tasters.iter_mut().enumerate() {
        let cups = taster.cups.len();
        let found = right(taster);
        if place < right_ones {
            taster.choice = Some(Choice::Cup(found));
        } else if place < right_ones + wrong_ones {
            taster.choice = Some(Choice::Cup((found + 1) % cups));
        }
    }
    made
}

/// A ranking from ranks by sample, one row a taster; 0 is no rank.
pub(crate) fn ranked(rows: &[&[u8]]) -> Tasting {
    let samples = rows.first().map_or(2, |row| row.len());
    let mut made = planned(TastingMethod::Ranking, samples, rows.len());
    for (taster, row) in made.tasters.iter_mut().zip(rows) {
        for (sample, rank) in row.iter().enumerate() {
            cup(taster, sample).rank = (*rank > 0).then_some(*rank);
        }
    }
    made
}

/// Just-about-right answers and likings to one attribute, by taster and sample; 0 is no answer.
pub(crate) fn scaled(attribute: Attribute, rows: &[&[(u8, u8)]]) -> Tasting {
    let method = TastingMethod::JustRight {
        attributes: vec![attribute],
    };
    let samples = rows.first().map_or(1, |row| row.len());
    let mut made = planned(method, samples, rows.len());
    for (taster, row) in made.tasters.iter_mut().zip(rows) {
        for (sample, (answer, liking)) in row.iter().enumerate() {
            let cup = cup(taster, sample);
            if *answer > 0 {
                cup.right.insert(attribute, *answer);
            }
            cup.liking = (*liking > 0).then_some(*liking);
        }
    }
    made
}

/// True when two numbers are the same but for rounding.
pub(crate) fn near(a: f64, b: f64, tolerance: f64) -> bool {
    (a - b).abs() <= tolerance
}
