//! Where figures come from: those of one pour, and the sources behind a figure of the drink.

use super::recipe_sources::brief;
use crate::model::{
    Basis, Confidence, Document, Figure, FigureGroup, Ingredient, Origin, Range, Source, Trial,
    TrialState, source_keys,
};
use crate::store::source_name;
use crate::units::{listed, trimmed};

/// Most sources named behind a figure of the drink.
const MOST_NAMED_SOURCES: usize = 6;

/// One figure of a row and where it comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct FigureProvenance {
    /// What it is, with its unit.
    pub name: String,
    /// The working value.
    pub value: String,
    /// "4.4 to 7.4"; "taken as exact" without a range.
    pub range: String,
    /// How it came about: read, computed, from memory, measured, or not said.
    pub how: String,
    /// Source keys with what they stand for.
    pub sources: Vec<(String, String)>,
    /// The row's own words about its sources.
    pub words: String,
}

/// Where the figures of one pour come from.
#[derive(Clone, Debug, PartialEq)]
pub struct Provenance {
    /// What is poured.
    pub name: String,
    /// What kind of row it is: the larder's, an own one, a measured lot, house-made.
    pub row: String,
    /// How far the row can be trusted as a whole.
    pub trust: String,
    /// Every figure that is stated.
    pub figures: Vec<FigureProvenance>,
    /// What else is to know.
    pub remarks: Vec<String>,
}

/// Where the figures of a pour come from; `None` where there is no such pour or no row for it.
pub fn provenance(document: &Document, trial: &Trial, pour: usize) -> Option<Provenance> {
    let pour = trial.pours.get(pour)?;
    let settled = document.settle(trial, pour)?;
    let item: &Ingredient = settled.ingredient;
    let made = made_of(document, &pour.source);
    let mut remarks = Vec::new();
    if !item.note.is_empty() {
        remarks.push(item.note.clone());
    }
    if trial.state != TrialState::Draft {
        remarks.push("These are the figures as they were when the trial was tasted.".to_owned());
    }
    Some(Provenance {
        name: settled.name.to_owned(),
        row: made.clone().unwrap_or_else(|| row_words(&item.origin)),
        trust: trust_words(item.confidence).to_owned(),
        figures: figures_of(item, made.is_some()),
        remarks,
    })
}

/// The sources behind a figure of the drink by their names, in a sentence: "Sources: OIML R 22
/// (1975) (gin)."; empty where no pour states such a figure.
pub fn drawn_from(document: &Document, trial: &Trial, group: FigureGroup) -> String {
    let mut found: Vec<(String, Vec<&str>)> = Vec::new();
    let mut unsaid: Vec<&str> = Vec::new();
    for pour in &trial.pours {
        let Some(settled) = document.settle(trial, pour) else {
            continue;
        };
        let item: &Ingredient = settled.ingredient;
        if !group.is_stated_by(item) || pour.amount.value().is_none_or(|amount| amount <= 0.0) {
            continue;
        }
        let keys: Vec<_> = source_keys(item.sources.of(group)).collect();
        if keys.is_empty() && !unsaid.contains(&settled.name) {
            unsaid.push(settled.name);
        }
        for (_, key) in keys {
            let source = source_name(key).map_or(key, |name| brief(name));
            match found.iter_mut().find(|(known, _)| *known == source) {
                Some((_, names)) if names.contains(&settled.name) => {}
                Some((_, names)) => names.push(settled.name),
                None => found.push((source.to_owned(), vec![settled.name])),
            }
        }
    }
    let more = found.len().saturating_sub(MOST_NAMED_SOURCES);
    let named = found.iter().take(MOST_NAMED_SOURCES);
    let mut parts: Vec<String> = named
        .map(|(source, names)| format!("{source} ({})", listed(names)))
        .collect();
    if more > 0 {
        parts.push(format!("{more} more"));
    }
    let mut said = Vec::new();
    if !parts.is_empty() {
        said.push(format!("Sources: {}.", parts.join("; ")));
    }
    if !unsaid.is_empty() {
        said.push(format!("No source is given for {}.", listed(&unsaid)));
    }
    said.join(" ")
}

/// Words of a lot or of something house-made.
fn made_of(document: &Document, source: &Source) -> Option<String> {
    match source {
        Source::Ingredient(_) => None,
        Source::Preparation { preparation, .. } => {
            let name = document
                .preparations
                .get(preparation)
                .map(|made| &made.name);
            let name = name.map_or("a preparation", |name| name.as_str());
            Some(format!(
                "House-made: worked out from the inputs and steps of {name}"
            ))
        }
        Source::Lot(id) => {
            let lot = document.lots.get(id)?;
            let day = match lot.made_on.as_str() {
                "" => String::new(),
                day => format!(", made on {day}"),
            };
            Some(format!(
                "Measured batch {}{day}: the larder's figures, changed until instruments would show what was read",
                lot.label
            ))
        }
    }
}

