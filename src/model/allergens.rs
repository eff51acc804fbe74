//! Allergens as words separated by semicolons.

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

fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(';')
        .map(str::trim)
        .filter(|part| !part.is_empty())
}

/// Whether these words name the group, such as "tree nuts (almond)".
fn names(words: &str, group: &str) -> bool {
    let rest = words.strip_prefix(group);
    rest.is_some_and(|rest| rest.is_empty() || rest.starts_with(" ("))
}

/// Whether the text says that the group is in it.
pub fn holds_allergen(text: &str, group: &str) -> bool {
    words(text).any(|part| names(part, group))
}

/// Whether the text says that some makes hold the group.
pub fn may_hold_allergen(text: &str, group: &str) -> bool {
    words(text).any(|part| {
        part.strip_prefix(POSSIBLE)
            .is_some_and(|part| names(part, group))
    })
}

/// The text with the group added or taken out; all other words stay.
#[must_use]
pub fn set_allergen(text: &str, group: &str, held: bool) -> String {
    let kept = |part: &&str| {
        let sure = names(part, group);
        let possible = part
            .strip_prefix(POSSIBLE)
            .is_some_and(|part| names(part, group));
        // "none" no longer holds, and "possible" gives way to what is sure.
        !sure && !(held && (possible || part.starts_with("none")))
    };
    let mut parts: Vec<&str> = words(text).filter(kept).collect();
    if held {
        parts.push(group);
    }
    parts.join("; ")
}

#[cfg(test)]
mod tests {
    use super::{holds_allergen, may_hold_allergen, set_allergen};

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
}
