//! What a bartender would pour: no trace of acid counts, no drink is left without what makes it.

use crate::rebalance::question;
use crate::sample_drinks::{SHAKEN, builtin, document, ml, point};
use equipour::balance::{Pantry, steps_between};
use equipour::model::{Dilution, Method, Point, Pour, ScaleRule, Senses, Technique};
use equipour::rebalance::{Kind, Proposal, Verdict, propose};
use equipour::session::spec_from_classic;
use equipour::units::Unit;

const STIRRED: Technique = Technique::new(Method::Stirred, Dilution::ByMethod);

fn sour(sour_g_per_l: f64) -> Point {
    Point {
        sweet_g_per_l: 40.0,
        sour_g_per_l,
        strength_pct_vol: 25.0,
        bitter_per_ml: 0.0,
    }
}

fn sour_steps(of: f64, from: f64) -> f64 {
    steps_between(&sour(of), &sour(from), &Senses::default()).sour
}

#[test]
fn a_trace_of_acid_more_or_less_makes_no_difference_beside_what_is_not_sour() {
    assert_eq!(sour_steps(0.0, 0.6), 0.0);
    assert_eq!(sour_steps(1.4, 0.0), 0.0);
    // From 1.5 g/L on it counts: ln(8.0695 / 1.5695) / ln 1.15 by hand.
    let by_hand = (8.0695_f64 / 1.5695).ln() / 1.15_f64.ln();
    assert!((sour_steps(8.0, 0.6) - by_hand).abs() < 1e-12);
    // A sour drink without its acid is another drink, by as much as the other way round.
    assert!((sour_steps(0.6, 8.0) + by_hand).abs() < 1e-12);
    // There is no cliff at the limit.
    assert!((sour_steps(0.0, 1.501) - sour_steps(0.0, 1.5)).abs() < 0.01);
}

#[test]
fn a_stirred_drink_can_lose_the_wine_that_held_its_trace_of_acid() {
    let with_wine = [ml("whiskey-rye", 50.0), ml("vermouth-sweet-red", 20.0)];
    let target = point(&with_wine, STIRRED);
    assert!(
        target.sour_g_per_l > 0.3 && target.sour_g_per_l < 1.5,
        "{target:?}"
    );
    let pours = vec![ml("whiskey-rye", 50.0), ml("amaro", 20.0)];
    let mut document = document(pours, STIRRED, Some(target));
    document.specs[0].balancing.scale_rule = ScaleRule::None;
    let answer = propose(&question(&document)).expect("it is sound");
    assert!(answer.distance_now < 6.0, "{}", answer.distance_now);
    // Whatever is far is far for its sugar and strength alone.
    for proposal in &answer.proposals {
        assert_eq!(proposal.steps.sour, 0.0);
    }
    assert!(!matches!(answer.verdict, Verdict::Contradiction(_)));
}

#[test]
fn egg_of_a_classic_starts_locked_and_so_is_no_filler() {
    let builtin = builtin();
    let egged = ["whiskey-sour", "pisco-sour", "clover-club"];
    for id in egged {
        let classic = builtin.classics.iter().find(|classic| classic.id.0 == id);
        let classic = classic.expect("it is a classic");
        let (spec, _) = spec_from_classic(builtin, classic, &mut Pantry::default());
        let pours = &spec.trials[0].pours;
        let egg = |pour: &&Pour| format!("{:?}", pour.source).contains("egg");
        let found: Vec<&Pour> = pours.iter().filter(egg).collect();
        assert_eq!(found.len(), 1, "{id}");
        assert!(found[0].locked, "{id}: {:?}", found[0]);
        assert!(pours.iter().any(|pour| !pour.locked), "{id}");
    }
}

fn of_kind(proposals: &[Proposal], kind: Kind) -> Option<&Proposal> {
    proposals
        .iter()
        .find(|proposal| proposal.kinds.contains(&kind))
}

#[test]
fn a_drink_that_is_near_is_left_alone_unless_half_a_difference_is_gained() {
    let pours = |sugar: f64| {
        vec![
            ml("gin-london-dry", 50.0),
            ml("lemon-juice", 25.0),
            ml("sugar-syrup-1-1", sugar),
        ]
    };
    let target = point(&pours(20.0), SHAKEN);
    let (mut near, mut far) = (0, 0);
    for sugar in [17.5, 20.0, 22.5, 25.0, 27.5, 30.0] {
        let document = document(pours(sugar), SHAKEN, Some(target));
        let answer = propose(&question(&document)).expect("it is sound");
        let best = of_kind(&answer.proposals, Kind::Nearest);
        if let Some(best) = best {
            far += 1;
            let gained = answer.distance_now - best.distance;
            assert!(
                answer.distance_now > 1.0 || gained > 0.5,
                "{sugar}: {best:?}"
            );
        } else {
            near += 1;
            assert!(
                answer.distance_now <= 1.0,
                "{sugar}: {}",
                answer.distance_now
            );
        }
    }
    assert!(near >= 2 && far >= 2, "{near} near, {far} far");
}

#[test]
fn no_pour_is_left_out_for_a_little() {
    // A second sour of 5 ml: without it the drink could come nearer by changing nothing else.
    let target = point(
        &[
            ml("gin-london-dry", 50.0),
            ml("lemon-juice", 25.0),
            ml("sugar-syrup-1-1", 25.0),
        ],
        SHAKEN,
    );
    let pours = vec![
        ml("gin-london-dry", 50.0),
        ml("lemon-juice", 25.0),
        ml("sugar-syrup-1-1", 25.0),
        ml("lime-juice", 5.0),
    ];
    let document = document(pours, SHAKEN, Some(target));
    let answer = propose(&question(&document)).expect("it is sound");
    for proposal in &answer.proposals {
        let mut gone = proposal.changes.iter().filter(|change| change.to <= 0.0);
        assert!(gone.next().is_none(), "{proposal:?}");
    }
}

#[test]
fn unit_of_a_jigger_does_not_change_what_is_proposed() {
    let pours = |unit: Unit| -> Vec<Pour> {
        let pours = [
            ml("rum-white", 60.0),
            ml("lime-juice", 20.0),
            ml("honey-syrup-1-1", 35.0),
        ];
        pours
            .into_iter()
            .map(|pour| Pour { unit, ..pour })
            .collect()
    };
    let target = point(
        &[
            ml("rum-white", 60.0),
            ml("lime-juice", 25.0),
            ml("honey-syrup-1-1", 20.0),
        ],
        SHAKEN,
    );
    let changes = |unit: Unit| {
        let mut pours = pours(unit);
        for pour in &mut pours {
            pour.step = Some(2.5);
        }
        let document = document(pours, SHAKEN, Some(target));
        let answer = propose(&question(&document)).expect("it is sound");
        let best = of_kind(&answer.proposals, Kind::Nearest)
            .expect("it is too sweet")
            .clone();
        best.changes
    };
    assert_eq!(changes(Unit::Ml), changes(Unit::Cl));
}
