//! What was found under one rule.

use crate::model::Tick;

/// Whether a rule is kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RuleVerdict {
    /// It is not.
    Broken,
    /// A figure or a choice is missing.
    Unknown,
    /// A person has to look.
    Asked,
    /// It is.
    Kept,
}

impl RuleVerdict {
    /// The word on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Broken => "broken",
            Self::Unknown => "not known",
            Self::Asked => "to look at",
            Self::Kept => "kept",
        }
    }
}

/// A place where something of a finding is entered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Field {
    /// Name of the drink.
    Name,
    /// Who made it.
    Maker,
    /// The story.
    Story,
    /// The pours.
    Pours,
    /// Technique and method.
    Method,
    /// The glass.
    Glass,
    /// The garnish.
    Garnish,
    /// House-made ingredients.
    HouseMade,
    /// Allergens of the ingredients.
    Allergens,
    /// Which ingredient is the product.
    Products,
    /// The stage: steps and rehearsals.
    Stage,
    /// The service it is prepared for.
    Service,
}

impl Field {
    /// The words on a button that leads there.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Name => "Go to the name",
            Self::Maker => "Go to the maker",
            Self::Story => "Go to the story",
            Self::Pours => "Go to the pours",
            Self::Method => "Go to the method",
            Self::Glass => "Go to the glass",
            Self::Garnish => "Go to the garnish",
            Self::HouseMade => "Go to house-made",
            Self::Allergens => "Go to the larder",
            Self::Products => "Choose the product",
            Self::Stage => "Go to the stage",
            Self::Service => "Go to the service",
        }
    }
}

/// What mends a broken rule with one press.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Act {
    /// Pours this much at this place, in the pour's own measure (ml, g or pieces).
    Pour {
        /// Place of the pour.
        place: usize,
        /// New amount.
        amount: f64,
    },
    /// Makes so many identical drinks on the stage.
    Serves(u32),
    /// Shows where it is entered.
    Go(Field),
}

/// What was found under one rule.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// Key of the rule in its set.
    pub rule: String,
    /// What the rule asks, in words with numbers and units.
    pub title: String,
    /// Whether it is kept.
    pub verdict: RuleVerdict,
    /// What was found.
    pub reason: String,
    /// What to do about it; empty for a rule that is kept.
    pub remedy: String,
    /// Places of the pours that it is about.
    pub pours: Vec<usize>,
    /// What mends it with one press.
    pub act: Option<Act>,
    /// Whether a person says if it is kept; with the tick that counts.
    pub asks_a_person: bool,
    /// Who looked and when; only while the rule and the reason read as they did then.
    pub ticked: Option<Tick>,
}

/// Longest reason that a tick keeps, in characters: more would not go into a file.
const REASON_CHARS: usize = 2_000;

/// What a tick keeps of the reason of a finding: its beginning, where it is very long.
pub fn reason_kept(reason: &str) -> &str {
    let end = reason.char_indices().nth(REASON_CHARS);
    reason
        .get(..end.map_or(reason.len(), |(at, _)| at))
        .unwrap_or(reason)
}

/// "11 kept, 1 broken, 3 to look at"; "no rules" without any.
pub fn findings_summary(findings: &[Finding]) -> String {
    let order = [
        RuleVerdict::Kept,
        RuleVerdict::Broken,
        RuleVerdict::Asked,
        RuleVerdict::Unknown,
    ];
    let parts: Vec<String> = order
        .into_iter()
        .filter_map(|verdict| {
            let count = findings.iter().filter(|one| one.verdict == verdict).count();
            (count > 0).then(|| format!("{count} {}", verdict.name()))
        })
        .collect();
    if parts.is_empty() {
        return "no rules".to_owned();
    }
    parts.join(", ")
}
