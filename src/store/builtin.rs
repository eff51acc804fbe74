//! The built-in larder, classics, families and ranges, embedded in the program.

pub use super::builtin_rows::BuiltinError;
use super::builtin_rows::{Row, each_row};
use super::rule_file::built_in_rule_sets;
use crate::kitchen::is_egg;
use crate::model::{
    AcidBasis, Acids, Added, Amount, Basis, Classic, Confidence, Density, Dilution, Family,
    Ingredient, IngredientId, Method, Origin, Pour, PureAcid, Range, Region, Role, RuleSet, Source,
    Sources, SugarSplit, Technique,
};
use crate::units::Unit;
use std::collections::BTreeMap;
use std::sync::Arc;

/// Version of the built-in larder; raised whenever a figure changes.
pub const LARDER_VERSION: u32 = 3;
/// The demo document.
pub const DEMO: &str = include_str!("../../sample_data/demo.ron");

const LARDER: &str = include_str!("../../sample_data/larder.csv");
const CLASSICS: &str = include_str!("../../sample_data/classics.csv");
const POURS: &str = include_str!("../../sample_data/classic_pours.csv");
const FAMILIES: &str = include_str!("../../sample_data/families.csv");
const RANGES: &str = include_str!("../../sample_data/technique_ranges.csv");

/// Everything the program brings along.
#[derive(Clone, Debug)]
pub struct Builtin {
    /// Generic ingredients.
    pub larder: BTreeMap<IngredientId, Arc<Ingredient>>,
    /// Published classics.
    pub classics: Vec<Classic>,
    /// Family ratios with stated ingredients.
    pub families: Vec<Family>,
    /// Published ranges of served drinks.
    pub regions: Vec<Region>,
    /// Rules of invented competitions.
    pub rule_sets: Vec<Arc<RuleSet>>,
}

impl Builtin {
    /// Reads the embedded tables; fails only if the program itself is defective.
    pub fn load() -> Result<Self, BuiltinError> {
        let mut larder = BTreeMap::new();
        each_row("larder", LARDER, |row| {
            let id = IngredientId(row.text("id")?.to_owned());
            larder.insert(id, Arc::new(ingredient(row)?));
            Ok(())
        })?;
        let pours = classic_pours(&larder)?;
        let mut classics = Vec::new();
        each_row("classics", CLASSICS, |row| {
            classics.push(classic(row, &pours)?);
            Ok(())
        })?;
        let mut families = Vec::new();
        each_row("families", FAMILIES, |row| {
            families.push(family(row, &larder)?);
            Ok(())
        })?;
        Ok(Self {
            larder,
            classics,
            families,
            regions: regions()?,
            rule_sets: built_in_rule_sets().to_vec(),
        })
    }
}

fn ingredient(row: &Row<'_>) -> Result<Ingredient, BuiltinError> {
    let kind = row.text("kind")?.to_owned();
    let name = row.text("name")?.to_owned();
    let basis = match row.text("basis")? {
        "per_100g" => Basis::Per100G,
        "per_100ml" => Basis::Per100Ml,
        other => return Err(row.error("basis", other)),
    };
    let water_g = row.number("water_g")?;
    let mut salt_g = row.number("salt_g")?;
    if kind == "saline" && salt_g.is_none() {
        // All that is not water is salt.
        salt_g = water_g.map(|water| 100.0 - water);
    }
    let notes = row.text("notes")?;
    Ok(Ingredient {
        strength_pct_vol: row.range("abv_pct")?,
        sugar_g: row.range("sugar_g")?,
        split: SugarSplit {
            sucrose_g: row.number("sucrose_g")?,
            glucose_g: row.number("glucose_g")?,
            fructose_g: row.number("fructose_g")?,
            lactose_g: row.number("lactose_g")?,
            maltose_g: row.number("maltose_g")?,
        },
        acids: acids(row)?,
        acid_basis: match row.text("acid_basis")? {
            "total" => AcidBasis::Total,
            _ => AcidBasis::Titrated,
        },
        ph: ph(row)?,
        fat_g: row.number("fat_g")?,
        protein_g: row.number("protein_g")?,
        salt_g,
        gum_g: row.number("gum_g")?,
        starch_g: row.number("starch_g")?,
        water_g,
        pure_acid: pure_acid(&kind, &name),
        density: density(row)?,
        piece_g: row.number("piece_g")?,
        co2_g_per_l: row.number("co2_g_per_l")?,
        bitter_per_ml: row.number("bitter_per_ml")?,
        allergens: row.text("allergens_eu_annex_ii")?.to_owned(),
        notes: notes
            .split(';')
            .map(|word| word.trim().to_owned())
            .filter(|word| !word.is_empty())
            .collect(),
        sources: sources(row)?,
        confidence: match row.text("confidence")? {
            "high" => Confidence::High,
            "medium" => Confidence::Medium,
            _ => Confidence::Low,
        },
        note: row.text("note")?.to_owned(),
        role: role(row.text("role")?),
        origin: Origin::BuiltIn {
            larder_version: LARDER_VERSION,
        },
        name,
        kind,
        basis,
        ..Ingredient::default()
    })
}

