//! Proposals in words: titles of kinds that came out alike, and what a proof leaves open.

use equipour::model::{Bounded, Document, Point, Trial};
use equipour::rebalance::{Binding, Change, Evidence, Kind, Limit, Proposal};
use equipour::session::{
    change_size_text, evidence_text, held_back_text, kept_reason, limit_text, part_title,
    proof_text, proposal_title,
};
use equipour::solver::Proof;
use equipour::store::{DEMO, read_text};

fn evidence(kind: Kind, gap: f64) -> Evidence {
    Evidence {
        kind,
        proof: if gap > 0.0 {
            Proof::NodeLimit
        } else {
            Proof::Complete
        },
        gap,
        nodes: 2_000,
    }
}

/// A proposal of so many pours.
fn proposal(kinds: &[Kind], pours: usize, distance: f64, gap: f64) -> Proposal {
    let changes = (0..pours).map(|pour| Change {
        pour,
        from: 20.0,
        to: 22.5,
    });
    Proposal {
        kinds: kinds.to_vec(),
        changes: changes.collect(),
        point: Point::default(),
        steps: equipour::balance::Steps::default(),
        distance,
        distance_unrounded: distance,
        change_steps: pours as f64,
        served_ml: 120.0,
        cost: 3.0,
        binding: Vec::new(),
        evidence: kinds.iter().map(|kind| evidence(*kind, gap)).collect(),
        ending: "found",
    }
}

fn demo() -> (Document, Trial) {
    let document = read_text(DEMO).expect("the demo is sound").document;
    let spec = document.specs.last().expect("a drink");
    let trial = spec.latest().expect("a trial").as_ref().clone();
    (document, trial)
}

#[test]
fn kinds_that_came_out_alike_share_a_title() {
    use Kind::{Cheapest, EasiestToMeasure, FewestPours, Nearest, SmallestChange};
    assert_eq!(proposal_title(&[Nearest]), "Best balance");
    assert_eq!(
        proposal_title(&[Nearest, Cheapest]),
        "Best balance and cheapest"
    );
    assert_eq!(
        proposal_title(&[Nearest, SmallestChange, Cheapest]),
        "Best balance · also smallest change, cheapest"
    );
    assert_eq!(
        proposal_title(&[SmallestChange, FewestPours, EasiestToMeasure, Cheapest]),
        "Smallest change · also fewest pours changed, easiest to measure, cheapest"
    );
}

#[test]
fn a_part_says_how_many_pours_it_takes() {
    let four = proposal(&[Kind::Nearest], 4, 0.5, 0.0);
    assert_eq!(part_title(&four, 2), "Best balance, 2 of 4 pours");
    assert_eq!(part_title(&four, 4), "Best balance");
    // The lowest cost is the whole's, not the part's.
    let both = proposal(&[Kind::Nearest, Kind::Cheapest], 4, 0.5, 0.0);
    assert_eq!(part_title(&both, 3), "Best balance, 3 of 4 pours");
    assert_eq!(part_title(&both, 4), "Best balance and cheapest");
}

#[test]
fn a_complete_proof_says_so() {
    let said = |kind| evidence_text(&evidence(kind, 0.0), 0.5, "EUR");
    assert_eq!(said(Kind::Nearest), "proved best on your notches");
    assert_eq!(said(Kind::Cheapest), "proved best on your notches");
    assert_eq!(said(Kind::FewestPours), "proved: no fewer pours can do it");
}

#[test]
fn a_gap_is_told_in_what_the_kind_counts() {
    let said = |kind, gap, distance| evidence_text(&evidence(kind, gap), distance, "EUR");
    // From 0.5 squared steps down to 0.25 − 0.16 = 0.09: from 0.5 to 0.3 steps.
    assert_eq!(
        said(Kind::Nearest, 0.16, 0.5),
        "the search stopped early: other amounts may be better, by 0.2 steps at most"
    );
    // 0.5 − √(0.25 − 0.04) = 0.042: nobody would taste it.
    assert_eq!(
        said(Kind::Nearest, 0.04, 0.5),
        "as good as proved best on your notches"
    );
    // Nothing lies nearer than the target itself.
    assert_eq!(
        said(Kind::Nearest, 9.0, 0.5),
        "the search stopped early: other amounts may be better, by 0.5 steps at most"
    );
    assert_eq!(
        said(Kind::SmallestChange, 2.0, 0.9),
        "the search stopped early: a smaller change may do, by 2 notches at most"
    );
    assert_eq!(
        said(Kind::TradeOff, 1.0, 0.9),
        "the search stopped early: a smaller change may do, by 1 notch at most"
    );
    assert_eq!(
        said(Kind::EasiestToMeasure, 1.0, 0.9),
        "the search stopped early: fewer fillings may do, by 1 filling at most"
    );
    assert_eq!(
        said(Kind::Cheapest, 0.2, 0.9),
        "the search stopped early: cheaper amounts may do, by 0.20 EUR at most"
    );
    assert!(said(Kind::FewestPours, 1.0, 0.9).starts_with("no fewer pours can do it"));
}

