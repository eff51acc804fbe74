//! Puts the content of a sheet into blocks, for paper and for a phone.

use super::block::{Block, Column};
use super::chart_svg::chart_block;
use super::recipe::{HouseCard, Recipe, RecipeLine};
use crate::model::Reader;
use crate::units::capital;

/// Size of the chart on paper, mm.
const CHART_MM: (f64, f64) = (85.0, 51.0);

/// The whole sheet; `parted` lets a page end between the method and what stands below it.
pub fn sheet_blocks(recipe: &Recipe, parted: bool) -> Vec<Block> {
    let mut blocks = vec![title(recipe)];
    blocks.extend(story(recipe));
    blocks.extend(amounts(recipe));
    if parted {
        blocks.extend(pair(making(recipe), chart(recipe)));
        blocks.extend(pair(around(recipe), figures(recipe)));
    } else {
        let left = [making(recipe), around(recipe)].concat();
        blocks.extend(pair(left, [chart(recipe), figures(recipe)].concat()));
    }
    blocks.extend(headed("Substitutes", bullets(&recipe.substitutes)));
    blocks.extend(house(recipe));
    blocks.extend(service(recipe));
    blocks.extend(small(recipe));
    blocks
}

/// What a phone shows: name, amounts, method, garnish, allergens.
pub fn card_blocks(recipe: &Recipe) -> Vec<Block> {
    let mut blocks = vec![title(recipe)];
    if !recipe.lines.is_empty() {
        let rows = recipe.lines.iter();
        blocks.push(Block::Table {
            columns: vec![Column::figures(""), Column::words("", 1.0)],
            rows: rows
                .map(|line| vec![line.amount.clone(), with_how(line)])
                .collect(),
        });
    }
    blocks.extend(numbered(&recipe.method));
    blocks.extend(labelled("Glass", &recipe.glass));
    blocks.extend(labelled("Garnish", &recipe.garnish));
    blocks.extend(labelled("Allergens", &allergens(recipe)));
    blocks.extend(recipe.cautions.iter().cloned().map(Block::Small));
    blocks
}

fn title(recipe: &Recipe) -> Block {
    let mut under = Vec::new();
    under.extend(
        recipe
            .twist_of
            .as_ref()
            .map(|of| format!("a twist on {of}")),
    );
    under.extend(recipe.maker.as_ref().map(|maker| format!("by {maker}")));
    under.extend(recipe.competition.clone());
    if recipe.reader == Reader::Home && under.is_empty() && !recipe.family.is_empty() {
        under.push(recipe.family.clone());
    }
    Block::Title {
        text: recipe.title.clone(),
        under: under.join("  ·  "),
    }
}

fn story(recipe: &Recipe) -> Vec<Block> {
    let mut blocks: Vec<Block> = Vec::new();
    if !recipe.menu.is_empty() {
        blocks.push(Block::Paragraph(recipe.menu.clone()));
    }
    blocks.extend(recipe.story.iter().cloned().map(Block::Paragraph));
    blocks
}

fn amounts(recipe: &Recipe) -> Vec<Block> {
    if recipe.lines.is_empty() {
        return Vec::new();
    }
    let written_in_ml = recipe
        .lines
        .iter()
        .all(|line| line.ml.is_empty() || line.amount == line.ml);
    let mut columns = vec![Column::words("Ingredient", 1.0)];
    if !written_in_ml {
        columns.push(Column::figures("measure"));
    }
    columns.extend(["ml", "oz", "g"].map(Column::figures));
    let row = |line: &RecipeLine| {
        let mut cells = vec![with_how(line)];
        if !written_in_ml {
            let is_ml = line.amount == line.ml;
            cells.push(if is_ml {
                String::new()
            } else {
                line.amount.clone()
            });
        }
        cells.extend([&line.ml, &line.ounces, &line.grams].map(|cell| bare(cell)));
        if line.ml.is_empty() && written_in_ml {
            cells[1].clone_from(&line.amount);
        }
        cells
    };
    let rows = recipe.lines.iter().map(row).collect();
    let mut blocks = vec![
        Block::Heading("Ingredients".to_owned()),
        Block::Table { columns, rows },
    ];
    if !recipe.totals.is_empty() {
        blocks.push(Block::Small(recipe.totals.clone()));
    }
    blocks
}

/// The amount without its unit, which stands in the head.
fn bare(cell: &str) -> String {
    let units = [" ml", " oz", " g"];
    let found = units.iter().find_map(|unit| cell.strip_suffix(unit));
    found.unwrap_or(cell).to_owned()
}

fn with_how(line: &RecipeLine) -> String {
    let mut name = line.name.clone();
    if line.house_made && !name.contains("house-made") {
        name = format!("{name} (house-made)");
    }
    if line.how.is_empty() {
        name
    } else {
        format!("{name}, {}", line.how)
    }
}

fn numbered(items: &[String]) -> Option<Block> {
    (!items.is_empty()).then(|| Block::List {
        numbered: true,
        items: items.to_vec(),
    })
}

