//! Pours of several trials laid beside each other.

use crate::model::{Document, IngredientId, Pour, Trial};

/// One line of several trials: the place of the pour in each, `None` where a trial has no such pour.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AlignedPour {
    /// Place of the pour, trial by trial.
    pub places: Vec<Option<usize>>,
}

/// Lays the pours of several trials beside each other, in the order of the first.
///
/// Pours of the same ingredient belong together; of those left over, pours that do the same job (base,
/// sweet, sour …) do; what is then alone has a line of its own behind the pour that it follows.
pub fn align_pours(document: &Document, trials: &[&Trial]) -> Vec<AlignedPour> {
    let mut rows: Vec<AlignedPour> = Vec::new();
    for (column, trial) in trials.iter().enumerate() {
        let mut taken = vec![None; trial.pours.len()];
        let is_same = |row: &AlignedPour, pour: &Pour| {
            let id = document.row_of(&pour.source);
            held(row, trials).any(|other| row_of(document, other) == id && id.is_some())
        };
        let does_the_same =
            |row: &AlignedPour, pour: &Pour| held(row, trials).any(|other| other.role == pour.role);
        for fits in [
            &is_same as &dyn Fn(&AlignedPour, &Pour) -> bool,
            &does_the_same,
        ] {
            for (place, pour) in trial.pours.iter().enumerate() {
                if taken[place].is_some() {
                    continue;
                }
                let free = |row: &AlignedPour| row.places.len() == column;
                let row = rows.iter().position(|row| free(row) && fits(row, pour));
                if let Some(row) = row {
                    rows[row].places.push(Some(place));
                    taken[place] = Some(row);
                }
            }
        }
        add_alone(&mut rows, &mut taken, column);
        for row in &mut rows {
            row.places.resize(column + 1, None);
        }
    }
    rows
}

/// Pours of a line, whichever trials have one.
fn held<'a>(row: &'a AlignedPour, trials: &'a [&'a Trial]) -> impl Iterator<Item = &'a Pour> {
    let places = row.places.iter().zip(trials);
    places.filter_map(|(place, trial)| trial.pours.get((*place)?))
}

fn row_of<'a>(document: &'a Document, pour: &'a Pour) -> Option<&'a IngredientId> {
    document.row_of(&pour.source)
}

/// Gives a line of its own to every pour that has none, behind the line of the pour before it.
fn add_alone(rows: &mut Vec<AlignedPour>, taken: &mut [Option<usize>], column: usize) {
    let mut behind = 0;
    for place in 0..taken.len() {
        let row = taken[place].unwrap_or_else(|| {
            let mut places = vec![None; column];
            places.push(Some(place));
            rows.insert(behind, AlignedPour { places });
            for later in taken.iter_mut().flatten().filter(|row| **row >= behind) {
                *later += 1;
            }
            behind
        });
        behind = row + 1;
    }
}
