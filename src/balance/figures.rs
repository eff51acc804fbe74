//! Every figure of a served drink.

use super::chill::{celsius_after, ice_in_blender};
use super::curdling::{Curdling, curdling};
use super::drink::{Drink, DrinkError, Line, serve_loads};
use super::kernel::{Ice, Rule};
use super::texture::{Dose, doses};
use crate::model::{Added, Dilution, IceLeft, Method, Point};
use crate::physics::acids::ph;
use crate::physics::component::Component;
use crate::physics::composition::Composition;
use crate::physics::dilution::{EGG_WHITE_TESTED, SHAKEN_TESTED, STIRRED_TESTED};
use crate::physics::freezing::{Liquidus, liquidus};
use crate::physics::heat::mix_celsius;
use crate::physics::ice::Warm;

/// What a drink costs.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cost {
    /// Sum over the pours that have a price, in the document's currency.
    pub amount: f64,
    /// Pours without a price.
    pub unpriced: usize,
    /// All pours of which an amount is poured.
    pub of: usize,
}

/// A drink in the blender with its ice.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InBlender {
    /// Ice that goes in, g.
    pub ice_g: f64,
    /// Ice that has become water when the blade stops, g.
    pub melted_g: f64,
    /// Ice that is left, g.
    pub left_g: f64,
    /// Temperature when the blade stops, °C.
    pub celsius: f64,
    /// The liquid between the ice, as drunk at once.
    pub now: Point,
    /// The drink once all ice has melted.
    pub melted: Point,
    /// The melted drink is the one that the map and the target mean.
    pub melted_is_meant: bool,
    /// The most ice that would melt completely, g.
    pub just_melts_g: f64,
    /// The temperature that would give, °C: the coldest without ice in it.
    pub just_melts_celsius: f64,
}

/// Every figure of a served drink.
#[derive(Clone, Debug, PartialEq)]
pub struct Figures {
    /// Balance point; sour below zero counts as zero.
    pub point: Point,
    /// All sugars, g/L.
    pub sugar_g_per_l: f64,
    /// All acids, free and bound, g/L.
    pub acid_g_per_l: f64,
    /// Fat, protein, starch, gum and other solids, g/L.
    pub body_g_per_l: f64,
    /// Gums alone, g/L.
    pub gum_g_per_l: f64,
    /// Carbon dioxide poured in, before losses, g/L.
    pub co2_g_per_l: f64,
    /// Salt, g/L.
    pub salt_g_per_l: f64,
    /// Volume of the chilled part before ice, ml.
    pub chilled_ml: f64,
    /// Mass of the chilled part before ice, g.
    pub chilled_g: f64,
    /// Strength of the chilled part before ice, % vol.
    pub chilled_pct_vol: f64,
    /// Water from ice over the volume of the chilled part.
    pub dilution: f64,
    /// Water from ice, g.
    pub melt_g: f64,
    /// Served volume, ml at 20 °C.
    pub served_ml: f64,
    /// Served mass, g.
    pub served_g: f64,
    /// Pure alcohol, g.
    pub alcohol_g: f64,
    /// Coldest the served drink can get.
    pub coldest: Option<Liquidus>,
    /// Served temperature where it can be predicted, °C.
    pub served_celsius: Option<f64>,
    /// What is in the blender, for a blended drink.
    pub in_blender: Option<InBlender>,
    /// Melt that cold liquids, vessel or ice spare, g.
    pub spared_g: f64,
    /// pH at 25 °C; `None` without any acid, where nothing is known of what sets it.
    pub ph: Option<f64>,
    /// Cost.
    pub cost: Cost,
    /// Allergens by name, each once.
    pub allergens: Vec<String>,
    /// Pours of which nobody says whether they hold allergens.
    pub allergens_unstated: Vec<String>,
    /// Pours that are frozen where they wait.
    pub frozen: Vec<String>,
    /// The dilution rule is used outside the range it was tested in, % vol from and to.
    pub outside_tested: Option<(f64, f64)>,
    /// Pours that are not counted, in words.
    pub uncounted: Vec<String>,
    /// Pours that may curdle.
    pub curdling: Vec<Curdling>,
    /// Thickeners against their usual dose.
    pub doses: Vec<Dose>,
    /// Remarks on the ingredients' figures.
    pub warnings: Vec<String>,
}