#[test]
fn what_may_be_gained_is_never_rounded_down() {
    let said = |kind, gap| evidence_text(&evidence(kind, gap), 0.5, "EUR");
    // 0.5 − √(0.25 − 0.17) = 0.217.
    assert!(said(Kind::Nearest, 0.17).contains("0.3 steps"));
    assert!(said(Kind::SmallestChange, 2.01).contains("2.1 notches"));
    assert!(said(Kind::EasiestToMeasure, 1.2).contains("2 fillings"));
    assert!(said(Kind::Cheapest, 0.012).contains("0.02 EUR"));
}

#[test]
fn a_gap_without_end_is_no_number() {
    for kind in [Kind::SmallestChange, Kind::EasiestToMeasure, Kind::Cheapest] {
        let said = evidence_text(&evidence(kind, f64::INFINITY), 0.5, "EUR");
        assert!(said.ends_with("cannot be said"), "{said}");
    }
    // A distance cannot shrink below nothing, whatever the gap.
    let said = evidence_text(&evidence(Kind::Nearest, f64::INFINITY), 0.5, "EUR");
    assert!(said.contains("0.5 steps"), "{said}");
}

#[test]
fn one_line_of_proof_stands_for_all_kinds() {
    let both = [Kind::Nearest, Kind::FewestPours];
    let proved = proposal(&both, 2, 0.5, 0.0);
    assert_eq!(proof_text(&proved, "EUR"), "proved best on your notches");
    let mut half = proved;
    half.evidence[0] = evidence(Kind::Nearest, 0.16);
    assert_eq!(
        proof_text(&half, "EUR"),
        "Best balance: the search stopped early: other amounts may be better, by 0.2 steps at most"
    );
}

#[test]
fn the_size_of_a_change_is_read_as_a_sentence() {
    assert_eq!(change_size_text(1.0, 1), "1 notch in 1 pour");
    assert_eq!(change_size_text(6.5, 2), "6.5 notches in 2 pours");
}

#[test]
fn limits_that_bind_are_named() {
    let (document, trial) = demo();
    let text = |limit| limit_text(&document, &trial, limit);
    assert_eq!(
        text(Limit::Most(Bounded::Strength)),
        "your upper limit on strength"
    );
    assert_eq!(
        text(Limit::AtLeast(2)),
        "the smallest amount of lemon juice"
    );
    assert_eq!(text(Limit::Locked(0)), "the lock on caraway spirit");
    let binding: Vec<Binding> = [
        Limit::Held,
        Limit::Glass,
        Limit::AtMost(1),
        Limit::AtLeast(2),
    ]
    .into_iter()
    .map(|limit| Binding {
        limit,
        gain_per_unit: 0.1,
    })
    .collect();
    assert_eq!(
        held_back_text(&document, &trial, &binding),
        "held back by the size that is held, the room in the glass, the largest amount of quince syrup, 1 more"
    );
    assert_eq!(held_back_text(&document, &trial, &[]), "");
    // What would gain less than a twentieth of a step is not worth a line.
    let little = Binding {
        limit: Limit::Held,
        gain_per_unit: 0.01,
    };
    assert_eq!(held_back_text(&document, &trial, &[little]), "");
}

#[test]
fn a_kept_trial_says_kind_part_distance_and_changes() {
    let (document, trial) = demo();
    let found = proposal(&[Kind::Nearest, Kind::Cheapest], 3, 0.5, 0.0);
    let part = &found.changes[1..];
    let reason = kept_reason(&document, &trial, &found, (part, 0.84));
    assert_eq!(
        reason,
        "best balance, 2 of 3 pours, 0.8 steps from the target: \
         quince syrup 20 ml → 22.5 ml; lemon juice 20 ml → 22.5 ml"
    );
}
