//! Tastings in a document: what they may say, what they keep, and how they are undone.

use crate::sample_drinks::{SHAKEN, SPEC, TRIAL, builtin, document, sour};
use equipour::model::{
    Amount, Attribute, Choice, Document, Ingredient, Input, Preparation, PreparationId, Process,
    Quantity, Range, Source, Step, Tasting, TrialId, TrialState, Wait, check,
};
use equipour::session::{
    Edit, HouseEdit, MethodKind, Question, SampleNow, Session, SetupField, TastingEdit,
    TastingSetup, answer_of, filled_ballots, missing_ballots, questions, sample_now, taster_names,
    with_answer, with_late_taster,
};
use equipour::store::{document_text, read_text};
use equipour::units::Unit;
use std::collections::BTreeMap;
use std::sync::Arc;

const SECOND: TrialId = TrialId(3);
const SEED: u64 = 20_260_504;

/// A sour with two draft trials.
fn two_trials() -> Session {
    let mut session = Session::new(Arc::clone(builtin()), document(sour(), SHAKEN, None));
    session
        .edit(&Edit::GrowTrial {
            from: TRIAL,
            reason: String::new(),
            changes: Vec::new(),
            made_by: equipour::model::MadeBy::Hand,
        })
        .expect("it grows");
    session
}

fn setup(document: &Document, kind: MethodKind, tasters: &str) -> TastingSetup {
    TastingSetup {
        kind,
        trials: vec![TRIAL, SECOND],
        tasters: tasters.to_owned(),
        ..TastingSetup::of(document, Some(SPEC), "2026-05-04".to_owned())
    }
}

pub(crate) fn started_with(kind: MethodKind, tasters: &str) -> Session {
    let mut session = two_trials();
    let setup = setup(session.document(), kind, tasters);
    let edit = setup.start(session.document(), SEED).expect("it can start");
    session.edit(&edit).expect("it starts");
    session.settle();
    session
}

pub(crate) fn started() -> Session {
    started_with(MethodKind::JustRight, "Ada\nBen")
}

pub(crate) fn tasting(session: &Session) -> &Arc<Tasting> {
    let mut all = session.document().tastings.values();
    all.next().expect("there is a tasting")
}

pub(crate) fn put(session: &mut Session, changed: Tasting) -> Result<(), String> {
    let edit = Edit::Tasting(TastingEdit::Set {
        tasting: Arc::new(changed),
        what: "Answer a ballot",
    });
    session.edit(&edit).map_err(|error| error.to_string())
}

pub(crate) fn refused(change: impl FnOnce(&mut Tasting)) -> String {
    let mut session = started();
    let mut changed = Tasting::clone(tasting(&session));
    change(&mut changed);
    let before = Arc::clone(session.document());
    let error = put(&mut session, changed).expect_err("it cannot stand");
    assert!(Arc::ptr_eq(&before, session.document()), "nothing changed");
    error
}

#[test]
fn ratings_out_of_range_are_refused_with_the_field() {
    let sweet = refused(|one| {
        one.tasters[0].cups[0].right.insert(Attribute::Sweet, 6);
    });
    assert!(
        sweet.contains("right") && sweet.contains("6 is outside 1 to 5"),
        "{sweet}"
    );
    let none = refused(|one| {
        one.tasters[0].cups[0].right.insert(Attribute::Sour, 0);
    });
    assert!(none.contains("0 is outside 1 to 5"), "{none}");
    let liking = refused(|one| one.tasters[1].cups[0].liking = Some(10));
    assert!(
        liking.contains("liking") && liking.contains("10 is outside 1 to 9"),
        "{liking}"
    );
    let rank = refused(|one| one.tasters[1].cups[0].rank = Some(3));
    assert!(rank.contains("3 is outside 1 to 2"), "{rank}");
    let time = refused(|one| one.tasters[1].cups[0].seconds = Some(-1.0));
    assert!(time.contains("seconds"), "{time}");
    let choice = refused(|one| one.tasters[1].choice = Some(Choice::Cup(2)));
    assert!(choice.contains("is no cup of this taster"), "{choice}");
}

#[test]
fn marks_stay_between_nothing_and_full_marks() {
    let session = started_with(MethodKind::ScoreSheet, "Ada");
    let full = Question::Mark {
        cup: 0,
        criterion: 1,
    };
    for (mark, stands) in [(0.0, true), (10.0, true), (10.5, false), (-0.5, false)] {
        let changed = with_answer(tasting(&session), 0, full, Some(mark));
        let mut session = started_with(MethodKind::ScoreSheet, "Ada");
        assert_eq!(put(&mut session, changed).is_ok(), stands, "{mark}");
    }
    let beyond = Question::Mark {
        cup: 0,
        criterion: 9,
    };
    let changed = with_answer(tasting(&session), 0, beyond, Some(1.0));
    let mut session = started_with(MethodKind::ScoreSheet, "Ada");
    let error = put(&mut session, changed).expect_err("there is no such line");
    assert!(error.contains("is no line of the score sheet"), "{error}");
}

