//! Parts of a sheet that every text says alike, under the same heads.

use super::one_line::one_line;
use super::recipe::Recipe;

/// What stands below the title, each on its own: twist, family, maker, competition, trial, day.
pub(super) fn facts(recipe: &Recipe) -> Vec<String> {
    let twist = recipe.twist_of.as_deref().map(one_line);
    let twist = twist.filter(|of| !of.is_empty());
    let maker = recipe.maker.as_deref().map(one_line);
    let maker = maker.filter(|maker| !maker.is_empty());
    let entered = recipe.competition.as_deref().map(one_line);
    let (version, day) = (one_line(&recipe.version), one_line(&recipe.day));
    // A version often ends in its day already.
    let day = if version.ends_with(&day) {
        String::new()
    } else {
        day
    };
    let all = [
        twist.map_or_else(String::new, |of| format!("Twist on {of}")),
        one_line(&recipe.family),
        maker.map_or_else(String::new, |maker| format!("by {maker}")),
        entered.unwrap_or_default(),
        version,
        day,
    ];
    all.into_iter().filter(|fact| !fact.is_empty()).collect()
}

/// Lists that follow the recipe itself, with their heads; those with nothing to say are left out.
pub(super) fn lists(recipe: &Recipe) -> Vec<(&'static str, Vec<String>)> {
    let allergens: Vec<String> = recipe.allergens.iter().map(|one| one_line(one)).collect();
    let all = [
        ("Allergens", allergens),
        ("Cautions", lines(&recipe.cautions)),
        ("Alcohol and energy", lines(&recipe.alcohol)),
        ("Substitutes", lines(&recipe.substitutes)),
        ("Batch", lines(&recipe.batch)),
        ("Preparation", lines(&recipe.prep)),
        ("Cost", lines(&recipe.cost)),
        ("Menu", lines(std::slice::from_ref(&recipe.menu))),
        ("Sources", lines(&recipe.sources)),
    ];
    let said = all.into_iter().filter(|(_, lines)| !lines.is_empty());
    said.collect()
}

/// Kind of glass and what belongs to it, and the garnish.
pub(super) fn serving_lines(recipe: &Recipe) -> Vec<(&'static str, String)> {
    let glass: Vec<String> = lines(std::slice::from_ref(&recipe.glass))
        .into_iter()
        .chain(lines(&recipe.glass_lines))
        .collect();
    let all = [
        ("Technique", one_line(&recipe.technique)),
        ("Glass", glass.join("; ")),
        ("Garnish", one_line(&recipe.garnish)),
    ];
    let said = all.into_iter().filter(|(_, text)| !text.is_empty());
    said.collect()
}

/// Lines that say something, each on one line.
pub(super) fn lines(texts: &[String]) -> Vec<String> {
    let lines = texts.iter().map(|text| one_line(text));
    lines.filter(|line| !line.is_empty()).collect()
}
