//! What is shown of a tasting once its codes are lifted.

use crate::tastings::{ADA, BEN, drink_and_two, of_another_drink, started, tasting, type_ballot};
use crate::workbench::{CTRL, Workbench};
use eframe::egui::Key;
use eframe::egui::accesskit::Role;
use egui_kittest::kittest::Queryable as _;
use equipour::model::{Choice, TrialState};

/// A tasting with scales, filled by both and closed.
fn closed() -> Workbench {
    let mut bench = started("Just-about-right scales");
    bench.choose("Answers");
    bench.click(Role::CheckBox, "Big buttons");
    bench.button("Ballot of Ada, 0 of 10 answered");
    type_ballot(&mut bench, &ADA);
    type_ballot(&mut bench, &BEN);
    bench.button("Lift the codes");
    assert!(tasting(&bench).closed);
    bench
}

#[test]
fn bars_of_scales_say_their_counts_in_words() {
    let bench = closed();
    let (_, [first, _]) = drink_and_two(&bench);
    let found = equipour::tasting::just_right_result(tasting(&bench)).expect("scales");
    let sour = &found.samples[0].scales[1];
    let said = bench.description(Role::Image, &format!("Sourness of {first}"));
    assert_eq!(said, equipour::tasting::scale_words(sour));
    assert_eq!(sour.answers(), 2);
    assert!(bench.says("a hint only"));
}

#[test]
fn as_tables_the_counts_of_the_scales_stand_in_words() {
    let mut bench = closed();
    bench.chord(CTRL, Key::D);
    assert!(
        bench
            .harness
            .query_all_by_role(Role::Image)
            .next()
            .is_none()
    );
    let found = equipour::tasting::just_right_result(tasting(&bench)).expect("scales");
    for scale in &found.samples[0].scales {
        let counts = scale.counts.map(|count| count.to_string()).join(", ");
        assert!(
            bench.says(&format!("Counts of 1 to 5: {counts}.")),
            "{counts}"
        );
    }
}

#[test]
fn aiming_where_the_answers_point_moves_the_target_in_one_step() {
    let mut bench = closed();
    let (_, [first, _]) = drink_and_two(&bench);
    let before = bench.target().clone();
    let steps = bench.steps();
    assert!(bench.says("Suggestion: fewer than 12 answers are a hint"));
    assert!(!bench.has(Role::Button, &format!("See proposals for {first}")));
    bench.far_button(&format!("Aim where {first} points"));
    assert_eq!(bench.steps(), steps + 1);
    assert_eq!(bench.target().label, tasting(&bench).title);
    assert_ne!(bench.target().point, before.point);
    bench.far_button(&format!("See proposals for {first}"));
    assert_eq!(bench.shown("Trial"), first);
    assert!(
        bench.has(Role::Slider, "lemon juice"),
        "the Balance page is shown"
    );
    bench.chord(CTRL, Key::Z);
    assert_eq!(bench.target(), &before);
}

#[test]
fn a_trial_that_was_edited_since_is_said_to_be() {
    let mut bench = closed();
    let words = "edited since it was tasted; the tasted state is kept here";
    assert!(!bench.says(words));
    let id = tasting(&bench).samples[0].trial;
    for edit in [
        equipour::session::Edit::SetState {
            trial: id,
            state: TrialState::Draft,
        },
        equipour::session::Edit::RemovePour { trial: id, pour: 0 },
    ] {
        bench.harness.state_mut().ask(edit);
        bench.run();
    }
    assert!(bench.messages().is_empty(), "{:?}", bench.messages());
    assert!(bench.says(words));
}

#[test]
fn a_triangle_states_its_exact_probability() {
    let mut bench = started("Triangle test");
    bench.choose("Answers");
    // Both find the odd cup: one in nine by chance.
    for taster in 0..2 {
        let cups = &tasting(&bench).tasters[taster].cups;
        let alone = |sample: usize| cups.iter().filter(|cup| cup.sample == sample).count() == 1;
        let odd = cups.iter().position(|cup| alone(cup.sample));
        let place = odd.expect("one cup is odd");
        let code = cups[place].code;
        bench.button(&format!("Choice: {code}"));
        assert_eq!(
            tasting(&bench).tasters[taster].choice,
            Some(Choice::Cup(place))
        );
    }
    bench.button("Lift the codes");
    assert!(bench.says("2 of 2 found the odd cup") || bench.says("found the odd cup"));
    assert!(bench.says("0.11"), "1/9 is 0.11");
}

#[test]
fn rankings_and_score_sheets_show_their_tables() {
    let mut bench = started("Ranking");
    bench.choose("Answers");
    bench.button("Ballot of Ada, 0 of 2 answered");
    type_ballot(&mut bench, &["1", "2"]);
    bench.button("Lift the codes");
    bench.button("Close all the same");
    assert!(bench.says("Rank sums") && bench.says("rank sums differ from"));
    let mut bench = started("Score sheet");
    bench.button("Lift the codes");
    bench.button("Close all the same");
    assert!(bench.says("No complete score sheet yet."));
}

#[test]
fn a_tasting_is_removed_after_a_question_only() {
    let mut bench = of_another_drink();
    let held = |bench: &Workbench| bench.session().document().tastings.len();
    bench.button("Remove the tasting");
    assert_eq!(held(&bench), 1);
    assert!(bench.says("Remove How much shrub with 18 filled ballots?"));
    bench.button("Keep it");
    assert!(!bench.has(Role::Button, "Remove it"));
    bench.button("Remove the tasting");
    bench.button("Remove it");
    assert_eq!(held(&bench), 0);
    bench.chord(CTRL, Key::Z);
    assert_eq!(held(&bench), 1);
}

#[test]
fn what_is_liked_best_points_first_and_leanings_beyond_chance_are_among_the_conclusions() {
    let bench = of_another_drink();
    let less = bench.place(Role::Button, "Aim where Less shrub points");
    let more = bench.place(Role::Button, "Aim where More shrub points");
    assert!(less.top() < more.top());
    let said = bench.label_starting("• Crisp on the rim: 16 of 18 too sour");
    assert!(said.contains("they lean to too sour"), "{said}");
}
