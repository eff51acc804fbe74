//! The usual steps and tools of a method, where nobody wrote any.

use super::garnished::rim_first;
use super::run_sheet::RunStep;
use crate::balance::USUAL_BLADE;
use crate::model::{Added, Amount, Document, Ingredient, Method, Pour, Spec, Trial};
use crate::units::{Unit, capital, trimmed};
use std::sync::Arc;

/// Usual times, s: common practice, no source.
mod usual {
    /// Ice into a glass to chill it.
    pub(super) const CHILL_GLASS: f64 = 5.0;
    /// One pour measured.
    pub(super) const POUR: f64 = 6.0;
    /// One dash or drop, or a pinch.
    pub(super) const DASH: f64 = 4.0;
    /// Ice into a tin, a mixing glass or a glass.
    pub(super) const ICE: f64 = 5.0;
    /// A shake; the time in which dilution settles.
    pub(super) const SHAKE: f64 = 12.0;
    /// A shake without ice, for what foams.
    pub(super) const DRY_SHAKE: f64 = 10.0;
    /// A stir.
    pub(super) const STIR: f64 = 30.0;
    /// Some turns of the spoon in the glass.
    pub(super) const BUILT: f64 = 8.0;
    /// Thrown from tin to tin.
    pub(super) const THROW: f64 = 25.0;
    /// A swizzle.
    pub(super) const SWIZZLE: f64 = 15.0;
    /// Strained into a glass.
    pub(super) const STRAIN: f64 = 8.0;
    /// Topped up or floated.
    pub(super) const TOP: f64 = 6.0;
    /// A rinse of a glass.
    pub(super) const RINSE: f64 = 8.0;
    /// A garnish cut, expressed or laid on.
    pub(super) const GARNISH: f64 = 10.0;
    /// A glass set before whom it is for.
    pub(super) const SERVE: f64 = 5.0;
    /// Drinks that one tin or mixing glass holds.
    pub(super) const IN_A_TIN: u32 = 2;
}

/// Words of a garnish that is cut from peel.
const PEELS: [&str; 4] = ["peel", "zest", "twist", "swath"];

/// A drink as it is to be made on a stage.
pub(super) struct Made<'a> {
    document: &'a Document,
    method: Method,
    blade_seconds: f64,
    pours: Vec<(&'a Pour, &'a str, &'a Arc<Ingredient>)>,
    serves: u32,
    glass: String,
    glass_ice: bool,
    garnish: String,
}

impl<'a> Made<'a> {
    pub(super) fn of(
        document: &'a Document,
        spec: &'a Spec,
        trial: &'a Trial,
        serves: u32,
        garnish: &[String],
    ) -> Self {
        let pours = trial.poured().filter_map(|(_, pour)| {
            let settled = document.settle(trial, pour)?;
            Some((pour, settled.name, settled.ingredient))
        });
        let words = spec.entry.garnish.trim();
        let chilling = &trial.technique.chilling;
        Self {
            document,
            method: trial.technique.method,
            blade_seconds: chilling.blade_seconds.unwrap_or(USUAL_BLADE.1),
            pours: pours.collect(),
            serves,
            glass: spec.glass.name.clone(),
            glass_ice: spec.glass.ice_share > 0.0,
            garnish: if words.is_empty() {
                garnish.join(", ")
            } else {
                words.to_owned()
            },
        }
    }

    fn added(
        &self,
        added: Added,
    ) -> impl Iterator<Item = &(&'a Pour, &'a str, &'a Arc<Ingredient>)> {
        self.pours
            .iter()
            .filter(move |(pour, ..)| pour.added == added)
    }

    fn has_egg(&self) -> bool {
        self.pours
            .iter()
            .any(|(pour, _, item)| crate::kitchen::is_egg(item) && pour.added == Added::With)
    }

    /// What is done for every drink.
    fn each(&self, words: &str) -> String {
        if self.serves == 1 {
            words.to_owned()
        } else {
            format!("{words}, {} times", trimmed(f64::from(self.serves), 0))
        }
    }

