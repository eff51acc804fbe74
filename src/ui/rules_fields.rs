//! The fields of one rule, by its kind.

use super::rules_form::{MOST, RuleForm};
use crate::model::{
    AlcoholMeasure, Counted, EU_ALLERGENS, Method, Practice, Required, RuleKind, VolumeOf, is_day,
};
use crate::units::Unit;

/// Shows the fields of a rule and changes it as they say.
pub(super) fn fields(form: &mut RuleForm<'_>, asks: &mut RuleKind) {
    match asks {
        RuleKind::Ingredients { most, counts } => ingredients(form, most, counts),
        RuleKind::ProductAtLeast { .. }
        | RuleKind::ProductAtMost { .. }
        | RuleKind::OnlyOfItsKind { .. } => products(form, asks),
        RuleKind::HouseMade { .. } => house_made(form, asks),
        RuleKind::Measures { .. } => measures(form, asks),
        RuleKind::AlcoholAtMost { .. } | RuleKind::Strength { .. } | RuleKind::Volume { .. } => {
            amounts(form, asks);
        }
        RuleKind::Serves { .. }
        | RuleKind::StageTime { .. }
        | RuleKind::PreparationTime { .. }
        | RuleKind::Deadline { .. } => times(form, asks),
        RuleKind::StoryWords { .. } | RuleKind::NameWords { .. } => texts(form, asks),
        RuleKind::Methods { allowed } => {
            let all = Method::ALL.map(|one| (one, one.name()));
            form.set(
                "Allowed",
                "Ticked ones are allowed; none ticked allows all",
                &all,
                allowed,
            );
        }
        _ => in_words(form, asks),
    }
}

fn amounts(form: &mut RuleForm<'_>, asks: &mut RuleKind) {
    match asks {
        RuleKind::AlcoholAtMost { measure, most } => {
            let choices = AlcoholMeasure::ALL.map(|one| (one, one.name()));
            let teach = "Alcoholic is what holds more than 1.2 % vol (EU 1169/2011, from memory)";
            form.choice("Stated in", teach, &choices, measure);
            form.number("At most", "Most in one drink", "", most);
        }
        RuleKind::Strength { least, most } => {
            form.both(
                "Strength as served, water from ice included",
                "% vol",
                least,
                most,
            );
        }
        RuleKind::Volume { of, least, most } => {
            let choices = [
                (VolumeOf::Served, "as served, water from ice included"),
                (VolumeOf::Poured, "as poured, before ice"),
            ];
            form.choice("Volume", "Which volume the rule means", &choices, of);
            form.both("Volume of one drink", "ml", least, most);
        }
        _ => {}
    }
}

fn times(form: &mut RuleForm<'_>, asks: &mut RuleKind) {
    match asks {
        RuleKind::Serves { count } => {
            form.count(
                "Drinks",
                "Identical drinks made at once on the stage",
                count,
            );
        }
        RuleKind::StageTime { minutes, set_up } => {
            form.number(
                "To make them",
                "From the first move to the last glass",
                "min",
                minutes,
            );
            form.number(
                "To set up",
                "Before the clock runs; 0 when the rules give none",
                "min",
                set_up,
            );
        }
        RuleKind::PreparationTime { minutes } => {
            let teach = "Minutes of work on garnish and house-made ingredients";
            form.number("At most", teach, "min", minutes);
        }
        RuleKind::Deadline { on, locked_days } => {
            form.day("Last day", "Year-month-day, such as 2027-06-30", on);
            form.count(
                "Locked before",
                "Days before it from which the recipe must not change; 0 for none",
                locked_days,
            );
        }
        _ => {}
    }
}

fn products(form: &mut RuleForm<'_>, asks: &mut RuleKind) {
    match asks {
        RuleKind::ProductAtLeast { product, ml } => {
            form.word("Product", "The rules' word for it", product);
            form.number(
                "At least",
                "Least in one drink, pours of it together",
                "ml",
                ml,
            );
        }
        RuleKind::ProductAtMost { product, ml } => {
            form.word("Product", "The rules' word for it", product);
            form.number(
                "At most",
                "Most in one drink, pours of it together",
                "ml",
                ml,
            );
        }
        RuleKind::OnlyOfItsKind { product } => {
            form.word(
                "Product",
                "No other ingredient of its kind may be poured",
                product,
            );
        }
        _ => {}
    }
}

