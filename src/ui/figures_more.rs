//! The figures beside the balance: volume, water, temperature, pH, alcohol, texture, cost.

use super::figures::{Drawn, Item};
use crate::balance::{Figures, TWO_SIDED, Uncertainty};
use crate::chart::Hue;
use crate::model::{Document, FigureGroup};
use crate::session::cost_text;
use crate::units::{Unit, celsius, number, percent, show_volume, signed, volume_unit};

/// What the change of a figure is.
const SIGNED: &str = "; the signed number is the change from the trial before";

/// A figure without a mark.
fn plain(name: &'static str, value: String, teach: &str) -> Item {
    Item {
        hue: None,
        name,
        value,
        brief: None,
        to: None,
        error: None,
        change: None,
        teach: teach.to_owned(),
    }
}

/// Adds the difference to the trial before, where any of it is seen.
fn since(item: Item, now: f64, was: Option<f64>, decimals: usize) -> Item {
    let change = was
        .map(|was| now - was)
        .filter(|change| change.abs() > 0.5 * 0.1_f64.powf(decimals as f64));
    let Some(change) = change else {
        return item;
    };
    Item {
        change: Some(signed(change, decimals)),
        teach: item.teach + SIGNED,
        ..item
    }
}

/// Every figure that is not one of the balance; `before` is the trial that this one grew from.
pub(super) fn rest(
    (document, unit): (&Document, Unit),
    (now, before): (&Figures, Option<&Figures>),
    (sure, drawn): (Option<&Uncertainty>, Drawn<'_>),
) -> Vec<Item> {
    // What decides stands first.
    let mut items = served((document, unit), (now, before), (sure, drawn));
    items.extend(cold(now, before));
    items.extend(sweet_to_sour(now, before));
    items.extend(now.ph.map(|ph| {
        let teach = format!(
            "From all acids and what binds them, at 25 °C; too low for drinks with milk or egg, whose buffering is not modelled. {}",
            drawn(FigureGroup::Ph)
        );
        let item = Item {
            error: sure
                .and_then(|sure| sure.ph)
                .map(|sigma| number(TWO_SIDED * sigma, 1)),
            ..plain("pH", number(ph, 1), &teach)
        };
        since(item, ph, before.and_then(|before| before.ph), 1)
    }));
    let alcohol = plain(
        "alcohol",
        format!("{} g", number(now.alcohol_g, 1)),
        "Pure alcohol in one drink, computed from volume and strength of every pour",
    );
    let was = before.map(|before| before.alcohol_g);
    items.push(since(alcohol, now.alcohol_g, was, 1));
    items.extend(texture(now));
    items.extend(cost(document, (now, before)));
    items
}

/// The ratio of sweet to sour, where there is acid.
fn sweet_to_sour(now: &Figures, before: Option<&Figures>) -> Option<Item> {
    let ratio = now.sugar_to_acid()?;
    let item = plain(
        "sweet/sour",
        format!("{}:1", number(ratio, 1)),
        "Sucrose equivalent over titratable acid",
    );
    let was = before.and_then(Figures::sugar_to_acid);
    Some(since(item, ratio, was, 1))
}

/// Volume, and water from ice.
fn served(
    (document, unit): (&Document, Unit),
    (now, before): (&Figures, Option<&Figures>),
    (sure, drawn): (Option<&Uncertainty>, Drawn<'_>),
) -> Vec<Item> {
    let volume = show_volume(now.served_ml, 0, unit, &document.measures);
    let (one, more) = volume_unit(unit, &document.measures);
    let grams = number(now.served_g, 0);
    let (melt, share) = (number(now.melt_g, 0), percent(now.dilution, 0));
    // A share of the volume before ice as grams of water.
    let melt_error = sure.map(|sure| number(TWO_SIDED * sure.dilution * now.chilled_ml, 0));
    let teach = format!(
        "Volume at 20 °C with the water from ice; it weighs {grams} g. {}",
        drawn(FigureGroup::Density)
    );
    let in_all = Item {
        error: sure.map(|sure| number(TWO_SIDED * sure.volume_ml / one, more)),
        ..plain("served", volume, &teach)
    };
    let water = Item {
        error: melt_error,
        brief: Some(format!("{melt} g")),
        ..plain(
            "from ice",
            format!("{melt} g ({share})"),
            if now.spared_g.abs() < 0.5 {
                "Water from ice, and its share of the volume before ice; the technique below the pours says by which rule"
            } else {
                "Water from ice, and its share of the volume before ice; cold liquids, vessel or ice spare some. The technique below the pours says by which rule"
            },
        )
    };
    let (ml, grams) = (
        before.map(|before| before.served_ml),
        before.map(|before| before.melt_g),
    );
    vec![
        since(in_all, now.served_ml / one, ml.map(|ml| ml / one), more),
        since(water, now.melt_g, grams, 0),
    ]
}

/// Served temperature where it can be predicted, else the coldest possible.
fn cold(now: &Figures, before: Option<&Figures>) -> Option<Item> {
    let error = now
        .coldest
        .as_ref()
        .map(|cold| number(cold.error_celsius, 1));
    if let Some(served) = now.served_celsius {
        let icy = now.in_blender.is_some_and(|blender| blender.left_g > 0.5);
        let item = Item {
            error,
            ..plain(
                if icy {
                    "when the blade stops"
                } else {
                    "served at"
                },
                celsius(served),
                "As it leaves the vessel: a shaken drink reaches its own freezing point within 12 to 15 s where its water from ice takes up heat enough for that, any other follows the heat balance of drink, vessel and ice; what is topped up warms it. Mixing itself warms a real drink by up to 1 °C more; the freezing point itself is good to the ± shown",
            )
        };
        let was = before.and_then(|before| before.served_celsius);
        return Some(since(item, served, was, 1));
    }
    let was = before.filter(|before| before.served_celsius.is_none());
    let was = was.and_then(|before| Some(before.coldest.as_ref()?.celsius));
    now.coldest.as_ref().map(|cold| since(Item { error, ..
        plain(
            "coldest possible",
            celsius(cold.celsius),
            "Ice cannot take the drink below this once all of its ice has melted. The error is 0.3 °C for weak drinks and up to 2 °C for strong sweet ones",
        )
    }, cold.celsius, was, 1))
}

/// Bitterness, body, gum and fizz, each where there is any.
fn texture(now: &Figures) -> Vec<Item> {
    let mut items = Vec::new();
    if now.point.bitter_per_ml > 0.005 {
        let value = number(now.point.bitter_per_ml, 2) + " per ml";
        let teach = "Your own open-ended scale, per ml; no physics is claimed";
        items.push(Item {
            hue: Some((Hue::Bitter, "◆")),
            ..plain("bitter", value, teach)
        });
    }
    let body = "Fat, protein, fibre, gum and other solids";
    let fizz = "Carbon dioxide poured in, before any is lost";
    for (name, value, least, decimals, unit, teach) in [
        ("body", now.body_g_per_l, 0.05, 1, "g/L", body),
        (
            "gum",
            now.gum_g_per_l,
            0.005,
            2,
            "g/L",
            "Gums and other thickeners",
        ),
        ("fizz", now.co2_g_per_l, 0.05, 1, "g/L CO₂", fizz),
    ] {
        if value > least {
            let value = format!("{} {unit}", number(value, decimals));
            items.push(plain(name, value, teach));
        }
    }
    items
}

fn cost(document: &Document, (now, before): (&Figures, Option<&Figures>)) -> Option<Item> {
    if now.cost.amount <= 0.0 {
        return None;
    }
    let known = cost_text(&now.cost, &document.currency);
    let teach = match now.cost.unpriced {
        0 => "Computed from the prices of packs; every pour has one",
        _ => "Pours without a price are left out; the menu of a pour takes the price of its pack",
    };
    // A cost with other prices missing is no difference to speak of.
    let was = before.filter(|before| before.cost.unpriced == now.cost.unpriced);
    let was = was.map(|before| before.cost.amount);
    Some(since(plain("cost", known, teach), now.cost.amount, was, 2))
}
