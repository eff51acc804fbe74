//! The balance map: where the drink lies among classics, trials and its target.

use super::data::{Chart, Hue, Mark, MarkKind, Scale, Series, SeriesKind, Table};
use super::map_target::{contour, target_mark};
use super::map_words::{summary, table};
use crate::balance::Uncertainty;
use crate::model::{Axis, Point, Region, Senses, Target, Weights};
use crate::units::number;

/// Below this much acid (g/L) in drink and target a sour axis says nothing.
const SOUR_NEGLIGIBLE_G_PER_L: f64 = 1.5;
/// Corners of the contour of one noticeable difference.
pub(super) const CONTOUR_CORNERS: usize = 72;
/// Sugar-to-acid ratios that rays are drawn for.
const RATIOS: [f64; 7] = [3.0, 5.0, 8.0, 12.0, 20.0, 40.0, 100.0];
/// Margin around what is framed, as a share.
const MARGIN: f64 = 0.14;

/// What a spot on the map stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SpotKind {
    /// A classic; `family` when it belongs to the drink's own family.
    Classic {
        /// Same family as the drink.
        family: bool,
        /// Every pour has a published amount.
        complete: bool,
        /// The classic that the drink twists.
        own: bool,
        /// Found by the search.
        wanted: bool,
    },
    /// An earlier trial.
    Earlier,
    /// A starred trial, a reference.
    Starred,
    /// The parent of the trial on screen.
    Parent,
    /// A proposal under the pointer.
    Ghost,
    /// The other drink while ice is left in the blender.
    OtherDrink,
    /// The trial on screen.
    Present,
}

/// Something with a place on the map.
#[derive(Clone, Debug, PartialEq)]
pub struct Spot {
    /// Name.
    pub name: String,
    /// Balance point.
    pub point: Point,
    /// What it stands for.
    pub kind: SpotKind,
}

/// What the map is framed on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Frame {
    /// The drink, its target, trail and family.
    #[default]
    Family,
    /// Everything.
    WholeField,
}

/// What is asked of the map.
#[derive(Clone, Debug)]
pub struct MapAsk<'a> {
    /// Axis across.
    pub across: Axis,
    /// Axis up.
    pub up: Axis,
    /// Read both axes in noticeable differences from the target.
    pub in_steps: bool,
    /// Frame.
    pub frame: Frame,
    /// Everything with a place, background first.
    pub spots: Vec<Spot>,
    /// The trail of trials joined by a line, in order.
    pub trail: Vec<Point>,
    /// Published ranges, if they are shown.
    pub regions: &'a [Region],
    /// The target.
    pub target: Option<&'a Target>,
    /// How far the drink on screen may be off, if it is shown.
    pub spread: Option<&'a Uncertainty>,
    /// How far the proposal under the pointer may be off, if it is shown.
    pub ghost_spread: Option<&'a Uncertainty>,
    /// When a difference is noticed.
    pub senses: &'a Senses,
    /// Weights of the axes.
    pub weights: &'a Weights,
    /// Fill in the table too.
    pub with_table: bool,
}

/// The axes that the map opens on: sour and sweet, unless there is next to no acid.
pub fn opening_axes(point: Option<&Point>, target: Option<&Target>) -> (Axis, Axis) {
    let flat = |point: &Point| point.sour_g_per_l < SOUR_NEGLIGIBLE_G_PER_L;
    let quiet = point.is_none_or(flat) && target.is_none_or(|target| flat(&target.point));
    if quiet && (point.is_some() || target.is_some()) {
        (Axis::Strength, Axis::Sweet)
    } else {
        (Axis::Sour, Axis::Sweet)
    }
}

/// Turns axis values into what is drawn: themselves, or steps from the target.
#[derive(Clone, Copy)]
pub(super) struct Reading {
    pub(super) axis: Axis,
    /// All below it counts as this.
    least: f64,
    /// Threshold and reference when read in steps.
    steps: Option<(crate::model::Threshold, f64)>,
    /// Proposals do not care about this axis.
    pub(super) is_free: bool,
}

impl Reading {
    fn of(ask: &MapAsk<'_>, axis: Axis) -> Self {
        let steps = ask
            .target
            .filter(|_| ask.in_steps)
            .and_then(|target| Some((ask.senses.of(axis)?, target.point.on(axis))));
        Self {
            least: ask.senses.least_counted(axis),
            axis,
            steps,
            is_free: ask.weights.is_free(axis),
        }
    }