impl Figures {
    /// Sugar-to-acid ratio; `None` when there is next to no acid.
    pub fn sugar_to_acid(&self) -> Option<f64> {
        (self.point.sour_g_per_l > 0.05).then(|| self.point.sweet_g_per_l / self.point.sour_g_per_l)
    }
}

/// Works out every figure of a drink.
pub fn figures(drink: &Drink) -> Result<Figures, DrinkError> {
    let served = drink.served()?;
    let (chilled, after) = compositions(drink);
    let melt = Composition::water(served.melt_g);
    let cold = chilled + melt;
    let whole = cold + after;
    let litres = served.volume_ml / 1000.0;
    let in_blender = in_blender(drink, served.melt_g);
    let coldest = liquidus(&whole);
    let ph = (whole.acid_g() > 1.0e-6).then(|| ph(&whole)).flatten();
    Ok(Figures {
        point: Point::from(&served),
        sugar_g_per_l: whole.sugar_g() / litres,
        acid_g_per_l: whole.acid_g() / litres,
        body_g_per_l: whole.body_g() / litres,
        gum_g_per_l: whole[Component::Gum] / litres,
        co2_g_per_l: whole.co2_g / litres,
        salt_g_per_l: whole[Component::Salt] / litres,
        chilled_ml: served.chilled_ml,
        chilled_g: chilled.mass_g(),
        chilled_pct_vol: served.chilled_strength * 100.0,
        dilution: served.dilution,
        melt_g: served.melt_g,
        served_ml: served.volume_ml,
        served_g: whole.mass_g(),
        alcohol_g: whole[Component::Ethanol],
        served_celsius: served_celsius(drink, &cold, served.melt_g, &after, in_blender.as_ref()),
        in_blender,
        spared_g: spared_g(drink, served.melt_g),
        coldest,
        curdling: curdling(drink, ph),
        doses: doses(drink, whole.mass_g()),
        ph,
        cost: cost(drink),
        allergens: allergens(drink),
        allergens_unstated: named(drink, |line| line.ingredient.allergens.trim().is_empty()),
        frozen: named(drink, is_frozen),
        outside_tested: outside_tested(drink, served.chilled_strength),
        uncounted: drink.uncounted.clone(),
        warnings: warnings(drink),
    })
}

/// Compositions of the chilled part and of what is added to it.
pub(super) fn compositions(drink: &Drink) -> (Composition, Composition) {
    let mut chilled = Composition::ZERO;
    let mut after = Composition::ZERO;
    for line in &drink.lines {
        let poured = line.contents.per_gram.scaled(line.grams());
        if line.added == Added::With {
            chilled += poured;
        } else {
            after += poured;
        }
    }
    (chilled, after)
}

/// Temperature of the chilled part, warmed by what is added afterwards.
fn served_celsius(
    drink: &Drink,
    cold: &Composition,
    melt_g: f64,
    after: &Composition,
    in_blender: Option<&InBlender>,
) -> Option<f64> {
    if cold.mass_g() <= 0.0 {
        return None;
    }
    let warm = drink.warm();
    let start = celsius_after(&warm, &drink.technique, melt_g)?;
    if after.mass_g() <= 0.0 {
        return Some(start);
    }
    let icy = in_blender.filter(|blender| blender.left_g > 0.0);
    let liquid = icy.map_or(*cold, |blender| {
        warm.liquid + Composition::water(blender.melted_g)
    });
    let mut parts = vec![(liquid, start)];
    let added = drink.lines.iter().filter(|line| line.added != Added::With);
    parts.extend(added.map(|line| (line.contents.per_gram.scaled(line.grams()), line.celsius)));
    let mixed = mix_celsius(&parts);
    match icy {
        None => Some(mixed),
        // What is poured on top melts some of the ice that is left.
        Some(blender) => Warm {
            liquid: liquid + *after,
            celsius: mixed,
            vessel_kj_per_k: 0.0,
            vessel_celsius: mixed,
            work_kj: 0.0,
        }
        .blended(blender.left_g, start.min(0.0))
        .map(|with| with.celsius),
    }
}

