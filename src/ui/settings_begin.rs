//! What new documents and drinks begin with, beside what the open document has.

use super::figure_field::{FigureEntered, FigureField};
use super::intent::Outbox;
use super::naming::named;
use super::theme::Tokens;
use super::word_field::{WordEntered, WordField};
use crate::model::Senses;
use crate::session::{Edit, Session, countries};
use crate::store::Beginning;
use crate::units::{Measures, parse_sizes, show_sizes, trimmed};
use eframe::egui::{ComboBox, Grid, Id, RichText, Ui};
use std::collections::BTreeSet;

/// Digits behind the point of a size, a share.
const DIGITS: usize = 4;

/// Width of the three fields of the senses, points.
const SENSES: f32 = 320.0;

/// Shows the fields; `beginning` takes what was entered and can stand.
pub(super) fn ui(ui: &mut Ui, session: &Session, beginning: &mut Beginning, outbox: &mut Outbox) {
    let mut refused = Vec::new();
    Grid::new("beginnings").num_columns(3).show(ui, |ui| {
        ounce(ui, session, beginning, (&mut refused, outbox));
        jiggers(ui, session, beginning, (&mut refused, outbox));
        currency(ui, session, beginning, (&mut refused, outbox));
        country(ui, session, beginning, outbox);
        senses(ui, session, beginning, (&mut refused, outbox));
    });
    for words in refused {
        ui.label(RichText::new(words).small().color(Tokens::of(ui).warn));
    }
}

/// What was pressed beside a value that differs.
enum Pressed {
    Nothing,
    /// The open document gets the settings' value.
    Use,
    /// The settings get the document's.
    Take,
}

/// The document's value and the two buttons; nothing where it is the same.
fn beside(ui: &mut Ui, what: &str, own: Option<String>) -> Pressed {
    let mut pressed = Pressed::Nothing;
    ui.horizontal(|ui| {
        let Some(own) = own else {
            return;
        };
        let teach = format!(
            "Write the settings' value of {what} into the open document; undo takes it back"
        );
        let button = ui.small_button("Use in this document");
        if named(button, &format!("Use in this document: {what}"), &teach).clicked() {
            pressed = Pressed::Use;
        }
        let teach = format!("New documents begin with the {what} of the open one");
        let button = ui.small_button("Take from this document");
        if named(button, &format!("Take from this document: {what}"), &teach).clicked() {
            pressed = Pressed::Take;
        }
        ui.label(
            RichText::new(format!("this document: {own}"))
                .small()
                .weak(),
        );
    });
    ui.end_row();
    pressed
}

/// Why a beginning cannot stand, without the path of the field.
fn rule(beginning: &Beginning) -> Result<(), String> {
    beginning.check().map_err(|error| error.reason)
}

fn ounce(
    ui: &mut Ui,
    session: &Session,
    beginning: &mut Beginning,
    (refused, outbox): (&mut Vec<String>, &mut Outbox),
) {
    ui.label("Ounce, ml");
    let field = FigureField {
        name: "Ounce of new documents",
        teach: "What \"oz\" means, above 0 to 100 ml, usually 30: 30 ml in the trade, 29.5735 ml in US measure",
        value: Some(beginning.ounce_ml),
        width: 70.0,
    };
    let with = |ounce_ml: Option<f64>| Beginning {
        ounce_ml: ounce_ml.unwrap_or(0.0),
        ..beginning.clone()
    };
    match field.show_where(ui, Id::unique("settings ounce"), |ml| rule(&with(ml))) {
        FigureEntered::Figure(Some(ml)) => beginning.ounce_ml = ml,
        FigureEntered::Wrong(reason) => refused.push(format!("Ounce: {reason}.")),
        _ => {}
    }
    let measures = session.document().measures;
    let own = (measures.ounce_ml != beginning.ounce_ml)
        .then(|| format!("{} ml", trimmed(measures.ounce_ml, DIGITS)));
    match beside(ui, "ounce", own) {
        Pressed::Use => outbox.edit(Edit::SetMeasures {
            measures: Measures {
                ounce_ml: beginning.ounce_ml,
                ..measures
            },
        }),
        Pressed::Take => beginning.ounce_ml = measures.ounce_ml,
        Pressed::Nothing => {}
    }
}

fn jiggers(
    ui: &mut Ui,
    session: &Session,
    beginning: &mut Beginning,
    (refused, outbox): (&mut Vec<String>, &mut Outbox),
) {
    ui.label("Jiggers, ml");
    let measures = beginning.document().measures;
    let read = |text: &str| {
        let jiggers_ml = parse_sizes(text, &measures).map_err(|error| error.to_string())?;
        let wanted = Beginning {
            jiggers_ml,
            ..beginning.clone()
        };
        rule(&wanted).map(|()| wanted.jiggers_ml)
    };
    let shown = show_sizes(&beginning.jiggers_ml);
    let field = WordField {
        name: "Jiggers of new documents",
        teach: "Sizes at hand with blanks between them, rising: 20 40, or with a unit 3/4 oz 1 1/2 oz. A bare number is ml",
        value: &shown,
        hint: "20 40",
        width: 180.0,
    };
    let entered = field.show(ui, Id::unique("settings jiggers"), |text| {
        read(text).map(|_| ())
    });
    let sizes = match entered {
        WordEntered::Words(text) => read(&text).ok(),
        WordEntered::Wrong(reason) => {
            refused.push(format!("Jiggers: {reason}."));
            None
        }
        WordEntered::Nothing => None,
    };
    if let Some(sizes) = sizes {
        beginning.jiggers_ml = sizes;
    }
    let theirs = &session.document().jiggers_ml;
    let own = (*theirs != beginning.jiggers_ml).then(|| show_sizes(theirs));
    match beside(ui, "jiggers", own) {
        Pressed::Use => outbox.edit(Edit::SetJiggers {
            jiggers_ml: beginning.jiggers_ml.clone(),
        }),
        Pressed::Take => beginning.jiggers_ml.clone_from(theirs),
        Pressed::Nothing => {}
    }
}

