//! Tasting: serving plans, what answers mean, and what they suggest.
//!
//! Every figure comes with how many answers it rests on, and no sentence claims more than its numbers.

mod binomial;
mod choice;
mod choice_words;
mod codes;
mod confidence_interval;
mod friedman;
mod holm;
mod just_right;
mod just_right_words;
mod learning;
mod learning_words;
mod liking;
mod line_fit;
mod mid_ranks;
mod penalty;
mod plan;
mod quick_form;
mod ranking;
mod ranking_words;
mod score_sheet;
mod score_words;
mod serving;
mod student;
mod tasters_needed;
mod trends;
mod words;

pub use binomial::{clopper_pearson, least_significant, two_sided_probability, upper_tail};
pub use choice::{ChoiceResult, ChoiceTest, choice_result};
pub use choice_words::{choice_words, choices_needed_words};
pub use confidence_interval::ConfidenceInterval;
pub use friedman::{chi_square_tail, exact_critical, exact_tail};
pub use just_right::{JustRightResult, SampleScales, ScaleResult, just_right_result};
pub use just_right_words::{difference_words, liking_words, penalty_words, scale_words};
pub use learning::{AxisLesson, Lesson, LessonGround, TastedPoint, learn};
pub use learning_words::{axis_lesson_words, direction_words};
pub use liking::{LikingDifference, MeanLiking};
pub use line_fit::{FitPoint, LineFit};
pub use penalty::{Penalty, PenaltySide};
pub use plan::{PlanError, more_tasters, plan};
pub use quick_form::{QUICK_FORM, quick_form};
pub use ranking::{RankPair, RankingResult, least_difference, ranking_result};
pub use ranking_words::ranking_words;
pub use score_sheet::{JudgeScore, SampleScore, ScoreSheetResult, score_sheet_result, time_points};
pub use score_words::score_words;
pub use student::{student_quantile, student_two_sided};
pub use tasters_needed::{MOST_TASTERS_LOOKED_AT, tasters_needed};
pub use trends::{Trend, TrendColumn, trend_words, trends};
pub use words::probability_words;

/// Level at which a result is called significant: 5 %, as in ISO 4120, 10399, 5495 and 8587 (from memory).
pub const SIGNIFICANT: f64 = 0.05;

/// Confidence of every interval, 0 to 1, but for those of choices ([`ChoiceTest::confidence`]): 95 %, to go
/// with [`SIGNIFICANT`].
pub const CONFIDENCE: f64 = 0.95;

/// Answers below which a result only hints (our convention, no source).
pub const FEW_ANSWERS: usize = 12;
