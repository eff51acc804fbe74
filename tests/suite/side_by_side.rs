//! Trials laid side by side, and the tree they stand in.

use crate::sample_drinks::{SHAKEN, TRIAL, document, ml};
use equipour::balance::{Pantry, align_pours, steps_between};
use equipour::model::{Amount, Document, MadeBy, Method, Pour, Role, Trial, TrialId};
use equipour::session::{SideBySide, TreeRow, change_words, side_by_side, trial_tree};
use equipour::store::write_plain_table;
use proptest::prelude::*;
use std::collections::BTreeSet;
use std::sync::Arc;

/// A drink of several trials, each the child of the one before; all ingredients are there.
fn trials(recipes: &[Vec<Pour>]) -> Document {
    let all: Vec<Pour> = recipes.iter().flatten().cloned().collect();
    let mut document = document(all, SHAKEN, None);
    let spec = &mut document.specs[0];
    spec.trials.clear();
    for (place, pours) in recipes.iter().enumerate() {
        let id = TrialId(TRIAL.0 + place as u32);
        let trial = Trial {
            parent: (place > 0).then(|| TrialId(id.0 - 1)),
            ..Trial::new(id, format!("Trial {}", place + 1), SHAKEN, pours.clone())
        };
        spec.trials.push(Arc::new(trial));
    }
    document.next_number = 100;
    document
}

fn sour() -> Vec<Pour> {
    vec![
        ml("gin-london-dry", 60.0),
        ml("lemon-juice", 22.5),
        ml("sugar-syrup-1-1", 22.5),
    ]
}

fn compare(document: &Document, baseline: usize) -> SideBySide {
    let ids: Vec<TrialId> = document.specs[0]
        .trials
        .iter()
        .map(|trial| trial.id)
        .collect();
    side_by_side(document, &ids, baseline, &mut Pantry::default())
}

fn places(document: &Document) -> Vec<Vec<Option<usize>>> {
    let trials: Vec<&Trial> = document.specs[0].trials.iter().map(Arc::as_ref).collect();
    let rows = align_pours(document, &trials);
    rows.into_iter().map(|row| row.places).collect()
}

#[test]
fn the_same_ingredient_stands_beside_itself_whatever_the_order() {
    let mut turned = sour();
    turned.reverse();
    let found = places(&trials(&[sour(), turned]));
    let expected = [[0, 2], [1, 1], [2, 0]].map(|row| row.map(Some).to_vec());
    assert_eq!(found, expected);
}

#[test]
fn what_takes_the_place_of_another_stands_beside_it_and_what_is_new_behind_its_neighbour() {
    let mut twist = sour();
    twist[0] = ml("mezcal", 45.0);
    twist.insert(1, ml("egg-white", 20.0));
    let document = trials(&[sour(), twist]);
    let found = places(&document);
    let expected = [
        vec![Some(0), Some(0)],
        vec![None, Some(1)],
        vec![Some(1), Some(2)],
        vec![Some(2), Some(3)],
    ];
    assert_eq!(found, expected);
    let found = compare(&document, 0);
    let swapped = found.pours[0].cells[1].as_ref().expect("it is poured");
    assert!(swapped.is_other && swapped.change.is_empty());
    assert_eq!(found.pours[1].cells[0], None);
    assert!(found.pours[1].differs && !found.pours[2].differs);
}

#[test]
fn differences_carry_a_sign_and_a_unit_and_look_from_the_column_compared_with() {
    let mut less = sour();
    less[1].amount = Amount::Ml(20.0);
    let document = trials(&[sour(), less]);
    let change = |found: &SideBySide, column: usize| {
        let cell = found.pours[1].cells[column].as_ref();
        cell.expect("it is poured").change.clone()
    };
    let found = compare(&document, 0);
    assert_eq!(
        (change(&found, 0), change(&found, 1)),
        (String::new(), "−2.5 ml".to_owned())
    );
    let found = compare(&document, 1);
    assert_eq!(
        (change(&found, 0), change(&found, 1)),
        ("+2.5 ml".to_owned(), String::new())
    );
    assert_eq!(found.columns[1].distance, Some(0.0));
}

