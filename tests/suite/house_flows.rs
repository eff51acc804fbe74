//! Preparations of every sort over the rows of [`crate::house_made::larder`], for laws that hold for all.

use crate::house_made::{input, larder, preparation, put, put_preparation, step};
use equipour::kitchen::usual_steps;
use equipour::model::{
    AcidProfile, Clarifier, Document, DryTo, Ingredient, Process, PureAcid, Quantity, Range,
    ReduceTo, Release, Retained, Step,
};

/// What passes into the liquid around ground or steeped solids.
pub(crate) const RELEASED: Release = Release {
    water: 0.9,
    soluble: 0.9,
    fat: 0.4,
    protein: 0.3,
    starch: 0.1,
    other: 0.2,
};

/// Liquid that stays with strained solids, g per g.
pub(crate) fn retained() -> Retained {
    Retained::PerGram(Range {
        low: 0.8,
        typical: 1.0,
        high: 1.3,
    })
}

/// A usual step of that name with streams.
pub(crate) fn usual(name: &str, from: &[&str], to: &[&str]) -> Step {
    let found = usual_steps()
        .into_iter()
        .find(|own| own.does.name() == name);
    let usual = found.expect("there is a usual step of that name");
    let named = step(usual.does.clone(), from, to);
    Step {
        from: named.from,
        to: named.to,
        ..usual
    }
}

/// The rows, pure acid powders and one preparation of every sort, each with its id.
pub(crate) fn document() -> Document {
    let mut document = larder();
    for (id, acid) in [("citric", PureAcid::Citric), ("malic", PureAcid::Malic)] {
        let powder = Ingredient {
            pure_acid: Some(acid),
            ..crate::house_made::blank(id, "acid powder")
        };
        put(&mut document, id, powder);
    }
    for (id, made) in [
        ("shrub", shrub()),
        ("orgeat", orgeat()),
        ("adjusted", adjusted()),
        ("punch", punch()),
        ("leather", leather()),
        ("reduction", reduction()),
        ("fizz", fizz()),
        ("wash", wash()),
    ] {
        put_preparation(&mut document, id, made);
    }
    document
}

/// Ids of the preparations of [`document`].
pub(crate) const ALL: [&str; 8] = [
    "shrub",
    "orgeat",
    "adjusted",
    "punch",
    "leather",
    "reduction",
    "fizz",
    "wash",
];

fn shrub() -> equipour::model::Preparation {
    let inputs = vec![
        input("raspberry", Quantity::Grams(500.0)),
        input("sugar", Quantity::Grams(500.0)),
        input("vinegar", Quantity::Grams(500.0)),
    ];
    let infuse = Process::Infuse { release: RELEASED };
    let strain = Process::Strain {
        retained: retained(),
    };
    let steps = vec![
        step(infuse, &["raspberry", "sugar", "vinegar"], &["mash"]),
        Step {
            lost: 0.02,
            ..step(strain, &["mash"], &["shrub", "shrub pulp"])
        },
    ];
    preparation("Raspberry shrub", inputs, steps, &["shrub", "shrub pulp"])
}

fn orgeat() -> equipour::model::Preparation {
    let inputs = vec![
        input("almonds", Quantity::Grams(300.0)),
        input("water", Quantity::Grams(900.0)),
        input("sugar", Quantity::AsNeeded),
    ];
    let steps = vec![
        usual("blend", &["almonds", "water"], &["mash"]),
        usual("strain", &["mash"], &["almond drink", "almond pulp"]),
        usual("sweeten", &["almond drink", "sugar"], &["orgeat"]),
    ];
    preparation("Orgeat", inputs, steps, &["orgeat", "almond pulp"])
}

fn adjusted() -> equipour::model::Preparation {
    let inputs = vec![
        input("raspberry", Quantity::Grams(1000.0)),
        input("citric", Quantity::AsNeeded),
        input("malic", Quantity::AsNeeded),
    ];
    let adjust = Process::AdjustAcid {
        to: AcidProfile::Lime,
    };
    let steps = vec![
        usual("juice", &["raspberry"], &["juice", "fruit pulp"]),
        step(adjust, &["juice", "citric", "malic"], &["adjusted"]),
    ];
    preparation("Sour raspberry", inputs, steps, &["adjusted", "fruit pulp"])
}

fn punch() -> equipour::model::Preparation {
    let inputs = vec![
        input("gin", Quantity::Ml(700.0)),
        input("lime-juice", Quantity::Ml(150.0)),
        input("sugar", Quantity::Grams(120.0)),
        input("milk", Quantity::Grams(200.0)),
    ];
    let clarify = Process::Clarify {
        with: Clarifier::Milk,
        dose_pct: 0.0,
        takes_out: Release {
            water: 0.0,
            soluble: 0.0,
            fat: 0.98,
            protein: 0.85,
            starch: 0.95,
            other: 0.1,
        },
        held_back: Range {
            low: 0.08,
            typical: 0.12,
            high: 0.2,
        },
    };
    let steps = vec![
        step(Process::Combine, &["gin", "lime-juice", "sugar"], &["base"]),
        step(clarify, &["base", "milk"], &["punch", "curds"]),
    ];
    preparation("Milk punch", inputs, steps, &["punch"])
}

fn leather() -> equipour::model::Preparation {
    let inputs = vec![
        input("raspberry", Quantity::Grams(600.0)),
        input("sugar", Quantity::Grams(100.0)),
    ];
    let steps = vec![
        usual("blend", &["raspberry", "sugar"], &["purée"]),
        usual("heat", &["purée"], &["hot purée"]),
        usual("dehydrate", &["hot purée"], &["leather"]),
    ];
    preparation("Raspberry leather", inputs, steps, &["leather"])
}

fn reduction() -> equipour::model::Preparation {
    let inputs = vec![
        input("lime-juice", Quantity::Grams(500.0)),
        input("sugar", Quantity::Grams(200.0)),
    ];
    let reduce = Process::Reduce {
        to: ReduceTo::Grams(450.0),
        alcohol_left: 0.0,
    };
    let dry = Process::Dehydrate {
        to: DryTo::Grams(430.0),
    };
    let steps = vec![
        step(Process::Dissolve, &["lime-juice", "sugar"], &["sweet"]),
        step(reduce, &["sweet"], &["thick"]),
        step(dry, &["thick"], &["reduction"]),
    ];
    preparation("Lime reduction", inputs, steps, &["reduction"])
}

fn fizz() -> equipour::model::Preparation {
    let inputs = vec![
        input("lime-juice", Quantity::Ml(100.0)),
        input("gin", Quantity::Ml(200.0)),
        input("water", Quantity::AsNeeded),
    ];
    let to = equipour::model::DiluteTo::PercentVol(8.0);
    let steps = vec![
        step(Process::Combine, &["lime-juice", "gin"], &["base"]),
        step(Process::Dilute { to }, &["base", "water"], &["long"]),
        usual("carbonate", &["long"], &["fizz"]),
    ];
    preparation("Lime fizz", inputs, steps, &["fizz"])
}

fn wash() -> equipour::model::Preparation {
    let inputs = vec![
        input("gin", Quantity::Ml(700.0)),
        input("almonds", Quantity::Grams(120.0)),
    ];
    let steps = vec![usual(
        "fat-wash",
        &["gin", "almonds"],
        &["wash", "wash fat"],
    )];
    preparation("Washed gin", inputs, steps, &["wash", "wash fat"])
}
