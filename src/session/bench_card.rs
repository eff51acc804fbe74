//! A trial as a card for the bench, in plain text to be printed and filled in.

use super::text::pour_name;
use super::trial_code::trial_code;
use crate::balance::{Drink, Figures, Pantry, amount_in_grams, figures};
use crate::model::{Added, Dilution, Document, Glass, Method, Pour, Trial, TrialId};
use crate::units::{Unit, capital, number, percent, show_volume};

/// Widest line, in characters.
const WIDTH: usize = 72;
/// Widths of a pour's name, its amount and its weight.
const COLUMNS: (usize, usize, usize) = (31, 14, 9);
/// A box to tick.
const TICK: &str = "[ ] ";
/// A box to write in.
const WRITE_IN: &str = "______";
/// A line to write on.
const RULE: &str = "____________________________________________________________________";

/// The card of a trial: its code for the cup, a line to tick and to write in for every pour with its
/// amount and weight, technique, glass, ice and room for notes; at most 72 characters wide.
///
/// A blank day is left to be written in. `None` when there is no such trial.
pub fn bench_card(
    document: &Document,
    id: TrialId,
    on: &str,
    pantry: &mut Pantry,
) -> Option<String> {
    let (spec, trial) = document.trial(id)?;
    let code = trial_code(document, id)?;
    let day = if on.is_empty() { "______________" } else { on };
    let mut lines = wrapped(&spec.name, WIDTH);
    lines.extend(wrapped(&trial.name, WIDTH));
    lines.extend([format!("Cup {code}"), format!("Date {day}"), String::new()]);
    let (wide, middle, narrow) = COLUMNS;
    let heads = format!(
        "    {:<wide$} {:>middle$} {:>narrow$}  poured",
        "pour", "amount", "weight"
    );
    lines.push(heads);
    for (place, pour) in trial.poured() {
        lines.extend(pour_lines(document, trial, (place, pour), pantry));
    }
    let drink = Drink::of_trial(document, trial, pantry);
    let found = drink.ok().and_then(|drink| figures(&drink).ok());
    lines.push(String::new());
    let rows = [
        ("Technique", technique_words(trial)),
        ("Glass", glass_words(&spec.glass, document)),
        ("Ice", ice_words(trial, &spec.glass, found.as_ref())),
    ];
    for (head, words) in rows {
        lines.extend(hanging(&format!("{head:<10}"), &words));
    }
    if is_icy(trial) {
        lines.push(format!("{:<10}{WRITE_IN} g", "Ice used"));
    }
    lines.extend([String::new(), "Notes".to_owned()]);
    lines.extend([RULE, RULE, RULE].map(str::to_owned));
    Some(lines.join("\n") + "\n")
}

fn pour_lines(
    document: &Document,
    trial: &Trial,
    (place, pour): (usize, &Pour),
    pantry: &mut Pantry,
) -> Vec<String> {
    let amount = pour.amount_text(pour.amount.value().unwrap_or(0.0), &document.measures);
    let grams = document.settle(trial, pour).and_then(|settled| {
        let contents = pantry.contents(settled.ingredient).ok()?;
        amount_in_grams(pour, settled.ingredient, &contents)
    });
    let grams = grams.map_or_else(
        || "? g".to_owned(),
        |grams| format!("{} g", number(grams, 1)),
    );
    let mut name = pour_name(document, trial, place).to_owned();
    if pour.added != Added::With {
        name = format!("{name} ({})", pour.added.name());
    }
    let (wide, middle, narrow) = COLUMNS;
    let (names, amounts) = (wrapped(&name, wide), wrapped(&amount, middle));
    let count = names.len().max(amounts.len()).max(1);
    let cell = |cells: &[String], row: usize| cells.get(row).cloned().unwrap_or_default();
    let row = |row: usize| {
        let (name, amount) = (cell(&names, row), cell(&amounts, row));
        if row == 0 {
            format!("{TICK}{name:<wide$} {amount:>middle$} {grams:>narrow$}  {WRITE_IN}")
        } else {
            let rest = format!("    {name:<wide$} {amount:>middle$}");
            rest.trim_end().to_owned()
        }
    };
    (0..count).map(row).collect()
}

fn technique_words(trial: &Trial) -> String {
    let how = capital(trial.technique.method.name());
    match trial.technique.dilution {
        Dilution::ByMethod => how,
        Dilution::Fraction(share) => format!("{how}, diluted by {}", percent(share, 0)),
        Dilution::IceGrams(grams) => format!("{how}, {} g of ice weighed in", number(grams, 0)),
        Dilution::Weighed { before_g, after_g } => format!(
            "{how}, weighed {} g before ice and {} g after",
            number(before_g, 1),
            number(after_g, 1)
        ),
    }
}

fn glass_words(glass: &Glass, document: &Document) -> String {
    let size = show_volume(glass.capacity_ml, 0, Unit::Ml, &document.measures);
    format!("{}, {size} to the brim", glass.name)
}

const fn is_icy(trial: &Trial) -> bool {
    !matches!(trial.technique.method, Method::NoIce | Method::Bottled)
}

/// The water that is foreseen and the ice in the glass.
fn ice_words(trial: &Trial, glass: &Glass, found: Option<&Figures>) -> String {
    let icy = is_icy(trial);
    let water = found
        .filter(|found| icy && found.melt_g > 0.0)
        .map(|found| {
            let share = percent(found.dilution, 0);
            format!("{} g of water foreseen ({share})", number(found.melt_g, 0))
        });
    let in_glass = if glass.ice_share > 0.0 {
        format!("ice takes {} of the glass", percent(glass.ice_share, 0))
    } else {
        "none in the glass".to_owned()
    };
    let used = icy.then(|| format!("used {WRITE_IN} g"));
    let parts: Vec<String> = [water, Some(in_glass), used]
        .into_iter()
        .flatten()
        .collect();
    parts.join("; ")
}

/// Words behind a head, further lines below the first word.
fn hanging(head: &str, words: &str) -> Vec<String> {
    let blank = " ".repeat(head.chars().count());
    let lines = wrapped(words, WIDTH - blank.len());
    let lines = lines.into_iter().enumerate();
    lines
        .map(|(row, line)| format!("{}{line}", if row == 0 { head } else { &blank }))
        .collect()
}

/// Words in lines of so many characters; a longer word is parted.
fn wrapped(words: &str, width: usize) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = String::new();
    let mut length = 0;
    for word in words.split_whitespace() {
        let letters: Vec<char> = word.chars().filter(|one| !one.is_control()).collect();
        for part in letters.chunks(width.max(1)) {
            let gap = usize::from(length > 0);
            if length + gap + part.len() > width {
                lines.push(std::mem::take(&mut line));
                length = 0;
            }
            if length > 0 {
                line.push(' ');
                length += 1;
            }
            line.extend(part);
            length += part.len();
        }
    }
    if length > 0 {
        lines.push(line);
    }
    lines
}