fn acids(row: &Row<'_>) -> Result<Acids, BuiltinError> {
    Ok(Acids {
        citric: row.range("citric_g_per_100ml")?,
        malic: row.range("malic_g_per_100ml")?,
        tartaric: row.range("tartaric_g_per_100ml")?,
        acetic: row.range("acetic_g_per_100ml")?,
        lactic: row.range("lactic_g_per_100ml")?,
        phosphoric: row.range("phosphoric_g_per_100ml")?,
        ..Acids::default()
    })
}

/// The typical pH is the midpoint of the range.
fn ph(row: &Row<'_>) -> Result<Option<Range>, BuiltinError> {
    let (low, high) = (row.number("ph_low")?, row.number("ph_high")?);
    Ok(low.or(high).map(|either| {
        let low = low.unwrap_or(either);
        let high = high.unwrap_or(either);
        Range {
            low,
            typical: 0.5 * (low + high),
            high,
        }
    }))
}

/// A density counts as measured when its source is a weight table or a value read somewhere.
fn density(row: &Row<'_>) -> Result<Option<Density>, BuiltinError> {
    let source = row.text("src_density")?;
    let measured =
        source.starts_with("a:") || (source.starts_with("b:SR27") && !source.contains("CALC"));
    Ok(row
        .number("density_g_per_ml")?
        .map(|g_per_ml| Density { g_per_ml, measured }))
}

fn sources(row: &Row<'_>) -> Result<Sources, BuiltinError> {
    Ok(Sources {
        strength: row.text("src_abv")?.to_owned(),
        sugar: row.text("src_sugar")?.to_owned(),
        acid: row.text("src_acid")?.to_owned(),
        ph: row.text("src_ph")?.to_owned(),
        density: row.text("src_density")?.to_owned(),
        other: row.text("src_other")?.to_owned(),
    })
}

fn pure_acid(kind: &str, name: &str) -> Option<PureAcid> {
    if kind != "acid powder" {
        return None;
    }
    [
        ("citric", PureAcid::Citric),
        ("malic", PureAcid::Malic),
        ("tartaric", PureAcid::Tartaric),
        ("ascorbic", PureAcid::Ascorbic),
    ]
    .into_iter()
    .find_map(|(word, acid)| name.contains(word).then_some(acid))
}

fn role(word: &str) -> Role {
    Role::ALL
        .into_iter()
        .find(|role| role.name() == word)
        .unwrap_or_default()
}

/// A published pour with the name of its ingredient.
type NamedPours = BTreeMap<String, Vec<(String, Pour, bool)>>;

fn classic_pours(
    larder: &BTreeMap<IngredientId, Arc<Ingredient>>,
) -> Result<NamedPours, BuiltinError> {
    let mut all = NamedPours::new();
    each_row("classic_pours", POURS, |row| {
        let id = IngredientId(row.text("ingredient_id")?.to_owned());
        let item = larder
            .get(&id)
            .ok_or_else(|| row.error("ingredient_id", "not in the larder"))?;
        let mut pour = Pour::of(&id, 0.0, item.role);
        let (ml, grams) = (row.number("ml")?, row.number("g")?);
        let unit = row.text("unit")?;
        pour.unit = match unit {
            "ml" => Unit::Ml,
            "bar spoon" => Unit::BarSpoon,
            "teaspoon" => Unit::Teaspoon,
            "dash" => Unit::Dash,
            "drop" | "drops" => Unit::Drop,
            _ if grams.is_some() => Unit::Gram,
            _ => Unit::Ml,
        };
        // Grams count where both are given.
        pour.amount = match (grams, ml) {
            (Some(grams), _) => Amount::Grams(grams),
            (None, Some(ml)) => Amount::Ml(ml),
            (None, None) => {
                Amount::Words(format!("{} {unit}", row.text("amount")?).trim().to_owned())
            }
        };
        if matches!(pour.amount, Amount::Grams(_)) {
            pour.unit = Unit::Gram;
        }
        pour.added = match row.text("added")? {
            "after" => Added::After,
            "rinse" => Added::Rinse,
            _ => Added::With,
        };
        // Dashes and drops season, and egg comes by the piece: they start locked.
        pour.locked = matches!(pour.unit, Unit::Dash | Unit::Drop) || is_egg(item);
        row.text("note")?.clone_into(&mut pour.note);
        // Leaves, slices and pinches bring no liquid worth counting.
        let matters = !matches!(unit, "leaf" | "slice" | "pinch");
        all.entry(row.text("classic_id")?.to_owned())
            .or_default()
            .push((item.name.clone(), pour, matters));
        Ok(())
    })?;
    Ok(all)
}

