//! What a document offers to aim at, and targets that are kept in it.

use crate::sample_drinks::{SHAKEN, builtin, drink, ml, point};
use equipour::balance::{Pantry, figures};
use equipour::model::{Added, Dilution, Document, Method, Point, Pour, Technique};
use equipour::rebalance::{LONGEST_NAME, Pull, between};
use equipour::session::{
    AimGroup, AimReference, Edit, FamilyAim, Session, aim_references, family_aims, region_aims,
    spec_from_family,
};
use equipour::store::{DEMO, document_text, read_text};
use std::collections::HashSet;
use std::sync::Arc;

fn demo() -> Document {
    read_text(DEMO).expect("the demo is sound").document
}

fn session(document: Document) -> Session {
    Session::new(Arc::clone(builtin()), document)
}

fn families() -> Vec<FamilyAim> {
    let measures = Document::default().measures;
    family_aims(builtin(), &measures, &mut Pantry::default())
}

#[track_caller]
fn same(a: &Point, b: &Point) {
    for (one, other) in [
        (a.sweet_g_per_l, b.sweet_g_per_l),
        (a.sour_g_per_l, b.sour_g_per_l),
        (a.strength_pct_vol, b.strength_pct_vol),
        (a.bitter_per_ml, b.bitter_per_ml),
    ] {
        assert!((one - other).abs() < 1.0e-9, "{a:?} is not {b:?}");
    }
}

#[test]
fn a_familys_target_is_its_ratio_poured_by_hand() {
    let built = Technique::new(Method::Built, Dilution::ByMethod);
    let after = |pour: Pour| Pour {
        added: Added::After,
        ..pour
    };
    // The ratios as the table of families words them, at 60, 50 and 45 ml of spirit.
    let by_hand = [
        (
            "sour, 2 spirit : 1 sour : 1 sweet (1:1 syrup)",
            vec![
                ml("gin-london-dry", 60.0),
                ml("lemon-juice", 30.0),
                ml("sugar-syrup-1-1", 30.0),
            ],
            SHAKEN,
        ),
        (
            "daisy, 2 spirit : 1 orange liqueur : 1 sour",
            vec![
                ml("brandy-cognac", 50.0),
                ml("orange-liqueur-triple-sec", 25.0),
                ml("lemon-juice", 25.0),
            ],
            SHAKEN,
        ),
        (
            "collins / fizz, 2 spirit : 1 sour : 0.5-1 sweet : 1.3-4 soda",
            vec![
                ml("gin-london-dry", 45.0),
                ml("lemon-juice", 30.0),
                ml("sugar-syrup-1-1", 15.0),
                after(ml("soda-water", 60.0)),
            ],
            built,
        ),
    ];
    let families = families();
    assert_eq!(families.len(), builtin().families.len());
    for (name, pours, technique) in by_hand {
        let aim = families.iter().find(|aim| aim.name == name);
        let aim = aim.unwrap_or_else(|| panic!("no family is called {name}"));
        same(&aim.target.point, &point(&pours, technique));
        assert_eq!(aim.target.label, name);
        assert!(aim.target.parts.is_empty());
    }
    assert_eq!(
        families[0].poured,
        "60 ml gin (london dry), 30 ml lemon juice, 30 ml sugar syrup 1:1 (by weight); shaken"
    );
}

#[test]
fn a_drink_started_from_a_family_aims_where_the_family_does() {
    for (family, aim) in builtin().families.iter().zip(families()) {
        let (spec, _) = spec_from_family(builtin(), family, &mut Pantry::default());
        assert_eq!(spec.target, Some(aim.target));
    }
}

