//! Just-about-right scales, penalties, liking and Student's t.

use super::reference::rows;
use super::tasting_kit::{near, planned, scaled};
use equipour::model::{Attribute, TastingMethod};
use equipour::tasting::{
    PenaltySide, difference_words, just_right_result, liking_words, penalty_words, quick_form,
    scale_words, student_quantile, student_two_sided,
};

#[test]
fn t_meets_its_closed_forms() {
    // One, two and four degrees of freedom (Abramowitz and Stegun 26.7.3 and 26.7.4).
    for t in [0.0_f64, 0.4, 1.0, 2.5, 12.0] {
        let one = 1.0 - 2.0 / core::f64::consts::PI * t.atan();
        assert!(near(student_two_sided(t, 1.0), one, 1e-12), "{t}");
        let two = 1.0 - t / (t * t + 2.0).sqrt();
        assert!(near(student_two_sided(t, 2.0), two, 1e-12), "{t}");
        let (sine, cosine) = (t / (t * t + 4.0).sqrt(), 2.0 / (t * t + 4.0).sqrt());
        let four = 1.0 - sine * (1.0 + cosine * cosine / 2.0);
        assert!(near(student_two_sided(t, 4.0), four, 1e-12), "{t}");
        assert_eq!(student_two_sided(-t, 3.0), student_two_sided(t, 3.0));
    }
}

#[test]
fn quantiles_of_t_are_those_of_the_tables() {
    // Two-sided 5 % and 1 %, from the usual tables.
    for (freedom, five, one) in [
        (1.0, 12.706, 63.657),
        (2.0, 4.303, 9.925),
        (10.0, 2.228, 3.169),
        (30.0, 2.042, 2.750),
    ] {
        assert!(near(student_quantile(0.05, freedom), five, 5e-4));
        assert!(near(student_quantile(0.01, freedom), one, 5e-4));
    }
}

#[test]
fn the_constructed_penalty_example_comes_out() {
    // sensory_penalty_example.csv is constructed, with its results worked out in its head.
    let table = rows("sensory_penalty_example.csv");
    let answer = |row: &super::reference::Row| {
        [(
            row.number("sweetness_jar_5pt") as u8,
            row.number("liking_9pt") as u8,
        )]
    };
    let answers: Vec<[(u8, u8); 1]> = table.iter().map(answer).collect();
    let answers: Vec<&[(u8, u8)]> = answers.iter().map(|row| &row[..]).collect();
    let found = just_right_result(&scaled(Attribute::Sweet, &answers)).expect("scales");
    let sample = &found.samples[0];
    assert!(near(sample.liking.mean.expect("answers"), 6.4, 1e-12));
    let scale = &sample.scales[0];
    assert_eq!(
        (scale.too_little(), scale.just_right(), scale.too_much()),
        (4, 9, 7)
    );
    // One 1, three 2, four 4, three 5: (−2 − 3 + 4 + 6)/20, by hand.
    assert!(near(scale.mean_deviation.expect("answers"), 0.25, 1e-12));
    let [little, much] = scale.penalties;
    let check = |found: Option<f64>, wanted: f64| {
        let found = found.expect("both groups");
        assert!(near(found, wanted, 5.1e-5), "{found} {wanted}");
    };
    assert_eq!(
        (little.side, little.count, little.counts),
        (PenaltySide::TooLittle, 4, true)
    );
    assert!(near(little.share, 0.2, 1e-12) && near(much.share, 0.35, 1e-12));
    check(little.liking, 5.75);
    check(little.drop, 1.9167);
    check(little.weighted, 0.3833);
    assert_eq!((much.count, much.counts), (7, true));
    check(much.liking, 5.1429);
    check(much.drop, 2.5238);
    check(much.weighted, 0.8833);
}

