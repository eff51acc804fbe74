//! Integer problems whose answers are known, for the search on the grid.

use crate::proof_linear::{Linear, axis, enumerated, fixed_volume, row, searched, whole_numbers};
use equipour::solver::{
    GridProblem, GridProblemError, GridSettings, Proof, Row, price_limits, search_fewest,
    search_grid,
};

#[test]
fn published_knapsacks_are_packed_to_their_optimum() {
    // Two 0–1 knapsacks that are handed down in collections of test problems: capacity, weights,
    // profits, greatest profit (from memory; so every packing is tried here as well).
    let (small, large) = (
        (
            26.0,
            vec![12.0, 7.0, 11.0, 8.0, 9.0],
            vec![24.0, 13.0, 23.0, 15.0, 16.0],
            51.0,
        ),
        (
            165.0,
            vec![23.0, 31.0, 29.0, 44.0, 53.0, 38.0, 63.0, 85.0, 89.0, 82.0],
            vec![92.0, 57.0, 49.0, 68.0, 60.0, 43.0, 67.0, 84.0, 87.0, 72.0],
            309.0,
        ),
    );
    for (capacity, weights, profits, greatest) in [small, large] {
        let mixture = fixed_volume(weights.len());
        let most = vec![1; weights.len()];
        let mut problem = whole_numbers(&mixture, &most, |i, x| -profits[i] * x);
        problem.rows = vec![row(&weights, f64::NEG_INFINITY, capacity)];
        let found = searched(&problem);
        let best = found.best.as_ref().expect("an empty sack keeps the limit");
        assert_eq!(best.objective, -greatest);
        assert_eq!(enumerated(&problem), -greatest);
        assert_eq!((found.proof, found.gap()), (Proof::Complete, 0.0));
    }
}

#[test]
fn a_held_total_is_made_up_by_the_cheapest_moves() {
    // Σ aᵢ·|xᵢ − cᵢ| with Σ x = Σ c + d: all of d goes to the cheapest unknown, and what it cannot
    // take to the next.
    let (prices, centre) = ([3.0, 1.0, 2.0, 5.0], [4.0, 7.0, 2.0, 9.0]);
    let mixture = fixed_volume(4);
    let mut problem = whole_numbers(&mixture, &[10; 4], |i, x| prices[i] * (x - centre[i]).abs());
    for (extra, least) in [
        (0.0, 0.0),
        (2.0, 2.0),
        (3.0, 3.0),
        (5.0, 3.0 + 2.0 * 2.0),
        (-8.0, 9.0),
    ] {
        problem.rows = vec![row(&[1.0; 4], 22.0 + extra, 22.0 + extra)];
        let found = searched(&problem);
        let best = found.best.expect("the total can be made up");
        assert_eq!(best.objective, least, "{extra}: {:?}", best.x);
        assert_eq!(best.x.iter().sum::<f64>(), 22.0 + extra);
    }
}

#[test]
fn one_unknown_lands_on_the_value_nearest_to_its_ratio() {
    // x over 2 + x with an aim of 0.6 is reached at x = 3; with 0.55 at 22/9, and 2 or 3 is nearer
    // as the logarithms have it: ln(0.5/0.55) = −0.0953, ln(0.6/0.55) = 0.0870.
    let mixture = Linear {
        constant: 2.0,
        slopes: vec![1.0],
        waves: 0.0,
    };
    for (aim, squared) in [(0.6, 0.0), (0.55, (0.6_f64 / 0.55).ln().powi(2))] {
        let mut problem = whole_numbers(&mixture, &[40], |_, _| 0.0);
        problem.axes = vec![axis(&[1.0], 1.0e-9, aim, 1.0)];
        problem.distance_weight = 1.0;
        let found = searched(&problem);
        let best = found.best.expect("everything is allowed");
        assert_eq!(best.x, [3.0]);
        assert!(
            (best.objective - squared).abs() < 1e-8,
            "{}",
            best.objective
        );
    }
}

