//! The tasting of the demo document: an invented panel tasted three strengths of a shrub, its answers
//! moved the target, and a proposal answered them.

use crate::sample_drinks::builtin;
use equipour::balance::{Drink, Pantry, figures, steps_between};
use equipour::model::{
    Attribute, Axis, Document, MadeBy, Point, SpecId, Target, Tasting, TastingId, TastingMethod,
    Trial, TrialId,
};
use equipour::rebalance::{Change, Kind};
use equipour::session::{Edit, Session, TastingEdit, sample_of};
use equipour::store::{DEMO, read_text};
use equipour::tasting::{
    Lesson, PenaltySide, TastedPoint, just_right_result, learn, penalty_words, plan,
};
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng as _, SeedableRng as _};
use std::sync::Arc;

/// The drink, the trial that the panel's samples grew from, and the place of the shrub in it.
const DRINK: SpecId = SpecId(12);
const BASE: TrialId = TrialId(14);
const SHRUB: usize = 2;
/// Day of the tasting.
const DAY: &str = "2026-05-04";
/// Who tasted.
const PANEL: usize = 18;
/// What was asked for.
const ASKED: [Attribute; 4] = [
    Attribute::Sweet,
    Attribute::Sour,
    Attribute::Strong,
    Attribute::Dilution,
];
/// Where the invented panel would have it, noticeable steps from the base: this sets the answers.
const IDEAL_SOUR: f64 = -1.5;

fn demo() -> Document {
    read_text(DEMO).expect("the demo is sound").document
}

fn point(document: &Document, trial: &Trial) -> Point {
    let drink = Drink::of_trial(document, trial, &mut Pantry::default()).expect("it resolves");
    figures(&drink).expect("it is served").point
}

/// A number between −1 and 1.
fn wobble(random: &mut ChaCha8Rng) -> f64 {
    f64::from(random.next_u32()) / f64::from(u32::MAX) * 2.0 - 1.0
}

/// An answer on a scale of five for something that is so many steps too much.
fn answer(off: f64) -> u8 {
    match (3.0 + off).round() {
        low if low <= 1.0 => 1,
        high if high >= 5.0 => 5,
        between => between as u8,
    }
}

fn grown(session: &mut Session, name: &str, reason: &str, to: f64) -> TrialId {
    let from = 25.0;
    let change = Change {
        pour: SHRUB,
        from,
        to,
    };
    grow(session, BASE, (name, reason), (vec![change], MadeBy::Hand))
}

fn grow(
    session: &mut Session,
    from: TrialId,
    (name, reason): (&str, &str),
    (changes, made_by): (Vec<Change>, MadeBy),
) -> TrialId {
    let edit = Edit::GrowTrial {
        from,
        reason: reason.to_owned(),
        changes,
        made_by,
    };
    session.edit(&edit).expect("it grows");
    let spec = session.document().spec(DRINK).expect("the drink is there");
    let trial = spec.latest().expect("it was grown").id;
    let edit = Edit::DescribeTrial {
        trial,
        name: name.to_owned(),
        reason: reason.to_owned(),
        verdict: String::new(),
    };
    session.edit(&edit).expect("it is described");
    trial
}

/// Fills the ballots of a panel that finds anything sourer than its ideal too sour.
fn fill(document: &Document, tasting: &mut Tasting) {
    let random = &mut ChaCha8Rng::seed_from_u64(20_260_504);
    let base = point(document, document.trial(BASE).expect("it is there").1);
    let off: Vec<_> = tasting
        .samples
        .iter()
        .map(|sample| steps_between(&point(document, &sample.as_tasted), &base, &document.senses))
        .collect();
    for taster in &mut tasting.tasters {
        let own = 1.3 * wobble(random);
        for cup in &mut taster.cups {
            let steps = &off[cup.sample];
            let sour = steps.sour - IDEAL_SOUR + own + 0.5 * wobble(random);
            let sweet = 0.6 * steps.sweet + 0.6 * wobble(random);
            for (attribute, off) in [
                (Attribute::Sour, sour),
                (Attribute::Sweet, sweet),
                (Attribute::Strong, 0.3 + 0.7 * wobble(random)),
                (Attribute::Dilution, 0.8 * wobble(random)),
            ] {
                cup.right.insert(attribute, answer(off));
            }
            let liking = 7.6 - 1.3 * sour.abs() - 0.4 * sweet.abs() + wobble(random);
            cup.liking = Some(liking.round().clamp(1.0, 9.0) as u8);
        }
    }
}

