//! A sheet as Markdown: CommonMark with tables of pipes.

use super::markdown_text::{escaped, table};
use super::one_line::{one_line, with_unit};
use super::recipe::{HouseCard, Recipe};
use super::said::{facts, lines, lists, serving_lines};

/// The sheet as Markdown; nothing that a person wrote can become a mark, a link, HTML or a cell.
pub fn markdown(recipe: &Recipe) -> String {
    let mut out = Vec::new();
    let title = one_line(&recipe.title);
    let title = if title.is_empty() { "Untitled" } else { &title };
    out.push(format!("# {}", escaped(title)));
    let facts: Vec<String> = facts(recipe).iter().map(|fact| escaped(fact)).collect();
    out.push(facts.join(" · "));
    out.extend(lines(&recipe.story).iter().map(|part| escaped(part)));
    out.extend(ingredients(recipe));
    out.push(escaped(&recipe.totals));
    out.extend(section("Method", &numbered(&recipe.method)));
    let serving: Vec<String> = serving_lines(recipe)
        .iter()
        .map(|(name, text)| format!("- {name}: {}", escaped(text)))
        .collect();
    out.push(serving.join("\n"));
    if !recipe.house_made.is_empty() {
        out.push("## House-made".to_owned());
        out.extend(recipe.house_made.iter().flat_map(house_card));
    }
    out.extend(figures(recipe));
    out.push(escaped(&recipe.chart_words));
    for (head, lines) in lists(recipe) {
        out.extend(section(head, &bullets(&lines)));
    }
    out.retain(|block| !block.is_empty());
    let mut text = out.join("\n\n");
    text.push('\n');
    text
}

/// A head with its text; nothing without the text.
fn section(head: &str, text: &str) -> Vec<String> {
    if text.is_empty() {
        return Vec::new();
    }
    vec![format!("## {head}"), text.to_owned()]
}

fn bullets(texts: &[String]) -> String {
    let items = lines(texts);
    let items: Vec<String> = items
        .iter()
        .map(|line| format!("- {}", escaped(line)))
        .collect();
    items.join("\n")
}

fn numbered(texts: &[String]) -> String {
    let items = lines(texts);
    let items: Vec<String> = items
        .iter()
        .enumerate()
        .map(|(place, line)| format!("{}. {}", place + 1, escaped(line)))
        .collect();
    items.join("\n")
}

fn ingredients(recipe: &Recipe) -> Vec<String> {
    let rows: Vec<Vec<String>> = recipe
        .lines
        .iter()
        .map(|line| {
            vec![
                line.amount.clone(),
                line.name.clone(),
                with_unit(&line.ml, "ml"),
                with_unit(&line.ounces, "oz"),
                with_unit(&line.grams, "g"),
                line.how.clone(),
            ]
        })
        .collect();
    let heads = ["Amount", "Ingredient", "Volume", "Ounces", "Weight", "How"];
    section("Ingredients", &table(&heads, &rows))
}

fn figures(recipe: &Recipe) -> Vec<String> {
    let rows: Vec<Vec<String>> = recipe
        .figures
        .iter()
        .map(|figure| {
            vec![
                figure.name.clone(),
                figure.value.clone(),
                figure.note.clone(),
            ]
        })
        .collect();
    section("Figures", &table(&["Figure", "Value", "Note"], &rows))
}

fn house_card(card: &HouseCard) -> Vec<String> {
    vec![
        format!("### {}", escaped(&card.name)),
        escaped(&card.makes),
        bullets(&card.inputs),
        numbered(&card.steps),
        bullets(&card.keeps),
    ]
}
