//! How long things keep, as far as anybody says.

use super::kinds::is_kind;
use super::shelf::ShelfClass;
use super::stream::Stream;
use super::upstream::Upstream;
use super::words::has_word;
use crate::model::{Ingredient, Process};
use crate::physics::Component;

/// A guide figure for how long something keeps; the lower end counts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Guide {
    /// What it is said of, and how it is kept.
    pub(super) what: &'static str,
    /// Shortest time that is named, days with the day of making.
    pub(super) low_days: f64,
    /// Longest time that is named, days.
    pub(super) high_days: f64,
    /// Where it was found.
    pub(super) source: &'static str,
    /// Whether it is about germs that make ill, so that what is made of it keeps no longer.
    pub(super) of_safety: bool,
}

const PRACTICE: &str = "common practice, no source";
const KITCHEN_PAGES: &str = "kitchen pages that agree on 2 to 5 days, read";

const fn guide(
    what: &'static str,
    (low_days, high_days): (f64, f64),
    source: &'static str,
    of_safety: bool,
) -> Guide {
    Guide {
        what,
        low_days,
        high_days,
        source,
        of_safety,
    }
}

const COLD: Guide = guide(
    "ready-to-eat food that needs cold, at 5 °C or below",
    (7.0, 7.0),
    "Food Code 3-501.17",
    true,
);
const PLANT_DRINK: Guide = guide(
    "a nut or grain drink, cold",
    (3.0, 5.0),
    KITCHEN_PAGES,
    true,
);
const ANIMAL_FAT: Guide = guide(
    "a spirit washed with animal fat, cold",
    (14.0, 14.0),
    "a page of a bar, read; no measurement",
    true,
);
const SOUR_CITRUS: Guide = guide(
    "fresh lemon or lime juice, cold",
    (1.0, 1.0),
    "a textbook of mixed drinks of 2014 says the same day, read in part",
    false,
);
const JUICE: Guide = guide(
    "other fresh juice, cold",
    (2.0, 5.0),
    "a textbook of mixed drinks of 2014 says a couple of days, read in part",
    false,
);
const INFUSED_SYRUP: Guide = guide(
    "an infused syrup, cold",
    (14.0, 14.0),
    "one kitchen page, read; common practice",
    false,
);
const THIN_SYRUP: Guide = guide(
    "a syrup of about 50 °Bx, cold",
    (14.0, 30.0),
    "a test of 2009 found it cloudy at a month, read; the low end is common practice",
    false,
);
const THICK_SYRUP: Guide = guide(
    "a syrup of about 67 °Bx, cold",
    (60.0, 180.0),
    "a test of 2009 found six months, read; the low end is common practice",
    false,
);
const SHRUB: Guide = guide("a shrub, cold", (30.0, 180.0), PRACTICE, false);
const DRIED: Guide = guide(
    "fruit leather and what is dried alike, airtight at room temperature",
    (7.0, 90.0),
    "kitchen pages from one week to three months, read",
    false,
);

/// Dissolved sugar from which something is a syrup, g per g (our convention: below it there is more
/// juice than syrup).
const THIN: f64 = 0.40;
/// Dissolved sugar from which a syrup is a thick one, g per g (our convention).
const THICK: f64 = 0.60;
/// Acetic acid and sugar from which something is a shrub, g per g (our convention).
const VINEGAR: f64 = 0.005;
const SWEET: f64 = 0.15;
/// Solids from which something is pulp, pressed fruit or grounds and no liquid, g per g (our
/// convention: guides for syrups, shrubs, juices and drinks are about what was strained).
const PULP: f64 = 0.25;
/// Kinds of which plant drinks are made.
const PLANTS: [&str; 2] = ["nut", "grain"];
/// Words of names of animal fat.
const ANIMAL_FATS: [&str; 8] = [
    "bacon", "butter", "ghee", "lard", "tallow", "duck", "goose", "cream",
];

/// The guide figures that speak of an output, by what it holds and how it was made.
pub(super) fn guides_of(
    stream: &Stream,
    class: ShelfClass,
    upstream: Option<&Upstream<'_>>,
) -> Vec<Guide> {
    let whole = stream.whole();
    let share = |grams: f64| grams / whole.mass_g();
    let mut found = Vec::new();
    let needs_cold = matches!(class, ShelfClass::Cold | ShelfClass::IfHeated);
    if needs_cold {
        found.push(COLD);
    }
    let Some(upstream) = upstream else {
        return found;
    };
    let does = |wanted: fn(&Process) -> bool| upstream.steps.iter().any(|(_, s)| wanted(&s.does));
    let holds =
        |wanted: &dyn Fn(&Ingredient) -> bool| upstream.inputs.iter().any(|(_, i)| wanted(i));
    let dried = is_dried(upstream);
    if dried {
        found.push(DRIED);
    }
    let is_pulp = share(stream.solid.mass_g()) >= PULP;
    if needs_cold && !is_pulp && holds(&is_plant) {
        found.push(PLANT_DRINK);
    }
    if !is_pulp && does(|step| matches!(step, Process::FatWash { .. })) && holds(&is_animal_fat) {
        found.push(ANIMAL_FAT);
    }
    let sugar = share(whole.sugar_g());
    // What is dried, and what is left in the sieve, is neither a syrup nor a juice any more.
    if dried || is_pulp || class == ShelfClass::Strong {
        return found;
    }
    if sugar >= THIN {
        if does(|step| matches!(step, Process::Infuse { .. })) {
            found.push(INFUSED_SYRUP);
        }
        found.push(if sugar >= THICK {
            THICK_SYRUP
        } else {
            THIN_SYRUP
        });
    } else if share(whole[Component::Acetic]) >= VINEGAR && sugar >= SWEET {
        found.push(SHRUB);
    } else if does(|step| matches!(step, Process::Juice { .. })) || holds(&is_juice) {
        let sour = holds(&|item| {
            ["lemon", "lime"]
                .iter()
                .any(|word| has_word(&item.name, word))
        });
        found.push(if sour { SOUR_CITRUS } else { JUICE });
    }
    found
}

/// Whether it was dried and nothing added to it since.
pub(super) fn is_dried(upstream: &Upstream<'_>) -> bool {
    // The last step upstream is the one that made it; one stream alone leads back from each.
    for (_, step) in upstream.steps.iter().rev() {
        if matches!(step.does, Process::Dehydrate { .. }) {
            return true;
        }
        if step.from.len() != 1 {
            return false;
        }
    }
    false
}

fn is_plant(item: &Ingredient) -> bool {
    PLANTS.iter().any(|kind| is_kind(item, kind))
}

fn is_juice(item: &Ingredient) -> bool {
    is_kind(item, "juice")
}

/// Whether an ingredient is fat of an animal, by its kind or by a word of its name.
pub(super) fn is_animal_fat(item: &Ingredient) -> bool {
    let plants = ["cocoa", "peanut", "almond", "nut", "coconut", "shea"];
    let is_plant = plants.iter().any(|word| has_word(&item.name, word));
    is_kind(item, "dairy solid")
        || (!is_plant && ANIMAL_FATS.iter().any(|word| has_word(&item.name, word)))
}
