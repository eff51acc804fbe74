//! A preparation as a card for the kitchen, in plain text.

use super::batch::{Batch, batch};
use super::carried::allergens;
use super::caution::{Caution, cautions};
use super::dissolved::readable_brix;
use super::flow_error::FlowError;
use super::garnish::{garnish_words, pieces_in};
use super::keeping::{Keeping, keeping};
use super::kinds::is_weighed;
use super::row::believed_ph;
use super::shelf::CAUTION;
use super::stream::Stream;
use super::timing::{Minutes, timing};
use super::unstated::unstated;
use super::upstream::Upstream;
use crate::model::{Document, Ingredient, Input, PreparationId, Step};
use crate::physics::Composition;
use crate::units::{
    Measures, Unit, capital, celsius, grams_per_litre, listed, number, percent_vol, show, trimmed,
};

/// A card in its parts, each a line of plain text.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CardParts {
    /// Name of the preparation.
    pub name: String,
    /// What one batch makes; blank without an output.
    pub makes: String,
    /// How long it takes, and how much of it is work.
    pub takes: String,
    /// Longest time from the first move to the last step, those of other preparations left out, min.
    pub minutes: f64,
    /// What has to be made before.
    pub first: Vec<String>,
    /// What goes in, with grams.
    pub inputs: Vec<String>,
    /// What is done.
    pub steps: Vec<String>,
    /// The same in sentences, for somebody who was not there.
    pub sentences: Vec<String>,
    /// What comes out, with figures, life and allergens.
    pub outputs: Vec<String>,
    /// What to mind, with sources.
    pub mind: Vec<String>,
    /// What somebody who makes it has to mind, without sources.
    pub warnings: Vec<String>,
}

/// The card of a preparation in its parts. Fails as the flow does.
pub fn card_parts(document: &Document, id: &PreparationId) -> Result<CardParts, FlowError> {
    let batch = batch(document, id)?;
    let time = timing(document, id)?;
    let (whole, work) = (between(time.total_min), lasting(time.hands_on_min));
    let kept = keeping(document, id)?;
    let unsaid = unstated(document, id);
    let output = |name: &String| {
        let words = output_words(document, &batch, name, kept.get(name), &unsaid);
        format!("{name}: {words}")
    };
    let before = time.before.iter();
    let minded = cautions(document, id)?;
    Ok(CardParts {
        name: batch.preparation.name.clone(),
        makes: makes(document, &batch),
        takes: format!("Takes {whole}, {work} of it work"),
        minutes: time.total_min.most,
        first: before
            .map(|own| format!("First make {}: {}", own.name, between(own.total_min)))
            .collect(),
        inputs: inputs(document, &batch),
        steps: batch.preparation.steps.iter().map(step_words).collect(),
        sentences: batch.preparation.steps.iter().map(step_sentence).collect(),
        outputs: batch.flow.outputs.iter().map(output).collect(),
        mind: minded.iter().map(minded_words).collect(),
        warnings: minded
            .iter()
            .filter(|caution| !caution.is_remark)
            .map(|caution| format!("{}: {}", caution.subject, caution.text))
            .collect(),
    })
}

/// The card of a preparation: yield, what goes in, steps, what comes out with its figures, how it
/// keeps, and everything to mind. Fails as the flow does.
pub fn card(document: &Document, id: &PreparationId) -> Result<String, FlowError> {
    let parts = card_parts(document, id)?;
    let indented = |line: &String| format!("  {line}");
    let mut lines = vec![parts.name];
    lines.extend(Some(parts.makes).filter(|makes| !makes.is_empty()));
    lines.push(parts.takes);
    lines.extend(parts.first);
    lines.extend([String::new(), "Goes in".to_owned()]);
    lines.extend(parts.inputs.iter().map(indented));
    lines.extend([String::new(), "Steps".to_owned()]);
    let steps = parts.steps.iter().enumerate();
    lines.extend(steps.map(|(place, step)| format!("  {}. {step}", place + 1)));
    lines.extend([String::new(), "Comes out".to_owned()]);
    lines.extend(parts.outputs.iter().map(indented));
    lines.extend([String::new(), "Mind".to_owned()]);
    lines.extend(parts.mind.iter().map(indented));
    lines.push(CAUTION.to_owned());
    Ok(lines.join("\n") + "\n")
}