#[test]
fn a_group_below_a_fifth_is_shown_but_not_concluded_from() {
    let mut answers: Vec<&[(u8, u8)]> = vec![&[(3, 7)], &[(3, 8)], &[(3, 7)], &[(3, 6)], &[(3, 8)]];
    answers.push(&[(4, 3)]);
    let found = just_right_result(&scaled(Attribute::Sour, &answers)).expect("scales");
    let [little, much] = found.samples[0].scales[0].penalties;
    assert!(!much.counts && much.drop.is_some() && much.p.is_none());
    assert_eq!((little.count, little.drop), (0, None));
    let said = penalty_words(Attribute::Sour, &much);
    assert!(
        said.ends_with("below 20 % of answers, nothing is concluded."),
        "{said}"
    );
    let said = penalty_words(Attribute::Sour, &little);
    assert_eq!(
        said,
        "Nobody who said how they like it finds it not sour enough."
    );
}

#[test]
fn a_drop_is_judged_without_assuming_the_same_scatter() {
    // Likings 6 7 8 against 3 4 5: t = 3/√(2/3), four degrees of freedom, by hand.
    let answers: [&[(u8, u8)]; 6] = [
        &[(3, 6)],
        &[(3, 7)],
        &[(3, 8)],
        &[(5, 3)],
        &[(5, 4)],
        &[(4, 5)],
    ];
    let found = just_right_result(&scaled(Attribute::Strong, &answers)).expect("scales");
    let much = found.samples[0].scales[0].penalties[1];
    let t = 3.0 / (2.0_f64 / 3.0).sqrt();
    let (sine, cosine) = (t / (t * t + 4.0).sqrt(), 2.0 / (t * t + 4.0).sqrt());
    let wanted = 1.0 - sine * (1.0 + cosine * cosine / 2.0);
    assert!(near(much.p.expect("scatter"), wanted, 1e-12));
    let said = penalty_words(Attribute::Strong, &much);
    assert!(
        said.contains("3 tasters (50 %) too strong, liking it 3 less than"),
        "{said}"
    );
}

#[test]
fn differences_of_liking_come_from_those_who_answered_for_both() {
    // Differences 1 2 3: t = 2√3 with two degrees of freedom, p = 1 − t/√(t² + 2), by hand.
    let answers: [&[(u8, u8)]; 5] = [
        &[(3, 6), (3, 5)],
        &[(3, 7), (3, 5)],
        &[(3, 8), (3, 5)],
        &[(3, 9), (3, 0)],
        &[(0, 0), (0, 0)],
    ];
    let found = just_right_result(&scaled(Attribute::Sweet, &answers)).expect("scales");
    let difference = found.differences[0];
    assert_eq!((difference.pairs, difference.mean), (3, Some(2.0)));
    let t = 2.0 * 3.0_f64.sqrt();
    let wanted = 1.0 - t / (t * t + 2.0).sqrt();
    assert!(near(difference.p.expect("scatter"), wanted, 1e-12));
    assert_eq!(difference.p, difference.p_among_all);
    let bounds = difference.interval.expect("scatter");
    // ± 4.303/√3, the quantile of two degrees of freedom.
    assert!(near(bounds.low, 2.0 - 4.303 / 3.0_f64.sqrt(), 5e-4));
    let said = difference_words(&difference, &["A".to_owned(), "B".to_owned()]);
    assert!(
        said.starts_with("A against B: +2.00 by 3 tasters, no evidence"),
        "{said}"
    );
}

#[test]
fn a_probability_among_many_pairs_is_raised() {
    let answers: [&[(u8, u8)]; 4] = [
        &[(3, 9), (3, 5), (3, 5)],
        &[(3, 8), (3, 5), (3, 4)],
        &[(3, 9), (3, 4), (3, 5)],
        &[(3, 8), (3, 4), (3, 5)],
    ];
    let found = just_right_result(&scaled(Attribute::Sweet, &answers)).expect("scales");
    let mut by_p = found.differences.clone();
    by_p.sort_by(|a, b| a.p.partial_cmp(&b.p).expect("numbers"));
    let p = |place: usize| by_p[place].p.expect("scatter");
    let raised = |place: usize| by_p[place].p_among_all.expect("scatter");
    assert!(near(raised(0), 3.0 * p(0), 1e-15));
    assert!(near(raised(1), (2.0 * p(1)).max(raised(0)), 1e-15));
    assert!(near(raised(2), p(2).max(raised(1)), 1e-15));
}

