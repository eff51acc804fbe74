//! What tastings, makings and pictures may say.

use super::bench::{BenchRun, Photo};
use super::document::Document;
use super::field_path::FieldPath;
use super::limits::{Checked, check_trial, count, day, number, optional, refuse, text};
use super::pour::Amount;
use super::pour::Source;
use super::tasting::{Choice, Criterion, Cup, Sample, Taster, Tasting, TastingMethod};
use super::trial::TrialState;
use core::ops::RangeInclusive;
use std::collections::{BTreeMap, BTreeSet};

/// Most tastings of one document (our convention, no source).
const MAX_TASTINGS: usize = 500;
/// Most tasters of one tasting (our convention, no source).
pub const MAX_TASTERS: usize = 200;
/// Most lines of a score sheet (our convention, no source).
const MAX_CRITERIA: usize = 20;
/// Most makings kept of one trial (our convention, no source).
const MAX_RUNS: usize = 200;
/// Most pictures of one trial (our convention, no source).
pub const MAX_PHOTOS: usize = 20;
/// Longest name of a picture's file, in bytes.
const LONGEST_FILE: usize = 120;
/// Codes of three digits.
const CODES: RangeInclusive<u16> = 100..=999;

pub(super) fn check_runs(at: &FieldPath<'_>, runs: &[BenchRun], most_lines: usize) -> Checked {
    count(at, runs.len(), MAX_RUNS)?;
    for (place, run) in runs.iter().enumerate() {
        let at = at.index(place);
        day(&at.field("on"), &run.on)?;
        text(&at.field("note"), &run.note)?;
        let lines = at.field("lines");
        count(&lines, run.lines.len(), most_lines)?;
        for (place, line) in run.lines.iter().enumerate() {
            let at = lines.index(place);
            check_amount(&at.field("planned"), &line.planned)?;
            if let Some(poured) = &line.poured {
                check_amount(&at.field("poured"), poured)?;
            }
        }
    }
    Ok(())
}

fn check_amount(at: &FieldPath<'_>, amount: &Amount) -> Checked {
    match amount {
        Amount::Words(words) => text(at, words),
        Amount::Ml(value) | Amount::Grams(value) | Amount::Pieces(value) => number(at, *value),
    }
}

pub(super) fn check_photos(at: &FieldPath<'_>, photos: &[Photo]) -> Checked {
    count(at, photos.len(), MAX_PHOTOS)?;
    for (place, photo) in photos.iter().enumerate() {
        let at = at.index(place);
        text(&at.field("caption"), &photo.caption)?;
        if !is_plain_file(&photo.file) {
            let reason = "must be the plain name of a file, without folders";
            return refuse(&at.field("file"), reason);
        }
    }
    Ok(())
}

/// True for the name of a picture's file that stays in its folder wherever it is put.
pub fn is_plain_file(name: &str) -> bool {
    let plain = |letter: char| letter.is_ascii_alphanumeric() || "-_.".contains(letter);
    !name.is_empty()
        && name.len() <= LONGEST_FILE
        && !name.starts_with('.')
        && name.chars().all(plain)
}

pub(super) fn check_tastings(document: &Document, numbers: &mut BTreeSet<u32>) -> Checked {
    let learning = &document.learning;
    let at = FieldPath::root("learning");
    number(&at.field("steps_per_point"), learning.steps_per_point)?;
    number(&at.field("half_at"), learning.half_at)?;
    let at = FieldPath::root("tastings");
    count(&at, document.tastings.len(), MAX_TASTINGS)?;
    for (id, tasting) in document.tastings.iter() {
        let key = id.to_string();
        let at = at.key(&key);
        if tasting.id != *id {
            return refuse(&at.field("id"), format!("{} stands under {id}", tasting.id));
        }
        if !numbers.insert(id.0) {
            return refuse(&at.field("id"), format!("{id} is used twice"));
        }
        check_tasting(document, &at, tasting)?;
    }
    Ok(())
}

