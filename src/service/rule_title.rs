//! What a rule asks, in words with numbers and units.

use crate::model::{Counted, Required, RuleKind, VolumeOf};
use crate::units::{Unit, trimmed};

/// Decimals with which a rule is told, as it was typed.
const TYPED: usize = 3;

/// What a rule asks, such as "at least 40 ml of caraway spirit".
///
/// A tick holds while this text stays the same, so that it says everything the rule says.
pub fn rule_title(asks: &RuleKind) -> String {
    match asks {
        RuleKind::Ingredients { most, counts } => ingredients(*most, *counts),
        RuleKind::ProductAtLeast { product, ml } => format!("At least {} of {product}", in_ml(*ml)),
        RuleKind::ProductAtMost { product, ml } => format!("At most {} of {product}", in_ml(*ml)),
        RuleKind::OnlyOfItsKind { product } => {
            format!("{product} is the only ingredient of its kind")
        }
        RuleKind::AlcoholAtMost { measure, most } => {
            format!("At most {} {}", trimmed(*most, TYPED), measure.name())
        }
        RuleKind::Strength { least, most } => {
            format!("Strength as served {}", between(*least, *most, "% vol"))
        }
        RuleKind::Volume { of, least, most } => {
            let which = match of {
                VolumeOf::Poured => "Volume before ice",
                VolumeOf::Served => "Volume as served",
            };
            format!("{which} {}", between(*least, *most, "ml"))
        }
        RuleKind::HouseMade { .. } => house_made(asks),
        RuleKind::Measures { .. } => measures(asks),
        RuleKind::Methods { allowed } => {
            let names: Vec<&str> = allowed.iter().map(|method| method.name()).collect();
            format!("Technique: {}", any_of(&names))
        }
        RuleKind::Serves { count } => format!("{} on the stage", drinks(*count)),
        RuleKind::StoryWords { .. } | RuleKind::NameWords { .. } => worded(asks),
        RuleKind::Stated { required } => stated(required),
        RuleKind::Banned { practice } => format!("Forbidden: {}", practice.name()),
        RuleKind::NoAllergen { allergen } => format!("Without {allergen}"),
        RuleKind::Asked { words } => words.clone(),
        RuleKind::StageTime { .. }
        | RuleKind::PreparationTime { .. }
        | RuleKind::Deadline { .. } => timed(asks),
    }
}

fn worded(asks: &RuleKind) -> String {
    match asks {
        RuleKind::StoryWords { least: 0, most } => format!("Story of at most {most} words"),
        RuleKind::StoryWords { least, most } => format!("Story of {least} to {most} words"),
        RuleKind::NameWords { banned } if !banned.is_empty() => format!(
            "A name that offends nobody, without the words {}",
            banned.join(", ")
        ),
        _ => "A name that offends nobody".to_owned(),
    }
}

fn timed(asks: &RuleKind) -> String {
    let minutes = |minutes: f64| format!("{} min", trimmed(minutes, TYPED));
    match asks {
        RuleKind::StageTime {
            minutes: most,
            set_up,
        } if *set_up > 0.0 => format!(
            "At most {} on the stage, and {} to set up",
            minutes(*most),
            minutes(*set_up)
        ),
        RuleKind::StageTime { minutes: most, .. } => {
            format!("At most {} on the stage", minutes(*most))
        }
        RuleKind::PreparationTime { minutes: most } => {
            format!("At most {} in the preparation room", minutes(*most))
        }
        RuleKind::Deadline { on, locked_days: 0 } => format!("Handed in by {on}"),
        RuleKind::Deadline { on, locked_days: 1 } => {
            format!("Handed in by {on}; the recipe is locked the day before")
        }
        RuleKind::Deadline { on, locked_days } => {
            format!("Handed in by {on}; the recipe is locked {locked_days} days before")
        }
        _ => String::new(),
    }
}

/// A volume as it was typed.
pub(super) fn in_ml(ml: f64) -> String {
    format!("{} ml", trimmed(ml, TYPED))
}

/// "2 identical drinks", "1 drink".
pub fn drinks(count: u32) -> String {
    if count == 1 {
        "1 drink".to_owned()
    } else {
        format!("{count} identical drinks")
    }
}

/// "between 60 and 120 ml", "at least 60 ml", "as it comes".
pub(super) fn between(least: Option<f64>, most: Option<f64>, unit: &str) -> String {
    let text = |value: f64| trimmed(value, TYPED);
    match (least, most) {
        (Some(least), Some(most)) => format!("between {} and {} {unit}", text(least), text(most)),
        (Some(least), None) => format!("at least {} {unit}", text(least)),
        (None, Some(most)) => format!("at most {} {unit}", text(most)),
        (None, None) => "as it comes".to_owned(),
    }
}

/// "any", "ml", "ml or cl", "ml, cl or oz".
pub(super) fn any_of(names: &[&str]) -> String {
    match names {
        [] => "any".to_owned(),
        [one] => (*one).to_owned(),
        [rest @ .., last] => format!("{} or {last}", rest.join(", ")),
    }
}

fn ingredients(most: u32, counts: Counted) -> String {
    let kinds = [
        (counts.drops, "dashes and drops"),
        (counts.garnish, "garnish"),
        (counts.solids, "salt, spices and solids"),
        (counts.water, "water and soda"),
    ];
    let listed = |wanted: bool| -> Vec<&str> {
        let those = kinds.iter().filter(|(counts, _)| *counts == wanted);
        those.map(|(_, name)| *name).collect()
    };
    let (yes, no) = (listed(true), listed(false));
    let mut text = if most == 1 {
        "At most 1 ingredient".to_owned()
    } else {
        format!("At most {most} ingredients")
    };
    if !yes.is_empty() {
        text = format!("{text}; {} count", yes.join(", "));
    }
    if !no.is_empty() {
        text = format!("{text}; {} not counted", no.join(", "));
    }
    text
}

fn house_made(asks: &RuleKind) -> String {
    let RuleKind::HouseMade {
        most,
        most_ml,
        most_parts,
        garnish_counts,
    } = asks
    else {
        return String::new();
    };
    let mut text = match most {
        0 => "Nothing made in house".to_owned(),
        1 => "At most 1 house-made ingredient".to_owned(),
        most => format!("At most {most} house-made ingredients"),
    };
    if let Some(ml) = most_ml {
        text = format!("{text}, at most {} of each", in_ml(*ml));
    }
    if let Some(parts) = most_parts {
        text = format!("{text}, each of at most {parts} parts");
    }
    let garnish = if *garnish_counts {
        "garnish counts"
    } else {
        "garnish not counted"
    };
    format!("{text}; {garnish}")
}

fn measures(asks: &RuleKind) -> String {
    let RuleKind::Measures {
        units,
        drops_for_bitters,
        notch_ml,
    } = asks
    else {
        return String::new();
    };
    let names: Vec<&str> = units.iter().copied().map(Unit::label).collect();
    let mut text = format!("Amounts in {}", any_of(&names));
    if names.is_empty() {
        "Amounts as numbers".clone_into(&mut text);
    }
    if *drops_for_bitters {
        text.push_str("; dashes and drops only for bitters and the like");
    }
    if let Some(notch) = notch_ml {
        text = format!("{text}; in steps of {}", in_ml(*notch));
    }
    text
}

fn stated(required: &[Required]) -> String {
    let names: Vec<&str> = required.iter().map(|one| one.name()).collect();
    if names.is_empty() {
        return "Nothing needs to be stated".to_owned();
    }
    format!("Stated: {}", names.join(", "))
}