#[test]
fn nobody_gets_two_ballots() {
    let error = refused(|one| one.tasters[1].name = " ada ".to_owned());
    assert!(error.contains("ada has a ballot already"), "{error}");
    let session = started();
    let late = with_late_taster(tasting(&session), "BEN ").expect_err("there is a Ben");
    assert_eq!(late, "Ben has a ballot already");
    let twice = taster_names("Ada\nBen\nada").expect_err("Ada stands twice");
    assert!(twice.contains("ada stands twice"), "{twice}");
}

#[test]
fn a_late_taster_gets_codes_that_mean_the_same_samples() {
    let mut session = started();
    let changed = with_late_taster(tasting(&session), "Cleo").expect("there is room");
    assert_eq!(changed.tasters[..2], tasting(&session).tasters[..]);
    put(&mut session, changed).expect("it can stand");
    assert_eq!(tasting(&session).tasters[2].name, "Cleo");
    let mut of_code = BTreeMap::new();
    for cup in tasting(&session).tasters.iter().flat_map(|one| &one.cups) {
        let sample = *of_code.entry(cup.code).or_insert(cup.sample);
        assert_eq!(sample, cup.sample, "code {}", cup.code);
    }
}

#[test]
fn a_code_never_stands_for_two_samples() {
    let error = refused(|one| {
        let (code, sample) = (one.tasters[0].cups[0].code, one.tasters[0].cups[0].sample);
        for cup in &mut one.tasters[1].cups {
            let same = sample == cup.sample;
            cup.code = if same { 999 } else { code };
        }
    });
    assert!(error.contains("stands for two samples"), "{error}");
    let error = refused(|one| one.tasters[0].cups[0].code = 99);
    assert!(error.contains("99 is no code of three digits"), "{error}");
    let error = refused(|one| {
        one.tasters[0].cups.pop();
    });
    assert!(error.contains("holds 1 cups, not 2"), "{error}");
}

#[test]
fn missing_ballots_are_counted_by_what_was_asked() {
    for kind in MethodKind::ALL {
        let session = started_with(kind, "Ada\nBen");
        let one = tasting(&session);
        assert_eq!(missing_ballots(one), ["Ada", "Ben"], "{}", kind.name());
        let mut filled = Tasting::clone(one);
        let asked = questions(one);
        for question in &asked {
            filled = with_answer(&filled, 1, *question, Some(1.0));
            assert_eq!(answer_of(&filled.tasters[1], *question), Some(1.0));
        }
        assert_eq!(missing_ballots(&filled), ["Ada"], "{}", kind.name());
        assert_eq!(filled_ballots(&filled), 1);
        for question in &asked {
            let short = with_answer(&filled, 1, *question, None);
            assert_eq!(missing_ballots(&short), ["Ada", "Ben"], "{question:?}");
        }
    }
}

#[test]
fn starting_freezes_drafts_and_undo_gives_them_back() {
    let mut session = two_trials();
    session.settle();
    let before = Document::clone(session.document());
    let wanted = setup(&before, MethodKind::JustRight, "2");
    assert_eq!(wanted.marked(&before), ["Trial 1", "Trial 2"]);
    let edit = wanted.start(&before, SEED).expect("it can start");
    session.edit(&edit).expect("it starts");
    for id in [TRIAL, SECOND] {
        let (_, trial) = session.document().trial(id).expect("it is there");
        assert_eq!(trial.state, TrialState::Tasted);
        assert!(!trial.frozen.is_empty());
    }
    assert!(wanted.marked(session.document()).is_empty());
    let written = document_text(session.document()).expect("it can be written");
    let read = read_text(&written).expect("it reads").document;
    assert_eq!(&read, &**session.document(), "a file keeps all of it");
    session.undo();
    assert_eq!(&**session.document(), &before);
    session.redo();
    assert_eq!(tasting(&session).seed, SEED);
}

#[test]
fn the_same_seed_draws_the_same_plan() {
    let (one, other) = (started(), started());
    assert_eq!(tasting(&one).tasters, tasting(&other).tasters);
    assert_eq!(check(one.document()), Ok(()));
}

#[test]
fn a_sample_stays_as_tasted_when_trial_and_ingredients_change() {
    let mut session = started();
    let kept = Arc::clone(&tasting(&session).samples[0].as_tasted);
    let now = |session: &Session| sample_now(session.document(), &tasting(session).samples[0]);
    assert_eq!(now(&session), SampleNow::Same);
    // A lime of another acidity changes no trial that was tasted.
    let lime = session.document().ingredients[&"lime-juice".into()].clone();
    let sharper = Ingredient {
        ph: Some(Range::exact(1.9)),
        ..Ingredient::clone(&lime)
    };
    let edit = Edit::SetIngredient {
        id: "lime-juice".into(),
        ingredient: Arc::new(sharper),
    };
    session.edit(&edit).expect("another lime");
    assert_eq!(now(&session), SampleNow::Same);
    let back = Edit::SetState {
        trial: TRIAL,
        state: TrialState::Draft,
    };
    session.edit(&back).expect("it may move again");
    assert_eq!(
        now(&session),
        SampleNow::Edited,
        "as a draft it pours the new lime"
    );
    session
        .edit(&Edit::SetAmount {
            trial: TRIAL,
            pour: 0,
            amount: Amount::Ml(45.0),
            unit: Unit::Ml,
        })
        .expect("another amount");
    assert_eq!(now(&session), SampleNow::Edited);
    let (_, trial) = session.document().trial(TRIAL).expect("it is there");
    assert_eq!(trial.pours[0].amount, Amount::Ml(45.0));
    assert_eq!(tasting(&session).samples[0].as_tasted, kept);
    assert_eq!(kept.pours[0].amount, Amount::Ml(60.0));
    assert_eq!(kept.frozen[&"lime-juice".into()], lime);
}