/// The blender's own figures; `None` for any other method.
fn in_blender(drink: &Drink, melt_g: f64) -> Option<InBlender> {
    if drink.technique.method != Method::Blended {
        return None;
    }
    let ice_g = ice_in_blender(&drink.technique, melt_g);
    let ice_celsius = drink.technique.chilling.ice_celsius;
    let warm = drink.warm();
    let with = warm.blended(ice_g, ice_celsius)?;
    let (just_melts_g, just_melts_celsius) = warm.just_melts(ice_celsius)?;
    let (chilled, after) = drink.loads();
    let point = |water_g: f64| {
        let ice = Ice::by(Rule::WaterGrams(water_g));
        serve_loads(&chilled, &after, &ice)
            .ok()
            .map(|served| Point::from(&served))
    };
    let measured = matches!(drink.technique.dilution, Dilution::IceGrams(_));
    Some(InBlender {
        ice_g,
        melted_g: with.melted_g,
        left_g: with.left_g,
        celsius: with.celsius,
        now: point(with.melted_g.max(0.0))?,
        melted: point(ice_g)?,
        melted_is_meant: !measured || drink.technique.chilling.ice_left == IceLeft::AllMelted,
        just_melts_g,
        just_melts_celsius,
    })
}

/// How much less melts than with all at room temperature and wet ice, g.
fn spared_g(drink: &Drink, melt_g: f64) -> f64 {
    if drink.ice.spare.is_none() {
        return 0.0;
    }
    let (chilled, after) = drink.loads();
    serve_loads(&chilled, &after, &Ice::by(drink.ice.rule))
        .map_or(0.0, |usual| usual.melt_g - melt_g)
}

fn cost(drink: &Drink) -> Cost {
    let mut cost = Cost::default();
    let poured = drink.lines.iter().filter(|line| line.amount > 0.0);
    for line in poured {
        cost.of += 1;
        match line.price_per_unit() {
            Some(price) => cost.amount += price * line.amount,
            None => cost.unpriced += 1,
        }
    }
    cost
}

impl super::drink::Line {
    /// Price of one unit of the pour's own measure; a rinse is paid in full.
    pub fn price_per_unit(&self) -> Option<f64> {
        let kept = if self.added == Added::Rinse {
            super::pouring::RINSE_KEPT
        } else {
            1.0
        };
        self.ingredient
            .price_per_g(self.contents.density_g_per_ml)
            .map(|per_g| per_g * self.grams_per_unit / kept)
    }
}

fn allergens(drink: &Drink) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    let poured = drink.lines.iter().filter(|line| line.amount > 0.0);
    for term in poured.flat_map(|line| &line.contents.nature.allergens) {
        if !names.iter().any(|known| same_word(known, term)) {
            names.push(term.clone());
        }
    }
    names
}

/// Equal whatever the case.
fn same_word(one: &str, other: &str) -> bool {
    let small =
        |text: &'_ str| -> Vec<char> { text.chars().flat_map(char::to_lowercase).collect() };
    one.eq_ignore_ascii_case(other) || !one.is_ascii() && small(one) == small(other)
}

/// Names of the lines that something holds for.
fn named(drink: &Drink, holds: impl Fn(&Line) -> bool) -> Vec<String> {
    let poured = drink.lines.iter().filter(|line| line.amount > 0.0);
    poured
        .filter(|line| holds(line))
        .map(|line| line.name().to_owned())
        .collect()
}

/// Water-like liquids that wait in the freezer are ice there; a spirit is not.
fn is_frozen(line: &Line) -> bool {
    line.celsius < 0.0
        && liquidus(&line.contents.per_gram).is_some_and(|found| found.celsius > line.celsius)
}

fn outside_tested(drink: &Drink, strength: f64) -> Option<(f64, f64)> {
    if drink.technique.dilution != Dilution::ByMethod {
        return None;
    }
    // The range is for egg white: protein without fat.
    let has_egg_white = drink.lines.iter().any(|line| {
        let item = &line.ingredient;
        line.contents.nature.is_egg
            && line.amount > 0.0
            && line.added == Added::With
            && item.fat_g.unwrap_or(0.0) < 1.0
            // A liqueur of egg is none.
            && item.strength_pct_vol.is_none_or(|strength| strength.high <= 0.0)
    });
    let tested = match drink.technique.method {
        Method::Shaken if has_egg_white => EGG_WHITE_TESTED,
        Method::Shaken => SHAKEN_TESTED,
        Method::Stirred => STIRRED_TESTED,
        _ => return None,
    };
    (!tested.contains(&strength)).then_some((tested.start() * 100.0, tested.end() * 100.0))
}

fn warnings(drink: &Drink) -> Vec<String> {
    drink
        .lines
        .iter()
        .flat_map(|line| {
            let said = line.contents.warnings.iter();
            said.map(|warning| format!("{}: {warning}", line.name()))
        })
        .collect()
}
