//! What answers suggest for the target. Nothing is moved here.

use super::FEW_ANSWERS;
use super::just_right::ScaleResult;
use super::line_fit::{FitPoint, LineFit};
use crate::model::{Axis, Learning, Point, Senses};

/// Axes that answers can move; bitterness has no noticeable step.
const AXES: [Axis; 3] = [Axis::Sweet, Axis::Sour, Axis::Strength];

/// Different balance points from which a line is drawn (our convention, no source).
const LINE_FROM: usize = 3;

/// Points that lie nearer than this, in steps, are the same one (our convention, no source).
const SAME_POINT_STEPS: f64 = 0.1;

/// How far beyond what was tasted a suggestion may go, in steps (our convention, no source).
const BEYOND_STEPS: f64 = 1.0;

/// A drink as tasted with the answers to its scales.
#[derive(Clone, Debug, PartialEq)]
pub struct TastedPoint {
    /// Its balance as served.
    pub point: Point,
    /// What was said.
    pub scales: Vec<ScaleResult>,
}

impl TastedPoint {
    /// Answers that speak of an axis; `None` without any.
    fn on(&self, axis: Axis) -> Option<&ScaleResult> {
        let of_axis = |scale: &&ScaleResult| scale.attribute.axis() == Some(axis);
        self.scales
            .iter()
            .find(of_axis)
            .filter(|scale| scale.answers() > 0)
    }
}

/// What a suggestion rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LessonGround {
    /// The mean deviation of this drink's answers.
    Answers,
    /// The line through the mean deviations of several drinks.
    Line,
}

/// What answers suggest on one axis.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AxisLesson {
    /// The axis.
    pub axis: Axis,
    /// Answers for this drink.
    pub answers: usize,
    /// Their mean less 3: positive when there is too much.
    pub mean_deviation: f64,
    /// Probability that they lean by chance (sign test, raised for the scales asked together).
    pub p_leaning: f64,
    /// Suggested shift, noticeable steps from this drink; negative for less.
    pub shift_steps: f64,
    /// Where this drink lies, in the unit of the axis.
    pub tasted: f64,
    /// Where the suggestion lies, in the unit of the axis.
    pub suggested: f64,
    /// What it rests on.
    pub ground: LessonGround,
    /// Answers that the suggestion rests on are fewer than 12: show a direction, claim no amount.
    pub few: bool,
    /// Different balance points with answers on this axis.
    pub trials: usize,
    /// The line through them, x in noticeable steps from this drink; `None` below three.
    pub line: Option<LineFit>,
    /// Where it crosses just right with its interval, in the unit of the axis; only on [`LessonGround::Line`].
    pub crossing: Option<[f64; 3]>,
    /// The line crosses more than a step beyond what was tasted; the suggestion stops there.
    pub beyond: bool,
}

/// What answers suggest.
#[derive(Clone, Debug, PartialEq)]
pub struct Lesson {
    /// Axes with answers.
    pub axes: Vec<AxisLesson>,
    /// The suggested balance; axes without answers stay at the target, or as tasted without one.
    pub point: Point,
}

/// What the answers to `tasted[of]` suggest, with those to the others where three or more different
/// balances were tasted; `None` when there is no answer on any axis.
///
/// The shift is −`steps_per_point` · mean deviation · n/(n + `half_at`) noticeable steps from the drink as
/// tasted (our convention, no source). A line through three or more balances replaces it when it rises
/// (more is found to be more) and its slope is different from zero.
pub fn learn(
    tasted: &[TastedPoint],
    of: usize,
    target: Option<&Point>,
    learning: &Learning,
    senses: &Senses,
) -> Option<Lesson> {
    let this = tasted.get(of)?;
    let on = |axis: &Axis| axis_lesson(tasted, this, *axis, learning, senses);
    let axes: Vec<AxisLesson> = AXES.iter().filter_map(on).collect();
    if axes.is_empty() {
        return None;
    }
    let mut point = *target.unwrap_or(&this.point);
    for lesson in &axes {
        point.set(lesson.axis, lesson.suggested);
    }
    Some(Lesson { axes, point })
}

