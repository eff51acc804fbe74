//! What to mind of an input by the words of its name, as the trade would write them.

use super::batch::{Batch, input_rows};
use super::caution::Caution;
use super::kinds::is_kind;
use super::upstream::Upstream;
use super::words::has_word;
use crate::model::{Document, Ingredient, Process, Step};
use crate::units::{number, trimmed};

/// Heated to this, egg is no longer taken for raw, °C: 160 °F, the usual guidance to consumers in the US
/// for dishes with egg (from memory).
const EGG_HEATED_CELSIUS: f64 = 71.0;
/// Cassia that brings a person of 50 kg to the tolerable daily intake of coumarin, g a day.
const CASSIA_G: f64 = 1.0;

const COUMARIN: &str = "BfR 26/2012 for 0.1 mg per kg of body weight and day, read; about 5 mg in 1 g of \
                        cassia, read; 0.7 to 12 mg, and 0.005 to 0.2 mg in Ceylon cinnamon, from memory";
const EFSA: &str = "EFSA Journal 2016;14(4):4424, summary read";
const TONKA: &str = "21 CFR 189.130, read; 1 to 3.5 % coumarin in the bean from memory";
const CONTACT: &str = "common practice, no source";
const EGG: &str = "Food Code 3-801.11, number from memory";
const THUJONE: &str = "limits of EU 1334/2008 in copies, read";
const QUININE: &str = "21 CFR 172.575, read; EU 872/2012 from memory";
const CHARCOAL: &str = "press reports of 2018, read";
const PRACTICE: &str = "common practice, no source";

/// Words of which any will do, what to say of them, and where it was found.
const NAMED: [(&[&str], &str, &str); 6] = [
    (
        &["tonka"],
        "holds 1 to 3.5 % coumarin: food with it counts as adulterated in the United States; elsewhere \
         grate traces and know the local limit",
        TONKA,
    ),
    (
        &["kernel", "kernels", "noyaux", "pits", "stones"],
        "raw kernels of apricot, peach, cherry and bitter almond give off cyanide: 0.37 g of raw apricot \
         kernel is an adult's most at a time, 0.06 g a toddler's; use roasted or tested ones",
        EFSA,
    ),
    (
        &["wormwood", "mugwort", "thuja"],
        "brings thujone: at most 35 mg/kg in spirits with Artemisia, 10 mg/kg in others, 0.5 mg/kg without \
         alcohol",
        THUJONE,
    ),
    (
        &["cinchona", "quinine"],
        "brings quinine, which must be named: at most 83 ppm in carbonated drinks in the United States and \
         100 mg/kg in the European Union; a home-made bark tincture cannot be dosed without analysis",
        QUININE,
    ),
    (
        &["charcoal"],
        "binds medicines, the pill among them, and is not allowed as a food colour in the United States",
        CHARCOAL,
    ),
    (
        &["tobacco", "oleander", "datura", "yew", "foxglove"],
        "is poisonous in a drink in small amounts: leave it out",
        PRACTICE,
    ),
];

/// Plants whose seeds are sold as kernels and give off no cyanide to speak of (from memory, no source).
const HARMLESS_KERNELS: [&str; 12] = [
    "sunflower",
    "pumpkin",
    "pistachio",
    "walnut",
    "hazelnut",
    "cashew",
    "pecan",
    "pine",
    "sesame",
    "corn",
    "maize",
    "wheat",
];

/// Fruit whose kernels give off cyanide (apricot: EFSA as above; the others from memory), and the word for
/// almonds that do.
const STONE_FRUIT: [&str; 10] = [
    "apricot",
    "apricots",
    "peach",
    "peaches",
    "nectarine",
    "plum",
    "plums",
    "cherry",
    "cherries",
    "bitter",
];

/// What to mind of the inputs of a batch, but for egg.
pub(super) fn of_inputs(document: &Document, batch: &Batch<'_>) -> Vec<Caution> {
    let mut all = Vec::new();
    for (name, item) in input_rows(document, batch.preparation) {
        all.extend(of_name(item));
        all.extend(cinnamon(batch, name, item));
    }
    all
}