#[test]
fn a_column_lies_as_far_off_as_its_point_does() {
    let mut other = sour();
    other[2].amount = Amount::Ml(15.0);
    let document = trials(&[sour(), other]);
    let found = compare(&document, 0);
    let point = |column: usize| {
        found.columns[column]
            .figures
            .as_ref()
            .expect("served")
            .point
    };
    let steps = steps_between(&point(1), &point(0), &document.senses);
    assert!(steps.sweet < -1.0 && steps.strength > 0.0, "{steps:?}");
    assert_eq!(found.columns[1].steps, Some(steps));
    let squares = steps.sweet.powi(2) + steps.sour.powi(2) + steps.strength.powi(2);
    let distance = found.columns[1].distance.expect("both are served");
    assert!((distance - squares.sqrt()).abs() < 1e-12);
}

#[test]
fn trials_that_are_gone_are_left_out_and_five_become_four() {
    let document = trials(&vec![sour(); 5]);
    let ids: Vec<TrialId> = [99, 2, 3, 4, 5, 6].into_iter().map(TrialId).collect();
    let found = side_by_side(&document, &ids, 0, &mut Pantry::default());
    let shown: Vec<u32> = found.columns.iter().map(|column| column.id.0).collect();
    assert_eq!(shown, [2, 3, 4, 5]);
    assert!(found.pours.iter().all(|row| !row.differs));
    let alike = found.figures.iter().filter(|row| row.name == "strength");
    assert!(alike.map(|row| row.differs).eq([false]));
}

#[test]
fn a_trial_says_what_it_changed() {
    let mut twist = sour();
    twist[0] = ml("mezcal", 45.0);
    twist[1].amount = Amount::Ml(20.0);
    twist.remove(2);
    let mut document = trials(&[sour(), twist]);
    let spec = &document.specs[0];
    let said = change_words(&document, spec, &spec.trials[1]);
    assert_eq!(
        said,
        "mezcal 45 ml for gin (london dry) 60 ml, lemon juice 22.5 ml → 20 ml, no sugar syrup 1:1 (by weight)"
    );
    assert_eq!(change_words(&document, spec, &spec.trials[0]), "");
    // The parent may have been thrown away: it is still known what changed.
    let spec = &mut document.specs[0];
    let parent = spec.trials.remove(0);
    spec.bin.push(parent);
    Arc::make_mut(&mut spec.trials[0]).technique.method = Method::Stirred;
    let spec = &document.specs[0];
    assert!(change_words(&document, spec, &spec.trials[0]).ends_with(", stirred"));
}

/// Parents by place; rows as (place, depth).
fn tree(parents: &[Option<usize>], hidden: &[usize]) -> Vec<(usize, usize)> {
    let mut document = trials(&vec![sour(); parents.len()]);
    let spec = &mut document.specs[0];
    let ids: Vec<TrialId> = spec.trials.iter().map(|trial| trial.id).collect();
    for (trial, parent) in spec.trials.iter_mut().zip(parents) {
        Arc::make_mut(trial).parent = parent.map(|place| ids[place]);
    }
    let rows = trial_tree(spec, |trial| {
        !hidden.iter().any(|place| ids[*place] == trial.id)
    });
    rows.iter()
        .map(|TreeRow { place, depth }| (*place, *depth))
        .collect()
}

#[test]
fn a_line_stays_a_line_and_branches_stand_in_before_it_goes_on() {
    assert_eq!(
        tree(&[None, Some(0), Some(1)], &[]),
        [(0, 0), (1, 0), (2, 0)]
    );
    // 2 and 3 grew from 0, too: branches, each with what grew from it.
    let parents = [None, Some(0), Some(0), Some(0), Some(2), Some(1)];
    assert_eq!(
        tree(&parents, &[]),
        [(0, 0), (2, 1), (4, 1), (3, 1), (1, 0), (5, 0)]
    );
}

#[test]
fn what_grew_from_a_hidden_trial_hangs_on_the_one_above_it() {
    let parents = [None, Some(0), Some(1), Some(1)];
    assert_eq!(tree(&parents, &[1]), [(0, 0), (3, 1), (2, 0)]);
    assert_eq!(tree(&parents, &[0, 1]), [(2, 0), (3, 0)]);
}