fn check_tasting(document: &Document, at: &FieldPath<'_>, tasting: &Tasting) -> Checked {
    text(&at.field("title"), &tasting.title)?;
    text(&at.field("notes"), &tasting.notes)?;
    day(&at.field("on"), &tasting.on)?;
    check_method(&at.field("method"), &tasting.method)?;
    let samples = at.field("samples");
    let (least, most) = tasting.method.samples();
    if !(least..=most).contains(&tasting.samples.len()) {
        let reason = format!(
            "{} takes {}, not {}",
            tasting.method.name(),
            if least == most {
                format!("{least} samples")
            } else {
                format!("{least} to {most} samples")
            },
            tasting.samples.len()
        );
        return refuse(&samples, reason);
    }
    for (place, sample) in tasting.samples.iter().enumerate() {
        check_sample(document, &samples.index(place), sample)?;
    }
    check_tasters(&at.field("tasters"), tasting)
}

fn check_sample(document: &Document, at: &FieldPath<'_>, sample: &Sample) -> Checked {
    let tasted = &sample.as_tasted;
    let at_trial = at.field("as_tasted");
    if tasted.state == TrialState::Draft {
        return refuse(&at_trial.field("state"), "is a draft, not what was tasted");
    }
    let own = |source: &Source| matches!(source, Source::Ingredient(id) if tasted.frozen.contains_key(id));
    if let Some(place) = tasted.pours.iter().position(|pour| !own(&pour.source)) {
        let pours = at_trial.field("pours");
        let reason = "is no copy that the sample holds itself";
        return refuse(&pours.index(place).field("source"), reason);
    }
    for (field, number) in [("trial", sample.trial.0), ("spec", sample.spec.0)] {
        if number >= document.next_number {
            let reason = format!("{number} was never given to anything");
            return refuse(&at.field(field), reason);
        }
    }
    check_trial(document, &at_trial, tasted)
}

fn check_method(at: &FieldPath<'_>, method: &TastingMethod) -> Checked {
    match method {
        TastingMethod::JustRight { attributes } => {
            let different: BTreeSet<_> = attributes.iter().collect();
            if different.len() < attributes.len() {
                return refuse(&at.field("attributes"), "asks for the same thing twice");
            }
            Ok(())
        }
        TastingMethod::ScoreSheet { criteria, time } => {
            let lines = at.field("criteria");
            count(&lines, criteria.len(), MAX_CRITERIA)?;
            for (place, criterion) in criteria.iter().enumerate() {
                check_criterion(&lines.index(place), criterion)?;
            }
            if criteria.iter().map(|line| line.weight).sum::<f64>() <= 0.0 {
                return refuse(&lines, "needs a line that counts");
            }
            let Some(time) = time else {
                return Ok(());
            };
            let at = at.field("time");
            number(&at.field("allowed_s"), time.allowed_s)?;
            number(&at.field("points"), time.points)?;
            number(&at.field("each_s"), time.each_s)?;
            if time.each_s <= 0.0 {
                return refuse(&at.field("each_s"), "must be above 0");
            }
            Ok(())
        }
        TastingMethod::Preference
        | TastingMethod::Triangle
        | TastingMethod::DuoTrio
        | TastingMethod::Ranking => Ok(()),
    }
}

fn check_criterion(at: &FieldPath<'_>, criterion: &Criterion) -> Checked {
    text(&at.field("name"), &criterion.name)?;
    number(&at.field("weight"), criterion.weight)?;
    number(&at.field("most"), criterion.most)?;
    if criterion.most <= 0.0 {
        return refuse(&at.field("most"), "must be above 0");
    }
    Ok(())
}

fn check_tasters(at: &FieldPath<'_>, tasting: &Tasting) -> Checked {
    count(at, tasting.tasters.len(), MAX_TASTERS)?;
    let mut names = BTreeSet::new();
    let mut codes = BTreeMap::new();
    for (place, taster) in tasting.tasters.iter().enumerate() {
        let at = at.index(place);
        text(&at.field("name"), &taster.name)?;
        let name = taster.name.trim().to_lowercase();
        if name.is_empty() {
            return refuse(&at.field("name"), "is empty");
        }
        if !names.insert(name) {
            let reason = format!("{} has a ballot already", taster.name.trim());
            return refuse(&at.field("name"), reason);
        }
        check_taster(&at, tasting, taster)?;
        for cup in &taster.cups {
            // A code that meant two samples could not be lifted.
            let known = *codes.entry(cup.code).or_insert(cup.sample);
            if known != cup.sample {
                let reason = format!("code {} stands for two samples", cup.code);
                return refuse(&at.field("cups"), reason);
            }
        }
    }
    Ok(())
}