    pub(super) fn read(&self, value: f64) -> f64 {
        match self.steps {
            Some((threshold, reference)) => {
                threshold.steps(value.max(self.least), reference.max(self.least))
            }
            None => value,
        }
    }

    fn scale(&self, from: f64, to: f64) -> Scale {
        Scale {
            name: self.axis.name().to_owned(),
            unit: match self.steps {
                Some(_) if self.is_free => "steps from the target, free".to_owned(),
                Some(_) => "steps from the target".to_owned(),
                None => self.axis.unit().to_owned(),
            },
            from,
            to,
        }
    }
}

/// Draws up the map.
pub fn balance_map(ask: &MapAsk<'_>) -> Chart {
    let across = Reading::of(ask, ask.across);
    let up = Reading::of(ask, ask.up);
    let place = |point: &Point| [across.read(point.on(ask.across)), up.read(point.on(ask.up))];
    let (x, y) = framed(ask, &place);
    let (x, y) = (across.scale(x.0, x.1), up.scale(y.0, y.1));
    let mut series = Vec::new();
    if !ask.in_steps {
        series.extend(regions(ask));
        series.extend(rays(ask, &x, &y));
    }
    if ask.trail.len() > 1 {
        series.push(Series {
            name: "trail of trials".to_owned(),
            points: ask.trail.iter().map(place).collect(),
            kind: SeriesKind::Dashed,
            hue: Hue::Quiet,
        });
    }
    series.extend(cloud(ask, &place));
    series.extend(ghost_cloud(ask, &place));
    if let Some(target) = ask.target {
        series.extend(contour(ask, target, (&across, &x), (&up, &y)));
    }
    let mut marks: Vec<Mark> = ask
        .spots
        .iter()
        .map(|spot| mark(spot, place(&spot.point)))
        .collect();
    if let Some(target) = ask.target {
        let at = marks.len().saturating_sub(1);
        let free = [&across, &up].map(|axis| axis.is_free.then_some(axis.axis));
        marks.insert(at, target_mark(target, place(&target.point), free));
    }
    Chart {
        title: format!("{} against {}", ask.up.name(), ask.across.name()),
        summary: summary(ask),
        table: if ask.with_table {
            table(ask)
        } else {
            Table::default()
        },
        x,
        y,
        series,
        marks,
    }
}

/// What must be seen, with a margin.
fn framed(ask: &MapAsk<'_>, place: &dyn Fn(&Point) -> [f64; 2]) -> ((f64, f64), (f64, f64)) {
    let seen = ask.spots.iter().filter(|spot| match spot.kind {
        SpotKind::Classic {
            family,
            own,
            wanted,
            ..
        } => ask.frame == Frame::WholeField || family || own || wanted,
        SpotKind::Ghost => false,
        _ => true,
    });
    let mut places: Vec<[f64; 2]> = seen.map(|spot| place(&spot.point)).collect();
    places.extend(ask.trail.iter().map(place));
    places.extend(ask.target.map(|target| place(&target.point)));
    let span = |axis: usize, least: f64| {
        let values = places.iter().map(|at| at[axis]);
        let low = values.clone().fold(f64::INFINITY, f64::min);
        let high = values.fold(f64::NEG_INFINITY, f64::max);
        if low > high {
            return (0.0, least);
        }
        let room = ((high - low) * MARGIN).max(least * 0.12);
        let from = low - room;
        // A scale in units starts at zero rather than below it.
        (if ask.in_steps { from } else { from.max(0.0) }, high + room)
    };
    let least = |axis: Axis| match (ask.in_steps, axis) {
        (true, _) => 4.0,
        (_, Axis::Sweet) => 60.0,
        (_, Axis::Strength) => 15.0,
        _ => 6.0,
    };
    (span(0, least(ask.across)), span(1, least(ask.up)))
}

/// Published ranges as boxes; only the two axes shown matter.
fn regions(ask: &MapAsk<'_>) -> Vec<Series> {
    ask.regions
        .iter()
        .filter_map(|region| {
            let (x, y) = (region.on(ask.across)?, region.on(ask.up)?);
            let memory = if region.from_memory {
                " (from memory)"
            } else {
                ""
            };
            Some(Series {
                name: format!("{}{memory}", region.technique),
                points: vec![[x.0, y.0], [x.1, y.0], [x.1, y.1], [x.0, y.1]],
                kind: SeriesKind::Area,
                hue: Hue::Quiet,
            })
        })
        .collect()
}