#[test]
fn rows_that_no_point_can_keep_are_proved_so() {
    let mixture = fixed_volume(3);
    let mut problem = whole_numbers(&mixture, &[30; 3], |_, x| x);
    // Too much to ask for; a parity that only whole numbers break; two rows against each other.
    let impossible = [
        vec![row(&[1.0; 3], 91.0, 100.0)],
        vec![row(&[2.0, 4.0, 6.0], 61.0, 61.0)],
        vec![
            row(&[1.0, 1.0, 0.0], 20.0, 22.0),
            row(&[1.0, 1.0, 0.0], 23.0, 25.0),
        ],
    ];
    for rows in impossible {
        problem.rows = rows;
        let found = searched(&problem);
        assert_eq!((found.best.as_ref(), found.proof), (None, Proof::Complete));
        assert!(found.lower_bound.is_infinite() && found.gap().is_infinite());
    }
    problem.rows = vec![row(&[2.0, 4.0, 6.0], 62.0, 62.0)];
    assert_eq!(
        searched(&problem).best.expect("an even total").objective,
        11.0
    );
}

#[test]
fn a_reach_that_no_point_comes_within_is_proved_so() {
    let mixture = fixed_volume(2);
    let mut problem = whole_numbers(&mixture, &[20, 20], |_, x| x);
    problem.axes = vec![axis(&[1.0, 1.0], 0.5, 12.4, 100.0)];
    problem.reach = Some(100.0 * (12.9_f64 / 12.5).ln().powi(2) * 0.9);
    assert_eq!(searched(&problem).best, None);
    // 12 is nearer than 13, and within 0.4.
    problem.reach = Some(100.0 * (12.9_f64 / 12.5).ln().powi(2) * 1.1);
    let found = searched(&problem);
    assert_eq!(
        (found.best.expect("12").objective, found.proof),
        (12.0, Proof::Complete)
    );
}

#[test]
fn a_reach_of_nothing_keeps_the_point_that_hits() {
    let mixture = fixed_volume(2);
    let mut problem = whole_numbers(&mixture, &[20, 20], |i, x| [1.0, 2.0][i] * x);
    problem.axes = vec![axis(&[1.0, 3.0], 0.5, 17.0, 4.0)];
    problem.reach = Some(0.0);
    let found = searched(&problem);
    assert_eq!(
        found.best.expect("17 can be made").objective,
        2.0 + 2.0 * 5.0
    );
}

#[test]
fn a_distance_of_any_size_still_has_a_nearest_point() {
    // ln(1e−3/1001)² = 191; times the weight it is larger than any drink's.
    for weight in [1.0, 1.0e3, 1.0e6, 1.0e9] {
        let mixture = fixed_volume(2);
        let mut problem = whole_numbers(&mixture, &[40, 40], |_, _| 0.0);
        problem.axes = vec![axis(&[1.0, 2.0], 1.0e-3, 1.0e6, weight)];
        problem.distance_weight = 1.0;
        let found = searched(&problem);
        let best = found
            .best
            .unwrap_or_else(|| panic!("none with a weight of {weight}"));
        assert_eq!(best.x, [40.0, 40.0]);
    }
}

#[test]
fn single_values_and_no_unknowns_at_all_are_questions_too() {
    let mixture = fixed_volume(3);
    let mut problem = whole_numbers(&mixture, &[0, 0, 0], |i, _| i as f64);
    let found = searched(&problem);
    assert_eq!(
        (found.best.expect("one point").objective, found.proof),
        (3.0, Proof::Complete)
    );
    problem.rows = vec![row(&[1.0; 3], 1.0, 2.0)];
    assert_eq!(searched(&problem).best, None);
    let mixture = fixed_volume(0);
    let problem = whole_numbers(&mixture, &[], |_, _| 0.0);
    let found = searched(&problem);
    assert_eq!(found.gap(), 0.0);
    assert_eq!(found.best.expect("the empty point").objective, 0.0);
    let (count, found) =
        search_fewest(&problem, &[], &[], &GridSettings::default()).expect("it is sound");
    assert_eq!(
        (count, found.best.expect("the empty point").objective),
        (0, 0.0)
    );
}