fn classic(row: &Row<'_>, pours: &NamedPours) -> Result<Classic, BuiltinError> {
    let id = row.text("id")?;
    let lines = pours
        .get(id)
        .ok_or_else(|| row.error("id", "has no pours"))?;
    let method = method_of(row, "dilution_rule")?;
    let dilution = row
        .number("ice_g")?
        .map_or(Dilution::ByMethod, Dilution::IceGrams);
    Ok(Classic {
        id: id.into(),
        name: row.text("name")?.to_owned(),
        family: row.text("family")?.to_owned(),
        method_text: row.text("technique")?.to_owned(),
        technique: Technique::new(method, dilution),
        glass: row.text("glass")?.to_owned(),
        glass_ml: row.number("glass_ml")?.unwrap_or(180.0),
        garnish: row.text("garnish")?.to_owned(),
        source: row.text("source")?.to_owned(),
        note: row.text("note")?.to_owned(),
        unstated: lines
            .iter()
            .filter(|(_, pour, matters)| *matters && matches!(pour.amount, Amount::Words(_)))
            .map(|(name, _, _)| name.clone())
            .collect(),
        pours: lines.iter().map(|(_, pour, _)| pour.clone()).collect(),
    })
}

fn method_of(row: &Row<'_>, column: &str) -> Result<Method, BuiltinError> {
    Ok(match row.text(column)? {
        "shaken" => Method::Shaken,
        "stirred" => Method::Stirred,
        "built" => Method::Built,
        "blended" => Method::Blended,
        "thrown" => Method::Thrown,
        "swizzled" => Method::Swizzled,
        "none" => Method::NoIce,
        other => return Err(row.error(column, &format!("unknown technique \"{other}\""))),
    })
}

fn family(
    row: &Row<'_>,
    larder: &BTreeMap<IngredientId, Arc<Ingredient>>,
) -> Result<Family, BuiltinError> {
    let after: Vec<&str> = row.text("after")?.split(';').map(str::trim).collect();
    let mut pours = Vec::new();
    for part in row.text("pours")?.split(';') {
        let (id, ml) = part
            .trim()
            .split_once('=')
            .ok_or_else(|| row.error("pours", part))?;
        let ml: f64 = ml.parse().map_err(|_| row.error("pours", part))?;
        let key = IngredientId(id.to_owned());
        let item = larder
            .get(&key)
            .ok_or_else(|| row.error("pours", &format!("{id} is not in the larder")))?;
        let mut pour = Pour::of(&key, ml, item.role);
        if after.contains(&id) {
            pour.added = Added::After;
        }
        pour.locked = item.role == Role::Aroma && ml < 4.0 || is_egg(item);
        pours.push(pour);
    }
    Ok(Family {
        id: row.text("id")?.to_owned(),
        name: row.text("family")?.to_owned(),
        parts: row.text("parts")?.to_owned(),
        technique: Technique::new(method_of(row, "technique")?, Dilution::ByMethod),
        glass: row.text("glass")?.to_owned(),
        source: row.text("source")?.to_owned(),
        pours,
    })
}

/// Boxes on the map: only techniques of which sugar, acid and strength are all known.
fn regions() -> Result<Vec<Region>, BuiltinError> {
    type Span = (Option<f64>, Option<f64>, Option<f64>);
    let mut spans: BTreeMap<(String, String), Span> = BTreeMap::new();
    let mut facts: Vec<(String, String, bool)> = Vec::new();
    each_row("technique_ranges", RANGES, |row| {
        let technique = row.text("technique")?.to_owned();
        let span = (
            row.number("low")?,
            row.number("typical")?,
            row.number("high")?,
        );
        if !facts.iter().any(|(known, _, _)| *known == technique) {
            let from_memory = row.text("from_memory")? == "yes";
            facts.push((
                technique.clone(),
                row.text("source")?.to_owned(),
                from_memory,
            ));
        }
        spans.insert((technique, row.text("quantity")?.to_owned()), span);
        Ok(())
    })?;
    let span = |technique: &str, quantity: &str| {
        let (low, typical, high) = spans.get(&(technique.to_owned(), quantity.to_owned()))?;
        Some((low.or(*typical)?, high.or(*typical)?))
    };
    Ok(facts
        .into_iter()
        .filter_map(|(technique, source, from_memory)| {
            Some(Region {
                sugar_g_per_l: span(&technique, "sugar_g_per_l")?,
                acid_g_per_l: span(&technique, "acid_g_per_l")?,
                strength_pct_vol: span(&technique, "served_abv_pct")?,
                technique,
                source,
                from_memory,
            })
        })
        .collect())
}

impl Builtin {
    /// Ingredients that a list of pours needs, to be copied into a document.
    pub fn ingredients_of(&self, pours: &[Pour]) -> BTreeMap<IngredientId, Arc<Ingredient>> {
        pours
            .iter()
            .filter_map(|pour| match &pour.source {
                Source::Ingredient(id) => Some((id.clone(), Arc::clone(self.larder.get(id)?))),
                Source::Preparation { .. } | Source::Lot(_) => None,
            })
            .collect()
    }
}
