//! The service in lines of words, for the window and the sheet alike.

use super::cost_words::packs_line;
use super::open_document::Session;
use super::service_view::ServiceView;
use crate::service::{
    AlcoholFacts, Batch, Bottled, Energy, JobOf, PrepPlan, Rounding, Shopping, ShoppingLine,
    lasting,
};
use crate::units::{capital, celsius, number, percent_vol, steps, trimmed};

/// Pure alcohol, standard drinks and energy of one drink, a line each.
pub fn alcohol_lines(facts: Option<&AlcoholFacts>, energy: Option<&Energy>) -> Vec<String> {
    let mut lines = Vec::new();
    if let Some(facts) = facts.filter(|facts| facts.ethanol_g > 0.05) {
        let standard = facts.standard_words();
        let grams = format!("Pure alcohol: {} g", number(facts.ethanol_g, 1));
        lines.push(standard.map_or_else(
            || format!("{grams}."),
            |standard| format!("{grams}, {standard}."),
        ));
    }
    if let Some(energy) = energy {
        lines.push(format!(
            "Energy: {} kJ ({} kcal) a drink, by EU 1169/2011 Annex XIV.",
            number(energy.kj, 0),
            number(energy.kcal, 0)
        ));
    }
    lines
}

/// What a batch makes and mixes, a line each.
pub fn batch_lines(view: &ServiceView) -> Vec<String> {
    let Some(batch) = view.made() else {
        return Vec::new();
    };
    let mut lines = vec![serves_line(batch)];
    let mixed: Vec<String> = batch
        .mixed()
        .filter_map(|line| {
            let grams = line.grams?;
            let ml = line
                .ml
                .map_or_else(String::new, |ml| format!("{} ml, ", small(ml)));
            Some(format!("{} {ml}{} g", line.name, small(grams)))
        })
        .collect();
    if !mixed.is_empty() {
        lines.push(format!("Mixed beforehand: {}.", mixed.join("; ")));
    }
    if let Some(mix) = &batch.mix {
        lines.push(format!(
            "Makes {} ml at {}; {} ml a drink{}.",
            number(mix.ml, 0),
            percent_vol(mix.strength_pct_vol),
            number(mix.each_ml, 1),
            apart_each(batch)
        ));
    }
    if let Some(bottled) = &batch.bottled {
        lines.extend(bottle_lines(bottled));
    }
    let apart: Vec<String> = batch
        .added_on_the_day()
        .map(|line| {
            let why = line.on_the_day.map_or("", |why| why.words());
            let grams = line
                .grams
                .map_or_else(String::new, |grams| format!(" {} g", number(grams, 0)));
            format!("{}{grams} ({why})", line.name)
        })
        .collect();
    if !apart.is_empty() {
        lines.push(format!("On the day: {}.", apart.join("; ")));
    }
    if !batch.uncounted.is_empty() {
        lines.push(format!("Not counted: {}.", batch.uncounted.join("; ")));
    }
    lines
}

/// A whole number; small ones to a tenth.
fn small(amount: f64) -> String {
    number(amount, usize::from(amount < 10.0))
}

/// ", and on the day lemon juice 12.5 ml": what each drink takes beside the batch.
pub fn apart_each(batch: &Batch) -> String {
    let apart: Vec<String> = batch
        .added_on_the_day()
        .filter_map(|line| {
            let ml = line.each.filter(|_| line.ml.is_some())?;
            let unit = if line.unit == crate::units::Unit::Gram {
                "g"
            } else {
                "ml"
            };
            Some(format!("{} {} {unit}", line.name, trimmed(ml, 1)))
        })
        .collect();
    if apart.is_empty() {
        return String::new();
    }
    format!(", and on the day {}", crate::units::listed(&apart))
}