fn minded_words(caution: &Caution) -> String {
    let Caution {
        subject,
        text,
        source,
        ..
    } = caution;
    format!("{subject}: {text} ({source})")
}

/// What one batch makes; blank without an output.
fn makes(document: &Document, batch: &Batch<'_>) -> String {
    let Some((main, _)) = batch.preparation.main_output() else {
        return String::new();
    };
    let stream = batch.flow.streams.get(main).copied().unwrap_or_default();
    let made = amount(&stream.whole(), is_liquid(&stream), &document.measures);
    format!("Makes {made} of {main}")
}

fn inputs(document: &Document, batch: &Batch<'_>) -> Vec<String> {
    let line = |input: &Input| {
        let stream = batch.flow.streams.get(&input.name).copied();
        let row = document.row_of(&input.source);
        let row = row.and_then(|row| document.ingredients.get(row));
        let supply = batch.supplies.inputs.get(&input.name);
        let pours = row
            .zip(supply)
            .is_some_and(|(row, supply)| !is_weighed(row, &supply.contents));
        let what = row.map_or(input.name.as_str(), |row| row.name.as_str());
        let words = if what == input.name {
            what.to_owned()
        } else {
            format!("{} ({what})", input.name)
        };
        let whole = stream.unwrap_or_default().whole();
        format!("{words}: {}", amount(&whole, pours, &document.measures))
    };
    batch.preparation.inputs.iter().map(line).collect()
}

fn is_liquid(stream: &Stream) -> bool {
    stream.liquid.mass_g() > stream.solid.mass_g()
}

/// Grams, with the volume of what is poured.
fn amount(whole: &Composition, pours: bool, measures: &Measures) -> String {
    let mass = whole.mass_g();
    // No kitchen scale tells hundredths beside hundreds of grams.
    let mass = if mass < 100.0 { mass } else { mass.round() };
    let grams = show(mass, Unit::Gram, measures);
    if pours {
        let ml = show(whole.volume_ml().round(), Unit::Ml, measures);
        format!("{grams} (about {ml})")
    } else {
        grams
    }
}

fn step_words(step: &Step) -> String {
    let mut what = format!("{} {}", step.does.name(), step.from.join(", "));
    if !step.to.is_empty() {
        what = format!("{what} → {}", step.to.join(" and "));
    }
    let mut words = vec![what];
    words.extend(step.celsius.map(celsius));
    if step.hands_on_min > 0.0 {
        words.push(format!("{} work", lasting(step.hands_on_min)));
    }
    let wait = Minutes {
        least: step.wait.least_min,
        most: step.wait.most_min,
    };
    if wait.most > 0.0 {
        words.push(format!("wait {}", between(wait)));
    }
    if !step.equipment.is_empty() {
        words.push(step.equipment.join(", "));
    }
    // A step is one line of the card, whatever its note is.
    let note = step.note.lines().map(str::trim);
    words.extend(note.filter(|line| !line.is_empty()).map(str::to_owned));
    words.join("; ")
}

