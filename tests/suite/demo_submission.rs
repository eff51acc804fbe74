//! What the demo hands in: entries, rules, services and the stage, all invented.

use equipour::model::{
    Document, Entry, GlassForm, GlassShape, Hours, IngredientId, Rehearsal, Rule, RuleKind,
    RuleSet, RuleSetId, ServicePlan, SpecId, Stage,
};
use equipour::store::built_in_rule_sets;
use std::sync::Arc;

/// The drink that is entered in the cup, and the one whose ingredients are made in house.
pub(crate) const ENTERED: SpecId = SpecId(1);
pub(crate) const HOUSE: SpecId = SpecId(12);

const STORY: &str = "At low tide the meadow behind the dyke smells of caraway and salt, and the \
sea buckthorn glows long after everything else has gone brown. Our grandmother boiled quinces \
there in October, windows open, so that the whole lane knew.

Salt Meadow is that kitchen with the door open to the sea: caraway for the meadow, quince for the \
pot, buckthorn for the hedge, and a few drops of brine from the door.";

const GARDEN_STORY: &str = "Everything in this glass grew within sight of the back door, and \
nothing of it is thrown away: the juice of the carrot is poured, its pulp is dried to the crisp \
on the rim, and the berries left over from the shrub go into tomorrow's jam.";

/// The cup's rules: those of a built-in example without its last day, which would pass.
fn rules() -> RuleSet {
    let example = &built_in_rule_sets()[0];
    let stays = |rule: &&Rule| !matches!(rule.asks, RuleKind::Deadline { .. });
    RuleSet {
        name: "Harbour Lantern Cup".to_owned(),
        note: example.note.clone(),
        rules: example.rules.iter().filter(stays).cloned().collect(),
    }
}

fn entry(story: &str, words: [&str; 2], price: f64) -> Entry {
    let [garnish, menu_line] = words.map(str::to_owned);
    Entry {
        maker: "Ilka Morvan".to_owned(),
        story: story.to_owned(),
        garnish,
        menu_line,
        price: Some(price),
        tax_pct: 19.0,
        ..Entry::default()
    }
}

fn plan(serves: u32) -> ServicePlan {
    ServicePlan {
        serves,
        at: "19:00".to_owned(),
        hours: Some(Hours {
            from: "09:00".to_owned(),
            to: "23:00".to_owned(),
        }),
        ..ServicePlan::default()
    }
}

fn rehearsals() -> Vec<Rehearsal> {
    let held = [
        ("2026-05-08", 318.0, 14.0, "strained too slowly"),
        (
            "2026-05-10",
            291.0,
            9.0,
            "second shaker ready from the start",
        ),
        ("2026-05-12", 276.0, 6.0, ""),
    ];
    held.map(|(on, seconds, spilled_ml, note)| Rehearsal {
        on: on.to_owned(),
        seconds,
        serves: 3,
        spilled_ml,
        note: note.to_owned(),
    })
    .to_vec()
}

/// Adds what is handed in; whatever was there of it is replaced.
pub(crate) fn add_submission(mut document: Document) -> Document {
    let cup = RuleSetId::from("harbour-lantern-cup");
    let sets = Arc::make_mut(&mut document.rule_sets);
    sets.clear();
    sets.insert(cup.clone(), Arc::new(rules()));
    let product = IngredientId::from("caraway-spirit");
    for spec in &mut document.specs {
        match spec.id {
            ENTERED => {
                let words = [
                    "a strip of lemon peel, expressed over the drink and laid on the rim",
                    "caraway, quince, sea buckthorn, a breath of salt",
                ];
                let mut own = entry(STORY, words, 14.0);
                own.rules = Some(cup.clone());
                own.products
                    .insert("caraway spirit".to_owned(), product.clone());
                own.substitutes = vec![
                    "quince syrup: pear syrup of the same sugar, 1 to 1".to_owned(),
                    "sea buckthorn juice: passion fruit juice, 15 ml, and taste for sugar"
                        .to_owned(),
                ];
                spec.entry = Arc::new(own);
                spec.service = Arc::new(plan(24));
                spec.glass.form = GlassForm {
                    shape: GlassShape::Bowl,
                    rim_mm: 95.0,
                    left_behind_ml: 3.0,
                    ..GlassForm::default()
                };
                spec.stage = Arc::new(Stage {
                    station: "Left to right: jiggers, bottles in the order of the recipe, ice, shakers, glasses".to_owned(),
                    glass_state: "chilled, wiped dry, no ice".to_owned(),
                    rehearsals: rehearsals(),
                    ..Stage::default()
                });
            }
            HOUSE => {
                let words = ["", "root, berry and caraway; nothing thrown away"];
                let mut own = entry(GARDEN_STORY, words, 13.0);
                own.rules = Some(cup.clone());
                own.products
                    .insert("caraway spirit".to_owned(), product.clone());
                spec.entry = Arc::new(own);
                spec.service = Arc::new(plan(24));
                spec.glass.form = GlassForm {
                    shape: GlassShape::Tapered,
                    rim_mm: 78.0,
                    floor_mm: 62.0,
                    left_behind_ml: 3.0,
                    ..GlassForm::default()
                };
            }
            _ => {}
        }
    }
    document
}
