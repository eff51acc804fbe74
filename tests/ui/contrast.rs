//! Colours can be told from their ground and from each other, whoever looks.

use crate::vision::{Sight, contrast, difference};
use equipour::ui::{theme_hues, theme_pairs};

/// Least CIEDE2000 difference of two hues. About 1 is just seen between patches that touch; marks of
/// a few points that lie apart need several times that, and ten is what we ask for.
const LEAST_DIFFERENCE: f64 = 10.0;
/// Least difference in lightness L* between sweet, sour, strength and bitter, by which a grey copy keeps
/// them apart; about twice what is seen at once.
const LEAST_LIGHTNESS: f64 = 5.0;

#[test]
fn black_on_white_has_a_contrast_of_21() {
    assert!((contrast([0; 3], [255; 3]) - 21.0).abs() < 1.0e-9);
    // #767676 is the lightest grey that passes on white: 4.54.
    assert!((contrast([0x76; 3], [255; 3]) - 4.54).abs() < 0.005);
}

/// Pairs 1, 4, 7, 10, 17, 22, 25 and 31 of table 1 of Sharma, Wu and Dalal (2005).
#[test]
fn the_colour_difference_meets_the_published_pairs() {
    for (one, other, published) in [
        ([50.0, 2.6772, -79.7751], [50.0, 0.0, -82.7485], 2.0425),
        ([50.0, -1.3802, -84.2814], [50.0, 0.0, -82.7485], 1.0),
        ([50.0, 0.0, 0.0], [50.0, -1.0, 2.0], 2.3669),
        ([50.0, 2.49, -0.001], [50.0, -2.49, 0.0010], 7.1792),
        ([50.0, 2.5, 0.0], [73.0, 25.0, -18.0], 27.1492),
        ([50.0, 2.5, 0.0], [50.0, 3.2592, 0.3350], 1.0),
        (
            [60.2574, -34.0099, 36.2677],
            [60.4626, -34.1751, 39.4387],
            1.2644,
        ),
        (
            [90.8027, -2.0831, 1.4410],
            [91.1528, -1.6435, 0.0447],
            1.4441,
        ),
    ] {
        let found = difference(one, other);
        assert!(
            (found - published).abs() < 5.0e-5,
            "{one:?} {other:?}: {found}"
        );
        assert!((difference(other, one) - found).abs() < 1.0e-9);
    }
}

#[test]
fn grey_looks_the_same_to_everybody() {
    for sight in Sight::ALL {
        let seen = sight.lab([119; 3]);
        let usual = Sight::Usual.lab([119; 3]);
        assert!(difference(seen, usual) < 0.05, "{sight:?} sees {seen:?}");
    }
    let red_and_green = ([200, 60, 60], [110, 110, 40]);
    let apart = |sight: Sight| difference(sight.lab(red_and_green.0), sight.lab(red_and_green.1));
    assert!(apart(Sight::Deuteranopia) < apart(Sight::Usual) / 2.0);
}

#[test]
fn everything_drawn_stands_out_from_its_ground_in_both_themes() {
    for dark in [false, true] {
        let pairs = theme_pairs(dark);
        assert!(pairs.len() > 80);
        let failing: Vec<String> = pairs
            .iter()
            .filter(|pair| contrast(pair.ink, pair.ground) < pair.least)
            .map(|pair| format!("{} {:.2}", pair.name, contrast(pair.ink, pair.ground)))
            .collect();
        assert!(failing.is_empty(), "dark: {dark}, {failing:?}");
    }
}

#[test]
fn hues_are_told_apart_with_every_kind_of_colour_blindness() {
    for dark in [false, true] {
        let hues = theme_hues(dark);
        for sight in Sight::ALL {
            for (place, (name, color)) in hues.iter().enumerate() {
                for (other_name, other) in &hues[..place] {
                    let apart = difference(sight.lab(*color), sight.lab(*other));
                    assert!(
                        apart > LEAST_DIFFERENCE,
                        "dark: {dark}, {sight:?}: {name} and {other_name} are {apart:.1} apart"
                    );
                }
            }
        }
    }
}

#[test]
fn the_hues_of_a_balance_are_told_apart_in_grey() {
    for dark in [false, true] {
        let main = ["sweet", "sour", "strength", "bitter"];
        let mut lightness: Vec<f64> = theme_hues(dark)
            .into_iter()
            .filter(|(name, _)| main.contains(name))
            .map(|(_, color)| Sight::Usual.lab(color)[0])
            .collect();
        lightness.sort_by(f64::total_cmp);
        assert_eq!(lightness.len(), 4);
        let least = lightness.windows(2).map(|pair| pair[1] - pair[0]);
        let least = least.fold(f64::INFINITY, f64::min);
        assert!(least > LEAST_LIGHTNESS, "dark: {dark}, {lightness:?}");
    }
}