/// What the answers to a sample suggest, with those to the others.
fn lesson(document: &Document, tasting: &Tasting, of: usize) -> Lesson {
    let found = just_right_result(tasting).expect("it asked for scales");
    let tasted: Vec<TastedPoint> = tasting
        .samples
        .iter()
        .zip(found.samples)
        .map(|(sample, scales)| TastedPoint {
            point: point(document, &sample.as_tasted),
            scales: scales.scales,
        })
        .collect();
    let target = document.spec(DRINK).and_then(|spec| spec.target.as_ref());
    let target = target.map(|target| target.point);
    learn(
        &tasted,
        of,
        target.as_ref(),
        &document.learning,
        &document.senses,
    )
    .expect("there are answers")
}

/// Adds two strengths of the shrub, the tasting of all three, the target that it moved and the trial
/// that answers it.
pub(crate) fn add_tasting(document: Document) -> Document {
    let mut session = Session::new(Arc::clone(builtin()), document);
    session.select_spec(DRINK);
    let less = grown(
        &mut session,
        "Less shrub",
        "is it too sharp for a whole glass?",
        20.0,
    );
    let more = grown(
        &mut session,
        "More shrub",
        "or does the root want more of it?",
        30.0,
    );
    let method = TastingMethod::JustRight {
        attributes: ASKED.to_vec(),
    };
    let names: Vec<String> = (1..=PANEL)
        .map(|number| format!("Taster {number}"))
        .collect();
    let seed = 4;
    let tasting = Tasting {
        id: TastingId(0),
        title: "How much shrub".to_owned(),
        on: DAY.to_owned(),
        tasters: plan(&method, 3, &names, seed).expect("it can be drawn"),
        method,
        samples: Vec::new(),
        seed,
        closed: false,
        notes: "An invented panel: staff of three bars on a slow evening.".to_owned(),
    };
    let start = TastingEdit::Start {
        tasting: Box::new(tasting),
        trials: vec![less, BASE, more],
    };
    session.edit(&Edit::Tasting(start)).expect("it starts");
    let mut filled = Tasting::clone(
        session
            .document()
            .tastings
            .values()
            .next()
            .expect("it is there"),
    );
    fill(session.document(), &mut filled);
    filled.closed = true;
    let found = lesson(session.document(), &filled, 1);
    let set = TastingEdit::Set {
        tasting: Arc::new(filled),
        what: "Close the tasting",
    };
    session.edit(&Edit::Tasting(set)).expect("it is kept");
    // Files hold no noise digits.
    let tidy = |value: f64| (value * 1.0e4).round() / 1.0e4;
    let mut point = found.point;
    for axis in [Axis::Sweet, Axis::Sour, Axis::Strength] {
        point.set(axis, tidy(point.on(axis)));
    }
    let target = Target::at(point, format!("panel of {PANEL}, How much shrub"));
    let spec = DRINK;
    let edit = Edit::SetTarget {
        spec,
        target: Some(target),
    };
    session.edit(&edit).expect("it is set");
    session.select_trial(BASE);
    session.refresh();
    let derived = session.derived().expect("it is worked out");
    let answer = derived.answer.as_ref().expect("the question is sound");
    let best = answer.proposals.first().expect("there is one");
    assert!(best.kinds.contains(&Kind::Nearest), "{:?}", best.kinds);
    let changes = best.changes.clone();
    let made_by = MadeBy::Proposal("Best balance".to_owned());
    let words = (
        "As the panel asked",
        "the proposal that lands on the panel's target",
    );
    grow(&mut session, BASE, words, (changes, made_by));
    let mut document = Document::clone(session.document());
    let spec = document.spec_mut(DRINK).expect("it is there");
    for trial in &mut spec.trials {
        DAY.clone_into(&mut Arc::make_mut(trial).made_on);
    }
    // Samples are as they were tasted, but for the day, which is written last.
    let tastings = Arc::make_mut(&mut document.tastings);
    for sample in tastings
        .values_mut()
        .flat_map(|tasting| &mut Arc::make_mut(tasting).samples)
    {
        DAY.clone_into(&mut Arc::make_mut(&mut sample.as_tasted).made_on);
    }
    document
}

