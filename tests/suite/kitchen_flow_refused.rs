//! Preparations that cannot be made: each error names the step, the field and the figures.

use crate::kitchen_flow_kit::{
    Kit, NONE, acid, almonds, butter, milk, raspberries, sour_juice, spirit, strawberries, sugar,
    water,
};
use equipour::kitchen::At;
use equipour::model::{
    Clarifier, DiluteTo, DryTo, Process, PureAcid, Quantity, Range, ReduceTo, Release, Retained,
};

/// 500 g of spirit, 500 g of syrup of 50 °Bx, 200 g of fruit, 100 g of juice, and water, sugar and
/// acids as needed.
fn pantry() -> Kit {
    Kit::default()
        .grams("spirit", spirit(40.0), 500.0)
        .grams("sugar dose", sugar(), 250.0)
        .grams("water dose", water(), 250.0)
        .grams("fruit", strawberries(), 200.0)
        .grams("juice", sour_juice(8.0, 0.9, 0.0), 100.0)
        .grams("butter", butter(), 100.0)
        .like("juice", &sour_juice(8.0, 0.9, 0.0))
        .needed("water", water())
        .needed("sugar", sugar())
        .needed("vodka", spirit(40.0))
        .needed("berries", raspberries())
        .needed("citric", acid(PureAcid::Citric))
        .needed("citric again", acid(PureAcid::Citric))
        .needed("malic", acid(PureAcid::Malic))
        .step(Process::Combine, &["sugar dose", "water dose"], &["syrup"])
}

/// Asserts that the second step is refused in this field with these words.
pub(crate) fn refused(does: Process, from: &[&str], field: &str, words: &[&str]) {
    let to = ["one", "other"];
    let made = &to[..does.makes()];
    let name = does.name();
    let error = pantry().step(does, from, made).try_flow();
    let error = error.expect_err(name);
    assert_eq!(error.at, At::Step(1), "{error}");
    assert_eq!(error.field, field, "{error}");
    for word in words {
        assert!(error.reason.contains(word), "{error} lacks {word}");
    }
}

pub(crate) const fn exact(value: f64) -> Range {
    Range::exact(value)
}

#[test]
fn a_step_must_take_and_make_what_it_says() {
    refused(Process::Combine, &[], "takes", &["combine takes nothing"]);
    refused(
        Process::Rest,
        &["soup"],
        "takes",
        &["\"soup\" is not there yet"],
    );
    refused(
        Process::Rest,
        &["sugar dose"],
        "takes",
        &["\"sugar dose\" is taken already"],
    );
    refused(
        Process::Combine,
        &["syrup", "syrup"],
        "takes",
        &["\"syrup\" is taken already"],
    );
    refused(
        Process::Combine,
        &["syrup", "water"],
        "takes",
        &["give an amount"],
    );
    let error = pantry()
        .step(Process::Rest, &["syrup"], &["fruit"])
        .try_flow();
    assert_eq!(error.expect_err("twice").field, "makes");
    let error = pantry()
        .step(Process::Rest, &["syrup"], &["water"])
        .try_flow();
    assert_eq!(error.expect_err("twice").field, "makes");
    let error = pantry()
        .step(Process::Rest, &["syrup"], &["one", "other"])
        .try_flow();
    let error = error.expect_err("too many");
    assert_eq!(error.to_string(), "step 2, makes: rest makes 1, not 2");
}

#[test]
fn what_is_taken_as_needed_must_be_worked_out_and_outputs_must_be_left() {
    let error = pantry().try_flow().expect_err("nobody says how much");
    assert_eq!(error.field, "amount");
    assert!(error.reason.contains("no step says how much"));
    let kit = Kit::default().grams("water", water(), 1.0).output("soup");
    let error = kit.try_flow().expect_err("no soup");
    assert_eq!(error.at, At::Output("soup".to_owned()));
    let kit = Kit::default().input("nuts", almonds(), Quantity::Pieces(3.0));
    let error = kit.try_flow().expect_err("nobody knows a nut's weight");
    assert!(error.reason.contains("weight of one piece"));
    for wrong in [-1.0, f64::NAN, f64::INFINITY] {
        let error = Kit::default().grams("water", water(), wrong).try_flow();
        assert_eq!(error.expect_err("no amount").field, "amount");
    }
}

#[test]
fn shares_lie_between_nothing_and_all() {
    let release = |value: f64| Release { fat: value, ..NONE };
    for wrong in [-0.01, 1.01, f64::NAN] {
        let range = exact(wrong);
        let steam = Process::Heat { steam: range };
        refused(steam, &["syrup"], "steam", &["0 to 100 %"]);
        let infuse = Process::Infuse {
            release: release(wrong),
        };
        refused(
            infuse,
            &["syrup", "fruit"],
            "passes into the liquid",
            &["fat must be"],
        );
        refused(
            Process::Divide { part: wrong },
            &["syrup"],
            "part",
            &["0 to 100 %"],
        );
        let juice = Process::Juice {
            yielded: range,
            release: NONE,
            like: None,
        };
        refused(juice, &["fruit"], "juice", &["0 to 100 %"]);
        let to = ReduceTo::Grams(100.0);
        let reduce = Process::Reduce {
            to,
            alcohol_left: wrong,
        };
        refused(reduce, &["syrup"], "alcohol left", &["0 to 100 %"]);
        let wash = Process::FatWash {
            fat_removed: wrong,
            held: exact(0.2),
        };
        refused(wash, &["spirit", "butter"], "fat removed", &["0 to 100 %"]);
        let retained = Retained::Yield(range);
        refused(
            Process::Strain { retained },
            &["syrup"],
            "liquid that comes out",
            &["0 to 100 %"],
        );
        let to = DryTo::Moisture(range);
        refused(
            Process::Dehydrate { to },
            &["fruit"],
            "moisture",
            &["0 to 100 %"],
        );
        let mut kit = pantry().step(Process::Rest, &["syrup"], &["one"]);
        kit.preparation.steps[1].lost = wrong;
        assert_eq!(kit.try_flow().expect_err("a share").field, "lost");
    }
}

