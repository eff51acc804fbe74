//! The list of what can take a pour's place: what it counts, its order, the focus.

use crate::swaps::{found, swap};
use crate::workbench::Workbench;
use eframe::egui::accesskit::Role;
use equipour::rebalance::{Candidate, CandidateAsk, CandidateOrder, SwapAim};
use equipour::session::{SwapAsk, SwapFound, SwapWhat};

/// What can take the place of a pour, as it was answered.
fn candidates(bench: &Workbench, pour: usize) -> Vec<Candidate> {
    let (spec, trial) = (
        bench.session().spec().expect("a drink"),
        bench.session().trial().expect("a trial"),
    );
    let ask = SwapAsk {
        trial: trial.id,
        aim: SwapAim::Trial,
        hold: spec.balancing.scale_rule,
        what: SwapWhat::Candidates(CandidateAsk {
            pour,
            with: Vec::new(),
            without: Vec::new(),
            rounded: 40,
            order: CandidateOrder::Nearest,
        }),
    };
    match bench.session().swap_answer(&ask) {
        Some(Ok(SwapFound::Candidates(found))) => found.found.clone(),
        other => panic!("{other:?}"),
    }
}

#[test]
fn the_count_is_of_the_rows_shown_and_those_far_away_do_not_fit() {
    let mut bench = swap("caraway spirit");
    let all = candidates(&bench, 0);
    let words = |near: usize, far: usize| match far {
        0 => format!("{near} within 3 noticeable differences"),
        far => format!("{near} within 3 noticeable differences, {far} farther"),
    };
    let near = |one: &&Candidate| one.distance < 3.05;
    let count = all.iter().filter(near).count();
    assert_eq!(bench.painted(&words(count, all.len() - count)), 1);
    bench.type_text("brandy");
    let holds = |one: &&Candidate| {
        let letters = |text: &str| text.to_lowercase().contains("brandy");
        let item = &one.item;
        letters(&item.name) || letters(&item.kind) || item.notes.iter().any(|note| letters(note))
    };
    let shown: Vec<&Candidate> = all.iter().filter(holds).collect();
    assert!(!shown.is_empty() && shown.len() < all.len());
    let count = shown.iter().filter(|one| near(one)).count();
    let role = Role::Button;
    assert!(bench.has(role, "Candidates that fit"));
    assert_eq!(bench.painted(&words(count, shown.len() - count)), 1);
}

#[test]
fn rows_stand_in_order_of_the_distance_that_is_shown() {
    let mut bench = swap("caraway spirit");
    let all = candidates(&bench, 0);
    bench.run();
    let mut rows: Vec<(f32, f64, f64)> = all
        .iter()
        .filter_map(|one| {
            let name = format!("Choose {}", one.item.name);
            let there = bench.has(Role::Button, &name);
            there.then(|| {
                let top = bench.place(Role::Button, &name).top();
                (top, (one.distance * 10.0).round(), one.difference.points())
            })
        })
        .collect();
    rows.sort_by(|one, other| one.0.total_cmp(&other.0));
    assert!(rows.len() > 5);
    for pair in rows.windows(2) {
        let ((_, near, loss), (_, farther, more)) = (pair[0], pair[1]);
        assert!(
            near < farther || near == farther && loss <= more,
            "{rows:?}"
        );
    }
}

#[test]
fn a_click_on_a_row_leaves_the_focus_in_the_search() {
    let mut bench = swap("lemon juice");
    bench.type_text("vinegar");
    bench.button("Choose cider vinegar");
    found(&mut bench);
    assert!(bench.says("→ cider vinegar "));
    let search = "Find a candidate";
    assert!(bench.control(Role::TextInput, search).is_focused());
    bench.type_text(" (red)");
    assert!(bench.has(Role::Button, "Choose wine vinegar (red)"));
    assert!(!bench.has(Role::Button, "Choose cider vinegar"));
}

#[test]
fn the_list_reaches_down_to_the_buttons_and_what_is_chosen_low_in_it_stays_in_sight() {
    let mut bench = swap("caraway spirit");
    let all = candidates(&bench, 0);
    let below = bench.place(Role::Button, "Apply the swap").top();
    let rows = |bench: &Workbench| -> Vec<(f32, String)> {
        let names = all
            .iter()
            .map(|one| format!("Choose {}", one.item.name))
            .filter(|name| bench.has(Role::Button, name));
        let mut rows: Vec<(f32, String)> = names
            .map(|name| (bench.place(Role::Button, &name).bottom(), name))
            .collect();
        rows.sort_by(|one, other| one.0.total_cmp(&other.0));
        rows
    };
    let shown = rows(&bench);
    let (_, lowest) = shown
        .iter()
        .rev()
        .find(|(bottom, _)| *bottom < below - 60.0)
        .expect("a row is whole above the prompt");
    assert!(shown.iter().any(|(bottom, _)| *bottom > below - 100.0));
    let lowest = lowest.clone();
    bench.button(&lowest);
    found(&mut bench);
    bench.run();
    let place = bench.place(Role::Button, &lowest);
    let preview = bench.texts("Lands ");
    assert_eq!(preview.len(), 1);
    assert!(place.bottom() < preview[0].rect.top(), "{place}");
}

#[test]
fn figures_of_the_list_and_of_the_preview_state_their_units() {
    let mut bench = swap("caraway spirit");
    let all = candidates(&bench, 0);
    for head in ["away, steps", "change, points"] {
        let heads = bench.texts(head);
        assert!(!heads.is_empty(), "{head}");
        assert!(heads.iter().all(|head| !head.is_cut), "{head}");
    }
    let first = format!("Choose {}", all[0].item.name);
    bench.button(&first);
    let lands = bench.label_starting("Lands ");
    let brackets: Vec<&str> = lands.split('(').skip(1).collect();
    assert_eq!(brackets.len(), 3, "{lands}");
    for bracket in brackets {
        let inside = bracket.split(')').next().unwrap_or_default();
        assert!(inside.ends_with(" steps"), "{lands}");
    }
}