fn row_words(origin: &Origin) -> String {
    match origin {
        Origin::Own => "A row of this document, entered or changed by hand".to_owned(),
        Origin::BuiltIn { larder_version } => {
            format!("The built-in larder, version {larder_version}")
        }
    }
}

const fn trust_words(confidence: Confidence) -> &'static str {
    match confidence {
        Confidence::High => "high: measured or read in a handbook",
        Confidence::Medium => "medium: partly from memory, or sources disagree",
        Confidence::Low => "low: an estimate, to be measured before relying on it",
    }
}

/// Name, unit, group and value of a figure that a row may state.
type Named = (&'static str, &'static str, FigureGroup, Option<Range>);

/// Every figure that a row may state, in the order of a form.
fn named_figures(item: &Ingredient) -> impl Iterator<Item = Named> {
    let per = match item.basis {
        Basis::Per100Ml => "g per 100 ml",
        Basis::Per100G => "g per 100 g",
    };
    let ranges = Figure::ALL.map(|figure| {
        let unit = match figure.group() {
            FigureGroup::Strength => "% vol",
            FigureGroup::Acid => "g per 100 ml",
            FigureGroup::Ph => "at 25 °C",
            FigureGroup::Sugar | FigureGroup::Density | FigureGroup::Other => per,
        };
        (figure.name(), unit, figure.group(), figure.of(item))
    });
    let density = item.density.map(|found| Range::exact(found.g_per_ml));
    let rest = [
        ("water", item.water_g),
        ("fat", item.fat_g),
        ("protein", item.protein_g),
        ("salt", item.salt_g),
        ("gum", item.gum_g),
        ("starch and fibre", item.starch_g),
        ("glycerol", item.glycerol_g),
    ];
    let rest = rest.map(|(name, grams)| (name, per, FigureGroup::Other, grams.map(Range::exact)));
    ranges
        .into_iter()
        .chain([("density", "g/ml", FigureGroup::Density, density)])
        .chain(rest)
}

fn figures_of(item: &Ingredient, is_made: bool) -> Vec<FigureProvenance> {
    let stated = |(name, unit, group, range): Named| {
        let range = range?;
        let words = item.sources.of(group);
        let is_exact = range.high - range.low < 1.0e-9;
        let measured = group == FigureGroup::Density && item.density.is_some_and(|it| it.measured);
        Some(FigureProvenance {
            name: format!("{name}, {unit}"),
            value: trimmed(range.typical, 3),
            range: if is_exact {
                "taken as exact".to_owned()
            } else {
                format!("{} to {}", trimmed(range.low, 3), trimmed(range.high, 3))
            },
            how: how_words(words, is_made, measured),
            sources: meanings(words),
            words: words.to_owned(),
        })
    };
    named_figures(item).filter_map(stated).collect()
}

/// How a figure came about, by the letters in front of its keys.
fn how_words(text: &str, is_made: bool, measured: bool) -> String {
    let mut how: Vec<&str> = Vec::new();
    if measured {
        how.push("measured");
    }
    for (letter, _) in source_keys(text) {
        let words = match letter {
            "a" => "read in a source",
            "b" => "computed or carried over",
            _ => "from memory",
        };
        if !how.contains(&words) {
            how.push(words);
        }
    }
    match (how.is_empty(), is_made) {
        (false, _) => listed(&how),
        (true, true) => "computed".to_owned(),
        (true, false) => "assumed: no source is given".to_owned(),
    }
}

/// Every key once, with what it stands for.
fn meanings(text: &str) -> Vec<(String, String)> {
    let mut found: Vec<(String, String)> = Vec::new();
    for (_, key) in source_keys(text) {
        if found.iter().all(|(known, _)| known != key) {
            let meaning = source_name(key).unwrap_or("not explained");
            found.push((key.to_owned(), meaning.to_owned()));
        }
    }
    found
}

impl Provenance {
    /// The same as text, to paste.
    pub fn text(&self) -> String {
        let mut lines = vec![
            self.name.clone(),
            self.row.clone(),
            format!("Confidence: {}", self.trust),
        ];
        for figure in &self.figures {
            let keys: Vec<&str> = figure.sources.iter().map(|(key, _)| key.as_str()).collect();
            let keys = if keys.is_empty() {
                String::new()
            } else {
                format!("; {}", keys.join(", "))
            };
            lines.push(format!(
                "{}: {} ({}); {}{keys}",
                figure.name, figure.value, figure.range, figure.how
            ));
        }
        lines.extend(self.remarks.iter().cloned());
        lines.join("\n")
    }
}
