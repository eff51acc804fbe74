//! A proposal under the pointer, and the trial before, on the strips.

use super::data::{Chart, Hue, Mark, MarkKind, Series, SeriesKind};
use crate::balance::PathPoint;
use crate::units::{celsius, percent, percent_vol};

/// Another drink as the strips show it: a proposal, or the trial before.
#[derive(Clone, Copy, Debug)]
pub struct StripGhost<'a> {
    /// What it is called.
    pub name: &'a str,
    /// Its path from undiluted on.
    pub path: &'a [PathPoint],
    /// Its served dilution, as a fraction.
    pub served: f64,
    /// Its served strength, % vol.
    pub strength_pct_vol: f64,
    /// Its temperature as served, or the coldest possible, °C.
    pub celsius: Option<f64>,
}

impl StripGhost<'_> {
    /// Adds its path and where it is served to the strength strip.
    pub(super) fn add_strength(&self, chart: &mut Chart) {
        let end = chart.x.to / 100.0;
        let path = self.path.iter().filter(|point| point.dilution <= end);
        chart.series.push(Series {
            name: self.name.to_owned(),
            points: path
                .map(|point| [point.dilution * 100.0, point.strength_pct_vol])
                .collect(),
            kind: SeriesKind::Dashed,
            hue: Hue::Accent,
        });
        self.add(
            chart,
            self.strength_pct_vol,
            &percent_vol(self.strength_pct_vol),
        );
    }

    /// Adds how cold it is served to the temperature strip.
    pub(super) fn add_temperature(&self, chart: &mut Chart) {
        if let Some(cold) = self.celsius {
            self.add(chart, cold, &celsius(cold));
        }
    }

    /// Adds its path and where it was served, as the trial before, to the strength strip.
    pub(super) fn add_strength_before(&self, chart: &mut Chart) {
        let end = chart.x.to / 100.0;
        let path = self.path.iter().filter(|point| point.dilution <= end);
        // After the drink's own lines, which are what a place reads.
        chart.series.push(Series {
            name: format!("before: {}", self.name),
            points: path
                .map(|point| [point.dilution * 100.0, point.strength_pct_vol])
                .collect(),
            kind: SeriesKind::Dashed,
            hue: Hue::Quiet,
        });
        let words = percent_vol(self.strength_pct_vol);
        self.add_before(chart, self.strength_pct_vol, &words);
    }

    /// Adds how cold it was served, as the trial before, to the temperature strip.
    pub(super) fn add_temperature_before(&self, chart: &mut Chart) {
        if let Some(cold) = self.celsius {
            self.add_before(chart, cold, &celsius(cold));
        }
    }

    fn add_before(&self, chart: &mut Chart, value: f64, words: &str) {
        let said = format!(
            "The trial before, {}: {words} at {} dilution",
            self.name,
            percent(self.served, 0)
        );
        chart.summary = format!("{} {said}.", chart.summary);
        // The drink on screen is painted over it.
        chart.marks.insert(
            0,
            Mark {
                name: "before".to_owned(),
                at: [self.served * 100.0, value],
                kind: MarkKind::Parent,
                hue: Hue::Quiet,
                detail: said,
                rank: 3,
            },
        );
    }

    fn add(&self, chart: &mut Chart, value: f64, words: &str) {
        let said = format!(
            "{}: {words} at {} dilution",
            self.name,
            percent(self.served, 0)
        );
        chart.summary = format!("{} {said}.", chart.summary);
        chart.marks.push(Mark {
            name: format!("→ {words}"),
            at: [self.served * 100.0, value],
            kind: MarkKind::Ghost,
            hue: Hue::Accent,
            detail: said,
            rank: 0,
        });
    }
}