    /// What is laid on or beside the drink: it is given by the piece or in words.
    fn laid_on(&self) -> impl Iterator<Item = &(&'a Pour, &'a str, &'a Arc<Ingredient>)> {
        self.added(Added::After).filter(|(pour, ..)| is_laid(pour))
    }

    /// What is topped up or floated.
    fn topped(&self) -> impl Iterator<Item = &(&'a Pour, &'a str, &'a Arc<Ingredient>)> {
        self.added(Added::After).filter(|(pour, ..)| !is_laid(pour))
    }

    /// Poured in the glass itself, so that nothing is strained.
    const fn in_the_glass(&self) -> bool {
        matches!(
            self.method,
            Method::Built | Method::Swizzled | Method::Bottled
        )
    }

    /// Tins or glasses that are mixed in.
    const fn vessels(&self) -> u32 {
        if self.in_the_glass() {
            self.serves
        } else {
            self.serves.div_ceil(usual::IN_A_TIN)
        }
    }

    /// What breaks, is dropped or runs out.
    pub(super) fn spares(&self) -> Vec<String> {
        let mut spares = vec![self.glass.clone()];
        if !self.garnish.is_empty() {
            spares.push(format!("garnish: {}", self.garnish));
        }
        if self.has_egg() {
            spares.push("egg".to_owned());
        }
        spares.extend(
            self.laid_on()
                .map(|(_, name, _)| format!("garnish: {name}")),
        );
        spares.extend(self.topped().map(|(_, name, _)| format!("bottle: {name}")));
        if self.method != Method::Bottled && self.method != Method::NoIce {
            spares.push("ice".to_owned());
        }
        spares
    }
}

fn step(does: String, seconds: f64) -> RunStep {
    RunStep {
        does,
        seconds,
        at_seconds: 0.0,
        says: String::new(),
    }
}

/// The usual steps, each for all drinks.
pub(super) fn steps(made: &Made<'_>) -> Vec<RunStep> {
    let serves = f64::from(made.serves);
    let vessels = f64::from(made.vessels());
    let each = |words: &str| made.each(words);
    let mut steps = Vec::new();
    let (rim, _) = rim_first(&made.garnish);
    if !rim.is_empty() {
        let words = each(&format!("Rim the {}: {rim}", made.glass));
        steps.push(step(words, usual::GARNISH * serves));
    }
    if !made.glass_ice && !made.in_the_glass() {
        let words = each(&format!("Chill the {}", made.glass));
        steps.push(step(words, usual::CHILL_GLASS * serves));
    }
    for (pour, name, _) in made.added(Added::Rinse) {
        let amount = amount(made, pour);
        let words = each(&format!("Rinse the {} with {name}, {amount}", made.glass));
        steps.push(step(words, usual::RINSE * serves));
    }
    for (pour, name, _) in made.added(Added::With) {
        let seconds = if matches!(pour.unit, Unit::Dash | Unit::Drop) {
            usual::DASH
        } else {
            usual::POUR
        };
        let words = format!("Measure {name}, {}", amount(made, pour));
        steps.push(step(each(&words), seconds * serves));
    }
    steps.extend(worked(made, vessels));
    steps.extend(finished(made, serves));
    steps
}

/// From the tin to the guest.
fn finished(made: &Made<'_>, serves: f64) -> Vec<RunStep> {
    let each = |words: &str| made.each(words);
    let mut steps = Vec::new();
    if !made.in_the_glass() {
        if made.glass_ice {
            let words = each(&format!("Ice into the {}", made.glass));
            steps.push(step(words, usual::ICE * serves));
        }
        let verb = if made.method == Method::Blended || made.method == Method::NoIce {
            "Pour"
        } else {
            "Strain"
        };
        let words = each(&format!("{verb} into the {}", made.glass));
        steps.push(step(words, usual::STRAIN * serves));
    }
    for (pour, name, _) in made.topped() {
        let words = each(&format!("Top with {name}, {}", amount(made, pour)));
        steps.push(step(words, usual::TOP * serves));
    }
    for (pour, name, _) in made.laid_on() {
        let words = each(&format!("Garnish: {name}, {}", amount(made, pour)));
        steps.push(step(words, usual::GARNISH * serves));
    }
    let (_, garnish) = rim_first(&made.garnish);
    if !garnish.is_empty() {
        let words = each(&format!("Garnish: {garnish}"));
        steps.push(step(words, usual::GARNISH * serves));
    }
    steps.push(step(each("Serve"), usual::SERVE * serves));
    steps
}