fn check_taster(at: &FieldPath<'_>, tasting: &Tasting, taster: &Taster) -> Checked {
    let cups = at.field("cups");
    let wanted = tasting.method.cups(tasting.samples.len());
    if taster.cups.len() != wanted {
        let reason = format!("holds {} cups, not {wanted}", taster.cups.len());
        return refuse(&cups, reason);
    }
    check_served(at, tasting, taster)?;
    let mut codes = BTreeSet::new();
    for (place, cup) in taster.cups.iter().enumerate() {
        let at = cups.index(place);
        check_cup(&at, tasting, cup)?;
        if !codes.insert(cup.code) {
            let reason = format!("{} is the code of two cups", cup.code);
            return refuse(&at.field("code"), reason);
        }
    }
    if taster
        .reference
        .is_some_and(|sample| sample >= tasting.samples.len())
    {
        return refuse(&at.field("reference"), "is no sample of this tasting");
    }
    match taster.choice {
        Some(Choice::Cup(place)) if place >= taster.cups.len() => {
            refuse(&at.field("choice"), "is no cup of this taster")
        }
        _ => Ok(()),
    }
}

/// A taster gets every sample once; of a triangle both samples, of a duo-trio test a reference, too.
fn check_served(at: &FieldPath<'_>, tasting: &Tasting, taster: &Taster) -> Checked {
    let different: BTreeSet<usize> = taster.cups.iter().map(|cup| cup.sample).collect();
    if different.len() < tasting.samples.len() {
        return refuse(&at.field("cups"), "do not hold every sample");
    }
    let named = tasting.method == TastingMethod::DuoTrio;
    if taster.reference.is_some() != named {
        let reason = if named {
            "is missing in a duo-trio test"
        } else {
            "belongs to a duo-trio test only"
        };
        return refuse(&at.field("reference"), reason);
    }
    Ok(())
}

fn check_cup(at: &FieldPath<'_>, tasting: &Tasting, cup: &Cup) -> Checked {
    if cup.sample >= tasting.samples.len() {
        return refuse(&at.field("sample"), "is no sample of this tasting");
    }
    if !CODES.contains(&cup.code) {
        let reason = format!("{} is no code of three digits", cup.code);
        return refuse(&at.field("code"), reason);
    }
    for (attribute, answer) in &cup.right {
        within(&at.field("right").key(attribute.name()), *answer, 5)?;
    }
    if let Some(liking) = cup.liking {
        within(&at.field("liking"), liking, 9)?;
    }
    if let Some(rank) = cup.rank {
        let most = u8::try_from(tasting.samples.len()).unwrap_or(u8::MAX);
        within(&at.field("rank"), rank, most)?;
    }
    check_marks(&at.field("marks"), &tasting.method, cup)?;
    optional(&at.field("seconds"), cup.seconds)?;
    text(&at.field("comment"), &cup.comment)
}

fn check_marks(at: &FieldPath<'_>, method: &TastingMethod, cup: &Cup) -> Checked {
    let criteria = match method {
        TastingMethod::ScoreSheet { criteria, .. } => criteria.as_slice(),
        _ => &[],
    };
    for (place, mark) in &cup.marks {
        let key = place.to_string();
        let at = at.key(&key);
        number(&at, *mark)?;
        let Some(criterion) = criteria.get(*place) else {
            return refuse(&at, "is no line of the score sheet");
        };
        if *mark > criterion.most {
            let reason = format!("{mark} is above full marks, {}", criterion.most);
            return refuse(&at, reason);
        }
    }
    Ok(())
}

/// A whole number from 1 to `most`.
fn within(at: &FieldPath<'_>, value: u8, most: u8) -> Checked {
    if (1..=most).contains(&value) {
        return Ok(());
    }
    refuse(at, format!("{value} is outside 1 to {most}"))
}
