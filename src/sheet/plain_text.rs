//! A sheet as plain text: for the clipboard and a message.

use super::one_line::{ingredient_text, one_line, with_unit};
use super::recipe::{HouseCard, Recipe};
use super::said::{facts, lines, lists, serving_lines};
use super::text_wrap::{PlainColumn, columns, hanging, places, wrapped};

/// Longest line, in places.
const MOST: usize = 78;

/// Columns of the ingredients: amount, name, ml, ounces, grams; together with the gaps they fill a line.
const INGREDIENTS: [PlainColumn; 5] = [left(16), left(28), right(8), right(8), right(8)];
/// Columns of the figures: name, value, note.
const FIGURES: [PlainColumn; 3] = [left(22), left(22), left(30)];

const fn left(most: usize) -> PlainColumn {
    PlainColumn { right: false, most }
}

const fn right(most: usize) -> PlainColumn {
    PlainColumn { right: true, most }
}

/// The sheet as text of even letters, at most 78 to a line, for the clipboard.
pub fn plain_text(recipe: &Recipe) -> String {
    let title = title(recipe);
    let mut out = vec![format!(
        "{title}\n{}",
        "=".repeat(places(&title).clamp(1, MOST))
    )];
    out.push(paragraph(&facts(recipe).join(" · ")));
    out.extend(recipe.story.iter().map(|part| paragraph(part)));
    out.push(ingredients(recipe));
    out.push(paragraph(&recipe.totals));
    out.push(headed("Method", &numbered(&recipe.method)));
    let serving = serving_lines(recipe);
    let serving = serving
        .iter()
        .map(|(name, text)| hanging(&format!("{:<11}", format!("{name}:")), text, MOST));
    out.push(serving.collect::<Vec<_>>().join("\n"));
    out.extend(recipe.house_made.iter().map(house_card));
    out.push(figures(recipe));
    out.push(paragraph(&recipe.chart_words));
    for (head, lines) in lists(recipe) {
        out.push(headed(head, &bullets(&lines)));
    }
    out.retain(|block| !block.is_empty());
    let mut text = out.join("\n\n");
    text.push('\n');
    text
}

/// The drink as a short card for a message: name, ingredients, how it is made, allergens.
pub fn message_text(recipe: &Recipe) -> String {
    let mut out = vec![title(recipe)];
    let amount = |line| {
        // One measure is enough on a phone.
        let bare = super::recipe::RecipeLine {
            ml: String::new(),
            grams: String::new(),
            ..line
        };
        ingredient_text(&bare)
    };
    out.extend(recipe.lines.iter().cloned().map(amount));
    let serving = serving_lines(recipe);
    out.extend(serving.iter().map(|(name, text)| format!("{name}: {text}")));
    let allergens = lines(&recipe.allergens);
    if !allergens.is_empty() {
        out.push(format!("Allergens: {}", allergens.join(", ")));
    }
    out.extend(lines(&recipe.cautions));
    out.retain(|line| !line.is_empty());
    out.join("\n")
}

fn title(recipe: &Recipe) -> String {
    let title = one_line(&recipe.title);
    if title.is_empty() {
        "Untitled".to_owned()
    } else {
        title
    }
}

fn paragraph(text: &str) -> String {
    wrapped(text, MOST).join("\n")
}

fn headed(head: &str, text: &str) -> String {
    if text.is_empty() {
        String::new()
    } else {
        format!("{head}\n{text}")
    }
}

fn bullets(texts: &[String]) -> String {
    let items = lines(texts);
    let items = items.iter().map(|line| hanging("- ", line, MOST));
    items.collect::<Vec<_>>().join("\n")
}

fn numbered(texts: &[String]) -> String {
    let items = lines(texts);
    let items = items
        .iter()
        .enumerate()
        .map(|(place, line)| hanging(&format!("{}. ", place + 1), line, MOST));
    items.collect::<Vec<_>>().join("\n")
}

fn ingredients(recipe: &Recipe) -> String {
    let rows: Vec<Vec<String>> = recipe
        .lines
        .iter()
        .map(|line| {
            let (name, how) = (one_line(&line.name), one_line(&line.how));
            let named = if how.is_empty() {
                name
            } else {
                format!("{name}, {how}")
            };
            vec![
                line.amount.clone(),
                named,
                with_unit(&line.ml, "ml"),
                with_unit(&line.ounces, "oz"),
                with_unit(&line.grams, "g"),
            ]
        })
        .collect();
    headed("Ingredients", &columns(&INGREDIENTS, &rows).join("\n"))
}

fn figures(recipe: &Recipe) -> String {
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
    headed("Figures", &columns(&FIGURES, &rows).join("\n"))
}

fn house_card(card: &HouseCard) -> String {
    let parts = [
        paragraph(&card.makes),
        bullets(&card.inputs),
        numbered(&card.steps),
        bullets(&card.keeps),
    ];
    let parts: Vec<String> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    let name = one_line(&card.name);
    headed(&format!("House-made: {name}"), &parts.join("\n"))
}