/// Rays of equal sugar-to-acid ratio that cross the frame.
fn rays(ask: &MapAsk<'_>, x: &Scale, y: &Scale) -> Vec<Series> {
    if (ask.across, ask.up) != (Axis::Sour, Axis::Sweet) {
        return Vec::new();
    }
    RATIOS
        .into_iter()
        .filter(|ratio| ratio * x.to > y.from && ratio * x.from < y.to)
        .map(|ratio| {
            let end = x.to.min(y.to / ratio);
            Series {
                name: format!("{}:1", number(ratio, 0)),
                points: vec![[0.0, 0.0], [end, end * ratio]],
                kind: SeriesKind::Ray,
                hue: Hue::Quiet,
            }
        })
        .collect()
}

/// The ellipse in which 19 of 20 such drinks would lie.
fn cloud(ask: &MapAsk<'_>, place: &dyn Fn(&Point) -> [f64; 2]) -> Option<Series> {
    Some(Series {
        name: "19 of 20 such drinks".to_owned(),
        points: ellipse(ask, SpotKind::Present, ask.spread?, place)?,
        kind: SeriesKind::Cloud,
        hue: Hue::Accent,
    })
}

/// The same of the proposal under the pointer, as an outline so that the two stay apart.
fn ghost_cloud(ask: &MapAsk<'_>, place: &dyn Fn(&Point) -> [f64; 2]) -> Option<Series> {
    Some(Series {
        name: "19 of 20 such drinks as proposed".to_owned(),
        points: ellipse(ask, SpotKind::Ghost, ask.ghost_spread?, place)?,
        kind: SeriesKind::Outline,
        hue: Hue::Accent,
    })
}

/// Corners of the ellipse around a spot; `None` when no such spot is on the map.
fn ellipse(
    ask: &MapAsk<'_>,
    kind: SpotKind,
    spread: &Uncertainty,
    place: &dyn Fn(&Point) -> [f64; 2],
) -> Option<Vec<[f64; 2]>> {
    let spot = ask.spots.iter().find(|spot| spot.kind == kind)?;
    // Uneven ranges pull the mean to their longer side.
    let mean = |axis: Axis| spot.point.on(axis) + spread.shift(axis);
    let centre = [mean(ask.across), mean(ask.up)];
    let around = spread
        .ellipse(ask.across, ask.up)
        .points(centre, CONTOUR_CORNERS);
    let corner = |[x, y]: [f64; 2]| {
        let mut point = spot.point;
        point.set(ask.across, x);
        point.set(ask.up, y);
        place(&point)
    };
    Some(around.into_iter().map(corner).collect())
}

fn mark(spot: &Spot, at: [f64; 2]) -> Mark {
    let (kind, rank) = match spot.kind {
        SpotKind::Present => (MarkKind::Present, 0),
        SpotKind::Classic { own: true, .. } => (MarkKind::OwnClassic, 2),
        // Named before the target: it was asked for by pointing.
        SpotKind::Ghost => (MarkKind::Ghost, 1),
        SpotKind::OtherDrink => (MarkKind::Reading, 2),
        SpotKind::Starred => (MarkKind::Starred, 3),
        SpotKind::Parent => (MarkKind::Parent, 4),
        SpotKind::Earlier => (MarkKind::Earlier, 6),
        SpotKind::Classic {
            complete: false,
            wanted,
            ..
        } => (MarkKind::Incomplete, if wanted { 3 } else { 8 }),
        SpotKind::Classic { wanted: true, .. } => (MarkKind::Classic, 3),
        SpotKind::Classic { family: true, .. } => (MarkKind::Classic, 5),
        SpotKind::Classic { .. } => (MarkKind::Classic, 7),
    };
    let hue = match spot.kind {
        SpotKind::Classic { .. } | SpotKind::Earlier | SpotKind::Parent => Hue::Quiet,
        _ => Hue::Accent,
    };
    Mark {
        name: spot.name.clone(),
        at,
        kind,
        hue,
        detail: String::new(),
        rank,
    }
}