fn bullets(items: &[String]) -> Option<Block> {
    (!items.is_empty()).then(|| Block::List {
        numbered: false,
        items: items.to_vec(),
    })
}

fn headed(head: &str, block: Option<Block>) -> Vec<Block> {
    block.map_or_else(Vec::new, |block| {
        vec![Block::Heading(head.to_owned()), block]
    })
}

fn labelled(head: &str, words: &str) -> Option<Block> {
    (!words.is_empty()).then(|| Block::Paragraph(format!("{head}: {words}")))
}

/// Method, glass and garnish.
fn making(recipe: &Recipe) -> Vec<Block> {
    let mut blocks = headed("Method", numbered(&recipe.method));
    let mut beside = Vec::new();
    let tells_glass = !recipe.glass_lines.is_empty();
    if tells_glass {
        let words = recipe.glass_lines.join("; ");
        beside.push(format!("{}: {words}.", capital(&recipe.glass)));
    }
    let told = recipe.garnish.trim_end_matches('.').to_lowercase();
    let in_method = recipe
        .method
        .iter()
        .any(|step| step.to_lowercase().contains(&told));
    if !recipe.garnish.is_empty() && !in_method {
        beside.push(format!(
            "Garnish: {}.",
            recipe.garnish.trim_end_matches('.')
        ));
    }
    let head = match (tells_glass, beside.len()) {
        (true, 1) => "Glass",
        (true, _) => "Glass and garnish",
        (false, _) => "Garnish",
    };
    blocks.extend(headed(head, bullets(&beside)));
    blocks
}

/// Allergens and alcohol.
fn around(recipe: &Recipe) -> Vec<Block> {
    safety(recipe).into_iter().collect()
}

/// Allergens, alcohol and cautions in a box.
fn safety(recipe: &Recipe) -> Option<Block> {
    let mut safe = Vec::new();
    if !recipe.allergens.is_empty() {
        safe.push(Block::Paragraph(format!(
            "Allergens: {}",
            allergens(recipe)
        )));
    }
    safe.extend(recipe.alcohol.iter().cloned().map(Block::Paragraph));
    safe.extend(recipe.cautions.iter().cloned().map(Block::Small));
    (!safe.is_empty()).then_some(Block::Boxed(safe))
}

/// Two columns, of which a page may end between this and the next pair.
fn pair(left: Vec<Block>, right: Vec<Block>) -> Vec<Block> {
    if right.is_empty() {
        return left;
    }
    if left.is_empty() {
        return right;
    }
    vec![Block::Pair {
        left,
        right,
        share: 0.5,
    }]
}

/// The balance beside its classic.
fn chart(recipe: &Recipe) -> Vec<Block> {
    let Some(chart) = &recipe.chart else {
        return Vec::new();
    };
    let (width_mm, height_mm) = CHART_MM;
    let mut blocks = vec![
        Block::Heading("Balance".to_owned()),
        chart_block(chart, width_mm, height_mm),
    ];
    if !recipe.chart_words.is_empty() {
        blocks.push(Block::Small(recipe.chart_words.clone()));
    }
    blocks
}

/// Strength, sweet, sour and the others.
fn figures(recipe: &Recipe) -> Vec<Block> {
    if recipe.figures.is_empty() {
        return Vec::new();
    }
    let rows = recipe.figures.iter();
    vec![Block::Table {
        columns: vec![
            Column::words("Figure", 1.0),
            Column::figures("as served"),
            Column::figures("may be off"),
        ],
        rows: rows
            .map(|line| vec![line.name.clone(), line.value.clone(), line.note.clone()])
            .collect(),
    }]
}

fn allergens(recipe: &Recipe) -> String {
    recipe.allergens.join(", ")
}

fn house(recipe: &Recipe) -> Vec<Block> {
    if recipe.house_made.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![Block::Heading("Made in house".to_owned())];
    blocks.extend(recipe.house_made.iter().map(|card| {
        let mut inner = vec![Block::Heading(card.name.clone())];
        inner.extend(house_card(card));
        Block::Boxed(inner)
    }));
    blocks
}

fn house_card(card: &HouseCard) -> Vec<Block> {
    let mut blocks = vec![Block::Small(card.makes.clone())];
    let left = bullets(&card.inputs).into_iter().collect();
    let right = numbered(&card.steps).into_iter().collect();
    blocks.push(Block::Pair {
        left,
        right,
        share: 0.36,
    });
    blocks.extend(card.keeps.iter().cloned().map(Block::Small));
    blocks
}

/// Batch, preparation and cost.
fn service(recipe: &Recipe) -> Vec<Block> {
    let mut blocks = headed("Batch", bullets(&recipe.batch));
    blocks.extend(headed("Preparation", bullets(&recipe.prep)));
    blocks.extend(headed("Cost", bullets(&recipe.cost)));
    blocks
}

fn small(recipe: &Recipe) -> Vec<Block> {
    let mut blocks = Vec::new();
    if !recipe.sources.is_empty() {
        blocks.push(Block::Rule);
        blocks.push(Block::Small(recipe.sources.join(" ")));
    }
    blocks
}
