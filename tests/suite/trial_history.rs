//! The trials of a drink as a table for spreadsheets and in Markdown.

use crate::history::session;
use crate::sample_drinks::{SHAKEN, SPEC, TRIAL, builtin, document, point, sour};
use equipour::balance::{Pantry, steps_between};
use equipour::model::{
    Cup, MadeBy, Point, Senses, SpecId, Taster, Tasting, TastingId, TastingMethod, TrialId, Weights,
};
use equipour::session::{Edit, Session, TastingEdit, TrialEdit, TrialHistory, trial_history};
use equipour::store::{read_sheet, write_plain_table};
use std::sync::Arc;

fn table(session: &Session) -> TrialHistory {
    trial_history(session.document(), SPEC, &mut Pantry::default()).expect("the drink is there")
}

fn grow(session: &mut Session, reason: &str, made_by: MadeBy) -> TrialId {
    let edit = Edit::GrowTrial {
        from: TRIAL,
        reason: reason.to_owned(),
        changes: Vec::new(),
        made_by,
    };
    session.edit(&edit).expect("it can grow");
    session.selection().trial.expect("it is shown")
}

#[test]
fn a_row_says_where_a_trial_came_from_and_lies_where_the_drink_does() {
    let aim = Point {
        sweet_g_per_l: 80.0,
        sour_g_per_l: 9.0,
        strength_pct_vol: 18.0,
        bitter_per_ml: 0.0,
    };
    let doc = document(sour(), SHAKEN, Some(aim));
    let mut session = Session::new(Arc::clone(builtin()), doc);
    session.set_day(Some("2026-05-04".to_owned()));
    let child = grow(
        &mut session,
        "to learn",
        MadeBy::Proposal("best balance".to_owned()),
    );
    let third = grow(&mut session, "", MadeBy::Merge(child));
    let bin = Edit::Trial(TrialEdit::Bin { trial: TRIAL });
    session.edit(&bin).expect("it can go");
    let found = table(&session);
    let ids: Vec<TrialId> = found.lines.iter().map(|line| line.id).collect();
    assert_eq!(ids, [child, third]);
    let first = &found.lines[0];
    assert_eq!(first.parent, "Trial 1", "though it was thrown away");
    assert_eq!(first.made_by, "proposal: best balance");
    assert_eq!(
        (first.on.as_str(), first.reason.as_str()),
        ("2026-05-04", "to learn")
    );
    assert_eq!(found.lines[1].made_by, "merged with Trial 2");
    let there = point(&sour(), SHAKEN);
    let figures = first.figures.as_ref().expect("it can be served");
    let told = (
        figures.sweet_g_per_l,
        figures.sour_g_per_l,
        figures.strength_pct_vol,
    );
    assert_eq!(
        told,
        (
            there.sweet_g_per_l,
            there.sour_g_per_l,
            there.strength_pct_vol
        )
    );
    let steps = steps_between(&there, &aim, &Senses::default());
    assert_eq!(first.from_target, Some(steps.distance(&Weights::default())));
    let none = trial_history(session.document(), SpecId(99), &mut Pantry::default());
    assert_eq!(none, None);
}

#[test]
fn liking_is_the_mean_of_all_answers_once_a_tasting_is_closed() {
    let mut session = session();
    let other = grow(&mut session, "", MadeBy::Hand);
    let method = TastingMethod::JustRight {
        attributes: Vec::new(),
    };
    let cup = |sample, code, liking| Cup {
        sample,
        code,
        liking,
        ..Cup::default()
    };
    let taster = |name: &str, likings: [Option<u8>; 2]| Taster {
        name: name.to_owned(),
        cups: vec![cup(1, 321, likings[0]), cup(0, 123, likings[1])],
        ..Taster::default()
    };
    let tasting = Tasting {
        id: TastingId(0),
        title: "Monday".to_owned(),
        on: String::new(),
        method,
        samples: Vec::new(),
        tasters: vec![
            taster("A", [Some(9), Some(4)]),
            taster("B", [None, Some(7)]),
        ],
        seed: 1,
        closed: false,
        notes: String::new(),
    };
    let start = TastingEdit::Start {
        tasting: Box::new(tasting),
        trials: vec![TRIAL, other],
    };
    session.edit(&Edit::Tasting(start)).expect("it can begin");
    let likings = |session: &Session| -> Vec<Option<(f64, usize)>> {
        table(session)
            .lines
            .iter()
            .map(|line| line.liking)
            .collect()
    };
    assert_eq!(
        likings(&session),
        [None, None],
        "the codes are not lifted yet"
    );
    let (_, tasting) = session
        .document()
        .tastings
        .iter()
        .next()
        .expect("it is there");
    let closed = Tasting {
        closed: true,
        ..Tasting::clone(tasting)
    };
    let set = TastingEdit::Set {
        tasting: Arc::new(closed),
        what: "Close the tasting",
    };
    session.edit(&Edit::Tasting(set)).expect("it can be closed");
    assert_eq!(likings(&session), [Some((5.5, 2)), Some((9.0, 1))]);
}

/// A drink whose words look like formulas and break the lines of tables.
fn wild() -> Session {
    let mut session = session();
    let describe = Edit::DescribeTrial {
        trial: TRIAL,
        name: "=1+1".to_owned(),
        reason: "@sum, \"quoted\"".to_owned(),
        verdict: "too | sour\n# best <b>".to_owned(),
    };
    session.edit(&describe).expect("any words stand");
    session
}

#[test]
fn the_table_for_spreadsheets_keeps_formulas_apart_and_every_figure_exact() {
    let session = wild();
    let found = table(&session);
    let text = write_plain_table(&found.table()).expect("it can be written");
    let sheet = read_sheet(&text, None, None).expect("it reads");
    assert_eq!(sheet.columns, TrialHistory::HEADS);
    let cells = &sheet.rows[0].cells;
    assert_eq!(cells.len(), TrialHistory::HEADS.len());
    assert_eq!(cells[0], "'=1+1");
    assert!(cells[5].starts_with("'@sum, \"quoted\""), "{}", cells[5]);
    let sour = point(&sour(), SHAKEN).sour_g_per_l;
    assert_eq!(cells[8].parse(), Ok(sour));
    assert_eq!(cells[14], "", "there is no target");
}

#[test]
fn words_never_break_the_table_in_markdown() {
    let found = table(&wild());
    let text = found.markdown();
    let columns = |line: &str| line.replace("\\|", "").matches('|').count();
    let rows: Vec<&str> = text.lines().skip(2).collect();
    assert_eq!(rows.len(), 3);
    assert!(rows.iter().all(|row| columns(row) == 15), "{text}");
    assert_eq!(rows[0], TrialHistory::MARK);
    assert!(text.contains("too \\| sour \\# best \\<b\\>"), "{text}");
}