#[test]
fn a_mixture_that_is_nowhere_has_no_point() {
    let nothing = Linear {
        constant: -1.0,
        slopes: vec![0.0; 3],
        waves: 0.0,
    };
    let problem = whole_numbers(&nothing, &[9; 3], |_, x| x);
    let found = searched(&problem);
    assert_eq!((found.best, found.proof), (None, Proof::Complete));
}

#[test]
fn sixteen_rows_are_answered_and_seventeen_are_refused() {
    let mixture = fixed_volume(2);
    let mut problem = whole_numbers(&mixture, &[9, 9], |_, x| x);
    problem.axes = vec![axis(&[1.0, 1.0], 1.0, 7.0, 1.0); 3];
    problem.distance_weight = 50.0;
    problem.rows = (0..13)
        .map(|k| row(&[1.0, f64::from(k)], f64::from(k), f64::INFINITY))
        .collect();
    let found = searched(&problem);
    let best = found.best.expect("all nines keep every row");
    assert!((best.objective - enumerated(&problem)).abs() < 1e-9);
    problem.rows.push(row(&[1.0, 1.0], 0.0, 9.0));
    let refused = search_grid(&problem, &[], &GridSettings::default());
    assert_eq!(refused, Err(GridProblemError::Number { field: "rows" }));
}

/// A sound question with one thing of everything.
fn sound(mixture: &Linear) -> GridProblem<'_> {
    let mut problem = whole_numbers(mixture, &[5, 5], |_, x| x);
    problem.axes = vec![axis(&[1.0, 1.0], 1.0, 4.0, 1.0)];
    problem.distance_weight = 1.0;
    problem.reach = Some(9.0);
    problem.rows = vec![row(&[1.0, 1.0], 0.0, 9.0)];
    problem
}

/// A list, and one of its numbers.
type Place = (
    &'static str,
    for<'a> fn(&'a mut GridProblem<'_>) -> &'a mut f64,
);

#[test]
fn numbers_that_make_no_sense_are_refused_wherever_they_stand() {
    let mixture = fixed_volume(2);
    assert_eq!(sound(&mixture).validate(), Ok(()));
    let finite: [Place; 13] = [
        ("value", |p| &mut p.values[1][2]),
        ("cost", |p| &mut p.costs[1][2]),
        ("amount of an axis", |p| &mut p.axes[0].constant),
        ("slope of an axis", |p| &mut p.axes[0].per_unit[1]),
        ("offset", |p| &mut p.axes[0].offset),
        ("aim", |p| &mut p.axes[0].aim),
        ("weight", |p| &mut p.axes[0].weight),
        ("weight of the distance", |p| &mut p.distance_weight),
        ("volume of a row", |p| &mut p.rows[0].volume),
        ("constant of a row", |p| &mut p.rows[0].constant),
        ("slope of a row", |p| &mut p.rows[0].per_unit[0]),
        ("least that counts", |p| &mut p.axes[0].least),
        ("reach", |p| p.reach.as_mut().expect("it has one")),
    ];
    for (name, place) in finite {
        for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            let mut problem = sound(&mixture);
            *place(&mut problem) = bad;
            assert!(
                problem.validate().is_err(),
                "{name} of {bad} is let through"
            );
        }
    }
    let ordered: [Place; 2] = [
        ("low end of a row", |p| &mut p.rows[0].low),
        ("high end of a row", |p| &mut p.rows[0].high),
    ];
    for (name, place) in ordered {
        let mut problem = sound(&mixture);
        *place(&mut problem) = f64::NAN;
        assert!(problem.validate().is_err(), "{name} is let through");
    }
    for (name, place) in [finite[4], finite[6]] {
        let mut problem = sound(&mixture);
        *place(&mut problem) = 0.0;
        assert!(
            problem.validate().is_err(),
            "{name} of nothing is let through"
        );
    }
}

