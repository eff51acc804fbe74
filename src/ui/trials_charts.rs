//! The map and the strengths of trials side by side, with one cursor over both and the table.

use super::chart_table;
use super::chart_view::{ChartView, Shown, is_new_frame};
use super::trials_compare::letter;
use crate::chart::{
    Frame, MapAsk, PathBeside, Spot, SpotKind, balance_map, opening_axes, strength_beside,
};
use crate::session::{Session, SideBySide};
use crate::units::capital;
use eframe::egui::{Pos2, RichText, Ui};
use egui_plot::PlotPoint;

/// Share of the height that the charts take, and the least and the most of it, points.
const SHARE: f32 = 0.42;
const LEAST: f32 = 180.0;
const MOST: f32 = 420.0;
/// Height of the line above a chart, points.
const CAPTION: f32 = 20.0;
/// Reach of the pointer, points.
const REACH: f32 = 14.0;

/// Height of the charts in what is left of the page.
pub(super) fn height(ui: &Ui) -> f32 {
    (SHARE * ui.available_height()).clamp(LEAST, MOST)
}

/// Shows both charts; the column that is pointed at on one of them.
pub(super) fn ui(
    ui: &mut Ui,
    session: &Session,
    found: &SideBySide,
    (baseline, pointed): (usize, Option<usize>),
) -> Option<usize> {
    let height = ui.available_height().min(MOST) - 12.0;
    if height < LEAST * 0.5 {
        return None;
    }
    let names: Vec<String> = found
        .columns
        .iter()
        .enumerate()
        .map(|(place, column)| format!("{} {}", letter(place).unwrap_or(' '), column.name))
        .collect();
    let mut now = None;
    ui.columns(2, |sides| {
        if let [left, right] = sides {
            let map = map(left, session, found, (&names, baseline, pointed), height);
            let strength = strengths(right, found, &names, pointed, height);
            now = map.or(strength);
        }
    });
    now
}

fn map(
    ui: &mut Ui,
    session: &Session,
    found: &SideBySide,
    (names, baseline, pointed): (&[String], usize, Option<usize>),
    height: f32,
) -> Option<usize> {
    let spec = session.spec()?;
    let spot = |(place, column): (usize, &crate::session::TrialColumn)| {
        let point = column.figures.as_ref().ok()?.point;
        let kind = if pointed == Some(place) {
            SpotKind::Present
        } else if place == baseline {
            SpotKind::Parent
        } else {
            SpotKind::Earlier
        };
        Some((
            place,
            Spot {
                name: names.get(place)?.clone(),
                point,
                kind,
            },
        ))
    };
    let spots: Vec<(usize, Spot)> = found.columns.iter().enumerate().filter_map(spot).collect();
    let first = spots.first().map(|(_, spot)| spot.point);
    let target = spec.target.as_ref();
    let (across, up) = opening_axes(first.as_ref(), target);
    let chart = balance_map(&MapAsk {
        across,
        up,
        in_steps: false,
        frame: Frame::Family,
        spots: spots.iter().map(|(_, spot)| spot.clone()).collect(),
        trail: Vec::new(),
        regions: &[],
        target,
        spread: None,
        ghost_spread: None,
        senses: &session.document().senses,
        weights: &spec.balancing.weights,
        with_table: chart_table::is_chosen(ui),
    });
    let shown = show(ui, "map of trials", height, &chart)?;
    let places = spots.iter().map(|(place, spot)| {
        let at = [spot.point.on(across), spot.point.on(up)];
        (*place, at)
    });
    under_pointer(&shown, places)
}

fn strengths(
    ui: &mut Ui,
    found: &SideBySide,
    names: &[String],
    pointed: Option<usize>,
    height: f32,
) -> Option<usize> {
    let served = |(place, column): (usize, &crate::session::TrialColumn)| {
        let figures = column.figures.as_ref().ok()?;
        Some((place, [figures.dilution, figures.point.strength_pct_vol]))
    };
    let served: Vec<(usize, [f64; 2])> = found
        .columns
        .iter()
        .enumerate()
        .filter_map(served)
        .collect();
    let path = |(place, [dilution, strength]): &(usize, [f64; 2])| {
        Some(PathBeside {
            name: names.get(*place)?,
            path: &found.columns.get(*place)?.path,
            served: *dilution,
            strength_pct_vol: *strength,
            is_pointed: pointed == Some(*place),
        })
    };
    let paths: Vec<PathBeside<'_>> = served.iter().filter_map(path).collect();
    let shown = show(ui, "strengths of trials", height, &strength_beside(&paths))?;
    let places = served.iter();
    under_pointer(
        &shown,
        places.map(|(place, at)| (*place, [at[0] * 100.0, at[1]])),
    )
}

fn show(ui: &mut Ui, id: &str, height: f32, chart: &crate::chart::Chart) -> Option<Shown> {
    // A small chart has no name at its upright axis.
    ui.label(RichText::new(capital(&chart.y.label())).small());
    let height = height - CAPTION;
    if chart_table::is_chosen(ui) {
        chart_table::table(ui, id, chart, height);
        return None;
    }
    let view = ChartView {
        id,
        height,
        reframe: is_new_frame(ui, id, chart),
        movable: false,
        zooms: true,
        letters: None,
        read: &|mark| mark.detail.clone(),
    };
    Some(view.show(ui, chart))
}

/// The column whose mark lies under the pointer.
fn under_pointer(shown: &Shown, places: impl Iterator<Item = (usize, [f64; 2])>) -> Option<usize> {
    let pointer: Pos2 = shown.response.hover_pos()?;
    let off = |[x, y]: [f64; 2]| {
        let there = shown.transform.position_from_point(&PlotPoint::new(x, y));
        there.distance(pointer)
    };
    let near = places.map(|(place, at)| (place, off(at)));
    let near = near.filter(|(_, off)| *off <= REACH);
    near.min_by(|one, other| one.1.total_cmp(&other.1))
        .map(|(place, _)| place)
}
