//! Twists of ten classics, one ingredient exchanged at its amount, and what is proposed first.

use crate::sample_drinks::builtin;
use equipour::balance::{Drink, Pantry};
use equipour::model::{Document, IngredientId, Source, SpecId, TrialId};
use equipour::rebalance::{Answer, Question, propose};
use equipour::session::spec_from_classic;
use std::sync::Arc;

const TWISTS: [(&str, &str, &str); 14] = [
    ("margarita", "orange-liqueur-triple-sec", "agave-syrup"),
    ("pisco-sour", "lemon-juice", "verjuice"),
    ("whiskey-sour", "sugar-syrup-1-1", "honey-syrup-1-1"),
    ("manhattan", "vermouth-sweet-red", "amaro"),
    ("hanky-panky", "gin-london-dry", "mezcal"),
    ("hanky-panky", "fernet-type-bitter", "amaro"),
    ("pina-colada", "rum-white", "mezcal"),
    ("alexander", "cacao-liqueur", "almond-liqueur"),
    ("singapore-sling", "pineapple-juice", "grapefruit-juice"),
    ("zombie", "falernum", "honey-syrup-1-1"),
    ("paper-plane", "whiskey-bourbon", "gin-london-dry"),
    ("pisco-sour", "sugar-syrup-1-1", "honey-syrup-1-1"),
    ("sidecar", "lemon-juice", "verjuice"),
    ("moscow-mule", "lime-juice", "lemon-juice"),
];

fn twisted(classic: &str, out: &str, instead: &str) -> (Document, Answer) {
    let builtin = builtin();
    let mut pantry = Pantry::default();
    let found = builtin.classics.iter().find(|known| known.id.0 == classic);
    let (mut spec, ingredients) = spec_from_classic(builtin, found.expect(classic), &mut pantry);
    spec.id = SpecId(1);
    let mut trial = spec.trials[0].as_ref().clone();
    trial.id = TrialId(2);
    let to = IngredientId::from(instead);
    for pour in &mut trial.pours {
        if pour.source == Source::Ingredient(IngredientId::from(out)) {
            pour.source = Source::Ingredient(to.clone());
        }
    }
    spec.trials = vec![Arc::new(trial.clone())];
    let mut document = Document::default();
    let held = Arc::make_mut(&mut document.ingredients);
    held.extend(ingredients);
    held.insert(to.clone(), Arc::clone(&builtin.larder[&to]));
    document.specs.push(spec.clone());
    let drink = Drink::of_trial(&document, &trial, &mut pantry).expect("it resolves");
    let question = Question::of_trial(&document, &spec, &trial, drink).expect("it can be asked");
    (document, propose(&question).expect("it is sound"))
}

/// Name of what a pour of the twist pours.
fn poured(document: &Document, pour: usize) -> &str {
    match &document.specs[0].trials[0].pours[pour].source {
        Source::Ingredient(id) => &id.0,
        other => panic!("{other:?}"),
    }
}

#[test]
fn first_proposals_for_twists_are_ones_that_a_bar_would_pour() {
    let (mut offered, mut left_alone) = (0, 0);
    for (classic, out, instead) in TWISTS {
        let (document, answer) = twisted(classic, out, instead);
        let Some(first) = answer.proposals.first() else {
            left_alone += 1;
            assert!(answer.distance_now <= 1.0, "{classic} with {instead}");
            continue;
        };
        offered += 1;
        let said = format!("{classic} with {instead}: {:?}", first.changes);
        assert!(first.distance < answer.distance_now - 0.5, "{said}");
        assert!(first.changes.len() <= 4, "{said}");
        for change in &first.changes {
            let id = poured(&document, change.pour);
            assert!(!id.contains("egg"), "{said}");
            // The sling's lime may go: grapefruit is sour where pineapple was sweet. The margarita's
            // agave is three times as sweet as the liqueur it stands for.
            let goes = (classic, id) == ("singapore-sling", "lime-juice");
            let shrinks = (classic, id) == ("margarita", "agave-syrup");
            let half = change.from / 2.0;
            let least = if shrinks { change.from / 4.0 } else { half };
            assert!(
                goes || change.to >= least && change.to <= 2.0 * change.from,
                "{said}"
            );
        }
    }
    assert!(
        offered >= 6 && left_alone >= 4,
        "{offered} offered, {left_alone} left alone"
    );
}

#[test]
fn no_card_but_the_best_balance_makes_another_drink_of_it() {
    for (classic, out, instead) in TWISTS {
        let (document, answer) = twisted(classic, out, instead);
        for proposal in answer.proposals.iter().skip(1) {
            for change in &proposal.changes {
                let share = change.to / change.from;
                let id = poured(&document, change.pour);
                assert!(
                    (0.33..3.01).contains(&share),
                    "{classic} with {instead}: {id} {change:?}"
                );
            }
        }
    }
}
