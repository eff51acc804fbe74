//! The steps of a drink in words, as its technique gives them.

use super::open_document::Session;
use super::recipe_unresolved::pour_waits;
use super::text::pour_name;
use crate::balance::Figures;
use crate::model::{
    Added, Amount, Dilution, Document, Glass, Method, Pour, SheetPart, Spec, Trial,
};
use crate::service::rim_first;
use crate::units::{capital, listed, lower_first, number};

/// The steps of the trial on screen as its technique gives them; empty without a drink.
///
/// Seconds are common practice, no source: the temperature beside them is what the model predicts.
pub fn drawn_method(session: &Session) -> Vec<String> {
    method_without_closed(session, &|_| true)
}

/// The same steps, silent about parts of the sheet that are closed.
pub(super) fn method_without_closed(
    session: &Session,
    open: &dyn Fn(SheetPart) -> bool,
) -> Vec<String> {
    let (Some(spec), Some(trial)) = (session.spec(), session.trial()) else {
        return Vec::new();
    };
    let derived = session.derived();
    let found = derived.and_then(|derived| derived.figures.as_ref().ok());
    Steps {
        document: session.document(),
        spec,
        trial,
        found,
        open,
    }
    .all()
}

/// What the steps are told from.
struct Steps<'a> {
    document: &'a Document,
    spec: &'a Spec,
    trial: &'a Trial,
    found: Option<&'a Figures>,
    /// Parts of the sheet that may be told of.
    open: &'a dyn Fn(SheetPart) -> bool,
}

