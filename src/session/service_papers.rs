//! Papers of a service: batch, shopping list and plan; the stage; labels; a calendar.

use super::cost_words::{cost_lines, packs_line};
use super::open_document::Session;
use super::service_view::ServiceView;
use super::service_words::{
    alcohol_lines, batch_lines, make_lines, plan_lines, plan_summary, rounding_line, taken_text,
    to_buy_text,
};
use crate::chart::plan_bars;
use crate::model::{Reader, SheetPart};
use crate::service::{BottleLabel, RunSheet, Shopping};
use crate::sheet::{Block, Column, TextTable, plan_block};
use crate::units::number;

/// Width of the bars on paper, mm: that of the text of A4 with the margins of a sheet.
const BARS_MM: f64 = 178.0;

/// Everything that is printed or written of a service.
#[derive(Clone, Debug)]
pub struct ServicePapers {
    /// Name of the drink.
    pub title: String,
    /// Batch, shopping list and plan.
    pub pack: Vec<Block>,
    /// The stage.
    pub stage: Vec<Block>,
    /// Labels of bottles.
    pub labels: Vec<Block>,
    /// The plan as a calendar, or why there is none.
    pub calendar: Result<String, String>,
    /// The shopping list as a table.
    pub shopping: TextTable,
}

/// The papers of the service of the trial on screen; `None` without a drink.
pub fn service_papers(session: &Session) -> Option<ServicePapers> {
    let view = session.service();
    let spec = session.spec()?;
    let currency = &session.document().currency;
    // These papers are the bar's.
    let with_cost = spec.entry.open_to(SheetPart::Cost).lets(Reader::Bar);
    Some(ServicePapers {
        title: spec.name.clone(),
        pack: pack(session, &view, (&spec.name, currency), with_cost),
        stage: view
            .run_sheet()
            .map_or_else(Vec::new, |run| stage(&spec.name, run)),
        labels: match view.labels() {
            Some(Ok(labels)) => label_blocks(labels),
            Some(Err(error)) => vec![Block::Paragraph(format!("No labels: {error}."))],
            None => Vec::new(),
        },
        calendar: view.calendar(),
        shopping: view.shopping().map(table).unwrap_or_default(),
    })
}

fn headed(head: &str, lines: Vec<String>) -> Vec<Block> {
    if lines.is_empty() {
        return Vec::new();
    }
    vec![
        Block::Heading(head.to_owned()),
        Block::List {
            numbered: false,
            items: lines,
        },
    ]
}

fn pack(
    session: &Session,
    view: &ServiceView,
    (name, currency): (&str, &str),
    with_cost: bool,
) -> Vec<Block> {
    let when = view.asked().map_or_else(String::new, |plan| {
        let day = [plan.on.as_str(), plan.at.as_str()].join(" ");
        format!("{} drinks {}", plan.serves, day.trim())
    });
    let mut blocks = vec![Block::Title {
        text: format!("{name}: service"),
        under: when,
    }];
    match view.batch() {
        Some(Err(error)) => blocks.push(Block::Paragraph(format!("No batch: {error}."))),
        _ => blocks.extend(headed("Batch", batch_lines(view))),
    }
    blocks.extend(headed("Made in house", make_lines(session, view)));
    let rounding = view.practical();
    blocks.extend(
        rounding.map(|found| Block::Small(rounding_line("Rounded to 5 ml and 1 g", found))),
    );
    if let Some(list) = view.shopping() {
        blocks.extend(shopping_blocks(list, currency));
    }
    match view.plan() {
        Some(Ok(plan)) if !plan.jobs.is_empty() => {
            blocks.push(Block::Heading("Preparation".to_owned()));
            blocks.push(Block::Paragraph(plan_summary(view, plan)));
            let bars = plan_bars(plan, |at| view.when(at, plan.service));
            blocks.push(plan_block(&bars, BARS_MM));
            blocks.push(Block::List {
                numbered: true,
                items: plan_lines(view, plan),
            });
        }
        Some(Err(error)) => {
            blocks.push(Block::Heading("Preparation".to_owned()));
            blocks.push(Block::Paragraph(format!("No plan: {error}.")));
        }
        _ => {}
    }
    let cost = view.cost().filter(|_| with_cost);
    let cost = cost.map(|cost| cost_lines(cost, currency, true));
    blocks.extend(headed("Cost", cost.unwrap_or_default()));
    blocks.extend(headed(
        "Alcohol",
        alcohol_lines(view.alcohol(), view.energy()),
    ));
    let said = view.alcohol().map(|facts| facts.statements.clone());
    blocks.extend(said.unwrap_or_default().into_iter().map(Block::Small));
    blocks
}

fn shopping_blocks(list: &Shopping, currency: &str) -> Vec<Block> {
    let rows = table(list).rows;
    if rows.is_empty() {
        return Vec::new();
    }
    let mut columns = vec![Column::words("What", 1.0), Column::words("For", 0.8)];
    columns.extend(["taken", "to buy", "packs", "left over"].map(Column::figures));
    let mut words = packs_line(list, currency);
    if !list.unpriced.is_empty() {
        words = format!("{words} Without a price: {}.", list.unpriced.join(", "));
    }
    vec![
        Block::Heading("Shopping list".to_owned()),
        Block::Table { columns, rows },
        Block::Small(words),
    ]
}