fn the_tasting(document: &Document) -> &Tasting {
    let mut all = document.tastings.values();
    let tasting = all.next().expect("the demo holds a tasting");
    assert!(all.next().is_none());
    tasting
}

#[test]
fn the_tasting_of_the_demo_is_closed_and_every_ballot_is_filled() {
    let document = demo();
    let tasting = the_tasting(&document);
    assert!(tasting.closed && tasting.tasters.len() == PANEL);
    let cups = tasting.tasters.iter().flat_map(|taster| &taster.cups);
    assert!(
        cups.clone()
            .all(|cup| cup.right.len() == ASKED.len() && cup.liking.is_some())
    );
    // What was tasted is what the trials still are.
    for sample in &tasting.samples {
        assert_eq!(sample_of(&document, sample.trial).as_ref(), Some(sample));
    }
}

#[test]
fn the_panel_of_the_demo_says_what_is_wrong_and_what_that_costs() {
    let document = demo();
    let found = just_right_result(the_tasting(&document)).expect("it asked for scales");
    let scales = &found.samples[1].scales;
    let sour = scales
        .iter()
        .find(|scale| scale.attribute == Attribute::Sour)
        .expect("asked");
    let too_much = sour
        .penalties
        .iter()
        .find(|one| one.side == PenaltySide::TooMuch);
    let too_much = too_much.expect("the base is too sour for some");
    assert!(too_much.share >= 0.2, "{too_much:?}");
    assert!(too_much.drop.is_some_and(|drop| drop > 0.5), "{too_much:?}");
    assert!(penalty_words(Attribute::Sour, too_much).contains("too sour"));
}

#[test]
fn the_target_of_the_demo_is_what_the_answers_suggest_and_the_last_trial_lands_on_it() {
    let document = demo();
    let spec = document.spec(DRINK).expect("the drink is there");
    let target = spec.target.as_ref().expect("the panel set one");
    let tasting = the_tasting(&document);
    // As it was before the target was set.
    let mut before = document.clone();
    before.spec_mut(DRINK).expect("it is there").target = None;
    let found = lesson(&before, tasting, 1);
    let off = steps_between(&found.point, &target.point, &document.senses);
    assert!(
        off.sour.abs() + off.sweet.abs() + off.strength.abs() < 1e-3,
        "{off:?}"
    );
    let sour = found.axes.iter().find(|axis| axis.axis == Axis::Sour);
    let sour = sour.expect("it was asked for");
    assert!(sour.shift_steps < -0.3 && !sour.few, "{sour:?}");
    let last = spec.latest().expect("there is one");
    assert!(matches!(last.made_by, MadeBy::Proposal(_)));
    let distance = |trial: &Trial| {
        let steps = steps_between(&point(&document, trial), &target.point, &document.senses);
        steps.distance(&spec.balancing.weights)
    };
    let base = spec.trial(BASE).expect("it is there");
    let (last, base) = (distance(last), distance(base));
    assert!(last < 1.0 && last < base - 0.5, "{last} {base}");
}
