//! A trial made for many: what goes into the batch, what is added on the day, what it takes.

use super::allergens::Frozen;
use super::bottled::{Bottled, bottled};
use super::error::ServiceError;
use super::garnished::{garnished, pieces_said};
use super::needs::{Demand, Needs, needs};
use super::on_the_day::{Lives, OnTheDay, on_the_day};
use super::sources::pieces_weigh;
use crate::balance::{Drink, Pantry, amount_in_grams};
use crate::kitchen::{Contents, ShelfClass, believed_ph, shelf_class};
use crate::model::{
    Added, Amount, Document, Ingredient, IngredientId, Pour, ServicePlan, Source, Spec, Trial,
};
use crate::physics::Composition;
use crate::units::{Measures, Unit, number, show};
use std::collections::BTreeMap;
use std::sync::Arc;

/// More drops or dashes than this nobody counts (our convention).
const MOST_COUNTED: f64 = 20.0;

/// One line of a batch.
#[derive(Clone, Debug)]
pub struct BatchLine {
    /// Place in the trial's list of pours; `None` for a garnish that only the entry names.
    pub pour: Option<usize>,
    /// What is poured.
    pub source: Source,
    /// The row that describes it.
    pub row: IngredientId,
    /// Name to show.
    pub name: String,
    /// The unit it is written in.
    pub unit: Unit,
    /// In one drink, in its own measure (ml, g or pieces); `None` for words.
    pub each: Option<f64>,
    /// For all drinks, spares included, in its own measure; `None` for words.
    pub amount: Option<f64>,
    /// For all drinks, ml at 20 °C; `None` where no amount is known.
    pub ml: Option<f64>,
    /// For all drinks, g; `None` where no amount is known. A rinse counts in full, and a garnish made in
    /// the house by the piece even where it is given in words.
    pub grams: Option<f64>,
    /// The words of a recipe that gives no amount.
    pub words: String,
    /// Why it is added on the day; `None` for what goes into the batch.
    pub on_the_day: Option<OnTheDay>,
    contents: Option<Arc<Contents>>,
}

impl BatchLine {
    /// The amount for all drinks as text in the unit it is written in; "5.3 ml (106 drops)" where
    /// nobody would count them.
    pub fn amount_text(&self, measures: &Measures) -> String {
        let Some(amount) = self.amount else {
            return self.words.clone();
        };
        let one = self.unit.base_per_unit(measures);
        let is_counted = matches!(self.unit, Unit::Drop | Unit::Dash);
        if !is_counted || amount / one <= MOST_COUNTED {
            return show(amount, self.unit, measures);
        }
        let count = show((amount / one).round() * one, self.unit, measures);
        format!("{} ml ({count})", number(amount, 1))
    }

    /// What it brings, where its amount and its contents are known.
    pub(super) fn composition(&self) -> Option<Composition> {
        let contents = self.contents.as_ref()?;
        self.grams.map(|grams| contents.per_gram.scaled(grams))
    }
}

/// What is mixed beforehand, without any water from ice.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mix {
    /// Mass, g.
    pub grams: f64,
    /// Volume of the mixture, ml at 20 °C.
    pub ml: f64,
    /// Volumes of its parts before they are mixed, ml at 20 °C: a mixture of spirit and water is
    /// smaller than that.
    pub parts_ml: f64,
    /// Strength, % vol.
    pub strength_pct_vol: f64,
    /// For one drink, ml at 20 °C.
    pub each_ml: f64,
}