#[test]
fn a_row_without_ends_binds_nothing() {
    let mixture = fixed_volume(2);
    let mut problem = sound(&mixture);
    problem.rows = vec![row(&[1.0, 1.0], f64::NEG_INFINITY, f64::INFINITY)];
    let found = searched(&problem).best.expect("everything is allowed");
    assert!((found.objective - enumerated(&problem)).abs() < 1e-8);
}

#[test]
fn a_start_far_beyond_the_values_is_harmless() {
    let mixture = fixed_volume(2);
    let mut problem = whole_numbers(&mixture, &[30, 30], |_, x| x);
    problem.axes = vec![axis(&[1.0, 1.0], 1.0, 20.0, 100.0)];
    problem.distance_weight = 1.0;
    let best = enumerated(&problem);
    for far in [1.0e300, -1.0e300] {
        let settings = GridSettings::default();
        let found = search_grid(&problem, &[vec![far, 3.0]], &settings).expect("it is a number");
        let said = found.best.map_or(f64::INFINITY, |best| best.objective);
        assert!((said - best).abs() < 1e-8, "{said} from {far}, not {best}");
    }
}

#[test]
fn lists_of_different_lengths_are_refused_by_name() {
    let mixture = fixed_volume(2);
    let refused = |change: fn(&mut GridProblem)| {
        let mut problem = sound(&mixture);
        change(&mut problem);
        problem.validate().expect_err("it is refused")
    };
    let length = |field| GridProblemError::Length { field };
    assert_eq!(refused(|p| p.costs.truncate(1)), length("costs"));
    assert_eq!(refused(|p| p.axes[0].per_unit.push(1.0)), length("axes"));
    assert_eq!(refused(|p| p.rows[0].per_unit.push(1.0)), length("rows"));
    let index = |index| GridProblemError::Values { index };
    assert_eq!(refused(|p| p.values[1].clear()), index(1));
    assert_eq!(refused(|p| p.values[0].swap(0, 1)), index(0));
    assert_eq!(refused(|p| p.costs[1].truncate(2)), index(1));
    assert_eq!(
        refused(|p| p.rows[0] = Row {
            low: 3.0,
            high: 2.0,
            ..p.rows[0].clone()
        }),
        GridProblemError::Number { field: "rows" }
    );
    let problem = sound(&mixture);
    let settings = GridSettings::default();
    assert!(search_grid(&problem, &[vec![0.0]], &settings).is_err());
    let fewest = |present: &[usize], start: &[f64]| {
        search_fewest(&problem, present, start, &settings).expect_err("it is refused")
    };
    assert_eq!(fewest(&[0, 6], &[0.0, 0.0]), length("present"));
    assert_eq!(fewest(&[0], &[0.0, 0.0]), length("present"));
    assert_eq!(fewest(&[0, 0], &[0.0]), length("start"));
}

#[test]
fn a_start_that_is_no_number_is_refused() {
    let mixture = fixed_volume(2);
    let problem = sound(&mixture);
    for bad in [f64::NAN, f64::INFINITY] {
        let start = vec![1.0, bad];
        let refused = search_grid(
            &problem,
            std::slice::from_ref(&start),
            &GridSettings::default(),
        );
        assert_eq!(
            refused.expect_err("it makes no sense"),
            GridProblemError::Number { field: "starts" }
        );
        let refused = search_fewest(&problem, &[0, 0], &start, &GridSettings::default());
        assert_eq!(
            refused.expect_err("it makes no sense"),
            GridProblemError::Number { field: "start" }
        );
        let free = GridProblem {
            reach: None,
            ..problem.clone()
        };
        assert!(price_limits(&free, &[1.0, 1.0]).is_some());
        assert_eq!(price_limits(&free, &start), None, "{bad}");
    }
}
