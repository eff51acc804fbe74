//! The program's picture: every size is its drawing, rendered again.

use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree};
use std::path::PathBuf;

/// Sides of the pictures, px: those of the hicolor icon theme.
const SIDES: [u32; 8] = [16, 24, 32, 48, 64, 128, 256, 512];

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("src/assets/icon")
}

fn picture(side: u32) -> PathBuf {
    folder().join(format!("equipour-{side}.png"))
}

fn rendered(side: u32) -> Pixmap {
    let drawing = std::fs::read_to_string(folder().join("equipour.svg")).expect("it is there");
    let tree = Tree::from_str(&drawing, &Options::default()).expect("it is a drawing");
    let mut pixmap = Pixmap::new(side, side).expect("a small picture");
    let scale = side as f32 / tree.size().width();
    resvg::render(
        &tree,
        Transform::from_scale(scale, scale),
        &mut pixmap.as_mut(),
    );
    pixmap
}

#[test]
#[ignore = "writes src/assets/icon/*.png anew; run it by name after a change of the drawing"]
fn write_the_icons() {
    for side in SIDES {
        rendered(side)
            .save_png(picture(side))
            .expect("it is written");
    }
}

#[test]
fn every_picture_of_the_icon_is_its_drawing() {
    for side in SIDES {
        let kept = Pixmap::load_png(picture(side)).expect("it is a picture");
        assert_eq!((kept.width(), kept.height()), (side, side));
        assert_eq!(kept, rendered(side), "{side} px: run write_the_icons");
    }
}

#[test]
fn the_icon_shows_its_pour_its_glass_and_both_weights_at_the_smallest_size() {
    let small = rendered(SIDES[0]);
    let at = |x, y| {
        let colour = small.pixel(x, y).expect("within it").demultiply();
        [colour.red(), colour.green(), colour.blue()].map(f64::from)
    };
    let ground = at(8, 15);
    // Pour, filled bowl, foot, left and right weight.
    for (x, y) in [(8, 3), (8, 8), (8, 13), (2, 6), (13, 6)] {
        let here = at(x, y);
        let apart: f64 = (0..3).map(|part| (here[part] - ground[part]).abs()).sum();
        assert!(apart > 150.0, "{here:?} at {x}, {y} is lost on {ground:?}");
    }
    assert_ne!(at(2, 6), at(13, 6), "the weights are told apart");
}