const fn is_laid(pour: &Pour) -> bool {
    matches!(pour.amount, Amount::Words(_) | Amount::Pieces(_))
}

fn amount(made: &Made<'_>, pour: &Pour) -> String {
    let value = pour.amount.value().unwrap_or(0.0);
    pour.amount_text(value, &made.document.measures)
}

/// What the method does between measuring and the glass.
fn worked(made: &Made<'_>, vessels: f64) -> Vec<RunStep> {
    let mut steps = Vec::new();
    if made.method == Method::Shaken && made.has_egg() {
        steps.push(step(
            "Shake without ice".to_owned(),
            usual::DRY_SHAKE * vessels,
        ));
    }
    let ice = |words: &str| step(words.to_owned(), usual::ICE * vessels);
    let (ice, work) = match made.method {
        Method::Shaken => (Some(ice("Add ice")), ("Shake", usual::SHAKE)),
        Method::Stirred => (Some(ice("Add ice")), ("Stir", usual::STIR)),
        Method::Built => (
            Some(ice("Ice into the glass")),
            ("Stir in the glass", usual::BUILT),
        ),
        Method::Thrown => (Some(ice("Add ice")), ("Throw", usual::THROW)),
        Method::Swizzled => (
            Some(ice("Crushed ice into the glass")),
            ("Swizzle", usual::SWIZZLE),
        ),
        Method::Blended => (Some(ice("Add measured ice")), ("Blend", made.blade_seconds)),
        Method::Bottled => return steps,
        Method::NoIce => (None, ("Stir", usual::BUILT)),
    };
    steps.extend(ice);
    steps.push(step(work.0.to_owned(), work.1 * vessels));
    steps
}

/// Tools that the method and the pours need, one each.
pub(super) fn tools(made: &Made<'_>) -> Vec<String> {
    let mut tools: Vec<&str> = Vec::new();
    let mut need = |name: &'static str| {
        if !tools.contains(&name) {
            tools.push(name);
        }
    };
    for (pour, ..) in &made.pours {
        match (&pour.amount, pour.unit) {
            (Amount::Grams(_), _) => need("scale"),
            (Amount::Ml(_), Unit::BarSpoon | Unit::Teaspoon) => need("bar spoon"),
            (Amount::Ml(_), Unit::Dash) => need("dasher"),
            (Amount::Ml(_), Unit::Drop) => need("dropper"),
            (Amount::Ml(_), _) => need("jigger"),
            (Amount::Pieces(_) | Amount::Words(_), _) => {}
        }
    }
    let of_method: &[&'static str] = match made.method {
        Method::Shaken => &["shaker", "strainer", "fine strainer", "ice scoop"],
        Method::Stirred => &["mixing glass", "bar spoon", "strainer", "ice scoop"],
        Method::Built => &["bar spoon", "ice scoop"],
        Method::Thrown => &["two tins", "strainer", "ice scoop"],
        Method::Swizzled => &["swizzle stick", "ice scoop"],
        Method::Blended => &["blender", "scale for the ice", "ice scoop"],
        Method::Bottled => &["bottle opener"],
        Method::NoIce => &["mixing glass", "bar spoon"],
    };
    for name in of_method {
        need(name);
    }
    let garnish = made.garnish.to_lowercase();
    if PEELS.iter().any(|word| garnish.contains(word)) {
        need("peeler");
        need("knife and board");
    }
    if !garnish.is_empty() || made.laid_on().next().is_some() {
        need("tongs");
    }
    let mut tools: Vec<String> = tools.into_iter().map(capital).collect();
    tools.push(format!(
        "{} × {}",
        trimmed(f64::from(made.serves), 0),
        made.glass
    ));
    tools
}
