//! A tasting on paper: the table for whoever pours, and the ballots.

use super::tasting_kept::sample_names;
use super::trial_history::plain_cell;
use crate::model::{Attribute, Criterion, Cup, Document, Taster, Tasting, TastingMethod};
use crate::units::{capital, trimmed};

/// Widest line of a ballot, in letters.
pub const BALLOT_COLUMNS: usize = 72;
/// Letters for the name of a scale, and for the words at its lower end.
const NAME: usize = 11;
const END: usize = 17;

/// The serving plan as a Markdown table: a line for each taster, a column for each place in the row.
pub fn serving_table(document: &Document, tasting: &Tasting) -> String {
    let names = sample_names(document, tasting);
    let name = |sample: usize| names.get(sample).map_or("?", String::as_str);
    let cups = tasting.method.cups(tasting.samples.len());
    let has_reference = tasting.method == TastingMethod::DuoTrio;
    let reference = has_reference.then(|| "reference".to_owned());
    let mut heads = vec!["taster".to_owned()];
    heads.extend(reference);
    heads.extend((1..=cups).map(|place| format!("cup {place}")));
    let mut lines = vec![
        format!("# {}: serving plan", cell(&tasting.title)),
        String::new(),
        "For the person who pours, not for tasters.".to_owned(),
        String::new(),
        format!("Cups to pour: {}.", cell(&cups_to_pour(document, tasting))),
        String::new(),
        table_row(&heads),
        table_rule(heads.len()),
    ];
    for taster in &tasting.tasters {
        let mut cells = vec![taster.name.clone()];
        if has_reference {
            cells.push(taster.reference.map_or("", name).to_owned());
        }
        let cups = taster.cups.iter();
        cells.extend(cups.map(|cup| format!("{}: {}", cup.code, name(cup.sample))));
        lines.push(table_row(&cells));
    }
    lines.push(String::new());
    lines.join("\n")
}

/// How many cups of each sample are served, those named as a reference too: "6 of Trial 1, 6 of Trial 2".
pub fn cups_to_pour(document: &Document, tasting: &Tasting) -> String {
    let names = sample_names(document, tasting);
    let count = |sample: usize| {
        let served = tasting.tasters.iter().flat_map(|taster| {
            let cups = taster.cups.iter().map(|cup| cup.sample);
            cups.chain(taster.reference)
        });
        served.filter(|one| *one == sample).count()
    };
    let each = names.iter().enumerate();
    let each = each.map(|(sample, name)| format!("{} of {name}", count(sample)));
    each.collect::<Vec<_>>().join(", ")
}

/// One row of a Markdown table.
pub(super) fn table_row(cells: &[String]) -> String {
    let cells: Vec<String> = cells.iter().map(|words| cell(words)).collect();
    format!("| {} |", cells.join(" | "))
}

/// The rule below the heads of a Markdown table.
pub(super) fn table_rule(columns: usize) -> String {
    format!("{}|", "| --- ".repeat(columns))
}

/// Words that stand in one cell of a table.
pub(super) fn cell(words: &str) -> String {
    plain_cell(words)
}

/// The ballots of all tasters as plain text, none wider than [`BALLOT_COLUMNS`]; only codes are named.
pub fn ballots(tasting: &Tasting) -> String {
    let one = |taster: &Taster| ballot(tasting, taster);
    let all: Vec<String> = tasting.tasters.iter().map(one).collect();
    all.join(&format!(
        "\n{}\n\n",
        "- ".repeat(BALLOT_COLUMNS / 2).trim_end()
    ))
}

fn ballot(tasting: &Tasting, taster: &Taster) -> String {
    let mut text = String::new();
    line(&mut text, &tasting.title);
    if !tasting.on.is_empty() {
        line(&mut text, &tasting.on);
    }
    line(&mut text, &format!("Taster: {}", taster.name));
    text.push('\n');
    match &tasting.method {
        TastingMethod::JustRight { attributes } => scales(&mut text, taster, attributes),
        TastingMethod::Ranking => {
            let words = "Write 1 beside the best; cups that you like alike share a number.";
            line(&mut text, words);
            for cup in &taster.cups {
                line(&mut text, &format!("  [ {} ]  rank ____", cup.code));
            }
            line(&mut text, &blank("comment"));
        }
        TastingMethod::ScoreSheet { criteria, time } => {
            marks(&mut text, taster, criteria, time.is_some());
        }
        TastingMethod::Preference | TastingMethod::Triangle | TastingMethod::DuoTrio => {
            choices(&mut text, taster, &tasting.method);
        }
    }
    text
}

fn scales(text: &mut String, taster: &Taster, attributes: &[Attribute]) {
    line(text, "Tick one box in every line; 3 is just right.");
    for (place, cup) in taster.cups.iter().enumerate() {
        head(text, place, cup);
        for attribute in attributes {
            scale(text, *attribute);
        }
        liking(text);
        line(text, &blank("comment"));
    }
}

fn marks(text: &mut String, taster: &Taster, criteria: &[Criterion], timed: bool) {
    for (place, cup) in taster.cups.iter().enumerate() {
        head(text, place, cup);
        for criterion in criteria {
            let most = trimmed(criterion.most, 2);
            line(text, &format!("  ____ of {most}  {}", criterion.name));
        }
        if timed {
            line(text, "  ____ seconds taken");
        }
        line(text, &blank("comment"));
    }
}

fn choices(text: &mut String, taster: &Taster, method: &TastingMethod) {
    let (asked, none) = choice_asked(method);
    line(text, asked);
    if *method == TastingMethod::DuoTrio {
        line(text, "  R      the reference, tasted first");
    }
    for cup in &taster.cups {
        line(text, &format!("  [ ]  {}", cup.code));
    }
    line(text, &format!("  [ ]  {none}"));
    line(text, &blank("comment"));
}

/// What a test of choices asks, and the words for none of the cups.
pub const fn choice_asked(method: &TastingMethod) -> (&'static str, &'static str) {
    match method {
        TastingMethod::Triangle => ("Which cup is the odd one?", "no difference"),
        TastingMethod::DuoTrio => ("Which cup is the same as the reference?", "no difference"),
        _ => ("Which cup do you prefer?", "no preference"),
    }
}

fn head(text: &mut String, place: usize, cup: &Cup) {
    text.push('\n');
    line(text, &format!("Cup {}   [ {} ]", place + 1, cup.code));
}

fn scale(text: &mut String, attribute: Attribute) {
    let (low, high) = attribute.ends();
    let name = capital(attribute.name());
    let boxes = "[1] [2] [3] [4] [5]";
    line(text, &format!("  {name:<NAME$} {low:>END$} {boxes} {high}"));
}

fn liking(text: &mut String) {
    let boxes: Vec<String> = (1..=9).map(|number| format!("[{number}]")).collect();
    let boxes = boxes.join(" ");
    line(text, &format!("  {:<NAME$} {boxes}", "Liking"));
    let words = "1 is disliked extremely, 9 is liked extremely";
    line(text, &format!("  {:<NAME$} {words}", ""));
}

fn blank(name: &str) -> String {
    format!("  {:<NAME$} {}", capital(name), "_".repeat(48))
}

/// Puts a line in, cut where it would be too wide.
fn line(text: &mut String, words: &str) {
    let words = words.replace(['\n', '\r'], " ");
    if words.chars().count() <= BALLOT_COLUMNS {
        text.push_str(words.trim_end());
    } else {
        text.extend(words.chars().take(BALLOT_COLUMNS - 1));
        text.push('…');
    }
    text.push('\n');
}