/// A trial made for many.
#[derive(Clone, Debug)]
pub struct Batch {
    /// Name of the drink.
    pub name: String,
    /// Drinks that are served.
    pub serves: u32,
    /// Drinks that are made: with the spare; not rounded.
    pub made: f64,
    /// What goes in, in the order of the recipe.
    pub lines: Vec<BatchLine>,
    /// What is mixed beforehand; `None` when nothing is.
    pub mix: Option<Mix>,
    /// The same with its water, in bottles; `None` when it is not bottled or nothing is mixed.
    pub bottled: Option<Bottled>,
    /// House-made ingredients that have to be made, and what has to be bought.
    pub needs: Needs,
    /// Pours without an amount, in words.
    pub uncounted: Vec<String>,
    /// What batches in the house are batches of, by their own rows.
    pub(super) asked_for: BTreeMap<IngredientId, IngredientId>,
    /// Copies of rows that the trial keeps once it is tasted.
    pub(super) frozen: Frozen,
}

impl Batch {
    /// What goes into the batch.
    pub fn mixed(&self) -> impl Iterator<Item = &BatchLine> {
        self.lines.iter().filter(|line| line.on_the_day.is_none())
    }

    /// The row that a line is asked for by: of a batch in the house what it is a batch of.
    pub(super) fn asked<'a>(&'a self, row: &'a IngredientId) -> &'a IngredientId {
        self.asked_for.get(row).unwrap_or(row)
    }

    /// How what is mixed beforehand keeps, with its water.
    pub(super) fn mix_class(&self) -> ShelfClass {
        let water = self.bottled.map_or(0.0, |bottled| bottled.water_g);
        let whole = mixed(&self.lines) + Composition::water(water);
        shelf_class(&whole, believed_ph(&whole)).class
    }

    /// What is added when it is served.
    pub fn added_on_the_day(&self) -> impl Iterator<Item = &BatchLine> {
        self.lines.iter().filter(|line| line.on_the_day.is_some())
    }
}

/// Works a trial out for so many drinks as the plan says, with its spare.
///
/// Fails for a plan without drinks, where the trial cannot be resolved, and as the preparations do.
pub fn batch(
    document: &Document,
    spec: &Spec,
    trial: &Trial,
    plan: &ServicePlan,
) -> Result<Batch, ServiceError> {
    if plan.serves == 0 {
        return Err(ServiceError::field("serves", "must be 1 or more"));
    }
    let made = f64::from(plan.serves) * (1.0 + plan.spare_pct / 100.0);
    let mut pantry = Pantry::default();
    let drink = Drink::of_trial(document, trial, &mut pantry)?;
    let served = drink.served()?;
    let lines = lines(document, (spec, trial), plan, (made, &mut pantry));
    let mix = mix(&lines, made);
    let water = plan.bottling.on.then_some((&served, &plan.bottling));
    let bottled = water
        .zip(mix.as_ref())
        .and_then(|((served, bottling), mix)| bottled(&lines, served, bottling, (made, mix)));
    let demands: Vec<Demand<'_>> = lines
        .iter()
        .map(|line| Demand {
            source: &line.source,
            grams: line.grams.unwrap_or(0.0),
            used_for: &spec.name,
        })
        .collect();
    Ok(Batch {
        name: spec.name.clone(),
        serves: plan.serves,
        made,
        mix,
        bottled,
        needs: needs(document, &demands, plan)?,
        uncounted: uncounted(&lines),
        asked_for: asked_for(document, &lines),
        frozen: trial.frozen.clone(),
        lines,
    })
}

/// Every pour, then every garnish that only the entry names.
fn lines(
    document: &Document,
    (spec, trial): (&Spec, &Trial),
    plan: &ServicePlan,
    (made, pantry): (f64, &mut Pantry),
) -> Vec<BatchLine> {
    let lives = Lives::of(document, document.preparations.keys());
    let mut lines = Vec::with_capacity(trial.pours.len());
    for (place, pour) in trial.poured() {
        let Some(settled) = document.settle(trial, pour) else {
            continue;
        };
        let contents = pantry.contents(settled.ingredient).ok();
        let row = (settled.id, settled.ingredient.as_ref());
        let mut line = line(document, pour, row, contents, made);
        line.pour = Some(place);
        settled.name.clone_into(&mut line.name);
        line.on_the_day = on_the_day(pour, row, plan, &lives);
        lines.push(line);
    }
    lines.extend(garnished(document, spec, &lines).into_iter().map(|pour| {
        let row = document
            .row_of(&pour.source)
            .cloned()
            .unwrap_or_else(|| "".into());
        let item = document.ingredients.get(&row).cloned().unwrap_or_default();
        let contents = pantry.contents(&item).ok();
        let mut line = line(document, &pour, (&row, &item), contents, made);
        line.on_the_day = Some(OnTheDay::Garnish);
        line
    }));
    lines
}