/// What to mind of an egg that nothing heated on its way.
pub(super) fn raw_egg(item: &Ingredient) -> Caution {
    let text = "raw egg: acid and spirit do not reliably kill germs; use pasteurised egg for people at \
                risk, keep it cold and use it the day it is made";
    Caution::new(item.name.clone(), text, EGG)
}

/// What to mind of an ingredient wherever it goes.
pub(super) fn of_name(item: &Ingredient) -> Vec<Caution> {
    let mut all = of_what_is_in_it(item);
    let is_acid = item.pure_acid.is_some() || is_kind(item, "acid powder") || is_kind(item, "acid");
    if is_acid {
        let text = "concentrated acid burns eyes and skin and its dust the lungs: goggles and gloves, weigh \
                    it out of a draught, acid into water and never on bare copper";
        all.push(Caution::new(item.name.clone(), text, CONTACT));
    }
    all
}

/// What to mind of an ingredient in whatever it went into: of what is in it, not of its handling.
pub(super) fn of_what_is_in_it(item: &Ingredient) -> Vec<Caution> {
    let has = |word: &&str| has_word(&item.name, word);
    // A mixture with kernels of stone fruit is none that is harmless.
    let is_harmless = HARMLESS_KERNELS.iter().any(has) && !STONE_FRUIT.iter().any(has);
    let speaks = |word: &&str| has(word) && !(is_harmless && word.starts_with("kernel"));
    let found = NAMED.iter().filter(|(words, ..)| words.iter().any(speaks));
    let mut all: Vec<Caution> = found
        .map(|(_, text, source)| Caution::new(item.name.clone(), *text, source))
        .collect();
    let is_bitter_almond = has(&"bitter") && (has(&"almond") || has(&"almonds"));
    if let Some((_, text, source)) = NAMED.get(1).filter(|_| is_bitter_almond) {
        all.push(Caution::new(item.name.clone(), *text, source));
    }
    all
}

/// How much a day of the main output holds a day's cassia.
fn cinnamon(batch: &Batch<'_>, name: &str, item: &Ingredient) -> Option<Caution> {
    let is_cinnamon = ["cinnamon", "cassia"]
        .iter()
        .any(|word| has_word(&item.name, word));
    let ready_made = ["syrup", "liqueur"].iter().any(|kind| is_kind(item, kind));
    let ceylon = has_word(&item.name, "ceylon");
    if !is_cinnamon || ready_made || ceylon {
        return None;
    }
    let grams = batch.flow.inputs_g.get(name).copied().unwrap_or(0.0);
    let (main, _) = batch.preparation.main_output()?;
    let ml = batch.flow.streams.get(main)?.whole().volume_ml();
    if !(grams > 0.0 && ml > 0.0) {
        return None;
    }
    let text = format!(
        "{} g in a litre of {main}: were it cassia and all its coumarin drawn out, {} ml a day would bring a \
         person of 50 kg to the tolerable daily intake; Ceylon cinnamon holds far less",
        trimmed(1000.0 * grams / ml, 1),
        number(CASSIA_G * ml / grams, 0)
    );
    Some(Caution::new(item.name.clone(), text, COUMARIN))
}

/// Whether egg that goes through a step is no longer taken for raw: only what is there to heat counts,
/// since nothing says that the temperature of another step reaches the middle.
pub fn heats_egg(step: &Step) -> bool {
    let heats = matches!(step.does, Process::Heat { .. } | Process::Reduce { .. });
    heats
        && step
            .celsius
            .is_some_and(|degrees| degrees >= EGG_HEATED_CELSIUS)
}

/// Whether an input was hot enough on its way into every output.
pub(super) fn heated_through(document: &Document, batch: &Batch<'_>, input: &str) -> bool {
    let holds = |upstream: &Upstream<'_>| upstream.inputs.iter().any(|(own, _)| own.name == input);
    batch.flow.outputs.iter().all(|output| {
        let upstream = Upstream::of(document, batch, output);
        let heats_it = |step: &Step| {
            let taken = step.from.iter();
            heats_egg(step)
                && taken
                    .map(|name| Upstream::of(document, batch, name))
                    .any(|taken| holds(&taken))
        };
        !holds(&upstream) || upstream.steps.iter().any(|(_, step)| heats_it(step))
    })
}