impl Steps<'_> {
    fn all(&self) -> Vec<String> {
        let mut steps = Vec::new();
        steps.extend(self.rim());
        steps.extend(self.glass());
        steps.extend(self.rinse());
        steps.extend(self.mix());
        steps.extend(self.after());
        steps.extend(self.garnish());
        steps
    }

    fn poured(&self, added: Added) -> impl Iterator<Item = (usize, &Pour)> {
        self.trial.poured().filter(move |(_, pour)| {
            let laid_on = is_laid_on(self.document, self.trial, pour);
            pour.added == added && !laid_on
        })
    }

    /// Name of a pour; that it is made in house stands beside its amount already.
    fn name(&self, place: usize) -> &str {
        let name = pour_name(self.document, self.trial, place);
        name.strip_suffix(", house-made").unwrap_or(name)
    }

    fn names(&self, added: Added) -> Vec<String> {
        let mut poured = self.poured(added);
        if !(self.open)(SheetPart::Amounts) {
            let some = poured.next().map(|_| "the ingredients".to_owned());
            return some.into_iter().collect();
        }
        poured
            .map(|(place, _)| self.name(place).to_owned())
            .collect()
    }

    /// "45 ml of gin".
    fn measured(&self, added: Added) -> Vec<String> {
        let mut poured = self.poured(added);
        if !(self.open)(SheetPart::Amounts) {
            let some = poured.next().map(|_| "its ingredient".to_owned());
            return some.into_iter().collect();
        }
        poured
            .map(|(place, pour)| {
                let value = pour.amount.value().unwrap_or(0.0);
                let amount = pour.amount_text(value, &self.document.measures);
                format!("{amount} of {}", self.name(place))
            })
            .collect()
    }

    fn glass_name(&self) -> &str {
        if (self.open)(SheetPart::Glass) {
            &self.spec.glass.name
        } else {
            "glass"
        }
    }

    fn glass(&self) -> Option<String> {
        let name = self.glass_name();
        let state = self.spec.stage.glass_state.trim();
        match self.trial.technique.method {
            Method::Built | Method::Swizzled => None,
            _ if !(self.open)(SheetPart::Glass) => None,
            _ if !state.is_empty() => Some(format!("Ready the {name}: {state}.")),
            _ if is_iced(&self.spec.glass) => Some(format!("Fill the {name} with fresh ice.")),
            _ => Some(format!("Chill the {name}.")),
        }
    }

    fn rinse(&self) -> Option<String> {
        let names = self.measured(Added::Rinse);
        (!names.is_empty()).then(|| {
            let name = self.glass_name();
            format!(
                "Rinse the {name} with {} and tip out what is left.",
                listed(&names)
            )
        })
    }

    fn mix(&self) -> Vec<String> {
        let names = listed(&self.names(Added::With));
        if names.is_empty() {
            return Vec::new();
        }
        let glass = self.glass_name();
        let until = self.until();
        let ice = self.ice();
        match self.trial.technique.method {
            Method::Shaken if self.has_egg() => vec![
                format!("Measure {names} into a shaker and shake without ice for 10 s."),
                format!("Add {ice} and shake hard for 12 s{until}."),
                format!("Strain through a fine sieve into the {glass}."),
            ],
            Method::Shaken => vec![
                format!("Measure {names} into a shaker."),
                format!("Add {ice} and shake hard for 12 s{until}."),
                format!("Strain through a fine sieve into the {glass}."),
            ],
            Method::Stirred => vec![
                format!("Measure {names} into a mixing glass."),
                format!("Add {ice} and stir for 30 s{until}."),
                format!("Strain into the {glass}."),
            ],
            Method::Thrown => vec![
                format!("Measure {names} into a tin with {ice}."),
                format!("Throw eight times between two tins{until}."),
                format!("Strain into the {glass}."),
            ],
            Method::Built => vec![
                format!("Measure {names} into the {glass}."),
                format!("Fill with {ice} and stir for 10 s{until}."),
            ],
            Method::Swizzled => vec![
                format!("Measure {names} into the {glass}."),
                format!(
                    "Fill with crushed ice and swizzle for 15 s{until}, then crown with more ice."
                ),
            ],
            Method::Blended => vec![
                format!("Measure {names} into the blender."),
                format!("Add {ice} and blend for {} s{until}.", self.blade_seconds()),
                format!("Pour into the {glass}."),
            ],
            Method::Bottled => vec![
                format!("Mix {names}, bottle and chill."),
                format!("Turn the bottle over once and pour into the {glass}."),
            ],
            Method::NoIce => vec![format!("Measure {names} into the {glass} and stir.")],
        }
    }

    fn blade_seconds(&self) -> String {
        // The usual run of a blender: common practice, no source.
        let seconds = self.trial.technique.chilling.blade_seconds.unwrap_or(20.0);
        number(seconds, 0)
    }

    fn ice(&self) -> String {
        match self.trial.technique.dilution {
            Dilution::IceGrams(grams) if (self.open)(SheetPart::Amounts) => {
                format!("{} g of ice", number(grams, 0))
            }
            _ => "ice".to_owned(),
        }
    }

    /// How cold it is then, where that is known.
    fn until(&self) -> String {
        let found = self.found.filter(|_| (self.open)(SheetPart::Figures));
        let cold = found.and_then(|found| found.served_celsius);
        cold.map_or_else(String::new, |cold| {
            format!(", to about {} °C", number(cold, 0))
        })
    }

    fn has_egg(&self) -> bool {
        let eggs = self.poured(Added::With).filter(|(_, pour)| {
            let settled = self.document.settle(self.trial, pour);
            settled.is_some_and(|settled| crate::kitchen::is_egg(settled.ingredient))
        });
        eggs.count() > 0
    }

    fn after(&self) -> Option<String> {
        let names = self.measured(Added::After);
        (!names.is_empty()).then(|| format!("Top with {}.", listed(&names)))
    }

    /// Rims, and the rest of the garnish.
    fn garnishes(&self) -> (String, String) {
        if !(self.open)(SheetPart::Garnish) {
            return (String::new(), String::new());
        }
        rim_first(&garnish_words(self.document, self.spec, self.trial))
    }

    /// A rim holds on a dry, empty glass only.
    fn rim(&self) -> Option<String> {
        let (rim, _) = self.garnishes();
        let glass = self.glass_name();
        (!rim.is_empty()).then(|| format!("Rim the {glass}: {}.", lower_first(&rim)))
    }

    fn garnish(&self) -> Option<String> {
        let (_, words) = self.garnishes();
        (!words.is_empty()).then(|| format!("Garnish: {}.", lower_first(&words)))
    }
}

fn is_iced(glass: &Glass) -> bool {
    glass.ice_share > 0.0
}

/// Given in words and put on the finished drink: it brings no liquid and is a part of the garnish.
/// One that waits to be chosen is none.
pub(super) fn is_laid_on(document: &Document, trial: &Trial, pour: &Pour) -> bool {
    matches!(pour.amount, Amount::Words(_))
        && pour.added == Added::After
        && !pour_waits(document, trial, pour)
}

/// The garnish in words: the entry's own, and what is laid on the drink and not named there.
pub(super) fn garnish_words(document: &Document, spec: &Spec, trial: &Trial) -> String {
    let own = spec.entry.garnish.trim().trim_end_matches('.');
    let named = own.to_lowercase();
    let mut words = vec![own.to_owned()];
    for (place, pour) in trial.pours.iter().enumerate() {
        let Amount::Words(amount) = &pour.amount else {
            continue;
        };
        let name = pour_name(document, trial, place);
        if is_laid_on(document, trial, pour) && !named.contains(&name.to_lowercase()) {
            words.push(laid(name, amount.trim()));
        }
    }
    words.retain(|words| !words.is_empty());
    words.join("; ")
}

fn laid(name: &str, amount: &str) -> String {
    if amount.to_lowercase().contains(&name.to_lowercase()) {
        capital(amount)
    } else {
        format!("{} ({amount})", capital(name))
    }
}
