//! What is handed in beside the recipe: words, price, who may read what, ticks under the rules.

use super::ids::{IngredientId, RuleSetId};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Size of the paper a sheet is laid out on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum PaperSize {
    /// 210 × 297 mm (ISO 216).
    #[default]
    A4,
    /// 8.5 × 11 in.
    Letter,
}

impl PaperSize {
    /// Every size, in menu order.
    pub const ALL: [Self; 2] = [Self::A4, Self::Letter];

    /// The word on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => "Letter",
        }
    }
}

/// For whom a version of the sheet is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Reader {
    /// The judges of a competition.
    #[default]
    Judges,
    /// The bar that makes it.
    Bar,
    /// Somebody who makes it at home.
    Home,
}

impl Reader {
    /// Every reader, in menu order.
    pub const ALL: [Self; 3] = [Self::Judges, Self::Bar, Self::Home];

    /// The words on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Judges => "judges",
            Self::Bar => "bar",
            Self::Home => "home",
        }
    }
}

/// Who may read a part of the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Openness {
    /// Nobody: it stays in the document.
    Private,
    /// The bar that makes it.
    Bar,
    /// Everybody: judges and guests too.
    Public,
}

impl Openness {
    /// Every level, from the most closed.
    pub const ALL: [Self; 3] = [Self::Private, Self::Bar, Self::Public];

    /// The word on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Private => "private",
            Self::Bar => "bar",
            Self::Public => "public",
        }
    }

    /// Whether a reader may see what is open so far.
    pub fn lets(self, reader: Reader) -> bool {
        match self {
            Self::Private => false,
            Self::Bar => reader == Reader::Bar,
            Self::Public => true,
        }
    }
}

/// A part of the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum SheetPart {
    /// Who made it.
    Maker,
    /// The story.
    Story,
    /// Ingredients with amounts.
    Amounts,
    /// Method.
    Method,
    /// Glass, ice and wash line.
    Glass,
    /// Garnish.
    Garnish,
    /// House-made ingredients in short.
    HouseMade,
    /// The balance chart.
    Chart,
    /// Strength, sweetness, sourness, dilution, temperature.
    Figures,
    /// Allergens and cautions.
    Allergens,
    /// Pure alcohol and standard drinks, energy.
    Alcohol,
    /// What may stand in for what.
    Substitutes,
    /// Batch line.
    Batch,
    /// Preparation line.
    Prep,
    /// Cost per serve and pour cost.
    Cost,
    /// Menu line with its price.
    Menu,
    /// Where the figures come from.
    Sources,
}

impl SheetPart {
    /// Every part, in the order of the sheet.
    pub const ALL: [Self; 17] = [
        Self::Maker,
        Self::Story,
        Self::Amounts,
        Self::Method,
        Self::Glass,
        Self::Garnish,
        Self::HouseMade,
        Self::Chart,
        Self::Figures,
        Self::Allergens,
        Self::Alcohol,
        Self::Substitutes,
        Self::Batch,
        Self::Prep,
        Self::Cost,
        Self::Menu,
        Self::Sources,
    ];

    /// The words on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Maker => "maker",
            Self::Story => "story",
            Self::Amounts => "ingredients",
            Self::Method => "method",
            Self::Glass => "glass",
            Self::Garnish => "garnish",
            Self::HouseMade => "house-made",
            Self::Chart => "balance chart",
            Self::Figures => "figures",
            Self::Allergens => "allergens",
            Self::Alcohol => "alcohol and energy",
            Self::Substitutes => "substitutes",
            Self::Batch => "batch",
            Self::Prep => "preparation",
            Self::Cost => "cost",
            Self::Menu => "menu line",
            Self::Sources => "sources",
        }
    }

    /// Who may read it unless somebody says otherwise.
    pub const fn usually(self) -> Openness {
        match self {
            Self::Cost => Openness::Private,
            Self::Batch | Self::Prep => Openness::Bar,
            _ => Openness::Public,
        }
    }
}

/// A rule that only a person can judge, ticked.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Tick {
    /// Who looked.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub by: String,
    /// Day, ISO 8601.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub on: String,
    /// The rule as it read then: another wording needs another look.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub rule: String,
    /// What was found then: another drink needs another look. `None` in files that do not keep it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reason: Option<String>,
}

/// What is handed in beside the recipe itself.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Entry {
    /// Who made it.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub maker: String,
    /// Sheets and labels leave the maker out, for judging without names.
    #[serde(skip_serializing_if = "core::ops::Not::not")]
    pub hide_maker: bool,
    /// The story.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub story: String,
    /// Method, a step each; by the technique when empty.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub method: Vec<String>,
    /// Garnish.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub garnish: String,
    /// What may stand in for what, a line each.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub substitutes: Vec<String>,
    /// A line for the menu.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub menu_line: String,
    /// Price on the menu, in the document's currency, tax included.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub price: Option<f64>,
    /// Tax in that price, % on top of the net price.
    #[serde(skip_serializing_if = "is_nothing")]
    pub tax_pct: f64,
    /// Parts whose readers differ from the usual ones.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub openness: BTreeMap<SheetPart, Openness>,
    /// Paper of the sheet.
    #[serde(skip_serializing_if = "is_a4")]
    pub paper: PaperSize,
    /// The rules it is entered under.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rules: Option<RuleSetId>,
    /// Which ingredient is the product that the rules ask for, by the rules' word for it.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub products: BTreeMap<String, IngredientId>,
    /// Rules that a person looked at, by the key of the rule.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub ticked: BTreeMap<String, Tick>,
}

impl Entry {
    /// Who may read a part.
    pub fn open_to(&self, part: SheetPart) -> Openness {
        let said = self.openness.get(&part).copied();
        said.unwrap_or(part.usually())
    }

    pub(super) fn is_blank(&self) -> bool {
        *self == Self::default()
    }
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "the serializer hands a reference"
)]
fn is_nothing(value: &f64) -> bool {
    *value == 0.0
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "the serializer hands a reference"
)]
fn is_a4(paper: &PaperSize) -> bool {
    *paper == PaperSize::A4
}