fn axis_lesson(
    tasted: &[TastedPoint],
    this: &TastedPoint,
    axis: Axis,
    learning: &Learning,
    senses: &Senses,
) -> Option<AxisLesson> {
    let scale = this.on(axis)?;
    let mean_deviation = scale.mean_deviation?;
    let answers = scale.answers();
    let here = this.point.on(axis);
    let believed = answers as f64 / (answers as f64 + learning.half_at.max(0.0));
    let mut lesson = AxisLesson {
        axis,
        answers,
        mean_deviation,
        p_leaning: scale.p_leaning_among_all,
        shift_steps: -learning.steps_per_point * mean_deviation * believed,
        tasted: here,
        suggested: here,
        ground: LessonGround::Answers,
        few: answers < FEW_ANSWERS,
        trials: 0,
        line: None,
        crossing: None,
        beyond: false,
    };
    let points = fit_points(tasted, axis, here, senses);
    lesson.trials = different(&points);
    if lesson.trials >= LINE_FROM {
        lesson.line = LineFit::of(&points);
        follow_line(&mut lesson, &points, senses);
    }
    lesson.suggested = shifted(axis, lesson.shift_steps, here, senses)?;
    Some(lesson)
}

/// Mean deviations of all drinks with answers on an axis, placed in steps from `here`.
fn fit_points(tasted: &[TastedPoint], axis: Axis, here: f64, senses: &Senses) -> Vec<FitPoint> {
    let point = |one: &TastedPoint| {
        let scale = one.on(axis)?;
        Some(FitPoint {
            x: steps_on(axis, one.point.on(axis), here, senses)?,
            y: scale.mean_deviation?,
            answers: scale.answers() as f64,
            variance: scale.variance,
        })
    };
    tasted.iter().filter_map(point).collect()
}

/// How many different places there are.
fn different(points: &[FitPoint]) -> usize {
    let mut places: Vec<f64> = points.iter().map(|point| point.x).collect();
    places.sort_by(f64::total_cmp);
    places.chunk_by(|a, b| b - a < SAME_POINT_STEPS).count()
}

/// Lets the line replace the shift where it says something.
fn follow_line(lesson: &mut AxisLesson, points: &[FitPoint], senses: &Senses) {
    let Some(line) = lesson.line else {
        return;
    };
    let (Some(crossing), Some(bounds)) = (line.crossing, line.interval) else {
        return;
    };
    // A falling line would mean that less of it is found to be more: the answers speak of something else.
    if line.slope <= 0.0 {
        return;
    }
    let place = |far: fn(f64, f64) -> f64| points.iter().map(|point| point.x).reduce(far);
    let (Some(least), Some(most)) = (place(f64::min), place(f64::max)) else {
        return;
    };
    let (least, most) = (least - BEYOND_STEPS, most + BEYOND_STEPS);
    lesson.ground = LessonGround::Line;
    lesson.shift_steps = crossing.clamp(least, most);
    lesson.beyond = !(least..=most).contains(&crossing);
    let answers: f64 = points.iter().map(|point| point.answers).sum();
    lesson.few = answers < FEW_ANSWERS as f64;
    let value = |steps: f64| shifted(lesson.axis, steps, lesson.tasted, senses);
    let ends = value(bounds.low).zip(value(bounds.high));
    lesson.crossing = value(crossing)
        .zip(ends)
        .map(|(middle, (low, high))| [low, middle, high]);
}

fn steps_on(axis: Axis, value: f64, reference: f64, senses: &Senses) -> Option<f64> {
    match axis {
        Axis::Sour => Some(senses.sour_steps(value, reference)),
        _ => Some(senses.of(axis)?.steps(value, reference)),
    }
}

/// The value that lies so many steps from `here`, 0 or more; sourness below what counts is no longer
/// lowered, and is never lowered further than that.
fn shifted(axis: Axis, steps: f64, here: f64, senses: &Senses) -> Option<f64> {
    let threshold = senses.of(axis)?;
    if steps == 0.0 {
        return Some(here);
    }
    let least = senses.least_counted(axis);
    if steps < 0.0 && here <= least {
        return Some(here);
    }
    Some(threshold.at_steps(steps, here.max(least)).max(least))
}