/// What has to be made in house for the batch, a line each.
pub fn make_lines(session: &Session, view: &ServiceView) -> Vec<String> {
    let Some(batch) = view.made() else {
        return Vec::new();
    };
    let made = batch.needs.preparations.iter();
    made.map(|needed| {
        let preparation = session.document().preparations.get(&needed.id);
        let inputs = preparation.map_or(&[][..], |made| &made.inputs);
        let inputs: Vec<String> = inputs
            .iter()
            .filter_map(|input| {
                let grams = needed.inputs_g.get(&input.name)?;
                Some(format!("{} {} g", input.name, number(*grams, 0)))
            })
            .collect();
        let outputs: Vec<String> = needed
            .outputs
            .iter()
            .map(|own| {
                let (made, left) = (number(own.made_g, 0), own.surplus_g());
                let over = if left < 0.5 {
                    String::new()
                } else {
                    format!(" ({} g left over)", number(left, 0))
                };
                format!("{} {made} g{over}", own.output)
            })
            .collect();
        format!(
            "{}, {} times its recipe: {} for {}.",
            needed.name,
            number(needed.factor, 2),
            inputs.join(", "),
            outputs.join(", ")
        )
    })
    .collect()
}

fn serves_line(batch: &Batch) -> String {
    let made = batch.made.ceil();
    if made > f64::from(batch.serves) {
        format!(
            "For {} drinks, {} with spares.",
            batch.serves,
            number(batch.made, 1)
        )
    } else {
        format!("For {} drinks.", batch.serves)
    }
}

/// Water, strength, freezing and bottles of a bottled drink, a line each.
pub fn bottle_lines(bottled: &Bottled) -> Vec<String> {
    let mut lines = vec![format!(
        "Bottled with {} g of water: {} ml at {}, {} ml less than its parts.",
        number(bottled.water_g, 0),
        number(bottled.ml, 0),
        percent_vol(bottled.strength_pct_vol),
        number(bottled.contraction_ml(), 0)
    )];
    let freezing = bottled.freezing_celsius.map_or_else(
        || "no freezing point is known".to_owned(),
        |cold| {
            let error = number(bottled.freezing_error_k, 1);
            format!("begins to freeze at {} ± {error} K", celsius(cold))
        },
    );
    let close = if bottled.is_close {
        "; too close to be sure"
    } else {
        ""
    };
    lines.push(format!(
        "At {} it {}: {freezing}{close}.",
        celsius(bottled.keep_celsius),
        bottled.state.name()
    ));
    lines.push(format!(
        "{} bottles, {} ml in each at filling, {} ml in the last; {} ml a drink.",
        bottled.bottles,
        number(bottled.in_bottle_ml, 0),
        number(bottled.last_ml, 0),
        number(bottled.each_ml, 1)
    ));
    lines
}

/// How far rounded amounts are from those written, in a sentence.
pub fn rounding_line(what: &str, rounding: &Rounding) -> String {
    if rounding
        .pours
        .iter()
        .all(crate::service::MeasuredPour::is_exact)
    {
        return format!("{what}: measured as it is written.");
    }
    let far = rounding.distance;
    let tasted = if far < 1.0 {
        "less than a noticeable difference"
    } else {
        "it can be tasted"
    };
    format!("{what}: {} from what is written, {tasted}.", steps(far))
}

/// What is prepared when, a line each job, in the order of time.
pub fn plan_lines(view: &ServiceView, plan: &PrepPlan) -> Vec<String> {
    plan.jobs
        .iter()
        .map(|job| {
            let mut parts = Vec::new();
            if job.hands_on_min > 0 {
                parts.push(format!("{} of work", lasting(job.hands_on_min)));
            }
            if job.wait_min > 0 {
                parts.push(format!("{} by itself", lasting(job.wait_min)));
            }
            let when = view.when(job.start, plan.service);
            let what = match job.of {
                JobOf::Step { .. } => format!("{}, {}", job.group, job.name),
                JobOf::Mix | JobOf::Bottle | JobOf::Chill => capital(&job.name),
            };
            let times = if parts.is_empty() {
                String::new()
            } else {
                format!(" ({})", parts.join(", then "))
            };
            format!("{when}: {what}{times}")
        })
        .collect()
}

