//! A tasting on paper and as text: ballots, the serving plan, raw answers, the report.

use crate::tasting_documents::{put, started, started_with, tasting};
use equipour::model::{Attribute, Tasting, TastingMethod};
use equipour::session::{
    BALLOT_COLUMNS, MethodKind, answer_table, ballots, cups_to_pour, serving_table,
    tasting_markdown, with_late_taster,
};
use equipour::store::write_plain_table;
use std::collections::BTreeSet;

#[test]
fn ballots_hold_every_code_no_name_of_a_trial_and_fit_a_page() {
    for kind in MethodKind::ALL {
        let mut session = started_with(kind, "Ada\nBen");
        let mut long = Tasting::clone(tasting(&session));
        if let TastingMethod::ScoreSheet { criteria, .. } = &mut long.method {
            criteria[0].name = "a very long criterion ".repeat(6);
        }
        long.title = "A tasting with a title that goes on and on ".repeat(3);
        put(&mut session, long).expect("long names can stand");
        let one = tasting(&session);
        let text = ballots(one);
        for line in text.lines() {
            assert!(line.chars().count() <= BALLOT_COLUMNS, "{line}");
        }
        assert!(
            !text.contains("Trial 1") && !text.contains("Trial 2"),
            "{text}"
        );
        let plan = serving_table(session.document(), one);
        for taster in &one.tasters {
            assert!(text.contains(&format!("Taster: {}", taster.name)));
            for cup in &taster.cups {
                assert!(text.contains(&cup.code.to_string()), "{text}");
                let name = &one.samples[cup.sample].as_tasted.name;
                assert!(plan.contains(&format!("{}: {name}", cup.code)), "{plan}");
            }
        }
        let columns: BTreeSet<usize> = plan
            .lines()
            .filter(|line| line.starts_with('|'))
            .map(|line| line.matches('|').count())
            .collect();
        assert_eq!(columns.len(), 1, "every row has as many cells: {plan}");
    }
}

#[test]
fn the_plan_says_how_many_cups_of_each_are_poured() {
    let session = started();
    let said = cups_to_pour(session.document(), tasting(&session));
    // Two tasters get a cup of either trial.
    assert_eq!(said, "2 of Trial 1, 2 of Trial 2");
    let plan = serving_table(session.document(), tasting(&session));
    assert!(
        plan.contains("Cups to pour: 2 of Trial 1, 2 of Trial 2."),
        "{plan}"
    );
}

#[test]
fn raw_answers_are_one_row_for_each_taster_and_cup() {
    let mut session = started();
    let mut changed = Tasting::clone(tasting(&session));
    changed.tasters[0].cups[0].right.insert(Attribute::Sour, 4);
    changed.tasters[0].cups[0].comment = "too \"green\", a bit".to_owned();
    put(&mut session, changed).expect("it can stand");
    let table = answer_table(session.document(), tasting(&session));
    let csv = write_plain_table(&table).expect("it can be written");
    let rows: Vec<&str> = csv.lines().collect();
    assert_eq!(
        rows[0],
        "taster,place,code,trial,sweetness,sourness,strength,dilution,liking,comment"
    );
    assert_eq!(rows.len(), 1 + 2 * 2);
    let cup = &tasting(&session).tasters[0].cups[0];
    let name = &tasting(&session).samples[cup.sample].as_tasted.name;
    let expected = format!(
        "Ada,1,{},{name},,4,,,,\"too \"\"green\"\", a bit\"",
        cup.code
    );
    assert_eq!(rows[1], expected);
    // A spreadsheet takes no comment for a formula.
    let mut changed = Tasting::clone(tasting(&session));
    changed.tasters[0].cups[0].comment = "=1+1".to_owned();
    put(&mut session, changed).expect("it can stand");
    let table = answer_table(session.document(), tasting(&session));
    let csv = write_plain_table(&table).expect("it can be written");
    assert!(csv.contains(",'=1+1\n"), "{csv}");
}

#[test]
fn an_open_tasting_reports_no_code_and_no_trial() {
    let mut session = started();
    let open = tasting_markdown(session.document(), tasting(&session), &[]);
    assert!(open.contains("0 of 2 ballots filled"), "{open}");
    for cup in tasting(&session).tasters.iter().flat_map(|one| &one.cups) {
        assert!(!open.contains(&cup.code.to_string()), "{open}");
    }
    assert!(!open.contains("Trial 1"), "{open}");
    let mut closed = Tasting::clone(tasting(&session));
    closed.closed = true;
    put(&mut session, closed).expect("it can be closed");
    let said = ["Nothing yet.".to_owned()];
    let text = tasting_markdown(session.document(), tasting(&session), &said);
    assert!(
        text.contains("### Trial 1") && text.contains("- 60 ml"),
        "{text}"
    );
    assert!(text.contains("- Nothing yet."), "{text}");
    let late = with_late_taster(tasting(&session), "Cleo").expect_err("it is closed");
    assert!(late.contains("reopen"), "{late}");
}
