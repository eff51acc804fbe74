//! What to mind while a step is done.

use super::batch::Batch;
use super::careful_ph::CarefulPh;
use super::caution::Caution;
use super::keeping_guides::is_animal_fat;
use super::kinds::is_kind;
use super::row::believed_ph;
use super::shelf::{ShelfClass, shelf_class};
use super::stream::Stream;
use super::upstream::Upstream;
use super::words::has_word;
use crate::model::{Document, Ingredient, Process, Step};
use crate::physics::{Component, Composition};
use crate::units::{celsius, number, percent_vol, trimmed};

/// Cold food stays at or below it, °C: Food Code 3-501.16.
const COLD: f64 = 5.0;
/// Hot food stays at or above it, °C: Food Code 3-501.16.
const HOT: f64 = 57.0;
/// Longest time between the two, min: Food Code 3-501.19, from memory.
const MOST_WARM_MIN: f64 = 240.0;
/// Purée is heated to it before it is dried, °C: an extension service's recipe for fruit leather, read.
const PUREE_CELSIUS: f64 = 71.0;
/// Protein from which something dries like meat or cheese rather than like fruit, g per g (our
/// convention).
const MUCH_PROTEIN: f64 = 0.03;
/// Strength at which vapour catches fire at room temperature, % vol: flash points of 40 % vol about
/// 26 °C and of 60 % vol about 22 °C, from memory.
const FLAMMABLE: f64 = 60.0;
/// Strength from which warm vapour catches fire: flash point of 20 % vol about 36 °C, from memory.
const FLAMMABLE_WARM: f64 = 20.0;
/// From here on it is warm, °C (our convention: between the two flash points).
const WARM: f64 = 30.0;
/// An acid liquid below this pH takes copper up: Food Code 4-101.14, from memory.
const COPPER_PH: f64 = 6.0;

const HOLDING: &str = "Food Code 3-501.16; the 4 hours of 3-501.19 from memory";
const LEATHER: &str =
    "an extension service's recipe for fruit leather and two appliance manuals, read";
const PRACTICE: &str = "common practice, no source";
const MEMORY: &str = "from memory, no source";
const FAT: &str = "a page of a bar and one on bar safety, read";
const COPPER: &str = "Food Code 4-101.14, from memory";

/// What to mind at the step of that place.
pub(super) fn of_step(
    document: &Document,
    batch: &Batch<'_>,
    place: usize,
    careful: &CarefulPh,
) -> Vec<Caution> {
    let Some(step) = batch.preparation.steps.get(place) else {
        return Vec::new();
    };
    let streams = step
        .from
        .iter()
        .filter_map(|name| batch.flow.streams.get(name));
    let taken = streams.fold(Stream::default(), |sum, stream| sum + *stream);
    let at = AtStep {
        document,
        batch,
        subject: format!("step {}, {}", place + 1, step.does.name()),
        step,
        whole: taken.whole(),
        careful_ph: careful.ph(&step.from, &taken),
        liquid: taken.liquid,
    };
    let found = [
        at.held_warm(),
        at.soaked_grain(),
        at.vapour(),
        at.gas(),
        at.very_cold(),
        at.fat(),
        at.copper(),
    ];
    found.into_iter().flatten().chain(at.drying()).collect()
}

/// A step with what it takes.
struct AtStep<'a> {
    document: &'a Document,
    batch: &'a Batch<'a>,
    subject: String,
    step: &'a Step,
    whole: Composition,
    /// The upper end of its pH.
    careful_ph: Option<f64>,
    liquid: Composition,
}

