//! A substitution table for the recipe: if one ingredient is missing, what to use instead.

use super::swap::LarderItem;
use super::swap_candidates::{Candidate, CandidateAsk, CandidateOrder, Skipped, candidates};
use super::swap_original::{Original, SwapError};
use super::swap_words::SwappedPour;
use crate::balance::Pantry;
use crate::units::steps;
use std::fmt::Write as _;
use std::sync::atomic::{AtomicBool, AtomicUsize};

/// Candidates that are rounded for each one that is listed, so that the best are among them.
const ROUNDED_PER_LISTED: usize = 4;
/// Fewest that are rounded for each pour.
const LEAST_ROUNDED: usize = 12;

/// One way to do without an ingredient.
#[derive(Clone, Debug, PartialEq)]
pub struct Substitute {
    /// Place of the pour that it replaces.
    pub pour: usize,
    /// Name and amount of what is missing.
    pub instead_of: (String, String),
    /// Name and amount of what is used.
    pub with: (String, String),
    /// All other pours that change, in words.
    pub changes: Vec<String>,
    /// The candidate with the swapped drink.
    pub candidate: Candidate,
}

/// The best substitutes for every pour of a trial.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Substitutions {
    /// In the order of the recipe, the best first for each pour.
    pub rows: Vec<Substitute>,
    /// Pours without a substitute, and why.
    pub without: Vec<Skipped>,
    /// Ingredients that could not be tried.
    pub skipped: Vec<Skipped>,
    /// The currency of costs.
    pub currency: String,
}

/// What a substitution table is to hold.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SubstitutionAsk {
    /// Substitutes for each pour.
    pub each: usize,
    /// Groups of Annex II to Regulation (EU) No 1169/2011 that no substitute may hold.
    pub without: Vec<&'static str>,
}

impl SubstitutionAsk {
    fn for_pour(&self, pour: usize) -> CandidateAsk {
        CandidateAsk {
            pour,
            with: Vec::new(),
            without: self.without.clone(),
            rounded: (self.each * ROUNDED_PER_LISTED).max(LEAST_ROUNDED),
            order: CandidateOrder::Character,
        }
    }

    /// Parts of the work, as `progress` counts them.
    pub fn parts(&self, pours: usize, larder: usize) -> usize {
        pours * self.for_pour(0).parts(larder)
    }
}

/// For each pour the best substitutes of a larder, by [`candidates`]: what nobody could tell from
/// the drink by its balance, least change of the character first.
///
/// A pour that has none is named with the reason. `None` when `cancel` was set; fails when no pour
/// can be asked about, as with every pour locked.
pub fn substitutions(
    original: &Original<'_>,
    larder: &[LarderItem],
    ask: &SubstitutionAsk,
    pantry: &mut Pantry,
    (progress, cancel): (&AtomicUsize, &AtomicBool),
) -> Result<Option<Substitutions>, SwapError> {
    let mut table = Substitutions {
        currency: original.document.currency.clone(),
        ..Substitutions::default()
    };
    for pour in 0..original.trial.pours.len() {
        let one = ask.for_pour(pour);
        let found = match candidates(original, larder, &one, pantry, (progress, cancel)) {
            Ok(Some(found)) => found,
            Ok(None) => return Ok(None),
            Err(error @ SwapError::NoAmount { .. }) => {
                none_for(&mut table, original, pour, error.to_string());
                continue;
            }
            Err(error) => return Err(error),
        };
        let before = table.rows.len();
        let rounded = found.found.into_iter().filter(|one| one.swap.is_some());
        let rows = rounded
            .take(ask.each)
            .filter_map(|candidate| row(pour, candidate));
        table.rows.extend(rows);
        if table.rows.len() == before {
            let why = "nothing in the larder can take its place".to_owned();
            none_for(&mut table, original, pour, why);
        }
        for skipped in found.skipped {
            if !table.skipped.contains(&skipped) {
                table.skipped.push(skipped);
            }
        }
    }
    Ok(Some(table))
}

fn none_for(table: &mut Substitutions, original: &Original<'_>, pour: usize, why: String) {
    table.without.push(Skipped {
        name: original.name(pour).to_owned(),
        why,
    });
}

fn row(pour: usize, candidate: Candidate) -> Option<Substitute> {
    let mut changed = candidate.swap.as_ref()?.changed.clone();
    let place = changed.iter().position(|one| one.pour == pour)?;
    let own = changed.remove(place);
    Some(Substitute {
        pour,
        instead_of: own.was?,
        with: own.now,
        changes: changed.iter().map(SwappedPour::words).collect(),
        candidate,
    })
}

impl Substitutions {
    /// Heads of the columns, as [`Self::cells`] fills them.
    pub const HEADS: [&'static str; 9] = [
        "if you do not have",
        "amount",
        "use",
        "pour",
        "and change",
        "away",
        "gives up and brings",
        "allergens",
        "cost",
    ];

    /// The table as texts, row by row.
    pub fn cells(&self) -> impl Iterator<Item = [String; 9]> + '_ {
        self.rows.iter().map(|row| {
            let difference = &row.candidate.difference;
            let mut character = difference.figures_in_words();
            character.extend(difference.flavours_in_words());
            [
                row.instead_of.0.clone(),
                row.instead_of.1.clone(),
                row.with.0.clone(),
                row.with.1.clone(),
                row.changes.join("; "),
                steps(row.candidate.distance),
                character.join("; "),
                difference.allergens_in_words().join("; "),
                difference.cost_in_words(&self.currency),
            ]
        })
    }

    /// The table in Markdown, under a heading of its own.
    pub fn markdown(&self, title: &str) -> String {
        let mut text = format!("## {}\n\n", plain(title));
        let line = |cells: &mut dyn Iterator<Item = String>| {
            let cells: Vec<String> = cells.collect();
            format!("| {} |\n", cells.join(" | "))
        };
        text += &line(&mut Self::HEADS.into_iter().map(str::to_owned));
        text += &line(&mut Self::HEADS.into_iter().map(|_| "---".to_owned()));
        for cells in self.cells() {
            text += &line(&mut cells.iter().map(|cell| plain(cell)));
        }
        for without in &self.without {
            // Writing into a String cannot fail.
            write!(
                text,
                "\nNo substitute for {}: {}.\n",
                plain(&without.name),
                plain(&without.why)
            )
            .unwrap_or_default();
        }
        text += "\nPredicted, not tasted. Check every label for allergens.\n";
        text
    }
}

/// A text that Markdown takes as it stands, on one line.
fn plain(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '\n' | '\r' | '\t' => plain.push(' '),
            _ if letter.is_control() => {}
            '|' | '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '#' => {
                plain.push('\\');
                plain.push(letter);
            }
            _ => plain.push(letter),
        }
    }
    plain
}
