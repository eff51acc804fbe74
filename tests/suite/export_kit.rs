//! Recipes for tests of the ways out and in.

use equipour::model::{Added, Amount, Document, Pour, Trial};
use equipour::sheet::{FigureLine, HouseCard, Recipe, RecipeLine};
use equipour::units::{Measures, Unit, show, trimmed};

/// Texts that mean something to a table, a page, a spreadsheet or a terminal.
pub(crate) const HOSTILE: [&str; 14] = [
    "a | b || c",
    "`code` ``` fence",
    "</script><script>alert(1)</script>",
    "<!-- <b>bold</b> --> &amp; &lt;",
    "first line\nsecond line\r\n# no head",
    "=1+1",
    "+cmd",
    "@sum",
    "- no item\n1. nor this",
    "![picture](http://a.b) [link](x) www.a.b c@d.e",
    "back\\slash \\| \\",
    "*_~~ {#id} $x$ ^y^",
    "\u{202E}turned\u{202C} \u{0}\u{7}\u{1b}[31m bell",
    "2. Ünïcødé 酒 🍸 e\u{301} \u{2028} end",
];

/// One pour as a line of a sheet, written by hand as a reader would see it.
pub(crate) fn line(name: &str, pour: &Pour, measures: &Measures) -> RecipeLine {
    let value = pour.amount.value();
    let ml = match pour.amount {
        Amount::Ml(ml) => trimmed(ml, 2),
        _ => String::new(),
    };
    let grams = match pour.amount {
        Amount::Grams(grams) => trimmed(grams, 2),
        _ => String::new(),
    };
    let ounces = match pour.amount {
        Amount::Ml(ml) => show(ml, Unit::Oz, measures),
        _ => String::new(),
    };
    RecipeLine {
        name: name.to_owned(),
        amount: pour.amount_text(value.unwrap_or(0.0), measures),
        ml,
        ounces,
        grams,
        how: match pour.added {
            Added::With => "",
            Added::After => "top",
            Added::Rinse => "rinse",
        }
        .to_owned(),
        house_made: false,
    }
}

/// A trial's recipe, as far as its lines go.
pub(crate) fn of_trial(document: &Document, trial: &Trial) -> Recipe {
    let pours = trial.pours.iter();
    let lines = pours.map(|pour| {
        let settled = document.settle(trial, pour).expect("it is settled");
        line(settled.name, pour, &document.measures)
    });
    Recipe {
        title: trial.name.clone(),
        lines: lines.collect(),
        ..Recipe::default()
    }
}

/// Every text of a recipe is the one given.
pub(crate) fn all_of(text: &str) -> Recipe {
    let text = text.to_owned();
    let two = vec![text.clone(), text.clone()];
    let line = RecipeLine {
        name: text.clone(),
        amount: text.clone(),
        ml: text.clone(),
        ounces: text.clone(),
        grams: text.clone(),
        how: text.clone(),
        house_made: true,
    };
    let figure = FigureLine {
        name: text.clone(),
        value: text.clone(),
        note: text.clone(),
    };
    Recipe {
        title: text.clone(),
        twist_of: Some(text.clone()),
        family: text.clone(),
        maker: Some(text.clone()),
        competition: Some(text.clone()),
        version: text.clone(),
        day: text.clone(),
        story: two.clone(),
        lines: vec![line.clone(), line],
        totals: text.clone(),
        technique: text.clone(),
        method: two.clone(),
        seconds: Some(184.0),
        glass: text.clone(),
        glass_lines: two.clone(),
        garnish: text.clone(),
        house_made: vec![HouseCard {
            name: text.clone(),
            makes: text.clone(),
            inputs: two.clone(),
            steps: two.clone(),
            keeps: two.clone(),
        }],
        house_minutes: Some(1_560.0),
        chart_words: text.clone(),
        figures: vec![figure.clone(), figure],
        served_ml: Some(128.4),
        kcal: Some(187.6),
        allergens: two.clone(),
        cautions: two.clone(),
        alcohol: two.clone(),
        substitutes: two.clone(),
        batch: two.clone(),
        prep: two.clone(),
        cost: two.clone(),
        menu: text,
        sources: two,
        ..Recipe::default()
    }
}

/// Texts with every kind of letter that can be shown, and some marks.
pub(crate) const PRINTABLE: &str = "[ -~¡-ÿΑ-ω一-三🍸|`<>&\\\\*_#=+@]{1,40}";