/// Lime juice that rests and leaves as the row of the syrup.
fn rested(grams: f64) -> Preparation {
    Preparation {
        name: "Rested juice".to_owned(),
        outputs: BTreeMap::from([("made".to_owned(), "rested-juice".into())]),
        main: "made".to_owned(),
        inputs: vec![Input {
            name: "juice".to_owned(),
            source: Source::Ingredient("lime-juice".into()),
            quantity: Quantity::Grams(grams),
        }],
        steps: vec![Step {
            does: Process::Rest,
            from: vec!["juice".to_owned()],
            to: vec!["made".to_owned()],
            lost: 0.0,
            hands_on_min: 1.0,
            wait: Wait::default(),
            celsius: None,
            equipment: Vec::new(),
            note: String::new(),
        }],
        ..Preparation::default()
    }
}

fn house(session: &mut Session, made: Preparation) {
    let edit = Edit::House(HouseEdit::Set {
        id: PreparationId::from("rested"),
        to: Box::new(made),
        rows: Vec::new(),
        label: "Make it".to_owned(),
        gesture: None,
    });
    session.edit(&edit).expect("it can be made");
}

#[test]
fn a_sample_stays_as_tasted_when_its_preparation_changes() {
    let mut session = two_trials();
    house(&mut session, rested(500.0));
    session
        .edit(&Edit::SetSource {
            trial: TRIAL,
            pour: 1,
            source: Source::Preparation {
                preparation: PreparationId::from("rested"),
                output: "made".to_owned(),
            },
        })
        .expect("the house-made one is poured");
    let edit = setup(session.document(), MethodKind::Triangle, "3");
    let edit = edit.start(session.document(), SEED).expect("it can start");
    session.edit(&edit).expect("it starts");
    let kept = Arc::clone(&tasting(&session).samples[0].as_tasted);
    let row = kept.frozen[&"rested-juice".into()].clone();
    let mut changed = rested(500.0);
    changed.inputs[0].source = Source::Ingredient("sugar-syrup-1-1".into());
    house(&mut session, changed);
    let now = &session.document().ingredients[&"rested-juice".into()];
    assert_ne!(*now, row, "the preparation makes something else now");
    let sample = &tasting(&session).samples[0];
    assert_eq!(sample.as_tasted, kept);
    assert_eq!(sample.as_tasted.frozen[&"rested-juice".into()], row);
    assert_eq!(sample_now(session.document(), sample), SampleNow::Same);
}

#[test]
fn the_set_up_says_beside_the_field_why_it_cannot_start() {
    let session = two_trials();
    let document = session.document();
    let said = |change: &dyn Fn(&mut TastingSetup)| {
        let mut one = setup(document, MethodKind::Triangle, "8");
        assert!(one.troubles(document).is_empty());
        change(&mut one);
        let first = one.start(document, SEED).expect_err("it cannot start");
        assert_eq!(one.troubles(document).first(), Some(&first));
        (first.field, first.reason)
    };
    let (field, reason) = said(&|one| one.trials.truncate(1));
    assert_eq!(field, SetupField::Trials);
    assert_eq!(
        reason,
        "choose 1 more: triangle test takes exactly 2 trials"
    );
    let (field, _) = said(&|one| one.title = " ".to_owned());
    assert_eq!(field, SetupField::Title);
    let (field, _) = said(&|one| one.on = "4 May".to_owned());
    assert_eq!(field, SetupField::Day);
    let (field, reason) = said(&|one| one.tasters = "0".to_owned());
    assert_eq!(field, SetupField::Tasters);
    assert!(reason.contains("0 is outside 1 to 200"), "{reason}");
    let (field, reason) = said(&|one| {
        one.kind = MethodKind::ScoreSheet;
        one.criteria[2].name = String::new();
    });
    assert_eq!(field, SetupField::Method);
    assert_eq!(reason, "criterion 3 has no name");
    let (field, _) = said(&|one| one.trials = vec![TRIAL, TrialId(99)]);
    assert_eq!(field, SetupField::Trials);
}

#[test]
fn a_number_stands_for_as_many_tasters() {
    assert_eq!(
        taster_names(" 3 "),
        Ok(["Taster 1", "Taster 2", "Taster 3"]
            .map(str::to_owned)
            .into())
    );
    assert_eq!(
        taster_names("Ada\n\n  Ben \n"),
        Ok(["Ada", "Ben"].map(str::to_owned).into())
    );
    assert!(taster_names("\n").is_err());
}