fn currency(
    ui: &mut Ui,
    session: &Session,
    beginning: &mut Beginning,
    (refused, outbox): (&mut Vec<String>, &mut Outbox),
) {
    ui.label("Currency");
    let field = WordField {
        name: "Currency of new documents",
        teach: "Written behind every price; prices themselves are not converted",
        value: &beginning.currency,
        hint: "EUR",
        width: 70.0,
    };
    let can_stand = |text: &str| {
        rule(&Beginning {
            currency: text.to_owned(),
            ..beginning.clone()
        })
    };
    match field.show(ui, Id::unique("settings currency"), can_stand) {
        WordEntered::Words(text) => beginning.currency = text,
        WordEntered::Wrong(reason) => refused.push(format!("Currency: {reason}.")),
        WordEntered::Nothing => {}
    }
    let theirs = &session.document().currency;
    match beside(
        ui,
        "currency",
        (*theirs != beginning.currency).then(|| theirs.clone()),
    ) {
        Pressed::Use => outbox.edit(Edit::SetCurrency {
            currency: beginning.currency.clone(),
        }),
        Pressed::Take => beginning.currency.clone_from(theirs),
        Pressed::Nothing => {}
    }
}

fn country(ui: &mut Ui, session: &Session, beginning: &mut Beginning, outbox: &mut Outbox) {
    ui.label("Standard drink of");
    let list = ComboBox::from_id_salt("settings country")
        .selected_text(&beginning.country)
        .show_ui(ui, |ui| {
            for country in countries() {
                ui.selectable_value(&mut beginning.country, country.clone(), &country);
            }
        });
    let teach = "Whose standard drink new drinks are told in: countries differ between 8 and 20 g of pure alcohol";
    named(list.response, "Country of new drinks", teach);
    let specs = session.document().specs.iter();
    let theirs: BTreeSet<&str> = specs.map(|spec| spec.service.country.as_str()).collect();
    let differs = theirs.iter().any(|own| *own != beginning.country);
    let own = differs.then(|| theirs.into_iter().collect::<Vec<_>>().join(", "));
    match beside(ui, "country", own) {
        Pressed::Use => outbox.edit(Edit::SetCountry {
            country: beginning.country.clone(),
        }),
        Pressed::Take => {
            if let Some(spec) = session.spec() {
                beginning.country.clone_from(&spec.service.country);
            }
        }
        Pressed::Nothing => {}
    }
}

fn senses(
    ui: &mut Ui,
    session: &Session,
    beginning: &mut Beginning,
    (refused, outbox): (&mut Vec<String>, &mut Outbox),
) {
    ui.label("Just noticed, %");
    ui.horizontal(|ui| {
        ui.set_min_width(SENSES);
        for (place, name) in ["sweet", "sour", "strength"].into_iter().enumerate() {
            ui.label(name);
            let field = FigureField {
                name: &format!("Smallest change of new documents, {name}"),
                teach: "Weber fraction: the relative change that is just noticed, 0.1 % or more",
                value: Some(shown_pct(*weber(&mut beginning.senses, place))),
                width: 40.0,
            };
            let with = |pct: Option<f64>| {
                let mut wanted = beginning.clone();
                *weber(&mut wanted.senses, place) = pct.unwrap_or(0.0) / 100.0;
                wanted
            };
            let id = Id::unique(("settings weber", place));
            match field.show_where(ui, id, |pct| rule(&with(pct))) {
                FigureEntered::Figure(pct) => *beginning = with(pct),
                FigureEntered::Wrong(reason) => {
                    refused.push(format!("Just noticed, {name}: {reason}."));
                }
                FigureEntered::Nothing => {}
            }
        }
    });
    let theirs = session.document().senses;
    let own = (theirs != beginning.senses).then(|| {
        let shares = [theirs.sweet, theirs.sour, theirs.strength].map(|own| own.weber * 100.0);
        shares.map(|pct| trimmed(pct, 1)).join(", ") + " %, with its thresholds"
    });
    match beside(ui, "noticeable differences", own) {
        Pressed::Use => outbox.edit(Edit::SetSenses {
            senses: beginning.senses,
        }),
        Pressed::Take => beginning.senses = theirs,
        Pressed::Nothing => {}
    }
}

/// The Weber fraction of an axis.
const fn weber(senses: &mut Senses, place: usize) -> &mut f64 {
    match place {
        0 => &mut senses.sweet.weber,
        1 => &mut senses.sour.weber,
        _ => &mut senses.strength.weber,
    }
}

/// A share in percent, without the dust of binary fractions.
fn shown_pct(share: f64) -> f64 {
    (share * 1.0e8).round() / 1.0e6
}
