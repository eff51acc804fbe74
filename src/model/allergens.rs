//! Allergens as words with semicolons between them.

/// The 14 groups of Annex II to Regulation (EU) No 1169/2011, in its order and in short words.
pub const EU_ALLERGENS: [&str; 14] = [
    "cereals containing gluten",
    "crustaceans",
    "eggs",
    "fish",
    "peanuts",
    "soybeans",
    "milk",
    "tree nuts",
    "celery",
    "mustard",
    "sesame",
    "sulphites",
    "lupin",
    "molluscs",
];

/// In front of a group that only some makes hold.
const POSSIBLE: &str = "possible ";

/// The words of a text, one by one: semicolons and commas stand between them, but not in brackets.
pub(super) fn allergen_words(text: &str) -> impl Iterator<Item = &str> {
    // An open bracket that is never closed must not swallow the groups behind it.
    let closed = text.matches('(').count() == text.matches(')').count();
    let mut depth = 0_usize;
    let is_between = move |letter: char| {
        match letter {
            '(' => depth += 1,
            ')' => depth = depth.saturating_sub(1),
            _ => {}
        }
        matches!(letter, ';' | ',') && (depth == 0 || !closed)
    };
    text.split(is_between)
        .map(str::trim)
        .filter(|part| !part.is_empty())
}

/// The text with its words between semicolons, if there are commas between any of them.
pub fn tidy_allergens(text: &str) -> String {
    let by_semicolon = text.split(';').map(str::trim);
    let by_semicolon = by_semicolon.filter(|part| !part.is_empty());
    if by_semicolon.eq(allergen_words(text)) {
        return text.to_owned();
    }
    allergen_words(text).collect::<Vec<_>>().join("; ")
}

/// Whether these words, in lower case, name the group, such as "tree nuts (almond)".
fn names(words: &str, group: &str) -> bool {
    let rest = words.strip_prefix(group);
    rest.is_some_and(|rest| rest.is_empty() || rest.starts_with(" ("))
}

/// Whether these words name the group for certain.
fn holds(words: &str, group: &str) -> bool {
    names(&words.to_lowercase(), group)
}

/// Whether these words say that some makes hold the group.
fn may_hold(words: &str, group: &str) -> bool {
    let words = words.to_lowercase();
    let words = words.strip_prefix(POSSIBLE);
    words.is_some_and(|words| names(words, group))
}

/// Whether these words say that there is none.
pub(super) fn says_none(words: &str) -> bool {
    words.to_lowercase().starts_with("none")
}

/// Whether the text says that the group is in it, whatever its case.
pub fn holds_allergen(text: &str, group: &str) -> bool {
    allergen_words(text).any(|part| holds(part, group))
}

/// Whether the text says that some makes hold the group.
pub fn may_hold_allergen(text: &str, group: &str) -> bool {
    allergen_words(text).any(|part| may_hold(part, group))
}

/// Whether the text rules all of these groups out; `None` when it does not say.
///
/// A group that only some makes hold is not ruled out, nor one that is named in the detail of
/// another. A blank text says nothing, and neither do own words that name no group of Annex II.
pub fn rules_out_allergens(text: &str, groups: &[&str]) -> Option<bool> {
    let mut all_known = true;
    let mut said = false;
    for part in allergen_words(text) {
        said = true;
        let words = part.to_lowercase();
        if says_none(&words) {
            continue;
        }
        if groups.iter().any(|group| words.contains(group)) {
            return Some(false);
        }
        let sure = words.strip_prefix(POSSIBLE).unwrap_or(&words);
        all_known &= EU_ALLERGENS.iter().any(|group| names(sure, group));
    }
    (said && all_known).then_some(true)
}

/// The text with the group added or taken out; all other words stay.
#[must_use]
pub fn set_allergen(text: &str, group: &str, held: bool) -> String {
    let kept = |part: &&str| {
        // "none" no longer holds, and "possible" gives way to what is sure.
        !holds(part, group) && !(held && (may_hold(part, group) || says_none(part)))
    };
    let mut parts: Vec<&str> = allergen_words(text).filter(kept).collect();
    if held {
        parts.push(group);
    }
    parts.join("; ")
}

#[cfg(test)]
mod tests {
    use super::{
        holds_allergen, may_hold_allergen, rules_out_allergens, set_allergen, tidy_allergens,
    };

    #[test]
    fn ticking_a_group_keeps_every_other_word() {
        let text = "tree nuts (almond); possible sulphites; own words";
        assert_eq!(
            set_allergen(text, "milk", true),
            "tree nuts (almond); possible sulphites; own words; milk"
        );
        assert_eq!(
            set_allergen(text, "tree nuts", false),
            "possible sulphites; own words"
        );
    }

    #[test]
    fn a_sure_group_takes_the_place_of_none_and_of_possible() {
        assert_eq!(set_allergen("none (tuber)", "milk", true), "milk");
        assert_eq!(
            set_allergen("possible sulphites", "sulphites", true),
            "sulphites"
        );
    }

    #[test]
    fn a_possible_group_is_not_held() {
        let text = "possible fish (fish gelatin)";
        assert!(!holds_allergen(text, "fish"));
        assert!(may_hold_allergen(text, "fish"));
        assert!(!holds_allergen("fishmeal", "fish"));
    }

    #[test]
    fn capitals_and_commas_hide_no_group() {
        let text = "Milk, EGGS (white, yolk), Possible Sulphites";
        assert!(holds_allergen(text, "milk") && holds_allergen(text, "eggs"));
        assert!(may_hold_allergen(text, "sulphites") && !holds_allergen(text, "sulphites"));
        assert_eq!(
            set_allergen(text, "milk", false),
            "EGGS (white, yolk); Possible Sulphites"
        );
        assert!(holds_allergen("tree nuts (almond, milk", "milk"));
        assert_eq!(
            tidy_allergens(text),
            "Milk; EGGS (white, yolk); Possible Sulphites"
        );
        assert_eq!(tidy_allergens("milk;eggs ;"), "milk;eggs ;");
    }

    #[test]
    fn only_what_is_said_rules_a_group_out() {
        let nuts = ["tree nuts", "peanuts"];
        assert_eq!(rules_out_allergens("none (tuber)", &nuts), Some(true));
        assert_eq!(rules_out_allergens("Milk; sulphites", &nuts), Some(true));
        assert_eq!(
            rules_out_allergens("Tree nuts (almond)", &nuts),
            Some(false)
        );
        assert_eq!(rules_out_allergens("possible peanuts", &nuts), Some(false));
        assert_eq!(
            rules_out_allergens("milk (with tree nuts)", &nuts),
            Some(false)
        );
        assert_eq!(rules_out_allergens(" ", &nuts), None);
        assert_eq!(rules_out_allergens("almonds, I think", &nuts), None);
    }
}