#[test]
fn scales_of_one_ballot_are_judged_together() {
    // Eight of eight find it too sweet, 2/256; five of six too sour, 2·7/64: by hand.
    let method = TastingMethod::JustRight {
        attributes: vec![Attribute::Sweet, Attribute::Sour, Attribute::Aroma],
    };
    let mut made = planned(method, 1, 8);
    for (place, taster) in made.tasters.iter_mut().enumerate() {
        let sour = [4, 4, 5, 4, 4, 2, 3, 3][place];
        let right = &mut taster.cups[0].right;
        right.extend([
            (Attribute::Sweet, 4),
            (Attribute::Sour, sour),
            (Attribute::Aroma, 3),
        ]);
    }
    let found = just_right_result(&made).expect("scales");
    let p = |place: usize| {
        let scale = &found.samples[0].scales[place];
        (scale.p_leaning, scale.p_leaning_among_all)
    };
    // Nobody leans on aroma, so two scales are judged.
    assert!(near(p(0).0, 2.0 / 256.0, 1e-15) && near(p(0).1, 4.0 / 256.0, 1e-15));
    assert!(near(p(1).0, 14.0 / 64.0, 1e-15) && p(1).0 == p(1).1);
    assert_eq!(p(2), (1.0, 1.0));
}

#[test]
fn one_answer_or_the_same_throughout_gives_no_interval() {
    let one = just_right_result(&scaled(Attribute::Sweet, &[&[(3, 7)]])).expect("scales");
    let liking = one.samples[0].liking;
    assert_eq!(
        (liking.answers, liking.mean, liking.interval),
        (1, Some(7.0), None)
    );
    assert_eq!(
        liking_words(&liking),
        "Liking 7 of 9 (1 answer; no interval)."
    );
    let same = just_right_result(&scaled(Attribute::Sweet, &[&[(3, 7)], &[(3, 7)]]));
    assert_eq!(same.expect("scales").samples[0].liking.interval, None);
}

#[test]
fn leaning_is_a_sign_test_that_just_right_does_not_join() {
    // Six too sweet, none not sweet enough, four just right: 2/64, by hand.
    let mut answers: Vec<&[(u8, u8)]> = vec![&[(4, 0)]; 6];
    answers.extend(vec![&[(3, 0)][..]; 4]);
    answers.push(&[(0, 5)]);
    let found = just_right_result(&scaled(Attribute::Sweet, &answers)).expect("scales");
    let scale = &found.samples[0].scales[0];
    assert_eq!((scale.missing, scale.answers()), (1, 10));
    assert!(near(scale.p_leaning, 2.0 / 64.0, 1e-15));
    assert_eq!(
        scale_words(scale),
        "6 of 10 too sweet, 0 not sweet enough, 4 just right: they lean to too sweet (p = 0.031); few answers, a hint only."
    );
}

#[test]
fn without_tasters_scales_claim_nothing() {
    let found = just_right_result(&planned(quick_form(), 3, 0)).expect("scales");
    assert_eq!((found.samples.len(), found.differences.len()), (3, 3));
    let sample = &found.samples[0];
    assert_eq!(sample.scales.len(), 4);
    assert_eq!(sample.scales[3].attribute, Attribute::Dilution);
    assert_eq!(
        (sample.scales[0].mean_deviation, sample.scales[0].p_leaning),
        (None, 1.0)
    );
    assert_eq!(sample.liking.mean, None);
    assert_eq!(
        just_right_result(&planned(TastingMethod::Ranking, 2, 0)),
        None
    );
}