fn line(
    document: &Document,
    pour: &Pour,
    (row, item): (&IngredientId, &Ingredient),
    contents: Option<Arc<Contents>>,
    made: f64,
) -> BatchLine {
    let each = pour.amount.value();
    let weighs = contents
        .as_ref()
        .and_then(|contents| amount_in_grams(pour, item, contents));
    let pieces = match &pour.amount {
        Amount::Pieces(pieces) => Some(*pieces),
        Amount::Words(words) => pieces_said(document, row, words),
        Amount::Ml(_) | Amount::Grams(_) => None,
    };
    let grams = weighs.or_else(|| Some(pieces? * pieces_weigh(document, row)?));
    let grams = grams.map(|grams| grams * made);
    let density = contents.as_ref().map(|contents| contents.density_g_per_ml);
    BatchLine {
        pour: None,
        source: pour.source.clone(),
        row: row.clone(),
        name: item.name.clone(),
        unit: match pour.amount {
            Amount::Grams(_) => Unit::Gram,
            Amount::Pieces(_) => Unit::Piece,
            Amount::Ml(_) | Amount::Words(_) => pour.unit,
        },
        each,
        amount: each.map(|each| each * made),
        ml: grams.zip(density).map(|(grams, density)| grams / density),
        grams,
        words: match &pour.amount {
            Amount::Words(words) => words.clone(),
            _ => String::new(),
        },
        on_the_day: None,
        contents,
    }
}

/// Everything that is mixed beforehand, added up.
pub(super) fn mixed(lines: &[BatchLine]) -> Composition {
    lines
        .iter()
        .filter(|line| line.on_the_day.is_none())
        .filter_map(BatchLine::composition)
        .fold(Composition::ZERO, |sum, part| sum + part)
}

fn mix(lines: &[BatchLine], made: f64) -> Option<Mix> {
    let whole = mixed(lines);
    let ml = whole.volume_ml();
    let parts = lines.iter().filter(|line| line.on_the_day.is_none());
    (whole.mass_g() > 0.0).then(|| Mix {
        grams: whole.mass_g(),
        ml,
        parts_ml: parts.filter_map(|line| line.ml).sum(),
        strength_pct_vol: whole.percent_vol(),
        each_ml: ml / made,
    })
}

fn uncounted(lines: &[BatchLine]) -> Vec<String> {
    let unknown = lines.iter().filter(|line| line.grams.is_none());
    unknown
        .map(|line| {
            if line.words.is_empty() {
                format!("{}: no weight per piece is known", line.name)
            } else {
                format!("{}: {}", line.name, line.words)
            }
        })
        .collect()
}

fn asked_for(document: &Document, lines: &[BatchLine]) -> BTreeMap<IngredientId, IngredientId> {
    let of = lines.iter().filter_map(|line| match &line.source {
        Source::Lot(id) => Some((line.row.clone(), document.lots.get(id)?.of.clone()?)),
        _ => None,
    });
    of.collect()
}

/// A pour of a garnish, a piece for each drink.
pub(super) fn a_piece(source: Source) -> Pour {
    Pour {
        source,
        amount: Amount::Pieces(1.0),
        unit: Unit::Piece,
        added: Added::After,
        ..Pour::of(&"".into(), 0.0, crate::model::Role::Aroma)
    }
}
