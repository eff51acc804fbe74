//! What just-about-right scales and liking say, in words.

use super::just_right::ScaleResult;
use super::liking::{LikingDifference, MeanLiking};
use super::penalty::{Penalty, PenaltySide};
use super::words::{counted, mean_text, name_of, probability_words, tasters_words, whole};
use super::{FEW_ANSWERS, SIGNIFICANT};
use crate::model::Attribute;
use crate::units::{percent, signed};

/// How the answers to one scale spread, and whether they lean: "6 of 10 too sweet, 1 not sweet
/// enough, 3 just right: …".
pub fn scale_words(scale: &ScaleResult) -> String {
    let answers = scale.answers();
    if answers == 0 {
        return format!("Nobody has answered for {} yet.", scale.attribute.name());
    }
    let (little, much) = scale.attribute.ends();
    let spread = format!(
        "{} of {} {much}, {} {little}, {} just right",
        whole(scale.too_much()),
        whole(answers),
        whole(scale.too_little()),
        whole(scale.just_right())
    );
    let p = probability_words(scale.p_leaning_among_all);
    let leaning = if scale.too_little() + scale.too_much() == 0 {
        "nobody wants it otherwise".to_owned()
    } else if scale.p_leaning_among_all > SIGNIFICANT {
        format!("no evidence that they lean to one side ({p})")
    } else if scale.too_much() > scale.too_little() {
        format!("they lean to {much} ({p})")
    } else {
        format!("they lean to {little} ({p})")
    };
    let few = if answers < FEW_ANSWERS {
        "; few answers, a hint only"
    } else {
        ""
    };
    format!("{spread}: {leaning}{few}.")
}

/// What one side of just right costs in liking.
pub fn penalty_words(attribute: Attribute, penalty: &Penalty) -> String {
    let (little, much) = attribute.ends();
    let end = match penalty.side {
        PenaltySide::TooLittle => little,
        PenaltySide::TooMuch => much,
    };
    if penalty.count == 0 {
        return format!("Nobody who said how they like it finds it {end}.");
    }
    let who = tasters_words(penalty.count);
    let share = percent(penalty.share, 0);
    let Some(drop) = penalty.drop else {
        return format!("{who} ({share}) {end}; nobody finds it just right to compare with.");
    };
    let like = if drop < 0.0 { "more" } else { "less" };
    let said = format!(
        "{who} ({share}) {end}, liking it {} {like}",
        mean_text(drop.abs())
    );
    if !penalty.counts {
        return format!("{said}: below 20 % of answers, nothing is concluded.");
    }
    match penalty.p_among_all {
        Some(p) if p <= SIGNIFICANT => {
            format!(
                "{said} than those who find it just right ({}).",
                probability_words(p)
            )
        }
        Some(p) => format!("{said}: that may be chance ({}).", probability_words(p)),
        None => format!("{said}: too few answers to tell it from chance."),
    }
}

/// How a sample is liked.
pub fn liking_words(liking: &MeanLiking) -> String {
    let Some(mean) = liking.mean else {
        return "Nobody has said how they like it.".to_owned();
    };
    let answers = counted(liking.answers, "answer", "answers");
    let mean = mean_text(mean);
    liking.interval.map_or_else(
        || format!("Liking {mean} of 9 ({answers}; no interval)."),
        |bounds| {
            let (low, high) = (mean_text(bounds.low), mean_text(bounds.high));
            format!("Liking {mean} of 9, {low} to {high} with 95 % confidence ({answers}).")
        },
    )
}

/// Whether one sample is liked more than another.
pub fn difference_words(difference: &LikingDifference, names: &[String]) -> String {
    let first = name_of(names, difference.first);
    let second = name_of(names, difference.second);
    let Some(mean) = difference.mean else {
        return format!("Nobody has said how they like both {first} and {second}.");
    };
    let by = tasters_words(difference.pairs);
    let (Some(p), Some(bounds)) = (difference.p_among_all, difference.interval) else {
        let mean = signed(mean, 2);
        return format!("{first} against {second}: {mean} by {by}; that is not enough to judge.");
    };
    let p = (p, probability_words(p));
    if p.0 > SIGNIFICANT {
        let mean = signed(mean, 2);
        return format!(
            "{first} against {second}: {mean} by {by}, no evidence of a difference ({}).",
            p.1
        );
    }
    let (more, less) = if mean > 0.0 {
        (&first, &second)
    } else {
        (&second, &first)
    };
    let ends = [bounds.low.abs(), bounds.high.abs()].map(mean_text);
    let ends = if mean > 0.0 {
        ends
    } else {
        [ends[1].clone(), ends[0].clone()]
    };
    let few = if difference.pairs < FEW_ANSWERS {
        "; few answers, a hint only"
    } else {
        ""
    };
    format!(
        "{more} is liked {} more than {less} by {by}, {} to {} with 95 % confidence ({}){few}.",
        mean_text(mean.abs()),
        ends[0],
        ends[1],
        p.1
    )
}
