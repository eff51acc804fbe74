//! What an entry, a service and a stage may say.

use super::day::minute_of_day;
use super::document::Document;
use super::entry::Entry;
use super::field_path::FieldPath;
use super::glass::GlassForm;
use super::limits::{Checked, count, day, number, optional, refuse, text};
use super::service_plan::{Bottling, ServicePlan, Stage};

/// Longest story, in characters: ten thousand words and more, so that one too long can be told so.
const MAX_STORY: usize = 200_000;
/// Most lines of a list of words.
const MAX_LINES: usize = 200;
/// Most drinks of one service.
const MAX_SERVES: u32 = 100_000;
/// Most people who work at once.
const MAX_HANDS: u32 = 50;
/// Temperatures at which a bottle may wait or be filled, °C.
const CELSIUS: core::ops::RangeInclusive<f64> = -40.0..=60.0;
/// Longest step of a stage and longest rehearsal, s.
const MAX_SECONDS: f64 = 86_400.0;

pub(super) fn check_entry(document: &Document, at: &FieldPath<'_>, entry: &Entry) -> Checked {
    text(&at.field("maker"), &entry.maker)?;
    if entry.story.chars().count() > MAX_STORY {
        let reason = format!("is longer than {MAX_STORY} characters");
        return refuse(&at.field("story"), reason);
    }
    lines(&at.field("method"), &entry.method)?;
    text(&at.field("garnish"), &entry.garnish)?;
    lines(&at.field("substitutes"), &entry.substitutes)?;
    text(&at.field("menu_line"), &entry.menu_line)?;
    optional(&at.field("price"), entry.price)?;
    number(&at.field("tax_pct"), entry.tax_pct)?;
    if let Some(rules) = &entry.rules
        && !document.rule_sets.contains_key(rules)
    {
        let reason = format!("unknown set of rules \"{rules}\"");
        return refuse(&at.field("rules"), reason);
    }
    let products = at.field("products");
    count(&products, entry.products.len(), MAX_LINES)?;
    // A product whose ingredient is gone is asked for anew, which is no fault of the file.
    for product in entry.products.keys() {
        text(&products, product)?;
    }
    let ticked = at.field("ticked");
    count(&ticked, entry.ticked.len(), MAX_LINES)?;
    for (key, tick) in &entry.ticked {
        let at = ticked.key(key);
        text(&at, key)?;
        text(&at.field("by"), &tick.by)?;
        text(&at.field("rule"), &tick.rule)?;
        if let Some(reason) = &tick.reason {
            text(&at.field("reason"), reason)?;
        }
        day(&at.field("on"), &tick.on)?;
    }
    Ok(())
}

fn lines(at: &FieldPath<'_>, lines: &[String]) -> Checked {
    count(at, lines.len(), MAX_LINES)?;
    for (place, line) in lines.iter().enumerate() {
        text(&at.index(place), line)?;
    }
    Ok(())
}

pub(super) fn check_glass_form(at: &FieldPath<'_>, form: &GlassForm) -> Checked {
    number(&at.field("rim_mm"), form.rim_mm)?;
    number(&at.field("floor_mm"), form.floor_mm)?;
    number(&at.field("foam_ml"), form.foam_ml)?;
    number(&at.field("left_behind_ml"), form.left_behind_ml)
}