impl AtStep<'_> {
    fn caution(&self, text: impl Into<String>, source: &'static str) -> Caution {
        Caution::new(self.subject.clone(), text, source)
    }

    /// Whether what it takes spoils dangerously outside the fridge.
    fn needs_cold(&self) -> bool {
        let class = shelf_class(&self.whole, self.careful_ph).class;
        let wet = self.whole[Component::Water] > 0.0;
        wet && matches!(class, ShelfClass::Cold | ShelfClass::IfHeated)
    }

    /// Whether an input that it hangs on is of that sort.
    fn any_input(&self, is: impl Fn(&Ingredient) -> bool) -> bool {
        self.step.from.iter().any(|name| {
            let upstream = Upstream::of(self.document, self.batch, name);
            upstream.inputs.iter().any(|(_, item)| is(item))
        })
    }

    fn held_warm(&self) -> Option<Caution> {
        let minutes = self.step.hands_on_min + self.step.wait.most_min;
        if !self.needs_cold() || minutes <= MOST_WARM_MIN {
            return None;
        }
        let hours = trimmed(minutes / 60.0, 1);
        let (cold, hot) = (number(COLD, 0), number(HOT, 0));
        match self.step.celsius {
            Some(degrees) if degrees <= COLD || degrees >= HOT => None,
            Some(degrees) => Some(self.caution(
                format!(
                    "{hours} h at {}: what is neither sour, sweet, dry nor strong enough stays at most \
                     4 h between {cold} and {hot} °C; milk, cream, egg, nuts and grain before all",
                    celsius(degrees)
                ),
                HOLDING,
            )),
            None => Some(self.caution(
                format!(
                    "{hours} h without a temperature: keep it at or below {cold} °C or at or above \
                     {hot} °C, and write down which"
                ),
                HOLDING,
            )),
        }
    }

    /// Rice and other grain bring spores that grow in water that is not cold.
    fn soaked_grain(&self) -> Option<Caution> {
        let soaked = matches!(self.step.does, Process::Soak { .. });
        let warm = self.step.celsius.is_none_or(|degrees| degrees > COLD);
        let raw = |item: &Ingredient| is_kind(item, "grain") || is_kind(item, "nut");
        if !(soaked && warm && self.any_input(raw)) {
            return None;
        }
        let text = "raw grain, starch and nuts bring spores (Bacillus cereus): soak them at 5 °C or \
                    below, throw the soaking water away if you can, and chill the drink at once";
        Some(self.caution(text, MEMORY))
    }

    fn vapour(&self) -> Option<Caution> {
        let strength = self.liquid.percent_vol();
        let heats = matches!(
            self.step.does,
            Process::Heat { .. } | Process::Reduce { .. } | Process::Dehydrate { .. }
        );
        let warm = heats || self.step.celsius.is_some_and(|degrees| degrees >= WARM);
        let shown = percent_vol(strength);
        if strength >= FLAMMABLE {
            let text = format!(
                "{shown} gives off vapour that catches fire at room temperature: no flame, no hot plate, \
                 no sparking motor near it, and fresh air"
            );
            return Some(self.caution(text, MEMORY));
        }
        if strength >= FLAMMABLE_WARM && warm {
            let text = format!(
                "{shown} heated gives off vapour that catches fire: no open flame, an extractor or fresh \
                 air, a closed bag or a lid"
            );
            return Some(self.caution(text, MEMORY));
        }
        None
    }

    fn gas(&self) -> Option<Caution> {
        match self.step.does {
            Process::Carbonate { bar, .. } => Some(self.caution(
                format!(
                    "{} bar above the air: only vessels rated well above it, chilled before and vented \
                     before they are opened; never glass bottles for wine or juice, never dry ice",
                    number(bar, 1)
                ),
                PRACTICE,
            )),
            Process::Aerate { .. } => Some(self.caution(
                "a siphon is a pressure vessel: strain first, fill it to its mark, one charger at a time \
                 as its maker says, and let the gas out before it is opened; nitrous oxide is for food \
                 only: breathed in it can kill",
                PRACTICE,
            )),
            _ => None,
        }
    }

    /// Dry ice or liquid nitrogen, if the words of the step name them.
    fn very_cold(&self) -> Option<Caution> {
        let said = std::iter::once(&self.step.note).chain(&self.step.equipment);
        let mut said = said.map(|words| words.to_lowercase());
        let names = |words: &String| words.contains("dry ice") || words.contains("liquid nitrogen");
        said.any(|words| names(&words)).then(|| {
            self.caution(
                "its gas suffocates in a closed room and its touch burns: insulated gloves, goggles, \
                 fresh air, never a closed vessel, and none of it left when it is served",
                PRACTICE,
            )
        })
    }

    fn fat(&self) -> Option<Caution> {
        if !matches!(self.step.does, Process::FatWash { .. }) {
            return None;
        }
        let text = if self.any_input(is_animal_fat) {
            "strain it clear through paper, keep it at 5 °C or below and use it within 14 days: what is \
             left of animal fat, milk or meat spoils"
        } else {
            "strain it clear through paper and keep it cold: what is left of the fat turns rancid; nut \
             oils stay declared as allergens"
        };
        Some(self.caution(text, FAT))
    }

    fn copper(&self) -> Option<Caution> {
        let copper = self
            .step
            .equipment
            .iter()
            .any(|tool| has_word(tool, "copper"));
        let ph = believed_ph(&self.liquid).filter(|ph| copper && *ph < COPPER_PH)?;
        let text = format!(
            "at pH {} it takes up copper: use a lined or steel vessel, never bare copper below pH {}",
            number(ph, 1),
            number(COPPER_PH, 0)
        );
        Some(self.caution(text, COPPER))
    }

    fn drying(&self) -> Vec<Caution> {
        if !matches!(self.step.does, Process::Dehydrate { .. }) {
            return Vec::new();
        }
        let (low, first) = (number(HOT, 0), number(PUREE_CELSIUS, 0));
        let mut all = Vec::new();
        let cool = match self.step.celsius {
            None => Some("no temperature is written".to_owned()),
            Some(degrees) if degrees < HOT => Some(format!("{} is below it", celsius(degrees))),
            Some(_) => None,
        };
        if let Some(why) = cool {
            let text =
                format!("dry at {low} to 63 °C so that nothing grows before it is dry: {why}");
            all.push(self.caution(text, LEATHER));
        }
        if !self.heated_before() {
            let text = format!(
                "heat a purée through to {first} °C before it is dried: the dryer alone warms it too \
                 slowly"
            );
            all.push(self.caution(text, LEATHER));
        }
        if self.whole[Component::Protein] >= MUCH_PROTEIN * self.whole.mass_g() {
            let text = "pulp of nuts, grain, milk or egg dried warm is a bed for germs: spread it thin, \
                        start it in the oven at 80 °C or more, and dry it the day it is made";
            all.push(self.caution(text, PRACTICE));
        }
        all
    }

    /// Whether what is dried was hot enough in a step before.
    fn heated_before(&self) -> bool {
        let own = self
            .step
            .celsius
            .is_some_and(|degrees| degrees >= PUREE_CELSIUS);
        let hot = |step: &Step| step.celsius.is_some_and(|degrees| degrees >= PUREE_CELSIUS);
        own || self.step.from.iter().any(|name| {
            let upstream = Upstream::of(self.document, self.batch, name);
            upstream.steps.iter().any(|(_, step)| hot(step))
        })
    }
}
