//! What answers suggest, in words.

use super::SIGNIFICANT;
use super::learning::{AxisLesson, LessonGround};
use super::words::{counted, probability_words};
use crate::model::Axis;
use crate::units::{counted_steps, grams_per_litre, percent_vol, signed};

/// An interval whose ends are farther apart than this factor says next to nothing (our convention).
const WIDEST: f64 = 4.0;
/// Shifts below this, in steps, are none (our convention): they would read as 0.0.
const NO_SHIFT_STEPS: f64 = 0.05;

/// The direction of a shift on an axis: "sweeter", "less sweet"; "as it is" for next to none.
pub fn direction_words(axis: Axis, shift_steps: f64) -> &'static str {
    if shift_steps.abs() < NO_SHIFT_STEPS {
        return "as it is";
    }
    match (axis, shift_steps > 0.0) {
        (Axis::Sweet, true) => "sweeter",
        (Axis::Sweet, false) => "less sweet",
        (Axis::Sour, true) => "sourer",
        (Axis::Sour, false) => "less sour",
        (Axis::Strength, true) => "stronger",
        (Axis::Strength, false) => "weaker",
        (Axis::Bitter, true) => "more bitter",
        (Axis::Bitter, false) => "less bitter",
    }
}

/// What is suggested on an axis, on which ground, and how sure that is.
pub fn axis_lesson_words(lesson: &AxisLesson) -> Vec<String> {
    let mut sentences = vec![suggestion(lesson)];
    match lesson.ground {
        LessonGround::Line => sentences.extend(line(lesson)),
        LessonGround::Answers => {
            let moves = lesson.shift_steps.abs() >= NO_SHIFT_STEPS;
            if moves && lesson.p_leaning > SIGNIFICANT {
                let p = probability_words(lesson.p_leaning);
                sentences.push(format!(
                    "That the answers lean to one side may be chance ({p})."
                ));
            }
            sentences.extend(no_line(lesson));
        }
    }
    if lesson.few {
        sentences.push("Fewer than 12 answers: a direction to try, no more.".to_owned());
    }
    sentences
}

fn suggestion(lesson: &AxisLesson) -> String {
    let way = direction_words(lesson.axis, lesson.shift_steps);
    let answers = counted(lesson.answers, "answer", "answers");
    let mean = signed(lesson.mean_deviation, 2);
    let said = format!("{answers}, {mean} from just right on average");
    if lesson.shift_steps.abs() < NO_SHIFT_STEPS {
        return format!("{said}: leave it {way}.");
    }
    if lesson.few {
        return format!("{said}: try it {way}.");
    }
    let by = counted_steps(lesson.shift_steps.abs(), 1);
    let (from, to) = (
        value(lesson.axis, lesson.tasted),
        value(lesson.axis, lesson.suggested),
    );
    let way = if lesson.ground == LessonGround::Answers && lesson.p_leaning > SIGNIFICANT {
        format!("if anything, {way}")
    } else {
        format!("try it {way}")
    };
    format!("{said}: {way} by {by}, {to} instead of {from}.")
}

fn line(lesson: &AxisLesson) -> Vec<String> {
    let mut sentences = Vec::new();
    if let Some([low, middle, high]) = lesson.crossing {
        let trials = counted(lesson.trials, "tasted balance", "tasted balances");
        if high > WIDEST * low {
            sentences.push(format!(
                "Over {trials} of this drink the answers hardly say where just right lies."
            ));
            return sentences;
        }
        sentences.push(format!(
            "Over {trials} of this drink just right lies at {}, {} to {} with 95 % confidence.",
            value(lesson.axis, middle),
            value(lesson.axis, low),
            value(lesson.axis, high)
        ));
    }
    if lesson.beyond {
        sentences.push(
            "That lies more than a step beyond what was tasted; taste nearer to it first."
                .to_owned(),
        );
    }
    sentences
}

/// Why a line through several drinks was not followed.
fn no_line(lesson: &AxisLesson) -> Option<String> {
    let line = lesson.line?;
    let trials = counted(lesson.trials, "balance", "balances");
    let name = lesson.axis.name();
    Some(if line.interval.is_none() {
        format!(
            "Over {trials} the answers do not clearly follow {}: no interval for what would be just right.",
            noun(lesson.axis)
        )
    } else {
        format!(
            "Over {trials} the answers run against the figures of the {name} axis; something else was judged."
        )
    })
}

const fn noun(axis: Axis) -> &'static str {
    match axis {
        Axis::Sweet => "sweetness",
        Axis::Sour => "sourness",
        Axis::Strength => "strength",
        Axis::Bitter => "bitterness",
    }
}

fn value(axis: Axis, value: f64) -> String {
    match axis {
        Axis::Strength => percent_vol(value),
        Axis::Sweet | Axis::Sour | Axis::Bitter => grams_per_litre(value),
    }
}