/// The shopping list in rows.
fn table(list: &Shopping) -> TextTable {
    let rows = list.lines.iter().map(|line| {
        let (packs, left) = line.packs.as_ref().map_or_else(
            || (String::new(), String::new()),
            |packs| {
                let unit = if packs.by_mass { "g" } else { "ml" };
                (
                    format!("{} × {} {unit}", packs.count, number(packs.size, 0)),
                    format!("{} {unit}", number(packs.left_over, 0)),
                )
            },
        );
        let to_buy = if line.is_water {
            "tap".to_owned()
        } else {
            to_buy_text(line)
        };
        vec![
            line.name.clone(),
            line.used_for.join(", "),
            taken_text(line),
            to_buy,
            packs,
            left,
        ]
    });
    TextTable {
        heads: ["what", "for", "taken", "to buy", "packs", "left over"]
            .map(str::to_owned)
            .to_vec(),
        rows: rows.collect(),
    }
}

/// Seconds as minutes and seconds: "2:05".
pub fn clock_text(seconds: f64) -> String {
    let whole = seconds.max(0.0).round();
    let minutes = (whole / 60.0).floor();
    format!(
        "{}:{:0>2}",
        number(minutes, 0),
        number(whole - 60.0 * minutes, 0)
    )
}

fn stage(name: &str, run: &RunSheet) -> Vec<Block> {
    let drinks = if run.serves == 1 {
        "drink"
    } else {
        "identical drinks"
    };
    let mut under = format!(
        "{} {drinks}, {} min",
        run.serves,
        clock_text(run.total_seconds)
    );
    if let Some(allowed) = run.allowed_seconds {
        under = format!("{under} of {} allowed", clock_text(allowed));
    }
    let mut blocks = vec![Block::Title {
        text: format!("{name}: on stage"),
        under,
    }];
    let columns = vec![
        Column::figures("at"),
        Column::figures("s"),
        Column::words("what is done", 1.0),
        Column::words("what is said", 0.9),
    ];
    let rows = run.steps.iter().map(|step| {
        vec![
            clock_text(step.at_seconds),
            number(step.seconds, 0),
            step.does.clone(),
            step.says.clone(),
        ]
    });
    blocks.push(Block::Table {
        columns,
        rows: rows.collect(),
    });
    blocks.extend(headed("Tools", run.tools.clone()));
    for (head, words) in [("Station", &run.station), ("Glass", &run.glass_state)] {
        if !words.is_empty() {
            blocks.push(Block::Heading(head.to_owned()));
            blocks.push(Block::Paragraph(words.clone()));
        }
    }
    blocks.extend(headed("Spares", run.spares.clone()));
    blocks.extend(headed("Rehearsals", rehearsal_lines(run)));
    blocks
}

/// How rehearsals went, a line each.
pub fn rehearsal_lines(run: &RunSheet) -> Vec<String> {
    let Some(held) = &run.rehearsed else {
        return Vec::new();
    };
    let is_only = held.count == 1;
    let last = clock_text(held.last_seconds);
    let mut lines = vec![if is_only {
        format!("One rehearsal: {last}.")
    } else {
        format!(
            "{} rehearsals: best {}, middle {}, last {last}.",
            held.count,
            clock_text(held.best_seconds),
            clock_text(held.median_seconds)
        )
    }];
    if let Some(over) = held.median_over_seconds {
        let words = if over > 0.0 { "over" } else { "within" };
        let which = if is_only { "It" } else { "The middle one" };
        lines.push(format!(
            "{which} is {} {words} the time.",
            clock_text(over.abs())
        ));
    }
    if let Some(trend) = held.trend_seconds {
        lines.push(format!(
            "Each takes about {} s {} than the one before.",
            number(trend.abs(), 0),
            if trend < 0.0 { "less" } else { "more" }
        ));
    }
    let spilled = number(held.last_spilled_ml, 0);
    lines.push(if is_only {
        format!("Spilled or left over: {spilled} ml.")
    } else {
        let mean = number(held.spilled_ml, 0);
        format!("Spilled or left over: {mean} ml on average, {spilled} ml last.")
    });
    lines
}

/// Labels to cut out, two beside each other.
fn label_blocks(labels: &[BottleLabel]) -> Vec<Block> {
    let boxes: Vec<Block> = labels.iter().map(boxed).collect();
    let mut blocks = vec![Block::Title {
        text: "Labels".to_owned(),
        under: "A kitchen's labels, not those for sale; follow the local food code".to_owned(),
    }];
    for pair in boxes.chunks(2) {
        let mut pair = pair.iter().cloned();
        blocks.push(Block::Pair {
            left: pair.next().into_iter().collect(),
            right: pair.next().into_iter().collect(),
            share: 0.5,
        });
    }
    blocks
}

fn boxed(label: &BottleLabel) -> Block {
    let mut lines = label.lines.iter().map(|line| line.text.clone());
    let mut inner = vec![Block::Heading(lines.next().unwrap_or_default())];
    inner.extend(lines.map(Block::Paragraph));
    if label.count > 1 {
        inner.push(Block::Small(format!("{} of these", label.count)));
    }
    Block::Boxed(inner)
}