fn texts(form: &mut RuleForm<'_>, asks: &mut RuleKind) {
    match asks {
        RuleKind::StoryWords { least, most } => {
            form.count(
                "At least",
                "Fewest words; 0 when a short story is fine",
                least,
            );
            form.count("At most", "Most words of the story", most);
            *most = (*most).max(*least);
        }
        RuleKind::NameWords { banned } => {
            let was = banned.join(", ");
            let mut words = was.clone();
            let teach = "Whole words, in any case, with commas between them";
            form.maybe_word("Without the words", teach, &mut words);
            // Looking at it changes nothing, whatever a file had between the commas.
            if words != was {
                let split = words.split(',').map(str::trim);
                *banned = split
                    .filter(|word| !word.is_empty())
                    .map(str::to_owned)
                    .collect();
            }
        }
        _ => {}
    }
}

fn in_words(form: &mut RuleForm<'_>, asks: &mut RuleKind) {
    match asks {
        RuleKind::Banned { practice } => {
            let all = Practice::ALL.map(|one| (one, one.name()));
            form.choice("Forbidden", "What the rules forbid", &all, practice);
        }
        RuleKind::NoAllergen { allergen } => {
            let known = EU_ALLERGENS.iter().position(|one| one == allergen);
            let mut place = known.unwrap_or(0);
            let all: Vec<(usize, &str)> = EU_ALLERGENS.iter().copied().enumerate().collect();
            form.choice(
                "Without",
                "A group of EU 1169/2011 Annex II",
                &all,
                &mut place,
            );
            EU_ALLERGENS[place].clone_into(allergen);
        }
        RuleKind::Stated { required } => {
            let all = Required::ALL.map(|one| (one, one.name()));
            form.set("Stated", "What has to stand on the sheet", &all, required);
        }
        RuleKind::Asked { words } => {
            form.word("Question", "What a person has to look at", words);
        }
        _ => {}
    }
}

fn ingredients(form: &mut RuleForm<'_>, most: &mut u32, counts: &mut Counted) {
    form.count(
        "At most",
        "Ingredients of one drink; pours of the same count once",
        most,
    );
    form.flags(
        "Count too",
        &mut [
            (
                "dashes and drops",
                "Bitters by the dash, tinctures by the drop",
                &mut counts.drops,
            ),
            (
                "garnish",
                "What is laid on or beside the drink",
                &mut counts.garnish,
            ),
            (
                "solids",
                "Salt, spices, sugar cubes and leaves in the glass",
                &mut counts.solids,
            ),
            (
                "water and soda",
                "Plain water, still or sparkling",
                &mut counts.water,
            ),
        ],
    );
}

fn house_made(form: &mut RuleForm<'_>, asks: &mut RuleKind) {
    let RuleKind::HouseMade {
        most,
        most_ml,
        most_parts,
        garnish_counts,
    } = asks
    else {
        return;
    };
    form.count("At most", "House-made ingredients of one drink", most);
    form.maybe("Of each", "Most of each in one drink", "ml", 20.0, most_ml);
    let mut parts = most_parts.map(f64::from);
    let teach = "Most ingredients that each is made with, through nested ones, each once";
    form.maybe("Made with", teach, "parts", 4.0, &mut parts);
    *most_parts = parts.map(|parts| parts.round().clamp(0.0, 1.0e6) as u32);
    form.flags(
        "Count too",
        &mut [("garnish", "A garnish that is made in house", garnish_counts)],
    );
}

fn measures(form: &mut RuleForm<'_>, asks: &mut RuleKind) {
    let RuleKind::Measures {
        units,
        drops_for_bitters,
        notch_ml,
    } = asks
    else {
        return;
    };
    let all = Unit::ALL.map(|one| (one, one.label()));
    form.set(
        "Units",
        "Ticked ones are allowed; none ticked allows all",
        &all,
        units,
    );
    let teach = "Dashes and drops for bitters, tinctures and salt only";
    form.flags(
        "Dashes",
        &mut [("only for bitters", teach, drops_for_bitters)],
    );
    let teach = "Amounts are multiples of it";
    form.maybe_in("Steps of", teach, ("ml", 0.001..=MOST), 5.0, notch_ml);
}

/// Whether a text is a day of the calendar.
pub(super) fn day_rule(text: &str) -> Result<(), String> {
    if is_day(text) {
        return Ok(());
    }
    Err("write the day as 2027-06-30".to_owned())
}