/// When to begin and how much work it is, in a sentence.
pub fn plan_summary(view: &ServiceView, plan: &PrepPlan) -> String {
    let proved = if plan.proved {
        "no plan begins later"
    } else {
        "the latest begin that was found"
    };
    let hurried = if view.is_hurried() {
        " Only the shortest waits leave time for it."
    } else {
        ""
    };
    format!(
        "Begin {}; {} of work until the service ({proved}).{hurried}",
        view.when(plan.begins, plan.service),
        lasting(plan.hands_on_min)
    )
}

/// Amount of a shopping line in grams and ml: "1250 g (1263 ml)".
pub fn weight_and_volume(grams: f64, ml: Option<f64>) -> String {
    // Small amounts are told to a tenth.
    let told = |value: f64| trimmed(value, usize::from(value < 10.0));
    let grams = format!("{} g", told(grams));
    match ml {
        Some(ml) => format!("{grams} ({} ml)", told(ml)),
        None => grams,
    }
}

/// Countries whose standard drink is known, in the order of the table.
pub fn countries() -> Vec<String> {
    let known = crate::service::standard_drinks().into_iter();
    known.map(|own| own.country).collect()
}

/// The shopping list as text.
pub fn shopping_text(list: &Shopping, currency: &str) -> String {
    let mut lines = vec!["To buy".to_owned()];
    for line in list
        .lines
        .iter()
        .filter(|line| !line.is_water && line.to_buy_g > 0.0)
    {
        let packs = line.packs.as_ref().map_or_else(String::new, |packs| {
            let unit = if packs.by_mass { "g" } else { "ml" };
            format!(
                ": {} {} of {} {unit}, {} {unit} left over",
                packs.count,
                if packs.count == 1 { "pack" } else { "packs" },
                number(packs.size, 0),
                number(packs.left_over, 0)
            )
        });
        let amount = to_buy_text(line);
        lines.push(format!("[ ] {} {amount}{packs}", line.name));
    }
    lines.push(packs_line(list, currency));
    if !list.unpriced.is_empty() {
        lines.push(format!("Without a price: {}.", list.unpriced.join(", ")));
    }
    lines.push(String::new());
    lines.join("\n")
}

/// Batch, shopping list and plan of the trial on screen as text.
pub fn service_text(session: &Session) -> String {
    let view = session.service();
    let mut lines = Vec::new();
    match view.batch() {
        Some(Err(error)) => lines.push(format!("No batch: {error}.")),
        _ => lines.extend(batch_lines(&view)),
    }
    lines.push(String::new());
    let currency = &session.document().currency;
    lines.extend(view.shopping().map(|list| shopping_text(list, currency)));
    match view.plan() {
        Some(Ok(plan)) if plan.jobs.is_empty() => {
            lines.push("Nothing has to be prepared before the service.".to_owned());
        }
        Some(Ok(plan)) => {
            lines.push(plan_summary(&view, plan));
            lines.extend(plan_lines(&view, plan));
        }
        Some(Err(error)) => lines.push(format!("No plan: {error}.")),
        None => {}
    }
    lines.push(String::new());
    lines.join("\n")
}

/// What is taken of a line: grams, and ml of what is poured.
pub fn taken_text(line: &ShoppingLine) -> String {
    weight_and_volume(line.grams, line.ml.filter(|_| is_poured(line)))
}

/// What is bought of a line, likewise.
pub fn to_buy_text(line: &ShoppingLine) -> String {
    weight_and_volume(line.to_buy_g, line.to_buy_ml.filter(|_| is_poured(line)))
}

/// Sold by volume, as far as its pack says.
fn is_poured(line: &ShoppingLine) -> bool {
    line.packs.as_ref().is_none_or(|packs| !packs.by_mass)
}

/// Equipment that the preparations of the trial on screen need, each once.
pub fn equipment_needed(session: &Session) -> Vec<String> {
    let view = session.service();
    let Some(batch) = view.made() else {
        return Vec::new();
    };
    let all = &session.document().preparations;
    let made = batch
        .needs
        .preparations
        .iter()
        .filter_map(|needed| all.get(&needed.id));
    let steps = made.flat_map(|made| &made.steps);
    let mut names: Vec<String> = steps.flat_map(|step| step.equipment.clone()).collect();
    names.sort();
    names.dedup();
    names
}
