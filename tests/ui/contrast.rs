//! Colours can be told from their ground and from each other, whoever looks.

use crate::vision::{Sight, contrast, difference};
use crate::workbench::{CTRL, Workbench, demo};
use eframe::egui::{Color32, Key, Shape, vec2};
use equipour::chart::MarkKind;
use equipour::store::{Settings, ThemeChoice};
use equipour::ui::{mark_shapes, theme_hues, theme_pairs};

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

/// Pairs 1, 4, 7, 10, 17, 22, 25 and 31 of table 1 of Sharma, Wu and Dalal (2005); colour-science 0.4.7
/// gives the same.
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

/// What a mark looks like without its colour: outlines with their sizes, filled or open.
fn outlines(kind: MarkKind) -> Vec<(&'static str, bool, usize, f32)> {
    let card = theme_pairs(false).into_iter();
    let card = card.map(|pair| (pair.name, pair.ground));
    let card = card
        .filter(|(name, _)| name == "text on card")
        .map(|(_, ground)| ground);
    let card: Vec<[u8; 3]> = card.collect();
    let is_filled = |color: Color32| {
        color != Color32::TRANSPARENT && !card.contains(&[color.r(), color.g(), color.b()])
    };
    let shapes = mark_shapes(kind).into_iter();
    let read = shapes.map(|shape| match shape {
        Shape::Circle(circle) => ("disc", is_filled(circle.fill), 0, circle.radius),
        Shape::Rect(rect) => ("box", is_filled(rect.fill), 4, rect.rect.width()),
        Shape::Path(path) => {
            let far = path.points.iter().map(|point| point.to_vec2().length());
            let reach = far.fold(0.0, f32::max);
            ("polygon", is_filled(path.fill), path.points.len(), reach)
        }
        Shape::LineSegment { points, .. } => ("line", true, 2, points[0].distance(points[1])),
        other => panic!("{kind:?} is drawn with {other:?}"),
    });
    read.collect()
}

#[test]
fn every_kind_of_mark_has_a_shape_or_a_size_of_its_own() {
    let kinds = [
        MarkKind::Present,
        MarkKind::Parent,
        MarkKind::Earlier,
        MarkKind::Starred,
        MarkKind::Classic,
        MarkKind::OwnClassic,
        MarkKind::Incomplete,
        MarkKind::Target,
        MarkKind::Ghost,
        MarkKind::Reading,
    ];
    for (place, kind) in kinds.into_iter().enumerate() {
        for other in &kinds[..place] {
            let (one, two) = (outlines(kind), outlines(*other));
            // Half as large again is seen without a ruler.
            let alike = one.len() == two.len()
                && one.iter().zip(&two).all(|(a, b)| {
                    let ratio = a.3.max(b.3) / a.3.min(b.3);
                    (a.0, a.1, a.2) == (b.0, b.1, b.2) && ratio < 1.45
                });
            assert!(!alike, "{kind:?} and {other:?} are both drawn as {one:?}");
        }
    }
}

#[test]
fn each_part_of_the_balance_has_a_sign_of_its_own_wherever_it_has_a_colour() {
    let mut bench = Workbench::demo();
    let signs = [
        ("\u{25cf}", "sweet"),
        ("\u{25b2}", "sour"),
        ("\u{25a0}", "strength"),
    ];
    for tab in ["What brings what", "How sure"] {
        bench.choose(tab);
        for (sign, name) in signs {
            assert_eq!(bench.painted(&format!("{sign} {name}")), 1, "{tab}: {name}");
            for (other, _) in signs.iter().filter(|(other, _)| *other != sign) {
                assert_eq!(
                    bench.painted(&format!("{other} {name}")),
                    0,
                    "{tab}: {name}"
                );
            }
        }
    }
}

/// Colours of every opaque text of the last frame, with a few of its words.
fn inks(shape: &Shape, found: &mut Vec<(String, Color32)>) {
    match shape {
        Shape::Text(text) if text.opacity_factor >= 1.0 => {
            for section in &text.galley.job.sections {
                let color = match section.format.color {
                    Color32::PLACEHOLDER => text.fallback_color,
                    color => color,
                };
                let color = text.override_text_color.unwrap_or(color);
                let words = text
                    .galley
                    .text()
                    .get(section.byte_range.start.0..section.byte_range.end.0);
                found.push((words.unwrap_or_default().to_owned(), color));
            }
        }
        Shape::Vec(shapes) => shapes.iter().for_each(|shape| inks(shape, found)),
        _ => {}
    }
}

#[test]
fn every_text_that_is_painted_can_be_read_on_page_and_card() {
    for theme in [ThemeChoice::Light, ThemeChoice::Dark] {
        let settings = Settings {
            theme,
            ..Settings::default()
        };
        let mut bench = Workbench::sized(demo(), settings, vec2(1280.0, 800.0));
        let pairs = theme_pairs(theme == ThemeChoice::Dark).into_iter();
        let grounds: Vec<[u8; 3]> = pairs
            .filter(|pair| pair.name == "text on page" || pair.name == "text on card")
            .map(|pair| pair.ground)
            .collect();
        assert_eq!(grounds.len(), 2);
        for page in [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5] {
            bench.chord(CTRL, page);
            let mut found = Vec::new();
            for shape in &bench.harness.output().shapes {
                inks(&shape.shape, &mut found);
            }
            assert!(found.len() > 30, "{page:?}");
            for (words, color) in found {
                // What cannot be used is faded; WCAG 2.2 leaves that out (1.4.3).
                if color.a() < 255 {
                    continue;
                }
                let ink = [color.r(), color.g(), color.b()];
                for ground in &grounds {
                    let found = contrast(ink, *ground);
                    assert!(found >= 4.5, "{theme:?}, {page:?}: {words} has {found:.2}");
                }
            }
        }
    }
}