/// "Dehydrate purée for crisp at 64 °C: 15 min of work, then 4 to 10 h by itself. With a tray. …"
fn step_sentence(step: &Step) -> String {
    let mut sentence = format!("{} {}", capital(step.does.name()), listed(&step.from));
    if !step.to.is_empty() {
        sentence = format!("{sentence} for {}", listed(&step.to));
    }
    if let Some(degrees) = step.celsius {
        sentence = format!("{sentence} at {} °C", trimmed(degrees, 1));
    }
    let wait = Minutes {
        least: step.wait.least_min,
        most: step.wait.most_min,
    };
    let work = (step.hands_on_min > 0.0).then(|| format!("{} of work", lasting(step.hands_on_min)));
    let by_itself = (wait.most > 0.0).then(|| format!("{} by itself", between(wait)));
    let times: Vec<String> = work.into_iter().chain(by_itself).collect();
    if !times.is_empty() {
        sentence = format!("{sentence}: {}", times.join(", then "));
    }
    let mut sentences = vec![sentence];
    if !step.equipment.is_empty() {
        sentences.push(format!("With {}", step.equipment.join(", ")));
    }
    let note = step.note.lines().map(str::trim);
    sentences.extend(
        note.filter(|line| !line.is_empty())
            .map(|line| line.trim_end_matches('.').to_owned()),
    );
    format!("{}.", sentences.join(". "))
}

fn output_words(
    document: &Document,
    batch: &Batch<'_>,
    name: &str,
    kept: Option<&Keeping>,
    unsaid: &[String],
) -> String {
    let stream = batch.flow.streams.get(name).copied().unwrap_or_default();
    let whole = stream.whole();
    let mut words = vec![amount(&whole, is_liquid(&stream), &document.measures)];
    if whole.volume_ml() > 0.0 {
        let brix = readable_brix(&stream.liquid);
        words.extend(brix.map(|brix| format!("{} °Bx", number(brix, 1))));
        words.push(percent_vol(whole.percent_vol()));
        let acid = grams_per_litre(whole.sour_g_per_l());
        words.push(format!("acid {acid} as citric"));
        if let Some(ph) = believed_ph(&whole) {
            words.push(format!("pH {}", number(ph, 2)));
        }
        words.push(format!("{} g/ml", number(whole.density_g_per_ml(), 3)));
    }
    if let Some(garnish) = batch.preparation.garnishes.get(name) {
        let pieces = pieces_in(document, batch.preparation, name, &stream);
        words.extend(garnish_words(garnish, pieces));
    }
    if let Some(kept) = kept {
        words.push(kept.shelf.class.name().to_owned());
        words.extend(kept.because.first().map(|because| {
            let days = trimmed(because.days, 1);
            format!("keeps {days} d ({}; {})", because.words, because.source)
        }));
    }
    let upstream = Upstream::of(document, batch, name);
    let rows: Vec<&Ingredient> = upstream.inputs.iter().map(|(_, item)| *item).collect();
    let held = allergens(&rows);
    words.extend(allergen_words(&held, unsaid));
    words.join("; ")
}

/// What it holds, and what nobody says of it.
fn allergen_words(held: &str, unsaid: &[String]) -> Vec<String> {
    let mut words = Vec::new();
    if !held.is_empty() {
        words.push(format!("allergens: {held}"));
    }
    if !unsaid.is_empty() {
        let names = unsaid.join(", ");
        words.push(format!("allergens not stated: check {names}"));
    }
    words
}

/// A span of time in the unit that a cook would say.
fn lasting(minutes: f64) -> String {
    let (value, unit) = in_unit(minutes, minutes);
    format!("{value} {unit}")
}

/// Two spans in the unit of the longer one.
fn between(minutes: Minutes) -> String {
    let (least, unit) = in_unit(minutes.least, minutes.most);
    let (most, _) = in_unit(minutes.most, minutes.most);
    if least == most {
        format!("{most} {unit}")
    } else {
        format!("{least} to {most} {unit}")
    }
}

fn in_unit(minutes: f64, like: f64) -> (String, &'static str) {
    let (per, unit) = if like < 120.0 {
        (1.0, "min")
    } else if like < 2880.0 {
        (60.0, "h")
    } else {
        (1440.0, "days")
    };
    (trimmed(minutes / per, 1), unit)
}