#[test]
fn every_trial_and_every_complete_classic_can_be_aimed_at() {
    let mut session = session(demo());
    let found = aim_references(&mut session);
    let of = |group| found.iter().filter(move |one| one.group == group);
    let trail = session.derived().expect("derived").trail.clone();
    assert_eq!(of(AimGroup::ThisDrink).count(), trail.len());
    for (reference, trial) in of(AimGroup::ThisDrink).zip(&trail) {
        assert_eq!(reference.name, format!("Salt Meadow – {}", trial.name));
        same(&reference.point, &trial.point);
    }
    let classics: Vec<&AimReference> = of(AimGroup::Classic).collect();
    let complete = builtin().classics.iter().filter(|one| one.is_complete());
    assert_eq!(classics.len(), complete.clone().count());
    for classic in complete.take(5) {
        let known = classics.iter().find(|one| one.name == classic.name);
        let served = figures(&drink(&classic.pours, classic.technique)).expect("it is served");
        same(&known.expect("it is there").point, &served.point);
    }
}

#[test]
fn names_to_aim_at_are_bounded_and_tell_everything_apart() {
    let mut document = demo();
    let mut spec = document.specs[0].clone();
    // The same drink twice, under a name that is too long.
    for spec in [&mut document.specs[0], &mut spec] {
        spec.name = "meadow ".repeat(40);
    }
    let mut next = document.next_number;
    let mut fresh = || {
        next += 1;
        next - 1
    };
    spec.id.0 = fresh();
    for trial in &mut spec.trials {
        let trial = Arc::make_mut(trial);
        trial.id.0 = fresh();
        trial.parent = None;
    }
    document.specs.push(spec);
    document.next_number = next;
    let mut session = session(document);
    let found = aim_references(&mut session);
    let names: HashSet<&str> = found.iter().map(|one| one.name.as_str()).collect();
    assert_eq!(names.len(), found.len());
    let longest = names.iter().map(|name| name.chars().count()).max();
    assert!(longest <= Some(LONGEST_NAME), "{longest:?}");
    let numbered = names.iter().filter(|name| name.contains(", no. "));
    let trials = session.document().specs[0].trials.len();
    assert_eq!(numbered.count(), 2 * trials);
}

#[test]
fn a_target_between_references_is_one_step_and_survives_the_file() {
    let mut session = session(demo());
    let found = aim_references(&mut session);
    let pulls: Vec<Pull<'_>> = found
        .iter()
        .zip([2.0, 0.5, 1.0])
        .map(|(known, weight)| Pull {
            name: &known.name,
            point: known.point,
            weight,
        })
        .collect();
    let target = between(&pulls, &session.document().senses).expect("a target");
    let before = session.document().clone();
    let spec = session.selection().spec.expect("a drink");
    let edit = Edit::SetTarget {
        spec,
        target: Some(target.clone()),
    };
    session.edit(&edit).expect("it can stand");
    assert_eq!(session.history().past().count(), 1);
    let text = document_text(session.document()).expect("it can be written");
    let again = read_text(&text).expect("it reads").document;
    let kept = again.spec(spec).expect("the drink").target.as_ref();
    let kept = kept.expect("a target");
    assert_eq!((&kept.label, &kept.parts), (&target.label, &target.parts));
    assert_eq!(kept.parts.len(), 3);
    session.undo();
    assert!(session.document().is_same(&before));
}

#[test]
fn published_ranges_say_that_they_are_recalled_and_need_a_drink() {
    let drink = point(
        &[ml("gin-london-dry", 60.0), ml("lemon-juice", 30.0)],
        SHAKEN,
    );
    let aims = region_aims(builtin(), Some(&drink));
    assert_eq!(aims.len(), builtin().regions.len());
    for aim in &aims {
        let target = aim.target.as_ref().expect("a target");
        assert!(target.label.ends_with(", from memory"), "{}", target.label);
        assert!(!aim.is_inside, "a sour without sugar lies in no range");
    }
    let shaken = aims.iter().find(|aim| aim.technique == "shaken");
    assert_eq!(
        shaken.expect("it is there").ranges,
        "sweet 50–89 g/L, sour 7.6–9.4 g/L, 15–19.7 % vol"
    );
    let without = region_aims(builtin(), None);
    assert!(without.iter().all(|aim| aim.target.is_none()));
}
