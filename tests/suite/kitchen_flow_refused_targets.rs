//! Targets that cannot be reached: juice, reducing, drying, sweetening, diluting, acids.

use crate::kitchen_flow_kit::NONE;
use crate::kitchen_flow_refused::{exact, refused};
use equipour::model::{AcidProfile, DiluteTo, DryTo, Process, ReduceTo, Release};

#[test]
fn juice_cannot_hold_what_the_fruit_does_not() {
    let juice = |yielded, like: Option<&str>| Process::Juice {
        yielded: exact(yielded),
        release: Release {
            soluble: 1.0,
            ..NONE
        },
        like: like.map(Into::into),
    };
    // Water and sugar of the fruit: 95.84 %.
    refused(
        juice(0.97, None),
        &["fruit"],
        "juice",
        &["194 g", "only 191.7 g", "95.8 %"],
    );
    let words = ["of citric", "the fruit only 0 g", "choose no known juice"];
    refused(juice(0.5, Some("juice")), &["fruit"], "like", &words);
}

#[test]
fn reducing_and_drying_only_take_away() {
    let reduce = |to, alcohol_left| Process::Reduce { to, alcohol_left };
    let at = |to| reduce(to, 0.0);
    let left = "mass that is left";
    refused(
        at(ReduceTo::Grams(501.0)),
        &["syrup"],
        left,
        &["501 g", "500 g at the start"],
    );
    refused(
        at(ReduceTo::Grams(249.0)),
        &["syrup"],
        left,
        &["249 g", "250 g", "without any water"],
    );
    refused(
        at(ReduceTo::Grams(400.0)),
        &["spirit"],
        left,
        &["makes it", "400 g"],
    );
    refused(
        at(ReduceTo::Ml(500.0)),
        &["syrup"],
        "volume that is left",
        &["500 ml", "at the start"],
    );
    refused(
        at(ReduceTo::Ml(50.0)),
        &["syrup"],
        "volume that is left",
        &["50 ml", "without any water"],
    );
    refused(
        at(ReduceTo::Share(1.2)),
        &["syrup"],
        "share that is left",
        &["120 %"],
    );
    refused(
        at(ReduceTo::Brix(40.0)),
        &["syrup"],
        "°Bx",
        &["50 °Bx already", "40 °Bx"],
    );
    refused(
        at(ReduceTo::Brix(140.0)),
        &["syrup"],
        "°Bx",
        &["at most 100"],
    );
    refused(
        at(ReduceTo::Brix(40.0)),
        &["spirit"],
        "°Bx",
        &["nothing is dissolved"],
    );
    let dry = |to| Process::Dehydrate { to };
    refused(
        dry(DryTo::Grams(300.0)),
        &["fruit"],
        left,
        &["300 g", "200 g"],
    );
    refused(
        dry(DryTo::Grams(10.0)),
        &["fruit"],
        left,
        &["10 g", "18.1 g"],
    );
    refused(
        dry(DryTo::Grams(499.0)),
        &["spirit"],
        left,
        &["without its alcohol it weighs"],
    );
    let moisture = DryTo::Moisture(exact(0.95));
    refused(dry(moisture), &["fruit"], "moisture", &["95.0 %", "91.0 %"]);
    let steam = exact(0.6);
    refused(
        Process::Heat { steam },
        &["syrup"],
        "steam",
        &["300 g", "only 250 g"],
    );
}

#[test]
fn sweetening_and_diluting_go_one_way_only() {
    let sweeten = |brix| Process::SweetenTo { brix };
    refused(
        sweeten(40.0),
        &["syrup", "sugar"],
        "°Bx",
        &["50 °Bx already", "dilute instead"],
    );
    refused(
        sweeten(60.0),
        &["juice", "vodka"],
        "°Bx",
        &["60 °Bx", "0 °Bx of the sweetener"],
    );
    refused(sweeten(120.0), &["juice", "sugar"], "°Bx", &["0 to 100"]);
    refused(
        sweeten(60.0),
        &["syrup"],
        "takes",
        &["a sweetener", "missing"],
    );
    refused(
        sweeten(60.0),
        &["syrup", "juice"],
        "takes",
        &["set it to as needed"],
    );
    refused(
        sweeten(60.0),
        &["sugar", "syrup"],
        "takes",
        &["worked on: give its amount"],
    );
    refused(
        sweeten(60.0),
        &["syrup", "sugar", "water"],
        "takes",
        &["only one amount"],
    );
    refused(
        sweeten(60.0),
        &["syrup", "berries"],
        "takes",
        &["not a whole solid"],
    );
    let dilute = |to| Process::Dilute { to };
    let brix = DiluteTo::Brix(60.0);
    refused(
        dilute(brix),
        &["syrup", "water"],
        "°Bx",
        &["50 °Bx, below 60 °Bx"],
    );
    let brix = DiluteTo::Brix(40.0);
    refused(
        dilute(brix),
        &["syrup", "sugar"],
        "°Bx",
        &["40 °Bx", "100 °Bx of the liquid"],
    );
    let strength = DiluteTo::PercentVol(45.0);
    refused(
        dilute(strength),
        &["spirit", "water"],
        "strength",
        &["45 % vol", "40 % vol", "0 % vol"],
    );
    refused(
        dilute(strength),
        &["syrup", "vodka"],
        "strength",
        &["does not lie between"],
    );
    let strength = DiluteTo::PercentVol(140.0);
    refused(
        dilute(strength),
        &["spirit", "water"],
        "strength",
        &["0 to 100 % vol"],
    );
    for percent in [0.0, -1.0, 100.5, f64::NAN] {
        let stock = Process::Stock { percent };
        refused(stock, &["syrup", "water"], "percent", &["above 0"]);
    }
}

#[test]
fn acid_can_only_be_added_and_only_by_powders_of_one_acid() {
    let adjust = |to| Process::AdjustAcid { to };
    let field = "acids to reach";
    let own = |citric, malic| AcidProfile::Own {
        citric,
        malic,
        tartaric: 0.0,
    };
    refused(
        adjust(own(0.5, 0.0)),
        &["juice", "citric"],
        field,
        &[
            "citric acid would be at 0.9 g",
            "above 0.5 g",
            "cannot be taken out",
        ],
    );
    refused(
        adjust(own(0.0, 0.0)),
        &["juice", "citric"],
        field,
        &["no acid"],
    );
    refused(
        adjust(own(-1.0, 2.0)),
        &["juice", "malic"],
        field,
        &["0 or more"],
    );
    refused(
        adjust(AcidProfile::Lime),
        &["juice", "citric"],
        "takes",
        &["malic acid powder"],
    );
    refused(
        adjust(AcidProfile::Lemon),
        &["juice", "malic", "citric"],
        "takes",
        &["malic acid is taken as needed, but"],
    );
    refused(
        adjust(AcidProfile::Lemon),
        &["juice", "citric", "citric again"],
        "takes",
        &["twice"],
    );
    refused(
        adjust(AcidProfile::Lemon),
        &["juice", "sugar"],
        "takes",
        &["powder of one acid"],
    );
    refused(
        adjust(AcidProfile::Lemon),
        &["citric", "juice"],
        "takes",
        &["worked on"],
    );
    refused(
        adjust(own(170.0, 0.0)),
        &["juice", "citric"],
        field,
        &["cannot be dissolved"],
    );
}