pub(super) fn check_service(at: &FieldPath<'_>, plan: &ServicePlan) -> Checked {
    if plan.serves > MAX_SERVES {
        return refuse(&at.field("serves"), format!("is above {MAX_SERVES}"));
    }
    number(&at.field("spare_pct"), plan.spare_pct)?;
    day(&at.field("on"), &plan.on)?;
    if !plan.at.is_empty() {
        time(&at.field("at"), &plan.at)?;
    }
    if !(1..=MAX_HANDS).contains(&plan.hands) {
        let reason = format!("must lie in 1 to {MAX_HANDS}");
        return refuse(&at.field("hands"), reason);
    }
    if let Some(hours) = &plan.hours {
        let at = at.field("hours");
        let from = time(&at.field("from"), &hours.from)?;
        if time(&at.field("to"), &hours.to)? <= from {
            return refuse(&at.field("to"), "must be later than the begin");
        }
    }
    let equipment = at.field("equipment");
    count(&equipment, plan.equipment.len(), MAX_LINES)?;
    for (name, many) in &plan.equipment {
        text(&equipment, name)?;
        if !(1..=1_000).contains(many) {
            return refuse(&equipment.key(name), "must lie in 1 to 1000");
        }
    }
    check_bottling(&at.field("bottling"), &plan.bottling)?;
    count(&at.field("on_the_day"), plan.on_the_day.len(), MAX_LINES)?;
    let at_hand = at.field("at_hand_g");
    count(&at_hand, plan.at_hand_g.len(), MAX_LINES)?;
    for (id, grams) in &plan.at_hand_g {
        number(&at_hand.key(&id.0), *grams)?;
    }
    text(&at.field("country"), &plan.country)
}

fn check_bottling(at: &FieldPath<'_>, bottling: &Bottling) -> Checked {
    for (name, celsius) in [
        ("keep_celsius", bottling.keep_celsius),
        ("fill_celsius", bottling.fill_celsius),
    ] {
        if !CELSIUS.contains(&celsius) {
            return refuse(&at.field(name), "must lie in −40 to 60 °C");
        }
    }
    number(&at.field("bottle_ml"), bottling.bottle_ml)?;
    if bottling.bottle_ml < 1.0 {
        return refuse(&at.field("bottle_ml"), "must be 1 ml or more");
    }
    if !(0.0..=90.0).contains(&bottling.headspace_pct) {
        return refuse(&at.field("headspace_pct"), "must lie in 0 to 90 %");
    }
    optional(&at.field("dilution"), bottling.dilution)
}

/// A time of the day, min since midnight.
fn time(at: &FieldPath<'_>, value: &str) -> Result<u32, super::limits::FieldError> {
    minute_of_day(value).ok_or_else(|| super::limits::FieldError {
        field: at.to_string(),
        reason: format!("\"{value}\" is no time such as 19:30"),
    })
}

pub(super) fn check_stage(at: &FieldPath<'_>, stage: &Stage) -> Checked {
    if stage.serves > MAX_SERVES {
        return refuse(&at.field("serves"), format!("is above {MAX_SERVES}"));
    }
    let seconds = |at: &FieldPath<'_>, value: f64| {
        number(at, value)?;
        if value > MAX_SECONDS {
            return refuse(at, "is longer than a day");
        }
        Ok(())
    };
    let steps = at.field("steps");
    count(&steps, stage.steps.len(), MAX_LINES)?;
    for (place, step) in stage.steps.iter().enumerate() {
        let at = steps.index(place);
        text(&at.field("does"), &step.does)?;
        text(&at.field("says"), &step.says)?;
        seconds(&at.field("seconds"), step.seconds)?;
    }
    lines(&at.field("tools"), &stage.tools)?;
    lines(&at.field("spares"), &stage.spares)?;
    text(&at.field("station"), &stage.station)?;
    text(&at.field("glass_state"), &stage.glass_state)?;
    let rehearsals = at.field("rehearsals");
    count(&rehearsals, stage.rehearsals.len(), MAX_LINES)?;
    for (place, held) in stage.rehearsals.iter().enumerate() {
        let at = rehearsals.index(place);
        day(&at.field("on"), &held.on)?;
        seconds(&at.field("seconds"), held.seconds)?;
        number(&at.field("spilled_ml"), held.spilled_ml)?;
        text(&at.field("note"), &held.note)?;
        if held.serves > MAX_SERVES {
            return refuse(&at.field("serves"), format!("is above {MAX_SERVES}"));
        }
    }
    Ok(())
}
