//! A batch as its readings say it is.

use super::acidity::{by_ph_alone, figures, ph_range, titrated};
use super::batch::Batch;
use super::error::MeasureError;
use super::instruments::{Quantity, titratable_acid, yield_share};
use super::latest::Latest;
use super::sweetness::model_density;
use crate::kitchen::contents;
use crate::model::{
    Confidence, Density, Ingredient, Measurement, Origin, Range, check_measurements,
    check_one_ingredient,
};
use crate::units::percent;

/// Rounds in which acid, sugar and alcohol settle: each moves the others a little.
const ROUNDS: usize = 6;

/// A measured batch.
#[derive(Clone, Debug, PartialEq)]
pub struct Measured {
    /// The parent with the measured figures put in, ready to be a row of the document.
    pub ingredient: Ingredient,
    /// What the readings do not say, or contradict; for people to read.
    pub remarks: Vec<String>,
}

/// The parent as these readings say it is in this batch.
///
/// Of readings of one kind the last counts, in the order of the list: earlier ones are usually of
/// the batch before it was corrected, so they are not averaged. What was not measured stays the
/// parent's. A refractometer counts everything dissolved, so sugar is what it shows beyond the
/// acids, the salt and the other solids. With alcohol in it, a refractometer and a density are
/// solved together. A density alone is the sugar of what is mostly sugar, and the strength of a
/// spirit; elsewhere it only replaces the computed density. Ranges become two-sigma errors.
pub fn as_measured(
    parent: &Ingredient,
    readings: &[Measurement],
) -> Result<Measured, MeasureError> {
    check_measurements(readings).map_err(MeasureError::Reading)?;
    if parent.pure_acid.is_some() {
        return Err(MeasureError::Powder {
            name: parent.name.clone(),
        });
    }
    let latest = Latest::of(readings);
    let mut lot = Reader::new(parent, &latest)?;
    lot.read_acid()?;
    lot.read_sugar_and_strength()?;
    for _ in 1..ROUNDS {
        if !lot.titrate()? {
            break;
        }
        lot.remarks.truncate(lot.acid_remarks);
        lot.read_sugar_and_strength()?;
    }
    lot.finish()
}

/// The work on one batch.
pub(super) struct Reader<'a> {
    pub(super) parent: &'a Ingredient,
    pub(super) latest: &'a Latest,
    pub(super) batch: Batch,
    remarks: Vec<String>,
    /// How many of the remarks are on acids, which are not made anew in every round.
    acid_remarks: usize,
    pub(super) sugar_read: bool,
    pub(super) strength_read: bool,
}

impl<'a> Reader<'a> {
    fn new(parent: &'a Ingredient, latest: &'a Latest) -> Result<Self, MeasureError> {
        Ok(Self {
            parent,
            latest,
            batch: Batch::of(parent)?,
            remarks: Vec::new(),
            acid_remarks: 0,
            sugar_read: false,
            strength_read: false,
        })
    }

    pub(super) fn say(&mut self, remark: impl Into<String>) {
        self.remarks.push(remark.into());
    }

    /// The titration, if there is one.
    fn titration(&self) -> Option<Quantity> {
        let (sample_ml, titrant_ml, normality) = self.latest.titration?;
        Some(titratable_acid(sample_ml, titrant_ml, normality))
    }

    /// Scales the acids to the titration; false without one.
    fn titrate(&mut self) -> Result<bool, MeasureError> {
        let Some(acid) = self.titration() else {
            return Ok(false);
        };
        self.batch = titrated(&self.batch, acid)?;
        Ok(true)
    }

    fn read_acid(&mut self) -> Result<(), MeasureError> {
        let has_acid = self.has_acid();
        if self.titration().is_some() {
            if let Some(ph) = self.latest.ph {
                self.batch.item.ph = Some(ph_range(ph));
            }
            if !has_acid {
                self.say("no acid of it was known: what was titrated counts as citric acid");
            }
            self.titrate()?;
        } else if let Some(ph) = self.latest.ph {
            if has_acid {
                self.batch = by_ph_alone(&self.batch, ph)?;
                self.say(
                    "acids from the pH alone, with the salts of the parent: a weak measure, \
                     titrate for a better one",
                );
            } else {
                self.batch.item.ph = Some(ph_range(ph));
                self.say("the pH is noted; how much acid there is, it does not say");
            }
        }
        self.acid_remarks = self.remarks.len();
        Ok(())
    }

    fn finish(mut self) -> Result<Measured, MeasureError> {
        if let Some((in_g, out_g)) = self.latest.yield_g {
            let share = percent(yield_share(in_g, out_g), 1);
            self.say(format!("yield by weight {share}"));
        }
        if self.batch.item.co2_g_per_l.is_some_and(|co2| co2 > 0.0) {
            self.say("carbon dioxide lifts a hydrometer and counts in a titration: degas first");
        }
        self.follow_density()?;
        self.mark();
        let contents = self.batch.contents()?;
        self.remarks.extend(contents.warnings);
        self.remarks.extend(contents.remarks);
        check_one_ingredient(&self.batch.item).map_err(MeasureError::Figures)?;
        Ok(Measured {
            ingredient: self.batch.item,
            remarks: self.remarks,
        })
    }

    /// The parent's measured density moves by as much as the composition's: a sweeter batch is denser.
    fn follow_density(&mut self) -> Result<(), MeasureError> {
        let measured = self.parent.density.filter(|density| density.measured);
        let (Some(was), None) = (measured, self.latest.density) else {
            return Ok(());
        };
        let (parent, batch) = (contents(self.parent)?, self.batch.contents()?);
        let moved = model_density(&batch.per_gram) - model_density(&parent.per_gram);
        self.batch.item.density = Some(Density {
            g_per_ml: was.g_per_ml + moved,
            measured: true,
        });
        Ok(())
    }

    /// Notes what was measured. Trust is high when all of strength, sugar and acid that the batch
    /// has was measured, and otherwise what it was for the parent.
    fn mark(&mut self) {
        let has_acid = self.has_acid();
        let item = &mut self.batch.item;
        let acid_read = self.latest.titration.is_some();
        for (read, source) in [
            (self.sugar_read, &mut item.sources.sugar),
            (self.strength_read, &mut item.sources.strength),
            (acid_read, &mut item.sources.acid),
            (self.latest.ph.is_some(), &mut item.sources.ph),
            (self.latest.density.is_some(), &mut item.sources.density),
        ] {
            if read {
                "measured".clone_into(source);
            }
        }
        item.note = self.latest.in_words();
        item.origin = Origin::Own;
        let some = |range: Option<Range>| range.is_some_and(|range| range.high > 0.0);
        let any = self.sugar_read || self.strength_read || acid_read;
        let all = (self.sugar_read || !some(item.sugar_g))
            && (self.strength_read || !some(item.strength_pct_vol))
            && (acid_read || !has_acid);
        if any && all {
            item.confidence = Confidence::High;
        }
    }

    fn has_acid(&self) -> bool {
        let mut own = self.batch.item.acids;
        figures(&mut own)
            .iter()
            .any(|(_, figure)| figure.is_some_and(|range| range.typical > 0.0))
    }
}