#[test]
fn a_line_of_ten_thousand_trials_is_laid_out() {
    let mut document = trials(&[sour()]);
    let spec = &mut document.specs[0];
    let first = Trial::clone(&spec.trials[0]);
    for number in 1..10_000 {
        let id = TrialId(TRIAL.0 + number);
        spec.trials.push(Arc::new(Trial {
            id,
            parent: Some(TrialId(id.0 - 1)),
            made_by: MadeBy::Hand,
            ..first.clone()
        }));
    }
    let rows = trial_tree(spec, |_| true);
    assert_eq!(rows.len(), 10_000);
    assert!(
        rows.iter()
            .enumerate()
            .all(|(at, row)| row.place == at && row.depth == 0)
    );
}

fn any_recipe() -> impl Strategy<Value = Vec<Pour>> {
    let names = [
        "gin-london-dry",
        "mezcal",
        "lemon-juice",
        "lime-juice",
        "sugar-syrup-1-1",
        "honey-syrup-1-1",
        "egg-white",
    ];
    let pour = (prop::sample::select(names.to_vec()), 1..6_u8, 0..3_usize);
    prop::collection::vec(pour, 0..7).prop_map(|pours| {
        let roles = [Role::Base, Role::Sweet, Role::Other];
        let pours = pours.into_iter().map(|(name, tens, role)| Pour {
            role: roles[role],
            ..ml(name, 10.0 * f64::from(tens))
        });
        pours.collect()
    })
}

proptest! {
    #[test]
    fn every_pour_of_every_trial_stands_on_exactly_one_line(
        recipes in prop::collection::vec(any_recipe(), 1..5),
    ) {
        let document = trials(&recipes);
        let rows = places(&document);
        for (column, recipe) in recipes.iter().enumerate() {
            let held: Vec<usize> = rows.iter().filter_map(|row| row[column]).collect();
            let different: BTreeSet<usize> = held.iter().copied().collect();
            prop_assert_eq!(held.len(), recipe.len());
            prop_assert!(different.into_iter().eq(0..recipe.len()));
        }
        prop_assert!(rows.iter().all(|row| row.len() == recipes.len()));
        prop_assert!(rows.iter().all(|row| row.iter().any(Option::is_some)));
        // An ingredient that two trials pour once each is never on two lines.
        let count = |recipe: &[Pour], pour: &Pour| {
            recipe.iter().filter(|other| other.source == pour.source).count()
        };
        let (first, second) = (&recipes[0], recipes.get(1).unwrap_or(&recipes[0]));
        for row in &rows {
            let Some(place) = row[0] else { continue };
            let pour = &first[place];
            if recipes.len() > 1 && count(first, pour) == 1 && count(second, pour) == 1 {
                let other = row[1].map(|place| &second[place].source);
                prop_assert_eq!(other, Some(&pour.source));
            }
        }
    }
}

#[test]
fn a_comparison_is_written_as_a_table_with_what_differs() {
    let mut less = sour();
    less[1].amount = Amount::Ml(20.0);
    let document = trials(&[sour(), less]);
    let found = compare(&document, 0);
    let text = found.markdown(0);
    let lines: Vec<&str> = text.lines().collect();
    assert_eq!(lines[0], "|  | Trial 1 (compared with) | Trial 2 |");
    assert_eq!(lines[1], "| --- | --- | --- |");
    assert_eq!(
        lines[3],
        "| sour | 22.5 ml lemon juice | 20 ml lemon juice (−2.5 ml) |"
    );
    let table = found.table(0);
    assert!(table.rows.iter().all(|row| row.len() == table.heads.len()));
    assert_eq!(table.rows.len(), found.pours.len() + found.figures.len());
}

#[test]
fn a_trial_named_like_a_formula_is_none_in_a_spreadsheet() {
    let mut document = trials(&[sour(), sour()]);
    Arc::make_mut(&mut document.specs[0].trials[1]).name = "=SUM(A1)".to_owned();
    let text = write_plain_table(&compare(&document, 0).table(0)).expect("it can be written");
    assert!(
        text.lines()
            .next()
            .is_some_and(|heads| heads.ends_with(",'=SUM(A1)")),
        "{text}"
    );
}
