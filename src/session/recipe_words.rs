//! The words of an imported recipe, cut to what a document holds.

use crate::model::Entry;
use crate::store::ImportedRecipe;

/// Longest name of a drink, in characters.
const MAX_NAME: usize = 200;
/// Longest field, most steps and longest story that a document holds.
const MAX_TEXT: usize = 4_000;
const MAX_STEPS: usize = 200;
const MAX_STORY: usize = 200_000;

/// The name of the drink and the words of its sheet.
///
/// What is too long for its field is cut; all of it then stands at the end of the story.
pub(super) fn fitted(imported: &ImportedRecipe, notices: &mut Vec<String>) -> (String, Entry) {
    let mut rest = Vec::new();
    let mut fit = |field: &str, text: &str, most: usize| {
        let (kept, cut) = parted(text, most);
        if !cut.is_empty() {
            notices.push(format!(
                "{field}: is longer than {most} characters; all of it stands in the story"
            ));
            rest.push(format!("{field}: {text}"));
        }
        kept.to_owned()
    };
    let name = fit("name", &imported.name, MAX_NAME);
    let garnish = fit("garnish", &imported.garnish, MAX_TEXT);
    let maker = fit("author", &imported.maker, MAX_TEXT);
    let mut method: Vec<String> = imported
        .method
        .iter()
        .flat_map(|step| pieces(step))
        .collect();
    if method.len() > MAX_STEPS {
        notices.push(format!(
            "recipeInstructions: holds more than {MAX_STEPS} steps; the others stand in the story"
        ));
        rest.extend(method.drain(MAX_STEPS..));
    }
    let long = imported.lines.iter();
    let long = long.filter(|line| line.text.chars().count() > MAX_NAME);
    rest.extend(long.map(|line| line.text.clone()));
    let entry = Entry {
        maker,
        story: story(&imported.story, rest, notices),
        method,
        garnish,
        ..Entry::default()
    };
    (name, entry)
}

/// The story, and behind it what had no room elsewhere.
fn story(own: &str, rest: Vec<String>, notices: &mut Vec<String>) -> String {
    let parts: Vec<String> = [own.to_owned()]
        .into_iter()
        .chain(rest)
        .filter(|part| !part.is_empty())
        .collect();
    let whole = parts.join("\n\n");
    let (story, cut) = parted(&whole, MAX_STORY);
    if !cut.is_empty() {
        notices.push(format!(
            "story: holds {MAX_STORY} characters at most; the last {} were left out",
            cut.chars().count()
        ));
    }
    story.to_owned()
}

/// The first characters of a text and the others.
fn parted(text: &str, most: usize) -> (&str, &str) {
    let end = text.char_indices().nth(most).map(|(place, _)| place);
    text.split_at(end.unwrap_or(text.len()))
}

fn pieces(step: &str) -> Vec<String> {
    let mut found = Vec::new();
    let mut rest = step;
    while !rest.is_empty() {
        let (piece, more) = parted(rest, MAX_TEXT);
        found.push(piece.to_owned());
        rest = more;
    }
    found
}