#[test]
fn amounts_are_not_negative_and_ranges_rise() {
    for wrong in [-1.0, f64::NAN, f64::INFINITY] {
        let overrun = exact(wrong);
        refused(
            Process::Aerate { overrun },
            &["syrup"],
            "overrun",
            &["0 or more"],
        );
        let retained = Retained::PerGram(exact(wrong));
        let press = Process::Press { retained };
        refused(
            press,
            &["syrup"],
            "liquid that stays behind",
            &["0 or more"],
        );
        let to = DiluteTo::Parts(wrong);
        refused(
            Process::Dilute { to },
            &["syrup", "water"],
            "parts",
            &["0 or more"],
        );
        let carbonate = Process::Carbonate {
            bar: wrong,
            kept: exact(0.5),
        };
        refused(carbonate, &["syrup"], "pressure", &["0 or more"]);
    }
    let falling = Range {
        low: 0.2,
        typical: 0.1,
        high: 0.3,
    };
    refused(
        Process::Heat { steam: falling },
        &["syrup"],
        "steam",
        &["must not fall"],
    );
}

#[test]
fn solids_cannot_hold_more_liquid_than_there_is() {
    let soak = |uptake| Process::Soak {
        uptake: exact(uptake),
        release: NONE,
    };
    let words = ["take up 600 g", "only 500 g"];
    refused(soak(3.0), &["fruit", "syrup"], "liquid taken up", &words);
    refused(soak(0.5), &["syrup"], "takes", &["no solids"]);
    let strain = |retained| Process::Strain { retained };
    let stays = Retained::PerGram(exact(3.0));
    let words = ["hold 600 g", "only 500 g"];
    refused(
        strain(stays),
        &["fruit", "syrup"],
        "liquid that stays behind",
        &words,
    );
    let comes = Retained::Yield(exact(0.8));
    let words = ["560 g would come out", "only 500 g"];
    refused(
        strain(comes),
        &["fruit", "syrup"],
        "liquid that comes out",
        &words,
    );
    refused(strain(comes), &["fruit"], "takes", &["no liquid"]);
    let held = exact(7.0);
    let wash = Process::FatWash {
        fat_removed: 1.0,
        held,
    };
    let words = ["hold 567.8 g", "only"];
    refused(
        wash,
        &["spirit", "butter"],
        "spirit held by the fat",
        &words,
    );
}

#[test]
fn processes_of_two_things_say_which_is_missing() {
    let clarify = |with| Process::Clarify {
        with,
        dose_pct: 0.2,
        takes_out: NONE,
        held_back: exact(0.2),
    };
    refused(
        clarify(Clarifier::Agar),
        &["juice"],
        "takes",
        &["agar as its second stream"],
    );
    refused(
        clarify(Clarifier::Milk),
        &["water", "juice"],
        "takes",
        &["only the second stream"],
    );
    refused(
        clarify(Clarifier::Settling),
        &["fruit"],
        "takes",
        &["no liquid"],
    );
    let wash = Process::FatWash {
        fat_removed: 0.9,
        held: exact(0.2),
    };
    refused(
        wash.clone(),
        &["spirit"],
        "takes",
        &["fat as its second stream"],
    );
    refused(
        wash.clone(),
        &["spirit", "juice"],
        "takes",
        &["holds no fat"],
    );
    refused(wash, &["fruit", "butter"], "takes", &["no liquid to wash"]);
    let peel = Process::SugarOnPeel {
        release: NONE,
        retained: Retained::PerGram(exact(0.1)),
    };
    refused(peel.clone(), &["syrup"], "takes", &["peel is missing"]);
    refused(peel, &["fruit"], "takes", &["sugar is missing"]);
    let fizz = Process::Carbonate {
        bar: 3.0,
        kept: exact(0.5),
    };
    refused(fizz, &["syrup"], "temperature", &["needs a temperature"]);
    let overrun = exact(1.0);
    refused(
        Process::Aerate { overrun },
        &["fruit"],
        "takes",
        &["no liquid"],
    );
}

#[test]
fn settling_needs_no_agent() {
    let takes_out = Release {
        protein: 1.0,
        fat: 1.0,
        ..NONE
    };
    let does = Process::Clarify {
        with: Clarifier::Settling,
        dose_pct: 0.0,
        takes_out,
        held_back: exact(0.1),
    };
    let kit = Kit::default().grams("milk", milk(), 100.0);
    let found = kit.step(does, &["milk"], &["clear", "lees"]).flow();
    assert!(found.steps[0].remarks.is_empty());
}
